//! R57: All results are kept: the tests of an element are numbered without a gap.

use crate::{
    ground::finding::{Finding, Severity},
    plant::Test,
    record::{
        Record,
        common::ElementMeasurement,
        kinds::{
            Body,
            seal_inspection::{Coupon, Destructive, Visual},
        },
    },
    rule::{Outcome, Rule, View},
};

/// All results are kept: the tests of an element are numbered without a gap.
pub static RULE: Rule = Rule {
    id: "R57",
    severity: Severity::Blocks,
    demands: "All results are kept: the tests of an element are numbered without a gap.",
    protects: "a test that was left out",
    explained: "Never: it is mended, or what it concerns is not released.",
    check,
};

fn finding(message: String) -> Finding {
    Finding::new("R57", Severity::Blocks, message)
}

fn check(view: &View) -> Outcome {
    let mut out = Outcome::of(say!("tested elements"));
    let modules = view
        .plant
        .modules
        .iter()
        .map(|(id, module)| (id, &module.tests));
    let assemblies = view
        .plant
        .assemblies
        .iter()
        .map(|(id, assembly)| (id, &assembly.tests));
    for (id, tests) in modules
        .chain(assemblies)
        .filter(|(_, tests)| !tests.is_empty())
    {
        out.look();
        let mut by_stage: std::collections::BTreeMap<
            Option<&str>,
            Vec<(u64, &crate::record::Record)>,
        > = std::collections::BTreeMap::new();
        for test in tests
            .iter()
            .filter_map(|index| Test::of(view.plant.record(*index)))
        {
            by_stage
                .entry(test.stage)
                .or_default()
                .push((test.test.test_number.value, test.record));
        }
        for numbers in by_stage.values_mut() {
            numbers.sort_by_key(|(number, _)| *number);
            for (due, (number, record)) in (1..).zip(numbers.iter()) {
                if *number != due {
                    out.find(
                        finding(say!(
                            "{id}: {id2} is test {number}, and {due} is due.",
                            id = id,
                            id2 = &*record.id,
                            number = number,
                            due = due
                        ))
                        .advise(say!("Find test {due}, or correct the number.", due = due))
                        .at(record.place())
                        .about(&**id),
                    );
                    break;
                }
            }
        }
    }
    for record in view
        .plant
        .records()
        .current()
        .filter(|record| record.revision > 1)
    {
        for old in view.plant.earlier(record) {
            let changed = changed(old, record);
            if !changed.is_empty() {
                let element = Test::of(record).map_or(&*record.id.text, |test| test.element);
                out.find(
                    finding(say!("{id} revision {revision} changes what revision {revision2} measured: {changed}.", id = &*record.id, revision = record.revision, revision2 = old.revision, changed = changed.join("; ")))
                    .advise(say!("A repeat is a record of its own, with its own run; the first result stands until then."))
                    .at(record.place())
                    .about(element)
                    .about(&*record.id.text),
                );
            }
        }
    }
    out
}

/// What a later revision says otherwise of the same measurements: traces, verdicts, raw values.
fn changed(old: &Record, new: &Record) -> Vec<String> {
    let mut out = Vec::new();
    if let (Some(before), Some(after)) = (Test::of(old), Test::of(new)) {
        for was in &before.test.measurements {
            let word = was.quantity.word();
            let Some(is) = after
                .test
                .measurements
                .iter()
                .find(|is| is.quantity == was.quantity)
            else {
                out.push(say!("{word} is left out", word = word));
                continue;
            };
            let digest =
                |m: &ElementMeasurement| m.trace.as_ref().map(|trace| trace.sha256.text.clone());
            if digest(was).is_some() && digest(was) != digest(is) {
                out.push(say!("another trace of {word}", word = word));
            }
            let said = |m: &ElementMeasurement| {
                m.instrument_reported.as_ref().and_then(|said| said.verdict)
            };
            if said(was).is_some() && said(was) != said(is) {
                out.push(say!("another verdict on {word}", word = word));
            }
        }
    }
    if let (Body::SealInspection(before), Body::SealInspection(after)) = (&old.body, &new.body) {
        for was in before.visual.iter() {
            let same = |is: &&Visual| {
                let id = |seal: &Visual| {
                    [&seal.module_id, &seal.assembly_id]
                        .map(|id| id.as_ref().map(|id| id.text.clone()))
                };
                let end = |seal: &Visual| seal.end.as_ref().map(|end| end.text.clone());
                let joint = |seal: &Visual| seal.joint.map(|joint| joint.value);
                id(is) == id(was) && end(is) == end(was) && joint(is) == joint(was)
            };
            match after.visual.iter().find(same) {
                Some(is) if is.verdict != was.verdict => {
                    out.push(say!("another verdict on a seal").into())
                }
                Some(_) => {}
                None => out.push(say!("a seal that was looked at is left out").into()),
            }
        }
        let coupons = |test: &Option<Destructive>| -> Vec<(Box<str>, Option<Box<str>>)> {
            let force = |coupon: &Coupon| {
                coupon
                    .peel_force
                    .as_ref()
                    .or(coupon.joint_pull_force.as_ref())
                    .map(|force| force.text.clone())
            };
            test.iter()
                .flat_map(|test| test.results.iter())
                .map(|coupon| (coupon.coupon.text.clone(), force(coupon)))
                .collect()
        };
        let after = coupons(&after.destructive);
        for (id, force) in coupons(&before.destructive) {
            match after.iter().find(|(other, _)| *other == id) {
                Some((_, other)) if *other != force => {
                    out.push(say!("another force of coupon {id}", id = id))
                }
                Some(_) => {}
                None => out.push(say!("coupon {id} is left out", id = id)),
            }
        }
    }
    out
}

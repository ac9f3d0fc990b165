//! R52: Sample size and acceptability constant of the plan are met.

use std::collections::BTreeSet;

use crate::{
    ground::finding::{Finding, Severity},
    record::{
        Record,
        common::Measured,
        kinds::{
            Body,
            product_specification::{CountOrAll, Stage},
            seal_inspection::{Coupon, Destructive},
            seal_run::{Seal, SealRun},
        },
    },
    rule::{Outcome, Rule, View},
    verdict::Verdict,
};

/// Sample size and acceptability constant of the plan are met.
pub static RULE: Rule = Rule {
    id: "R52",
    severity: Severity::Blocks,
    demands: "Sample size and acceptability constant of the plan are met.",
    protects: "a sample that is too small to say anything",
    explained: "Never: it is mended, or what it concerns is not released.",
    check,
};

fn finding(message: String) -> Finding {
    Finding::new("R52", Severity::Blocks, message)
}

/// Coupons that do not count: named, and to be explained where the least force of a sample is among them.
fn left_out(record: &Record, test: &Destructive, out: &mut Outcome) {
    let force = |coupon: &Coupon| {
        let own = coupon
            .peel_force
            .as_ref()
            .or(coupon.joint_pull_force.as_ref());
        own.map(|own| (own.si, own.text.clone()))
    };
    let counts = |coupon: &&Coupon| coupon.valid.is_none_or(|valid| valid.value);
    let counted = test.results.iter().filter(counts).filter_map(force);
    let least = counted.map(|own| own.0).fold(f64::INFINITY, f64::min);
    for coupon in test.results.iter().filter(|coupon| !counts(coupon)) {
        let Some((si, text)) = force(coupon) else {
            continue;
        };
        let why = coupon
            .note
            .as_ref()
            .map_or(String::new(), |note| format!(" ({})", &**note));
        let below = si < least;
        let message = match below {
            true => say!(
                "{id}: coupon {coupon} is not counted{why}: {force}, the least of its sample.",
                id = &*record.id,
                coupon = &*coupon.coupon,
                why = why,
                force = text
            ),
            false => say!(
                "{id}: coupon {coupon} is not counted{why}: {force}.",
                id = &*record.id,
                coupon = &*coupon.coupon,
                why = why,
                force = text
            ),
        };
        let mut found = finding(message)
            .advise(say!("A weak coupon that is left out makes a strong sample: say in a deviation why it does not count."))
            .at(record.at(coupon.spot))
            .about(&*record.id.text);
        found.severity = if below {
            Severity::Explain
        } else {
            Severity::Note
        };
        out.find(found);
    }
}

/// The lots whose elements a run sealed.
fn lots_of<'a>(view: &View<'a>, run: &'a SealRun) -> impl Iterator<Item = &'a str> {
    let plant = view.plant;
    run.items.iter().filter_map(|item| plant.lot_of(&item.item))
}

fn check(view: &View) -> Outcome {
    let mut out = Outcome::of(say!("inspections by a plan"));
    for (record, body) in view.plant.records().seal_inspections() {
        let Some(test) = &body.destructive else {
            continue;
        };
        let Some(id) = &body.sampling_plan else {
            out.look();
            out.find(
                finding(say!(
                    "{id}: coupons were tested and no sampling_plan is named.",
                    id = &*record.id
                ))
                .advise(say!("Name the plan; without it nothing is decided."))
                .at(record.at(test.spot))
                .about(&*record.id.text)
                .about(&*body.seal_run.text),
            );
            continue;
        };
        let Some((_, spec)) = view.plant.spec_of(record) else {
            continue;
        };
        let Some(plan) = spec
            .sampling_plans
            .iter()
            .find(|plan| plan.id.text == id.text)
        else {
            out.look();
            out.find(
                finding(say!(
                    "{id}: the specification has no plan {id2}.",
                    id = &*record.id,
                    id2 = &**id
                ))
                .advise(say!("Correct the plan's name."))
                .at(record.at(id.spot))
                .about(&*record.id.text),
            );
            continue;
        };
        out.look();
        let peel = test
            .results
            .iter()
            .any(|coupon| coupon.peel_force.is_some());
        let quantity = if peel {
            Measured::PeelForce
        } else {
            Measured::JointPullForce
        };
        let due = spec
            .limit(Stage::Seal, quantity)
            .and_then(|accepted| accepted.sampling.as_ref());
        if let Some(due) = due.filter(|due| due.text != id.text) {
            out.find(
                finding(say!(
                    "{id}: sampled by {id2}, and the specification samples {quantity} by {due}.",
                    id = &*record.id,
                    id2 = &**id,
                    quantity = quantity.said(),
                    due = &**due
                ))
                .advise(say!("Sample by the plan that the limit names."))
                .at(record.at(id.spot))
                .about(&*record.id.text),
            );
        }
        if plan
            .acceptability_constant
            .as_ref()
            .is_some_and(|k| k.value <= 0.0)
        {
            out.find(
                finding(say!(
                    "plan {id} accepts whatever is measured: its constant is not above zero.",
                    id = &**id
                ))
                .advise(say!("Enter the constant of the standard."))
                .at(record.at(id.spot))
                .about(&*record.id.text),
            );
        }
        if plan.sample_size == CountOrAll::Count(0) {
            out.find(
                finding(say!(
                    "plan {id} of the specification asks for no sample.",
                    id = &**id
                ))
                .advise(say!("Correct the plan."))
                .at(record.at(id.spot))
                .about(&*record.id.text),
            );
        }
        // A coupon that nobody made in the run is none of its sample.
        if let Some((run, made)) = view.plant.seal_run(&body.seal_run)
            && !made.coupons.is_empty()
        {
            for coupon in test.results.iter() {
                if !made
                    .coupons
                    .iter()
                    .any(|own| own.text == coupon.coupon.text)
                {
                    out.find(
                        finding(say!("{id}: {coupon} is none of the coupons of {id2}.", id = &*record.id, coupon = &*coupon.coupon, id2 = &*run.id))
                            .advise(say!("Find out where it was made; a coupon of another run says nothing of this one."))
                            .at(record.at(coupon.spot))
                            .about(&*record.id.text),
                    );
                }
            }
        }
        left_out(record, test, &mut out);
        let valid = test
            .results
            .iter()
            .filter(|coupon| coupon.valid.is_none_or(|valid| valid.value))
            .count();
        if let CountOrAll::Count(due) = plan.sample_size
            && (valid as u64) < due
        {
            out.find(
                finding(say!(
                    "{id} asks {due} coupons, {id2} has {valid} that count.",
                    id = &**id,
                    due = due,
                    id2 = &*record.id,
                    valid = valid
                ))
                .advise(say!(
                    "Test a spare, or open a deviation. {valid} is not {due}.",
                    valid = valid,
                    due = due
                ))
                .at(record.at(test.spot))
                .about(&*record.id.text)
                .about(&*body.seal_run.text),
            );
        }
        for computed in view.figures_of(record).iter().filter(|computed| {
            matches!(
                computed.verdict(),
                Verdict::DoesNotConform | Verdict::NotEvaluated
            )
        }) {
            out.find(
                finding(format!("{}: {}.", &*record.id, answer(computed)))
                    .advise(say!("Block the run; the plan does not accept it."))
                    .at(record.at(test.spot))
                    .about(&*record.id.text)
                    .about(&*body.seal_run.text),
            );
        }
    }
    for (record, run) in view.plant.records().seal_runs() {
        let quantity = match run.seal_type {
            Seal::PackToEndCap => Measured::PeelForce,
            Seal::ModuleToModule => Measured::JointPullForce,
            _ => continue,
        };
        let spec = view.plant.spec_of(record);
        let limit = spec.and_then(|(_, spec)| spec.limit(Stage::Seal, quantity));
        let seen = view.plant.inspections.get(&*record.id.text);
        let tests = seen.into_iter().flatten().filter_map(|index| {
            let record = view.plant.record(*index);
            match &record.body {
                Body::SealInspection(body) => Some((record, body.destructive.as_ref()?)),
                _ => None,
            }
        });
        let has = |coupon: &Coupon| match quantity {
            Measured::PeelForce => coupon.peel_force.is_some(),
            _ => coupon.joint_pull_force.is_some(),
        };
        let fits = |test: &Destructive| test.results.iter().any(has);
        let pulled = tests.clone().any(|(_, test)| fits(test));
        // Whoever pulls more than is asked for may do so.
        for (inspection, test) in tests.filter(|_| !pulled) {
            out.look();
            out.find(
                finding(say!(
                    "{id}: no coupon of {run} was tested for {quantity}, which is what such a seal is limited by.",
                    id = &*inspection.id,
                    run = &*record.id,
                    quantity = quantity.said()
                ))
                .advise(say!("Test coupons of this run, or block it."))
                .at(inspection.at(test.spot))
                .about(&*inspection.id.text)
                .about(&*record.id.text),
            );
        }
        // A plan may draw its sample from one run of several of a lot.
        let own: BTreeSet<&str> = lots_of(view, run).collect();
        let elsewhere = || {
            let mut others = view.plant.records().seal_runs();
            others.any(|(_, other)| {
                other.seal_type == run.seal_type
                    && !other.coupons.is_empty()
                    && lots_of(view, other).any(|lot| own.contains(lot))
            })
        };
        let none = run.coupons.is_empty() && !pulled;
        if let Some(limit) = limit.filter(|_| none && !elsewhere()) {
            out.look();
            let message = match &limit.sampling {
                Some(plan) => say!(
                    "{id}: the specification samples {quantity} by {plan}, and the run has no coupon.",
                    id = &*record.id,
                    quantity = quantity.said(),
                    plan = &**plan
                ),
                None => say!(
                    "{id}: the specification limits {quantity}, and neither this run nor another of its lot has a coupon.",
                    id = &*record.id,
                    quantity = quantity.said()
                ),
            };
            out.find(
                finding(message)
                    .advise(say!("Test coupons of this run, or block it."))
                    .at(record.place())
                    .about(&*record.id.text),
            );
        }
    }
    for (record, run) in view
        .plant
        .records()
        .seal_runs()
        .filter(|(_, run)| !run.coupons.is_empty())
    {
        out.look();
        let mut tested: Vec<&str> = Vec::new();
        for index in view
            .plant
            .inspections
            .get(&record.id.text)
            .into_iter()
            .flatten()
        {
            let inspection = view.plant.record(*index);
            let Body::SealInspection(body) = &inspection.body else {
                continue;
            };
            let Some(test) = &body.destructive else {
                continue;
            };
            for coupon in &test.results {
                let id = &*coupon.coupon.text;
                let wrong = if tested.contains(&id) {
                    say!("is listed twice")
                } else if coupon.peel_force.is_none()
                    && coupon.joint_pull_force.is_none()
                    && coupon.valid.is_none_or(|valid| valid.value)
                {
                    say!("counts and has no force")
                } else {
                    tested.push(id);
                    continue;
                };
                out.find(
                    finding(say!(
                        "{id}: coupon {id2} {wrong}.",
                        id = &*inspection.id,
                        id2 = id,
                        wrong = wrong
                    ))
                    .advise(say!(
                        "Correct the record; a coupon counts once, with its force."
                    ))
                    .at(inspection.at(coupon.spot))
                    .about(&*inspection.id.text)
                    .about(&*record.id.text),
                );
            }
        }
        let missing: Vec<&str> = run
            .coupons
            .iter()
            .map(|id| &*id.text)
            .filter(|id| !tested.contains(id))
            .collect();
        if !missing.is_empty() {
            out.find(
                finding(say!(
                    "{id}: no result of its coupons {missing}.",
                    id = &*record.id,
                    missing = missing.join(", ")
                ))
                .advise(say!(
                    "Test them and record it, or say in a deviation what became of them."
                ))
                .at(record.place())
                .about(&*record.id.text),
            );
        }
    }
    out
}

/// The figure's number and verdict, or why it has none.
fn answer(computed: &crate::figure::Computed) -> String {
    match computed
        .worked
        .as_ref()
        .err()
        .or(computed.undecidable.as_ref())
    {
        Some(why) => say!(
            "{name} is not evaluated: {why}",
            name = crate::ground::words::inside(say!(computed.figure.name)),
            why = why
        ),
        None => View::phrase(computed),
    }
}

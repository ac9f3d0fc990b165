//! R13: The number of modules and the measured length fit the nominal length, which is one that is offered.

use crate::{
    ground::finding::{Finding, Severity},
    rule::{Outcome, Rule, View},
};

/// The number of modules and the measured length fit the nominal length, which is one that is offered.
pub static RULE: Rule = Rule {
    id: "R13",
    severity: Severity::Blocks,
    demands: "The number of modules and the measured length fit the nominal length, which is one that is offered.",
    protects: "a short element, or a module that nobody recorded",
    explained: "Never: it is mended, or what it concerns is not released.",
    check,
};

/// The measured length of an assembly is not that of its name, but near it: adapter and tip add, joining takes away (common practice, no
/// source).
const LEAST_LENGTH: f64 = 0.75;

fn finding(message: String) -> Finding {
    Finding::new("R13", Severity::Blocks, message)
}

fn check(view: &View) -> Outcome {
    let mut out = Outcome::of(say!("assemblies"));
    for (record, build) in view.plant.records().assembly_builds() {
        let Some((_, spec)) = view.plant.spec_of(record) else {
            continue;
        };
        out.look();
        if spec.module_nominal_length.si <= 0.0 {
            out.find(
                finding(say!("{assembly_id}: the specification's module_nominal_length is {module_nominal_length}.", assembly_id = &*build.assembly_id, module_nominal_length = spec.module_nominal_length.text))
                .advise(say!("Correct the specification."))
                .at(record.place())
                .about(&*build.assembly_id.text),
            );
            continue;
        }
        let mut positions: Vec<u64> = build.modules.iter().map(|own| own.position.value).collect();
        positions.sort_unstable();
        if !positions.iter().copied().eq(1..=positions.len() as u64) {
            let list: Vec<String> = positions.iter().map(u64::to_string).collect();
            out.find(
                finding(say!(
                    "{assembly_id}: its modules stand at the positions {list}.",
                    assembly_id = &*build.assembly_id,
                    list = list.join(", ")
                ))
                .advise(say!("Number them from 1 on without a gap, as they stand; a missing number may be a missing module."))
                .at(record.place())
                .about(&*build.assembly_id.text),
            );
        }
        let lengths = [&build.overall_length, &build.length_before];
        for own in lengths.into_iter().flatten() {
            let ratio = own.si / build.nominal_length.si;
            if !(LEAST_LENGTH..=1.0 / LEAST_LENGTH).contains(&ratio) {
                out.find(
                    finding(say!(
                        "{assembly_id} is called {nominal_length}, and {own} was measured.",
                        assembly_id = &*build.assembly_id,
                        nominal_length = build.nominal_length.text,
                        own = own.text
                    ))
                    .advise(say!("Measure again and correct what is wrong."))
                    .at(record.at(own.spot))
                    .about(&*build.assembly_id.text),
                );
            }
        }
        if let (Some(whole), Some(parts)) = (&build.overall_length, &build.length_before)
            && whole.si > parts.si
        {
            out.find(
                finding(say!(
                    "{assembly_id}: {whole} long, and its modules end to end {parts}: joining takes length away.",
                    assembly_id = &*build.assembly_id,
                    whole = whole.text,
                    parts = parts.text
                ))
                .advise(say!("Measure again and correct what is wrong."))
                .at(record.at(whole.spot))
                .about(&*build.assembly_id.text),
            );
        }
        let offered = spec.assembly_lengths.iter();
        let mut offered = offered.map(|length| length.si);
        if !spec.assembly_lengths.is_empty()
            && !offered.any(|length| (length / build.nominal_length.si - 1.0).abs() < 1e-6)
        {
            out.find(
                finding(say!(
                    "{assembly_id} is {nominal_length}, which is none of the assembly_lengths of its specification.",
                    assembly_id = &*build.assembly_id,
                    nominal_length = build.nominal_length.text
                ))
                .advise(say!("Correct the length, or lay it down in the next revision of the specification."))
                .at(record.at(build.nominal_length.spot))
                .about(&*build.assembly_id.text),
            );
        }
        let due = libm::round(build.nominal_length.si / spec.module_nominal_length.si) as usize;
        if due != build.modules.len() {
            out.find(
                finding(say!(
                    "{assembly_id} is {nominal_length}: modules due: {due}, listed: {count}.",
                    assembly_id = &*build.assembly_id,
                    nominal_length = build.nominal_length.text,
                    count = build.modules.len(),
                    due = due
                ))
                .advise(say!("Add the missing module or correct the length."))
                .at(record.at(build.nominal_length.spot))
                .about(&*build.assembly_id.text),
            );
        }
    }
    out
}

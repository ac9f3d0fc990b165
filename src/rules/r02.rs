//! R02: Every record that the specification requires for each module and assembly is present.

use crate::{
    ground::{
        finding::{Finding, Severity},
        place::Place,
    },
    record::{
        Record,
        kinds::{Body, membrane_test::MembraneTest, product_specification::Stage},
    },
    rule::{Outcome, Rule, View},
};

fn present(view: &View, element: &str, kind: &str) -> bool {
    let plant = view.plant;
    let runs = || {
        let of_module = plant.modules.get(element).map(|module| &module.seal_runs);
        of_module
            .or_else(|| {
                plant
                    .assemblies
                    .get(element)
                    .map(|assembly| &assembly.seal_runs)
            })
            .into_iter()
            .flatten()
    };
    match kind {
        "pleating_record" => plant.pack(element).is_some(),
        "module_test" | "assembly_test" => plant.last_test(element).is_some(),
        "assembly_build" => plant.build(element).is_some(),
        "seal_run" => runs().next().is_some(),
        "seal_inspection" => {
            runs().any(|run| plant.inspections.contains_key(&plant.record(*run).id.text))
        }
        "marking_inspection" => plant.marks_of(element).next().is_some(),
        "flow_test" => plant.flow_tests(element).next().is_some(),
        "cycle_log" => plant.logs(element).next().is_some(),
        "membrane_test" | "slitting_record" | "retention_challenge" => {
            let build = plant.build(element).map(|(_, build)| &build.modules);
            let built = build.into_iter().flatten();
            let built = built.map(|position| &*position.module_id.text);
            let mut modules: Vec<&str> = built.collect();
            if modules.is_empty() {
                modules.push(element);
            }
            modules.into_iter().all(|module| {
                let pack = plant.pack(module);
                let own = pack.and_then(|(_, _, pack)| plant.by_roll.get(&pack.material_lot.text));
                let mut own = own.into_iter().flatten();
                own.any(|index| plant.record(*index).kind == kind)
            })
        }
        // What is laid down for the product or the plant stands beside every element.
        other => plant.records().of_kind(other).next().is_some(),
    }
}

/// Every record that the specification requires for each module and assembly is present.
pub static RULE: Rule = Rule {
    id: "R02",
    severity: Severity::Blocks,
    demands: "Every record that the specification requires for each module and assembly is present.",
    protects: "a step that was left out, or done and not recorded",
    explained: "Never: it is mended, or what it concerns is not released.",
    check,
};

fn finding(message: String) -> Finding {
    Finding::new("R02", Severity::Blocks, message)
}

fn check(view: &View) -> Outcome {
    let mut out = Outcome::of(say!("elements"));
    for element in view.modules.iter().chain(&view.release) {
        out.look();
        let Some((_, spec)) = view.plant.spec_of_element(element) else {
            let known =
                view.plant.build(element).is_some() || view.plant.last_test(element).is_some();
            let (message, advice) = match known {
                true => (
                    say!(
                        "{element}: what it needs is not known: it has no test that names a specification, or that product_specification cannot be read.",
                        element = element
                    ),
                    say!(
                        "Add the specification that its records name, or mend what keeps it from being read."
                    ),
                ),
                false => (
                    say!(
                        "{element}: neither a build nor a test of it is recorded.",
                        element = element
                    ),
                    say!("Add its records, or take it out of the release."),
                ),
            };
            out.find(
                finding(message)
                    .advise(advice)
                    .at(view.plant.build(element).map_or_else(
                        || Place::whole("dossier.yaml"),
                        |(record, _)| record.place(),
                    ))
                    .about(*element),
            );
            continue;
        };
        if view
            .plant
            .last_test(element)
            .is_some_and(|test| test.assembly && test.stage != Some(COMPLETE))
        {
            let stage = view.plant.last_test(element).and_then(|test| test.stage);
            out.find(
                finding(match stage {
                    Some("joined_modules") => say!(
                        "{element}: its last test was made before adapter and tip were on.",
                        element = element
                    ),
                    stage => say!(
                        "{element}: its last test does not say that adapter and tip were on: test_stage is {stage}.",
                        element = element,
                        stage = stage.unwrap_or(say!("not stated"))
                    ),
                })
                .advise(match stage {
                    Some("joined_modules") => say!("Test it again, complete.").to_owned(),
                    _ => say!("Write test_stage: {stage} where they were; otherwise test it again, complete.", stage = COMPLETE),
                })
                .at(view.plant.build(element).map_or_else(
                    || Place::whole("dossier.yaml"),
                    |(record, _)| record.place(),
                ))
                .about(*element),
            );
        }
        let assembly = view.release.contains(element);
        let required = if assembly {
            &spec.required_records_per_assembly
        } else {
            &spec.required_records_per_module
        };
        // Which roll a module is of must be known whatever the specification asks.
        let traced = required.iter().any(|kind| &*kind.text == "pleating_record");
        if !assembly && !traced && view.plant.pack(element).is_none() {
            out.find(
                finding(say!(
                    "{element}: no pleating_record names it, so that its roll is not known.",
                    element = element
                ))
                .advise(say!("Add the pleating_record; without it nobody can be told when the roll turns out bad."))
                .at(view.plant.build(element).map_or_else(
                    || Place::whole("dossier.yaml"),
                    |(record, _)| record.place(),
                ))
                .about(*element),
            );
        }
        for kind in required.iter().filter(|kind| !present(view, element, kind)) {
            out.find(
                finding(say!(
                    "{element}: no {kind} names it.",
                    element = element,
                    kind = &**kind
                ))
                .advise(say!(
                    "Add the {kind}, or find out why the step was not done.",
                    kind = &**kind
                ))
                .at(view.plant.build(element).map_or_else(
                    || Place::whole("dossier.yaml"),
                    |(record, _)| record.place(),
                ))
                .about(*element),
            );
        }
    }
    named(view, &mut out);
    released(view, &mut out);
    // Every roll in the release was tested flat before it was pleated.
    let rolls: std::collections::BTreeSet<&str> = view
        .modules
        .iter()
        .filter_map(|module| view.plant.pack(module))
        .map(|(_, _, pack)| &*pack.material_lot.text)
        .collect();
    for roll in rolls {
        out.look();
        let tested = view
            .plant
            .by_roll
            .get(roll)
            .into_iter()
            .flatten()
            .any(|index| view.plant.record(*index).kind == "membrane_test");
        // What the specification limits was measured on the roll: a limit that nothing is held against decides nothing.
        let spec = view.plant.by_roll.get(roll).into_iter().flatten();
        let tests: Vec<(&Record, &MembraneTest)> = spec
            .filter_map(|index| match &view.plant.record(*index).body {
                Body::MembraneTest(body) => Some((view.plant.record(*index), &**body)),
                _ => None,
            })
            .collect();
        let due = tests
            .iter()
            .find_map(|(record, _)| view.plant.spec_of(record));
        let due = due.into_iter().flat_map(|(_, spec)| spec.acceptance.iter());
        for accepted in due.filter(|accepted| accepted.stage == Stage::Membrane) {
            let measured = tests.iter().any(|(_, test)| {
                let mut all = test.measurements.iter();
                all.any(|measured| {
                    measured.quantity == accepted.quantity && measured.not_measured_reason.is_none()
                })
            });
            if !measured {
                out.find(
                    finding(say!(
                        "{roll}: the specification limits its {quantity}, and no membrane_test measured it.",
                        roll = roll,
                        quantity = accepted.quantity.said()
                    ))
                    .advise(say!("Add the measurement, or test the roll."))
                    .at(tests.first().map_or_else(
                        || Place::whole("dossier.yaml"),
                        |(record, _)| record.place(),
                    ))
                    .about(roll),
                );
            }
        }
        if !tested {
            out.find(
                finding(say!("{roll}: no membrane_test names it.", roll = roll))
                    .advise(say!(
                        "Add the test of the flat membrane, or find out why it was not made."
                    ))
                    .at(view.plant.material(roll).map_or_else(
                        || Place::whole("dossier.yaml"),
                        |(record, _)| record.place(),
                    ))
                    .about(roll),
            );
        }
    }
    out
}

/// What is named and is not there: lots of the scope, the specification of a test of flat membrane.
fn named(view: &View, out: &mut Outcome) {
    if let Some((record, head)) = view.plant.records().head() {
        let lots = head.scope.iter().flat_map(|scope| scope.lots.iter());
        for lot in lots.filter(|lot| !view.plant.lots.contains_key(&lot.text)) {
            out.find(
                finding(say!(
                    "{lot} is in scope, and no record knows this lot.",
                    lot = &**lot
                ))
                .advise(say!("Correct the name, or add its records."))
                .at(record.at(lot.spot))
                .about(&*lot.text),
            );
        }
    }
    for (record, body) in view.plant.records().membrane_tests() {
        let Some(named) = &body.specification else {
            continue;
        };
        let there = view.plant.records();
        if there
            .revision("product_specification", &named.id, named.revision.value)
            .is_none()
        {
            out.find(
                finding(say!(
                    "{id} names {spec} revision {revision}, which is not here: no limit is known for it.",
                    id = &*record.id,
                    spec = &*named.id,
                    revision = named.revision.value
                ))
                .advise(say!("Name the specification that it was tested to, or add it."))
                .at(record.at(named.spot))
                .about(&*record.id.text)
                .about(&*body.material_lot.text),
            );
        }
    }
}

/// The stage of a test of an assembly as it is shipped.
const COMPLETE: &str = "final_after_adapter_and_tip";

/// What no specification need ask for: what is shipped was read, and its lot was counted.
fn released(view: &View, out: &mut Outcome) {
    for (record, release) in view.plant.releases() {
        let lot = &release.object.lot_id;
        out.look();
        if view.plant.reconciliations(lot).next().is_none() {
            out.find(
                finding(say!(
                    "{lot}: no lot_reconciliation accounts for it.",
                    lot = &**lot
                ))
                .advise(say!(
                    "Count every module that was begun, and record where each is."
                ))
                .at(record.at(lot.spot))
                .about(&*lot.text)
                .about(&*record.id.text),
            );
        }
        let assemblies = release.object.assemblies.iter();
        let builds = assemblies.clone().filter_map(|id| view.plant.build(id));
        let modules = builds.flat_map(|(_, build)| build.modules.iter());
        let modules = modules.map(|position| &*position.module_id.text);
        let unread: Vec<&str> = assemblies
            .map(|id| &*id.text)
            .chain(modules)
            .filter(|id| view.plant.marks_of(id).next().is_none())
            .collect();
        if let Some(first) = unread.first() {
            out.find(
                finding(say!(
                    "{id} releases {assemblies}, and no marking_inspection read them.",
                    id = &*record.id,
                    assemblies = unread.join(", ")
                ))
                .advise(say!("Read the mark on each element, and record it."))
                .at(record.at(release.object.spot))
                .about(*first)
                .about(&*record.id.text),
            );
        }
    }
}

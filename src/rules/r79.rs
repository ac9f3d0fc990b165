//! R79: Nothing that is released is on hold or recalled, nor is anything that it was made from.

use std::collections::BTreeMap;

use crate::record::{
    Record,
    kinds::{Body, deviation::Decision, material_lot::Status},
};
use crate::{
    ground::finding::{Finding, Severity},
    rule::{Outcome, Rule, View},
};

/// Nothing that is released is on hold or recalled, nor is anything that it was made from.
pub static RULE: Rule = Rule {
    id: "R79",
    severity: Severity::Blocks,
    demands: "Nothing that is released is on hold or recalled, nor is anything that it was made from.",
    protects: "a released element whose material was withdrawn later",
    explained: "Never: it is mended, or what it concerns is not released.",
    check,
};

fn finding(message: String) -> Finding {
    Finding::new(RULE.id, RULE.severity, message)
}

fn check(view: &View) -> Outcome {
    let mut out = Outcome::of(say!("released assemblies"));
    for assembly in &view.release {
        out.look();
        for (id, why) in ancestry(view, assembly) {
            let held = view.plant.settled(&id).find(|(_, deviation)| {
                matches!(deviation.decision, Some(Decision::Hold | Decision::Reject))
            });
            let reason = match (held, view.plant.material(&id)) {
                (Some((record, deviation)), _) => Some((
                    say!(
                        "{decision} by {id} since {time}",
                        decision = deviation.decision.map_or("", Decision::word),
                        id = &*record.id,
                        time = deviation.detected_at.time.date()
                    ),
                    record.place(),
                )),
                // A lot that was never accepted is the business of rule R21.
                (None, Some((record, lot)))
                    if lot.incoming_status != Status::Accepted && was_accepted(view, &id) =>
                {
                    Some((
                        say!(
                            "{incoming_status} since {day}",
                            incoming_status = lot.incoming_status.word(),
                            day = record.day().map_or(String::new(), |day| day.to_string())
                        ),
                        record.place(),
                    ))
                }
                _ => None,
            };
            let Some((reason, place)) = reason else {
                continue;
            };
            let told = crate::plant::recall::consignee(view.plant, assembly)
                .map_or(say!("the customer").to_owned(), |to| to.words());
            out.find(
                finding(say!("{assembly} contains {why}: {reason}.", assembly = assembly, why = why, reason = reason))
                    .advise(say!("Stop stock, tell {told} today, and revise the statement with the list: sealfolio review --affected-by {id}", told = told, id = id))
                    .at(place)
                    .about(*assembly)
                    .about(id),
            );
        }
    }
    out
}

/// What an assembly was made from, each with the way to it.
fn ancestry(view: &View, assembly: &str) -> BTreeMap<String, String> {
    let mut out = BTreeMap::new();
    let Some((record, build)) = view.plant.build(assembly) else {
        return out;
    };
    let says = |out: &mut BTreeMap<String, String>, record: &Record| {
        let id = &*record.id;
        out.entry(id.to_string())
            .or_insert_with(|| say!("what {id} says", id = id));
    };
    let seen = |out: &mut BTreeMap<String, String>, run: &Record| {
        let own = view.plant.inspections.get(&*run.id.text);
        for index in own.into_iter().flatten() {
            says(out, view.plant.record(*index));
        }
    };
    for (lot, what) in crate::plant::lots_used(&record.body) {
        out.insert(lot.to_string(), format!("{} {}", say!(what), &**lot));
    }
    out.insert(
        record.id.to_string(),
        say!("what {id} says", id = &*record.id),
    );
    for record in view.plant.marks_of(assembly) {
        says(&mut out, record);
    }
    if let Some(lot) = view.plant.lot_of(assembly) {
        for (record, _) in view.plant.reconciliations(lot) {
            says(&mut out, record);
        }
        out.insert(lot.to_owned(), say!("modules of lot {lot}", lot = lot));
    }
    if let Some((spec, _)) = view.plant.spec_of_element(assembly) {
        out.insert(
            spec.id.to_string(),
            say!("what was judged by {id}", id = &*spec.id),
        );
    }
    let own = view.plant.assemblies.get(assembly);
    for index in own
        .into_iter()
        .flat_map(|own| own.tests.iter().chain(&own.releases))
    {
        let id = &view.plant.record(*index).id;
        out.insert(id.to_string(), say!("what {id} says", id = &**id));
    }
    for position in &build.modules {
        let module = &*position.module_id.text;
        let Some((pleated, pleating, pack)) = view.plant.pack(module) else {
            continue;
        };
        let roll = &*pack.material_lot.text;
        out.entry(pleating.lot_id.to_string()).or_insert_with(|| {
            say!(
                "{module} of lot {lot_id}",
                module = module,
                lot_id = &*pleating.lot_id
            )
        });
        // A rejected test of a module is how a retest comes about; only the one that decides counts.
        if let Some(test) = view.plant.last_test(module) {
            out.entry(test.record.id.to_string()).or_insert_with(|| {
                say!(
                    "{module}, judged by {id}",
                    module = module,
                    id = &*test.record.id
                )
            });
        }
        for index in view.plant.by_roll.get(roll).into_iter().flatten() {
            let id = &view.plant.record(*index).id;
            out.entry(id.to_string()).or_insert_with(|| {
                say!(
                    "{module} from {roll}, {id}",
                    module = module,
                    roll = roll,
                    id = &**id
                )
            });
        }
        if let Some((_, lot)) = view.plant.material(roll) {
            for paper in lot.food_contact_documents.iter() {
                out.entry(paper.document.to_string()).or_insert_with(|| {
                    say!(
                        "{module} under {document}",
                        module = module,
                        document = &*paper.document
                    )
                });
            }
        }
        says(&mut out, pleated);
        // Of the rolls of its pleating an element has one.
        for (lot, what) in crate::plant::lots_used(&pleated.body) {
            if what != "membrane" {
                out.entry(lot.to_string())
                    .or_insert_with(|| format!("{} {} ({module})", say!(what), &**lot));
            }
        }
        out.entry(roll.to_owned())
            .or_insert_with(|| say!("{module} from {roll}", module = module, roll = roll));
        if let Some((_, lot)) = view.plant.material(roll) {
            out.entry(lot.supplier_lot.to_string()).or_insert_with(|| {
                say!(
                    "{module} from {roll} of supplier lot {supplier_lot}",
                    module = module,
                    roll = roll,
                    supplier_lot = &*lot.supplier_lot
                )
            });
        }
        let runs = view
            .plant
            .modules
            .get(module)
            .map(|module| &module.seal_runs[..])
            .unwrap_or_default();
        for run in runs {
            let run = view.plant.record(*run);
            out.entry(run.id.to_string()).or_insert_with(|| {
                say!("{module} of seal run {id}", module = module, id = &*run.id)
            });
            seen(&mut out, run);
            if let Body::SealRun(body) = &run.body
                && let Some(cap) = &body.end_cap_lot
            {
                out.entry(cap.to_string())
                    .or_insert_with(|| say!("end caps {cap}", cap = &**cap));
            }
        }
    }
    let runs = view
        .plant
        .assemblies
        .get(assembly)
        .map(|assembly| &assembly.seal_runs[..])
        .unwrap_or_default();
    for run in runs {
        let run = view.plant.record(*run);
        out.entry(run.id.to_string())
            .or_insert_with(|| say!("joins of seal run {id}", id = &*run.id));
        seen(&mut out, run);
    }
    out
}

/// Whether an earlier revision of a material lot was accepted.
fn was_accepted(view: &View, id: &str) -> bool {
    view.plant.records().revisions("material_lot", id).any(|record| {
        matches!(&record.body, Body::MaterialLot(lot) if lot.incoming_status == Status::Accepted)
    })
}

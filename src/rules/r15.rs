//! R15: No rejected or held module is in an assembly.

use std::collections::BTreeMap;

use crate::{
    ground::finding::{Finding, Severity},
    record::{Record, kinds::lot_reconciliation::State},
    rule::{Outcome, Rule, View},
};

/// No rejected or held module is in an assembly.
pub static RULE: Rule = Rule {
    id: "R15",
    severity: Severity::Blocks,
    demands: "No rejected or held module is in an assembly.",
    protects: "a reject that found its way back",
    explained: "Never: it is mended, or what it concerns is not released.",
    check,
};

fn finding(message: String) -> Finding {
    Finding::new("R15", Severity::Blocks, message)
}

fn check(view: &View) -> Outcome {
    let mut out = Outcome::of(say!("modules built in and assemblies to be released"));
    use crate::record::kinds::deviation::Decision;
    for (record, build) in view.plant.records().assembly_builds() {
        for position in &build.modules {
            out.look();
            let id = &*position.module_id.text;
            let decided = view.plant.settled(id).find(|(_, deviation)| {
                matches!(deviation.decision, Some(Decision::Reject | Decision::Hold))
            });
            // A destroyed module is the business of rule R54.
            let disposed = view
                .plant
                .disposed(id)
                .map(|(_, state)| state)
                .find(|state| matches!(state.state, State::Rejected | State::Held));
            let why = decided
                .map(|(record, _)| record.id.to_string())
                .or_else(|| disposed.map(|state| state.state.word().to_owned()));
            if let Some(why) = why {
                out.find(
                    Finding {
                        severity: view.weight(&build.assembly_id),
                        ..finding(say!(
                            "{id} ({why}) appears in {assembly_id}.",
                            id = id,
                            why = why,
                            assembly_id = &*build.assembly_id
                        ))
                    }
                    .advise(say!(
                        "Quarantine {assembly_id} now.",
                        assembly_id = &*build.assembly_id
                    ))
                    .at(record.at(position.module_id.spot))
                    .about(id)
                    .about(&*build.assembly_id.text),
                );
            }
        }
    }
    let mut left_out: BTreeMap<&str, &Record> = BTreeMap::new();
    for (record, body) in view.plant.records().lot_reconciliations() {
        let kept =
            |path: &str| path.contains("reject") || path.contains("held") || path.contains("hold");
        let lists = body.assemblies.iter().flat_map(|all| &all.leaves);
        let listed = lists
            .filter(|(path, _)| kept(path))
            .map(|(_, text)| &*text.text);
        let excluded = body.exclusions.iter().map(|one| &*one.item.text);
        for id in excluded.chain(listed) {
            left_out.entry(id).or_insert(record);
        }
    }
    for assembly in &view.release {
        out.look();
        if let Some(record) = left_out.get(assembly) {
            out.find(
                finding(say!(
                    "{assembly} is in the release, and {id} leaves it out.",
                    assembly = assembly,
                    id = &*record.id
                ))
                .advise(say!(
                    "One of the two is wrong; take it out of the release until it is known."
                ))
                .at(record.place())
                .about(*assembly)
                .about(&*record.id.text),
            );
        }
        let held = view.plant.settled(assembly).find(|(_, deviation)| {
            matches!(deviation.decision, Some(Decision::Reject | Decision::Hold))
        });
        if let Some((record, deviation)) = held {
            let word = deviation.decision.map_or("", Decision::word);
            out.find(
                finding(say!(
                    "{assembly} is in the release and {id} says {word}.",
                    assembly = assembly,
                    id = &*record.id,
                    word = word
                ))
                .advise(say!(
                    "Take it out of the release; what was decided is decided anew in the next revision of that deviation, and another does not lift it."
                ))
                .at(record.place())
                .about(*assembly),
            );
        }
    }
    out
}

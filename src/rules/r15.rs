//! R15: No rejected or held module is in an assembly.

use crate::{
    ground::finding::{Finding, Severity},
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
    let mut out = Outcome::of("modules built in");
    use crate::record::kinds::deviation::Decision;
    for (record, build) in view.plant.records().assembly_builds() {
        for position in &build.modules {
            out.look();
            let id = &*position.module_id.text;
            let decided = view.plant.deviations_about(id).find(|(_, deviation)| {
                let meant = deviation
                    .subject
                    .get("module_id")
                    .is_some_and(|module| &*module.text == id);
                meant && matches!(deviation.decision, Some(Decision::Reject | Decision::Hold))
            });
            // A destroyed module is the business of rule R54.
            let disposed = view
                .plant
                .disposed(id)
                .map(|(_, state)| state)
                .find(|state| matches!(&*state.state.text, "rejected" | "held"));
            let why = decided
                .map(|(record, _)| record.id.to_string())
                .or_else(|| disposed.map(|state| state.state.to_string()));
            if let Some(why) = why {
                out.find(
                    finding(format!("{id} ({why}) appears in {}.", &*build.assembly_id))
                        .advise(format!("Quarantine {} now.", &*build.assembly_id))
                        .at(record.at(position.module_id.spot))
                        .about(id)
                        .about(&*build.assembly_id.text),
                );
            }
        }
    }
    for assembly in &view.release {
        out.look();
        let held = view
            .plant
            .deviations_about(assembly)
            .find(|(_, deviation)| {
                matches!(deviation.decision, Some(Decision::Reject | Decision::Hold))
            });
        if let Some((record, deviation)) = held {
            let word = deviation.decision.map_or("", Decision::word);
            out.find(
                finding(format!(
                    "{assembly} is in the release and {} says {word}.",
                    &*record.id
                ))
                .advise("Take it out of the release, or decide anew in a later deviation.")
                .at(record.place())
                .about(*assembly),
            );
        }
    }
    out
}

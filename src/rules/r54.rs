//! R54: Destroyed samples are not shipped.

use crate::{
    ground::finding::{Finding, Severity},
    record::kinds::lot_reconciliation::State,
    rule::{Outcome, Rule, View},
};

/// Destroyed samples are not shipped.
pub static RULE: Rule = Rule {
    id: "R54",
    severity: Severity::Blocks,
    demands: "Destroyed samples are not shipped.",
    protects: "a sectioned module that is on paper in an element",
    explained: "Never: it is mended, or what it concerns is not released.",
    check,
};

fn finding(message: String) -> Finding {
    Finding::new(RULE.id, RULE.severity, message)
}

fn check(view: &View) -> Outcome {
    let mut out = Outcome::of(say!("destroyed modules"));
    for (record, body) in view.plant.records().lot_reconciliations() {
        for state in body
            .disposition
            .iter()
            .filter(|state| state.state == State::DestroyedAsSample)
        {
            for id in &state.modules {
                out.look();
                if let Some(assembly) = view.plant.assemblies_of(id).first() {
                    out.find(
                        finding(say!(
                            "{id} is in destroyed_as_sample and in {assembly}.",
                            id = &**id,
                            assembly = assembly
                        ))
                        .advise(say!(
                            "One is wrong; quarantine {assembly}.",
                            assembly = assembly
                        ))
                        .at(record.at(id.spot))
                        .about(&*id.text)
                        .about(*assembly),
                    );
                }
            }
        }
    }
    out
}

//! R44: Uncertainty contributions exist for each judged quantity and can be used.

use crate::{
    ground::finding::{Finding, Severity},
    record::common::Measured,
    rule::{Outcome, Rule, View},
    verdict::Verdict,
};

/// Uncertainty contributions exist for each judged quantity and can be used.
pub static RULE: Rule = Rule {
    id: "R44",
    severity: Severity::Blocks,
    demands: "Uncertainty contributions exist for each judged quantity and can be used.",
    protects: "a verdict without its doubt",
    explained: "When the decision rule is simple acceptance and says so.",
    check,
};

fn finding(message: String) -> Finding {
    Finding::new("R44", Severity::Blocks, message)
}

fn check(view: &View) -> Outcome {
    let mut out = Outcome::of("judged figures");
    let mut seen = std::collections::BTreeSet::new();
    for computed in view.graph.computed.values() {
        let Ok(worked) = &computed.worked else {
            continue;
        };
        let record = view.plant.record(computed.subject.record);
        let spec = view.plant.spec_of(record);
        let at = spec.map_or_else(|| record.place(), |(record, _)| record.place());
        let name = spec.map_or("the specification", |(record, _)| &*record.id.text);
        if let Some(judgement) = &computed.judgement {
            out.look();
            let word = computed
                .figure
                .quantity
                .map_or(computed.figure.id, Measured::word);
            if judgement.verdict == Verdict::NotEvaluated
                && seen.insert((computed.figure.id, name, String::new()))
            {
                out.find(
                    finding(format!(
                        "{name} gives no contribution for {word}. Without it no verdict is printed."
                    ))
                    .advise("Enter the contributions, or agree on simple acceptance and say so.")
                    .at(at.clone())
                    .about(name),
                );
            }
        }
        for unused in &worked.unused {
            if seen.insert((computed.figure.id, name, unused.clone())) {
                out.find(
                    finding(format!("{name}: the contribution \"{unused}\" does not fit {}.", computed.figure.id))
                        .advise("State it relative, or in the figure's own unit, or under a source that the figure names.")
                        .at(at.clone())
                        .about(name),
                );
            }
        }
    }
    out
}

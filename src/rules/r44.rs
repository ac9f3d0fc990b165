//! R44: Uncertainty contributions exist for each judged quantity and can be used.

use crate::{
    figure::Origin,
    ground::{
        finding::{Finding, Severity},
        number,
    },
    record::common::Measured,
    rule::{Outcome, Rule, View},
    verdict::{Decision, Verdict},
};

/// Uncertainty contributions exist for each judged quantity and can be used.
pub static RULE: Rule = Rule {
    id: "R44",
    severity: Severity::Blocks,
    demands: "Uncertainty contributions exist for each judged quantity and can be used.",
    protects: "a verdict without its doubt",
    explained: "When the decision rule is simple acceptance and says so, or when the decision was made by an interval that was drawn.",
    check,
};

fn finding(message: String) -> Finding {
    Finding::new("R44", Severity::Blocks, message)
}

fn check(view: &View) -> Outcome {
    let mut out = Outcome::of(say!("judged figures"));
    let mut seen = std::collections::BTreeSet::new();
    for computed in view.graph.computed.values() {
        let Ok(worked) = &computed.worked else {
            continue;
        };
        let record = view.plant.record(computed.subject.record);
        let spec = view.plant.spec_of(record);
        let at = spec.map_or_else(|| record.place(), |(record, _)| record.place());
        let name = spec.map_or(say!("the specification"), |(record, _)| &*record.id.text);
        if let Some(judgement) = &computed.judgement {
            out.look();
            let word = computed
                .figure
                .quantity
                .map_or(computed.figure.id, Measured::word);
            // What the readings scatter is not all that is unknown of them.
            let stated = computed.figure.quantity.is_none()
                || !matches!(
                    judgement.limit.decision,
                    Decision::Guarded(_) | Decision::Rejection(_)
                )
                || !worked.direct.is_empty()
                || worked.terms.iter().any(|term| {
                    matches!(
                        term.origin,
                        Origin::Contribution { .. } | Origin::Figures(_)
                    )
                });
            if (judgement.verdict == Verdict::NotEvaluated || !stated)
                && seen.insert((computed.figure.id, name, String::new()))
            {
                out.find(
                    finding(say!("{name} gives no contribution for {word}. Without it no verdict is printed.", name = name, word = word))
                    .advise(say!("Enter the contributions, or agree on simple acceptance and say so."))
                    .at(at.clone())
                    .about(name),
                );
            }
        }
        if let Some(bend) = &computed.second_order {
            let u = worked.quantity.u();
            let bent = match bend {
                Ok(second) if second.abs() <= u / 20.0 => None,
                Ok(second) => Some(say!(
                    "the second order moves the value by {u} u",
                    u = number::significant(second / u, 2)
                )),
                Err(why) => Some(say!(
                    "one standard uncertainty away there is no value ({why})",
                    why = why
                )),
            };
            if let Some(bent) = bent {
                out.find(
                    Finding {
                        severity: Severity::Explain,
                        ..finding(say!("{id}: the linear uncertainty is not good enough: {bent}.", id = computed.id, bent = bent))
                    }
                    .advise(say!("Look at it with explain --monte-carlo and decide by the interval that was drawn; say so in a deviation."))
                    .at(record.place())
                    .about(&*record.id.text),
                );
            }
        }
        for unused in &worked.unused {
            if seen.insert((computed.figure.id, name, unused.clone())) {
                out.find(
                    finding(say!("{name}: the contribution \"{unused}\" does not fit {id}.", name = name, unused = unused, id = computed.figure.id))
                        .advise(say!("State it relative, or in the figure's own unit, or under a source that the figure names."))
                        .at(at.clone())
                        .about(name),
                );
            }
        }
    }
    out
}

//! R53: A plan of a published standard names edition, level, AQL and the state of switching.

use crate::{
    ground::finding::{Finding, Severity},
    rule::{Outcome, Rule, View},
};

/// A plan of a published standard names edition, level, AQL and the state of switching.
pub static RULE: Rule = Rule {
    id: "R53",
    severity: Severity::Explain,
    demands: "A plan of a published standard names edition, level, AQL and the state of switching.",
    protects: "a sample size that nobody can check",
    explained: "By a decided deviation of category data that names the plan.",
    check,
};

fn finding(message: String) -> Finding {
    Finding::new(RULE.id, RULE.severity, message)
}

fn check(view: &View) -> Outcome {
    let mut out = Outcome::of(say!("sampling plans"));
    // Products may share a plan; it is spoken of once.
    let mut seen = std::collections::BTreeSet::new();
    for (record, spec) in view.plant.records().product_specifications() {
        for plan in spec.sampling_plans.iter() {
            out.look();
            let text = &*plan.standard.text;
            if !PUBLISHERS.iter().any(|publisher| text.contains(publisher)) {
                continue;
            }
            let lower = text.to_lowercase();
            let edition = text
                .split(':')
                .skip(1)
                .filter_map(|rest| rest.as_bytes().first_chunk::<4>())
                .any(|year| year.iter().all(u8::is_ascii_digit));
            let named = [
                (say!("its edition"), edition),
                (say!("the inspection level"), lower.contains("level")),
                (say!("the AQL"), text.contains("AQL")),
                (
                    say!("normal, tightened or reduced"),
                    ["normal", "tightened", "reduced"]
                        .iter()
                        .any(|state| lower.contains(state)),
                ),
            ];
            let missing: Vec<&str> = named
                .iter()
                .filter(|(_, there)| !there)
                .map(|(what, _)| *what)
                .collect();
            if !missing.is_empty() && seen.insert((&plan.id.text, text)) {
                out.find(
                    finding(say!("{id} says \"{what}\" but not {missing}.", id = &*plan.id, what = text, missing = missing.join(", ")))
                        .advise(say!("State it: a plan switches between states, and which one was used decides the risk."))
                        .at(record.at(plan.standard.spot))
                        .about(&*plan.id.text)
                        .about(&*record.id.text),
                );
            }
        }
    }
    out
}

/// Bodies whose sampling standards have levels and states.
const PUBLISHERS: &[&str] = &["ISO", "ANSI", "ASTM", "DIN", "JIS"];

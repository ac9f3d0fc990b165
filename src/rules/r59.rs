//! R59: The same reason for a retest does not recur more often in a lot than the maker allows.

use crate::{
    ground::finding::{Finding, Severity},
    record::kinds::lot_reconciliation::State,
    rule::{Outcome, Rule, View},
};

/// The same reason for a retest does not recur more often in a lot than the maker allows.
pub static RULE: Rule = Rule {
    id: "R59",
    severity: Severity::Explain,
    demands: "The same reason for a retest does not recur more often in a lot than the maker allows.",
    protects: "a step that needs work, hidden in single retests",
    explained: "By a decided deviation that names the thing.",
    check,
};

fn finding(message: String) -> Finding {
    Finding::new(RULE.id, RULE.severity, message)
}

fn check(view: &View) -> Outcome {
    let mut out = Outcome::of(say!("retests"));
    let mut counts: std::collections::BTreeMap<(&str, &str), Vec<crate::plant::Test>> =
        std::collections::BTreeMap::new();
    for test in view.plant.tests() {
        let (Some(reason), Some(lot)) = (
            &test.test.retest_reason_code,
            view.plant.lot_of(test.element),
        ) else {
            continue;
        };
        out.look();
        counts.entry((lot, reason)).or_default().push(test);
    }
    for ((lot, reason), tests) in counts {
        let Some(first) = tests.first() else {
            continue;
        };
        let limit = view
            .plant
            .spec_of(first.record)
            .and_then(|(_, spec)| spec.retest_rule.as_ref()?.maximum_same_reason_per_lot);
        if limit.is_some_and(|limit| tests.len() as u64 > limit.value) {
            out.find(
                finding(say!(
                    "{lot}: {reason} {count} times (limit {limit}).",
                    lot = lot,
                    reason = reason,
                    count = tests.len(),
                    limit = limit.map_or(0, |limit| limit.value)
                ))
                .advise(say!("The step needs work, not the single module."))
                .at(first.record.place())
                .about(lot),
            );
        }
    }
    for (id, lot) in &view.plant.lots {
        if lot.modules.len() < MANY {
            continue;
        }
        out.look();
        let retested = lot.modules.iter().any(|module| {
            let tests = view
                .plant
                .modules
                .get(&**module)
                .map_or(0, |module| module.tests.len());
            tests > 1
        });
        let rejected = view
            .plant
            .reconciliations(id)
            .flat_map(|(_, body)| &body.disposition)
            .any(|state| state.state == State::Rejected && !state.modules.is_empty());
        if !retested && !rejected {
            out.find(
                Finding {
                    severity: Severity::Note,
                    ..finding(say!("{id}: {count} modules, and none was tested again or rejected.", id = id, count = lot.modules.len()))
                }
                .advise(say!("One to four in a hundred are usual (common practice, no source): ask whether every result is here."))
                .about(&**id),
            );
        }
    }
    out
}

/// A lot of so many modules without a retest and without a reject is worth a question: of 200 with one
/// in a hundred tested again, that happens by chance 13 times in 100.
const MANY: usize = 200;

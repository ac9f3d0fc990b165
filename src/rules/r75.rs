//! R75: One element is in one housing at a time.

use crate::{
    ground::finding::{Finding, Severity},
    rule::{Outcome, Rule, View},
};

/// One element is in one housing at a time.
pub static RULE: Rule = Rule {
    id: "R75",
    severity: Severity::Explain,
    demands: "One element is in one housing at a time.",
    protects: "cycles that are counted for the wrong element",
    explained: "By a decided deviation that names the thing.",
    check,
};

fn finding(message: String) -> Finding {
    Finding::new(RULE.id, RULE.severity, message)
}

fn check(view: &View) -> Outcome {
    let mut out = Outcome::of(say!("installed elements"));
    let mut logs: std::collections::BTreeMap<&str, Vec<_>> = std::collections::BTreeMap::new();
    for (record, log) in view.plant.records().cycle_logs() {
        out.look();
        logs.entry(&log.assembly_id)
            .or_default()
            .push((record, log));
    }
    for (id, logs) in logs {
        for (i, (record, log)) in logs.iter().enumerate() {
            let open = |log: &crate::record::kinds::cycle_log::CycleLog| {
                log.removed_at.as_ref().map(|removed| removed.time)
            };
            let overlaps = |other: &crate::record::kinds::cycle_log::CycleLog| {
                open(other).is_none_or(|removed| removed > log.installed_at.time)
                    && open(log).is_none_or(|removed| removed > other.installed_at.time)
            };
            if let Some((other, _)) = logs.iter().take(i).find(|(_, other)| overlaps(other)) {
                out.find(
                    finding(say!("{id} stands in {id2} and in {id3} at one time.", id = id, id2 = &*other.id, id3 = &*record.id))
                        .advise(say!("Read the symbol in the housing; until then the cycles of both count against it."))
                        .at(record.place())
                        .about(id)
                        .about(&*record.id.text),
                );
            }
        }
    }
    out
}

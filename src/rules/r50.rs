//! R50: Items beyond the control limits of their lot are pointed out.

use crate::{
    ground::finding::{Finding, Severity},
    rule::{Outcome, Rule, View},
};
use crate::{ground::number, stats, trend::analysis::LEAST};

/// Items beyond the control limits of their lot are pointed out.
pub static RULE: Rule = Rule {
    id: "R50",
    severity: Severity::Note,
    demands: "Items beyond the control limits of their lot are pointed out.",
    protects: "an odd one that passes",
    explained: "It needs no explanation; a person looks at it.",
    check,
};

fn finding(message: String) -> Finding {
    Finding::new(RULE.id, RULE.severity, message)
}

fn check(view: &View) -> Outcome {
    let mut out = Outcome::of(say!("modules with control limits"));
    for (lot, members) in &view.plant.lots {
        for figure in ["diffusive-flow", "bubble-point"] {
            let mut series: Vec<(&str, &crate::figure::Computed)> = members
                .modules
                .iter()
                .filter_map(|id| {
                    let test = view.plant.last_test(id)?;
                    let computed = view.graph.get(figure, &test.record.id, "")?;
                    computed.quantity().map(|_| (&**id, computed))
                })
                .collect();
            series.sort_by_key(|(_, computed)| {
                view.plant
                    .record(computed.subject.record)
                    .happened_at
                    .as_ref()
                    .map(|when| when.time)
            });
            let values: Vec<f64> = series
                .iter()
                .filter_map(|(_, computed)| computed.quantity())
                .map(|q| q.value)
                .collect();
            let Some(control) = stats::control::individuals(&values)
                .ok()
                .filter(|_| values.len() >= LEAST)
            else {
                continue;
            };
            for (i, (id, computed)) in series.iter().enumerate() {
                out.look();
                // What does not pass is the business of other rules.
                if !control.beyond.contains(&i) || crate::rule::not_a_pass(computed) {
                    continue;
                }
                let unit = &computed.figure.unit;
                let show = |si: f64| number::significant(unit.of_si(si), 4);
                out.find(
                    finding(say!("{id}: {name} {computed}; control limits of {lot} are {limits} to {limits2} {what}.", id = id, name = crate::ground::words::inside(say!(computed.figure.name)), computed = computed.shown(), lot = lot, limits = show(control.limits.0), limits2 = show(control.limits.1), what = unit.print))
                    .advise(say!("Within its limit or not, it is unlike the others: look at its pack and its seals."))
                    .at(view.plant.record(computed.subject.record).place())
                    .about(*id)
                    .about(&**lot),
                );
            }
        }
    }
    out
}

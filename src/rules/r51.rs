//! R51: Unrounded values are compared; a printed figure that looks equal to its limit is footnoted.

use crate::{
    ground::finding::{Finding, Severity},
    ground::number::parse,
    rule::{Outcome, Rule, View},
};

/// Unrounded values are compared; a printed figure that looks equal to its limit is footnoted.
pub static RULE: Rule = Rule {
    id: "R51",
    severity: Severity::Note,
    demands: "Unrounded values are compared; a printed figure that looks equal to its limit is footnoted.",
    protects: "a rounding that turns a fail into a pass",
    explained: "It needs no explanation; a person looks at it.",
    check,
};

fn finding(message: String) -> Finding {
    Finding::new(RULE.id, RULE.severity, message)
}

fn check(view: &View) -> Outcome {
    let mut out = Outcome::of(say!("judged figures"));
    for &(element, assembly, computed) in view.judged() {
        let (Some(quantity), Some(judgement)) = (computed.quantity(), &computed.judgement) else {
            continue;
        };
        out.look();
        let unit = &computed.figure.unit;
        let printed = quantity.number(unit);
        let shown = parse(&printed.replace('\u{2212}', "-").replace(',', "."));
        let equal = [judgement.limit.low, judgement.limit.high]
            .into_iter()
            .flatten()
            .find(|limit| {
                let limit_shown = unit.of_si(*limit);
                let alike = shown
                    .as_ref()
                    .is_ok_and(|shown| (shown - limit_shown).abs() <= 1e-9 * limit_shown.abs());
                alike && (quantity.value - limit).abs() > 1e-12 * limit.abs()
            });
        if let Some(limit) = equal {
            out.find(
                finding(say!("{element}: {name} printed as {printed}, computed {quantity}: {limit} the limit {limit2} although the print looks equal.", element = element, name = crate::ground::words::inside(say!(computed.figure.name)), printed = printed, quantity = crate::ground::number::significant(unit.of_si(quantity.value), 8), limit = if quantity.value < limit { say!("below") } else { say!("above") }, limit2 = judgement.limit.text))
                .advise(say!("The unrounded value was compared."))
                .at(view.plant.record(computed.subject.record).place())
                .about(element)
                .about(assembly),
            );
        }
    }
    out
}

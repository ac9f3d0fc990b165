//! R47: No flow is implausibly low: below half the median of its lot.

use crate::{
    figure::Computed,
    ground::{
        finding::{Finding, Severity},
        number,
    },
    plant::Test,
    rule::{Outcome, Rule, View},
};

/// No flow is implausibly low: below half the median of its lot.
pub static RULE: Rule = Rule {
    id: "R47",
    severity: Severity::Explain,
    demands: "No flow is implausibly low: below half the median of its lot.",
    protects: "a shut outlet valve, another gas, or a blocked area that reads like an excellent module",
    explained: "By a decided deviation that names the thing; a flow below zero of what is to be released never.",
    check,
};

fn finding(message: String) -> Finding {
    Finding::new("R47", Severity::Explain, message)
}

fn check(view: &View) -> Outcome {
    let mut out = Outcome::of(say!("flows per module"));
    let mut by_lot: std::collections::BTreeMap<String, Vec<(f64, Test, &Computed)>> =
        std::collections::BTreeMap::new();
    for computed in view.graph.all("diffusive-flow") {
        let (Some(test), Some(quantity)) = (
            Test::of(view.plant.record(computed.subject.record)),
            computed.quantity(),
        ) else {
            continue;
        };
        let modules = if test.assembly {
            view.plant
                .build(test.element)
                .map_or(1, |(_, build)| build.modules.len())
        } else {
            1
        };
        let lot = view.plant.lot_of(test.element).unwrap_or(say!("no lot"));
        by_lot.entry(lot.to_owned()).or_default().push((
            quantity.value / modules as f64,
            test,
            computed,
        ));
    }
    for (lot, mut flows) in by_lot {
        flows.sort_by(|a, b| a.0.total_cmp(&b.0));
        let values: Vec<f64> = flows.iter().map(|(flow, ..)| *flow).collect();
        let Ok(median) = crate::stats::summary::median(&values) else {
            continue;
        };
        for (flow, test, computed) in &flows {
            out.look();
            // Gas does not come out of a filter: what is below zero by more than its uncertainty is no measurement.
            let below = computed
                .quantity()
                .is_some_and(|own| own.value < -crate::verdict::coverage(own) * own.u());
            if below {
                let mut found = finding(say!("{element}: {computed} is below zero by more than its uncertainty.", element = test.element, computed = computed.shown()))
                    .advise(say!("Pressure that rises is no flow: the gas warmed, a valve let gas in, or the columns are mixed up. Test again."))
                    .at(test.record.place())
                    .about(test.element)
                    .about(&*test.record.id.text);
                if view.decides(test) {
                    found.severity = view.weight(test.element);
                }
                out.find(found);
                continue;
            }
            if *flow < 0.5 * median {
                let show =
                    |si: f64| number::significant(crate::ground::unit::ML_PER_MIN.of_si(si), 3);
                out.find(
                    finding(say!("{element}: {computed} a module, {median} mL/min being the median of {lot}.", element = test.element, computed = computed.shown(), median = show(median), lot = lot))
                        .advise(say!("Too good: outlet valve shut, wrong gas, a dry or blocked area, or the volume entered wrong? Diffusion through a wet membrane cannot be that low. Repeat before use."))
                        .at(test.record.place())
                        .about(test.element)
                        .about(&*test.record.id.text),
                );
            }
        }
    }
    out
}

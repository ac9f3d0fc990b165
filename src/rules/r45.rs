//! R45: The flow of an assembly equals the sum of its modules.

use std::collections::BTreeMap;

use crate::{
    figure::Computed,
    figures::join_residual,
    ground::{
        finding::{Finding, Severity},
        number,
        unit::ML_PER_MIN,
    },
    plant::Test,
    rule::{Outcome, Rule, View},
    verdict::{self, Verdict},
};

/// The flow of an assembly equals the sum of its modules.
pub static RULE: Rule = Rule {
    id: "R45",
    severity: Severity::Blocks,
    demands: "The flow of an assembly equals the sum of its modules.",
    protects: "a leaking join that hides under the assembly limit",
    explained: "Between the two levels of the specification, or where the uncertainty reaches beyond the leak that is permitted, by a decided deviation; above the second level or the permitted leak never, but what is held and left out of the release is named as such.",
    check,
};

fn finding(message: String) -> Finding {
    Finding::new("R45", Severity::Blocks, message)
}

/// An assembly whose flow nothing was held against: a leak of a join may hide under its limit.
fn not_compared(view: &View, computed: &Computed, test: &Test) -> Finding {
    let (why, severity) = match &computed.worked {
        Err(why) => (why.as_str(), Severity::Explain),
        // There is a number, and the specification lays nothing down for it.
        Ok(_) => (
            computed.undecidable.as_deref().unwrap_or_default(),
            view.weight(test.element),
        ),
    };
    let mut found = finding(say!(
        "{element}: its flow was not held against the sum of its modules: {why}.",
        element = test.element,
        why = why
    ))
    .advise(say!(
        "Mend what is missing, or explain why the two cannot be compared: a leaking join can hide under the limit of the assembly."
    ))
    .at(test.record.place())
    .about(test.element)
    .about(&*test.record.id.text);
    found.severity = severity;
    found
}

/// A residual within its levels, which are counted in uncertainties, beside the leak that is the most allowed, which is not: a
/// budget that is too large would let a leak pass that its levels do not show.
fn permitted(view: &View, computed: &Computed, test: &Test) -> Option<Finding> {
    let (quantity, sight) = (computed.quantity()?, sight(view, computed)?);
    let (_, spec) = view.plant.spec_of(test.record)?;
    let most = spec.additivity_check.as_ref()?.permitted.as_ref()?;
    let doubt = verdict::coverage(quantity) * quantity.u();
    let show = |si: f64| {
        let unit = &computed.figure.unit;
        number::with_unit(&number::significant(unit.of_si(si), 3), unit)
    };
    // An end of a limit belongs to it.
    let beyond = |value: f64| value > most.si * (1.0 + 1e-9);
    let (message, severity) = if beyond(sight.detection) {
        let message = say!(
            "{element}: its test sees a leak at the joins of {detection} or more, and {most} is the most that the specification permits: it is not fit to show that.",
            element = test.element,
            detection = show(sight.detection),
            most = most.text
        );
        (message, view.weight(test.element))
    } else if beyond(quantity.value + doubt) {
        let message = say!(
            "{element}: {figure} over the sum of its modules, and {most} is the most that the specification permits.",
            element = test.element,
            figure = quantity.show(&computed.figure.unit),
            most = most.text
        );
        match beyond(quantity.value) {
            true => (message, view.weight(test.element)),
            false => (message, Severity::Explain),
        }
    } else {
        return None;
    };
    let mut found = finding(message)
        .advise(say!("Test it again with less uncertainty: longer, on one rig, its volume known better. What passes at a join is seen by no other test."))
        .at(test.record.place())
        .about(test.element)
        .about(&*test.record.id.text);
    found.severity = severity;
    Some(found)
}

/// What the test behind a residual can see.
fn sight(view: &View, residual: &Computed) -> Option<join_residual::Sight> {
    let whole = view.graph.get("diffusive-flow", &residual.id.record, "")?;
    join_residual::sight(residual.quantity()?, whole.quantity()?)
}

/// Specifications that count a leak in uncertainties alone.
fn unlimited(view: &View, out: &mut Outcome) {
    let mut seen: BTreeMap<usize, (f64, f64)> = BTreeMap::new();
    for computed in view.graph.all("join-residual") {
        let record = view.plant.record(computed.subject.record);
        let Some((spec, body)) = view.plant.spec_of(record) else {
            continue;
        };
        let free = body
            .additivity_check
            .as_ref()
            .is_some_and(|check| check.permitted.is_none());
        if let (true, Some(sight)) = (free, sight(view, computed)) {
            let slot = seen.entry(spec.index).or_insert((f64::INFINITY, 0.0));
            *slot = (slot.0.min(sight.detection), slot.1.max(sight.detection));
        }
    }
    for (spec, (least, most)) in seen {
        let spec = view.plant.record(spec);
        let show = |si: f64| number::significant(ML_PER_MIN.of_si(si), 2);
        let mut found = finding(say!(
            "{id} revision {revision} counts what flows over the sum of the modules in uncertainties alone: the larger its budget, the larger a leak that passes. Its tests see leaks of {least} to {most} mL/min and more.",
            id = &*spec.id,
            revision = spec.revision,
            least = show(least),
            most = show(most)
        ))
        .advise(say!("Lay down under additivity_check as permitted the leak that is the most allowed, from what it would cost in log reduction."))
        .at(spec.place())
        .about(&*spec.id.text);
        found.severity = Severity::Note;
        out.find(found);
    }
}

fn check(view: &View) -> Outcome {
    let mut out = Outcome::of(say!("assemblies"));
    unlimited(view, &mut out);
    for computed in view.graph.all("join-residual") {
        let record = view.plant.record(computed.subject.record);
        let Some(test) = Test::of(record).filter(|test| view.decides(test)) else {
            continue;
        };
        out.look();
        let (Some(quantity), Some(judgement)) = (computed.quantity(), &computed.judgement) else {
            out.find(not_compared(view, computed, &test));
            continue;
        };
        if judgement.verdict == Verdict::Conforms {
            out.findings.extend(permitted(view, computed, &test));
            continue;
        }
        let flow = view.graph.get("diffusive-flow", &record.id, "");
        let limit =
            flow.and_then(|flow| flow.judgement.as_ref())
                .map_or(String::new(), |judgement| {
                    say!(
                        ", though the assembly limit is {limit}",
                        limit = judgement.limit.text
                    )
                });
        // What the limit of the assembly alone would let pass beside its modules.
        let sum = flow
            .and_then(Computed::quantity)
            .map(|whole| whole.value - quantity.value);
        let most = flow.and_then(|flow| flow.judgement.as_ref()?.limit.high);
        let hidden =
            sum.zip(most)
                .filter(|_| quantity.value > 0.0)
                .map_or(String::new(), |(sum, most)| {
                    let unit = &computed.figure.unit;
                    let room = number::significant(unit.of_si(most - sum), 2);
                    say!(
                        "; the limit alone would have hidden up to {room}",
                        room = number::with_unit(&room, unit)
                    )
                });
        let ratio = number::fixed(quantity.value / quantity.u(), 1);
        let leak = view
            .graph
            .get("leak-diameter", &record.id, "")
            .and_then(Computed::quantity)
            .map_or(String::new(), |d| {
                say!(
                    "; as one hole about {d} µm wide",
                    d = number::significant(d.value * 1e6, 2)
                )
            });
        let whole = flow.map_or(String::new(), |flow| flow.shown());
        let message = match quantity.value < 0.0 {
            true => say!(
                "{element}: flow {whole}, below the sum of its modules: {figure} = {ratio} u.",
                element = test.element,
                whole = whole,
                figure = quantity.show(&computed.figure.unit),
                ratio = ratio
            ),
            false => say!(
                "{element}: flow {whole}, over the sum of its modules by {figure} = {ratio} u{limit}{hidden}{leak}.",
                element = test.element,
                whole = whole,
                figure = quantity.show(&computed.figure.unit),
                ratio = ratio,
                limit = limit,
                hidden = hidden,
                leak = leak
            ),
        };
        let mut found = finding(message)
            .advise(if quantity.value < 0.0 { say!("Less than the sum of the parts cannot be: look at wetting, temperature, or modules that were swapped.") } else { say!("Look for a leaking join, adapter or seal of the housing; retest in a second housing. If the excess moves with the housing, it is the housing.") })
            .at(record.place())
            .about(test.element)
            .about(&*record.id.text);
        found.severity = match judgement.verdict {
            Verdict::DoesNotConform => view.weight(test.element),
            _ => Severity::Explain,
        };
        out.find(found);
    }
    out
}

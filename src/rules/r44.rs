//! R44: Uncertainty contributions exist for each judged quantity and can be used.

use crate::{
    figure::{Computed, Origin},
    figures::{bubble_point, membrane_bubble_point, membrane_thickness},
    ground::{
        finding::{Finding, Severity},
        number,
        unit::MBAR,
    },
    plant::Test,
    record::{Record, common::Measured, kinds::Body},
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

/// What the readings of a figure leave open and its uncertainty does not hold: the place of a crossing between two steps
/// of a ramp, the scatter of a single reading.
fn surer_than_its_readings(
    view: &View,
    computed: &Computed,
    u: f64,
) -> Option<(String, &'static str)> {
    let record = view.plant.record(computed.subject.record);
    let value = computed.quantity()?.value;
    if computed.id.figure == bubble_point::FIGURE.id {
        let measured = Test::of(record)?.measurement(Measured::BubblePoint)?;
        let trace = view.plant.folder.trace(measured.trace.as_ref()?)?;
        let ramp = trace.column("pressure")?;
        let room = measured.atmospheric_pressure.as_ref();
        let zero = if ramp.absolute { room?.si } else { 0.0 };
        let steps = ramp
            .values
            .array_windows()
            .map(|[a, b]| (a - zero, b - zero));
        let (a, b) = steps
            .into_iter()
            .find(|(a, b)| *a <= value && value <= *b)?;
        // Anywhere between the two readings, each place alike (JCGM 100:2008, 4.3.7).
        let open = (b - a) / libm::sqrt(12.0);
        let show = |si: f64| number::with_unit(&number::significant(MBAR.of_si(si), 3), &MBAR);
        return (open > u).then(|| {
            let words = say!(
                "the ramp steps by {step} where the flow leaves its line, which leaves {open} open, and its standard uncertainty is {u}",
                step = show(b - a),
                open = show(open),
                u = show(u)
            );
            (words, say!("Test with smaller steps near the bubble point, or state what a step leaves open as a contribution."))
        });
    }
    let quantity = computed.figure.quantity?;
    let of_membrane = [
        membrane_bubble_point::FIGURE.id,
        membrane_thickness::FIGURE.id,
    ];
    let alone =
        of_membrane.contains(&computed.id.figure) && readings_of(record, quantity) == Some(1);
    alone.then(|| {
        let words = say!("it stands on one reading, whose scatter is not known");
        (words.to_owned(), say!("Take two readings or more of each sample; their scatter is a part of the uncertainty."))
    })
}

/// How many readings of a quantity a membrane test has.
fn readings_of(record: &Record, quantity: Measured) -> Option<usize> {
    let Body::MembraneTest(body) = &record.body else {
        return None;
    };
    let own = body
        .measurements
        .iter()
        .find(|own| own.quantity == quantity)?;
    Some(own.readings.iter().count())
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
                let message = match judgement.verdict {
                    Verdict::NotEvaluated => say!(
                        "{name} gives no contribution for {word}. Without it no verdict is printed.",
                        name = name,
                        word = word
                    ),
                    _ => say!(
                        "{name} gives no contribution for {word}: the verdicts on it know the scatter of the readings and nothing else.",
                        name = name,
                        word = word
                    ),
                };
                out.find(
                    finding(message)
                        .advise(say!(
                            "Enter the contributions, or agree on simple acceptance and say so."
                        ))
                        .at(at.clone())
                        .about(name),
                );
            }
        }
        if computed.judgement.is_some()
            && let Some((message, advice)) =
                surer_than_its_readings(view, computed, worked.quantity.u())
        {
            out.find(
                Finding {
                    severity: Severity::Explain,
                    ..finding(format!("{}: {message}.", computed.id))
                }
                .advise(advice)
                .at(record.place())
                .about(&*record.id.text),
            );
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

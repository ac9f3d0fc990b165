//! R87: The uncertainty budget is no smaller than what a measurement study or a certificate shows.

use std::collections::BTreeMap;

use crate::{
    ground::{
        finding::{Finding, Severity},
        number,
        unit::{Dim, PRESSURE, VOLUME},
    },
    plant::Test,
    record::{
        Record,
        common::Measured,
        kinds::{
            Body,
            product_specification::{Contribution, ProductSpecification},
        },
    },
    rule::{Outcome, Rule, View},
};

/// The uncertainty budget is no smaller than what a measurement study or a certificate shows.
pub static RULE: Rule = Rule {
    id: "R87",
    severity: Severity::Blocks,
    demands: "The uncertainty budget is no smaller than what a measurement study or a certificate shows.",
    protects: "verdicts that rest on too small an uncertainty",
    explained: "Never: it is mended, or what it concerns is not released.",
    check,
};

fn finding(message: String) -> Finding {
    Finding::new(RULE.id, RULE.severity, message)
}

fn check(view: &View) -> Outcome {
    let mut out = Outcome::of(say!(
        "measurement studies, and results beside budgets and certificates"
    ));
    certificates(view, &mut out);
    for computed in view.graph.all("repeatability") {
        let record = view.plant.record(computed.subject.record);
        let Body::MeasurementStudy(study) = &record.body else {
            continue;
        };
        out.look();
        let mut report = |message: String, advice: &str| {
            out.find(
                finding(format!("{}: {message}.", &*record.id))
                    .advise(advice)
                    .at(record.place())
                    .about(&*record.id.text),
            );
        };
        let shown = match &computed.worked {
            Err(why) => {
                report(
                    say!("repeatability is not evaluated: {why}", why = why),
                    say!("Complete the study: each element at least twice by each operator."),
                );
                continue;
            }
            Ok(worked) => worked.quantity.value,
        };
        let spec = view.plant.spec_of_product(&study.product_code);
        let own = spec.and_then(|(_, spec)| {
            spec.uncertainty_contributions.iter().find(|one| {
                one.quantity == study.quantity && one.source.text == study.contribution.text
            })
        });
        let mean = study
            .results
            .iter()
            .map(|result| result.value.si)
            .sum::<f64>()
            / study.results.len() as f64;
        let budget = own.and_then(|own| {
            own.relative
                .as_ref()
                .map(|relative| relative.value)
                .or_else(|| {
                    own.absolute.as_ref().map(|absolute| {
                        absolute.unit.factor * absolute.unit.of_si(absolute.si) / mean
                    })
                })
        });
        match budget {
            None => report(
                say!(
                    "the specification of {product_code} has no contribution {contribution} of {quantity}",
                    product_code = &*study.product_code,
                    contribution = &*study.contribution,
                    quantity = study.quantity.word()
                ),
                say!("Enter what the study shows."),
            ),
            Some(budget) if budget < shown => report(
                say!(
                    "{contribution} of {quantity} is budgeted at {budget} %, and the study shows {computed}",
                    contribution = study.contribution.replace('_', " "),
                    quantity = study.quantity.said(),
                    budget = number::significant(100.0 * budget, 2),
                    computed = computed.shown()
                ),
                say!(
                    "Enter what the study shows in the specification; every verdict is then made again."
                ),
            ),
            Some(_) => {}
        }
        // Readings less the means of each operator's readings of each element.
        let means: std::collections::BTreeSet<(&str, &str)> = study
            .results
            .iter()
            .map(|result| (&*result.item.text, &*result.operator.text))
            .collect();
        let shown = (study.results.len() - means.len()) as u64;
        let stated = own
            .and_then(|own| own.degrees_of_freedom.as_ref())
            .map(|n| n.value);
        if stated.is_some_and(|stated| stated > shown) {
            report(
                say!(
                    "{contribution} of {quantity} is said to have {stated} degrees of freedom, and the study has {shown}",
                    contribution = study.contribution.replace('_', " "),
                    quantity = study.quantity.said(),
                    stated = stated.unwrap_or_default(),
                    shown = shown
                ),
                say!("Enter those of the study."),
            );
        }
    }
    out
}

/// What the calibration of an instrument leaves in doubt: the quantity whose budget it belongs to, the name of its contribution,
/// what was calibrated.
const CALIBRATED: [(Measured, &str, Dim); 2] = [
    (Measured::DiffusiveFlow, "upstream_volume", VOLUME),
    (Measured::BubblePoint, "pressure_calibration", PRESSURE),
];

/// The budget of a specification beside the certificates of the rigs that measured to it.
fn certificates(view: &View, out: &mut Outcome) {
    // The test with the least room, for each revision of a specification, rig and contribution.
    let mut worst: BTreeMap<(usize, &str, &str), (f64, f64, &Record)> = BTreeMap::new();
    for test in view.plant.tests() {
        let Some((spec, body)) = view.plant.spec_of(test.record) else {
            continue;
        };
        for (quantity, source, dim) in CALIBRATED {
            let Some(value) = read(&test, quantity) else {
                continue;
            };
            let Some(shown) = certified(view, &test, dim, value.0) else {
                continue;
            };
            // An absolute contribution is one of the result.
            let figure = match quantity {
                Measured::DiffusiveFlow => "diffusive-flow",
                _ => "bubble-point",
            };
            let computed = view.graph.get(figure, &test.record.id, "");
            let Some(result) = computed.and_then(|computed| computed.quantity()) else {
                continue;
            };
            out.look();
            let stated = libm::hypot(budgeted(body, quantity, source, result.value), value.1);
            let key = (spec.index, &*test.test.instrument_id.text, source);
            let slot = worst.entry(key).or_insert((shown, stated, test.record));
            if shown - stated > slot.0 - slot.1 {
                *slot = (shown, stated, test.record);
            }
        }
    }
    for ((spec, instrument, source), (shown, stated, record)) in worst {
        // The last digits of two roots are no difference.
        if shown <= stated * (1.0 + 1e-9) {
            continue;
        }
        let spec = view.plant.record(spec);
        let percent = |share: f64| number::significant(100.0 * share, 2);
        out.find(
            finding(say!(
                "{id} revision {revision} counts {stated} % for {source}, and the calibration of {instrument} leaves {shown} % in doubt (k = 1, with the error that was left), as in {test}.",
                id = &*spec.id,
                revision = spec.revision,
                stated = percent(stated),
                source = source.replace('_', " "),
                instrument = instrument,
                shown = percent(shown),
                test = &*record.id
            ))
            .advise(say!("Enter what the certificate states, or have the instrument calibrated better; every verdict is then made again."))
            .at(spec.place())
            .about(&*spec.id.text)
            .about(instrument),
        );
    }
}

/// What a test read of a quantity that is calibrated, with the standard uncertainty that it states itself as a share, in SI.
fn read(test: &Test, quantity: Measured) -> Option<(f64, f64)> {
    let measured = test.measurement(quantity)?;
    match quantity {
        Measured::DiffusiveFlow => {
            let volume = measured.upstream_volume.as_ref()?;
            Some((volume.si, volume.u.unwrap_or(0.0) / volume.si))
        }
        _ => Some((measured.instrument_reported.as_ref()?.value.si, 0.0)),
    }
}

/// The standard uncertainty of the nearest point of a certificate that covers the day, as a share of the value. An error that was
/// left and is not taken off counts with it (JCGM 100:2008, F.2.4.5).
fn certified(view: &View, test: &Test, dim: Dim, value: f64) -> Option<f64> {
    let day = test.record.day()?;
    let points = view.plant.calibrations(&test.test.instrument_id);
    let points = points
        .iter()
        .filter(|(_, body)| body.in_force(day))
        .flat_map(|(_, body)| &body.points)
        .filter(|point| point.nominal.unit.dim == dim);
    let off = |si: f64| (si - value).abs();
    let point = points.min_by(|a, b| off(a.nominal.si).total_cmp(&off(b.nominal.si)))?;
    let u = point.expanded_uncertainty.si / point.coverage_factor.value;
    let share = libm::hypot(u, point.as_left_error.si) / value;
    share.is_finite().then_some(share.abs())
}

/// What the specification counts for a source, as a share of a result; where it does not name the source, all that it counts.
fn budgeted(spec: &ProductSpecification, quantity: Measured, source: &str, value: f64) -> f64 {
    let own = |named: bool| {
        let list = spec.uncertainty_contributions.iter();
        list.filter(move |one| one.quantity == quantity && (!named || &*one.source == source))
    };
    let share = |one: &Contribution| {
        let relative = one.relative.as_ref().map(|relative| relative.value);
        let absolute = one.absolute.as_ref().map(|absolute| absolute.si / value);
        relative.or(absolute).unwrap_or(0.0)
    };
    let named = own(true).next().is_some();
    libm::sqrt(own(named).map(|one| share(one) * share(one)).sum())
}

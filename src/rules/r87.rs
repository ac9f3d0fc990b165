//! R87: The uncertainty budget is no smaller than what a measurement study shows.

use crate::{
    ground::finding::{Finding, Severity},
    rule::{Outcome, Rule, View},
};
use crate::{ground::number, record::kinds::Body};

/// The uncertainty budget is no smaller than what a measurement study shows.
pub static RULE: Rule = Rule {
    id: "R87",
    severity: Severity::Blocks,
    demands: "The uncertainty budget is no smaller than what a measurement study shows.",
    protects: "verdicts that rest on too small an uncertainty",
    explained: "Never: it is mended, or what it concerns is not released.",
    check,
};

fn finding(message: String) -> Finding {
    Finding::new(RULE.id, RULE.severity, message)
}

fn check(view: &View) -> Outcome {
    let mut out = Outcome::of(say!("measurement studies"));
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

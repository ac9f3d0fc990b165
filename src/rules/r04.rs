//! R04: Every quantity has a unit that fits its field and a believable size.

use crate::record::{
    folder,
    kinds::{Body, product_specification::Rule as DecisionName},
};
use crate::{
    figure::dimension,
    ground::{
        finding::{Finding, Severity},
        number,
    },
    rule::{Outcome, Rule, View},
};

/// Every quantity has a unit that fits its field and a believable size.
pub static RULE: Rule = Rule {
    id: "R04",
    severity: Severity::Blocks,
    demands: "Every quantity has a unit that fits its field and a believable size.",
    protects: "a slip of a factor of ten, or gauge taken for absolute",
    explained: "Never: it is mended, or what it concerns is not released.",
    check,
};

fn check(view: &View) -> Outcome {
    let mut out = Outcome::of(say!("record files"));
    out.looked = view
        .plant
        .folder
        .files
        .keys()
        .filter(|name| folder::holds_records(name))
        .count();
    out.findings = view
        .plant
        .folder
        .problems
        .iter()
        .filter(|problem| problem.rule == "R04")
        .cloned()
        .collect();
    packs(view, &mut out);
    for (record, spec) in view.plant.records().product_specifications() {
        let mut find = |message: String, advice: &str, spot| {
            out.find(
                Finding::new(
                    "R04",
                    Severity::Blocks,
                    format!("{}: {message}", &*record.id),
                )
                .advise(advice)
                .at(record.at(spot))
                .about(&*record.id.text),
            )
        };
        for accepted in &spec.acceptance {
            if accepted.limit.unit.dim != dimension(accepted.quantity) {
                find(
                    say!(
                        "the limit \"{limit}\" is no limit of {quantity}.",
                        limit = accepted.limit.text,
                        quantity = accepted.quantity.word()
                    ),
                    say!("Write it with a unit of that quantity."),
                    accepted.limit.spot,
                );
            }
            let same = |other: &&crate::record::kinds::product_specification::Acceptance| {
                other.stage == accepted.stage && other.quantity == accepted.quantity
            };
            if spec.acceptance.iter().filter(same).count() > 1 {
                find(
                    say!(
                        "{quantity} of stage {stage} is limited more than once.",
                        quantity = accepted.quantity.word(),
                        stage = accepted.stage.word()
                    ),
                    say!("Write one limit, with both ends if need be."),
                    accepted.spot,
                );
            }
        }
        let guard = spec.decision_rule.guard_band.as_ref();
        if let Some(text) = guard.filter(|text| {
            !text
                .strip_suffix('U')
                .is_some_and(|n| number::parse(n.trim()).is_ok_and(|n| n >= 0.0))
        }) {
            find(
                say!(
                    "the guard band \"{what}\" is not of the form \"1.0 U\", from 0 up.",
                    what = &**text
                ),
                say!("A guard band below zero would pass what fails."),
                text.spot,
            );
        }
        let shared = spec.decision_rule.name == DecisionName::SimpleAcceptance;
        let nothing = |text: &str| {
            let n = text.strip_suffix('U').map(|n| number::parse(n.trim()));
            n == Some(Ok(0.0))
        };
        if let Some(text) = guard.filter(|text| !shared && nothing(text)) {
            find(
                say!(
                    "the guard band \"{what}\" guards nothing, and the rule is {name}.",
                    what = &**text,
                    name = spec.decision_rule.name.word()
                ),
                say!(
                    "State a band above zero; or say simple_acceptance, where it was agreed that the risk is shared."
                ),
                text.spot,
            );
        }
        for contribution in spec.uncertainty_contributions.iter() {
            let negative = contribution
                .relative
                .as_ref()
                .is_some_and(|x| x.value < 0.0)
                || contribution.absolute.as_ref().is_some_and(|x| x.si < 0.0);
            let none_free = contribution
                .degrees_of_freedom
                .as_ref()
                .is_some_and(|n| n.value == 0);
            let neither = contribution.relative.is_some() == contribution.absolute.is_some();
            if negative || neither || none_free {
                let why = if none_free {
                    say!(
                        "has no degree of freedom: leave them out where the uncertainty is taken as known"
                    )
                } else if negative {
                    say!("is below zero")
                } else {
                    say!("states not exactly one of relative and absolute")
                };
                find(
                    say!(
                        "the contribution {source} {why}.",
                        source = &*contribution.source,
                        why = why
                    ),
                    say!("A standard uncertainty is a positive number, relative or absolute."),
                    contribution.spot,
                );
            }
        }
        for (quantity, text) in spec.comparison_tolerance.iter().flat_map(|all| &all.leaves) {
            if number::parse_with_unit(text).is_err() {
                find(
                    say!(
                        "the comparison tolerance \"{what}\" of {quantity} cannot be read.",
                        what = &**text,
                        quantity = quantity
                    ),
                    say!("Write \"2 %\" or \"20 mbar\", with a blank."),
                    text.spot,
                );
            }
        }
    }
    out
}

/// A pack as large as the specification says, from as much of the roll as it takes: what is twice too much, or less than the
/// effective area, has a slip in it somewhere. Told once a record.
fn packs(view: &View, out: &mut Outcome) {
    let mut told = std::collections::BTreeSet::new();
    for computed in view.graph.all("pleated-area") {
        let record = view.plant.record(computed.subject.record);
        let Body::PleatingRecord(body) = &record.body else {
            continue;
        };
        let pack = body
            .packs
            .iter()
            .find(|pack| *pack.module_id.text == *computed.id.part);
        let (Some(area), Some(pack)) = (computed.quantity(), pack) else {
            continue;
        };
        let spec = view.plant.spec_of_element(&pack.module_id);
        let stated = spec.map(|(_, spec)| &spec.module_effective_filtration_area);
        let taken = (pack.to.si - pack.from.si) * body.pleated_length.si;
        let off = |other: f64| !(0.5..=2.0).contains(&(area.value / other));
        let wrong = match stated {
            // What the seam and the end caps take comes off the gross area, so that the effective one is less.
            Some(stated) if off(stated.si) || area.value < stated.si => say!(
                "{area} of membrane are pleated, and the specification says {stated} a module",
                area = area.bare(&computed.figure.unit),
                stated = stated.text
            ),
            _ if off(taken) => say!(
                "{area} of membrane are pleated, and {from} to {to} of the roll are not as much",
                area = area.bare(&computed.figure.unit),
                from = pack.from.text,
                to = pack.to.text
            ),
            _ => continue,
        };
        if told.insert(record.index) {
            out.find(
                Finding::new(
                    "R04",
                    Severity::Blocks,
                    format!("{}, {}: {wrong}.", &*record.id, &*pack.module_id),
                )
                .advise(say!("Look at pleat height, length and count, at the metres of the roll, and at their units."))
                .at(record.at(pack.spot))
                .about(&*record.id.text)
                .about(&*pack.module_id.text),
            );
        }
    }
}

//! R84: Clearances, core and pleats have room left within their uncertainty.

use crate::{
    ground::finding::{Finding, Severity},
    rule::{Outcome, Rule, View},
};
use crate::{
    record::kinds::{
        Body,
        cycle_claim::Claim,
        element_geometry::{Direction, ElementGeometry},
    },
    verdict::Verdict,
};

/// Clearances, core and pleats have room left within their uncertainty.
pub static RULE: Rule = Rule {
    id: "R84",
    severity: Severity::Blocks,
    demands: "Clearances, core and pleats have room left within their uncertainty.",
    protects: "a ring that grips, a pack that jams, a core that gives way",
    explained: "Never: it is mended, or what it concerns is not released.",
    check,
};

fn finding(message: String) -> Finding {
    Finding::new(RULE.id, RULE.severity, message)
}

fn check(view: &View) -> Outcome {
    let mut out = Outcome::of(say!("fits, strengths and stacks"));
    for figure in [
        "clearance-hot",
        "clearance-cold",
        "ring-clearance-hot",
        "collapse-margin",
        "pleat-room",
    ] {
        for computed in view.graph.all(figure) {
            out.look();
            if computed.verdict() == Verdict::Conforms {
                continue;
            }
            let record = view.plant.record(computed.subject.record);
            let words = match &computed.worked {
                Err(why) => say!("{id} is not evaluated: {why}", id = computed.id, why = why),
                Ok(_) => format!("{}: {}", computed.id, View::phrase(computed)),
            };
            // The play of one assembly's ring concerns that assembly; the rest concerns the product.
            let (severity, about) = match &record.body {
                Body::AssemblyBuild(build) => {
                    (view.weight(&build.assembly_id), &*build.assembly_id.text)
                }
                _ => (Severity::Blocks, &*computed.id.part),
            };
            out.find(
                Finding {
                    severity,
                    ..finding(format!("{words}."))
                }
                    .advise(match computed.worked {
                        Ok(_) => say!("Change dimension, tolerance or claim; measure it on elements after their first cycle."),
                        Err(_) => say!("Mend what keeps it from being evaluated; nothing is known of it until then."),
                    })
                    .at(record.place())
                    .about(&*record.id.text)
                    .about(about),
            );
        }
    }
    for (record, geometry) in view.plant.records().element_geometrys() {
        for wrong in impossible(view, geometry) {
            out.look();
            out.find(
                finding(format!("{}: {wrong}.", &*record.id))
                    .advise(say!("Correct the record; a clearance that was worked out for another state says nothing."))
                    .at(record.place())
                    .about(&*record.id.text),
            );
        }
    }
    out
}

/// What cannot be, or does not reach what is claimed.
fn impossible(view: &View, geometry: &ElementGeometry) -> Vec<String> {
    let mut out = Vec::new();
    let claims: Vec<&Claim> = view
        .plant
        .records()
        .cycle_claims()
        .filter(|(_, claim)| claim.product_code.text == geometry.product_code.text)
        .flat_map(|(_, claim)| &claim.claims)
        .collect();
    let hottest = claims
        .iter()
        .filter_map(|one| one.temperature_max.as_ref())
        .max_by(|a, b| a.si.total_cmp(&b.si));
    for fit in geometry.fits.iter() {
        if fit.hottest.si <= fit.coldest.si {
            out.push(say!(
                "{id} is no hotter in its hottest state than in its coldest",
                id = &*fit.id
            ));
        }
        if let Some(claimed) = hottest.filter(|claimed| claimed.si > fit.hottest.si + 1e-9) {
            out.push(say!(
                "{id} is looked at up to {hottest}, and the claim goes to {claimed}",
                id = &*fit.id,
                hottest = fit.hottest.text,
                claimed = claimed.text
            ));
        }
    }
    let size = |id: &str| geometry.part(id).map(|part| part.size.si);
    if let (Ok(core), Ok(cage)) = (size(&geometry.core), size(&geometry.cage)) {
        if core >= cage {
            out.push(say!("the core is no smaller than the cage").to_owned());
        }
        let packs = view
            .plant
            .records()
            .pleating_records()
            .filter(|(record, _)| {
                view.plant
                    .spec_of(record)
                    .is_some_and(|(_, spec)| spec.product_code.text == geometry.product_code.text)
            });
        let highest = packs.max_by(|a, b| a.1.pleat_height.si.total_cmp(&b.1.pleat_height.si));
        if let Some((record, pack)) =
            highest.filter(|(_, pack)| 2.0 * pack.pleat_height.si > cage - core)
        {
            out.push(say!(
                "pleats of {pleat_height} ({id}) do not fit between core and cage",
                pleat_height = pack.pleat_height.text,
                id = &*record.id
            ));
        }
    }
    for one in claims {
        for (direction, pressure) in [
            (Direction::Forward, &one.differential_pressure_max),
            (Direction::Reverse, &one.reverse_differential_pressure_max),
        ] {
            let Some(pressure) = pressure else { continue };
            // What held cold says nothing of what is soft when hot.
            let shown = geometry.strengths.iter().any(|strength| {
                strength.direction == direction
                    && strength.elements_tested.value > 0
                    && one
                        .temperature_max
                        .as_ref()
                        .is_none_or(|hot| strength.temperature.si >= hot.si - 1e-9)
            });
            if shown {
                continue;
            }
            let message = match &one.temperature_max {
                Some(hot) => say!(
                    "no strength was tested in the {direction} direction at {hot} or above, and {pressure} of {treatment} is claimed",
                    direction = direction.word(),
                    hot = hot.text,
                    pressure = pressure.text,
                    treatment = one.treatment.replace('_', " ")
                ),
                None => say!(
                    "no strength was tested in the {direction} direction, and a pressure difference is claimed",
                    direction = direction.word()
                ),
            };
            if !out.contains(&message) {
                out.push(message);
            }
        }
    }
    if geometry.fits.is_empty() {
        out.push(say!("no fit says what must keep clear of what").into());
    }
    out
}

//! R68: Every wetted part has a declaration for food contact.

use std::collections::BTreeMap;

use super::r64;
use crate::{
    ground::finding::{Finding, Severity},
    rule::{Outcome, Rule, View},
};
use crate::{ground::place::Place, plant::lots_used};

/// Every wetted part has a declaration for food contact.
pub static RULE: Rule = Rule {
    id: "R68",
    severity: Severity::Blocks,
    demands: "Every wetted part has a declaration for food contact.",
    protects: "a part that was never declared fit for food",
    explained: "Never: it is mended, or what it concerns is not released.",
    check,
};

fn finding(message: String) -> Finding {
    Finding::new(RULE.id, RULE.severity, message)
}

fn check(view: &View) -> Outcome {
    let mut out = Outcome::of(say!("material lots used"));
    let mut seen = std::collections::BTreeSet::new();
    let mut narrow: BTreeMap<&str, (Place, &str, &str, Vec<&str>)> = BTreeMap::new();
    let mut vague: BTreeMap<&str, (Place, String, Vec<&str>)> = BTreeMap::new();
    let eu = view.plant.releases().any(|(_, release)| {
        release
            .requirements
            .iter()
            .any(|one| one.texts().any(|text| text.contains("1935/2004")))
    });
    let hottest = view
        .plant
        .records()
        .cycle_claims()
        .flat_map(|(_, claim)| &claim.claims)
        .filter_map(|claim| claim.temperature_max.as_ref().map(|most| (claim, most)))
        .max_by(|a, b| a.1.si.total_cmp(&b.1.si))
        .map(|(claim, most)| {
            (
                most.si,
                say!(
                    "{treatment} at {most}",
                    treatment = claim.treatment.replace('_', " "),
                    most = most.text
                ),
            )
        });
    for record in view.plant.records().current() {
        for (lot, what) in lots_used(&record.body) {
            let Some((material, body)) = view
                .plant
                .material(lot)
                .filter(|_| seen.insert(lot.text.clone()))
            else {
                continue;
            };
            out.look();
            if body.food_contact_documents.is_empty() {
                out.find(
                    finding(say!(
                        "{lot} ({what}) has no declaration for food contact.",
                        lot = &**lot,
                        what = say!(what)
                    ))
                    .advise(say!("Ask the supplier for one that covers its use."))
                    .at(material.place())
                    .about(&*lot.text),
                );
            }
            let european = body
                .food_contact_documents
                .iter()
                .any(|paper| EUROPEAN.iter().any(|law| paper.regulation.contains(law)));
            if eu && !european && !body.food_contact_documents.is_empty() {
                out.find(
                    Finding {
                        severity: Severity::Explain,
                        ..finding(say!("{lot} ({what}) has no declaration under Regulation (EC) 1935/2004, to which the release declares conformity.", lot = &**lot, what = say!(what)))
                    }
                    .advise(say!("Ask the supplier for one, or say in the statement to what it does not apply."))
                    .at(material.place())
                    .about(&*lot.text),
                );
            }
            for paper in body.food_contact_documents.iter() {
                let words = paper.covers.as_deref().unwrap_or("").to_lowercase();
                let unclear = match &*words {
                    "" => Some(say!("does not say what it covers").to_owned()),
                    words
                        if words.contains("not for")
                            || words.contains("not tested")
                            || words.contains("except") =>
                    {
                        Some(say!("covers \"{words}\"", words = words))
                    }
                    words if words.contains("degf") || words.contains("°f") => {
                        Some(say!("gives its temperature in degrees Fahrenheit").to_owned())
                    }
                    _ => None,
                };
                // Metal rings and the like are declared as such; what touches food when hot is plastic.
                let plastic = paper.regulation.contains("10/2011");
                if let Some(unclear) = unclear.filter(|_| plastic || !words.is_empty()) {
                    vague
                        .entry(&paper.document)
                        .or_insert_with(|| (material.at(paper.spot), unclear, Vec::new()))
                        .2
                        .push(lot);
                    continue;
                }
                let covered = paper
                    .covers
                    .as_deref()
                    .and_then(|covers| r64::temperature(&covers.to_lowercase()));
                if let (Some(covered), Some((hottest, treatment))) = (covered, &hottest)
                    && *hottest > covered + 1e-9
                {
                    narrow
                        .entry(&paper.document)
                        .or_insert_with(|| {
                            (
                                material.at(paper.spot),
                                paper.covers.as_deref().unwrap_or(""),
                                treatment,
                                Vec::new(),
                            )
                        })
                        .3
                        .push(lot);
                }
            }
        }
    }
    for (document, (place, unclear, lots)) in vague {
        let found = Finding {
            severity: Severity::Explain,
            ..finding(format!("{document} {unclear} ({}).", lots.join(", ")))
        }
        .advise(say!("Ask the supplier for a declaration that covers the use: foods, time, temperature, repeated use."))
        .at(place)
        .about(document)
        .about_all(&lots);
        out.find(found);
    }
    for (document, (place, covers, treatment, lots)) in narrow {
        let found = Finding {
            severity: Severity::Explain,
            ..finding(say!("{document} covers \"{covers}\", and the claim includes {treatment} ({lots}).", document = document, covers = covers, treatment = treatment, lots = lots.join(", ")))
        }
        .advise(say!("If no food is present during that treatment and a rinse follows, record that reasoning in a deviation that names the document; ask the supplier about repeated use after it."))
        .at(place)
        .about(document)
        .about_all(&lots);
        out.find(found);
    }
    out
}

/// Laws of the European Union on articles in contact with food, as declarations name them.
const EUROPEAN: &[&str] = &["1935/2004", "10/2011", "2023/2006"];

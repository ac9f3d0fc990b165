//! R76: The release statement has every mandatory item.

use crate::{
    ground::finding::{Finding, Severity},
    record::kinds::release_statement::ReleaseStatement,
    rule::{Outcome, Rule, View},
};

/// The release statement has every mandatory item.
pub static RULE: Rule = Rule {
    id: "R76",
    severity: Severity::Blocks,
    demands: "The release statement has every mandatory item.",
    protects: "a certificate that says less than it must (ISO/IEC 17050-1, list from memory)",
    explained: "Never: it is mended, or what it concerns is not released.",
    check,
};

fn finding(message: String) -> Finding {
    Finding::new("R76", Severity::Blocks, message)
}

fn check(view: &View) -> Outcome {
    let mut out = Outcome::of(say!("release statements"));
    for (record, release) in view.plant.releases() {
        out.look();
        let items = [
            (
                say!("name of the issuer"),
                release.issuer.get("name").is_some(),
            ),
            (
                say!("address of the issuer"),
                release.issuer.get("address").is_some(),
            ),
            (
                say!("name of the customer"),
                release.customer.get("name").is_some(),
            ),
            (say!("order"), release.customer.get("order").is_some()),
            (say!("place of issue"), release.place_of_issue.is_some()),
            (say!("requirements"), !release.requirements.is_empty()),
            (
                say!("limits on validity"),
                !release.limitations.0.is_empty(),
            ),
            (
                say!("name, function and signature of the authorised person"),
                release.signed_as("release").next().is_some(),
            ),
            (say!("retention date"), release.retention_until.is_some()),
            (
                say!("a retention date that the retention_period of the specification asks"),
                kept_long_enough(view, release),
            ),
            (
                say!("a statement that the items conform"),
                says_that_they_conform(&release.statement),
            ),
            (say!("items"), !release.object.assemblies.is_empty()),
            (
                say!("the specification among the requirements"),
                view.plant
                    .spec_of_product(&release.object.product_code)
                    .is_none_or(|(spec, _)| {
                        let named = release.requirements.iter();
                        let mut named = named.filter_map(|one| one.get("document"));
                        named.any(|document| document.text == spec.id.text)
                    }),
            ),
            (
                say!("the person who signs for release as the authorised person"),
                release.authorised_person.as_ref().is_none_or(|person| {
                    let mut signed = release.signed_as("release");
                    signed.any(|signature| signature.person_id.text == person.text)
                }),
            ),
            (
                say!("a specification of the product"),
                view.plant
                    .spec_of_product(&release.object.product_code)
                    .is_some(),
            ),
            (
                say!("requirements in a revision that is in this folder"),
                release.requirements.iter().all(|one| {
                    match (one.get("document"), one.get("revision")) {
                        (Some(document), Some(revision))
                            if view
                                .plant
                                .records()
                                .find("product_specification", document)
                                .is_some() =>
                        {
                            revision.parse().is_ok_and(|n: u64| {
                                view.plant
                                    .records()
                                    .revision("product_specification", document, n)
                                    .is_some()
                            })
                        }
                        _ => true,
                    }
                }),
            ),
            (
                say!("items as many as the quantity says"),
                release.object.assemblies.len() as u64 == release.object.quantity.value,
            ),
        ];
        let mut seen = std::collections::BTreeSet::new();
        for id in &release.object.assemblies {
            let lot = view.plant.lot_of(id);
            let wrong = match lot {
                _ if !seen.insert(&id.text) => Some(say!("is listed twice").to_owned()),
                Some(lot) if *lot != *release.object.lot_id.text => Some(say!(
                    "is of lot {lot}, not {lot_id}",
                    lot = lot,
                    lot_id = &*release.object.lot_id
                )),
                _ => None,
            };
            let build = view.plant.build(id).into_iter();
            let mut modules = build.flat_map(|(_, build)| build.modules.iter());
            // Whose first module is of another lot was told.
            let strange = modules.find_map(|position| {
                let own = view.plant.lot_of(&position.module_id)?;
                (Some(own) != lot).then(|| {
                    say!(
                        "holds {module} of lot {own}, not {lot_id}",
                        module = &*position.module_id,
                        own = own,
                        lot_id = &*release.object.lot_id
                    )
                })
            });
            if let Some(wrong) = wrong.or(strange) {
                out.find(
                    finding(format!("{}: {} {wrong}.", &*record.id, &**id))
                        .advise(say!("Correct the list and sign again."))
                        .at(record.at(id.spot))
                        .about(&*record.id.text)
                        .about(&*id.text),
                );
            }
        }
        for (name, _) in items.iter().filter(|(_, there)| !there) {
            out.find(
                finding(say!(
                    "{id}: missing: {name}.",
                    id = &*record.id,
                    name = name
                ))
                .advise(say!("Add it and sign again."))
                .at(record.place())
                .about(&*record.id.text),
            );
        }
    }
    out
}

/// Whether a statement says, in a language of the pages, that the items conform, and not that they do not.
fn says_that_they_conform(statement: &str) -> bool {
    const STEMS: [&str; 3] = ["conform", "konform", "entsprech"];
    const DENIALS: [&str; 17] = [
        "no", "not", "non", "none", "nor", "neither", "never", "nicht", "kein", "keine", "keines",
        "weder", "ne", "pas", "aucun", "não", "nessuno",
    ];
    let said = statement.to_lowercase();
    let words: Vec<&str> = said
        .split(|c: char| !c.is_alphanumeric())
        .filter(|word| !word.is_empty())
        .collect();
    let stems = words.iter().enumerate().filter_map(|(i, word)| {
        let stem = STEMS.iter().find_map(|stem| word.find(stem))?;
        Some((i, word.get(..stem).unwrap_or("")))
    });
    // A denial stands close before the word, or is its beginning.
    let (mut any, mut denied) = (false, false);
    for (i, prefix) in stems {
        any = true;
        let before = words.get(i.saturating_sub(4)..i).unwrap_or_default();
        denied |= !prefix.is_empty() || before.iter().any(|word| DENIALS.contains(word));
    }
    any && !denied
}

/// Whether records are kept for as long as the specification says, from the day of issue on.
fn kept_long_enough(view: &View, release: &ReleaseStatement) -> bool {
    let spec = view.plant.spec_of_product(&release.object.product_code);
    let due = spec.and_then(|(_, spec)| spec.retention_period.as_ref());
    match (due, &release.issued_on, &release.retention_until) {
        (Some(due), Some(issued), Some(until)) => {
            // A day more: a year of the calendar is not as long as one of the unit.
            let days = f64::from(until.date.days_since(issued.date)) + 1.0;
            days * 86_400.0 >= due.si
        }
        _ => true,
    }
}

#[cfg(test)]
mod tests {
    use super::says_that_they_conform;

    #[test]
    fn a_denial_is_no_conformity_in_any_language_of_the_pages() {
        for yes in [
            "The items named conform to SP-45 revision 1.",
            "Gli elementi nominati sono conformi alla SP-45.",
            "Les éléments nommés sont conformes à la SP-45.",
            "Die genannten Elemente sind konform mit SP-45.",
            "Die genannten Elemente entsprechen SP-45.",
            "Los elementos nombrados son conformes con SP-45.",
            "Os elementos indicados estão conformes com a SP-45.",
        ] {
            assert!(says_that_they_conform(yes), "{yes}");
        }
        for no in [
            "The items named do not conform to SP-45.",
            "No item conforms.",
            "The items are non-conforming.",
            "The items are nonconforming.",
            "Gli elementi non sono conformi.",
            "Les éléments ne sont pas conformes.",
            "Die Elemente sind nicht konform.",
            "Los elementos no conformes.",
            "Os elementos não estão conformes.",
            "The items are shipped.",
        ] {
            assert!(!says_that_they_conform(no), "{no}");
        }
    }
}

//! R77: Signatures are complete and bound to the digest of what was signed.

use std::collections::BTreeMap;

use crate::{
    ground::finding::{Finding, Severity},
    rule::{Outcome, Rule, View},
};
use crate::{
    ground::place::Spot,
    record::{Record, kinds::Body},
};

/// Signatures are complete and bound to the digest of what was signed.
pub static RULE: Rule = Rule {
    id: "R77",
    severity: Severity::Blocks,
    demands: "Signatures are complete and bound to the digest of what was signed.",
    protects: "a signature that was given for something else",
    explained: "Never: it is mended, or what it concerns is not released.",
    check,
};

fn finding(message: String) -> Finding {
    Finding::new(RULE.id, RULE.severity, message)
}

fn check(view: &View) -> Outcome {
    let mut out = Outcome::of(say!("signatures"));
    let policy = view.plant.records().signature_policys().next();
    let persons = || {
        let all = view.plant.records().personnel_authorisations();
        all.flat_map(|(_, body)| body.persons.iter())
    };
    let names: BTreeMap<&str, &str> = persons()
        .map(|person| (&*person.person_id.text, &*person.printed_name.text))
        .collect();
    let mut by_name: BTreeMap<&str, &str> = BTreeMap::new();
    for (person, name) in &names {
        if let Some(other) = by_name.insert(name, person) {
            let mut found = finding(say!(
                "{other} and {person} bear one printed name, {name}.",
                other = other,
                person = person,
                name = name
            ))
            .advise(say!("Two persons must be told apart on paper."))
            .about(*person)
            .about(other);
            found.place = view
                .plant
                .records()
                .of_kind("personnel_authorisation")
                .next()
                .map(Record::place);
            out.find(found);
        }
    }
    for (record, release) in view.plant.releases() {
        let mut wrong = |spot: Spot, message: String, advice: &str| {
            out.find(
                finding(format!("{}: {message}.", &*record.id))
                    .advise(advice)
                    .at(record.at(spot))
                    .about(&*record.id.text),
            );
        };
        // Who reviews and who releases is the business of rule R36.
        if release.signed_as("authorship").next().is_none() {
            wrong(
                record.spot,
                say!("nobody signs as author").into(),
                say!("Have the person sign who made the dossier from these records."),
            );
        }
        for signature in release.signatures.iter() {
            if let Some(name) = names
                .get(&*signature.person_id.text)
                .filter(|name| ***name != *signature.printed_name.text)
            {
                wrong(
                    signature.spot,
                    say!(
                        "{person_id} signs as \"{printed_name}\", and is {name}",
                        person_id = &*signature.person_id,
                        printed_name = &*signature.printed_name,
                        name = name
                    ),
                    say!("Find out who signed; correct the record and sign again."),
                );
            }
            let mut is = persons().filter(|own| own.person_id.text == signature.person_id.text);
            if let Some(own) = is.next()
                && own.function.text != signature.function.text
                && is.all(|own| own.function.text != signature.function.text)
            {
                wrong(
                    signature.spot,
                    say!(
                        "{person_id} signs as {function}, and is authorised as {own}",
                        person_id = &*signature.person_id,
                        function = &*signature.function,
                        own = &*own.function
                    ),
                    say!("Find out who signed; correct the record and sign again."),
                );
            }
            let Some((_, policy)) = &policy else { continue };
            let meaning = policy
                .meanings
                .iter()
                .find(|one| one.meaning.text == signature.meaning.text);
            let Some(meaning) = meaning else {
                wrong(
                    signature.spot,
                    say!(
                        "the signature policy knows no meaning {meaning}",
                        meaning = &*signature.meaning
                    ),
                    say!("Use a meaning of the policy, or revise the policy."),
                );
                continue;
            };
            if !meaning.functions.is_empty()
                && !meaning
                    .functions
                    .iter()
                    .any(|function| function.text == signature.function.text)
            {
                wrong(
                    signature.spot,
                    say!(
                        "{person_id} signs {meaning} as {function}, which the policy does not allow",
                        person_id = &*signature.person_id,
                        meaning = &*signature.meaning,
                        function = &*signature.function
                    ),
                    say!("Have a person of an allowed function sign."),
                );
            }
            for other in meaning.not_with.iter() {
                // Review and release by one person is the business of rule R36.
                let known = (&*other.text, &*signature.meaning.text) == ("review", "release");
                let mut others = release.signed_as(&other.text);
                if !known && others.any(|own| own.person_id.text == signature.person_id.text) {
                    wrong(
                        signature.spot,
                        say!(
                            "{person_id} signs both {other} and {meaning}",
                            person_id = &*signature.person_id,
                            other = &**other,
                            meaning = &*signature.meaning
                        ),
                        say!("The policy asks for two persons."),
                    );
                }
            }
        }
        if let Some((_, policy)) = &policy {
            let due = policy.meanings.iter().map(|one| &*one.meaning.text);
            for meaning in due.filter(|due| !["authorship", "review", "release"].contains(due)) {
                if release.signed_as(meaning).next().is_none() {
                    wrong(
                        record.spot,
                        say!(
                            "nobody signs {meaning}, which the policy asks for",
                            meaning = meaning
                        ),
                        say!("Have it signed."),
                    );
                }
            }
        }
        let stated: Vec<_> = release
            .signatures
            .iter()
            .filter_map(|one| one.signed_digest.as_ref().map(|digest| (one, digest)))
            .collect();
        let due = release
            .dossier_root_digest
            .as_ref()
            .or(stated.first().map(|(_, digest)| *digest));
        if let Some(due) = due {
            for signature in release.signatures.iter() {
                match &signature.signed_digest {
                    None => wrong(
                        signature.spot,
                        say!(
                            "{person_id} signs no digest, and {due} is the one to be signed",
                            person_id = &*signature.person_id,
                            due = &**due
                        ),
                        say!("Sign the digest."),
                    ),
                    Some(signed) if signed.text != due.text => {
                        let old = earlier(view, record, signed).map_or(String::new(), |revision| {
                            say!(", that of revision {revision}", revision = revision)
                        });
                        wrong(
                            signed.spot,
                            say!(
                                "the digest that {person_id} signed is {signed}{old}, not {due}",
                                person_id = &*signature.person_id,
                                signed = &**signed,
                                old = old,
                                due = &**due
                            ),
                            say!("Sign the present revision."),
                        );
                    }
                    Some(_) => {}
                }
            }
        }
        out.looked += release.signatures.len();
    }
    out
}

/// The earlier revision of a statement that had this digest.
fn earlier(view: &View, record: &Record, digest: &str) -> Option<u64> {
    let older = view.plant.records().revisions(record.kind, &record.id);
    older
        .filter(|other| other.revision < record.revision)
        .find(|other| matches!(&other.body, Body::ReleaseStatement(body) if body.dossier_root_digest.as_ref().is_some_and(|own| **own == *digest)))
        .map(|other| other.revision)
}

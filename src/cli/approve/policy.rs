//! What the sealed `signature_policy` records ask of whoever signs.

use super::Refused;
use crate::{
    approval::{Meaning, Statement},
    dossier::Dossier,
};

/// The word of a policy for a meaning; a policy says nothing of receipt.
fn word(meaning: Meaning) -> &'static str {
    match meaning {
        Meaning::Prepared => "authorship",
        Meaning::Reviewed => "review",
        Meaning::Approved => "release",
        Meaning::Received => "receipt",
    }
}

/// The meanings that the policies ask for, of those that can be signed here.
pub(in crate::cli) fn due(dossier: &Dossier) -> Vec<Meaning> {
    let policies = dossier.plant.records().signature_policys();
    let asked = policies.flat_map(|(_, policy)| policy.meanings.iter());
    let asked: Vec<&str> = asked.map(|asked| &*asked.meaning.text).collect();
    let all = [Meaning::Prepared, Meaning::Reviewed, Meaning::Approved];
    let due = all
        .into_iter()
        .filter(|meaning| asked.contains(&word(*meaning)));
    due.collect()
}

/// The public keys with which a person may sign; any where none are named.
pub fn keys(dossier: &Dossier, person: &str) -> Vec<String> {
    let policies = dossier.plant.records().signature_policys();
    policies
        .flat_map(|(_, policy)| policy.allowed_keys.iter())
        .filter(|key| *key.person_id.text == *person)
        .map(|key| key.public_key.to_string())
        .collect()
}

/// Whether a policy speaks against this person, in this function, signing with this meaning.
pub fn refuses(
    dossier: &Dossier,
    meaning: Meaning,
    person: &str,
    role: &str,
    earlier: &[&Statement],
) -> Result<(), Refused> {
    for (record, policy) in dossier.plant.records().signature_policys() {
        for asked in policy
            .meanings
            .iter()
            .filter(|asked| *asked.meaning.text == *word(meaning))
        {
            let functions: Vec<&str> = asked.functions.iter().map(|text| &*text.text).collect();
            if !functions.is_empty() && !functions.contains(&role) {
                return Err((
                    say!(
                        "{policy} asks for {functions} as {meaning}, and {person} is {role}",
                        policy = &*record.id,
                        functions = functions.join(", "),
                        meaning = say!(meaning.words()),
                        person = person,
                        role = role.replace('_', " ")
                    ),
                    say!("Have an authorised person sign.").into(),
                ));
            }
            let own = earlier.iter().find(|statement| {
                statement.person == person
                    && asked
                        .not_with
                        .iter()
                        .any(|other| *other.text == *word(statement.meaning))
            });
            if let Some(own) = own {
                return Err((
                    say!(
                        "{policy} forbids {person} to sign as {meaning}: they signed as {other}",
                        policy = &*record.id,
                        person = person,
                        meaning = say!(meaning.words()),
                        other = say!(own.meaning.words())
                    ),
                    say!("Nobody reviews or releases their own work: another person must sign.")
                        .into(),
                ));
            }
        }
    }
    Ok(())
}

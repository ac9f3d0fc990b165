//! `approve`: one more signed statement.

mod policy;

use std::path::Path;

use super::{FINE, STOPPED, UNUSABLE, Voice, complain, unreadable};
use crate::{
    approval::{self, Found, Meaning, Statement},
    dossier::Dossier,
    ground::{digest::Digest, finding::Severity, time::Time},
    seal, site,
};

/// What is signed, by whom, with what.
pub(super) struct Asked<'a> {
    pub meaning: Meaning,
    pub person: &'a str,
    pub key: &'a Path,
    pub name: Option<&'a str>,
    pub role: Option<&'a str>,
    pub at: Option<&'a str>,
}

type Refused = (String, String);

pub(super) fn run(folder: &Path, asked: &Asked, voice: &Voice) -> u8 {
    let (dossier, digest) = match sound(folder) {
        Ok(sound) => sound,
        Err((code, (message, advice))) => {
            complain(&message, &advice);
            return code;
        }
    };
    let digest = format!("sha256:{digest}");
    let there = match approval::check(folder, &digest, None) {
        Ok((there, _)) => there,
        Err(error) => return unreadable(folder, &error),
    };
    match statement(&dossier, &digest, &there, asked).and_then(|statement| {
        let keys = policy::keys(&dossier, asked.person);
        let name = approval::sign(folder, &statement, there.len() + 1, asked.key, &keys)?;
        Ok((statement, name))
    }) {
        Ok((statement, name)) => {
            voice.say(&say!(
                "{file}: {name} ({person}) signed as {meaning} on {time}, for {digest}.",
                file = name,
                name = statement.name,
                person = statement.person,
                meaning = say!(statement.meaning.words()),
                time = statement.time,
                digest = digest
            ));
            FINE
        }
        Err((message, advice)) => {
            complain(&message, &advice);
            STOPPED
        }
    }
}

/// A dossier that verifies, and its digest: nothing else is signed.
pub(super) fn sound(folder: &Path) -> Result<(Dossier, Digest), (u8, Refused)> {
    let not_compiled = || {
        (
            UNUSABLE,
            (
                say!("{shown} is no compiled dossier", shown = folder.display()),
                say!("Name a folder that holds START-HERE.html.").to_owned(),
            ),
        )
    };
    let whole = seal::whole(folder).map_err(|_| not_compiled())?;
    let digest = whole.digest.ok_or_else(not_compiled)?;
    match whole.holds().then(|| site::recompute(folder)) {
        Some(Ok(again)) if again.wrong.is_empty() && proven(folder, &again.dossier) => {
            Ok((again.dossier, digest))
        }
        _ => Err((
            STOPPED,
            (
                say!(
                    "{shown} does not verify: nothing was done",
                    shown = folder.display()
                ),
                say!("`sealfolio verify` says what is wrong.").to_owned(),
            ),
        )),
    }
}

/// Whether it is no customer's copy, or one whose proof and whose maker's statements hold.
fn proven(folder: &Path, dossier: &Dossier) -> bool {
    let Some(copy) = &dossier.copy else {
        return true;
    };
    let digest = copy
        .digest()
        .map_or(String::new(), |digest| format!("sha256:{digest}"));
    let makers = approval::check(&folder.join("data").join(site::PARENT), &digest, None);
    copy.flaws(&dossier.plant).is_empty()
        && makers.is_ok_and(|(found, strangers)| {
            strangers.is_empty() && found.iter().all(|found| found.flaws.is_empty())
        })
}

/// The statement, unless something speaks against it.
fn statement(
    dossier: &Dossier,
    digest: &str,
    there: &[Found],
    asked: &Asked,
) -> Result<Statement, Refused> {
    if let Some(bad) = there.iter().find(|found| !found.flaws.is_empty()) {
        return Err((
            say!(
                "{file} does not hold: {flaw}",
                file = bad.file,
                flaw = bad.flaws.join("; ")
            ),
            say!("A chain is not carried on from a statement that does not hold.").into(),
        ));
    }
    let time = match asked.at {
        Some(text) => Time::parse(text).map_err(|why| {
            (
                format!("--at \"{text}\" {why}"),
                say!("Write \"2026-03-20T09:56:00+01:00\".").to_owned(),
            )
        })?,
        None => Time::now(),
    };
    let earlier: Vec<&Statement> = there
        .iter()
        .filter_map(|found| found.statement.as_ref())
        .collect();
    // A customer receives a copy of what the maker signed: the maker's statements stand in the copy.
    let makers = dossier.copy.iter().flat_map(|copy| copy.statements());
    let makers: Vec<Statement> = makers.collect();
    let all: Vec<&Statement> = makers.iter().chain(earlier.iter().copied()).collect();
    if let Some((_, head)) = dossier.plant.records().head()
        && time.date() < head.compiled_on.date
    {
        return Err((
            say!(
                "the statement would be of {time}, and the dossier of {day}",
                time = time,
                day = head.compiled_on.date
            ),
            say!(
                "Nobody signs what is not yet there: look at --at and at the clock of this machine."
            )
            .into(),
        ));
    }
    order(dossier, &all, asked, time)?;
    let (name, role) = who(dossier, asked, time)?;
    policy::refuses(dossier, asked.meaning, asked.person, &role, &all)?;
    let head = dossier.plant.records().head();
    Ok(Statement {
        format: 1,
        dossier: head.map_or(String::new(), |(record, _)| {
            format!("{} revision {}", &*record.id, record.revision)
        }),
        digest: digest.to_owned(),
        meaning: asked.meaning,
        person: asked.person.to_owned(),
        name,
        role,
        time: time.written(),
        before: earlier
            .last()
            .map(|last| format!("sha256:{}", Digest::of(&last.bytes()))),
    })
}

/// Whether it is this one's turn.
fn order(
    dossier: &Dossier,
    earlier: &[&Statement],
    asked: &Asked,
    time: Time,
) -> Result<(), Refused> {
    let of = |meaning| {
        earlier
            .iter()
            .find(|statement| statement.meaning == meaning)
    };
    let refuse = |message: String, advice: &str| Err((message, advice.to_owned()));
    if asked.meaning != Meaning::Received
        && let Some(same) = of(asked.meaning)
    {
        return refuse(
            say!(
                "{name} signed as {meaning} already",
                name = same.name,
                meaning = say!(asked.meaning.words())
            ),
            say!("One signature of each meaning is enough; a correction is a new revision."),
        );
    }
    let needs = match asked.meaning {
        Meaning::Prepared => None,
        Meaning::Reviewed => Some(Meaning::Prepared),
        Meaning::Approved => Some(Meaning::Reviewed),
        Meaning::Received => Some(Meaning::Approved),
    };
    if let Some(needs) = needs
        && of(needs).is_none()
    {
        return refuse(
            say!(
                "nobody signed as {meaning} yet",
                meaning = say!(needs.words())
            ),
            say!("The order is: prepared, reviewed, approved for release, received."),
        );
    }
    if let Some(own) = earlier
        .iter()
        .find(|statement| statement.person == asked.person)
    {
        return refuse(
            say!(
                "{person} signed already, as {meaning}",
                person = asked.person,
                meaning = say!(own.meaning.words())
            ),
            say!("Nobody reviews or releases their own work: another person must sign."),
        );
    }
    if let Some(last) = earlier.last()
        && Time::parse(&last.time).is_ok_and(|before| before.moment > time.moment)
    {
        return refuse(
            say!(
                "the statement before is of {time}, which is later",
                time = last.time
            ),
            say!("Set the clock of this machine, or find out which of the two is wrong."),
        );
    }
    let blocks = dossier.count(Severity::Blocks);
    if asked.meaning == Meaning::Approved && blocks > 0 {
        return refuse(
            say!(
                "the dossier is a draft: {n} of its findings block release",
                n = blocks
            ),
            say!("Do what each finding says next, compile the next revision, and sign that."),
        );
    }
    let open = dossier.count(Severity::Explain);
    if asked.meaning == Meaning::Approved && open > 0 {
        return refuse(
            say!(
                "{n} findings of the dossier must still be explained",
                n = open
            ),
            say!("Decide a deviation for each, compile the next revision, and sign that."),
        );
    }
    Ok(())
}

/// Printed name and function, from the sealed records; from the call for whoever receives.
fn who(dossier: &Dossier, asked: &Asked, time: Time) -> Result<(String, String), Refused> {
    if asked.meaning == Meaning::Received {
        return match (asked.name, asked.role) {
            (Some(name), Some(role)) => Ok((name.to_owned(), role.to_owned())),
            _ => Err((
                say!("who receives is not in these records").into(),
                say!("Add --name and --role.").into(),
            )),
        };
    }
    let records = dossier.plant.records();
    if let Some((_, head)) = records.head() {
        let mut due = head
            .expected_signers
            .iter()
            .filter(|signer| *signer.meaning.text == *asked.meaning.words())
            .peekable();
        if due.peek().is_some() && !due.any(|signer| *signer.person_id.text == *asked.person) {
            return Err((
                say!(
                    "dossier.yaml expects another person as {meaning} than {person}",
                    meaning = say!(asked.meaning.words()),
                    person = asked.person
                ),
                say!(
                    "Have the person sign whom it names, or compile a revision that names this one."
                )
                .into(),
            ));
        }
    }
    let (day, act) = (time.date(), asked.meaning.act());
    let mut persons = records
        .personnel_authorisations()
        .flat_map(|(_, body)| body.persons.iter());
    let person = persons.find(|person| {
        *person.person_id.text == *asked.person
            && act.is_none_or(|act| person.may.iter().any(|word| **word == *act))
            && person.valid_from.date <= day
            && day <= person.valid_until.date
    });
    match person {
        Some(person) => Ok((person.printed_name.to_string(), person.function.to_string())),
        None => Err((
            say!(
                "{person} is not authorised to sign as {meaning} on {day} by the personnel_authorisation records of this dossier",
                person = asked.person,
                meaning = say!(asked.meaning.words()),
                day = day
            ),
            say!("Have an authorised person sign.").into(),
        )),
    }
}

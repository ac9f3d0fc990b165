//! What the sealed records say of somebody who signs: whose turn it is, who may, and with which key.
//!
//! `approve` asks before it signs; `verify` asks again, because a statement can be made without this program.

use std::path::Path;

use super::{Refused, policy};
use crate::{
    approval::{self, Found, Meaning, Signers, Statement},
    dossier::Dossier,
    extract::Copy,
    ground::{finding::Severity, time::Time},
};

/// Somebody signs as something.
pub(super) struct Claim<'a> {
    pub meaning: Meaning,
    pub person: &'a str,
    /// Printed name and function as they say them; it is what counts for whoever receives.
    pub own: Option<(&'a str, &'a str)>,
    pub time: Time,
}

/// Every statement of a dossier, each checked as [`approval::check`] does and held against the sealed records, where they are
/// known and `alike`: judged by this very version.
///
/// # Errors
/// When the folder of statements cannot be listed.
pub(in crate::cli) fn check(
    root: &Path,
    digest: &str,
    signers: Option<&Signers>,
    dossier: Option<(&Dossier, bool)>,
) -> std::io::Result<(Vec<Found>, Vec<String>)> {
    let (mut found, strangers) = approval::check(root, digest, signers)?;
    if let Some((dossier, alike)) = dossier {
        hold(&mut found, dossier, Side::own(dossier), alike);
    }
    Ok((found, strangers))
}

/// The maker's statements, which a customer's copy takes along, held against the maker's records that it shows.
///
/// # Errors
/// When the folder of statements cannot be listed.
pub(in crate::cli) fn check_makers(
    root: &Path,
    digest: &str,
    signers: Option<&Signers>,
    copy: &Dossier,
) -> std::io::Result<(Vec<Found>, Vec<String>)> {
    let (mut found, strangers) = approval::check(root, digest, signers)?;
    hold(&mut found, copy, Side::Maker, false);
    Ok((found, strangers))
}

/// Whose statements are looked at.
#[derive(Copy, Clone, PartialEq, Eq)]
pub(super) enum Side {
    /// Of the maker, about the whole dossier.
    Maker,
    /// Of a customer, about a copy: the maker's come before them.
    Customer,
}

impl Side {
    pub(super) fn own(dossier: &Dossier) -> Side {
        match dossier.copy {
            Some(_) => Side::Customer,
            None => Side::Maker,
        }
    }
}

/// Holds statements against the sealed records.
fn hold(found: &mut [Found], dossier: &Dossier, side: Side, alike: bool) {
    let mut earlier: Vec<Statement> = Vec::new();
    for found in found {
        let Some(statement) = found.statement.clone() else {
            continue;
        };
        // What does not hold by itself is not asked about who made it.
        if found.flaws.is_empty() {
            let before: Vec<&Statement> = earlier.iter().collect();
            let key = found.fingerprint.as_deref();
            found.flaws = against((dossier, side), &before, &statement, key, alike);
        }
        earlier.push(statement);
    }
}

/// Whether what says who a person of the maker is stays sealed in a customer's copy: then their name, function and right cannot be
/// asked for there.
fn withheld(dossier: &Dossier, person: &str) -> bool {
    let sealed = dossier.copy.as_ref().map(|copy| Copy::sealed(&copy.proof));
    let records = dossier.plant.records().personnel_authorisations();
    let mut shown = records.flat_map(|(_, body)| body.persons.iter());
    sealed.is_some_and(|sealed| sealed.contains_key("personnel_authorisation"))
        && !shown.any(|own| *own.person_id.text == *person)
}

/// How statements name a dossier.
pub(super) fn identity(dossier: &Dossier) -> String {
    let head = dossier.plant.records().head();
    head.map_or(String::new(), |(record, _)| {
        format!("{} revision {}", &*record.id, record.revision)
    })
}

/// What the sealed records say against a statement.
fn against(
    (dossier, side): (&Dossier, Side),
    earlier: &[&Statement],
    statement: &Statement,
    fingerprint: Option<&str>,
    alike: bool,
) -> Vec<String> {
    let Ok(time) = Time::parse(&statement.time) else {
        return Vec::new();
    };
    let claim = Claim {
        meaning: statement.meaning,
        person: &statement.person,
        own: Some((&statement.name, &statement.role)),
        time,
    };
    let mut out = Vec::new();
    // A copy has an id of its own, which the maker's statements do not name.
    let named = identity(dossier);
    if side == Side::own(dossier) && statement.dossier != named {
        out.push(say!(
            "it speaks of \"{other}\", and this is {named}",
            other = statement.dossier,
            named = named
        ));
    }
    match claim.held((dossier, side), earlier) {
        Err((why, _)) => out.push(why),
        Ok((name, role)) if (&name, &role) != (&statement.name, &statement.role) => {
            out.push(say!(
                "it is signed by {name}, {role}, and by the personnel_authorisation records of this dossier {person} is {own}, {function}",
                name = statement.name,
                role = statement.role,
                person = statement.person,
                own = name,
                function = role
            ));
        }
        Ok(_) if alike => out.extend(claim.ripe(dossier).err().map(|(why, _)| why)),
        Ok(_) => {}
    }
    let keys = policy::keys(dossier, &statement.person);
    if fingerprint.is_some_and(|own| !approval::among(&keys, own)) {
        out.push(approval::other_key(&statement.person));
    }
    out
}

impl Claim<'_> {
    /// Printed name and function, unless the sealed records or the statements before speak against it.
    pub(super) fn held(
        &self,
        (dossier, side): (&Dossier, Side),
        earlier: &[&Statement],
    ) -> Result<(String, String), Refused> {
        // A customer receives a copy of what the maker signed: the maker's statements stand in the copy.
        let copy = dossier.copy.iter().filter(|_| side == Side::Customer);
        let makers = copy.flat_map(|copy| copy.statements());
        let makers: Vec<Statement> = makers.collect();
        let all: Vec<&Statement> = makers.iter().chain(earlier.iter().copied()).collect();
        if let Some((_, head)) = dossier.plant.records().head()
            && self.time.date() < head.compiled_on.date
        {
            return Err((
                say!(
                    "the statement would be of {time}, and the dossier of {day}",
                    time = self.time,
                    day = head.compiled_on.date
                ),
                say!("Nobody signs what is not yet there: look at --at and at the clock of this machine.").into(),
            ));
        }
        self.order(&all)?;
        let (name, role) = match self.own {
            Some((name, role)) if side == Side::Maker && withheld(dossier, self.person) => {
                (name.to_owned(), role.to_owned())
            }
            _ => self.who(dossier)?,
        };
        policy::refuses(dossier, self.meaning, self.person, &role, &all)?;
        Ok((name, role))
    }

    /// Whether it is this one's turn.
    fn order(&self, earlier: &[&Statement]) -> Result<(), Refused> {
        let of = |meaning| {
            earlier
                .iter()
                .find(|statement| statement.meaning == meaning)
        };
        let refuse = |message: String, advice: &str| Err((message, advice.to_owned()));
        if self.meaning != Meaning::Received
            && let Some(same) = of(self.meaning)
        {
            return refuse(
                say!(
                    "{name} signed as {meaning} already",
                    name = same.name,
                    meaning = say!(self.meaning.words())
                ),
                say!("One signature of each meaning is enough; a correction is a new revision."),
            );
        }
        let needs = match self.meaning {
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
            .find(|statement| statement.person == self.person)
        {
            return refuse(
                say!(
                    "{person} signed already, as {meaning}",
                    person = self.person,
                    meaning = say!(own.meaning.words())
                ),
                say!("Nobody reviews or releases their own work: another person must sign."),
            );
        }
        if let Some(last) = earlier.last()
            && Time::parse(&last.time).is_ok_and(|before| before.moment > self.time.moment)
        {
            return refuse(
                say!(
                    "the statement before is of {time}, which is later",
                    time = last.time
                ),
                say!("Set the clock of this machine, or find out which of the two is wrong."),
            );
        }
        Ok(())
    }

    /// Whether the findings of the dossier let it be signed as `approved for release`; other meanings they do not hinder.
    pub(super) fn ripe(&self, dossier: &Dossier) -> Result<(), Refused> {
        if self.meaning != Meaning::Approved {
            return Ok(());
        }
        let blocks = dossier.count(Severity::Blocks);
        if blocks > 0 {
            return Err((
                say!(
                    "the dossier is a draft: {n} of its findings block release",
                    n = blocks
                ),
                say!("Do what each finding says next, compile the next revision, and sign that.")
                    .into(),
            ));
        }
        match dossier.count(Severity::Explain) {
            0 => Ok(()),
            open => Err((
                say!(
                    "findings of the dossier that must still be explained: {n}",
                    n = open
                ),
                say!("Decide a deviation for each, compile the next revision, and sign that.")
                    .into(),
            )),
        }
    }

    /// Printed name and function, from the sealed records; from the call for whoever receives.
    fn who(&self, dossier: &Dossier) -> Result<(String, String), Refused> {
        if self.meaning == Meaning::Received {
            return match self.own {
                Some((name, role)) => Ok((name.to_owned(), role.to_owned())),
                None => Err((
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
                .filter(|signer| signer.meaning.word() == self.meaning.words())
                .peekable();
            if due.peek().is_some() && !due.any(|signer| *signer.person_id.text == *self.person) {
                return Err((
                say!(
                    "dossier.yaml expects another person as {meaning} than {person}",
                    meaning = say!(self.meaning.words()),
                    person = self.person
                ),
                say!(
                    "Have the person sign whom it names, or compile a revision that names this one."
                )
                .into(),
            ));
            }
        }
        let (day, act) = (self.time.date(), self.meaning.act());
        let mut persons = records
            .personnel_authorisations()
            .flat_map(|(_, body)| body.persons.iter());
        let person = persons.find(|person| {
            *person.person_id.text == *self.person
                && act.is_none_or(|act| person.may.iter().any(|word| **word == *act))
                && person.valid_from.date <= day
                && day <= person.valid_until.date
        });
        match person {
            Some(person) => Ok((person.printed_name.to_string(), person.function.to_string())),
            None => Err((
                say!(
                    "{person} is not authorised to sign as {meaning} on {day} by the personnel_authorisation records of this dossier",
                    person = self.person,
                    meaning = say!(self.meaning.words()),
                    day = day
                ),
                say!("Have an authorised person sign.").into(),
            )),
        }
    }
}

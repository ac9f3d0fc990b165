//! `approve`: one more signed statement.

mod claim;
mod policy;

use std::path::Path;

use super::{FINE, STOPPED, UNUSABLE, Voice, complain, unreadable};
use crate::{
    approval::{self, Found, Meaning, Statement},
    dossier::Dossier,
    ground::{digest::Digest, time::Time},
    seal, site,
};
use claim::{Claim, Side};

pub(super) use claim::{check, check_makers};
pub(super) use policy::due;

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
    let there = match check(folder, &digest, None, Some((&dossier, true))) {
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
            if asked.at.is_some()
                && Time::parse(&statement.time).is_ok_and(|own| own.moment > Time::now().moment)
            {
                voice.say(say!("By the clock of this machine that moment is still to come: nobody can sign after it before then."));
            }
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
    let makers = check_makers(
        &folder.join("data").join(site::PARENT),
        &digest,
        None,
        dossier,
    );
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
                say!("Write day, time and offset from UTC, as in \"2026-03-20T09:56:00+01:00\".")
                    .to_owned(),
            )
        })?,
        None => Time::now(),
    };
    let said = asked.name.or(asked.role);
    if let Some(said) = said.filter(|_| asked.meaning != Meaning::Received) {
        return Err((
            say!(
                "\"{said}\": name and function of whoever signs as {meaning} stand in the sealed records",
                said = said,
                meaning = say!(asked.meaning.words())
            ),
            say!("Leave --name and --role out; they are for whoever receives.").into(),
        ));
    }
    let earlier: Vec<&Statement> = there
        .iter()
        .filter_map(|found| found.statement.as_ref())
        .collect();
    let claim = Claim {
        meaning: asked.meaning,
        person: asked.person,
        own: asked.name.zip(asked.role),
        time,
    };
    let (name, role) = claim.held((dossier, Side::own(dossier)), &earlier)?;
    claim.ripe(dossier)?;
    let statement = Statement {
        format: 1,
        dossier: claim::identity(dossier),
        digest: digest.to_owned(),
        meaning: asked.meaning,
        person: asked.person.to_owned(),
        name,
        role,
        time: time.written(),
        before: earlier
            .last()
            .map(|last| format!("sha256:{}", Digest::of(&last.bytes()))),
    };
    match approval::plain(&statement) {
        true => Ok(statement),
        false => Err((
            say!("the id, name or function of who signs has a character that nobody sees or that turns others round").to_owned(),
            say!("Write it again with letters, blanks and common marks alone.").to_owned(),
        )),
    }
}

//! `compile --watch`: compiles again when something in the folder changed, and says what became of verdicts.

use std::{
    collections::BTreeMap,
    fs,
    path::{Path, PathBuf},
    thread,
    time::{Duration, SystemTime},
};

use walkdir::WalkDir;

use super::{UNUSABLE, Voice, compile, complain, history, review, show, typed};
use crate::{
    approval,
    changes::{Changes, Said, State},
    dossier::Dossier,
    ground::{digest::Digest, finding::Severity, interrupt},
    seal::{self, Trouble},
    site,
};

/// How long the folder is left alone between two looks, and must rest before it is read.
const PAUSE: Duration = Duration::from_millis(400);
/// How many changed verdicts and findings are told.
const SHOWN: usize = 20;

/// What a folder looks like from outside: size and time of each file.
type Looks = BTreeMap<PathBuf, (u64, Option<SystemTime>)>;

/// Compiles now, and again after every change, until somebody stops it.
pub(super) fn run(folder: &Path, into: &Path, asked: &compile::Asked, voice: &Voice) -> u8 {
    if let Some((message, advice)) = compile::no_target(into, folder) {
        complain(&message, &advice);
        return UNUSABLE;
    }
    let mut last: Option<(State, Option<Digest>)> = None;
    let mut seen: Option<Looks> = None;
    loop {
        let now = looks(folder);
        if seen.as_ref() != Some(&now) {
            thread::sleep(PAUSE);
            if looks(folder) != now {
                continue;
            }
            seen = Some(now);
            let wrote = last.as_ref().and_then(|(_, wrote)| *wrote);
            if let Some((message, advice)) = touched(into, wrote) {
                complain(&message, &advice);
                return UNUSABLE;
            }
            match once(folder, into, asked, last.as_ref(), voice) {
                Ok(state) => last = Some(state),
                Err((message, advice)) => complain(&message, &advice),
            }
            if interrupt::asked() {
                return interrupt::STOPPED_BY_HAND as u8;
            }
            voice.say(say!("Waiting for changes; Ctrl-C ends it."));
        }
        thread::sleep(PAUSE);
    }
}

fn looks(folder: &Path) -> Looks {
    WalkDir::new(folder)
        .into_iter()
        .filter_map(Result::ok)
        .filter_map(|entry| {
            let about = entry.metadata().ok().filter(fs::Metadata::is_file)?;
            Some((entry.into_path(), (about.len(), about.modified().ok())))
        })
        .collect()
}

/// Why the target is no longer this run's own to replace: somebody signed it, or put something in, took something out or changed
/// it.
fn touched(into: &Path, wrote: Option<Digest>) -> Option<Trouble> {
    if into.symlink_metadata().is_err() {
        return None;
    }
    let advice =
        || say!("Nothing was written over. Name another place for what comes next.").to_owned();
    if into.join(approval::FOLDER).symlink_metadata().is_ok() {
        let message = say!(
            "{path} was signed since it was written",
            path = into.display()
        );
        return Some((message, advice()));
    }
    let whole = seal::whole(into).ok();
    let own = whole.is_some_and(|whole| wrote.is_some() && whole.digest == wrote && whole.holds());
    (!own).then(|| {
        let message = say!(
            "{path} is no longer what this run wrote there",
            path = into.display()
        );
        (message, advice())
    })
}

/// Compiles once; what changed against the state before is told.
fn once(
    folder: &Path,
    into: &Path,
    asked: &compile::Asked,
    last: Option<&(State, Option<Digest>)>,
    voice: &Voice,
) -> Result<(State, Option<Digest>), Trouble> {
    let mut dossier = voice
        .watched(|| Dossier::build(folder))
        .map_err(|why| (why.message, why.advice))?;
    history::add(&mut dossier, asked.history)?;
    dossier.table = asked.table;
    let state = dossier.state(None);
    if let Some((last, _)) = last {
        tell(&Changes::between(last, &state), &dossier, voice);
    }
    voice.say(&review::summary(&dossier));
    let blocks = dossier.count(Severity::Blocks);
    if blocks > 0 && !asked.draft {
        voice.say(&say!("The pages stay as they were: {n} findings block release. `sealfolio review {folder}` tells them; --draft writes pages all the same.", n = blocks, folder = typed(folder)));
        return Ok((state, last.and_then(|(_, wrote)| *wrote)));
    }
    let next = beside(into, "next");
    let written = voice.watched(|| site::write(&dossier, &next))?;
    let held = interrupt::hold();
    let replaced = replace(into, &next);
    drop(held);
    replaced?;
    voice.say(&say!(
        "Written: {path}. Reload the page in the browser.",
        path = into.join("START-HERE.html").display()
    ));
    Ok((state, Some(written.bag.digest)))
}

/// A hidden place beside the target.
fn beside(into: &Path, word: &str) -> PathBuf {
    let name = into
        .file_name()
        .map_or(String::new(), |name| name.to_string_lossy().into_owned());
    into.with_file_name(format!(".sealfolio-{word}-{}-{name}", std::process::id()))
}

/// Puts the new dossier in the place of the one that this run wrote before.
fn replace(into: &Path, next: &Path) -> Result<(), Trouble> {
    let trouble = |error: std::io::Error| {
        let _ = fs::remove_dir_all(next);
        (
            say!(
                "cannot put the dossier to {path}: {error}",
                path = into.display(),
                error = error
            ),
            say!("Close what has it open; it is tried again after the next change.").to_owned(),
        )
    };
    if into.symlink_metadata().is_err() {
        return fs::rename(next, into).map_err(trouble);
    }
    let old = beside(into, "old");
    fs::rename(into, &old).map_err(trouble)?;
    if let Err(error) = fs::rename(next, into) {
        let _ = fs::rename(&old, into);
        return Err(trouble(error));
    }
    let _ = fs::remove_dir_all(&old);
    Ok(())
}

fn tell(found: &Changes, dossier: &Dossier, voice: &Voice) {
    let (came, gone) = (&found.figures.came, &found.figures.went);
    if found.verdicts.is_empty() && came.is_empty() && gone.is_empty() {
        voice.say(say!("Verdicts changed: none."));
    }
    for (mark, ids) in [("-", gone), ("+", came)] {
        for id in ids.iter().take(SHOWN) {
            voice.say(&format!("  {mark} {id}"));
        }
    }
    for one in found.verdicts.iter().take(SHOWN) {
        voice.say(&format!(
            "  {}: {} -> {}",
            one.id,
            say!(&one.before),
            say!(&one.after)
        ));
    }
    let (fresh, gone) = &found.findings;
    let same =
        |one: &Said, other: &Said| (&one.rule, &one.message) == (&other.rule, &other.message);
    // What only weighs otherwise now is not gone.
    let gone = gone
        .iter()
        .filter(|one| !fresh.iter().any(|other| same(one, other)));
    for one in gone.take(SHOWN) {
        voice.say(&format!("  - {} {}", one.rule, one.message));
    }
    let all = dossier.findings();
    for one in fresh.iter().take(SHOWN) {
        let whole = all
            .iter()
            .find(|own| own.rule == one.rule && own.message == one.message);
        voice.say(&whole.map_or_else(
            || format!("  + {} {}", one.rule, one.message),
            |whole| show::finding(&dossier.plant.folder.files, whole, voice.color),
        ));
    }
}

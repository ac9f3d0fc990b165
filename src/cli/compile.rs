//! `compile`: the offline dossier.

use std::path::{Path, PathBuf};

use serde_json::json;

use super::{
    FINE, STOPPED, UNUSABLE, Voice, compare, complain, history, print, review, show, stopped,
    to_the_end, unusable,
};
use crate::{
    changes::{Changes, State, Succession},
    dossier::Dossier,
    ground::finding::Severity,
    seal, site,
};

/// What a compile is asked for beside the records.
pub(super) struct Asked<'a> {
    /// For trends.
    pub history: &'a [PathBuf],
    /// The one that is superseded.
    pub supersedes: Option<&'a Path>,
    /// Whether it is written even if something blocks release.
    pub draft: bool,
    /// Whether the figures are written as a table too.
    pub table: bool,
}

pub(super) fn run(
    (folder, into): (&Path, &Path),
    asked: &Asked,
    as_json: bool,
    voice: &Voice,
) -> u8 {
    // Said before the work, not after it.
    if let Some((message, advice)) = no_target(into, folder) {
        complain(&message, &advice);
        return UNUSABLE;
    }
    let mut dossier = match voice.watched(|| Dossier::build(folder)) {
        Ok(dossier) => to_the_end(dossier),
        Err(why) => return unusable(&why),
    };
    let looked = history::add(&mut dossier, asked.history).and_then(|()| {
        let Some(folder) = asked.supersedes else {
            return Ok(());
        };
        dossier.previous = Some(superseded(&dossier, folder)?);
        Ok(())
    });
    if let Err((message, advice)) = looked {
        complain(&message, &advice);
        return UNUSABLE;
    }
    let altered = altered(&dossier);
    // Not even as a draft: the pages would show as one revision what is two.
    if !altered.is_empty() {
        complain(
            &say!(
                "nothing was written: since the dossier that this one supersedes, records were altered under the same revision: {altered}",
                altered = altered.join(", ")
            ),
            say!(
                "Put each back as it was, and write what is new as its next revision, which says what it supersedes and why."
            ),
        );
        return STOPPED;
    }
    let blocks = dossier.count(Severity::Blocks);
    if blocks > 0 && !as_json {
        let found = dossier.findings().into_iter();
        let blocking = found.filter(|finding| finding.severity == Severity::Blocks);
        show::findings(&dossier, blocking, show::MOST, voice);
    }
    dossier.table = asked.table;
    // A dossier must give the same findings again from what lies in it.
    let left_out = dossier.plant.folder.left_out;
    if left_out > 0 && asked.draft {
        complain(
            &say!(
                "nothing was written: files of the folder could not be taken in ({n})",
                n = left_out
            ),
            say!(
                "Mend or remove what R01 names above: not even a draft can hold what is wrong with a file that is not in it."
            ),
        );
        return STOPPED;
    }
    if blocks > 0 && !asked.draft {
        voice.say(&review::summary(&dossier));
        complain(
            &match blocks {
                1 => say!("nothing was written: 1 finding blocks release").to_owned(),
                n => say!("nothing was written: {n} findings block release", n = n),
            },
            say!(
                "Do what each finding says next, or add --draft to write a dossier that is marked as a draft on every page."
            ),
        );
        return STOPPED;
    }
    let compiled = match voice.watched(|| site::write(&dossier, into)) {
        Ok(compiled) => compiled,
        Err(trouble) => return stopped(&trouble),
    };
    let (bytes, files) = (compiled.bag.bytes as usize, compiled.bag.files);
    let digest = compiled.bag.digest;
    if as_json {
        let report = json!({"format": 1, "into": into.display().to_string(), "digest": format!("sha256:{}", digest), "pages": compiled.pages, "files": files, "bytes": bytes,
            "figures": dossier.graph.computed.len(), "findings": dossier.findings().len(), "blocks": blocks, "draft": blocks > 0});
        print(&serde_json::to_string_pretty(&report).unwrap_or_default());
    } else {
        let assemblies = dossier.plant.assemblies.len().max(1);
        voice.say(&review::summary(&dossier));
        voice.say(&say!("{pages} pages, {count} files, {bytes} KB ({files} files and {assemblies} KB an assembly).", pages = compiled.pages, count = files, bytes = bytes / 1000, files = files / assemblies, assemblies = bytes / 1000 / assemblies));
        voice.say(&say!(
            "Digest of the dossier: sha256:{digest}",
            digest = digest
        ));
        let (fullest, entries) = &compiled.bag.fullest;
        if *entries > seal::FAT_ENTRIES {
            voice.say(&say!("{folder} does not fit on a stick formatted as FAT32: its names take {entries} of at most {room} entries. Lay its files in several folders, or format the stick as exFAT.", folder = fullest, entries = entries, room = seal::FAT_ENTRIES));
        }
        if blocks > 0 {
            voice.say(say!("DRAFT: marked on every page; not to be released."));
        }
        voice.say(&say!(
            "Open {html}",
            html = into.join("START-HERE.html").display()
        ));
    }
    if blocks > 0 { STOPPED } else { FINE }
}

/// Records that were altered under one revision since the dossier that is superseded.
fn altered(dossier: &Dossier) -> Vec<String> {
    let Some(before) = &dossier.previous else {
        return Vec::new();
    };
    let now = State::of(&dossier.plant, &dossier.graph, &dossier.findings(), None);
    Changes::between(before, &now).altered
}

/// The state of the dossier that this one supersedes.
fn superseded(dossier: &Dossier, folder: &Path) -> Result<State, (String, String)> {
    let (older, digest) = compare::compiled(folder, false)?;
    let state = older.state(Some(digest));
    match Succession::of(&dossier.plant, &state) {
        Succession::ByDigest | Succession::WithoutDigest => Ok(state),
        Succession::Another | Succession::Unnamed => Err((
            say!(
                "dossier.yaml does not name {folder} as superseded: it is {id} revision {revision}, digest sha256:{digest}",
                folder = folder.display(),
                id = state.id,
                revision = state.revision,
                digest = state.digest.as_deref().unwrap_or_default()
            ),
            say!("Correct `supersedes` in dossier.yaml, or name the copy that it means.").into(),
        )),
    }
}

/// Why nothing can be written to a place.
pub(super) fn no_target(into: &Path, folder: &Path) -> Option<(String, String)> {
    if into.symlink_metadata().is_ok() {
        return Some((
            say!("{display} exists already", display = into.display()),
            say!(
                "Name another place, or move it away first; a compiled dossier is never written over."
            )
            .into(),
        ));
    }
    inside(into, folder).then(|| {
        (
            say!(
                "{display} lies inside the folder that is read",
                display = into.display()
            ),
            say!("Name a place outside it; a dossier must not become part of its own records.")
                .into(),
        )
    })
}

fn inside(target: &Path, folder: &Path) -> bool {
    let parent = target
        .parent()
        .filter(|parent| !parent.as_os_str().is_empty())
        .unwrap_or(Path::new("."));
    match (parent.canonicalize(), folder.canonicalize()) {
        (Ok(parent), Ok(folder)) => parent.starts_with(folder),
        _ => false,
    }
}

//! `compile`: the offline dossier.

use std::path::{Path, PathBuf};

use serde_json::json;

use super::{FINE, STOPPED, UNUSABLE, Voice, complain, history, print, review, show, unusable};
use crate::{dossier::Dossier, ground::finding::Severity, seal, site};

pub(super) fn run(
    (folder, into): (&Path, &Path),
    older: &[PathBuf],
    draft: bool,
    as_json: bool,
    voice: &Voice,
) -> u8 {
    // Said before the work, not after it.
    if into.symlink_metadata().is_ok() {
        complain(
            &format!("{} exists already", into.display()),
            "Name another place, or move it away first; a compiled dossier is never written over.",
        );
        return UNUSABLE;
    }
    if inside(into, folder) {
        complain(
            &format!("{} lies inside the folder that is read", into.display()),
            "Name a place outside it; a dossier must not become part of its own records.",
        );
        return UNUSABLE;
    }
    let mut dossier = match Dossier::build(folder) {
        Ok(dossier) => dossier,
        Err(why) => return unusable(&why),
    };
    if let Err((message, advice)) = history::add(&mut dossier, older) {
        complain(&message, &advice);
        return UNUSABLE;
    }
    let blocks = dossier.count(Severity::Blocks);
    if blocks > 0 && !as_json {
        for finding in dossier
            .findings()
            .into_iter()
            .filter(|finding| finding.severity == Severity::Blocks)
        {
            voice.say(&show::finding(&dossier, finding, voice.color));
            voice.say("");
        }
    }
    if blocks > 0 && !draft {
        voice.say(&review::summary(&dossier));
        complain(
            &format!(
                "nothing was written: {blocks} finding{} release",
                if blocks == 1 { " blocks" } else { "s block" }
            ),
            "Do what each finding says next, or add --draft to write a dossier that is marked as a draft on every page.",
        );
        return STOPPED;
    }
    let site = site::compile(&dossier);
    if let Err((message, advice)) = seal::write(&site.files, into) {
        complain(&message, &advice);
        return UNUSABLE;
    }
    let bytes: usize = site.files.values().map(Vec::len).sum();
    if as_json {
        let report = json!({"format": 1, "into": into.display().to_string(), "digest": format!("sha256:{}", site.digest), "pages": site.pages, "files": site.files.len(), "bytes": bytes,
            "figures": dossier.graph.computed.len(), "findings": dossier.findings().len(), "blocks": blocks, "draft": blocks > 0});
        print(&serde_json::to_string_pretty(&report).unwrap_or_default());
    } else {
        let assemblies = dossier.plant.assemblies.len().max(1);
        voice.say(&review::summary(&dossier));
        voice.say(&format!(
            "{} pages, {} files, {} KB ({} files and {} KB an assembly).",
            site.pages,
            site.files.len(),
            bytes / 1000,
            site.files.len() / assemblies,
            bytes / 1000 / assemblies
        ));
        voice.say(&format!("Digest of the dossier: sha256:{}", site.digest));
        if blocks > 0 {
            voice.say("DRAFT: marked on every page; not to be released.");
        }
        voice.say(&format!("Open {}", into.join("START-HERE.html").display()));
    }
    if blocks > 0 { STOPPED } else { FINE }
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

//! Older compiled dossiers that trends look back on.

use std::path::{Path, PathBuf};

use crate::{dossier::Dossier, seal, site};

/// Adds older dossiers to a dossier.
///
/// # Errors
/// Message and advice, when a folder is no compiled dossier, is damaged, or is named twice.
pub(super) fn add(dossier: &mut Dossier, folders: &[PathBuf]) -> Result<(), (String, String)> {
    for folder in folders {
        let past = one(folder)?;
        if dossier
            .history
            .iter()
            .any(|other| other.digest == past.digest)
        {
            return Err((
                say!(
                    "{folder} is given twice as history: its digest is that of another",
                    folder = folder.display()
                ),
                say!("Name each older dossier once.").into(),
            ));
        }
        dossier.history.push(past);
    }
    // The order in which folders were named is no part of the dossier.
    dossier
        .history
        .sort_by(|a, b| (&a.title, a.revision, &a.digest).cmp(&(&b.title, b.revision, &b.digest)));
    Ok(())
}

fn one(folder: &Path) -> Result<crate::trend::past::Past, (String, String)> {
    let shown = folder.display();
    let not_compiled = || {
        (
            say!("{shown} is no compiled dossier, and history must be one", shown = shown),
            say!("Name a folder that holds START-HERE.html: only a sealed dossier has a digest to stand on.").to_owned(),
        )
    };
    let whole = seal::whole(folder).map_err(|_| not_compiled())?;
    let digest = whole.digest.ok_or_else(not_compiled)?;
    if !whole.holds() {
        let first = whole
            .differences
            .iter()
            .find(|difference| difference.counts())
            .map_or(String::new(), seal::Difference::words);
        return Err((
            say!(
                "{shown} is not whole ({first}): trends do not stand on it",
                shown = shown,
                first = first
            ),
            say!("`sealfolio verify` says what differs; take a whole copy.").into(),
        ));
    }
    let older = site::records(folder).map_err(|why| {
        (
            format!("{shown}: {why}"),
            say!("Take a whole copy of the older dossier.").to_owned(),
        )
    })?;
    Ok(older.into_past(digest.to_string()))
}

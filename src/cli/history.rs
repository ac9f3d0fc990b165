//! Older compiled dossiers that trends look back on.

use std::path::{Path, PathBuf};

use super::compare::compiled;
use crate::{dossier::Dossier, trend::past::Past};

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

fn one(folder: &Path) -> Result<Past, (String, String)> {
    let (older, digest) = compiled(folder, false)?;
    Ok(older.into_past(digest))
}

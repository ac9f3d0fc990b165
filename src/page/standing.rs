//! Whether an assembly is in the release, and why not.

use super::{Book, capital};
use crate::{
    ground::{finding::Severity, words::spelt},
    record::kinds::Body,
};

/// How many findings block release: as long as there is one, nothing is released, whatever a statement says.
pub(super) fn blocking(book: &Book) -> usize {
    let heaviest = book.findings.iter();
    heaviest
        .take_while(|finding| finding.severity == Severity::Blocks)
        .count()
}

/// In the release or not, in a few words.
pub(super) fn status(book: &Book, assembly: &str) -> String {
    match (
        book.view.release.contains(assembly),
        book.view.decided(assembly),
    ) {
        (true, _) if blocking(book) > 0 => say!("proposed for release, not released").into(),
        (true, _) => say!("in the release").into(),
        (false, Some(deviation)) => say!("not released ({id})", id = &*deviation.id),
        (false, None) => say!("not in the release").into(),
    }
}

/// Why an assembly is not in the release, where somebody decided that.
pub(super) fn held(book: &Book, id: &str) -> String {
    let Some(record) = book
        .view
        .decided(id)
        .filter(|_| !book.view.release.contains(id))
    else {
        return String::new();
    };
    let why = match &record.body {
        Body::Deviation(deviation) => {
            format!(": {}", spelt(deviation.description.trim_end_matches('.')))
        }
        _ => String::new(),
    };
    format!("{}{why}.", capital(&status(book, id)))
}

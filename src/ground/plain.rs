//! Plain files of a copy, and nothing else: whoever hands a copy over may have put anything in their place.

use std::{fs, io, path::Path};

/// Refuses what is no plain file: a pipe would be waited for without end, and a link leads out of the copy.
///
/// # Errors
/// When it is no plain file, or cannot be looked at.
pub fn regular(path: &Path) -> io::Result<()> {
    match fs::symlink_metadata(path)?.is_file() {
        true => Ok(()),
        false => Err(io::ErrorKind::Unsupported.into()),
    }
}

/// The bytes of a plain file.
///
/// # Errors
/// As [`regular`], and when it cannot be read.
pub fn contents(path: &Path) -> io::Result<Vec<u8>> {
    regular(path)?;
    fs::read(path)
}

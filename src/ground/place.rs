//! Where something was written down.

use std::{fmt, sync::Arc};

/// A line and a column, both from 1, the column counted in characters.
#[derive(Copy, Clone, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Spot {
    /// The line, from 1; 0 where nothing was written (a missing field has its parent's spot).
    pub line: u32,
    /// The column, from 1.
    pub column: u32,
}

/// A spot in a named file.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Place {
    /// The file, relative to the dossier folder, with forward slashes on every system.
    pub file: Arc<str>,
    /// Line and column; line 0 means the file as a whole.
    pub spot: Spot,
}

impl Place {
    /// A spot in a file.
    pub fn new(file: &Arc<str>, spot: Spot) -> Place {
        Place {
            file: file.clone(),
            spot,
        }
    }

    /// A file as a whole.
    pub fn whole(file: &str) -> Place {
        Place {
            file: file.into(),
            spot: Spot::default(),
        }
    }
}

impl fmt::Display for Place {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.spot.line {
            0 => f.write_str(&self.file),
            line => f.write_str(&say!("{file} line {line}", file = self.file, line = line)),
        }
    }
}

//! The figures, one a file; the list is written by the build script from the file names.

use crate::figure::Figure;

include!(concat!(env!("OUT_DIR"), "/figures.rs"));

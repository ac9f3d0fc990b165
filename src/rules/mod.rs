//! The rules, one a file; the list is written by the build script from the file names.

use crate::rule::Rule;

include!(concat!(env!("OUT_DIR"), "/rules.rs"));

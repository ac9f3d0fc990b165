//! `new`: a small dossier folder that compiles at once.

use std::{fs, path::Path};

use super::{FINE, UNUSABLE, Voice, complain};
use crate::{commitment::KEY_FILE, ground::digest::Digest};

const DOSSIER: &str = r#"# The root of a dossier. Every other YAML file in this folder, wherever it lies, is read as a record;
# `kind` decides what it is, file names mean nothing. `sealfolio schema` lists the kinds.
kind: dossier
record_format: "1"
id: D-0001                       # never changes; revisions count up
revision: 1
title: "Validation dossier"
maker: {name: "Name of the maker", address: "Street, town"}
customers:
  - {customer_id: CU-1, name: "Name of the customer"}
compiled_on: "2026-01-01"        # the date on the pages; no clock is read
chapters:
  - narrative/01-what-this-is.md
"#;

const CHAPTER: &str = "# What this dossier covers

Write here, in Markdown, what a reader must know. A figure is never typed: name it in double square brackets, as in
`diffusive-flow@MT-1` between them, and the page shows its value with its uncertainty and leads to its proof.
";

pub(super) fn run(folder: &Path, voice: &Voice) -> u8 {
    if folder.symlink_metadata().is_ok() {
        complain(
            &format!("{} exists already", folder.display()),
            "Name a folder that does not exist yet; nothing is ever written over.",
        );
        return UNUSABLE;
    }
    let write = || {
        fs::create_dir_all(folder.join("narrative"))?;
        fs::write(folder.join("dossier.yaml"), DOSSIER)?;
        fs::write(folder.join(KEY_FILE), key()?)?;
        fs::write(folder.join("narrative/01-what-this-is.md"), CHAPTER)
    };
    if let Err(error) = write() {
        complain(
            &format!("cannot write {}: {}", folder.display(), error.kind()),
            "Look at free space and rights, or name another place.",
        );
        return UNUSABLE;
    }
    voice.say(&format!("Wrote {0}/dossier.yaml, a first chapter, and {KEY_FILE}: random numbers that keep what a customer's copy withholds from being guessed.\nNext: fill in the names, put records beside it, then `sealfolio review {0}`.", folder.display()));
    FINE
}

/// 32 random bytes in hexadecimal, from the system.
fn key() -> std::io::Result<String> {
    let mut bytes = [0; 32];
    getrandom::fill(&mut bytes)?;
    Ok(format!("{}\n", Digest(bytes)))
}

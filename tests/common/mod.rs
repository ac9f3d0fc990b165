//! Calling the program, and spoiling copies of the example.

#![allow(dead_code, missing_docs)]

use std::{
    fs,
    path::{Path, PathBuf},
    process::{Command, Output},
};

pub fn run(args: &[&str]) -> (Output, String) {
    let output = Command::new(env!("CARGO_BIN_EXE_sealfolio"))
        .args(args)
        .env("NO_COLOR", "1")
        .output()
        .unwrap();
    let text = String::from_utf8_lossy(&output.stdout).into_owned()
        + &String::from_utf8_lossy(&output.stderr);
    (output, text)
}

pub fn code(args: &[&str]) -> (i32, String) {
    let (output, text) = run(args);
    (output.status.code().unwrap(), text)
}

pub fn copy(from: &Path, to: &Path) {
    fs::create_dir_all(to).unwrap();
    for entry in fs::read_dir(from).unwrap() {
        let entry = entry.unwrap();
        match entry.file_type().unwrap().is_dir() {
            true => copy(&entry.path(), &to.join(entry.file_name())),
            false => {
                fs::copy(entry.path(), to.join(entry.file_name())).unwrap();
            }
        }
    }
}

/// A copy of an example to spoil, and a place beside it.
pub fn spoiled(name: &str, spoil: impl Fn(&Path)) -> (tempfile::TempDir, PathBuf) {
    let folder = tempfile::tempdir().unwrap();
    let own = folder.path().join("records");
    copy(&Path::new("example-dossier").join(name), &own);
    spoil(&own);
    (folder, own)
}

pub fn edit(path: &Path, from: &str, to: &str) {
    let text = fs::read_to_string(path).unwrap();
    assert!(text.contains(from), "{from}");
    fs::write(path, text.replacen(from, to, 1)).unwrap();
}

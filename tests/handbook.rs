//! The handbook's generated chapters are what the definitions say today, and its summary is whole.

use std::{fs, path::Path};

use sealfolio::handbook::{self, Example};

#[test]
fn generated_chapters_are_current() {
    let example = Example::read(Path::new("example-dossier")).unwrap();
    for (name, text) in handbook::chapters(&example) {
        let written = fs::read_to_string(Path::new("handbook/generated").join(name)).unwrap();
        assert!(
            written == text,
            "run `cargo run --example handbook` and look at the difference in {name}"
        );
    }
}

#[test]
fn every_chapter_of_the_summary_exists() {
    let summary = fs::read_to_string("handbook/SUMMARY.md").unwrap();
    let chapters: Vec<&str> = summary
        .split("](")
        .skip(1)
        .filter_map(|rest| rest.split(')').next())
        .collect();
    assert!(chapters.len() > 6);
    for chapter in chapters {
        assert!(Path::new("handbook").join(chapter).is_file(), "{chapter}");
    }
}

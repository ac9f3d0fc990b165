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
    for chapter in &chapters {
        assert!(Path::new("handbook").join(chapter).is_file(), "{chapter}");
    }
    for (name, _) in pages() {
        assert!(
            name == "SUMMARY.md" || chapters.contains(&&*name),
            "{name} is in no summary"
        );
    }
}

/// Every page of the handbook: its path below `handbook` and its text.
fn pages() -> Vec<(String, String)> {
    walkdir::WalkDir::new("handbook")
        .into_iter()
        .map(|entry| entry.unwrap().into_path())
        .filter(|path| path.extension().is_some_and(|ending| ending == "md"))
        .map(|path| {
            let name = path
                .strip_prefix("handbook")
                .unwrap()
                .to_str()
                .unwrap()
                .to_owned();
            (name, fs::read_to_string(&path).unwrap())
        })
        .collect()
}

#[test]
fn what_pages_lead_to_and_take_in_is_there() {
    let mut links = 0;
    for (name, text) in pages() {
        let here = Path::new("handbook").join(&name);
        let here = here.parent().unwrap();
        for link in text
            .split("](")
            .skip(1)
            .filter_map(|rest| rest.split(')').next())
        {
            if link.contains("://") || link.starts_with('#') || !link.contains('.') {
                continue;
            }
            links += 1;
            let file = link.split('#').next().unwrap();
            assert!(here.join(file).exists(), "{name} leads to {link}");
        }
        for taken in text.split("{{#include ").skip(1) {
            let [file, from, to] = taken
                .split("}}")
                .next()
                .unwrap()
                .split(':')
                .collect::<Vec<_>>()[..]
            else {
                panic!("{name}: {taken}");
            };
            let source = fs::read_to_string(here.join(file)).unwrap();
            let (from, to) = (from.parse::<usize>().unwrap(), to.parse::<usize>().unwrap());
            let lines: Vec<&str> = source.lines().skip(from - 1).take(to + 1 - from).collect();
            // Whole items, from their own words to their end.
            assert!(
                lines[0].starts_with("///") && lines[lines.len() - 1] == "};",
                "{name}: {file}"
            );
        }
    }
    assert!(links > 20, "{links}");
}

/// What the table of stages names exists: kinds, figures, rules.
#[test]
fn the_table_of_stages_names_what_exists() {
    use sealfolio::{figures, record::kinds, rules};
    let text = fs::read_to_string("handbook/stages.md").unwrap();
    let quoted: Vec<&str> = text.split('`').skip(1).step_by(2).collect();
    assert!(quoted.len() > 50);
    for name in quoted {
        let kind = kinds::kind(name).is_some();
        let figure = figures::ALL.iter().any(|figure| figure.id == name);
        assert!(kind || figure, "{name}");
    }
    let named = text
        .split(|c: char| !c.is_ascii_alphanumeric())
        .filter(|word| {
            word.len() == 3
                && word.starts_with('R')
                && word[1..].bytes().all(|b| b.is_ascii_digit())
        });
    for rule in named {
        assert!(rules::ALL.iter().any(|known| known.id == rule), "{rule}");
    }
}

/// The table of limits says what the program holds to.
#[test]
fn limits_are_those_of_the_program() {
    use sealfolio::{
        cli,
        ground::finding::MAX_MESSAGE,
        record::{folder::MAX_PROBLEMS, text, trace, yaml},
    };
    let page = fs::read_to_string("handbook/when-things-fail.md").unwrap();
    let spaced = |n: usize| {
        let digits = n.to_string();
        let groups = digits.as_bytes().rchunks(3).rev();
        let groups: Vec<&str> = groups.map(|g| std::str::from_utf8(g).unwrap()).collect();
        groups.join(" ")
    };
    let mib = |n: usize| format!("{} MiB", n >> 20);
    for (limit, of) in [
        (mib(text::MAX_FILE), "any file"),
        (mib(text::MAX_LINE), "a line of a record file"),
        (mib(yaml::MAX_TEXT), "a text in a record"),
        (spaced(yaml::MAX_VALUES), "values in a record file"),
        (spaced(yaml::MAX_DEPTH), "lists and maps in one another"),
        (spaced(trace::MAX_ROWS), "rows of a trace"),
        (spaced(trace::MAX_COLUMNS), "columns of a trace"),
        (
            spaced(MAX_PROBLEMS),
            "problems of one file, and findings on a terminal",
        ),
        (
            spaced(cli::MOST),
            "problems of one file, and findings on a terminal",
        ),
        (spaced(MAX_MESSAGE), "bytes of a message"),
    ] {
        assert!(
            page.contains(&format!("| {limit} | {of} |")),
            "{limit} {of}"
        );
    }
}

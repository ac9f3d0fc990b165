//! Hard situations, one test each, named after their number in the requirements: what the page must
//! say, and what it must not.

#[path = "../common/mod.rs"]
mod common;
mod elements;
mod figures;
mod papers;

use std::{collections::BTreeMap, fs, path::Path};

use common::*;
use sealfolio::{dossier::Dossier, ground::finding::Severity, site};

const MODULES: &str = "module-tests/vf45.yaml";
const ASSEMBLIES: &str = "assembly-tests/vf45.yaml";
const SPEC: &str = "specifications.yaml";

/// A compiled dossier as a reader sees it: the text of each page, without marks.
struct Book {
    pages: BTreeMap<String, String>,
    dossier: Dossier,
}

/// Text without its blanks: pages have one beside every link.
fn dense(text: &str) -> String {
    text.split_whitespace().collect()
}

impl Book {
    fn of(dossier: Dossier) -> Book {
        let pages = site::compile(&dossier)
            .files
            .iter()
            .filter(|(path, _)| path.ends_with(".html"))
            .map(|(path, bytes)| {
                (
                    path.replace("data/", ""),
                    plain(std::str::from_utf8(bytes).unwrap()),
                )
            })
            .collect();
        Book { pages, dossier }
    }

    fn spoiled(spoil: impl Fn(&mut Sound)) -> Book {
        let mut set = Sound::read();
        spoil(&mut set);
        Book::of(set.dossier())
    }

    fn example(name: &str) -> Book {
        Book::of(
            Dossier::build(&Path::new("example-dossier").join(name))
                .map_err(|why| why.message)
                .unwrap(),
        )
    }

    /// The one page whose path begins so.
    fn page(&self, begins: &str) -> &str {
        let found = self.pages.iter().find(|(path, _)| path.starts_with(begins));
        found.unwrap_or_else(|| panic!("no page {begins}")).1
    }

    fn says(&self, page: &str, words: &[&str]) {
        for word in words {
            // Ids in sentences are links: what a reader reads is looked at without them.
            assert!(
                dense(self.page(page)).contains(&dense(word)),
                "{page} does not say \"{word}\":\n{}",
                self.page(page)
            );
        }
    }

    fn never_says(&self, page: &str, words: &[&str]) {
        for word in words {
            assert!(!self.page(page).contains(word), "{page} says \"{word}\"");
        }
    }

    /// Weight, message and advice of the findings of a rule.
    fn findings(&self, rule: &str) -> Vec<(Severity, String)> {
        let all = self.dossier.findings();
        let own = all.iter().filter(|finding| finding.rule == rule);
        own.map(|finding| {
            (
                finding.severity,
                format!("{} {}", finding.message, finding.advice),
            )
        })
        .collect()
    }

    fn value(&self, figure: &'static str, record: &str) -> f64 {
        let computed = self.dossier.graph.get(figure, record, "").unwrap();
        computed
            .figure
            .unit
            .of_si(computed.quantity().unwrap().value)
    }
}

/// Text without tags; entities as their letters.
fn plain(html: &str) -> String {
    let mut out = String::new();
    let mut inside = false;
    for c in html.chars() {
        match c {
            '<' => inside = true,
            '>' => {
                inside = false;
                out.push(' ');
            }
            c if !inside => out.push(c),
            _ => {}
        }
    }
    let text = out.split_whitespace().collect::<Vec<_>>().join(" ");
    let entities = [
        ("&lt;", "<"),
        ("&gt;", ">"),
        ("&quot;", "\""),
        ("&#x27;", "'"),
        ("&#39;", "'"),
        ("&#x2F;", "/"),
        ("&amp;", "&"),
    ];
    entities
        .iter()
        .fold(text, |text, (entity, letter)| text.replace(entity, letter))
}

/// A copy of the sound lot in a folder, to call the program on.
fn written(set: &Sound) -> tempfile::TempDir {
    let folder = tempfile::tempdir().unwrap();
    for (name, bytes) in &set.files {
        let path = folder.path().join(name);
        fs::create_dir_all(path.parent().unwrap()).unwrap();
        fs::write(path, bytes).unwrap();
    }
    folder
}

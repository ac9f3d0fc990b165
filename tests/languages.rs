//! A dossier in another language says the same: no figure, verdict or finding depends on it.

mod common;

use std::{collections::BTreeSet, fs, path::Path};

use common::{code, edit, spoiled};
use serde_json::Value;

const OTHERS: [&str; 5] = ["it", "fr", "de", "es", "pt"];

fn review(folder: &Path) -> Value {
    let (_, text) = code(&["review", folder.to_str().unwrap(), "--json"]);
    serde_json::from_str(&text).unwrap()
}

/// What of a finding is not words: its rule, weight, place and what it is about.
fn bones(report: &Value) -> Vec<String> {
    let mut all: Vec<String> = report["findings"]
        .as_array()
        .unwrap()
        .iter()
        .map(|finding| {
            let keys = ["rule", "severity", "file", "line", "about"];
            keys.map(|key| finding[key].to_string()).join(" ")
        })
        .collect();
    all.sort();
    all
}

fn in_language(name: &str, language: &str) -> (tempfile::TempDir, std::path::PathBuf) {
    spoiled(name, |own| {
        edit(
            &own.join("dossier.yaml"),
            "language: en",
            &format!("language: {language}"),
        );
    })
}

#[test]
fn findings_do_not_depend_on_the_language() {
    let english = review(Path::new("example-dossier/as-found"));
    let messages = |report: &Value| -> BTreeSet<String> {
        let all = report["findings"].as_array().unwrap();
        all.iter()
            .map(|finding| finding["message"].as_str().unwrap().to_owned())
            .collect()
    };
    for language in OTHERS {
        let (_kept, own) = in_language("as-found", language);
        let other = review(&own);
        assert_eq!(bones(&english), bones(&other), "{language}");
        assert_eq!(english["counts"], other["counts"], "{language}");
        // And they are said in it.
        let alike = messages(&english).intersection(&messages(&other)).count();
        assert!(alike == 0, "{language}: {alike} messages are in English");
    }
}

#[test]
fn a_copy_in_another_language_is_verified_and_holds_the_same_values() {
    let figures = |out: &Path| -> Vec<Value> {
        let text = fs::read(out.join("data/figures.json")).unwrap();
        let all: Value = serde_json::from_slice(&text).unwrap();
        all["figures"].as_array().unwrap().clone()
    };
    let compiled = |language: &str| {
        let (kept, own) = in_language("released", language);
        let out = kept.path().join("out");
        let (status, text) = code(&[
            "compile",
            own.to_str().unwrap(),
            "--into",
            out.to_str().unwrap(),
        ]);
        assert_eq!(status, 0, "{text}");
        (kept, out)
    };
    let (_kept, out) = compiled("en");
    let english = figures(&out);
    for language in OTHERS {
        let (_kept, out) = compiled(language);
        let (status, text) = code(&["verify", out.to_str().unwrap()]);
        assert_eq!(status, 0, "{language}: {text}");
        let other = figures(&out);
        assert_eq!(english.len(), other.len());
        for (a, b) in english.iter().zip(&other) {
            for key in [
                "id",
                "value",
                "standard_uncertainty",
                "verdict",
                "limit_low",
                "limit_high",
                "page",
            ] {
                assert_eq!(a[key], b[key], "{language}: {key} of {}", a["id"]);
            }
        }
        let page = fs::read_to_string(out.join("data/index.html")).unwrap();
        assert!(page.contains(&format!("<html lang=\"{language}\">")));
        // Decimal commas, and no decimal point before a unit.
        let sheet = fs::read_to_string(out.join("data/assemblies/a-26-2101.html")).unwrap();
        assert!(sheet.contains("2,582 ± 0,020 bar"), "{language}");
        let pointed = sheet.match_indices(" bar").filter(|(i, _)| {
            let before = sheet[..*i]
                .rsplit([' ', '>', '('])
                .next()
                .unwrap_or_default();
            before.contains('.') && before.parse::<f64>().is_ok()
        });
        assert_eq!(pointed.count(), 0, "{language}: a decimal point before bar");
    }
}

#[test]
fn an_unknown_language_is_refused_in_english() {
    let (_kept, own) = in_language("released", "xx");
    let (status, text) = code(&["review", own.to_str().unwrap()]);
    assert_eq!(status, 1, "{text}");
    assert!(
        text.contains("language is") && text.contains("en, it, fr, de, es, pt"),
        "{text}"
    );
}

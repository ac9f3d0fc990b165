//! What changed between two dossiers, on the terminal, for a machine, and on a page that is sealed.

mod common;

use std::{fs, path::Path};

use common::{code, edit, spoiled};
use serde_json::Value;

fn compiled(records: &Path, into: &Path, more: &[&str]) -> (i32, String) {
    let mut args = vec![
        "compile",
        records.to_str().unwrap(),
        "--into",
        into.to_str().unwrap(),
        "--draft",
    ];
    args.extend(more);
    code(&args)
}

fn compared(old: &Path, new: &Path) -> (i32, Value) {
    let (status, text) = code(&[
        "compare",
        old.to_str().unwrap(),
        new.to_str().unwrap(),
        "--json",
    ]);
    (status, serde_json::from_str(&text).unwrap())
}

#[test]
fn two_revisions_of_the_example() {
    let folder = tempfile::tempdir().unwrap();
    let (one, two) = (folder.path().join("one"), folder.path().join("two"));
    compiled(Path::new("example-dossier/as-found"), &one, &[]);
    let (status, text) = compiled(
        Path::new("example-dossier/released"),
        &two,
        &["--supersedes", one.to_str().unwrap()],
    );
    assert_eq!(status, 0, "{text}");
    let (status, report) = compared(&one, &two);
    assert_eq!(status, 0);
    assert_eq!(report["succession"], "without digest");
    // The claim was lowered to what the data support.
    let verdicts = report["verdicts"].as_array().unwrap();
    assert_eq!(verdicts.len(), 1, "{verdicts:?}");
    assert_eq!(verdicts[0]["figure"], "cycles-supported@ES-65-CA");
    assert_eq!(
        (&verdicts[0]["before"], &verdicts[0]["after"]),
        (&"does not conform".into(), &"conforms".into())
    );
    let figures = report["figures"]["became_another"].as_array().unwrap();
    assert!(
        figures
            .iter()
            .any(|one| one["id"] == "cycles-supported@ES-65-CA" && one["before"] != one["after"])
    );
    assert_eq!(
        report["altered_under_the_same_revision"],
        Value::Array(Vec::new())
    );
    let went: Vec<&str> = report["released"]["went"]
        .as_array()
        .unwrap()
        .iter()
        .map(|id| id.as_str().unwrap())
        .collect();
    assert_eq!(went, ["A-26-2105", "A-26-2204", "A-26-2206", "A-26-2306"]);
    // Backwards everything is the other way round.
    let (_, back) = compared(&two, &one);
    assert_eq!(back["released"]["came"], report["released"]["went"]);
    assert_eq!(back["findings"]["came"], report["findings"]["went"]);
    // The page says the same, is sealed, and is recomputed without the older dossier.
    let page = fs::read_to_string(two.join("data/changes.html")).unwrap();
    for words in [
        "cycles-supported@ES-65-CA",
        "without a digest",
        "A-26-2206",
        "None: whatever was changed has a new revision.",
    ] {
        assert!(page.contains(words), "{words}");
    }
    fs::remove_dir_all(&one).unwrap();
    let (status, text) = code(&["verify", two.to_str().unwrap()]);
    assert_eq!(status, 0, "{text}");
    edit(
        &two.join("data/previous.json"),
        "\"revision\": 1",
        "\"revision\": 3",
    );
    assert_eq!(code(&["verify", two.to_str().unwrap()]).0, 1);
}

#[test]
fn a_dossier_against_itself_and_against_its_own_records() {
    let folder = tempfile::tempdir().unwrap();
    let records = Path::new("example-dossier/released");
    let own = folder.path().join("own");
    compiled(records, &own, &[]);
    let (status, text) = code(&["compare", own.to_str().unwrap(), own.to_str().unwrap()]);
    assert!(
        status == 0 && text.contains("Both are one dossier"),
        "{text}"
    );
    assert_eq!(compared(&own, &own).0, 0);
    for (old, new) in [(&*own, records), (records, &*own)] {
        let (status, text) = code(&["compare", old.to_str().unwrap(), new.to_str().unwrap()]);
        // It does not supersede itself: the record names revision 1.
        assert_eq!(status, 1, "{text}");
        assert!(text.contains("Verdicts changed: none."), "{text}");
        assert!(text.contains("Findings: 0 came, 0 went."), "{text}");
        assert_eq!(text.matches("nothing changed").count(), 5, "{text}");
    }
}

#[test]
fn a_value_that_is_altered_under_the_same_revision_is_named() {
    let (_kept, own) = spoiled("released", |own| {
        edit(
            &own.join("lots.yaml"),
            "modules_started: ",
            "modules_started:  ",
        );
    });
    // A blank more is another text, and no other value.
    let old = Path::new("example-dossier/released");
    let (status, report) = compared(old, &own);
    assert_eq!(status, 1);
    assert_eq!(
        report["altered_under_the_same_revision"]
            .as_array()
            .unwrap()
            .len(),
        1
    );
    assert_eq!(
        report["figures"]["became_another"],
        Value::Array(Vec::new())
    );
}

#[test]
fn succession_is_by_digest() {
    let folder = tempfile::tempdir().unwrap();
    let one = folder.path().join("one");
    let (_, text) = compiled(Path::new("example-dossier/as-found"), &one, &["--json"]);
    let report: Value = serde_json::from_str(&text).unwrap();
    let digest = report["digest"].as_str().unwrap();
    let named = |digest: &str| {
        spoiled("released", |own| {
            edit(
                &own.join("dossier.yaml"),
                "supersedes: {id: QM-2026-3, revision: 1}",
                &format!("supersedes: {{id: QM-2026-3, revision: 1, digest: \"{digest}\"}}"),
            );
        })
    };
    let (_kept, right) = named(digest);
    let (status, report) = compared(&one, &right);
    assert_eq!((status, &report["succession"]), (0, &"by digest".into()));
    let (_kept, wrong) = named(&format!("sha256:{}", "0".repeat(63) + "1"));
    let (status, report) = compared(&one, &wrong);
    assert_eq!((status, &report["succession"]), (1, &"another".into()));
    // And nothing is compiled that claims to supersede what it does not.
    let into = folder.path().join("two");
    let (status, text) = compiled(&wrong, &into, &["--supersedes", one.to_str().unwrap()]);
    assert_eq!(status, 2, "{text}");
    assert!(text.contains("does not name") && !into.exists(), "{text}");
    // Nor one in which a record became another and kept its revision.
    let (_kept, altered) = spoiled("released", |own| {
        edit(
            &own.join("module-tests/vf45.yaml"),
            "wetting_flush_volume: \"8.2 L\"",
            "wetting_flush_volume: \"8.3 L\"",
        );
    });
    let (status, text) = compiled(&altered, &into, &["--supersedes", one.to_str().unwrap()]);
    assert_eq!(status, 1, "{text}");
    let words = "altered under the same revision: module_test MT-";
    assert!(text.contains(words) && !into.exists(), "{text}");
}

#[test]
fn a_damaged_copy_is_not_compared() {
    let folder = tempfile::tempdir().unwrap();
    let one = folder.path().join("one");
    compiled(Path::new("example-dossier/released"), &one, &[]);
    fs::write(one.join("data/style.css"), "").unwrap();
    let (status, text) = code(&["compare", one.to_str().unwrap(), "example-dossier/released"]);
    assert_eq!(status, 2);
    assert!(
        text.contains("is not whole (changed: data/style.css"),
        "{text}"
    );
}

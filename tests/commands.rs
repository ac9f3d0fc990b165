//! The program as a person calls it: arguments, exit codes, messages, and what is left on the disk.

mod common;

use std::{fs, path::Path};

use common::*;

#[test]
fn a_released_dossier_compiles_verifies_and_notices_one_byte() {
    let folder = tempfile::tempdir().unwrap();
    let out = folder.path().join("out");
    let out = out.to_str().unwrap();
    let (status, text) = code(&["compile", "example-dossier/released", "--into", out]);
    assert_eq!(status, 0, "{text}");
    assert!(
        text.contains("START-HERE.html") && text.contains("0 findings block release"),
        "{text}"
    );
    let (status, text) = code(&["verify", out]);
    assert_eq!(status, 0, "{text}");
    assert!(
        text.contains("whole:      holds") && text.contains("recomputed: holds"),
        "{text}"
    );

    // One flipped bit in any file, wherever it lies, is named.
    let files = [
        "data/figures.json",
        "data/index.html",
        "data/records/retention.yaml",
        "bag-info.txt",
        "START-HERE.html",
    ];
    for file in files {
        let path = Path::new(out).join(file);
        let good = fs::read(&path).unwrap();
        let mut bad = good.clone();
        let at = bad.len() / 2;
        bad[at] ^= 1;
        fs::write(&path, &bad).unwrap();
        let (status, text) = code(&["verify", out]);
        assert_eq!(status, 1, "{file}");
        assert!(text.contains(&format!("changed: {file}")), "{text}");
        fs::write(&path, &good).unwrap();
    }
    assert_eq!(code(&["verify", out]).0, 0);
}

#[test]
fn a_page_that_was_forged_with_its_manifests_does_not_come_out_again() {
    use sealfolio::ground::digest::Digest;
    let folder = tempfile::tempdir().unwrap();
    let out = folder.path().join("out");
    assert_eq!(
        code(&[
            "compile",
            "example-dossier/released",
            "--into",
            out.to_str().unwrap()
        ])
        .0,
        0
    );
    let list = |manifest: &str, file: &str| {
        let old = Digest::of(&fs::read(out.join(file)).unwrap()).to_string();
        (manifest.to_owned(), file.to_owned(), old)
    };
    let (manifest, page, old) = list("manifest-sha256.txt", "data/figures.json");
    edit(
        &out.join(&page),
        "\"verdict\":\"undecided\"",
        // As long as before: the sum of the payload in bag-info.txt stays right.
        "\"verdict\":\"conforms\" ",
    );
    let new = Digest::of(&fs::read(out.join(&page)).unwrap()).to_string();
    let (tag, _, old_manifest) = list("tagmanifest-sha256.txt", &manifest);
    edit(&out.join(&manifest), &old, &new);
    let new_manifest = Digest::of(&fs::read(out.join(&manifest)).unwrap()).to_string();
    edit(&out.join(&tag), &old_manifest, &new_manifest);
    let (status, text) = code(&["verify", out.to_str().unwrap()]);
    assert_eq!(status, 1);
    assert!(
        text.contains("whole:      holds")
            && text.contains("comes out differently: data/figures.json"),
        "{text}"
    );
}

#[test]
fn what_blocks_is_named_and_a_draft_says_that_it_is_one() {
    let folder = tempfile::tempdir().unwrap();
    let out = folder.path().join("out");
    let name = out.to_str().unwrap();
    let (status, text) = code(&["compile", "example-dossier/as-found", "--into", name]);
    assert_eq!(status, 1);
    assert!(
        text.contains("nothing was written") && text.contains("R45") && text.contains("R12"),
        "{text}"
    );
    assert!(!out.exists());
    let (status, text) = code(&[
        "compile",
        "example-dossier/as-found",
        "--into",
        name,
        "--draft",
    ]);
    assert_eq!(status, 1);
    assert!(text.contains("DRAFT"), "{text}");
    for page in [
        "START-HERE.html",
        "data/index.html",
        "data/assemblies/a-26-2105.html",
        "data/cautions.html",
    ] {
        assert!(
            fs::read_to_string(out.join(page))
                .unwrap()
                .contains("Draft: not released"),
            "{page}"
        );
    }
    assert_eq!(code(&["verify", name]).0, 0);
}

#[test]
fn review_speaks_to_machines_too() {
    let (output, text) = run(&["review", "example-dossier/as-found", "--json"]);
    assert_eq!(output.status.code(), Some(1));
    let report: serde_json::Value = serde_json::from_str(&text).unwrap();
    assert_eq!(report["counts"]["blocks release"], 29);
    assert!(
        report["findings"]
            .as_array()
            .unwrap()
            .iter()
            .any(|finding| finding["rule"] == "R45" && finding["about"][0] == "A-26-2105")
    );
    assert_eq!(code(&["review", "example-dossier/released"]).0, 0);
}

/// Spoils one thing and expects exit 1 from `review`, with these words.
fn expect(spoil: impl Fn(&Path), words: &[&str]) {
    let (folder, own) = spoiled("released", spoil);
    let (status, text) = code(&["review", own.to_str().unwrap()]);
    assert_eq!(status, 1, "{text}");
    for word in words {
        assert!(text.contains(word), "{word} is not in\n{text}");
    }
    // A spoiled dossier is refused, and nothing half-written stays behind.
    let out = folder.path().join("out");
    assert_eq!(
        code(&[
            "compile",
            own.to_str().unwrap(),
            "--into",
            out.to_str().unwrap()
        ])
        .0,
        1
    );
    assert_eq!(fs::read_dir(folder.path()).unwrap().count(), 1);
}

#[test]
fn a_misspelt_key_is_named_with_its_line_and_its_neighbour() {
    expect(
        |own| {
            edit(
                &own.join("module-tests/vf45.yaml"),
                "upstream_volume:",
                "upstream_volum:",
            )
        },
        &[
            "R01",
            "module-tests/vf45.yaml:",
            "\"upstream_volum\" is not known (did you mean upstream_volume?)",
            "next: Correct the key",
        ],
    );
}

#[test]
fn all_errors_of_a_run_are_reported_together() {
    expect(
        |own| {
            edit(
                &own.join("module-tests/vf45.yaml"),
                "\"2.420 L\"",
                "\"2.420\"",
            );
            edit(
                &own.join("module-tests/vf45.yaml"),
                "\"1700 mbar\"",
                "\"1700 bar\"",
            );
            edit(
                &own.join("module-tests/vf65.yaml"),
                "T12:00:00+02:00",
                " 12:00",
            );
            edit(
                &own.join("claims.yaml"),
                "cycles_claimed: 50",
                "cycles_claimed: fifty",
            );
        },
        &[
            "upstream_volume: `2.420` has no unit",
            "test_pressure \"1700 bar\" is not believable",
            "has no offset",
            "cycles_claimed is \"fifty\", and a whole number is due",
        ],
    );
}

#[test]
fn revisions_count_from_one_in_every_record_and_every_reference() {
    for (file, from, to) in [
        ("retention.yaml", "revision: 1", "revision: 0"),
        ("dossier.yaml", "\nrevision: 2", "\nrevision: 0"),
        (
            "dossier.yaml",
            "{id: QM-2026-3, revision: 1}",
            "{id: QM-2026-3, revision: 0}",
        ),
    ] {
        expect(
            |own| edit(&own.join(file), from, to),
            &[
                "R01",
                file,
                "revision is 0",
                "next: Revisions count from 1.",
            ],
        );
    }
}

#[test]
fn a_broken_file_is_named_and_the_rest_is_still_looked_at() {
    expect(
        |own| fs::write(own.join("retention.yaml"), "kind: [unclosed\n").unwrap(),
        &["R01", "retention.yaml", "is not YAML"],
    );
    expect(
        |own| {
            edit(
                &own.join("retention.yaml"),
                "revision: 1",
                "revision: 1\nrevision: 2",
            )
        },
        &["key \"revision\" stands twice"],
    );
    expect(
        |own| fs::write(own.join("retention.yaml"), b"kind: \xff\n").unwrap(),
        &["is not UTF-8"],
    );
    expect(
        |own| {
            edit(
                &own.join("retention.yaml"),
                "kind: retention_challenge",
                "kind: retention_chalenge",
            )
        },
        &["did you mean retention_challenge?"],
    );
}

#[test]
fn a_missing_an_edited_and_a_foreign_trace_are_told_apart() {
    expect(
        |own| fs::remove_file(own.join("traces/mt-26-3101-1-df.csv")).unwrap(),
        &["R05", "traces/mt-26-3101-1-df.csv is not in the folder"],
    );
    expect(
        |own| edit(&own.join("traces/mt-26-3101-1-df.csv"), "1700.", "1701."),
        &["R05", "has digest", "do not edit the record to fit"],
    );
    expect(
        |own| {
            edit(
                &own.join("traces/mt-26-3101-1-df.csv"),
                "0,1700.",
                "0,1700,",
            )
        },
        &["R06", "is there a decimal comma?"],
    );
    let (_folder, own) = spoiled("released", |own| {
        fs::write(own.join("traces/stray.csv"), "time_s\n").unwrap()
    });
    let (status, text) = code(&["review", own.to_str().unwrap()]);
    assert_eq!(status, 0, "{text}");
    assert!(
        text.contains("R08") && text.contains("traces/stray.csv belongs to no record"),
        "{text}"
    );
}

#[test]
fn a_chapter_that_names_an_unknown_figure_is_refused_at_its_line() {
    expect(
        |own| {
            edit(
                &own.join("narrative/02-how-joins-are-judged.md"),
                "[[join-residual@AT-26-2101-1]]",
                "[[join-residual@AT-26-2101-9]]",
            )
        },
        &[
            "narrative/02-how-joins-are-judged.md:8:",
            "there is no figure join-residual@AT-26-2101-9",
        ],
    );
}

#[test]
fn what_cannot_be_used_is_exit_two_with_advice() {
    let folder = tempfile::tempdir().unwrap();
    let empty = folder.path().to_str().unwrap();
    for (args, words) in [
        (vec!["review", empty], "has no dossier.yaml"),
        (vec!["review", "no-such-folder"], "is not a folder"),
        (vec!["verify", "no-such-folder"], "is not a folder"),
        (
            vec!["verify", "example-dossier/released"],
            "is no compiled dossier",
        ),
        (
            vec!["compile", "example-dossier/released", "--into", empty],
            "exists already",
        ),
        (
            vec![
                "compile",
                "example-dossier/released",
                "--into",
                "example-dossier/released/out",
            ],
            "lies inside the folder that is read",
        ),
        (vec!["schema", "module_tests"], "did you mean module_test?"),
        (
            vec!["explain", "diffusiv-flow"],
            "did you mean diffusive-flow?",
        ),
        (
            vec![
                "explain",
                "diffusive-flow@MT-0",
                "--in",
                "example-dossier/released",
            ],
            "is not in example-dossier/released",
        ),
        (vec!["reviev"], "review"),
    ] {
        let (status, text) = code(&args);
        assert_eq!(status, 2, "{args:?}: {text}");
        assert!(text.contains(words), "{args:?}: {text}");
    }
    assert_eq!(fs::read_dir(folder.path()).unwrap().count(), 0);
}

#[test]
fn an_earlier_dossier_is_left_as_it_was() {
    let folder = tempfile::tempdir().unwrap();
    let out = folder.path().join("out");
    let name = out.to_str().unwrap();
    assert_eq!(
        code(&["compile", "example-dossier/released", "--into", name]).0,
        0
    );
    let before = fs::read(out.join("tagmanifest-sha256.txt")).unwrap();
    assert_eq!(
        code(&[
            "compile",
            "example-dossier/as-found",
            "--into",
            name,
            "--draft"
        ])
        .0,
        2
    );
    assert_eq!(
        fs::read(out.join("tagmanifest-sha256.txt")).unwrap(),
        before
    );
    assert_eq!(code(&["verify", name]).0, 0);
}

#[test]
fn a_new_folder_compiles_at_once() {
    let folder = tempfile::tempdir().unwrap();
    let (own, out) = (folder.path().join("mine"), folder.path().join("out"));
    assert_eq!(code(&["new", own.to_str().unwrap()]).0, 0);
    let (status, text) = code(&[
        "compile",
        own.to_str().unwrap(),
        "--into",
        out.to_str().unwrap(),
    ]);
    assert_eq!(status, 0, "{text}");
    assert_eq!(code(&["verify", out.to_str().unwrap()]).0, 0);
    assert_eq!(code(&["new", own.to_str().unwrap()]).0, 2);
}

#[test]
fn a_figure_is_explained_down_to_its_lines() {
    let (status, text) = code(&[
        "explain",
        "join-residual@AT-26-2105-1",
        "--in",
        "example-dossier/as-found",
    ]);
    assert_eq!(status, 0);
    for words in [
        "r = Q_asm − Σ (Q_mod · φ)",
        "diffusive-flow@MT-26-3110-1",
        "upstream volume of IT-11",
        "Decision: explain above 3 u, block above 5 u",
        "does not conform",
    ] {
        assert!(text.contains(words), "{words} is not in\n{text}");
    }
}

#[test]
fn a_rule_is_explained_by_its_name() {
    let (status, text) = code(&["explain", "r36"]);
    assert_eq!(status, 0);
    for words in [
        "R36: ",
        "Usual weight: ",
        "Protects against ",
        "May be explained: ",
    ] {
        assert!(text.contains(words), "{words} is not in\n{text}");
    }
    let (status, text) = code(&["explain", "R999"]);
    assert_eq!(status, 2);
    assert!(text.contains("rules are R01 to R93"), "{text}");
}

#[test]
fn every_kind_has_a_schema() {
    let (status, text) = code(&["schema"]);
    assert_eq!(status, 0);
    let kinds: Vec<&str> = text
        .lines()
        .filter_map(|line| line.split_whitespace().next())
        .collect();
    assert!(kinds.len() >= 18);
    for kind in kinds {
        let (status, text) = code(&["schema", kind]);
        assert_eq!(status, 0);
        let schema: serde_json::Value = serde_json::from_str(&text).unwrap();
        assert_eq!(schema["properties"]["kind"]["const"], kind);
        assert_eq!(
            schema["$schema"],
            "https://json-schema.org/draft/2020-12/schema"
        );
    }
}

/// A pipe sees no progress, and whoever stops a run finds nothing left behind.
#[cfg(unix)]
#[test]
fn whoever_stops_a_compile_finds_nothing_left_behind() {
    use std::{
        process::{Command, Stdio},
        time::{Duration, Instant},
    };
    let folder = tempfile::tempdir().unwrap();
    let out = folder.path().join("out");
    let begin = || {
        Command::new(env!("CARGO_BIN_EXE_sealfolio"))
            .args(["compile", "example-dossier/released", "--into"])
            .arg(&out)
            .stdout(Stdio::piped())
            .stderr(Stdio::piped())
            .spawn()
            .unwrap()
    };
    let left = || fs::read_dir(folder.path()).unwrap().count();
    let mut stopped = 0;
    for _ in 0..20 {
        let child = begin();
        // As soon as the folder beside the target is there, it is being written.
        let since = Instant::now();
        while left() == 0 && since.elapsed() < Duration::from_secs(60) {
            std::thread::sleep(Duration::from_millis(1));
        }
        let id = child.id().to_string();
        let _ = Command::new("kill").args(["-INT", &id]).status();
        let output = child.wait_with_output().unwrap();
        let said = String::from_utf8_lossy(&output.stderr);
        if output.status.code() == Some(0) {
            // It was done before the signal came.
            fs::remove_dir_all(&out).unwrap();
            continue;
        }
        assert_eq!(output.status.code(), Some(130), "{said}");
        assert_eq!(
            said,
            "sealfolio: stopped\n           Nothing was written, and nothing was left behind.\n"
        );
        assert_eq!(left(), 0, "something was left behind");
        stopped += 1;
        if stopped == 3 {
            return;
        }
    }
    panic!("only {stopped} of 20 runs could be stopped while they wrote");
}

#[test]
fn only_bytes_are_checked_where_only_they_are_asked_for() {
    let folder = tempfile::tempdir().unwrap();
    let out = folder.path().join("out");
    let out = out.to_str().unwrap();
    assert_eq!(
        code(&["compile", "example-dossier/released", "--into", out]).0,
        0
    );
    let (status, text) = code(&["verify", out, "--bytes"]);
    assert_eq!(status, 0, "{text}");
    assert!(
        text.contains("recomputed: not run; only the bytes were asked for."),
        "{text}"
    );
    edit(
        &Path::new(out).join("data/figures.json"),
        "\"verdict\":\"conforms\"",
        "\"verdict\":\"conformt\"",
    );
    let (status, text) = code(&["verify", out, "--bytes"]);
    assert_eq!(status, 1, "{text}");
    assert!(text.contains("changed: data/figures.json"), "{text}");
}

#[cfg(unix)]
#[test]
fn a_backslash_in_a_name_is_a_letter_and_no_way_to_another_file() {
    // On these systems `a\b.txt` and `a/b.txt` are two files; both are sealed.
    let place = tempfile::tempdir().unwrap();
    let (records, out) = (place.path().join("records"), place.path().join("out"));
    copy(Path::new("tests/sound"), &records);
    fs::create_dir(records.join("a")).unwrap();
    fs::write(records.join("a/b.txt"), "one").unwrap();
    fs::write(records.join("a\\b.txt"), "two").unwrap();
    let (ended, text) = code(&[
        "compile",
        records.to_str().unwrap(),
        "--into",
        out.to_str().unwrap(),
        "--draft",
    ]);
    assert_eq!(ended, 0, "{text}");
    let mut sealed: Vec<String> = walkdir::WalkDir::new(out.join("data/records"))
        .into_iter()
        .filter_map(|entry| fs::read_to_string(entry.unwrap().path()).ok())
        .filter(|text| text == "one" || text == "two")
        .collect();
    sealed.sort();
    assert_eq!(sealed, ["one", "two"]);
}

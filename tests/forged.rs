//! Dossiers and copies as somebody makes them who wants to deceive: whole by their own lists, and signed where a key is at hand.

mod common;

use std::{collections::BTreeMap, fs, path::Path, process::Command};

use common::{code, signed::Stage};
use sealfolio::{
    approval::{Meaning, Statement},
    ground::digest::Digest,
};

/// Makes the lists of a bag fit what lies in it now.
fn reseal(root: &Path) {
    let listed = |payload: bool| {
        let mut lines = BTreeMap::new();
        for entry in walkdir::WalkDir::new(root) {
            let entry = entry.unwrap();
            let path = entry.path().strip_prefix(root).unwrap();
            let name = path.to_string_lossy().into_owned();
            let own = name.starts_with("data/") == payload
                && !name.starts_with("signatures")
                && name != "tagmanifest-sha256.txt";
            if entry.file_type().is_file() && own {
                lines.insert(name, fs::read(entry.path()).unwrap());
            }
        }
        lines
    };
    let write = |file: &str, lines: &BTreeMap<String, Vec<u8>>| {
        let text: String = lines
            .iter()
            .map(|(name, bytes)| format!("{}  {name}\n", Digest::of(bytes)))
            .collect();
        fs::write(root.join(file), text).unwrap();
    };
    let payload = listed(true);
    write("manifest-sha256.txt", &payload);
    let bytes: usize = payload.values().map(Vec::len).sum();
    let info = fs::read_to_string(root.join("bag-info.txt")).unwrap();
    let info: String = info
        .lines()
        .map(|line| match line.starts_with("Payload-Oxum: ") {
            true => format!("Payload-Oxum: {bytes}.{}\n", payload.len()),
            false => format!("{line}\n"),
        })
        .collect();
    fs::write(root.join("bag-info.txt"), info).unwrap();
    write("tagmanifest-sha256.txt", &listed(false));
}

fn replaced(file: &Path, from: &str, to: &str) {
    let text = fs::read_to_string(file).unwrap();
    assert!(text.contains(from), "{} has no {from}", file.display());
    fs::write(file, text.replace(from, to)).unwrap();
}

/// A customer's copy of the signed example, and what `verify` with all signers says of it after a change.
fn copy_of(stage: &Stage) -> std::path::PathBuf {
    let copy = stage.kept.path().join("copy");
    let _ = fs::remove_dir_all(&copy);
    let (status, text) = code(&[
        "extract",
        stage.out.to_str().unwrap(),
        "--customer",
        "CU-34",
        "--into",
        copy.to_str().unwrap(),
    ]);
    assert_eq!(status, 0, "{text}");
    copy
}

fn verified(stage: &Stage, folder: &Path) -> (i32, String) {
    let allowed = stage.allowed();
    code(&[
        "verify",
        folder.to_str().unwrap(),
        "--allowed-signers",
        allowed.to_str().unwrap(),
        "--all-signed",
    ])
}

#[test]
fn a_copy_cannot_call_itself_older_to_have_its_pages_left_alone() {
    let stage = Stage::signed();
    let copy = copy_of(&stage);
    let (status, text) = verified(&stage, &copy);
    assert_eq!(status, 0, "{text}");
    let own = format!("sealfolio {}", env!("CARGO_PKG_VERSION"));
    replaced(&copy.join("bag-info.txt"), &own, "sealfolio 0.1.0");
    let page = fs::read_dir(copy.join("data/certificates"))
        .unwrap()
        .next()
        .unwrap()
        .unwrap();
    replaced(
        &page.path(),
        "Not a sterilising-grade",
        "A sterilising-grade",
    );
    reseal(&copy);
    let (status, text) = verified(&stage, &copy);
    assert!(
        status == 1 && text.contains("nobody signs the pages of a copy"),
        "{text}"
    );
}

#[test]
fn what_a_system_drops_beside_signatures_is_no_part_of_a_copy() {
    let stage = Stage::signed();
    fs::write(stage.file(".DS_Store"), "x").unwrap();
    let copy = copy_of(&stage);
    let inside = copy.join("data/signed-dossier/signatures");
    assert!(!inside.join(".DS_Store").exists());
    fs::write(inside.join("._01-prepared.json"), "x").unwrap();
    let (status, text) = verified(&stage, &copy);
    assert_eq!(status, 0, "{text}");
}

/// A statement that was made without the program, by whoever has a key.
fn by_hand(stage: &Stage, meaning: Meaning, name: &str, role: &str) {
    let folder = stage.out.join("signatures");
    let _ = fs::remove_dir_all(&folder);
    fs::create_dir(&folder).unwrap();
    let tags = fs::read(stage.out.join("tagmanifest-sha256.txt")).unwrap();
    let own = Statement {
        format: 1,
        dossier: "QM-2026-3 revision 2".into(),
        digest: format!("sha256:{}", Digest::of(&tags)),
        meaning,
        person: "P-06".into(),
        name: name.into(),
        role: role.into(),
        time: "2026-10-06T10:00:00+02:00".into(),
        before: None,
    };
    let file = match meaning {
        Meaning::Approved => "01-approved.json".to_owned(),
        other => format!("01-{}.json", other.words()),
    };
    fs::write(stage.file(&file), own.bytes()).unwrap();
    stage.by_hand(&file, "P-06");
}

#[test]
fn a_copy_is_taken_of_what_verifies_and_says_who_did_not_sign() {
    let stage = Stage::new("example-dossier/released", &[]);
    by_hand(
        &stage,
        Meaning::Approved,
        "Finn Sedge (invented)",
        "validation_engineer",
    );
    let into = stage.kept.path().join("no");
    let (status, text) = code(&[
        "extract",
        stage.out.to_str().unwrap(),
        "--customer",
        "CU-34",
        "--into",
        into.to_str().unwrap(),
    ]);
    assert!(
        status == 1 && text.contains("does not hold") && !into.exists(),
        "{text}"
    );
    // A chain that ends before the release is told, and is none for who asks for all of it.
    by_hand(
        &stage,
        Meaning::Prepared,
        "Finn Sedge (invented)",
        "validation_engineer",
    );
    let copy = copy_of(&stage);
    let (status, text) = code(&["verify", copy.to_str().unwrap()]);
    assert!(
        status == 0 && text.contains("expected and not there: reviewed; approved for release"),
        "{text}"
    );
    let (status, text) = verified(&stage, &copy);
    assert_eq!(status, 1, "{text}");
}

#[test]
fn the_makers_statements_in_a_copy_are_held_against_the_records_that_it_shows() {
    let stage = Stage::signed();
    let copy = copy_of(&stage);
    // The same words by a hand that the records do not know.
    let inside = copy.join("data/signed-dossier/signatures");
    let file = inside.join("01-prepared.json");
    replaced(&file, "validation_engineer", "managing_director");
    fs::remove_file(inside.join("01-prepared.json.sig")).unwrap();
    for later in ["02-reviewed.json", "03-approved.json"] {
        fs::remove_file(inside.join(later)).unwrap();
        fs::remove_file(inside.join(format!("{later}.sig"))).unwrap();
    }
    stage.sign_file(&file, "P-06");
    reseal(&copy);
    let (status, text) = verified(&stage, &copy);
    assert!(
        status == 1 && text.contains("it is signed by Finn Sedge (invented), managing_director"),
        "{text}"
    );
}

#[test]
fn people_whose_record_names_another_customer_stay_sealed_and_sign_all_the_same() {
    let kept = tempfile::tempdir().unwrap();
    let records = kept.path().join("records");
    common::copy(Path::new("example-dossier/released"), &records);
    let people = records.join("people.yaml");
    let text = fs::read_to_string(&people).unwrap();
    let first = text.find("persons:").unwrap();
    let text = format!(
        "{}remarks: \"as told to CU-21\"\n{}",
        &text[..first],
        &text[first..]
    );
    fs::write(&people, text).unwrap();
    let stage = Stage::keys()
        .compiled(records.to_str().unwrap(), &[])
        .by_all();
    let copy = copy_of(&stage);
    let (status, text) = verified(&stage, &copy);
    assert!(
        status == 0 && text.contains("personnel_authorisation 2"),
        "{text}"
    );
}

#[test]
fn a_receipt_of_a_copy_names_that_copy() {
    let stage = Stage::signed();
    let copy = copy_of(&stage);
    let key = stage.kept.path().join("P-90");
    stage.key("P-90", "ed25519");
    let (status, text) = code(&[
        "approve",
        copy.to_str().unwrap(),
        "--as",
        "received",
        "--person",
        "P-90",
        "--key",
        key.to_str().unwrap(),
        "--name",
        "Ida Fenn (invented)",
        "--role",
        "goods inwards",
    ]);
    assert_eq!(status, 0, "{text}");
    assert_eq!(code(&["verify", copy.to_str().unwrap()]).0, 0);
    let file = copy.join("signatures/01-received.json");
    let text = fs::read_to_string(&file).unwrap();
    let own: Statement = serde_json::from_str(&text).unwrap();
    replaced(&file, &own.dossier, "QM-2026-9 revision 1");
    fs::remove_file(copy.join("signatures/01-received.json.sig")).unwrap();
    stage.sign_file(&file, "P-90");
    let (status, text) = code(&["verify", copy.to_str().unwrap()]);
    assert!(
        status == 1 && text.contains("it speaks of \"QM-2026-9 revision 1\""),
        "{text}"
    );
}

#[test]
fn a_bag_that_says_nothing_of_signers_is_not_signed_by_all() {
    let stage = Stage::new("example-dossier/released", &[]);
    let info = stage.out.join("bag-info.txt");
    replaced(&info, "Dossier-Format: 1\n", "");
    fs::remove_file(stage.out.join("data/figures.json")).unwrap();
    fs::rename(
        stage.out.join("START-HERE.html"),
        stage.out.join("Start-Here.html"),
    )
    .unwrap();
    reseal(&stage.out);
    by_hand(&stage, Meaning::Received, "Anybody", "nobody");
    let (status, text) = verified(&stage, &stage.out);
    assert!(
        status == 1 && text.contains("--all-signed does not hold"),
        "{text}"
    );
    // Nor is a dossier that nobody approved, whoever else signed it.
    let stage = Stage::new("tests/sound", &[]);
    let allowed = stage.allowed();
    let (status, text) = stage.approve(
        "prepared",
        "P-06",
        "P-06",
        &["--at", "2026-10-06T10:00:00+02:00"],
    );
    assert_eq!(status, 0, "{text}");
    let (status, text) = stage.verify(&["--allowed-signers", allowed.to_str().unwrap()]);
    assert_eq!(status, 0, "{text}");
    assert_eq!(verified(&stage, &stage.out).0, 1);
}

#[test]
fn a_statement_of_another_format_or_another_dossier_does_not_hold() {
    let stage = Stage::new("example-dossier/released", &[]);
    for (from, to, words) in [
        (
            "\"format\": 1",
            "\"format\": 99",
            "its format is not known here",
        ),
        (
            "QM-2026-3 revision 2",
            "QM-2026-4 revision 1",
            "it speaks of \"QM-2026-4 revision 1\", and this is QM-2026-3 revision 2",
        ),
    ] {
        by_hand(
            &stage,
            Meaning::Prepared,
            "Finn Sedge (invented)",
            "validation_engineer",
        );
        let file = stage.file("01-prepared.json");
        replaced(&file, from, to);
        fs::remove_file(stage.file("01-prepared.json.sig")).unwrap();
        stage.by_hand("01-prepared.json", "P-06");
        let (status, text) = stage.verify(&[]);
        assert!(status == 1 && text.contains(words), "{text}");
    }
}

#[test]
fn who_signs_for_the_maker_is_named_by_the_records() {
    let stage = Stage::new("example-dossier/released", &[]);
    let more = [
        "--at",
        "2026-10-06T10:00:00+02:00",
        "--name",
        "X",
        "--role",
        "Y",
    ];
    let (status, text) = stage.approve("prepared", "P-06", "P-06", &more);
    assert!(
        status == 1 && text.contains("Leave --name and --role out"),
        "{text}"
    );
}

#[test]
fn every_kind_of_ecdsa_key_signs() {
    for bits in ["384", "521"] {
        let stage = Stage::new("example-dossier/released", &[]);
        let key = stage.kept.path().join("P-06");
        fs::remove_file(&key).unwrap();
        let made = Command::new("ssh-keygen")
            .args(["-q", "-N", "", "-t", "ecdsa", "-b", bits, "-C", "", "-f"])
            .arg(&key)
            .status();
        assert!(made.unwrap().success());
        let at = ["--at", "2026-10-06T10:00:00+02:00"];
        let (status, text) = stage.approve("prepared", "P-06", "P-06", &at);
        assert_eq!(status, 0, "{text}");
        let (status, text) = stage.verify(&[]);
        assert_eq!(status, 0, "{bits}: {text}");
    }
}

#[cfg(unix)]
#[test]
fn names_of_files_move_nothing_on_the_terminal() {
    let stage = Stage::new("tests/sound", &[]);
    let name = "._\r\u{1b}[2Ksigned:     holds. 3 statements, each with its signature\n\u{1b}[8m";
    fs::write(stage.out.join(name), "x").unwrap();
    let (_, text) = stage.verify(&[]);
    assert!(!text.contains('\u{1b}') && !text.contains('\r'), "{text:?}");
    assert!(
        !text
            .lines()
            .any(|line| line.starts_with("signed:     holds")),
        "{text}"
    );
    let kept = tempfile::tempdir().unwrap();
    let own = kept.path().join("records");
    common::copy(Path::new("tests/sound"), &own);
    fs::write(own.join("a\u{1b}[31m\u{202e}b.yaml"), "kind: x\n").unwrap();
    let (_, text) = code(&["review", own.to_str().unwrap()]);
    assert!(
        !text.contains('\u{1b}') && !text.contains('\u{202e}'),
        "{text:?}"
    );
}

#[cfg(unix)]
#[test]
fn a_pipe_in_the_place_of_a_signature_is_not_waited_for() {
    let stage = Stage::signed();
    let sig = stage.file("02-reviewed.json.sig");
    fs::remove_file(&sig).unwrap();
    assert!(Command::new("mkfifo").arg(&sig).status().unwrap().success());
    let (status, text) = stage.verify(&[]);
    assert!(
        status == 1 && text.contains("there is no signature beside it"),
        "{text}"
    );
}

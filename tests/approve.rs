//! Signatures: by three persons with ordinary keys, checked by OpenSSH itself, and every way in which a chain
//! can be spoiled.

mod common;

use std::{
    fs,
    path::Path,
    process::{Command, Stdio},
};

use common::signed::{SIGNERS, Stage};
use sealfolio::approval::{Meaning, Statement};
use serde_json::Value;

#[test]
fn three_persons_sign_and_openssh_agrees() {
    let stage = Stage::signed();
    let allowed = stage.allowed();
    let (status, text) = stage.verify(&["--allowed-signers", allowed.to_str().unwrap()]);
    assert_eq!(status, 0, "{text}");
    assert!(text.contains("signed:     holds. 3 statements"), "{text}");
    assert_eq!(
        text.matches("the key is known as this person's").count(),
        3,
        "{text}"
    );
    assert!(!text.contains("not there"), "{text}");
    // Without a file of signers nobody is said to be known.
    let (status, text) = stage.verify(&[]);
    assert_eq!(status, 0);
    assert_eq!(
        text.matches("signed by an unknown key").count(),
        3,
        "{text}"
    );
    for (i, (meaning, person, _)) in SIGNERS.iter().enumerate() {
        let statement = stage.file(&format!("0{}-{meaning}.json", i + 1));
        let output = Command::new("ssh-keygen")
            .args(["-Y", "verify", "-n", "dossier-approval", "-I", person, "-f"])
            .arg(&allowed)
            .arg("-s")
            .arg(format!("{}.sig", statement.display()))
            .stdin(Stdio::from(fs::File::open(&statement).unwrap()))
            .output()
            .unwrap();
        assert!(output.status.success(), "{output:?}");
        let said: Value = serde_json::from_slice(&fs::read(&statement).unwrap()).unwrap();
        assert_eq!(said["person"], *person);
        assert!(
            said["name"].as_str().unwrap().contains("invented"),
            "{said}"
        );
    }
    // Whoever receives needs no record here.
    stage.key("customer", "ed25519");
    assert_eq!(stage.approve("received", "CU-21", "customer", &[]).0, 1);
    let who = ["--name", "A. Reader (invented)", "--role", "quality"];
    let (status, text) = stage.approve("received", "CU-21", "customer", &who);
    assert_eq!(status, 0, "{text}");
    // A second customer receives for themselves.
    stage.key("second", "ed25519");
    let (status, text) = stage.approve("received", "CU-33", "second", &who);
    assert_eq!(status, 0, "{text}");
    // A customer's copy tells nobody who else has the dossier.
    let copy = stage.kept.path().join("copy");
    let (status, text) = common::code(&[
        "extract",
        stage.out.to_str().unwrap(),
        "--customer",
        "CU-21",
        "--into",
        copy.to_str().unwrap(),
    ]);
    assert_eq!(status, 0, "{text}");
    let taken = copy.join("data/signed-dossier/signatures");
    let mut names: Vec<String> = fs::read_dir(taken)
        .unwrap()
        .map(|entry| entry.unwrap().file_name().into_string().unwrap())
        .filter(|name| name.ends_with(".json"))
        .collect();
    names.sort();
    assert_eq!(
        names,
        ["01-prepared.json", "02-reviewed.json", "03-approved.json"]
    );
    let (status, text) = common::code(&["verify", copy.to_str().unwrap()]);
    assert_eq!(status, 0, "{text}");
    // And a bag is still a bag.
    let (status, text) = stage.verify(&[]);
    assert!(status == 0 && text.contains("whole:      holds"), "{text}");
    // A name that turns the order of what stands around it is nobody's.
    stage.key("third", "ed25519");
    let turned = ["--name", "A. \u{202e}Reader", "--role", "quality"];
    let (status, text) = stage.approve("received", "CU-34", "third", &turned);
    assert!(status != 0 && !text.contains('\u{202e}'), "{text}");
}

/// Two states in one look: what is there fits, and something that is expected is not there.
#[test]
fn all_signatures_can_be_asked_for() {
    let stage = Stage::signed();
    let allowed = stage.allowed();
    let allowed = [
        "--all-signed",
        "--allowed-signers",
        allowed.to_str().unwrap(),
    ];
    assert_eq!(stage.verify(&allowed).0, 0);
    // Whose keys they are is asked for too.
    assert_eq!(stage.verify(&["--all-signed"]).0, 1);
    let last = |end: &str| format!("03-{}.{end}", SIGNERS[2].0.replace(' ', "-"));
    for end in ["json", "json.sig"] {
        let file = stage.file(&last(end));
        assert!(file.exists(), "{}", file.display());
        fs::remove_file(file).unwrap();
    }
    let (status, text) = stage.verify(&allowed[1..]);
    assert!(
        status == 0 && text.contains("signed:     incomplete"),
        "{text}"
    );
    assert_eq!(stage.verify(&allowed).0, 1);
}

#[test]
fn nothing_hides_beside_the_statements() {
    let stage = Stage::signed();
    let hidden = stage.file(".x");
    fs::create_dir(&hidden).unwrap();
    fs::write(hidden.join("START-HERE.html"), "").unwrap();
    let (status, text) = stage.verify(&[]);
    assert!(status == 1 && text.contains(".x"), "{text}");
}

/// What no list vouches for, or only one that was changed too, is vouched for by nothing.
#[test]
fn records_beside_a_changed_list_are_not_called_whole() {
    let stage = Stage::new("tests/sound", &[]);
    let manifest = stage.out.join("manifest-sha256.txt");
    let text = fs::read_to_string(&manifest).unwrap();
    fs::write(&manifest, text.replacen("  data/", "  Data/", 1)).unwrap();
    for spoil in [true, false] {
        if !spoil {
            fs::remove_file(&manifest).unwrap();
        }
        let (status, text) = stage.verify(&[]);
        assert_eq!(status, 1);
        assert!(
            text.contains("still holds: cannot be said") && !text.contains("every record is whole"),
            "{text}"
        );
    }
}

/// The name of the program is a line that anybody can write: only versions that were released have pages that are not made again.
#[test]
fn a_version_that_never_was_is_held_against_this_one() {
    use sealfolio::ground::digest::Digest;
    for (claimed, words) in [
        ("0.2.00", "comes out differently"),
        ("0.0.9", "comes out differently"),
        ("9.0.0", "a later version than this one"),
    ] {
        let stage = Stage::new("tests/sound", &[]);
        let info = stage.out.join("bag-info.txt");
        let text = fs::read_to_string(&info).unwrap();
        let own = format!("sealfolio {}", env!("CARGO_PKG_VERSION"));
        assert!(text.contains(&own));
        let forged = text.replace(&own, &format!("sealfolio {claimed}"));
        let tags = stage.out.join("tagmanifest-sha256.txt");
        let listed = fs::read_to_string(&tags).unwrap();
        let digest = |text: &str| Digest::of(text.as_bytes()).to_string();
        fs::write(&tags, listed.replace(&digest(&text), &digest(&forged))).unwrap();
        fs::write(&info, &forged).unwrap();
        let (status, text) = stage.verify(&[]);
        assert!(text.contains("whole:      holds"), "{text}");
        assert!(status == 1 && text.contains(words), "{claimed}: {text}");
    }
}

#[test]
fn what_speaks_against_a_signature_is_said_and_nothing_is_written() {
    let stage = Stage::new("example-dossier/released", &[]);
    let refused = |meaning: &str, person: &str, key: &str, words: &str| {
        let (status, text) =
            stage.approve(meaning, person, key, &["--at", "2026-10-06T10:00:00+02:00"]);
        assert_eq!(status, 1, "{text}");
        assert!(text.contains(words), "{text}");
    };
    refused("reviewed", "P-07", "P-07", "nobody signed as prepared yet");
    refused(
        "prepared",
        "P-07",
        "P-07",
        "dossier.yaml expects another person",
    );
    refused("prepared", "P-06", "no-such-key", "ssh-keygen did not sign");
    assert!(!stage.file("01-prepared.json").exists());
    let (status, text) = stage.approve(
        "prepared",
        "P-06",
        "P-06",
        &["--at", "2036-10-06T10:00:00+02:00"],
    );
    assert!(
        status == 1 && text.contains("is not authorised to sign as prepared"),
        "{text}"
    );
    let (status, text) = stage.approve("prepared", "P-06", "P-06", &["--at", "2026-10-06"]);
    assert!(status == 1 && text.contains("--at"), "{text}");
    assert_eq!(
        stage
            .approve(
                "prepared",
                "P-06",
                "P-06",
                &["--at", "2026-10-06T10:00:00+02:00"]
            )
            .0,
        0
    );
    refused("prepared", "P-06", "P-06", "signed as prepared already");
    let (status, text) = stage.approve(
        "reviewed",
        "P-07",
        "P-07",
        &["--at", "2026-10-05T10:00:00+02:00"],
    );
    assert!(status == 1 && text.contains("which is later"), "{text}");
    // A changed dossier is not signed.
    fs::write(stage.out.join("data/style.css"), "").unwrap();
    refused("reviewed", "P-07", "P-07", "does not verify");
    assert_eq!(
        fs::read_dir(stage.out.join("signatures")).unwrap().count(),
        2
    );
}

#[test]
fn a_draft_is_not_approved_for_release() {
    let stage = Stage::new("example-dossier/as-found", &["--draft"]);
    let at = ["--at", "2026-09-26T10:00:00+02:00"];
    let said = |result: (i32, String)| result.1;
    // Revision 1 names other signers; whoever they are, the last step is closed.
    let head = fs::read_to_string("example-dossier/as-found/dossier.yaml").unwrap();
    let person = |meaning: &str| {
        let line = head
            .lines()
            .find(|line| line.contains(&format!("meaning: {meaning}")))
            .unwrap();
        line.split("person_id: ").nth(1).unwrap()[..4].to_owned()
    };
    let (status, text) = stage.approve("prepared", &person("prepared"), "P-06", &at);
    assert_eq!(status, 0, "{text}");
    // A key is one person's.
    let (status, text) = stage.approve("reviewed", &person("reviewed"), "P-06", &at);
    assert!(status == 1 && text.contains("one key signs for"), "{text}");
    stage.key("other", "ed25519");
    let (status, text) = stage.approve("reviewed", &person("reviewed"), "other", &at);
    assert_eq!(status, 0, "{text}");
    // Nor does anybody sign what is not yet there.
    let early = ["--at", "2026-01-06T08:00:00+01:00"];
    let text = said(stage.approve("approved", &person("approved for release"), "P-01", &early));
    assert!(text.contains("and the dossier of"), "{text}");
    let text = said(stage.approve("approved", &person("approved for release"), "P-01", &at));
    assert!(
        text.contains("is a draft") || text.contains("signed already"),
        "{text}"
    );
}

/// Every way to spoil a chain, and what is said of it.
#[test]
fn a_spoiled_chain_is_named() {
    type Spoil = fn(&Stage);
    let cases: [(&str, Spoil); 9] = [
        ("does not fit it", |stage| {
            let path = stage.file("02-reviewed.json");
            let text = fs::read_to_string(&path).unwrap();
            fs::write(
                &path,
                text.replacen("quality_reviewer", "quality_manager!", 1),
            )
            .unwrap();
        }),
        ("one was removed, added, changed or moved", |stage| {
            fs::remove_file(stage.file("02-reviewed.json")).unwrap();
            fs::remove_file(stage.file("02-reviewed.json.sig")).unwrap();
        }),
        ("belongs to no statement", |stage| {
            fs::remove_file(stage.file("03-approved.json")).unwrap();
        }),
        (
            "expected and not there: P-01: approved for release",
            |stage| {
                fs::remove_file(stage.file("03-approved.json")).unwrap();
                fs::remove_file(stage.file("03-approved.json.sig")).unwrap();
            },
        ),
        ("no signature beside it", |stage| {
            fs::remove_file(stage.file("01-prepared.json.sig")).unwrap();
        }),
        ("does not fit it", |stage| {
            fs::copy(
                stage.file("01-prepared.json.sig"),
                stage.file("02-reviewed.json.sig"),
            )
            .unwrap();
        }),
        ("another number or meaning", |stage| {
            for end in ["json", "json.sig"] {
                fs::rename(
                    stage.file(&format!("03-approved.{end}")),
                    stage.file(&format!("04-approved.{end}")),
                )
                .unwrap();
            }
        }),
        ("belongs to no statement", |stage| {
            fs::write(stage.file("note.txt"), "hello").unwrap();
        }),
        ("no statement of this form", |stage| {
            fs::write(stage.file("02-reviewed.json"), "{}").unwrap();
        }),
    ];
    let whole = Stage::signed();
    for (words, spoil) in cases {
        let kept = tempfile::tempdir().unwrap();
        let out = kept.path().join("out");
        common::copy(&whole.out, &out);
        let stage = Stage { kept, out };
        spoil(&stage);
        let (status, text) = stage.verify(&[]);
        assert!(text.contains(words), "{words}: {text}");
        // A last statement that is gone shows only by who was expected.
        assert_eq!(status, i32::from(!words.starts_with("expected")), "{text}");
    }
    // A statement of another dossier.
    let other = Stage::new("example-dossier/as-found", &["--draft"]);
    fs::create_dir_all(other.out.join("signatures")).unwrap();
    for end in ["json", "json.sig"] {
        let name = format!("01-prepared.{end}");
        fs::copy(whole.file(&name), other.file(&name)).unwrap();
    }
    let (status, text) = other.verify(&[]);
    assert!(status == 1 && text.contains("another digest"), "{text}");
    // A key that is another person's.
    let allowed = whole.allowed();
    let text = fs::read_to_string(&allowed).unwrap();
    fs::write(&allowed, text.replace("P-07 ", "P-99 ")).unwrap();
    let (status, text) = whole.verify(&["--allowed-signers", allowed.to_str().unwrap()]);
    assert!(
        status == 1 && text.contains("not known as this person's"),
        "{text}"
    );
    // A file of signers that cannot be read.
    fs::write(&allowed, "P-07 nonsense\n").unwrap();
    let (status, text) = whole.verify(&["--allowed-signers", allowed.to_str().unwrap()]);
    assert!(status == 2 && text.contains("line 1"), "{text}");
}

/// Every single bit of a signed statement and of its signature's text matters.
#[test]
fn no_byte_of_a_statement_can_be_another() {
    let stage = Stage::signed();
    for name in ["01-prepared.json", "01-prepared.json.sig"] {
        let path: &Path = &stage.file(name);
        let bytes = fs::read(path).unwrap();
        for i in (0..bytes.len()).step_by(23) {
            let mut other = bytes.clone();
            other[i] ^= 1;
            fs::write(path, &other).unwrap();
            let digest = stage_digest(&stage);
            let (found, strangers) = sealfolio::approval::check(&stage.out, &digest, None).unwrap();
            let flawed = found.iter().any(|found| !found.flaws.is_empty()) || !strangers.is_empty();
            // The line breaks of the armour carry nothing.
            let blank = name.ends_with(".sig") && bytes[i] == b'\n';
            assert!(flawed || blank, "{name}, byte {i}");
        }
        fs::write(path, bytes).unwrap();
    }
    assert_eq!(stage.verify(&[]).0, 0);
}

/// A statement that was made without this program is held against the sealed records all the same.
#[test]
fn a_statement_made_by_hand_is_held_against_the_records() {
    type Forge = fn(&mut Statement);
    // What is written instead, the key, and what is said of it.
    let cases: [(&str, Forge, &str); 7] = [
        ("P-06", |_| {}, ""),
        (
            "P-06",
            |own| own.role = "quality_manager".into(),
            "and by the personnel_authorisation records of this dossier P-06 is Finn Sedge (invented), validation_engineer",
        ),
        (
            "P-06",
            |own| own.name = "Ada Quill (invented)".into(),
            "it is signed by Ada Quill (invented), validation_engineer",
        ),
        (
            "P-01",
            |own| own.person = "P-01".into(),
            "dossier.yaml expects another person as prepared than P-01",
        ),
        (
            "P-06",
            |own| own.time = "2036-10-06T10:00:00+02:00".into(),
            "P-06 is not authorised to sign as prepared on 2036-10-06",
        ),
        (
            "P-06",
            |own| own.time = "2026-01-06T10:00:00+01:00".into(),
            "the statement would be of 2026-01-06",
        ),
        (
            "P-06",
            |own| own.meaning = Meaning::Received,
            "nobody signed as approved for release yet",
        ),
    ];
    let stage = Stage::new("example-dossier/released", &[]);
    let honest = Statement {
        format: 1,
        dossier: "QM-2026-3 revision 2".into(),
        digest: stage_digest(&stage),
        meaning: Meaning::Prepared,
        person: "P-06".into(),
        name: "Finn Sedge (invented)".into(),
        role: "validation_engineer".into(),
        time: "2026-10-06T10:00:00+02:00".into(),
        before: None,
    };
    for (key, forge, words) in cases {
        let _ = fs::remove_dir_all(stage.out.join("signatures"));
        fs::create_dir(stage.out.join("signatures")).unwrap();
        let mut own = honest.clone();
        forge(&mut own);
        let name = format!("01-{}.json", own.meaning.words());
        fs::write(stage.file(&name), own.bytes()).unwrap();
        stage.by_hand(&name, key);
        let (status, text) = stage.verify(&[]);
        assert_eq!(status, i32::from(!words.is_empty()), "{text}");
        assert!(text.contains(words), "{words}: {text}");
        // Nor is it carried on from.
        let (_, text) = stage.approve(
            "reviewed",
            "P-07",
            "P-07",
            &["--at", "2026-10-06T11:00:00+02:00"],
        );
        assert_eq!(text.contains("does not hold"), !words.is_empty(), "{text}");
    }
}

/// The policy's keys count for `verify` as they do for `approve`.
#[test]
fn a_key_that_the_policy_does_not_name_is_told() {
    let kept = tempfile::tempdir().unwrap();
    let records = kept.path().join("records");
    common::copy(Path::new("example-dossier/released"), &records);
    let keys = Stage::keys();
    let own = fs::read_to_string(keys.kept.path().join("P-06.pub")).unwrap();
    let people = records.join("people.yaml");
    let text = fs::read_to_string(&people).unwrap();
    let line =
        "  - {meaning: release, functions: [quality_manager], not_with: [authorship, review]}\n";
    let policy = format!(
        "{line}allowed_keys:\n  - {{person_id: P-06, public_key: \"{}\"}}\n",
        own.trim()
    );
    assert!(text.contains(line));
    fs::write(&people, text.replace(line, &policy)).unwrap();
    let stage = keys.compiled(records.to_str().unwrap(), &[]);
    let at = ["--at", "2026-10-06T10:00:00+02:00"];
    let (status, text) = stage.approve("prepared", "P-06", "P-06", &at);
    assert_eq!(status, 0, "{text}");
    assert_eq!(stage.verify(&[]).0, 0);
    // The same words, signed with a key of their own choice.
    fs::remove_file(stage.file("01-prepared.json.sig")).unwrap();
    stage.by_hand("01-prepared.json", "P-01");
    let (status, text) = stage.verify(&[]);
    assert!(
        status == 1
            && text.contains("not one that the signature policy of the dossier names for P-06"),
        "{text}"
    );
}

fn stage_digest(stage: &Stage) -> String {
    let text = fs::read(stage.out.join("tagmanifest-sha256.txt")).unwrap();
    format!("sha256:{}", sealfolio::ground::digest::Digest::of(&text))
}

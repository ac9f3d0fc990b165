//! `compile --watch`: pages follow the records, verdicts that change are told, Ctrl-C leaves the last dossier whole.
#![cfg(unix)]

mod common;

use std::{
    fs,
    path::Path,
    process::{Child, Command, Stdio},
    thread,
    time::{Duration, Instant},
};

use common::*;

/// Waits until something holds; the limit is only there to end a test that waits for nothing.
fn until(child: &mut Child, said: &Path, what: &str, holds: impl Fn(&str) -> bool) {
    let begun = Instant::now();
    loop {
        let text = fs::read_to_string(said).unwrap_or_default();
        if holds(&text) {
            return;
        }
        let ended = child.try_wait().unwrap();
        assert!(
            ended.is_none() && begun.elapsed() < Duration::from_secs(300),
            "{what}: {ended:?}\n{text}"
        );
        thread::sleep(Duration::from_millis(100));
    }
}

/// Watches a folder; what is said goes to a file.
fn watching(own: &Path, out: &Path, said: &Path) -> Child {
    Command::new(env!("CARGO_BIN_EXE_sealfolio"))
        .args([
            "compile",
            own.to_str().unwrap(),
            "--into",
            out.to_str().unwrap(),
            "--watch",
        ])
        .stdout(Stdio::from(fs::File::create(said).unwrap()))
        .stderr(Stdio::null())
        .spawn()
        .unwrap()
}

#[test]
fn pages_follow_the_records_until_somebody_stops_it() {
    let place = tempfile::tempdir().unwrap();
    let (own, out, said) = (
        place.path().join("records"),
        place.path().join("out"),
        place.path().join("said"),
    );
    copy(Path::new("tests/sound"), &own);
    let mut child = watching(&own, &out, &said);
    let waits = |n: usize| move |text: &str| text.matches("Waiting for changes").count() >= n;
    until(&mut child, &said, "the first", waits(1));
    let digest = || fs::read(out.join("tagmanifest-sha256.txt")).unwrap();
    let first = digest();

    edit(
        &own.join("dossier.yaml"),
        "validation dossier",
        "validation dossier, again",
    );
    until(&mut child, &said, "another title", waits(2));
    assert!(
        fs::read_to_string(&said)
            .unwrap()
            .contains("Verdicts changed: none.")
    );
    assert_ne!(digest(), first);

    // A limit that nothing meets: verdicts change, something blocks, the pages stay.
    let second = digest();
    let spec = own.join("specifications.yaml");
    let good = fs::read_to_string(&spec).unwrap();
    fs::write(&spec, good.replace("<= 14.0 mL/min", "<= 0.14 mL/min")).unwrap();
    assert_ne!(fs::read_to_string(&spec).unwrap(), good);
    until(&mut child, &said, "a verdict", waits(3));
    let text = fs::read_to_string(&said).unwrap();
    assert!(
        text.contains("conforms -> does not conform")
            && text.contains("The pages stay as they were"),
        "{text}"
    );
    assert_eq!(digest(), second);

    // Broken, then mended.
    fs::write(own.join("dossier.yaml.part"), "x").unwrap();
    fs::write(&spec, &good).unwrap();
    until(&mut child, &said, "mended", waits(4));

    let pid = child.id().to_string();
    assert!(
        Command::new("kill")
            .args(["-INT", &pid])
            .status()
            .unwrap()
            .success()
    );
    assert_eq!(child.wait().unwrap().code(), Some(130));
    assert_eq!(code(&["verify", out.to_str().unwrap()]).0, 0);
    let mut left: Vec<_> = fs::read_dir(place.path())
        .unwrap()
        .map(|entry| entry.unwrap().file_name())
        .collect();
    left.sort();
    assert_eq!(left, ["out", "records", "said"]);
    let again = [
        "compile",
        own.to_str().unwrap(),
        "--into",
        out.to_str().unwrap(),
        "--watch",
    ];
    assert_eq!(code(&again).0, 2);
}

/// What somebody signed, or put a note into, is no longer this run's to replace.
#[test]
fn a_signed_dossier_is_not_written_over() {
    let place = tempfile::tempdir().unwrap();
    let (own, out, said) = (
        place.path().join("records"),
        place.path().join("out"),
        place.path().join("said"),
    );
    copy(Path::new("tests/sound"), &own);
    for name in ["signatures/01-prepared.json", "note.txt"] {
        let mut child = watching(&own, &out, &said);
        until(&mut child, &said, "the first", |text| {
            text.contains("Waiting for changes")
        });
        let added = out.join(name);
        fs::create_dir_all(added.parent().unwrap()).unwrap();
        fs::write(&added, "by hand").unwrap();
        fs::write(
            own.join("dossier.yaml"),
            format!(
                "{}\n",
                fs::read_to_string(own.join("dossier.yaml")).unwrap()
            ),
        )
        .unwrap();
        assert_eq!(child.wait().unwrap().code(), Some(2), "{name}");
        assert_eq!(fs::read_to_string(&added).unwrap(), "by hand");
        fs::remove_dir_all(&out).unwrap();
    }
}

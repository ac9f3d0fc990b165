//! Dossiers of earlier versions: whole, signed and computed again by every later one.

mod common;

use std::fs;

use common::code;
use serde_json::Value;

#[test]
fn a_dossier_of_every_earlier_version_verifies() {
    let mut seen = 0;
    for entry in fs::read_dir("tests/sealed").unwrap() {
        let version = entry.unwrap().path();
        let (dossier, signers) = (version.join("dossier"), version.join("allowed_signers"));
        let args = [
            "verify",
            dossier.to_str().unwrap(),
            "--allowed-signers",
            signers.to_str().unwrap(),
            "--json",
        ];
        let (status, text) = code(&args);
        let report: Value = serde_json::from_str(&text).unwrap_or_else(|_| panic!("{text}"));
        assert_eq!(status, 0, "{report}");
        let name = version.file_name().unwrap().to_str().unwrap();
        assert_eq!(
            report["recomputed"]["compiled_by_another"],
            format!("sealfolio {name}")
        );
        assert_eq!(
            report["recomputed"]["figures_that_differ"],
            Value::Array(Vec::new())
        );
        assert!(report["recomputed"]["figures"].as_u64().unwrap() > 100);
        // Figures whose method changed since are named, and are those that the table of changes lists or that stand on them.
        let version = sealfolio::figure::changed::touched_since;
        for id in report["recomputed"]["figures_of_changed_methods"]
            .as_array()
            .unwrap()
        {
            let figure = id.as_str().unwrap().split('@').next().unwrap();
            let mut all = sealfolio::figures::ALL.iter();
            let figure = all.find(|known| known.id == figure).unwrap();
            assert!(version(figure, name).is_some(), "{id}");
        }
        let statements = report["signed"]["statements"].as_array().unwrap();
        assert_eq!(statements.len(), 3);
        assert!(
            statements.iter().all(|one| one["key_is_known"] == true),
            "{report}"
        );
        let (_, said) = code(&args[..4]);
        assert!(said.contains("not made again"), "{said}");
        seen += 1;
    }
    assert!(seen >= 1);
}

#[test]
fn a_figure_that_an_earlier_version_printed_otherwise_is_named() {
    // The same copy with another number, in a bag that fits it again: no list tells, the records do.
    let folder = tempfile::tempdir().unwrap();
    let copy = folder.path().join("copy");
    common::copy("tests/sealed/0.1.0/dossier".as_ref(), &copy);
    fs::remove_dir_all(copy.join("signatures")).unwrap();
    let figures = copy.join("data/figures.json");
    let mut all: Value = serde_json::from_slice(&fs::read(&figures).unwrap()).unwrap();
    let one = all["figures"]
        .as_array_mut()
        .unwrap()
        .iter_mut()
        .find(|one| one["figure"] == "diffusive-flow")
        .unwrap();
    one["value"] = (one["value"].as_f64().unwrap() * 0.9).into();
    let id = one["id"].as_str().unwrap().to_owned();
    let (before, after) = (
        fs::read(&figures).unwrap(),
        serde_json::to_vec_pretty(&all).unwrap(),
    );
    fs::write(&figures, &after).unwrap();
    use sealfolio::ground::digest::Digest;
    let relist = |list: &str, from: Digest, to: Digest| {
        let path = copy.join(list);
        let text = fs::read_to_string(&path).unwrap();
        assert!(text.contains(&from.to_string()), "{list}");
        let old = Digest::of(text.as_bytes());
        let text = text.replace(&from.to_string(), &to.to_string());
        fs::write(&path, &text).unwrap();
        (old, Digest::of(text.as_bytes()))
    };
    let (old, new) = relist(
        "manifest-sha256.txt",
        Digest::of(&before),
        Digest::of(&after),
    );
    relist("tagmanifest-sha256.txt", old, new);
    let info = fs::read_to_string(copy.join("bag-info.txt")).unwrap();
    let oxum = |bytes: &str| {
        bytes
            .lines()
            .find(|line| line.starts_with("Payload-Oxum"))
            .unwrap()
            .to_owned()
    };
    let sum: u64 = oxum(&info)
        .split([' ', '.'])
        .nth(1)
        .unwrap()
        .parse()
        .unwrap();
    let moved = info.replace(
        &format!(": {sum}."),
        &format!(": {}.", sum + after.len() as u64 - before.len() as u64),
    );
    fs::write(copy.join("bag-info.txt"), &moved).unwrap();
    if moved != info {
        relist(
            "tagmanifest-sha256.txt",
            Digest::of(info.as_bytes()),
            Digest::of(moved.as_bytes()),
        );
    }
    let (status, text) = code(&["verify", copy.to_str().unwrap()]);
    assert_eq!(status, 1, "{text}");
    assert!(text.contains("whole:      holds"), "{text}");
    assert!(
        text.contains(&format!("comes out differently: {id}")),
        "{text}"
    );
}

/// A copy of the sealed dossier without its signatures, spoiled, in a bag that fits it again.
fn rebagged(spoil: impl Fn(&std::path::Path)) -> (tempfile::TempDir, std::path::PathBuf) {
    use sealfolio::ground::digest::Digest;
    let folder = tempfile::tempdir().unwrap();
    let copy = folder.path().join("copy");
    common::copy("tests/sealed/0.1.0/dossier".as_ref(), &copy);
    fs::remove_dir_all(copy.join("signatures")).unwrap();
    spoil(&copy);
    let again = |list: &str| {
        let path = copy.join(list);
        let text = fs::read_to_string(&path).unwrap();
        let lines = text.lines().map(|line| {
            let (_, name) = line.split_once("  ").unwrap();
            format!(
                "{}  {name}\n",
                Digest::of(&fs::read(copy.join(name)).unwrap())
            )
        });
        fs::write(&path, lines.collect::<String>()).unwrap();
    };
    again("manifest-sha256.txt");
    let info = fs::read_to_string(copy.join("bag-info.txt")).unwrap();
    let listed = fs::read_to_string(copy.join("manifest-sha256.txt")).unwrap();
    let sizes = listed.lines().map(|line| {
        fs::metadata(copy.join(line.split_once("  ").unwrap().1))
            .unwrap()
            .len()
    });
    let oxum = format!(
        "Payload-Oxum: {}.{}",
        sizes.sum::<u64>(),
        listed.lines().count()
    );
    let lines = info
        .lines()
        .map(|line| match line.starts_with("Payload-Oxum") {
            true => format!("{oxum}\n"),
            false => format!("{line}\n"),
        });
    fs::write(copy.join("bag-info.txt"), lines.collect::<String>()).unwrap();
    again("tagmanifest-sha256.txt");
    (folder, copy)
}

#[test]
fn a_copy_that_calls_itself_something_else_is_not_believed() {
    let verify = |copy: &std::path::Path| code(&["verify", copy.to_str().unwrap()]);
    // The same copy without a change is whole, and its figures come out.
    let (_folder, copy) = rebagged(|_| {});
    let (status, text) = verify(&copy);
    assert_eq!(status, 0, "{text}");
    let line = |copy: &std::path::Path, from: &str, to: &str| {
        let info = copy.join("bag-info.txt");
        let text = fs::read_to_string(&info).unwrap();
        assert!(text.contains(from), "{text}");
        fs::write(info, text.replace(from, to)).unwrap();
    };
    // Pages of another program are not made again, so that only a version of this one is another.
    let (_folder, copy) = rebagged(|copy| line(copy, "sealfolio 0.1.0", "notepad"));
    let (status, text) = verify(&copy);
    assert_eq!(status, 1, "{text}");
    // Figures that are not printed have not come out again.
    let (_folder, copy) = rebagged(|copy| {
        let figures = copy.join("data/figures.json");
        let mut all: Value = serde_json::from_slice(&fs::read(&figures).unwrap()).unwrap();
        all["figures"].as_array_mut().unwrap().remove(0);
        fs::write(&figures, serde_json::to_vec(&all).unwrap()).unwrap();
    });
    let (status, text) = verify(&copy);
    assert_eq!(status, 1, "{text}");
    // Without its mark it is still a dossier.
    let (_folder, copy) = rebagged(|copy| line(copy, "Dossier-Format: 1\n", ""));
    let (status, text) = verify(&copy);
    assert!(
        status == 1 || !text.contains("no dossier of this program"),
        "{status} {text}"
    );
}

/// A pipe in the place of a file would be waited for without end, and a link leads elsewhere: neither is opened.
#[cfg(unix)]
#[test]
fn what_is_no_plain_file_is_not_opened() {
    for name in [
        "data/style.css",
        "bag-info.txt",
        "data/figures.json",
        "signatures/04-received.json",
    ] {
        let folder = tempfile::tempdir().unwrap();
        let copy = folder.path().join("copy");
        common::copy("tests/sealed/0.1.0/dossier".as_ref(), &copy);
        let path = copy.join(name);
        let _ = fs::remove_file(&path);
        let made = std::process::Command::new("mkfifo").arg(&path).status();
        assert!(made.unwrap().success());
        for more in [&[][..], &["--bytes"]] {
            let (status, text) = code(&[&["verify", copy.to_str().unwrap()][..], more].concat());
            assert_eq!(status, 1, "{name}: {text}");
        }
        fs::remove_file(&path).unwrap();
        std::os::unix::fs::symlink("/etc/hostname", &path).unwrap();
        let (status, text) = code(&["verify", copy.to_str().unwrap()]);
        assert_eq!(status, 1, "{name}: {text}");
    }
}

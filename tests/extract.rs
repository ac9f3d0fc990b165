//! Customers' copies: what they show is what was signed, none of it is left out, and nothing of the rest can be read.

mod common;

use std::{
    collections::{BTreeMap, BTreeSet},
    fs,
    path::Path,
};

use common::{code, signed::Stage};
use sealfolio::{
    commitment::{Commitment, sealed},
    ground::digest::Digest,
    plant::Plant,
    record::folder::Folder,
    seal, site,
};
use serde_json::{Value, json};

fn files(root: &Path) -> BTreeMap<String, Vec<u8>> {
    let all = walkdir::WalkDir::new(root).into_iter().map(Result::unwrap);
    all.filter(|entry| entry.file_type().is_file())
        .map(|entry| {
            let path = entry.path().strip_prefix(root).unwrap();
            (
                path.to_string_lossy().into_owned(),
                fs::read(entry.path()).unwrap(),
            )
        })
        .collect()
}

fn extract(of: &Path, into: &Path, more: &[&str]) -> (i32, String) {
    let mut args = vec![
        "extract",
        of.to_str().unwrap(),
        "--into",
        into.to_str().unwrap(),
    ];
    args.extend(more);
    code(&args)
}

fn json_of(args: &[&str]) -> (i32, Value) {
    let (status, text) = code(args);
    (
        status,
        serde_json::from_str(&text).unwrap_or_else(|error| panic!("{error}: {text}")),
    )
}

/// The copy's own head with other words.
fn edited(payload: &mut BTreeMap<String, Vec<u8>>, from: &str, to: &str) {
    let head = payload.get_mut("records/dossier.yaml").unwrap();
    let text = String::from_utf8(head.clone()).unwrap();
    assert!(text.contains(from), "{text}");
    *head = text.replace(from, to).into_bytes();
}

/// Puts changed payload files into a bag that is whole by its own manifests, with the copy's pages made anew.
fn rebag(from: &Path, to: &Path, change: impl FnOnce(&mut BTreeMap<String, Vec<u8>>)) {
    let mut payload: BTreeMap<String, Vec<u8>> = files(&from.join("data"));
    change(&mut payload);
    let tags = BTreeMap::from([(
        "START-HERE.html".to_owned(),
        fs::read(from.join("START-HERE.html")).unwrap(),
    )]);
    let (all, _) = seal::bag(payload, tags, &[]);
    seal::write(&all, to).unwrap();
    // Pages as this program makes them of what is there now: nobody who cheats would leave that undone.
    let again = site::recompute(to).unwrap();
    let site = site::compile(&again.dossier);
    fs::remove_dir_all(to).unwrap();
    seal::write(&site.files, to).unwrap();
}

#[test]
fn a_copy_shows_its_lots_as_signed_and_nothing_of_the_others() {
    let stage = Stage::signed();
    let copy = stage.kept.path().join("copy");
    let (status, text) = extract(&stage.out, &copy, &["--customer", "CU-34"]);
    assert_eq!(status, 0, "{text}");
    let shared = ["DV-26-39", "DV-26-43", "DV-26-44"];
    for id in shared {
        assert!(text.contains(&format!("  {id}: L26-31, L26-33")), "{text}");
    }
    let allowed = stage.allowed();
    let verify = [
        "verify",
        copy.to_str().unwrap(),
        "--allowed-signers",
        allowed.to_str().unwrap(),
        "--json",
    ];
    let (status, report) = json_of(&verify);
    assert_eq!(status, 0, "{report}");
    assert_eq!(report["copy_of"]["holds"], true);
    assert_eq!(report["copy_of"]["lots"], "L26-32");
    let statements = report["copy_of"]["signed"]["statements"]
        .as_array()
        .unwrap();
    assert_eq!(statements.len(), 3);
    assert!(statements.iter().all(|one| one["key_is_known"] == true));

    // The root is the number that the signed dossier bears.
    let root = |folder: &Path| {
        let info = fs::read_to_string(folder.join("bag-info.txt")).unwrap();
        info.lines()
            .find(|line| line.starts_with("Dossier-Records-Root"))
            .unwrap()
            .to_owned()
    };
    assert_eq!(root(&copy), root(&stage.out));

    // Every figure of the copy stands in the signed dossier, with the same value and verdict.
    let figures = |folder: &Path| -> BTreeMap<String, Value> {
        let all: Value =
            serde_json::from_slice(&fs::read(folder.join("data/figures.json")).unwrap()).unwrap();
        let all = all["figures"].as_array().unwrap().clone();
        all.into_iter()
            .map(|one| (one["id"].as_str().unwrap().to_owned(), one))
            .collect()
    };
    let (whole, part) = (figures(&stage.out), figures(&copy));
    assert!(part.len() > 200 && part.len() < whole.len());
    for (id, own) in &part {
        for key in [
            "value",
            "standard_uncertainty",
            "verdict",
            "limit",
            "conformance_probability",
        ] {
            assert_eq!(own[key], whole[id][key], "{id}: {key}");
        }
    }

    // Only the deviations that concern all lots name anything of the others; no other customer is named at all.
    let strangers = ["CU-21", "Harrow Vale"];
    let others = [
        "L26-31", "L26-33", "A-26-21", "A-26-23", "M-26-31", "M-26-33",
    ];
    let mut naming = BTreeSet::new();
    for (path, bytes) in files(&copy) {
        let text = String::from_utf8_lossy(&bytes);
        assert!(
            strangers.iter().all(|word| !text.contains(word)),
            "{path} names another customer"
        );
        if others.iter().any(|word| text.contains(word)) {
            naming.insert(path);
        }
    }
    // The index of the search lists what each deviation is about.
    assert!(
        naming
            .iter()
            .all(|path| path.contains("deviations") || path == "data/find-index.js"),
        "{naming:?}"
    );
}

#[test]
fn short_contents_that_are_withheld_cannot_be_tried_out() {
    let stage = Stage::signed();
    let copy = stage.kept.path().join("copy");
    extract(&stage.out, &copy, &["--lot", "L26-32"]);
    let all = files(&copy);
    let text: String = all
        .values()
        .map(|bytes| String::from_utf8_lossy(bytes).into_owned())
        .collect();
    let hex: BTreeSet<&str> = text
        .split(|c: char| !c.is_ascii_hexdigit())
        .filter(|run| run.len() == 64)
        .collect();
    assert!(hex.len() > 300, "{}", hex.len());
    // Whoever guesses rightly still finds nothing to hold the guess against: not with no salt, and not with any number that
    // the copy holds as salt.
    let folder = Folder::read(Path::new("example-dossier/released")).unwrap();
    let plant = Plant::new(folder);
    let commitment = Commitment::of(&plant);
    let of_lots = |wanted: &dyn Fn(&str) -> bool| -> BTreeSet<usize> {
        let groups = commitment.groups.iter();
        groups
            .filter(|group| group.of == "lot" && wanted(&group.name))
            .flat_map(|group| group.members.iter().copied())
            .collect()
    };
    let shown = of_lots(&|lot| lot == "L26-32");
    let others = of_lots(&|lot| lot != "L26-32");
    let salts: Vec<Digest> = hex.iter().filter_map(|hex| Digest::parse(hex)).collect();
    let mut tried = 0;
    for index in others.difference(&shown).copied() {
        let piece = &commitment.pieces[index];
        let bytes = commitment.bytes(&plant.folder, index);
        tried += 1;
        assert!(
            !hex.contains(&*Digest::of(bytes).to_string()),
            "{}",
            piece.id
        );
        if tried % 12 == 0 {
            for salt in &salts {
                assert!(
                    !hex.contains(&*sealed(*salt, &piece.file, bytes).to_string()),
                    "{}",
                    piece.id
                );
            }
        }
    }
    assert!(tried > 200, "{tried}");
    // The same guess is right where the salt is known: the test would notice a hit.
    let group = commitment
        .groups
        .iter()
        .find(|group| group.name == "L26-32")
        .unwrap();
    let first = *group.members.first().unwrap();
    let salt = commitment.piece_salt(group, first);
    assert!(hex.contains(&*salt.to_string()));
    assert_eq!(
        commitment.seal(&plant.folder, group, first),
        sealed(
            salt,
            &commitment.pieces[first].file,
            commitment.bytes(&plant.folder, first)
        )
    );
}

#[test]
fn a_record_that_was_dropped_changed_or_added_is_noticed() {
    let stage = Stage::signed();
    let copy = stage.kept.path().join("copy");
    extract(&stage.out, &copy, &["--lot", "L26-32"]);
    let proof = |payload: &BTreeMap<String, Vec<u8>>| -> Value {
        serde_json::from_slice(&payload["proof.json"]).unwrap()
    };
    let put = |payload: &mut BTreeMap<String, Vec<u8>>, proof: &Value| {
        payload.insert(
            "proof.json".into(),
            serde_json::to_vec_pretty(proof).unwrap(),
        );
    };
    let trace = "records/traces/at-26-2201-1-df.csv";
    type Change<'a> = Box<dyn FnOnce(&mut BTreeMap<String, Vec<u8>>) + 'a>;
    let cases: Vec<(&str, Change)> = vec![
        ("nothing", Box::new(|_| {})),
        (
            "a file is dropped, with its line in the proof",
            Box::new(|payload| {
                payload.remove(trace).unwrap();
                let mut sources: Value = serde_json::from_slice(&payload["sources.json"]).unwrap();
                sources
                    .as_object_mut()
                    .unwrap()
                    .shift_remove(trace)
                    .unwrap();
                payload.insert(
                    "sources.json".into(),
                    serde_json::to_vec_pretty(&sources).unwrap(),
                );
                let mut own = proof(payload);
                for group in own["shown"].as_array_mut().unwrap() {
                    group["pieces"]
                        .as_array_mut()
                        .unwrap()
                        .retain(|piece| piece["file"] != trace.trim_start_matches("records/"));
                }
                put(payload, &own);
            }),
        ),
        (
            "a file is changed",
            Box::new(|payload| {
                let bytes = payload.get_mut(trace).unwrap();
                let at = bytes.iter().rposition(|byte| *byte == b'1').unwrap();
                bytes[at] = b'2';
            }),
        ),
        (
            "a record is added",
            Box::new(|payload| {
                let file = "records/membrane-tests.yaml";
                let mut text = String::from_utf8(payload[file].clone()).unwrap();
                let first = text
                    .split("---\n")
                    .find(|part| part.contains("kind:"))
                    .unwrap()
                    .to_owned();
                text = format!(
                    "{text}---\n{}",
                    first.replacen("record_id: ", "record_id: X", 1)
                );
                payload.insert(file.into(), text.into_bytes());
            }),
        ),
        (
            "another root is stated",
            Box::new(|payload| {
                let info = payload.get_mut("signed-dossier/bag-info.txt").unwrap();
                let at = info.windows(7).position(|w| w == b"sha256:").unwrap() + 7;
                info[at] = if info[at] == b'0' { b'1' } else { b'0' };
            }),
        ),
        (
            "a seal becomes another",
            Box::new(|payload| {
                let mut own = proof(payload);
                let seal = "0".repeat(64);
                let piece = own["shown"]
                    .as_array_mut()
                    .unwrap()
                    .iter_mut()
                    .flat_map(|group| group["pieces"].as_array_mut().unwrap())
                    .find(|piece| piece.get("seal").is_some())
                    .unwrap();
                piece["seal"] = json!(seal);
                put(payload, &own);
            }),
        ),
        (
            "somebody on the way seals a test that they do not like",
            Box::new(|payload| {
                let file = "records/traces/at-26-2201-1-df.csv";
                let bytes = payload.remove(file).unwrap();
                let mut sources: Value = serde_json::from_slice(&payload["sources.json"]).unwrap();
                sources.as_object_mut().unwrap().shift_remove(file).unwrap();
                let sources = serde_json::to_vec_pretty(&sources).unwrap();
                payload.insert("sources.json".into(), sources);
                let mut own = proof(payload);
                let groups = own["shown"].as_array_mut().unwrap().iter_mut();
                let pieces = groups.flat_map(|group| group["pieces"].as_array_mut().unwrap());
                let name = file.trim_start_matches("records/");
                for piece in pieces.filter(|piece| piece["file"] == name) {
                    let salt = Digest::parse(piece["salt"].as_str().unwrap()).unwrap();
                    *piece = json!({"kind": piece["kind"], "customer": piece["customer"], "seal": sealed(salt, name, &bytes).to_string(), "because": "it names another customer"});
                }
                put(payload, &own);
            }),
        ),
        (
            "a withheld group is dropped",
            Box::new(|payload| {
                let mut own = proof(payload);
                own["withheld"].as_array_mut().unwrap().pop().unwrap();
                put(payload, &own);
            }),
        ),
        (
            "a statement is dropped from the middle",
            Box::new(|payload| {
                payload
                    .remove("signed-dossier/signatures/02-reviewed.json")
                    .unwrap();
                payload
                    .remove("signed-dossier/signatures/02-reviewed.json.sig")
                    .unwrap();
            }),
        ),
        (
            "another dossier is named",
            Box::new(|payload| edited(payload, "id: \"QM-2026-3.", "id: \"QM-2026-4.")),
        ),
        (
            "another title stands on the pages",
            Box::new(|payload| edited(payload, "title: \"Lot L26-32", "title: \"Lot L26-3Z")),
        ),
        (
            "another customer is named",
            Box::new(|payload| edited(payload, "customer_id: \"CU-34", "customer_id: \"CU-99")),
        ),
        (
            "it is said to be a customer's who got nothing of it",
            Box::new(|payload| {
                let mut own = proof(payload);
                own["customer"] = json!("CU-21");
                put(payload, &own);
            }),
        ),
        (
            "the maker becomes another",
            Box::new(|payload| edited(payload, "Quillmere", "Quellmere")),
        ),
    ];
    for (n, (what, change)) in cases.into_iter().enumerate() {
        let to = stage.kept.path().join(format!("case{n}"));
        rebag(&copy, &to, change);
        let (status, report) = json_of(&["verify", to.to_str().unwrap(), "--json"]);
        // The cheat's bag is whole and computes; only the proof and the signatures speak against it.
        assert_eq!(report["whole"]["holds"], true, "{what}: {report}");
        assert_eq!(report["recomputed"]["holds"], true, "{what}: {report}");
        let holds = n == 0;
        assert_eq!(
            (status, report["copy_of"]["holds"].as_bool()),
            (i32::from(!holds), Some(holds)),
            "{what}: {report}"
        );
        // Nobody receives what does not hold.
        let key = stage.kept.path().join("P-06");
        let (status, text) = code(&[
            "approve",
            to.to_str().unwrap(),
            "--as",
            "received",
            "--person",
            "P-91",
            "--key",
            key.to_str().unwrap(),
            "--name",
            "A (invented)",
            "--role",
            "r",
        ]);
        assert_eq!(status, i32::from(!holds), "{what}: {text}");
        assert_eq!(text.contains("does not verify"), !holds, "{what}: {text}");
    }
}

#[test]
fn a_copy_speaks_the_language_that_is_asked_for_and_is_received() {
    let stage = Stage::signed();
    let copy = stage.kept.path().join("copy");
    let (status, text) = extract(
        &stage.out,
        &copy,
        &["--customer", "CU-21", "--language", "it"],
    );
    assert_eq!(status, 0, "{text}");
    let page = fs::read_to_string(copy.join("data/index.html")).unwrap();
    assert!(page.contains("<html lang=\"it\""));
    // Records and chapters stay in the language in which they were written, and say so.
    let written = |page: &str, is: &str| {
        let text = fs::read_to_string(copy.join("data").join(page)).unwrap();
        assert!(text.contains(is), "{page}");
    };
    written(
        "lines/assembly-tests-001.html",
        "<ol class=\"lines\" lang=\"en\">",
    );
    written("chapters/01-what-this-is.html", "<div lang=\"en\">");
    let (status, text) = code(&["verify", copy.to_str().unwrap()]);
    assert_eq!(status, 0, "{text}");
    stage.key("P-90", "ed25519");
    let key = stage.kept.path().join("P-90");
    let received = [
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
    ];
    let (status, text) = code(&received);
    assert_eq!(status, 0, "{text}");
    let (status, text) = code(&["verify", copy.to_str().unwrap()]);
    assert_eq!(status, 0, "{text}");
}

#[test]
fn what_cannot_be_copied_is_refused_and_nothing_is_written() {
    let kept = tempfile::tempdir().unwrap();
    let path = |name: &str| kept.path().join(name);
    let (whole, draft, copy) = (path("whole"), path("draft"), path("copy"));
    code(&[
        "compile",
        "example-dossier/released",
        "--into",
        whole.to_str().unwrap(),
    ]);
    code(&[
        "compile",
        "example-dossier/as-found",
        "--draft",
        "--into",
        draft.to_str().unwrap(),
    ]);
    let refused = |of: &Path, more: &[&str], says: &str| {
        let into = path("no");
        let (status, text) = extract(of, &into, more);
        // What was asked for is not there: 2. What was asked for must not be: 1.
        let unusable = [
            "Its lots are",
            "nothing of this",
            "no language",
            "no compiled dossier",
        ];
        let due = if unusable.iter().any(|words| says.contains(words)) {
            2
        } else {
            1
        };
        assert!(
            status == due || says.contains("START-HERE"),
            "{status}: {text}"
        );
        assert!(status > 0 && text.contains(says), "{text}");
        assert!(!into.exists());
    };
    refused(&draft, &["--lot", "L26-31"], "draft");
    refused(
        &whole,
        &["--lot", "L26-99"],
        "Its lots are: L26-31, L26-32, L26-33.",
    );
    refused(
        &whole,
        &["--customer", "CU-99"],
        "nothing of this dossier was released to CU-99",
    );
    refused(
        &whole,
        &["--lot", "L26-31", "--language", "xx"],
        "there is no language xx",
    );
    refused(
        Path::new("example-dossier/released"),
        &["--lot", "L26-31"],
        "no compiled dossier",
    );
    let (status, text) = extract(&whole, &copy, &["--lot", "L26-31"]);
    assert_eq!(status, 0, "{text}");
    refused(&copy, &["--lot", "L26-31"], "customer's copy itself");
    fs::write(whole.join("data/index.html"), "x").unwrap();
    refused(&whole, &["--lot", "L26-31"], "does not verify");
}

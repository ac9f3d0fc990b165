//! From an export on a stick to records that prove where they come from, as a person calls it.

mod common;

use std::{fs, path::Path};

use common::*;

const TRACE: &str = "time_s,pressure_mbar_gauge,gas_temperature_c\n0,1700.02,20.126\n10,1699.47,20.131\n20,1698.82,20.126\n30,1698.31,20.128\n";

const MAPPING: &str = r#"kind: intake_mapping
record_id: IM-RIG
revision: 1
recorded_at: "2026-01-01T09:00:00+01:00"
recorded_by: P-3
makes: module_test
encoding: windows-1252
field_separator: ";"
decimal_separator: ","
time_zone: Europe/Berlin
blank: ["-"]
only: {column: Los, is: [L-1]}
fields:
  - {field: record_id, text: "MT-{Prüfling}-{Nr}"}
  - {field: recorded_at, column: Zeit, form: "%d.%m.%Y %H:%M"}
  - {field: recorded_by, column: Prüfer, words: {mk: P-3}}
  - {field: module_id, column: Prüfling, pattern: "M-####"}
  - {field: test_number, column: Nr}
  - {field: specification.id, text: SP-1}
  - {field: specification.revision, text: "1"}
  - {field: instrument_id, text: IT-1}
  - {field: instrument_run_id, column: Lauf}
  - {field: wetting_liquid, text: water}
  - {field: wetting_flush_volume, text: "8.0 L"}
  - {field: wetting_liquid_temperature, column: T, unit: degC}
  - {field: gas_temperature, column: T, unit: degC}
  - {field: "measurements[0].quantity", text: diffusive_flow}
  - {field: "measurements[0].trace", trace: "{Lauf}.csv"}
  - {field: "measurements[0].instrument_reported.value", column: Diffusion, unit: mL/min}
  - {field: "measurements[1].quantity", text: bubble_point}
  - {field: "measurements[1].trace", trace: "{Lauf}.txt", mapping: IM-RAMP}
  - {field: "measurements[1].instrument_reported.value", column: BP, unit: bar}
---
kind: intake_mapping
record_id: IM-RAMP
revision: 1
recorded_at: "2026-01-01T09:00:00+01:00"
recorded_by: P-3
makes: trace
field_separator: tab
decimal_separator: ","
fields:
  - {field: time_s, column: s}
  - {field: pressure_mbar_gauge, column: mbar}
"#;

const EXPORT: &str = "Lauf;Los;Nr;Prüfling;Zeit;Prüfer;T;Diffusion;BP;Gerät\r\nR1;L-1;1;M-0001;12.03.2026 08:00;mk;20,1;8,5;2,58;7\r\nR2;L-1;1;M-0002;12.03.2026 08:30;mk;20,1;8,20;2,60;7\r\nR3;L-2;1;M-0003;12.03.2026 09:00;mk;20,1;8,20;2,60;7\r\n";

/// A folder from `new` with the mapping, and a stick with the export and its traces.
fn stick() -> (tempfile::TempDir, String, String) {
    let place = tempfile::tempdir().unwrap();
    let (lot, stick) = (place.path().join("lot"), place.path().join("stick"));
    assert_eq!(code(&["new", lot.to_str().unwrap()]).0, 0);
    fs::write(lot.join("intake.yaml"), MAPPING).unwrap();
    fs::create_dir(&stick).unwrap();
    for run in ["R1", "R2"] {
        fs::write(
            stick.join(format!("{run}.csv")),
            TRACE.replace("20.131", &format!("20.13{run}").replace('R', "")),
        )
        .unwrap();
        fs::write(
            stick.join(format!("{run}.txt")),
            "s\tmbar\n0\t1700,0\n15\t1725,1\n30\t1749,8\n",
        )
        .unwrap();
    }
    let export = stick.join("export.csv");
    fs::write(&export, encoding_rs::WINDOWS_1252.encode(EXPORT).0).unwrap();
    let text = |path: &Path| path.to_str().unwrap().to_owned();
    (place, text(&lot), text(&export))
}

/// Every file of a folder.
fn files(folder: &str) -> Vec<String> {
    let all = walkdir::WalkDir::new(folder)
        .into_iter()
        .map(Result::unwrap)
        .filter(|entry| entry.file_type().is_file());
    let mut names: Vec<String> = all
        .map(|entry| {
            entry
                .path()
                .strip_prefix(folder)
                .unwrap()
                .to_str()
                .unwrap()
                .to_owned()
        })
        .collect();
    names.retain(|name| !name.starts_with(".schemas"));
    names.sort();
    names
}

#[test]
fn an_export_is_shown_then_taken_in_once() {
    let (_place, lot, export) = stick();
    let before = files(&lot);
    let (status, text) = code(&["intake", &lot, "--mapping", "IM-RIG", &export]);
    assert_eq!(status, 0, "{text}");
    for said in [
        "2 of 3 rows count. Records of kind module_test: 2; here already: 0.",
        "Not used: Gerät.",
        "record_id: MT-M-0001-1",
        "recorded_at: \"2026-03-12T08:00:00+01:00\"",
        "value: \"8.20 mL/min\"",
        "Nothing was written.",
    ] {
        assert!(text.contains(said), "{said}\n{text}");
    }
    assert_eq!(files(&lot), before);

    let write = ["intake", &lot, "--mapping", "IM-RIG", &export, "--write"];
    assert_eq!(code(&write).0, 0);
    let after = files(&lot);
    let kept = after
        .iter()
        .find(|name| name.starts_with("exports/export-"))
        .unwrap();
    assert_eq!(
        fs::read(Path::new(&lot).join(kept)).unwrap(),
        fs::read(&export).unwrap()
    );
    for name in [
        "exports/R1.txt",
        "traces/R1.csv",
        "traces/R1.txt.csv",
        "traces/R2.csv",
    ] {
        assert!(after.iter().any(|own| own == name), "{name} in {after:?}");
    }
    let (status, text) = code(&write);
    assert!(
        status == 0 && text.contains("Every record is here already"),
        "{text}"
    );
    assert_eq!(files(&lot), after);
}

#[test]
fn what_is_wrong_is_told_with_its_row_and_nothing_is_written() {
    let (_place, lot, export) = stick();
    let before = files(&lot);
    for (from, to, said) in [
        ("8,5;", "1.700;", "has . although the decimal sign is ,"),
        (
            "12.03.2026 08:30",
            "03/04/26",
            "is not of the form %d.%m.%Y %H:%M",
        ),
        ("M-0002", "M-002", "does not look like M-####"),
        (
            ";mk;20,1;8,5",
            ";xy;20,1;8,5",
            "is none of the words of the mapping",
        ),
        ("R2;L-1", "R9;L-1", "there is no R9.csv beside the export"),
        ("M-0002", "M-0001", "MT-M-0001-1 was in line 2 already"),
        (
            "Diffusion",
            "Diffusion [bar]",
            "the export has no column \"Diffusion\"",
        ),
    ] {
        let text = EXPORT.replace(from, to);
        fs::write(&export, encoding_rs::WINDOWS_1252.encode(&text).0).unwrap();
        let (status, text) = code(&["intake", &lot, "--mapping", "IM-RIG", &export, "--write"]);
        assert_eq!(status, 2, "{text}");
        assert!(
            text.contains(said) && text.contains("next:") && text.contains("nothing was taken in"),
            "{said}\n{text}"
        );
        assert!(
            text.contains("export.csv:") || text.contains("intake.yaml:"),
            "{text}"
        );
        assert_eq!(files(&lot), before);
    }
    // Something else stands where a trace is to go.
    fs::write(&export, encoding_rs::WINDOWS_1252.encode(EXPORT).0).unwrap();
    fs::create_dir(Path::new(&lot).join("traces")).unwrap();
    fs::write(Path::new(&lot).join("traces/R2.csv"), "mine").unwrap();
    let (status, text) = code(&["intake", &lot, "--mapping", "IM-RIG", &export, "--write"]);
    assert!(
        status == 2 && text.contains("traces/R2.csv is there already"),
        "{text}"
    );
    assert_eq!(files(&lot).len(), before.len() + 1);
    assert_eq!(
        fs::read_to_string(Path::new(&lot).join("traces/R2.csv")).unwrap(),
        "mine"
    );
    for args in [
        ["--mapping", "IM-RAMP", &*export],
        ["--mapping", "IM-RIK", &export],
        ["--mapping", "IM-RIG", "nowhere.csv"],
    ] {
        let (status, text) = code(&[&["intake", &lot][..], &args].concat());
        assert!(status == 2 && text.starts_with("sealfolio: "), "{text}");
    }
}

#[test]
fn a_record_is_held_against_its_export_for_ever() {
    let (_place, lot, export) = stick();
    assert_eq!(
        code(&["intake", &lot, "--mapping", "IM-RIG", &export, "--write"]).0,
        0
    );
    let about = |rule: &str| {
        let report = run(&["review", &lot, "--json"]).0.stdout;
        let report: serde_json::Value = serde_json::from_slice(&report).unwrap();
        let all = report["findings"].as_array().unwrap().clone();
        let own = all
            .into_iter()
            .filter(|finding| finding["rule"] == rule && finding["severity"] != "note");
        own.map(|finding| finding["message"].as_str().unwrap().to_owned())
            .collect::<Vec<_>>()
    };
    assert_eq!(about("R89"), Vec::<String>::new());
    assert_eq!(about("R09"), Vec::<String>::new());
    let records = Path::new(&lot).join(
        files(&lot)
            .iter()
            .find(|name| name.starts_with("taken-in/"))
            .unwrap(),
    );
    let good = fs::read_to_string(&records).unwrap();

    fs::write(&records, good.replace("\"8.20 mL/min\"", "\"8.10 mL/min\"")).unwrap();
    let found = about("R89");
    assert_eq!(found.len(), 1, "{found:?}");
    assert!(found[0].starts_with("MT-M-0002-1 says \"8.10 mL/min\" for measurements[0].instrument_reported.value, and line 3 of"), "{found:?}");
    // The same record twice, one of them invented.
    fs::write(&records, good.replace("MT-M-0002-1", "MT-M-0009-1")).unwrap();
    assert_eq!(about("R89").len(), 2);
    fs::write(&records, good.split("---\n").next().unwrap()).unwrap();
    let found = about("R89");
    assert!(
        found.len() == 1 && found[0].ends_with("gives MT-M-0002-1, and there is no such record."),
        "{found:?}"
    );
    // Nor does a record escape by not saying where it is from.
    let from = good
        .lines()
        .find(|line| line.starts_with("taken_from"))
        .unwrap();
    fs::write(&records, good.replacen(&format!("{from}\n"), "", 1)).unwrap();
    let found = about("R89");
    assert!(
        found.len() == 1 && found[0].ends_with("does not say that it was taken from there."),
        "{found:?}"
    );
    // A revision by hand says why; the export is what the first revision is held against no more.
    let second = good.split("---\n").nth(1).unwrap();
    let from = second
        .lines()
        .find(|line| line.starts_with("taken_from"))
        .unwrap();
    let by_hand = second
        .replace(&format!("{from}\n"), "")
        .replace("revision: 1\nrecorded_at", "revision: 2\nsupersedes: {id: MT-M-0002-1, revision: 1}\nchange_reason: \"read off the display\"\nrecorded_at")
        .replace("8.20", "8.10");
    fs::write(&records, format!("{good}---\n{by_hand}")).unwrap();
    assert_eq!(about("R89"), Vec::<String>::new());
    // And an export that was changed is no export any more.
    let kept = files(&lot)
        .into_iter()
        .find(|name| name.starts_with("exports/export-"))
        .unwrap();
    let path = Path::new(&lot).join(kept);
    let mut bytes = fs::read(&path).unwrap();
    bytes[90] ^= 1;
    fs::write(&path, bytes).unwrap();
    assert!(!about("R09").is_empty());
}

#[test]
fn an_empty_form_comes_back_filled() {
    let (place, lot, _) = stick();
    let form = place.path().join("form.csv");
    let form = form.to_str().unwrap();
    assert_eq!(
        code(&["intake", &lot, "--mapping", "IM-RIG", "--form", form]).0,
        0
    );
    let bytes = fs::read(form).unwrap();
    let text = encoding_rs::WINDOWS_1252.decode(&bytes).0.into_owned();
    assert_eq!(
        text.trim_end(),
        "Los;Prüfling;Nr;Zeit;Prüfer;Lauf;T;Diffusion;BP"
    );
    assert_eq!(
        code(&["intake", &lot, "--mapping", "IM-RIG", "--form", form]).0,
        2
    );
    let filled = format!(
        "{}\nL-1;M-0001;1;12.03.2026 08:00;mk;R1;20,1;8,5;2,58\n",
        text.trim_end()
    );
    let filled_in = place.path().join("stick/filled.csv");
    fs::write(&filled_in, encoding_rs::WINDOWS_1252.encode(&filled).0).unwrap();
    let (status, text) = code(&[
        "intake",
        &lot,
        "--mapping",
        "IM-RIG",
        filled_in.to_str().unwrap(),
        "--write",
    ]);
    assert_eq!(status, 0, "{text}");
}

#[test]
fn one_more_record_of_each_kind_lacks_only_what_a_person_knows() {
    let place = tempfile::tempdir().unwrap();
    let lot = place.path().join("lot");
    let name = lot.to_str().unwrap();
    assert_eq!(
        code(&["new", name, "--maker", "A \"B\"", "--language", "it"]).0,
        0
    );
    for kind in sealfolio::record::kinds::KINDS
        .iter()
        .map(|kind| kind.name)
        .filter(|kind| *kind != "dossier")
    {
        let (status, text) = code(&["new", name, "--record", kind, "--id", "X-1"]);
        assert_eq!(status, 0, "{kind}: {text}");
        let text =
            fs::read_to_string(lot.join(format!("{}-x-1.yaml", kind.replace('_', "-")))).unwrap();
        for field in (sealfolio::record::kinds::kind(kind).unwrap().fields)() {
            let mark = if field.required { "\n" } else { "\n#? " };
            assert!(
                text.contains(&format!("{mark}{}:", field.name)),
                "{kind} lacks {}",
                field.name
            );
        }
        assert_eq!(code(&["new", name, "--record", kind, "--id", "X-1"]).0, 2);
    }
    assert_eq!(code(&["new", name, "--record", "module_tests"]).0, 2);
    // Nor is an id given twice, in whatever file the other stands.
    let (status, text) = code(&[
        "new",
        name,
        "--record",
        "personnel_authorisation",
        "--id",
        "PA-1",
    ]);
    assert!(
        status == 2 && text.contains("PA-1 stands already in people.yaml line 4"),
        "{text}"
    );
    // Every file is YAML, every key is known, and what is wrong is only what is blank.
    let report = run(&["review", name, "--json"]).0.stdout;
    let report: serde_json::Value = serde_json::from_slice(&report).unwrap();
    let findings = report["findings"].as_array().unwrap();
    assert!(findings.len() > 100);
    for finding in findings {
        assert!(
            finding["rule"] == "R03" || finding["rule"] == "R04",
            "{finding}"
        );
    }
}

#[test]
fn nothing_is_taken_in_by_half_a_mapping() {
    let (_place, lot, export) = stick();
    let mapping = Path::new(&lot).join("intake.yaml");
    fs::write(&mapping, MAPPING.replace("only:", "onyl:")).unwrap();
    let (ended, text) = code(&["intake", &lot, "--mapping", "IM-RIG", &export, "--write"]);
    assert_eq!(ended, 2, "{text}");
    assert!(text.contains("key \"onyl\" is not known"), "{text}");
    assert!(
        text.contains("intake.yaml, which holds the mapping IM-RIG, has findings"),
        "{text}"
    );
    assert!(!Path::new(&lot).join("taken-in").exists());
    // One that cannot be read at all is not told as one that is not there.
    fs::write(&mapping, MAPPING.replace("makes: module_test\n", "")).unwrap();
    let (ended, text) = code(&["intake", &lot, "--mapping", "IM-RIG", &export]);
    assert_eq!(ended, 2, "{text}");
    assert!(text.contains("If it is there and cannot be read"), "{text}");
}

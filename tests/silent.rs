//! Faults that once passed in silence.

mod common;

use std::{fs, path::Path, process::Command};

use common::*;
use sealfolio::ground::finding::Severity;

/// Faults that once passed in silence: a file, what is changed in it, and the rule that must block.
const SILENT: &[(&str, &str, &str, &str)] = &[
    (
        "specifications.yaml",
        "limit: \">= 2.40 bar\"",
        "limit: \">= 2.40\"",
        "R04",
    ),
    (
        "specifications.yaml",
        "limit: \"<= 14.0 mL/min\"",
        "limit: \"<= 14.0\"",
        "R04",
    ),
    (
        "specifications.yaml",
        "guard_band: \"1.0 U\"",
        "guard_band: \"-5.0 U\"",
        "R04",
    ),
    (
        "specifications.yaml",
        "relative: 0.014",
        "relative: -0.014",
        "R04",
    ),
    (
        "specifications.yaml",
        "diffusive_flow: \"2 %\"",
        "diffusive_flow: \"2%\"",
        "R04",
    ),
    (
        "specifications.yaml",
        "bubble_point_criterion: \"pressure",
        "bubble_point_criterion: \"some pressure or other\" #",
        "R03",
    ),
    (
        "specifications.yaml",
        "revision: 1\n",
        "revision: 2\n",
        "R03",
    ),
    (
        "module-tests/vf45.yaml",
        "upstream_volume: \"2.420 L\"",
        "upstream_volume: \"0 L\"",
        "R03",
    ),
    (
        "module-tests/vf45.yaml",
        "measurement_time: \"300 s\"",
        "measurement_time: \"1e9 s\"",
        "R41",
    ),
    (
        "module-tests/vf45.yaml",
        "atmospheric_pressure: \"1006.2 mbar\"",
        "atmospheric_pressure: \"300 mbar\"",
        "R04",
    ),
    (
        "service.yaml",
        "count_carried_forward: {treatment: steam_in_place, cycles: 11,",
        "count_carried_forward: {treatment: steam_in_place, cycles: 9011,",
        "R70",
    ),
    (
        "assemblies.yaml",
        "{position: 2, module_id: M-26-3102}",
        "{position: 2, module_id: M-26-3101}",
        "R12",
    ),
    (
        "retention.yaml",
        "fraction_assayed: 1.0",
        "fraction_assayed: 2.0",
        "R65",
    ),
    (
        "releases.yaml",
        "assemblies: [A-26-2101, A-26-2102",
        "assemblies: [A-26-9999, A-26-2102",
        "R02",
    ),
    (
        "releases.yaml",
        "assemblies: [A-26-2101, A-26-2102",
        "assemblies: [A-26-2102, A-26-2102",
        "R76",
    ),
    (
        "releases.yaml",
        "person_id: P-01, printed_name",
        "person_id: P-99, printed_name",
        "R36",
    ),
    (
        "deviations.yaml",
        "{assembly_id: A-26-2105,",
        "{assembly_id: A-26-2101,",
        "R15",
    ),
    ("attachments/ca-it-11-26.txt", "invented", "forged", "R09"),
    (
        "assembly-tests/vf45.yaml",
        "test_stage: final_after_adapter_and_tip",
        "test_stage: joined_modules",
        "R02",
    ),
    (
        "seals.yaml",
        "sampling_plan: PLAN-PEEL",
        "remarks: none",
        "R52",
    ),
    (
        "seals.yaml",
        "coupon: CP-L26-31-2, peel_force",
        "coupon: CP-L26-31-1, peel_force",
        "R52",
    ),
    (
        "seals.yaml",
        "plate_temperature_mean: \"265 degC\"",
        "plate_temperature_mean: \"299 degC\"",
        "R60",
    ),
];

/// One fault for each further rule that looks across records; each must be caught, whatever its weight.
const CAUGHT: &[(&str, &str, &str, &str)] = &[
    ("pleating.yaml", "from: \"4.4 m\"", "from: \"3.4 m\"", "R16"),
    ("releases.yaml", "dispatch_note", "other_note", "R18"),
    (
        "lots.yaml",
        "modules_started: 26",
        "modules_started: 27",
        "R19",
    ),
    ("lots.yaml", "{item: A-26-2105,", "{item: A-26-2199,", "R20"),
    (
        "lots.yaml",
        "destroyed_as_sample, modules: [M-26-3124]",
        "destroyed_as_sample, modules: [M-26-3101]",
        "R54",
    ),
    (
        "marks.yaml",
        "VF45 L26-31 0.45 um 3101",
        "VF45 L26-13 0.45 um 3101",
        "R62",
    ),
    ("marks.yaml", "(21)A-26-2101", "(21)A-26-2102", "R63"),
    (
        "materials.yaml",
        "incoming_status: accepted",
        "incoming_status: rejected",
        "R21",
    ),
    (
        "materials.yaml",
        "shelf_life_until: \"2028-03-31\"",
        "shelf_life_until: \"2026-02-28\"",
        "R21",
    ),
    (
        "assemblies.yaml",
        "product_code: VF45-20",
        "product_code: VF65-20",
        "R22",
    ),
    ("module-tests/vf45.yaml", "RUN-0401", "RUN-0399", "R29"),
    ("module-tests/vf45.yaml", "RUN-0402", "RUN-0401", "R29"),
    (
        "instruments.yaml",
        "nominal: \"3000 mbar\"",
        "nominal: \"2000 mbar\"",
        "R31",
    ),
    ("releases.yaml", "T11:40:00", "T15:40:00", "R37"),
    (
        "specifications.yaml",
        "maximum_same_reason_per_lot: 2",
        "maximum_same_reason_per_lot: 0",
        "R59",
    ),
    (
        "retention.yaml",
        "negative: {colonies: 0,",
        "negative: {colonies: 9,",
        "R66",
    ),
    (
        "retention.yaml",
        "material_lot: RM-704",
        "material_lot: RM-703",
        "R67",
    ),
    (
        "claims.yaml",
        "temperature_max: \"123 degC\"",
        "temperature_max: \"121 degC\"",
        "R71",
    ),
    (
        "claims.yaml",
        "age_limit_in_service: \"24 mo\"",
        "age_limit_in_service: \"2 mo\"",
        "R74",
    ),
    (
        "service.yaml",
        "assembly_id: A-26-2104",
        "assembly_id: A-26-2101",
        "R75",
    ),
];

fn findings(own: &Path) -> Vec<serde_json::Value> {
    let (_, text) = code(&["review", own.to_str().unwrap(), "--json"]);
    let report: serde_json::Value = serde_json::from_str(&text).unwrap();
    report["findings"].as_array().unwrap().clone()
}

#[test]
fn a_fault_between_records_is_caught() {
    for (file, from, to, rule) in CAUGHT {
        let (_folder, own) = spoiled("released", |own| edit(&own.join(file), from, to));
        let caught = findings(&own)
            .iter()
            .any(|finding| finding["rule"] == *rule && finding["severity"] != "note");
        assert!(caught, "{file}: {from} -> {to}: {rule} does not see it");
    }
}

/// A trace that was copied and shifted is no copy byte by byte, and its noise is the same.
#[test]
fn a_trace_that_was_copied_and_shifted_is_caught() {
    let mut set = Sound::read();
    let copy = set.text("traces/mt-26-3107-1-df.csv");
    set.trace("traces/mt-26-3108-1-df.csv", |_| {
        let mut out = String::new();
        for (i, line) in copy.lines().enumerate() {
            let mut fields: Vec<String> = line.split(',').map(str::to_owned).collect();
            if i > 0 {
                fields[1] = format!("{:.2}", fields[1].parse::<f64>().unwrap() + 0.37);
            }
            out += &(fields.join(",") + "\n");
        }
        out
    });
    let dossier = set.dossier();
    let found = dossier
        .findings()
        .into_iter()
        .find(|finding| finding.rule == "R49")
        .unwrap();
    assert!(
        found.message.contains("share 12 readings in a row"),
        "{}",
        found.message
    );
}

/// Metres that a reconciliation states and packs do not add up to.
#[test]
fn metres_that_do_not_balance_are_asked_about() {
    for (from, to, words) in [
        (
            "used_in_this_lot: \"11.6 m\"",
            "used_in_this_lot: \"14.5 m\"",
            "its packs add up to 11.6 m, not 14.5 m",
        ),
        (
            "remaining: \"226.9 m\"",
            "remaining: \"229.8 m\"",
            "leaves 226.9 m, not 229.8 m",
        ),
    ] {
        let mut set = Sound::read();
        set.swap("lots.yaml", from, to);
        let dossier = set.dossier();
        let found = dossier
            .findings()
            .into_iter()
            .find(|finding| finding.rule == "R16")
            .unwrap();
        assert!(found.message.contains(words), "{}", found.message);
    }
}

#[test]
fn two_tests_with_one_trace_are_caught() {
    let (_folder, own) = spoiled("released", |own| {
        fs::copy(
            own.join("traces/mt-26-3101-1-df.csv"),
            own.join("traces/mt-26-3102-1-df.csv"),
        )
        .unwrap();
    });
    assert!(
        findings(&own)
            .iter()
            .any(|finding| finding["rule"] == "R49")
    );
}

#[test]
fn what_once_passed_in_silence_blocks() {
    for (file, from, to, rule) in SILENT {
        let (_folder, own) = spoiled("released", |own| edit(&own.join(file), from, to));
        let (_, text) = code(&["review", own.to_str().unwrap(), "--json"]);
        let report: serde_json::Value = serde_json::from_str(&text).unwrap();
        let blocks = report["findings"]
            .as_array()
            .unwrap()
            .iter()
            .any(|finding| finding["rule"] == *rule && finding["severity"] == "blocks release");
        assert!(blocks, "{file}: {from} -> {to}: {rule} does not block");
    }
}

#[test]
fn identical_coupons_below_the_limit_are_no_pass() {
    let (_folder, own) = spoiled("released", |own| {
        let path = own.join("seals.yaml");
        let text = fs::read_to_string(&path).unwrap();
        let lines: Vec<String> = text
            .lines()
            .map(|line| match line.find("peel_force: \"") {
                Some(_) => line
                    .split("peel_force: \"")
                    .enumerate()
                    .map(|(i, part)| {
                        if i == 0 {
                            part.to_owned()
                        } else {
                            format!("peel_force: \"5.0 N{}", &part[part.find('"').unwrap()..])
                        }
                    })
                    .collect(),
                None => line.to_owned(),
            })
            .collect();
        fs::write(path, lines.join("\n")).unwrap();
    });
    let (status, text) = code(&["review", own.to_str().unwrap()]);
    assert_eq!(status, 1);
    assert!(text.contains("R52"), "{text}");
}

#[test]
fn an_absolute_bubble_point_trace_is_brought_to_gauge() {
    let (_folder, own) = spoiled("released", |own| {
        let path = own.join("traces/mt-26-3101-1-bp.csv");
        let text = fs::read_to_string(&path).unwrap();
        let mut lines = text.lines();
        let mut out = vec![lines.next().unwrap().replace("_gauge", "_abs")];
        for line in lines {
            let mut fields: Vec<String> = line.split(',').map(str::to_owned).collect();
            fields[1] = format!("{:.1}", fields[1].parse::<f64>().unwrap() + 1006.2);
            out.push(fields.join(","));
        }
        let new = out.join("\n") + "\n";
        let digest =
            |text: &str| sealfolio::ground::digest::Digest::of(text.as_bytes()).to_string();
        edit(
            &own.join("module-tests/vf45.yaml"),
            &digest(&text),
            &digest(&new),
        );
        // The first test of the file.
        edit(
            &own.join("module-tests/vf45.yaml"),
            r#"atmospheric_pressure: "1006.2 mbar""#,
            r#"atmospheric_pressure: "1006.2 mbar ± 20 mbar (k = 2)""#,
        );
        fs::write(path, new).unwrap();
    });
    let found = |folder: &str| {
        let dossier = sealfolio::dossier::Dossier::build(Path::new(folder))
            .map_err(|why| why.message)
            .unwrap();
        dossier
            .graph
            .get("bubble-point", "MT-26-3101-1", "")
            .unwrap()
            .quantity()
            .unwrap()
            .clone()
    };
    let (own, gauge) = (
        found(own.to_str().unwrap()),
        found("example-dossier/released"),
    );
    assert!((own.value - gauge.value).abs() < 1e-6);
    // One reading of the room shifts every row alike, and with them what the line gives: its standard uncertainty of 10 mbar comes
    // on top. The line is fitted up to the same gauge pressure, so that nothing but the shift is left.
    let more = (own.u().powi(2) - gauge.u().powi(2)).sqrt();
    assert!((more - 1000.0).abs() < 1e-3, "{more}");
}

#[test]
fn a_report_that_cannot_be_written_is_not_fine() {
    if !Path::new("/dev/full").exists() {
        return;
    }
    let full = fs::OpenOptions::new()
        .write(true)
        .open("/dev/full")
        .unwrap();
    let status = Command::new(env!("CARGO_BIN_EXE_sealfolio"))
        .args(["review", "example-dossier/as-found"])
        .stdout(full)
        .output()
        .unwrap()
        .status;
    assert_eq!(status.code(), Some(2));
}

/// What a hostile hand wrote into a sound lot and once got away with: file, anchor, from, to, the rule that stops it.
const HOSTILE: &[(&str, &str, &str, &str, &str)] = &[
    (
        "claims.yaml",
        "",
        "cycles_tested: 65",
        "cycles_tested: 65000000",
        "R86",
    ),
    (
        "endurance.yaml",
        "",
        "confidence: \"95 %\"",
        "confidence: \"50 %\"",
        "R86",
    ),
    (
        "retention.yaml",
        "",
        "colonies: \"too many to count\"",
        "colonies: \"0\"",
        "R66",
    ),
    (
        "retention.yaml",
        "",
        "recovery: \"92 %\"",
        "recovery: \"0 %\"",
        "R66",
    ),
    (
        "marks.yaml",
        "label_claims",
        "\"for food contact\"",
        "\"virus retentive\"",
        "R64",
    ),
    (
        "marks.yaml",
        "expected",
        "nominal_rating: \"0.45 um\"",
        "nominal_rating: \"0.22 um\"",
        "R62",
    ),
    (
        "releases.yaml",
        "",
        "consignee: CU-21",
        "consignee: CU-34",
        "R18",
    ),
    (
        "releases.yaml",
        "meaning: release",
        "2026-03-25T14:50",
        "2026-12-25T14:50",
        "R28",
    ),
    (
        "product.yaml",
        "ring_on_adapter",
        "hottest: \"123 degC\"",
        "hottest: \"30 degC\"",
        "R84",
    ),
    (
        "product.yaml",
        "pack_in_cage",
        "least: \"0.50 mm\"",
        "least: \"-9.0 mm\"",
        "R84",
    ),
    (
        "product.yaml",
        "cage_inside",
        "\"70.00 mm\"",
        "\"60.00 mm\"",
        "R84",
    ),
    (
        "seals.yaml",
        "SI-L26-31-C",
        "sampling_plan: PLAN-PEEL",
        "sampling_plan: PLAN-PULL",
        "R52",
    ),
    (
        "pleating.yaml",
        "M-26-3101",
        "visual: accepted",
        "visual: rejected",
        "R61",
    ),
    (
        "module-tests/vf45.yaml",
        "MT-26-3102-1",
        "RUN-0402",
        "RUN-A",
        "R29",
    ),
];

#[test]
fn a_hostile_hand_in_a_sound_lot_is_stopped() {
    let sound = Sound::read();
    let passed: Vec<String> = HOSTILE
        .iter()
        .filter_map(|(file, anchor, from, to, rule)| {
            let mut set = sound.clone();
            set.swap_after(file, anchor, from, to);
            let dossier = set.dossier();
            let stopped: Vec<&str> = dossier
                .findings()
                .iter()
                .filter(|one| one.severity != Severity::Note)
                .map(|one| one.rule)
                .collect();
            (!stopped.contains(rule))
                .then(|| format!("{file}: {from} -> {to}: {stopped:?}, not {rule}"))
        })
        .collect();
    assert!(passed.is_empty(), "{}", passed.join("\n"));
}

#[test]
fn a_cold_joint_is_stopped_by_its_trace() {
    let mut set = Sound::read();
    set.trace("traces/sr-l26-31-c.csv", |text| {
        text.lines()
            .enumerate()
            .map(|(i, line)| match line.split_once(',') {
                Some((time, _)) if i > 0 => {
                    let rest = line
                        .splitn(3, ',')
                        .nth(2)
                        .map(|rest| format!(",{rest}"))
                        .unwrap_or_default();
                    format!("{time},180.0{rest}\n")
                }
                _ => format!("{line}\n"),
            })
            .collect()
    });
    assert!(set.dossier().findings().iter().any(|one| one.rule == "R60"));
}

//! What measurements, budgets and certificates cannot show, or show otherwise than they say: edits of the sound lot, with the rule that
//! must see each and the words in which it says so.

mod common;

use common::{Sound, rows, said};
use sealfolio::ground::finding::Severity;

#[test]
fn a_pack_is_cut_from_a_coil_that_was_slit_from_its_roll() {
    let mut sound = Sound::read();
    sound.swap(
        "pleating.yaml",
        "module_id: M-26-3101,",
        "module_id: M-26-3101, coil_id: RM-701-C1,",
    );
    assert!(said(&sound.dossier(), "R17").is_empty());
    sound.swap("pleating.yaml", "RM-701-C1,", "RM-701-C9,");
    let found = said(&sound.dossier(), "R17");
    assert!(
        found
            .iter()
            .any(|(weight, words)| *weight == Severity::Blocks
                && words.contains("no slitting_record is of that coil")),
        "{found:?}"
    );
}

const DECAY: &str = "traces/mt-26-3101-1-df.csv";

#[test]
fn gas_that_warms_or_settles_is_seen() {
    // 1.5 K in 300 s, with the pressure that it gives dry gas: the flow of dry gas stays.
    let mut sound = Sound::read();
    sound.trace(DECAY, |text| {
        rows(text, |t, p, warm| {
            let hot = warm + 1.5 * t / 300.0;
            let ratio = (hot + 273.15) / (warm + 273.15);
            ((p + 1006.2) * ratio - 1006.2, hot)
        })
    });
    let found = said(&sound.dossier(), "R93");
    assert!(
        found
            .iter()
            .any(|(weight, words)| *weight == Severity::Explain
                && words.contains("changed by 1.5")
                && words.contains("mL/min more")),
        "{found:?}"
    );
    // A pressure that recovers by 8 mbar with a time constant of 60 s hides flow in the first half.
    let mut sound = Sound::read();
    sound.trace(DECAY, |text| {
        rows(text, |t, p, warm| (p - 8.0 * libm::exp(-t / 60.0), warm))
    });
    let found = said(&sound.dossier(), "R93");
    assert!(
        found
            .iter()
            .any(|(_, words)| words.contains("the first half of the decay shows")),
        "{found:?}"
    );
}

#[test]
fn a_weak_coupon_is_not_left_out_by_a_note() {
    let mut sound = Sound::read();
    let inspection = sound.record("seals.yaml", "SI-L26-31-C");
    let destructive = inspection
        .lines()
        .find(|line| line.starts_with("destructive:"))
        .unwrap();
    let more = destructive.replacen(
        "results: [",
        "results: [{coupon: CP-L26-31-9, peel_force: \"12.0 N\", strip_width: \"15.0 mm\", failure_mode: adhesive, valid: false, note: \"slipped\"}, ",
        1,
    );
    sound.swap("seals.yaml", destructive, &more);
    let found = said(&sound.dossier(), "R52");
    assert!(
        found
            .iter()
            .any(|(weight, words)| *weight == Severity::Explain
                && words.contains("CP-L26-31-9 is not counted (slipped): 12.0 N, the least")),
        "{found:?}"
    );
}

#[test]
fn a_deviation_about_a_certificate_is_disclosed_where_it_vouched() {
    let mut sound = Sound::read();
    sound.deviation(
        "DV-T",
        "{record: \"CA-IT-11-26 revision 1\"}",
        "calibration",
        "concession",
        "",
    );
    assert!(said(&sound.dossier(), "R58").is_empty());
    sound.swap(
        "releases.yaml",
        "deviations_disclosed: [DV-T]",
        "deviations_disclosed: []",
    );
    let found = said(&sound.dossier(), "R58");
    assert!(
        found
            .iter()
            .any(|(weight, words)| *weight == Severity::Blocks
                && words.contains("DV-T touches L26-31 and is not disclosed")),
        "{found:?}"
    );
}

#[test]
fn steam_that_is_not_saturated_is_seen() {
    let mut sound = Sound::read();
    sound.trace("traces/cl-26-5-s012.csv", |text| {
        let mut out = String::new();
        for line in text.lines() {
            let (row, pressure) = line.rsplit_once(',').unwrap();
            let air = if pressure.starts_with("pressure") {
                pressure
            } else {
                "1013"
            };
            out.push_str(&format!("{row},{air}\n"));
        }
        out
    });
    let found = said(&sound.dossier(), "R72");
    assert!(
        found
            .iter()
            .any(|(weight, words)| *weight == Severity::Explain
                && words.contains("cycle 12: while hot its trace is 21.6 K away")),
        "{found:?}"
    );
}

#[test]
fn a_flow_far_below_zero_is_no_measurement() {
    let mut sound = Sound::read();
    sound.trace(DECAY, |text| rows(text, |t, p, warm| (p + 0.09 * t, warm)));
    let found = said(&sound.dossier(), "R47");
    assert!(
        found
            .iter()
            .any(|(weight, words)| *weight == Severity::Blocks
                && words.contains("below zero by more than its uncertainty")),
        "{found:?}"
    );
}

#[test]
fn a_volume_is_one_that_was_calibrated() {
    let mut sound = Sound::read();
    sound.swap(
        "module-tests/vf45.yaml",
        "upstream_volume: \"2.420 L\"",
        "upstream_volume: \"2.00 L\"",
    );
    let found = said(&sound.dossier(), "R31");
    assert!(
        found
            .iter()
            .any(|(_, words)| words.contains("the nearest that was calibrated is 2.420 L")),
        "{found:?}"
    );
}

#[test]
fn a_specification_that_permits_no_leak_in_flow_is_named() {
    let mut sound = Sound::read();
    sound.swap("specifications.yaml", ", permitted: \"2.5 mL/min\"", "");
    let found = said(&sound.dossier(), "R45");
    assert!(
        found
            .iter()
            .any(|(weight, words)| *weight == Severity::Note
                && words.contains("in uncertainties alone")),
        "{found:?}"
    );
}

#[test]
fn an_element_that_is_held_needs_no_instrument_in_calibration() {
    let mut sound = Sound::read();
    // The rig of the assemblies ran out before they were tested; one of them is held and left out.
    sound.swap_after(
        "instruments.yaml",
        "CA-IT-12-26",
        "valid_until: \"2027-01-19\"",
        "valid_until: \"2026-02-19\"",
    );
    let weights = |sound: &Sound| {
        let found = said(&sound.dossier(), "R30");
        let of = |id: &str| {
            let one = found.iter().find(|(_, words)| words.contains(id));
            one.map(|(weight, _)| *weight)
        };
        (of("AT-26-2101-1"), of("AT-26-2102-1"))
    };
    assert_eq!(
        weights(&sound),
        (Some(Severity::Blocks), Some(Severity::Blocks))
    );
    let text = sound.text("releases.yaml");
    let left = text
        .lines()
        .find(|line| line.contains("assemblies: ["))
        .unwrap()
        .to_owned();
    sound.swap(
        "releases.yaml",
        &left,
        &left.replace(", A-26-2102", "").replace("A-26-2102, ", ""),
    );
    sound.deviation(
        "DV-T",
        "{assembly_id: A-26-2102}",
        "calibration",
        "hold",
        "",
    );
    assert_eq!(
        weights(&sound),
        (Some(Severity::Blocks), Some(Severity::Note))
    );
}

/// The plate of run C is to stand at 255 °C to 280 °C. Of its 23 readings the middle half are 13: the 6th to the 18th.
#[test]
fn a_seal_that_was_hot_for_nearly_half_its_time_is_seen() {
    let spoilt = |hot: std::ops::Range<usize>| {
        let mut sound = Sound::read();
        sound.trace("traces/sr-l26-31-c.csv", |text| {
            let row = |(n, line): (usize, &str)| match line.split_once(',') {
                Some((time, _)) if hot.contains(&n) => format!("{time},330.0\n"),
                _ => format!("{line}\n"),
            };
            text.lines().enumerate().map(row).collect()
        });
        said(&sound.dossier(), "R60")
    };
    let found = spoilt(8..19);
    assert!(
        found
            .iter()
            .any(|(weight, words)| *weight == Severity::Blocks
                && words.contains("11 of 13 readings lie outside, 330 °C to 330 °C")),
        "{found:?}"
    );
    // As many at the ends are heating up and cooling down.
    assert!(spoilt(1..6).is_empty());
}

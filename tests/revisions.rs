//! A second revision takes nothing away unseen: what was measured, made or looked at stays unless a decided deviation names
//! the record; and what was laid down, approved or allowed too late does not count as if it had been there.

mod common;

use common::{Sound, said};
use sealfolio::ground::finding::Severity;

/// A record as it was, and a second revision of it without what was in the way.
fn revised(file: &str, id: &str, bad: (&str, &str)) -> Sound {
    let mut sound = Sound::read();
    let second = sound.record(file, id).replacen(
        "revision: 1",
        &format!(
            "revision: 2\nsupersedes: {{id: {id}, revision: 1}}\nchange_reason: \"typing error\""
        ),
        1,
    );
    sound.swap_after(file, id, bad.0, bad.1);
    sound.add(file, &second);
    sound
}

#[test]
fn a_bad_value_does_not_go_with_a_revision() {
    const MODULES: &str = "module-tests/vf45.yaml";
    let cases = [
        (
            "retention.yaml",
            "RC-26-14",
            ("colonies: 0}", "colonies: 400}"),
            "colonies was the number 400, is the number 0",
        ),
        (
            "membrane-tests.yaml",
            "MB-26-41",
            ("\"2.82 bar\"", "\"2.20 bar\""),
            "was \"2.20 bar\", is \"2.82 bar\"",
        ),
        (
            MODULES,
            "MT-26-3101-1",
            (
                "wetting_flush_volume: \"8.2 L\"",
                "wetting_flush_volume: \"2.1 L\"",
            ),
            "was \"2.1 L\", is \"8.2 L\"",
        ),
        (
            MODULES,
            "MT-26-3101-1",
            (
                "upstream_volume: \"2.420 L\"",
                "upstream_volume: \"4.840 L\"",
            ),
            "upstream_volume was \"4.840 L\"",
        ),
        (
            MODULES,
            "MT-26-3101-1",
            ("module_id: M-26-3101", "module_id: M-26-3102"),
            "module_id was \"M-26-3102\", is \"M-26-3101\"",
        ),
        (
            "assemblies.yaml",
            "AB-26-2101",
            ("ring_turns_freely: true", "ring_turns_freely: false"),
            "ring_turns_freely was the truth value false",
        ),
        (
            "assemblies.yaml",
            "AB-26-2101",
            ("M-26-3102", "M-26-3108"),
            "was \"M-26-3108\", is \"M-26-3102\"",
        ),
        (
            "marks.yaml",
            "MK-L26-31",
            ("legible: true", "legible: false"),
            "legible was the truth value false",
        ),
    ];
    for (file, id, bad, words) in cases {
        let found = said(&revised(file, id, bad).dossier(), "R90");
        assert!(
            matches!(&found[..], [(Severity::Explain, said)] if said.contains(words)),
            "{id}: {found:?}"
        );
    }
}

#[test]
fn what_a_revision_adds_takes_nothing_away() {
    let mut sound = Sound::read();
    let first = sound.record("retention.yaml", "RC-26-14");
    let second = first
        .replacen("revision: 1", "revision: 2\nsupersedes: {id: RC-26-14, revision: 1}\nchange_reason: \"a third run\"", 1)
        .replacen("runs:\n", "runs:\n  - {run: 3, sample: RM-701-S7, exposed_area: \"13.8 cm2\", challenge_total: \"1.60e8 CFU\", challenge_per_area: \"1.16e7 CFU/cm2\", differential_pressure: \"0.50 bar\", filtrate_volume: \"500 mL\", fraction_assayed: 1.0, colonies: 0}\n", 1);
    sound.add("retention.yaml", &second);
    assert_eq!(said(&sound.dossier(), "R90"), Vec::new());
}

#[test]
fn only_a_deviation_that_names_the_record_explains_it() {
    let spoiled = || {
        revised(
            "membrane-tests.yaml",
            "MB-26-41",
            ("\"2.82 bar\"", "\"2.20 bar\""),
        )
    };
    let decided = |subject: &str, category: &str| {
        let mut sound = spoiled();
        sound.deviation("DV-T", subject, category, "concession", "");
        said(&sound.dossier(), "R90").remove(0).0
    };
    assert_eq!(
        decided("{record: MB-26-41 revision 2}", "data"),
        Severity::Note
    );
    assert_eq!(
        decided("{lot_id: L26-31, material: RM-701}", "data"),
        Severity::Explain
    );
    assert_eq!(decided("{record: MB-26-41}", "data"), Severity::Explain);
    assert_eq!(
        decided("{record: MB-26-41 revision 2}", "calibration"),
        Severity::Explain
    );
}

#[test]
fn a_challenge_is_taken_out_by_an_exclusion_alone() {
    let decided = |category: &str| {
        let mut sound = Sound::read();
        sound.swap("retention.yaml", "colonies: 0}", "colonies: 400}");
        sound.deviation("DV-T", "{record: RC-26-14}", category, "concession", "");
        said(&sound.dossier(), "R65").remove(0).0
    };
    assert_eq!(decided("data"), Severity::Blocks);
    assert_eq!(decided("exclusion"), Severity::Note);
}

#[test]
fn limits_are_laid_down_before_what_they_judge() {
    let mut sound = Sound::read();
    let text = sound.text("specifications.yaml");
    let line = text
        .lines()
        .find(|line| line.starts_with("recorded_at"))
        .unwrap()
        .to_owned();
    sound.swap(
        "specifications.yaml",
        &line,
        "recorded_at: \"2026-06-01T10:00:00+02:00\"",
    );
    let found = said(&sound.dossier(), "R39");
    assert!(
        found
            .iter()
            .any(|(weight, words)| *weight == Severity::Explain
                && words.contains("was recorded 2026-06-01")),
        "{found:?}"
    );
}

#[test]
fn what_is_written_beside_a_trace_or_a_period_agrees_with_it() {
    let mut sound = Sound::read();
    sound.swap(
        "module-tests/vf45.yaml",
        "\ngas_temperature: \"20.",
        "\ngas_temperature: \"23.",
    );
    let found = said(&sound.dossier(), "R41");
    assert!(
        found
            .iter()
            .any(|(_, words)| words.contains("the gas of the trace is at 20.")),
        "{found:?}"
    );
    let mut sound = Sound::read();
    sound.swap(
        "releases.yaml",
        "retention_until: \"2036-",
        "retention_until: \"2035-",
    );
    let found = said(&sound.dossier(), "R76");
    assert!(
        found
            .iter()
            .any(|(_, words)| words.contains("retention_period")),
        "{found:?}"
    );
    // What an instrument measured is told in its own unit, at the record that went beyond.
    let mut sound = Sound::read();
    sound.swap(
        "instruments.yaml",
        "nominal: \"160 um\"",
        "nominal: \"120 um\"",
    );
    let found = said(&sound.dossier(), "R31");
    assert!(found[0].1.contains(" µm, calibrated from "), "{found:?}");
}

#[test]
fn every_join_is_made_once_and_looked_at() {
    let joins = |from: &str, to: &str| {
        let mut sound = Sound::read();
        sound.swap("assemblies.yaml", from, to);
        said(&sound.dossier(), "R61")
    };
    let twice = joins("{joint: 2, between: [2, 3]", "{joint: 2, between: [1, 2]");
    assert!(
        twice
            .iter()
            .any(|(_, words)| words.contains("2 joins are recorded between positions 1 and 2")),
        "{twice:?}"
    );
    assert!(
        twice
            .iter()
            .any(|(_, words)| words.contains("0 joins are recorded between positions 2 and 3")),
        "{twice:?}"
    );
    let mut sound = Sound::read();
    sound.swap(
        "seals.yaml",
        "{assembly_id: A-26-2102, joint: 2, bead",
        "{assembly_id: A-26-2102, joint: 1, bead",
    );
    let unseen = said(&sound.dossier(), "R61");
    assert!(
        unseen
            .iter()
            .any(|(weight, words)| *weight == Severity::Blocks
                && words.contains("nobody looked at join 2")),
        "{unseen:?}"
    );
    let mut sound = Sound::read();
    sound.swap("seals.yaml", "bead: continuous", "bead: interrupted");
    let open = said(&sound.dossier(), "R61");
    assert!(
        open.iter().any(
            |(weight, words)| *weight == Severity::Blocks && words.contains("bead interrupted")
        ),
        "{open:?}"
    );
}

#[test]
fn a_seal_that_was_made_after_its_test_is_out_of_order() {
    let mut sound = Sound::read();
    let run = sound.record("seals.yaml", "SR-L26-31-J");
    let line = run
        .lines()
        .find(|line| line.starts_with("recorded_at"))
        .unwrap();
    let late = run.replace(line, "recorded_at: \"2026-03-19T10:00:00+01:00\"");
    let text = sound.text("seals.yaml").replace(&run, &late);
    sound.files.insert("seals.yaml".into(), text.into_bytes());
    let found = said(&sound.dossier(), "R23");
    assert!(
        found
            .iter()
            .any(|(_, words)| words.contains("seal run SR-L26-31-J")),
        "{found:?}"
    );
}

#[test]
fn a_retest_says_what_it_repeats_and_where_its_cause_shows() {
    let flaws = |head: &str, cause: &str| {
        let mut sound = Sound::read();
        sound.retest(2, head);
        sound.deviation(
            "DV-T",
            "{module: M-26-3107}",
            "retest",
            "accept_after_retest",
            cause,
        );
        said(&sound.dossier(), "R56")
    };
    let head =
        "retest_of: MT-26-3107-1\nretest_deviation: DV-T\nretest_reason_code: housing_leak\n";
    let cause = |evidence: &str| {
        format!(
            "cause: {{known: true, reason_code: housing_leak, evidence: \"{evidence}\"}}\nretest_allowed_by: P-08\nretest_authorised_at: \"2026-03-12T12:00:00+01:00\"\n"
        )
    };
    let good = flaws(head, &cause("the seal of the housing in MT-26-3107-1"));
    assert_eq!(good, Vec::new());
    let nowhere = flaws(head, &cause("yes"));
    assert!(
        nowhere[0].1.contains("names no record or file"),
        "{nowhere:?}"
    );
    let of_none = flaws(
        &head.replace("retest_of: MT-26-3107-1\n", ""),
        &cause("MT-26-3107-1"),
    );
    assert!(of_none[0].1.contains("no retest_of"), "{of_none:?}");
}

#[test]
fn what_has_a_result_was_measured() {
    let mut sound = Sound::read();
    sound.swap(
        "membrane-tests.yaml",
        "disc_diameter: \"47 mm\"",
        "disc_diameter: \"47 mm\", not_measured_reason: \"no time\"",
    );
    let found = said(&sound.dossier(), "R03");
    assert!(
        found
            .iter()
            .any(|(_, words)| words
                .contains("bubble_point is said not to be measured and has a result")),
        "{found:?}"
    );
    // The same by a second revision is a change, and so are readings that thin out the first ones.
    let second = |from: &str, to: &str| {
        let mut sound = Sound::read();
        let new = sound
            .record("membrane-tests.yaml", "MB-26-41")
            .replacen(
                "revision: 1",
                "revision: 2\nsupersedes: {id: MB-26-41, revision: 1}\nchange_reason: \"added\"",
                1,
            )
            .replacen(from, to, 1);
        sound.add("membrane-tests.yaml", &new);
        said(&sound.dossier(), "R90")
    };
    let reason = second(
        "disc_diameter: \"47 mm\"",
        "disc_diameter: \"47 mm\", not_measured_reason: \"no time\"",
    );
    assert!(
        reason[0].1.contains("not_measured_reason is added"),
        "{reason:?}"
    );
    let more = second(
        "\"2.82 bar\", \"2.86 bar\"",
        "\"2.90 bar\", \"2.90 bar\", \"2.82 bar\", \"2.86 bar\"",
    );
    assert!(more[0].1.contains("readings has 2 more"), "{more:?}");
}

#[test]
fn a_record_does_not_supersede_what_is_not_there() {
    let mut sound = Sound::read();
    sound.swap_after(
        "membrane-tests.yaml",
        "MB-26-41",
        "revision: 1",
        "revision: 2\nsupersedes: {id: MB-0, revision: 1}\nchange_reason: \"typing error\"",
    );
    let found = said(&sound.dossier(), "R78");
    assert!(
        found.iter().any(|(_, words)| words
            .contains("MB-26-41 supersedes MB-0 revision 1, which is not in this folder")),
        "{found:?}"
    );
}

#[test]
fn a_specification_that_its_author_approved_does_not_hide_behind_a_later_revision() {
    let mut sound = Sound::read();
    let first = sound.record("specifications.yaml", "SP-45");
    let second = first
        .replacen(
            "revision: 1",
            "revision: 2\nsupersedes: {id: SP-45, revision: 1}\nchange_reason: \"none\"",
            1,
        )
        .replacen(
            "effective_from: \"2026-01-19\"",
            "effective_from: \"2026-12-01\"",
            1,
        );
    sound.swap(
        "specifications.yaml",
        "approved_by: P-01",
        "approved_by: P-06",
    );
    sound.add("specifications.yaml", &second);
    let found = said(&sound.dossier(), "R91");
    assert!(
        found
            .iter()
            .any(|(_, words)| words.contains("P-06 both wrote and approved it")),
        "{found:?}"
    );
    // What the next revision mended before anything was judged by it is no dead end.
    for file in [
        "module-tests/vf45.yaml",
        "assembly-tests/vf45.yaml",
        "membrane-tests.yaml",
    ] {
        let text = sound
            .text(file)
            .replace("{id: SP-45, revision: 1}", "{id: SP-45, revision: 2}");
        sound.files.insert(file.into(), text.into_bytes());
    }
    assert_eq!(said(&sound.dossier(), "R91"), Vec::new());
}

#[test]
fn an_assembly_is_built_once() {
    let mut sound = Sound::read();
    let other = sound
        .record("assemblies.yaml", "AB-26-2101")
        .replace("AB-26-2101", "AB-26-2101B");
    sound.add("assemblies.yaml", &other);
    let found = said(&sound.dossier(), "R12");
    assert!(
        found
            .iter()
            .any(|(weight, words)| *weight == Severity::Blocks
                && words.contains("A-26-2101 has 2 build records: AB-26-2101, AB-26-2101B")),
        "{found:?}"
    );
}

#[test]
fn who_writes_a_revision_may_do_so_on_that_day() {
    let mut sound = Sound::read();
    let second = sound
        .record("membrane-tests.yaml", "MB-26-41")
        .replacen(
            "revision: 1\nrecorded_at: \"2026-02-23T09:42:00+01:00\"",
            "revision: 2\nsupersedes: {id: MB-26-41, revision: 1}\nchange_reason: \"a remark\"\nrecorded_at: \"2027-01-04T09:42:00+01:00\"",
            1,
        );
    sound.add("membrane-tests.yaml", &second);
    let found = said(&sound.dossier(), "R35");
    assert!(
        found
            .iter()
            .any(|(_, words)| words.contains("MB-26-41 of 2027-01-04 is by P-03")),
        "{found:?}"
    );
}

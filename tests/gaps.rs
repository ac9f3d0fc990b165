//! Gaps that were found by trying to release what ought not to be: each is one edit of the sound lot, the rule that must see it and
//! the words in which it says so.

mod common;

use common::{Sound, said};
use sealfolio::ground::finding::Severity;

/// A file, an edit of it, the rule and its words; every one blocks.
const BLOCKED: &[(&str, &str, &str, &str, &str)] = &[
    (
        "assembly-tests/vf45.yaml",
        "test_stage: final_after_adapter_and_tip\n",
        "",
        "R02",
        "test_stage is not stated",
    ),
    (
        "assembly-tests/vf45.yaml",
        "test_stage: final_after_adapter_and_tip",
        "test_stage: final",
        "R02",
        "test_stage is final",
    ),
    (
        "membrane-tests.yaml",
        "  - {quantity: thickness, readings",
        "  # - {quantity: thickness, readings",
        "R02",
        "the specification limits its thickness",
    ),
    (
        "marks.yaml",
        "  - {item: M-26-3101, text_read: \"VF45 L26-31 0.45 um 3101\", legible: true}\n",
        "",
        "R02",
        "M-26-3101",
    ),
    (
        "marks.yaml",
        "expected: {product_code: VF45, batch: L26-31, nominal_rating: \"0.45 um\"}",
        "expected: {product_code: VF45}",
        "R62",
        "expects no batch, nominal_rating",
    ),
    (
        "pleating.yaml",
        "core_lot: CO-36\n",
        "",
        "R17",
        "names no lot of its core",
    ),
    (
        "seals.yaml",
        "end_cap_lot: PC-31\n",
        "",
        "R17",
        "names no lot of its end caps",
    ),
    (
        "releases.yaml",
        "The items named conform",
        "The items named do not conform",
        "R76",
        "a statement that the items conform",
    ),
    (
        "releases.yaml",
        "  - {document: SP-45, revision: 1}\n",
        "",
        "R76",
        "the specification among the requirements",
    ),
    (
        "releases.yaml",
        "retention_until: \"2036-12-31\"",
        "retention_until: \"2036-12-31\"\nauthorised_person: P-02",
        "R76",
        "as the authorised person",
    ),
    (
        "releases.yaml",
        "deviations_disclosed: []",
        "deviations_disclosed: [DV-26-77]",
        "R58",
        "DV-26-77, which is not in this folder",
    ),
    (
        "releases.yaml",
        "issued_on: \"2026-03-25\"",
        "issued_on: \"2026-03-20\"",
        "R37",
        "issued 2026-03-20",
    ),
    (
        "marks.yaml",
        "recorded_at: \"2026-03-19T15:10:00+01:00\"",
        "recorded_at: \"2026-05-19T15:10:00+01:00\"",
        "R37",
        "before MK-L26-31",
    ),
    (
        "seals.yaml",
        "  - {module_id: M-26-3101, end: outlet, bead",
        "  # - {module_id: M-26-3101, end: outlet, bead",
        "R61",
        "of its two ends closed were looked at",
    ),
    (
        "seals.yaml",
        "{module_id: M-26-3101, end: outlet",
        "{module_id: M-26-3101, end: closed",
        "R61",
        "its end \"closed\" stands twice",
    ),
    (
        "seals.yaml",
        "end: outlet, bead: continuous, discolouration",
        "end: outlet, discolouration",
        "R61",
        "passed without a word of bead",
    ),
    (
        "seals.yaml",
        "bead_width: \"2.0 mm\", gap_or_slit: \"none\"",
        "bead_width: \"0.0 mm\", gap_or_slit: \"none\"",
        "R61",
        "a bead that has no width",
    ),
    (
        "seals.yaml",
        "setpoints: {emitter_temperature: \"810 degC\"",
        "setpoints: {emitter_temperature: \"900 degC\"",
        "R60",
        "emitter_temperature was set to 900 degC",
    ),
    (
        "assemblies.yaml",
        "overall_length: \"",
        "overall_length: \"1",
        "R13",
        "joining takes length away",
    ),
    (
        "retention.yaml",
        "recovery: \"92 %\"",
        "recovery: \"2 %\"",
        "R66",
        "shows nothing",
    ),
    (
        "flow.yaml",
        "stage: after_regeneration",
        "stage: new",
        "R85",
        "that of a new element, after 14 cycles",
    ),
    (
        "specifications.yaml",
        "module_effective_filtration_area: \"0.58 m2\"",
        "module_effective_filtration_area: \"0.62 m2\"",
        "R04",
        "the specification says 0.62 m2 a module",
    ),
    (
        "service.yaml",
        "end: \"2026-09-14T17:00:00+02:00\"",
        "end: \"2026-09-14T07:00:00+02:00\"",
        "R73",
        "run B-40 ends before it begins",
    ),
    (
        "retention.yaml",
        "end: \"2026-03-04T15:00:00+01:00\"",
        "end: \"2026-02-04T15:00:00+01:00\"",
        "R66",
        "incubated until",
    ),
    (
        "assemblies.yaml",
        ", ring_radial_clearance: \"0.81 mm\"}",
        "}",
        "R61",
        "how much play the stainless ring has",
    ),
    (
        "assemblies.yaml",
        "10/2011)\", quantity: 2}",
        "10/2011)\", quantity: 0}",
        "R61",
        "said to have no o-ring",
    ),
    (
        "assembly-tests/vf45.yaml",
        "reference_conditions: {temperature: \"20.0 degC\"",
        "reference_conditions: {temperature: \"0.0 degC\"",
        "R41",
        "the limit counts gas at 20.0 degC",
    ),
    (
        "lots.yaml",
        "assemblies_built: 2",
        "assemblies_built: 3",
        "R19",
        "3 assemblies are said to be built, and 2 are listed",
    ),
    (
        "lots.yaml",
        "8 = 5 + 1 + 2",
        "8 = 4 + 1 + 2",
        "R19",
        "does not add up",
    ),
    (
        "lots.yaml",
        "state: in_stock",
        "state: held",
        "R19",
        "M-26-3107 is held, and no deviation says why",
    ),
    (
        "service.yaml",
        "claim: {id: CC-45, revision: 1}",
        "claim: {id: CC-45, revision: 7}",
        "R71",
        "revision 7 of CC-45",
    ),
    (
        "service.yaml",
        "temperature_max: \"121.7 degC\"",
        "temperature_max: \"135 degC\"",
        "R71",
        "135.0 °C",
    ),
    (
        "assemblies.yaml",
        "type: solid_tip_drained, material_lot: TP-33",
        "type: solid_tip_drained, material_lot: RG-34",
        "R21",
        "as end piece, and RG-34 is of material_type stainless_ring",
    ),
    (
        "membrane-tests.yaml",
        "liquid_temperature: \"20.0 degC\"",
        "liquid_temperature: \"32.0 degC\"",
        "R41",
        "1.31 times as easily",
    ),
    (
        "instruments.yaml",
        "expanded_uncertainty: \"0.030 L\"",
        "expanded_uncertainty: \"0.075 L\"",
        "R87",
        "leaves 1.6 % in doubt",
    ),
    (
        "instruments.yaml",
        "as_left_error: \"+0.008 L\"",
        "as_left_error: \"-0.140 L\"",
        "R87",
        "leaves 5.8 % in doubt",
    ),
    (
        "specifications.yaml",
        "permitted: \"2.5 mL/min\"",
        "permitted: \"1.2 mL/min\"",
        "R45",
        "is the most that the specification permits: it is not fit",
    ),
    (
        "retention.yaml",
        "fraction_assayed: 1.0, colonies: 0",
        "fraction_assayed: 1.0, colonies: 4",
        "R66",
        "states \"no passage\", and run 1 counts 4",
    ),
    (
        "retention.yaml",
        "fraction_assayed: 1.0, colonies: 0",
        "fraction_assayed: 1.0, pre_test_bubble_point: \"3.72 bar\", post_test_bubble_point: \"2.10 bar\", colonies: 0",
        "R66",
        "fell from 3.72 bar to 2.10 bar",
    ),
    (
        "retention.yaml",
        "challenge_total: \"1.62e8 CFU\", challenge_per_area: \"1.2e7 CFU/cm2\"",
        "challenge_total: \"3.1e7 CFU ± 1.2e7 CFU (k = 1)\", challenge_per_area: \"2.2e6 CFU/cm2\"",
        "R65",
        "show LRV ≥ 7.01",
    ),
];

#[test]
fn what_was_found_to_pass_no_longer_does() {
    for (file, from, to, rule, words) in BLOCKED {
        let mut sound = Sound::read();
        sound.swap(file, from, to);
        let found = said(&sound.dossier(), rule);
        assert!(
            found.iter().any(|(_, message)| message.contains(words)),
            "{file}: {from} -> {to}: {rule} says {found:?}"
        );
    }
}

#[test]
fn something_seen_in_a_seal_is_explained_or_not_used() {
    let mut sound = Sound::read();
    sound.swap(
        "seals.yaml",
        "inclusion: \"none\"",
        "inclusion: \"metal, 2 mm\"",
    );
    let found = said(&sound.dossier(), "R61");
    assert!(
        found
            .iter()
            .any(|(weight, words)| *weight == Severity::Explain && words.contains("metal, 2 mm")),
        "{found:?}"
    );
}

#[test]
fn a_run_without_coupons_is_seen_where_the_specification_samples() {
    let mut sound = Sound::read();
    let run = sound.record("seals.yaml", "SR-L26-31-C");
    let begin = run.find("coupons: [").unwrap();
    let end = begin + run[begin..].find(']').unwrap() + 1;
    sound.swap("seals.yaml", &run[begin..end], "coupons: []");
    let inspection = sound.record("seals.yaml", "SI-L26-31-C");
    let destructive = inspection
        .lines()
        .find(|line| line.starts_with("destructive:"))
        .unwrap();
    sound.swap("seals.yaml", destructive, "");
    let found = said(&sound.dossier(), "R52");
    assert!(
        found
            .iter()
            .any(|(_, words)| words.contains("SR-L26-31-C: the specification samples")),
        "{found:?}"
    );
}

#[test]
fn one_revision_of_a_document_is_one_window() {
    let mut sound = Sound::read();
    let run = sound.record("seals.yaml", "SR-L26-31-C");
    let again = run
        .replace("SR-L26-31-C", "SR-L26-31-D")
        .replace("9 s .. 13 s", "9 s .. 15 s");
    sound.add("seals.yaml", &again);
    let found = said(&sound.dossier(), "R60");
    assert!(
        found
            .iter()
            .any(|(_, words)| words.contains("for windows that differ")),
        "{found:?}"
    );
}

#[test]
fn a_cause_is_known_and_shows_somewhere() {
    let with = |cause: &str| {
        let mut sound = Sound::read();
        sound.retest(
            2,
            "retest_of: MT-26-3107-1\nretest_deviation: DV-T\nretest_reason_code: housing_leak\n",
        );
        sound.deviation(
            "DV-T",
            "{module: M-26-3107, test: MT-26-3107-1}",
            "retest",
            "accept_after_retest",
            &format!("retest_allowed_by: P-08\nretest_authorised_at: \"2026-03-13T12:00:00+01:00\"\n{cause}"),
        );
        let found = said(&sound.dossier(), "R56");
        found
            .into_iter()
            .map(|(_, words)| words)
            .collect::<Vec<_>>()
            .join("\n")
    };
    assert!(with("").contains("does not say whether the cause is known"));
    assert!(
        with("cause: {known: true, text: \"slip\"}").contains("is known, and not what shows it")
    );
    let shown =
        with("cause: {known: true, text: \"slip\", evidence: \"pressure in MT-26-3107-1\"}");
    assert!(!shown.contains("cause"), "{shown}");
}

#[test]
fn a_decision_after_the_release_was_none_before_it() {
    let mut sound = Sound::read();
    sound.deviation("DV-T", "{module: M-26-3107}", "exclusion", "concession", "");
    assert!(said(&sound.dossier(), "R58").is_empty());
    sound.swap(
        "deviations.yaml",
        "approved_at: \"2026-03-13T13:00:00+01:00\"",
        "approved_at: \"2026-09-01T13:00:00+01:00\"",
    );
    let found = said(&sound.dossier(), "R58");
    assert!(
        found
            .iter()
            .any(|(_, words)| words.contains("after RS-L26-31 was signed for release")),
        "{found:?}"
    );
}

/// Who wrote the first revision made the record too, whoever wrote the next one.
#[test]
fn a_second_revision_takes_no_authorship_away() {
    let mut sound = Sound::read();
    let first = sound.record("seals.yaml", "SI-L26-31-C");
    let by = |record: &str, person: &str| {
        record.replace("recorded_by: P-05", &format!("recorded_by: {person}"))
    };
    assert!(first.contains("recorded_by: P-05"));
    sound.swap("seals.yaml", &first, &by(&first, "P-02"));
    let head = "record_id: SI-L26-31-C\nrevision: 1\n";
    let second = by(&first, "P-05").replace(
        head,
        "record_id: SI-L26-31-C\nrevision: 2\nsupersedes: {id: SI-L26-31-C, revision: 1}\nchange_reason: \"copied anew\"\n",
    );
    assert!(first.contains(head));
    sound.add("seals.yaml", &second);
    let found = said(&sound.dossier(), "R36");
    assert!(
        found
            .iter()
            .any(|(_, words)| words.contains("P-02 signs as review and also recorded SI-L26-31-C")),
        "{found:?}"
    );
}

/// One cycle's readings with another's day are one cycle's readings.
#[test]
fn a_cycle_is_not_told_twice() {
    let mut sound = Sound::read();
    let first = sound.text("traces/cl-26-5-s012.csv");
    // The same readings, and not the same bytes.
    sound.trace("traces/cl-26-5-s013.csv", |_| {
        first.replacen("121.", "122.", 1)
    });
    let found = said(&sound.dossier(), "R49");
    assert!(
        found
            .iter()
            .any(|(_, words)| words.contains("cl-26-5-s013.csv")),
        "{found:?}"
    );
}

/// Nobody is called "Name of the reviewer": what the form has is not released, and every word of it is known.
#[test]
fn words_of_the_form_are_not_released() {
    use sealfolio::dossier::FORM;
    let mut sound = Sound::read();
    let text = sound.text("people.yaml");
    let from = text.find("printed_name: \"").unwrap() + 15;
    let name = &text[from..from + text[from..].find('"').unwrap()];
    sound.swap("people.yaml", name, "Name of the reviewer");
    let found = said(&sound.dossier(), "R01");
    assert!(
        found
            .iter()
            .any(|(weight, words)| *weight == Severity::Blocks
                && words.contains("as the form has it")),
        "{found:?}"
    );
    let kept = tempfile::tempdir().unwrap();
    let own = kept.path().join("own");
    assert_eq!(common::code(&["new", own.to_str().unwrap()]).0, 0);
    let all: String = ["dossier.yaml", "people.yaml"]
        .map(|file| std::fs::read_to_string(own.join(file)).unwrap())
        .concat();
    for word in FORM {
        assert!(all.contains(word), "{word}");
    }
}

#[test]
fn a_right_that_was_written_afterwards_is_told() {
    let mut sound = Sound::read();
    let text = sound.text("people.yaml");
    let begin = text.find("kind: personnel_authorisation").unwrap();
    let at = begin + text[begin..].find("recorded_at: \"").unwrap() + 14;
    let day = text[at..at + 10].to_owned();
    sound.swap_after(
        "people.yaml",
        "kind: personnel_authorisation",
        &day,
        "2026-09-01",
    );
    let found = said(&sound.dossier(), "R35");
    assert!(
        found
            .iter()
            .any(|(weight, words)| *weight == Severity::Explain
                && words.contains("was recorded on 2026-09-01")),
        "{found:?}"
    );
}

/// A revision that says it was in force before it was written judges nothing that was tested before.
#[test]
fn a_limit_is_not_dated_back() {
    let mut sound = Sound::read();
    let first = sound.record("specifications.yaml", "SP-45");
    let at = first.find("recorded_at: \"").unwrap() + 14;
    let second = first
        .replacen(&first[at..at + 10], "2026-09-20", 1)
        .replacen(
            "revision: 1\n",
            "revision: 2\nsupersedes: {id: SP-45, revision: 1}\nchange_reason: \"wider\"\n",
            1,
        )
        .replace("<= 14.0 mL/min", "<= 24.0 mL/min");
    sound.add("specifications.yaml", &second);
    let found = said(&sound.dossier(), "R39");
    assert!(
        found.iter().any(
            |(_, words)| words.contains("SP-45 revision 2 was recorded 2026-09-20")
                && words.contains("it judges none of the")
        ),
        "{found:?}"
    );
    assert!(
        !found
            .iter()
            .any(|(_, words)| words.contains("revision 2 was in force")),
        "{found:?}"
    );
}

/// What a plant may well do is no finding: ends looked at in two inspections, one sample for two runs of a lot, a pack without a cage.
#[test]
fn other_ways_of_doing_it_are_not_flaws() {
    let mut sound = Sound::read();
    let whole = sound.record("seals.yaml", "SI-L26-31-C");
    let outlet = |line: &&str| line.contains("end: outlet");
    let keep = |wanted: bool| -> String {
        let lines = whole
            .lines()
            .filter(|line| !line.contains("module_id:") || outlet(line) == wanted);
        lines.map(|line| format!("{line}\n")).collect()
    };
    let second: String = keep(true)
        .replace("SI-L26-31-C", "SI-L26-31-D")
        .lines()
        .filter(|line| !line.starts_with("destructive:") && !line.starts_with("sampling_plan:"))
        .map(|line| format!("{line}\n"))
        .collect();
    sound.swap("seals.yaml", &whole, &keep(false));
    sound.add("seals.yaml", &second);
    assert!(said(&sound.dossier(), "R61").is_empty());

    let mut sound = Sound::read();
    let run = sound.record("seals.yaml", "SR-L26-31-J");
    let begin = run.find("coupons: [").unwrap();
    let end = begin + run[begin..].find(']').unwrap() + 1;
    let second = run
        .replace("SR-L26-31-J", "SR-L26-31-K")
        .replace(&run[begin..end], "coupons: []");
    sound.add("seals.yaml", &second);
    let found = said(&sound.dossier(), "R52");
    assert!(
        !found
            .iter()
            .any(|(_, words)| words.contains("the run has no coupon")),
        "{found:?}"
    );
    assert!(sealfolio::physics::fluid::is_water("Purified water"));
    assert!(!sealfolio::physics::fluid::is_water(
        "2-propanol and water, 60:40"
    ));
}

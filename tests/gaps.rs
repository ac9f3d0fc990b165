//! Gaps that were found by trying to release what ought not to be: each is one edit of the sound lot, the rule that must see it and
//! the words in which it says so.

mod common;

use common::{Sound, said};
use sealfolio::{figure::FigureId, ground::finding::Severity, stats::sampling};

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
        "R03",
        "the limit counts gas at 20.0 degC",
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

/// A cycle of steam that was never hot has treated nothing, whoever says that its trace is whole.
#[test]
fn a_cold_cycle_proves_nothing() {
    let proven = |sound: &Sound| {
        let dossier = sound.dossier();
        let all = dossier.graph.all("cycles-proven");
        let of_steam = all.filter(|computed| &*computed.id.part == "steam_in_place");
        of_steam
            .map(|computed| computed.quantity().unwrap().value)
            .sum::<f64>()
    };
    let mut sound = Sound::read();
    let before = proven(&sound);
    sound.trace("traces/cl-26-5-s012.csv", |text| {
        text.lines()
            .map(|line| match line.split_once(',') {
                Some((time, rest)) if rest.starts_with(|c: char| c.is_ascii_digit()) => {
                    let (value, more) = rest.split_once(',').map_or((rest, ""), |(a, b)| (a, b));
                    let half = value.parse::<f64>().unwrap() / 2.0;
                    match more {
                        "" => format!("{time},{half:.1}\n"),
                        more => format!("{time},{half:.1},{more}\n"),
                    }
                }
                _ => format!("{line}\n"),
            })
            .collect()
    });
    assert_eq!(proven(&sound), before - 1.0);
    let found = said(&sound.dossier(), "R72");
    assert!(
        found
            .iter()
            .any(|(_, words)| words.contains("never reaches the hold temperature")),
        "{found:?}"
    );
}

/// Half of the steps lost is no rule: what lies between three rows, two of which are near each other, was not recorded.
#[test]
fn an_hour_without_rows_is_a_gap() {
    use sealfolio::record::trace::Trace;
    let read = |text: &str| Trace::read(text.as_bytes(), '.', b',').unwrap();
    let trace = read("time_s,temperature_c\n0,121.5\n10,121.5\n3610,121.5\n");
    assert_eq!(trace.gaps(), [(1, 3600.0)]);
    let steady = read("time_s,temperature_c\n0,121.5\n10,121.5\n20,121.5\n30,121.5\n");
    assert!(steady.gaps().is_empty());
}

/// The scatter about one curve is one estimate with n − 2 degrees of freedom, however many parts of the curve it makes
/// uncertain: two curves of eight points cannot have more than 6 + 6.
#[test]
fn one_curve_has_its_degrees_of_freedom_once() {
    let dossier = Sound::read().dossier();
    let all = dossier.graph.all("flow-resistance-quadratic");
    let degrees: Vec<f64> = all
        .filter_map(|computed| Some(computed.quantity()?.degrees()))
        .collect();
    assert!(!degrees.is_empty());
    assert!(
        degrees.iter().all(|degrees| *degrees <= 12.0),
        "{degrees:?}"
    );
}

/// The plan accepts when at most c of n fail. Expected values: the hypergeometric distribution function of scipy 1.17
/// (`scipy.stats.hypergeom.cdf(c, lot, failing, n)`).
#[test]
fn large_lots_do_not_underflow() {
    use sampling::{Model, Plan, acceptance};
    for (n, c, failing, lot, due) in [
        (5000.0, 1300.0, 5000.0, 20000.0, HYPER[0]),
        (5000.0, 1000.0, 2000.0, 10000.0, HYPER[1]),
        (5000.0, 960.0, 2000.0, 10000.0, HYPER[2]),
        (5.0, 0.0, 3.0, 12.0, HYPER[3]),
    ] {
        let got = acceptance(Plan { n, c }, failing, Model::Hypergeometric { lot }).unwrap();
        assert!((got - due).abs() <= 1e-9 * due, "{n} {c}: {got} {due}");
    }
    let none = acceptance(
        Plan { n: 5000.0, c: 0.0 },
        2000.0,
        Model::Hypergeometric { lot: 10000.0 },
    );
    assert_eq!(none.unwrap(), 0.0);
}
const HYPER: [f64; 4] = [
    0.9713135080668835,
    0.5099722480666322,
    0.02412526928517494,
    0.1590909090909091,
];

/// At zero an error is an offset. A certificate with the point "0 mbar" once made every flow zero, and "conforms".
#[test]
fn an_error_at_zero_does_not_make_flows_vanish() {
    let mut sound = Sound::read();
    let first = sound.record("instruments.yaml", "CA-IT-11-26");
    let points = first.find("points:").unwrap();
    let later = first[..points]
        .replace("CA-IT-11-26", "CA-IT-11-27")
        .replace("2026-01-2", "2026-06-2");
    sound.add(
        "instruments.yaml",
        &format!("{later}points:\n  - {{quantity: pressure_gauge, nominal: \"0 mbar\", as_found_error: \"+200 mbar\", as_left_error: \"0 mbar\", expanded_uncertainty: \"0.5 mbar\", coverage_factor: 2, maximum_permissible_error: \"5 mbar\"}}\nas_found_within_limits: false\n"),
    );
    let dossier = sound.dossier();
    let all = sealfolio::rejudge::rejudged(&dossier.plant, &dossier.graph);
    let moved: Vec<_> = all.iter().flat_map(|again| &again.moved).collect();
    assert!(!moved.is_empty());
    for one in moved
        .iter()
        .filter(|one| one.before.id.figure == "diffusive-flow")
    {
        let before = one.before.quantity().unwrap().value;
        assert!(
            one.after.value >= before,
            "{}: {} {}",
            one.before.id,
            before,
            one.after.value
        );
    }
}

/// What changes with temperature through water is not known of another liquid.
#[test]
fn the_law_of_water_is_used_for_water_alone() {
    let mut sound = Sound::read();
    for file in ["module-tests/vf45.yaml", "assembly-tests/vf45.yaml"] {
        let text = sound.text(file).replace(
            "wetting_liquid: water",
            "wetting_liquid: \"2-propanol and water, 60:40\"",
        );
        sound.files.insert(file.into(), text.into_bytes());
    }
    sound.swap(
        "assembly-tests/vf45.yaml",
        "wetting_liquid_temperature: \"20.1 degC\"",
        "wetting_liquid_temperature: \"21.9 degC\"",
    );
    let dossier = sound.dossier();
    let mut all = dossier.graph.all("join-residual");
    assert!(all.any(|computed| {
        let why = computed.worked.as_ref().err();
        why.is_some_and(|why| why.contains("is not known here"))
    }));
}

/// Equal widths have no scatter, and no slope through which a stated uncertainty could go.
#[test]
fn an_uncertainty_that_cannot_be_carried_through_is_no_number() {
    let mut sound = Sound::read();
    let text = sound.text("slitting.yaml");
    let lines = text.lines().map(|line| match line.find("width: \"22") {
        Some(at) => {
            let end = at + 8 + line[at + 8..].find('"').unwrap();
            format!(
                "{}width: \"228.00 mm ± 0.02 mm (k = 2)\"{}\n",
                &line[..at],
                &line[end + 1..]
            )
        }
        None => format!("{line}\n"),
    });
    let text: String = lines.collect();
    sound
        .files
        .insert("slitting.yaml".into(), text.into_bytes());
    for (FigureId { figure, .. }, computed) in &sound.dossier().graph.computed {
        if let Ok(worked) = &computed.worked {
            assert!(
                worked.quantity.u().is_finite(),
                "{figure}: {}",
                computed.shown()
            );
        }
    }
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

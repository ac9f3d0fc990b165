//! What once passed because a rule looked at the first, the last or the nearest only: an edit of the sound lot, the rule that must see
//! it, how heavily, and its words.

mod common;

use common::{Case, Sound, said, sees, sees_all};
use sealfolio::ground::finding::Severity;

const RELEASED: &str = "meaning: release, signed_at: \"2026-03-25T14:50:00+01:00\"}\n";
const OPERATOR: &str = "meaning: release, signed_at: \"2026-03-25T14:50:00+01:00\"}\n  - {person_id: P-03, printed_name: \"Cora Flint (invented)\", function: integrity_test_operator, meaning: release, signed_at: \"2026-03-25T15:00:00+01:00\"}\n";

const ONE_EDIT: &[Case] = &[
    // A second signature of the same meaning, by who tested.
    (
        "releases.yaml",
        RELEASED,
        OPERATOR,
        "R36",
        Severity::Blocks,
        "P-03 signs as release on 2026-03-25 without being authorised",
    ),
    (
        "releases.yaml",
        RELEASED,
        OPERATOR,
        "R36",
        Severity::Blocks,
        "P-03 signs as release and also recorded",
    ),
    // A second review, after the release.
    (
        "releases.yaml",
        RELEASED,
        "meaning: release, signed_at: \"2026-03-25T14:50:00+01:00\"}\n  - {person_id: P-07, printed_name: \"Hale Reeve (invented)\", function: quality_reviewer, meaning: review, signed_at: \"2026-03-26T09:00:00+01:00\"}\n",
        "R37",
        Severity::Blocks,
        "review signed 2026-03-26",
    ),
    // Who wrote it may not, and who signs is of another function.
    (
        "releases.yaml",
        "{person_id: P-06, printed_name: \"Finn Sedge (invented)\", function: validation_engineer, meaning: authorship",
        "{person_id: P-05, printed_name: \"Edda Lark (invented)\", function: inspector, meaning: authorship",
        "R36",
        Severity::Blocks,
        "P-05 signs as authorship",
    ),
    (
        "releases.yaml",
        "function: quality_reviewer, meaning: review",
        "function: quality_manager, meaning: review",
        "R77",
        Severity::Blocks,
        "P-02 signs as quality_manager, and is authorised as quality_reviewer",
    ),
    // A seal whose coupons were tested for what such a seal is not limited by.
    (
        "seals.yaml",
        "seal_type: module_to_module",
        "seal_type: pack_to_end_cap",
        "R52",
        Severity::Blocks,
        "no coupon of SR-L26-31-J was tested for peel force",
    ),
    // Longer than the coil is wide; a dossier that replaces another and does not say which.
    (
        "pleating.yaml",
        "pleated_length: \"228 mm\"",
        "pleated_length: \"282 mm\"",
        "R04",
        Severity::Blocks,
        "282 mm are pleated, and no coil of RM-701 is as wide",
    ),
    (
        "dossier.yaml",
        "revision: 1\n",
        "revision: 2\nchange_reason: \"spoiled for a test\"\n",
        "R78",
        Severity::Blocks,
        "this dossier is revision 2 and does not say which it supersedes",
    ),
    // What is dated after the dossier, instruments of studies, words beside words.
    (
        "service.yaml",
        "removed_at: null",
        "removed_at: \"2027-09-01T06:30:00+02:00\"",
        "R28",
        Severity::Blocks,
        "2027-09-01 lies after",
    ),
    (
        "studies.yaml",
        "instrument_id: IT-11",
        "instrument_id: IT-99",
        "R30",
        Severity::Blocks,
        "IT-99 was used on",
    ),
    (
        "releases.yaml",
        "under the decision rule of SP-45 revision 1.\"",
        "under the decision rule of SP-45 revision 1; sterilising-grade for 50 cycles.\"",
        "R64",
        Severity::Blocks,
        "Brevundimonas",
    ),
    (
        "releases.yaml",
        "under the decision rule of SP-45 revision 1.\"",
        "under the decision rule of SP-45 revision 1; steam 123 degC or 140°C.\"",
        "R64",
        Severity::Blocks,
        "140",
    ),
    (
        "materials.yaml",
        "all foods up to 125 degC / 30 min",
        "all foods up to 60°C / 30 min",
        "R68",
        Severity::Explain,
        "60°C",
    ),
    // A file under the name of another, a digest that is none: told as what they are.
    (
        "instruments.yaml",
        "attachments/ca-it-11-26.txt",
        "attachments/ca-it-11-27.txt",
        "R09",
        Severity::Blocks,
        "attachments/ca-it-11-26.txt has the digest that is stated for it",
    ),
    (
        "instruments.yaml",
        "sha256: \"3012bf97392d",
        "sha256: \"x012bf97392d",
        "R09",
        Severity::Blocks,
        "which is no SHA-256",
    ),
    // Words that deny what they name.
    (
        "service.yaml",
        "every cycle with a trace",
        "not every cycle with a trace",
        "R70",
        Severity::Note,
        "",
    ),
];

#[test]
fn the_second_of_a_kind_counts_like_the_first() {
    let words: Vec<Case> = ONE_EDIT
        .iter()
        .filter(|case| !case.5.is_empty())
        .copied()
        .collect();
    sees_all(&words);
    let proven = |sound: &Sound| {
        let dossier = sound.dossier();
        let found = dossier
            .graph
            .get("cycles-proven", "CL-26-5", "steam_in_place");
        found.unwrap().quantity().unwrap().value
    };
    let (sound, mut denied) = (Sound::read(), Sound::read());
    let (file, from, to, ..) = ONE_EDIT.last().unwrap();
    denied.swap(file, from, to);
    assert_eq!((proven(&sound), proven(&denied)), (14.0, 3.0));
}

#[test]
fn what_it_was_made_from_is_rejected() {
    for id in [
        "CO-36",
        "CG-37",
        "PL-L26-31",
        "SI-L26-31-C",
        "SI-L26-31-J",
        "MK-L26-31",
        "LR-L26-31",
    ] {
        let mut sound = Sound::read();
        sound.deviation(
            "DV-T",
            &format!("[{id}]"),
            "nonconforming_product",
            "reject",
            "",
        );
        let found = said(&sound.dossier(), "R79");
        let words = "reject by DV-T";
        let told = found
            .iter()
            .any(|(weight, said)| *weight == Severity::Blocks && said.contains(words));
        assert!(told, "{id}: {found:?}");
    }
}

#[test]
fn an_assembly_of_two_lots_is_not_of_one() {
    let mut sound = Sound::read();
    let own = "  - {module_id: M-26-3102, material_lot: RM-701, from: \"4.4 m\", to: \"7.3 m\", pleat_count: 92, visual: accepted}\n";
    let record = sound.record("pleating.yaml", "PL-L26-31");
    let head = record.split("packs:\n").next().unwrap();
    let other = head.replace("L26-31", "L26-30") + "packs:\n" + own;
    sound.swap("pleating.yaml", own, "");
    sound.add("pleating.yaml", &other);
    sees(
        &sound,
        "R76",
        Severity::Blocks,
        "A-26-2101 holds M-26-3102 of lot L26-30, not L26-31",
    );
}

/// A later revision of the specification, from a day on, with another text in the place of one.
fn revised(sound: &mut Sound, from: &str, old: &str, new: &str) {
    let first = sound.record("specifications.yaml", "SP-45");
    assert!(first.contains(old));
    let later = first
        .replace(
            "revision: 1\nrecorded_at: \"2026-01-12",
            "revision: 2\nchange_reason: \"spoiled for a test\"\nrecorded_at: \"2026-01-13",
        )
        .replace(
            "effective_from: \"2026-01-19\"",
            &format!("effective_from: \"{from}\""),
        )
        .replacen(old, new, 1);
    sound.add("specifications.yaml", &later);
}

#[test]
fn what_names_no_element_is_judged_by_its_day_too() {
    let mut sound = Sound::read();
    revised(&mut sound, "2026-02-10", ">= 2.60 bar", ">= 2.95 bar");
    sees(
        &sound,
        "R39",
        Severity::Blocks,
        "MB-26-41 names SP-45 revision 1; revision 2 was in force",
    );
    // A limit that the test of March misses, and a revision of September that lowers it.
    let mut sound = Sound::read();
    let line = "  - {stage: assembly, quantity: straightness";
    sound.swap(
        "specifications.yaml",
        line,
        &format!("  - {{stage: assembly, quantity: water_flow, limit: \">= 60 L/min\", at: \"100 mbar\"}}\n{line}"),
    );
    revised(&mut sound, "2026-09-01", ">= 60 L/min", ">= 20 L/min");
    sound.swap(
        "flow.yaml",
        "element_id: A-26-2101\n",
        "element_id: A-26-2101\nproduct_code: VF45\n",
    );
    sees(&sound, "R42", Severity::Blocks, "A-26-2101: water flow");
}

#[test]
fn joined_modules_are_not_tested_after_the_whole() {
    let mut sound = Sound::read();
    let own = sound.record("assembly-tests/vf45.yaml", "AT-26-2101-1");
    let later = own
        .replace("AT-26-2101-1\n", "AT-26-2101-9\n")
        .replace("final_after_adapter_and_tip", "joined_modules")
        .replace("RUN-0801", "RUN-0999")
        .replace("2026-03-18T08:00", "2026-03-19T08:00");
    sound.add("assembly-tests/vf45.yaml", &later);
    sees(
        &sound,
        "R23",
        Severity::Blocks,
        "test of joined modules AT-26-2101-9 is dated 2026-03-19",
    );
}

#[test]
fn one_decay_in_two_units_is_one_decay() {
    let mut sound = Sound::read();
    let first = sound.text("traces/mt-26-3101-1-df.csv");
    sound.trace("traces/mt-26-3102-1-df.csv", |_| {
        let row = |line: &str| {
            let mut cells: Vec<String> = line.split(',').map(str::to_owned).collect();
            cells[1] = match cells[1].parse::<f64>() {
                Ok(mbar) => format!("{:.6}", mbar / 1000.0),
                Err(_) => cells[1].replace("_mbar_", "_bar_"),
            };
            cells.join(",") + "\n"
        };
        first.lines().map(row).collect()
    });
    sees(
        &sound,
        "R49",
        Severity::Blocks,
        "MT-26-3101-1 and MT-26-3102-1 share",
    );
}

#[test]
fn a_retest_is_allowed_by_somebody_and_shown_by_something() {
    let flaws = |cause: &str| {
        let mut sound = Sound::read();
        sound.retest(
            2,
            "retest_of: MT-26-3107-1\nretest_deviation: DV-T\nretest_reason_code: housing_leak\n",
        );
        let at = "retest_authorised_at: \"2026-03-12T12:00:00+01:00\"\n";
        let subject = "{module: M-26-3107}";
        sound.deviation(
            "DV-T",
            subject,
            "retest",
            "accept_after_retest",
            &format!("{at}{cause}"),
        );
        said(&sound.dossier(), "R56")
    };
    let cause = |evidence: &str| {
        format!("cause: {{known: true, reason_code: housing_leak, evidence: \"{evidence}\"}}\n")
    };
    let found = flaws(&cause("the housing of MT-26-3107-1"));
    assert!(
        found
            .iter()
            .any(|(_, words)| words.contains("nobody is named who allowed it")),
        "{found:?}"
    );
    let by = "retest_allowed_by: P-08\n";
    let found = flaws(&format!("{by}{}", cause("the housing of MT-26-3107-1")));
    assert!(
        found
            .iter()
            .all(|(_, words)| !words.contains("nobody is named")),
        "{found:?}"
    );
    let shown = found.len();
    let found = flaws(&format!("{by}{}", cause("see dossier.yaml")));
    assert_eq!(found.len(), shown + 1, "{found:?}");
}

#[test]
fn a_challenge_that_failed_challenges_nothing() {
    let mut sound = Sound::read();
    let colonies = sound.text("retention.yaml").replace(
        "fraction_assayed: 1.0, colonies: 0",
        "fraction_assayed: 1.0, colonies: 40000",
    );
    sound
        .files
        .insert("retention.yaml".into(), colonies.into_bytes());
    sound.deviation("DV-T", "[RC-26-14]", "data", "exclusion", "");
    sees(&sound, "R67", Severity::Blocks, "has no challenge");
}

#[test]
fn a_deviation_is_disclosed_whatever_it_names() {
    for id in [
        "MK-L26-31",
        "LR-L26-31",
        "RS-L26-31",
        "SP-45",
        "PF-03",
        "CA-PF-03-26",
        "EG-45",
        "LS-45",
        "SI-L26-31-J",
    ] {
        let mut sound = Sound::read();
        sound.deviation("DV-T", &format!("[{id}]"), "data", "concession", "");
        sound.swap("releases.yaml", "[DV-T]", "[]");
        let found = said(&sound.dossier(), "R58");
        let told = found
            .iter()
            .any(|(_, words)| words.contains("DV-T touches L26-31 and is not disclosed"));
        assert!(told, "{id}: {found:?}");
    }
    // An id may have the sign that parts a revision from a record.
    let mut sound = Sound::read();
    for (file, bytes) in &mut sound.files {
        if file.ends_with(".yaml") {
            *bytes = String::from_utf8(bytes.clone())
                .unwrap()
                .replace("M-26-3101", "M/26/3101")
                .into_bytes();
        }
    }
    sound.deviation("DV-T", "[M/26/3101]", "data", "concession", "");
    sound.swap("releases.yaml", "[DV-T]", "[]");
    let found = said(&sound.dossier(), "R58");
    assert!(
        found
            .iter()
            .any(|(_, words)| words.contains("DV-T touches L26-31")),
        "{found:?}"
    );
}

#[test]
fn a_limit_without_a_plan_asks_for_a_coupon() {
    let mut sound = Sound::read();
    sound.swap(
        "specifications.yaml",
        "limit: \">= 30 N per 15 mm\", sampling: PLAN-PEEL",
        "limit: \">= 30 N per 15 mm\"",
    );
    let text = sound.text("seals.yaml");
    let lines = text
        .lines()
        .filter(|line| !(line.starts_with("destructive:") && line.contains("peel_force")));
    let lines =
        lines.map(
            |line| match line.starts_with("coupons:") && line.contains("CP-L26-31-1,") {
                true => "coupons: []\n".to_owned(),
                false => format!("{line}\n"),
            },
        );
    let text: String = lines.collect();
    sound.files.insert("seals.yaml".into(), text.into_bytes());
    sees(
        &sound,
        "R52",
        Severity::Blocks,
        "SR-L26-31-C: the specification limits peel force",
    );
}

/// A point of a certificate of September says nothing of what was tested in March.
#[test]
fn a_certificate_vouches_for_its_own_time() {
    let mut sound = Sound::read();
    let first = sound.record("instruments.yaml", "CA-IT-11-26");
    let kept: String = first
        .lines()
        .filter(|line| !line.contains("nominal: \"3000 mbar\""))
        .map(|line| format!("{line}\n"))
        .collect();
    assert!(kept != first);
    let own = sound.text("instruments.yaml");
    let without = own.replacen(&first, &kept, 1);
    assert!(without != own);
    sound
        .files
        .insert("instruments.yaml".into(), without.into_bytes());
    let missing = |sound: &Sound| !said(&sound.dossier(), "R31").is_empty();
    assert!(missing(&sound));
    let later = first
        .replace("CA-IT-11-26", "CA-IT-11-27")
        .replace("2026-01-2", "2026-09-2");
    sound.add("instruments.yaml", &later);
    assert!(missing(&sound));
}

#[test]
fn a_later_clock_check_says_nothing_of_the_time_before() {
    let mut sound = Sound::read();
    let first = sound.record("instruments.yaml", "CA-IT-11-26");
    let off = first.replace("14:20:05+01:00\", reference", "14:50:00+01:00\", reference");
    assert!(off != first);
    let text = sound.text("instruments.yaml").replacen(&first, &off, 1);
    sound
        .files
        .insert("instruments.yaml".into(), text.into_bytes());
    let later = first
        .replace("CA-IT-11-26", "CA-IT-11-27")
        .replace("2026-01-2", "2026-09-2");
    sound.add("instruments.yaml", &later);
    sees(
        &sound,
        "R27",
        Severity::Explain,
        "IT-11: clock 1800 s off at its check of 2026-01-20",
    );
}

#[test]
fn a_limit_of_another_unit_in_every_stage_is_seen() {
    let mut sound = Sound::read();
    let wide = sound
        .text("specifications.yaml")
        .replace("<= 14.0 mL/min", "<= 14.0 L/min");
    sound
        .files
        .insert("specifications.yaml".into(), wide.into_bytes());
    sees(
        &sound,
        "R04",
        Severity::Blocks,
        "of diffusive flow limits nothing",
    );
}

#[test]
fn the_age_of_the_claim_that_was_handed_over_binds() {
    let mut sound = Sound::read();
    let first = sound.record("claims.yaml", "CC-45");
    let old = first.replace(
        "age_limit_in_service: \"24 mo\"",
        "age_limit_in_service: \"4 mo\"",
    );
    assert!(old != first);
    let text = sound.text("claims.yaml").replacen(&first, &old, 1);
    sound.files.insert("claims.yaml".into(), text.into_bytes());
    let later = first.replacen(
        "revision: 1\n",
        "revision: 2\nchange_reason: \"spoiled for a test\"\nsupersedes: {id: CC-45, revision: 1}\n",
        1,
    );
    sound.add("claims.yaml", &later);
    sees(&sound, "R74", Severity::Blocks, "limit 4 mo");
}

/// Found at nine, signed for release at ten by one of two, decided at one: the other's later signature does not mend it.
#[test]
fn the_first_of_two_signatures_for_release_counts() {
    let mut sound = Sound::read();
    let early = "meaning: release, signed_at: \"2026-03-25T14:50:00+01:00\"}\n  - {person_id: P-01, printed_name: \"Ada Quill (invented)\", function: quality_manager, meaning: release, signed_at: \"2026-03-13T10:00:00+01:00\"}\n";
    sound.swap("releases.yaml", RELEASED, early);
    sound.deviation("DV-T", "[M-26-3101]", "data", "concession", "");
    sees(
        &sound,
        "R58",
        Severity::Blocks,
        "DV-T touches L26-31 and was decided",
    );
}

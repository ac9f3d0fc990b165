//! What once passed because nobody looked: each is one or two edits of the sound lot, the rule that must see it, how heavily, and the
//! words in which it says so.

mod common;

use common::{Case, Sound, said, sees, sees_all};
use sealfolio::ground::finding::Severity;

const ONE_EDIT: &[Case] = &[
    // A limit that a flow test misses, at another pressure difference than the limit.
    (
        "specifications.yaml",
        "  - {stage: assembly, quantity: straightness",
        "  - {stage: assembly, quantity: water_flow, limit: \">= 60 L/min\", at: \"100 mbar\"}\n  - {stage: assembly, quantity: straightness",
        "R42",
        Severity::Blocks,
        "A-26-2101: water flow",
    ),
    (
        "specifications.yaml",
        "  - {stage: assembly, quantity: straightness",
        "  - {stage: assembly, quantity: water_flow, limit: \">= 25 L/min\", at: \"50 mbar\"}\n  - {stage: assembly, quantity: straightness",
        "R41",
        Severity::Blocks,
        "test pressure 100 mbar, limit set for 50 mbar",
    ),
    // Flat membrane that was not measured, or of which nothing can be computed.
    (
        "membrane-tests.yaml",
        "collected_volume: \"",
        "not_measured_reason: \"pump broken\", collected_volume: \"",
        "R03",
        Severity::Blocks,
        "water_flux is said not to be measured and has a result",
    ),
    (
        "membrane-tests.yaml",
        ", collection_time: \"60.0 s\"",
        "",
        "R03",
        Severity::Blocks,
        "water flux is not evaluated",
    ),
    // Coupons that no plan decides about.
    (
        "seals.yaml",
        "sampling_plan: PLAN-PEEL\n",
        "",
        "R52",
        Severity::Blocks,
        "coupons were tested and no sampling_plan is named",
    ),
    // A record that each assembly must have, and one has.
    (
        "specifications.yaml",
        "required_records_per_assembly: [",
        "required_records_per_assembly: [flow_test, ",
        "R02",
        Severity::Blocks,
        "A-26-2102: no flow_test names it",
    ),
    // An endurance study whose list leaves out or doubles an element.
    (
        "endurance.yaml",
        "elements: [EN-45-ST1, EN-45-ST2, EN-45-ST3]",
        "elements: [EN-45-ST1, EN-45-ST2]",
        "R86",
        Severity::Blocks,
        "has results of EN-45-ST3, which is none of its elements",
    ),
    (
        "endurance.yaml",
        "elements: [EN-45-ST1, EN-45-ST2, EN-45-ST3]",
        "elements: [EN-45-ST1, EN-45-ST2, EN-45-ST3, EN-45-ST3]",
        "R10",
        Severity::Blocks,
        "EN-45-ST3 stands twice in one list",
    ),
    // A second fit, strength, claim or contribution under the name of the first.
    (
        "product.yaml",
        "fits:\n",
        "fits:\n  - {id: pack_in_cage, inner: end_cap_outside, outer: cage_inside, hottest: \"123 degC\", coldest: \"2 degC\", least: \"0.50 mm\"}\n",
        "R10",
        Severity::Blocks,
        "pack_in_cage stands twice in one list",
    ),
    (
        "claims.yaml",
        "  - {treatment: hot_water,",
        "  - {treatment: steam_in_place, temperature_max: \"123 degC\", time_per_cycle: \"35 min\", cycles_claimed: 10, cycles_tested: 65, elements_tested: 3}\n  - {treatment: hot_water,",
        "R10",
        Severity::Blocks,
        "steam_in_place stands twice in one list",
    ),
    (
        "specifications.yaml",
        "  - {quantity: diffusive_flow, source: gas_temperature_drift",
        "  - {quantity: diffusive_flow, source: pressure_change, absolute: \"3 mbar\"}\n  - {quantity: diffusive_flow, source: gas_temperature_drift",
        "R10",
        Severity::Blocks,
        "diffusive_flow pressure_change stands twice in one list",
    ),
    // A run in service without tests, beside one that has them.
    (
        "service.yaml",
        "production_runs:\n",
        "production_runs:\n  - {run: B-12, start: \"2026-05-05T08:00:00+02:00\", end: \"2026-05-05T17:00:00+02:00\", volume: \"18000 L\"}\n",
        "R73",
        Severity::Explain,
        "run B-12 of 2026-05-05 08:00 +02:00: no test before",
    ),
    (
        "service.yaml",
        "value: \"16.9 mL/min\", at_pressure",
        "value: \"160 bar\", at_pressure",
        "R73",
        Severity::Blocks,
        "is of another kind of quantity than its limit",
    ),
    (
        "service.yaml",
        "value: \"16.9 mL/min\", at_pressure: \"1700 mbar\"",
        "value: \"16.9 mL/min\"",
        "R73",
        Severity::Blocks,
        "does not say at which pressure it was made",
    ),
    // A load of which the claim says nothing.
    (
        "service.yaml",
        "differential_pressure_max: \"190 mbar\"",
        "differential_pressure_max: \"190 mbar\", reverse_differential_pressure_max: \"2500 mbar\"",
        "R71",
        Severity::Explain,
        "reverse_differential_pressure_max 2500 mbar, of which the claim says nothing",
    ),
    // A strength that was tested colder than the claim.
    (
        "product.yaml",
        "temperature: \"123 degC\", withstood: \"1.00 bar",
        "temperature: \"90 degC\", withstood: \"1.00 bar",
        "R84",
        Severity::Blocks,
        "no strength was tested in the forward direction at 123 degC or above",
    ),
    // A module in another gas: what the assembly is compared with is no comparison.
    (
        "module-tests/vf45.yaml",
        "stepped_pressure_ramp, test_gas: nitrogen,",
        "stepped_pressure_ramp, test_gas: helium,",
        "R46",
        Severity::Explain,
        "its bubble point was not held against those of its modules",
    ),
    // A join of a run that does not list it.
    (
        "seals.yaml",
        "  - {assembly_id: A-26-2101, joint: 1}\n",
        "",
        "R60",
        Severity::Blocks,
        "A-26-2101: join 1 is said to be of SR-L26-31-J, which does not list it",
    ),
    // A limit that names its condition, and a test that does not.
    (
        "membrane-tests.yaml",
        "{quantity: water_flux, at: \"0.70 bar\", ",
        "{quantity: water_flux, ",
        "R41",
        Severity::Blocks,
        "at is not stated, limit set for 0.70 bar",
    ),
    (
        "membrane-tests.yaml",
        "thickness: TH-04, ",
        "",
        "R30",
        Severity::Explain,
        "names no instrument for its thickness",
    ),
    (
        "assemblies.yaml",
        "product_code: VF45",
        "product_code: VF450",
        "R22",
        Severity::Blocks,
        "A-26-2101 is VF450",
    ),
    (
        "assemblies.yaml",
        "nominal_length: \"20 in\"",
        "nominal_length: \"24 in\"",
        "R13",
        Severity::Blocks,
        "which is none of the assembly_lengths",
    ),
    (
        "releases.yaml",
        "The items named conform to the requirements named",
        "Los artículos no conformes con los requisitos",
        "R76",
        Severity::Blocks,
        "a statement that the items conform",
    ),
    (
        "assemblies.yaml",
        "overall_length: \"527.7 mm\"",
        "overall_length: \"52.77 mm\"",
        "R13",
        Severity::Blocks,
        "is called 20 in, and 52.77 mm was measured",
    ),
    (
        "assemblies.yaml",
        "straightness: \"0.8 mm\"",
        "straightness: \"-0.8 mm\"",
        "R04",
        Severity::Blocks,
        "straightness",
    ),
    (
        "specifications.yaml",
        "quantity: diffusive_flow, limit: \"<= 14.0 mL/min\"",
        "quantity: diffusive_flow, limit: \"<= 140 mL/min\"",
        "R04",
        Severity::Explain,
        "is far from its limits of control",
    ),
    (
        "specifications.yaml",
        "quantity: diffusive_flow, limit: \"<= 14.0 mL/min\"",
        "quantity: diffusive_flow, limit: \"<= 14.0 L/min\"",
        "R04",
        Severity::Explain,
        "is far from that of an assembly, <= 14.0 mL/min per module",
    ),
];

#[test]
fn one_edit_is_seen() {
    sees_all(ONE_EDIT);
}

#[test]
fn what_was_handed_over_with_an_element_binds() {
    let mut sound = Sound::read();
    let first = sound.text("claims.yaml");
    let low = first.replacen("cycles_claimed: 50", "cycles_claimed: 12", 1);
    let later = first
        .replacen(
            "revision: 1",
            "revision: 2\nsupersedes: {id: CC-45, revision: 1}\nchange_reason: \"more was tested\"",
            1,
        )
        .replacen("2026-01-14T11", "2026-02-14T11", 1);
    sound.files.insert(
        "claims.yaml".into(),
        format!("{low}---\n{later}").into_bytes(),
    );
    sees(
        &sound,
        "R70",
        Severity::Blocks,
        "A-26-2101: 14 cycles of steam_in_place, 2 over the claim",
    );
}

/// The log of the sound lot, of an earlier fitting with so many cycles.
fn fitted_before(sound: &mut Sound, cycles: u64) {
    let log = sound.text("service.yaml");
    let (head, rest) = log.split_once("events:").unwrap();
    let (_, tail) = rest.split_once("storage_between").unwrap();
    let head = head
        .replace("CL-26-5", "CL-26-4")
        .replace(
            "removed_at: null",
            "removed_at: \"2026-05-03T06:30:00+02:00\"",
        )
        .replace("2026-05-04T06:30:00+02:00", "2026-03-26T06:30:00+01:00")
        .replace("cycles: 11", &format!("cycles: {cycles}"));
    sound.add(
        "service.yaml",
        &format!("{head}events: []\nin_service_integrity_tests: []\nstorage_between{tail}"),
    );
}

#[test]
fn cycles_of_an_element_are_of_one_life() {
    // 45 before and 11 + 3 that carry none of them forward: 59 of 50.
    let mut sound = Sound::read();
    fitted_before(&mut sound, 45);
    sees(
        &sound,
        "R70",
        Severity::Blocks,
        "59 cycles of steam_in_place over its 2 logs, 9 over the claim",
    );
    // The 11 of the later log are those of the earlier one.
    let mut sound = Sound::read();
    fitted_before(&mut sound, 11);
    let found = said(&sound.dossier(), "R70");
    assert!(
        !found
            .iter()
            .any(|(_, words)| words.contains("over the claim")),
        "{found:?}"
    );
}

#[test]
fn evidence_of_cycles_is_a_number_or_the_whole() {
    let proven = |sound: &Sound| {
        let dossier = sound.dossier();
        let found = dossier
            .graph
            .get("cycles-proven", "CL-26-5", "steam_in_place");
        found.unwrap().quantity().unwrap().value
    };
    let mut sound = Sound::read();
    assert_eq!(proven(&sound), 14.0);
    let evidence = "earlier sheets of the plant, every cycle with a trace\"";
    sound.swap(
        "service.yaml",
        evidence,
        "sheets lost; not one cycle with a trace\"",
    );
    assert_eq!(proven(&sound), 3.0);
    sound.swap("service.yaml", "a trace\"}", "a trace\", with_trace: 4}");
    assert_eq!(proven(&sound), 7.0);
}

#[test]
fn two_volumes_of_a_rig_are_two_errors() {
    let of = |sound: &Sound| {
        let dossier = sound.dossier();
        let found = dossier.graph.get("join-residual", "AT-26-2101-1", "");
        found.unwrap().quantity().unwrap().u()
    };
    let two_rigs = of(&Sound::read());
    let mut sound = Sound::read();
    sound.swap(
        "assembly-tests/vf45.yaml",
        "instrument_id: IT-12",
        "instrument_id: IT-11",
    );
    let one_rig = of(&sound);
    assert!(
        (one_rig / two_rigs - 1.0).abs() < 1e-9,
        "{one_rig} {two_rigs}"
    );
}

#[test]
fn a_column_is_the_one_that_is_meant() {
    let flow = |sound: &Sound| {
        let dossier = sound.dossier();
        let found = dossier.graph.get("diffusive-flow", "MT-26-3101-1", "");
        found.unwrap().quantity().unwrap().value
    };
    let mut sound = Sound::read();
    let due = flow(&sound);
    sound.trace("traces/mt-26-3101-1-df.csv", |text| {
        let mut out = String::from(
            "time_s,pressure_outlet_mbar_gauge,pressure_mbar_gauge,gas_temperature_c\n",
        );
        for row in text.lines().skip(1) {
            let (time, rest) = row.split_once(',').unwrap();
            out += &format!("{time},1.2,{rest}\n");
        }
        out
    });
    assert_eq!(flow(&sound), due);
}

#[test]
fn a_mark_that_was_read_says_what_it_reads() {
    let mut sound = Sound::read();
    let item = "{item: M-26-3101, text_read: \"VF45 L26-31 0.45 um 3101\", legible: true}";
    sound.swap("marks.yaml", item, "{item: M-26-3101, legible: true}");
    sees(
        &sound,
        "R62",
        Severity::Blocks,
        "is called legible, and what it reads is not recorded",
    );
}

#[test]
fn a_certificate_has_a_digest_beside_it() {
    let mut sound = Sound::read();
    let text = sound.text("instruments.yaml");
    let at = text.find(", sha256: ").unwrap();
    let end = at + text[at..].find('}').unwrap();
    let spoiled = format!("{}{}", &text[..at], &text[end..]);
    sound
        .files
        .insert("instruments.yaml".into(), spoiled.into_bytes());
    sees(&sound, "R09", Severity::Blocks, "has no sha256 beside it");
}

#[test]
fn a_deviation_about_a_material_or_a_claim_touches_its_lots() {
    for subject in ["{material_lot: OR-35}", "{claim: CC-45}"] {
        let mut sound = Sound::read();
        sound.deviation(
            "DV-26-90",
            subject,
            "nonconforming_product",
            "concession",
            "",
        );
        sound.swap(
            "releases.yaml",
            "deviations_disclosed: [DV-26-90]",
            "deviations_disclosed: []",
        );
        sees(
            &sound,
            "R58",
            Severity::Blocks,
            "DV-26-90 touches L26-31 and is not disclosed",
        );
    }
}

#[test]
fn a_deviation_about_something_else_does_not_speak_of_a_result() {
    let mut sound = Sound::read();
    sound.swap(
        "specifications.yaml",
        "{stage: module, quantity: bubble_point, limit: \">= 2.40 bar\"}",
        "{stage: module, quantity: bubble_point, limit: \">= 2.80 bar\"}",
    );
    let speaks = |sound: &Sound| {
        let found = said(&sound.dossier(), "R55");
        found
            .iter()
            .any(|(_, words)| words.contains("MT-26-3101-1"))
    };
    assert!(speaks(&sound));
    let mut marked = sound.clone();
    marked.deviation(
        "DV-26-90",
        "{module: M-26-3101}",
        "marking",
        "concession",
        "",
    );
    assert!(speaks(&marked));
    sound.deviation(
        "DV-26-90",
        "{module: M-26-3101}",
        "nonconforming_product",
        "reject",
        "",
    );
    assert!(!speaks(&sound));
}

#[test]
fn one_id_is_one_record() {
    let mut sound = Sound::read();
    let test = sound.text("assembly-tests/vf45.yaml");
    let spoiled = test.replace("AT-26-2101-1", "MT-26-3101-1");
    sound
        .files
        .insert("assembly-tests/vf45.yaml".into(), spoiled.into_bytes());
    sees(
        &sound,
        "R10",
        Severity::Blocks,
        "MT-26-3101-1 revision 1 exists twice",
    );
}

#[test]
fn a_long_test_overlaps_every_one_that_it_covers() {
    let mut sound = Sound::read();
    assert!(said(&sound.dossier(), "R25").is_empty());
    // The third test of the rig begins before the first and the second.
    let third = "MT-26-3103-1";
    sound.swap_after(
        "module-tests/vf45.yaml",
        third,
        "stabilisation_time: \"180 s\"",
        "stabilisation_time: \"9000 s\"",
    );
    let found = said(&sound.dossier(), "R25");
    for covered in ["M-26-3101", "M-26-3102"] {
        assert!(
            found
                .iter()
                .any(|(_, words)| words.contains("M-26-3103") && words.contains(covered)),
            "{covered}: {found:?}"
        );
    }
}

#[test]
fn readings_of_another_test_are_a_copy() {
    let mut sound = Sound::read();
    let first = sound.record("flow.yaml", "FT-26-71");
    let second = sound.record("flow.yaml", "FT-26-72");
    let points = |text: &str| {
        let (_, rest) = text.split_once("points:\n").unwrap();
        rest.split_once("housing_blank").unwrap().0.to_owned()
    };
    sound.swap("flow.yaml", &points(&second), &points(&first));
    sees(
        &sound,
        "R49",
        Severity::Explain,
        "FT-26-71 and FT-26-72 have the same readings",
    );
}

#[test]
fn what_looks_like_a_file_of_records_and_is_none_is_said_first() {
    let mut sound = Sound::read();
    let text = sound.files.remove("module-tests/vf45.yaml").unwrap();
    sound
        .files
        .insert("module-tests/vf45.yaml.txt".into(), text);
    sees(
        &sound,
        "R08",
        Severity::Blocks,
        "module-tests/vf45.yaml.txt is not read: its name does not end in .yaml",
    );
}

#[test]
fn a_table_of_another_separator_says_so() {
    for (change, words) in [
        (
            (|text: &str| text.replace(',', ";")) as fn(&str) -> String,
            "its fields are separated otherwise than by ,",
        ),
        (|_| String::from("\n"), "is empty"),
        (
            |text| text.replacen("gas_temperature_c", "pressure_bar_gauge", 1),
            "has two columns of pressure",
        ),
    ] {
        let mut sound = Sound::read();
        sound.trace("traces/mt-26-3101-1-df.csv", change);
        sees(&sound, "R06", Severity::Blocks, words);
    }
}

#[test]
fn letters_of_other_alphabets_look_alike() {
    let mut sound = Sound::read();
    // A Cyrillic letter in the first place.
    sound.swap_after(
        "module-tests/vf45.yaml",
        "MT-26-3101-1",
        "module_id: M-26-3101",
        "module_id: М-26-3101",
    );
    let found = said(&sound.dossier(), "R11");
    assert!(
        found.iter().any(|(_, words)| words.contains("look alike")),
        "{found:?}"
    );
}

#[test]
fn without_authorisations_nobody_is_shown_to_be_authorised() {
    let mut sound = Sound::read();
    sound.files.remove("people.yaml");
    sees(
        &sound,
        "R35",
        Severity::Explain,
        "nobody's right to write or to sign these records is shown",
    );
}

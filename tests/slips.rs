//! Slips that no single field shows: a module without a roll, pleated twice or nowhere, a factor of ten that stays believable,
//! an instrument that nobody calibrated for what it measured, a verdict without a stated doubt.

mod common;

use common::{Sound, said};
use sealfolio::{dossier::Dossier, ground::finding::Severity, plant::recall};

/// The sound lot with one thing changed.
fn with(file: &str, from: &str, to: &str) -> Dossier {
    let mut sound = Sound::read();
    sound.swap(file, from, to);
    sound.dossier()
}

fn blocks(found: &[(Severity, String)], words: &str) {
    let there = found
        .iter()
        .any(|(weight, said)| *weight == Severity::Blocks && said.contains(words));
    assert!(there, "{words}: {found:?}");
}

#[test]
fn a_module_is_of_one_roll() {
    // What the specification asks for is the maker's; which roll a module is of is asked in any case.
    let mut sound = Sound::read();
    sound.swap(
        "specifications.yaml",
        "required_records_per_module: [pleating_record, ",
        "required_records_per_module: [",
    );
    sound.files.remove("pleating.yaml");
    blocks(
        &said(&sound.dossier(), "R02"),
        "M-26-3101: no pleating_record names it",
    );
    let twice = with(
        "pleating.yaml",
        "module_id: M-26-3102",
        "module_id: M-26-3101",
    );
    blocks(&said(&twice, "R12"), "M-26-3101 was pleated twice");
}

#[test]
fn a_factor_of_ten_is_seen_against_the_rest() {
    for (from, to) in [
        ("pleat_height: \"14.8 mm\"", "pleat_height: \"148 mm\""),
        ("pleat_height: \"14.8 mm\"", "pleat_height: \"1.48 mm\""),
        ("pleated_length: \"228 mm\"", "pleated_length: \"228 cm\""),
    ] {
        blocks(
            &said(&with("pleating.yaml", from, to), "R04"),
            "of membrane are pleated",
        );
    }
    let text = Sound::read().text("pleating.yaml");
    let line = text
        .lines()
        .find(|line| line.contains("module_id: M-26-3101"))
        .unwrap();
    let short = line.replace(" m\"", " mm\"");
    assert_ne!(line, short);
    blocks(
        &said(&with("pleating.yaml", line, &short), "R04"),
        "of the roll, 228 mm wide, are 0.0006612 m²",
    );
    let area = with(
        "specifications.yaml",
        "module_effective_filtration_area: \"0.58 m2\"",
        "module_effective_filtration_area: \"6.2 m2\"",
    );
    blocks(
        &said(&area, "R04"),
        "the specification says 6.2 m2 a module",
    );
}

#[test]
fn a_calibration_has_points_of_what_was_measured() {
    let mut sound = Sound::read();
    let text = sound.text("instruments.yaml").replace(
        "quantity: pressure_gauge, nominal: \"1",
        "quantity: humidity, nominal: \"1",
    );
    let text: String = text
        .lines()
        .map(|line| match line.contains("quantity: humidity") || line.contains("pressure_gauge, nominal") {
            true => "  - {quantity: humidity, nominal: \"40 %\", as_found_error: \"1 %\", as_left_error: \"1 %\", expanded_uncertainty: \"2 %\", coverage_factor: 2, maximum_permissible_error: \"5 %\"}\n".to_owned(),
            false => format!("{line}\n"),
        })
        .collect();
    sound
        .files
        .insert("instruments.yaml".into(), text.into_bytes());
    let found = said(&sound.dossier(), "R31");
    assert!(
        found
            .iter()
            .any(|(weight, words)| *weight == Severity::Explain
                && words.contains("IT-11 measured a pressure")),
        "{found:?}"
    );
}

#[test]
fn scatter_alone_is_not_the_whole_doubt() {
    let mut sound = Sound::read();
    let text = sound.text("specifications.yaml");
    let kept: String = text
        .lines()
        .filter(|line| !line.contains("{quantity: diffusive_flow, source"))
        .map(|line| format!("{line}\n"))
        .collect();
    sound
        .files
        .insert("specifications.yaml".into(), kept.into_bytes());
    blocks(
        &said(&sound.dossier(), "R44"),
        "SP-45 gives no contribution for diffusive_flow",
    );
}

#[test]
fn a_module_that_was_tested_is_somewhere() {
    let mut sound = Sound::read();
    let test = sound
        .record("module-tests/vf45.yaml", "MT-26-3108-1")
        .replace("M-26-3108", "M-26-3199")
        .replace("MT-26-3108-1", "MT-26-3199-1");
    sound.add("module-tests/vf45.yaml", &test);
    let found = said(&sound.dossier(), "R19");
    assert!(
        found
            .iter()
            .any(|(_, words)| words.contains("M-26-3199 was tested")),
        "{found:?}"
    );
}

#[test]
fn a_recall_says_what_it_could_not_read() {
    let dossier = with(
        "pleating.yaml",
        "pleated_length: \"228",
        "pleated_length: \"228,0",
    );
    let found = recall::recall(&dossier.plant, "RM-701", recall::Period::default()).unwrap();
    assert!(
        found
            .disagreements
            .iter()
            .any(|words| words.contains("cannot be read")),
        "{:?}",
        found.disagreements
    );
}

#[test]
fn a_recall_goes_by_a_customer_and_by_any_record_that_names_elements() {
    let dossier = Sound::read().dossier();
    let of = |id: &str| recall::recall(&dossier.plant, id, recall::Period::default());
    let released = dossier.plant.released().len();
    let (record, release) = dossier.plant.releases().next().unwrap();
    let customer = release.customer.get("customer_id").unwrap();
    for id in [&**customer, &*record.id.text] {
        let found = of(id).unwrap();
        assert_eq!(found.assemblies.len(), released, "{id}");
        assert!(found.modules.is_empty() && found.disagreements.is_empty());
    }
    let pleated = of("PL-L26-31").unwrap();
    assert_eq!(pleated.what, "record");
    assert_eq!(pleated.modules.len(), dossier.plant.modules.len());
    // A calibration concerns what its instrument measured.
    let (by_calibration, by_instrument) = (of("CA-IT-11-26").unwrap(), of("IT-11").unwrap());
    let ids = |found: &recall::Recall| -> Vec<String> {
        found
            .modules
            .iter()
            .map(|module| module.id.clone())
            .collect()
    };
    assert!(!by_instrument.modules.is_empty());
    assert_eq!(ids(&by_calibration), ids(&by_instrument));
    // What names no element is not said to affect none.
    for id in ["PA-2026", "SP-2026", "nobody"] {
        assert!(of(id).is_none(), "{id}");
    }
}

#[test]
fn what_is_used_was_there_before() {
    let text = Sound::read().text("materials.yaml");
    let at = text.find("record_id: AD-32").unwrap();
    let received = text[at..]
        .lines()
        .find(|line| line.starts_with("received_at"))
        .unwrap();
    let mut sound = Sound::read();
    let later = format!(
        "{}{}",
        &text[..at],
        text[at..].replacen(received, "received_at: \"2026-09-01T09:40:00+02:00\"", 1)
    );
    sound
        .files
        .insert("materials.yaml".into(), later.into_bytes());
    blocks(&said(&sound.dossier(), "R23"), "AD-32: assembly build");
    let mut sound = Sound::read();
    let slit = sound
        .text("slitting.yaml")
        .replace("2026-02-26T", "2026-08-26T");
    sound
        .files
        .insert("slitting.yaml".into(), slit.into_bytes());
    blocks(
        &said(&sound.dossier(), "R23"),
        "but slitting record ST-26-61 is dated",
    );
}

#[test]
fn a_file_under_another_name_and_a_mistyped_digest_are_called_so() {
    let text = Sound::read().text("instruments.yaml");
    let line = text
        .lines()
        .find(|line| line.starts_with("certificate:"))
        .unwrap();
    let file = line
        .split("file: \"")
        .nth(1)
        .unwrap()
        .split('"')
        .next()
        .unwrap();
    let digest = line
        .split("sha256: \"")
        .nth(1)
        .unwrap()
        .split('"')
        .next()
        .unwrap();
    let capitals = with("instruments.yaml", file, &file.to_uppercase());
    let found = said(&capitals, "R09");
    assert!(
        found
            .iter()
            .any(|(_, words)| words.contains(&format!("not in the folder; {file} is"))),
        "{found:?}"
    );
    let last = digest.char_indices().last().unwrap();
    let other = if last.1 == '0' { "1" } else { "0" };
    let mistyped = with(
        "instruments.yaml",
        digest,
        &format!("{}{other}", &digest[..last.0]),
    );
    blocks(&said(&mistyped, "R09"), "differs from digit 64 on");
    blocks(
        &said(&with("instruments.yaml", digest, "abc"), "R09"),
        "\"abc\", which is no SHA-256",
    );
}

#[test]
fn a_missing_specification_is_called_so() {
    let mut sound = Sound::read();
    sound.files.remove("specifications.yaml");
    blocks(
        &said(&sound.dossier(), "R02"),
        "A-26-2101: what it needs is not known",
    );
}

#[test]
fn a_cycle_that_was_held_longer_than_its_claim_is_told() {
    let short = with(
        "claims.yaml",
        "time_per_cycle: \"35 min\"",
        "time_per_cycle: \"12 min\"",
    );
    let found = said(&short, "R71");
    assert!(
        found
            .iter()
            .any(|(_, words)| words.contains("held ") && words.contains("against 12 min")),
        "{found:?}"
    );
    assert!(said(&Sound::read().dossier(), "R71").is_empty());
}

#[test]
fn a_customer_has_one_name() {
    let other = with(
        "dossier.yaml",
        "name: \"Harrow Vale Cellars (invented)\"",
        "name: \"Harrow Hill Cellars (invented)\"",
    );
    blocks(
        &said(&other, "R18"),
        "CU-21 is \"Harrow Vale Cellars (invented)\" here and \"Harrow Hill Cellars (invented)\" in dossier.yaml",
    );
}

/// Rules that were silent where nothing was written down.
#[test]
fn what_is_not_there_is_told() {
    let told = |dossier: &Dossier, rule: &str, words: &str| {
        let found = said(dossier, rule);
        assert!(
            found.iter().any(|(_, said)| said.contains(words)),
            "{rule} {words}: {found:?}"
        );
    };
    for (file, from, to, rule, words) in [
        (
            "specifications.yaml",
            "additivity_check: {explain_above: \"3 u\", block_above: \"5 u\", permitted: \"2.5 mL/min\"}\n",
            "",
            "R45",
            "A-26-2101: its flow was not held against the sum of its modules: additivity_check is missing",
        ),
        (
            "specifications.yaml",
            "block_above: \"5 u\"",
            "block_above: \"5 sigma\"",
            "R45",
            "not of the form",
        ),
        (
            "specifications.yaml",
            "acceptance:\n",
            "acceptance:\n  - {stage: slit, quantity: slit_width, limit: \"228.01 mm .. 228.10 mm\"}\n",
            "R92",
            "nothing is ever held against the limit 228.01 mm .. 228.10 mm of slit_width at the stage slit",
        ),
        (
            "assemblies.yaml",
            ", ring_turns_freely: true",
            "",
            "R61",
            "nobody says whether the stainless ring turns",
        ),
        (
            "instruments.yaml",
            "nominal: \"6.150 L\"",
            "nominal: \"1.000 L\"",
            "R31",
            "the nearest that was calibrated is 1.000 L",
        ),
        (
            "instruments.yaml",
            "expanded_uncertainty: \"0.9 mbar\", coverage_factor: 2, maximum_permissible_error: \"5 mbar\"",
            "expanded_uncertainty: \"8 mbar\", coverage_factor: 2, maximum_permissible_error: \"5 mbar\"",
            "R33",
            "the certificate states U = 8 mbar, and an error of 5 mbar is allowed",
        ),
        (
            "membrane-tests.yaml",
            "sample_position: \"0.5 m\"",
            "sample_position: \"900 m\"",
            "R16",
            "its sample was taken at 900 m of RM-701",
        ),
        (
            "specifications.yaml",
            "guard_band: \"1.0 U\"",
            "guard_band: \"0 U\"",
            "R04",
            "the guard band \"0 U\" guards nothing, and the rule is guarded_acceptance",
        ),
        (
            "membrane-tests.yaml",
            "wetting_liquid: water",
            "wetting_liquid: isopropanol",
            "R41",
            "MB-26-41: bubble point: wetted with isopropanol, method asks water",
        ),
    ] {
        let mut sound = Sound::read();
        let text = sound.text(file);
        assert!(text.contains(from), "{from} in {file}");
        let changed = text.replacen(from, to, 1);
        sound.files.insert(file.into(), changed.into_bytes());
        told(&sound.dossier(), rule, words);
    }
    // An element of a study that is as near to its limit as no module may be.
    let mut sound = Sound::read();
    let text = sound.text("endurance.yaml");
    let line = text
        .lines()
        .find(|line| line.contains("cycle: 65,"))
        .unwrap();
    let own = line
        .split("bubble_point: \"")
        .nth(1)
        .unwrap()
        .split('"')
        .next()
        .unwrap();
    let near = text.replacen(line, &line.replace(own, "2.410 bar"), 1);
    sound
        .files
        .insert("endurance.yaml".into(), near.into_bytes());
    told(
        &sound.dossier(),
        "R86",
        "than twice their standard uncertainty (1, the nearest 2.410 bar of",
    );
    // Two liquids are not one test.
    let mut sound = Sound::read();
    let text = sound.text("assembly-tests/vf45.yaml");
    let other = text.replacen(
        "wetting_liquid: water",
        "wetting_liquid: \"ethanol 60 %\"",
        1,
    );
    assert!(other != text);
    sound
        .files
        .insert("assembly-tests/vf45.yaml".into(), other.into_bytes());
    told(&sound.dossier(), "R45", "was wetted with another liquid");
    // A volume that nobody calibrated.
    let mut sound = Sound::read();
    let text = sound.text("instruments.yaml");
    let without: Vec<&str> = text
        .lines()
        .filter(|line| !line.contains("{quantity: upstream_volume"))
        .collect();
    sound.files.insert(
        "instruments.yaml".into(),
        (without.join("\n") + "\n").into_bytes(),
    );
    told(&sound.dossier(), "R31", "IT-11 measured a volume for");
    // A trace that does not say how warm the gas was.
    let mut sound = Sound::read();
    sound.trace("traces/mt-26-3101-1-df.csv", |text| {
        let keep = |line: &str| line.split(',').take(2).collect::<Vec<_>>().join(",") + "\n";
        text.lines().map(keep).collect()
    });
    told(
        &sound.dossier(),
        "R41",
        "IT-11: traces without a column of the gas temperature (1, the first of MT-26-3101-1)",
    );
}

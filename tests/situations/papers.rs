//! Who signs, what is handed over, what happens to it later.

use super::*;

#[test]
fn situation_21_a_reviewer_who_made_one_record_cannot_review_that_lot() {
    let book = Book::example("as-found");
    let said = book.findings("R36");
    assert_eq!(said.len(), 1, "only the lot of that night: {said:?}");
    assert!(
        said[0]
            .1
            .contains("RS-L26-32: P-02 signs as review and also recorded SI-L26-32-A")
            && said[0].1.contains("Name another person")
    );
    // In the next revision another person reviews, and the first stays visible.
    let released = Book::example("released");
    assert!(released.findings("R36").is_empty());
    released.says("lines/seals", &["P-02"]);
    released.says("certificates/rs-l26-32", &["Hale Reeve"]);
}

#[test]
fn situation_22_a_specification_that_was_raised_in_mid_lot() {
    let book = Book::spoiled(|set| {
        let raised = set
            .record(SPEC, "SP-45")
            .replace("revision: 1\nrecorded_at", "revision: 2\nsupersedes: {id: SP-45, revision: 1}\nchange_reason: \"bubble point raised\"\nrecorded_at")
            .replace("effective_from: \"2026-01-19\"", "effective_from: \"2026-03-14\"")
            .replace("quantity: bubble_point, limit: \">= 2.40 bar\"", "quantity: bubble_point, limit: \">= 2.60 bar\"");
        set.add(SPEC, &raised);
        set.swap_after(
            MODULES,
            "MT-26-3108-1",
            "{id: SP-45, revision: 1}",
            "{id: SP-45, revision: 2}",
        );
        set.swap_after(MODULES, "MT-26-3108-1", "2026-03-12T", "2026-03-15T");
        set.swap(
            "releases.yaml",
            "{document: SP-45, revision: 1}",
            "{document: SP-45, revision: 2}",
        );
    });
    let said: Vec<String> = book
        .findings("R39")
        .into_iter()
        .filter(|(severity, _)| *severity == Severity::Explain)
        .map(|(_, words)| words)
        .collect();
    assert!(
        said[0].contains("tests name revisions 1 and 2")
            && said[0].contains("each is judged here to the one that it names"),
        "{said:?}"
    );
    // Item by item, to the revision that the order names.
    assert!(said[0].contains("to it these differ: M-26-3101 2.594 ± 0.020 bar against ≥ 2.60 bar: undecided (to revision 1: conforms)"), "{said:?}");
}

#[test]
fn situation_23_nothing_of_a_lot_is_hidden() {
    // The customer's own copy is cut by another command; what the whole dossier shows must add up, and
    // the rule that looks at copies must not pass in silence.
    let book = Book::example("released");
    let rule = book
        .dossier
        .checked
        .iter()
        .find(|checked| checked.rule.id == "R80")
        .unwrap();
    assert!(rule.outcome.looked == 0 && rule.outcome.blind.is_some());
    book.says(
        "not-here",
        &[
            "R80",
            "this is the maker's whole folder, not a customer's copy of it",
        ],
    );
    book.says(
        "lots/l26-31",
        &[
            "Started 26, accounted for 26.",
            "destroyed as sample",
            "not released (DV-26-34)",
        ],
    );
    book.says(
        "certificates/rs-l26-31",
        &[
            "Of the same lot and not released: A-26-2105.",
            "flow of the assembly above the sum of its modules",
        ],
    );
    book.never_says("certificates/rs-l26-31", &["Saltmarsh"]);
}

#[test]
fn situation_24_three_files_differ_years_later() {
    let folder = written(&Sound::read());
    let place = tempfile::tempdir().unwrap();
    let out = place.path().join("out");
    let (status, text) = code(&[
        "compile",
        folder.path().to_str().unwrap(),
        "--into",
        out.to_str().unwrap(),
    ]);
    assert_eq!(status, 0, "{text}");
    for page in ["data/index.html", "data/cautions.html"] {
        let text = fs::read_to_string(out.join(page)).unwrap();
        fs::write(out.join(page), text.replace('\n', "\r\n")).unwrap();
    }
    let name = "data/records/studies.yaml";
    let half = fs::read(out.join(name)).unwrap();
    fs::write(out.join(name), &half[..half.len() / 2]).unwrap();
    let (status, text) = code(&["verify", out.to_str().unwrap()]);
    assert_eq!(status, 1);
    for words in [
        "changed: data/index.html",
        "changed: data/cautions.html",
        "changed: data/records/studies.yaml",
        "3 differences",
        "figures stand on whole files alone",
        "2 do not: repeatability@ME-45, reproducibility@ME-45.",
    ] {
        assert!(text.contains(words), "{words}:\n{text}");
    }
    for word in ["tamper", "forged", "manipulat"] {
        assert!(!text.to_lowercase().contains(word), "{text}");
    }
}

#[test]
fn situation_25_an_old_copy_cannot_know_that_it_is_old() {
    let old = "sha256:0f1e2d3c4b5a69788796a5b4c3d2e1f00f1e2d3c4b5a69788796a5b4c3d2e1f0";
    let book = Book::spoiled(|set| {
        set.swap("dossier.yaml", "revision: 1\n", &format!("revision: 2\nsupersedes: {{id: QM-2026-1, revision: 1, digest: \"{old}\"}}\nchange_reason: \"order corrected\"\n"));
    });
    book.says("index", &["QM-2026-1 revision 2", "Supersedes QM-2026-1 revision 1", old, "This copy cannot know whether a newer revision exists: ask the issuer for the current one."]);
    book.says(
        "certificates",
        &[
            "Issued 2026-03-25",
            "Valid unless superseded; ask the issuer for the number of the current revision.",
        ],
    );
    assert!(book.findings("R78").is_empty());
}

#[test]
fn situation_26_a_test_fails_after_a_run() {
    let book = Book::spoiled(|set| {
        set.swap_after(
            "service.yaml",
            "2026-09-14T17:40",
            "verdict: pass",
            "verdict: fail",
        );
    });
    let said = book.findings("R73");
    assert_eq!(said[0].0, Severity::Blocks);
    for words in [
        "All that was filtered since the passed test of 2026-09-14 07:10 +02:00 is suspect",
        "run B-40 (18000 L)",
        "keep both results",
        "the customer's decision",
    ] {
        assert!(said[0].1.contains(words), "{words}: {said:?}");
    }
    book.says("service/a-26-2101", &["is suspect", "run B-40"]);
    book.never_says(
        "service/a-26-2101",
        &["Yes, as far as runs and tests are reported."],
    );
}

#[test]
fn situation_27_an_element_in_two_housings_counts_both() {
    let book = Book::spoiled(|set| {
        let log = set
            .record("service.yaml", "CL-26-5")
            .replace("CL-26-5", "CL-26-6")
            .replace("H-1-03", "H-3-02");
        let begin = log.find("  - {sequence: 12").unwrap();
        let end = log.find("in_service").unwrap();
        let events = "  - {sequence: 1, treatment: steam_in_place, start: \"2026-09-15T05:52:00+02:00\", evidence: operator_statement}\n";
        let log = log[..begin].to_owned() + events + &log[end..];
        let log = log.replace("cycles: 11,", "cycles: 3,");
        set.add("service.yaml", &log);
    });
    let said = book.findings("R75");
    assert!(
        said[0]
            .1
            .contains("A-26-2101 stands in CL-26-5 and in CL-26-6 at one time")
            && said[0].1.contains("cycles of both count against it"),
        "{said:?}"
    );
    // 11 + 3 carried forward, 3 + 1 in the logs.
    book.says(
        "service/a-26-2101",
        &[
            "It is reported in more than one log; a log that carries the earlier ones forward stands for them, and all others add up",
            "32 left of 50; 18 counted",
        ],
    );
}

#[test]
fn situation_28_a_food_contact_paper_that_stops_short_of_steam() {
    let narrow = |set: &mut Sound| {
        set.swap_after(
            "materials.yaml",
            "AD-32",
            "up to 125 degC / 30 min",
            "up to 100 degC / 30 min",
        )
    };
    let open = Book::spoiled(narrow);
    let said = open.findings("R68");
    assert_eq!(said[0].0, Severity::Explain);
    assert!(
        said[0]
            .1
            .contains("the claim includes steam in place at 123 degC")
            && said[0].1.contains("no food is present"),
        "{said:?}"
    );
    let explained = Book::spoiled(|set| {
        narrow(set);
        set.deviation(
            "DV-T",
            "{document: DOC-42, lot_id: L26-31}",
            "data",
            "concession",
            "impact: \"no food is present while steaming; a rinse follows\"\n",
        );
    });
    assert_eq!(explained.findings("R68")[0].0, Severity::Note);
    assert!(explained.findings("R68")[0].1.contains("Explained by DV-T"));
    explained.says(
        "deviations",
        &["no food is present while steaming; a rinse follows"],
    );
}

#[test]
fn situation_29_nothing_found_says_how_much_was_looked_at() {
    let book = Book::spoiled(|_| {});
    assert!(book.dossier.findings().is_empty());
    for checked in &book.dossier.checked {
        let heading = format!("{}: {}", checked.rule.id, checked.rule.demands);
        let text = book.page("rules.html").split(&heading).nth(1).unwrap();
        let looked = match checked.outcome.looked {
            0 => "Not evaluated:".to_owned(),
            n => format!("Looked at {n} "),
        };
        assert!(
            text.trim_start().starts_with(&looked),
            "{heading}: {}",
            &text[..80]
        );
    }
    // Rules over nothing are no pass, and stand on the page of what is not here.
    book.says("not-here", &["R56", "there were no retests to look at"]);
    // Five hundred modules of which none failed are worth a question.
    let many = Book::spoiled(|set| {
        let packs: String = (0..500).map(|i| format!("  - {{module_id: M-26-9{i:03}, material_lot: RM-701, from: \"{:.2} m\", to: \"{:.2} m\", pleat_count: 92, visual: accepted}}\n", 100.0 + 0.2 * f64::from(i), 100.2 + 0.2 * f64::from(i))).collect();
        let head = set
            .record("pleating.yaml", "PL-L26-31")
            .replace("L26-31", "L26-99");
        let head = head.split_once("packs:").unwrap().0.to_owned();
        set.add("pleating.yaml", &format!("{head}packs:\n{packs}"));
    });
    let said = many.findings("R59");
    assert_eq!(said[0].0, Severity::Note);
    assert!(
        said[0]
            .1
            .contains("L26-99: 500 modules, and none was tested again or rejected."),
        "{said:?}"
    );
}

#[test]
fn situation_30_a_certificate_that_says_sterile_is_refused_with_what_may_be_said() {
    let book = Book::spoiled(|set| {
        set.swap(
            "releases.yaml",
            "statement: \"The items named conform",
            "statement: \"Sterile filters; the items named conform",
        )
    });
    let said = book.findings("R64");
    assert_eq!(said[0].0, Severity::Blocks);
    for words in [
        "Remove the words.",
        "What may be said: membrane RM-701 was challenged with 1.62e8 CFU of Serratia marcescens; log reduction at least 7.7 at 95 % confidence",
    ] {
        assert!(said[0].1.contains(words), "{words}: {said:?}");
    }
    book.says("not-here", &["Sterile filters"]);
    // What denies it may be said.
    let sound = Book::spoiled(|_| {});
    sound.says(
        "certificates",
        &["Not a sterilising-grade filter; no claim of sterility."],
    );
}

#[test]
fn situation_31_one_test_of_a_whole_housing_cannot_see_one_leak() {
    let book = Book::example("released");
    let forty = book
        .dossier
        .plant
        .assemblies
        .keys()
        .find(|id| {
            book.dossier
                .plant
                .build(id)
                .is_some_and(|(_, build)| build.modules.len() == 4)
                && book.dossier.view().release.contains(&***id)
        })
        .unwrap();
    let own = {
        let test = book
            .dossier
            .plant
            .last_test(forty)
            .unwrap()
            .record
            .id
            .to_string();
        book.value("diffusive-flow", &test)
    };
    let hidden = 5.0 * (56.0 - own);
    assert!(hidden > 100.0);
    book.says(
        &format!("service/{}", forty.to_lowercase()),
        &[
            "at most 56 mL/min",
            &format!("with 5 elements {hidden:.0} mL/min"),
            "Such a test cannot say which element leaks; single tests can.",
        ],
    );
}

#[test]
fn situation_32_yaml_types_change_no_meaning() {
    let refused = |file: &str, from: &str, to: &str, rule: &'static str, words: &[&str]| {
        let book = Book::spoiled(|set| set.swap(file, from, to));
        let said = book.findings(rule);
        for word in words {
            assert!(
                said.iter()
                    .any(|(severity, said)| *severity == Severity::Blocks && said.contains(word)),
                "{to}: {word}: {said:?}"
            );
        }
    };
    refused(
        "instruments.yaml",
        "serial_number: \"0000-PT-05\"",
        "serial_number: 03107",
        "R01",
        &["03107", "\"03107\""],
    );
    refused(
        "assemblies.yaml",
        "ring_turns_freely: true",
        "ring_turns_freely: no",
        "R01",
        &["no", "true or false"],
    );
    refused(
        MODULES,
        "recorded_at: \"2026-03-12T08:00:00+01:00\"",
        "recorded_at: 12:30",
        "R24",
        &["12:30"],
    );
    refused(
        ASSEMBLIES,
        "upstream_volume: \"6.150 L\"",
        "upstream_volume: 6.150",
        "R04",
        &["6.150 has no unit"],
    );
    // What is quoted keeps its digits as written.
    let kept = Book::spoiled(|set| {
        set.swap(
            "instruments.yaml",
            "serial_number: \"0000-PT-05\"",
            "serial_number: \"03107\"",
        )
    });
    assert!(kept.dossier.findings().is_empty());
    kept.says("lines/instruments", &["serial_number: \"03107\""]);
}

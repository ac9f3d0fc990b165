//! What the numbers say, and what they cannot.

use super::*;

#[test]
fn situation_13_cycles_count_against_life_and_prove_only_with_a_trace() {
    let book = Book::example("released");
    book.says(
        "service/a-26-2104",
        &["Steam in place: 33 left of 50; 17 counted: 1 with a whole trace in this dossier, 14 carried forward with traces by the plant's word, 2 with a gap or by word only.", "Reported by the customer; the maker has verified none of it."],
    );
    book.never_says("service/a-26-2104", &["35 left"]);
}

#[test]
fn situation_14_undecided_stays_undecided_though_the_rig_says_pass() {
    let book = Book::example("as-found");
    book.says(
        "open-points",
        &[
            "A-26-2204: bubble point of an element 2.424 ± 0.020 bar (U = 0.041 bar), limit ≥ 2.40 bar: undecided",
            "reported 2.42 bar, pass",
        ],
    );
    let said = book.findings("R43");
    for words in [
        "a plan approved beforehand",
        "another decision rule",
        "reject",
        "Testing until it passes is not among them",
    ] {
        assert!(said[0].1.contains(words), "{words}: {said:?}");
    }
}

#[test]
fn situation_15_a_rig_that_rounds_and_the_slope_of_all_readings_agree() {
    let book = Book::spoiled(|set| {
        // The rig takes two end points and prints one decimal.
        let value = set
            .record(MODULES, "MT-26-3101-1")
            .contains("{value: \"8.5 mL/min\"");
        assert!(value);
        set.swap_after(
            MODULES,
            "MT-26-3101-1",
            "{value: \"8.5 mL/min\"",
            "{value: \"8.4 mL/min\"",
        );
    });
    assert!(
        book.findings("R40").is_empty(),
        "{:?}",
        book.findings("R40")
    );
    book.says(
        "methods.html",
        &[
            "two readings, one at the beginning and one at the end, and prints one decimal",
            "agree within the tolerance",
        ],
    );
}

#[test]
fn situation_16_two_tests_with_one_trace_are_asked_about_not_accused() {
    let book = Book::spoiled(|set| {
        let copy = set.text("traces/mt-26-3107-1-df.csv");
        set.trace("traces/mt-26-3108-1-df.csv", |_| copy.clone());
    });
    let said = book.findings("R49");
    assert_eq!(said[0].0, Severity::Blocks);
    assert!(
        said[0]
            .1
            .contains("fetch both originals from the instrument"),
        "{said:?}"
    );
    for word in ["fraud", "forged", "tamper", "manipulat"] {
        assert!(!said[0].1.to_lowercase().contains(word));
    }
}

#[test]
fn situation_17_a_missing_run_number_is_asked_for() {
    let book = Book::spoiled(|set| {
        set.swap(MODULES, "RUN-0408", "RUN-0409");
    });
    let said = book.findings("R29");
    assert!(
        said[0]
            .1
            .contains("RUN-0407 is followed by RUN-0409; 1 run is not here."),
        "{said:?}"
    );
    assert!(
        said[0].1.contains("trial, leak check, other product"),
        "{said:?}"
    );
}

#[test]
fn situation_18_too_good_must_be_explained() {
    let book = Book::spoiled(|set| {
        set.swap_after(
            MODULES,
            "MT-26-3107-1",
            "upstream_volume: \"2.420 L\"",
            "upstream_volume: \"1.100 L\"",
        )
    });
    let said = book.findings("R47");
    assert_eq!(said[0].0, Severity::Explain);
    for words in [
        "8.18 mL/min being the median",
        "outlet valve shut",
        "wrong gas",
        "blocked area",
        "volume",
    ] {
        assert!(said[0].1.contains(words), "{words}: {said:?}");
    }
}

#[test]
fn situation_19_no_gas_no_verdict() {
    let book = Book::spoiled(|set| {
        set.swap_after(
            MODULES,
            "MT-26-3101-1",
            "test_gas: nitrogen, test_pressure",
            "test_pressure",
        )
    });
    let flow = book
        .dossier
        .graph
        .get("diffusive-flow", "MT-26-3101-1", "")
        .unwrap();
    assert_ne!(flow.verdict().words(), "conforms");
    assert!(
        book.findings("R03")
            .iter()
            .any(|(severity, words)| *severity == Severity::Blocks && words.contains("test_gas"))
    );
    // Air where the limit is for nitrogen.
    let air = Book::spoiled(|set| {
        set.swap_after(
            MODULES,
            "MT-26-3101-1",
            "test_gas: nitrogen, test_pressure",
            "test_gas: air, test_pressure",
        )
    });
    assert!(
        air.findings("R41")
            .iter()
            .any(|(severity, words)| *severity == Severity::Blocks && words.contains("air")),
        "{:?}",
        air.findings("R41")
    );
}

#[test]
fn situation_20_gas_that_cools_is_corrected_or_doubted() {
    // 0.1 K of cooling over the test, in the pressure as an ideal gas has it, and in the temperature.
    let cooled = |keep: bool| {
        move |text: &str| {
            let mut out = String::new();
            for (i, line) in text.lines().enumerate() {
                let fields: Vec<&str> = line.split(',').collect();
                if i == 0 {
                    out += &if keep {
                        format!("{line}\n")
                    } else {
                        format!("{},{}\n", fields[0], fields[1])
                    };
                    continue;
                }
                let (t, p, warm): (f64, f64, f64) = (
                    fields[0].parse().unwrap(),
                    fields[1].parse().unwrap(),
                    fields[2].parse().unwrap(),
                );
                let cold = warm - 0.1 * t / 300.0;
                let moved = (p + 1006.2) * (cold + 273.15) / (warm + 273.15) - 1006.2;
                out += &if keep {
                    format!("{t},{moved:.4},{cold:.5}\n")
                } else {
                    format!("{t},{moved:.4}\n")
                };
            }
            out
        }
    };
    let sound = Book::spoiled(|_| {});
    let with = Book::spoiled(|set| set.trace("traces/mt-26-3107-1-df.csv", cooled(true)));
    let without = Book::spoiled(|set| set.trace("traces/mt-26-3107-1-df.csv", cooled(false)));
    let flow = |book: &Book| book.value("diffusive-flow", "MT-26-3107-1");
    assert!(
        (flow(&with) - flow(&sound)).abs() < 0.01,
        "{} and {}",
        flow(&with),
        flow(&sound)
    );
    // Uncorrected it reads too high by V·p/T·0.1 K over five minutes: about 0.4 mL/min.
    let excess = flow(&without) - flow(&sound);
    assert!((0.3..0.6).contains(&excess), "{excess}");
    // Either way the maker's doubt about the drift stands in the budget.
    let budget = without
        .dossier
        .graph
        .get("diffusive-flow", "MT-26-3107-1", "")
        .unwrap();
    assert!(
        budget
            .quantity()
            .unwrap()
            .shares
            .causes()
            .any(|cause| cause.name == "gas_temperature_drift")
    );
}

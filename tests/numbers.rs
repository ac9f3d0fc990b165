//! Numbers that were found to be wrong, or shown where there is none: each with what it must be.

mod common;

use common::{Sound, found_off, said};
use sealfolio::{figure::FigureId, ground::finding::Severity, stats::sampling};

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

/// A recorder that is wrong in every row alike multiplies F0 by 10^(δ/z), by its definition: u(F0)/F0 is u(δ) ln 10 / z.
#[test]
fn the_recorder_of_a_cycle_is_in_doubt() {
    let sound = Sound::read();
    let cycles = |sound: &Sound, figure: &'static str| {
        let dossier = sound.dossier();
        let all = dossier.graph.all(figure);
        all.map(|computed| computed.quantity().unwrap().clone())
            .collect::<Vec<_>>()
    };
    for figure in ["f0-proven", "f0-full"] {
        let all = cycles(&sound, figure);
        assert!(!all.is_empty());
        for f0 in all {
            let relative = 0.2 * std::f64::consts::LN_10 / 10.0;
            assert!((f0.u() / f0.value - relative).abs() < 1e-9, "{figure}");
        }
    }
    let near = |sound: &Sound| {
        let found = said(&sound.dossier(), "R72");
        let near = |(weight, words): &&(Severity, String)| {
            *weight == Severity::Note && words.contains("above the hold temperature")
        };
        found.iter().find(near).map(|(_, words)| words.clone())
    };
    assert_eq!(near(&sound), None);
    // A plateau of 121.6 °C over a hold temperature of 121.0 °C, and a recorder that may be 1.645 · 0.5 K wrong.
    let mut poor = sound.clone();
    let source = "f0, source: recorder_temperature, absolute: ";
    poor.swap(
        "specifications.yaml",
        &format!("{source}\"0.2 K\""),
        &format!("{source}\"0.5 K\""),
    );
    let told = near(&poor).unwrap();
    assert!(
        told.contains("of 3 cycles lies less than 0.82 K above"),
        "{told}"
    );
    assert!(told.ends_with(": 12, 13, 14."), "{told}");
}

#[test]
fn an_hour_without_rows_is_a_gap() {
    use sealfolio::record::trace::Trace;
    let read = |text: &str| Trace::read(text.as_bytes(), '.', b',').unwrap();
    let trace = read("time_s,temperature_c\n0,121.5\n10,121.5\n3610,121.5\n");
    assert_eq!(trace.gaps(), [(1, 3600.0)]);
    let steady = read("time_s,temperature_c\n0,121.5\n10,121.5\n20,121.5\n30,121.5\n");
    assert!(steady.gaps().is_empty());
}

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

#[test]
fn an_error_at_zero_does_not_make_flows_vanish() {
    let mut sound = Sound::read();
    found_off(&mut sound, "0 mbar", "+200 mbar");
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

/// What is unfavourable for the flow of a module is favourable for the flow of an assembly over the sum of its modules: a rig of
/// modules that read too low tested them at more than it said, so that their flows at what it said were less, and the joins leak more.
#[test]
fn a_residual_is_judged_again_in_its_own_direction() {
    let mut sound = Sound::read();
    found_off(&mut sound, "1700 mbar", "-200 mbar");
    let dossier = sound.dossier();
    let all = sealfolio::rejudge::rejudged(&dossier.plant, &dossier.graph);
    let residual = all
        .iter()
        .flat_map(|again| &again.moved)
        .find(|one| one.before.id.to_string() == "join-residual@AT-26-2101-1")
        .unwrap();
    // Two modules of some 8.3 mL/min at 1900 mbar instead of 1700.
    let more = 1e6 * 60.0 * (residual.after.value - residual.before.quantity().unwrap().value);
    assert!((more - 2.0 * 8.3 * 200.0 / 1900.0).abs() < 0.1, "{more}");
    for one in all.iter().flat_map(|again| &again.moved) {
        let flow = one.before.id.figure == "diffusive-flow";
        let before = one.before.quantity().unwrap().value;
        assert!(!flow || one.after.value >= before, "{}", one.before.id);
    }
}

/// 10 mL/min of an assembly whose modules pass 12, and 2 % in doubt: without a leak it would be 12, in doubt by 0.24. With the normal
/// quantile q (95 %) the threshold is q · 0.24, and a leak y is seen where y = q · 0.24 + q · 0.02 (12 + y).
#[test]
fn what_a_test_sees_is_asked_without_and_with_the_leak() {
    use sealfolio::{
        figures::join_residual::sight,
        ground::{
            quantity::{Cause, Quantity},
            unit::FLOW,
        },
    };
    let cause = Cause {
        name: "wetting".into(),
        of: "AT-1".into(),
        degrees: None,
        study: None,
    };
    let of = |value: f64| Quantity::exact(value, FLOW).with(cause.clone(), 0.2);
    let seen = sight(&of(-2.0), &of(10.0)).unwrap();
    let q = 1.644853626951472;
    assert!((seen.threshold - q * 0.24).abs() < 1e-9);
    assert!((seen.detection - 2.0 * q * 0.24 / (1.0 - q * 0.02)).abs() < 1e-9);
}

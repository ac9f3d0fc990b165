//! What must hold for every number, not only for those of a table. Cases come from a fixed seed.

mod common;

use common::*;
use proptest::prelude::*;
use proptest::test_runner::{Config, RngAlgorithm, TestRng, TestRunner};
use sealfolio::{
    figure::Computed,
    ground::{
        number,
        quantity::{Cause, Quantity},
        unit::{ONE, UNITS},
    },
    physics::{exposure, filter, fluid},
    simulation::simulate,
    stats,
    verdict::{Decision, Limit, Verdict, coverage, judge},
};

/// The same cases on every machine.
fn hold<S: Strategy>(strategy: S, test: impl Fn(S::Value) -> Result<(), TestCaseError>) {
    let rng = TestRng::from_seed(RngAlgorithm::ChaCha, &[7; 32]);
    let config = Config {
        cases: 400,
        failure_persistence: None,
        ..Config::default()
    };
    TestRunner::new_with_rng(config, rng)
        .run(&strategy, test)
        .unwrap();
}

fn cause(name: &str, degrees: Option<u64>) -> Cause {
    Cause {
        name: name.into(),
        of: String::new(),
        degrees,
        study: None,
    }
}

#[test]
fn units_there_and_back() {
    hold((0..UNITS.len(), -1e6..1e6_f64), |(i, x)| {
        let unit = UNITS[i];
        let back = unit.of_si(unit.to_si(x));
        prop_assert!((back - x).abs() <= 1e-12 * (x.abs() + unit.zero.abs() / unit.factor));
        Ok(())
    });
}

#[test]
fn a_printed_number_is_read_as_what_was_printed() {
    hold((-1e5..1e5_f64, 1..9_i32), |(x, digits)| {
        let shown = number::significant(x, digits).replace('−', "-");
        let Ok(read) = number::parse(&shown) else {
            return Err(TestCaseError::fail(format!("{shown} cannot be read")));
        };
        prop_assert!(
            (read - x).abs()
                <= 0.500_001 * 10_f64.powi(libm::floor(libm::log10(x.abs())) as i32 + 1 - digits),
            "{x} as {shown}"
        );
        Ok(())
    });
}

#[test]
fn warm_water_wets_more_flows_more_and_boils_sooner() {
    hold((274.0..360.0_f64, 0.1..10.0_f64), |(t, warmer)| {
        prop_assert!(
            fluid::surface_tension(t + warmer).unwrap() < fluid::surface_tension(t).unwrap()
        );
        prop_assert!(
            fluid::viscosity(t + warmer, 1e5).unwrap() < fluid::viscosity(t, 1e5).unwrap()
        );
        let pressure = fluid::saturation_pressure(t).unwrap();
        prop_assert!(fluid::saturation_pressure(t + warmer).unwrap() > pressure);
        prop_assert!((fluid::saturation_temperature(pressure).unwrap() - t).abs() < 1e-7);
        Ok(())
    });
}

#[test]
fn a_bubble_point_halves_when_the_pore_doubles() {
    hold(
        (1e-7..1e-5_f64, 0.02..0.08_f64, 0.0..80.0_f64),
        |(d, gamma, angle)| {
            let one = filter::bubble_point(1.0, gamma, angle, d).unwrap();
            let two = filter::bubble_point(1.0, gamma, angle, 2.0 * d).unwrap();
            prop_assert!((one / two - 2.0).abs() < 1e-12);
            prop_assert!(filter::bubble_point(1.0, gamma, angle + 5.0, d).unwrap() < one);
            Ok(())
        },
    );
}

#[test]
fn a_lethality_grows_with_heat_and_adds_up_over_time() {
    hold((100.0..124.0_f64, 0.1..5.0_f64), |(t, more)| {
        let rate = |t| exposure::rate(t, 121.1, 10.0).unwrap();
        prop_assert!(rate(t + more) > rate(t));
        // Ten degrees are one decade: the meaning of z.
        prop_assert!((rate(t + 10.0) / rate(t) - 10.0).abs() < 1e-9);
        Ok(())
    });
}

#[test]
fn zero_colonies_never_show_more_than_the_challenge() {
    hold(
        (1e3..1e11_f64, 0..40_u32, 0.8..0.99_f64),
        |(challenge, count, confidence)| {
            let bound =
                |n, c| exposure::log_reduction_bound(challenge, f64::from(n), 1.0, c).unwrap();
            prop_assert!(bound(count, confidence) < libm::log10(challenge));
            prop_assert!(bound(count + 1, confidence) < bound(count, confidence));
            prop_assert!(bound(count, confidence + 0.009) < bound(count, confidence));
            // A tenth of the filtrate costs at least one decade.
            let tenth = exposure::log_reduction_bound(challenge, f64::from(count), 0.1, confidence);
            prop_assert!((bound(count, confidence) - tenth.unwrap() - 1.0).abs() < 1e-9);
            Ok(())
        },
    );
}

#[test]
fn poisson_bounds_hold_the_count_between_them() {
    hold((1..300_u32, 0.8..0.995_f64), |(n, confidence)| {
        let n = f64::from(n);
        let (low, high) = (
            stats::proportion::poisson_lower(n, confidence).unwrap(),
            stats::proportion::poisson_upper(n, confidence).unwrap(),
        );
        prop_assert!(low < n && n < high);
        Ok(())
    });
}

#[test]
fn no_correlation_makes_an_uncertainty_larger_than_the_sum() {
    let share = -5.0..5.0_f64;
    hold(
        (share.clone(), share.clone(), share.clone(), share),
        |(a, b, own_a, own_b)| {
            let of = |shared: f64, own: f64, name: &str| {
                Quantity::exact(1.0, ONE.dim)
                    .with(cause("rig", None), shared)
                    .with(cause(name, None), own)
            };
            let (x, y) = (of(a, own_a, "x"), of(b, own_b, "y"));
            let u = Quantity::propagate(2.0, ONE.dim, [(1.0, &x), (1.0, &y)]).u();
            prop_assert!(u <= x.u() + y.u() + 1e-12 && u >= (x.u() - y.u()).abs() - 1e-12);
            Ok(())
        },
    );
}

#[test]
fn effective_degrees_lie_between_the_least_and_the_sum() {
    hold(
        (0.1..5.0_f64, 0.1..5.0_f64, 1..60_u64, 1..60_u64),
        |(a, b, n, m)| {
            let q = Quantity::exact(1.0, ONE.dim)
                .with(cause("a", Some(n)), a)
                .with(cause("b", Some(m)), b);
            prop_assert!(
                q.degrees() >= n.min(m) as f64 - 1e-9 && q.degrees() <= (n + m) as f64 + 1e-9
            );
            prop_assert!(coverage(&q) >= 2.0);
            Ok(())
        },
    );
}

#[test]
fn a_worse_value_is_never_decided_better() {
    let rank = |verdict: Verdict| match verdict {
        Verdict::Conforms => 2,
        Verdict::Undecided => 1,
        _ => 0,
    };
    hold(
        (0.0..20.0_f64, 0.0..5.0_f64, 0.01..2.0_f64, 0.0..2.0_f64),
        |(value, worse, u, width)| {
            for decision in [Decision::Guarded(width), Decision::Rejection(width)] {
                let limit = Limit {
                    low: None,
                    high: Some(10.0),
                    text: String::new(),
                    at: None,
                    decision,
                };
                let at = |value| {
                    judge(
                        &Quantity::exact(value, ONE.dim).with(cause("gauge", None), u),
                        &limit,
                    )
                };
                prop_assert!(rank(at(value + worse).verdict) <= rank(at(value).verdict));
                prop_assert!(
                    at(value + worse).conformance.unwrap() <= at(value).conformance.unwrap()
                );
            }
            Ok(())
        },
    );
}

/// JCGM 101:2008, clause 8: the linear result of each kind of figure in the sound lot.
#[test]
fn the_linear_uncertainty_is_what_drawing_gives() {
    let dossier = Sound::read().dossier();
    let mut seen = std::collections::BTreeSet::new();
    let judged =
        |one: &&Computed| one.judgement.is_some() && one.quantity().is_some_and(|q| q.u() > 0.0);
    for computed in dossier
        .graph
        .computed
        .values()
        .map(Box::as_ref)
        .filter(judged)
    {
        if !seen.insert(computed.id.figure) {
            continue;
        }
        let simulation = simulate(&dossier.graph, &dossier.plant, computed, 3000).unwrap();
        assert!(simulation.agrees(), "{}: {simulation:?}", computed.id);
    }
    assert!(seen.len() >= 8, "{seen:?}");
}

#[test]
fn a_draw_notices_a_curve_that_a_line_misses() {
    let spreads = [sealfolio::metrology::Spread::Normal(0.0, 1.0)];
    let drawn =
        sealfolio::metrology::monte_carlo(&spreads, 20_000, 1, |x| Ok(x[0] * x[0])).unwrap();
    // The slope at zero is zero; the mean of a squared standard normal is one.
    assert!((drawn.mean_and_sd().0 - 1.0).abs() < 0.05);
}

/// Whatever a file holds, the answer is a dossier with findings, never a panic.
#[test]
fn no_spoiled_byte_makes_it_fall_over() {
    let sound = Sound::read();
    let files: Vec<String> = sound
        .files
        .keys()
        .filter(|name| !name.starts_with("attachments"))
        .cloned()
        .collect();
    let rng = TestRng::from_seed(RngAlgorithm::ChaCha, &[9; 32]);
    let config = Config {
        cases: 60,
        failure_persistence: None,
        ..Config::default()
    };
    TestRunner::new_with_rng(config, rng)
        .run(
            &(
                0..files.len(),
                any::<prop::sample::Index>(),
                any::<u8>(),
                0..3_u8,
            ),
            |(file, at, byte, how)| {
                let mut set = sound.clone();
                let bytes = set.files.get_mut(&files[file]).unwrap();
                let i = at.index(bytes.len());
                match how {
                    0 => bytes[i] = byte,
                    1 => bytes.truncate(i),
                    _ => bytes.insert(i, byte),
                }
                let dossier = set.dossier();
                prop_assert!(
                    dossier
                        .graph
                        .computed
                        .values()
                        .all(|one| one.quantity().is_none_or(|q| q.value.is_finite()))
                );
                Ok(())
            },
        )
        .unwrap();
}

#[test]
fn a_study_without_a_result_gives_no_figure_and_ends_nothing() {
    let mut set = Sound::read();
    let study = set.record("studies.yaml", "ME-45");
    let (head, _) = study.split_once("results:").unwrap();
    set.swap("studies.yaml", &study, &format!("{head}results: []\n"));
    let dossier = set.dossier();
    let found: Vec<_> = dossier.graph.all("repeatability").collect();
    assert!(!found.is_empty());
    for computed in found {
        let why = computed.worked.as_ref().err();
        assert!(why.is_some_and(|why| why.starts_with("there is no value of ")));
    }
}

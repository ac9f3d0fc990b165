//! Each condition of a refusal alone, each branch of a formula, and what must hold at its edges.
//!
//! Reference values: scipy 1.x (`scipy.stats`: t, chi2, beta, nct) and statsmodels (`normal_ad`), computed for
//! these very numbers; the rest are definitions that a hand calculation gives.

mod common;

use common::Sound;
use sealfolio::{
    figure::Computed,
    ground::{
        quantity::{Cause, Quantity},
        unit::{Dim, FLOW, PRESSURE},
    },
    metrology::{Spread, monte_carlo},
    physics::{exposure, filter, fluid},
    simulation::simulate,
    stats::{
        capability::{Limits, capability},
        comparison::bartlett,
        control,
        distribution::{beta_quantile, chi_squared_quantile, t_quantile},
        endurance::{Bounded, Limit, Of, Question},
        normality::anderson_darling,
        regression,
        sampling::{Model, Plan, acceptance, variables_acceptance, variables_quality_accepted_at},
        tolerance::factor_two_sided,
    },
    verdict::{self, Decision, Verdict, judge},
};

fn near(found: f64, expected: f64, relative: f64) {
    assert!(
        (found - expected).abs() <= relative * expected.abs(),
        "{found} is not {expected}"
    );
}

#[test]
fn a_spread_is_refused_for_each_reason_alone() {
    let run = |spread| monte_carlo(&[spread], 1000, 1, |x| Ok(x[0]));
    for bad in [
        Spread::Fixed(f64::NAN),
        Spread::Normal(f64::INFINITY, 1.0),
        Spread::Normal(0.0, f64::INFINITY),
        Spread::Normal(0.0, -1.0),
        Spread::Rectangular(f64::NEG_INFINITY, 1.0),
        Spread::Rectangular(0.0, f64::INFINITY),
        Spread::Rectangular(1.0, 0.0),
        Spread::Student(0),
    ] {
        assert!(run(bad).is_err(), "{bad:?}");
    }
    for good in [
        Spread::Fixed(1.0),
        Spread::Normal(0.0, 0.0),
        Spread::Rectangular(1.0, 1.0),
        Spread::Student(1),
    ] {
        assert!(run(good).is_ok(), "{good:?}");
    }
}

#[test]
fn few_draws_and_lost_draws_are_refused_at_the_edge() {
    let run = |trials, lost: usize| {
        let mut n = 0;
        monte_carlo(&[Spread::Fixed(1.0)], trials, 1, |x| {
            n += 1;
            if n <= lost {
                Err("lost".into())
            } else {
                Ok(x[0])
            }
        })
    };
    // What is no finite number is lost as well.
    let wild = |bad: f64| {
        let mut n = 0;
        monte_carlo(&[Spread::Fixed(1.0)], 1000, 1, move |x| {
            n += 1;
            Ok(if n <= 10 { bad } else { x[0] })
        })
    };
    for bad in [f64::NAN, f64::INFINITY] {
        assert_eq!(wild(bad).unwrap().trials(), 990);
    }
    assert!(run(999, 0).is_err());
    assert_eq!(run(1000, 10).unwrap().trials(), 990);
    assert!(run(1000, 11).is_err());
}

#[test]
fn a_pressure_hold_refuses_each_doubt_alone() {
    let flow = |u: [f64; 4], rp, rt| {
        filter::hold_flow_u(
            0.01,
            (2e5, 293.0),
            (1.99e5, 293.0),
            300.0,
            (101_325.0, 293.15),
            u,
            rp,
            rt,
        )
    };
    let u = [1e-5, 50.0, 0.1, 1.0];
    assert!(flow(u, 1.0, -1.0).is_ok());
    for i in 0..4 {
        let mut bad = u;
        bad[i] = -bad[i];
        assert!(flow(bad, 0.0, 0.0).is_err(), "{i}");
        bad[i] = 0.0;
        assert!(flow(bad, 0.0, 0.0).is_ok(), "{i}");
    }
    assert!(flow(u, 1.01, 0.0).is_err());
    assert!(flow(u, -1.01, 0.0).is_err());
    assert!(flow(u, 0.0, 1.01).is_err());
    assert!(flow(u, 0.0, -1.01).is_err());
}

#[test]
fn a_decay_needs_three_points_that_fall_in_time_that_rises() {
    let exact = |t: &[f64]| {
        t.iter()
            .map(|t| 3.0 * libm::exp(-t / 50.0))
            .collect::<Vec<_>>()
    };
    let t = [0.0, 10.0, 20.0];
    let (a, tau, u) = filter::decay(&t, &exact(&t)).unwrap();
    near(a, 3.0, 1e-12);
    near(tau, 50.0, 1e-12);
    assert!(u < 1e-6);
    assert!(filter::decay(&t[..2], &exact(&t[..2])).is_err());
    assert!(filter::decay(&t, &exact(&t[..2])).is_err());
    assert!(filter::decay(&[0.0, 10.0, 10.0], &[3.0, 2.0, 1.0]).is_err());
    assert!(filter::decay(&t, &[3.0, 2.0, 0.0]).is_err());
    assert!(filter::decay(&t, &[3.0, 2.0, 3.0]).is_err());
    assert!(filter::decay(&t, &[3.0, 2.0, 2.9]).is_ok());
}

#[test]
fn a_vessel_gives_gas_to_a_volume_between_the_two_pressures() {
    assert!(filter::volume_by_expansion(1.0, 3e5, 1e5, 1e5).is_err());
    assert!(filter::volume_by_expansion(1.0, 3e5, 1e5, 3e5).is_err());
    assert!(filter::volume_by_expansion(1.0, 3e5, 1e5, 2e5).is_ok());
}

#[test]
fn air_dissolves_as_its_parts_do() {
    for t in [283.15, 293.15, 303.15] {
        let of = |gas| fluid::solubility(gas, t).unwrap();
        near(of("air"), 0.79 * of("N2") + 0.21 * of("O2"), 1e-14);
    }
}

#[test]
fn a_wetting_liquid_is_refused_by_what_is_wrong_with_it() {
    let of = |liquid, share, celsius: f64| {
        fluid::alcohol_surface_tension(liquid, share, celsius + 273.15)
    };
    for share in [-0.1, 1.1] {
        assert!(
            of("ethanol-water", Some(share), 25.0)
                .unwrap_err()
                .contains("no mass fraction")
        );
    }
    assert!(
        of("ethanol", Some(0.5), 25.0)
            .unwrap_err()
            .contains("pure liquid")
    );
    assert!(
        of("ethanol", None, 25.0)
            .unwrap_err()
            .contains("composition")
    );
    // Linear between the two temperatures of the table.
    let at = |celsius| of("ethanol-water", Some(0.3), celsius).unwrap();
    near(at(21.0), at(20.0) + (at(25.0) - at(20.0)) / 5.0, 1e-12);
    near(at(23.5), 0.3 * at(20.0) + 0.7 * at(25.0), 1e-12);
    // Monotone between the shares of the table, and on it where it says so.
    near(
        of("ethanol-water", Some(0.3), 20.0).unwrap(),
        33.53e-3,
        1e-12,
    );
    let mut last = f64::INFINITY;
    for i in 0..=100 {
        let here = of("2-propanol-water", Some(f64::from(i) / 100.0), 25.0).unwrap();
        assert!(here <= last, "{i}");
        last = here;
    }
}

#[test]
fn what_capability_is_proven_agrees_with_the_non_central_t() {
    // scipy: brentq(lambda c: nct.cdf(index·3√n, n − 1, c·3√n) − 0.95).
    for (index, n, proven) in [
        (1.33, 30.0, 1.0215572538965203),
        (0.4, 12.0, 0.18301887430580407),
        (-0.3, 15.0, -0.46468542941439117),
        (2.1, 100.0, 1.8463814581967493),
    ] {
        let limits = Limits {
            lower: None,
            upper: Some(3.0 * index),
        };
        let found = capability(0.0, 1.0, n, n - 1.0, limits, 0.95).unwrap();
        near(found.indices.nearest, index, 1e-14);
        near(found.proven, proven, 1e-8);
    }
}

#[test]
fn a_point_on_a_control_limit_is_not_beyond_it() {
    assert_eq!(
        control::beyond(&[1.0, 0.999, 2.0, 2.001, 1.5], (1.0, 2.0)),
        [1, 3]
    );
    // Nine counts of nine and one of zero to eighteen: limits 9 ± 9.
    let mut counts = vec![9.0; 9];
    counts.push(18.0);
    counts.push(0.0);
    let found = control::defects(&counts).unwrap();
    near(found.centre, 9.0, 1e-15);
    assert_eq!(found.limits[0], (0.0, 18.0));
    assert_eq!(found.beyond, [0usize; 0]);
    // Squares over their expectation: 2·9²/9 over 10.
    near(found.dispersion, 1.8, 1e-14);
    let found = control::numbers(&[5.0, 5.0, 5.0, 17.0], 20.0).unwrap();
    // n·p̄ = 8, s = √(8·0.6) = 2.19; limits 1.43 and 14.57.
    near(found.centre, 8.0, 1e-15);
    assert_eq!(found.beyond, [3]);
    near(found.dispersion, (3.0 * 9.0 + 81.0) / 4.8 / 3.0, 1e-14);
}

#[test]
fn tails_keep_their_digits() {
    for (p, t, chi, beta) in [
        (
            1e-12,
            -3163.0306837980147,
            5.55155789291308e-10,
            1.9958893021616762e-05,
        ),
        (
            1e-4,
            -16.295284596958677,
            0.0013949206074745685,
            0.0315462579052787,
        ),
        (
            0.3,
            -0.5753387017722312,
            1.0580425215960214,
            0.7097758912148804,
        ),
        (
            0.999999,
            61.045121207218685,
            29.20048572964512,
            0.9999999990081865,
        ),
    ] {
        near(t_quantile(p, 3.5).unwrap(), t, 1e-9);
        near(chi_squared_quantile(p, 2.5).unwrap(), chi, 1e-9);
        near(beta_quantile(p, 2.5, 0.7).unwrap(), beta, 1e-9);
    }
}

#[test]
fn a_bound_meets_its_limit_where_it_says() {
    let lines = [(2.60, -1e-3), (2.60, -2e-4), (2.55, -3e-3), (2.7, 5e-4)];
    for (y, slope) in lines {
        for (s, n, sxx) in [
            (0.004, 5.0, 1500.0),
            (0.01, 12.0, 4000.0),
            (0.002, 3.0, 90.0),
        ] {
            for of in [Of::Mean, Of::Prediction] {
                for confidence in [0.9, 0.95, 0.99] {
                    for mirrored in [false, true] {
                        // The same question upside down must cross at the same place.
                        let sign = if mirrored { -1.0 } else { 1.0 };
                        let line = Bounded {
                            x: 25.0,
                            y: sign * y,
                            slope: sign * slope,
                            n,
                            sxx,
                            s,
                            degrees: n - 2.0,
                        };
                        let limit = match mirrored {
                            false => Limit::Lower(2.4),
                            true => Limit::Upper(-2.4),
                        };
                        let question = Question {
                            limit,
                            confidence,
                            of,
                            most: 1e6,
                        };
                        // The bound itself, written out.
                        let t = t_quantile(confidence, n - 2.0).unwrap();
                        let further = f64::from(u8::from(of == Of::Prediction));
                        let by_hand = |x: f64| {
                            let u = x - 25.0;
                            y + slope * u - t * s * libm::sqrt(further + 1.0 / n + u * u / sxx)
                        };
                        for x in [0.0, 25.0, 80.0] {
                            near(line.bound(x, question).unwrap(), sign * by_hand(x), 1e-14);
                        }
                        match line.crossing(question) {
                            Err(_) => assert!(by_hand(0.0) < 2.4),
                            Ok(None) => {
                                assert!(by_hand(0.0) >= 2.4);
                                assert!((0..1000).all(|i| by_hand(f64::from(i) * 1000.0) > 2.4));
                            }
                            Ok(Some(x)) => {
                                near(by_hand(x), 2.4, 1e-12);
                                // And nowhere before.
                                let before = (0..200).map(|i| x * f64::from(i) / 200.0);
                                assert!(before.map(by_hand).all(|bound| bound >= 2.4 - 1e-12));
                                let short = Question {
                                    most: 0.99 * x,
                                    ..question
                                };
                                assert_eq!(line.crossing(short).unwrap(), None);
                            }
                        }
                    }
                }
            }
        }
    }
}

#[test]
fn every_branch_of_a_test_of_normality_agrees_with_its_reference() {
    for (x, a2, p) in AD {
        let found = anderson_darling(x).unwrap();
        near(found.a2, *a2, 1e-11);
        near(found.p, *p, 1e-10);
    }
}

/// statsmodels: normal_ad; one set for each of the four branches of the probability, two beyond 0.6.
const AD: &[(&[f64], f64, f64)] = &[
    (
        &[2.1, 2.4, 2.2, 2.6, 2.5, 2.3, 2.45, 2.35, 2.55, 2.38],
        0.14846127591781055,
        0.9447706782992122,
    ),
    (
        &[1.0, 1.1, 1.2, 1.3, 1.5, 1.9, 2.8, 4.5, 8.0, 15.0],
        1.3129761497459622,
        0.0010135488548379417,
    ),
    (
        &[1.0, 1.2, 1.3, 1.35, 1.4, 1.5, 1.9, 2.2, 2.9, 3.0],
        0.6263039200970582,
        0.07267927430347902,
    ),
    (
        &[1.0, 1.2, 1.3, 1.35, 1.4, 1.5, 1.9, 2.0, 2.1, 2.4],
        0.3468346273517273,
        0.40209737175481297,
    ),
    (
        &[1.0, 1.1, 1.2, 1.3, 1.5, 1.75, 1.9, 2.2, 2.5, 2.9],
        0.28075588519584826,
        0.5604616191239944,
    ),
];

#[test]
fn a_polynomial_of_no_degree_or_of_too_few_points_is_refused() {
    let x = [1.0, 2.0, 3.0, 4.0];
    let y = [1.0, 4.1, 8.9, 16.2];
    assert!(regression::polynomial(&x, &y, 0, true).is_err());
    assert!(regression::polynomial(&x, &y, 2, true).is_ok());
    assert!(regression::polynomial(&x[..2], &y[..2], 2, true).is_err());
}

#[test]
fn a_mixture_between_the_shares_of_its_table_is_interpolated_monotonically() {
    // scipy: PchipInterpolator over the same table, away from its two ends, whose slopes are laid down otherwise; at 25 °C.
    for (share, ethanol, propanol) in [
        (0.07, 51.901665416936005, 45.163687713613285),
        (0.12, 45.11855454503655, 37.818430747771764),
        (0.225, 36.66708759985725, 29.281853963254594),
        (0.33, 31.976855598642118, 26.254073980917074),
        (0.47, 28.564205735835287, 24.527644978693186),
        (0.58, 26.531096490964767, 23.661315304948218),
        (0.81, 23.70550825327511, 22.091774407114624),
    ] {
        let of = |liquid| fluid::alcohol_surface_tension(liquid, Some(share), 298.15).unwrap();
        near(of("ethanol-water"), ethanol * 1e-3, 1e-13);
        near(of("2-propanol-water"), propanol * 1e-3, 1e-13);
    }
}

#[test]
fn samples_from_lots_and_of_rare_events_agree_with_their_distributions() {
    // scipy: hypergeom.cdf(c, lot, failing, n), poisson.cdf(c, n·q).
    for (c, n, failing, lot, accepted) in [
        (0.0, 10.0, 5.0, 50.0, 0.3105627820045686),
        (1.0, 13.0, 3.0, 100.0, 0.9562646876932591),
        (2.0, 40.0, 30.0, 60.0, 0.0),
        (5.0, 20.0, 15.0, 30.0, 9.995002498750624e-05),
        (3.0, 80.0, 10.0, 1000.0, 0.9944941211840406),
        (7.0, 10.0, 9.0, 12.0, 0.5454545454545454),
        (9.0, 10.0, 9.0, 12.0, 1.0),
    ] {
        let found = acceptance(Plan { n, c }, failing, Model::Hypergeometric { lot }).unwrap();
        near(found, accepted, 1e-11);
    }
    for (c, n, share, accepted) in [
        (0.0, 50.0, 0.01, 0.6065306597126334),
        (2.0, 80.0, 0.02, 0.783358489819263),
        (5.0, 200.0, 0.03, 0.44567964136461097),
        (0.0, 50.0, 0.0, 1.0),
    ] {
        near(
            acceptance(Plan { n, c }, share, Model::Poisson).unwrap(),
            accepted,
            1e-12,
        );
    }
}

#[test]
fn a_variables_plan_accepts_what_its_distribution_says() {
    // scipy: brentq over nct.sf(k·√n, n − 1, −√n·ppf(p)) − accepted.
    for (n, k, accepted, share) in [
        (10, 1.5, 0.95, 0.012333409873743002),
        (25, 1.8, 0.1, 0.08611692063052717),
        (5, 1.2, 0.5, 0.13242703726644925),
    ] {
        near(
            variables_quality_accepted_at(n, k, accepted).unwrap(),
            share,
            1e-8,
        );
        near(variables_acceptance(n, k, share).unwrap(), accepted, 1e-8);
    }
}

#[test]
fn two_sided_factors_of_small_and_large_samples() {
    // scipy: the same double integral by quad and brentq.
    for (n, coverage, confidence, factor) in [
        (2, 0.9, 0.95, 31.092225599749867),
        (4, 0.99, 0.99, 14.40535455492512),
        (17, 0.95, 0.9, 2.649062677466057),
        (300, 0.95, 0.99, 2.16885213308946),
        (5, 0.5, 0.6, 0.897224583488512),
    ] {
        near(
            factor_two_sided(n, coverage, confidence).unwrap(),
            factor,
            1e-7,
        );
    }
}

#[test]
fn a_sample_of_known_values_has_known_intervals() {
    // The values 0, 1, … 999 in disorder, and squares of them.
    let of = |power: i32| {
        let mut n = 0u32;
        monte_carlo(&[Spread::Fixed(0.0)], 1000, 1, move |_| {
            n += 1;
            Ok(f64::from((n * 7919) % 1000).powi(power))
        })
        .unwrap()
    };
    let even = of(1);
    let (mean, sd) = even.mean_and_sd();
    near(mean, 499.5, 1e-13);
    // (n² − 1)/12 over all, with n − 1 in place of n.
    near(sd, libm::sqrt((1e6 - 1.0) / 12.0 * 1000.0 / 999.0), 1e-13);
    assert_eq!(even.symmetric(0.9), (50.0, 949.0));
    assert_eq!(even.symmetric(0.5), (250.0, 749.0));
    let (low, high) = even.shortest(0.9);
    near(high - low, 900.0, 1e-15);
    // Squares crowd at zero: there the shortest interval begins.
    assert_eq!(of(2).shortest(0.9), (0.0, 810_000.0));
}

#[test]
fn a_simulation_asks_for_half_a_digit_and_three_standard_errors() {
    let dossier = Sound::read().dossier();
    let judged =
        |one: &&Computed| one.judgement.is_some() && one.quantity().is_some_and(|q| q.u() > 0.0);
    let computed = dossier
        .graph
        .computed
        .values()
        .map(Box::as_ref)
        .find(judged)
        .unwrap();
    let found = simulate(&dossier.graph, &dossier.plant, computed, 1000).unwrap();
    let u = computed.quantity().unwrap().u();
    // JCGM 101:2008, 7.9.2: half of the last of two digits; a quantile at 2.275 %, its density φ(2).
    let digit = libm::pow(10.0, libm::floor(libm::log10(u)) - 1.0);
    let tail = 0.022750131948179195;
    let error = libm::sqrt(tail * (1.0 - tail) / 1000.0) / 0.05399096651318806 * found.sd;
    near(found.tolerance, 0.5 * digit + 3.0 * error, 1e-9);
}

#[test]
fn a_recovery_that_falls_needs_three_positive_points() {
    let cycles = [0.0, 5.0, 20.0];
    let exact = cycles.map(|cycle| 0.9 * libm::exp(-0.01 * cycle));
    let (rate, start) = filter::recovery_decay(&cycles, &exact).unwrap();
    near(rate, 0.01, 1e-12);
    near(start, 0.9, 1e-12);
    assert!(filter::recovery_decay(&cycles[..2], &exact[..2]).is_err());
    assert!(filter::recovery_decay(&cycles, &exact[..2]).is_err());
    assert!(filter::recovery_decay(&cycles, &[0.9, 0.0, 0.7]).is_err());
    assert!(filter::recovery_decay(&cycles, &[0.9, -0.1, 0.7]).is_err());
    // Three points off the line: least squares on the logarithms, by hand.
    let (rate, start) = filter::recovery_decay(&[0.0, 1.0, 2.0], &[1.0, 0.8, 0.9]).unwrap();
    near(rate, -libm::log(0.9) / 2.0, 1e-12);
    near(
        start,
        libm::exp(libm::log(0.72) / 3.0 - libm::log(0.9) / 2.0),
        1e-12,
    );
}

#[test]
fn the_dimensions_of_a_crossing_are_asked_each_alone() {
    let crossing = &sealfolio::procedure::CROSSING;
    let dim = |first, factor, last| (crossing.dim)(&[first, FLOW, factor, last]);
    assert_eq!(dim(PRESSURE, Dim::NONE, PRESSURE).unwrap(), PRESSURE);
    assert!(dim(PRESSURE, Dim::NONE, FLOW).is_err());
    assert!(dim(PRESSURE, FLOW, PRESSURE).is_err());
}

#[test]
fn a_level_belongs_to_what_lies_below_it() {
    let judged = |value: f64| {
        let cause = Cause {
            name: "a cause".into(),
            of: "it".into(),
            degrees: None,
            study: None,
        };
        let quantity = Quantity::exact(value, FLOW).with(cause, 2.0);
        let limit = verdict::Limit {
            low: None,
            high: None,
            text: String::new(),
            at: None,
            decision: Decision::Levels(2.0, 3.0),
        };
        judge(&quantity, &limit).verdict
    };
    assert_eq!(judged(4.0), Verdict::Conforms);
    assert_eq!(judged(-4.0), Verdict::Conforms);
    assert_eq!(judged(4.5), Verdict::Undecided);
    assert_eq!(judged(-4.5), Verdict::Undecided);
    assert_eq!(judged(6.0), Verdict::Undecided);
    assert_eq!(judged(6.5), Verdict::DoesNotConform);
    assert_eq!(judged(-6.0), Verdict::Undecided);
    assert_eq!(judged(-60.0), Verdict::DoesNotConform);
}

#[test]
fn a_share_that_was_counted_is_more_than_nothing_and_at_most_the_whole() {
    let reduction = |share| exposure::log_reduction(1e7, 10.0, share);
    // By hand: lg(10^7 / 10) and lg(10^7 · 0.1 / 10).
    assert_eq!(reduction(1.0), Ok(6.0));
    assert_eq!(reduction(0.1), Ok(5.0));
    for share in [0.0, -0.1, 1.1, f64::NAN] {
        assert!(reduction(share).is_err(), "{share}");
    }
}

#[test]
fn variances_of_groups_of_unequal_size_are_compared() {
    let groups = [
        vec![1.0, 2.0, 3.0, 5.5, 2.5],
        vec![2.0, 4.0, 4.0, 8.0, 9.0, 1.5, 3.0],
        vec![1.0, 1.5, 2.2],
    ];
    let test = bartlett(&groups).unwrap();
    // scipy.stats.bartlett, of these numbers.
    assert!((test.statistic - 4.300498813730167).abs() < 1e-13);
    assert!((test.p - 0.11645510944745134).abs() < 1e-14);
}

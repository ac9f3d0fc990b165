//! More edges of what computes, each found by a change to the program that no other test noticed.
//!
//! Expected values are definitions, or what a hand calculation gives.

use sealfolio::{
    physics::{filter, fluid},
    simulation::Simulation,
    stats::{
        Reason, control,
        distribution::{chi_squared_quantile, noncentral_t_cdf, noncentral_t_quantile, t_quantile},
        endurance::{Course, Limit, Of, Pooling, Question, poolability, supported},
        runs,
    },
};

fn near(found: f64, expected: f64, relative: f64) {
    assert!(
        (found - expected).abs() <= relative * expected.abs(),
        "{found} is not {expected}"
    );
}

#[test]
fn a_decay_in_any_unit_gives_back_the_law_that_made_it() {
    // By definition: points on A·exp(−t/τ) give A and τ, whatever the size of the numbers.
    for (a, tau) in [(1.7, 40.0), (170_000.0, 900.0), (2e-3, 7.0)] {
        let t: Vec<f64> = (0..12).map(|i| f64::from(i) * tau / 9.0).collect();
        let p: Vec<f64> = t.iter().map(|t| a * libm::exp(-t / tau)).collect();
        let (found_a, found_tau, u) = filter::decay(&t, &p).unwrap();
        near(found_a, a, 1e-12);
        near(found_tau, tau, 1e-12);
        assert!(u < 1e-9 * tau);
    }
    // With a scatter, the sums of squares have their least value there: neither neighbour is better.
    let t: Vec<f64> = (0..12).map(f64::from).collect();
    let p: Vec<f64> = t
        .iter()
        .map(|t| 9.0 * libm::exp(-t / 5.0) + 0.3 * libm::sin(7.0 * t))
        .collect();
    let squares = |a: f64, tau: f64| -> f64 {
        let left = t.iter().zip(&p).map(|(t, p)| p - a * libm::exp(-t / tau));
        left.map(|e| e * e).sum()
    };
    let (a, tau, _) = filter::decay(&t, &p).unwrap();
    for (da, dt) in [(1e-4, 0.0), (-1e-4, 0.0), (0.0, 1e-4), (0.0, -1e-4)] {
        assert!(squares(a, tau) < squares(a * (1.0 + da), tau * (1.0 + dt)));
    }
}

#[test]
fn ends_of_ranges_belong_to_them() {
    assert!(fluid::permeability_ratio("N2", 293.15 + 15.0, 293.15).is_ok());
    assert!(fluid::permeability_ratio("N2", 293.15 + 15.001, 293.15).is_err());
    // A slack of nothing is one; a limit of nothing is none.
    let sums = |slack, limit| control::cumulative(&[1.0, 2.0], 1.0, 1.0, slack, limit);
    assert!(sums(0.0, 4.0).is_ok());
    assert!(sums(-0.5, 4.0).is_err());
    assert!(sums(0.5, 0.0).is_err());
}

#[test]
fn without_shift_the_non_central_t_is_the_t_itself() {
    for (p, degrees) in [(0.95, 5.0), (0.1, 12.0)] {
        near(
            noncentral_t_quantile(p, degrees, 0.0).unwrap(),
            t_quantile(p, degrees).unwrap(),
            1e-9,
        );
    }
}

#[test]
fn patterns_have_words_and_their_refusals_a_reason() {
    let mut all: Vec<&str> = runs::PATTERNS.iter().map(|own| own.words()).collect();
    assert!(all.iter().all(|words| words.len() > 20));
    all.sort_unstable();
    all.dedup();
    assert_eq!(all.len(), 8);
    let of = |sigma| runs::ends(&[1.0], 0.0, sigma, runs::Pattern::OneBeyond3, 1);
    assert_eq!(of(0.0).unwrap_err().reason, Reason::ZeroVariance);
    assert_eq!(of(-1.0).unwrap_err().reason, Reason::BadSd);
}

#[test]
fn a_model_that_starts_beyond_the_limit_supports_nothing() {
    // Two courses far apart: each keeps well above its limit at the start; one line through both does not, by hand:
    // the middle of the two, less t(0.95; 4) times the standard error of the mean line at 0.
    let course = |top: f64| Course {
        x: vec![0.0, 1.0, 2.0],
        y: vec![top, top - 0.1, top - 0.2001],
    };
    let question = Question {
        limit: Limit::Lower(9.0),
        confidence: 0.95,
        of: Of::Mean,
        most: 1e6,
    };
    let found = supported(&[course(10.0), course(50.0)], question).unwrap();
    assert!(found.separate.unwrap() > 5.0);
    assert_eq!(found.common_line, Some(0.0));
}

#[test]
fn courses_share_as_much_as_their_scatter_allows() {
    // F and p of the same three cases by numpy's least squares and scipy's F distribution: slopes differ (p = 1.5e-6), only the
    // starts differ (1 and 2.3e-6), nothing differs (1 and 1). By definition, the level is 0.25 (ICH Q1E).
    let course = |top: f64, slope: f64, sign: f64| Course {
        x: vec![0.0, 1.0, 2.0, 3.0],
        y: [0.05, -0.05, -0.05, 0.05]
            .iter()
            .zip([0.0, 1.0, 2.0, 3.0])
            .map(|(scatter, x)| top + slope * x + sign * scatter)
            .collect(),
    };
    let with = |other: Course| poolability(&[course(10.0, -1.0, 1.0), other]).unwrap();
    let steeper = with(course(10.0, -3.0, -1.0));
    assert_eq!(steeper.model, Pooling::SeparateLines);
    near(steeper.slopes.1, 1.4950130935720495e-06, 1e-9);
    near(steeper.starts.1, 4.621068727635194e-07, 1e-9);
    let higher = with(course(12.0, -1.0, -1.0));
    assert_eq!(higher.model, Pooling::CommonSlope);
    near(higher.starts.1, 2.334016322601357e-06, 1e-9);
    assert_eq!(with(course(10.0, -1.0, -1.0)).model, Pooling::CommonLine);
}

#[test]
fn what_is_out_of_range_is_refused_in_words_that_help() {
    // Celsius given as kelvin is told from a temperature that is merely out of range.
    let said = fluid::surface_tension(20.0).unwrap_err();
    assert!(said.contains("a Celsius value written as kelvin"), "{said}");
    let said = fluid::surface_tension(700.0).unwrap_err();
    assert!(!said.contains("Celsius"), "{said}");
    // Above zero and up to 0.3 MPa.
    assert!(fluid::viscosity(293.15, 3e5).is_ok());
    for p in [0.0, -1.0, 3.001e5] {
        assert!(fluid::viscosity(293.15, p).is_err(), "{p}");
    }
}

#[test]
fn quantiles_far_out_are_right_or_refused() {
    // mpmath 1.3 with 30 digits: the integral over the scaled chi variable, solved for t. With one degree of freedom and no shift
    // it is the Cauchy distribution.
    for (p, degrees, shift, t) in [
        (1e-9, 1.0, 0.0, -318309886.183791),
        (1e-6, 2.0, 0.0, -707.105720525934),
        (1e-9, 2.0, 1.5, -4779.85459235555),
        (0.9999, 1.5, 3.0, 1311.83552684517),
        (1e-4, 5.0, -2.0, -20.9189114394312),
    ] {
        near(noncentral_t_quantile(p, degrees, shift).unwrap(), t, 1e-9);
    }
    // mpmath 1.4 with 30 digits, the same integral: both variables far out.
    near(
        noncentral_t_cdf(3000.0, 29.0, 2500.0).unwrap(),
        0.888556432632809,
        1e-12,
    );
    near(
        noncentral_t_cdf(30.0, 29.0, 25.0).unwrap(),
        0.880728098726615,
        1e-12,
    );
    let t = noncentral_t_quantile(0.888556432632809, 29.0, 2500.0).unwrap();
    near(t, 3000.0, 1e-9);
    let mirrored = noncentral_t_cdf(-3000.0, 29.0, -2500.0).unwrap();
    near(mirrored, 1.0 - 0.888556432632809, 1e-9);
    // scipy 1.17, stats.t and stats.chi2; the first is the Cauchy distribution.
    near(t_quantile(1e-9, 1.0).unwrap(), -318309886.1837907, 1e-12);
    near(t_quantile(1e-12, 1.0).unwrap(), -318309886183.7907, 1e-9);
    near(
        t_quantile(1.0 - 1e-9, 1.0).unwrap(),
        318309886.1837907,
        1e-6,
    );
    near(t_quantile(1e-12, 2.0).unwrap(), -707106.7811854869, 1e-10);
    near(t_quantile(1e-12, 5.0).unwrap(), -393.95695957760375, 1e-12);
    near(t_quantile(1e-12, 300.0).unwrap(), -7.341323842178773, 1e-10);
    near(
        chi_squared_quantile(1e-6, 1.0).unwrap(),
        1.5707963267957187e-12,
        1e-12,
    );
    near(
        chi_squared_quantile(1e-9, 2.0).unwrap(),
        2.0000000009999994e-09,
        1e-12,
    );
    near(
        chi_squared_quantile(1e-9, 40.0).unwrap(),
        6.9484576187075335,
        1e-11,
    );
    // Next to one, the digits of 1 − p are what is left of p.
    let t = noncentral_t_quantile(1.0 - 1e-9, 3.0, 2.0).unwrap();
    near(t, 2684.92614376214, 1e-5);
    let beyond = noncentral_t_quantile(1e-14, 1.0, 0.0).unwrap_err();
    assert_eq!(beyond.reason, Reason::BadProbability);
}

#[test]
fn a_drawn_interval_must_agree_at_both_ends() {
    let drawn = |low: f64, high: f64| Simulation {
        trials: 1000,
        mean: 0.0,
        sd: 1.0,
        interval: (low, high),
        linear: (-2.0, 2.0),
        tolerance: 0.125,
    };
    assert!(drawn(-2.125, 1.875).agrees());
    for (low, high) in [(-2.25, 2.0), (-1.75, 2.0), (-2.0, 2.25), (-2.0, 1.75)] {
        assert!(!drawn(low, high).agrees(), "{low} {high}");
    }
}

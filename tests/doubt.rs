//! What would make a figure surer than it is: readings that scatter, groups too small, rounding, other temperatures,
//! pressures that count from vacuum, charts that are looked at for long.

mod common;

use common::{Sound, said};
use sealfolio::{
    dossier::Dossier,
    ground::{
        quantity::{Cause, Quantity},
        unit::{BAR, MM},
    },
    metrology,
    physics::filter,
    stats::{
        Reason, comparison,
        endurance::{self, Course, Limit, Of, Question},
        normality, order, regression, sampling,
    },
    verdict,
};

fn value<'a>(dossier: &'a Dossier, figure: &str, record: &str) -> &'a Quantity {
    let mut all = dossier.graph.computed.values();
    let found = all.find(|one| one.id.figure == figure && *one.id.record == *record);
    found.unwrap().quantity().unwrap()
}

#[test]
fn readings_that_scatter_are_not_as_sure_as_readings_that_agree() {
    let mut sound = Sound::read();
    let calm = value(&sound.dossier(), "membrane-bubble-point", "MB-26-41").u();
    sound.swap(
        "membrane-tests.yaml",
        r#"["2.82 bar", "2.86 bar", "2.86 bar", "2.83 bar", "2.82 bar"]"#,
        r#"["2.16 bar", "2.86 bar", "3.52 bar"]"#,
    );
    let wild = sound.dossier();
    let found = value(&wild, "membrane-bubble-point", "MB-26-41");
    // By hand: deviations 0.68667, −0.01333, −0.67333 of their mean; over the root of three.
    let scatter = libm::sqrt(
        (0.686_67_f64.powi(2) + 0.013_33_f64.powi(2) + 0.673_33_f64.powi(2)) / 2.0 / 3.0,
    );
    assert!(
        found.u() > calm && (found.u() / 1e5 - scatter).abs() < 0.002,
        "{found:?}"
    );
    assert_eq!(found.whole_degrees(), 2.0);
}

#[test]
fn a_pressure_above_vacuum_is_no_gauge_pressure() {
    let gauge = "this field is a gauge pressure or a pressure difference";
    let swaps = [
        ("membrane-tests.yaml", r#""2.82 bar""#, r#""2.82 bar_abs""#),
        (
            "specifications.yaml",
            r#"limit: ">= 2.40 bar""#,
            r#"limit: ">= 2.40 bar_abs""#,
        ),
        (
            "specifications.yaml",
            r#"absolute: "0.18 mbar""#,
            r#"absolute: "0.18 mbar_abs""#,
        ),
    ];
    for (file, from, to) in swaps {
        let mut sound = Sound::read();
        sound.swap(file, from, to);
        let found = said(&sound.dossier(), "R04");
        assert!(
            found.iter().any(|(_, words)| words.contains(gauge)),
            "{to}: {found:?}"
        );
    }
    // A width is none on a scale of temperature: 0.015 °C is 273 K.
    let mut sound = Sound::read();
    sound.swap(
        "specifications.yaml",
        r#"absolute: "0.015 K""#,
        r#"absolute: "0.015 degC""#,
    );
    let found = said(&sound.dossier(), "R04");
    assert!(
        found
            .iter()
            .any(|(_, words)| words.contains("write it in K")),
        "{found:?}"
    );
    // The mark of an absolute gauge stays.
    let mut sound = Sound::read();
    sound.swap(
        "instruments.yaml",
        r#"nominal: ""#,
        r#"nominal: "1013 mbar_abs", reference: ""#,
    );
    let found = said(&sound.dossier(), "R04");
    assert!(found.is_empty(), "{found:?}");
}

/// Factor of nitrogen at 15 and 25 °C relative to 20 °C: 0.939 and 1.063 (diffusion and solubility in water, three printed
/// digits of a table made with another program).
#[test]
fn flows_of_modules_are_brought_to_the_temperature_of_the_assembly() {
    let before = Sound::read().dossier();
    let whole = value(&before, "diffusive-flow", "AT-26-2101-1").value;
    let alike = value(&before, "join-residual", "AT-26-2101-1").value;
    let mut sound = Sound::read();
    let file = "assembly-tests/vf45.yaml";
    sound.swap(
        file,
        r#"wetting_liquid_temperature: "20.1 degC""#,
        r#"wetting_liquid_temperature: "15.1 degC""#,
    );
    let after = sound.dossier();
    let modules = whole - alike;
    let expected = whole - modules * 0.939;
    let found = value(&after, "join-residual", "AT-26-2101-1");
    assert!(
        (found.value - expected).abs() < 0.002 * modules,
        "{} {expected}",
        found.value
    );
    // 0.3 % a kelvin, one law for all modules.
    let law = found
        .shares
        .iter()
        .find(|(cause, _)| cause.name == "diffusion at another temperature");
    assert!((law.unwrap().1.abs() - 0.015 * modules * 0.939).abs() < 1e-3 * modules);
    sound.swap(
        file,
        r#"wetting_liquid_temperature: "15.1 degC""#,
        r#"wetting_liquid_temperature: "4.1 degC""#,
    );
    let far = sound.dossier();
    let far = far
        .graph
        .computed
        .values()
        .find(|one| one.id.to_string() == "join-residual@AT-26-2101-1");
    assert!(
        far.unwrap()
            .worked
            .as_ref()
            .is_err_and(|why| why.contains("15 K"))
    );
}

#[test]
fn a_flow_is_not_read_off_a_curve_beyond_its_points() {
    let mut sound = Sound::read();
    sound.swap(
        "flow.yaml",
        r#"stated_differential_pressure: "100 mbar""#,
        r#"stated_differential_pressure: "900 mbar""#,
    );
    let dossier = sound.dossier();
    let mut all = dossier.graph.computed.values();
    let flow = all
        .find(|one| one.id.to_string() == "water-flow@FT-26-71")
        .unwrap();
    assert!(
        flow.worked
            .as_ref()
            .is_err_and(|why| why.contains("nothing is extrapolated"))
    );
}

/// Coefficients, standard errors and correlation: numpy 2.4, linalg.lstsq on the columns Q and Q².
#[test]
fn both_parts_of_a_resistance_have_the_doubt_of_their_points() {
    let near = |found: f64, expected: f64| {
        assert!(
            (found - expected).abs() < 1e-6 * expected.abs(),
            "{found} {expected}"
        )
    };
    let fit = filter::flow_fit(&[10.0, 20.0, 30.0, 40.0], &[52.3, 109.9, 171.4, 239.0]).unwrap();
    near(fit.linear, 4.987_774_19);
    near(fit.quadratic, 0.024_596_77);
    near(fit.u_linear, 0.026_718_79);
    near(fit.u_quadratic, 0.000_777_814);
    near(fit.correlation, -0.970_370_85);
    assert_eq!(fit.degrees, 2);
    // Resistance does not fall with flow.
    assert!(filter::flow_fit(&[10.0, 20.0, 30.0, 40.0], &[52.0, 96.0, 132.0, 160.0]).is_err());
    // A straight line through the origin is none of that, whatever rounding leaves.
    for slope in [4.7, 0.1, 3.3, 1e5 / 3.0] {
        let flows = [0.1, 0.2, 0.3, 0.7];
        let fit = filter::flow_fit(&flows, &flows.map(|q| slope * q));
        assert!(fit.is_ok_and(|fit| (fit.linear / slope - 1.0).abs() < 1e-9));
    }
    assert!(filter::flow_fit(&[10.0; 3], &[50.0, 51.0, 52.0]).is_err());
}

#[test]
fn courses_without_scatter_pool_nothing_and_still_meet_their_limit() {
    let course = || Course {
        x: vec![0.0, 7.0, 14.0],
        y: vec![2.500, 2.489, 2.478],
    };
    let courses = [course(), course(), course()];
    let pooled = endurance::poolability(&courses);
    assert_eq!(pooled.unwrap_err().reason, Reason::ZeroVariance);
    let question = Question {
        limit: Limit::Lower(2.4),
        confidence: 0.95,
        of: Of::Mean,
        most: 1e4,
    };
    // 2.5 − 0.011/7·n = 2.4 at 63.6 cycles.
    let lines = endurance::lines(&courses).unwrap();
    for line in lines
        .separate
        .iter()
        .chain(&lines.common_slope)
        .chain([&lines.common_line])
    {
        let met = line.crossing(question).unwrap().unwrap();
        assert!((met - 700.0 / 11.0).abs() < 1e-6, "{met}");
    }
}

#[test]
fn rounding_is_no_scatter_to_test_against() {
    // The same values in another order: their means differ in the last bit.
    let groups = vec![vec![0.1, 0.2, 0.3], vec![0.3, 0.2, 0.1]];
    let same = comparison::anova(&groups).unwrap();
    assert!(same.p > 0.99, "{}", same.p);
    let flat = |n: usize, x: f64| vec![x; n];
    let nearly = vec![flat(4, 0.3), vec![0.1 + 0.2; 4]];
    let none = |found: Result<f64, sealfolio::stats::Refusal>| {
        assert_eq!(found.unwrap_err().reason, Reason::ZeroVariance);
    };
    none(comparison::anova(&nearly).map(|test| test.p));
    none(comparison::welch(&nearly).map(|test| test.p));
    none(comparison::two_means(&nearly[0], &nearly[1], true).map(|found| found.p));
    // Deviations of two values from their median are equal; 1.1 and 1.3 have not the bits of 1.2 and 1.4.
    let twos = vec![
        vec![1.1, 1.3],
        vec![1.2, 1.4],
        vec![1.3, 1.7],
        vec![2.1, 2.3],
    ];
    none(comparison::levene(&twos, comparison::Centre::Median).map(|test| test.p));
    none(comparison::pairs(&[1.1, 1.2, 1.3], &[1.0, 1.1, 1.2]).map(|found| found.p));
    none(
        regression::line(&[0.0, 1.0, 2.0], &[0.1; 3])
            .and_then(|_| normality::grubbs(&[0.3, 0.1 + 0.2, 0.3], 0.05, normality::End::Either))
            .map(|found| found.p),
    );
}

/// Every order of a few ranks is tried one by one.
#[test]
fn a_shift_in_few_values_has_the_chance_that_counting_gives() {
    fn orders(rest: Vec<f64>, done: Vec<f64>, all: &mut Vec<Vec<f64>>) {
        if rest.is_empty() {
            all.push(done);
            return;
        }
        for i in 0..rest.len() {
            let (mut rest, mut done) = (rest.clone(), done.clone());
            done.push(rest.remove(i));
            orders(rest, done, all);
        }
    }
    for x in [
        vec![1.0, 2.0, 3.0, 4.0, 5.0, 6.0, 7.0],
        vec![3.0, 1.0, 4.0, 2.0, 9.0, 9.0, 8.0],
    ] {
        let mut all = Vec::new();
        orders(x.clone(), Vec::new(), &mut all);
        let found = order::pettitt(&x).unwrap();
        let as_far = all
            .iter()
            .filter(|order| order::pettitt(order).unwrap().k >= found.k)
            .count();
        let chance = as_far as f64 / all.len() as f64;
        assert!(
            (found.counted - chance).abs() < 1e-12,
            "{} {chance}",
            found.counted
        );
    }
    // Four low, four high: 2 · 4! · 4! / 8!, and the formula would say 0.07.
    let eight = order::pettitt(&[1.0, 2.0, 3.0, 4.0, 11.0, 12.0, 13.0, 14.0]).unwrap();
    assert!((eight.counted - 2.0 * 576.0 / 40_320.0).abs() < 1e-12 && eight.p > 0.05);
}

#[test]
fn a_probability_stays_one_far_out() {
    let mut x: Vec<f64> = (0..2000).map(|i| f64::from(i % 7)).collect();
    x.extend([1e6, 2e6, 3e6]);
    let test = normality::anderson_darling(&x).unwrap();
    assert!(test.adjusted > 300.0 && test.p < 1e-9, "{test:?}");
    x.extend([1e9, 1e12]);
    assert!(normality::anderson_darling(&x).unwrap().p < 1e-9);
}

#[test]
fn a_plan_that_no_share_answers_is_refused() {
    let found = sampling::variables_quality_accepted_at(5, 5.01, 0.9);
    assert_eq!(found.unwrap_err().reason, Reason::NoPlan);
    assert!(sampling::variables_quality_accepted_at(5, 1.24, 0.9).is_ok());
}

/// Cumulative probabilities of Student's t: scipy 1.17, stats.t.cdf.
#[test]
fn few_degrees_of_freedom_make_a_probability_less_sure() {
    let of = |value, degrees, ends| metrology::conformance(value, 1.0, degrees, ends).unwrap();
    assert!((of(0.0, 3.0, (None, Some(2.0))) - 0.930_337_015_720_578_5).abs() < 1e-12);
    assert!((of(0.0, 2.0, (Some(-1.5), Some(1.0))) - 0.652_478_572_149_312_3).abs() < 1e-12);
    let cause = |degrees| Cause {
        name: "repeats".into(),
        of: String::new(),
        degrees,
        study: None,
    };
    let limit = |high| verdict::Limit {
        low: None,
        high: Some(high),
        text: String::new(),
        at: None,
        decision: verdict::Decision::Guarded(1.0),
    };
    let p = |degrees| {
        let quantity = Quantity::exact(0.0, BAR.dim).with(cause(degrees), 1.0);
        verdict::judge(&quantity, &limit(2.0)).conformance.unwrap()
    };
    assert!((p(Some(3)) - 0.930_337_015_720_578_5).abs() < 1e-12 && p(None) > 0.977);
    // What rounding takes from seven leaves seven.
    for share in [0.1, 0.3, 0.7, 1.1, 1e-7] {
        let quantity = Quantity::exact(0.0, BAR.dim).with(cause(Some(7)), share);
        assert_eq!(quantity.whole_degrees(), 7.0);
    }
    assert!(Quantity::exact(1.0, BAR.dim).u().is_sign_positive());
}

#[test]
fn a_deviation_that_stands_on_its_limit_holds_however_wide_the_strip() {
    let limit = verdict::Limit {
        low: None,
        high: Some(MM.to_si(0.1)),
        text: String::new(),
        at: None,
        decision: verdict::Decision::Plain,
    };
    for nominal in [52.0, 228.0, 960.0, 1200.0, 3000.0] {
        let (width, nominal) = (MM.to_si(nominal + 0.1), MM.to_si(nominal));
        let off = Quantity::exact(width - nominal, MM.dim);
        assert_eq!(
            verdict::judge_among(&off, &limit, width).verdict,
            verdict::Verdict::Conforms,
            "{nominal}"
        );
        let more = Quantity::exact(MM.to_si(0.100_001), MM.dim);
        assert_eq!(
            verdict::judge_among(&more, &limit, width).verdict,
            verdict::Verdict::DoesNotConform
        );
    }
}

/// A ramp in steps, in mbar, whose flow is multiplied where it is said.
fn ramp(text: &str, keep: impl Fn(f64) -> bool, times: impl Fn(f64) -> f64) -> String {
    let mut lines = text.lines();
    let mut out = format!("{}\n", lines.next().unwrap());
    for line in lines {
        let fields: Vec<f64> = line
            .split(',')
            .map(|field| field.parse().unwrap())
            .collect();
        let [time, pressure, flow] = fields[..] else {
            panic!("{line}")
        };
        if keep(pressure) {
            let flow = flow * times(pressure);
            out += &format!("{time},{pressure},{flow:.3}\n");
        }
    }
    out
}

/// The criterion is a multiple of the diffusive line: what leaves it below the pressure up to which it is fitted has left it
/// there, and is not fitted away.
#[test]
fn a_membrane_that_opens_early_is_not_fitted_away() {
    let trace = "traces/mt-26-3101-1-bp.csv";
    type Times = fn(f64) -> f64;
    let cases: [(Times, f64); 3] = [
        // Twice the flow from 2.15 bar on; one reading alone at 1.95 bar; three times from 2.1 bar on.
        (|p| if p > 2140.0 { 2.0 } else { 1.0 }, 2.15),
        (
            |p| {
                if (1940.0..1960.0).contains(&p) {
                    3.0
                } else {
                    1.0
                }
            },
            1.95,
        ),
        (|p| if p > 2090.0 { 3.0 } else { 1.0 }, 2.1),
    ];
    for (times, opens) in cases {
        let mut sound = Sound::read();
        sound.trace(trace, |text| ramp(text, |_| true, times));
        let dossier = sound.dossier();
        let found = value(&dossier, "bubble-point", "MT-26-3101-1").value / 1e5;
        // Between the last reading on the line and the first above it, which are 25 mbar apart.
        assert!(
            (opens - 0.026..=opens).contains(&found),
            "{found} for {opens}"
        );
        assert!(
            said(&dossier, "R42")
                .iter()
                .any(|(_, words)| words.contains("bubble")),
            "{:?}",
            said(&dossier, "R42")
        );
    }
}

/// JCGM 100:2008, 4.3.7: anywhere between two readings, each place alike, is half their distance over the root of three.
#[test]
fn a_ramp_in_large_steps_is_not_as_sure_as_one_in_small_ones() {
    let mut sound = Sound::read();
    sound.trace("traces/mt-26-3101-1-bp.csv", |text| {
        ramp(
            text,
            |p| p < 2150.0 || ((p / 200.0).round() * 200.0 - p).abs() < 10.0,
            |_| 1.0,
        )
    });
    let found = said(&sound.dossier(), "R44");
    assert!(
        found.iter().any(|(_, words)| words
            .contains("bubble-point@MT-26-3101-1: the ramp steps by 2")
            && words.contains("mbar open")),
        "{found:?}"
    );
}

#[test]
fn one_reading_says_nothing_of_its_scatter() {
    let mut sound = Sound::read();
    sound.swap(
        "membrane-tests.yaml",
        r#"readings: ["126 um", "126 um", "126 um", "128 um", "129 um"], reported_mean: "127 um""#,
        r#"readings: ["127 um"], reported_mean: "127 um""#,
    );
    let found = said(&sound.dossier(), "R44");
    assert!(
        found
            .iter()
            .any(|(_, words)| words
                .contains("membrane-thickness@MB-26-41: it stands on one reading")),
        "{found:?}"
    );
}

/// JCGM 100:2008, G.4.1, is for variances that were estimated apart: one study that gave them all is one estimate, however
/// often it counts.
#[test]
fn one_study_is_one_estimate() {
    let of = |of_one_study: bool, tests: usize| {
        let mut quantity = Quantity::exact(0.0, BAR.dim);
        for n in 0..tests {
            let cause = Cause {
                name: "wetting_repeatability".into(),
                of: format!("test {n}"),
                degrees: Some(2),
                study: of_one_study.then(|| "study".into()),
            };
            quantity = quantity.with(cause, 1.0);
        }
        quantity.degrees()
    };
    assert!((of(true, 4) - 2.0).abs() < 1e-12);
    assert!((of(false, 4) - 8.0).abs() < 1e-12);
    // And in the example: the tests of an assembly and of its modules share the study of the specification.
    let mut sound = Sound::read();
    sound.swap(
        "specifications.yaml",
        "degrees_of_freedom: 12",
        "degrees_of_freedom: 2",
    );
    let dossier = sound.dossier();
    let residual = value(&dossier, "join-residual", "AT-26-2101-1");
    let of_study = |cause: &Cause| cause.name == "wetting_repeatability";
    let shares = residual.shares.iter();
    let studied = shares.filter(|(cause, _)| of_study(cause));
    let variance: f64 = studied.map(|(_, share)| share * share).sum();
    let others = residual.shares.iter();
    let others: f64 = others
        .filter(|(cause, _)| !of_study(cause))
        .filter_map(|(cause, share)| Some(share.powi(4) / cause.degrees? as f64))
        .sum();
    let due = residual.u().powi(4) / (variance * variance / 2.0 + others);
    assert!((residual.degrees() / due - 1.0).abs() < 1e-9, "{due}");
}

/// What is stated of one volume is one error in every test with it: in a sum of modules it adds up (JCGM 100:2008, 5.2.2), it
/// is not thrown anew for each.
#[test]
fn a_stated_volume_is_wrong_in_every_test_of_its_rig_alike() {
    let mut sound = Sound::read();
    let files: Vec<String> = sound.files.keys().cloned().collect();
    for file in files
        .iter()
        .filter(|file| file.starts_with("module-tests/"))
    {
        let text = sound.text(file);
        let stated = text.replace("\"2.420 L\"", "\"2.420 L ± 0.242 L (k = 2)\"");
        sound.files.insert(file.clone(), stated.into_bytes());
    }
    let dossier = sound.dossier();
    let of = |record: &str| value(&dossier, "diffusive-flow", record);
    let modules = [of("MT-26-3101-1"), of("MT-26-3102-1")];
    let residual = value(&dossier, "join-residual", "AT-26-2101-1");
    let shares = residual.shares.iter();
    let stated: Vec<f64> = shares
        .filter(|(cause, _)| cause.of.starts_with("IT-11, 2.420 L"))
        .map(|(_, share)| share)
        .collect();
    // A twentieth of the sum of both flows, brought to the temperature of the assembly's test, as one share.
    let sum: f64 = modules.iter().map(|one| one.value).sum();
    let [share] = stated[..] else {
        panic!("{stated:?}")
    };
    assert!(
        (share.abs() / (0.05 * sum) - 1.0).abs() < 0.02,
        "{share} {sum}"
    );
}

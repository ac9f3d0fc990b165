//! Trends: what takes part, what stands aside, what is split, what is said where a method does not hold.

mod common;

use std::{
    fs,
    path::{Path, PathBuf},
    sync::Arc,
};

use common::*;
use sealfolio::{
    dossier::Dossier,
    figure::FigureId,
    figures,
    stats::{capability::Limits, distribution::normal_quantile, runs::Pattern, summary},
    trend::{
        self, Key, Member, Series, Standing,
        analysis::{self, Shape},
        groups::{self, How},
        past,
    },
    verdict::Verdict,
};

/// A series of bubble points with these values, in bar.
fn series(values: &[f64]) -> Series {
    let figure = figures::ALL
        .iter()
        .find(|figure| figure.id == "bubble-point")
        .unwrap();
    let member = |(i, x): (usize, &f64)| Member {
        id: FigureId {
            figure: figure.id,
            record: Arc::from(format!("T-{i:03}")),
            part: Arc::from(""),
        },
        when: None,
        place: i,
        of: format!("M-{i:03}"),
        shown: format!("{x} bar"),
        value: x * 1e5,
        u: 1e3,
        verdict: Verdict::Conforms,
        standing: Standing::Counts,
        tested: None,
        by: Default::default(),
        past: None,
    };
    Series {
        key: Key {
            figure: figure.id,
            of: "of modules".into(),
            product: "X".into(),
            gas: String::new(),
            stage: String::new(),
            limit: ">= 2 bar".into(),
        },
        figure,
        members: values.iter().enumerate().map(member).collect(),
        limits: Limits {
            lower: Some(2e5),
            upper: None,
        },
        frozen: None,
        calibrated: Vec::new(),
    }
}

/// Values about 2.6 bar, as normal as values can be, in an order without any pattern: that of squares times
/// an irrational number.
fn even(n: usize) -> Vec<f64> {
    let keys: Vec<f64> = (1..=n)
        .map(|i| ((i * i) as f64 * 0.618_033_988_75).fract())
        .collect();
    summary::ranks(&keys)
        .into_iter()
        .map(|rank| normal_quantile((rank - 0.5) / n as f64).unwrap())
        .map(|z| 2.6 + 0.006 * z)
        .collect()
}

fn of_modules(dossier: &Dossier, figure: &str, product: &str) -> Vec<Series> {
    let all = dossier.series().into_iter();
    all.filter(|series| {
        series.key.figure == figure
            && series.key.of == "of modules"
            && series.key.product == product
    })
    .collect()
}

#[test]
fn what_was_measured_again_and_what_a_deviation_explains_stand_aside() {
    let dossier = Dossier::build(Path::new("example-dossier/released")).unwrap();
    let all = of_modules(&dossier, "diffusive-flow", "VF45");
    let [flow] = &all[..] else {
        panic!("{} series", all.len());
    };
    let standing = |wanted: fn(&Standing) -> bool| {
        let members = flow.members.iter();
        members.filter(|member| wanted(&member.standing)).count()
    };
    // 52 modules. One was tested again with leave; one without, and that repetition is not accepted.
    assert_eq!(flow.members.len(), 54);
    assert_eq!(standing(|standing| *standing == Standing::Repeated), 1);
    assert_eq!(standing(|standing| *standing == Standing::NotAccepted), 1);
    // A deviation that does not know the cause sets nothing aside.
    assert_eq!(
        standing(|standing| matches!(standing, Standing::Explained(_))),
        0
    );
    let found = analysis::of(flow);
    assert_eq!((found.values.len(), found.all.len()), (52, 52));
    // Both first results beyond the limit count, whatever a later test said.
    let (beyond, elements, _) = found.beyond_limit.unwrap();
    assert_eq!((beyond, elements), (2, 52));
    // With a value that far out no index is given.
    assert!(found.capability.unwrap().is_err());
}

#[test]
fn a_known_cause_sets_a_value_aside_for_control_alone() {
    let mut all = series(&even(40));
    all.members[7].value = 1.9e5;
    all.members[7].standing = Standing::Explained("DV-1".into());
    let found = analysis::of(&all);
    assert_eq!(
        (found.values.len(), found.all.len(), found.set_aside),
        (39, 40, 1)
    );
    assert!(found.control.clone().unwrap().beyond.is_empty());
    let (beyond, elements, _) = found.beyond_limit.unwrap();
    assert_eq!((beyond, elements), (1, 40));
    assert!(found.capability.clone().unwrap().is_err());
    let said = trend::sentence(&found, &[]);
    assert!(
        said.contains("1 more with a known cause set aside"),
        "{said}"
    );
}

#[test]
fn one_value_far_out_is_no_drift_and_a_lasting_small_shift_is() {
    let mut values = even(40);
    values[11] -= 0.2;
    let found = analysis::of(&series(&values));
    assert_eq!(found.control.unwrap().beyond, [11]);
    assert!(found.cumulative.unwrap().is_empty());
    let mut values = even(60);
    values.iter_mut().skip(40).for_each(|x| *x -= 0.008);
    let mut all = series(&values);
    all.frozen = Some(trend::Frozen {
        centre: 2.6e5,
        band: (2.582e5, 2.618e5),
        since: sealfolio::ground::time::parse_date("2026-01-01").unwrap(),
        basis: "frozen for a test".into(),
        at: sealfolio::ground::place::Place::whole(&Arc::from("specifications.yaml")),
    });
    let found = analysis::of(&all);
    assert!(!found.cumulative.clone().unwrap().is_empty());
    assert!(found.drifts());
}

#[test]
fn values_stand_in_the_order_of_pleating_not_of_testing() {
    let mut set = Sound::read();
    // The test is brought forward; the pack was pleated when it was.
    set.swap_after(
        "module-tests/vf45.yaml",
        "MT-26-3105-1",
        "T11:00:00",
        "T06:00:00",
    );
    let dossier = set.dossier();
    let order = |series: &Series| -> Vec<String> {
        series
            .members
            .iter()
            .map(|member| member.of.clone())
            .collect()
    };
    let flow = &of_modules(&dossier, "diffusive-flow", "VF45")[0];
    let untouched = Sound::read().dossier();
    assert_eq!(
        order(flow),
        order(&of_modules(&untouched, "diffusive-flow", "VF45")[0])
    );
}

#[test]
fn two_gases_are_two_trends() {
    let mut set = Sound::read();
    set.swap_after(
        "module-tests/vf45.yaml",
        "MT-26-3107-1",
        "test_gas: nitrogen",
        "test_gas: air",
    );
    let dossier = set.dossier();
    let all = of_modules(&dossier, "diffusive-flow", "VF45");
    let gases: Vec<&str> = all.iter().map(|series| &*series.key.gas).collect();
    assert!(
        gases.contains(&"air") && gases.contains(&"nitrogen"),
        "{gases:?}"
    );
}

#[test]
fn two_revisions_of_a_limit_are_two_trends() {
    let one = series(&even(20));
    let mut other = one.clone();
    other.key.limit = ">= 2.1 bar".into();
    assert_ne!(one.key, other.key);
    assert_eq!(one.title(), other.title());
    assert_ne!(one.conditions(), other.conditions());
}

#[test]
fn an_even_series_says_so() {
    let found = analysis::of(&series(&even(40)));
    let control = found.control.clone().unwrap();
    assert!(control.beyond.is_empty() && !control.frozen);
    assert!(!found.drifts());
    assert!(found.capability.unwrap().is_ok());
}

#[test]
fn a_drift_is_seen_before_any_value_leaves_its_limits() {
    let drifting: Vec<f64> = even(40)
        .iter()
        .enumerate()
        .map(|(i, x)| x - 0.0005 * i as f64)
        .collect();
    let found = analysis::of(&series(&drifting));
    assert!(found.drifts());
    let (trend, slope) = found.trend.unwrap();
    assert!(trend.z < 0.0);
    assert!((slope.slope / 1e5 + 0.0005).abs() < 0.0002, "{slope:?}");
}

#[test]
fn a_shift_is_placed_where_it_is() {
    let shifted: Vec<f64> = even(40)
        .iter()
        .enumerate()
        .map(|(i, x)| if i >= 25 { x + 0.03 } else { *x })
        .collect();
    let (rank, shift) = analysis::of(&series(&shifted)).shift.unwrap();
    assert!(rank.p < 0.001);
    assert_eq!((rank.after, shift.after), (25, 25));
}

#[test]
fn frozen_limits_judge_later_values() {
    let mut later = series(&even(20));
    later.frozen = Some(trend::Frozen {
        centre: 2.65e5,
        band: (2.62e5, 2.68e5),
        since: sealfolio::ground::time::parse_date("2026-01-01").unwrap(),
        basis: "frozen for a test".into(),
        at: sealfolio::ground::place::Place::whole(&Arc::from("specifications.yaml")),
    });
    let control = analysis::of(&later).control.unwrap();
    assert!(control.frozen);
    assert_eq!(control.beyond.len(), 20);
    assert!(
        control
            .patterns
            .iter()
            .any(|(_, pattern)| *pattern == Pattern::NineOneSide)
    );
}

#[test]
fn neighbours_that_depend_on_each_other_silence_the_patterns() {
    let wave: Vec<f64> = (0..40)
        .map(|i| 2.6 + 0.02 * libm::sin(f64::from(i) / 6.0))
        .collect();
    let found = analysis::of(&series(&wave));
    assert!(found.dependent());
    let control = found.control.unwrap();
    assert!(
        control
            .patterns
            .iter()
            .all(|(_, pattern)| *pattern == Pattern::OneBeyond3)
    );
}

#[test]
fn values_that_are_not_normal_get_no_index() {
    let skewed: Vec<f64> = (1..=40)
        .map(|i| 2.2 + 0.4 * libm::exp(f64::from(i) / 12.0) / 20.0)
        .collect();
    let found = analysis::of(&series(&skewed));
    assert!(matches!(found.shape, Shape::NotNormal(_)));
    assert!(found.capability.unwrap().unwrap_err().contains("normal"));
    assert!(found.tolerance.is_none() && found.free.is_some());
}

#[test]
fn few_values_give_no_limits_and_no_index() {
    let found = analysis::of(&series(&even(7)));
    assert!(found.control.is_none() && found.capability.is_none() && found.shift.is_none());
    let said = trend::sentence(&found, &[]);
    assert!(said.contains("too few"), "{said}");
}

#[test]
fn the_method_of_a_comparison_follows_the_data() {
    let grouped = |values: Vec<f64>| {
        let mut all = series(&values);
        for (i, member) in all.members.iter_mut().enumerate() {
            member.by = [("roll", format!("R-{}", i % 2).into())]
                .into_iter()
                .collect();
        }
        groups::comparisons(&all).remove(0)
    };
    let alike = grouped(even(40));
    assert_eq!(alike.test.as_ref().unwrap().0, How::Anova);
    assert!(!alike.differs());
    // The second roll scatters five times as much.
    let wider = even(40)
        .iter()
        .enumerate()
        .map(|(i, x)| {
            if i % 2 == 0 {
                *x
            } else {
                2.6 + 5.0 * (x - 2.6)
            }
        })
        .collect();
    assert_eq!(grouped(wider).test.unwrap().0, How::Welch);
    let skewed = even(40)
        .iter()
        .map(|x| 2.5 + libm::exp(60.0 * (x - 2.6)).powi(3))
        .collect();
    assert_eq!(grouped(skewed).test.unwrap().0, How::Ranks);
    let apart = even(40)
        .iter()
        .enumerate()
        .map(|(i, x)| if i % 2 == 0 { *x } else { x + 0.03 })
        .collect();
    assert!(grouped(apart).differs());
}

#[test]
fn the_past_comes_back_as_it_was_written() {
    let dossier = Dossier::build(Path::new("example-dossier/released")).unwrap();
    let past = vec![dossier.into_past("0".repeat(64))];
    let text = serde_json::to_string(&past::write(&past)).unwrap();
    let again = past::read(&serde_json::from_str(&text).unwrap()).unwrap();
    assert_eq!(text, serde_json::to_string(&past::write(&again)).unwrap());
    assert!(past::read(&serde_json::json!({"format": 2})).is_none());
    assert!(past::read(&serde_json::json!({"format": 1, "dossiers": [{}]})).is_none());
}

/// The small lot as that of a year before, compiled.
fn older(folder: &Path) -> PathBuf {
    let old = |text: &str| {
        text.replace("2026-", "2025-")
            .replace("-26-", "-25-")
            .replace("L26-", "L25-")
    };
    let records = folder.join("older");
    for (name, bytes) in Sound::read().files {
        let path = records.join(old(&name));
        fs::create_dir_all(path.parent().unwrap()).unwrap();
        let bytes = match String::from_utf8(bytes) {
            Ok(text) if !name.ends_with(".csv") => old(&text).into_bytes(),
            Ok(text) => text.into_bytes(),
            Err(error) => error.into_bytes(),
        };
        fs::write(path, bytes).unwrap();
    }
    let out = folder.join("older-out");
    // Its papers are not of that year: a draft, and said to be one.
    let (status, text) = code(&[
        "compile",
        records.to_str().unwrap(),
        "--into",
        out.to_str().unwrap(),
        "--draft",
    ]);
    assert!(status < 2, "{text}");
    out
}

#[test]
fn an_older_dossier_joins_the_trends_by_its_digest() {
    let folder = tempfile::tempdir().unwrap();
    let past = older(folder.path());
    let past = past.to_str().unwrap();
    let out = folder.path().join("out");
    let out = out.to_str().unwrap();
    let (status, text) = code(&[
        "compile",
        "example-dossier/released",
        "--history",
        past,
        "--into",
        out,
    ]);
    assert_eq!(status, 0, "{text}");
    // A copy is computed again without the older dossier: its values are sealed inside.
    let (status, text) = code(&["verify", out]);
    assert_eq!(status, 0, "{text}");
    let (_, said) = code(&["verify", past]);
    let digest = said.split("sha256:").nth(1).unwrap()[..64].to_owned();
    let page = fs::read_to_string(Path::new(out).join("data/trends.html")).unwrap();
    assert!(page.contains(&digest) && page.contains("draft"), "{digest}");
    let page = Path::new(out).join("data/trends/diffusive-flow-modules-vf45.html");
    let page = fs::read_to_string(page).unwrap();
    assert!(page.contains("L25-31") && page.contains("M-25-3101"));
    // The history's own figures are not those of this dossier.
    let figures = fs::read_to_string(Path::new(out).join("data/figures.json")).unwrap();
    assert!(!figures.contains("M-25-"));
}

#[test]
fn history_that_cannot_be_stood_on_is_refused() {
    let folder = tempfile::tempdir().unwrap();
    let past = older(folder.path());
    let name = past.to_str().unwrap();
    let review = |history: &[&str]| {
        let mut args = vec!["review", "example-dossier/released"];
        history
            .iter()
            .for_each(|one| args.extend(["--history", one]));
        code(&args)
    };
    let (status, text) = review(&["example-dossier/released"]);
    assert_eq!(status, 2);
    assert!(text.contains("is no compiled dossier"), "{text}");
    let (status, text) = review(&[name, name]);
    assert_eq!(status, 2);
    assert!(text.contains("given twice"), "{text}");
    let page = past.join("data/index.html");
    let mut bytes = fs::read(&page).unwrap();
    bytes[0] ^= 1;
    fs::write(&page, bytes).unwrap();
    let (status, text) = review(&[name]);
    assert_eq!(status, 2);
    assert!(
        text.contains("is not whole") && text.contains("data/index.html"),
        "{text}"
    );
}

#[test]
fn a_repetition_that_a_deviation_about_something_else_allows_does_not_count() {
    const ALLOWED: &str =
        "retest_of: MT-26-3107-1\nretest_deviation: DV-T\nretest_reason_code: housing_leak\n";
    const CAUSE: &str = "retest_allowed_by: P-08\nretest_authorised_at: \"2026-03-12T12:00:00+01:00\"\ncause: {known: true, reason_code: housing_leak, evidence: \"the housing of MT-26-3107-1\"}\n";
    let standing = |subject: &str| {
        let mut set = Sound::read();
        set.retest(2, ALLOWED);
        set.deviation("DV-T", subject, "retest", "accept_after_retest", CAUSE);
        let dossier = set.dossier();
        let flow = of_modules(&dossier, "diffusive-flow", "VF45").remove(0);
        let found = flow
            .members
            .iter()
            .find(|member| &*member.id.record == "MT-26-3107-2")
            .unwrap();
        found.standing.clone()
    };
    assert_eq!(standing("{module: M-26-3107}"), Standing::Counts);
    assert_eq!(standing("{module: M-26-3106}"), Standing::NotAccepted);
}

/// Independent normal values about 2.6 bar, made from the numbers of splitmix64 (Steele, Lea and Flood 2014).
fn noise(n: usize, state: &mut u64) -> Vec<f64> {
    let mut next = || {
        *state = state.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = *state;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        let uniform = (((z ^ (z >> 31)) >> 11) as f64 + 0.5) / (1_u64 << 53) as f64;
        2.6 + 0.05 * normal_quantile(uniform).unwrap()
    };
    (0..n).map(|_| next()).collect()
}

#[test]
fn a_process_in_which_nothing_happens_is_rarely_called_drifting() {
    let mut state = 29;
    for (n, all) in [(20, 400), (100, 400), (1000, 100)] {
        let cries = (0..all)
            .filter(|_| analysis::of(&series(&noise(n, &mut state))).drifts())
            .count();
        // Once in twenty at most; three standard deviations of a count above that.
        let share = cries as f64 / f64::from(all);
        let most = 0.05 + 3.0 * (0.05 * 0.95 / f64::from(all)).sqrt();
        assert!(share < most, "{n} values: {share}");
    }
    // A lasting shift of one and a half standard deviations stands out, and so does a slow rise.
    let mut moved = noise(60, &mut state);
    moved.iter_mut().skip(30).for_each(|x| *x += 0.075);
    assert!(analysis::of(&series(&moved)).drifts());
    let mut rising = noise(60, &mut state);
    rising
        .iter_mut()
        .enumerate()
        .for_each(|(i, x)| *x += 0.002 * i as f64);
    assert!(analysis::of(&series(&rising)).drifts());
}

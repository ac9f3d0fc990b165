//! The example dossiers: every planted fault is caught under its rule, nothing else blocks, and the
//! compiled pages hang together.

use std::{
    collections::{BTreeMap, BTreeSet},
    path::Path,
};

use sealfolio::{
    dossier::Dossier,
    figure::{Figure, Formula, Input},
    figures,
    formula::Bindings,
    ground::{
        finding::Severity,
        quantity::{Cause, Quantity},
    },
    seal::Files,
    site,
};

fn dossier(name: &str) -> Dossier {
    Dossier::build(&Path::new("example-dossier").join(name))
        .map_err(|why| why.message)
        .unwrap()
}

fn found(dossier: &Dossier, severity: Severity) -> BTreeSet<(String, String)> {
    let of = dossier
        .findings()
        .into_iter()
        .filter(|finding| finding.severity == severity);
    of.map(|finding| {
        (
            finding.rule.to_owned(),
            finding.about.first().cloned().unwrap_or_default(),
        )
    })
    .collect()
}

/// The faults that `example-dossier/make.py` plants, and the rules that must catch them.
fn planted(weight: &str) -> BTreeSet<(String, String)> {
    let list: serde_json::Value =
        serde_json::from_str(include_str!("../example-dossier/faults.json")).unwrap();
    let of = list
        .as_array()
        .unwrap()
        .iter()
        .filter(|fault| fault["weight"] == weight);
    let word = |fault: &serde_json::Value, key: &str| fault[key].as_str().unwrap().to_owned();
    of.map(|fault| (word(fault, "rule"), word(fault, "about")))
        .collect()
}

#[test]
fn every_planted_fault_is_caught_and_nothing_else_blocks() {
    let dossier = dossier("as-found");
    assert_eq!(found(&dossier, Severity::Blocks), planted("blocks release"));
    assert_eq!(
        found(&dossier, Severity::Explain),
        planted("must be explained")
    );
    // The justified retest is a note that names its deviation.
    let note = dossier
        .findings()
        .into_iter()
        .find(|finding| finding.rule == "R41")
        .unwrap();
    assert!(
        note.severity == Severity::Note && note.message.contains("DV-26-31"),
        "{}",
        note.message
    );
}

#[test]
fn the_released_revision_is_free_of_blocking_findings() {
    let dossier = dossier("released");
    assert_eq!(found(&dossier, Severity::Blocks), BTreeSet::new());
    assert_eq!(found(&dossier, Severity::Explain), BTreeSet::new());
    assert!(dossier.count(Severity::Note) > 5);
}

#[test]
fn the_hidden_leak_passes_its_limit_and_fails_the_sum() {
    let dossier = dossier("as-found");
    let flow = dossier
        .graph
        .get("diffusive-flow", "AT-26-2105-1", "")
        .unwrap();
    assert_eq!(flow.verdict().words(), "conforms");
    assert!(flow.judgement.as_ref().unwrap().margin.unwrap() > 10.0);
    assert_eq!(
        dossier
            .graph
            .get("join-residual", "AT-26-2105-1", "")
            .unwrap()
            .verdict()
            .words(),
        "does not conform"
    );
}

#[test]
fn a_gap_proves_nothing_and_counts_in_full() {
    // The trace of cycle 17 lacks nine minutes of its hold.
    let dossier = dossier("as-found");
    let minutes = |figure| {
        dossier
            .graph
            .get(figure, "CL-26-6", "steam_in_place-17")
            .unwrap()
            .quantity()
            .unwrap()
            .value
            / 60.0
    };
    assert!((minutes("hold-time-full") - minutes("hold-time-proven") - 9.0).abs() < 1e-9);
    assert!(minutes("f0-full") > minutes("f0-proven") + 9.0);
}

#[test]
fn a_volume_error_of_one_rig_adds_up_over_the_modules() {
    let dossier = dossier("as-found");
    let residual = dossier
        .graph
        .get("join-residual", "AT-26-2105-1", "")
        .unwrap();
    let shares = &residual.quantity().unwrap().shares;
    let volume: Vec<f64> = shares
        .iter()
        .filter(|(cause, _)| cause.name == "upstream_volume")
        .map(|(_, share)| share)
        .collect();
    assert_eq!(volume.len(), 2, "one share for each rig");
    let sum: f64 = ["MT-26-3110-1", "MT-26-3111-1", "MT-26-3112-1"]
        .iter()
        .map(|id| {
            dossier
                .graph
                .get("diffusive-flow", id, "")
                .unwrap()
                .quantity()
                .unwrap()
                .value
        })
        .sum();
    assert!((volume[0].abs() / (0.008 * sum) - 1.0).abs() < 1e-9);
}

/// A value that is found without its slopes, series by series, is the one with them to the last bit: on every trace and test.
#[test]
fn every_figure_has_one_value_whichever_way_it_is_computed() {
    let dossier = dossier("released");
    let mut compared = 0;
    for computed in dossier.graph.computed.values() {
        let Ok(given) = dossier.graph.given(&dossier.plant, computed) else {
            continue;
        };
        let bound = Bindings::new(given.iter().map(|(input, q)| (*input, q.value)));
        let formula = (computed.figure.formula)();
        let with = formula.eval(&bound).map(|slopes| slopes.value);
        assert_eq!(formula.value(&bound), with, "{}", computed.id);
        compared += 1;
    }
    assert!(compared > 400, "{compared}");
}

/// Half of the second difference over each cause, none left out; with the number of causes.
fn by_differences(formula: &Formula, given: &[(Input, Quantity)]) -> (f64, usize) {
    let value = |moved: &dyn Fn(&Quantity) -> f64| {
        let moved = given.iter().map(|(input, q)| (*input, q.value + moved(q)));
        formula.value(&Bindings::new(moved)).unwrap()
    };
    let causes: BTreeSet<&Cause> = given
        .iter()
        .flat_map(|(_, q)| q.shares.iter().map(|(cause, _)| cause))
        .collect();
    let mut all = 0.0;
    for cause in &causes {
        let share = |q: &Quantity| {
            let mut own = q.shares.iter().filter(|(other, _)| other == cause);
            own.next().map_or(0.0, |(_, share)| share)
        };
        all += (value(&share) + value(&|q| -share(q))) / 2.0 - value(&|_| 0.0);
    }
    (all, causes.len())
}

/// A cause in whose inputs a formula is linear is left out of the second order; differences over all causes must say the same:
/// of the judged figures of a dossier and of the worked example of every figure.
#[test]
fn the_second_order_is_that_of_every_cause() {
    let dossier = dossier("released");
    let mut cases = Vec::new();
    for computed in dossier.graph.computed.values() {
        if let Some(ours) = &computed.second_order {
            let given = dossier.graph.given(&dossier.plant, computed).unwrap();
            let u = computed.quantity().unwrap().u();
            cases.push((computed.figure, given, ours.clone().unwrap(), u));
        }
    }
    for figure in figures::ALL {
        let given = figure.example_inputs().unwrap();
        let formula = (figure.formula)();
        let u = figure.evaluate(&formula, &given).unwrap().0.u();
        let ours = Figure::second_order(&formula, &given).unwrap();
        cases.push((*figure, given, ours, u));
    }
    let (mut bent, mut straight) = (BTreeSet::new(), BTreeSet::new());
    for (figure, given, ours, u) in cases {
        let (all, causes) = by_differences(&(figure.formula)(), &given);
        assert!(
            (ours - all).abs() <= 1e-6 * u,
            "{}: {ours:e} {all:e}",
            figure.id
        );
        match ours == 0.0 {
            true if causes > 0 => straight.insert(figure.id),
            true => false,
            false => bent.insert(figure.id),
        };
    }
    assert!(
        bent.len() >= 15 && straight.len() >= 12,
        "{bent:?} {straight:?}"
    );
}

#[test]
fn the_example_is_as_large_as_a_small_plant() {
    let dossier = dossier("released");
    let plant = &dossier.plant;
    assert!(
        plant
            .modules
            .values()
            .filter(|module| module.pack.is_some())
            .count()
            >= 72
    );
    assert!(plant.assemblies.len() >= 24 && plant.lots.len() == 3);
    let kinds: BTreeSet<&str> = plant
        .records()
        .current()
        .map(|record| record.kind)
        .collect();
    assert!(kinds.len() == 28, "{kinds:?}");
}

#[test]
fn the_same_records_give_the_same_bytes() {
    let files: Vec<Files> = (0..2)
        .map(|_| site::compile(&dossier("released")).files)
        .collect();
    assert!(files[0] == files[1]);
}

/// Every `attribute="value"` of a page.
fn values<'a>(html: &'a str, attribute: &str) -> Vec<&'a str> {
    let mark = format!(" {attribute}=\"");
    html.match_indices(&mark)
        .map(|(at, _)| &html[at + mark.len()..])
        .map(|rest| &rest[..rest.find('"').unwrap()])
        .collect()
}

fn joined(page: &str, target: &str) -> String {
    let mut parts: Vec<&str> = page.split('/').collect();
    parts.pop();
    for part in target.split('/') {
        match part {
            ".." => {
                parts.pop();
            }
            part => parts.push(part),
        }
    }
    parts.join("/")
}

#[test]
fn every_link_leads_somewhere_and_nothing_leaves_the_folder() {
    for name in ["as-found", "released"] {
        let files = site::compile(&dossier(name)).files;
        let html: BTreeMap<&str, &str> = files
            .iter()
            .filter(|(path, _)| path.ends_with(".html"))
            .map(|(path, bytes)| (path.as_str(), std::str::from_utf8(bytes).unwrap()))
            .collect();
        let mut anchors: BTreeMap<&str, BTreeSet<&str>> = BTreeMap::new();
        for (path, text) in &html {
            let ids = values(text, "id");
            let unique: BTreeSet<&str> = ids.iter().copied().collect();
            assert_eq!(ids.len(), unique.len(), "{path} has an id twice");
            anchors.insert(path, unique);
        }
        let mut seen = 0;
        for (path, text) in &html {
            for target in values(text, "href").into_iter().chain(values(text, "src")) {
                seen += 1;
                assert!(
                    !target.contains(':') && !target.starts_with('/'),
                    "{path} leads out: {target}"
                );
                let (file, anchor) = target.split_once('#').unwrap_or((target, ""));
                let file = if file.is_empty() {
                    (*path).to_owned()
                } else {
                    joined(path, file)
                };
                assert!(files.contains_key(&file), "{path}: {target} does not exist");
                assert!(
                    anchor.is_empty() || anchors[&*file].contains(anchor),
                    "{path}: {target} has no such anchor"
                );
            }
        }
        assert!(seen > 5000, "only {seen} links found");
    }
}

#[test]
fn every_figure_of_the_machine_file_is_where_it_says() {
    let files = site::compile(&dossier("released")).files;
    let json: serde_json::Value = serde_json::from_slice(&files["data/figures.json"]).unwrap();
    let figures = json["figures"].as_array().unwrap();
    assert!(figures.len() > 400);
    for figure in figures {
        let (page, anchor) = figure["page"].as_str().unwrap().split_once('#').unwrap();
        let text = std::str::from_utf8(&files[&format!("data/{page}")]).unwrap();
        assert!(
            text.contains(&format!("id=\"{anchor}\"")),
            "{}",
            figure["id"]
        );
    }
}

#[test]
fn names_in_a_dossier_are_safe_everywhere() {
    for path in site::compile(&dossier("released"))
        .files
        .keys()
        .filter(|path| path.starts_with("data/"))
    {
        assert!(
            path.len() <= 180
                && path
                    .bytes()
                    .all(|b| matches!(b, b'a'..=b'z' | b'0'..=b'9' | b'.' | b'_' | b'-' | b'/')),
            "{path}"
        );
    }
}

#[test]
fn every_rule_is_named_after_its_file_and_says_what_it_protects() {
    use sealfolio::rules;
    for (file, rule) in rules::FILES.iter().zip(rules::ALL) {
        assert_eq!(rule.id.to_lowercase(), **file);
        assert!(
            rule.demands.ends_with('.')
                && rule.protects.len() > 10
                && rule.explained.ends_with('.'),
            "{}",
            rule.id
        );
    }
}

#[test]
fn a_rule_without_anything_to_look_at_is_not_evaluated() {
    let dossier = dossier("released");
    // One looks at a compiled copy, one at a customer's: both say so.
    let (blind, seeing): (Vec<_>, Vec<_>) = dossier
        .checked
        .iter()
        .partition(|checked| ["R80", "R81"].contains(&checked.rule.id));
    assert!(
        blind
            .iter()
            .all(|checked| checked.outcome.looked == 0 && checked.outcome.blind.is_some())
    );
    assert_eq!(seeing.len(), 91);
    for checked in seeing {
        assert!(
            checked.outcome.looked > 0,
            "{} looked at nothing in the example",
            checked.rule.id
        );
    }
}

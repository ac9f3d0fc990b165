//! Every rule fires on a record set of its own on which no other rule fires: the small lot of
//! `tests/sound`, which is without a finding, with one thing spoiled.

#[path = "../common/mod.rs"]
mod common;
mod sets;

use std::collections::BTreeSet;

use common::Sound;
use rayon::prelude::*;
use sealfolio::{
    ground::{
        finding::Severity,
        words::{self, Language},
    },
    rules,
};
use sets::ELSEWHERE;

/// Rule, weight and message of all findings.
fn found(set: &Sound) -> Vec<(&'static str, Severity, String)> {
    let dossier = set.dossier();
    dossier
        .findings()
        .into_iter()
        .map(|finding| (finding.rule, finding.severity, finding.message.clone()))
        .collect()
}

#[test]
fn the_sound_lot_is_without_a_finding() {
    assert_eq!(found(&Sound::read()), Vec::new());
}

#[test]
fn every_rule_fires_on_its_own_set_and_no_other_rule_does() {
    // In every language: what a rule looks for in records is no word that is translated.
    for language in Language::ALL {
        words::speak(language);
        fires(language);
    }
}

fn fires(language: Language) {
    let sound = Sound::read();
    let wrong: Vec<String> = sets::all()
        .par_iter()
        .filter_map(|(rule, spoil)| {
            let mut set = sound.clone();
            spoil(&mut set);
            let found = found(&set);
            let fired: BTreeSet<&str> = found.iter().map(|(rule, ..)| *rule).collect();
            (fired != BTreeSet::from([*rule])).then(|| {
                let list: Vec<String> = found
                    .iter()
                    .map(|(rule, _, message)| format!("    {rule} {message}"))
                    .collect();
                format!("{rule}: {fired:?}\n{}", list.join("\n"))
            })
        })
        .collect();
    assert!(wrong.is_empty(), "{language:?}\n{}", wrong.join("\n"));
}

#[test]
fn no_rule_is_without_a_set() {
    let with: BTreeSet<&str> = sets::all()
        .iter()
        .map(|(rule, _)| *rule)
        .chain(ELSEWHERE.iter().copied())
        .collect();
    let all: BTreeSet<&str> = rules::ALL.iter().map(|rule| rule.id).collect();
    assert_eq!(with, all);
    assert_eq!(all.len(), 93);
}

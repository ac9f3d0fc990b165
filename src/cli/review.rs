//! `review`: what a person must look at.

use std::path::{Path, PathBuf};

use serde_json::json;

use super::{FINE, STOPPED, UNUSABLE, Voice, complain, history, print, show, unusable};
use crate::{dossier::Dossier, ground::finding::Severity, trend, verdict::Verdict};

pub(super) fn run(folder: &Path, older: &[PathBuf], as_json: bool, all: bool, voice: &Voice) -> u8 {
    let mut dossier = match Dossier::build(folder) {
        Ok(dossier) => dossier,
        Err(why) => return unusable(&why),
    };
    if let Err((message, advice)) = history::add(&mut dossier, older) {
        complain(&message, &advice);
        return UNUSABLE;
    }
    let blocks = dossier.count(Severity::Blocks);
    if as_json {
        print(&serde_json::to_string_pretty(&report(&dossier)).unwrap_or_default());
    } else {
        for finding in dossier
            .findings()
            .into_iter()
            .filter(|finding| all || finding.severity != Severity::Note)
        {
            voice.say(&show::finding(&dossier, finding, voice.color));
            voice.say("");
        }
        if all {
            for checked in &dossier.checked {
                let looked = match (&checked.outcome.blind, checked.outcome.looked) {
                    (Some(why), _) => format!("not evaluated: {why}"),
                    (None, 0) => format!("not evaluated: no {} to look at", checked.outcome.things),
                    (None, n) => format!(
                        "looked at {n} {}, {} findings",
                        checked.outcome.things,
                        checked.outcome.findings.len()
                    ),
                };
                voice.say(&format!("{}  {looked}", checked.rule.id));
            }
            voice.say("");
        }
        for line in trends(&dossier, all) {
            voice.say(&line);
        }
        voice.say(&summary(&dossier));
    }
    if blocks > 0 { STOPPED } else { FINE }
}

/// What trends say: those that stand out, or all.
fn trends(dossier: &Dossier, all: bool) -> Vec<String> {
    let mut lines = Vec::new();
    let (mut looked, mut short) = (0, 0);
    for series in dossier.series() {
        let analysis = trend::analysis::of(&series);
        if analysis.values.len() < trend::analysis::LEAST {
            short += 1;
            continue;
        }
        looked += 1;
        let comparisons = trend::groups::comparisons(&series);
        let beyond = analysis
            .control
            .as_ref()
            .is_some_and(|control| !control.beyond.is_empty());
        let stands_out = beyond
            || analysis.drifts()
            || comparisons.iter().any(trend::groups::Comparison::differs);
        if all || stands_out {
            let said = trend::sentence(&analysis, &comparisons);
            lines.push(format!("trend: {}: {said}", series.title()));
        }
    }
    lines.push(format!(
        "{looked} characteristics looked at in the order of production, over this dossier and {} older; {short} have too few values.\n",
        dossier.history.len()
    ));
    lines
}

/// The last lines: what was read, computed and found.
pub(super) fn summary(dossier: &Dossier) -> String {
    let verdicts = |verdict| {
        dossier
            .graph
            .computed
            .values()
            .filter(|computed| computed.verdict() == verdict)
            .count()
    };
    let blind = dossier
        .checked
        .iter()
        .filter(|checked| checked.outcome.blind.is_some() || checked.outcome.looked == 0)
        .count();
    let n = |n: usize, one: &str, many: &str| format!("{n} {}", if n == 1 { one } else { many });
    format!(
        "{} in {}; {}: {} conform, {} undecided, {} do not conform, {} not evaluated, {} without a limit.\n{} run, {blind} of them not evaluated. {} {} release, {} must be explained, {}.",
        n(dossier.plant.records().all.len(), "record", "records"),
        n(dossier.plant.folder.files.len(), "file", "files"),
        n(dossier.graph.computed.len(), "figure", "figures"),
        verdicts(Verdict::Conforms),
        verdicts(Verdict::Undecided),
        verdicts(Verdict::DoesNotConform),
        verdicts(Verdict::NotEvaluated),
        verdicts(Verdict::NoLimit),
        n(dossier.checked.len(), "rule", "rules"),
        n(dossier.count(Severity::Blocks), "finding", "findings"),
        if dossier.count(Severity::Blocks) == 1 {
            "blocks"
        } else {
            "block"
        },
        dossier.count(Severity::Explain),
        n(dossier.count(Severity::Note), "note", "notes"),
    )
}

fn report(dossier: &Dossier) -> serde_json::Value {
    let rules: Vec<_> = dossier
        .checked
        .iter()
        .map(|checked| {
            json!({"rule": checked.rule.id, "demands": checked.rule.demands, "looked_at": checked.outcome.looked, "things": checked.outcome.things,
                "evaluated": checked.outcome.blind.is_none() && checked.outcome.looked > 0, "findings": checked.outcome.findings.len()})
        })
        .collect();
    let count = |severity| dossier.count(severity);
    json!({
        "format": 1,
        "records": dossier.plant.records().all.len(),
        "figures": dossier.graph.computed.len(),
        "counts": {"blocks release": count(Severity::Blocks), "must be explained": count(Severity::Explain), "note": count(Severity::Note)},
        "findings": dossier.findings().into_iter().map(show::json).collect::<Vec<_>>(),
        "rules": rules,
        "trends": dossier.series().iter().map(|series| {
            let analysis = trend::analysis::of(series);
            let comparisons = trend::groups::comparisons(series);
            json!({"characteristic": series.title(), "conditions": series.conditions(), "values": series.members.len(),
                "take_part": analysis.values.len(), "says": trend::sentence(&analysis, &comparisons)})
        }).collect::<Vec<_>>(),
        "history": dossier.history.iter().map(|past| json!({"dossier": past.title, "revision": past.revision, "sha256": past.digest})).collect::<Vec<_>>(),
    })
}

//! `review`: what a person must look at.

use std::path::{Path, PathBuf};

use rayon::prelude::*;
use serde_json::json;

use super::{FINE, STOPPED, UNUSABLE, Voice, complain, history, print, show, to_the_end, unusable};
use crate::{dossier::Dossier, ground::finding::Severity, trend, verdict::Verdict};

pub(super) fn run(folder: &Path, older: &[PathBuf], as_json: bool, all: bool, voice: &Voice) -> u8 {
    let mut dossier = match voice.watched(|| Dossier::build(folder)) {
        Ok(dossier) => to_the_end(dossier),
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
        let found = dossier.findings().into_iter();
        let told = found.filter(|finding| all || finding.severity != Severity::Note);
        show::findings(
            &dossier,
            told,
            if all { usize::MAX } else { show::MOST },
            voice,
        );
        if all {
            for checked in &dossier.checked {
                let looked = match (&checked.outcome.blind, checked.outcome.looked) {
                    (Some(why), _) => say!("not evaluated: {why}", why = why),
                    (None, 0) => say!(
                        "not evaluated: no {things} to look at",
                        things = checked.outcome.things
                    ),
                    (None, n) => say!(
                        "looked at {n} {things}, findings: {count}",
                        n = n,
                        things = checked.outcome.things,
                        count = checked.outcome.findings.len()
                    ),
                };
                voice.say(&format!("{}  {looked}", checked.rule.id));
            }
            for computed in dossier.graph.computed.values() {
                let why = computed.worked.as_ref().err();
                if let Some(why) = why.or(computed.undecidable.as_ref()) {
                    voice.say(&format!(
                        "{}  {}",
                        computed.id,
                        say!("not evaluated: {why}", why = why)
                    ));
                }
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
    let all_series = dossier.series();
    let analyses: Vec<_> = all_series.par_iter().map(trend::analysis::of).collect();
    for (series, analysis) in all_series.iter().zip(analyses) {
        if analysis.values.len() < trend::analysis::LEAST {
            short += 1;
            continue;
        }
        looked += 1;
        let comparisons = trend::groups::comparisons(series);
        let beyond = analysis
            .control
            .as_ref()
            .is_some_and(|control| !control.beyond.is_empty());
        let stands_out = beyond
            || analysis.drifts()
            || comparisons.iter().any(trend::groups::Comparison::differs);
        if all || stands_out {
            let said = trend::sentence(&analysis, &comparisons);
            lines.push(say!(
                "trend: {series}: {said}",
                series = series.title(),
                said = said
            ));
        }
    }
    lines.push(say!("{looked} characteristics looked at in the order of production, over this dossier and {count} older; {short} have too few values.\n", looked = looked, count = dossier.history.len(), short = short));
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
    say!(
        "{all} in {files}; {computed}: {verdicts} conform, {verdicts2} undecided, {verdicts3} do not conform, {verdicts4} not evaluated, {verdicts5} without a limit.\n{checked} run, {blind} of them not evaluated. {dossier} {dossier2} release, {dossier3} must be explained, {dossier4}.",
        all = n(
            dossier.plant.records().all.len(),
            say!("record"),
            say!("records")
        ),
        files = n(
            dossier.plant.folder.files.len(),
            say!("file"),
            say!("files")
        ),
        computed = n(
            dossier.graph.computed.len(),
            say!("figure"),
            say!("figures")
        ),
        verdicts = verdicts(Verdict::Conforms),
        verdicts2 = verdicts(Verdict::Undecided),
        verdicts3 = verdicts(Verdict::DoesNotConform),
        verdicts4 = verdicts(Verdict::NotEvaluated),
        verdicts5 = verdicts(Verdict::NoLimit),
        checked = n(dossier.checked.len(), say!("rule"), say!("rules")),
        blind = blind,
        dossier = n(
            dossier.count(Severity::Blocks),
            say!("finding"),
            say!("findings")
        ),
        dossier2 = if dossier.count(Severity::Blocks) == 1 {
            say!("blocks")
        } else {
            say!("block")
        },
        dossier3 = dossier.count(Severity::Explain),
        dossier4 = n(dossier.count(Severity::Note), say!("note"), say!("notes"))
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

//! `review`: what a person must look at.

use std::path::Path;

use serde_json::json;

use super::{FINE, STOPPED, Voice, print, show, unusable};
use crate::{dossier::Dossier, ground::finding::Severity, verdict::Verdict};

pub(super) fn run(folder: &Path, as_json: bool, all: bool, voice: &Voice) -> u8 {
    let dossier = match Dossier::build(folder) {
        Ok(dossier) => dossier,
        Err(why) => return unusable(&why),
    };
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
        voice.say(&summary(&dossier));
    }
    if blocks > 0 { STOPPED } else { FINE }
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
    })
}

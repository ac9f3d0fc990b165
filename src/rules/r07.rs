//! R07: The evaluated part of a trace has no gap longer than 1.5 sampling steps.

use crate::{
    ground::{
        finding::{Finding, Severity},
        number,
    },
    record::{folder, kinds::Body},
    rule::{Outcome, Rule, View},
};

/// The evaluated part of a trace has no gap longer than 1.5 sampling steps.
pub static RULE: Rule = Rule {
    id: "R07",
    severity: Severity::Blocks,
    demands: "The evaluated part of a trace has no gap longer than 1.5 sampling steps.",
    protects: "a hole that a straight line would hide",
    explained: "In a cycle log, where the gap then proves nothing and counts against life; never in a test.",
    check,
};

fn finding(message: String) -> Finding {
    Finding::new("R07", Severity::Blocks, message)
}

fn check(view: &View) -> Outcome {
    let mut out = Outcome::of(say!("traces"));
    for record in view.plant.records().current() {
        for file in folder::trace_files(record) {
            let Some(trace) = view.plant.folder.trace(file) else {
                continue;
            };
            out.look();
            for (at, length) in trace.gaps() {
                let cycle = matches!(record.body, Body::CycleLog(_));
                let from = trace.lines.get(at).copied().unwrap_or_default();
                let mut found = finding(say!(
                    "{file}: {length} min without data after line {from}.",
                    file = &*file.file,
                    length = number::significant(length / 60.0, 3),
                    from = from
                ));
                found = match cycle {
                    true => found.advise(say!("Proven hold time leaves the gap out; life used counts it in full. Look for a second recorder, or accept the cycle as unproven.")),
                    false => found.advise(say!("Repeat the test, or fetch the whole trace from the instrument.")),
                };
                found.severity = if cycle {
                    Severity::Explain
                } else {
                    Severity::Blocks
                };
                out.find(found.at(record.at(file.file.spot)).about(&*record.id.text));
            }
        }
    }
    out
}

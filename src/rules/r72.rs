//! R72: A cycle stated without evidence counts in full against life and not at all as proof.

use crate::{
    figure::Scope,
    figures::cycles_used::too_cold,
    ground::finding::{Finding, Severity},
    rule::{Outcome, Rule, View},
};

/// A cycle stated without evidence counts in full against life and not at all as proof.
pub static RULE: Rule = Rule {
    id: "R72",
    severity: Severity::Explain,
    demands: "A cycle stated without evidence counts in full against life and not at all as proof.",
    protects: "a treatment that nobody recorded",
    explained: "By a decided deviation or a signed note that names the thing.",
    check,
};

fn finding(message: String) -> Finding {
    Finding::new("R72", Severity::Explain, message)
}

fn check(view: &View) -> Outcome {
    let mut out = Outcome::of(say!("cycles"));
    for (record, log) in view.plant.records().cycle_logs() {
        let scope = Scope {
            plant: view.plant,
            record,
            part: "",
        };
        for event in log.events.iter() {
            out.look();
            let why = match event.evidence {
                crate::record::kinds::cycle_log::Evidence::OperatorStatement => {
                    say!("operator's statement only")
                }
                crate::record::kinds::cycle_log::Evidence::MachineCounter => {
                    say!("counter of the line only")
                }
                crate::record::kinds::cycle_log::Evidence::Trace if event.trace.is_none() => {
                    say!("evidence says trace and none is named")
                }
                crate::record::kinds::cycle_log::Evidence::Trace if too_cold(&scope, event) => {
                    say!("its trace never reaches the hold temperature")
                }
                crate::record::kinds::cycle_log::Evidence::Trace => continue,
            };
            out.find(
                finding(say!("{assembly_id}: {treatment} cycle {sequence}: {why}. Counted as used, not as proof.", assembly_id = &*log.assembly_id, treatment = &*event.treatment, sequence = event.sequence.value, why = why))
                .advise(match event.trace {
                    Some(_) => say!("Find out what was recorded; a cycle that was not hot has treated nothing."),
                    None => say!("Connect the recorder to the valve that starts the cycle."),
                })
                .at(record.at(event.spot))
                .about(&*log.assembly_id.text)
                .about(&*record.id.text),
            );
        }
    }
    out
}

//! R84: Clearances, core and pleats have room left within their uncertainty.

use crate::{
    ground::finding::{Finding, Severity},
    rule::{Outcome, Rule, View},
};
use crate::{record::kinds::Body, verdict::Verdict};

/// Clearances, core and pleats have room left within their uncertainty.
pub static RULE: Rule = Rule {
    id: "R84",
    severity: Severity::Blocks,
    demands: "Clearances, core and pleats have room left within their uncertainty.",
    protects: "a ring that grips, a pack that jams, a core that gives way",
    explained: "Never: it is mended, or what it concerns is not released.",
    check,
};

fn finding(message: String) -> Finding {
    Finding::new(RULE.id, RULE.severity, message)
}

fn check(view: &View) -> Outcome {
    let mut out = Outcome::of("fits, strengths and stacks");
    for figure in [
        "clearance-hot",
        "clearance-cold",
        "ring-clearance-hot",
        "collapse-margin",
        "pleat-room",
    ] {
        for computed in view.graph.all(figure) {
            out.look();
            if computed.verdict() == Verdict::Conforms {
                continue;
            }
            let record = view.plant.record(computed.subject.record);
            let words = match &computed.worked {
                Err(why) => format!("{} is not evaluated: {why}", computed.id),
                Ok(_) => format!("{}: {}", computed.id, View::phrase(computed)),
            };
            // The play of one assembly's ring concerns that assembly; the rest concerns the product.
            let (severity, about) = match &record.body {
                Body::AssemblyBuild(build) => {
                    (view.weight(&build.assembly_id), &*build.assembly_id.text)
                }
                _ => (Severity::Blocks, &*computed.id.part),
            };
            out.find(
                Finding {
                    severity,
                    ..finding(format!("{words}."))
                }
                    .advise("Change dimension, tolerance or claim; measure it on elements after their first cycle.")
                    .at(record.place())
                    .about(&*record.id.text)
                    .about(about),
            );
        }
    }
    out
}

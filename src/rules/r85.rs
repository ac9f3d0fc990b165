//! R85: Water flow after cycles or a regeneration is above its limit.

use crate::{
    ground::finding::{Finding, Severity},
    rule::{Outcome, Rule, View},
};
use crate::{record::kinds::Body, verdict::Verdict};

/// Water flow after cycles or a regeneration is above its limit.
pub static RULE: Rule = Rule {
    id: "R85",
    severity: Severity::Blocks,
    demands: "Water flow after cycles or a regeneration is above its limit.",
    protects: "an element that regeneration no longer helps",
    explained: "Never: it is mended, or what it concerns is not released.",
    check,
};

fn finding(message: String) -> Finding {
    Finding::new(RULE.id, RULE.severity, message)
}

fn check(view: &View) -> Outcome {
    let mut out = Outcome::of(say!("flow tests of used elements"));
    for computed in view.graph.all("flow-recovery") {
        let record = view.plant.record(computed.subject.record);
        let Body::FlowTest(test) = &record.body else {
            continue;
        };
        if computed.judgement.is_none() && computed.worked.is_ok() {
            continue;
        }
        out.look();
        if computed.verdict() == Verdict::Conforms {
            continue;
        }
        let words = match &computed.worked {
            Err(why) => say!("flow recovery is not evaluated: {why}", why = why),
            Ok(_) => View::phrase(computed),
        };
        out.find(
            finding(format!("{}: {words}.", &*test.element_id))
                .advise(say!("Take it out of service, or regenerate it once more and test again; keep both results."))
                .at(record.place())
                .about(&*test.element_id.text)
                .about(&*record.id.text),
        );
    }
    out
}

//! R85: Water flow after cycles or a regeneration is above its limit.

use crate::{
    ground::finding::{Finding, Severity},
    rule::{Outcome, Rule, View},
};
use crate::{
    record::kinds::{Body, flow_test::Occasion},
    verdict::Verdict,
};

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
                .advise(match computed.worked {
                    Ok(_) => say!("Take it out of service, or regenerate it once more and test again; keep both results."),
                    Err(_) => say!("Mend what keeps it from being evaluated; nothing is known of it until then."),
                })
                .at(record.place())
                .about(&*test.element_id.text)
                .about(&*record.id.text),
        );
    }
    for (record, test) in view.plant.records().flow_tests() {
        let used = test.cycles.filter(|cycles| cycles.value > 0);
        if let Some(cycles) = used.filter(|_| test.stage == Occasion::New) {
            out.look();
            out.find(
                finding(say!(
                    "{element}: its flow is said to be that of a new element, after {cycles} cycles.",
                    element = &*test.element_id,
                    cycles = cycles.value
                ))
                .advise(say!(
                    "Write the stage in which it was tested; what was used is held against what it passed when new."
                ))
                .at(record.at(cycles.spot))
                .about(&*test.element_id.text)
                .about(&*record.id.text),
            );
        }
    }
    out
}

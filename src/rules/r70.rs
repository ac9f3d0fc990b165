//! R70: Cycles used do not exceed the claim, each treatment on its own.

use crate::{
    figure::Computed,
    ground::{
        finding::{Finding, Severity},
        number,
    },
    record::kinds::Body,
    rule::{Outcome, Rule, View},
};

/// Cycles used do not exceed the claim, each treatment on its own.
pub static RULE: Rule = Rule {
    id: "R70",
    severity: Severity::Blocks,
    demands: "Cycles used do not exceed the claim, each treatment on its own.",
    protects: "an element that is used beyond what was ever tested",
    explained: "Never: it is mended, or what it concerns is not released.",
    check,
};

fn finding(message: String) -> Finding {
    Finding::new("R70", Severity::Blocks, message)
}

fn check(view: &View) -> Outcome {
    let mut out = Outcome::of("treatments of installed elements");
    for computed in view.graph.all("cycles-left") {
        let record = view.plant.record(computed.subject.record);
        let Body::CycleLog(log) = &record.body else {
            continue;
        };
        out.look();
        let used = view
            .graph
            .get("cycles-used", &record.id, &computed.id.part)
            .map_or(String::new(), Computed::shown);
        match &computed.worked {
            Ok(worked) if worked.quantity.value < 0.0 => out.find(
                finding(format!(
                    "{}: {used} cycles of {}, {} over the claim.",
                    &*log.assembly_id,
                    &*computed.id.part,
                    number::fixed(-worked.quantity.value, 0)
                ))
                .advise("Take it out of service; the claim says nothing about the next cycle.")
                .at(record.place())
                .about(&*log.assembly_id.text)
                .about(&*record.id.text),
            ),
            Err(why) => out.find(
                finding(format!(
                    "{}: {used} cycles of {}, and {why}.",
                    &*log.assembly_id, &*computed.id.part
                ))
                .advise("Ask the maker in writing before further use.")
                .at(record.place())
                .about(&*log.assembly_id.text)
                .about(&*record.id.text),
            ),
            Ok(_) => {}
        }
    }
    out
}

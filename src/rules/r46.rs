//! R46: The bubble point of an assembly is not more than 3 u below that of its weakest module.

use crate::{
    ground::{
        finding::{Finding, Severity},
        number,
    },
    plant::Test,
    record::common::Measured,
    rule::{Outcome, Rule, View},
};

/// The bubble point of an assembly is not more than 3 u below that of its weakest module.
pub static RULE: Rule = Rule {
    id: "R46",
    severity: Severity::Explain,
    demands: "The bubble point of an assembly is not more than 3 u below that of its weakest module.",
    protects: "a pack or join that was damaged on the way",
    explained: "By a decided deviation that names the thing.",
    check,
};

fn finding(message: String) -> Finding {
    Finding::new("R46", Severity::Explain, message)
}

fn check(view: &View) -> Outcome {
    let mut out = Outcome::of(say!("assemblies"));
    for computed in view.graph.all("bubble-point-drop") {
        let record = view.plant.record(computed.subject.record);
        let Some(test) = Test::of(record).filter(|test| view.decides(test)) else {
            continue;
        };
        let quantity = match &computed.worked {
            Ok(worked) if worked.quantity.u() > 0.0 => &worked.quantity,
            Ok(_) => {
                out.look();
                out.find(not_compared(&test, say!("no uncertainty is stated")));
                continue;
            }
            Err(why) => {
                if every_module_has_one(view, test.element) {
                    out.look();
                    out.find(not_compared(&test, why));
                }
                continue;
            }
        };
        out.look();
        let ratio = quantity.value / quantity.u();
        if ratio > 3.0 {
            out.find(
                finding(say!("{element}: its bubble point lies {figure} below that of its weakest module, {ratio} u.", element = test.element, figure = quantity.show(&computed.figure.unit), ratio = number::fixed(ratio, 1)))
                .advise(say!("Suspect a join or a pack damaged in handling."))
                .at(record.place())
                .about(test.element)
                .about(&*record.id.text),
            );
        }
    }
    out
}

/// Whether the deciding test of each module measured a bubble point; where one did not, or no build lists them, rules R03 and R02 say so.
fn every_module_has_one(view: &View, assembly: &str) -> bool {
    let Some((_, build)) = view.plant.build(assembly) else {
        return false;
    };
    build.modules.iter().all(|position| {
        let last = view.plant.last_test(&position.module_id);
        let measured = last.and_then(|test| test.measurement(Measured::BubblePoint));
        measured.is_some_and(|measured| measured.not_measured_reason.is_none())
    })
}

/// An assembly whose bubble point nothing was held against.
fn not_compared(test: &Test, why: &str) -> Finding {
    finding(say!(
        "{element}: its bubble point was not held against those of its modules: {why}.",
        element = test.element,
        why = why
    ))
    .advise(say!(
        "Mend what is missing, or explain why the two cannot be compared."
    ))
    .at(test.record.place())
    .about(test.element)
    .about(&*test.record.id.text)
}

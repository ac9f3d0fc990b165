//! R46: The bubble point of an assembly is not more than 3 u below that of its weakest module.

use crate::{
    ground::{
        finding::{Finding, Severity},
        number,
    },
    plant::Test,
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
        let (Some(test), Some(quantity)) = (
            Test::of(record).filter(|test| view.decides(test)),
            computed.quantity(),
        ) else {
            continue;
        };
        if quantity.u() == 0.0 {
            continue;
        }
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

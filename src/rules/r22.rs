//! R22: One rating and product code stand in one assembly.

use crate::{
    ground::finding::{Finding, Severity},
    rule::{Outcome, Rule, View},
};

/// One rating and product code stand in one assembly.
pub static RULE: Rule = Rule {
    id: "R22",
    severity: Severity::Blocks,
    demands: "One rating and product code stand in one assembly.",
    protects: "a module of another rating in the middle of an element",
    explained: "Never: it is mended, or what it concerns is not released.",
    check,
};

fn finding(message: String) -> Finding {
    Finding::new(RULE.id, RULE.severity, message)
}

fn check(view: &View) -> Outcome {
    let mut out = Outcome::of("assemblies");
    for (record, build) in view.plant.records().assembly_builds() {
        out.look();
        for position in &build.modules {
            let Some((_, spec)) = view.plant.spec_of_element(&position.module_id) else {
                continue;
            };
            if !build.product_code.starts_with(&*spec.product_code.text) {
                out.find(
                    finding(format!(
                        "{} is {}; {} was tested as {} ({}).",
                        &*build.assembly_id,
                        &*build.product_code,
                        &*position.module_id,
                        &*spec.product_code,
                        spec.nominal_rating.text
                    ))
                    .advise("Take the element apart; do not relabel it.")
                    .at(record.at(position.module_id.spot))
                    .about(&*build.assembly_id.text)
                    .about(&*position.module_id.text),
                );
            }
        }
    }
    out
}

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
    let mut out = Outcome::of(say!("assemblies"));
    for (record, build) in view.plant.records().assembly_builds() {
        out.look();
        for position in &build.modules {
            let Some((_, spec)) = view.plant.spec_of_element(&position.module_id) else {
                continue;
            };
            // What follows the code, such as a length, is set apart from it.
            let rest = build.product_code.strip_prefix(&*spec.product_code.text);
            if rest.is_none_or(|rest| rest.starts_with(char::is_alphanumeric)) {
                out.find(
                    finding(say!("{assembly_id} is {product_code}; {module_id} was tested as {product_code2} ({nominal_rating}).", assembly_id = &*build.assembly_id, product_code = &*build.product_code, module_id = &*position.module_id, product_code2 = &*spec.product_code, nominal_rating = spec.nominal_rating.text))
                    .advise(say!("Take the element apart; do not relabel it."))
                    .at(record.at(position.module_id.spot))
                    .about(&*build.assembly_id.text)
                    .about(&*position.module_id.text),
                );
            }
        }
    }
    out
}

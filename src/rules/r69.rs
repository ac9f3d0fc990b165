//! R69: Declarations for food contact name the regulation as amended.

use std::collections::BTreeMap;

use crate::{
    ground::finding::{Finding, Severity},
    ground::place::Place,
    rule::{Outcome, Rule, View},
};

/// Declarations for food contact name the regulation as amended.
pub static RULE: Rule = Rule {
    id: "R69",
    severity: Severity::Explain,
    demands: "Declarations for food contact name the regulation as amended.",
    protects: "a declaration that a change of the law has overtaken",
    explained: "By a decided deviation of category data that names the document.",
    check,
};

fn finding(message: String) -> Finding {
    Finding::new(RULE.id, RULE.severity, message)
}

fn check(view: &View) -> Outcome {
    let mut out = Outcome::of(say!("declarations"));
    let mut stale: BTreeMap<(&str, &str), (Place, Vec<&str>)> = BTreeMap::new();
    for (record, lot) in view.plant.records().material_lots() {
        for paper in lot.food_contact_documents.iter() {
            out.look();
            let text = &*paper.regulation.text;
            let denied = text.contains("not as amended") || text.contains("not amended");
            let overtaken = denied
                || AMENDED.iter().any(|(law, amendment)| {
                    text.contains(law) && !text.contains(amendment) && !text.contains("as amended")
                });
            if overtaken {
                stale
                    .entry((&paper.document, text))
                    .or_insert_with(|| (record.at(paper.spot), Vec::new()))
                    .1
                    .push(&record.id);
            }
        }
    }
    for ((document, law), (place, lots)) in stale {
        let found = finding(say!(
            "{document} says \"{law}\" without the amendment (EU) {what}; it covers {lots}.",
            document = document,
            law = law,
            what = AMENDED[0].1,
            lots = lots.join(", ")
        ))
        .advise(say!("Ask the supplier whether it still holds."))
        .at(place)
        .about(document)
        .about_all(&lots);
        out.find(found);
    }
    out
}

/// Regulations and the amendment that a present declaration names: (EU) 2025/351 amends both
/// (of 10/2011 from memory; of 2023/2006 as the consolidated text of 16 March 2025 lists it).
const AMENDED: [(&str, &str); 2] = [("10/2011", "2025/351"), ("2023/2006", "2025/351")];

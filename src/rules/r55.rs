//! R55: Every failed or undecided result has a deviation.

use crate::{
    ground::finding::{Finding, Severity},
    plant::Test,
    record::{
        Record,
        kinds::{Body, deviation::Category, flow_test::Occasion},
    },
    rule::{Outcome, Rule, View},
    verdict::Verdict,
};

/// Every failed or undecided result has a deviation.
pub static RULE: Rule = Rule {
    id: "R55",
    severity: Severity::Blocks,
    demands: "Every failed or undecided result has a deviation.",
    protects: "an unwanted result that nobody speaks of",
    explained: "Never: it is mended, or what it concerns is not released.",
    check,
};

fn finding(message: String) -> Finding {
    Finding::new("R55", Severity::Blocks, message)
}

/// What a deviation about an element or a roll must be of to speak of a result; one that names the test itself speaks of it anyhow.
const SPEAKS: [Category; 5] = [
    Category::Retest,
    Category::TestInvalid,
    Category::NonconformingProduct,
    Category::Undecided,
    Category::Exclusion,
];

/// What was tested: the element of a test, the roll of flat membrane. Of challenges, coupons and flow in service rules R65, R52 and R85
/// speak.
fn tested(record: &Record) -> Option<&str> {
    match &record.body {
        Body::MembraneTest(body) => Some(&*body.material_lot.text),
        Body::FlowTest(body) if body.stage == Occasion::New => Some(&*body.element_id.text),
        _ => Test::of(record).map(|test| test.element),
    }
}

fn check(view: &View) -> Outcome {
    let mut out = Outcome::of(say!("tests"));
    for record in view.plant.records().current() {
        let Some(thing) = tested(record) else {
            continue;
        };
        out.look();
        let bad: Vec<String> = view
            .figures_of(record)
            .iter()
            .filter(|computed| {
                computed.id.figure != "join-residual"
                    && matches!(
                        computed.verdict(),
                        Verdict::DoesNotConform | Verdict::Undecided
                    )
                    && computed.judgement.is_some()
            })
            .map(|computed| View::phrase(computed))
            .collect();
        let mut about = view.plant.deviations_about(thing);
        let spoken = view.plant.deviations_about(&record.id).next().is_some()
            || about.any(|(_, deviation)| SPEAKS.contains(&deviation.category));
        if !bad.is_empty() && !spoken {
            out.find(
                finding(say!(
                    "{id}: {bad}; no deviation names it.",
                    id = &*record.id,
                    bad = bad.join("; ")
                ))
                .advise(say!("Open one; a scrapped part still needs it."))
                .at(record.place())
                .about(thing)
                .about(&*record.id.text),
            );
        }
    }
    out
}

//! R81: The finished copy verifies: every file listed, every digest right.

use crate::{
    ground::finding::Severity,
    rule::{Outcome, Rule, View},
};

/// The finished copy verifies: every file listed, every digest right.
pub static RULE: Rule = Rule {
    id: "R81",
    severity: Severity::Blocks,
    demands: "The finished copy verifies: every file listed, every digest right.",
    protects: "a copy that was damaged on the way",
    explained: "Never: it is mended, or what it concerns is not released.",
    check,
};

fn check(view: &View) -> Outcome {
    let mut out = Outcome::of(say!("finished copies"));
    out.blind = Some(say!(
        "it looks at a compiled copy ({count} records are read here): run `sealfolio verify COPY`",
        count = view.plant.records().all.len()
    ));
    out
}

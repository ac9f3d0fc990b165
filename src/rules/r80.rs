//! R80: A customer's copy shows every own item in full and every other item as a sealed leaf.

use crate::{
    ground::finding::Severity,
    rule::{Outcome, Rule, View},
};

/// A customer's copy shows every own item in full and every other item as a sealed leaf.
pub static RULE: Rule = Rule {
    id: "R80",
    severity: Severity::Blocks,
    demands: "A customer's copy shows every own item in full and every other item as a sealed leaf.",
    protects: "a customer's copy that leaves something out",
    explained: "Never: the copy is made again.",
    check,
};

fn check(_: &View) -> Outcome {
    Outcome {
        blind: Some(say!("this is the maker's whole folder, not a customer's copy of it").into()),
        ..Outcome::of(say!("customer's copies"))
    }
}

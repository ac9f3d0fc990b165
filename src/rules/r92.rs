//! R92: What shows that an element to be released is intact is held against a limit.

use crate::{
    figure::Computed,
    figures::{bubble_point, diffusive_flow},
    ground::finding::{Finding, Severity},
    rule::{Outcome, Rule, View},
};

/// What shows that an element to be released is intact is held against a limit.
pub static RULE: Rule = Rule {
    id: "R92",
    severity: Severity::Blocks,
    demands: "What shows that an element to be released is intact is held against a limit.",
    protects: "a pass because nobody laid down what would fail",
    explained: "Never: it is mended, or what it concerns is not released.",
    check,
};

fn check(view: &View) -> Outcome {
    let mut out = Outcome::of(say!("elements to be released"));
    let integrity = [bubble_point::FIGURE.id, diffusive_flow::FIGURE.id];
    for element in view.release.iter().chain(&view.modules) {
        let Some(last) = view.plant.last_test(element) else {
            continue;
        };
        out.look();
        let own = view.figures_of(last.record).iter();
        let own: Vec<&&Computed> = own
            .filter(|computed| integrity.contains(&computed.id.figure))
            .collect();
        let free = own.iter().filter(|computed| {
            computed.judgement.is_none()
                && computed.undecidable.is_none()
                && computed.worked.is_ok()
        });
        let free: Vec<&str> = free.map(|computed| say!(computed.figure.name)).collect();
        let message = match (own.is_empty(), free.is_empty()) {
            (true, _) => say!(
                "{element}: {id} measures neither bubble point nor diffusive flow.",
                element = element,
                id = &*last.record.id
            ),
            (false, false) => say!(
                "{element}: the specification of {id} has no limit for: {free}.",
                element = element,
                id = &*last.record.id,
                free = free.join(", ")
            ),
            (false, true) => continue,
        };
        out.find(
            Finding::new(RULE.id, RULE.severity, message)
                .advise(say!(
                    "Lay the limit down for this stage in the next revision of the specification, or test what it limits."
                ))
                .at(last.record.place())
                .about(*element)
                .about(&*last.record.id.text),
        );
    }
    out
}

//! R92: What shows that an element to be released is intact is held against a limit.

use crate::{
    figure::Computed,
    figures::{bubble_point, diffusive_flow},
    ground::{
        finding::{Finding, Severity},
        words::spelt,
    },
    record::{common::Measured, kinds::product_specification::Stage},
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
    let mut out = Outcome::of(say!("elements to be released and limits laid down"));
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
    idle(view, &mut out);
    out
}

/// What limits are held against, by stage: what figures, the sheets for service and rule R73 look up.
const HELD: &[(Stage, &[Measured])] = &[
    (
        Stage::Membrane,
        &[
            Measured::BubblePoint,
            Measured::Thickness,
            Measured::WaterFlux,
        ],
    ),
    (Stage::Slit, &[]),
    (Stage::PleatPack, &[Measured::PleatCount]),
    (
        Stage::Seal,
        &[Measured::PeelForce, Measured::JointPullForce],
    ),
    (
        Stage::Module,
        &[
            Measured::BubblePoint,
            Measured::DiffusiveFlow,
            Measured::WaterFlow,
        ],
    ),
    (
        Stage::Assembly,
        &[
            Measured::BubblePoint,
            Measured::DiffusiveFlow,
            Measured::WaterFlow,
            Measured::Straightness,
        ],
    ),
    (
        Stage::InService,
        &[
            Measured::BubblePoint,
            Measured::DiffusiveFlow,
            Measured::WaterFlow,
            Measured::FlowRecovery,
        ],
    ),
];

/// Limits of the specifications that nothing is ever held against: they read like a demand and are none.
fn idle(view: &View, out: &mut Outcome) {
    for (record, spec) in view.plant.records().product_specifications() {
        for accepted in spec.acceptance.iter() {
            out.look();
            let held = HELD.iter().find(|(stage, _)| *stage == accepted.stage);
            if held.is_some_and(|(_, all)| all.contains(&accepted.quantity)) {
                continue;
            }
            let found = Finding::new(
                RULE.id,
                Severity::Explain,
                say!(
                    "{id} revision {revision}: nothing is ever held against the limit {limit} of {quantity} at the stage {stage}.",
                    id = &*record.id,
                    revision = record.revision,
                    limit = spelt(&accepted.limit.text),
                    quantity = accepted.quantity.word(),
                    stage = accepted.stage.word()
                ),
            )
            .advise(say!("Lay it down at a stage where this quantity is measured and judged, or say who holds it and where that is recorded."))
            .at(record.at(accepted.limit.spot))
            .about(&*record.id.text);
            out.find(found);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_stage_is_in_the_table() {
        for stage in Stage::WORDS {
            assert!(HELD.iter().any(|(own, _)| own.word() == *stage), "{stage}");
        }
    }
}

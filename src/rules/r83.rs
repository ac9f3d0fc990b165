//! R83: A pack is built from the layers that the stack of its product allows.

use std::collections::BTreeMap;

use crate::{
    ground::finding::{Finding, Severity},
    rule::{Outcome, Rule, View},
};
use crate::{
    ground::place::Spot,
    record::kinds::{layer_stack::Place, pleating_record::Pack},
};

/// A pack is built from the layers that the stack of its product allows.
pub static RULE: Rule = Rule {
    id: "R83",
    severity: Severity::Blocks,
    demands: "A pack is built from the layers that the stack of its product allows.",
    protects: "a pack with a wrong or missing layer",
    explained: "Never: it is mended, or what it concerns is not released.",
    check,
};

fn finding(message: String) -> Finding {
    Finding::new(RULE.id, RULE.severity, message)
}

fn check(view: &View) -> Outcome {
    let mut out = Outcome::of(say!("packs and layers"));
    for (record, body) in view.plant.records().pleating_records() {
        let product = view
            .plant
            .spec_of(record)
            .map(|(_, spec)| &*spec.product_code.text);
        let stack =
            view.plant.records().layer_stacks().find(|(_, stack)| {
                product.is_some_and(|product| *stack.product_code.text == *product)
            });
        let Some((stack_record, stack)) = stack else {
            continue;
        };
        let severity = match body
            .packs
            .iter()
            .any(|pack| view.in_release(&pack.module_id))
        {
            true => Severity::Blocks,
            false => Severity::Explain,
        };
        let mut report = |spot: Spot, message: String| {
            out.find(
                Finding {
                    severity,
                    ..finding(format!("{}: {message}.", &*record.id))
                }
                .advise(say!(
                    "Find out what was pleated; hold the modules until then."
                ))
                .at(record.at(spot))
                .about(&*record.id.text)
                .about(&*body.lot_id.text),
            );
        };
        let rolls: BTreeMap<&str, &Pack> = body
            .packs
            .iter()
            .map(|pack| (&*pack.material_lot.text, pack))
            .collect();
        let mut looked = 0;
        for layer in &stack.layers {
            looked += 1;
            let allows = |lot: &str| {
                let material = view.plant.material(lot).map(|(_, material)| material);
                layer.allowed.iter().any(|allowed| {
                    *allowed.text == *lot
                        || material.is_some_and(|material| {
                            allowed.text == material.supplier_lot.text
                                || allowed.text == material.material_type.text
                        })
                })
            };
            if layer.layer == Place::Membrane {
                for (roll, pack) in rolls.iter().filter(|(roll, _)| !allows(roll)) {
                    report(
                        pack.material_lot.spot,
                        say!(
                            "the membrane {roll} of {module_id} is none that {id} allows",
                            roll = roll,
                            module_id = &*pack.module_id,
                            id = &*stack_record.id
                        ),
                    );
                }
                continue;
            }
            // A record says `upstream` or `upstream_support`; both mean the layer.
            let word = layer.layer.word();
            let used = body.support_layers.as_ref().and_then(|all| {
                all.get(word)
                    .or_else(|| all.get(word.trim_end_matches("_support")))
            });
            match used {
                Some(lot) if allows(lot) => {}
                Some(lot) => report(
                    lot.spot,
                    say!(
                        "the {word} {lot} is none that {id} allows",
                        word = word.replace('_', " "),
                        lot = &**lot,
                        id = &*stack_record.id
                    ),
                ),
                None => report(
                    record.spot,
                    say!(
                        "no {word} is named, and {id} has one",
                        word = word.replace('_', " "),
                        id = &*stack_record.id
                    ),
                ),
            }
        }
        let keys = body.support_layers.iter().flat_map(|all| &all.leaves);
        for (key, lot) in keys {
            let due = stack.layers.iter().any(|layer| {
                let word = layer.layer.word();
                key == word || key == word.trim_end_matches("_support")
            });
            if !due {
                report(
                    lot.spot,
                    say!(
                        "a layer {key} ({lot}) is named, and {id} has none",
                        key = key,
                        lot = &**lot,
                        id = &*stack_record.id
                    ),
                );
            }
        }
        out.looked += looked * body.packs.len();
    }
    out
}

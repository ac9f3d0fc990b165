//! R16: The metres of a roll do not overlap and do not exceed the roll.

use crate::{
    ground::finding::{Finding, Severity},
    rule::{Outcome, Rule, View},
};

/// The metres of a roll do not overlap and do not exceed the roll.
pub static RULE: Rule = Rule {
    id: "R16",
    severity: Severity::Blocks,
    demands: "The metres of a roll do not overlap and do not exceed the roll.",
    protects: "a module that was cut from membrane that is not there",
    explained: "Never: it is mended, or what it concerns is not released.",
    check,
};

fn finding(message: String) -> Finding {
    Finding::new(RULE.id, RULE.severity, message)
}

fn check(view: &View) -> Outcome {
    let mut out = Outcome::of("packs");
    for (roll, modules) in &view.plant.cut {
        let mut packs: Vec<_> = modules
            .iter()
            .filter_map(|id| view.plant.pack(id))
            .collect();
        packs.sort_by(|a, b| a.2.from.si.total_cmp(&b.2.from.si));
        let received = view
            .plant
            .material(roll)
            .map(|(_, lot)| &lot.quantity_received);
        for (i, (record, _, pack)) in packs.iter().enumerate() {
            out.look();
            let id = &*pack.module_id.text;
            // Marks are read to a tenth of a metre; what touches does not overlap.
            if let Some((_, _, before)) = i.checked_sub(1).map(|before| &packs[before])
                && before.to.si > pack.from.si + 1e-9
            {
                out.find(
                    finding(format!(
                        "{roll}: {} to {} ({}) and {} to {} ({id}) overlap.",
                        before.from.text,
                        before.to.text,
                        &*before.module_id,
                        pack.from.text,
                        pack.to.text
                    ))
                    .advise("Check the pleating record against the cut list.")
                    .at(record.at(pack.spot))
                    .about(id)
                    .about(&**roll),
                );
            }
            let beyond = received.is_some_and(|received| {
                received.unit.dim == pack.to.unit.dim && pack.to.si > received.si + 1e-9
            });
            if beyond || pack.to.si <= pack.from.si {
                out.find(
                    finding(format!(
                        "{roll}: {} to {} ({id}) cannot be cut from it.",
                        pack.from.text, pack.to.text
                    ))
                    .advise("Check the metres; a roll has no more than was received.")
                    .at(record.at(pack.spot))
                    .about(id)
                    .about(&**roll),
                );
            }
        }
    }
    out
}

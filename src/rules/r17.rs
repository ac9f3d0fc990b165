//! R17: Each material lot that was used traces to one supplier and supplier lot.

use crate::{
    ground::finding::{Finding, Severity},
    record::{kinds::Body, read::Text},
    rule::{Outcome, Rule, View},
};

/// Each material lot that was used traces to one supplier and supplier lot.
pub static RULE: Rule = Rule {
    id: "R17",
    severity: Severity::Blocks,
    demands: "Each material lot that was used traces to one supplier and supplier lot.",
    protects: "a part that nobody can recall (one step up, EC 1935/2004 Article 17)",
    explained: "Never: it is mended, or what it concerns is not released.",
    check,
};

/// The material lots that a record uses, and as what.
pub fn lots_used(body: &Body) -> Vec<(&Text, &'static str)> {
    match body {
        Body::AssemblyBuild(body) => {
            let adapter = body
                .adapter
                .iter()
                .map(|adapter| (&adapter.material_lot, "adapter"));
            let ring = body
                .adapter
                .iter()
                .flat_map(|adapter| &adapter.stainless_ring_lot)
                .map(|lot| (lot, "stainless ring"));
            let tip = body
                .end_piece
                .iter()
                .map(|piece| (&piece.material_lot, "end piece"));
            let rings = body
                .o_rings
                .iter()
                .map(|rings| (&rings.material_lot, "o-rings"));
            adapter.chain(ring).chain(tip).chain(rings).collect()
        }
        Body::PleatingRecord(body) => {
            let supports = body
                .support_layers
                .iter()
                .flat_map(|layers| layers.texts())
                .map(|lot| (lot, "support layer"));
            body.packs
                .iter()
                .map(|pack| (&pack.material_lot, "membrane"))
                .chain(supports)
                .collect()
        }
        Body::SealRun(body) => body
            .end_cap_lot
            .iter()
            .map(|lot| (lot, "end cap"))
            .collect(),
        Body::SlittingRecord(body) => vec![(&body.material_lot, "membrane")],
        Body::MembraneTest(body) => vec![(&body.material_lot, "membrane")],
        Body::RetentionChallenge(body) => vec![(&body.material_lot, "membrane")],
        _ => Vec::new(),
    }
}

fn finding(message: String) -> Finding {
    Finding::new("R17", Severity::Blocks, message)
}

fn check(view: &View) -> Outcome {
    let mut out = Outcome::of("material lots used");
    let mut seen = std::collections::BTreeSet::new();
    for record in view.plant.records().current() {
        for (lot, what) in lots_used(&record.body) {
            if !seen.insert(&lot.text) {
                continue;
            }
            out.look();
            if view.plant.material(lot).is_none() {
                out.find(
                    finding(format!("{} ({what}) has no material_lot record.", &**lot))
                        .advise("Add it with supplier and supplier lot (one step up).")
                        .at(record.at(lot.spot))
                        .about(&*lot.text),
                );
            }
        }
    }
    out
}

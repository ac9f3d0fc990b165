//! Material lots that records use.

use crate::record::{kinds::Body, read::Text};

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
                .chain(body.core_lot.iter().map(|lot| (lot, "core")))
                .chain(body.cage_lot.iter().map(|lot| (lot, "cage")))
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

//! Material lots that records use.

use crate::record::{kinds::Body, read::Text};

/// The material lots that a record uses, and as what: a word to be said.
pub fn lots_used(body: &Body) -> Vec<(&Text, &'static str)> {
    match body {
        Body::AssemblyBuild(body) => {
            let adapter = body
                .adapter
                .iter()
                .map(|adapter| (&adapter.material_lot, word!("adapter")));
            let ring = body
                .adapter
                .iter()
                .flat_map(|adapter| &adapter.stainless_ring_lot)
                .map(|lot| (lot, word!("stainless ring")));
            let tip = body
                .end_piece
                .iter()
                .map(|piece| (&piece.material_lot, word!("end piece")));
            let rings = body
                .o_rings
                .iter()
                .map(|rings| (&rings.material_lot, word!("o-rings")));
            adapter.chain(ring).chain(tip).chain(rings).collect()
        }
        Body::PleatingRecord(body) => {
            let supports = body
                .support_layers
                .iter()
                .flat_map(|layers| layers.texts())
                .map(|lot| (lot, word!("support layer")));
            body.packs
                .iter()
                .map(|pack| (&pack.material_lot, word!("membrane")))
                .chain(supports)
                .chain(body.core_lot.iter().map(|lot| (lot, word!("core"))))
                .chain(body.cage_lot.iter().map(|lot| (lot, word!("cage"))))
                .collect()
        }
        Body::SealRun(body) => body
            .end_cap_lot
            .iter()
            .map(|lot| (lot, word!("end cap")))
            .collect(),
        Body::SlittingRecord(body) => vec![(&body.material_lot, word!("membrane"))],
        Body::MembraneTest(body) => vec![(&body.material_lot, word!("membrane"))],
        Body::RetentionChallenge(body) => vec![(&body.material_lot, word!("membrane"))],
        _ => Vec::new(),
    }
}

//! Which records speak of a material lot, found once.

use std::collections::BTreeSet;

use super::{Name, lots_used};
use crate::{
    ground::index::Index,
    record::{
        Record, Records,
        kinds::{Body, lot_reconciliation::LotReconciliation},
    },
};

/// Records by the material lots that they use, balance or are.
#[derive(Default, Debug)]
pub(super) struct Materials {
    used: Index<Vec<usize>>,
    balanced: Index<Vec<usize>>,
    of_supplier: Index<Vec<Name>>,
}

impl Materials {
    pub(super) fn of(records: &Records) -> Materials {
        let mut out = Materials::default();
        for record in records.current() {
            let used: BTreeSet<&str> = lots_used(&record.body)
                .iter()
                .map(|(lot, _)| &*lot.text)
                .collect();
            for lot in used {
                out.used.entry(lot.into()).or_default().push(record.index);
            }
            match &record.body {
                Body::LotReconciliation(body) => {
                    let rolls: BTreeSet<&str> = body
                        .roll_balance
                        .iter()
                        .map(|balance| &*balance.material_lot.text)
                        .collect();
                    for roll in rolls {
                        out.balanced
                            .entry(roll.into())
                            .or_default()
                            .push(record.index);
                    }
                }
                Body::MaterialLot(body) => {
                    let all = out
                        .of_supplier
                        .entry(body.supplier_lot.text.clone())
                        .or_default();
                    all.push(record.id.text.clone());
                }
                _ => {}
            }
        }
        out
    }

    /// The current records that use a material lot, in the order of kinds and ids.
    pub(super) fn users<'a>(&self, records: &'a Records, lot: &str) -> Vec<&'a Record> {
        let own = self.used.get(lot).map(|own| &own[..]).unwrap_or_default();
        own.iter().map(|index| records.at(*index)).collect()
    }

    /// The reconciliations that balance one of these rolls, in the order of their ids.
    pub(super) fn balances<'a>(
        &self,
        records: &'a Records,
        rolls: &BTreeSet<&str>,
    ) -> Vec<(&'a Record, &'a LotReconciliation)> {
        let own: BTreeSet<usize> = rolls
            .iter()
            .filter_map(|roll| self.balanced.get(*roll))
            .flatten()
            .copied()
            .collect();
        let mut all: Vec<_> = own
            .into_iter()
            .map(|index| records.at(index))
            .filter_map(|record| match &record.body {
                Body::LotReconciliation(body) => Some((record, &**body)),
                _ => None,
            })
            .collect();
        all.sort_by(|a, b| a.0.id.text.cmp(&b.0.id.text));
        all
    }

    /// The material lots of a supplier's lot, in the order of their ids.
    pub(super) fn of_supplier(&self, lot: &str) -> &[Name] {
        self.of_supplier
            .get(lot)
            .map(|own| &own[..])
            .unwrap_or_default()
    }
}

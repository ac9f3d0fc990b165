//! Which records speak of an instrument, a person, an element, a lot or a roll, found once.

use std::collections::BTreeSet;

use super::{Plant, touched::instruments};
use crate::{
    ground::index::Index,
    record::{
        Record, Records,
        kinds::{
            Body, calibration_record::CalibrationRecord, flow_test::FlowTest,
            lot_reconciliation::LotReconciliation, retention_challenge::RetentionChallenge,
        },
    },
};

/// Indices of current records by a name that they bear, in the order of kinds and ids.
pub(super) type Users = Index<Vec<usize>>;

/// Current records by what they speak of.
#[derive(Default, Debug)]
pub(super) struct Uses {
    /// By the instruments that their readings came from.
    pub(super) instruments: Users,
    /// By who recorded them.
    pub(super) persons: Users,
    /// Calibrations by instrument, in the order of their days.
    pub(super) calibrations: Users,
    /// Flow tests by element.
    pub(super) flows: Users,
    /// Reconciliations by lot.
    pub(super) reconciliations: Users,
    /// Inspections of marks by item.
    pub(super) marks: Users,
    /// Retention challenges by roll.
    pub(super) challenges: Users,
    /// The same by the supplier lot of their rolls.
    pub(super) of_supplier: Users,
}

fn put(index: &mut Users, name: &str, record: usize) {
    match index.get_mut(name) {
        Some(own) => own.push(record),
        None => {
            index.insert(name.into(), vec![record]);
        }
    }
}

impl Uses {
    pub(super) fn of(records: &Records) -> Uses {
        let mut out = Uses::default();
        for record in records.current() {
            let at = record.index;
            for instrument in instruments(record) {
                put(&mut out.instruments, instrument, at);
            }
            let mut persons: BTreeSet<&str> = record.recorded_by.as_deref().into_iter().collect();
            // Who signed, allowed or approved answers for it like who wrote it.
            match &record.body {
                Body::ReleaseStatement(body) => {
                    let signed = body.signatures.iter();
                    persons.extend(signed.map(|signature| &*signature.person_id.text));
                }
                Body::Deviation(body) => {
                    let allowed = body.retest_allowed_by.iter().chain(&body.approved_by);
                    persons.extend(allowed.map(|id| &*id.text));
                }
                _ => {}
            }
            for person in persons {
                put(&mut out.persons, person, at);
            }
            match &record.body {
                Body::CalibrationRecord(body) => {
                    put(&mut out.calibrations, &body.instrument_id, at);
                }
                Body::FlowTest(body) => put(&mut out.flows, &body.element_id, at),
                Body::LotReconciliation(body) => put(&mut out.reconciliations, &body.lot_id, at),
                Body::MarkingInspection(body) => {
                    let items: BTreeSet<&str> =
                        body.reads.iter().map(|mark| &*mark.item.text).collect();
                    items
                        .into_iter()
                        .for_each(|item| put(&mut out.marks, item, at));
                }
                Body::RetentionChallenge(body) => {
                    let roll = records.find("material_lot", &body.material_lot);
                    if let Some(Body::MaterialLot(lot)) = roll.map(|roll| &roll.body) {
                        put(&mut out.of_supplier, &lot.supplier_lot, at);
                    }
                    put(&mut out.challenges, &body.material_lot, at);
                }
                _ => {}
            }
        }
        for own in out.calibrations.values_mut() {
            own.sort_by_key(|index| match &records.at(*index).body {
                Body::CalibrationRecord(body) => {
                    Some((body.valid_from.date, body.calibration_performed_at.time))
                }
                _ => None,
            });
        }
        out
    }
}

impl Plant {
    /// The calibrations of an instrument, in the order of their days.
    pub fn calibrations<'a>(
        &'a self,
        instrument: &str,
    ) -> Vec<(&'a Record, &'a CalibrationRecord)> {
        self.named(&self.uses.calibrations, instrument)
            .filter_map(|record| match &record.body {
                Body::CalibrationRecord(body) => Some((record, &**body)),
                _ => None,
            })
            .collect()
    }

    /// The current records whose readings came from an instrument, in the order of kinds and ids.
    pub fn measured_by<'a>(&'a self, instrument: &str) -> impl Iterator<Item = &'a Record> {
        self.named(&self.uses.instruments, instrument)
    }

    /// The flow tests of an element, in the order of their ids.
    pub fn flow_tests<'a>(
        &'a self,
        element: &str,
    ) -> impl Iterator<Item = (&'a Record, &'a FlowTest)> {
        self.named(&self.uses.flows, element)
            .filter_map(|record| match &record.body {
                Body::FlowTest(body) => Some((record, &**body)),
                _ => None,
            })
    }

    /// The inspections of marks that read one of an item, in the order of their ids.
    pub fn marks_of<'a>(&'a self, item: &str) -> impl Iterator<Item = &'a Record> {
        self.named(&self.uses.marks, item)
    }

    /// The reconciliations of a lot, in the order of their ids.
    pub fn reconciliations<'a>(
        &'a self,
        lot: &str,
    ) -> impl Iterator<Item = (&'a Record, &'a LotReconciliation)> {
        self.named(&self.uses.reconciliations, lot)
            .filter_map(|record| match &record.body {
                Body::LotReconciliation(body) => Some((record, &**body)),
                _ => None,
            })
    }

    /// The retention challenges of a roll and of every roll of its supplier lot, in the order of their ids.
    pub fn challenges(&self, roll: &str) -> Vec<(&Record, &RetentionChallenge)> {
        let supplier = self.material(roll).map(|(_, lot)| &*lot.supplier_lot.text);
        let brothers = supplier.and_then(|lot| self.uses.of_supplier.get(lot));
        let own = self.uses.challenges.get(roll);
        let all: BTreeSet<usize> = brothers.into_iter().chain(own).flatten().copied().collect();
        let mut all: Vec<_> = all
            .into_iter()
            .filter_map(|index| match &self.record(index).body {
                Body::RetentionChallenge(body) => Some((self.record(index), &**body)),
                _ => None,
            })
            .collect();
        all.sort_by(|a, b| a.0.id.text.cmp(&b.0.id.text));
        all
    }

    fn named<'a>(&'a self, index: &Users, name: &str) -> std::vec::IntoIter<&'a Record> {
        let own = index.get(name).map(|own| &own[..]).unwrap_or_default();
        let records: Vec<&Record> = own.iter().map(|index| self.record(*index)).collect();
        records.into_iter()
    }
}

//! Which records speak of an instrument, a person, an element, a lot or a roll, found once.

use std::collections::BTreeMap;

use super::{Name, touched::instruments};
use crate::record::{Records, kinds::Body};

/// Indices of current records by a name that they bear, in the order of kinds and ids.
pub(super) type Index = BTreeMap<Name, Vec<usize>>;

/// Current records by what they speak of.
#[derive(Default, Debug)]
pub(super) struct Uses {
    /// By the instruments that their readings came from.
    pub(super) instruments: Index,
    /// By who recorded them.
    pub(super) persons: Index,
    /// Calibrations by instrument, in the order of their days.
    pub(super) calibrations: Index,
    /// Flow tests by element.
    pub(super) flows: Index,
    /// Reconciliations by lot.
    pub(super) reconciliations: Index,
    /// Retention challenges by material lot.
    pub(super) challenges: Index,
}

fn put(index: &mut Index, name: &str, record: usize) {
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
            if let Some(person) = record.recorded_by.as_deref() {
                put(&mut out.persons, person, at);
            }
            match &record.body {
                Body::CalibrationRecord(body) => {
                    put(&mut out.calibrations, &body.instrument_id, at);
                }
                Body::FlowTest(body) => put(&mut out.flows, &body.element_id, at),
                Body::LotReconciliation(body) => put(&mut out.reconciliations, &body.lot_id, at),
                Body::RetentionChallenge(body) => {
                    put(&mut out.challenges, &body.material_lot, at);
                }
                _ => {}
            }
        }
        for own in out.calibrations.values_mut() {
            own.sort_by_key(|index| match &records.all[*index].body {
                Body::CalibrationRecord(body) => Some((
                    body.valid_from.date,
                    body.calibration_performed_at.time,
                )),
                _ => None,
            });
        }
        out
    }
}

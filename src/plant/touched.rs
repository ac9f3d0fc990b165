//! What a record has to do with: modules, assemblies, instruments.

use std::collections::{BTreeMap, BTreeSet};

use super::{Plant, recall::Period};
use crate::record::{Record, kinds::Body};

/// What records say is touched: each module and assembly with the record that says so.
#[derive(Default)]
pub(super) struct Touched {
    pub(super) modules: BTreeMap<String, BTreeSet<String>>,
    pub(super) assemblies: BTreeMap<String, BTreeSet<String>>,
}

impl Touched {
    pub(super) fn module(&mut self, id: &str, by: &str) {
        self.modules
            .entry(id.to_owned())
            .or_default()
            .insert(by.to_owned());
    }

    pub(super) fn assembly(&mut self, id: &str, by: &str) {
        self.assemblies
            .entry(id.to_owned())
            .or_default()
            .insert(by.to_owned());
    }

    pub(super) fn roll(&mut self, plant: &Plant, roll: &str, by: &str) {
        for (module, _) in plant.modules_of_roll(roll) {
            self.module(module, by);
        }
    }

    /// All that a record has to do with.
    pub(super) fn record(&mut self, plant: &Plant, record: &Record) {
        let by = &*record.id.text;
        match &record.body {
            Body::PleatingRecord(body) => body
                .packs
                .iter()
                .for_each(|pack| self.module(&pack.module_id, by)),
            Body::ModuleTest(body) => self.module(&body.head.module_id, by),
            Body::AssemblyTest(body) => self.assembly(&body.head.assembly_id, by),
            Body::AssemblyBuild(body) => self.assembly(&body.assembly_id, by),
            Body::MembraneTest(body) => self.roll(plant, &body.material_lot, by),
            Body::SlittingRecord(body) => self.roll(plant, &body.material_lot, by),
            Body::RetentionChallenge(body) => self.roll(plant, &body.material_lot, by),
            Body::SealRun(body) => {
                for item in body.items.iter() {
                    match plant.assemblies.contains_key(&*item.item.text) {
                        true => self.assembly(&item.item, by),
                        false => self.module(&item.item, by),
                    }
                }
            }
            Body::SealInspection(body) => {
                if let Some((run, _)) = plant.seal_run(&body.seal_run) {
                    self.record(plant, run);
                }
            }
            Body::FlowTest(body) => match plant.assemblies.contains_key(&*body.element_id.text) {
                true => self.assembly(&body.element_id, by),
                false => self.module(&body.element_id, by),
            },
            Body::CycleLog(body) => self.assembly(&body.assembly_id, by),
            Body::MaterialLot(_) => self.material(plant, by, Period::default()),
            Body::MarkingInspection(body) => {
                for mark in body.reads.iter() {
                    match plant.assemblies.contains_key(&*mark.item.text) {
                        true => self.assembly(&mark.item, by),
                        false => self.module(&mark.item, by),
                    }
                }
            }
            Body::ReleaseStatement(body) => {
                let all = body.object.assemblies.iter();
                all.for_each(|id| self.assembly(id, by));
            }
            Body::Deviation(body) => {
                for text in body.subject.texts() {
                    if plant.assemblies.contains_key(&*text.text) {
                        self.assembly(text, by);
                    } else if plant.modules.contains_key(&*text.text) {
                        self.module(text, by);
                    }
                }
            }
            Body::LotReconciliation(body) => {
                let all = body.disposition.iter().flat_map(|state| &state.modules);
                all.for_each(|id| self.module(id, by));
            }
            _ => {}
        }
    }

    /// All that a material lot went into.
    pub(super) fn material(&mut self, plant: &Plant, lot: &str, period: Period) {
        let users = plant.materials.users(plant.records(), lot);
        for record in users.into_iter().filter(|record| period.holds(record)) {
            match &record.body {
                Body::PleatingRecord(body) => {
                    let mut parts = body
                        .support_layers
                        .iter()
                        .flat_map(|all| all.texts())
                        .chain(&body.core_lot)
                        .chain(&body.cage_lot);
                    let support = parts.any(|used| **used == *lot);
                    for pack in body
                        .packs
                        .iter()
                        .filter(|pack| support || &*pack.material_lot.text == lot)
                    {
                        self.module(&pack.module_id, &record.id);
                    }
                }
                Body::SealRun(_) | Body::AssemblyBuild(_) => self.record(plant, record),
                // Tests of a roll went into nothing.
                _ => {}
            }
        }
    }
}

/// The modules and assemblies that a record has to do with.
pub fn elements(plant: &Plant, record: &Record) -> BTreeSet<String> {
    let mut touched = Touched::default();
    touched.record(plant, record);
    touched
        .modules
        .into_keys()
        .chain(touched.assemblies.into_keys())
        .collect()
}

/// The instruments that a record's readings came from.
pub fn instruments(record: &Record) -> BTreeSet<&str> {
    match &record.body {
        Body::ModuleTest(body) => BTreeSet::from([&*body.test.instrument_id.text]),
        Body::AssemblyTest(body) => BTreeSet::from([&*body.test.instrument_id.text]),
        Body::FlowTest(body) => BTreeSet::from([&*body.instrument_id.text]),
        Body::MembraneTest(body) => body
            .instruments
            .iter()
            .flat_map(|all| all.texts())
            .map(|text| &*text.text)
            .collect(),
        Body::SlittingRecord(body) => body
            .instrument_id
            .iter()
            .chain(&body.instrument)
            .map(|text| &*text.text)
            .collect(),
        Body::SealInspection(body) => body
            .destructive
            .iter()
            .map(|test| &*test.instrument_id.text)
            .collect(),
        Body::SealRun(body) => body.equipment_id.iter().map(|text| &*text.text).collect(),
        Body::PleatingRecord(body) => BTreeSet::from([&*body.pleating_machine.text]),
        Body::MeasurementStudy(body) => body.instrument_id.iter().map(|text| &*text.text).collect(),
        _ => BTreeSet::new(),
    }
}

//! The genealogy: which records speak of which module, assembly, roll and lot.

mod authority;
mod lots;
mod materials;
pub mod recall;
mod retest;
mod ruled;
mod touched;
mod uses;

pub use lots::lots_used;
pub use retest::{Flaw, Test, is_yes};

use std::{collections::BTreeSet, sync::OnceLock};

use crate::{
    ground::index::{Index, ordered},
    record::{
        Record, Records,
        common::Measured,
        folder::Folder,
        kinds::{
            Body,
            assembly_build::AssemblyBuild,
            cycle_log::CycleLog,
            deviation::Deviation,
            lot_reconciliation::Disposition,
            material_lot::MaterialLot,
            pleating_record::{Pack, PleatingRecord},
            release_statement::ReleaseStatement,
            seal_run::SealRun,
        },
    },
};

/// The name of a thing.
pub type Name = Box<str>;

/// One module.
#[derive(Default, Debug)]
pub struct Module {
    /// Pleating record and pack.
    pub pack: Option<(usize, usize)>,
    /// Its tests, in the order of their numbers.
    pub tests: Vec<usize>,
    /// Builds that list it.
    pub builds: Vec<usize>,
    /// Seal runs that list it.
    pub seal_runs: Vec<usize>,
    /// The test that decides, once it was asked for.
    last: OnceLock<Option<usize>>,
}

/// One assembly.
#[derive(Default, Debug)]
pub struct Assembly {
    /// Its build records; one in good order.
    pub builds: Vec<usize>,
    /// Its tests, in order; the last decides.
    pub tests: Vec<usize>,
    /// Cycle logs of the plant.
    pub logs: Vec<usize>,
    /// Release statements that list it, in the order of their ids.
    pub releases: Vec<usize>,
    /// Seal runs that list it.
    pub seal_runs: Vec<usize>,
    /// The test that decides, once it was asked for.
    last: OnceLock<Option<usize>>,
}

/// One lot.
#[derive(Default, Debug)]
pub struct Lot {
    /// Its modules.
    pub modules: BTreeSet<Name>,
    /// The assemblies that hold one of them.
    pub assemblies: BTreeSet<Name>,
    /// Pleating records.
    pub pleatings: Vec<usize>,
}

/// Records and what they say together.
pub struct Plant {
    /// The folder.
    pub folder: Folder,
    /// Modules by id.
    pub modules: Index<Module>,
    /// Assemblies by id.
    pub assemblies: Index<Assembly>,
    /// Lots by id.
    pub lots: Index<Lot>,
    /// Tests and slitting of membrane by roll.
    pub by_roll: Index<Vec<usize>>,
    /// Modules by roll.
    pub cut: Index<Vec<Name>>,
    /// Inspections by seal run.
    pub inspections: Index<Vec<usize>>,
    /// Deviations by every text of their subject.
    deviations: Index<Vec<usize>>,
    /// Reconciliation and disposition of modules.
    disposed: Index<Vec<(usize, usize)>>,
    /// Records by the material lots that they speak of.
    materials: materials::Materials,
    /// Records by the instruments, persons, elements and lots that they speak of.
    uses: uses::Uses,
}

impl Plant {
    /// Puts the records of a folder into relation.
    pub fn new(folder: Folder) -> Plant {
        let mut plant = Plant {
            materials: materials::Materials::of(&folder.records),
            uses: uses::Uses::of(&folder.records),
            folder,
            modules: Index::new(),
            assemblies: Index::new(),
            lots: Index::new(),
            inspections: Index::new(),
            by_roll: Index::new(),
            cut: Index::new(),
            deviations: Index::new(),
            disposed: Index::new(),
        };
        let (mut deviations, mut disposed) = (
            Index::<Vec<usize>>::new(),
            Index::<Vec<(usize, usize)>>::new(),
        );
        let (mut modules, mut assemblies) = (Index::<Module>::new(), Index::<Assembly>::new());
        let (mut lots, mut inspections) = (Index::<Lot>::new(), Index::<Vec<usize>>::new());
        let (mut by_roll, mut cut) = (Index::<Vec<usize>>::new(), Index::<Vec<Name>>::new());
        let records = &plant.folder.records;
        for (index, record) in records
            .all
            .iter()
            .enumerate()
            .filter(|(_, record)| records.is_current(record))
        {
            match &record.body {
                Body::PleatingRecord(body) => {
                    let lot = lots.entry(body.lot_id.text.clone()).or_default();
                    lot.pleatings.push(index);
                    for (i, pack) in body.packs.iter().enumerate() {
                        lot.modules.insert(pack.module_id.text.clone());
                        modules
                            .entry(pack.module_id.text.clone())
                            .or_default()
                            .pack
                            .get_or_insert((index, i));
                    }
                }
                Body::ModuleTest(body) => modules
                    .entry(body.head.module_id.text.clone())
                    .or_default()
                    .tests
                    .push(index),
                Body::AssemblyTest(body) => assemblies
                    .entry(body.head.assembly_id.text.clone())
                    .or_default()
                    .tests
                    .push(index),
                Body::AssemblyBuild(body) => {
                    assemblies
                        .entry(body.assembly_id.text.clone())
                        .or_default()
                        .builds
                        .push(index);
                    for position in &body.modules {
                        modules
                            .entry(position.module_id.text.clone())
                            .or_default()
                            .builds
                            .push(index);
                    }
                }
                Body::CycleLog(body) => assemblies
                    .entry(body.assembly_id.text.clone())
                    .or_default()
                    .logs
                    .push(index),
                Body::ReleaseStatement(body) => {
                    for id in &body.object.assemblies {
                        assemblies
                            .entry(id.text.clone())
                            .or_default()
                            .releases
                            .push(index);
                    }
                }
                Body::Deviation(body) => {
                    let named: BTreeSet<&str> =
                        body.subject.texts().map(|text| &*text.text).collect();
                    for id in named {
                        deviations.entry(id.into()).or_default().push(index);
                    }
                }
                Body::LotReconciliation(body) => {
                    for (i, state) in body.disposition.iter().enumerate() {
                        for id in &state.modules {
                            disposed
                                .entry(id.text.clone())
                                .or_default()
                                .push((index, i));
                        }
                    }
                }
                Body::MembraneTest(body) => by_roll
                    .entry(body.material_lot.text.clone())
                    .or_default()
                    .push(index),
                Body::SlittingRecord(body) => by_roll
                    .entry(body.material_lot.text.clone())
                    .or_default()
                    .push(index),
                Body::SealInspection(body) => inspections
                    .entry(body.seal_run.text.clone())
                    .or_default()
                    .push(index),
                _ => {}
            }
        }
        // A sealed item is whichever of the two the other records know it as.
        for (index, record) in records
            .all
            .iter()
            .enumerate()
            .filter(|(_, record)| records.is_current(record))
        {
            let Body::SealRun(body) = &record.body else {
                continue;
            };
            for item in body.items.iter() {
                if let Some(assembly) = assemblies.get_mut(&*item.item.text) {
                    assembly.seal_runs.push(index);
                } else {
                    modules
                        .entry(item.item.text.clone())
                        .or_default()
                        .seal_runs
                        .push(index);
                }
            }
        }
        let (mut modules, mut assemblies) = (ordered(modules), ordered(assemblies));
        let order = |index: &usize| {
            let record = records.at(*index);
            let test = Test::of(record);
            let joined = test.is_some_and(|test| test.stage != Some("joined_modules"));
            (
                joined,
                test.map(|test| test.test.test_number.value),
                record.happened(),
            )
        };
        modules
            .values_mut()
            .for_each(|module| module.tests.sort_by_key(order));
        for (id, assembly) in &mut assemblies {
            assembly.tests.sort_by_key(order);
            assembly
                .releases
                .sort_by_key(|index| &records.at(*index).id.text);
            assembly.releases.dedup();
            for index in &assembly.builds {
                let Body::AssemblyBuild(build) = &records.at(*index).body else {
                    continue;
                };
                for position in &build.modules {
                    let pack = modules
                        .get(&*position.module_id.text)
                        .and_then(|module| module.pack);
                    if let Some((pleating, _)) = pack
                        && let Body::PleatingRecord(body) = &records.at(pleating).body
                    {
                        lots.entry(body.lot_id.text.clone())
                            .or_default()
                            .assemblies
                            .insert(id.clone());
                    }
                }
            }
        }
        for (id, module) in &modules {
            if let Some((index, pack)) = module.pack
                && let Body::PleatingRecord(body) = &records.at(index).body
                && let Some(pack) = body.packs.get(pack)
            {
                cut.entry(pack.material_lot.text.clone())
                    .or_default()
                    .push(id.clone());
            }
        }
        plant.by_roll = ordered(by_roll);
        plant.cut = ordered(cut);
        plant.modules = modules;
        plant.assemblies = assemblies;
        plant.lots = ordered(lots);
        plant.inspections = ordered(inspections);
        deviations
            .values_mut()
            .for_each(|own| own.sort_by_key(|index| &records.at(*index).id.text));
        plant.deviations = ordered(deviations);
        plant.disposed = ordered(disposed);
        plant
    }

    /// The records.
    pub fn records(&self) -> &Records {
        &self.folder.records
    }

    /// A record by its index.
    pub fn record(&self, index: usize) -> &Record {
        self.records().at(index)
    }

    /// Every current record with its index.
    pub fn indexed(&self) -> impl Iterator<Item = (usize, &Record)> {
        self.records()
            .all
            .iter()
            .enumerate()
            .filter(|(_, record)| self.records().is_current(record))
    }

    /// Every test of an element.
    pub fn tests(&self) -> impl Iterator<Item = Test<'_>> {
        self.records()
            .of_kind("module_test")
            .chain(self.records().of_kind("assembly_test"))
            .filter_map(Test::of)
    }

    /// The test that decides about an element: the last one, retests that do not count left out.
    pub fn last_test(&self, element: &str) -> Option<Test<'_>> {
        let module = self.modules.get(element);
        let (tests, last) = match module.map(|module| (&module.tests, &module.last)) {
            Some(own) => own,
            None => {
                let assembly = self.assemblies.get(element)?;
                (&assembly.tests, &assembly.last)
            }
        };
        let found = last.get_or_init(|| {
            let all = tests.iter().copied();
            let counts = |index: &usize| {
                let test = Test::of(self.record(*index));
                test.is_some_and(|test| self.retest_flaws(&test).is_empty())
            };
            all.clone().rev().find(counts).or(all.clone().next())
        });
        found.and_then(|index| Test::of(self.record(index)))
    }

    /// The build of an assembly.
    pub fn build(&self, assembly: &str) -> Option<(&Record, &AssemblyBuild)> {
        let record = self.record(*self.assemblies.get(assembly)?.builds.last()?);
        match &record.body {
            Body::AssemblyBuild(body) => Some((record, body)),
            _ => None,
        }
    }

    /// The pack of a module.
    pub fn pack(&self, module: &str) -> Option<(&Record, &PleatingRecord, &Pack)> {
        let (index, pack) = self.modules.get(module)?.pack?;
        let record = self.record(index);
        match &record.body {
            Body::PleatingRecord(body) => Some((record, body, body.packs.get(pack)?)),
            _ => None,
        }
    }

    /// The lot of a module or assembly.
    pub fn lot_of(&self, element: &str) -> Option<&str> {
        if let Some((_, pleating, _)) = self.pack(element) {
            return Some(&pleating.lot_id);
        }
        let (_, build) = self.build(element)?;
        build
            .modules
            .iter()
            .find_map(|position| self.pack(&position.module_id))
            .map(|(_, pleating, _)| &*pleating.lot_id)
    }

    /// A material lot.
    pub fn material(&self, id: &str) -> Option<(&Record, &MaterialLot)> {
        let record = self.records().find("material_lot", id)?;
        match &record.body {
            Body::MaterialLot(body) => Some((record, body)),
            _ => None,
        }
    }

    /// The modules cut from a roll, in the order of their ids.
    pub fn modules_of_roll<'a>(
        &'a self,
        lot: &'a str,
    ) -> impl Iterator<Item = (&'a str, &'a Pack)> {
        let ids = self.cut.get(lot).map(|ids| &ids[..]).unwrap_or_default();
        ids.iter()
            .filter_map(|id| self.pack(id).map(|(_, _, pack)| (&**id, pack)))
    }

    /// The assemblies that hold a module.
    pub fn assemblies_of(&self, module: &str) -> Vec<&str> {
        let builds = self
            .modules
            .get(module)
            .map(|module| &module.builds[..])
            .unwrap_or_default();
        let mut ids: Vec<&str> = builds
            .iter()
            .filter_map(|index| match &self.record(*index).body {
                Body::AssemblyBuild(body) => Some(&*body.assembly_id.text),
                _ => None,
            })
            .collect();
        ids.dedup();
        ids
    }

    /// The deviations that name something, in the order of their ids.
    pub fn deviations_about<'a>(
        &'a self,
        id: &str,
    ) -> impl Iterator<Item = (&'a Record, &'a Deviation)> + use<'a> {
        let own = self
            .deviations
            .get(id)
            .map(|own| &own[..])
            .unwrap_or_default();
        own.iter().filter_map(|index| {
            let record = self.record(*index);
            match &record.body {
                Body::Deviation(body) => Some((record, &**body)),
                _ => None,
            }
        })
    }

    /// What reconciliations say of a module.
    pub fn disposed<'a>(
        &'a self,
        module: &str,
    ) -> impl Iterator<Item = (&'a Record, &'a Disposition)> {
        let own = self
            .disposed
            .get(module)
            .map(|own| &own[..])
            .unwrap_or_default();
        own.iter().filter_map(|(index, state)| {
            let record = self.record(*index);
            match &record.body {
                Body::LotReconciliation(body) => Some((record, body.disposition.get(*state)?)),
                _ => None,
            }
        })
    }

    /// The release statements, in the order of their ids.
    pub fn releases(&self) -> impl Iterator<Item = (&Record, &ReleaseStatement)> {
        self.records().release_statements()
    }

    /// The release statements that list an assembly, in the order of their ids.
    pub fn releases_of<'a>(
        &'a self,
        assembly: &str,
    ) -> impl Iterator<Item = (&'a Record, &'a ReleaseStatement)> {
        let own = self
            .assemblies
            .get(assembly)
            .map(|assembly| &assembly.releases[..])
            .unwrap_or_default();
        own.iter()
            .filter_map(|index| match &self.record(*index).body {
                Body::ReleaseStatement(body) => Some((self.record(*index), &**body)),
                _ => None,
            })
    }

    /// Every assembly that a release statement of this folder lists.
    pub fn released(&self) -> BTreeSet<&str> {
        self.releases()
            .flat_map(|(_, release)| release.object.assemblies.iter().map(|id| &*id.text))
            .collect()
    }

    /// The cycle logs of an assembly.
    pub fn logs<'a>(&'a self, assembly: &str) -> impl Iterator<Item = (&'a Record, &'a CycleLog)> {
        let logs = self
            .assemblies
            .get(assembly)
            .map(|assembly| &assembly.logs[..])
            .unwrap_or_default();
        logs.iter()
            .filter_map(|index| match &self.record(*index).body {
                Body::CycleLog(body) => Some((self.record(*index), &**body)),
                _ => None,
            })
    }

    /// A seal run.
    pub fn seal_run(&self, id: &str) -> Option<(&Record, &SealRun)> {
        let record = self.records().find("seal_run", id)?;
        match &record.body {
            Body::SealRun(body) => Some((record, body)),
            _ => None,
        }
    }

    /// The instrument that a record's readings of a quantity came from.
    pub fn instrument<'a>(
        &self,
        record: &'a Record,
        quantity: Measured,
    ) -> Option<&'a crate::record::read::Text> {
        match &record.body {
            Body::ModuleTest(body) => Some(&body.test.instrument_id),
            Body::AssemblyTest(body) => Some(&body.test.instrument_id),
            Body::SlittingRecord(body) => body.instrument_id.as_ref().or(body.instrument.as_ref()),
            Body::FlowTest(body) => Some(&body.instrument_id),
            Body::SealInspection(body) => body.destructive.as_ref().map(|test| &test.instrument_id),
            Body::MembraneTest(body) => {
                let key = match quantity {
                    Measured::BubblePoint => "pressure",
                    Measured::Thickness => "thickness",
                    _ => "water_flux",
                };
                let all = body.instruments.as_ref()?;
                all.get(key).or_else(|| all.get(quantity.word()))
            }
            _ => None,
        }
    }
}

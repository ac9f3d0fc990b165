//! Where everything is that has to do with one thing: a roll, a supplier lot, a material lot, an
//! instrument, a run of seals, a person, a lot or one element.

use std::collections::{BTreeMap, BTreeSet};

pub use super::touched::{elements, instruments};
use super::{Plant, touched::Touched};
use crate::{
    ground::{finding::Severity, time::Date},
    record::{
        Record,
        kinds::{Body, deviation::Decision},
    },
};

/// Days between which a record must lie to count; open where absent.
#[derive(Copy, Clone, Default, Debug)]
pub struct Period {
    /// The first day.
    pub from: Option<Date>,
    /// The last day, included.
    pub to: Option<Date>,
}

impl Period {
    /// Whether a record lies inside; one without a day does, to be on the safe side.
    pub(super) fn holds(&self, record: &Record) -> bool {
        record.day().is_none_or(|day| {
            self.from.is_none_or(|from| day >= from) && self.to.is_none_or(|to| day <= to)
        })
    }

    /// In words; empty for all time.
    pub fn words(&self) -> String {
        match (self.from, self.to) {
            (None, None) => String::new(),
            (Some(from), None) => say!("from {from} on", from = from),
            (None, Some(to)) => say!("until {to}", to = to),
            (Some(from), Some(to)) => say!("from {from} to {to}", from = from, to = to),
        }
    }
}

/// To whom something went.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Consignee {
    /// The customer's id.
    pub customer: String,
    /// The customer's name.
    pub name: String,
    /// The dispatch note; empty where none is recorded.
    pub dispatch_note: String,
    /// The release statement.
    pub release: String,
}

impl Consignee {
    /// In one phrase.
    pub fn words(&self) -> String {
        match &*self.dispatch_note {
            "" => format!("{}, {}", self.customer, self.name),
            note => say!(
                "{customer}, {name}, dispatch note {note}",
                customer = self.customer,
                name = self.name,
                note = note
            ),
        }
    }
}

/// To whom an assembly was consigned, by the release statement that lists it.
pub fn consignee(plant: &Plant, assembly: &str) -> Option<Consignee> {
    let (record, release) = plant.releases_of(assembly).next()?;
    let text = |key: &str| {
        release
            .customer
            .get(key)
            .map_or(String::new(), |text| text.to_string())
    };
    let note = release
        .consignment
        .as_ref()
        .and_then(|all| all.get("dispatch_note"));
    Some(Consignee {
        customer: text("customer_id"),
        name: text("name"),
        dispatch_note: note.map_or(String::new(), |note| note.to_string()),
        release: record.id.to_string(),
    })
}

/// Where a thing is now.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Whereabouts {
    /// Listed in a release statement for a customer.
    Consigned(Consignee),
    /// Held or rejected by a deviation that was decided.
    Kept(&'static str, String),
    /// As the reconciliation of the lot says: the state, and the place where one is named.
    Stated(String, String),
    /// Built, and nothing says where it went.
    InStock,
    /// Nothing says where it is.
    Unknown,
}

impl Whereabouts {
    /// One word for totals.
    pub fn word(&self) -> String {
        match self {
            Whereabouts::Consigned(to) => say!("consigned to {customer}", customer = to.customer),
            Whereabouts::Kept(word, _) => (*word).to_owned(),
            Whereabouts::Stated(word, _) => word.replace('_', " "),
            Whereabouts::InStock => say!("in stock").into(),
            Whereabouts::Unknown => say!("whereabouts not recorded").into(),
        }
    }

    /// In full.
    pub fn words(&self) -> String {
        match self {
            Whereabouts::Consigned(to) => say!("consigned to {to}", to = to.words()),
            Whereabouts::Kept(word, deviation) => {
                say!("{word} by {deviation}", word = word, deviation = deviation)
            }
            Whereabouts::Stated(_, place) if !place.is_empty() => {
                format!("{}, {place}", self.word())
            }
            other => other.word(),
        }
    }
}

/// One module that is affected.
#[derive(Clone, Debug)]
pub struct AffectedModule {
    /// Its id.
    pub id: String,
    /// By which record.
    pub because: String,
    /// Metres of the roll in question, where one is.
    pub metres: Option<f64>,
    /// The assembly that holds it.
    pub assembly: Option<String>,
    /// Where it is; an assembly's is its own.
    pub state: Whereabouts,
}

/// One assembly that is affected.
#[derive(Clone, Debug)]
pub struct AffectedAssembly {
    /// Its id.
    pub id: String,
    /// By its modules, or by which record.
    pub because: String,
    /// Where it is.
    pub state: Whereabouts,
    /// Where the plant that uses it fitted it, when it says so.
    pub in_service: Option<String>,
}

/// Metres of rolls: what came, what went into modules, and what reconciliations say of the rest.
#[derive(Copy, Clone, Debug, Default)]
pub struct Metres {
    /// Received.
    pub received: f64,
    /// Cut into the modules that are listed.
    pub cut: f64,
    /// Tested and trimmed, over all lots; nothing where no reconciliation says.
    pub trimmed: Option<f64>,
    /// Left after the last lot.
    pub left: Option<f64>,
}

impl Metres {
    /// In one sentence.
    pub fn words(&self) -> String {
        let one = |metres: f64| crate::ground::number::fixed(metres, 1);
        let rest = match (self.trimmed, self.left) {
            (Some(trimmed), Some(left)) => say!(
                " {trimmed} m were tested or trimmed and {left} m are left, as the reconciliations say.",
                trimmed = one(trimmed),
                left = one(left)
            ),
            _ => say!(" No reconciliation says what was trimmed and what is left.").into(),
        };
        say!(
            "{received} m received, {cut} m in these modules.{rest}",
            received = one(self.received),
            cut = one(self.cut),
            rest = rest
        )
    }
}

/// Everything that is affected by one thing.
#[derive(Clone, Debug)]
pub struct Recall {
    /// The id asked for.
    pub about: String,
    /// What it is.
    pub what: &'static str,
    /// Modules, in the order of their ids.
    pub modules: Vec<AffectedModule>,
    /// Assemblies, in the order of their ids.
    pub assemblies: Vec<AffectedAssembly>,
    /// Metres of a roll, or of all rolls of a supplier lot.
    pub metres: Option<Metres>,
    /// Where totals do not agree with each other, in words.
    pub disagreements: Vec<String>,
}

/// What is affected by a thing in a period; nothing when the records do not know it.
pub fn recall(plant: &Plant, about: &str, period: Period) -> Option<Recall> {
    let mut touched = Touched::default();
    let mut rolls: BTreeSet<&str> = BTreeSet::new();
    let is_roll = |id: &str| {
        plant
            .material(id)
            .is_some_and(|(_, lot)| &*lot.material_type.text == "membrane_roll")
    };
    let of_supplier: Vec<&str> = plant
        .materials
        .of_supplier(about)
        .iter()
        .map(|id| &**id)
        .collect();
    let what = if let Some((record, _)) = plant.material(about) {
        touched.material(plant, about, period);
        match is_roll(&record.id) {
            true => {
                rolls.insert(&record.id);
                say!("roll")
            }
            false => say!("material lot"),
        }
    } else if !of_supplier.is_empty() {
        for lot in &of_supplier {
            touched.material(plant, lot, period);
        }
        rolls.extend(of_supplier.iter().filter(|lot| is_roll(lot)));
        say!("supplier lot")
    } else if let Some((run, _)) = plant.seal_run(about) {
        touched.record(plant, run);
        say!("run of seals")
    } else if plant.assemblies.contains_key(about) {
        touched.assembly(about, about);
        say!("assembly")
    } else if plant.modules.contains_key(about) {
        touched.module(about, about);
        say!("module")
    } else if let Some(lot) = plant.lots.get(about) {
        lot.modules
            .iter()
            .for_each(|module| touched.module(module, about));
        say!("lot")
    } else {
        let used = plant.uses.instruments.get(about);
        let own = plant.uses.persons.get(about);
        for index in used.into_iter().chain(own).flatten() {
            let record = plant.record(*index);
            if period.holds(record) {
                touched.record(plant, record);
            }
        }
        let machine = |index: &usize| {
            let kind = plant.record(*index).kind;
            matches!(kind, "seal_run" | "pleating_record")
        };
        match (used, own) {
            (Some(used), _) if used.iter().all(machine) => say!("machine"),
            (Some(_), _) => say!("instrument"),
            (None, Some(_)) => say!("person"),
            (None, None) => named(plant, about, period, &mut touched)?,
        }
    };
    Some(found(plant, about, what, touched, &rolls))
}

/// What a customer received, or what any other record has to do with; nothing where the id says nothing of any element.
fn named(
    plant: &Plant,
    about: &str,
    period: Period,
    touched: &mut Touched,
) -> Option<&'static str> {
    let theirs = plant.releases().filter(|(record, release)| {
        let customer = release.customer.get("customer_id");
        customer.is_some_and(|customer| **customer == *about) && period.holds(record)
    });
    for (record, release) in theirs {
        for assembly in &release.object.assemblies {
            touched.assembly(assembly, &record.id);
        }
    }
    if !touched.assemblies.is_empty() {
        return Some(say!("customer"));
    }
    let own = plant.records().current();
    for record in own.filter(|record| *record.id.text == *about) {
        match &record.body {
            // A calibration concerns whatever its instrument measured.
            Body::CalibrationRecord(body) => {
                let used = plant.uses.instruments.get(&*body.instrument_id.text);
                let used = used.into_iter().flatten().map(|index| plant.record(*index));
                used.filter(|record| period.holds(record))
                    .for_each(|record| touched.record(plant, record));
            }
            Body::ReleaseStatement(body) => {
                let all = body.object.assemblies.iter();
                all.for_each(|id| touched.assembly(id, about));
            }
            _ => touched.record(plant, record),
        }
    }
    (!touched.modules.is_empty() || !touched.assemblies.is_empty()).then(|| say!("record"))
}

fn found(
    plant: &Plant,
    about: &str,
    what: &'static str,
    mut touched: Touched,
    rolls: &BTreeSet<&str>,
) -> Recall {
    // An element is affected as a whole: it cannot be used in part.
    let mut by_modules: BTreeMap<String, Vec<&str>> = BTreeMap::new();
    for module in touched.modules.keys() {
        for assembly in plant.assemblies_of(module) {
            by_modules
                .entry(assembly.to_owned())
                .or_default()
                .push(module);
        }
    }
    for (assembly, modules) in by_modules {
        touched
            .assemblies
            .entry(assembly)
            .or_default()
            .insert(say!("contains {modules}", modules = modules.join(", ")));
    }
    let modules: Vec<AffectedModule> = touched
        .modules
        .iter()
        .map(|(id, by)| {
            let assembly = plant.assemblies_of(id).first().map(|id| (*id).to_owned());
            let metres = plant
                .pack(id)
                .filter(|(_, _, pack)| rolls.contains(&*pack.material_lot.text))
                .map(|(_, _, pack)| pack.to.si - pack.from.si);
            AffectedModule {
                id: id.clone(),
                because: reasons(by),
                metres,
                state: match &assembly {
                    Some(assembly) => of_assembly(plant, assembly),
                    None => of_module(plant, id),
                },
                assembly,
            }
        })
        .collect();
    let assemblies: Vec<AffectedAssembly> = touched
        .assemblies
        .iter()
        .map(|(id, by)| AffectedAssembly {
            id: id.clone(),
            because: reasons(by),
            state: of_assembly(plant, id),
            in_service: plant.logs(id).last().map(|(_, log)| {
                let words: Vec<&str> = log.site.texts().map(|text| &**text).collect();
                words.join(", ")
            }),
        })
        .collect();
    let received: f64 = rolls
        .iter()
        .filter_map(|roll| plant.material(roll))
        .map(|(_, lot)| lot.quantity_received.si)
        .sum();
    let own = modules.iter().filter_map(|module| module.metres);
    // From zero on: a sum over nothing would be a negative zero.
    let cut = own.fold(0.0, |sum, metres| sum + metres);
    let mut out = Recall {
        about: about.to_owned(),
        what,
        metres: (!rolls.is_empty()).then(|| metres(plant, rolls, received, cut)),
        disagreements: Vec::new(),
        modules,
        assemblies,
    };
    out.disagreements = disagreements(plant, &out, rolls);
    out
}

/// The records that say so, the first few by name.
fn reasons(by: &BTreeSet<String>) -> String {
    let named: Vec<&str> = by.iter().take(4).map(|id| &**id).collect();
    match by.len() - named.len() {
        0 => named.join(", "),
        more => say!(
            "{named} and {more} more",
            named = named.join(", "),
            more = more
        ),
    }
}

/// What reconciliations say of rolls beside what was cut.
fn metres(plant: &Plant, rolls: &BTreeSet<&str>, received: f64, cut: f64) -> Metres {
    let mut out = Metres {
        received,
        cut,
        trimmed: None,
        left: None,
    };
    for roll in rolls {
        let mut balances: Vec<_> = plant
            .materials
            .balances(plant.records(), &BTreeSet::from([*roll]))
            .into_iter()
            .flat_map(|(record, body)| {
                body.roll_balance
                    .iter()
                    .map(move |balance| (record.happened(), balance))
            })
            .filter(|(_, balance)| &*balance.material_lot.text == *roll)
            .collect();
        balances.sort_by_key(|(when, _)| *when);
        let Some((_, last)) = balances.last() else {
            // One roll without a balance leaves the rest of all unknown.
            return Metres {
                trimmed: None,
                left: None,
                ..out
            };
        };
        let trimmed: f64 = balances
            .iter()
            .map(|(_, balance)| balance.test_and_trim.si)
            .sum();
        out.trimmed = Some(out.trimmed.unwrap_or(0.0) + trimmed);
        out.left = Some(out.left.unwrap_or(0.0) + last.remaining.si);
    }
    out
}

/// Where an assembly is.
fn of_assembly(plant: &Plant, id: &str) -> Whereabouts {
    if let Some(to) = consignee(plant, id) {
        return Whereabouts::Consigned(to);
    }
    let kept =
        plant
            .deviations_about(id)
            .find_map(|(record, deviation)| match deviation.decision {
                Some(Decision::Hold) => Some(Whereabouts::Kept("held", record.id.to_string())),
                Some(Decision::Reject) => {
                    Some(Whereabouts::Kept("rejected", record.id.to_string()))
                }
                _ => None,
            });
    kept.unwrap_or(match plant.build(id) {
        Some(_) => Whereabouts::InStock,
        None => Whereabouts::Unknown,
    })
}

/// Where a module is that stands in no assembly.
fn of_module(plant: &Plant, id: &str) -> Whereabouts {
    let stated = plant.disposed(id).map(|(_, state)| state).next();
    match stated {
        Some(state) => Whereabouts::Stated(
            state.state.word().to_owned(),
            state
                .location
                .as_ref()
                .map_or(String::new(), |place| place.to_string()),
        ),
        None => Whereabouts::Unknown,
    }
}

/// Totals that must agree: metres of the roll, places of the modules.
fn disagreements(plant: &Plant, recall: &Recall, rolls: &BTreeSet<&str>) -> Vec<String> {
    let mut out = Vec::new();
    let unread = plant
        .folder
        .problems
        .iter()
        .filter(|problem| problem.severity == Severity::Blocks)
        .count();
    if unread > 0 {
        out.push(say!(
            "{n} things of this folder cannot be read (`sealfolio review` names them), and what stands in them is missing here",
            n = unread
        ));
    }
    if let Some(metres) = recall.metres {
        if metres.cut > metres.received + 1e-9 {
            out.push(say!(
                "{cut} m were cut from {received} m received",
                cut = format_args!("{:.1}", metres.cut),
                received = format_args!("{:.1}", metres.received)
            ));
        }
        // Of a period or a part of the lots only some modules are listed; the roll as a whole adds up.
        let all: f64 = rolls
            .iter()
            .flat_map(|roll| plant.modules_of_roll(roll))
            .map(|(_, pack)| pack.to.si - pack.from.si)
            .sum();
        if let (Some(trimmed), Some(left)) = (metres.trimmed, metres.left)
            && (all + trimmed + left - metres.received).abs() > 0.05 * rolls.len() as f64
        {
            out.push(say!("{all} m in modules, {trimmed} m trimmed and {left} m left are not the {received} m received", all = format_args!("{:.1}", all), trimmed = format_args!("{:.1}", trimmed), left = format_args!("{:.1}", left), received = format_args!("{:.1}", metres.received)));
        }
    }
    for (record, body) in plant.materials.balances(plant.records(), rolls) {
        for balance in body
            .roll_balance
            .iter()
            .filter(|balance| rolls.contains(&*balance.material_lot.text))
        {
            let cut: f64 = plant
                .modules_of_roll(&balance.material_lot)
                .filter(|(module, _)| plant.lot_of(module) == Some(&*body.lot_id.text))
                .map(|(_, pack)| pack.to.si - pack.from.si)
                .sum();
            if (cut - balance.used_in_this_lot.si).abs() > 0.05 {
                out.push(say!("{about}: {id} says that {used_in_this_lot} of {material_lot} went into {lot_id}, and its packs add up to {cut} m", about = recall.about, id = &*record.id, used_in_this_lot = balance.used_in_this_lot.text, material_lot = &*balance.material_lot, lot_id = &*body.lot_id, cut = format_args!("{:.1}", cut)));
            }
        }
    }
    for module in recall
        .modules
        .iter()
        .filter(|module| module.state == Whereabouts::Unknown)
    {
        out.push(say!("nothing says where {id} is", id = module.id));
    }
    for module in &recall.modules {
        let all = plant.assemblies_of(&module.id);
        if all.len() > 1 {
            out.push(say!(
                "{id} stands in {all}",
                id = module.id,
                all = all.join(say!(" and "))
            ));
        }
    }
    out
}

impl Recall {
    /// How many modules and assemblies are in each place.
    pub fn totals(&self) -> (BTreeMap<String, usize>, BTreeMap<String, usize>) {
        let mut totals = (BTreeMap::new(), BTreeMap::new());
        for module in &self.modules {
            let place = match &module.assembly {
                Some(_) => say!("in assemblies, {state}", state = module.state.word()),
                None => module.state.word(),
            };
            *totals.0.entry(place).or_insert(0) += 1;
        }
        for assembly in &self.assemblies {
            *totals.1.entry(assembly.state.word()).or_insert(0) += 1;
        }
        totals
    }

    /// What to say where nobody must be told.
    pub fn nobody_told(&self) -> &'static str {
        match self.modules.is_empty() && self.assemblies.is_empty() {
            true => say!(
                "No record says what it went into: whether anything of it was used is not known here."
            ),
            false => say!("Nothing of it was consigned: nobody outside need be told."),
        }
    }

    /// Who must be told, each once.
    pub fn told(&self) -> BTreeSet<Consignee> {
        let one = |assembly: &AffectedAssembly| match &assembly.state {
            Whereabouts::Consigned(to) => Some(to.clone()),
            _ => None,
        };
        self.assemblies.iter().filter_map(one).collect()
    }
}

//! One figure in the order of production, over lots and, where history is given, over dossiers.

pub mod analysis;
pub mod groups;
pub mod past;

use std::collections::{BTreeMap, BTreeSet};

use rayon::prelude::*;

use analysis::{Analysis, LEAST};
use groups::{By, Comparison};

use crate::{
    figure::{Computed, Figure, FigureId},
    graph::Graph,
    ground::{name::capital, number, quantity::Quantity, time::Time, words},
    plant::{Plant, Test},
    record::{
        Record,
        common::Measured,
        kinds::{Body, product_specification::Stage},
    },
    stats::capability::Limits,
    verdict::Verdict,
};

/// Figures that are followed in time.
pub const FOLLOWED: &[&str] = &[
    "bubble-point",
    "bubble-point-drop",
    "diffusive-flow",
    "join-residual",
    "membrane-bubble-point",
    "membrane-thickness",
    "membrane-water-flux",
    "peel-force",
    "slit-width",
];

/// Whether a value takes part in what is said of the series.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Standing {
    /// It does.
    Counts,
    /// It was measured again; the later test counts.
    Repeated,
    /// It is a repeated test that was not accepted; the one before it counts.
    NotAccepted,
    /// A deviation about this very record knows its cause: it sets no limits of control. It counts for all else.
    Explained(String),
}

/// One value of a series.
#[derive(Clone, Debug)]
pub struct Member {
    /// The figure that it is.
    pub id: FigureId,
    /// When the thing was made, or tested where nothing says when it was made.
    pub when: Option<Time>,
    /// Its place among things made at one time.
    pub place: usize,
    /// When it was tested.
    pub tested: Option<Time>,
    /// What it is of.
    pub of: String,
    /// As printed.
    pub shown: String,
    /// In SI.
    pub value: f64,
    /// Standard uncertainty, in SI.
    pub u: f64,
    /// What was decided.
    pub verdict: Verdict,
    /// Whether it counts.
    pub standing: Standing,
    /// Lot, roll, rig, machine, person: whatever is recorded.
    pub by: By,
    /// Which of the older dossiers it comes from; nothing for this one.
    pub past: Option<usize>,
}

/// What a series is of. Two gases, two lengths or two revisions of limits are two series.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Key {
    /// The figure.
    pub figure: &'static str,
    /// Modules, assemblies of a length, rolls.
    pub of: String,
    /// The product.
    pub product: String,
    /// The gas, where one was used.
    pub gas: String,
    /// When in the course of making it was tested, where there is more than one such test.
    pub stage: String,
    /// The limit it is held against, as laid down.
    pub limit: String,
}

/// A series with its limits.
#[derive(Clone)]
pub struct Series {
    /// What it is of.
    pub key: Key,
    /// The definition of its figure.
    pub figure: &'static Figure,
    /// Its values in order of production.
    pub members: Vec<Member>,
    /// The limit of each value.
    pub limits: Limits,
    /// Control limits that were laid down beforehand.
    pub frozen: Option<Frozen>,
    /// Days on which an instrument of the series was calibrated, with its name.
    pub calibrated: Vec<(Time, String)>,
}

/// Control limits of earlier data, laid down in the specification.
#[derive(Clone, Debug)]
pub struct Frozen {
    /// Centre, in SI.
    pub centre: f64,
    /// Lower and upper limit, in SI.
    pub band: (f64, f64),
    /// The day since when they hold: what was made before it is of the past that they came from, or earlier.
    pub since: crate::ground::time::Date,
    /// Since when and on what.
    pub basis: String,
    /// Where it is laid down.
    pub at: crate::ground::place::Place,
}

impl Frozen {
    /// One standard deviation, of which the limits are three either side.
    pub fn sigma(&self) -> f64 {
        (self.band.1 - self.band.0) / 6.0
    }
}

/// How the key of a series of assemblies begins; keys are in English, because older dossiers are
/// matched by them.
const OF_LENGTH: &str = "of assemblies of ";

impl Series {
    /// The member at an index that this series gave out.
    #[expect(
        clippy::indexing_slicing,
        reason = "who has an index has it from counting these members, and none is taken away"
    )]
    pub fn member(&self, index: usize) -> &Member {
        &self.members[index]
    }

    /// A name that tells it from every other.
    pub fn title(&self) -> String {
        let name = match self.figure.name {
            "Bubble point of an element" => say!("Bubble point"),
            name => say!(name),
        };
        let of = match self.key.of.strip_prefix(OF_LENGTH) {
            Some(length) => say!("of assemblies of {length}", length = say!(length)),
            None => say!(&self.key.of).to_owned(),
        };
        format!("{name} {of}, {product}", product = say!(&self.key.product))
    }

    /// What tells it from others of the same name.
    pub fn conditions(&self) -> String {
        let Key {
            gas, stage, limit, ..
        } = &self.key;
        let gas = match &**gas {
            "" => String::new(),
            gas => say!("in {gas}", gas = gas),
        };
        let all = [stage.clone(), gas, words::local(limit)];
        all.into_iter()
            .filter(|word| !word.is_empty())
            .collect::<Vec<_>>()
            .join(", ")
    }

    /// Values that count, with their index among all.
    pub fn counting(&self) -> impl Iterator<Item = (usize, &Member)> {
        self.members.iter().enumerate().filter(|(_, member)| {
            matches!(member.standing, Standing::Counts | Standing::Explained(_))
        })
    }

    /// Values that set limits: those that count and that no deviation explains.
    pub fn setting(&self) -> impl Iterator<Item = (usize, &Member)> {
        self.counting()
            .filter(|(_, member)| member.standing == Standing::Counts)
    }
}

/// When a thing was made, and its place among those made with it.
fn made(plant: &Plant, record: &Record) -> (Option<Time>, usize) {
    let element = Test::of(record).map(|test| test.element);
    if let Some((pleated, body, pack)) = element.and_then(|id| plant.pack(id)) {
        let place = body.packs.iter().position(|one| std::ptr::eq(one, pack));
        return (pleated.happened(), place.unwrap_or(0));
    }
    if let Some((built, _)) = element.and_then(|id| plant.build(id)) {
        return (built.happened(), 0);
    }
    (record.happened(), 0)
}

/// What a value may be grouped by.
fn origins(plant: &Plant, record: &Record, figure: &Figure) -> By {
    let mut by: Vec<(&'static str, Box<str>)> = Vec::new();
    let mut put = |name: &'static str, value: Option<&str>| {
        if let Some(value) = value {
            by.push((name, value.into()));
        }
    };
    let spec = plant.spec_of(record);
    let spec = spec.map(|(record, _)| {
        say!(
            "{id} revision {revision}",
            id = &*record.id,
            revision = record.revision
        )
    });
    put("specification", spec.as_deref());
    put("operator", record.recorded_by.as_deref());
    if let Some(quantity) = figure.quantity {
        put(
            "station",
            plant.instrument(record, quantity).map(|id| &**id),
        );
    }
    match &record.body {
        Body::MembraneTest(body) => put("roll", Some(&body.material_lot)),
        Body::SlittingRecord(body) => put("roll", Some(&body.material_lot)),
        Body::SealInspection(body) => put("seal run", Some(&body.seal_run)),
        _ => {}
    }
    if let Some(test) = Test::of(record) {
        put("station", Some(&test.test.instrument_id));
        put("lot", plant.lot_of(test.element));
        if let Some((_, body, pack)) = plant.pack(test.element) {
            put("roll", Some(&pack.material_lot));
            put("pleating machine", Some(&body.pleating_machine));
        }
        let rolls: BTreeSet<&str> = plant
            .build(test.element)
            .into_iter()
            .flat_map(|(_, build)| build.modules.iter())
            .filter_map(|position| plant.pack(&position.module_id))
            .map(|(_, _, pack)| &*pack.material_lot.text)
            .collect();
        if rolls.len() == 1 {
            put("roll", rolls.first().copied());
        }
    }
    by.into_iter().collect()
}

/// The quantity that a figure is measured as.
fn measured_as(figure: &Figure) -> Option<Measured> {
    match figure.id {
        "join-residual" => Some(Measured::DiffusiveFlow),
        "bubble-point-drop" => Some(Measured::BubblePoint),
        _ => figure.quantity,
    }
}

/// Whether a test is the last accepted one of its element, at its stage, that measured the quantity.
fn of_tests(plant: &Plant, test: &Test, figure: &Figure) -> Standing {
    let indices = match test.assembly {
        true => plant.assemblies.get(test.element).map(|own| &own.tests),
        false => plant.modules.get(test.element).map(|own| &own.tests),
    };
    let accepted = |other: &Test| plant.retest_flaws(other).is_empty();
    if !accepted(test) {
        return Standing::NotAccepted;
    }
    let later = indices
        .into_iter()
        .flatten()
        .filter_map(|index| Test::of(plant.record(*index)))
        .any(|other| {
            other.stage == test.stage
                && other.test.test_number.value > test.test.test_number.value
                && measured_as(figure).is_none_or(|quantity| other.measurement(quantity).is_some())
                && accepted(&other)
        });
    match later {
        true => Standing::Repeated,
        false => Standing::Counts,
    }
}

fn standing(plant: &Plant, record: &Record, computed: &Computed) -> Standing {
    if let Some(test) = Test::of(record) {
        let standing = of_tests(plant, &test, computed.figure);
        if standing != Standing::Counts {
            return standing;
        }
    }
    // What conforms needs no explanation.
    if matches!(computed.verdict(), Verdict::Conforms | Verdict::NoLimit) {
        return Standing::Counts;
    }
    // A deviation about the element, or one that does not know the cause, explains no value.
    let known = plant.settled(&record.id).find(|(_, deviation)| {
        let cause = deviation
            .cause
            .as_ref()
            .and_then(|cause| cause.get("known"));
        cause.is_some_and(|known| crate::plant::is_yes(known))
    });
    match known {
        Some((deviation, _)) => Standing::Explained(deviation.id.to_string()),
        None => Standing::Counts,
    }
}

fn key(plant: &Plant, record: &Record, computed: &Computed) -> Key {
    let test = Test::of(record);
    let of = match &test {
        Some(test) if test.assembly => {
            let length = plant
                .build(test.element)
                .map_or(word!("unknown length"), |(_, build)| {
                    &build.nominal_length.text
                });
            // A bubble point is that of the weakest module, however many there are.
            match computed.figure.id.starts_with("bubble-point") {
                true => word!("of assemblies").to_owned(),
                false => format!("{OF_LENGTH}{length}"),
            }
        }
        Some(_) => word!("of modules").to_owned(),
        None => match &record.body {
            Body::SealInspection(_) => word!("of seal runs").to_owned(),
            _ => word!("of rolls").to_owned(),
        },
    };
    let gas = test
        .and_then(|test| {
            test.measurement(computed.figure.quantity?)?
                .test_gas
                .as_ref()
        })
        .map_or(String::new(), |gas| gas.to_string());
    let product = plant
        .spec_of(record)
        .map_or(word!("all products").to_owned(), |(_, spec)| {
            spec.product_code.to_string()
        });
    let limit = computed.judgement.as_ref().map(|judged| &judged.limit.text);
    Key {
        figure: computed.figure.id,
        of,
        product,
        gas,
        stage: test
            .and_then(|test| test.stage)
            .map_or(String::new(), |stage| stage.replace('_', " ")),
        // The limit of a join residual is its own uncertainty: it is another for each.
        limit: match computed.figure.id {
            "join-residual" => String::new(),
            _ => limit.map_or(String::new(), |limit| words::neutral(limit)),
        },
    }
}

fn frozen(plant: &Plant, record: &Record, figure: &Figure, of: &str) -> Option<Frozen> {
    let (spec_record, spec) = plant.spec_of(record)?;
    let quantity: Measured = figure.quantity?;
    let stage = match &record.body {
        Body::MembraneTest(_) => Stage::Membrane,
        Body::SlittingRecord(_) => Stage::Slit,
        Body::SealInspection(_) => Stage::Seal,
        Body::ModuleTest(_) => Stage::Module,
        Body::AssemblyTest(_) => Stage::Assembly,
        _ => return None,
    };
    let laid = spec.control_limits.iter().find(|limits| {
        limits.stage == stage
            && limits.quantity == quantity
            && limits
                .assembly_length
                .as_ref()
                .is_none_or(|length| of == format!("{OF_LENGTH}{}", length.text))
    })?;
    if laid.lower.unit.dim != figure.unit.dim
        || laid.upper.unit.dim != figure.unit.dim
        || laid.upper.si <= laid.lower.si
    {
        return None;
    }
    Some(Frozen {
        centre: (laid.lower.si + laid.upper.si) / 2.0,
        band: (laid.lower.si, laid.upper.si),
        since: laid.frozen_on.date,
        basis: say!(
            "frozen {date}: {basis}",
            date = laid.frozen_on.date,
            basis = &*laid.basis
        ),
        at: spec_record.at(laid.spot),
    })
}

/// All series of a plant.
pub fn all(plant: &Plant, graph: &Graph) -> Vec<Series> {
    let followed: Vec<(&Computed, &Quantity)> = graph
        .computed
        .values()
        .filter(|computed| FOLLOWED.contains(&computed.id.figure))
        .filter_map(|computed| Some((&**computed, computed.quantity()?)))
        .collect();
    let one = |(computed, quantity): &(&Computed, &Quantity)| {
        let record = plant.record(computed.subject.record);
        let key = key(plant, record, computed);
        let laid = frozen(plant, record, computed.figure, &key.of);
        (key, laid, member(plant, record, computed, quantity))
    };
    // Some at a time: keys and limits are dropped as soon as their series is known.
    let members = followed
        .chunks(4096)
        .flat_map(|some| some.par_iter().map(one).collect::<Vec<_>>());
    let mut found: BTreeMap<Key, Series> = BTreeMap::new();
    for ((computed, _), (key, laid, member)) in followed.iter().zip(members) {
        let series = found.entry(key.clone()).or_insert_with(|| Series {
            frozen: None,
            key,
            figure: computed.figure,
            members: Vec::new(),
            limits: Limits {
                lower: computed
                    .judgement
                    .as_ref()
                    .and_then(|judged| judged.limit.low),
                upper: computed
                    .judgement
                    .as_ref()
                    .and_then(|judged| judged.limit.high),
            },
            calibrated: Vec::new(),
        });
        // Of several revisions that lay limits down, the latest.
        if let Some(laid) = laid
            && series
                .frozen
                .as_ref()
                .is_none_or(|own| own.since < laid.since)
        {
            series.frozen = Some(laid);
        }
        series.members.push(member);
    }
    let mut all: Vec<Series> = found.into_values().collect();
    for series in &mut all {
        series.members.shrink_to_fit();
        order(series);
        series.calibrated = calibrations(plant, series);
    }
    all
}

/// Puts the values of a series into order of production.
pub fn order(series: &mut Series) {
    series
        .members
        .sort_by(|a, b| (a.when, a.place, &a.of, &a.id).cmp(&(b.when, b.place, &b.of, &b.id)));
}

fn member(plant: &Plant, record: &Record, computed: &Computed, quantity: &Quantity) -> Member {
    let (when, place) = made(plant, record);
    Member {
        id: computed.id.clone(),
        when,
        place,
        of: Test::of(record).map_or(record.id.to_string(), |test| test.element.to_owned()),
        shown: computed.shown(),
        value: quantity.value,
        u: quantity.u(),
        verdict: computed.verdict(),
        standing: standing(plant, record, computed),
        tested: record.happened(),
        by: origins(plant, record, computed.figure),
        past: None,
    }
}

fn calibrations(plant: &Plant, series: &Series) -> Vec<(Time, String)> {
    let stations: BTreeSet<&str> = series
        .members
        .iter()
        .filter_map(|member| member.by.get("station"))
        .collect();
    let mut all: Vec<(Time, String)> = stations
        .into_iter()
        .flat_map(|station| {
            plant
                .calibrations(station)
                .into_iter()
                .map(|(_, body)| (body.calibration_performed_at.time, station.to_owned()))
        })
        .collect();
    all.sort();
    all
}

/// What a series says, in one line.
pub fn sentence(analysis: &Analysis, comparisons: &[Comparison]) -> String {
    let n = analysis.values.len();
    let aside = match analysis.set_aside {
        0 => String::new(),
        1 => say!(" (1 more with a known cause set aside)").into(),
        k => say!(" ({k} more with known causes set aside)", k = k),
    };
    let mut said = Vec::new();
    if let Some(control) = &analysis.control {
        said.push(match control.beyond.len() {
            0 => say!(
                "all {n} values within the control limits{aside}",
                n = n,
                aside = aside
            ),
            k => say!(
                "{k} of {n} values beyond the control limits{aside}",
                k = k,
                n = n,
                aside = aside
            ),
        });
    }
    if n < LEAST {
        let values = if n == 1 {
            say!("1 value").into()
        } else {
            say!("{n} values", n = n)
        };
        said.push(say!(
            "{values}: too few to speak of limits or drift; {what} are needed",
            values = values,
            what = LEAST
        ));
        return format!("{}.", capital(&said.join("; ")));
    }
    if analysis.control.is_none() {
        said.push(say!(
            "{n} values without control limits{aside}",
            n = n,
            aside = aside
        ));
    }
    said.push(match analysis.drifts() {
        true => say!("a drift or a shift stands out").into(),
        false => say!("no drift stands out").into(),
    });
    let differ: Vec<&str> = comparisons
        .iter()
        .filter(|comparison| comparison.differs())
        .map(|comparison| comparison.by)
        .collect();
    if !differ.is_empty() {
        said.push(say!("it differs by {differ}", differ = differ.join(", ")));
    }
    if let Some(Ok(capability)) = &analysis.capability {
        said.push(say!(
            "Ppk {nearest} (at least {proven} with 95 % confidence)",
            nearest = number::fixed(capability.indices.nearest, 2),
            proven = number::fixed(capability.proven, 2)
        ));
    }
    format!("{}.", capital(&said.join("; ")))
}

//! What a figure is, and the graph that computes all of them.

pub mod changed;
mod computed;

pub use computed::{Computed, Origin, Term, Worked};

use std::{
    collections::BTreeMap,
    fmt,
    ops::{Add, Div, Mul, Sub},
    sync::Arc,
};

use crate::{
    formula::{Bindings, Expr, Variable},
    ground::{
        name::safe,
        number,
        place::{Place, Spot},
        quantity::{Cause, Quantity},
        unit::{self, Dim, Unit},
        words,
    },
    plant::{Plant, Test},
    record::{
        Record,
        common::{Measured, Said},
        kinds::{
            flow_test::Occasion,
            product_specification::{ProductSpecification, Stage},
        },
        read::Q,
    },
    verdict::{Decision, Limit, limit_text},
};

/// A formula over inputs.
pub type Formula = Expr<Input>;

/// The one place where a figure is defined.
///
/// Held by tests over the whole table: the identity is the file's name with hyphens; the formula's
/// dimension is the unit's; no two inputs share a symbol; the worked example comes out to the last
/// printed digit and notices every slip of the pen; no figure stands on itself.
pub struct Figure {
    /// Stable identity: part of every address of the figure, so it never changes.
    pub id: &'static str,
    /// As a heading.
    pub name: &'static str,
    /// The letter it goes by.
    pub symbol: &'static str,
    /// The unit it is printed in.
    pub unit: Unit,
    /// The quantity under which a specification lists its limit and its uncertainty contributions.
    pub quantity: Option<Measured>,
    /// What it means, in Markdown.
    pub about: &'static str,
    /// When it holds and when it is refused, in Markdown.
    pub validity: &'static str,
    /// Where the formula comes from.
    pub sources: &'static [&'static str],
    /// For what it is computed.
    pub subjects: fn(&Plant) -> Vec<Subject>,
    /// The formula; its inputs are found by walking it.
    pub formula: fn() -> Formula,
    /// The limit it is held against; the reason in words when there should be one and is not.
    pub limit: fn(&Scope) -> Result<Option<Limit>, String>,
    /// Refuses numbers for which the formula does not hold; the reason in words.
    pub check: Check,
    /// What an instrument or a person reported for it.
    pub reported: fn(&Scope) -> Option<ReportedValue>,
    /// An example worked by hand: printed on the figure's page and checked by a test.
    pub example: Example,
}

/// A worked example.
pub struct Example {
    /// Input, value and standard uncertainty (an independent cause each).
    pub given: &'static [(Input, &'static str, &'static str)],
    /// The printed result.
    pub gives: &'static str,
}

/// One input of a formula.
#[derive(Copy, Clone)]
pub struct Input {
    /// The letter it goes by; unique in its formula.
    pub symbol: &'static str,
    /// What it is, as the end of "where x is …".
    pub what: &'static str,
    /// The unit it is printed in.
    pub unit: Unit,
    /// Where its number comes from.
    pub from: From,
}

/// Looks at the numbers before they are used; the reason in words when the formula does not hold.
pub type Check = fn(&[(Input, Quantity)]) -> Result<(), String>;

/// Figures of subjects, each with its definition; the reason in words when there are none.
pub type Judged = Result<Vec<(&'static Figure, Subject)>, String>;

/// Values drawn from records; the reason in words when there are none.
pub type Drawn = Result<Vec<Datum>, String>;

/// Where the number of an input comes from.
#[derive(Copy, Clone)]
#[allow(missing_docs)]
pub enum From {
    /// Picked from the records by a typed function.
    Records(fn(&Scope) -> Drawn),
    /// An unknown error whose best estimate is zero; its standard uncertainty is the contribution
    /// of this source in the specification.
    Doubt(&'static str),
    /// A number laid down here, in the input's unit, with its standard uncertainty.
    Constant {
        value: f64,
        u: f64,
        source: &'static str,
    },
    /// The room of judged figures to their limits, in standard uncertainties; those without a
    /// guarded limit or a number are left out.
    Margins(fn(&Scope) -> Judged),
    /// Other figures, of the subjects that the function names.
    Figures(&'static Figure, fn(&Scope) -> Result<Vec<Subject>, String>),
}

impl fmt::Debug for Input {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.symbol)
    }
}

/// Inputs are told apart by their symbols.
impl PartialEq for Input {
    fn eq(&self, other: &Input) -> bool {
        // Mostly the very same text: one address says so sooner than its letters.
        std::ptr::eq(self.symbol, other.symbol) || self.symbol == other.symbol
    }
}

impl Variable for Input {
    fn symbol(self) -> &'static str {
        self.symbol
    }
    fn dim(self) -> Dim {
        self.unit.dim
    }
}

impl std::convert::From<Input> for Formula {
    fn from(input: Input) -> Formula {
        Expr::Var(input)
    }
}

macro_rules! operators {
    ($($trait:ident $method:ident),*) => {$(
        impl<R: Into<Formula>> $trait<R> for Input {
            type Output = Formula;
            fn $method(self, right: R) -> Formula {
                Formula::from(self).$method(right)
            }
        }
        impl $trait<Input> for f64 {
            type Output = Formula;
            fn $method(self, right: Input) -> Formula {
                Formula::from(self).$method(right)
            }
        }
    )*};
}
operators!(Add add, Sub sub, Mul mul, Div div);

/// One value with where it stands.
#[derive(Clone, Debug)]
pub struct Datum {
    /// In SI.
    pub si: f64,
    /// Standard uncertainty stated beside it, in SI.
    pub u: Option<f64>,
    /// What the uncertainty comes from. Values of one cause and one place share their error.
    pub cause: &'static str,
    /// Degrees of freedom of an uncertainty that was found from scatter; nothing where it was stated.
    pub degrees: Option<u64>,
    /// As written.
    pub text: String,
    /// Where.
    pub at: Place,
    /// What else shares its error, such as an instrument; nothing where it is this place alone.
    pub shared: Option<String>,
}

/// The cause of an uncertainty that a record states beside a value.
pub const STATED: &str = word!("stated with the value");

impl Datum {
    /// A quantity of a record.
    pub fn of<M>(record: &Record, q: &Q<M>) -> Datum {
        Datum {
            si: q.si,
            u: q.u,
            cause: STATED,
            degrees: None,
            text: q.text.to_string(),
            at: record.at(q.spot),
            shared: None,
        }
    }

    /// An unknown error, best estimated as zero, whose standard uncertainty is known from scatter.
    pub fn scatter(cause: &'static str, u: f64, degrees: u64, text: String, at: Place) -> Datum {
        Datum {
            si: 0.0,
            u: Some(u),
            cause,
            degrees: Some(degrees),
            text,
            at,
            shared: None,
        }
    }

    /// A pure number of a record.
    pub fn count(record: &Record, value: f64, text: &str, spot: Spot) -> Datum {
        Datum {
            si: value,
            u: None,
            cause: STATED,
            degrees: None,
            text: text.to_owned(),
            at: record.at(spot),
            shared: None,
        }
    }
}

/// What a figure is computed for: a record, or a part of one.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Subject {
    /// Index of the record.
    pub record: usize,
    /// Which part; empty for the whole.
    pub part: String,
}

/// Where a figure looks for its inputs.
pub struct Scope<'a> {
    /// The plant.
    pub plant: &'a Plant,
    /// The record.
    pub record: &'a Record,
    /// Which part of it; empty for the whole.
    pub part: &'a str,
}

impl<'a> Scope<'a> {
    /// The specification that rules the record.
    pub fn spec(&self) -> Result<(&'a Record, &'a ProductSpecification), String> {
        self.plant
            .spec_of(self.record)
            .ok_or_else(|| say!("no product_specification rules this record").to_owned())
    }

    /// The decision rule of that specification; guarded acceptance by one U where none rules.
    pub fn decision(&self) -> Decision {
        self.spec()
            .map_or(Decision::Guarded(1.0), |(_, spec)| spec.decision())
    }

    /// The record as a test of an element.
    pub fn test(&self) -> Result<Test<'a>, String> {
        Test::of(self.record).ok_or_else(|| say!("this record is no test of an element").to_owned())
    }

    /// The stage at which limits count for this record.
    pub fn stage(&self) -> Option<Stage> {
        match self.record.kind {
            "membrane_test" => Some(Stage::Membrane),
            "slitting_record" => Some(Stage::Slit),
            "pleating_record" => Some(Stage::PleatPack),
            "seal_inspection" => Some(Stage::Seal),
            "module_test" => Some(Stage::Module),
            "assembly_test" | "assembly_build" => Some(Stage::Assembly),
            "cycle_log" => Some(Stage::InService),
            "flow_test" => match &self.record.body {
                // What is new is held against the limit of its kind; what was used, against that in service.
                crate::record::kinds::Body::FlowTest(body) if body.stage == Occasion::New => {
                    let whole = self.plant.assemblies.contains_key(&*body.element_id.text);
                    Some(if whole {
                        Stage::Assembly
                    } else {
                        Stage::Module
                    })
                }
                _ => Some(Stage::InService),
            },
            _ => None,
        }
    }

    /// How many modules the tested element has.
    pub fn module_count(&self) -> Option<usize> {
        let element = match &self.record.body {
            crate::record::kinds::Body::FlowTest(body) => &*body.element_id.text,
            _ => Test::of(self.record)?.element,
        };
        match self.plant.assemblies.contains_key(element) {
            false => Some(1),
            true => self
                .plant
                .build(element)
                .map(|(_, build)| build.modules.len()),
        }
    }
}

/// The limit of the specification for a quantity at the record's stage.
pub fn limit_of_specification(scope: &Scope, quantity: Measured) -> Result<Option<Limit>, String> {
    let (record, spec) = scope.spec()?;
    limit_in(scope, record, spec, quantity)
}

/// The same of a specification that is named.
pub fn limit_in(
    scope: &Scope,
    record: &Record,
    spec: &ProductSpecification,
    quantity: Measured,
) -> Result<Option<Limit>, String> {
    let Some(accepted) = scope.stage().and_then(|stage| spec.limit(stage, quantity)) else {
        return Ok(None);
    };
    let demand = &accepted.limit;
    if demand.unit.dim != dimension(quantity) {
        return Err(say!(
            "the limit {demand} of {quantity} is of another kind of quantity",
            demand = demand.text,
            quantity = quantity.word()
        ));
    }
    let times = match demand.per_module {
        false => 1.0,
        true => scope.module_count().ok_or(say!(
            "no assembly_build says how many modules the assembly has"
        ))? as f64,
    };
    let (low, high) = (
        demand.low.map(|x| x * times),
        demand.high.map(|x| x * times),
    );
    Ok(Some(Limit {
        low,
        high,
        text: match demand.per_module {
            // As it was laid down, last zeros included.
            false => words::spelt(&demand.text)
                .replace(demand.unit.symbol, demand.unit.print)
                .replace(">=", "≥")
                .replace("<=", "≤")
                .replace("..", say!("to")),
            true => limit_text(low, high, demand.unit),
        },
        at: Some(record.at(demand.spot)),
        decision: spec.decision(),
    }))
}

/// The dimension in which a quantity's limit must be written.
pub fn dimension(quantity: Measured) -> Dim {
    match quantity {
        Measured::DiffusiveFlow | Measured::WaterFlow | Measured::JoinResidual => unit::FLOW,
        Measured::BubblePoint => unit::PRESSURE,
        Measured::Thickness | Measured::SlitWidth | Measured::Straightness => unit::LENGTH,
        Measured::WaterFlux => unit::FLUX,
        Measured::PeelForce => unit::TENSION,
        Measured::JointPullForce => unit::FORCE,
        Measured::PleatCount | Measured::LogReduction | Measured::FlowRecovery => Dim::NONE,
        Measured::HoldTime | Measured::F0 => unit::TIME,
    }
}

/// No limit: the figure is only reported.
pub fn no_limit(_: &Scope) -> Result<Option<Limit>, String> {
    Ok(None)
}

/// The formula holds for every number that it can be computed for.
pub fn always(_: &[(Input, Quantity)]) -> Result<(), String> {
    Ok(())
}

/// Every measurement of a quantity in the tests of a kind of element.
pub fn measured_in(plant: &Plant, quantity: Measured, assemblies_only: bool) -> Vec<Subject> {
    let measured = |(record, body): (usize, &Record)| {
        let test = Test::of(body)?;
        test.measurement(quantity)
            .filter(|_| test.assembly || !assemblies_only)?;
        Some(Subject {
            record,
            part: String::new(),
        })
    };
    plant.indexed().filter_map(measured).collect()
}

/// Nobody reports it.
pub fn nothing_reported(_: &Scope) -> Option<ReportedValue> {
    None
}

/// What an instrument or a person reported.
#[derive(Clone, Debug)]
pub struct ReportedValue {
    /// In SI.
    pub si: f64,
    /// As written.
    pub text: String,
    /// The reported verdict.
    pub verdict: Option<Said>,
    /// Where.
    pub at: Place,
}

/// The identity of one computed number: which figure, of what.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct FigureId {
    /// [`Figure::id`].
    pub figure: &'static str,
    /// The record's id.
    pub record: Arc<str>,
    /// Which part of it; empty for the whole.
    pub part: Arc<str>,
}

impl FigureId {
    /// The anchor in HTML: lower case letters, digits and hyphens; the same from one compile to
    /// the next.
    pub fn anchor(&self) -> String {
        match &*self.part {
            "" => format!("{}--{}", self.figure, safe(&self.record)),
            part => format!("{}--{}--{}", self.figure, safe(&self.record), safe(part)),
        }
    }
}

impl fmt::Display for FigureId {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}@{}", self.figure, self.record)?;
        match &*self.part {
            "" => Ok(()),
            part => write!(f, "/{part}"),
        }
    }
}

impl Figure {
    /// Value, uncertainty by cause and sensitivities for numbers input by input; zero for readings in series without doubt.
    ///
    /// # Errors
    /// In words: which part has no number.
    pub fn evaluate(
        &self,
        formula: &Formula,
        given: &[(Input, Quantity)],
    ) -> Result<(Quantity, Vec<f64>), String> {
        let bound = Bindings::new(given.iter().map(|(input, q)| (*input, q.value)));
        let read = |input: &Input| matches!(input.from, From::Records(_));
        let asked = given.chunk_by(|a, b| a.0 == b.0).flat_map(|own| {
            let (one, all) = (own.len() == 1, own.iter());
            all.map(move |(input, q)| one || !read(input) || !q.shares.is_empty())
        });
        let slopes = formula.eval(&bound.asking(asked))?;
        let inputs = slopes.by.iter().copied().zip(given.iter().map(|(_, q)| q));
        let steep = slopes.by.iter().zip(given);
        let mut steep = steep.filter(|(slope, (_, q))| !slope.is_finite() && !q.shares.is_empty());
        if let Some((_, (input, _))) = steep.next() {
            return Err(say!(
                "the uncertainty of {input} cannot be carried through: the formula has no slope there",
                input = input.symbol
            ));
        }
        let quantity = Quantity::propagate(slopes.value, self.unit.dim, inputs);
        Ok((quantity, slopes.by))
    }

    /// What the second order adds to the value, in SI (JCGM 100:2008, 5.1.2, note): half of the second difference over
    /// one standard uncertainty of each cause; nothing of a cause in whose inputs the formula is linear.
    ///
    /// # Errors
    /// In words: a formula that does not hold one u away.
    pub fn second_order(formula: &Formula, given: &[(Input, Quantity)]) -> Result<f64, String> {
        // By how much a cause moves which values.
        let mut causes: BTreeMap<&Cause, Vec<(usize, f64)>> = BTreeMap::new();
        for (i, (_, quantity)) in given.iter().enumerate() {
            for (cause, share) in &quantity.shares {
                causes.entry(cause).or_default().push((i, share));
            }
        }
        let moves = |moved: &[(usize, f64)], input: &Input| {
            let mut own = moved.iter().filter_map(|(i, _)| given.get(*i));
            own.any(|(other, _)| other == input)
        };
        causes.retain(|_, moved| formula.bends(&|input| moves(moved, &input)));
        if causes.is_empty() {
            return Ok(0.0);
        }
        let mut bound = Bindings::new(given.iter().map(|(input, q)| (*input, q.value)));
        let centre = formula.value(&bound)?;
        let mut total = 0.0;
        for moved in causes.values() {
            let mut ends = 0.0;
            // The last of the three puts everything back.
            for z in [1.0, -1.0, 0.0] {
                for (i, share) in moved {
                    let value = given.get(*i).map_or(0.0, |(_, q)| q.value);
                    bound.put(*i, value + z * share);
                }
                if z != 0.0 {
                    ends += formula.value(&bound)?;
                }
            }
            total += ends / 2.0 - centre;
        }
        Ok(total)
    }

    /// The inputs of the worked example, with an independent cause for each uncertainty.
    ///
    /// # Errors
    /// In words, when a number of the example cannot be read.
    pub fn example_inputs(&self) -> Result<Vec<(Input, Quantity)>, String> {
        let mut given = Vec::new();
        for (i, (input, value, u)) in self.example.given.iter().enumerate() {
            let read = |text: &str| match number::parse(text) {
                Ok(n) => Ok((n, &crate::ground::unit::ONE)),
                Err(_) => number::parse_with_unit(text),
            };
            let (value, unit) = read(value)?;
            let (u, u_unit) = read(u)?;
            let cause = Cause {
                name: input.symbol.into(),
                of: i.to_string(),
                degrees: None,
                study: None,
            };
            let mut quantity = Quantity::exact(unit.to_si(value), unit.dim);
            if u > 0.0 {
                quantity = quantity.with(cause, u * u_unit.factor);
            }
            given.push((*input, quantity));
        }
        Ok(given)
    }

    /// The worked example, computed with a formula and printed.
    ///
    /// # Errors
    /// In words, when the example cannot be computed.
    pub fn work_example(&self, formula: &Formula) -> Result<String, String> {
        let given = self.example_inputs()?;
        Ok(self.evaluate(formula, &given)?.0.show(&self.unit))
    }
}

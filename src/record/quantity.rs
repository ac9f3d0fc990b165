//! Quantities in records: a number, a blank, a unit; and demands on them.

use serde_json::{Value, json};

use super::{
    read::{Read, Reader},
    yaml::{Data, Meaning, Node},
};
use crate::ground::{
    number,
    place::Spot,
    unit::{self, Dim, Pressure, Unit},
};

/// What a quantity field measures: its dimension and what is believable there.
pub trait Measure: std::fmt::Debug + Clone + 'static {
    /// Its dimension.
    const DIM: Dim;
    /// What it is, in words.
    const NAME: &'static str;
    /// Units that people write here, the usual one first.
    const UNITS: &'static [&'static str];
    /// A value as it may stand there.
    const EXAMPLE: &'static str;
    /// The usual one.
    fn usual() -> &'static str {
        Self::UNITS.first().copied().unwrap_or_default()
    }
    /// Smallest and largest believable value, in SI.
    const BELIEVABLE: (f64, f64) = (f64::NEG_INFINITY, f64::INFINITY);
    /// Whether a unit of the right dimension still does not fit, and why.
    fn misfit(_unit: &Unit, _si: f64) -> Option<&'static str> {
        None
    }
}

macro_rules! measures {
    ($($(#[doc = $doc:expr])+ $name:ident: $dim:expr, $words:literal, $units:expr, $example:literal, $low:expr => $high:expr, $misfit:ident;)*) => {$(
        $(#[doc = $doc])+
        #[derive(Debug, Clone)]
        pub struct $name;
        impl Measure for $name {
            const DIM: Dim = $dim;
            const NAME: &'static str = $words;
            const UNITS: &'static [&'static str] = &$units;
            const EXAMPLE: &'static str = $example;
            const BELIEVABLE: (f64, f64) = ($low, $high);
            fn misfit(unit: &Unit, si: f64) -> Option<&'static str> {
                $misfit(unit, si)
            }
        }
    )*

        #[cfg(test)]
        const SHOWN: &[(&str, Dim, (f64, f64))] = &[$(($example, $dim, ($low, $high))),*];
    };
}

fn gauge_only(unit: &Unit, _: f64) -> Option<&'static str> {
    (unit.pressure == Pressure::Absolute).then_some(say!(
        "this field is a gauge pressure or a pressure difference"
    ))
}

fn scale(unit: &Unit, si: f64) -> Option<&'static str> {
    (unit.zero == 0.0 && si < 100.0)
        .then_some(say!("below 100 K: a Celsius value written as kelvin?"))
}

fn difference(unit: &Unit, _: f64) -> Option<&'static str> {
    (unit.zero != 0.0).then_some(say!(
        "this field is a temperature difference; write it in K"
    ))
}

fn anything(_: &Unit, _: f64) -> Option<&'static str> {
    None
}

measures! {
    /// Gauge pressure or a pressure difference.
    Gauge: unit::PRESSURE, "a gauge pressure or a pressure difference", ["mbar", "bar", "kPa"], "1700 mbar", -1.1e5 => 3e6, gauge_only;
    /// Absolute pressure of the room or of a reference state: `mbar` and `mbar_abs` mean the same here.
    Absolute: unit::PRESSURE, "an absolute pressure", ["mbar", "mbar_abs"], "1013 mbar", 5e4 => 1.2e5, anything;
    /// A temperature on a scale.
    Temperature: unit::TEMPERATURE, "a temperature", ["degC"], "21.5 degC", 200.0 => 1500.0, scale;
    /// A temperature difference.
    TemperatureDifference: unit::TEMPERATURE, "a temperature difference", ["K"], "1.5 K", -500.0 => 500.0, difference;
    /// A volume flow of gas at reference conditions, or of liquid.
    Flow: unit::FLOW, "a volume flow", ["mL/min", "L/min", "L/h"], "12.5 mL/min", -1e-3 => 1.0, anything;
    /// A volume flow per membrane area.
    Flux: unit::FLUX, "a flow per area", ["mL/min/cm2"], "35.0 mL/min/cm2", 0.0 => 1.0, anything;
    /// A volume.
    Volume: unit::VOLUME, "a volume", ["L", "mL"], "1.50 L", 0.0 => 100.0, anything;
    /// A length.
    Length: unit::LENGTH, "a length", ["mm", "um", "m", "in"], "10.0 mm", 0.0 => 100.0, anything;
    /// A length along a roll.
    Along: unit::LENGTH, "a length along the roll", ["m", "cm", "mm"], "120.0 m", 0.0 => 1e5, anything;
    /// An area.
    Area: unit::AREA, "an area", ["m2", "cm2"], "0.70 m2", 0.0 => 1e4, anything;
    /// A duration.
    Duration: unit::TIME, "a duration", ["s", "min", "h", "d", "mo", "a"], "300 s", 0.0 => 1e10, anything;
    /// A force.
    Force: unit::FORCE, "a force", ["N"], "45.0 N", 0.0 => 1e6, anything;
    /// A surface tension.
    Tension: unit::TENSION, "a surface tension", ["mN/m"], "72.0 mN/m", 1e-3 => 0.2, anything;
    /// An electrical conductivity.
    Conductivity: unit::CONDUCTIVITY, "a conductivity", ["uS/cm"], "1.5 uS/cm", 0.0 => 100.0, anything;
    /// Organisms.
    Colonies: unit::COLONIES, "a number of organisms", ["CFU"], "2.0e7 CFU", 0.0 => 1e20, anything;
    /// Organisms per area.
    ColoniesPerArea: unit::COLONIES.over(unit::AREA), "organisms per area", ["CFU/cm2"], "1.0e7 CFU/cm2", 0.0 => 1e25, anything;
    /// A mass concentration.
    Concentration: unit::DENSITY, "a concentration", ["mg/L"], "150 mg/L", 0.0 => 1e4, anything;
    /// A coefficient of linear expansion.
    Expansion: unit::PER_TEMPERATURE, "a coefficient of expansion", ["1/K"], "1.5e-4 1/K", -1e-3 => 1e-3, anything;
    /// A share.
    Share: Dim::NONE, "a share", ["%", "1"], "99.5 %", -10.0 => 10.0, anything;
}

/// A measured value as written: number, blank, unit; perhaps with its uncertainty.
#[derive(Debug, Clone)]
pub struct Q<M> {
    /// The value, in SI.
    pub si: f64,
    /// The unit it was written in.
    pub unit: &'static Unit,
    /// The standard uncertainty stated beside it, in SI.
    pub u: Option<f64>,
    /// As written.
    pub text: Box<str>,
    /// Where.
    pub spot: Spot,
    measure: std::marker::PhantomData<M>,
}

/// A quantity with its stated uncertainty: value, unit, standard uncertainty in SI.
///
/// Reads `2.42 bar` and `2.42 bar ± 0.05 bar (k = 2)`.
fn quantity(text: &str) -> Result<(f64, &'static Unit, Option<f64>), String> {
    let Some((value, doubt)) = text.split_once('±') else {
        let (n, unit) = number::parse_with_unit(text)?;
        return Ok((unit.to_si(n), unit, None));
    };
    let (n, unit) = number::parse_with_unit(value)?;
    let (doubt, factor) = doubt.split_once('(').ok_or(say!(
        "an uncertainty needs its coverage factor: ± 0.05 bar (k = 2)"
    ))?;
    let factor = factor
        .trim()
        .trim_end_matches(')')
        .split_once('=')
        .filter(|(k, _)| k.trim() == "k")
        .ok_or(say!("the coverage factor is written (k = 2)"))?;
    let factor = number::parse(factor.1.trim())?;
    let (u, u_unit) = number::parse_with_unit(doubt)?;
    if u_unit.dim != unit.dim || u < 0.0 || factor <= 0.0 || u_unit.zero != 0.0 {
        return Err(say!(
            "the uncertainty is not a positive difference of the same kind as the value"
        )
        .into());
    }
    Ok((unit.to_si(n), unit, Some(u * u_unit.factor / factor)))
}

impl<M: Measure> Read for Q<M> {
    fn read(name: &str, node: &Node, reader: &mut Reader) -> Option<Self> {
        let example = || {
            say!(
                "Write {what} with its unit, such as \"… {what2}\".",
                what = M::NAME,
                what2 = M::usual()
            )
        };
        let Data::Scalar(text, meaning) = &node.data else {
            return reader.refuse_by(
                "R04",
                node.spot,
                say!(
                    "{name} is {node}, and {what} is due",
                    name = name,
                    node = node.words(),
                    what = M::NAME
                ),
                example(),
            );
        };
        if *meaning == Meaning::Number {
            return reader.refuse_by(
                "R04",
                node.spot,
                say!("{name} {what} has no unit", name = name, what = text),
                example(),
            );
        }
        let (si, unit, u) = match quantity(text) {
            Ok(read) => read,
            Err(why) => {
                return reader.refuse_by("R04", node.spot, format!("{name}: {why}"), example());
            }
        };
        if unit.dim != M::DIM {
            return reader.refuse_by(
                "R04",
                node.spot,
                say!(
                    "{name} \"{what}\" is not {what2}",
                    name = name,
                    what = text,
                    what2 = M::NAME
                ),
                example(),
            );
        }
        if let Some(why) = M::misfit(unit, si) {
            return reader.refuse_by(
                "R04",
                node.spot,
                format!("{name} \"{text}\": {why}"),
                example(),
            );
        }
        if !(M::BELIEVABLE.0..=M::BELIEVABLE.1).contains(&si) {
            return reader.refuse_by(
                "R04",
                node.spot,
                say!(
                    "{name} \"{what}\" is not believable for this field",
                    name = name,
                    what = text
                ),
                say!("Check the number and its unit."),
            );
        }
        Some(Q {
            si,
            unit,
            u,
            text: (&**text).into(),
            spot: node.spot,
            measure: std::marker::PhantomData,
        })
    }
    fn schema() -> Value {
        let units: Vec<&str> = unit::UNITS
            .iter()
            .filter(|unit| unit.dim == M::DIM && M::misfit(unit, 293.0).is_none())
            .map(|unit| unit.symbol)
            .collect();
        let alternatives = units.join("|").replace('.', r"\.");
        json!({"type": "string", "pattern": format!(r"^[+-]?\d+(\.\d+)?([eE][+-]?\d+)? ({alternatives})( ± .+ \(k = .+\))?$"), "examples": [M::EXAMPLE]})
    }
}

/// A demand on a quantity: `<= x`, `>= x`, `A .. B`, `target ± tol`, perhaps `per module`.
#[derive(Debug, Clone)]
pub struct Demand {
    /// Least allowed, in SI.
    pub low: Option<f64>,
    /// Most allowed, in SI.
    pub high: Option<f64>,
    /// The unit it was written in.
    pub unit: &'static Unit,
    /// Whether it counts for each module of an assembly.
    pub per_module: bool,
    /// As written.
    pub text: Box<str>,
    /// Where.
    pub spot: Spot,
}

impl Demand {
    /// Reads the text; the reason in words when it cannot.
    pub fn parse(text: &str, spot: Spot) -> Result<Demand, String> {
        let (body, per_module) = match text.trim().strip_suffix("per module") {
            Some(body) => (body.trim(), true),
            None => (text.trim(), false),
        };
        let one = |text: &str| -> Result<(f64, &'static Unit), String> {
            match number::parse(text.trim()) {
                Ok(n) => Ok((n, &unit::ONE)),
                Err(_) => {
                    number::parse_with_unit(text).and_then(|(n, unit)| match gauge_only(unit, n) {
                        None => Ok((unit.to_si(n), unit)),
                        Some(why) => Err(format!("\"{text}\": {why}", text = text.trim())),
                    })
                }
            }
        };
        let (low, high, unit) = if let Some(rest) = body.strip_prefix("<=") {
            let (n, unit) = one(rest)?;
            (None, Some(n), unit)
        } else if let Some(rest) = body.strip_prefix(">=") {
            let (n, unit) = one(rest)?;
            (Some(n), None, unit)
        } else if let Some((a, b)) = body.split_once("..") {
            let (low, unit) = one(a)?;
            let (high, other) = one(b)?;
            if unit.dim != other.dim {
                return Err(say!(
                    "the two ends of \"{what}\" are different kinds of quantity",
                    what = text
                ));
            }
            if low > high {
                return Err(say!(
                    "the interval \"{what}\" ends before it begins",
                    what = text
                ));
            }
            (Some(low), Some(high), unit)
        } else if let Some((target, tolerance)) = body.split_once('±') {
            let (target, unit) = one(target)?;
            let (width, other) = number::parse_with_unit(tolerance)?;
            if unit.dim != other.dim || other.zero != 0.0 || width < 0.0 {
                return Err(say!(
                    "the tolerance of \"{what}\" is not a width of the same kind",
                    what = text
                ));
            }
            (
                Some(target - width * other.factor),
                Some(target + width * other.factor),
                unit,
            )
        } else {
            return Err(say!("\"{what}\" is not a limit", what = text));
        };
        Ok(Demand {
            low,
            high,
            unit,
            per_module,
            text: text.into(),
            spot,
        })
    }

    /// Whether a value lies inside, ends included.
    pub fn holds(&self, si: f64) -> bool {
        // A limit and a value that were written alike may differ in the last bit after conversion.
        let slack = 1e-12 * si.abs();
        self.low.is_none_or(|low| si >= low - slack)
            && self.high.is_none_or(|high| si <= high + slack)
    }
}

impl Read for Demand {
    fn read(name: &str, node: &Node, reader: &mut Reader) -> Option<Self> {
        let text = node.text().unwrap_or("");
        Demand::parse(text, node.spot).map_or_else(
            |why| reader.refuse_by("R04", node.spot, format!("{name}: {why}"), say!("Write \"<= x\", \">= x\", \"A .. B\" or \"target ± tolerance\", each with units.")),
            Some,
        )
    }
    fn schema() -> Value {
        json!({"type": "string", "examples": ["<= 14.0 mL/min", ">= 2.40 bar", "110 um .. 150 um", "52.0 mm ± 0.1 mm"]})
    }
}

/// What a field that takes any dimension counts from.
pub trait Count: std::fmt::Debug + Clone + 'static {
    /// Whether a unit does not fit, and why.
    fn misfit(unit: &Unit) -> Option<&'static str>;
}

/// A measured value: its pressure counts from the room.
#[derive(Debug, Clone)]
pub struct Reading;

/// A width, an error or an uncertainty: it counts from nowhere.
#[derive(Debug, Clone)]
pub struct Width;

/// A point of an instrument's scale, which may begin at vacuum.
#[derive(Debug, Clone)]
pub struct Mark;

impl Count for Reading {
    fn misfit(unit: &Unit) -> Option<&'static str> {
        gauge_only(unit, 0.0)
    }
}

impl Count for Width {
    fn misfit(unit: &Unit) -> Option<&'static str> {
        gauge_only(unit, 0.0).or(difference(unit, 0.0))
    }
}

impl Count for Mark {
    fn misfit(_: &Unit) -> Option<&'static str> {
        None
    }
}

/// A quantity of any dimension: what its field means decides which is right.
#[derive(Debug, Clone)]
pub struct AnyQ<C = Reading> {
    /// The value, in SI (a pure number without a unit is taken as it is).
    pub si: f64,
    /// The unit it was written in.
    pub unit: &'static Unit,
    /// As written.
    pub text: Box<str>,
    /// Where.
    pub spot: Spot,
    count: std::marker::PhantomData<C>,
}

impl<C: Count> Read for AnyQ<C> {
    fn read(name: &str, node: &Node, reader: &mut Reader) -> Option<Self> {
        let text = node.text().unwrap_or("").trim();
        // A force is sometimes stated per strip width, a cycle or a piece: a longer unit first.
        let read = number::parse(text)
            .map(|n| (n, &unit::ONE))
            .or_else(|_| number::parse_with_unit(text))
            .and_then(|(n, unit)| match C::misfit(unit) {
                None => Ok((n, unit)),
                Some(why) => Err(format!("\"{text}\": {why}")),
            });
        match read {
            Ok((n, unit)) => Some(AnyQ {
                si: unit.to_si(n),
                unit,
                text: text.into(),
                spot: node.spot,
                count: std::marker::PhantomData,
            }),
            Err(why) => reader.refuse_by(
                "R04",
                node.spot,
                format!("{name}: {why}"),
                say!("Write a number, a blank and a unit."),
            ),
        }
    }
    fn schema() -> Value {
        json!({"type": ["string", "number"]})
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_a_form_shows_would_be_taken() {
        for (text, dim, (low, high)) in SHOWN {
            let (si, unit, _) = quantity(text).unwrap();
            assert_eq!(unit.dim, *dim, "{text}");
            assert!(si >= *low && si <= *high, "{text}");
        }
    }
}

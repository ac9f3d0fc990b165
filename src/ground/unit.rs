//! Units of measure: a symbol, a factor to the coherent SI unit, a dimension.

use std::fmt;

/// Exponents of metre, kilogram, second, kelvin, mole, ampere and of a counted colony.
///
/// A temperature on a scale and a temperature difference are told apart by [`Unit::zero`]; both
/// have the dimension K. Colony-forming units carry a dimension of their own, so that a count per
/// area cannot be taken for a number per area.
#[derive(Copy, Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Dim(pub [i8; 7]);

impl Dim {
    /// A pure number.
    pub const NONE: Dim = Dim([0; 7]);

    /// The dimension of a product.
    #[expect(
        clippy::indexing_slicing,
        reason = "seven exponents, and the index stays below seven; a const function knows no iterator"
    )]
    pub const fn times(self, other: Dim) -> Dim {
        let mut out = self.0;
        let mut i = 0;
        while i < 7 {
            out[i] += other.0[i];
            i += 1;
        }
        Dim(out)
    }

    /// The dimension of a whole power.
    #[expect(
        clippy::indexing_slicing,
        reason = "seven exponents, and the index stays below seven; a const function knows no iterator"
    )]
    pub const fn power(self, n: i8) -> Dim {
        let mut out = self.0;
        let mut i = 0;
        while i < 7 {
            out[i] *= n;
            i += 1;
        }
        Dim(out)
    }

    /// The dimension of a quotient.
    pub const fn over(self, other: Dim) -> Dim {
        self.times(other.power(-1))
    }
}

impl fmt::Display for Dim {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let names = ["m", "kg", "s", "K", "mol", "A", "CFU"];
        let parts: Vec<String> = names
            .iter()
            .zip(self.0)
            .filter(|(_, power)| *power != 0)
            .map(|(name, power)| match power {
                1 => (*name).to_owned(),
                n => format!("{name}^{n}"),
            })
            .collect();
        f.write_str(if parts.is_empty() {
            "a pure number"
        } else {
            ""
        })?;
        f.write_str(&parts.join("·"))
    }
}

/// A unit: `(n + zero) · factor` is SI; a difference or an uncertainty takes `factor` alone.
#[derive(Copy, Clone, Debug, PartialEq)]
pub struct Unit {
    /// As records write it: `mL/min`.
    pub symbol: &'static str,
    /// As pages print it: `mL/min`, `µm`, `°C`.
    pub print: &'static str,
    /// Its dimension.
    pub dim: Dim,
    /// To the coherent SI unit.
    pub factor: f64,
    /// Added before the factor (273.15 for `degC`).
    pub zero: f64,
    /// Which pressure it means, where it is one.
    pub pressure: Pressure,
}

/// What a pressure unit counts from.
#[derive(Copy, Clone, Debug, PartialEq, Eq)]
pub enum Pressure {
    /// Not a pressure, or one that counts from wherever the field says.
    Plain,
    /// Counts from vacuum.
    Absolute,
}

const M: Dim = Dim([1, 0, 0, 0, 0, 0, 0]);
const KG: Dim = Dim([0, 1, 0, 0, 0, 0, 0]);
const S: Dim = Dim([0, 0, 1, 0, 0, 0, 0]);
/// Temperature.
pub const TEMPERATURE: Dim = Dim([0, 0, 0, 1, 0, 0, 0]);
/// Length.
pub const LENGTH: Dim = M;
/// Area.
pub const AREA: Dim = M.power(2);
/// Volume.
pub const VOLUME: Dim = M.power(3);
/// Duration.
pub const TIME: Dim = S;
/// Force.
pub const FORCE: Dim = KG.times(M).over(S.power(2));
/// Pressure.
pub const PRESSURE: Dim = FORCE.over(AREA);
/// Volume flow.
pub const FLOW: Dim = VOLUME.over(S);
/// Volume flow per area.
pub const FLUX: Dim = M.over(S);
/// Force per length, surface tension.
pub const TENSION: Dim = FORCE.over(M);
/// Mass per volume.
pub const DENSITY: Dim = KG.over(VOLUME);
/// Electrical conductivity (A²·s³·kg⁻¹·m⁻³).
pub const CONDUCTIVITY: Dim = Dim([-3, -1, 3, 0, 0, 2, 0]);
/// Per temperature difference.
pub const PER_TEMPERATURE: Dim = Dim::NONE.over(TEMPERATURE);
/// Dynamic viscosity.
pub const VISCOSITY: Dim = PRESSURE.times(S);
/// Pressure difference per volume flow.
pub const RESISTANCE: Dim = PRESSURE.over(FLOW);
/// Colony-forming units.
pub const COLONIES: Dim = Dim([0, 0, 0, 0, 0, 0, 1]);

const fn unit(symbol: &'static str, print: &'static str, dim: Dim, factor: f64) -> Unit {
    Unit {
        symbol,
        print,
        dim,
        factor,
        zero: 0.0,
        pressure: Pressure::Plain,
    }
}

const fn absolute(symbol: &'static str, print: &'static str, factor: f64) -> Unit {
    Unit {
        symbol,
        print,
        dim: PRESSURE,
        factor,
        zero: 0.0,
        pressure: Pressure::Absolute,
    }
}

macro_rules! units {
    ($($name:ident = $unit:expr;)*) => {
        $(#[doc = concat!("The unit `", stringify!($name), "`.")] pub const $name: Unit = $unit;)*
        /// Every unit that a record may use.
        pub static UNITS: &[Unit] = &[$($name),*];
    };
}

// Factors: The International System of Units (SI Brochure, 9th edition); inch and psi after
// NIST SP 811, appendix B (from memory). A month and a year are Julian twelfths and years.
units! {
    ONE = unit("1", "", Dim::NONE, 1.0);
    PERCENT = unit("%", "%", Dim::NONE, 0.01);
    PPM = unit("ppm", "ppm", Dim::NONE, 1e-6);
    PA = unit("Pa", "Pa", PRESSURE, 1.0);
    KPA = unit("kPa", "kPa", PRESSURE, 1e3);
    MPA = unit("MPa", "MPa", PRESSURE, 1e6);
    MBAR = unit("mbar", "mbar", PRESSURE, 1e2);
    BAR = unit("bar", "bar", PRESSURE, 1e5);
    PSI = unit("psi", "psi", PRESSURE, 6_894.757_293_168);
    PA_ABS = absolute("Pa_abs", "Pa abs.", 1.0);
    KPA_ABS = absolute("kPa_abs", "kPa abs.", 1e3);
    MBAR_ABS = absolute("mbar_abs", "mbar abs.", 1e2);
    BAR_ABS = absolute("bar_abs", "bar abs.", 1e5);
    M3_PER_S = unit("m3/s", "m³/s", FLOW, 1.0);
    ML_PER_MIN = unit("mL/min", "mL/min", FLOW, 1e-6 / 60.0);
    L_PER_MIN = unit("L/min", "L/min", FLOW, 1e-3 / 60.0);
    L_PER_H = unit("L/h", "L/h", FLOW, 1e-3 / 3600.0);
    M3_PER_H = unit("m3/h", "m³/h", FLOW, 1.0 / 3600.0);
    ML_PER_MIN_CM2 = unit("mL/min/cm2", "mL/min/cm²", FLUX, 1e-2 / 60.0);
    ML = unit("mL", "mL", VOLUME, 1e-6);
    L = unit("L", "L", VOLUME, 1e-3);
    M3 = unit("m3", "m³", VOLUME, 1.0);
    UM = unit("um", "µm", LENGTH, 1e-6);
    MM = unit("mm", "mm", LENGTH, 1e-3);
    CM = unit("cm", "cm", LENGTH, 1e-2);
    METRE = unit("m", "m", LENGTH, 1.0);
    INCH = unit("in", "in", LENGTH, 0.0254);
    MM2 = unit("mm2", "mm²", AREA, 1e-6);
    CM2 = unit("cm2", "cm²", AREA, 1e-4);
    M2 = unit("m2", "m²", AREA, 1.0);
    SECOND = unit("s", "s", TIME, 1.0);
    MINUTE = unit("min", "min", TIME, 60.0);
    HOUR = unit("h", "h", TIME, 3600.0);
    DAY = unit("d", "d", TIME, 86_400.0);
    MONTH = unit("mo", "months", TIME, 2_629_800.0);
    YEAR = unit("a", "years", TIME, 31_557_600.0);
    DEGC = Unit { symbol: "degC", print: "°C", dim: TEMPERATURE, factor: 1.0, zero: 273.15, pressure: Pressure::Plain };
    KELVIN = unit("K", "K", TEMPERATURE, 1.0);
    NEWTON = unit("N", "N", FORCE, 1.0);
    N_PER_15MM = unit("N per 15 mm", "N per 15 mm", TENSION, 1.0 / 0.015);
    MN_PER_M = unit("mN/m", "mN/m", TENSION, 1e-3);
    US_PER_CM = unit("uS/cm", "µS/cm", CONDUCTIVITY, 1e-4);
    CFU = unit("CFU", "CFU", COLONIES, 1.0);
    CFU_PER_CM2 = unit("CFU/cm2", "CFU/cm²", COLONIES.over(AREA), 1e4);
    MG_PER_L = unit("mg/L", "mg/L", DENSITY, 1e-3);
    KG_PER_M3 = unit("kg/m3", "kg/m³", DENSITY, 1.0);
    PER_KELVIN = unit("1/K", "1/K", PER_TEMPERATURE, 1.0);
    PIECES = unit("pieces", "pieces", Dim::NONE, 1.0);
    J_PER_MOL_K = unit("J/(mol·K)", "J/(mol·K)", Dim([2, 1, -2, -1, -1, 0, 0]), 1.0);
    MPA_S = unit("mPa·s", "mPa·s", VISCOSITY, 1e-3);
    MBAR_PER_L_MIN = unit("mbar/(L/min)", "mbar/(L/min)", RESISTANCE, 6e6);
    MBAR_PER_L_MIN2 = unit("mbar/(L/min)²", "mbar/(L/min)²", RESISTANCE.over(FLOW), 3.6e11);
    KG_PER_MOL = unit("kg/mol", "kg/mol", Dim([0, 1, 0, 0, -1, 0, 0]), 1.0);
}

impl Unit {
    /// The unit of a symbol as records write it.
    pub fn named(symbol: &str) -> Option<&'static Unit> {
        UNITS.iter().find(|unit| unit.symbol == symbol)
    }

    /// A number on this unit's scale, in SI.
    pub fn to_si(&self, n: f64) -> f64 {
        (n + self.zero) * self.factor
    }

    /// An SI number on this unit's scale.
    pub fn of_si(&self, si: f64) -> f64 {
        si / self.factor - self.zero
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_symbol_stands_twice() {
        for (i, unit) in UNITS.iter().enumerate() {
            assert!(
                UNITS[..i].iter().all(|other| other.symbol != unit.symbol),
                "{}",
                unit.symbol
            );
        }
    }

    #[test]
    fn a_scale_goes_there_and_back() {
        assert_eq!(DEGC.to_si(20.0), 293.15);
        assert!((ML_PER_MIN.of_si(ML_PER_MIN.to_si(8.10)) - 8.10).abs() < 1e-12);
        assert_eq!(Unit::named("psi").map(|unit| unit.dim), Some(PRESSURE));
        assert_eq!(Unit::named("Psi"), None);
    }
}

//! Rows of `figure,inputs,expected,unit,tolerance,source,kind,recheck`.

use std::collections::BTreeMap;

use sealfolio::{
    ground::quantity::{Cause, Quantity},
    ground::unit::Dim,
    metrology::{Ends, Prior, Spread},
    physics::{
        Answer,
        exposure::{self, Rule},
        fluid,
        leak::{Doubts, Jet},
    },
};

use crate::{Outcome, figures, figures::Agreements, laws::figure};

/// Factor to SI of a unit of the check files; degrees Celsius stay, their laws take them.
fn factor(unit: &str) -> Option<f64> {
    Some(match unit {
        "" | "-" | "rel" | "K" | "Pa" | "m" | "m2" | "m3" | "s" | "kg/m3" | "N/m" | "Pa*s"
        | "m2/s" | "mol/(m3*Pa)" | "kg/mol" | "J/mol" | "1/K" | "m3/s" | "Pa*s/m3" | "Pa*s2/m6"
        | "1/m" | "CFU" | "deg" | "degC" | "m/s2" | "log10" | "1/cycle" | "cycle" | "h" | "min"
        | "mg/L" | "mg*h/L" | "min/min" | "PU" | "ln(kH/GPa)" | "ohm" | "V" | "A" | "rad"
        | "mg" | "mm" | "nm" | "um*Pa/(mN/m)" | "um*psi/(mN/m)" | "cm3/mol" | "CFU/cm2" => 1.0,
        "%" => 1e-2,
        "mN/m" => 1e-3,
        "uPa*s" => 1e-6,
        "mPa*s" => 1e-3,
        "bar" => 1e5,
        "mbar" | "hPa" => 100.0,
        "kPa" => 1e3,
        "psi" => sealfolio::ground::unit::PSI.factor,
        "L" => 1e-3,
        "mL" => 1e-6,
        "L/h" => 1e-3 / 3600.0,
        "m3/h" => 1.0 / 3600.0,
        "cm" => 1e-2,
        "cm2" => 1e-4,
        "g/mol" => 1e-3,
        "kJ/mol" => 1e3,
        "1e-6/K" => 1e-6,
        "cm2/s" => 1e-4,
        "MPa" => 1e6,
        "mL/min" => 1e-6 / 60.0,
        "L/min" => 1e-3 / 60.0,
        "um" => 1e-6,
        _ => return None,
    })
}

pub struct Row {
    pub numbers: BTreeMap<String, Vec<f64>>,
    pub words: BTreeMap<String, String>,
}

impl Row {
    /// The inputs of a figure. Its laws take kelvin and seconds, but lethality °C and minutes, A0 °C and seconds, ageing and chemicals
    /// hours.
    fn read(name: &str, inputs: &str) -> Result<Row, String> {
        let minutes = name.starts_with("lethality") && !name.starts_with("lethality.A0");
        let hours = name.starts_with("ageing") || name.starts_with("chemical");
        let base = match (minutes, hours) {
            (true, _) => 60.0,
            (_, true) => 3600.0,
            _ => 1.0,
        };
        let celsius = name.starts_with("lethality");
        let mut row = Row {
            numbers: BTreeMap::new(),
            words: BTreeMap::new(),
        };
        for part in inputs.split(';') {
            let (key, value) = part.split_once('=').ok_or("an input has no value")?;
            let (name, unit) = key
                .split_once('[')
                .map_or((key, ""), |(own, unit)| (own, unit.trim_end_matches(']')));
            let values: Option<Vec<f64>> =
                value.split('|').map(|x| x.parse::<f64>().ok()).collect();
            match values {
                // Gauge pressures and ppm keep their unit in the name: they are what a law refuses.
                Some(values) if unit != "ppm" => {
                    let factor = match unit {
                        "s" => 1.0 / base,
                        "min" => 60.0 / base,
                        "h" => 3600.0 / base,
                        _ => factor(unit).ok_or_else(|| format!("unit {unit} is not known"))?,
                    };
                    // A temperature, not a difference such as z or its uncertainty.
                    let zero = match (unit, celsius, name.starts_with('T')) {
                        ("degC", false, true) => 273.15,
                        ("K", true, true) => -273.15,
                        _ => 0.0,
                    };
                    let pure = ["nu", "pleats", "n", "p"].contains(&name);
                    let values = values
                        .into_iter()
                        .map(|x| if pure { x } else { x * factor + zero })
                        .collect();
                    row.numbers.insert(name.to_owned(), values);
                }
                _ => {
                    row.words.insert(name.to_owned(), value.to_owned());
                }
            }
        }
        Ok(row)
    }

    pub fn all(&self, name: &str) -> Result<&[f64], String> {
        self.numbers
            .get(name)
            .map(|values| &values[..])
            .ok_or_else(|| match self.words.get(name) {
                Some(word) => format!("{name} is {word}: no number"),
                None => format!("{name} is missing"),
            })
    }

    pub fn n(&self, name: &str) -> Answer {
        Ok(self.all(name)?[0])
    }

    pub fn or(&self, name: &str, default: f64) -> f64 {
        self.numbers.get(name).map_or(default, |values| values[0])
    }

    pub fn maybe(&self, name: &str) -> Option<f64> {
        self.numbers.get(name).map(|values| values[0])
    }

    pub fn maybe_all(&self, name: &str) -> Option<&[f64]> {
        self.numbers.get(name).map(|values| &values[..])
    }

    pub fn word(&self, name: &str) -> Result<&str, String> {
        self.words
            .get(name)
            .map(String::as_str)
            .ok_or_else(|| format!("{name} is missing"))
    }

    /// Surface tension: stated, or that of the named liquid.
    pub fn tension(&self) -> Answer {
        match self.maybe("gamma") {
            Some(gamma) => Ok(gamma),
            None if self.word("liquid")? == "water" => fluid::surface_tension(self.n("T")?),
            None => Err("the wetting liquid is not identified".into()),
        }
    }

    /// `N(mean,sd)`, `U(low,high)` or a number.
    pub fn spread(&self, name: &str) -> Result<Spread, String> {
        if let Some(value) = self.maybe(name) {
            return Ok(Spread::Fixed(value));
        }
        let word = self.word(name)?;
        let (kind, rest) = word.split_once('(').ok_or("no distribution")?;
        let (a, b) = rest
            .trim_end_matches(')')
            .split_once(',')
            .ok_or("no two numbers")?;
        let (a, b): (f64, f64) = (
            a.parse().map_err(|_| "no number")?,
            b.parse().map_err(|_| "no number")?,
        );
        match kind {
            "N" => Ok(Spread::Normal(a, b)),
            "U" => Ok(Spread::Rectangular(a, b)),
            other => Err(format!("{other} is no distribution that is known")),
        }
    }

    /// What is known of a process: `gamma(shape=4,scale=0.25)` or `N(mean,sd)`, in the row's unit.
    pub fn prior(&self) -> Result<Prior, String> {
        let word = self.word("prior").or_else(|_| self.word("process"))?;
        let known = ["N(", "gamma("].iter().any(|kind| word.starts_with(kind));
        if !known || word.contains("rate") {
            return Err(format!("{word} is no distribution that is known"));
        }
        let numbers: Vec<f64> = word
            .split(|c: char| !(c.is_ascii_digit() || matches!(c, '.' | '-' | 'e')))
            .filter_map(|part| part.parse().ok())
            .collect();
        match (&numbers[..], word.starts_with("gamma")) {
            ([shape, scale], true) => Ok(Prior::Gamma(*shape, *scale)),
            ([mean, sd], false) => Ok(Prior::Normal(*mean, *sd)),
            _ => Err(format!("{word} is no distribution that is known")),
        }
    }

    /// Limits of tolerance (`T`) or acceptance (`A`); micrometres as they are written, like the process.
    pub fn ends(&self, of: &str) -> Ends {
        let scale = if self.words.contains_key("prior") {
            1e6
        } else {
            1.0
        };
        let end = |side: &str| self.maybe(&format!("{of}_{side}")).map(|x| x * scale);
        (end("L"), end("U"))
    }

    /// A number in the unit of the process, as it is written.
    pub fn width(&self, name: &str) -> Answer {
        let scale = if self.words.contains_key("prior") {
            1e6
        } else {
            1.0
        };
        Ok(self.n(name)? * scale)
    }

    pub fn reference(&self) -> Result<(f64, f64), String> {
        Ok((self.n("p_ref")?, self.n("T_ref")?))
    }

    pub fn states(&self) -> Result<[(f64, f64); 2], String> {
        Ok([
            (self.n("p1_abs")?, self.n("T1")?),
            (self.n("p2_abs")?, self.n("T2")?),
        ])
    }

    pub fn doubts(&self) -> Result<Doubts, String> {
        // One uncertainty for modules that are alike is that of each.
        let parts = match (self.all("u_rep_modules")?, self.maybe_all("Q_modules")) {
            ([alike], Some(modules)) => vec![*alike; modules.len()],
            (each, _) => each.to_vec(),
        };
        let doubts = [
            self.n("u_rep_assembly")?,
            self.n("u_gain_common")?,
            self.n("u_offset_common")?,
        ];
        if !doubts
            .iter()
            .chain(&parts)
            .all(|u| u.is_finite() && *u >= 0.0)
        {
            return Err("an uncertainty is negative or no number".into());
        }
        Ok(Doubts {
            whole: self.n("u_rep_assembly")?,
            parts,
            gain: self.n("u_gain_common")?,
            offset: self.n("u_offset_common")?,
        })
    }

    pub fn jet(&self) -> Result<Jet, String> {
        Ok(Jet {
            flow: self.n("Q_leak")?,
            p_ref: self.or("p_ref", 101_325.0),
            t_ref: self.or("T_ref", 293.15),
            upstream: self.n("p_up_abs")?,
            downstream: self.n("p_down_abs")?,
            t: self.or("T", 293.15),
            molar_mass: self.or("M", 0.028_013_4),
            kappa: self.n("gamma_gas")?,
            discharge: self.or("Cd", 1.0),
        })
    }

    pub fn lethal(&self, reference: f64, z: f64, rule: Rule) -> Answer {
        let celsius = self.all("T")?;
        let t = self.all("t")?;
        if t.len() == 1 {
            // A constant temperature over a duration.
            return exposure::lethality(
                &[0.0, t[0]],
                &[celsius[0]; 2],
                reference,
                z,
                rule,
                self.maybe("T_min"),
            );
        }
        exposure::lethality(t, celsius, reference, z, rule, self.maybe("T_min"))
    }
}

/// First-order uncertainty by the program's own propagation.
pub fn propagated(terms: &[f64]) -> f64 {
    let dim = Dim::NONE;
    let quantities: Vec<Quantity> = terms
        .iter()
        .enumerate()
        .map(|(i, u)| {
            Quantity::exact(0.0, dim).with(
                Cause {
                    name: i.to_string(),
                    of: String::new(),
                    degrees: None,
                    study: None,
                },
                *u,
            )
        })
        .collect();
    Quantity::propagate(0.0, dim, quantities.iter().map(|q| (1.0, q))).u()
}

/// Simultaneous means (JCGM 100:2008, H.2): means of R and X and their covariances.
pub fn simultaneous(row: &Row) -> Result<(f64, f64, f64), String> {
    let (v, i, phi) = (row.all("V")?, row.all("I")?, row.all("phi")?);
    let n = v.len() as f64;
    let mean = |x: &[f64]| x.iter().sum::<f64>() / n;
    let (mv, mi, mphi) = (mean(v), mean(i), mean(phi));
    let of = |sin: bool| {
        if sin {
            libm::sin(mphi)
        } else {
            libm::cos(mphi)
        }
    };
    let slopes = |sin: bool| {
        [
            of(sin) / mi,
            -mv / (mi * mi) * of(sin),
            mv / mi
                * if sin {
                    libm::cos(mphi)
                } else {
                    -libm::sin(mphi)
                },
        ]
    };
    let series = [(v, mv), (i, mi), (phi, mphi)];
    let mut covariance = [[0.0; 3]; 3];
    for (a, (x, mx)) in series.iter().enumerate() {
        for (b, (y, my)) in series.iter().enumerate() {
            covariance[a][b] = x
                .iter()
                .zip(*y)
                .map(|(x, y)| (x - mx) * (y - my))
                .sum::<f64>()
                / (n * (n - 1.0));
        }
    }
    let combine = |a: [f64; 3], b: [f64; 3]| -> f64 {
        (0..3)
            .flat_map(|i| (0..3).map(move |j| (i, j)))
            .map(|(i, j)| a[i] * b[j] * covariance[i][j])
            .sum()
    };
    let (r, x) = (slopes(false), slopes(true));
    let u_r = libm::sqrt(combine(r, r));
    Ok((
        mv / mi * libm::cos(mphi),
        u_r,
        combine(r, x) / (u_r * libm::sqrt(combine(x, x))),
    ))
}

/// Straight calibration line about a temperature (JCGM 100:2008, H.3): intercept, slope, u of the intercept.
pub fn line(row: &Row) -> Result<(f64, f64, f64), String> {
    let (t, b, t0) = (row.all("t")?, row.all("b")?, row.n("t0")?);
    let n = t.len() as f64;
    let x: Vec<f64> = t.iter().map(|t| t - t0).collect();
    let (mx, mb) = (x.iter().sum::<f64>() / n, b.iter().sum::<f64>() / n);
    let sxx: f64 = x.iter().map(|x| (x - mx) * (x - mx)).sum();
    let slope = sealfolio::procedure::SLOPE
        .eval(&[x.clone(), b.to_vec()])?
        .0;
    let level = mb - slope * mx;
    let ssr: f64 = x
        .iter()
        .zip(b)
        .map(|(x, b)| b - level - slope * x)
        .map(|r| r * r)
        .sum();
    Ok((
        level,
        slope,
        libm::sqrt(ssr / (n - 2.0) * (1.0 / n + mx * mx / sxx)),
    ))
}

/// Every row with what became of it.
pub fn rows(file: &str, agreements: &mut Agreements) -> Result<Vec<(String, Outcome)>, String> {
    let mut reader = csv::Reader::from_path(file).map_err(|error| error.to_string())?;
    let mut out = Vec::new();
    for record in reader.records() {
        let record = record.map_err(|error| error.to_string())?;
        let field = |i: usize| record.get(i).unwrap_or_default();
        let (name, inputs, expected, unit, tolerance) =
            (field(0), field(1), field(2), field(3), field(4));
        let title = format!("{name} {inputs}");
        let mut outcome = one(name, inputs, expected, unit, tolerance);
        if let (Outcome::Inside(_), Ok(expected)) = (&outcome, expected.parse::<f64>())
            && let Err(why) = by_figure(
                name,
                inputs,
                (expected, unit, tolerance),
                field(6),
                agreements,
            )
        {
            outcome = Outcome::Outside(why);
        }
        out.push((title, outcome));
    }
    Ok(out)
}

/// The same row through the figure that it is about, where there is one.
fn by_figure(
    name: &str,
    inputs: &str,
    (expected, unit, tolerance): (f64, &str, &str),
    kind: &str,
    agreements: &mut Agreements,
) -> Result<(), String> {
    let Some(through) = figures::physics(name, &Row::read(name, inputs)?) else {
        return Ok(());
    };
    let scale = match unit {
        "min" => 60.0,
        "CFU/cm2" => 1e4,
        "mm" => 1e-3,
        _ => factor(unit).ok_or_else(|| format!("unit {unit}"))?,
    };
    let found = through
        .value()
        .map_err(|why| format!("figure {}: {why}", through.figure))?
        / scale;
    let allowed = allowed(tolerance, expected).ok_or_else(|| format!("tolerance {tolerance}"))?;
    if (found - expected).abs() > allowed + 1e-13 * expected.abs() {
        return Err(format!(
            "figure {}: {found} {unit}, expected {expected} ± {allowed:e}",
            through.figure
        ));
    }
    agreements.add(through.figure, expected, found, kind);
    Ok(())
}

fn allowed(tolerance: &str, expected: f64) -> Option<f64> {
    let (kind, x) = tolerance.split_once(' ')?;
    let x = x.parse::<f64>().ok()?;
    match kind {
        "abs" => Some(x),
        "rel" => Some(x * expected.abs()),
        _ => None,
    }
}

fn one(name: &str, inputs: &str, expected: &str, unit: &str, tolerance: &str) -> Outcome {
    let row = match Row::read(name, inputs) {
        Ok(row) => row,
        Err(why) => return Outcome::NotSupported(why),
    };
    let Some(answer) = figure(name, &row) else {
        return Outcome::NotSupported("no such figure".into());
    };
    if let Err(why) = &answer
        && why.contains("the table here does not reach there")
        && !expected.starts_with("error")
    {
        return Outcome::NotSupported(why.clone());
    }
    if expected.starts_with("error") {
        return match answer {
            Err(why) => Outcome::Inside(format!("refused: {why}")),
            Ok(value) => Outcome::Outside(format!("gave {value} where it must refuse: {expected}")),
        };
    }
    let (Ok(expected), Some(factor)) = (expected.parse::<f64>(), factor(unit)) else {
        return Outcome::NotSupported(format!("unit {unit}"));
    };
    let Some(allowed) = allowed(tolerance, expected) else {
        return Outcome::NotSupported(format!("tolerance {tolerance}"));
    };
    match answer {
        Err(why) => Outcome::Outside(format!(
            "refused ({why}) where {expected} {unit} is expected"
        )),
        Ok(value) => {
            let value = value / factor;
            // A slack of a few bits: a tolerance of 0.5 of a digit may fall between two doubles.
            let words = format!("{value} {unit}, expected {expected} ± {allowed:e}");
            if (value - expected).abs() <= allowed + 1e-13 * expected.abs() {
                Outcome::Inside(words)
            } else {
                Outcome::Outside(words)
            }
        }
    }
}

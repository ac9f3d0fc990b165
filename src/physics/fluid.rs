//! Water, gases in water, gases.

use super::{Answer, kelvin};

/// Critical temperature of water, K (IAPWS).
const T_CRITICAL: f64 = 647.096;
/// Molar mass of water, kg/mol (the value that the IAPWS Henry guideline uses).
const M_WATER: f64 = 0.018_015_268;

/// Surface tension of water, N/m; 273.15 K to the critical point. IAPWS R1-76(2014).
///
/// # Errors
/// Outside the range.
pub fn surface_tension(t: f64) -> Answer {
    let tau = 1.0 - kelvin(t, 273.15, T_CRITICAL)? / T_CRITICAL;
    Ok(0.2358 * libm::pow(tau, 1.256) * (1.0 - 0.625 * tau))
}

/// Viscosity of water at 0.1 MPa, Pa·s; 253.15 K to 383.15 K. IAPWS SR6-08(2011), equation 7.
///
/// # Errors
/// Outside the range, or above 0.3 MPa.
pub fn viscosity(t: f64, p: f64) -> Answer {
    let t = kelvin(t, 253.15, 383.15)? / 300.0;
    low_pressure(p)?;
    let terms = [
        (280.68, -1.9),
        (511.45, -7.7),
        (61.131, -19.6),
        (0.45903, -40.0),
    ];
    Ok(terms.iter().map(|(a, b)| a * libm::pow(t, *b)).sum::<f64>() * 1e-6)
}

fn low_pressure(p: f64) -> Answer {
    match p > 0.0 && p <= 3e5 {
        true => Ok(p),
        false => Err(say!("{p} Pa lies outside 0 to 0.3 MPa", p = p)),
    }
}

/// Viscosity of water by temperature and density, Pa·s, without the critical enhancement.
/// IAPWS R12-08; coefficients from memory, reproducing its Table 4.
///
/// # Errors
/// Outside 273.15 K to 1173.15 K, or a density that is not positive.
pub fn viscosity_general(t: f64, rho: f64) -> Answer {
    let t = kelvin(t, 273.15, 1173.15)? / T_CRITICAL;
    let rho = super::positive(say!("density"), rho)? / 322.0;
    let zero: f64 = [1.67752, 2.20462, 0.6366564, -0.241605]
        .iter()
        .enumerate()
        .map(|(i, h)| h / libm::pow(t, i as f64))
        .sum();
    const H: [(i32, i32, f64); 21] = [
        (0, 0, 5.20094e-1),
        (1, 0, 8.50895e-2),
        (2, 0, -1.08374),
        (3, 0, -2.89555e-1),
        (0, 1, 2.22531e-1),
        (1, 1, 9.99115e-1),
        (2, 1, 1.88797),
        (3, 1, 1.26613),
        (5, 1, 1.20573e-1),
        (0, 2, -2.81378e-1),
        (1, 2, -9.06851e-1),
        (2, 2, -7.72479e-1),
        (3, 2, -4.89837e-1),
        (4, 2, -2.57040e-1),
        (0, 3, 1.61913e-1),
        (1, 3, 2.57399e-1),
        (0, 4, -3.25372e-2),
        (3, 4, 6.98452e-2),
        (4, 5, 8.72102e-3),
        (3, 6, -4.35673e-3),
        (5, 6, -5.93264e-4),
    ];
    let power = |x: f64, n: i32| libm::pow(x, f64::from(n));
    let sum: f64 = H
        .iter()
        .map(|(i, j, h)| h * power(1.0 / t - 1.0, *i) * power(rho - 1.0, *j))
        .sum();
    Ok(100e-6 * libm::sqrt(t) / zero * libm::exp(rho * sum))
}

/// Density of water at 0.1 MPa, kg/m³; 253.15 K to 383.15 K. IAPWS SR6-08(2011).
///
/// # Errors
/// Outside the range, or above 0.3 MPa.
pub fn density(t: f64, p: f64) -> Answer {
    let t = kelvin(t, 253.15, 383.15)?;
    low_pressure(p)?;
    let (alpha, beta) = (10.0 / (593.0 - t), 10.0 / (t - 232.0));
    const A: [(f64, f64); 5] = [
        (6.74458446e3, 4.0),
        (-2.22521604e5, 5.0),
        (1.00231247e8, 7.0),
        (-1.63552118e9, 8.0),
        (8.32299658e9, 9.0),
    ];
    const B: [f64; 6] = [
        5.78545292e-3,
        -1.53195665e-2,
        3.11337859e-2,
        -4.23546241e-2,
        3.38713507e-2,
        -1.19946761e-2,
    ];
    let a: f64 = A.iter().map(|(a, n)| a * libm::pow(alpha, *n)).sum();
    let b: f64 = B
        .iter()
        .zip(1..)
        .map(|(b, m)| b * libm::pow(beta, f64::from(m)))
        .sum();
    Ok(1.0 / (461.51805 * 10.0 / 1e5 * (1.93763157e-2 + a + b)))
}

/// Coefficients of IF97 region 4 (R7-97(2012), Table 34; from memory, reproducing Table 35).
const N: [f64; 10] = [
    0.11670521452767e4,
    -0.72421316703206e6,
    -0.17073846940092e2,
    0.12020824702470e5,
    -0.32325550322333e7,
    0.14915108613530e2,
    -0.48232657361591e4,
    0.40511340542057e6,
    -0.23855557567849,
    0.65017534844798e3,
];

/// Saturation pressure of water, Pa; 273.15 K to the critical point. IAPWS R7-97(2012), equation 30.
///
/// # Errors
/// Outside the range.
pub fn saturation_pressure(t: f64) -> Answer {
    let t = kelvin(t, 273.15, T_CRITICAL)?;
    let x = t + N[8] / (t - N[9]);
    let a = x * x + N[0] * x + N[1];
    let b = N[2] * x * x + N[3] * x + N[4];
    let c = N[5] * x * x + N[6] * x + N[7];
    Ok(1e6 * libm::pow(2.0 * c / (-b + libm::sqrt(b * b - 4.0 * a * c)), 4.0))
}

/// Saturation temperature of water at an absolute pressure, K. IAPWS R7-97(2012), equation 31.
///
/// # Errors
/// Outside 611.213 Pa to 22.064 MPa.
pub fn saturation_temperature(p: f64) -> Answer {
    if !(611.213..=22.064e6).contains(&p) {
        return Err(say!(
            "{p} Pa lies outside 611.213 Pa to 22.064 MPa absolute",
            p = p
        ));
    }
    let x = libm::pow(p / 1e6, 0.25);
    let e = x * x + N[2] * x + N[5];
    let f = N[0] * x * x + N[3] * x + N[6];
    let g = N[1] * x * x + N[4] * x + N[7];
    let d = 2.0 * g / (-f - libm::sqrt(f * f - 4.0 * e * g));
    let s = N[9] + d;
    Ok((s - libm::sqrt(s * s - 4.0 * (N[8] + N[9] * d))) / 2.0)
}

/// Saturation pressure by IAPWS SR1-86(1992), Pa: the form inside the Henry equation.
///
/// # Errors
/// Outside 273.15 K to the critical point.
pub fn saturation_pressure_1986(t: f64) -> Answer {
    let t = kelvin(t, 273.15, T_CRITICAL)?;
    let tau = 1.0 - t / T_CRITICAL;
    const A: [(f64, f64); 6] = [
        (-7.85951783, 1.0),
        (1.84408259, 1.5),
        (-11.7866497, 3.0),
        (22.6807411, 3.5),
        (-15.9618719, 4.0),
        (1.80122502, 7.5),
    ];
    let sum: f64 = A.iter().map(|(a, n)| a * libm::pow(tau, *n)).sum();
    Ok(22.064e6 * libm::exp(T_CRITICAL / t * sum))
}

/// Henry constant of a gas in water, Pa. IAPWS G7-04, Table 6: nitrogen from 278 K (a warning range
/// from 273 K), oxygen from 274 K, carbon dioxide from 274 K.
///
/// # Errors
/// A gas that is not in the table, or outside the range.
pub fn henry(gas: &str, t: f64) -> Answer {
    // With the range of the data behind each, K (IAPWS G7-04, table 2, from memory; nitrogen is carried down to freezing, where the
    // guideline begins at 278 K).
    let (a, b, c, low, high) = match gas {
        "N2" | "nitrogen" => (-9.67578, 4.72162, 11.70585, 273.15, 636.46),
        "O2" | "oxygen" => (-9.44833, 4.43822, 11.42005, 274.0, 616.52),
        "CO2" | "carbon dioxide" => (-8.55445, 4.01195, 9.52345, 274.0, 642.66),
        other => {
            return Err(say!(
                "{other} is not in the table: name the gas or its mole fractions",
                other = other
            ));
        }
    };
    let reduced = kelvin(t, low, high)? / T_CRITICAL;
    let tau = 1.0 - reduced;
    let ln = a / reduced
        + b * libm::pow(tau, 0.355) / reduced
        + c * libm::pow(reduced, -0.41) * libm::exp(tau);
    Ok(saturation_pressure_1986(t)? * libm::exp(ln))
}

/// Solubility of a gas in water, mol/(m³·Pa): density of water over molar mass and Henry constant.
///
/// # Errors
/// As [`henry`] and [`density`].
pub fn solubility(gas: &str, t: f64) -> Answer {
    if gas == "air" {
        // Argon counted with nitrogen.
        return Ok(0.79 * solubility("N2", t)? + 0.21 * solubility("O2", t)?);
    }
    Ok(density(t, 1e5)? / (M_WATER * henry(gas, t)?))
}

/// Diffusion coefficient of oxygen in water, m²/s; −0.5 to 95 °C. Han and Bartels 1996. Use ratios:
/// published values spread by 10 to 20 %.
///
/// # Errors
/// Outside the range.
pub fn diffusion_oxygen(t: f64) -> Answer {
    let t = kelvin(t, 272.65, 368.15)?;
    Ok(1e-4 * libm::pow(10.0, -4.410 + 773.8 / t - (506.4 / t) * (506.4 / t)))
}

/// Diffusion coefficient of nitrogen in water, m²/s, for a molar volume at the boiling point in
/// cm³/mol (31.2). Hayduk and Laudie 1974: an estimate; use ratios.
///
/// # Errors
/// Outside the range of the viscosity.
pub fn diffusion_nitrogen(t: f64, molar_volume: f64) -> Answer {
    let milli = viscosity(t, 1e5)? * 1e3;
    Ok(1e-4 * 13.26e-5
        / (libm::pow(milli, 1.14)
            * libm::pow(super::positive(say!("molar volume"), molar_volume)?, 0.589)))
}

/// Diffusion coefficient times solubility, relative to a reference temperature.
///
/// # Errors
/// An unnamed gas, or more than 15 K from the reference.
pub fn permeability_ratio(gas: &str, t: f64, reference: f64) -> Answer {
    if (t - reference).abs() > 15.0 {
        return Err(say!("{t} K lies more than 15 K from the reference", t = t));
    }
    let gas = match &*gas.to_lowercase() {
        "n2" | "nitrogen" => "N2",
        "o2" | "oxygen" => "O2",
        "air" | "compressed air" => "air",
        _ => gas,
    };
    let one = |gas: &str, t: f64| -> Answer {
        let d = match gas {
            "N2" => diffusion_nitrogen(t, 31.2)?,
            "O2" => diffusion_oxygen(t)?,
            other => {
                return Err(say!(
                    "{other}: no diffusion coefficient is known here",
                    other = other
                ));
            }
        };
        Ok(d * solubility(gas, t)?)
    };
    let both = |t: f64| -> Answer {
        match gas {
            "air" => Ok(0.79 * one("N2", t)? + 0.21 * one("O2", t)?),
            gas => one(gas, t),
        }
    };
    Ok(both(t)? / both(reference)?)
}

/// Surface tension of pure alcohols, N/m: ethanol and 2-propanol (Jasper 1972), 10 to 70 °C, and of
/// their mixtures with water by mass fraction at the temperatures of [`MIXTURES`].
///
/// # Errors
/// Another liquid, a composition that is missing, or outside the range: nothing is extrapolated.
pub fn alcohol_surface_tension(liquid: &str, mass_fraction: Option<f64>, t: f64) -> Answer {
    let celsius = kelvin(t, 283.15, 343.15)? - 273.15;
    let name = liquid.strip_suffix("-water").unwrap_or(liquid);
    let (a, b) = match name {
        "ethanol" => (24.05, 0.0832),
        "2-propanol" => (22.90, 0.0789),
        other => return Err(say!("{other}: no table is known here", other = other)),
    };
    match mass_fraction {
        None => Err(say!("the composition is missing").into()),
        Some(1.0) => Ok((a - b * celsius) * 1e-3),
        Some(x) if !(0.0..=1.0).contains(&x) => Err(say!("{x} is no mass fraction", x = x)),
        Some(_) if name == liquid => Err(say!("a pure liquid has the mass fraction 1").into()),
        Some(x) => mixture(name, x, celsius),
    }
}

/// Share of alcohol by mass of each column of [`MIXTURES`].
const SHARES: [f64; 14] = [
    0.0, 0.05, 0.10, 0.15, 0.20, 0.25, 0.30, 0.40, 0.50, 0.60, 0.70, 0.80, 0.90, 1.0,
];

/// Surface tension of alcohol and water, mN/m, by liquid and °C: Vázquez, Álvarez and Navaza, J. Chem. Eng.
/// Data 40 (1995) 611. The values are from memory, not from the table itself: take ±0.3 mN/m. Pure liquids
/// in it lie up to 2 % above Jasper's.
#[rustfmt::skip]
const MIXTURES: &[(&str, f64, [f64; 14])] = &[
    ("ethanol", 20.0, [72.75, 56.41, 48.14, 42.72, 38.56, 36.09, 33.53, 30.69, 28.51, 26.72, 25.48, 24.32, 23.23, 22.31]),
    ("ethanol", 25.0, [72.01, 55.73, 47.53, 42.08, 37.97, 35.51, 32.98, 30.16, 27.96, 26.23, 25.01, 23.82, 22.72, 21.82]),
    ("2-propanol", 25.0, [72.01, 49.58, 40.42, 34.63, 30.57, 28.28, 26.82, 25.27, 24.26, 23.51, 22.68, 22.14, 21.69, 21.22]),
];

/// A mixture: monotone in the share of alcohol (Fritsch and Carlson 1980), linear in temperature, inside
/// the table only.
fn mixture(name: &str, x: f64, celsius: f64) -> Answer {
    let mut own = MIXTURES.iter().filter(|(liquid, ..)| *liquid == name);
    let inside: Vec<(f64, f64)> = own
        .by_ref()
        .map(|(_, at, column)| (*at, monotone(&SHARES, column, x) * 1e-3))
        .collect();
    let exact = inside.iter().find(|(at, _)| (at - celsius).abs() < 1e-6);
    if let Some((_, value)) = exact {
        return Ok(*value);
    }
    inside
        .array_windows()
        .find(|[a, b]| a.0 <= celsius && celsius <= b.0)
        .map(|[a, b]| a.1 + (b.1 - a.1) * (celsius - a.0) / (b.0 - a.0))
        .ok_or_else(|| {
            say!(
                "{name} and water at {celsius} °C: the table here does not reach there",
                name = name,
                celsius = celsius
            )
        })
}

/// Monotone cubic interpolation; x inside the nodes.
#[expect(
    clippy::indexing_slicing,
    reason = "as many values as nodes, two at least; an index is that of an interval between nodes, or of one of its ends"
)]
fn monotone(nodes: &[f64], values: &[f64], x: f64) -> f64 {
    let n = nodes.len();
    let steps: Vec<f64> = (0..n - 1)
        .map(|i| (values[i + 1] - values[i]) / (nodes[i + 1] - nodes[i]))
        .collect();
    let slope = |i: usize| -> f64 {
        if i == 0 || i == n - 1 {
            return steps[i.min(n - 2)];
        }
        let (a, b) = (steps[i - 1], steps[i]);
        if a * b <= 0.0 {
            return 0.0;
        }
        // Harmonic mean, weighted by the widths.
        let (h, k) = (nodes[i] - nodes[i - 1], nodes[i + 1] - nodes[i]);
        let (v, w) = (2.0 * k + h, k + 2.0 * h);
        (v + w) / (v / a + w / b)
    };
    let i = nodes
        .windows(2)
        .position(|pair| x <= pair[1])
        .unwrap_or(n - 2);
    let h = nodes[i + 1] - nodes[i];
    let s = (x - nodes[i]) / h;
    let (a, b) = (slope(i) * h, slope(i + 1) * h);
    let d = values[i + 1] - values[i];
    values[i] + s * (a + s * (3.0 * d - 2.0 * a - b + s * (a + b - 2.0 * d)))
}

/// Viscosity of air, Pa·s. US Standard Atmosphere 1976 (from memory).
///
/// # Errors
/// Outside 100 K to 2000 K.
pub fn viscosity_air(t: f64) -> Answer {
    let t = kelvin(t, 100.0, 2000.0)?;
    Ok(1.458e-6 * libm::pow(t, 1.5) / (t + 110.4))
}

/// Viscosity of nitrogen, Pa·s: Sutherland, 16.63 µPa·s at 273 K and 107 K (from memory).
///
/// # Errors
/// Outside 100 K to 1500 K.
pub fn viscosity_nitrogen(t: f64) -> Answer {
    let t = kelvin(t, 100.0, 1500.0)?;
    Ok(16.63e-6 * libm::pow(t / 273.0, 1.5) * (273.0 + 107.0) / (t + 107.0))
}

/// Whether a liquid is water alone, however it was made pure.
pub fn is_water(name: &str) -> bool {
    const PURE: [&str; 9] = [
        "water",
        "purified",
        "pure",
        "ultrapure",
        "deionised",
        "deionized",
        "demineralised",
        "distilled",
        "filtered",
    ];
    let name = name.to_lowercase();
    let mut words = name.split_whitespace();
    words.clone().any(|word| word == "water") && words.all(|word| PURE.contains(&word))
}

#[cfg(test)]
mod tests {
    use super::monotone;

    /// scipy 1.17 (`PchipInterpolator`), inside the outer cells, whose slopes are its own.
    #[test]
    fn uneven_nodes_are_joined_as_a_reference_library_joins_them() {
        let (nodes, values) = ([0.0, 1.0, 3.0, 6.0, 8.0], [0.0, 2.0, 3.0, 7.0, 8.0]);
        for (x, y) in [
            (1.5, 2.3311449579831933),
            (2.5, 2.725577731092437),
            (4.0, 4.193899782135077),
            (5.5, 6.507625272331154),
        ] {
            let own = monotone(&nodes, &values, x);
            assert!((own - y).abs() < 1e-14 * y, "{x}: {own}");
        }
    }
}

//! Rows of the check files through the very formula of a figure, beside the law that answers them.

use std::collections::{BTreeMap, BTreeSet};

use crate::{physics::Row, statistics::Inputs};
use sealfolio::{
    figure::{Figure, From},
    figures,
    ground::quantity::Quantity,
    stats::Refusal,
};

/// A figure with the numbers of a row, in SI, by the letters of its formula.
pub struct Through {
    /// Which figure.
    pub figure: &'static str,
    given: Vec<(&'static str, Vec<f64>)>,
}

fn through(figure: &'static str, given: Vec<(&'static str, Vec<f64>)>) -> Option<Through> {
    Some(Through { figure, given })
}

impl Through {
    fn definition(&self) -> Result<&'static Figure, String> {
        let found = figures::ALL.iter().find(|figure| figure.id == self.figure);
        found
            .copied()
            .ok_or_else(|| format!("no figure {}", self.figure))
    }

    /// The figure's value, in SI.
    pub fn value(&self) -> Result<f64, String> {
        let figure = self.definition()?;
        let formula = (figure.formula)();
        let mut given = Vec::new();
        for input in formula.variables() {
            let own = self
                .given
                .iter()
                .find(|(symbol, _)| *symbol == input.symbol);
            let values = match (own, input.from) {
                (Some((_, values)), _) => values.clone(),
                (None, From::Constant { value, .. }) => vec![input.unit.to_si(value)],
                // An unknown error is best estimated as zero; rows from outside have none.
                (None, _) if input.symbol.starts_with('δ') => vec![0.0],
                (None, _) => return Err(format!("{} has no number in the row", input.symbol)),
            };
            let exact = |si: f64| (input, Quantity::exact(si, input.unit.dim));
            given.extend(values.into_iter().map(exact));
        }
        (figure.check)(&given)?;
        Ok(figure.evaluate(&formula, &given)?.0.value)
    }
}

/// The figure that a row of the physics file also goes through.
pub fn physics(name: &str, row: &Row) -> Option<Through> {
    let all = |key: &str| row.all(key).map(<[f64]>::to_vec).ok();
    let one = |key: &str| all(key).filter(|values| values.len() == 1);
    let celsius = |values: Vec<f64>| values.into_iter().map(|t| t + 273.15).collect::<Vec<_>>();
    match name {
        "join.residual_flow" => through(
            "join-residual",
            vec![
                ("Q_asm", one("Q_assembly")?),
                // Rows are at one temperature.
                ("φ", vec![1.0; all("Q_modules")?.len()]),
                ("Q_mod", all("Q_modules")?),
            ],
        ),
        // The figure is for a gas of two atoms.
        "leak.orifice_diameter_choked" if one("gamma_gas")? != [1.4] => None,
        "leak.orifice_diameter_choked" => through(
            "leak-diameter",
            vec![
                ("r", one("Q_leak")?),
                ("p_ref", one("p_ref")?),
                ("T_ref", one("T_ref")?),
                ("T", one("T")?),
                ("M", one("M")?),
                ("p_u", one("p_up_abs")?),
                ("C_d", one("Cd")?),
            ],
        ),
        "retention.LRV_lower_bound" => through(
            "log-reduction-bound",
            vec![
                ("N_0", one("challenge_total")?),
                ("f", one("assayed_fraction")?),
                ("n", one("filtrate_count")?),
                ("1−α", one("confidence_one_sided")?),
            ],
        ),
        "retention.challenge_density" => through(
            "challenge-density",
            vec![("N_0", one("challenge_total")?), ("A", one("area")?)],
        ),
        // In a housing whose own resistance is known and taken off again; water at the reference temperature.
        "water_flow.fit_a" | "water_flow.fit_b" => {
            let (flow, pressure) = (all("Q")?, all("dP")?);
            let figure = match name {
                "water_flow.fit_a" => "flow-resistance",
                _ => "flow-resistance-quadratic",
            };
            let housing: Vec<f64> = flow.iter().map(|q| 1e6 * q).collect();
            let pressure = pressure.iter().zip(&housing).map(|(p, h)| p + h).collect();
            let given = vec![
                ("Q_b", flow.clone()),
                ("Q", flow),
                ("ΔP", pressure),
                ("ΔP_b", housing),
                ("T_20", vec![293.15]),
                ("T_w", vec![293.15]),
            ];
            through(figure, given)
        }
        "lethality.F0_logmean" | "lethality.F" => {
            let (t, temperature) = (all("t")?, celsius(all("T")?));
            // By either rule where the temperature stays; the figure has one of them.
            let steady = temperature.iter().all(|own| *own == temperature[0]);
            if name == "lethality.F" && !steady {
                return None;
            }
            let last = temperature.len() - 1;
            let given = vec![
                (
                    "Δt",
                    t.windows(2)
                        .map(|pair| 60.0 * (pair[1] - pair[0]))
                        .collect(),
                ),
                ("T_a", temperature[..last].to_vec()),
                ("T_b", temperature[1..].to_vec()),
                ("T_ref", celsius(one("T_ref")?)),
                ("z", one("z")?),
            ];
            through("f0-full", given)
        }
        "geometry.effective_area" => through(
            "pleated-area",
            vec![
                ("N", one("pleats")?),
                ("h", one("pleat_height")?),
                ("w", one("effective_width")?),
            ],
        ),
        "expansion.clearance_hot" => {
            let metres = |key: &str| Some(one(key)?.iter().map(|mm| mm * 1e-3).collect());
            let given = vec![
                ("D_o", metres("D_outer_bore")?),
                ("α_o", one("alpha_outer")?),
                ("D_i", metres("D_inner")?),
                ("α_i", one("alpha_inner")?),
                ("T", one("T1")?),
                ("T_0", one("T0")?),
            ];
            through("clearance-hot", given)
        }
        // Two states at one temperature: a straight trace through both.
        "pressure_hold.flow" if row.maybe("T1") == row.maybe("T2") && row.word("gas").is_err() => {
            let (p1, p2, dt) = (row.maybe("p1_abs")?, row.maybe("p2_abs")?, row.maybe("dt")?);
            let given = vec![
                ("V", one("V_up")?),
                ("T_ref", one("T_ref")?),
                ("p_ref", one("p_ref")?),
                ("δ_p", vec![0.0]),
                ("δ_s", vec![0.0]),
                ("δ_T", vec![0.0]),
                ("p", vec![p1, 0.5 * (p1 + p2), p2]),
                ("p_amb", vec![0.0]),
                ("T", one("T1")?),
                ("t_m", vec![dt]),
                ("t", vec![0.0, 0.5 * dt, dt]),
            ];
            through("diffusive-flow", given)
        }
        _ => None,
    }
}

/// The figures that a case of the statistics file also goes through, with the name of what each must give.
pub fn statistics(method: &str, i: &Inputs) -> Vec<(Through, &'static str)> {
    let find = || -> Result<Vec<(Option<Through>, &'static str)>, Refusal> {
        Ok(match method {
            "summary" => vec![
                (
                    through("membrane-thickness", vec![("t", i.list("x")?)]),
                    "mean",
                ),
                (
                    through("slit-width-spread", vec![("w_i", i.list("x")?)]),
                    "sd",
                ),
            ],
            "success_run_reliability" => {
                let given = vec![
                    ("n", vec![i.n("n")?]),
                    ("n_f", vec![i.n("failures")?]),
                    ("1−α", vec![i.n("confidence")?]),
                ];
                vec![(through("cycle-reliability", given), "reliability_lower")]
            }
            "cycles_supported" => {
                let lots = i.0["lots"].as_array().cloned().unwrap_or_default();
                let alone =
                    lots.len() == 1 && i.word("side") == "lower" && i.word("bound") == "mean";
                let Some(lot) = lots.first().filter(|_| alone) else {
                    return Ok(Vec::new());
                };
                let lot = Inputs(lot);
                let given = vec![
                    ("c", lot.list("x")?),
                    ("P", lot.list("y")?),
                    ("P_min", vec![i.n("limit")?]),
                    // An element that went on beyond what its values support.
                    ("n_r", vec![1e9]),
                    ("1−α", vec![i.n("confidence")?]),
                ];
                vec![(through("element-cycles-supported", given), "separate_lines")]
            }
            _ => Vec::new(),
        })
    };
    find()
        .unwrap_or_default()
        .into_iter()
        .filter_map(|(through, name)| Some((through?, name)))
        .collect()
}

/// What became of the rows that went through one figure.
#[derive(Default)]
pub struct Agreement {
    cases: usize,
    digits: f64,
    kinds: BTreeSet<String>,
}

/// Rows by figure.
#[derive(Default)]
pub struct Agreements(BTreeMap<&'static str, Agreement>);

impl Agreements {
    /// Notes one row that agreed.
    pub fn add(&mut self, figure: &'static str, expected: f64, found: f64, kind: &str) {
        let off = if expected == 0.0 {
            found.abs()
        } else {
            (found / expected - 1.0).abs()
        };
        let digits = (-libm::log10(off)).clamp(0.0, 15.0);
        let one = self.0.entry(figure).or_insert(Agreement {
            digits: 15.0,
            ..Agreement::default()
        });
        one.cases += 1;
        one.digits = one.digits.min(digits);
        one.kinds.insert(kind.replace('-', " "));
    }

    /// The table that the program carries.
    pub fn table(&self) -> String {
        let mut out = String::from("figure,cases,digits,kinds\n");
        for (figure, one) in &self.0 {
            let kinds: Vec<&str> = one.kinds.iter().map(String::as_str).collect();
            let digits = libm::floor(one.digits) as u32;
            out.push_str(&format!(
                "{figure},{},{digits},{}\n",
                one.cases,
                kinds.join("; ")
            ));
        }
        out
    }
}

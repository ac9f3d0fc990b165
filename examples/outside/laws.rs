//! One line a figure of the check files: which law of the program answers it.

use std::collections::BTreeMap;

use sealfolio::{
    metrology::{self, Spread},
    physics::{
        Answer,
        exposure::{self, Rule},
        filter, finite, fluid, kelvin, leak, positive,
    },
    stats,
};

use crate::physics::{Row, line, propagated, simultaneous};

/// Trials of a Monte Carlo row, as JCGM 101:2008 asks at least.
const TRIALS: usize = 1_000_000;

/// By how much parts become warmer, K: stated, or between two temperatures below the softening of polymers.
fn warmer(row: &Row) -> Answer {
    match row.maybe("dT") {
        Some(difference) if difference.abs() <= 300.0 => Ok(difference),
        Some(difference) => Err(format!("{difference} K is no difference that parts stand")),
        None => Ok(kelvin(row.n("T1")?, 200.0, 500.0)? - kelvin(row.n("T0")?, 200.0, 500.0)?),
    }
}

/// The confidence of one end of an interval with two.
fn one_side(two: f64) -> Answer {
    match two > 0.0 && two < 1.0 {
        true => Ok(0.5 * (1.0 + two)),
        false => Err(format!("{two} is no probability between 0 and 1")),
    }
}

/// The program's answer; nothing where it has no such figure.
pub fn figure(name: &str, row: &Row) -> Option<Answer> {
    let n = |key: &str| row.n(key);
    // The laws of water are for water alone.
    let water = ["water.", "water_flow.", "membrane.resistance"];
    let liquid = row.word("liquid").or_else(|_| row.word("fluid"));
    if water.iter().any(|law| name.starts_with(law))
        && let Ok(other) = liquid
        && !fluid::is_water(other)
    {
        return Some(Err(format!("{other} is not water")));
    }
    Some((|| -> Answer {
        Ok(match name {
            "water.surface_tension" => fluid::surface_tension(n("T")?)?,
            "water.viscosity" => fluid::viscosity(n("T")?, n("p")?)?,
            "water.viscosity_r1208" => fluid::viscosity_general(n("T")?, n("rho")?)?,
            "water.density" => fluid::density(n("T")?, n("p")?)?,
            "water.saturation_pressure" => fluid::saturation_pressure(n("T")?)?,
            "water.saturation_temperature" => fluid::saturation_temperature(n("p_abs")?)?,
            "water.saturation_pressure_sr186" => fluid::saturation_pressure_1986(n("T")?)?,
            "steam.superheat" => {
                kelvin(n("T_measured")?, 273.15, 647.096)?
                    - fluid::saturation_temperature(n("p_abs")?)?
            }
            "henry.ln_kH" => libm::log(fluid::henry(row.word("gas")?, n("T")?)? / 1e9),
            "henry.solubility" => fluid::solubility(row.word("gas")?, n("T")?)?,
            "henry.temperature_coefficient" => {
                let (gas, t) = (row.word("gas")?, n("T")?);
                let ln = |t: f64| fluid::solubility(gas, t).map(libm::log);
                (ln(t + 0.1)? - ln(t - 0.1)?) / (1.0 / (t + 0.1) - 1.0 / (t - 0.1))
            }
            "diffusion.D_O2_water" => fluid::diffusion_oxygen(n("T")?)?,
            "diffusion.D_N2_water" => fluid::diffusion_nitrogen(n("T")?, row.or("Vb", 31.2))?,
            "liquid.surface_tension" => fluid::alcohol_surface_tension(
                row.word("liquid")?,
                row.maybe("mass_fraction"),
                n("T")?,
            )?,
            "gas.viscosity_air" => fluid::viscosity_air(n("T")?)?,
            "gas.viscosity_N2" => fluid::viscosity_nitrogen(n("T")?)?,
            "bubble_point.pressure_from_pore" => {
                filter::bubble_point(n("k")?, row.tension()?, n("theta")?, n("d")?)?
            }
            "bubble_point.pore_from_pressure" => filter::bubble_point(
                n("k")?,
                row.tension()?,
                n("theta")?,
                positive("pressure", n("dP")?)?,
            )?,
            "bubble_point.to_20C" => {
                // The law of water is that of water alone.
                if !fluid::is_water(row.word("liquid")?) {
                    return Err("only the surface tension of water is known by temperature".into());
                }
                positive("pressure", n("dP")?)? * fluid::surface_tension(n("T_ref")?)?
                    / fluid::surface_tension(n("T")?)?
            }
            "bubble_point.to_other_liquid" => {
                let pull = |i: u8| -> Answer {
                    filter::bubble_point(
                        1.0,
                        n(&format!("gamma_{i}"))?,
                        row.or(&format!("theta_{i}"), 0.0),
                        4.0,
                    )
                };
                positive("pressure", n("dP")?)? * pull(2)? / pull(1)?
            }
            // ASTM F316 writes d = C·γ/p with C = 2860 for µm, mN/m and Pa (from memory): shape factor 0.715.
            "bubble_point.pore_F316_form" => {
                filter::bubble_point(0.715, n("gamma")?, 0.0, positive("pressure", n("dP")?)?)?
            }
            "bubble_point.F316_constant_psi" => n("C_Pa")? / sealfolio::ground::unit::PSI.factor,
            "bubble_point.head_corrected" => filter::less_head(
                n("P_gauge")?,
                n("T")?,
                row.or("g", 9.80665),
                n("liquid_head_downstream")?,
            )?,
            "diffusive_flow.model" => filter::diffusive_flow(
                n("D")?,
                n("S")?,
                n("dP")?,
                n("A")?,
                n("porosity")?,
                n("tau")?,
                n("L")?,
                n("T_ref")?,
                n("p_ref")?,
            )?,
            // The factor by which a flow is multiplied to bring it to the reference.
            "diffusive_flow.temperature_factor" => {
                1.0 / fluid::permeability_ratio(row.word("gas")?, n("T")?, n("T_ref")?)?
            }
            "diffusive_flow.normalised" => filter::normalised(
                n("Q_ref_conditions")?,
                row.word("gas")?,
                n("T")?,
                n("T_ref")?,
                n("dP")?,
                n("dP_test")?,
                row.maybe("bubble_point"),
            )?,
            "diffusive_flow.assembly_expected" => row.all("Q_module")?.iter().sum(),
            "flow.to_reference_conditions" => {
                finite(n("Q_actual")?)? * positive("pressure", n("p_abs")?)?
                    / positive("reference pressure", n("p_ref")?)?
                    * kelvin(n("T_ref")?, 200.0, 400.0)?
                    / kelvin(n("T")?, 200.0, 500.0)?
            }
            "pressure_hold.flow" => {
                let [from, to] = row.states()?;
                let flow = filter::hold_flow(n("V_up")?, from, to, n("dt")?, row.reference()?)?;
                match row.maybe("u_Q") {
                    Some(u) if flow < -2.0 * u => {
                        return Err("pressure rose: negative flow beyond its uncertainty".into());
                    }
                    _ => flow,
                }
            }
            "pressure_hold.flow_from_gauge" => {
                let from = (n("p1_gauge")? + n("p_atm1")?, n("T1")?);
                let to = (n("p2_gauge")? + n("p_atm2")?, n("T2")?);
                filter::hold_flow(n("V_up")?, from, to, n("dt")?, row.reference()?)?
            }
            "pressure_hold.flow_wet_gas" => {
                let dry = |(p, t): (f64, f64)| -> Result<(f64, f64), String> {
                    Ok((p - fluid::saturation_pressure(t)?, t))
                };
                let [from, to] = row.states()?;
                filter::hold_flow(n("V_up")?, dry(from)?, dry(to)?, n("dt")?, row.reference()?)?
            }
            "pressure_hold.flow_u" => {
                let [from, to] = row.states()?;
                let u = [n("u_V")?, n("u_p")?, n("u_T")?, n("u_dt")?];
                filter::hold_flow_u(
                    n("V_up")?,
                    from,
                    to,
                    n("dt")?,
                    row.reference()?,
                    u,
                    n("r_p12")?,
                    n("r_T12")?,
                )?
            }
            "pressure_hold.allowed_decay" => filter::allowed_decay(
                n("Q_limit")?,
                n("V_up")?,
                n("T")?,
                n("dt")?,
                row.reference()?,
            )?,
            "pressure_hold.flow_at_test_pressure" => {
                filter::at_test_pressure(n("Q_mean")?, n("dP1")?, n("dP2")?, n("dP_test")?)?
            }
            "pressure_hold.fit_time_constant" => {
                filter::decay(row.all("t")?, row.all("dP_gauge")?)?.1
            }
            "pressure_hold.fit_time_constant_u" => {
                filter::decay(row.all("t")?, row.all("dP_gauge")?)?.2
            }
            "pressure_hold.fit_flow" => {
                let tau = filter::decay(row.all("t")?, row.all("dP_gauge")?)?.1;
                positive("volume", n("V_up")?)? * kelvin(n("T_ref")?, 200.0, 400.0)?
                    / (positive("reference pressure", n("p_ref")?)?
                        * kelvin(n("T")?, 200.0, 500.0)?)
                    * positive("test pressure", n("dP_test")?)?
                    / tau
            }
            "upstream_volume.gas_expansion" => filter::volume_by_expansion(
                n("V_ref")?,
                n("p_ref_vessel_abs")?,
                n("p_up_initial_abs")?,
                n("p_final_abs")?,
            )?,
            "join.residual_flow" => leak::residual(
                n("Q_assembly")?,
                row.all("Q_modules")?,
                row.maybe("modules_in_assembly").map(|n| n as usize),
                row.maybe("u_residual"),
            )?,
            "join.residual_flow_u" => row.doubts()?.u(leak::residual(
                n("Q_assembly")?,
                row.all("Q_modules")?,
                None,
                None,
            )?),
            "join.decision_threshold" => row.doubts()?.threshold(n("alpha")?)?,
            "join.detection_limit" => row.doubts()?.detection_limit(n("alpha")?, n("beta")?)?,
            "join.conformance_probability" => {
                let r = leak::residual(n("Q_assembly")?, row.all("Q_modules")?, None, None)?;
                stats::distribution::normal_cdf((n("limit")? - r) / row.doubts()?.u(r))
            }
            "leak.critical_pressure_ratio" => leak::critical_ratio(n("gamma_gas")?)?,
            "leak.orifice_diameter_choked" => row.jet()?.diameter(true)?,
            "leak.orifice_diameter_subcritical" => row.jet()?.diameter(false)?,
            "leak.capillary_diameter_laminar" => leak::laminar_diameter(
                n("Q_leak")?,
                n("p_ref")?,
                n("T_ref")?,
                n("p_up_abs")?,
                n("p_down_abs")?,
                n("T")?,
                n("mu_gas")?,
                n("wall")?,
            )?,
            "leak.capillary_opening_diameter" => {
                filter::bubble_point(1.0, row.tension()?, n("theta")?, n("dP")?)?
            }
            "leak.bypass_limited_LRV" => leak::bypass_log_reduction(
                n("d_hole")?,
                n("Cd")?,
                n("dP_liquid")?,
                n("T")?,
                n("Q_total")?,
            )?,
            "water_intrusion.liquid_flow" => {
                let [(p1, t1), (p2, t2)] = row.states()?;
                for (p, t) in [(p1, t1), (p2, t2)] {
                    positive("absolute pressure", p)?;
                    kelvin(t, 200.0, 500.0)?;
                }
                positive("gas volume", n("V_gas")?)? / positive("duration", n("dt")?)?
                    * (p1 * t2 / (p2 * t1) - 1.0)
            }
            "water_intrusion.gas_equivalent_flow" => {
                let [from, to] = row.states()?;
                filter::hold_flow(n("V_gas")?, from, to, n("dt")?, row.reference()?)?
            }
            "water_intrusion.breakthrough_pressure" => {
                let angle = n("theta")?;
                if angle <= 90.0 {
                    return Err("the liquid wets: there is no breakthrough pressure".into());
                }
                filter::bubble_point(n("k")?, row.tension()?, 180.0 - angle, n("d")?)?
            }
            "water_flow.flow_at_20C" => {
                positive("flow", n("Q")?)? * fluid::viscosity(n("T")?, 1e5)?
                    / fluid::viscosity(n("T_ref")?, 1e5)?
            }
            "water_flow.dP_at_20C_laminar" => {
                positive("pressure difference", n("dP")?)? * fluid::viscosity(n("T_ref")?, 1e5)?
                    / fluid::viscosity(n("T")?, 1e5)?
            }
            "water_flow.dP_at_20C_split" => {
                let (q, t, reference) = (n("Q")?, n("T")?, n("T_ref")?);
                positive("flow", q)?;
                positive("linear part", n("a")?)? * fluid::viscosity(reference, 1e5)?
                    / fluid::viscosity(t, 1e5)?
                    * q
                    + n("b")? * fluid::density(reference, 1e5)? / fluid::density(t, 1e5)? * q * q
            }
            "water_flow.fit_a" => filter::flow_resistance(row.all("Q")?, row.all("dP")?)?.linear,
            "water_flow.fit_b" => filter::flow_resistance(row.all("Q")?, row.all("dP")?)?.quadratic,
            "water_flow.fit_u_a" => {
                filter::flow_resistance(row.all("Q")?, row.all("dP")?)?.u_linear
            }
            "water_flow.clean_flow_recovery" => {
                let one = |q: &str, dp: &str, t: &str| -> Answer {
                    Ok(positive("flow", n(q)?)? * fluid::viscosity(n(t)?, 1e5)?
                        / positive("dP", n(dp)?)?)
                };
                one("Q_after", "dP_after", "T_after")? / one("Q_ref", "dP_ref", "T_ref_test")?
            }
            "water_flow.decay_per_cycle" => {
                filter::recovery_decay(row.all("cycle")?, row.all("recovery")?)?.0
            }
            "water_flow.cycles_to_threshold" => {
                let (rate, begin) =
                    filter::recovery_decay(row.all("cycle")?, row.all("recovery")?)?;
                libm::log(begin / positive("threshold", n("threshold")?)?)
                    / positive("decay a cycle", rate)?
            }
            "membrane.resistance" => {
                positive("dP", n("dP")?)? * positive("area", n("A")?)?
                    / (fluid::viscosity(n("T")?, 1e5)? * positive("flow", n("Q")?)?)
            }
            "retention.LRV" => exposure::log_reduction(
                n("challenge_total")?,
                n("filtrate_count")?,
                row.or("assayed_fraction", 1.0),
            )?,
            "retention.LRV_lower_bound" => exposure::log_reduction_bound(
                n("challenge_total")?,
                n("filtrate_count")?,
                row.or("assayed_fraction", 1.0),
                row.maybe("confidence_one_sided")
                    .or(row.maybe("confidence"))
                    .unwrap_or(0.95),
            )?,
            "retention.LRV_lower_bound_both_counts" => exposure::log_reduction_bound_of_counts(
                n("filtrate_count")?,
                n("assayed_fraction")?,
                n("challenge_plate_count")?,
                n("plated_fraction_of_challenge")?,
                n("confidence_one_sided")?,
            )?,
            "retention.poisson_upper" => {
                stats::proportion::poisson_upper(n("n")?, one_side(n("confidence_two_sided")?)?)?
            }
            "retention.poisson_lower" => {
                stats::proportion::poisson_lower(n("n")?, one_side(n("confidence_two_sided")?)?)?
            }
            "retention.poisson_upper_one_sided" => {
                stats::proportion::poisson_upper(n("n")?, n("confidence_one_sided")?)?
            }
            "retention.challenge_density" => {
                positive("challenge", n("challenge_total")?)?
                    / (positive("area", n("area")?)? * 1e4)
            }
            "retention.minimum_challenge" => {
                positive("density", n("required_density")?)? * positive("area", n("area")?)? * 1e4
            }
            "retention.beta" => {
                positive("upstream", n("upstream_count")?)?
                    / positive("downstream", n("downstream_count")?)?
            }
            "retention.efficiency_from_beta" => 1.0 - 1.0 / positive("beta", n("beta")?)?,
            "lethality.rate" => exposure::rate(n("T")?, n("T_ref")?, n("z")?)?,
            "lethality.F0_trapezoid" | "lethality.F0_trapezoid_cutoff" => {
                row.lethal(n("T_ref")?, n("z")?, Rule::Trapezium)?
            }
            "lethality.F0_logmean" => row.lethal(n("T_ref")?, n("z")?, Rule::LogMean)?,
            "lethality.F" | "lethality.pasteurisation_units" => {
                row.lethal(n("T_ref")?, n("z")?, Rule::Trapezium)?
            }
            "lethality.pasteurisation_units_1393" => row.lethal(
                60.0,
                std::f64::consts::LN_10 / libm::log(1.393),
                Rule::Trapezium,
            )?,
            "lethality.A0" | "lethality.A0_trace" => {
                let row = Row {
                    numbers: row.numbers.clone(),
                    words: BTreeMap::new(),
                };
                let mut row = row;
                row.numbers.entry("T_min".into()).or_insert(vec![65.0]);
                row.lethal(80.0, 10.0, Rule::Trapezium)?
            }
            "ageing.arrhenius_equivalent_time" | "ageing.arrhenius_trace" => {
                exposure::ageing(row.all("t")?, row.all("T")?, n("T_ref")?, n("Ea")?)?
            }
            "chemical.exposure" => exposure::chemical(row.all("t")?, row.all("c")?)?,
            "expansion.diametral_mismatch" => {
                let part = exposure::expansion_coefficient(n("alpha_inner")?)?
                    - exposure::expansion_coefficient(n("alpha_outer")?)?;
                positive("diameter", n("D")?)? * part * warmer(row)?
            }
            "expansion.clearance_hot" => exposure::clearance(
                positive("bore", n("D_outer_bore")?)?,
                positive("part", n("D_inner")?)?,
                n("alpha_outer")?,
                n("alpha_inner")?,
                warmer(row)?,
            )?,
            "expansion.clearance_needed_cold" => {
                let (bore, warmer) = (positive("bore", n("D_outer_bore")?)?, warmer(row)?);
                let hot =
                    bore * (1.0 + exposure::expansion_coefficient(n("alpha_outer")?)? * warmer);
                bore - (hot - finite(n("clearance_min_hot")?)?)
                    / (1.0 + exposure::expansion_coefficient(n("alpha_inner")?)? * warmer)
            }
            "expansion.axial_mismatch" => {
                positive("length", n("length")?)?
                    * (exposure::expansion_coefficient(n("alpha_cage")?)?
                        - exposure::expansion_coefficient(n("alpha_pack")?)?)
                    * warmer(row)?
            }
            "geometry.effective_area" => {
                exposure::pleated_area(n("pleats")?, n("pleat_height")?, n("effective_width")?)?
            }
            "geometry.effective_area_u" => {
                let (height, width) = (n("pleat_height")?, n("effective_width")?);
                let area = exposure::pleated_area(n("pleats")?, height, width)?;
                let u = |key: &str| match n(key)? {
                    u if u.is_finite() && u >= 0.0 => Ok(u),
                    _ => Err("a standard uncertainty must be >= 0".to_owned()),
                };
                propagated(&[area / height * u("u_height")?, area / width * u("u_width")?])
            }
            "geometry.max_pleats" => libm::floor(
                std::f64::consts::PI * positive("core", n("core_diameter")?)?
                    / (2.0 * positive("pack", n("pack_thickness")?)?),
            ),
            "material.linear_expansion" | "material.linear_expansion_low" => {
                exposure::linear_expansion(row.word("material")?)?.0
            }
            "material.linear_expansion_high" => {
                exposure::linear_expansion(row.word("material")?)?.1
            }
            // Lengths of the file stay in their unit.
            "geometry.slit_width_tolerance" => exposure::SLIT_WIDTH_TOLERANCE * 1e3,
            "uncertainty.montecarlo_four_rectangular" => {
                let spreads: Vec<Spread> = row
                    .all("half_width")?
                    .iter()
                    .map(|a| Spread::Rectangular(-a, *a))
                    .collect();
                let sample = metrology::monte_carlo(&spreads, TRIALS, metrology::SEED, |x| {
                    Ok(x.iter().sum())
                })?;
                let (low, high) = sample.symmetric(n("p")?);
                (high - low) / 2.0
            }
            "uncertainty.montecarlo_mass_u" | "uncertainty.montecarlo_mass_mean" => {
                let names = [
                    "m_Rc", "dm_Rc", "rho_a", "rho_W", "rho_R", "rho_a0", "m_nom",
                ];
                let spreads: Result<Vec<Spread>, String> =
                    names.iter().map(|name| row.spread(name)).collect();
                // JCGM 101:2008, 9.3: mass of a weight from a comparison in air.
                let sample = metrology::monte_carlo(&spreads?, TRIALS, metrology::SEED, |x| {
                    let (reference, more, air, own, other, normal, nominal) =
                        (x[0], x[1], x[2], x[3], x[4], x[5], x[6]);
                    Ok(
                        (reference + more) * (1.0 + (air - normal) * (1.0 / own - 1.0 / other))
                            - nominal,
                    )
                })?;
                let (mean, sd) = sample.mean_and_sd();
                if name.ends_with("_u") { sd } else { mean }
            }
            "conformity.process_nonconforming" => {
                metrology::nonconforming(row.prior()?, row.ends("T"))?
            }
            "conformity.global_consumer_risk" => metrology::consumer_risk(
                row.prior()?,
                row.width("u_m")?,
                row.ends("T"),
                row.ends("A"),
            )?,
            "conformity.global_producer_risk" => metrology::producer_risk(
                row.prior()?,
                row.width("u_m")?,
                row.ends("T"),
                row.ends("A"),
            )?,
            "uncertainty.gum_H1_length" => n("l_S")? + n("d")?,
            "uncertainty.gum_H1_uc" => {
                let (l, theta, alpha) = (n("l_S")?, n("theta")?, n("alpha_S")?);
                propagated(&[
                    n("u_lS")?,
                    n("u_d")?,
                    l * theta * n("u_dalpha")?,
                    l * alpha * n("u_dtheta")?,
                ])
            }
            "uncertainty.gum_H2_R" => simultaneous(row)?.0,
            "uncertainty.gum_H2_u_R" => simultaneous(row)?.1,
            "uncertainty.gum_H2_r_RX" => simultaneous(row)?.2,
            "uncertainty.gum_H3_intercept" => line(row)?.0,
            "uncertainty.gum_H3_slope" => line(row)?.1,
            "uncertainty.gum_H3_u_intercept" => line(row)?.2,
            "uncertainty.welch_satterthwaite" => {
                let (u, nu) = (row.all("u_rel")?, row.all("nu")?);
                let total: f64 = u.iter().map(|u| u * u).sum();
                total * total
                    / u.iter()
                        .zip(nu)
                        .map(|(u, nu)| u * u * u * u / nu)
                        .sum::<f64>()
            }
            "uncertainty.t_factor" => {
                stats::distribution::t_quantile((1.0 + n("p")?) / 2.0, n("nu")?)?
            }
            "uncertainty.nist_E13_alpha" => {
                (n("L1")? - n("L0")?) / (n("L0")? * (n("T1")? - n("T0")?))
            }
            "uncertainty.propagation" => match n("u")? {
                u if u >= 0.0 => u,
                _ => return Err("a standard uncertainty must be >= 0".into()),
            },
            "conformity.z_for_probability" => stats::distribution::normal_quantile(n("p_c")?)?,
            "conformity.probability_upper" => {
                stats::distribution::normal_cdf((n("T_U")? - n("y")?) / positive("u", n("u")?)?)
            }
            "conformity.probability_at_guarded_limit" => {
                stats::distribution::normal_cdf(n("guard_factor_r")? * n("U_over_u")?)
            }
            "conformity.guarded_acceptance_limit" => {
                n("T_U")? - n("factor")? * positive("u", n("u")?)?
            }
            _ => return Err("\u{0}".into()),
        })
    })())
    .filter(|answer| !matches!(answer, Err(why) if why == "\u{0}"))
}

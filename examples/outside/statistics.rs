//! Objects of `id, method, inputs, expected, rel_tol, source, …`.

use sealfolio::stats;
use serde_json::{Map, Value, json};

use crate::Outcome;

fn list(value: &Value) -> Option<Vec<f64>> {
    value.as_array()?.iter().map(Value::as_f64).collect()
}

/// What the program computes for a method, under the names of the check file.
fn method(name: &str, inputs: &Value) -> Option<Result<Value, String>> {
    let x = || list(&inputs["x"]).ok_or("x is no list of numbers".to_owned());
    let number = |key: &str| inputs[key].as_f64().ok_or(format!("{key} is missing"));
    Some((|| -> Result<Value, String> {
        Ok(match name {
            "summary" => {
                let x = x()?;
                let (mean, sd) = stats::mean_and_sd(&x)?;
                json!({"n": x.len(), "mean": mean, "sd": sd, "lag1_autocorrelation": stats::lag1_autocorrelation(&x)?})
            }
            "chart_individuals" => {
                let chart = stats::individuals(&x()?)?;
                json!({"center": chart.centre, "mr_bar": chart.mean_range, "sigma": chart.sigma, "ucl": chart.limits.1, "lcl": chart.limits.0,
                    "mr_ucl": chart.range_limit, "beyond": chart.beyond, "mr_beyond": chart.range_beyond})
            }
            "poisson_ci" => {
                let (count, exposure, confidence) = (number("count")?, inputs["exposure"].as_f64().unwrap_or(1.0), number("confidence")?);
                let each = match inputs["sides"].as_u64() {
                    Some(1) => confidence,
                    _ => (1.0 + confidence) / 2.0,
                };
                let (lower, upper) = (stats::poisson_lower(count, each)? / exposure, stats::poisson_upper(count, each)? / exposure);
                let rate = count / exposure;
                match inputs["sides"].as_u64() {
                    Some(1) => json!({"rate": rate, "lower_one_sided": lower, "upper_one_sided": upper}),
                    _ => json!({"rate": rate, "lower": lower, "upper": upper}),
                }
            }
            "mean_ci" => {
                let x = x()?;
                let (mean, sd) = stats::mean_and_sd(&x)?;
                let n = x.len() as f64;
                let error = sd / libm::sqrt(n);
                let half = stats::t_quantile((1.0 + number("confidence")?) / 2.0, n - 1.0)? * error;
                json!({"mean": mean, "sd": sd, "standard_error": error, "lower": mean - half, "upper": mean + half})
            }
            "sd_ci" => {
                let x = x()?;
                let (_, sd) = stats::mean_and_sd(&x)?;
                let (nu, tail) = (x.len() as f64 - 1.0, (1.0 - number("confidence")?) / 2.0);
                let bound = |p: f64| -> Result<f64, String> { Ok(sd * libm::sqrt(nu / stats::chi_squared_quantile(p, nu)?)) };
                json!({"sd": sd, "lower": bound(1.0 - tail)?, "upper": bound(tail)?})
            }
            "variables_decision" => {
                let x = x()?;
                let (mean, sd) = stats::mean_and_sd(&x)?;
                let k = number("k")?;
                let upper = inputs["usl"].as_f64().map(|limit| (limit - mean) / sd);
                let lower = inputs["lsl"].as_f64().map(|limit| (mean - limit) / sd);
                let mut out = Map::new();
                out.insert("mean".into(), mean.into());
                out.insert("sd".into(), sd.into());
                out.extend(upper.map(|q| ("q_upper".into(), q.into())));
                out.extend(lower.map(|q| ("q_lower".into(), q.into())));
                out.insert("accept".into(), upper.into_iter().chain(lower).all(|q| q >= k).into());
                Value::Object(out)
            }
            "success_run_reliability" => {
                json!({"reliability_lower": stats::reliability_lower(number("n")?, number("failures")?, number("confidence")?)?})
            }
            "gauge_rr" => {
                let values: Vec<Vec<Vec<f64>>> = serde_json::from_value(inputs["values"].clone()).map_err(|error| error.to_string())?;
                let study = stats::gauge_study(&values, inputs["alpha_interaction"].as_f64().unwrap_or(0.25))?;
                let grr = study.repeatability + study.operator + study.both;
                let total = grr + study.part;
                let root = libm::sqrt;
                let mut out = json!({
                    "ss_part": study.squares[0], "ss_operator": study.squares[1], "ss_interaction": study.squares[2], "ss_repeatability": study.squares[3],
                    "f_interaction": study.interaction.0, "p_interaction": study.interaction.1, "pooled": study.pooled,
                    "var_repeatability": study.repeatability, "var_operator": study.operator, "var_interaction": study.both,
                    "var_reproducibility": study.operator + study.both, "var_grr": grr, "var_part": study.part, "var_total": total,
                    "pct_study_variation_grr": 100.0 * root(grr / total), "pct_contribution_grr": 100.0 * grr / total,
                    "ndc": libm::floor(root(2.0) * root(study.part) / root(grr)) as i64,
                });
                if let Some(tolerance) = inputs["tolerance"].as_f64() {
                    out["pct_tolerance_grr"] = (100.0 * 6.0 * root(grr) / tolerance).into();
                }
                out
            }
            _ => return Err("\u{0}".into()),
        })
    })())
    .filter(|answer| !matches!(answer, Err(why) if why == "\u{0}"))
}

fn agree(expected: &Value, found: &Value, tolerance: f64, path: &str, wrong: &mut Vec<String>) {
    match (expected, found) {
        (Value::Object(expected), _) => expected.iter().for_each(|(key, value)| {
            agree(
                value,
                &found[key],
                tolerance,
                &format!("{path}/{key}"),
                wrong,
            )
        }),
        (Value::Array(a), Value::Array(b)) if a.len() == b.len() => a
            .iter()
            .zip(b)
            .for_each(|(a, b)| agree(a, b, tolerance, path, wrong)),
        (Value::Number(_), Value::Number(_)) => {
            let (a, b) = (
                expected.as_f64().unwrap_or(f64::NAN),
                found.as_f64().unwrap_or(f64::NAN),
            );
            let close = if a == 0.0 {
                b.abs() <= tolerance
            } else {
                (b / a - 1.0).abs() <= tolerance
            };
            if !close {
                wrong.push(format!("{path}: {b}, expected {a}"));
            }
        }
        _ if expected == found => {}
        _ => wrong.push(format!("{path}: {found}, expected {expected}")),
    }
}

/// Every row with what became of it.
pub fn rows(file: &str) -> Result<Vec<(String, Outcome)>, String> {
    let text = std::fs::read_to_string(file).map_err(|error| error.to_string())?;
    let all: Vec<Value> = serde_json::from_str(&text).map_err(|error| error.to_string())?;
    let one = |row: &Value| {
        let name = row["id"].as_str().unwrap_or("unnamed").to_owned();
        let tolerance = row["rel_tol"].as_f64().unwrap_or(0.0);
        let outcome = match method(row["method"].as_str().unwrap_or_default(), &row["inputs"]) {
            None => Outcome::NotSupported("no such method".into()),
            Some(answer) => {
                let refused = row["expected"].get("error").is_some()
                    || row["expected"]
                        .as_str()
                        .is_some_and(|text| text.starts_with("error"));
                match answer {
                    Err(why) if refused => Outcome::Inside(format!("refused: {why}")),
                    Err(why) => Outcome::Outside(format!("refused: {why}")),
                    Ok(_) if refused => {
                        Outcome::Outside("gave a value where it must refuse".into())
                    }
                    Ok(found) => {
                        let mut wrong = Vec::new();
                        agree(&row["expected"], &found, tolerance, "", &mut wrong);
                        if wrong.is_empty() {
                            Outcome::Inside(String::new())
                        } else {
                            Outcome::Outside(wrong.join("; "))
                        }
                    }
                }
            }
        };
        (name, outcome)
    };
    Ok(all.iter().map(one).collect())
}

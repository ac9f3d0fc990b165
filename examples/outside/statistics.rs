//! Objects of `id, method, inputs, expected, rel_tol, source, …`.

use sealfolio::stats::{Reason, Refusal};
use serde_json::Value;

use crate::{Outcome, figures, figures::Agreements, methods, series};

/// What a method of the check files may answer.
pub enum Answer {
    /// The program has no such method.
    Unknown,
    /// It refuses, with the code of its reason.
    Refused(&'static str),
    /// Its figures, under the names of the check file.
    Found(Value),
}

impl From<Refusal> for Answer {
    fn from(refusal: Refusal) -> Self {
        Self::Refused(refusal.reason.code())
    }
}

/// Inputs of a case.
pub struct Inputs<'a>(pub &'a Value);

fn as_number(value: &Value) -> Option<f64> {
    match value.as_str() {
        Some("NaN") => Some(f64::NAN),
        Some("Infinity") => Some(f64::INFINITY),
        Some("-Infinity") => Some(f64::NEG_INFINITY),
        _ => value.as_f64(),
    }
}

fn missing<T>(key: &str) -> Result<T, Refusal> {
    Err(Refusal {
        reason: Reason::BadParameter,
        why: format!("{key} is missing"),
    })
}

impl Inputs<'_> {
    /// A number.
    pub fn n(&self, key: &str) -> Result<f64, Refusal> {
        self.maybe(key).map_or_else(|| missing(key), Ok)
    }

    /// A number, where it is given.
    pub fn maybe(&self, key: &str) -> Option<f64> {
        as_number(&self.0[key])
    }

    /// A whole number that is not negative.
    pub fn whole(&self, key: &str) -> Result<u64, Refusal> {
        let n = self.n(key)?;
        let refuse = |reason, why: &str| {
            Err(Refusal {
                reason,
                why: format!("{key} is {n}: {why}"),
            })
        };
        match n {
            n if !n.is_finite() => refuse(Reason::NonFinite, "no number"),
            n if n < 0.0 => refuse(Reason::NegativeCount, "below zero"),
            n if n != n.trunc() => refuse(Reason::NotInteger, "no whole number"),
            n => Ok(n as u64),
        }
    }

    /// A word.
    pub fn word(&self, key: &str) -> &str {
        self.0[key].as_str().unwrap_or_default()
    }

    /// A list of numbers.
    pub fn list(&self, key: &str) -> Result<Vec<f64>, Refusal> {
        numbers(&self.0[key]).map_or_else(|| missing(key), Ok)
    }

    /// A list of lists of numbers.
    pub fn lists(&self, key: &str) -> Result<Vec<Vec<f64>>, Refusal> {
        let all = self.0[key]
            .as_array()
            .and_then(|lists| lists.iter().map(numbers).collect());
        all.map_or_else(|| missing(key), Ok)
    }

    /// A list of flags.
    pub fn flags(&self, key: &str) -> Result<Vec<bool>, Refusal> {
        let flag = |value: &Value| value.as_bool().or_else(|| value.as_f64().map(|n| n != 0.0));
        let all = self.0[key]
            .as_array()
            .and_then(|flags| flags.iter().map(flag).collect());
        all.map_or_else(|| missing(key), Ok)
    }

    /// Whether one side is asked for.
    pub fn one_sided(&self) -> bool {
        let named = matches!(self.word("side"), "upper" | "lower");
        self.0["sides"].as_u64().map_or(named, |sides| sides == 1)
    }
}

fn numbers(value: &Value) -> Option<Vec<f64>> {
    value.as_array()?.iter().map(as_number).collect()
}

fn answer(method: &str, inputs: &Value) -> Answer {
    let inputs = Inputs(inputs);
    match methods::answer(method, &inputs).or_else(|| series::answer(method, &inputs)) {
        None => Answer::Unknown,
        Some(Ok(found)) => Answer::Found(found),
        Some(Err(refusal)) => refusal.into(),
    }
}

fn agree(expected: &Value, found: &Value, within: (f64, f64), path: &str, wrong: &mut Vec<String>) {
    match (expected, found) {
        (Value::Object(expected), _) => {
            for (key, value) in expected {
                agree(value, &found[key], within, &format!("{path}/{key}"), wrong);
            }
        }
        // One limit for all points, written once or for each.
        (Value::Array(a), Value::Number(_)) => {
            for a in a {
                agree(a, found, within, path, wrong);
            }
        }
        (Value::Array(a), Value::Array(b)) if a.len() == b.len() => {
            for (a, b) in a.iter().zip(b) {
                agree(a, b, within, path, wrong);
            }
        }
        (Value::Number(_), Value::Number(_)) => {
            let of = |value: &Value| value.as_f64().unwrap_or(f64::NAN);
            let (a, b) = (of(expected), of(found));
            let off = (b - a).abs();
            // Not `off > allowed`: a value that is no number must not pass.
            if off.is_nan() || off > (within.0 * a.abs()).max(within.1) {
                wrong.push(format!("{path}: {b}, expected {a}"));
            }
        }
        _ if expected == found => {}
        _ => wrong.push(format!("{path}: {found}, expected {expected}")),
    }
}

/// Digits in which the worst number of a case agrees, for the certified ones.
fn digits(expected: &Value, found: &Value) -> f64 {
    match (expected, found) {
        (Value::Object(expected), _) => expected
            .iter()
            .map(|(key, value)| digits(value, &found[key]))
            .fold(16.0, f64::min),
        (Value::Array(a), Value::Array(b)) => a
            .iter()
            .zip(b)
            .map(|(a, b)| digits(a, b))
            .fold(16.0, f64::min),
        (Value::Number(a), Value::Number(b)) => {
            let (a, b) = (
                a.as_f64().unwrap_or(f64::NAN),
                b.as_f64().unwrap_or(f64::NAN),
            );
            let off = if a == 0.0 {
                b.abs()
            } else {
                (b / a - 1.0).abs()
            };
            (-libm::log10(off)).clamp(0.0, 16.0)
        }
        _ => 16.0,
    }
}

/// Every row with what became of it.
pub fn rows(file: &str, agreements: &mut Agreements) -> Result<Vec<(String, Outcome)>, String> {
    let text = std::fs::read_to_string(file).map_err(|error| error.to_string())?;
    let all: Vec<Value> = serde_json::from_str(&text).map_err(|error| error.to_string())?;
    Ok(all
        .iter()
        .map(|case| {
            let (name, outcome) = row(case);
            match (&outcome, by_figures(case, agreements)) {
                (Outcome::Inside(_), Err(why)) => (name, Outcome::Outside(why)),
                _ => (name, outcome),
            }
        })
        .collect())
}

/// The same case through the figures that it is about.
fn by_figures(case: &Value, agreements: &mut Agreements) -> Result<(), String> {
    let method = case["method"].as_str().unwrap_or_default();
    for (through, name) in figures::statistics(method, &Inputs(&case["inputs"])) {
        let Some(mut expected) = case["expected"][name].as_f64() else {
            continue;
        };
        // Cycles are whole: the figure rounds its crossing down.
        if through.figure == "element-cycles-supported" {
            expected = libm::floor(expected);
        }
        let found = through
            .value()
            .map_err(|why| format!("figure {}: {why}", through.figure))?;
        let allowed = case["rel_tol"].as_f64().unwrap_or(0.0) * expected.abs();
        if (found - expected).abs() > allowed {
            return Err(format!(
                "figure {}: {found}, expected {expected}",
                through.figure
            ));
        }
        let kind = case["kind"].as_str().unwrap_or_default();
        agreements.add(through.figure, expected, found, kind);
    }
    Ok(())
}

fn row(row: &Value) -> (String, Outcome) {
    let name = row["id"].as_str().unwrap_or("unnamed").to_owned();
    let source = row["source"].as_str().unwrap_or("no source");
    let expected = &row["expected"];
    let refused = expected.get("error").and_then(Value::as_str);
    let method = row["method"].as_str().unwrap_or_default();
    let outcome = match (answer(method, &row["inputs"]), refused) {
        (Answer::Unknown, _) => Outcome::NotSupported(format!("no method {method}")),
        (Answer::Refused(code), Some(due)) if code == due => {
            Outcome::Inside(format!("refused: {code} — {source}"))
        }
        (Answer::Refused(code), Some(due)) => {
            Outcome::Outside(format!("refused: {code}, expected {due} — {source}"))
        }
        (Answer::Refused(code), None) => {
            Outcome::Outside(format!("refused: {code}, expected a value — {source}"))
        }
        (Answer::Found(_), Some(due)) => Outcome::Outside(format!(
            "gave a value, expected the refusal {due} — {source}"
        )),
        (Answer::Found(found), None) => {
            let within = (
                row["rel_tol"].as_f64().unwrap_or(0.0),
                row["abs_tol"].as_f64().unwrap_or(0.0),
            );
            let mut wrong = Vec::new();
            agree(expected, &found, within, "", &mut wrong);
            match wrong.is_empty() {
                true => {
                    Outcome::Inside(format!("{:.1} digits — {source}", digits(expected, &found)))
                }
                false => Outcome::Outside(format!("{} — {source}", wrong.join("; "))),
            }
        }
    };
    (name, outcome)
}

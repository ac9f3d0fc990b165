//! One line a method of the check files on series in production order.

use sealfolio::stats::{Refusal, control, order, regression, runs};
use serde_json::{Map, Value, json};

use crate::statistics::Inputs;

type Found = Result<Value, Refusal>;

/// The program's answer; nothing where it has no such method.
pub fn answer(method: &str, inputs: &Inputs) -> Option<Found> {
    Some(match method {
        "chart_constants" => factors(inputs),
        "chart_individuals" => individuals(inputs),
        "chart_xbar_r" => subgroups(inputs, control::Spread::Range, "r"),
        "chart_xbar_s" => subgroups(inputs, control::Spread::Deviation, "s"),
        "chart_p" | "chart_np" | "chart_c" | "chart_u" => counts(method, inputs),
        "chart_ewma" => weighted(inputs),
        "chart_cusum" => cumulative(inputs),
        "run_rules" => patterns(inputs),
        "mann_kendall" => mann_kendall(inputs),
        "theil_sen" => theil_sen(inputs),
        "pettitt" => pettitt(inputs),
        "change_point_mean" => shift(inputs),
        "runs_test" => sides(inputs),
        _ => return None,
    })
}

/// Positions as the check files count them: from 1.
fn places(indices: &[usize]) -> Vec<usize> {
    indices.iter().map(|i| i + 1).collect()
}

fn factors(i: &Inputs) -> Found {
    let f = control::factors(i.whole("n")? as usize)?;
    Ok(
        json!({"d2": f.d2, "d3": f.d3, "c4": f.c4, "A2": f.a2, "A3": f.a3, "B3": f.b.0, "B4": f.b.1,
        "D3": f.d.0, "D4": f.d.1, "E2": f.e2}),
    )
}

fn individuals(i: &Inputs) -> Found {
    let chart = control::individuals(&i.list("x")?)?;
    Ok(json!({
        "center": chart.centre, "mr_bar": chart.mean_range, "sigma": chart.sigma,
        "ucl": chart.limits.1, "lcl": chart.limits.0, "mr_ucl": chart.range_limit,
        "beyond": places(&chart.beyond), "mr_beyond": places(&chart.range_beyond),
    }))
}

fn subgroups(i: &Inputs, by: control::Spread, name: &str) -> Found {
    let chart = control::subgroups(&i.lists("subgroups")?, by)?;
    let mut out = json!({
        "center": chart.centre, "sigma": chart.sigma, "ucl": chart.limits.1, "lcl": chart.limits.0,
        "beyond": places(&chart.beyond),
    });
    out[format!("{name}_bar")] = chart.spread.into();
    out[format!("{name}_ucl")] = chart.spread_limits.1.into();
    out[format!("{name}_lcl")] = chart.spread_limits.0.into();
    out[format!("{name}_beyond")] = places(&chart.spread_beyond).into();
    if let Ok(later) = i.lists("phase2_subgroups") {
        out["phase2_beyond"] = places(&chart.later_beyond(&later)?).into();
    }
    Ok(out)
}

/// Sizes of samples: one for all, or one each.
fn sizes(i: &Inputs, count: usize) -> Result<Vec<f64>, Refusal> {
    match i.maybe("n") {
        Some(n) => Ok(vec![n; count]),
        None => i.list("n"),
    }
}

fn counts(method: &str, i: &Inputs) -> Found {
    let chart = match method {
        "chart_p" => {
            let d = i.list("d")?;
            control::shares(&d, &sizes(i, d.len())?)?
        }
        "chart_np" => control::numbers(&i.list("d")?, i.n("n")?)?,
        "chart_c" => control::defects(&i.list("c")?)?,
        _ => {
            let c = i.list("c")?;
            control::rates(&c, &sizes(i, c.len())?)?
        }
    };
    let one = chart.limits.windows(2).all(|pair| pair[0] == pair[1]);
    let limit = |f: fn(&control::Band) -> f64| -> Value {
        match one {
            true => f(&chart.limits[0]).into(),
            false => chart.limits.iter().map(f).collect::<Vec<f64>>().into(),
        }
    };
    Ok(
        json!({"center": chart.centre, "ucl": limit(|band| band.1), "lcl": limit(|band| band.0),
        "beyond": places(&chart.beyond)}),
    )
}

fn weighted(i: &Inputs) -> Found {
    let chart = control::weighted(
        &i.list("x")?,
        i.n("target")?,
        i.n("sigma")?,
        i.n("lambda")?,
        i.n("L")?,
    )?;
    Ok(json!({
        "z": chart.z, "ucl_steady": chart.steady.1, "lcl_steady": chart.steady.0,
        "ucl": chart.limits.iter().map(|band| band.1).collect::<Vec<f64>>(),
        "lcl": chart.limits.iter().map(|band| band.0).collect::<Vec<f64>>(),
        "beyond_exact": places(&chart.beyond.0), "beyond_steady": places(&chart.beyond.1),
    }))
}

fn cumulative(i: &Inputs) -> Found {
    let chart = control::cumulative(
        &i.list("x")?,
        i.n("target")?,
        i.n("sigma")?,
        i.n("k")?,
        i.n("h")?,
    )?;
    Ok(json!({"upper": chart.upper, "lower": chart.lower,
        "signal_upper": places(&chart.signals.0), "signal_lower": places(&chart.signals.1)}))
}

fn patterns(i: &Inputs) -> Found {
    let (x, centre, sigma) = (i.list("x")?, i.n("center")?, i.n("sigma")?);
    let mut out = Map::new();
    for (pattern, name) in runs::PATTERNS.into_iter().zip([
        "one_beyond_3s",
        "nine_same_side",
        "six_trend",
        "fourteen_alternating",
        "two_of_three_beyond_2s",
        "four_of_five_beyond_1s",
        "fifteen_within_1s",
        "eight_outside_1s",
    ]) {
        let ends = runs::ends(&x, centre, sigma, pattern, pattern.length())?;
        out.insert(name.into(), places(&ends).into());
    }
    Ok(Value::Object(out))
}

fn mann_kendall(i: &Inputs) -> Found {
    let found = regression::mann_kendall(&i.list("x")?)?;
    Ok(json!({"s": found.s, "var_s": found.variance, "z": found.z, "p_value": found.p}))
}

fn theil_sen(i: &Inputs) -> Found {
    let found = regression::theil_sen(&i.list("x")?, &i.list("y")?, i.n("confidence")?)?;
    Ok(
        json!({"slope": found.slope, "intercept": found.intercept, "slope_lower": found.bounds.0,
        "slope_upper": found.bounds.1}),
    )
}

fn pettitt(i: &Inputs) -> Found {
    let found = order::pettitt(&i.list("x")?)?;
    Ok(json!({"k": found.k, "change_after": found.after, "p_approx": found.p}))
}

fn shift(i: &Inputs) -> Found {
    let found = order::shift(&i.list("x")?, i.whole("min_segment")? as usize)?;
    Ok(json!({
        "change_after": found.after, "sse_split": found.squares.0, "sse_single": found.squares.1,
        "sup_f": found.largest_f, "mean_before": found.means.0, "mean_after": found.means.1,
    }))
}

fn sides(i: &Inputs) -> Found {
    let found = order::runs(&i.list("x")?)?;
    Ok(
        json!({"runs": found.runs, "n_above": found.sides.0, "n_below": found.sides.1,
        "expected": found.expected, "z": found.z, "p_value": found.p}),
    )
}

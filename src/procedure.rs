//! Procedures that several figures use: what is no closed form, with its slopes.

use crate::{
    formula::{Eval, Procedure, Sloped},
    ground::unit::{Dim, TEMPERATURE, TIME},
};

/// Every procedure, for the tests over the whole table.
pub static ALL: &[&Procedure] = &[
    &SLOPE,
    &SMALLEST,
    &LARGEST_DEVIATION,
    &CROSSING,
    &LETHALITY,
    &TIME_ABOVE,
    &POISSON_UPPER,
    &LINEAR_PART,
    &QUADRATIC_PART,
    &WATER_VISCOSITY,
    &WATER_DENSITY,
    &CYCLES_SUPPORTED,
    &SURVIVORS,
    &WITHIN,
    &SINGLE,
];

/// The arguments by name: so many as a formula must give.
fn take<T, const N: usize>(args: &[T]) -> Result<&[T; N], String> {
    Ok(args.first_chunk().ok_or(say!("there is no value"))?)
}

/// The one value of an argument that is no series.
fn one(series: &[f64]) -> Result<f64, String> {
    let [value] = take(series)?;
    Ok(*value)
}

fn same_length<const N: usize>(series: [&Vec<f64>; N], least: usize) -> Result<usize, String> {
    let n = series.first().map_or(0, |first| first.len());
    if series.iter().any(|other| other.len() != n) {
        return Err(say!("the series are not equally long").into());
    }
    if n < least {
        return Err(say!(
            "{n} values, and at least {least} are needed",
            n = n,
            least = least
        ));
    }
    Ok(n)
}

/// Slope of the least-squares line (`x; y`).
pub static SLOPE: Procedure = Procedure {
    name: "slope",
    about: "Slope of the straight line through the points (x, y) with the least sum of squared deviations in y, all points weighted alike.",
    dim: |dims| take(dims).map(|[x, y]| y.over(*x)),
    eval: Eval::Sloped(|args| {
        let [x, y] = take(args)?;
        let n = same_length([x, y], 3)? as f64;
        let (mx, my) = (x.iter().sum::<f64>() / n, y.iter().sum::<f64>() / n);
        let sxx: f64 = x.iter().map(|x| (x - mx) * (x - mx)).sum();
        let b = x
            .iter()
            .zip(y)
            .map(|(x, y)| (x - mx) * (y - my))
            .sum::<f64>()
            / sxx;
        let by_x = x
            .iter()
            .zip(y)
            .map(|(x, y)| ((y - my) - 2.0 * b * (x - mx)) / sxx)
            .collect();
        let by_y = x.iter().map(|x| (x - mx) / sxx).collect();
        Ok((b, vec![by_x, by_y]))
    }),
};

/// The smallest of a series.
pub static SMALLEST: Procedure = Procedure {
    name: "smallest",
    about: "The smallest of the values; of equal ones the first.",
    dim: |dims| take(dims).map(|[own]| *own),
    eval: Eval::Sloped(|args| {
        let [series] = take(args)?;
        let least = series
            .iter()
            .copied()
            .enumerate()
            .min_by(|a, b| a.1.total_cmp(&b.1));
        let (at, value) = least.ok_or(say!("there is no value"))?;
        Ok((
            value,
            vec![(0..series.len()).map(|i| f64::from(i == at)).collect()],
        ))
    }),
};

/// The largest absolute value of a series.
pub static LARGEST_DEVIATION: Procedure = Procedure {
    name: "largest",
    about: "The largest of the values without their signs; of equal ones the first.",
    dim: |dims| take(dims).map(|[own]| *own),
    eval: Eval::Sloped(|args| {
        let [series] = take(args)?;
        let most = series
            .iter()
            .copied()
            .enumerate()
            .max_by(|a, b| a.1.abs().total_cmp(&b.1.abs()).then(b.0.cmp(&a.0)));
        let (at, value) = most.ok_or(say!("there is no value"))?;
        let sign = if value < 0.0 { -1.0 } else { 1.0 };
        Ok((
            value.abs(),
            vec![
                (0..series.len())
                    .map(|i| if i == at { sign } else { 0.0 })
                    .collect(),
            ],
        ))
    }),
};

/// The most rows that a ramp may have: its slopes are found by differences, one pair a value.
pub const MAX_RAMP: usize = 2000;

/// Where flow leaves the diffusive line (`pressure; flow; factor; fit below`).
pub static CROSSING: Procedure = Procedure {
    name: "crossing",
    about: "A straight line is fitted by least squares to the flow below the stated pressure. The result is the pressure at \
            which the flow exceeds the stated multiple of that line: the first reading above it and the one before are \
            joined by a straight line in the ratio of flow to line. Where a reading at half the stated pressure or more exceeds \
            the line through the readings before it in that way, the line is fitted to those alone. Slopes are central differences.",
    dim: |dims| match dims {
        [pressure, _, Dim::NONE, below] if pressure == below => Ok(*pressure),
        _ => Err(say!("pressure; flow; factor; pressure are due").into()),
    },
    eval: Eval::Differences(|args| {
        let [pressure, flow, ..] = take::<_, 4>(args)?;
        if same_length([pressure, flow], 4)? > MAX_RAMP {
            return Err(say!("the ramp has more than {what} rows", what = MAX_RAMP));
        }
        crossing(args)
    }),
};

fn crossing(args: &[Vec<f64>]) -> Result<f64, String> {
    let [p, q, factor, below] = take(args)?;
    let (factor, below) = (one(factor)?, one(below)?);
    let ramp = || p.iter().copied().zip(q.iter().copied());
    let straight: Vec<(f64, f64)> = ramp().filter(|(p, _)| *p < below).collect();
    // A ramp that leaves its line before the line ends has no line that long: what comes after is no diffusion.
    let kept = on_the_line(&straight, factor, below);
    let fit = || straight.iter().copied().take(kept);
    let begins = straight.get(kept).map_or(below, |row| row.0);
    let count = fit().count();
    if count < 3 {
        return Err(say!(
            "only {count} readings lie below the pressure up to which the line is fitted; 3 are needed",
            count = count
        ));
    }
    let n = count as f64;
    let (mp, mq) = (
        fit().map(|x| x.0).sum::<f64>() / n,
        fit().map(|x| x.1).sum::<f64>() / n,
    );
    let spp: f64 = fit().map(|x| (x.0 - mp) * (x.0 - mp)).sum();
    let b = fit().map(|x| (x.0 - mp) * (x.1 - mq)).sum::<f64>() / spp;
    let ratio = |(p, q): (f64, f64)| q / (mq + b * (p - mp));
    let above = |row: (f64, f64)| row.0 >= begins && ratio(row) > factor;
    if ramp().next().is_some_and(above) {
        return Err(say!("the ramp begins above the bubble point").into());
    }
    let mut pairs = ramp().zip(ramp().skip(1));
    match pairs.find(|(_, after)| above(*after)) {
        None => Err(say!(
            "the flow never leaves the line that is fitted to it: the ramp ended below the bubble point, or began above it"
        )
        .into()),
        Some((a, b)) => {
            let (before, after) = (ratio(a), ratio(b));
            Ok(a.0 + (factor - before) / (after - before) * (b.0 - a.0))
        }
    }
}

/// How many readings of a ramp, in order, lie on the line through those before them: the first that exceeds it by the factor
/// ends them. Near zero pressure flows are too small to say so: readings below half the pressure up to which the line is fitted
/// are not asked. Sums are carried from reading to reading, since slopes are found by calling this for every value.
fn on_the_line(rows: &[(f64, f64)], factor: f64, below: f64) -> usize {
    let (mut mp, mut mq, mut spp, mut spq) = (0.0, 0.0, 0.0, 0.0);
    for (n, (p, q)) in rows.iter().enumerate() {
        let line = mq + spq / spp * (p - mp);
        if n >= 3 && *p >= 0.5 * below && line > 0.0 && *q > factor * line {
            return n;
        }
        let (dp, m) = (p - mp, (n + 1) as f64);
        mp += dp / m;
        mq += (q - mq) / m;
        spp += dp * (p - mp);
        spq += dp * (q - mq);
    }
    rows.len()
}

/// Equivalent time (`Δt; T_a; T_b; T_ref; z`).
pub static LETHALITY: Procedure = Procedure {
    name: "lethal",
    about: "Sum over the steps of Δt times the mean of 10^((T − T_ref)/z), T running in a straight line from T_a to T_b \
            within a step. That mean is the logarithmic one; a trapezium would credit too much on a ramp.",
    dim: |dims| match dims {
        [TIME, rest @ ..] if rest.iter().all(|dim| *dim == TEMPERATURE) => Ok(TIME),
        _ => Err(say!("a time and temperatures are due").into()),
    },
    eval: Eval::Sloped(|args| {
        let [dt, a, b, reference, z] = take(args)?;
        same_length([dt, a, b], 1)?;
        let (reference, z) = (one(reference)?, one(z)?);
        if z <= 0.0 {
            return Err(say!("z must be above zero").into());
        }
        let ln10 = std::f64::consts::LN_10;
        let (mut by_dt, mut by_from, mut by_to) = (Vec::new(), Vec::new(), Vec::new());
        let (mut by_reference, mut by_z) = (0.0, 0.0);
        let mut total = 0.0;
        for ((dt, a), b) in dt.iter().zip(a).zip(b) {
            let (xa, xb) = ((a - reference) * ln10 / z, (b - reference) * ln10 / z);
            let (mean, by_a, by_b) = crate::stats::summary::log_mean(xa, xb);
            total += dt * mean;
            let scale = dt * ln10 / z;
            by_dt.push(mean);
            by_from.push(scale * by_a);
            by_to.push(scale * by_b);
            by_reference -= scale * (by_a + by_b);
            by_z -= dt / z * (by_a * xa + by_b * xb);
        }
        let slopes = vec![by_dt, by_from, by_to, vec![by_reference], vec![by_z]];
        Ok((total, slopes))
    }),
};

/// Time at or above a temperature (`Δt; T_a; T_b; T_hold`).
pub static TIME_ABOVE: Procedure = Procedure {
    name: "above",
    about: "Sum over the steps of the part of Δt in which the temperature, running in a straight line from T_a to T_b, is at \
            or above T_hold.",
    dim: |dims| match dims {
        [TIME, rest @ ..] if rest.iter().all(|dim| *dim == TEMPERATURE) => Ok(TIME),
        _ => Err(say!("a time and temperatures are due").into()),
    },
    eval: Eval::Sloped(|args| {
        let [dt, a, b, hold] = take(args)?;
        same_length([dt, a, b], 1)?;
        let hold = one(hold)?;
        let (mut by_dt, mut by_from, mut by_to) = (Vec::new(), Vec::new(), Vec::new());
        let (mut total, mut by_hold) = (0.0, 0.0);
        for ((dt, a), b) in dt.iter().zip(a).zip(b) {
            let (share, by_a, by_b) = match (*a >= hold, *b >= hold) {
                (true, true) => (1.0, 0.0, 0.0),
                (false, false) => (0.0, 0.0, 0.0),
                (false, true) => (
                    (b - hold) / (b - a),
                    (b - hold) / ((b - a) * (b - a)),
                    (hold - a) / ((b - a) * (b - a)),
                ),
                (true, false) => (
                    (a - hold) / (a - b),
                    (hold - b) / ((a - b) * (a - b)),
                    (a - hold) / ((a - b) * (a - b)),
                ),
            };
            total += dt * share;
            by_dt.push(share);
            by_from.push(dt * by_a);
            by_to.push(dt * by_b);
            by_hold -= dt * (by_a + by_b);
        }
        Ok((total, vec![by_dt, by_from, by_to, vec![by_hold]]))
    }),
};

/// Upper bound of a Poisson mean (`count; confidence`), one-sided.
pub static POISSON_UPPER: Procedure = Procedure {
    name: "upper",
    about: "The exact one-sided upper confidence bound of the mean of a Poisson count n: half the quantile of the chi-squared \
            distribution with 2(n + 1) degrees of freedom (Garwood 1936). For n = 0 and 95 % it is 2.996. A count has no slope.",
    dim: |dims| take(dims).map(|[own]| *own),
    eval: Eval::Sloped(|args| {
        let [count, confidence] = take(args)?;
        let (count, confidence) = (one(count)?, one(confidence)?);
        let bound = crate::stats::proportion::poisson_upper(count, confidence)?;
        let h = 1e-6;
        let by_confidence = (crate::stats::proportion::poisson_upper(count, confidence + h)?
            - crate::stats::proportion::poisson_upper(count, confidence - h)?)
            / (2.0 * h);
        Ok((bound, vec![vec![0.0], vec![by_confidence]]))
    }),
};

/// The dimensions of a flow and of a pressure difference over it.
fn resistance(dims: &[Dim]) -> Result<(Dim, Dim), String> {
    match dims {
        [flow, drop] if drop.over(*flow) == crate::ground::unit::RESISTANCE => {
            Ok((*flow, drop.over(*flow)))
        }
        _ => Err(say!("a flow and a pressure difference are due").into()),
    }
}

/// The linear and the quadratic coefficient of a flow resistance (`Q; ΔP`).
fn resistance_fit(args: &[Vec<f64>]) -> Result<(f64, f64), String> {
    let [flow, drop] = take(args)?;
    same_length([flow, drop], 3)?;
    crate::physics::filter::flow_fit(flow, drop).map(|fit| (fit.linear, fit.quadratic))
}

/// The part of a flow resistance that is proportional to flow (`Q; ΔP`).
pub static LINEAR_PART: Procedure = Procedure {
    name: "linear",
    about: "The coefficient a of ΔP = a·Q + b·Q², fitted by least squares through the origin, all points weighted alike.",
    dim: |dims| resistance(dims).map(|(_, linear)| linear),
    eval: Eval::Differences(|args| Ok(resistance_fit(args)?.0)),
};

/// The part of a flow resistance that is proportional to the square of flow (`Q; ΔP`).
pub static QUADRATIC_PART: Procedure = Procedure {
    name: "quadratic",
    about: "The coefficient b of ΔP = a·Q + b·Q², fitted by least squares through the origin, all points weighted alike.",
    dim: |dims| resistance(dims).map(|(flow, linear)| linear.over(flow)),
    eval: Eval::Differences(|args| Ok(resistance_fit(args)?.1)),
};

/// Viscosity of water at a temperature (`T`).
pub static WATER_VISCOSITY: Procedure = Procedure {
    name: "viscosity",
    about: "Dynamic viscosity of liquid water at 0.1 MPa: IAPWS SR6-08(2011), equation 7: \
            10⁻⁶ Pa·s × (280.68 τ^−1.9 + 511.45 τ^−7.7 + 61.131 τ^−19.6 + 0.45903 τ^−40), τ = T/(300 K).",
    dim: |dims| match dims {
        [TEMPERATURE] => Ok(crate::ground::unit::VISCOSITY),
        _ => Err(say!("a temperature is due").into()),
    },
    eval: Eval::Differences(|args| {
        let [temperature] = take(args)?;
        crate::physics::fluid::viscosity(one(temperature)?, 1e5)
    }),
};

/// Density of water at a temperature (`T`).
pub static WATER_DENSITY: Procedure = Procedure {
    name: "density",
    about: "Density of liquid water at 0.1 MPa: IAPWS SR6-08(2011): \
            1/(0.046151805 m³/kg × (0.0193763157 + Σ aₙ αⁿ + Σ bₘ βᵐ)), α = 10 K/(593 K − T), β = 10 K/(T − 232 K); \
            a₄ = 6744.58446, a₅ = −222521.604, a₇ = 1.00231247·10⁸, a₈ = −1.63552118·10⁹, a₉ = 8.32299658·10⁹; \
            b₁ to b₆ = 0.00578545292, −0.0153195665, 0.0311337859, −0.0423546241, 0.0338713507, −0.0119946761.",
    dim: |dims| match dims {
        [TEMPERATURE] => Ok(crate::ground::unit::DENSITY),
        _ => Err(say!("a temperature is due").into()),
    },
    eval: Eval::Differences(|args| {
        let [temperature] = take(args)?;
        crate::physics::fluid::density(one(temperature)?, 1e5)
    }),
};

fn flat(value: f64, args: &[Vec<f64>]) -> Sloped {
    (
        value,
        args.iter().map(|series| vec![0.0; series.len()]).collect(),
    )
}

/// Cycles that an element's results support (`cycle; result; least; confidence; reached`).
pub static CYCLES_SUPPORTED: Procedure = Procedure {
    name: "supported",
    about: "A straight line is laid through the results of one element against its cycles. What is supported is the number of \
            whole cycles up to which the one-sided lower confidence bound of that line stays above the least that is allowed, \
            and never more than the cycles that the element reached intact. A count has no slope.",
    dim: |dims| match dims {
        [cycle, result, least, _, reached] if cycle == reached && result == least => Ok(*cycle),
        _ => Err(say!("cycles; results; least result; confidence; cycles are due").into()),
    },
    eval: Eval::Sloped(|args| {
        let [cycles, results, least, confidence, reached] = take(args)?;
        same_length([cycles, results], 3)?;
        let (least, reached) = (one(least)?, one(reached)?);
        let met =
            crate::stats::endurance::bound_crossing(cycles, results, least, one(confidence)?)?;
        // A result below the least allowed is a failure, whatever a line through all of them says.
        let failed = results.iter().position(|y| *y < least);
        let reached = match failed.map(|failed| cycles.split_at(failed).0) {
            None => reached,
            Some([.., last]) => reached.min(*last),
            Some([]) => {
                return Err(say!("the first result lies below the least that is allowed").into());
            }
        };
        Ok(flat(
            libm::floor(met.map_or(reached, |met| met.min(reached))),
            args,
        ))
    }),
};

/// Lower bound of the share that survives (`n; failures; confidence`).
pub static SURVIVORS: Procedure = Procedure {
    name: "survivors",
    about: "The exact one-sided lower confidence bound of the share of elements that survive, after some failures among n: the \
            quantile 1 − C of the beta distribution with n − c and c + 1 (Clopper and Pearson). Without a failure it is the n-th \
            root of 1 − C. A count has no slope.",
    dim: |dims| match dims.iter().all(|dim| *dim == Dim::NONE) {
        true => Ok(Dim::NONE),
        false => Err(say!("counts are due").into()),
    },
    eval: Eval::Sloped(|args| {
        let [n, failures, confidence] = take(args)?;
        let (n, failures, confidence) = (one(n)?, one(failures)?, one(confidence)?);
        let bound =
            |confidence| crate::stats::proportion::reliability_lower(n, failures, confidence);
        let (value, h) = (bound(confidence)?, 1e-6);
        let by = (bound(confidence + h)? - bound(confidence - h)?) / (2.0 * h);
        Ok((value, vec![vec![0.0], vec![0.0], vec![by]]))
    }),
};

/// Standard deviation within cells (`value; cell`).
pub static WITHIN: Procedure = Procedure {
    name: "within",
    about: "Standard deviation of repeated results about the mean of their own cell (one element, one operator), the sums of \
            squares of all cells together over their degrees of freedom.",
    dim: |dims| take(dims).map(|[own]| *own),
    eval: Eval::Differences(|args| {
        let [values, numbers] = take(args)?;
        same_length([values, numbers], 4)?;
        let mut cells: std::collections::BTreeMap<u64, Vec<f64>> =
            std::collections::BTreeMap::new();
        for (value, cell) in values.iter().zip(numbers) {
            // A cell is a whole number; what differences add to it is taken away again.
            cells
                .entry(libm::round(*cell) as u64)
                .or_default()
                .push(*value);
        }
        let degrees: usize = cells.values().map(|cell| cell.len() - 1).sum();
        if degrees == 0 {
            return Err(say!("no element was tested twice by one operator").into());
        }
        let squares = |cell: &Vec<f64>| {
            let mean = cell.iter().sum::<f64>() / cell.len() as f64;
            cell.iter().map(|x| (x - mean) * (x - mean)).sum::<f64>()
        };
        Ok(libm::sqrt(
            cells.values().map(squares).sum::<f64>() / degrees as f64,
        ))
    }),
};

/// The values of a crossed study in order: by element, by operator.
type Cells = std::collections::BTreeMap<u64, std::collections::BTreeMap<u64, Vec<f64>>>;

/// Standard deviation of single results by several operators (`value; element; operator`).
pub static SINGLE: Procedure = Procedure {
    name: "single",
    about: "Standard deviation of single results of one element: variance between operators, of their interaction with the elements, \
            and of the repeats, by the analysis of variance of a crossed study; an interaction that chance explains with a probability \
            above 0.25 is taken into the repeats.",
    dim: |dims| take(dims).map(|[own]| *own),
    eval: Eval::Differences(|args| {
        let [values, elements, operators] = take(args)?;
        same_length([values, elements, operators], 8)?;
        let mut cells = Cells::new();
        for ((value, element), operator) in values.iter().zip(elements).zip(operators) {
            cells
                .entry(libm::round(*element) as u64)
                .or_default()
                .entry(libm::round(*operator) as u64)
                .or_default()
                .push(*value);
        }
        let values: Vec<Vec<Vec<f64>>> = cells
            .into_values()
            .map(|operators| operators.into_values().collect())
            .collect();
        let study = crate::stats::gauge::study(&values, 0.25)?;
        Ok(libm::sqrt(study.measurement()))
    }),
};

#[cfg(test)]
mod tests;

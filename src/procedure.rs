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
    &BETWEEN,
];

fn same_length(series: &[&Vec<f64>], least: usize) -> Result<usize, String> {
    let n = series[0].len();
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
    dim: |dims| Ok(dims[1].over(dims[0])),
    eval: Eval::Sloped(|args| {
        let (x, y) = (&args[0], &args[1]);
        let n = same_length(&[x, y], 3)? as f64;
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
    dim: |dims| Ok(dims[0]),
    eval: Eval::Sloped(|args| {
        let series = &args[0];
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
    dim: |dims| Ok(dims[0]),
    eval: Eval::Sloped(|args| {
        let series = &args[0];
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
            joined by a straight line in the ratio of flow to line. Slopes are central differences.",
    dim: |dims| match dims[0] == dims[3] && dims[2] == Dim::NONE {
        true => Ok(dims[0]),
        false => Err(say!("pressure; flow; factor; pressure are due").into()),
    },
    eval: Eval::Differences(|args| {
        same_length(&[&args[0], &args[1]], 4)?;
        if args[0].len() > MAX_RAMP {
            return Err(say!("the ramp has more than {what} rows", what = MAX_RAMP));
        }
        crossing(args)
    }),
};

fn crossing(args: &[Vec<f64>]) -> Result<f64, String> {
    let (p, q, factor, below) = (&args[0], &args[1], args[2][0], args[3][0]);
    let fit = || p.iter().zip(q).filter(|(p, _)| **p < below);
    let count = fit().count();
    if count < 3 {
        return Err(say!(
            "only {count} readings lie below the pressure up to which the line is fitted; 3 are needed",
            count = count
        ));
    }
    let n = count as f64;
    let (mp, mq) = (
        fit().map(|(p, _)| p).sum::<f64>() / n,
        fit().map(|(_, q)| q).sum::<f64>() / n,
    );
    let spp: f64 = fit().map(|(p, _)| (p - mp) * (p - mp)).sum();
    let b = fit().map(|(p, q)| (p - mp) * (q - mq)).sum::<f64>() / spp;
    let ratio = |i: usize| q[i] / (mq + b * (p[i] - mp));
    let first = (0..p.len()).find(|i| p[*i] >= below && ratio(*i) > factor);
    match first {
        None => Err(say!(
            "the flow never leaves the diffusive line: the ramp ended below the bubble point"
        )
        .into()),
        Some(0) => Err(say!("the ramp begins above the bubble point").into()),
        Some(i) => {
            let (before, after) = (ratio(i - 1), ratio(i));
            Ok(p[i - 1] + (factor - before) / (after - before) * (p[i] - p[i - 1]))
        }
    }
}

/// Equivalent time (`Δt; T_a; T_b; T_ref; z`).
pub static LETHALITY: Procedure = Procedure {
    name: "lethal",
    about: "Sum over the steps of Δt times the mean of 10^((T − T_ref)/z), T running in a straight line from T_a to T_b \
            within a step. That mean is the logarithmic one; a trapezium would credit too much on a ramp.",
    dim: |dims| match dims[0] == TIME && dims[1..].iter().all(|dim| *dim == TEMPERATURE) {
        true => Ok(TIME),
        false => Err(say!("a time and temperatures are due").into()),
    },
    eval: Eval::Sloped(|args| {
        let n = same_length(&[&args[0], &args[1], &args[2]], 1)?;
        let (reference, z) = (args[3][0], args[4][0]);
        if z <= 0.0 {
            return Err(say!("z must be above zero").into());
        }
        let ln10 = std::f64::consts::LN_10;
        let mut slopes = vec![
            vec![0.0; n],
            vec![0.0; n],
            vec![0.0; n],
            vec![0.0],
            vec![0.0],
        ];
        let mut total = 0.0;
        for i in 0..n {
            let (dt, a, b) = (args[0][i], args[1][i], args[2][i]);
            let (xa, xb) = ((a - reference) * ln10 / z, (b - reference) * ln10 / z);
            let (mean, by_a, by_b) = crate::stats::summary::log_mean(xa, xb);
            total += dt * mean;
            let scale = dt * ln10 / z;
            slopes[0][i] = mean;
            slopes[1][i] = scale * by_a;
            slopes[2][i] = scale * by_b;
            slopes[3][0] -= scale * (by_a + by_b);
            slopes[4][0] -= dt / z * (by_a * xa + by_b * xb);
        }
        Ok((total, slopes))
    }),
};

/// Time at or above a temperature (`Δt; T_a; T_b; T_hold`).
pub static TIME_ABOVE: Procedure = Procedure {
    name: "above",
    about: "Sum over the steps of the part of Δt in which the temperature, running in a straight line from T_a to T_b, is at \
            or above T_hold.",
    dim: |dims| match dims[0] == TIME && dims[1..].iter().all(|dim| *dim == TEMPERATURE) {
        true => Ok(TIME),
        false => Err(say!("a time and temperatures are due").into()),
    },
    eval: Eval::Sloped(|args| {
        let n = same_length(&[&args[0], &args[1], &args[2]], 1)?;
        let hold = args[3][0];
        let mut slopes = vec![vec![0.0; n], vec![0.0; n], vec![0.0; n], vec![0.0]];
        let mut total = 0.0;
        for i in 0..n {
            let (dt, a, b) = (args[0][i], args[1][i], args[2][i]);
            let (share, by_a, by_b) = match (a >= hold, b >= hold) {
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
            slopes[0][i] = share;
            slopes[1][i] = dt * by_a;
            slopes[2][i] = dt * by_b;
            slopes[3][0] -= dt * (by_a + by_b);
        }
        Ok((total, slopes))
    }),
};

/// Upper bound of a Poisson mean (`count; confidence`), one-sided.
pub static POISSON_UPPER: Procedure = Procedure {
    name: "upper",
    about: "The exact one-sided upper confidence bound of the mean of a Poisson count n: half the quantile of the chi-squared \
            distribution with 2(n + 1) degrees of freedom (Garwood 1936). For n = 0 and 95 % it is 2.996. A count has no slope.",
    dim: |dims| Ok(dims[0]),
    eval: Eval::Sloped(|args| {
        let (count, confidence) = (args[0][0], args[1][0]);
        let bound = crate::stats::proportion::poisson_upper(count, confidence)?;
        let h = 1e-6;
        let by_confidence = (crate::stats::proportion::poisson_upper(count, confidence + h)?
            - crate::stats::proportion::poisson_upper(count, confidence - h)?)
            / (2.0 * h);
        Ok((bound, vec![vec![0.0], vec![by_confidence]]))
    }),
};

const RESISTANCE_DIM: &str = word!("a flow and a pressure difference are due");

/// The part of a flow resistance that is proportional to flow (`Q; ΔP`).
pub static LINEAR_PART: Procedure = Procedure {
    name: "linear",
    about: "The coefficient a of ΔP = a·Q + b·Q², fitted by least squares through the origin, all points weighted alike.",
    dim: |dims| match dims[1].over(dims[0]) == crate::ground::unit::RESISTANCE {
        true => Ok(dims[1].over(dims[0])),
        false => Err(say!(RESISTANCE_DIM).into()),
    },
    eval: Eval::Differences(|args| {
        same_length(&[&args[0], &args[1]], 3)?;

        Ok(crate::physics::filter::flow_fit(&args[0], &args[1])?.0)
    }),
};

/// The part of a flow resistance that is proportional to the square of flow (`Q; ΔP`).
pub static QUADRATIC_PART: Procedure = Procedure {
    name: "quadratic",
    about: "The coefficient b of ΔP = a·Q + b·Q², fitted by least squares through the origin, all points weighted alike.",
    dim: |dims| match dims[1].over(dims[0]) == crate::ground::unit::RESISTANCE {
        true => Ok(dims[1].over(dims[0]).over(dims[0])),
        false => Err(say!(RESISTANCE_DIM).into()),
    },
    eval: Eval::Differences(|args| {
        same_length(&[&args[0], &args[1]], 3)?;

        Ok(crate::physics::filter::flow_fit(&args[0], &args[1])?.1)
    }),
};

/// Viscosity of water at a temperature (`T`).
pub static WATER_VISCOSITY: Procedure = Procedure {
    name: "viscosity",
    about: "Dynamic viscosity of liquid water at 0.1 MPa: IAPWS SR6-08(2011), equation 7.",
    dim: |dims| match dims[0] == TEMPERATURE {
        true => Ok(crate::ground::unit::VISCOSITY),
        false => Err(say!("a temperature is due").into()),
    },
    eval: Eval::Differences(|args| crate::physics::fluid::viscosity(args[0][0], 1e5)),
};

/// Density of water at a temperature (`T`).
pub static WATER_DENSITY: Procedure = Procedure {
    name: "density",
    about: "Density of liquid water at 0.1 MPa: IAPWS SR6-08(2011).",
    dim: |dims| match dims[0] == TEMPERATURE {
        true => Ok(crate::ground::unit::DENSITY),
        false => Err(say!("a temperature is due").into()),
    },
    eval: Eval::Differences(|args| crate::physics::fluid::density(args[0][0], 1e5)),
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
    dim: |dims| match dims[0] == dims[4] && dims[1] == dims[2] {
        true => Ok(dims[0]),
        false => Err(say!("cycles; results; least result; confidence; cycles are due").into()),
    },
    eval: Eval::Sloped(|args| {
        same_length(&[&args[0], &args[1]], 3)?;
        let met =
            crate::stats::endurance::bound_crossing(&args[0], &args[1], args[2][0], args[3][0])?;
        // A result below the least allowed is a failure, whatever a line through all of them says.
        let failed = args[1].iter().position(|y| *y < args[2][0]);
        let reached = match failed {
            Some(0) => {
                return Err(say!("the first result lies below the least that is allowed").into());
            }
            Some(i) => args[4][0].min(args[0][i - 1]),
            None => args[4][0],
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
        let bound = |confidence| {
            crate::stats::proportion::reliability_lower(args[0][0], args[1][0], confidence)
        };
        let (value, h) = (bound(args[2][0])?, 1e-6);
        let by = (bound(args[2][0] + h)? - bound(args[2][0] - h)?) / (2.0 * h);
        Ok((value, vec![vec![0.0], vec![0.0], vec![by]]))
    }),
};

/// Standard deviation within cells (`value; cell`).
pub static WITHIN: Procedure = Procedure {
    name: "within",
    about: "Standard deviation of repeated results about the mean of their own cell (one element, one operator), the sums of \
            squares of all cells together over their degrees of freedom.",
    dim: |dims| Ok(dims[0]),
    eval: Eval::Differences(|args| {
        same_length(&[&args[0], &args[1]], 4)?;

        let mut cells: std::collections::BTreeMap<u64, Vec<f64>> =
            std::collections::BTreeMap::new();
        for (value, cell) in args[0].iter().zip(&args[1]) {
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

/// Standard deviation between operators (`value; element; operator`).
pub static BETWEEN: Procedure = Procedure {
    name: "between",
    about: "Standard deviation between operators, their interaction with the elements included: analysis of variance of a crossed \
            study; an interaction that chance explains with a probability above 0.25 is taken into the repeats.",
    dim: |dims| Ok(dims[0]),
    eval: Eval::Differences(|args| {
        same_length(&[&args[0], &args[1], &args[2]], 8)?;

        let mut cells = Cells::new();
        for ((value, element), operator) in args[0].iter().zip(&args[1]).zip(&args[2]) {
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
        Ok(libm::sqrt(study.operator + study.both))
    }),
};

#[cfg(test)]
mod tests;

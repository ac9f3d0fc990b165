//! Measurement studies: how much of the spread is the measurement's own.

use super::{Reason, Refusal, distribution::f_tail, finite, probability, refuse, square};

/// Variances of a crossed study: elements, operators, repeats.
#[derive(Debug, Clone)]
pub struct GaugeStudy {
    /// Sums of squares: elements, operators, interaction, repeats.
    pub squares: [f64; 4],
    /// Interaction mean square over that of the repeats, and its probability by chance.
    pub interaction: (f64, f64),
    /// Whether the interaction was taken into the repeats.
    pub pooled: bool,
    /// Variance of repeats.
    pub repeatability: f64,
    /// Variance between operators.
    pub operator: f64,
    /// Variance of the interaction.
    pub both: f64,
    /// Variance between elements.
    pub part: f64,
}

/// Analysis of variance of a crossed study, `values[element][operator][repeat]`; an interaction
/// whose probability by chance is above `alpha` is taken into the repeats (AIAG MSA manual, from memory).
///
/// # Errors
/// One element, one operator, one repeat, or cells that are not equally full.
pub fn study(values: &[Vec<Vec<f64>>], alpha: f64) -> Result<GaugeStudy, Refusal> {
    let (a, b) = (values.len(), values.first().map_or(0, Vec::len));
    let n = values
        .first()
        .and_then(|part| part.first())
        .map_or(0, Vec::len);
    values.iter().flatten().try_for_each(|cell| finite(cell))?;
    if values
        .iter()
        .any(|part| part.len() != b || part.iter().any(|cell| cell.len() != n))
    {
        return refuse(
            Reason::Unbalanced,
            say!("the study is not balanced: each operator must test each element equally often"),
        );
    }
    if a < 2 || b < 2 || n < 2 {
        return refuse(
            Reason::TooFewPoints,
            say!(
                "{a} elements, {b} operators, {n} repeats: at least 2 of each are needed",
                a = a,
                b = b,
                n = n
            ),
        );
    }
    probability(alpha)?;
    // Differences from one value keep the digits that values share at their front.
    let first = values.iter().flatten().flatten().next().copied();
    let first = first.unwrap_or_default();
    let values: Vec<Vec<Vec<f64>>> = values
        .iter()
        .map(|part| {
            let shifted = |cell: &Vec<f64>| cell.iter().map(|x| x - first).collect();
            part.iter().map(shifted).collect()
        })
        .collect();
    let mean = |of: &mut dyn Iterator<Item = f64>| {
        let (mut sum, mut count) = (0.0, 0.0);
        of.for_each(|x| {
            sum += x;
            count += 1.0;
        });
        sum / count
    };
    let all = mean(&mut values.iter().flatten().flatten().copied());
    let cell: Vec<Vec<f64>> = values
        .iter()
        .map(|part| {
            part.iter()
                .map(|cell| mean(&mut cell.iter().copied()))
                .collect()
        })
        .collect();
    let of_part: Vec<f64> = cell
        .iter()
        .map(|row| mean(&mut row.iter().copied()))
        .collect();
    let of_operator: Vec<f64> = (0..b)
        .map(|j| mean(&mut cell.iter().filter_map(|row| row.get(j).copied())))
        .collect();
    let (fa, fb, fn_) = (a as f64, b as f64, n as f64);
    let part: f64 = fb * fn_ * of_part.iter().map(|m| square(m - all)).sum::<f64>();
    let operator: f64 = fa * fn_ * of_operator.iter().map(|m| square(m - all)).sum::<f64>();
    let (mut both, mut repeats) = (0.0, 0.0);
    for ((values, cell), of_part) in values.iter().zip(&cell).zip(&of_part) {
        for ((values, cell), of_operator) in values.iter().zip(cell).zip(&of_operator) {
            both += fn_ * square(cell - of_part - of_operator + all);
            repeats += values.iter().map(|x| square(x - cell)).sum::<f64>();
        }
    }
    let (d_part, d_operator, d_both, d_repeats) = (
        fa - 1.0,
        fb - 1.0,
        (fa - 1.0) * (fb - 1.0),
        fa * fb * (fn_ - 1.0),
    );
    let f = (both / d_both) / (repeats / d_repeats);
    // Repeats without any spread leave no measure to hold the interaction against.
    let by_chance = match f.is_finite() {
        true => f_tail(f, d_both, d_repeats)?,
        false if both > 0.0 => 0.0,
        false => 1.0,
    };
    let pooled = by_chance > alpha;
    let (e, po) = match pooled {
        true => {
            let e = (both + repeats) / (d_both + d_repeats);
            (e, e)
        }
        false => (repeats / d_repeats, both / d_both),
    };
    if values.iter().flatten().flatten().all(|x| *x == 0.0) {
        return refuse(
            Reason::ZeroVariance,
            say!("all values are equal: there is no spread to take apart"),
        );
    }
    Ok(GaugeStudy {
        squares: [part, operator, both, repeats],
        interaction: (f, by_chance),
        pooled,
        repeatability: e,
        operator: ((operator / d_operator - po) / (fa * fn_)).max(0.0),
        both: if pooled {
            0.0
        } else {
            ((po - e) / fn_).max(0.0)
        },
        part: ((part / d_part - po) / (fb * fn_)).max(0.0),
    })
}

impl GaugeStudy {
    /// Variance of the measurement: repeats, operators and their interaction.
    pub fn measurement(&self) -> f64 {
        self.repeatability + self.operator + self.both
    }

    /// Variance of everything in the study.
    pub fn total(&self) -> f64 {
        self.measurement() + self.part
    }

    /// Share of the spread of the study that the measurement takes.
    pub fn share(&self) -> f64 {
        libm::sqrt(self.measurement() / self.total())
    }

    /// Groups of elements that the measurement can tell apart; nothing where it has no spread.
    pub fn categories(&self) -> Option<f64> {
        let measurement = self.measurement();
        (measurement > 0.0).then(|| libm::floor(libm::sqrt(2.0 * self.part / measurement)))
    }

    /// Six standard deviations of the measurement over the width of the tolerance.
    pub fn of_tolerance(&self, width: f64) -> f64 {
        6.0 * libm::sqrt(self.measurement()) / width
    }
}

//! Named computations that are no closed form.

use std::fmt;

use crate::ground::unit::Dim;

/// A value and, for each argument, its slope with respect to each of that argument's values.
pub type Sloped = (f64, Vec<Vec<f64>>);

/// A named computation that is no closed form.
pub struct Procedure {
    /// As the text shows it: `slope`.
    pub name: &'static str,
    /// What it does, in Markdown: printed on the page of each figure that uses it.
    pub about: &'static str,
    /// The dimension of the result for the dimensions of the arguments.
    pub dim: fn(&[Dim]) -> Result<Dim, String>,
    /// How it is computed; the reason in words when there is no value.
    pub eval: Eval,
}

/// How a procedure gets its value and its slopes.
#[derive(Copy, Clone)]
pub enum Eval {
    /// Both at once.
    Sloped(fn(&[Vec<f64>]) -> Result<Sloped, String>),
    /// The value; its slopes are central differences (step: the cube root of the machine's precision).
    Differences(fn(&[Vec<f64>]) -> Result<f64, String>),
}

impl Procedure {
    /// Value and slopes.
    ///
    /// # Errors
    /// In words, when there is no value.
    pub fn eval(&self, args: &[Vec<f64>]) -> Result<Sloped, String> {
        let all: Vec<Vec<bool>> = args.iter().map(|series| vec![true; series.len()]).collect();
        self.eval_asked(args, &all)
    }

    /// The same, where slopes that nobody asks for may be left at zero.
    pub(super) fn eval_asked(
        &self,
        args: &[Vec<f64>],
        asked: &[Vec<bool>],
    ) -> Result<Sloped, String> {
        match self.eval {
            Eval::Sloped(eval) => eval(args),
            Eval::Differences(value) => by_differences(args, asked, value),
        }
    }

    /// The value alone, which costs much less where slopes are differences.
    ///
    /// # Errors
    /// In words, when there is none.
    pub fn value(&self, args: &[Vec<f64>]) -> Result<f64, String> {
        match self.eval {
            Eval::Sloped(eval) => Ok(eval(args)?.0),
            Eval::Differences(value) => value(args),
        }
    }
}

/// Value and slopes by central differences.
#[expect(
    clippy::indexing_slicing,
    reason = "`moved`, `slopes` and `asked` have the lengths of the arguments, whose places the indices are"
)]
fn by_differences(
    args: &[Vec<f64>],
    asked: &[Vec<bool>],
    f: fn(&[Vec<f64>]) -> Result<f64, String>,
) -> Result<Sloped, String> {
    let value = f(args)?;
    let mut moved = args.to_vec();
    let mut slopes: Vec<Vec<f64>> = args.iter().map(|series| vec![0.0; series.len()]).collect();
    for (i, series) in args.iter().enumerate() {
        for (j, x) in series.iter().enumerate() {
            if !asked[i][j] {
                continue;
            }
            let h = x.abs().max(f64::MIN_POSITIVE) * 6e-6;
            moved[i][j] = x + h;
            let up = f(&moved);
            moved[i][j] = x - h;
            let down = f(&moved);
            moved[i][j] = *x;
            // Where a reading stands on the very edge of a choice, one side has no value.
            slopes[i][j] = match (up, down) {
                (Ok(up), Ok(down)) => (up - down) / (2.0 * h),
                (Ok(up), Err(_)) => (up - value) / h,
                (Err(_), Ok(down)) => (value - down) / h,
                (Err(_), Err(_)) => 0.0,
            };
        }
    }
    Ok((value, slopes))
}

impl fmt::Debug for Procedure {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.name)
    }
}

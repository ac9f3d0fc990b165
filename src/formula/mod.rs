//! Formulas as values.
//!
//! A formula is written once, with ordinary operators. The tree that this builds gives the number,
//! the slope with respect to every input, the dimension, the text and the MathML: none of them can
//! say something that another does not.
//!
//! The operators are a closed set, so they are an enum and a few `match`es; the figures are an open
//! set, so they are a table elsewhere. What is no closed form (a fit, a root, a distribution) is a
//! named [`Procedure`] with a plain function and its own slopes.

mod operators;
mod print;
mod procedure;
mod spread;
mod tape;

pub use print::symbol_mathml;
pub use procedure::{Eval, Procedure, Sloped};

use std::{
    fmt,
    ops::{Add, Div, Mul, Neg, Sub},
};

use crate::ground::unit::Dim;
use spread::Spread;
pub use tape::Slopes;
use tape::Tape;

/// What a formula must know of its variables.
pub trait Variable: Copy + PartialEq + fmt::Debug {
    /// The letter it goes by.
    fn symbol(self) -> &'static str;
    /// The dimension of the number it stands for.
    fn dim(self) -> Dim;
}

/// A formula over variables `V`.
#[derive(Clone, Debug)]
pub enum Expr<V> {
    /// A pure number.
    Number(f64),
    /// A variable bound to one value, or to one value a step inside a sum or a procedure.
    Var(V),
    /// The operand, added up over the values of its many-valued variables, in step.
    Sum(Box<Expr<V>>),
    /// How many values a variable is bound to.
    Count(V),
    /// An operator with one operand.
    Unary(Unary, Box<Expr<V>>),
    /// An operator with two operands.
    Binary(Binary, Box<Expr<V>>, Box<Expr<V>>),
    /// A pure power of a dimensionless operand.
    Power(Box<Expr<V>>, f64),
    /// A part with a name of its own; the text shows the name, the page spells it out.
    Named(&'static str, Box<Expr<V>>),
    /// A procedure over series (or single values).
    Call(&'static Procedure, Vec<Expr<V>>),
}

/// The operators with one operand.
#[derive(Copy, Clone, Debug, PartialEq, Eq)]
pub enum Unary {
    /// Minus sign.
    Neg,
    /// Cosine, of radians.
    Cos,
    /// Square root; halves the dimension.
    Sqrt,
    /// Square; doubles the dimension. A square is one operand, so a slip in it shows: in `a · a` one
    /// factor can often be wrong without a trace (Σ (x − c)(x − x̄) is the same for every c).
    Square,
    /// Logarithm to base ten, of a pure number.
    Log10,
}

/// The operators with two operands.
#[derive(Copy, Clone, Debug, PartialEq, Eq)]
#[allow(missing_docs)]
pub enum Binary {
    Add,
    Sub,
    Mul,
    Div,
}

/// The cosine of a pure number.
pub fn cos<V>(of: impl Into<Expr<V>>) -> Expr<V> {
    Expr::Unary(Unary::Cos, Box::new(of.into()))
}

/// The square root.
pub fn sqrt<V>(of: impl Into<Expr<V>>) -> Expr<V> {
    Expr::Unary(Unary::Sqrt, Box::new(of.into()))
}

/// The square.
pub fn square<V>(of: impl Into<Expr<V>>) -> Expr<V> {
    Expr::Unary(Unary::Square, Box::new(of.into()))
}

/// The logarithm to base ten of a pure number.
pub fn log10<V>(of: impl Into<Expr<V>>) -> Expr<V> {
    Expr::Unary(Unary::Log10, Box::new(of.into()))
}

/// A power of a pure number.
pub fn power<V>(of: impl Into<Expr<V>>, exponent: f64) -> Expr<V> {
    Expr::Power(Box::new(of.into()), exponent)
}

/// The sum over the values of the many-valued variables in `of`; single-valued ones stay put.
pub fn sum<V>(of: impl Into<Expr<V>>) -> Expr<V> {
    Expr::Sum(Box::new(of.into()))
}

/// The arithmetic mean of a variable's values.
pub fn mean<V: Copy + Into<Expr<V>>>(of: V) -> Expr<V> {
    sum(of) / Expr::Count(of)
}

/// Gives a part of a formula a name of its own.
pub fn named<V>(name: &'static str, part: impl Into<Expr<V>>) -> Expr<V> {
    Expr::Named(name, Box::new(part.into()))
}

/// A procedure applied to its arguments.
pub fn call<V>(procedure: &'static Procedure, args: impl IntoIterator<Item = Expr<V>>) -> Expr<V> {
    Expr::Call(procedure, args.into_iter().collect())
}

impl<V> From<f64> for Expr<V> {
    fn from(number: f64) -> Self {
        Expr::Number(number)
    }
}

macro_rules! operators {
    ($($trait:ident $method:ident),*) => {$(
        impl<V, R: Into<Expr<V>>> $trait<R> for Expr<V> {
            type Output = Expr<V>;
            fn $method(self, right: R) -> Expr<V> {
                Expr::Binary(Binary::$trait, Box::new(self), Box::new(right.into()))
            }
        }
        impl<V> $trait<Expr<V>> for f64 {
            type Output = Expr<V>;
            fn $method(self, right: Expr<V>) -> Expr<V> {
                Expr::from(self).$method(right)
            }
        }
    )*};
}
operators!(Add add, Sub sub, Mul mul, Div div);

impl<V> Neg for Expr<V> {
    type Output = Expr<V>;
    fn neg(self) -> Expr<V> {
        Expr::Unary(Unary::Neg, Box::new(self))
    }
}

/// How a formula goes with some of its variables.
#[derive(Copy, Clone, PartialEq, Eq, PartialOrd, Ord)]
enum Order {
    /// It does not contain them.
    Still,
    /// In proportion, beside what stays.
    Linear,
    /// In any other way.
    Higher,
}

/// The values that the variables stand for, in the order in which slopes are given.
#[derive(Clone, Debug)]
pub struct Bindings<V> {
    vars: Vec<(V, Vec<usize>)>,
    values: Vec<f64>,
    /// Whose slopes are asked for.
    asked: Vec<bool>,
}

impl<V: Variable> Bindings<V> {
    /// Binds each variable to its values; a variable may come more than once.
    pub fn new(given: impl IntoIterator<Item = (V, f64)>) -> Self {
        let mut out = Bindings {
            vars: Vec::new(),
            values: Vec::new(),
            asked: Vec::new(),
        };
        for (var, value) in given {
            let slot = out.values.len();
            out.values.push(value);
            out.asked.push(true);
            // The values of one variable mostly come one after the other, so the last is looked at first.
            match out.vars.iter_mut().rev().find(|(known, _)| *known == var) {
                Some((_, slots)) => slots.push(slot),
                None => out.vars.push((var, vec![slot])),
            }
        }
        out
    }

    /// Another value in a place, which is counted in the order of the values as they were given.
    pub fn put(&mut self, place: usize, value: f64) {
        if let Some(slot) = self.values.get_mut(place) {
            *slot = value;
        }
    }

    /// The same where only some slopes are asked for, by the places of their values; the others are zero. A slope by
    /// differences costs two more values of all that stands above it.
    pub fn asking(self, asked: impl IntoIterator<Item = bool>) -> Self {
        let mut asked = asked.into_iter();
        Bindings {
            asked: self
                .values
                .iter()
                .map(|_| asked.next() == Some(true))
                .collect(),
            ..self
        }
    }

    fn slots(&self, var: V) -> &[usize] {
        self.vars
            .iter()
            .find(|(known, _)| *known == var)
            .map_or(&[], |(_, slots)| slots)
    }

    /// Where the value of a variable stands in step `i` of `n`.
    fn slot(&self, var: V, i: usize, n: usize) -> Result<usize, String> {
        let slots = self.slots(var);
        match (slots, slots.get(i)) {
            ([one], _) => Ok(*one),
            (_, Some(slot)) if slots.len() == n => Ok(*slot),
            _ => Err(say!(
                "{var} has {count} values where {n} are needed",
                var = var.symbol(),
                count = slots.len(),
                n = n
            )),
        }
    }
}

impl<V: Variable> Expr<V> {
    /// The value and every slope that is asked for (differentiation in reverse, JCGM 100:2008, 5.1.3).
    ///
    /// # Errors
    /// In words: a variable with too few or too many values, or a part that is no finite number.
    pub fn eval(&self, bound: &Bindings<V>) -> Result<Slopes, String> {
        let width = bound.values.len();
        let mut tape = Tape::new(bound.values.clone(), bound.asked.clone());
        let result = self.record(bound, &mut tape, 0, 1)?;
        Ok(Slopes {
            value: tape.at(result),
            by: tape.slopes(result, width),
        })
    }

    /// The value alone.
    ///
    /// # Errors
    /// As [`Expr::eval`].
    pub fn value(&self, bound: &Bindings<V>) -> Result<f64, String> {
        match self.spread(bound, 1) {
            Some(Spread::One(value)) => Ok(value),
            // Which part has no number is found step by step.
            _ => Ok(self.eval(bound)?.value),
        }
    }

    /// This part alone in each of `n` steps, without a tape: what [`Expr::record`] puts there, by the same operations in
    /// the same order; nothing where a number is missing or not finite.
    fn spread(&self, bound: &Bindings<V>, n: usize) -> Option<Spread> {
        let series = |of: &Expr<V>| {
            let n = of.steps(bound);
            Some(of.spread(bound, n)?.series(n))
        };
        let spread = match self {
            Expr::Number(x) => Spread::One(*x),
            Expr::Count(var) => Spread::One(bound.slots(*var).len() as f64),
            Expr::Named(_, part) => return part.spread(bound, n),
            Expr::Var(var) => match bound.slots(*var) {
                [one] => Spread::One(*bound.values.get(*one)?),
                slots if slots.len() == n => {
                    let all = slots.iter().map(|slot| bound.values.get(*slot).copied());
                    Spread::Each(all.collect::<Option<_>>()?)
                }
                _ => return None,
            },
            Expr::Sum(a) => Spread::One(series(a)?.into_iter().sum()),
            Expr::Call(procedure, args) => {
                let numbers: Option<Vec<Vec<f64>>> = args.iter().map(series).collect();
                Spread::One(procedure.value(&numbers?).ok()?)
            }
            Expr::Unary(op, a) => a.spread(bound, n)?.map(|x| op.value(x)),
            Expr::Power(a, e) => a.spread(bound, n)?.map(|x| libm::pow(x, *e)),
            Expr::Binary(op, a, b) => a
                .spread(bound, n)?
                .with(b.spread(bound, n)?, |x, y| op.value(x, y)),
        };
        spread.is_finite().then_some(spread)
    }

    /// Whether the formula is more than linear in those variables taken together, as far as its form tells.
    pub fn bends(&self, moved: &dyn Fn(V) -> bool) -> bool {
        self.order(moved) == Order::Higher
    }

    fn order(&self, moved: &dyn Fn(V) -> bool) -> Order {
        match self {
            Expr::Number(_) | Expr::Count(_) => Order::Still,
            Expr::Var(var) if moved(*var) => Order::Linear,
            Expr::Var(_) => Order::Still,
            Expr::Sum(a) | Expr::Named(_, a) | Expr::Unary(Unary::Neg, a) => a.order(moved),
            Expr::Binary(Binary::Add | Binary::Sub, a, b) => a.order(moved).max(b.order(moved)),
            Expr::Binary(Binary::Mul, a, b) => match (a.order(moved), b.order(moved)) {
                (Order::Still, other) | (other, Order::Still) => other,
                _ => Order::Higher,
            },
            Expr::Binary(Binary::Div, a, b) if b.order(moved) == Order::Still => a.order(moved),
            // A root, a power, a quotient by what moves, a procedure: still only where nothing in it moves.
            _ => match self.variables().into_iter().any(moved) {
                true => Order::Higher,
                false => Order::Still,
            },
        }
    }

    fn finite(&self, value: f64) -> Result<f64, String> {
        match value.is_finite() {
            true => Ok(value),
            false => Err(say!("`{what}` is not a finite number", what = self.text())),
        }
    }

    /// How many steps a sum or series over this part has: as many as its longest variable has values, one at least.
    fn steps(&self, bound: &Bindings<V>) -> usize {
        match self {
            Expr::Number(_) => 1,
            Expr::Var(var) | Expr::Count(var) => bound.slots(*var).len().max(1),
            Expr::Sum(a) | Expr::Unary(_, a) | Expr::Power(a, _) | Expr::Named(_, a) => {
                a.steps(bound)
            }
            Expr::Binary(_, a, b) => a.steps(bound).max(b.steps(bound)),
            Expr::Call(_, args) => args.iter().map(|arg| arg.steps(bound)).max().unwrap_or(1),
        }
    }

    /// Puts this part on the tape; inside a series it is step `i` of `n`.
    fn record(
        &self,
        bound: &Bindings<V>,
        tape: &mut Tape,
        i: usize,
        n: usize,
    ) -> Result<usize, String> {
        let index = match self {
            Expr::Number(x) => tape.push(*x, []),
            Expr::Count(var) => tape.push(bound.slots(*var).len() as f64, []),
            Expr::Named(_, part) => return part.record(bound, tape, i, n),
            Expr::Var(var) => return bound.slot(*var, i, n),
            Expr::Sum(a) => {
                let n = a.steps(bound);
                let terms: Vec<usize> = (0..n)
                    .map(|i| a.record(bound, tape, i, n))
                    .collect::<Result<_, _>>()?;
                let total = terms.iter().map(|term| tape.at(*term)).sum();
                tape.push(total, terms.into_iter().map(|term| (term, 1.0)))
            }
            Expr::Call(procedure, args) => {
                let mut series = Vec::new();
                for arg in args {
                    let n = arg.steps(bound);
                    series.push(
                        (0..n)
                            .map(|i| arg.record(bound, tape, i, n))
                            .collect::<Result<Vec<_>, _>>()?,
                    );
                }
                let numbers: Vec<Vec<f64>> = series
                    .iter()
                    .map(|nodes| nodes.iter().map(|node| tape.at(*node)).collect())
                    .collect();
                let asked =
                    |nodes: &Vec<usize>| nodes.iter().map(|node| tape.asked(*node)).collect();
                let asked: Vec<Vec<bool>> = series.iter().map(asked).collect();
                let (value, slopes) = procedure.eval_asked(&numbers, &asked)?;
                let operands: Vec<(usize, f64)> =
                    series.concat().into_iter().zip(slopes.concat()).collect();
                tape.push(value, operands)
            }
            Expr::Unary(op, a) => {
                let a = a.record(bound, tape, i, n)?;
                let x = tape.at(a);
                tape.push(op.value(x), [(a, op.slope(x))])
            }
            Expr::Power(a, e) => {
                let a = a.record(bound, tape, i, n)?;
                let x = tape.at(a);
                tape.push(libm::pow(x, *e), [(a, e * libm::pow(x, e - 1.0))])
            }
            Expr::Binary(op, a, b) => {
                let (a, b) = (a.record(bound, tape, i, n)?, b.record(bound, tape, i, n)?);
                let (x, y) = (tape.at(a), tape.at(b));
                let (by_a, by_b) = op.slopes(x, y);
                tape.push(op.value(x, y), [(a, by_a), (b, by_b)])
            }
        };
        self.finite(tape.at(index))?;
        Ok(index)
    }

    /// The dimension.
    ///
    /// # Errors
    /// In words: what is added to what.
    pub fn dim(&self) -> Result<Dim, String> {
        let pure = |a: &Expr<V>| match a.dim()? {
            Dim::NONE => Ok(Dim::NONE),
            dim => Err(say!(
                "`{what}` needs a pure number and gets {dim}",
                what = self.text(),
                dim = dim
            )),
        };
        match self {
            Expr::Number(_) | Expr::Count(_) => Ok(Dim::NONE),
            Expr::Var(var) => Ok(var.dim()),
            Expr::Sum(a) | Expr::Named(_, a) | Expr::Unary(Unary::Neg, a) => a.dim(),
            Expr::Unary(Unary::Cos | Unary::Log10, a) | Expr::Power(a, _) => pure(a),
            Expr::Unary(Unary::Square, a) => Ok(a.dim()?.power(2)),
            Expr::Unary(Unary::Sqrt, a) => {
                let dim = a.dim()?;
                match dim.0.iter().all(|power| power % 2 == 0) {
                    true => Ok(Dim(dim.0.map(|power| power / 2))),
                    false => Err(say!("`{what}` halves {dim}", what = self.text(), dim = dim)),
                }
            }
            Expr::Call(procedure, args) => {
                let dims = args.iter().map(Expr::dim).collect::<Result<Vec<_>, _>>()?;
                (procedure.dim)(&dims).map_err(|why| format!("`{}`: {why}", self.text()))
            }
            Expr::Binary(Binary::Mul, a, b) => Ok(a.dim()?.times(b.dim()?)),
            Expr::Binary(Binary::Div, a, b) => Ok(a.dim()?.over(b.dim()?)),
            Expr::Binary(Binary::Add | Binary::Sub, a, b) => {
                let (left, right) = (a.dim()?, b.dim()?);
                match left == right {
                    true => Ok(left),
                    false => Err(say!(
                        "`{what}` adds {left} and {right}",
                        what = self.text(),
                        left = left,
                        right = right
                    )),
                }
            }
        }
    }

    /// The operands of this node.
    fn operands(&self) -> Vec<&Expr<V>> {
        match self {
            Expr::Number(_) | Expr::Var(_) | Expr::Count(_) => Vec::new(),
            Expr::Sum(a) | Expr::Unary(_, a) | Expr::Power(a, _) | Expr::Named(_, a) => vec![a],
            Expr::Binary(_, a, b) => vec![a, b],
            Expr::Call(_, args) => args.iter().collect(),
        }
    }

    /// The variables, in the order in which a reader meets them, each once.
    pub fn variables(&self) -> Vec<V> {
        fn walk<V: Variable>(of: &Expr<V>, found: &mut Vec<V>) {
            if let Expr::Var(var) | Expr::Count(var) = of
                && !found.contains(var)
            {
                found.push(*var);
            }
            of.operands().into_iter().for_each(|part| walk(part, found));
        }
        let mut found = Vec::new();
        walk(self, &mut found);
        found
    }

    /// The procedures that it calls, each once.
    pub fn procedures(&self) -> Vec<&'static Procedure> {
        let mut found: Vec<&'static Procedure> = self
            .operands()
            .into_iter()
            .flat_map(Expr::procedures)
            .collect();
        if let Expr::Call(procedure, _) = self {
            found.insert(0, procedure);
        }
        found.dedup_by_key(|procedure| procedure.name);
        found
    }

    /// The named parts: `(name, part)`, outermost first, each once.
    pub fn parts(&self) -> Vec<(&'static str, &Expr<V>)> {
        let mut found: Vec<(&'static str, &Expr<V>)> = Vec::new();
        if let Expr::Named(name, part) = self {
            found.push((name, part));
        }
        for operand in self.operands() {
            for part in operand.parts() {
                if found.iter().all(|(name, _)| *name != part.0) {
                    found.push(part);
                }
            }
        }
        found
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[derive(Copy, Clone, Debug, PartialEq)]
    struct Letter(&'static str);
    impl Variable for Letter {
        fn symbol(self) -> &'static str {
            self.0
        }
        fn dim(self) -> Dim {
            if self.0 == "t" {
                crate::ground::unit::TIME
            } else {
                Dim::NONE
            }
        }
    }
    fn var(symbol: &'static str) -> Expr<Letter> {
        Expr::Var(Letter(symbol))
    }

    #[test]
    fn parentheses_appear_only_where_the_reader_needs_them() {
        let (a, b, c) = (|| var("a"), || var("b"), || var("c"));
        for (formula, text) in [
            (a() - (b() - c()), "a − (b − c)"),
            (a() - b() - c(), "a − b − c"),
            (a() * (b() + c()), "a · (b + c)"),
            (a() / (b() * c()), "a / (b · c)"),
            (2.0 * cos(a() + b()), "2 · cos (a + b)"),
            (power(1.0 - a(), 1.256), "(1 − a)^1.256"),
            (a() * -b(), "a · (−b)"),
            (sqrt(a() + b()), "√(a + b)"),
        ] {
            assert_eq!(formula.text(), text);
        }
    }

    #[test]
    fn a_sum_of_unlike_dimensions_is_named() {
        let clash = (var("t") + var("a")) * 2.0;
        assert_eq!(clash.dim().unwrap_err(), "`t + a` adds s and a pure number");
    }

    #[test]
    fn a_regression_line_is_an_ordinary_formula() {
        let x = || named("Δx", var("x") - sum(var("x")) / Expr::Count(Letter("x")));
        let slope = sum(x() * var("y")) / sum(x() * x());
        assert_eq!(slope.text(), "Σ (Δx · y) / Σ (Δx · Δx)");
        let points = [(1.0, 2.0), (2.0, 4.0), (3.0, 9.0)];
        let bound = Bindings::new(
            points
                .into_iter()
                .flat_map(|(x, y)| [(Letter("x"), x), (Letter("y"), y)]),
        );
        let fit = slope.eval(&bound).unwrap();
        assert_eq!(fit.value, 3.5);
        // By hand: ∂slope/∂y_i = Δx_i / Σ Δx².
        assert_eq!([fit.by[1], fit.by[3], fit.by[5]], [-0.5, 0.0, 0.5]);
    }

    #[test]
    fn a_part_without_a_number_is_named() {
        let total = sum(var("a"));
        assert_eq!(
            total.eval(&Bindings::new([])).unwrap_err(),
            "a has 0 values where 1 are needed"
        );
        let formula = 1.0 + var("a") / (var("b") - var("c"));
        let bound = Bindings::new([(Letter("a"), 1.0), (Letter("b"), 2.0), (Letter("c"), 2.0)]);
        assert_eq!(
            formula.eval(&bound).unwrap_err(),
            "`a / (b − c)` is not a finite number"
        );
    }
}

//! What every figure of the house must keep, whatever it computes.
//!
//! These tests walk the table; a new figure is under them the moment its file exists.

use std::collections::BTreeSet;

use num_dual::{Dual64, DualNum};
use sealfolio::{
    figure::{Figure, Formula, From, Input},
    figures,
    formula::{Binary, Bindings, Expr, Unary, Variable},
    ground::{number, unit},
    record::common::Measured,
};

fn all() -> impl Iterator<Item = &'static Figure> {
    figures::ALL.iter().copied()
}

fn si(text: &str) -> f64 {
    number::parse(text).unwrap_or_else(|_| {
        let (n, unit) = number::parse_with_unit(text).unwrap();
        unit.to_si(n)
    })
}

fn example(figure: &Figure) -> Vec<(Input, f64)> {
    figure
        .example
        .given
        .iter()
        .map(|(input, value, _)| (*input, si(value)))
        .collect()
}

#[test]
fn a_figure_is_named_after_its_file() {
    for (file, figure) in figures::FILES.iter().zip(all()) {
        assert_eq!(figure.id, file.replace('_', "-"));
    }
}

#[test]
fn a_figure_says_what_it_means_when_it_holds_and_where_it_comes_from() {
    for figure in all() {
        assert!(
            figure.about.len() > 30 && figure.validity.len() > 10 && !figure.sources.is_empty(),
            "{}",
            figure.id
        );
        assert!(
            figure.about.ends_with('.') && figure.validity.ends_with('.'),
            "{}",
            figure.id
        );
    }
}

#[test]
fn a_formula_has_the_dimension_of_its_unit() {
    for figure in all() {
        assert_eq!(
            (figure.formula)().dim(),
            Ok(figure.unit.dim),
            "{}",
            figure.id
        );
    }
}

#[test]
fn a_worked_example_comes_out_to_the_last_digit() {
    let mut wrong = Vec::new();
    for figure in all() {
        let worked = figure.work_example(&(figure.formula)());
        if worked.as_deref() != Ok(figure.example.gives) {
            wrong.push(format!(
                "{}: {worked:?}, written {}",
                figure.id, figure.example.gives
            ));
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

/// Every formula that differs from this one by one slip of the pen.
fn slips(of: &Formula, inputs: &[Input]) -> Vec<Formula> {
    let one = |a: &Formula, wrap: &dyn Fn(Box<Formula>) -> Formula| -> Vec<Formula> {
        slips(a, inputs)
            .into_iter()
            .map(|a| wrap(Box::new(a)))
            .collect()
    };
    let others = |var: Input| inputs.iter().copied().filter(move |other| *other != var);
    match of {
        Expr::Number(x) => vec![Expr::Number(x * 2.0), Expr::Number(x + 0.01)],
        Expr::Var(var) => others(*var).map(Expr::Var).collect(),
        Expr::Sum(a) => one(a, &Expr::Sum),
        Expr::Count(_) => vec![1.0.into()],
        Expr::Named(name, a) => one(a, &|a| Expr::Named(name, a)),
        Expr::Unary(op, a) => {
            let mut all = one(a, &|a| Expr::Unary(*op, a));
            all.push((**a).clone());
            all
        }
        Expr::Power(a, e) => {
            let mut all = one(a, &|a| Expr::Power(a, *e));
            all.extend([Expr::Power(a.clone(), e + 0.01), (**a).clone()]);
            all
        }
        Expr::Call(procedure, args) => {
            let mut all = Vec::new();
            for (i, arg) in args.iter().enumerate() {
                for slip in slips(arg, inputs) {
                    let mut args = args.clone();
                    args[i] = slip;
                    all.push(Expr::Call(procedure, args));
                }
            }
            all
        }
        Expr::Binary(op, a, b) => {
            use Binary::{Add, Div, Mul, Sub};
            let mut all = one(a, &|a| Expr::Binary(*op, a, b.clone()));
            all.extend(one(b, &|b| Expr::Binary(*op, a.clone(), b)));
            let ops = [Add, Sub, Mul, Div].into_iter().filter(|other| other != op);
            all.extend(ops.map(|other| Expr::Binary(other, a.clone(), b.clone())));
            all
        }
    }
}

#[test]
fn a_slip_in_a_formula_never_goes_unseen() {
    let (mut unseen, mut tried) = (Vec::new(), 0);
    for figure in all() {
        let formula = (figure.formula)();
        for slip in slips(&formula, &formula.variables()) {
            tried += 1;
            let seen = slip.dim() != Ok(figure.unit.dim)
                || figure.work_example(&slip).as_deref() != Ok(figure.example.gives);
            if !seen {
                unseen.push(format!(
                    "{}: the example cannot tell {}",
                    figure.id,
                    slip.text()
                ));
            }
        }
    }
    println!("{tried} slips tried");
    assert!(tried > 500);
    assert!(unseen.is_empty(), "{}", unseen.join("\n"));
}

#[test]
fn an_example_gives_every_input_and_no_other() {
    for figure in all() {
        let used: BTreeSet<&str> = (figure.formula)()
            .variables()
            .into_iter()
            .map(Variable::symbol)
            .collect();
        let given: BTreeSet<&str> = figure
            .example
            .given
            .iter()
            .map(|given| given.0.symbol)
            .collect();
        assert_eq!(used, given, "{}", figure.id);
    }
}

#[test]
fn two_inputs_never_share_a_symbol() {
    for figure in all() {
        let inputs: Vec<Input> = figure.example.given.iter().map(|given| given.0).collect();
        for (i, input) in inputs.iter().enumerate() {
            for other in inputs[..i]
                .iter()
                .filter(|other| other.symbol == input.symbol)
            {
                assert_eq!(
                    other.what, input.what,
                    "{}: `{}` means two things",
                    figure.id, input.symbol
                );
            }
        }
    }
}

#[test]
fn no_figure_stands_on_itself() {
    fn walk(figure: &'static Figure, above: &mut Vec<&'static str>) {
        assert!(
            !above.contains(&figure.id),
            "{} > {}",
            above.join(" > "),
            figure.id
        );
        above.push(figure.id);
        for input in (figure.formula)().variables() {
            if let From::Figures(below, _) = input.from {
                walk(below, above);
            }
        }
        above.pop();
    }
    all().for_each(|figure| walk(figure, &mut Vec::new()));
}

/// The same tree, evaluated by another crate's differentiation; nothing where it calls a procedure
/// (those have a test of their own beside them).
fn by_num_dual(formula: &Formula, bound: &[(Input, Dual64)], i: usize) -> Option<Dual64> {
    let of = |part: &Formula| by_num_dual(part, bound, i);
    let values = |var: &Input| -> Vec<Dual64> {
        bound.iter().filter(|b| b.0 == *var).map(|b| b.1).collect()
    };
    Some(match formula {
        Expr::Call(..) => return None,
        Expr::Number(x) => Dual64::from(*x),
        Expr::Var(var) => values(var)[i.min(values(var).len() - 1)],
        Expr::Count(var) => Dual64::from(values(var).len() as f64),
        Expr::Sum(a) => {
            let n = a
                .variables()
                .iter()
                .map(|var| values(var).len())
                .max()
                .unwrap();
            let mut total = Dual64::from(0.0);
            for i in 0..n {
                total += by_num_dual(a, bound, i)?;
            }
            total
        }
        Expr::Named(_, a) => of(a)?,
        Expr::Unary(Unary::Neg, a) => -of(a)?,
        Expr::Unary(Unary::Cos, a) => of(a)?.cos(),
        Expr::Unary(Unary::Sqrt, a) => of(a)?.sqrt(),
        Expr::Unary(Unary::Square, a) => of(a)? * of(a)?,
        Expr::Unary(Unary::Log10, a) => of(a)?.log10(),
        Expr::Power(a, e) => of(a)?.powf(*e),
        Expr::Binary(Binary::Add, a, b) => of(a)? + of(b)?,
        Expr::Binary(Binary::Sub, a, b) => of(a)? - of(b)?,
        Expr::Binary(Binary::Mul, a, b) => of(a)? * of(b)?,
        Expr::Binary(Binary::Div, a, b) => of(a)? / of(b)?,
    })
}

#[test]
fn every_slope_agrees_with_num_dual() {
    let mut compared = 0;
    for figure in all() {
        let given = example(figure);
        let ours = (figure.formula)()
            .eval(&Bindings::new(given.clone()))
            .unwrap();
        let alone = (figure.formula)().value(&Bindings::new(given.clone()));
        assert_eq!(alone, Ok(ours.value), "{} without its slopes", figure.id);
        for (i, ours) in ours.by.iter().enumerate() {
            let dual: Vec<(Input, Dual64)> = given
                .iter()
                .enumerate()
                .map(|(j, (var, x))| (*var, Dual64::new(*x, f64::from(i == j))))
                .collect();
            let Some(theirs) = by_num_dual(&(figure.formula)(), &dual, 0) else {
                continue;
            };
            compared += 1;
            let theirs = theirs.eps;
            assert!(
                (ours - theirs).abs() <= 1e-12 * ours.abs().max(theirs.abs()),
                "{} by {}: {ours:e}, {theirs:e}",
                figure.id,
                given[i].0.symbol
            );
        }
    }
    assert!(compared > 30, "{compared}");
}

/// What nobody asks for is left out, and changes nothing of the rest, to the last bit.
#[test]
fn a_slope_is_the_same_whichever_others_are_asked_for() {
    let (mut kept, mut left) = (0, 0);
    for figure in all() {
        let bound = Bindings::new(example(figure));
        let formula = (figure.formula)();
        let whole = formula.eval(&bound).unwrap();
        for odd in [0, 1] {
            let asked = |i: usize| i % 2 == odd;
            let some = bound.clone().asking((0..whole.by.len()).map(asked));
            let some = formula.eval(&some).unwrap();
            assert_eq!(some.value.to_bits(), whole.value.to_bits());
            for (i, (one, all)) in some.by.iter().zip(&whole.by).enumerate() {
                match asked(i) {
                    true => assert_eq!(one, all, "{} [{i}]", figure.id),
                    false => assert_eq!(*one, 0.0, "{} [{i}]", figure.id),
                }
                kept += usize::from(asked(i) && *all != 0.0);
                left += usize::from(!asked(i) && *all != 0.0);
            }
        }
    }
    assert!(kept > 100 && left > 100, "{kept} {left}");
}

#[test]
fn a_figure_with_contributions_is_printed_in_a_unit_that_records_know() {
    for figure in all() {
        assert!(unit::UNITS.contains(&figure.unit), "{}", figure.id);
        assert!(
            figure
                .quantity
                .is_none_or(|quantity| Measured::WORDS.contains(&quantity.word()))
        );
    }
}

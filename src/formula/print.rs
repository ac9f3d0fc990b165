//! A formula as text and as MathML, with the fewest parentheses.

use super::{Binary, Expr, Unary, Variable};
use crate::ground::number;

impl<V: Variable> Expr<V> {
    /// The formula as a line of text, in symbols.
    pub fn text(&self) -> String {
        self.write(&|var| var.symbol().to_owned()).0
    }

    /// The same line with something in place of each symbol, such as a number with its unit.
    pub fn text_with(&self, show: &dyn Fn(V) -> String) -> String {
        self.write(show).0
    }

    /// Text and binding strength: 1 sum, 2 product, 3 prefix, 4 atom.
    fn write(&self, show: &dyn Fn(V) -> String) -> (String, u8) {
        let at_least = |of: &Expr<V>, strength: u8| match of.write(show) {
            (text, has) if has < strength => format!("({text})"),
            (text, _) => text,
        };
        match self {
            Expr::Number(x) => (number::significant(*x, 10), 4),
            Expr::Var(var) => (show(*var), 4),
            Expr::Count(var) => (format!("n({})", var.symbol()), 4),
            Expr::Named(name, _) => ((*name).to_owned(), 4),
            Expr::Sum(a) => (format!("Σ {}", at_least(a, 4)), 3),
            Expr::Unary(Unary::Neg, a) => (format!("−{}", at_least(a, 2)), 1),
            Expr::Unary(Unary::Cos, a) => (say!("cos {a}", a = at_least(a, 4)), 3),
            Expr::Unary(Unary::Log10, a) => (say!("log₁₀ {a}", a = at_least(a, 4)), 3),
            Expr::Unary(Unary::Sqrt, a) => (format!("√{}", at_least(a, 4)), 3),
            Expr::Unary(Unary::Square, a) => (format!("{}²", at_least(a, 4)), 4),
            Expr::Power(a, e) => (format!("{}^{e}", at_least(a, 4)), 4),
            Expr::Call(procedure, args) => {
                let args: Vec<String> = args.iter().map(|arg| arg.write(show).0).collect();
                (format!("{}({})", procedure.name, args.join("; ")), 4)
            }
            Expr::Binary(op, a, b) => {
                let (sign, left, right, has) = op.grammar();
                (
                    format!("{} {sign} {}", at_least(a, left), at_least(b, right)),
                    has,
                )
            }
        }
    }

    /// The formula as MathML Core, for browsers without script.
    pub fn mathml(&self) -> String {
        let row = |parts: &[String]| format!("<mrow>{}</mrow>", parts.concat());
        let op = |sign: &str| format!("<mo>{sign}</mo>");
        let fence = |of: &Expr<V>, strength: u8| match of.write(&|v| v.symbol().to_owned()).1 {
            has if has < strength => row(&[op("("), of.mathml(), op(")")]),
            _ => of.mathml(),
        };
        match self {
            Expr::Number(x) => format!("<mn>{}</mn>", number::significant(*x, 10)),
            Expr::Var(var) => symbol_mathml(var.symbol()),
            Expr::Count(var) => row(&[
                "<mi>n</mi>".into(),
                op("("),
                symbol_mathml(var.symbol()),
                op(")"),
            ]),
            Expr::Named(name, _) => symbol_mathml(name),
            Expr::Sum(a) => row(&[op("∑"), fence(a, 4)]),
            Expr::Unary(Unary::Neg, a) => row(&[op("−"), fence(a, 2)]),
            Expr::Unary(Unary::Cos, a) => {
                row(&["<mi>cos</mi>".into(), op("&#x2061;"), fence(a, 4)])
            }
            Expr::Unary(Unary::Log10, a) => row(&[
                "<msub><mi>log</mi><mn>10</mn></msub>".into(),
                op("&#x2061;"),
                fence(a, 4),
            ]),
            Expr::Unary(Unary::Sqrt, a) => format!("<msqrt>{}</msqrt>", a.mathml()),
            Expr::Unary(Unary::Square, a) => format!("<msup>{}<mn>2</mn></msup>", fence(a, 4)),
            Expr::Power(a, e) => format!("<msup>{}<mn>{e}</mn></msup>", fence(a, 4)),
            Expr::Call(procedure, args) => {
                let mut parts = vec![
                    format!("<mi>{}</mi>", procedure.name),
                    op("&#x2061;"),
                    op("("),
                ];
                for (i, arg) in args.iter().enumerate() {
                    if i > 0 {
                        parts.push(op(";"));
                    }
                    parts.push(arg.mathml());
                }
                parts.push(op(")"));
                row(&parts)
            }
            Expr::Binary(Binary::Div, a, b) => {
                format!("<mfrac>{}{}</mfrac>", a.mathml(), b.mathml())
            }
            Expr::Binary(sign, a, b) => {
                let (sign, left, right, _) = sign.grammar();
                row(&[fence(a, left), op(sign), fence(b, right)])
            }
        }
    }
}

impl Binary {
    /// Sign, the strength that each side needs, and the strength of the whole.
    fn grammar(self) -> (&'static str, u8, u8, u8) {
        match self {
            Binary::Add => ("+", 1, 1, 1),
            Binary::Sub => ("−", 1, 2, 1),
            Binary::Mul => ("·", 2, 2, 2),
            Binary::Div => ("/", 2, 3, 2),
        }
    }
}

/// A symbol in MathML: `p_ref` becomes a letter with a subscript.
pub fn symbol_mathml(symbol: &str) -> String {
    match symbol.split_once('_') {
        Some((letter, index)) => format!("<msub><mi>{letter}</mi><mtext>{index}</mtext></msub>"),
        None => format!("<mi>{symbol}</mi>"),
    }
}

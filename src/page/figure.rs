//! A figure on a page: value, verdict, and the proof that opens in place.

use serde::Serialize;

use super::{Book, Cell, href};
use crate::{
    chart,
    figure::{Computed, Figure, Origin, Term},
    formula::symbol_mathml,
    ground::{number, quantity::Quantity, words},
    verdict::{self, Verdict},
};

/// A figure, ready for its template.
#[derive(Serialize)]
pub struct FigureView {
    anchor: String,
    id: String,
    name: String,
    subject: Cell,
    /// The record that it is of, where that is not the subject.
    record: Option<Cell>,
    value: String,
    expanded: String,
    coverage: String,
    probability: String,
    limit: String,
    limit_source: Option<Cell>,
    verdict: Cell,
    margin: String,
    reported: Option<Cell>,
    lack: String,
    formula: String,
    parts: Vec<(String, String)>,
    numbers: String,
    inputs: Vec<InputView>,
    budget: Vec<Share>,
    direct: Vec<Cell>,
    strip: String,
    method: String,
}

#[derive(Serialize)]
struct InputView {
    symbol: String,
    what: String,
    value: String,
    slope: String,
    source: Vec<Cell>,
}

#[derive(Serialize)]
struct Share {
    name: String,
    of: String,
    share: String,
    percent: String,
    degrees: String,
}

/// A formula as pages show it: the same beside every figure of one definition.
#[derive(Clone)]
pub struct Law {
    formula: String,
    parts: Vec<(String, String)>,
}

impl Law {
    /// The law of a figure.
    pub fn of(figure: &Figure) -> Law {
        let formula = (figure.formula)();
        Law {
            formula: format!(
                "<math display=\"block\"><mrow>{}<mo>=</mo>{}</mrow></math>",
                symbol_mathml(figure.symbol),
                formula.mathml()
            ),
            parts: formula
                .parts()
                .into_iter()
                .map(|(name, part)| (symbol_mathml(name), part.mathml()))
                .collect(),
        }
    }
}

/// The figure as its page shows it.
pub fn view(book: &Book, from: &str, computed: &Computed, subject: &str) -> FigureView {
    let figure = computed.figure;
    let law = book.law(figure);
    let worked = computed.worked.as_ref().ok();
    let quantity = worked.map(|worked| &worked.quantity);
    let has_doubt = quantity.is_some_and(|quantity| quantity.u() > 0.0);
    let judgement = computed.judgement.as_ref();
    let strip = quantity
        .zip(judgement)
        .filter(|(quantity, judgement)| {
            quantity.u() > 0.0
                && (judgement.guard > 0.0 || judgement.limit.low.or(judgement.limit.high).is_some())
        })
        .map(|(quantity, judgement)| {
            let words = format!(
                "{}; {}: {}",
                computed.shown(),
                judgement.limit.text,
                judgement.verdict.said()
            );
            let levels = matches!(
                judgement.limit.decision,
                crate::verdict::Decision::Levels(..)
            );
            let high = if levels {
                Some(judgement.guard)
            } else {
                judgement.limit.high
            };
            chart::strip(
                quantity.value,
                verdict::coverage(quantity) * quantity.u(),
                (judgement.limit.low, high),
                if levels { 0.0 } else { judgement.guard },
                (&computed.shown(), &judgement.limit.text),
                &words,
            )
        });
    // A link to the page on which it stands would lead nowhere.
    let mut subject = book.thing(from, subject);
    if from.rsplit('/').next() == Some(&*subject.href) {
        subject.href.clear();
    }
    let record = book.dossier.plant.record(computed.subject.record);
    FigureView {
        anchor: computed.id.anchor(),
        id: computed.id.to_string(),
        name: match (&*computed.id.part, record_has_parts(computed)) {
            (part, true) if !part.is_empty() => {
                format!("{}, {}", say!(figure.name), part.replace('_', " "))
            }
            _ => say!(figure.name).into(),
        },
        record: (*record.id.text != *subject.text)
            .then(|| Cell::link(&*record.id.text, book.place_href(from, &record.place()))),
        subject,
        value: computed.shown(),
        expanded: quantity
            .filter(|_| has_doubt)
            .map_or(String::new(), |quantity| {
                verdict::expanded(quantity, &figure.unit)
            }),
        coverage: quantity
            .filter(|_| has_doubt)
            .map_or(String::new(), verdict::coverage_text),
        probability: judgement
            .and_then(|judgement| judgement.probability())
            .unwrap_or_default(),
        limit: judgement.map_or(String::new(), |judgement| judgement.limit.text.clone()),
        limit_source: judgement
            .and_then(|judgement| judgement.limit.at.as_ref())
            .map(|at| book.place(from, at)),
        verdict: Cell::verdict(computed.verdict()),
        margin: judgement
            .and_then(|judgement| judgement.margin)
            .map_or(String::new(), |margin| number::fixed(margin, 1)),
        reported: computed
            .reported
            .as_ref()
            .map(|reported| Cell::link(reported.text.clone(), book.place_href(from, &reported.at))),
        lack: match (&computed.worked, &computed.undecidable) {
            (Err(why), _) => why.clone(),
            (_, Some(why)) => why.clone(),
            _ if computed.verdict() == Verdict::NotEvaluated => {
                say!("no uncertainty contribution is stated, so no verdict is given").into()
            }
            _ => String::new(),
        },
        formula: law.formula,
        parts: law.parts,
        numbers: computed.with_numbers().map_or(String::new(), |numbers| {
            format!("{} = {numbers}", figure.symbol)
        }),
        inputs: worked.map_or(Vec::new(), |worked| {
            worked
                .terms
                .iter()
                .map(|term| input(book, from, term))
                .collect()
        }),
        budget: quantity.map_or(Vec::new(), |quantity| budget(quantity, computed)),
        direct: worked.map_or(Vec::new(), |worked| {
            worked
                .direct
                .iter()
                .map(|(text, at)| Cell::link(text.clone(), book.place_href(from, at)))
                .collect()
        }),
        strip: strip.unwrap_or_default(),
        method: href(from, &format!("methods/{id}.html", id = figure.id)),
    }
}

fn input(book: &Book, from: &str, term: &Term) -> InputView {
    let slope = match &term.slopes[..] {
        [one] => number::significant(*one, 3),
        _ => String::new(),
    };
    let source = match &term.origin {
        Origin::Readings(readings) => match &readings[..] {
            [(text, at)] => vec![book.place(from, at), Cell::text(spelt(text))],
            several => several
                .iter()
                .map(|(text, at)| {
                    Cell::link(
                        if text.is_empty() {
                            at.to_string()
                        } else {
                            spelt(text)
                        },
                        book.place_href(from, at),
                    )
                })
                .collect(),
        },
        Origin::Rows { first, last, .. } => vec![
            book.place(from, first),
            Cell::link(
                say!("to line {line}", line = last.spot.line),
                book.place_href(from, last),
            ),
        ],
        Origin::Contribution { text, at } => {
            vec![Cell::link(text.clone(), book.place_href(from, at))]
        }
        Origin::Constant { source } => vec![Cell::text(say!(*source))],
        Origin::Figures(ids) => ids
            .iter()
            .map(|id| Cell::link(id.to_string(), book.figure_href(from, id)))
            .collect(),
        Origin::NoContribution => {
            vec![Cell::text(say!("no contribution stated; taken as nothing"))]
        }
    };
    InputView {
        symbol: symbol_mathml(term.input.symbol),
        what: say!(term.input.what).into(),
        value: term.shown(),
        slope,
        source,
    }
}

/// A reading as its record writes it, with the decimal sign of the page.
fn spelt(text: &str) -> String {
    match text.parse::<f64>() {
        Ok(_) => words::decimal(text),
        Err(_) => text.to_owned(),
    }
}

fn budget(quantity: &Quantity, computed: &Computed) -> Vec<Share> {
    let u2 = quantity.u() * quantity.u();
    let unit = &computed.figure.unit;
    let mut shares: Vec<_> = quantity
        .shares
        .iter()
        .filter(|(_, share)| *share != 0.0)
        .collect();
    shares.sort_by(|a, b| b.1.abs().total_cmp(&a.1.abs()));
    shares
        .into_iter()
        .map(|(cause, share)| Share {
            // Causes are added in the order of their names: those are English until they are shown.
            name: say!(&cause.name.replace('_', " ")).to_owned(),
            of: say!(&cause.of).to_owned(),
            share: number::with_unit(&number::significant(share.abs() / unit.factor, 2), unit),
            percent: number::fixed(100.0 * share * share / u2, 1),
            degrees: cause.degrees.map_or("–".into(), |n| n.to_string()),
        })
        .collect()
}

/// Whether the subject that is shown beside a figure leaves open which part it is of.
fn record_has_parts(computed: &Computed) -> bool {
    !["pleat-count", "pleated-area"].contains(&computed.figure.id)
}

//! R63: The symbol on an assembly decodes to its own id and batch.

use crate::{
    ground::finding::{Finding, Severity},
    rule::{Outcome, Rule, View},
};

/// The symbol on an assembly decodes to its own id and batch.
pub static RULE: Rule = Rule {
    id: "R63",
    severity: Severity::Blocks,
    demands: "The symbol on an assembly decodes to its own id and batch.",
    protects: "two elements with one number",
    explained: "Never: it is mended, or what it concerns is not released.",
    check,
};

fn finding(message: String) -> Finding {
    Finding::new(RULE.id, RULE.severity, message)
}

fn check(view: &View) -> Outcome {
    let mut out = Outcome::of(say!("symbols"));
    for (record, body) in view.plant.records().marking_inspections() {
        for mark in body.reads.iter() {
            let Some(data) = &mark.symbol_data else {
                continue;
            };
            out.look();
            let fields = decode(data);
            let field = |code: &str| {
                fields
                    .iter()
                    .find(|(own, _)| *own == code)
                    .map(|(_, text)| *text)
            };
            let mut wrong = Vec::new();
            for code in ["10", "21"] {
                if fields.iter().filter(|(own, _)| *own == code).count() > 1 {
                    wrong.push(say!("({code}) more than once", code = code));
                }
            }
            match field("21") {
                Some(serial) if *serial == *mark.item.text => {}
                Some(serial) => wrong.push(format!("(21){serial}")),
                None => wrong.push(say!("no (21) serial number").to_owned()),
            }
            match field("10") {
                Some(batch) if *batch == *body.lot_id.text => {}
                Some(batch) => wrong.push(say!(
                    "(10){batch}, lot {lot_id}",
                    batch = batch,
                    lot_id = &*body.lot_id
                )),
                None => wrong.push(say!("no (10) batch").to_owned()),
            }
            if !wrong.is_empty() {
                out.find(
                    Finding {
                        severity: view.weight(&mark.item),
                        ..finding(say!(
                            "{item}: its symbol holds {wrong}.",
                            item = &*mark.item,
                            wrong = wrong.join(say!(" and "))
                        ))
                    }
                    .advise(say!(
                        "Find out which element it is; replace the symbol and record it."
                    ))
                    .at(record.at(data.spot))
                    .about(&*mark.item.text)
                    .about(&*record.id.text),
                );
            }
        }
    }
    out
}

/// The element strings of a symbol in the form that people read: `(10)B26-1(21)A-1`.
fn decode(data: &str) -> Vec<(&str, &str)> {
    data.split('(')
        .filter_map(|part| part.split_once(')'))
        .collect()
}

//! R64: Words on label and certificate are supported by a record.

use crate::{
    ground::finding::{Finding, Severity},
    rule::{Outcome, Rule, View},
};
use crate::{
    ground::{number, unit},
    record::{kinds::product_specification::ProductSpecification, read::Text},
    verdict::Verdict,
};

/// Words on label and certificate are supported by a record.
pub static RULE: Rule = Rule {
    id: "R64",
    severity: Severity::Blocks,
    demands: "Words on label and certificate are supported by a record.",
    protects: "a claim that nobody ever tested",
    explained: "Never: it is mended, or what it concerns is not released.",
    check,
};

fn finding(message: String) -> Finding {
    Finding::new(RULE.id, RULE.severity, message)
}

fn check(view: &View) -> Outcome {
    let mut out = Outcome::of(say!("claims in words"));
    for (record, body) in view.plant.records().marking_inspections() {
        let product = body.expected.get("product_code").map(|code| &*code.text);
        let spec = product.and_then(|code| view.plant.spec_of_product(code));
        for (mark, words) in body
            .reads
            .iter()
            .filter_map(|mark| Some((mark, mark.text_read.as_ref()?)))
        {
            if let Some((wrong, advice)) =
                unsupported(view, words, product, spec.map(|(_, spec)| spec))
            {
                out.find(
                    finding(say!(
                        "{item}: its mark says \"{what}\", and {wrong}.",
                        item = &*mark.item,
                        what = &**words,
                        wrong = wrong
                    ))
                    .advise(advice)
                    .at(record.at(words.spot))
                    .about(&*mark.item.text)
                    .about(&*record.id.text),
                );
            }
        }
        for words in body.label_claims.iter() {
            out.look();
            if !known(words) {
                out.find(
                    Finding {
                        severity: Severity::Explain,
                        ..finding(say!("{id}: the label says \"{what}\", which no record here can support or deny.", id = &*record.id, what = &**words))
                    }
                    .advise(say!("Say in a deviation of category marking what supports it, or remove the words."))
                    .at(record.at(words.spot))
                    .about(&*record.id.text)
                    .about(&*body.lot_id.text),
                );
            }
            if let Some((wrong, advice)) =
                unsupported(view, words, product, spec.map(|(_, spec)| spec))
            {
                out.find(
                    finding(say!(
                        "{id}: the label says \"{what}\", and {wrong}.",
                        id = &*record.id,
                        what = &**words,
                        wrong = wrong
                    ))
                    .advise(advice)
                    .at(record.at(words.spot))
                    .about(&*record.id.text)
                    .about(&*body.lot_id.text),
                );
            }
        }
    }
    for (record, release) in view.plant.releases() {
        let product = Some(&*release.object.product_code.text);
        let spec = product.and_then(|code| view.plant.spec_of_product(code));
        for words in [&release.document_type, &release.statement] {
            out.look();
            if let Some((wrong, advice)) =
                unsupported(view, words, product, spec.map(|(_, spec)| spec))
            {
                out.find(
                    finding(say!(
                        "{id}: the statement says \"{what}\", and {wrong}.",
                        id = &*record.id,
                        what = &**words,
                        wrong = wrong
                    ))
                    .advise(advice)
                    .at(record.at(words.spot))
                    .about(&*record.id.text),
                );
            }
        }
    }
    out
}

/// Words that say more than a rating, as they begin.
const STERILE: &[&str] = &[
    "sterile",
    "sterili",
    "germ-free",
    "germ free",
    "bacteria-free",
    "absolute",
    "complete retention",
    "total retention",
];
/// Words before them that take the claim back.
const DENIED: &[&str] = &["not a ", "not ", "no ", "non-"];

/// Why words are not supported, and what may be said instead.
fn unsupported(
    view: &View,
    words: &Text,
    product: Option<&str>,
    spec: Option<&ProductSpecification>,
) -> Option<(String, String)> {
    let text = words.to_lowercase();
    for word in STERILE {
        let claimed = text.match_indices(word).any(|(at, _)| {
            // Being sterilised is a treatment, not a claim of retention.
            let rest = &text[at..];
            let mut first = rest.split_whitespace().take(2);
            let grade = first.any(|word| word.contains("grade"));
            let cycle = rest.starts_with("sterilis") && !grade && rest.contains("cycle");
            !cycle && !DENIED.iter().any(|no| text[..at].ends_with(no))
        });
        if claimed && !sterilising_grade(view, product) {
            return Some((
                say!("no conforming challenge with Brevundimonas diminuta at 0.2 um supports it")
                    .into(),
                say!(
                    "Remove the words. {product}",
                    product = may_be_said(view, product)
                ),
            ));
        }
    }
    // A temperature on the label must lie inside a claim.
    if let Some(said) = temperature(&text) {
        let claimed = view
            .plant
            .records()
            .cycle_claims()
            .filter(|(_, claim)| product.is_none_or(|code| &*claim.product_code.text == code))
            .flat_map(|(_, claim)| &claim.claims)
            .filter_map(|claim| claim.temperature_max.as_ref())
            .map(|most| most.si)
            .reduce(f64::max);
        if claimed.is_none_or(|claimed| said > claimed + 1e-9) {
            return Some((
                say!("no cycle claim reaches that temperature").into(),
                say!("Print the temperature of the claim, or remove the words.").into(),
            ));
        }
    }
    if text.contains("food contact")
        && !view
            .plant
            .records()
            .material_lots()
            .any(|(_, lot)| !lot.food_contact_documents.is_empty())
    {
        return Some((
            say!("no material lot has a declaration for food contact").into(),
            say!("Remove the words, or bring the declarations.").into(),
        ));
    }
    if text.starts_with("not ") || text.starts_with("no ") {
        return Some((
            say!("words that deny something are no claim that a record can support").into(),
            say!("Put them into the limitations of the statement.").into(),
        ));
    }
    // A rating on the label is that of the specification.
    let rating = number::parse_with_unit(words.trim())
        .ok()
        .filter(|(_, unit)| unit.dim == unit::LENGTH)
        .map(|(n, unit)| unit.to_si(n))?;
    match spec {
        Some(spec) if (spec.nominal_rating.si - rating).abs() <= 1e-12 => None,
        Some(spec) => Some((
            say!(
                "the specification says {nominal_rating}",
                nominal_rating = spec.nominal_rating.text
            ),
            say!("Find out which is true before anything else; do not label it again.").into(),
        )),
        None => None,
    }
}

/// The highest temperature in a text in small letters, K.
pub(super) fn temperature(text: &str) -> Option<f64> {
    let units = ["degc", "°c"];
    let found = units.iter().flat_map(|unit| text.match_indices(unit));
    let numbers = found.filter_map(|(at, _)| {
        let before = text[..at].trim_end();
        let digits = |c: char| c.is_ascii_digit() || ".,+-−".contains(c);
        let begin = before.rfind(|c| !digits(c)).map_or(0, |at| {
            at + before[at..].chars().next().map_or(1, char::len_utf8)
        });
        number::parse(before.get(begin..)?).ok()
    });
    numbers.map(|n| unit::DEGC.to_si(n)).reduce(f64::max)
}

/// Whether a challenge at 0.2 µm with the organism of sterilising-grade claims conforms (ASTM F838).
fn sterilising_grade(view: &View, product: Option<&str>) -> bool {
    view.graph.all("log-reduction-bound").any(|computed| {
        let record = view.plant.record(computed.subject.record);
        let crate::record::kinds::Body::RetentionChallenge(body) = &record.body else {
            return false;
        };
        let own = view
            .plant
            .spec_of(record)
            .is_none_or(|(_, spec)| product.is_none_or(|code| &*spec.product_code.text == code));
        own && body.organism.name.contains("Brevundimonas diminuta")
            && body.claim_under_test.contains("0.2")
            && computed.verdict() == Verdict::Conforms
    })
}

/// The sentence that the records do support.
fn may_be_said(view: &View, product: Option<&str>) -> String {
    let best = view
        .graph
        .all("log-reduction-bound")
        .filter(|computed| computed.verdict() == Verdict::Conforms)
        .filter(|computed| {
            let record = view.plant.record(computed.subject.record);
            view.plant
                .spec_of(record)
                .is_none_or(|(_, spec)| product.is_none_or(|code| &*spec.product_code.text == code))
        })
        .max_by(|a, b| {
            let value =
                |computed: &crate::figure::Computed| computed.quantity().map_or(0.0, |q| q.value);
            value(a).total_cmp(&value(b))
        });
    let Some(best) = best else {
        return say!("No challenge of this folder supports any word on retention.").into();
    };
    let record = view.plant.record(best.subject.record);
    let crate::record::kinds::Body::RetentionChallenge(body) = &record.body else {
        return String::new();
    };
    let run = body
        .runs
        .iter()
        .find(|run| format!("run-{run}", run = run.run.value) == *best.id.part);
    say!(
        "What may be said: membrane {material_lot} was challenged with {challenge_total} of {name}; log reduction at least {q} at 95 % confidence ({id}).",
        material_lot = &*body.material_lot,
        challenge_total = run.map_or(say!("organisms"), |run| &run.challenge_total.text),
        name = &*body.organism.name,
        q = number::fixed(best.quantity().map_or(0.0, |q| q.value), 1),
        id = &*record.id
    )
}

/// Whether words are of a sort that a record can speak of: a rating, a temperature of steam, food contact,
/// or a claim of retention.
fn known(words: &str) -> bool {
    let text = words.to_lowercase();
    let rating =
        number::parse_with_unit(words.trim()).is_ok_and(|(_, unit)| unit.dim == unit::LENGTH);
    let steam = text.starts_with("steam") && temperature(&text).is_some();
    let food = text == "for food contact" || text == "food contact";
    rating || steam || food || STERILE.iter().any(|word| text.contains(word))
}

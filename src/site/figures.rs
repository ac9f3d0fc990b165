//! The figures for machines, and the schema of their file.

use rayon::prelude::*;
use serde_json::{Value, json};

use crate::{
    figure::Computed,
    ground::{quantity::Quantity, time::Date},
    page::Book,
    plant::{Plant, Test, recall},
    record::kinds::Body,
    verdict,
};

/// What a figure speaks of, apart from its number.
pub(super) struct About<'a> {
    /// The kind of its record.
    pub(super) kind: &'static str,
    /// The module, assembly or roll.
    pub(super) element: Option<&'a str>,
    /// The lot of that; a roll is cut for several.
    pub(super) lot: Option<&'a str>,
    /// The day of its record's first revision.
    pub(super) day: Option<Date>,
    /// The instrument of its readings, where there is one.
    pub(super) instrument: Option<&'a str>,
}

impl<'a> About<'a> {
    pub(super) fn of(plant: &'a Plant, computed: &'a Computed) -> About<'a> {
        let record = plant.record(computed.subject.record);
        let element = match &record.body {
            Body::PleatingRecord(_) => Some(&*computed.id.part).filter(|part| !part.is_empty()),
            Body::AssemblyBuild(body) => Some(&*body.assembly_id.text),
            Body::CycleLog(body) => Some(&*body.assembly_id.text),
            Body::FlowTest(body) => Some(&*body.element_id.text),
            Body::MembraneTest(body) => Some(&*body.material_lot.text),
            Body::SlittingRecord(body) => Some(&*body.material_lot.text),
            _ => Test::of(record).map(|test| test.element),
        };
        let lot = match &record.body {
            Body::PleatingRecord(body) => Some(&*body.lot_id.text),
            Body::SealInspection(body) => plant
                .seal_run(&body.seal_run)
                .and_then(|(_, run)| run.items.iter().find_map(|item| plant.lot_of(&item.item))),
            _ => element.and_then(|element| plant.lot_of(element)),
        };
        About {
            kind: record.kind,
            element,
            lot,
            day: record.day(),
            instrument: recall::instruments(record).into_iter().next(),
        }
    }
}

/// One figure for a machine.
pub fn figure_json(book: &Book, computed: &Computed) -> Value {
    let unit = &computed.figure.unit;
    let quantity = computed.quantity();
    // A figure of whose inputs none is in doubt has no uncertainty; zero would say that it is exact.
    let doubted = quantity.filter(|quantity| quantity.u() > 0.0);
    let judgement = computed.judgement.as_ref();
    let about = About::of(&book.dossier.plant, computed);
    json!({
        "id": computed.id.to_string(),
        "figure": computed.id.figure,
        "record": &*computed.id.record,
        "part": &*computed.id.part,
        "name": computed.figure.name,
        "kind": about.kind,
        "element": about.element,
        "lot": about.lot,
        "day": about.day.map(Date::written),
        "instrument": about.instrument,
        "value": quantity.map(|quantity| unit.of_si(quantity.value)),
        "unit": if unit.print.is_empty() { "1" } else { unit.print },
        "standard_uncertainty": doubted.map(|quantity| quantity.u() / unit.factor),
        "coverage_factor": doubted.map(verdict::coverage),
        "degrees_of_freedom": doubted.map(Quantity::degrees).filter(|degrees| degrees.is_finite()),
        "conformance_probability": judgement.and_then(|judgement| judgement.conformance),
        "shown": computed.shown(),
        "limit": judgement.map(|judgement| judgement.limit.text.clone()),
        "limit_low": judgement.and_then(|judgement| judgement.limit.low).map(|low| unit.of_si(low)),
        "limit_high": judgement.and_then(|judgement| judgement.limit.high).map(|high| unit.of_si(high)),
        "verdict": computed.verdict().words(),
        "reported": computed.reported.as_ref().map(|reported| reported.text.clone()),
        "not_evaluated_because": computed.worked.as_ref().err(),
        "page": book.figure_href("index.html", &computed.id),
    })
}

/// So many figures are written out at once, by all cores.
const AT_ONCE: usize = 1 << 14;

/// Every figure, one a line: what people compare line by line, and no more bytes than that takes.
pub(super) fn json(book: &Book) -> Vec<u8> {
    let mut out = format!(
        "{{\"format\": 1, \"program\": \"{}\", \"figures\": [\n",
        env!("CARGO_PKG_VERSION")
    );
    let all: Vec<&Computed> = book
        .dossier
        .graph
        .computed
        .values()
        .map(Box::as_ref)
        .collect();
    let some = |some: &[&Computed]| {
        let mut lines = String::new();
        for (n, computed) in some.iter().enumerate() {
            lines.push_str(if n == 0 { "" } else { ",\n" });
            lines.push_str(&figure_json(book, computed).to_string());
        }
        lines
    };
    // By and by, so that a plant's figures are not in memory twice.
    for (n, share) in all.chunks(AT_ONCE).enumerate() {
        let parts: Vec<String> = share.par_chunks(AT_ONCE / 64).map(some).collect();
        for (m, part) in parts.iter().enumerate() {
            out.push_str(if n + m == 0 { "" } else { ",\n" });
            out.push_str(part);
        }
    }
    out.push_str("\n]}\n");
    out.into_bytes()
}

pub(super) fn schema() -> Vec<u8> {
    let text = json!({"type": "string"});
    let maybe = |kind: &str| json!({"type": [kind, "null"]});
    let schema = json!({
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": "figures of a dossier",
        "type": "object",
        "required": ["format", "program", "figures"],
        "properties": {
            "format": {"const": 1},
            "program": text,
            "figures": {"type": "array", "items": {
                "type": "object",
                "required": ["id", "figure", "record", "value", "unit", "standard_uncertainty", "verdict", "page"],
                "properties": {
                    "id": text, "figure": text, "record": text, "part": text, "name": text, "kind": text, "element": maybe("string"),
                    "lot": maybe("string"), "day": maybe("string"), "instrument": maybe("string"), "value": maybe("number"), "unit": text,
                    "standard_uncertainty": maybe("number"), "coverage_factor": maybe("number"), "degrees_of_freedom": maybe("number"),
                    "conformance_probability": maybe("number"), "shown": text, "limit": maybe("string"),
                    "limit_low": maybe("number"), "limit_high": maybe("number"),
                    "verdict": {"enum": ["conforms", "undecided", "does not conform", "no limit", "not evaluated"]},
                    "reported": maybe("string"), "not_evaluated_because": maybe("string"), "page": text
                },
                "additionalProperties": false
            }}
        }
    });
    serde_json::to_vec_pretty(&schema).unwrap_or_default()
}

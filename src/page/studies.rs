//! What measurement studies say: how much of the spread is the measurement's own.

use std::collections::BTreeMap;

use super::{Book, percent};
use crate::{
    ground::number,
    record::{
        Record,
        kinds::{measurement_study::MeasurementStudy, product_specification::Stage},
    },
    stats::gauge::{self, GaugeStudy},
};

/// A paragraph a study.
pub fn words(book: &Book) -> Vec<String> {
    let studies = book.dossier.plant.records().measurement_studys();
    studies
        .map(|(record, study)| one(book, record, study))
        .collect()
}

/// Results by element and operator.
fn crossed(study: &MeasurementStudy) -> Vec<Vec<Vec<f64>>> {
    let mut cells: BTreeMap<&str, BTreeMap<&str, Vec<f64>>> = BTreeMap::new();
    for result in &study.results {
        cells
            .entry(&result.item)
            .or_default()
            .entry(&result.operator)
            .or_default()
            .push(result.value.si);
    }
    cells
        .into_values()
        .map(|operators| operators.into_values().collect())
        .collect()
}

fn one(book: &Book, record: &Record, study: &MeasurementStudy) -> String {
    let id = &*record.id;
    let values = crossed(study);
    let found = match gauge::study(&values, 0.25) {
        Ok(found) if found.total() > 0.0 => found,
        Ok(_) => {
            return say!(
                "{id}: all results are equal: the resolution of the instrument hides their spread.",
                id = id
            );
        }
        Err(why) => return say!("{id}: no analysis of variance: {why}.", id = id, why = why),
    };
    let (elements, operators) = (values.len(), values.first().map_or(0, Vec::len));
    let pooled = match found.pooled {
        true => say!("is taken into the repeats, p being above 0.25"),
        false => say!("is kept as a part of its own, p being below 0.25"),
    };
    let told = match found.categories() {
        Some(n) => say!(
            "it tells {n} groups of such elements apart (5 and more are usual; MSA manual, from memory)",
            n = number::fixed(n, 0)
        ),
        None => say!("it has no spread of its own").into(),
    };
    let weak = match operators {
        0..=3 => say!(
            " {operators} operators know the spread between them badly.",
            operators = operators
        ),
        _ => String::new(),
    };
    say!(
        "{id}, {quantity}: {elements} elements by {operators} operators. The measurement takes {found} of the spread of the study (variance: {found2}); {told}. The interaction of operators with elements {pooled} (F = {interaction}, p = {interaction2}).{found3}{weak}",
        id = id,
        quantity = study.quantity.said(),
        elements = elements,
        operators = operators,
        found = percent(found.share()),
        found2 = percent(found.measurement() / found.total()),
        told = told,
        pooled = pooled,
        interaction = number::significant(found.interaction.0, 3),
        interaction2 = number::fixed(found.interaction.1, 3),
        found3 = of_tolerance(book, study, &found),
        weak = weak
    )
}

/// Six standard deviations of the measurement against the tolerance, where there are two limits; else the room
/// between the mean of the study and the limit, in standard deviations of the measurement.
fn of_tolerance(book: &Book, study: &MeasurementStudy, found: &GaugeStudy) -> String {
    let Some((_, spec)) = book.dossier.plant.spec_of_product(&study.product_code) else {
        return String::new();
    };
    let stages = [
        Stage::Module,
        Stage::Assembly,
        Stage::Membrane,
        Stage::Slit,
        Stage::Seal,
    ];
    let limit = stages
        .iter()
        .find_map(|stage| spec.limit(*stage, study.quantity))
        .map(|accepted| &accepted.limit);
    let Some(limit) = limit else {
        return say!(" No limit is laid down for it.").into();
    };
    if let (Some(low), Some(high)) = (limit.low, limit.high) {
        let share = 100.0 * found.of_tolerance(high - low);
        return say!(
            " Six standard deviations of the measurement take {share} % of the tolerance.",
            share = number::significant(share, 3)
        );
    }
    let values: Vec<f64> = study.results.iter().map(|result| result.value.si).collect();
    let sd = libm::sqrt(found.measurement());
    match (
        crate::stats::summary::mean(&values),
        limit.low.or(limit.high),
    ) {
        (Ok(mean), Some(limit)) if sd > 0.0 => say!(
            " The mean of the study lies {sd} standard deviations of the measurement from the limit.",
            sd = number::significant((mean - limit).abs() / sd, 3)
        ),
        _ => String::new(),
    }
}

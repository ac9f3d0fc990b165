//! An instrument that was found out of tolerance: what each figure that used it becomes with the error
//! applied.

use std::collections::{BTreeMap, BTreeSet};

use crate::{
    figure::{Computed, FigureId, From, Origin},
    graph::Graph,
    ground::{
        quantity::Quantity,
        time::Time,
        unit::{PRESSURE, VOLUME},
    },
    plant::{Plant, Test, recall},
    record::{
        Record,
        common::Measured,
        kinds::calibration_record::{CalibrationRecord, Point},
    },
    verdict::{Judgement, judge},
};

/// One figure before and after.
pub struct Moved<'a> {
    /// As it was computed from the records.
    pub before: &'a Computed,
    /// With the error applied.
    pub after: Quantity,
    /// The decision with the error applied.
    pub judgement: Judgement,
}

/// A calibration that found its instrument out of tolerance, and what that does.
pub struct Rejudged<'a> {
    /// The calibration.
    pub record: &'a Record,
    /// Its contents.
    pub calibration: &'a CalibrationRecord,
    /// The point that lies furthest beyond its limit.
    pub point: &'a Point,
    /// The calibration before it; when the drift began is not known, so all since then is affected.
    pub since: Option<Time>,
    /// The judged figures that used the instrument.
    pub moved: Vec<Moved<'a>>,
    /// The modules and assemblies of the records that used it.
    pub elements: BTreeSet<String>,
    /// Who must be told.
    pub told: BTreeSet<recall::Consignee>,
}

/// Every calibration that found its instrument out of tolerance.
pub fn rejudged<'a>(plant: &'a Plant, graph: &'a Graph) -> Vec<Rejudged<'a>> {
    let calibrations = plant.records().calibration_records();
    calibrations
        .filter_map(|(record, body)| {
            let share = |point: &Point| {
                (point.as_found_error.si / point.maximum_permissible_error.si).abs()
            };
            let beyond = body.points.iter().filter(|point| {
                point.as_found_error.si.abs() > point.maximum_permissible_error.si.abs()
            });
            let point = beyond.max_by(|a, b| share(a).total_cmp(&share(b)))?;
            Some(one(plant, graph, record, body, point))
        })
        .collect()
}

/// What an error of a pressure is.
#[derive(Copy, Clone)]
enum Error {
    /// The same at every pressure: it leaves a difference of pressures as it is.
    Offset,
    /// In proportion to the pressure.
    Gain,
}

fn one<'a>(
    plant: &'a Plant,
    graph: &'a Graph,
    record: &'a Record,
    calibration: &'a CalibrationRecord,
    point: &'a Point,
) -> Rejudged<'a> {
    let found_at = calibration.calibration_performed_at.time;
    let since = plant
        .calibrations(&calibration.instrument_id)
        .iter()
        .map(|(_, earlier)| earlier.calibration_performed_at.time)
        .filter(|time| *time < found_at)
        .max();
    let used = |other: &&Record| {
        let when = other.happened();
        when.is_none_or(|when| when <= found_at && since.is_none_or(|since| when >= since))
    };
    let affected: BTreeSet<usize> = plant
        .measured_by(&calibration.instrument_id)
        .filter(used)
        .map(|record| record.index)
        .collect();
    // Whether the error of a pressure is an offset or a gain, which would act on the decay of a flow too and cancel, is not known:
    // all is computed either way, and the less favourable of the two stands. What is so for the flow of a module is not so for the
    // flow of an assembly over the sum of its modules.
    let either = [Error::Offset, Error::Gain].map(|kind| {
        let mut values: BTreeMap<&FigureId, f64> = BTreeMap::new();
        for computed in graph.computed.values() {
            if affected.contains(&computed.subject.record)
                && let Some(value) = with_error(plant, graph, computed, calibration, point, kind)
            {
                values.insert(&computed.id, value);
            }
        }
        follow(graph, &mut values);
        values
    });
    let ids: BTreeSet<&FigureId> = either
        .iter()
        .flat_map(|values| values.keys().copied())
        .collect();
    let moved: Vec<Moved> = ids
        .into_iter()
        .filter_map(|id| {
            let before = graph.computed.get(id)?;
            let limit = &before.judgement.as_ref()?.limit;
            let found = either.iter().filter_map(|values| {
                let mut after = before.quantity()?.clone();
                after.value = *values.get(id)?;
                let judgement = judge(&after, limit);
                Some((after, judgement))
            });
            let worse = |a: &Judgement, b: &Judgement| {
                let room = |judgement: &Judgement| judgement.margin.unwrap_or(0.0);
                (a.verdict.cmp(&b.verdict)).then(room(a).total_cmp(&room(b)))
            };
            let (after, judgement) = found.min_by(|a, b| worse(&a.1, &b.1))?;
            Some(Moved {
                before,
                after,
                judgement,
            })
        })
        .collect();
    let elements: BTreeSet<String> = affected
        .iter()
        .flat_map(|index| recall::elements(plant, plant.record(*index)))
        .collect();
    let mut told = BTreeSet::new();
    for element in &elements {
        told.extend(recall::consignee(plant, element));
        for assembly in plant.assemblies_of(element) {
            told.extend(recall::consignee(plant, assembly));
        }
    }
    Rejudged {
        record,
        calibration,
        point,
        since,
        moved,
        elements,
        told,
    }
}

/// The error at an indication: between points in a straight line, beyond them in proportion, and the offset of a point at zero.
fn error_at(calibration: &CalibrationRecord, like: &Point, indication: f64) -> f64 {
    let mut points: Vec<(f64, f64)> = calibration
        .points
        .iter()
        .filter(|point| point.quantity.text == like.quantity.text)
        .map(|point| (point.nominal.si, point.as_found_error.si))
        .collect();
    points.sort_by(|a, b| a.0.total_cmp(&b.0));
    let inside = points
        .array_windows()
        .find(|[a, b]| a.0 <= indication && indication <= b.0 && b.0 > a.0);
    if let Some([(a, ea), (b, eb)]) = inside {
        return ea + (eb - ea) * (indication - a) / (b - a);
    }
    let nearest = points.iter().min_by(|a, b| {
        (a.0 - indication)
            .abs()
            .total_cmp(&(b.0 - indication).abs())
    });
    nearest.map_or(0.0, |(nominal, error)| match *nominal {
        // At zero an error is an offset, and there is nothing in proportion to which it could grow.
        0.0 => *error,
        nominal => error * indication / nominal,
    })
}

/// A figure with the instrument's error taken off its readings; nothing where it has none of that kind.
fn with_error(
    plant: &Plant,
    graph: &Graph,
    computed: &Computed,
    calibration: &CalibrationRecord,
    point: &Point,
    kind: Error,
) -> Option<f64> {
    let worked = computed.worked.as_ref().ok()?;
    let record = plant.record(computed.subject.record);
    // A record may name several instruments, each for a quantity of its own.
    if let Some(quantity) = computed.figure.quantity
        && let Some(own) = plant.instrument(record, quantity)
        && own.text != calibration.instrument_id.text
    {
        return None;
    }
    let dim = point.nominal.unit.dim;
    if computed.id.figure == "diffusive-flow" && dim == PRESSURE {
        // Tested at a true pressure beside the indicated one: flow is proportional to gauge pressure.
        let test = Test::of(record)?.measurement(Measured::DiffusiveFlow)?;
        let indicated = test.test_pressure.as_ref()?.si;
        let error = error_at(calibration, point, indicated);
        let value = worked.quantity.value;
        return Some(match kind {
            Error::Gain => value,
            Error::Offset if indicated > error => value * indicated / (indicated - error),
            // No pressure at all was there: nothing was shown.
            Error::Offset => f64::INFINITY,
        });
    }
    let (mut given, mut shifted) = (Vec::new(), false);
    let drawn = graph.given(plant, computed).ok()?;
    for own in drawn.chunk_by(|a, b| a.0 == b.0) {
        for (input, quantity) in own {
            // Readings come in series; what is single beside them is a constant or a setting, save a volume.
            let read = matches!(input.from, From::Records(_))
                && input.unit.dim == dim
                && (own.len() > 1 || dim == VOLUME);
            shifted |= read;
            let value = match read {
                true => quantity.value - error_at(calibration, point, quantity.value),
                false => quantity.value,
            };
            given.push((*input, Quantity::exact(value, input.unit.dim)));
        }
    }
    let formula = (computed.figure.formula)();
    let again = shifted.then(|| computed.figure.evaluate(&formula, &given))?;
    again.ok().map(|(quantity, _)| quantity.value)
}

/// Figures that stand on moved ones move with them, by their slopes.
fn follow<'a>(graph: &'a Graph, values: &mut BTreeMap<&'a FigureId, f64>) {
    let read: BTreeSet<&FigureId> = values.keys().copied().collect();
    // One that stands on another that follows is reached in a later round; no figure stands on itself.
    loop {
        let moved: Vec<(&FigureId, f64)> = graph
            .computed
            .values()
            .filter(|computed| !read.contains(&computed.id))
            .filter_map(|computed| Some((&computed.id, shifted(computed, values)?)))
            .filter(|(id, value)| values.get(id) != Some(value))
            .collect();
        if moved.is_empty() {
            return;
        }
        values.extend(moved);
    }
}

/// A figure whose inputs moved; nothing where none did.
fn shifted(computed: &Computed, values: &BTreeMap<&FigureId, f64>) -> Option<f64> {
    let worked = computed.worked.as_ref().ok()?;
    let (mut value, mut touched) = (worked.quantity.value, false);
    // A margin is counted in uncertainties: what moved a figure did not move it by as much.
    let terms = worked.terms.iter();
    for term in terms.filter(|term| !matches!(term.input.from, From::Margins(_))) {
        let Origin::Figures(below) = &term.origin else {
            continue;
        };
        for ((id, old), slope) in below.iter().zip(&term.values).zip(&term.slopes) {
            if let Some(new) = values.get(id) {
                touched = true;
                value += slope * (new - old);
            }
        }
    }
    touched.then_some(value)
}

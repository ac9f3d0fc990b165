//! R04: Every quantity has a unit that fits its field and a believable size.

use std::collections::BTreeMap;

use crate::record::{
    Record,
    common::Measured,
    folder,
    kinds::{
        Body,
        pleating_record::{Pack, PleatingRecord},
        product_specification::{Contribution, ProductSpecification, Rule as DecisionName, Stage},
    },
    quantity::Demand,
};
use crate::{
    figure::{From, dimension},
    figures,
    ground::{
        finding::{Finding, Severity},
        number,
        place::{Place, Spot},
        quantity::Quantity,
        unit,
    },
    rule::{Outcome, Rule, View},
    verdict::Limit,
};

/// Every quantity has a unit that fits its field and a believable size.
pub static RULE: Rule = Rule {
    id: "R04",
    severity: Severity::Blocks,
    demands: "Every quantity has a unit that fits its field and a believable size.",
    protects: "a slip of a factor of ten, or gauge taken for absolute",
    explained: "Never: it is mended, or what it concerns is not released.",
    check,
};

fn finding(record: &Record, message: &str, advice: &str, spot: Spot) -> Finding {
    Finding::new(
        "R04",
        Severity::Blocks,
        format!("{}: {message}", &*record.id),
    )
    .advise(advice)
    .at(record.at(spot))
    .about(&*record.id.text)
}

fn check(view: &View) -> Outcome {
    let mut out = Outcome::of(say!("record files"));
    out.looked = view
        .plant
        .folder
        .files
        .keys()
        .filter(|name| folder::holds_records(name))
        .count();
    out.findings = view
        .plant
        .folder
        .problems
        .iter()
        .filter(|problem| problem.rule == "R04")
        .cloned()
        .collect();
    packs(view, &mut out);
    far_off(view, &mut out);
    for (record, spec) in view.plant.records().product_specifications() {
        let mut find =
            |message: String, advice: &str, spot| out.find(finding(record, &message, advice, spot));
        for accepted in &spec.acceptance {
            if accepted.limit.unit.dim != dimension(accepted.quantity) {
                find(
                    say!(
                        "the limit \"{limit}\" is no limit of {quantity}.",
                        limit = accepted.limit.text,
                        quantity = accepted.quantity.word()
                    ),
                    say!("Write it with a unit of that quantity."),
                    accepted.limit.spot,
                );
            }
            let same = |other: &&crate::record::kinds::product_specification::Acceptance| {
                other.stage == accepted.stage && other.quantity == accepted.quantity
            };
            if spec.acceptance.iter().filter(same).count() > 1 {
                find(
                    say!(
                        "{quantity} of stage {stage} is limited more than once.",
                        quantity = accepted.quantity.word(),
                        stage = accepted.stage.word()
                    ),
                    say!("Write one limit, with both ends if need be."),
                    accepted.spot,
                );
            }
        }
        for accepted in &spec.acceptance {
            let limit = &accepted.limit;
            let below = [limit.low, limit.high];
            if limit.unit.zero == 0.0
                && accepted.quantity != Measured::JoinResidual
                && below.into_iter().flatten().any(|end| end < 0.0)
            {
                find(
                    say!(
                        "the limit \"{limit}\" of {quantity} lies below zero, where nothing of it can be.",
                        limit = limit.text,
                        quantity = accepted.quantity.said()
                    ),
                    say!("Look for a sign that slipped in."),
                    limit.spot,
                );
            }
            let wrong_way = match worst(accepted.quantity) {
                Some(End::High) => limit.high.is_none(),
                Some(End::Low) => limit.low.is_none(),
                None => false,
            };
            if wrong_way {
                find(
                    say!(
                        "the limit \"{limit}\" of {quantity} points the wrong way: it lets every bad value pass.",
                        limit = limit.text,
                        quantity = accepted.quantity.said()
                    ),
                    say!(
                        "A flow of gas has an upper limit; bubble points, forces, flows of water and the like a lower one."
                    ),
                    limit.spot,
                );
            }
        }
        for conditions in spec.test_conditions.iter() {
            for (name, demand, due) in [
                (
                    "wetting_flush_volume",
                    &conditions.wetting_flush_volume,
                    unit::VOLUME,
                ),
                (
                    "liquid_temperature",
                    &conditions.liquid_temperature,
                    unit::TEMPERATURE,
                ),
                (
                    "stabilisation_time",
                    &conditions.stabilisation_time,
                    unit::TIME,
                ),
                ("measurement_time", &conditions.measurement_time, unit::TIME),
            ] {
                if let Some(demand) = demand.as_ref().filter(|demand| demand.unit.dim != due) {
                    find(
                        say!(
                            "{name} \"{demand}\" has no unit that fits.",
                            name = name,
                            demand = demand.text
                        ),
                        say!("Write a number, a blank and a unit."),
                        demand.spot,
                    );
                }
            }
        }
        for limits in spec.control_limits.iter() {
            let due = dimension(limits.quantity);
            if limits.lower.unit.dim != due
                || limits.upper.unit.dim != due
                || limits.lower.si >= limits.upper.si
            {
                find(
                    say!(
                        "the control limits {lower} and {upper} of {quantity} are no two values of it in this order.",
                        lower = limits.lower.text,
                        upper = limits.upper.text,
                        quantity = limits.quantity.said()
                    ),
                    say!("Write the lower and the upper limit in units of the quantity."),
                    limits.spot,
                );
            }
        }
        let guard = spec.decision_rule.guard_band.as_ref();
        if let Some(text) = guard.filter(|text| {
            !text
                .strip_suffix('U')
                .is_some_and(|n| number::parse(n.trim()).is_ok_and(|n| n >= 0.0))
        }) {
            find(
                say!(
                    "the guard band \"{what}\" is not of the form \"1.0 U\", from 0 up.",
                    what = &**text
                ),
                say!("A guard band below zero would pass what fails."),
                text.spot,
            );
        }
        let shared = spec.decision_rule.name == DecisionName::SimpleAcceptance;
        let nothing = |text: &str| {
            let n = text.strip_suffix('U').map(|n| number::parse(n.trim()));
            n == Some(Ok(0.0))
        };
        if let Some(text) = guard.filter(|text| !shared && nothing(text)) {
            find(
                say!(
                    "the guard band \"{what}\" guards nothing, and the rule is {name}.",
                    what = &**text,
                    name = spec.decision_rule.name.word()
                ),
                say!(
                    "State a band above zero; or say simple_acceptance, where it was agreed that the risk is shared."
                ),
                text.spot,
            );
        }
        for contribution in spec.uncertainty_contributions.iter() {
            let negative = contribution
                .relative
                .as_ref()
                .is_some_and(|x| x.value < 0.0)
                || contribution.absolute.as_ref().is_some_and(|x| x.si < 0.0);
            let none_free = contribution
                .degrees_of_freedom
                .as_ref()
                .is_some_and(|n| n.value == 0);
            let neither = contribution.relative.is_some() == contribution.absolute.is_some();
            if negative || neither || none_free {
                let why = if none_free {
                    say!(
                        "has no degree of freedom: leave them out where the uncertainty is taken as known"
                    )
                } else if negative {
                    say!("is below zero")
                } else {
                    say!("states not exactly one of relative and absolute")
                };
                find(
                    say!(
                        "the contribution {source} {why}.",
                        source = &*contribution.source,
                        why = why
                    ),
                    say!("A standard uncertainty is a positive number, relative or absolute."),
                    contribution.spot,
                );
            }
        }
        for contribution in spec.uncertainty_contributions.iter() {
            let due = where_it_acts(contribution);
            let Some(absolute) = contribution.absolute.as_ref() else {
                continue;
            };
            if absolute.unit.dim != due {
                find(
                    say!(
                        "the contribution {source} \"{absolute}\" of {quantity} has no unit that fits what it acts on, so that it would be left out.",
                        source = &*contribution.source,
                        absolute = absolute.text,
                        quantity = contribution.quantity.said()
                    ),
                    say!("Write a number, a blank and a unit."),
                    absolute.spot,
                );
            }
        }
        for (quantity, text) in spec.comparison_tolerance.iter().flat_map(|all| &all.leaves) {
            let read = number::parse_with_unit(text);
            if read.is_ok_and(|(n, unit)| {
                unit.dim == unit::Dim::NONE && unit.to_si(n) > MOST_TOLERANCE
            }) {
                find(
                    say!(
                        "the comparison tolerance \"{what}\" of {quantity} compares nothing: it is more than a quarter.",
                        what = &**text,
                        quantity = quantity
                    ),
                    say!("Write by how much two computations of one trace may differ."),
                    text.spot,
                );
            }
        }
        for (quantity, text) in spec.comparison_tolerance.iter().flat_map(|all| &all.leaves) {
            if number::parse_with_unit(text).is_err() {
                find(
                    say!(
                        "the comparison tolerance \"{what}\" of {quantity} cannot be read.",
                        what = &**text,
                        quantity = quantity
                    ),
                    say!("Write \"2 %\" or \"20 mbar\", with a blank."),
                    text.spot,
                );
            }
        }
    }
    calibrations(view, &mut out);
    for (record, spec) in view.plant.records().product_specifications() {
        for (limit, message) in far_limits(spec) {
            let advice = say!(
                "Look for a slip of a factor of ten; where it is meant, say why in a deviation."
            );
            out.find(Finding {
                severity: Severity::Explain,
                ..finding(record, &message, advice, limit.spot)
            });
        }
    }
    out
}

/// Limits further than this factor from what is known beside them are looked at (common practice, no source).
const FAR: f64 = 4.0;

/// Limits that are far from the limits of control of the same quantity, or from the same limit of another stage.
fn far_limits(spec: &ProductSpecification) -> Vec<(&Demand, String)> {
    let mut out = Vec::new();
    for accepted in &spec.acceptance {
        let limit = &accepted.limit;
        let control = spec.control_limits.iter().find(|own| {
            own.stage == accepted.stage
                && own.quantity == accepted.quantity
                && own.upper.unit.dim == limit.unit.dim
        });
        if let Some(control) = control.filter(|_| !limit.per_module) {
            let high = limit.high.is_some_and(|high| high > FAR * control.upper.si);
            let low = limit.low.is_some_and(|low| low * FAR < control.lower.si);
            if high || low {
                out.push((
                    limit,
                    say!(
                        "the limit \"{limit}\" of {quantity} is far from its limits of control, {lower} to {upper}.",
                        limit = limit.text,
                        quantity = accepted.quantity.said(),
                        lower = control.lower.text,
                        upper = control.upper.text
                    ),
                ));
            }
        }
        let whole = spec.limit(Stage::Assembly, accepted.quantity);
        let whole =
            whole.filter(|whole| whole.limit.per_module && whole.limit.unit.dim == limit.unit.dim);
        if let (Stage::Module, Some(whole)) = (accepted.stage, whole)
            && let (Some(own), Some(other)) = (limit.high, whole.limit.high)
            && !(1.0 / FAR..=FAR).contains(&(own / other))
        {
            out.push((
                limit,
                say!(
                    "the limit \"{limit}\" of {quantity} is far from that of an assembly, {other}.",
                    limit = limit.text,
                    quantity = accepted.quantity.said(),
                    other = whole.limit.text
                ),
            ));
        }
    }
    out
}

/// Reported and recomputed figures that differ by more than this are not the same (common practice, no source).
const MOST_TOLERANCE: f64 = 0.25;

/// A limit that is so many times what was measured limits nothing (common practice, no source).
const FAR_OFF: f64 = 100.0;

/// Limits of quantities that are never near zero, hundreds of times beyond everything that they were held against: a slip of a unit in
/// every stage alike, which no other limit shows.
fn far_off(view: &View, out: &mut Outcome) {
    let never_small = [
        Measured::DiffusiveFlow,
        Measured::BubblePoint,
        Measured::WaterFlux,
        Measured::WaterFlow,
        Measured::PeelForce,
        Measured::JointPullForce,
    ];
    let mut held: BTreeMap<&Place, (&Limit, Measured, f64, f64)> = BTreeMap::new();
    for computed in view.graph.computed.values() {
        let judged = computed.judgement.as_ref().map(|judged| &judged.limit);
        let (Some(limit), Some(value)) = (judged, computed.quantity()) else {
            continue;
        };
        let (Some(at), Some(quantity)) = (&limit.at, computed.figure.quantity) else {
            continue;
        };
        if never_small.contains(&quantity) {
            let slot = held
                .entry(at)
                .or_insert((limit, quantity, f64::INFINITY, 0.0));
            (slot.2, slot.3) = (slot.2.min(value.value), slot.3.max(value.value));
        }
    }
    for (at, (limit, quantity, least, most)) in held {
        let unit = figures::ALL
            .iter()
            .find(|figure| figure.quantity == Some(quantity));
        let Some(unit) = unit.map(|figure| figure.unit) else {
            continue;
        };
        let high = limit
            .high
            .is_some_and(|high| most > 0.0 && high > FAR_OFF * most);
        let low = limit.low.is_some_and(|low| low < least / FAR_OFF);
        if high || low {
            let show = |si: f64| number::with_unit(&number::significant(unit.of_si(si), 3), &unit);
            out.find(
                Finding::new(
                    "R04",
                    Severity::Blocks,
                    say!(
                        "the limit \"{limit}\" of {quantity} limits nothing: what was measured is {least} to {most}.",
                        limit = limit.text,
                        quantity = quantity.said(),
                        least = show(least),
                        most = show(most)
                    ),
                )
                .advise(say!("Look for a slip of the unit or of the point, here and in the limits of other stages."))
                .at(at.clone()),
            );
        }
    }
}

/// An end of a limit.
enum End {
    Low,
    High,
}

/// The end without which a limit of a quantity lets every bad value pass.
fn worst(quantity: Measured) -> Option<End> {
    match quantity {
        Measured::DiffusiveFlow | Measured::Straightness | Measured::JoinResidual => {
            Some(End::High)
        }
        Measured::BubblePoint
        | Measured::WaterFlux
        | Measured::WaterFlow
        | Measured::PeelForce
        | Measured::JointPullForce
        | Measured::LogReduction
        | Measured::FlowRecovery => Some(End::Low),
        Measured::Thickness
        | Measured::PleatCount
        | Measured::SlitWidth
        | Measured::HoldTime
        | Measured::F0 => None,
    }
}

/// The dimension of what a contribution acts on: an unknown error inside a figure, or the figure itself.
fn where_it_acts(contribution: &Contribution) -> unit::Dim {
    let own = figures::ALL
        .iter()
        .filter(|figure| figure.quantity == Some(contribution.quantity));
    let mut inputs = own.flat_map(|figure| (figure.formula)().variables());
    let inner = inputs.find(
        |input| matches!(input.from, From::Doubt(source) if source == &*contribution.source.text),
    );
    inner.map_or(dimension(contribution.quantity), |input| input.unit.dim)
}

/// Errors and uncertainties of a certificate are of the kind of what was calibrated, and none is below nothing.
fn calibrations(view: &View, out: &mut Outcome) {
    for (record, body) in view.plant.records().calibration_records() {
        for point in &body.points {
            let mut find = |message: String, advice: &str, spot| {
                let found = finding(record, &message, advice, spot);
                out.find(found.about(&*body.instrument_id.text));
            };
            for (name, value, least) in [
                ("as_found_error", &point.as_found_error, f64::NEG_INFINITY),
                ("as_left_error", &point.as_left_error, f64::NEG_INFINITY),
                ("expanded_uncertainty", &point.expanded_uncertainty, 0.0),
                (
                    "maximum_permissible_error",
                    &point.maximum_permissible_error,
                    0.0,
                ),
            ] {
                if value.unit.dim != point.nominal.unit.dim {
                    find(
                        say!(
                            "{name} \"{value}\" has no unit that fits {nominal}.",
                            name = name,
                            value = value.text,
                            nominal = point.nominal.text
                        ),
                        say!("Write a number, a blank and a unit."),
                        value.spot,
                    );
                } else if value.si < least {
                    find(
                        say!(
                            "{name} \"{value}\" is below zero.",
                            name = name,
                            value = value.text
                        ),
                        say!("Copy it again from the certificate."),
                        value.spot,
                    );
                }
            }
            if point.coverage_factor.value < 1.0 {
                find(
                    say!(
                        "coverage_factor {k} is below one.",
                        k = point.coverage_factor.text
                    ),
                    say!("Copy it again from the certificate; 2 is usual."),
                    point.spot,
                );
            }
        }
    }
}

/// Whether a pack is longer than every coil of its roll is wide, by more than a hundredth (common practice, no source); never where no
/// coil was measured.
fn wider(view: &View, body: &PleatingRecord, pack: &Pack) -> bool {
    let own = view.plant.by_roll.get(&*pack.material_lot.text);
    let own = own
        .into_iter()
        .flatten()
        .map(|index| view.plant.record(*index));
    let widths = own.filter_map(|record| match &record.body {
        Body::SlittingRecord(slit) => slit
            .readings
            .iter()
            .map(|one| one.width.si)
            .reduce(f64::max),
        _ => None,
    });
    let widest = widths.reduce(f64::max);
    widest.is_some_and(|widest| body.pleated_length.si > 1.01 * widest)
}

/// A pack as large as the specification says, from as much of the roll as it takes: what is twice too much, or less than the
/// effective area, has a slip in it somewhere. Told once a record.
fn packs(view: &View, out: &mut Outcome) {
    let mut told = std::collections::BTreeSet::new();
    for computed in view.graph.all("pleated-area") {
        let record = view.plant.record(computed.subject.record);
        let Body::PleatingRecord(body) = &record.body else {
            continue;
        };
        let pack = body
            .packs
            .iter()
            .find(|pack| *pack.module_id.text == *computed.id.part);
        let (Some(area), Some(pack)) = (computed.quantity(), pack) else {
            continue;
        };
        let spec = view.plant.spec_of_element(&pack.module_id);
        let stated = spec.map(|(_, spec)| &spec.module_effective_filtration_area);
        let taken = (pack.to.si - pack.from.si) * body.pleated_length.si;
        let off = |other: f64| !(0.5..=2.0).contains(&(area.value / other));
        let wrong = match stated {
            // What the seam and the end caps take comes off the gross area, so that the effective one is less.
            Some(stated) if off(stated.si) || area.value < stated.si => say!(
                "{area} of membrane are pleated, and the specification says {stated} a module",
                area = area.bare(&computed.figure.unit),
                stated = stated.text
            ),
            _ if off(taken) => say!(
                "{area} of membrane are pleated, and {from} to {to} of the roll, {length} wide, are {taken}",
                area = area.bare(&computed.figure.unit),
                from = pack.from.text,
                to = pack.to.text,
                length = body.pleated_length.text,
                taken = Quantity::exact(taken, area.dim).bare(&computed.figure.unit)
            ),
            _ if wider(view, body, pack) => say!(
                "{length} are pleated, and no coil of {roll} is as wide",
                length = body.pleated_length.text,
                roll = &*pack.material_lot
            ),
            _ => continue,
        };
        if told.insert(record.index) {
            out.find(
                Finding::new(
                    "R04",
                    Severity::Blocks,
                    format!("{}, {}: {wrong}.", &*record.id, &*pack.module_id),
                )
                .advise(say!("Look at pleat height, length and count, at the metres of the roll, and at their units."))
                .at(record.at(pack.spot))
                .about(&*record.id.text)
                .about(&*pack.module_id.text),
            );
        }
    }
}

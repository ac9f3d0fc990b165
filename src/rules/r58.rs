//! R58: No deviation is open, and each that touches a released lot is disclosed.

use std::collections::{BTreeMap, BTreeSet};

use crate::{
    ground::finding::{Finding, Severity},
    rule::{Outcome, Rule, View},
};
use crate::{
    plant::{Plant, recall},
    record::{
        Record,
        kinds::{Body, calibration_record::CalibrationRecord, deviation::Deviation},
        read::Text,
    },
};

/// No deviation is open, and each that touches a released lot is disclosed.
pub static RULE: Rule = Rule {
    id: "R58",
    severity: Severity::Blocks,
    demands: "No deviation is open, and each that touches a released lot is disclosed.",
    protects: "a deviation that the customer never hears of",
    explained: "Never: it is mended, or what it concerns is not released.",
    check,
};

fn finding(message: String) -> Finding {
    Finding::new("R58", Severity::Blocks, message)
}

fn check(view: &View) -> Outcome {
    let mut out = Outcome::of(say!("deviations"));
    let mut of_lot: BTreeMap<&str, Vec<_>> = BTreeMap::new();
    for (release, body) in view.plant.releases() {
        let lot = &*body.object.lot_id.text;
        of_lot.entry(lot).or_default().push((release, body));
    }
    for (release, body) in view.plant.releases() {
        let here = |id: &str| view.plant.records().find("deviation", id).is_some();
        for id in body.deviations_disclosed.iter().filter(|id| !here(id)) {
            out.look();
            out.find(
                finding(say!(
                    "{id2} discloses {id}, which is not in this folder.",
                    id2 = &*release.id,
                    id = &*id.text
                ))
                .advise(say!("Add the deviation, or correct its id."))
                .at(release.at(id.spot))
                .about(&*release.id.text),
            );
        }
    }
    let holders = holders(view);
    for (record, deviation) in view.plant.records().deviations() {
        out.look();
        if let Some(why) = view.plant.unsettled(record, deviation) {
            out.find(
                finding(say!(
                    "{id} is not decided: {why}.",
                    id = &*record.id,
                    why = why
                ))
                .advise(say!(
                    "Decide hold, retest or reject, and have it approved by a person who may."
                ))
                .at(record.place())
                .about(&*record.id.text),
            );
        }
        let touched = lots(view, &holders, deviation);
        for (release, body) in touched.iter().filter_map(|lot| of_lot.get(lot)).flatten() {
            let lot = &*body.object.lot_id.text;
            let signed = body
                .signed_as("release")
                .min_by_key(|one| one.signed_at.time);
            // What was found after the release could not be decided before it.
            if let (Some(signed), Some(approved)) = (signed, &deviation.approved_at)
                && deviation.detected_at.time < signed.signed_at.time
                && signed.signed_at.time < approved.time
            {
                out.find(
                    finding(say!(
                        "{id} touches {lot} and was decided {approved}, after {id2} was signed for release {signed}.",
                        id = &*record.id,
                        lot = lot,
                        approved = approved.time,
                        id2 = &*release.id,
                        signed = signed.signed_at.time
                    ))
                    .advise(say!("Release again, as the next revision, with the decision known."))
                    .at(record.at(approved.spot))
                    .about(&*release.id.text)
                    .about(&*record.id.text),
                );
            }
            let mut disclosed = body.deviations_disclosed.iter();
            if !disclosed.any(|id| id.text == record.id.text) {
                out.find(
                    finding(say!(
                        "{id} touches {lot} and is not disclosed in {id2}.",
                        id = &*record.id,
                        lot = lot,
                        id2 = &*release.id
                    ))
                    .advise(say!(
                        "Add it to deviations_disclosed; the customer sees it."
                    ))
                    .at(release.place())
                    .about(&*release.id.text)
                    .about(&*record.id.text),
                );
            }
        }
    }
    out
}

/// The lots that hold each module and assembly.
fn holders<'a>(view: &View<'a>) -> BTreeMap<&'a str, Vec<&'a str>> {
    let mut out: BTreeMap<&str, Vec<&str>> = BTreeMap::new();
    for (lot, members) in &view.plant.lots {
        for id in members.modules.iter().chain(&members.assemblies) {
            out.entry(id).or_default().push(lot);
        }
    }
    out
}

/// What a deviation names: a record may be named with its revision or with a part of it, and an id may have such signs itself.
fn named<'t>(view: &View, text: &'t str) -> &'t str {
    let plant = view.plant;
    let known = |id: &&str| {
        plant.records().any(id).is_some()
            || plant.modules.contains_key(*id)
            || plant.assemblies.contains_key(*id)
            || plant.lots.contains_key(*id)
    };
    let ends = text.rmatch_indices(['/', ' ']).map(|(at, _)| &text[..at]);
    let first = text.split(['/', ' ']).next().unwrap_or(text);
    std::iter::once(text)
        .chain(ends)
        .find(known)
        .unwrap_or(first)
}

fn lot_named<'a>(plant: &'a Plant, lot: &str) -> Option<&'a str> {
    plant.lots.get_key_value(lot).map(|(lot, _)| &**lot)
}

/// The lots that a deviation touches: those of its elements, of what its records speak of, of its rolls,
/// instruments and claims.
fn lots<'a>(
    view: &View<'a>,
    holders: &BTreeMap<&str, Vec<&'a str>>,
    deviation: &Deviation,
) -> BTreeSet<&'a str> {
    let plant = view.plant;
    let mut out = BTreeSet::new();
    for text in deviation.subject.texts() {
        let id = named(view, text);
        if let Some((lot, _)) = plant.lots.get_key_value(id) {
            out.insert(&**lot);
        }
        out.extend(plant.lot_of(id));
        let rolls = match plant.records().any(id).map(|record| &record.body) {
            Some(Body::RetentionChallenge(body)) => Some(&*body.material_lot.text),
            Some(Body::MembraneTest(body)) => Some(&*body.material_lot.text),
            Some(Body::SlittingRecord(body)) => Some(&*body.material_lot.text),
            _ => None,
        };
        // A material touches every lot that it went into, whatever part it became; a claim every lot of its product.
        let made = plant.material(id).map(|(record, _)| record);
        let made = made.and_then(|lot| recall::recall(plant, &lot.id, recall::Period::default()));
        if let Some(made) = made {
            let modules = made.modules.iter().map(|module| &*module.id);
            let all = modules.chain(made.assemblies.iter().map(|assembly| &*assembly.id));
            out.extend(all.filter_map(|id| plant.lot_of(id)));
        }
        let of_product = |code: &Text, out: &mut BTreeSet<&'a str>| {
            let releases = plant.releases().map(|(_, release)| &release.object);
            let own = releases.filter(|object| object.product_code.text == code.text);
            out.extend(own.map(|object| &*object.lot_id.text));
        };
        if let Some(Body::CycleClaim(claim)) = plant.records().any(id).map(|record| &record.body) {
            of_product(&claim.product_code, &mut out);
        }
        let modules = rolls
            .into_iter()
            .chain([id])
            .flat_map(|roll| plant.modules_of_roll(roll));
        out.extend(modules.filter_map(|(module, _)| plant.lot_of(module)));
        let record = plant.records().any(id);
        match record.map(|record| &record.body) {
            Some(Body::LotReconciliation(body)) => out.extend(lot_named(plant, &body.lot_id)),
            Some(Body::MarkingInspection(body)) => out.extend(lot_named(plant, &body.lot_id)),
            Some(Body::ReleaseStatement(body)) => out.extend(lot_named(plant, &body.object.lot_id)),
            Some(Body::ProductSpecification(body)) => of_product(&body.product_code, &mut out),
            Some(Body::LayerStack(body)) => of_product(&body.product_code, &mut out),
            Some(Body::ElementGeometry(body)) => of_product(&body.product_code, &mut out),
            _ => {}
        }
        // A material has its way of its own, above.
        let elements = record
            .filter(|record| record.kind != "material_lot")
            .map(|record| recall::elements(plant, record))
            .unwrap_or_default();
        let held = elements.iter().filter_map(|id| holders.get(&**id));
        out.extend(held.flatten());
        // An instrument touches every lot that it tested, a certificate what was tested while it was valid, in any of its revisions.
        let certificate = plant.records().revisions("calibration_record", id);
        let certificate: Vec<&CalibrationRecord> = certificate
            .filter_map(|record| match &record.body {
                Body::CalibrationRecord(body) => Some(&**body),
                _ => None,
            })
            .collect();
        let instrument = certificate
            .first()
            .map_or(id, |body| &*body.instrument_id.text);
        let vouched = |record: &Record| {
            let valid =
                |body: &&CalibrationRecord| record.day().is_none_or(|day| body.in_force(day));
            certificate.is_empty() || certificate.iter().any(valid)
        };
        let tests = plant.measured_by(instrument).filter(|own| vouched(own));
        let elements = tests.flat_map(|own| recall::elements(plant, own));
        let elements: BTreeSet<String> = elements.collect();
        let held = elements.iter().filter_map(|id| holders.get(&**id));
        out.extend(held.flatten());
    }
    out
}

//! R17: Each material lot that was used traces to one supplier and supplier lot.

use std::collections::BTreeMap;

use crate::{
    ground::{
        finding::{Finding, Severity},
        place::Place,
    },
    plant::lots_used,
    record::{Record, kinds::seal_run::Seal},
    rule::{Outcome, Rule, View},
};

/// Each material lot that was used traces to one supplier and supplier lot.
pub static RULE: Rule = Rule {
    id: "R17",
    severity: Severity::Blocks,
    demands: "Each material lot that was used traces to one supplier and supplier lot.",
    protects: "a part that nobody can recall (one step up, EC 1935/2004 Article 17)",
    explained: "Never: it is mended, or what it concerns is not released.",
    check,
};

fn finding(message: String) -> Finding {
    Finding::new("R17", Severity::Blocks, message)
}

fn check(view: &View) -> Outcome {
    let mut out = Outcome::of(say!("material lots used"));
    let mut seen = std::collections::BTreeSet::new();
    for record in view.plant.records().current() {
        for (lot, what) in lots_used(&record.body) {
            if !seen.insert(&lot.text) {
                continue;
            }
            out.look();
            if view.plant.material(lot).is_none() {
                out.find(
                    finding(say!(
                        "{lot} ({what}) has no material_lot record.",
                        lot = &**lot,
                        what = say!(what)
                    ))
                    .advise(say!("Add it with supplier and supplier lot (one step up)."))
                    .at(record.at(lot.spot))
                    .about(&*lot.text),
                );
            }
        }
    }
    for (record, what, elements) in unnamed(view) {
        out.look();
        let mut found = finding(say!(
            "{id} names no lot of its {what}, and {elements} is to be released.",
            id = &*record.id,
            what = what,
            elements = elements.join(", ")
        ))
        .advise(say!(
            "Name the lot; without it nobody can be told when it turns out bad."
        ))
        .at(record.place())
        .about(&*record.id.text);
        for element in elements {
            found = found.about(element);
        }
        out.find(found);
    }
    coils(view, &mut out);
    out
}

/// Packs whose coil no slitting_record knows, or knows as one of another roll: their width was held against nothing.
fn coils(view: &View, out: &mut Outcome) {
    let slit: BTreeMap<&str, &str> = view
        .plant
        .records()
        .slitting_records()
        .filter_map(|(_, body)| Some((&*body.coil_id.as_ref()?.text, &*body.material_lot.text)))
        .collect();
    // Where nothing is recorded of any coil, rule R02 asks for what the specification requires.
    if slit.is_empty() {
        return;
    }
    let mut wrong: BTreeMap<(&str, &str), (Place, Vec<&str>)> = BTreeMap::new();
    for (record, body) in view.plant.records().pleating_records() {
        for pack in &body.packs {
            let Some(coil) = &pack.coil_id else { continue };
            out.look();
            let roll = &*pack.material_lot.text;
            if slit.get(&*coil.text) != Some(&roll) {
                let slot = wrong.entry((&*coil.text, roll));
                let slot = slot.or_insert_with(|| (record.at(coil.spot), Vec::new()));
                slot.1.push(&*pack.module_id.text);
            }
        }
    }
    for ((coil, roll), (at, modules)) in wrong {
        let released = modules.iter().any(|module| view.in_release(module));
        let message = match slit.get(coil) {
            None => say!(
                "{modules}: cut from coil {coil} of {roll}, and no slitting_record is of that coil: its width was held against nothing.",
                modules = modules.join(", "),
                coil = coil,
                roll = roll
            ),
            Some(other) => say!(
                "{modules}: cut from coil {coil} of {roll}, and that coil was slit from {other}.",
                modules = modules.join(", "),
                coil = coil,
                roll = roll,
                other = other
            ),
        };
        let mut found = finding(message)
            .advise(say!("Correct the coil, or add the record of its slitting."))
            .at(at)
            .about(coil);
        if !released {
            found.severity = Severity::Explain;
        }
        for module in modules {
            found = found.about(module);
        }
        out.find(found);
    }
}

/// Records of released elements that name no lot of a part which every element has: record, part, elements.
fn unnamed<'a>(view: &View<'a>) -> Vec<(&'a Record, &'static str, Vec<&'a str>)> {
    let plant = view.plant;
    let mut out = Vec::new();
    // Not every pack has a core and a cage: a geometry that describes one says so, or another record that names its lot.
    let known = |part: &str| {
        let geometries = plant.records().element_geometrys();
        let mut described = geometries.flat_map(|(_, geometry)| &geometry.parts);
        let mut others = plant.records().pleating_records();
        described.any(|own| &*own.part.text == part)
            || others.any(|(_, body)| match part {
                "core" => body.core_lot.is_some(),
                _ => body.cage_lot.is_some(),
            })
    };
    for (record, body) in plant.records().pleating_records() {
        let packs = body.packs.iter().map(|pack| &*pack.module_id.text);
        let own: Vec<&str> = packs.filter(|id| view.modules.contains(id)).collect();
        let parts = [
            (body.core_lot.is_none() && known("core"), say!("core")),
            (body.cage_lot.is_none() && known("cage"), say!("cage")),
        ];
        let missing = parts
            .iter()
            .filter(|(missing, _)| *missing && !own.is_empty());
        out.extend(missing.map(|(_, part)| (record, *part, own.clone())));
    }
    for (record, run) in plant.records().seal_runs() {
        let items = run.items.iter().map(|item| &*item.item.text);
        let own: Vec<&str> = items.filter(|id| view.modules.contains(id)).collect();
        if run.seal_type == Seal::PackToEndCap && run.end_cap_lot.is_none() && !own.is_empty() {
            out.push((record, say!("end caps"), own));
        }
    }
    out
}

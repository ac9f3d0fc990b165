//! R61: Every seal seen is accepted, without gap or slit; the ring turns; the tip drains.

use std::collections::{BTreeMap, BTreeSet};

use crate::record::{
    Record,
    kinds::{Body, seal_inspection::Visual},
};
use crate::{
    ground::finding::{Finding, Severity},
    record::common::Said,
    rule::{Outcome, Rule, View},
};

/// Every seal seen is accepted, without gap or slit; the ring turns; the tip drains.
pub static RULE: Rule = Rule {
    id: "R61",
    severity: Severity::Blocks,
    demands: "Every seal seen is accepted, without gap or slit; the ring turns; the tip drains.",
    protects: "a leak, a gripped ring that cracks the adapter when steamed, or water that stays",
    explained: "Never: it is mended, or what it concerns is not released.",
    check,
};

fn finding(message: String) -> Finding {
    Finding::new("R61", Severity::Blocks, message)
}

fn check(view: &View) -> Outcome {
    let mut out = Outcome::of(say!("seals and fittings"));
    for (record, body) in view.plant.records().seal_inspections() {
        for seal in body.visual.iter() {
            out.look();
            let item = seal
                .module_id
                .as_ref()
                .or(seal.assembly_id.as_ref())
                .map_or(say!("an unnamed item"), |id| &*id.text);
            let gap = seal.gap_or_slit.as_ref().filter(|gap| &***gap != "none");
            let bead = seal.bead.as_ref().filter(|bead| &***bead != "continuous");
            doubtful(view, record, seal, item, &mut out);
            if seal.verdict == Said::Fail || gap.is_some() || bead.is_some() {
                let what = match (gap, bead) {
                    (Some(gap), _) => say!("gap or slit {gap}", gap = &**gap),
                    (None, Some(bead)) => say!("bead {bead}", bead = &**bead),
                    (None, None) => say!("the inspector said fail").to_owned(),
                };
                out.find(
                    Finding {
                        severity: view.weight(item),
                        ..finding(format!("{item}: {what} ({}).", &*record.id))
                    }
                    .advise(match (seal.verdict, gap) {
                        (Said::Pass, None) => say!("Only a continuous bead is sound: write continuous where it is, and do not use what is not."),
                        _ => say!("Do not use it; a seal with an opening is not mended."),
                    })
                    .at(record.at(seal.spot))
                    .about(item)
                    .about(&*record.id.text),
                );
            }
        }
    }
    for (record, run) in view.plant.records().seal_runs() {
        let seen: std::collections::BTreeSet<&str> = view
            .plant
            .inspections
            .get(&*record.id.text)
            .into_iter()
            .flatten()
            .flat_map(|index| match &view.plant.record(*index).body {
                Body::SealInspection(body) => body
                    .visual
                    .iter()
                    .filter_map(|seal| seal.module_id.as_ref().or(seal.assembly_id.as_ref()))
                    .map(|id| &*id.text)
                    .collect(),
                _ => Vec::new(),
            })
            .collect();
        for item in run
            .items
            .iter()
            .map(|item| &*item.item.text)
            .collect::<std::collections::BTreeSet<_>>()
        {
            out.look();
            if !seen.contains(item) {
                out.find(
                    Finding {
                        severity: view.weight(item),
                        ..finding(say!(
                            "{item}: nobody looked at its seal of {id}.",
                            item = item,
                            id = &*record.id
                        ))
                    }
                    .advise(say!("Look at every seal, and record it."))
                    .at(record.place())
                    .about(item)
                    .about(&*record.id.text),
                );
            }
        }
    }
    ends(view, &mut out);
    joints(view, &mut out);
    for (record, build) in view.plant.records().assembly_builds() {
        let id = &*build.assembly_id.text;
        let unsaid = [
            (
                build.adapter.as_ref().is_some_and(|adapter| {
                    adapter.stainless_ring_lot.is_some() && adapter.ring_turns_freely.is_none()
                }),
                say!("nobody says whether the stainless ring turns"),
            ),
            (
                build
                    .end_piece
                    .as_ref()
                    .is_some_and(|piece| piece.drain_path_clear.is_none()),
                say!("nobody says whether the tip drains"),
            ),
        ];
        let ring = build.adapter.as_ref();
        // The play is asked for where the geometry of the product says what it ought to be.
        let mut geometries = view.plant.records().element_geometrys();
        let product = view.plant.spec_of(record);
        let product = product.map(|(_, spec)| &*spec.product_code.text);
        let known = geometries.any(|(_, own)| product == Some(&*own.product_code.text));
        let ring = ring.filter(|adapter| known && adapter.stainless_ring_lot.is_some());
        let unsaid = unsaid.into_iter().chain([
            (
                ring.is_some_and(|adapter| adapter.ring_radial_clearance.is_none()),
                say!("nobody says how much play the stainless ring has"),
            ),
            (
                build
                    .o_rings
                    .as_ref()
                    .is_some_and(|rings| rings.quantity.value == 0),
                say!("it is said to have no o-ring"),
            ),
        ]);
        let unsaid: Vec<_> = unsaid.collect();
        for (_, words) in unsaid.iter().filter(|(missing, _)| *missing) {
            out.look();
            out.find(
                Finding {
                    severity: view.weight(id),
                    ..finding(format!("{id}: {words} ({}).", &*record.id))
                }
                .advise(say!("Look, and record what is seen."))
                .at(record.place())
                .about(id),
            );
        }
        if let Some(turns) = build
            .adapter
            .as_ref()
            .and_then(|adapter| adapter.ring_turns_freely)
        {
            out.look();
            if !turns.value {
                out.find(
                    Finding {
                        severity: view.weight(id),
                        ..finding(say!("{id}: the stainless ring does not turn.", id = id))
                    }
                    .advise(say!(
                        "Do not ship: the plastic grips the ring and may crack at a steam cycle."
                    ))
                    .at(record.at(turns.spot))
                    .about(id),
                );
            }
        }
        if let Some(clear) = build
            .end_piece
            .as_ref()
            .and_then(|piece| piece.drain_path_clear)
        {
            out.look();
            if !clear.value {
                out.find(
                    Finding {
                        severity: view.weight(id),
                        ..finding(say!("{id}: the tip does not drain.", id = id))
                    }
                    .advise(say!(
                        "Do not ship: water that stays grows what the filter should hold back."
                    ))
                    .at(record.at(clear.spot))
                    .about(id),
                );
            }
        }
    }
    for (record, body) in view.plant.records().pleating_records() {
        for pack in &body.packs {
            out.look();
            if &*pack.visual.text != "accepted" {
                let id = &*pack.module_id.text;
                out.find(
                    Finding {
                        severity: view.weight(id),
                        ..finding(say!(
                            "{id}: its pack was seen to be \"{visual}\".",
                            id = id,
                            visual = &*pack.visual
                        ))
                    }
                    .advise(say!(
                        "Do not build it in; write accepted only when nothing was seen."
                    ))
                    .at(record.at(pack.visual.spot))
                    .about(id)
                    .about(&*record.id.text),
                );
            }
        }
    }
    for assembly in &view.release {
        let Some((record, build)) = view.plant.build(assembly) else {
            continue;
        };
        out.look();
        let parts = [
            (say!("adapter"), build.adapter.is_some()),
            (say!("end piece"), build.end_piece.is_some()),
            (say!("o-rings"), build.o_rings.is_some()),
        ];
        let missing: Vec<&str> = parts
            .iter()
            .filter(|(_, there)| !there)
            .map(|(part, _)| *part)
            .collect();
        if !missing.is_empty() {
            out.find(
                finding(say!(
                    "{assembly}: its build names no {missing}.",
                    assembly = assembly,
                    missing = missing.join(", ")
                ))
                .advise(say!(
                    "Record what was fitted, with its lot and its seal run."
                ))
                .at(record.place())
                .about(*assembly),
            );
        }
    }
    out
}

/// What an inspector passed without saying what was seen, or although something was.
fn doubtful(view: &View, record: &Record, seal: &Visual, item: &str, out: &mut Outcome) {
    if seal.verdict == Said::Fail {
        return;
    }
    let unsaid = [
        ("bead", seal.bead.is_none()),
        ("gap_or_slit", seal.gap_or_slit.is_none()),
    ];
    let unsaid: Vec<&str> = unsaid
        .iter()
        .filter(|(_, missing)| *missing)
        .map(|(key, _)| *key)
        .collect();
    let seen = [&seal.inclusion, &seal.discolouration];
    let seen: Vec<&str> = seen
        .into_iter()
        .flatten()
        .map(|seen| &**seen)
        .filter(|seen| *seen != "none")
        .collect();
    let narrow = seal
        .bead_width
        .as_ref()
        .is_some_and(|width| width.si <= 0.0);
    let (message, severity, advice) = match (unsaid.is_empty(), seen.is_empty(), narrow) {
        (false, _, _) => (
            say!(
                "{item}: passed without a word of {unsaid}",
                item = item,
                unsaid = unsaid.join(", ")
            ),
            view.weight(item),
            say!("Look at it again, and write what is seen."),
        ),
        (_, _, true) => (
            say!("{item}: passed with a bead that has no width", item = item),
            view.weight(item),
            say!("Look at it again, and write what is seen."),
        ),
        (_, false, _) => (
            say!(
                "{item}: passed although \"{seen}\" was seen",
                item = item,
                seen = seen.join("; ")
            ),
            Severity::Explain,
            say!("Say in a decided deviation why it may be used, or do not use it."),
        ),
        _ => return,
    };
    out.find(
        Finding {
            severity,
            ..finding(format!("{message} ({}).", &*record.id))
        }
        .advise(advice)
        .at(record.at(seal.spot))
        .about(item)
        .about(&*record.id.text),
    );
}

/// How often each end of each module was looked at.
type Ends<'a> = BTreeMap<&'a str, BTreeMap<&'a str, usize>>;

/// Both ends of every module of a run were looked at, each once, where the run's inspections name ends at all.
fn ends(view: &View, out: &mut Outcome) {
    let mut runs: BTreeMap<&str, (&Record, Ends)> = BTreeMap::new();
    for (record, body) in view.plant.records().seal_inspections() {
        let seen = runs.entry(&body.seal_run.text);
        let (_, seen) = seen.or_insert((record, Ends::new()));
        for seal in body.visual.iter() {
            if let (Some(module), Some(end)) = (&seal.module_id, &seal.end) {
                let of = seen.entry(&module.text).or_default();
                *of.entry(&end.text).or_default() += 1;
            }
        }
    }
    let all = runs.into_values();
    let all = all.flat_map(|(record, seen)| seen.into_iter().map(move |own| (record, own)));
    for (record, (module, own)) in all {
        let flaw = match own.iter().find(|(_, times)| **times > 1) {
            Some((end, _)) => say!(
                "{module}: its end \"{end}\" stands twice",
                module = module,
                end = end
            ),
            None if own.len() != ENDS => say!(
                "{module}: of its two ends {seen} were looked at",
                module = module,
                seen = own.keys().copied().collect::<Vec<_>>().join(", ")
            ),
            None => continue,
        };
        out.find(
            Finding {
                severity: view.weight(module),
                ..finding(format!("{flaw} ({}).", &*record.id))
            }
            .advise(say!("Look at every seal, and record it."))
            .at(record.place())
            .about(module)
            .about(&*record.id.text),
        );
    }
}

/// A pack is sealed at its top and at its foot.
const ENDS: usize = 2;

/// Every join between neighbours of an assembly was made once and looked at once or more.
fn joints(view: &View, out: &mut Outcome) {
    let (mut seen, mut runs) = (BTreeSet::new(), BTreeSet::new());
    for (_, body) in view.plant.records().seal_inspections() {
        for seal in body.visual.iter() {
            if let Some(assembly) = &seal.assembly_id {
                seen.insert((&*assembly.text, seal.joint.map(|joint| joint.value)));
                runs.insert((&*assembly.text, &*body.seal_run.text));
            }
        }
    }
    for (record, build) in view.plant.records().assembly_builds() {
        let id = &*build.assembly_id.text;
        let mut find = |message: String, advice: &'static str, spot| {
            out.find(
                Finding {
                    severity: view.weight(id),
                    ..finding(message)
                }
                .advise(advice)
                .at(record.at(spot))
                .about(id)
                .about(&*record.id.text),
            );
        };
        for joint in build.joints.iter() {
            // That nothing of the assembly was looked at in the run was said before; a join to no module is no join.
            let there = runs.contains(&(id, &*joint.seal_run.text))
                && joint
                    .between
                    .iter()
                    .all(|end| end.value <= build.modules.len() as u64);
            if there && !seen.contains(&(id, Some(joint.joint.value))) {
                find(
                    say!(
                        "{id}: nobody looked at join {joint}.",
                        id = id,
                        joint = joint.joint.value
                    ),
                    say!("Look at every seal, and record it."),
                    joint.spot,
                );
            }
        }
        let made: Vec<Vec<u64>> = build
            .joints
            .iter()
            .map(|joint| {
                let mut ends: Vec<u64> = joint.between.iter().map(|end| end.value).collect();
                ends.sort_unstable();
                ends
            })
            .collect();
        // Fewer joins than are due are rule R60's.
        let due = match made.len() + 1 < build.modules.len() {
            true => 1,
            false => build.modules.len() as u64,
        };
        for lower in 1..due {
            let count = made
                .iter()
                .filter(|ends| ***ends == [lower, lower + 1])
                .count();
            if count != 1 {
                find(
                    say!(
                        "{id}: {count} joins are recorded between positions {lower} and {upper}, and one is due.",
                        id = id,
                        count = count,
                        lower = lower,
                        upper = lower + 1
                    ),
                    say!("Record every join with its seal run."),
                    record.spot,
                );
            }
        }
    }
}

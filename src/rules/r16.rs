//! R16: The metres of a roll do not overlap, do not exceed the roll, and balance.

use crate::{
    ground::finding::{Finding, Severity},
    ground::{number, unit::METRE},
    rule::{Outcome, Rule, View},
};

/// The metres of a roll do not overlap, do not exceed the roll, and balance.
pub static RULE: Rule = Rule {
    id: "R16",
    severity: Severity::Blocks,
    demands: "The metres of a roll do not overlap, do not exceed the roll, and balance.",
    protects: "a module that was cut from membrane that is not there",
    explained: "Never: it is mended, or what it concerns is not released.",
    check,
};

fn finding(message: String) -> Finding {
    Finding::new(RULE.id, RULE.severity, message)
}

fn check(view: &View) -> Outcome {
    let mut out = Outcome::of(say!("packs, samples and balances of rolls"));
    for (roll, modules) in &view.plant.cut {
        let mut packs: Vec<_> = modules
            .iter()
            .filter_map(|id| view.plant.pack(id))
            .collect();
        packs.sort_by(|a, b| a.2.from.si.total_cmp(&b.2.from.si));
        let received = view
            .plant
            .material(roll)
            .map(|(_, lot)| &lot.quantity_received);
        for (i, (record, _, pack)) in packs.iter().enumerate() {
            out.look();
            let id = &*pack.module_id.text;
            // Marks are read to a tenth of a metre; what touches does not overlap.
            if let Some((_, _, before)) = i.checked_sub(1).and_then(|before| packs.get(before))
                && before.to.si > pack.from.si + 1e-9
            {
                out.find(
                    finding(say!(
                        "{roll}: {from} to {to} ({module_id}) and {from2} to {to2} ({id}) overlap.",
                        roll = roll,
                        from = before.from.text,
                        to = before.to.text,
                        module_id = &*before.module_id,
                        from2 = pack.from.text,
                        to2 = pack.to.text,
                        id = id
                    ))
                    .advise(say!("Check the pleating record against the cut list."))
                    .at(record.at(pack.spot))
                    .about(id)
                    .about(&**roll),
                );
            }
            let beyond = received.is_some_and(|received| {
                received.unit.dim == pack.to.unit.dim && pack.to.si > received.si + 1e-9
            });
            if beyond || pack.to.si <= pack.from.si {
                out.find(
                    finding(say!(
                        "{roll}: {from} to {to} ({id}) cannot be cut from it.",
                        roll = roll,
                        from = pack.from.text,
                        to = pack.to.text,
                        id = id
                    ))
                    .advise(say!(
                        "Check the metres; a roll has no more than was received."
                    ))
                    .at(record.at(pack.spot))
                    .about(id)
                    .about(&**roll),
                );
            }
        }
    }
    samples(view, &mut out);
    balances(view, &mut out);
    out
}

/// Samples of flat membrane: on the roll, and not where a pack was cut.
fn samples(view: &View, out: &mut Outcome) {
    for (record, body) in view.plant.records().membrane_tests() {
        out.look();
        let (roll, at) = (&*body.material_lot.text, &body.sample_position);
        let whole = view
            .plant
            .material(roll)
            .map(|(_, lot)| &lot.quantity_received);
        let whole = whole.filter(|whole| whole.unit.dim == at.unit.dim);
        let beyond = whole.filter(|whole| at.si > whole.si + 1e-9);
        let mut packs = view.plant.modules_of_roll(roll);
        let pack = packs.find(|(_, pack)| pack.from.si + 1e-9 < at.si && at.si < pack.to.si - 1e-9);
        let message = match (beyond, pack) {
            (Some(whole), _) => say!(
                "{id}: its sample was taken at {at} of {roll}, which has {whole}.",
                id = &*record.id,
                at = at.text,
                roll = roll,
                whole = whole.text
            ),
            (None, Some((module, pack))) => say!(
                "{id}: its sample was taken at {at} of {roll}, where {module} was cut ({from} to {to}).",
                id = &*record.id,
                at = at.text,
                roll = roll,
                module = module,
                from = pack.from.text,
                to = pack.to.text
            ),
            (None, None) => continue,
        };
        out.find(
            finding(message)
                .advise(say!("Find out which roll and which place it is of."))
                .at(record.at(at.spot))
                .about(&*record.id.text)
                .about(roll),
        );
    }
}

/// Metres as a reconciliation states them: the sum must close, and agree with the packs.
fn balances(view: &View, out: &mut Outcome) {
    for (record, body) in view.plant.records().lot_reconciliations() {
        for balance in body.roll_balance.iter() {
            out.look();
            let (roll, mut wrong) = (&*balance.material_lot.text, Vec::new());
            let rest = balance.received.si - balance.used_in_this_lot.si - balance.test_and_trim.si;
            let show = |metres: f64| number::with_unit(&number::fixed(metres, 1), &METRE);
            // Marks on a roll are read to a tenth of a metre.
            if (rest - balance.remaining.si).abs() > 0.05 {
                wrong.push(say!("{received} less {used_in_this_lot} used and {test_and_trim} tested or trimmed leaves {rest}, not {remaining}", received = balance.received.text, used_in_this_lot = balance.used_in_this_lot.text, test_and_trim = balance.test_and_trim.text, rest = show(rest), remaining = balance.remaining.text));
            }
            let cut: f64 = view
                .plant
                .modules_of_roll(roll)
                .filter(|(module, _)| view.plant.lot_of(module) == Some(&*body.lot_id.text))
                .map(|(_, pack)| pack.to.si - pack.from.si)
                .sum();
            if (cut - balance.used_in_this_lot.si).abs() > 0.05 {
                wrong.push(say!(
                    "its packs add up to {cut}, not {used_in_this_lot}",
                    cut = show(cut),
                    used_in_this_lot = balance.used_in_this_lot.text
                ));
            }
            // Marks count from the beginning of the roll: behind the last cut of this lot lies what is left.
            let last = view
                .plant
                .modules_of_roll(roll)
                .filter(|(module, _)| view.plant.lot_of(module) == Some(&*body.lot_id.text))
                .map(|(_, pack)| pack.to.si)
                .reduce(f64::max);
            let whole = view
                .plant
                .material(roll)
                .map(|(_, lot)| lot.quantity_received.si);
            if let (Some(last), Some(whole)) = (last, whole)
                && (whole - last - balance.remaining.si).abs() > 0.05
            {
                wrong.push(say!(
                    "behind the last cut at {last} lie {last2}, not {remaining}",
                    last = show(last),
                    last2 = show(whole - last),
                    remaining = balance.remaining.text
                ));
            }
            if !wrong.is_empty() {
                out.find(
                    Finding {
                        severity: Severity::Explain,
                        ..finding(say!(
                            "{roll} in {id}: {wrong}.",
                            roll = roll,
                            id = &*record.id,
                            wrong = wrong.join("; ")
                        ))
                    }
                    .advise(say!(
                        "Find the metres: a pack that was never recorded is cut from somewhere."
                    ))
                    .at(record.at(balance.spot))
                    .about(roll)
                    .about(&*record.id.text),
                );
            }
        }
    }
}

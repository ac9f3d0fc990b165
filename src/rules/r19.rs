//! R19: A lot balances: started equals in assemblies, rejected, destroyed, held and in stock.

use crate::{
    ground::finding::{Finding, Severity},
    record::{kinds::lot_reconciliation::State, read::Id},
    rule::{Outcome, Rule, View},
};

/// A lot balances: started equals in assemblies, rejected, destroyed, held and in stock.
pub static RULE: Rule = Rule {
    id: "R19",
    severity: Severity::Blocks,
    demands: "A lot balances: started equals in assemblies, rejected, destroyed, held and in stock.",
    protects: "a module that has vanished",
    explained: "Never: it is mended, or what it concerns is not released.",
    check,
};

fn finding(message: String) -> Finding {
    Finding::new(RULE.id, RULE.severity, message)
}

fn check(view: &View) -> Outcome {
    let mut out = Outcome::of(say!("lots reconciled"));
    nowhere(view, &mut out);
    for (record, body) in view.plant.records().lot_reconciliations() {
        out.look();
        let mut find = |message: String, advice: &str, id: &str| {
            out.find(
                finding(message)
                    .advise(advice)
                    .at(record.place())
                    .about(id)
                    .about(&*record.id.text),
            )
        };
        let mut seen: std::collections::BTreeSet<&str> = std::collections::BTreeSet::new();
        let listed: Vec<&str> = body
            .disposition
            .iter()
            .flat_map(|state| state.modules.iter().map(|id| &*id.text))
            .collect();
        for id in &listed {
            if !seen.insert(id) {
                find(
                    say!(
                        "{lot_id}: {id} has two dispositions.",
                        lot_id = &*body.lot_id,
                        id = id
                    ),
                    say!("Find out where it is; a module is in one place."),
                    id,
                );
            }
        }
        if listed.len() as u64 != body.modules_started.value {
            find(
                say!(
                    "{lot_id}: started {modules_started}, accounted {count}.",
                    lot_id = &*body.lot_id,
                    modules_started = body.modules_started.value,
                    count = listed.len()
                ),
                say!("Find the difference before release."),
                &body.lot_id,
            );
        }
        for id in view
            .plant
            .lots
            .get(&body.lot_id.text)
            .iter()
            .flat_map(|lot| &lot.modules)
            .filter(|id| !seen.contains(&***id))
        {
            find(
                say!(
                    "{lot_id}: {id} was pleated and has no disposition.",
                    lot_id = &*body.lot_id,
                    id = id
                ),
                say!("Find it before release."),
                id,
            );
        }
        let built = body
            .disposition
            .iter()
            .filter_map(|state| state.assembly_id.as_ref());
        let built: std::collections::BTreeSet<&str> = built.map(|id| &*id.text).collect();
        if let Some(stated) = body
            .assemblies_built
            .filter(|n| n.value != built.len() as u64)
        {
            find(
                say!(
                    "{lot_id}: {stated} assemblies are said to be built, and {count} are listed.",
                    lot_id = &*body.lot_id,
                    stated = stated.value,
                    count = built.len()
                ),
                say!("Find the difference before release."),
                &body.lot_id,
            );
        }
        if let Some(text) = body
            .balance
            .as_ref()
            .filter(|text| !adds_up(text, listed.len()))
        {
            find(
                say!(
                    "{lot_id}: its balance \"{text}\" does not add up to the {count} modules that are listed.",
                    lot_id = &*body.lot_id,
                    text = &**text,
                    count = listed.len()
                ),
                say!("Find the difference before release."),
                &body.lot_id,
            );
        }
        for state in body.disposition.iter() {
            let out_of_use = matches!(state.state, State::Rejected | State::Held);
            let here = |id: &Id| view.plant.records().find("deviation", id).is_some();
            let said = state.deviation.as_ref().is_some_and(here);
            let unsaid = state.modules.iter().filter(|_| out_of_use && !said);
            for id in unsaid.filter(|id| view.plant.settled(id).next().is_none()) {
                find(
                    say!(
                        "{lot_id}: {id} is {state}, and no deviation says why.",
                        lot_id = &*body.lot_id,
                        id = &**id,
                        state = state.state.said()
                    ),
                    say!(
                        "Name the deviation: what went wrong with one module concerns every buyer of the lot."
                    ),
                    id,
                );
            }
            for id in &state.modules {
                let built = view.plant.assemblies_of(id);
                let said = state.assembly_id.as_ref().map(|id| &*id.text);
                // A destroyed module that was built in is the business of rule R54.
                let destroyed = state.state == State::DestroyedAsSample && said.is_none();
                if built.first().copied() != said && !destroyed {
                    let places = |id: Option<&str>| id.unwrap_or(say!("no assembly")).to_owned();
                    find(
                        say!(
                            "{lot_id}: {id} is said to be in {said} and was built into {built}.",
                            lot_id = &*body.lot_id,
                            id = &**id,
                            said = places(said),
                            built = places(built.first().copied())
                        ),
                        say!("One record is wrong: read the mark."),
                        id,
                    );
                }
            }
        }
    }
    out
}

/// Whether a balance such as "12 = 9 + 1 + 2" adds up to so many; what is no sum says nothing.
fn adds_up(text: &str, count: usize) -> bool {
    let Some((whole, parts)) = text.split_once('=') else {
        return true;
    };
    let parts: Option<usize> = parts
        .split('+')
        .map(|part| part.trim().parse::<usize>().ok())
        .sum();
    match (whole.trim().parse::<usize>(), parts) {
        (Ok(whole), Some(sum)) => whole == count && sum == count,
        _ => true,
    }
}

/// A module that was tested and that no pack, assembly or reconciliation knows.
fn nowhere(view: &View, out: &mut Outcome) {
    for (id, module) in &view.plant.modules {
        let test = module.tests.first().map(|index| view.plant.record(*index));
        let Some(test) = test.filter(|_| module.pack.is_none() && module.builds.is_empty()) else {
            continue;
        };
        out.look();
        if view.plant.disposed(id).next().is_none() {
            out.find(
                Finding {
                    severity: Severity::Explain,
                    ..finding(say!(
                        "{id} was tested ({test}), and no pack, assembly or reconciliation says what became of it.",
                        id = id,
                        test = &*test.id
                    ))
                }
                .advise(say!("Record where it came from and where it is; a trial is said in a deviation of category exclusion."))
                .at(test.place())
                .about(&**id)
                .about(&*test.id.text),
            );
        }
    }
}

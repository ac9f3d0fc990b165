//! R90: A later revision changes what was measured, made or seen only under a decided deviation.

use crate::{
    ground::{
        finding::{Finding, Severity},
        place::Spot,
    },
    intake,
    plant::Test,
    record::{
        Record,
        yaml::{Data, Node},
    },
    rule::{Outcome, Rule, View},
};

/// A later revision changes what was measured, made or seen only under a decided deviation.
pub static RULE: Rule = Rule {
    id: "R90",
    severity: Severity::Explain,
    demands: "A later revision changes what was measured, made or seen only under a decided deviation.",
    protects: "a bad result that a typing error took away",
    explained: "By a decided deviation of category data, test_invalid, marking or exclusion that names the record with its revision, as MT-1 revision 2.",
    check,
};

/// Kinds that say what was measured, made or seen. What is laid down, claimed or decided is revised by its own rules.
const OF_WORK: [&str; 19] = [
    "assembly_build",
    "assembly_test",
    "calibration_record",
    "cycle_log",
    "element_geometry",
    "endurance_study",
    "flow_test",
    "layer_stack",
    "lot_reconciliation",
    "marking_inspection",
    "material_lot",
    "measurement_study",
    "membrane_test",
    "module_test",
    "pleating_record",
    "retention_challenge",
    "seal_inspection",
    "seal_run",
    "slitting_record",
];

/// Papers that follow a lot: they are renewed, and the old revision keeps the old ones.
const PAPERS: [&str; 3] = [
    "food_contact_documents",
    "inspection_document",
    "purchase_order",
];

/// So many changes of one revision are told one by one.
const TOLD: usize = 6;

fn check(view: &View) -> Outcome {
    let mut out = Outcome::of(say!("revised records of work"));
    let revised: Vec<&Record> = view
        .plant
        .records()
        .current()
        .filter(|record| record.revision > 1 && OF_WORK.contains(&record.kind))
        .collect();
    let lineage = |record: &'_ Record| {
        let mut all: Vec<_> = view.plant.earlier(record).map(|old| old.index).collect();
        all.sort_by_key(|index| view.plant.record(*index).revision);
        all.push(record.index);
        all
    };
    let chains: Vec<Vec<usize>> = revised.iter().map(|record| lineage(record)).collect();
    let wanted = chains.iter().flatten().map(|i| view.plant.record(*i));
    let nodes = intake::nodes_of(&view.plant.folder, wanted);
    for chain in &chains {
        out.look();
        for [before, after] in chain.array_windows() {
            let (Some(old), Some(new)) = (nodes.get(before), nodes.get(after)) else {
                continue;
            };
            let (before, after) = (view.plant.record(*before), view.plant.record(*after));
            let mut changes = Vec::new();
            top(old, new, &mut changes);
            let Some(first) = changes.first() else {
                continue;
            };
            let mut told: Vec<&str> = changes.iter().take(TOLD).map(|(said, _)| &**said).collect();
            let more = changes.len().saturating_sub(TOLD);
            let rest = say!("and {more} more", more = more);
            if more > 0 {
                told.push(&rest);
            }
            let element = Test::of(after).map_or(&*after.id.text, |test| test.element);
            out.find(
                Finding::new(
                    RULE.id,
                    RULE.severity,
                    say!(
                        "{id}: revision {after} changes what revision {before} says: {changes}.",
                        id = &*after.id,
                        after = after.revision,
                        before = before.revision,
                        changes = told.join("; ")
                    ),
                )
                .advise(say!(
                    "Decide a deviation of category data that names \"{revision}\" and says how it is known which is right; what was measured again is a record of its own.",
                    revision = revision_of(after)
                ))
                .at(after.at(first.1))
                // A deviation about something else of the record explains nothing: it names the revision.
                .about(revision_of(after))
                .about(&*after.id.text)
                .about(element),
            );
        }
    }
    out
}

/// A record with its revision, as a deviation names it.
fn revision_of(record: &Record) -> String {
    format!("{} revision {}", &*record.id, record.revision)
}

/// What is added so that a result counts less, and lists of results that a statistic is taken of: more of them change it.
const TAKES_AWAY: [&str; 2] = ["not_measured_reason", "valid"];
/// See [`TAKES_AWAY`].
const OF_RESULTS: [&str; 2] = [".readings", ".results"];

/// A change in words, and where the later revision has it.
type Change = (String, Spot);

fn top(old: &Node, new: &Node, out: &mut Vec<Change>) {
    let Data::Map(entries) = &old.data else {
        return;
    };
    for (key, value) in entries {
        let name = &*key.text;
        // A lot waits, is accepted, is held again: that is its way. One that was rejected does not come back by itself.
        let way = name == "incoming_status" && value.text() != Some("rejected");
        let own = intake::OF_REVISIONS.contains(&name) || name == "taken_from" || name == "source";
        if !own && !way && !PAPERS.contains(&name) {
            differ(name, value, new.get(name), new.spot, out);
        }
    }
}

/// What the later one says otherwise or no longer; what it adds takes nothing away.
fn differ(path: &str, old: &Node, new: Option<&Node>, within: Spot, out: &mut Vec<Change>) {
    let Some(new) = new else {
        let said = say!(
            "{path} was {old}, is left out",
            path = path,
            old = old.words()
        );
        out.push((said, within));
        return;
    };
    match (&old.data, &new.data) {
        (Data::Scalar(x, m), Data::Scalar(y, n)) if x == y && m == n => {}
        (Data::Map(entries), Data::Map(_)) => {
            for (key, value) in entries {
                let path = format!("{path}.{}", key.text);
                differ(&path, value, new.get(&key.text), new.spot, out);
            }
            for key in TAKES_AWAY {
                if let (None, Some(value)) = (old.get(key), new.get(key)) {
                    let said = say!(
                        "{path} is added: {new}",
                        path = format_args!("{path}.{key}"),
                        new = value.words()
                    );
                    out.push((said, value.spot));
                }
            }
        }
        (Data::List(olds), Data::List(news)) => {
            // Entries that are there unchanged are taken out first: one that is put before them moves them all.
            let mut left: Vec<&Node> = news.iter().collect();
            let mut changed = Vec::new();
            for (n, old) in olds.iter().enumerate() {
                match left.iter().position(|new| same(old, new)) {
                    Some(found) => {
                        left.remove(found);
                    }
                    None => changed.push((n, old)),
                }
            }
            let more = left.len().saturating_sub(changed.len());
            if more > 0 && OF_RESULTS.iter().any(|list| path.ends_with(list)) {
                let said = say!("{path} has {more} more", path = path, more = more);
                out.push((said, new.spot));
            }
            let mut left = left.into_iter();
            for (n, old) in changed {
                differ(&format!("{path}[{n}]"), old, left.next(), new.spot, out);
            }
        }
        _ => {
            let said = say!(
                "{path} was {old}, is {new}",
                path = path,
                old = old.words(),
                new = new.words()
            );
            out.push((said, new.spot));
        }
    }
}

fn same(old: &Node, new: &Node) -> bool {
    let mut changes = Vec::new();
    differ("", old, Some(new), new.spot, &mut changes);
    changes.is_empty()
}

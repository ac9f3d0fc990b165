//! R12: No module is in two assemblies or was pleated twice, and no assembly was built twice.

use crate::{
    ground::{
        finding::{Finding, Severity},
        place::Place,
    },
    rule::{Outcome, Rule, View},
};

/// No module is in two assemblies or was pleated twice, and no assembly was built twice.
pub static RULE: Rule = Rule {
    id: "R12",
    severity: Severity::Blocks,
    demands: "No module is in two assemblies or was pleated twice, and no assembly was built twice.",
    protects: "a module that was mistaken for another",
    explained: "Never: it is mended, or what it concerns is not released.",
    check,
};

fn finding(message: String) -> Finding {
    Finding::new("R12", Severity::Blocks, message)
}

fn check(view: &View) -> Outcome {
    let mut out = Outcome::of(say!("modules"));
    for id in view.plant.modules.keys() {
        out.look();
        let assemblies = view.plant.assemblies_of(id);
        if let [first, .., last] = assemblies[..] {
            let at = view.plant.build(last).map_or_else(
                || Place::whole("dossier.yaml"),
                |(record, build)| {
                    let spot = build
                        .modules
                        .iter()
                        .find(|position| position.module_id.text == *id)
                        .map_or(record.spot, |position| position.module_id.spot);
                    record.at(spot)
                },
            );
            out.find(
                finding(say!("{id} is in {assemblies}.", id = id, assemblies = assemblies.join(say!(" and in "))))
                    .advise(say!("One build record is wrong. Read the marks on both elements; both are blocked until then."))
                    .at(at)
                    .about(&**id)
                    .about(first)
                    .about(last),
            );
        }
    }
    for (id, assembly) in &view.plant.assemblies {
        if assembly.builds.len() > 1 {
            let builds = assembly
                .builds
                .iter()
                .map(|index| view.plant.record(*index));
            let last = builds.clone().next_back();
            let ids: Vec<&str> = builds.map(|record| &*record.id.text).collect();
            out.find(
                finding(say!(
                    "{id} has {count} build records: {ids}.",
                    id = id,
                    count = ids.len(),
                    ids = ids.join(", ")
                ))
                .advise(say!(
                    "An assembly is built once; what was corrected is a revision of one record."
                ))
                .at(last.map_or_else(|| Place::whole("dossier.yaml"), |record| record.place()))
                .about(&**id),
            );
        }
    }
    let mut pleated: std::collections::BTreeMap<&str, &str> = std::collections::BTreeMap::new();
    for (record, body) in view.plant.records().pleating_records() {
        for pack in &body.packs {
            let id = &*pack.module_id.text;
            if let Some(first) = pleated.insert(id, &record.id) {
                out.find(
                    finding(say!(
                        "{id} was pleated twice, in {first} and in {second}.",
                        id = id,
                        first = first,
                        second = &*record.id
                    ))
                    .advise(say!("One of both is another module: read the marks."))
                    .at(record.at(pack.module_id.spot))
                    .about(id),
                );
            }
        }
    }
    for (record, build) in view.plant.records().assembly_builds() {
        let mut places = std::collections::BTreeSet::new();
        let mut ids = std::collections::BTreeSet::new();
        for position in &build.modules {
            let twice = !ids.insert(&position.module_id.text);
            if twice || !places.insert(position.position.value) {
                let what = if twice {
                    say!("{module_id} stands twice", module_id = &*position.module_id)
                } else {
                    say!(
                        "position {position} stands twice",
                        position = position.position.value
                    )
                };
                out.find(
                    finding(say!(
                        "{assembly_id}: {what} in its build.",
                        assembly_id = &*build.assembly_id,
                        what = what
                    ))
                    .advise(say!(
                        "Read the marks on the element and correct the record."
                    ))
                    .at(record.at(position.spot))
                    .about(&*position.module_id.text)
                    .about(&*build.assembly_id.text),
                );
            }
        }
    }
    out
}

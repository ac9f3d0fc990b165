//! R08: No file in the folder is left unreferenced.

use crate::{
    commitment,
    ground::{
        finding::{Finding, Severity},
        place::Place,
    },
    record::folder,
    rule::{Outcome, Rule, View},
};

/// No file in the folder is left unreferenced.
pub static RULE: Rule = Rule {
    id: "R08",
    severity: Severity::Explain,
    demands: "No file in the folder is left unreferenced.",
    protects: "an unwanted result that lies beside the record",
    explained: "By a decided deviation that names the thing.",
    check,
};

fn finding(message: String) -> Finding {
    Finding::new("R08", Severity::Explain, message)
}

fn check(view: &View) -> Outcome {
    let mut out = Outcome::of(say!("files"));
    let mut named: std::collections::BTreeSet<&str> = std::collections::BTreeSet::new();
    for record in &view.plant.records().all {
        named.extend(
            folder::trace_files(record)
                .into_iter()
                .map(|file| &*file.file.text),
        );
        named.extend(
            folder::attachments(record)
                .into_iter()
                .map(|(file, ..)| file),
        );
    }
    for name in view
        .plant
        .folder
        .files
        .keys()
        .filter(|name| !folder::holds_records(name) && &***name != commitment::KEY_FILE)
    {
        out.look();
        let lower = name.to_ascii_lowercase();
        if [".yaml.txt", ".yml.txt", ".yaml~", ".yaml.bak"]
            .iter()
            .any(|ending| lower.ends_with(ending))
        {
            out.find(
                Finding {
                    severity: Severity::Blocks,
                    ..finding(say!("{name} is not read: its name does not end in .yaml.", name = name))
                }
                .advise(say!("Rename it if its records count; systems hide endings that they know. Take it out if it is an old one."))
                .at(Place::whole(name))
                .about(&**name),
            );
            continue;
        }
        if !named.contains(&**name) {
            out.find(
                finding(say!("{name} belongs to no record.", name = name))
                    .advise(say!("If it is a test, record it; if it is a trial, say so in a deviation. It is in the dossier either way."))
                    .at(Place::whole(name))
                    .about(&**name),
            );
        }
    }
    out
}

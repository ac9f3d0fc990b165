//! R05: Every trace is present and has the digest that the record states.

use crate::{
    ground::finding::{Finding, Severity},
    record::folder,
    rule::{Outcome, Rule, View},
};

/// Every trace is present and has the digest that the record states.
pub static RULE: Rule = Rule {
    id: "R05",
    severity: Severity::Blocks,
    demands: "Every trace is present and has the digest that the record states.",
    protects: "a trace that was edited, swapped or lost",
    explained: "Never: it is mended, or what it concerns is not released.",
    check,
};

fn finding(message: String) -> Finding {
    Finding::new("R05", Severity::Blocks, message)
}

fn check(view: &View) -> Outcome {
    let mut out = Outcome::of(say!("traces"));
    for record in view.plant.records().current() {
        for file in folder::trace_files(record) {
            out.look();
            let place = record.at(file.file.spot);
            let found = view.plant.folder.files.get(&*file.file.text);
            match found {
                None => out.find(match folder::named_otherwise(&view.plant.folder, &file.file, &file.sha256) {
                    Some((message, advice)) => finding(message).advise(advice),
                    None => finding(say!("{file} is not in the folder.", file = &*file.file))
                        .advise(say!("Fetch the original that {id} names from the instrument; release waits.", id = &*record.id)),
                }
                .at(place)
                .about(&*record.id.text)),
                Some(found) if !found.digest.to_string().eq_ignore_ascii_case(&file.sha256) => out
                    .find(
                    finding(say!("{file} has digest {digest}… but {id} says {stated}.", file = &*file.file, digest = found.digest.short(), id = &*record.id, stated = folder::stated(&found.digest, &file.sha256)))
                    .advise(folder::no_digest(&file.sha256).unwrap_or(
                        say!("Fetch the original from the instrument; do not edit the record to fit."),
                    ))
                    .at(place)
                    .about(&*record.id.text),
                ),
                Some(_) => {}
            }
        }
    }
    out
}

//! R09: Every attachment named is there with its digest.

use crate::{
    ground::finding::{Finding, Severity},
    record::folder,
    rule::{Outcome, Rule, View},
};

/// Every attachment named is there with its digest.
pub static RULE: Rule = Rule {
    id: "R09",
    severity: Severity::Blocks,
    demands: "Every attachment named is there with its digest.",
    protects: "a certificate that nobody can show, or that was swapped",
    explained: "By a decided deviation, for attachments that are neither certificate nor evidence of a claim.",
    check,
};

/// Endings of files that a browser opens as a page with scripts.
const RUN: [&str; 10] = [
    ".html", ".htm", ".xhtml", ".xht", ".svg", ".svgz", ".xml", ".mht", ".mhtml", ".js",
];

fn check(view: &View) -> Outcome {
    let mut out = Outcome::of(say!("attachments"));
    for record in view
        .plant
        .records()
        .current()
        .filter(|record| record.kind != "dossier")
    {
        for (file, stated, spot) in folder::attachments(record) {
            out.look();
            let found = view.plant.folder.files.get(file);
            let lower = file.to_ascii_lowercase();
            if RUN.iter().any(|ending| lower.ends_with(ending)) {
                out.find(
                    Finding::new(
                        "R09",
                        Severity::Blocks,
                        say!(
                            "{id}: {file} is a page that a browser would run, with whatever is in it.",
                            id = &*record.id,
                            file = file
                        ),
                    )
                    .advise(say!("Hand over a PDF, a picture or plain text."))
                    .at(record.at(spot))
                    .about(&*record.id.text),
                );
            }
            let issuer = say!("Ask whoever issued it for a copy; do not edit the record to fit.");
            let (message, advice) = match (found, stated) {
                (None, _) => {
                    match folder::named_otherwise(&view.plant.folder, file, stated.unwrap_or("")) {
                        Some(other) => other,
                        None => (
                            say!(
                                "{id}: {file} is not in the folder.",
                                id = &*record.id,
                                file = file
                            ),
                            issuer,
                        ),
                    }
                }
                (Some(found), Some(stated))
                    if !found.digest.to_string().eq_ignore_ascii_case(stated) =>
                {
                    let message = say!(
                        "{file} has digest {digest}… but {id} says {stated}.",
                        file = file,
                        digest = found.digest.short(),
                        id = &*record.id,
                        stated = folder::stated(&found.digest, stated)
                    );
                    (message, folder::no_digest(stated).unwrap_or(issuer))
                }
                (Some(found), None) => (
                    say!(
                        "{id}: {file} has no sha256 beside it, so that nobody sees when it changes; it is {digest} now.",
                        id = &*record.id,
                        file = file,
                        digest = found.digest.to_string()
                    ),
                    say!(
                        "Make sure that it is the right file, and write its sha256 in the record."
                    ),
                ),
                _ => continue,
            };
            let severity = match record.kind {
                "calibration_record" | "cycle_claim" => Severity::Blocks,
                _ => Severity::Explain,
            };
            out.find(
                Finding::new("R09", severity, message)
                    .advise(advice)
                    .at(record.at(spot))
                    .about(&*record.id.text),
            );
        }
    }
    out
}

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
            let message = match (found, stated) {
                (None, _) => say!(
                    "{id}: {file} is not in the folder.",
                    id = &*record.id,
                    file = file
                ),
                (Some(found), Some(stated))
                    if !found.digest.to_string().eq_ignore_ascii_case(stated) =>
                {
                    say!(
                        "{file} has digest {digest}… but {id} says {collect}….",
                        file = file,
                        digest = found.digest.short(),
                        id = &*record.id,
                        collect = stated.chars().take(12).collect::<String>()
                    )
                }
                _ => continue,
            };
            let severity = match record.kind {
                "calibration_record" | "cycle_claim" => Severity::Blocks,
                _ => Severity::Explain,
            };
            out.find(
                Finding::new("R09", severity, message)
                    .advise(say!(
                        "Ask whoever issued it for a copy; do not edit the record to fit."
                    ))
                    .at(record.at(spot))
                    .about(&*record.id.text),
            );
        }
    }
    out
}

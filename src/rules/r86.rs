//! R86: No claim of cycles exceeds what the data support.

use crate::{
    ground::finding::{Finding, Severity},
    rule::{Outcome, Rule, View},
};

/// No claim of cycles exceeds what the data support.
pub static RULE: Rule = Rule {
    id: "R86",
    severity: Severity::Blocks,
    demands: "No claim of cycles exceeds what the data support.",
    protects: "a claim beyond what was ever tested",
    explained: "Never: it is mended, or what it concerns is not released.",
    check,
};

fn finding(message: String) -> Finding {
    Finding::new(RULE.id, RULE.severity, message)
}

fn check(view: &View) -> Outcome {
    let mut out = Outcome::of("claims");
    for (record, claim) in view.plant.records().cycle_claims() {
        for one in &claim.claims {
            out.look();
            let mut report = |severity: Severity, message: String, advice: &str| {
                out.find(
                    Finding {
                        severity,
                        ..finding(format!("{}: {message}.", &*record.id))
                    }
                    .advise(advice)
                    .at(record.at(one.cycles_claimed.spot))
                    .about(&*record.id.text),
                );
            };
            if one.cycles_claimed.value > one.cycles_tested.value {
                report(
                    Severity::Blocks,
                    format!(
                        "{} {} cycles are claimed and {} were tested",
                        one.cycles_claimed.value,
                        one.treatment.replace('_', " "),
                        one.cycles_tested.value
                    ),
                    "Claim no more than was tested.",
                );
                continue;
            }
            let studies: Vec<_> = view
                .plant
                .records()
                .endurance_studys()
                .filter(|(_, study)| {
                    study.product_code.text == claim.product_code.text
                        && study.treatment.text == one.treatment.text
                })
                .collect();
            if studies.is_empty() {
                report(
                    Severity::Note,
                    format!(
                        "the claim of {} {} cycles rests on its report alone; no endurance_study is in this folder",
                        one.cycles_claimed.value,
                        one.treatment.replace('_', " ")
                    ),
                    "Add the study, so that its data can be judged here.",
                );
            }
            for (study, _) in studies {
                let Some(computed) = view.graph.get("cycles-supported", &study.id, "") else {
                    continue;
                };
                match &computed.worked {
                    Err(why) => report(
                        Severity::Blocks,
                        format!("{} supports no number of cycles: {why}", &*study.id),
                        "Complete the study, or take the claim back.",
                    ),
                    Ok(worked) if worked.quantity.value < one.cycles_claimed.value as f64 => {
                        report(
                            Severity::Blocks,
                            format!(
                                "{} {} cycles are claimed, {} supports {}",
                                one.cycles_claimed.value,
                                one.treatment.replace('_', " "),
                                &*study.id,
                                computed.shown()
                            ),
                            "Claim no more than the data support, or test more elements for longer.",
                        )
                    }
                    Ok(_) => {}
                }
            }
        }
    }
    out
}

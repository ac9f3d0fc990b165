//! R74: Time in service lies within the age limit of the claim.

use crate::record::kinds::Body;
use crate::{
    ground::finding::{Finding, Severity},
    rule::{Outcome, Rule, View},
};

/// Time in service lies within the age limit of the claim.
pub static RULE: Rule = Rule {
    id: "R74",
    severity: Severity::Blocks,
    demands: "Time in service lies within the age limit of the claim.",
    protects: "an element that is older than anything that was tested",
    explained: "Never: it is mended, or what it concerns is not released.",
    check,
};

fn finding(message: String) -> Finding {
    Finding::new(RULE.id, RULE.severity, message)
}

fn check(view: &View) -> Outcome {
    let mut out = Outcome::of(say!("installed elements"));
    let Some(today) = view.compiled_on() else {
        return out;
    };
    for (record, log) in view.plant.records().cycle_logs() {
        let Some(Body::CycleClaim(claim)) = view
            .plant
            .records()
            .revision("cycle_claim", &log.claim.id, log.claim.revision.value)
            .or_else(|| view.plant.records().find("cycle_claim", &log.claim.id))
            .map(|claim| &claim.body)
        else {
            continue;
        };
        let Some(limit) = &claim.age_limit_in_service else {
            continue;
        };
        out.look();
        let end = log
            .removed_at
            .as_ref()
            .map_or(today, |removed| removed.time.date());
        let days = f64::from(end.days_since(log.installed_at.time.date()));
        if days * 86_400.0 > limit.si {
            out.find(
                finding(say!(
                    "{assembly_id}: in service since {time}, limit {limit}, {days} days.",
                    assembly_id = &*log.assembly_id,
                    time = log.installed_at.time.date(),
                    limit = limit.text,
                    days = days
                ))
                .advise(say!("Take it out of service, whatever the cycle count."))
                .at(record.at(log.installed_at.spot))
                .about(&*log.assembly_id.text),
            );
        }
    }
    out
}

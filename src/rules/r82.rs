//! R82: No strip outside its width went into a module.

use crate::{
    ground::finding::{Finding, Severity},
    rule::{Outcome, Rule, View},
};
use crate::{record::kinds::Body, verdict::Verdict};

/// No strip outside its width went into a module.
pub static RULE: Rule = Rule {
    id: "R82",
    severity: Severity::Blocks,
    demands: "No strip outside its width went into a module.",
    protects: "a module whose membrane does not fit",
    explained: "Never: it is mended, or what it concerns is not released.",
    check,
};

fn finding(message: String) -> Finding {
    Finding::new(RULE.id, RULE.severity, message)
}

fn check(view: &View) -> Outcome {
    let mut out = Outcome::of(say!("slit coils"));
    for computed in view.graph.all("slit-width-deviation") {
        let record = view.plant.record(computed.subject.record);
        let Body::SlittingRecord(coil) = &record.body else {
            continue;
        };
        out.look();
        // Without an uncertainty there is no verdict, which is the business of rule R44.
        let open = computed.judgement.is_some() && computed.verdict() == Verdict::NotEvaluated;
        if computed.verdict() == Verdict::Conforms || open {
            continue;
        }
        let used: Vec<&str> = view
            .plant
            .modules_of_roll(&coil.material_lot)
            .filter(|(_, pack)| match (&pack.coil_id, &coil.coil_id) {
                (Some(used), Some(own)) => used.text == own.text,
                // Which coil a pack was cut from is not stated: any of the roll.
                _ => true,
            })
            .map(|(module, _)| module)
            .collect();
        let severity = match used.iter().any(|module| view.in_release(module)) {
            true => Severity::Blocks,
            false => Severity::Explain,
        };
        let words = match used.len() {
            0 => say!("no module was cut from it").to_owned(),
            n => say!(
                "{n} modules were cut from it: {used}",
                n = n,
                used = used.join(", ")
            ),
        };
        let mut found = Finding {
            severity,
            ..finding(format!(
                "{}: {}; {words}.",
                &*record.id,
                View::phrase(computed)
            ))
        }
        .advise(say!(
            "Stop what contains it; measure the strips, and look at blades and guides."
        ))
        .at(record.place())
        .about(&*record.id.text)
        .about(&*coil.material_lot.text);
        for module in used {
            found = found.about(module);
        }
        out.find(found);
    }
    out
}

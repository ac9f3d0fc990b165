//! `review --affected-by`: where everything is that has to do with one thing.

use std::path::Path;

use serde_json::{Value, json};

use super::{FINE, STOPPED, UNUSABLE, Voice, complain, print, unusable};
use crate::{
    dossier::Dossier,
    ground::{
        name::nearest,
        number,
        time::{Date, parse_date},
    },
    page::affected::asked,
    plant::recall::{self, Period, Recall, Whereabouts},
};

/// Exit code 0 when the totals agree, 1 when they do not, 2 when nobody knows the id.
pub(super) fn run(
    folder: &Path,
    id: &str,
    (from, to): (Option<&str>, Option<&str>),
    as_json: bool,
    voice: &Voice,
) -> u8 {
    let day = |text: Option<&str>| -> Result<Option<Date>, String> {
        text.map(|text| parse_date(text).map_err(|why| format!("\"{text}\" {why}")))
            .transpose()
    };
    let period = match (day(from), day(to)) {
        (Ok(from), Ok(to)) if from.zip(to).is_some_and(|(from, to)| from > to) => {
            complain(say!("--from lies after --to"), say!("Turn them round."));
            return UNUSABLE;
        }
        (Ok(from), Ok(to)) => Period { from, to },
        (Err(why), _) | (_, Err(why)) => {
            complain(&why, say!("Write a day as 2026-03-20."));
            return UNUSABLE;
        }
    };
    let dossier = match voice.watched(|| Dossier::build(folder)) {
        Ok(dossier) => dossier,
        Err(why) => return unusable(&why),
    };
    let Some(found) = recall::recall(&dossier.plant, id, period) else {
        let known = asked(&dossier);
        let near = nearest(id, known.iter().map(|asked| &*asked.id));
        let hint = near.map_or(String::new(), |near| {
            say!(" (did you mean {near}?)", near = near)
        });
        complain(
            &say!(
                "no record of this folder knows {id}{hint}",
                id = id,
                hint = hint
            ),
            say!(
                "Name a roll, a lot, a supplier lot, a material lot, a run of seals, an instrument, a person, a customer, an element, or a record that names elements."
            ),
        );
        return UNUSABLE;
    };
    match as_json {
        true => print(&serde_json::to_string_pretty(&report(&found, period)).unwrap_or_default()),
        false => voice.say(&words(&found, period)),
    }
    match found.disagreements.is_empty() {
        true => FINE,
        false => STOPPED,
    }
}

fn words(found: &Recall, period: Period) -> String {
    let mut out = format!("{}: {}", found.about, found.what);
    let when = period.words();
    if !when.is_empty() {
        out += &say!(", records {when}", when = when);
    }
    out += "\n\n";
    for assembly in &found.assemblies {
        out += &say!(
            "assembly  {id}  {state}; {because}",
            id = assembly.id,
            state = assembly.state.words(),
            because = assembly.because
        );
        if let Some(site) = &assembly.in_service {
            out += &say!("; in service at {site}", site = site);
        }
        out += "\n";
    }
    for module in &found.modules {
        let metres = module.metres.map_or(String::new(), |metres| {
            format!("  {} m", number::fixed(metres, 1))
        });
        let place = match &module.assembly {
            Some(assembly) => say!(
                "in {assembly}, {state}",
                assembly = assembly,
                state = module.state.word()
            ),
            None => module.state.words(),
        };
        out += &say!(
            "module    {id}{metres}  {place}; by {because}\n",
            id = module.id,
            metres = metres,
            place = place,
            because = module.because
        );
    }
    let (modules, assemblies) = found.totals();
    let list = |all: &std::collections::BTreeMap<String, usize>| {
        let parts: Vec<String> = all
            .iter()
            .map(|(place, n)| format!("{n} {place}"))
            .collect();
        parts.join(", ")
    };
    let count = |n: usize,
                 one: &str,
                 many: &str,
                 all: &std::collections::BTreeMap<String, usize>| match n {
        0 => say!("No {one}.\n", one = one),
        1 => format!("1 {one}: {}.\n", list(all)),
        n => format!("{n} {many}: {}.\n", list(all)),
    };
    out += "\n";
    out += &count(
        found.assemblies.len(),
        say!("assembly"),
        say!("assemblies"),
        &assemblies,
    );
    out += &count(
        found.modules.len(),
        say!("module"),
        say!("modules"),
        &modules,
    );
    if let Some(metres) = found.metres {
        out += &format!("{}\n", metres.words());
    }
    let told: Vec<String> = found.told().iter().map(|to| to.words()).collect();
    out += &match told.is_empty() {
        true => format!("{}\n", found.nobody_told()),
        false => say!("To be told: {told}.\n", told = told.join("; ")),
    };
    out += &match found.disagreements.is_empty() {
        true => say!("The totals agree.").to_owned(),
        false => say!(
            "The totals do not agree: {disagreements}.",
            disagreements = found.disagreements.join("; ")
        ),
    };
    out
}

fn state(state: &Whereabouts) -> Value {
    match state {
        Whereabouts::Consigned(to) => {
            json!({"state": "consigned", "customer_id": to.customer, "customer": to.name, "dispatch_note": to.dispatch_note, "release": to.release})
        }
        Whereabouts::Kept(word, deviation) => json!({"state": word, "deviation": deviation}),
        other => json!({"state": other.word()}),
    }
}

fn report(found: &Recall, period: Period) -> Value {
    let modules: Vec<Value> = found
        .modules
        .iter()
        .map(|module| json!({"id": module.id, "by": module.because, "metres": module.metres, "assembly": module.assembly, "where": state(&module.state)}))
        .collect();
    let assemblies: Vec<Value> = found
        .assemblies
        .iter()
        .map(|assembly| json!({"id": assembly.id, "by": assembly.because, "in_service": assembly.in_service, "where": state(&assembly.state)}))
        .collect();
    let (of_modules, of_assemblies) = found.totals();
    json!({
        "format": 1,
        "about": found.about,
        "what": found.what,
        "from": period.from.map(|day| day.written()),
        "to": period.to.map(|day| day.written()),
        "modules": modules,
        "assemblies": assemblies,
        "totals": {"modules": of_modules, "assemblies": of_assemblies},
        "metres": found.metres.map(|metres| json!({"received": metres.received, "in_modules": metres.cut, "trimmed": metres.trimmed, "left": metres.left})),
        "to_be_told": found.told().iter().map(|to| to.words()).collect::<Vec<_>>(),
        "totals_agree": found.disagreements.is_empty(),
        "disagreements": found.disagreements,
    })
}

//! `compare`: what changed from one dossier to a later one.

use std::path::Path;

use serde_json::{Value, json};

use super::{FINE, STOPPED, UNUSABLE, Voice, complain, print, unusable};
use crate::{
    changes::{Changes, Difference, State, Succession},
    dossier::Dossier,
    seal, site,
};

/// How many of a long list the terminal shows.
const SHOWN: usize = 20;

pub(super) fn run(old: &Path, new: &Path, as_json: bool, voice: &Voice) -> u8 {
    // The later one first: the run speaks its language.
    let (later, new) = match read(new, true) {
        Ok(read) => read,
        Err(code) => return code,
    };
    let (_, old) = match read(old, false) {
        Ok(read) => read,
        Err(code) => return code,
    };
    // A copy beside itself is no later revision of itself.
    let itself = old.digest.is_some() && old.digest == new.digest;
    if let Some(digest) = old.digest.as_ref().filter(|_| itself && !as_json) {
        voice.say(&say!(
            "Both are one dossier, sha256:{digest}: nothing differs.",
            digest = digest
        ));
        return FINE;
    }
    let succession = Succession::of(&later.plant, &old);
    let found = Changes::between(&old, &new);
    match as_json {
        true => print(
            &serde_json::to_string_pretty(&report(&old, &new, succession, &found))
                .unwrap_or_default(),
        ),
        false => tell(&old, &new, succession, &found, voice),
    }
    let another = succession == Succession::Another && !itself;
    let doubtful = another || !found.altered.is_empty();
    if doubtful { STOPPED } else { FINE }
}

/// A compiled dossier, which must be whole, or a folder of records.
fn read(folder: &Path, speak: bool) -> Result<(Dossier, State), u8> {
    if !folder.join("bagit.txt").is_file() {
        let dossier = match speak {
            true => Dossier::build(folder),
            false => Dossier::silently(folder),
        }
        .map_err(|why| unusable(&why))?;
        let state = dossier.state(None);
        return Ok((dossier, state));
    }
    let (dossier, digest) = compiled(folder, speak).map_err(|(message, advice)| {
        complain(&message, &advice);
        UNUSABLE
    })?;
    let state = dossier.state(Some(digest));
    Ok((dossier, state))
}

/// The dossier of a compiled copy, computed again from its records, and its digest.
///
/// # Errors
/// Message and advice, when it is no compiled dossier or not whole.
pub(super) fn compiled(folder: &Path, speak: bool) -> Result<(Dossier, String), (String, String)> {
    let shown = folder.display();
    let not_compiled = || {
        (
            say!("{shown} is no compiled dossier", shown = shown),
            say!("Name a folder that holds START-HERE.html.").to_owned(),
        )
    };
    let whole = seal::whole(folder).map_err(|_| not_compiled())?;
    let digest = whole.digest.ok_or_else(not_compiled)?;
    if !whole.holds() {
        let first = whole
            .differences
            .iter()
            .find(|difference| difference.counts())
            .map_or(String::new(), seal::Difference::words);
        return Err((
            say!(
                "{shown} is not whole ({first})",
                shown = shown,
                first = first
            ),
            say!("`sealfolio verify` says what differs; take a whole copy.").into(),
        ));
    }
    let dossier = site::records(folder, speak)
        .map_err(|why| (format!("{shown}: {why}"), say!("Take a whole copy.").into()))?;
    Ok((dossier, digest.to_string()))
}

fn tell(old: &State, new: &State, succession: Succession, found: &Changes, voice: &Voice) {
    voice.say(&say!(
        "From {old} revision {revision} to {new} revision {revision2}.",
        old = old.id,
        revision = old.revision,
        new = new.id,
        revision2 = new.revision
    ));
    voice.say(succession.said());
    match found.verdicts.is_empty() {
        true => voice.say(say!("Verdicts changed: none.")),
        false => voice.say(&say!("Verdicts changed: {n}.", n = found.verdicts.len())),
    }
    for one in &found.verdicts {
        voice.say(&format!(
            "  {}: {} -> {}",
            one.id,
            say!(&one.before),
            say!(&one.after)
        ));
    }
    match found.altered.is_empty() {
        true => voice.say(say!("Records altered under the same revision: none.")),
        false => voice.say(&say!(
            "Records altered under the same revision: {all}.",
            all = found.altered.join(", ")
        )),
    }
    for (name, difference) in [
        (say!("Released assemblies"), &found.released),
        (say!("Signatures named in statements"), &found.signed),
        (say!("Records by revision"), &found.records),
        (say!("Figures and their limits"), &found.figures),
        (
            say!("Traces, attachments and chapters, by digest"),
            &found.files,
        ),
    ] {
        lines(name, difference, voice);
    }
    let (came, went) = (&found.findings.0, &found.findings.1);
    voice.say(&say!(
        "Findings: {came} came, {went} went.",
        came = came.len(),
        went = went.len()
    ));
    for (sign, all) in [("+", came), ("-", went)] {
        for one in all.iter().take(SHOWN) {
            voice.say(&format!("  {sign} {} {}", one.rule, one.message));
        }
        more(all.len(), voice);
    }
}

fn lines(name: &str, difference: &Difference, voice: &Voice) {
    let (came, went, moved) = (&difference.came, &difference.went, &difference.moved);
    if difference.none() {
        return voice.say(&format!("{name}: {}.", say!("nothing changed")));
    }
    voice.say(&say!(
        "{name}: {came} came, {went} went, {moved} became another.",
        name = name,
        came = came.len(),
        went = went.len(),
        moved = moved.len()
    ));
    for (sign, all) in [("+", came), ("-", went)] {
        for one in all.iter().take(SHOWN) {
            voice.say(&format!("  {sign} {one}"));
        }
        more(all.len(), voice);
    }
    for one in moved.iter().take(SHOWN) {
        voice.say(&format!("  {}: {} -> {}", one.id, one.before, one.after));
    }
    more(moved.len(), voice);
}

fn more(n: usize, voice: &Voice) {
    if n > SHOWN {
        voice.say(&say!("  and {n} more; --json lists all", n = n - SHOWN));
    }
}

fn report(old: &State, new: &State, succession: Succession, found: &Changes) -> Value {
    let difference = |difference: &Difference| {
        let moved = difference.moved.iter();
        let moved: Vec<Value> = moved
            .map(|one| json!({"id": one.id, "before": one.before, "after": one.after}))
            .collect();
        json!({"came": difference.came, "went": difference.went, "became_another": moved})
    };
    let verdicts: Vec<Value> = found
        .verdicts
        .iter()
        .map(|one| json!({"figure": one.id, "before": one.before, "after": one.after}))
        .collect();
    let side = |state: &State| json!({"dossier": state.id, "revision": state.revision, "sha256": state.digest});
    json!({
        "format": 1,
        "from": side(old),
        "to": side(new),
        "succession": succession.words(),
        "verdicts": verdicts,
        "altered_under_the_same_revision": found.altered,
        "released": difference(&found.released),
        "signatures": difference(&found.signed),
        "records": difference(&found.records),
        "figures": difference(&found.figures),
        "files": difference(&found.files),
        "findings": {"came": found.findings.0, "went": found.findings.1},
    })
}

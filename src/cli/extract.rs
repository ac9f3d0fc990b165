//! `extract`: a customer's copy of some lots.

use std::{
    collections::{BTreeMap, BTreeSet},
    path::Path,
};

use serde_json::json;

use super::{
    FINE, STOPPED, UNUSABLE, Voice, approve, compile::no_target, complain, print, stopped,
    unreadable,
};
use crate::{
    approval::{self, Meaning, Statement},
    commitment,
    dossier::Dossier,
    extract::{self, Asked, Beyond, Chosen, Copy},
    ground::{
        finding::{Finding, Severity},
        words::{self, Language},
    },
    record::folder::Folder,
    site,
};

/// So many records that name other lots are listed before the rest is only counted.
const SHOWN: usize = 20;

pub(super) fn run(
    (folder, into): (&Path, &Path),
    asked: &Asked,
    language: Option<&str>,
    as_json: bool,
    voice: &Voice,
) -> u8 {
    if let Some((message, advice)) = no_target(into, folder) {
        complain(&message, &advice);
        return UNUSABLE;
    }
    let language = match language
        .map(|code| Language::coded(code).ok_or(code))
        .transpose()
    {
        Ok(language) => language,
        Err(code) => {
            complain(
                &say!("there is no language {code} here", code = code),
                say!("Choose one of en, it, fr, de, es, pt."),
            );
            return UNUSABLE;
        }
    };
    let (whole, digest) = match approve::sound(folder) {
        Ok(sound) => sound,
        Err((code, (message, advice))) => {
            complain(&message, &advice);
            return code;
        }
    };
    let sealed = format!("sha256:{digest}");
    let (signed, strangers) = match approve::check(folder, &sealed, None, Some((&whole, true))) {
        Ok(signed) => signed,
        Err(error) => return unreadable(folder, &error),
    };
    if let Some((message, advice)) = unfit(&whole, &signed, &strangers) {
        complain(&message, &advice);
        return STOPPED;
    }
    // What rules say is compared in the language of the copy.
    let spoken = language.filter(|language| *language != words::spoken());
    let whole = match spoken {
        None => whole,
        Some(language) => {
            words::speak(language);
            match voice.watched(|| site::records(folder, false)) {
                Ok(again) => again,
                Err(why) => {
                    complain(&why, say!("Take a whole copy."));
                    return UNUSABLE;
                }
            }
        }
    };
    let (copied, chosen) = match made(&whole, folder, asked) {
        Ok(made) => made,
        Err((code, (message, advice))) => {
            complain(&message, &advice);
            return code;
        }
    };
    let compiled = match voice.watched(|| site::write(&copied, into)) {
        Ok(compiled) => compiled,
        Err(trouble) => return stopped(&trouble),
    };
    let (shown, sealed) = Copy::totals(&chosen.proof);
    if as_json {
        let report = json!({"format": 1, "into": into.display().to_string(), "digest": format!("sha256:{}", compiled.bag.digest), "of": format!("sha256:{digest}"),
            "root": format!("sha256:{}", copied.root()), "lots": chosen.proof.lots, "customer": chosen.proof.customer, "signed_by": signed.len(),
            "pieces_shown": shown, "pieces_sealed": sealed, "groups_withheld": chosen.proof.withheld.len(),
            "names_other_lots": chosen.shared, "own_key": commitment::has_key(&whole.plant.folder)});
        print(&serde_json::to_string_pretty(&report).unwrap_or_default());
        return FINE;
    }
    voice.say(&say!(
        "Lots {lots}: pieces shown {shown}, sealed {sealed}; groups withheld {groups}.",
        lots = chosen.proof.lots.join(", "),
        shown = shown,
        sealed = sealed,
        groups = chosen.proof.withheld.len()
    ));
    if signed.is_empty() {
        voice.say(say!("Nobody has signed the dossier yet: the copy proves what it is a copy of, and not who stands for that."));
    }
    if !chosen.shared.is_empty() {
        voice.say(say!("These records are shown whole and name other lots too; read them before you hand the copy over:"));
        for (id, lots) in chosen.shared.iter().take(SHOWN) {
            let lots: Vec<&str> = lots.iter().map(|lot| &**lot).collect();
            voice.say(&format!("  {id}: {}", lots.join(", ")));
        }
        if chosen.shared.len() > SHOWN {
            voice.say(&say!(
                "  and {differences} more",
                differences = chosen.shared.len() - SHOWN
            ));
        }
    }
    if !commitment::has_key(&whole.plant.folder) {
        voice.say(&say!("The dossier's folder had no {file}, so its salts stand on its records: whoever has nearly all of them could try out the rest. `sealfolio new` writes such a file.", file = commitment::KEY_FILE));
    }
    voice.say(&say!(
        "Digest of the copy: sha256:{digest}",
        digest = compiled.bag.digest
    ));
    voice.say(&say!(
        "Open {html}",
        html = into.join("START-HERE.html").display()
    ));
    FINE
}

/// Why no copy is taken of a dossier.
fn unfit(
    whole: &Dossier,
    signed: &[approval::Found],
    strangers: &[String],
) -> Option<(String, String)> {
    if whole.copy.is_some() {
        return Some((
            say!("this is a customer's copy itself").into(),
            say!("Take the copy from the dossier that the maker signed.").into(),
        ));
    }
    if whole.count(Severity::Blocks) > 0 {
        return Some((
            say!("this dossier is a draft: findings block its release").into(),
            say!("Customers get copies of what is released; clear the findings, or hold what they are about and leave it out.").into(),
        ));
    }
    if let Some(stranger) = strangers.first() {
        return Some((
            say!(
                "{folder}/{file} belongs to no statement",
                folder = approval::FOLDER,
                file = stranger
            ),
            say!("Take it out: a copy takes along what is signed, and nothing else.").into(),
        ));
    }
    let bad = signed.iter().find(|found| !found.flaws.is_empty())?;
    Some((
        say!(
            "{file} does not hold: {flaw}",
            file = bad.file,
            flaw = bad.flaws.join("; ")
        ),
        say!("A copy is not taken of a dossier whose signatures do not hold.").into(),
    ))
}

/// What is taken along, without the statements of those who received the whole dossier: who else has it is not for every customer
/// to read. Only the last ones can be left out, since each statement names the one before it.
fn without_receipts(mut parent: BTreeMap<String, Vec<u8>>) -> BTreeMap<String, Vec<u8>> {
    let prefix = format!("{}/", approval::FOLDER);
    loop {
        let last = parent
            .iter()
            .rfind(|(path, _)| path.starts_with(&prefix) && path.ends_with(".json"));
        let receipt = last.filter(|(_, bytes)| {
            serde_json::from_slice::<Statement>(bytes)
                .is_ok_and(|statement| statement.meaning == Meaning::Received)
        });
        let Some(path) = receipt.map(|(path, _)| path.clone()) else {
            return parent;
        };
        parent.retain(|own, _| !own.starts_with(&path));
    }
}

/// The copy as a dossier, checked against the whole one.
fn made(
    whole: &Dossier,
    folder: &Path,
    asked: &Asked,
) -> Result<(Dossier, Chosen), (u8, (String, String))> {
    let mut chosen = extract::choose(&whole.plant, asked).map_err(|why| (UNUSABLE, why))?;
    let parent = site::parent(folder).map_err(|error| {
        (
            UNUSABLE,
            (
                say!(
                    "{folder} cannot be read: {error}",
                    folder = folder.display(),
                    error = error
                ),
                say!("Look at rights and at the medium.").to_owned(),
            ),
        )
    })?;
    let parent = without_receipts(parent);
    let files = chosen.files.clone();
    let alone = Dossier::of(Folder::of(files, Vec::new()));
    chosen.proof.beyond = beyond(whole, &alone);
    let copied = alone.copied(Copy {
        proof: chosen.proof.clone(),
        parent,
    });
    if let Some(flaw) = copied
        .findings()
        .into_iter()
        .find(|finding| finding.severity == Severity::Blocks)
    {
        let message = say!("the copy would not hold: {flaw}", flaw = flaw.message);
        let advice = say!("This is a fault of the program or of the records; nothing was written.");
        return Err((STOPPED, (message, advice.into())));
    }
    // A figure that stands on what is withheld would say something else here than in the signed dossier.
    for (id, own) in &copied.graph.computed {
        let same =
            whole.graph.computed.get(id).is_some_and(|there| {
                there.shown() == own.shown() && there.verdict() == own.verdict()
            });
        if !same {
            let message = say!(
                "the figure {id} comes out otherwise from this part of the records",
                id = id
            );
            let advice = say!("It stands on records of other lots; ask for these lots too.");
            return Err((STOPPED, (message, advice.into())));
        }
    }
    Ok((copied, chosen))
}

/// What rules find in the part and do not find in the whole.
fn beyond(whole: &Dossier, alone: &Dossier) -> Vec<Beyond> {
    let key = |finding: &&Finding| Beyond {
        rule: finding.rule.into(),
        message: finding.message.clone(),
    };
    let there: BTreeSet<Beyond> = whole.findings().iter().map(key).collect();
    let here: BTreeSet<Beyond> = alone.findings().iter().map(key).collect();
    here.difference(&there).cloned().collect()
}

//! `verify`: is a copy whole, and does everything in it come out again.

use std::path::Path;

use serde_json::json;

use super::{FINE, STOPPED, UNUSABLE, Voice, complain, print};
use crate::{seal, site};

/// So many differences are printed before the rest is only counted.
const SHOWN: usize = 200;

pub(super) fn run(folder: &Path, as_json: bool, voice: &Voice) -> u8 {
    if !folder.is_dir() {
        complain(
            &format!("{} is not a folder", folder.display()),
            "Name the folder that holds START-HERE.html.",
        );
        return UNUSABLE;
    }
    let marks = ["bagit.txt", seal::MANIFEST, seal::TAG_MANIFEST];
    if marks.iter().all(|mark| !folder.join(mark).exists()) {
        complain(
            &format!(
                "{} is no compiled dossier: it has none of {}",
                folder.display(),
                marks.join(", ")
            ),
            "Name the folder that holds START-HERE.html; `sealfolio review` looks at a folder of records.",
        );
        return UNUSABLE;
    }
    let whole = match seal::whole(folder) {
        Ok(whole) => whole,
        Err(error) => {
            complain(
                &format!("{} cannot be read: {error}", folder.display()),
                "Look at rights and at the medium.",
            );
            return UNUSABLE;
        }
    };
    let recomputed = if whole.holds() {
        Some(site::recompute(folder))
    } else {
        None
    };
    let standing = (!whole.holds()).then(|| {
        let damaged: Vec<&str> = whole
            .differences
            .iter()
            .filter(|difference| difference.counts())
            .map(seal::Difference::path)
            .collect();
        site::standing(folder, &damaged)
    });
    let good = whole.holds() && matches!(&recomputed, Some(Ok((_, wrong))) if wrong.is_empty());
    let digest = whole.digest.map(|digest| format!("sha256:{digest}"));
    if as_json {
        let recomputed = match &recomputed {
            None => match &standing {
                Some(Ok(standing)) => {
                    json!({"run": false, "because": "the copy is not whole", "figures_that_stand": standing.stand, "figures_that_do_not": standing.fall})
                }
                _ => json!({"run": false, "because": "the copy is not whole"}),
            },
            Some(Err(why)) => json!({"run": true, "holds": false, "because": why}),
            Some(Ok((figures, wrong))) => {
                json!({"run": true, "holds": wrong.is_empty(), "figures": figures, "files_that_differ": wrong})
            }
        };
        let report = json!({
            "format": 1, "digest": digest, "holds": good,
            "whole": {"run": true, "holds": whole.holds(), "files_as_listed": whole.good, "differences": whole.differences.iter().map(seal::Difference::words).collect::<Vec<_>>()},
            "recomputed": recomputed,
            "signed": {"run": false, "because": "this version does not check signatures"},
            "succession": {"run": false, "because": "this version does not compare with the superseded dossier"},
        });
        print(&serde_json::to_string_pretty(&report).unwrap_or_default());
    } else {
        for difference in whole.differences.iter().take(SHOWN) {
            voice.say(&format!("  {}", difference.words()));
        }
        if whole.differences.len() > SHOWN {
            voice.say(&format!("  and {} more", whole.differences.len() - SHOWN));
        }
        let counting = whole
            .differences
            .iter()
            .filter(|difference| difference.counts())
            .count();
        match counting {
            0 => voice.say(&format!(
                "whole:      holds. {} files are as listed, nothing is missing, nothing was added.",
                whole.good
            )),
            n => voice.say(&format!(
                "whole:      does not hold. {} files are as listed, {n} difference{}.",
                whole.good,
                if n == 1 { "" } else { "s" }
            )),
        }
        match &recomputed {
            None => {
                voice.say("recomputed: not run as a whole, because the copy is not whole.");
                voice.say(&still(standing.as_ref()));
            }
            Some(Err(why)) => voice.say(&format!("recomputed: does not hold: {why}.")),
            Some(Ok((figures, wrong))) if wrong.is_empty() => voice.say(&format!("recomputed: holds. {figures} figures and every page come out again from the sealed records, byte for byte.")),
            Some(Ok((_, wrong))) => {
                wrong.iter().take(SHOWN).for_each(|path| voice.say(&format!("  comes out differently: {path}")));
                voice.say(&format!("recomputed: does not hold. {} files come out differently with this program ({}).", wrong.len(), env!("CARGO_PKG_VERSION")));
            }
        }
        voice.say("signed:     not run; this version does not check signatures.");
        voice
            .say("succession: not run; this version does not compare with the superseded dossier.");
        if let Some(digest) = digest {
            voice.say(&format!("Compare this digest with the one on signed paper; nothing else shows who issued the copy:\n{digest}"));
        }
    }
    if good { FINE } else { STOPPED }
}

/// Which conclusions of a damaged copy still stand: facts, no motives.
fn still(standing: Option<&Result<site::Standing, String>>) -> String {
    match standing {
        None => String::new(),
        Some(Err(why)) => format!("still holds: cannot be said, because {why}."),
        Some(Ok(standing)) if standing.fall.is_empty() => format!(
            "still holds: every record is whole, and all {} figures come out again as they were printed.",
            standing.stand
        ),
        Some(Ok(standing)) => {
            let named: Vec<&str> = standing.fall.iter().take(12).map(|id| &**id).collect();
            let more = standing.fall.len() - named.len();
            let rest = if more > 0 {
                format!(" and {more} more")
            } else {
                String::new()
            };
            format!(
                "still holds: {} figures stand on whole files alone and come out again as they were printed. {} do not: {}{rest}.",
                standing.stand,
                standing.fall.len(),
                named.join(", ")
            )
        }
    }
}

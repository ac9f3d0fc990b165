//! `verify`: is a copy whole, and does everything in it come out again.

use std::{collections::BTreeMap, path::Path};

use serde_json::{Value, json};

use super::{
    FINE, STOPPED, UNUSABLE, Voice,
    approve::{check, check_makers, due},
    complain, print, unreadable,
};
use crate::{
    approval::{Found, Meaning, Signers, Statement},
    changes::Succession,
    dossier::Dossier,
    extract::Copy,
    ground::{finding::Severity, seen::printable, time::Time},
    seal, site,
};

/// So many differences are printed before the rest is only counted.
const SHOWN: usize = 200;

/// What a reader asks for.
pub(super) struct Asked<'a> {
    /// A file of the signers that the reader knows.
    pub allowed_signers: Option<&'a Path>,
    /// Whether every expected statement must be there, each by a known key.
    pub all_signed: bool,
    /// Whether bytes and signatures are checked and nothing is computed again.
    pub bytes: bool,
}

pub(super) fn run(folder: &Path, asked: &Asked, as_json: bool, voice: &Voice) -> u8 {
    let bytes_alone = asked.bytes;
    let signers = match asked.allowed_signers.map(known).transpose() {
        Ok(signers) => signers,
        Err((message, advice)) => {
            complain(&message, &advice);
            return UNUSABLE;
        }
    };
    if !folder.is_dir() {
        complain(
            &say!("{folder} is not a folder", folder = folder.display()),
            say!("Name the folder that holds START-HERE.html."),
        );
        return UNUSABLE;
    }
    if !seal::is_bag(folder) {
        complain(
            &say!(
                "{folder} is no compiled dossier: it has no bagit.txt and no manifest",
                folder = folder.display()
            ),
            say!(
                "Name the folder that holds START-HERE.html; `sealfolio review` looks at a folder of records."
            ),
        );
        return UNUSABLE;
    }
    let whole = match voice.watched(|| seal::whole(folder)) {
        Ok(whole) => whole,
        Err(error) => return unreadable(folder, &error),
    };
    if whole.dossier {
        site::speak_language_of(folder);
    }
    // Another's bag has nothing that could be computed again.
    let recomputed = (whole.holds() && whole.dossier && !bytes_alone)
        .then(|| voice.watched(|| site::recompute(folder)));
    let standing = (!whole.holds() && whole.dossier).then(|| {
        let damaged: Vec<&str> = whole
            .differences
            .iter()
            .filter(|difference| difference.counts())
            .map(seal::Difference::path)
            .collect();
        site::standing(folder, &damaged)
    });
    let computed = match &recomputed {
        Some(Ok(again)) => again.wrong.is_empty(),
        Some(Err(_)) => false,
        None => !whole.dossier || bytes_alone,
    };
    let good = whole.holds() && computed;
    let digest = whole
        .digest
        .map(|digest| format!("sha256:{digest}", digest = digest));
    let dossier = match &recomputed {
        Some(Ok(again)) => Some(&again.dossier),
        _ => None,
    };
    let alike = matches!(&recomputed, Some(Ok(again)) if again.by_another.is_none());
    let signed = Signed::of(
        folder,
        digest.as_deref().unwrap_or_default(),
        signers.as_ref(),
        dossier.map(|dossier| (dossier, alike)),
    );
    let copied = dossier.and_then(|dossier| Copied::of(folder, dossier, signers.as_ref()));
    let good = good && signed.holds() && copied.as_ref().is_none_or(Copied::holds);
    let own = copied.as_ref().map_or(&signed, |copied| &copied.signed);
    // What is no dossier of this program says nothing of who must sign it.
    let good = good && (!asked.all_signed || whole.dossier && own.complete());
    let succession = dossier.and_then(|dossier| {
        let old = dossier.previous.as_ref()?;
        Some((Succession::of(&dossier.plant, old), old.digest.as_deref()))
    });
    if as_json {
        let recomputed = match &recomputed {
            None if whole.holds() && whole.dossier => {
                json!({"run": false, "because": "only bytes were asked for"})
            }
            None if !whole.dossier => {
                json!({"run": false, "because": "it is a bag, and no dossier of this program"})
            }
            None => match &standing {
                Some(Ok(standing)) => {
                    json!({"run": false, "because": "the copy is not whole", "figures_that_stand": standing.stand, "figures_that_do_not": standing.fall})
                }
                _ => json!({"run": false, "because": "the copy is not whole"}),
            },
            Some(Err(why)) => json!({"run": true, "holds": false, "because": why}),
            Some(Ok(again)) => {
                json!({"run": true, "holds": again.wrong.is_empty(), "figures": again.dossier.graph.computed.len(), "findings_that_block": again.dossier.count(Severity::Blocks), "compiled_by_another": again.by_another, "figures_of_changed_methods": again.otherwise,
                    if again.by_another.is_some() { "figures_that_differ" } else { "files_that_differ" }: again.wrong})
            }
        };
        let succession = match succession {
            Some((named, digest)) => json!({"run": true, "named": named.words(), "sha256": digest}),
            None => {
                json!({"run": false, "because": "the superseded dossier was not at hand when this was compiled"})
            }
        };
        let report = json!({
            "format": 1, "digest": digest, "holds": good,
            "whole": {"run": true, "holds": whole.holds(), "files_as_listed": whole.good, "differences": whole.differences.iter().map(seal::Difference::words).collect::<Vec<_>>()},
            "recomputed": recomputed,
            "signed": signed.report(),
            "succession": succession,
            "copy_of": copied.as_ref().map(Copied::report),
        });
        print(&serde_json::to_string_pretty(&report).unwrap_or_default());
    } else {
        for difference in whole.differences.iter().take(SHOWN) {
            voice.say(&format!("  {}", difference.words()));
        }
        if whole.differences.len() > SHOWN {
            voice.say(&say!(
                "  and {differences} more",
                differences = whole.differences.len() - SHOWN
            ));
        }
        let counting = whole
            .differences
            .iter()
            .filter(|difference| difference.counts())
            .count();
        match counting {
            0 => voice.say(&say!("whole:      holds. {good} files are as listed, nothing is missing, nothing was added.", good = whole.good)),
            1 => voice.say(&say!("whole:      does not hold. {good} files are as listed, 1 difference.", good = whole.good)),
            n => voice.say(&say!("whole:      does not hold. {good} files are as listed, {n} differences.", good = whole.good, n = n)),
        }
        match &recomputed {
            None if whole.holds() && whole.dossier => voice.say(say!("recomputed: not run; only the bytes were asked for.")),
            None if !whole.dossier => {
                voice.say(say!("recomputed: not run; this is a bag (RFC 8493), and no dossier of this program."));
                if asked.all_signed {
                    voice.say(say!("            Who must sign it stands nowhere in it: --all-signed does not hold."));
                }
            }
            None => {
                voice.say(say!("recomputed: not run as a whole, because the copy is not whole."));
                voice.say(&still(standing.as_ref()));
            }
            Some(Err(why)) => voice.say(&say!("recomputed: does not hold: {why}.", why = why)),
            Some(Ok(again)) if again.by_another.is_some() => by_another(again, voice),
            Some(Ok(again)) if again.wrong.is_empty() => voice.say(&say!("recomputed: holds. {figures} figures and every page come out again from the sealed records, byte for byte.", figures = again.dossier.graph.computed.len())),
            Some(Ok(again)) => {
                let wrong = &again.wrong;
                wrong.iter().take(SHOWN).for_each(|path| voice.say(&say!("  comes out differently: {path}", path = printable(path))));
                voice.say(&say!("recomputed: does not hold. {count} files come out differently with this program ({what}).", count = wrong.len(), what = env!("CARGO_PKG_VERSION")));
            }
        }
        if let Some(blocks) = dossier
            .map(|dossier| dossier.count(Severity::Blocks))
            .filter(|blocks| *blocks > 0)
            // The rules of an earlier version are not those of this one.
            .filter(|_| !matches!(&recomputed, Some(Ok(again)) if again.by_another.is_some()))
        {
            voice.say(&say!("draft:      findings of this dossier that block release: {blocks}; nothing of it is released.", blocks = blocks));
        }
        if !cfg!(feature = "parquet") && folder.join("data").join(site::TABLE).exists() {
            voice.say(&say!(
                "not recomputed: {file} (this build has no tables; its bytes are as listed).",
                file = site::TABLE
            ));
        }
        signed.tell(voice);
        match (succession, &copied) {
            (_, Some(copied)) => copied.tell(voice),
            _ if bytes_alone && folder.join("data").join(site::PARENT).is_dir() => voice.say(say!("copy:       not run; who signed the dossier that it was taken from is looked at without --bytes.")),
            _ if !whole.holds() && folder.join("data").join(site::PARENT).is_dir() => voice.say(say!("copy:       not run, because this copy is not whole; who signed the dossier that it was taken from is looked at with it.")),
            (Some((named, digest)), None) => voice.say(&say!(
                "succession: {named} Its digest was {digest}; the page of changes says what became another, by the word of whoever compiled it; `sealfolio compare OLDER THIS` asks the older one itself.",
                named = named.said(),
                digest = printable(digest.unwrap_or("–"))
            )),
            // Where nothing is superseded there is nothing to run.
            (None, None) if dossier.is_some_and(first) || !whole.dossier => {}
            (None, None) => voice.say(say!("succession: not run; the superseded dossier was not at hand when this was compiled. `sealfolio compare OLDER THIS` does it.")),
        }
        match (digest, &copied) {
            (Some(digest), Some(copied)) => voice.say(&say!(
                "The digest on the maker's signed paper is that of the whole dossier, {signed}. This copy has its own, which whoever took it can tell you:\n{digest}",
                signed = copied.digest,
                digest = digest
            )),
            (Some(digest), None) => voice.say(&say!("Compare this digest with the one on signed paper; nothing else shows who issued the copy:\n{digest}", digest = digest)),
            (None, _) => {}
        }
    }
    if good { FINE } else { STOPPED }
}

/// Whether a dossier supersedes none.
fn first(dossier: &Dossier) -> bool {
    let head = dossier.plant.records().head();
    head.is_some_and(|(_, head)| head.supersedes.is_none())
}

/// A copy of another version: figures are compared, pages are not.
fn by_another(again: &site::Recomputed, voice: &Voice) {
    let program = again.by_another.as_deref().unwrap_or_default();
    let figures = again.dossier.graph.computed.len();
    again.wrong.iter().take(SHOWN).for_each(|id| {
        voice.say(&say!(
            "  comes out differently: {path}",
            path = printable(id)
        ))
    });
    again.otherwise.iter().take(SHOWN).for_each(|id| {
        voice.say(&say!(
            "  computed otherwise since {program}: {id}",
            program = program,
            id = printable(id)
        ))
    });
    if !again.otherwise.is_empty() {
        voice.say(&say!("{count} figures have a method that was changed after {program}; what the change does not touch comes out again. The page of methods of either version and the change log say how; {program} repeats them to the last digit.", count = again.otherwise.len(), program = program));
    }
    voice.say(&match again.wrong.is_empty() {
        true => say!("recomputed: holds. {figures} figures come out again from the sealed records. The pages were made by {program} and not made again, nor was judged again what let it be released: {own} makes other pages and has other rules.", figures = figures, program = program, own = env!("CARGO_PKG_VERSION")),
        false => say!("recomputed: does not hold. {count} figures come out differently than {program} printed them.", count = again.wrong.len(), program = program),
    });
}

/// The signers that the reader knows.
fn known(file: &Path) -> Result<Signers, (String, String)> {
    let shown = file.display();
    let text = std::fs::read_to_string(file).map_err(|error| {
        (
            say!(
                "{folder} cannot be read: {error}",
                folder = shown,
                error = error
            ),
            say!("Name a file of the form of OpenSSH's allowed_signers.").to_owned(),
        )
    })?;
    Signers::read(&text).map_err(|why| {
        (
            format!("{shown}: {why}"),
            say!("Name a file of the form of OpenSSH's allowed_signers.").into(),
        )
    })
}

/// Statements, files that belong to none, and why they cannot be read.
type Read = (Vec<Found>, Vec<String>, Option<String>);

fn read(checked: std::io::Result<(Vec<Found>, Vec<String>)>) -> Read {
    match checked {
        Ok((found, strangers)) => (found, strangers, None),
        Err(error) => (Vec::new(), Vec::new(), Some(error.to_string())),
    }
}

/// What is known of the statements of a copy.
struct Signed {
    found: Vec<Found>,
    strangers: Vec<String>,
    /// Expected and not there: person and meaning.
    missing: Vec<String>,
    unreadable: Option<String>,
}

impl Signed {
    /// `dossier`: the copy's own, where it is whole, and whether this version judged it; only a whole one says who was expected.
    fn of(
        folder: &Path,
        digest: &str,
        signers: Option<&Signers>,
        dossier: Option<(&Dossier, bool)>,
    ) -> Signed {
        let (found, strangers, unreadable) = read(check(folder, digest, signers, dossier));
        let there = |person: &str, meaning: &str| {
            found.iter().any(|found| {
                found.statement.as_ref().is_some_and(|statement| {
                    statement.person == person && statement.meaning.words() == meaning
                })
            })
        };
        // A customer's copy is received; who prepared, reviewed and released stands with the dossier that it was taken from.
        let dossier = dossier.filter(|(dossier, _)| dossier.copy.is_none());
        let mut missing: Vec<String> = dossier.map_or(Vec::new(), |(dossier, _)| {
            let head = dossier.plant.records().head();
            head.map_or(Vec::new(), |(_, head)| {
                head.expected_signers
                    .iter()
                    .filter(|signer| !there(&signer.person_id, signer.meaning.word()))
                    .map(|signer| format!("{}: {}", &*signer.person_id, signer.meaning.said()))
                    .collect()
            })
        });
        // Whoever it is: a policy asks for a meaning. Where nobody signed, that is said already.
        if let Some((dossier, _)) = dossier.filter(|_| !found.is_empty() && missing.is_empty()) {
            let signed = found
                .iter()
                .filter_map(|found| Some(found.statement.as_ref()?.meaning));
            let signed: Vec<_> = signed.collect();
            let due = due(dossier).into_iter();
            let due = due.filter(|due| !signed.contains(due));
            missing.extend(due.map(|due| say!(due.words()).to_owned()));
        }
        Signed {
            found,
            strangers,
            missing,
            unreadable,
        }
    }

    /// What the maker signed of the dossier from which a customer's copy was taken, held against the records that it shows.
    fn by_maker(folder: &Path, digest: &str, signers: Option<&Signers>, copy: &Dossier) -> Signed {
        let parent = folder.join("data").join(site::PARENT);
        let (found, strangers, unreadable) = read(check_makers(&parent, digest, signers, copy));
        let signed: Vec<_> = statements(&found).map(|one| one.meaning).collect();
        let all = [Meaning::Prepared, Meaning::Reviewed, Meaning::Approved];
        let due = all.into_iter().filter(|due| !signed.contains(due));
        Signed {
            // Where nobody signed, that is said already.
            missing: due
                .filter(|_| !signed.is_empty())
                .map(|due| say!(due.words()).to_owned())
                .collect(),
            found,
            strangers,
            unreadable,
        }
    }

    /// Whether somebody approved it for release, nobody who is expected is missing, and every key is known as its signer's.
    fn complete(&self) -> bool {
        let known = self.found.iter().all(|found| found.known == Some(true));
        let mut meanings = statements(&self.found).map(|one| one.meaning);
        meanings.any(|meaning| meaning == Meaning::Approved) && self.missing.is_empty() && known
    }

    /// Whether nothing speaks against what is signed; nothing signed is no failure.
    fn holds(&self) -> bool {
        self.unreadable.is_none()
            && self.strangers.is_empty()
            && self
                .found
                .iter()
                .all(|found| found.flaws.is_empty() && found.known != Some(false))
    }

    fn tell(&self, voice: &Voice) {
        if let Some(why) = &self.unreadable {
            voice.say(&say!("signed:     cannot be said: {why}.", why = why));
        }
        for found in &self.found {
            let who = found.statement.as_ref().map_or(String::new(), |statement| {
                format!(
                    " {} ({}), {}, {}",
                    statement.name,
                    statement.person,
                    say!(statement.meaning.words()),
                    statement.time
                )
            });
            let key = found.fingerprint.as_deref().unwrap_or("–");
            let said = match (found.flaws.is_empty(), found.known) {
                (false, _) => say!("does not hold: {flaws}", flaws = found.flaws.join("; ")),
                (true, Some(true)) => {
                    say!("holds, and the key is known as this person's").to_owned()
                }
                (true, Some(false)) => say!(
                    "the signature fits, and the key is not known as this person's: {key}",
                    key = key
                ),
                (true, None) => say!(
                    "the signature fits; signed by an unknown key, because no allowed_signers file was given: {key}",
                    key = key
                ),
            };
            voice.say(&format!("  {}{who}: {said}", printable(&found.file)));
            let to_come = found
                .statement
                .as_ref()
                .and_then(|one| Time::parse(&one.time).ok());
            if to_come.is_some_and(|time| time.moment > Time::now().moment) {
                voice.say(say!(
                    "    by the clock of this machine that moment is still to come"
                ));
            }
            for (file, time) in &found.stamps {
                voice.say(&say!("    {file}: a time stamp of {time} for this very signature; who made it is not checked here, `openssl ts -verify` does that", file = printable(file), time = time));
            }
        }
        for stranger in &self.strangers {
            voice.say(&say!(
                "  {file}: belongs to no statement",
                file = printable(stranger)
            ));
        }
        let unknown = self.found.iter().any(|found| found.known.is_none());
        match (self.found.len(), self.holds()) {
            (0, true) => voice.say(say!("signed:     by nobody.")),
            (_, true) if !self.missing.is_empty() => voice.say(say!("signed:     incomplete. What is there fits; statements that are expected are not there: they were not made yet, or were taken away.")),
            (n, true) if unknown => voice.say(&say!("signed:     by unknown keys. {n} statements, and their signatures fit; whose keys they are, only --allowed-signers can tell.", n = n)),
            (1, true) => voice.say(say!("signed:     holds. 1 statement with its signature.")),
            (n, true) => voice.say(&say!(
                "signed:     holds. {n} statements, each with its signature, in one chain.",
                n = n
            )),
            (_, false) => voice.say(say!("signed:     does not hold.")),
        }
        if !self.missing.is_empty() {
            voice.say(&say!(
                "            expected and not there: {all}",
                all = self.missing.join("; ")
            ));
        }
    }

    fn report(&self) -> Value {
        let statements = self.found.iter().map(|found| {
            json!({"file": found.file, "statement": found.statement, "fingerprint": found.fingerprint, "key_is_known": found.known,
                "time_stamps": found.stamps.iter().map(|(file, time)| json!({"file": file, "time": time})).collect::<Vec<_>>(), "flaws": found.flaws})
        });
        json!({
            "run": self.unreadable.is_none(),
            "holds": self.holds(),
            "statements": statements.collect::<Vec<_>>(),
            "strangers": self.strangers,
            "expected_and_missing": self.missing,
        })
    }
}

/// What the statements say that can be read.
fn statements(found: &[Found]) -> impl Iterator<Item = &Statement> {
    found.iter().filter_map(|found| found.statement.as_ref())
}

/// What is known of the dossier from which a customer's copy was taken.
struct Copied {
    identity: String,
    lots: String,
    digest: String,
    /// Pieces that are shown, and single ones that stay sealed.
    pieces: (usize, usize),
    /// Pieces that stay sealed, by kind.
    sealed: BTreeMap<String, usize>,
    /// Findings that are set aside, by rule.
    beyond: BTreeMap<String, usize>,
    flaws: Vec<String>,
    /// Whether the signed dossier calls itself a draft.
    draft: bool,
    signed: Signed,
}

impl Copied {
    fn of(folder: &Path, dossier: &Dossier, signers: Option<&Signers>) -> Option<Copied> {
        let copy = dossier.copy.as_ref()?;
        let digest = copy.digest().map_or(String::new(), |digest| {
            format!("sha256:{digest}", digest = digest)
        });
        Some(Copied {
            // Characters that move what is printed are none of a name.
            identity: printable(copy.info("External-Identifier").unwrap_or("–")).into_owned(),
            lots: printable(&copy.proof.lots.join(", ")).into_owned(),
            pieces: Copy::totals(&copy.proof),
            sealed: Copy::sealed(&copy.proof),
            beyond: copy
                .proof
                .beyond
                .iter()
                .fold(BTreeMap::new(), |mut all, one| {
                    *all.entry(one.rule.clone()).or_insert(0) += 1;
                    all
                }),
            flaws: copy.flaws(&dossier.plant),
            draft: copy
                .info("Dossier-State")
                .is_some_and(|state| state != "complete"),
            signed: Signed::by_maker(folder, &digest, signers, dossier),
            digest,
        })
    }

    fn holds(&self) -> bool {
        self.flaws.is_empty() && self.signed.holds()
    }

    fn tell(&self, voice: &Voice) {
        self.flaws
            .iter()
            .for_each(|flaw| voice.say(&format!("  {}", printable(flaw))));
        match self.flaws.is_empty() {
            true => voice.say(&say!(
                "copy:       holds. The lots {lots} are here as in {identity}, {digest}: {shown} pieces shown, {sealed} sealed, none left out. Signatures of that dossier:",
                lots = self.lots,
                identity = self.identity,
                digest = self.digest,
                shown = self.pieces.0,
                sealed = self.pieces.1
            )),
            false => voice.say(&say!(
                "copy:       does not hold. It does not show the lots {lots} as they are in {identity}. Signatures of that dossier:",
                lots = self.lots,
                identity = self.identity
            )),
        }
        if self.draft {
            voice.say(say!(
                "draft:      it was taken from a draft; nothing of it is released."
            ));
        }
        if !self.sealed.is_empty() {
            let kinds = self.sealed.iter();
            let kinds: Vec<String> = kinds
                .map(|(kind, n)| format!("{} {n}", printable(kind)))
                .collect();
            voice.say(&say!("            Sealed, by the word of whoever took the copy because they name another customer or speak of lots that are not shown: {kinds}.", kinds = kinds.join(", ")));
        }
        if !self.beyond.is_empty() {
            let rules = self.beyond.iter();
            let rules: Vec<String> = rules
                .map(|(rule, n)| format!("{} {n}", printable(rule)))
                .collect();
            voice.say(&say!("            Set aside, because records of others would be needed for them: findings of {rules}. Who took the copy decided which; ask the maker.", rules = rules.join(", ")));
        }
        self.signed.tell(voice);
    }

    fn report(&self) -> Value {
        json!({
            "holds": self.holds(), "dossier": self.identity, "digest": self.digest, "lots": self.lots,
            "pieces_shown": self.pieces.0, "pieces_sealed": self.pieces.1, "findings_set_aside": self.beyond, "flaws": self.flaws, "signed": self.signed.report(),
        })
    }
}

/// Which conclusions of a damaged copy still stand: facts, no motives.
fn still(standing: Option<&Result<site::Standing, String>>) -> String {
    match standing {
        None => String::new(),
        Some(Err(why)) => say!("still holds: cannot be said, because {why}.", why = why),
        Some(Ok(standing)) if standing.fall.is_empty() => say!(
            "still holds: every record is whole, and all {stand} figures come out again as they were printed.",
            stand = standing.stand
        ),
        Some(Ok(standing)) => {
            let named = standing.fall.iter().take(12);
            let named: Vec<_> = named.map(|id| printable(id)).collect();
            let more = standing.fall.len() - named.len();
            let rest = if more > 0 {
                say!(" and {more} more", more = more)
            } else {
                String::new()
            };
            say!(
                "still holds: {stand} figures stand on whole files alone and come out again as they were printed. {count} do not: {named}{rest}.",
                stand = standing.stand,
                count = standing.fall.len(),
                named = named.join(", "),
                rest = rest
            )
        }
    }
}

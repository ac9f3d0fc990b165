//! Signed statements beside a bag: who approved it, as what, and whether that holds.
//!
//! A statement is a small JSON file; its signature is the ordinary one of OpenSSH (SSHSIG, namespace
//! [`NAMESPACE`]), so that `ssh-keygen -Y verify` checks it without this program. Each statement names the digest of
//! the whole dossier and the digest of the statement before it: none can be taken out of the middle, moved or
//! put into another dossier. What cannot be seen from the folder alone is a last statement that was taken away;
//! the signers that the dossier expects show it.
//!
//! Signing is left to OpenSSH itself: no private key is ever read here.

pub mod stamp;

use std::{collections::BTreeSet, fs, path::Path, process::Command};

use serde::{Deserialize, Serialize};
use ssh_key::{HashAlg, LineEnding, PublicKey, SshSig};

use crate::ground::{
    digest::Digest,
    plain::contents,
    seen::{dropped, unseen},
    time::Time,
};

/// The namespace of the signatures.
pub const NAMESPACE: &str = "dossier-approval";
/// The folder of the statements.
pub const FOLDER: &str = "signatures";

/// What a signature means.
#[derive(Copy, Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub enum Meaning {
    /// I made it.
    #[serde(rename = "prepared")]
    Prepared,
    /// I checked it, and did not make it.
    #[serde(rename = "reviewed")]
    Reviewed,
    /// I release what it speaks of.
    #[serde(rename = "approved for release")]
    Approved,
    /// I have it.
    #[serde(rename = "received")]
    Received,
}

impl Meaning {
    /// As statements and `expected_signers` write it.
    pub fn words(self) -> &'static str {
        match self {
            Meaning::Prepared => word!("prepared"),
            Meaning::Reviewed => word!("reviewed"),
            Meaning::Approved => word!("approved for release"),
            Meaning::Received => word!("received"),
        }
    }

    /// The act for which `personnel_authorisation` must name the person, where it takes more than being named there.
    pub fn act(self) -> Option<&'static str> {
        match self {
            Meaning::Reviewed => Some("review"),
            Meaning::Approved => Some("release"),
            Meaning::Prepared | Meaning::Received => None,
        }
    }

    fn stem(self) -> &'static str {
        match self {
            Meaning::Approved => "approved",
            other => other.words(),
        }
    }
}

/// One statement.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Statement {
    /// 1.
    pub format: u32,
    /// The dossier's id and revision, for people.
    pub dossier: String,
    /// `sha256:` and the digest of the whole dossier.
    pub digest: String,
    /// What the signature means.
    pub meaning: Meaning,
    /// The person's id; the principal of `allowed_signers`.
    pub person: String,
    /// The printed name.
    pub name: String,
    /// The function in which it is signed.
    pub role: String,
    /// When, with the zone.
    pub time: String,
    /// `sha256:` and the digest of the statement before; nothing for the first.
    pub before: Option<String>,
}

impl Statement {
    /// The bytes that are signed.
    pub fn bytes(&self) -> Vec<u8> {
        let mut text = serde_json::to_vec_pretty(self).unwrap_or_default();
        text.push(b'\n');
        text
    }
}

/// A line of an `allowed_signers` file.
struct Allowed {
    principals: Vec<String>,
    key: PublicKey,
}

/// The signers that a reader knows, in the form of OpenSSH's `allowed_signers`.
pub struct Signers(Vec<Allowed>);

impl Signers {
    /// Reads the text of such a file.
    ///
    /// # Errors
    /// In words, with the line: lines that cannot be read, patterns in the place of names, and options but `namespaces`, which
    /// are not understood here.
    pub fn read(text: &str) -> Result<Signers, String> {
        let mut all = Vec::new();
        for (i, line) in text.lines().enumerate() {
            let line = line.trim();
            if line.is_empty() || line.starts_with('#') {
                continue;
            }
            let broken = || {
                say!(
                    "line {n} is no line of an allowed_signers file without options: principals, kind of key, key",
                    n = i + 1
                )
            };
            let (principals, key) = line.split_once([' ', '\t']).ok_or_else(broken)?;
            if principals.contains(['*', '?', '!']) {
                return Err(say!(
                    "line {n}: \"{principals}\" is a pattern, and the ids of persons are due",
                    n = i + 1,
                    principals = principals
                ));
            }
            let mut key = key.trim();
            if let Some(rest) = key.strip_prefix("namespaces=\"") {
                let (list, after) = rest.split_once('"').ok_or_else(broken)?;
                // A key for other purposes is none of this reader's.
                if !list.split(',').any(|name| name.trim() == NAMESPACE) {
                    continue;
                }
                key = after.trim();
            }
            let option = key.split([' ', '\t']).next().unwrap_or_default();
            if option.contains('=') || option == "cert-authority" {
                return Err(say!(
                    "line {n}: the option {option} is not understood here; take it out of the copy of the file that you name",
                    n = i + 1,
                    option = option
                ));
            }
            all.push(Allowed {
                principals: principals.split(',').map(str::to_owned).collect(),
                key: PublicKey::from_openssh(key).map_err(|_| broken())?,
            });
        }
        Ok(Signers(all))
    }

    fn knows(&self, person: &str, key: &PublicKey) -> bool {
        self.0.iter().any(|allowed| {
            allowed.key.key_data() == key.key_data()
                && allowed.principals.iter().any(|name| name == person)
        })
    }
}

/// A statement as it was found.
pub struct Found {
    /// Its file below [`FOLDER`].
    pub file: String,
    /// What it says; nothing where it cannot be read.
    pub statement: Option<Statement>,
    /// The fingerprint of the key that signed it, where the signature can be read.
    pub fingerprint: Option<String>,
    /// Whether the reader knows that key as that person's; nothing without a file of signers.
    pub known: Option<bool>,
    /// Times of time stamps beside its signature, each with its file; whose they are is not checked here.
    pub stamps: Vec<(String, String)>,
    /// What is wrong with it; empty where it holds.
    pub flaws: Vec<String>,
}

/// Every statement of a dossier in order, each checked; and files that belong to none.
///
/// # Errors
/// When the folder of statements cannot be listed.
pub fn check(
    root: &Path,
    digest: &str,
    signers: Option<&Signers>,
) -> std::io::Result<(Vec<Found>, Vec<String>)> {
    let folder = root.join(FOLDER);
    if !folder.is_dir() {
        return Ok((Vec::new(), Vec::new()));
    }
    let (mut names, mut odd) = (BTreeSet::new(), Vec::new());
    for entry in fs::read_dir(&folder)? {
        let entry = entry?;
        let name = entry.file_name().to_string_lossy().into_owned();
        // What a system leaves on a stick is no statement; a pipe or a link is not read.
        match entry.file_type()?.is_file() {
            _ if dropped(&name) => {}
            true => drop(names.insert(name)),
            false => odd.push(name),
        }
    }
    let mut statements: Vec<&String> = names
        .iter()
        .filter(|name| name.ends_with(".json"))
        .collect();
    // The hundredth stands behind the eleventh.
    let number = |name: &str| name.split('-').next().and_then(|n| n.parse::<u64>().ok());
    statements.sort_by_key(|name| number(name).unwrap_or(u64::MAX));
    let strangers: Vec<String> = names
        .iter()
        .filter(|name| {
            let sig = stamped(name).unwrap_or(name);
            let of = sig.strip_suffix(".sig").unwrap_or(sig);
            !names.contains(sig) || !names.contains(of) || !of.ends_with(".json")
        })
        .cloned()
        .chain(odd)
        .collect();
    let mut before: Option<String> = None;
    let mut out = Vec::new();
    for (i, name) in statements.into_iter().enumerate() {
        let bytes = contents(&folder.join(name))?;
        let mut found = one(
            &folder,
            name,
            &bytes,
            (digest, before.as_deref(), i + 1),
            signers,
        );
        let of_it = format!("{name}.sig");
        for file in names.iter().filter(|file| stamped(file) == Some(&of_it)) {
            let signature = contents(&folder.join(&of_it)).unwrap_or_default();
            match stamp::time(&contents(&folder.join(file))?, &signature) {
                Ok(time) => {
                    let early = found.statement.as_ref();
                    if early.is_some_and(|statement| long_before(&time, &statement.time)) {
                        found.flaws.push(say!(
                            "{file}: its time stamp is of {time}, before the statement was made",
                            file = file,
                            time = time
                        ));
                    }
                    found.stamps.push((file.clone(), time));
                }
                Err(why) => found.flaws.push(format!("{file}: {why}")),
            }
        }
        before = Some(format!("sha256:{}", Digest::of(&bytes)));
        after(&mut found, &out);
        out.push(found);
    }
    Ok((out, strangers))
}

/// Holds a statement against those before it: each meaning once and in its turn, each person once, each with a key of their own.
fn after(found: &mut Found, before: &[Found]) {
    let Some(own) = &found.statement else {
        return;
    };
    let mut flaws = Vec::new();
    for other in before {
        let Some(statement) = &other.statement else {
            continue;
        };
        // Several customers may receive, each for themselves.
        let again = statement.meaning == own.meaning && own.meaning != Meaning::Received;
        if statement.meaning > own.meaning || again {
            flaws.push(say!(
                "it is signed as {meaning} after somebody signed as {other}",
                meaning = say!(own.meaning.words()),
                other = say!(statement.meaning.words())
            ));
        }
        if statement.person == own.person {
            flaws.push(say!("{person} signed already", person = own.person));
        } else if other.fingerprint.is_some() && other.fingerprint == found.fingerprint {
            flaws.push(one_key(&statement.person, &own.person));
        }
    }
    found.flaws.extend(flaws);
}

/// Two clocks may differ by so many seconds (common practice, no source).
const CLOCKS: f64 = 600.0;

/// Whether a time lies before another by more than clocks differ.
fn long_before(one: &str, other: &str) -> bool {
    let both = Time::parse(one).ok().zip(Time::parse(other).ok());
    both.is_some_and(|(one, other)| one.seconds_since(other) < -CLOCKS)
}

fn one_key(one: &str, other: &str) -> String {
    say!(
        "one key signs for {one} and for {other}",
        one = one,
        other = other
    )
}

/// Whether a statement can be shown: a time that can be read, and no character that moves what stands beside it.
pub fn plain(statement: &Statement) -> bool {
    let texts = [
        &statement.dossier,
        &statement.digest,
        &statement.person,
        &statement.name,
        &statement.role,
        &statement.time,
    ];
    let hidden =
        |text: &&String| text.chars().any(char::is_control) || unseen(text, false).is_some();
    !texts.iter().any(hidden) && Time::parse(&statement.time).is_ok()
}

/// The signature of which a file would be a time stamp.
fn stamped(name: &str) -> Option<&str> {
    let of = stamp::ENDINGS
        .iter()
        .find_map(|ending| name.strip_suffix(ending))?;
    of.ends_with(".sig").then_some(of)
}

fn one(
    folder: &Path,
    name: &str,
    bytes: &[u8],
    (digest, before, number): (&str, Option<&str>, usize),
    signers: Option<&Signers>,
) -> Found {
    let mut found = Found {
        file: name.to_owned(),
        statement: serde_json::from_slice(bytes).ok().filter(plain),
        fingerprint: None,
        known: None,
        stamps: Vec::new(),
        flaws: Vec::new(),
    };
    let mut flaw = |text: &str| found.flaws.push(text.to_owned());
    match &found.statement {
        None => flaw(say!("it is no statement of this form")),
        Some(statement) => {
            if statement.bytes() != bytes {
                flaw(say!("it is written otherwise than a statement is"));
            }
            if statement.format != 1 {
                flaw(say!("its format is not known here"));
            }
            if statement.digest != digest {
                flaw(say!("it speaks of a dossier with another digest"));
            }
            if statement.before.as_deref() != before {
                flaw(say!(
                    "the statement before it is not the one that it names: one was removed, added, changed or moved"
                ));
            }
            if name != file_name(number, statement.meaning) {
                flaw(say!(
                    "its file has another number or meaning than its place and its words"
                ));
            }
        }
    }
    // A pipe in its place would be waited for without end.
    let text = contents(&folder.join(format!("{name}.sig"))).unwrap_or_default();
    let text = String::from_utf8(text).unwrap_or_default();
    let Ok(signature) = SshSig::from_pem(&text) else {
        flaw(say!("there is no signature beside it that can be read"));
        return found;
    };
    // Not a byte of the file may be another, its last line end included.
    if signature.to_pem(LineEnding::LF).ok().as_ref() != Some(&text) {
        flaw(say!(
            "its signature is written otherwise than OpenSSH writes it"
        ));
    }
    let key = PublicKey::from(signature.public_key().clone());
    if signature.namespace() != NAMESPACE {
        flaw(say!("it was signed for another purpose"));
    }
    match holds(&key, bytes, &signature, folder, name) {
        Some(true) => {}
        Some(false) => flaw(say!("the signature does not fit it")),
        None => flaw(say!(
            "the kind of its key is checked by OpenSSH alone, and ssh-keygen cannot be started here"
        )),
    }
    found.fingerprint = Some(key.fingerprint(HashAlg::Sha256).to_string());
    if let (Some(signers), Some(statement)) = (signers, &found.statement) {
        found.known = Some(signers.knows(&statement.person, &key));
    }
    found
}

/// Whether a signature fits; kinds of keys that are not known here are left to OpenSSH, nothing where it is not installed.
fn holds(
    key: &PublicKey,
    bytes: &[u8],
    signature: &SshSig,
    folder: &Path,
    name: &str,
) -> Option<bool> {
    if key.algorithm().is_ed25519() || key.algorithm().is_ecdsa() {
        return Some(key.verify(NAMESPACE, bytes, signature).is_ok());
    }
    let statement = fs::File::open(folder.join(name)).ok()?;
    let output = Command::new("ssh-keygen")
        .args(["-Y", "check-novalidate", "-n", NAMESPACE, "-s"])
        .arg(folder.join(format!("{name}.sig")))
        .stdin(statement)
        .output();
    output.ok().map(|output| output.status.success())
}

fn file_name(number: usize, meaning: Meaning) -> String {
    format!("{number:02}-{}.json", meaning.stem())
}

/// Whether a key, named by its SHA-256 fingerprint, is one of those in OpenSSH's form; where none are named, any is.
pub fn among(allowed: &[String], fingerprint: &str) -> bool {
    let same = |text: &String| {
        PublicKey::from_openssh(text.trim())
            .is_ok_and(|own| own.fingerprint(HashAlg::Sha256).to_string() == fingerprint)
    };
    allowed.is_empty() || allowed.iter().any(same)
}

/// A key that the policy does not name for a person.
pub fn other_key(person: &str) -> String {
    say!(
        "this key is not one that the signature policy of the dossier names for {person}",
        person = person
    )
}

/// Signs a statement and puts both files beside the others; `allowed` are the public keys with which this person may sign,
/// in OpenSSH's form, any where empty.
///
/// # Errors
/// Message and advice: OpenSSH is not there or refuses, or the medium takes no file. Nothing is left behind.
pub fn sign(
    root: &Path,
    statement: &Statement,
    number: usize,
    key: &Path,
    allowed: &[String],
) -> Result<String, (String, String)> {
    let medium = |error: std::io::Error| {
        (
            say!("cannot write the statement: {error}", error = error.kind()),
            say!("Look at free space and rights; nothing was signed.").to_owned(),
        )
    };
    let folder = root.join(FOLDER);
    fs::create_dir_all(&folder).map_err(medium)?;
    // Beside its place, so that one rename puts it there.
    let work = tempfile::Builder::new()
        .prefix(".signing-")
        .tempdir_in(root.parent().unwrap_or(root))
        .map_err(medium)?;
    let name = file_name(number, statement.meaning);
    let own = work.path().join(&name);
    fs::write(&own, statement.bytes()).map_err(medium)?;
    let status = Command::new("ssh-keygen")
        .args(["-Y", "sign", "-q", "-n", NAMESPACE, "-f"])
        .arg(key)
        .arg(&own)
        .status();
    let signed = work.path().join(format!("{name}.sig"));
    match status {
        Err(_) => {
            return Err((
                say!("ssh-keygen cannot be started").into(),
                say!(
                    "Install OpenSSH; signing is left to it, so that no private key is read here."
                )
                .into(),
            ));
        }
        Ok(status) if !status.success() || !signed.is_file() => {
            return Err((
                say!("ssh-keygen did not sign with {key}", key = key.display()),
                say!("Name a private key, or the public half of one that an agent holds; nothing was signed.").into(),
            ));
        }
        Ok(_) => {}
    }
    let made = fs::read_to_string(&signed).ok();
    let made = made.and_then(|text| SshSig::from_pem(text).ok());
    let made = made.map(|made| PublicKey::from(made.public_key().clone()));
    let made = made.map(|key| key.fingerprint(HashAlg::Sha256).to_string());
    if !made.as_ref().is_some_and(|made| among(allowed, made)) {
        return Err((
            other_key(&statement.person),
            say!("Sign with the key that it names; nothing was signed.").into(),
        ));
    }
    let (there, _) = check(root, &statement.digest, None).map_err(medium)?;
    let others = there.iter().filter(|found| found.fingerprint == made);
    let mut others = others.filter_map(|found| found.statement.as_ref());
    if let Some(other) = others.find(|other| other.person != statement.person) {
        return Err((
            one_key(&other.person, &statement.person),
            say!("Each person signs with a key of their own; nothing was signed.").into(),
        ));
    }
    // The signature first: a statement never stands without one.
    let files = [format!("{name}.sig"), name.clone()];
    for (i, file) in files.iter().enumerate() {
        let to = folder.join(file);
        // Whoever makes the name has it: two who sign at once cannot write over one another.
        let reserved = fs::File::create_new(&to);
        let from = work.path().join(file);
        // Where a dossier is a medium of its own, nothing can be renamed into it.
        let moved = |_| fs::rename(&from, &to).or_else(|_| fs::copy(&from, &to).map(drop));
        let there = reserved.and_then(moved);
        if let Err(error) = there {
            let others = error.kind() == std::io::ErrorKind::AlreadyExists;
            let own = files.iter().take(if others { i } else { i + 1 });
            for file in own {
                let _ = fs::remove_file(folder.join(file));
            }
            return Err(match others {
                false => medium(error),
                true => (
                    say!("{file} exists already", file = to.display()),
                    say!("Somebody signed in the meantime; look again, then sign after them.")
                        .into(),
                ),
            });
        }
    }
    Ok(name)
}

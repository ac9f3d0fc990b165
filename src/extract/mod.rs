//! A customer's copy: some lots of a dossier, as they were signed, none of their records left out.
//!
//! The copy holds the pieces that are shown, and a [`Proof`]: the salt of each, the seals of single pieces that stay
//! withheld, and of every group that is not shown its head alone. Together they give the root that the signed dossier
//! names in its `bag-info.txt`.

mod choose;

pub use choose::{Asked, Chosen, Refusal, choose};

use std::collections::{BTreeMap, BTreeSet};

use serde::{Deserialize, Serialize};

use crate::{
    approval::{self, Statement},
    commitment::{self, entry, group_head, parts, sealed},
    ground::digest::Digest,
    plant::Plant,
    record::{
        Record,
        folder::{Folder, holds_records},
        kinds::{Body, dossier::Dossier},
    },
    seal,
};

/// The name in `bag-info.txt` under which a dossier states the root over its records.
pub const ROOT: &str = "Dossier-Records-Root";
/// Why a piece of a shown group stays sealed: it names another customer.
pub const ANOTHER_CUSTOMER: &str = word!("it names another customer");
/// Why a chapter stays sealed: it speaks of lots that are not shown.
pub const OTHER_LOTS: &str = word!("it speaks of lots that are not shown");
/// Why an export stays sealed: its rows may be anybody's.
pub const EXPORT: &str = word!("it is an export, whose rows may speak of others");

/// How the pieces of a copy lead to the signed root.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Proof {
    /// 1.
    pub format: u32,
    /// The lots that were asked for.
    pub lots: Vec<String>,
    /// The customer that it was made for, where one was named.
    pub customer: Option<String>,
    /// Groups that are shown.
    pub shown: Vec<Shown>,
    /// Heads of the groups that are not, 64 hexadecimal digits each.
    pub withheld: Vec<String>,
    /// What rules would say here and do not say of the whole dossier: they miss what is withheld.
    pub beyond: Vec<Beyond>,
}

/// A group that is shown.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Shown {
    /// What it is about.
    pub of: String,
    /// Its name.
    pub name: String,
    /// The salt of its name.
    pub salt: String,
    /// Its pieces.
    pub pieces: Vec<ShownPiece>,
}

/// A piece of a shown group: there, with its salt, or sealed.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(untagged, deny_unknown_fields)]
pub enum ShownPiece {
    /// In the copy.
    Here {
        /// Its kind.
        kind: String,
        /// Whether it names a customer.
        customer: bool,
        /// Its file.
        file: String,
        /// Which part of that file in the copy, from 0.
        part: usize,
        /// Its salt.
        salt: String,
    },
    /// Withheld.
    Sealed {
        /// Its kind.
        kind: String,
        /// Whether it names a customer, as the signed dossier counts it.
        customer: bool,
        /// Its seal.
        seal: String,
        /// Why.
        because: String,
    },
}

/// What a rule would say of a copy only.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Beyond {
    /// The rule.
    pub rule: String,
    /// Its words.
    pub message: String,
}

/// What a copy holds of the dossier that it was taken from.
#[derive(Clone, Debug, PartialEq)]
pub struct Copy {
    /// The proof.
    pub proof: Proof,
    /// Files of the signed dossier by path: `bag-info.txt`, the tag manifest, statements with their signatures.
    pub parent: BTreeMap<String, Vec<u8>>,
}

impl Copy {
    /// The digest of the signed dossier.
    pub fn digest(&self) -> Option<Digest> {
        self.parent
            .get(seal::TAG_MANIFEST)
            .map(|bytes| Digest::of(bytes))
    }

    /// What the signed dossier's `bag-info.txt` says under a name.
    pub fn info(&self, name: &str) -> Option<&str> {
        let text = std::str::from_utf8(self.parent.get("bag-info.txt")?).ok()?;
        text.lines()
            .filter_map(|line| line.split_once(": "))
            .find_map(|(key, value)| (key == name).then_some(value))
    }

    /// The statements that were there when the copy was taken, unchecked.
    pub fn statements(&self) -> impl Iterator<Item = Statement> {
        let prefix = format!("{}/", approval::FOLDER);
        let own = self.parent.iter();
        own.filter(move |(path, _)| path.starts_with(&prefix) && path.ends_with(".json"))
            .filter_map(|(_, bytes)| serde_json::from_slice(bytes).ok())
    }

    /// The root that the signed dossier states.
    pub fn root(&self) -> Option<Digest> {
        self.info(ROOT).and_then(Digest::parse)
    }

    /// How many pieces stay sealed, by kind.
    pub fn sealed(proof: &Proof) -> BTreeMap<String, usize> {
        let pieces = proof.shown.iter().flat_map(|group| &group.pieces);
        let mut out = BTreeMap::new();
        for piece in pieces {
            if let ShownPiece::Sealed { kind, .. } = piece {
                *out.entry(kind.clone()).or_insert(0) += 1;
            }
        }
        out
    }

    /// How many pieces of a group are shown and how many stay sealed.
    pub fn counts(group: &Shown) -> (usize, usize) {
        let here = |piece: &&ShownPiece| matches!(piece, ShownPiece::Here { .. });
        let shown = group.pieces.iter().filter(here).count();
        (shown, group.pieces.len() - shown)
    }

    /// The same over all groups that are shown.
    pub fn totals(proof: &Proof) -> (usize, usize) {
        let counts = proof.shown.iter().map(Copy::counts);
        counts.fold((0, 0), |sum, one| (sum.0 + one.0, sum.1 + one.1))
    }

    /// Everything that speaks against the copy being what it says; empty where nothing does.
    pub fn flaws(&self, plant: &Plant) -> Vec<String> {
        let mut flaws = self.of_parent(plant);
        let mut claimed: BTreeSet<(&str, usize)> = BTreeSet::new();
        let slices = slices(&plant.folder);
        let mut heads = Vec::new();
        for group in &self.proof.shown {
            let mut entries = Vec::new();
            for piece in &group.pieces {
                match piece {
                    ShownPiece::Sealed {
                        kind,
                        customer,
                        seal,
                        ..
                    } => {
                        entries
                            .extend(Digest::parse(seal).map(|seal| entry(kind, *customer, seal)));
                        if !customer && !matches!(&**kind, "chapter" | "export") {
                            flaws.push(say!("{name}: a piece of the kind {kind} is sealed that names no customer: nothing allows that", name = group.name, kind = kind));
                        }
                    }
                    ShownPiece::Here {
                        kind,
                        customer,
                        file,
                        part,
                        salt,
                    } => {
                        claimed.insert((file, *part));
                        let bytes = slices.get(&(&**file, *part));
                        match (Digest::parse(salt), bytes) {
                            (Some(salt), Some(bytes)) => {
                                entries.push(entry(kind, *customer, sealed(salt, file, bytes)));
                            }
                            _ => flaws.push(say!(
                                "{file}: a piece that is to be shown is not there",
                                file = file
                            )),
                        }
                    }
                }
            }
            match Digest::parse(&group.salt) {
                Some(salt) => heads.push(group_head(&group.of, &group.name, salt, entries)),
                None => flaws.push(say!("the group {name} has no salt", name = group.name)),
            }
        }
        heads.extend(
            self.proof
                .withheld
                .iter()
                .filter_map(|head| Digest::parse(head)),
        );
        let unclaimed = slices.keys().filter(|slice| !claimed.contains(*slice));
        flaws.extend(unclaimed.map(|(file, part)| {
            say!(
                "{file}: part {n} is not of the signed dossier",
                file = file,
                n = part + 1
            )
        }));
        if Some(commitment::root(heads)) != self.root() {
            flaws.push(say!("the records shown and the seals of those withheld do not give the root that the signed dossier states: a record was changed, left out or added").into());
        }
        flaws
    }

    /// Whether the files of the signed dossier agree with each other and with the head of the copy.
    fn of_parent(&self, plant: &Plant) -> Vec<String> {
        let mut flaws = Vec::new();
        let listed = self.parent.get(seal::TAG_MANIFEST).is_some_and(|manifest| {
            let digest = self
                .parent
                .get("bag-info.txt")
                .map(|bytes| Digest::of(bytes));
            String::from_utf8_lossy(manifest)
                .lines()
                .filter_map(|line| line.split_once("  "))
                .any(|(listed, path)| path == "bag-info.txt" && Digest::parse(listed) == digest)
        });
        if !listed {
            flaws.push(
                say!(
                    "bag-info.txt of the signed dossier is not the one that its tag manifest lists"
                )
                .into(),
            );
        }
        let Some((record, head)) = plant.records().head() else {
            return flaws;
        };
        flaws.extend(self.of_head(plant, record, head));
        let stated = [
            ("Source-Organization", head.maker.name.to_string()),
            ("Bagging-Date", head.compiled_on.date.written()),
        ];
        for (name, own) in stated {
            if self.info(name) != Some(&own) {
                flaws.push(say!(
                    "dossier.yaml says {own}, and the signed dossier says otherwise under {name}",
                    own = own,
                    name = name
                ));
            }
        }
        let shown: BTreeSet<&str> = self
            .proof
            .shown
            .iter()
            .filter(|group| group.of == "lot")
            .map(|group| &*group.name)
            .collect();
        for lot in &self.proof.lots {
            if !shown.contains(&**lot) {
                flaws.push(say!("lot {lot} was asked for and is not shown", lot = lot));
            }
        }
        let pleated = plant
            .records()
            .all
            .iter()
            .filter_map(|record| match &record.body {
                Body::PleatingRecord(body) => Some(&*body.lot_id.text),
                _ => None,
            });
        for lot in pleated
            .filter(|lot| !shown.contains(*lot))
            .collect::<BTreeSet<_>>()
        {
            flaws.push(say!(
                "lot {lot} is here and not shown as a whole",
                lot = lot
            ));
        }
        flaws
    }
}

impl Copy {
    /// Whether the copy's own `dossier.yaml` says what the signed dossier and the releases in it say: nobody signed it.
    fn of_head(&self, plant: &Plant, record: &Record, head: &Dossier) -> Vec<String> {
        let mut flaws = Vec::new();
        // The number of the revision stands last in any language.
        let identity = self.info("External-Identifier").unwrap_or_default();
        let parent = identity.split(' ').next().unwrap_or_default();
        let revision = identity.rsplit(' ').next().unwrap_or_default();
        if *record.id.text != *self.proof.id(parent) || record.revision.to_string() != revision {
            flaws.push(say!(
                "dossier.yaml says {id} revision {revision}, and the copy is of {identity}",
                id = &*record.id,
                revision = record.revision,
                identity = identity
            ));
        }
        if *head.title.text != *self.proof.title() {
            flaws.push(say!(
                "dossier.yaml has the title \"{title}\", and a copy of these lots is called \"{due}\"",
                title = &*head.title,
                due = self.proof.title()
            ));
        }
        let released: BTreeSet<(&str, &str)> = plant
            .releases()
            .filter_map(|(_, release)| {
                let (id, name) = (
                    release.customer.get("customer_id")?,
                    release.customer.get("name")?,
                );
                Some((&**id, &**name))
            })
            .collect();
        let named = head.customers.iter().chain(&head.customer);
        let named =
            named.filter_map(|party| Some((&**party.customer_id.as_ref()?, &*party.name.text)));
        for (id, name) in named.filter(|one| !released.contains(one)) {
            flaws.push(say!(
                "dossier.yaml names {id}, {name}, to whom no release in this copy went",
                id = id,
                name = name
            ));
        }
        let own = self.proof.customer.as_deref();
        if own.is_some_and(|own| released.is_empty() || released.iter().any(|(id, _)| *id != own)) {
            flaws.push(say!(
                "the copy says that it is {customer}'s, and its releases went to others",
                customer = own.unwrap_or_default()
            ));
        }
        flaws
    }
}

impl Proof {
    /// The id that the copy's own dossier has.
    fn id(&self, parent: &str) -> String {
        let whose = self.customer.clone();
        format!("{parent}.{}", whose.unwrap_or(self.lots.join("+")))
    }

    /// Its title, in the language of the run.
    fn title(&self) -> String {
        let lots = self.lots.join(", ");
        match self.lots.len() {
            1 => say!("Lot {lots}: customer's copy", lots = lots),
            _ => say!("Lots {lots}: customer's copy", lots = lots),
        }
    }
}

/// Every part of every file but the copy's own head, by file and number.
fn slices(folder: &Folder) -> BTreeMap<(&str, usize), &[u8]> {
    let mut out = BTreeMap::new();
    for (name, file) in folder
        .files
        .iter()
        .filter(|(name, _)| &***name != "dossier.yaml")
    {
        let ranges = match holds_records(name) {
            true => parts(&file.bytes),
            false => std::iter::once(0..file.bytes.len()).collect(),
        };
        for (n, range) in ranges.into_iter().enumerate() {
            out.insert((&**name, n), file.bytes.get(range).unwrap_or_default());
        }
    }
    out
}

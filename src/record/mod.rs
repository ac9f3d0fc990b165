//! Records: YAML in, typed values with their places out; never a crash, only findings.

pub mod any;
mod behind;
pub mod common;
pub mod folder;
pub mod kinds;
pub mod quantity;
pub mod read;
pub mod simple;
pub mod text;
pub mod trace;
pub mod yaml;

use std::{
    collections::{BTreeMap, HashMap},
    sync::Arc,
};

use smallvec::SmallVec;

use crate::ground::{
    index::{Index, ordered},
    place::{Place, Spot},
    time::{Date, Time},
};
use common::{Common, Reference, Source, TakenFrom};
use kinds::{Body, KINDS, Kind};
use read::{Id, Reader, Shape as _, Text, When};
use yaml::{Data, Node};

/// The names of the fields that every record may have.
pub const COMMON_NAMES: [&str; 10] = [
    "kind",
    "record_id",
    "revision",
    "supersedes",
    "change_reason",
    "recorded_at",
    "recorded_by",
    "source",
    "remarks",
    "taken_from",
];

/// One record.
#[derive(Debug)]
pub struct Record {
    /// Its kind.
    pub kind: &'static str,
    /// Its id, unique in its kind.
    pub id: Id,
    /// Its revision, from 1.
    pub revision: u64,
    /// When it was recorded; the root record of a dossier needs none.
    pub recorded_at: Option<When>,
    /// By whom.
    pub recorded_by: Option<Id>,
    /// How the values came in.
    pub source: Option<Source>,
    /// The revision that it replaces.
    pub supersedes: Option<Reference>,
    /// Why it was revised.
    pub change_reason: Option<Text>,
    /// Anything else.
    pub remarks: Option<Text>,
    /// The export that the values were taken from.
    pub taken_from: Option<TakenFrom>,
    /// The contents.
    pub body: Body,
    /// The file it stands in.
    pub file: Arc<str>,
    /// Where it begins.
    pub spot: Spot,
    /// Its place in [`Records::all`].
    pub index: usize,
    /// When its first revision was recorded: a later one corrects what was written, not when it happened.
    pub happened_at: Option<When>,
    /// Whether no later revision replaces it.
    pub current: bool,
}

impl Record {
    /// A spot in this record's file.
    pub fn at(&self, spot: Spot) -> Place {
        Place::new(&self.file, spot)
    }

    /// Where the record begins.
    pub fn place(&self) -> Place {
        self.at(self.spot)
    }

    /// The moment of which it speaks: that of its first revision.
    pub fn happened(&self) -> Option<Time> {
        self.happened_at.as_ref().map(|when| when.time)
    }

    /// The day of which it speaks.
    pub fn day(&self) -> Option<Date> {
        self.happened().map(|time| time.date())
    }

    /// Reads one document; what is wrong goes to the reader.
    pub fn read(node: &Node, file: &Arc<str>, reader: &mut Reader) -> Option<Record> {
        let Data::Map(_) = node.data else {
            return reader.refuse(
                node.spot,
                say!("a record is {node}, and a map is due", node = node.words()),
                say!("Begin it with `kind: …`."),
            );
        };
        let Some(kind_node) = node.get("kind") else {
            return reader.refuse(
                node.spot,
                say!("the first key `kind` is missing"),
                say!("Say which kind of record this is; `sealfolio schema` lists them."),
            );
        };
        let Some(kind) = kind_node.text().and_then(kinds::kind) else {
            let words: Vec<&str> = KINDS.iter().map(|kind| kind.name).collect();
            return read::not_a_word("kind", kind_node, &words, reader);
        };
        let common = if kind.name == "dossier" {
            None
        } else {
            Some(read_common(node, kind, reader))
        };
        let body = (kind.read)(node, reader);
        let record = match (common, body?) {
            (None, Body::Dossier(head)) => {
                let id = head.id.clone().or_else(|| head.record_id.clone());
                let id = id.or_else(|| {
                    reader.refuse_by(
                        "R03",
                        node.spot,
                        say!("required field id is missing"),
                        say!("Add `id:`, the id of this dossier."),
                    )
                })?;
                Record {
                    kind: kind.name,
                    id,
                    revision: head.revision.value,
                    recorded_at: head.recorded_at.clone(),
                    recorded_by: head.recorded_by.clone(),
                    source: None,
                    supersedes: None,
                    change_reason: head.change_reason.clone(),
                    remarks: head.remarks.clone(),
                    taken_from: None,
                    body: Body::Dossier(head),
                    file: file.clone(),
                    spot: node.spot,
                    index: 0,
                    happened_at: None,
                    current: true,
                }
            }
            (common, body) => {
                let common = common??;
                Record {
                    kind: kind.name,
                    id: common.record_id,
                    revision: common.revision.value,
                    recorded_at: Some(common.recorded_at),
                    recorded_by: Some(common.recorded_by),
                    source: common.source,
                    supersedes: common.supersedes,
                    change_reason: common.change_reason,
                    remarks: common.remarks,
                    taken_from: common.taken_from,
                    body,
                    file: file.clone(),
                    spot: node.spot,
                    index: 0,
                    happened_at: None,
                    current: true,
                }
            }
        };
        if record.revision > 1 {
            let id = &*record.id.text;
            let missing = [
                ("change_reason", record.change_reason.is_none()),
                (
                    "supersedes",
                    record.supersedes.is_none() && record.kind != "dossier",
                ),
            ];
            for (name, _) in missing.iter().filter(|(_, missing)| *missing) {
                let message = say!(
                    "{id} is revision {revision} without {name}",
                    id = id,
                    revision = record.revision,
                    name = name
                );
                reader.refuse_by::<()>(
                    "R03",
                    record.id.spot,
                    message,
                    say!("From revision 2 on a record says what it replaces and why."),
                );
            }
        }
        Some(record)
    }
}

fn read_common(node: &Node, _kind: &Kind, reader: &mut Reader) -> Option<Common> {
    // The body's reader speaks of unknown keys; here every key may stand.
    Common::read_map(node, reader, &read::keys(node))
}

/// All records of a folder, found by kind and id.
#[derive(Default, Debug)]
pub struct Records {
    /// Every record that could be read, superseded ones too, in the order of files and lines.
    pub all: Vec<Record>,
    /// By kind and id.
    found: BTreeMap<&'static str, Index<Revisions>>,
    /// By id alone: of several records of one id that of the first kind.
    any: HashMap<Box<str>, usize>,
}

/// The revisions of a record.
#[derive(Debug)]
struct Revisions {
    /// The place of the current one.
    current: usize,
    /// All in order, with their places; of two records that claim one revision the first.
    all: SmallVec<[(u64, usize); 1]>,
}

impl Records {
    /// Puts records in order; of several revisions the highest is current.
    #[expect(
        clippy::indexing_slicing,
        reason = "every index here is a place in `all`, and each record's kind and id have been entered"
    )]
    pub fn new(mut all: Vec<Record>) -> Records {
        all.iter_mut()
            .enumerate()
            .for_each(|(index, record)| record.index = index);
        let mut found: BTreeMap<&'static str, Index<Revisions>> = BTreeMap::new();
        for (index, record) in all.iter().enumerate() {
            let ids = found.entry(record.kind).or_default();
            let id = ids.entry(record.id.text.clone());
            let own = id.or_insert_with(|| Revisions {
                current: index,
                all: SmallVec::new(),
            });
            if all[own.current].revision < record.revision {
                own.current = index;
            }
            if let Err(place) = own.all.binary_search_by_key(&record.revision, |(n, _)| *n) {
                own.all.insert(place, (record.revision, index));
            }
        }
        let mut any = HashMap::new();
        for ids in found.values_mut() {
            *ids = ordered(std::mem::take(ids));
            for (id, own) in ids {
                any.entry(id.clone()).or_insert(own.current);
            }
        }
        // What happened did so when its first revision was written.
        for own in found.values().flat_map(|ids| ids.values()) {
            let first = own.all.first();
            let first = first.and_then(|(_, index)| all[*index].recorded_at.clone());
            for (_, index) in &own.all {
                all[*index].happened_at = first.clone();
            }
        }
        for record in &mut all {
            if record.happened_at.is_none() {
                record.happened_at = record.recorded_at.clone();
            }
        }
        for index in 0..all.len() {
            let own = &found[all[index].kind][&all[index].id.text];
            all[index].current = all[own.current].revision == all[index].revision;
        }
        Records { all, found, any }
    }

    /// The record at an index that these records gave out, such as [`Record::index`].
    #[expect(
        clippy::indexing_slicing,
        reason = "who has an index has it from these records, and `all` never shrinks"
    )]
    pub fn at(&self, index: usize) -> &Record {
        &self.all[index]
    }

    /// The current records of a kind, in the order of their ids.
    pub fn of_kind(&self, kind: &str) -> impl Iterator<Item = &Record> {
        let ids = self.found.get(kind).into_iter();
        ids.flat_map(|ids| ids.values())
            .map(|own| self.at(own.current))
    }

    fn own(&self, kind: &str, id: &str) -> Option<&Revisions> {
        self.found.get(kind)?.get(id)
    }

    /// The current record of a kind and id.
    pub fn find(&self, kind: &str, id: &str) -> Option<&Record> {
        self.own(kind, id).map(|own| self.at(own.current))
    }

    /// One revision of a record, superseded ones too.
    pub fn revision(&self, kind: &str, id: &str, revision: u64) -> Option<&Record> {
        let all = &self.own(kind, id)?.all;
        let (_, index) = all.iter().find(|(number, _)| *number == revision)?;
        Some(self.at(*index))
    }

    /// Every revision of a record, the first first.
    pub fn revisions(&self, kind: &str, id: &str) -> impl Iterator<Item = &Record> {
        let own = self.own(kind, id).into_iter();
        own.flat_map(|own| &own.all)
            .map(|(_, index)| self.at(*index))
    }

    /// Every current record, by kind and id.
    pub fn current(&self) -> impl Iterator<Item = &Record> {
        let all = self.found.values().flat_map(|ids| ids.values());
        all.map(|own| self.at(own.current))
    }

    /// Whether this is the current revision.
    pub fn is_current(&self, record: &Record) -> bool {
        record.current
    }

    /// A record of any kind with this id.
    pub fn any(&self, id: &str) -> Option<&Record> {
        self.any.get(id).map(|index| self.at(*index))
    }

    /// The root record.
    pub fn head(&self) -> Option<(&Record, &kinds::dossier::Dossier)> {
        self.dossiers().next()
    }
}

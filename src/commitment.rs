//! One number for all records of which a customer's copy can show a part and withhold the rest.
//!
//! Every record and every other file is a piece. Pieces stand in groups: a record belongs to every lot that it names
//! (by the lot's own name or that of one of its modules or assemblies), and what no lot owns to its roll, instrument,
//! product or plant. Each piece in a group is an entry: its kind, whether it names a customer, and the SHA-256 of a salt and its content. A group's entries make
//! a tree (RFC 9162), the heads of all groups another, and the head of that one is printed and signed: the root.
//!
//! Salts come from a key by HMAC-SHA256 (RFC 2104), so that the same folder gives the same root, and whoever lacks
//! the key cannot try out what a withheld piece might say.

use std::{
    collections::{BTreeMap, BTreeSet},
    ops::Range,
    sync::Arc,
};

use hmac::{Hmac, KeyInit as _, Mac as _};
use rayon::prelude::*;
use sha2::{Digest as _, Sha256};

mod names;

pub use names::{Names, tokens};

use crate::{
    ground::{PIECE, digest::Digest, index::Index},
    plant::Plant,
    record::{
        Record,
        folder::{Folder, holds_records},
        kinds::Body,
    },
    tree,
};

/// The file whose bytes are the key of the salts. It is part of the folder and never part of a customer's copy.
pub const KEY_FILE: &str = "copies.key";

/// A record or another file.
#[derive(Clone, Debug)]
pub struct Piece {
    /// The file it stands in.
    pub file: Arc<str>,
    /// Its place in the file, from 0.
    pub number: usize,
    /// Its bytes in the file.
    pub range: Range<usize>,
    /// Its kind: that of its record, `chapter`, `export`, `file`, or `lines` where no record could be read.
    pub kind: &'static str,
    /// The id of its record; empty for none.
    pub id: String,
    /// Lots that it names, in order.
    pub lots: BTreeSet<String>,
    /// Whether it names any customer: only such a piece may stay sealed among others of its group.
    pub customer: bool,
}

/// Pieces that are shown together or not at all, but for single ones that stay sealed.
#[derive(Clone, Debug)]
pub struct Group {
    /// What it is about: `lot`, `material`, `instrument`, `product`, `plant`, `record`, `file`, `dossier`.
    pub of: &'static str,
    /// Its name.
    pub name: String,
    /// Its pieces.
    pub members: BTreeSet<usize>,
}

/// Everything of a folder in groups.
pub struct Commitment {
    /// The pieces, in the order of files and lines.
    pub pieces: Vec<Piece>,
    /// The groups, by what they are about and their names.
    pub groups: Vec<Group>,
    key: [u8; 32],
}

/// Where the parts of a YAML stream lie: each begins with its marker `---`, the first with the file. In YAML such a line is
/// a marker wherever it stands, even within a block of text (YAML 1.2.2, 9.1.2).
pub fn parts(bytes: &[u8]) -> Vec<Range<usize>> {
    let mut begins = vec![0];
    let mut at = 0;
    for line in bytes.split_inclusive(|byte| *byte == b'\n') {
        let marker = line.strip_prefix(b"---").is_some_and(|rest| {
            rest.first()
                .is_none_or(|byte| matches!(byte, b' ' | b'\t' | b'\r' | b'\n'))
        });
        if marker && at > 0 {
            begins.push(at);
        }
        at += line.len();
    }
    let ends = begins.iter().skip(1).copied().chain([bytes.len()]);
    begins
        .iter()
        .copied()
        .zip(ends)
        .map(|(a, b)| a..b)
        .collect()
}

/// What a record is about that no lot owns.
fn subject(record: &Record) -> Option<(&'static str, &str)> {
    let named = |of, text| Some((of, text));
    match &record.body {
        Body::Dossier(_) => named("dossier", ""),
        Body::MaterialLot(_) => named("material", &record.id),
        Body::MembraneTest(body) => named("material", &body.material_lot),
        Body::SlittingRecord(body) => named("material", &body.material_lot),
        Body::RetentionChallenge(body) => named("material", &body.material_lot),
        Body::CalibrationRecord(body) => named("instrument", &body.instrument_id),
        Body::ProductSpecification(body) => named("product", &body.product_code),
        Body::LayerStack(body) => named("product", &body.product_code),
        Body::ElementGeometry(body) => named("product", &body.product_code),
        Body::CycleClaim(body) => named("product", &body.product_code),
        Body::EnduranceStudy(body) => named("product", &body.product_code),
        Body::MeasurementStudy(body) => named("product", &body.product_code),
        Body::PersonnelAuthorisation(_)
        | Body::SignaturePolicy(_)
        | Body::Requirement(_)
        | Body::IntakeMapping(_) => named("plant", ""),
        _ => None,
    }
}

/// Every customer that the head or a release statement names, with the names that they give.
pub fn customers_known(plant: &Plant) -> BTreeMap<String, BTreeSet<String>> {
    let mut known: BTreeMap<String, BTreeSet<String>> = BTreeMap::new();
    let head = plant.records().head();
    let parties = head
        .iter()
        .flat_map(|(_, head)| head.customers.iter().chain(&head.customer));
    for party in parties {
        if let Some(id) = party.customer_id.as_ref().or(party.id.as_ref()) {
            let names = known.entry(id.to_string()).or_default();
            names.insert(party.name.to_string());
        }
    }
    for record in &plant.records().all {
        if let Body::ReleaseStatement(release) = &record.body
            && let Some(id) = release.customer.get("customer_id")
        {
            let names = known.entry(id.to_string()).or_default();
            names.extend(release.customer.get("name").map(|name| name.to_string()));
        }
    }
    known
}

/// Whether a record is one of a single thing: what names the record speaks of the thing too.
fn of_a_thing(body: &Body) -> bool {
    matches!(
        body,
        Body::ModuleTest(_)
            | Body::AssemblyTest(_)
            | Body::AssemblyBuild(_)
            | Body::SealRun(_)
            | Body::FlowTest(_)
            | Body::CycleLog(_)
            | Body::PleatingRecord(_)
    )
}

/// Lots by every name that leads to them: their own, their modules', their assemblies', of all revisions.
fn lot_names(plant: &Plant) -> BTreeMap<&str, BTreeSet<&str>> {
    let records = &plant.records().all;
    let mut of_element: BTreeMap<&str, BTreeSet<&str>> = BTreeMap::new();
    for record in records {
        if let Body::PleatingRecord(body) = &record.body {
            let lot = &*body.lot_id.text;
            of_element.entry(lot).or_default().insert(lot);
            for pack in &body.packs {
                let id = &*pack.module_id.text;
                of_element.entry(id).or_default().insert(lot);
            }
        }
    }
    let mut built: BTreeMap<&str, BTreeSet<&str>> = BTreeMap::new();
    for record in records {
        if let Body::AssemblyBuild(body) = &record.body {
            let all = built.entry(&body.assembly_id.text).or_default();
            for position in &body.modules {
                let lots = of_element.get(&*position.module_id.text);
                all.extend(lots.into_iter().flatten());
            }
        }
    }
    for (id, lots) in built {
        of_element.entry(id).or_default().extend(lots);
    }
    of_element
}

/// What a name leads to.
#[derive(Default)]
struct Meaning<'a> {
    /// Lots of its own.
    lots: BTreeSet<&'a str>,
    /// Lots of the test, the build or the run of seals that has this name.
    of_thing: BTreeSet<&'a str>,
    customer: bool,
    /// The roll or the instrument of records.
    common: BTreeSet<(&'static str, &'a str)>,
    /// The piece that is this file.
    file: Option<usize>,
}

/// Which names stand in which piece: all are looked for in one pass.
struct Named<'a> {
    /// By name.
    meanings: Index<Meaning<'a>>,
    /// For each piece, in order, the places of the names in it.
    found: Vec<Vec<usize>>,
}

impl<'a> Named<'a> {
    fn new(
        plant: &'a Plant,
        pieces: &[Piece],
        records: &BTreeMap<usize, Vec<&'a Record>>,
    ) -> Named<'a> {
        let mut meanings: Index<Meaning> = Index::new();
        for (name, lots) in lot_names(plant) {
            meanings.entry(name.into()).or_default().lots = lots;
        }
        for (id, names) in customers_known(plant) {
            for name in names.into_iter().chain([id]) {
                meanings.entry(name.into()).or_default().customer = true;
            }
        }
        for record in records.values().flatten() {
            if of_a_thing(&record.body) {
                meanings.entry(record.id.text.clone()).or_default();
            }
            if let Some((of @ ("material" | "instrument"), name)) = subject(record) {
                let common = &mut meanings.entry(name.into()).or_default().common;
                common.insert((of, name));
            }
        }
        for (index, piece) in pieces.iter().enumerate() {
            if matches!(piece.kind, "file" | "export") {
                meanings.entry((*piece.file).into()).or_default().file = Some(index);
            }
        }
        // Only places are taken here, whatever their order.
        let mut names = Names::default();
        for (place, name) in meanings.keys().enumerate() {
            names.add(name, place);
        }
        let find = |piece: &Piece| {
            let mut found: Vec<usize> =
                names.within(bytes(&plant.folder, piece)).copied().collect();
            found.sort_unstable();
            found.dedup();
            found
        };
        let found = pieces.par_iter().with_max_len(PIECE).map(find).collect();
        let mut named = Named { meanings, found };
        // What names a test, a build or a run of seals speaks of their lots.
        for (index, own) in records {
            let direct: BTreeSet<&str> = named
                .of(*index)
                .flat_map(|meaning| meaning.lots.iter().copied())
                .collect();
            for record in own.iter().filter(|record| of_a_thing(&record.body)) {
                if let Some(meaning) = named.meanings.get_mut(&record.id.text) {
                    meaning.of_thing.extend(&direct);
                }
            }
        }
        named
    }

    /// What the names in a piece lead to.
    fn of(&self, piece: usize) -> impl Iterator<Item = &Meaning<'a>> {
        let found = self.found.get(piece).into_iter().flatten();
        found.filter_map(|place| Some(self.meanings.get_index(*place)?.1))
    }

    /// The lots that a piece speaks of.
    fn lots(&self, piece: usize) -> impl Iterator<Item = &'a str> {
        self.of(piece)
            .flat_map(|meaning| meaning.lots.iter().chain(&meaning.of_thing).copied())
    }
}

impl Commitment {
    /// Puts everything of a folder into groups.
    pub fn of(plant: &Plant) -> Commitment {
        let folder = &plant.folder;
        let (mut pieces, records) = pieces(plant);
        let named = Named::new(plant, &pieces, &records);
        for (index, piece) in pieces.iter_mut().enumerate() {
            piece.lots = named.lots(index).map(str::to_owned).collect();
            piece.customer = named.of(index).any(|meaning| meaning.customer);
        }
        let mut groups: BTreeMap<(&'static str, String), BTreeSet<usize>> = BTreeMap::new();
        let places = places(&pieces, &records, &named);
        for (index, places) in places.into_iter().enumerate() {
            for place in places {
                groups.entry(place).or_default().insert(index);
            }
        }
        let groups = groups
            .into_iter()
            .map(|((of, name), members)| Group { of, name, members })
            .collect();
        Commitment {
            pieces,
            groups,
            key: key(folder),
        }
    }

    /// A piece by its place, as the members of groups are.
    #[expect(
        clippy::indexing_slicing,
        reason = "a place is that of a piece of this commitment, and there are never fewer of them"
    )]
    pub fn piece(&self, place: usize) -> &Piece {
        &self.pieces[place]
    }

    /// The bytes of a piece.
    pub fn bytes<'a>(&self, folder: &'a Folder, piece: usize) -> &'a [u8] {
        bytes(folder, self.piece(piece))
    }

    fn salt(&self, group: &Group, of: &str) -> Digest {
        #[expect(
            clippy::expect_used,
            reason = "HMAC takes keys of any length (RFC 2104)"
        )]
        let mut mac =
            Hmac::<Sha256>::new_from_slice(&self.key).expect("a key of any length will do");
        for part in [group.of, &group.name, of] {
            mac.update(part.as_bytes());
            mac.update(&[0]);
        }
        Digest(mac.finalize().into_bytes().into())
    }

    /// The salt of a group's name.
    pub fn group_salt(&self, group: &Group) -> Digest {
        self.salt(group, "")
    }

    /// The salt of a piece in a group.
    pub fn piece_salt(&self, group: &Group, piece: usize) -> Digest {
        let piece = self.piece(piece);
        self.salt(group, &format!("{}\0{}", piece.file, piece.number))
    }

    /// The seal of a piece in a group.
    pub fn seal(&self, folder: &Folder, group: &Group, piece: usize) -> Digest {
        sealed(
            self.piece_salt(group, piece),
            &self.piece(piece).file,
            self.bytes(folder, piece),
        )
    }

    /// The head of a group.
    pub fn head(&self, folder: &Folder, group: &Group) -> Digest {
        let members: Vec<usize> = group.members.iter().copied().collect();
        let entries = members
            .par_iter()
            .map(|index| {
                let piece = self.piece(*index);
                entry(piece.kind, piece.customer, self.seal(folder, group, *index))
            })
            .collect();
        group_head(group.of, &group.name, self.group_salt(group), entries)
    }

    /// The root.
    pub fn root(&self, folder: &Folder) -> Digest {
        root(
            self.groups
                .par_iter()
                .map(|group| self.head(folder, group))
                .collect(),
        )
    }
}

/// The seal of some content under a salt of 32 bytes.
pub fn sealed(salt: Digest, file: &str, bytes: &[u8]) -> Digest {
    let mut hasher = Sha256::new();
    hasher.update(salt.0);
    hasher.update(file.as_bytes());
    hasher.update([0]);
    hasher.update(bytes);
    Digest(hasher.finalize().into())
}

/// An entry of a group's tree: in clear the kind and whether the content names a customer, the content sealed.
pub fn entry(kind: &str, customer: bool, seal: Digest) -> Vec<u8> {
    [kind.as_bytes(), &[0, u8::from(customer)], &seal.0].concat()
}

/// The head of a group: its name, sealed, then its entries in the order of their bytes, which says nothing of theirs.
pub fn group_head(of: &str, name: &str, salt: Digest, mut entries: Vec<Vec<u8>>) -> Digest {
    entries.sort();
    let first = entry("group", false, sealed(salt, of, name.as_bytes()));
    let leaves: Vec<Digest> = std::iter::once(&first)
        .chain(&entries)
        .map(|entry| tree::leaf(entry))
        .collect();
    tree::head(&leaves)
}

/// The root over the heads of all groups, in the order of their bytes.
pub fn root(mut heads: Vec<Digest>) -> Digest {
    heads.sort();
    let leaves: Vec<Digest> = heads.iter().map(|head| tree::leaf(&head.0)).collect();
    tree::head(&leaves)
}

/// A shorter key could be tried out.
const SHORTEST_KEY: usize = 16;

/// Whether a folder brings a key of its own.
pub fn has_key(folder: &Folder) -> bool {
    let file = folder.files.get(KEY_FILE);
    file.is_some_and(|file| file.bytes.trim_ascii().len() >= SHORTEST_KEY)
}

/// The folder's own key; without one, a number that takes all of the folder to compute.
fn key(folder: &Folder) -> [u8; 32] {
    let mut hasher = Sha256::new();
    match folder.files.get(KEY_FILE) {
        Some(file) => hasher.update(file.bytes.trim_ascii()),
        None => folder
            .files
            .iter()
            .for_each(|(name, file)| hasher.update(format!("{}  {name}\n", file.digest))),
    }
    hasher.finalize().into()
}

/// The bytes of a piece.
#[expect(
    clippy::indexing_slicing,
    reason = "a piece is a part of a file of the folder that it was made from, and no file changes once it is read"
)]
fn bytes<'a>(folder: &'a Folder, piece: &Piece) -> &'a [u8] {
    &folder.files[&piece.file].bytes[piece.range.clone()]
}

/// The pieces, and the records that begin in each.
fn pieces(plant: &Plant) -> (Vec<Piece>, BTreeMap<usize, Vec<&Record>>) {
    let folder = &plant.folder;
    let chapters: BTreeSet<&str> = plant
        .records()
        .head()
        .iter()
        .flat_map(|(_, head)| head.chapters.iter().map(|chapter| &*chapter.text))
        .collect();
    let exports: BTreeSet<&str> = plant
        .records()
        .all
        .iter()
        .filter_map(|record| record.taken_from.as_ref())
        .map(|from| &*from.file.text)
        .collect();
    let mut out = Vec::new();
    for (name, file) in folder.files.iter().filter(|(name, _)| &***name != KEY_FILE) {
        let whole = 0..file.bytes.len();
        let (ranges, kind) = match () {
            () if holds_records(name) => (parts(&file.bytes), "lines"),
            () if chapters.contains(&**name) => (vec![whole], "chapter"),
            () if exports.contains(&**name) => (vec![whole], "export"),
            () => (vec![whole], "file"),
        };
        for (number, range) in ranges.into_iter().enumerate() {
            out.push(Piece {
                file: name.clone(),
                number,
                range,
                kind,
                id: String::new(),
                lots: BTreeSet::new(),
                customer: false,
            });
        }
    }
    let records = by_piece(plant, &out);
    for (index, own) in &records {
        if let (Some(record), Some(piece)) = (own.first(), out.get_mut(*index)) {
            piece.kind = record.kind;
            piece.id = record.id.to_string();
        }
    }
    (out, records)
}

/// The records that begin in each piece: one, where all is well.
fn by_piece<'a>(plant: &'a Plant, pieces: &[Piece]) -> BTreeMap<usize, Vec<&'a Record>> {
    let mut of_file: BTreeMap<&str, Vec<&Record>> = BTreeMap::new();
    for record in &plant.records().all {
        of_file.entry(&record.file).or_default().push(record);
    }
    let mut out: BTreeMap<usize, Vec<&Record>> = BTreeMap::new();
    let (mut file, mut line, mut rest) = ("", 1, [].iter().peekable());
    for (index, piece) in pieces.iter().enumerate() {
        if *file != *piece.file {
            let records = of_file.get(&*piece.file).map(|own| &own[..]);
            (file, line, rest) = (
                &piece.file,
                1,
                records.unwrap_or_default().iter().peekable(),
            );
        }
        let bytes = bytes(&plant.folder, piece);
        line += bytes.iter().filter(|byte| **byte == b'\n').count();
        // A last line without an end counts too.
        let end = line + usize::from(!bytes.ends_with(b"\n"));
        while let Some(record) = rest.next_if(|record| (record.spot.line as usize) < end) {
            out.entry(index).or_default().push(record);
        }
    }
    out
}

/// The groups of each piece.
fn places(
    pieces: &[Piece],
    records: &BTreeMap<usize, Vec<&Record>>,
    named: &Named,
) -> Vec<BTreeSet<(&'static str, String)>> {
    let owned = |(of, name): (&'static str, &str)| (of, name.to_owned());
    let own = |(index, piece): (usize, &Piece)| -> BTreeSet<(&'static str, String)> {
        let mut out: BTreeSet<(&'static str, String)> = BTreeSet::new();
        let of_record = records.get(&index).map(|own| &own[..]).unwrap_or_default();
        let subjects = of_record.iter().filter_map(|record| subject(record));
        out.extend(subjects.map(owned));
        if piece.kind == "dossier" {
            return out;
        }
        if piece.kind == "chapter" && piece.lots.is_empty() {
            out.insert(("plant", String::new()));
        }
        out.extend(piece.lots.iter().map(|lot| ("lot", lot.clone())));
        if out.is_empty() && !of_record.is_empty() {
            // A deviation about a roll or an instrument belongs to it.
            let common = named.of(index).flat_map(|meaning| &meaning.common);
            out.extend(common.copied().map(owned));
        }
        if out.is_empty()
            && let Some(record) = of_record.first()
        {
            out.insert(("record", record.id.to_string()));
        }
        out
    };
    let mut places: Vec<_> = pieces.par_iter().enumerate().map(own).collect();
    // A file that records name goes where they go.
    for (index, piece) in pieces.iter().enumerate() {
        if piece.kind == "dossier" || !holds_records(&piece.file) {
            continue;
        }
        let files: Vec<usize> = named.of(index).filter_map(|meaning| meaning.file).collect();
        if files.is_empty() {
            continue;
        }
        let more = places.get(index).cloned().unwrap_or_default();
        for own in files {
            if let Some(own) = places.get_mut(own) {
                own.extend(more.iter().cloned());
            }
        }
    }
    for (piece, places) in pieces.iter().zip(&mut places) {
        if places.is_empty() {
            places.insert(("file", piece.file.to_string()));
        }
    }
    places
}

#[cfg(test)]
mod tests;

//! Which pieces a copy shows, and the head that it gets of its own.

use std::{
    collections::{BTreeMap, BTreeSet},
    sync::Arc,
};

use aho_corasick::AhoCorasick;
use rayon::prelude::*;

use super::{ANOTHER_CUSTOMER, EXPORT, OTHER_LOTS, Proof, Shown, ShownPiece};
use crate::{
    commitment::{Commitment, Names, customers_known},
    ground::words::{self, Language},
    plant::Plant,
    record::kinds::{
        Body,
        dossier::{Party, Tongue},
    },
};

/// For whom or for which lots a copy is asked.
#[derive(Clone, Debug)]
pub enum Asked {
    /// The lots of which something was released to this customer.
    Customer(String),
    /// These lots.
    Lots(BTreeSet<String>),
}

/// Message and advice.
pub type Refusal = (String, String);

/// What a copy is made from.
pub struct Chosen {
    /// Its files: what is shown, and a head of its own.
    pub files: BTreeMap<Arc<str>, Vec<u8>>,
    /// The proof, without what rules say.
    pub proof: Proof,
    /// Shown records that name other lots too, with those lots.
    pub shared: BTreeMap<String, BTreeSet<String>>,
}

/// Chooses.
///
/// # Errors
/// When nothing is known of what was asked for, or `dossier.yaml` holds more than the head.
#[expect(
    clippy::indexing_slicing,
    reason = "`because` has one entry a piece and `part` one a shown piece, and `shown` holds places of groups"
)]
pub fn choose(plant: &Plant, asked: &Asked) -> Result<Chosen, Refusal> {
    let commitment = Commitment::of(plant);
    let folder = &plant.folder;
    let lots = lots(plant, asked)?;
    let strangers = strangers(plant, asked, &lots);
    let because: Vec<Option<&'static str>> = commitment
        .pieces
        .par_iter()
        .enumerate()
        .map(|(index, piece)| {
            let elsewhere = piece.kind == "chapter" && !piece.lots.is_subset(&lots);
            match strangers.within(commitment.bytes(folder, index)) {
                _ if piece.kind == "export" => Some(EXPORT),
                true => Some(ANOTHER_CUSTOMER),
                false => elsewhere.then_some(OTHER_LOTS),
            }
        })
        .collect();
    let shown = needed(&commitment, plant, &lots, &because);
    let pieces: BTreeSet<usize> = shown
        .iter()
        .flat_map(|group| commitment.groups[*group].members.iter().copied())
        .filter(|piece| because[*piece].is_none())
        .collect();
    let mut files: BTreeMap<Arc<str>, Vec<u8>> = BTreeMap::new();
    let mut part: BTreeMap<usize, usize> = BTreeMap::new();
    let mut count: BTreeMap<&str, usize> = BTreeMap::new();
    let mut shared: BTreeMap<String, BTreeSet<String>> = BTreeMap::new();
    for index in &pieces {
        let piece = commitment.piece(*index);
        let bytes = commitment.bytes(folder, *index);
        if &*piece.file == "dossier.yaml" {
            return Err((
                say!("dossier.yaml holds other records than its own").into(),
                say!("Give them a file of their own: a copy has a dossier.yaml of its own.").into(),
            ));
        }
        files.entry(piece.file.clone()).or_default().extend(bytes);
        let n = count.entry(&piece.file).or_default();
        part.insert(*index, *n);
        *n += 1;
        let others: BTreeSet<String> = piece.lots.difference(&lots).cloned().collect();
        if !others.is_empty() {
            shared.entry(piece.id.clone()).or_default().extend(others);
        }
    }
    let groups = shown.iter().map(|group| {
        let group = &commitment.groups[*group];
        let pieces = group.members.iter().map(|index| {
            let piece = commitment.piece(*index);
            match because[*index] {
                Some(because) => ShownPiece::Sealed {
                    kind: piece.kind.into(),
                    customer: piece.customer,
                    seal: commitment.seal(folder, group, *index).to_string(),
                    because: because.into(),
                },
                None => ShownPiece::Here {
                    kind: piece.kind.into(),
                    customer: piece.customer,
                    file: piece.file.to_string(),
                    part: part[index],
                    salt: commitment.piece_salt(group, *index).to_string(),
                },
            }
        });
        Shown {
            of: group.of.into(),
            name: group.name.clone(),
            salt: commitment.group_salt(group).to_string(),
            pieces: pieces.collect(),
        }
    });
    let withheld = (0..).zip(&commitment.groups);
    let mut withheld: Vec<String> = withheld
        .filter(|(place, _)| !shown.contains(place))
        .map(|(_, group)| commitment.head(folder, group).to_string())
        .collect();
    withheld.sort();
    let proof = Proof {
        format: 1,
        lots: lots.iter().cloned().collect(),
        customer: match asked {
            Asked::Customer(id) => Some(id.clone()),
            Asked::Lots(_) => None,
        },
        shown: groups.collect(),
        withheld,
        beyond: Vec::new(),
    };
    let chapters: BTreeSet<&str> = files.keys().map(|name| &**name).collect();
    let head = head(plant, &proof, &strangers, &chapters)?;
    files.insert("dossier.yaml".into(), head.into_bytes());
    Ok(Chosen {
        files,
        proof,
        shared,
    })
}

/// The lots that are asked for.
fn lots(plant: &Plant, asked: &Asked) -> Result<BTreeSet<String>, Refusal> {
    let there = || {
        plant
            .lots
            .keys()
            .map(|lot| lot.to_string())
            .collect::<Vec<_>>()
            .join(", ")
    };
    match asked {
        Asked::Lots(lots) => match lots.iter().find(|lot| !plant.lots.contains_key(&***lot)) {
            Some(lot) => Err((
                say!("there is no lot {lot} in this dossier", lot = lot),
                say!("Its lots are: {there}.", there = there()),
            )),
            None => Ok(lots.clone()),
        },
        Asked::Customer(id) => {
            let released: BTreeSet<String> = plant
                .releases()
                .filter(|(_, release)| {
                    release
                        .customer
                        .get("customer_id")
                        .is_some_and(|own| **own == **id)
                })
                .flat_map(|(_, release)| {
                    let assemblies = release.object.assemblies.iter();
                    assemblies
                        .filter_map(|assembly| plant.lot_of(assembly))
                        .chain(
                            plant
                                .lots
                                .contains_key(&*release.object.lot_id.text)
                                .then_some(&*release.object.lot_id.text),
                        )
                })
                .map(str::to_owned)
                .collect();
            match released.is_empty() {
                // A lot is what its pleating record says; without one nothing can be told apart.
                true if plant.lots.is_empty() => Err((
                    say!(
                        "no lot of this dossier is known: no pleating_record is among its records"
                    )
                    .into(),
                    say!("A copy is made by lots: add the pleating records, and compile again.")
                        .into(),
                )),
                true => Err((
                    say!(
                        "nothing of this dossier was released to {customer}",
                        customer = id
                    ),
                    say!(
                        "Name the customer_id of a release statement, or lots with --lot: {there}.",
                        there = there()
                    ),
                )),
                false => Ok(released),
            }
        }
    }
}

/// Names of others, looked for as people write them: in any capitals, over the end of a line, without what stands in
/// brackets behind them, inside a longer name of a file.
struct Strangers {
    all: Option<AhoCorasick>,
    /// Names of those that the copy is for, the longest first: what is theirs is nobody else's.
    own: Vec<String>,
}

impl Strangers {
    fn of<'a>(
        others: impl Iterator<Item = &'a str>,
        own: impl Iterator<Item = &'a str>,
    ) -> Strangers {
        let ways = |name: &str| {
            let whole = plainly(name.as_bytes());
            let bare = whole.split(" (").next().unwrap_or_default().to_owned();
            [whole, bare]
        };
        let mut own: Vec<String> = own.flat_map(ways).filter(|name| !name.is_empty()).collect();
        own.sort_by_key(|name| std::cmp::Reverse(name.len()));
        let all: BTreeSet<String> = others.flat_map(ways).collect();
        let all = all.into_iter();
        let all = all.filter(|name| !name.is_empty() && !own.contains(name));
        // More names than an automaton takes are as good as all: nothing is shown then.
        Strangers {
            all: AhoCorasick::new(all).ok(),
            own,
        }
    }

    /// Whether one of them stands in some bytes, as a word of its own.
    fn within(&self, bytes: &[u8]) -> bool {
        let Some(all) = &self.all else {
            return true;
        };
        let mut text = plainly(bytes);
        for own in self.own.iter().filter(|own| own.contains(' ')) {
            if text.contains(&**own) {
                text = text.replace(&**own, " ");
            }
        }
        let apart = |c: Option<char>| c.is_none_or(|c| !c.is_alphanumeric());
        all.find_overlapping_iter(&text).any(|hit| {
            let before = text.get(..hit.start()).and_then(|text| text.chars().last());
            let after = text.get(hit.end()..).and_then(|text| text.chars().next());
            apart(before) && apart(after)
        })
    }
}

/// Small letters, and one blank wherever there are blanks or ends of lines.
fn plainly(bytes: &[u8]) -> String {
    let text = String::from_utf8_lossy(bytes);
    let words: Vec<String> = text.split_whitespace().map(str::to_lowercase).collect();
    words.join(" ")
}

/// Ids and names of every customer but those that the copy is for.
fn strangers(plant: &Plant, asked: &Asked, lots: &BTreeSet<String>) -> Strangers {
    let known = customers_known(plant);
    let mut own: BTreeSet<String> = BTreeSet::new();
    if let Asked::Customer(id) = asked {
        own.insert(id.clone());
    }
    for record in &plant.records().all {
        let Body::ReleaseStatement(release) = &record.body else {
            continue;
        };
        let of_lot = |lot: &str| matches!(asked, Asked::Lots(_)) && lots.contains(lot);
        let mut all = release.object.assemblies.iter();
        if of_lot(&release.object.lot_id) || all.any(|id| plant.lot_of(id).is_some_and(of_lot)) {
            own.extend(release.customer.get("customer_id").map(|id| id.to_string()));
        }
    }
    let own = &own;
    let of = |mine: bool| {
        let some = known
            .iter()
            .filter(move |(id, _)| own.contains(*id) == mine);
        some.flat_map(|(id, names)| {
            let names = names.iter().map(|name| &**name);
            std::iter::once(&**id).chain(names)
        })
    };
    Strangers::of(of(false), of(true))
}

/// The groups of the lots, and every group that something shown names, and so on.
#[expect(
    clippy::indexing_slicing,
    reason = "`because` has one entry a piece, and `open` holds places of groups"
)]
fn needed(
    commitment: &Commitment,
    plant: &Plant,
    lots: &BTreeSet<String>,
    because: &[Option<&'static str>],
) -> BTreeSet<usize> {
    let folder = &plant.folder;
    let mut names: Names<usize> = Names::default();
    let mut open = Vec::new();
    for (index, group) in commitment.groups.iter().enumerate() {
        match group.of {
            "plant" => open.push(index),
            "lot" if lots.contains(&group.name) => open.push(index),
            "material" | "instrument" | "product" | "record" => {
                names.add(&group.name, index);
                for piece in &group.members {
                    names.add(&commitment.piece(*piece).id, index);
                }
            }
            _ => {}
        }
    }
    let mut shown: BTreeSet<usize> = BTreeSet::new();
    while let Some(index) = open.pop() {
        if !shown.insert(index) {
            continue;
        }
        for piece in &commitment.groups[index].members {
            if because[*piece].is_none() {
                open.extend(names.within(commitment.bytes(folder, *piece)));
            }
        }
    }
    shown
}

/// The copy's own `dossier.yaml`.
fn head(
    plant: &Plant,
    proof: &Proof,
    strangers: &Strangers,
    shown: &BTreeSet<&str>,
) -> Result<String, Refusal> {
    let (record, head) = plant.records().head().ok_or_else(|| {
        (
            say!("this dossier has no head").to_owned(),
            say!("Take a whole copy.").to_owned(),
        )
    })?;
    // A JSON string is a YAML string.
    let quoted = |text: &str| serde_json::Value::from(text).to_string();
    let id = proof.id(&record.id);
    let party = |party: &Party| {
        let mut out = Vec::new();
        for (key, value) in [
            ("id", party.id.as_deref()),
            ("customer_id", party.customer_id.as_deref()),
        ] {
            out.extend(value.map(|value| format!("{key}: {}", quoted(value))));
        }
        out.push(format!("name: {}", quoted(&party.name)));
        out.extend(
            party
                .address
                .as_deref()
                .map(|text| format!("address: {}", quoted(text))),
        );
        format!("{{{}}}", out.join(", "))
    };
    let customers = head.customers.iter().chain(&head.customer).map(party);
    let customers: Vec<String> = customers
        .filter(|line| !strangers.within(line.as_bytes()))
        .map(|line| format!("  - {line}\n"))
        .collect();
    let chapters: Vec<String> = head
        .chapters
        .iter()
        .filter(|chapter| shown.contains(&*chapter.text))
        .map(|chapter| format!("  - {}\n", quoted(chapter)))
        .collect();
    let mut text = format!(
        "kind: dossier\nrecord_format: \"1\"\nid: {}\nrevision: {}\n",
        quoted(&id),
        record.revision
    );
    if record.revision > 1 {
        let reason = say!("as in the dossier from which this copy was taken");
        text.push_str(&format!("change_reason: {}\n", quoted(reason)));
    }
    text.push_str(&format!(
        "title: {}\nmaker: {}\n",
        quoted(&proof.title()),
        party(&head.maker)
    ));
    if !customers.is_empty() {
        text.push_str(&format!("customers:\n{}", customers.concat()));
    }
    let all: Vec<String> = proof.lots.iter().map(|lot| quoted(lot)).collect();
    text.push_str(&format!(
        "scope: {{lots: [{}]}}\ncompiled_on: \"{}\"\nlanguage: {}\n",
        all.join(", "),
        head.compiled_on.date.written(),
        words::spoken().code()
    ));
    let written = head
        .written()
        .map_or(Language::English.code(), Tongue::word);
    if written != words::spoken().code() {
        text.push_str(&format!("records_language: {written}\n"));
    }
    if !chapters.is_empty() {
        text.push_str(&format!("chapters:\n{}", chapters.concat()));
    }
    Ok(text)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn another_name_is_found_as_people_write_it() {
        let others = ["CU-21", "Harrow Vale Cellars (invented)"];
        let own = ["CU-34", "New Harrow Vale Cellars (invented)", "CU-2"];
        let strangers = Strangers::of(others.into_iter(), own.into_iter());
        for text in [
            "for Harrow Vale Cellars (invented)",
            "for Harrow Vale\n    Cellars (invented)",
            "harrow vale cellars asked",
            "cu-21",
            "see CU-21-letter.pdf",
            "CU-21_letter.pdf",
            "\"HARROW  VALE CELLARS\"",
        ] {
            assert!(strangers.within(text.as_bytes()), "{text}");
        }
        for text in [
            "for New Harrow Vale Cellars (invented)",
            "CU-2, CU-34",
            "CU-210 and XCU-21",
            "Harrow Vale",
        ] {
            assert!(!strangers.within(text.as_bytes()), "{text}");
        }
    }
}

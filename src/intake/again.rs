//! Whether two records say the same.

use std::collections::BTreeMap;

use crate::{
    ground::place::Spot,
    record::{
        Record,
        folder::Folder,
        yaml::{self, Data, Node},
    },
};

/// The texts of some records of a folder, read again, by their places in it.
pub fn nodes_of<'a>(
    folder: &'a Folder,
    records: impl Iterator<Item = &'a Record>,
) -> BTreeMap<usize, Node<'a>> {
    let mut of_file: BTreeMap<&str, BTreeMap<Spot, usize>> = BTreeMap::new();
    for record in records {
        let own = of_file.entry(&record.file).or_default();
        own.insert(record.spot, record.index);
    }
    let mut out = BTreeMap::new();
    for (file, mut wanted) in of_file {
        let bytes = folder.files.get(file).map(|file| &file.bytes[..]);
        let nodes = yaml::documents(bytes.unwrap_or_default()).unwrap_or_default();
        for node in nodes {
            if let Some(index) = wanted.remove(&node.spot) {
                out.insert(index, node);
            }
        }
    }
    out
}

/// The keys of what a revision says of itself.
pub const OF_REVISIONS: [&str; 6] = [
    "revision",
    "supersedes",
    "change_reason",
    "recorded_at",
    "recorded_by",
    "remarks",
];

/// Why a test was repeated: no rig exports it, so a person adds it to what was taken in.
const OF_RETESTS: [&str; 3] = ["retest_of", "retest_deviation", "retest_reason_code"];

/// Where two records differ first.
pub struct Difference {
    /// The way to the field.
    pub field: String,
    /// What the one says.
    pub one: String,
    /// What the other says.
    pub other: String,
    /// Where the one says it; where it says nothing, what should hold it.
    pub one_at: Spot,
    /// Where the other says it; where it says nothing, what should hold it.
    pub at: Spot,
}

/// The first field in which two records differ, with what each says. Where they come from is none of it, nor is why a test was
/// repeated, where only the second says it; and between two revisions neither is what a revision says of itself.
pub fn difference(one: &Node, other: &Node) -> Option<Difference> {
    let revision = |node: &Node| {
        node.get("revision")
            .and_then(|node| node.text().map(str::to_owned))
    };
    let same = revision(one) == revision(other);
    let Data::Map(entries) = &one.data else {
        return None;
    };
    let mine = entries.iter().map(|(key, _)| &*key.text);
    let theirs = crate::record::read::keys(other).into_iter();
    let mut keys: Vec<&str> = mine.collect();
    keys.extend(theirs.filter(|key| one.get(key).is_none()));
    let added = |key: &str| same && OF_RETESTS.contains(&key) && one.get(key).is_none();
    keys.retain(|key| *key != "taken_from" && !added(key) && (same || !OF_REVISIONS.contains(key)));
    keys.into_iter()
        .find_map(|key| differ(key, one.get(key), other.get(key), (one.spot, other.spot)))
}

fn differ(
    path: &str,
    one: Option<&Node>,
    other: Option<&Node>,
    within: (Spot, Spot),
) -> Option<Difference> {
    let words = |node: Option<&Node>| node.map_or(say!("nothing").to_owned(), Node::words);
    let here = || {
        Some(Difference {
            field: path.to_owned(),
            one: words(one),
            other: words(other),
            one_at: one.map_or(within.0, |node| node.spot),
            at: other.map_or(within.1, |node| node.spot),
        })
    };
    let (Some(a), Some(b)) = (one, other) else {
        return here();
    };
    match (&a.data, &b.data) {
        (Data::Scalar(x, m), Data::Scalar(y, n)) if x == y && m == n => None,
        (Data::List(x), Data::List(y)) => (0..x.len().max(y.len())).find_map(|n| {
            differ(
                &format!("{path}[{n}]"),
                x.get(n),
                y.get(n),
                (a.spot, b.spot),
            )
        }),
        // A trace says where it is from too; what it says is held by its digest.
        (Data::Map(x), Data::Map(y)) => x
            .iter()
            .chain(y.iter().filter(|(key, _)| a.get(&key.text).is_none()))
            .filter(|(key, _)| key.text != "taken_from")
            .find_map(|(key, _)| {
                let path = format!("{path}.{}", key.text);
                differ(&path, a.get(&key.text), b.get(&key.text), (a.spot, b.spot))
            }),
        _ => here(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// What differs first between what an export gives and what a record says.
    fn differs(made: &str, written: &str) -> Option<String> {
        let read = |text| yaml::documents(text).unwrap().remove(0);
        let (made, written) = (read(made.as_bytes()), read(written.as_bytes()));
        difference(&made, &written).map(|found| found.field)
    }

    #[test]
    fn why_a_test_was_repeated_is_added_by_hand_and_nothing_else() {
        let made = "kind: module_test\nrevision: 1\nvalue: 1\n";
        let why =
            "retest_of: M-1-T1\nretest_deviation: DV-1\nretest_reason_code: incomplete_wetting\n";
        assert_eq!(differs(made, &format!("{made}{why}")), None);
        assert_eq!(
            differs(made, &format!("{made}more: 1\n")).as_deref(),
            Some("more")
        );
        // What the export gives is not taken away, and what it gives otherwise is not changed.
        assert_eq!(
            differs(&format!("{made}{why}"), made).as_deref(),
            Some("retest_of")
        );
        assert_eq!(
            differs(
                &format!("{made}retest_of: M-1-T1\n"),
                &format!("{made}retest_of: M-2-T1\n")
            )
            .as_deref(),
            Some("retest_of")
        );
        // Between two revisions it is a change like any other.
        let later = made.replace("revision: 1", "revision: 2");
        assert_eq!(
            differs(made, &format!("{later}{why}")).as_deref(),
            Some("retest_of")
        );
    }
}

//! A record as YAML, in the way in which the handbook writes records.

use std::collections::BTreeMap;

use crate::{ground::place::Spot, record::yaml};

/// What a record holds before it is written: leaves with the place in the export that they come from.
#[derive(Clone, Debug)]
pub enum Tree {
    /// A value.
    Leaf {
        /// Its text.
        text: String,
        /// Whether it stands without quotes.
        bare: bool,
        /// The line of the export, and the column.
        from: (u32, String),
    },
    /// A list.
    List(BTreeMap<usize, Tree>),
    /// A map.
    Map(Vec<(String, Tree)>),
}

/// By line and column of a text: the line of the export that a value is from, and its column.
pub type Places = BTreeMap<(u32, u32), (u32, String)>;

/// What stands at a spot of the text, or first behind it in its line.
pub fn nearest(places: &Places, spot: Spot) -> Option<&(u32, String)> {
    let line = (spot.line, spot.column)..(spot.line + 1, 0);
    places.range(line).next().map(|(_, from)| from)
}

/// A text, in quotes where any reader could take it for something else.
pub fn quoted(text: &str) -> String {
    let plain = text.starts_with(|c: char| c.is_ascii_alphabetic())
        && text
            .bytes()
            .all(|b| b.is_ascii_alphanumeric() || b"_-/".contains(&b))
        && yaml::elsewhere(text).is_none()
        && !["true", "false", "null", "inf", "nan"].contains(&text.to_ascii_lowercase().as_str());
    match plain {
        true => text.to_owned(),
        false => serde_json::Value::from(text).to_string(),
    }
}

/// Writes a record; also which place of the export stands where: line and column of the text.
pub fn record(keys: &[(String, Tree)]) -> (String, Places) {
    let mut out = Out::default();
    for (key, tree) in keys {
        out.put(key);
        match tree {
            Tree::List(members)
                if members
                    .values()
                    .any(|member| matches!(member, Tree::Map(_))) =>
            {
                out.put(":");
                for member in members.values() {
                    out.put("\n  - ");
                    out.tree(member);
                }
            }
            tree => {
                out.put(": ");
                out.tree(tree);
            }
        }
        out.put("\n");
    }
    (out.text, out.places)
}

#[derive(Default)]
struct Out {
    text: String,
    line: u32,
    column: u32,
    places: Places,
}

impl Out {
    fn put(&mut self, text: &str) {
        for c in text.chars() {
            match c {
                '\n' => (self.line, self.column) = (self.line + 1, 0),
                _ => self.column += 1,
            }
        }
        self.text.push_str(text);
    }

    fn tree(&mut self, tree: &Tree) {
        match tree {
            Tree::Leaf { text, bare, from } => {
                self.places
                    .insert((self.line + 1, self.column + 1), from.clone());
                match bare {
                    true => self.put(text),
                    false => self.put(&quoted(text)),
                }
            }
            Tree::List(members) => {
                self.put("[");
                for (n, member) in members.values().enumerate() {
                    self.put(if n > 0 { ", " } else { "" });
                    self.tree(member);
                }
                self.put("]");
            }
            Tree::Map(entries) => {
                self.put("{");
                for (n, (key, member)) in entries.iter().enumerate() {
                    self.put(if n > 0 { ", " } else { "" });
                    self.put(key);
                    self.put(": ");
                    self.tree(member);
                }
                self.put("}");
            }
        }
    }
}

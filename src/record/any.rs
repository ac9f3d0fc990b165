//! Anything that a record may hold without a form of its own.

use serde_json::{Value, json};

use super::{
    read::{Read, Reader, Text},
    yaml::{Data, Node},
};

/// Anything: kept as the texts of its leaves, each with its path.
#[derive(Clone, Debug)]
pub struct Any {
    /// `module_id` → `M-1`, `items/0` → …, in the order of the file.
    pub leaves: Vec<(String, Text)>,
}

impl Any {
    /// The text of one leaf.
    pub fn get(&self, path: &str) -> Option<&Text> {
        self.leaves
            .iter()
            .find(|(p, _)| p == path)
            .map(|(_, text)| text)
    }

    /// Every leaf's text.
    pub fn texts(&self) -> impl Iterator<Item = &Text> {
        self.leaves.iter().map(|(_, text)| text)
    }
}

impl Read for Any {
    fn read(_: &str, node: &Node, _: &mut Reader) -> Option<Self> {
        fn walk(path: String, node: &Node, out: &mut Vec<(String, Text)>) {
            let below = |key: &str| {
                if path.is_empty() {
                    key.to_owned()
                } else {
                    format!("{path}/{key}")
                }
            };
            match &node.data {
                Data::Scalar(text, _) => out.push((
                    path,
                    Text {
                        text: (&**text).into(),
                        spot: node.spot,
                    },
                )),
                Data::List(items) => items
                    .iter()
                    .enumerate()
                    .for_each(|(i, item)| walk(below(&i.to_string()), item, out)),
                Data::Map(entries) => entries
                    .iter()
                    .for_each(|(key, value)| walk(below(&key.text), value, out)),
            }
        }
        let mut leaves = Vec::new();
        walk(String::new(), node, &mut leaves);
        Some(Any { leaves })
    }
    fn schema() -> Value {
        json!({})
    }
}

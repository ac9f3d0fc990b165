//! The kinds of record, one a file; the list is written by the build script from the file names.

use super::read::{Field, Read, Reader, Shape};
use super::yaml::Node;

/// One kind of record.
pub struct Kind {
    /// The word after `kind:`.
    pub name: &'static str,
    /// What it is.
    pub about: &'static str,
    /// Its own fields, besides those of every record.
    pub fields: fn() -> Vec<Field>,
    /// Reads its body.
    pub read: fn(&Node, &mut Reader) -> Option<Body>,
}

include!(concat!(env!("OUT_DIR"), "/kinds.rs"));

/// The kind of a name.
pub fn kind(name: &str) -> Option<&'static Kind> {
    KINDS.iter().find(|kind| kind.name == name)
}

/// JSON Schema (2020-12) of one kind.
pub fn schema(kind: &Kind) -> serde_json::Value {
    let mut fields = (kind.fields)();
    if kind.name != "dossier" {
        let mut all = <super::common::Common as Shape>::fields();
        all.append(&mut fields);
        fields = all;
    }
    fields.insert(
        0,
        Field {
            name: "kind",
            about: say!("The kind of record."),
            required: true,
            schema: super::read::Text::schema,
        },
    );
    let mut schema = super::read::object_schema(kind.about, &fields);
    if let Some(own) = schema.pointer_mut("/properties/kind") {
        *own = serde_json::json!({"const": kind.name});
    }
    let head = serde_json::json!({"$schema": "https://json-schema.org/draft/2020-12/schema", "title": kind.name});
    let mut out = head.as_object().cloned().unwrap_or_default();
    out.extend(schema.as_object().cloned().unwrap_or_default());
    out.into()
}

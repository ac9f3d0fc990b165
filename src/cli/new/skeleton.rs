//! A record with nothing in it yet, and a line on each of its fields, from the contract itself.

use serde_json::Value as Schema;

use super::SCHEMAS;
use crate::record::kinds::{self, Kind};

/// The text of an empty record.
pub fn text(kind: &Kind, id: &str) -> String {
    let schema = kinds::schema(kind);
    let mut out = format!(
        "# yaml-language-server: $schema={SCHEMAS}/{}.schema.json\n# {}\n# Fill in what is blank. A line that begins with #? is a field that may be left out: take the mark away to use it.\n",
        kind.name,
        kind.about.trim()
    );
    let known = [
        ("kind", kind.name.to_owned()),
        ("record_id", serde_json::Value::from(id).to_string()),
        ("revision", "1".to_owned()),
    ];
    for (name, field) in schema
        .get("properties")
        .and_then(Schema::as_object)
        .into_iter()
        .flatten()
    {
        let due = required(&schema, name);
        match known.iter().find(|(own, _)| own == name) {
            Some((_, value)) => out.push_str(&format!("{name}: {value}\n")),
            None => put(&mut out, name, field, due, 0),
        }
    }
    out
}

fn required(schema: &Schema, name: &str) -> bool {
    schema["required"]
        .as_array()
        .is_some_and(|all| all.iter().any(|own| own == name))
}

/// One field, below it the fields of its map or of a member of its list.
fn put(out: &mut String, name: &str, field: &Schema, due: bool, depth: usize) {
    let blanks = "  ".repeat(depth);
    let own = field["anyOf"]
        .as_array()
        .and_then(|either| either.first())
        .unwrap_or(field);
    let about = field["description"].as_str().unwrap_or_default().trim();
    let form = form(own);
    let form = if form.is_empty() {
        form
    } else {
        format!(" ({form})")
    };
    out.push_str(&format!("{blanks}# {about}{form}\n"));
    if !due {
        out.push_str(&format!("{blanks}#? {name}:{}\n", keys(own)));
        return;
    }
    out.push_str(&format!("{blanks}{name}:\n"));
    let properties = own.pointer("/items/properties");
    let (inner, member) = match properties.is_some_and(Schema::is_object) {
        true => (&own["items"], true),
        false => (own, false),
    };
    let mut first = member;
    for (name, field) in inner["properties"].as_object().into_iter().flatten() {
        // The dash of a member stands on a line of its own: comments may then stand before every field.
        if first {
            out.push_str(&format!("{blanks}  -\n"));
            first = false;
        }
        put(
            out,
            name,
            field,
            required(inner, name),
            depth + if member { 2 } else { 1 },
        );
    }
}

/// What a value looks like.
fn form(schema: &Schema) -> String {
    if let Some(words) = schema["enum"].as_array() {
        let words: Vec<&str> = words.iter().filter_map(|word| word.as_str()).collect();
        return format!("one of {}", words.join(", "));
    }
    if let Some(example) = schema.pointer("/examples/0").and_then(Schema::as_str) {
        return format!("such as \"{example}\"");
    }
    let pattern = schema["pattern"].as_str().unwrap_or_default();
    match schema["type"].as_str() {
        Some("integer") => "a whole number".into(),
        Some("boolean") => "true or false".into(),
        Some("array") => "a list".into(),
        Some("string") if schema["format"] == "date" => "such as \"2026-03-20\"".into(),
        Some("string") if pattern.contains('T') => "such as \"2026-03-20T09:56:00+01:00\"".into(),
        _ => String::new(),
    }
}

/// The fields of an optional map or list of maps, in one line.
fn keys(schema: &Schema) -> String {
    let properties = schema.pointer("/items/properties");
    let (inner, list) = match properties.and_then(Schema::as_object) {
        Some(inner) => (Some(inner), true),
        None => (schema["properties"].as_object(), false),
    };
    let Some(inner) = inner else {
        return String::new();
    };
    let names: Vec<String> = inner.keys().map(|name| format!("{name}: ")).collect();
    let map = format!("{{{}}}", names.join(", "));
    if list {
        format!(" [{map}]")
    } else {
        format!(" {map}")
    }
}

//! `schema`: JSON Schema of a kind of record.

use super::{FINE, UNUSABLE, complain, print};
use crate::{ground::name::nearest, record::kinds};

pub(super) fn run(name: Option<&str>) -> u8 {
    let Some(name) = name else {
        for kind in kinds::KINDS {
            print(&format!("{:<26}{}", kind.name, kind.about.trim()));
        }
        return FINE;
    };
    match kinds::kind(name) {
        Some(kind) => {
            print(&serde_json::to_string_pretty(&kinds::schema(kind)).unwrap_or_default());
            FINE
        }
        None => {
            let near = nearest(name, kinds::KINDS.iter().map(|kind| kind.name))
                .map_or(String::new(), |near| {
                    say!(" (did you mean {near}?)", near = near)
                });
            complain(
                &say!(
                    "{name} is no kind of record{near}",
                    name = name,
                    near = near
                ),
                say!("`sealfolio schema` lists them."),
            );
            UNUSABLE
        }
    }
}

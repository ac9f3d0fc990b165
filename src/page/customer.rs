//! What a customer's copy shows, what it withholds, and what that proves.

use std::collections::BTreeMap;

use super::{Book, Cell, Page, Section, Table, lists::page};
use crate::extract::{Copy, ShownPiece};

const PATH: &str = "this-copy.html";

/// The page, where this is a customer's copy.
pub fn copy(book: &Book) -> Option<Page> {
    let copy = book.dossier.copy.as_ref()?;
    Some(page(
        PATH,
        say!("About this copy"),
        say!(
            "Of which dossier it is a copy, what it shows, what it withholds, and what that proves."
        ),
        vec![of(copy), signed(copy), shown(copy), beyond(copy), proves()],
    ))
}

/// In short, for the first page.
pub fn notice(book: &Book) -> Option<Section> {
    let copy = book.dossier.copy.as_ref()?;
    let mut section = Section::new("copy", say!("A customer's copy")).say(&say!(
        "This is a copy of the lots {lots} of {identity}. All their records are here or sealed; other lots are withheld.",
        lots = copy.proof.lots.join(", "),
        identity = copy.info("External-Identifier").unwrap_or("–")
    ));
    section.html.push(format!(
        "<p><a href=\"{PATH}\">{}</a></p>",
        say!("About this copy")
    ));
    Some(section)
}

fn of(copy: &Copy) -> Section {
    let mut table = Table::new(
        say!("As its bag-info.txt states"),
        &[say!("field"), say!("value")],
    );
    for name in [
        "External-Identifier",
        "Source-Organization",
        "Bagging-Date",
        "Dossier-State",
        "Payload-Oxum",
        crate::extract::ROOT,
    ] {
        table.rows.push(vec![
            Cell::text(name),
            Cell::text(copy.info(name).unwrap_or("–")),
        ]);
    }
    let digest = copy
        .digest()
        .map_or("–".into(), |digest| digest.to_string());
    Section::new("of", say!("The signed dossier"))
        .say(&say!("Its digest is sha256:{digest}. The signatures below are over that number; the root, which stands in it, is the same on every copy, so that two customers can compare it.", digest = digest))
        .table(table)
}

fn signed(copy: &Copy) -> Section {
    let section = Section::new("signed", say!("Signed by"));
    let mut table = Table::new(
        say!("Statements that were there when the copy was taken"),
        &[
            say!("meaning"),
            say!("name"),
            say!("person"),
            say!("function"),
            say!("time"),
        ],
    );
    for statement in copy.statements() {
        table.rows.push(vec![
            Cell::text(say!(statement.meaning.words())),
            Cell::text(statement.name),
            Cell::text(statement.person),
            Cell::text(super::usual(&statement.role)),
            Cell::text(statement.time),
        ]);
    }
    match table.rows.is_empty() {
        true => section.say(say!("Nobody had signed it when this copy was taken.")),
        false => section
            .say(say!("A page cannot check a signature that it shows: `sealfolio verify`, or ssh-keygen on the files of signed-dossier/signatures, does."))
            .table(table),
    }
}

fn shown(copy: &Copy) -> Section {
    let mut table = Table::new(
        say!("Groups that are shown, each as a whole"),
        &[
            say!("about"),
            say!("name"),
            say!("pieces shown"),
            say!("sealed"),
            say!("what is sealed, and why"),
        ],
    );
    for group in &copy.proof.shown {
        let (shown, sealed) = Copy::counts(group);
        let mut why: BTreeMap<String, usize> = BTreeMap::new();
        for piece in &group.pieces {
            if let ShownPiece::Sealed { kind, because, .. } = piece {
                *why.entry(format!("{kind}: {}", say!(&**because)))
                    .or_default() += 1;
            }
        }
        let why: Vec<String> = why
            .into_iter()
            .map(|(why, n)| format!("{n} × {why}"))
            .collect();
        table.rows.push(vec![
            Cell::text(about(&group.of)),
            Cell::text(if group.name.is_empty() {
                "–"
            } else {
                &group.name
            }),
            Cell::text(shown.to_string()),
            Cell::text(sealed.to_string()),
            Cell::text(why.join("; ")),
        ]);
    }
    Section::new("shown", say!("Shown and withheld"))
        .say(say!("A record belongs to every lot that it names, or one of whose modules or assemblies it names; what no lot owns stands with its roll, instrument, product or the plant, and is shown where something shown names it."))
        .say(&say!("Further groups withheld: {n}; of each only one number is here, from which nothing can be read.", n = copy.proof.withheld.len()))
        .table(table)
}

fn about(of: &str) -> &'static str {
    match of {
        "lot" => say!("lot"),
        "material" => say!("material lot"),
        "instrument" => say!("instrument"),
        "product" => say!("product"),
        "plant" => say!("the plant"),
        _ => say!("record"),
    }
}

fn beyond(copy: &Copy) -> Section {
    let section = Section::new("beyond", say!("What cannot be said of a part"));
    if copy.proof.beyond.is_empty() {
        return section.say(say!(
            "Every rule says here what it says of the whole dossier."
        ));
    }
    let mut table = Table::new(
        say!("Findings that come from what is missing"),
        &[say!("rule"), say!("what it would say")],
    );
    for one in &copy.proof.beyond {
        table.rows.push(vec![
            Cell::link(
                &*one.rule,
                format!("rules.html#{}", one.rule.to_lowercase()),
            ),
            Cell::text(&*one.message),
        ]);
    }
    section
        .say(say!("On this part alone these rules would find what they do not find in the whole dossier, because records are withheld. The maker's program says so; the whole dossier shows it."))
        .table(table)
}

fn proves() -> Section {
    Section::new("proves", say!("What this proves, and what not"))
        .say(say!("Shown, salted and sealed pieces give, hashed together, the root that the signed dossier states: none of these lots' records was changed, left out or added after it was compiled. `sealfolio verify` computes it again."))
        .say(say!("It does not prove that a record was ever made, nor that the maker put each into the right group: numbers of runs, the balance of rolls and the whole dossier at the maker's show that."))
        .say(say!("Trends, charts and counts on these pages cover what this copy shows, and nothing else."))
}

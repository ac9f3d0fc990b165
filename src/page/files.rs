//! Every file of the folder, with its digest and its copy.

use std::sync::Arc;

use super::{Book, Cell, Page, Section, Table, has_lines, href, lists::page};
use crate::record::folder;

/// So many files stand on one list.
const FILES_A_PAGE: usize = 1000;

fn files(book: &Book, path: &str, names: &[&Arc<str>]) -> Table {
    let folder = &book.dossier.plant.folder;
    let mut files = Table::new(
        say!("Files as read"),
        &[
            say!("file"),
            say!("bytes"),
            say!("SHA-256"),
            say!("copy in this dossier"),
        ],
    );
    for name in names {
        let Some(file) = folder.files.get(*name) else {
            continue;
        };
        let shown = match book.source_page(name) {
            Some((page, prefix)) if has_lines(name) => Cell::link(
                &***name,
                format!(
                    "{page}#{prefix}top",
                    page = href(path, page),
                    prefix = prefix
                ),
            ),
            _ => Cell::text(&***name),
        };
        files.rows.push(vec![
            shown,
            Cell::text(file.bytes.len().to_string()),
            Cell::text(file.digest.to_string()),
            Cell::link(say!("bytes"), crate::ground::name::copy_path(name)),
        ]);
    }
    files
}

/// Every file of the folder.
pub fn records(book: &Book) -> Vec<Page> {
    let path = "records.html";
    let plant = &book.dossier.plant;
    let names: Vec<&Arc<str>> = plant.folder.files.keys().collect();
    let chunks: Vec<&[&Arc<str>]> = names.chunks(FILES_A_PAGE).collect();
    let mut lists = Vec::new();
    let files = match &chunks[..] {
        [all] => files(book, path, all),
        many => {
            let mut table = Table::new(
                say!("Files as read"),
                &[say!("from"), say!("to"), say!("how many"), say!("list")],
            );
            for (i, chunk) in many.iter().enumerate() {
                let (Some(first), Some(last)) = (chunk.first(), chunk.last()) else {
                    continue;
                };
                let list = format!("files-{:03}.html", i + 1);
                table.rows.push(vec![
                    Cell::text(&***first),
                    Cell::text(&***last),
                    Cell::text(chunk.len().to_string()),
                    Cell::link(say!("list"), list.clone()),
                ]);
                let own = Section::new("files", say!("Files")).table(files(book, &list, chunk));
                lists.push(Page {
                    trail: vec![Cell::link(say!("records"), path.into())],
                    ..page(
                        &list,
                        &say!("{name} to {name2}", name = first, name2 = last),
                        say!("Every file exactly as it was read; a line leads to the figures that used it."),
                        vec![own],
                    )
                });
            }
            table
        }
    };
    let mut kinds = Table::new(say!("Records by kind"), &[say!("kind"), say!("records")]);
    for kind in crate::record::kinds::KINDS {
        let n = plant.records().of_kind(kind.name).count();
        if n > 0 {
            kinds.rows.push(vec![
                Cell::text(say!(&kind.name.replace('_', " "))),
                Cell::text(n.to_string()),
            ]);
        }
    }
    let unread = plant
        .folder
        .files
        .keys()
        .filter(|name| folder::holds_records(name))
        .count();
    let first = page(
        path,
        say!("Records"),
        say!("Every file exactly as it was read; a line leads to the figures that used it."),
        vec![
            Section::new("kinds", say!("By kind"))
                .say(&say!("{plant} current records in {unread} files, and {all} that were superseded: they stand in the files as they were.", plant = plant.records().current().count(), unread = unread, all = plant.records().all.len() - plant.records().current().count()))
                .table(kinds),
            Section::new("files", say!("Files")).table(files),
        ],
    );
    lists.insert(0, first);
    lists
}

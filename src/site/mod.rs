//! Pages → files: templates, machine-readable figures, copies of the records, the finished bag.

mod again;
mod figures;
#[cfg(feature = "parquet")]
mod table;

use std::{
    path::Path,
    sync::atomic::{AtomicUsize, Ordering},
};

pub use again::{
    Recomputed, Standing, copy, parent, recompute, records, speak_language_of, standing,
};
pub use figures::figure_json;

use rayon::prelude::*;
use serde::Serialize;

use tera::{Context, Tera};

use crate::{
    chart::escape,
    dossier::Dossier,
    extract,
    ground::{digest::Digest, finding::Severity, name::copy_path, progress, words},
    page::{Book, Page, find},
    seal::{Bag, Bagged, Files, Fresh, Kept, Sink, Trouble},
    trend::past,
};

/// The templates, embedded in the program.
pub const TEMPLATES: &[(&str, &str)] = &[
    ("base.html", include_str!("../../templates/base.html")),
    ("sheet.html", include_str!("../../templates/sheet.html")),
    (
        "one-sheet.html",
        include_str!("../../templates/one-sheet.html"),
    ),
    ("find.html", include_str!("../../templates/find.html")),
    ("check.html", include_str!("../../templates/check.html")),
    (
        "roomy-sheet.html",
        include_str!("../../templates/roomy-sheet.html"),
    ),
    (
        "start-here.html",
        include_str!("../../templates/start-here.html"),
    ),
];
/// Scripts that only add finding, sorting and narrowing down; every page stands without them.
pub const SCRIPTS: &[(&str, &str)] = &[
    ("find.js", include_str!("../../templates/find.js")),
    ("check.js", include_str!("../../templates/check.js")),
    ("tables.js", include_str!("../../templates/tables.js")),
];
const STYLE: &str = include_str!("../../templates/style.css");
/// Where the names of the source files are kept, so that a copy can be read again.
const SOURCES: &str = "sources.json";
/// Values of older dossiers that trends look back on.
const HISTORY: &str = "history.json";
/// What was used of the dossier that this one supersedes.
const PREVIOUS: &str = "previous.json";
/// How the records of a customer's copy lead to the root that was signed.
const PROOF: &str = "proof.json";
/// The folder of what a customer's copy holds of the dossier from which it was taken.
pub const PARENT: &str = "signed-dossier";
/// The figures for machines.
pub const FIGURES: &str = "figures.json";
/// The same as a table for engines that look at many dossiers (Apache Parquet); written on demand.
pub const TABLE: &str = "figures.parquet";

/// What every page says of the dossier.
#[derive(Serialize)]
struct Head {
    language: &'static str,
    /// The language of the records, where it is another.
    written: &'static str,
    title: String,
    identity: String,
    date: String,
    digest: String,
    draft: String,
}

/// A compiled dossier in memory: every file of the bag, and its digest.
pub struct Site {
    /// Every file.
    pub files: Files,
    /// The dossier's digest.
    pub digest: Digest,
    /// How many pages it has.
    pub pages: usize,
}

/// What was compiled.
#[derive(Clone, Debug)]
pub struct Compiled {
    /// The bag.
    pub bag: Bagged,
    /// How many pages it has.
    pub pages: usize,
}

#[expect(
    clippy::expect_used,
    reason = "templates are part of the program, and every test shows them"
)]
fn templates() -> Tera {
    let mut tera = Tera::default();
    tera.autoescape_on(vec![".html"]);
    let spoken = TEMPLATES.iter().map(|(name, text)| (*name, spoken(text)));
    tera.add_raw_templates(spoken)
        .expect("the embedded templates are tested");
    tera
}

/// A template with its words, each written `{{ "words" | say }}`, in the language of the run: they are the same on every
/// page, so they are looked up once.
fn spoken(template: &str) -> String {
    const BEGIN: &str = "{{ \"";
    const END: &str = "\" | say }}";
    let (mut out, mut rest) = (String::new(), template);
    while let Some((before, english, after)) = rest.split_once(END).and_then(|(head, after)| {
        let (before, english) = head.rsplit_once(BEGIN)?;
        Some((before, english, after))
    }) {
        out.push_str(before);
        out.push_str(&escape(words::of(english)));
        rest = after;
    }
    out + rest
}

fn head(dossier: &Dossier) -> Head {
    let blocks = dossier.count(Severity::Blocks);
    let draft = match blocks {
        0 => String::new(),
        1 => say!("One finding blocks release.").to_owned(),
        n => say!("{n} findings block release.", n = n),
    };
    let digest = dossier.root().short();
    let written = crate::page::source::written(dossier);
    match dossier.plant.records().head() {
        Some((record, head)) => Head {
            language: words::spoken().code(),
            written,
            title: head.title.to_string(),
            identity: say!(
                "{id} revision {revision}",
                id = &*record.id,
                revision = record.revision
            ),
            date: head.compiled_on.date.to_string(),
            digest,
            draft,
        },
        None => Head {
            language: words::spoken().code(),
            written,
            title: say!("Dossier").into(),
            identity: say!("unnamed").into(),
            date: String::new(),
            digest,
            draft,
        },
    }
}

/// Text for a string of a style sheet: what is no letter, digit or plain mark becomes its code.
fn quoted(text: &str) -> String {
    let plain = |c: char| c.is_alphanumeric() || " .-/".contains(c);
    text.chars()
        .map(|c| match plain(c) {
            true => c.to_string(),
            false => format!("\\{:x} ", u32::from(c)),
        })
        .collect()
}

fn render(tera: &Tera, head: &Head, page: &Page) -> Result<Vec<u8>, Trouble> {
    let mut context = Context::new();
    context.insert("site", head);
    context.insert("page", page);
    context.insert("root", &"../".repeat(page.path.matches('/').count()));
    rendered(tera, page.template, &context)
}

fn rendered(tera: &Tera, template: &str, context: &Context) -> Result<Vec<u8>, Trouble> {
    let text = tera.render(template, context);
    text.map(String::into_bytes).map_err(|error| {
        (
            say!(
                "the template {template} fails: {error}",
                template = template,
                error = error
            ),
            say!("This is a fault of the program, not of the records: please report it.").into(),
        )
    })
}

/// Compiles a dossier into the files of a bag, in memory. The same dossier gives the same bytes.
///
/// # Panics
/// When a template is broken or two pages have one address, which tests rule out.
#[expect(
    clippy::panic,
    reason = "memory takes every page but one whose address another has, which tests rule out"
)]
pub fn compile(dossier: &Dossier) -> Site {
    let kept = Kept::default();
    let compiled = compile_into(dossier, &kept).unwrap_or_else(|(why, _)| panic!("{why}"));
    Site {
        files: kept.files(),
        digest: compiled.bag.digest,
        pages: compiled.pages,
    }
}

/// Compiles a dossier into a folder that does not exist yet: it is there whole afterwards, or not at all.
///
/// # Errors
/// In words, with what to do, when it cannot be written.
pub fn write(dossier: &Dossier, target: &Path) -> Result<Compiled, Trouble> {
    let fresh = Fresh::beside(target)?;
    let compiled = compile_into(dossier, &fresh)?;
    fresh.finish()?;
    Ok(compiled)
}

/// Compiles a dossier and brings every file as soon as it is made.
///
/// # Errors
/// As the sink's.
pub fn compile_into(dossier: &Dossier, sink: &dyn Sink) -> Result<Compiled, Trouble> {
    let book = Book::new(dossier);
    let (tera, head) = (templates(), head(dossier));
    let bag = Bag::new(sink);
    let all = book.pages();
    let pages = AtomicUsize::new(0);
    progress::begin(say!("making pages"), all.len());
    let write = || {
        all.into_par_iter().with_max_len(1).try_for_each(|making| {
            for page in making.made() {
                bag.put(&page.path, render(&tera, &head, &page)?)?;
                pages.fetch_add(1, Ordering::Relaxed);
            }
            progress::step();
            Ok::<(), Trouble>(())
        })
    };
    // What is one large file is made beside the many pages, not after them by one core.
    let machines = || {
        bag.put("find-index.js", find::index(&book))?;
        bag.put(FIGURES, figures::json(&book))
    };
    let (written, machines) = rayon::join(write, machines);
    written.and(machines)?;
    let mut payload = Files::new();
    // A sheet of paper that got loose still says what it belongs to.
    let running = format!(
        "{STYLE}\n@media print {{ @page {{ @bottom-left {{ content: \"{}{} · {} · {} {}\"; font: 9pt Georgia, serif; }} }} }}\n",
        match head.draft.is_empty() {
            true => String::new(),
            false => format!("{} · ", quoted(say!("DRAFT, NOT RELEASED"))),
        },
        quoted(&head.identity),
        quoted(&head.date),
        quoted(say!("records")),
        head.digest
    );
    payload.insert("style.css".into(), running.into_bytes());
    payload.extend(
        SCRIPTS
            .iter()
            .map(|(name, text)| ((*name).to_owned(), (*text).into())),
    );
    payload.insert("figures.schema.json".into(), figures::schema());
    #[cfg(feature = "parquet")]
    if dossier.table {
        payload.insert(
            TABLE.into(),
            table::write(&book).map_err(|error| (error, String::new()))?,
        );
    }
    if !dossier.history.is_empty() {
        let history = serde_json::to_vec_pretty(&past::write(&dossier.history));
        payload.insert(HISTORY.into(), history.unwrap_or_default());
    }
    if let Some(previous) = &dossier.previous {
        let previous = serde_json::to_vec_pretty(previous);
        payload.insert(PREVIOUS.into(), previous.unwrap_or_default());
    }
    if let Some(copy) = &dossier.copy {
        let proof = serde_json::to_vec_pretty(&copy.proof);
        payload.insert(PROOF.into(), proof.unwrap_or_default());
        let own = copy.parent.iter();
        payload.extend(own.map(|(path, bytes)| (format!("{PARENT}/{path}"), bytes.clone())));
    }
    let folder = &dossier.plant.folder;
    let mut sources = serde_json::Map::new();
    progress::begin(say!("copying records"), folder.files.len());
    for name in folder.files.keys() {
        sources.insert(copy_path(name), (**name).into());
    }
    folder.files.par_iter().try_for_each(|(name, file)| {
        progress::step();
        bag.put(&copy_path(name), file.bytes.clone())
    })?;
    payload.insert(
        SOURCES.into(),
        serde_json::to_vec_pretty(&sources).unwrap_or_default(),
    );
    payload
        .into_par_iter()
        .try_for_each(|(path, bytes)| bag.put(&path, bytes))?;

    let mut context = Context::new();
    context.insert("site", &head);
    let start = rendered(&tera, "start-here.html", &context)?;
    let tags = Files::from([("START-HERE.html".to_owned(), start)]);
    let maker = dossier
        .plant
        .records()
        .head()
        .map_or(String::new(), |(_, head)| head.maker.name.to_string());
    let bagged = dossier
        .plant
        .records()
        .head()
        .map_or(String::new(), |(_, head)| head.compiled_on.date.written());
    let info = [
        ("Source-Organization", maker),
        ("External-Identifier", head.identity.clone()),
        ("Bagging-Date", bagged),
        ("Bag-Software-Agent", own_name()),
        ("Dossier-Format", "1".to_owned()),
        (
            extract::ROOT,
            format!("sha256:{root}", root = dossier.root()),
        ),
        (
            "Dossier-State",
            if head.draft.is_empty() {
                "complete".into()
            } else {
                say!("draft: {draft}", draft = head.draft)
            },
        ),
    ];
    Ok(Compiled {
        bag: bag.close(tags, &info)?,
        pages: pages.into_inner(),
    })
}

/// How this program names itself in `bag-info.txt`.
fn own_name() -> String {
    format!("sealfolio {}", env!("CARGO_PKG_VERSION"))
}

//! Pages → files: templates, machine-readable figures, copies of the records, the finished bag.

use std::{
    collections::{BTreeMap, BTreeSet},
    path::Path,
    sync::{
        Arc, Mutex,
        atomic::{AtomicUsize, Ordering},
    },
};

use rayon::prelude::*;
use serde::Serialize;
use serde_json::{Value, json};
use tera::{Context, Kwargs, State, Tera};

use crate::{
    approval,
    dossier::Dossier,
    extract::{self, Copy},
    figure::Computed,
    ground::{
        digest::Digest, finding::Severity, name::copy_path, progress, quantity::Quantity, words,
    },
    page::{Book, Page, find},
    record::folder::{self, Folder},
    seal::{self, Bag, Bagged, Files, Fresh, Kept, Sink, Trouble},
    trend::past,
    verdict,
};

/// The templates, embedded in the program.
pub const TEMPLATES: &[(&str, &str)] = &[
    ("base.html", include_str!("../templates/base.html")),
    ("sheet.html", include_str!("../templates/sheet.html")),
    (
        "one-sheet.html",
        include_str!("../templates/one-sheet.html"),
    ),
    ("find.html", include_str!("../templates/find.html")),
    ("check.html", include_str!("../templates/check.html")),
    (
        "roomy-sheet.html",
        include_str!("../templates/roomy-sheet.html"),
    ),
    (
        "start-here.html",
        include_str!("../templates/start-here.html"),
    ),
];
/// Scripts that only add finding, sorting and narrowing down; every page stands without them.
pub const SCRIPTS: &[(&str, &str)] = &[
    ("find.js", include_str!("../templates/find.js")),
    ("check.js", include_str!("../templates/check.js")),
    ("tables.js", include_str!("../templates/tables.js")),
];
const STYLE: &str = include_str!("../templates/style.css");
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

/// What every page says of the dossier.
#[derive(Serialize)]
struct Head {
    language: &'static str,
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
#[derive(Clone, Copy, Debug)]
pub struct Compiled {
    /// The bag.
    pub bag: Bagged,
    /// How many pages it has.
    pub pages: usize,
}

fn templates() -> Tera {
    let mut tera = Tera::default();
    tera.autoescape_on(vec![".html"]);
    tera.register_filter("say", |english: &str, _: Kwargs, _: &State| {
        words::of(english).to_owned()
    });
    tera.add_raw_templates(TEMPLATES.iter().copied())
        .expect("the embedded templates are tested");
    tera
}

fn head(dossier: &Dossier) -> Head {
    let blocks = dossier.count(Severity::Blocks);
    let draft = match blocks {
        0 => String::new(),
        1 => say!("One finding blocks release.").to_owned(),
        n => say!("{n} findings block release.", n = n),
    };
    let digest = dossier.root().short();
    match dossier.plant.records().head() {
        Some((record, head)) => Head {
            language: words::spoken().code(),
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

fn render(tera: &Tera, head: &Head, page: &Page) -> Vec<u8> {
    let mut context = Context::new();
    context.insert("site", head);
    context.insert("page", page);
    context.insert("root", &"../".repeat(page.path.matches('/').count()));
    tera.render(page.template, &context)
        .unwrap_or_else(|error| panic!("template {}: {error}", page.template))
        .into_bytes()
}

/// One figure for a machine.
pub fn figure_json(book: &Book, computed: &Computed) -> Value {
    let unit = &computed.figure.unit;
    let quantity = computed.quantity();
    let judgement = computed.judgement.as_ref();
    json!({
        "id": computed.id.to_string(),
        "figure": computed.id.figure,
        "record": &*computed.id.record,
        "part": &*computed.id.part,
        "name": computed.figure.name,
        "value": quantity.map(|quantity| unit.of_si(quantity.value)),
        "unit": if unit.print.is_empty() { "1" } else { unit.print },
        "standard_uncertainty": quantity.map(|quantity| quantity.u() / unit.factor),
        "coverage_factor": quantity.map(verdict::coverage),
        "degrees_of_freedom": quantity.map(Quantity::degrees).filter(|degrees| degrees.is_finite()),
        "conformance_probability": judgement.and_then(|judgement| judgement.conformance),
        "shown": computed.shown(),
        "limit": judgement.map(|judgement| judgement.limit.text.clone()),
        "limit_low": judgement.and_then(|judgement| judgement.limit.low).map(|low| unit.of_si(low)),
        "limit_high": judgement.and_then(|judgement| judgement.limit.high).map(|high| unit.of_si(high)),
        "verdict": computed.verdict().words(),
        "reported": computed.reported.as_ref().map(|reported| reported.text.clone()),
        "not_evaluated_because": computed.worked.as_ref().err(),
        "page": book.figure_href("index.html", &computed.id),
    })
}

fn figures_json(book: &Book) -> Vec<u8> {
    let figures: Vec<Value> = book
        .dossier
        .graph
        .computed
        .values()
        .map(|computed| figure_json(book, computed))
        .collect();
    let all = json!({"format": 1, "program": env!("CARGO_PKG_VERSION"), "figures": figures});
    serde_json::to_vec_pretty(&all).unwrap_or_default()
}

fn figures_schema() -> Vec<u8> {
    let text = json!({"type": "string"});
    let maybe = |kind: &str| json!({"type": [kind, "null"]});
    let schema = json!({
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": "figures of a dossier",
        "type": "object",
        "required": ["format", "program", "figures"],
        "properties": {
            "format": {"const": 1},
            "program": text,
            "figures": {"type": "array", "items": {
                "type": "object",
                "required": ["id", "figure", "record", "value", "unit", "standard_uncertainty", "verdict", "page"],
                "properties": {
                    "id": text, "figure": text, "record": text, "part": text, "name": text, "value": maybe("number"), "unit": text,
                    "standard_uncertainty": maybe("number"), "coverage_factor": maybe("number"), "degrees_of_freedom": maybe("number"),
                    "conformance_probability": maybe("number"), "shown": text, "limit": maybe("string"),
                    "limit_low": maybe("number"), "limit_high": maybe("number"),
                    "verdict": {"enum": ["conforms", "undecided", "does not conform", "no limit", "not evaluated"]},
                    "reported": maybe("string"), "not_evaluated_because": maybe("string"), "page": text
                },
                "additionalProperties": false
            }}
        }
    });
    serde_json::to_vec_pretty(&schema).unwrap_or_default()
}

/// Compiles a dossier into the files of a bag, in memory. The same dossier gives the same bytes.
///
/// # Panics
/// When a template is broken, which tests rule out.
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
    all.into_par_iter().with_max_len(1).try_for_each(|making| {
        for page in making.made() {
            bag.put(&page.path, render(&tera, &head, &page))?;
            pages.fetch_add(1, Ordering::Relaxed);
        }
        progress::step();
        Ok::<(), Trouble>(())
    })?;
    let mut payload = Files::new();
    // A sheet of paper that got loose still says what it belongs to.
    let running = format!(
        "{STYLE}\n@media print {{ @page {{ @bottom-left {{ content: \"{} · {} · {} {}\"; font: 9pt Georgia, serif; }} }} }}\n",
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
    payload.insert("find-index.js".into(), find::index(&book));
    payload.insert(FIGURES.into(), figures_json(&book));
    payload.insert("figures.schema.json".into(), figures_schema());
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
    let start = tera
        .render("start-here.html", &context)
        .unwrap_or_else(|error| panic!("template start-here.html: {error}"));
    let tags = Files::from([("START-HERE.html".to_owned(), start.into_bytes())]);
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

/// Holds what is compiled against the files of a copy.
struct Compared<'a> {
    root: &'a Path,
    wrong: Mutex<BTreeSet<String>>,
}

impl Sink for Compared<'_> {
    fn take(&self, path: &str, bytes: Vec<u8>) -> Result<(), Trouble> {
        if std::fs::read(self.root.join(path)).ok() != Some(bytes)
            && let Ok(mut wrong) = self.wrong.lock()
        {
            wrong.insert(path.to_owned());
        }
        Ok(())
    }
}

/// Name when read → path of the copy below `data/`, and its bytes.
type Sources = BTreeMap<Arc<str>, (String, Vec<u8>)>;

/// The records of a compiled copy, as they are now, under the names that they had when they were read.
///
/// # Errors
/// In words, when the list of names is unusable; `strict` also when a file cannot be read.
fn sources(root: &Path, strict: bool) -> Result<Sources, String> {
    let data = root.join("data");
    let read = |path: &str| {
        std::fs::read(data.join(path)).map_err(|error| {
            say!(
                "data/{path} cannot be read: {error}",
                path = path,
                error = error.kind()
            )
        })
    };
    let sources: BTreeMap<String, String> = serde_json::from_slice(&read(SOURCES)?)
        .map_err(|_| say!("data/{what} is not a list of names", what = SOURCES))?;
    let mut files = BTreeMap::new();
    for (copy, name) in sources {
        if copy
            .split(['/', '\\'])
            .any(|part| part == ".." || part.is_empty())
        {
            return Err(say!(
                "data/{what} names a path outside the copy",
                what = SOURCES
            ));
        }
        match read(&copy) {
            Ok(bytes) => {
                files.insert(Arc::from(name), (copy, bytes));
            }
            Err(why) if strict => return Err(why),
            Err(_) => {}
        }
    }
    Ok(files)
}

/// A copy is recomputed in the language in which it was compiled.
fn speak_as(sources: &Sources) {
    let head = sources.get("dossier.yaml").map(|(_, bytes)| &**bytes);
    words::speak(folder::language(head.unwrap_or_default()));
}

/// What still stands in a copy of which some files differ.
pub struct Standing {
    /// Figures that stand on whole files alone and come out as they were printed.
    pub stand: usize,
    /// Figures that stand on a file that differs, or that do not come out again.
    pub fall: Vec<String>,
}

/// Which figures of a damaged copy still stand: those whose every record is whole.
///
/// # Errors
/// In words, when the list of records or of figures differs itself.
pub fn standing(root: &Path, damaged: &[&str]) -> Result<Standing, String> {
    let own = |name: &str| format!("data/{name}", name = name);
    for needed in [SOURCES, FIGURES] {
        if damaged.contains(&&*own(needed)) {
            return Err(say!("data/{needed} differs itself", needed = needed));
        }
    }
    let printed: Value = std::fs::read(root.join(own(FIGURES)))
        .ok()
        .and_then(|bytes| serde_json::from_slice(&bytes).ok())
        .ok_or_else(|| say!("data/{what} cannot be read", what = FIGURES))?;
    let files = sources(root, false)?;
    speak_as(&files);
    let hurt: BTreeSet<Arc<str>> = files
        .iter()
        .filter(|(_, (copy, _))| damaged.contains(&&*own(copy)))
        .map(|(name, _)| name.clone())
        .collect();
    let bytes = files.into_iter().map(|(name, (_, bytes))| (name, bytes));
    let dossier = Dossier::of(Folder::of(bytes.collect(), Vec::new()));
    let shown: BTreeMap<String, String> = dossier
        .graph
        .computed
        .values()
        .filter(|computed| dossier.graph.files(computed).is_disjoint(&hurt))
        .map(|computed| (computed.id.to_string(), computed.shown()))
        .collect();
    let mut out = Standing {
        stand: 0,
        fall: Vec::new(),
    };
    for figure in printed["figures"].as_array().into_iter().flatten() {
        let id = figure["id"].as_str().unwrap_or_default();
        match shown.get(id) {
            Some(again) if figure["shown"] == **again => out.stand += 1,
            _ => out.fall.push(id.to_owned()),
        }
    }
    Ok(out)
}

/// The dossier of a compiled copy's records, without its history; `speak` its language from here on.
///
/// # Errors
/// In words, when the records cannot be read.
pub fn records(root: &Path, speak: bool) -> Result<Dossier, String> {
    let sources = sources(root, true)?;
    if speak {
        speak_as(&sources);
    }
    let files = sources
        .into_iter()
        .map(|(name, (_, bytes))| (name, bytes))
        .collect();
    let dossier = Dossier::of(Folder::of(files, Vec::new()));
    Ok(match copy(root)? {
        Some(copy) => dossier.copied(copy),
        None => dossier,
    })
}

/// What a customer's copy holds of the dossier from which it was taken; nothing where it is a dossier of its own.
///
/// # Errors
/// In words, when it cannot be read.
pub fn copy(root: &Path) -> Result<Option<Copy>, String> {
    let data = root.join("data");
    let Ok(proof) = std::fs::read(data.join(PROOF)) else {
        return Ok(None);
    };
    let unusable = |what: &str| say!("data/{what} is not what this program writes", what = what);
    Ok(Some(Copy {
        proof: serde_json::from_slice(&proof).map_err(|_| unusable(PROOF))?,
        parent: parent(&data.join(PARENT)).map_err(|_| unusable(PARENT))?,
    }))
}

/// The files of a signed dossier that a customer's copy takes along.
///
/// # Errors
/// When one of them cannot be read.
pub fn parent(root: &Path) -> std::io::Result<BTreeMap<String, Vec<u8>>> {
    let mut out = BTreeMap::new();
    for name in ["bag-info.txt", seal::TAG_MANIFEST] {
        out.insert(name.to_owned(), std::fs::read(root.join(name))?);
    }
    let statements = root.join(approval::FOLDER);
    if statements.is_dir() {
        for entry in std::fs::read_dir(statements)? {
            let entry = entry?;
            let name = entry.file_name().to_string_lossy().into_owned();
            if entry.file_type()?.is_file() {
                out.insert(
                    format!("{}/{name}", approval::FOLDER),
                    std::fs::read(entry.path())?,
                );
            }
        }
    }
    Ok(out)
}

/// How this program names itself in `bag-info.txt`.
fn own_name() -> String {
    format!("sealfolio {}", env!("CARGO_PKG_VERSION"))
}

/// The program that compiled a copy.
fn agent(root: &Path) -> Option<String> {
    let text = std::fs::read_to_string(root.join("bag-info.txt")).ok()?;
    text.lines()
        .find_map(|line| line.strip_prefix("Bag-Software-Agent: "))
        .map(str::to_owned)
}

/// Figures of a copy that another version compiled and that this one does not get again: value, limit or verdict.
fn figures_that_differ(root: &Path, dossier: &Dossier) -> Result<Vec<String>, String> {
    let printed: Value = std::fs::read(root.join("data").join(FIGURES))
        .ok()
        .and_then(|bytes| serde_json::from_slice(&bytes).ok())
        .ok_or_else(|| say!("data/{what} cannot be read", what = FIGURES))?;
    let book = Book::new(dossier);
    let now: BTreeMap<String, Value> = dossier
        .graph
        .computed
        .values()
        .map(|computed| (computed.id.to_string(), figure_json(&book, computed)))
        .collect();
    let mut wrong: Vec<String> = Vec::new();
    for figure in printed["figures"].as_array().into_iter().flatten() {
        let id = figure["id"].as_str().unwrap_or_default();
        let same = now.get(id).is_some_and(|now| {
            ["value", "limit", "verdict", "standard_uncertainty"]
                .iter()
                .all(|key| now[key] == figure[key])
        });
        if !same {
            wrong.push(id.to_owned());
        }
    }
    Ok(wrong)
}

/// What came of computing a copy again.
pub struct Recomputed {
    /// The dossier of its records.
    pub dossier: Dossier,
    /// Files that come out differently; figures, where the copy was compiled by another version.
    pub wrong: Vec<String>,
    /// The program that compiled the copy, where it is another than this one: its pages are not made again then.
    pub by_another: Option<String>,
}

/// Computes everything again from the records of a compiled copy.
///
///
/// # Errors
/// In words, when the copy's records cannot be read.
pub fn recompute(root: &Path) -> Result<Recomputed, String> {
    let mut dossier = records(root, true)?;
    if let Ok(bytes) = std::fs::read(root.join("data").join(PREVIOUS)) {
        let previous = serde_json::from_slice(&bytes);
        dossier.previous = Some(previous.map_err(|_| {
            say!(
                "data/{what} is not what this program writes",
                what = PREVIOUS
            )
        })?);
    }
    if let Ok(bytes) = std::fs::read(root.join("data").join(HISTORY)) {
        dossier.history = serde_json::from_slice(&bytes)
            .ok()
            .and_then(|value| past::read(&value))
            .ok_or_else(|| {
                say!(
                    "data/{what} is not what this program writes",
                    what = HISTORY
                )
            })?;
    }
    let by_another = agent(root).filter(|agent| *agent != own_name());
    let wrong: Vec<String> = match &by_another {
        Some(_) => figures_that_differ(root, &dossier)?,
        None => {
            let compared = Compared {
                root,
                wrong: Mutex::default(),
            };
            compile_into(&dossier, &compared).map_err(|(why, _)| why)?;
            let wrong = compared.wrong.into_inner().unwrap_or_default();
            wrong.into_iter().collect()
        }
    };
    Ok(Recomputed {
        dossier,
        wrong,
        by_another,
    })
}

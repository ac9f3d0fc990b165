//! A compiled copy, computed again from its records and held against what it says.

use std::{
    collections::{BTreeMap, BTreeSet},
    path::Path,
    sync::{Arc, Mutex},
};

use serde_json::Value;

use super::{FIGURES, HISTORY, PARENT, PREVIOUS, PROOF, SOURCES, TABLE, compile_into, figure_json};
use crate::{
    approval,
    dossier::Dossier,
    extract::Copy,
    figure::{
        Computed,
        changed::{self, Touched},
    },
    ground::{plain, seen::dropped, words},
    page::Book,
    record::folder::{self, Folder},
    seal::{self, Sink, Trouble},
    trend::past,
};

/// Name when read → path of the copy below `data/`, and its bytes.
type Sources = BTreeMap<Arc<str>, (String, Vec<u8>)>;

/// The records of a compiled copy, as they are now, under the names that they had when they were read.
///
/// # Errors
/// In words, when the list of names is unusable; `strict` also when a file cannot be read.
fn sources(root: &Path, strict: bool) -> Result<Sources, String> {
    let data = root.join("data");
    let read = |path: &str| {
        // A pipe in the place of a record would be waited for without end.
        plain::contents(&data.join(path)).map_err(|error| {
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

/// From here on the run speaks the language of a copy, as far as its head can be read.
pub fn speak_language_of(root: &Path) {
    let head = plain::contents(&root.join("data/records/dossier.yaml"));
    words::speak(folder::language(&head.unwrap_or_default()));
}

/// What still stands in a copy of which some files differ.
pub struct Standing {
    /// Figures that stand on whole files alone and come out as they were printed.
    pub stand: usize,
    /// Figures that stand on a file that differs, or that do not come out again.
    pub fall: Vec<String>,
}

/// The figures of a copy as they were written.
fn figures(printed: &Value) -> impl Iterator<Item = &Value> {
    let all = printed.get("figures").and_then(Value::as_array);
    all.into_iter().flatten()
}

/// Which figures of a damaged copy still stand: those whose every record is whole.
///
/// # Errors
/// In words, when the list of records or of figures differs itself.
pub fn standing(root: &Path, damaged: &[&str]) -> Result<Standing, String> {
    let own = |name: &str| format!("data/{name}", name = name);
    // What is listed nowhere, or in a list that was changed, may itself have been changed.
    for list in [seal::MANIFEST, seal::TAG_MANIFEST] {
        if damaged.contains(&list) {
            return Err(say!(
                "{list} is missing or differs itself, and nothing else vouches for the records",
                list = list
            ));
        }
    }
    for needed in [SOURCES, FIGURES] {
        if damaged.contains(&&*own(needed)) {
            return Err(say!("data/{needed} differs itself", needed = needed));
        }
    }
    let printed: Value = plain::contents(&root.join(own(FIGURES)))
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
    for figure in figures(&printed) {
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
    let Ok(proof) = plain::contents(&data.join(PROOF)) else {
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
        out.insert(name.to_owned(), plain::contents(&root.join(name))?);
    }
    let statements = root.join(approval::FOLDER);
    if statements.is_dir() {
        for entry in std::fs::read_dir(statements)? {
            let entry = entry?;
            let name = entry.file_name().to_string_lossy().into_owned();
            if entry.file_type()?.is_file() && !dropped(&name) {
                out.insert(
                    format!("{}/{name}", approval::FOLDER),
                    plain::contents(&entry.path())?,
                );
            }
        }
    }
    Ok(out)
}

/// The program that compiled a copy.
fn agent(root: &Path) -> Option<String> {
    let text = plain::contents(&root.join("bag-info.txt")).ok()?;
    agent_in(&String::from_utf8(text).ok()?)
}

fn agent_in(info: &str) -> Option<String> {
    info.lines()
        .find_map(|line| line.strip_prefix("Bag-Software-Agent: "))
        .map(str::to_owned)
}

/// An earlier version of this program that compiled a copy; whatever calls itself otherwise is held against this version, byte for
/// byte.
fn by_another(agent: Option<String>) -> Result<Option<String>, String> {
    let own = changed::version(env!("CARGO_PKG_VERSION"));
    let named = agent
        .as_deref()
        .and_then(|agent| agent.strip_prefix("sealfolio "));
    let numbers = named.and_then(changed::version);
    let canonical = |(a, b, c): (u64, u64, u64)| format!("{a}.{b}.{c}");
    if numbers.map(canonical).as_deref() == named && numbers > own {
        return Err(say!(
            "it was compiled by {program}, a later version than this one, {own}: check it with that version or a later one",
            program = agent.as_deref().unwrap_or_default(),
            own = env!("CARGO_PKG_VERSION")
        ));
    }
    let earlier = named.is_some_and(|version| changed::EARLIER.contains(&version));
    Ok(agent.filter(|_| earlier))
}

/// Figures of a copy that another version compiled and that this one does not get again: those that differ from what
/// was printed, and those whose method this version has changed.
#[derive(Default)]
struct Differing {
    wrong: Vec<String>,
    otherwise: Vec<String>,
}

/// What of a figure is held against what was printed.
const COMPARED: [&str; 4] = ["value", "limit", "verdict", "standard_uncertainty"];

/// Holds value, limit, verdict and uncertainty of each figure against what another program printed.
fn figures_that_differ(root: &Path, dossier: &Dossier, program: &str) -> Result<Differing, String> {
    let printed: Value = plain::contents(&root.join("data").join(FIGURES))
        .ok()
        .and_then(|bytes| serde_json::from_slice(&bytes).ok())
        .ok_or_else(|| say!("data/{what} cannot be read", what = FIGURES))?;
    let book = Book::new(dossier);
    let now: BTreeMap<String, &Computed> = dossier
        .graph
        .computed
        .values()
        .map(|computed| (computed.id.to_string(), &**computed))
        .collect();
    let version = program.rsplit(' ').next().unwrap_or_default();
    let mut out = Differing::default();
    for figure in figures(&printed) {
        let id = figure["id"].as_str().unwrap_or_default();
        let differs = |keys: &[&str]| match now.get(id) {
            None => true,
            Some(computed) => {
                let now = figure_json(&book, computed);
                // An earlier version wrote zero where there is no uncertainty.
                let none = |value: Option<&Value>| {
                    value.is_none_or(|value| value.is_null() || value.as_f64() == Some(0.0))
                };
                keys.iter().any(|key| {
                    let (now, then) = (now.get(key), figure.get(key));
                    now != then && !(*key == "standard_uncertainty" && none(now) && none(then))
                })
            }
        };
        if !differs(&COMPARED) {
            continue;
        }
        // What a change of the method does not touch must come out as it was.
        let fixed: &[&str] = match now
            .get(id)
            .and_then(|now| changed::touched_since(now.figure, version))
        {
            None => &COMPARED,
            Some(Touched::Uncertainty) => &["value", "limit"],
            Some(Touched::Value) => &["limit"],
        };
        match differs(fixed) {
            true => out.wrong.push(id.to_owned()),
            false => out.otherwise.push(id.to_owned()),
        }
    }
    let printed: BTreeSet<&str> = figures(&printed)
        .filter_map(|figure| figure["id"].as_str())
        .collect();
    let missing = now.keys().filter(|id| !printed.contains(&***id));
    out.wrong.extend(missing.cloned());
    Ok(out)
}

/// What came of computing a copy again.
pub struct Recomputed {
    /// The dossier of its records.
    pub dossier: Dossier,
    /// Files that come out differently; figures, where the copy was compiled by another version.
    pub wrong: Vec<String>,
    /// Figures of a copy of an earlier version whose method has changed since, so that their uncertainty or value does not
    /// come out again.
    pub otherwise: Vec<String>,
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
    if let Ok(bytes) = plain::contents(&root.join("data").join(PREVIOUS)) {
        let previous = serde_json::from_slice(&bytes);
        dossier.previous = Some(previous.map_err(|_| {
            say!(
                "data/{what} is not what this program writes",
                what = PREVIOUS
            )
        })?);
    }
    if let Ok(bytes) = plain::contents(&root.join("data").join(HISTORY)) {
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
    dossier.table = cfg!(feature = "parquet") && root.join("data").join(TABLE).exists();
    let by_another = by_another(agent(root))?;
    // Nobody signs the pages of a customer's copy: they hold where they come out again, and not otherwise.
    if let (Some(program), Some(_)) = (&by_another, &dossier.copy) {
        return Err(say!(
            "this copy says that it was made by {program}, and nobody signs the pages of a copy: check it with that version, which makes them again",
            program = program
        ));
    }
    let Differing { wrong, otherwise } = match &by_another {
        Some(program) => figures_that_differ(root, &dossier, program)?,
        None => {
            let compared = Compared {
                root,
                wrong: Mutex::default(),
            };
            compile_into(&dossier, &compared).map_err(|(why, _)| why)?;
            let wrong = compared.wrong.into_inner().unwrap_or_default();
            Differing {
                wrong: wrong.into_iter().collect(),
                otherwise: Vec::new(),
            }
        }
    };
    Ok(Recomputed {
        dossier,
        wrong,
        otherwise,
        by_another,
    })
}

/// Holds what is compiled against the files of a copy.
struct Compared<'a> {
    root: &'a Path,
    wrong: Mutex<BTreeSet<String>>,
}

impl Sink for Compared<'_> {
    fn take(&self, path: &str, bytes: Vec<u8>) -> Result<(), Trouble> {
        if plain::contents(&self.root.join(path)).ok() != Some(bytes)
            && let Ok(mut wrong) = self.wrong.lock()
        {
            wrong.insert(path.to_owned());
        }
        Ok(())
    }
}

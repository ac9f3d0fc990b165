//! A dossier folder → records, traces and what is wrong with them.

use std::{
    collections::BTreeMap,
    fs,
    io::Read as _,
    path::{Path, PathBuf},
    sync::Arc,
};

use rayon::prelude::*;
use walkdir::WalkDir;

use super::{
    Record, Records,
    common::{TakenFrom, TraceFile},
    kinds::Body,
    read::Reader,
    text,
    trace::Trace,
    yaml::{self, Problem},
};
use crate::ground::{
    PIECE,
    digest::Digest,
    finding::{Finding, Severity},
    index::Index,
    place::{Place, Spot},
    progress,
    seen::printable,
    words::Language,
};

/// One file of the folder, as read.
pub struct File {
    /// Its bytes.
    pub bytes: Vec<u8>,
    /// Their digest.
    pub digest: Digest,
}

/// A dossier folder, read.
pub struct Folder {
    /// Its files by path, with forward slashes, in order.
    pub files: BTreeMap<Arc<str>, File>,
    /// The records.
    pub records: Records,
    /// The traces that records name, by path: the trace, or nothing where it could not be read.
    pub traces: Index<Option<Trace>>,
    /// What kept things from being read, under the rules that speak of reading.
    pub problems: Vec<Finding>,
    /// How many files could not be taken in at all, so that no dossier can hold what is wrong with them.
    pub left_out: usize,
}

/// Why a folder cannot be used at all.
#[derive(Debug)]
pub struct Unusable {
    /// What is wrong.
    pub message: String,
    /// What to do.
    pub advice: String,
}

/// Whether a file holds records.
pub fn holds_records(path: &str) -> bool {
    let lower = path.to_ascii_lowercase();
    lower.ends_with(".yaml") || lower.ends_with(".yml")
}

/// The language that `dossier.yaml` chooses; English when it names none that there is.
///
/// It is looked up before anything is read in earnest, so that even what is wrong with the file itself
/// is said in it.
pub fn language(dossier: &[u8]) -> Language {
    serde_yaml::from_slice::<serde_yaml::Value>(dossier)
        .ok()
        .and_then(|head| Language::coded(head.get("language")?.as_str()?))
        .unwrap_or(Language::English)
}

impl Folder {
    /// Reads a dossier folder.
    ///
    /// # Errors
    /// When there is no such folder, or it has no `dossier.yaml`; all else becomes findings.
    pub fn read(root: &Path) -> Result<Folder, Unusable> {
        let unusable = |message: String, advice: &str| Unusable {
            message,
            advice: advice.into(),
        };
        if !root.is_dir() {
            return Err(unusable(
                say!("{root} is not a folder", root = root.display()),
                say!("Name the folder that holds dossier.yaml."),
            ));
        }
        let mut problems = Vec::new();
        let paths = walk(root, &mut problems);
        if !paths.iter().any(|(name, _)| &**name == "dossier.yaml") {
            if paths.iter().any(|(name, _)| &**name == "bagit.txt") {
                return Err(unusable(
                    say!("{root} is a compiled dossier", root = root.display()),
                    say!(
                        "`sealfolio verify` and `sealfolio compare` look at it, and its pages show every figure with its proof. The records that it was made of lie in data/records, some under other names than they had: name the folder that it was compiled from."
                    ),
                ));
            }
            if let Err(error) = fs::read_dir(root) {
                return Err(unusable(
                    say!(
                        "{folder} cannot be read: {error}",
                        folder = root.display(),
                        error = error
                    ),
                    say!("Give yourself the right to read it."),
                ));
            }
            return Err(unusable(
                say!("{root} has no dossier.yaml", root = root.display()),
                say!("Name the folder that holds it, or begin one with `sealfolio new FOLDER`."),
            ));
        }
        progress::begin(say!("reading files"), paths.len());
        let read: Vec<(Arc<str>, std::io::Result<Vec<u8>>)> = paths
            .into_par_iter()
            .with_max_len(PIECE)
            .map(|(name, path)| {
                progress::step();
                let bytes = bounded(&path);
                (name, bytes)
            })
            .collect();
        let mut files = BTreeMap::new();
        for (name, file) in read {
            match file {
                Ok(bytes) => {
                    files.insert(name, bytes);
                }
                Err(error) if error.kind() == std::io::ErrorKind::FileTooLarge => problems.push(
                    Finding::new("R01", Severity::Blocks, say!("is larger than {what} MiB", what = text::MAX_FILE >> 20))
                        .advise(say!("Split it into several files; how records are spread over files means nothing."))
                        .at(Place::whole(&name)),
                ),
                Err(error) => problems.push(
                    Finding::new("R01", Severity::Blocks, say!("cannot be read: {error}", error = error.kind()))
                        .advise(say!("Give yourself the right to read it, or fetch it again; nothing in it is used until then."))
                        .at(Place::whole(&name)),
                ),
            }
        }
        let left_out = problems.len();
        Ok(Folder {
            left_out,
            ..Folder::of(files, problems)
        })
    }

    /// The same from bytes that were read already.
    pub fn of(files: BTreeMap<Arc<str>, Vec<u8>>, mut problems: Vec<Finding>) -> Folder {
        let files: Vec<(Arc<str>, Vec<u8>)> = files.into_iter().collect();
        let files: BTreeMap<Arc<str>, File> = files
            .into_par_iter()
            .with_max_len(PIECE)
            .map(|(name, bytes)| {
                (
                    name,
                    File {
                        digest: Digest::of(&bytes),
                        bytes,
                    },
                )
            })
            .collect::<Vec<_>>()
            .into_iter()
            .collect();
        let of_records: Vec<(&Arc<str>, &File)> = files
            .iter()
            .filter(|(name, _)| holds_records(name))
            .collect();
        progress::begin(say!("reading records"), of_records.len());
        let read: Vec<(Vec<Record>, Vec<Finding>)> = of_records
            .into_par_iter()
            .with_max_len(PIECE)
            .map(|(name, file)| {
                progress::step();
                records_of(name, &file.bytes)
            })
            .collect();
        // Chapters are shown as they stand.
        for (name, file) in files.iter().filter(|(name, _)| name.ends_with(".md")) {
            if let Err(problem) = text::shown(&file.bytes) {
                problems.push(problem.finding(name));
            }
        }
        // As much room as is wanted: doubled as it grows it would be half empty.
        let mut all = Vec::with_capacity(read.iter().map(|(records, _)| records.len()).sum());
        for (records, found) in read {
            all.extend(records);
            problems.extend(found);
        }
        let records = Records::new(all);
        let (traces, found) = traces(&records, &files);
        problems.extend(found);
        Folder {
            files,
            records,
            traces,
            problems,
            left_out: 0,
        }
    }

    /// The trace that a record names, if it is there and could be read.
    pub fn trace(&self, file: &TraceFile) -> Option<&Trace> {
        self.traces.get(&*file.file)?.as_ref()
    }
}

/// The bytes of a file that is not larger than can be read.
///
/// # Errors
/// What the system says, or [`std::io::ErrorKind::FileTooLarge`].
pub fn bounded(path: &Path) -> std::io::Result<Vec<u8>> {
    let file = fs::File::open(path)?;
    let size = file.metadata()?.len().min(text::MAX_FILE as u64);
    let mut bytes = Vec::with_capacity(size as usize + 1);
    file.take(text::MAX_FILE as u64 + 1)
        .read_to_end(&mut bytes)?;
    match bytes.len() > text::MAX_FILE {
        true => Err(std::io::ErrorKind::FileTooLarge.into()),
        false => Ok(bytes),
    }
}

/// Every plain file, sorted; links and odd names become findings.
fn walk(root: &Path, problems: &mut Vec<Finding>) -> Vec<(Arc<str>, PathBuf)> {
    let mut out = Vec::new();
    let visible = |entry: &walkdir::DirEntry| {
        entry.depth() == 0 || !entry.file_name().to_string_lossy().starts_with('.')
    };
    for entry in WalkDir::new(root)
        .sort_by_file_name()
        .into_iter()
        .filter_entry(visible)
    {
        let block = |message: String, name: &str| {
            Finding::new("R01", Severity::Blocks, message).at(Place::whole(name))
        };
        let entry = match entry {
            Ok(entry) if entry.depth() == 0 => continue,
            Ok(entry) => entry,
            Err(error) => {
                let name = error
                    .path()
                    .and_then(|path| path.strip_prefix(root).ok())
                    .map_or(String::new(), |path| path.to_string_lossy().into_owned());
                problems.push(
                    block(say!("cannot be read").into(), &name)
                        .advise(say!("Give yourself the right to read it.")),
                );
                continue;
            }
        };
        let relative = entry.path().strip_prefix(root).unwrap_or(entry.path());
        let Some(name) = relative
            .to_str()
            .map(|name| name.replace(std::path::MAIN_SEPARATOR, "/"))
        else {
            problems.push(
                block(
                    say!("has a name that is not UTF-8").into(),
                    &printable(&relative.to_string_lossy()),
                )
                .advise(say!("Rename it.")),
            );
            continue;
        };
        let shown = printable(&name);
        if shown != *name {
            problems.push(
                block(
                    say!("has a character in its name that nobody sees or that moves others")
                        .into(),
                    &shown,
                )
                .advise(say!("Rename it.")),
            );
        } else if entry.file_type().is_symlink() {
            problems.push(
                block(say!("is a link, which is not followed").into(), &name)
                    .advise(say!("Put the file itself there.")),
            );
        } else if entry.file_type().is_file() {
            out.push((Arc::from(name), entry.into_path()));
        } else if !entry.file_type().is_dir() {
            problems.push(
                block(say!("is neither a file nor a folder").into(), &name)
                    .advise(say!("Remove it.")),
            );
        }
    }
    out.sort();
    out
}

/// How many problems of one file are told one by one.
pub const MAX_PROBLEMS: usize = 200;

fn records_of(name: &Arc<str>, bytes: &[u8]) -> (Vec<Record>, Vec<Finding>) {
    let nodes = match yaml::documents(bytes) {
        Ok(nodes) => nodes,
        Err(problem) => return (Vec::new(), vec![problem.finding(name)]),
    };
    let mut reader = Reader::default();
    if nodes.is_empty() {
        reader.refuse::<()>(
            Spot::default(),
            say!("holds no record"),
            say!("Write one, or remove the file."),
        );
    }
    let records = nodes
        .iter()
        .filter_map(|node| Record::read(node, name, &mut reader))
        .collect();
    let mut problems = reader.problems;
    problems.sort_by_key(|problem| problem.spot);
    if let Some(next) = problems.get(MAX_PROBLEMS) {
        let rest = say!(
            "has {n} more problems from here on",
            n = problems.len() - MAX_PROBLEMS
        );
        let rest = Problem::new(next.spot, rest, say!("Mend those above first."));
        problems.truncate(MAX_PROBLEMS);
        problems.push(rest);
    }
    (
        records,
        problems
            .into_iter()
            .map(|problem| problem.finding(name))
            .collect(),
    )
}

/// Every trace that a record names, with the record.
pub fn trace_files(record: &Record) -> Vec<&TraceFile> {
    match &record.body {
        Body::ModuleTest(body) => body
            .test
            .measurements
            .iter()
            .filter_map(|m| m.trace.as_ref())
            .collect(),
        Body::AssemblyTest(body) => body
            .test
            .measurements
            .iter()
            .filter_map(|m| m.trace.as_ref())
            .collect(),
        Body::SealRun(body) => body.trace.iter().collect(),
        Body::CycleLog(body) => body
            .events
            .iter()
            .filter_map(|event| event.trace.as_ref())
            .collect(),
        _ => Vec::new(),
    }
}

/// Every other file that a record names: path, stated digest, where.
pub fn attachments(record: &Record) -> Vec<(&str, Option<&str>, Spot)> {
    use super::common::Attachment;
    fn of(attachment: &Option<Attachment>) -> Vec<(&str, Option<&str>, Spot)> {
        let Some(attachment) = attachment else {
            return Vec::new();
        };
        let file = attachment.file.as_ref();
        file.map(|file| (&**file, attachment.sha256.as_deref(), file.spot))
            .into_iter()
            .collect()
    }
    let mut named = match &record.body {
        Body::CalibrationRecord(body) => of(&body.certificate),
        Body::MaterialLot(body) => of(&body.inspection_document),
        Body::CycleClaim(body) => of(&body.evidence),
        Body::MarkingInspection(body) => body
            .reads
            .iter()
            .filter_map(|mark| mark.photo.as_ref())
            .map(|photo| (&**photo, None, photo.spot))
            .collect(),
        Body::Dossier(body) => body
            .chapters
            .iter()
            .map(|chapter| (&**chapter, None, chapter.spot))
            .collect(),
        _ => Vec::new(),
    };
    named.extend(exports(record).map(|own| (&*own.file, Some(&*own.sha256), own.file.spot)));
    named
}

/// Every export that a record or its traces were taken from.
pub fn exports(record: &Record) -> impl Iterator<Item = &TakenFrom> {
    let of_traces = trace_files(record)
        .into_iter()
        .filter_map(|trace| trace.taken_from.as_ref());
    record.taken_from.iter().chain(of_traces)
}

type Traces = Index<Option<Trace>>;

fn traces(records: &Records, files: &BTreeMap<Arc<str>, File>) -> (Traces, Vec<Finding>) {
    let mut wanted: BTreeMap<Box<str>, (char, u8)> = BTreeMap::new();
    for file in records.current().flat_map(trace_files) {
        let decimal = file
            .decimal_separator
            .as_ref()
            .and_then(|text| text.chars().next())
            .unwrap_or('.');
        let separator = match file.field_separator.as_deref() {
            None => b',',
            Some("tab" | "\\t") => b'\t',
            Some(text) => text.bytes().next().unwrap_or(b','),
        };
        wanted
            .entry(file.file.text.clone())
            .or_insert((decimal, separator));
    }
    let wanted: Vec<_> = wanted.into_iter().collect();
    let read: Vec<(Box<str>, Option<Trace>, Vec<Finding>)> = wanted
        .into_par_iter()
        .with_max_len(PIECE)
        .filter_map(|(path, (decimal, separator))| {
            // A missing file is the business of rule R05.
            let (name, file) = files.get_key_value(&*path)?;
            if let Err(problem) = text::shown(&file.bytes) {
                return Some((path, None, vec![problem.finding(name)]));
            }
            Some(match Trace::read(&file.bytes, decimal, separator) {
                Ok(trace) => (path, Some(trace), Vec::new()),
                Err(problems) => (
                    path,
                    None,
                    problems
                        .into_iter()
                        .map(|problem| problem.finding(name))
                        .collect(),
                ),
            })
        })
        .collect();
    let mut traces = Traces::new();
    let mut found = Vec::new();
    for (path, trace, problems) in read {
        traces.insert(path, trace);
        found.extend(problems);
    }
    (traces, found)
}

/// What to say of a file that is in the folder under another name: other capitals, `\\` between folders, or another altogether where the
/// digest that is stated is its own.
pub fn named_otherwise(
    folder: &Folder,
    file: &str,
    stated: &str,
) -> Option<(String, &'static str)> {
    let bare = |name: &str| name.replace('\\', "/").to_lowercase();
    let wanted = bare(file);
    let Some(other) = folder.files.keys().find(|name| bare(name) == wanted) else {
        let digest = Digest::parse(stated)?;
        let (other, _) = folder.files.iter().find(|(_, own)| own.digest == digest)?;
        return Some((
            say!(
                "{file} is not in the folder; {other} has the digest that is stated for it.",
                file = file,
                other = &**other
            ),
            say!("If that is the file, write its name as the file bears it."),
        ));
    };
    Some((
        say!(
            "{file} is not in the folder; {other} is.",
            file = file,
            other = &**other
        ),
        say!("Write the name as the file bears it, with / between folders."),
    ))
}

/// The next step where what is stated is no digest at all; nothing where it is one.
pub fn no_digest(stated: &str) -> Option<&'static str> {
    let whole = stated.len() == 64 && stated.bytes().all(|byte| byte.is_ascii_hexdigit());
    (!whole).then(|| {
        say!("It was typed wrongly: take the digest again from where it was noted first, and mend the record.")
    })
}

/// A digest that a record states and that is not the file's, in words that show where they part.
pub fn stated(digest: &Digest, stated: &str) -> String {
    if no_digest(stated).is_some() {
        return say!(
            "\"{stated}\", which is no SHA-256 (64 digits 0 to 9 and a to f)",
            stated = stated
        );
    }
    let own = digest.to_string();
    let stated = stated.to_lowercase();
    let parting = own.bytes().zip(stated.bytes()).position(|(a, b)| a != b);
    let short: String = stated.chars().take(12).collect();
    match parting {
        Some(at) if at >= 12 => say!(
            "{short}…, which differs from digit {digit} on",
            short = short,
            digit = at + 1
        ),
        _ => format!("{short}…"),
    }
}

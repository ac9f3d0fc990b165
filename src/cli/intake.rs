//! `intake`: exports and filled-in forms become records, by a mapping of the folder.

use std::{
    collections::BTreeMap,
    fs,
    io::Write as _,
    path::{Path, PathBuf},
    sync::Arc,
};

use super::{FINE, UNUSABLE, Voice, complain, show, typed, unusable};
use crate::{
    ground::{
        digest::Digest,
        finding::Finding,
        interrupt,
        name::{nearest, safe},
        place::{Place, Spot},
        words,
    },
    intake::{self, At, Beside, Export, Flaw, Made, Mapping, Taken},
    record::{
        folder::{self, File, Folder},
        kinds::intake_mapping::IntakeMapping,
        text::MAX_FILE,
        yaml::Node,
    },
};

/// Where records go.
const TAKEN_IN: &str = "taken-in";
/// How many records a preview shows.
const SHOWN: usize = 2;

/// What was asked for.
pub struct Asked<'a> {
    /// The id of the mapping.
    pub mapping: &'a str,
    /// The exports.
    pub exports: &'a [PathBuf],
    /// An empty form to write.
    pub form: Option<&'a Path>,
    /// Whether to write, or only to show what would be written.
    pub write: bool,
    /// Whether to show every record.
    pub all: bool,
}

/// Message and advice.
type Trouble = (String, String);

pub(super) fn run(root: &Path, asked: &Asked, voice: &Voice) -> u8 {
    words::speak(folder::language(
        &fs::read(root.join("dossier.yaml")).unwrap_or_default(),
    ));
    let mut folder = match voice.watched(|| Folder::read(root)) {
        Ok(folder) => folder,
        Err(why) => return unusable(&why),
    };
    let readings = match exports(&mut folder, asked.exports) {
        Ok(readings) => readings,
        Err(trouble) => return refuse(trouble),
    };
    let mappings: Vec<Mapping> = folder
        .records
        .intake_mappings()
        .map(|(record, body)| Mapping { record, body })
        .collect();
    let Some(mapping) = mappings
        .iter()
        .find(|mapping| *mapping.record.id.text == *asked.mapping)
    else {
        return unknown(&folder, &mappings, asked.mapping, voice);
    };
    // A key that is not known may be one that was meant: nothing is taken in by half a mapping.
    let wrong: Vec<&Finding> = folder
        .problems
        .iter()
        .filter(|found| {
            let at = found.place.as_ref();
            at.is_some_and(|place| place.file == mapping.record.file)
        })
        .collect();
    if !wrong.is_empty() {
        for finding in wrong.iter().take(show::MOST) {
            voice.say(&show::finding(&folder.files, finding, voice.color));
            voice.say("");
        }
        return refuse((
            say!(
                "{file}, which holds the mapping {id}, has findings",
                file = mapping.record.file,
                id = asked.mapping
            ),
            say!("Mend what is said above first.").into(),
        ));
    }
    if &*mapping.body.makes == "trace" {
        return refuse((
            say!(
                "{id} makes traces, which come in with the record that names them",
                id = asked.mapping
            ),
            say!("Name a mapping of records whose field of the trace names this one.").into(),
        ));
    }
    if let Some(form) = asked.form {
        return match write_form(form, mapping.body) {
            Ok(columns) => {
                voice.say(&say!(
                    "Wrote {form}: an empty form of {n} columns.",
                    form = form.display(),
                    n = columns
                ));
                FINE
            }
            Err(trouble) => refuse(trouble),
        };
    }
    let mut plan = Writing::default();
    for (n, reading) in readings.iter().enumerate() {
        let kept = intake::kept(&reading.name, &reading.bytes);
        let export = Export {
            bytes: &reading.bytes,
            kept: &kept,
        };
        let beside = Beside {
            file: &|name, _| beside(&reading.path, name),
            mappings: &mappings,
        };
        let taken = match voice.watched(|| intake::take(*mapping, export, &beside)) {
            Ok(taken) => taken,
            Err(flaws) => {
                tell(&folder, mapping, reading, flaws, voice);
                return UNUSABLE;
            }
        };
        if n > 0 {
            voice.say("");
        }
        if let Err(trouble) = plan.add((&folder, mapping), reading, &kept, taken, asked.all, voice)
        {
            return refuse(trouble);
        }
    }
    let done = match asked.write {
        true => {
            // A call that was begun is brought to its end.
            let held = interrupt::hold();
            let written = plan.write(root);
            drop(held);
            written
        }
        false => plan.free(root),
    };
    if let Err(trouble) = done {
        return refuse(trouble);
    }
    voice.say(&plan.said(root, asked.write));
    FINE
}

fn refuse((message, advice): Trouble) -> u8 {
    complain(&message, &advice);
    UNUSABLE
}

/// An export as read.
struct Reading {
    path: PathBuf,
    name: String,
    /// How messages name it.
    shown: Arc<str>,
    bytes: Vec<u8>,
}

/// Reads the exports, and puts them beside the files of the folder, so that messages can show their lines.
fn exports(folder: &mut Folder, paths: &[PathBuf]) -> Result<Vec<Reading>, Trouble> {
    let mut out = Vec::new();
    for path in paths {
        let shown: Arc<str> = path.display().to_string().into();
        let bytes = read(path).map_err(|error| {
            (
                say!("cannot read {path}: {error}", path = shown, error = error),
                say!(
                    "Name a file of at most {what} MiB that you may read.",
                    what = MAX_FILE >> 20
                ),
            )
        })?;
        folder.files.insert(
            shown.clone(),
            File {
                digest: Digest::of(&bytes),
                bytes: bytes.clone(),
            },
        );
        out.push(Reading {
            name: path
                .file_name()
                .map_or(String::new(), |name| name.to_string_lossy().into_owned()),
            path: path.clone(),
            shown,
            bytes,
        });
    }
    Ok(out)
}

/// A plain file that is not larger than can be read.
fn read(path: &Path) -> std::io::Result<Vec<u8>> {
    match fs::metadata(path)?.is_file() {
        true => folder::bounded(path),
        false => Err(std::io::ErrorKind::InvalidInput.into()),
    }
}

fn beside(export: &Path, name: &str) -> Option<Vec<u8>> {
    read(&export.parent()?.join(name)).ok()
}

fn unknown(folder: &Folder, mappings: &[Mapping], id: &str, voice: &Voice) -> u8 {
    for finding in folder.problems.iter().take(show::MOST) {
        voice.say(&show::finding(&folder.files, finding, voice.color));
        voice.say("");
    }
    let known: Vec<&str> = mappings
        .iter()
        .map(|mapping| &*mapping.record.id.text)
        .collect();
    let near = nearest(id, known.iter().copied()).map_or(String::new(), |near| {
        say!(" (did you mean {near}?)", near = near)
    });
    refuse((
        say!(
            "there is no mapping {id} in the folder{near}",
            id = id,
            near = near
        ),
        [
            match known.is_empty() {
                true => {
                    say!("Begin one with `sealfolio new FOLDER --record intake_mapping`.").into()
                }
                false => say!("Its mappings are: {known}.", known = known.join(", ")),
            },
            match folder.problems.is_empty() {
                true => String::new(),
                false => {
                    say!("If it is there and cannot be read, mend what is said above first.").into()
                }
            },
        ]
        .join(" ")
        .trim_end()
        .to_owned(),
    ))
}

/// Tells what is wrong, each with its line.
fn tell(
    folder: &Folder,
    mapping: &Mapping,
    reading: &Reading,
    mut flaws: Vec<Flaw>,
    voice: &Voice,
) {
    let more = flaws.len().saturating_sub(intake::MAX_FLAWS);
    flaws.truncate(intake::MAX_FLAWS);
    let mut files: BTreeMap<Arc<str>, File> = BTreeMap::new();
    let bytes = intake::decoded(&reading.bytes, mapping.body)
        .map_or(reading.bytes.clone(), String::into_bytes);
    files.insert(
        reading.shown.clone(),
        File {
            digest: Digest::of(&bytes),
            bytes,
        },
    );
    if let Some(file) = folder.files.get(&mapping.record.file) {
        let bytes = file.bytes.clone();
        files.insert(
            mapping.record.file.clone(),
            File {
                digest: file.digest,
                bytes,
            },
        );
    }
    for flaw in &flaws {
        let (place, cell) = match &flaw.at {
            At::Mapping(spot) => (mapping.record.at(*spot), ""),
            At::Line { line, cell } => (
                Place::new(
                    &reading.shown,
                    Spot {
                        line: *line,
                        column: 1,
                    },
                ),
                &**cell,
            ),
        };
        voice.say(&show::refusal(
            &files,
            (&flaw.message, &flaw.advice),
            &place,
            cell,
            voice.color,
        ));
        voice.say("");
    }
    let n = flaws.len() + more;
    let message = match n {
        1 => say!("nothing was taken in: 1 thing is wrong").to_owned(),
        n => say!("nothing was taken in: {n} things are wrong", n = n),
    };
    complain(&message, say!("Do what each says next, and call it again."));
}

/// What is to be written: paths in the folder and bytes, records last.
#[derive(Default)]
struct Writing {
    files: BTreeMap<String, Vec<u8>>,
    records: BTreeMap<String, (usize, Vec<u8>)>,
}

impl Writing {
    /// Adds what an export gave, and shows it.
    fn add(
        &mut self,
        (folder, mapping): (&Folder, &Mapping),
        reading: &Reading,
        kept: &str,
        taken: Taken,
        all: bool,
        voice: &Voice,
    ) -> Result<(), Trouble> {
        let (rows, counted) = taken.rows;
        let (n, kind) = (taken.made.len(), taken.kind);
        let of_made = taken
            .made
            .iter()
            .flat_map(|made| folder.records.revisions(kind, &made.record.id));
        let texts = intake::nodes_of(folder, of_made);
        let mut known = 0;
        let mut fresh: Vec<&Made> = Vec::new();
        for made in &taken.made {
            match there(folder, &texts, made)? {
                true => known += 1,
                false => fresh.push(made),
            }
        }
        voice.say(&say!("{export}: {counted} of {rows} rows count. Records of kind {kind}: {n}; here already: {known}.", export = reading.shown, n = n, kind = kind, counted = counted, rows = rows, known = known));
        if !taken.skipped.is_empty() {
            let words = taken.skipped.iter();
            let words: Vec<String> = words
                .map(|(word, rows)| format!("\"{word}\" {rows}"))
                .collect();
            voice.say(&say!(
                "Rows that do not count, by their word: {words}.",
                words = words.join(", ")
            ));
        }
        if !taken.unused.is_empty() {
            voice.say(&say!(
                "Not used: {columns}.",
                columns = taken.unused.join(" | ")
            ));
        }
        for (one, other) in taken.alike.iter().take(SHOWN) {
            voice.say(&say!(
                "Lines {one} and {other} are alike in every cell, and both count: make sure that both were measured.",
                one = one,
                other = other
            ));
        }
        if taken.left_out > 0 {
            voice.say(&say!(
                "Left out, every cell of theirs being blank: {n} members of lists.",
                n = taken.left_out
            ));
        }
        let most = if all { usize::MAX } else { SHOWN };
        for made in fresh.iter().take(most) {
            voice.say(&format!("\n{}", made.text.trim_end()));
        }
        let rest = fresh.len().saturating_sub(most);
        if rest > 0 {
            voice.say(&format!(
                "\n{}",
                say!("… and {n} more; --all shows every one.", n = rest)
            ));
        }
        if fresh.is_empty() {
            return Ok(());
        }
        let (_, name) = kept.split_once('/').unwrap_or(("", kept));
        let stem = name.rsplit_once('.').map_or(name, |(stem, _)| stem);
        let text: Vec<&str> = fresh.iter().map(|made| &*made.text).collect();
        // One export serves several mappings, so each has a file of its own.
        let by = &*mapping.record.id;
        self.records.insert(
            format!("{TAKEN_IN}/{stem}-{}.yaml", safe(by)),
            (fresh.len(), text.join("---\n").into_bytes()),
        );
        let named = taken
            .files
            .into_iter()
            .chain([(kept.to_owned(), reading.bytes.clone())]);
        for (path, bytes) in named {
            if self.files.get(&path).is_some_and(|other| *other != bytes) {
                return Err((
                    say!("two files would be {path}", path = path),
                    say!(
                        "Take the exports in one after the other, and rename one of the two files."
                    )
                    .into(),
                ));
            }
            self.files.insert(path, bytes);
        }
        Ok(())
    }

    /// Every file, records last.
    fn all(&self) -> impl Iterator<Item = (&String, &Vec<u8>)> {
        self.files
            .iter()
            .chain(self.records.iter().map(|(path, (_, bytes))| (path, bytes)))
    }

    /// Whether nothing else stands where something is to go.
    fn free(&self, root: &Path) -> Result<(), Trouble> {
        for (path, bytes) in self.all() {
            let target = root.join(path);
            if target.symlink_metadata().is_ok() && fs::read(&target).ok().as_ref() != Some(bytes) {
                return Err((
                    say!("{path} is there already, and says something else", path = path),
                    say!("Nothing is ever written over: rename one of the two files, or move it away.").into(),
                ));
            }
        }
        Ok(())
    }

    /// Writes all, or nothing.
    fn write(&self, root: &Path) -> Result<(), Trouble> {
        self.free(root)?;
        let mut made: Vec<PathBuf> = Vec::new();
        for (path, bytes) in self.all() {
            let target = root.join(path);
            if target.symlink_metadata().is_ok() {
                continue;
            }
            match place(&target, bytes) {
                Ok(()) => made.push(target),
                Err(error) => {
                    // In the order of writing the other way round: a record is never without its export.
                    made.iter()
                        .rev()
                        .for_each(|path| drop(fs::remove_file(path)));
                    return Err((
                        say!(
                            "cannot write {path}: {error}; nothing was taken in",
                            path = target.display(),
                            error = error
                        ),
                        say!("Look at free space and rights.").into(),
                    ));
                }
            }
        }
        Ok(())
    }

    /// What was, or would be, written.
    fn said(&self, root: &Path, written: bool) -> String {
        if self.records.is_empty() {
            return format!(
                "\n{}",
                say!("Every record is here already: nothing to write.")
            );
        }
        let n: usize = self.records.values().map(|(n, _)| n).sum();
        let names: Vec<&str> = self.records.keys().map(String::as_str).collect();
        let (names, others) = (names.join(", "), self.files.len());
        match written {
            true => format!(
                "\n{}\n{}",
                say!(
                    "Wrote {names} (records: {n}), and files that they name: {others}.",
                    names = names,
                    n = n,
                    others = others
                ),
                say!("Next: `sealfolio review {root}`.", root = typed(root))
            ),
            false => format!(
                "\n{}",
                say!(
                    "Nothing was written. --write puts {n} of them into {names}, and files that they name into exports/ and traces/: {others}.",
                    n = n,
                    names = names,
                    others = others
                )
            ),
        }
    }
}

/// Whether a record is in the folder already, in any revision, and says the same.
fn there(folder: &Folder, texts: &BTreeMap<usize, Node<'_>>, made: &Made) -> Result<bool, Trouble> {
    let id = &made.record.id;
    let mut first = None;
    for known in folder.records.revisions(made.record.kind, id) {
        let differs = texts
            .get(&known.index)
            .and_then(|theirs| intake::difference(&made.node, theirs));
        let Some(differs) = differs else {
            return Ok(true);
        };
        first.get_or_insert((known, differs));
    }
    match first {
        None => Ok(false),
        Some((known, differs)) => Err((
            say!("{id} is in {place} already, and says {theirs} for {field} where line {line} of the export gives {mine}", id = &**id, place = known.at(differs.at), theirs = differs.other, field = differs.field, line = made.line_at(differs.one_at), mine = differs.one),
            say!("A record is never edited. If the export is right, write a revision that supersedes it and says why.").into(),
        )),
    }
}

/// Writes a file that is not there yet; it takes its name when it is whole.
fn place(target: &Path, bytes: &[u8]) -> std::io::Result<()> {
    let folder = target.parent().unwrap_or(Path::new("."));
    fs::create_dir_all(folder)?;
    let mut file = tempfile::Builder::new()
        .prefix(".sealfolio-")
        .tempfile_in(folder)?;
    file.write_all(bytes)?;
    #[cfg(unix)]
    {
        use std::os::unix::fs::PermissionsExt as _;
        file.as_file()
            .set_permissions(fs::Permissions::from_mode(0o644))?;
    }
    file.as_file().sync_all()?;
    file.persist_noclobber(target)
        .map_err(|error| error.error)?;
    Ok(())
}

/// An empty form: the names of the columns that the mapping reads.
fn write_form(path: &Path, mapping: &IntakeMapping) -> Result<usize, Trouble> {
    let columns = intake::form(mapping);
    let separator = intake::separator(mapping).map_err(|flaw| (flaw.message, flaw.advice))?;
    let mut line = csv::WriterBuilder::new()
        .delimiter(separator)
        .from_writer(Vec::new());
    let above = "\n".repeat(
        mapping
            .header_row
            .map_or(0, |row| row.value.saturating_sub(1).min(100) as usize),
    );
    let bytes = line
        .write_record(&columns)
        .ok()
        .and_then(|()| line.into_inner().ok())
        .unwrap_or_default();
    let text = above + &String::from_utf8_lossy(&bytes);
    let encoding = mapping
        .encoding
        .as_ref()
        .and_then(|label| encoding_rs::Encoding::for_label(label.as_bytes()));
    let bytes = match encoding {
        // The mark at its head tells spreadsheets what it is.
        None => [b"\xef\xbb\xbf", text.as_bytes()].concat(),
        Some(encoding) => encoding.encode(&text).0.into_owned(),
    };
    if path.symlink_metadata().is_ok() {
        return Err((
            say!("{path} exists already", path = path.display()),
            say!("Name a file that does not exist yet; nothing is ever written over.").into(),
        ));
    }
    place(path, &bytes)
        .map(|()| columns.len())
        .map_err(|error| {
            (
                say!(
                    "cannot write {path}: {error}",
                    path = path.display(),
                    error = error
                ),
                say!("Look at free space and rights.").into(),
            )
        })
}

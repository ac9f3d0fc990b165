//! Rows of an export → one record.

use std::{
    collections::{BTreeMap, BTreeSet, HashMap, HashSet},
    sync::Arc,
};

use super::{
    At, Beside, EXPORTS, Export, Flaw, Made, Mapping, TRACES, file_name,
    plan::{Plan, Slot, Step, key_order},
    trace::trace,
    value::{self, Target},
    write::{self, Tree},
};
use crate::{
    ground::digest::Digest,
    record::{
        Record, kinds,
        read::{Id, Reader},
        trace::Trace,
        yaml,
    },
};

/// Follows a mapping, row by row.
pub struct Taking<'a> {
    /// The mapping.
    pub mapping: Mapping<'a>,
    /// The export.
    pub export: Export<'a>,
    /// Its digest.
    pub digest: Digest,
    /// What lies beside it.
    pub beside: &'a Beside<'a>,
    /// The mapping, held against the contract.
    pub plan: &'a Plan<'a>,
    /// Traces, and the exports that they were taken from.
    pub files: BTreeMap<String, Vec<u8>>,
    /// Columns of readings that no field uses, each with the mapping that it is read by.
    pub unused: BTreeSet<String>,
    /// Members of lists that were left out because every cell of theirs is blank.
    pub left_out: usize,
}

/// A field of one record, filled: the way to it with every row counted, and the value with the line it is from.
struct Filled<'a> {
    slot: &'a Slot<'a>,
    path: Vec<Step>,
    value: Option<String>,
    line: u32,
}

impl<'a> Taking<'a> {
    /// The record of some rows.
    ///
    /// # Errors
    /// Everything that is wrong in them.
    pub fn record(&mut self, rows: &[&(u32, Vec<String>)]) -> Result<Made, Vec<Flaw>> {
        let line = rows.first().map_or(1, |row| row.0);
        let filled = self.fill(rows)?;
        let blank = blank_members(&filled);
        self.left_out += blank.len();
        let mut root: Vec<(String, Tree)> = Vec::new();
        let mut flaws = Vec::new();
        for one in &filled {
            let Some(value) = &one.value else { continue };
            if members(&one.path).any(|member| blank.contains(member)) {
                continue;
            }
            let from = (
                one.line,
                one.slot
                    .field
                    .column
                    .as_ref()
                    .map_or(String::new(), |column| column.to_string()),
            );
            let leaf = match one.slot.target {
                Target::Trace => match self.trace(value, one) {
                    Ok(tree) => tree,
                    Err(flaw) => {
                        flaws.push(flaw);
                        continue;
                    }
                },
                _ => Tree::Leaf {
                    text: value.clone(),
                    bare: one.slot.target.bare(),
                    from,
                },
            };
            put(&mut root, &one.path, leaf);
        }
        if !flaws.is_empty() {
            return Err(flaws);
        }
        let leaf = |text: &str, bare| Tree::Leaf {
            text: text.into(),
            bare,
            from: (line, String::new()),
        };
        for (key, text, bare) in [
            ("kind", self.plan.kind, false),
            ("revision", "1", true),
            ("source", "instrument_export", false),
        ] {
            if !root.iter().any(|(own, _)| own == key) {
                root.push((key.into(), leaf(text, bare)));
            }
        }
        let lines: Vec<u32> = rows.iter().map(|row| row.0).collect();
        root.push((
            "taken_from".into(),
            self.origin(self.export.kept, self.digest, Some(&lines), &self.mapping),
        ));
        if let Some(kind) = kinds::kind(self.plan.kind) {
            let order = key_order(kind);
            root.sort_by_key(|(key, _)| {
                order
                    .iter()
                    .position(|own| own == key)
                    .map_or(0, |at| at + 1)
            });
        }
        let (text, places) = write::record(&root);
        let flaw = |problem: yaml::Problem| {
            let exact = places.get(&(problem.spot.line, problem.spot.column));
            let near = write::nearest(&places, problem.spot).map_or(line, |from| from.0);
            let (line, column) = exact.cloned().unwrap_or((near, String::new()));
            // What is missing was blank, where a column should have given it.
            let blank = filled.iter().find(|one| {
                let last = one.path.last();
                let named = matches!(last, Some(Step::Key(key)) if problem.message.split(' ').any(|word| word == key));
                named && one.value.is_none() && one.line == line && exact.is_none()
            });
            if let Some(column) = blank.and_then(|one| one.slot.field.column.as_ref()) {
                return Flaw::line(
                    line,
                    say!(
                        "column \"{column}\" is blank here: {message}",
                        column = &**column,
                        message = problem.message
                    ),
                    say!(
                        "Find the value where it was measured, and export again; nothing is filled in."
                    ),
                );
            }
            let message = match column.is_empty() {
                true => problem.message,
                false => say!(
                    "{message} (column \"{column}\")",
                    message = problem.message,
                    column = column
                ),
            };
            Flaw::line(line, message, problem.advice)
        };
        let nodes = yaml::documents(text.as_bytes()).map_err(|problem| vec![flaw(problem)])?;
        let mut reader = Reader::default();
        let file: Arc<str> = self.export.kept.into();
        let node = nodes.into_iter().next();
        let record = node.and_then(|node| {
            Record::read(&node, &file, &mut reader).map(|record| (record, node.owned()))
        });
        match (record, reader.problems.is_empty()) {
            (Some((record, node)), true) => Ok(Made {
                record,
                text,
                node,
                line,
                places,
            }),
            _ => Err(reader.problems.into_iter().map(flaw).collect()),
        }
    }

    /// Every field with its value.
    fn fill(&self, rows: &[&(u32, Vec<String>)]) -> Result<Vec<Filled<'a>>, Vec<Flaw>> {
        let plan: &'a Plan<'a> = self.plan;
        let (mut out, mut flaws) = (Vec::new(), Vec::new());
        for slot in &plan.slots {
            let mut first: Option<(u32, String)> = None;
            for (n, (line, cells)) in rows.iter().map(|row| (row.0, &row.1)).enumerate() {
                let raw = slot.raw(cells);
                if !slot.each_row() {
                    match &first {
                        None => first = Some((line, raw.clone())),
                        Some((before, other)) if *other != raw => {
                            flaws.push(Flaw::line(
                                line,
                                say!("{field} is \"{raw}\" here and \"{other}\" in line {before}, and both lines make one record", field = &*slot.field.field, raw = raw, other = other, before = before),
                                say!("Find out which is right; a field that each row has of its own is written with [] in the mapping."),
                            ));
                            break;
                        }
                        Some(_) => continue,
                    }
                }
                let path = slot.path.iter().map(|step| match step {
                    Step::EachRow => Step::Member(n),
                    step => step.clone(),
                });
                // What the mapping itself says is written as records write it.
                let read = match slot.of_cells() {
                    true => value::value(&raw, slot.field, self.mapping.body, &slot.target),
                    false => Ok(Some(raw.clone())),
                };
                match read {
                    Ok(value) => out.push(Filled {
                        slot,
                        path: path.collect(),
                        value,
                        line,
                    }),
                    Err((message, advice)) => flaws.push(Flaw::cell(
                        line,
                        &raw,
                        format!("{}: {message}", &*slot.field.field),
                        advice,
                    )),
                }
            }
        }
        match flaws.is_empty() {
            true => Ok(out),
            false => Err(flaws),
        }
    }

    /// A file of readings beside the export.
    fn trace(&mut self, name: &str, one: &Filled) -> Result<Tree, Flaw> {
        let bad = |message: String, advice: &str| Flaw::line(one.line, message, advice);
        if name.contains(['/', '\\']) || name.starts_with('.') {
            return Err(bad(
                say!(
                    "\"{name}\" is no name of a file beside the export",
                    name = name
                ),
                say!("Put the traces into the folder of the export."),
            ));
        }
        let converted = one.slot.field.mapping.is_some();
        let Some(bytes) = (self.beside.file)(name, converted) else {
            return Err(bad(
                say!("there is no {name} beside the export", name = name),
                say!("Fetch it from the instrument; a record without its trace is not taken in."),
            ));
        };
        let leaf = |text: String| Tree::Leaf {
            text,
            bare: false,
            from: (one.line, String::new()),
        };
        let (stem, own) = (file_name(name), Digest::of(&bytes));
        let mut entries = Vec::new();
        let (path, bytes) = match &one.slot.field.mapping {
            None => {
                Trace::read(&bytes, '.', b',').map_err(|problems| {
                    let first = problems.into_iter().next();
                    let (line, message) =
                        first.map_or((0, String::new()), |first| (first.spot.line, first.message));
                    bad(
                        say!(
                            "{name} line {line}: {message}",
                            name = name,
                            line = line,
                            message = message
                        ),
                        say!("Write a mapping that makes trace, and name it here by `mapping`."),
                    )
                })?;
                (format!("{TRACES}/{stem}"), bytes)
            }
            Some(id) => {
                let by = self.mapping_of_traces(id)?;
                let (text, unused) = trace(by.body, &bytes).map_err(|flaw| match flaw.at {
                    At::Line { line, .. } => bad(
                        say!(
                            "{name} line {line}: {message}",
                            name = name,
                            line = line,
                            message = flaw.message
                        ),
                        &flaw.advice,
                    ),
                    At::Mapping(_) => {
                        Flaw::spot(id.spot, format!("{}: {}", &**id, flaw.message), flaw.advice)
                    }
                })?;
                let kept = format!("{EXPORTS}/{stem}");
                entries.push(("taken_from".to_owned(), self.origin(&kept, own, None, &by)));
                self.keep(kept, bytes, one.line)?;
                let unused = unused.into_iter();
                self.unused
                    .extend(unused.map(|column| format!("{}: {column}", &**id)));
                let ending = if stem.ends_with(".csv") { "" } else { ".csv" };
                (format!("{TRACES}/{stem}{ending}"), text.into_bytes())
            }
        };
        entries.insert(
            0,
            ("sha256".to_owned(), leaf(Digest::of(&bytes).to_string())),
        );
        entries.insert(0, ("file".to_owned(), leaf(path.clone())));
        self.keep(path, bytes, one.line)?;
        Ok(Tree::Map(entries))
    }

    /// Puts a file where nothing else is.
    fn keep(&mut self, path: String, bytes: Vec<u8>, line: u32) -> Result<(), Flaw> {
        match self.files.get(&path) {
            Some(other) if *other != bytes => Err(Flaw::line(
                line,
                say!("two files would be {path}", path = path),
                say!("Rename one of them, and the text that names it."),
            )),
            _ => {
                self.files.insert(path, bytes);
                Ok(())
            }
        }
    }

    fn mapping_of_traces(&self, id: &Id) -> Result<Mapping<'_>, Flaw> {
        let found = self
            .beside
            .mappings
            .iter()
            .find(|mapping| *mapping.record.id.text == *id.text);
        found
            .copied()
            .filter(|mapping| &*mapping.body.makes == "trace")
            .ok_or_else(|| {
                Flaw::spot(
                    id.spot,
                    say!("there is no mapping {id} that makes trace", id = &**id),
                    say!("Write it as a record of kind intake_mapping with makes: trace."),
                )
            })
    }

    /// What a record says of where it comes from.
    fn origin(&self, file: &str, digest: Digest, lines: Option<&[u32]>, mapping: &Mapping) -> Tree {
        let leaf = |text: String, bare| Tree::Leaf {
            text,
            bare,
            from: (1, String::new()),
        };
        let mut out = vec![
            ("file".to_owned(), leaf(file.into(), false)),
            ("sha256".to_owned(), leaf(digest.to_string(), false)),
        ];
        out.extend(lines.map(|lines| ("lines".to_owned(), leaf(spans(lines), false))));
        let reference = vec![
            ("id".to_owned(), leaf(mapping.record.id.to_string(), false)),
            (
                "revision".to_owned(),
                leaf(mapping.record.revision.to_string(), true),
            ),
        ];
        out.push(("mapping".to_owned(), Tree::Map(reference)));
        Tree::Map(out)
    }
}

/// Members of lists for which the export says nothing at all, by the ways to them.
fn blank_members<'f>(all: &'f [Filled]) -> HashSet<&'f [Step]> {
    let mut said: HashMap<&'f [Step], bool> = HashMap::new();
    for one in all.iter().filter(|one| one.slot.of_cells()) {
        for member in members(&one.path) {
            *said.entry(member).or_default() |= one.value.is_some();
        }
    }
    let blank = said.into_iter().filter(|(_, said)| !said);
    blank.map(|(member, _)| member).collect()
}

/// The ways to the members of lists that a value lies in.
fn members(path: &[Step]) -> impl Iterator<Item = &[Step]> {
    let ends = path.iter().enumerate();
    ends.filter(|(_, step)| matches!(step, Step::Member(_)))
        .filter_map(|(at, _)| path.get(..=at))
}

/// Puts a value where it belongs.
fn put(root: &mut Vec<(String, Tree)>, path: &[Step], leaf: Tree) {
    let [Step::Key(key), rest @ ..] = path else {
        return;
    };
    if !root.iter().any(|(own, _)| own == key) {
        root.push((key.clone(), empty(rest)));
    }
    if let Some((_, tree)) = root.iter_mut().find(|(own, _)| own == key) {
        within(tree, rest, leaf);
    }
}

fn within(tree: &mut Tree, path: &[Step], leaf: Tree) {
    match (tree, path) {
        (tree, []) => *tree = leaf,
        (Tree::Map(entries), [Step::Key(_), ..]) => put(entries, path, leaf),
        (Tree::List(members), [Step::Member(n), rest @ ..]) => {
            within(members.entry(*n).or_insert_with(|| empty(rest)), rest, leaf);
        }
        _ => {}
    }
}

fn empty(path: &[Step]) -> Tree {
    match path.first() {
        Some(Step::Member(_) | Step::EachRow) => Tree::List(BTreeMap::new()),
        _ => Tree::Map(Vec::new()),
    }
}

/// Lines as `2-25, 40`.
fn spans(lines: &[u32]) -> String {
    let mut spans: Vec<(u32, u32)> = Vec::new();
    for line in lines {
        match spans.last_mut() {
            Some((_, last)) if *last + 1 == *line => *last = *line,
            _ => spans.push((*line, *line)),
        }
    }
    let text = |(first, last): &(u32, u32)| match first == last {
        true => first.to_string(),
        false => format!("{first}-{last}"),
    };
    spans.iter().map(text).collect::<Vec<_>>().join(", ")
}

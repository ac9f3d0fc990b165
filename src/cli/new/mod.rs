//! `new`: a small dossier folder that compiles at once, or one more record of a kind.

mod skeleton;

use std::{
    fs,
    io::{BufRead as _, IsTerminal as _, Write as _},
    path::Path,
};

use super::{FINE, UNUSABLE, Voice, complain, typed};
use crate::{
    commitment::KEY_FILE,
    ground::{
        digest::Digest,
        name::{nearest, safe},
    },
    record::{folder::Folder, kinds},
};

/// Where schemas lie: hidden, so that they are no part of the dossier.
const SCHEMAS: &str = ".schemas";

/// What the first dossier is about; what is not given is asked for on a terminal, or stands as a word to be replaced.
#[derive(clap::Args)]
pub struct Asked {
    /// Who makes the elements
    #[arg(long, value_name = "NAME")]
    maker: Option<String>,
    /// For whom the first release will be
    #[arg(long, value_name = "NAME")]
    customer: Option<String>,
    /// What the dossier is called on its pages
    #[arg(long)]
    title: Option<String>,
    /// The language of pages and findings: en, it, fr, de, es, pt
    #[arg(long, value_name = "CODE", value_parser = ["en", "it", "fr", "de", "es", "pt"])]
    language: Option<String>,
    /// Write instead one more record of this kind into a folder that is there, with a line on each field
    #[arg(long, value_name = "KIND", conflicts_with_all = ["maker", "customer", "title", "language"])]
    record: Option<String>,
    /// With --record: the id of the record
    #[arg(long, value_name = "ID", requires = "record")]
    id: Option<String>,
}

/// The text of `dossier.yaml`.
fn dossier(title: &str, maker: &str, customer: &str, language: &str) -> String {
    let quoted = |text: &str| serde_json::Value::from(text).to_string();
    format!(
        r#"# yaml-language-server: $schema={SCHEMAS}/dossier.schema.json
# The root of a dossier. Every other YAML file in this folder, wherever it lies, is read as a record;
# `kind` decides what it is, file names mean nothing. `sealfolio schema` lists the kinds, and
# `sealfolio new FOLDER --record KIND` begins one more record with a line on each of its fields.
kind: dossier
record_format: "1"
id: D-0001                       # never changes; revisions count up
revision: 1
title: {}
maker: {{name: {}, address: "Street, town"}}
customers:
  - {{customer_id: CU-1, name: {}}}
compiled_on: "2026-01-01"        # the date on the pages; no clock is read
language: {language}
chapters:
  - narrative/01-what-this-is.md
expected_signers:                # the people of people.yaml, in the order in which they sign
  - {{person_id: P-3, meaning: prepared}}
  - {{person_id: P-2, meaning: reviewed}}
  - {{person_id: P-1, meaning: approved for release}}
"#,
        quoted(title),
        quoted(maker),
        quoted(customer)
    )
}

const POLICY: &str = r#"# Who may do what, and who signs. Replace names and functions by your own; a person id is never used again for
# another person. Rules hold every record against this: who wrote it, and who may not review what they did.
kind: personnel_authorisation
record_id: PA-1
revision: 1
recorded_at: "2026-01-01T08:00:00+00:00"
recorded_by: P-1
persons:
  # `may` lists kinds of record that the person writes (take out what others do), and the acts release, review, approve_deviation, approve_specification.
  - {person_id: P-1, printed_name: "Name of the quality manager", function: quality_manager, may: [release, approve_deviation, approve_specification, personnel_authorisation, signature_policy], valid_from: "2026-01-01", valid_until: "2026-12-31"}
  - {person_id: P-2, printed_name: "Name of the reviewer", function: quality_reviewer, may: [review], valid_from: "2026-01-01", valid_until: "2026-12-31"}
  - {person_id: P-3, printed_name: "Name of who writes records", function: validation_engineer, may: [product_specification, layer_stack, element_geometry, material_lot, membrane_test, slitting_record, pleating_record, seal_run, seal_inspection, module_test, assembly_build, assembly_test, flow_test, marking_inspection, lot_reconciliation, calibration_record, retention_challenge, endurance_study, measurement_study, cycle_claim, cycle_log, deviation, requirement, release_statement, intake_mapping], valid_from: "2026-01-01", valid_until: "2026-12-31"}
---
# Three signatures, by three persons, in this order. A release stays the decision of a qualified person.
kind: signature_policy
record_id: SP-1
revision: 1
recorded_at: "2026-01-01T08:10:00+00:00"
recorded_by: P-1
meanings:
  - {meaning: authorship, functions: [validation_engineer]}
  - {meaning: review, functions: [quality_reviewer], not_with: [authorship]}
  - {meaning: release, functions: [quality_manager], not_with: [authorship, review]}
"#;

const CHAPTER: &str = "# What this dossier covers

Write here, in Markdown, what a reader must know. A figure is never typed: name it in double square brackets, as in
`diffusive-flow@MT-1` between them, and the page shows its value with its uncertainty and leads to its proof.
";

/// Compiled dossiers are made again from records, so they need no history of their own; the key of customers' copies stays in: without it nobody
/// could make the same dossier again.
const IGNORED: &str = "# Compiled dossiers are made of the records; keep those that were signed in an archive.\n*-dossier/\n*-out/\n.sealfolio-*\n";

pub(super) fn run(folder: &Path, asked: &Asked, voice: &Voice) -> u8 {
    match &asked.record {
        Some(kind) => record(folder, kind, asked.id.as_deref(), voice),
        None => begin(folder, asked, voice),
    }
}

fn begin(folder: &Path, asked: &Asked, voice: &Voice) -> u8 {
    let above = std::path::absolute(folder).unwrap_or_else(|_| folder.to_owned());
    let above = above
        .ancestors()
        .skip(1)
        .find(|above| above.join("dossier.yaml").exists());
    if let Some(above) = above {
        complain(
            &format!(
                "{} lies inside the dossier of {}",
                folder.display(),
                above.display()
            ),
            "Name a folder outside it: what lies in a dossier's folder is sealed with it, and handed over.",
        );
        return UNUSABLE;
    }
    let given = [
        ("--title", &asked.title),
        ("--maker", &asked.maker),
        ("--customer", &asked.customer),
    ];
    let blank = |text: &Option<String>| text.as_deref().is_some_and(|text| text.trim().is_empty());
    if let Some((option, _)) = given.iter().find(|(_, text)| blank(text)) {
        complain(
            &format!("{option} is empty"),
            "Give a name, or leave the option away.",
        );
        return UNUSABLE;
    }
    if folder.symlink_metadata().is_ok() {
        complain(
            &format!("{} exists already", folder.display()),
            "Name a folder that does not exist yet; nothing is ever written over. One more record in it: add --record KIND.",
        );
        return UNUSABLE;
    }
    let ask = !voice.quiet && std::io::stdin().is_terminal() && std::io::stdout().is_terminal();
    let answer = |given: &Option<String>, question: &str, else_: &str| match given {
        Some(given) => given.clone(),
        None if ask => asked_for(question, else_),
        None => else_.to_owned(),
    };
    let maker = answer(&asked.maker, "Who makes the elements?", "Name of the maker");
    let customer = answer(
        &asked.customer,
        "For whom is the first release?",
        "Name of the customer",
    );
    let title = asked.title.as_deref().unwrap_or("Validation dossier");
    let language = asked.language.as_deref().unwrap_or("en");
    let head = dossier(title, &maker, &customer, language);
    let write = || {
        fs::create_dir_all(folder.join("narrative"))?;
        fs::write(folder.join("dossier.yaml"), head)?;
        fs::write(
            folder.join("people.yaml"),
            format!("# yaml-language-server: $schema={SCHEMAS}/record.schema.json\n{POLICY}"),
        )?;
        fs::write(folder.join(KEY_FILE), key()?)?;
        fs::write(folder.join(".gitignore"), IGNORED)?;
        fs::write(folder.join("narrative/01-what-this-is.md"), CHAPTER)?;
        schemas(folder)
    };
    if let Err(error) = write() {
        // It did not exist before, so that nothing but this run's own half is taken away.
        let _ = fs::remove_dir_all(folder);
        return unwritten(folder, &error);
    }
    voice.say(&format!("Wrote {0}/dossier.yaml, people.yaml (who may do what, and who signs), a first chapter, and {KEY_FILE}: random numbers that keep what a customer's copy withholds from being guessed.\nEditors that know JSON Schema find one for each kind of record in {SCHEMAS}.\nNext: fill in the names, then one record after the other, `sealfolio new {1} --record product_specification` or from exports by `sealfolio intake`; `sealfolio review {1}` says what is missing.", folder.display(), typed(folder)));
    FINE
}

/// What a person answers on the terminal; what stands for it where they only press the key.
fn asked_for(question: &str, else_: &str) -> String {
    print!("{question} [{else_}] ");
    let _ = std::io::stdout().flush();
    let mut line = String::new();
    let read = std::io::stdin().lock().read_line(&mut line);
    match (read, line.trim()) {
        (Ok(_), answer) if !answer.is_empty() => answer.to_owned(),
        _ => else_.to_owned(),
    }
}

/// A schema for each kind, and one for files that hold several.
fn schemas(folder: &Path) -> std::io::Result<()> {
    let folder = folder.join(SCHEMAS);
    fs::create_dir_all(&folder)?;
    for kind in kinds::KINDS {
        let text = serde_json::to_string_pretty(&kinds::schema(kind)).unwrap_or_default();
        fs::write(
            folder.join(format!("{}.schema.json", kind.name)),
            text + "\n",
        )?;
    }
    let all: Vec<serde_json::Value> = kinds::KINDS
        .iter()
        .map(|kind| {
            serde_json::json!({
                "if": {"properties": {"kind": {"const": kind.name}}, "required": ["kind"]},
                "then": {"$ref": format!("{}.schema.json", kind.name)}})
        })
        .collect();
    let names: Vec<&str> = kinds::KINDS.iter().map(|kind| kind.name).collect();
    let any = serde_json::json!({
        "$schema": "https://json-schema.org/draft/2020-12/schema", "title": "record",
        "type": "object", "properties": {"kind": {"enum": names}}, "required": ["kind"], "allOf": all});
    fs::write(
        folder.join("record.schema.json"),
        serde_json::to_string_pretty(&any).unwrap_or_default() + "\n",
    )
}

/// One more record of a kind.
fn record(folder: &Path, name: &str, id: Option<&str>, voice: &Voice) -> u8 {
    if !folder.join("dossier.yaml").is_file() {
        complain(
            &format!("{} has no dossier.yaml", folder.display()),
            "Name the folder that holds it, or begin one with `sealfolio new FOLDER`.",
        );
        return UNUSABLE;
    }
    let known = || {
        kinds::KINDS
            .iter()
            .map(|kind| kind.name)
            .filter(|name| *name != "dossier")
    };
    let Some(kind) = kinds::kind(name).filter(|kind| kind.name != "dossier") else {
        let near =
            nearest(name, known()).map_or(String::new(), |near| format!(" (did you mean {near}?)"));
        complain(
            &format!("{name} is no kind of record{near}"),
            "`sealfolio schema` lists them.",
        );
        return UNUSABLE;
    };
    let id = id.unwrap_or("NEW-1");
    let file = format!("{}-{}.yaml", kind.name.replace('_', "-"), safe(id));
    let path = folder.join(&file);
    // A second record of one id would block everything; what is wrong elsewhere in the folder is not asked here.
    if let Ok(read) = Folder::read(folder)
        && let Some(other) = read.records.find(kind.name, id)
    {
        complain(
            &format!("{} {id} stands already in {}", kind.name, other.place()),
            "Name another --id. A correction is a revision: copy the record, count `revision` up, and say `supersedes` and `change_reason`.",
        );
        return UNUSABLE;
    }
    let text = skeleton::text(kind, id);
    let write = || -> std::io::Result<()> {
        if !folder.join(SCHEMAS).is_dir() {
            schemas(folder)?;
        }
        let mut made = fs::OpenOptions::new()
            .write(true)
            .create_new(true)
            .open(&path)?;
        made.write_all(text.as_bytes())
    };
    match write() {
        Ok(()) => {
            voice.say(&format!("Wrote {}: each field with a line on what it says. Fill in what is blank; `sealfolio review {}` says what is still missing.", path.display(), typed(folder)));
            FINE
        }
        Err(error) if error.kind() == std::io::ErrorKind::AlreadyExists => {
            complain(
                &format!("{} exists already", path.display()),
                "Give the record another id with --id; nothing is ever written over.",
            );
            UNUSABLE
        }
        Err(error) => unwritten(&path, &error),
    }
}

fn unwritten(path: &Path, error: &std::io::Error) -> u8 {
    complain(
        &format!("cannot write {}: {}", path.display(), error.kind()),
        "Look at free space and rights, or name another place.",
    );
    UNUSABLE
}

/// 32 random bytes in hexadecimal, from the system.
fn key() -> std::io::Result<String> {
    let mut bytes = [0; 32];
    getrandom::fill(&mut bytes)?;
    Ok(format!("{}\n", Digest(bytes)))
}

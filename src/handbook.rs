//! The chapters of the handbook that are written from definitions: records, figures, rules.
//!
//! `cargo run --example handbook` writes them; a test holds them equal to the definitions.

use std::{fmt::Write as _, path::Path};

use crate::{
    dossier::Dossier,
    figure::From,
    figures,
    record::{
        common::Common,
        kinds::KINDS,
        read::{Field, Shape as _},
    },
    rules,
};

/// The two editions of the example, and the faults that the first is made with.
pub struct Example {
    /// As it was found.
    pub as_found: Dossier,
    /// As it was released.
    pub released: Dossier,
    /// `faults.json`: a list of maps with `group`, `rule`, `about`, `weight`, `fault`.
    pub faults: serde_json::Value,
}

impl Example {
    /// Reads the example below a folder.
    ///
    /// # Errors
    /// In words, when it is not there.
    pub fn read(folder: &Path) -> Result<Example, String> {
        let build = |name: &str| Dossier::build(&folder.join(name)).map_err(|why| why.message);
        let text = std::fs::read_to_string(folder.join("faults.json"))
            .map_err(|error| error.to_string())?;
        Ok(Example {
            as_found: build("as-found")?,
            released: build("released")?,
            faults: serde_json::from_str(&text).map_err(|error| error.to_string())?,
        })
    }
}

/// Every generated chapter: file name below `handbook/generated/` and text.
pub fn chapters(example: &Example) -> Vec<(&'static str, String)> {
    vec![
        ("records.md", records(&example.released)),
        ("figures.md", figures()),
        ("rules.md", rules(example)),
        ("faults.md", faults(example)),
    ]
}

/// The text of the first record of a kind in a dossier, long lines cut.
fn shown(dossier: &Dossier, kind: &str) -> Option<String> {
    let record = dossier.plant.records().of_kind(kind).next()?;
    let file = dossier.plant.folder.files.get(&record.file)?;
    let text = String::from_utf8_lossy(&file.bytes).into_owned();
    let lines = text
        .lines()
        .skip(record.spot.line as usize - 1)
        .take_while(|line| *line != "---");
    let cut = |line: &str| match line.char_indices().nth(150) {
        Some((at, _)) => format!("{} …", &line[..at]),
        None => line.to_owned(),
    };
    let all: Vec<String> = lines.map(cut).collect();
    let more = if all.len() > 30 { "\n…" } else { "" };
    Some(all.get(..30).unwrap_or(&all).join("\n") + more)
}

/// A rule's finding about something, or its first.
fn message(dossier: &Dossier, rule: &str, about: Option<&str>) -> Option<String> {
    let all = dossier.findings();
    let own = all.iter().filter(|finding| finding.rule == rule);
    let mut own = own.filter(|finding| {
        about.is_none_or(|about| finding.about.first().is_some_and(|id| id == about))
    });
    own.next().map(|finding| finding.message.replace('|', "/"))
}

/// What is wrong in `as-found`, which rule says so and in which words; how much each rule looked at.
fn faults(example: &Example) -> String {
    let mut out = String::from(
        "# What the example gets wrong\n\nThe dossier `example-dossier/as-found` is made with these faults; `released` has them cleared or explained. Each is caught by the rule beside it, in these words. A test holds the table true: every rule that finds something of either weight, with the thing that it is about, stands here once, and no other.\n\n| group | fault | rule | weight | message |\n|---|---|---|---|---|\n",
    );
    let word =
        |fault: &serde_json::Value, key: &str| fault[key].as_str().unwrap_or_default().to_owned();
    for fault in example.faults.as_array().into_iter().flatten() {
        let (rule, about) = (word(fault, "rule"), word(fault, "about"));
        let said = message(&example.as_found, &rule, Some(&about)).unwrap_or_default();
        let _ = writeln!(
            out,
            "| {} | {} | {rule} | {} | {said} |",
            word(fault, "group"),
            word(fault, "fault"),
            word(fault, "weight")
        );
    }
    out.push_str("\n## How much each rule looked at\n\nNo finding over nothing is no pass.\n\n| rule | looks at | as-found | findings | released | findings |\n|---|---|---|---|---|---|\n");
    for (before, after) in example
        .as_found
        .checked
        .iter()
        .zip(&example.released.checked)
    {
        let looked =
            |checked: &crate::rule::Checked| match (&checked.outcome.blind, checked.outcome.looked)
            {
                (Some(why), _) => format!("not evaluated: {why}"),
                (None, n) => n.to_string(),
            };
        let _ = writeln!(
            out,
            "| {} | {} | {} | {} | {} | {} |",
            before.rule.id,
            before.outcome.things,
            looked(before),
            before.outcome.findings.len(),
            looked(after),
            after.outcome.findings.len()
        );
    }
    out
}

fn fields(out: &mut String, fields: &[Field]) {
    out.push_str("| field | must | what it says |\n|---|---|---|\n");
    for field in fields {
        let must = if field.required { "yes" } else { "" };
        let _ = writeln!(
            out,
            "| `{}` | {must} | {} |",
            field.name,
            field.about.trim()
        );
    }
    out.push('\n');
}

fn records(example: &Dossier) -> String {
    let mut out = String::from(
        "# Record kinds\n\nWritten from the definitions that read them. `sealfolio schema KIND` prints the same as JSON Schema, nested maps included.\n\n## Every record\n\n",
    );
    fields(&mut out, &Common::fields());
    for kind in KINDS {
        let _ = writeln!(out, "## {}\n\n{}\n", kind.name, kind.about.trim());
        fields(&mut out, &(kind.fields)());
        if let Some(text) = shown(example, kind.name) {
            let _ = writeln!(out, "```yaml\n{text}\n```\n");
        }
    }
    out.trim_end().to_owned() + "\n"
}

fn figures() -> String {
    let mut out = String::from(
        "# Figures\n\nWritten from the definitions that compute them: formula, symbols, validity, source and worked example cannot drift apart.\n",
    );
    for figure in figures::ALL {
        let formula = (figure.formula)();
        let _ = writeln!(
            out,
            "\n## {}\n\n`{}`\n\n{}\n\n    {} = {}",
            figure.name,
            figure.id,
            figure.about,
            figure.symbol,
            formula.text()
        );
        for (name, part) in formula.parts() {
            let _ = writeln!(out, "    {name} = {}", part.text());
        }
        out.push_str("\n| symbol | meaning | unit | from |\n|---|---|---|---|\n");
        for input in formula.variables() {
            let from = match input.from {
                From::Records(_) => "records".to_owned(),
                From::Doubt(source) => format!("zero; contribution `{source}`"),
                From::Constant { source, .. } => source.to_owned(),
                From::Margins(_) => "room of judged figures to their limits".to_owned(),
                From::Figures(below, _) => format!("figure `{}`", below.id),
            };
            let _ = writeln!(
                out,
                "| `{}` | {} | {} | {from} |",
                input.symbol, input.what, input.unit.print
            );
        }
        for procedure in formula.procedures() {
            let _ = writeln!(out, "\n`{}`: {}", procedure.name, procedure.about);
        }
        let given: Vec<String> = figure
            .example
            .given
            .iter()
            .map(|(input, value, _)| format!("{} = {value}", input.symbol))
            .collect();
        let _ = writeln!(
            out,
            "\nHolds: {}\n\nWorked example: {}. Gives **{}**.\n",
            figure.validity,
            given.join(", "),
            figure.example.gives
        );
        for source in figure.sources {
            let _ = writeln!(out, "Source: {source}.");
        }
    }
    out
}

fn rules(example: &Example) -> String {
    let mut out = String::from(
        "# Rules\n\nWritten from the definitions that check them. A rule that had nothing to look at is `not evaluated`, never passed.\n",
    );
    for rule in rules::ALL {
        let _ = writeln!(out, "\n## {}\n\n{}", rule.id, rule.demands);
        for sentence in rule.about() {
            let _ = writeln!(out, "\n{sentence}");
        }
        let said = message(&example.as_found, rule.id, None)
            .or_else(|| message(&example.released, rule.id, None));
        if let Some(said) = said {
            let _ = writeln!(out, "\nIn the example it says: *{said}*");
        }
    }
    out
}

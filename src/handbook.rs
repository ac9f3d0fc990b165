//! The chapters of the handbook that are written from definitions: records, figures, rules.
//!
//! `cargo run --example handbook` writes them; a test holds them equal to the definitions.

use std::fmt::Write as _;

use crate::{
    figure::From,
    figures,
    record::{
        common::Common,
        kinds::KINDS,
        read::{Field, Shape as _},
    },
    rules,
};

/// Every generated chapter: file name below `handbook/generated/` and text.
pub fn chapters() -> Vec<(&'static str, String)> {
    vec![
        ("records.md", records()),
        ("figures.md", figures()),
        ("rules.md", rules()),
    ]
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

fn records() -> String {
    let mut out = String::from(
        "# Record kinds\n\nWritten from the definitions that read them. `sealfolio schema KIND` prints the same as JSON Schema, nested maps included.\n\n## Every record\n\n",
    );
    fields(&mut out, &Common::fields());
    for kind in KINDS {
        let _ = writeln!(out, "## {}\n\n{}\n", kind.name, kind.about.trim());
        fields(&mut out, &(kind.fields)());
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

fn rules() -> String {
    let mut out = String::from(
        "# Rules\n\nWritten from the definitions that check them. A rule that had nothing to look at is `not evaluated`, never passed.\n",
    );
    for rule in rules::ALL {
        let _ = writeln!(
            out,
            "\n## {}\n\n{}\n\nUsual weight: {}. Protects against {}. May be explained: {}",
            rule.id,
            rule.demands,
            rule.severity.words(),
            rule.protects,
            rule.explained
        );
    }
    out
}

//! `explain`: a figure's derivation on the terminal, or what a rule demands.

use std::path::Path;

use super::{FINE, UNUSABLE, complain, print, unusable};
use crate::{
    dossier::Dossier,
    figure::{Computed, Figure, Origin},
    figures,
    ground::{name::nearest, number, place::Place},
    page::Book,
    rules,
    simulation::{lines, simulate},
    site, verdict,
};

/// Columns for the numbers of an input; where they take more, their source stands on the next line.
const WIDE: usize = 43;

pub(super) fn run(id: &str, folder: &Path, draws: Option<u32>, as_json: bool) -> u8 {
    let rule = rules::ALL
        .iter()
        .find(|rule| rule.id.eq_ignore_ascii_case(id));
    if let Some(rule) = rule {
        print(&format!("{}: {}\n", rule.id, say!(rule.demands)));
        rule.about().iter().for_each(|sentence| print(sentence));
        return FINE;
    }
    let (name, of) = id
        .split_once('@')
        .map_or((id, None), |(name, of)| (name, Some(of)));
    let Some(figure) = figures::ALL.iter().find(|figure| figure.id == name) else {
        let near = nearest(name, figures::ALL.iter().map(|figure| figure.id))
            .map_or(String::new(), |near| {
                say!(" (did you mean {near}?)", near = near)
            });
        let all: Vec<&str> = figures::ALL.iter().map(|figure| figure.id).collect();
        complain(
            &say!(
                "{name} is no figure and no rule{near}",
                name = name,
                near = near
            ),
            &say!(
                "Figures are: {all}; rules are {first} to {last}.",
                all = all.join(", "),
                first = rules::ALL.first().map_or("", |rule| rule.id),
                last = rules::ALL.last().map_or("", |rule| rule.id)
            ),
        );
        return UNUSABLE;
    };
    if of.is_none() {
        if as_json || draws.is_some() {
            complain(
                &say!(
                    "{name} alone is a definition, which has no numbers",
                    name = name
                ),
                &say!("Name a figure of a record too: {name}@RECORD.", name = name),
            );
            return UNUSABLE;
        }
        definition(figure);
        return FINE;
    }
    let dossier = match Dossier::build(folder) {
        Ok(dossier) => dossier,
        Err(why) => return unusable(&why),
    };
    let Some(computed) = dossier
        .graph
        .computed
        .values()
        .find(|computed| computed.id.to_string() == id)
    else {
        let ids: Vec<String> = dossier
            .graph
            .all(figure.id)
            .map(|computed| computed.id.to_string())
            .collect();
        let near = nearest(id, ids.iter().map(String::as_str)).map_or(String::new(), |near| {
            say!(" (did you mean {near}?)", near = near)
        });
        complain(
            &say!(
                "{id} is not in {folder}{near}",
                id = id,
                folder = folder.display(),
                near = near
            ),
            &say!(
                "It has {count} of this figure{first}.",
                count = ids.len(),
                first = ids.first().map_or(String::new(), |first| say!(
                    ", the first being {first}",
                    first = first
                ))
            ),
        );
        return UNUSABLE;
    };
    match as_json {
        true => {
            let figure = site::figure_json(&Book::new(&dossier), computed);
            print(&serde_json::to_string_pretty(&figure).unwrap_or_default());
        }
        false => derivation(computed),
    }
    if let (Some(draws), false) = (draws, as_json) {
        print("");
        match simulate(&dossier.graph, &dossier.plant, computed, draws as usize) {
            Ok(simulation) => lines(&simulation, computed)
                .iter()
                .for_each(|line| print(line)),
            Err(why) => print(&say!("Monte Carlo: not possible: {why}.", why = why)),
        }
    }
    FINE
}

fn definition(figure: &Figure) {
    let formula = (figure.formula)();
    print(&format!(
        "{} ({})\n\n{}\n\n  {} = {}",
        say!(figure.name),
        figure.id,
        say!(figure.about),
        figure.symbol,
        formula.text()
    ));
    for (name, part) in formula.parts() {
        print(&format!("  {name} = {}", part.text()));
    }
    print("");
    for input in formula.variables() {
        print(&format!(
            "  {:<8}{}",
            input.symbol,
            number::with_unit(&format!("{},", say!(input.what)), &input.unit).trim_end_matches(',')
        ));
    }
    for procedure in formula.procedures() {
        print(&format!("\n{}: {}", procedure.name, say!(procedure.about)));
    }
    print(&say!(
        "\nHolds: {validity}",
        validity = say!(figure.validity)
    ));
    for source in figure.sources {
        print(&say!("Source: {source}", source = say!(source)));
    }
    for sentence in crate::agreement::sentences(figure.id) {
        print(&say!("Checked: {sentence}", sentence = sentence));
    }
}

fn derivation(computed: &Computed) {
    let figure = computed.figure;
    definition(figure);
    print(&format!(
        "\n{}: {}  ({})",
        computed.id,
        computed.shown(),
        computed.verdict().said()
    ));
    let why = computed
        .worked
        .as_ref()
        .err()
        .or(computed.undecidable.as_ref());
    if let Some(why) = why {
        print(&say!("Not evaluated: {why}.", why = why));
    }
    if let Some(numbers) = computed.with_numbers() {
        print(&format!("\n  {} = {numbers}", figure.symbol));
    }
    if let Ok(worked) = &computed.worked {
        print(say!("\nInputs"));
        for term in &worked.terms {
            let value = term.shown();
            let source = origin(&term.origin);
            print(&match value.chars().count() <= WIDE {
                true => format!("  {:<8}{value:<WIDE$} {source}", term.input.symbol),
                false => format!("  {:<8}{value}\n{:10}{source}", term.input.symbol, ""),
            });
        }
        let u2 = worked.quantity.u() * worked.quantity.u();
        if u2 > 0.0 {
            print(&say!(
                "\nUncertainty: u = {factor}, U = {figure} ({quantity}, 95.45 %)",
                factor = number::significant(worked.quantity.u() / figure.unit.factor, 3),
                figure = verdict::expanded(&worked.quantity, &figure.unit),
                quantity = verdict::coverage_text(&worked.quantity)
            ));
            for (cause, share) in worked
                .quantity
                .shares
                .iter()
                .filter(|(_, share)| *share != 0.0)
            {
                let name = say!(
                    "{name} of {of}",
                    name = say!(&cause.name.replace('_', " ")),
                    of = say!(&cause.of)
                );
                print(&format!(
                    "  {name:<52}{:>10}  {:>5} %",
                    number::significant(share.abs() / figure.unit.factor, 2),
                    number::fixed(100.0 * share * share / u2, 1)
                ));
            }
        }
    }
    if let Some(judgement) = &computed.judgement {
        let room = judgement.margin.map_or(String::new(), |margin| {
            say!(", room {margin} u", margin = number::fixed(margin, 1))
        });
        let at = judgement
            .limit
            .at
            .as_ref()
            .map_or(String::new(), |at| format!(" ({at})"));
        print(&say!(
            "\nDecision: {limit}{at}: {verdict}{room}",
            limit = judgement.limit.text,
            at = at,
            verdict = judgement.verdict.said(),
            room = room
        ));
        if let Some(probability) = judgement.probability() {
            print(&say!(
                "Probability that the true value is inside: {probability} (JCGM 106:2012, clause 7)",
                probability = probability
            ));
        }
    }
    if let Some(reported) = &computed.reported {
        print(&say!(
            "Reported: {reported} ({at})",
            reported = reported.text,
            at = reported.at
        ));
    }
}

fn origin(origin: &Origin) -> String {
    match origin {
        Origin::Readings(readings) => match &readings[..] {
            [(text, at)] => format!("{text}  ({at})"),
            [(_, first), .., (_, last)] => span(first, last),
            [] => String::new(),
        },
        Origin::Rows { first, last, .. } => span(first, last),
        Origin::Contribution { text, at } => format!("{text}  ({at})"),
        Origin::Constant { source } => say!(*source).to_owned(),
        Origin::Figures(ids) => ids
            .iter()
            .map(ToString::to_string)
            .collect::<Vec<_>>()
            .join(", "),
        Origin::NoContribution => say!("no contribution stated; taken as nothing").into(),
    }
}

/// From one place to another.
fn span(first: &Place, last: &Place) -> String {
    match (first.file == last.file, first.spot.line == last.spot.line) {
        (true, true) => first.to_string(),
        (true, false) => say!(
            "{first} to line {line}",
            first = first,
            line = last.spot.line
        ),
        (false, _) => format!("{first} … {last}"),
    }
}

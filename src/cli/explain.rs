//! `explain`: a figure's derivation on the terminal.

use std::path::Path;

use super::{FINE, UNUSABLE, complain, print, unusable};
use crate::{
    dossier::Dossier,
    figure::{Computed, Figure, Origin},
    figures,
    ground::{name::nearest, number},
    page::Book,
    simulation::{lines, simulate},
    site, verdict,
};

pub(super) fn run(id: &str, folder: &Path, draws: Option<u32>, as_json: bool) -> u8 {
    let (name, of) = id
        .split_once('@')
        .map_or((id, None), |(name, of)| (name, Some(of)));
    let Some(figure) = figures::ALL.iter().find(|figure| figure.id == name) else {
        let near = nearest(name, figures::ALL.iter().map(|figure| figure.id))
            .map_or(String::new(), |near| format!(" (did you mean {near}?)"));
        let all: Vec<&str> = figures::ALL.iter().map(|figure| figure.id).collect();
        complain(
            &format!("{name} is no figure{near}"),
            &format!("Figures are: {}.", all.join(", ")),
        );
        return UNUSABLE;
    };
    if of.is_none() {
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
        let near = nearest(id, ids.iter().map(String::as_str))
            .map_or(String::new(), |near| format!(" (did you mean {near}?)"));
        complain(
            &format!("{id} is not in {}{near}", folder.display()),
            &format!(
                "It has {} of this figure{}.",
                ids.len(),
                ids.first()
                    .map_or(String::new(), |first| format!(", the first being {first}"))
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
            Err(why) => print(&format!("Monte Carlo: not possible: {why}.")),
        }
    }
    FINE
}

fn definition(figure: &Figure) {
    let formula = (figure.formula)();
    print(&format!(
        "{} ({})\n\n{}\n\n  {} = {}",
        figure.name,
        figure.id,
        figure.about,
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
            number::with_unit(&format!("{},", input.what), &input.unit).trim_end_matches(',')
        ));
    }
    for procedure in formula.procedures() {
        print(&format!("\n{}: {}", procedure.name, procedure.about));
    }
    print(&format!("\nHolds: {}", figure.validity));
    for source in figure.sources {
        print(&format!("Source: {source}"));
    }
    for sentence in crate::agreement::sentences(figure.id) {
        print(&format!("Checked: {sentence}"));
    }
}

fn derivation(computed: &Computed) {
    let figure = computed.figure;
    definition(figure);
    print(&format!(
        "\n{}: {}  ({})",
        computed.id,
        computed.shown(),
        computed.verdict().words()
    ));
    if let Err(why) = &computed.worked {
        print(&format!("Not evaluated: {why}."));
    }
    if let Some(numbers) = computed.with_numbers() {
        print(&format!("\n  {} = {numbers}", figure.symbol));
    }
    if let Ok(worked) = &computed.worked {
        print("\nInputs");
        for term in &worked.terms {
            let unit = &term.input.unit;
            let show = |si: f64| number::with_unit(&number::significant(unit.of_si(si), 7), unit);
            let value = match &term.values[..] {
                [one] => show(*one),
                [first, .., last] => format!(
                    "{} values, {} to {}",
                    term.values.len(),
                    show(*first),
                    show(*last)
                ),
                [] => String::new(),
            };
            print(&format!(
                "  {:<8}{value:<44}{}",
                term.input.symbol,
                origin(&term.origin)
            ));
        }
        let u2 = worked.quantity.u() * worked.quantity.u();
        if u2 > 0.0 {
            print(&format!(
                "\nUncertainty: u = {}, U = {} ({}, 95.45 %)",
                number::significant(worked.quantity.u() / figure.unit.factor, 3),
                verdict::expanded(&worked.quantity, &figure.unit),
                verdict::coverage_text(&worked.quantity)
            ));
            for (cause, share) in worked
                .quantity
                .shares
                .iter()
                .filter(|(_, share)| **share != 0.0)
            {
                let name = format!("{} of {}", cause.name.replace('_', " "), cause.of);
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
            format!(", room {} u", number::fixed(margin, 1))
        });
        let at = judgement
            .limit
            .at
            .as_ref()
            .map_or(String::new(), |at| format!(" ({at})"));
        print(&format!(
            "\nDecision: {}{at}: {}{room}",
            judgement.limit.text,
            judgement.verdict.words()
        ));
        if let Some(probability) = judgement.probability() {
            print(&format!(
                "Probability that the true value is inside: {probability} (JCGM 106:2012, clause 7)"
            ));
        }
    }
    if let Some(reported) = &computed.reported {
        print(&format!("Reported: {} ({})", reported.text, reported.at));
    }
}

fn origin(origin: &Origin) -> String {
    match origin {
        Origin::Readings(readings) => match &readings[..] {
            [(text, at)] => format!("{text}  ({at})"),
            [(_, first), .., (_, last)] => format!("{first} to line {}", last.spot.line),
            [] => String::new(),
        },
        Origin::Contribution { text, at } => format!("{text}  ({at})"),
        Origin::Constant { source } => (*source).to_owned(),
        Origin::Figures(ids) => ids
            .iter()
            .map(ToString::to_string)
            .collect::<Vec<_>>()
            .join(", "),
        Origin::NoContribution => "no contribution stated; taken as nothing".into(),
    }
}

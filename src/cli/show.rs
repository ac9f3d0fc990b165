//! Findings on the terminal: rule, weight, place, the line itself, what to do.

use std::{collections::BTreeMap, sync::Arc};

use annotate_snippets::{AnnotationKind, Level, Renderer, Snippet, Title};
use serde_json::{Value, json};

use super::Voice;
use crate::{
    dossier::Dossier,
    ground::{
        finding::{Finding, Severity},
        place::{Place, Spot},
    },
    record::folder::File,
};

/// How many findings are told on a terminal where not all are asked for.
pub const MOST: usize = 200;

/// Rules whose findings are the cause of others: what cannot be read or is not there, two records of one name.
const CAUSES: [&str; 4] = ["R05", "R06", "R08", "R10"];

/// Findings one after the other; what is more than so many is counted. What kept a record from being read comes first:
/// the rest may follow from it.
pub(super) fn findings<'a>(
    dossier: &Dossier,
    found: impl Iterator<Item = &'a Finding>,
    most: usize,
    voice: &Voice,
) {
    let unread = |one: &&Finding| {
        one.severity == Severity::Blocks
            && (dossier.plant.folder.problems.contains(one) || CAUSES.contains(&one.rule))
    };
    let (first, others): (Vec<&Finding>, Vec<&Finding>) = found.partition(unread);
    let told = |some: &[&Finding], most: usize| {
        for one in some.iter().take(most) {
            voice.say(&finding(&dossier.plant.folder.files, one, voice.color));
            voice.say("");
        }
    };
    told(&first, most);
    if !first.is_empty() && !others.is_empty() {
        voice.say(say!("A record that cannot be read is not used: what is missing below may be missing for that reason alone. Mend what stands above first, then look again."));
        voice.say("");
    }
    told(&others, most.saturating_sub(first.len()));
    let rest = (first.len() + others.len()).saturating_sub(most);
    if rest > 0 {
        voice.say(&say!(
            "More findings: {n}. `sealfolio review --all` tells them all.",
            n = rest
        ));
        voice.say("");
    }
}

/// The files of a folder, whose lines are shown.
type Files = BTreeMap<Arc<str>, File>;

/// A finding with the line it points at.
pub fn finding(files: &Files, finding: &Finding, color: bool) -> String {
    let level = match finding.severity {
        Severity::Blocks => Level::ERROR.with_name(say!("blocks release")),
        Severity::Explain => Level::WARNING.with_name(say!("must be explained")),
        Severity::Note => Level::NOTE.with_name(say!("note")),
    };
    let title = level.primary_title(finding.message.as_str());
    let place = finding.place.as_ref().map(|place| (place, ""));
    shown(files, title.id(finding.rule), place, &finding.advice, color)
}

/// What keeps something from being taken in, message and advice, with the line it points at, and the cell where it is one.
pub fn refusal(
    files: &Files,
    (message, advice): (&str, &str),
    place: &Place,
    cell: &str,
    color: bool,
) -> String {
    let title = Level::ERROR
        .with_name(say!("not taken in"))
        .primary_title(message);
    shown(files, title, Some((place, cell)), advice, color)
}

/// Shows a line from the spot to the end of the value there, or a cell wherever it stands in the line.
fn shown<'a>(
    files: &Files,
    title: Title<'a>,
    place: Option<(&'a Place, &str)>,
    advice: &'a str,
    color: bool,
) -> String {
    let renderer = if color {
        Renderer::styled()
    } else {
        Renderer::plain()
    };
    let mut group = title.elements(std::iter::empty::<annotate_snippets::Message>());
    let source = place.and_then(|(place, cell)| {
        line_of(files, &place.file, place.spot).map(|line| (place, cell, line))
    });
    match (place, &source) {
        (_, Some((place, cell, line))) => {
            let start = line
                .char_indices()
                .nth(place.spot.column.saturating_sub(1) as usize)
                .map_or(line.len(), |(at, _)| at);
            let rest = &line[start..];
            let end = start
                + rest
                    .find([',', '}', ']'])
                    .unwrap_or(rest.len())
                    .max(usize::from(!rest.is_empty()));
            let end = (start..=end)
                .rev()
                .find(|end| line.is_char_boundary(*end))
                .unwrap_or(start);
            let span = match cell_in(line, cell) {
                Some(at) => at..at + cell.len(),
                None => start..end,
            };
            let snippet = Snippet::source(line.as_str())
                .line_start(place.spot.line as usize)
                .path(&*place.file)
                .annotation(AnnotationKind::Primary.span(span));
            group = group.element(snippet);
        }
        (Some((place, _)), None) => {
            group = group.element(annotate_snippets::Origin::path(&*place.file))
        }
        (None, _) => {}
    }
    if !advice.is_empty() {
        group = group.element(Level::HELP.with_name(say!("next")).message(advice));
    }
    renderer.render(&[group])
}

fn line_of(files: &Files, file: &str, spot: Spot) -> Option<String> {
    let file = files.get(file)?;
    let start = spot.line.checked_sub(1)? as usize;
    let bytes = file.bytes.split(|byte| *byte == b'\n').nth(start)?;
    let text = String::from_utf8_lossy(bytes)
        .trim_end_matches('\r')
        .trim_start_matches('\u{feff}')
        .to_owned();
    // Of a very long line, no more than leads up to the spot and a little behind it.
    Some(text.chars().take(spot.column as usize + 400).collect())
}

/// A finding for a machine.
pub fn json(finding: &Finding) -> Value {
    json!({
        "rule": finding.rule,
        "severity": finding.severity.words(),
        "message": finding.message,
        "next": finding.advice,
        "file": finding.place.as_ref().map(|place| place.file.to_string()),
        "line": finding.place.as_ref().map(|place| place.spot.line).filter(|line| *line > 0),
        "column": finding.place.as_ref().map(|place| place.spot.column).filter(|column| *column > 0),
        "about": finding.about,
    })
}

/// Where a cell stands in a line of an export: as a whole between separators, quotation marks or blanks, or else where its text
/// first is; nowhere where it is empty.
fn cell_in(line: &str, cell: &str) -> Option<usize> {
    let parts = |c: char| c.is_whitespace() || ",;|\"'".contains(c);
    let whole = |at: &usize| {
        let (before, after) = (
            line[..*at].chars().next_back(),
            line[at + cell.len()..].chars().next(),
        );
        before.is_none_or(parts) && after.is_none_or(parts)
    };
    let mut all = line.match_indices(cell).map(|(at, _)| at);
    let found = all.find(whole).or_else(|| line.find(cell));
    found.filter(|_| !cell.is_empty())
}

#[cfg(test)]
mod tests {
    use super::cell_in;

    #[test]
    fn a_cell_is_found_as_a_whole() {
        assert_eq!(cell_in("ST-26-01;2;-;T", "-"), Some(11));
        assert_eq!(cell_in("ST-26-01;2;-;T", "T"), Some(13));
        assert_eq!(cell_in("a;\"x y\";b", "x y"), Some(3));
        assert_eq!(cell_in("ab;c", "b"), Some(1));
        assert_eq!(cell_in("ab;c", ""), None);
    }
}

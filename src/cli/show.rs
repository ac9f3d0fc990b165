//! Findings on the terminal: rule, weight, place, the line itself, what to do.

use annotate_snippets::{AnnotationKind, Level, Renderer, Snippet};
use serde_json::{Value, json};

use super::Voice;
use crate::{
    dossier::Dossier,
    ground::finding::{Finding, Severity},
};

/// How many findings are told on a terminal where not all are asked for.
pub const MOST: usize = 200;

/// Findings one after the other; what is more than so many is counted.
pub(super) fn findings<'a>(
    dossier: &Dossier,
    mut found: impl Iterator<Item = &'a Finding>,
    most: usize,
    voice: &Voice,
) {
    for one in found.by_ref().take(most) {
        voice.say(&finding(dossier, one, voice.color));
        voice.say("");
    }
    let rest = found.count();
    if rest > 0 {
        voice.say(&say!(
            "More findings: {n}. `sealfolio review --all` tells them all.",
            n = rest
        ));
        voice.say("");
    }
}

/// A finding with the line it points at.
pub fn finding(dossier: &Dossier, finding: &Finding, color: bool) -> String {
    let level = match finding.severity {
        Severity::Blocks => Level::ERROR.with_name(say!("blocks release")),
        Severity::Explain => Level::WARNING.with_name(say!("must be explained")),
        Severity::Note => Level::NOTE.with_name(say!("note")),
    };
    let renderer = if color {
        Renderer::styled()
    } else {
        Renderer::plain()
    };
    let mut group = level
        .primary_title(finding.message.as_str())
        .id(finding.rule)
        .elements(std::iter::empty::<annotate_snippets::Message>());
    let source = finding
        .place
        .as_ref()
        .and_then(|place| line_of(dossier, &place.file, place.spot.line).map(|line| (place, line)));
    match (&finding.place, &source) {
        (_, Some((place, line))) => {
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
            let snippet = Snippet::source(line.as_str())
                .line_start(place.spot.line as usize)
                .path(&*place.file)
                .annotation(AnnotationKind::Primary.span(start..end));
            group = group.element(snippet);
        }
        (Some(place), None) => group = group.element(annotate_snippets::Origin::path(&*place.file)),
        (None, _) => {}
    }
    if !finding.advice.is_empty() {
        group = group.element(
            Level::HELP
                .with_name(say!("next"))
                .message(finding.advice.as_str()),
        );
    }
    renderer.render(&[group])
}

fn line_of(dossier: &Dossier, file: &str, line: u32) -> Option<String> {
    let file = dossier.plant.folder.files.get(file)?;
    let start = line.checked_sub(1)? as usize;
    let bytes = file.bytes.split(|byte| *byte == b'\n').nth(start)?;
    let text = String::from_utf8_lossy(bytes)
        .trim_end_matches('\r')
        .trim_start_matches('\u{feff}')
        .to_owned();
    // A very long line says no more than its beginning.
    Some(text.chars().take(400).collect())
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

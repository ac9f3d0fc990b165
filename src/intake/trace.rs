//! An export of readings → a trace of our own form.

use super::{
    Flaw, plan,
    sheet::Sheet,
    value::{self, Target},
};
use crate::record::{kinds::intake_mapping::IntakeMapping, trace::Trace};

/// The trace that an export of readings becomes, and the columns of it that no field uses.
///
/// # Errors
/// The first thing that is wrong.
pub fn trace(mapping: &IntakeMapping, bytes: &[u8]) -> Result<(String, Vec<String>), Flaw> {
    let sheet = Sheet::read(bytes, mapping)?;
    let mut columns = Vec::new();
    for field in &mapping.fields {
        let Some(column) = &field.column else {
            return Err(Flaw::spot(
                field.spot,
                say!("{field} needs a column", field = &*field.field),
                say!("A trace is made of columns only."),
            ));
        };
        let at = plan::the_column(column, column, &sheet)?;
        let target = match &*field.field.text {
            "timestamp" => Target::Time,
            _ => Target::Number,
        };
        columns.push((field, at, target));
    }
    let mut out: String = columns
        .iter()
        .map(|(field, ..)| &*field.field.text)
        .collect::<Vec<_>>()
        .join(",")
        + "\n";
    let mut lines = Vec::new();
    for (line, cells) in &sheet.rows {
        let mut row = Vec::with_capacity(columns.len());
        for (field, at, target) in &columns {
            let cell = cells.get(*at).map_or("", String::as_str);
            let value =
                value::value(cell, field, mapping, target).map_err(|(message, advice)| {
                    Flaw::cell(*line, cell, format!("{}: {message}", &*field.field), advice)
                })?;
            row.push(value.ok_or_else(|| {
                Flaw::line(
                    *line,
                    say!("{field} is blank", field = &*field.field),
                    say!("A trace has every reading; export it again."),
                )
            })?);
        }
        out.push_str(&row.join(","));
        out.push('\n');
        lines.push(*line);
    }
    match Trace::read(out.as_bytes(), '.', b',') {
        Ok(_) => {
            let used = |n: &usize| columns.iter().any(|(_, at, _)| at == n);
            Ok((out, sheet.unused(used)))
        }
        Err(problems) => {
            let first = problems.into_iter().next();
            let (at, message, advice) = first.map_or((1, String::new(), String::new()), |first| {
                (first.spot.line, first.message, first.advice)
            });
            let line = (at as usize)
                .checked_sub(2)
                .and_then(|row| lines.get(row))
                .copied();
            Err(Flaw::line(line.unwrap_or(1), message, advice))
        }
    }
}

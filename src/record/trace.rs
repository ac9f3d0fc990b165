//! CSV traces: columns with units in their names, rows with their lines.

use super::yaml::Problem;
use crate::ground::place::Spot;
use crate::ground::{
    number,
    time::Time,
    unit::{self, Unit},
};

/// The most rows that a trace may have.
pub const MAX_ROWS: usize = 2_000_000;
/// The most columns that a trace may have.
pub const MAX_COLUMNS: usize = 64;

/// One column.
#[derive(Debug, Clone)]
pub struct Column {
    /// Its header, as written.
    pub name: String,
    /// The unit that the header names.
    pub unit: &'static Unit,
    /// Whether a pressure counts from the room (`_gauge`) or from vacuum (`_abs`).
    pub absolute: bool,
    /// The values, in SI.
    pub values: Vec<f64>,
}

/// Readings in time.
#[derive(Debug, Clone)]
pub struct Trace {
    /// Seconds from the first row.
    pub time: Vec<f64>,
    /// The first moment, where rows have calendar times.
    pub start: Option<Time>,
    /// The other columns.
    pub columns: Vec<Column>,
    /// The line of each row.
    pub lines: Vec<u32>,
}

/// Endings of column names: `pressure_mbar_gauge` is a pressure in mbar above the room.
const ENDINGS: &[(&str, &Unit, bool)] = &[
    ("_mbar_gauge", &unit::MBAR, false),
    ("_bar_gauge", &unit::BAR, false),
    ("_kpa_gauge", &unit::KPA, false),
    ("_mbar_abs", &unit::MBAR, true),
    ("_bar_abs", &unit::BAR, true),
    ("_kpa_abs", &unit::KPA, true),
    ("_ml_min", &unit::ML_PER_MIN, false),
    ("_l_min", &unit::L_PER_MIN, false),
    ("_um", &unit::UM, false),
    ("_mm", &unit::MM, false),
    ("_c", &unit::DEGC, false),
    ("_k", &unit::KELVIN, false),
    ("_s", &unit::SECOND, false),
    ("_min", &unit::MINUTE, false),
];

impl Trace {
    /// The first column whose name begins so.
    pub fn column(&self, begins: &str) -> Option<&Column> {
        self.columns
            .iter()
            .find(|column| column.name.starts_with(begins))
    }

    /// The median step between rows, in seconds.
    pub fn step(&self) -> f64 {
        let mut steps: Vec<f64> = self.time.array_windows().map(|[a, b]| b - a).collect();
        steps.sort_by(f64::total_cmp);
        steps.get(steps.len() / 2).copied().unwrap_or(0.0)
    }

    /// Gaps longer than 1.5 steps: index of the row before, and the length in seconds (rule R07).
    pub fn gaps(&self) -> Vec<(usize, f64)> {
        let longest = 1.5 * self.step();
        self.time
            .array_windows()
            .enumerate()
            .map(|(i, [a, b])| (i, b - a))
            .filter(|(_, length)| *length > longest)
            .collect()
    }

    /// Reads the bytes of a CSV file.
    ///
    /// # Errors
    /// Every row that does not fit, by rule R06.
    pub fn read(bytes: &[u8], decimal: char, separator: u8) -> Result<Trace, Vec<Problem>> {
        let bad = |line: u32, message: String, advice: &str| Problem {
            rule: "R06",
            ..Problem::new(Spot { line, column: 1 }, message, advice)
        };
        let bytes = super::text::lines_alike(bytes);
        let mut reader = csv::ReaderBuilder::new()
            .delimiter(separator)
            .flexible(true)
            .has_headers(true)
            .from_reader(&bytes[..]);
        let headers = match reader.headers() {
            Ok(headers) => headers.clone(),
            Err(_) => {
                return Err(vec![bad(
                    1,
                    say!("is not a CSV file in UTF-8").into(),
                    say!("Export it again from the instrument."),
                )]);
            }
        };
        if headers.len() > MAX_COLUMNS {
            return Err(vec![bad(
                1,
                say!(
                    "has {count} columns; at most {what} are read",
                    count = headers.len(),
                    what = MAX_COLUMNS
                ),
                say!("Export the columns that the record needs."),
            )]);
        }
        let mut columns: Vec<Column> = Vec::new();
        for name in &headers {
            let name = name.trim().trim_start_matches('\u{feff}');
            if name == "timestamp" {
                columns.push(Column {
                    name: name.into(),
                    unit: &unit::SECOND,
                    absolute: false,
                    values: Vec::new(),
                });
                continue;
            }
            let Some((_, unit, absolute)) =
                ENDINGS.iter().find(|(ending, ..)| name.ends_with(ending))
            else {
                let advice = say!(
                    "Name the unit in the column: time_s, pressure_mbar_gauge, gas_temperature_c, gas_flow_ml_min, temperature_c, pressure_mbar_abs; or timestamp."
                );
                return Err(vec![bad(
                    1,
                    say!("column \"{name}\" does not say its unit", name = name),
                    advice,
                )]);
            };
            columns.push(Column {
                name: name.into(),
                unit,
                absolute: *absolute,
                values: Vec::new(),
            });
        }
        if columns
            .first()
            .is_none_or(|first| first.name != "timestamp" && first.unit.dim != unit::TIME)
        {
            return Err(vec![bad(
                1,
                say!("the first column is not a time").into(),
                say!("Begin with time_s or timestamp."),
            )]);
        }
        let (mut problems, mut lines, mut start) = (Vec::new(), Vec::new(), None);
        for row in reader.records() {
            let row = match row {
                Ok(row) => row,
                Err(error) => {
                    let line = error
                        .position()
                        .map_or(0, |position| position.line() as u32);
                    problems.push(bad(
                        line,
                        say!("is not UTF-8 or not CSV here").into(),
                        say!("Export it again from the instrument."),
                    ));
                    break;
                }
            };
            let line = row.position().map_or(0, |position| position.line() as u32);
            if lines.len() >= MAX_ROWS {
                problems.push(bad(
                    line,
                    say!("has more than {what} rows", what = MAX_ROWS),
                    say!("Split the trace."),
                ));
                break;
            }
            if row.len() != columns.len() {
                let comma = decimal == '.' && separator == b',' && row.len() > columns.len();
                let hint = if comma {
                    say!("; is there a decimal comma?")
                } else {
                    ""
                };
                problems.push(bad(
                    line,
                    say!("row has {count} fields, {columns} expected{hint}", count = row.len(), columns = columns.len(), hint = hint),
                    say!("Export again with decimal point, or state decimal_separator and field_separator in the record; nothing is guessed."),
                ));
                continue;
            }
            let mut values = Vec::with_capacity(columns.len());
            for (field, column) in row.iter().zip(&columns) {
                let field = field.trim();
                let read = if column.name == "timestamp" {
                    Time::parse(field)
                        .map_err(|why| format!("\"{field}\" {why}"))
                        .map(|time| {
                            let start = *start.get_or_insert(time);
                            time.seconds_since(start)
                        })
                } else if decimal == '.' {
                    number::parse(field).map(|n| column.unit.to_si(n))
                } else if field.contains('.') {
                    Err(say!(
                        "`{field}` has a point although the record says that the decimal sign is `{decimal}`",
                        field = field,
                        decimal = decimal
                    ))
                } else {
                    number::parse(&field.replace(decimal, ".")).map(|n| column.unit.to_si(n))
                };
                match read {
                    Ok(value) => values.push(value),
                    Err(why) => {
                        let advice = match why.ends_with("has no offset") {
                            true => {
                                say!(
                                    "Export times with their offset: when clocks are put back, local time from 02:00 to 03:00 comes twice and no order can be made of it. Keep the raw file."
                                )
                            }
                            false => say!("Export the trace again; do not mend it by hand."),
                        };
                        problems.push(bad(line, why, advice));
                        break;
                    }
                }
            }
            if values.len() == columns.len() {
                let before = columns.first().and_then(|time| time.values.last());
                if before
                    .zip(values.first())
                    .is_some_and(|(before, now)| before >= now)
                {
                    problems.push(bad(
                        line,
                        say!("time does not rise in this row").into(),
                        say!("Rows are never sorted: find out why the order is broken."),
                    ));
                }
                lines.push(line);
                columns
                    .iter_mut()
                    .zip(values)
                    .for_each(|(column, value)| column.values.push(value));
            }
        }
        if !problems.is_empty() {
            problems.truncate(20);
            return Err(problems);
        }
        if lines.len() < 3 {
            return Err(vec![bad(
                1,
                say!(
                    "has {count} rows; at least 3 are needed",
                    count = lines.len()
                ),
                say!("Export the whole trace."),
            )]);
        }
        let time = columns.remove(0).values;
        let zero = time.first().copied().unwrap_or_default();
        Ok(Trace {
            time: time.iter().map(|t| t - zero).collect(),
            start,
            columns,
            lines,
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_trace_keeps_units_lines_and_gaps() {
        let text = b"time_s,pressure_mbar_gauge,gas_temperature_c\n0,1700.0,20.09\n10,1699.4,20.09\n20,1698.8,20.10\n60,1690,20.1\n";
        let trace = Trace::read(text, '.', b',').unwrap();
        assert_eq!(trace.columns[0].values[1], 169_940.0);
        assert!((trace.columns[1].values[0] - 293.24).abs() < 1e-9);
        assert_eq!(trace.lines, [2, 3, 4, 5]);
        assert_eq!(trace.gaps(), [(2, 40.0)]);
        // However lines end, they are counted alike.
        let text = String::from_utf8_lossy(text).replace('\n', "\r\n");
        let trace = Trace::read(text.as_bytes(), '.', b',').unwrap();
        assert_eq!(trace.lines, [2, 3, 4, 5]);
    }

    #[test]
    fn a_decimal_comma_is_refused_until_the_record_says_so() {
        let text = b"time_s,pressure_mbar_gauge\n0,1700,0\n10,1698,8\n20,1697,9\n";
        let problems = Trace::read(text, '.', b',').unwrap_err();
        assert_eq!(problems.len(), 3);
        assert!(
            problems[0].message.contains("decimal comma"),
            "{problems:?}"
        );
        let text = b"time_s;pressure_mbar_gauge\n0;1700,0\n10;1698,8\n20;1697,9\n";
        assert_eq!(
            Trace::read(text, ',', b';').unwrap().columns[0].values[1],
            169_880.0
        );
        let text = b"time_s,pressure_mbar_gauge\n0,1\n10,2\n10,3\n";
        assert!(
            Trace::read(text, '.', b',').unwrap_err()[0]
                .message
                .contains("does not rise")
        );
        let text = b"time_s,pressure\n0,1\n";
        assert!(
            Trace::read(text, '.', b',').unwrap_err()[0]
                .message
                .contains("unit")
        );
    }
}

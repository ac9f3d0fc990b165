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
/// How many problems of one trace are told one by one.
pub const MAX_PROBLEMS: usize = 20;

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

impl Column {
    /// Its name without the unit.
    fn stem(&self) -> &str {
        let mut endings = ENDINGS.iter();
        let found = endings.find_map(|(ending, ..)| self.name.strip_suffix(ending));
        found.unwrap_or(&self.name)
    }
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
    /// The column of this name, unit apart: `pressure` is `pressure_mbar_gauge`; where none is so named, the only one whose name
    /// goes on, as in `temperature_emitter_c`.
    pub fn column(&self, name: &str) -> Option<&Column> {
        let exact = self.columns.iter().find(|column| column.stem() == name);
        exact.or_else(|| {
            let longer = |column: &&Column| {
                let rest = column.name.strip_prefix(name);
                rest.is_some_and(|rest| rest.starts_with('_'))
            };
            let mut own = self.columns.iter().filter(longer);
            own.next().filter(|_| own.next().is_none())
        })
    }

    /// The median step between rows, in seconds; the shorter of the two in the middle, so that a loss in every other step does not
    /// pass for the rule.
    pub fn step(&self) -> f64 {
        let mut steps: Vec<f64> = self.time.array_windows().map(|[a, b]| b - a).collect();
        steps.sort_by(f64::total_cmp);
        steps
            .get(steps.len().saturating_sub(1) / 2)
            .copied()
            .unwrap_or(0.0)
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
        let bytes = super::text::lines_alike(bytes);
        // There are very many traces, and room for rows that never come adds up.
        let lines = bytes.iter().filter(|byte| **byte == b'\n').count() + 1;
        let mut making = Making {
            rows: lines.min(FEW_ROWS),
            decimal,
            separator,
            headed: false,
            columns: Vec::new(),
            lines: Vec::with_capacity(lines.min(FEW_ROWS)),
            start: None,
            problems: Vec::new(),
            more: None,
        };
        let read = rows(&bytes, separator, &mut |line, fields| match making.headed {
            true => making.row(line, fields),
            false => making.head(fields),
        });
        if let Err(line) = read {
            let message = match making.headed {
                true => say!("is not UTF-8 or not CSV here"),
                false => say!("is not a CSV file in UTF-8"),
            };
            making.refuse(
                line,
                message.into(),
                say!("Export it again from the instrument."),
            );
        }
        making.done()
    }
}

/// Hands each row that is not empty over with its line, the head first (an empty one where there is no row), until no
/// more are wanted.
///
/// # Errors
/// The line in which it is not UTF-8 or not CSV.
fn rows(
    bytes: &[u8],
    separator: u8,
    take: &mut dyn FnMut(u32, &[&str]) -> bool,
) -> Result<(), u32> {
    match plain(bytes, separator) {
        Some(text) => {
            plain_rows(text, separator, take);
            Ok(())
        }
        None => quoted_rows(bytes, separator, take),
    }
}

/// Up to so many rows a trace gets its room at once.
const FEW_ROWS: usize = 1 << 12;

/// A longer row, in bytes, is left to the reader of CSV.
const LONG_ROW: usize = 1 << 14;

/// The text of a table in which nothing stands in quotation marks and only line feeds end lines: there a field ends at the next
/// separator, and no state has to be kept. Traces of instruments are like that, and there are very many of them.
fn plain(bytes: &[u8], separator: u8) -> Option<&str> {
    let simple = separator.is_ascii() && separator != b'\n' && separator != b'\r';
    if !simple || bytes.iter().any(|byte| matches!(byte, b'"' | b'\r')) {
        return None;
    }
    // Of a line without end no list of fields is made.
    let short = |row: &[u8]| row.len() <= LONG_ROW;
    let text = std::str::from_utf8(bytes).ok()?;
    let all_short = bytes.split(|byte| *byte == b'\n').all(short);
    all_short.then(|| text.strip_prefix('\u{feff}').unwrap_or(text))
}

fn plain_rows(text: &str, separator: u8, take: &mut dyn FnMut(u32, &[&str]) -> bool) {
    let lines = (1..)
        .zip(text.split('\n'))
        .filter(|(_, row)| !row.is_empty());
    let (mut fields, mut any) = (Vec::new(), false);
    for (line, row) in lines {
        fields.clear();
        fields.extend(row.split(char::from(separator)));
        any = true;
        if !take(line, &fields) {
            return;
        }
    }
    if !any {
        take(1, &[]);
    }
}

fn quoted_rows(
    bytes: &[u8],
    separator: u8,
    take: &mut dyn FnMut(u32, &[&str]) -> bool,
) -> Result<(), u32> {
    let mut reader = csv::ReaderBuilder::new()
        .delimiter(separator)
        .flexible(true)
        .has_headers(true)
        .from_reader(bytes);
    let head = reader.headers().map_err(|_| 1_u32)?;
    if !take(1, &head.iter().collect::<Vec<_>>()) {
        return Ok(());
    }
    for row in reader.records() {
        let row = row.map_err(|error| {
            error
                .position()
                .map_or(0, |position| position.line() as u32)
        })?;
        let line = row.position().map_or(0, |position| position.line() as u32);
        if !take(line, &row.iter().collect::<Vec<_>>()) {
            break;
        }
    }
    Ok(())
}

/// A field of a column, in SI; the first time of a trace is where its time begins.
fn value(
    decimal: char,
    start: &mut Option<Time>,
    column: &Column,
    field: &str,
) -> Result<f64, String> {
    if column.name == "timestamp" {
        let time = Time::parse(field).map_err(|why| format!("\"{field}\" {why}"))?;
        return Ok(time.seconds_since(*start.get_or_insert(time)));
    }
    if decimal == '.' {
        return Ok(column.unit.to_si(number::parse(field)?));
    }
    if field.contains('.') {
        return Err(say!(
            "`{field}` has a point although the record says that the decimal sign is `{decimal}`",
            field = field,
            decimal = decimal
        ));
    }
    let field = field.replace(decimal, ".");
    Ok(column.unit.to_si(number::parse(&field)?))
}

/// A trace while its rows come in.
struct Making {
    /// How many rows there is room for from the beginning.
    rows: usize,
    decimal: char,
    separator: u8,
    /// Whether the head was seen.
    headed: bool,
    columns: Vec<Column>,
    lines: Vec<u32>,
    start: Option<Time>,
    problems: Vec<Problem>,
    /// Where those begin that are only counted, and how many they are.
    more: Option<(Spot, usize)>,
}

impl Making {
    /// Notes what is wrong; says that no more rows are wanted.
    fn refuse(&mut self, line: u32, message: String, advice: &str) -> bool {
        let spot = Spot { line, column: 1 };
        match self.problems.len() < MAX_PROBLEMS {
            true => self.problems.push(Problem {
                rule: "R06",
                ..Problem::new(spot, message, advice)
            }),
            false => self.more.get_or_insert((spot, 0)).1 += 1,
        }
        false
    }

    /// Takes the names of the columns.
    fn head(&mut self, names: &[&str]) -> bool {
        self.headed = true;
        if names.len() > MAX_COLUMNS {
            return self.refuse(
                1,
                say!(
                    "has {count} columns; at most {what} are read",
                    count = names.len(),
                    what = MAX_COLUMNS
                ),
                say!("Export the columns that the record needs."),
            );
        }
        if names.iter().all(|name| name.trim().is_empty()) {
            return self.refuse(
                1,
                say!("is empty").into(),
                say!("Export it again from the instrument."),
            );
        }
        if let [one] = names
            && let Some(other) = one.chars().find(|c| matches!(c, ';' | '\t' | '|'))
        {
            let message = say!(
                "has one column, whose name has {other}: its fields are separated otherwise than by {separator}",
                other = other.escape_debug(),
                separator = char::from(self.separator)
            );
            return self.refuse(
                1,
                message,
                say!("State field_separator beside the file in the record, and decimal_separator where it is a comma."),
            );
        }
        for name in names {
            let name = name.trim().trim_start_matches('\u{feff}');
            let (unit, absolute) = match ENDINGS.iter().find(|(ending, ..)| name.ends_with(ending))
            {
                _ if name == "timestamp" => (&unit::SECOND, false),
                Some((_, unit, absolute)) => (*unit, *absolute),
                None => {
                    let advice = say!(
                        "Name the unit in the column: time_s, pressure_mbar_gauge, gas_temperature_c, gas_flow_ml_min, temperature_c, pressure_mbar_abs; or timestamp."
                    );
                    return self.refuse(
                        1,
                        say!("column \"{name}\" does not say its unit", name = name),
                        advice,
                    );
                }
            };
            self.columns.push(Column {
                name: name.into(),
                unit,
                absolute,
                values: Vec::with_capacity(self.rows),
            });
        }
        let stems: Vec<&str> = self.columns.iter().map(Column::stem).collect();
        let mut twice = (0..).zip(&stems);
        if let Some((_, stem)) =
            twice.find(|(i, stem)| stems.iter().take(*i).any(|other| other == *stem))
        {
            let message = say!("has two columns of {name}", name = stem);
            return self.refuse(
                1,
                message,
                say!("Leave the one that the test was judged by, and keep the raw file."),
            );
        }
        let first = self.columns.first();
        if first.is_none_or(|first| first.name != "timestamp" && first.unit.dim != unit::TIME) {
            return self.refuse(
                1,
                say!("the first column is not a time").into(),
                say!("Begin with time_s or timestamp."),
            );
        }
        true
    }

    /// Takes a row; what does not fit is noted, and the next may still be looked at.
    fn row(&mut self, line: u32, fields: &[&str]) -> bool {
        if self.lines.len() >= MAX_ROWS {
            return self.refuse(
                line,
                say!("has more than {what} rows", what = MAX_ROWS),
                say!("Split the trace."),
            );
        }
        if fields.len() != self.columns.len() {
            let comma =
                self.decimal == '.' && self.separator == b',' && fields.len() > self.columns.len();
            let hint = if comma {
                say!("; is there a decimal comma?")
            } else {
                ""
            };
            self.refuse(
                line,
                say!("row has {count} fields, {columns} expected{hint}", count = fields.len(), columns = self.columns.len(), hint = hint),
                say!("Export again with decimal point, or state decimal_separator and field_separator in the record; nothing is guessed."),
            );
            return true;
        }
        let mut misfit = None;
        for (column, field) in self.columns.iter_mut().zip(fields) {
            match value(self.decimal, &mut self.start, column, field.trim()) {
                Ok(value) => column.values.push(value),
                Err(why) => {
                    misfit = Some(why);
                    break;
                }
            }
        }
        if let Some(why) = misfit {
            let advice = match why.ends_with("has no offset") {
                true => {
                    say!(
                        "Export times with their offset: when clocks are put back, local time from 02:00 to 03:00 comes twice and no order can be made of it. Keep the raw file."
                    )
                }
                false => say!("Export the trace again; do not mend it by hand."),
            };
            self.refuse(line, why, advice);
            // Of a row that is not whole nothing stays.
            let whole = self.lines.len();
            self.columns
                .iter_mut()
                .for_each(|column| column.values.truncate(whole));
            return true;
        }
        let time = self.columns.first().map(|time| &time.values[..]);
        if let Some([.., earlier, now]) = time
            && earlier >= now
        {
            self.refuse(
                line,
                say!("time does not rise in this row").into(),
                say!("Rows are never sorted: find out why the order is broken."),
            );
        }
        self.lines.push(line);
        true
    }

    /// The trace, or what is wrong.
    fn done(mut self) -> Result<Trace, Vec<Problem>> {
        if self.problems.is_empty() && self.lines.len() < 3 {
            self.refuse(
                1,
                say!(
                    "has {count} rows; at least 3 are needed",
                    count = self.lines.len()
                ),
                say!("Export the whole trace."),
            );
        }
        if let Some((spot, n)) = self.more {
            let rest = say!("has {n} more problems from here on", n = n);
            let advice = say!("Export it again from the instrument.");
            self.problems.push(Problem {
                rule: "R06",
                ..Problem::new(spot, rest, advice)
            });
        }
        if !self.problems.is_empty() {
            return Err(self.problems);
        }
        // The head had a time in front, and there are rows.
        let time = self.columns.remove(0).values;
        let zero = time.first().copied().unwrap_or_default();
        Ok(Trace {
            time: time.iter().map(|t| t - zero).collect(),
            start: self.start,
            columns: self.columns,
            lines: self.lines,
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

    #[test]
    fn problems_beyond_those_that_are_told_are_counted() {
        let text = format!(
            "time_s,temperature_c\n{}",
            "0,warm\n".repeat(MAX_PROBLEMS + 7)
        );
        let problems = Trace::read(text.as_bytes(), '.', b',').unwrap_err();
        assert_eq!(problems.len(), MAX_PROBLEMS + 1);
        let last = problems.last().unwrap();
        assert!(last.message.contains("has 7 more problems"), "{last:?}");
        assert_eq!(last.spot.line as usize, 1 + MAX_PROBLEMS + 1);
    }

    /// Where both ways of reading rows may be gone, they bring the same fields.
    #[test]
    fn without_quotation_marks_rows_are_read_as_csv() {
        type Way = fn(&[u8], u8, &mut dyn FnMut(u32, &[&str]) -> bool);
        let both: [Way; 2] = [
            |bytes, separator, take| plain_rows(plain(bytes, separator).unwrap(), separator, take),
            |bytes, separator, take| quoted_rows(bytes, separator, take).unwrap(),
        ];
        for text in [
            "",
            "\n",
            "\u{feff}time_s,a\n1,2\n",
            "\u{feff}\n\na,b\n",
            "a,b\n1,2\n3,4",
            "a;b\n1;2;\n;\n;;3\n4\n",
            "a,b,\n,,\n ,\n\t\n1,2,3,4\n",
        ] {
            for separator in *b",;\t" {
                let [one, other] = both.map(|way| {
                    let mut rows: Vec<Vec<String>> = Vec::new();
                    way(text.as_bytes(), separator, &mut |_, fields| {
                        rows.push(fields.iter().map(|field| (*field).to_owned()).collect());
                        true
                    });
                    rows
                });
                assert_eq!(one, other, "{text:?}");
            }
        }
        // Quotation marks and returns alone are left to the reader that knows them.
        assert!(plain(b"a,\"b\"\n", b',').is_none() && plain(b"a\rb", b',').is_none());
        // A row after an empty line has its own line.
        let text = b"time_s,temperature_c\n\n0,1\n\n\n1,2\n2,3\n";
        assert_eq!(Trace::read(text, '.', b',').unwrap().lines, [3, 6, 7]);
    }
}

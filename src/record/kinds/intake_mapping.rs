//! `kind: intake_mapping`

#[allow(unused_imports)]
use crate::record::{common::*, read::*};
use crate::shape;

shape! {
    /// How the rows of an export become records, or its columns a trace; `sealfolio intake` follows it, and rule R89 follows it again.
    pub struct IntakeMapping {
        /// The kind of record that is made of rows, or `trace`: columns then become those of a trace.
        makes: Text,
        /// The encoding of the export, by its label in the Encoding Standard (WHATWG), such as windows-1252; UTF-8 when absent.
        encoding: Option<Text>,
        /// What separates fields: one character, or tab; a comma when absent.
        field_separator: Option<Text>,
        /// The decimal sign; a point when absent.
        decimal_separator: Option<Text>,
        /// What groups digits by three, where anything does.
        thousands_separator: Option<Text>,
        /// The line that holds the names of the columns; 1 when absent. What stands above is left alone.
        header_row: Option<Count>,
        /// Whether a quotation mark at the beginning of a cell opens one that may hold separators, as CSV has it; true when absent. False: a mark is a letter like any other, as in 20".
        quotation_marks: Option<Flag>,
        /// Where clocks stood that wrote times without an offset: an offset such as "+01:00", or a name of the IANA time zone database such as Europe/Rome.
        time_zone: Option<Text>,
        /// Cells that mean nothing was entered, besides empty ones.
        blank: List<Text>,
        /// Which rows belong to this dossier, where not all do.
        only: Option<Only>,
        /// Columns: rows that agree in all of them make one record. Without them each row makes one.
        together: List<Text>,
        /// The fields of the records.
        fields: Vec<IntakeField>,
    }
}

shape! {
    /// Rows that count.
    pub struct Only {
        /// The column that tells.
        column: Text,
        /// What it says in rows that count.
        is: Vec<Text>,
    }
}

shape! {
    /// One field of a record: where its value stands and how it is written there.
    pub struct IntakeField {
        /// The field, such as module_id, measurements[0].test_pressure, or readings[].width: one member of the list for each row.
        field: Text,
        /// The column whose cell is the value.
        column: Option<Text>,
        /// A text, the same in every record but for cells named in braces: "MT-{Serial}-{Run}".
        text: Option<Text>,
        /// The unit of the number in the cell, as records write it.
        unit: Option<Text>,
        /// What records say for what the export says: {OK: pass, NOK: fail}.
        words: Option<Any>,
        /// The form of a time or date, in the signs of strftime: "%d.%m.%Y %H:%M". Without it ISO 8601 is due.
        form: Option<Text>,
        /// What an id must look like: # is a digit, @ a capital letter, anything else itself.
        pattern: Option<Text>,
        /// The file of a trace, beside the export: "{Run}.csv".
        trace: Option<Text>,
        /// The mapping by which that file becomes a trace; without it the file is one as it is.
        mapping: Option<Text>,
    }
}

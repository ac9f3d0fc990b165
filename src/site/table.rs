//! `figures.parquet`: the figures as a table that engines for many dossiers read without unpacking anything.
//!
//! Rows stand in the order of lots, so that the bounds that the format keeps for each group of rows let an engine leave out
//! what a question does not concern. Each dossier's file is a partition of its own.

use std::sync::Arc;

use jiff::civil;
use parquet::{
    basic::Compression,
    data_type::{ByteArray, ByteArrayType, DataType, DoubleType, Int32Type},
    errors::ParquetError,
    file::{
        properties::WriterProperties,
        writer::{SerializedFileWriter, SerializedRowGroupWriter},
    },
    schema::parser::parse_message_type,
};

use super::figures::About;
use crate::{figure::Computed, page::Book};

/// The columns; the handbook describes them.
const SCHEMA: &str = "message figures {
    required binary dossier (UTF8);
    required int32 revision;
    optional binary lot (UTF8);
    required binary kind (UTF8);
    required binary record (UTF8);
    required binary part (UTF8);
    optional binary element (UTF8);
    optional int32 day (DATE);
    optional binary instrument (UTF8);
    required binary figure (UTF8);
    required binary unit (UTF8);
    optional double value;
    optional double standard_uncertainty;
    optional double limit_low;
    optional double limit_high;
    optional double conformance_probability;
    required binary verdict (UTF8);
}";
/// Rows that stand together; engines read a group whole or not at all.
const GROUP: usize = 16_384;

/// One row: what the figure speaks of, and the figure.
type Row<'a> = (About<'a>, &'a Computed);

/// The file.
///
/// # Errors
/// In the words of the library; memory takes every byte, so that only a fault of the schema is left, which tests rule out.
pub(super) fn write(book: &Book) -> Result<Vec<u8>, String> {
    written(book).map_err(|error| error.to_string())
}

fn written(book: &Book) -> Result<Vec<u8>, ParquetError> {
    let plant = &book.dossier.plant;
    let head = plant.records().head();
    let (dossier, revision) = head.map_or(("unnamed", 1), |(record, _)| {
        (&*record.id.text, record.revision as i32)
    });
    let mut rows: Vec<Row> = book
        .dossier
        .graph
        .computed
        .values()
        .map(|computed| (About::of(plant, computed), computed.as_ref()))
        .collect();
    rows.sort_by_key(|(about, _)| about.lot);
    let properties = WriterProperties::builder()
        .set_compression(Compression::SNAPPY)
        .set_created_by(format!("sealfolio {}", env!("CARGO_PKG_VERSION")))
        .build();
    let schema = Arc::new(parse_message_type(SCHEMA)?);
    let mut writer = SerializedFileWriter::new(Vec::new(), schema, Arc::new(properties))?;
    for rows in rows.chunks(GROUP) {
        let mut group = writer.next_row_group()?;
        let mut columns = Columns {
            group: &mut group,
            rows,
        };
        columns.texts(|_| dossier.into())?;
        columns.required::<Int32Type>(|_| revision)?;
        columns.maybe_texts(|(about, _)| about.lot)?;
        columns.texts(|(about, _)| about.kind.into())?;
        columns.texts(|(_, computed)| (*computed.id.record).into())?;
        columns.texts(|(_, computed)| (*computed.id.part).into())?;
        columns.maybe_texts(|(about, _)| about.element)?;
        let begin = civil::date(1970, 1, 1);
        columns.optional::<Int32Type>(|(about, _)| Some((*about.day? - begin).get_days()))?;
        columns.maybe_texts(|(about, _)| about.instrument)?;
        columns.texts(|(_, computed)| computed.id.figure.into())?;
        columns.texts(|(_, computed)| match computed.figure.unit.print {
            "" => "1".into(),
            print => print.into(),
        })?;
        let unit = |computed: &Computed, si: f64| computed.figure.unit.of_si(si);
        columns.optional::<DoubleType>(|(_, computed)| {
            Some(unit(computed, computed.quantity()?.value))
        })?;
        columns.optional::<DoubleType>(|(_, computed)| {
            let doubted = computed.quantity().filter(|quantity| quantity.u() > 0.0);
            Some(doubted?.u() / computed.figure.unit.factor)
        })?;
        columns.optional::<DoubleType>(|(_, computed)| {
            Some(unit(computed, computed.judgement.as_ref()?.limit.low?))
        })?;
        columns.optional::<DoubleType>(|(_, computed)| {
            Some(unit(computed, computed.judgement.as_ref()?.limit.high?))
        })?;
        columns.optional::<DoubleType>(|(_, computed)| computed.judgement.as_ref()?.conformance)?;
        columns.texts(|(_, computed)| computed.verdict().words().into())?;
        group.close()?;
    }
    writer.into_inner()
}

/// Writes the columns of a group of rows, one after the other, in the order of the schema.
struct Columns<'g, 'w, 'a> {
    group: &'g mut SerializedRowGroupWriter<'w, Vec<u8>>,
    rows: &'g [Row<'a>],
}

impl<'a> Columns<'_, '_, 'a> {
    fn required<T: DataType>(&mut self, of: impl Fn(&Row<'a>) -> T::T) -> Result<(), ParquetError> {
        let values: Vec<T::T> = self.rows.iter().map(of).collect();
        self.put::<T>(&values, None)
    }

    fn optional<T: DataType>(
        &mut self,
        of: impl Fn(&Row<'a>) -> Option<T::T>,
    ) -> Result<(), ParquetError> {
        let all: Vec<Option<T::T>> = self.rows.iter().map(of).collect();
        let there: Vec<i16> = all.iter().map(|value| i16::from(value.is_some())).collect();
        let values: Vec<T::T> = all.into_iter().flatten().collect();
        self.put::<T>(&values, Some(&there))
    }

    fn put<T: DataType>(
        &mut self,
        values: &[T::T],
        there: Option<&[i16]>,
    ) -> Result<(), ParquetError> {
        let Some(mut column) = self.group.next_column()? else {
            return Err(ParquetError::General(
                "the schema has no more columns".into(),
            ));
        };
        column.typed::<T>().write_batch(values, there, None)?;
        column.close()
    }

    fn texts(&mut self, of: impl Fn(&Row<'a>) -> String) -> Result<(), ParquetError> {
        self.required::<ByteArrayType>(|row| ByteArray::from(of(row).into_bytes()))
    }

    fn maybe_texts(
        &mut self,
        of: impl Fn(&Row<'a>) -> Option<&'a str>,
    ) -> Result<(), ParquetError> {
        self.optional::<ByteArrayType>(|row| {
            of(row).map(|text| ByteArray::from(text.as_bytes().to_vec()))
        })
    }
}

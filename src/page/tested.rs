//! Tests on a sheet: their list and their traces.

use super::{Book, Cell, Table, href};
use crate::{
    chart::{self, Chart, Point},
    figure::Scope,
    figures::{join_residual, leak_diameter},
    ground::number,
    plant::Test,
};

/// Every test of an assembly and of its modules: when, by whom, on which rig, and whether it decides.
pub fn test_table(book: &Book, path: &str, id: &str) -> Table {
    let plant = &book.dossier.plant;
    let mut table = Table::new(
        say!(
            "Every test of the assembly and of its modules, in order; failed ones stand like passed ones"
        ),
        &[
            say!("test"),
            say!("element"),
            say!("when"),
            say!("by"),
            say!("rig"),
            say!("run"),
            say!("decides"),
        ],
    );
    let modules = plant.build(id).map(|(_, build)| {
        build
            .modules
            .iter()
            .map(|position| &*position.module_id.text)
            .collect::<Vec<_>>()
    });
    let of_modules = modules
        .unwrap_or_default()
        .into_iter()
        .filter_map(|module| plant.modules.get(module))
        .flat_map(|module| &module.tests);
    let own = plant
        .assemblies
        .get(id)
        .into_iter()
        .flat_map(|assembly| &assembly.tests);
    for test in own
        .chain(of_modules)
        .filter_map(|index| Test::of(plant.record(*index)))
    {
        let record = test.record;
        let rig = &*test.test.instrument_id.text;
        table.rows.push(vec![
            Cell::link(&*record.id.text, book.place_href(path, &record.place())),
            Cell::text(test.element),
            Cell::text(
                record
                    .happened_at
                    .as_ref()
                    .map_or(String::new(), |when| when.time.to_string()),
            ),
            Cell::link(
                record.recorded_by.as_deref().unwrap_or(""),
                href(path, "people.html"),
            ),
            Cell::link(
                rig,
                format!(
                    "{}#{}",
                    href(path, "instruments.html"),
                    crate::ground::name::safe(rig)
                ),
            ),
            Cell::text(&*test.test.instrument_run_id.text),
            Cell::text(if book.view.decides(&test) {
                say!("yes")
            } else {
                say!("no")
            }),
        ]);
    }
    table
}

/// The temperature of a cycle as a drawing; where nothing was recorded the line is broken.
pub fn cycle_drawing(
    book: &Book,
    path: &str,
    file: &crate::record::common::TraceFile,
    title: String,
) -> Option<String> {
    let trace = book.dossier.plant.folder.trace(file)?;
    let temperature = trace.column("temperature")?;
    let gaps = trace.gaps();
    let longest = gaps.iter().map(|(_, length)| *length).fold(0.0, f64::max);
    let words = match gaps.len() {
        0 => say!("without a gap").to_owned(),
        1 => say!(
            "with one gap of {longest} min: nothing was recorded there and nothing is drawn",
            longest = number::fixed(longest / 60.0, 1)
        ),
        n => say!(
            "with {n} gaps, the longest {longest} min: nothing was recorded there and nothing is drawn",
            n = n,
            longest = number::fixed(longest / 60.0, 1)
        ),
    };
    let rows = trace.time.iter().zip(&trace.lines).zip(&temperature.values);
    let points = rows.map(|((time, line), value)| {
        let value = temperature.unit.of_si(*value);
        let spot = crate::ground::place::Spot {
            line: *line,
            column: 1,
        };
        Point {
            x: time / 60.0,
            y: value,
            href: book.place_href(
                path,
                &crate::ground::place::Place::new(&std::sync::Arc::from(&*file.file.text), spot),
            ),
            title: say!(
                "line {lines}: {what} °C",
                lines = line,
                what = number::fixed(value, 1)
            ),
            look: chart::Look::Plain,
        }
    });
    chart::svg(&Chart {
        id: format!(
            "cycle-{collect}",
            collect = file.sha256.chars().take(10).collect::<String>()
        ),
        description: say!(
            "{count} readings of {file}, {words}.",
            count = trace.time.len(),
            file = &*file.file,
            words = words
        ),
        title: format!("{title}, {words}"),
        x_label: say!("time, min").into(),
        y_label: say!("temperature, °C").into(),
        points: points.collect(),
        joined: true,
        gaps: gaps.into_iter().map(|(at, _)| at).collect(),
        ..Chart::default()
    })
    .ok()
}

/// The decay or ramp of a test as a drawing.
pub fn trace_drawing(
    book: &Book,
    path: &str,
    test: &Test,
    quantity: crate::record::common::Measured,
) -> Option<String> {
    let measured = test.measurement(quantity)?;
    let file = measured.trace.as_ref()?;
    let trace = book.dossier.plant.folder.trace(file)?;
    let flow = quantity == crate::record::common::Measured::BubblePoint;
    let pressure = trace.column("pressure")?;
    let y = if flow {
        trace.column("gas_flow")?
    } else {
        pressure
    };
    let link = |line: u32| {
        book.place_href(
            path,
            &crate::ground::place::Place::new(
                &std::sync::Arc::from(&*file.file.text),
                crate::ground::place::Spot { line, column: 1 },
            ),
        )
    };
    let rows = trace.time.iter().zip(&trace.lines);
    let points = rows
        .zip(pressure.values.iter().zip(&y.values))
        .map(|((time, line), (p, value))| {
            let x = if flow { pressure.unit.of_si(*p) } else { *time };
            let value = y.unit.of_si(*value);
            Point {
                x,
                y: value,
                href: link(*line),
                title: say!(
                    "line {lines}: {y}",
                    lines = line,
                    y = number::with_unit(&number::significant(value, 6), y.unit)
                ),
                look: chart::Look::Plain,
            }
        })
        .collect();
    let title = say!(
        "{flow} of {id}",
        flow = if flow {
            say!("Pressure ramp")
        } else {
            say!("Pressure decay")
        },
        id = &*test.record.id
    );
    chart::svg(&Chart {
        id: format!(
            "trace-{collect}",
            collect = file.sha256.chars().take(10).collect::<String>()
        ),
        description: say!(
            "{count} readings of {file}; each point leads to its line.",
            count = trace.time.len(),
            file = &*file.file
        ),
        title,
        x_label: if flow {
            say!("gauge pressure, {pressure}", pressure = pressure.unit.print)
        } else {
            say!("time, s").into()
        },
        y_label: if flow {
            say!("gas flow, {y}", y = y.unit.print)
        } else {
            say!("gauge pressure, {y}", y = y.unit.print)
        },
        points,
        joined: true,
        ..Chart::default()
    })
    .ok()
}

/// What the test of an assembly shows at its joins, and what it could have seen there.
pub fn joins_seen(book: &Book, test: &Test) -> Option<String> {
    let id = &test.record.id;
    let computed = book.dossier.graph.get("join-residual", id, "")?;
    let whole = book.dossier.graph.get("diffusive-flow", id, "")?;
    let quantity = computed.quantity()?;
    let sight = join_residual::sight(quantity, whole.quantity()?)?;
    let unit = &computed.figure.unit;
    let show = |si: f64| number::with_unit(&number::significant(unit.of_si(si), 2), unit);
    let scope = Scope {
        plant: &book.dossier.plant,
        record: test.record,
        part: "",
    };
    let wide = leak_diameter::hole(&scope, sight.detection).map_or(String::new(), |wide| {
        say!(
            ", as through one hole {wide} µm wide,",
            wide = number::significant(wide * 1e6, 2)
        )
    });
    let found = quantity.show(unit);
    let threshold = show(sight.threshold);
    let mut said = if quantity.value > sight.threshold {
        say!(
            "At the joins something is seen: {found} over the sum of the modules lies above the decision threshold of {threshold} (1.645 u without a leak).",
            found = found,
            threshold = threshold
        )
    } else if quantity.value < -sight.threshold {
        say!(
            "The assembly passes less than its modules did: {found}, further below zero than the decision threshold of {threshold} (1.645 u without a leak). The tests do not fit each other, and a leak of that size could be hidden.",
            found = found,
            threshold = threshold
        )
    } else {
        say!(
            "At the joins no leak is seen: {found} over the sum of the modules lies below the decision threshold of {threshold} (1.645 u without a leak).",
            found = found,
            threshold = threshold
        )
    };
    // What does not fit shows no leak, of whatever size.
    if quantity.value < -sight.threshold {
        return Some(said);
    }
    said.push(' ');
    said.push_str(&say!("A leak of {detection}{wide} would be seen by this test with a probability of 95 %; a smaller one may be there (ISO 11929-1 scheme, Currie 1968; from memory).", detection = show(sight.detection), wide = wide));
    Some(said)
}

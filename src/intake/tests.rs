//! What could mean two things is refused with its row; what is clear comes out as records write it.

use super::*;
use crate::record::{kinds::Body, read::Reader, yaml};

fn mapping(text: &str) -> Record {
    let node = yaml::documents(text.as_bytes()).unwrap().remove(0);
    let mut reader = Reader::default();
    let record = Record::read(&node, &"mapping.yaml".into(), &mut reader);
    record.unwrap_or_else(|| panic!("{:?}", reader.problems))
}

/// A mapping of readings with some lines of its own, and the fields besides the id.
fn slitting(head: &str, fields: &str) -> Record {
    mapping(&format!(
        "kind: intake_mapping\nrecord_id: IM-1\nrevision: 1\nrecorded_at: \"2026-01-01T08:00:00+01:00\"\nrecorded_by: P-1\nmakes: slitting_record\n{head}\ntogether: [Coil]\nfields:\n  - {{field: record_id, column: Coil}}\n  - {{field: recorded_by, text: P-4}}\n  - {{field: material_lot, text: RM-1}}\n  - {{field: coil_id, column: Coil}}\n  - {{field: blade_set, text: BS-1}}\n  - {{field: nominal_width, text: \"228.00 mm\"}}\n  - {{field: tolerance, text: \"0.10 mm\"}}\n  - {{field: instrument, text: CL-06}}\n{fields}"
    ))
}

const FIELDS: &str = "  - {field: recorded_at, column: At, form: \"%d.%m.%Y %H:%M\"}\n  - {field: \"readings[].position\", column: Pos, unit: m}\n  - {field: \"readings[].width\", column: Width, unit: mm}\n";

fn taken(record: &Record, bytes: &[u8]) -> Result<Taken, Vec<Flaw>> {
    let Body::IntakeMapping(body) = &record.body else {
        panic!("it is a mapping")
    };
    let beside = Beside {
        file: &|_, _| None,
        mappings: &[],
    };
    let export = Export {
        bytes,
        kept: "exports/a.csv",
    };
    take(Mapping { record, body }, export, &beside)
}

/// Line and words of every flaw.
fn flaws(record: &Record, text: &str) -> Vec<String> {
    let flaws = taken(record, text.as_bytes()).unwrap_err();
    let said = |flaw: &Flaw| match &flaw.at {
        At::Mapping(spot) => format!("mapping {}: {}", spot.line, flaw.message),
        At::Line { line, .. } => format!("{line}: {}", flaw.message),
    };
    flaws.iter().map(said).collect()
}

#[test]
fn rows_of_one_coil_make_one_record_and_keep_their_digits() {
    let by = slitting(
        "field_separator: \";\"\ndecimal_separator: \",\"\nthousands_separator: \".\"\ntime_zone: Europe/Rome",
        FIELDS,
    );
    let text = "Coil;At;Pos;Width;Note\nC1;30.03.2026 08:00;0,0;228,00;\nC2;30.03.2026 09:00;0,0;227,90;x\nC1;30.03.2026 08:00;1.010,0;228,10;\n";
    let taken = taken(&by, text.as_bytes()).unwrap();
    assert_eq!(taken.unused, ["Note"]);
    assert_eq!((taken.made.len(), taken.rows), (2, (3, 3)));
    let first = &taken.made[0].text;
    assert!(
        first.contains("recorded_at: \"2026-03-30T08:00:00+02:00\""),
        "{first}"
    );
    assert!(
        first.contains("lines: \"2, 4\", mapping: {id: IM-1, revision: 1}}"),
        "{first}"
    );
    assert!(
        first.contains("  - {position: \"0.0 m\", width: \"228.00 mm\"}\n  - {position: \"1010.0 m\", width: \"228.10 mm\"}\n"),
        "{first}"
    );
}

#[test]
fn what_could_mean_two_things_is_refused_with_its_row() {
    let by = slitting("field_separator: \";\"\ntime_zone: Europe/Rome", FIELDS);
    let row =
        |at: &str, width: &str| flaws(&by, &format!("Coil;At;Pos;Width\nC1;{at};0;{width}\n"));
    for (width, said) in [
        (
            "1,700",
            "2: readings[].width: \"1,700\" has , although the decimal sign is .: it could mean two numbers",
        ),
        (
            "1 700",
            "2: readings[].width: \"1 700\" brings the unit 700, and the mapping gives it mm",
        ),
        (
            "1'700",
            "2: readings[].width: \"1'700\" has ' although the decimal sign is .: it could mean two numbers",
        ),
        (
            ">228",
            "2: readings[].width: `>228` is not a decimal number",
        ),
        (
            "228 mm",
            "2: readings[].width: \"228 mm\" brings the unit mm, and the mapping gives it mm",
        ),
    ] {
        assert_eq!(row("30.03.2026 08:00", width), [said]);
    }
    // Clocks of central Europe were put forward on 29 March 2026 and back on 25 October 2026
    // (IANA time zone database).
    for (at, said) in [
        (
            "03/04/26",
            "2: recorded_at: \"03/04/26\" is not of the form %d.%m.%Y %H:%M",
        ),
        (
            "29.03.2026 02:30",
            "2: recorded_at: \"29.03.2026 02:30\" never was in Europe/Rome: clocks were put forward",
        ),
        (
            "25.10.2026 02:30",
            "2: recorded_at: \"25.10.2026 02:30\" was twice in Europe/Rome: clocks were put back",
        ),
    ] {
        assert_eq!(row(at, "228.0"), [said]);
    }
    let plain = slitting(
        "field_separator: \";\"",
        &FIELDS.replace(", form: \"%d.%m.%Y %H:%M\"", ""),
    );
    let row = |at: &str| flaws(&plain, &format!("Coil;At;Pos;Width\nC1;{at};0;228.0\n"));
    assert_eq!(
        row("03/04/26"),
        ["2: recorded_at: \"03/04/26\" is not of ISO 8601, and could mean two days"]
    );
    assert_eq!(
        row("2026-04-03T08:00"),
        ["2: recorded_at: \"2026-04-03T08:00\" has no offset"]
    );
    assert!(
        taken(
            &plain,
            b"Coil;At;Pos;Width\nC1;2026-04-03T08:00:00+02:00;0;228.0\n"
        )
        .is_ok()
    );
}

#[test]
fn digits_are_grouped_by_three_or_refused() {
    let by = slitting(
        "field_separator: \";\"\nthousands_separator: \",\"\ntime_zone: \"+01:00\"",
        FIELDS,
    );
    let width = |width: &str| {
        taken(
            &by,
            format!("Coil;At;Pos;Width\nC1;30.03.2026 08:00;0;{width}\n").as_bytes(),
        )
    };
    assert!(width("1,228.0").is_ok());
    for bad in ["12,28.0", "1228,0", ",228.0", "228.0,1"] {
        let flaws = width(bad).unwrap_err();
        assert!(
            flaws[0]
                .message
                .ends_with("not between groups of three digits"),
            "{flaws:?}"
        );
    }
}

#[test]
fn an_export_in_another_encoding_is_noticed() {
    let text = "Coil;At;Pos;Width;Prüfer\nC1;30.03.2026 08:00;0;228.0;Ö\n";
    let (bytes, ..) = encoding_rs::WINDOWS_1252.encode(text);
    let head = "field_separator: \";\"\ntime_zone: \"+01:00\"";
    let flaws = taken(&slitting(head, FIELDS), &bytes).unwrap_err();
    assert_eq!(flaws[0].message, "is not UTF-8 here");
    let by = slitting(&format!("{head}\nencoding: windows-1252"), FIELDS);
    assert_eq!(taken(&by, &bytes).unwrap().unused, ["Prüfer"]);
    // A mark at the head that speaks of another encoding.
    let wide: Vec<u8> = b"\xff\xfe"
        .iter()
        .copied()
        .chain(text.encode_utf16().flat_map(u16::to_le_bytes))
        .collect();
    assert!(
        taken(&by, &wide).unwrap_err()[0]
            .message
            .starts_with("is UTF-16LE by the mark")
    );
    let by = slitting(&format!("{head}\nencoding: utf-16le"), FIELDS);
    assert!(taken(&by, &wide).is_ok());
    assert!(
        taken(
            &slitting(&format!("{head}\nencoding: klingon"), FIELDS),
            text.as_bytes()
        )
        .unwrap_err()[0]
            .message
            .contains("klingon")
    );
}

#[test]
fn a_mapping_is_held_against_the_contract_and_the_export() {
    let text = "Coil;At;Pos;Width\nC1;30.03.2026 08:00;0;228.0\n";
    let head = "field_separator: \";\"\ntime_zone: \"+01:00\"";
    for (from, to, said) in [
        (
            "readings[].width",
            "readings[].widht",
            "there is no field widht here (did you mean width?)",
        ),
        (
            "column: Width",
            "column: Widht",
            "the export has no column \"Widht\" (did you mean Width?)",
        ),
        (
            "readings[].width",
            "readings",
            "readings is a map or a list, not a value",
        ),
        (
            "readings[].width",
            "coil_id[0]",
            "coil_id[0] has brackets where no list is",
        ),
        (
            "readings[].width",
            "readings[x].width",
            "\"readings[x].width\" is no way to a field",
        ),
        (
            "readings[].width",
            "readings[].position",
            "readings[].position stands twice",
        ),
        (
            "column: Width",
            "column: Width, text: x",
            "readings[].width needs one of column, text and trace",
        ),
    ] {
        let found = flaws(&slitting(head, &FIELDS.replace(from, to)), text);
        assert_eq!(found.len(), 1, "{found:?}");
        assert!(
            found[0].starts_with("mapping ") && found[0].ends_with(said),
            "{found:?}"
        );
    }
    let twice = slitting(head, FIELDS);
    assert_eq!(
        flaws(
            &twice,
            "Coil;At;Pos;Width\nC1;30.03.2026 08:00;0;228.0\nC1;30.03.2026 08:01;1;228.0\n"
        ),
        [
            "3: recorded_at is \"30.03.2026 08:01\" here and \"30.03.2026 08:00\" in line 2, and both lines make one record"
        ]
    );
    assert_eq!(
        flaws(&twice, "Coil;At;Pos;Width\n"),
        ["1: has no row to take a record from"]
    );
    assert_eq!(
        flaws(&twice, "Coil;At;Pos;Width\nC1;30.03.2026 08:00;0\n"),
        ["2: row has 3 fields, 4 expected"]
    );
    // What the reader of records says is said of the row.
    assert_eq!(
        flaws(&twice, "Coil;At;Pos;Width\nC1;30.03.2026 08:00;0;2e9\n"),
        ["2: width \"2e9 mm\" is not believable for this field (column \"Width\")"]
    );
}

#[test]
fn a_trace_of_another_form_becomes_one_of_ours() {
    let by = mapping(
        "kind: intake_mapping\nrecord_id: IM-T\nrevision: 1\nrecorded_at: \"2026-01-01T08:00:00+01:00\"\nrecorded_by: P-1\nmakes: trace\nfield_separator: tab\ndecimal_separator: \",\"\nheader_row: 3\nfields:\n  - {field: time_s, column: \"Zeit [s]\"}\n  - {field: pressure_mbar_gauge, column: \"Druck [mbar]\"}\n",
    );
    let Body::IntakeMapping(body) = &by.body else {
        panic!("it is a mapping")
    };
    let text =
        "Geraet 7\r\n\r\nDruck [mbar]\tZeit [s]\r\n1700,0\t0\r\n1699,4\t10\r\n1698,8\t20\r\n";
    assert_eq!(
        trace::trace(body, text.as_bytes()).unwrap().0,
        "time_s,pressure_mbar_gauge\n0,1700.0\n10,1699.4\n20,1698.8\n"
    );
    // What no field uses is named, here too.
    let more = "Geraet 7\r\n\r\nDruck [mbar]\tZeit [s]\tTemp [C]\r\n1700,0\t0\t20\r\n1699,4\t10\t20\r\n1698,8\t20\t20\r\n";
    assert_eq!(trace::trace(body, more.as_bytes()).unwrap().1, ["Temp [C]"]);
    let back = text.replace("\t20", "\t5");
    let flaw = trace::trace(body, back.as_bytes()).unwrap_err();
    assert_eq!(
        (flaw.message.as_str(), &flaw.at),
        (
            "time does not rise in this row",
            &At::Line {
                line: 6,
                cell: String::new()
            }
        )
    );
}

#[test]
fn names_of_exports_are_safe_and_read_as_nothing_else() {
    for (name, start) in [
        ("a.csv", "exports/a-"),
        ("Rig 1.csv", "exports/rig-1-"),
        ("x.yaml", "exports/x.yaml-"),
        ("..", "exports/-"),
    ] {
        let kept = kept(name, b"x");
        assert!(kept.starts_with(start) && !holds_records(&kept), "{kept}");
        assert!(kept.len() < 120);
    }
    assert_ne!(kept("a.csv", b"x"), kept("a.csv", b"y"));
}

#[test]
fn floods_are_refused() {
    let by = slitting("time_zone: \"+01:00\"", FIELDS);
    let wide = ["x"; MAX_COLUMNS + 1].join(",");
    assert_eq!(
        flaws(&by, &wide),
        ["1: has 1001 columns; at most 1000 are read"]
    );
    let row = format!("y{}\n", ",".repeat(MAX_COLUMNS - 1));
    let many = format!("{}\n{}", ["x"; MAX_COLUMNS].join(","), row.repeat(20_001));
    assert_eq!(flaws(&by, &many), ["20002: has more than 20000000 cells"]);
}

#[test]
fn many_rows_of_one_record_take_no_longer_than_their_number() {
    // Twenty thousand readings of one coil, each of them looked at once: a test that looked at all for each would not end.
    let by = slitting("time_zone: \"+01:00\"\nblank: [\"-\"]", FIELDS);
    let mut text = String::from("Coil,At,Pos,Width\n");
    for n in 0..20_000 {
        text.push_str(&match n % 5 {
            4 => "C1,30.03.2026 08:00,-,\n".to_owned(),
            _ => format!("C1,30.03.2026 08:00,{n},228.0\n"),
        });
    }
    let taken = taken(&by, text.as_bytes()).unwrap();
    let Body::SlittingRecord(body) = &taken.made[0].record.body else {
        panic!("it is a slitting record")
    };
    // Rows without position and width have no reading.
    assert_eq!(body.readings.len(), 16_000);
}

#[test]
fn open_fields_keep_their_unit_and_lists_of_two_forms_are_walked_into() {
    let by = |more: &str| {
        mapping(&format!(
            "kind: intake_mapping\nrecord_id: IM-2\nrevision: 1\nrecorded_at: \"2026-01-01T08:00:00+01:00\"\nrecorded_by: P-1\nmakes: seal_run\ntogether: [Run]\nfields:\n  - {{field: record_id, column: Run}}\n  - {{field: recorded_at, text: \"2026-03-10T13:40:00+01:00\"}}\n  - {{field: recorded_by, text: P-4}}\n  - {{field: seal_type, text: adapter}}\n  - {{field: heating, text: infrared_contact_free}}\n  - {{field: actuals.heating_time, column: S, unit: s}}\n  - {{field: validated_window.heating_time, text: 16 s .. 20 s}}\n{more}"
        ))
    };
    let text = "Run,S,Part,Join\nSR-1,18.0,A-1,1\nSR-1,18.0,A-2,\n";
    let maps = by(
        "  - {field: \"items[].assembly_id\", column: Part}\n  - {field: \"items[].joint\", column: Join}\n",
    );
    let made = &taken(&maps, text.as_bytes()).unwrap().made[0].text;
    assert!(
        made.contains("actuals: {heating_time: \"18.0 s\"}"),
        "{made}"
    );
    assert!(
        made.ends_with("items:\n  - {assembly_id: A-1, joint: 1}\n  - {assembly_id: A-2}\n"),
        "{made}"
    );
    let words = by("  - {field: \"items[]\", column: Part}\n");
    let made = &taken(&words, text.as_bytes()).unwrap().made[0].text;
    assert!(made.contains("items: [A-1, A-2]"), "{made}");
    // A unit where none can stand is not dropped unsaid.
    let unit = by("  - {field: \"items[].joint\", column: Join, unit: mm}\n");
    assert_eq!(
        flaws(&unit, text),
        ["mapping 16: items[].joint takes no unit"]
    );
}

#[test]
fn a_wrong_unit_is_told_once_where_the_mapping_says_it() {
    let by = |unit: &str| {
        format!(
            "kind: intake_mapping\nrecord_id: IM-3\nrevision: 1\nrecorded_at: \"2026-01-01T08:00:00+01:00\"\nrecorded_by: P-1\nmakes: slitting_record\ntogether: [Coil]\nfields:\n  - {{field: record_id, text: \"SL-{{Coil}}\"}}\n  - {{field: recorded_at, text: \"2026-03-10T13:40:00+01:00\"}}\n  - {{field: recorded_by, text: P-4}}\n  - {{field: material_lot, text: R-1}}\n  - {{field: nominal_width, text: 250.0 mm}}\n  - {{field: tolerance, text: 0.5 mm}}\n  - {{field: \"readings[].position\", column: At, unit: m}}\n  - {{field: \"readings[].width\", column: Width, unit: {unit}}}\n"
        )
    };
    let text = "Coil,At,Width\nC-1,0,250.1\nC-1,10,250.2\nC-2,0,249.9\n";
    // The second is misspelt; the third is a unit, and of another quantity.
    for unit in ["mms", "MM", "bar"] {
        let told = flaws(&mapping(&by(unit)), text);
        let due = format!("mapping 16: readings[].width is not measured in {unit}");
        assert_eq!(told, [due], "{unit}");
    }
    let made = taken(&mapping(&by("mm")), text.as_bytes()).unwrap().made;
    assert_eq!(made.len(), 2);
    assert!(
        made[0].text.contains("width: \"250.1 mm\""),
        "{}",
        made[0].text
    );
    // So is a field that every record needs and nothing gives.
    let lacking = by("mm").replace("  - {field: tolerance, text: 0.5 mm}\n", "");
    assert_eq!(
        flaws(&mapping(&lacking), text),
        ["mapping 6: it fills no tolerance, which every slitting_record needs"]
    );
}

#[test]
fn a_quotation_mark_never_swallows_a_row() {
    let head = "field_separator: \";\"\ntime_zone: \"+01:00\"";
    let top = "Coil;At;Pos;Width;Note\n";
    let row = |coil: &str, note: &str| format!("{coil};30.03.2026 08:00;0;228.0;{note}\n");
    let strict = slitting(head, FIELDS);
    // Closed in another line, closed nowhere, closed at the very end.
    let two = top.to_owned() + &row("C1", "\"ok") + &row("C2", "") + &row("C3", "ok\"");
    assert_eq!(
        flaws(&strict, &two),
        ["2: a quotation mark makes one row of lines 2 to 4"]
    );
    let open = top.to_owned() + &row("C1", "\"20 in") + &row("C2", "");
    assert_eq!(flaws(&strict, &open).len(), 1);
    let last = top.to_owned() + row("C1", "\"20 in").trim_end();
    assert_eq!(
        flaws(&strict, &last),
        ["2: a quotation mark is not closed here"]
    );
    // A cell in marks is one as before; where marks are letters, every row is taken.
    let closed = top.to_owned() + &row("C1", "\"a; \"\"b\"\"\"") + &row("C2", "");
    assert_eq!(taken(&strict, closed.as_bytes()).unwrap().made.len(), 2);
    let letters = slitting(&format!("{head}\nquotation_marks: false"), FIELDS);
    assert_eq!(taken(&letters, two.as_bytes()).unwrap().made.len(), 3);
}

#[test]
fn what_a_mapping_cannot_mean_is_said_of_the_mapping() {
    let row = "Coil;At;Pos;Width\nC1;30.03.2026 08:00;0;228.0\n";
    let said = |head: &str| flaws(&slitting(head, FIELDS), row);
    assert_eq!(
        said("field_separator: \";\"\ntime_zone: Europe/Atlantis"),
        ["mapping 8: there is no time zone Europe/Atlantis"]
    );
    assert_eq!(
        said("field_separator: \";\"\nheader_row: 0"),
        ["mapping 8: header_row is 0, and lines count from 1"]
    );
    assert_eq!(
        said("field_separator: \";\"\nthousands_separator: \".\""),
        ["mapping 8: thousands_separator and decimal_separator are both ."]
    );
    let form = FIELDS.replace("unit: mm", "form: \"%d\"");
    assert_eq!(
        flaws(
            &slitting("field_separator: \";\"\ntime_zone: \"+01:00\"", &form),
            row
        ),
        ["mapping 21: readings[].width is no time and no date, and takes no form"]
    );
    // Four digits of a year where two stand.
    let by = slitting("field_separator: \";\"\ntime_zone: Europe/Rome", FIELDS);
    assert_eq!(
        flaws(&by, &row.replace("2026", "26")),
        ["2: recorded_at: \"30.03.26 08:00\" would be in the year 26"]
    );
}

#[test]
fn a_row_of_a_group_is_named_by_its_own_line() {
    let by = slitting("field_separator: \";\"\ntime_zone: Europe/Rome", FIELDS);
    let text = "Coil;At;Pos;Width\nC1;30.03.2026 08:00;0;228.0\nC1;30.03.2026 08:00;10;\nC1;30.03.2026 08:00;20;228.1\n";
    assert_eq!(
        flaws(&by, text),
        ["3: column \"Width\" is blank here: required field width is missing"]
    );
    let whole = text.replace("10;\n", "10;228.2\n");
    let made = taken(&by, whole.as_bytes()).unwrap();
    assert!(made.alike.is_empty() && made.left_out == 0);
    let other = taken(&by, whole.replace("228.2", "228.3").as_bytes()).unwrap();
    let found = difference(&made.made[0].node, &other.made[0].node).unwrap();
    assert_eq!(found.field, "readings[1].width");
    assert_eq!(made.made[0].line_at(found.one_at), 3);
    // Alike rows and blank members are counted.
    let twice = whole.replace("20;228.1", "10;228.2") + "C1;30.03.2026 08:00;;\n";
    let made = taken(&by, twice.as_bytes()).unwrap();
    assert_eq!((made.alike, made.left_out), (vec![(3, 4)], 1));
}

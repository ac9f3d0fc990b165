//! Files, identity, time, calibration.

use super::*;

pub(super) const SETS: &[(&str, Spoil)] = &[
    ("R01", |set| {
        set.swap(
            "studies.yaml",
            "contribution: ",
            "colour: blue\ncontribution: ",
        )
    }),
    ("R02", |set| {
        set.swap(
            SPEC,
            "required_records_per_module: [",
            "required_records_per_module: [marking_inspection, ",
        );
        set.swap(
            "marks.yaml",
            "  - {item: M-26-3101, text_read: \"VF45 L26-31 0.45 um 3101\", legible: true}\n",
            "",
        );
    }),
    ("R03", |set| {
        set.swap_after("requirements.yaml", "RQ-1", "revision: 1", "revision: 2")
    }),
    ("R04", |set| {
        set.swap_after("flow.yaml", "FT-26-72", "\"20.4 degC\"", "\"20.4\"")
    }),
    ("R05", |set| {
        let text = set.text("traces/sr-l26-31-a.csv") + "18.5,811.0\n";
        set.files
            .insert("traces/sr-l26-31-a.csv".into(), text.into_bytes());
    }),
    ("R06", |set| {
        set.trace("traces/sr-l26-31-a.csv", |text| {
            text.replacen("\n1.0,", "\n1,0,", 1)
        })
    }),
    ("R07", |set| {
        set.trace("traces/cl-26-5-s012.csv", |text| {
            let lines: Vec<&str> = text.lines().collect();
            [&lines[..60], &lines[61..]].concat().join("\n") + "\n"
        });
    }),
    ("R08", |set| {
        set.files.insert(
            "traces/trial.csv".into(),
            b"time_s,pressure_mbar_gauge\n0,1\n1,1\n".to_vec(),
        );
    }),
    ("R09", |set| {
        set.files.remove("attachments/vr-vf45.txt");
    }),
    ("R10", |set| {
        let other = set
            .record("requirements.yaml", "RQ-1")
            .replace("each element", "every element");
        set.add("requirements.yaml", &other);
    }),
    ("R11", |set| {
        let other = set
            .record("materials.yaml", "SL-23")
            .replace("SL-23", "SL-Z3");
        set.add("materials.yaml", &other);
    }),
    ("R12", |set| {
        let other = set.record("assemblies.yaml", "AB-26-2101");
        let own = other
            .replace("AB-26-2101", "AB-26-2109")
            .replace("A-26-2101", "A-26-2109")
            .replace("20 in", "10 in")
            .replace("527.7 mm", "263.8 mm")
            .replace("529.3 mm", "264.6 mm")
            .replace("VF45-20", "VF45-10");
        let own = own.replace("  - {position: 2, module_id: M-26-3102}\n", "");
        // One module has no join.
        let (head, rest) = own.split_once("joints:\n").unwrap();
        let (_, tail) = rest.split_once('\n').unwrap();
        set.add("assemblies.yaml", &format!("{head}joints: []\n{tail}"));
        set.swap(
            "specifications.yaml",
            "assembly_lengths: [",
            "assembly_lengths: [\"10 in\", ",
        );
        set.deviation(
            "DV-T",
            "{assembly_id: A-26-2109}",
            "nonconforming_product",
            "hold",
            "",
        );
        set.swap(
            "lots.yaml",
            "exclusions: []",
            "exclusions: [{item: A-26-2109, reason_code: held, deviation: DV-T}]",
        );
    }),
    ("R13", |set| {
        set.swap(
            "assemblies.yaml",
            "nominal_length: \"30 in\"",
            "nominal_length: \"40 in\"",
        )
    }),
    ("R14", |set| {
        // Built before its last module was tested.
        set.swap_after(
            "assemblies.yaml",
            "AB-26-2102",
            "2026-03-16T09:25:00",
            "2026-03-12T09:40:00",
        );
    }),
    ("R15", |set| {
        set.deviation(
            "DV-T",
            "{module_id: M-26-3101}",
            "nonconforming_product",
            "reject",
            "",
        )
    }),
    ("R16", |set| {
        set.swap("pleating.yaml", "from: \"4.4 m\"", "from: \"3.4 m\"")
    }),
    ("R17", |set| set.swap("assemblies.yaml", "OR-35", "OR-36")),
    ("R18", |set| {
        set.swap("releases.yaml", "dispatch_note", "other_note")
    }),
    ("R19", |set| {
        set.swap("lots.yaml", "modules_started: 8", "modules_started: 9")
    }),
    ("R20", |set| {
        set.swap(
            "releases.yaml",
            "assemblies: [A-26-2101, A-26-2102], quantity: 2",
            "assemblies: [A-26-2101], quantity: 1",
        );
    }),
    ("R21", |set| {
        set.swap(
            "materials.yaml",
            "shelf_life_until: \"2030-12-31\"",
            "shelf_life_until: \"2026-03-01\"",
        )
    }),
    ("R22", |set| {
        set.swap("assemblies.yaml", "VF45-20", "VF65-20")
    }),
    ("R23", |set| {
        set.swap_after(
            "membrane-tests.yaml",
            "MB-26-41",
            "2026-02-23",
            "2026-03-11",
        )
    }),
    ("R24", |set| {
        set.swap_after("flow.yaml", "FT-26-72", "10:00:00+02:00", "10:00:00")
    }),
    ("R25", |set| {
        set.swap_after(MODULES, "MT-26-3102-1", "T08:30:00", "T08:10:00")
    }),
    ("R26", |set| {
        set.swap_after(
            "materials.yaml",
            "RG-34",
            "2026-02-12T10:15",
            "2026-02-17T10:15",
        )
    }),
    ("R27", |set| {
        set.swap(
            "instruments.yaml",
            "2026-01-20T14:20:05",
            "2026-01-20T14:21:35",
        )
    }),
    ("R28", |set| {
        set.swap_after("flow.yaml", "FT-26-72", "2026-09-17", "2026-09-30")
    }),
    ("R29", |set| set.swap(ASSEMBLIES, "RUN-0802", "RUN-0803")),
    ("R30", |set| {
        set.swap_after(
            "instruments.yaml",
            "CA-FM-07-26",
            "valid_until: \"2027-01-22\"",
            "valid_until: \"2026-08-01\"",
        )
    }),
    ("R31", |set| {
        set.swap(
            "instruments.yaml",
            "nominal: \"160 um\"",
            "nominal: \"120 um\"",
        )
    }),
    ("R32", |set| {
        set.swap_after(
            "instruments.yaml",
            "CA-PT-05-26",
            "as_found_error: \"+0.002 bar\"",
            "as_found_error: \"+0.020 bar\"",
        )
    }),
    ("R33", |set| {
        set.swap(
            SPEC,
            "source: straight_edge, absolute: \"0.1 mm\"",
            "source: straight_edge, absolute: \"0.15 mm\"",
        )
    }),
    ("R34", |set| {
        set.swap_after(
            "instruments.yaml",
            "CA-TH-04-26",
            "accreditation:",
            "environment:",
        );
        set.swap_after(
            "instruments.yaml",
            "CA-TH-04-26",
            "reference_standard_traceability: \"national standard through K-REF-3 (invented)\"\n",
            "",
        );
    }),
];

//! People, methods, figures, sampling, retests, seals.

use super::*;

pub(super) const SETS: &[(&str, Spoil)] = &[
    ("R35", |set| {
        set.swap_after(
            "flow.yaml",
            "FT-26-72",
            "recorded_by: P-03",
            "recorded_by: P-05",
        )
    }),
    ("R36", |set| {
        set.swap_after(
            "seals.yaml",
            "SI-L26-31-A",
            "recorded_by: P-05",
            "recorded_by: P-02",
        )
    }),
    ("R37", |set| {
        set.swap("releases.yaml", "T11:40:00", "T15:40:00")
    }),
    ("R38", |set| {
        set.deviation("DV-T", "{lot_id: L26-31}", "data", "concession", "");
        set.swap("deviations.yaml", "approved_by: P-08", "approved_by: P-01");
    }),
    ("R39", |set| {
        set.swap(
            SPEC,
            "effective_from: \"2026-01-19\"",
            "effective_from: \"2026-06-01\"",
        )
    }),
    ("R40", |set| {
        set.swap_after(
            MODULES,
            "MT-26-3101-1",
            "{value: \"8.5 mL/min\"",
            "{value: \"9.5 mL/min\"",
        )
    }),
    ("R41", |set| {
        set.swap(
            MODULES,
            "wetting_flush_volume: \"8.2 L\"",
            "wetting_flush_volume: \"2.1 L\"",
        )
    }),
    ("R42", |set| {
        set.swap(SPEC, "limit: \"<= 2.0 mm\"", "limit: \"<= 0.6 mm\"");
        set.swap(
            SPEC,
            "source: straight_edge, absolute: \"0.1 mm\"",
            "source: straight_edge, absolute: \"0.02 mm\"",
        );
    }),
    ("R43", |set| {
        set.swap(SPEC, "limit: \"<= 2.0 mm\"", "limit: \"<= 0.82 mm\"");
        set.swap(
            SPEC,
            "source: straight_edge, absolute: \"0.1 mm\"",
            "source: straight_edge, absolute: \"0.02 mm\"",
        );
    }),
    ("R44", |set| {
        set.swap(
            SPEC,
            "  - {quantity: straightness, source: straight_edge, absolute: \"0.1 mm\"}\n",
            "",
        )
    }),
    ("R45", |set| {
        set.swap(
            SPEC,
            "{explain_above: \"3 u\", block_above: \"5 u\", permitted: \"2.5 mL/min\"}",
            "{explain_above: \"0.001 u\", block_above: \"5 u\"}",
        )
    }),
    ("R46", |set| {
        // The ramp of an assembly, a tenth of a bar lower.
        set.trace("traces/at-26-2101-1-bp.csv", |text| {
            let lower = |line: &str| {
                let mut fields: Vec<String> = line.split(',').map(str::to_owned).collect();
                if let Ok(pressure) = fields[1].parse::<f64>() {
                    fields[1] = format!("{:.1}", pressure - 100.0);
                }
                fields.join(",") + "\n"
            };
            text.lines().map(lower).collect()
        });
        as_computed(set, "bubble-point", "AT-26-2101-1", "bar");
    }),
    ("R47", |set| {
        flow_times(set, "MT-26-3107-1", 0.47, "pass");
    }),
    ("R48", holed),
    ("R49", |set| {
        let digest = |set: &Sound, name: &str| {
            sealfolio::ground::digest::Digest::of(set.text(name).as_bytes()).to_string()
        };
        let (from, to) = ("traces/mt-26-3108-1-bp.csv", "traces/mt-26-3107-1-bp.csv");
        let (old, new) = (digest(set, from), digest(set, to));
        set.swap(MODULES, &old, &new);
        let copy = set.text(to).into_bytes();
        set.files.insert(from.into(), copy);
        as_computed(set, "bubble-point", "MT-26-3108-1", "bar");
    }),
    ("R50", |set| flow_times(set, "MT-26-3108-1", 1.2, "pass")),
    ("R51", printed_alike),
    ("R52", |set| {
        set.swap(
            "seals.yaml",
            "{coupon: CP-L26-31-3,",
            "{valid: false, coupon: CP-L26-31-3,",
        );
        set.swap(
            "seals.yaml",
            "quality_statistic: 16.47",
            "quality_statistic: 14.55",
        );
    }),
    ("R53", |set| {
        set.swap(SPEC, "AQL 2.5, normal inspection", "AQL 2.5")
    }),
    ("R54", |set| {
        set.swap(
            "lots.yaml",
            "modules: [M-26-3101, M-26-3102]",
            "modules: [M-26-3102]",
        );
        set.swap("lots.yaml", "modules: [M-26-3106]", "modules: [M-26-3101]");
        set.swap(
            "lots.yaml",
            "modules: [M-26-3107, M-26-3108]",
            "modules: [M-26-3106, M-26-3107, M-26-3108]",
        );
    }),
    ("R55", |set| {
        flow_times(set, "MT-26-3107-1", 2.0, "fail");
    }),
    ("R56", |set| {
        set.retest(2, ALLOWED);
        set.deviation(
            "DV-T",
            "{module: M-26-3107}",
            "retest",
            "accept_after_retest",
            &CAUSE.replace("T12:00", "T18:00"),
        );
    }),
    ("R57", |set| {
        set.retest(3, &ALLOWED.replace("MT-26-3107-1", "MT-26-3107-2"));
        set.swap(MODULES, "RUN-0410", "RUN-0409");
        set.deviation(
            "DV-T",
            "{module: M-26-3107}",
            "retest",
            "accept_after_retest",
            CAUSE,
        );
    }),
    ("R58", |set| {
        set.deviation("DV-T", "{lot_id: L26-31}", "data", "concession", "");
        set.swap("deviations.yaml", "decision: concession\n", "");
    }),
    ("R59", |set| {
        set.retest(2, ALLOWED);
        set.deviation(
            "DV-T",
            "{module: M-26-3107}",
            "retest",
            "accept_after_retest",
            CAUSE,
        );
        set.swap(
            SPEC,
            "maximum_same_reason_per_lot: 2",
            "maximum_same_reason_per_lot: 0",
        );
    }),
    ("R60", |set| {
        set.swap_after(
            "seals.yaml",
            "SR-L26-31-A",
            "joining_path: \"0.79 mm\"",
            "joining_path: \"1.79 mm\"",
        )
    }),
    ("R61", |set| {
        set.swap(
            "assemblies.yaml",
            "ring_turns_freely: true",
            "ring_turns_freely: false",
        )
    }),
];

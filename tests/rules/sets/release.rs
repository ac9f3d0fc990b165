//! Marks, challenges, papers, cycles, the release, the figures of studies.

use super::*;

pub(super) const SETS: &[(&str, Spoil)] = &[
    ("R62", |set| {
        set.swap(
            "marks.yaml",
            "VF45 L26-31 0.45 um 3101",
            "VF45 L26-13 0.45 um 3101",
        )
    }),
    ("R63", |set| {
        set.swap("marks.yaml", "(21)A-26-2101", "(21)A-26-2102")
    }),
    ("R64", |set| {
        set.swap(
            "marks.yaml",
            "\"for food contact\"",
            "\"for food contact\", \"sterilising grade\"",
        )
    }),
    ("R65", |set| {
        set.swap("retention.yaml", "colonies: 0}", "colonies: 40}");
        set.swap("retention.yaml", "no passage", "40 colonies in run 1");
    }),
    ("R66", |set| {
        set.swap(
            "retention.yaml",
            "negative: {colonies: 0,",
            "negative: {colonies: 2,",
        )
    }),
    ("R67", |set| {
        set.swap_after(
            "materials.yaml",
            "RM-702",
            "supplier_lot: QM-701",
            "supplier_lot: QM-702",
        )
    }),
    ("R68", |set| {
        set.swap_after(
            "materials.yaml",
            "AD-32",
            "up to 125 degC / 30 min",
            "up to 100 degC / 30 min",
        )
    }),
    ("R69", |set| {
        set.swap_after(
            "materials.yaml",
            "AD-32",
            "EU 10/2011 as amended by (EU) 2025/351",
            "EU 10/2011",
        )
    }),
    ("R70", |set| {
        set.swap("service.yaml", "cycles: 11,", "cycles: 51,")
    }),
    ("R71", |set| {
        set.swap(
            "service.yaml",
            "differential_pressure_max: \"190 mbar\"",
            "differential_pressure_max: \"390 mbar\"",
        )
    }),
    ("R72", |set| {
        set.swap_after(
            "service.yaml",
            "sequence: 14",
            "evidence: trace",
            "evidence: operator_statement",
        )
    }),
    ("R73", |set| {
        let test = "  - {at: \"2026-09-14T17:40:00+02:00\", quantity: diffusive_flow, value: \"16.9 mL/min\", at_pressure: \"1700 mbar\", verdict: pass, stage: end_of_run}\n";
        set.swap("service.yaml", test, "");
    }),
    ("R74", |set| {
        set.swap(
            "claims.yaml",
            "age_limit_in_service: \"24 mo\"",
            "age_limit_in_service: \"2 mo\"",
        )
    }),
    ("R75", |set| {
        let log = set.record("service.yaml", "CL-26-5");
        let (head, rest) = log.split_once("count_carried_forward").unwrap();
        let (_, tests) = rest.split_once("in_service").unwrap();
        let other = format!(
            "{}events: []\nin_service{tests}",
            head.replace("CL-26-5", "CL-26-6")
                .replace("H-1-03", "H-3-02")
        );
        set.add("service.yaml", &other);
    }),
    ("R76", |set| {
        set.swap("releases.yaml", "place_of_issue: Nowhere\n", "")
    }),
    ("R77", |set| {
        set.swap(
            "releases.yaml",
            "printed_name: \"Ada Quill (invented)\"",
            "printed_name: \"Ada Quell (invented)\"",
        )
    }),
    ("R78", |set| {
        set.swap_after(
            "requirements.yaml",
            "RQ-1",
            "revision: 1",
            "revision: 2\nsupersedes: {id: RQ-1, revision: 1}\nchange_reason: \"put more plainly\"",
        );
    }),
    ("R90", |set| {
        // Colonies that a second revision counts as none.
        let second = set.record("retention.yaml", "RC-26-14").replace(
            "revision: 1",
            "revision: 2\nsupersedes: {id: RC-26-14, revision: 1}\nchange_reason: \"typing error\"",
        );
        set.swap_after(
            "retention.yaml",
            "RC-26-14",
            "colonies: 0}",
            "colonies: 400}",
        );
        set.add("retention.yaml", &second);
    }),
    ("R91", |set| {
        set.swap("claims.yaml", "approved_by: P-01", "approved_by: P-08")
    }),
    ("R92", |set| {
        let text = set.text(SPEC);
        let line = text
            .lines()
            .find(|line| line.contains("stage: assembly, quantity: diffusive_flow, limit"))
            .unwrap()
            .to_owned();
        set.swap(SPEC, &format!("{line}\n"), "");
    }),
    ("R79", |set| {
        let held = set.record("materials.yaml", "SL-21").replace("revision: 1", "revision: 2\nsupersedes: {id: SL-21, revision: 1}\nchange_reason: \"supplier's notice\"");
        let held = held
            .replace("incoming_status: accepted", "incoming_status: held")
            .replacen("2026-02-10T10:15", "2026-09-20T10:15", 1);
        set.add("materials.yaml", &held);
    }),
    ("R82", |set| {
        // What the mapping says of every coil, wrong from the beginning: the records say what it gives.
        for file in ["intake.yaml", "slitting.yaml"] {
            let text = set.text(file);
            let wrong = text
                .replace("nominal_width: \"228.00", "nominal_width: \"228.30")
                .replace(
                    "nominal_width, text: \"228.00",
                    "nominal_width, text: \"228.30",
                );
            assert_ne!(wrong, text);
            set.files.insert(file.into(), wrong.into_bytes());
        }
    }),
    ("R83", |set| {
        set.swap("pleating.yaml", "upstream: SL-21", "upstream: SL-22")
    }),
    ("R84", |set| {
        set.swap("product.yaml", "size: \"56.90 mm\"", "size: \"56.20 mm\"")
    }),
    ("R85", |set| {
        // Half as permeable as it was: every pressure difference after the regeneration is doubled.
        let old = set.record("flow.yaml", "FT-26-72");
        let (head, rest) = old.split_once("points:").unwrap();
        let (points, blank) = rest.split_once("housing_blank:").unwrap();
        let doubled: Vec<String> = points
            .split("differential_pressure: \"")
            .enumerate()
            .map(|(i, part)| match (i, part.split_once(" mbar")) {
                (0, _) | (_, None) => part.to_owned(),
                (_, Some((n, rest))) => {
                    format!("{:.1} mbar{rest}", 2.0 * n.parse::<f64>().unwrap())
                }
            })
            .collect();
        let new = format!(
            "{head}points:{}housing_blank:{blank}",
            doubled.join("differential_pressure: \"")
        );
        set.swap("flow.yaml", &old, &new);
    }),
    ("R86", |set| {
        set.swap("claims.yaml", "cycles_claimed: 50", "cycles_claimed: 66")
    }),
    ("R87", |set| {
        set.swap("studies.yaml", "value: \"8", "value: \"9")
    }),
    ("R93", |set| {
        // The gas warms by 0.8 K, with the pressure that this gives dry gas: its flow stays as it was.
        set.trace("traces/mt-26-3101-1-df.csv", |text| {
            rows(text, |t, p, warm| {
                let hot = warm + 0.8 * t / 300.0;
                let ratio = (hot + 273.15) / (warm + 273.15);
                ((p + 1006.2) * ratio - 1006.2, hot)
            })
        })
    }),
    ("R88", |set| {
        set.swap(
            "requirements.yaml",
            "[cycle_claim,",
            "[cycle_claim, slitting_record, flow_tests,",
        )
    }),
    ("R89", |set| {
        set.swap_after(
            "slitting.yaml",
            "ST-26-62",
            "\"228.01 mm\"",
            "\"228.00 mm\"",
        )
    }),
];

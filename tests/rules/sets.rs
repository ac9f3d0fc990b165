//! For each rule, how the small lot is spoiled so that this rule and no other speaks.

use super::common::Sound;

/// How a rule's record set is made.
pub type Spoil = fn(&mut Sound);

const MODULES: &str = "module-tests/vf45.yaml";
const ASSEMBLIES: &str = "assembly-tests/vf45.yaml";
const SPEC: &str = "specifications.yaml";
/// The head of a retest in good order.
const ALLOWED: &str =
    "retest_of: MT-26-3107-1\nretest_deviation: DV-T\nretest_reason_code: housing_leak\n";
/// What a deviation says that allows one.
const CAUSE: &str = "cause: {known: true, reason_code: housing_leak, evidence: \"flush volume\"}\nretest_allowed_by: P-08\nretest_authorised_at: \"2026-03-12T12:00:00+01:00\"\n";

/// A flow of a loose module that its volume makes so many times as large; the rig reports it so.
fn flow_times(set: &mut Sound, test: &str, factor: f64, verdict: &str) {
    let volume = format!("upstream_volume: \"{:.3} L\"", 2.420 * factor);
    set.swap_after(MODULES, test, "upstream_volume: \"2.420 L\"", &volume);
    as_computed(set, "diffusive-flow", test, "mL/min");
    set.swap_after(
        MODULES,
        test,
        "verdict: pass",
        &format!("verdict: {verdict}"),
    );
}

/// Each rule with what is spoiled; the message of its finding is of the kind that the handbook shows.
pub const SETS: &[(&str, Spoil)] = &[
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
            .replace("VF45-20", "VF45-10");
        let own = own.replace("  - {position: 2, module_id: M-26-3102}\n", "");
        set.add("assemblies.yaml", &own);
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
            "{explain_above: \"3 u\", block_above: \"5 u\"}",
            "{explain_above: \"0.001 u\", block_above: \"5 u\"}",
        )
    }),
    ("R46", |set| {
        set.swap(
            SPEC,
            "source: pressure_calibration, absolute: \"4 mbar\"",
            "source: pressure_calibration, absolute: \"0.01 mbar\"",
        );
        set.swap(
            SPEC,
            "source: step_and_criterion, absolute: \"20 mbar\"",
            "source: step_and_criterion, absolute: \"0.01 mbar\"",
        );
    }),
    ("R47", |set| flow_times(set, "MT-26-3107-1", 0.47, "pass")),
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
    ("R55", |set| flow_times(set, "MT-26-3107-1", 2.0, "fail")),
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
        set.swap("retention.yaml", "colonies: 0}", "colonies: 40}")
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
    ("R79", |set| {
        let held = set.record("materials.yaml", "SL-21").replace("revision: 1", "revision: 2\nsupersedes: {id: SL-21, revision: 1}\nchange_reason: \"supplier's notice\"");
        let held = held
            .replace("incoming_status: accepted", "incoming_status: held")
            .replacen("2026-02-10T10:15", "2026-09-20T10:15", 1);
        set.add("materials.yaml", &held);
    }),
    ("R82", |set| {
        set.swap("slitting.yaml", "width: \"228.0", "width: \"228.3")
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
    ("R88", |set| {
        set.swap(
            "requirements.yaml",
            "[cycle_claim,",
            "[cycle_claim, slitting_record, flow_tests,",
        )
    }),
];

/// Rules that look at something else than a folder of records, and say so.
pub const ELSEWHERE: &[&str] = &["R80", "R81"];

/// Writes as reported what is computed, so that only the trace is wrong.
fn as_computed(set: &mut Sound, figure: &'static str, record: &str, unit: &str) {
    let dossier = set.dossier();
    let computed = dossier.graph.get(figure, record, "").unwrap();
    let value = computed
        .figure
        .unit
        .of_si(computed.quantity().unwrap().value);
    let text = set.record(MODULES, record);
    let said = text
        .lines()
        .find(|line| line.contains(&format!("quantity: {}", figure.replace('-', "_"))))
        .unwrap();
    let old = said
        .split("instrument_reported: {value: \"")
        .nth(1)
        .unwrap()
        .split('"')
        .next()
        .unwrap()
        .to_owned();
    let (file, _) = (MODULES, ());
    set.swap_after(
        file,
        record,
        &format!("{{value: \"{old}\""),
        &format!("{{value: \"{value:.3} {unit}\""),
    );
}

/// The ramp of the loose module M-26-3107 as a narrow hole would give it: flow grows with the
/// difference of the squares of absolute pressures.
fn holed(set: &mut Sound) {
    set.trace("traces/mt-26-3107-1-bp.csv", |text| {
        let mut lines = text.lines();
        let mut out = vec![lines.next().unwrap().to_owned()];
        let squares = |gauge: f64| (gauge + 1006.2) * (gauge + 1006.2) - 1006.2 * 1006.2;
        for line in lines {
            let mut fields: Vec<String> = line.split(',').map(str::to_owned).collect();
            let (p, q): (f64, f64) = (fields[1].parse().unwrap(), fields[2].parse().unwrap());
            if p < 2200.0 {
                fields[2] = format!("{:.3}", q * squares(p) / p / (squares(2200.0) / 2200.0));
            }
            out.push(fields.join(","));
        }
        out.join("\n") + "\n"
    });
    as_computed(set, "bubble-point", "MT-26-3107-1", "bar");
}

/// A limit that the least of some values meets, and that its print looks equal to.
fn printed_alike(set: &mut Sound) {
    set.swap(SPEC, "name: guarded_acceptance", "name: simple_acceptance");
    let dossier = set.dossier();
    let candidates = [
        (
            "bubble-point",
            "AT",
            "stage: assembly, quantity: bubble_point",
        ),
        (
            "bubble-point",
            "MT",
            "stage: module, quantity: bubble_point",
        ),
        (
            "membrane-bubble-point",
            "MB",
            "stage: membrane, quantity: bubble_point",
        ),
        (
            "membrane-water-flux",
            "MB",
            "stage: membrane, quantity: water_flux",
        ),
    ];
    let found = candidates.iter().find_map(|(figure, prefix, anchor)| {
        let least = dossier
            .graph
            .all(figure)
            .filter(|computed| computed.id.record.starts_with(prefix))
            .min_by(|a, b| {
                a.quantity()
                    .unwrap()
                    .value
                    .total_cmp(&b.quantity().unwrap().value)
            })?;
        let quantity = least.quantity().unwrap();
        let text = quantity.number(&least.figure.unit);
        let above = least.figure.unit.of_si(quantity.value) > text.parse::<f64>().unwrap();
        let unit = least.figure.unit.symbol;
        above.then(|| (*anchor, format!("limit: \">= {text} {unit}\"")))
    });
    let (anchor, limit) = found.expect("one of the least values is printed below itself");
    let text = set.text(SPEC);
    let rest = &text[text.find(anchor).unwrap()..];
    let old = &rest[rest.find("limit: ").unwrap()..];
    let old = old[..old[8..].find('"').unwrap() + 9].to_owned();
    set.swap_after(SPEC, anchor, &old, &limit);
}

//! For each rule, how the small lot is spoiled so that this rule and no other speaks.

mod records;
mod release;
mod testing;

use super::common::{Sound, rows};

/// How a rule's record set is made.
pub type Spoil = fn(&mut Sound);

const MODULES: &str = "module-tests/vf45.yaml";
const ASSEMBLIES: &str = "assembly-tests/vf45.yaml";
const SPEC: &str = "specifications.yaml";
/// The head of a retest in good order.
const ALLOWED: &str =
    "retest_of: MT-26-3107-1\nretest_deviation: DV-T\nretest_reason_code: housing_leak\n";
/// What a deviation says that allows one.
const CAUSE: &str = "cause: {known: true, reason_code: housing_leak, evidence: \"the seal of the housing in MT-26-3107-1\"}\nretest_allowed_by: P-08\nretest_authorised_at: \"2026-03-12T12:00:00+01:00\"\n";

/// A flow of a loose module that its volume makes so many times as large; the rig reports it so.
fn flow_times(set: &mut Sound, test: &str, factor: f64, verdict: &str) {
    let own = format!("{:.3} L", 2.420 * factor);
    let volume = format!("upstream_volume: \"{own}\"");
    set.swap_after(MODULES, test, "upstream_volume: \"2.420 L\"", &volume);
    // The rig is calibrated with that volume too, as well as with its own.
    let text = set.text("instruments.yaml");
    let point = text
        .lines()
        .find(|line| line.contains("upstream_volume, nominal: \"2.420 L\""))
        .unwrap();
    let more = point
        .replace("2.420 L", &own)
        .replace("0.030 L", &format!("{:.3} L", 0.030 * factor))
        .replace("0.008 L", &format!("{:.4} L", 0.008 * factor));
    set.swap("instruments.yaml", point, &format!("{point}\n{more}"));
    as_computed(set, "diffusive-flow", test, "mL/min");
    set.swap_after(
        MODULES,
        test,
        "verdict: pass",
        &format!("verdict: {verdict}"),
    );
}

/// Each rule with what is spoiled; the message of its finding is of the kind that the handbook shows.
pub fn all() -> Vec<(&'static str, Spoil)> {
    [records::SETS, testing::SETS, release::SETS].concat()
}

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
    let own = format!("record_id: {record}\n");
    let files = set.files.keys().filter(|file| file.ends_with(".yaml"));
    let mut files = files.filter(|file| set.text(file).contains(&own));
    let file = files.next().unwrap().clone();
    let text = set.record(&file, record);
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
    set.swap_after(
        &file,
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
        // As a record writes it.
        let text = quantity.number(&least.figure.unit).replace(',', ".");
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

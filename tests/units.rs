//! Slips in what is written down: units that were lost, signs that slipped in, limits that point the wrong way, traces of something else.
//! Each is one edit of the sound lot, the rule that must see it, how heavily, and its words.

mod common;

use common::{Case, sees_all};
use sealfolio::ground::finding::Severity;

const SLIPS: &[Case] = &[
    // A unit that was lost, a sign that slipped in, a limit that points the wrong way.
    (
        "specifications.yaml",
        "source: pressure_change, absolute: \"0.18 mbar\"",
        "source: pressure_change, absolute: \"0.18\"",
        "R04",
        Severity::Blocks,
        "the contribution pressure_change \"0.18\" of diffusive flow has no unit that fits",
    ),
    (
        "specifications.yaml",
        "source: gas_temperature_drift, absolute: \"0.015 K\"",
        "source: gas_temperature_drift, absolute: \"0.015 mbar\"",
        "R04",
        Severity::Blocks,
        "gas_temperature_drift",
    ),
    (
        "specifications.yaml",
        "stabilisation_time: \">= 180 s\"",
        "stabilisation_time: \">= 3\"",
        "R04",
        Severity::Blocks,
        "stabilisation_time \">= 3\" has no unit that fits",
    ),
    (
        "specifications.yaml",
        "limit: \"<= 14.0 mL/min\"",
        "limit: \">= 14.0 mL/min\"",
        "R04",
        Severity::Blocks,
        "points the wrong way",
    ),
    (
        "specifications.yaml",
        "{stage: module, quantity: bubble_point, limit: \">= 2.40 bar\"}",
        "{stage: module, quantity: bubble_point, limit: \">= -2.40 bar\"}",
        "R04",
        Severity::Blocks,
        "lies below zero",
    ),
    (
        "specifications.yaml",
        "lower: \"7.45 mL/min\"",
        "lower: \"7.45 L/min\"",
        "R04",
        Severity::Blocks,
        "are no two values of it in this order",
    ),
    (
        "specifications.yaml",
        "comparison_tolerance: {diffusive_flow: \"2 %\"",
        "comparison_tolerance: {diffusive_flow: \"200 %\"",
        "R04",
        Severity::Blocks,
        "compares nothing",
    ),
    (
        "instruments.yaml",
        "as_left_error: \"+0.1 mbar\"",
        "as_left_error: \"+0.1\"",
        "R04",
        Severity::Blocks,
        "as_left_error \"+0.1\" has no unit that fits 1000 mbar",
    ),
    (
        "instruments.yaml",
        "expanded_uncertainty: \"0.5 mbar\"",
        "expanded_uncertainty: \"-0.5 mbar\"",
        "R04",
        Severity::Blocks,
        "is below zero",
    ),
    (
        "instruments.yaml",
        "coverage_factor: 2",
        "coverage_factor: 0",
        "R04",
        Severity::Blocks,
        "coverage_factor 0 is below one",
    ),
    (
        "service.yaml",
        "temperature_max: \"121.7 degC\"",
        "temperature_max: \"200\"",
        "R71",
        Severity::Explain,
        "is no temperature with its unit",
    ),
    // A trace of another cycle.
    (
        "service.yaml",
        "start: \"2026-09-07T05:52:00+02:00\"",
        "start: \"2026-09-07T08:52:00+02:00\"",
        "R72",
        Severity::Explain,
        "and its trace begins 2026-09-07 05:52",
    ),
    (
        "flow.yaml",
        "liquid_temperature: \"18.6 degC\"",
        "liquid_temperature: \"81.6 degC\"",
        "R41",
        Severity::Explain,
        "no correction reaches so far",
    ),
    (
        "membrane-tests.yaml",
        "specification: {id: SP-45, revision: 1}",
        "specification: {id: SP-54, revision: 7}",
        "R02",
        Severity::Blocks,
        "names SP-54 revision 7, which is not here",
    ),
    (
        "flow.yaml",
        "record_id: FT-26-71\n",
        "record_id: \"FT-26-71 \"\n",
        "R10",
        Severity::Blocks,
        "has a blank at its beginning or end",
    ),
];

#[test]
fn slips_are_seen() {
    sees_all(SLIPS);
}

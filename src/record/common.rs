//! Pieces that several record kinds share.

use serde_json::{Value, json};

use super::{read::*, yaml::Node};
use crate::{ground::place::Spot, shape, words};

/// A revision, counted from 1.
#[derive(Copy, Clone, Debug)]
pub struct Revision {
    /// The number.
    pub value: u64,
    /// Where.
    pub spot: Spot,
}

impl Read for Revision {
    fn read(name: &str, node: &Node, reader: &mut Reader) -> Option<Self> {
        let Count { value, spot } = Count::read(name, node, reader)?;
        match value {
            0 => reader.refuse(spot, say!("revision is 0"), say!("Revisions count from 1.")),
            _ => Some(Revision { value, spot }),
        }
    }
    fn schema() -> Value {
        json!({"type": "integer", "minimum": 1})
    }
}

words! {
    /// How a value came into the record.
    pub enum Source {
        /// Exported by the instrument.
        InstrumentExport = "instrument_export",
        /// Typed in by a person.
        ManualEntry = "manual_entry",
        /// Copied from a paper that is attached.
        Transcription = "transcription",
    }
}

words! {
    /// What an instrument, a supplier or an inspector said.
    pub enum Said {
        /// It passed.
        Pass = "pass",
        /// It failed.
        Fail = "fail",
    }
}

shape! {
    /// The fields that every record has besides `kind`.
    pub struct Common {
        /// The id of the record, unique in its kind.
        record_id: Id,
        /// The revision, a whole number from 1.
        revision: Revision,
        /// The record and revision that this one replaces, from revision 2.
        supersedes: Option<Reference>,
        /// Why it was revised, from revision 2.
        change_reason: Option<Text>,
        /// When it was recorded, with offset.
        recorded_at: When,
        /// The person who recorded it.
        recorded_by: Id,
        /// How the values came in.
        source: Option<Source>,
        /// Anything else worth saying.
        remarks: Option<Text>,
        /// The export that the values were taken from.
        taken_from: Option<TakenFrom>,
    }
}

shape! {
    /// Where `sealfolio intake` took something from.
    pub struct TakenFrom {
        /// The export as it came, relative to the dossier folder.
        file: Text,
        /// Its SHA-256, 64 hexadecimal digits.
        sha256: Text,
        /// The lines of the export, such as "2-25, 40"; absent where all of it was taken.
        lines: Option<Text>,
        /// The mapping, and its revision.
        mapping: Reference,
    }
}

shape! {
    /// A record and its revision.
    pub struct Reference {
        /// Its id.
        id: Id,
        /// Its revision.
        revision: Revision,
    }
}

shape! {
    /// A file of readings beside the records.
    pub struct TraceFile {
        /// The file, relative to the dossier folder.
        file: Text,
        /// Its SHA-256, 64 hexadecimal digits.
        sha256: Text,
        /// The decimal sign, when it is not a point.
        decimal_separator: Option<Text>,
        /// What separates fields, when it is not a comma.
        field_separator: Option<Text>,
        /// The export that it was taken from, when it is not the instrument's own file.
        taken_from: Option<TakenFrom>,
    }
}

shape! {
    /// A document that belongs to the record.
    pub struct Attachment {
        /// The file, relative to the dossier folder.
        file: Option<Text>,
        /// Its SHA-256.
        sha256: Option<Text>,
        /// Its number.
        number: Option<Text>,
        /// The report it is.
        report: Option<Text>,
        /// Its type, such as 3.1 in the sense of EN 10204.
        r#type: Option<Text>,
        /// The heat number of a metal part.
        heat_number: Option<Text>,
    }
}

shape! {
    /// The state in which a gas volume is counted.
    pub struct ReferenceConditions {
        /// Temperature.
        temperature: Q<Temperature>,
        /// Absolute pressure.
        pressure: Q<Absolute>,
    }
}

words! {
    /// What a measurement of an element or a membrane gives.
    pub enum Measured {
        /// Diffusive flow of gas through the wetted membrane.
        DiffusiveFlow = "diffusive_flow",
        /// The pressure at which the largest wetted pores open.
        BubblePoint = "bubble_point",
        /// Thickness.
        Thickness = "thickness",
        /// Water flow per area.
        WaterFlux = "water_flux",
        /// Water flow.
        WaterFlow = "water_flow",
        /// Peel force of a strip.
        PeelForce = "peel_force",
        /// Force that pulls a join apart.
        JointPullForce = "joint_pull_force",
        /// Number of pleats.
        PleatCount = "pleat_count",
        /// Width of a slit strip.
        SlitWidth = "slit_width",
        /// Flow of the assembly over the sum of its modules.
        JoinResidual = "join_residual",
        /// Log reduction value.
        LogReduction = "log_reduction",
        /// Hold time of a steam cycle.
        HoldTime = "hold_time",
        /// Equivalent time of a steam cycle at 121.1 °C.
        F0 = "f0",
        /// Water flow as a share of that when new.
        FlowRecovery = "flow_recovery",
        /// How far an assembly is out of straight.
        Straightness = "straightness",
    }
}

shape! {
    /// A value as the instrument printed it.
    pub struct Reported {
        /// The value.
        value: AnyQ,
        /// The instrument's own verdict.
        verdict: Option<Said>,
    }
}

shape! {
    /// One measurement of an element test.
    pub struct ElementMeasurement {
        /// What was measured.
        quantity: Measured,
        /// How.
        method: Option<Text>,
        /// The gas; a diffusive flow must have it.
        test_gas: Option<Text>,
        /// Gauge pressure at the start; a diffusive flow must have it.
        test_pressure: Option<Q<Gauge>>,
        /// Absolute pressure of the room; a diffusive flow must have it.
        atmospheric_pressure: Option<Q<Absolute>>,
        /// Closed gas volume upstream of the element; a diffusive flow must have it.
        upstream_volume: Option<Q<Volume>>,
        /// Time before the measurement starts; a diffusive flow must have it.
        stabilisation_time: Option<Q<Duration>>,
        /// Time measured; a diffusive flow must have it.
        measurement_time: Option<Q<Duration>>,
        /// The state in which gas volumes are counted.
        reference_conditions: Option<ReferenceConditions>,
        /// The readings; a diffusive flow must have them.
        trace: Option<TraceFile>,
        /// What the instrument printed.
        instrument_reported: Option<Reported>,
        /// Why a planned quantity was not measured.
        not_measured_reason: Option<Text>,
    }
}

shape! {
    /// What module tests and assembly tests have in common.
    pub struct ElementTest {
        /// 1 for the first test of the element, 2 and on for retests.
        test_number: Count,
        /// The test that this one repeats.
        retest_of: Option<Id>,
        /// The deviation that allowed the retest.
        retest_deviation: Option<Id>,
        /// Why it was repeated.
        retest_reason_code: Option<Text>,
        /// The specification it was tested to.
        specification: Reference,
        /// The rig.
        instrument_id: Id,
        /// The rig's running number.
        instrument_run_id: Text,
        /// What wetted the membrane.
        wetting_liquid: Text,
        /// Its conductivity.
        wetting_liquid_conductivity: Option<Q<Conductivity>>,
        /// How much was flushed through.
        wetting_flush_volume: Q<Volume>,
        /// Its temperature.
        wetting_liquid_temperature: Q<Temperature>,
        /// Temperature of the gas.
        gas_temperature: Q<Temperature>,
        /// What was measured.
        measurements: Vec<ElementMeasurement>,
    }
}

/// The names of the fields of [`ElementTest`], for the kinds that carry them.
pub const ELEMENT_TEST_NAMES: &[&str] = &[
    "test_number",
    "retest_of",
    "retest_deviation",
    "retest_reason_code",
    "specification",
    "instrument_id",
    "instrument_run_id",
    "wetting_liquid",
    "wetting_liquid_conductivity",
    "wetting_flush_volume",
    "wetting_liquid_temperature",
    "gas_temperature",
    "measurements",
];

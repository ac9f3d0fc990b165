//! `kind: cycle_log`

#[allow(unused_imports)]
use crate::record::{common::*, read::*};
use crate::{shape, words};

shape! {
    /// The cycles of one installed element, as the plant reports them.
    pub struct CycleLog {
        /// A map: customer_id, line, housing, position.
        site: Any,
        /// The element.
        assembly_id: Id,
        /// When fitted.
        installed_at: When,
        /// When taken out.
        removed_at: Option<When>,
        /// The claim.
        claim: Reference,
        /// Cycles before the events.
        count_carried_forward: OneOrMore<Carried>,
        /// The cycles.
        events: List<Event>,
        /// Tests in service.
        in_service_integrity_tests: List<ServiceTest>,
        /// What was filtered, run by run.
        production_runs: List<ProductionRun>,
        /// How it rests.
        storage_between_runs: Option<Text>,
    }
}

shape! {
    /// Cycles counted before.
    pub struct Carried {
        /// The treatment.
        treatment: Text,
        /// How many.
        cycles: Count,
        /// On what evidence.
        evidence: Text,
        /// How many of them had a whole trace, which lies with the plant; none when absent, unless the evidence says "every cycle with a trace".
        with_trace: Option<Count>,
    }
}

shape! {
    /// One cycle.
    pub struct Event {
        /// Its number.
        sequence: Count,
        /// The treatment.
        treatment: Text,
        /// When.
        start: When,
        /// What proves it.
        evidence: Evidence,
        /// Temperature against time.
        trace: Option<TraceFile>,
        /// As reported, by quantity, such as hold_time: "34 min".
        reported: Option<Any>,
        /// Highest forward difference.
        differential_pressure_max: Option<Q<Gauge>>,
        /// Highest reverse difference.
        reverse_differential_pressure_max: Option<Q<Gauge>>,
        /// Of the agent.
        concentration: Option<Q<Concentration>>,
        /// Anything else.
        remark: Option<Text>,
    }
}

words! {
    /// What proves a cycle.
    pub enum Evidence {
        /// A trace.
        Trace = "trace",
        /// A person says so.
        OperatorStatement = "operator_statement",
        /// A counter of the line.
        MachineCounter = "machine_counter",
    }
}

shape! {
    /// One production run.
    pub struct ProductionRun {
        /// Its number or name.
        run: Text,
        /// When it began.
        start: When,
        /// When it ended.
        end: Option<When>,
        /// What was filtered.
        volume: Option<Q<Volume>>,
    }
}

shape! {
    /// One test in service.
    pub struct ServiceTest {
        /// When.
        at: When,
        /// What.
        quantity: Measured,
        /// The value.
        value: AnyQ,
        /// The test pressure.
        at_pressure: Option<Q<Gauge>>,
        /// As reported.
        verdict: Option<Said>,
        /// after_steam, end_of_run, …
        stage: Option<Text>,
    }
}

/// One map, or a list of them; absent is none.
#[derive(Debug, Clone)]
pub struct OneOrMore<T>(pub Vec<T>);

impl<T: Read> Read for OneOrMore<T> {
    const REQUIRED: bool = false;
    fn read(name: &str, node: &crate::record::yaml::Node, reader: &mut Reader) -> Option<Self> {
        match node.data {
            crate::record::yaml::Data::List(_) => Vec::read(name, node, reader).map(OneOrMore),
            _ => T::read(name, node, reader).map(|one| OneOrMore(vec![one])),
        }
    }
    fn absent() -> Option<Self> {
        Some(OneOrMore(Vec::new()))
    }
    fn schema() -> serde_json::Value {
        serde_json::json!({"anyOf": [T::schema(), Vec::<T>::schema()]})
    }
}

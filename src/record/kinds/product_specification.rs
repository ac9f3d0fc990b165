//! `kind: product_specification`

#[allow(unused_imports)]
use crate::record::{common::*, read::*};
use crate::{shape, verdict::Decision, words};

shape! {
    /// Limits, methods, decision rule, plans and uncertainty contributions of one product.
    pub struct ProductSpecification {
        /// The code.
        product_code: Text,
        /// What it is.
        product_description: Text,
        /// The rating.
        nominal_rating: Q<Length>,
        /// What the rating means and what it does not.
        rating_basis: Text,
        /// The day from which it counts.
        effective_from: Day,
        /// Who approved it.
        approved_by: Id,
        /// Length of one module.
        module_nominal_length: Q<Length>,
        /// Lengths that are built.
        assembly_lengths: Vec<Q<Length>>,
        /// Effective filtration area of one module.
        module_effective_filtration_area: Q<Area>,
        /// The state in which gas volumes are counted.
        reference_conditions: ReferenceConditions,
        /// How a value is held against a limit.
        decision_rule: DecisionRule,
        /// The limits.
        acceptance: Vec<Acceptance>,
        /// Conditions of a valid test.
        test_conditions: List<TestCondition>,
        /// When an assembly that flows more than its modules must be explained and when it blocks.
        additivity_check: Option<AdditivityCheck>,
        /// The words that fix the bubble-point algorithm.
        bubble_point_criterion: Option<Text>,
        /// The words that fix the diffusive-flow algorithm.
        diffusive_flow_criterion: Option<Text>,
        /// When a test may be repeated.
        retest_rule: Option<RetestRule>,
        /// Standard uncertainties (k = 1), entered by the maker.
        uncertainty_contributions: List<Contribution>,
        /// Sampling plans.
        sampling_plans: List<SamplingPlan>,
        /// Control limits of earlier data, against which trends are held.
        control_limits: List<ControlLimits>,
        /// A map by quantity of how far reported and recomputed may differ: {diffusive_flow: "2 %", bubble_point: "20 mbar"}; 5 % where none is stated.
        comparison_tolerance: Option<Any>,
        /// Record kinds that every module needs.
        required_records_per_module: List<Text>,
        /// Record kinds that every assembly needs.
        required_records_per_assembly: List<Text>,
        /// How long records are kept.
        retention_period: Option<Q<Duration>>,
        /// From which temperature the hold of a steam cycle counts.
        steam_hold_temperature: Option<Q<Temperature>>,
    }
}

shape! {
    /// How a value is held against a limit (JCGM 106:2012).
    pub struct DecisionRule {
        /// The rule.
        name: Rule,
        /// Its width in expanded uncertainties: "1.0 U".
        guard_band: Option<Text>,
        /// Where it was agreed.
        basis: Option<Text>,
    }
}

words! {
    /// The decision rules.
    pub enum Rule {
        /// Inside the limit by the guard band conforms; outside by it does not; between is undecided.
        GuardedAcceptance = "guarded_acceptance",
        /// Inside the limit conforms; the risk is shared.
        SimpleAcceptance = "simple_acceptance",
        /// What is outside by less than the guard band is still accepted; who rejects is sure.
        GuardedRejection = "guarded_rejection",
    }
}

words! {
    /// The stages at which a limit counts.
    pub enum Stage {
        /// Flat membrane of a roll.
        Membrane = "membrane",
        /// A slit strip.
        Slit = "slit",
        /// A pleated pack.
        PleatPack = "pleat_pack",
        /// A seal.
        Seal = "seal",
        /// A module.
        Module = "module",
        /// An assembly.
        Assembly = "assembly",
        /// An element in service.
        InService = "in_service",
    }
}

shape! {
    /// One limit.
    pub struct Acceptance {
        /// Where it counts.
        stage: Stage,
        /// What it limits.
        quantity: Measured,
        /// The limit.
        limit: Demand,
        /// The test pressure.
        at: Option<Q<Gauge>>,
        /// The liquid.
        wetting_liquid: Option<Text>,
        /// The gas.
        test_gas: Option<Text>,
        /// The sampling plan, where one decides.
        sampling: Option<Id>,
    }
}

shape! {
    /// Conditions of a valid test.
    pub struct TestCondition {
        /// Where they count.
        stage: Stage,
        /// The liquid.
        wetting_liquid: Option<Text>,
        /// Flush volume.
        wetting_flush_volume: Option<Demand>,
        /// Temperature of the liquid.
        liquid_temperature: Option<Demand>,
        /// Time before measuring.
        stabilisation_time: Option<Demand>,
        /// Time measured.
        measurement_time: Option<Demand>,
    }
}

shape! {
    /// Levels of the join residual, in standard uncertainties ("3 u"), and the leak that is the most allowed.
    pub struct AdditivityCheck {
        /// Above it, explain.
        explain_above: Text,
        /// Above it, release waits.
        block_above: Text,
        /// The flow through the joins that is the most allowed, derived from what such a leak would cost: "2.5 mL/min". A test must be able to see it.
        permitted: Option<Q<Flow>>,
    }
}

shape! {
    /// When a test may be repeated.
    pub struct RetestRule {
        /// Tests in all.
        maximum_tests_per_item: Count,
        /// Whether a deviation must allow it.
        needs_deviation: Flag,
        /// Reasons that count.
        allowed_reason_codes: List<Text>,
        /// How often one reason may occur in a lot.
        maximum_same_reason_per_lot: Option<Count>,
    }
}

shape! {
    /// One contribution to an uncertainty budget.
    pub struct Contribution {
        /// Whose budget.
        quantity: Measured,
        /// Its cause, such as upstream_volume; pressure_change and gas_temperature_drift act inside the diffusive flow, recorder_temperature inside f0, all others on the result.
        source: Text,
        /// As a share of the value.
        relative: Option<Number>,
        /// As a quantity.
        absolute: Option<AnyQ<Width>>,
        /// `instrument` when all tests on one rig share it, `test` when each has its own; the handbook says what holds for known causes.
        shared_by: Option<Text>,
        /// Degrees of freedom, where it was found by repeating: readings less the means taken.
        degrees_of_freedom: Option<Count>,
    }
}

shape! {
    /// A sampling plan.
    pub struct SamplingPlan {
        /// Its id.
        id: Id,
        /// Where it comes from.
        standard: Text,
        /// How many, or `all`.
        sample_size: CountOrAll,
        /// Of a plan by variables.
        acceptability_constant: Option<Number>,
        /// Of a plan by attributes.
        acceptance_number: Option<Count>,
        /// The share of failing units that the plan is to accept, as the standard names it.
        acceptable_quality_level: Option<Q<Share>>,
        /// The share of failing units that the plan is to reject.
        limiting_quality: Option<Q<Share>>,
        /// What it is for.
        applies_to: Text,
    }
}

shape! {
    /// Control limits that were frozen: those of earlier data, laid down with their day and their reason.
    pub struct ControlLimits {
        /// Where they count.
        stage: Stage,
        /// What they limit.
        quantity: Measured,
        /// Of assemblies: which length.
        assembly_length: Option<Q<Length>>,
        /// Lower limit, three standard deviations below the centre.
        lower: AnyQ,
        /// Upper limit, as far above it.
        upper: AnyQ,
        /// Since when.
        frozen_on: Day,
        /// On which data, and why.
        basis: Text,
    }
}

/// A sample size: a number, or `all`.
#[derive(Copy, Clone, Debug, PartialEq, Eq)]
pub enum CountOrAll {
    /// So many.
    Count(u64),
    /// Every one.
    All,
}

impl Read for CountOrAll {
    fn read(name: &str, node: &crate::record::yaml::Node, reader: &mut Reader) -> Option<Self> {
        match node.text() {
            Some("all") => Some(CountOrAll::All),
            _ => Count::read(name, node, reader).map(|count| CountOrAll::Count(count.value)),
        }
    }
    fn schema() -> serde_json::Value {
        serde_json::json!({"anyOf": [{"const": "all"}, {"type": "integer", "minimum": 1}]})
    }
}

impl ProductSpecification {
    /// How a value is held against a limit, with the guard band in expanded uncertainties.
    pub fn decision(&self) -> Decision {
        let stated = self.decision_rule.guard_band.as_ref().and_then(|text| {
            text.trim()
                .strip_suffix('U')
                .and_then(|n| crate::ground::number::parse(n.trim()).ok())
        });
        match self.decision_rule.name {
            Rule::SimpleAcceptance => Decision::Guarded(0.0),
            Rule::GuardedAcceptance => Decision::Guarded(stated.unwrap_or(1.0).max(0.0)),
            Rule::GuardedRejection => Decision::Rejection(stated.unwrap_or(1.0).max(0.0)),
        }
    }

    /// The limit of a quantity at a stage.
    pub fn limit(&self, stage: Stage, quantity: Measured) -> Option<&Acceptance> {
        self.acceptance
            .iter()
            .find(|a| a.stage == stage && a.quantity == quantity)
    }

    /// The levels of the join residual in standard uncertainties: explain, block.
    pub fn additivity(&self) -> Option<(f64, f64)> {
        let level = |text: &Text| {
            text.trim()
                .strip_suffix('u')
                .and_then(|n| crate::ground::number::parse(n.trim()).ok())
        };
        let check = self.additivity_check.as_ref()?;
        Some((level(&check.explain_above)?, level(&check.block_above)?))
    }
}

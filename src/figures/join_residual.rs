//! Flow of an assembly over the sum of its modules.

use super::diffusive_flow;
#[allow(unused_imports)]
use crate::{
    figure::*,
    formula::*,
    ground::unit::*,
    plant::Plant,
    procedure,
    record::{common::Measured, kinds::Body},
    verdict::{Decision, Limit},
};
use crate::{
    ground::quantity::Quantity,
    stats::{distribution::normal_quantile, root},
};

/// Join residual.
pub static FIGURE: Figure = Figure {
    id: "join-residual",
    name: "Join residual",
    symbol: "r",
    unit: ML_PER_MIN,
    quantity: Some(Measured::JoinResidual),
    about: "The diffusive flow of the assembly minus the sum of the flows of its modules, all at the same conditions. φ brings the flow of a module from the temperature of its wetting liquid to that of the assembly's: the ratio of diffusion times solubility of the gas in water, uncertain by 0.3 % a kelvin (common practice, no source). What is left over goes through something that was not there when the modules were tested: a join, an adapter, an end piece or a seal of the housing. An assembly limit of n module limits would hide it. Errors that all tests on one rig share, such as its volume, are added linearly over the modules; errors of different rigs do not cancel.",
    validity: "Same gas (nitrogen, oxygen or air), test pressure and reference conditions for the assembly and every module, wetting liquids not more than 15 K apart; the last accepted test of each module. A residual far below zero is as wrong as one far above: wetting, temperature or swapped modules.",
    sources: &[
        "Balance of flows over modules side by side (textbook)",
        "Temperature: diffusion (Hayduk and Laudie 1974; Han and Bartels 1996) and solubility (IAPWS G7) in water",
        "Levels in standard uncertainties: product specification",
    ],
    subjects: |plant| measured_in(plant, Measured::DiffusiveFlow, true),
    formula: || WHOLE - sum(MODULES * WARMTH),
    limit,
    check: always,
    reported: nothing_reported,
    example: Example {
        given: &[
            (WHOLE, "29.30 mL/min", "0.58 mL/min"),
            (MODULES, "8.10 mL/min", "0.18 mL/min"),
            (MODULES, "8.52 mL/min", "0.18 mL/min"),
            (MODULES, "8.48 mL/min", "0.18 mL/min"),
            (WARMTH, "0.988", "0.003"),
            (WARMTH, "0.988", "0.003"),
            (WARMTH, "1.006", "0.0015"),
        ],
        gives: "4.35 ± 0.66 mL/min",
    },
};

const WHOLE: Input = Input {
    symbol: "Q_asm",
    what: "the diffusive flow of the assembly",
    unit: ML_PER_MIN,
    from: From::Figures(&diffusive_flow::FIGURE, itself),
};

const MODULES: Input = Input {
    symbol: "Q_mod",
    what: "the diffusive flow of each module",
    unit: ML_PER_MIN,
    from: From::Figures(&diffusive_flow::FIGURE, |scope| {
        modules(scope, Measured::DiffusiveFlow)
    }),
};

const WARMTH: Input = Input {
    symbol: "φ",
    what: "the change of a module's flow from the temperature of its test to that of the assembly's",
    unit: ONE,
    from: From::Records(warmth),
};

/// By how much diffusion through water is uncertain for each kelvin that it is brought over; common practice,
/// no source.
const PER_KELVIN: f64 = 0.003;

/// The factor of each module, in the order of [`modules`]. What makes it uncertain is one law for all of them.
fn warmth(scope: &Scope) -> Drawn {
    let whole = scope.test()?;
    let to = &whole.test.wetting_liquid_temperature;
    let liquid = &whole.test.wetting_liquid;
    let gas = whole
        .measurement(Measured::DiffusiveFlow)
        .and_then(|measured| measured.test_gas.as_ref())
        .ok_or(say!("test_gas is missing"))?;
    let subjects = modules(scope, Measured::DiffusiveFlow)?;
    let factor = |subject: &Subject| {
        let record = scope.plant.record(subject.record);
        let test = Scope { record, ..*scope }.test()?;
        let from = &test.test.wetting_liquid_temperature;
        if from.si != to.si && !crate::physics::fluid::is_water(liquid) {
            return Err(say!(
                "how diffusion through {liquid} changes with temperature is not known here: test assembly and modules at one temperature, or with water",
                liquid = &**liquid
            ));
        }
        let ratio = crate::physics::fluid::permeability_ratio(gas, to.si, from.si)?;
        Ok(Datum {
            si: ratio,
            // With its sign: what makes one module's flow too large makes that of one brought the other way too small.
            u: Some(ratio * PER_KELVIN * (to.si - from.si)),
            cause: word!("diffusion at another temperature"),
            degrees: None,
            text: say!(
                "{gas}, {from} to {to}",
                gas = &**gas,
                from = from.text,
                to = to.text
            ),
            at: scope.record.at(to.spot),
            shared: None,
        })
    };
    subjects.iter().map(factor).collect()
}

/// The same record.
pub fn itself(scope: &Scope) -> Result<Vec<Subject>, String> {
    Ok(vec![Subject {
        record: scope.record.index,
        part: scope.part.to_owned(),
    }])
}

/// The deciding test of each module of the tested assembly, at the same conditions.
pub fn modules(scope: &Scope, quantity: Measured) -> Result<Vec<Subject>, String> {
    let whole = scope.test()?;
    let (_, build) = scope
        .plant
        .build(whole.element)
        .ok_or(say!("no assembly_build lists its modules"))?;
    let conditions = whole
        .measurement(quantity)
        .ok_or(say!("the assembly was not measured"))?;
    let mut out: Vec<Subject> = Vec::new();
    for position in &build.modules {
        let id = &*position.module_id.text;
        let test = scope
            .plant
            .last_test(id)
            .ok_or_else(|| say!("module {id} has no test", id = id))?;
        let own = test.measurement(quantity).ok_or_else(|| {
            say!(
                "the test that decides about module {id} has no {quantity}",
                id = id,
                quantity = quantity.word()
            )
        })?;
        if own.test_gas.as_ref().map(|gas| &gas.text)
            != conditions.test_gas.as_ref().map(|gas| &gas.text)
        {
            return Err(say!("module {id} was tested with another gas", id = id));
        }
        if test.test.wetting_liquid.text != whole.test.wetting_liquid.text {
            return Err(say!("module {id} was wetted with another liquid", id = id));
        }
        if quantity == Measured::DiffusiveFlow {
            let pressures = (
                own.test_pressure.as_ref().map(|p| p.si),
                conditions.test_pressure.as_ref().map(|p| p.si),
            );
            if let (Some(a), Some(b)) = pressures
                && (a - b).abs() > 0.005 * b.abs()
            {
                return Err(say!("module {id} was tested at another pressure", id = id));
            }
        }
        let record = test.record.index;
        if out.iter().any(|other| other.record == record) {
            return Err(say!("module {id} is listed twice", id = id));
        }
        out.push(Subject {
            record,
            part: String::new(),
        });
    }
    Ok(out)
}

fn limit(scope: &Scope) -> Result<Option<Limit>, String> {
    let (record, spec) = scope.spec()?;
    let (explain, block) = spec.additivity().ok_or(say!(
        "additivity_check is missing in the specification or not of the form \"3 u\""
    ))?;
    let at = spec
        .additivity_check
        .as_ref()
        .map(|check| record.at(check.spot));
    Ok(Some(Limit {
        low: None,
        high: None,
        text: say!(
            "explain above {explain} u, block above {block} u",
            explain = explain,
            block = block
        ),
        at,
        decision: Decision::Levels(explain, block),
    }))
}

/// What a test can see at the joins, in SI (ISO 11929-1 scheme, Currie 1968; from memory): errors of the first and the second kind
/// 5 % each.
pub struct Sight {
    /// Above it something is there.
    pub threshold: f64,
    /// The smallest leak that is seen with a probability of 95 %.
    pub detection: f64,
}

/// What the test behind a residual can see, from the residual and the assembly's flow; nothing where it has no uncertainty.
///
/// The threshold asks for the uncertainty without a leak, the detection limit for that with the leak. In either the errors of the
/// assembly's flow are those of the residual as found, larger as that flow would be: what is relative in it grows so, what is absolute
/// less. Errors that it shares with its modules keep their signs.
pub fn sight(found: &Quantity, whole: &Quantity) -> Option<Sight> {
    let tight = whole.value - found.value;
    // The uncertainty where the assembly would pass so much.
    let at = |flow: f64| {
        let more = (flow / whole.value - 1.0).max(0.0);
        let shares = found.shares.iter().map(|(cause, share)| {
            let own = whole.shares.get(cause).unwrap_or_default();
            share + more * own
        });
        libm::sqrt(shares.map(|share| share * share).sum::<f64>())
    };
    let k = normal_quantile(0.95).ok()?;
    let threshold = k * at(tight);
    let beyond = |leak: f64| threshold + k * at(tight + leak) - leak;
    let likely = found.u() > 0.0 && whole.value > 0.0 && tight > 0.0;
    // Where uncertainties grow as fast as the leak none is ever seen.
    let reach = 16.0 * threshold;
    (likely && beyond(reach) < 0.0).then(|| Sight {
        threshold,
        detection: root(beyond, 0.0, reach),
    })
}

//! Diameter of the single hole that would pass the join residual.

use super::diffusive_flow::reference;
use crate::ground::quantity::Quantity;
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

/// Equivalent leak diameter.
pub static FIGURE: Figure = Figure {
    id: "leak-diameter",
    name: "Equivalent leak diameter",
    symbol: "d",
    unit: UM,
    quantity: None,
    about: "The diameter of one sharp-edged hole that would pass the join residual as a choked gas jet, with discharge coefficient 1 (the smallest hole; with 0.6 it is 1.29 times as wide). It gives the residual a size that can be compared with an organism. It is an order of magnitude, no measurement of a hole.",
    validity: "Choked flow: downstream over upstream absolute pressure at most 0.528 for a diatomic gas. Given only where the residual stands above its decision threshold of 1.645 standard uncertainties; below it there is no leak to size.",
    sources: &[
        "Isentropic nozzle flow of an ideal gas (textbook)",
        "Decision threshold: ISO 11929-1 scheme, Currie 1968 (from memory)",
        "Molar mass of nitrogen 28.0134 g/mol; gas constant CODATA 2018",
    ],
    subjects: |plant| measured_in(plant, Measured::DiffusiveFlow, true),
    formula: || sqrt(4.0 / std::f64::consts::PI * area()),
    limit: no_limit,
    check,
    reported: nothing_reported,
    example: Example {
        given: &[
            (RESIDUAL, "4.20 mL/min", "0.0069 mL/min"),
            (REF_P, "1013.25 mbar", "0 mbar"),
            (REF_T, "20.5 degC", "0 K"),
            (GAS_CONSTANT, "8.314462618 J/(mol·K)", "0"),
            (GAS_T, "20.1 degC", "0 K"),
            (MOLAR_MASS, "0.0280134 kg/mol", "0"),
            (UPSTREAM, "2708.4 mbar_abs", "0.1 mbar"),
            (PSI, "0.6847314563772", "0"),
            (DISCHARGE, "0.98", "0"),
        ],
        gives: "12.969 ± 0.011 µm",
    },
};

const RESIDUAL: Input = Input {
    symbol: "r",
    what: "the join residual",
    unit: ML_PER_MIN,
    from: From::Figures(&super::join_residual::FIGURE, super::join_residual::itself),
};

const REF_P: Input = Input {
    symbol: "p_ref",
    what: "the reference pressure",
    unit: MBAR,
    from: From::Records(|scope| {
        reference(scope).map(|(record, at)| vec![Datum::of(record, &at.pressure)])
    }),
};

const REF_T: Input = Input {
    symbol: "T_ref",
    what: "the reference temperature",
    unit: KELVIN,
    from: From::Records(|scope| {
        reference(scope).map(|(record, at)| vec![Datum::of(record, &at.temperature)])
    }),
};

const GAS_CONSTANT: Input = Input {
    symbol: "R",
    what: "the molar gas constant",
    unit: J_PER_MOL_K,
    from: From::Constant {
        value: 8.314_462_618,
        u: 0.0,
        source: "CODATA 2018, exact",
    },
};

const GAS_T: Input = Input {
    symbol: "T",
    what: "the gas temperature",
    unit: KELVIN,
    from: From::Records(|scope| {
        Ok(vec![Datum::of(
            scope.record,
            &scope.test()?.test.gas_temperature,
        )])
    }),
};

const MOLAR_MASS: Input = Input {
    symbol: "M",
    what: "the molar mass of the test gas",
    unit: KG_PER_MOL,
    from: From::Records(molar_mass),
};

const UPSTREAM: Input = Input {
    symbol: "p_u",
    what: "the absolute pressure upstream",
    unit: MBAR,
    from: From::Records(upstream),
};

const PSI: Input = Input {
    symbol: "ψ",
    what: "the choked flow function for a ratio of heat capacities of 1.4",
    unit: ONE,
    from: From::Constant {
        value: 0.684_731_456_377_2,
        u: 0.0,
        source: "√1.4 · (2/2.4)^3, isentropic flow of a diatomic gas",
    },
};

const DISCHARGE: Input = Input {
    symbol: "C_d",
    what: "the discharge coefficient",
    unit: ONE,
    from: From::Constant {
        value: 1.0,
        u: 0.0,
        source: "the smallest hole; 0.6 is the cautious other end",
    },
};

/// The area of the hole.
fn area() -> Formula {
    let mass_flow = RESIDUAL * REF_P / (GAS_CONSTANT * REF_T);
    named(
        "A",
        mass_flow * sqrt(MOLAR_MASS * GAS_CONSTANT * GAS_T) / (DISCHARGE * UPSTREAM * PSI),
    )
}

fn molar_mass(scope: &Scope) -> Drawn {
    let test = scope.test()?;
    let gas = test
        .measurement(Measured::DiffusiveFlow)
        .and_then(|m| m.test_gas.as_ref())
        .ok_or(say!("the test gas is not named"))?;
    let mass = match &*gas.text {
        "nitrogen" => 0.028_013_4,
        "air" => 0.028_965,
        other => {
            return Err(say!(
                "the molar mass of {other} is not known here",
                other = other
            ));
        }
    };
    Ok(vec![Datum::count(scope.record, mass, gas, gas.spot)])
}

fn upstream(scope: &Scope) -> Drawn {
    let test = scope.test()?;
    let measured = test
        .measurement(Measured::DiffusiveFlow)
        .ok_or(say!("diffusive_flow was not measured"))?;
    let gauge = measured
        .test_pressure
        .as_ref()
        .ok_or(say!("test_pressure is missing"))?;
    let room = measured
        .atmospheric_pressure
        .as_ref()
        .ok_or(say!("atmospheric_pressure is missing"))?;
    Ok(vec![Datum::count(
        scope.record,
        gauge.si + room.si,
        &format!("{} + {}", gauge.text, room.text),
        gauge.spot,
    )])
}

fn check(given: &[(Input, Quantity)]) -> Result<(), String> {
    let of = |input: Input| {
        given
            .iter()
            .find(|(other, _)| *other == input)
            .map(|(_, quantity)| quantity)
    };
    if let Some(residual) = of(RESIDUAL)
        && residual.value <= 1.645 * residual.u()
    {
        return Err(say!("the join residual is not above its decision threshold of 1.645 u: no leak is seen that could be sized").into());
    }
    match of(UPSTREAM) {
        // The room is at the standard atmosphere within a tenth; the ratio is far from critical in use.
        Some(p) if 101_325.0 / p.value > 0.5283 => {
            Err(say!("the test pressure is too low for choked flow").into())
        }
        _ => Ok(()),
    }
}

/// The diameter of one hole that would pass a flow at the conditions of a test, in m; nothing where it cannot be said.
pub fn hole(scope: &Scope, flow: f64) -> Option<f64> {
    let (_, at) = reference(scope).ok()?;
    let (test, one) = (scope.test().ok()?, |drawn: Vec<Datum>| {
        drawn.first().map(|datum| datum.si)
    });
    let upstream = one(upstream(scope).ok()?)?;
    let gauge = test
        .measurement(Measured::DiffusiveFlow)?
        .test_pressure
        .as_ref()?;
    let jet = crate::physics::leak::Jet {
        flow,
        p_ref: at.pressure.si,
        t_ref: at.temperature.si,
        upstream,
        downstream: upstream - gauge.si,
        t: test.test.gas_temperature.si,
        molar_mass: one(molar_mass(scope).ok()?)?,
        kappa: 1.4,
        discharge: 1.0,
    };
    jet.diameter(true).ok()
}

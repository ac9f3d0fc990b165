//! The part of an element's flow resistance that is proportional to flow.

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
    physics::filter::{FlowFit, flow_fit},
    record::kinds::flow_test::{FlowPoint, FlowTest},
};

/// Flow resistance, linear part, at 20 °C.
pub static FIGURE: Figure = Figure {
    id: "flow-resistance",
    name: "Flow resistance, linear part, at 20 °C",
    symbol: "a",
    unit: MBAR_PER_L_MIN,
    quantity: None,
    about: "The coefficient a of ΔP = a·Q + b·Q² for the element alone: that of the points less that of the empty housing, brought to 20 °C by the viscosity of water. It is the resistance of the membrane. δ_a and δ_ab are the errors that the scatter of the points about either curve leaves in a: their best estimate is zero, their uncertainty that of the fit (n − 2 degrees of freedom).",
    validity: "Water, one direction of flow, at least three points with and three without the element, at one temperature. Its uncertainty is the scatter of the points alone; what meter, gauge and thermometer leave open is counted in the water flow.",
    sources: &[
        "Darcy and Forchheimer (textbook)",
        "Viscosity of water: IAPWS SR6-08(2011)",
    ],
    subjects: flow_tests,
    formula: || {
        (call(
            &procedure::LINEAR_PART,
            [Expr::Var(FLOW_OF), Expr::Var(PRESSURE_OF)],
        ) + SCATTER
            - call(
                &procedure::LINEAR_PART,
                [Expr::Var(BLANK_FLOW), Expr::Var(BLANK_PRESSURE)],
            )
            - BLANK_SCATTER)
            * call(&procedure::WATER_VISCOSITY, [Expr::Var(AT_20)])
            / call(&procedure::WATER_VISCOSITY, [Expr::Var(WATER)])
    },
    limit: no_limit,
    check: always,
    reported: nothing_reported,
    example: Example {
        given: &[
            (FLOW_OF, "10.0 L/min", "0.05 L/min"),
            (FLOW_OF, "20.1 L/min", "0.05 L/min"),
            (FLOW_OF, "30.2 L/min", "0.05 L/min"),
            (PRESSURE_OF, "52.3 mbar", "0.5 mbar"),
            (PRESSURE_OF, "109.7 mbar", "0.5 mbar"),
            (PRESSURE_OF, "171.6 mbar", "0.5 mbar"),
            (BLANK_FLOW, "10.1 L/min", "0.05 L/min"),
            (BLANK_FLOW, "20.0 L/min", "0.05 L/min"),
            (BLANK_FLOW, "30.1 L/min", "0.05 L/min"),
            (BLANK_PRESSURE, "2.9 mbar", "0.2 mbar"),
            (BLANK_PRESSURE, "9.2 mbar", "0.2 mbar"),
            (BLANK_PRESSURE, "19.1 mbar", "0.2 mbar"),
            (SCATTER, "0.03 mbar/(L/min)", "0.06 mbar/(L/min)"),
            (BLANK_SCATTER, "0.02 mbar/(L/min)", "0.03 mbar/(L/min)"),
            (AT_20, "20.0 degC", "0 K"),
            (WATER, "18.4 degC", "0.2 K"),
        ],
        gives: "4.715 ± 0.095 mbar/(L/min)",
    },
};

const FLOW_OF: Input = Input {
    symbol: "Q",
    what: "each flow through element and housing",
    unit: L_PER_MIN,
    from: From::Records(|scope| points(scope, |test| &test.points, flow)),
};

const PRESSURE_OF: Input = Input {
    symbol: "ΔP",
    what: "its pressure difference",
    unit: MBAR,
    from: From::Records(|scope| points(scope, |test| &test.points, pressure)),
};

const BLANK_FLOW: Input = Input {
    symbol: "Q_b",
    what: "each flow through the empty housing",
    unit: L_PER_MIN,
    from: From::Records(|scope| points(scope, |test| &test.housing_blank, flow)),
};

const BLANK_PRESSURE: Input = Input {
    symbol: "ΔP_b",
    what: "its pressure difference",
    unit: MBAR,
    from: From::Records(|scope| points(scope, |test| &test.housing_blank, pressure)),
};

const SCATTER: Input = Input {
    symbol: "δ_a",
    what: "the unknown error that the scatter of the points leaves in the linear part",
    unit: MBAR_PER_L_MIN,
    from: From::Records(|scope| scatter(scope, |test| &test.points, |fit| fit.u_linear, BOTH)),
};

const BLANK_SCATTER: Input = Input {
    symbol: "δ_ab",
    what: "the unknown error that the scatter of the points of the empty housing leaves in the linear part",
    unit: MBAR_PER_L_MIN,
    from: From::Records(|scope| {
        scatter(scope, |test| &test.housing_blank, |fit| fit.u_linear, BOTH)
    }),
};

/// The part of the scatter of a curve that makes an error of both its parts, of opposite sign.
pub const BOTH: &str = word!("scatter of the points, in both parts");

/// What the scatter of the points about their curve leaves in a part of it.
pub fn scatter(
    scope: &Scope,
    which: fn(&FlowTest) -> &Vec<FlowPoint>,
    share: fn(&FlowFit) -> f64,
    cause: &'static str,
) -> Drawn {
    let column = |column| -> Result<Vec<f64>, String> {
        Ok(points(scope, which, column)?
            .iter()
            .map(|datum| datum.si)
            .collect())
    };
    let flows = points(scope, which, flow)?;
    let Some(first) = flows.first() else {
        return Ok(Vec::new());
    };
    let fit = flow_fit(&column(flow)?, &column(pressure)?)?;
    Ok(vec![Datum::scatter(
        cause,
        share(&fit),
        fit.degrees,
        say!("of {count} points", count = flows.len()),
        first.at.clone(),
    )])
}

const AT_20: Input = Input {
    symbol: "T_20",
    what: "the temperature at which flows are stated",
    unit: DEGC,
    from: From::Constant {
        value: 20.0,
        u: 0.0,
        source: "convention of this figure",
    },
};

const WATER: Input = Input {
    symbol: "T_w",
    what: "the temperature of the water",
    unit: DEGC,
    from: From::Records(temperature),
};

/// Every flow test.
pub fn flow_tests(plant: &Plant) -> Vec<Subject> {
    plant
        .indexed()
        .filter(|(_, record)| record.kind == "flow_test")
        .map(|(record, _)| Subject {
            record,
            part: String::new(),
        })
        .collect()
}

/// The flow test of a scope; water only.
pub fn flow_test<'a>(scope: &Scope<'a>) -> Result<&'a FlowTest, String> {
    match &scope.record.body {
        Body::FlowTest(body) if &*body.liquid.text == "water" => Ok(body),
        Body::FlowTest(body) => Err(say!(
            "the viscosity of {liquid} is not known here; the test is made with water",
            liquid = &*body.liquid
        )),
        _ => Err(say!("this record is no flow_test").into()),
    }
}

/// The flow of a point.
pub fn flow(record: &crate::record::Record, point: &FlowPoint) -> Datum {
    Datum::of(record, &point.flow)
}

/// The pressure difference of a point.
pub fn pressure(record: &crate::record::Record, point: &FlowPoint) -> Datum {
    Datum::of(record, &point.differential_pressure)
}

/// One column of the points of a flow test.
pub fn points(
    scope: &Scope,
    which: fn(&FlowTest) -> &Vec<FlowPoint>,
    column: fn(&crate::record::Record, &FlowPoint) -> Datum,
) -> Drawn {
    let test = flow_test(scope)?;
    let own = which(test);
    if (1..FEWEST).contains(&own.len()) {
        let list = match std::ptr::eq(own, &test.housing_blank) {
            true => "housing_blank",
            false => "points",
        };
        return Err(say!(
            "{list}: {n} of at least {least} points that a curve needs",
            list = list,
            n = own.len(),
            least = FEWEST
        ));
    }
    Ok(own
        .iter()
        .map(|point| column(scope.record, point))
        .collect())
}

/// A curve with two parts and something left over to tell its scatter.
const FEWEST: usize = 3;

/// The temperature of the water.
pub fn temperature(scope: &Scope) -> Drawn {
    Ok(vec![Datum::of(
        scope.record,
        &flow_test(scope)?.liquid_temperature,
    )])
}

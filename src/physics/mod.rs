//! Physical laws in SI, each with its validity and source; what lies outside is refused in words.

pub mod exposure;
pub mod filter;
pub mod fluid;
pub mod leak;

/// A number, or why there is none.
pub type Answer = Result<f64, String>;

/// Refuses what is not a positive, finite number.
///
/// # Errors
/// In words, with the name.
pub fn positive(name: &str, x: f64) -> Answer {
    match x.is_finite() && x > 0.0 {
        true => Ok(x),
        false => Err(say!("{name} must be > 0", name = name)),
    }
}

/// Refuses what is no number.
///
/// # Errors
/// In words.
pub fn finite(x: f64) -> Answer {
    match x.is_finite() {
        true => Ok(x),
        false => Err(say!("{x} is no number", x = x)),
    }
}

/// Refuses a temperature in °C that is none: below absolute zero, or above 200, where kelvin were meant.
///
/// # Errors
/// In words.
pub fn celsius(t: f64) -> Answer {
    match (-273.15..=200.0).contains(&t) {
        true => Ok(t),
        false => Err(say!("{t} °C: kelvin written as Celsius?", t = t)),
    }
}

/// Refuses a temperature that is no kelvin or lies outside a range.
///
/// # Errors
/// In words.
pub fn kelvin(t: f64, low: f64, high: f64) -> Answer {
    if !t.is_finite() || t < 100.0 {
        return Err(say!(
            "{t} K is below 100 K: a Celsius value written as kelvin?",
            t = t
        ));
    }
    match (low..=high).contains(&t) {
        true => Ok(t),
        false => Err(say!(
            "{t} K lies outside {low} K to {high} K",
            t = t,
            low = low,
            high = high
        )),
    }
}

/// The molar gas constant, J/(mol·K) (CODATA 2018, exact).
pub const GAS_CONSTANT: f64 = 8.314_462_618;

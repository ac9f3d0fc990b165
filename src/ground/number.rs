//! Reading numbers as people write them, and printing them so that no digit is invented.

use super::{
    name::nearest,
    unit::{UNITS, Unit},
    words,
};

/// Reads a decimal number: digits, one point, an optional sign and exponent; nothing else.
///
/// A comma, a space inside, `nan`, `inf` and what overflows are refused in words.
pub fn parse(word: &str) -> Result<f64, String> {
    if word.contains(',') {
        return Err(say!(
            "`{word}` has a comma, which may mean decimals or thousands: write {word2} or {word3}",
            word = word,
            word2 = word.replace(',', "."),
            word3 = word.replace(',', "")
        ));
    }
    let digits = word.strip_prefix(['+', '-']).unwrap_or(word);
    let mantissa = digits.split(['e', 'E']).next().unwrap_or_default();
    let decimal = !mantissa.is_empty()
        && mantissa.chars().all(|c| c.is_ascii_digit() || c == '.')
        && mantissa.starts_with(|c: char| c.is_ascii_digit());
    let value: f64 = word
        .parse()
        .map_err(|_| say!("`{word}` is not a decimal number", word = word))?;
    if !decimal {
        return Err(say!("`{word}` is not a decimal number", word = word));
    }
    if !value.is_finite() {
        return Err(say!(
            "`{word}` is too large to be a number here",
            word = word
        ));
    }
    Ok(value)
}

/// Reads `2.500 bar`: a number and a unit of the table.
pub fn parse_with_unit(text: &str) -> Result<(f64, &'static Unit), String> {
    let text = text.trim();
    if text.contains(['\u{a0}', '\u{202f}']) {
        return Err(say!(
            "`{what}` has a blank that does not break: it looks like one and is none; write an ordinary blank",
            what = text
        ));
    }
    let Some((number, symbol)) = text.split_once(' ') else {
        return Err(
            match text.find(|c: char| c.is_ascii_alphabetic() || c == '%' || c == 'µ') {
                Some(i) if i > 0 && parse(&text[..i]).is_ok() => {
                    say!(
                        "`{what}` has no blank between number and unit; write `{i} {i2}`",
                        what = text,
                        i = &text[..i],
                        i2 = &text[i..]
                    )
                }
                _ => say!("`{what}` has no unit", what = text),
            },
        );
    };
    let value = parse(number)?;
    match Unit::named(symbol.trim()) {
        Some(unit) => Ok((value, unit)),
        None => {
            let symbol = symbol.trim();
            let spelt = symbol
                .replace(['µ', 'μ'], "u")
                .replace('²', "2")
                .replace('³', "3")
                .replace('°', "deg");
            let known = || UNITS.iter().map(|unit| unit.symbol);
            let near = known()
                .find(|known| known.eq_ignore_ascii_case(&spelt))
                // One letter is near everything.
                .or_else(|| match &*spelt {
                    "C" | "c" => Some("degC"),
                    one if one.chars().count() < 2 => None,
                    _ => nearest(&spelt, known()),
                });
            Err(match near {
                Some(near) => say!(
                    "unit `{symbol}` is not known (did you mean `{near}`?)",
                    symbol = symbol,
                    near = near
                ),
                None => say!("unit `{symbol}` is not known", symbol = symbol),
            })
        }
    }
}

/// Decimal places that show `digits` significant digits of a positive number; below zero where tens
/// or hundreds are the last that mean anything.
///
/// A number that rounds up to the next power of ten keeps its digits: 0.0996 with two digits has
/// two places (0.10).
pub fn places(value: f64, digits: i32) -> i32 {
    if value == 0.0 || !value.is_finite() {
        return 0;
    }
    let mut exponent = libm::floor(libm::log10(value.abs())) as i32;
    let scale = libm::pow(10.0, f64::from(digits - 1 - exponent));
    if libm::round(value.abs() * scale) >= libm::pow(10.0, f64::from(digits)) {
        exponent += 1;
    }
    (digits - 1 - exponent).clamp(-15, 15)
}

/// With a fixed count of decimal places (below zero: rounded to tens, hundreds …); never `-0.00`.
pub fn fixed(value: f64, places: i32) -> String {
    let text = match usize::try_from(places) {
        Ok(places) => format!("{value:.places$}"),
        Err(_) => {
            let step = libm::pow(10.0, f64::from(-places));
            format!("{:.0}", libm::round(value / step) * step)
        }
    };
    let text = words::decimal(&text);
    match text.strip_prefix('-') {
        Some(rest) if rest.chars().all(|c| matches!(c, '0' | '.' | ',')) => rest.to_owned(),
        Some(rest) => format!("−{rest}"),
        None => text,
    }
}

/// With so many significant digits, trailing zeros of the fraction dropped; from a million on, and below a hundred-thousandth, as
/// a power of ten.
pub fn significant(value: f64, digits: i32) -> String {
    if value == 0.0 {
        return "0".into();
    }
    let exponent = libm::floor(libm::log10(value.abs())) as i32;
    if !(-5..6).contains(&exponent) {
        return power_of_ten(value, digits);
    }
    let text = fixed(value, places(value, digits));
    match text.contains(words::spoken().decimal()) {
        true => text
            .trim_end_matches('0')
            .trim_end_matches(['.', ','])
            .to_owned(),
        false => text,
    }
}

/// As `4.82·10⁻¹⁰`.
fn power_of_ten(value: f64, digits: i32) -> String {
    let places = usize::try_from(digits - 1).unwrap_or(0);
    let text = format!("{value:.places$e}");
    let (mantissa, exponent) = text.split_once('e').unwrap_or((&text, "0"));
    let raised = |c: char| match c {
        '-' => '⁻',
        '1' => '¹',
        '2' => '²',
        '3' => '³',
        c => char::from_u32(c as u32 - '0' as u32 + '⁰' as u32).unwrap_or(c),
    };
    let short = match mantissa.contains('.') {
        true => mantissa.trim_end_matches('0').trim_end_matches('.'),
        false => mantissa,
    };
    let short = words::decimal(short);
    let exponent: String = exponent.chars().map(raised).collect();
    format!("{}·10{exponent}", short.replace('-', "−"))
}

/// A printed number followed by its unit; a pure number stands alone.
pub fn with_unit(number: &str, unit: &Unit) -> String {
    match unit.print {
        "" => number.to_owned(),
        print => format!("{number} {print}"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_very_small_and_the_very_large_are_powers_of_ten() {
        assert_eq!(significant(-4.82e-10, 3), "−4.82·10⁻¹⁰");
        assert_eq!(significant(1.5e12, 3), "1.5·10¹²");
        // Rounded up into the next decade.
        assert_eq!(significant(9.9996e-10, 3), "1·10⁻⁹");
        assert_eq!(significant(6.78e-9, 1), "7·10⁻⁹");
    }

    #[test]
    fn what_is_ambiguous_is_refused() {
        for text in [
            "1,700", "1698,8", "nan", "inf", "1e400", "0x10", "", "1_000", ".5", "1.2.3", "12:30",
        ] {
            assert!(parse(text).is_err(), "{text}");
        }
        for (text, value) in [
            ("8.40", 8.4),
            ("+0.8", 0.8),
            ("-0.04", -0.04),
            ("1.66e8", 1.66e8),
        ] {
            assert_eq!(parse(text), Ok(value));
        }
    }

    #[test]
    fn a_wrong_unit_is_met_with_the_right_spelling() {
        for (text, message) in [
            ("5900", "`5900` has no unit"),
            (
                "2.35L",
                "`2.35L` has no blank between number and unit; write `2.35 L`",
            ),
            ("2.35 l", "unit `l` is not known (did you mean `L`?)"),
            ("0.45 µm", "unit `µm` is not known (did you mean `um`?)"),
            ("20 °C", "unit `°C` is not known (did you mean `degC`?)"),
            ("3 furlongs", "unit `furlongs` is not known"),
        ] {
            assert_eq!(parse_with_unit(text).map(|_| ()), Err(message.to_owned()));
        }
    }

    #[test]
    fn printed_digits_follow_the_uncertainty() {
        assert_eq!(places(0.183, 2), 2);
        assert_eq!(places(0.0996, 2), 2);
        assert_eq!(places(24.5, 2), 0);
        assert_eq!(places(1_451_894.0, 2), -5);
        assert_eq!(fixed(12_028_986.0, -5), "12000000");
        assert_eq!(fixed(-0.001, 2), "0.00");
        assert_eq!(fixed(-1.5, 1), "−1.5");
        assert_eq!(significant(101_325.0, 6), "101325");
        assert_eq!(significant(1.66e8, 3), "1.66·10⁸");
        assert_eq!(significant(3.2e10, 3), "3.2·10¹⁰");
        assert_eq!(significant(0.25, 6), "0.25");
    }
}

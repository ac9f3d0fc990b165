//! How each figure was checked against something outside the program, and by how much it agrees.
//!
//! `agreement.csv` is written by `cargo run --example outside -- agreement` from the check files of
//! `tests/data`; a test holds it to what the formulas give today.

/// What is known of one figure's agreement.
struct Checked {
    cases: u32,
    digits: u32,
    kinds: &'static str,
}

fn checked(figure: &str) -> Option<Checked> {
    include_str!("agreement.csv").lines().find_map(|line| {
        let mut fields = line.splitn(4, ',');
        let (name, cases, digits, kinds) = (
            fields.next()?,
            fields.next()?,
            fields.next()?,
            fields.next()?,
        );
        Some(Checked {
            cases: (name == figure).then(|| cases.parse().ok())??,
            digits: digits.parse().ok()?,
            kinds,
        })
    })
}

/// What the cases are: published, from a reference library, or common practice.
fn kinds(listed: &str) -> String {
    let said = |kind| match kind {
        "published" => say!("published"),
        "reference library" => say!("reference library"),
        "common practice" => say!("common practice"),
        other => other,
    };
    listed.split("; ").map(said).collect::<Vec<_>>().join("; ")
}

/// Sentences on how a figure was checked, for its page and for the terminal.
pub fn sentences(figure: &str) -> Vec<String> {
    let outside = match checked(figure) {
        Some(checked) if checked.cases == 1 => say!(
            "1 case from outside the program ({kinds}) goes through this very formula; it agrees in {digits} significant digits, which may be all that its source prints.",
            kinds = kinds(checked.kinds),
            digits = checked.digits
        ),
        Some(checked) => say!(
            "{n} cases from outside the program ({kinds}) go through this very formula; the worst agrees in {digits} significant digits, which may be all that its source prints.",
            n = checked.cases,
            kinds = kinds(checked.kinds),
            digits = checked.digits
        ),
        None => say!("No case from outside the program goes through this formula whole: none is known. Its parts (fluid properties, statistics, propagation of uncertainty) are checked on their own.").to_owned(),
    };
    vec![
        outside,
        say!("The worked example is computed a second time by a law that shares no code with the program, and must agree to the last printed digit; the tests also alter the formula in every small way and expect the example to notice.").to_owned(),
        say!("Uncertainty: first order, cause by cause (JCGM 100:2008, 5.2); causes that two readings share are added before squaring. Its slopes are held against dual numbers, and its result against drawing (JCGM 101:2008) for each kind of figure that has a limit.").to_owned(),
    ]
}

#[cfg(test)]
mod tests {
    use super::{checked, sentences};

    #[test]
    fn a_figure_says_how_it_was_checked() {
        assert!(checked("no-such-figure").is_none());
        let said = sentences("leak-diameter");
        assert!(said[0].starts_with("4 cases"), "{}", said[0]);
        assert!(sentences("no-such-figure")[0].starts_with("No case"));
    }
}

//! What the words of a dossier mean.

use super::{Cell, Page, Section, Table, lists::page};

/// Words with their meaning, from A to Z.
const WORDS: &[(&str, &str)] = &[
    (
        word!("assembly"),
        word!(
            "Two, three or four modules joined end to end, with adapter and end piece: the element that a plant fits into a housing."
        ),
    ),
    (
        word!("bubble point"),
        word!(
            "The gas pressure at which the largest wetted pores open. It falls when a pore or a flaw is larger."
        ),
    ),
    (
        word!("budget"),
        word!("The list of causes of an uncertainty, each with its share."),
    ),
    (
        word!("capability"),
        word!(
            "Whether a process holds its limits with room to spare, told by an index and its bound."
        ),
    ),
    (
        word!("conforms"),
        word!("Inside the limit even when the whole guard band is held against the value."),
    ),
    (
        word!("control limits"),
        word!(
            "Where values of a steady process lie, three standard deviations either side of their centre. They are no limits of the specification."
        ),
    ),
    (
        word!("coupon"),
        word!("A strip or a join made to be pulled or peeled, in place of an element."),
    ),
    (
        word!("coverage factor"),
        word!(
            "By what a standard uncertainty is multiplied so that the interval holds the true value with 95.45 %."
        ),
    ),
    (
        word!("deviation"),
        word!("A record of what did not go as laid down, what was decided, and by whom."),
    ),
    (
        word!("diffusive flow"),
        word!(
            "Gas that dissolves in the liquid of the wetted, intact membrane and passes it. A leak adds to it."
        ),
    ),
    (
        word!("digest"),
        word!("64 hexadecimal digits (SHA-256) that change when a single bit of a file changes."),
    ),
    (
        word!("does not conform"),
        word!("Outside the limit even when the whole guard band is held in the value's favour."),
    ),
    (
        word!("element"),
        word!("A module or an assembly: whatever is tested as one."),
    ),
    (
        word!("F0"),
        word!("Minutes at 121.1 °C that would kill as much as the whole cycle did."),
    ),
    (
        word!("figure"),
        word!(
            "A computed number with its formula, inputs, uncertainty, limit, verdict and address."
        ),
    ),
    (
        word!("finding"),
        word!(
            "What a rule has to say of the records: it blocks release, must be explained, or is a note."
        ),
    ),
    (
        word!("guard band"),
        word!("The margin that a limit is moved by, so that a wrong decision becomes unlikely."),
    ),
    (
        word!("join residual"),
        word!("Flow of an assembly over the sum of its modules' flows: what the joins add."),
    ),
    (
        word!("log reduction"),
        word!("Powers of ten by which a filter lowers the number of organisms of a challenge."),
    ),
    (
        word!("lot"),
        word!("What was made together under one number."),
    ),
    (
        word!("margin, room"),
        word!("Distance from a value to its limit, in standard uncertainties."),
    ),
    (
        word!("module"),
        word!("A pleated pack of ten inches with core, cage and end caps."),
    ),
    (
        word!("not evaluated"),
        word!("Data is missing or the formula does not hold: never a pass."),
    ),
    (
        word!("operating characteristic"),
        word!("The probability that a sampling plan accepts, over the share of units that fail."),
    ),
    (
        word!("no limit"),
        word!("Reported only: no specification lays down a limit for it, so nothing is decided."),
    ),
    (
        word!("recovery"),
        word!("Water flow after a treatment as a share of the flow when new."),
    ),
    (
        word!("retest"),
        word!(
            "A test of an element that was tested before; it counts only when a deviation allowed it."
        ),
    ),
    (
        word!("roll"),
        word!("Membrane as it came, before it is slit and pleated."),
    ),
    (
        word!("rule"),
        word!("One demand that all records are held against; each says how much it looked at."),
    ),
    (
        word!("trace"),
        word!("The readings of an instrument over time, in a file of their own."),
    ),
    (
        word!("u"),
        word!("One standard uncertainty: a room of 6 u to a limit is six of them."),
    ),
    (
        word!("uncertainty"),
        word!(
            "How far the true value may lie from the number shown; ± is one standard uncertainty, U the expanded one."
        ),
    ),
    (
        word!("undecided"),
        word!("The guard band lies across the value: neither verdict would be sure."),
    ),
];

/// The page.
pub fn glossary() -> Page {
    let mut table = Table::new(
        say!("Words and their meaning"),
        &[say!("word"), say!("meaning")],
    );
    let mut words: Vec<(&str, &str)> = WORDS
        .iter()
        .map(|(word, meaning)| (say!(*word), say!(*meaning)))
        .collect();
    words.sort_by_key(|(word, _)| word.to_lowercase());
    for (i, (word, meaning)) in words.into_iter().enumerate() {
        table.rows.push(vec![
            Cell::anchored(&format!("word-{i}", i = i + 1), word),
            Cell::text(meaning),
        ]);
    }
    page(
        "glossary.html",
        say!("Words"),
        say!("What the words of this dossier mean, for a reader who is new to the trade."),
        vec![Section::new("words", say!("From A to Z")).table(table)],
    )
}

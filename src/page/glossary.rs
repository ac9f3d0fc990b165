//! What the words of a dossier mean.

use super::{Cell, Page, Section, Table, lists::page};

/// Words with their meaning, from A to Z.
const WORDS: &[(&str, &str)] = &[
    (
        "assembly",
        "Two, three or four modules joined end to end, with adapter and end piece: the element that a plant fits into a housing.",
    ),
    (
        "bubble point",
        "The gas pressure at which the largest wetted pores open. It falls when a pore or a flaw is larger.",
    ),
    (
        "budget",
        "The list of causes of an uncertainty, each with its share.",
    ),
    (
        "capability",
        "Whether a process holds its limits with room to spare, told by an index and its bound.",
    ),
    (
        "conforms",
        "Inside the limit even when the whole guard band is held against the value.",
    ),
    (
        "control limits",
        "Where values of a steady process lie, three standard deviations either side of their centre. They are no limits of the specification.",
    ),
    (
        "coupon",
        "A strip or a join made to be pulled or peeled, in place of an element.",
    ),
    (
        "coverage factor",
        "By what a standard uncertainty is multiplied so that the interval holds the true value with 95.45 %.",
    ),
    (
        "deviation",
        "A record of what did not go as laid down, what was decided, and by whom.",
    ),
    (
        "diffusive flow",
        "Gas that dissolves in the liquid of the wetted, intact membrane and passes it. A leak adds to it.",
    ),
    (
        "digest",
        "64 hexadecimal digits (SHA-256) that change when a single bit of a file changes.",
    ),
    (
        "does not conform",
        "Outside the limit even when the whole guard band is held in the value's favour.",
    ),
    (
        "element",
        "A module or an assembly: whatever is tested as one.",
    ),
    (
        "F0",
        "Minutes at 121.1 °C that would kill as much as the whole cycle did.",
    ),
    (
        "figure",
        "A computed number with its formula, inputs, uncertainty, limit, verdict and address.",
    ),
    (
        "finding",
        "What a rule has to say of the records: it blocks release, must be explained, or is a note.",
    ),
    (
        "guard band",
        "The margin that a limit is moved by, so that a wrong decision becomes unlikely.",
    ),
    (
        "join residual",
        "Flow of an assembly over the sum of its modules' flows: what the joins add.",
    ),
    (
        "log reduction",
        "Powers of ten by which a filter lowers the number of organisms of a challenge.",
    ),
    ("lot", "What was made together under one number."),
    (
        "margin, room",
        "Distance from a value to its limit, in standard uncertainties.",
    ),
    (
        "module",
        "A pleated pack of ten inches with core, cage and end caps.",
    ),
    (
        "not evaluated",
        "Data is missing or the formula does not hold: never a pass.",
    ),
    (
        "operating characteristic",
        "The probability that a sampling plan accepts, over the share of units that fail.",
    ),
    (
        "recovery",
        "Water flow after a treatment as a share of the flow when new.",
    ),
    (
        "retest",
        "A test of an element that was tested before; it counts only when a deviation allowed it.",
    ),
    (
        "roll",
        "Membrane as it came, before it is slit and pleated.",
    ),
    (
        "rule",
        "One demand that all records are held against; each says how much it looked at.",
    ),
    (
        "trace",
        "The readings of an instrument over time, in a file of their own.",
    ),
    (
        "uncertainty",
        "How far the true value may lie from the number shown; ± is one standard uncertainty, U the expanded one.",
    ),
    (
        "undecided",
        "The guard band lies across the value: neither verdict would be sure.",
    ),
];

/// The page.
pub fn glossary() -> Page {
    let mut table = Table::new("Words and their meaning", &["word", "meaning"]);
    for (i, (word, meaning)) in WORDS.iter().enumerate() {
        table.rows.push(vec![
            Cell::anchored(&format!("word-{}", i + 1), *word),
            Cell::text(*meaning),
        ]);
    }
    page(
        "glossary.html",
        "Words",
        "What the words of this dossier mean, for a reader who is new to the trade.",
        vec![Section::new("words", "From A to Z").table(table)],
    )
}

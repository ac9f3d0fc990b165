//! What a person must look at.

use super::{place::Place, words};

/// How much a finding weighs.
#[derive(Copy, Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Severity {
    /// Nothing is released while it stands.
    Blocks,
    /// A deviation or a signed note must explain it; then it passes.
    Explain,
    /// Worth knowing.
    Note,
}

impl Severity {
    /// In words, in English: what machines read.
    pub fn words(self) -> &'static str {
        match self {
            Severity::Blocks => word!("blocks release"),
            Severity::Explain => word!("must be explained"),
            Severity::Note => word!("note"),
        }
    }

    /// In words, in the language of the run.
    pub fn said(self) -> &'static str {
        words::of(self.words())
    }

    /// A word for machines and style sheets.
    pub fn key(self) -> &'static str {
        match self {
            Severity::Blocks => "blocks",
            Severity::Explain => "explain",
            Severity::Note => "note",
        }
    }
}

/// The longest message, in bytes; whoever quotes more says no more by it.
pub const MAX_MESSAGE: usize = 4096;

fn bounded(mut text: String) -> String {
    if text.len() > MAX_MESSAGE {
        text.truncate(text.floor_char_boundary(MAX_MESSAGE));
        text.push('…');
    }
    text
}

/// One thing that a person must look at: what is wrong, where, and what to do next.
#[derive(Clone, Debug, PartialEq)]
pub struct Finding {
    /// The rule that says so, `R01` to `R89`.
    pub rule: &'static str,
    /// How much it weighs.
    pub severity: Severity,
    /// What was found and what was expected, with the numbers.
    pub message: String,
    /// The next step.
    pub advice: String,
    /// Where it was written, when it was written anywhere.
    pub place: Option<Place>,
    /// The things it is about (element, lot, record or instrument ids), most particular first.
    pub about: Vec<String>,
}

impl Finding {
    /// A finding without a place yet.
    pub fn new(rule: &'static str, severity: Severity, message: impl Into<String>) -> Finding {
        Finding {
            rule,
            severity,
            message: bounded(message.into()),
            advice: String::new(),
            place: None,
            about: Vec::new(),
        }
    }

    /// Says what to do next.
    pub fn advise(mut self, advice: impl Into<String>) -> Finding {
        self.advice = bounded(advice.into());
        self
    }

    /// Says where.
    pub fn at(mut self, place: Place) -> Finding {
        self.place = Some(place);
        self
    }

    /// Names a thing that it is about.
    pub fn about(mut self, id: impl Into<String>) -> Finding {
        self.about.push(id.into());
        self
    }

    /// The same of several things.
    pub fn about_all(mut self, ids: &[&str]) -> Finding {
        self.about.extend(ids.iter().map(ToString::to_string));
        self
    }

    /// The order in which findings are listed: weight, rule, place, words.
    pub fn sort_key(&self) -> (Severity, &'static str, Option<&Place>, &str) {
        (self.severity, self.rule, self.place.as_ref(), &self.message)
    }
}

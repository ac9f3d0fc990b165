//! What a reader does not see, and what no person put there.

/// Where a text first has a character that nobody sees or that turns the order of what stands around it:
/// control characters, separators of Unicode's own, invisible blanks and joiners, marks and overrides of
/// direction, tags, private use. Two names that differ in one of them look alike.
pub fn unseen(text: &str, tabs: bool) -> Option<usize> {
    // Every one of them has one of these bytes; most files have none.
    let suspect = |&b: &u8| {
        (b < 0x20 && b != b'\n' && b != b'\r')
            || matches!(b, 0x7f | 0xc2 | 0xd8 | 0xe1 | 0xe2 | 0xee | 0xef | 0xf3)
    };
    let odd = |c: char| {
        (c.is_control() && c != '\n' && c != '\r' && !(tabs && c == '\t'))
            || matches!(c,
                '\u{ad}' | '\u{61c}' | '\u{180e}' | '\u{200b}'..='\u{200f}' | '\u{2028}'..='\u{202e}'
                | '\u{2060}'..='\u{206f}' | '\u{e000}'..='\u{f8ff}' | '\u{feff}' | '\u{fff9}'..='\u{fffb}'
                | '\u{e0000}'..='\u{e007f}')
    };
    match text.as_bytes().iter().any(suspect) {
        true => text.find(odd),
        false => None,
    }
}

/// A name as it can be printed: a character that nobody sees or that moves what stands around it is written out.
pub fn printable(name: &str) -> std::borrow::Cow<'_, str> {
    let odd = |c: char| c.is_control() || unseen(c.encode_utf8(&mut [0; 4]), false).is_some();
    match name.contains(odd) {
        false => name.into(),
        true => name
            .chars()
            .map(|c| match odd(c) {
                true => c.escape_unicode().to_string(),
                false => c.to_string(),
            })
            .collect::<String>()
            .into(),
    }
}

/// What systems leave on a stick by themselves (common practice, no source).
const DROPPINGS: &[&str] = &[
    "System Volume Information",
    ".DS_Store",
    "Thumbs.db",
    "desktop.ini",
    ".Trashes",
    ".Spotlight-V100",
    ".fseventsd",
];

/// Whether a name is that of what a system leaves on a stick.
pub fn dropped(name: &str) -> bool {
    DROPPINGS.contains(&name) || name.starts_with("._")
}

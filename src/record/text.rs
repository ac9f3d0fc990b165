//! What text a file may have before anybody looks at what it means.

use std::borrow::Cow;

use super::yaml::Problem;
use crate::ground::{place::Spot, seen::unseen};

/// The largest file that is read, in bytes.
pub const MAX_FILE: usize = 256 << 20;

/// The longest line of a record file, in bytes: a reader of YAML keeps much of a line in mind.
pub const MAX_LINE: usize = 4 << 20;

/// The text with every such character named instead.
pub fn visible(text: &str) -> Cow<'_, str> {
    let (mut out, mut rest) = (String::new(), text);
    while let Some(at) = unseen(rest, true) {
        let c = rest[at..].chars().next().unwrap_or(' ');
        out.push_str(&rest[..at]);
        out.push_str(&format!("⟨U+{:04X}⟩", c as u32));
        rest = &rest[at + c.len_utf8()..];
    }
    match out.is_empty() {
        true => Cow::Borrowed(text),
        false => Cow::Owned(out + rest),
    }
}

/// The bytes of a table with every line ended by a line feed alone: a reader of CSV counts the line of a row too low
/// where the return before it is still to be read.
pub fn lines_alike(bytes: &[u8]) -> Cow<'_, [u8]> {
    match bytes.contains(&b'\r') {
        false => Cow::Borrowed(bytes),
        true => {
            let mut out = Vec::with_capacity(bytes.len());
            for (at, byte) in bytes.iter().enumerate() {
                if !(*byte == b'\r' && bytes.get(at + 1) == Some(&b'\n')) {
                    out.push(*byte);
                }
            }
            Cow::Owned(out)
        }
    }
}

/// A chapter or a table that pages show as it stands, where somebody could hide something in it.
///
/// # Errors
/// Text that is not UTF-8, or has a character that nobody sees.
pub fn shown(bytes: &[u8]) -> Result<(), Problem> {
    let text = utf8(bytes)?;
    match unseen(text, true) {
        Some(at) => Err(hidden(text, at)),
        None => Ok(()),
    }
}

fn spot_of(upto: &str) -> Spot {
    Spot {
        line: upto.matches('\n').count() as u32 + 1,
        column: upto.rsplit('\n').next().unwrap_or("").chars().count() as u32 + 1,
    }
}

fn utf8(bytes: &[u8]) -> Result<&str, Problem> {
    let text = std::str::from_utf8(bytes).map_err(|_| {
        let good = bytes.utf8_chunks().next().map_or("", |chunk| chunk.valid());
        Problem::new(
            spot_of(good),
            say!("is not UTF-8 from here on"),
            say!("Save the file again with the encoding UTF-8."),
        )
    })?;
    Ok(text.strip_prefix('\u{feff}').unwrap_or(text))
}

fn hidden(text: &str, at: usize) -> Problem {
    let c = text[at..].chars().next().unwrap_or(' ');
    let (message, advice) = match c {
        '\t' => (
            say!("has a tab character here").to_owned(),
            say!("Use blanks."),
        ),
        _ => (
            say!(
                "has the unseen character U+{u32} here",
                u32 = format_args!("{:04X}", c as u32)
            ),
            say!("Delete it."),
        ),
    };
    Problem::new(spot_of(&text[..at]), message, advice)
}

/// The text of a record file.
///
/// # Errors
/// More than [`MAX_FILE`]; what is not UTF-8, or has a tab or a character that nobody sees.
pub fn plain(bytes: &[u8]) -> Result<&str, Problem> {
    if bytes.len() > MAX_FILE {
        return Err(Problem::new(
            Spot::default(),
            say!("is larger than {what} MiB", what = MAX_FILE >> 20),
            say!("Split it into several files; how records are spread over files means nothing."),
        ));
    }
    let text = utf8(bytes)?;
    let long = text.split('\n').position(|line| line.len() > MAX_LINE);
    if let Some(at) = long {
        return Err(Problem::new(
            Spot {
                line: at as u32 + 1,
                column: 1,
            },
            say!("has a line of more than {what} MiB", what = MAX_LINE >> 20),
            say!("Break it at commas and brackets."),
        ));
    }
    match unseen(text, false) {
        Some(at) => Err(hidden(text, at)),
        None => Ok(text),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// By name, from the Unicode character database (from memory).
    #[test]
    fn what_nobody_sees_is_found_and_named() {
        for c in [
            '\u{0}',
            '\u{7f}',
            '\u{85}',
            '\u{ad}',
            '\u{61c}',
            '\u{200b}',
            '\u{200d}',
            '\u{200f}',
            '\u{2028}',
            '\u{202e}',
            '\u{2060}',
            '\u{2066}',
            '\u{2069}',
            '\u{e000}',
            '\u{f8ff}',
            '\u{feff}',
            '\u{fffb}',
            '\u{e0041}',
        ] {
            let text = format!("1.5 ± 0.2 °C – a{c}b");
            assert_eq!(unseen(&text, false), text.find(c), "{c:?}");
            assert!(visible(&text).ends_with(&format!("a⟨U+{:04X}⟩b", c as u32)));
            assert!(shown(text.as_bytes()).is_err());
        }
        let plain = "Größe ≥ 1 µm, naïve café, 製品, Ω";
        assert_eq!(unseen(plain, false), None);
        assert_eq!(visible(plain), plain);
        assert_eq!(unseen("a\tb", false), Some(1));
        assert_eq!(unseen("a\tb", true), None);
        assert_eq!(shown(b"# a\r\n\tb\n"), Ok(()));
    }
}

//! Names that are safe as file names and anchors on every system, and words that are near.

use super::digest::Digest;

/// Device names that one family of systems keeps for itself, whatever the ending.
const RESERVED: &[&str] = &["con", "prn", "aux", "nul"];

/// Digits of a digest that stand behind a name.
const TAIL: usize = 8;

/// Turns an id from a record into `[a-z0-9_-]`, the same every time.
///
/// An id that would lose something on the way (upper case apart) gets a tail from its digest, so
/// that two ids never share a name: `A-1` becomes `a-1`, and `a-1` becomes `a-1-` with its tail.
pub fn safe(id: &str) -> String {
    let mut out: String = id
        .chars()
        .map(|c| match c.to_ascii_lowercase() {
            c @ ('a'..='z' | '0'..='9' | '-' | '_') => c,
            _ => '-',
        })
        .take(60)
        .collect();
    let device = RESERVED.contains(&out.as_str())
        || (out.len() == 4
            && (out.starts_with("com") || out.starts_with("lpt"))
            && out.ends_with(|c: char| c.is_ascii_digit()));
    let clean = out.to_ascii_uppercase() == id;
    // What ends as a tail does may be another id's name.
    let tailed = out.rsplit_once('-').is_some_and(|(_, tail)| {
        tail.len() == TAIL && tail.bytes().all(|byte| byte.is_ascii_hexdigit())
    });
    if device || !clean || tailed || out.is_empty() {
        out.push('-');
        out.push_str(&Digest::of(id.as_bytes()).to_string()[..TAIL]);
    }
    out
}

/// The word of a list that somebody probably meant, if one is near enough.
pub fn nearest<'a>(word: &str, list: impl IntoIterator<Item = &'a str>) -> Option<&'a str> {
    let (distance, best) = list
        .into_iter()
        // The distance is at least the difference in length.
        .filter(|known| known.len().abs_diff(word.len()) <= 4 + word.len() / 3)
        .map(|known| (strsim::damerau_levenshtein(word, known), known))
        .min()?;
    (distance <= 1 + word.chars().count() / 4).then_some(best)
}

/// A path below `data/`, made of names that every file system takes: a part that is safe already
/// stays as it is; any other gets a tail from its digest.
pub fn safe_path(path: &str) -> String {
    let part = |part: &str| {
        let plain = !part.is_empty()
            && part.len() <= 80
            && part
                .bytes()
                .all(|b| matches!(b, b'a'..=b'z' | b'0'..=b'9' | b'.' | b'_' | b'-'))
            && !part.starts_with('.')
            && !part.ends_with('.');
        let (stem, ending) = part.rsplit_once('.').unwrap_or((part, ""));
        let device = RESERVED.contains(&part.split('.').next().unwrap_or(""))
            || safe(&stem.to_ascii_uppercase()).len() != stem.len() && stem.len() == 4;
        if plain && !device {
            return part.to_owned();
        }
        let tail = &Digest::of(part.as_bytes()).to_string()[..8];
        let clean = |text: &str| -> String {
            text.chars()
                .map(|c| c.to_ascii_lowercase())
                .map(|c| {
                    if c.is_ascii_alphanumeric() || c == '-' || c == '_' {
                        c
                    } else {
                        '-'
                    }
                })
                .take(48)
                .collect()
        };
        match ending {
            "" => format!("{}-{tail}", clean(stem)),
            ending => format!("{}-{tail}.{}", clean(stem), clean(ending)),
        }
    };
    path.split('/').map(part).collect::<Vec<_>>().join("/")
}

/// Where the copy of a source file lies below `data/`.
pub fn copy_path(name: &str) -> String {
    format!("records/{}", safe_path(name))
}

/// With a capital letter at its head.
pub fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or(String::new(), |first| {
        first.to_uppercase().chain(letters).collect()
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn two_ids_never_share_a_name() {
        let ids = [
            "A-1", "a-1", "A 1", "A/1", "A_1", "Ä-1", "aux", "AUX", "com1", "", "A-1 ",
        ];
        let mut names: Vec<String> = ids.iter().map(|id| safe(id)).collect();
        names.sort();
        names.dedup();
        assert_eq!(names.len(), ids.len());
        assert_eq!(safe("A-26-0771"), "a-26-0771");
        // Not even one that is written as the name of another.
        let name = safe("sl-x");
        assert_ne!(safe(&name.to_ascii_uppercase()), name);
    }

    #[test]
    fn a_misspelt_word_finds_its_neighbour() {
        assert_eq!(
            nearest("upstream_volum", ["upstream_volume", "trace"]),
            Some("upstream_volume")
        );
        assert_eq!(nearest("colour", ["upstream_volume", "trace"]), None);
    }
}

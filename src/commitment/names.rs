//! Names that are looked for in the bytes of records.

use std::{collections::HashMap, sync::OnceLock};

use aho_corasick::AhoCorasick;

/// Words that may be ids: runs of letters, digits and the marks of ids, each also in its parts between slashes.
pub fn tokens(bytes: &[u8]) -> impl Iterator<Item = &str> {
    let mark = |byte: &u8| byte.is_ascii_alphanumeric() || b"-_./".contains(byte) || *byte >= 0x80;
    bytes
        .split(move |byte| !mark(byte))
        .filter_map(|run| std::str::from_utf8(run).ok())
        .map(|run| run.trim_matches(['.', '-', '/']))
        .filter(|run| !run.is_empty())
        .flat_map(|run| {
            let parts = run.contains('/').then(|| run.split('/'));
            std::iter::once(run).chain(parts.into_iter().flatten())
        })
}

/// Names to look for in bytes, each with what it stands for.
pub struct Names<T> {
    plain: HashMap<String, Vec<T>>,
    /// For each first byte of a plain name the lengths that such names have, one bit each, all from 63 on one bit: most
    /// words of a record are numbers, and are passed over without a look into the table.
    lengths: Vec<u64>,
    /// Names with marks that no token has are looked for as they are.
    odd: Vec<(String, T)>,
    /// Finds all of those in one pass; nothing where there are more than it takes. Built when it is first asked.
    automaton: OnceLock<Option<AhoCorasick>>,
}

impl<T> Default for Names<T> {
    fn default() -> Names<T> {
        Names {
            plain: HashMap::new(),
            lengths: vec![0; 256],
            odd: Vec::new(),
            automaton: OnceLock::new(),
        }
    }
}

/// The first byte of a word, and its length as one bit of 64.
fn outline(word: &str) -> (usize, u64) {
    let first = word.bytes().next().map_or(0, usize::from);
    (first, 1 << word.len().min(63))
}

impl<T> Names<T> {
    /// Adds a name; an empty one stands for nothing.
    pub fn add(&mut self, name: &str, of: T) {
        if name.is_empty() {
            return;
        }
        if tokens(name.as_bytes()).next() == Some(name) {
            let (first, length) = outline(name);
            self.lengths
                .get_mut(first)
                .into_iter()
                .for_each(|own| *own |= length);
            self.plain.entry(name.to_owned()).or_default().push(of);
        } else {
            self.odd.push((name.to_owned(), of));
            self.automaton = OnceLock::new();
        }
    }

    /// What a token stands for.
    fn meaning(&self, token: &str) -> Option<&Vec<T>> {
        let (first, length) = outline(token);
        let known = self.lengths.get(first).is_some_and(|own| own & length != 0);
        known.then(|| self.plain.get(token))?
    }

    /// The places of the odd names in some bytes, each once.
    fn odd(&self, bytes: &[u8]) -> Vec<usize> {
        if self.odd.is_empty() {
            return Vec::new();
        }
        let automaton = self
            .automaton
            .get_or_init(|| AhoCorasick::new(self.odd.iter().map(|(name, _)| name)).ok());
        let mut found: Vec<usize> = match automaton {
            Some(all) => {
                let hits = all.find_overlapping_iter(bytes);
                hits.map(|hit| hit.pattern().as_usize()).collect()
            }
            None => {
                let stands = |name: &str| {
                    let mut windows = bytes.windows(name.len());
                    windows.any(|window| window == name.as_bytes())
                };
                let all = self.odd.iter().enumerate();
                all.filter(|(_, (name, _))| stands(name))
                    .map(|(place, _)| place)
                    .collect()
            }
        };
        found.sort_unstable();
        found.dedup();
        found
    }

    /// Everything whose name stands in some bytes.
    pub fn within<'a>(&'a self, bytes: &'a [u8]) -> impl Iterator<Item = &'a T> {
        let odd = self.odd(bytes).into_iter();
        let odd = odd.filter_map(|place| self.odd.get(place));
        tokens(bytes)
            .filter_map(|token| self.meaning(token))
            .flatten()
            .chain(odd.map(|(_, of)| of))
    }
}

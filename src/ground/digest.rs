//! SHA-256 digests (FIPS 180-4).

use std::fmt;

use sha2::{Digest as _, Sha256};

/// A SHA-256 digest.
#[derive(Copy, Clone, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Digest(pub [u8; 32]);

impl Digest {
    /// The digest of some bytes.
    pub fn of(bytes: &[u8]) -> Digest {
        Digest(Sha256::digest(bytes).into())
    }

    /// Reads 64 hexadecimal digits, with or without a leading `sha256:`.
    pub fn parse(text: &str) -> Option<Digest> {
        let hex = text.strip_prefix("sha256:").unwrap_or(text);
        if hex.len() != 64 || !hex.bytes().all(|b| b.is_ascii_hexdigit()) {
            return None;
        }
        let mut out = [0; 32];
        for (byte, pair) in out.iter_mut().zip(hex.as_bytes().chunks(2)) {
            *byte = u8::from_str_radix(std::str::from_utf8(pair).ok()?, 16).ok()?;
        }
        Some(Digest(out))
    }

    /// The first digits, for a running head.
    pub fn short(&self) -> String {
        self.to_string()[..12].to_owned()
    }
}

impl fmt::Display for Digest {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0.iter().try_for_each(|byte| write!(f, "{byte:02x}"))
    }
}

impl fmt::Debug for Digest {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        fmt::Display::fmt(self, f)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_published_digest_of_abc_comes_out() {
        // FIPS 180-4 example "abc" (published by NIST with the standard's examples).
        let abc = "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad";
        assert_eq!(Digest::of(b"abc").to_string(), abc);
        assert_eq!(Digest::parse(abc), Some(Digest::of(b"abc")));
        assert_eq!(Digest::parse("ba78"), None);
    }
}

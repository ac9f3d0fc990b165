//! The tree hash of RFC 9162, 2.1.1, over SHA-256: one number for a list of entries, of which any part can be
//! withheld as the number of its own.

use sha2::{Digest as _, Sha256};

use crate::ground::digest::Digest;

/// The hash of an entry: what is hashed begins with a zero byte, so that no entry can pass for a node.
pub fn leaf(entry: &[u8]) -> Digest {
    let mut hasher = Sha256::new();
    hasher.update([0]);
    hasher.update(entry);
    Digest(hasher.finalize().into())
}

fn node(left: Digest, right: Digest) -> Digest {
    let mut hasher = Sha256::new();
    hasher.update([1]);
    hasher.update(left.0);
    hasher.update(right.0);
    Digest(hasher.finalize().into())
}

/// The head of a tree over the hashes of its entries, in their order.
pub fn head(leaves: &[Digest]) -> Digest {
    match leaves {
        [] => Digest::of(b""),
        [one] => *one,
        _ => {
            // The largest power of two that leaves something for the right side.
            let (left, right) = leaves.split_at(leaves.len().next_power_of_two() / 2);
            node(head(left), head(right))
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Entries and heads that are published with the reference implementation of Certificate Transparency, the
    /// protocol of RFC 9162; `tests/bag.py` computes such heads a second time.
    #[test]
    fn the_published_heads_come_out() {
        let entries: [&[u8]; 8] = [
            b"",
            b"\x00",
            b"\x10",
            b"\x20\x21",
            b"\x30\x31",
            b"\x40\x41\x42\x43",
            b"\x50\x51\x52\x53\x54\x55\x56\x57",
            b"\x60\x61\x62\x63\x64\x65\x66\x67\x68\x69\x6a\x6b\x6c\x6d\x6e\x6f",
        ];
        let heads = [
            "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855",
            "6e340b9cffb37a989ca544e6bb780a2c78901d3fb33738768511a30617afa01d",
            "fac54203e7cc696cf0dfcb42c92a1d9dbaf70ad9e621f4bd8d98662f00e3c125",
            "aeb6bcfe274b70a14fb067a5e5578264db0fa9b51af5e0ba159158f329e06e77",
            "d37ee418976dd95753c1c73862b9398fa2a2cf9b4ff0fdfe8b30cd95209614b7",
            "4e3bbb1f7b478dcfe71fb631631519a3bca12c9aefca1612bfce4c13a86264d4",
            "76e67dadbcdf1e10e1b74ddc608abd2f98dfb16fbce75277b5232a127f2087ef",
            "ddb89be403809e325750d3d263cd78929c2942b7942a34b77e122c9594a74c8c",
            "5dc9da79a70659a9ad559cb701ded9a2ab9d823aad2f4960cfe370eff4604328",
        ];
        let leaves: Vec<Digest> = entries.iter().map(|entry| leaf(entry)).collect();
        for (n, expected) in heads.iter().enumerate() {
            assert_eq!(head(&leaves[..n]).to_string(), *expected, "{n} entries");
        }
    }
}

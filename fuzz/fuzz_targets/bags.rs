//! Any folder that calls itself a bag: its files in a fixed order, with zero bytes between them.
#![no_main]

use std::{fs, path::PathBuf};

use libfuzzer_sys::fuzz_target;
use sealfolio::seal;

const NAMES: &[&str] = &[
    "bagit.txt",
    "bag-info.txt",
    "manifest-sha256.txt",
    "manifest-sha512.txt",
    "manifest-md5.txt",
    "tagmanifest-sha256.txt",
    "fetch.txt",
    "data/a",
    "data/b c",
    "other.txt",
];

fn place() -> PathBuf {
    let place = std::env::temp_dir().join(format!("sealfolio-bags-{}", std::process::id()));
    fs::create_dir_all(place.join("data")).expect("a folder");
    place
}

fuzz_target!(|data: &[u8]| {
    let root = place();
    let mut parts = data.split(|b| *b == 0);
    for name in NAMES {
        match parts.next() {
            Some(bytes) if !bytes.is_empty() => fs::write(root.join(name), bytes).expect("written"),
            _ => {
                let _ = fs::remove_file(root.join(name));
            }
        }
    }
    if let Ok(whole) = seal::whole(&root) {
        // What holds has a declaration and a list of every file.
        assert!(!whole.holds() || (root.join("bagit.txt").exists() && seal::is_bag(&root)));
        for difference in &whole.differences {
            assert!(!difference.words().is_empty());
        }
    }
});

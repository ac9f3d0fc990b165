//! Any folder that calls itself a bag: its files in a fixed order, with zero bytes between them.
#![no_main]

use std::{cell::RefCell, fs, path::PathBuf};

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

/// The folder, and what each file holds: only what differs from the case before is written.
struct Written {
    root: PathBuf,
    files: Vec<Vec<u8>>,
}

thread_local! {
    static WRITTEN: RefCell<Written> = RefCell::new(Written::new());
}

impl Written {
    fn new() -> Written {
        let root = std::env::temp_dir().join(format!("sealfolio-bags-{}", std::process::id()));
        fs::create_dir_all(root.join("data")).expect("a folder");
        Written {
            root,
            files: vec![Vec::new(); NAMES.len()],
        }
    }

    /// An empty part is a file that is not there.
    fn put(&mut self, data: &[u8]) {
        let mut parts = data.split(|b| *b == 0);
        for (name, old) in NAMES.iter().zip(&mut self.files) {
            let new = parts.next().unwrap_or_default();
            if old != new && new.is_empty() {
                fs::remove_file(self.root.join(name)).expect("removed");
            } else if old != new {
                fs::write(self.root.join(name), new).expect("written");
            }
            *old = new.to_vec();
        }
    }
}

fuzz_target!(|data: &[u8]| {
    let root = WRITTEN.with_borrow_mut(|written| {
        written.put(data);
        written.root.clone()
    });
    if let Ok(whole) = seal::whole(&root) {
        // What holds has a declaration and a list of every file.
        assert!(!whole.holds() || (root.join("bagit.txt").exists() && seal::is_bag(&root)));
        for difference in &whole.differences {
            assert!(!difference.words().is_empty());
        }
    }
});

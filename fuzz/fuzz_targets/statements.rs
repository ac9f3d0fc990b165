//! A statement, its signature, a time stamp and a list of who may sign, with zero bytes between them: nothing that was made up holds.
#![no_main]

use std::{cell::RefCell, fs, path::PathBuf};

use libfuzzer_sys::fuzz_target;
use sealfolio::approval::{self, Signers, stamp};

const NAMES: &[&str] = &[
    "01-prepared.json",
    "01-prepared.json.sig",
    "01-prepared.json.sig.tsr",
];

/// The folder, and what each file holds: only what differs from the case before is written.
struct Written {
    root: PathBuf,
    files: Vec<Option<Vec<u8>>>,
}

thread_local! {
    static WRITTEN: RefCell<Written> = RefCell::new(Written::new());
}

impl Written {
    fn new() -> Written {
        let root =
            std::env::temp_dir().join(format!("sealfolio-statements-{}", std::process::id()));
        fs::create_dir_all(root.join("signatures")).expect("a folder");
        Written {
            root,
            files: vec![None; NAMES.len()],
        }
    }
}

fuzz_target!(|data: &[u8]| {
    let mut parts = data.split(|b| *b == 0);
    let root = WRITTEN.with_borrow_mut(|written| {
        for (name, old) in NAMES.iter().zip(&mut written.files) {
            let new = parts.next().unwrap_or_default();
            if old.as_deref() != Some(new) {
                fs::write(written.root.join("signatures").join(name), new).expect("written");
                *old = Some(new.to_vec());
            }
        }
        written.root.clone()
    });
    let signers = Signers::read(&String::from_utf8_lossy(parts.next().unwrap_or_default())).ok();
    let _ = stamp::time(data, b"anything");
    let digest = format!("sha256:{}", "0".repeat(64));
    let (found, _) = approval::check(&root, &digest, signers.as_ref()).expect("listed");
    for one in found {
        assert!(!one.flaws.is_empty(), "{}", one.file);
    }
});

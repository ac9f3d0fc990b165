//! A statement, its signature, a time stamp and a list of who may sign, with zero bytes between them: nothing that was made up holds.
#![no_main]

use std::fs;

use libfuzzer_sys::fuzz_target;
use sealfolio::approval::{self, Signers, stamp};

fuzz_target!(|data: &[u8]| {
    let root = std::env::temp_dir().join(format!("sealfolio-statements-{}", std::process::id()));
    let folder = root.join("signatures");
    fs::create_dir_all(&folder).expect("a folder");
    let mut parts = data.split(|b| *b == 0);
    for name in [
        "01-prepared.json",
        "01-prepared.json.sig",
        "01-prepared.json.sig.tsr",
    ] {
        fs::write(folder.join(name), parts.next().unwrap_or_default()).expect("written");
    }
    let signers = Signers::read(&String::from_utf8_lossy(parts.next().unwrap_or_default())).ok();
    let _ = stamp::time(data, b"anything");
    let digest = format!("sha256:{}", "0".repeat(64));
    let (found, _) = approval::check(&root, &digest, signers.as_ref()).expect("listed");
    for one in found {
        assert!(!one.flaws.is_empty(), "{}", one.file);
    }
});

//! A file of records, as somebody else may have written it: it is read or refused, at a place inside it.
#![no_main]

use std::collections::BTreeMap;

use libfuzzer_sys::fuzz_target;
use sealfolio::record::{folder::Folder, simple, text, yaml};

fuzz_target!(|data: &[u8]| {
    let lines = 1 + data.iter().filter(|b| **b == b'\n' || **b == b'\r').count() as u32;
    if let Err(problem) = yaml::documents(data) {
        assert!(problem.spot.line <= lines + 1, "{problem:?}");
        assert!(!problem.message.is_empty() && !problem.advice.is_empty());
    }
    if let Ok(text) = text::plain(data)
        && let Some(nodes) = simple::documents(text)
    {
        assert_eq!(yaml::by_two_readers(text), Ok(nodes));
    }
    let files = BTreeMap::from([("records.yaml".into(), data.to_vec())]);
    let folder = Folder::of(files, Vec::new());
    for finding in &folder.problems {
        assert!(
            !finding.message.is_empty() && !finding.advice.is_empty(),
            "{finding:?}"
        );
    }
});

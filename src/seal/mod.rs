//! The bag (RFC 8493) around a dossier: manifests, digest, and the check that a copy is whole.
//!
//! Knows nothing of records, so that an auditor can read it alone.

use std::collections::BTreeMap;

mod check;
mod write;

pub use check::{Difference, Whole, is_bag, whole};
pub use write::{Bag, Bagged, FAT_ENTRIES, Fresh, Kept, Sink, Trouble, bag, write};

/// File contents by path, in order.
pub type Files = BTreeMap<String, Vec<u8>>;

/// The declaration of a bag (RFC 8493, 2.1.1).
const DECLARATION: &str = "BagIt-Version: 1.0\nTag-File-Character-Encoding: UTF-8\n";
/// The payload manifest.
pub const MANIFEST: &str = "manifest-sha256.txt";
/// The manifest of the files beside the payload; its digest is the dossier's digest.
pub const TAG_MANIFEST: &str = "tagmanifest-sha256.txt";
#[cfg(test)]
mod tests {
    use std::fs;

    use super::*;

    fn small() -> (tempfile::TempDir, std::path::PathBuf) {
        let folder = tempfile::tempdir().unwrap();
        let payload = Files::from([
            ("index.html".into(), b"one".to_vec()),
            ("a/b.txt".into(), b"two".to_vec()),
        ]);
        let tags = Files::from([("START-HERE.html".into(), b"start".to_vec())]);
        let (files, digest) = bag(payload, tags, &[("Source-Organization", "Us".into())]);
        let target = folder.path().join("out");
        write(&files, &target).unwrap();
        assert_eq!(whole(&target).unwrap().digest, Some(digest));
        (folder, target)
    }

    #[test]
    fn a_fresh_bag_is_whole() {
        let (_folder, target) = small();
        let found = whole(&target).unwrap();
        assert!(found.holds(), "{:?}", found.differences);
        assert_eq!(found.good, 6);
    }

    #[test]
    fn every_way_of_damage_is_named() {
        let (_folder, target) = small();
        fs::write(target.join("data/index.html"), b"One").unwrap();
        fs::remove_file(target.join("data/a/b.txt")).unwrap();
        fs::write(target.join("data/c.txt"), b"").unwrap();
        fs::write(target.join("data/Thumbs.db"), b"x").unwrap();
        let found = whole(&target).unwrap();
        assert_eq!(
            found.differences,
            [
                Difference::Missing("data/a/b.txt".into()),
                Difference::Changed("data/index.html".into()),
                Difference::Extra("data/c.txt".into()),
                Difference::Dropping("data/Thumbs.db".into()),
            ]
        );
        assert!(!found.holds());
    }

    #[test]
    fn a_target_that_exists_is_never_written_over() {
        let (_folder, target) = small();
        let (message, _) = write(&Files::from([("x".into(), Vec::new())]), &target).unwrap_err();
        assert!(message.ends_with("exists already"));
        assert!(whole(&target).unwrap().holds());
    }
}

//! The bag (RFC 8493) around a dossier: manifests, digest, and the check that a copy is whole.
//!
//! Knows nothing of records, so that an auditor can read it alone.

use std::{
    collections::{BTreeMap, BTreeSet},
    fs, io,
    path::Path,
};

use rayon::prelude::*;

use crate::ground::digest::Digest;

mod check;

pub use check::{Difference, Whole, is_bag, whole};

/// File contents by path, in order.
pub type Files = BTreeMap<String, Vec<u8>>;

/// The declaration of a bag (RFC 8493, 2.1.1).
const DECLARATION: &str = "BagIt-Version: 1.0\nTag-File-Character-Encoding: UTF-8\n";
/// The payload manifest.
pub const MANIFEST: &str = "manifest-sha256.txt";
/// The manifest of the files beside the payload; its digest is the dossier's digest.
pub const TAG_MANIFEST: &str = "tagmanifest-sha256.txt";
fn manifest(digests: &BTreeMap<String, Digest>) -> String {
    digests
        .iter()
        .map(|(path, digest)| format!("{digest}  {path}\n"))
        .collect()
}

fn digests(files: &Files) -> BTreeMap<String, Digest> {
    files
        .par_iter()
        .map(|(path, bytes)| (path.clone(), Digest::of(bytes)))
        .collect::<Vec<_>>()
        .into_iter()
        .collect()
}

/// Puts payload and tag files into a bag; returns all files and the dossier's digest.
///
/// `info` are the lines of `bag-info.txt`; each value is one line.
pub fn bag(payload: Files, mut tags: Files, info: &[(&str, String)]) -> (Files, Digest) {
    let bytes: usize = payload.values().map(Vec::len).sum();
    let mut lines: String = info
        .iter()
        .map(|(name, value)| format!("{name}: {}\n", value.replace(['\n', '\r'], " ")))
        .collect();
    lines.push_str(&format!("Payload-Oxum: {bytes}.{}\n", payload.len()));
    let payload: Files = payload
        .into_iter()
        .map(|(path, bytes)| (format!("data/{path}"), bytes))
        .collect();
    tags.insert("bagit.txt".into(), DECLARATION.into());
    tags.insert("bag-info.txt".into(), lines.into_bytes());
    tags.insert(MANIFEST.into(), manifest(&digests(&payload)).into_bytes());
    let tag_manifest = manifest(&digests(&tags));
    let digest = Digest::of(tag_manifest.as_bytes());
    tags.insert(TAG_MANIFEST.into(), tag_manifest.into_bytes());
    tags.extend(payload);
    (tags, digest)
}

/// Writes a bag beside its target and renames it into place: the target is there whole, or not.
///
/// # Errors
/// In words, with what to do; the target is then as it was.
pub fn write(files: &Files, target: &Path) -> Result<(), (String, String)> {
    let fail = |what: &str, error: &io::Error| {
        (
            format!("{what}: {}", error.kind()),
            "Nothing was changed. Look at free space and rights, or name another place.".to_owned(),
        )
    };
    if target.symlink_metadata().is_ok() {
        return Err((
            format!("{} exists already", target.display()),
            "Name another place, or move it away first; a compiled dossier is never written over."
                .into(),
        ));
    }
    let parent = match target.parent() {
        Some(parent) if !parent.as_os_str().is_empty() => parent,
        _ => Path::new("."),
    };
    if !parent.is_dir() {
        return Err((
            format!("{} is not a folder", parent.display()),
            "Make it first, or name another place.".into(),
        ));
    }
    let fresh = tempfile::Builder::new()
        .prefix(".sealfolio-")
        .tempdir_in(parent)
        .map_err(|error| fail(&format!("cannot write in {}", parent.display()), &error))?;
    let folders: BTreeSet<&str> = files
        .keys()
        .filter_map(|path| path.rsplit_once('/').map(|(folder, _)| folder))
        .collect();
    for folder in folders {
        fs::create_dir_all(fresh.path().join(folder))
            .map_err(|error| fail("cannot make a folder", &error))?;
    }
    files.par_iter().try_for_each(|(path, bytes)| {
        fs::write(fresh.path().join(path), bytes)
            .map_err(|error| fail(&format!("cannot write {path}"), &error))
    })?;
    // One flush a dossier, not one a file: the manifest is flushed last, then the folder.
    let flush = |path: &Path| fs::File::open(path).and_then(|file| file.sync_all());
    flush(&fresh.path().join(TAG_MANIFEST)).map_err(|error| fail("cannot flush", &error))?;
    #[cfg(unix)]
    {
        use std::os::unix::fs::PermissionsExt as _;
        fs::set_permissions(fresh.path(), fs::Permissions::from_mode(0o755))
            .map_err(|error| fail("cannot set rights", &error))?;
    }
    fs::rename(fresh.path(), target).map_err(|error| {
        fail(
            &format!("cannot move the finished dossier to {}", target.display()),
            &error,
        )
    })?;
    // The folder has its new name: there is nothing left to remove.
    let _ = fresh.keep();
    flush(parent).ok();
    Ok(())
}

#[cfg(test)]
mod tests {
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

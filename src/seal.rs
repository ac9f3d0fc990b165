//! The bag (RFC 8493) around a dossier: manifests, digest, and the check that a copy is whole.
//!
//! Knows nothing of records, so that an auditor can read it alone.

use std::{
    collections::{BTreeMap, BTreeSet},
    fs, io,
    path::Path,
};

use rayon::prelude::*;
use walkdir::WalkDir;

use crate::ground::digest::Digest;

/// File contents by path, in order.
pub type Files = BTreeMap<String, Vec<u8>>;

/// The declaration of a bag (RFC 8493, 2.1.1).
const DECLARATION: &str = "BagIt-Version: 1.0\nTag-File-Character-Encoding: UTF-8\n";
/// The payload manifest.
pub const MANIFEST: &str = "manifest-sha256.txt";
/// The manifest of the files beside the payload; its digest is the dossier's digest.
pub const TAG_MANIFEST: &str = "tagmanifest-sha256.txt";
/// What systems leave on a stick by themselves (common practice, no source).
const DROPPINGS: &[&str] = &[
    "System Volume Information",
    ".DS_Store",
    "Thumbs.db",
    "desktop.ini",
    ".Trashes",
    ".Spotlight-V100",
    ".fseventsd",
];

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

/// One way in which a copy differs from its list.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Difference {
    /// Listed and not there.
    Missing(String),
    /// There with other bytes.
    Changed(String),
    /// There and not listed.
    Extra(String),
    /// Left by a system on a stick; not part of the dossier.
    Dropping(String),
    /// A list or declaration that cannot be used.
    Broken(String, String),
}

impl Difference {
    /// Whether it speaks against the copy.
    pub fn counts(&self) -> bool {
        !matches!(self, Difference::Dropping(_))
    }

    /// The file that it speaks of.
    pub fn path(&self) -> &str {
        match self {
            Difference::Missing(path)
            | Difference::Changed(path)
            | Difference::Extra(path)
            | Difference::Dropping(path)
            | Difference::Broken(path, _) => path,
        }
    }

    /// In words.
    pub fn words(&self) -> String {
        match self {
            Difference::Missing(path) => format!("missing: {path} is listed and not there"),
            Difference::Changed(path) => {
                format!("changed: {path} has other bytes than those that were listed")
            }
            Difference::Extra(path) => format!("extra: {path} is there and not listed"),
            Difference::Dropping(path) => {
                format!("not part of the dossier: {path} (left by an operating system)")
            }
            Difference::Broken(path, why) => format!("unusable: {path} {why}"),
        }
    }
}

/// What checking a copy gave.
#[derive(Debug)]
pub struct Whole {
    /// Files that are as listed.
    pub good: usize,
    /// Every difference, in order.
    pub differences: Vec<Difference>,
    /// The dossier's digest, when its tag manifest is there.
    pub digest: Option<Digest>,
}

impl Whole {
    /// Whether nothing speaks against the copy.
    pub fn holds(&self) -> bool {
        self.differences
            .iter()
            .all(|difference| !difference.counts())
    }
}

/// Reads a manifest: digest, blanks, path a line (RFC 8493, 2.1.3).
fn listed(name: &str, text: &str, differences: &mut Vec<Difference>) -> BTreeMap<String, Digest> {
    let mut out = BTreeMap::new();
    let mut broken = |line: usize, why: &str| {
        differences.push(Difference::Broken(
            name.into(),
            format!("line {line} {why}"),
        ))
    };
    for (n, line) in (1..).zip(text.lines()) {
        let Some((digest, path)) = line.split_once([' ', '\t']) else {
            broken(n, "is not a digest and a path");
            continue;
        };
        let path = path.trim_start_matches([' ', '\t', '*']);
        match Digest::parse(digest) {
            _ if path.is_empty()
                || path.starts_with('/')
                || path.split(['/', '\\']).any(|part| part == "..") =>
            {
                broken(n, "names a path outside the bag")
            }
            None => broken(n, "does not begin with a SHA-256 digest"),
            Some(digest) => {
                if out.insert(path.to_owned(), digest).is_some() {
                    broken(n, "names a file a second time");
                }
            }
        }
    }
    out
}

/// Checks that a copy is whole: every listed file with its digest, and nothing else.
///
/// # Errors
/// When the folder cannot be read at all.
pub fn whole(root: &Path) -> io::Result<Whole> {
    let mut differences = Vec::new();
    let mut there = BTreeSet::new();
    for entry in WalkDir::new(root).sort_by_file_name() {
        let entry = entry?;
        if entry.file_type().is_dir() {
            continue;
        }
        let relative = entry.path().strip_prefix(root).unwrap_or(entry.path());
        let path = relative.to_string_lossy().replace('\\', "/");
        if path
            .split('/')
            .any(|part| DROPPINGS.contains(&part) || part.starts_with("._"))
        {
            differences.push(Difference::Dropping(path));
        } else if entry.file_type().is_symlink() {
            differences.push(Difference::Extra(path));
        } else {
            there.insert(path);
        }
    }
    let read = |path: &str| fs::read_to_string(root.join(path)).ok();
    match read("bagit.txt") {
        None => differences.push(Difference::Broken(
            "bagit.txt".into(),
            "is not there".into(),
        )),
        Some(text)
            if !text.starts_with("BagIt-Version: 1.0\nTag-File-Character-Encoding: UTF-8") =>
        {
            differences.push(Difference::Broken(
                "bagit.txt".into(),
                "is no declaration of BagIt 1.0".into(),
            ));
        }
        Some(_) => {}
    }
    let mut lists = BTreeMap::new();
    for name in [MANIFEST, TAG_MANIFEST] {
        match read(name) {
            None => differences.push(Difference::Broken(name.into(), "is not there".into())),
            Some(text) => lists.extend(listed(name, &text, &mut differences)),
        }
    }
    let results: Vec<Option<Difference>> = lists
        .par_iter()
        .map(|(path, digest)| {
            if !there.contains(path) {
                return Some(Difference::Missing(path.clone()));
            }
            match digest_of_file(&root.join(path)) {
                Ok(found) if found == *digest => None,
                _ => Some(Difference::Changed(path.clone())),
            }
        })
        .collect();
    let good = results.iter().filter(|result| result.is_none()).count();
    differences.extend(results.into_iter().flatten());
    // RFC 8493, 3: a payload file that no manifest names makes a bag incomplete; the same is asked
    // here of the files beside it, but for the tag manifest itself and later signatures.
    let unlisted = there.iter().filter(|path| {
        !lists.contains_key(*path) && *path != TAG_MANIFEST && !path.starts_with("signatures/")
    });
    differences.extend(unlisted.map(|path| Difference::Extra(path.clone())));
    differences.sort();
    differences.dedup();
    let digest = fs::read(root.join(TAG_MANIFEST))
        .ok()
        .map(|bytes| Digest::of(&bytes));
    Ok(Whole {
        good,
        differences,
        digest,
    })
}

fn digest_of_file(path: &Path) -> io::Result<Digest> {
    use sha2::{Digest as _, Sha256};
    let mut hasher = Sha256::new();
    let mut file = fs::File::open(path)?;
    let mut buffer = vec![0; 1 << 20];
    loop {
        match io::Read::read(&mut file, &mut buffer)? {
            0 => return Ok(Digest(hasher.finalize().into())),
            n => hasher.update(&buffer[..n]),
        }
    }
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

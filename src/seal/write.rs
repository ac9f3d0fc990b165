//! A bag is written file by file: nothing is held until the end but paths, digests and sizes.

use std::{
    collections::{BTreeMap, BTreeSet},
    fs,
    io::{self, Write as _},
    path::{Path, PathBuf},
    sync::Mutex,
};

use super::{DECLARATION, Files, MANIFEST, TAG_MANIFEST};
use crate::ground::{digest::Digest, interrupt};

/// What went wrong, and what to do.
pub type Trouble = (String, String);

/// Where the files of a bag go, one after the other, from several threads.
pub trait Sink: Sync {
    /// Takes one file; its path is below the bag's folder.
    ///
    /// # Errors
    /// When it cannot be kept: then no more need be brought.
    fn take(&self, path: &str, bytes: Vec<u8>) -> Result<(), Trouble>;
}

/// Keeps every file in memory.
#[derive(Default)]
pub struct Kept(Mutex<Files>);

impl Kept {
    /// The files.
    pub fn files(self) -> Files {
        self.0.into_inner().unwrap_or_default()
    }
}

impl Sink for Kept {
    fn take(&self, path: &str, bytes: Vec<u8>) -> Result<(), Trouble> {
        held(&self.0).insert(path.to_owned(), bytes);
        Ok(())
    }
}

/// What a lock guards. No thread panics while it holds one of these, and if one did, what it guards is a list of
/// whole entries all the same.
fn held<T>(lock: &Mutex<T>) -> std::sync::MutexGuard<'_, T> {
    lock.lock().unwrap_or_else(|broken| broken.into_inner())
}

/// A folder beside its target, which takes the target's name when all is written: the target is there whole, or not.
pub struct Fresh {
    folder: tempfile::TempDir,
    /// After the folder, so that an interruption is obeyed when that is gone or has its name.
    _held: interrupt::Held,
    target: PathBuf,
    made: Mutex<BTreeSet<String>>,
}

impl Fresh {
    /// Begins a folder beside the target; while it lives an interruption is waited for.
    ///
    /// # Errors
    /// When the target exists, or nothing can be written beside it.
    pub fn beside(target: &Path) -> Result<Fresh, Trouble> {
        if target.symlink_metadata().is_ok() {
            return Err((
                format!("{} exists already", target.display()),
                "Name another place, or move it away first; a compiled dossier is never written over."
                    .into(),
            ));
        }
        let parent = parent(target);
        if !parent.is_dir() {
            return Err((
                format!("{} is not a folder", parent.display()),
                "Make it first, or name another place.".into(),
            ));
        }
        let held = interrupt::hold();
        let folder = tempfile::Builder::new()
            .prefix(".sealfolio-")
            .tempdir_in(parent);
        let folder = folder
            .map_err(|error| fail(&format!("cannot write in {}", parent.display()), &error))?;
        Ok(Fresh {
            folder,
            _held: held,
            target: target.to_owned(),
            made: Mutex::default(),
        })
    }

    /// Gives the folder its name.
    ///
    /// # Errors
    /// When that cannot be done; nothing of it is left then.
    pub fn finish(self) -> Result<(), Trouble> {
        // What has the name of a dossier is all on the medium, should the power fail or the stick be pulled a moment later. One
        // flush of the file system, not one a file; elsewhere each file was flushed when it was written.
        #[cfg(target_os = "linux")]
        fs::File::open(self.folder.path())
            .and_then(|folder| Ok(rustix::fs::syncfs(folder)?))
            .map_err(|error| fail("cannot flush", &error))?;
        #[cfg(unix)]
        {
            use std::os::unix::fs::PermissionsExt as _;
            fs::set_permissions(self.folder.path(), fs::Permissions::from_mode(0o755))
                .map_err(|error| fail("cannot set rights", &error))?;
        }
        fs::rename(self.folder.path(), &self.target).map_err(|error| {
            fail(
                &format!(
                    "cannot move the finished dossier to {}",
                    self.target.display()
                ),
                &error,
            )
        })?;
        #[cfg(unix)]
        fs::File::open(parent(&self.target))
            .and_then(|folder| folder.sync_all())
            .ok();
        // The folder has its new name: there is nothing left to remove.
        let _ = self.folder.keep();
        Ok(())
    }
}

impl Sink for Fresh {
    fn take(&self, path: &str, bytes: Vec<u8>) -> Result<(), Trouble> {
        if interrupt::asked() {
            return Err((
                "stopped".into(),
                "Nothing was written, and nothing was left behind.".into(),
            ));
        }
        if let Some((folder, _)) = path.rsplit_once('/')
            && !held(&self.made).contains(folder)
        {
            fs::create_dir_all(self.folder.path().join(folder))
                .map_err(|error| fail("cannot make a folder", &error))?;
            held(&self.made).insert(folder.to_owned());
        }
        put(&self.folder.path().join(path), &bytes)
            .map_err(|error| fail(&format!("cannot write {path}"), &error))
    }
}

/// Writes a file; where the file system cannot be flushed as a whole ([`Fresh::finish`]), it is flushed too.
fn put(path: &Path, bytes: &[u8]) -> io::Result<()> {
    let mut file = fs::File::create(path)?;
    file.write_all(bytes)?;
    match cfg!(target_os = "linux") {
        true => Ok(()),
        false => file.sync_all(),
    }
}

fn parent(target: &Path) -> &Path {
    match target.parent() {
        Some(parent) if !parent.as_os_str().is_empty() => parent,
        _ => Path::new("."),
    }
}

fn fail(what: &str, error: &io::Error) -> Trouble {
    (
        format!("{what}: {}", error.kind()),
        "Nothing was changed. Look at free space and rights, or name another place.".to_owned(),
    )
}

/// Path → digest and bytes.
type Listed = BTreeMap<String, (Digest, u64)>;

/// A bag in the making: what was put in, by digest and size.
pub struct Bag<'s> {
    sink: &'s dyn Sink,
    payload: Mutex<Listed>,
}

/// Entries that a folder of a FAT32 file system has room for (its size is at most 2 MiB, an entry is 32 bytes), but
/// for its own two.
pub const FAT_ENTRIES: usize = 65_534;

/// The payload folder that takes most entries on FAT32, and how many: a long name takes one for each 13 characters and one more.
fn fullest(payload: &Listed) -> (String, usize) {
    let mut folders: BTreeMap<&str, usize> = BTreeMap::new();
    for path in payload.keys() {
        let (folder, name) = path.rsplit_once('/').unwrap_or(("", path));
        *folders.entry(folder).or_default() += 1 + name.len().div_ceil(13);
    }
    let most = folders.into_iter().max_by_key(|(_, entries)| *entries);
    most.map_or_else(Default::default, |(folder, entries)| {
        (folder.to_owned(), entries)
    })
}

/// A finished bag.
#[derive(Clone, Debug)]
pub struct Bagged {
    /// The dossier's digest.
    pub digest: Digest,
    /// Files, tag files too.
    pub files: usize,
    /// Their bytes.
    pub bytes: u64,
    /// The folder that takes most entries on FAT32, and how many.
    pub fullest: (String, usize),
}

impl<'s> Bag<'s> {
    /// An empty bag that brings its files there.
    pub fn new(sink: &'s dyn Sink) -> Bag<'s> {
        Bag {
            sink,
            payload: Mutex::default(),
        }
    }

    /// Puts a payload file in, at a path below `data/`.
    ///
    /// # Errors
    /// As the sink's; and when a file of this name was put in before, since one would be lost.
    pub fn put(&self, path: &str, bytes: Vec<u8>) -> Result<(), Trouble> {
        let path = format!("data/{path}");
        let entry = (Digest::of(&bytes), bytes.len() as u64);
        if held(&self.payload).insert(path.clone(), entry).is_some() {
            return Err((
                format!("{path} was to be written twice"),
                "Nothing was written: a fault of the program. Report it with the names in your records."
                    .into(),
            ));
        }
        self.sink.take(&path, bytes)
    }

    /// Adds the tag files and the manifests; `info` are the lines of `bag-info.txt`, each value one line.
    ///
    /// # Errors
    /// As the sink's.
    pub fn close(self, mut tags: Files, info: &[(&str, String)]) -> Result<Bagged, Trouble> {
        let payload = self.payload.into_inner().unwrap_or_default();
        let bytes: u64 = payload.values().map(|(_, bytes)| bytes).sum();
        let mut lines: String = info
            .iter()
            .map(|(name, value)| format!("{name}: {}\n", value.replace(['\n', '\r'], " ")))
            .collect();
        lines.push_str(&format!("Payload-Oxum: {bytes}.{}\n", payload.len()));
        tags.insert("bagit.txt".into(), DECLARATION.into());
        tags.insert("bag-info.txt".into(), lines.into_bytes());
        tags.insert(MANIFEST.into(), manifest(&payload).into_bytes());
        let listed: Listed = tags
            .iter()
            .map(|(path, bytes)| (path.clone(), (Digest::of(bytes), bytes.len() as u64)))
            .collect();
        let last = manifest(&listed).into_bytes();
        let digest = Digest::of(&last);
        tags.insert(TAG_MANIFEST.into(), last);
        let mut bagged = Bagged {
            digest,
            files: payload.len() + tags.len(),
            bytes,
            fullest: fullest(&payload),
        };
        for (path, content) in tags {
            bagged.bytes += content.len() as u64;
            self.sink.take(&path, content)?;
        }
        Ok(bagged)
    }
}

fn manifest(listed: &Listed) -> String {
    listed
        .iter()
        .map(|(path, (digest, _))| format!("{digest}  {path}\n"))
        .collect()
}

/// Puts payload and tag files that stand in memory into a bag; all its files, and the dossier's digest.
///
/// # Panics
/// Never: memory takes every file.
pub fn bag(payload: Files, tags: Files, info: &[(&str, String)]) -> (Files, Digest) {
    let kept = Kept::default();
    let bag = Bag::new(&kept);
    let put = payload
        .into_iter()
        .try_for_each(|(path, bytes)| bag.put(&path, bytes));
    let bagged = put.and_then(|()| bag.close(tags, info));
    let digest = bagged.map_or(Digest([0; 32]), |bagged| bagged.digest);
    (kept.files(), digest)
}

/// Writes the files of a bag that stands in memory.
///
/// # Errors
/// In words, with what to do; the target is then as it was.
pub fn write(files: &Files, target: &Path) -> Result<(), Trouble> {
    let fresh = Fresh::beside(target)?;
    for (path, bytes) in files {
        fresh.take(path, bytes.clone())?;
    }
    fresh.finish()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_file_takes_the_place_of_another() {
        let kept = Kept::default();
        let bag = Bag::new(&kept);
        bag.put("a.html", b"one".to_vec()).unwrap();
        assert!(
            bag.put("a.html", b"two".to_vec())
                .unwrap_err()
                .0
                .contains("a.html")
        );
        assert_eq!(kept.files()["data/a.html"], b"one");
    }

    /// FAT32 File System Specification (Microsoft 2000, from memory): 13 characters of a long name an entry, and one entry of the old form.
    #[test]
    fn a_long_name_takes_an_entry_for_each_thirteen_characters() {
        let entry = (Digest([0; 32]), 1);
        let names = [
            "data/a/0123456789012",
            "data/a/01234567890123",
            "data/b/x",
            "data/y",
        ];
        let listed: Listed = names.map(|name| (name.to_owned(), entry)).into();
        assert_eq!(fullest(&listed), ("data/a".to_owned(), 2 + 3));
    }
}

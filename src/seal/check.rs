//! Whether a copy is whole: any bag of RFC 8493, and of a dossier also that nothing was added beside its payload.

use std::{
    collections::{BTreeMap, BTreeSet},
    fs, io,
    path::Path,
};

use encoding_rs::Encoding;
use md5::Md5;
use rayon::prelude::*;
use sha1::Sha1;
use sha2::{Digest as _, Sha224, Sha256, Sha384, Sha512, digest::DynDigest};
use unicode_normalization::UnicodeNormalization as _;
use walkdir::WalkDir;

use super::TAG_MANIFEST;
use crate::ground::plain::{contents, regular};
use crate::ground::{
    digest::Digest,
    seen::{dropped, printable},
};

/// The versions of bags whose rules are those of RFC 8493 or a subset of them.
const VERSIONS: &[&str] = &["0.93", "0.94", "0.95", "0.96", "0.97", "1.0"];

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
        // Whoever handed the copy over chose the names.
        let path = printable(self.path());
        match self {
            Difference::Missing(_) => {
                say!("missing: {path} is listed and not there", path = path)
            }
            Difference::Changed(_) => say!(
                "changed: {path} has other bytes than those that were listed",
                path = path
            ),
            Difference::Extra(_) => say!("extra: {path} is there and not listed", path = path),
            Difference::Dropping(_) => say!(
                "not part of the dossier: {path} (left by an operating system)",
                path = path
            ),
            Difference::Broken(_, why) => say!("unusable: {path} {why}", path = path, why = why),
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
    /// Whether it is a dossier of this program, and not another's bag.
    pub dossier: bool,
}

impl Whole {
    /// Whether nothing speaks against the copy.
    pub fn holds(&self) -> bool {
        self.differences
            .iter()
            .all(|difference| !difference.counts())
    }
}

/// The hash functions that manifests name (RFC 8493, 2.4, and those of older bags).
#[derive(Copy, Clone, PartialEq, Eq, PartialOrd, Ord)]
enum Function {
    Md5,
    Sha1,
    Sha224,
    Sha256,
    Sha384,
    Sha512,
}

impl Function {
    fn named(name: &str) -> Option<Function> {
        Some(match &*name.to_ascii_lowercase().replace('-', "") {
            "md5" => Function::Md5,
            "sha1" => Function::Sha1,
            "sha224" => Function::Sha224,
            "sha256" => Function::Sha256,
            "sha384" => Function::Sha384,
            "sha512" => Function::Sha512,
            _ => return None,
        })
    }

    fn hasher(self) -> Box<dyn DynDigest> {
        match self {
            Function::Md5 => Box::new(Md5::new()),
            Function::Sha1 => Box::new(Sha1::new()),
            Function::Sha224 => Box::new(Sha224::new()),
            Function::Sha256 => Box::new(Sha256::new()),
            Function::Sha384 => Box::new(Sha384::new()),
            Function::Sha512 => Box::new(Sha512::new()),
        }
    }
}

/// Digests that a file must have, each by its function and in lower-case hexadecimal digits.
type Expected = BTreeMap<String, BTreeSet<(Function, String)>>;

/// Collects what is wrong, and what is listed.
struct Lists {
    differences: Vec<Difference>,
    all: Expected,
    /// What each payload manifest lists.
    payload: Vec<(String, BTreeSet<String>)>,
    encoding: &'static Encoding,
    /// Whether the rules of version 1.0 hold.
    modern: bool,
}

impl Lists {
    fn broken(&mut self, file: &str, why: impl Into<String>) {
        self.differences
            .push(Difference::Broken(file.into(), why.into()));
    }

    /// The text of a tag file in the encoding that the bag declares; nothing where it is not there.
    fn text(&mut self, root: &Path, name: &str) -> Option<String> {
        let bytes = match contents(&root.join(name)) {
            Ok(bytes) => bytes,
            Err(error) if error.kind() == io::ErrorKind::NotFound => return None,
            Err(error) => {
                self.broken(name, say!("cannot be read: {error}", error = error.kind()));
                return None;
            }
        };
        let (text, _, wrong) = self.encoding.decode(&bytes);
        if wrong {
            self.broken(
                name,
                say!("is not in the encoding {name}", name = self.encoding.name()),
            );
        }
        Some(lines_of(&text))
    }

    /// `bagit.txt` (RFC 8493, 2.1.1): version and encoding, in two lines, and nothing before them.
    fn declaration(&mut self, root: &Path) {
        let name = "bagit.txt";
        let Some(bytes) = contents(&root.join(name)).ok() else {
            return self.broken(name, say!("is not there"));
        };
        let text = lines_of(&String::from_utf8_lossy(&bytes));
        let mut lines = text.lines().map(str::trim_end);
        let field = |line: Option<&str>, label: &str| -> Option<String> {
            let value = line?.strip_prefix(label)?.strip_prefix(':')?;
            Some(value.trim().to_owned())
        };
        let version = field(lines.next(), "BagIt-Version");
        let encoding = field(lines.next(), "Tag-File-Character-Encoding");
        match &version {
            Some(version) if VERSIONS.contains(&&**version) => self.modern = version == "1.0",
            _ => self.broken(
                name,
                say!("is no declaration of a version of BagIt that is known here"),
            ),
        }
        match encoding
            .as_deref()
            .and_then(|label| Encoding::for_label(label.as_bytes()))
        {
            Some(encoding) => self.encoding = encoding,
            None => self.broken(name, say!("names no encoding that is known here")),
        }
        if lines.any(|line| !line.is_empty()) {
            self.broken(name, say!("has more than its two lines"));
        }
    }

    /// A manifest: digest, blanks, path a line (RFC 8493, 2.1.3 and 2.2.1).
    fn manifest(&mut self, root: &Path, name: &str) {
        let (Some(function), Some(text)) = (function(name), self.text(root, name)) else {
            return self.broken(name, say!("is of a hash function that is not known here"));
        };
        let of_payload = name.starts_with("manifest-");
        let digits = function.hasher().output_size() * 2;
        let mut own = BTreeSet::new();
        for (n, line) in (1..).zip(text.lines()) {
            if line.trim().is_empty() {
                continue;
            }
            let Some((digest, path)) = line.split_once([' ', '\t']) else {
                self.broken(name, say!("line {n} is not a digest and a path", n = n));
                continue;
            };
            let path = path.trim_start_matches([' ', '\t']);
            let path = decoded(path.strip_prefix('*').unwrap_or(path), self.modern);
            let path = path.strip_prefix("./").unwrap_or(&path).to_owned();
            let digest = digest.to_ascii_lowercase();
            if leaves(&path) || of_payload != path.starts_with("data/") {
                self.broken(
                    name,
                    say!("line {n} names a path that does not belong there", n = n),
                );
            } else if digest.len() != digits || !digest.bytes().all(|byte| byte.is_ascii_hexdigit())
            {
                self.broken(
                    name,
                    say!(
                        "line {n} does not begin with a digest of {digits} digits",
                        n = n,
                        digits = digits
                    ),
                );
            } else if !own.insert(path.clone()) {
                self.broken(name, say!("line {n} names a file a second time", n = n));
            } else {
                self.all.entry(path).or_default().insert((function, digest));
            }
        }
        if of_payload {
            self.payload.push((name.to_owned(), own));
        }
    }

    /// What is still to be fetched is not there (RFC 8493, 2.2.3); this program fetches nothing.
    fn fetch(&mut self, root: &Path) {
        let Some(text) = self.text(root, "fetch.txt") else {
            return;
        };
        for (n, line) in (1..).zip(text.lines()) {
            if line.trim().is_empty() {
                continue;
            }
            let mut parts = line.splitn(3, [' ', '\t']);
            let (_, _, path) = (parts.next(), parts.next(), parts.next());
            let path = path.map(|path| decoded(path.trim_start(), self.modern));
            match path {
                Some(path) if path.starts_with("data/") && !leaves(&path) => {
                    if !self.all.contains_key(&path) {
                        self.broken(
                            "fetch.txt",
                            say!("line {n} names a file that no manifest lists", n = n),
                        );
                    }
                }
                _ => self.broken(
                    "fetch.txt",
                    say!("line {n} names a path that does not belong there", n = n),
                ),
            }
        }
    }

    /// `bag-info.txt` (RFC 8493, 2.2.2): labels and values.
    ///
    /// Gives whether it is a dossier's, and each sum of the payload that it states.
    fn info(&mut self, root: &Path) -> (bool, Vec<String>) {
        let name = "bag-info.txt";
        let Some(text) = self.text(root, name) else {
            return (false, Vec::new());
        };
        let (mut dossier, mut sums) = (false, Vec::new());
        for (n, line) in (1..).zip(text.lines()) {
            if line.trim().is_empty() || line.starts_with([' ', '\t']) {
                continue;
            }
            let Some((label, value)) = line.split_once(':') else {
                self.broken(name, say!("line {n} is no label with a value", n = n));
                continue;
            };
            dossier |= label == "Dossier-Format";
            if label.eq_ignore_ascii_case("Payload-Oxum") {
                sums.push(value.trim().to_owned());
            }
        }
        (dossier, sums)
    }
}

/// A text with every line end, of whatever system, as one character.
fn lines_of(text: &str) -> String {
    text.replace("\r\n", "\n").replace('\r', "\n")
}

/// Some systems write a letter and its accent as one character, some as two: a listed name that is not there as it is written
/// is looked for in the other form (RFC 8493, 6.2.2). Gives where each such name is.
fn in_another_form(listed: &Expected, there: &BTreeSet<String>) -> BTreeMap<String, String> {
    let form = |path: &str| path.nfc().collect::<String>();
    let lost = listed
        .keys()
        .filter(|path| !path.is_ascii() && !there.contains(*path));
    let lost: Vec<&String> = lost.collect();
    if lost.is_empty() {
        return BTreeMap::new();
    }
    let mut by_form: BTreeMap<String, Vec<&String>> = BTreeMap::new();
    for path in there
        .iter()
        .filter(|path| !path.is_ascii() && !listed.contains_key(*path))
    {
        by_form.entry(form(path)).or_default().push(path);
    }
    lost.into_iter()
        .filter_map(|path| match by_form.get(&form(path)).map(|all| &all[..]) {
            Some([one]) => Some((path.clone(), (*one).clone())),
            _ => None,
        })
        .collect()
}

/// The hash function in a manifest's name.
fn function(name: &str) -> Option<Function> {
    let stem = name.strip_suffix(".txt")?;
    Function::named(
        stem.strip_prefix("tagmanifest-")
            .or(stem.strip_prefix("manifest-"))?,
    )
}

/// Line ends and per cent signs in a path (RFC 8493, 2.1.3); older bags knew only the first two.
fn decoded(path: &str, modern: bool) -> String {
    let mut out = String::new();
    let mut rest = path;
    while let Some(at) = rest.find('%') {
        out.push_str(&rest[..at]);
        let code = rest
            .get(at..at + 3)
            .unwrap_or_default()
            .to_ascii_uppercase();
        let (plain, width) = match &*code {
            "%0A" => ("\n", 3),
            "%0D" => ("\r", 3),
            "%25" if modern => ("%", 3),
            _ => ("%", 1),
        };
        out.push_str(plain);
        rest = &rest[at + width..];
    }
    out + rest
}

/// Whether a path leads out of the bag, on any system.
fn leaves(path: &str) -> bool {
    let drive = path.as_bytes().get(1) == Some(&b':');
    path.is_empty()
        || path.starts_with(['/', '\\', '~'])
        || drive
        || path.split(['/', '\\']).any(|part| part == "..")
}

/// Whether a folder is meant as a bag at all.
pub fn is_bag(root: &Path) -> bool {
    root.join("bagit.txt").exists() || !manifests(root).is_empty()
}

/// The names of the manifests of a folder, in order.
fn manifests(root: &Path) -> BTreeSet<String> {
    let entries = fs::read_dir(root).into_iter().flatten().flatten();
    let names = entries.map(|entry| entry.file_name().to_string_lossy().into_owned());
    names
        .filter(|name| {
            name.ends_with(".txt")
                && (name.starts_with("manifest-") || name.starts_with("tagmanifest-"))
        })
        .collect()
}

/// Checks that a copy is whole: every listed file with its digests, and nothing else.
///
/// # Errors
/// When the folder cannot be read at all.
pub fn whole(root: &Path) -> io::Result<Whole> {
    let mut lists = Lists {
        differences: Vec::new(),
        all: Expected::new(),
        payload: Vec::new(),
        encoding: encoding_rs::UTF_8,
        modern: true,
    };
    lists.declaration(root);
    let manifests = manifests(root);
    for name in &manifests {
        lists.manifest(root, name);
    }
    if !manifests.iter().any(|name| name.starts_with("manifest-")) {
        lists.broken(super::MANIFEST, say!("is not there"));
    }
    if !root.join("data").is_dir() {
        lists.broken("data", say!("is not there"));
    }
    lists.fetch(root);
    let (marked, sums) = lists.info(root);
    // One line taken out of it makes no other bag of a dossier.
    let dossier = marked
        || root.join("data/figures.json").is_file()
        || root.join("START-HERE.html").is_file();
    let mut there = BTreeSet::new();
    for entry in WalkDir::new(root).sort_by_file_name() {
        let entry = entry?;
        if entry.file_type().is_dir() {
            continue;
        }
        let relative = entry.path().strip_prefix(root).unwrap_or(entry.path());
        let path = relative
            .to_string_lossy()
            .replace(std::path::MAIN_SEPARATOR, "/");
        let dropped = path.split('/').any(dropped);
        if dropped && !lists.all.contains_key(&path) {
            lists.differences.push(Difference::Dropping(path));
            continue;
        }
        if entry.file_type().is_symlink() {
            lists.differences.push(Difference::Extra(path));
            continue;
        }
        there.insert(path);
    }
    if dossier && !manifests.contains(TAG_MANIFEST) {
        lists.broken(TAG_MANIFEST, say!("is not there"));
    }
    let forms = in_another_form(&lists.all, &there);
    let found: BTreeSet<&String> = forms.values().collect();
    let room = || vec![0; 1 << 18];
    let results: Vec<(Option<Difference>, u64)> = lists
        .all
        .par_iter()
        .map_init(room, |room, (path, expected)| {
            let place = forms.get(path).unwrap_or(path);
            if !there.contains(place) {
                return (Some(Difference::Missing(path.clone())), 0);
            }
            match as_expected(&root.join(place), expected, room) {
                Ok((true, length)) => (None, length),
                Ok((false, length)) => (Some(Difference::Changed(path.clone())), length),
                Err(_) => (Some(Difference::Changed(path.clone())), 0),
            }
        })
        .collect();
    let good = results.iter().filter(|(wrong, _)| wrong.is_none()).count();
    let of_payload = |path: &String| path.starts_with("data/");
    let listed = lists.all.keys().zip(&results);
    let bytes = listed
        .filter(|(path, _)| of_payload(path))
        .map(|(_, (_, length))| length);
    // What was not listed is an extra file, which is news enough: the sum is looked at where there is none.
    let bytes: u64 = bytes.sum();
    let files = there.iter().filter(|path| of_payload(path)).count();
    lists
        .differences
        .extend(results.into_iter().filter_map(|(wrong, _)| wrong));
    // RFC 8493, 3: a payload file that no manifest names makes a bag incomplete; from version 1.0 on every manifest names all.
    // Of a dossier the same is asked of the files beside the payload, but for the tag manifest itself and later signatures.
    for path in there.iter().filter(|path| !found.contains(path)) {
        let listed = match path.starts_with("data/") {
            true if lists.modern => lists.payload.iter().all(|(_, own)| own.contains(path)),
            true => lists.all.contains_key(path),
            false => {
                !dossier
                    || lists.all.contains_key(path)
                    || path == TAG_MANIFEST
                    || path
                        .strip_prefix("signatures/")
                        .is_some_and(|name| !name.contains('/'))
            }
        };
        if !listed {
            lists.differences.push(Difference::Extra(path.clone()));
        }
    }
    let mut differences = lists.differences;
    if !differences.iter().any(Difference::counts) {
        let other = sums
            .into_iter()
            .filter(|stated| *stated != format!("{bytes}.{files}"));
        differences.extend(other.map(|stated| {
            let why = say!(
                "states a payload of {stated} (bytes.files), and there is {bytes}.{files}",
                stated = stated,
                bytes = bytes,
                files = files
            );
            Difference::Broken("bag-info.txt".into(), why)
        }));
    }
    differences.sort();
    differences.dedup();
    let digest = contents(&root.join(TAG_MANIFEST))
        .ok()
        .map(|bytes| Digest::of(&bytes));
    Ok(Whole {
        good,
        differences,
        digest,
        dossier,
    })
}

/// Whether a file has every digest that is listed for it, and how many bytes it has; it is read once, through `room`.
fn as_expected(
    path: &Path,
    expected: &BTreeSet<(Function, String)>,
    room: &mut [u8],
) -> io::Result<(bool, u64)> {
    let mut hashers: Vec<(Box<dyn DynDigest>, &str)> = expected
        .iter()
        .map(|(function, digest)| (function.hasher(), &**digest))
        .collect();
    regular(path)?;
    let mut file = fs::File::open(path)?;
    let mut length = 0;
    loop {
        match io::Read::read(&mut file, room)? {
            0 => break,
            n => {
                #[expect(
                    clippy::indexing_slicing,
                    reason = "a read counts what it put into the buffer, never more"
                )]
                let read = &room[..n];
                length += n as u64;
                hashers
                    .iter_mut()
                    .for_each(|(hasher, _)| hasher.update(read));
            }
        }
    }
    let as_listed = hashers.into_iter().all(|(hasher, digest)| {
        let found = hasher.finalize();
        let digits = digest.as_bytes().chunks(2);
        let same = found.iter().zip(digits).all(|(byte, two)| {
            std::str::from_utf8(two).is_ok_and(|two| u8::from_str_radix(two, 16) == Ok(*byte))
        });
        same && digest.len() == 2 * found.len()
    });
    Ok((as_listed, length))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn paths_are_read_as_the_standard_says() {
        assert_eq!(decoded("data/a%0Ab%25c%20", true), "data/a\nb%c%20");
        assert_eq!(decoded("data/100%", true), "data/100%");
        assert_eq!(decoded("data/%25", false), "data/%25");
        for path in [
            "/etc/passwd",
            "data/../../x",
            "~/x",
            "c:\\x",
            "\\\\host\\x",
            "",
        ] {
            assert!(leaves(path), "{path}");
        }
        assert!(!leaves("data/a..b/~c"));
    }
}

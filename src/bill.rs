//! The software bill of materials: which packages, in which versions and with which digests, the program is built of.
//!
//! It is made of the lockfile that the program was built with, so that every build of one version names the same bill, whoever
//! builds it. It lists what the lockfile fixes for the program on any platform and with any feature; packages that only tests or the
//! build itself need are left out. Form: CycloneDX 1.6 (ECMA-424), JSON.

use std::collections::{BTreeMap, BTreeSet};

use serde_json::{Value, json};

use crate::ground::digest::Digest;

/// As cargo wrote it.
const LOCK: &str = include_str!("../Cargo.lock");
const MANIFEST: &str = include_str!("../Cargo.toml");
const OWN: &str = env!("CARGO_PKG_NAME");

/// One package of the lockfile.
#[derive(Default)]
struct Package<'a> {
    name: &'a str,
    version: &'a str,
    checksum: Option<&'a str>,
    /// `name`, or `name version` where several versions are locked.
    needs: Vec<&'a str>,
}

impl Package<'_> {
    /// A package URL.
    fn reference(&self) -> String {
        format!("pkg:cargo/{}@{}", self.name, self.version)
    }
}

/// The bill as text, the same for every build of this version.
pub fn text() -> String {
    let mut text = serde_json::to_string_pretty(&bill()).unwrap_or_default();
    text.push('\n');
    text
}

/// The digest of the bill.
pub fn digest() -> Digest {
    Digest::of(text().as_bytes())
}

fn bill() -> Value {
    let locked = packages(LOCK);
    let of = |need: &str| locked.iter().find(|package| named(package, need));
    let direct = direct(MANIFEST);
    let own = locked.iter().find(|package| package.name == OWN);
    // From what the program itself needs to all that this needs.
    let mut waiting: Vec<&Package> = own
        .iter()
        .flat_map(|own| &own.needs)
        .filter(|need| direct.contains(need.split(' ').next().unwrap_or(need)))
        .filter_map(|need| of(need))
        .collect();
    let top: BTreeSet<String> = waiting.iter().map(|package| package.reference()).collect();
    let mut reached: BTreeMap<String, &Package> = BTreeMap::new();
    while let Some(package) = waiting.pop() {
        if reached.insert(package.reference(), package).is_none() {
            waiting.extend(package.needs.iter().filter_map(|need| of(need)));
        }
    }
    let component = |(reference, package): (&String, &&Package)| {
        let mut component = json!({
            "type": "library", "bom-ref": reference, "name": package.name, "version": package.version, "purl": reference});
        if let Some(checksum) = package.checksum {
            let hashes = json!([{"alg": "SHA-256", "content": checksum}]);
            component
                .as_object_mut()
                .map(|all| all.insert("hashes".into(), hashes));
        }
        component
    };
    let itself = format!("pkg:cargo/{OWN}@{}", env!("CARGO_PKG_VERSION"));
    let needs = |(reference, package): (&String, &&Package)| {
        let on: BTreeSet<String> = package
            .needs
            .iter()
            .filter_map(|need| of(need))
            .map(Package::reference)
            .collect();
        json!({"ref": reference, "dependsOn": on})
    };
    json!({
        "bomFormat": "CycloneDX",
        "specVersion": "1.6",
        "version": 1,
        "metadata": {"component": {
            "type": "application", "bom-ref": itself, "name": OWN, "version": env!("CARGO_PKG_VERSION"), "purl": itself,
            "licenses": [{"expression": "MIT OR Apache-2.0"}]}},
        "components": reached.iter().map(component).collect::<Vec<_>>(),
        "dependencies": std::iter::once(json!({"ref": itself, "dependsOn": top}))
            .chain(reached.iter().map(needs))
            .collect::<Vec<_>>(),
    })
}

fn named(package: &Package, need: &str) -> bool {
    match need.split_once(' ') {
        Some((name, version)) => package.name == name && package.version == version,
        None => package.name == need,
    }
}

/// The packages of a lockfile: blocks of `key = "value"` and one list.
fn packages(lock: &str) -> Vec<Package<'_>> {
    let mut all = Vec::new();
    for block in lock.split("[[package]]").skip(1) {
        let mut package = Package::default();
        for line in block.lines() {
            let quoted = || line.split('"').nth(1).unwrap_or_default();
            match line.split(' ').next() {
                Some("name") => package.name = quoted(),
                Some("version") => package.version = quoted(),
                Some("checksum") => package.checksum = Some(quoted()),
                Some("") if line.trim_start().starts_with('"') => package.needs.push(quoted()),
                _ => {}
            }
        }
        all.push(package);
    }
    all
}

/// What the program itself needs: the names under `[dependencies]`.
fn direct(manifest: &str) -> BTreeSet<&str> {
    manifest
        .lines()
        .skip_while(|line| *line != "[dependencies]")
        .skip(1)
        .take_while(|line| !line.starts_with('['))
        .filter_map(|line| line.split([' ', '=']).next())
        .filter(|name| !name.is_empty() && !name.starts_with('#'))
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_bill_is_what_cargo_says_is_built_in() {
        // Cargo itself walks the same graph: normal dependencies on this machine.
        let done = std::process::Command::new(env!("CARGO"))
            .args(["tree", "--locked", "--offline", "--edges", "normal"])
            .args(["--prefix", "none", "--format", "{p}"])
            .current_dir(env!("CARGO_MANIFEST_DIR"))
            .output()
            .unwrap();
        assert!(
            done.status.success(),
            "{}",
            String::from_utf8_lossy(&done.stderr)
        );
        let cargo: BTreeSet<String> = String::from_utf8(done.stdout)
            .unwrap()
            .lines()
            .filter_map(|line| {
                let mut words = line.split(' ');
                let (name, version) = (words.next()?, words.next()?.strip_prefix('v')?);
                (name != OWN).then(|| format!("pkg:cargo/{name}@{version}"))
            })
            .collect();
        let bill = bill();
        let components = bill["components"].as_array().unwrap();
        let own: BTreeSet<String> = components
            .iter()
            .map(|component| component["purl"].as_str().unwrap().to_owned())
            .collect();
        // The bill lists other platforms and features too, and what build scripts need; it must never list less than is built in.
        let missing: Vec<_> = cargo.difference(&own).collect();
        assert!(missing.is_empty(), "{missing:?}");
        assert!(cargo.len() > 50, "{}", cargo.len());
        // Everything that came from a registry has its digest.
        assert!(components.iter().all(|component| {
            component["hashes"][0]["content"]
                .as_str()
                .is_some_and(|hash| hash.len() == 64)
        }));
        // What only tests need is not in it.
        assert!(!own.iter().any(|one| one.contains("proptest@")
            || one.contains("divan@")
            || one.contains("insta@")));
    }
}

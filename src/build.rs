//! Writes the tables of record kinds, figures and rules from the file names in their folders, so
//! that a new member is one new file and nothing else.

use std::{env, fmt::Write as _, fs, path::Path};

fn stems(dir: &Path) -> Vec<String> {
    println!("cargo::rerun-if-changed={}", dir.display());
    let mut names: Vec<String> = fs::read_dir(dir)
        .expect("the folder of the table")
        .map(|entry| entry.expect("a folder entry").file_name())
        .filter_map(|file| file.into_string().ok())
        .filter_map(|file| file.strip_suffix(".rs").map(str::to_owned))
        .filter(|stem| stem != "mod")
        .collect();
    names.sort();
    names
}

fn modules(out: &mut String, dir: &Path, names: &[String]) {
    for name in names {
        let path = dir.join(format!("{name}.rs"));
        writeln!(
            out,
            "#[path = {:?}]\npub mod {name};",
            path.display().to_string()
        )
        .unwrap();
    }
}

/// `module_test` becomes `ModuleTest`.
fn camel(name: &str) -> String {
    name.split('_')
        .map(|word| word[..1].to_uppercase() + &word[1..])
        .collect()
}

fn table(root: &Path, folder: &str, item: &str, of: &str, about: &str) -> String {
    let dir = root.join("src").join(folder);
    let names = stems(&dir);
    let mut out = String::new();
    modules(&mut out, &dir, &names);
    writeln!(out, "/// {about}\npub static ALL: &[&{of}] = &[").unwrap();
    for name in &names {
        writeln!(out, "    &{name}::{item},").unwrap();
    }
    writeln!(out, "];").unwrap();
    writeln!(out, "/// The file name of each member, in the same order.\npub static FILES: &[&str] = &{names:?};").unwrap();
    out
}

fn kinds(root: &Path) -> String {
    let dir = root.join("src/record/kinds");
    let names = stems(&dir);
    let mut out = String::new();
    modules(&mut out, &dir, &names);
    writeln!(
        out,
        "/// The contents of a record, by its kind.\n#[derive(Debug)]\npub enum Body {{"
    )
    .unwrap();
    for name in &names {
        let ty = camel(name);
        writeln!(out, "    /// `kind: {name}`\n    {ty}(Box<{name}::{ty}>),").unwrap();
    }
    writeln!(out, "}}").unwrap();
    writeln!(
        out,
        "/// Every kind of record, in alphabetical order.\npub static KINDS: &[Kind] = &["
    )
    .unwrap();
    for name in &names {
        let ty = camel(name);
        writeln!(
            out,
            "    Kind {{ name: {name:?}, about: <{name}::{ty} as Shape>::ABOUT, \
             fields: <{name}::{ty} as Shape>::fields, \
             read: |node, reader| <{name}::{ty} as Shape>::read_map(node, reader, &super::COMMON_NAMES).map(|body| Body::{ty}(Box::new(body))) }},"
        )
        .unwrap();
    }
    writeln!(out, "];").unwrap();
    writeln!(out, "impl super::Records {{").unwrap();
    for name in &names {
        let ty = camel(name);
        writeln!(
            out,
            "    /// The current records of kind `{name}`, in the order of their ids.\n    \
             pub fn {name}s(&self) -> impl Iterator<Item = (&super::Record, &{name}::{ty})> {{\n        \
             self.of_kind({name:?}).filter_map(|record| match &record.body {{ Body::{ty}(body) => Some((record, &**body)), _ => None }})\n    }}"
        )
        .unwrap();
    }
    writeln!(out, "}}").unwrap();
    out
}

fn main() {
    let root = env::var("CARGO_MANIFEST_DIR").expect("set by cargo");
    let root = Path::new(&root);
    let out = env::var("OUT_DIR").expect("set by cargo");
    let write = |name: &str, text: String| {
        fs::write(Path::new(&out).join(name), text).expect("the build folder takes a file");
    };
    write("kinds.rs", kinds(root));
    write(
        "figures.rs",
        table(
            root,
            "figures",
            "FIGURE",
            "Figure",
            "Every figure of the house, in the order of their file names.",
        ),
    );
    write(
        "rules.rs",
        table(
            root,
            "rules",
            "RULE",
            "Rule",
            "Every rule of the house, in the order of their numbers.",
        ),
    );
}

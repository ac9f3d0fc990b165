//! A module imports from floors below its own, never from its own or from above.

use std::{fs, path::Path};

/// Bottom first; what stands on one floor does not know its neighbours.
const FLOORS: &[&[&str]] = &[
    &["ground"],
    &[
        "formula",
        "seal",
        "stats",
        "chart",
        "agreement",
        "approval",
        "tree",
        "bill",
    ],
    &["metrology"],
    &["verdict"],
    &["record", "physics"],
    &["procedure", "plant", "prose", "intake"],
    &["figure", "commitment"],
    &["figures", "graph"],
    &[
        "rule",
        "rejudge",
        "simulation",
        "trend",
        "changes",
        "extract",
    ],
    &["rules"],
    &["dossier"],
    &["page", "handbook"],
    &["site"],
    &["cli"],
];

fn floor(module: &str) -> usize {
    let found = FLOORS.iter().position(|floor| floor.contains(&module));
    found.unwrap_or_else(|| panic!("`{module}` has no floor; give it one in tests/floors.rs"))
}

fn sources(path: &Path, found: &mut Vec<(String, String)>) {
    if path.is_dir() {
        for entry in fs::read_dir(path).unwrap() {
            sources(&entry.unwrap().path(), found);
        }
    } else {
        let text = fs::read_to_string(path).unwrap();
        // What stands in a test module may look wherever it likes.
        let text = text.split("#[cfg(test)]").next().unwrap().to_owned();
        found.push((path.to_string_lossy().replace('\\', "/"), text));
    }
}

/// The first path segment after each `crate::`, braces followed one level deep.
fn imports(text: &str) -> Vec<String> {
    let word = |text: &str| -> String {
        text.trim_start()
            .chars()
            .take_while(|c| c.is_alphanumeric() || *c == '_')
            .collect()
    };
    let mut all = Vec::new();
    for rest in text.split("crate::").skip(1) {
        let Some(list) = rest.strip_prefix('{') else {
            all.push(word(rest));
            continue;
        };
        let (mut depth, mut start) = (1, true);
        for (i, c) in list.char_indices() {
            match c {
                '{' => depth += 1,
                '}' => depth -= 1,
                ',' if depth == 1 => start = true,
                c if start && c.is_alphabetic() => {
                    all.push(word(&list[i..]));
                    start = false;
                }
                _ => {}
            }
            if depth == 0 {
                break;
            }
        }
    }
    all
}

#[test]
fn nobody_looks_up() {
    let mut files = Vec::new();
    sources(Path::new("src"), &mut files);
    let mut seen = 0;
    for (path, text) in files {
        let module = path.split('/').nth(1).unwrap().trim_end_matches(".rs");
        if ["main", "lib", "build"].contains(&module) {
            continue;
        }
        // Macros are exported at the root of the crate.
        let macros = ["shape", "words", "record"];
        for import in imports(&text).iter().filter(|import| {
            *import != module && !(module == "record" && macros.contains(&&***import))
        }) {
            seen += 1;
            assert!(
                floor(import) < floor(module),
                "{path} (floor {}) imports `{import}` (floor {})",
                floor(module),
                floor(import)
            );
        }
    }
    assert!(
        seen > 100,
        "only {seen} imports found: is the reader of imports broken?"
    );
}

#[test]
fn no_room_is_too_long() {
    let mut files = Vec::new();
    sources(Path::new("src"), &mut files);
    for (path, _) in &files {
        let lines = fs::read_to_string(path).unwrap().lines().count();
        assert!(
            lines <= 600,
            "{path} has {lines} lines; 600 are the most that a reader takes in"
        );
    }
}

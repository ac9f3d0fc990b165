//! The handbook's tutorial, done step by step: every record is saved, every change made, every command run, and what each prints is
//! held against what the page shows. So the page is also the record of a session from an empty folder to a checked dossier.

use std::{
    fs,
    path::{Path, PathBuf},
    process::Command,
};

/// What a reader does next.
#[derive(Debug)]
enum Step {
    /// Save a file.
    Save(String, String),
    /// In a file, change one piece of text to another.
    Change(String, String, String),
    /// Call a command, and see this.
    Call(String, Vec<String>),
}

fn quoted(line: &str) -> Vec<&str> {
    line.split('`').skip(1).step_by(2).collect()
}

fn steps(page: &str) -> Vec<Step> {
    let mut steps = Vec::new();
    let mut lines = page.lines().peekable();
    let mut before = "";
    while let Some(line) = lines.next() {
        match line {
            "```yaml" | "```text" => {
                let body: Vec<&str> = lines.by_ref().take_while(|line| *line != "```").collect();
                let file = *quoted(before).last().unwrap();
                steps.push(Step::Save(file.to_owned(), body.join("\n") + "\n"));
            }
            "```console" => {
                for line in lines.by_ref().take_while(|line| *line != "```") {
                    match (line.strip_prefix("$ "), steps.last_mut()) {
                        (Some(command), _) => {
                            steps.push(Step::Call(command.to_owned(), Vec::new()))
                        }
                        (None, Some(Step::Call(_, shown))) => shown.push(line.to_owned()),
                        (None, _) => panic!("no command before {line}"),
                    }
                }
            }
            _ if line.starts_with("In `") && line.contains(" change `") => {
                let [file, from, to] = quoted(line)[..] else {
                    panic!("{line}");
                };
                steps.push(Step::Change(
                    file.to_owned(),
                    from.to_owned(),
                    to.to_owned(),
                ));
            }
            _ => {}
        }
        if !line.is_empty() {
            before = line;
        }
    }
    steps
}

/// Whether a line is as shown; … stands for anything.
fn alike(shown: &str, line: &str) -> bool {
    match shown.split_once('…') {
        None => shown == line,
        Some((start, rest)) => line.strip_prefix(start).is_some_and(|line| {
            (0..=line.len())
                .filter(|at| line.is_char_boundary(*at))
                .any(|at| alike(rest, &line[at..]))
        }),
    }
}

/// Whether lines are as shown; a line that is … alone stands for any number of them.
fn all_alike(shown: &[String], lines: &[&str]) -> bool {
    match (shown.split_first(), lines.split_first()) {
        (None, None) => true,
        (Some((first, rest)), _) if first == "…" => {
            (0..=lines.len()).any(|skipped| all_alike(rest, &lines[skipped..]))
        }
        (Some((shown, rest)), Some((line, lines))) => alike(shown, line) && all_alike(rest, lines),
        _ => false,
    }
}

fn copy(from: &Path, to: &Path) {
    fs::create_dir_all(to).unwrap();
    for entry in fs::read_dir(from).unwrap() {
        let path = entry.unwrap().path();
        fs::copy(&path, to.join(path.file_name().unwrap())).unwrap();
    }
}

#[test]
fn the_tutorial_is_done_as_it_is_written() {
    let handbook = Path::new(env!("CARGO_MANIFEST_DIR")).join("handbook");
    let page = fs::read_to_string(handbook.join("tutorial.md")).unwrap();
    let place = tempfile::tempdir().unwrap();
    copy(&handbook.join("tutorial"), &place.path().join("stick"));
    let program = PathBuf::from(env!("CARGO_BIN_EXE_sealfolio"));
    let path = format!(
        "{}:{}",
        program.parent().unwrap().display(),
        std::env::var("PATH").unwrap()
    );
    let steps = steps(&page);
    let mut calls = 0;
    for step in &steps {
        match step {
            Step::Save(file, text) => {
                let file = place.path().join(file);
                fs::create_dir_all(file.parent().unwrap()).unwrap();
                fs::write(file, text).unwrap();
            }
            Step::Change(file, from, to) => {
                let file = place.path().join(file);
                let text = fs::read_to_string(&file).unwrap();
                assert_eq!(
                    text.matches(from).count(),
                    1,
                    "{from} in {}",
                    file.display()
                );
                fs::write(file, text.replace(from, to)).unwrap();
            }
            Step::Call(command, shown) => {
                let done = Command::new("sh")
                    .args(["-c", &format!("{command} 2>&1")])
                    .current_dir(place.path())
                    .env("PATH", &path)
                    .env("NO_COLOR", "1")
                    .output()
                    .unwrap();
                let text = String::from_utf8(done.stdout).unwrap();
                let lines: Vec<&str> = text.lines().collect();
                assert!(
                    all_alike(shown, &lines),
                    "$ {command}\nprints\n{text}\nand the page shows\n{}",
                    shown.join("\n")
                );
                calls += 1;
            }
        }
    }
    assert!(calls >= 15, "{calls}");
    // What the page promises at its end.
    for (file, holds) in [
        ("for-orchard-lane", true),
        ("released", true),
        ("my-lot", true),
    ] {
        assert_eq!(place.path().join(file).is_dir(), holds, "{file}");
    }
}

#[test]
fn a_difference_is_seen() {
    let lines = |text: &str| text.lines().map(str::to_owned).collect::<Vec<_>>();
    let like =
        |shown: &str, found: &str| all_alike(&lines(shown), &found.lines().collect::<Vec<_>>());
    assert!(like("a … c\n…\nend", "a b c\nx\ny\nend"));
    assert!(like("…", ""));
    assert!(!like("a … d", "a b c"));
    assert!(!like("a\n…\nend", "a\nx\ny"));
    assert!(!like("a", "a\nb"));
    assert!(!like("a\nb", "a"));
}

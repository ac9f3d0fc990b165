//! The reader of plain YAML against the two readers of all YAML: where it answers, they say the same, to the last column.

use std::{fs, path::Path, process::Command};

use proptest::{
    prelude::*,
    sample::select,
    test_runner::{Config, RngAlgorithm, TestRng, TestRunner},
};
use sealfolio::record::{folder::holds_records, simple, text, yaml};
use walkdir::WalkDir;

/// Whether the plain reader answers; then it must answer as the others do.
fn answers(text: &str) -> Result<bool, TestCaseError> {
    let Some(nodes) = simple::documents(text) else {
        return Ok(false);
    };
    prop_assert_eq!(yaml::by_two_readers(text), Ok(nodes), "{}", text);
    Ok(true)
}

/// Every record file below a folder, where it is let in at all.
fn texts(folder: &str) -> Vec<String> {
    let mut out = Vec::new();
    for entry in WalkDir::new(folder).sort_by_file_name() {
        let entry = entry.unwrap();
        if entry.file_type().is_file() && holds_records(&entry.path().to_string_lossy()) {
            let bytes = fs::read(entry.path()).unwrap();
            out.extend(text::plain(&bytes).ok().map(str::to_owned));
        }
    }
    out
}

/// How many of the cases the plain reader answered.
fn hold<S: Strategy<Value = String>>(cases: u32, strategy: S) -> usize {
    let rng = TestRng::from_seed(RngAlgorithm::ChaCha, &[11; 32]);
    let config = Config {
        cases,
        failure_persistence: None,
        ..Config::default()
    };
    let answered = std::cell::Cell::new(0);
    TestRunner::new_with_rng(config, rng)
        .run(&strategy, |text| {
            if text::plain(text.as_bytes()) == Ok(&text) && answers(&text)? {
                answered.set(answered.get() + 1);
            }
            Ok(())
        })
        .unwrap();
    answered.get()
}

#[test]
fn the_examples_are_plain_and_read_alike() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    for (folder, least) in [("example-dossier", 0.9), ("tests", 0.0), ("handbook", 0.0)] {
        let texts = texts(&root.join(folder).to_string_lossy());
        let plain = texts.iter().filter(|text| answers(text).unwrap()).count();
        assert!(
            plain as f64 >= least * texts.len() as f64,
            "{folder}: {plain} of {}",
            texts.len()
        );
    }
}

/// The remarks that `new` writes beside its fields do not stand in the way.
#[test]
fn what_the_program_begins_is_plain() {
    let folder = tempfile::tempdir().unwrap();
    let folder = folder.path().join("begun");
    let new = Command::new(env!("CARGO_BIN_EXE_sealfolio"))
        .args(["new", "--maker", "A", "--customer", "B"])
        .arg(&folder)
        .output()
        .unwrap();
    assert!(new.status.success(), "{new:?}");
    let begun = texts(&folder.to_string_lossy());
    assert_eq!(begun.len(), 2);
    for text in begun {
        assert!(answers(&text).unwrap(), "{text}");
    }
}

/// A text without quotes ends where a blank and a # stand: nothing of it is lost without a word.
#[test]
fn nothing_behind_a_mark_is_lost_unsaid() {
    for (line, lost) in [
        ("remarks: Batch #4 replaced", Some("#4 replaced")),
        ("remarks: Größe im Los  #7", Some("#7")),
        ("remarks: Batch # 4 is a remark", None),
        ("remarks: Batch #", None),
        ("remarks: Batch ## four", None),
        ("remarks: \"Batch #4 replaced\"", None),
        ("remarks: Batch#4", None),
        ("remarks: [a, b] #c", None),
    ] {
        let read = yaml::documents(line.as_bytes());
        match lost {
            None => assert!(read.is_ok(), "{line}: {read:?}"),
            Some(lost) => {
                let problem = read.unwrap_err();
                assert_eq!((problem.spot.line, problem.spot.column), (1, 10), "{line}");
                assert!(problem.message.contains(lost), "{problem:?}");
            }
        }
    }
    let several = "a: b\nc: [d,\n  e #f\n  ]\n";
    assert!(yaml::documents(several.as_bytes()).is_err());
}

/// What a file may be made of, in the order in which somebody who means to confuse a reader would put it together.
const PIECES: &[&str] = &[
    "\na: ",
    "\nb: ",
    "\nc:\n",
    "\n  d: ",
    "\n  e: ",
    "\n- f: ",
    "\n  - g: ",
    "\n- ",
    "\nh: [",
    "\ni: {j: ",
    "\n",
    "\n",
    "\n  ",
    "\n  ",
    "\n    ",
    "\n- ",
    "\n- ",
    "\n  - ",
    "\n---\n",
    "\n...\n",
    "---\n",
    "- ",
    "-",
    " ",
    "  ",
    "a: ",
    "b: ",
    "c: ",
    "a: ",
    "b: ",
    "d:",
    "e_1: ",
    "a:b",
    "1: ",
    "\"a\": ",
    "a : ",
    "? a",
    ": ",
    ":",
    "x",
    "word",
    "two words",
    "1",
    "0",
    "007",
    "1.50",
    "-2",
    "-0",
    "+1",
    "1e5",
    "1e999",
    "0x1F",
    "0o7",
    "1_000",
    ".5",
    "5.",
    ".inf",
    ".nan",
    "inf",
    "Infinity",
    "nan",
    "12:30",
    "2026-03-20",
    "no",
    "Yes",
    "on",
    "n",
    "null",
    "~",
    "true",
    "FALSE",
    "False",
    "99999999999999999999",
    "18446744073709551616",
    "123456789012345678",
    "\"q\"",
    "\"a, b: [c] #\"",
    "\"\"",
    "\"a\\n\"",
    "\"a\"b",
    "'q'",
    "'it''s'",
    "it's",
    "[",
    "]",
    "{",
    "}",
    ", ",
    ",",
    "[]",
    "{}",
    "[1, 2]",
    "{a: 1}",
    "{a: 1, b: \"x\"}",
    "[a, {b: [c]}]",
    "{a: b c, d: (e)}",
    " # remark",
    "#no",
    "# remark\n",
    "&x ",
    "*x",
    "!t ",
    "|",
    ">",
    "%",
    "@",
    "`",
    "=",
    "<<: ",
    "µm",
    "Größe",
    "20 °C",
    "5 %",
    "a/b.csv",
    "(x)",
    " -",
    ", -",
    "_",
    "-a",
    "--",
    "- - ",
    "/",
];

/// Found by fuzzing.
#[test]
fn what_once_was_read_apart_is_read_alike() {
    for text in [
        "items: [M-1, M-2 -,3]\n",
        "items: [a -]\n",
        "items: {a: b -}\n",
    ] {
        answers(text).unwrap();
    }
}

/// Two readers of general use say what is right; that the third differs from them nowhere is asked of as many texts as can be made.
#[test]
fn made_up_texts_are_read_alike() {
    let made = prop::collection::vec(select(PIECES), 1..9).prop_map(|pieces| pieces.concat());
    let answered = hold(200_000, made);
    assert!(answered > 2_000, "only {answered} of them were plain");
}

#[test]
fn examples_with_a_slip_of_the_pen_are_read_alike() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/sound");
    let documents: Vec<String> = texts(&root.to_string_lossy())
        .iter()
        .flat_map(|text| {
            text.split_inclusive("---\n")
                .map(str::to_owned)
                .collect::<Vec<_>>()
        })
        .filter(|text| text.len() < 1500)
        .collect();
    let slip = (any::<prop::sample::Index>(), 0..2_usize, select(PIECES));
    let slips = prop::collection::vec(slip, 1..4);
    let spoiled = (select(documents), slips).prop_map(|(mut text, slips)| {
        for (at, taken, put) in slips {
            let (at, _) = text
                .char_indices()
                .nth(at.index(text.chars().count()))
                .unwrap();
            let end = text[at..]
                .chars()
                .take(taken)
                .map(char::len_utf8)
                .sum::<usize>()
                + at;
            text.replace_range(at..end, put);
        }
        text
    });
    let answered = hold(40_000, spoiled);
    assert!(answered > 2_000, "only {answered} of them were plain");
}

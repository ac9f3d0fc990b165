//! Calling the program, and spoiling copies of the example.

#![allow(dead_code, missing_docs)]

pub mod signed;

use std::{
    collections::BTreeMap,
    fs,
    path::{Path, PathBuf},
    process::{Command, Output},
};

pub fn run(args: &[&str]) -> (Output, String) {
    let output = Command::new(env!("CARGO_BIN_EXE_sealfolio"))
        .args(args)
        .env("NO_COLOR", "1")
        .output()
        .unwrap();
    let text = String::from_utf8_lossy(&output.stdout).into_owned()
        + &String::from_utf8_lossy(&output.stderr);
    (output, text)
}

pub fn code(args: &[&str]) -> (i32, String) {
    let (output, text) = run(args);
    (output.status.code().unwrap(), text)
}

pub fn copy(from: &Path, to: &Path) {
    fs::create_dir_all(to).unwrap();
    for entry in fs::read_dir(from).unwrap() {
        let entry = entry.unwrap();
        match entry.file_type().unwrap().is_dir() {
            true => copy(&entry.path(), &to.join(entry.file_name())),
            false => {
                fs::copy(entry.path(), to.join(entry.file_name())).unwrap();
            }
        }
    }
}

/// A copy of an example to spoil, and a place beside it.
pub fn spoiled(name: &str, spoil: impl Fn(&Path)) -> (tempfile::TempDir, PathBuf) {
    let folder = tempfile::tempdir().unwrap();
    let own = folder.path().join("records");
    copy(&Path::new("example-dossier").join(name), &own);
    spoil(&own);
    (folder, own)
}

pub fn edit(path: &Path, from: &str, to: &str) {
    let text = fs::read_to_string(path).unwrap();
    assert!(text.contains(from), "{from}");
    fs::write(path, text.replacen(from, to, 1)).unwrap();
}

/// The small lot without any fault, held in memory, to spoil one thing at a time.
#[derive(Clone)]
pub struct Sound {
    pub files: BTreeMap<String, Vec<u8>>,
}

impl Sound {
    /// As the generator wrote it.
    pub fn read() -> Sound {
        fn walk(at: &Path, name: &str, files: &mut BTreeMap<String, Vec<u8>>) {
            for entry in fs::read_dir(at).unwrap() {
                let entry = entry.unwrap();
                let own = entry.file_name().into_string().unwrap();
                let path = if name.is_empty() {
                    own
                } else {
                    format!("{name}/{own}")
                };
                match entry.file_type().unwrap().is_dir() {
                    true => walk(&entry.path(), &path, files),
                    false => {
                        files.insert(path, fs::read(entry.path()).unwrap());
                    }
                }
            }
        }
        let mut files = BTreeMap::new();
        walk(Path::new("tests/sound"), "", &mut files);
        Sound { files }
    }

    pub fn text(&self, file: &str) -> String {
        let bytes = self
            .files
            .get(file)
            .unwrap_or_else(|| panic!("there is no {file}"));
        String::from_utf8(bytes.clone()).unwrap()
    }

    /// Replaces the first place where a text stands.
    pub fn swap(&mut self, file: &str, from: &str, to: &str) {
        self.swap_after(file, "", from, to);
    }

    /// The same, the first place after an anchor.
    pub fn swap_after(&mut self, file: &str, anchor: &str, from: &str, to: &str) {
        let text = self.text(file);
        let begin = text
            .find(anchor)
            .unwrap_or_else(|| panic!("{file} has no {anchor}"));
        assert!(
            text[begin..].contains(from),
            "{file} has no {from} after {anchor}"
        );
        let spoiled = text[..begin].to_owned() + &text[begin..].replacen(from, to, 1);
        self.files.insert(file.into(), spoiled.into_bytes());
    }

    /// Adds a record.
    pub fn add(&mut self, file: &str, record: &str) {
        let text = match self.files.contains_key(file) {
            true => format!("{}---\n{record}", self.text(file)),
            false => record.to_owned(),
        };
        self.files.insert(file.into(), text.into_bytes());
    }

    /// One record of a file, as text.
    pub fn record(&self, file: &str, id: &str) -> String {
        let text = self.text(file);
        let mark = format!("record_id: {id}\n");
        let found = text.split("---\n").find(|record| record.contains(&mark));
        found
            .unwrap_or_else(|| panic!("{file} has no {id}"))
            .to_owned()
    }

    /// Writes a trace anew, and its digest wherever a record states it.
    pub fn trace(&mut self, name: &str, spoil: impl Fn(&str) -> String) {
        let old = self.text(name);
        let new = spoil(&old);
        assert!(old != new, "{name} is unchanged");
        let digest =
            |text: &str| sealfolio::ground::digest::Digest::of(text.as_bytes()).to_string();
        let (from, to) = (digest(&old), digest(&new));
        let files: Vec<String> = self
            .files
            .keys()
            .filter(|file| file.ends_with(".yaml"))
            .cloned()
            .collect();
        for file in files {
            let text = self.text(&file);
            if text.contains(&from) {
                self.files
                    .insert(file, text.replace(&from, &to).into_bytes());
            }
        }
        self.files.insert(name.into(), new.into_bytes());
    }

    /// Adds a deviation that was decided the same day, and discloses it.
    pub fn deviation(
        &mut self,
        id: &str,
        subject: &str,
        category: &str,
        decision: &str,
        more: &str,
    ) {
        let record = format!(
            "kind: deviation\nrecord_id: {id}\nrevision: 1\nrecorded_at: \"2026-03-13T12:00:00+01:00\"\nrecorded_by: P-06\nsubject: {subject}\ndetected_at: \"2026-03-13T09:00:00+01:00\"\ncategory: {category}\ndescription: \"spoiled for a test\"\ndecision: {decision}\napproved_by: P-08\napproved_at: \"2026-03-13T13:00:00+01:00\"\n{more}"
        );
        self.add("deviations.yaml", &record);
        let text = self.text("releases.yaml");
        let (from, to) = match text.contains("deviations_disclosed: []") {
            true => (
                "deviations_disclosed: []",
                format!("deviations_disclosed: [{id}]"),
            ),
            false => (
                "deviations_disclosed: [",
                format!("deviations_disclosed: [{id}, "),
            ),
        };
        self.swap("releases.yaml", from, &to);
    }

    /// Adds a second test of the loose module M-26-3107, with traces of its own.
    pub fn retest(&mut self, number: u64, head: &str) {
        let first = self.record("module-tests/vf45.yaml", "MT-26-3107-1");
        let mut record = first
            .replace("MT-26-3107-1", &format!("MT-26-3107-{number}"))
            .replace(
                "test_number: 1\n",
                &format!("test_number: {number}\n{head}"),
            )
            .replace("RUN-0407", &format!("RUN-{:04}", 407 + number))
            .replace("T11:00:00", "T16:00:00");
        for kind in ["df", "bp"] {
            let (old, new) = (
                format!("traces/mt-26-3107-1-{kind}.csv"),
                format!("traces/mt-26-3107-{number}-{kind}.csv"),
            );
            let text: String = self
                .text(&old)
                .lines()
                .enumerate()
                .map(|(i, line)| match i {
                    0 => format!("{line}\n"),
                    _ => {
                        let mut fields: Vec<String> = line.split(',').map(str::to_owned).collect();
                        fields[1] = format!(
                            "{:.2}",
                            fields[1].parse::<f64>().unwrap()
                                + 0.01 * ((7 * i * i + 3 * i) % 5) as f64
                        );
                        fields[2] = format!(
                            "{:.3}",
                            fields[2].parse::<f64>().unwrap()
                                + 0.002 * ((5 * i * i + i) % 7) as f64
                        );
                        fields.join(",") + "\n"
                    }
                })
                .collect();
            let digest =
                |text: &str| sealfolio::ground::digest::Digest::of(text.as_bytes()).to_string();
            record = record
                .replace(&old, &new)
                .replace(&digest(&self.text(&old)), &digest(&text));
            self.files.insert(new, text.into_bytes());
        }
        self.add("module-tests/vf45.yaml", &record);
    }

    /// Read, computed and checked.
    pub fn dossier(&self) -> sealfolio::dossier::Dossier {
        let files = self
            .files
            .iter()
            .map(|(name, bytes)| (std::sync::Arc::from(&**name), bytes.clone()))
            .collect();
        sealfolio::dossier::Dossier::of(sealfolio::record::folder::Folder::of(files, Vec::new()))
    }
}

/// The rows of a trace of gauge pressure and gas temperature, each changed.
pub fn rows(text: &str, change: impl Fn(f64, f64, f64) -> (f64, f64)) -> String {
    let mut lines = text.lines();
    let mut out = format!("{}\n", lines.next().unwrap());
    for line in lines {
        let cells: Vec<f64> = line.split(',').map(|cell| cell.parse().unwrap()).collect();
        let (pressure, warm) = change(cells[0], cells[1], cells[2]);
        out.push_str(&format!("{},{pressure:.2},{warm:.3}\n", cells[0]));
    }
    out
}

/// Adds a calibration in June that found the rig of the modules so far off at a gauge pressure.
pub fn found_off(sound: &mut Sound, nominal: &str, error: &str) {
    let first = sound.record("instruments.yaml", "CA-IT-11-26");
    let points = first.find("points:").unwrap();
    let later = first[..points]
        .replace("CA-IT-11-26", "CA-IT-11-27")
        .replace("2026-01-2", "2026-06-2");
    sound.add(
        "instruments.yaml",
        &format!("{later}points:\n  - {{quantity: pressure_gauge, nominal: \"{nominal}\", as_found_error: \"{error}\", as_left_error: \"0 mbar\", expanded_uncertainty: \"0.5 mbar\", coverage_factor: 2, maximum_permissible_error: \"5 mbar\"}}\nas_found_within_limits: false\n"),
    );
}

/// Weight and words of the findings of a rule.
pub fn said(
    dossier: &sealfolio::dossier::Dossier,
    rule: &str,
) -> Vec<(sealfolio::ground::finding::Severity, String)> {
    let all = dossier.findings();
    let own = all.iter().filter(|finding| finding.rule == rule);
    own.map(|finding| (finding.severity, finding.message.clone()))
        .collect()
}

/// A file, an edit of it, the rule, its weight and its words.
pub type Case = (
    &'static str,
    &'static str,
    &'static str,
    &'static str,
    sealfolio::ground::finding::Severity,
    &'static str,
);

/// Finds that a rule says these words with this weight about a spoiled lot.
pub fn sees(sound: &Sound, rule: &str, weight: sealfolio::ground::finding::Severity, words: &str) {
    let found = said(&sound.dossier(), rule);
    let seen = found
        .iter()
        .any(|(own, message)| *own == weight && message.contains(words));
    assert!(seen, "{rule} does not say {words:?}: {found:?}");
}

/// Finds that each edit of the sound lot, which has no finding, is seen.
pub fn sees_all(cases: &[Case]) {
    assert!(Sound::read().dossier().findings().is_empty());
    for (file, from, to, rule, weight, words) in cases {
        let mut sound = Sound::read();
        sound.swap(file, from, to);
        sees(&sound, rule, *weight, words);
    }
}

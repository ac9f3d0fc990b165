//! Writes a plant of any size as records: copies of the sound lot of `tests/sound`, each with rolls, runs and names of
//! its own, a week apart, and new instruments for every 26 lots. Every copy is sound, so that what is measured on it is work
//! and not findings; or every Nth lot has one fault, each of five in its turn, and `FOLDER.faults.json` says which.
//!
//! `cargo run --release --example plant -- LOTS FOLDER [N]`; a lot has two assemblies, eight modules and some thirty records of
//! its own; those that were in service while the year lasts have their cycles and flow tests too.

use std::{env, fs, path::Path, process::ExitCode};

use jiff::{ToSpan as _, civil::Date};
use sealfolio::{commitment::parts, ground::digest::Digest};
use serde_json::json;

/// Files that every lot has of its own; of `materials.yaml` the rolls.
const OWN: &[&str] = &[
    "assemblies.yaml",
    "assembly-tests/vf45.yaml",
    "flow.yaml",
    "lots.yaml",
    "marks.yaml",
    "membrane-tests.yaml",
    "module-tests/vf45.yaml",
    "pleating.yaml",
    "releases.yaml",
    "seals.yaml",
    "service.yaml",
    "slitting.yaml",
];
/// Of these only lots that were made early in the year have any: the elements came back before it ended.
const OF_SERVICE: &[&str] = &["flow.yaml", "service.yaml"];
const EARLY: usize = 14;
/// Ids that lots have of their own, by how they begin.
const NAMES: &[&str] = &[
    "M-26-", "A-26-", "L26-31", "RM-7", "RUN-", "CP-L26", "MT-26", "AT-26", "AB-26", "SR-L26",
    "SI-L26", "MK-L26", "LR-L26", "PL-L26", "RS-L26", "DN-26", "PO-26", "ST-26", "MB-26", "CL-26-",
    "FT-26-", "mt-26", "at-26", "sr-l26", "cl-26-",
];
/// Instruments, by how their names begin.
const INSTRUMENTS: &[&str] = &[
    "IT-1", "TH-0", "PT-0", "PF-0", "FM-0", "CL-0", "MC-0", "CA-", "ca-",
];
/// Lots that one set of instruments tests: a week each, inside the year of its calibration.
const LOTS_A_SET: usize = 26;

/// One thing that is wrong in a lot, and the rule that must say so.
struct Fault {
    rule: &'static str,
    /// The record that it is about, in the model.
    about: &'static str,
    file: &'static str,
    /// Behind the first of these words …
    after: &'static str,
    /// … this stands instead of that.
    swap: (&'static str, &'static str),
}

const FAULTS: &[Fault] = &[
    Fault {
        rule: "R05",
        about: "MT-26-3104-1",
        file: "module-tests/vf45.yaml",
        after: "record_id: MT-26-3104-1",
        swap: ("-1-df.csv", "-1-dg.csv"),
    },
    Fault {
        rule: "R17",
        about: "AB-26-2101",
        file: "assemblies.yaml",
        after: "record_id: AB-26-2101",
        swap: ("OR-35", "OR-36"),
    },
    Fault {
        rule: "R36",
        about: "SI-L26-31-A",
        file: "seals.yaml",
        after: "record_id: SI-L26-31-A",
        swap: ("recorded_by: P-05", "recorded_by: P-02"),
    },
    Fault {
        rule: "R40",
        about: "MT-26-3101-1",
        file: "module-tests/vf45.yaml",
        after: "record_id: MT-26-3101-1",
        swap: ("{value: \"8.5 mL/min\"", "{value: \"9.5 mL/min\""),
    },
    Fault {
        rule: "R41",
        about: "MT-26-3102-1",
        file: "module-tests/vf45.yaml",
        after: "record_id: MT-26-3102-1",
        swap: ("\"8.2 L\"", "\"2.1 L\""),
    },
];

impl Fault {
    /// The file of the model with the fault in it.
    fn planted(&self, name: &str, text: &str) -> std::io::Result<String> {
        if name != self.file {
            return Ok(text.to_owned());
        }
        let (old, new) = self.swap;
        let spoiled = text.split_once(self.after).and_then(|(head, tail)| {
            tail.contains(old)
                .then(|| format!("{head}{}{}", self.after, tail.replacen(old, new, 1)))
        });
        let lost = || std::io::Error::other(format!("{name} of tests/sound has no {old}"));
        spoiled.ok_or_else(lost)
    }
}

/// One lot of many.
struct Copy {
    n: usize,
}

impl Copy {
    /// An id of the model as this lot's own.
    fn id(&self, word: &str) -> String {
        if let Some(run) = word.strip_prefix("RUN-") {
            // Runs of a rig are counted: eight of modules and two of assemblies a lot.
            let model: usize = run.parse().unwrap_or_default();
            let lot = if model < 800 { 8 } else { 2 };
            return format!("RUN-{:04}", model + lot * (self.n % LOTS_A_SET));
        }
        let begins = |all: &[&str]| all.iter().any(|begin| word.starts_with(begin));
        if begins(NAMES) && self.n > 0 {
            format!("{word}-{}", self.n)
        } else if begins(INSTRUMENTS) && self.n >= LOTS_A_SET {
            format!("{word}-{}", self.n / LOTS_A_SET)
        } else {
            self.day(word).unwrap_or_else(|| word.to_owned())
        }
    }

    /// A day of the model, so many weeks later.
    fn day(&self, word: &str) -> Option<String> {
        let day: Date = word
            .get(..10)
            .filter(|day| day.starts_with("2026-"))?
            .parse()
            .ok()?;
        let later = day
            .checked_add((7 * (self.n % LOTS_A_SET) as i64).days())
            .ok()?;
        Some(format!("{later}{}", &word[10..]))
    }

    /// Every word of a text; words end where no letter, digit, dash or point follows.
    fn text(&self, text: &str) -> String {
        let inside = |c: char| c.is_ascii_alphanumeric() || "-_".contains(c);
        let mut out = String::with_capacity(text.len() + text.len() / 8);
        let mut rest = text;
        while let Some(begin) = rest.find(inside) {
            out.push_str(&rest[..begin]);
            let end = rest[begin..]
                .find(|c| !inside(c))
                .map_or(rest.len(), |end| begin + end);
            out.push_str(&self.id(&rest[begin..end]));
            rest = &rest[end..];
        }
        out + rest
    }

    /// Readings that are written into a record, with a last digit more that is this lot's own: no two lots have the same.
    fn readings(&self, name: &str, text: &str) -> String {
        let (before, after, unit) = match name {
            "membrane-tests.yaml" => ("readings: [", "]", " bar\""),
            "flow.yaml" => ("differential_pressure: ", "}", " mbar\""),
            _ => return text.to_owned(),
        };
        let mut number = 0;
        let mut out = String::new();
        for (i, part) in text.split(before).enumerate() {
            let Some((list, rest)) = part.split_once(after).filter(|_| i > 0 && self.n > 0) else {
                out.push_str(if i > 0 { before } else { "" });
                out.push_str(part);
                continue;
            };
            out.push_str(before);
            for (j, piece) in list.split(unit).enumerate() {
                if j > 0 {
                    let digit = self.n / 10_usize.pow(number % 5) % 10;
                    out.push_str(&format!("{digit}{unit}"));
                    number += 1;
                }
                out.push_str(piece);
            }
            out.push_str(after);
            out.push_str(rest);
        }
        out
    }

    /// A trace with noise of its own: the last digits of its readings, up to five either way; of a temperature up to one.
    fn trace(&self, name: &str, text: &str) -> String {
        let mut noise = Noise(Digest::of(format!("{name} {}", self.n).as_bytes()).0);
        let most = if name.starts_with("cl-") { 1 } else { 5 };
        let mut out = String::new();
        for (row, line) in text.lines().enumerate() {
            for (column, field) in line.split(',').enumerate() {
                let own = match field.rsplit_once('.') {
                    Some((whole, digits)) if self.n > 0 && row > 0 && column > 0 => {
                        noise.next(whole, digits, most)
                    }
                    // The pressure of a cycle of steam is a whole number.
                    None if self.n > 0 && row > 0 && column > 0 && most == 1 => noise
                        .next("0", field, most)
                        .trim_start_matches("0.")
                        .to_owned(),
                    _ => self.text(field),
                };
                out.push_str(if column > 0 { "," } else { "" });
                out.push_str(&own);
            }
            out.push('\n');
        }
        out
    }
}

/// Noise that is the same at every run.
struct Noise([u8; 32]);

impl Noise {
    /// A reading with its last digit moved, by so much at most.
    fn next(&mut self, whole: &str, digits: &str, most: i64) -> String {
        self.0 = Digest::of(&self.0).0;
        let width = digits.len();
        let Ok(value) = format!("{whole}{digits}").parse::<i64>() else {
            return format!("{whole}.{digits}");
        };
        let moved = value + i64::from(self.0[0]) % (2 * most + 1) - most;
        let scale = 10_i64.pow(width as u32);
        let sign = if moved < 0 { "-" } else { "" };
        format!(
            "{sign}{}.{:0width$}",
            moved.abs() / scale,
            moved.abs() % scale
        )
    }
}

fn main() -> ExitCode {
    let args: Vec<String> = env::args().skip(1).collect();
    let (lots, into, every) = match &args[..] {
        [lots, into] => (lots, into, None),
        [lots, into, every] => (lots, into, every.parse().ok().filter(|every| *every > 0)),
        _ => {
            eprintln!("plant LOTS FOLDER [N: every Nth lot has a fault]");
            return ExitCode::from(2);
        }
    };
    let lots: usize = match lots.parse() {
        Ok(lots) if lots > 0 => lots,
        _ => {
            eprintln!("LOTS is a number from 1");
            return ExitCode::from(2);
        }
    };
    let into = Path::new(into);
    if into.exists() {
        eprintln!("{} exists already", into.display());
        return ExitCode::from(2);
    }
    match write(lots, into, every) {
        Ok(()) => ExitCode::SUCCESS,
        Err(error) => {
            eprintln!("{error}");
            ExitCode::from(2)
        }
    }
}

fn put(path: &Path, text: &[u8]) -> std::io::Result<()> {
    fs::create_dir_all(path.parent().unwrap_or(path))?;
    fs::write(path, text)
}

fn write(lots: usize, into: &Path, every: Option<usize>) -> std::io::Result<()> {
    let model = Path::new(concat!(env!("CARGO_MANIFEST_DIR"), "/tests/sound"));
    let read = |name: &str| fs::read_to_string(model.join(name));
    // What all lots share.
    for name in [
        "claims.yaml",
        "endurance.yaml",
        "intake.yaml",
        "people.yaml",
        "product.yaml",
        "requirements.yaml",
        "retention.yaml",
        "specifications.yaml",
        "studies.yaml",
        "attachments/vr-vf45.txt",
        "narrative/01-what-this-is.md",
        "copies.key",
    ] {
        put(&into.join(name), read(name)?.as_bytes())?;
    }
    let materials = read("materials.yaml")?;
    let of_materials = |rolls: bool| -> String {
        let all = parts(materials.as_bytes())
            .into_iter()
            .map(|part| &materials[part]);
        all.filter(|text| text.contains("material_type: membrane_roll") == rolls)
            .map(|text| format!("---\n{}", text.trim_start_matches("---\n")))
            .collect()
    };
    put(&into.join("materials.yaml"), of_materials(false).as_bytes())?;
    let head = read("dossier.yaml")?;
    let head: String = head
        .lines()
        .map(|line| match line.split(':').next() {
            Some("compiled_on") => "compiled_on: \"2026-12-30\"\n".to_owned(),
            Some("scope") => String::new(),
            _ => format!("{line}\n"),
        })
        .collect();
    put(&into.join("dossier.yaml"), head.as_bytes())?;
    let listing = |folder: &str| -> std::io::Result<Vec<(String, String)>> {
        let mut names: Vec<String> = fs::read_dir(model.join(folder))?
            .map(|entry| Ok(entry?.file_name().to_string_lossy().into_owned()))
            .collect::<std::io::Result<_>>()?;
        names.sort();
        names
            .into_iter()
            .map(|name| Ok((name.clone(), read(&format!("{folder}/{name}"))?)))
            .collect()
    };
    let certificates = listing("attachments")?;
    let traces = listing("traces")?;
    let own: Vec<(&str, String)> = OWN
        .iter()
        .map(|name| Ok((*name, read(name)?)))
        .collect::<std::io::Result<_>>()?;
    let mut planted = Vec::new();
    for n in 0..lots {
        let copy = Copy { n };
        let fault = every.filter(|every| n % every == every - 1);
        let fault = fault.map(|every| &FAULTS[n / every % FAULTS.len()]);
        if let Some(fault) = fault {
            planted.push(json!({"rule": fault.rule, "about": copy.id(fault.about)}));
        }
        let early = n % LOTS_A_SET < EARLY;
        if n % LOTS_A_SET == 0 {
            let mut text = read("instruments.yaml")?;
            for (name, certificate) in certificates
                .iter()
                .filter(|(name, _)| name.starts_with("ca-"))
            {
                let same_day = Copy {
                    n: n / LOTS_A_SET * LOTS_A_SET,
                };
                let new = same_day.text(certificate);
                text = text.replace(
                    &Digest::of(certificate.as_bytes()).to_string(),
                    &Digest::of(new.as_bytes()).to_string(),
                );
                put(
                    &into.join("attachments").join(same_day.text(name)),
                    new.as_bytes(),
                )?;
            }
            put(
                &into.join(format!("instruments/{}.yaml", n / LOTS_A_SET)),
                copy.text(&text).as_bytes(),
            )?;
        }
        let folder = into.join(format!("lots/{:06}", n));
        let mut digests = Vec::new();
        for (name, trace) in traces
            .iter()
            .filter(|(name, _)| early || !name.starts_with("cl-"))
        {
            let new = copy.trace(name, trace);
            digests.push((
                Digest::of(trace.as_bytes()).to_string(),
                Digest::of(new.as_bytes()).to_string(),
            ));
            // A folder of their own for each lot: a stick takes only so many names in one.
            put(&folder.join("traces").join(copy.text(name)), new.as_bytes())?;
        }
        let rolls = of_materials(true);
        for (name, text) in own
            .iter()
            .map(|(name, text)| (*name, &**text))
            .chain([("rolls.yaml", &*rolls)])
            .filter(|(name, _)| early || !OF_SERVICE.contains(name))
        {
            let text = match fault {
                Some(fault) => fault.planted(name, text)?,
                None => text.to_owned(),
            };
            // Readings are moved here, so no export gave them.
            let kept = text
                .split_inclusive('\n')
                .filter(|line| !line.starts_with("taken_from: "));
            let mut new = kept
                .collect::<String>()
                .replace("traces/", &format!("lots/{n:06}/traces/"));
            for (old, digest) in &digests {
                new = new.replace(old, digest);
            }
            let new = copy.readings(name, &new);
            put(
                &folder.join(name.replace('/', "-")),
                copy.text(&new).as_bytes(),
            )?;
        }
    }
    if every.is_some() {
        fs::write(
            into.with_extension("faults.json"),
            json!(planted).to_string(),
        )?;
    }
    Ok(())
}

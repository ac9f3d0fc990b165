//! What changed between two dossiers: records, files, figures, verdicts, findings, what is released, and who signs.
//!
//! A [`State`] holds what of a dossier can change; two of them give [`Changes`]. A state can be sealed in a later
//! dossier, so that a copy shows what changed, and can be checked, without the older one at hand.

use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};

use crate::{
    graph::Graph,
    ground::{digest::Digest, finding::Finding},
    plant::Plant,
    record::folder::holds_records,
};

/// What of a dossier can change, without its pages.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct State {
    /// The form of this value, for readers of later versions.
    pub format: u32,
    /// The dossier's id.
    pub id: String,
    /// Its revision.
    pub revision: u64,
    /// The digest of its copy, 64 hexadecimal digits; nothing where it is a folder that was not compiled.
    pub digest: Option<String>,
    /// Current records by `kind id`.
    pub records: BTreeMap<String, Written>,
    /// Digests of all files that hold no records.
    pub files: BTreeMap<String, String>,
    /// Figures by their identity.
    pub figures: BTreeMap<String, Computed>,
    /// Findings: rule, what it is about, what it says.
    pub findings: Vec<Said>,
    /// Assemblies that release statements list.
    pub released: Vec<String>,
    /// Signatures that release statements name: `statement meaning: person, time`.
    pub signed: Vec<String>,
}

/// A record as it was written.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Written {
    /// Its revision.
    pub revision: u64,
    /// Digest of its lines.
    pub lines: String,
}

/// A figure as it came out.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Computed {
    /// In the unit it is printed in; nothing where it has no number.
    pub value: Option<f64>,
    /// As printed.
    pub shown: String,
    /// Its limit, as printed; empty for none.
    pub limit: String,
    /// The verdict, in English.
    pub verdict: String,
}

/// A finding.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub struct Said {
    /// The rule.
    pub rule: String,
    /// The weight, in English.
    pub severity: String,
    /// What it says.
    pub message: String,
}

impl State {
    /// The state of a dossier; `digest` of its copy, where there is one.
    pub fn of(
        plant: &Plant,
        graph: &Graph,
        findings: &[&Finding],
        digest: Option<String>,
    ) -> State {
        let head = plant.records().head();
        let text = |name: &str| {
            let file = plant.folder.files.get(name);
            file.map_or("", |file| {
                std::str::from_utf8(&file.bytes).unwrap_or_default()
            })
        };
        // A record's lines end where the next record of its file begins.
        let mut begins: BTreeMap<&str, Vec<usize>> = BTreeMap::new();
        for record in &plant.records().all {
            let all = begins.entry(&record.file).or_default();
            all.push(record.spot.line as usize);
        }
        begins.values_mut().for_each(|lines| lines.sort_unstable());
        let mut texts: BTreeMap<&str, Vec<&str>> = BTreeMap::new();
        let records = plant.records().current().map(|record| {
            let begin = record.spot.line as usize;
            let all = begins.get(&*record.file);
            let next = all.and_then(|all| all.get(all.partition_point(|line| *line <= begin)));
            let count = next.map_or(usize::MAX, |next| next - begin);
            let lines = texts.entry(&record.file);
            let lines = lines.or_insert_with(|| text(&record.file).lines().collect());
            let lines = lines.iter().copied();
            let lines: Vec<&str> = lines
                .skip(begin.saturating_sub(1))
                .take(count)
                .map(str::trim_end)
                .filter(|line| !line.is_empty() && *line != "---" && !line.starts_with('#'))
                .collect();
            let written = Written {
                revision: record.revision,
                lines: Digest::of(lines.join("\n").as_bytes()).to_string(),
            };
            (format!("{} {}", record.kind, &*record.id), written)
        });
        let figures = graph.computed.values().map(|computed| {
            let unit = &computed.figure.unit;
            let found = Computed {
                value: computed
                    .quantity()
                    .map(|quantity| unit.of_si(quantity.value)),
                shown: computed.shown(),
                limit: computed
                    .judgement
                    .as_ref()
                    .map_or(String::new(), |judgement| judgement.limit.text.clone()),
                verdict: computed.verdict().words().into(),
            };
            (computed.id.to_string(), found)
        });
        let mut said: Vec<Said> = findings
            .iter()
            .map(|finding| Said {
                rule: finding.rule.into(),
                severity: finding.severity.words().into(),
                message: finding.message.clone(),
            })
            .collect();
        said.sort();
        let signed = plant.releases().flat_map(|(record, release)| {
            release.signatures.iter().map(|signature| {
                format!(
                    "{} {}: {}, {}",
                    &*record.id,
                    &*signature.meaning,
                    &*signature.person_id,
                    signature.signed_at.time.written()
                )
            })
        });
        State {
            format: 1,
            id: head.map_or(String::new(), |(record, _)| record.id.to_string()),
            revision: head.map_or(1, |(record, _)| record.revision),
            digest,
            records: records.collect(),
            files: plant
                .folder
                .files
                .iter()
                .filter(|(name, _)| !holds_records(name))
                .map(|(name, file)| (name.to_string(), file.digest.to_string()))
                .collect(),
            figures: figures.collect(),
            findings: said,
            released: plant.released().iter().map(|id| (*id).to_owned()).collect(),
            signed: signed.collect(),
        }
    }
}

/// How a later dossier names the one before.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Succession {
    /// By id, revision and digest, and it is this one.
    ByDigest,
    /// By id and revision, without a digest: any copy of that revision would do.
    WithoutDigest,
    /// By another id, revision or digest.
    Another,
    /// Not at all.
    Unnamed,
}

impl Succession {
    /// How a plant's dossier record names an older state.
    pub fn of(plant: &Plant, old: &State) -> Succession {
        let named = plant
            .records()
            .head()
            .and_then(|(_, head)| head.supersedes.as_ref());
        let Some(named) = named else {
            return Succession::Unnamed;
        };
        if *named.id.text != *old.id || named.revision.value != old.revision {
            return Succession::Another;
        }
        match (&named.digest, &old.digest) {
            (None, _) | (_, None) => Succession::WithoutDigest,
            (Some(named), Some(own)) if named.trim_start_matches("sha256:") == own => {
                Succession::ByDigest
            }
            _ => Succession::Another,
        }
    }

    /// A word for machines.
    pub fn words(self) -> &'static str {
        match self {
            Succession::ByDigest => "by digest",
            Succession::WithoutDigest => "without digest",
            Succession::Another => "another",
            Succession::Unnamed => "unnamed",
        }
    }

    /// In words, in the language of the run.
    pub fn said(self) -> &'static str {
        match self {
            Succession::ByDigest => {
                say!("The later dossier names this very copy as superseded, by its digest.")
            }
            Succession::WithoutDigest => say!(
                "The later dossier names this revision as superseded, without a digest: nothing shows that it means this very copy."
            ),
            Succession::Another => {
                say!("The later dossier names another dossier as superseded, not this copy.")
            }
            Succession::Unnamed => {
                say!("The later dossier does not say that it supersedes another.")
            }
        }
    }
}

/// Something before and after.
#[derive(Clone, Debug, PartialEq)]
pub struct Moved {
    /// What.
    pub id: String,
    /// Before.
    pub before: String,
    /// After.
    pub after: String,
}

/// Things by name: what came, what went, what became another.
#[derive(Clone, Debug, PartialEq, Default)]
pub struct Difference {
    /// There now and not before.
    pub came: Vec<String>,
    /// There before and not now.
    pub went: Vec<String>,
    /// There before and now, and not the same.
    pub moved: Vec<Moved>,
}

impl Difference {
    fn of<T: PartialEq>(
        old: &BTreeMap<String, T>,
        new: &BTreeMap<String, T>,
        show: impl Fn(&T) -> String,
    ) -> Difference {
        let missing = |here: &BTreeMap<String, T>, there: &BTreeMap<String, T>| {
            let ids = here.keys().filter(|id| !there.contains_key(*id));
            ids.cloned().collect()
        };
        let both = new
            .iter()
            .filter_map(|(id, after)| Some((id, old.get(id)?, after)));
        Difference {
            came: missing(new, old),
            went: missing(old, new),
            moved: both
                .filter(|(_, before, after)| before != after)
                .map(|(id, before, after)| Moved {
                    id: id.clone(),
                    before: show(before),
                    after: show(after),
                })
                .collect(),
        }
    }

    /// Of lists: what came and what went.
    fn of_lists(old: &[String], new: &[String]) -> Difference {
        let named = |all: &[String]| all.iter().map(|id| (id.clone(), ())).collect();
        Difference::of(&named(old), &named(new), |()| String::new())
    }

    /// Whether nothing differs.
    pub fn none(&self) -> bool {
        self.came.is_empty() && self.went.is_empty() && self.moved.is_empty()
    }
}

/// What changed from one dossier to a later one.
#[derive(Clone, Debug, PartialEq)]
pub struct Changes {
    /// Records: revised ones move from one revision to another.
    pub records: Difference,
    /// Records whose lines differ although their revision is the same.
    pub altered: Vec<String>,
    /// Files that hold no records, by digest.
    pub files: Difference,
    /// Figures, by value and limit.
    pub figures: Difference,
    /// Verdicts of figures that are in both.
    pub verdicts: Vec<Moved>,
    /// Findings that came and went.
    pub findings: (Vec<Said>, Vec<Said>),
    /// Assemblies released.
    pub released: Difference,
    /// Signatures named.
    pub signed: Difference,
}

impl Changes {
    /// What changed.
    pub fn between(old: &State, new: &State) -> Changes {
        let revisions = |state: &State| -> BTreeMap<String, u64> {
            let all = state.records.iter();
            all.map(|(id, record)| (id.clone(), record.revision))
                .collect()
        };
        let altered = new.records.iter().filter(|(id, record)| {
            old.records.get(*id).is_some_and(|before| {
                before.revision == record.revision && before.lines != record.lines
            })
        });
        // The bits of the value: what is printed alike may still be another number.
        let shown = |state: &State| -> BTreeMap<String, (Option<u64>, String)> {
            let all = state.figures.iter();
            all.map(|(id, figure)| {
                let text = match &*figure.limit {
                    "" => figure.shown.clone(),
                    limit => format!("{} ({limit})", figure.shown),
                };
                (id.clone(), (figure.value.map(f64::to_bits), text))
            })
            .collect()
        };
        let verdicts = new.figures.iter().filter_map(|(id, after)| {
            let before = old.figures.get(id)?;
            (before.verdict != after.verdict).then(|| Moved {
                id: id.clone(),
                before: before.verdict.clone(),
                after: after.verdict.clone(),
            })
        });
        let only = |here: &State, there: &State| -> Vec<Said> {
            let said = here.findings.iter();
            said.filter(|said| there.findings.binary_search(said).is_err())
                .cloned()
                .collect()
        };
        Changes {
            records: Difference::of(&revisions(old), &revisions(new), u64::to_string),
            altered: altered.map(|(id, _)| id.clone()).collect(),
            files: Difference::of(&old.files, &new.files, |digest| {
                digest.chars().take(12).collect()
            }),
            figures: Difference::of(&shown(old), &shown(new), |(_, shown)| shown.clone()),
            verdicts: verdicts.collect(),
            findings: (only(new, old), only(old, new)),
            released: Difference::of_lists(&old.released, &new.released),
            signed: Difference::of_lists(&old.signed, &new.signed),
        }
    }
}

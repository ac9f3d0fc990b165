//! Everything read, computed and checked, in one value.

use std::{collections::BTreeSet, path::Path, sync::OnceLock};

use crate::{
    changes::State,
    commitment::Commitment,
    extract::{Beyond, Copy},
    figure::FigureId,
    figures,
    graph::Graph,
    ground::{
        digest::Digest,
        finding::{Finding, Severity},
        name::{capital, nearest},
        place::{Place, Spot},
        words,
    },
    plant::Plant,
    prose,
    record::folder::{self, Folder, Unusable},
    rule::{Checked, Outcome, View},
    rules,
    trend::{self, Member, Series, past::Past},
};

/// A dossier: what pages, terminal and machines look at.
pub struct Dossier {
    /// Records and genealogy.
    pub plant: Plant,
    /// The figures.
    pub graph: Graph,
    /// Every rule with what it found.
    pub checked: Vec<Checked>,
    /// Older dossiers, for trends alone.
    pub history: Vec<Past>,
    /// The dossier that this one supersedes, where it was at hand.
    pub previous: Option<State>,
    /// What it holds of the dossier from which it was taken, where it is a customer's copy.
    pub copy: Option<Copy>,
    /// Whether the figures are written as a table too (`figures.parquet`).
    pub table: bool,
    root: OnceLock<Digest>,
}

/// Rules that stand on an element's own records and on those of its materials and instruments, all of which a copy shows: what they find is never for want of records that
/// are withheld, whatever a proof says.
const NEVER_BEYOND: [&str; 31] = [
    "R03", "R05", "R06", "R07", "R14", "R15", "R17", "R21", "R23", "R30", "R32", "R40", "R41",
    "R42", "R43", "R44", "R45", "R46", "R47", "R48", "R55", "R60", "R61", "R62", "R63", "R64",
    "R79", "R84", "R90", "R92", "R93",
];

impl Dossier {
    /// Reads a folder, computes every figure and runs every rule; from here on the run speaks the
    /// language of the dossier.
    ///
    /// # Errors
    /// When the folder cannot be used at all.
    pub fn build(root: &Path) -> Result<Dossier, Unusable> {
        let head = std::fs::read(root.join("dossier.yaml")).unwrap_or_default();
        words::speak(folder::language(&head));
        Dossier::silently(root)
    }

    /// The same for another dossier than the one of the run, whose language does not matter.
    ///
    /// # Errors
    /// As [`Dossier::build`].
    pub fn silently(root: &Path) -> Result<Dossier, Unusable> {
        Ok(Dossier::of(Folder::read(root)?))
    }

    /// What of it can change; `digest` of its copy, where there is one.
    pub fn state(&self, digest: Option<String>) -> State {
        State::of(&self.plant, &self.graph, &self.findings(), digest)
    }

    /// The same for a folder that was read already.
    pub fn of(folder: Folder) -> Dossier {
        let plant = Plant::new(folder);
        let graph = Graph::compute(&plant, figures::ALL);
        let checked = View::new(&plant, &graph).run(rules::ALL);
        Dossier::from_parts(plant, graph, checked)
    }

    /// The same from what was computed already.
    pub fn from_parts(plant: Plant, graph: Graph, mut checked: Vec<Checked>) -> Dossier {
        if let Some(reading) = checked.iter_mut().find(|checked| checked.rule.id == "R01") {
            reading.outcome.findings.extend(chapters(&plant, &graph));
            reading.outcome.findings.extend(unfilled(&plant));
        }
        Dossier {
            plant,
            graph,
            checked,
            history: Vec::new(),
            previous: None,
            copy: None,
            table: false,
            root: OnceLock::new(),
        }
    }

    /// The same as a customer's copy: what its rules would say only because records are withheld is no finding here.
    pub fn copied(mut self, copy: Copy) -> Dossier {
        let beyond: BTreeSet<Beyond> = copy.proof.beyond.iter().cloned().collect();
        for checked in &mut self.checked {
            let outcome = &mut checked.outcome;
            let before = outcome.findings.len();
            outcome.findings.retain(|finding| {
                NEVER_BEYOND.contains(&finding.rule)
                    || !beyond.contains(&Beyond {
                        rule: finding.rule.into(),
                        message: finding.message.clone(),
                    })
            });
            if outcome.findings.len() < before {
                outcome.blind = Some(say!("it looks at more than this copy shows; of the whole dossier it was evaluated").into());
            }
            if checked.rule.id == "R80" {
                *outcome = complete(&copy, &self.plant);
            }
        }
        self.copy = Some(copy);
        self
    }

    /// The root over all records; a customer's copy bears that of the dossier from which it was taken.
    pub fn root(&self) -> Digest {
        *self.root.get_or_init(|| match &self.copy {
            Some(copy) => copy.root().unwrap_or(Digest([0; 32])),
            None => Commitment::of(&self.plant).root(&self.plant.folder),
        })
    }

    /// This dossier as one that later ones look back on.
    pub fn into_past(self, digest: String) -> Past {
        let draft = self.count(Severity::Blocks) > 0;
        let head = self.plant.records().head();
        Past {
            title: head.map_or("unnamed".into(), |(record, _)| record.id.to_string()),
            revision: head.map_or(1, |(record, _)| record.revision),
            digest,
            lots: self.plant.lots.keys().map(|lot| lot.to_string()).collect(),
            draft,
            series: trend::all(&self.plant, &self.graph),
        }
    }

    /// Every characteristic in the order of production, over this dossier and the older ones.
    pub fn series(&self) -> Vec<Series> {
        let mut all = trend::all(&self.plant, &self.graph);
        for (n, past) in self.history.iter().enumerate() {
            for older in &past.series {
                // What this dossier does not follow is no concern of its trends.
                let Some(own) = all.iter_mut().find(|own| own.key == older.key) else {
                    continue;
                };
                let known: BTreeSet<&FigureId> = own.members.iter().map(|m| &m.id).collect();
                let new: Vec<Member> = older
                    .members
                    .iter()
                    .filter(|member| !known.contains(&member.id))
                    .map(|member| Member {
                        past: Some(n),
                        ..member.clone()
                    })
                    .collect();
                own.members.extend(new);
            }
        }
        all.iter_mut().for_each(trend::order);
        all
    }

    /// What rules and pages ask of it.
    pub fn view(&self) -> View<'_> {
        View::new(&self.plant, &self.graph)
    }

    /// Every finding, the heaviest first.
    pub fn findings(&self) -> Vec<&Finding> {
        let mut all: Vec<&Finding> = self
            .checked
            .iter()
            .flat_map(|checked| &checked.outcome.findings)
            .collect();
        all.sort_by(|a, b| a.sort_key().cmp(&b.sort_key()));
        all
    }

    /// How many findings of a weight.
    pub fn count(&self, severity: Severity) -> usize {
        self.checked
            .iter()
            .flat_map(|checked| &checked.outcome.findings)
            .filter(|finding| finding.severity == severity)
            .count()
    }
}

/// Whether a customer's copy leads to the root that was signed, and counts what it shows.
fn complete(copy: &Copy, plant: &Plant) -> Outcome {
    let mut outcome = Outcome::of(say!("pieces of customer's copies"));
    let (shown, sealed) = Copy::totals(&copy.proof);
    outcome.looked = shown + sealed;
    outcome.findings = copy
        .flaws(plant)
        .into_iter()
        .map(|flaw| {
            Finding::new("R80", Severity::Blocks, capital(&flaw) + ".")
                .advise(say!("Do not use the copy; ask its maker for another."))
        })
        .collect();
    if outcome.findings.is_empty() {
        outcome.findings.push(Finding::new(
            "R80",
            Severity::Note,
            say!("{shown} pieces are shown, {sealed} stay sealed; together with the seals of all that is withheld they give the root that was signed.", shown = shown, sealed = sealed),
        ));
    }
    outcome
}

/// Chapters that are missing, and figures that chapters name and nobody computed.
fn chapters(plant: &Plant, graph: &Graph) -> Vec<Finding> {
    let Some((record, head)) = plant.records().head() else {
        return Vec::new();
    };
    let mut found = Vec::new();
    let block = |message: String| Finding::new("R01", Severity::Blocks, message);
    for chapter in head.chapters.iter() {
        let Some((name, file)) = plant.folder.files.get_key_value(&*chapter.text) else {
            found.push(
                block(say!(
                    "the chapter {chapter} is not in the folder",
                    chapter = &**chapter
                ))
                .advise(say!("Write it, or take it off the list."))
                .at(record.at(chapter.spot)),
            );
            continue;
        };
        let Ok(text) = std::str::from_utf8(&file.bytes) else {
            found.push(
                block(say!("is not UTF-8").into())
                    .advise(say!("Save the file again with the encoding UTF-8."))
                    .at(Place::whole(name)),
            );
            continue;
        };
        for named in prose::figures(text)
            .into_iter()
            .filter(|named| graph.named(&named.id).is_none())
        {
            let known: Vec<String> = graph.computed.keys().map(ToString::to_string).collect();
            let near = nearest(&named.id, known.iter().map(String::as_str))
                .map_or(String::new(), |near| {
                    say!(" (did you mean {near}?)", near = near)
                });
            let spot = Spot {
                line: named.line,
                column: named.column,
            };
            found.push(
                block(say!(
                    "there is no figure {id}{near}",
                    id = named.id,
                    near = near
                ))
                .advise(say!(
                    "`sealfolio explain FIGURE` lists the figures; a chapter never types a number."
                ))
                .at(Place::new(name, spot)),
            );
        }
    }
    found
}

/// Words of the form that `new` writes and that nobody has filled in, once something is to be released.
fn unfilled(plant: &Plant) -> Vec<Finding> {
    let records = plant.records();
    if plant.releases().next().is_none() {
        return Vec::new();
    }
    let head = records.head().into_iter().flat_map(|(record, head)| {
        let customers = head.customers.iter().chain(&head.customer);
        let customers = customers.map(|customer| &customer.name);
        let own = [&head.maker.name].into_iter().chain(customers);
        own.map(move |text| (record, text))
    });
    let people = records.personnel_authorisations();
    let people = people.flat_map(|(record, body)| {
        body.persons
            .iter()
            .map(move |person| (record, &person.printed_name))
    });
    let still = head
        .chain(people)
        .filter(|(_, text)| FORM.contains(&&*text.text));
    still
        .map(|(record, text)| {
            Finding::new(
                "R01",
                Severity::Blocks,
                say!(
                    "\"{text}\" still stands here, as the form has it.",
                    text = &**text
                ),
            )
            .advise(say!(
                "Write the name of the maker, the customer or the person."
            ))
            .at(record.at(text.spot))
        })
        .collect()
}

/// What stands for names in the files that `new` writes.
pub const FORM: [&str; 5] = [
    "Name of the maker",
    "Name of the customer",
    "Name of the quality manager",
    "Name of the reviewer",
    "Name of who writes records",
];

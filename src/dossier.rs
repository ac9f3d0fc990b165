//! Everything read, computed and checked, in one value.

use std::{collections::BTreeSet, path::Path};

use crate::{
    changes::State,
    figure::FigureId,
    figures,
    graph::Graph,
    ground::{
        finding::{Finding, Severity},
        name::nearest,
        place::{Place, Spot},
        words,
    },
    plant::Plant,
    prose,
    record::folder::{self, Folder, Unusable},
    rule::{Checked, View},
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
}

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
        let mut checked = View::new(&plant, &graph).run(rules::ALL);
        if let Some(reading) = checked.iter_mut().find(|checked| checked.rule.id == "R01") {
            reading.outcome.findings.extend(chapters(&plant, &graph));
        }
        Dossier {
            plant,
            graph,
            checked,
            history: Vec::new(),
            previous: None,
        }
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
        self.findings()
            .iter()
            .filter(|finding| finding.severity == severity)
            .count()
    }
}

/// Chapters that are missing, and figures that chapters name and nobody computed.
fn chapters(plant: &Plant, graph: &Graph) -> Vec<Finding> {
    let Some((record, head)) = plant.records().head() else {
        return Vec::new();
    };
    let known: std::collections::BTreeSet<String> =
        graph.computed.keys().map(ToString::to_string).collect();
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
            .filter(|named| !known.contains(&named.id))
        {
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

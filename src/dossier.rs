//! Everything read, computed and checked, in one value.

use std::path::Path;

use crate::{
    figures,
    graph::Graph,
    ground::{
        finding::{Finding, Severity},
        name::nearest,
        place::{Place, Spot},
    },
    plant::Plant,
    prose,
    record::folder::{Folder, Unusable},
    rule::{Checked, View},
    rules,
};

/// A dossier: what pages, terminal and machines look at.
pub struct Dossier {
    /// Records and genealogy.
    pub plant: Plant,
    /// The figures.
    pub graph: Graph,
    /// Every rule with what it found.
    pub checked: Vec<Checked>,
}

impl Dossier {
    /// Reads a folder, computes every figure and runs every rule.
    ///
    /// # Errors
    /// When the folder cannot be used at all.
    pub fn build(root: &Path) -> Result<Dossier, Unusable> {
        Ok(Dossier::of(Folder::read(root)?))
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
        }
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
                block(format!("the chapter {} is not in the folder", &**chapter))
                    .advise("Write it, or take it off the list.")
                    .at(record.at(chapter.spot)),
            );
            continue;
        };
        let Ok(text) = std::str::from_utf8(&file.bytes) else {
            found.push(
                block("is not UTF-8".into())
                    .advise("Save the file again with the encoding UTF-8.")
                    .at(Place::whole(name)),
            );
            continue;
        };
        for named in prose::figures(text)
            .into_iter()
            .filter(|named| !known.contains(&named.id))
        {
            let near = nearest(&named.id, known.iter().map(String::as_str))
                .map_or(String::new(), |near| format!(" (did you mean {near}?)"));
            let spot = Spot {
                line: named.line,
                column: named.column,
            };
            found.push(block(format!("there is no figure {}{near}", named.id)).advise("`sealfolio explain FIGURE` lists the figures; a chapter never types a number.").at(Place::new(name, spot)));
        }
    }
    found
}

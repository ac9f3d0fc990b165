//! Everything read, computed and checked, in one value.

use std::path::Path;

use crate::{
    figure::Graph,
    figures,
    ground::finding::{Finding, Severity},
    plant::Plant,
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
        let checked = View::new(&plant, &graph).run(rules::ALL);
        Dossier { plant, graph, checked }
    }

    /// What rules and pages ask of it.
    pub fn view(&self) -> View<'_> {
        View::new(&self.plant, &self.graph)
    }

    /// Every finding, the heaviest first.
    pub fn findings(&self) -> Vec<&Finding> {
        let mut all: Vec<&Finding> = self.checked.iter().flat_map(|checked| &checked.outcome.findings).collect();
        all.sort_by(|a, b| a.sort_key().cmp(&b.sort_key()));
        all
    }

    /// How many findings of a weight.
    pub fn count(&self, severity: Severity) -> usize {
        self.findings().iter().filter(|finding| finding.severity == severity).count()
    }
}

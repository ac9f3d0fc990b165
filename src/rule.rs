//! What a rule is, and what rules ask of a plant.

use std::{
    collections::{BTreeMap, BTreeSet},
    sync::OnceLock,
};

use crate::{
    figure::Computed,
    graph::Graph,
    ground::{
        finding::{Finding, Severity},
        progress,
        time::Date,
    },
    plant::{Plant, Test},
    record::{
        Record,
        kinds::{
            Body,
            deviation::{Category, Decision, Deviation},
            flow_test::Occasion,
        },
    },
    verdict::{Verdict, expanded},
};

/// Figures with a verdict that rules of their own look at: join residual R45, plans R52, slit width R82.
pub const ELSEWHERE: [&str; 4] = [
    "join-residual",
    "peel-force-quality",
    "pull-force-quality",
    "slit-width-deviation",
];

/// One rule. Adding one is adding a file under `rules/`.
pub struct Rule {
    /// `R01` to `R93`; the file bears the same name in lower case.
    pub id: &'static str,
    /// The weight of its usual finding.
    pub severity: Severity,
    /// What it demands, as a sentence.
    pub demands: &'static str,
    /// What it protects against.
    pub protects: &'static str,
    /// When a finding may be explained.
    pub explained: &'static str,
    /// Looks.
    pub check: fn(&View) -> Outcome,
}

impl Rule {
    /// Its weight, what it protects against, and what explains a finding, in sentences.
    pub fn about(&self) -> Vec<String> {
        let mut about = vec![say!(
            "Usual weight: {severity}. Protects against {protects}. May be explained: {explained}",
            severity = self.severity.said(),
            protects = say!(self.protects),
            explained = say!(self.explained)
        )];
        let by: Vec<&str> = categories(self.id).map(Category::word).collect();
        if !by.is_empty() {
            about.push(say!(
                "Of what must be explained, a deviation of these categories counts: {by}.",
                by = by.join(", ")
            ));
        }
        about
    }
}

/// What a rule found, and over how many things it looked.
#[derive(Default)]
pub struct Outcome {
    /// How many things it looked at; none is "not evaluated", never "passed".
    pub looked: usize,
    /// What they are, in the plural.
    pub things: &'static str,
    /// The findings.
    pub findings: Vec<Finding>,
    /// Why it could not look, where that is known.
    pub blind: Option<String>,
}

impl Outcome {
    /// Nothing looked at yet.
    pub fn of(things: &'static str) -> Outcome {
        Outcome {
            things,
            ..Outcome::default()
        }
    }

    /// Counts one more thing.
    pub fn look(&mut self) {
        self.looked += 1;
    }

    /// Notes a finding.
    pub fn find(&mut self, finding: Finding) {
        self.findings.push(finding);
    }
}

/// A rule with what it found.
pub struct Checked {
    /// The rule.
    pub rule: &'static Rule,
    /// What came out.
    pub outcome: Outcome,
}

/// Everything that rules look at.
pub struct View<'a> {
    /// Records and genealogy.
    pub plant: &'a Plant,
    /// The figures.
    pub graph: &'a Graph,
    /// The assemblies that are to be released.
    pub release: BTreeSet<&'a str>,
    /// Every module of those.
    pub modules: BTreeSet<&'a str>,
    by_record: BTreeMap<usize, Vec<&'a Computed>>,
    judged: OnceLock<Vec<Judged<'a>>>,
    by_definition: OnceLock<BTreeMap<&'a str, Vec<&'a Computed>>>,
}

/// A judged figure that several rules look at: the element it is of, an assembly that it speaks of, the figure.
type Judged<'a> = (&'a str, &'a str, &'a Computed);

impl<'a> View<'a> {
    /// The view of a plant with its figures.
    ///
    /// To be released is what release statements list; without any, what the scope of the dossier
    /// lists; without that, every assembly that was built.
    pub fn new(plant: &'a Plant, graph: &'a Graph) -> View<'a> {
        let mut release = plant.released();
        if release.is_empty()
            && let Some((_, head)) = plant.records().head()
        {
            release.extend(
                head.scope
                    .iter()
                    .flat_map(|scope| scope.assemblies.iter().map(|id| &*id.text)),
            );
        }
        if release.is_empty() {
            release.extend(
                plant
                    .assemblies
                    .iter()
                    .filter(|(_, assembly)| !assembly.builds.is_empty())
                    .map(|(id, _)| &**id),
            );
        }
        let builds = release.iter().filter_map(|id| plant.build(id));
        let modules = builds
            .flat_map(|(_, build)| {
                build
                    .modules
                    .iter()
                    .map(|position| &*position.module_id.text)
            })
            .collect();
        let mut by_record: BTreeMap<usize, Vec<&Computed>> = BTreeMap::new();
        for computed in graph.computed.values() {
            by_record
                .entry(computed.subject.record)
                .or_default()
                .push(computed);
        }
        View {
            plant,
            graph,
            release,
            modules,
            by_record,
            judged: OnceLock::new(),
            by_definition: OnceLock::new(),
        }
    }

    /// The figures of a record.
    pub fn figures_of(&self, record: &Record) -> &[&'a Computed] {
        self.figures_at(record.index)
    }

    /// The figures of a record by its index.
    pub fn figures_at(&self, index: usize) -> &[&'a Computed] {
        self.by_record.get(&index).map_or(&[], |figures| figures)
    }

    /// Whether an assembly, or a module by its assembly, is to be released.
    pub fn in_release(&self, element: &str) -> bool {
        self.release.contains(element) || self.modules.contains(element)
    }

    /// Blocks what is to be released; elsewhere the same must be explained.
    pub fn weight(&self, element: &str) -> Severity {
        if self.in_release(element) {
            Severity::Blocks
        } else {
            Severity::Explain
        }
    }

    /// The date on the pages.
    pub fn compiled_on(&self) -> Option<Date> {
        self.plant
            .records()
            .head()
            .map(|(_, head)| head.compiled_on.date)
    }

    /// Whether a test is the last of its element, which decides.
    pub fn decides(&self, test: &Test) -> bool {
        self.plant
            .last_test(test.element)
            .is_some_and(|last| std::ptr::eq(last.record, test.record))
    }

    /// The figures that decide about an element's own tests: of its last test, and of its flow tests when new.
    pub fn deciding(&self, element: &str) -> Vec<&'a Computed> {
        let last = self.plant.last_test(element).map(|last| last.record);
        let new = self.plant.flow_tests(element);
        let new = new.filter(|(_, flow)| flow.stage == Occasion::New);
        last.into_iter()
            .chain(new.map(|(record, _)| record))
            .flat_map(|record| self.figures_of(record))
            .copied()
            .collect()
    }

    /// The figures of one definition that decide about what is to be released; where none does, all of them. In the order of
    /// their ids.
    pub fn of_definition(&self, figure: &str) -> &[&'a Computed] {
        // Every certificate and every requirement asks: looked for once.
        let grouped = self.by_definition.get_or_init(|| {
            let speak = |assembly: &&'a str| self.figures_of_assembly(assembly);
            let mut deciding: Vec<_> = self.release.iter().flat_map(speak).collect();
            deciding.sort_unstable_by_key(|computed| &computed.id);
            deciding.dedup_by_key(|computed| &computed.id);
            let named: BTreeSet<&str> = deciding.iter().map(|one| one.id.figure).collect();
            let all = self.graph.computed.values().map(Box::as_ref);
            let others = all.filter(|computed| !named.contains(computed.id.figure));
            let mut grouped: BTreeMap<_, Vec<_>> = BTreeMap::new();
            for computed in deciding.iter().copied().chain(others) {
                grouped
                    .entry(computed.id.figure)
                    .or_default()
                    .push(computed);
            }
            grouped
        });
        grouped.get(figure).map_or(&[], |figures| figures)
    }

    /// Every figure that speaks of an assembly: its last test, its modules' last tests and packs,
    /// its rolls and its seals.
    pub fn figures_of_assembly(&self, assembly: &str) -> Vec<&'a Computed> {
        let mut out = self.deciding(assembly);
        let Some((built, build)) = self.plant.build(assembly) else {
            return out;
        };
        let own = self.figures_of(built).iter();
        out.extend(own.filter(|computed| computed.id.figure == "straightness"));
        let (mut rolls, mut runs) = (BTreeSet::new(), BTreeSet::new());
        for position in &build.modules {
            let module = &*position.module_id.text;
            out.extend(self.deciding(module));
            if let Some((record, _, pack)) = self.plant.pack(module) {
                rolls.insert(&*pack.material_lot.text);
                out.extend(
                    self.figures_of(record)
                        .iter()
                        .filter(|computed| &*computed.id.part == module),
                );
            }
            runs.extend(
                self.plant
                    .modules
                    .get(module)
                    .iter()
                    .flat_map(|module| module.seal_runs.iter().copied()),
            );
        }
        runs.extend(
            self.plant
                .assemblies
                .get(assembly)
                .iter()
                .flat_map(|assembly| assembly.seal_runs.iter().copied()),
        );
        for roll in rolls {
            for index in self.plant.by_roll.get(roll).into_iter().flatten() {
                out.extend(self.figures_at(*index));
            }
        }
        for run in runs {
            for index in self
                .plant
                .inspections
                .get(&self.plant.record(run).id.text)
                .into_iter()
                .flatten()
            {
                out.extend(self.figures_at(*index));
            }
        }
        out
    }

    /// Every judged figure of what is to be released, once, with its element and the assembly it counts
    /// for; what rules of its own look at (join residual: R45, plans: R52, slit width: R82) is left out.
    pub fn judged(&self) -> &[Judged<'a>] {
        self.judged.get_or_init(|| self.judged_now())
    }

    fn judged_now(&self) -> Vec<Judged<'a>> {
        let mut seen = BTreeSet::new();
        let mut out = Vec::new();
        for assembly in &self.release {
            for computed in self.figures_of_assembly(assembly) {
                if ELSEWHERE.contains(&computed.id.figure)
                    || computed.judgement.is_none()
                    || !seen.insert(&computed.id)
                {
                    continue;
                }
                let record = self.plant.record(computed.subject.record);
                let element = match &record.body {
                    Body::FlowTest(flow) => &*flow.element_id.text,
                    _ => Test::of(record).map_or(&*record.id.text, |test| test.element),
                };
                out.push((element, *assembly, computed));
            }
        }
        out
    }

    /// The finding of a rule about one of [`View::judged`].
    pub fn verdict_finding(
        &self,
        rule: &'static str,
        advice: &str,
        &(element, assembly, computed): &Judged,
    ) -> Finding {
        Finding::new(
            rule,
            Severity::Blocks,
            format!("{element}: {} ({}).", View::phrase(computed), computed.id),
        )
        .advise(advice)
        .at(self.plant.record(computed.subject.record).place())
        .about(element)
        .about(assembly)
    }

    /// What a deviation that was decided says of something.
    pub fn decided(&self, id: &str) -> Option<&'a Record> {
        self.plant.settled(id).map(|(record, _)| record).next()
    }

    /// The decided deviation that explains a rule's finding about something: one that holds or rejects
    /// the thing, or one whose category is of the rule's sort. A deviation about a gap in a trace does
    /// not explain a cycle that was too hot.
    fn explanation(&self, rule: &str, id: &str) -> Option<&'a Record> {
        let fits = |category: Category| {
            let mut own = EXPLAINS.iter().filter(|(own, _)| *own == category);
            own.any(|(_, rules)| rules.contains(&rule))
        };
        let mut decided = self.plant.settled(id);
        // What is held or rejected is explained by that alone only where it is not shipped all the same.
        let shipped = || {
            let mut releases = self.plant.releases();
            self.in_release(id) || releases.any(|(_, own)| *own.object.lot_id.text == *id)
        };
        let explains = |deviation: &Deviation| {
            let out = matches!(deviation.decision, Some(Decision::Hold | Decision::Reject));
            // A revision that somebody held or rejected is used all the same: nobody allowed it.
            (out && rule != "R90" && !shipped())
                || (fits(deviation.category) && !(out && rule == "R90"))
        };
        decided
            .find(|(_, deviation)| explains(deviation))
            .map(|(record, _)| record)
    }

    /// A figure's number, limit and verdict in one phrase.
    pub fn phrase(computed: &Computed) -> String {
        let mut value = computed.shown();
        // What follows ± is one standard uncertainty, and the expanded one decides.
        if let (Verdict::Undecided, Some(quantity)) = (computed.verdict(), computed.quantity()) {
            let expanded = expanded(quantity, &computed.figure.unit);
            value = format!("{value} (U = {expanded})");
        }
        match &computed.judgement {
            Some(judgement) => say!(
                "{name} {value}, limit {limit}: {verdict}",
                name = crate::ground::words::inside(say!(computed.figure.name)),
                value = value,
                limit = judgement.limit.text,
                verdict = judgement.verdict.said()
            ),
            None => format!(
                "{} {value}",
                crate::ground::words::inside(say!(computed.figure.name))
            ),
        }
    }

    /// Runs the rules; findings that must be explained and are, by a decided deviation that names
    /// the thing, become notes that say so.
    pub fn run(&self, rules: &[&'static Rule]) -> Vec<Checked> {
        use rayon::prelude::*;
        progress::begin(say!("running rules"), rules.len());
        let mut checked: Vec<Checked> = rules
            .par_iter()
            .with_max_len(1)
            .map(|rule| {
                progress::step();
                Checked {
                    rule,
                    outcome: (rule.check)(self),
                }
            })
            .collect();
        for checked in &mut checked {
            for finding in &mut checked.outcome.findings {
                if finding.severity != Severity::Explain {
                    continue;
                }
                // What a revision took away is explained where the record itself is named, not its element.
                let naming = match finding.rule {
                    "R90" => 1,
                    _ => finding.about.len(),
                };
                if let Some(deviation) = finding
                    .about
                    .iter()
                    .take(naming)
                    .find_map(|id| self.explanation(finding.rule, id))
                {
                    finding.severity = Severity::Note;
                    finding.message = match &deviation.body {
                        Body::Deviation(body) if body.decision == Some(Decision::Hold) => say!(
                            "{message} Not in the release: held by {id}.",
                            message = finding.message,
                            id = &*deviation.id
                        ),
                        Body::Deviation(body) if body.decision == Some(Decision::Reject) => say!(
                            "{message} Not in the release: rejected by {id}.",
                            message = finding.message,
                            id = &*deviation.id
                        ),
                        _ => say!(
                            "{message} Explained by {id}.",
                            message = finding.message,
                            id = &*deviation.id
                        ),
                    };
                    finding.about.push(deviation.id.to_string());
                    finding.advice.clear();
                }
            }
            checked
                .outcome
                .findings
                .sort_by(|a, b| a.sort_key().cmp(&b.sort_key()));
        }
        checked
    }
}

/// Which rules' findings a deviation of each category explains, where they are not weighed as blocking.
const EXPLAINS: [(Category, &[&str]); 8] = [
    (
        Category::Retest,
        &["R29", "R40", "R41", "R55", "R57", "R59"],
    ),
    (
        Category::TestInvalid,
        &[
            "R07", "R29", "R40", "R41", "R47", "R48", "R52", "R90", "R93",
        ],
    ),
    (
        Category::NonconformingProduct,
        &[
            "R14", "R40", "R42", "R45", "R46", "R47", "R48", "R61", "R71", "R82",
        ],
    ),
    (Category::Undecided, &["R14", "R40", "R43", "R45"]),
    (
        Category::Exclusion,
        &["R08", "R19", "R23", "R29", "R52", "R65", "R90"],
    ),
    (
        Category::Calibration,
        &["R27", "R30", "R31", "R32", "R33", "R34"],
    ),
    (
        Category::Marking,
        &["R11", "R62", "R63", "R64", "R75", "R90"],
    ),
    (
        Category::Data,
        &[
            "R04", "R07", "R08", "R09", "R11", "R16", "R17", "R21", "R26", "R29", "R35", "R39",
            "R40", "R44", "R46", "R49", "R53", "R68", "R69", "R70", "R72", "R73", "R86", "R90",
            "R92",
        ],
    ),
];

/// The categories of deviations that explain a rule's findings.
pub fn categories(rule: &str) -> impl Iterator<Item = Category> {
    let own = EXPLAINS
        .iter()
        .filter(move |(_, rules)| rules.contains(&rule));
    own.map(|(category, _)| *category)
}

/// Whether a figure has a verdict that is no pass.
pub fn not_a_pass(computed: &Computed) -> bool {
    computed.judgement.is_some() && computed.verdict() != Verdict::Conforms
}

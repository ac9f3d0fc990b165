//! All figures of a plant: what stands on what, and the numbers with their uncertainty by cause.

mod contributions;

use contributions::Contributions;
use std::{
    borrow::Borrow,
    cmp::Ordering,
    collections::{BTreeMap, BTreeSet},
    sync::Arc,
};

use rayon::prelude::*;
use smallvec::SmallVec;

use crate::{
    figure::*,
    ground::{
        PIECE, progress,
        quantity::{Cause, Quantity},
    },
    plant::Plant,
    verdict::judge_among,
};

/// An identity that is looked up without being made: definition, record, part.
trait Identity {
    fn parts(&self) -> (&str, &str, &str);
}

impl Identity for FigureId {
    fn parts(&self) -> (&str, &str, &str) {
        (self.figure, &self.record, &self.part)
    }
}

impl Identity for (&str, &str, &str) {
    fn parts(&self) -> (&str, &str, &str) {
        *self
    }
}

impl<'a> Borrow<dyn Identity + 'a> for FigureId {
    fn borrow(&self) -> &(dyn Identity + 'a) {
        self
    }
}

impl PartialEq for dyn Identity + '_ {
    fn eq(&self, other: &Self) -> bool {
        self.parts() == other.parts()
    }
}

impl Eq for dyn Identity + '_ {}

impl PartialOrd for dyn Identity + '_ {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

/// The order of [`FigureId`].
impl Ord for dyn Identity + '_ {
    fn cmp(&self, other: &Self) -> Ordering {
        self.parts().cmp(&other.parts())
    }
}

/// The definition of a figure with its formula, built once for all figures of it.
struct Definition {
    figure: &'static Figure,
    formula: Formula,
    inputs: Vec<Arc<Input>>,
}

impl Definition {
    fn of(figure: &'static Figure) -> Definition {
        let formula = (figure.formula)();
        Definition {
            figure,
            inputs: formula.variables().into_iter().map(Arc::new).collect(),
            formula,
        }
    }
}

/// All figures of a plant.
#[derive(Default)]
pub struct Graph {
    /// What came out, by identity.
    pub computed: BTreeMap<FigureId, Box<Computed>>,
    /// The definitions that were asked for, by [`Figure::id`].
    definitions: BTreeMap<&'static str, Arc<Definition>>,
}

impl Graph {
    /// Computes every figure of the table that the records call for.
    pub fn compute(plant: &Plant, table: &[&'static Figure]) -> Graph {
        let mut graph = Graph::default();
        let mut levels: BTreeMap<usize, Vec<&'static Figure>> = BTreeMap::new();
        for figure in table {
            levels.entry(depth(figure)).or_default().push(figure);
        }
        for figures in levels.into_values() {
            let definitions: Vec<_> = figures.into_iter().map(Definition::of).collect();
            let todo: Vec<(&Definition, Subject)> = definitions
                .iter()
                .flat_map(|definition| {
                    (definition.figure.subjects)(plant)
                        .into_iter()
                        .map(move |subject| (definition, subject))
                })
                .collect();
            progress::begin(say!("computing figures"), todo.len());
            let done: Vec<Box<Computed>> = todo
                .into_par_iter()
                .with_max_len(PIECE)
                .map(|(definition, subject)| {
                    progress::step();
                    Box::new(graph.one(plant, definition, subject))
                })
                .collect();
            graph.computed.extend(
                done.into_iter()
                    .map(|computed| (computed.id.clone(), computed)),
            );
            let of = |definition: Definition| (definition.figure.id, Arc::new(definition));
            graph.definitions.extend(definitions.into_iter().map(of));
        }
        graph
    }

    fn definition(&self, figure: &'static Figure) -> Arc<Definition> {
        let known = self.definitions.get(figure.id).cloned();
        known.unwrap_or_else(|| Arc::new(Definition::of(figure)))
    }

    /// The identity of a figure of a subject.
    pub fn id(plant: &Plant, figure: &Figure, subject: &Subject) -> FigureId {
        FigureId {
            figure: figure.id,
            record: Arc::from(&*plant.record(subject.record).id.text),
            part: Arc::from(&*subject.part),
        }
    }

    /// A figure of a record or a part of it.
    pub fn get(&self, figure: &'static str, record: &str, part: &str) -> Option<&Computed> {
        let found = self.computed.get(&(figure, record, part) as &dyn Identity);
        found.map(Box::as_ref)
    }

    /// The figure whose identity is written as this, such as `diffusive-flow@MT-7` or `cycles-left@CL-3/steam`.
    pub fn named(&self, text: &str) -> Option<&Computed> {
        let (figure, rest) = text.split_once('@')?;
        let figure = self.computed.keys().find(|id| id.figure == figure)?.figure;
        let ends = std::iter::once(rest.len()).chain(rest.match_indices('/').map(|(at, _)| at));
        let mut ids = ends.map(|end| (&rest[..end], rest[end..].trim_start_matches('/')));
        ids.find_map(|(record, part)| self.get(figure, record, part))
    }

    /// Every figure of one definition, in the order of records.
    pub fn all(&self, figure: &'static str) -> impl Iterator<Item = &Computed> {
        let from = FigureId {
            figure,
            record: "".into(),
            part: "".into(),
        };
        let all = self.computed.range(from..).map(|(_, computed)| &**computed);
        all.take_while(move |computed| computed.id.figure == figure)
    }

    /// The files that a figure stands on, through other figures too.
    pub fn files(&self, computed: &Computed) -> BTreeSet<Arc<str>> {
        let mut out = BTreeSet::new();
        if let Ok(worked) = &computed.worked {
            for term in &worked.terms {
                match &term.origin {
                    Origin::Readings(readings) => {
                        out.extend(readings.iter().map(|(_, at)| at.file.clone()));
                    }
                    Origin::Rows { first: at, .. } | Origin::Contribution { at, .. } => {
                        out.insert(at.file.clone());
                    }
                    Origin::Figures(below) => {
                        for id in below {
                            out.extend(
                                self.computed
                                    .get(id)
                                    .map(|below| self.files(below))
                                    .unwrap_or_default(),
                            );
                        }
                    }
                    Origin::Constant { .. } | Origin::NoContribution => {}
                }
            }
            out.extend(worked.direct.iter().map(|(_, at)| at.file.clone()));
        }
        let limit = computed
            .judgement
            .iter()
            .filter_map(|judgement| judgement.limit.at.as_ref());
        out.extend(limit.map(|at| at.file.clone()));
        out
    }

    fn one(&self, plant: &Plant, definition: &Definition, subject: Subject) -> Computed {
        let figure = definition.figure;
        let scope = Scope {
            plant,
            record: plant.record(subject.record),
            part: &subject.part,
        };
        let id = Graph::id(plant, figure, &subject);
        let (mut judgement, mut undecidable, mut second_order) = (None, None, None);
        let worked = self.work(definition, &scope, &id).map(|(worked, given)| {
            match (figure.limit)(&scope) {
                Ok(Some(limit)) => {
                    let same = given.iter().map(|(_, operand)| operand);
                    let operand = same
                        .filter(|operand| operand.dim == worked.quantity.dim)
                        .fold(0.0, |most: f64, operand| most.max(operand.value.abs()));
                    let judged = judge_among(&worked.quantity, &limit, operand);
                    second_order = judged
                        .conformance
                        .map(|_| Figure::second_order(&definition.formula, &given));
                    judgement = Some(judged);
                }
                Ok(None) => {}
                Err(why) => undecidable = Some(why),
            }
            worked
        });
        let reported = (figure.reported)(&scope);
        Computed {
            id,
            figure,
            subject,
            worked,
            judgement,
            undecidable,
            second_order,
            reported,
        }
    }

    /// The inputs of a figure with their uncertainties, in the order of its formula.
    ///
    /// # Errors
    /// In words: what has no number.
    pub fn given(
        &self,
        plant: &Plant,
        computed: &Computed,
    ) -> Result<Vec<(Input, Quantity)>, String> {
        let scope = Scope {
            plant,
            record: plant.record(computed.subject.record),
            part: &computed.subject.part,
        };
        let contributions = Contributions::of(computed.figure, &scope);
        let mut given = Vec::new();
        for input in &self.definition(computed.figure).inputs {
            let (quantities, _) = self.draw(**input, &scope, &computed.id, &contributions)?;
            given.extend(quantities.into_iter().map(|quantity| (**input, quantity)));
        }
        Ok(given)
    }

    /// A figure with its inputs as they were drawn.
    fn work(
        &self,
        definition: &Definition,
        scope: &Scope,
        id: &FigureId,
    ) -> Result<(Worked, Vec<(Input, Quantity)>), String> {
        let figure = definition.figure;
        let contributions = Contributions::of(figure, scope);
        let mut given: Vec<(Input, Quantity)> = Vec::new();
        let mut terms: Vec<Term> = Vec::with_capacity(definition.inputs.len());
        for input in &definition.inputs {
            let (quantities, origin) = self.draw(**input, scope, id, &contributions)?;
            // Of the rows of a trace only the first and the last are kept.
            let step = match origin {
                Origin::Rows { count, .. } => (count - 1).max(1),
                _ => 1,
            };
            let values = quantities.iter().step_by(step).map(|q| q.value).collect();
            given.extend(quantities.into_iter().map(|quantity| (**input, quantity)));
            terms.push(Term {
                input: input.clone(),
                values,
                slopes: SmallVec::new(),
                origin,
            });
        }
        (figure.check)(&given)?;
        let (mut quantity, slopes) = figure.evaluate(&definition.formula, &given)?;
        let mut slopes = slopes.into_iter();
        for term in &mut terms {
            let own = slopes.by_ref().take(term.count());
            match term.origin {
                Origin::Rows { .. } => own.for_each(drop),
                _ => term.slopes = own.collect(),
            }
        }
        let used: Vec<&str> = terms
            .iter()
            .filter_map(|term| match term.input.from {
                From::Doubt(source) => Some(source),
                _ => None,
            })
            .collect();
        let (mut direct, unused) = contributions.act_on(&mut quantity, figure, &used, id);
        direct.shrink_to_fit();
        let worked = Worked {
            quantity,
            terms,
            direct,
            unused,
        };
        Ok((worked, given))
    }

    fn draw(
        &self,
        input: Input,
        scope: &Scope,
        id: &FigureId,
        contributions: &Contributions,
    ) -> Result<(Vec<Quantity>, Origin), String> {
        let dim = input.unit.dim;
        match input.from {
            From::Constant { value, u, source } => {
                let mut quantity = Quantity::exact(input.unit.to_si(value), dim);
                if u > 0.0 {
                    quantity = quantity.with(
                        Cause {
                            name: input.what.into(),
                            of: word!("definition").into(),
                            degrees: None,
                            study: None,
                        },
                        u * input.unit.factor,
                    );
                }
                Ok((vec![quantity], Origin::Constant { source }))
            }
            From::Doubt(source) => Ok(contributions.doubt(source, dim, id)),
            From::Records(pick) => {
                let data = pick(scope)?;
                if data.is_empty() {
                    return Err(say!(
                        "there is no value of {input}, {what}",
                        input = input.symbol,
                        what = say!(input.what)
                    ));
                }
                let quantities = data.iter().map(|datum| {
                    let quantity = Quantity::exact(datum.si, dim);
                    match datum.u {
                        Some(u) => quantity.with(
                            Cause {
                                name: datum.cause.into(),
                                of: datum.shared.clone().unwrap_or_else(|| datum.at.to_string()),
                                degrees: datum.degrees,
                                // The scatter about one curve is one estimate, whatever of the curve it makes uncertain.
                                study: datum.degrees.map(|_| datum.at.to_string()),
                            },
                            u,
                        ),
                        None => quantity,
                    }
                });
                let quantities = quantities.collect();
                let origin = match &data[..] {
                    // Nothing of a trace is written out beside a figure, and a trace has many rows.
                    [first, .., last] if first.text.is_empty() && first.at.file == last.at.file => {
                        Origin::Rows {
                            first: first.at.clone(),
                            last: last.at.clone(),
                            count: data.len(),
                        }
                    }
                    _ => Origin::Readings(
                        data.into_iter()
                            .map(|datum| (datum.text.into(), datum.at))
                            .collect(),
                    ),
                };
                Ok((quantities, origin))
            }
            From::Margins(subjects) => {
                let (mut quantities, mut ids) = (Vec::new(), Vec::new());
                for (figure, subject) in subjects(scope)? {
                    let id = Graph::id(scope.plant, figure, &subject);
                    let judged = self
                        .computed
                        .get(&id)
                        .and_then(|below| below.judgement.as_ref());
                    if let Some(margin) = judged.and_then(|judgement| judgement.margin) {
                        quantities.push(Quantity::exact(margin, dim));
                        ids.push(id);
                    }
                }
                match ids.is_empty() {
                    true => Err(say!("no figure of it has a limit and an uncertainty").into()),
                    false => Ok((quantities, Origin::Figures(ids))),
                }
            }
            From::Figures(figure, subjects) => {
                let (mut quantities, mut ids) = (Vec::new(), Vec::new());
                for subject in subjects(scope)? {
                    let id = Graph::id(scope.plant, figure, &subject);
                    let below = self
                        .computed
                        .get(&id)
                        .ok_or_else(|| say!("{id} does not exist", id = id))?;
                    let worked = below
                        .worked
                        .as_ref()
                        .map_err(|why| say!("{id} has no value: {why}", id = id, why = why))?;
                    quantities.push(worked.quantity.clone());
                    ids.push(id);
                }
                Ok((quantities, Origin::Figures(ids)))
            }
        }
    }
}

/// How many figures stand below this one.
fn depth(figure: &'static Figure) -> usize {
    let inputs = (figure.formula)().variables();
    let depths = inputs.iter().filter_map(|input| match input.from {
        From::Figures(below, _) => Some(1 + depth(below)),
        // Above everything that has a limit; margins of margins do not exist.
        From::Margins(_) => Some(16),
        _ => None,
    });
    depths.max().unwrap_or(0)
}

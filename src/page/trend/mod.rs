//! One characteristic: its chart in order of production, its capability, its groups.

mod capability;
mod control;
mod groups;
mod subgroups;

use super::{Book, Cell, Page, Section, Table, capital, href, percent};
use crate::{
    ground::{name::safe, number},
    trend::{
        Series, Standing,
        analysis::{self, Analysis, LEAST, LOOKED_FOR, Shape},
        groups::comparisons,
        sentence,
    },
};

/// The page of each series. Series of one name are told apart by their place.
pub fn paths(all: &[Series]) -> Vec<String> {
    let mut seen = std::collections::BTreeMap::<String, usize>::new();
    all.iter()
        .map(|series| {
            let of = series
                .key
                .of
                .trim_start_matches("of ")
                .replace([' ', ','], "-");
            let product = series.key.product.to_ascii_uppercase().replace(' ', "-");
            let name = safe(&format!("{}-{of}-{product}", series.key.figure).to_ascii_uppercase());
            let n = seen.entry(name.clone()).or_default();
            *n += 1;
            match n {
                1 => format!("trends/{name}.html", name = name),
                n => format!("trends/{name}-{n}.html", name = name, n = n),
            }
        })
        .collect()
}

/// So many of the last values are drawn and listed; what is said is said of all.
const SHOWN: usize = 2000;

/// Values of a long series that are too old to be drawn.
fn left_out(series: &Series) -> usize {
    series.members.len().saturating_sub(SHOWN)
}

/// A number of a page: what it is, its value with bounds, and the method.
struct Figure {
    anchor: &'static str,
    name: String,
    value: String,
    bounds: String,
    /// Of how many values it is; zero where it is of none of these.
    n: usize,
    method: &'static str,
}

/// How numbers of a series are printed.
struct Unit<'a> {
    series: &'a Series,
    /// Decimal places that show a tenth of the standard deviation.
    places: i32,
}

impl<'a> Unit<'a> {
    fn of_series(series: &'a Series) -> Unit<'a> {
        let values: Vec<f64> = series.setting().map(|(_, member)| member.value).collect();
        let unit = &series.figure.unit;
        let spread = match crate::stats::summary::mean_and_sd(&values) {
            // A single value far out widens the one, not the other.
            Ok((_, sd)) if sd > 0.0 => {
                let between =
                    crate::stats::control::individuals(&values).map_or(sd, |chart| chart.sigma);
                if between > 0.0 { sd.min(between) } else { sd }
            }
            // Without a spread the figures' own uncertainty says what means anything.
            _ => series.members.first().map_or(0.0, |member| member.u),
        };
        Unit {
            series,
            places: number::places(spread / unit.factor, 2).max(0),
        }
    }

    fn of(&self, si: f64) -> f64 {
        self.series.figure.unit.of_si(si)
    }

    /// A value with its unit.
    fn show(&self, si: f64) -> String {
        number::with_unit(&self.bare(si), &self.series.figure.unit)
    }

    /// A difference, without the zero of a temperature scale.
    fn width(&self, si: f64) -> String {
        let n = si / self.series.figure.unit.factor;
        number::with_unit(&number::significant(n, 3), &self.series.figure.unit)
    }

    fn span(&self, (low, high): (f64, f64)) -> String {
        say!(
            "{low} to {high}",
            low = self.show(low),
            high = self.show(high)
        )
    }

    fn bare(&self, si: f64) -> String {
        number::fixed(self.of(si), self.places)
    }
}

/// A probability by chance, in words of a reader.
fn chance(p: f64) -> String {
    match p {
        p if p < 0.001 => format!("p < {}", number::fixed(0.001, 3)),
        p => format!("p = {}", number::fixed(p, 3)),
    }
}

/// A characteristic that is followed: its page, and its row in the list.
pub struct Followed {
    /// The page.
    pub page: Page,
    /// What its values say together.
    pub said: String,
    /// Their course, as a small drawing.
    pub course: String,
}

/// The page of a characteristic, and what its row of the list says.
pub fn page(book: &Book, series: &Series, path: &str) -> Followed {
    let analysis = analysis::of(series);
    let comparisons = comparisons(series);
    let mut sections = Vec::new();
    if series.members.len() > 1 {
        sections.push(control::control(book, path, series, &analysis));
    }
    if analysis.values.len() >= LEAST {
        sections.push(control::in_order(series, &analysis));
        sections.push(capability::population(series, &analysis));
        sections.push(groups::beside(book, path, series, &comparisons));
    }
    sections.extend(subgroups::within(book, path, series));
    sections.push(assumptions(series, &analysis));
    sections.push(values(book, path, series, &analysis));
    let said = sentence(&analysis, &comparisons);
    let page = Page {
        notice: String::new(),
        title: series.title(),
        lead: match &*series.conditions() {
            "" => said.clone(),
            conditions => format!("{}. {said}", capital(conditions)),
        },
        trail: vec![Cell::link(say!("trends"), href(path, "trends.html"))],
        sections,
        template: "sheet.html",
        path: path.into(),
    };
    Followed {
        page,
        said,
        course: control::course(series, &analysis),
    }
}

fn number_table(caption: &str, figures: Vec<Figure>) -> Table {
    let mut table = Table::new(
        caption,
        &[
            say!("what"),
            say!("value"),
            say!("bounds (95 %)"),
            "n",
            say!("method"),
        ],
    );
    for figure in figures {
        table.rows.push(vec![
            Cell::anchored(figure.anchor, figure.name),
            Cell::text(figure.value),
            Cell::text(figure.bounds),
            Cell::text(match figure.n {
                0 => String::new(),
                n => n.to_string(),
            }),
            Cell::text(figure.method),
        ]);
    }
    table
}

/// What the methods assume, and whether these values keep it.
fn assumptions(series: &Series, analysis: &Analysis) -> Section {
    let mut section = Section::new("assumptions", say!("What stands behind these numbers"));
    let (repeated, refused, explained) = analysis::aside(series);
    let unit = Unit::of_series(series);
    let with = match crate::stats::summary::mean_and_sd(&analysis.all) {
        Ok((mean, sd)) if explained > 0 => say!(
            " With the explained ones the mean is {mean} and the standard deviation {sd}.",
            mean = unit.show(mean),
            sd = unit.width(sd)
        ),
        _ => String::new(),
    };
    let count = series.members.len();
    section = section.say(&match (&series.frozen, &analysis.control) {
        (Some(_), _) => say!(
            "{count} values are shown, beside limits of control that were laid down before.",
            count = count
        ),
        (None, Some(_)) => say!(
            "{count} values are shown and {values} set the limits of control.",
            count = count,
            values = analysis.values.len()
        ),
        (None, None) => say!(
            "{count} values are shown, too few to set limits of control.",
            count = count
        ),
    });
    section = section.say(&say!("Open circles stand aside. Measured again, the later test counting: {repeated}. Repeated tests that were not accepted: {refused}. Values that do not pass and whose cause a deviation about that very test knows: {explained}; these set no limits of control, and do count for capability, shares and tolerance. What was beyond the limit in any test of an element counts as beyond it. One far from the others is drawn at the edge of the picture.{with}", repeated = repeated, refused = refused, explained = explained, with = with));
    section = section.say(match series.key.of.as_str() {
        "of modules" => {
            say!("Order: when the pack was pleated, and its place in the pleating record.")
        }
        of if of.starts_with("of assemblies") => say!("Order: when the assembly was joined."),
        _ => say!("Order: when it was tested; nothing here says when it was made."),
    });
    section = section.say(&match analysis.shape {
        Shape::Normal(p) => say!("Nothing speaks against a normal distribution (Anderson and Darling, {p}); that is no proof of one.", p = chance(p)),
        Shape::NotNormal(p) => say!("The values do not look normal (Anderson and Darling, {p}): capability indices and normal tolerance limits are left out, and statements without a distribution stand in their place. Control limits of individual values are then approximate.", p = chance(p)),
        Shape::Unknown => say!("Too few values, or all equal: whether they are normal cannot be said with fewer than {what}.", what = LEAST),
    });
    if let Some(r) = analysis.neighbours {
        section = section.say(&match analysis.dependent() {
            true => say!("Neighbours depend on each other (r = {r}): limits from moving ranges are too {r2}. Runs were not looked for, because they are no surprise then; a lasting shift makes neighbours alike too, and is looked for above.", r = number::fixed(r, 2), r2 = if r > 0.0 { say!("narrow") } else { say!("wide") }),
            false => say!("Neighbours do not depend on each other beyond chance.").to_owned(),
        });
    }
    if let Some((index, grubbs)) = analysis.apart.filter(|(_, grubbs)| grubbs.outlier()) {
        section = section.say(&say!("{of} stands apart from the others (Grubbs, {p}). Nothing is left out for that: leaving out needs a recorded cause.", of = series.member(index).of, p = chance(grubbs.p)));
    }
    let looked = LOOKED_FOR
        .iter()
        .filter(|pattern| pattern.length() == 1 || !analysis.dependent());
    let patterns: Vec<&str> = looked.map(|pattern| pattern.words()).collect();
    section.say(&say!(
        "Looked for: {patterns}. Each added pattern raises the rate of false alarms.",
        patterns = patterns.join("; ")
    ))
}

fn values(book: &Book, path: &str, series: &Series, analysis: &Analysis) -> Section {
    let mut table = Table::new(
        say!("Values in the order of production"),
        &[
            "no.",
            say!("when"),
            say!("what"),
            say!("value"),
            say!("lot or roll"),
            say!("remark"),
        ],
    );
    let control = analysis.control.iter();
    let beyond: std::collections::BTreeSet<usize> = control
        .flat_map(|control| control.beyond.iter().copied())
        .collect();
    let from = left_out(series);
    for (i, member) in series.members.iter().enumerate().skip(from) {
        let mut said = Vec::new();
        match &member.standing {
            Standing::Counts => {}
            Standing::Repeated => {
                said.push(say!("measured again; the later test counts").to_owned())
            }
            Standing::NotAccepted => said.push(say!("repeated test, not accepted").to_owned()),
            Standing::Explained(deviation) => {
                said.push(say!("deviation {deviation}", deviation = deviation))
            }
        }
        if beyond.contains(&i) {
            said.push(say!("beyond control limits").into());
        }
        if member.verdict == crate::verdict::Verdict::DoesNotConform {
            said.push(say!("does not conform").into());
        }
        let past = member.past.and_then(|past| book.dossier.history.get(past));
        let what = match past {
            Some(past) => Cell::text(format!("{} ({})", member.of, past.title)),
            None => Cell::link(member.of.clone(), book.figure_href(path, &member.id)),
        };
        let origin = member.by.get("lot").or(member.by.get("roll"));
        table.rows.push(vec![
            Cell::text((i + 1).to_string()),
            Cell::text(member.when.map_or(String::new(), |when| when.to_string())),
            what,
            Cell::text(member.shown.clone()),
            origin.map_or(Cell::text(""), |origin| book.thing(path, origin)),
            Cell::text(said.join("; ")),
        ]);
    }
    let section = Section::new("values", say!("Values"));
    let section = match from {
        0 => section,
        n => section.say(&say!("The last {what} values; {n} older ones take part and are not listed here. They stand on the sheets of their elements.", what = SHOWN, n = n)),
    };
    section.table(table)
}

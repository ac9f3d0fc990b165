//! Rolls, lots, stations and operators beside each other.

use std::collections::BTreeMap;

use super::{Series, analysis::LEVEL};
use crate::stats::{
    comparison::{self, Centre, Components, Test},
    normality,
    summary::{mean_and_sd, mean_interval},
};

/// What a value may be grouped by: a few names in their order, each with its word. A plant has very many values, and a map
/// of its own for each would be most of what they take.
#[derive(Clone, Debug, Default)]
pub struct By(Box<[(&'static str, Box<str>)]>);

impl By {
    /// The word under a name.
    pub fn get(&self, name: &str) -> Option<&str> {
        let found = self.0.iter().find(|(known, _)| *known == name);
        found.map(|(_, word)| &**word)
    }
}

impl FromIterator<(&'static str, Box<str>)> for By {
    /// Of several words under one name the last counts.
    fn from_iter<I: IntoIterator<Item = (&'static str, Box<str>)>>(words: I) -> By {
        By(words
            .into_iter()
            .collect::<BTreeMap<_, _>>()
            .into_iter()
            .collect())
    }
}

impl serde::Serialize for By {
    fn serialize<S: serde::Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        to.collect_map(self.0.iter().map(|(name, word)| (name, word)))
    }
}

/// What values are grouped by, in the order in which people ask.
pub const BY: [&str; 6] = [
    word!("roll"),
    word!("lot"),
    word!("station"),
    word!("pleating machine"),
    word!("seal run"),
    word!("operator"),
];

/// One group.
#[derive(Debug, Clone)]
pub struct Group {
    /// Its name.
    pub name: String,
    /// Values, in SI, and their indices among the members.
    pub values: Vec<f64>,
    /// Indices.
    pub indices: Vec<usize>,
}

impl Group {
    /// Mean, standard deviation, and 95 % bounds of the mean; nothing for a single value.
    pub fn summary(&self) -> Option<(f64, f64, (f64, f64))> {
        let (mean, sd) = mean_and_sd(&self.values).ok()?;
        Some((mean, sd, mean_interval(&self.values, 0.95).ok()?))
    }
}

/// How groups were compared.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum How {
    /// Analysis of variance: equal spread, normal.
    Anova,
    /// Analysis of variance: groups too small for their spreads to be compared.
    AnovaOfFew,
    /// Welch's: normal, spreads differ.
    Welch,
    /// By ranks: not normal.
    Ranks,
    /// By ranks: spreads differ, and one group has none.
    RanksForSpread,
}

impl How {
    /// In words, with the reason for the choice.
    pub fn words(self) -> &'static str {
        match self {
            How::Anova => {
                say!(
                    "analysis of variance (spreads alike by Brown and Forsythe's test, values not seen to be other than normal)"
                )
            }
            How::AnovaOfFew => {
                say!(
                    "analysis of variance; the groups are too small to compare their spreads, which are taken to be alike"
                )
            }
            How::Welch => {
                say!(
                    "Welch's analysis of variance, because the spreads of the groups differ (Brown and Forsythe's test)"
                )
            }
            How::RanksForSpread => {
                say!(
                    "Kruskal and Wallis's test by ranks, because the spreads of the groups differ and one of them has none"
                )
            }
            How::Ranks => {
                say!(
                    "Kruskal and Wallis's test by ranks, because the values do not look normal within their groups"
                )
            }
        }
    }
}

/// Groups with what a comparison says.
#[derive(Debug, Clone)]
pub struct Comparison {
    /// What they are grouped by.
    pub by: &'static str,
    /// Groups in the order of their first value.
    pub groups: Vec<Group>,
    /// Method and test, or why there is none.
    pub test: Result<(How, Test), String>,
    /// Variance within and between groups.
    pub components: Option<Components>,
}

impl Comparison {
    /// Whether the groups differ.
    pub fn differs(&self) -> bool {
        self.test.as_ref().is_ok_and(|(_, test)| test.p < LEVEL)
    }

    /// Whether a group is so small that a test by ranks is rough.
    pub fn rough(&self) -> bool {
        let ranks = matches!(self.test, Ok((How::Ranks | How::RanksForSpread, _)));
        ranks
            && self
                .groups
                .iter()
                .any(|group| (2..5).contains(&group.values.len()))
    }

    /// Groups with the lowest and the highest mean, of those that were compared.
    pub fn extremes(&self) -> Option<(&Group, &Group)> {
        let mean = |group: &&Group| group.values.iter().sum::<f64>() / group.values.len() as f64;
        let tested = || self.groups.iter().filter(|group| group.values.len() > 1);
        let low = tested().min_by(|a, b| mean(a).total_cmp(&mean(b)))?;
        let high = tested().max_by(|a, b| mean(a).total_cmp(&mean(b)))?;
        Some((low, high))
    }
}

/// Compares a series by each thing that is recorded in more than one way.
pub fn comparisons(series: &Series) -> Vec<Comparison> {
    BY.iter()
        .filter_map(|by| {
            let groups = groups(series, by);
            (groups.len() > 1).then(|| compare(by, groups))
        })
        .collect()
}

fn groups(series: &Series, by: &str) -> Vec<Group> {
    let mut found: BTreeMap<&str, Group> = BTreeMap::new();
    for (i, member) in series.setting() {
        let Some(name) = member.by.get(by) else {
            continue;
        };
        let group = found.entry(name).or_insert_with(|| Group {
            name: name.to_owned(),
            values: Vec::new(),
            indices: Vec::new(),
        });
        group.values.push(member.value);
        group.indices.push(i);
    }
    let mut groups: Vec<Group> = found.into_values().collect();
    groups.sort_by_key(|group| group.indices.first().copied());
    groups
}

fn compare(by: &'static str, groups: Vec<Group>) -> Comparison {
    let several: Vec<Vec<f64>> = groups
        .iter()
        .filter(|group| group.values.len() > 1)
        .map(|group| group.values.clone())
        .collect();
    let test = match several.len() {
        0 | 1 => Err(say!("fewer than two groups have more than one value").to_owned()),
        _ => choose(&several).map_err(String::from),
    };
    Comparison {
        by,
        components: comparison::components(&several).ok(),
        test,
        groups,
    }
}

/// A group of fewer values says nothing of its spread to a test of deviations from its median: those of two values
/// are equal always, and of three one is nothing.
const LEAST_SPREAD: usize = 4;

/// The method that the data allow.
fn choose(groups: &[Vec<f64>]) -> Result<(How, Test), crate::stats::Refusal> {
    // What is left when each group's own mean is taken away.
    let mut residuals = Vec::new();
    for group in groups {
        let (mean, _) = mean_and_sd(group)?;
        residuals.extend(group.iter().map(|x| x - mean));
    }
    let normal = normality::anderson_darling(&residuals).map_or(true, |test| test.p >= LEVEL);
    if !normal {
        return Ok((How::Ranks, comparison::kruskal_wallis(groups)?));
    }
    let few = groups.iter().any(|group| group.len() < LEAST_SPREAD);
    let alike = match few {
        true => None,
        false => comparison::levene(groups, Centre::Median).ok(),
    };
    if alike.is_some_and(|test| test.p < LEVEL) {
        return match comparison::welch(groups) {
            Ok(test) => Ok((How::Welch, test)),
            Err(_) => Ok((How::RanksForSpread, comparison::kruskal_wallis(groups)?)),
        };
    }
    let found = comparison::anova(groups)?;
    let test = Test {
        statistic: found.f,
        degrees: found.degrees,
        p: found.p,
    };
    let how = if alike.is_some() {
        How::Anova
    } else {
        How::AnovaOfFew
    };
    Ok((how, test))
}

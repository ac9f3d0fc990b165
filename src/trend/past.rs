//! Older dossiers, as far as trends need them: sealed inside the dossier that looks back on them, so
//! that a copy can be computed again without them.

use std::sync::Arc;

use serde_json::{Value, json};

use super::{Key, Member, Series, Standing};
use crate::{
    figure::{Figure, FigureId},
    figures,
    ground::time::Time,
    stats::capability::Limits,
    verdict::Verdict,
};

/// An older dossier.
pub struct Past {
    /// Its id.
    pub title: String,
    /// Its revision.
    pub revision: u64,
    /// Its digest, 64 hexadecimal digits.
    pub digest: String,
    /// Its lots.
    pub lots: Vec<String>,
    /// Whether something blocks its release.
    pub draft: bool,
    /// Its series.
    pub series: Vec<Series>,
}

const VERDICTS: [Verdict; 5] = [
    Verdict::Conforms,
    Verdict::Undecided,
    Verdict::DoesNotConform,
    Verdict::NoLimit,
    Verdict::NotEvaluated,
];

fn definition(id: &str) -> Option<&'static Figure> {
    figures::ALL.iter().find(|figure| figure.id == id).copied()
}

fn member_json(member: &Member) -> Value {
    let standing = match &member.standing {
        Standing::Counts => Value::Null,
        Standing::Repeated => "repeated".into(),
        Standing::NotAccepted => "not accepted".into(),
        Standing::Explained(deviation) => json!({"explained_by": deviation}),
    };
    json!({
        "record": &*member.id.record, "part": &*member.id.part,
        "made": member.when.map(|when| when.written()), "place": member.place, "tested": member.tested.map(|when| when.written()),
        "of": member.of, "shown": member.shown, "value_si": member.value, "u_si": member.u,
        "verdict": member.verdict.words(), "standing": standing, "by": member.by,
    })
}

/// A time, or none; nothing where it is neither.
fn time(value: &Value) -> Option<Option<Time>> {
    match value {
        Value::Null => Some(None),
        value => Some(Some(Time::parse(value.as_str()?).ok()?)),
    }
}

fn member(figure: &'static Figure, value: &Value) -> Option<Member> {
    let text = |key: &str| value[key].as_str();
    let by = value["by"].as_object()?;
    let standing = match &value["standing"] {
        Value::Null => Standing::Counts,
        Value::String(word) if word == "not accepted" => Standing::NotAccepted,
        Value::String(_) => Standing::Repeated,
        other => Standing::Explained(other["explained_by"].as_str()?.to_owned()),
    };
    Some(Member {
        id: FigureId {
            figure: figure.id,
            record: Arc::from(text("record")?),
            part: Arc::from(text("part")?),
        },
        when: time(&value["made"])?,
        tested: time(&value["tested"])?,
        place: usize::try_from(value["place"].as_u64()?).ok()?,
        of: text("of")?.to_owned(),
        shown: text("shown")?.to_owned(),
        value: value["value_si"].as_f64()?,
        u: value["u_si"].as_f64()?,
        verdict: VERDICTS
            .into_iter()
            .find(|verdict| Some(verdict.words()) == text("verdict"))?,
        standing,
        by: super::groups::BY
            .into_iter()
            .chain(["specification"])
            .filter_map(|name| Some((name, by.get(name)?.as_str()?.into())))
            .collect(),
        past: None,
    })
}

fn series_json(series: &Series) -> Value {
    let Key {
        figure,
        of,
        product,
        gas,
        stage,
        limit,
    } = &series.key;
    json!({
        "figure": figure, "of": of, "product": product, "gas": gas, "stage": stage, "limit": limit,
        "low_si": series.limits.lower, "high_si": series.limits.upper,
        "values": series.members.iter().map(member_json).collect::<Vec<_>>(),
    })
}

fn series(value: &Value) -> Option<Series> {
    let text = |key: &str| value[key].as_str().map(str::to_owned);
    let figure = definition(value["figure"].as_str()?)?;
    let members = value["values"].as_array()?;
    Some(Series {
        key: Key {
            figure: figure.id,
            of: text("of")?,
            product: text("product")?,
            gas: text("gas")?,
            stage: text("stage")?,
            limit: text("limit")?,
        },
        figure,
        members: members
            .iter()
            .map(|value| member(figure, value))
            .collect::<Option<_>>()?,
        limits: Limits {
            lower: value["low_si"].as_f64(),
            upper: value["high_si"].as_f64(),
        },
        frozen: None,
        calibrated: Vec::new(),
    })
}

/// Older dossiers for a machine.
pub fn write(history: &[Past]) -> Value {
    let dossiers: Vec<Value> = history
        .iter()
        .map(|past| {
            json!({
                "dossier": past.title, "revision": past.revision, "sha256": past.digest, "lots": past.lots, "draft": past.draft,
                "series": past.series.iter().map(series_json).collect::<Vec<_>>(),
            })
        })
        .collect();
    json!({"format": 1, "dossiers": dossiers})
}

/// Reads back what [`write`] wrote; nothing where it is anything else.
pub fn read(value: &Value) -> Option<Vec<Past>> {
    if value["format"] != 1 {
        return None;
    }
    value["dossiers"]
        .as_array()?
        .iter()
        .map(|past| {
            let lots = past["lots"].as_array()?.iter();
            Some(Past {
                title: past["dossier"].as_str()?.to_owned(),
                revision: past["revision"].as_u64()?,
                draft: past["draft"].as_bool()?,
                digest: past["sha256"].as_str()?.to_owned(),
                lots: lots
                    .map(|lot| Some(lot.as_str()?.to_owned()))
                    .collect::<Option<_>>()?,
                series: past["series"]
                    .as_array()?
                    .iter()
                    .map(series)
                    .collect::<Option<_>>()?,
            })
        })
        .collect()
}

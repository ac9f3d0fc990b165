//! What the specification says of the uncertainty of a figure.

use crate::{
    figure::*,
    ground::{
        number,
        place::Place,
        quantity::{Cause, Quantity},
        unit::{Dim, L},
    },
    record::{Record, kinds::product_specification::Contribution},
};

/// Causes that every test on one instrument shares, unless the specification says otherwise.
///
/// Common practice, no source: a volume (each of its own) and a calibration belong to the rig; repeatability and
/// drift belong to the test.
const SHARED_BY_INSTRUMENT: &[&str] = &[
    "upstream_volume",
    "pressure_calibration",
    "calibration",
    "flow_calibration",
    "gauge_calibration",
];

/// The uncertainty contributions that the specification lists for a figure.
pub(super) struct Contributions<'a> {
    spec: Option<&'a Record>,
    list: Vec<&'a Contribution>,
    instrument: Option<String>,
    /// The closed gas volume of the test, in litres: of one rig, two volumes are two errors.
    volume: Option<String>,
}

impl<'a> Contributions<'a> {
    pub(super) fn of(figure: &Figure, scope: &Scope<'a>) -> Contributions<'a> {
        let (Some(quantity), Ok((record, spec))) = (figure.quantity, scope.spec()) else {
            return Contributions {
                spec: None,
                list: Vec::new(),
                instrument: None,
                volume: None,
            };
        };
        let list = spec
            .uncertainty_contributions
            .iter()
            .filter(|c| c.quantity == quantity)
            .collect();
        let instrument = scope
            .plant
            .instrument(scope.record, quantity)
            .map(|text| text.to_string());
        let test = scope.test().ok();
        let measured = test.and_then(|test| test.measurement(quantity));
        let volume = measured.and_then(|measured| measured.upstream_volume.as_ref());
        Contributions {
            spec: Some(record),
            list,
            instrument,
            volume: volume
                .map(|volume| number::with_unit(&number::significant(L.of_si(volume.si), 6), &L)),
        }
    }

    fn cause(&self, contribution: &Contribution, id: &FigureId) -> Cause {
        let shared = match contribution.shared_by.as_deref() {
            Some("instrument") => true,
            Some(_) => false,
            None => SHARED_BY_INSTRUMENT.contains(&&*contribution.source.text),
        };
        let volume = self.volume.as_ref();
        let volume = volume.filter(|_| &*contribution.source.text == "upstream_volume");
        let of = match (&self.instrument, shared) {
            (Some(instrument), true) => match volume {
                Some(volume) => format!("{instrument}, {volume}"),
                None => instrument.clone(),
            },
            _ if id.part.is_empty() => id.record.to_string(),
            _ => format!("{}/{}", id.record, id.part),
        };
        Cause {
            name: contribution.source.to_string(),
            study: Some(contribution.source.to_string()),
            of,
            degrees: contribution.degrees_of_freedom.as_ref().map(|n| n.value),
        }
    }

    fn text(contribution: &Contribution) -> String {
        match (&contribution.relative, &contribution.absolute) {
            (Some(relative), _) => {
                say!(
                    "{source}: {relative} of the value",
                    source = &*contribution.source,
                    relative = crate::ground::words::decimal(&relative.text)
                )
            }
            (_, Some(absolute)) => format!("{}: {}", &*contribution.source, absolute.text),
            _ => contribution.source.to_string(),
        }
    }

    /// The unknown error of a source: zero, with its uncertainty.
    pub(super) fn doubt(&self, source: &str, dim: Dim, id: &FigureId) -> (Vec<Quantity>, Origin) {
        let found = self.list.iter().find(|c| {
            &*c.source == source
                && c.absolute
                    .as_ref()
                    .is_some_and(|absolute| absolute.unit.dim == dim)
        });
        match (found, self.spec) {
            (Some(contribution), Some(spec)) => {
                let u = contribution
                    .absolute
                    .as_ref()
                    .map_or(0.0, |absolute| absolute.si);
                let quantity = Quantity::exact(0.0, dim).with(self.cause(contribution, id), u);
                (
                    vec![quantity],
                    Origin::Contribution {
                        text: Contributions::text(contribution),
                        at: spec.at(contribution.spot),
                    },
                )
            }
            _ => (vec![Quantity::exact(0.0, dim)], Origin::NoContribution),
        }
    }

    /// Contributions that act on the result as a whole, and those that cannot be used.
    pub(super) fn act_on(
        &self,
        quantity: &mut Quantity,
        figure: &Figure,
        used: &[&str],
        id: &FigureId,
    ) -> (Vec<(String, Place)>, Vec<String>) {
        let (mut direct, mut unused) = (Vec::new(), Vec::new());
        for contribution in &self.list {
            let u = match (&contribution.relative, &contribution.absolute) {
                (Some(relative), None) => Some(relative.value * quantity.value),
                (None, Some(absolute))
                    if absolute.unit.dim == figure.unit.dim && absolute.unit.zero == 0.0 =>
                {
                    Some(absolute.si)
                }
                (None, Some(_)) if used.contains(&&*contribution.source.text) => continue,
                _ => None,
            };
            match u {
                Some(u) => {
                    quantity.add(self.cause(contribution, id), u);
                    direct.extend(self.spec.map(|spec| {
                        (
                            Contributions::text(contribution),
                            spec.at(contribution.spot),
                        )
                    }));
                }
                None => unused.push(Contributions::text(contribution)),
            }
        }
        (direct, unused)
    }
}

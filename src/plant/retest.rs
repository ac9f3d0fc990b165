//! Tests of elements, and which of several counts.

use super::Plant;
use crate::{
    ground::place::Spot,
    record::{
        Record,
        common::{ElementMeasurement, ElementTest, Measured},
        kinds::{Body, product_specification::Stage},
    },
};

/// Why a retest does not count.
pub struct Flaw {
    /// What is wrong.
    pub message: String,
    /// What to do.
    pub advice: &'static str,
    /// Where.
    pub spot: Spot,
}

/// A test of an element, whichever kind.
#[derive(Copy, Clone)]
pub struct Test<'a> {
    /// The record.
    pub record: &'a Record,
    /// The element's id.
    pub element: &'a str,
    /// Where the id stands.
    pub element_spot: Spot,
    /// The test.
    pub test: &'a ElementTest,
    /// Whether the element is an assembly.
    pub assembly: bool,
    /// The stage of an assembly's test.
    pub stage: Option<&'a str>,
}

impl<'a> Test<'a> {
    /// A record as a test of an element.
    pub fn of(record: &'a Record) -> Option<Test<'a>> {
        match &record.body {
            Body::ModuleTest(body) => Some(Test {
                record,
                element: &body.head.module_id,
                element_spot: body.head.module_id.spot,
                test: &body.test,
                assembly: false,
                stage: None,
            }),
            Body::AssemblyTest(body) => Some(Test {
                record,
                element: &body.head.assembly_id,
                element_spot: body.head.assembly_id.spot,
                test: &body.test,
                assembly: true,
                stage: body.head.test_stage.as_deref(),
            }),
            _ => None,
        }
    }

    /// The measurement of a quantity, when it was made.
    pub fn measurement(&self, quantity: Measured) -> Option<&'a ElementMeasurement> {
        self.test
            .measurements
            .iter()
            .find(|m| m.quantity == quantity && m.not_measured_reason.is_none())
    }
}

/// Whether a free word says yes.
pub fn is_yes(word: &str) -> bool {
    ["true", "yes"].contains(&word)
}

impl Plant {
    /// Why a retest does not count; nothing for a first test and for a retest in good order. What does
    /// not count leaves the result before it standing.
    pub fn retest_flaws(&self, test: &Test) -> Vec<Flaw> {
        let number = test.test.test_number;
        if number.value <= 1 {
            return Vec::new();
        }
        let rule = self
            .spec_of(test.record)
            .and_then(|(_, spec)| spec.retest_rule.as_ref());
        let mut flaws = Vec::new();
        let mut flaw = |message: String, advice: &'static str, spot: Spot| {
            flaws.push(Flaw {
                message,
                advice,
                spot,
            })
        };
        let first = say!("Quality must explain; until then the result before it stands.");
        if let Some(rule) = rule {
            if number.value > rule.maximum_tests_per_item.value {
                flaw(
                    say!(
                        "test {what} of at most {maximum_tests_per_item}.",
                        what = number.value,
                        maximum_tests_per_item = rule.maximum_tests_per_item.value
                    ),
                    say!(
                        "Reject the element, or plan further tests beforehand and judge all of them."
                    ),
                    number.spot,
                );
            }
            match &test.test.retest_reason_code {
                None => flaw(
                    say!("no retest_reason_code.").into(),
                    say!(
                        "A pass after a fail without a cause is one of two readings of the same part; the result before it stands."
                    ),
                    number.spot,
                ),
                Some(reason)
                    if !rule
                        .allowed_reason_codes
                        .iter()
                        .any(|allowed| allowed.text == reason.text) =>
                {
                    flaw(
                        say!(
                            "the reason {reason} is none that the specification allows.",
                            reason = &**reason
                        ),
                        first,
                        reason.spot,
                    );
                }
                Some(_) => {}
            }
        }
        let Some(id) = &test.test.retest_deviation else {
            if rule.is_none_or(|rule| rule.needs_deviation.value) {
                flaw(
                    say!("no retest_deviation allows it.").into(),
                    first,
                    number.spot,
                );
            }
            return flaws;
        };
        let Some(Body::Deviation(deviation)) = self
            .records()
            .find("deviation", id)
            .map(|record| &record.body)
        else {
            flaw(
                say!("deviation {id} is missing.", id = &**id),
                say!("Add it; until then the result before it stands."),
                id.spot,
            );
            return flaws;
        };
        let repeated = test.test.retest_of.as_ref();
        let about = |text: &&crate::record::read::Text| {
            *text.text == *test.element || repeated.is_some_and(|id| id.text == text.text)
        };
        if !deviation.subject.texts().any(|text| about(&text)) {
            flaw(
                say!(
                    "{id} is about something else: it names neither {element} nor the test that is repeated.",
                    id = &**id,
                    element = test.element
                ),
                first,
                id.spot,
            );
        }
        match (&deviation.retest_authorised_at, &test.record.happened_at) {
            (None, _) => flaw(
                say!(
                    "{id} does not say when the retest was authorised.",
                    id = &**id
                ),
                first,
                id.spot,
            ),
            (Some(allowed), Some(ran)) if allowed.time > ran.time => {
                flaw(
                    say!(
                        "ran {time}, authorised {time2}: permission came after the result was known.",
                        time = ran.time,
                        time2 = allowed.time
                    ),
                    first,
                    id.spot,
                );
            }
            _ => {}
        }
        // Without a word of which test it repeats, what is asked of that test is asked of the one before.
        let before = match &test.test.retest_of {
            Some(id) => ["module_test", "assembly_test"]
                .iter()
                .find_map(|kind| self.records().find(kind, id))
                .and_then(Test::of),
            None => self.test_before(test),
        };
        if test.test.retest_of.is_none() {
            flaw(
                say!("no retest_of says which test it repeats.").into(),
                say!("Name the record of the test that is repeated."),
                number.spot,
            );
        }
        let cause = deviation.cause.as_ref();
        let evidence = cause.and_then(|cause| cause.get("evidence"));
        if let Some(evidence) = evidence
            && !self.names_a_record(evidence)
        {
            flaw(
                say!(
                    "the evidence in {id}, \"{evidence}\", names no record or file of this folder.",
                    id = &**id,
                    evidence = &**evidence
                ),
                say!(
                    "Name the record in which the cause shows, such as \"wetting_flush_volume in\" and the id of the test."
                ),
                id.spot,
            );
        }
        match (&test.test.retest_of, &before) {
            (Some(id), Some(before)) if before.element != test.element => flaw(
                say!(
                    "it is said to repeat {id}, which is a test of {element}.",
                    id = &**id,
                    element = before.element
                ),
                first,
                id.spot,
            ),
            _ => {}
        }
        if let (Some(allowed), Some(before)) = (&deviation.retest_authorised_at, &before)
            && before
                .record
                .happened()
                .is_some_and(|ran| allowed.time < ran)
        {
            flaw(
                say!(
                    "authorised {time}, before the test that it repeats had run.",
                    time = allowed.time
                ),
                first,
                id.spot,
            );
        }
        if deviation.retest_allowed_by.is_none() {
            flaw(
                say!("nobody is named who allowed it.").into(),
                first,
                id.spot,
            );
        }
        if let Some(by) = &deviation.retest_allowed_by {
            let day = deviation
                .retest_authorised_at
                .as_ref()
                .map_or(deviation.detected_at.time.date(), |when| when.time.date());
            if !self.may(by, "approve_deviation", day) {
                flaw(
                    say!("{by} allowed it, who may not.", by = &**by),
                    first,
                    id.spot,
                );
            }
        }
        let stated = deviation
            .cause
            .as_ref()
            .and_then(|cause| cause.get("reason_code"));
        if let (Some(stated), Some(reason)) = (stated, &test.test.retest_reason_code)
            && stated.text != reason.text
        {
            flaw(
                say!(
                    "{id} gives the cause {stated}, the test the reason {reason}.",
                    id = &**id,
                    stated = &**stated,
                    reason = &**reason
                ),
                first,
                reason.spot,
            );
        }
        if let Some(before) =
            before.filter(|_| test.test.retest_reason_code.as_deref() == Some("incomplete_wetting"))
            && self.wetted(&before)
        {
            flaw(
                say!(
                    "its reason is incomplete wetting, and {id2} was flushed with {wetting_flush_volume} as the method asks.",
                    id2 = &*before.record.id,
                    wetting_flush_volume = before.test.wetting_flush_volume.text
                ),
                say!("A cause must show in a record; without one the result before it stands."),
                id.spot,
            );
        }
        let known = cause.and_then(|cause| cause.get("known"));
        if known.is_some_and(|known| is_yes(&known.text)) && evidence.is_none() {
            flaw(
                say!(
                    "{id} says that the cause is known, and not what shows it.",
                    id = &**id
                ),
                say!(
                    "Name the record in which the cause shows, such as \"wetting_flush_volume in\" and the id of the test."
                ),
                id.spot,
            );
        }
        if known.is_none_or(|known| !is_yes(&known.text)) {
            flaw(
                match known {
                    None => say!("{id} does not say whether the cause is known.", id = &**id),
                    Some(_) => say!("{id} says that the cause is not known.", id = &**id),
                },
                say!(
                    "A pass after a fail without a cause is not accepted: reject, or plan further tests beforehand and judge all of them."
                ),
                id.spot,
            );
        }
        flaws
    }

    /// Whether an assembly, or a module of it, was tested more than once at a stage.
    pub fn retested(&self, assembly: &str) -> bool {
        let again = |tests: &[usize]| {
            let mut tests = tests
                .iter()
                .filter_map(|index| Test::of(self.record(*index)));
            tests.any(|test| test.test.test_number.value > 1)
        };
        let own = self.assemblies.get(assembly);
        let modules = self.build(assembly).into_iter();
        own.is_some_and(|assembly| again(&assembly.tests))
            || modules
                .flat_map(|(_, build)| build.modules.iter())
                .filter_map(|position| self.modules.get(&*position.module_id.text))
                .any(|module| again(&module.tests))
    }

    /// The test of the same element and stage with the number before.
    fn test_before<'a>(&'a self, test: &Test) -> Option<Test<'a>> {
        let number = test.test.test_number.value.checked_sub(1)?;
        let mut own = self.tests().filter(|other| other.element == test.element);
        own.find(|other| other.stage == test.stage && other.test.test_number.value == number)
    }

    /// Whether a text names a record or a file that is here.
    fn names_a_record(&self, text: &str) -> bool {
        let words = text.split(|c: char| c.is_whitespace() || ",;()\"'".contains(c));
        words
            .map(|word| word.trim_end_matches(['.', ':']))
            .filter(|word| !word.is_empty())
            .any(|word| {
                let record = self.records().any(word);
                // The head of the folder says nothing of a test.
                let head =
                    record.is_some_and(|record| record.kind == "dossier") || word == "dossier.yaml";
                !head && (record.is_some() || self.folder.files.contains_key(word))
            })
    }

    /// Whether a test's flush volume was what the method asks.
    fn wetted(&self, test: &Test) -> bool {
        let stage = match test.assembly {
            true => Stage::Assembly,
            false => Stage::Module,
        };
        let Some((_, spec)) = self.spec_of(test.record) else {
            return false;
        };
        let condition = spec.test_conditions.iter().find(|one| one.stage == stage);
        let Some(demand) = condition.and_then(|one| one.wetting_flush_volume.as_ref()) else {
            return false;
        };
        let modules = self
            .build(test.element)
            .map_or(1, |(_, build)| build.modules.len());
        let times = if demand.per_module {
            modules as f64
        } else {
            1.0
        };
        demand.holds(test.test.wetting_flush_volume.si / times)
    }
}

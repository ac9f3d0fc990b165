//! R73: Each production run is bracketed by integrity tests; a failed one marks the bracket.

use crate::record::{
    common::{Measured, Said},
    kinds::{
        cycle_log::{CycleLog, ProductionRun, ServiceTest},
        product_specification::Stage,
    },
};
use crate::{
    ground::finding::{Finding, Severity},
    rule::{Outcome, Rule, View},
};

/// Each production run is bracketed by integrity tests; a failed one marks the bracket.
pub static RULE: Rule = Rule {
    id: "R73",
    severity: Severity::Blocks,
    demands: "Each production run is bracketed by integrity tests; a failed one marks the bracket.",
    protects: "wine that was filtered through a filter that had failed",
    explained: "An open bracket by a decided deviation of category data that names the log; a failed test never.",
    check,
};

fn finding(message: String) -> Finding {
    Finding::new(RULE.id, RULE.severity, message)
}

fn check(view: &View) -> Outcome {
    let mut out = Outcome::of(say!("tests in service and runs"));
    for (record, log) in view.plant.records().cycle_logs() {
        let mut tests: Vec<&ServiceTest> = log.in_service_integrity_tests.iter().collect();
        tests.sort_by_key(|test| test.at.time);
        let (id, mut passed): (&str, Option<&ServiceTest>) = (&log.assembly_id, None);
        for test in &tests {
            out.look();
            let words = match verdict(view, log, test) {
                Ok(Said::Pass) => {
                    passed = Some(test);
                    continue;
                }
                Ok(Said::Fail) if test.verdict == Some(Said::Pass) => {
                    say!("is called a pass and lies beyond the limit")
                }
                Ok(Said::Fail) => say!("failed"),
                Err(why) => why,
            };
            let since = passed.map_or(
                say!("installation {time}", time = log.installed_at.time),
                |passed| say!("the passed test of {time}", time = passed.at.time),
            );
            out.find(
                finding(say!("{id}: the test of {time} ({test}) {words}. All that was filtered since {since} is suspect: {test2}.", id = id, time = test.at.time, test = test.value.text, words = words, since = since, test2 = runs_between(log, passed, Some(test))))
                    .advise(say!("Wet it again and test once more under the site's rule, and keep both results; whether the wine is held is the customer's decision."))
                    .at(record.at(test.spot))
                    .about(id)
                    .about(&*record.id.text),
            );
        }
        for words in disorder(log) {
            out.look();
            out.find(
                finding(format!("{id}: {words}."))
                    .advise(say!(
                        "Correct the times; which wine went through which filter hangs on them."
                    ))
                    .at(record.place())
                    .about(id)
                    .about(&*record.id.text),
            );
        }
        // Where runs are not listed, a test after steaming begins one and a test at the end closes it.
        let mut runs: Vec<&ProductionRun> = log.production_runs.iter().collect();
        runs.sort_by_key(|run| run.start.time);
        out.looked += runs.len();
        let open = match runs.is_empty() {
            false => {
                let open: Vec<String> = runs
                    .into_iter()
                    .filter_map(|run| without_test(log, &tests, run))
                    .collect();
                (!open.is_empty()).then(|| open.join("; "))
            }
            true => match tests.last() {
                None => Some(say!("no integrity test in service is recorded").to_owned()),
                Some(test)
                    if test
                        .stage
                        .as_deref()
                        .is_some_and(|stage| stage.contains("end")) =>
                {
                    None
                }
                Some(test) => Some(say!(
                    "passed {time} ({stage}), no test after",
                    time = test.at.time,
                    stage = test.stage.as_deref().unwrap_or(say!("stage not stated"))
                )),
            },
        };
        if let Some(open) = open {
            out.find(
                Finding {
                    severity: Severity::Explain,
                    ..finding(say!(
                        "{id}: {open}; the bracket is open.",
                        id = id,
                        open = open
                    ))
                }
                .advise(say!(
                    "Test before the next run; until then the bracket is named on the page."
                ))
                .at(record.place())
                .about(id)
                .about(&*record.id.text),
            );
        }
    }
    out
}

/// What of a run's bracket is missing.
fn without_test(log: &CycleLog, tests: &[&ServiceTest], run: &ProductionRun) -> Option<String> {
    let from = run.start.time;
    let until = run.end.as_ref().unwrap_or(&run.start).time;
    // A treatment after the test may have broken what was tested.
    let treated = log.events.iter().map(|event| event.start.time);
    let treated = treated.filter(|time| *time <= from).max();
    let before = tests
        .iter()
        .any(|test| test.at.time <= from && treated.is_none_or(|treated| test.at.time >= treated));
    let after = tests.iter().any(|test| test.at.time >= until);
    let run = &*run.run;
    match (before, after) {
        (true, true) => None,
        (true, false) => Some(say!(
            "run {run} of {from}: tested before, no test after",
            run = run,
            from = from
        )),
        (false, true) => Some(say!(
            "run {run} of {from}: no test before",
            run = run,
            from = from
        )),
        (false, false) => Some(say!(
            "run {run} of {from}: no test before and none after",
            run = run,
            from = from
        )),
    }
}

/// Runs that end before they begin, and two at once.
fn disorder(log: &CycleLog) -> Vec<String> {
    let mut runs: Vec<&ProductionRun> = log.production_runs.iter().collect();
    runs.sort_by_key(|run| run.start.time);
    let backwards = runs.iter().filter_map(|run| {
        let end = run.end.as_ref()?;
        (end.time < run.start.time)
            .then(|| say!("run {run} ends before it begins", run = &*run.run))
    });
    let at_once = runs.array_windows().filter_map(|[one, next]| {
        let end = one.end.as_ref()?;
        (next.start.time < end.time).then(|| {
            say!(
                "run {next} begins before run {one} ends",
                next = &*next.run,
                one = &*one.run
            )
        })
    });
    backwards.chain(at_once).collect()
}

/// The verdict of a test in service: what the plant says, unless the maker's limit says otherwise; or why there is none.
fn verdict(view: &View, log: &CycleLog, test: &ServiceTest) -> Result<Said, &'static str> {
    let spec = view
        .plant
        .spec_of_element(&log.assembly_id)
        .map(|(_, spec)| spec);
    let accepted = spec.and_then(|spec| {
        spec.limit(Stage::InService, test.quantity)
            .or_else(|| spec.limit(Stage::Assembly, test.quantity))
    });
    if test.verdict != Some(Said::Fail)
        && let Some(accepted) = accepted
    {
        // What was measured otherwise says nothing of this limit.
        if accepted.limit.unit.dim != test.value.unit.dim {
            return Err(say!("is of another kind of quantity than its limit"));
        }
        match (&accepted.at, &test.at_pressure) {
            (Some(_), None) => return Err(say!("does not say at which pressure it was made")),
            (Some(due), Some(had)) if (had.si / due.si - 1.0).abs() > 0.05 => {
                return Err(say!("was made at another pressure than its limit"));
            }
            _ => {}
        }
    }
    let inside = accepted.map(|accepted| {
        let modules = view
            .plant
            .build(&log.assembly_id)
            .map_or(1, |(_, build)| build.modules.len());
        let times = if accepted.limit.per_module {
            modules as f64
        } else {
            1.0
        };
        // A lower bound counts once: a bubble point does not grow with the number of modules.
        let times = if test.quantity == Measured::BubblePoint {
            1.0
        } else {
            times
        };
        accepted.limit.holds(test.value.si / times)
    });
    match (test.verdict, inside) {
        (Some(Said::Fail), _) | (_, Some(false)) => Ok(Said::Fail),
        (Some(Said::Pass), _) | (None, Some(true)) => Ok(Said::Pass),
        (None, None) => Err(say!("has no verdict and no limit to be held against")),
    }
}

/// The runs of a bracket, with what was filtered where that is stated.
fn runs_between(log: &CycleLog, from: Option<&ServiceTest>, to: Option<&ServiceTest>) -> String {
    let inside: Vec<String> = log
        .production_runs
        .iter()
        .filter(|run| {
            from.is_none_or(|from| run.start.time >= from.at.time)
                && to.is_none_or(|to| run.start.time <= to.at.time)
        })
        .map(|run| match &run.volume {
            Some(volume) => say!(
                "run {run} ({volume})",
                run = &*run.run,
                volume = volume.text
            ),
            None => say!("run {run}", run = &*run.run),
        })
        .collect();
    match inside.is_empty() {
        true => say!("the log names no run in that time").into(),
        false => inside.join(", "),
    }
}

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
            if verdict(view, log, test) == Some(Said::Pass) {
                passed = Some(test);
                continue;
            }
            let words = match test.verdict {
                None => say!("has no verdict and no limit to be held against"),
                Some(Said::Pass) if verdict(view, log, test).is_none() => {
                    say!("was made at another pressure than its limit")
                }
                Some(Said::Fail) => say!("failed"),
                Some(Said::Pass) => say!("is called a pass and lies beyond the limit"),
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
        let open = match log.production_runs.iter().max_by_key(|run| run.start.time) {
            Some(run) => {
                out.look();
                let from = run.start.time;
                // A treatment after the test may have broken what was tested.
                let steamed = log
                    .events
                    .iter()
                    .map(|event| event.start.time)
                    .filter(|time| *time <= from)
                    .max();
                let (before, after) = (
                    tests.iter().any(|test| {
                        test.at.time <= from
                            && steamed.is_none_or(|steamed| test.at.time >= steamed)
                    }),
                    tests
                        .iter()
                        .any(|test| test.at.time >= run.end.as_ref().unwrap_or(&run.start).time),
                );
                match (before, after) {
                    (true, true) => None,
                    (true, false) => Some(say!(
                        "run {run} of {from}: tested before, no test after",
                        run = &*run.run,
                        from = from
                    )),
                    (false, true) => Some(say!(
                        "run {run} of {from}: no test before",
                        run = &*run.run,
                        from = from
                    )),
                    (false, false) => Some(say!(
                        "run {run} of {from}: no test before and none after",
                        run = &*run.run,
                        from = from
                    )),
                }
            }
            None => match tests.last() {
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

/// The verdict of a test in service: what the plant says, unless the maker's limit says otherwise.
fn verdict(view: &View, log: &CycleLog, test: &ServiceTest) -> Option<Said> {
    let spec = view
        .plant
        .spec_of_element(&log.assembly_id)
        .map(|(_, spec)| spec);
    let accepted = spec.and_then(|spec| {
        spec.limit(Stage::InService, test.quantity)
            .or_else(|| spec.limit(Stage::Assembly, test.quantity))
    });
    // At another pressure the result says nothing of this limit.
    let elsewhere = accepted
        .and_then(|accepted| accepted.at.as_ref())
        .zip(test.at_pressure.as_ref())
        .is_some_and(|(due, had)| (had.si / due.si - 1.0).abs() > 0.05);
    if elsewhere {
        return None;
    }
    let inside = accepted
        .filter(|accepted| accepted.limit.unit.dim == test.value.unit.dim)
        .map(|accepted| {
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
        (Some(Said::Fail), _) | (_, Some(false)) => Some(Said::Fail),
        (Some(Said::Pass), _) | (None, Some(true)) => Some(Said::Pass),
        (None, None) => None,
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

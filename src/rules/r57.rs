//! R57: All results are kept: the tests of an element are numbered without a gap.

use crate::{
    ground::finding::{Finding, Severity},
    plant::Test,
    rule::{Outcome, Rule, View},
};

/// All results are kept: the tests of an element are numbered without a gap.
pub static RULE: Rule = Rule {
    id: "R57",
    severity: Severity::Blocks,
    demands: "All results are kept: the tests of an element are numbered without a gap.",
    protects: "a test that was left out",
    explained: "Never: it is mended, or what it concerns is not released.",
    check,
};

fn finding(message: String) -> Finding {
    Finding::new("R57", Severity::Blocks, message)
}

fn check(view: &View) -> Outcome {
    let mut out = Outcome::of("tested elements");
    let modules = view
        .plant
        .modules
        .iter()
        .map(|(id, module)| (id, &module.tests));
    let assemblies = view
        .plant
        .assemblies
        .iter()
        .map(|(id, assembly)| (id, &assembly.tests));
    for (id, tests) in modules
        .chain(assemblies)
        .filter(|(_, tests)| !tests.is_empty())
    {
        out.look();
        let mut by_stage: std::collections::BTreeMap<
            Option<&str>,
            Vec<(u64, &crate::record::Record)>,
        > = std::collections::BTreeMap::new();
        for test in tests
            .iter()
            .filter_map(|index| Test::of(view.plant.record(*index)))
        {
            by_stage
                .entry(test.stage)
                .or_default()
                .push((test.test.test_number.value, test.record));
        }
        for numbers in by_stage.values_mut() {
            numbers.sort_by_key(|(number, _)| *number);
            for (due, (number, record)) in (1..).zip(numbers.iter()) {
                if *number != due {
                    out.find(
                        finding(format!(
                            "{id}: {} is test {number}, and {due} is due.",
                            &*record.id
                        ))
                        .advise(format!("Find test {due}, or correct the number."))
                        .at(record.place())
                        .about(&**id),
                    );
                    break;
                }
            }
        }
    }
    out
}

//! The element in service: one sheet an assembly, for the plant that uses it.

use super::{Book, Cell, Making, Page, Section, Table, assembly_page, counted, href};
use crate::{
    chart::escape,
    figures::cycles_used,
    ground::{name::safe, number, unit, words::spelt},
    plant::Plant,
    record::kinds::{
        cycle_claim::Claim,
        cycle_log::{Carried, CycleLog},
        product_specification::{Acceptance, Stage},
    },
    record::{
        Record,
        common::{Measured, Said},
        read::Demand,
    },
};

/// The page of an element in service.
pub fn service_page(id: &str) -> String {
    format!("service/{id}.html", id = safe(id))
}

/// One sheet for each assembly that is released or in service.
pub fn elements<'a>(book: &'a Book) -> Vec<Making<'a>> {
    let all = book.dossier.plant.assemblies.iter();
    let used = all
        .filter(|(id, assembly)| book.view.release.contains(&***id) || !assembly.logs.is_empty());
    Making::each(used, |(id, _)| element(book, id))
}

fn element(book: &Book, id: &str) -> Page {
    let path = service_page(id);
    let plant = &book.dossier.plant;
    let mut sections = Vec::new();
    let mut logs: Vec<(&Record, &CycleLog)> = plant.logs(id).collect();
    logs.sort_by_key(|(_, log)| log.installed_at.time);
    let mut fitted = Table::new(
        say!("Where it was fitted"),
        &[say!("log"), say!("where"), say!("from"), say!("until")],
    );
    for (record, log) in &logs {
        let site = log.site.leaves.iter().map(|(key, text)| match &**key {
            "housing" => say!("housing {text}", text = &**text),
            "position" => say!("position {text}", text = &**text),
            _ => text.to_string(),
        });
        let site: Vec<String> = site.collect();
        fitted.rows.push(vec![
            Cell::link(&*record.id.text, book.place_href(&path, &record.place())),
            Cell::text(site.join(", ")),
            Cell::text(log.installed_at.time.to_string()),
            Cell::text(
                log.removed_at
                    .as_ref()
                    .map_or(say!("still there").to_owned(), |when| when.time.to_string()),
            ),
        ]);
    }
    // What can hurt somebody stands before what somebody goes and does.
    let mut cautions = Section::new("cautions", say!("Before you begin"));
    let dangers = [
        say!(
            "Gas under pressure kills: vent to zero before opening, never tighten a clamp under pressure, do not exceed the lower of the two pressure ratings, that of the housing and that of the element."
        ),
        say!("Nitrogen suffocates: vent outdoors, and watch the oxygen in closed rooms."),
        say!(
            "Steam and hot water burn: drain condensate, warm slowly, no reverse pressure while hot, cool before use."
        ),
        say!("Chemicals: eye and skin protection, never mix, rinse to neutral and prove it."),
        say!("Discard first runnings. Local rules and licensed practice come first."),
    ];
    let dangers = dangers.map(|danger| format!("<li>{}</li>", escape(danger)));
    cautions.html.push(format!("<ul>{}</ul>", dangers.concat()));
    sections.push(cautions);
    sections.push(next_test(book, &path, id));
    sections.push(cycles(book, &path, id, &logs));
    let place = Section::new("place", say!("Where it is fitted"));
    sections.push(match fitted.rows.is_empty() {
        true => place.say(say!("Nothing is reported: line ________  housing ________  position ____  fitted on ____________")),
        false => place.table(fitted).say(say!("Reported by the customer; the maker has verified none of it.")),
    });
    sections.push(brackets(book, &path, &logs));
    let mut back = Section::new("back", say!("To bring results back"))
        .say(say!("Note them here and send the sheet to the maker; a record of kind cycle_log holds the same."))
        .table(form());
    back.ways(say!(
        "<p><a href=\"{id}\">the sheet of {id2}</a> · <a href=\"{html}\">all cautions</a></p>",
        id = href(&path, &assembly_page(id)),
        id2 = escape(id),
        html = href(&path, "cautions.html")
    ));
    sections.push(back);
    let length = plant.build(id).map_or(String::new(), |(_, build)| {
        say!(
            "{nominal_length}, {modules}. ",
            nominal_length = spelt(&build.nominal_length.text),
            modules = counted::modules(build.modules.len())
        )
    });
    let product = plant
        .spec_of_element(id)
        .map_or(String::new(), |(_, spec)| {
            let lot = plant.lot_of(id).unwrap_or(say!("not known"));
            say!(
                "{product_code}, {nominal_rating}, lot {lot}. ",
                product_code = &*spec.product_code,
                nominal_rating = spelt(&spec.nominal_rating.text),
                lot = lot
            )
        });
    Page {
        notice: String::new(),
        title: say!("{id} in service", id = id),
        lead: format!(
            "{product}{length}{}.",
            super::capital(&super::standing::status(book, id))
        ),
        trail: vec![Cell::link(
            say!("assembly {id}", id = id),
            href(&path, &assembly_page(id)),
        )],
        sections,
        path,
        template: "roomy-sheet.html",
    }
}

/// Cycles used, proven and left, each treatment on its own.
fn cycles(book: &Book, path: &str, id: &str, logs: &[(&Record, &CycleLog)]) -> Section {
    let plant = &book.dossier.plant;
    let mut table = Table::new(
        say!("Cycles"),
        &[
            say!("treatment"),
            say!("conditions"),
            say!("claimed"),
            say!("used"),
            say!("traces: here + by word"),
            say!("left"),
        ],
    );
    let product = plant
        .spec_of_element(id)
        .map(|(_, spec)| &*spec.product_code.text);
    let claims = plant
        .records()
        .cycle_claims()
        .find(|(_, claim)| product.is_some_and(|code| &*claim.product_code.text == code));
    let mut said = Vec::new();
    if let Some((record, claim)) = claims {
        for one in &claim.claims {
            let treatment = &*one.treatment.text;
            // What each log carries forward of a figure, and the figure.
            let counted = |figure: &'static str, of: fn(&Carried) -> u64| {
                let all = logs.iter().map(move |(record, log)| {
                    let own = cycles_used::carried_of(log, treatment);
                    let carried: f64 = own.map(|one| of(one) as f64).sum();
                    let found = book.dossier.graph.get(figure, &record.id, treatment);
                    let found = found.and_then(|computed| computed.quantity());
                    (carried, found.map_or(0.0, |quantity| quantity.value))
                });
                all.collect::<Vec<_>>()
            };
            let used = counted("cycles-used", |one| one.cycles.value);
            let proven = counted("cycles-proven", cycles_used::traced);
            let here: f64 = proven.iter().map(|(carried, all)| all - carried).sum();
            let used = cycles_used::over_logs(used.into_iter());
            let proven = cycles_used::over_logs(proven.into_iter());
            let left = one.cycles_claimed.value as f64 - used;
            let count = |n: f64| Cell::text(number::fixed(n, 0));
            table.rows.push(vec![
                Cell::link(
                    super::usual(treatment),
                    book.place_href(path, &record.at(one.spot)),
                ),
                Cell::text(conditions(one)),
                count(one.cycles_claimed.value as f64),
                count(used),
                Cell::text(format!(
                    "{} + {}",
                    number::fixed(here, 0),
                    number::fixed((proven - here).max(0.0), 0)
                )),
                count(left),
            ]);
            if used > 0.0 {
                let rest = (used - proven.max(here)).max(0.0);
                said.push(say!("{treatment}: {left} left of {cycles_claimed}; {used} counted: {here} with a whole trace in this dossier, {said} carried forward with traces by the plant's word, {rest} with a gap or by word only.", treatment = super::capital(&super::usual(treatment)), left = number::fixed(left, 0), cycles_claimed = one.cycles_claimed.value, used = number::fixed(used, 0), here = number::fixed(here, 0), said = number::fixed((proven - here).max(0.0), 0), rest = number::fixed(rest, 0)));
            }
        }
    }
    let mut section = Section::new("cycles", say!("Cycles used, proven and left"));
    if logs.len() > 1 {
        section = section.say(say!("It is reported in more than one log; a log that carries the earlier ones forward stands for them, and all others add up, which is the safe side."));
    }
    for words in said {
        section = section.say(&words);
    }
    if let Some((_, claim)) = claims {
        let age = claim
            .age_limit_in_service
            .as_ref()
            .map_or(String::new(), |age| {
                say!(" Longest time in service: {age}.", age = spelt(&age.text))
            });
        section = section.say(&format!(
            "{}.{age}",
            super::capital(&claim.combination_rule)
        ));
        let never: Vec<&str> = claim.not_covered.iter().map(|text| &**text).collect();
        if !never.is_empty() {
            section = section.say(&say!("Never: {never}.", never = spelt(&never.join("; "))));
        }
    }
    match table.rows.is_empty() {
        true => section.say(say!("No claim of cycles is recorded for this product.")),
        false => section.table(table),
    }
}

/// Lines to be filled in by hand.
fn form() -> Table {
    let mut form = Table::new(
        say!("To bring results back"),
        &[
            say!("date"),
            say!("treatment"),
            say!("hold, min"),
            say!("highest temperature, °C"),
            say!("pressure difference, mbar"),
            say!("trace file"),
        ],
    );
    form.rows = (0..4)
        .map(|_| (0..6).map(|_| Cell::text("")).collect())
        .collect();
    form
}

/// What to type into the rig, and what the test can see.
fn next_test(book: &Book, path: &str, id: &str) -> Section {
    let plant = &book.dossier.plant;
    let mut table = Table::new(
        say!("Next test, for this element alone"),
        &[
            say!("what"),
            say!("test pressure, gauge"),
            say!("gas"),
            say!("liquid"),
            say!("limit"),
        ],
    );
    let modules = plant.build(id).map_or(1, |(_, build)| build.modules.len());
    let mut flow_limit = None;
    if let Some((record, spec)) = plant.spec_of_element(id) {
        let limits: Vec<&Acceptance> = [Measured::DiffusiveFlow, Measured::BubblePoint]
            .into_iter()
            .filter_map(|quantity| {
                spec.limit(Stage::InService, quantity)
                    .or_else(|| spec.limit(Stage::Assembly, quantity))
            })
            .collect();
        for accepted in limits {
            let demand = &accepted.limit;
            let times = if demand.per_module {
                modules as f64
            } else {
                1.0
            };
            let show = |si: f64| {
                let value = demand.unit.of_si(si * times);
                number::with_unit(&number::significant(value, 4), demand.unit)
            };
            let limit = match (demand.low, demand.high, demand.per_module) {
                (None, Some(high), true) => say!("at most {high}", high = show(high)),
                (Some(low), None, true) => say!("at least {low}", low = show(low)),
                // As it was laid down, last zeros included.
                _ => demand
                    .text
                    .replace("<=", say!("at most"))
                    .replace(">=", say!("at least")),
            };
            if accepted.quantity == Measured::DiffusiveFlow {
                flow_limit = demand.high.map(|high| high * times);
            }
            let condition = spec
                .test_conditions
                .iter()
                .find(|one| one.stage == Stage::Assembly);
            let liquid = accepted
                .wetting_liquid
                .as_ref()
                .or(condition.and_then(|one| one.wetting_liquid.as_ref()));
            // Where the limit names none it was held against tests with the gas that the maker took.
            let last = plant.last_test(id);
            let measured = last.and_then(|test| test.measurement(accepted.quantity));
            let taken = measured.and_then(|measured| measured.test_gas.as_ref());
            let gas = accepted.test_gas.as_ref().or(taken);
            table.rows.push(vec![
                Cell::link(
                    accepted.quantity.said(),
                    book.place_href(path, &record.at(accepted.spot)),
                ),
                Cell::text(accepted.at.as_ref().map_or("–", |at| &at.text)),
                Cell::text(gas.map_or("–".to_owned(), |gas| super::usual(gas))),
                Cell::text(liquid.map_or("–".to_owned(), |liquid| super::usual(liquid))),
                Cell::text(limit),
            ]);
        }
    }
    let mut section = Section::new("next-test", say!("Next integrity test")).table(table);
    if let Some(limit) = flow_limit {
        let show = |si: f64| {
            number::with_unit(
                &number::significant(unit::ML_PER_MIN.of_si(si), 3),
                &unit::ML_PER_MIN,
            )
        };
        let own = plant
            .last_test(id)
            .and_then(|test| {
                book.dossier
                    .graph
                    .get("diffusive-flow", &test.record.id, "")
            })
            .and_then(|computed| computed.quantity());
        if let Some(own) = own {
            // Five times what stands in the sentence before.
            let hidden = unit::ML_PER_MIN.of_si((limit - own.value).max(0.0));
            let scale = libm::pow(10.0, f64::from(number::places(hidden, 3)));
            let hidden = libm::round(hidden * scale) / scale;
            section = section.say(&say!("The maker measured {own} on this element. A test of it alone that reads up to its limit of {limit} hides a leak of up to {own2}.", own = show(own.value), limit = show(limit), own2 = show((limit - own.value).max(0.0))));
            section = section.say(&say!("In a housing of n such elements one test against n times the limit hides up to n times that: with 5 elements {own}. Such a test cannot say which element leaks; single tests can.", own = show(unit::ML_PER_MIN.to_si(5.0 * hidden))));
        }
    }
    if let Some(words) = how(plant, id) {
        section = section.say(&words);
    }
    if let Some((_, spec)) = plant.spec_of_element(id) {
        let at = &spec.reference_conditions;
        section = section.say(&say!(
            "Pressures are gauge pressures; a flow of gas is counted at {temperature} and {pressure} absolute.",
            temperature = spelt(&at.temperature.text),
            pressure = spelt(&at.pressure.text)
        ));
    }
    section
        .say(say!("Test before and after each run. Use the pressure, gas and liquid named; results with another gas or liquid are not held against this limit."))
        .say(say!("If a test fails: stop, and hold what was filtered since the last passed test. Look at housing, seals and connections, wet again as above, test once more, keep both results; test elements one by one. One that fails again is taken out, and the maker is told. What becomes of the wine is decided by a qualified person of the plant."))
}

/// How the maker tests: wetting, times, the words that fix the bubble point, and how far the element was ever pressed.
fn how(plant: &Plant, id: &str) -> Option<String> {
    let (_, spec) = plant.spec_of_element(id)?;
    let mut conditions = spec.test_conditions.iter();
    let conditions = conditions.find(|one| one.stage == Stage::Assembly);
    let asked = |demand: &Option<Demand>| {
        let text = demand
            .as_ref()
            .map(|demand| spelt(&demand.text).into_owned());
        text.map(|text| {
            text.replace("..", say!("to"))
                .replace(">=", "≥")
                .replace("<=", "≤")
        })
    };
    let mut said = Vec::new();
    if let Some(one) = conditions {
        let parts = [
            (say!("flush"), asked(&one.wetting_flush_volume)),
            (say!("liquid"), asked(&one.liquid_temperature)),
            (say!("settle"), asked(&one.stabilisation_time)),
            (say!("measure"), asked(&one.measurement_time)),
        ];
        let parts = parts.into_iter();
        let parts: Vec<String> = parts
            .filter_map(|(name, text)| Some(format!("{name} {}", text?)))
            .collect();
        if !parts.is_empty() {
            said.push(say!(
                "As the maker tests: {parts}.",
                parts = parts.join(", ")
            ));
        }
    }
    if let Some(criterion) = &spec.bubble_point_criterion {
        said.push(say!("Bubble point: {criterion}.", criterion = &**criterion));
    }
    let own = plant
        .last_test(id)
        .into_iter()
        .flat_map(|test| test.test.measurements.iter());
    let traces = own.filter_map(|measured| plant.folder.trace(measured.trace.as_ref()?));
    let columns =
        traces.filter_map(|trace| trace.column("pressure").filter(|column| !column.absolute));
    let most = columns
        .flat_map(|column| column.values.iter().copied())
        .reduce(f64::max);
    if let Some(most) = most {
        said.push(say!(
            "The maker pressed it to {most} in its tests; these records state no pressure rating of the element: ask the maker before you go higher.",
            most = number::with_unit(&number::fixed(unit::MBAR.of_si(most), 0), &unit::MBAR)
        ));
    }
    (!said.is_empty()).then(|| said.join(" "))
}

/// Every run between two good tests, or not.
fn brackets(book: &Book, path: &str, logs: &[(&Record, &CycleLog)]) -> Section {
    let mut table = Table::new(
        say!("Tests and runs in order of time"),
        &[say!("when"), say!("what"), say!("result")],
    );
    let mut rows = Vec::new();
    for (record, log) in logs {
        for test in log.in_service_integrity_tests.iter() {
            rows.push((
                test.at.time,
                vec![
                    Cell::link(
                        test.at.time.to_string(),
                        book.place_href(path, &record.at(test.spot)),
                    ),
                    Cell::text(say!(
                        "test, {quantity}, {stage}",
                        quantity = test.quantity.said(),
                        stage = test
                            .stage
                            .as_deref()
                            .map_or(say!("stage not stated").to_owned(), super::usual)
                    )),
                    Cell::text(format!(
                        "{} {}",
                        test.value.text,
                        match test.verdict {
                            Some(Said::Pass) => say!("passed"),
                            Some(Said::Fail) => say!("failed"),
                            None => say!("no verdict"),
                        }
                    )),
                ],
            ));
        }
        for run in log.production_runs.iter() {
            rows.push((
                run.start.time,
                vec![
                    Cell::link(
                        run.start.time.to_string(),
                        book.place_href(path, &record.at(run.spot)),
                    ),
                    Cell::text(say!("run {run}", run = &*run.run)),
                    Cell::text(run.volume.as_ref().map_or("", |volume| &volume.text)),
                ],
            ));
        }
    }
    rows.sort_by_key(|(when, _)| *when);
    table.rows = rows.into_iter().map(|(_, row)| row).collect();
    let mut section = Section::new("brackets", say!("Was every run between two good tests?"));
    let ids: std::collections::BTreeSet<&str> =
        logs.iter().map(|(record, _)| &*record.id.text).collect();
    section.findings = book.findings_about(path, &ids);
    section.findings.retain(|finding| finding.rule == "R73");
    if table.rows.is_empty() {
        return section.say(say!("No test and no run in service is reported."));
    }
    let (runs, tested): (usize, usize) = logs.iter().fold((0, 0), |(runs, tested), (_, log)| {
        (
            runs + log.production_runs.len(),
            tested + log.in_service_integrity_tests.len(),
        )
    });
    section = match section.findings.is_empty() {
        true => section.say(&say!(
            "Yes, as far as runs and tests are reported: {runs}, {tested}.",
            runs = counted::runs(runs),
            tested = counted::tests(tested)
        )),
        false => section.say(say!("No.")),
    };
    section.table(table).say(say!("All that was filtered between the last passed test and a failed one is suspect. Whether it is held is the customer's decision."))
}

/// The conditions under which a claim holds, in one phrase.
pub fn conditions(one: &Claim) -> String {
    let said = [
        one.agent.as_ref().map(|agent| agent.to_string()),
        one.temperature_max
            .as_ref()
            .map(|most| say!("at most {most}", most = spelt(&most.text))),
        one.time_per_cycle
            .as_ref()
            .map(|time| say!("{time} a cycle", time = spelt(&time.text))),
        one.differential_pressure_max
            .as_ref()
            .map(|most| say!("forward at most {most}", most = spelt(&most.text))),
        one.reverse_differential_pressure_max
            .as_ref()
            .map(|most| say!("reverse at most {most}", most = spelt(&most.text))),
    ];
    let said: Vec<String> = said.into_iter().flatten().collect();
    said.join(", ")
}

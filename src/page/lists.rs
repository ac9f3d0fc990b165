//! The pages that list: release, open points, joins, cycles, retention, instruments, deviations,
//! methods, rules, records, cautions, checking.

use super::{Book, Cell, Page, Section, Table, figure::view, has_lines, href, lot_page, sheets, source};
use crate::{
    chart::escape,
    figure::Figure,
    figures,
    formula::symbol_mathml,
    ground::{finding::Severity, number},
    record::{folder, kinds::Body},
    rule::Checked,
    verdict::Verdict,
};

fn page(path: &str, title: &str, lead: &str, sections: Vec<Section>) -> Page {
    Page { path: path.into(), template: "sheet.html", title: title.into(), lead: lead.into(), trail: Vec::new(), sections }
}

/// The first page: can it be released, and what is in it.
pub fn release(book: &Book) -> Page {
    let path = "index.html";
    let dossier = book.dossier;
    let plant = &dossier.plant;
    let count = |severity| dossier.count(severity);
    let (blocks, explain, notes) = (count(Severity::Blocks), count(Severity::Explain), count(Severity::Note));
    let mut sections = Vec::new();

    let answer = match blocks {
        0 => "No finding blocks release. The release itself is the decision of the person named below, not of this dossier.".to_owned(),
        n => format!("Not to be released: {n} finding{} block{} it.", if n == 1 { "" } else { "s" }, if n == 1 { "s" } else { "" }),
    };
    let mut status = Section::new("status", "Can it be released?").say(&answer);
    let mut counts = Table::new("Findings by weight", &["weight", "findings"]);
    for (severity, n) in [(Severity::Blocks, blocks), (Severity::Explain, explain), (Severity::Note, notes)] {
        counts.rows.push(vec![Cell::link(severity.words(), format!("open-points.html#{}", severity.key())), Cell::text(n.to_string())]);
    }
    status.table = Some(counts);
    status.findings = dossier.findings().into_iter().filter(|finding| finding.severity == Severity::Blocks).map(|finding| book.finding(path, finding)).collect();
    sections.push(status);

    let mut verdicts = Table::new("Figures by verdict", &["verdict", "figures"]);
    for verdict in [Verdict::DoesNotConform, Verdict::Undecided, Verdict::NotEvaluated, Verdict::Conforms, Verdict::NoLimit] {
        let n = dossier.graph.computed.values().filter(|computed| computed.verdict() == verdict).count();
        verdicts.rows.push(vec![Cell::verdict(verdict), Cell::text(n.to_string())]);
    }
    sections.push(Section::new("verdicts", "Figures by verdict").table(verdicts));

    let mut weakest: Vec<_> = book.view.release.iter().filter_map(|id| sheets::weakest(book, id).map(|(computed, margin)| (margin, *id, computed))).collect();
    weakest.sort_by(|a, b| a.0.total_cmp(&b.0).then(a.1.cmp(b.1)));
    let mut table = Table::new("The released assemblies with the least room to a limit", &["assembly", "figure", "value", "limit", "room in standard uncertainties", "verdict"]);
    for (margin, id, computed) in weakest.into_iter().take(8) {
        table.rows.push(vec![
            book.thing(path, id),
            Cell::link(computed.figure.name, book.figure_href(path, &computed.id)),
            Cell::text(computed.shown()),
            Cell::text(computed.judgement.as_ref().map_or(String::new(), |judgement| judgement.limit.text.clone())),
            Cell::text(number::fixed(margin, 1)),
            Cell::verdict(computed.verdict()),
        ]);
    }
    sections.push(Section::new("least-room", "Least room").table(table));

    for (record, release) in plant.releases() {
        let mut section = Section::new(&format!("release-{}", crate::ground::name::safe(&record.id)), &format!("{} revision {}", &*record.id, record.revision));
        let party = |any: &crate::record::read::Any| any.leaves.iter().map(|(_, text)| text.to_string()).collect::<Vec<_>>().join(", ");
        section = section
            .say(&release.statement)
            .say(&format!("Issued by {}. For {}. Lot {}, {} assemblies.", party(&release.issuer), party(&release.customer), &*release.object.lot_id, release.object.assemblies.len()));
        for limit in release.limitations.iter() {
            section = section.say(&format!("Limit: {}.", &**limit));
        }
        let mut table = Table::new("Signatures named in the statement", &["meaning", "name", "function", "when"]);
        for signature in release.signatures.iter() {
            table.rows.push(vec![Cell::text(&*signature.meaning.text), Cell::text(&*signature.printed_name.text), Cell::text(signature.function.replace('_', " ")), Cell::text(signature.signed_at.time.to_string())]);
        }
        section = section.say("A name in a record is no electronic signature; the person signs the printed certificate, or the sealed dossier.").table(table);
        section.html.push(format!("<p><a href=\"{}\">release statement</a></p>", book.place_href(path, &record.place())));
        sections.push(section);
    }

    let mut rule = Section::new("rule", "How values were decided");
    for (record, spec) in plant.records().product_specifications() {
        let guard = match spec.guard() {
            0.0 => "simple acceptance: a value inside the limit conforms; the risk is shared".to_owned(),
            guard => format!("guarded acceptance: a value conforms when it lies inside the limit by {} expanded uncertainties (k = 2), does not conform when it lies outside by as much, and is undecided between", number::significant(guard, 3)),
        };
        let basis = spec.decision_rule.basis.as_ref().map_or("basis not stated".to_owned(), |basis| basis.to_string());
        rule = rule.say(&format!("{} revision {} ({}): {guard}. Basis: {basis}.", &*record.id, record.revision, &*spec.product_code));
    }
    sections.push(rule);

    let mut contents = Table::new("Lots", &["lot", "modules", "assemblies"]);
    for (id, lot) in &plant.lots {
        contents.rows.push(vec![Cell::link(&**id, lot_page(id)), Cell::text(lot.modules.len().to_string()), Cell::text(lot.assemblies.len().to_string())]);
    }
    sections.push(Section::new("lots", "Lots").table(contents));

    let mut scope = Section::new("about", "What this folder is");
    let mut title = "Dossier".to_owned();
    let mut lead = String::new();
    if let Some((record, head)) = plant.records().head() {
        title = head.title.to_string();
        lead = format!("{} revision {}, {}. {}.", &*record.id, record.revision, head.compiled_on.date, &*head.maker.name);
        if let Some(old) = &head.supersedes {
            scope = scope.say(&format!("Supersedes {} revision {}{}.", &*old.id, old.revision.value, head.change_reason.as_ref().map_or(String::new(), |why| format!(": {}", &**why))));
        }
        let chapters: Vec<String> = head.chapters.iter().map(|chapter| format!("<li><a href=\"{}\">{}</a></li>", source::chapter_page(chapter), escape(&chapter_title(book, chapter)))).collect();
        if !chapters.is_empty() {
            scope.html.push(format!("<ul>{}</ul>", chapters.concat()));
        }
    }
    scope = scope
        .say(&format!("Written by sealfolio {} with {} rules and {} figure definitions. The rules of medicines manufacture are used as a yardstick by choice; nothing here claims compliance with them.", env!("CARGO_PKG_VERSION"), dossier.checked.len(), figures::ALL.len()))
        .say("A filter of 0.45 or 0.65 µm is no sterilising-grade filter. This copy cannot know whether a newer revision exists: ask the issuer for the current one.");
    sections.push(scope);
    Page { path: path.into(), template: "sheet.html", title, lead, trail: Vec::new(), sections }
}

fn chapter_title(book: &Book, chapter: &str) -> String {
    let file = book.dossier.plant.folder.files.get(chapter);
    let text = file.map(|file| String::from_utf8_lossy(&file.bytes).into_owned()).unwrap_or_default();
    text.lines().find_map(|line| line.strip_prefix("# ")).unwrap_or(chapter).to_owned()
}

/// Every finding, and every figure that does not conform or is undecided.
pub fn open_points(book: &Book) -> Page {
    let path = "open-points.html";
    let mut sections = Vec::new();
    for severity in [Severity::Blocks, Severity::Explain, Severity::Note] {
        let mut section = Section::new(severity.key(), &format!("Findings: {}", severity.words()));
        section.findings = book.dossier.findings().into_iter().filter(|finding| finding.severity == severity).map(|finding| book.finding(path, finding)).collect();
        if section.findings.is_empty() {
            section = section.say("None.");
        }
        sections.push(section);
    }
    let mut table = Table::new("Figures that are no pass, failed tests that were repeated included", &["figure", "value", "limit", "verdict", "decides"]);
    for computed in book.dossier.graph.computed.values().filter(|computed| crate::rule::not_a_pass(computed)) {
        let record = book.dossier.plant.record(computed.subject.record);
        let decides = crate::plant::Test::of(record).is_none_or(|test| book.view.decides(&test));
        table.rows.push(vec![
            Cell::link(computed.id.to_string(), book.figure_href(path, &computed.id)),
            Cell::text(computed.shown()),
            Cell::text(computed.judgement.as_ref().map_or(String::new(), |judgement| judgement.limit.text.clone())),
            Cell::verdict(computed.verdict()),
            Cell::text(if decides { "yes" } else { "no, a later test does" }),
        ]);
    }
    sections.push(Section::new("figures", "Figures that are no pass").table(table));
    page(path, "Open points", "What a person must look at, the heaviest first, each with the next step.", sections)
}

fn figures_of_kind(book: &Book, path: &str, kind: &str) -> Vec<super::figure::FigureView> {
    let plant = &book.dossier.plant;
    let of_kind = plant.indexed().filter(|(_, record)| record.kind == kind);
    of_kind.flat_map(|(index, record)| book.view.figures_at(index).iter().map(|computed| view(book, path, computed, &record.id))).collect()
}

/// Seal runs, what was seen, and coupons.
pub fn joins(book: &Book) -> Page {
    let path = "joins.html";
    let plant = &book.dossier.plant;
    let mut runs = Table::new("Seal runs", &["run", "seal", "heating", "items", "inspections", "seen", "gaps or slits"]);
    for (record, run) in plant.records().seal_runs() {
        let inspections = plant.inspections.get(&*record.id.text).cloned().unwrap_or_default();
        let (mut seen, mut gaps) = (0, 0);
        for index in &inspections {
            if let Body::SealInspection(body) = &plant.record(*index).body {
                seen += body.visual.len();
                gaps += body.visual.iter().filter(|seal| seal.gap_or_slit.as_ref().is_some_and(|gap| &**gap != "none")).count();
            }
        }
        runs.rows.push(vec![book.thing(path, &record.id), Cell::text(run.seal_type.replace('_', " ")), Cell::text(run.heating.replace('_', " ")), Cell::text(run.items.len().to_string()), Cell::text(inspections.len().to_string()), Cell::text(seen.to_string()), Cell::text(gaps.to_string())]);
    }
    let mut coupons = Section::new("coupons", "Coupons by the sampling plan");
    coupons.figures = figures_of_kind(book, path, "seal_inspection");
    page(path, "Joins and inspections", "Every seal by run: what was set, seen and pulled.", vec![Section::new("runs", "Seal runs").table(runs), coupons])
}

/// Cycles by element.
pub fn cycles(book: &Book) -> Page {
    let path = "cycles.html";
    let plant = &book.dossier.plant;
    let mut table = Table::new("Claims", &["claim", "treatment", "claimed", "tested", "elements tested"]);
    for (record, claim) in plant.records().cycle_claims() {
        for one in &claim.claims {
            table.rows.push(vec![Cell::link(&*record.id.text, book.place_href(path, &record.at(one.spot))), Cell::text(one.treatment.replace('_', " ")), Cell::text(one.cycles_claimed.value.to_string()), Cell::text(one.cycles_tested.value.to_string()), Cell::text(one.elements_tested.value.to_string())]);
        }
    }
    let mut used = Section::new("used", "Cycles used, proven and left").say("Reported by the customer; the maker has verified none. Every cycle counts against life; only those with a whole trace prove anything.");
    used.figures = figures_of_kind(book, path, "cycle_log");
    page(path, "Cycles", "What elements withstand, and what they have been through.", vec![Section::new("claims", "Claims").table(table), used])
}

/// Challenges with organisms.
pub fn retention(book: &Book) -> Page {
    let path = "retention.html";
    let mut table = Table::new("Challenges", &["challenge", "organism", "roll", "claim under test", "runs"]);
    for (record, body) in book.dossier.plant.records().retention_challenges() {
        table.rows.push(vec![book.thing(path, &record.id), Cell::text(&*body.organism.name.text), book.thing(path, &body.material_lot), Cell::text(&*body.claim_under_test.text), Cell::text(body.runs.len().to_string())]);
    }
    let mut runs = Section::new("runs", "Runs").say("A run without a colony shows a lower bound, never complete retention.");
    runs.figures = figures_of_kind(book, path, "retention_challenge");
    page(path, "Retention", "What was challenged, with what, and what the count can show.", vec![Section::new("challenges", "Challenges").table(table), runs])
}

/// Instruments, their calibrations and their uses.
pub fn instruments(book: &Book) -> Page {
    let path = "instruments.html";
    let plant = &book.dossier.plant;
    let mut uses: std::collections::BTreeMap<&str, Vec<&crate::record::Record>> = std::collections::BTreeMap::new();
    for record in plant.records().current() {
        for instrument in crate::rules::r30::instruments(record) {
            uses.entry(instrument).or_default().push(record);
        }
    }
    for (_, body) in plant.records().calibration_records() {
        uses.entry(&body.instrument_id).or_default();
    }
    let mut sections = Vec::new();
    for (instrument, records) in uses {
        let mut table = Table::new("Calibrations", &["record", "valid", "by", "worst error as found", "limit"]);
        for (record, body) in plant.calibrations(instrument) {
            let worst = body.points.iter().max_by(|a, b| (a.as_found_error.si / a.maximum_permissible_error.si).abs().total_cmp(&(b.as_found_error.si / b.maximum_permissible_error.si).abs()));
            table.rows.push(vec![book.thing(path, &record.id), Cell::text(format!("{} to {}", body.valid_from.date, body.valid_until.date)), Cell::text(&*body.performed_by.text), Cell::text(worst.map_or(String::new(), |point| format!("{} at {}", point.as_found_error.text, point.nominal.text))), Cell::text(worst.map_or(String::new(), |point| point.maximum_permissible_error.text.to_string()))]);
        }
        let days: Vec<_> = records.iter().filter_map(|record| record.day()).collect();
        let span = days.iter().min().zip(days.iter().max()).map_or("not used in this dossier".to_owned(), |(first, last)| format!("used {} times, {first} to {last}", days.len()));
        let uncovered = records.iter().filter(|record| record.day().is_some_and(|day| !plant.calibrations(instrument).iter().any(|(_, body)| body.valid_from.date <= day && day <= body.valid_until.date))).count();
        let said = if uncovered == 0 { "Every use lies inside a calibration.".to_owned() } else { format!("{uncovered} uses lie outside every calibration.") };
        sections.push(Section::new(&crate::ground::name::safe(instrument), instrument).say(&format!("{}. {said}", capital(&span))).table(table));
    }
    page(path, "Instruments", "Which instrument, calibrated when, used for what.", sections)
}

fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or(String::new(), |first| first.to_uppercase().chain(letters).collect())
}

/// Deviations: what happened, what was decided, by whom, on what.
pub fn deviations(book: &Book) -> Page {
    let path = "deviations.html";
    let mut sections = Vec::new();
    for (record, deviation) in book.dossier.plant.records().deviations() {
        let mut table = Table::new("Decision", &["decision", "by", "when", "concerns"]);
        let subjects: Vec<String> = deviation.subject.texts().map(|text| text.to_string()).collect();
        table.rows.push(vec![
            Cell::text(deviation.decision.map_or("none yet".to_owned(), |decision| decision.word().replace('_', " "))),
            Cell::text(deviation.approved_by.as_deref().unwrap_or("nobody yet")),
            Cell::text(deviation.approved_at.as_ref().map_or(String::new(), |when| when.time.to_string())),
            Cell::text(subjects.join(", ")),
        ]);
        let mut section = Section::new(&crate::ground::name::safe(&record.id), &record.id).say(&deviation.description).table(table);
        if let Some(impact) = &deviation.impact {
            section = section.say(&format!("Effect: {}.", &**impact));
        }
        if let Some(next) = &deviation.next_step {
            section = section.say(&format!("Next: {}.", &**next));
        }
        let links: Vec<String> = deviation.subject.texts().map(|text| book.thing(path, text)).filter(|cell| !cell.href.is_empty()).map(|cell| format!("<a href=\"{}\">{}</a>", cell.href, escape(&cell.text))).collect();
        section.html.push(format!("<p>{}</p>", [vec![format!("<a href=\"{}\">record</a>", book.place_href(path, &record.place()))], links].concat().join(" · ")));
        sections.push(section);
    }
    if sections.is_empty() {
        sections.push(Section::new("none", "None").say("No deviation is recorded. A lot without one is itself worth a question."));
    }
    page(path, "Deviations", "What failed, was repeated or left out, and who decided.", sections)
}

/// Every rule with what it looked at.
pub fn rules(book: &Book) -> Page {
    let path = "rules.html";
    let mut sections = Vec::new();
    for Checked { rule, outcome } in &book.dossier.checked {
        let looked = match (&outcome.blind, outcome.looked) {
            (Some(why), _) => format!("Not evaluated: {why}."),
            (None, 0) => format!("Not evaluated: there were no {} to look at.", outcome.things),
            (None, n) => format!("Looked at {n} {}; {} findings.", outcome.things, outcome.findings.len()),
        };
        let mut section = Section::new(&rule.id.to_lowercase(), &format!("{}: {}", rule.id, rule.demands))
            .say(&looked)
            .say(&format!("Usual weight: {}. Protects against {}. May be explained: {}", rule.severity.words(), rule.protects, rule.explained));
        section.findings = outcome.findings.iter().map(|finding| book.finding(path, finding)).collect();
        sections.push(section);
    }
    page(path, "Rules", "What was checked, over how many things, and what was found. No finding over nothing is no pass.", sections)
}

/// One page a figure definition, and their list.
pub fn methods(book: &Book) -> Vec<Page> {
    let mut table = Table::new("Figure definitions", &["figure", "address", "in this dossier"]);
    let mut pages = Vec::new();
    for figure in figures::ALL {
        let n = book.dossier.graph.all(figure.id).count();
        table.rows.push(vec![Cell::link(figure.name, format!("methods/{}.html", figure.id)), Cell::text(figure.id), Cell::text(n.to_string())]);
        pages.push(method(book, figure));
    }
    pages.insert(0, page("methods.html", "Methods", "Each figure's formula, symbols, source and limits, from the same definition that computed it.", vec![Section::new("figures", "Figures").table(table)]));
    pages
}

fn method(book: &Book, figure: &'static Figure) -> Page {
    let path = format!("methods/{}.html", figure.id);
    let formula = (figure.formula)();
    let mut law = Section::new("formula", "Formula");
    law.html.push(format!("<math display=\"block\"><mrow>{}<mo>=</mo>{}</mrow></math>", symbol_mathml(figure.symbol), formula.mathml()));
    for (name, part) in formula.parts() {
        law.html.push(format!("<math display=\"block\"><mrow>{}<mo>=</mo>{}</mrow></math>", symbol_mathml(name), part.mathml()));
    }
    for procedure in formula.procedures() {
        law = law.say(&format!("{}: {}", procedure.name, procedure.about));
    }
    let mut symbols = Table::new("Symbols", &["symbol", "meaning", "unit", "where it comes from"]);
    for input in formula.variables() {
        let from = match input.from {
            crate::figure::From::Records(_) => "records".to_owned(),
            crate::figure::From::Doubt(source) => format!("zero; its uncertainty is the contribution {source} of the specification"),
            crate::figure::From::Constant { source, .. } => format!("constant: {source}"),
            crate::figure::From::Figures(below, _) => format!("figure {}", below.id),
        };
        symbols.rows.push(vec![Cell::text(input.symbol), Cell::text(input.what), Cell::text(input.unit.print), Cell::text(from)]);
    }
    let mut example = Table::new("Worked example", &["symbol", "value", "standard uncertainty"]);
    for (input, value, u) in figure.example.given {
        example.rows.push(vec![Cell::text(input.symbol), Cell::text(*value), Cell::text(*u)]);
    }
    let mut sources = Section::new("sources", "Sources and how it was checked").say("Uncertainty: first order, cause by cause (JCGM 100:2008, 5.2); causes that two readings share are added before squaring. The worked example is computed by the tests of the program, which also alter the formula in every small way and expect the example to notice.");
    for source in figure.sources {
        sources = sources.say(&format!("{source}."));
    }
    let mut uses = Section::new("uses", "In this dossier");
    let all: Vec<String> = book.dossier.graph.all(figure.id).take(40).map(|computed| format!("<a href=\"{}\">{}</a>", book.figure_href(&path, &computed.id), escape(&computed.id.to_string()))).collect();
    let n = book.dossier.graph.all(figure.id).count();
    uses.html.push(format!("<p>{}{}</p>", all.join(" · "), if n > 40 { format!(" and {} more", n - 40) } else { String::new() }));
    Page {
        path: path.clone(),
        template: "sheet.html",
        title: figure.name.into(),
        lead: figure.about.into(),
        trail: vec![Cell::link("methods", href(&path, "methods.html"))],
        sections: vec![law, Section::new("symbols", "Symbols").table(symbols), Section::new("validity", "When it holds").say(figure.validity), Section::new("example", "Worked example").table(example).say(&format!("Gives {} = {}.", figure.symbol, figure.example.gives)), sources, uses],
    }
}

/// Every file of the folder.
pub fn records(book: &Book) -> Page {
    let path = "records.html";
    let plant = &book.dossier.plant;
    let mut files = Table::new("Files as read", &["file", "bytes", "SHA-256", "copy in this dossier"]);
    for (name, file) in &plant.folder.files {
        let shown = match book.source_page(name) {
            Some((page, prefix)) if has_lines(name) => Cell::link(&**name, format!("{}#{prefix}top", href(path, page))),
            _ => Cell::text(&**name),
        };
        files.rows.push(vec![shown, Cell::text(file.bytes.len().to_string()), Cell::text(file.digest.to_string()), Cell::link("bytes", crate::ground::name::copy_path(name))]);
    }
    let mut kinds = Table::new("Records by kind", &["kind", "records"]);
    for kind in crate::record::kinds::KINDS {
        let n = plant.records().of_kind(kind.name).count();
        if n > 0 {
            kinds.rows.push(vec![Cell::text(kind.name), Cell::text(n.to_string())]);
        }
    }
    let unread = plant.folder.files.keys().filter(|name| folder::holds_records(name)).count();
    page(path, "Records", "Every file exactly as it was read; a line leads to the figures that used it.", vec![Section::new("kinds", "By kind").say(&format!("{} records in {unread} files.", plant.records().all.len())).table(kinds), Section::new("files", "Files").table(files)])
}

/// Cautions.
pub fn cautions() -> Page {
    let list = [
        ("Compressed gas stores energy", "Integrity testing is a pressure test with gas: parts, connectors and hoses that fail can injure or kill. Use a housing, hoses and fittings rated for the pressure, with relief; stay below the lower of housing and element limits; stand clear while pressure rises; vent to zero before opening; never tighten a clamp under pressure."),
        ("Nitrogen suffocates without warning", "Below 19.5 % oxygen an atmosphere counts as short of oxygen. Vent outdoors or to a ventilated place; fit an oxygen monitor in small rooms and pits."),
        ("Steam burns, and condensate hammers", "Saturated steam at 121 °C stands at about 2.05 bar absolute. Drain condensate, warm up slowly, keep the forward pressure difference inside the claim, allow no reverse pressure while hot, avoid vacuum on cooling, cool before use."),
        ("Hot water scalds", "Measure at the far end of the line, not at the heater."),
        ("Caustic, peracetic acid, chlorine", "Each needs eye and skin protection and its own safety data sheet. Never mix chlorine products with acid or ammonia, nor peracetic acid with caustic or organic liquids; rinse to neutral between agents and prove the rinse."),
        ("Alcohol as wetting liquid burns", "Mixtures with water give off flammable vapour at room temperature. No ignition source, earthed equipment, no compressed air through a freshly wetted element: use nitrogen. Results with water and with alcohol are never held against one limit."),
        ("Challenges with organisms", "Only in a laboratory equipped for the organism; never in a plant that bottles."),
        ("Food safety", "Rinse after every chemical step, look for residue before wine or beverage enters, discard first runnings as the site's plan says."),
        ("Local law, codes and licensed practice come first", "Pressure equipment, boilers, chemicals, waste water, confined spaces, flammable atmospheres, food law: where this text and a local rule differ, the local rule holds."),
        ("This dossier is evidence, not a decision", "It replaces neither the release by a qualified person named by the maker nor the user's own integrity test in the housing at the point of use."),
    ];
    let sections = list.iter().enumerate().map(|(i, (head, text))| Section::new(&format!("caution-{}", i + 1), head).say(text)).collect();
    page("cautions.html", "Cautions", "None of these replaces the site's own assessment of risk.", sections)
}

/// How to check a copy.
pub fn check() -> Page {
    let whole = Section::new("whole", "Is this copy whole?")
        .say("In the folder above this one, manifest-sha256.txt lists every file below data/ with its SHA-256, and tagmanifest-sha256.txt does the same for the files beside it. The SHA-256 of tagmanifest-sha256.txt is the digest of the whole dossier: compare it with the digest on the signed paper.")
        .say("On a machine with the usual command-line tools: sha256sum -c manifest-sha256.txt, then sha256sum -c tagmanifest-sha256.txt, then sha256sum tagmanifest-sha256.txt. Any reader of the BagIt format (RFC 8493) checks the same, and also finds files that were added.")
        .say("With this program: sealfolio verify FOLDER compares every file, lists all that is changed, missing or extra, and computes every figure again from the sealed records.");
    let limits = Section::new("limits", "What a page cannot prove")
        .say("A page cannot prove itself: whoever changes the data can change the page. The anchor is the digest on signed paper, or a signature that you check with your own tools.")
        .say("A copy cannot know that it is old. Ask the issuer for the number of the current revision.");
    page("check.html", "Check this copy", "How to show that nothing was changed, lost or added.", vec![whole, limits])
}

//! The pages that list: release, open points, joins, cycles, retention, instruments, deviations,
//! methods, rules, records, cautions, checking.

use super::{Book, Cell, Page, Section, Table, counted, customer, lot_page, sheets, source};
use crate::{
    chart::escape,
    figure::Computed,
    figures,
    ground::{finding::Severity, number},
    record::{
        Record,
        kinds::{Body, release_statement::ReleaseStatement},
    },
    rule::Checked,
    verdict::{Decision, Verdict},
};

pub(super) fn page(path: &str, title: &str, lead: &str, sections: Vec<Section>) -> Page {
    Page {
        path: path.into(),
        template: "sheet.html",
        title: title.into(),
        lead: lead.into(),
        notice: String::new(),
        trail: Vec::new(),
        sections,
    }
}

/// So many release statements are printed in full on the first page; of more, all stand in a table too.
const IN_FULL: usize = 12;

/// Every release statement in one line.
fn statements(book: &Book, path: &str, all: &[(&Record, &ReleaseStatement)]) -> Section {
    let mut table = Table::new(
        say!("Release statements; the first of them stand below in full"),
        &[
            say!("document"),
            say!("lot"),
            say!("assemblies"),
            say!("record"),
        ],
    );
    for (record, release) in all {
        table.rows.push(vec![
            Cell::link(
                &*record.id.text,
                super::certificate::certificate_page(&record.id),
            ),
            book.thing(path, &release.object.lot_id),
            Cell::text(release.object.assemblies.len().to_string()),
            book.place(path, &record.place()),
        ]);
    }
    Section::new("releases", say!("Release statements")).table(table)
}

/// The first page: can it be released, and what is in it.
pub fn release(book: &Book) -> Page {
    let path = "index.html";
    let dossier = book.dossier;
    let plant = &dossier.plant;
    let count = |severity| dossier.count(severity);
    let (blocks, explain, notes) = (
        count(Severity::Blocks),
        count(Severity::Explain),
        count(Severity::Note),
    );
    let mut sections = Vec::from_iter(customer::notice(book));

    let answer = match blocks {
        0 if plant.releases().next().is_none() => say!("No finding blocks release, and no release statement is in this folder: it releases nothing.").to_owned(),
        0 if explain > 0 => say!(
            "Not yet: no finding blocks release, and {n} must still be explained by a decided deviation.",
            n = explain
        ),
        0 => say!("No finding blocks release. The release itself is the decision of the person named below, not of this dossier.").to_owned(),
        1 => say!("Not to be released: one finding blocks it.").to_owned(),
        n => say!("Not to be released: {n} findings block it.", n = n),
    };
    let mut status = Section::new("status", say!("Can it be released?")).say(&answer);
    let mut counts = Table::new(
        say!("Findings by weight"),
        &[say!("weight"), say!("findings")],
    );
    for (severity, n) in [
        (Severity::Blocks, blocks),
        (Severity::Explain, explain),
        (Severity::Note, notes),
    ] {
        counts.rows.push(vec![
            Cell::link(
                severity.said(),
                format!("open-points.html#{severity}", severity = severity.key()),
            ),
            Cell::text(n.to_string()),
        ]);
    }
    status.table = Some(counts);
    status.findings = book
        .findings
        .iter()
        .filter(|finding| finding.severity == Severity::Blocks)
        .map(|finding| book.finding(path, finding))
        .collect();
    sections.push(status);

    sections.push(held(book, path));

    let mut contents = Table::new(
        say!("Lots"),
        &[say!("lot"), say!("modules"), say!("assemblies")],
    );
    for (id, lot) in &plant.lots {
        contents.rows.push(vec![
            Cell::link(&**id, lot_page(id)),
            Cell::text(lot.modules.len().to_string()),
            Cell::text(lot.assemblies.len().to_string()),
        ]);
    }
    sections.push(Section::new("lots", say!("Lots")).table(contents));

    let mut check = Section::new("check", say!("How to check this copy"))
        .say(&say!("The short number at the head of every page, {short}, begins the root over all records. The whole of it stands in bag-info.txt and on every certificate, and is the same on every customer's copy.", short = dossier.root().short()))
        .say(&match dossier.copy.as_ref().and_then(|copy| copy.digest()) {
            None => say!("What is signed is the digest of the dossier: the SHA-256 of tagmanifest-sha256.txt. It covers every page, so no page can bear it; compare it with the paper that was signed.").to_owned(),
            Some(signed) => say!("What was signed is the digest of the dossier that this copy was taken from, {digest}; compare it with the paper that was signed. The digest of this copy is another.", digest = signed),
        });
    check.ways(format!(
        "<p><a href=\"check.html\">{}</a></p>",
        escape(say!("check this copy"))
    ));
    sections.push(check);

    let mut verdicts = Table::new(
        say!("Figures by verdict"),
        &[say!("verdict"), say!("figures")],
    );
    for verdict in [
        Verdict::DoesNotConform,
        Verdict::Undecided,
        Verdict::NotEvaluated,
        Verdict::Conforms,
        Verdict::NoLimit,
    ] {
        let n = dossier
            .graph
            .computed
            .values()
            .filter(|computed| computed.verdict() == verdict)
            .count();
        let mut cell = Cell::verdict(verdict);
        if n > 0 && matches!(verdict, Verdict::DoesNotConform | Verdict::Undecided) {
            cell.href = "open-points.html#figures".into();
        }
        verdicts.rows.push(vec![cell, Cell::text(n.to_string())]);
    }
    let by_verdict = Section::new("verdicts", say!("Figures by verdict"));
    sections.push(
        match super::open::why_not_passed(book) {
            why if why.is_empty() => by_verdict,
            why => by_verdict.say(&why),
        }
        .table(verdicts),
    );

    let mut weakest: Vec<(f64, &str, &Computed)> = Vec::new();
    for id in &book.view.release {
        weakest.extend(sheets::weakest(book, id).map(|(computed, margin)| (margin, *id, computed)));
    }
    weakest.sort_by(|a, b| a.0.total_cmp(&b.0).then(a.1.cmp(b.1)));
    let mut table = Table::new(
        say!(
            "The figures that leave released assemblies the least room to a limit; join residuals, whose room is about three standard uncertainties when nothing leaks, stand on the lots' pages"
        ),
        &[
            say!("figure"),
            say!("value"),
            say!("limit"),
            say!("room in standard uncertainties"),
            say!("verdict"),
            say!("weakest of"),
        ],
    );
    while let Some((margin, _, computed)) =
        weakest.first().copied().filter(|_| table.rows.len() < 8)
    {
        let ids: Vec<&str> = weakest
            .iter()
            .filter(|other| other.2.id == computed.id)
            .map(|other| other.1)
            .collect();
        weakest.retain(|other| other.2.id != computed.id);
        let mut row = judged(book, path, computed);
        row.extend([
            Cell::text(number::fixed(margin, 1)),
            Cell::verdict(computed.verdict()),
            Cell::text(ids.join(", ")),
        ]);
        table.rows.push(row);
    }
    sections.push(Section::new("least-room", say!("Least room")).table(table));

    let releases: Vec<_> = plant.releases().collect();
    if releases.len() > IN_FULL {
        sections.push(statements(book, path, &releases));
    }
    for (record, release) in releases.iter().take(IN_FULL) {
        let mut section = Section::new(
            &format!("release-{id}", id = crate::ground::name::safe(&record.id)),
            &say!(
                "{id} revision {revision}",
                id = &*record.id,
                revision = record.revision
            ),
        );
        let party = |any: &crate::record::read::Any| {
            any.leaves
                .iter()
                .map(|(_, text)| text.to_string())
                .collect::<Vec<_>>()
                .join(", ")
        };
        section = section
            .say(&super::certificate::statement(book, release))
            .say(&say!(
                "Issued by {issuer}. For {customer}. Lot {lot_id}, {assemblies}.",
                issuer = party(&release.issuer),
                customer = party(&release.customer),
                lot_id = &*release.object.lot_id,
                assemblies = counted::assemblies(release.object.assemblies.len())
            ));
        for limit in release.limitations.iter() {
            section = section.say(&say!("Limitation: {limit}.", limit = &**limit));
        }
        let mut table = Table::new(
            say!("Signatures named in the statement"),
            &[
                say!("meaning"),
                say!("name"),
                say!("function"),
                say!("when"),
            ],
        );
        for signature in release.signatures.iter() {
            table.rows.push(vec![
                Cell::text(match &*signature.meaning {
                    "authorship" => say!("authorship"),
                    "review" => say!("review"),
                    "release" => say!("release"),
                    other => other,
                }),
                Cell::text(&*signature.printed_name.text),
                Cell::text(super::usual(&signature.function)),
                Cell::text(signature.signed_at.time.to_string()),
            ]);
        }
        section = section.say(say!("A name in a record is no electronic signature; the person signs the printed certificate, or the sealed dossier.")).table(table);
        section.ways(say!(
            "<p><a href=\"{id}\">certificate to print</a> · <a href=\"{record}\">record</a></p>",
            id = super::certificate::certificate_page(&record.id),
            record = book.place_href(path, &record.place())
        ));
        sections.push(section);
    }

    let mut rule = Section::new("rule", say!("How values were decided"));
    for (record, spec) in plant.records().product_specifications() {
        let guard = match spec.decision() {
            Decision::Guarded(guard) if guard > 0.0 => say!(
                "guarded acceptance: a value conforms when it lies inside the limit by {guard} times its expanded uncertainty, does not conform when it lies outside by as much, and is undecided between",
                guard = number::significant(guard, 3)
            ),
            Decision::Rejection(guard) => say!(
                "guarded rejection: a value is refused only when it lies outside the limit by {guard} times its expanded uncertainty; an element outside its limit may be accepted, and the risk is the customer's",
                guard = number::significant(guard, 3)
            ),
            _ => say!("simple acceptance: a value inside the limit conforms; the risk is shared")
                .to_owned(),
        };
        let basis = spec
            .decision_rule
            .basis
            .as_ref()
            .map_or(say!("basis not stated").to_owned(), |basis| {
                basis.to_string()
            });
        rule = rule.say(&say!(
            "{id} revision {revision} ({product_code}): {guard}. Basis: {basis}.",
            id = &*record.id,
            revision = record.revision,
            product_code = &*spec.product_code,
            guard = guard,
            basis = basis
        ));
    }
    sections.push(rule);

    let mut scope = Section::new("about", say!("What this folder is"));
    let mut title = say!("Dossier").to_owned();
    let mut lead = String::new();
    if let Some((record, head)) = plant.records().head() {
        title = head.title.to_string();
        lead = say!(
            "{id} revision {revision}, {date}. {name}.",
            id = &*record.id,
            revision = record.revision,
            date = head.compiled_on.date,
            name = &*head.maker.name
        );
        if let Some(old) = &head.supersedes {
            let digest = old.digest.as_ref().map_or(String::new(), |digest| {
                say!(" (digest {digest})", digest = &**digest)
            });
            scope = scope.say(&say!(
                "Supersedes {id} revision {revision}{digest}{change_reason}.",
                id = &*old.id,
                revision = old.revision.value,
                digest = digest,
                change_reason = head
                    .change_reason
                    .as_ref()
                    .map_or(String::new(), |why| format!(": {}", &**why))
            ));
        }
        let chapters: Vec<String> = head
            .chapters
            .iter()
            .map(|chapter| {
                format!(
                    "<li><a href=\"{}\">{}</a></li>",
                    source::chapter_page(chapter),
                    escape(&chapter_title(book, chapter))
                )
            })
            .collect();
        if !chapters.is_empty() {
            scope.html.push(format!("<ul>{}</ul>", chapters.concat()));
        }
    }
    scope = scope
        .say(&say!("Written by sealfolio {what} with {count} rules and {what2} figure definitions. The rules of medicines manufacture are used as a yardstick by choice; nothing here claims compliance with them.", what = env!("CARGO_PKG_VERSION"), count = dossier.checked.len(), what2 = figures::ALL.len()))
        .say(say!("No rating in micrometres makes a filter a sterilising-grade filter; what is claimed, and by which test, stands on the certificate. This copy cannot know whether a newer revision exists: ask the issuer for the current one."))
        .say(&say!("What the program itself is built of stands in its software bill of materials (CycloneDX 1.6), SHA-256 {digest}; sealfolio bill prints it.", digest = crate::bill::digest()));
    sections.push(scope);
    Page {
        path: path.into(),
        template: "sheet.html",
        title,
        lead,
        notice: String::new(),
        trail: Vec::new(),
        sections,
    }
}

/// A figure's id, value and limit, as the first cells of a row.
pub(super) fn judged(book: &Book, path: &str, computed: &Computed) -> Vec<Cell> {
    let limit = computed.judgement.as_ref();
    let limit = limit.map_or(String::new(), |judgement| judgement.limit.text.clone());
    vec![
        Cell::link(
            computed.id.to_string(),
            book.figure_href(path, &computed.id),
        ),
        Cell::text(computed.shown()),
        Cell::text(limit),
    ]
}

/// How many assemblies are released, and which are not, and why.
fn held(book: &Book, path: &str) -> Section {
    let plant = &book.dossier.plant;
    let mut table = Table::new(
        say!("Assemblies of the same lots that are not in the release"),
        &[
            say!("assembly"),
            say!("decided by"),
            say!("decision"),
            say!("next step"),
        ],
    );
    for id in plant
        .assemblies
        .iter()
        .filter(|(_, assembly)| !assembly.builds.is_empty())
        .map(|(id, _)| &**id)
    {
        if book.view.release.contains(id) {
            continue;
        }
        let deviation = book.view.decided(id).map(|record| (record, &record.body));
        let (decision, next) = match deviation {
            Some((_, Body::Deviation(body))) => (
                body.decision
                    .map_or(String::new(), |decision| decision.said()),
                body.next_step.as_deref().unwrap_or("").to_owned(),
            ),
            // Statements for others are withheld from a customer's copy.
            _ if book.dossier.copy.is_some() => (
                say!("nothing in this copy names it").to_owned(),
                String::new(),
            ),
            _ => (
                say!("no deviation names it").to_owned(),
                say!("say why it is left out").to_owned(),
            ),
        };
        table.rows.push(vec![
            book.thing(path, id),
            deviation.map_or(Cell::text("–"), |(record, _)| {
                Cell::link(
                    &*record.id.text,
                    format!(
                        "deviations.html#{id}",
                        id = crate::ground::name::safe(&record.id)
                    ),
                )
            }),
            Cell::text(decision),
            Cell::text(next),
        ]);
    }
    let section = Section::new("scope", say!("What is released, and what is not")).say(&say!(
        "Assemblies in the release: {count}; of the same lots, not in it: {rows}.",
        count = book.view.release.len(),
        rows = table.rows.len()
    ));
    match table.rows.is_empty() {
        true => section,
        false => section.table(table),
    }
}

fn chapter_title(book: &Book, chapter: &str) -> String {
    let file = book.dossier.plant.folder.files.get(chapter);
    let text = file
        .map(|file| String::from_utf8_lossy(&file.bytes).into_owned())
        .unwrap_or_default();
    text.lines()
        .find_map(|line| line.strip_prefix("# "))
        .unwrap_or(chapter)
        .to_owned()
}

/// Every rule with what it looked at.
pub fn rules(book: &Book) -> Page {
    let path = "rules.html";
    let mut sections = Vec::new();
    for Checked { rule, outcome } in &book.dossier.checked {
        let looked = match (&outcome.blind, outcome.looked) {
            (Some(why), _) => say!("Not evaluated: {why}.", why = why),
            (None, 0) => say!(
                "Not evaluated: there were no {things} to look at.",
                things = outcome.things
            ),
            (None, n) => say!(
                "Looked at {n} {things}; findings: {count}.",
                n = n,
                things = outcome.things,
                count = outcome.findings.len()
            ),
        };
        let mut section = Section::new(
            &rule.id.to_lowercase(),
            &format!("{}: {}", rule.id, say!(rule.demands)),
        )
        .say(&looked);
        for sentence in rule.about() {
            section = section.say(&sentence);
        }
        section.findings = outcome
            .findings
            .iter()
            .map(|finding| book.finding(path, finding))
            .collect();
        sections.push(section);
    }
    page(
        path,
        say!("Rules"),
        say!(
            "What was checked, over how many things, and what was found. A rule that had nothing to look at proves nothing."
        ),
        sections,
    )
}

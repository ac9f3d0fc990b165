//! The certificate: a release statement with its mandatory contents, for one sheet of paper.

use std::collections::{BTreeMap, BTreeSet};

use super::{Book, Cell, Making, Page, Section, Table, counted, href, sheets, standing};
use crate::{
    chart::{code, escape},
    ground::{finding::Severity, name::safe, number, words::spelt},
    record::{
        Record,
        common::Measured,
        kinds::{Body, release_statement::ReleaseStatement},
        read::Any,
    },
    rules::r88,
    verdict::Decision,
};

/// The page of a release statement.
pub fn certificate_page(id: &str) -> String {
    format!("certificates/{id}.html", id = safe(id))
}

/// One certificate a release statement.
pub fn certificates<'a>(book: &'a Book) -> Vec<Making<'a>> {
    Making::each(book.dossier.plant.releases(), |(record, release)| {
        one(book, record, release)
    })
}

fn said(any: &Any, key: &str) -> String {
    any.get(key)
        .map_or(say!("not stated").to_owned(), |text| text.to_string())
}

fn one(book: &Book, record: &Record, release: &ReleaseStatement) -> Page {
    let path = certificate_page(&record.id);
    let plant = &book.dossier.plant;
    let spec = plant.spec_of_product(&release.object.product_code);
    let stated =
        |text: Option<String>| Cell::text(text.unwrap_or_else(|| say!("not stated").into()));
    let mut identity = Table::new(say!("What this document is"), &["", ""]);
    let mut row = |what: &str, cell: Cell| identity.rows.push(vec![Cell::text(what), cell]);
    row(
        say!("document"),
        Cell::link(
            say!(
                "{id} revision {revision}",
                id = &*record.id,
                revision = record.revision
            ),
            book.place_href(&path, &record.place()),
        ),
    );
    row(say!("kind"), Cell::text(&*release.document_type.text));
    row(
        say!("issuer"),
        Cell::text(format!(
            "{}, {}",
            said(&release.issuer, "name"),
            said(&release.issuer, "address")
        )),
    );
    row(
        say!("place and date of issue"),
        Cell::text(format!(
            "{}, {}",
            release
                .place_of_issue
                .as_deref()
                .unwrap_or(say!("place not stated")),
            release
                .issued_on
                .as_ref()
                .map_or(say!("date not stated").to_owned(), |day| day
                    .date
                    .to_string())
        )),
    );
    row(
        say!("customer and order"),
        Cell::text(say!(
            "{customer}, {customer2}, order {customer3}",
            customer = said(&release.customer, "customer_id"),
            customer2 = said(&release.customer, "name"),
            customer3 = said(&release.customer, "order")
        )),
    );
    row(
        say!("dispatch note"),
        stated(
            release
                .consignment
                .as_ref()
                .and_then(|all| all.get("dispatch_note"))
                .map(|note| note.to_string()),
        ),
    );
    row(
        say!("product and lot"),
        Cell::text(say!(
            "{product_code}, lot {lot_id}",
            product_code = &*release.object.product_code,
            lot_id = &*release.object.lot_id
        )),
    );
    row(
        say!("quantity"),
        Cell::text(counted::assemblies(release.object.quantity.value as usize)),
    );
    row(
        say!("kept until"),
        stated(
            release
                .retention_until
                .as_ref()
                .map(|day| day.date.to_string()),
        ),
    );
    row(
        say!("recipient of this copy"),
        Cell::text(say!("________________  copy no. ____")),
    );

    let mut items = Table::new(
        say!(
            "Items and their results: value ± standard uncertainty (limit); the expanded one, which decides, stands on each sheet"
        ),
        &[
            say!("assembly"),
            say!("length"),
            say!("diffusive flow"),
            say!("bubble point"),
            say!("over the sum of its modules"),
            say!("verdict"),
        ],
    );
    for id in &release.object.assemblies {
        let test = plant.last_test(id);
        let figure = |name: &'static str| {
            let Some(test) = test else {
                return Cell::text("–");
            };
            let mut cell = sheets::shown(book, &path, name, test.record);
            let computed = book.dossier.graph.get(name, &test.record.id, "");
            if let Some(judgement) = computed.and_then(|computed| computed.judgement.as_ref())
                && name != "join-residual"
            {
                cell.text = format!("{} ({})", cell.text, judgement.limit.text);
            }
            cell
        };
        items.rows.push(vec![
            book.thing(&path, id),
            Cell::text(
                plant
                    .build(id)
                    .map_or("", |(_, build)| &build.nominal_length.text),
            ),
            figure("diffusive-flow"),
            figure("bubble-point"),
            figure("join-residual"),
            Cell::verdict(sheets::verdict(book, id)),
        ]);
    }
    let mut requirements = Vec::new();
    for requirement in &release.requirements {
        let words: Vec<String> = requirement
            .leaves
            .iter()
            .map(|(key, text)| match &**key {
                "revision" => say!("revision {what}", what = &**text),
                _ => text.to_string(),
            })
            .collect();
        requirements.push(words.join(", "));
    }
    let blocking = standing::blocking(book);
    let mut conformity = Section::new("statement", say!("Statement of conformity"))
        .say(&statement(book, release))
        .say(&say!(
            "Requirements: {requirements}.",
            requirements = requirements.join("; ")
        ));
    if let Some(open) = open_points(book, record, release) {
        conformity = conformity.say(&open);
    }
    if let Some((spec_record, spec)) = spec {
        conformity = conformity
            .say(&say!(
                "Decision rule of {id} revision {revision}: {guard}; {basis}.",
                id = &*spec_record.id,
                revision = spec_record.revision,
                guard = match spec.decision() {
                    Decision::Rejection(guard) => say!(
                        "guarded rejection with a guard band of {guard} U",
                        guard = guard
                    ),
                    Decision::Guarded(guard) if guard > 0.0 => say!(
                        "guarded acceptance with a guard band of {guard} U",
                        guard = guard
                    ),
                    _ => say!("simple acceptance, the risk is shared").to_owned(),
                },
                basis = spec
                    .decision_rule
                    .basis
                    .as_deref()
                    .unwrap_or(say!("basis not stated"))
            ))
            .say(&say!(
                "What the rating means: {rating_basis}.",
                rating_basis = &*spec.rating_basis
            ));
    }
    let mut sections = vec![
        anchor(book, Section::new("identity", say!("Identity"))).table(identity),
        conformity,
        Section::new("items", say!("Items"))
            .table(items)
            .say(&format!(
                "{}{}",
                tested(book, release),
                again(book, release)
            )),
        limits(book, release),
        left_out(book, &path, release),
        papers(book, &path, release),
    ];
    let mut signatures = Table::new(
        say!("Signatures by hand, on the printed sheet"),
        &[
            say!("meaning"),
            say!("printed name"),
            say!("function"),
            say!("named in the record"),
            say!("signature and date"),
        ],
    );
    for signature in release.signatures.iter() {
        signatures.rows.push(vec![
            Cell::text(match &*signature.meaning.text {
                "authorship" => {
                    say!("authorship: I made this dossier from these records").to_owned()
                }
                "review" => say!("review: I am independent of the work and checked it").to_owned(),
                "release" => {
                    say!("release: I accept responsibility for this consignment").to_owned()
                }
                other => other.to_owned(),
            }),
            Cell::text(&*signature.printed_name.text),
            Cell::text(super::usual(&signature.function)),
            Cell::text(signature.signed_at.time.to_string()),
            Cell::text(match blocking {
                0 => "________________",
                _ => say!("not to be signed"),
            }),
        ]);
    }
    sections.push(
        Section::new("signatures", say!("Signatures"))
            .table(signatures)
            .say(say!("A name in a record is no electronic signature."))
            .say(&match book.dossier.copy.as_ref().and_then(|copy| copy.digest()) {
                None => say!("The digest that is signed is that of the whole dossier, printed by the program when it was compiled and by any tool that hashes tagmanifest-sha256.txt; write it here:").to_owned(),
                Some(signed) => say!("The digest that was signed is that of the whole dossier of the maker: {digest}. Compare it with the signed paper:", digest = signed),
            })
            .say(say!("sha256: ________________________________________________________________________")),
    );
    sections.push(
        Section::new("validity", say!("Validity"))
            .say(say!("Valid unless superseded; ask the issuer for the number of the current revision. An old copy cannot know that it is old."))
            .say(say!("Cautions: compressed gas stores energy; nitrogen suffocates; steam and hot water burn; chemicals need their own safety data sheets. Local law, codes and licensed practice come first. A release is the decision of the qualified person who signs, and does not replace the user's own integrity test at the point of use.")),
    );
    Page {
        notice: String::new(),
        title: say!(
            "Certificate {id} revision {revision}",
            id = &*record.id,
            revision = record.revision
        ),
        lead: say!(
            "Issued {date}. With test results of each item named.",
            date = release
                .issued_on
                .as_ref()
                .map_or(say!("on no stated date").to_owned(), |day| day
                    .date
                    .to_string())
        ),
        trail: vec![
            Cell::link(say!("release"), href(&path, "index.html")),
            Cell::link(
                say!("lot {lot_id}", lot_id = &*release.object.lot_id),
                href(&path, &super::lot_page(&release.object.lot_id)),
            ),
        ],
        sections,
        path,
        template: "one-sheet.html",
    }
}

/// The root over all records, as digits in groups and as a code: the same on every customer's copy.
fn anchor(book: &Book, mut section: Section) -> Section {
    let root = book.dossier.root().to_string();
    let groups: Vec<&str> = (0..8).map(|i| &root[8 * i..8 * i + 8]).collect();
    let name = say!("Root over all records (SHA-256)");
    section.html.push(format!(
        "<div class=\"anchor\">{}<p>{name}: <code>{}</code></p><p>{}</p></div>",
        book.root_code.get_or_init(|| code(name, &format!("sha256:{root}"))),
        groups.join(" "),
        say!("It stands in bag-info.txt of the dossier and of every customer's copy; two readers who compare it know that they speak of the same records.")
    ));
    section
}

/// What the statement says, or that it is none yet.
pub(super) fn statement(book: &Book, release: &ReleaseStatement) -> String {
    match standing::blocking(book) {
        0 => release.statement.to_string(),
        1 => say!(
            "Proposed, not made: one finding blocks this statement, and nobody is to sign it. As proposed: “{statement}”",
            statement = &*release.statement
        ),
        n => say!(
            "Proposed, not made: {n} findings block this statement, and nobody is to sign it. As proposed: “{statement}”",
            n = n,
            statement = &*release.statement
        ),
    }
}

/// Which of the items were tested again; nothing where none was.
fn again(book: &Book, release: &ReleaseStatement) -> String {
    let items = release.object.assemblies.iter().map(|id| &*id.text);
    let again: Vec<&str> = items.filter(|id| book.dossier.plant.retested(id)).collect();
    match again.is_empty() {
        true => String::new(),
        false => say!(
            " Tested again, the assembly or a module in it, every result kept: {again}.",
            again = again.join(", ")
        ),
    }
}

/// Under what the results were got, and what retention is shown.
fn tested(book: &Book, release: &ReleaseStatement) -> String {
    let plant = &book.dossier.plant;
    let mut out = String::new();
    let flow = release.object.assemblies.iter().find_map(|id| {
        let test = plant.last_test(id)?;
        Some((test, test.measurement(Measured::DiffusiveFlow)?))
    });
    if let Some((test, flow)) = flow {
        let at = flow.reference_conditions.as_ref();
        out += &say!(
            "Diffusive flow at {p} of {test_gas}, wetted with {wetting_liquid}, counted at {temperature} and {pressure} absolute. ",
            p = flow
                .test_pressure
                .as_ref()
                .map_or(say!("a pressure that is not stated").into(), |p| spelt(
                    &p.text
                )),
            test_gas = flow
                .test_gas
                .as_ref()
                .map_or(say!("a gas that is not stated").to_owned(), |gas| {
                    super::usual(gas)
                }),
            wetting_liquid = super::usual(&test.test.wetting_liquid),
            temperature = at.map_or(say!("a temperature that is not stated").into(), |at| spelt(
                &at.temperature.text
            )),
            pressure = at.map_or(say!("a pressure that is not stated").into(), |at| spelt(
                &at.pressure.text
            ))
        );
    }
    let reductions = book.reductions.get_or_init(|| least_reductions(book));
    if let Some(least) = reductions.get(&*release.object.product_code.text) {
        // "At least" is never rounded up.
        let least = number::fixed(libm::floor(least * 10.0) / 10.0, 1);
        out += &match book.dossier.copy.is_some() {
            true => say!(
                "Log reduction of the test organism at least {least} at 95 % confidence in every challenge that this copy shows; the signed certificate has that of all.",
                least = least
            ),
            false => say!(
                "Log reduction of the test organism at least {least} at 95 % confidence in every challenge that counts.",
                least = least
            ),
        };
    }
    out
}

/// The least log reduction that was shown for each product, over the challenges that count.
fn least_reductions<'a>(book: &Book<'a>) -> BTreeMap<&'a str, f64> {
    let (plant, mut least) = (&book.dossier.plant, BTreeMap::new());
    for computed in book.view.of_definition("log-reduction-bound") {
        let spec = plant.spec_of(plant.record(computed.subject.record));
        let (Some((_, spec)), Some(reduction)) = (spec, computed.quantity()) else {
            continue;
        };
        if r88::counts(&book.view, computed) {
            let own = least.entry(&*spec.product_code.text);
            let own = own.or_insert(reduction.value);
            *own = reduction.value.min(*own);
        }
    }
    least
}

/// Limits on validity, and the claims in force.
fn limits(book: &Book, release: &ReleaseStatement) -> Section {
    let mut section = Section::new("limits", say!("Limits and claims in force"));
    for limit in release.limitations.iter() {
        section = section.say(&format!("{}.", super::capital(limit)));
    }
    for (record, claim) in book.dossier.plant.records().cycle_claims() {
        if claim.product_code.text != release.object.product_code.text {
            continue;
        }
        let list: Vec<String> = claim
            .claims
            .iter()
            .map(|one| {
                let held = super::service::conditions(one);
                format!(
                    "{} {} ({held})",
                    one.cycles_claimed.value,
                    super::usual(&one.treatment)
                )
            })
            .collect();
        section = section.say(&say!(
            "Cycle claim {id} revision {revision}: {list}. {combination_rule}.",
            id = &*record.id,
            revision = record.revision,
            list = list.join("; "),
            combination_rule = super::capital(&claim.combination_rule)
        ));
    }
    section
}

/// That findings about what is released still wait for an explanation; nothing where none does.
fn open_points(book: &Book, record: &Record, release: &ReleaseStatement) -> Option<String> {
    let plant = &book.dossier.plant;
    let assemblies = release.object.assemblies.iter();
    let mut own: BTreeSet<&str> = assemblies.clone().map(|id| &*id.text).collect();
    own.extend([&*release.object.lot_id.text, &*record.id.text]);
    let builds = assemblies.filter_map(|id| plant.build(id));
    let modules = builds.flat_map(|(_, build)| build.modules.iter());
    own.extend(modules.map(|position| &*position.module_id.text));
    let open = book.findings.iter().filter(|finding| {
        finding.severity == Severity::Explain && finding.about.iter().any(|id| own.contains(&**id))
    });
    let count = open.count();
    (count > 0).then(|| {
        say!(
            "Not to be signed yet: {n} findings about these items must still be explained by a decided deviation.",
            n = count
        )
    })
}

/// Deviations disclosed, and items of the lot that are not released.
fn left_out(book: &Book, path: &str, release: &ReleaseStatement) -> Section {
    let plant = &book.dossier.plant;
    let mut table = Table::new(
        say!("Deviations that touch the lot"),
        &[say!("deviation"), say!("what happened"), say!("decision")],
    );
    for id in release.deviations_disclosed.iter() {
        let found = plant
            .records()
            .find("deviation", id)
            .map(|record| &record.body);
        let (what, decision) = match found {
            Some(Body::Deviation(body)) => (
                body.description.to_string(),
                body.decision
                    .map_or(say!("none yet").to_owned(), |decision| decision.said()),
            ),
            _ => (say!("not in this folder").to_owned(), String::new()),
        };
        table.rows.push(vec![
            Cell::link(
                &*id.text,
                href(path, &format!("deviations.html#{id}", id = safe(id))),
            ),
            Cell::text(what),
            Cell::text(decision),
        ]);
    }
    let lot = plant.lots.get(&release.object.lot_id.text);
    let others = lot.iter().flat_map(|lot| &lot.assemblies).map(|id| &**id);
    let others = others.filter(|id| {
        let mut own = release.object.assemblies.iter();
        own.all(|own| &*own.text != *id)
    });
    let (elsewhere, out): (Vec<&str>, Vec<&str>) =
        others.partition(|id| book.view.release.contains(id));
    let mut section = Section::new("left-out", say!("Deviations, and what is not released"));
    if elsewhere.is_empty() && out.is_empty() {
        section = section.say(say!("Every assembly of the lot is in this release."));
    }
    if !elsewhere.is_empty() {
        section = section.say(&say!(
            "Of the same lot and in other releases: {out}.",
            out = elsewhere.join(", ")
        ));
    }
    if !out.is_empty() {
        let out = out.join(", ");
        section = section.say(&match book.dossier.copy {
            None => say!("Of the same lot and not released: {out}.", out = out),
            // Statements for others are withheld.
            Some(_) => say!(
                "Of the same lot and not in this release: {out}. Whether another release holds them stands in the dossier of the maker.",
                out = out
            ),
        });
    }
    match table.rows.is_empty() {
        true => section.say(say!("No deviation touches the lot.")),
        false => section.table(table),
    }
}

/// Declarations for food contact, part by part.
fn papers(book: &Book, path: &str, release: &ReleaseStatement) -> Section {
    let plant = &book.dossier.plant;
    let mut lots: BTreeMap<String, &'static str> = BTreeMap::new();
    for id in &release.object.assemblies {
        let Some((record, build)) = plant.build(id) else {
            continue;
        };
        for (lot, what) in crate::plant::lots_used(&record.body) {
            lots.insert(lot.to_string(), what);
        }
        for position in &build.modules {
            let module = &*position.module_id.text;
            if let Some((pleated, _, pack)) = plant.pack(module) {
                for (lot, what) in crate::plant::lots_used(&pleated.body) {
                    if what != word!("membrane") || lot.text == pack.material_lot.text {
                        lots.insert(lot.to_string(), what);
                    }
                }
            }
            let runs = plant
                .modules
                .get(module)
                .map(|module| &module.seal_runs[..]);
            for run in runs.unwrap_or_default() {
                for (lot, what) in crate::plant::lots_used(&plant.record(*run).body) {
                    lots.insert(lot.to_string(), what);
                }
            }
        }
    }
    // Parts by the documents that declare them: one line a document, so that the sheet stays one sheet.
    let mut declared: BTreeMap<String, Vec<String>> = BTreeMap::new();
    for (lot, what) in lots {
        let documents: Vec<String> = plant
            .material(&lot)
            .iter()
            .flat_map(|(_, body)| body.food_contact_documents.iter())
            .map(|paper| format!("{}: {}", &*paper.regulation, &*paper.document))
            .collect();
        let thing = book.thing(path, &lot);
        declared
            .entry(match documents.is_empty() {
                true => say!("no declaration").to_owned(),
                false => documents.join("; "),
            })
            .or_default()
            .push(format!(
                "{} <a href=\"{}\">{}</a>",
                escape(say!(what)),
                escape(&thing.href),
                escape(&thing.text)
            ));
    }
    let mut section = Section::new("papers", say!("Food contact")).say(say!(
        "Declarations for food contact, part by part. They are documents of their own, referred to by number."
    ));
    for (documents, parts) in declared {
        section.html.push(format!(
            "<p>{}: {}.</p>",
            escape(&documents),
            parts.join(", ")
        ));
    }
    section
}

//! How each figure is computed, cautions, and how a copy is checked.

use super::{Book, Cell, Page, Section, Table, href, lists::page};
use crate::{chart::escape, figure::Figure, figures, formula::symbol_mathml};

/// One page a figure definition, and their list.
pub fn methods(book: &Book) -> Vec<Page> {
    let mut table = Table::new(
        say!("Figure definitions"),
        &[say!("figure"), say!("address"), say!("in this dossier")],
    );
    let mut pages = Vec::new();
    for figure in figures::ALL {
        let n = book.dossier.graph.all(figure.id).count();
        table.rows.push(vec![
            Cell::link(
                say!(figure.name),
                format!("methods/{id}.html", id = figure.id),
            ),
            Cell::text(figure.id),
            Cell::text(n.to_string()),
        ]);
        pages.push(method(book, figure));
    }
    pages.insert(0, page("methods.html", say!("Methods"), say!("Each figure's formula, symbols, source and limits, from the same definition that computed it."), vec![Section::new("figures", say!("Figures")).table(table), doubt(), decisions(), reported()]));
    pages
}

/// How uncertainty is carried through a formula.
fn doubt() -> Section {
    Section::new("uncertainty", say!("Uncertainty"))
        .say(say!("A figure changes by its slope c with each input; the proof of a figure has the slope beside each. What one cause makes wrong in several inputs is added first, with its signs: the share of a cause is the sum of c times what it makes of each input. Then u² is the sum of the squared shares (JCGM 100:2008, 5.2)."))
        .say(say!("Degrees of freedom are u⁴ divided by the sum of share⁴/ν over the causes that were found from repeated readings, each with its ν; squared shares of one study are added before (Welch and Satterthwaite; JCGM 100:2008, G.4.1). The result is cut down to a whole number (G.6.4). Causes without degrees of freedom count as known and add nothing to that sum."))
        .say(say!("U = k u covers 95.45 %: k = 2, or with degrees of freedom the quantile of Student's t at 97.725 %, never less than 2."))
}

/// How a figure is held against a limit.
fn decisions() -> Section {
    Section::new("decisions", say!("Decisions"))
        .say(say!("Guarded acceptance by g U: a figure conforms where it lies inside the limit by at least g U, does not conform where it lies outside by more than g U, and is undecided in between (JCGM 106:2012, 8.3.2). The specification lays g down. Without an uncertainty a guard band decides nothing."))
        .say(say!("Guarded rejection by g U: a figure does not conform where it lies outside by more than g U, and conforms otherwise (JCGM 106:2012, 8.3.3). Simple acceptance is g = 0. Counts, statistics of a sampling plan and bounds that carry their own confidence decide alone."))
        .say(say!("Two levels, for what should be zero: a figure farther from zero than the first, in u, must be explained, farther than the second it does not conform."))
        .say(say!("The probability of conformity is the share of a normal distribution about the figure with its u, or of Student's t with its degrees of freedom, that lies inside the limit (JCGM 106:2012, clause 7). What is missing to 100 % is the risk of whoever accepts it."))
}

/// Why a rig and this dossier may differ and agree all the same.
fn reported() -> Section {
    Section::new("reported", say!("Reported and recomputed"))
        .say(say!("A rig commonly takes two readings, one at the beginning and one at the end, and prints one decimal; here the slope of all readings of the trace is taken, each brought to one temperature. The two differ a little, by method and by rounding, and agree within the tolerance that the specification states (rule R40)."))
        .say(say!("A rig knows no uncertainty: it prints pass or fail where this dossier may say undecided."))
}

fn method(book: &Book, figure: &'static Figure) -> Page {
    let path = format!("methods/{id}.html", id = figure.id);
    let formula = (figure.formula)();
    let mut law = Section::new("formula", say!("Formula"));
    law.html.push(format!(
        "<math display=\"block\"><mrow>{}<mo>=</mo>{}</mrow></math>",
        symbol_mathml(figure.symbol),
        formula.mathml()
    ));
    for (name, part) in formula.parts() {
        law.html.push(format!(
            "<math display=\"block\"><mrow>{}<mo>=</mo>{}</mrow></math>",
            symbol_mathml(name),
            part.mathml()
        ));
    }
    for procedure in formula.procedures() {
        law = law.say(&format!("{}: {}", procedure.name, say!(procedure.about)));
    }
    let mut symbols = Table::new(
        say!("Symbols"),
        &[
            say!("symbol"),
            say!("meaning"),
            say!("unit"),
            say!("where it comes from"),
        ],
    );
    for input in formula.variables() {
        let from = match input.from {
            crate::figure::From::Records(_) => say!("records").to_owned(),
            crate::figure::From::Doubt(source) => {
                say!(
                    "zero; its uncertainty is the contribution {source} of the specification",
                    source = source
                )
            }
            crate::figure::From::Constant { source, .. } => {
                say!("constant: {source}", source = say!(source))
            }
            crate::figure::From::Margins(_) => {
                say!("room of judged figures to their limits").to_owned()
            }
            crate::figure::From::Figures(below, _) => say!("figure {id}", id = below.id),
        };
        symbols.rows.push(vec![
            Cell::text(input.symbol),
            Cell::text(say!(input.what)),
            Cell::text(input.unit.print),
            Cell::text(from),
        ]);
    }
    let mut example = Table::new(
        say!("Worked example"),
        &[say!("symbol"), say!("value"), say!("standard uncertainty")],
    );
    for (input, value, u) in figure.example.given {
        example.rows.push(vec![
            Cell::text(input.symbol),
            Cell::text(*value),
            Cell::text(*u),
        ]);
    }
    let mut sources = Section::new("sources", say!("Sources and how it was checked"));
    for source in figure.sources {
        sources = sources.say(&format!("{}.", say!(source)));
    }
    for sentence in crate::agreement::sentences(figure.id) {
        sources = sources.say(&sentence);
    }
    let mut uses = Section::new("uses", say!("In this dossier"));
    let all: Vec<String> = book
        .dossier
        .graph
        .all(figure.id)
        .take(40)
        .map(|computed| {
            format!(
                "<a href=\"{}\">{}</a>",
                book.figure_href(&path, &computed.id),
                escape(&computed.id.to_string())
            )
        })
        .collect();
    let n = book.dossier.graph.all(figure.id).count();
    uses.html.push(format!(
        "<p>{}{}</p>",
        all.join(" · "),
        if n > 40 {
            say!(" and {n} more", n = n - 40)
        } else {
            String::new()
        }
    ));
    Page {
        path: path.clone(),
        template: "sheet.html",
        title: say!(figure.name).into(),
        lead: say!(figure.about).into(),
        notice: String::new(),
        trail: vec![Cell::link(say!("methods"), href(&path, "methods.html"))],
        sections: vec![
            law,
            Section::new("symbols", say!("Symbols")).table(symbols),
            Section::new("validity", say!("When it holds")).say(say!(figure.validity)),
            Section::new("example", say!("Worked example"))
                .table(example)
                .say(&say!(
                    "Gives {figure} = {gives}.",
                    figure = figure.symbol,
                    gives = figure.example.gives
                )),
            sources,
            uses,
        ],
    }
}

/// Cautions.
pub fn cautions() -> Page {
    let list = [
        (
            say!("Compressed gas stores energy"),
            say!(
                "Integrity testing is a pressure test with gas: parts, connectors and hoses that fail can injure or kill. Use a housing, hoses and fittings rated for the pressure, with relief; stay below the lower of housing and element limits; stand clear while pressure rises; vent to zero before opening; never tighten a clamp under pressure."
            ),
        ),
        (
            say!("Nitrogen suffocates without warning"),
            say!(
                "Below 19.5 % oxygen an atmosphere counts as short of oxygen. Vent outdoors or to a ventilated place; fit an oxygen monitor in small rooms and pits."
            ),
        ),
        (
            say!("Steam burns, and condensate hammers"),
            say!(
                "Saturated steam at 121 °C stands at about 2.05 bar absolute. Drain condensate, warm up slowly, keep the forward pressure difference inside the claim, allow no reverse pressure while hot, avoid vacuum on cooling, cool before use."
            ),
        ),
        (
            say!("Hot water scalds"),
            say!("Measure at the far end of the line, not at the heater."),
        ),
        (
            say!("Caustic, peracetic acid, chlorine"),
            say!(
                "Each needs eye and skin protection and its own safety data sheet. Never mix chlorine products with acid or ammonia, nor peracetic acid with caustic or organic liquids; rinse to neutral between agents and prove the rinse."
            ),
        ),
        (
            say!("Alcohol as wetting liquid burns"),
            say!(
                "Mixtures with water give off flammable vapour at room temperature. No ignition source, earthed equipment, no compressed air through a freshly wetted element: use nitrogen. Results with water and with alcohol are never held against one limit."
            ),
        ),
        (
            say!("Challenges with organisms"),
            say!("Only in a laboratory equipped for the organism; never in a plant that bottles."),
        ),
        (
            say!("Food safety"),
            say!(
                "Rinse after every chemical step, look for residue before wine or beverage enters, discard first runnings as the site's plan says."
            ),
        ),
        (
            say!("Local law, codes and licensed practice come first"),
            say!(
                "Pressure equipment, boilers, chemicals, waste water, confined spaces, flammable atmospheres, food law: where this text and a local rule differ, the local rule holds."
            ),
        ),
        (
            say!("This dossier is evidence, not a decision"),
            say!(
                "It replaces neither the release by a qualified person named by the maker nor the user's own integrity test in the housing at the point of use."
            ),
        ),
    ];
    let sections = list
        .iter()
        .enumerate()
        .map(|(i, (head, text))| Section::new(&format!("caution-{i}", i = i + 1), head).say(text))
        .collect();
    page(
        "cautions.html",
        say!("Cautions"),
        say!("None of these replaces the site's own assessment of risk."),
        sections,
    )
}

/// How to check a copy.
pub fn check() -> Page {
    let whole = Section::new("whole", say!("Is this copy whole?"))
        .say(say!("In the folder above this one, manifest-sha256.txt lists every file below data/ with its SHA-256, and tagmanifest-sha256.txt does the same for the files beside it. The SHA-256 of tagmanifest-sha256.txt is the digest of what lies here: of a whole dossier it is the one on the signed paper, and a customer's copy has one of its own, beside that of the signed dossier on the page about the copy."))
        .say(say!("On a machine with the usual command-line tools: sha256sum -c manifest-sha256.txt, then sha256sum -c tagmanifest-sha256.txt, then sha256sum tagmanifest-sha256.txt. Any reader of the BagIt format (RFC 8493) checks the same, and also finds files that were added."))
        .say(say!("On Windows, without any rights: certutil -hashfile tagmanifest-sha256.txt SHA256 gives the digest; of any other file it gives the number that stands beside its name in the list."))
        .say(say!("A signature: ssh-keygen -Y verify -f allowed_signers -I PERSON -n dossier-approval -s STATEMENT.json.sig < STATEMENT.json, with a file allowed_signers of the keys that you trust. The statements lie in signatures; in a customer's copy those of the maker lie in data/signed-dossier/signatures."))
        .say(say!("A line of allowed_signers is PERSON and the public key, such as: P-01 ssh-ed25519 AAAA…; PERSON stands under \"person\" in the statement. A signature that holds says that the statement is that person's, and nothing of the files: what stands under \"digest\" in it must be the SHA-256 of tagmanifest-sha256.txt, in a customer's copy of data/signed-dossier/tagmanifest-sha256.txt; what stands under \"before\", that of the statement before."))
        .say(say!("With this program: sealfolio verify FOLDER compares every file, lists all that is changed, missing or extra, and computes every figure again from the sealed records."));
    let limits = Section::new("limits", say!("What a page cannot prove"))
        .say(say!("A page cannot prove itself: whoever changes the data can change the page. The anchor is the digest on signed paper, or a signature that you check with your own tools."))
        .say(say!("Nobody signs the pages of a customer's copy. They hold because sealfolio verify makes them again from the records, byte for byte; without the program, digests and signatures vouch for its records alone."))
        .say(say!("A copy cannot know that it is old. Ask the issuer for the number of the current revision."));
    let mut made = page(
        "check.html",
        say!("Check this copy"),
        say!("How to show that nothing was changed, lost or added."),
        vec![whole, limits],
    );
    made.template = "check.html";
    made
}

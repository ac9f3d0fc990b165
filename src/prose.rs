//! Markdown → safe HTML, with live figures.
//!
//! A chapter names a figure as `[[figure@record]]` and gets its value, unit and uncertainty with a
//! link. Raw HTML is shown as it was typed; only plain links are links.

use pulldown_cmark::{CowStr, Event, LinkType, Options, Parser, Tag, html};

use crate::chart::escape;

/// Marks a live figure while Markdown is read: private-use characters that no chapter may contain.
const OPEN: char = '\u{E000}';
const CLOSE: char = '\u{E001}';

/// A figure that a chapter names.
#[derive(Clone, Debug, PartialEq)]
pub struct Named {
    /// The identity as written.
    pub id: String,
    /// The line, from 1.
    pub line: u32,
    /// The column, from 1.
    pub column: u32,
}

/// The figures that a chapter names, in order.
pub fn figures(text: &str) -> Vec<Named> {
    marked(text).1
}

/// The text with a mark in place of every figure, and the figures. A name stands in one line: what is
/// not closed there is text.
fn marked(text: &str) -> (String, Vec<Named>) {
    let (mut out, mut found) = (String::with_capacity(text.len()), Vec::new());
    for (n, line) in (1..).zip(text.split_inclusive('\n')) {
        let (mut rest, mut column) = (line, 1);
        while let Some((before, after)) = rest.split_once("[[") {
            let Some((id, tail)) = after.split_once("]]") else {
                break;
            };
            column += before.chars().count();
            out.extend([before, &format!("{OPEN}{}{CLOSE}", found.len())]);
            found.push(Named {
                id: id.trim().to_owned(),
                line: n,
                column: column as u32,
            });
            column += id.chars().count() + 4;
            rest = tail;
        }
        out.push_str(rest);
    }
    (out, found)
}

/// Renders a chapter; `show` gives the HTML of a live figure.
pub fn html(text: &str, show: &dyn Fn(&str) -> String) -> String {
    let plain: String = text.chars().filter(|c| *c != OPEN && *c != CLOSE).collect();
    let (marked, named) = marked(&plain);
    let options =
        Options::ENABLE_TABLES | Options::ENABLE_FOOTNOTES | Options::ENABLE_STRIKETHROUGH;
    let events = Parser::new_ext(&marked, options).map(|event| match event {
        // What would be markup is text: it is shown, never run.
        Event::Html(raw) | Event::InlineHtml(raw) => Event::Text(raw),
        Event::Start(Tag::Link {
            link_type,
            dest_url,
            title,
            id,
        }) => Event::Start(Tag::Link {
            link_type,
            dest_url: safe(link_type, dest_url),
            title,
            id,
        }),
        Event::Start(Tag::Image {
            link_type,
            title,
            id,
            ..
        }) => Event::Start(Tag::Link {
            link_type,
            dest_url: "#".into(),
            title,
            id,
        }),
        Event::End(pulldown_cmark::TagEnd::Image) => Event::End(pulldown_cmark::TagEnd::Link),
        other => other,
    });
    let mut page = String::new();
    html::push_html(&mut page, events);
    let mut parts = page.split(OPEN);
    let mut out = parts.next().unwrap_or_default().to_owned();
    for part in parts {
        let (number, text) = part.split_once(CLOSE).unwrap_or(("", part));
        let figure = number.parse().ok().and_then(|n: usize| named.get(n));
        out.push_str(&figure.map_or(String::new(), |figure| show(&figure.id)));
        out.push_str(text);
    }
    out
}

/// Only web addresses, mail addresses and places in the dossier are links.
fn safe<'a>(kind: LinkType, address: CowStr<'a>) -> CowStr<'a> {
    let lower = address.trim().to_ascii_lowercase();
    // An address without its scheme is another machine's folder where pages are opened from a folder.
    let other_host = lower.replace('\\', "/").starts_with("//");
    let plain = (!lower.contains(':') && !other_host && stays(&lower))
        || lower.starts_with("https://")
        || lower.starts_with("http://")
        || lower.starts_with("mailto:");
    match plain || kind == LinkType::Email {
        true => address,
        false => "#".into(),
    }
}

/// Whether an address without a scheme stays in the dossier: a chapter lies one folder below its pages.
fn stays(address: &str) -> bool {
    let path = address.split(['#', '?']).next().unwrap_or_default();
    let path = path
        .replace('\\', "/")
        .replace("%2e", ".")
        .replace("%2f", "/");
    let mut depth = 1_i32;
    let deep_enough = path.split('/').all(|part| {
        match part {
            ".." => depth -= 1,
            "." | "" => {}
            _ => depth += 1,
        }
        depth >= 0
    });
    deep_enough && !path.starts_with('/')
}

/// A text as HTML: escaped, with nothing read into it.
pub fn literal(text: &str) -> String {
    escape(text)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_live_figure_stands_where_it_was_named() {
        let text = "# T\n\nFlow [[a@b]] and | [[c@d/e]].\n";
        assert_eq!(
            figures(text)[1],
            Named {
                id: "c@d/e".into(),
                line: 3,
                column: 20
            }
        );
        let out = html(text, &|id| format!("<b>{id}</b>"));
        assert!(out.contains("Flow <b>a@b</b> and | <b>c@d/e</b>."), "{out}");
        // Brackets that are not closed in their line are text, and swallow nothing.
        let out = html("an open [[ here\n\nkept\n\nthen [[a@b]]\n", &|id| {
            format!("<b>{id}</b>")
        });
        assert!(
            out.contains("[[ here") && out.contains("kept") && out.contains("then <b>a@b</b>"),
            "{out}"
        );
    }

    #[test]
    fn links_of_a_chapter_stay_in_the_dossier() {
        let link = |address: &str| html(&format!("[a]({address})"), &|_| String::new());
        for inside in [
            "../release.html#x",
            "02-next.html",
            "#a",
            "../assemblies/a.html",
        ] {
            assert!(
                link(inside).contains(&format!("href=\"{inside}\"")),
                "{inside}"
            );
        }
        for outside in [
            "../../signatures/x.html",
            "/etc/passwd",
            "%2e%2e/%2e%2e/x.html",
            "a/../../../x.html",
            "..%2f..%2fx.html",
        ] {
            assert!(
                link(outside).contains("href=\"#\""),
                "{outside}: {}",
                link(outside)
            );
        }
    }

    #[test]
    fn markup_in_a_chapter_is_shown_and_never_runs() {
        let text = "<script>x()</script>\n\n<b onclick=x()>y</b> [z](javascript:x()) [w](&#106;avascript:x()) [s](//e.example/x) [u](\\\\\\\\e.example\\\\x) ![i](https://e.example/p.png)\n";
        let out = html(text, &|_| String::new());
        assert!(
            !out.contains("<script")
                && !out.contains("<b ")
                && !out.contains("javascript:")
                && !out.contains("<img")
                && !out.contains("href=\"//")
                && !out.contains("href=\"\\\\")
                && !out.contains("href=\"%5C"),
            "{out}"
        );
    }
}

//! A chapter: its page has no element, attribute or address but those that a chapter may have.
#![no_main]

use libfuzzer_sys::fuzz_target;
use sealfolio::prose;

const ELEMENTS: &[&str] = &[
    "a",
    "b",
    "blockquote",
    "br",
    "code",
    "dd",
    "del",
    "div",
    "dl",
    "dt",
    "em",
    "h1",
    "h2",
    "h3",
    "h4",
    "h5",
    "h6",
    "hr",
    "input",
    "li",
    "ol",
    "p",
    "pre",
    "section",
    "span",
    "strong",
    "sub",
    "sup",
    "table",
    "tbody",
    "td",
    "th",
    "thead",
    "tr",
    "ul",
];

fuzz_target!(|text: &str| {
    prose::figures(text);
    let page = prose::html(text, &|id| format!("[{}]", prose::literal(id)));
    let mut rest = &*page;
    while let Some((_, tail)) = rest.split_once('<') {
        let Some((tag, after)) = tail.split_once('>') else {
            panic!("an open tag: {page}")
        };
        let name = tag
            .trim_start_matches('/')
            .split([' ', '/', '\n'])
            .next()
            .unwrap_or("");
        assert!(ELEMENTS.contains(&name), "<{tag}> in {page}");
        let mut attributes = tag.trim_start_matches('/').get(name.len()..).unwrap_or("");
        while let Some((key, tail)) = attributes.split_once("=\"") {
            let key = key
                .trim()
                .rsplit(' ')
                .next()
                .unwrap_or("")
                .to_ascii_lowercase();
            let Some((value, others)) = tail.split_once('"') else {
                panic!("an open attribute: {page}")
            };
            assert!(
                [
                    "href", "title", "class", "id", "align", "start", "type", "disabled",
                    "checked", "style"
                ]
                .contains(&&*key),
                "<{tag}> in {page}"
            );
            assert!(
                key != "style" || value.starts_with("text-align: "),
                "<{tag}> in {page}"
            );
            if key == "href" {
                let scheme = value.split([':', '/', '?', '#']).next().unwrap_or("");
                let with_scheme = value[scheme.len()..].starts_with(':');
                let scheme = scheme.to_ascii_lowercase();
                assert!(
                    !with_scheme || ["http", "https", "mailto"].contains(&&*scheme),
                    "<{tag}> in {page}"
                );
                assert!(!value.starts_with("//"), "<{tag}> in {page}");
            }
            attributes = others;
        }
        rest = after;
    }
});

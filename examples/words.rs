//! Writes `locales/en/*.ftl` from what the program says, and tells what the other languages lack.
//!
//! `cargo run --example words`: English is written anew; for each other language the ids that are
//! missing and the ids that nobody says any more are listed. The tests below hold the same.

use std::{
    collections::{BTreeMap, BTreeSet},
    fs,
    path::Path,
    process::ExitCode,
    str::FromStr,
};

use proc_macro2::{TokenStream, TokenTree};
use sealfolio::{
    figure::From,
    figures,
    ground::words::{Language, id},
    procedure,
    record::kinds::KINDS,
    rules, site,
};

/// The file of a language in which the words of a source file stand.
fn area(path: &str) -> &'static str {
    let begins = |prefixes: &[&str]| prefixes.iter().any(|prefix| path.starts_with(prefix));
    if begins(&[
        "src/page",
        "src/chart",
        "src/site",
        "src/agreement",
        "templates",
    ]) {
        "pages"
    } else if begins(&["src/figure", "src/procedure", "src/formula", "src/graph"]) {
        "figures"
    } else if begins(&["src/rule"]) {
        "rules"
    } else {
        "records"
    }
}

/// Every sentence, by the file that says it first, in the order of the source.
fn said() -> Vec<(String, Vec<String>)> {
    let mut files = Vec::new();
    sources(Path::new("src"), &mut files);
    files.sort();
    let mut all: Vec<(String, Vec<String>)> = Vec::new();
    for path in files {
        let text = fs::read_to_string(&path).unwrap();
        let mut own = Vec::new();
        if path.ends_with(".rs") {
            let code = text.split("#[cfg(test)]\nmod ").next().unwrap();
            macros(TokenStream::from_str(code).unwrap(), &mut own);
        }
        all.push((path, own));
    }
    for (name, text) in site::TEMPLATES.iter().chain(site::SCRIPTS) {
        all.push((format!("templates/{name}"), in_template(text)));
    }
    for rule in rules::ALL {
        let own = [rule.demands, rule.protects, rule.explained];
        add(
            &mut all,
            &format!("src/rules/{}.rs", rule.id.to_lowercase()),
            &own,
        );
    }
    for figure in figures::ALL {
        let mut own = vec![figure.name, figure.about, figure.validity];
        own.extend(figure.sources);
        for input in (figure.formula)().variables() {
            own.push(input.what);
            if let From::Constant { source, .. } = input.from {
                own.push(source);
            }
        }
        add(
            &mut all,
            &format!("src/figures/{}.rs", figure.id.replace('-', "_")),
            &own,
        );
    }
    let procedures: Vec<&str> = procedure::ALL
        .iter()
        .map(|procedure| procedure.about)
        .collect();
    add(&mut all, "src/procedure.rs", &procedures);
    for kind in KINDS {
        let path = format!("src/record/kinds/{}.rs", kind.name);
        add(&mut all, &path, &[&kind.name.replace('_', " ")]);
    }
    let mut seen = BTreeSet::new();
    for (_, own) in &mut all {
        own.retain(|words| !words.is_empty() && seen.insert(words.clone()));
    }
    all.retain(|(_, own)| !own.is_empty());
    all
}

fn add(all: &mut [(String, Vec<String>)], path: &str, words: &[&str]) {
    let own = all.iter_mut().find(|(name, _)| name == path);
    own.unwrap_or_else(|| panic!("{path} is no source file"))
        .1
        .extend(words.iter().map(|words| (*words).to_owned()));
}

fn sources(path: &Path, found: &mut Vec<String>) {
    if path.is_dir() {
        for entry in fs::read_dir(path).unwrap() {
            sources(&entry.unwrap().path(), found);
        }
    } else {
        found.push(path.to_string_lossy().replace('\\', "/"));
    }
}

/// The first literal of every `say!` and `word!`, however deep.
fn macros(tokens: TokenStream, out: &mut Vec<String>) {
    let tokens: Vec<TokenTree> = tokens.into_iter().collect();
    for (i, token) in tokens.iter().enumerate() {
        let TokenTree::Group(group) = token else {
            continue;
        };
        let named = name_before(&tokens, i, "say") || name_before(&tokens, i, "word");
        if name_before(&tokens, i, "words") {
            out.extend(closed_set(group.stream()));
        }
        if named && let Some(TokenTree::Literal(literal)) = group.stream().into_iter().next() {
            let text: syn::LitStr = syn::parse_str(&literal.to_string()).unwrap();
            out.push(text.value());
        }
        macros(group.stream(), out);
    }
}

fn name_before(tokens: &[TokenTree], i: usize, wanted: &str) -> bool {
    match i.checked_sub(2).map(|j| (&tokens[j], &tokens[j + 1])) {
        Some((TokenTree::Ident(name), TokenTree::Punct(mark))) => {
            mark.as_char() == '!' && name == wanted
        }
        _ => false,
    }
}

/// The words of `Name = "word"` or `Name = "word" => "words"` in a closed set, as people read them.
fn closed_set(tokens: TokenStream) -> Vec<String> {
    let Some(TokenTree::Group(variants)) = tokens.into_iter().last() else {
        return Vec::new();
    };
    let mut out = Vec::new();
    let mut rather = false;
    for token in variants.stream() {
        if matches!(&token, TokenTree::Punct(mark) if mark.as_char() == '>') {
            rather = true;
        }
        let TokenTree::Literal(literal) = token else {
            continue;
        };
        let Ok(text) = syn::parse_str::<syn::LitStr>(&literal.to_string()) else {
            continue;
        };
        if std::mem::take(&mut rather) {
            out.pop();
        }
        // Codes of languages are no words.
        if text.value().len() > 2 {
            out.push(text.value().replace('_', " "));
        }
    }
    out
}

/// `{{ "words" | say }}` in a template.
fn in_template(text: &str) -> Vec<String> {
    let mut out = Vec::new();
    let mut rest = text;
    while let Some(end) = rest.find("\" | say") {
        let begin = rest[..end].rfind('"').unwrap() + 1;
        out.push(rest[begin..end].to_owned());
        rest = &rest[end + 1..];
    }
    out
}

/// A sentence as a Fluent message.
fn message(words: &str) -> String {
    let mut out = String::new();
    for c in words.chars() {
        match c {
            '{' => out += "{ $",
            '}' => out += " }",
            '\n' => out += "{\"\\u000A\"}",
            c => out.push(c),
        }
    }
    if out.starts_with([' ', '.', '[', '*']) {
        out = format!("{{\"{}\"}}{}", &out[..1], &out[1..]);
    }
    if out.ends_with(' ') {
        out = format!("{}{{\" \"}}", out.trim_end());
    }
    format!("{} = {out}\n", id(words))
}

fn english() -> BTreeMap<&'static str, String> {
    let mut files: BTreeMap<&str, String> = BTreeMap::new();
    for (path, own) in said() {
        let file = files.entry(area(&path)).or_insert_with(|| {
            "# Written from the sources by `cargo run --example words`; not to be edited.\n".into()
        });
        *file += &format!("\n## {path}\n\n");
        for words in own {
            *file += &message(&words);
        }
    }
    files
}

/// The messages of a language: id → file and text.
fn messages(language: Language) -> BTreeMap<String, (&'static str, String)> {
    let mut out = BTreeMap::new();
    for (file, _) in language.files() {
        let path = format!("locales/{}/{file}.ftl", language.code());
        let text = fs::read_to_string(&path).unwrap();
        let resource = fluent_syntax::parser::parse(text.as_str())
            .unwrap_or_else(|(_, errors)| panic!("{path}: {errors:?}"));
        for entry in &resource.body {
            if let fluent_syntax::ast::Entry::Message(message) = entry {
                let body = fluent_syntax::ast::Resource {
                    body: vec![fluent_syntax::ast::Entry::Message(message.clone())],
                };
                let text = fluent_syntax::serializer::serialize(&body);
                let before = out.insert(message.id.name.to_owned(), (*file, text));
                assert!(before.is_none(), "{path}: {} stands twice", message.id.name);
            }
        }
    }
    out
}

fn main() -> ExitCode {
    for (name, text) in english() {
        fs::write(format!("locales/en/{name}.ftl"), text).unwrap();
    }
    let mut code = ExitCode::SUCCESS;
    let due = messages(Language::English);
    for language in Language::ALL {
        let there = messages(language);
        for (id, (file, text)) in &due {
            if !there.contains_key(id) {
                println!("{}/{file}.ftl lacks {}", language.code(), text.trim_end());
                code = ExitCode::FAILURE;
            }
        }
        for (id, (file, _)) in &there {
            if !due.contains_key(id) {
                println!("{}/{file}.ftl has {id}, which nobody says", language.code());
                code = ExitCode::FAILURE;
            }
        }
    }
    println!("{} sentences", due.len());
    code
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn english_is_what_the_sources_say() {
        for (name, text) in english() {
            let kept = fs::read_to_string(format!("locales/en/{name}.ftl")).unwrap();
            assert!(
                kept == text,
                "locales/en/{name}.ftl is old: cargo run --example words"
            );
        }
    }

    #[test]
    fn no_two_sentences_share_a_key() {
        let keys: Vec<String> = said()
            .into_iter()
            .flat_map(|(_, own)| own)
            .map(|words| id(&words)[id(&words).len() - 8..].to_owned())
            .collect();
        let unique: BTreeSet<&String> = keys.iter().collect();
        assert_eq!(unique.len(), keys.len());
    }

    /// A blank at an end or a line break must not keep a sentence from being found.
    #[test]
    fn what_has_nothing_to_put_in_is_said_as_it_stands() {
        sealfolio::ground::words::speak(Language::Italian);
        let plain: Vec<String> = said()
            .into_iter()
            .flat_map(|(_, own)| own)
            .filter(|words| !words.contains('{') && words.split_whitespace().count() > 4)
            .collect();
        assert!(plain.len() > 500);
        for words in &plain {
            let other = sealfolio::ground::words::of(words);
            assert!(other != words, "{words}");
            assert_eq!(words.starts_with(' '), other.starts_with(' '), "{words}");
            assert_eq!(words.ends_with(' '), other.ends_with(' '), "{words}");
            assert!(
                !other.contains("\\u000A") && !other.contains('{'),
                "{other}"
            );
        }
        sealfolio::ground::words::speak(Language::English);
    }

    /// What is put in, and the tags of HTML.
    fn pieces(text: &str) -> (BTreeSet<String>, Vec<String>) {
        let name = |rest: &str| {
            let end = rest.find(|c: char| !c.is_alphanumeric() && c != '_');
            rest[..end.unwrap_or(rest.len())].to_owned()
        };
        let put = text.split('$').skip(1).map(name).collect();
        let mut tags: Vec<String> = text
            .split('<')
            .skip(1)
            .filter_map(|rest| Some(rest.split_once('>')?.0.to_owned()))
            .collect();
        tags.sort();
        (put, tags)
    }

    #[test]
    fn every_translation_puts_in_what_the_english_does() {
        let due = messages(Language::English);
        let mut wrong = Vec::new();
        for language in Language::ALL {
            for (id, (_, text)) in messages(language) {
                let chooses = text.contains("->");
                let (put, tags) = pieces(&text);
                let english = due
                    .get(&id)
                    .map(|(_, text)| pieces(text))
                    .unwrap_or_default();
                if put != english.0 || (!chooses && tags != english.1) {
                    wrong.push(format!("{} {id}", language.code()));
                }
            }
        }
        assert!(wrong.is_empty(), "{wrong:?}");
    }

    #[test]
    fn no_language_lacks_a_sentence_or_keeps_one_that_nobody_says() {
        let due: BTreeSet<String> = messages(Language::English).into_keys().collect();
        for language in Language::ALL {
            let there: BTreeSet<String> = messages(language).into_keys().collect();
            let lacking: Vec<&String> = due.difference(&there).collect();
            let idle: Vec<&String> = there.difference(&due).collect();
            assert!(
                lacking.is_empty() && idle.is_empty(),
                "{}: {} lacking {:?}, {} idle {:?}",
                language.code(),
                lacking.len(),
                lacking.iter().take(3).collect::<Vec<_>>(),
                idle.len(),
                idle.iter().take(3).collect::<Vec<_>>()
            );
        }
    }
}

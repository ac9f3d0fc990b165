//! What each stage costs on the example dossier: `cargo bench --bench stages`.
//!
//! Times of a shared machine say little alone: read them as ratios of one run, such as `read_with_places` beside `read_alone`.

use std::{collections::BTreeMap, path::Path, sync::Arc};

use divan::{Bencher, black_box, counter::BytesCount};
use sealfolio::{
    dossier::Dossier,
    figures,
    graph::Graph,
    plant::Plant,
    record::{folder::Folder, yaml},
    rule::View,
    rules, seal, site, trend,
};

/// The allocator of the program itself.
#[global_allocator]
static ALLOCATOR: mimalloc::MiMalloc = mimalloc::MiMalloc;

fn main() {
    divan::main();
}

/// The example, in memory.
fn example() -> BTreeMap<Arc<str>, Vec<u8>> {
    let folder = Folder::read(Path::new("example-dossier/released")).expect("the example is there");
    let files = folder.files.into_iter();
    files.map(|(name, file)| (name, file.bytes)).collect()
}

fn of(files: &BTreeMap<Arc<str>, Vec<u8>>) -> Plant {
    Plant::new(Folder::of(files.clone(), Vec::new()))
}

/// The text of all record files.
fn texts() -> (Vec<String>, BytesCount) {
    let files = example().into_iter();
    let records = files.filter(|(name, _)| name.ends_with(".yaml"));
    let texts: Vec<String> = records
        .filter_map(|(_, bytes)| String::from_utf8(bytes).ok())
        .collect();
    let bytes = texts.iter().map(String::len).sum::<usize>();
    (texts, BytesCount::new(bytes))
}

/// The general reader of YAML by itself, as fast as it can be: without places, and nothing is made of what is read.
#[divan::bench(threads = 1)]
fn read_alone(bencher: Bencher) {
    use serde::Deserialize as _;
    let (texts, bytes) = texts();
    bencher.counter(bytes).bench(|| {
        for text in &texts {
            for document in serde_yaml::Deserializer::from_str(text) {
                black_box(serde::de::IgnoredAny::deserialize(document).ok());
            }
        }
    });
}

/// Located trees.
#[divan::bench(threads = 1)]
fn read_with_places(bencher: Bencher) {
    let (texts, bytes) = texts();
    bencher.counter(bytes).bench(|| {
        for text in &texts {
            black_box(yaml::documents(text.as_bytes()).ok());
        }
    });
}

/// Records and traces out of bytes in memory, on all cores.
#[divan::bench]
fn read_folder(bencher: Bencher) {
    let files = example();
    bencher
        .with_inputs(|| files.clone())
        .bench_values(|files| Folder::of(files, Vec::new()));
}

/// Genealogy and indexes.
#[divan::bench]
fn plant(bencher: Bencher) {
    let files = example();
    bencher
        .with_inputs(|| Folder::of(files.clone(), Vec::new()))
        .bench_values(Plant::new);
}

/// Every figure.
#[divan::bench]
fn compute_figures(bencher: Bencher) {
    let plant = of(&example());
    bencher.bench(|| Graph::compute(&plant, figures::ALL));
}

/// Every rule.
#[divan::bench]
fn run_rules(bencher: Bencher) {
    let plant = of(&example());
    let graph = Graph::compute(&plant, figures::ALL);
    bencher.bench(|| View::new(&plant, &graph).run(rules::ALL));
}

/// Every series of the trends, without their charts.
#[divan::bench]
fn trends(bencher: Bencher) {
    let plant = of(&example());
    let graph = Graph::compute(&plant, figures::ALL);
    bencher.bench(|| trend::all(&plant, &graph));
}

/// The example, read, computed and checked.
fn dossier() -> Dossier {
    let plant = of(&example());
    let graph = Graph::compute(&plant, figures::ALL);
    let checked = View::new(&plant, &graph).run(rules::ALL);
    Dossier::from_parts(plant, graph, checked)
}

/// Every page with its charts, and the hashes, in memory.
#[divan::bench]
fn make_pages(bencher: Bencher) {
    let dossier = dossier();
    dossier.root();
    let bytes: usize = site::compile(&dossier).files.values().map(Vec::len).sum();
    bencher
        .counter(BytesCount::new(bytes))
        .bench(|| site::compile(&dossier));
}

/// Whether every byte of a written dossier is the one that its manifests name.
#[divan::bench]
fn verify_bytes(bencher: Bencher) {
    let dossier = dossier();
    let kept = tempfile::tempdir().expect("a folder");
    let into = kept.path().join("bag");
    site::write(&dossier, &into).expect("written");
    bencher.bench(|| seal::whole(&into));
}

//! Time by stage of one compile, in one process, as one line of JSON.
//!
//! `cargo run --release --example stages -- FOLDER [INTO]`; without INTO nothing is written. Stages: read (files, records,
//! traces), plant (genealogy), figures, rules, trends, pages with hashes and writing, and the records' root.

use std::{env, path::Path, process::ExitCode, time::Instant};

use sealfolio::{
    dossier::Dossier, figures, graph::Graph, plant::Plant, record::folder::Folder, rule::View,
    rules, seal::Fresh, site, trend,
};
use serde_json::{Map, Value, json};

/// As the program has it: its time and memory are what is measured.
#[global_allocator]
static ALLOCATOR: mimalloc::MiMalloc = mimalloc::MiMalloc;

/// What the system says of this process's memory, in KiB: what it holds (`VmRSS:`), the most that it ever held (`VmHWM:`);
/// nothing where the system does not say.
fn memory(what: &str) -> Option<u64> {
    let status = std::fs::read_to_string("/proc/self/status").ok()?;
    let line = status.lines().find_map(|line| line.strip_prefix(what))?;
    line.trim().trim_end_matches(" kB").parse().ok()
}

fn peak() -> Option<u64> {
    memory("VmHWM:")
}

fn main() -> ExitCode {
    let words: Vec<String> = env::args().skip(1).collect();
    let Some(folder) = words.first() else {
        eprintln!("usage: stages FOLDER [INTO]");
        return ExitCode::from(2);
    };
    let (mut times, mut held) = (Map::new(), Map::new());
    let mut clock = Instant::now();
    let mut stage = |name: &str| {
        let seconds = clock.elapsed().as_secs_f64();
        times.insert(name.into(), json!((seconds * 1e4).round() / 1e4));
        held.insert(name.into(), json!(memory("VmRSS:")));
        clock = Instant::now();
    };
    let Ok(folder) = Folder::read(Path::new(folder)) else {
        eprintln!("{folder} cannot be read");
        return ExitCode::from(2);
    };
    stage("read");
    let plant = Plant::new(folder);
    stage("plant");
    let graph = Graph::compute(&plant, figures::ALL);
    stage("figures");
    let checked = View::new(&plant, &graph).run(rules::ALL);
    stage("rules");
    let series = trend::all(&plant, &graph);
    let values: usize = series.iter().map(|series| series.members.len()).sum();
    stage("trends");
    let records = plant.records().all.len();
    let findings: usize = checked
        .iter()
        .map(|checked| checked.outcome.findings.len())
        .sum();
    let mut report = json!({
        "records": records, "figures": graph.computed.len(), "findings": findings, "trend_values": values,
        "assemblies": plant.assemblies.len(), "peak_kib_of_review": peak(),
    });
    if let Some(into) = words.get(1) {
        drop(series);
        let dossier = Dossier::from_parts(plant, graph, checked);
        dossier.root();
        stage("root");
        let compiled = Fresh::beside(Path::new(into)).and_then(|fresh| {
            let compiled = site::compile_into(&dossier, &fresh)?;
            fresh.finish()?;
            Ok(compiled)
        });
        let Ok(compiled) = compiled else {
            eprintln!("{into} cannot be written");
            return ExitCode::from(2);
        };
        stage("pages");
        report["pages"] = json!(compiled.pages);
        report["files"] = json!(compiled.bag.files);
        report["bytes"] = json!(compiled.bag.bytes);
        report["peak_kib"] = json!(peak());
    }
    report["seconds"] = Value::Object(times);
    report["held_kib"] = Value::Object(held);
    println!("{report}");
    ExitCode::SUCCESS
}

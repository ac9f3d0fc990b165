//! Whole pages and messages as a reader sees them; a change shows here line by line.
//!
//! After a wanted change: `INSTA_UPDATE=always cargo test --test snapshots`, and look at the difference.

mod common;

use std::path::Path;

use common::code;
use sealfolio::{dossier::Dossier, site};

#[test]
fn messages_of_the_terminal() {
    insta::assert_snapshot!("help", code(&["--help"]).1);
    insta::assert_snapshot!(
        "review-as-found",
        code(&["review", "example-dossier/as-found"]).1
    );
    insta::assert_snapshot!(
        "explain-join-residual",
        code(&[
            "explain",
            "join-residual@AT-26-2105-1",
            "--in",
            "example-dossier/as-found"
        ])
        .1
    );
    insta::assert_snapshot!(
        "explain-diffusive-flow",
        code(&[
            "explain",
            "diffusive-flow@MT-26-3101-1",
            "--in",
            "example-dossier/as-found"
        ])
        .1
    );
    insta::assert_snapshot!(
        "explain-drawn",
        code(&[
            "explain",
            "bubble-point@MT-26-3101-1",
            "--in",
            "example-dossier/as-found",
            "--monte-carlo",
            "10000"
        ])
        .1
    );
    insta::assert_snapshot!(
        "schema-slitting-record",
        code(&["schema", "slitting_record"]).1
    );
}

#[test]
fn pages() {
    let dossier = Dossier::build(Path::new("example-dossier/as-found"))
        .map_err(|why| why.message)
        .unwrap();
    let files = site::compile(&dossier).files;
    for (name, path) in [
        ("release", "data/index.html"),
        ("assembly", "data/assemblies/a-26-2101.html"),
        ("retention", "data/retention.html"),
        ("rules", "data/rules.html"),
    ] {
        insta::assert_snapshot!(name, String::from_utf8_lossy(&files[path]));
    }
}

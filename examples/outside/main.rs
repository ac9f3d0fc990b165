//! Holds files of check values, written by others, against the program.
//!
//! `cargo run --release --example outside -- physics FILE.csv`
//! `cargo run --release --example outside -- statistics FILE.json`
//!
//! One line a row, and last `N inside, N outside, N not supported`. Exit 0 when nothing is outside.

mod laws;
mod methods;
mod physics;
mod series;
mod statistics;

use std::process::ExitCode;

/// What became of one row.
pub enum Outcome {
    /// Within the row's tolerance.
    Inside(String),
    /// Not.
    Outside(String),
    /// The program has no such figure.
    NotSupported(String),
}

fn main() -> ExitCode {
    let args: Vec<String> = std::env::args().skip(1).collect();
    let [kind, file] = &args[..] else {
        eprintln!("usage: outside physics FILE.csv | outside statistics FILE.json");
        return ExitCode::from(2);
    };
    let read = match kind.as_str() {
        "physics" => physics::rows(file),
        "statistics" => statistics::rows(file),
        other => Err(format!("{other} is neither physics nor statistics")),
    };
    let rows = match read {
        Ok(rows) => rows,
        Err(why) => {
            eprintln!("outside: {file}: {why}");
            return ExitCode::from(2);
        }
    };
    let (mut inside, mut outside, mut not) = (0, 0, 0);
    for (name, outcome) in rows {
        match outcome {
            Outcome::Inside(words) => {
                inside += 1;
                println!("inside         {name}  {words}");
            }
            Outcome::Outside(words) => {
                outside += 1;
                println!("OUTSIDE        {name}  {words}");
            }
            Outcome::NotSupported(words) => {
                not += 1;
                println!("not supported  {name}  {words}");
            }
        }
    }
    println!("{inside} inside, {outside} outside, {not} not supported");
    ExitCode::from(u8::from(outside > 0))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn none_outside(rows: Result<Vec<(String, Outcome)>, String>) {
        let mut count = 0;
        for (name, outcome) in rows.unwrap() {
            count += 1;
            if let Outcome::Outside(words) | Outcome::NotSupported(words) = outcome {
                panic!("{name}: {words}");
            }
        }
        assert!(count > 100, "only {count} rows");
    }

    #[test]
    fn published_physics() {
        none_outside(physics::rows("tests/data/physics.csv"));
    }

    #[test]
    fn published_statistics() {
        none_outside(statistics::rows("tests/data/statistics.json"));
    }
}

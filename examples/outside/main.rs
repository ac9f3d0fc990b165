//! Holds files of check values, written by others, against the program.
//!
//! `cargo run --release --example outside -- physics FILE.csv`
//! `cargo run --release --example outside -- statistics FILE.json`
//! `cargo run --release --example outside -- agreement > src/agreement.csv`
//!
//! One line a row, and last `N inside, N outside, N not supported`. Exit 0 when nothing is outside.

mod figures;
mod laws;
mod methods;
mod physics;
mod series;
mod statistics;

use std::process::ExitCode;

use figures::Agreements;

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
    if args == ["agreement"] {
        return match agreement() {
            Ok(table) => {
                print!("{table}");
                ExitCode::SUCCESS
            }
            Err(why) => {
                eprintln!("outside: {why}");
                ExitCode::from(2)
            }
        };
    }
    let [kind, file] = &args[..] else {
        eprintln!(
            "usage: outside physics FILE.csv | outside statistics FILE.json | outside agreement"
        );
        return ExitCode::from(2);
    };
    let read = match kind.as_str() {
        "physics" => physics::rows(file, &mut Agreements::default()),
        "statistics" => statistics::rows(file, &mut Agreements::default()),
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

/// How far each figure agrees with the check files, as the program carries it.
fn agreement() -> Result<String, String> {
    let mut agreements = Agreements::default();
    physics::rows("tests/data/physics.csv", &mut agreements)?;
    statistics::rows("tests/data/statistics.json", &mut agreements)?;
    Ok(agreements.table())
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
        assert!(count > 50, "only {count} rows");
    }

    #[test]
    fn published_physics() {
        none_outside(physics::rows(
            "tests/data/physics.csv",
            &mut Agreements::default(),
        ));
    }

    #[test]
    fn published_statistics() {
        none_outside(statistics::rows(
            "tests/data/statistics.json",
            &mut Agreements::default(),
        ));
    }

    /// Values of general-purpose libraries, kept by the scripts in `tests/oracle`.
    #[test]
    fn reference_libraries() {
        none_outside(physics::rows(
            "tests/data/reference.csv",
            &mut Agreements::default(),
        ));
        none_outside(statistics::rows(
            "tests/data/reference.json",
            &mut Agreements::default(),
        ));
    }

    #[test]
    fn what_the_program_says_of_its_agreement_is_so() {
        // To bring it up to date: cargo run --example outside -- agreement > src/agreement.csv
        assert_eq!(
            agreement().unwrap(),
            std::fs::read_to_string("src/agreement.csv").unwrap()
        );
    }
}

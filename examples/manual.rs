//! Writes a manual page for every command, and completions for the usual shells, into a folder.
//!
//! `cargo run --example manual -- FOLDER`

#![allow(clippy::unwrap_used, missing_docs)]

use std::{fs, path::Path};

use clap_complete::Shell;

const SHELLS: [Shell; 5] = [
    Shell::Bash,
    Shell::Elvish,
    Shell::Fish,
    Shell::PowerShell,
    Shell::Zsh,
];

fn write(folder: &Path) -> std::io::Result<()> {
    fs::create_dir_all(folder)?;
    clap_mangen::generate_to(sealfolio::cli::command(), folder)?;
    for shell in SHELLS {
        let mut command = sealfolio::cli::command();
        clap_complete::generate_to(shell, &mut command, "sealfolio", folder)?;
    }
    Ok(())
}

fn main() {
    let Some(folder) = std::env::args_os().nth(1) else {
        eprintln!("Name the folder to write into.");
        std::process::exit(2);
    };
    if let Err(error) = write(Path::new(&folder)) {
        eprintln!("cannot write {}: {error}", Path::new(&folder).display());
        std::process::exit(2);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_command_and_every_flag_has_its_page_and_is_completed() {
        let folder = tempfile::tempdir().unwrap();
        write(folder.path()).unwrap();
        let text = |name: &str| fs::read_to_string(folder.path().join(name)).unwrap();
        let shells = [
            "sealfolio.bash",
            "_sealfolio",
            "sealfolio.fish",
            "_sealfolio.ps1",
            "sealfolio.elv",
        ];
        assert!(text("sealfolio.1").contains("Exit codes"));
        let mut command = sealfolio::cli::command();
        command.build();
        let mut flags = 0;
        for own in command
            .get_subcommands()
            .filter(|own| own.get_name() != "help")
        {
            let page = text(&format!("sealfolio-{}.1", own.get_name()));
            for flag in own.get_arguments().filter_map(|flag| flag.get_long()) {
                flags += 1;
                assert!(
                    page.contains(&flag.replace('-', "\\-")),
                    "{} --{flag}",
                    own.get_name()
                );
            }
            for shell in shells {
                assert!(
                    text(shell).contains(own.get_name()),
                    "{shell} {}",
                    own.get_name()
                );
            }
        }
        assert!(flags > 40);
    }
}

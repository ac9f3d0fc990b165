//! The command line: one file a command.
//!
//! Exit codes: 0 fine; 1 something blocks release or a check failed; 2 the call or the input could
//! not be used; 130 stopped by hand.

mod affected;
mod again;
mod approve;
mod compare;
mod compile;
mod explain;
mod extract;
mod history;
mod intake;
mod new;
mod review;
mod schema;
mod show;
mod verify;
mod watch;

use std::{io::IsTerminal as _, mem::ManuallyDrop, path::PathBuf, process::ExitCode};

use clap::{Parser, Subcommand, ValueEnum};
use rayon::ThreadPoolBuilder;

use crate::{
    approval::Meaning, bill, dossier::Dossier, extract::Asked, ground::interrupt,
    record::folder::Unusable, seal::Trouble,
};

pub use show::MOST;

/// Fine.
pub const FINE: u8 = 0;
/// Something blocks release, or a check failed.
pub const STOPPED: u8 = 1;
/// The call or the input could not be used.
pub const UNUSABLE: u8 = 2;

/// Turns the test records of pleated membrane cartridge filters into a checked, offline validation dossier.
#[derive(Parser)]
#[command(
    name = "sealfolio",
    version,
    after_help = "\
Begin:   sealfolio new my-lot          a small dossier folder that compiles at once
Look:    sealfolio review my-lot       what is missing, inconsistent or out of limits, and what to do
Write:   sealfolio compile my-lot --into my-lot-dossier
Check:   sealfolio verify my-lot-dossier

Exit codes: 0 fine, 1 something blocks release or a check failed, 2 the call or the input could not be used, 130 stopped by hand."
)]
struct Words {
    #[command(subcommand)]
    command: Command,
    /// Say nothing but errors
    #[arg(long, short, global = true)]
    quiet: bool,
    /// Colour on the terminal
    #[arg(long, global = true, value_enum, default_value = "auto")]
    color: Color,
}

#[derive(Copy, Clone, PartialEq, Eq, ValueEnum)]
enum Color {
    Auto,
    Always,
    Never,
}

#[derive(Subcommand)]
enum Command {
    /// Begin a small dossier folder that compiles at once, or one more record of a kind
    #[command(
        after_help = "Example: sealfolio new my-lot --maker \"Quillmere Membrane Works\" --customer \"Harrow Vale Cellars\"\n         sealfolio new my-lot --record module_test --id MT-26-3101-1"
    )]
    New {
        /// The folder to make; with --record the folder that holds dossier.yaml
        folder: PathBuf,
        #[command(flatten)]
        asked: new::Asked,
    },
    /// Take records in from CSV exports and filled-in forms, by a mapping that is a record of the folder; shows them, writes only when told to
    #[command(
        after_help = "Example: sealfolio intake my-lot --mapping IM-RIG stick/export.csv            (shows what it would write)\n         sealfolio intake my-lot --mapping IM-RIG stick/export.csv --write\n         sealfolio intake my-lot --mapping IM-SLIT --form slitting.csv         (an empty form to fill in)"
    )]
    Intake {
        /// The folder that holds dossier.yaml
        folder: PathBuf,
        /// The exports; traces that they name lie beside them
        #[arg(required_unless_present = "form")]
        exports: Vec<PathBuf>,
        /// The id of the record of kind intake_mapping that says how
        #[arg(long, value_name = "ID")]
        mapping: String,
        /// Write; without it nothing is
        #[arg(long)]
        write: bool,
        /// Show every record, not only the first
        #[arg(long)]
        all: bool,
        /// Write an empty form with the columns of the mapping instead
        #[arg(long, value_name = "FILE", conflicts_with_all = ["exports", "write", "all"])]
        form: Option<PathBuf>,
    },
    /// Read the records, compute every figure, run every rule, and say what a person must look at
    #[command(
        after_help = "Example: sealfolio review example-dossier/as-found\n         sealfolio review my-lot --json | less\n         sealfolio review my-lot --affected-by RM-701\n         sealfolio review my-lot --affected-by IT-11 --from 2026-03-01 --to 2026-03-31"
    )]
    Review {
        /// The folder that holds dossier.yaml
        folder: PathBuf,
        /// The same for a machine
        #[arg(long)]
        json: bool,
        /// Show notes too, and how much each rule looked at
        #[arg(long)]
        all: bool,
        /// Say instead where everything is that has to do with this roll, lot, supplier lot, run of seals, instrument, person or element
        #[arg(long, value_name = "ID")]
        affected_by: Option<String>,
        /// An older compiled dossier that trends look back on; may be given several times
        #[arg(long, value_name = "FOLDER", conflicts_with = "affected_by")]
        history: Vec<PathBuf>,
        /// With --affected-by: only what was recorded from this day on
        #[arg(long, value_name = "DATE", requires = "affected_by")]
        from: Option<String>,
        /// With --affected-by: only what was recorded until this day
        #[arg(long, value_name = "DATE", requires = "affected_by")]
        to: Option<String>,
    },
    /// Write the offline dossier; refused while a finding blocks release, unless it is marked a draft
    #[command(
        after_help = "Example: sealfolio compile example-dossier/released --into dossier-out\n         sealfolio compile my-lot --into my-lot-out --draft --watch"
    )]
    Compile {
        /// The folder that holds dossier.yaml
        folder: PathBuf,
        /// The dossier to write; it must not exist
        #[arg(long, value_name = "FOLDER")]
        into: PathBuf,
        /// An older compiled dossier that trends look back on; may be given several times
        #[arg(long, value_name = "FOLDER")]
        history: Vec<PathBuf>,
        /// The compiled dossier that this one supersedes; the page of changes then compares with it
        #[arg(long, value_name = "FOLDER")]
        supersedes: Option<PathBuf>,
        /// Write it even if something blocks release; every page then says that it is a draft
        #[arg(long)]
        draft: bool,
        /// Compile again whenever something in the folder changed, and say what became of verdicts, until stopped
        #[arg(long, conflicts_with_all = ["json", "supersedes"])]
        watch: bool,
        /// Write data/figures.parquet too: the figures as a table, for questions over many dossiers
        #[cfg(feature = "parquet")]
        #[arg(long)]
        parquet: bool,
        /// The same for a machine
        #[arg(long)]
        json: bool,
    },
    /// Sign a compiled dossier: one more statement, signed by OpenSSH with an ordinary key
    #[command(
        after_help = "Example: sealfolio approve dossier-out --as reviewed --person P-07 --key ~/.ssh/id_ed25519"
    )]
    Approve {
        /// The compiled dossier
        folder: PathBuf,
        /// What the signature means
        #[arg(long = "as", value_enum)]
        meaning: As,
        /// The person's id
        #[arg(long, value_name = "ID")]
        person: String,
        /// The private key, or the public half of one that an agent holds
        #[arg(long, value_name = "FILE")]
        key: PathBuf,
        /// The printed name of whoever receives
        #[arg(long)]
        name: Option<String>,
        /// The function of whoever receives
        #[arg(long)]
        role: Option<String>,
        /// When it is signed, such as 2026-03-20T09:56:00+01:00; now when absent
        #[arg(long, value_name = "TIME")]
        at: Option<String>,
    },
    /// Check a compiled dossier: every byte as listed, every figure as computed again, every signature
    #[command(after_help = "Example: sealfolio verify dossier-out")]
    Verify {
        /// The compiled dossier
        folder: PathBuf,
        /// The signers that you know, as OpenSSH's allowed_signers: person id, kind of key, key
        #[arg(long, value_name = "FILE")]
        allowed_signers: Option<PathBuf>,
        /// Fail too where an expected statement is not there, or a key is not known as its signer's
        #[arg(long, conflicts_with = "bytes")]
        all_signed: bool,
        /// Only check that every byte is as listed, and the signatures of this folder; compute nothing again
        #[arg(long)]
        bytes: bool,
        /// The same for a machine
        #[arg(long)]
        json: bool,
    },
    /// Show what changed from one dossier to a later one: records, figures, verdicts, findings, signatures
    #[command(
        after_help = "Example: sealfolio compare dossier-rev1 dossier-rev2\n         sealfolio compare dossier-rev1 my-lot --json     (a folder of records is compared as it stands)"
    )]
    Compare {
        /// The older dossier: compiled, or a folder of records
        older: PathBuf,
        /// The later dossier: compiled, or a folder of records
        later: PathBuf,
        /// The same for a machine
        #[arg(long)]
        json: bool,
    },
    /// Write a customer's copy: some lots of a signed dossier, provably with all their records, and nothing of the others
    #[command(
        after_help = "Example: sealfolio extract dossier-out --customer CU-21 --into for-cu-21\n         sealfolio extract dossier-out --lot L26-31 --language it --into lot-31"
    )]
    Extract {
        /// The compiled dossier
        folder: PathBuf,
        /// The customer: every lot of which something was released to them
        #[arg(
            long,
            value_name = "ID",
            conflicts_with = "lot",
            required_unless_present = "lot"
        )]
        customer: Option<String>,
        /// A lot; may be given several times
        #[arg(long, value_name = "ID")]
        lot: Vec<String>,
        /// The language of the copy, when not that of the dossier: en, it, fr, de, es, pt
        #[arg(long, value_name = "CODE")]
        language: Option<String>,
        /// The copy to write; it must not exist
        #[arg(long, value_name = "FOLDER")]
        into: PathBuf,
        /// The same for a machine
        #[arg(long)]
        json: bool,
    },
    /// Show how a figure was computed: formula, numbers, sources, uncertainty, decision; or what a rule demands
    #[command(
        after_help = "Example: sealfolio explain join-residual@AT-26-2105-1 --in example-dossier/as-found\n         sealfolio explain diffusive-flow     (the definition alone)\n         sealfolio explain R30                (a rule: what it demands, and who may explain it)"
    )]
    Explain {
        /// The figure's identity, such as diffusive-flow@MT-26-3101-1, a definition such as diffusive-flow, or a rule such as R30
        figure: String,
        /// The folder that holds dossier.yaml
        #[arg(long = "in", value_name = "FOLDER", default_value = ".")]
        folder: PathBuf,
        /// Draw every cause anew so many times (200000 when no number is given) and hold the linear result against it
        #[arg(long, value_name = "DRAWS", num_args = 0..=1, default_missing_value = "200000", value_parser = clap::value_parser!(u32).range(1000..=20_000_000))]
        monte_carlo: Option<u32>,
        /// The figure as data/figures.json has it
        #[arg(long)]
        json: bool,
    },
    /// Print which packages this program is built of, with versions and digests (CycloneDX 1.6)
    #[command(after_help = "Example: sealfolio bill > sealfolio.cdx.json")]
    Bill,
    /// Print the JSON Schema of a kind of record, or list the kinds
    #[command(after_help = "Example: sealfolio schema module_test > module_test.schema.json")]
    Schema {
        /// The kind of record
        kind: Option<String>,
    },
}

/// What a signature means.
#[derive(Copy, Clone, ValueEnum)]
enum As {
    /// I made this dossier from these records
    Prepared,
    /// I am independent of the work and checked it
    Reviewed,
    /// I accept responsibility for what it releases
    Approved,
    /// I have received it
    Received,
}

impl From<As> for Meaning {
    fn from(meaning: As) -> Meaning {
        match meaning {
            As::Prepared => Meaning::Prepared,
            As::Reviewed => Meaning::Reviewed,
            As::Approved => Meaning::Approved,
            As::Received => Meaning::Received,
        }
    }
}

/// How the terminal is spoken to.
struct Voice {
    quiet: bool,
    color: bool,
}

impl Voice {
    fn say(&self, text: &str) {
        if !self.quiet {
            print(text);
        }
    }

    /// Does some work, and shows on a terminal how far it is.
    fn watched<T>(&self, work: impl FnOnce() -> T) -> T {
        let _watch = watch::Watch::begin(self);
        work()
    }
}

/// Prints a line. A reader that went away wants no more; any other failure must not look fine.
fn print(text: &str) {
    use std::io::Write as _;
    if let Err(error) = writeln!(std::io::stdout(), "{text}") {
        if error.kind() != std::io::ErrorKind::BrokenPipe {
            complain(&format!("cannot write what was found: {error}"), "");
        }
        std::process::exit(i32::from(UNUSABLE));
    }
}

/// Prints what is wrong and what to do. Where even that cannot be written, the exit code says so alone.
/// A path as it is typed in a shell: quoted where a blank would part it.
fn typed(path: &std::path::Path) -> String {
    let shown = path.display().to_string();
    match shown.contains(char::is_whitespace) {
        true => format!("\"{shown}\""),
        false => shown,
    }
}

fn complain(message: &str, advice: &str) {
    use std::io::Write as _;
    let mut text = format!("sealfolio: {message}\n");
    if !advice.is_empty() {
        text.push_str(&format!("           {advice}\n"));
    }
    let _ = std::io::stderr().write_all(text.as_bytes());
}

fn unusable(why: &Unusable) -> u8 {
    complain(&why.message, &why.advice);
    UNUSABLE
}

/// A dossier that could not be written, or that somebody stopped.
fn stopped((message, advice): &Trouble) -> u8 {
    complain(message, advice);
    match interrupt::asked() {
        true => interrupt::STOPPED_BY_HAND as u8,
        false => UNUSABLE,
    }
}

/// A folder that cannot be looked through.
fn unreadable(folder: &std::path::Path, error: &std::io::Error) -> u8 {
    complain(
        &say!(
            "{folder} cannot be read: {error}",
            folder = folder.display(),
            error = error
        ),
        say!("Look at rights and at the medium."),
    );
    UNUSABLE
}

/// The command line itself: what manual pages and completions are made of.
pub fn command() -> clap::Command {
    <Words as clap::CommandFactory>::command()
}

/// Runs the program.
pub fn run() -> ExitCode {
    let words = match Words::try_parse() {
        Ok(words) => words,
        Err(error) => {
            let code = if error.use_stderr() { UNUSABLE } else { FINE };
            let _ = error.print();
            return ExitCode::from(code);
        }
    };
    let color = match words.color {
        Color::Always => true,
        Color::Never => false,
        Color::Auto => std::io::stdout().is_terminal() && std::env::var_os("NO_COLOR").is_none(),
    };
    let voice = Voice {
        quiet: words.quiet,
        color,
    };
    watch::heed_interruptions();
    let asked = || obey(words.command, &voice);
    // Where the system gives no thread more, the one that there is does all the work.
    let alone = || {
        let one = ThreadPoolBuilder::new().num_threads(1);
        one.use_current_thread().build()
    };
    ExitCode::from(
        match ThreadPoolBuilder::new().build().or_else(|_| alone()) {
            Ok(workers) => workers.install(asked),
            Err(error) => unusable(&Unusable {
                message: error.to_string(),
                advice: say!("The system gives no thread to work with; close other programs.")
                    .into(),
            }),
        },
    )
}

fn obey(command: Command, voice: &Voice) -> u8 {
    match command {
        Command::New { folder, asked } => new::run(&folder, &asked, voice),
        Command::Intake {
            folder,
            exports,
            mapping,
            write,
            all,
            form,
        } => {
            let asked = intake::Asked {
                mapping: &mapping,
                exports: &exports,
                form: form.as_deref(),
                write,
                all,
            };
            intake::run(&folder, &asked, voice)
        }
        Command::Review {
            folder,
            json,
            affected_by: Some(id),
            from,
            to,
            ..
        } => affected::run(&folder, &id, (from.as_deref(), to.as_deref()), json, voice),
        Command::Review {
            folder,
            json,
            all,
            history,
            ..
        } => review::run(&folder, &history, json, all, voice),
        Command::Compile {
            folder,
            into,
            history,
            supersedes,
            draft,
            watch,
            #[cfg(feature = "parquet")]
            parquet,
            json,
        } => {
            #[cfg(not(feature = "parquet"))]
            let parquet = false;
            let asked = compile::Asked {
                history: &history,
                supersedes: supersedes.as_deref(),
                draft,
                table: parquet,
            };
            match watch {
                true => again::run(&folder, &into, &asked, voice),
                false => compile::run((&folder, &into), &asked, json, voice),
            }
        }
        Command::Compare { older, later, json } => compare::run(&older, &later, json, voice),
        Command::Approve {
            folder,
            meaning,
            person,
            key,
            name,
            role,
            at,
        } => {
            let asked = approve::Asked {
                meaning: meaning.into(),
                person: &person,
                key: &key,
                name: name.as_deref(),
                role: role.as_deref(),
                at: at.as_deref(),
            };
            approve::run(&folder, &asked, voice)
        }
        Command::Verify {
            folder,
            allowed_signers,
            all_signed,
            bytes,
            json,
        } => {
            let asked = verify::Asked {
                allowed_signers: allowed_signers.as_deref(),
                all_signed,
                bytes,
            };
            verify::run(&folder, &asked, json, voice)
        }
        Command::Extract {
            folder,
            customer,
            lot,
            language,
            into,
            json,
        } => {
            let asked = match customer {
                Some(id) => Asked::Customer(id),
                None => Asked::Lots(lot.into_iter().collect()),
            };
            extract::run((&folder, &into), &asked, language.as_deref(), json, voice)
        }
        Command::Explain {
            figure,
            folder,
            monte_carlo,
            json,
        } => explain::run(&figure, &folder, monte_carlo, json),
        Command::Bill => {
            print(bill::text().trim_end());
            FINE
        }
        Command::Schema { kind } => schema::run(kind.as_deref()),
    }
}

/// A dossier that is looked at until the program ends: then the system takes its memory back at once, and not piece by
/// piece, which for a large plant takes seconds.
fn to_the_end(dossier: Dossier) -> ManuallyDrop<Dossier> {
    ManuallyDrop::new(dossier)
}

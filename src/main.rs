//! The program `sealfolio`: words → one call → exit code.

fn main() -> std::process::ExitCode {
    sealfolio::cli::run()
}

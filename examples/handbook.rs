//! Writes the generated chapters of the handbook: `cargo run --example handbook`.

use std::{error::Error, fs, path::Path};

use sealfolio::handbook::{self, Example};

fn main() -> Result<(), Box<dyn Error>> {
    let folder = Path::new("handbook/generated");
    fs::create_dir_all(folder)?;
    let example = Example::read(Path::new("example-dossier"))?;
    for (name, text) in handbook::chapters(&example) {
        fs::write(folder.join(name), text)?;
    }
    Ok(())
}

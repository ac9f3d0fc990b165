//! Writes the generated chapters of the handbook: `cargo run --example handbook`.

use std::{fs, path::Path};

fn main() -> std::io::Result<()> {
    let folder = Path::new("handbook/generated");
    fs::create_dir_all(folder)?;
    for (name, text) in sealfolio::handbook::chapters() {
        fs::write(folder.join(name), text)?;
    }
    Ok(())
}

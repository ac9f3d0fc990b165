//! How many things, in the singular where there is one.

/// So many modules.
pub fn modules(n: usize) -> String {
    match n {
        1 => say!("1 module").into(),
        n => say!("{n} modules", n = n),
    }
}

/// So many assemblies.
pub fn assemblies(n: usize) -> String {
    match n {
        1 => say!("1 assembly").into(),
        n => say!("{n} assemblies", n = n),
    }
}

/// So many records.
pub fn records(n: usize) -> String {
    match n {
        1 => say!("1 record").into(),
        n => say!("{n} records", n = n),
    }
}

/// So many production runs.
pub fn runs(n: usize) -> String {
    match n {
        1 => say!("1 run").into(),
        n => say!("{n} runs", n = n),
    }
}

/// So many tests.
pub fn tests(n: usize) -> String {
    match n {
        1 => say!("1 test").into(),
        n => say!("{n} tests", n = n),
    }
}

//! How far the work is: counted where it is done, shown by whoever began the run, and by nobody otherwise.

use std::sync::atomic::{AtomicUsize, Ordering::Relaxed};
use std::sync::{Mutex, MutexGuard};

/// What is being done, and how many things there are to do.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default)]
pub struct Stage {
    /// In words; empty before the first.
    pub what: &'static str,
    /// How many things.
    pub total: usize,
    /// Which stage of the run it is, from 1.
    pub number: usize,
}

static NOW: Mutex<Stage> = Mutex::new(Stage {
    what: "",
    total: 0,
    number: 0,
});
static DONE: AtomicUsize = AtomicUsize::new(0);

fn now() -> MutexGuard<'static, Stage> {
    NOW.lock().unwrap_or_else(|broken| broken.into_inner())
}

/// Begins a stage of so many things.
pub fn begin(what: &'static str, total: usize) {
    let mut now = now();
    DONE.store(0, Relaxed);
    *now = Stage {
        what,
        total,
        number: now.number + 1,
    };
}

/// One more thing is done.
pub fn step() {
    DONE.fetch_add(1, Relaxed);
}

/// The stage, and how many of its things are done.
pub fn look() -> (Stage, usize) {
    let now = now();
    (*now, DONE.load(Relaxed))
}

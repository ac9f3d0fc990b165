//! Ctrl-C: before anything is written the program just ends; while a folder is being written it is taken away first.

use std::sync::atomic::{AtomicBool, Ordering::SeqCst};

static HELD: AtomicBool = AtomicBool::new(false);
static ASKED: AtomicBool = AtomicBool::new(false);

/// Exit code of a run that was stopped, as shells have it (128 and the number of the signal SIGINT).
pub const STOPPED_BY_HAND: i32 = 130;

/// From here until [`release`] an interruption is noted and not obeyed at once.
pub fn hold() {
    HELD.store(true, SeqCst);
}

/// Nothing is left to take away any more.
pub fn release() {
    HELD.store(false, SeqCst);
}

/// Whether somebody asked to stop.
pub fn asked() -> bool {
    ASKED.load(SeqCst)
}

/// Notes that somebody asks to stop; whether the program may end at once.
pub fn ask() -> bool {
    ASKED.store(true, SeqCst);
    !HELD.load(SeqCst)
}

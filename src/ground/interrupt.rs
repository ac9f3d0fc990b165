//! Ctrl-C: before anything is written the program just ends; while a folder is being written it is taken away first.

use std::sync::atomic::{AtomicBool, AtomicUsize, Ordering::SeqCst};

static HELD: AtomicBool = AtomicBool::new(false);
static ASKED: AtomicUsize = AtomicUsize::new(0);

/// Exit code of a run that was stopped, as shells have it (128 and the number of the signal SIGINT).
pub const STOPPED_BY_HAND: i32 = 130;

/// While it lives an interruption is noted and not obeyed at once.
#[must_use = "an interruption is held off only while this lives"]
pub struct Held(());

/// From here on there is something to take away.
pub fn hold() -> Held {
    HELD.store(true, SeqCst);
    Held(())
}

impl Drop for Held {
    fn drop(&mut self) {
        HELD.store(false, SeqCst);
    }
}

/// Whether somebody asked to stop.
pub fn asked() -> bool {
    ASKED.load(SeqCst) > 0
}

/// So often somebody asks before the program ends whatever it is at: then it hangs, and what it left is the lesser evil.
const INSISTING: usize = 3;

/// Notes that somebody asks to stop; whether the program may end at once.
pub fn ask() -> bool {
    let times = ASKED.fetch_add(1, SeqCst) + 1;
    !HELD.load(SeqCst) || times >= INSISTING
}

//! How far a long run is, drawn on a terminal; and Ctrl-C.

use std::{
    sync::{
        Arc,
        atomic::{AtomicBool, Ordering},
    },
    thread::{self, JoinHandle},
    time::Duration,
};

use indicatif::{ProgressBar, ProgressDrawTarget, ProgressStyle};

use super::Voice;
use crate::ground::{
    interrupt,
    progress::{self, Stage},
};

/// Between two looks.
const EVERY: Duration = Duration::from_millis(120);
/// A run that is over by then draws nothing.
const PATIENCE: Duration = Duration::from_millis(400);

/// Draws while it lives; a pipe sees nothing.
pub(super) struct Watch {
    over: Arc<AtomicBool>,
    drawing: Option<JoinHandle<()>>,
}

impl Watch {
    /// Begins to draw, where there is a terminal and somebody to look at it.
    pub(super) fn begin(voice: &Voice) -> Watch {
        let target = match voice.quiet {
            true => ProgressDrawTarget::hidden(),
            false => ProgressDrawTarget::stderr(),
        };
        let over = Arc::new(AtomicBool::new(false));
        let drawing = match target.is_hidden() {
            true => None,
            false => {
                let over = over.clone();
                // Nothing is drawn where no thread is to be had.
                let thread = thread::Builder::new().spawn(move || draw(target, &over));
                thread.ok()
            }
        };
        Watch { over, drawing }
    }
}

impl Drop for Watch {
    fn drop(&mut self) {
        self.over.store(true, Ordering::Relaxed);
        if let Some(drawing) = self.drawing.take() {
            drawing.thread().unpark();
            let _ = drawing.join();
        }
    }
}

fn draw(target: ProgressDrawTarget, over: &AtomicBool) {
    thread::park_timeout(PATIENCE);
    if over.load(Ordering::Relaxed) {
        return;
    }
    let bar = ProgressBar::with_draw_target(None, target);
    // With a broken template the plain bar of the library stands in.
    if let Ok(style) = ProgressStyle::with_template("{msg} {pos}/{len} [{bar:24}] {prefix}") {
        bar.set_style(style.progress_chars("=> "));
    }
    let mut shown = Stage::default();
    while !over.load(Ordering::Relaxed) {
        let (stage, done) = progress::look();
        if stage != shown {
            // What was left of the stage before says nothing of this one.
            bar.set_prefix(String::new());
            bar.reset();
            bar.set_message(stage.what);
            bar.set_length(stage.total as u64);
            shown = stage;
        }
        bar.set_position(done as u64);
        bar.set_prefix(left(done, bar.eta()));
        thread::park_timeout(EVERY);
    }
    bar.finish_and_clear();
}

/// From here on Ctrl-C (and a request to terminate) leaves nothing half-written behind.
pub(super) fn heed_interruptions() {
    // Where no handler can be set the system's own ends the program, as ever.
    let _ = ctrlc::set_handler(|| {
        if interrupt::ask() {
            std::process::exit(interrupt::STOPPED_BY_HAND);
        }
    });
}

/// How long it still takes, as far as that can be said: not before something is done.
fn left(done: usize, eta: Duration) -> String {
    let seconds = eta.as_secs();
    match (done, seconds) {
        (0, _) | (_, 0) => String::new(),
        (_, 1..90) => say!("about {n} s left", n = seconds),
        _ => say!("about {n} min left", n = (seconds + 30) / 60),
    }
}

//! A progress bar on stderr: only on a terminal, only when the work takes longer than a second.

use super::Global;
use indicatif::{ProgressBar, ProgressDrawTarget, ProgressStyle};
use std::sync::{Mutex, Once};
use std::time::{Duration, Instant};
use swept::sizing::search::problem::Watch;

/// Work up to this long shows no bar.
const SILENT: Duration = Duration::from_secs(1);

/// Counts what is done.
pub struct Progress {
    bar: ProgressBar,
    begun: Instant,
    shown: Once,
    quiet: bool,
}

impl Progress {
    /// For so many points.
    pub fn new(global: &Global, points: usize) -> Self {
        let bar = ProgressBar::with_draw_target(Some(points as u64), ProgressDrawTarget::hidden());
        if let Ok(style) = ProgressStyle::with_template("{prefix}{bar:40} {pos} of {len} points, {eta} to go")
        {
            bar.set_style(style);
        }
        Self { bar, begun: Instant::now(), shown: Once::new(), quiet: global.quiet }
    }

    /// One more is done.
    pub fn step(&self) {
        if !self.quiet && self.begun.elapsed() > SILENT {
            // Where stderr is no terminal this draws nothing.
            self.shown.call_once(|| self.bar.set_draw_target(ProgressDrawTarget::stderr()));
        }
        self.bar.inc(1);
    }

    /// Takes the bar away; gives the time that the work took.
    pub fn end(self) -> Duration {
        self.bar.finish_and_clear();
        self.begun.elapsed()
    }
}

/// Bars of a search, one after the other.
pub struct SearchProgress<'a> {
    global: &'a Global,
    now: Mutex<Option<Progress>>,
}

impl<'a> SearchProgress<'a> {
    /// Nothing is searched yet.
    pub fn new(global: &'a Global) -> Self {
        Self { global, now: Mutex::new(None) }
    }

    /// Takes the last bar away.
    pub fn end(&self) {
        if let Some(last) = self.now.lock().ok().and_then(|mut now| now.take()) {
            last.end();
        }
    }
}

impl Watch for SearchProgress<'_> {
    fn begin(&self, what: &str, candidates: usize) {
        self.end();
        if let Ok(mut now) = self.now.lock() {
            let next = Progress::new(self.global, candidates);
            next.bar.set_prefix(format!("{what} "));
            *now = Some(next);
        }
    }

    fn step(&self) {
        if let Ok(now) = self.now.lock() {
            now.iter().for_each(Progress::step);
        }
    }
}

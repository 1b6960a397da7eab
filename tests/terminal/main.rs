//! The whole program in a pseudo-terminal: what only that can show.
#![cfg(unix)]

mod exits;
mod kill;
mod pty;
mod walkthrough;

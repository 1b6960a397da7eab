//! The demo.

//! Rewriting.

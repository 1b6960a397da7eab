//! A small board for tests.

//! What comes onto a board from outside, one folder or file per kind of input.
//!
//! A kind of input is read into values of its own, compared with the board, and becomes one [`crate::board::Edit`], so
//! that undo takes the whole of it back. Nothing here prints or changes a board: the command that brings it in does, and
//! so does the screen. What cannot be read says where it stands, what was expected and what to do.

mod file;
pub mod pictures;
pub mod script;
pub mod table;

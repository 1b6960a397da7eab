//! What comes in from outside: read, shown as a preview, and made into one edit of the board.

pub mod table;

//! Values of the trade that know no board: dates, eighths, lengths, weights of cloth, colours, cells.
//!
//! Everything here parses at the edge and is trusted from then on; nothing here reads a file or draws.

pub(crate) mod by_text;
pub mod cell;
pub mod cloth_weight;
pub mod colour;
pub mod colour_difference;
pub mod date;
pub mod eighths;
pub mod length;
pub mod plain;
pub mod share;

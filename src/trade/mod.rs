//! Values of the trade that know no board: dates, eighths, lengths, body measures, fibres, weights of cloth, colours,
//! money, hours, cells.
//!
//! Everything here parses at the edge and is trusted from then on; nothing here reads a file or draws.

pub mod angle;
pub mod body;
pub(crate) mod by_text;
pub mod cell;
pub mod cloth_weight;
pub mod colour;
pub mod colour_difference;
pub mod date;
pub mod eighths;
pub mod fibre;
pub mod fraction;
pub mod hours;
pub mod length;
pub mod money;
pub(crate) mod nearest;
pub mod plain;
pub mod share;

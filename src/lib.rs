//! Shirr: a board on which a long documented life is gathered into the few costumes that a film can carry.
//!
//! The library is the program; the binary only calls [`cli`]. A module uses only what stands below it:
//!
//! | floor | what it is |
//! |---|---|
//! | [`cli`] | one file per command |
//! | [`screen`] | the full-screen app: state, the one table of actions, views, layers, parts |
//! | [`report`] | one document model, one file per report, one file per format |
//! | [`bring`] | what comes onto a board from outside, one folder or file per kind of input |
//! | [`album`] | the pictures that a board's folder holds, found and read within limits |
//! | [`check`] | findings, one file per family |
//! | [`plot`] | what scenes and shooting days make of the looks: changes, screen time, first uses, cautions |
//! | [`gather`] | which looks keep most of the wardrobe, with proof |
//! | [`workroom`] | what looks need to be made: fit, versions and copies, cloth, cost, whom to ask before |
//! | [`picture`] | what is seen: flats drawn from a record's words; picture files to pixels, colours, likeness |
//! | [`store`] | board ⇄ folder: YAML, safe writes, the history log, changes from outside |
//! | [`board`] | the records, what follows from them, and [`board::Edit`], the only way to change them |
//! | [`trade`] | values that know no board: dates, eighths, lengths, body measures, money, hours, colours |

pub mod album;
pub mod board;
pub mod bring;
pub mod check;
pub mod cli;
pub mod gather;
pub mod picture;
pub mod plot;
pub mod report;
pub mod screen;
pub mod store;
pub mod trade;
pub mod workroom;

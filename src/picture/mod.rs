//! Picture: what is seen of a record. Computations on the records alone: no file, no screen and no report is known here.

pub mod flat;

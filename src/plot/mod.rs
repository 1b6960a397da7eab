//! Plot: what the scenes and the shooting days make of the looks. Change numbers, carries, screen time, what is worn
//! when it is shot and first needed, and where somebody must be asked before anybody wears it.
//!
//! All of it is derived from the board and nothing is kept.

pub mod cautions;
mod changes;
mod screen_time;
mod shooting;

pub use cautions::{Caution, Hazard};
pub use changes::Changes;
pub use screen_time::{of_look, of_period, whole};
pub use shooting::{PlannedDay, Shooting, Spell};

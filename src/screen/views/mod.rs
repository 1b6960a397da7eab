//! The views, one at a time on the screen, and what they can point at.

mod among;
pub mod looks;
pub mod scenes;
pub mod walk;
pub mod wall;
pub mod workroom;

use crate::board::{LookId, OutfitId, PeriodId, SceneNumber, ThreadId};

/// Something that a view can put its focus on.
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub enum Target {
    /// An outfit.
    Outfit(OutfitId),
    /// A look.
    Look(LookId),
    /// A scene.
    Scene(SceneNumber),
    /// A period.
    Period(PeriodId),
    /// A thread.
    Thread(ThreadId),
}

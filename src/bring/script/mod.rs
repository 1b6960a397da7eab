//! A script in Fountain, the open markup for screenplays (<https://fountain.io/syntax>).
//!
//! ```text
//! bytes ─ source ─▶ lines ─ scan ─▶ elements ─ draft ─▶ scenes ─ compare ─▶ changes ─ apply ─▶ one edit
//! ```
//!
//! A later draft is compared with the board and never read in anew: a scene is recognised by its number, heading,
//! people and words, wherever it has gone, so that everything the board knows of it stays with it. The crate `fountain`
//! reads a subset of the markup (no notes, boneyard, scene numbers or dual dialogue) and no line numbers, which is why
//! the scanner is here.

mod apply;
mod cast;
mod compare;
mod draft;
mod element;
mod emphasis;
mod error;
mod heading;
mod length;
mod likeness;
mod matching;
mod numbering;
mod part;
mod scan;
mod source;
mod title;
mod touched;
mod words;

pub use apply::{Unfit, edit, looks_partial};
pub use compare::{Change, Comparison, What, compare};
pub use draft::{Draft, DraftScene, Reading, Stranger};
pub use element::{Element, Kind};
pub use error::{ScriptError, Warning};
pub use length::{ACTION_WIDTH, DIALOGUE_WIDTH, LINES_PER_PAGE};
pub use numbering::between;
pub use part::{Part, PartError};
pub use scan::Script;
pub use touched::{Touched, touched};
pub use words::{cut_scene, summary, told, worn};

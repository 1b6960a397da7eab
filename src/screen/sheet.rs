//! Everything that is known of an outfit.

use super::app::App;
use super::views::Target;

impl App {
    /// Opens it.
    pub fn open_sheet(&mut self, target: Target) {
        let _ = target;
    }
}

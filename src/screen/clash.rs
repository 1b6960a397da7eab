//! Two hands changed the same field: both are shown, and the user chooses.

use super::layers::{Item, Pick};
use crate::board::edit::Clash;
use crate::board::merge::FieldClash;
use crate::board::{Edit, Side};

/// The question what shall stand.
pub fn question(clashes: &[Clash], edit: Edit) -> Pick {
    let mut lead = vec![
        "Another hand changed the same thing meanwhile. Nothing is overwritten until you choose.".to_owned(),
    ];
    for clash in clashes {
        for field in &clash.fields {
            lead.push(format!("{}: {}", clash.record, field.field));
            lead.push(format!("there: {}", FieldClash::words(&field.theirs)));
            lead.push(format!("yours: {}", FieldClash::words(&field.ours)));
        }
    }
    let items = vec![
        Item::new("Keep what is there", "your change of these fields is dropped, the rest is kept"),
        Item::new("Put yours", "can be undone"),
        Item::new("Leave it", "your whole change is dropped"),
    ];
    Pick::question("Changed on both sides", lead, items, move |app, choice| {
        let side = match choice {
            0 => Side::Theirs,
            1 => Side::Ours,
            _ => {
                app.say("left as it is there");
                return;
            }
        };
        match app.open.edit_preferring(&edit, side) {
            Ok(()) if side == Side::Theirs => app.say("kept what is there"),
            Ok(()) => app.say(edit.label.clone()),
            Err(error) => app.warn(error.to_string()),
        }
        app.version += 1;
    })
}

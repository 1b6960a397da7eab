//! Gives a colour that was taken from a picture to a piece.

use crate::board::Piece;
use crate::screen::app::App;
use crate::screen::layers::{Item, Pick};
use crate::screen::views::Target;
use crate::screen::wearable::Wearable;
use crate::trade::colour::Colour;

/// Asks which piece it is the colour of, and which of its colours.
pub(super) fn give(app: &mut App, target: &Target, rgb: [u8; 3]) {
    let of = match target {
        Target::Outfit(id) => Wearable::Outfit(id.clone()),
        Target::Look(id) => Wearable::Look(id.clone()),
        _ => return app.say("open an outfit or a look to give it a colour"),
    };
    let Some(shared) = of.of(app.board()) else { return };
    let colour = Colour::of_rgb(rgb);
    if shared.pieces.is_empty() {
        return app.say("it has no pieces yet that could have a colour");
    }
    let mut items = Vec::new();
    let mut places = Vec::new();
    for (at, piece) in shared.pieces.iter().enumerate() {
        for nth in 0..=piece.colours.len() {
            let name = ["main colour", "second colour", "third colour"]
                .get(nth)
                .copied()
                .unwrap_or("another colour");
            let instead = match piece.colours.get(nth) {
                Some(now) => format!("in the place of {now}"),
                None => "added".to_owned(),
            };
            items.push(Item::new(format!("{}: {name}", piece.name), instead));
            places.push((at, nth, name));
        }
    }
    let lead = vec![format!("{colour}, of which piece? {}", super::CAUTION)];
    let pieces: Vec<Piece> = shared.pieces.to_vec();
    let title = shared.title.to_owned();
    app.open_layer(Pick::question("Colour", lead, items, move |app, choice| {
        let Some((at, nth, name)) = places.get(choice).copied() else { return };
        let Some(was) = pieces.get(at).cloned() else { return };
        let label = format!("{title}: {name} of {} {colour}, from its picture", was.name);
        let edit = of.change(app.board(), label, |parts| {
            // Another hand may have changed the pieces meanwhile.
            if let Some(piece) = parts.pieces.iter_mut().find(|piece| **piece == was) {
                match piece.colours.get_mut(nth) {
                    Some(place) => *place = colour.clone(),
                    None => piece.colours.push(colour.clone()),
                }
            }
        });
        app.change(edit);
    }));
}

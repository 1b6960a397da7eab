//! Changes: what has become of an earlier draft of the script, scene by scene, with what is worn where it hits.
//!
//! It is the comparison that bringing a script in makes, the other way round: from the draft to the board.

use super::cautions::{self, in_scene};
use super::document::{Cell, Column, Document, Kind, Table};
use super::plain::Plain;
use crate::board::{Board, CharacterId};
use crate::bring::script::{Change, Draft, Part, What, compare, summary, worn};
use crate::check::words::{capital, counted};

/// What has changed on a board since an earlier draft; with a part, the draft holds only its scenes, and only they are
/// compared.
pub fn against(board: &Board, earlier: &Draft, part: Option<&Part>) -> Document {
    let comparison = compare(earlier, &Draft::of_board(board, part), &[]);
    let mut table = Table::new(vec![
        Column::new("scene", "Scene", Kind::Text),
        Column::new("heading", "Heading", Kind::Text),
        Column::new("change", "Change", Kind::Text),
        Column::new("was", "Was", Kind::Text),
        Column::new("becomes", "Becomes", Kind::Text),
        Column::new("worn", "Worn there", Kind::List),
        Column::new("cautions", "Cautions", Kind::List),
    ]);
    let mut raised = Vec::new();
    for change in &comparison.changes {
        let scene = change.scene.as_ref().and_then(|number| board.scene(number));
        let cautions = scene.map(|scene| in_scene(board, scene)).unwrap_or_default();
        table.push(vec![
            Cell::maybe(change.scene.as_ref()),
            Cell::text(&change.heading),
            Cell::text(change.what.word()),
            Cell::maybe(change.what.was(board)),
            Cell::maybe(change.what.becomes(board)),
            Cell::list(worn_there(board, change)),
            cautions::cell(board, &cautions),
        ]);
        raised.extend(cautions);
    }
    let draft = if earlier.title.is_empty() { String::new() } else { format!("{}, ", earlier.title) };
    let of = part.map(|part| format!(", scenes {part}")).unwrap_or_default();
    Document {
        key: "changes",
        title: Plain::line(&format!("{}: changes since a draft{of}", board.head().title)),
        subtitle: Plain::line(&format!(
            "{draft}an earlier draft of {}: {}",
            counted(earlier.scenes.len(), "scene"),
            summary(&comparison)
        )),
        notes: vec![
            Plain::line(
                "Scenes are recognised by number, heading, people and words; a cut scene's looks stay.",
            ),
            Plain::line(
                "The draft's lengths are estimated from the page, the board's are as they stand there.",
            ),
        ],
        tables: vec![table],
        cautions: cautions::asks(&raised),
        ..Document::default()
    }
}

/// Who wears what in the scene as the board has it; of a scene that is cut and of who goes out, who was in it, since the
/// draft knows no looks.
fn worn_there(board: &Board, change: &Change) -> Vec<String> {
    let was = |who: &CharacterId| capital(&format!("{}: was in it", board.name_of(who)));
    let scene = change.scene.as_ref().and_then(|number| board.scene(number));
    let there = || scene.map(|scene| worn(board, scene)).unwrap_or_default();
    match &change.what {
        What::Cut(_, who) => who.iter().map(was).collect(),
        What::GoesOut(who, _) => [was(who)].into_iter().chain(there()).collect(),
        _ => there(),
    }
}

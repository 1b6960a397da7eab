//! What a script changes, in words.

use std::fmt::Write;

use super::Brought;
use crate::board::Id;
use crate::bring::script::{heading_of, summary};
use crate::check::words::{counted, look_title, quoted};

/// The whole answer.
pub(super) fn text(brought: &Brought<'_>) -> String {
    let mut to = String::new();
    let Brought { board, draft, comparison, .. } = brought;
    let of = brought.part.map(|part| format!(", scenes {part}")).unwrap_or_default();
    let count = counted(draft.scenes.len(), "scene");
    let _ = writeln!(to, "{} in {}{of}: {}.", count, brought.file.display(), summary(comparison));
    if !comparison.changes.is_empty() {
        to.push('\n');
    }
    for change in &comparison.changes {
        let line = change.line.map(|line| format!(" (line {line})")).unwrap_or_default();
        let words = change.what.words(board);
        let _ = writeln!(to, "  {:<13} {}: {words}{line}", change.what.word(), heading_of(change));
    }
    touched(brought, &mut to);
    unknown(brought, &mut to);
    readings(brought, &mut to);
    let end = match (brought.applied, brought.dry) {
        (Some(_), _) => "It is done, as one edit; `u` on the board takes it back.",
        (None, true) => "Nothing is changed yet: leave out --dry-run to bring it in.",
        (None, false) => "Nothing is changed: the board has it so already.",
    };
    let _ = writeln!(to, "\n{end}");
    if let Some(hint) = missing_part(brought) {
        let _ = writeln!(to, "{hint}");
    }
    to
}

/// What is left to be done.
fn touched(brought: &Brought<'_>, to: &mut String) {
    let Brought { board, touched, .. } = brought;
    if touched.is_empty() {
        return;
    }
    let _ = writeln!(to, "\nTo be looked at:");
    for (scene, who) in &touched.undressed {
        let _ = writeln!(to, "  {} has no look yet in scene {scene}", board.name_of(who));
    }
    for (day, scene) in &touched.unscheduled {
        let _ = writeln!(to, "  shooting day {day} is without scene {scene}");
    }
    for look in &touched.unseen {
        let _ = writeln!(
            to,
            "  {} is in no scene any more; it stays on the board",
            quoted(look_title(board, look))
        );
    }
}

/// Who speaks and is not on the board.
fn unknown(brought: &Brought<'_>, to: &mut String) {
    let Some(first) = brought.draft.strangers.first() else { return };
    let _ = writeln!(to, "\nNot on the board, so not added to any scene:");
    for stranger in &brought.draft.strangers {
        let scenes = counted(stranger.scenes, "scene");
        let _ = writeln!(to, "  {}: speaks in {scenes}, first in line {}", stranger.name, stranger.line);
    }
    let id = Id::<()>::from_title(&first.name).map_or_else(|| "somebody".to_owned(), |id| id.to_string());
    let _ = writeln!(
        to,
        "  Whoever of them is to be dressed goes into `characters` in board.yaml, such as\n    - {{id: {id}, name: {}}}\n  \
         and is in the scenes once the script is brought in again.",
        first.as_character()
    );
}

/// Names that were taken for a character's by a word in them.
fn readings(brought: &Brought<'_>, to: &mut String) {
    if brought.draft.readings.is_empty() {
        return;
    }
    let _ = writeln!(to, "\nTaken by a word of the name; a character of that very name would go first:");
    for reading in &brought.draft.readings {
        let who = brought.board.name_of(&reading.character);
        let _ = writeln!(to, "  {} is {who} (line {})", reading.name, reading.line);
    }
}

/// Many scenes cut behind the last of the script look like a script that is only a part.
fn missing_part(brought: &Brought<'_>) -> Option<String> {
    let cut = brought.comparison.changes.iter().filter(|change| change.what.key() == "cut").count();
    let (first, last) = (brought.comparison.numbers.first()?, brought.comparison.numbers.last()?);
    let looks_partial = brought.part.is_none() && cut * 3 > brought.board.scenes().len();
    looks_partial.then(|| {
        let undo = if brought.applied.is_some() { "take it back and " } else { "" };
        format!("If the script is only a part of the film, {undo}bring it in with `--part {first}-{last}`.")
    })
}

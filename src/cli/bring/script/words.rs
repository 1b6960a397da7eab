//! What a script changes, in words.

use std::fmt::Write;

use super::Brought;
use crate::board::Id;
use crate::bring::script::{summary, told};
use crate::check::words::counted;

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
        let _ = writeln!(to, "  {:<13} {}{line}", change.what.word(), told(board, change));
    }
    touched(brought, &mut to);
    unknown(brought, &mut to);
    readings(brought, &mut to);
    let _ = writeln!(to, "\n{}", end(brought));
    to
}

/// What has come of it, and what to do now.
fn end(brought: &Brought<'_>) -> String {
    let (cut, of) = (brought.comparison.cut(), brought.board.scenes().len());
    let part = missing_part(brought);
    let only_a_part = part.as_ref().map(|part| format!("If the script is only a part of the film, {part}"));
    if brought.held_back {
        let yet = if brought.dry { " yet, nor would it be without --dry-run" } else { "" };
        let only_a_part = only_a_part.map(|part| format!("{part}.\n")).unwrap_or_default();
        return format!(
            "Nothing is changed{yet}: it would cut {cut} of the {of} scenes that the board has.\n{only_a_part}If it is all of \
             the film, bring it in with `--whole`."
        );
    }
    let end = match brought.edit {
        None => "Nothing is changed: the board has it so already.",
        Some(_) if brought.applied => "It is done, as one edit; `u` on the board takes it back.",
        Some(_) => "Nothing is changed yet: leave out --dry-run to bring it in.",
    };
    let partial = only_a_part.filter(|_| !brought.whole && cut * 3 > of);
    partial.map_or_else(|| end.to_owned(), |part| format!("{end}\n{part}."))
}

/// What is left to be done.
fn touched(brought: &Brought<'_>, to: &mut String) {
    let Brought { board, touched, .. } = brought;
    if touched.is_empty() {
        return;
    }
    let _ = writeln!(to, "\nTo be looked at:");
    for line in touched.words(board) {
        let _ = writeln!(to, "  {line}");
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
        "  Whoever of them is to be dressed goes into `characters` in board.yaml, such as\n    - {{id: {}, name: {}}}\n  \
         and is in the scenes once the script is brought in again.",
        yaml(&id),
        yaml(&first.as_character())
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

/// What to do with a script that is only a part; nothing where a part is named.
fn missing_part(brought: &Brought<'_>) -> Option<String> {
    if brought.part.is_some() {
        return None;
    }
    let numbers = &brought.comparison.numbers;
    let (first, last) = (numbers.iter().min()?, numbers.iter().max()?);
    let undo = if brought.applied { "take it back and " } else { "" };
    Some(format!("{undo}bring it in with `--part {first}-{last}`"))
}

/// A text as a value in YAML, whatever is in it; in quotation marks where it could be read as anything else.
fn yaml(text: &str) -> String {
    let plain = text.starts_with(char::is_alphabetic)
        && text.ends_with(char::is_alphanumeric)
        && text.chars().all(|c| c.is_alphanumeric() || matches!(c, ' ' | '-' | '.' | '\'' | '’'));
    let word = ["true", "false", "null", "yes", "no", "on", "off", "y", "n"]
        .iter()
        .any(|word| text.eq_ignore_ascii_case(word));
    // What JSON escapes in a string, YAML reads in the same way.
    if plain && !word { text.to_owned() } else { serde_json::Value::from(text).to_string() }
}

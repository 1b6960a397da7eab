//! What a file would change, in lines to read.

use std::path::{Path, PathBuf};

use crate::board::{Board, Edit};
use crate::bring::script::{self, Change, Draft, Part, Script};
use crate::bring::table::{Altered, AlteredField, Grid, Kind};
use crate::check::words::counted;
use crate::screen::layers::page::Line;

use super::ALL;

/// What a file would change.
#[derive(Debug)]
pub(super) struct Preview {
    pub lines: Vec<Line>,
    pub edit: Edit,
}

/// A file, and what it is said to hold.
#[derive(Debug)]
pub(super) struct Request {
    pub path: PathBuf,
    pub holds: Holds,
}

/// What a file is said to hold.
#[derive(Debug)]
pub(super) enum Holds {
    /// A script: of a part of the film, of all of it, or of what is not said.
    Script { part: Option<Part>, is_all: bool },
    /// A table.
    Table(Kind),
}

impl Request {
    /// Reads the file and compares it with the board.
    pub fn preview(&self, board: &Board) -> Result<Preview, String> {
        match &self.holds {
            Holds::Script { part, is_all } => of_script(board, &self.path, part.as_ref(), *is_all),
            Holds::Table(kind) => of_table(board, &self.path, *kind),
        }
    }
}

fn of_script(board: &Board, path: &Path, part: Option<&Part>, is_all: bool) -> Result<Preview, String> {
    let hinted = |error: String, hint: &str| format!("{error}; {hint}");
    let unread = |error: script::ScriptError| hinted(error.to_string(), error.hint());
    let script = Script::open(path).map_err(unread)?;
    let draft = Draft::of_script(&script, board.head()).map_err(unread)?;
    let (comparison, edit) = script::edit(board, &draft, part)
        .map_err(|error| format!("{error}; name other scenes, or none for a whole script"))?;
    if part.is_none() && !is_all && script::looks_partial(board, &comparison) {
        return Err(format!(
            "it would cut {} of {}: say which scenes it is about, such as 1-26A, or `{ALL}`",
            comparison.cut(),
            counted(board.scenes().len(), "scene")
        ));
    }
    let touched = script::touched(board, &comparison, &edit).map_err(|refused| refused.to_string())?;
    let count = counted(draft.scenes.len(), "scene");
    let mut lines = vec![Line::Heading(format!("{count}: {}", script::summary(&comparison)))];
    let line = |change: &Change| Line::Pair(change.what.word().to_owned(), script::told(board, change));
    lines.extend(comparison.changes.iter().map(line));
    listed(&mut lines, "To be looked at", touched.words(board));
    let strangers = draft.strangers.iter();
    let strangers = strangers.map(|one| format!("{}, speaks in {}", one.name, counted(one.scenes, "scene")));
    listed(&mut lines, "Not on the board, so not added to any scene", strangers);
    let readings = draft.readings.iter();
    let readings = readings.map(|one| format!("{} is {}", one.name, board.name_of(&one.character)));
    listed(&mut lines, "Taken by a word of the name", readings);
    listed(&mut lines, "Warnings", draft.warnings.iter().map(ToString::to_string));
    Ok(Preview { lines, edit })
}

fn of_table(board: &Board, path: &Path, kind: Kind) -> Result<Preview, String> {
    let grid = Grid::open(path, None).map_err(|error| {
        let hint = error.hint().map(|hint| format!("; {hint}")).unwrap_or_default();
        format!("{}: {error}{hint}", path.display())
    })?;
    let brought = kind.bring(board, &grid);
    if let Some((first, others)) = brought.wrong.split_first() {
        let more = if others.is_empty() { String::new() } else { format!("; and {} more", others.len()) };
        return Err(format!("{first}{more}"));
    }
    let counts = &brought.counts;
    let told = format!(
        "{} of {}: {} new, {} changed, {} as before",
        counted(brought.rows, "row"),
        kind.word(),
        counts.new,
        counts.changed,
        counts.unchanged
    );
    let mut lines = vec![Line::Heading(told)];
    lines.extend(brought.altered(board).iter().flat_map(changes));
    let unused = brought.columns.iter().filter(|column| column.field.is_none() && !column.heading.is_empty());
    listed(&mut lines, "Columns that are not used", unused.map(|column| column.heading.clone()));
    listed(&mut lines, "To be looked at", brought.notices.iter().cloned());
    let edit = brought.edit.unwrap_or_else(|| Edit::new(String::new(), Vec::new()));
    Ok(Preview { lines, edit })
}

/// The changes of a record, a line each; of a new one all in a line.
fn changes(altered: &Altered) -> Vec<Line> {
    if altered.is_new {
        let said = altered.fields.iter().map(|one| format!("{}: {}", one.field, one.becomes));
        let said = said.collect::<Vec<_>>().join(", ");
        return vec![Line::Pair("new".to_owned(), format!("{}: {said}", altered.record))];
    }
    let or_nothing = |text: &str| if text.is_empty() { "—".to_owned() } else { text.to_owned() };
    let line = |one: &AlteredField| {
        let (was, becomes) = (or_nothing(&one.was), or_nothing(&one.becomes));
        Line::Pair("changed".to_owned(), format!("{}, {}: {was} → {becomes}", altered.record, one.field))
    };
    altered.fields.iter().map(line).collect()
}

/// A heading with what stands under it, where there is anything.
fn listed(lines: &mut Vec<Line>, heading: &str, items: impl IntoIterator<Item = String>) {
    let mut items = items.into_iter().map(|item| Line::Pair("·".to_owned(), item)).peekable();
    if items.peek().is_some() {
        lines.extend([Line::Heading(String::new()), Line::Heading(heading.to_owned())]);
        lines.extend(items);
    }
}

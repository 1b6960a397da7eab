//! Characters, threads, periods and looks as tables name them: by id, or by title where only one has it.

use crate::board::{Board, CharacterId, Id, LookId, PeriodId, ThreadId};
use crate::store::nearest::nearest;
use crate::trade::plain::is_unsafe;

/// What a scene's table says of somebody who wears no look yet.
pub const NO_LOOK: &str = "no look yet";

/// The text on one line, with single blanks and without what cannot be seen: two that look the same are the same.
pub(super) fn squeezed(text: &str) -> String {
    let seen: String = text.chars().filter(|c| c.is_whitespace() || !is_unsafe(*c)).collect();
    seen.split_whitespace().collect::<Vec<_>>().join(" ")
}

fn folded(text: &str) -> String {
    squeezed(text).to_lowercase()
}

/// Records of one kind, each with its id and its title.
struct Named<'a, K> {
    kind: &'static str,
    all: Vec<(&'a Id<K>, &'a str)>,
}

impl<'a, K> Named<'a, K> {
    fn find(&self, cell: &str) -> Result<&'a Id<K>, String> {
        if let Some((id, _)) = self.all.iter().find(|(id, _)| id.as_str() == cell) {
            return Ok(id);
        }
        let wanted = folded(cell);
        let mut of_title = self.all.iter().filter(|(_, title)| folded(title) == wanted).map(|(id, _)| *id);
        match (of_title.next(), of_title.next()) {
            (Some(one), None) => Ok(one),
            (Some(one), Some(other)) => Err(format!(
                "`{cell}` is the name of more than one {}: expected an id such as `{one}` or `{other}`",
                self.kind
            )),
            (None, _) => Err(self.unknown(cell)),
        }
    }

    fn unknown(&self, cell: &str) -> String {
        let names = self.all.iter().flat_map(|(id, title)| [id.as_str(), *title]);
        let hint = match (nearest(cell, names), self.all.as_slice()) {
            (Some(near), _) => format!("did you mean `{near}`?"),
            (None, []) => "there is none yet".to_owned(),
            (None, all) => {
                let most = 6;
                let ids: Vec<&str> = all.iter().take(most).map(|(id, _)| id.as_str()).collect();
                let more = if all.len() > most { " …" } else { "" };
                format!("expected one of `{}`{more}", ids.join("`, `"))
            }
        };
        format!("there is no {} `{cell}`: {hint}", self.kind)
    }

    /// The title where it leads back to the record, else the id.
    fn written(&self, id: &Id<K>) -> String {
        let title = self.all.iter().find(|(have, _)| *have == id).map(|(_, title)| squeezed(title));
        title
            .filter(|title| !title.is_empty() && self.find(title).is_ok_and(|found| found == id))
            .unwrap_or_else(|| id.to_string())
    }
}

fn characters(board: &Board) -> Named<'_, crate::board::Character> {
    let all = board.head().characters.iter().map(|one| (&one.id, one.name.as_str())).collect();
    Named { kind: "character", all }
}

fn threads(board: &Board) -> Named<'_, crate::board::Thread> {
    Named {
        kind: "thread",
        all: board.head().threads.iter().map(|one| (&one.id, one.title.as_str())).collect(),
    }
}

fn periods(board: &Board) -> Named<'_, crate::board::Period> {
    Named {
        kind: "period",
        all: board.head().periods.iter().map(|one| (&one.id, one.title.as_str())).collect(),
    }
}

fn looks<'a>(board: &'a Board, of: &CharacterId) -> Named<'a, crate::board::Look> {
    let all = board.records().looks.iter().filter(|(_, look)| look.character == *of);
    Named { kind: "look of theirs", all: all.map(|(id, look)| (id, look.title.as_str())).collect() }
}

pub(super) fn character(board: &Board, cell: &str) -> Result<CharacterId, String> {
    characters(board).find(cell).cloned()
}

pub(super) fn thread(board: &Board, cell: &str) -> Result<ThreadId, String> {
    threads(board).find(cell).cloned()
}

pub(super) fn period(board: &Board, cell: &str) -> Result<PeriodId, String> {
    periods(board).find(cell).cloned()
}

/// A look of this character, or that there is none yet.
pub(super) fn look(board: &Board, of: &CharacterId, cell: &str) -> Result<Option<LookId>, String> {
    let looks = looks(board, of);
    if folded(cell) == NO_LOOK && !looks.all.iter().any(|(id, _)| id.as_str() == cell) {
        return Ok(None);
    }
    looks.find(cell).cloned().map(Some)
}

/// A character as a table names them: the name where it leads back to them, else the id.
pub fn written_character(board: &Board, id: &CharacterId) -> String {
    characters(board).written(id)
}

pub(super) fn written_thread(board: &Board, id: &ThreadId) -> String {
    threads(board).written(id)
}

/// A period as a table names it: the title where it leads back to it, else the id.
pub fn written_period(board: &Board, id: &PeriodId) -> String {
    periods(board).written(id)
}

/// A look as a table names it beside its character: the title where it leads back to it, else the id.
pub fn written_look(board: &Board, of: &CharacterId, id: Option<&LookId>) -> String {
    let Some(id) = id else { return NO_LOOK.to_owned() };
    let title = looks(board, of).written(id);
    if folded(&title) == NO_LOOK { id.to_string() } else { title }
}

#[cfg(test)]
mod tests {
    use serde_json::json;

    use super::*;
    use crate::board::sample::id;
    use crate::check::sample;

    #[test]
    fn a_name_is_an_id_or_a_title_that_only_one_has() {
        let board = sample::board(json!({
            "head": {"characters": [
                {"id": "ada", "name": "Ada"}, {"id": "ben", "name": "Ben"}, {"id": "ben-2", "name": "ben"},
            ]},
            "looks": {"coat": {"title": "No look yet"}, "smock": {"title": " Quay \n smock"}},
        }));
        assert_eq!(character(&board, "ADA").unwrap(), id("ada"));
        assert_eq!(character(&board, "ben").unwrap(), id("ben"));
        assert_eq!(
            character(&board, "Ben").unwrap_err(),
            "`Ben` is the name of more than one character: expected an id such as `ben` or `ben-2`"
        );
        assert_eq!(
            character(&board, "Adda").unwrap_err(),
            "there is no character `Adda`: did you mean `ada`?"
        );
        let ada = id("ada");
        assert_eq!(look(&board, &ada, "quay smock").unwrap(), Some(id("smock")));
        assert_eq!(look(&board, &ada, "No look yet").unwrap(), None);
        assert_eq!(written_look(&board, &ada, Some(&id("coat"))), "coat");
        assert_eq!(written_look(&board, &ada, Some(&id("smock"))), "Quay smock");
        assert_eq!([written_character(&board, &ada), written_character(&board, &id("ben"))], ["Ada", "ben"]);
    }
}

//! Characters, threads, periods and looks as tables name them: by id, by title where only one has it, and a character
//! by a first name that only one bears. Case makes no difference.

use crate::board::id::plain_letter;
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

/// A name in small plain letters, as scripts are read.
fn plain(text: &str) -> String {
    squeezed(text).chars().map(plain_letter).flat_map(char::to_lowercase).collect()
}

/// Records of one kind, each with its id and its title.
struct Named<'a, K> {
    kind: &'static str,
    /// Whether a title is somebody's name.
    is_people: bool,
    all: Vec<(&'a Id<K>, &'a str)>,
}

impl<'a, K> Named<'a, K> {
    fn find(&self, cell: &str) -> Result<&'a Id<K>, String> {
        if let Some((id, _)) = self.all.iter().find(|(id, _)| id.as_str() == cell) {
            return Ok(id);
        }
        let wanted = folded(cell);
        let of_title = |(_, title): &(_, &str)| folded(title) == wanted;
        let of_id = |(id, _): &(&Id<K>, _)| id.as_str() == wanted;
        let first = plain(cell);
        let of_first = |(_, title): &(_, &str)| {
            self.is_people && title.split_whitespace().next().is_some_and(|word| plain(word) == first)
        };
        self.one(cell, of_title)
            .or_else(|| self.one(cell, of_id))
            .or_else(|| self.one(cell, of_first))
            .unwrap_or_else(|| Err(self.unknown(cell)))
    }

    /// The only one that `is` it; an error where there are several, and nothing where there is none.
    fn one(
        &self,
        cell: &str,
        is: impl Fn(&(&'a Id<K>, &'a str)) -> bool,
    ) -> Option<Result<&'a Id<K>, String>> {
        let mut meant = self.all.iter().filter(|one| is(one)).map(|(id, _)| *id);
        match (meant.next(), meant.next()) {
            (Some(one), None) => Some(Ok(one)),
            (Some(one), Some(other)) => Some(Err(format!(
                "`{cell}` is the name of more than one {}: expected an id such as `{one}` or `{other}`",
                self.kind
            ))),
            (None, _) => None,
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
    Named { kind: "character", is_people: true, all }
}

fn threads(board: &Board) -> Named<'_, crate::board::Thread> {
    Named {
        kind: "thread",
        is_people: false,
        all: board.head().threads.iter().map(|one| (&one.id, one.title.as_str())).collect(),
    }
}

fn periods(board: &Board) -> Named<'_, crate::board::Period> {
    Named {
        kind: "period",
        is_people: false,
        all: board.head().periods.iter().map(|one| (&one.id, one.title.as_str())).collect(),
    }
}

fn looks<'a>(board: &'a Board, of: &CharacterId) -> Named<'a, crate::board::Look> {
    let all = board.records().looks.iter().filter(|(_, look)| look.character == *of);
    Named {
        kind: "look of theirs",
        is_people: false,
        all: all.map(|(id, look)| (id, look.title.as_str())).collect(),
    }
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

    #[test]
    fn an_id_or_a_title_in_any_case_and_a_first_name_that_one_alone_bears_are_names() {
        let board = sample::board(json!({
            "head": {
                "characters": [
                    {"id": "odile-maren", "name": "Odile Maren"}, {"id": "bridie", "name": "Bridie Maren"},
                    {"id": "vell", "name": "René Vell"}, {"id": "lund", "name": "Rene Lund"},
                    {"id": "ada", "name": "Ada"}, {"id": "ada-lund", "name": "Ada Lund"},
                ],
                "threads": [{"id": "green-cap", "title": "The green cap"}],
            },
            "looks": {"quay": {"title": "Quay smock", "character": "bridie"}},
        }));
        for name in ["Odile", "ODILE", "Odile-Maren", "odile maren"] {
            assert_eq!(character(&board, name), Ok(id("odile-maren")), "{name}");
        }
        assert_eq!(character(&board, "Ada"), Ok(id("ada")), "a whole name goes before a first one");
        assert_eq!(
            character(&board, "Rene").unwrap_err(),
            "`Rene` is the name of more than one character: expected an id such as `vell` or `lund`"
        );
        assert!(character(&board, "Maren").is_err(), "two bear it, and it is no first name");
        assert_eq!(
            [thread(&board, "THE GREEN CAP"), thread(&board, "Green-Cap")],
            [Ok(id("green-cap")), Ok(id("green-cap"))]
        );
        assert!(thread(&board, "The").is_err());
        assert_eq!(look(&board, &id("bridie"), "QUAY").unwrap(), Some(id("quay")));
    }
}

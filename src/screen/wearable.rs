//! What can be written on outfits and looks alike: pieces, threads and dressing notes.
//!
//! Each asks what it must know by a layer and makes one edit. A list's item is found again by what it said when the
//! question was asked, since another hand may have changed the list meanwhile.

use super::app::App;
use super::layers::{Field, Form, Item, Pick};
use crate::board::{Board, Edit, LookId, OutfitId, Piece, Refused, ThreadId};
use crate::trade::colour::Colour;

/// An outfit or a look.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum Wearable {
    /// An outfit.
    Outfit(OutfitId),
    /// A look.
    Look(LookId),
}

/// What outfits and looks share, to be changed.
pub(super) struct Parts<'a> {
    pub pieces: &'a mut Vec<Piece>,
    pub threads: &'a mut Vec<ThreadId>,
    pub dressing: &'a mut Vec<String>,
}

/// What outfits and looks share, to be read.
#[derive(Clone, Copy)]
pub(super) struct Shared<'a> {
    pub title: &'a str,
    pub pieces: &'a [Piece],
    pub threads: &'a [ThreadId],
    pub dressing: &'a [String],
}

impl Wearable {
    /// What it has, where it is there.
    pub fn of<'a>(&self, board: &'a Board) -> Option<Shared<'a>> {
        Some(match self {
            Self::Outfit(id) => {
                let outfit = board.outfit(id)?;
                Shared {
                    title: &outfit.title,
                    pieces: &outfit.pieces,
                    threads: &outfit.threads,
                    dressing: &outfit.dressing,
                }
            }
            Self::Look(id) => {
                let look = board.look(id)?;
                Shared {
                    title: &look.title,
                    pieces: &look.pieces,
                    threads: &look.threads,
                    dressing: &look.dressing,
                }
            }
        })
    }

    /// Changes what outfits and looks share.
    pub fn change(
        &self,
        board: &Board,
        label: String,
        change: impl FnOnce(Parts<'_>),
    ) -> Result<Edit, Refused> {
        match self {
            Self::Outfit(id) => board.change_outfit(id, label, |outfit| {
                change(Parts {
                    pieces: &mut outfit.pieces,
                    threads: &mut outfit.threads,
                    dressing: &mut outfit.dressing,
                });
            }),
            Self::Look(id) => board.change_look(id, label, |look| {
                change(Parts {
                    pieces: &mut look.pieces,
                    threads: &mut look.threads,
                    dressing: &mut look.dressing,
                });
            }),
        }
    }
}

impl App {
    /// Writes a piece, or changes the one at `at`.
    pub(super) fn write_piece(&mut self, of: Wearable, at: Option<usize>) {
        let Some(shared) = of.of(self.board()) else { return };
        let was = at.and_then(|at| shared.pieces.get(at)).cloned();
        let now = was.clone().unwrap_or_default();
        let colours: Vec<String> = now.colours.iter().map(ToString::to_string).collect();
        let fields = vec![
            Field::line("piece", now.name),
            Field::line("cloth", now.cloth),
            Field::line("colours", colours.join(", ")).read_as(|text| {
                let read = colours_of(text)?;
                Ok(match read.len() {
                    0 => "CSS names or hex, the main one first, with commas".to_owned(),
                    1 => "one colour".to_owned(),
                    count => format!("{count} colours"),
                })
            }),
            Field::line("details", now.details.join("; ")).read_as(|text| Ok(counted(text, "detail"))),
        ];
        let form = Form::new(format!("Piece of {}", shared.title), fields, move |app, filled| {
            let [name, cloth, colours, details] = filled else { return Ok(()) };
            if name.text().is_empty() {
                return Err("say what it is".to_owned());
            }
            let piece = Piece {
                name: name.text().to_owned(),
                cloth: cloth.text().to_owned(),
                colours: colours_of(colours.text())?,
                details: list_of(details.text()),
            };
            let was = was.clone();
            let label = format!("{}: {}", app.wearable_title(&of), piece.name);
            let edit = match &of {
                Wearable::Outfit(id) => {
                    app.board().change_outfit(id, label, |outfit| outfit.put_piece(was.as_ref(), piece))
                }
                Wearable::Look(id) => {
                    app.board().change_look(id, label, |look| look.put_piece(was.as_ref(), piece))
                }
            };
            app.change(edit);
            Ok(())
        });
        self.open_layer(form);
    }

    /// Writes a dressing note, or changes the one at `at`; an empty one is taken away.
    pub(super) fn write_dressing(&mut self, of: Wearable, at: Option<usize>) {
        let Some(shared) = of.of(self.board()) else { return };
        let was = at.and_then(|at| shared.dressing.get(at)).cloned();
        let title = format!("How {} is worn", shared.title);
        let fields = vec![Field::line("note", was.clone().unwrap_or_default())];
        self.open_layer(Form::new(title, fields, move |app, filled| {
            let note = filled.first().map_or("", |filled| filled.text()).to_owned();
            let label = format!(
                "{}: {}",
                app.wearable_title(&of),
                if note.is_empty() { "note taken away" } else { &note }
            );
            let edit = of.change(app.board(), label, |parts| match (was.as_ref(), note.is_empty()) {
                (Some(was), true) => parts.dressing.retain(|have| have != was),
                (None, true) => {}
                (was, false) => put(parts.dressing, was, note),
            });
            app.change(edit);
            Ok(())
        }));
    }

    /// Chooses the threads that it carries, one after the other.
    pub(super) fn choose_threads(&mut self, of: Wearable, at: usize) {
        let board = self.board();
        let Some(shared) = of.of(board) else { return };
        let threads = &board.head().threads;
        if threads.is_empty() {
            return self.warn("the board has no threads yet: Y opens board.yaml");
        }
        let items = threads.iter().map(|thread| {
            let carried = shared.threads.contains(&thread.id);
            Item::new(&thread.title, &thread.says).marked(if carried { "✓" } else { " " })
        });
        let items = items.collect();
        let ids: Vec<ThreadId> = threads.iter().map(|thread| thread.id.clone()).collect();
        let lead = vec!["Enter takes one on or off; esc when done.".to_owned()];
        let pick = Pick::question(format!("Threads of {}", shared.title), lead, items, move |app, chosen| {
            let Some(id) = ids.get(chosen) else { return };
            app.toggle_thread(&of, id);
            app.choose_threads(of, chosen);
        });
        self.open_layer(pick.at(at));
    }

    /// Takes a thread on or off.
    pub(super) fn toggle_thread(&mut self, of: &Wearable, id: &ThreadId) {
        let board = self.board();
        let name = board.thread(id).map_or(id.as_str(), |thread| &thread.title);
        let carried = of.of(board).is_some_and(|shared| shared.threads.contains(id));
        let title = self.wearable_title(of);
        let label =
            if carried { format!("{title} without {name}") } else { format!("{title} carries {name}") };
        let edit = of.change(board, label, |parts| {
            if carried {
                parts.threads.retain(|have| have != id);
            } else {
                parts.threads.push(id.clone());
            }
        });
        self.change(edit);
    }

    /// Takes a piece away.
    pub(super) fn drop_piece(&mut self, of: &Wearable, at: usize) {
        let Some(piece) = of.of(self.board()).and_then(|shared| shared.pieces.get(at)) else { return };
        let label = format!("{} without {}", self.wearable_title(of), piece.name);
        let edit = of.change(self.board(), label, |parts| drop(parts.pieces.remove(at)));
        self.change(edit);
    }

    /// Takes a dressing note away.
    pub(super) fn drop_dressing(&mut self, of: &Wearable, at: usize) {
        let Some(note) = of.of(self.board()).and_then(|shared| shared.dressing.get(at)) else { return };
        let label = format!("{}: no longer {note}", self.wearable_title(of));
        let edit = of.change(self.board(), label, |parts| drop(parts.dressing.remove(at)));
        self.change(edit);
    }

    fn wearable_title(&self, of: &Wearable) -> String {
        of.of(self.board()).map_or(String::new(), |shared| shared.title.to_owned())
    }
}

/// Puts an item where `was` stands, or at the end.
fn put<T: PartialEq>(list: &mut Vec<T>, was: Option<&T>, item: T) {
    match list.iter_mut().find(|have| Some(&**have) == was) {
        Some(have) => *have = item,
        None => list.push(item),
    }
}

/// A piece in one line: cloth and details.
pub(super) fn piece_words(piece: &Piece) -> String {
    let mut words = piece.name.clone();
    if !piece.cloth.is_empty() {
        words.push_str(", ");
        words.push_str(&piece.cloth);
    }
    if !piece.details.is_empty() {
        words.push_str(": ");
        words.push_str(&piece.details.join("; "));
    }
    words
}

/// Colours with commas between them.
pub(super) fn colours_of(text: &str) -> Result<Vec<Colour>, String> {
    let names = text.split(',').map(str::trim).filter(|name| !name.is_empty());
    names.map(|name| name.parse::<Colour>().map_err(|error| error.to_string())).collect()
}

/// Items with semicolons between them.
pub(super) fn list_of(text: &str) -> Vec<String> {
    text.split(';').map(str::trim).filter(|item| !item.is_empty()).map(str::to_owned).collect()
}

/// How many items there are with semicolons between them, in words.
pub(super) fn counted(text: &str, one: &str) -> String {
    match list_of(text).len() {
        0 => "several with semicolons between them".to_owned(),
        1 => format!("one {one}"),
        count => format!("{count} {one}s"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn colours_read_with_commas_and_say_which_is_none() {
        assert_eq!(colours_of("black, #e8e0d0,").unwrap().len(), 2);
        assert!(colours_of("black, blakc").unwrap_err().contains("blakc"));
        assert_eq!(colours_of("  "), Ok(Vec::new()));
    }

    #[test]
    fn an_item_is_put_where_the_old_one_stands_even_when_it_moved() {
        let mut list = vec!["new", "collar", "cuff"];
        put(&mut list, Some(&"collar"), "collar up");
        assert_eq!(list, ["new", "collar up", "cuff"]);
        put(&mut list, Some(&"gone meanwhile"), "hem");
        put(&mut list, None, "belt");
        assert_eq!(list, ["new", "collar up", "cuff", "hem", "belt"]);
    }
}

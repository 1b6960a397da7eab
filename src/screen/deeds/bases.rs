//! Which outfits a look stands for: its base, and those that are folded into it.

use super::words::days_apart;
use super::{apart_words, outfit_words};
use crate::board::{Board, LookId, OutfitId, Standing};
use crate::screen::app::App;
use crate::screen::layers::{Item, Pick};

impl App {
    /// Chooses the base among a look's outfits; for an invented look, among its character's.
    pub fn choose_base(&mut self, id: LookId) {
        let board = self.board();
        let Some(look) = board.look(&id) else { return };
        let title = &look.title;
        if look.base.is_none() {
            let (outfits, items) = candidates(board, &id);
            let pick = Pick::new(format!("{title} interprets"), items, move |app, at| {
                let edit = app.board().give_base(&id, &outfits[at]);
                app.change(edit);
            });
            return self.open_unless_empty(pick);
        }
        if look.folded.is_empty() {
            let words =
                format!("its base is all that {title} stands for: f on the wall folds others into it");
            return self.say(words);
        }
        let outfits: Vec<OutfitId> = look.outfits().cloned().collect();
        let items = outfits.iter().map(|outfit| {
            let known = board.outfit(outfit).map_or(0, |outfit| outfit.recognition.get());
            let now = look.base.as_ref() == Some(outfit);
            let note = if now { "the base now".to_owned() } else { format!("recognition {known}") };
            Item::new(outfit_words(board, outfit), note)
        });
        let items = items.collect();
        self.open_layer(Pick::new(format!("Base of {title}"), items, move |app, at| {
            let edit = app.board().set_base(&outfits[at]);
            app.change(edit);
        }));
    }

    /// Folds an outfit of its character into a look, after asking which.
    pub fn choose_folded(&mut self, id: LookId) {
        let board = self.board();
        let Some(look) = board.look(&id) else { return };
        let (outfits, items) = candidates(board, &id);
        let pick = Pick::new(format!("Fold into {}", look.title), items, move |app, at| {
            let edit = app.board().fold(&[outfits[at].clone()], &id);
            app.change(edit);
        });
        self.open_unless_empty(pick);
    }

    fn open_unless_empty(&mut self, pick: Pick) {
        if pick.is_empty() {
            return self.warn("there is no other outfit of this character");
        }
        self.open_layer(pick);
    }
}

/// The outfits that a look could take: open ones first, then those in other looks, then those let go; each
/// by how near in time they are.
fn candidates(board: &Board, id: &LookId) -> (Vec<OutfitId>, Vec<Item>) {
    let Some(look) = board.look(id) else { return (Vec::new(), Vec::new()) };
    let day = board.day_of_look(look);
    let mut found: Vec<(u8, i64, OutfitId, Item)> = Vec::new();
    for outfit_id in board.relations().outfits_by_date() {
        let Some(outfit) = board.outfit(outfit_id) else { continue };
        if outfit.character != look.character {
            continue;
        }
        let (rank, mark, note) = match board.standing(outfit_id) {
            Standing::Folded(holder) if holder == id => continue,
            Standing::Open => (0, "○", String::new()),
            Standing::Folded(holder) => {
                let holder = board.look(holder);
                let mark = holder.map_or("≈", |holder| holder.treatment.mark());
                (1, mark, holder.map_or(String::new(), |holder| format!("now in {}", holder.title)))
            }
            Standing::LetGo(reason) => (2, "×", format!("let go: {reason}")),
        };
        let own = outfit.worn.as_ref().and_then(|date| date.middle());
        let apart = days_apart(day, own);
        let near = apart.map_or(String::new(), apart_words);
        let note = if note.is_empty() { near } else { note };
        let item = Item::new(outfit_words(board, outfit_id), note).marked(mark);
        found.push((rank, apart.unwrap_or(i64::MAX), outfit_id.clone(), item));
    }
    found.sort_by_key(|(rank, apart, ..)| (*rank, *apart));
    found.into_iter().map(|(_, _, id, item)| (id, item)).unzip()
}

#[cfg(test)]
mod tests {
    use crate::screen::actions::Act;
    use crate::screen::trial::Trial;
    use crate::screen::views::Target;

    #[test]
    fn an_invented_look_is_given_a_base_from_the_wall_too() {
        let mut trial = Trial::small();
        trial.app.focus(&Target::Look("swim".parse().unwrap()));
        trial.app.perform(Act::Base);
        let screen = trial.screen((100, 30));
        assert!(screen.contains("Night swim interprets"), "{screen}");
        trial.keys("enter");
        assert_eq!(trial.look("swim").base, Some("blackout-coat".parse().unwrap()), "the open one is first");
    }
}

//! Which of the wall's actions do anything to what is in focus, so that the footer offers those and no others.

use super::{Entry, Wall};
use crate::board::{Board, Standing};
use crate::screen::actions::Act;

/// What the keys would act on.
enum State {
    /// Marked outfits.
    Marks,
    /// An open outfit.
    Open,
    /// An outfit in a look, and whether it is the look's base.
    Folded { is_base: bool },
    /// An outfit that was let go.
    LetGo,
    /// A look.
    Look,
    /// Nothing.
    Nothing,
}

impl Wall {
    /// Whether an action is worth offering as things stand.
    pub fn offers(&self, board: &Board, act: Act) -> bool {
        let state = self.state(board);
        let outfit = matches!(self.focus, Some(Entry::Outfit(_)));
        match act {
            Act::Mark => outfit,
            Act::Gather | Act::Fold | Act::LetGo => matches!(state, State::Marks | State::Open),
            Act::Release => matches!(state, State::Folded { .. }),
            Act::Base => matches!(state, State::Look | State::Folded { is_base: false }),
            Act::TakeBack => matches!(state, State::LetGo),
            Act::Treatment | Act::Departure | Act::AssignLook => {
                matches!(state, State::Look | State::Folded { .. })
            }
            Act::Merge => matches!(state, State::Look),
            Act::Sheet | Act::Rename => !matches!(state, State::Nothing),
            _ => true,
        }
    }

    fn state(&self, board: &Board) -> State {
        if !self.marks.is_empty() {
            return State::Marks;
        }
        match &self.focus {
            Some(Entry::Outfit(id)) => match board.standing(id) {
                Standing::Open => State::Open,
                Standing::LetGo(_) => State::LetGo,
                Standing::Folded(look) => {
                    let base = board.look(look).and_then(|look| look.base.as_ref());
                    State::Folded { is_base: base == Some(id) }
                }
            },
            Some(Entry::Look(_)) => State::Look,
            None => State::Nothing,
        }
    }
}

#[cfg(test)]
mod tests {
    use crate::board::{Change, Edit, Standing, Swap};
    use crate::screen::trial::{Trial, small};
    use crate::screen::views::Target;

    const SIZE: (u16, u16) = (80, 24);

    /// The last line of the screen, where the keys are offered.
    fn keys(trial: &mut Trial) -> String {
        trial.screen(SIZE).lines().last().unwrap_or_default().to_owned()
    }

    fn offers(trial: &mut Trial, offered: &[&str], not: &[&str]) {
        let keys = keys(trial);
        for key in offered {
            assert!(keys.contains(key), "{key} in `{keys}`");
        }
        for key in not {
            assert!(!keys.contains(key), "no {key} in `{keys}`");
        }
    }

    #[test]
    fn at_80_columns_the_footer_offers_what_can_be_done_to_what_is_in_focus() {
        let mut trial = Trial::demo();
        trial.screen(SIZE);
        trial.keys("o");
        let gather = ["space mark", "g gather", "f fold", "x let go", "enter sheet", "o next open"];
        offers(&mut trial, &gather, &["r release", "X take back", "t treatment"]);
        trial.keys("tab");
        let look = ["t treatment", "d departure", "a to scene", "m merge", "enter sheet", "o next open"];
        offers(&mut trial, &look, &["space mark", "g gather", "x let go"]);
        trial.keys("tab");
        let first = |trial: &Trial, wanted: fn(&Standing<'_>) -> bool| {
            let board = trial.app.board();
            let fits = board.relations().outfits_by_date().iter().find(|id| wanted(&board.standing(id)));
            Target::Outfit(fits.cloned().expect("an outfit of that standing"))
        };
        let folded = first(&trial, |standing| matches!(standing, Standing::Folded(_)));
        trial.app.focus(&folded);
        offers(&mut trial, &["r release", "enter sheet", "o next open"], &["g gather", "X take back"]);
        let let_go = first(&trial, |standing| matches!(standing, Standing::LetGo(_)));
        trial.app.focus(&let_go);
        offers(&mut trial, &["X take back", "enter sheet"], &["r release", "x let go"]);
        trial.keys("space");
        offers(&mut trial, &["g gather", "f fold"], &["X take back"]);
    }

    #[test]
    fn what_is_marked_is_said_to_be_marked() {
        let mut trial = Trial::demo();
        trial.screen((120, 40));
        trial.keys("o");
        assert!(trial.screen((120, 40)).contains("open: space marks it"));
        trial.keys("space");
        let screen = trial.screen((120, 40));
        assert!(screen.contains("marked: g gathers it") && !screen.contains("space marks it"), "{screen}");
    }

    #[test]
    fn where_the_outfit_in_focus_is_taken_away_outside_its_neighbour_is_in_focus() {
        let mut trial = Trial::demo();
        trial.screen(SIZE);
        let order = trial.app.board().relations().outfits_by_date().to_vec();
        let (gone, next) = (&order[40], &order[41]);
        trial.app.focus(&Target::Outfit(gone.clone()));
        trial.screen(SIZE);
        let was = trial.app.board().records().outfits.get(gone).cloned();
        let mut changes = vec![Change::Outfit(gone.clone(), Swap::new(was, None))];
        for look in trial.app.board().relations().looks_of(gone) {
            let was = trial.app.board().records().looks.get(look).cloned();
            let mut now = was.as_deref().cloned().expect("the look is there");
            now.folded.retain(|id| id != gone);
            now.base = now.base.filter(|id| id != gone);
            changes.push(Change::Look(look.clone(), Swap::new(was, Some(now.into()))));
        }
        let applied = trial.app.open.edit(&Edit::new("gone", changes));
        assert!(applied.is_ok(), "{applied:?}");
        trial.app.version += 1;
        trial.screen(SIZE);
        let Some(Target::Outfit(now)) = trial.app.focused() else { panic!("an outfit is in focus") };
        let board = trial.app.board();
        let period = |id| board.relations().period_of_outfit(id).cloned();
        assert!(now == *next || period(&now) == period(&order[39]), "{now} after {gone}");
        assert_ne!(now, order[0]);
    }

    #[test]
    fn folded_up_and_opened_again_the_focus_moves_on_with_the_arrows() {
        let mut trial = Trial::demo();
        trial.screen(SIZE);
        trial.keys("right right right");
        trial.screen(SIZE);
        trial.keys("z");
        trial.screen(SIZE);
        assert!(matches!(trial.app.focused(), Some(Target::Look(_))), "folded up, a look stands there");
        trial.keys("z");
        trial.screen(SIZE);
        let opened = trial.app.focused();
        assert!(matches!(opened, Some(Target::Outfit(_))), "opened, one of its outfits");
        trial.keys("right");
        assert_ne!(trial.app.focused(), opened);
    }

    #[test]
    fn a_board_with_nothing_on_it_shows_no_year_and_says_how_to_begin() {
        let mut files = small();
        files.retain(|(name, _)| name == "board.yaml");
        files[0].1 = serde_json::json!({
            "shirr": 1, "id": "blank", "title": "Blank", "periods": [], "characters": [],
        });
        let mut trial = Trial::on(&files);
        let screen = trial.screen(SIZE);
        assert!(!screen.contains("1970") && !screen.contains("/ ·"), "{screen}");
        assert!(screen.contains("Y opens board.yaml"), "{screen}");
        trial.keys("N");
        assert!(trial.app.said.text.contains("Y opens board.yaml"), "{}", trial.app.said.text);
        trial.keys("Y");
        assert!(trial.app.errand.is_some());
    }
}

//! The order of a character's looks.
//!
//! A look's place is a number between those of its neighbours, in steps of ten, so that putting one in or moving it
//! changes as few records as can be; all are numbered anew only where there is no room left.

use super::draft::{Draft, unfit};
use super::{Board, CharacterId, Edit, Look, LookId, OutfitId, Refused};
use crate::trade::date::Day;

const STEP: i64 = 10;

impl Board {
    /// A character's looks, in their order.
    pub fn looks_of_character(&self, character: &CharacterId) -> Vec<LookId> {
        let own = |id: &&LookId| self.look(id).is_some_and(|look| look.character == *character);
        self.relations().looks_by_order().iter().filter(own).cloned().collect()
    }

    /// The day on which a look's base was worn, for placing it on the wall. Where the base is undated, that of the
    /// first folded outfit that is dated; where none is, the first day of the look's own period.
    pub fn day_of_look(&self, look: &Look) -> Option<Day> {
        let of = |outfit: &OutfitId| self.outfit(outfit)?.worn.as_ref()?.middle();
        look.outfits().find_map(of).or_else(|| self.period(look.period.as_ref()?)?.span.earliest())
    }

    /// Moves a look so many places down among its character's looks, up where `by` is negative.
    ///
    /// # Errors
    /// When there is no such look, or the list ends before.
    pub fn reorder(&self, id: &LookId, by: isize) -> Result<Edit, Refused> {
        let look = self.look(id).ok_or_else(|| unfit(format!("there is no look `{id}`")))?;
        let mut list = self.looks_of_character(&look.character);
        let orders: Vec<i64> = list.iter().filter_map(|id| self.look(id)).map(|look| look.order).collect();
        let at = list.iter().position(|have| have == id).unwrap_or_default();
        let to = at.checked_add_signed(by).filter(|to| *to < list.len());
        let to = to.ok_or_else(|| unfit("it is at the end of the list"))?;
        let own = list.remove(at);
        list.insert(to, own);
        let mut draft = Draft::new(self);
        if orders.is_sorted_by(|one, next| one < next) {
            for (id, order) in list.iter().zip(orders) {
                draft.look(id)?.order = order;
            }
        } else {
            number_anew(&mut draft, &list)?;
        }
        Ok(draft.finish(format!("moved {}", look.title)))
    }

    /// Puts a new look where its day belongs among its character's looks.
    pub(super) fn put_in_order(
        &self,
        draft: &mut Draft<'_>,
        id: LookId,
        mut look: Look,
    ) -> Result<(), Refused> {
        let day = self.day_of_look(&look);
        let mut list = self.looks_of_character(&look.character);
        list.retain(|have| draft.look_so_far(have).is_some());
        let later = |have: &LookId| draft.look_so_far(have).and_then(|look| self.day_of_look(look)) > day;
        let at = list.iter().position(later).filter(|_| day.is_some()).unwrap_or(list.len());
        let order = |at: usize| list.get(at).and_then(|id| draft.look_so_far(id)).map(|look| look.order);
        let before = at.checked_sub(1).and_then(order);
        let after = order(at);
        look.order = match (before, after) {
            (None, None) => STEP,
            (Some(before), None) => before.saturating_add(STEP),
            (None, Some(after)) => after.saturating_sub(STEP),
            (Some(before), Some(after)) => before.midpoint(after),
        };
        let tight = before == Some(look.order) || after == Some(look.order);
        draft.add_look(id.clone(), look);
        if tight {
            list.insert(at, id);
            number_anew(draft, &list)?;
        }
        Ok(())
    }
}

fn number_anew(draft: &mut Draft<'_>, list: &[LookId]) -> Result<(), Refused> {
    for (place, id) in (1..).zip(list) {
        draft.look(id)?.order = place * STEP;
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use std::sync::Arc;

    use super::super::sample::{after, board, id, ids, records, refusal};
    use super::*;
    use crate::board::Treatment;

    /// The sample, with looks of Odile in these places.
    fn with_orders(orders: &[(&str, i64)]) -> Board {
        let mut records = records();
        for (name, order) in orders {
            let look = Look::sketched(name, id("odile"), Treatment::Invent);
            records.looks.insert(id(name), Arc::new(Look { order: *order, ..look }));
        }
        Board::new(records)
    }

    fn order(board: &Board) -> Vec<(String, i64)> {
        let looks = board.looks_of_character(&id("odile"));
        looks.iter().map(|id| (id.to_string(), board.look(id).unwrap().order)).collect()
    }

    fn named(order: &[(&str, i64)]) -> Vec<(String, i64)> {
        order.iter().map(|(name, order)| ((*name).to_owned(), *order)).collect()
    }

    fn gather_one(board: &Board, outfit: &str) -> Edit {
        board.gather(&ids(&[outfit]), "New", &id(outfit), Treatment::Copy).unwrap().1
    }

    #[test]
    fn a_new_look_stands_where_its_day_belongs() {
        for (outfit, expected) in [
            ("smock", [("new", 0), ("club", 10), ("gown", 20)]),
            ("club-serge", [("new", 0), ("club", 10), ("gown", 20)]),
            ("crossing-wool", [("club", 10), ("new", 15), ("gown", 20)]),
            ("blackout-coat", [("club", 10), ("gown", 20), ("new", 30)]),
        ] {
            assert_eq!(order(&after(&gather_one(&board(), outfit))), named(&expected), "{outfit}");
        }
    }

    #[test]
    fn a_look_of_no_day_stands_last_and_an_invented_one_where_its_period_begins() {
        let invent = |period| after(&board().invent("New", &id("odile"), period).unwrap().1);
        assert_eq!(order(&invent(None))[2], ("new".to_owned(), 30));
        assert_eq!(order(&invent(Some(&id("shore"))))[0], ("new".to_owned(), 0));
    }

    #[test]
    fn looks_are_numbered_anew_only_where_there_is_no_room() {
        let mut board = with_orders(&[]);
        board.apply(&board.change_look(&id("gown"), "", |look| look.order = 11).unwrap()).unwrap();
        board.apply(&gather_one(&board, "crossing-wool")).unwrap();
        assert_eq!(order(&board), named(&[("club", 10), ("new", 20), ("gown", 30)]));
    }

    #[test]
    fn a_look_that_the_gathering_itself_empties_is_not_numbered() {
        let mut board = with_orders(&[]);
        board.apply(&board.gather(&ids(&["smock"]), "A", &id("smock"), Treatment::Copy).unwrap().1).unwrap();
        for (look, order) in [("a", 9), ("club", 10), ("gown", 10)] {
            board.apply(&board.change_look(&id(look), "", |look| look.order = order).unwrap()).unwrap();
        }
        let marked = ids(&["crossing-wool", "smock"]);
        let (_, edit) = board.gather(&marked, "New", &marked[0], Treatment::Copy).unwrap();
        board.apply(&edit).unwrap();
        assert_eq!(order(&board), named(&[("club", 10), ("new", 20), ("gown", 30)]));
    }

    #[test]
    fn the_ends_of_the_numbers_are_no_end_of_the_list() {
        let mut board = with_orders(&[("first", i64::MIN), ("last", i64::MAX)]);
        board.apply(&board.invent("New", &id("odile"), None).unwrap().1).unwrap();
        let names = ["first", "club", "gown", "last", "new"];
        let expected: Vec<_> = names.into_iter().zip([10, 20, 30, 40, 50]).collect();
        assert_eq!(order(&board), named(&expected));
        let mut board = with_orders(&[("first", i64::MIN), ("last", i64::MAX)]);
        board.apply(&board.reorder(&id("last"), -3).unwrap()).unwrap();
        assert_eq!(
            order(&board),
            named(&[("last", i64::MIN), ("first", 10), ("club", 20), ("gown", i64::MAX)])
        );
    }

    #[test]
    fn moving_a_look_changes_only_the_places_between() {
        let mut board = with_orders(&[("third", 35), ("fourth", 40)]);
        let edit = board.reorder(&id("gown"), 1).unwrap();
        assert_eq!((edit.label.as_str(), edit.changes.len()), ("moved Gown", 2));
        board.apply(&edit).unwrap();
        assert_eq!(order(&board), named(&[("club", 10), ("third", 20), ("gown", 35), ("fourth", 40)]));
        board.apply(&board.reorder(&id("fourth"), -3).unwrap()).unwrap();
        assert_eq!(order(&board), named(&[("fourth", 10), ("club", 20), ("third", 35), ("gown", 40)]));
    }

    #[test]
    fn looks_in_one_place_are_told_apart_by_moving_one() {
        let mut board = with_orders(&[("twin", 20)]);
        board.apply(&board.reorder(&id("twin"), -1).unwrap()).unwrap();
        assert_eq!(order(&board), named(&[("club", 10), ("twin", 20), ("gown", 30)]));
    }

    #[test]
    fn a_look_does_not_move_past_the_end() {
        for (look, by) in [("club", -1), ("gown", 1), ("club", 2), ("club", isize::MIN), ("gown", isize::MAX)]
        {
            assert_eq!(
                refusal(board().reorder(&id(look), by)),
                "it is at the end of the list",
                "{look} {by}"
            );
        }
        assert_eq!(refusal(board().reorder(&id("nothing"), 1)), "there is no look `nothing`");
        assert!(board().reorder(&id("club"), 0).unwrap().is_empty());
    }
}

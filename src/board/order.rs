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

//! The counter: looks used and allowed, overall, per character and per period; and raising what is allowed.

use super::draft::unfit;
use super::{Board, Edit, LookId, Raise, Refused, Scope};
use crate::trade::date::Date;

/// Looks used against a limit.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Count {
    /// Looks that there are.
    pub used: u32,
    /// Looks that there may be, where somebody said.
    pub limit: Option<u32>,
}

impl Count {
    /// Looks over the limit.
    pub fn over(self) -> u32 {
        self.limit.map_or(0, |limit| self.used.saturating_sub(limit))
    }

    /// In words: `3 left`, `full`, `2 over`, `no limit`.
    pub fn words(self) -> String {
        match self.limit {
            None => "no limit".to_owned(),
            Some(limit) if self.used > limit => format!("{} over", self.used - limit),
            Some(limit) if self.used == limit => "full".to_owned(),
            Some(limit) => format!("{} left", limit - self.used),
        }
    }

    /// What stands between its numbers and its words: numbers without a limit would run into `no limit`.
    pub fn joint(self) -> &'static str {
        if self.limit.is_some() { " " } else { ", " }
    }

    /// In numbers: `12/14`, or `12` without a limit.
    pub fn numbers(self) -> String {
        match self.limit {
            Some(limit) => format!("{}/{limit}", self.used),
            None => self.used.to_string(),
        }
    }
}

impl Board {
    /// Whether a look counts in a scope.
    pub fn counts_in(&self, look: &LookId, scope: &Scope) -> bool {
        match scope {
            Scope::Overall => true,
            Scope::Character(id) => self.look(look).is_some_and(|look| look.character == *id),
            Scope::Period(id) => self.relations().period_of_look(look) == Some(id),
        }
    }

    /// Looks used and allowed in a scope.
    pub fn count(&self, scope: &Scope) -> Count {
        let used = self.records().looks.keys().filter(|look| self.counts_in(look, scope)).count();
        Count { used: u32::try_from(used).unwrap_or(u32::MAX), limit: self.head().budget.limit(scope) }
    }

    /// Every scope that has a limit, the widest first.
    pub fn limited_scopes(&self) -> Vec<Scope> {
        let budget = &self.head().budget;
        let overall = budget.looks.map(|_| Scope::Overall);
        let characters = budget.characters.keys().cloned().map(Scope::Character);
        let periods = budget.periods.keys().cloned().map(Scope::Period);
        overall.into_iter().chain(characters).chain(periods).collect()
    }

    /// The limits that `edit` would pass: those with more looks after it than before, and more than are allowed.
    ///
    /// # Errors
    /// As [`Board::apply`], when the edit would not be taken at all.
    pub fn limits_passed_by(&self, edit: &Edit) -> Result<Vec<(Scope, Count)>, Refused> {
        let mut after = self.clone();
        after.apply(edit)?;
        let passed = self.limited_scopes().into_iter().filter_map(|scope| {
            let count = after.count(&scope);
            (count.over() > 0 && count.used > self.count(&scope).used).then_some((scope, count))
        });
        Ok(passed.collect())
    }

    /// Raises a limit, on the record.
    ///
    /// # Errors
    /// When the reason is empty, or the limit is not below `to`.
    pub fn raise_limit(&self, scope: &Scope, to: u32, why: &str, on: Date) -> Result<Edit, Refused> {
        let why = why.trim();
        if why.is_empty() {
            return Err(unfit("say why the limit is raised"));
        }
        let from = self.head().budget.limit(scope).ok_or_else(|| unfit("there is no limit to raise"))?;
        if to <= from {
            return Err(unfit(format!("the limit is {from} already")));
        }
        let label = format!("limit {} raised to {to}", self.scope_name(scope));
        Ok(self.change_head(label, |head| {
            match scope {
                Scope::Overall => head.budget.looks = Some(to),
                Scope::Character(id) => head.budget.characters.set(id.clone(), to),
                Scope::Period(id) => head.budget.periods.set(id.clone(), to),
            }
            head.budget.raised.push(Raise { on, limit: scope.clone(), from, to, why: why.to_owned() });
        }))
    }

    /// A scope in the board's own words.
    pub fn scope_name(&self, scope: &Scope) -> String {
        match scope {
            Scope::Overall => "overall".to_owned(),
            Scope::Character(id) => self.name_of(id).to_owned(),
            Scope::Period(id) => self.title_of(id).to_owned(),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::sample::{after, board, id, ids, refusal};
    use super::*;
    use crate::board::Treatment;

    fn odile() -> Scope {
        Scope::Character(id("odile"))
    }

    fn races() -> Scope {
        Scope::Period(id("races"))
    }

    #[test]
    fn looks_are_counted_overall_per_character_and_per_period() {
        let numbers = |scope: Scope| board().count(&scope).numbers();
        assert_eq!(numbers(Scope::Overall), "3/4");
        assert_eq!(numbers(odile()), "2/3");
        assert_eq!(numbers(races()), "2/2");
        assert_eq!(numbers(Scope::Period(id("war"))), "1");
        assert_eq!(numbers(Scope::Character(id("nobody"))), "0");
        assert_eq!(board().limited_scopes(), [Scope::Overall, odile(), races()]);
    }

    #[test]
    fn a_count_is_said_in_words() {
        for (used, limit, words, over) in [
            (2, Some(5), "3 left", 0),
            (5, Some(5), "full", 0),
            (7, Some(5), "2 over", 2),
            (7, None, "no limit", 0),
            (0, Some(0), "full", 0),
        ] {
            let count = Count { used, limit };
            assert_eq!((count.words().as_str(), count.over()), (words, over));
        }
        let all = |count: Count| format!("{}{}{}", count.numbers(), count.joint(), count.words());
        assert_eq!(all(Count { used: 0, limit: None }), "0, no limit");
        assert_eq!(all(Count { used: 2, limit: Some(5) }), "2/5 3 left");
    }

    #[test]
    fn a_scope_is_named_in_the_boards_words() {
        let board = board();
        assert_eq!(board.scope_name(&Scope::Overall), "overall");
        assert_eq!(board.scope_name(&odile()), "Odile");
        assert_eq!(board.scope_name(&races()), "The races");
        assert_eq!(board.scope_name(&Scope::Period(id("never"))), "never");
    }

    fn passed(board: &Board, edit: &Edit) -> Vec<(Scope, String)> {
        let passed = board.limits_passed_by(edit).unwrap();
        passed.into_iter().map(|(scope, count)| (scope, count.numbers())).collect()
    }

    #[test]
    fn only_limits_that_the_edit_itself_passes_are_named() {
        let mut board = board();
        let gather = |board: &Board, outfit: &str| {
            board.gather(&ids(&[outfit]), "New", &id(outfit), Treatment::Copy).unwrap().1
        };
        assert_eq!(passed(&board, &gather(&board, "smock")), []);
        assert_eq!(passed(&board, &gather(&board, "club-serge")), [(races(), "3/2".to_owned())]);
        board.apply(&gather(&board, "club-serge")).unwrap();
        // Over in the races already, which a look of the war does not make worse.
        let coat = gather(&board, "blackout-coat");
        assert_eq!(passed(&board, &coat), [(Scope::Overall, "5/4".to_owned()), (odile(), "4/3".to_owned())]);
        assert_eq!(passed(&board, &board.fold(&ids(&["blackout-coat"]), &id("club")).unwrap()), []);
    }

    #[test]
    fn a_look_that_moves_into_a_full_period_passes_its_limit() {
        let board = board();
        let moved = board.change_look(&id("rescue"), "", |look| look.period = Some(id("races"))).unwrap();
        assert_eq!(passed(&board, &moved), [(races(), "3/2".to_owned())]);
        let broken = board.change_look(&id("rescue"), "", |look| look.period = Some(id("never"))).unwrap();
        assert!(board.limits_passed_by(&broken).is_err());
    }

    #[test]
    fn a_raised_limit_is_on_the_record() {
        for scope in [Scope::Overall, odile(), races()] {
            let before = board().head().budget.limit(&scope).unwrap();
            let on: Date = "2026-10-30".parse().unwrap();
            let edit = board().raise_limit(&scope, before + 2, " the war needs it ", on.clone()).unwrap();
            let board = after(&edit);
            assert_eq!(edit.label, format!("limit {} raised to {}", board.scope_name(&scope), before + 2));
            let budget = &board.head().budget;
            assert_eq!(budget.limit(&scope), Some(before + 2));
            let why = "the war needs it".to_owned();
            assert_eq!(budget.raised, [Raise { on, limit: scope, from: before, to: before + 2, why }]);
        }
    }

    #[test]
    fn a_limit_is_raised_only_upwards_and_for_a_reason() {
        let on: Date = "2026-10-30".parse().unwrap();
        let raise = |scope: &Scope, to, why| refusal(board().raise_limit(scope, to, why, on.clone()));
        assert_eq!(raise(&races(), 9, " "), "say why the limit is raised");
        assert_eq!(raise(&races(), 2, "because"), "the limit is 2 already");
        assert_eq!(raise(&Scope::Period(id("war")), 9, "because"), "there is no limit to raise");
    }
}

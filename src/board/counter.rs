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

//! What is usual in the trade, as tables: what an action does to what is worn, who is to be asked before, and how many
//! more are made than are needed.
//!
//! The tables that come with the program are common practice, no source; a board's `practice.yaml` puts its own entries
//! in the place of those of the same name, and adds others.

use serde::{Deserialize, Serialize};

use super::id::Id;
use super::make::Version;
use super::pairs::Pairs;
use crate::trade::cloth_weight::ClothWeight;
use crate::trade::fibre::Fibre;
use crate::trade::fraction::Fraction;

/// Tables of what is usual.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct Practice {
    /// Days until a copy can be worn again, by what a use does to it.
    #[serde(default, skip_serializing_if = "Pairs::is_empty")]
    pub turnaround: Pairs<Effect, u8>,
    /// How many more are made than are needed.
    #[serde(default, skip_serializing_if = "Spares::is_empty")]
    pub spares: Spares,
    /// Days between the cloth's coming and the first wearing.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub making_days: Option<u16>,
    /// How much more length a cloth with a nap takes than the lay says.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub nap_extra: Option<Fraction>,
    /// What people do in what they wear.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub actions: Vec<Action>,
    /// Who is to be asked before.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub cautions: Vec<Ask>,
}

/// How many more are made than are needed.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct Spares {
    /// Of anything a principal wears, at least so many.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub principal: Option<u8>,
    /// One spare for each started so many that uses destroy.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub for_destroyed: Option<std::num::NonZeroU8>,
}

impl Spares {
    fn is_empty(&self) -> bool {
        *self == Self::default()
    }
}

/// What people do in what they wear.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct Action {
    /// Its name, as scenes use it.
    pub action: Id<Action>,
    /// In a few words.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub says: String,
    /// Another action that it is a kind of: what is to be asked before that is asked before this.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub like: Option<Id<Action>>,
    /// The version that it is done in; without one, the piece as designed.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub version: Option<Id<Version>>,
    /// The pieces that it concerns, by a word of their names; without any, all of the look.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub pieces: Vec<String>,
    /// What one use does to them.
    pub does: Effect,
    /// Whether every take needs a fresh one.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub fresh: bool,
    /// Days until a copy can be worn again, where it is not the usual of what the use does.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub back: Option<u8>,
}

/// What a use does to what is worn.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Effect {
    /// Nothing that the next call would not find in order.
    Nothing,
    /// It must be cleaned.
    Soil,
    /// It must be dried.
    Wet,
    /// It must be looked over and mended.
    Strain,
    /// It is never worn again.
    Destroy,
}

impl Effect {
    /// In a word, as of what was worn.
    pub fn word(self) -> &'static str {
        match self {
            Self::Nothing => "worn",
            Self::Soil => "soiled",
            Self::Wet => "wet",
            Self::Strain => "strained",
            Self::Destroy => "destroyed",
        }
    }
}

impl std::fmt::Display for Effect {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(match self {
            Self::Nothing => "nothing",
            Self::Soil => "soil",
            Self::Wet => "wet",
            Self::Strain => "strain",
            Self::Destroy => "destroy",
        })
    }
}

/// Who is to be asked before something is done in something. It is raised where all that it names is so; what it does
/// not name may be anything.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct Ask {
    /// Its name.
    pub caution: Id<Ask>,
    /// Raised by any of these actions.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub actions: Vec<Id<Action>>,
    /// And in any of these fibres.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub fibres: Vec<Fibre>,
    /// And in cloth that is at least so heavy.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub heavier_than: Option<ClothWeight>,
    /// And in pieces whose name, cut or trim has any of these words.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub pieces: Vec<String>,
    /// What can happen.
    pub says: String,
    /// What to ask.
    pub ask: String,
    /// And of whom.
    pub of: String,
}

impl Practice {
    /// These tables with `own` entries in the place of those of the same name, and the others behind them.
    pub fn with(&self, own: &Self) -> Self {
        let mut all = self.clone();
        for (effect, days) in own.turnaround.iter() {
            all.turnaround.set(*effect, *days);
        }
        all.spares.principal = own.spares.principal.or(all.spares.principal);
        all.spares.for_destroyed = own.spares.for_destroyed.or(all.spares.for_destroyed);
        all.making_days = own.making_days.or(all.making_days);
        all.nap_extra = own.nap_extra.or(all.nap_extra);
        put(&mut all.actions, &own.actions, |one| &one.action);
        put(&mut all.cautions, &own.cautions, |one| &one.caution);
        all
    }

    /// An action.
    pub fn action(&self, id: &Id<Action>) -> Option<&Action> {
        self.actions.iter().find(|one| one.action == *id)
    }

    /// Whether a caution is raised by an action, or by what it is a kind of, however far that goes.
    pub fn raises(&self, ask: &Ask, action: &Id<Action>) -> bool {
        let like = |action: &&Id<Action>| self.action(action)?.like.as_ref();
        // In a circle there are no more than all of them.
        let mut kinds = std::iter::successors(Some(action), like).take(self.actions.len() + 1);
        kinds.any(|kind| ask.actions.contains(kind))
    }

    /// Days until a copy can be worn again after an action; `None` where it never can.
    pub fn back(&self, action: &Action) -> Option<u8> {
        match action.does {
            Effect::Destroy => None,
            does => Some(action.back.or_else(|| self.turnaround.get(&does).copied()).unwrap_or(0)),
        }
    }
}

fn put<T: Clone, K: PartialEq>(all: &mut Vec<T>, own: &[T], name: impl Fn(&T) -> &K) {
    for one in own {
        match all.iter_mut().find(|other| name(other) == name(one)) {
            Some(other) => *other = one.clone(),
            None => all.push(one.clone()),
        }
    }
}

#[cfg(test)]
mod tests {
    use serde_json::json;

    use super::super::sample::{id, read};
    use super::*;

    #[test]
    fn a_board_puts_its_own_in_the_place_of_the_usual_and_adds_others() {
        let usual: Practice = read(json!({
            "turnaround": {"wet": 2, "soil": 1}, "spares": {"principal": 2}, "making-days": 10,
            "actions": [{"action": "swim", "does": "wet"}, {"action": "burn", "does": "destroy"}],
        }));
        let own: Practice = read(json!({
            "turnaround": {"wet": 3}, "spares": {"for-destroyed": 4},
            "actions": [{"action": "dance", "does": "soil", "back": 0}, {"action": "burn", "does": "strain"}],
        }));
        let all = usual.with(&own);
        let back = |action: &str| all.back(all.action(&id(action)).unwrap());
        assert_eq!((back("swim"), back("dance"), back("burn")), (Some(3), Some(0), Some(0)));
        assert_eq!(usual.back(usual.action(&id("burn")).unwrap()), None);
        assert_eq!((all.spares.principal, all.making_days, all.actions.len()), (Some(2), Some(10), 3));
        assert_eq!(usual.with(&Practice::default()), usual);
    }
}

//! What follows from the records: which look holds an outfit, which period it falls in, which scenes show a look.
//!
//! Never stored, and never mended in place, so it cannot drift from the records. There are three layers (what follows
//! from outfits, from looks, and from scenes), and after an edit a layer is either derived anew as a whole or, where
//! the edit cannot have touched it, shared with the board before.

use std::collections::HashMap;
use std::sync::Arc;

use super::{Change, CharacterId, LookId, OutfitId, PeriodId, Records, SceneNumber, Swap};
use crate::trade::date::{Date, Day};

/// Whether an outfit is decided, and how.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Standing<'a> {
    /// In no look, and not let go.
    Open,
    /// In this look.
    Folded(&'a LookId),
    /// In no look, for this reason.
    LetGo(&'a str),
}

/// What follows from the records.
#[derive(Debug, PartialEq)]
pub struct Relations {
    wardrobe: Arc<Wardrobe>,
    holding: Arc<Holding>,
    script: Arc<Script>,
    look_periods: HashMap<LookId, PeriodId>,
}

/// What follows from the outfits and the periods.
#[derive(Debug, PartialEq)]
struct Wardrobe {
    periods: HashMap<OutfitId, PeriodId>,
    by_date: Vec<OutfitId>,
}

/// What follows from the looks and the characters.
#[derive(Debug, PartialEq)]
struct Holding {
    looks_of: HashMap<OutfitId, Vec<LookId>>,
    by_order: Vec<LookId>,
}

/// What follows from the scenes and the periods.
#[derive(Debug, PartialEq)]
struct Script {
    periods: Vec<Option<PeriodId>>,
    scenes_of: HashMap<LookId, Vec<usize>>,
    scene_at: HashMap<SceneNumber, usize>,
}

impl Relations {
    /// Derives everything from the records.
    pub fn derive(records: &Records) -> Self {
        let calendar = Calendar::of(records);
        let wardrobe = Arc::new(Wardrobe::derive(records, &calendar));
        let holding = Arc::new(Holding::derive(records));
        Self::with(records, wardrobe, holding, Arc::new(Script::derive(records, &calendar)))
    }

    /// What follows from `records`, which `changes` have led to from those that this follows from.
    pub(super) fn after(&self, records: &Records, changes: &[Change]) -> Self {
        let mut stale = Stale::default();
        for change in changes {
            stale.add(change);
        }
        let calendar = Calendar::of(records);
        let wardrobe = if stale.wardrobe {
            Arc::new(Wardrobe::derive(records, &calendar))
        } else {
            Arc::clone(&self.wardrobe)
        };
        let holding =
            if stale.holding { Arc::new(Holding::derive(records)) } else { Arc::clone(&self.holding) };
        let script = if stale.script {
            Arc::new(Script::derive(records, &calendar))
        } else {
            Arc::clone(&self.script)
        };
        Self::with(records, wardrobe, holding, script)
    }

    fn with(records: &Records, wardrobe: Arc<Wardrobe>, holding: Arc<Holding>, script: Arc<Script>) -> Self {
        let mut look_periods = HashMap::with_capacity(records.looks.len());
        for (id, look) in &records.looks {
            let from_base = || wardrobe.periods.get(look.base.as_ref()?);
            let from_scene = || {
                let scenes = script.scenes_of.get(id)?;
                scenes.iter().find_map(|at| script.periods[*at].as_ref())
            };
            if let Some(period) = look.period.as_ref().or_else(from_base).or_else(from_scene) {
                look_periods.insert(id.clone(), period.clone());
            }
        }
        Self { wardrobe, holding, script, look_periods }
    }

    /// The looks that hold an outfit: one, unless files disagree.
    pub fn looks_of(&self, outfit: &OutfitId) -> &[LookId] {
        self.holding.looks_of.get(outfit).map_or(&[], Vec::as_slice)
    }

    /// Every outfit that a look holds, with the looks.
    pub fn held(&self) -> impl Iterator<Item = (&OutfitId, &[LookId])> {
        self.holding.looks_of.iter().map(|(outfit, looks)| (outfit, looks.as_slice()))
    }

    /// The period of an outfit, by its date or its own word.
    pub fn period_of_outfit(&self, outfit: &OutfitId) -> Option<&PeriodId> {
        self.wardrobe.periods.get(outfit)
    }

    /// The period of a look: its own word, its base's, or its first scene's.
    pub fn period_of_look(&self, look: &LookId) -> Option<&PeriodId> {
        self.look_periods.get(look)
    }

    /// The period of the scene at this place.
    pub fn period_of_scene(&self, at: usize) -> Option<&PeriodId> {
        self.script.periods.get(at)?.as_ref()
    }

    /// The places of the scenes in which a look is worn, in story order.
    pub fn scenes_of(&self, look: &LookId) -> &[usize] {
        self.script.scenes_of.get(look).map_or(&[], Vec::as_slice)
    }

    /// Where in story order the scene with this number stands.
    pub fn scene_at(&self, number: &SceneNumber) -> Option<usize> {
        self.script.scene_at.get(number).copied()
    }

    /// All outfits by the middle of their date; the undated last.
    pub fn outfits_by_date(&self) -> &[OutfitId] {
        &self.wardrobe.by_date
    }

    /// All looks by character and their place in its list.
    pub fn looks_by_order(&self) -> &[LookId] {
        &self.holding.by_order
    }
}

/// Which layers an edit has made stale.
#[derive(Default)]
struct Stale {
    wardrobe: bool,
    holding: bool,
    script: bool,
}

impl Stale {
    fn add(&mut self, change: &Change) {
        match change {
            Change::Head(swap) => {
                let periods_differ = differs(swap, |head| &head.periods);
                self.wardrobe |= periods_differ;
                self.script |= periods_differ;
                self.holding |= differs(swap, |head| &head.characters);
            }
            Change::Outfit(_, swap) => {
                self.wardrobe |= differs(swap, |outfit| (&outfit.worn, &outfit.period))
            }
            Change::Look(_, swap) => {
                self.holding |= differs(swap, |look| (&look.character, look.order, &look.base, &look.folded));
            }
            Change::Scene(..) | Change::SceneOrder(_) => self.script = true,
            Change::Schedule(_) => {}
        }
    }
}

/// Whether a record came, went, or is another in what `seen` sees of it.
fn differs<'a, T, P: PartialEq>(swap: &'a Swap<T>, seen: impl Fn(&'a T) -> P) -> bool {
    let seen = |side: &'a Option<Arc<T>>| side.as_deref().map(&seen);
    seen(&swap.before) != seen(&swap.after)
}

impl Wardrobe {
    fn derive(records: &Records, calendar: &Calendar<'_>) -> Self {
        let mut periods = HashMap::with_capacity(records.outfits.len());
        let mut by_date = Vec::with_capacity(records.outfits.len());
        for (id, outfit) in &records.outfits {
            let worn = outfit.worn.as_ref();
            if let Some(period) = outfit.period.as_ref().or_else(|| calendar.period(worn?)) {
                periods.insert(id.clone(), period.clone());
            }
            let day = worn.and_then(Date::middle);
            by_date.push(((day.is_none(), day), id));
        }
        by_date.sort_by_key(|(day, _)| *day);
        Self { periods, by_date: by_date.into_iter().map(|(_, id)| id.clone()).collect() }
    }
}

impl Holding {
    fn derive(records: &Records) -> Self {
        let held = records.looks.values().map(|look| look.outfits().count()).sum();
        let mut looks_of: HashMap<OutfitId, Vec<LookId>> = HashMap::with_capacity(held);
        for (id, look) in &records.looks {
            for outfit in look.outfits() {
                let looks = looks_of.entry(outfit.clone()).or_default();
                if looks.last() != Some(id) {
                    looks.push(id.clone());
                }
            }
        }
        let cast: HashMap<&CharacterId, usize> =
            records.head.characters.iter().enumerate().map(|(at, character)| (&character.id, at)).collect();
        let place = |id: &CharacterId| cast.get(id).copied().unwrap_or(usize::MAX);
        let mut by_order: Vec<_> =
            records.looks.iter().map(|(id, look)| ((place(&look.character), look.order), id)).collect();
        by_order.sort_by_key(|(place, _)| *place);
        Self { looks_of, by_order: by_order.into_iter().map(|(_, id)| id.clone()).collect() }
    }
}

impl Script {
    fn derive(records: &Records, calendar: &Calendar<'_>) -> Self {
        let mut periods = Vec::with_capacity(records.scenes.len());
        let mut scenes_of: HashMap<LookId, Vec<usize>> = HashMap::new();
        let mut scene_at = HashMap::with_capacity(records.scenes.len());
        for (at, scene) in records.scenes.iter().enumerate() {
            scene_at.entry(scene.number.clone()).or_insert(at);
            let period = scene.period.as_ref().or_else(|| calendar.period(scene.date.as_ref()?));
            periods.push(period.cloned());
            for (_, look) in scene.wears.iter() {
                let Some(look) = look else { continue };
                let scenes = scenes_of.entry(look.clone()).or_default();
                if scenes.last() != Some(&at) {
                    scenes.push(at);
                }
            }
        }
        Self { periods, scenes_of, scene_at }
    }
}

/// The periods as spans of days, in the board's order.
struct Calendar<'a>(Vec<(i64, i64, &'a PeriodId)>);

/// First and last day of a date as day numbers, open ends at the ends of the calendar.
fn days(date: &Date) -> (i64, i64) {
    (date.earliest().unwrap_or(Day::MIN).number(), date.latest().unwrap_or(Day::MAX).number())
}

impl<'a> Calendar<'a> {
    fn of(records: &'a Records) -> Self {
        let span = |period: &'a super::Period| {
            let (first, last) = days(&period.span);
            (first, last, &period.id)
        };
        Self(records.head.periods.iter().map(span).collect())
    }

    /// The period that shares most days with the date; the earlier in the board where two share as many. An open end
    /// counts as the day at its known end.
    fn period(&self, date: &Date) -> Option<&'a PeriodId> {
        let (first, last) = match (date.earliest(), date.latest()) {
            (Some(first), Some(last)) => (first.number(), last.number()),
            (day, None) | (None, day) => (day?.number(), day?.number()),
        };
        let mut best: Option<(i64, &PeriodId)> = None;
        for (from, to, id) in &self.0 {
            let shared = last.min(*to) - first.max(*from) + 1;
            if shared > 0 && best.is_none_or(|(most, _)| shared > most) {
                best = Some((shared, id));
            }
        }
        best.map(|(_, id)| id)
    }
}

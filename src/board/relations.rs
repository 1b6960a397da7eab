//! What follows from the records: which look holds an outfit, which period it falls in, which scenes show a look.
//!
//! Derived as a whole after every edit, so it cannot drift from the records. Nothing here is ever stored.

use std::collections::HashMap;

use super::{CharacterId, LookId, OutfitId, PeriodId, Records, SceneNumber};
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
#[derive(Debug, Default)]
pub struct Relations {
    looks_of: HashMap<OutfitId, Vec<LookId>>,
    outfit_periods: HashMap<OutfitId, PeriodId>,
    look_periods: HashMap<LookId, PeriodId>,
    scene_periods: Vec<Option<PeriodId>>,
    scenes_of: HashMap<LookId, Vec<usize>>,
    scene_at: HashMap<SceneNumber, usize>,
    outfits_by_date: Vec<OutfitId>,
    looks_by_order: Vec<LookId>,
}

impl Relations {
    /// Derives everything from the records.
    pub fn derive(records: &Records) -> Self {
        let calendar = Calendar::of(records);
        let mut relations = Self::default();
        for (id, look) in &records.looks {
            for outfit in look.outfits() {
                relations.looks_of.entry(outfit.clone()).or_default().push(id.clone());
            }
        }
        for (id, outfit) in &records.outfits {
            let period = outfit.period.as_ref().or_else(|| calendar.period(outfit.worn.as_ref()?));
            if let Some(period) = period {
                relations.outfit_periods.insert(id.clone(), period.clone());
            }
        }
        for (at, scene) in records.scenes.iter().enumerate() {
            relations.scene_at.entry(scene.number.clone()).or_insert(at);
            let period = scene.period.as_ref().or_else(|| calendar.period(scene.date.as_ref()?));
            relations.scene_periods.push(period.cloned());
            for (_, look) in scene.wears.iter() {
                if let Some(look) = look {
                    relations.scenes_of.entry(look.clone()).or_default().push(at);
                }
            }
        }
        for (id, look) in &records.looks {
            let from_base = || relations.outfit_periods.get(look.base.as_ref()?);
            let from_scene = || {
                let scenes = relations.scenes_of.get(id)?;
                scenes.iter().find_map(|at| relations.scene_periods[*at].as_ref())
            };
            if let Some(period) = look.period.as_ref().or_else(from_base).or_else(from_scene) {
                relations.look_periods.insert(id.clone(), period.clone());
            }
        }
        relations.outfits_by_date = records.outfits.keys().cloned().collect();
        relations.outfits_by_date.sort_by_cached_key(|id| {
            let day = records.outfits.get(id).and_then(|outfit| outfit.worn.as_ref()).and_then(Date::middle);
            (day.is_none(), day)
        });
        let casts: HashMap<&CharacterId, usize> =
            records.head.characters.iter().enumerate().map(|(at, character)| (&character.id, at)).collect();
        relations.looks_by_order = records.looks.keys().cloned().collect();
        relations.looks_by_order.sort_by_cached_key(|id| {
            let look = records.looks.get(id);
            let cast = look.and_then(|look| casts.get(&look.character)).copied().unwrap_or(usize::MAX);
            (cast, look.map_or(0, |look| look.order))
        });
        relations
    }

    /// The looks that hold an outfit: one, unless files disagree.
    pub fn looks_of(&self, outfit: &OutfitId) -> &[LookId] {
        self.looks_of.get(outfit).map_or(&[], Vec::as_slice)
    }

    /// Every outfit that a look holds, with the looks.
    pub fn held(&self) -> impl Iterator<Item = (&OutfitId, &[LookId])> {
        self.looks_of.iter().map(|(outfit, looks)| (outfit, looks.as_slice()))
    }

    /// The period of an outfit, by its date or its own word.
    pub fn period_of_outfit(&self, outfit: &OutfitId) -> Option<&PeriodId> {
        self.outfit_periods.get(outfit)
    }

    /// The period of a look: its own word, its base's, or its first scene's.
    pub fn period_of_look(&self, look: &LookId) -> Option<&PeriodId> {
        self.look_periods.get(look)
    }

    /// The period of the scene at this place.
    pub fn period_of_scene(&self, at: usize) -> Option<&PeriodId> {
        self.scene_periods.get(at)?.as_ref()
    }

    /// The places of the scenes in which a look is worn, in story order.
    pub fn scenes_of(&self, look: &LookId) -> &[usize] {
        self.scenes_of.get(look).map_or(&[], Vec::as_slice)
    }

    /// Where in story order the scene with this number stands.
    pub fn scene_at(&self, number: &SceneNumber) -> Option<usize> {
        self.scene_at.get(number).copied()
    }

    /// All outfits by the middle of their date; the undated last.
    pub fn outfits_by_date(&self) -> &[OutfitId] {
        &self.outfits_by_date
    }

    /// All looks by character and their place in its list.
    pub fn looks_by_order(&self) -> &[LookId] {
        &self.looks_by_order
    }
}

/// The periods as spans of days.
struct Calendar<'a>(Vec<(i64, i64, &'a PeriodId)>);

/// First and last day of a date as day numbers, open ends far away.
fn days(date: &Date) -> Option<(i64, i64)> {
    const FAR: i64 = 10_000_000_000;
    match (date.earliest().map(Day::number), date.latest().map(Day::number)) {
        (None, None) => None,
        (first, last) => Some((first.unwrap_or(-FAR), last.unwrap_or(FAR))),
    }
}

impl<'a> Calendar<'a> {
    fn of(records: &'a Records) -> Self {
        let span =
            |period: &'a super::Period| days(&period.span).map(|(first, last)| (first, last, &period.id));
        Self(records.head.periods.iter().filter_map(span).collect())
    }

    /// The period that shares most days with the date; the earlier where two share as many. An open end counts as
    /// the day at its known end.
    fn period(&self, date: &Date) -> Option<&'a PeriodId> {
        let (first, last) = match (date.earliest(), date.latest()) {
            (Some(_), Some(_)) => days(date)?,
            (Some(day), None) | (None, Some(day)) => (day.number(), day.number()),
            (None, None) => return None,
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

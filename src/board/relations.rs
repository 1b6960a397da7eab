//! What follows from the records: which look holds an outfit, which period it falls in, which scenes show a look.
//!
//! Never stored, and never mended in place, so it cannot drift from the records. There are four layers (what follows
//! from outfits, from looks, from scenes, and from wishes), and after an edit a layer is either derived anew as a whole or, where
//! the edit cannot have touched it, shared with the board before.

use std::collections::HashMap;
use std::sync::Arc;

use super::calendar::Calendar;
use super::{Change, CharacterId, LookId, Outfit, OutfitId, PeriodId, Records, SceneNumber, Swap};
use crate::trade::date::Date;

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
    ties: Arc<Ties>,
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

/// What follows from the wishes: whom an outfit is to be apart from and together with, whichever of the two says so.
#[derive(Debug, Default, PartialEq)]
struct Ties {
    apart: HashMap<OutfitId, Vec<OutfitId>>,
    together: HashMap<OutfitId, Vec<OutfitId>>,
}

impl Relations {
    /// Derives everything from the records.
    pub fn derive(records: &Records) -> Self {
        let calendar = Calendar::of(records);
        let wardrobe = Arc::new(Wardrobe::derive(records, &calendar));
        let holding = Arc::new(Holding::derive(records));
        let script = Arc::new(Script::derive(records, &calendar));
        Self::with(records, wardrobe, holding, script, Arc::new(Ties::derive(records)))
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
        let ties = if stale.ties { Arc::new(Ties::derive(records)) } else { Arc::clone(&self.ties) };
        Self::with(records, wardrobe, holding, script, ties)
    }

    fn with(
        records: &Records,
        wardrobe: Arc<Wardrobe>,
        holding: Arc<Holding>,
        script: Arc<Script>,
        ties: Arc<Ties>,
    ) -> Self {
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
        Self { wardrobe, holding, script, ties, look_periods }
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

    /// The outfits that this one shall never share a look with, in the order of their ids.
    pub fn apart_from(&self, outfit: &OutfitId) -> &[OutfitId] {
        self.ties.apart.get(outfit).map_or(&[], Vec::as_slice)
    }

    /// The outfits that this one shall always share a look with, in the order of their ids.
    pub fn together_with(&self, outfit: &OutfitId) -> &[OutfitId] {
        self.ties.together.get(outfit).map_or(&[], Vec::as_slice)
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
    ties: bool,
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
                self.wardrobe |= differs(swap, |outfit| (&outfit.worn, &outfit.period));
                let ties = |side: &Option<Arc<Outfit>>| {
                    side.as_ref().map(|outfit| (outfit.wishes.apart.clone(), outfit.wishes.together.clone()))
                };
                self.ties |= ties(&swap.before).unwrap_or_default() != ties(&swap.after).unwrap_or_default();
            }
            Change::Look(_, swap) => {
                self.holding |= differs(swap, |look| (&look.character, look.order, &look.base, &look.folded));
            }
            Change::Scene(..) | Change::SceneOrder(_) => self.script = true,
            Change::Schedule(_) | Change::Cloth(..) | Change::Practice(_) | Change::Meeting(..) => {}
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

impl Ties {
    fn derive(records: &Records) -> Self {
        let mut ties = Self::default();
        for (id, outfit) in &records.outfits {
            let wishes = &outfit.wishes;
            for (map, others) in [(&mut ties.apart, &wishes.apart), (&mut ties.together, &wishes.together)] {
                for other in others {
                    map.entry(id.clone()).or_default().push(other.clone());
                    map.entry(other.clone()).or_default().push(id.clone());
                }
            }
        }
        for others in ties.apart.values_mut().chain(ties.together.values_mut()) {
            others.sort_unstable();
            others.dedup();
        }
        ties
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

#[cfg(test)]
mod tests {
    use super::super::sample::{board, id, outfit, records};
    use super::*;
    use crate::board::{Board, Look, Treatment};

    #[test]
    fn a_word_of_its_own_goes_before_the_date() {
        let board = board();
        let edit = board.change_outfit(&id("smock"), "", |outfit| outfit.period = Some(id("war"))).unwrap();
        let mut after = board.clone();
        after.apply(&edit).unwrap();
        assert_eq!(after.relations().period_of_outfit(&id("smock")), Some(&id("war")));
        let scene = "1".parse().unwrap();
        let edit = board.change_scene(&scene, "", |scene| scene.period = Some(id("war"))).unwrap();
        after.apply(&edit).unwrap();
        assert_eq!(after.relations().period_of_scene(0), Some(&id("war")));
        assert_eq!(after.relations().period_of_scene(1), Some(&id("races")));
        assert_eq!(after.relations().period_of_scene(9), None);
    }

    #[test]
    fn a_look_is_in_the_period_that_it_says_or_its_bases_or_its_first_scenes() {
        let mut board = board();
        let period = |board: &Board| board.relations().period_of_look(&id("dream")).map(ToString::to_string);
        let mut records = records();
        let dream = Look::sketched("Dream", id("odile"), Treatment::Copy);
        records.looks.insert(id("dream"), Arc::new(Look { base: Some(id("gala-gown")), ..dream.clone() }));
        assert_eq!(period(&Board::new(records)).as_deref(), Some("races"));
        board.apply(&board.invent("Dream", &id("odile"), None).unwrap().1).unwrap();
        assert_eq!(period(&board), None);
        for (scene, expected) in [("4", "war"), ("1", "shore")] {
            let edit = board.assign(&scene.parse().unwrap(), &id("odile"), Some(&id("dream"))).unwrap();
            board.apply(&edit).unwrap();
            assert_eq!(period(&board).as_deref(), Some(expected));
        }
        let edit = board.change_look(&id("dream"), "", |look| look.period = Some(id("races"))).unwrap();
        board.apply(&edit).unwrap();
        assert_eq!(period(&board).as_deref(), Some("races"));
    }

    #[test]
    fn outfits_stand_by_the_middle_of_their_date_and_the_undated_last() {
        let mut records = records();
        records.outfits.insert(id("a-mystery"), Arc::new(outfit("Mystery", "odile")));
        let board = Board::new(records);
        let order: Vec<&str> = board.relations().outfits_by_date().iter().map(|id| id.as_str()).collect();
        let expected = [
            "smock",
            "apron",
            "club-serge",
            "club-wool",
            "crossing-wool",
            "gala-gown",
            "oilskins",
            "blackout-coat",
            "a-mystery",
        ];
        assert_eq!(order, expected);
    }

    #[test]
    fn looks_stand_in_the_order_of_the_characters_and_strangers_last() {
        let mut records = records();
        let stranger = Look::sketched("Stranger", id("aaron"), Treatment::Invent);
        records.looks.insert(id("a-stranger"), Arc::new(stranger));
        let board = Board::new(records);
        let order: Vec<&str> = board.relations().looks_by_order().iter().map(|id| id.as_str()).collect();
        assert_eq!(order, ["club", "gown", "rescue", "a-stranger"]);
    }

    #[test]
    fn scenes_and_holders_are_named_once_each() {
        let mut records = records();
        let mut scene = crate::board::Scene::clone(&records.scenes[2]);
        scene.wears.set(id("bridie"), Some(id("gown")));
        records.scenes[2] = Arc::new(scene);
        let mut gown = Look::clone(&records.looks[&id("gown")]);
        gown.folded = vec![id("gala-gown"), id("smock")];
        records.looks.insert(id("gown"), Arc::new(gown.clone()));
        records.looks.insert(id("again"), Arc::new(gown));
        let board = Board::new(records);
        assert_eq!(board.relations().scenes_of(&id("gown")), [2, 3]);
        assert_eq!(board.relations().looks_of(&id("gala-gown")), [id("again"), id("gown")]);
        assert_eq!(board.relations().looks_of(&id("oilskins")), []);
    }

    #[test]
    fn after_an_edit_only_the_layers_that_it_touched_are_new() {
        let shared = |before: &Board, after: &Board| {
            let (before, after) = (before.relations(), after.relations());
            [
                Arc::ptr_eq(&before.wardrobe, &after.wardrobe),
                Arc::ptr_eq(&before.holding, &after.holding),
                Arc::ptr_eq(&before.script, &after.script),
                Arc::ptr_eq(&before.ties, &after.ties),
            ]
        };
        let before = board();
        let one = [id("smock")];
        for (edit, expected) in [
            (before.let_go(&one, "because").unwrap(), [true, true, true, true]),
            (before.fold(&one, &id("gown")).unwrap(), [true, false, true, true]),
            (before.assign(&"1".parse().unwrap(), &id("odile"), None).unwrap(), [true, true, true, true]),
            (before.send_away(&"1".parse().unwrap(), &id("odile")).unwrap(), [true, true, false, true]),
            (
                before.change_outfit(&one[0], "", |outfit| outfit.worn = None).unwrap(),
                [false, true, true, true],
            ),
            (before.wish_apart(&[id("smock"), id("gala-gown")], true).unwrap(), [true, true, true, false]),
            (before.wish_base(&one[0], None).unwrap(), [true; 4]),
            (before.change_head("", |head| head.title.clear()), [true, true, true, true]),
            (before.change_head("", |head| head.periods.reverse()), [false, true, false, true]),
            (before.change_head("", |head| head.characters.reverse()), [true, false, true, true]),
        ] {
            let mut after = before.clone();
            after.apply(&edit).unwrap();
            assert_eq!(shared(&before, &after), expected, "{edit:?}");
            assert_eq!(after.relations(), &Relations::derive(after.records()), "{edit:?}");
        }
    }
}

//! The question that a board puts: its outfits with their weights and distances, and the wishes on it.
//!
//! Outfits that are let go are neither to be served nor to be bases: that decision stands. They still count in what
//! there is to keep. An invented look has no base but takes a place, so that the limits that it counts in are one less.
//! The base of a look that is approved stays a base, and surely that of an established one, which is on film.

use std::collections::{BTreeMap, BTreeSet, HashMap};

use super::likeness::Likeness;
use super::problem::{Group, Problem, Unfit, Wish};
use crate::board::{
    Among, BaseWish, Board, CharacterId, Look, LookId, Outfit, OutfitId, PeriodId, Scope, Stage, Standing,
};

/// What an outfit counts: 1, and for each step of recognition one more than for the step before, so 1, 2, 4, 7, 11 and
/// 16. What everybody has seen must not be outweighed by a handful of outfits that nobody has.
pub fn weight(outfit: &Outfit) -> f64 {
    let steps = f64::from(outfit.recognition.get());
    1.0 + steps * (steps + 1.0) / 2.0
}

/// The outfits of a board, or of one character, as a problem.
#[derive(Clone, Debug)]
pub struct Wardrobe {
    who: Option<CharacterId>,
    outfits: Vec<OutfitId>,
    problem: Problem,
    /// How many of the wishes, before the last few, are limits of the budget.
    limits: usize,
    /// How many of the wishes, the last, say that whoever has looks keeps one.
    implied: usize,
    /// Outfits that stay bases because of the stages of their looks, by their places.
    held: BTreeMap<usize, Stage>,
    all: f64,
    place: HashMap<OutfitId, usize>,
}

/// Why a board puts no question.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum NoWardrobe {
    /// Numbers that are no problem.
    #[error(transparent)]
    Unfit(#[from] Unfit),
    /// It was ended while distances were computed.
    #[error("ended while outfits were compared")]
    Ended,
}

impl Wardrobe {
    /// The question of a whole board, or of one character, for as many looks as its limits allow; where there is no
    /// limit, for as many as there are. `over` ends the comparing early.
    ///
    /// # Errors
    /// When it was ended.
    pub fn of(
        board: &Board,
        likeness: &Likeness,
        who: Option<&CharacterId>,
        over: &(dyn Fn() -> bool + Sync),
    ) -> Result<Self, NoWardrobe> {
        let records = &board.records().outfits;
        let documented = records.iter().filter(|(_, outfit)| who.is_none_or(|who| outfit.character == *who));
        let all = documented.clone().map(|(_, outfit)| weight(outfit)).sum();
        let kept = documented.filter(|(id, _)| !matches!(board.standing(id), Standing::LetGo(_)));
        let (outfits, kept): (Vec<OutfitId>, Vec<&Outfit>) =
            kept.map(|(id, outfit)| (id.clone(), &**outfit)).unzip();
        let cost = likeness.matrix(&outfits, over).ok_or(NoWardrobe::Ended)?;
        let weights = kept.iter().map(|outfit| weight(outfit)).collect();
        let mut names: Vec<&CharacterId> = kept.iter().map(|outfit| &outfit.character).collect();
        names.sort_unstable();
        names.dedup();
        let kind = |outfit: &&Outfit| names.partition_point(|name| **name < outfit.character) as u32;
        let kinds = kept.iter().map(kind).collect();
        let place = outfits.iter().cloned().zip(0..).collect();
        let problem = Problem::from_matrix(weights, cost, allowed(board, who))?.of_kinds(kinds)?;
        let (who, held) = (who.cloned(), BTreeMap::new());
        let mut wardrobe = Self { who, outfits, problem, limits: 0, implied: 0, held, all, place };
        let wishes = wardrobe.wishes(board);
        let limits = wardrobe.limits(board);
        wardrobe.limits = limits.len();
        wardrobe.problem = wardrobe.problem.wishing(wishes.into_iter().chain(limits))?;
        let implied = wardrobe.dressed(board);
        wardrobe.implied = implied.len();
        wardrobe.problem = wardrobe.problem.wishing(implied)?;
        wardrobe.imply_what_can_be();
        Ok(wardrobe)
    }

    /// The same question without the budget's limits on characters and periods: what more looks would buy. Wishes stay.
    #[must_use]
    pub fn without_limits(mut self) -> Self {
        let last = std::mem::take(&mut self.limits) + std::mem::take(&mut self.implied);
        self.problem.wishes.truncate(self.problem.wishes.len() - last);
        self
    }

    /// The character whose outfits they are; `None` where they are the whole board's.
    pub fn who(&self) -> Option<&CharacterId> {
        self.who.as_ref()
    }

    /// The outfits, by their places in the problem.
    pub fn outfits(&self) -> &[OutfitId] {
        &self.outfits
    }

    /// The place of an outfit in the problem; `None` where it is let go, or not of the character asked about.
    pub fn place(&self, outfit: &OutfitId) -> Option<usize> {
        self.place.get(outfit).copied()
    }

    /// The problem.
    pub fn problem(&self) -> &Problem {
        &self.problem
    }

    /// The problem for another number of looks. Limits stay what they are.
    pub fn set_looks(&mut self, looks: usize) {
        self.problem.looks = looks;
        self.imply_what_can_be();
    }

    /// With fewer looks than characters who have some, not all of them keep one.
    fn imply_what_can_be(&mut self) {
        if self.problem.looks < self.implied {
            let last = std::mem::take(&mut self.implied);
            self.problem.wishes.truncate(self.problem.wishes.len() - last);
        }
    }

    /// The share of all that is documented that a choice of this cost keeps: 0 to 1. 1 where nothing is documented.
    pub fn kept(&self, cost: f64) -> f64 {
        if self.all > 0.0 { (self.problem.weights.iter().sum::<f64>() - cost) / self.all } else { 1.0 }
    }

    /// A weight as a share of all that is documented.
    pub fn share(&self, weight: f64) -> f64 {
        if self.all > 0.0 { weight / self.all } else { 0.0 }
    }

    /// The wishes and limits within which a choice is, in the board's own words.
    pub fn within(&self, board: &Board) -> Vec<String> {
        let told = self.problem.wishes.len() - self.implied;
        self.problem.wishes.iter().take(told).map(|wish| self.say(board, wish)).collect()
    }

    fn wishes(&mut self, board: &Board) -> Vec<Wish> {
        let who = self.who.as_ref();
        let (mut wishes, mut held) = (Vec::new(), BTreeMap::new());
        for (at, id) in self.outfits.iter().enumerate() {
            let Some(outfit) = board.outfit(id) else { continue };
            let look = board.relations().looks_of(id).first().and_then(|look| board.look(look));
            let look = look.filter(|look| look.stage >= Stage::Approved && look.base.as_ref() == Some(id));
            match (look, outfit.wishes.base) {
                // What is agreed is there already, whatever was wished before.
                (Some(look), _) => {
                    held.insert(at, look.stage);
                    wishes.push(Wish::Base(at));
                }
                (None, Some(BaseWish::Must)) => wishes.push(Wish::Base(at)),
                (None, Some(BaseWish::Never)) => wishes.push(Wish::NotBase(at)),
                (None, None) => {}
            }
            let others = |ids: &[OutfitId]| {
                let places = ids.iter().filter_map(|id| self.place(id)).filter(|other| *other > at);
                places.collect::<Vec<_>>()
            };
            let relations = board.relations();
            wishes.extend(others(relations.apart_from(id)).into_iter().map(|other| Wish::Apart(at, other)));
            wishes.extend(
                others(relations.together_with(id)).into_iter().map(|other| Wish::Together(at, other)),
            );
        }
        let gather = &board.head().gather;
        for (among, most) in gather.at_most.iter().filter(|(among, _)| is_asked(among, who)) {
            let left = (*most as usize).saturating_sub(self.bases_elsewhere(board, among));
            at_most(self.group(board, among), left, &mut wishes);
        }
        for (among, least) in gather.at_least.iter().filter(|(among, _)| is_asked(among, who)) {
            let missing = (*least as usize).saturating_sub(self.bases_elsewhere(board, among));
            self.at_least(board, among, missing, &mut wishes);
        }
        self.held = held;
        wishes
    }

    /// How many looks have a base in a group that is not asked about here: they stay as they are.
    fn bases_elsewhere(&self, board: &Board, among: &Among) -> usize {
        let bases = board.records().looks.values().filter_map(|look| look.base.as_ref());
        bases.filter(|base| self.place(base).is_none() && board.is_among(among, base)).count()
    }

    /// Adds that at least so many bases are in a group. What only outfits that are not asked about can make good is not
    /// asked for; what no outfit can is, so that it is named.
    fn at_least(&self, board: &Board, among: &Among, least: usize, wishes: &mut Vec<Wish>) {
        let group = self.group(board, among);
        let might_be = |id: &&OutfitId| {
            self.place(id).is_none()
                && board.is_among(among, id)
                && !matches!(board.standing(id), Standing::LetGo(_))
                && !board.records().looks.values().any(|look| look.base.as_ref() == Some(*id))
        };
        let size = group.members.len();
        let others = || board.records().outfits.keys().filter(might_be).count();
        let least = if least <= size + others() { least.min(size) } else { least };
        if least > 0 {
            wishes.push(Wish::AtLeast(group, least));
        }
    }

    /// What the budget still allows besides the looks as a whole, which are the problem's own number.
    fn limits(&self, board: &Board) -> Vec<Wish> {
        let who = self.who.as_ref();
        let mut wishes = Vec::new();
        for scope in board.limited_scopes() {
            let Some(limit) = board.head().budget.limit(&scope) else { continue };
            let among = match &scope {
                Scope::Overall => continue,
                Scope::Character(id) if who == Some(id) => continue,
                Scope::Character(id) => Among::Character(id.clone()),
                Scope::Period(id) => Among::Period(id.clone()),
            };
            let elsewhere = |look: &&LookId| {
                let of_other =
                    who.is_some_and(|who| board.look(look).is_some_and(|look| look.character != *who));
                of_other || board.look(look).is_some_and(|look| look.base.is_none())
            };
            let counted = board.records().looks.keys().filter(|look| board.counts_in(look, &scope));
            let taken = counted.clone().filter(elsewhere).count();
            let group = match &scope {
                // As the counter counts: a look may be in another period than its base was worn in.
                Scope::Period(period) => self.group_of(board.name_of_group(&among).to_owned(), |id| {
                    period_as_base(board, id) == Some(period)
                }),
                _ => self.group(board, &among),
            };
            // One character alone does not pay for a limit that the whole cast has passed.
            let present = if who.is_some() { counted.count() - taken } else { 0 };
            at_most(group, (limit as usize).saturating_sub(taken).max(present), &mut wishes);
        }
        wishes
    }

    /// That of several characters each who has looks with a base keeps one, where the limit of their looks allows it: a
    /// character whose looks all go would be left with the scenes.
    fn dressed(&self, board: &Board) -> Vec<Wish> {
        if self.who.is_some() {
            return Vec::new();
        }
        let looks = board.records().looks.values();
        let dressed: BTreeSet<&CharacterId> =
            looks.filter(|look| look.base.is_some()).map(|look| &look.character).collect();
        let one = |who: &&CharacterId| {
            let among = Among::Character((*who).clone());
            let group = self.group(board, &among);
            let of_theirs = |look: &&LookId| {
                board.look(look).is_some_and(|look| look.character == **who && look.base.is_none())
            };
            let invented = board.records().looks.keys().filter(of_theirs).count();
            let limit = board.head().budget.limit(&Scope::Character((*who).clone()));
            let may = limit.is_none_or(|limit| limit as usize > invented)
                && group.members.iter().any(|at| !self.problem.wishes.contains(&Wish::NotBase(*at)));
            may.then_some(Wish::AtLeast(group, 1))
        };
        dressed.iter().filter_map(one).collect()
    }

    /// The outfits that are asked about in a group.
    fn group(&self, board: &Board, among: &Among) -> Group {
        self.group_of(board.name_of_group(among).to_owned(), |id| board.is_among(among, id))
    }

    fn group_of(&self, name: String, is_there: impl Fn(&OutfitId) -> bool) -> Group {
        let members = self.outfits.iter().enumerate().filter(|(_, id)| is_there(id));
        Group::new(name, members.map(|(at, _)| at))
    }

    /// A wish in the board's own words.
    pub fn say(&self, board: &Board, wish: &Wish) -> String {
        let title = |at: &usize| self.outfits.get(*at).map_or("", |id| board.title_of_outfit(id));
        match wish {
            Wish::Base(at) => match self.held.get(at) {
                Some(Stage::Established) => format!("{} stays a base: its look is on film", title(at)),
                Some(_) => format!("{} stays a base: its look is approved", title(at)),
                None => format!("{} must be a base", title(at)),
            },
            Wish::NotBase(at) => format!("{} must not be a base", title(at)),
            Wish::Apart(one, other) => format!("{} and {} never share a look", title(one), title(other)),
            Wish::Together(one, other) => format!("{} and {} always share a look", title(one), title(other)),
            Wish::AtMost(group, most) => format!("at most {most} with a base in {}", group.name),
            Wish::AtLeast(group, least) => format!("at least {least} with a base in {}", group.name),
        }
    }
}

/// Adds that at most so many bases are in a group, unless no choice could break it.
fn at_most(group: Group, most: usize, wishes: &mut Vec<Wish>) {
    if most < group.members.len() {
        wishes.push(Wish::AtMost(group, most));
    }
}

/// The period of the look that an outfit is the base of, or else of the one that it would be the base of.
fn period_as_base<'a>(board: &'a Board, id: &OutfitId) -> Option<&'a PeriodId> {
    let relations = board.relations();
    let look = relations.looks_of(id).first();
    let own = look.filter(|look| board.look(look).is_some_and(|look| look.base.as_ref() == Some(id)));
    own.map_or_else(|| relations.period_of_outfit(id), |look| relations.period_of_look(look))
}

/// Whether a wish about a group asks anything when one character is asked about.
fn is_asked(among: &Among, who: Option<&CharacterId>) -> bool {
    match (among, who) {
        (Among::Character(id), Some(who)) => id == who,
        _ => true,
    }
}

/// How many looks with a base there may be: the limit less the invented ones, or as many as there are. Of one character
/// it is what the whole limit leaves beside the looks of others, too.
fn allowed(board: &Board, who: Option<&CharacterId>) -> usize {
    let is_asked = |look: &Look| who.is_none_or(|who| look.character == *who);
    let (mut based, mut invented, mut others) = (0, 0, 0);
    for look in board.records().looks.values() {
        match (is_asked(look), look.base.is_some()) {
            (false, _) => others += 1,
            (true, true) => based += 1,
            (true, false) => invented += 1,
        }
    }
    let limit = |scope| board.head().budget.limit(&scope).map(|limit| limit as usize);
    // One character alone does not pay for a limit that the whole cast has passed.
    let present = if who.is_some() { based + invented } else { 0 };
    let whole = limit(Scope::Overall).map(|limit| limit.saturating_sub(others).max(present));
    let own = who.and_then(|who| limit(Scope::Character(who.clone())));
    let least = whole.into_iter().chain(own).min();
    least.map_or(based, |limit| limit.saturating_sub(invented))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::board::Treatment;
    use crate::board::sample::{board, id, ids};
    use crate::gather::{Limits, Unsolved, solve};

    fn wardrobe(board: &Board, who: Option<&str>) -> Wardrobe {
        let who = who.map(id);
        Wardrobe::of(board, &Likeness::of(board), who.as_ref(), &|| false).unwrap()
    }

    fn said(board: &Board, who: Option<&str>) -> Vec<String> {
        wardrobe(board, who).within(board)
    }

    #[test]
    fn what_is_let_go_is_not_asked_about_but_counts_in_what_there_is_to_keep() {
        let mut board = board();
        let all = wardrobe(&board, None);
        board.apply(&board.let_go(&ids(&["smock"]), "because").unwrap()).unwrap();
        let fewer = wardrobe(&board, None);
        assert_eq!(fewer.outfits().len() + 1, all.outfits().len());
        assert_eq!(fewer.place(&id("smock")), None);
        let lost = weight(board.outfit(&id("smock")).unwrap());
        assert!((all.kept(0.0) - fewer.kept(0.0) - all.share(lost)).abs() < 1e-12);
        let gone = |board: &Board, id: &OutfitId| matches!(board.standing(id), Standing::LetGo(_));
        let gone = board.records().outfits.iter().filter(|(id, _)| gone(&board, id));
        let gone: f64 = gone.map(|(_, outfit)| weight(outfit)).sum();
        assert!((fewer.kept(0.0) - (1.0 - fewer.share(gone))).abs() < 1e-12);
    }

    #[test]
    fn limits_and_wishes_of_the_board_are_those_of_the_problem() {
        let mut board = board();
        let before = said(&board, None);
        let edits: Vec<crate::board::Edit> = vec![
            board.wish_base(&id("smock"), Some(BaseWish::Must)).unwrap(),
            board.wish_apart(&ids(&["smock", "gala-gown"]), true).unwrap(),
            board.change_look(&id("gown"), "", |look| look.stage = Stage::Established).unwrap(),
        ];
        for edit in edits {
            board.apply(&edit).unwrap();
        }
        let after = said(&board, None);
        let new: Vec<&String> = after.iter().filter(|wish| !before.contains(wish)).collect();
        insta::assert_snapshot!(format!(
            "{}\n\nand then\n\n{}",
            before.join("\n"),
            new.into_iter().cloned().collect::<Vec<_>>().join("\n")
        ));
    }

    /// The sample with these wishes about groups, and what is asked of its outfits or of one character's.
    fn asked(gather: serde_json::Value, who: Option<&str>) -> (Board, Vec<String>) {
        let mut records = crate::board::sample::records();
        let head = std::sync::Arc::make_mut(&mut records.head);
        head.gather = serde_json::from_value(gather).unwrap();
        head.budget = serde_json::from_value(serde_json::json!({"looks": 4})).unwrap();
        let board = Board::new(records);
        let said = said(&board, who);
        (board, said)
    }

    #[test]
    fn the_looks_of_others_count_in_what_is_asked_of_one() {
        let gather = serde_json::json!({
            "at-most": {"period races": 2}, "at-least": {"period war": 2, "character odile": 1},
        });
        let (mut board, all) = asked(gather.clone(), None);
        assert_eq!(
            all,
            [
                "at most 2 with a base in The races",
                "at least 2 with a base in The war",
                "at least 1 with a base in Odile"
            ]
        );
        // Of the two in the war, one is hers, and so is one of the looks.
        let hers = |board: &Board| said(board, Some("bridie"));
        assert_eq!(hers(&board), ["at least 1 with a base in The war"]);
        let coat = board.gather(&ids(&["blackout-coat"]), "Coat", &id("blackout-coat"), Treatment::Copy);
        board.apply(&coat.unwrap().1).unwrap();
        assert_eq!(hers(&board), ["at least 1 with a base in The war"], "one of two is there");
        let oilskins = board.gather(&ids(&["oilskins"]), "Oilskins", &id("oilskins"), Treatment::Copy);
        board.apply(&oilskins.unwrap().1).unwrap();
        assert_eq!(
            said(&board, Some("odile")),
            [
                "at most 2 with a base in The races",
                "at least 1 with a base in The war",
                "at least 1 with a base in Odile"
            ]
        );
        let apron = board.take_back(&ids(&["apron"])).unwrap();
        board.apply(&apron).unwrap();
        let apron = board.gather(&ids(&["apron"]), "Apron", &id("apron"), Treatment::Copy);
        board.apply(&apron.unwrap().1).unwrap();
        assert_eq!(said(&board, Some("odile"))[0], "at most 1 with a base in The races");
    }

    #[test]
    fn of_one_character_the_whole_limit_leaves_what_others_do_not_have() {
        let mut records = crate::board::sample::records();
        let head = std::sync::Arc::make_mut(&mut records.head);
        head.budget =
            serde_json::from_value(serde_json::json!({"looks": 3, "characters": {"odile": 3}})).unwrap();
        let board = Board::new(records);
        // Bridie has an invented look.
        assert_eq!(wardrobe(&board, Some("odile")).problem().looks(), 2);
        assert_eq!(wardrobe(&board, Some("bridie")).problem().looks(), 0);
        assert_eq!(wardrobe(&board, None).problem().looks(), 2);
    }

    #[test]
    fn wishes_that_only_no_look_at_all_would_keep_clash() {
        let mut board = board();
        let together = board.wish_together(&ids(&["smock", "gala-gown"]), true).unwrap();
        board.apply(&together).unwrap();
        let together = board.wish_together(&ids(&["gala-gown", "club-wool"]), true).unwrap();
        board.apply(&together).unwrap();
        // Only hands can write what contradicts the two above.
        let apart = board.change_outfit(&id("club-wool"), "", |outfit| outfit.wishes.apart = ids(&["smock"]));
        board.apply(&apart.unwrap()).unwrap();
        let wardrobe = wardrobe(&board, Some("odile"));
        let Err(Unsolved::Clash { wishes, .. }) = solve(wardrobe.problem(), &Limits::default()) else {
            panic!("wishes that cannot hold are named");
        };
        let said: Vec<String> = wishes.iter().map(|wish| wardrobe.say(&board, wish)).collect();
        assert!(said.iter().any(|wish| wish.contains("never share a look")), "{said:?}");
    }

    /// Three outfits of Ada, every two of them apart, of which the second is less known.
    fn apart(looks: u32, with_looks: &[&str]) -> Board {
        let wishes = |others: &[&str]| serde_json::json!({"apart": others});
        let outfit = |recognition: u8, others: &[&str]| serde_json::json!({"title": "x", "character": "ada", "recognition": recognition, "wishes": wishes(others)});
        let mut records = crate::board::sample::records();
        records.looks.clear();
        records.outfits.clear();
        records.scenes.clear();
        let head = std::sync::Arc::make_mut(&mut records.head);
        head.characters = serde_json::from_value(serde_json::json!([{"id": "ada", "name": "Ada"}])).unwrap();
        head.budget = serde_json::from_value(serde_json::json!({"looks": looks})).unwrap();
        head.gather = Default::default();
        for (name, recognition, others) in [("a", 5, &["b", "c"][..]), ("b", 0, &["c"]), ("c", 3, &[])] {
            let outfit: Outfit = serde_json::from_value(outfit(recognition, others)).unwrap();
            records.outfits.insert(id(name), outfit.into());
        }
        let mut board = Board::new(records);
        for look in with_looks {
            let of = ids(&[look]);
            board.apply(&board.gather(&of, look, &of[0], Treatment::Copy).unwrap().1).unwrap();
        }
        board
    }

    #[test]
    fn what_is_to_be_apart_from_every_base_is_left_open_and_nothing_better_is_kept_at_present() {
        for (looks, present) in [(1, &[][..]), (1, &["a"]), (2, &["a", "c"]), (2, &["b", "c"]), (3, &[])] {
            let board = apart(looks, present);
            let wardrobe = wardrobe(&board, Some("ada"));
            let choice = solve(wardrobe.problem(), &Limits::default()).unwrap();
            let best: Vec<usize> = [0, 2, 1].into_iter().take(looks as usize).collect();
            assert!(choice.proven);
            assert!(choice.bases.iter().all(|base| best.contains(base)) && choice.bases.len() == best.len());
            let open = choice.base_of.iter().filter(|base| base.is_none()).count();
            assert_eq!(open, 3 - looks as usize, "{choice:?}");
            let now = crate::gather::Present::of(&board, &Likeness::of(&board), &wardrobe);
            assert!(wardrobe.kept(choice.cost) >= now.kept - 1e-12);
        }
    }

    #[test]
    fn whoever_has_looks_keeps_one_where_there_are_enough() {
        // Recognition is all on Odile's side.
        let mut records = crate::board::sample::records();
        let head = std::sync::Arc::make_mut(&mut records.head);
        head.budget = serde_json::from_value(serde_json::json!({"looks": 3})).unwrap();
        let mut board = Board::new(records);
        let hers = board.gather(&ids(&["oilskins"]), "Oilskins", &id("oilskins"), Treatment::Copy);
        board.apply(&hers.unwrap().1).unwrap();
        for (looks, least) in [(2, 1), (1, 0)] {
            let mut wardrobe = wardrobe(&board, None);
            wardrobe.set_looks(looks);
            let choice = solve(wardrobe.problem(), &Limits::default()).unwrap();
            let hers =
                |at: &&usize| board.outfit(&wardrobe.outfits()[**at]).unwrap().character == id("bridie");
            assert_eq!(choice.bases.iter().filter(hers).count(), least, "{looks}");
            assert!(wardrobe.within(&board).iter().all(|wish| !wish.contains("Bridie")));
        }
    }

    #[test]
    fn one_character_does_not_pay_for_what_the_whole_cast_has_passed() {
        let mut records = crate::board::sample::records();
        let head = std::sync::Arc::make_mut(&mut records.head);
        head.budget = serde_json::from_value(serde_json::json!({"looks": 1})).unwrap();
        let board = Board::new(records);
        let present = board.records().looks.values().filter(|look| look.character == id("odile"));
        assert_eq!(wardrobe(&board, Some("odile")).problem().looks(), present.count());
    }

    #[test]
    fn what_no_outfit_can_make_good_is_named() {
        for (gather, clashing) in [
            (serde_json::json!({"at-least": {"period war": 3}}), "at least 3 with a base in The war"),
            (
                serde_json::json!({"at-least": {"thread green-cap": 2}}),
                "at least 2 with a base in The green cap",
            ),
        ] {
            for who in [None, Some("odile"), Some("bridie")] {
                let (board, _) = asked(gather.clone(), who);
                let wardrobe = wardrobe(&board, who);
                let Err(Unsolved::Clash { wishes, .. }) = solve(wardrobe.problem(), &Limits::default())
                else {
                    panic!("{gather} {who:?}");
                };
                let wishes: Vec<String> = wishes.iter().map(|wish| wardrobe.say(&board, wish)).collect();
                // What others have already is theirs.
                let theirs = who == Some("bridie") && clashing.contains("cap");
                let clashing = if theirs { "at least 1 with a base in The green cap" } else { clashing };
                assert_eq!(wishes, [clashing], "{who:?}");
            }
        }
    }

    #[test]
    fn every_choice_for_a_board_keeps_its_limits() {
        let board = board();
        for who in [None, Some("odile")] {
            let wardrobe = wardrobe(&board, who);
            let choice = solve(wardrobe.problem(), &Limits::default()).unwrap();
            assert!(choice.proven && choice.bases.len() <= wardrobe.problem().looks());
            let kept = wardrobe.kept(choice.cost);
            assert!((0.0..=1.0).contains(&kept), "{kept}");
        }
    }
}

//! Looking for broken rules, one record at a time.

use std::collections::{BTreeSet, HashMap, HashSet};

use super::{Broken, Dangling, Step, Target};
use crate::board::{
    ActionId, Among, Board, BodyId, CharacterId, ClothId, Look, LookId, Make, Outfit, OutfitId, PeriodId,
    RecordRef, Role, Scene, ThreadId, Treatment,
};

pub(super) struct Search<'a> {
    board: &'a Board,
    characters: HashSet<&'a CharacterId>,
    periods: HashSet<&'a PeriodId>,
    threads: HashSet<&'a ThreadId>,
    actions: HashSet<ActionId>,
    pub(super) found: Vec<Broken>,
}

impl<'a> Search<'a> {
    pub(super) fn new(board: &'a Board) -> Self {
        let head = board.head();
        Self {
            board,
            characters: head.characters.iter().map(|character| &character.id).collect(),
            periods: head.periods.iter().map(|period| &period.id).collect(),
            threads: head.threads.iter().map(|thread| &thread.id).collect(),
            actions: board.practice().actions.into_iter().map(|one| one.action).collect(),
            found: Vec::new(),
        }
    }

    fn dangles(&mut self, from: RecordRef, path: Vec<Step>, to: Target) {
        self.found.push(Broken::Dangling(Dangling { from, path, to }));
    }

    pub(super) fn head(&mut self) {
        let board = self.board;
        let budget = &board.head().budget;
        for id in budget.characters.keys() {
            if !self.characters.contains(id) {
                let path = vec![key("budget"), key("characters"), Step::Name(id.to_string())];
                self.dangles(RecordRef::Head, path, Target::Character(id.clone()));
            }
        }
        for id in budget.periods.keys() {
            if !self.periods.contains(id) {
                let path = vec![key("budget"), key("periods"), Step::Name(id.to_string())];
                self.dangles(RecordRef::Head, path, Target::Period(id.clone()));
            }
        }
        self.groups();
    }

    /// The groups of outfits that the settings of a suggestion name.
    fn groups(&mut self) {
        let gather = &self.board.head().gather;
        let all = [("at-most", &gather.at_most), ("at-least", &gather.at_least)];
        for (list, among) in
            all.into_iter().flat_map(|(list, pairs)| pairs.keys().map(move |key| (list, key)))
        {
            let (is_there, target) = match among {
                Among::Character(id) => (self.characters.contains(id), Target::Character(id.clone())),
                Among::Period(id) => (self.periods.contains(id), Target::Period(id.clone())),
                Among::Thread(id) => (self.threads.contains(id), Target::Thread(id.clone())),
            };
            if !is_there {
                self.dangles(
                    RecordRef::Head,
                    vec![key("gather"), key(list), Step::Name(among.to_string())],
                    target,
                );
            }
        }
    }

    pub(super) fn outfit(&mut self, id: &OutfitId, outfit: &Outfit) {
        let from = || RecordRef::Outfit(id.clone());
        self.character(from, &outfit.character);
        self.period(from, &[], outfit.period.as_ref());
        self.threads(from, &outfit.threads);
        self.wishes(id, outfit);
    }

    /// What one outfit wishes of others.
    fn wishes(&mut self, id: &OutfitId, outfit: &Outfit) {
        let wishes = &outfit.wishes;
        let lists = [("apart", &wishes.apart), ("together", &wishes.together)];
        if lists.iter().any(|(_, others)| others.contains(id)) {
            self.found.push(Broken::WishOfItself(id.clone()));
        }
        for (name, others) in lists {
            for (at, other) in others.iter().enumerate() {
                if self.board.outfit(other).is_none() {
                    let path = vec![key("wishes"), key(name), Step::At(at)];
                    self.dangles(RecordRef::Outfit(id.clone()), path, Target::Outfit(other.clone()));
                }
            }
        }
        let named: BTreeSet<&OutfitId> = wishes.apart.iter().filter(|other| *other != id).collect();
        let relations = self.board.relations();
        for other in named {
            // Where both say that they are to be apart, the first of the two says it here.
            let said =
                id > other && self.board.outfit(other).is_some_and(|other| other.wishes.apart.contains(id));
            if !said && relations.together_with(id).contains(other) {
                let (first, second) = if id < other { (id, other) } else { (other, id) };
                self.found.push(Broken::ApartAndTogether(first.clone(), second.clone()));
            }
        }
        let named: BTreeSet<&OutfitId> = wishes.together.iter().collect();
        for other in named {
            if self.board.outfit(other).is_some_and(|other| other.character != outfit.character) {
                self.found.push(Broken::TogetherWithOther(id.clone(), other.clone()));
            }
        }
    }

    pub(super) fn look(&mut self, id: &LookId, look: &Look) {
        let from = || RecordRef::Look(id.clone());
        self.character(from, &look.character);
        self.period(from, &[], look.period.as_ref());
        self.threads(from, &look.threads);
        self.held(id, look);
        self.making(id, look);
        match (look.treatment, look.outfits().next().is_some()) {
            (Treatment::Invent, true) => self.found.push(Broken::BaseOfInvented(id.clone())),
            (Treatment::Copy | Treatment::Interpret, _) if look.base.is_none() => {
                self.found.push(Broken::NoBase(id.clone()));
            }
            _ => {}
        }
    }

    /// What the workroom knows of a look.
    fn making(&mut self, id: &LookId, look: &Look) {
        let from = || RecordRef::Look(id.clone());
        if let Some(wearer) = &look.wearer {
            self.wearer(from, vec![key("wearer")], wearer);
        }
        if let Some(original) = &look.original
            && self.board.body(original).is_none_or(|(_, body)| body.role != Role::Original)
        {
            self.dangles(from(), vec![key("original")], Target::Original(original.clone()));
        }
        for (piece, make) in look.make.iter() {
            self.make(id, &[key("make"), key(piece)], make);
        }
        for (at, fitting) in look.fittings.iter().enumerate() {
            if let Some(wearer) = &fitting.wearer {
                self.wearer(from, vec![key("fittings"), Step::At(at), key("wearer")], wearer);
            }
        }
    }

    fn make(&mut self, id: &LookId, way: &[Step], make: &Make) {
        let from = || RecordRef::Look(id.clone());
        let below = |steps: &[Step]| [way, steps].concat();
        for (at, cut) in make.cuts.iter().enumerate() {
            self.cloth(from, below(&[key("cuts"), Step::At(at), key("cloth")]), &cut.cloth);
        }
        for (at, version) in make.versions.iter().enumerate() {
            let in_version = |field: &str, name: &str| {
                below(&[key("versions"), Step::At(at), key(field), Step::Name(name.to_owned())])
            };
            for cloth in version.more_cloth.keys() {
                self.cloth(from, in_version("more-cloth", cloth.as_str()), cloth);
            }
            for body in version.copies.keys() {
                self.wearer(from, in_version("copies", body.as_str()), body);
            }
        }
    }

    fn cloth(&mut self, from: impl Fn() -> RecordRef, path: Vec<Step>, cloth: &ClothId) {
        if self.board.cloth(cloth).is_none() {
            self.dangles(from(), path, Target::Cloth(cloth.clone()));
        }
    }

    fn wearer(&mut self, from: impl Fn() -> RecordRef, path: Vec<Step>, body: &BodyId) {
        if !self.board.may_wear(body) {
            self.dangles(from(), path, Target::Wearer(body.clone()));
        }
    }

    /// The outfits that a look holds.
    fn held(&mut self, id: &LookId, look: &Look) {
        let paths = look.base.iter().map(|_| vec![key("base")]);
        let paths = paths.chain((0..).map(|at| vec![key("folded"), Step::At(at)]));
        let mut earlier = HashSet::new();
        for (outfit_id, path) in look.outfits().zip(paths) {
            let outfit = self.board.outfit(outfit_id);
            if outfit.is_none() {
                self.dangles(RecordRef::Look(id.clone()), path, Target::Outfit(outfit_id.clone()));
            }
            if !earlier.insert(outfit_id) {
                self.found.push(Broken::Twice(id.clone(), outfit_id.clone()));
                continue;
            }
            let holders = self.board.relations().looks_of(outfit_id);
            if holders.len() > 1 && holders.first() == Some(id) {
                self.found.push(Broken::InTwoLooks(outfit_id.clone(), holders.to_vec()));
            }
            let Some(outfit) = outfit else { continue };
            if outfit.let_go.is_some() {
                self.found.push(Broken::HeldAndLetGo(outfit_id.clone(), id.clone()));
            }
            if outfit.character != look.character {
                self.found.push(Broken::OtherOutfit(id.clone(), outfit_id.clone()));
            }
        }
    }

    /// The scene at this place.
    pub(super) fn scene(&mut self, place: usize) {
        let Some(scene) = self.board.records().scenes.get(place) else { return };
        let from = || RecordRef::Scene(scene.number.clone());
        self.period(from, &[Step::At(place)], scene.period.as_ref());
        for (character, look_id) in scene.wears.iter() {
            if !self.characters.contains(character) {
                let path = vec![Step::At(place), key("wears"), Step::Name(character.to_string())];
                self.dangles(from(), path, Target::Character(character.clone()));
            }
            let Some(look_id) = look_id else { continue };
            match self.board.look(look_id) {
                None => {
                    let path = vec![Step::At(place), key("wears"), key(character.as_str())];
                    self.dangles(from(), path, Target::Look(look_id.clone()));
                }
                Some(look) if look.character != *character => {
                    let (number, look) = (scene.number.clone(), look_id.clone());
                    self.found.push(Broken::OtherLook(number, character.clone(), look));
                }
                Some(_) => {}
            }
        }
        self.doings(place, scene);
    }

    /// What is done in a scene.
    fn doings(&mut self, place: usize, scene: &Scene) {
        let from = || RecordRef::Scene(scene.number.clone());
        for (character, doings) in scene.does.iter() {
            let below = |steps: &[Step]| [&[Step::At(place), key("does")], steps].concat();
            if !self.characters.contains(character) {
                let path = below(&[Step::Name(character.to_string())]);
                self.dangles(from(), path, Target::Character(character.clone()));
            }
            for (at, doing) in doings.iter().enumerate() {
                let field = |name: &str| below(&[key(character.as_str()), Step::At(at), key(name)]);
                if !self.actions.contains(&doing.action) {
                    self.dangles(from(), field("action"), Target::Action(doing.action.clone()));
                }
                if let Some(body) = &doing.by {
                    self.wearer(from, field("by"), body);
                }
            }
        }
    }

    pub(super) fn scene_numbers(&mut self) {
        let mut times = HashMap::new();
        for scene in self.board.scenes() {
            let times = times.entry(&scene.number).or_insert(0_usize);
            *times += 1;
            if *times == 2 {
                self.found.push(Broken::SameNumber(scene.number.clone()));
            }
        }
    }

    /// The board's own tables: actions that they name.
    pub(super) fn practice(&mut self) {
        let practice = &self.board.records().practice;
        let likes = practice.actions.iter().enumerate().filter_map(|(at, action)| {
            Some((vec![key("actions"), Step::At(at), key("like")], action.like.as_ref()?))
        });
        let raised = practice.cautions.iter().enumerate().flat_map(|(at, ask)| {
            let way = move |place| vec![key("cautions"), Step::At(at), key("actions"), Step::At(place)];
            ask.actions.iter().enumerate().map(move |(place, action)| (way(place), action))
        });
        for (path, action) in likes.chain(raised) {
            if !self.actions.contains(action) {
                self.dangles(RecordRef::Practice, path, Target::Action(action.clone()));
            }
        }
    }

    pub(super) fn schedule(&mut self) {
        for (place, day) in self.board.records().schedule.iter().enumerate() {
            for (at, number) in day.scenes.iter().enumerate() {
                if self.board.relations().scene_at(number).is_none() {
                    let path = vec![Step::At(place), key("scenes"), Step::At(at)];
                    self.dangles(RecordRef::Schedule, path, Target::Scene(number.clone()));
                }
            }
        }
    }

    fn character(&mut self, from: impl Fn() -> RecordRef, id: &CharacterId) {
        if !self.characters.contains(id) {
            self.dangles(from(), vec![key("character")], Target::Character(id.clone()));
        }
    }

    fn period(&mut self, from: impl Fn() -> RecordRef, way: &[Step], id: Option<&PeriodId>) {
        if let Some(id) = id.filter(|id| !self.periods.contains(id)) {
            self.dangles(from(), [way, &[key("period")]].concat(), Target::Period(id.clone()));
        }
    }

    fn threads(&mut self, from: impl Fn() -> RecordRef, ids: &[ThreadId]) {
        for (at, id) in ids.iter().enumerate() {
            if !self.threads.contains(id) {
                self.dangles(from(), vec![key("threads"), Step::At(at)], Target::Thread(id.clone()));
            }
        }
    }
}

fn key(name: &str) -> Step {
    Step::Key(name.to_owned())
}

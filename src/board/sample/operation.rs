//! Anything that can be done to a board, and any order of it.

use proptest::collection::vec;
use proptest::option;
use proptest::prelude::*;
use proptest::sample::select;

use super::super::{
    BaseWish, Board, Change, CharacterId, Cloth, ClothId, Edit, Head, Look, LookId, Meeting, MeetingId,
    Outfit, OutfitId, PeriodId, Practice, Records, Refused, Scene, SceneNumber, Scope, Swap, Treatment,
};
use super::arbitrary::{
    characters, heads, look_ids, looks, meeting_ids, meetings, numbers, outfit_ids, outfits, periods,
    records, scenes, scopes,
};
use super::workroom::{cloth_ids, cloths, practices};

/// Anything that a person can do to a board, and what hands can do to its files.
#[derive(Clone, Debug)]
#[allow(missing_docs, reason = "they are called as the operations that they are")]
pub enum Operation {
    Gather(Vec<OutfitId>, usize, Treatment),
    Invent(CharacterId, Option<PeriodId>),
    Fold(Vec<OutfitId>, LookId),
    Release(Vec<OutfitId>),
    LetGo(Vec<OutfitId>),
    TakeBack(Vec<OutfitId>),
    SetBase(OutfitId),
    SetTreatment(LookId, Treatment),
    GiveBase(LookId, OutfitId),
    Merge(LookId, LookId),
    Split(Vec<OutfitId>),
    Dissolve(LookId),
    Reorder(LookId, isize),
    ChangeLook(LookId, Box<Look>),
    ChangeOutfit(OutfitId, Box<Outfit>),
    AddOutfit(OutfitId, Box<Outfit>),
    ChangeHead(Box<Head>),
    WishBase(OutfitId, Option<BaseWish>),
    WishApart(Vec<OutfitId>, bool),
    WishTogether(Vec<OutfitId>, bool),
    /// One field each of those that relations or rules are made from.
    PutInPeriod(OutfitId, Option<PeriodId>),
    HandOver(OutfitId, CharacterId),
    HandOverLook(LookId, CharacterId),
    RecastOrder,
    Unname(usize),
    Raise(Scope, u32),
    Assign(SceneNumber, CharacterId, Option<LookId>),
    SendAway(SceneNumber, CharacterId),
    ChangeScene(Box<Scene>),
    AddScene(Box<Scene>, Option<SceneNumber>),
    CutScene(SceneNumber),
    Minute(MeetingId, Box<Meeting>),
    Buy(ClothId, Option<Box<Cloth>>),
    Practise(Box<Practice>),
    /// All at once, as when a folder is replaced by another.
    Become(Box<Records>),
}

impl Operation {
    /// The edit that it comes to on this board.
    pub fn edit(&self, board: &Board) -> Result<Edit, Refused> {
        Ok(match self.clone() {
            Self::Gather(outfits, base, treatment) => {
                let base = outfits.get(base).or(outfits.first()).cloned().unwrap_or_else(|| super::id("o1"));
                board.gather(&outfits, "New", &base, treatment)?.1
            }
            Self::Invent(character, period) => board.invent("Invented", &character, period.as_ref())?.1,
            Self::Fold(outfits, into) => board.fold(&outfits, &into)?,
            Self::Release(outfits) => board.release(&outfits)?,
            Self::LetGo(outfits) => board.let_go(&outfits, "because")?,
            Self::TakeBack(outfits) => board.take_back(&outfits)?,
            Self::SetBase(outfit) => board.set_base(&outfit)?,
            Self::SetTreatment(look, treatment) => board.set_treatment(&look, treatment)?,
            Self::GiveBase(look, outfit) => board.give_base(&look, &outfit)?,
            Self::Merge(from, into) => board.merge_looks(&from, &into)?,
            Self::Split(outfits) => board.split(&outfits, "Split")?.1,
            Self::Dissolve(look) => board.dissolve(&look)?,
            Self::Reorder(look, by) => board.reorder(&look, by)?,
            Self::ChangeLook(id, becomes) => board.change_look(&id, "changed", |look| *look = *becomes)?,
            Self::ChangeOutfit(id, becomes) => {
                board.change_outfit(&id, "changed", |outfit| *outfit = *becomes)?
            }
            Self::AddOutfit(id, outfit) => board.add_outfit(&id, *outfit)?,
            Self::ChangeHead(becomes) => board.change_head("changed", |head| *head = *becomes),
            Self::WishBase(outfit, wish) => board.wish_base(&outfit, wish)?,
            Self::WishApart(outfits, wish) => board.wish_apart(&outfits, wish)?,
            Self::WishTogether(outfits, wish) => board.wish_together(&outfits, wish)?,
            Self::PutInPeriod(id, period) => {
                board.change_outfit(&id, "changed", |outfit| outfit.period = period)?
            }
            Self::HandOver(id, to) => board.change_outfit(&id, "changed", |outfit| outfit.character = to)?,
            Self::HandOverLook(id, to) => board.change_look(&id, "changed", |look| look.character = to)?,
            Self::RecastOrder => board.change_head("changed", |head| head.characters.reverse()),
            Self::Unname(at) => board.change_head("changed", |head| {
                if at < head.periods.len() {
                    head.periods.remove(at);
                }
            }),
            Self::Raise(scope, to) => {
                board.raise_limit(&scope, to, "because", "2026-10-30".parse().unwrap())?
            }
            Self::Assign(scene, who, look) => board.assign(&scene, &who, look.as_ref())?,
            Self::SendAway(scene, who) => board.send_away(&scene, &who)?,
            Self::ChangeScene(becomes) => {
                board.change_scene(&becomes.number.clone(), "changed", |scene| *scene = *becomes)?
            }
            Self::AddScene(scene, after) => board.add_scene(*scene, after.as_ref())?,
            Self::CutScene(scene) => board.cut_scene(&scene)?,
            Self::Buy(id, cloth) => board.set_cloth(&id, cloth.map(|cloth| *cloth), "bought"),
            Self::Practise(tables) => {
                let swap =
                    Swap::new(Some(board.records().practice.clone()), Some(std::sync::Arc::from(tables)));
                Edit::new("practised", vec![Change::Practice(swap)])
            }
            Self::Minute(id, says) => board.minute(&id, "minutes", |meeting| *meeting = *says),
            Self::Become(records) => Edit::between("became", board.records(), &records),
        })
    }
}

/// Any operation.
pub fn operations() -> BoxedStrategy<Operation> {
    use Operation as Op;
    let marks = || vec(outfit_ids(), 0..4);
    let any_scene = || numbers().prop_flat_map(scenes).prop_map(Box::new);
    let gathering = prop_oneof![
        (marks(), 0_usize..3, select(&Treatment::ALL[..])).prop_map(|(a, b, c)| Op::Gather(a, b, c)),
        (characters(), option::of(periods())).prop_map(|(a, b)| Op::Invent(a, b)),
        (marks(), look_ids()).prop_map(|(a, b)| Op::Fold(a, b)),
        marks().prop_map(Op::Release),
        marks().prop_map(Op::LetGo),
        marks().prop_map(Op::TakeBack),
        marks().prop_map(Op::Split),
        look_ids().prop_map(Op::Dissolve),
    ];
    let rearranging = prop_oneof![
        outfit_ids().prop_map(Op::SetBase),
        (look_ids(), select(&Treatment::ALL[..])).prop_map(|(a, b)| Op::SetTreatment(a, b)),
        (look_ids(), outfit_ids()).prop_map(|(a, b)| Op::GiveBase(a, b)),
        (look_ids(), look_ids()).prop_map(|(a, b)| Op::Merge(a, b)),
        (look_ids(), -2_isize..3).prop_map(|(a, b)| Op::Reorder(a, b)),
    ];
    let base = || option::of(select(&[BaseWish::Must, BaseWish::Never][..]));
    let wishing = prop_oneof![
        (outfit_ids(), base()).prop_map(|(a, b)| Op::WishBase(a, b)),
        (marks(), any::<bool>()).prop_map(|(a, b)| Op::WishApart(a, b)),
        (marks(), any::<bool>()).prop_map(|(a, b)| Op::WishTogether(a, b)),
    ];
    let amending = prop_oneof![
        (look_ids(), looks().prop_map(Box::new)).prop_map(|(a, b)| Op::ChangeLook(a, b)),
        (outfit_ids(), outfits().prop_map(Box::new)).prop_map(|(a, b)| Op::ChangeOutfit(a, b)),
        (outfit_ids(), outfits().prop_map(Box::new)).prop_map(|(a, b)| Op::AddOutfit(a, b)),
        heads().prop_map(|head| Op::ChangeHead(Box::new(head))),
        (outfit_ids(), option::of(periods())).prop_map(|(a, b)| Op::PutInPeriod(a, b)),
        (outfit_ids(), characters()).prop_map(|(a, b)| Op::HandOver(a, b)),
        (look_ids(), characters()).prop_map(|(a, b)| Op::HandOverLook(a, b)),
        Just(Op::RecastOrder),
        (0_usize..3).prop_map(Op::Unname),
        (scopes(), 0_u32..9).prop_map(|(a, b)| Op::Raise(a, b)),
        records().prop_map(|records| Op::Become(Box::new(records))),
    ];
    let casting = prop_oneof![
        (numbers(), characters(), option::of(look_ids())).prop_map(|(a, b, c)| Op::Assign(a, b, c)),
        (numbers(), characters()).prop_map(|(a, b)| Op::SendAway(a, b)),
        any_scene().prop_map(Op::ChangeScene),
        (any_scene(), option::of(numbers())).prop_map(|(a, b)| Op::AddScene(a, b)),
        numbers().prop_map(Op::CutScene),
        (meeting_ids(), meetings().prop_map(Box::new)).prop_map(|(a, b)| Op::Minute(a, b)),
        (cloth_ids(), option::of(cloths().prop_map(Box::new))).prop_map(|(a, b)| Op::Buy(a, b)),
        practices().prop_map(|tables| Op::Practise(Box::new(tables))),
    ];
    prop_oneof![4 => gathering, 3 => rearranging, 2 => amending, 3 => casting, 1 => wishing].boxed()
}

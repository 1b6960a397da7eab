//! What the workroom knows, as nobody would write it; see [`arbitrary`](super::arbitrary).

use std::num::NonZeroU8;
use std::sync::Arc;

use proptest::collection::vec;
use proptest::option;
use proptest::prelude::*;
use proptest::sample::{select, subsequence};

use super::super::{
    Action, ActionId, Added, Addition, Ask, Board, Body, BodyId, CharacterId, Cloth, ClothId, Cut, Doing,
    Effect, Expense, Fitting, Found, Lay, Make, Measure, Pairs, Practice, Records, Role, Rule, Spares, Trial,
    Verdict, Version, VersionId, Workroom,
};
use super::arbitrary::{DATES, WORDS, characters, ids, parsed, text, texts};

const BODIES: [&str; 7] = ["kim", "lee", "ada-real", "ola", "ben-real", "ben", "stranger"];
const CLOTHS: [&str; 3] = ["serge", "duck", "missing"];
const ACTIONS: [&str; 3] = ["swim", "burn", "fly"];
const VERSIONS: [&str; 3] = ["standing", "wet", "floor"];
const WORK: [&str; 3] = ["cutting", "sewing", "dyeing"];
const PIECES: [&str; 3] = ["coat", "trousers", " ~ "];
const SIZES: [&str; 4] = ["57 cm", "22 1/2 in", "0.01 mm", "1 m"];
const LENGTHS: [&str; 4] = ["57 cm", "-1/4 in", "0 mm", "6.25 mm"];
const BODY_MEASURES: [&str; 3] = ["chest-girth", "inside-leg-length", "waist-girth"];
const FRACTIONS: [&str; 4] = ["0.6", "4.5 %", "1/3", "100 %"];
const ANGLES: [&str; 3] = ["70", "90", "0.25"];
const MONEY: [&str; 4] = ["0", "18.40", "1240", "0.0125"];
const HOURS: [&str; 3] = ["0", "4.5", "1:20"];
const WEIGHTS: [&str; 3] = ["270 g/m²", "16 momme", "4 oz leather"];
const FIBRES: [&str; 3] = ["wool", "nylon", "leather"];

pub(super) fn body_ids() -> impl Strategy<Value = BodyId> {
    ids(&BODIES)
}

pub(super) fn cloth_ids() -> impl Strategy<Value = ClothId> {
    ids(&CLOTHS[..2])
}

/// Seldom one that is nowhere.
fn cloth_names() -> impl Strategy<Value = ClothId> {
    prop_oneof![9 => cloth_ids(), 1 => ids(&CLOTHS)]
}

fn actions() -> impl Strategy<Value = ActionId> {
    ids(&ACTIONS)
}

fn pieces() -> impl Strategy<Value = String> {
    select(&PIECES[..]).prop_map(str::to_owned)
}

fn counts() -> impl Strategy<Value = NonZeroU8> {
    (1_u8..9).prop_map(|count| NonZeroU8::new(count).unwrap())
}

/// The bodies of two characters, no two of which have one name.
pub(super) fn bodies() -> BoxedStrategy<Vec<Vec<Body>>> {
    let of = |names: &'static [&'static str]| {
        let measures = vec((parsed(&BODY_MEASURES), parsed(&SIZES)), 0..3).prop_map(Pairs::from_iter);
        let told = (text(), select(&Role::ALL[..]), option::of(parsed(&DATES)), measures, text());
        (subsequence(names, 0..=names.len()), vec(told, names.len())).prop_map(|(names, told)| {
            let body = |(name, told): (&str, _)| {
                let (who, role, taken, measures, notes) = told;
                Body { id: super::id(name), who, role, taken, measures, notes }
            };
            names.into_iter().zip(told).map(body).collect::<Vec<_>>()
        })
    };
    (of(&BODIES[..3]), of(&BODIES[3..5])).prop_map(|(ada, ben)| vec![ada, ben]).boxed()
}

/// What garments measured, by piece and measure.
pub(super) fn measured<S>() -> BoxedStrategy<Pairs<String, Pairs<String, S>>>
where
    S: std::str::FromStr<Err: std::fmt::Debug> + std::fmt::Debug + Clone + 'static,
{
    let of_piece = vec((text(), parsed::<S>(&SIZES)), 0..3).prop_map(Pairs::from_iter);
    let some = vec((pieces(), of_piece), 1..3).prop_map(Pairs::from_iter);
    prop_oneof![3 => Just(Pairs::default()), 1 => some].boxed()
}

fn rules() -> BoxedStrategy<Rule> {
    let eased = || option::of(parsed(&LENGTHS));
    prop_oneof![
        (parsed(&BODY_MEASURES), eased()).prop_map(|(of, eased)| Rule::Ease { of, eased }),
        (parsed(&BODY_MEASURES), eased()).prop_map(|(of, eased)| Rule::Ratio { of, eased }),
        (parsed(&BODY_MEASURES), option::of(parsed(&FRACTIONS)), parsed(&ANGLES))
            .prop_map(|(of, fraction, angle)| Rule::Landmark { of, fraction, angle }),
        Just(Rule::Same),
    ]
    .boxed()
}

fn measures() -> impl Strategy<Value = Vec<Measure>> {
    let one = (text(), option::of(parsed(&SIZES)), rules());
    vec(one.prop_map(|(name, original, rule)| Measure { name, original, rule }), 0..3)
}

fn cuts() -> impl Strategy<Value = Vec<Cut>> {
    let lay = prop_oneof![
        parsed(&SIZES).prop_map(Lay::Laid),
        (counts(), parsed(&SIZES), parsed(&SIZES)).prop_map(|(panels, length, width)| Lay::Panels {
            panels,
            length,
            width
        }),
        counts().prop_map(Lay::Skins),
    ];
    vec((cloth_names(), lay).prop_map(|(cloth, lay)| Cut { cloth, lay }), 0..3)
}

fn versions() -> BoxedStrategy<Vec<Version>> {
    let by = prop_oneof![
        (parsed(&SIZES), parsed(&ANGLES)).prop_map(|(thick, arc)| Added::Pad { thick, arc }),
        parsed(&SIZES).prop_map(Added::Rise),
        parsed(&SIZES).prop_map(Added::Reach),
    ];
    let adds = vec((text(), by).prop_map(|(to, by)| Addition { to, by }), 0..3);
    let more_cloth = vec((cloth_names(), parsed(&SIZES)), 0..2).prop_map(Pairs::from_iter);
    let more_hours = vec((ids(&WORK), parsed(&HOURS)), 0..2).prop_map(Pairs::from_iter);
    let copies = vec((body_ids(), 0_u8..9), 0..3).prop_map(Pairs::from_iter);
    let told = (ids(&VERSIONS), texts(), texts(), adds);
    let one = (told, more_cloth, more_hours, copies, text()).prop_map(
        |((version, rigs, differs, adds), more_cloth, more_hours, copies, notes)| Version {
            version,
            rigs,
            differs,
            adds,
            more_cloth,
            more_hours,
            copies,
            notes,
        },
    );
    vec(one, 0..3).boxed()
}

/// How the pieces of a look are made.
pub(super) fn makes() -> BoxedStrategy<Pairs<String, Make>> {
    let hours = || vec((ids(&WORK), parsed(&HOURS)), 0..3).prop_map(Pairs::from_iter);
    let expense = (text(), option::of(parsed(&MONEY)), option::of(parsed(&MONEY)));
    let costs = vec(expense.prop_map(|(what, each, once)| Expense { what, each, once }), 0..2);
    let one = (measures(), cuts(), versions(), 0_u8..3, hours(), hours(), costs).prop_map(
        |(measures, cuts, versions, toiles, hours, hours_once, costs)| Make {
            measures,
            cuts,
            versions,
            toiles,
            hours,
            hours_once,
            costs,
        },
    );
    let some = vec((pieces(), one), 1..3).prop_map(Pairs::from_iter);
    prop_oneof![2 => Just(Pairs::default()), 1 => some].boxed()
}

/// The fittings of a look.
pub(super) fn fittings() -> BoxedStrategy<Vec<Fitting>> {
    let found = (
        pieces(),
        text(),
        option::of(parsed(&SIZES)),
        option::of(parsed(&LENGTHS)),
        option::of(parsed(&SIZES)),
    );
    let found = found.prop_map(|(piece, measure, measured, pinned, decided)| Found {
        piece,
        measure,
        measured,
        pinned,
        decided,
    });
    let pictures = vec(parsed(&["images/fitting.jpg", "images/toile 2.png"]), 0..2);
    let one = (parsed(&DATES), option::of(body_ids()), vec(found, 0..3), pictures, text());
    let one =
        one.prop_map(|(on, wearer, found, pictures, notes)| Fitting { on, wearer, found, pictures, notes });
    prop_oneof![2 => Just(Vec::new()), 1 => vec(one, 1..3)].boxed()
}

/// What is done in a scene.
pub(super) fn does() -> BoxedStrategy<Pairs<CharacterId, Vec<Doing>>> {
    let doing = (actions(), option::weighted(0.3, body_ids()), counts(), vec(pieces(), 0..2));
    let doing = doing.prop_map(|(action, by, takes, pieces)| Doing { action, by, takes, pieces });
    let some = vec((characters(), vec(doing, 0..3)), 1..3).prop_map(Pairs::from_iter);
    prop_oneof![2 => Just(Pairs::default()), 1 => some].boxed()
}

/// Any cloth.
pub(super) fn cloths() -> BoxedStrategy<Cloth> {
    let woven = (
        text(),
        vec(parsed(&FIBRES), 0..3),
        text(),
        option::of(parsed(&WEIGHTS)),
        option::of(parsed(&SIZES)),
        option::of(parsed(&SIZES)),
        option::of(parsed(&SIZES)),
    );
    let behaves = (
        any::<bool>(),
        option::of(parsed(&FRACTIONS)),
        option::of(parsed(&FRACTIONS)),
        option::of(parsed(&["black", "#e8e0d0"])),
        option::of(parsed(&["Navy", "#FFF"])),
        text(),
    );
    let bought = (
        text(),
        option::of(parsed(&MONEY)),
        option::of(parsed(&LENGTHS)),
        option::of(0_u16..90),
        option::of(parsed(&SIZES)),
        option::of((1_u16..1200).prop_map(|dpi| std::num::NonZeroU16::new(dpi).unwrap())),
    );
    let trial = (0_u32..5, option::of(parsed(&DATES)), parsed(&WEIGHTS), select(&Verdict::ALL[..]), text());
    let trial =
        trial.prop_map(|(trial, on, weight, verdict, notes)| Trial { trial, on, weight, verdict, notes });
    (woven, behaves, bought, vec(trial, 0..3), text())
        .prop_map(|(woven, behaves, bought, trials, notes)| {
            let (title, fibres, weave, weight, width, repeat, repeat_across) = woven;
            let (nap, shrinkage, stretch, colour, source_colour, finish) = behaves;
            let (supplier, price, stock, lead_days, test_strips, print_dpi) = bought;
            Cloth {
                title,
                fibres,
                weave,
                weight,
                width,
                repeat,
                repeat_across,
                nap,
                shrinkage,
                stretch,
                colour,
                source_colour,
                finish,
                supplier,
                price,
                stock,
                lead_days,
                test_strips,
                print_dpi,
                trials,
                notes,
            }
        })
        .boxed()
}

/// Any tables of practice.
pub(super) fn practices() -> BoxedStrategy<Practice> {
    let effects =
        || select(&[Effect::Nothing, Effect::Soil, Effect::Wet, Effect::Strain, Effect::Destroy][..]);
    let turnaround = vec((effects(), 0_u8..5), 0..3).prop_map(Pairs::from_iter);
    let spares = (option::of(0_u8..4), option::of(counts()));
    let spares = spares.prop_map(|(principal, for_destroyed)| Spares { principal, for_destroyed });
    let versions = || option::of(ids(&VERSIONS).prop_map(|id: VersionId| id));
    let like = option::weighted(0.2, actions());
    let action =
        (actions(), text(), like, versions(), texts(), effects(), any::<bool>(), option::of(0_u8..5));
    let action = action.prop_map(|(action, says, like, version, pieces, does, fresh, back)| Action {
        action,
        says,
        like,
        version,
        pieces,
        does,
        fresh,
        back,
    });
    let raised = (vec(actions(), 0..2), vec(parsed(&FIBRES), 0..2), option::of(parsed(&WEIGHTS)), texts());
    let ask = (select(&["fire", "cold"][..]), raised, text(), text(), text()).prop_map(
        |(name, (actions, fibres, heavier_than, pieces), says, ask, of)| Ask {
            caution: super::id(name),
            actions,
            fibres,
            heavier_than,
            pieces,
            says,
            ask,
            of,
        },
    );
    let rest = (option::of(0_u16..90), option::of(parsed(&FRACTIONS)), vec(action, 0..3), vec(ask, 0..2));
    let some = (turnaround, spares, rest).prop_map(
        |(turnaround, spares, (making_days, nap_extra, actions, cautions))| Practice {
            turnaround,
            spares,
            making_days,
            nap_extra,
            actions,
            cautions,
        },
    );
    prop_oneof![1 => Just(Practice::default()), 1 => some].boxed()
}

/// What the workroom goes by.
pub(super) fn workrooms() -> BoxedStrategy<Workroom> {
    let rates = vec((ids(&WORK), parsed(&MONEY)), 0..3).prop_map(Pairs::from_iter);
    (select(&WORDS[..]), option::of(parsed(&MONEY)), rates)
        .prop_map(|(currency, money, rates)| Workroom { currency: currency.to_owned(), money, rates })
        .boxed()
}

/// Takes out what names a cloth, body, character or action that is not there.
pub(super) fn mend_workroom(records: &mut Records) {
    let practice = Arc::make_mut(&mut records.practice);
    let there: Vec<ActionId> = practice.actions.iter().map(|one| one.action.clone()).collect();
    for action in &mut practice.actions {
        action.like = action.like.take().filter(|like| there.contains(like));
    }
    for ask in &mut practice.cautions {
        ask.actions.retain(|action| there.contains(action));
    }
    let board = Board::new(records.clone());
    let wears = |id: &BodyId| board.may_wear(id);
    let is_original = |id: &BodyId| board.body(id).is_some_and(|(_, body)| body.role == Role::Original);
    for look in records.looks.values_mut().map(Arc::make_mut) {
        look.wearer = look.wearer.take().filter(wears);
        look.original = look.original.take().filter(is_original);
        look.make =
            look.make.iter().map(|(piece, make)| (piece.clone(), mended(&board, make.clone()))).collect();
        for fitting in &mut look.fittings {
            fitting.wearer = fitting.wearer.take().filter(wears);
        }
    }
    let tables = board.practice();
    for scene in records.scenes.iter_mut().map(Arc::make_mut) {
        let does =
            scene.does.iter().filter(|(who, _)| board.character(who).is_some()).map(|(who, doings)| {
                let mut doings: Vec<Doing> = doings.clone();
                doings.retain(|doing| tables.action(&doing.action).is_some());
                for doing in &mut doings {
                    doing.by = doing.by.take().filter(wears);
                }
                (who.clone(), doings)
            });
        scene.does = does.collect();
    }
}

fn mended(board: &Board, mut make: Make) -> Make {
    let is_there = |id: &ClothId| board.cloth(id).is_some();
    make.cuts.retain(|cut| is_there(&cut.cloth));
    for version in &mut make.versions {
        let more = version.more_cloth.iter().filter(|(id, _)| is_there(id));
        version.more_cloth = more.map(|(id, size)| (id.clone(), *size)).collect();
        let copies = version.copies.iter().filter(|(id, _)| board.may_wear(id));
        version.copies = copies.map(|(id, copies)| (id.clone(), *copies)).collect();
    }
    make
}

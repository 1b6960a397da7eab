//! Records as nobody would write them: for properties that must hold on any board.
//!
//! Names come from small pools, so that records meet, and some names are declared nowhere. Strategies are boxed, since
//! nested ones are larger than the stack of a test.

use std::collections::BTreeMap;
use std::sync::Arc;

use proptest::collection::{btree_map, btree_set, vec};
use proptest::option;
use proptest::prelude::*;
use proptest::sample::{select, subsequence};

use super::super::{
    Among, BaseWish, Character, CharacterId, Decision, Departure, Evidence, EvidenceKind, GatherSettings,
    Head, Id, Light, Look, LookId, Meeting, MeetingId, Outfit, OutfitId, Pairs, Period, PeriodId, Piece,
    Place, Question, Raise, Reach, Recognition, Records, Scene, SceneNumber, Scope, ShootDay, Stage, Stop,
    Thread, ThreadId, Treatment, Weight, Weights, Wishes,
};
use super::workroom::{
    bodies, body_ids, cloth_ids, cloths, does, fittings, makes, measured, mend_workroom, practices, workrooms,
};

const OUTFITS: [&str; 8] = ["o1", "o2", "o3", "o4", "o5", "o6", "o7", "o8"];
const LOOKS: [&str; 5] = ["l1", "l2", "l3", "l4", "l5"];
const CHARACTERS: [&str; 3] = ["ada", "ben", "nobody"];
const PERIODS: [&str; 4] = ["p1", "p2", "p3", "never"];
const THREADS: [&str; 3] = ["t1", "t2", "lost"];
const MEETINGS: [&str; 3] = ["2026-11-25", "2026-11-25-2", "2027-01-07"];
const SCENES: [&str; 7] = ["1", "2", "3", "3A", "3B", "4", "12"];
pub(super) const DATES: [&str; 14] = [
    "1926-08-14",
    "1926-08",
    "1926~",
    "1926?",
    "192X",
    "19XX",
    "1926-21",
    "1924/1926",
    "../1931",
    "1931/..",
    "1911",
    "1935",
    "Y170000002",
    "-0044-03-15",
];
pub(super) const WORDS: [&str; 9] =
    ["", "wool", "square neck", " ~ ", "null", "12", "a: b", "Odile’s crêpe", "two\nlines"];
const COLOURS: [&str; 4] = ["black", "#e8e0d0", "Navy", "#FFF"];

/// One of a pool of names.
pub(super) fn ids<K: 'static>(pool: &'static [&'static str]) -> impl Strategy<Value = Id<K>> {
    select(pool).prop_map(super::id)
}

pub(super) fn outfit_ids() -> impl Strategy<Value = OutfitId> {
    ids(&OUTFITS)
}

pub(super) fn look_ids() -> impl Strategy<Value = LookId> {
    ids(&LOOKS)
}

pub(super) fn characters() -> impl Strategy<Value = CharacterId> {
    // The undeclared one is rare, so that most records can meet.
    prop_oneof![9 => ids(&CHARACTERS[..2]), 1 => ids(&CHARACTERS)]
}

pub(super) fn periods() -> impl Strategy<Value = PeriodId> {
    ids(&PERIODS)
}

pub(super) fn numbers() -> impl Strategy<Value = SceneNumber> {
    select(&SCENES[..]).prop_map(super::number)
}

fn threads() -> impl Strategy<Value = Vec<ThreadId>> {
    subsequence(&THREADS[..], 0..3).prop_shuffle().prop_map(|names| super::ids(&names))
}

pub(super) fn text() -> impl Strategy<Value = String> {
    select(&WORDS[..]).prop_map(str::to_owned)
}

pub(super) fn texts() -> impl Strategy<Value = Vec<String>> {
    vec(text(), 0..3)
}

/// Any value that is read from one of these texts.
pub(super) fn parsed<T>(pool: &'static [&'static str]) -> impl Strategy<Value = T>
where
    T: std::str::FromStr + std::fmt::Debug,
    T::Err: std::fmt::Debug,
{
    select(pool).prop_map(|text| text.parse().unwrap())
}

fn pieces() -> impl Strategy<Value = Vec<Piece>> {
    let piece = (text(), text(), vec(parsed(&COLOURS), 0..3), texts());
    let piece = piece.prop_map(|(name, cloth, colours, details)| Piece { name, cloth, colours, details });
    vec(piece, 0..3)
}

fn evidence() -> impl Strategy<Value = Vec<Evidence>> {
    let one = (select(&EvidenceKind::ALL[..]), text(), text(), text(), text());
    let one = one.prop_map(|(kind, source, credit, rights, notes)| Evidence {
        kind,
        source,
        credit,
        rights,
        notes,
    });
    vec(one, 0..3)
}

fn wishes() -> impl Strategy<Value = Wishes> {
    let few = || prop_oneof![3 => Just(Vec::new()), 1 => vec(outfit_ids(), 1..3)];
    (option::weighted(0.2, select(&[BaseWish::Must, BaseWish::Never][..])), few(), few())
        .prop_map(|(base, apart, together)| Wishes { base, apart, together })
}

/// Any outfit.
pub fn outfits() -> BoxedStrategy<Outfit> {
    let told = (text(), characters(), option::of(parsed(&DATES)), text(), option::weighted(0.2, periods()));
    let made = (text(), pieces(), evidence(), 0..=Recognition::MOST, threads(), texts());
    let rest = (
        vec(parsed(&["images/a.png", "images/b c.jpg"]), 0..2),
        texts(),
        text(),
        option::weighted(0.3, text()),
        wishes(),
        measured(),
    );
    (told, made, rest)
        .prop_map(|(told, made, rest)| {
            let (title, character, worn, occasion, period) = told;
            let (silhouette, pieces, evidence, recognition, threads, dressing) = made;
            let (pictures, tags, notes, let_go, wishes, measured) = rest;
            let recognition = Recognition::new(recognition).unwrap();
            Outfit {
                title,
                character,
                worn,
                occasion,
                period,
                silhouette,
                pieces,
                measured,
                evidence,
                recognition,
                threads,
                dressing,
                pictures,
                tags,
                notes,
                let_go,
                wishes,
            }
        })
        .boxed()
}

fn departures() -> impl Strategy<Value = Vec<Departure>> {
    let one = (text(), text(), text(), text());
    vec(one.prop_map(|(detail, was, becomes, why)| Departure { detail, was, becomes, why }), 0..3)
}

fn orders() -> impl Strategy<Value = i64> {
    prop_oneof![4 => -2_i64..3, 4 => (1_i64..5).prop_map(|step| step * 10), 1 => select(&[i64::MIN, i64::MAX][..])]
}

/// Any look.
pub fn looks() -> BoxedStrategy<Look> {
    let told =
        (text(), characters(), text(), select(&Treatment::ALL[..]), option::weighted(0.8, outfit_ids()));
    let folded = subsequence(&OUTFITS[..], 0..4).prop_shuffle().prop_map(|names| super::ids(&names));
    let placed = (folded, option::weighted(0.3, periods()), orders(), select(&Stage::ALL[..]));
    let made = (departures(), pieces(), threads(), texts(), text());
    let workroom =
        (option::weighted(0.2, body_ids()), option::weighted(0.2, body_ids()), makes(), fittings());
    (told, placed, made, workroom)
        .prop_map(|(told, placed, made, workroom)| {
            let (title, character, says, treatment, base) = told;
            let (folded, period, order, stage) = placed;
            let (departures, pieces, threads, dressing, notes) = made;
            let (wearer, original, make, fittings) = workroom;
            Look {
                title,
                character,
                says,
                treatment,
                base,
                folded,
                period,
                order,
                stage,
                departures,
                pieces,
                threads,
                dressing,
                notes,
                wearer,
                original,
                make,
                fittings,
            }
        })
        .boxed()
}

fn wears() -> impl Strategy<Value = Pairs<CharacterId, Option<LookId>>> {
    vec((characters(), option::of(look_ids())), 0..4).prop_map(Pairs::from_iter)
}

/// Any scene of this number.
pub fn scenes(number: SceneNumber) -> BoxedStrategy<Scene> {
    let places = option::of(select(&[Place::Inside, Place::Outside, Place::Both][..]));
    let lights = option::of(select(&[Light::Day, Light::Night, Light::Dawn, Light::Dusk][..]));
    let told = (text(), text(), places, lights, option::of(parsed(&["D1", "N1", "D12"])));
    let timed =
        (option::of(parsed(&DATES)), option::weighted(0.2, periods()), parsed(&["0", "2", "4/8", "1 3/8"]));
    let rest = (wears(), does(), text(), text());
    (told, timed, rest)
        .prop_map(move |(told, timed, rest)| {
            let (heading, set, place, light, story_day) = told;
            let (date, period, pages) = timed;
            let (wears, does, action, notes) = rest;
            let number = number.clone();
            Scene {
                number,
                heading,
                set,
                place,
                light,
                story_day,
                date,
                period,
                pages,
                wears,
                does,
                action,
                notes,
            }
        })
        .boxed()
}

fn all_scenes() -> BoxedStrategy<Vec<Scene>> {
    let numbers = subsequence(&SCENES[..], 0..=SCENES.len()).prop_shuffle();
    numbers
        .prop_flat_map(|numbers| {
            numbers.into_iter().map(|text| scenes(super::number(text))).collect::<Vec<_>>()
        })
        .boxed()
}

/// Any shooting days.
pub fn schedules() -> BoxedStrategy<Vec<ShootDay>> {
    let one = (1_u32..5, option::of(parsed(&DATES)), vec(numbers(), 0..3), text());
    vec(one.prop_map(|(day, date, scenes, notes)| ShootDay { day, date, scenes, notes }), 0..3).boxed()
}

pub(super) fn meeting_ids() -> impl Strategy<Value = MeetingId> {
    ids(&MEETINGS)
}

fn stops() -> impl Strategy<Value = Stop> {
    prop_oneof![
        Just(Stop::Board),
        periods().prop_map(Stop::Period),
        look_ids().prop_map(Stop::Look),
        numbers().prop_map(Stop::Scene),
    ]
}

/// Any meeting.
pub fn meetings() -> BoxedStrategy<Meeting> {
    let decision = (text(), stops(), text(), option::of(parsed(&DATES)));
    let decision = decision.prop_map(|(decision, at, owner, due)| Decision { decision, at, owner, due });
    let question = (text(), stops(), text(), option::of(parsed(&DATES)), text());
    let question =
        question.prop_map(|(question, at, owner, due, answer)| Question { question, at, owner, due, answer });
    (text(), texts(), vec(decision, 0..3), vec(question, 0..3), text())
        .prop_map(|(title, present, decisions, questions, notes)| Meeting {
            title,
            present,
            decisions,
            questions,
            notes,
        })
        .boxed()
}

fn amongs() -> impl Strategy<Value = Among> {
    prop_oneof![
        characters().prop_map(Among::Character),
        periods().prop_map(Among::Period),
        ids(&THREADS).prop_map(Among::Thread),
    ]
}

fn gather_settings() -> impl Strategy<Value = GatherSettings> {
    let weight = || option::weighted(0.2, select(&[0.0, 0.125, 1.0, 3.0][..]));
    let reach =
        || option::weighted(0.2, select(&[0.5, 12.0, 50.0][..]).prop_map(|value| Reach::new(value).unwrap()));
    let counts = || vec((amongs(), 0_u32..5), 0..2).prop_map(Pairs::from_iter);
    (vec(weight(), 7), reach(), reach(), counts(), counts()).prop_map(
        |(weights, years_apart, colours_apart, at_most, at_least)| {
            let weight = |at: usize| weights[at].and_then(Weight::new);
            let mut weights = Weights {
                date: weight(0),
                pieces: weight(1),
                silhouette: weight(2),
                cloth: weight(3),
                occasion: weight(4),
                colours: weight(5),
                threads: weight(6),
            };
            if weights.date == Weight::new(0.0) {
                weights.date = None;
            }
            GatherSettings { weights, years_apart, colours_apart, at_most, at_least }
        },
    )
}

/// Any head. It always declares the two characters, and no name twice.
pub fn heads() -> BoxedStrategy<Head> {
    let declared = (
        subsequence(&PERIODS[..3], 0..=3).prop_shuffle(),
        vec((parsed(&DATES), text(), text()), 3),
        subsequence(&THREADS[..2], 0..=2),
        (text(), text(), text()),
    );
    let raise = (parsed(&DATES), scopes(), 0_u32..5, 0_u32..9, text());
    let raise = raise.prop_map(|(on, limit, from, to, why)| Raise { on, limit, from, to, why });
    let budget = (
        option::of(0_u32..6),
        option::of(parsed(&["3/8", "1"])),
        vec((characters(), 0_u32..4), 0..3).prop_map(Pairs::from_iter),
        vec((periods(), 0_u32..4), 0..3).prop_map(Pairs::from_iter),
        vec(raise, 0..2),
    );
    let told = (text(), text(), option::of(0_u32..200), select(&["cm", "in"][..]));
    (told, declared, budget, gather_settings(), bodies(), workrooms())
        .prop_map(|(told, declared, budget, gather, bodies, workroom)| {
            let (title, notes, runtime, units) = told;
            let (period_names, spans, thread_names, (name, performer, says)) = declared;
            let (looks, least_screen_time, characters, periods, raised) = budget;
            let mut head: Head =
                super::read(serde_json::json!({"shirr": 1, "id": "any", "title": title, "units": units}));
            head.notes = notes;
            head.gather = gather;
            head.workroom = workroom;
            head.runtime = runtime;
            head.budget.looks = looks;
            head.budget.least_screen_time = least_screen_time;
            head.budget.characters = characters;
            head.budget.periods = periods;
            head.budget.raised = raised;
            head.periods = period_names
                .into_iter()
                .zip(spans)
                .map(|(id, (span, title, says))| Period {
                    id: super::id(id),
                    title,
                    span,
                    says,
                    notes: String::new(),
                })
                .collect();
            head.characters = CHARACTERS[..2]
                .iter()
                .zip(bodies)
                .map(|(id, bodies)| Character {
                    performer: performer.clone(),
                    principal: bodies.len() < 3,
                    bodies,
                    ..Character::named(super::id(id), &name)
                })
                .collect();
            head.threads = thread_names
                .into_iter()
                .map(|id| Thread { id: super::id(id), title: id.to_owned(), says: says.clone() })
                .collect();
            head
        })
        .boxed()
}

/// Any records, with whatever rules broken, save that no two scenes have one number.
pub fn records() -> BoxedStrategy<Records> {
    let outfits = btree_map(outfit_ids(), outfits().prop_map(Arc::new), 0..9);
    let looks = btree_map(look_ids(), looks().prop_map(Arc::new), 0..6);
    let meetings = btree_map(meeting_ids(), meetings().prop_map(Arc::new), 0..3);
    let cloths = btree_map(cloth_ids(), cloths().prop_map(Arc::new), 0..3);
    (heads(), outfits, looks, all_scenes(), schedules(), cloths, practices(), meetings)
        .prop_map(|(head, outfits, looks, scenes, schedule, cloths, practice, meetings)| Records {
            head: Arc::new(head),
            outfits,
            looks,
            scenes: scenes.into_iter().map(Arc::new).collect(),
            schedule: Arc::new(schedule),
            cloths,
            practice: Arc::new(practice),
            meetings,
        })
        .boxed()
}

/// Any records that break no rule.
pub fn sound_records() -> impl Strategy<Value = Records> {
    records().prop_map(mended)
}

/// Takes out wishes of what is not there, of itself, of somebody else's, and to be together where any says apart.
fn mend_wishes(outfits: &mut BTreeMap<OutfitId, Arc<Outfit>>) {
    let all = outfits.clone();
    let whose = |id: &OutfitId| all.get(id).map(|outfit| &outfit.character);
    let apart = |id: &OutfitId, from: &OutfitId| all.get(id).is_some_and(|it| it.wishes.apart.contains(from));
    for (id, outfit) in outfits.iter_mut() {
        let outfit = Arc::make_mut(outfit);
        outfit.wishes.apart.retain(|other| other != id && all.contains_key(other));
        let character = outfit.character.clone();
        outfit.wishes.together.retain(|other| {
            other != id && whose(other) == Some(&character) && !apart(id, other) && !apart(other, id)
        });
    }
}

/// The records without what breaks a rule.
fn mended(mut records: Records) -> Records {
    let mut head = Head::clone(&records.head);
    let declared = [super::id("ada"), super::id("ben")];
    let periods: Vec<PeriodId> = head.periods.iter().map(|period| period.id.clone()).collect();
    let threads: Vec<ThreadId> = head.threads.iter().map(|thread| thread.id.clone()).collect();
    let known = |period: &PeriodId| periods.contains(period);
    head.budget.characters.remove(&super::id("nobody"));
    for period in PERIODS.map(super::id).into_iter().filter(|period| !known(period)) {
        head.budget.periods.remove(&period);
    }
    let there = |among: &Among| match among {
        Among::Character(id) => declared.contains(id),
        Among::Period(id) => known(id),
        Among::Thread(id) => threads.contains(id),
    };
    for counts in [&mut head.gather.at_most, &mut head.gather.at_least] {
        *counts =
            counts.iter().filter(|(key, _)| there(key)).map(|(key, most)| (key.clone(), *most)).collect();
    }
    records.head = Arc::new(head);
    records.outfits.retain(|_, outfit| declared.contains(&outfit.character));
    records.looks.retain(|_, look| declared.contains(&look.character));
    for outfit in records.outfits.values_mut().map(Arc::make_mut) {
        outfit.period = outfit.period.take().filter(known);
        outfit.threads.retain(|thread| threads.contains(thread));
    }
    mend_wishes(&mut records.outfits);
    let mut held = Vec::new();
    for look in records.looks.values_mut().map(Arc::make_mut) {
        look.period = look.period.take().filter(known);
        look.threads.retain(|thread| threads.contains(thread));
        let mut outfits: Vec<OutfitId> = look.outfits().cloned().collect();
        outfits.retain(|id| {
            let fits = records.outfits.get(id).is_some_and(|outfit| {
                outfit.character == look.character && outfit.let_go.is_none() && !held.contains(id)
            });
            if fits {
                held.push(id.clone());
            }
            fits
        });
        if look.treatment == Treatment::Invent || outfits.is_empty() {
            look.treatment = Treatment::Invent;
            outfits.clear();
        }
        look.base = (!outfits.is_empty()).then(|| outfits.remove(0));
        look.folded = outfits;
    }
    for scene in records.scenes.iter_mut().map(Arc::make_mut) {
        scene.period = scene.period.take().filter(known);
        let fits = |who: &CharacterId, look: &LookId| {
            records.looks.get(look).is_some_and(|look| look.character == *who)
        };
        let wears = scene.wears.iter().filter(|(who, _)| declared.contains(who));
        scene.wears =
            wears.map(|(who, look)| (who.clone(), look.clone().filter(|look| fits(who, look)))).collect();
    }
    let there: Vec<SceneNumber> = records.scenes.iter().map(|scene| scene.number.clone()).collect();
    for day in Arc::make_mut(&mut records.schedule) {
        day.scenes.retain(|number| there.contains(number));
    }
    mend_workroom(&mut records);
    records
}

pub(super) fn scopes() -> impl Strategy<Value = Scope> {
    prop_oneof![
        Just(Scope::Overall),
        characters().prop_map(Scope::Character),
        periods().prop_map(Scope::Period)
    ]
}

/// Some of the names of a pool, for tests that change lists of words.
pub fn some_words() -> impl Strategy<Value = Vec<String>> {
    btree_set(select(&["a", "b", "c", "d", "e", "f"][..]), 0..6)
        .prop_map(|words| words.into_iter().map(str::to_owned).collect::<Vec<_>>())
        .prop_shuffle()
}

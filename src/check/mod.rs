//! Findings: what is the matter with a board, in the words of the trade, and what to do about it.
//!
//! One file per family; each looks at the board and nothing else. A finding has a name that never changes, so that
//! scripts and meetings can refer to it. Files that cannot be read, names of records that are not there, and names that
//! two records have are no findings: the store reports them as faults, with line and column.
//!
//! | name | level | means |
//! |---|---|---|
//! | `over-budget` | error | a scope has more looks than it may have |
//! | `scene-without-look` | error | a character is in a scene and has no look yet |
//! | `outfit-in-two-looks` | error | an outfit is in more than one look |
//! | `outfit-named-twice` | error | a look names one outfit twice |
//! | `held-and-let-go` | error | an outfit is let go, and a look holds it |
//! | `look-without-base` | error | a look copies or interprets and has no base |
//! | `invented-with-base` | error | an invented look holds outfits |
//! | `outfit-of-another` | error | a look holds another character's outfit |
//! | `look-of-another` | error | a scene puts a look on somebody whose look it is not |
//! | `wish-of-itself` | error | an outfit is to be apart from or together with itself |
//! | `apart-and-together` | error | two outfits are to be both apart and together |
//! | `together-with-another` | error | an outfit is to share a look with another character's |
//! | `periods-overlap` | error | two periods share days |
//! | `copy-departs` | warning | a look is called a copy and departs from its base |
//! | `interpretation-without-departure` | warning | a look interprets, and no departure says how |
//! | `look-in-no-scene` | warning | no scene shows the look |
//! | `look-out-of-period` | warning | a look is worn in a scene of another period |
//! | `look-seen-too-briefly` | warning | a look is seen for less than the least screen time |
//! | `look-comes-back` | warning | within a story day a character leaves a look and comes back to it |
//! | `story-day-goes-back` | warning | a scene plays on an earlier story day than the scene before it |
//! | `date-far-off` | warning | an outfit is dated half a century or more from all others of its character |
//! | `outfit-outside-periods` | warning, note | an outfit is dated, but in no period; a note where it is undated |
//! | `scene-outside-periods` | warning | a scene is in no period: it has neither a date nor a period, or its date lies in none |
//! | `runtime-differs` | warning | the scenes come to another length than the film |
//! | `thread-lost` | warning | outfits carry a thread that no look keeps |
//! | `thread-breaks` | warning | no look of a period keeps a thread that two of its outfits carry |
//! | `picture-missing` | warning | an outfit names a picture that is not in the folder |
//! | `scene-not-scheduled` | warning | no shooting day has the scene |
//! | `scene-scheduled-twice` | warning | several shooting days have the scene |
//! | `wish-unheeded` | warning | something is wished of an outfit that is let go |
//! | `wish-impossible` | warning | a group is to have more looks, or fewer, than it can |
//! | `copies-too-few` | error | fewer copies are planned than the shooting days need |
//! | `make-of-no-piece` | error | something is said of a piece that the record does not have |
//! | `version-missing` | error | a scene needs a version that the piece does not have |
//! | `cut-impossible` | error | a piece cannot be cut of the cloth that it names |
//! | `over-money` | error | the looks cost more than there is |
//! | `too-few-for-a-principal` | warning | there is only one of what a principal wears |
//! | `versions-differ` | warning | two versions that can be told apart are seen in one scene |
//! | `done-by-nobody` | warning | a scene says what somebody does who is not in it |
//! | `done-in-no-piece` | warning | a scene names a piece that the look does not have |
//! | `measure-implausible` | warning | a measure is outside what was published, or does not agree with another |
//! | `ease-too-little` | warning | a garment of woven cloth has less room than is usual |
//! | `added-to-no-measure` | warning | a version adds to a measure that is not there |
//! | `fitting-of-no-measure` | warning | a fitting speaks of a measure that is not there |
//! | `fibre-too-early` | warning | a look is of a fibre that came into use after it plays |
//! | `trials-cross` | warning | what was too light is heavier than what was too heavy |
//! | `hours-without-rate` | warning | hours of a kind of work of which no rate is given |
//! | `measure-lacks` | note | measures cannot be carried over yet |
//! | `cloth-without-price` | note | a cloth that is used has no price |
//! | `open-outfits` | note | outfits of a period are still to be decided |

mod budget;
mod cloth;
mod copies;
mod fit;
mod periods;
mod pictures;
mod plot;
mod records;
mod runtime;
#[cfg(test)]
pub(crate) mod sample;
mod schedule;
mod threads;
mod treatment;
mod wardrobe;
mod wishes;
pub(crate) mod words;

pub use pictures::Sight;

use std::fmt;

use crate::board::{
    Board, CharacterId, ClothId, Edit, LookId, OutfitId, PeriodId, PicturePath, RecordRef, SceneNumber,
    Scope, ThreadId,
};
use crate::workroom::copies::plan::Plan;

/// One thing that is the matter.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Finding {
    /// Its stable name, such as `over-budget`.
    pub name: &'static str,
    /// How grave it is.
    pub level: Level,
    /// What it concerns.
    pub about: About,
    /// What is the matter, in one sentence.
    pub text: String,
    /// What to do, in one sentence.
    pub todo: String,
}

/// How grave a finding is, the gravest first.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Level {
    /// The board cannot be filmed as it is.
    Error,
    /// Probably not what was meant.
    Warning,
    /// Work that is left.
    Note,
}

impl Level {
    /// In a word.
    pub fn word(self) -> &'static str {
        match self {
            Self::Error => "error",
            Self::Warning => "warning",
            Self::Note => "note",
        }
    }
}

/// What a finding concerns: finer than a record, since periods, characters and threads share one.
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub enum About {
    /// The board as a whole.
    Board,
    /// A period.
    Period(PeriodId),
    /// A character.
    Character(CharacterId),
    /// A thread.
    Thread(ThreadId),
    /// An outfit.
    Outfit(OutfitId),
    /// A look.
    Look(LookId),
    /// A scene.
    Scene(SceneNumber),
    /// A cloth.
    Cloth(ClothId),
    /// What one character wears in a scene.
    Wearing(SceneNumber, CharacterId),
}

impl About {
    /// The record in which it can be mended or looked at.
    pub fn record(&self) -> RecordRef {
        match self {
            Self::Board | Self::Period(_) | Self::Character(_) | Self::Thread(_) => RecordRef::Head,
            Self::Outfit(id) => RecordRef::Outfit(id.clone()),
            Self::Look(id) => RecordRef::Look(id.clone()),
            Self::Cloth(id) => RecordRef::Cloth(id.clone()),
            Self::Scene(number) | Self::Wearing(number, _) => RecordRef::Scene(number.clone()),
        }
    }

    /// The kind of thing, in a word.
    pub fn kind(&self) -> &'static str {
        match self {
            Self::Board => "board",
            Self::Period(_) => "period",
            Self::Character(_) => "character",
            Self::Thread(_) => "thread",
            Self::Outfit(_) => "outfit",
            Self::Look(_) => "look",
            Self::Cloth(_) => "cloth",
            Self::Scene(_) | Self::Wearing(..) => "scene",
        }
    }

    /// Its id or number; the board has none here.
    pub fn id(&self) -> Option<String> {
        match self {
            Self::Board => None,
            Self::Period(id) => Some(id.to_string()),
            Self::Character(id) => Some(id.to_string()),
            Self::Thread(id) => Some(id.to_string()),
            Self::Outfit(id) => Some(id.to_string()),
            Self::Look(id) => Some(id.to_string()),
            Self::Cloth(id) => Some(id.to_string()),
            Self::Scene(number) | Self::Wearing(number, _) => Some(number.to_string()),
        }
    }
}

impl From<&Scope> for About {
    fn from(scope: &Scope) -> Self {
        match scope {
            Scope::Overall => Self::Board,
            Scope::Character(id) => Self::Character(id.clone()),
            Scope::Period(id) => Self::Period(id.clone()),
        }
    }
}

impl fmt::Display for About {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.id() {
            Some(id) => write!(f, "{} {id}", self.kind()),
            None => f.write_str(self.kind()),
        }
    }
}

/// Everything that is the matter with a board: the gravest first, then family by family, records in their order.
pub fn findings(board: &Board) -> Vec<Finding> {
    let families = [
        records::findings,
        budget::findings,
        plot::findings,
        periods::findings,
        treatment::findings,
        threads::findings,
        runtime::findings,
        schedule::findings,
        wardrobe::findings,
        wishes::findings,
    ];
    let mut found: Vec<Finding> = families.into_iter().flat_map(|family| family(board)).collect();
    // What the shooting days need of copies is reckoned once for all that ask after it.
    let plan = Plan::of(board);
    found.extend(copies::findings(board, &plan));
    found.extend(fit::findings(board));
    found.extend(cloth::findings(board, &plan));
    found.sort_by_key(|finding| finding.level);
    found
}

/// Fibres that came into use after what is made of them plays: for whoever buys them.
pub fn young_fibres(board: &Board) -> Vec<Finding> {
    cloth::young_fibres(board)
}

/// What would be the matter with a board after an edit and is not before it; nothing where the board refuses the edit.
pub fn added_by(board: &Board, edit: &Edit) -> Vec<Finding> {
    let mut after = board.clone();
    if after.apply(edit).is_err() {
        return Vec::new();
    }
    let before = findings(board);
    findings(&after).into_iter().filter(|finding| !before.contains(finding)).collect()
}

/// As [`findings`], and what can only be told with the board's folder at hand: `look` says what is known of a picture.
pub fn findings_in_folder(board: &Board, look: &dyn Fn(&PicturePath) -> Sight) -> Vec<Finding> {
    let mut found = findings(board);
    found.extend(pictures::findings(board, look));
    found.sort_by_key(|finding| finding.level);
    found
}

#[cfg(test)]
mod tests {
    use serde_json::json;

    use super::*;

    fn troubled() -> Board {
        sample::board(json!({
            "head": {"budget": {"looks": 0}},
            "outfits": {"smock": {"worn": "1920"}, "coat": {"worn": "1955"}},
            "looks": {"a": {"base": "smock", "departures": [{"detail": "hem"}]}},
            "scenes": [{"scene": 1, "wears": {"ada": null}}],
        }))
    }

    #[test]
    fn the_gravest_come_first_and_the_order_is_always_the_same() {
        let found = findings(&troubled());
        assert!(found.is_sorted_by_key(|finding| finding.level));
        let names: Vec<_> = found.iter().map(|finding| finding.name).collect();
        assert_eq!(
            names,
            [
                "over-budget",
                "scene-without-look",
                "look-in-no-scene",
                "scene-outside-periods",
                "copy-departs",
                "outfit-outside-periods",
                "open-outfits",
            ]
        );
        assert_eq!(findings(&troubled()), found);
    }

    #[test]
    fn what_a_change_adds_is_told_apart_from_what_was_there() {
        let board = troubled();
        assert_eq!(added_by(&board, &board.change_head("", |_| ())), []);
        let coat = ["coat".parse().unwrap()];
        let edit = board.gather(&coat, "Coat", &coat[0], crate::board::Treatment::Copy).unwrap().1;
        let names: Vec<_> = added_by(&board, &edit).into_iter().map(|finding| finding.name).collect();
        assert_eq!(
            names,
            ["over-budget", "look-in-no-scene"],
            "two looks and not one; none shows the new one"
        );
    }

    #[test]
    fn every_finding_says_what_is_the_matter_and_what_to_do_in_a_sentence_each() {
        for finding in findings(&troubled()) {
            for sentence in [&finding.text, &finding.todo] {
                assert!(sentence.ends_with('.') && !sentence.contains('\n'), "{}: {sentence}", finding.name);
            }
        }
    }

    #[test]
    fn a_board_in_order_has_no_findings() {
        let board = sample::board(json!({
            "head": {"runtime": 2, "budget": {"looks": 1}},
            "outfits": {"smock": {"worn": "1920"}},
            "looks": {"a": {"base": "smock"}},
            "scenes": [{"scene": 1, "date": "1920", "pages": 2, "wears": {"ada": "a"}}],
            "schedule": [{"day": 1, "scenes": [1]}],
        }));
        assert_eq!(findings(&board), []);
    }
}

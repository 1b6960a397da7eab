//! Which stops there are, in which order, and what each is called.

use crate::board::{Board, Question, Stop};
use crate::check::words::{look_title, quoted};

/// What the walk goes by. Each way begins at the board as a whole.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum By {
    /// Period by period.
    #[default]
    Periods,
    /// Look by look, in the order of the list of looks.
    Looks,
    /// Scene by scene, in story order.
    Scenes,
}

impl By {
    /// The way on which a stop lies; the board as a whole lies on all.
    pub fn of(stop: &Stop) -> Option<Self> {
        match stop {
            Stop::Board => None,
            Stop::Period(_) => Some(Self::Periods),
            Stop::Look(_) => Some(Self::Looks),
            Stop::Scene(_) => Some(Self::Scenes),
        }
    }

    /// The next way.
    pub fn next(self) -> Self {
        match self {
            Self::Periods => Self::Looks,
            Self::Looks => Self::Scenes,
            Self::Scenes => Self::Periods,
        }
    }

    /// In words.
    pub fn words(self) -> &'static str {
        match self {
            Self::Periods => "by period",
            Self::Looks => "by look",
            Self::Scenes => "by scene",
        }
    }

    /// The way that these words say.
    pub fn of_words(words: &str) -> Option<Self> {
        [Self::Periods, Self::Looks, Self::Scenes].into_iter().find(|by| by.words() == words)
    }

    /// Its stops; never none.
    pub fn stops(self, board: &Board) -> Vec<Stop> {
        let mut stops = vec![Stop::Board];
        match self {
            Self::Periods => {
                stops.extend(board.head().periods.iter().map(|period| Stop::Period(period.id.clone())));
            }
            Self::Looks => stops.extend(board.relations().looks_by_order().iter().cloned().map(Stop::Look)),
            Self::Scenes => stops.extend(board.scenes().map(|scene| Stop::Scene(scene.number.clone()))),
        }
        stops
    }

    /// The stop of this way that is nearest to another way's stop, so that turning off loses nothing: of a look its
    /// period or first scene, of a scene its period or the first look in it.
    pub fn nearest(self, board: &Board, stop: &Stop) -> Stop {
        let relations = board.relations();
        let scene_of = |stop: &Stop| match stop {
            Stop::Scene(number) => relations.scene_at(number),
            Stop::Look(id) => relations.scenes_of(id).first().copied(),
            Stop::Period(id) => {
                (0..board.records().scenes.len()).find(|at| relations.period_of_scene(*at) == Some(id))
            }
            Stop::Board => None,
        };
        let near = match (self, stop) {
            (_, Stop::Board) => None,
            (Self::Periods, stop) => Some(stop.by_periods(board)),
            (Self::Looks, Stop::Period(id)) => {
                let mut looks = relations.looks_by_order().iter();
                looks.find(|look| relations.period_of_look(look) == Some(id)).cloned().map(Stop::Look)
            }
            (Self::Looks, stop) => {
                let scene = scene_of(stop).and_then(|at| board.records().scenes.get(at));
                let mut worn = scene.into_iter().flat_map(|scene| scene.wears.iter());
                worn.find_map(|(_, look)| look.clone()).map(Stop::Look)
            }
            (Self::Scenes, stop) => {
                let scene = scene_of(stop).and_then(|at| board.records().scenes.get(at));
                scene.map(|scene| Stop::Scene(scene.number.clone()))
            }
        };
        near.filter(|near| near.is_on(board)).unwrap_or_default()
    }
}

/// A question in its words; at another stop than where it was asked, after the scene or the look where it was. What
/// is gone is named [elsewhere](super::page).
pub fn asked(board: &Board, stop: &Stop, question: &Question) -> String {
    let words = &question.question;
    match &question.at {
        at if at == stop || !at.is_on(board) => words.clone(),
        Stop::Look(id) => format!("look {}: {words}", quoted(look_title(board, id))),
        at => format!("{at}: {words}"),
    }
}

/// What a stop is called.
pub fn title(board: &Board, stop: &Stop) -> String {
    match stop {
        Stop::Board => board.head().title.clone(),
        Stop::Period(id) => board.title_of(id).to_owned(),
        Stop::Look(id) => look_title(board, id).to_owned(),
        Stop::Scene(number) => format!("Scene {number}"),
    }
}

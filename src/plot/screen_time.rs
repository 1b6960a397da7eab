//! How much of the script shows what, in eighths of a page.

use crate::board::{Board, LookId, PeriodId};
use crate::trade::eighths::Eighths;

/// The whole script.
pub fn whole(board: &Board) -> Eighths {
    board.scenes().map(|scene| scene.pages).sum()
}

/// The scenes that show a look; one that shows it on two characters counts once.
pub fn of_look(board: &Board, look: &LookId) -> Eighths {
    let scenes = &board.records().scenes;
    board.relations().scenes_of(look).iter().filter_map(|at| scenes.get(*at)).map(|scene| scene.pages).sum()
}

/// The scenes of a period; `None` asks for those of none.
pub fn of_period(board: &Board, period: Option<&PeriodId>) -> Eighths {
    let plays = |(at, _): &(usize, _)| board.relations().period_of_scene(*at) == period;
    board.scenes().enumerate().filter(plays).map(|(_, scene)| scene.pages).sum()
}

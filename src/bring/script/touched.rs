//! What a draft leaves to be done on the board: who has no look yet, which new scenes are on no shooting day, which
//! shooting days lose scenes, and which looks no scene shows any more.

use super::compare::{Comparison, What};
use crate::board::{Board, CharacterId, Edit, LookId, Refused, SceneNumber};
use crate::check::words::{look_title, quoted};

/// What is to be looked at once a draft is on the board.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Touched {
    /// Who comes into which scene and has no look there yet.
    pub undressed: Vec<(SceneNumber, CharacterId)>,
    /// New scenes that are on no shooting day of the schedule; none where there is no schedule yet.
    pub unplanned: Vec<SceneNumber>,
    /// Which shooting day loses which scene, since it is cut; by its old number.
    pub unscheduled: Vec<(u32, SceneNumber)>,
    /// Looks that a scene showed and none shows now. They stay on the board.
    pub unseen: Vec<LookId>,
}

impl Touched {
    /// Whether there is nothing to look at.
    pub fn is_empty(&self) -> bool {
        *self == Self::default()
    }

    /// A sentence for each; `board` is the one that the draft was compared with.
    pub fn words(&self, board: &Board) -> Vec<String> {
        let undressed = self.undressed.iter();
        let undressed =
            undressed.map(|(scene, who)| format!("{} has no look yet in scene {scene}", board.name_of(who)));
        let unplanned = self.unplanned.iter().map(|scene| format!("scene {scene} is on no shooting day"));
        let unscheduled = self.unscheduled.iter();
        let unscheduled =
            unscheduled.map(|(day, scene)| format!("shooting day {day} is without scene {scene}"));
        let unseen = self.unseen.iter().map(|look| {
            format!("{} is in no scene any more; it stays on the board", quoted(look_title(board, look)))
        });
        undressed.chain(unplanned).chain(unscheduled).chain(unseen).collect()
    }
}

/// What the edit of a comparison touches.
///
/// # Errors
/// [`Refused`] when the board would not take the edit.
pub fn touched(board: &Board, comparison: &Comparison, edit: &Edit) -> Result<Touched, Refused> {
    let mut after = board.clone();
    after.apply(edit)?;
    let mut touched = Touched::default();
    for change in &comparison.changes {
        match (&change.what, &change.scene) {
            (What::ComesIn(who), Some(scene)) => touched.undressed.push((scene.clone(), who.clone())),
            (What::Added(_), Some(scene)) => {
                let wears = after.scene(scene).into_iter().flat_map(|scene| scene.wears.keys());
                touched.undressed.extend(wears.map(|who| (scene.clone(), who.clone())));
                let schedule = &after.records().schedule;
                if !schedule.is_empty() && !schedule.iter().any(|day| day.scenes.contains(scene)) {
                    touched.unplanned.push(scene.clone());
                }
            }
            (What::Cut(..), Some(scene)) => {
                let days = board.records().schedule.iter().filter(|day| day.scenes.contains(scene));
                touched.unscheduled.extend(days.map(|day| (day.day, scene.clone())));
            }
            _ => {}
        }
    }
    touched.unscheduled.sort();
    let shown = |board: &Board, look: &LookId| !board.relations().scenes_of(look).is_empty();
    let looks = board.relations().looks_by_order().iter();
    touched.unseen = looks.filter(|look| shown(board, look) && !shown(&after, look)).cloned().collect();
    Ok(touched)
}

//! One record as a text, for a person's own editor, and back as an edit.

use std::sync::Arc;

use serde::de::DeserializeOwned;

use super::explain::Trouble;
use super::fault::{Fault, FaultKind};
use super::layout::BoardFile;
use super::open::OpenBoard;
use super::{references, yaml};
use crate::board::head::FORMAT;
use crate::board::{
    Change, Cloth, Edit, Head, Look, Meeting, Outfit, Practice, RecordRef, Scene, SceneNumber, ShootDay, Swap,
};

impl OpenBoard {
    /// One record as YAML, for a text editor. `None` where there is no such record.
    pub fn record_text(&self, record: &RecordRef) -> Option<String> {
        let records = self.board.records();
        let written = match record {
            RecordRef::Head => yaml::write(&records.head),
            RecordRef::Outfit(id) => yaml::write(records.outfits.get(id)?),
            RecordRef::Look(id) => yaml::write(records.looks.get(id)?),
            RecordRef::Scene(number) => yaml::write(self.board.scene(number)?),
            RecordRef::SceneOrder => {
                yaml::write(&self.board.scenes().map(|scene| &scene.number).collect::<Vec<_>>())
            }
            RecordRef::Schedule => yaml::write(&records.schedule),
            RecordRef::Cloth(id) => yaml::write(records.cloths.get(id)?),
            RecordRef::Practice => yaml::write(&records.practice),
            RecordRef::Meeting(id) => yaml::write(records.meetings.get(id)?),
        };
        written.ok()
    }

    /// The edit that makes `record` what `text` says, where `base` is what [`OpenBoard::record_text`] gave out.
    /// `None` where nothing was changed. What other hands changed since is merged when the edit is applied.
    ///
    /// # Errors
    /// A [`Fault`] that says where in `text` what is wrong.
    pub fn edit_from_text(&self, record: &RecordRef, base: &str, text: &str) -> Result<Option<Edit>, Fault> {
        let sides = Sides { record, base, text };
        let change = match record {
            RecordRef::Head => sides
                .swap::<Head>(|was, now| {
                    if now.shirr != FORMAT {
                        return Err(("shirr", format!("this program reads version {FORMAT}")));
                    }
                    if now.id != was.id {
                        return Err(("id", format!("the board's id stays `{}`", was.id)));
                    }
                    Ok(())
                })?
                .map(Change::Head),
            RecordRef::Outfit(id) => {
                sides.swap::<Outfit>(|_, _| Ok(()))?.map(|swap| Change::Outfit(id.clone(), swap))
            }
            RecordRef::Look(id) => {
                sides.swap::<Look>(|_, _| Ok(()))?.map(|swap| Change::Look(id.clone(), swap))
            }
            RecordRef::Scene(number) => sides
                .swap::<Scene>(|was, now| {
                    if now.number == was.number {
                        Ok(())
                    } else {
                        Err(("scene", format!("the scene's number stays {}", was.number)))
                    }
                })?
                .map(|swap| Change::Scene(number.clone(), swap)),
            RecordRef::SceneOrder => sides
                .swap::<Vec<SceneNumber>>(|was, now| {
                    let sorted = |order: &[SceneNumber]| {
                        let mut order = order.to_vec();
                        order.sort();
                        order
                    };
                    if sorted(was) == sorted(now) {
                        Ok(())
                    } else {
                        Err(("", "every scene stands in the order once".to_owned()))
                    }
                })?
                .map(Change::SceneOrder),
            RecordRef::Schedule => sides.swap::<Vec<ShootDay>>(|_, _| Ok(()))?.map(Change::Schedule),
            RecordRef::Cloth(id) => {
                sides.swap::<Cloth>(|_, _| Ok(()))?.map(|swap| Change::Cloth(id.clone(), swap))
            }
            RecordRef::Practice => sides.swap::<Practice>(|_, _| Ok(()))?.map(Change::Practice),
            RecordRef::Meeting(id) => {
                sides.swap::<Meeting>(|_, _| Ok(()))?.map(|swap| Change::Meeting(id.clone(), swap))
            }
        };
        let Some(change) = change else { return Ok(None) };
        let edit = Edit::new(format!("{} edited as text", self.title_of(record)), vec![change]);
        self.check_names(&sides, &edit)?;
        Ok(Some(edit))
    }

    /// What people call the record.
    fn title_of(&self, record: &RecordRef) -> String {
        let title = match record {
            RecordRef::Outfit(id) => self.board.outfit(id).map(|outfit| outfit.title.clone()),
            RecordRef::Look(id) => self.board.look(id).map(|look| look.title.clone()),
            RecordRef::Cloth(id) => self.board.cloth(id).map(|cloth| cloth.title.clone()),
            _ => None,
        };
        title.filter(|title| !title.is_empty()).unwrap_or_else(|| record.to_string())
    }

    /// Whether every name that is new in the text leads to a record.
    fn check_names(&self, sides: &Sides<'_>, edit: &Edit) -> Result<(), Fault> {
        let mut then = self.board.clone();
        if then.take_in(edit).is_err() {
            // It must be merged first; the board says so when the edit is applied.
            return Ok(());
        }
        match references::new_dangling(&self.board, &then, sides.record, sides.text) {
            Some(fault) => Err(fault),
            None => Ok(()),
        }
    }
}

/// A record's text as it was given out and as it came back.
struct Sides<'a> {
    record: &'a RecordRef,
    base: &'a str,
    text: &'a str,
}

impl Sides<'_> {
    /// Both as records, where they differ. `fits` names a key whose value may not become what it did.
    fn swap<T: DeserializeOwned + PartialEq>(
        &self,
        fits: impl FnOnce(&T, &T) -> Result<(), (&'static str, String)>,
    ) -> Result<Option<Swap<T>>, Fault> {
        let before: T = self.read(self.base)?;
        let after: T = self.read(self.text)?;
        fits(&before, &after).map_err(|(key, what)| {
            let at = yaml::locate_key(self.text, key);
            self.fault(Trouble { at, what, hint: None })
        })?;
        Ok((before != after).then(|| Swap::new(Some(Arc::new(before)), Some(Arc::new(after)))))
    }

    fn read<T: DeserializeOwned>(&self, text: &str) -> Result<T, Fault> {
        yaml::read(text.strip_prefix('\u{feff}').unwrap_or(text)).map_err(|trouble| self.fault(trouble))
    }

    fn fault(&self, trouble: Trouble) -> Fault {
        let fault = Fault::new(FaultKind::Damaged, BoardFile::of(self.record).name(), trouble.what)
            .at(trouble.at)
            .of(self.record.clone());
        match trouble.hint {
            Some(hint) => fault.hint(hint),
            None => fault,
        }
    }
}

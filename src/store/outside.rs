//! Taking in what other hands wrote into the folder.

use super::fault::FaultKind;
use super::layout::{BoardFile, Content};
use super::listing::Listing;
use super::news::{self, News, NewsKind};
use super::open::OpenBoard;
use super::shelf::Seen;
use super::{sheet, usual};
use crate::board::Edit;

/// Files, each with what stands in it.
type Found = Vec<(BoardFile, Result<sheet::Sheet, sheet::Closed>)>;

impl OpenBoard {
    /// Takes in what other hands changed in the folder since the last look.
    pub fn take_in_outside(&mut self) -> Vec<News> {
        let mut told = std::mem::take(&mut self.news);
        let Some((listing, read)) = self.look() else {
            if !self.unreachable {
                self.unreachable = true;
                told.push(News::unreachable());
            }
            return told;
        };
        if std::mem::take(&mut self.unreachable) {
            told.push(News::back());
        }
        let strays_changed = self.shelf.strays != listing.strays;
        self.shelf.strays = listing.strays;
        let mut changes = Vec::new();
        let mut damage_changed = false;
        for (file, read) in read {
            let before = self.shelf.known.get(&file).map(|known| known.print);
            let was_damaged = self.shelf.damaged.remove(&file);
            match Seen::of(&file, read.as_ref().map_err(sheet::Closed::clone)) {
                Seen::Damaged(damage) => {
                    if was_damaged.as_ref().map(|was| &was.fault) != Some(&damage.fault) {
                        told.push(News::damaged(&damage.fault));
                        damage_changed = true;
                    }
                    self.shelf.damaged.insert(file, damage);
                    continue;
                }
                Seen::Read(known, content) => {
                    self.shelf.known.insert(file.clone(), known);
                    if Some(known.print) != before {
                        changes.push((file.clone(), Some(content)));
                    }
                    if was_damaged.is_some() {
                        told.push(News::repaired(&file.name(), file.record()));
                        damage_changed = true;
                    }
                }
                Seen::Absent => {
                    damage_changed |= was_damaged.is_some();
                    if self.shelf.known.remove(&file).is_some() {
                        changes.push((file, None));
                    }
                }
            }
        }
        if !changes.is_empty() {
            told.extend(self.absorb(changes));
        } else if damage_changed {
            // A name that leads to a damaged record is no fault of its own, and is one again when that is gone.
            self.look_for_references();
        } else if strays_changed {
            self.gather_faults();
        }
        told
    }

    /// The names in the folder, and what stands in the files that may have changed; nothing where the folder is out
    /// of reach. Without its head it is no board: a drive is away, or a program is about to put the file back. To
    /// take every record for removed would be the worst of guesses. A drive may also go while it is being read, so
    /// where a file is missing the head is asked for once more.
    fn look(&self) -> Option<(Listing, Found)> {
        let listing = Listing::of(&self.shelf.folder).ok()?;
        if !listing.files.iter().any(|(file, _)| *file == BoardFile::Head) {
            return None;
        }
        let read = sheet::read_still(&self.shelf.folder, self.suspects(&listing.files));
        let missing = read.iter().any(|(_, read)| matches!(read, Err(sheet::Closed::Absent)));
        (!missing || self.reachable().is_ok()).then_some((listing, read))
    }

    /// The files that may have changed, with what they held.
    fn suspects(&self, files: &[(BoardFile, Option<super::stamp::Stamp>)]) -> Vec<sheet::Wanted> {
        let shelf = &self.shelf;
        let there: std::collections::HashSet<&BoardFile> = files.iter().map(|(file, _)| file).collect();
        let changed = files.iter().filter(|(file, stamp)| {
            let damaged = shelf.damaged.get(file).map(|damage| damage.stamp);
            let remembered = damaged.unwrap_or_else(|| shelf.known.get(file).and_then(|known| known.stamp));
            remembered.is_none() || remembered != *stamp
        });
        let gone = shelf.known.keys().chain(shelf.damaged.keys()).filter(|file| !there.contains(file));
        let mut all: Vec<BoardFile> = changed.map(|(file, _)| file).chain(gone).cloned().collect();
        all.sort();
        all.dedup();
        all.into_iter()
            .map(|file| {
                let print = shelf.known.get(&file).map(|known| known.print);
                (file, print)
            })
            .collect()
    }

    /// Puts what others wrote into the board; says what that changed.
    pub(super) fn absorb(&mut self, changes: Vec<(BoardFile, Option<Content>)>) -> Option<News> {
        let before = self.board.records();
        let mut after = before.clone();
        for (file, content) in changes {
            Content::put(content, &mut after, &file);
        }
        let edit = Edit::between("changed outside", before, &after);
        // Files may hold what no edit can say, such as two scenes with one number; then all is derived anew.
        if self.board.take_in(&edit).is_err() || self.board.records().scenes != after.scenes {
            self.board = usual::board_of(after);
        }
        self.look_for_references();
        news::taken_in(&edit)
    }
}

impl News {
    fn unreachable() -> Self {
        let text = "the board's folder is out of reach; nothing can be saved until it is back".to_owned();
        Self { text, kind: NewsKind::Unreachable, records: Vec::new() }
    }

    fn back() -> Self {
        let text = "the board's folder is back".to_owned();
        Self { text, kind: NewsKind::Repaired, records: Vec::new() }
    }

    fn damaged(fault: &super::Fault) -> Self {
        debug_assert_eq!(fault.kind, FaultKind::Damaged);
        let records = fault.record.iter().cloned().collect();
        Self { text: fault.to_string(), kind: NewsKind::Damaged, records }
    }

    fn repaired(file: &str, record: Option<crate::board::RecordRef>) -> Self {
        let text = format!("{file} can be read again");
        Self { text, kind: NewsKind::Repaired, records: record.into_iter().collect() }
    }
}

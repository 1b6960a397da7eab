//! Which file holds what.
//!
//! [`BoardFile`] names a file of the board, [`Content`] is what stands in one. Everything else in the store speaks of
//! these two and leaves kinds of records to this file.

use std::path::{Path, PathBuf};
use std::sync::Arc;

use super::explain::Trouble;
use super::yaml;
use crate::board::{
    Cloth, ClothId, Head, Look, LookId, Meeting, MeetingId, Outfit, OutfitId, Practice, RecordRef, Records,
    Scene, ShootDay,
};

/// A file of the board.
#[derive(Clone, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub(super) enum BoardFile {
    /// `board.yaml`.
    Head,
    /// `looks/ID.yaml`.
    Look(LookId),
    /// `outfits/ID.yaml`.
    Outfit(OutfitId),
    /// `scenes.yaml`.
    Scenes,
    /// `schedule.yaml`.
    Schedule,
    /// `cloths/ID.yaml`.
    Cloth(ClothId),
    /// `practice.yaml`.
    Practice,
    /// `meetings/DATE.yaml`.
    Meeting(MeetingId),
}

/// The folder of the outfits.
const OUTFITS: &str = "outfits";
/// The folder of the looks.
const LOOKS: &str = "looks";
/// The folder of the cloths.
const CLOTHS: &str = "cloths";
/// The folder of the meetings.
const MEETINGS: &str = "meetings";
/// The folders that hold one file for each record.
pub(super) const DIRS: [&str; 4] = [CLOTHS, LOOKS, MEETINGS, OUTFITS];
/// The files that stand in the board's folder itself.
pub(super) const TOP: [BoardFile; 4] =
    [BoardFile::Head, BoardFile::Scenes, BoardFile::Schedule, BoardFile::Practice];

/// The largest record: a thousand times what one takes, and still read at once.
const LARGEST_RECORD: u64 = 1 << 20;
/// The largest of the files that hold many entries: some ten thousand scenes.
const LARGEST_LIST: u64 = 4 << 20;

impl BoardFile {
    /// The file that holds a record.
    pub(super) fn of(record: &RecordRef) -> Self {
        match record {
            RecordRef::Head => Self::Head,
            RecordRef::Outfit(id) => Self::Outfit(id.clone()),
            RecordRef::Look(id) => Self::Look(id.clone()),
            RecordRef::Scene(_) | RecordRef::SceneOrder => Self::Scenes,
            RecordRef::Schedule => Self::Schedule,
            RecordRef::Cloth(id) => Self::Cloth(id.clone()),
            RecordRef::Practice => Self::Practice,
            RecordRef::Meeting(id) => Self::Meeting(id.clone()),
        }
    }

    /// The record, where the file holds one.
    pub(super) fn record(&self) -> Option<RecordRef> {
        match self {
            Self::Head => Some(RecordRef::Head),
            Self::Outfit(id) => Some(RecordRef::Outfit(id.clone())),
            Self::Look(id) => Some(RecordRef::Look(id.clone())),
            Self::Scenes => None,
            Self::Schedule => Some(RecordRef::Schedule),
            Self::Cloth(id) => Some(RecordRef::Cloth(id.clone())),
            Self::Practice => Some(RecordRef::Practice),
            Self::Meeting(id) => Some(RecordRef::Meeting(id.clone())),
        }
    }

    /// The file of this name, less `.yaml`, in one of [`DIRS`]; `None` where that names no record.
    pub(super) fn in_dir(dir: &str, stem: &str) -> Option<Self> {
        match dir {
            OUTFITS => stem.parse().ok().map(Self::Outfit),
            LOOKS => stem.parse().ok().map(Self::Look),
            CLOTHS => stem.parse().ok().map(Self::Cloth),
            MEETINGS => stem.parse().ok().map(Self::Meeting),
            _ => None,
        }
    }

    /// Its folder, `None` for the board's own.
    pub(super) fn dir(&self) -> Option<&'static str> {
        match self {
            Self::Outfit(_) => Some(OUTFITS),
            Self::Look(_) => Some(LOOKS),
            Self::Cloth(_) => Some(CLOTHS),
            Self::Meeting(_) => Some(MEETINGS),
            _ => None,
        }
    }

    /// Its name without its folder.
    pub(super) fn file_name(&self) -> String {
        match self {
            Self::Head => "board.yaml".to_owned(),
            Self::Outfit(id) => format!("{id}.yaml"),
            Self::Look(id) => format!("{id}.yaml"),
            Self::Cloth(id) => format!("{id}.yaml"),
            Self::Practice => "practice.yaml".to_owned(),
            Self::Meeting(id) => format!("{id}.yaml"),
            Self::Scenes => "scenes.yaml".to_owned(),
            Self::Schedule => "schedule.yaml".to_owned(),
        }
    }

    /// Its path below the board's folder, with a forward slash.
    pub(super) fn name(&self) -> String {
        match self.dir() {
            Some(dir) => format!("{dir}/{}", self.file_name()),
            None => self.file_name(),
        }
    }

    /// Its path.
    pub(super) fn path(&self, folder: &Path) -> PathBuf {
        match self.dir() {
            Some(dir) => folder.join(dir).join(self.file_name()),
            None => folder.join(self.file_name()),
        }
    }

    /// The most bytes that it may have.
    pub(super) fn largest(&self) -> u64 {
        match self {
            Self::Outfit(_) | Self::Look(_) | Self::Cloth(_) | Self::Practice | Self::Meeting(_) => {
                LARGEST_RECORD
            }
            Self::Head | Self::Scenes | Self::Schedule => LARGEST_LIST,
        }
    }
}

/// What stands in a file.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Content {
    Head(Arc<Head>),
    Outfit(Arc<Outfit>),
    Look(Arc<Look>),
    Scenes(Vec<Arc<Scene>>),
    Schedule(Arc<Vec<ShootDay>>),
    Cloth(Arc<Cloth>),
    Practice(Arc<Practice>),
    Meeting(Arc<Meeting>),
}

impl Content {
    /// Reads what a file of this kind should hold.
    pub(super) fn read(file: &BoardFile, text: &str) -> Result<Self, Trouble> {
        Ok(match file {
            BoardFile::Head => Self::Head(yaml::read(text)?),
            BoardFile::Outfit(_) => Self::Outfit(yaml::read(text)?),
            BoardFile::Look(_) => Self::Look(yaml::read(text)?),
            BoardFile::Cloth(_) => Self::Cloth(yaml::read(text)?),
            BoardFile::Practice => Self::Practice(yaml::read_or_nothing(text)?),
            BoardFile::Meeting(_) => Self::Meeting(yaml::read(text)?),
            // A list without entries is a list, even where it is not written down.
            BoardFile::Scenes => Self::Scenes(yaml::read_list(text)?),
            BoardFile::Schedule => Self::Schedule(Arc::new(yaml::read_list(text)?)),
        })
    }

    /// As YAML.
    pub(super) fn write(&self) -> Result<String, String> {
        match self {
            Self::Head(head) => yaml::write(head),
            Self::Outfit(outfit) => yaml::write(outfit),
            Self::Look(look) => yaml::write(look),
            Self::Scenes(scenes) => yaml::write(scenes),
            Self::Schedule(days) => yaml::write(days),
            Self::Cloth(cloth) => yaml::write(cloth),
            Self::Practice(practice) => yaml::write(practice),
            Self::Meeting(meeting) => yaml::write(meeting),
        }
    }

    /// What the records have for a file; `None` where that is nothing, so that there is no file.
    pub(super) fn of(records: &Records, file: &BoardFile) -> Option<Self> {
        match file {
            BoardFile::Head => Some(Self::Head(Arc::clone(&records.head))),
            BoardFile::Outfit(id) => records.outfits.get(id).cloned().map(Self::Outfit),
            BoardFile::Look(id) => records.looks.get(id).cloned().map(Self::Look),
            BoardFile::Cloth(id) => records.cloths.get(id).cloned().map(Self::Cloth),
            BoardFile::Practice => Some(Self::Practice(Arc::clone(&records.practice))),
            BoardFile::Meeting(id) => records.meetings.get(id).cloned().map(Self::Meeting),
            BoardFile::Scenes => Some(Self::Scenes(records.scenes.clone())),
            BoardFile::Schedule => Some(Self::Schedule(Arc::clone(&records.schedule))),
        }
    }

    /// Puts what a file holds into the records; `None` where there is no such file.
    pub(super) fn put(content: Option<Self>, records: &mut Records, file: &BoardFile) {
        match (file, content) {
            (_, Some(Self::Head(head))) => records.head = head,
            (BoardFile::Outfit(id), Some(Self::Outfit(outfit))) => {
                records.outfits.insert(id.clone(), outfit);
            }
            (BoardFile::Look(id), Some(Self::Look(look))) => {
                records.looks.insert(id.clone(), look);
            }
            (BoardFile::Meeting(id), Some(Self::Meeting(meeting))) => {
                records.meetings.insert(id.clone(), meeting);
            }
            (BoardFile::Cloth(id), Some(Self::Cloth(cloth))) => {
                records.cloths.insert(id.clone(), cloth);
            }
            (_, Some(Self::Practice(practice))) => records.practice = practice,
            (_, Some(Self::Scenes(scenes))) => records.scenes = scenes,
            (_, Some(Self::Schedule(days))) => records.schedule = days,
            (BoardFile::Outfit(id), _) => {
                records.outfits.remove(id);
            }
            (BoardFile::Look(id), _) => {
                records.looks.remove(id);
            }
            (BoardFile::Meeting(id), _) => {
                records.meetings.remove(id);
            }
            (BoardFile::Cloth(id), _) => {
                records.cloths.remove(id);
            }
            (BoardFile::Practice, _) => records.practice = Arc::default(),
            (BoardFile::Scenes, _) => records.scenes.clear(),
            (BoardFile::Schedule, _) => records.schedule = Arc::default(),
            // A board without its head is not open; whoever finds it gone says so before.
            (BoardFile::Head, _) => {}
        }
    }

    /// Whether no file says as much as this.
    pub(super) fn is_empty(&self) -> bool {
        match self {
            Self::Scenes(scenes) => scenes.is_empty(),
            Self::Schedule(days) => days.is_empty(),
            Self::Practice(practice) => **practice == Practice::default(),
            Self::Head(_) | Self::Outfit(_) | Self::Look(_) | Self::Cloth(_) | Self::Meeting(_) => false,
        }
    }
}

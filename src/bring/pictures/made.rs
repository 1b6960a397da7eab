//! What becomes of the pictures: drafts and sources as one edit, and the files to be copied.

use std::collections::{HashMap, HashSet};
use std::path::PathBuf;
use std::sync::Arc;

use super::Wanted;
use super::copies::{Copying, Lying};
use super::folder::file_name;
use super::groups::{Belongs, Why, groups};
use super::hung::{Hung, pictures};
use super::scan::{Content, Scan, Scanned};
use crate::board::{Board, Edit, Evidence, EvidenceKind, Outfit, OutfitId, PicturePath, Piece, Records};
use crate::check::words::{counted, quoted};
use crate::picture::photo::{Kind, Taken, TakenBy};
use crate::trade::colour::Colour;
use crate::trade::date::Date;

/// The folder below the board's in which pictures lie.
const PLACE: &str = "images";

/// The tag of an outfit of which somebody has yet to say what it is.
const DRAFT: &str = "draft";

/// What a folder of pictures would change.
#[derive(Clone, Debug)]
pub struct Brought {
    /// What becomes of each, in the order of their names.
    pub told: Vec<Told>,
    /// What could not be read, and why.
    pub wrong: Vec<(PathBuf, String)>,
    /// The change of the board; nothing where the board has it all.
    pub edit: Option<Edit>,
    /// The files to be copied before the edit is made.
    pub copies: Vec<Copying>,
}

/// What becomes of one picture.
#[derive(Clone, Debug)]
pub struct Told {
    /// Its file.
    pub file: PathBuf,
    /// Where it belongs.
    pub place: Place,
    /// When it was worn, as its name says.
    pub named: Option<Date>,
    /// What the file says of when it was made.
    pub own: Option<Taken>,
    /// Its main colours, as a proposal.
    pub colours: Vec<[u8; 3]>,
}

/// Where a picture belongs.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Place {
    /// It is the first of a new outfit.
    Draft(OutfitId, String),
    /// It belongs to an outfit that another picture of this folder begins.
    With(OutfitId),
    /// It is one more source of an outfit that is there.
    Source(OutfitId, Why),
    /// The board has it already.
    Hung(PicturePath),
    /// The same file lies in this folder twice.
    Twice(PathBuf),
}

impl Brought {
    /// What these files would change on a board that has the pictures in `hung`; `lying` says what lies at a path of its
    /// folder, beside such a content.
    pub fn of(
        board: &Board,
        scans: Vec<Scanned>,
        hung: &[Hung],
        wanted: &Wanted,
        lying: impl Fn(&PicturePath, Content) -> Lying,
    ) -> Self {
        let mut wrong = Vec::new();
        let mut read: Vec<Scan> = Vec::with_capacity(scans.len());
        for scan in scans {
            match scan {
                Ok(scan) => read.push(scan),
                Err(why) => wrong.push(why),
            }
        }
        let mut made = Made {
            board,
            wanted,
            records: board.records().clone(),
            drafts: HashMap::new(),
            taken: pictures(board).cloned().collect(),
            lying: &lying,
            hung: 0,
            copies: Vec::new(),
        };
        let belongs = groups(board, &read, hung);
        let told = read.iter().zip(belongs).enumerate();
        let told: Vec<Told> = told.map(|(at, (scan, belongs))| made.put(&read, at, scan, belongs)).collect();
        let drafts = made.drafts.len();
        let sources = made.hung.saturating_sub(drafts);
        let label = match (drafts, sources) {
            (0, sources) => format!("brought in {} of outfits that are there", counted(sources, "picture")),
            (drafts, 0) => format!("brought in pictures: {}", counted(drafts, "draft")),
            (drafts, more) => format!(
                "brought in pictures: {} and {}",
                counted(drafts, "draft"),
                counted(more, "further source")
            ),
        };
        let edit = Edit::between(label, board.records(), &made.records);
        Self { told, wrong, edit: (!edit.is_empty()).then_some(edit), copies: made.copies }
    }
}

/// The records in the making.
struct Made<'a> {
    board: &'a Board,
    wanted: &'a Wanted,
    records: Records,
    /// By the place of the first picture.
    drafts: HashMap<usize, OutfitId>,
    /// Paths that records name.
    taken: HashSet<PicturePath>,
    lying: &'a dyn Fn(&PicturePath, Content) -> Lying,
    /// How many pictures outfits were given.
    hung: usize,
    copies: Vec<Copying>,
}

impl Made<'_> {
    fn put(&mut self, scans: &[Scan], at: usize, scan: &Scan, belongs: Belongs) -> Told {
        let place = match belongs {
            Belongs::Hung(path, _) => Place::Hung(path),
            Belongs::Same(other) => {
                Place::Twice(scans.get(other).map_or_else(PathBuf::new, |other| other.file.clone()))
            }
            Belongs::Outfit(id, why) => {
                self.hang(&id, scan);
                Place::Source(id, why)
            }
            Belongs::Draft(first) => match self.drafts.get(&first).cloned() {
                Some(id) => {
                    self.hang(&id, scan);
                    Place::With(id)
                }
                None => self.draft(at, scan),
            },
        };
        Told {
            file: scan.file.clone(),
            place,
            named: scan.named.worn.clone(),
            own: scan.facts.taken,
            colours: scan.colours.clone(),
        }
    }

    fn draft(&mut self, at: usize, scan: &Scan) -> Place {
        let own_day =
            scan.facts.taken.filter(|_| self.wanted.own_day_is_worn).and_then(|taken| Date::on(taken.day));
        let worn = scan.named.worn.clone().or(own_day);
        let title = match (&scan.named.title, &worn) {
            (title, _) if !title.is_empty() => title.clone(),
            (_, Some(worn)) => format!("Picture of {}", worn.short()),
            (_, None) => format!("Picture {}", quoted(&file_name(&scan.file))),
        };
        let records = &self.records;
        let id = OutfitId::free(&title, self.board.free_outfit_id("picture"), |id| {
            records.outfits.contains_key(id)
        });
        let mut outfit = Outfit::titled(&title, self.wanted.character.clone());
        outfit.worn = worn;
        outfit.tags.push(DRAFT.to_owned());
        if self.wanted.take_colours && !scan.colours.is_empty() {
            let colours = scan.colours.iter().copied().map(Colour::of_rgb).collect();
            let details = vec!["colours are the picture's, not the cloth's".to_owned()];
            outfit.pieces.push(Piece {
                name: "as pictured".to_owned(),
                colours,
                details,
                ..Piece::default()
            });
        } else if !scan.colours.is_empty() {
            let colours: Vec<String> =
                scan.colours.iter().map(|rgb| Colour::of_rgb(*rgb).to_string()).collect();
            outfit.notes = format!("The picture's main colours, not the cloth's: {}.", colours.join(", "));
        }
        self.records.outfits.insert(id.clone(), Arc::new(outfit));
        self.drafts.insert(at, id.clone());
        self.hang(&id, scan);
        Place::Draft(id, title)
    }

    /// Gives an outfit the picture and the source that it is.
    fn hang(&mut self, id: &OutfitId, scan: &Scan) {
        let Some((path, is_there)) = self.path_for(id, scan) else { return };
        let Some(outfit) = self.records.outfits.get_mut(id) else { return };
        let outfit = Arc::make_mut(outfit);
        outfit.pictures.push(path.clone());
        outfit.evidence.push(Evidence {
            kind: EvidenceKind::Photograph,
            source: file_name(&scan.file),
            credit: String::new(),
            rights: String::new(),
            notes: scan.facts.taken.map_or(String::new(), own_day_words),
        });
        self.hung += 1;
        if !is_there {
            self.copies.push(Copying { file: scan.file.clone(), to: path, content: scan.content });
        }
    }

    /// A clean name that no record names, and whether the picture lies there already, as it does after an undo; else
    /// nothing lies there.
    fn path_for(&mut self, id: &OutfitId, scan: &Scan) -> Option<(PicturePath, bool)> {
        let ending = match scan.facts.kind {
            Kind::Jpeg => "jpg",
            Kind::Png => "png",
            Kind::Tiff => "tif",
            Kind::WebP => "webp",
            Kind::Gif => "gif",
            Kind::Bmp => "bmp",
        };
        let paths = (1..=u32::MAX).map(|number| match number {
            1 => format!("{PLACE}/{id}.{ending}"),
            number => format!("{PLACE}/{id}-{number}.{ending}"),
        });
        for path in paths {
            let Ok(path) = path.parse::<PicturePath>() else { return None };
            if self.taken.contains(&path) {
                continue;
            }
            let is_there = match (self.lying)(&path, scan.content) {
                Lying::Nothing => false,
                Lying::Same => true,
                Lying::Other => continue,
            };
            self.taken.insert(path.clone());
            return Some((path, is_there));
        }
        None
    }
}

/// What a file's own day means.
pub fn own_day_words(taken: Taken) -> String {
    let day = Date::on(taken.day).map_or_else(String::new, |date| date.short());
    match taken.by {
        TakenBy::Scanner => format!("scanned on {day}"),
        TakenBy::Camera => format!("photographed with a digital camera on {day}"),
        TakenBy::Unsaid => format!("the file's own day is {day}"),
    }
}

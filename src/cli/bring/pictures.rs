//! `shirr bring pictures`: what becomes of a folder of scans, and then the copies and the change.

use std::fmt::Write;
use std::path::PathBuf;

use clap::Args;

use crate::album::Album;
use crate::board::{Board, CharacterId, OutfitId};
use crate::bring::pictures::{
    Brought, Kin, Place, Scanned, Told, Wanted, Why, copy, file_name, files, hung, lying, own_day_words,
    scanned, take_back,
};
use crate::check::words::{capital, counted, quoted};
use crate::cli::Outcome;
use crate::cli::boards::{self, BoardArg};
use crate::cli::changing::{open_whole, refused, whole};
use crate::cli::console::Console;
use crate::cli::failure::Failure;
use crate::cli::faults;
use crate::cli::named;
use crate::trade::colour::Colour;

/// Bring in a folder of scans: drafts of outfits, or further sources of outfits that are there
#[derive(Debug, Args)]
#[command(
    after_help = "It says what becomes of each picture. A date in a file's name is the day worn; the day that a file tells \
                  of itself is told beside it, and is the day worn only with --own-day-is-worn. Pictures that are alike \
                  go to one outfit. Files are copied into images/ under clean names, nothing is overwritten, and one undo \
                  takes the records back; the copies stay.\n\
                  Exit code: 0 when every file was read, 1 when some could not be, 2 where nothing could be done."
)]
pub(super) struct Pictures {
    /// The folder with the pictures; what lies in folders below it is left out
    #[arg(value_name = "DIR", value_hint = clap::ValueHint::DirPath)]
    from: PathBuf,
    #[command(flatten)]
    board: BoardArg,
    /// Whose outfits the drafts are; left out, the board's first character
    #[arg(long, value_name = "NAME")]
    character: Option<String>,
    /// Where a file's name says no date, take the day that the file tells of itself as the day worn
    #[arg(long)]
    own_day_is_worn: bool,
    /// Give each draft a piece in the main colours of its picture, which are not the cloth's
    #[arg(long)]
    take_colours: bool,
    /// Say what would change, and change nothing
    #[arg(long)]
    dry_run: bool,
}

/// After so many files the user is told how far it is.
const OFTEN: usize = 100;

/// The most pictures that are told one by one.
const MOST: usize = 200;

impl Pictures {
    pub fn run(&self, console: &mut Console) -> Result<Outcome, Failure> {
        let folder = self.board.folder(console)?;
        let files = files(&self.from)
            .map_err(|error| Failure::new(format!("{}: {error}", self.from.display())).hint(error.hint()))?;
        let mut scans = Vec::with_capacity(files.len());
        for part in files.chunks(OFTEN) {
            scans.extend(scanned(part));
            if files.len() > OFTEN {
                console.note(&format!("looked at {} of {} files", scans.len(), files.len()));
            }
        }
        // Without small copies: the preview and the change must compare the same pixels.
        let album = Album::of(&folder);
        if self.dry_run {
            let reading = boards::read(&folder)?;
            faults::warn(console, &reading.faults);
            whole(&reading.faults)?;
            let brought = self.brought(&reading.board, &album, scans)?;
            console.print(&self.words(&reading.board, &brought, false))?;
            return Ok(outcome(&brought));
        }
        let mut open = open_whole(&folder, console)?;
        let brought = self.brought(open.board(), &album, scans)?;
        if let Some(edit) = &brought.edit {
            copy(&album, &brought.copies)
                .map_err(|error| Failure::new(format!("nothing is changed: {error}")))?;
            if let Err(error) = open.edit(edit) {
                // What an edit that ended half way has written names its copies; so may what cannot be read.
                if let Some(now) = boards::read(&folder).ok().filter(|now| whole(&now.faults).is_ok()) {
                    take_back(&album, &brought.copies, &now.board);
                }
                return Err(refused(&error));
            }
        }
        console.print(&self.words(open.board(), &brought, true))?;
        Ok(outcome(&brought))
    }

    fn brought(&self, board: &Board, album: &Album, scans: Vec<Scanned>) -> Result<Brought, Failure> {
        let wanted = Wanted {
            character: self.whose(board)?,
            own_day_is_worn: self.own_day_is_worn,
            take_colours: self.take_colours,
        };
        let hung = hung(board, album, &scans);
        Ok(Brought::of(board, scans, &hung, &wanted, |path, content| lying(album, path, content)))
    }

    fn whose(&self, board: &Board) -> Result<CharacterId, Failure> {
        match &self.character {
            Some(name) => named::character(board, name),
            None => board.head().characters.first().map(|one| one.id.clone()).ok_or_else(|| {
                Failure::new("the board has no character whose outfits these could be")
                    .hint("write one under `characters:` in board.yaml first")
            }),
        }
    }

    fn words(&self, board: &Board, brought: &Brought, done: bool) -> String {
        let mut to = String::new();
        let read = brought.told.len();
        let _ = writeln!(to, "{}: {} read.", self.from.display(), counted(read, "picture"));
        let mut own_days = 0;
        for told in brought.told.iter().take(MOST) {
            let _ = writeln!(to, "{}", line(board, told, self.own_day_is_worn));
        }
        for told in &brought.told {
            let is_new = matches!(told.place, Place::Draft(..));
            own_days += usize::from(is_new && told.named.is_none() && told.own.is_some());
        }
        if read > MOST {
            let _ = writeln!(to, "… and {}.", counted(read - MOST, "more picture"));
        }
        for (file, why) in brought.wrong.iter().take(MOST) {
            let _ = writeln!(to, "left out: {}: {why}", file_name(file));
        }
        if brought.wrong.len() > MOST {
            let _ = writeln!(to, "… and {} left out.", counted(brought.wrong.len() - MOST, "more file"));
        }
        let drafts = brought.told.iter().filter(|told| matches!(told.place, Place::Draft(..))).count();
        if drafts > 0 {
            let whose = self.whose(board).map_or_else(|_| String::new(), |id| board.name_of(&id).to_owned());
            let _ =
                writeln!(to, "{} of {whose}; --character names another.", capital(&counted(drafts, "draft")));
        }
        if own_days > 0 && !self.own_day_is_worn {
            let _ = writeln!(
                to,
                "Asked: {} no date in the name, but a day of the file's own. That is when it was scanned or \
                 photographed. If it is the day worn, take it with --own-day-is-worn.",
                if own_days == 1 { "one draft has".to_owned() } else { format!("{own_days} drafts have") }
            );
        }
        if brought.told.iter().any(|told| !told.colours.is_empty()) {
            let _ = writeln!(
                to,
                "Colours are the pictures', not the cloths': light, print and age have changed them. On the board, P and \
                 then c takes them from a picture."
            );
        }
        let _ = match (&brought.edit, done) {
            (None, _) if read == 0 => writeln!(to, "Nothing is changed: no picture was read."),
            (None, _) => writeln!(to, "Nothing is changed: the board has all of these already."),
            (Some(edit), true) => writeln!(to, "Done as one edit: {}.", edit.label),
            (Some(edit), false) => {
                writeln!(to, "Nothing is changed yet: this is the preview of: {}.", edit.label)
            }
        };
        to
    }
}

fn outcome(brought: &Brought) -> Outcome {
    if brought.wrong.is_empty() { Outcome::Fine } else { Outcome::Errors }
}

/// What becomes of one picture, in a line.
fn line(board: &Board, told: &Told, own_day_is_worn: bool) -> String {
    let title = |id: &OutfitId| quoted(board.title_of_outfit(id));
    let place = match &told.place {
        Place::Draft(id, title) => format!("new outfit `{id}`, {}", quoted(title)),
        Place::With(id) => format!("with `{id}`, which it is like or named as"),
        Place::Source(id, Why::Id) => format!("a further source of {}, by its name", title(id)),
        Place::Source(id, Why::Title) => format!("a further source of {}, by title and date", title(id)),
        Place::Source(id, Why::Like(path)) => {
            format!("a further source of {}, like {}", title(id), path.as_str())
        }
        Place::Source(id, Why::With(file, Kin::Like)) => {
            format!("a further source of {}, like {} of this folder", title(id), file_name(file))
        }
        Place::Source(id, Why::With(file, Kin::Named)) => {
            format!("a further source of {}, named as {}", title(id), file_name(file))
        }
        Place::Hung(path) => format!("on the board already, as {}", path.as_str()),
        Place::Twice(file) => format!("the same as {}", file_name(file)),
    };
    let mut words = vec![place];
    if matches!(told.place, Place::Draft(..) | Place::With(_) | Place::Source(..)) {
        match &told.named {
            Some(date) => words.push(format!("worn {} by its name", date.short())),
            None => words.push("undated by its name".to_owned()),
        }
        words.extend(told.own.map(own_day_words));
        if own_day_is_worn && told.named.is_none() && matches!(told.place, Place::Draft(..)) {
            words.extend(told.own.map(|_| "which is taken for the day worn".to_owned()));
        }
        let colours: Vec<String> =
            told.colours.iter().take(4).map(|rgb| Colour::of_rgb(*rgb).to_string()).collect();
        if !colours.is_empty() {
            words.push(format!("colours {}", colours.join(" ")));
        }
    }
    format!("  {}  {}", file_name(&told.file), words.join("; "))
}

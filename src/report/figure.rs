//! Figures: what stands beside a row to be looked at. The picture of what a look is made after, from the board's own
//! folder; where there is none that can be seen, the flat of its record, which says that it is drawn.

use std::collections::HashMap;
use std::sync::Arc;

use base64::Engine;
use base64::engine::general_purpose::STANDARD;

use super::plain::Plain;
use crate::album::Album;
use crate::board::{Board, Look, Outfit, PicturePath};
use crate::picture::flat::{DRAWN, Flat};
use crate::picture::photo;

/// How good a JPEG is, of 100: small, and nothing that a fitting is judged by is lost.
const QUALITY: u8 = 80;

/// The longest side of a picture on a page, in pixels.
const LONGEST: u32 = 480;

/// What can be looked at beside a row.
#[derive(Clone, Debug, PartialEq)]
pub enum Figure {
    /// A drawing of what the record says.
    Flat(Arc<Flat>),
    /// A picture from the board's folder.
    Picture(Picture),
}

/// A picture from the board's folder, small.
#[derive(Clone, Debug, PartialEq)]
pub struct Picture {
    /// The name of its file.
    pub name: Plain,
    /// What it is a picture of.
    pub caption: Plain,
    /// Its bytes as JPEG.
    pub jpeg: Arc<[u8]>,
    /// Pixels in a row.
    pub wide: u32,
    /// Rows.
    pub high: u32,
}

impl Figure {
    /// What has to stand below it.
    pub fn caption(&self) -> &str {
        match self {
            Self::Flat(_) => DRAWN,
            Self::Picture(picture) => picture.caption.as_str(),
        }
    }
}

impl Picture {
    /// Its bytes, as they stand within a page or a sheet.
    pub fn data(&self) -> String {
        format!("data:image/jpeg;base64,{}", STANDARD.encode(&self.jpeg))
    }
}

/// Finds figures, each picture once, and keeps what could not be seen.
#[derive(Debug)]
pub(super) struct Figures<'a> {
    board: &'a Board,
    album: Option<&'a Album>,
    longest: u32,
    found: HashMap<PicturePath, Option<Picture>>,
    gaps: Vec<Plain>,
}

impl<'a> Figures<'a> {
    /// Pictures as large as a page has room for; without an album there are flats only.
    pub fn of(board: &'a Board, album: Option<&'a Album>) -> Self {
        Self { board, album, longest: LONGEST, found: HashMap::new(), gaps: Vec::new() }
    }

    /// The same, pictures with this longest side.
    pub fn within(self, longest: u32) -> Self {
        Self { longest, ..self }
    }

    /// What a look is made after, else its flat; nothing where the record is too short for one.
    pub fn of_look(&mut self, look: &Look) -> Option<Figure> {
        let board = self.board;
        let base = look.base.as_ref().and_then(|base| board.outfit(base));
        let seen = base.and_then(|base| Some((base, self.picture(base)?)));
        if let Some((base, picture)) = seen {
            let caption = Plain::line(&format!("after {}", base.title));
            return Some(Figure::Picture(Picture { caption, ..picture }));
        }
        Flat::of_look(look, base).map(|flat| Figure::Flat(Arc::new(flat)))
    }

    /// The picture of an outfit, else its flat; nothing where the record is too short for one.
    pub fn of_outfit(&mut self, outfit: &Outfit) -> Option<Figure> {
        let flat = || Flat::of_outfit(outfit).map(|flat| Figure::Flat(Arc::new(flat)));
        self.picture(outfit).map(Figure::Picture).or_else(flat)
    }

    /// What was looked for and could not be seen, each once.
    pub fn gaps(self) -> Vec<Plain> {
        self.gaps
    }

    /// The first picture of an outfit that can be seen.
    fn picture(&mut self, outfit: &Outfit) -> Option<Picture> {
        outfit.pictures.iter().find_map(|path| self.seen(path))
    }

    fn seen(&mut self, path: &PicturePath) -> Option<Picture> {
        let album = self.album?;
        if let Some(found) = self.found.get(path) {
            return found.clone();
        }
        let found = read(album, path, self.longest);
        if let Err(why) = &found {
            self.gaps.push(Plain::line(&format!("The picture {} is not shown: {why}.", path.as_str())));
        }
        let found = found.ok();
        self.found.insert(path.clone(), found.clone());
        found
    }
}

fn read(album: &Album, path: &PicturePath, longest: u32) -> Result<Picture, String> {
    let pixels = album.pixels(path, (longest, longest)).map_err(|why| why.to_string())?;
    let jpeg = photo::jpeg(&pixels, QUALITY).map_err(|error| error.to_string())?;
    let name = Plain::line(path.name());
    Ok(Picture { caption: name.clone(), name, jpeg: jpeg.into(), wide: pixels.width, high: pixels.height })
}

#[cfg(test)]
mod tests {
    use serde_json::json;

    use super::*;
    use crate::report::made::Folder;

    fn told() -> Board {
        crate::board::told::board(json!({
            "outfits": {
                "smock": {
                    "title": "Quay smock", "pieces": [{"name": "smock"}],
                    "pictures": ["gone.png", "images/smock.png", "images/never-asked.png"],
                },
                "broken": {"title": "Broken", "pieces": [{"name": "frock"}], "pictures": ["broken.jpg", "gone.png"]},
                "bare": {"title": "Bare"},
            },
            "looks": {
                "a": {"title": "Smock", "base": "smock"},
                "b": {"title": "Frock", "base": "broken", "pieces": [{"name": "frock"}]},
                "c": {"title": "Nothing", "treatment": "invent"},
            },
        }))
    }

    #[test]
    fn the_first_picture_that_can_be_seen_is_shown_else_the_flat_else_nothing() {
        let folder = Folder::new();
        folder.picture("images/smock.png", (900, 600), [200, 30, 30]);
        folder.file("broken.jpg", b"\xff\xd8\xff\xe0 and no more");
        let board = told();
        let album = folder.album();
        let mut figures = Figures::of(&board, Some(&album));
        let mut of = |id: &str| figures.of_look(board.look(&id.parse().unwrap()).unwrap());
        let Some(Figure::Picture(picture)) = of("a") else { panic!("no picture") };
        assert_eq!((picture.caption.as_str(), picture.name.as_str()), ("after Quay smock", "smock.png"));
        assert_eq!((picture.wide, picture.high), (LONGEST, 320));
        assert!(matches!(of("b"), Some(Figure::Flat(_))));
        assert_eq!(of("c"), None);
        // Asked twice, told once.
        assert!(matches!(of("b"), Some(Figure::Flat(_))));
        let Some(Figure::Picture(own)) = figures.of_outfit(board.outfit(&"smock".parse().unwrap()).unwrap())
        else {
            panic!("no picture")
        };
        assert_eq!(own.caption.as_str(), "smock.png");
        let gaps: Vec<String> = figures.gaps().iter().map(ToString::to_string).collect();
        assert_eq!(gaps.len(), 2, "{gaps:?}");
        assert_eq!(gaps[0], "The picture gone.png is not shown: no such file in the board's folder.");
        assert!(gaps[1].starts_with("The picture broken.jpg is not shown: "), "{}", gaps[1]);
    }

    #[test]
    fn without_an_album_there_are_flats_and_nothing_is_missing() {
        let board = told();
        let mut figures = Figures::of(&board, None);
        assert!(matches!(
            figures.of_outfit(board.outfit(&"smock".parse().unwrap()).unwrap()),
            Some(Figure::Flat(_))
        ));
        assert!(figures.gaps().is_empty());
    }
}

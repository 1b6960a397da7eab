//! A board with a workroom, and a folder with pictures, for tests of the reports about them.

use serde_json::json;

use crate::album::Album;
use crate::board::{Board, told};
use crate::picture::Pixels;

/// One look of Ada's that goes into the water, in three copies and one for a double, and one of Ben's of a hide.
pub(super) fn board() -> Board {
    told::board(json!({
        "head": {
            "title": "Tide",
            "workroom": {"currency": "crowns", "money": "1000", "rates": {"sewing": "30"}},
            "characters": [
                {"id": "ada", "name": "Ada", "bodies": [
                    {"id": "real", "who": "Ada herself", "is": "original", "measures": {"bust-girth": "91 cm"}},
                    {"id": "kim", "who": "Kim", "is": "performer", "measures": {"bust-girth": "96 cm"}},
                    {"id": "lee", "who": "Lee", "is": "double", "measures": {"bust-girth": "93 cm"}},
                ]},
                {"id": "ben", "name": "Ben", "principal": false},
            ],
        },
        "looks": {
            "wool": {
                "title": "Club wool", "treatment": "invent", "period": "early", "pieces": [{"name": "costume"}],
                "make": {"costume": {
                    "measures": [{"measure": "bust", "rule": "ease", "of": "bust-girth", "original": "84 cm"}],
                    "cuts": [{"cloth": "jersey", "lay": "1.2 m"}],
                    "versions": [{"version": "wet", "copies": {"kim": 2, "lee": 1}}],
                    "hours": {"sewing": 5}, "costs": [{"cost": "dye", "once": "12.50"}],
                }},
            },
            "coat": {
                "title": "Hide coat", "treatment": "invent", "period": "late", "character": "ben",
                "pieces": [{"name": "coat"}], "make": {"coat": {"cuts": [{"cloth": "hide", "skins": 4}]}},
            },
        },
        "cloths": {
            "jersey": {
                "title": "Jersey", "fibres": ["wool"], "width": "140 cm", "price": "20", "stock": "1 m", "lead-days": 10,
                "test-strips": "30 cm",
            },
            "hide": {"title": "Calf", "fibres": ["leather"], "weight": "1.6 mm leather", "trials": [
                {"trial": 1, "weight": "2 mm leather", "verdict": "too-heavy", "notes": "drags"},
                {"trial": 2, "weight": "1.2 mm leather", "verdict": "too-light"},
            ]},
        },
        "scenes": [
            {"scene": 1, "pages": 1, "wears": {"ada": "wool", "ben": "coat"}, "does": {"ada": [
                {"action": "plunge", "takes": 3}, {"action": "plunge", "by": "lee"},
            ]}},
        ],
        "schedule": [
            {"day": 1, "date": "2027-07-09", "scenes": [1]}, {"day": 2, "date": "2027-07-12", "scenes": []},
        ],
        "practice": {
            "spares": {"principal": 2}, "turnaround": {"wet": 4}, "making-days": 12,
            "actions": [{"action": "plunge", "says": "goes in dry", "version": "wet", "does": "wet", "fresh": true}],
            "cautions": [{"caution": "cold", "actions": ["plunge"], "says": "It is cold.", "ask": "How cold.", "of": "the safety lead"}],
        },
    }))
}

/// A board's folder on disk, with pictures in it.
pub(super) struct Folder(tempfile::TempDir);

impl Folder {
    /// An empty one.
    pub fn new() -> Self {
        Self(tempfile::tempdir().unwrap())
    }

    /// Puts a file into it.
    pub fn file(&self, name: &str, bytes: &[u8]) {
        let file = self.0.path().join(name);
        std::fs::create_dir_all(file.parent().unwrap()).unwrap();
        std::fs::write(file, bytes).unwrap();
    }

    /// Puts a picture of one colour into it.
    pub fn picture(&self, name: &str, (width, height): (u32, u32), [red, green, blue]: [u8; 3]) {
        let rgba = [red, green, blue, 255].repeat((width * height) as usize);
        self.file(name, &crate::picture::photo::png(&Pixels { width, height, rgba }).unwrap());
    }

    /// What is in it.
    pub fn album(&self) -> Album {
        Album::of(self.0.path())
    }
}

//! Whatever a board's files hold, nothing of theirs steers the terminal, and the board works.

use super::pty::{Program, User, records};

/// In YAML's own escapes: set the window's title, ring, blink red, go home and wipe, a one-byte CSI and OSC, a device
/// control string, and a turn of direction.
const PAYLOAD: &str =
    r"\e]0;evil\a\e[31;5;66m\e[66;66H\e[?66h\x9B66;5m\x9D0;evil\x9C\eP66q\e\\\u202e\u2066\u200f\u061c";

/// What must never be written: the payload's sequences, as bytes.
const FORBIDDEN: [&str; 12] = [
    "\u{1b}]",
    "\u{7}",
    "\u{1b}[31;5;66m",
    "\u{1b}[66;66H",
    "\u{1b}[?66h",
    "\u{9b}",
    "\u{9d}",
    "\u{1b}P",
    "\u{202e}",
    "\u{2066}",
    "\u{200f}",
    "\u{61c}",
];

/// A board with the payload in every text. `Z`s mark the ends of texts, so that it is seen that they are drawn.
fn files() -> Vec<(String, String)> {
    let p = PAYLOAD;
    let text = |words: &str| format!("\"{p}{words}Z\"");
    let head = format!(
        "shirr: 1\nid: hostile\ntitle: {}\nnotes: {}\nbudget: {{looks: 9}}\nperiods:\n  - {{id: early, title: {}, \
         span: 1911/1924, says: {}, notes: {}}}\ncharacters:\n  - {{id: ada, name: {}, performer: {}}}\nthreads:\n  \
         - {{id: cap, title: {}, says: {}}}\n",
        text("board"),
        text("n"),
        text("period"),
        text("says"),
        text("n"),
        text("ada"),
        text("p"),
        text("thread"),
        text("says")
    );
    let outfit = |title: &str| {
        format!(
            "title: {}\ncharacter: ada\nworn: 1920\noccasion: {}\nsilhouette: {}\npieces:\n  - {{name: {}, cloth: {}, \
             colours: [navy], details: [{}]}}\nevidence:\n  - {{kind: film, source: {}, credit: {}, rights: {}, notes: \
             {}}}\nthreads: [cap]\ndressing: [{}]\ntags: [{}]\nnotes: {}\n",
            text(title),
            text("occasion"),
            text("silhouette"),
            text("piece"),
            text("cloth"),
            text("detail"),
            text("source"),
            text("credit"),
            text("rights"),
            text("n"),
            text("dressing"),
            text("tag"),
            text("notes")
        )
    };
    let look = format!(
        "title: {}\ncharacter: ada\nsays: {}\ntreatment: interpret\nbase: serge\nfolded: [tabard]\ndepartures:\n  - {{detail: {}, was: {}, \
         becomes: {}, why: {}}}\nthreads: [cap]\ndressing: [{}]\nnotes: {}\n",
        text("look"),
        text("says"),
        text("hem"),
        text("was"),
        text("becomes"),
        text("why"),
        text("dressing"),
        text("notes")
    );
    let scenes = format!(
        "- {{scene: 1, heading: {}, set: {}, date: 1920, pages: 1, wears: {{ada: quay}}, action: {}, notes: {}}}\n- \
         {{scene: 2, heading: {}, date: 1921, pages: 1, wears: {{ada: ~}}}}\n",
        text("heading"),
        text("set"),
        text("action"),
        text("notes"),
        text("gap")
    );
    let let_go = format!("{}let-go: {}\n", outfit("gone"), text("reason"));
    let mut files = vec![
        ("board.yaml", head),
        ("outfits/smock.yaml", outfit("smock")),
        ("outfits/serge.yaml", outfit("serge")),
        ("outfits/tabard.yaml", outfit("tabard")),
        ("outfits/gone.yaml", let_go),
        ("looks/quay.yaml", look),
        ("scenes.yaml", scenes),
        // Faults that quote the file: an unknown key, a name that leads nowhere, a word that is none.
        ("outfits/key.yaml", format!("{}\"{p}key\": 1\n", outfit("key"))),
        ("outfits/thread.yaml", format!("title: Thread\ncharacter: ada\nworn: 1921\nthreads: [\"{p}no\"]\n")),
        ("outfits/who.yaml", format!("title: Who\ncharacter: \"{p}who\"\nworn: 1921\n")),
        ("outfits/when.yaml", format!("title: When\ncharacter: ada\nworn: \"{p}when\"\n")),
        ("outfits/kind.yaml", format!("title: Kind\ncharacter: ada\nevidence: [{{kind: \"{p}kind\"}}]\n")),
        ("outfits/away.yaml", "title: Away\ncharacter: ada\npictures: [../../secret.jpg]\n".to_owned()),
        ("outfits/root.yaml", "title: Root\ncharacter: ada\npictures: [/etc/secret.jpg]\n".to_owned()),
        // The same with the raw bytes.
        ("outfits/raw.yaml", "title: \u{1b}]0;evil\u{7}\u{202e}\ncharacter: ada\n".to_owned()),
        (
            "outfits/\u{1b}]0;evil\u{7}\u{1b}[31;5;66m\u{202e}.yaml",
            "title: Name\ncharacter: ada\n".to_owned(),
        ),
        ("looks/\u{9b}66;5m.yaml", "title: Name\n".to_owned()),
    ];
    files.drain(..).map(|(name, text)| (name.to_owned(), text)).collect()
}

fn run(size: (u16, u16)) -> (User, std::path::PathBuf, Program) {
    let user = User::new();
    let files = files();
    let files: Vec<(&str, &str)> = files.iter().map(|(name, text)| (name.as_str(), text.as_str())).collect();
    let folder = user.board("board", &files);
    let program = user.run(&[folder.to_str().unwrap()], size);
    program.shows("could not be read");
    (user, folder, program)
}

/// Where a forbidden sequence is in what was written.
fn steered(program: &Program) -> Option<(&'static str, String)> {
    let raw = program.raw();
    FORBIDDEN.into_iter().find_map(|what| {
        let at = raw.windows(what.len()).position(|window| window == what.as_bytes())?;
        let around = &raw[at.saturating_sub(60)..(at + 60).min(raw.len())];
        Some((what, String::from_utf8_lossy(around).escape_debug().to_string()))
    })
}

const ESCAPE: &str = "\u{1b}";

/// Every screen that shows words of the files: the keys that lead to it, what it then shows, and the keys back.
const SCREENS: [(&str, &str, &str); 30] = [
    ("+", "middle", ""),
    ("+", "near", ""),
    ("--", "far", ""),
    ("z", "folded up", "z"),
    ("T", "Light", ESCAPE),
    ("c", "Show", ESCAPE),
    ("\r", "occasionZ", ""),
    ("\u{1b}[F", "notesZ", ESCAPE),
    ("R", "Rename", ESCAPE),
    ("n", "Notes", ESCAPE),
    ("g", "Gather", ESCAPE),
    ("f", "Fold", ESCAPE),
    ("x", "Let go", ESCAPE),
    ("\t", "lookZ", ""),
    ("d", "Departure", ESCAPE),
    ("t", "Treatment", ESCAPE),
    ("a", "wears it", ESCAPE),
    ("D", "Dissolve", ESCAPE),
    ("b", "Base", ESCAPE),
    ("\t", "sergeZ", ""),
    ("2", "interprets its base", ""),
    ("\t", "▸ title", ""),
    ("\u{1b}[F", "otesZ", "h"),
    ("3", "headingZ", ""),
    ("e", "headingZ", ESCAPE),
    ("\r", "lookZ", ESCAPE),
    ("/", "Find", ESCAPE),
    (":", "Do", ESCAPE),
    ("?", "In ", ESCAPE),
    ("!", "Problems", ESCAPE),
];

#[test]
fn nothing_in_a_file_steers_the_terminal_on_any_screen() {
    for size in [(160, 48), (80, 24)] {
        let (_user, _, mut program) = run(size);
        for (keys, shows, back) in SCREENS {
            program.keys(keys);
            if size.0 > 100 {
                program.shows(shows);
            }
            assert_eq!(steered(&program), None, "after {keys:?} at {size:?}\n{}", program.screen());
            if back == ESCAPE {
                program.escapes();
            } else {
                program.keys(back);
            }
        }
        program.types("1", "1 wall");
        program.keys("q");
        assert_eq!(program.ends(), 0);
        assert_eq!(steered(&program), None);
        assert!(program.gave_back());
    }
}

#[test]
fn what_a_file_says_is_shown_with_its_steering_made_harmless() {
    let (_user, _, program) = run((160, 48));
    let screen = program.shows("goneZ");
    // The words around the sequences are there; what steered is a visible stand-in or gone.
    for words in ["boardZ", "periodZ", "adaZ", "occasionZ", "dressingZ", "threadZ", "]0;evil"] {
        assert!(screen.contains(words), "{words}\n{screen}");
    }
}

#[test]
fn the_board_works_and_its_texts_keep_their_bytes() {
    let (_user, folder, mut program) = run((160, 48));
    program.types("]", "known 1/5");
    program.types("g", "Gather 1 into a new look");
    program.types("\u{15}Plain\r", "gathered 1 into Plain");
    assert_eq!(steered(&program), None);
    program.types("uu", "took back");
    program.shows("known 0/5");
    let reading = shirr::store::read(&folder).unwrap();
    let smock = reading.board.outfit(&"smock".parse().unwrap()).unwrap();
    assert!(smock.title.starts_with("\u{1b}]0;evil\u{7}"), "a title is kept as it is: {:?}", smock.title);
    program.keys("q");
    assert_eq!(program.ends(), 0);
}

#[test]
fn every_fault_is_listed_with_its_place_and_a_picture_outside_the_folder_is_one() {
    let (_user, _, mut program) = run((200, 60));
    program.types("!", "Problems");
    let list = program.shows("enter choose");
    for file in ["key", "thread", "who", "when", "kind", "away", "root", "raw"] {
        assert!(list.contains(&format!("outfits/{file}.yaml:")), "{file}\n{list}");
    }
    for file in ["away", "root"] {
        let row = list.lines().find(|line| line.contains(&format!("outfits/{file}.yaml:"))).unwrap();
        assert!(row.contains(&format!("outfits/{file}.yaml:3:")), "{row}");
    }
    assert_eq!(steered(&program), None);
}

#[test]
fn a_picture_outside_the_folder_cannot_be_typed_in_either() {
    let user = User::new();
    let folder = user.demo("board");
    let mut program = user.run(&[folder.to_str().unwrap()], (120, 40));
    program.shows("× Christening robe, lent");
    let before = records(&folder);
    program.types("\r", "pictures");
    let place = program.place("pictures", 2);
    program.clicks(0, place);
    program.clicks(0, place);
    program.shows("Pictures of");
    program.keys("../../secret.jpg\r");
    program.until("a refusal", |screen| {
        screen.contains("Pictures of") && screen.contains("! ") || screen.contains("folder")
    });
    program.keys("\u{1b}");
    program.until("the form gone", |screen| !screen.contains("Pictures of"));
    program.escapes();
    assert_eq!(records(&folder), before);
}

#[test]
fn an_escape_sequence_in_a_title_never_reaches_the_terminal() {
    let user = User::new();
    let board = user.demo("board");
    let file = board.join("outfits/od-1949-funeral-costume.yaml");
    let text = std::fs::read_to_string(&file).unwrap();
    let lines: Vec<String> = text
        .lines()
        .map(|line| match line.strip_prefix("title:") {
            Some(_) => "title: \"evil\\e]0;owned\\a\\e[31mred\\u202edlo\"".to_owned(),
            None => line.to_owned(),
        })
        .collect();
    std::fs::write(&file, lines.join("\n")).unwrap();
    let mut program = user.run(&[board.to_str().unwrap()], (120, 40));
    program.shows("Slack Wa");
    program.types("/", "Find");
    program.types("evil", "evil");
    program.types("\r", "Ivo Karsk's funeral");
    // Every zoom, and the sheet.
    program.types("+", "middle: lines");
    program.types("+", "near: cards");
    program.types("\r", "esc");
    program.keys("\u{1b}");
    program.until("the wall again", |screen| screen.contains("? help"));
    program.keys("q");
    program.ends();
    let raw = program.raw();
    for payload in [&b"\x1b]0;owned"[..], &b"\x1b[31mred"[..], "\u{202e}".as_bytes()] {
        assert!(!raw.windows(payload.len()).any(|bytes| bytes == payload), "{payload:?}");
    }
}

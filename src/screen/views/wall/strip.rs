//! The strip at the foot of the wall: what is known of the thing in focus.

use ratatui::layout::Rect;
use ratatui::style::Style;

use super::Wall;
use super::draw::standing_mark;
use super::shelf::Entry;
use crate::board::{Board, Look, LookId, Outfit, OutfitId, Standing};
use crate::plot;
use crate::screen::canvas::Canvas;

/// Draws the strip.
pub fn draw(wall: &Wall, board: &Board, canvas: &mut Canvas<'_>, area: Rect) {
    if area.height == 0 {
        return;
    }
    let quiet = canvas.theme.quiet();
    canvas.put(area.x, area.y, area.width, &"─".repeat(usize::from(area.width)), quiet);
    let lines = match &wall.focus {
        Some(Entry::Outfit(id)) => board.outfit(id).map(|outfit| of_outfit(wall, board, id, outfit)),
        Some(Entry::Look(id)) => board.look(id).map(|look| of_look(board, id, look)),
        None => None,
    };
    let Some((title, lines)) = lines else { return };
    let heading = canvas.theme.heading();
    if area.height > 1 {
        let right = area.right();
        let x = canvas.spans(area.x, area.y + 1, right, &[(&title.0, heading), ("  ", Style::new())]);
        canvas.put(x, area.y + 1, right.saturating_sub(x), &title.1, quiet);
    }
    let shown = lines.iter().filter(|line| !line.is_empty());
    for (y, line) in (area.y + 2..area.bottom()).zip(shown) {
        canvas.put(area.x, y, area.width, line, Style::new());
    }
}

type Told = ((String, String), Vec<String>);

fn of_outfit(wall: &Wall, board: &Board, id: &OutfitId, outfit: &Outfit) -> Told {
    let date = outfit.worn.as_ref().map_or_else(|| "undated".to_owned(), |date| date.short());
    let evidence: Vec<&str> = outfit.evidence.iter().map(|one| one.kind.word()).collect();
    let evidence = if evidence.is_empty() { "no evidence named".to_owned() } else { evidence.join(", ") };
    let about = format!(
        "{date} · {} · {evidence} · known {}/5",
        board.name_of(&outfit.character),
        outfit.recognition.get()
    );
    let standing = match board.standing(id) {
        _ if wall.marks.contains(id) => marked(wall.marks.len()),
        Standing::Open => {
            "open: space marks it, g gathers it into a new look, f folds it into one, x lets it go".to_owned()
        }
        Standing::LetGo(reason) => format!("let go: {reason}"),
        Standing::Folded(look) => held(board, id, look),
    };
    let mut worn = outfit.occasion.clone();
    if let Some(how) = joined("worn: ", &outfit.dressing) {
        worn = if worn.is_empty() { how } else { format!("{worn} · {how}") };
    }
    let pieces = outfit.pieces.iter().map(|piece| match piece.cloth.as_str() {
        "" => piece.name.clone(),
        cloth => format!("{} ({cloth})", piece.name),
    });
    let pieces: Vec<String> = pieces.collect();
    let threads: Vec<String> = outfit.threads.iter().map(|id| thread(board, id)).collect();
    let lines = vec![standing, worn, pieces.join(" · "), joined("threads: ", &threads).unwrap_or_default()];
    ((format!("{} {}", standing_mark(board, id), outfit.title), about), lines)
}

fn marked(count: usize) -> String {
    match count {
        1 => "marked: g gathers it, f folds it, x lets it go; space takes the mark off".to_owned(),
        _ => format!(
            "marked, {count} in all: g gathers them, f folds them, x lets them go; space takes this mark off"
        ),
    }
}

fn held(board: &Board, id: &OutfitId, look_id: &LookId) -> String {
    let Some(look) = board.look(look_id) else { return format!("in look {look_id}, which is not there") };
    let part = if look.base.as_ref() == Some(id) { "base of" } else { "folded into" };
    format!("{part} {} {} · {}", look.treatment.mark(), look.title, scenes(board, look_id))
}

fn of_look(board: &Board, id: &LookId, look: &Look) -> Told {
    let period = board.relations().period_of_look(id).map_or("in no period", |period| board.title_of(period));
    let about = format!("look of {} · {period} · {}", board.name_of(&look.character), look.stage.word());
    let base = match look.base.as_ref() {
        Some(base) => {
            let title = board.outfit(base).map_or(base.as_str(), |outfit| &outfit.title);
            format!("{} {title}", look.treatment.word())
        }
        None => "invented: no source covers it".to_owned(),
    };
    let folded = match look.folded.len() {
        0 => String::new(),
        count => format!(" · {count} folded in"),
    };
    let departures = look.departures.iter().map(|one| format!("{} → {}", one.detail, one.becomes));
    let departures: Vec<String> = departures.collect();
    let lines = vec![
        format!("{base}{folded} · {}", scenes(board, id)),
        look.says.clone(),
        joined("departs: ", &departures).unwrap_or_default(),
        joined("worn: ", &look.dressing).unwrap_or_default(),
    ];
    ((format!("{} {}", look.treatment.mark(), look.title), about), lines)
}

fn scenes(board: &Board, id: &LookId) -> String {
    let scenes = board.relations().scenes_of(id);
    if scenes.is_empty() {
        return "in no scene yet: a puts it into one".to_owned();
    }
    let numbers: Vec<String> =
        scenes.iter().map(|at| board.records().scenes[*at].number.to_string()).collect();
    let word = if numbers.len() == 1 { "scene" } else { "scenes" };
    format!("{word} {}, {} on screen", numbers.join(" "), plot::of_look(board, id).clock())
}

fn thread(board: &Board, id: &crate::board::ThreadId) -> String {
    board.thread(id).map_or_else(|| id.to_string(), |thread| thread.title.clone())
}

fn joined(lead: &str, words: &[String]) -> Option<String> {
    (!words.is_empty()).then(|| format!("{lead}{}", words.join(" · ")))
}

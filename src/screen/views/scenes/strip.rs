//! The strip below the table: the scene in focus, and what its character wears there.

use ratatui::layout::Rect;
use ratatui::style::Style;

use super::{Cell, before, cell, foreign_period};
use crate::board::{Board, CharacterId, LookId, Scene};
use crate::plot::Changes;
use crate::screen::canvas::{Canvas, wrapped};

/// How many rows the strip takes of a view of this height.
pub fn height_of(whole: u16) -> u16 {
    match whole {
        0..15 => 0,
        15..24 => 5,
        24..44 => 8,
        _ => 11,
    }
}

/// From this width on, scene and look stand side by side.
const WIDE: u16 = 100;

/// Draws the strip.
pub fn draw(board: &Board, at: usize, character: Option<&CharacterId>, canvas: &mut Canvas<'_>, area: Rect) {
    let Some(scene) = board.records().scenes.get(at) else { return };
    if area.height < 2 {
        return;
    }
    draw_title(scene, canvas, area);
    let below = Rect { y: area.y + 1, height: area.height - 1, ..area };
    let about = about_scene(board, at, scene);
    let worn = character.map(|id| about_worn(board, at, id)).unwrap_or_default();
    if below.width >= WIDE {
        let half = below.width / 2;
        draw_words(&about, canvas, Rect { width: half - 2, ..below });
        draw_words(&worn, canvas, Rect { x: below.x + half, width: below.width - half, ..below });
        return;
    }
    // What is worn comes first where there is little room: it is what the keys act on.
    let high = below.height.div_ceil(2);
    draw_words(&worn, canvas, Rect { height: high, ..below });
    draw_words(&about, canvas, Rect { y: below.y + high, height: below.height - high, ..below });
}

fn draw_title(scene: &Scene, canvas: &mut Canvas<'_>, area: Rect) {
    let (quiet, heading) = (canvas.theme.quiet(), canvas.theme.heading());
    let title = format!("{}  {}", scene.number, scene.heading);
    let end = canvas.spans(
        area.x,
        area.y,
        area.right().saturating_sub(1),
        &[("── ", quiet), (title.trim_end(), heading), (" ", quiet)],
    );
    let rest = area.right().saturating_sub(end);
    canvas.put(end, area.y, rest, &"─".repeat(usize::from(rest)), quiet);
}

/// Paragraphs, each with whether it is loud.
type Words = Vec<(String, Voice)>;

#[derive(Clone, Copy, PartialEq, Eq)]
enum Voice {
    Plain,
    Strong,
    Quiet,
    Waiting,
}

fn draw_words(words: &Words, canvas: &mut Canvas<'_>, area: Rect) {
    let mut rows = area.top()..area.bottom();
    let left = usize::from(area.height);
    // Each paragraph gets a line; the first ones get what is left.
    let mut spare = left.saturating_sub(words.len());
    for (text, voice) in words {
        let style: Style = match voice {
            Voice::Plain => canvas.theme.text(),
            Voice::Strong => canvas.theme.heading(),
            Voice::Quiet => canvas.theme.quiet(),
            Voice::Waiting => canvas.theme.open(),
        };
        let lines = wrapped(text, usize::from(area.width.saturating_sub(1)));
        let shown = lines.len().min(1 + spare).max(1);
        spare -= shown - 1;
        for (at, line) in lines.iter().take(shown).enumerate() {
            let Some(y) = rows.next() else { return };
            // A paragraph that is cut says so.
            if at + 1 == shown && shown < lines.len() {
                let rest = lines[at..].join(" ");
                canvas.put(area.x, y, area.width.saturating_sub(1), &rest, style);
            } else {
                canvas.put(area.x, y, area.width, line, style);
            }
        }
    }
}

fn about_scene(board: &Board, at: usize, scene: &Scene) -> Words {
    let mut facts = Vec::new();
    facts.push(match board.relations().period_of_scene(at) {
        Some(period) => board.title_of(period).to_owned(),
        None => "in no period".to_owned(),
    });
    facts.extend(scene.story_day.map(|day| day.to_string()));
    facts.extend(scene.date.as_ref().map(|date| date.short()));
    facts.push(format!("{} p.", scene.pages));
    facts.push(shooting(board, scene));
    let mut words = vec![(facts.join(" · "), Voice::Quiet)];
    if !scene.action.is_empty() {
        words.push((scene.action.clone(), Voice::Plain));
    }
    if !scene.notes.is_empty() {
        words.push((format!("Notes: {}", scene.notes), Voice::Plain));
    }
    words
}

/// On which day it is shot.
fn shooting(board: &Board, scene: &Scene) -> String {
    let days = board.records().schedule.iter().filter(|day| day.scenes.contains(&scene.number));
    let days: Vec<String> = days
        .map(|day| match &day.date {
            Some(date) => format!("day {}, {}", day.day, date.short()),
            None => format!("day {}", day.day),
        })
        .collect();
    if days.is_empty() { "not scheduled".to_owned() } else { format!("shot on {}", days.join(" and ")) }
}

fn about_worn(board: &Board, at: usize, character: &CharacterId) -> Words {
    let name = board.name_of(character);
    match cell(board, at, character) {
        Cell::Away => vec![(format!("{name} is not in this scene"), Voice::Quiet)],
        Cell::Gap => {
            let carried = before(board, at, character)
                .and_then(|(at, look)| Some((board.records().scenes.get(at)?, board.look(look?)?)));
            let how = match carried {
                Some((scene, look)) => {
                    format!("enter chooses, c carries {} on from {}", look.title, scene.number)
                }
                None => "enter chooses".to_owned(),
            };
            vec![(format!("○ {name} has no look yet: {how}"), Voice::Waiting)]
        }
        Cell::Wears(id) => {
            let change = Changes::of(board).number(at, character);
            let mut words = about_look(board, name, id, change);
            if let Some(period) = foreign_period(board, at, character) {
                words.insert(
                    1,
                    (format!("! a look of {period}, in a scene of another period"), Voice::Waiting),
                );
            }
            words
        }
    }
}

fn about_look(board: &Board, name: &str, id: &LookId, change: Option<u32>) -> Words {
    let Some(look) = board.look(id) else {
        return vec![(format!("{name}: look {id} is not there"), Voice::Waiting)];
    };
    let change = change.map_or(String::new(), |number| format!(", change {number}"));
    let says = if look.says.is_empty() { String::new() } else { format!(": {}", look.says) };
    let mut words =
        vec![(format!("{name}{change} {} {}{says}", look.treatment.mark(), look.title), Voice::Strong)];
    if !look.dressing.is_empty() {
        words.push((format!("Worn: {}", look.dressing.join("; ")), Voice::Plain));
    }
    if !look.departures.is_empty() {
        let departures: Vec<String> =
            look.departures.iter().map(|one| format!("{} {}", one.detail, one.becomes)).collect();
        words.push((format!("Departs in {}", departures.join("; ")), Voice::Quiet));
    }
    words
}

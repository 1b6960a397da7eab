//! Draws one frame: header, counter, the view, what lies over it, and the footer.

use ratatui::Frame;
use ratatui::layout::Rect;
use ratatui::style::Style;

use super::actions::{self, Act, Scope};
use super::app::App;
use super::canvas::{Canvas, Hit, disarm, fitted, width};
use super::parts::meter::{self, Form};
use super::views::{Target, wall};
use crate::board::{Board, Count, Scope as Limit};
use crate::workroom::cost::Costs;

/// The least that a board can be shown on.
pub const LEAST: (u16, u16) = (40, 12);

/// Cells for what is kept: `keeps 100 %` and a gap.
const KEPT: usize = 12;

/// Draws the app.
pub fn draw(app: &mut App, frame: &mut Frame<'_>) {
    let area = frame.area();
    let cursor = draw_on(app, frame.buffer_mut(), area);
    if let Some(cursor) = cursor {
        frame.set_cursor_position(cursor);
    }
}

/// Draws the app on a buffer; returns where the cursor shall stand.
pub fn draw_on(
    app: &mut App,
    buffer: &mut ratatui::buffer::Buffer,
    area: Rect,
) -> Option<ratatui::layout::Position> {
    app.hits.clear();
    // The header tells of the focus, so the wall must know its own first.
    app.wall.refresh(app.open.board(), app.version);
    let focused = app.focused();
    let period = period_in_focus(app.board(), focused.as_ref());
    let faults = app.open.faults().len();
    let App {
        open,
        version,
        view,
        wall,
        looks,
        scenes,
        walk,
        workroom,
        layers,
        said,
        measure,
        reckoning,
        gallery,
        theme,
        hits,
        ..
    } = app;
    let board = open.board();
    measure.refresh(board, *version);
    reckoning.refresh(board, *version, *view == Scope::Workroom);
    gallery.begin();
    let mut canvas = Canvas::new(buffer, theme, hits).with(gallery);
    if area.width < LEAST.0 || area.height < LEAST.1 {
        let words = format!("Shirr needs at least {} columns and {} rows.", LEAST.0, LEAST.1);
        for (y, line) in
            (area.top()..area.bottom()).zip(super::canvas::wrapped(&words, usize::from(area.width)))
        {
            canvas.put(area.x, y, area.width, &line, Style::new());
        }
        disarm(buffer);
        return None;
    }
    let head = Rect::new(area.x, area.y, area.width, 1);
    let counter = Rect::new(area.x, area.y + 1, area.width, 1);
    let foot_rows = if area.height >= 20 { 2 } else { 1 };
    let body = Rect::new(area.x, area.y + 2, area.width, area.height - 2 - foot_rows);
    let foot = Rect::new(area.x, body.bottom(), area.width, foot_rows);
    header(&mut canvas, head, board, *view, &wall.says());
    let character = wall_or_focus(*view, wall, scenes, focused, board);
    let who = match &character {
        Some(Limit::Character(who)) => Some(who),
        _ => None,
    };
    let kept = measure.kept(who).map(|share| format!("keeps {:.0} %", share * 100.0));
    let sums = reckoning.costs(board).map_or(Vec::new(), |costs| sums(board, costs));
    let beside = Beside { kept, sums, sums_first: *view == Scope::Workroom };
    let used =
        counters(&mut canvas, counter, board, character.clone(), period.as_ref(), beside.room(area.width));
    beside.draw(&mut canvas, Rect { x: used, width: counter.right().saturating_sub(used), ..counter });
    match view {
        Scope::Looks => looks.draw(board, &mut canvas, body),
        Scope::Scenes => scenes.draw(board, &mut canvas, body),
        Scope::Walk => walk.draw(board, &mut canvas, body),
        Scope::Workroom => {
            if let Some(reckoned) = reckoning.get() {
                workroom.draw(board, *version, reckoned, &mut canvas, body);
            }
        }
        Scope::Wall | Scope::Everywhere => wall.draw(board, *version, &mut canvas, body),
    }
    let keys = layers.last_mut().map(|laid| laid.layer().keys());
    let standing = match faults {
        0 => None,
        1 => Some("something is wrong with a file of the board: ! tells what".to_owned()),
        count => Some(format!("{count} things are wrong with files of the board: ! lists them")),
    };
    let said = Words { said, standing: standing.as_deref() };
    let offers = |act| match view {
        Scope::Wall => wall.offers(board, act),
        Scope::Workroom => workroom.offers(act),
        _ => true,
    };
    footer(&mut canvas, foot, *view, said, keys, &offers);
    for laid in layers.iter_mut() {
        canvas.cover();
        laid.layer().draw(board, &mut canvas, body);
    }
    let cursor = canvas.cursor.filter(|_| !layers.is_empty());
    disarm(buffer);
    gallery.end(buffer);
    cursor
}

fn period_in_focus(board: &Board, focused: Option<&Target>) -> Option<Limit> {
    let relations = board.relations();
    let period = match focused? {
        Target::Outfit(id) => relations.period_of_outfit(id),
        Target::Look(id) => relations.period_of_look(id),
        Target::Scene(number) => relations.scene_at(number).and_then(|at| relations.period_of_scene(at)),
        Target::Period(id) => Some(id),
        Target::Thread(_) => None,
    };
    period.cloned().map(Limit::Period)
}

fn wall_or_focus(
    view: Scope,
    wall: &wall::Wall,
    scenes: &super::views::scenes::Scenes,
    focused: Option<Target>,
    board: &Board,
) -> Option<Limit> {
    let character = match view {
        Scope::Looks | Scope::Walk | Scope::Workroom => match focused {
            Some(Target::Look(id)) => board.look(&id).map(|look| look.character.clone()),
            _ => None,
        },
        Scope::Scenes => scenes.character(board),
        Scope::Wall | Scope::Everywhere => wall.character(board),
    };
    character.map(Limit::Character)
}

fn header(canvas: &mut Canvas<'_>, area: Rect, board: &Board, view: Scope, wall_says: &str) {
    let (heading, quiet, key, focus) =
        (canvas.theme.heading(), canvas.theme.quiet(), canvas.theme.key(), canvas.theme.focus());
    let right = area.right();
    // The views' names must be seen on every width; the title takes what they leave, if that is more than a few letters.
    let tabs = [
        (Act::Wall, Scope::Wall),
        (Act::Looks, Scope::Looks),
        (Act::Scenes, Scope::Scenes),
        (Act::Walk, Scope::Walk),
        (Act::Workroom, Scope::Workroom),
    ];
    let (gap, joint): (u16, &str) = match area.width {
        ..48 => (1, ""),
        48..64 => (1, " "),
        _ => (2, " "),
    };
    let one = |act: Act| width(act.row().name) + 1 + width(joint) + usize::from(gap);
    let tabs_width: usize = tabs.iter().map(|(act, _)| one(*act)).sum();
    let room = area.width.saturating_sub(u16::try_from(tabs_width).unwrap_or(0));
    let mut x = area.x;
    if room >= 6 {
        x += canvas.put(x, area.y, room, &board.head().title, heading) + gap;
    }
    for (act, scope) in tabs {
        let row = act.row();
        let name = row.name;
        let start = x;
        let style = if scope == view { focus } else { Style::new() };
        x = canvas.spans(x, area.y, right, &[(row.keys[0], key), (joint, Style::new()), (name, style)]);
        canvas.hit(Rect::new(start, area.y, x - start, 1), Hit::Act(act));
        x += gap;
    }
    if view == Scope::Wall {
        // Where there is no room for all of it, its beginning says most.
        let used = u16::try_from(width(wall_says)).unwrap_or(0).min(right.saturating_sub(x + 1));
        if used >= 10 {
            canvas.put(right - used, area.y, used, wall_says, quiet);
        }
    }
}

fn counters(
    canvas: &mut Canvas<'_>,
    area: Rect,
    board: &Board,
    character: Option<Limit>,
    period: Option<&Limit>,
    beside: usize,
) -> u16 {
    let scopes = [Some(Limit::Overall), character, period.cloned()];
    let shown: Vec<(String, Count)> = scopes
        .iter()
        .flatten()
        .map(|scope| {
            let name = if *scope == Limit::Overall { "Looks".to_owned() } else { board.scope_name(scope) };
            (name, board.count(scope))
        })
        .collect();
    // Bars give room to what stands beside them.
    let room = usize::from(area.width).saturating_sub(beside);
    let names: usize = shown.iter().map(|(name, _)| width(name)).sum();
    let forms = |form: Form| -> Vec<Form> {
        // On the narrowest screens only the first is said in words.
        (0..shown.len()).map(|at| Form { words: form.words || at == 0, ..form }).collect()
    };
    let beside = |forms: &[Form]| -> usize {
        shown.iter().zip(forms).map(|((_, count), form)| form.room(*count) + 2).sum()
    };
    // Bars give way to names, words to the last letters of names, and every number is seen.
    let least = 4 * shown.len();
    let wanted =
        [(20, names), (12, names), (8, names), (5, names), (5, 2 * least), (3, 2 * least), (0, least)];
    let forms = wanted
        .into_iter()
        .map(|(cells, names)| (forms(Form { cells, words: true }), names))
        .find(|(forms, names)| beside(forms) + names <= room)
        .map_or_else(|| forms(Form { cells: 0, words: false }), |(forms, _)| forms);
    let mut spare = room.saturating_sub(beside(&forms));
    let mut x = area.x;
    for (at, ((name, count), form)) in shown.iter().zip(forms).enumerate() {
        let name = fitted(name, spare / (shown.len() - at));
        spare = spare.saturating_sub(width(&name));
        x = meter::draw(canvas, x, area.y, area.right(), &name, *count, form) + 2;
    }
    x
}

/// What stands beside the counter and gives way to it: what is kept of the character in focus, and the money.
struct Beside {
    kept: Option<String>,
    /// The costs in as many words as there is room for, the longest first.
    sums: Vec<(String, bool)>,
    /// Whether the money is worth more than what is kept.
    sums_first: bool,
}

impl Beside {
    /// How many cells the counter's bars are to leave.
    fn room(&self, wide: u16) -> usize {
        let shortest = self.sums.last().map_or(0, |(words, _)| width(words) + 2);
        match wide {
            ..60 => 0,
            60..100 if self.sums_first && shortest > 0 => shortest,
            60..100 => KEPT,
            100.. => KEPT + shortest,
        }
    }

    fn draw(&self, canvas: &mut Canvas<'_>, area: Rect) {
        let mut right = area.right();
        let mut put = |canvas: &mut Canvas<'_>, words: &str, style| {
            let wide = u16::try_from(width(words)).unwrap_or(u16::MAX);
            let fits = wide <= right.saturating_sub(area.x);
            if fits {
                canvas.put(right - wide, area.y, wide, words, style);
                right = right.saturating_sub(wide + 2);
            }
            fits
        };
        let text = canvas.theme.text();
        let kept = self.kept.as_deref();
        if let Some(kept) = kept.filter(|_| !self.sums_first) {
            put(canvas, kept, text);
        }
        for (words, is_over) in &self.sums {
            let style = if *is_over { canvas.theme.over() } else { text };
            if put(canvas, words, style) {
                break;
            }
        }
        if let Some(kept) = kept.filter(|_| self.sums_first) {
            put(canvas, kept, text);
        }
    }
}

/// What the board costs against the money that there is, in fewer and fewer words, and whether they say that it is over.
fn sums(board: &Board, costs: &Costs) -> Vec<(String, bool)> {
    let currency = match board.head().workroom.currency.as_str() {
        "" => String::new(),
        currency => format!(" {currency}"),
    };
    // What has no price is not in the sum.
    let more = if costs.lacks() > 0 { "+" } else { "" };
    let sum = format!("{}{more}", costs.sum().whole());
    let (Some(money), Some(left)) = (costs.money, costs.left()) else {
        return vec![(format!("costs {sum}{currency}"), false), (format!("{sum}{currency}"), false)];
    };
    let is_over = left.is_negative();
    let (short, mark) = if is_over {
        (format!("{}{more}{currency} over", (-left).whole()), "! ")
    } else {
        (format!("{}{currency} left", left.whole()), "")
    };
    let of = format!("{sum} of {}", money.whole());
    vec![
        (format!("{of}, {mark}{short}"), is_over),
        (format!("{mark}{of}{currency}"), is_over),
        (format!("{mark}{short}"), is_over),
    ]
}

/// What the footer's first row says: the last word to the user, or what is wrong as long as it is.
struct Words<'a> {
    said: &'a super::app::Said,
    standing: Option<&'a str>,
}

fn footer(
    canvas: &mut Canvas<'_>,
    area: Rect,
    view: Scope,
    words: Words<'_>,
    layer: Option<&'static str>,
    offers: &dyn Fn(Act) -> bool,
) {
    let Words { said, standing } = words;
    let said_style = if said.wrong { canvas.theme.over() } else { canvas.theme.text() };
    let hints_row = area.bottom() - 1;
    if area.height > 1 {
        match standing.filter(|_| said.text.is_empty()) {
            Some(standing) => canvas.put(area.x, area.y, area.width, standing, canvas.theme.over()),
            None => canvas.put(area.x, area.y, area.width, &said.text, said_style),
        };
    }
    let quiet = canvas.theme.quiet();
    if let Some(keys) = layer {
        canvas.put(area.x, hints_row, area.width, keys, quiet);
        return;
    }
    if area.height == 1 && said.fresh {
        canvas.put(area.x, hints_row, area.width, &said.text, said_style);
        return;
    }
    let key = canvas.theme.key();
    let mut rows: Vec<&actions::Action> =
        actions::of_view(view).filter(|action| action.footer > 0 && offers(action.act)).collect();
    rows.sort_by_key(|action| action.footer);
    // Help is always in the footer; the others while there is room.
    let help = Act::Help.row();
    rows.retain(|action| action.act != Act::Help);
    let help_width = u16::try_from(width(help.name) + width(help.keys[0]) + 1).unwrap_or(0);
    let right = area.right().saturating_sub(help_width + 2);
    let mut x = area.x;
    for action in rows {
        let name = action.keys[0];
        let need = u16::try_from(width(name) + 1 + width(action.name)).unwrap_or(0);
        if x + need > right {
            continue;
        }
        let start = x;
        x = canvas.spans(x, hints_row, right, &[(name, key), (" ", quiet), (action.name, quiet)]);
        canvas.hit(Rect::new(start, hints_row, x - start, 1), Hit::Act(action.act));
        x += 2;
    }
    let start = area.right() - help_width;
    canvas.spans(start, hints_row, area.right(), &[(help.keys[0], key), (" ", quiet), (help.name, quiet)]);
    canvas.hit(Rect::new(start, hints_row, help_width, 1), Hit::Act(Act::Help));
}

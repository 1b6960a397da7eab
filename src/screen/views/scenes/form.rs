//! Writing a scene: changing its fields, and adding one.

use super::act::focus;
use crate::board::{Board, Light, PeriodId, Place, Scene, SceneNumber};
use crate::bring::script::between;
use crate::screen::app::App;
use crate::screen::dates::{date_of, date_says, pages_of, pages_says, story_day_of, story_day_says};
use crate::screen::layers::form::Filled;
use crate::screen::layers::{Field, Form};
use crate::screen::views::Target;

const PLACES: [Place; 3] = [Place::Inside, Place::Outside, Place::Both];
const LIGHTS: [Light; 4] = [Light::Day, Light::Night, Light::Dawn, Light::Dusk];

/// The name of a choice that was not made.
const UNSAID: &str = "not said";

/// Asks for the fields of the scene in focus.
pub fn edit(app: &mut App) {
    let Some((_, number)) = focus(app) else { return };
    let board = app.board();
    let Some(scene) = board.scene(&number) else { return };
    let periods = periods(board);
    let fields = fields(board, scene, &periods);
    let lead = vec![format!("number {number}; a script that is brought in can number scenes anew")];
    let form = Form::new(format!("Scene {number}"), fields, move |app, filled| {
        let Some(scene) = app.board().scene(&number) else { return Err(format!("scene {number} is gone")) };
        let written = read(scene.clone(), filled, &periods)?;
        let label = format!("scene {number} changed");
        // The scene's own number and who is in it are not among the fields.
        let edit = app.board().change_scene(&number, label, |scene| {
            let wears = std::mem::take(&mut scene.wears);
            let notes = std::mem::take(&mut scene.notes);
            *scene = Scene { wears, notes, ..written };
        });
        app.change(edit);
        Ok(())
    });
    app.open_layer(form.lead(lead));
}

/// Asks for a new scene, to stand behind the one in focus. What often stays the same is filled in.
pub fn add(app: &mut App) {
    let board = app.board();
    let after = app.scenes.at(board).and_then(|at| board.records().scenes.get(at)).cloned();
    let number = propose(board, after.as_ref().map(|scene| &scene.number));
    let blank = Scene {
        set: after.as_ref().map_or(String::new(), |scene| scene.set.clone()),
        place: after.as_ref().and_then(|scene| scene.place),
        light: after.as_ref().and_then(|scene| scene.light),
        story_day: after.as_ref().and_then(|scene| scene.story_day),
        date: after.as_ref().and_then(|scene| scene.date.clone()),
        period: after.as_ref().and_then(|scene| scene.period.clone()),
        ..Scene::numbered(number)
    };
    let periods = periods(board);
    let mut all = vec![Field::line("number", blank.number.to_string()).read_as(number_says)];
    all.extend(fields(board, &blank, &periods));
    let after = after.map(|scene| scene.number.clone());
    let title = match &after {
        Some(after) => format!("A scene behind {after}"),
        None => "The first scene".to_owned(),
    };
    let form = Form::new(title, all, move |app, filled| {
        let Some((number, rest)) = filled.split_first() else { return Ok(()) };
        let mut scene = read(blank.clone(), rest, &periods)?;
        scene.number = number.text().parse()?;
        let number = scene.number.clone();
        let edit = app.board().add_scene(scene, after.as_ref()).map_err(|refused| refused.to_string())?;
        if app.change(Ok(edit)) {
            app.focus(&Target::Scene(number));
        }
        Ok(())
    });
    app.open_layer(form);
}

/// A number for a scene behind `after`, as a script would number it.
fn propose(board: &Board, after: Option<&SceneNumber>) -> SceneNumber {
    let behind = match after {
        Some(after) => board.scenes().skip_while(|scene| scene.number != *after).nth(1),
        None => board.scenes().next(),
    };
    let taken = board.scenes().map(|scene| scene.number.clone()).collect();
    between(after, behind.map(|scene| &scene.number), &taken)
}

fn periods(board: &Board) -> Vec<PeriodId> {
    board.head().periods.iter().map(|period| period.id.clone()).collect()
}

fn fields(board: &Board, scene: &Scene, periods: &[PeriodId]) -> Vec<Field> {
    let place = scene.place.and_then(|place| PLACES.iter().position(|have| *have == place));
    let light = scene.light.and_then(|light| LIGHTS.iter().position(|have| *have == light));
    let period = scene.period.as_ref().and_then(|period| periods.iter().position(|have| have == period));
    let after_none = |at: Option<usize>| at.map_or(0, |at| at + 1);
    let options = |first: &str, words: Vec<String>| -> Vec<String> {
        std::iter::once(first.to_owned()).chain(words).collect()
    };
    let places = PLACES.iter().map(|place| place.word().to_owned()).collect();
    let lights = LIGHTS.iter().map(|light| light.word().to_owned()).collect();
    let titles = periods.iter().map(|period| board.title_of(period).to_owned()).collect();
    vec![
        Field::line("heading", &scene.heading),
        Field::line("set", &scene.set),
        Field::choice("where", options(UNSAID, places), after_none(place)),
        Field::choice("light", options(UNSAID, lights), after_none(light)),
        Field::line("story day", scene.story_day.map_or(String::new(), |day| day.to_string()))
            .read_as(story_day_says),
        Field::line("date", scene.date.as_ref().map_or(String::new(), ToString::to_string))
            .read_as(date_says),
        Field::choice("period", options("as the date says", titles), after_none(period)),
        Field::line("pages", pages_text(scene)).read_as(pages_says),
        Field::line("action", &scene.action),
    ]
}

fn pages_text(scene: &Scene) -> String {
    if scene.pages.get() == 0 { String::new() } else { scene.pages.to_string() }
}

fn number_says(text: &str) -> Result<String, String> {
    text.parse::<SceneNumber>().map(|number| format!("scene {number}"))
}

/// `scene` with what was filled in.
fn read(scene: Scene, filled: &[Filled], periods: &[PeriodId]) -> Result<Scene, String> {
    let [heading, set, place, light, story_day, date, period, pages, action] = filled else {
        return Ok(scene);
    };
    let chosen = |filled: &Filled| filled.choice().checked_sub(1);
    Ok(Scene {
        heading: heading.text().to_owned(),
        set: set.text().to_owned(),
        place: chosen(place).and_then(|at| PLACES.get(at)).copied(),
        light: chosen(light).and_then(|at| LIGHTS.get(at)).copied(),
        story_day: story_day_of(story_day.text())?,
        date: date_of(date.text())?,
        period: chosen(period).and_then(|at| periods.get(at)).cloned(),
        pages: pages_of(pages.text())?,
        action: action.text().to_owned(),
        ..scene
    })
}

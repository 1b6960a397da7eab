//! Looks in scenes: everybody dressed, every look seen, in its time, long enough, and without needless changes.

use std::collections::HashMap;

use super::words::{listed, look_title, quoted};
use super::{About, Finding, Level};
use crate::board::{Board, CharacterId, Look, LookId, Scene, StoryDay};
use crate::plot;

pub(super) fn findings(board: &Board) -> Vec<Finding> {
    let mut found = without_look(board);
    // Before there is a script no look is in it, which is no news.
    if board.scenes().len() > 0 {
        for id in board.relations().looks_by_order() {
            let Some(look) = board.look(id) else { continue };
            found.extend(in_no_scene(board, id, look));
            found.extend(out_of_period(board, id, look));
            found.extend(seen_too_briefly(board, id, look));
        }
    }
    found.extend(comes_back(board));
    found.extend(day_goes_back(board));
    found
}

fn without_look(board: &Board) -> Vec<Finding> {
    let mut found = Vec::new();
    for scene in board.scenes() {
        for (character, _) in scene.wears.iter().filter(|(_, look)| look.is_none()) {
            let (number, name) = (&scene.number, board.name_of(character));
            let at = if scene.set.is_empty() { String::new() } else { format!(" ({})", scene.set.trim()) };
            found.push(Finding {
                name: "scene-without-look",
                level: Level::Error,
                about: About::Wearing(number.clone(), character.clone()),
                text: format!("{name} is in scene {number}{at} and has no look there."),
                todo: format!("Assign {name} a look in scene {number}, or take {name} out of it."),
            });
        }
    }
    found
}

fn in_no_scene(board: &Board, id: &LookId, look: &Look) -> Option<Finding> {
    if !board.relations().scenes_of(id).is_empty() {
        return None;
    }
    let title = quoted(&look.title);
    Some(Finding {
        name: "look-in-no-scene",
        level: Level::Warning,
        about: About::Look(id.clone()),
        text: format!("{}'s look {title} is in no scene.", board.name_of(&look.character)),
        todo: "Assign it to a scene, or give its place in the budget to another.".to_owned(),
    })
}

fn out_of_period(board: &Board, id: &LookId, look: &Look) -> Option<Finding> {
    let relations = board.relations();
    let own = relations.period_of_look(id)?;
    let elsewhere = |at: &&usize| relations.period_of_scene(**at).is_some_and(|period| period != own);
    let places: Vec<usize> = relations.scenes_of(id).iter().filter(elsewhere).copied().collect();
    if places.is_empty() {
        return None;
    }
    let said = |at: &usize| {
        let number = &board.records().scenes[*at].number;
        let period = relations.period_of_scene(*at).map_or("", |period| board.title_of(period));
        format!("{number} ({period})")
    };
    let scenes: Vec<String> = places.iter().map(said).collect();
    let noun = if scenes.len() == 1 { "scene" } else { "scenes" };
    Some(Finding {
        name: "look-out-of-period",
        level: Level::Warning,
        about: About::Look(id.clone()),
        text: format!(
            "The look {} belongs to {} and is worn in {noun} {}.",
            quoted(&look.title),
            board.title_of(own),
            listed(&scenes)
        ),
        todo: "Assign a look of the scene's own period, or correct the period of the one or the other."
            .to_owned(),
    })
}

fn seen_too_briefly(board: &Board, id: &LookId, look: &Look) -> Option<Finding> {
    let least = board.head().budget.least_screen_time?;
    let scenes = board.relations().scenes_of(id);
    let seen = plot::of_look(board, id);
    if scenes.is_empty() || seen >= least {
        return None;
    }
    let title = quoted(&look.title);
    Some(Finding {
        name: "look-seen-too-briefly",
        level: Level::Warning,
        about: About::Look(id.clone()),
        text: format!(
            "The look {title} is seen for {}, and {least} is the least that pays for a look.",
            seen.in_pages()
        ),
        todo: "Merge it into a neighbour, or give it another scene.".to_owned(),
    })
}

/// What a character wears in the course of one story day, scene by scene.
type Worn<'a> = Vec<(&'a Scene, &'a LookId)>;

/// The night belongs to its day: whoever comes home in the look of the morning came back to it.
fn comes_back(board: &Board) -> Vec<Finding> {
    let mut days: HashMap<(u32, &CharacterId), Worn<'_>> = HashMap::new();
    let mut order = Vec::new();
    for scene in board.scenes() {
        let Some(day) = scene.story_day else { continue };
        for (character, look) in scene.wears.iter() {
            let Some(look) = look else { continue };
            let key = (day.number(), character);
            let worn = days.entry(key).or_default();
            if worn.is_empty() {
                order.push(key);
            }
            worn.push((scene, look));
        }
    }
    let mut found = Vec::new();
    for key in order {
        let (day, character) = key;
        for (scene, look) in returns(&days[&key]) {
            let (title, number) = (quoted(look_title(board, look)), &scene.number);
            let name = board.name_of(character);
            found.push(Finding {
                name: "look-comes-back",
                level: Level::Warning,
                about: About::Wearing(number.clone(), character.clone()),
                text: format!(
                    "On story day {day} {name} leaves {title} and comes back to it in scene {number}."
                ),
                todo: "Stay in one of the two, or see that the script gives time for both changes."
                    .to_owned(),
            });
        }
    }
    found
}

/// Story days are counted in the order of the script, a frame or a flashback included (common practice, no source); the
/// night belongs to its day.
fn day_goes_back(board: &Board) -> Vec<Finding> {
    let dated: Vec<(&Scene, StoryDay)> =
        board.scenes().filter_map(|scene| Some((scene, scene.story_day?))).collect();
    let back = dated.windows(2).filter_map(|pair| match pair {
        [before, now] if now.1.number() < before.1.number() => Some((before, now)),
        _ => None,
    });
    let finding = |((before, then), (scene, day)): (&(&Scene, StoryDay), &(&Scene, StoryDay))| Finding {
        name: "story-day-goes-back",
        level: Level::Warning,
        about: About::Scene(scene.number.clone()),
        text: format!(
            "Scene {} plays on story day {day}, and scene {} before it on {then}.",
            scene.number, before.number
        ),
        todo: "Correct the story day of the one or the other, or number the days in the order of the script."
            .to_owned(),
    };
    back.map(finding).collect()
}

/// The scenes in which a look comes back after another: each look once a day.
fn returns<'a>(worn: &[(&'a Scene, &'a LookId)]) -> Vec<(&'a Scene, &'a LookId)> {
    let mut back: Vec<(&Scene, &LookId)> = Vec::new();
    for (at, (scene, look)) in worn.iter().enumerate() {
        let changed = at > 0 && worn[at - 1].1 != *look;
        let known = worn[..at].iter().any(|(_, earlier)| earlier == look);
        if changed && known && back.iter().all(|(_, have)| have != look) {
            back.push((scene, look));
        }
    }
    back
}

#[cfg(test)]
mod tests {
    use serde_json::{Value, json};

    use super::super::sample::{self, names, texts};
    use super::*;

    fn with_scenes(scenes: Value) -> Board {
        sample::board(json!({
            "head": {"budget": {"least-screen-time": "3/8"}},
            "outfits": {"smock": {"worn": "1920"}},
            "looks": {"a": {"base": "smock"}},
            "scenes": scenes,
        }))
    }

    #[test]
    fn each_character_without_a_look_in_a_scene_is_found() {
        let scenes = json!([{"scene": "7A", "date": "1920", "set": "The mole", "pages": 1, "wears": {"ben": null, "ada": "a"}}]);
        assert_eq!(
            texts(&with_scenes(scenes), "scene-without-look"),
            ["Ben is in scene 7A (The mole) and has no look there."]
        );
        let dressed = json!([{"scene": "7A", "date": "1920", "pages": 1, "wears": {"ada": "a"}}]);
        assert_eq!(names(&with_scenes(dressed)), [""; 0]);
    }

    #[test]
    fn a_look_in_no_scene_is_found_once_there_is_a_script() {
        assert_eq!(names(&with_scenes(json!([{"scene": 1, "date": "1920"}]))), ["look-in-no-scene"]);
        assert_eq!(names(&with_scenes(json!([]))), [""; 0]);
    }

    #[test]
    fn a_look_worn_in_another_period_is_found_with_its_scenes() {
        let worn = |date: &str| {
            with_scenes(json!([
                {"scene": 1, "date": "1921", "pages": 1, "wears": {"ada": "a"}},
                {"scene": 2, "date": date, "pages": 1, "wears": {"ada": "a"}},
            ]))
        };
        assert_eq!(
            texts(&worn("1925"), "look-out-of-period"),
            ["The look “a” belongs to Early and is worn in scene 2 (Late)."]
        );
        assert_eq!(names(&worn("1924")), [""; 0]);
        // A scene outside all periods says nothing about its own.
        assert_eq!(names(&worn("1950")), ["scene-outside-periods"]);
    }

    #[test]
    fn a_look_seen_for_less_than_the_least_is_found_and_for_just_the_least_is_not() {
        let seen = |pages: &str| {
            with_scenes(json!([
                {"scene": 1, "date": "1920", "pages": "1/8", "wears": {"ada": "a"}},
                {"scene": 2, "date": "1920", "pages": pages, "wears": {"ada": "a"}},
            ]))
        };
        assert_eq!(
            texts(&seen("1/8"), "look-seen-too-briefly"),
            ["The look “a” is seen for 2/8 pages, and 3/8 is the least that pays for a look."]
        );
        assert_eq!(names(&seen("2/8")), [""; 0]);
    }

    /// One scene of story day 1 for each look named.
    fn day(worn: &[(&str, &str)]) -> Board {
        let scenes: Vec<Value> = (1..)
            .zip(worn)
            .map(|(number, (day, look))| {
                json!({"scene": number, "date": "1920", "story-day": day, "pages": 1, "wears": {"ada": look}})
            })
            .collect();
        sample::board(json!({
            "looks": {"a": {"treatment": "invent"}, "b": {"treatment": "invent"}},
            "scenes": scenes,
        }))
    }

    #[test]
    fn a_look_that_comes_back_within_a_story_day_is_found_once() {
        let back = day(&[("D1", "a"), ("D1", "b"), ("N1", "a"), ("N1", "b"), ("N1", "a")]);
        assert_eq!(
            texts(&back, "look-comes-back"),
            [
                "On story day 1 Ada leaves “a” and comes back to it in scene 3.",
                "On story day 1 Ada leaves “b” and comes back to it in scene 4.",
            ]
        );
    }

    #[test]
    fn a_look_that_stays_or_comes_back_on_another_day_is_fine() {
        assert_eq!(names(&day(&[("D1", "a"), ("D1", "a"), ("N1", "b")])), [""; 0]);
        assert_eq!(names(&day(&[("D1", "a"), ("D1", "b"), ("D2", "a")])), [""; 0]);
    }

    #[test]
    fn a_story_day_that_goes_back_is_found_and_a_night_of_the_same_day_is_not() {
        let days = |days: &[&str]| {
            let scene = |(number, day): (u32, &&str)| match *day {
                "" => json!({"scene": number, "date": "1920"}),
                day => json!({"scene": number, "date": "1920", "story-day": day}),
            };
            sample::board(json!({"scenes": (1..).zip(days).map(scene).collect::<Vec<_>>()}))
        };
        assert_eq!(
            texts(&days(&["D1", "D12", "", "D2", "D3"]), "story-day-goes-back"),
            ["Scene 4 plays on story day D2, and scene 2 before it on D12."]
        );
        assert_eq!(names(&days(&["D1", "N2", "D2", "", "D2", "D9"])), [""; 0]);
    }
}

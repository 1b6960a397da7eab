//! Small words for findings, reports and summaries: titles, lists and plurals.

use crate::board::{Board, LookId};
use crate::plot;
use crate::trade::share::Share;

/// A look's title, or its id where there is no such look.
pub(crate) fn look_title<'a>(board: &'a Board, id: &'a LookId) -> &'a str {
    board.look(id).map_or(id.as_str(), |look| &look.title)
}

/// A title inside a sentence.
pub(crate) fn quoted(title: &str) -> String {
    format!("“{}”", title.split_whitespace().collect::<Vec<_>>().join(" "))
}

/// A share, from 0 to 1, as every page has it: `66.2 %`, `0.34 %`.
pub(crate) fn percent(share: f64) -> String {
    Share::of(share).to_string()
}

/// With a capital letter at the beginning.
pub(crate) fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or(String::new(), |first| first.to_uppercase().chain(letters).collect())
}

/// `one look`, `two looks`, `13 looks`.
pub(crate) fn counted(number: usize, noun: &str) -> String {
    match number {
        1 => format!("one {noun}"),
        2 => format!("two {noun}s"),
        _ => format!("{number} {noun}s"),
    }
}

/// `a`, `a and b`, `a, b and c`.
pub(crate) fn listed<S: AsRef<str>>(items: &[S]) -> String {
    match items {
        [] => String::new(),
        [one] => one.as_ref().to_owned(),
        [most @ .., last] => {
            let most: Vec<&str> = most.iter().map(AsRef::as_ref).collect();
            format!("{} and {}", most.join(", "), last.as_ref())
        }
    }
}

/// `scenes 14 and 17, 3:30 on screen, approved`: what goes elsewhere with a look.
pub(crate) fn at_stake(board: &Board, id: &LookId) -> String {
    let scenes = board.relations().scenes_of(id).iter().filter_map(|at| board.records().scenes.get(*at));
    let numbers: Vec<String> = scenes.map(|scene| scene.number.to_string()).collect();
    let stage = board.look(id).map_or("", |look| look.stage.word());
    match numbers.as_slice() {
        [] => format!("in no scene, {stage}"),
        several => {
            let noun = if several.len() == 1 { "scene" } else { "scenes" };
            format!(
                "{noun} {}, {} min. on screen, {stage}",
                listed(several),
                plot::of_look(board, id).clock()
            )
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lists_and_plurals_read_as_spoken() {
        assert_eq!(listed(&["a", "b", "c"]), "a, b and c");
        assert_eq!(listed(&["a"]), "a");
        assert_eq!(counted(1, "look"), "one look");
        assert_eq!(counted(13, "look"), "13 looks");
    }

    #[test]
    fn a_title_of_several_lines_stays_within_its_sentence() {
        assert_eq!(quoted("Robe,\n  grey"), "“Robe, grey”");
    }
}

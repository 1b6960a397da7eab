//! Numbers for scenes that are put in: by a draft that gives them none, or by hand.

use std::collections::BTreeSet;

use crate::board::SceneNumber;

/// A free number behind `before` and in front of `behind`, as scripts give it to a scene that is put in: the number
/// before it with the next letter (12, then 12A), a second letter where those are taken; behind the last scene, the next
/// whole number. Where no letter keeps the order, it is the first one that is free.
pub fn between(
    before: Option<&SceneNumber>,
    behind: Option<&SceneNumber>,
    taken: &BTreeSet<SceneNumber>,
) -> SceneNumber {
    let stem = before.cloned().unwrap_or_else(|| SceneNumber::whole(0));
    let lettered = stem.next_letters().chain(stem.with_letters());
    let free: Vec<SceneNumber> = lettered.filter(|number| !taken.contains(number)).collect();
    let ordered = behind.and_then(|behind| free.iter().find(|number| *number < behind));
    match ordered.or(free.first()).filter(|_| behind.is_some()) {
        Some(number) => number.clone(),
        None => after_all(taken),
    }
}

/// The next whole number behind all that are taken.
fn after_all(taken: &BTreeSet<SceneNumber>) -> SceneNumber {
    let last = taken.last().map_or(0, SceneNumber::digits);
    let next = last.saturating_add(1)..=u32::MAX;
    let mut all = next.chain(1..=last).map(SceneNumber::whole);
    all.find(|number| !taken.contains(number)).unwrap_or_else(|| SceneNumber::whole(0))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn given(before: Option<&str>, behind: Option<&str>, taken: &[&str]) -> String {
        let number = |text: &str| text.parse::<SceneNumber>().unwrap();
        let taken = taken.iter().map(|text| number(text)).collect();
        between(before.map(number).as_ref(), behind.map(number).as_ref(), &taken).to_string()
    }

    #[test]
    fn a_scene_that_is_put_in_gets_the_next_letter() {
        assert_eq!(given(Some("12"), Some("13"), &["12", "13"]), "12A");
        assert_eq!(given(Some("12"), Some("13"), &["12", "12A", "13"]), "12B");
        assert_eq!(given(Some("12A"), Some("13"), &["12", "12A", "13"]), "12B");
        assert_eq!(given(Some("12A"), Some("12B"), &["12A", "12B"]), "12AA");
        assert_eq!(given(Some("12"), Some("12A"), &["12", "12A"]), "12B");
        assert_eq!(given(Some("12Z"), Some("13"), &["12Z", "13"]), "12ZA");
    }

    #[test]
    fn at_the_ends_the_numbers_go_on() {
        assert_eq!(given(None, None, &[]), "1");
        assert_eq!(given(Some("75"), None, &["74", "75"]), "76");
        assert_eq!(given(None, Some("1"), &["1"]), "0A");
    }

    #[test]
    fn between_scenes_out_of_order_the_number_only_has_to_be_free() {
        assert_eq!(given(Some("40"), Some("12"), &["12", "40", "41"]), "40A");
    }
}

//! Turns the parser's words into ours: what is wrong, what was expected, and the nearest valid word.

use super::fault::{Position, clean};
use super::guard::Objection;

/// What is wrong with a text.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Trouble {
    pub at: Option<Position>,
    pub what: String,
    pub hint: Option<String>,
}

impl From<Objection> for Trouble {
    fn from(found: Objection) -> Self {
        Self { at: Some(found.at), what: found.what, hint: Some(found.hint.to_owned()) }
    }
}

/// The most characters of a word from a file that a message repeats.
const LONGEST_WORD: usize = 60;

/// A text that is no YAML.
pub(super) fn grammar(message: &str, at: Option<Position>) -> Trouble {
    let bare = message.split(" at line ").next().unwrap_or(message);
    let advice = [
        ("mapping values are not allowed", "a text with `: ` in it needs quotes"),
        ("did not find expected ',' or ']'", "is a `]` missing?"),
        ("did not find expected ',' or '}'", "is a `}` missing?"),
        ("unexpected end of stream", "is a closing quote missing?"),
        ("tab character", "use spaces"),
        ("cannot start any token", "put the text in quotes"),
        ("did not find expected key", "do the lines of one record begin in the same column?"),
        ("did not find expected '-'", "do the entries of one list begin in the same column?"),
        ("could not find expected ':'", "is a `:` missing after a key?"),
        ("block collections are not allowed", "begin the list on a line of its own"),
    ];
    let hint = advice.iter().find(|(words, _)| message.contains(words)).map(|(_, hint)| (*hint).to_owned());
    Trouble { at, what: format!("not YAML: {bare}"), hint }
}

/// The key that is given twice, if that is what the message says.
pub(super) fn duplicate(message: &str) -> Option<&str> {
    let rest =
        message.strip_prefix("duplicate field `").or_else(|| message.strip_prefix("duplicate key `"))?;
    rest.strip_suffix('`')
}

/// A key that is given twice.
pub(super) fn twice(key: &str, first: Option<Position>, again: Option<Position>) -> Trouble {
    let line = first.map(|at| format!(" (first in line {})", at.line)).unwrap_or_default();
    Trouble {
        at: again,
        what: format!("the key `{}` is given twice{line}", clean(key, LONGEST_WORD)),
        hint: Some("keep one of the two".to_owned()),
    }
}

/// A value or key that is refused.
pub(super) fn value(message: &str, at: Option<Position>) -> Trouble {
    let trouble = |what: String, hint: Option<String>| Trouble { at, what, hint };
    if let Some(rest) = message.strip_prefix("unknown field `") {
        let (word, valid) = word_and_valid(rest);
        return trouble(
            format!("unknown key `{}`", clean(word, LONGEST_WORD)),
            nearest_of(word, &valid, "valid keys"),
        );
    }
    if let Some(rest) = message.strip_prefix("unknown variant `") {
        let (word, valid) = word_and_valid(rest);
        return trouble(
            format!("unknown word `{}`", clean(word, LONGEST_WORD)),
            nearest_of(word, &valid, "valid words"),
        );
    }
    if let Some(key) = message.strip_prefix("missing field `").and_then(|rest| rest.strip_suffix('`')) {
        return trouble(format!("the key `{key}` is missing"), Some(format!("add a line `{key}:`")));
    }
    let mismatch = message.strip_prefix("invalid type: ").or_else(|| message.strip_prefix("invalid value: "));
    if let Some((found, expected)) = mismatch.and_then(|rest| rest.rsplit_once(", expected ")) {
        return trouble(format!("expected {}, found {}", wanted(expected), seen(found)), None);
    }
    if let Some(word) =
        message.strip_prefix('`').and_then(|rest| rest.split_once("` is no colour")).map(|cut| cut.0)
    {
        let near = super::nearest::nearest(word, super::nearest::COLOURS.iter().copied());
        return trouble(clean(message, 400), near.map(did_you_mean));
    }
    trouble(clean(message, 400), None)
}

/// "x`, expected one of `a`, `b`" → x and [a, b].
fn word_and_valid(rest: &str) -> (&str, Vec<&str>) {
    let (word, list) = rest.rsplit_once("`, expected ").unwrap_or((rest, ""));
    (word, list.split('`').skip(1).step_by(2).collect())
}

fn nearest_of(word: &str, valid: &[&str], name: &str) -> Option<String> {
    let list = format!("{name}: {}", valid.join(", "));
    Some(match super::nearest::nearest(word, valid.iter().copied()) {
        Some(near) => format!("{} ({list})", did_you_mean(near)),
        None => list,
    })
}

fn did_you_mean(near: &str) -> String {
    format!("did you mean `{near}`?")
}

/// What the reader expected, in words for people.
fn wanted(expected: &str) -> String {
    match expected {
        "u8" => "a whole number from 0 to 255".to_owned(),
        "a nonzero u16" => "a whole number from 1 to 65535".to_owned(),
        "a nonzero u8" => "a whole number from 1 to 255".to_owned(),
        "u16" | "u32" | "u64" => "a whole number, 0 or more".to_owned(),
        "i8" | "i16" | "i32" | "i64" => "a whole number".to_owned(),
        "a string" => "a text".to_owned(),
        "a sequence" => "a list".to_owned(),
        "a map" | "keys with values" => "keys with values".to_owned(),
        "a YAML tag starting with '!'" => "a single word".to_owned(),
        "null" => "nothing".to_owned(),
        other if other.starts_with("struct ") => "keys with values".to_owned(),
        other => other.to_owned(),
    }
}

/// What the reader found, in words for people.
fn seen(found: &str) -> String {
    match found {
        "sequence" => return "a list".to_owned(),
        "map" => return "keys with values".to_owned(),
        "unit value" | "null" => return "nothing".to_owned(),
        _ => {}
    }
    match found.split_once(' ') {
        Some(("string", text)) => format!("`{}`", clean(text.trim_matches('"'), LONGEST_WORD)),
        Some(("integer" | "boolean", text)) => clean(text, LONGEST_WORD),
        _ => match found.strip_prefix("floating point ") {
            Some(text) => clean(text, LONGEST_WORD),
            None => clean(found, LONGEST_WORD),
        },
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn told(message: &str) -> (String, String) {
        let trouble = value(message, None);
        (trouble.what, trouble.hint.unwrap_or_default())
    }

    #[test]
    fn an_unknown_key_comes_with_the_nearest_and_all_valid_ones() {
        let (what, hint) = told("unknown field `titel`, expected one of `title`, `character`, `worn`");
        assert_eq!(what, "unknown key `titel`");
        assert_eq!(hint, "did you mean `title`? (valid keys: title, character, worn)");
        let (_, hint) = told("unknown field `zzzzzz`, expected `day` or `date`");
        assert_eq!(hint, "valid keys: day, date");
    }

    #[test]
    fn types_are_named_as_people_name_them() {
        assert_eq!(
            told("invalid type: string \"abc\", expected u32").0,
            "expected a whole number, 0 or more, found `abc`"
        );
        assert_eq!(
            told("invalid type: map, expected a sequence").0,
            "expected a list, found keys with values"
        );
        assert_eq!(
            told("invalid type: unit value, expected i64").0,
            "expected a whole number, found nothing"
        );
        assert_eq!(
            told("invalid value: integer `-3`, expected u32").0,
            "expected a whole number, 0 or more, found `-3`"
        );
    }

    #[test]
    fn a_colour_comes_with_the_nearest_name() {
        assert_eq!(told("`nvay` is no colour: expected …").1, "did you mean `navy`?");
    }

    #[test]
    fn endless_words_are_cut() {
        let (what, _) = told(&format!("unknown field `{}`, expected `a`", "k".repeat(100_000)));
        assert!(what.chars().count() < 100, "{what}");
    }
}

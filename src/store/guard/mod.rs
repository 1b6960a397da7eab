//! Looks over a YAML text before the parser gets it, and stops what would cost too much.
//!
//! The parser keeps every event of a document in memory, and its time grows with the square of the depth to which
//! brackets are nested (measured: 4 MiB of `[` take 27 s and 800 MB). So this walks over the tokens once, as the
//! parser would, and counts. It knows just enough of YAML to tell a bracket in a text from one that opens a list;
//! whatever it does not understand it leaves to the parser, which then stops at the same place.
//!
//! Anchors and aliases are refused outright: nothing in a board needs them, they are what "alias bombs" are made
//! of, and a `*` or `&` at the start of a text is nearly always a text that should have been quoted.

mod scan;

use super::fault::Position;
use scan::Scan;

/// How deep lists and keys may be nested, where a list in the column of its own key counts as one with it. A board's
/// own files reach six.
pub(super) const DEEPEST: usize = 64;

/// The most values in one file: each costs the parser about 190 bytes, so that this is some 50 MB at worst, and a
/// series of two thousand scenes has a third of it.
pub(super) const MOST_NODES: usize = 250_000;

/// What was found, and where.
#[derive(Debug, PartialEq)]
pub(super) struct Objection {
    pub at: Position,
    pub what: String,
    pub hint: &'static str,
}

/// Looks the text over; `Ok` when the parser may have it.
pub(super) fn check(text: &str) -> Result<(), Objection> {
    printable(text)?;
    walk(text, DEEPEST, MOST_NODES)
}

/// YAML allows no control characters but in escapes (YAML 1.2.2, section 5.1, `c-printable`).
fn printable(text: &str) -> Result<(), Objection> {
    let fine = |c: char| match c {
        '\t' | '\n' | '\r' | '\u{85}' => true,
        '\u{feff}' => false,
        c => !c.is_control() && !matches!(c, '\u{fffe}' | '\u{ffff}'),
    };
    let Some((at, c)) = text.char_indices().find(|(_, c)| !fine(*c)) else { return Ok(()) };
    Err(Objection {
        at: position(text, at),
        what: format!("the character U+{:04X} cannot stand in a text file", u32::from(c)),
        hint: "delete it, or write it as an escape in double quotes",
    })
}

/// Line and column of a byte.
pub(super) fn position(text: &str, at: usize) -> Position {
    let mut scan = Scan::new(text, DEEPEST, MOST_NODES);
    while scan.i < at.min(text.len()) {
        scan.step();
    }
    scan.position()
}

fn walk(text: &str, deepest: usize, most_nodes: usize) -> Result<(), Objection> {
    let mut scan = Scan::new(text, deepest, most_nodes);
    while scan.token()? {}
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn brackets_in_texts_are_not_nesting() {
        let many = "[".repeat(100);
        for text in [
            format!("notes: a {many}"),
            format!("notes: \"{many}\""),
            format!("notes: '{many}'"),
            format!("notes: |\n  {many}\n  x\n"),
            format!("notes: >-\n  {many}\n"),
            format!("# {many}\nnotes: x # {many}"),
            format!("notes: a\n  b {many}\n"),
            format!("- notes: |2\n    {many}\n"),
        ] {
            assert_eq!(check(&text), Ok(()), "{text}");
        }
    }

    #[test]
    fn nesting_too_deep_is_refused_where_it_happens() {
        for (text, column) in [("[".repeat(100), 65), ("{a: ".repeat(100), 257), ("- ".repeat(100), 129)] {
            let objection = check(&text).unwrap_err();
            assert_eq!(objection.at, Position { line: 1, column }, "{objection:?}");
            assert!(objection.what.contains("deep"));
        }
        assert!(check("title: a\n  \"\nx: ").is_ok());
        assert!(check(&format!("title: a\n  \"\nx: {}", "[".repeat(100))).is_err());
    }

    #[test]
    fn what_a_tag_stands_before_is_counted() {
        for text in ["[!a,".repeat(100), "[!<]> ".repeat(100), "{a: !b ".repeat(100)] {
            let objection = check(&text).unwrap_err();
            assert!(objection.what.contains("deep"), "{objection:?}");
        }
        for text in ["!a,".repeat(10), ":,".repeat(10), "? ,".repeat(10)] {
            let objection = walk(&format!("[{text}]"), DEEPEST, 10).unwrap_err();
            assert_eq!(objection.what, "more than 10 values in one file", "{text}");
        }
    }

    #[test]
    fn signs_that_stand_close_are_passed_one_by_one() {
        for text in [
            r#"{"title":"Shawl","tags":["a","b"],"span":{"from":1}}"#,
            "{title: Shawl, tags: [a:b, 'c':d, \"e\":[f], -g, -, a?b, http://x]}",
            "[:[a], :{b: c}, ?d, ]",
        ] {
            assert_eq!(walk(text, 3, 40), Ok(()), "{text}");
        }
    }

    #[test]
    fn anchors_aliases_and_second_documents_are_refused_where_they_stand() {
        for (text, line, column) in [
            ("a: *b\n", 1, 4),
            ("a: &b c\n", 1, 4),
            ("a: [x, *b]\n", 1, 8),
            ("# x\n---\na: 1\n---\nb: 2\n", 4, 1),
        ] {
            assert_eq!(check(text).unwrap_err().at, Position::new(line, column), "{text}");
        }
        for text in ["a: b * c & d\n", "a: '*b'\n", "---\na: 1\n...\n", "%YAML 1.2\n---\na: 1\n"] {
            assert_eq!(check(text), Ok(()), "{text}");
        }
    }

    #[test]
    fn control_characters_are_named_with_their_place() {
        let objection = check("title: é\u{7}\n").unwrap_err();
        assert_eq!(objection.at, Position::new(1, 9));
        assert!(objection.what.contains("U+0007"));
    }

    /// Lists and mappings on the way down; the text itself is none.
    fn depth(value: &serde_json::Value) -> usize {
        match value {
            serde_json::Value::Array(items) => 1 + items.iter().map(depth).max().unwrap_or(0),
            serde_json::Value::Object(entries) => 1 + entries.values().map(depth).max().unwrap_or(0),
            _ => 0,
        }
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(2_000))]

        /// What passes with a limit is never deeper than it, lists in the column of their key counted once.
        #[test]
        fn nothing_deeper_than_the_limit_passes(
            tokens in prop::collection::vec(
                prop::sample::select(vec![
                    "[", "]", "{", "}", "- ", "-", ": ", ":", ", ", "\n", "\n ", "\n  ", "\n    ", "\"", "'", "|\n",
                    ">\n", "|2\n", "# ", "a", "a: ", "b\n", " ", "? ", "!t ", "!t,", "!<]>", ",", "?", "---\n", "\\", "\t", "\r\n", "\n- ",
                ]),
                0..24,
            )
        ) {
            let text = tokens.concat();
            if walk(&text, 2, 1_000).is_ok()
                && let Some(tree) = crate::store::yaml::tree(&text)
            {
                prop_assert!(depth(&tree) <= 4, "{text:?}");
            }
        }
    }
}

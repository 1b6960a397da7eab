//! How a cell of a table holds text and several items, whoever reads or writes the table.
//!
//! A spreadsheet takes a cell that begins with `=`, `+`, `-` or `@` for a formula, also behind blanks and in their
//! full-width forms. So such a text gets an apostrophe in front, which is taken off again when it is read. Items are
//! parted by a separator, before which a backslash makes it part of an item. Both ways lead back to the same text.

use std::borrow::Cow;

/// The text, with an apostrophe in front where a spreadsheet would take it for a formula, or where the text has
/// such an apostrophe of its own.
pub fn guarded(text: &str) -> Cow<'_, str> {
    if is_formula(text) || is_formula(text.trim_start_matches('\'')) {
        Cow::Owned(format!("'{text}"))
    } else {
        Cow::Borrowed(text)
    }
}

/// The text of a cell without the apostrophe that [`guarded`] puts before it.
pub fn bare(cell: &str) -> &str {
    match cell.strip_prefix('\'') {
        Some(rest) if is_formula(rest.trim_start_matches('\'')) => rest,
        _ => cell,
    }
}

fn is_formula(text: &str) -> bool {
    let blank = |c: char| {
        c.is_whitespace() || matches!(c, '\u{feff}' | '\u{200b}'..='\u{200d}' | '\u{2060}' | '\u{ad}')
    };
    let starts_formula = |c: char| matches!(c, '=' | '+' | '-' | '@' | '＝' | '＋' | '－' | '＠');
    text.starts_with(['\t', '\r']) || text.trim_start_matches(blank).starts_with(starts_formula)
}

/// The item as it stands among others that `separator` parts: a backslash before each separator, and before each
/// backslash that would be taken for such a one.
pub fn escaped(item: &str, separator: char) -> Cow<'_, str> {
    if !item.contains([separator, '\\']) {
        return Cow::Borrowed(item);
    }
    let mut text = String::with_capacity(item.len() + 2);
    let mut chars = item.chars().peekable();
    while let Some(c) = chars.next() {
        let next = chars.peek();
        if c == separator || (c == '\\' && next.is_none_or(|next| *next == separator || *next == '\\')) {
            text.push('\\');
        }
        text.push(c);
    }
    Cow::Owned(text)
}

/// The items of a text, parted wherever `parts` says so of a character, save behind a backslash.
pub fn split(text: &str, parts: impl Fn(char) -> bool) -> Vec<String> {
    let mut items = vec![String::new()];
    let mut chars = text.chars().peekable();
    while let Some(c) = chars.next() {
        let taken = match chars.peek() {
            Some(next) if c == '\\' && (*next == '\\' || parts(*next)) => chars.next(),
            _ => None,
        };
        if taken.is_none() && parts(c) {
            items.push(String::new());
        } else if let Some(item) = items.last_mut() {
            item.push(taken.unwrap_or(c));
        }
    }
    items
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    #[test]
    fn words_that_are_no_formula_stay_as_they_are() {
        for text in ["plain", "a = b", "copies (=)", "12A", "— no look", "c. 1926", "'tis"] {
            assert_eq!(guarded(text), text);
            assert_eq!(bare(text), text);
        }
    }

    #[test]
    fn a_backslash_makes_a_separator_part_of_an_item_and_is_else_itself() {
        assert_eq!(split(r"a\;b;c\d;\\", |c| c == ';'), ["a;b", r"c\d", r"\"]);
        assert_eq!(escaped(r"a\|b;c", ';'), r"a\|b\;c");
    }

    proptest! {
        #[test]
        fn a_guarded_text_is_found_again(text in "['=+@a \t-]{0,6}") {
            let cell = guarded(&text);
            prop_assert_eq!(bare(&cell), &text);
            prop_assert!(!is_formula(&cell));
        }

        #[test]
        fn items_are_found_again(items in proptest::collection::vec(r"[;|\\a]{0,6}", 1..4)) {
            let text: Vec<_> = items.iter().map(|item| escaped(item, ';')).collect();
            prop_assert_eq!(split(&text.join(";"), |c| c == ';'), items);
        }
    }
}

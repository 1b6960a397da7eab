//! Text that is safe to show: what people and files wrote, without what would steer a terminal or turn a line round.
//!
//! Kept: everything that can be seen, and line breaks. Dropped: control characters, and the marks that override or
//! isolate the direction of text (Unicode Standard Annex 9, explicit formatting characters), by which a title could
//! show other words than it holds.

use std::fmt;

use crate::trade::plain;

/// Text without control characters and direction overrides. Its only break is `\n`.
#[derive(Clone, Debug, Default, PartialEq, Eq, Hash)]
pub struct Plain(String);

impl Plain {
    /// The text, cleaned; a tab becomes a space.
    pub fn new(text: &str) -> Self {
        Self(plain::cleaned(text))
    }

    /// The text, cleaned and on one line.
    pub fn line(text: &str) -> Self {
        Self(plain::line(text))
    }

    /// The text.
    pub fn as_str(&self) -> &str {
        &self.0
    }

    /// Whether there is nothing in it.
    pub fn is_empty(&self) -> bool {
        self.0.is_empty()
    }
}

impl fmt::Display for Plain {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(&self.0)
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::trade::plain::is_unsafe;

    #[test]
    fn escape_sequences_and_overrides_are_dropped_and_letters_are_kept() {
        assert_eq!(Plain::new("\u{1b}[31mred\u{7}\u{9b}2J").as_str(), "[31mred2J");
        assert_eq!(Plain::new("black\u{202e}eulb\u{2066}").as_str(), "blackeulb");
        assert_eq!(Plain::new("crêpe ≈ 絹\u{301}").as_str(), "crêpe ≈ 絹\u{301}");
    }

    #[test]
    fn every_kind_of_line_break_becomes_one() {
        assert_eq!(Plain::new("a\r\nb\rc\u{2028}d\te\n\n").as_str(), "a\nb\nc\nd e");
        assert_eq!(Plain::line("a\r\n\n  b ").as_str(), "a b");
    }

    proptest! {
        #[test]
        fn nothing_unsafe_is_left_and_cleaning_twice_changes_nothing(text in any::<String>()) {
            let plain = Plain::new(&text);
            prop_assert!(plain.as_str().chars().all(|c| c == '\n' || !is_unsafe(c)));
            prop_assert_eq!(&Plain::new(plain.as_str()), &plain);
            prop_assert!(!Plain::line(&text).as_str().contains('\n'));
        }
    }
}

//! What a cell of a workbook holds, and what is left in it of a text that is longer.

use std::borrow::Cow;

use crate::trade::cell::guarded;

/// The longest text of a cell of a workbook, in UTF-16 units, as the format has it.
pub const WORKBOOK_CELL: usize = 32_767;

/// As much of a text as a cell of a workbook holds.
pub fn cut(text: &str) -> &str {
    let mut units = 0;
    let end = text.char_indices().find(|(_, c)| {
        units += c.len_utf16();
        units > WORKBOOK_CELL
    });
    end.and_then(|(at, _)| text.get(..at)).unwrap_or(text)
}

/// Whether a cell is so full that something may have been cut off behind it.
pub(super) fn is_full(cell: &str) -> bool {
    // A character of two units may have found no room.
    let units = cell.encode_utf16().take(WORKBOOK_CELL + 1).count();
    (WORKBOOK_CELL - 1..=WORKBOOK_CELL).contains(&units)
}

/// The text as it stands in a workbook, which takes no words for a formula: only where it begins with such an apostrophe
/// as guards one elsewhere has it one more, so that reading takes off the right one.
pub fn in_workbook(text: &str) -> Cow<'_, str> {
    if text.starts_with('\'') { guarded(text) } else { Cow::Borrowed(text) }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::trade::cell::bare;

    #[test]
    fn a_text_is_cut_between_characters_and_a_cut_one_is_full() {
        let long = "ö𝄞".repeat(WORKBOOK_CELL);
        assert!(long.starts_with(cut(&long)) && is_full(cut(&long)));
        let fits = "x".repeat(WORKBOOK_CELL);
        assert_eq!(cut(&fits), fits);
        assert!(!is_full(&fits[2..]) && !is_full(&format!("{fits}x")));
    }

    #[test]
    fn words_of_a_workbook_are_found_again() {
        for text in ["=1", "'=1", "''-1", "'tis", "plain"] {
            assert_eq!(bare(&in_workbook(text)), text);
        }
        assert_eq!([in_workbook("=1"), in_workbook("'tis")], ["=1", "'tis"]);
    }
}

//! Text that is safe to show: what must never reach a terminal, whoever wrote it.

/// Whether a character must not reach a terminal or a report: controls, which may steer it, and the marks that turn
/// the direction of text (Unicode Standard Annex 9, explicit formatting characters and implicit marks), by which a
/// title could show other words than it holds. Line breaks are controls too: who wants them kept asks before.
pub fn is_unsafe(c: char) -> bool {
    c.is_control()
        || matches!(c, '\u{61c}' | '\u{200e}' | '\u{200f}' | '\u{2028}'..='\u{202e}' | '\u{2066}'..='\u{2069}' | '\u{feff}')
}

#[cfg(test)]
mod tests {
    use super::is_unsafe;

    #[test]
    fn what_steers_a_terminal_or_turns_text_round_is_unsafe() {
        for c in ['\u{1b}', '\u{7}', '\u{9b}', '\n', '\u{202e}', '\u{2066}', '\u{61c}', '\u{2028}'] {
            assert!(is_unsafe(c), "{c:?}");
        }
        for c in ['a', 'é', '着', '≈', '\u{301}', '\u{200d}', ' '] {
            assert!(!is_unsafe(c), "{c:?}");
        }
    }
}

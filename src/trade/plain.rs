//! Text that is safe to show: what must never reach a terminal, whoever wrote it.

/// Whether a character must not reach a terminal or a report: controls, which may steer it, and the marks that turn
/// the direction of text (Unicode Standard Annex 9, explicit formatting characters and implicit marks), by which a
/// title could show other words than it holds. Line breaks are controls too: who wants them kept asks before.
pub fn is_unsafe(c: char) -> bool {
    c.is_control()
        || matches!(c, '\u{61c}' | '\u{200e}' | '\u{200f}' | '\u{2028}'..='\u{202e}' | '\u{2066}'..='\u{2069}' | '\u{feff}')
}

/// A text without what would steer a terminal; a tab becomes a space, its only break is `\n`, and it ends in none.
pub fn cleaned(text: &str) -> String {
    let mut plain = String::with_capacity(text.len());
    let mut chars = text.chars().peekable();
    while let Some(c) = chars.next() {
        match c {
            '\r' if chars.peek() == Some(&'\n') => {}
            '\n' | '\r' | '\u{b}' | '\u{c}' | '\u{85}' | '\u{2028}' | '\u{2029}' => plain.push('\n'),
            '\t' => plain.push(' '),
            c if is_unsafe(c) => {}
            c => plain.push(c),
        }
    }
    let kept = plain.trim_end_matches('\n').len();
    plain.truncate(kept);
    plain
}

/// The same on one line.
pub fn line(text: &str) -> String {
    let plain = cleaned(text);
    if !plain.contains('\n') {
        return plain;
    }
    plain.split('\n').map(str::trim).filter(|line| !line.is_empty()).collect::<Vec<_>>().join(" ")
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

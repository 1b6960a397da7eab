//! Emphasis marks, taken off: `*`, `**`, `***` and `_` around words, and the backslash that keeps one as it stands.
//!
//! As in Markdown, a mark opens before a word and closes behind one, and only within its line; a mark without its
//! partner is a character like any other.

/// A run of one mark.
struct Run {
    /// The index of its first character.
    at: usize,
    mark: char,
    length: usize,
    paired: bool,
}

/// The text without emphasis.
pub(super) fn plain(text: &str) -> String {
    if !text.contains(['*', '_', '\\']) {
        return text.to_owned();
    }
    let chars: Vec<char> = text.chars().collect();
    let (runs, escapes) = runs(&chars);
    let mut gone = vec![false; chars.len()];
    for run in runs.iter().filter(|run| run.paired) {
        gone[run.at..run.at + run.length].fill(true);
    }
    for at in escapes {
        gone[at] = true;
    }
    chars.into_iter().zip(gone).filter(|(_, gone)| !gone).map(|(c, _)| c).collect()
}

/// The runs of marks, paired where they can be, and the places of the backslashes that escape one.
fn runs(chars: &[char]) -> (Vec<Run>, Vec<usize>) {
    let mut runs: Vec<Run> = Vec::new();
    let mut escapes = Vec::new();
    // The newest open run of each mark and length: `_`, `*`, `**`, `***`.
    let mut open: [Option<usize>; 4] = [None; 4];
    let mut at = 0;
    while let Some(&c) = chars.get(at) {
        if c == '\\' && chars.get(at + 1).is_some_and(|next| matches!(next, '*' | '_' | '\\')) {
            escapes.push(at);
            at += 2;
            continue;
        }
        if !matches!(c, '*' | '_') {
            at += 1;
            continue;
        }
        let most = if c == '*' { 3 } else { 1 };
        let length = chars[at..].iter().take(most).take_while(|next| **next == c).count();
        let slot = &mut open[if c == '*' { length } else { 0 }];
        let closes = at > 0 && !chars[at - 1].is_whitespace();
        let opens = chars.get(at + length).is_some_and(|next| !next.is_whitespace());
        let partner = slot.filter(|_| closes);
        if let Some(partner) = partner {
            runs[partner].paired = true;
            *slot = None;
        } else if opens {
            *slot = Some(runs.len());
        }
        runs.push(Run { at, mark: c, length, paired: partner.is_some() });
        at += length;
    }
    debug_assert!(runs.iter().all(|run| chars[run.at] == run.mark));
    (runs, escapes)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn marks_in_pairs_are_taken_off_and_others_stay() {
        for (text, expected) in [
            ("*salt* and **tar** and ***both*** and _line_", "salt and tar and both and line"),
            ("_the whole *Sound* before her_", "the whole Sound before her"),
            ("berth *7 and then *9, in ink", "berth *7 and then *9, in ink"),
            ("berth *7 and then 9*, in ink", "berth 7 and then 9, in ink"),
            (r"berth *7 and then 9\*, in ink", "berth *7 and then 9*, in ink"),
            (r"on the lid: **\*1927\***", "on the lid: *1927*"),
            ("a * b * c", "a * b * c"),
            ("*", "*"),
            (r"\", r"\"),
        ] {
            assert_eq!(plain(text), expected, "{text}");
        }
    }
}

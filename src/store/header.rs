//! What a person wrote above a record: the comment at the head of a file, which outlives every rewriting.

/// The text before the first content: a byte order mark, comments, blank lines, and a `---`.
pub(super) fn header(text: &str) -> &str {
    let mut kept = 0;
    let mut at = 0;
    let mut started = false;
    for line in text.split_inclusive('\n') {
        let bare = line.trim_start_matches('\u{feff}').trim();
        at += line.len();
        let comment = bare.is_empty() || bare.starts_with('#');
        let starts =
            bare == "---" || bare.strip_prefix("--- ").is_some_and(|rest| rest.trim().starts_with('#'));
        match (comment, starts, bare.starts_with('%')) {
            (true, ..) => {
                // A blank line above the content belongs to it only where a comment stands over it.
                kept = at;
            }
            (_, true, _) if !started => {
                started = true;
                kept = at;
            }
            // A directive counts only once its `---` comes.
            (_, _, true) if !started && text[at..].lines().any(|next| next.trim() == "---") => {}
            _ => break,
        }
    }
    &text[..kept]
}

/// `body` under the header of the text that it replaces, with that text's line ends.
pub(super) fn under(old: &str, body: &str) -> String {
    let header = header(old);
    let crlf = old.find('\n').is_some_and(|at| old[..at].ends_with('\r'));
    let mut text = String::with_capacity(header.len() + body.len() + 1);
    text.push_str(header);
    // A header without its last line end would swallow the first line.
    if !header.is_empty() && !header.ends_with('\n') && header != "\u{feff}" {
        text.push_str(if crlf { "\r\n" } else { "\n" });
    }
    if crlf {
        text.push_str(&body.replace('\n', "\r\n"));
    } else {
        text.push_str(body);
    }
    text
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn comments_above_the_content_are_the_header() {
        for (text, kept) in [
            ("title: x\n", ""),
            ("# one\n\n#two\ntitle: x\n# not this\n", "# one\n\n#two\n"),
            ("# one\n---\n# two\ntitle: x\n", "# one\n---\n# two\n"),
            ("--- # one\ntitle: x\n", "--- # one\n"),
            ("--- {title: x}\n", ""),
            ("%YAML 1.2\n---\ntitle: x\n", "%YAML 1.2\n---\n"),
            ("\u{feff}# one\r\ntitle: x\r\n", "\u{feff}# one\r\n"),
            ("  # indented\ntitle: x\n", "  # indented\n"),
            ("# only", "# only"),
            ("- a\n---\n", ""),
        ] {
            assert_eq!(header(text), kept, "{text:?}");
        }
    }

    #[test]
    fn a_rewritten_file_keeps_header_and_line_ends() {
        assert_eq!(under("# one\r\na: 1\r\n", "a: 2\nb: |\n  x\n"), "# one\r\na: 2\r\nb: |\r\n  x\r\n");
        assert_eq!(under("# only", "a: 2\n"), "# only\na: 2\n");
        assert_eq!(under("", "a: 2\n"), "a: 2\n");
        assert_eq!(under("\u{feff}a: 1\n", "a: 2\n"), "a: 2\n");
    }
}

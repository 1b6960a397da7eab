//! The nearest valid word to one that is not, and names compared as hands write them.

/// The word that is probably meant, if any is near enough: at most a third of its letters off.
pub(crate) fn nearest<'a>(word: &str, valid: impl IntoIterator<Item = &'a str>) -> Option<&'a str> {
    // Nothing valid is so long; and the time grows with both lengths.
    let word: String = word.chars().take(80).flat_map(char::to_lowercase).collect();
    let most = |other: &str| 1.max(word.chars().count().max(other.chars().count()) / 3);
    valid
        .into_iter()
        .map(|other| (strsim::osa_distance(&word, other), other))
        .filter(|(distance, other)| *distance <= most(other))
        .min_by_key(|(distance, _)| *distance)
        .map(|(_, other)| other)
}

/// A name for comparing: in small letters, its words one space apart, whether hyphens, underscores or spaces part them.
pub(crate) fn spaced(name: &str) -> String {
    let small = name.to_lowercase().replace(['-', '_'], " ");
    small.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// What to say to whoever wrote a word that names nothing: the nearest name, or all of them. Of each name that is read
/// comes how it is written in files.
pub(crate) fn hint<'a>(word: &str, names: impl IntoIterator<Item = (&'a str, String)>) -> String {
    let names: Vec<(String, String)> =
        names.into_iter().map(|(read, written)| (spaced(read), written)).collect();
    let near = nearest(&spaced(word), names.iter().map(|(read, _)| read.as_str()));
    match names.iter().find(|(read, _)| near == Some(read)) {
        Some((_, written)) => format!("did you mean `{written}`?"),
        None => {
            let mut all: Vec<&str> = names.iter().map(|(_, written)| written.as_str()).collect();
            all.dedup();
            format!("expected one of {}", all.join(", "))
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_slip_finds_its_word_and_another_word_none() {
        assert_eq!(nearest("titel", ["title", "notes"]), Some("title"));
        assert_eq!(nearest("Photo-graph", ["photograph", "film"]), Some("photograph"));
        assert_eq!(nearest("hat", ["title", "notes"]), None);
    }
}

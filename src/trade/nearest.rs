//! The nearest valid word to one that is not.

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

//! Words of a record, cut to what can be looked up: small letters, no marks, no plural `s`, and never more than a
//! bounded number of them.

/// The words of one text.
#[derive(Clone, Debug, Default)]
pub(super) struct Words(Vec<String>);

impl Words {
    /// So many words of a text are read; a record that needs more is no record.
    const MOST: usize = 32;
    /// So many bytes of a text are looked at.
    const BYTES: usize = 1024;

    pub(super) fn of(text: &str) -> Self {
        let end = (0..=Self::BYTES.min(text.len())).rev().find(|&at| text.is_char_boundary(at)).unwrap_or(0);
        let words = text[..end].split(|c: char| !c.is_alphanumeric()).filter(|word| !word.is_empty());
        Self(words.take(Self::MOST).map(|word| stem(&word.to_lowercase()).to_owned()).collect())
    }

    /// Whether one of the phrases, parted by `|`, stands here.
    pub(super) fn say(&self, phrases: &str) -> bool {
        phrases.split('|').any(|phrase| (0..self.0.len()).any(|at| self.phrase_at(at, phrase).is_some()))
    }

    /// What the first row says of which a phrase stands here.
    pub(super) fn first<T: Copy>(&self, table: &[(&str, T)]) -> Option<T> {
        table.iter().find(|(phrases, _)| self.say(phrases)).map(|(_, said)| *said)
    }

    /// What the row says whose phrase ends last, the longest of those that end there: in English the thing comes last
    /// in its name (`pyjama trousers`, `bathing dress`).
    pub(super) fn last<T: Copy>(&self, table: &[(&str, T)]) -> Option<T> {
        let mut best: Option<(usize, usize, T)> = None;
        for (phrases, said) in table {
            for phrase in phrases.split('|') {
                for at in 0..self.0.len() {
                    let Some(length) = self.phrase_at(at, phrase) else { continue };
                    if best.is_none_or(|(end, longest, _)| (at + length, length) > (end, longest)) {
                        best = Some((at + length, length, *said));
                    }
                }
            }
        }
        best.map(|(_, _, said)| said)
    }

    /// The words before the first of these, or all.
    pub(super) fn before(&self, any: &[&str]) -> Self {
        let end = self
            .0
            .iter()
            .skip(1)
            .position(|word| any.contains(&word.as_str()))
            .map_or(self.0.len(), |at| at + 1);
        Self(self.0[..end].to_vec())
    }

    /// The number that stands here, in figures or as a word, first.
    pub(super) fn number(&self) -> Option<u16> {
        self.0.iter().find_map(|word| number(word))
    }

    /// The number right before this phrase.
    pub(super) fn number_before(&self, phrase: &str) -> Option<u16> {
        (1..self.0.len())
            .find(|&at| self.phrase_at(at, phrase).is_some())
            .and_then(|at| number(&self.0[at - 1]))
    }

    fn phrase_at(&self, at: usize, phrase: &str) -> Option<usize> {
        let mut length = 0;
        for word in phrase.split(' ') {
            if self.0.get(at + length).is_none_or(|here| here != stem(word)) {
                return None;
            }
            length += 1;
        }
        Some(length)
    }
}

fn stem(word: &str) -> &str {
    match word.strip_suffix('s') {
        Some(short) if word.len() > 3 && !short.ends_with('s') => short,
        _ => word,
    }
}

fn number(word: &str) -> Option<u16> {
    const NAMES: [&str; 13] = [
        "no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven",
        "twelve",
    ];
    if word == "single" {
        return Some(1);
    }
    let named = NAMES.iter().position(|name| *name == word).and_then(|at| u16::try_from(at).ok());
    named.or_else(|| word.parse().ok())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn phrases_are_found_whatever_their_marks_and_plurals() {
        let words = Words::of("Double-breasted, eight horn buttons; V neck (sou'wester)");
        assert!(words.say("double breasted"));
        assert!(words.say("nothing|v neck"));
        assert!(words.say("button"));
        assert!(words.say("sou wester"));
        assert!(!words.say("breast"), "a part of a word is no word");
        assert_eq!(words.number(), Some(8));
        assert_eq!(Words::of("hem 36 cm from the floor").number_before("cm from the floor"), Some(36));
    }

    #[test]
    fn a_thing_is_its_last_and_longest_name() {
        let table = [("dress", 1), ("bathing dress", 2), ("trousers", 3), ("pyjamas", 4)];
        assert_eq!(Words::of("borrowed bathing dress").last(&table), Some(2));
        assert_eq!(Words::of("pyjama trousers").last(&table), Some(3));
        assert_eq!(Words::of("pyjamas").last(&table), Some(4));
        assert_eq!(Words::of("thing").last(&table), None);
    }

    #[test]
    fn a_long_text_is_read_to_a_bound() {
        assert!(Words::of(&"é ".repeat(100_000)).0.len() <= Words::MOST);
    }
}

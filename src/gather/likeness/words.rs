//! Free text as words that can be compared: numbered, lower-case, in the singular, without numbers and little words.

use std::collections::HashMap;

/// Every word seen, numbered.
#[derive(Clone, Debug, Default)]
pub struct Lexicon(HashMap<String, u32>);

/// Words that tell nothing of a garment or an occasion.
const LITTLE: [&str; 48] = [
    "a", "after", "all", "an", "and", "as", "at", "before", "below", "but", "by", "down", "first", "for",
    "from", "her", "his", "in", "into", "is", "it", "its", "last", "no", "not", "of", "off", "on", "one",
    "or", "out", "over", "own", "per", "that", "the", "their", "then", "this", "to", "two", "under", "up",
    "was", "when", "where", "with", "without",
];

impl Lexicon {
    /// The words of a text, in its order.
    pub fn words(&mut self, text: &str) -> Vec<u32> {
        let mut words = Vec::new();
        for word in text.split(|c: char| !c.is_alphanumeric() && c != '²') {
            let word = word.to_lowercase();
            let tells = word.chars().count() > 1 && !word.chars().any(|c| c.is_numeric() || c == '²');
            if !tells || LITTLE.binary_search(&word.as_str()).is_ok() {
                continue;
            }
            words.push(self.number(singular(word)));
        }
        words
    }

    /// The number of a name, which is no word of a text.
    pub fn name(&mut self, name: &str) -> u32 {
        self.number(format!("`{name}`"))
    }

    fn number(&mut self, word: String) -> u32 {
        let next = u32::try_from(self.0.len()).unwrap_or(u32::MAX);
        *self.0.entry(word).or_insert(next)
    }
}

/// English plurals, well enough to compare by: `dresses` and `dress`, `capes` and `cape`.
fn singular(mut word: String) -> String {
    for (ending, stays) in [("sses", 2), ("shes", 2), ("ches", 2), ("xes", 1)] {
        if word.ends_with(ending) {
            word.truncate(word.len() - ending.len() + stays);
            return word;
        }
    }
    if word.len() > 3 && word.ends_with('s') && !word.ends_with("ss") && !word.ends_with("us") {
        word.pop();
    }
    word
}

/// A set of words of which some weigh more: each once, with the most that it was given.
pub fn weighed(mut words: Vec<(u32, f32)>) -> Box<[(u32, f32)]> {
    words.sort_by(|a, b| a.0.cmp(&b.0).then(b.1.total_cmp(&a.1)));
    words.dedup_by_key(|word| word.0);
    words.into()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn little_words_are_in_order() {
        assert!(LITTLE.is_sorted());
    }

    #[test]
    fn words_are_the_same_in_any_number_and_case() {
        let mut lexicon = Lexicon::default();
        assert_eq!(lexicon.words("Dresses, capes & boxes"), lexicon.words("dress cape box"));
        assert_eq!(
            lexicon.words("wool serge, 310 g/m², of the 2 lengths"),
            lexicon.words("WOOL serge length")
        );
        assert_ne!(lexicon.words("serge"), lexicon.words("jersey"));
        assert!(lexicon.words("on the 3rd of 10").is_empty());
    }
}

//! Which items of a list answer to what was typed, and which answers best.
//!
//! Every word that was typed must be found. A word is found where it begins or ends up inside a word of the item, or
//! where it is one with a slip of the hand in it; letters strewn over a whole sentence are no answer. Accents and
//! capitals are as good as plain letters.

use fuzzy_matcher::FuzzyMatcher;
use fuzzy_matcher::skim::SkimMatcherV2;

use crate::board::id::plain_letter;

/// What was typed, made ready.
pub struct Wanted {
    words: Vec<String>,
    /// Made once for all items: it keeps its memory from one to the next.
    matcher: SkimMatcherV2,
}

impl Wanted {
    /// From what was typed.
    pub fn new(typed: &str) -> Self {
        Self { words: typed.split_whitespace().map(plain).collect(), matcher: SkimMatcherV2::default() }
    }

    /// Whether nothing was typed, which everything answers.
    pub fn is_empty(&self) -> bool {
        self.words.is_empty()
    }

    /// How well an item answers, more is better; `None` where it does not. Its parts stand the most telling first.
    pub fn score(&self, parts: &[&str]) -> Option<u32> {
        let parts: Vec<String> = parts.iter().map(|part| plain(part)).collect();
        self.words.iter().try_fold(0, |sum, word| {
            let scores =
                (1..).zip(parts.iter().rev()).map(|(weight, part)| weight * self.score_in(part, word));
            let best = scores.max().unwrap_or(0);
            (best > 0).then_some(sum + best)
        })
    }

    fn score_in(&self, text: &str, word: &str) -> u32 {
        let words = || text.split(|c: char| !c.is_alphanumeric()).filter(|word| !word.is_empty());
        if words().any(|have| have == word) || text == word {
            return WHOLE;
        }
        let begins = |(at, _): (usize, &str)| !text[..at].ends_with(char::is_alphanumeric);
        if text.match_indices(word).any(begins) {
            return BEGINNING;
        }
        if text.contains(word) {
            return INSIDE;
        }
        let has_digit = word.contains(|c: char| c.is_ascii_digit());
        if word.chars().count() < LONG_ENOUGH || has_digit {
            return 0;
        }
        if words().any(|have| has_slip(have, word) || self.is_shortened(have, word)) { SLIP } else { 0 }
    }

    /// Whether the letters typed are those of one word with some left out: `nwsreel`, `grgette`.
    fn is_shortened(&self, have: &str, typed: &str) -> bool {
        let begins_alike = have.chars().next() == typed.chars().next();
        let left_out = have.chars().count().saturating_sub(typed.chars().count());
        begins_alike && left_out <= 3 && self.matcher.fuzzy_match(have, typed).is_some()
    }
}

/// Without accents and capitals.
fn plain(text: &str) -> String {
    // Letters written as a plain one with an accent behind it lose the accent.
    let letters = text.chars().filter(|c| !('\u{300}'..='\u{36f}').contains(c));
    letters.map(plain_letter).flat_map(char::to_lowercase).collect()
}

const WHOLE: u32 = 12;
const BEGINNING: u32 = 8;
const INSIDE: u32 = 4;
const SLIP: u32 = 1;

/// From how many letters on a word may have a slip in it: shorter ones are near too many others.
const LONG_ENOUGH: usize = 4;

/// Whether a word, or its beginning, is what was typed but for one slip of the hand.
fn has_slip(have: &str, typed: &str) -> bool {
    let length = typed.chars().count();
    [length - 1, length, length + 1].iter().any(|end| {
        let beginning: String = have.chars().take(*end).collect();
        strsim::osa_distance(&beginning, typed) <= 1
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn score(typed: &str, parts: &[&str]) -> Option<u32> {
        Wanted::new(typed).score(parts)
    }

    #[test]
    fn accents_and_capitals_need_not_be_typed() {
        assert!(score("day crepe", &["Day crêpe under the newsreel coat"]).is_some());
        assert!(score("CRÊPE", &["Day cre\u{302}pe"]).is_some());
    }

    #[test]
    fn strewn_letters_are_no_answer_and_a_slip_is_one() {
        assert_eq!(score("ochre", &["Christening robe, lent — the old church"]), None);
        assert!(score("ocher", &["the ochre oilskin"]).is_some());
        assert!(score("newsre", &["Newsreel coat"]).is_some());
        assert!(score("nwsrel", &["Newsreel coat"]).is_some(), "letters may be left out");
        assert_eq!(score("1926", &["1925"]), None, "another year is another year");
        assert_eq!(score("cap", &["The cup"]), None);
    }

    #[test]
    fn whole_words_come_before_beginnings_and_these_before_insides() {
        let [whole, beginning, inside] =
            ["a robe", "two robes", "the wardrobe"].map(|text| score("robe", &[text]).unwrap());
        assert!(whole > beginning && beginning > inside);
        assert!(score("6", &["6", "D1 QUAY"]) > score("6", &["9", "D6 QUAY"]), "the number first");
        assert!(score("8a n5", &["8A", "N5 LOFT"]).is_some());
    }

    #[test]
    fn every_word_must_be_found() {
        assert!(score("coat newsreel", &["Newsreel coat"]).is_some());
        assert_eq!(score("coat swim", &["Newsreel coat"]), None);
        assert!(score("coat odile", &["Newsreel coat", "look of Odile"]).is_some());
    }
}

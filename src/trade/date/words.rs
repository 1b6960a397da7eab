//! The words and signs in which people write dates: cuts a text into tokens
//! and says what a word means. English, British and American, in any case.

use super::error::Fault;
use super::mark::Mark;
use super::season::Season;
use super::weekday::Weekday;

/// A word, a run of digits or a sign, and where it stands.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Token {
    pub kind: Kind,
    /// Character of the text, counted from 1.
    pub at: usize,
    /// Whether a space stands before it.
    pub spaced: bool,
}

#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum Kind {
    /// ASCII digits.
    Number(String),
    /// Letters, in lower case.
    Word(String),
    /// One of `- – / . , ~ ? % '`.
    Sign(char),
}

impl Token {
    pub fn word(&self) -> Option<&str> {
        match &self.kind {
            Kind::Word(word) => Some(word),
            Kind::Number(_) | Kind::Sign(_) => None,
        }
    }

    pub fn digits(&self) -> Option<&str> {
        match &self.kind {
            Kind::Number(digits) => Some(digits),
            Kind::Word(_) | Kind::Sign(_) => None,
        }
    }

    pub fn is_sign(&self, sign: char) -> bool {
        self.kind == Kind::Sign(sign)
    }

    /// The mark that it puts on a date, if it is one: `~`, `?`, "circa".
    pub fn mark(&self) -> Option<Mark> {
        match &self.kind {
            Kind::Sign(sign) => Mark::from_sign(*sign),
            Kind::Word(word) => mark(word),
            Kind::Number(_) => None,
        }
    }
}

/// Cuts a text into tokens. Spaces and round brackets only part them.
pub(super) fn tokens(text: &str) -> Result<Vec<Token>, Fault> {
    let mut tokens: Vec<Token> = Vec::new();
    let mut spaced = false;
    let mut joins = false;
    for (index, found) in text.chars().enumerate() {
        if found.is_whitespace() || matches!(found, '(' | ')') {
            (spaced, joins) = (true, false);
            continue;
        }
        let last = tokens.last_mut().filter(|_| joins).map(|token| &mut token.kind);
        match (last, found) {
            (Some(Kind::Number(digits)), '0'..='9') => digits.push(found),
            (Some(Kind::Word(word)), letter) if letter.is_alphabetic() => {
                word.extend(letter.to_lowercase());
            }
            _ => {
                let kind = match found {
                    '0'..='9' => Kind::Number(found.into()),
                    letter if letter.is_alphabetic() => Kind::Word(letter.to_lowercase().collect()),
                    other => Kind::Sign(
                        sign(other)
                            .ok_or_else(|| Fault::new(index + 1, format!("no date has a {other:?}")))?,
                    ),
                };
                tokens.push(Token { kind, at: index + 1, spaced });
            }
        }
        (spaced, joins) = (false, true);
    }
    Ok(tokens)
}

/// The place after the last of these tokens.
pub(super) fn end_of(tokens: &[Token]) -> usize {
    tokens.last().map_or(1, |token| {
        let length = match &token.kind {
            Kind::Number(text) | Kind::Word(text) => text.chars().count(),
            Kind::Sign(_) => 1,
        };
        token.at + length
    })
}

/// One sign for all that look alike.
fn sign(found: char) -> Option<char> {
    match found {
        '-' | '\u{2010}' | '\u{2011}' => Some('-'),
        '\u{2012}'..='\u{2015}' | '\u{2212}' => Some('–'),
        '~' | '≈' => Some('~'),
        '\'' | '\u{2018}' | '\u{2019}' => Some('\''),
        '/' | '.' | ',' | '?' | '%' => Some(found),
        _ => None,
    }
}

const MONTHS: [&str; 12] = [
    "january",
    "february",
    "march",
    "april",
    "may",
    "june",
    "july",
    "august",
    "september",
    "october",
    "november",
    "december",
];

/// The month (1–12) of a name or of its beginning, three letters at least.
pub(super) fn month(word: &str) -> Option<u8> {
    if word.len() < 3 {
        return None;
    }
    (1..).zip(MONTHS).find(|(_, name)| name.starts_with(word)).map(|(number, _)| number)
}

/// The whole name of a month (1–12), with a capital letter.
pub(super) fn name_of_month(month: u8) -> String {
    let name = usize::from(month).checked_sub(1).and_then(|at| MONTHS.get(at)).copied().unwrap_or_default();
    name.chars().take(1).flat_map(char::to_uppercase).chain(name.chars().skip(1)).collect()
}

pub(super) fn season(word: &str) -> Option<Season> {
    let name = if word == "fall" { "autumn" } else { word };
    Season::ALL.into_iter().find(|season| season.name() == name)
}

pub(super) fn weekday(word: &str) -> Option<Weekday> {
    let is_it = |day: &Weekday| word.len() >= 3 && day.name().to_lowercase().starts_with(word);
    Weekday::ALL.into_iter().find(is_it)
}

fn mark(word: &str) -> Option<Mark> {
    match word {
        "c" | "ca" | "circa" | "cca" | "about" | "around" | "approx" | "approximately" | "roughly" => {
            Some(Mark::APPROXIMATE)
        }
        "maybe" | "perhaps" | "possibly" | "poss" | "probably" | "prob" => Some(Mark::UNCERTAIN),
        _ => None,
    }
}

/// Words that a date may carry and that say nothing.
pub(super) fn is_filler(word: &str) -> bool {
    matches!(word, "the" | "of" | "in" | "on" | "year")
}

/// A century as people count them, 1 being the first hundred years.
pub(super) fn ordinal(word: &str) -> Option<u8> {
    match word {
        "eighteenth" => Some(18),
        "nineteenth" => Some(19),
        "twentieth" => Some(20),
        _ => None,
    }
}

/// The known word that a misspelt one is nearest to, if one is near.
pub(super) fn nearest_word(word: &str) -> Option<&'static str> {
    const OTHERS: [&str; 6] = ["before", "after", "between", "until", "circa", "century"];
    let allowed = match word.chars().count() {
        0..=3 => return None,
        4..=5 => 1,
        _ => 2,
    };
    MONTHS
        .into_iter()
        .chain(Season::ALL.map(Season::name))
        .chain(OTHERS)
        .map(|known| (strsim::osa_distance(word, known), known))
        .min_by_key(|(distance, _)| *distance)
        .filter(|(distance, _)| *distance <= allowed)
        .map(|(_, known)| known)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_text_falls_into_words_numbers_and_signs() {
        let kinds = |text| -> Vec<Kind> { tokens(text).unwrap().into_iter().map(|t| t.kind).collect() };
        let word = |word: &str| Kind::Word(word.into());
        let number = |digits: &str| Kind::Number(digits.into());
        assert_eq!(kinds("c1926"), [word("c"), number("1926")]);
        assert_eq!(kinds("14TH aug."), [number("14"), word("th"), word("aug"), Kind::Sign('.')]);
        assert_eq!(kinds("1924—26 (?)"), [number("1924"), Kind::Sign('–'), number("26"), Kind::Sign('?')]);
        assert_eq!(kinds("19 26"), [number("19"), number("26")]);
        assert_eq!(kinds(" "), []);
    }

    #[test]
    fn a_sign_that_no_date_has_is_named_with_its_place() {
        let fault = tokens("aug* 1926").unwrap_err();
        assert_eq!((fault.at, fault.what.as_str()), (4, "no date has a '*'"));
    }

    #[test]
    fn months_are_known_by_their_first_letters() {
        assert_eq!(month("aug"), Some(8));
        assert_eq!(month("sept"), Some(9));
        assert_eq!(month("december"), Some(12));
        assert_eq!(month("ju"), None);
        assert_eq!(month("augustus"), None);
        assert_eq!(weekday("thurs"), Some(Weekday::Thursday));
        assert_eq!(season("fall"), Some(Season::Autumn));
    }

    #[test]
    fn a_misspelt_word_finds_its_neighbour() {
        assert_eq!(nearest_word("agust"), Some("august"));
        assert_eq!(nearest_word("febuary"), Some("february"));
        assert_eq!(nearest_word("sumer"), Some("summer"));
        assert_eq!(nearest_word("banana"), None);
        assert_eq!(nearest_word("xmas"), None);
    }
}

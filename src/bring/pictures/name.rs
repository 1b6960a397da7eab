//! What the name of a file says: a day, and words.

use crate::trade::date::{Date, read_friendly};

/// What a file's name, without its ending, says.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Named {
    /// When it was worn, where a date stands in the name.
    pub worn: Option<Date>,
    /// What is left, as a title; empty where it says nothing to a person.
    pub title: String,
}

/// The most parts of a name that make a date: `between 12 may 1926 and june 1926` and a little more.
const PARTS: usize = 8;

/// With what cameras begin the names of their files; the number behind is no year (common practice, no source).
const COUNTERS: [&str; 10] = ["img", "dsc", "dscf", "dscn", "pict", "cimg", "mvi", "scan", "image", "photo"];

impl Named {
    /// Reads a name.
    pub fn of(stem: &str) -> Self {
        let parts = parts(stem);
        let date = date_in(stem, &parts);
        let rest = |at: &usize| date.as_ref().is_none_or(|(_, from, to)| at < from || at >= to);
        let mut words: Vec<&str> =
            (0..parts.len()).filter(rest).map(|at| &stem[parts[at].0..parts[at].1]).collect();
        // Which of several it is, or what a camera counts, is no word.
        while words.last().is_some_and(|word| is_number(word)) {
            words.pop();
        }
        if words.len() == 1 && words.first().is_some_and(|word| is_counter(word)) {
            words.clear();
        }
        Self { worn: date.map(|(date, ..)| date), title: capital(&words.join(" ")) }
    }
}

/// Where the parts of a name begin and end.
fn parts(stem: &str) -> Vec<(usize, usize)> {
    let mut parts = Vec::new();
    let mut start = None;
    for (at, letter) in stem.char_indices() {
        let is_joint = letter.is_whitespace() || matches!(letter, '_' | '-' | '–' | '(' | ')' | ',' | '+');
        match (is_joint, start) {
            (true, Some(from)) => {
                parts.push((from, at));
                start = None;
            }
            (false, None) => start = Some(at),
            _ => {}
        }
    }
    parts.extend(start.map(|from| (from, stem.len())));
    parts
}

/// The longest run of parts that is a date with a year in it, the first of several.
fn date_in(stem: &str, parts: &[(usize, usize)]) -> Option<(Date, usize, usize)> {
    for length in (1..=PARTS.min(parts.len())).rev() {
        for from in 0..=parts.len() - length {
            let to = from + length;
            let own: Vec<&str> = parts[from..to].iter().map(|(start, end)| &stem[*start..*end]).collect();
            let is_counted = from > 0 && is_counter(&stem[parts[from - 1].0..parts[from - 1].1]);
            if is_counted
                || !own.iter().any(|part| has_year(part))
                || own.iter().any(|part| is_too_long(part))
            {
                continue;
            }
            let text = stem[parts[from].0..parts[to - 1].1].replace('_', " ");
            // `1926-2` is the second picture of 1926, not a span.
            if length == 2 && is_number(own[1]) && own[1].len() == 1 {
                continue;
            }
            if let Ok(date) = read_friendly(&text) {
                return Some((date, from, to));
            }
        }
    }
    None
}

/// Whether a part can be a year, a decade or a century, as dates of level 1 or people write them.
fn has_year(part: &str) -> bool {
    let digits: String =
        part.chars().take_while(|letter| letter.is_ascii_digit() || matches!(letter, 'X' | 'x')).collect();
    let rest = &part[digits.len()..];
    digits.len() == 4
        && digits.starts_with(|letter: char| letter.is_ascii_digit())
        && matches!(rest, "" | "s" | "~" | "?" | "%")
}

/// A camera's `20250304` is when it was taken, and no day that anybody types.
fn is_too_long(part: &str) -> bool {
    part.len() > 4 && part.bytes().all(|byte| byte.is_ascii_digit())
}

fn is_number(word: &str) -> bool {
    !word.is_empty() && word.bytes().all(|byte| byte.is_ascii_digit())
}

fn is_counter(word: &str) -> bool {
    let letters = word.trim_end_matches(|letter: char| letter.is_ascii_digit()).to_ascii_lowercase();
    COUNTERS.contains(&letters.as_str())
}

fn capital(words: &str) -> String {
    let mut letters = words.chars();
    letters.next().map_or(String::new(), |first| first.to_uppercase().chain(letters).collect())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_date_is_found_wherever_it_stands_and_the_rest_is_the_title() {
        for (stem, worn, title) in [
            ("1926-08-14 channel start", "1926-08-14", "Channel start"),
            ("odile-1926-08-14-start", "1926-08-14", "Odile start"),
            ("newsreel coat aug 1926", "1926-08", "Newsreel coat"),
            ("robe_c._1924", "1924~", "Robe"),
            ("Quay smock (summer 1926)", "1926-22", "Quay smock"),
            ("1926 2", "1926", ""),
            ("1926-2", "1926", ""),
            ("lido 1930s 03", "193X", "Lido"),
            ("between 1924 and 1926 gala gown", "1924/1926", "Gala gown"),
        ] {
            let named = Named::of(stem);
            assert_eq!(named.worn.map(|date| date.to_string()).as_deref(), Some(worn), "{stem}");
            assert_eq!(named.title, title, "{stem}");
        }
    }

    #[test]
    fn what_a_camera_counts_is_no_date_and_no_title() {
        for stem in
            ["IMG_1926", "IMG_20250304_123456", "DSC01926", "scan0007", "P1010019", "", "---", "20250304"]
        {
            assert_eq!(Named::of(stem).worn, None, "{stem}");
        }
        for stem in ["IMG_1926", "DSC01926", "scan0007", "scan 7", "IMG_20250304_123456"] {
            assert_eq!(Named::of(stem).title, "", "{stem}");
        }
        assert_eq!(Named::of("black costume 12").title, "Black costume");
    }

    #[test]
    fn any_name_is_read_without_harm() {
        for stem in
            ["ünï–cödé 1926", "1926/1927", "🧥", "9999999999999999999", "1926~1926~1926", &"x".repeat(5_000)]
        {
            Named::of(stem);
        }
    }
}

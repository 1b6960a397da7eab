//! A scene heading: where, which set, in what light, and the number behind it.

use crate::board::{Light, Place};

/// The beginnings of a heading, the longest first; a full stop or a space follows.
const BEGINNINGS: [(&str, Option<Place>); 10] = [
    ("INT./EXT", Some(Place::Both)),
    ("EXT./INT", Some(Place::Both)),
    ("INT/EXT", Some(Place::Both)),
    ("EXT/INT", Some(Place::Both)),
    ("I./E", Some(Place::Both)),
    ("I/E", Some(Place::Both)),
    ("E/I", Some(Place::Both)),
    ("INT", Some(Place::Inside)),
    ("EXT", Some(Place::Outside)),
    ("EST", Some(Place::Outside)),
];

/// What is read from a heading.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(super) struct Heading {
    pub place: Option<Place>,
    /// The set, in the heading's own letters.
    pub set: String,
    pub time: Time,
}

/// What a heading says of the light.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(super) enum Time {
    /// This light.
    At(Light),
    /// That of the scene before.
    AsBefore,
    /// Nothing.
    #[default]
    Untold,
}

/// Whether a line begins as a heading does.
pub(super) fn begins(line: &str) -> bool {
    beginning(line).is_some()
}

fn beginning(line: &str) -> Option<(Option<Place>, &str)> {
    BEGINNINGS.iter().find_map(|(word, place)| {
        let start = line.get(..word.len())?;
        let rest = &line[word.len()..];
        (start.eq_ignore_ascii_case(word) && rest.starts_with(['.', ' '])).then_some((*place, rest))
    })
}

/// Reads a heading without its number.
pub(super) fn read(text: &str) -> Heading {
    let text = text.trim();
    let (place, rest) = beginning(text).unwrap_or((None, text));
    let rest = rest.trim_start_matches(['.', ' ']);
    let parts = parts(rest);
    let timed = parts.iter().enumerate().skip(1).rev().find_map(|(at, part)| Some((at, time(part)?)));
    let (end, time) = timed.unwrap_or((parts.len(), Time::Untold));
    Heading { place, set: parts[..end].join(" - "), time }
}

/// The parts between dashes with spaces around them, found in one pass.
fn parts(text: &str) -> Vec<&str> {
    let mut parts = Vec::new();
    let mut start = 0;
    for (at, _) in text.match_indices(' ') {
        let dash = [" - ", " – ", " — ", " -- "].into_iter().find(|dash| text[at..].starts_with(dash));
        // The space behind a dash is not in front of another.
        if let Some(dash) = dash.filter(|_| at >= start) {
            parts.push(text[start..at].trim());
            start = at + dash.len();
        }
    }
    parts.push(text[start..].trim());
    parts
}

fn time(part: &str) -> Option<Time> {
    let first = part.split(|c: char| !c.is_alphabetic()).find(|word| !word.is_empty())?;
    Some(match first.to_uppercase().as_str() {
        "DAY" | "MORNING" | "NOON" | "MIDDAY" | "AFTERNOON" => Time::At(Light::Day),
        "NIGHT" | "EVENING" | "MIDNIGHT" => Time::At(Light::Night),
        "DAWN" | "SUNRISE" => Time::At(Light::Dawn),
        "DUSK" | "SUNSET" | "TWILIGHT" => Time::At(Light::Dusk),
        "CONTINUOUS" | "LATER" | "MOMENTS" | "SAME" => Time::AsBefore,
        _ => return None,
    })
}

/// Parts a heading from the number behind it.
pub(super) fn number(line: &str) -> (&str, Option<&str>) {
    let trimmed = line.trim_end();
    let inner = trimmed.strip_suffix('#').and_then(|rest| Some((rest, rest.rfind('#')?)));
    match inner {
        Some((rest, at)) if at > 0 => (rest[..at].trim_end(), Some(&rest[at + 1..])),
        _ => (trimmed, None),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn heading(place: Option<Place>, set: &str, time: Time) -> Heading {
        Heading { place, set: set.to_owned(), time }
    }

    #[test]
    fn a_heading_says_where_which_set_and_in_what_light() {
        let day = Time::At(Light::Day);
        for (text, expected) in [
            ("INT. NET LOFT - DAY", heading(Some(Place::Inside), "NET LOFT", day)),
            (
                "ext slipway, sankt alder – dusk",
                heading(Some(Place::Outside), "slipway, sankt alder", Time::At(Light::Dusk)),
            ),
            ("INT./EXT. LAUNCH - NIGHT", heading(Some(Place::Both), "LAUNCH", Time::At(Light::Night))),
            ("I/E CABIN -- LATER", heading(Some(Place::Both), "CABIN", Time::AsBefore)),
            (
                "INT. BATHS - GALLERY - DAY - 1927 (FILM)",
                heading(Some(Place::Inside), "BATHS - GALLERY", day),
            ),
            ("EST. WENDEL SPA", heading(Some(Place::Outside), "WENDEL SPA", Time::Untold)),
            ("THE DREAM", heading(None, "THE DREAM", Time::Untold)),
            ("EXT. NIGHT", heading(Some(Place::Outside), "NIGHT", Time::Untold)),
            ("INT.", heading(Some(Place::Inside), "", Time::Untold)),
        ] {
            assert_eq!(read(text), expected, "{text}");
        }
    }

    #[test]
    fn dashes_part_a_heading_one_by_one() {
        assert_eq!(parts("A - B – C — D -- E"), ["A", "B", "C", "D", "E"]);
        assert_eq!(parts("A - - B -C- D  -  E"), ["A", "- B -C- D", "E"]);
        assert_eq!((parts(""), parts(" - ")), (vec![""], vec!["", ""]));
    }

    #[test]
    fn a_heading_of_a_hundred_thousand_dashes_is_read() {
        let text = format!("INT. LOFT{} - NIGHT", " - X".repeat(100_000));
        let heading = read(&text);
        assert_eq!((heading.set.matches(" - ").count(), heading.time), (100_000, Time::At(Light::Night)));
    }

    #[test]
    fn a_word_that_only_begins_alike_begins_no_heading() {
        for text in ["INTERIOR. LOFT", "EXTRAS WAIT", "ESTHER", "I/Ex", "INT", "é", "in"] {
            assert!(!begins(text), "{text}");
        }
    }

    #[test]
    fn the_number_stands_between_the_last_two_hashes() {
        assert_eq!(number("INT. LOFT - DAY #12A#"), ("INT. LOFT - DAY", Some("12A")));
        assert_eq!(number("INT. LOFT #3 - DAY"), ("INT. LOFT #3 - DAY", None));
        assert_eq!(number("INT. LOFT #3 - DAY #4#  "), ("INT. LOFT #3 - DAY", Some("4")));
        assert_eq!(number("INT. LOFT ##"), ("INT. LOFT", Some("")));
        assert_eq!(number("#1#"), ("#1#", None));
    }
}

//! Recognises what only level 2 of EDTF can say, so that such a date is
//! refused by its name and with the nearest level 1 form, not as junk.
//! Called only for a text that level 1 has refused.

use super::Date;
use super::error::Fault;
use super::mark::Mark;
use super::point::Shape;
use super::strict::level_one;

/// The fault that names the level 2 feature in the text, if there is one.
pub(super) fn explain(chars: &[char]) -> Option<Fault> {
    let is_edtf = |c: char| c.is_ascii_digit() || "XYES-/.,[]{}?~%".contains(c);
    if !chars.iter().all(|&c| is_edtf(c)) {
        return None;
    }
    set(chars)
        .or_else(|| scientific_year(chars))
        .or_else(|| significant_digits(chars))
        .or_else(|| part_of_year(chars))
        .or_else(|| qualified_part(chars))
        .or_else(|| open_digit(chars))
}

fn fault(index: usize, feature: &str) -> Fault {
    Fault::new(index + 1, format!("{feature} is EDTF level 2; levels 0 and 1 are kept here"))
}

/// `[1667,1668]`, `{1960,1961-12}`. A span from the first to the last member
/// is the nearest that level 1 can say.
fn set(chars: &[char]) -> Option<Fault> {
    let (open, close) = (*chars.first()?, *chars.last()?);
    if !matches!((open, close), ('[', ']') | ('{', '}')) {
        return None;
    }
    let inner: String = chars[1..chars.len() - 1].iter().collect();
    let members: Vec<&str> = inner.split([',', '.']).filter(|m| !m.is_empty()).collect();
    let nearest = if inner.starts_with("..") {
        members.last().and_then(|m| level_one(&format!("../{m}")))
    } else if inner.ends_with("..") {
        members.first().and_then(|m| level_one(&format!("{m}/..")))
    } else {
        match members[..] {
            [only] => level_one(only),
            [first, .., last] => level_one(&format!("{first}/{last}")),
            [] => return None,
        }
    };
    Some(fault(0, "a set of dates").or_write(nearest))
}

/// `Y-17E7`.
fn scientific_year(chars: &[char]) -> Option<Fault> {
    let text: String = chars.iter().collect();
    let (base, power) = text.strip_prefix('Y')?.split_once('E')?;
    let power_digits = power.split('S').next().unwrap_or(power);
    let year = base.parse::<i64>().ok()?;
    let power = power_digits.parse::<u32>().ok()?;
    let nearest = 10_i64
        .checked_pow(power)
        .and_then(|factor| factor.checked_mul(year))
        .and_then(|year| level_one(&format!("Y{year}")));
    let index = chars.iter().position(|&c| c == 'E')?;
    Some(fault(index, "an exponential year").or_write(nearest))
}

/// `1950S2`, which is nearest to about 1950.
fn significant_digits(chars: &[char]) -> Option<Fault> {
    let index = chars.iter().position(|&c| c == 'S')?;
    let digits = &chars[index + 1..];
    if digits.is_empty() || !digits.iter().all(char::is_ascii_digit) {
        return None;
    }
    let year: String = chars[..index].iter().collect();
    let year = level_one(&year)?;
    Some(fault(index, "a year with significant digits").or_write(level_one(&format!("{year}~"))))
}

/// `2001-34`: seasons of a hemisphere, quarters, quadrimesters, semesters.
fn part_of_year(chars: &[char]) -> Option<Fault> {
    let dash = chars.iter().rposition(|&c| c == '-')?;
    let year: String = chars[..dash].iter().collect();
    let code: String = chars[dash + 1..].iter().collect();
    let digits = year.strip_prefix('-').unwrap_or(&year);
    if digits.len() != 4 || !digits.chars().all(|c| c.is_ascii_digit()) {
        return None;
    }
    let code = code.parse::<u8>().ok().filter(|_| code.len() == 2)?;
    let months = |length: u8, index: u8| {
        let first = length * index + 1;
        format!("{year}-{first:02}/{year}-{:02}", first + length - 1)
    };
    let nearest = match code {
        25..=32 => format!("{year}-{}", 21 + (code - 25) % 4),
        33..=36 => months(3, code - 33),
        37..=39 => months(4, code - 37),
        40..=41 => months(6, code - 40),
        _ => return None,
    };
    Some(fault(dash + 1, &format!("part {code} of a year")).or_write(level_one(&nearest)))
}

/// `2004?-06-11`, `2004-06-~11`: a mark on a part of the date. Level 1 can
/// put it on the whole.
fn qualified_part(chars: &[char]) -> Option<Fault> {
    let text: String = chars.iter().collect();
    let is_sign = |c: char| Mark::from_sign(c).is_some();
    let inside = |side: &str| side.trim_end_matches(is_sign).contains(is_sign);
    if !text.split('/').any(inside) {
        return None;
    }
    let moved: Vec<String> = text
        .split('/')
        .map(|side| {
            let bare: String = side.chars().filter(|&c| !is_sign(c)).collect();
            let mark = side.chars().filter_map(Mark::from_sign).fold(Mark::default(), Mark::and);
            bare + mark.sign()
        })
        .collect();
    let nearest = level_one(&moved.join("/"))?;
    let index = chars.iter().position(|&c| is_sign(c))?;
    Some(fault(index, "a mark on a part of a date").or_write(nearest))
}

/// `156X-12-25`, `1984-1X`: open digits other than those of level 1.
fn open_digit(chars: &[char]) -> Option<Fault> {
    let text: String = chars.iter().collect();
    let text = text.trim_end_matches(['?', '~', '%']);
    let parts: Vec<&str> = text.strip_prefix('-').unwrap_or(text).split('-').collect();
    let fits = |part: &str, width: usize| {
        part.len() == width && part.chars().all(|c| c.is_ascii_digit() || c == 'X')
    };
    let (year, rest) = parts.split_first()?;
    if rest.len() > 2 || !fits(year, 4) || !rest.iter().all(|part| fits(part, 2)) {
        return None;
    }
    let index = chars.iter().position(|&c| c == 'X')?;
    let nearest = nearest_to_open(year, rest, text.starts_with('-'));
    Some(fault(index, "an X in this place").or_write(nearest))
}

fn nearest_to_open(year: &str, rest: &[&str], negative: bool) -> Option<Date> {
    if negative {
        return None;
    }
    if let (Ok(number), [month, ..]) = (year.parse::<i64>(), rest) {
        // The year is known, the month partly: the months that it can be.
        let fits = |m: &u8| {
            let digits = format!("{m:02}");
            let mut pairs = digits.chars().zip(month.chars());
            pairs.all(|(digit, mask)| mask == 'X' || mask == digit)
        };
        let (first, last) = ((1..=12).find(fits)?, (1..=12).rfind(fits)?);
        if first == last {
            let month = Shape::Month { year: number, month: first };
            return Some(month.plain().into());
        }
        return level_one(&format!("{year}-{first:02}/{year}-{last:02}"));
    }
    // The year is open: its decade or century, or the years it can be.
    let known = year.trim_end_matches('X');
    if known.contains('X') || known.is_empty() {
        return None;
    }
    match known.len() {
        1 => level_one(&format!("{known}000/{known}999")),
        _ => level_one(year),
    }
}

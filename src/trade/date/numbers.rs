//! Dates in numbers alone. Year first is plain, with any of `- / .` between
//! and without leading zeros. Year last is refused even where only one
//! reading exists: who types 14/08/1926 today types 04/08/1926 tomorrow, and
//! that one would be wrong for half of the readers without anybody noticing.

use super::Date;
use super::error::Fault;
use super::loose::{Loose, Small, Years};
use super::season::Season;
use super::strict::level_one;
use super::words::{Kind, Token};

/// Reads tokens that are two or three numbers with one kind of sign between
/// them; `None` when they are anything else, or a year and a number that is
/// no month or season, which may be a span.
pub(super) fn read(tokens: &[Token]) -> Option<Result<Loose, Fault>> {
    let sign = match tokens.get(1)?.kind {
        Kind::Sign(sign @ ('-' | '/' | '.')) => sign,
        _ => return None,
    };
    let (numbers, signs): (Vec<_>, Vec<_>) = tokens.iter().enumerate().partition(|(place, _)| place % 2 == 0);
    if numbers.len() != signs.len() + 1 || !signs.iter().all(|(_, token)| token.is_sign(sign)) {
        return None;
    }
    let numbers: Option<Vec<&str>> = numbers.iter().map(|(_, token)| token.digits()).collect();
    let at = tokens[0].at;
    match numbers?[..] {
        [year, month] if sign == '-' && year.len() == 4 && month.len() == 2 => {
            month_or_season(tokens, year, month).map(Ok)
        }
        [year, month, day] if year.len() == 4 => Some(year_first(tokens, year, month, day)),
        [a, b, year] if is_short(a) && is_short(b) && year.len() == 4 => {
            let fault = Fault::new(at, "day and month in numbers can be exchanged; write the year first");
            Some(Err(or_both(fault, year, a, b)))
        }
        [a, b, c] if [a, b, c].into_iter().all(is_short) => {
            Some(Err(Fault::new(tokens[4].at, "expected a year of four digits")))
        }
        [month, year] if is_short(month) && year.len() == 4 => {
            let fault = Fault::new(at, "a month in numbers comes after its year");
            Some(Err(fault.or_write(level_one(&format!("{year}-{month:0>2}")))))
        }
        _ => None,
    }
}

fn is_short(digits: &str) -> bool {
    digits.len() <= 2
}

/// Both readings of two numbers, day first, where they exist and differ.
fn or_both(fault: Fault, year: &str, a: &str, b: &str) -> Fault {
    let day_first = level_one(&format!("{year}-{b:0>2}-{a:0>2}"));
    let month_first = level_one(&format!("{year}-{a:0>2}-{b:0>2}"));
    let other = month_first.filter(|date| Some(date) != day_first.as_ref());
    fault.or_write(day_first).or_write(other)
}

/// `1926-08` or `1926-21`, with the same meaning inside of a longer text as
/// alone.
fn month_or_season(tokens: &[Token], year: &str, code: &str) -> Option<Loose> {
    let code = code.parse::<u8>().ok()?;
    let month = (1..=12).contains(&code).then_some(code);
    let season = Season::from_code(code);
    if month.is_none() && season.is_none() {
        return None;
    }
    Some(Loose {
        year: Some(Years::One(year.parse().ok()?)),
        month,
        season,
        at: tokens[0].at,
        ..Loose::default()
    })
}

fn year_first(tokens: &[Token], year: &str, month: &str, day: &str) -> Result<Loose, Fault> {
    let text = format!("{year}-{month:0>2}-{day:0>2}");
    if level_one(&text).is_none() {
        let whole: Result<Date, Fault> = super::strict::read(&text);
        let what = whole.err().map_or_else(|| "no such day".into(), |fault| fault.what);
        return Err(Fault::new(tokens[2].at, what));
    }
    // Checked above: all three are numbers, and of at most four digits.
    let small = Small { value: day.parse().unwrap_or(0), two_digits: day.len() == 2, at: tokens[4].at };
    Ok(Loose {
        year: year.parse().ok().map(Years::One),
        month: month.parse().ok(),
        small: Some(small),
        at: tokens[0].at,
        ..Loose::default()
    })
}

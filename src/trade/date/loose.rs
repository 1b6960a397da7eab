//! One date as people write it, in any order, and perhaps incomplete: in
//! "14–16 Aug 1926" the first date has a day only. Reading gathers what is
//! there; completing it from a neighbour and making a [`Point`] come after.

use super::day::{Day, days_in_month};
use super::error::Fault;
use super::mark::Mark;
use super::point::{Point, Shape};
use super::season::Season;
use super::span::{End, Span};
use super::weekday::Weekday;
use super::words::{self, Token};
use super::{Date, third};

/// What a piece of text says of a date.
#[derive(Clone, Debug, Default)]
pub(super) struct Loose {
    pub year: Option<Years>,
    pub month: Option<u8>,
    pub season: Option<Season>,
    /// A number of one or two digits: the day, or the end of a year.
    pub small: Option<Small>,
    pub mark: Mark,
    pub third: Option<(third::Third, usize)>,
    pub weekday: Option<(Weekday, usize)>,
    /// Where it begins in the text.
    pub at: usize,
    /// The place after its end.
    pub end: usize,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Years {
    One(i64),
    /// The digits before the open one.
    Decade(u16),
    Century(u16),
}

#[derive(Clone, Copy, Debug)]
pub(super) struct Small {
    pub value: u8,
    pub two_digits: bool,
    pub at: usize,
}

impl Loose {
    /// Reads all of `tokens` as one date.
    pub fn read(tokens: &[Token]) -> Result<Loose, Fault> {
        if let Some(date) = super::numbers::read(tokens) {
            return date;
        }
        let at = tokens.first().map_or(1, |token| token.at);
        let end = words::end_of(tokens);
        let mut reading = Reading { tokens, next: 0, loose: Loose { at, end, ..Loose::default() } };
        while let Some(token) = reading.advance() {
            reading.take(token)?;
        }
        Ok(reading.loose)
    }

    /// Whether it says a short number and nothing else, as the 26 in 1924–26.
    pub fn is_small_only(&self) -> bool {
        self.small.is_some() && self.year.is_none() && self.month.is_none() && self.season.is_none()
    }

    /// Takes over what it lacks from the other end of its span.
    pub fn complete_from(&mut self, other: &Loose) {
        if self.month.is_none() && self.small.is_some() {
            self.month = other.month;
        }
        if self.year.is_none() {
            self.year = other.year.filter(|years| matches!(years, Years::One(_)));
        }
    }

    /// The date, if all of it is there and exists.
    pub fn point(&self) -> Result<Point, Fault> {
        let shape = self.shape()?;
        if let Some((weekday, at)) = self.weekday {
            check_weekday(shape, weekday, at)?;
        }
        let point = shape.marked(self.mark);
        let Some((third, at)) = self.third else {
            return Ok(point);
        };
        let nearest = third.of(shape).and_then(|(first, last)| {
            Span::new(End::At(first.marked(self.mark)), End::At(last.marked(self.mark))).ok()
        });
        Err(Fault::new(at, format!("EDTF has no word for \"{}\"; say between which dates", third.name()))
            .or_write(nearest.map(Date::from)))
    }

    fn shape(&self) -> Result<Shape, Fault> {
        let year = match self.year {
            None => return Err(Fault::new(self.end, "expected a year of four digits")),
            Some(Years::One(year)) => year,
            Some(_) if self.month.or(self.small.map(|s| s.value)).is_some() || self.season.is_some() => {
                return Err(Fault::new(self.at, "a day, month or season needs one year"));
            }
            Some(Years::Decade(stem)) => return Ok(Shape::Decade { negative: false, stem }),
            Some(Years::Century(stem)) => return Ok(Shape::Century { negative: false, stem }),
        };
        match (self.month, self.season, self.small) {
            (None, None, None) => Ok(Shape::Year(year)),
            (Some(month), None, None) => Ok(Shape::Month { year, month }),
            (None, Some(season), None) => Ok(Shape::Season { year, season }),
            (Some(month), None, Some(day)) => {
                let length = days_in_month(year, month).unwrap_or(31);
                if (1..=length).contains(&day.value) {
                    return Ok(Shape::Day { year, month, day: day.value });
                }
                Err(Fault::no_such_day(day.at, year, month, length))
            }
            (None, None, Some(day)) => Err(Fault::new(day.at, "a day needs the name of its month")),
            (Some(_), Some(_), _) => Err(Fault::new(self.at, "expected a month or a season, not both")),
            (None, Some(_), Some(day)) => Err(Fault::new(day.at, "a season has no days")),
        }
    }
}

fn check_weekday(shape: Shape, weekday: Weekday, at: usize) -> Result<(), Fault> {
    let Shape::Day { year, month, day } = shape else {
        return Err(Fault::new(at, "a day of the week needs a whole date"));
    };
    match Day::from_ymd(year, month, day).map(Day::weekday) {
        Some(real) if real != weekday => {
            Err(Fault::new(at, format!("that day was a {real}, not a {weekday}"))
                .or_write(Date::from(shape.plain())))
        }
        _ => Ok(()),
    }
}

/// A date in the course of being read.
struct Reading<'a> {
    tokens: &'a [Token],
    next: usize,
    loose: Loose,
}

impl<'a> Reading<'a> {
    fn advance(&mut self) -> Option<&'a Token> {
        let token = self.tokens.get(self.next)?;
        self.next += 1;
        Some(token)
    }

    /// Steps over the next token if it is one of these words.
    fn skip_word(&mut self, wanted: &[&str]) -> bool {
        let next = self.tokens.get(self.next).and_then(Token::word);
        let found = next.is_some_and(|word| wanted.contains(&word));
        self.next += usize::from(found);
        found
    }

    /// Steps over an ending that stands right after a number, as in 1920s,
    /// 1920's, 14th.
    fn skip_ending(&mut self, wanted: &[&str]) -> bool {
        let mut place = self.next;
        if wanted == ["s"] && self.tokens.get(place).is_some_and(|token| token.is_sign('\'')) {
            place += 1;
        }
        let Some(token) = self.tokens.get(place).filter(|token| !token.spaced) else {
            return false;
        };
        let found = token.word().is_some_and(|word| wanted.contains(&word));
        if found {
            self.next = place + 1;
        }
        found
    }

    fn take(&mut self, token: &Token) -> Result<(), Fault> {
        if let Some(digits) = token.digits() {
            return self.take_number(digits, token.at);
        }
        if let Some(mark) = token.mark() {
            self.loose.mark = self.loose.mark.and(mark);
            return Ok(());
        }
        if let Some(word) = token.word() {
            return self.take_word(word, token.at);
        }
        let is_between = self.next > 1 && self.next < self.tokens.len();
        if token.is_sign(',') || token.is_sign('.') || (token.is_sign('-') && !token.spaced && is_between) {
            return Ok(());
        }
        if token.is_sign('\'') {
            return Err(Fault::new(token.at, "a year needs its century: four digits"));
        }
        Err(Fault::new(token.at, "expected a day, month or year"))
    }

    fn take_number(&mut self, digits: &str, at: usize) -> Result<(), Fault> {
        match digits.len() {
            1 | 2 => {
                // Two digits fit.
                let value = digits.parse().unwrap_or(u8::MAX);
                if digits.len() == 2 && self.skip_ending(&["xx"]) {
                    return self.set_years(Years::Century(value.into()), at);
                }
                self.take_small(Small { value, two_digits: digits.len() == 2, at })
            }
            3 if self.skip_ending(&["x"]) => self.set_years(Years::Decade(digits.parse().unwrap_or(0)), at),
            4 => {
                let year = digits.parse().unwrap_or(0);
                let years =
                    if self.skip_ending(&["s"]) { decade(year, at)? } else { Years::One(year.into()) };
                self.set_years(years, at)
            }
            8 => {
                let compact = format!("{}-{}-{}", &digits[..4], &digits[4..6], &digits[6..]);
                Err(Fault::new(at, "a date in digits alone needs its hyphens")
                    .or_write(super::strict::level_one(&compact)))
            }
            _ => Err(Fault::new(at, "expected a year of four digits")),
        }
    }

    fn take_small(&mut self, small: Small) -> Result<(), Fault> {
        if self.skip_ending(&["s"]) {
            let decade = Shape::Decade { negative: false, stem: 190 + u16::from(small.value / 10) };
            return Err(
                Fault::new(small.at, "a decade needs its century").or_write(Date::from(decade.plain()))
            );
        }
        let ordinal = self.skip_ending(&["st", "nd", "rd", "th"]);
        if self.skip_word(&["century", "cent"]) || (ordinal && self.skip_word(&["c"])) {
            return self.take_century(small.value, small.at);
        }
        if self.loose.small.replace(small).is_some() {
            return Err(Fault::new(small.at, "expected one day; a year has four digits"));
        }
        Ok(())
    }

    fn take_century(&mut self, number: u8, at: usize) -> Result<(), Fault> {
        if number == 0 {
            return Err(Fault::new(at, "centuries count from the 1st"));
        }
        self.set_years(Years::Century(u16::from(number) - 1), at)
    }

    fn take_word(&mut self, word: &str, at: usize) -> Result<(), Fault> {
        if let Some(month) = words::month(word) {
            return set(&mut self.loose.month, month, at, "expected one month only");
        }
        if let Some(season) = words::season(word) {
            return set(&mut self.loose.season, season, at, "expected one season only");
        }
        if let Some(weekday) = words::weekday(word) {
            return set(&mut self.loose.weekday, (weekday, at), at, "expected one day of the week only");
        }
        if let Some(third) = third::Third::from_word(word) {
            return set(&mut self.loose.third, (third, at), at, "expected one of early, mid and late");
        }
        if let Some(number) = words::ordinal(word) {
            return if self.skip_word(&["century", "cent"]) {
                self.take_century(number, at)
            } else {
                Err(Fault::new(at, format!("expected \"century\" after {word:?}")))
            };
        }
        if words::is_filler(word) {
            return Ok(());
        }
        if matches!(word, "unknown" | "undated") {
            return Err(Fault::new(at, "a date that nobody knows is left out"));
        }
        Err(Fault::new(at, format!("{word:?} is no word of a date; expected a day, month, season or year")))
    }

    fn set_years(&mut self, years: Years, at: usize) -> Result<(), Fault> {
        set(&mut self.loose.year, years, at, "expected one year only")
    }
}

/// Fills a place that may be filled once.
fn set<T>(place: &mut Option<T>, value: T, at: usize, otherwise: &str) -> Result<(), Fault> {
    match place.replace(value) {
        None => Ok(()),
        Some(_) => Err(Fault::new(at, otherwise)),
    }
}

/// The decade that begins with this year. The first decade of a century has
/// no name of its own: "the 1900s" are ten years to some and a hundred to
/// others.
fn decade(year: u16, at: usize) -> Result<Years, Fault> {
    let decade = Shape::Decade { negative: false, stem: year / 10 };
    let century = Shape::Century { negative: false, stem: year / 100 };
    if year.is_multiple_of(100) {
        return Err(Fault::new(at, format!("the {year}s can be ten years or a hundred"))
            .or_write(Date::from(decade.plain()))
            .or_write(Date::from(century.plain())));
    }
    if !year.is_multiple_of(10) {
        return Err(Fault::new(at, "a decade begins with a year in 0").or_write(Date::from(decade.plain())));
    }
    Ok(Years::Decade(year / 10))
}

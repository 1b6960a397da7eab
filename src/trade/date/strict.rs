//! Reads EDTF levels 0 and 1, character by character, in one pass without
//! turning back, so that a fault can name the character that did not fit.
//! Knows no other way of writing a date: that is `friendly`.

use super::clock::{Moment, Shift};
use super::day::{Day, days_in_month};
use super::error::Fault;
use super::level_two;
use super::mark::Mark;
use super::point::{Point, Shape};
use super::season::Season;
use super::span::{End, NoSpan, Span};
use super::{Date, Form};

/// No expression of levels 0 and 1 that we keep is longer.
const LONGEST: usize = 64;

/// Most digits in a long year: they fit an `i64` with room to calculate.
const LONG_YEAR_DIGITS: usize = 18;

/// Reads one expression.
pub(super) fn read(text: &str) -> Result<Date, Fault> {
    let chars: Vec<char> = text.chars().take(LONGEST + 1).collect();
    if chars.len() > LONGEST {
        return Err(Fault::new(LONGEST + 1, "longer than any date"));
    }
    if chars.is_empty() {
        return Err(Fault::new(1, "expected a date such as 1926-08-14 or 1926"));
    }
    expression(&chars).map_err(|fault| level_two::explain(&chars).unwrap_or(fault))
}

/// The date, if level 1 reads the text, without asking why not.
pub(super) fn level_one(text: &str) -> Option<Date> {
    let chars: Vec<char> = text.chars().take(LONGEST + 1).collect();
    if chars.is_empty() || chars.len() > LONGEST {
        return None;
    }
    expression(&chars).ok()
}

fn expression(chars: &[char]) -> Result<Date, Fault> {
    let Some(slash) = chars.iter().position(|&c| c == '/') else {
        return Reader::new(chars, 0, chars.len()).date_or_moment().map(Date);
    };
    let start = Reader::new(chars, 0, slash).end_of_span()?;
    let end = Reader::new(chars, slash + 1, chars.len()).end_of_span()?;
    // Counted from 1, the end begins two after the index of the slash.
    Span::new(start, end).map(Date::from).map_err(|reason| no_span(reason, start, end, slash + 2))
}

fn no_span(reason: NoSpan, start: End, end: End, at: usize) -> Fault {
    match reason {
        NoSpan::Empty => Fault::new(1, "a span needs a date at one end at least"),
        NoSpan::Backwards => {
            Fault::new(at, format!("the span ends with {end}, before it starts with {start}"))
                .or_write(Span::new(end, start).ok().map(Date::from))
        }
        NoSpan::OpenDigits(start, end) => {
            Fault::new(1, "an X at the end of a span is EDTF level 2; level 1 is kept here")
                .or_write(Span::new(start, end).ok().map(Date::from))
        }
    }
}

/// A two-digit part of a date.
enum Pair {
    Number(u8),
    Open,
}

/// A place in the text and the end of the part that is being read.
struct Reader<'a> {
    chars: &'a [char],
    at: usize,
    end: usize,
}

impl<'a> Reader<'a> {
    fn new(chars: &'a [char], at: usize, end: usize) -> Self {
        Reader { chars, at, end }
    }

    fn peek(&self) -> Option<char> {
        self.chars[..self.end].get(self.at).copied()
    }

    fn take(&mut self, wanted: char) -> bool {
        let found = self.peek() == Some(wanted);
        self.at += usize::from(found);
        found
    }

    /// A fault at the next character.
    fn fault(&self, what: impl Into<String>) -> Fault {
        Fault::new(self.at + 1, what)
    }

    /// A fault at the next character, which is named after `expected`.
    fn unexpected(&self, expected: &str) -> Fault {
        match self.peek() {
            Some(found) => self.fault(format!("expected {expected}, found {found:?}")),
            None => self.fault(format!("expected {expected}")),
        }
    }

    fn finish(&self) -> Result<(), Fault> {
        match self.peek() {
            None => Ok(()),
            Some('/') => Err(self.fault("a span has one slash only")),
            Some('T') => Err(self.fault("a time of day follows a whole date only")),
            Some(_) => Err(self.unexpected("the end of the date")),
        }
    }

    fn end_of_span(&mut self) -> Result<End, Fault> {
        if self.at == self.end {
            return Ok(End::Unknown);
        }
        if self.take('.') {
            if !self.take('.') {
                return Err(self.unexpected("two dots for an open end"));
            }
            self.finish()?;
            return Ok(End::Open);
        }
        let point = self.point()?;
        if self.peek() == Some('T') {
            return Err(self.fault("a span has no time of day"));
        }
        self.finish()?;
        Ok(End::At(point))
    }

    fn date_or_moment(&mut self) -> Result<Form, Fault> {
        let point = self.point()?;
        let form = match point.shape {
            Shape::Day { year, month, day } if point.mark == Mark::default() && self.take('T') => {
                // The shape has been checked to be a day of the calendar.
                let day = Day::from_ymd(year, month, day).unwrap_or(point.first_day());
                Form::Moment(self.time_of(day)?)
            }
            _ => Form::Point(point),
        };
        self.finish()?;
        Ok(form)
    }

    fn point(&mut self) -> Result<Point, Fault> {
        let shape = if self.take('Y') { self.long_year()? } else { self.calendar_date()? };
        let mark = self.peek().and_then(Mark::from_sign);
        self.at += usize::from(mark.is_some());
        Ok(shape.marked(mark.unwrap_or_default()))
    }

    /// After the `Y`: five digits or more.
    fn long_year(&mut self) -> Result<Shape, Fault> {
        let first = self.at;
        let negative = self.take('-');
        let digits = self.digits();
        if digits.is_empty() {
            return Err(self.unexpected("the digits of a year"));
        }
        if digits.len() > LONG_YEAR_DIGITS {
            return Err(self.fault(format!("a year of more than {LONG_YEAR_DIGITS} digits is not kept")));
        }
        let size = number(digits);
        let year = if negative { -size } else { size };
        if size <= 9999 || digits[0] == '0' {
            return Err(Fault::new(
                first + 1,
                "Y is for years of more than four digits, without leading zeros",
            )
            .or_write(Date::from(Shape::Year(year).plain())));
        }
        Ok(Shape::Year(year))
    }

    fn calendar_date(&mut self) -> Result<Shape, Fault> {
        let start = self.at;
        let negative = self.take('-');
        let digits = self.digits();
        let open = self.open_digits();
        match (digits.len(), open) {
            (4, 0) => {}
            // At most three known digits fit a `u16`.
            (3, 1) => {
                let stem = number(digits) as u16;
                return Ok(Shape::Decade { negative, stem });
            }
            (2, 2) => {
                let stem = number(digits) as u16;
                return Ok(Shape::Century { negative, stem });
            }
            (known, open) if known + open < 4 => {
                return Err(self.unexpected("a year of four digits"));
            }
            (_, 0) => {
                return Err(Fault::new(start + 1, "a year has four digits; a longer one begins with Y"));
            }
            _ => {
                return Err(Fault::new(
                    start + 1,
                    "a year has four digits, of which the last or the last two may be X",
                ));
            }
        }
        let size = number(digits);
        if negative && size == 0 {
            return Err(
                Fault::new(start + 1, "the year 0 has no sign").or_write(Date::from(Shape::Year(0).plain()))
            );
        }
        let year = if negative { -size } else { size };
        if self.take('-') { self.month_and_day(year) } else { Ok(Shape::Year(year)) }
    }

    fn month_and_day(&mut self, year: i64) -> Result<Shape, Fault> {
        let start = self.at;
        let month = match self.pair("a month of two digits")? {
            Pair::Open if self.take('-') => {
                return match self.pair("a day of two digits")? {
                    Pair::Open => Ok(Shape::SomeDayOfYear { year }),
                    Pair::Number(_) => {
                        self.at -= 2;
                        Err(self.unexpected("XX, since the month is open"))
                    }
                };
            }
            Pair::Open => return Ok(Shape::SomeMonth { year }),
            Pair::Number(code) => {
                if let Some(season) = Season::from_code(code) {
                    if self.peek() == Some('-') {
                        return Err(self
                            .fault(format!("{code} is the season {}, which has no days", season.name()))
                            .or_write(Date::from(Shape::Season { year, season }.plain())));
                    }
                    return Ok(Shape::Season { year, season });
                }
                if !(1..=12).contains(&code) {
                    let nearest = Shape::Month { year, month: code.clamp(1, 12) };
                    return Err(Fault::new(
                        start + 1,
                        format!(
                            "month {code:02} does not exist, expected 01–12 \
                             or a season 21–24"
                        ),
                    )
                    .or_write(Date::from(nearest.plain())));
                }
                code
            }
        };
        if !self.take('-') {
            return Ok(Shape::Month { year, month });
        }
        let start = self.at;
        match self.pair("a day of two digits")? {
            Pair::Open => Ok(Shape::SomeDay { year, month }),
            Pair::Number(day) => {
                // The month was checked above.
                let length = days_in_month(year, month).unwrap_or(31);
                if (1..=length).contains(&day) {
                    return Ok(Shape::Day { year, month, day });
                }
                Err(Fault::no_such_day(start + 1, year, month, length))
            }
        }
    }

    /// After the `T`: `hh:mm:ss` and perhaps a shift from UTC.
    fn time_of(&mut self, day: Day) -> Result<Moment, Fault> {
        let hour = self.clock_part("an hour of two digits", 23)?;
        self.colon()?;
        let minute = self.clock_part("minutes of two digits", 59)?;
        self.colon()?;
        // A leap second is the sixty-first of its minute.
        let second = self.clock_part("seconds of two digits", if minute == 59 { 60 } else { 59 })?;
        let shift = match self.peek() {
            Some('Z') => {
                self.at += 1;
                Some(Shift::Utc)
            }
            Some(sign @ ('+' | '-')) => {
                let start = self.at;
                self.at += 1;
                let behind = sign == '-';
                let hours = self.clock_part("a time shift of two-digit hours", 23)?;
                let minutes = if self.take(':') {
                    Some(self.clock_part("a time shift's minutes of two digits", 59)?)
                } else {
                    None
                };
                if behind && hours == 0 && minutes.unwrap_or(0) == 0 {
                    return Err(Fault::new(start + 1, "a time shift of nothing is +00 or Z"));
                }
                Some(Shift::By { behind, hours, minutes })
            }
            _ => None,
        };
        Ok(Moment { day, hour, minute, second, shift })
    }

    fn colon(&mut self) -> Result<(), Fault> {
        if self.take(':') { Ok(()) } else { Err(self.unexpected("a colon; a time of day is hh:mm:ss")) }
    }

    fn clock_part(&mut self, expected: &str, most: u8) -> Result<u8, Fault> {
        let start = self.at;
        match self.pair(expected)? {
            Pair::Number(value) if value <= most => Ok(value),
            _ => Err(Fault::new(start + 1, format!("expected {expected}, 00–{most}"))),
        }
    }

    /// Two digits, or `XX`.
    fn pair(&mut self, expected: &str) -> Result<Pair, Fault> {
        if self.take('X') {
            return if self.take('X') { Ok(Pair::Open) } else { Err(self.unexpected(expected)) };
        }
        let mut value = 0;
        for _ in 0..2 {
            let Some(digit) = self.peek().and_then(|c| c.to_digit(10)) else {
                return Err(self.unexpected(expected));
            };
            // A decimal digit fits, and so do two.
            value = value * 10 + digit as u8;
            self.at += 1;
        }
        Ok(Pair::Number(value))
    }

    fn digits(&mut self) -> &'a [char] {
        let start = self.at;
        while self.peek().is_some_and(|c| c.is_ascii_digit()) {
            self.at += 1;
        }
        &self.chars[start..self.at]
    }

    fn open_digits(&mut self) -> usize {
        let start = self.at;
        while self.take('X') {}
        self.at - start
    }
}

/// The value of at most [`LONG_YEAR_DIGITS`] digits.
fn number(digits: &[char]) -> i64 {
    digits.iter().filter_map(|c| c.to_digit(10)).fold(0, |value, digit| value * 10 + i64::from(digit))
}

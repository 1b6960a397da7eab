//! What people type, turned into EDTF: "14 Aug 1926", "c. 1924–26", "summer
//! 1926", "before 1931". Strict EDTF is tried first and wins, so `1924-21` is
//! a spring and `1909-12` a December; with a long dash, `1909–12` is a span.
//! `1924-26`, which is no month of EDTF, is a span as well.
//!
//! The idea: a text is cut into tokens; the words around a date ("before",
//! "between … and …", "to") make a span or an open end; what is left is read
//! as one [`Loose`] date in any order. Anything not understood is refused at
//! its place: nothing is skipped or guessed.
//!
//! Four readings that are ours: "before" and "after" a year include it, as an
//! EDTF interval does; the 19th century is 18XX, the hundred years that begin
//! with 18; a mark before a span ("c. 1924–26") is on both ends, a mark after
//! an end on that end, or on both where the end is no date by itself; and two
//! things that can be read in two ways (14/08/1926, the 1900s) are refused
//! with both.

use super::error::Fault;
use super::loose::{Loose, Small, Years};
use super::mark::Mark;
use super::point::{Point, Shape};
use super::season::Season;
use super::span::{End, NoSpan, Span};
use super::words::{self, Kind, Token};
use super::{Date, DateError, Form, strict};

/// No date that people type is longer.
const LONGEST: usize = 100;

/// Reads a date as people type it: any EDTF of level 0 or 1, or English words
/// and numbers in the usual orders. Case and spaces are free.
///
/// ```
/// use shirr::trade::date::read_friendly;
///
/// for (typed, kept) in [
///     ("14th August 1926", "1926-08-14"),
///     ("c. 1924-26", "1924~/1926~"),
///     ("the 1920s", "192X"),
///     ("before 1931", "../1931"),
/// ] {
///     assert_eq!(read_friendly(typed).map(|date| date.to_string()), Ok(kept.to_owned()));
/// }
/// ```
///
/// # Errors
///
/// Says which character was not understood and what was expected there, with
/// the nearest date that would be, where one can be told.
pub fn read_friendly(text: &str) -> Result<Date, DateError> {
    let text = text.trim();
    let fault = match strict::read(text) {
        Ok(date) => return Ok(date),
        Err(fault) => fault,
    };
    read(text).map_err(|other| DateError::new(text, likelier(text, fault, other)))
}

/// Adds to a fault of strict EDTF what the text means to a person.
pub(super) fn suggest(text: &str, mut fault: Fault) -> Fault {
    match read(text.trim()) {
        Ok(date) => {
            fault.nearest.retain(|nearest| *nearest != date);
            fault.nearest.insert(0, date);
            fault
        }
        Err(other) => likelier(text, fault, other),
    }
}

/// Of two faults of one text, the one that helps: it knows a remedy, or it
/// comes from the grammar in which the text seems to be written.
fn likelier(text: &str, strict: Fault, friendly: Fault) -> Fault {
    let is_edtf = |c: char| c.is_ascii_digit() || "-/.:?~%+XYTZES[]{},".contains(c);
    match (strict.nearest.is_empty(), friendly.nearest.is_empty()) {
        (false, _) => strict,
        (true, false) => friendly,
        (true, true) if text.chars().all(is_edtf) => strict,
        (true, true) => friendly,
    }
}

fn read(text: &str) -> Result<Date, Fault> {
    if text.chars().nth(LONGEST).is_some() {
        return Err(Fault::new(LONGEST + 1, "longer than any date"));
    }
    let sides: Vec<&str> = text.split('/').map(str::trim).collect();
    if let Some(date) = strict::level_one(&sides.join("/").to_uppercase()) {
        return Ok(date);
    }
    let tokens = words::tokens(text)?;
    expression(&tokens)
        .map_err(|fault| if fault.nearest.is_empty() { fault.or_write(respelt(&tokens)) } else { fault })
}

/// The date that it would be if each misspelt word were its neighbour.
fn respelt(tokens: &[Token]) -> Option<Date> {
    let mut tokens = tokens.to_vec();
    for token in &mut tokens {
        if let Some(known) =
            token.word().filter(|word| words::month(word).is_none()).and_then(words::nearest_word)
        {
            token.kind = Kind::Word(known.to_owned());
        }
    }
    expression(&tokens).ok()
}

/// A whole text: perhaps a mark, then a span, an open span or one date.
fn expression(tokens: &[Token]) -> Result<Date, Fault> {
    let (mark, tokens) = leading_mark(tokens);
    if tokens.is_empty() {
        return Err(Fault::new(1, "expected a date such as 14 Aug 1926, c. 1926 or 1924–26"));
    }
    if let Some(rest) = after_words(tokens, &[&["between"]]) {
        let (left, right) = halves(rest, &["and", "to"])
            .or_else(|| joint(rest))
            .or_else(|| hyphen(rest))
            .ok_or_else(|| Fault::new(words::end_of(rest), "expected \"and\" and a second date"))?;
        return span(left, right, mark);
    }
    if let Some(rest) = after_words(tokens, &[&["from"], &["since"]]) {
        return match joint(rest) {
            Some((left, right)) => span(left, right, mark),
            None => open_end(rest, mark, false).or_else(|fault| match hyphen(rest) {
                Some((left, right)) if fault.nearest.is_empty() => span(left, right, mark),
                _ => Err(fault),
            }),
        };
    }
    if let Some(rest) = after_words(tokens, &[&["after"], &["post"]]) {
        return open_end(rest, mark, true);
    }
    if let Some(rest) = after_words(tokens, &[&["before"], &["pre"]]) {
        return open_start(rest, mark, true);
    }
    if let Some(rest) = after_words(tokens, &[&["up", "to"], &["until"], &["till"], &["by"], &["to"]]) {
        return open_start(rest, mark, false);
    }
    if let Some(rest) = before_words(
        tokens,
        &[&["onwards"], &["onward"], &["on"], &["or", "later"], &["and", "later"], &["or", "after"]],
    ) {
        return open_end(rest, mark, false);
    }
    if let Some(rest) = before_words(tokens, &[&["or", "earlier"], &["and", "earlier"], &["or", "before"]]) {
        return open_start(rest, mark, false);
    }
    date_or_span(tokens, mark)
}

fn date_or_span(tokens: &[Token], mark: Mark) -> Result<Date, Fault> {
    if let Some((left, right)) = halves(tokens, &["and", "or"]) {
        let at = right.first().map_or(1, |token| token.at);
        return Err(
            Fault::new(at, "expected one date, or a span of dates").or_write(span(left, right, mark).ok())
        );
    }
    if let Some(point) = winter(tokens) {
        return Ok(with(point, mark).into());
    }
    if super::numbers::read(tokens).is_none()
        && let Some((left, right)) = joint(tokens)
    {
        return span(left, right, mark);
    }
    let single = Loose::read(tokens).and_then(|loose| loose.point());
    let fault = match single {
        Ok(point) => return Ok(with(point, mark).into()),
        Err(fault) => fault,
    };
    match hyphen(tokens) {
        Some((left, right)) if fault.nearest.is_empty() => span(left, right, mark),
        _ => Err(fault),
    }
}

/// "c.", "about", "maybe", "the" and the like at the front.
fn leading_mark(tokens: &[Token]) -> (Mark, &[Token]) {
    let mut mark = Mark::default();
    let mut place = 0;
    while let Some(token) = tokens.get(place) {
        let is_filler = token.word().is_some_and(words::is_filler);
        let is_point = place > 0 && token.is_sign('.');
        match token.mark() {
            Some(found) => mark = mark.and(found),
            None if is_filler || is_point => {}
            None => break,
        }
        place += 1;
    }
    (mark, &tokens[place..])
}

/// What follows one of these phrases, and a hyphen after it as in "pre-1931".
fn after_words<'a>(tokens: &'a [Token], phrases: &[&[&str]]) -> Option<&'a [Token]> {
    let fits = |phrase: &&&[&str]| says(tokens, phrase);
    let rest = &tokens[phrases.iter().find(fits)?.len()..];
    match rest.split_first() {
        Some((hyphen, rest)) if hyphen.is_sign('-') => Some(rest),
        _ => Some(rest),
    }
}

/// What stands before one of these phrases at the end.
fn before_words<'a>(tokens: &'a [Token], phrases: &[&[&str]]) -> Option<&'a [Token]> {
    phrases.iter().find_map(|phrase| {
        let cut = tokens.len().checked_sub(phrase.len()).filter(|cut| *cut > 0)?;
        says(&tokens[cut..], phrase).then_some(&tokens[..cut])
    })
}

fn says(tokens: &[Token], phrase: &[&str]) -> bool {
    tokens.len() >= phrase.len() && tokens.iter().zip(phrase).all(|(token, word)| token.word() == Some(*word))
}

/// The tokens on both sides of the first of these words.
fn halves<'a>(tokens: &'a [Token], wanted: &[&str]) -> Option<(&'a [Token], &'a [Token])> {
    let place = tokens.iter().position(|token| token.word().is_some_and(|word| wanted.contains(&word)))?;
    both(tokens, place)
}

/// The tokens on both sides of what joins two dates to a span, in the order
/// of how surely it does.
fn joint(tokens: &[Token]) -> Option<(&[Token], &[Token])> {
    let spaced_hyphen = |place: usize| {
        tokens[place].is_sign('-')
            && tokens[place].spaced
            && tokens.get(place + 1).is_some_and(|next| next.spaced)
    };
    let find = |is_it: &dyn Fn(usize) -> bool| (0..tokens.len()).find(|place| is_it(*place));
    halves(tokens, &["to", "until", "till", "through", "thru"])
        .or_else(|| both(tokens, find(&|place| tokens[place].is_sign('–'))?))
        .or_else(|| both(tokens, find(&spaced_hyphen)?))
        .or_else(|| both(tokens, find(&|place| tokens[place].is_sign('/'))?))
}

/// The tokens on both sides of the only hyphen. Without spaces it parts
/// "14-aug-1926" and joins "1924-26": to be asked when the first has failed.
fn hyphen(tokens: &[Token]) -> Option<(&[Token], &[Token])> {
    let mut hyphens = (0..tokens.len()).filter(|place| tokens[*place].is_sign('-'));
    match (hyphens.next(), hyphens.next()) {
        (Some(place), None) => both(tokens, place),
        _ => None,
    }
}

fn both(tokens: &[Token], place: usize) -> Option<(&[Token], &[Token])> {
    (place > 0 && place + 1 < tokens.len()).then(|| (&tokens[..place], &tokens[place + 1..]))
}

/// "winter 1926-27": one winter, which EDTF files under its first year.
fn winter(tokens: &[Token]) -> Option<Point> {
    let [before @ .., year, sign, next] = tokens else {
        return None;
    };
    let joins = ['-', '–', '/'].into_iter().any(|joint| sign.is_sign(joint));
    let is_winter = before.iter().any(|t| t.word().and_then(words::season) == Some(Season::Winter));
    let first: i64 = year.digits().filter(|digits| digits.len() == 4)?.parse().ok()?;
    let second: i64 = next.digits()?.parse().ok()?;
    // As many digits of the next year as are written.
    let width = 10_i64.checked_pow(u32::try_from(next.digits()?.len()).ok()?)?;
    let follows = second == (first + 1) % width;
    let point = Loose::read(&tokens[..tokens.len() - 2]).and_then(|loose| loose.point()).ok()?;
    (joins && is_winter && follows).then_some(point)
}

fn span(left: &[Token], right: &[Token], mark: Mark) -> Result<Date, Fault> {
    let (front, left) = leading_mark(left);
    let at = right.first().map_or(1, |token| token.at);
    let (mut start, mut end) = match (Loose::read(left), Loose::read(right)) {
        (Ok(start), Ok(end)) => (start, end),
        (start, end) => {
            let point = |read: Result<Loose, Fault>| read.and_then(|loose| loose.point());
            return ends(point(start), point(end), mark, at);
        }
    };
    start.mark = start.mark.and(front);
    if let (true, Some(Years::One(year)), Some(small)) = (end.is_small_only(), start.year, end.small)
        && start.month.is_none()
        && start.season.is_none()
    {
        end.year = Some(Years::One(later_year(year, small)?));
        end.small = None;
        start.mark = start.mark.and(end.mark);
        end.mark = start.mark;
    }
    start.complete_from(&end);
    end.complete_from(&start);
    ends(start.point(), end.point(), mark, at)
}

/// The span from one end to the other, or the fault of one of them, with the
/// span as a remedy where it is clear what both ends mean.
fn ends(
    start: Result<Point, Fault>,
    end: Result<Point, Fault>,
    mark: Mark,
    at: usize,
) -> Result<Date, Fault> {
    let nearest = meant(&start)
        .zip(meant(&end))
        .and_then(|((first, _), (_, last))| closed_span(marked(first, mark), marked(last, mark), at).ok());
    match (start, end) {
        (Ok(start), Ok(end)) => closed_span(End::At(with(start, mark)), End::At(with(end, mark)), at),
        (Err(fault), _) | (_, Err(fault)) => Err(Fault { nearest: Vec::new(), ..fault }.or_write(nearest)),
    }
}

/// The ends of what was read, or of the one date that may have been meant.
fn meant(read: &Result<Point, Fault>) -> Option<(End, End)> {
    match read {
        Ok(point) => Some((End::At(*point), End::At(*point))),
        Err(fault) => match fault.nearest[..] {
            [Date(Form::Point(point))] => Some((End::At(point), End::At(point))),
            [Date(Form::Span(span))] => Some((span.start(), span.end())),
            _ => None,
        },
    }
}

/// The end of "1924–26": the year with these last digits, after the first.
fn later_year(first: i64, small: Small) -> Result<i64, Fault> {
    let width = if small.two_digits { 100 } else { 10 };
    let year = first - first % width + i64::from(small.value);
    if small.two_digits && year > first {
        return Ok(year);
    }
    let later = if year > first { year } else { year + width };
    let month = Shape::Month { year: first, month: small.value }.plain();
    let month = (1..=12).contains(&small.value).then(|| Date::from(month));
    let years = [first, later].map(|year| End::At(Shape::Year(year).plain()));
    let span = Span::new(years[0], years[1]).ok().map(Date::from);
    Err(Fault::new(small.at, "expected a later year, of two digits or four").or_write(month).or_write(span))
}

fn open_end(tokens: &[Token], mark: Mark, excludes: bool) -> Result<Date, Fault> {
    let read = Loose::read(tokens).and_then(|loose| loose.point());
    let start = meant(&read).map(|(start, _)| marked(start, mark));
    let point = read.map_err(|fault| instead(fault, start.unwrap_or(End::Open), End::Open))?;
    if excludes && point.shape.has_open_digits() {
        let next = Shape::Year(point.shape.years().1 + 1).marked(point.mark.and(mark));
        return Err(refuse_outside(tokens, "from", End::At(next), End::Open));
    }
    closed_span(End::At(with(point, mark)), End::Open, 1)
}

fn open_start(tokens: &[Token], mark: Mark, excludes: bool) -> Result<Date, Fault> {
    let read = Loose::read(tokens).and_then(|loose| loose.point());
    let end = meant(&read).map(|(_, end)| marked(end, mark));
    let point = read.map_err(|fault| instead(fault, End::Open, end.unwrap_or(End::Open)))?;
    if excludes && point.shape.has_open_digits() {
        let last = Shape::Year(point.shape.years().0 - 1).marked(point.mark.and(mark));
        return Err(refuse_outside(tokens, "until", End::Open, End::At(last)));
    }
    closed_span(End::Open, End::At(with(point, mark)), 1)
}

/// A fault of one end with the remedy for the whole span.
fn instead(fault: Fault, start: End, end: End) -> Fault {
    Fault { nearest: Vec::new(), ..fault }.or_write(Span::new(start, end).ok().map(Date::from))
}

/// "Before the 1920s": an EDTF interval includes its end, and a decade is too
/// long to be included without asking.
fn refuse_outside(tokens: &[Token], word: &str, start: End, end: End) -> Fault {
    let at = tokens.first().map_or(1, |token| token.at);
    Fault::new(at, format!("a span includes its ends; expected \"{word}\" a year"))
        .or_write(Span::new(start, end).ok().map(Date::from))
}

/// A span whose ends may have open digits, which are then closed: "1920s to
/// 1940s" is 1920/1949.
fn closed_span(start: End, end: End, at: usize) -> Result<Date, Fault> {
    let span = match Span::new(start, end) {
        Err(NoSpan::OpenDigits(start, end)) => Span::new(start, end),
        other => other,
    };
    span.map(Date::from).map_err(|_| {
        Fault::new(at, format!("the span ends with {end}, before it starts with {start}"))
            .or_write(Span::new(end, start).ok().map(Date::from))
    })
}

fn marked(end: End, mark: Mark) -> End {
    end.point().map_or(end, |point| End::At(with(point, mark)))
}

fn with(point: Point, mark: Mark) -> Point {
    point.shape.marked(point.mark.and(mark))
}

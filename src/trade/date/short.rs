//! A date in a few words, for cards and column heads. One way only: what is
//! stored is EDTF.

use super::Form;
use super::mark::Mark;
use super::point::{Point, Shape};
use super::span::{End, Span};

const MONTHS: [&str; 12] =
    ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"];

pub(super) fn short(form: Form) -> String {
    match form {
        Form::Point(point) => of_point(point),
        Form::Moment(moment) => {
            let (year, month, day) = moment.day.ymd();
            of_shape(Shape::Day { year, month, day })
        }
        Form::Span(span) => of_span(span),
    }
}

fn of_point(point: Point) -> String {
    marked(&of_shape(point.shape), point.mark)
}

fn marked(text: &str, mark: Mark) -> String {
    let before = if mark.approximate { "c. " } else { "" };
    let after = if mark.uncertain { "?" } else { "" };
    format!("{before}{text}{after}")
}

fn of_shape(shape: Shape) -> String {
    match shape {
        Shape::Year(_) => shape.plain().to_string(),
        Shape::Decade { negative: false, stem } => format!("{stem:03}0s"),
        Shape::Century { negative: false, stem } => {
            let century = stem + 1;
            format!("{century}{} c.", ordinal_ending(century))
        }
        // Before the year 0 there is no word that everybody reads alike.
        Shape::Decade { .. } | Shape::Century { .. } => shape.plain().to_string(),
        Shape::Season { year, season } => format!("{} {}", season.name(), of_year(year)),
        Shape::Month { year, month } | Shape::SomeDay { year, month } => {
            format!("{} {}", month_name(month), of_year(year))
        }
        Shape::Day { year, month, day } => {
            format!("{day} {} {}", month_name(month), of_year(year))
        }
        Shape::SomeMonth { year } | Shape::SomeDayOfYear { year } => of_year(year),
    }
}

fn of_span(span: Span) -> String {
    match (span.start(), span.end()) {
        (End::At(start), End::At(end)) => between(start, end),
        (End::At(start), End::Open) => format!("from {}", of_point(start)),
        (End::Open, End::At(end)) => format!("before {}", of_point(end)),
        (End::At(start), _) => format!("{} – ?", of_point(start)),
        (_, End::At(end)) => format!("? – {}", of_point(end)),
        // A span has a date at one end at least.
        _ => String::new(),
    }
}

/// Says once what both ends have in common, where they are marked alike.
fn between(start: Point, end: Point) -> String {
    let joined = if start.mark == end.mark { join(start.shape, end.shape) } else { None };
    match joined {
        Some(text) => marked(&text, start.mark),
        None => format!("{} – {}", of_point(start), of_point(end)),
    }
}

fn join(start: Shape, end: Shape) -> Option<String> {
    match (start, end) {
        (Shape::Year(from), Shape::Year(to)) if (1000..=9999).contains(&from) && from < to => {
            if from / 100 == to / 100 {
                Some(format!("{from}–{:02}", to % 100))
            } else {
                Some(format!("{from}–{to}"))
            }
        }
        (Shape::Month { year, month }, Shape::Month { year: end_year, month: end_month })
            if year == end_year =>
        {
            Some(format!("{}–{} {}", month_name(month), month_name(end_month), of_year(year)))
        }
        (Shape::Day { year, month, day }, Shape::Day { year: end_year, month: end_month, day: end_day })
            if (year, month) == (end_year, end_month) =>
        {
            Some(format!("{day}–{end_day} {} {}", month_name(month), of_year(year)))
        }
        (Shape::Day { year, month, day }, Shape::Day { year: end_year, .. }) if year == end_year => {
            Some(format!("{day} {} – {}", month_name(month), of_shape(end)))
        }
        (Shape::Season { year, season }, Shape::Season { year: end_year, .. }) if year == end_year => {
            Some(format!("{}–{}", season.name(), of_shape(end)))
        }
        _ => None,
    }
}

fn of_year(year: i64) -> String {
    Shape::Year(year).plain().to_string()
}

fn month_name(month: u8) -> &'static str {
    MONTHS.get(usize::from(month).wrapping_sub(1)).copied().unwrap_or("?")
}

fn ordinal_ending(number: u16) -> &'static str {
    match (number % 100, number % 10) {
        (11..=13, _) => "th",
        (_, 1) => "st",
        (_, 2) => "nd",
        (_, 3) => "rd",
        _ => "th",
    }
}

#[cfg(test)]
mod tests {
    use super::super::Date;

    #[test]
    fn dates_read_as_on_a_card() {
        for (edtf, card) in [
            ("1926-08-14", "14 Aug 1926"),
            ("1926-08-04T09:30:00", "4 Aug 1926"),
            ("1926-08", "Aug 1926"),
            ("1926-08-XX", "Aug 1926"),
            ("1926", "1926"),
            ("1926-XX", "1926"),
            ("1926~", "c. 1926"),
            ("1926-08~", "c. Aug 1926"),
            ("1926?", "1926?"),
            ("1926%", "c. 1926?"),
            ("192X", "1920s"),
            ("192X~", "c. 1920s"),
            ("18XX", "19th c."),
            ("20XX", "21st c."),
            ("10XX", "11th c."),
            ("1926-21", "spring 1926"),
            ("1926-24", "winter 1926"),
            ("-1985", "-1985"),
            ("0045", "0045"),
            ("Y170000002", "Y170000002"),
        ] {
            assert_eq!(edtf.parse::<Date>().unwrap().short(), card, "{edtf}");
        }
    }

    #[test]
    fn spans_say_once_what_both_ends_share() {
        for (edtf, card) in [
            ("1924/1926", "1924–26"),
            ("1901/1909", "1901–09"),
            ("1898/1902", "1898–1902"),
            ("1924~/1926~", "c. 1924–26"),
            ("1924/1926~", "1924 – c. 1926"),
            ("1924?/1926?", "1924–26?"),
            ("1926-08/1926-10", "Aug–Oct 1926"),
            ("1924-08/1926-03", "Aug 1924 – Mar 1926"),
            ("1926-08-14/1926-08-16", "14–16 Aug 1926"),
            ("1926-08-14/1926-09-02", "14 Aug – 2 Sep 1926"),
            ("../1931", "before 1931"),
            ("1931/..", "from 1931"),
            ("/1931", "? – 1931"),
            ("1931/", "1931 – ?"),
            ("1926/1926", "1926 – 1926"),
            ("1926-21/1926-22", "spring–summer 1926"),
            ("1926-22/1927-21", "summer 1926 – spring 1927"),
        ] {
            assert_eq!(edtf.parse::<Date>().unwrap().short(), card, "{edtf}");
        }
    }
}

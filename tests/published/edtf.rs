//! Library of Congress, "Extended Date/Time Format (EDTF) Specification",
//! 4 February 2019, <https://www.loc.gov/standards/datetime/>: every example
//! of levels 0 and 1 is read, printed back and has the bounds that its
//! explanation there implies; every example of level 2 that is not also one
//! of level 1 is refused as such.
//!
//! The specification gives no day bounds. They follow from its words (a month
//! has its days, an interval reaches from its start to its end), but for the
//! season, whose three months are our reading.

use shirr::trade::date::{Date, Day, Precision};

/// An example with its first and last day; `-` where it has none.
type Example = (&'static str, &'static str, &'static str);

fn holds(examples: &[Example]) {
    for (text, first, last) in examples {
        let date = date(text);
        assert_eq!(date.to_string(), *text);
        assert_eq!(shown(date.earliest()), *first, "first day of {text}");
        assert_eq!(shown(date.latest()), *last, "last day of {text}");
    }
}

fn shown(day: Option<Day>) -> String {
    day.map_or_else(|| "-".to_owned(), |day| day.to_string())
}

fn date(text: &str) -> Date {
    match text.parse() {
        Ok(date) => date,
        Err(error) => panic!("{error}"),
    }
}

/// "Level 0", "Date", examples 1 to 3.
#[test]
fn level_0_dates() {
    holds(&[
        ("1985-04-12", "1985-04-12", "1985-04-12"),
        ("1985-04", "1985-04-01", "1985-04-30"),
        ("1985", "1985-01-01", "1985-12-31"),
    ]);
    assert_eq!(date("1985-04-12").precision(), Precision::Day);
    assert_eq!(date("1985-04").precision(), Precision::Month);
    assert_eq!(date("1985").precision(), Precision::Year);
}

/// "Level 0", "Date and Time", examples 1 to 4.
#[test]
fn level_0_dates_with_a_time() {
    holds(&[
        ("1985-04-12T23:20:30", "1985-04-12", "1985-04-12"),
        ("1985-04-12T23:20:30Z", "1985-04-12", "1985-04-12"),
        ("1985-04-12T23:20:30-04", "1985-04-12", "1985-04-12"),
        ("1985-04-12T23:20:30+04:30", "1985-04-12", "1985-04-12"),
    ]);
}

/// "Level 0", "Time Interval", examples 1 to 6.
#[test]
fn level_0_intervals() {
    holds(&[
        ("1964/2008", "1964-01-01", "2008-12-31"),
        ("2004-06/2006-08", "2004-06-01", "2006-08-31"),
        ("2004-02-01/2005-02-08", "2004-02-01", "2005-02-08"),
        ("2004-02-01/2005-02", "2004-02-01", "2005-02-28"),
        ("2004-02-01/2005", "2004-02-01", "2005-12-31"),
        ("2005/2006-02", "2005-01-01", "2006-02-28"),
    ]);
}

/// "Level 1", "Letter-prefixed calendar year", examples 1 and 2.
#[test]
fn level_1_long_years() {
    holds(&[
        ("Y170000002", "170000002-01-01", "170000002-12-31"),
        ("Y-170000002", "-170000002-01-01", "-170000002-12-31"),
    ]);
}

/// "Level 1", "Seasons", the example and the other three codes. The months
/// are our reading: the specification leaves them open.
#[test]
fn level_1_seasons() {
    holds(&[
        ("2001-21", "2001-03-01", "2001-05-31"),
        ("2001-22", "2001-06-01", "2001-08-31"),
        ("2001-23", "2001-09-01", "2001-11-30"),
        ("2001-24", "2001-12-01", "2002-02-28"),
    ]);
    assert_eq!(date("2001-21").short(), "spring 2001");
    assert_eq!(date("2001-24").short(), "winter 2001");
}

/// "Level 1", "Qualification of a date (complete)", examples 1 to 3.
#[test]
fn level_1_marks() {
    holds(&[
        ("1984?", "1984-01-01", "1984-12-31"),
        ("2004-06~", "2004-06-01", "2004-06-30"),
        ("2004-06-11%", "2004-06-11", "2004-06-11"),
    ]);
    for (text, uncertain, approximate) in [
        ("1984?", true, false),
        ("2004-06~", false, true),
        ("2004-06-11%", true, true),
        ("1985-04-12", false, false),
    ] {
        assert_eq!(date(text).is_uncertain(), uncertain, "{text}");
        assert_eq!(date(text).is_approximate(), approximate, "{text}");
    }
}

/// "Level 1", "Unspecified digit(s) from the right", examples 1 to 5.
#[test]
fn level_1_open_digits() {
    holds(&[
        ("201X", "2010-01-01", "2019-12-31"),
        ("20XX", "2000-01-01", "2099-12-31"),
        ("2004-XX", "2004-01-01", "2004-12-31"),
        ("1985-04-XX", "1985-04-01", "1985-04-30"),
        ("1985-XX-XX", "1985-01-01", "1985-12-31"),
    ]);
}

/// "Level 1", "Extended Interval (L1)", examples 1 to 12.
#[test]
fn level_1_intervals_with_an_open_or_unknown_end() {
    holds(&[
        ("1985-04-12/..", "1985-04-12", "-"),
        ("1985-04/..", "1985-04-01", "-"),
        ("1985/..", "1985-01-01", "-"),
        ("../1985-04-12", "-", "1985-04-12"),
        ("../1985-04", "-", "1985-04-30"),
        ("../1985", "-", "1985-12-31"),
        ("1985-04-12/", "1985-04-12", "-"),
        ("1985-04/", "1985-04-01", "-"),
        ("1985/", "1985-01-01", "-"),
        ("/1985-04-12", "-", "1985-04-12"),
        ("/1985-04", "-", "1985-04-30"),
        ("/1985", "-", "1985-12-31"),
    ]);
    assert_ne!(date("1985/"), date("1985/.."), "unknown is not open");
}

/// "Level 1", "Extended Interval (L1)", rule 3: a mark at the end of a date.
/// The specification shows no example; these are its level 1 dates.
#[test]
fn level_1_intervals_with_marks() {
    holds(&[("1984?/2004-06~", "1984-01-01", "2004-06-30"), ("../2004-06-11%", "-", "2004-06-11")]);
    assert!(date("1984/2004-06~").is_approximate());
}

/// "Level 1", "Negative calendar year", example 1.
#[test]
fn level_1_negative_years() {
    holds(&[("-1985", "-1985-01-01", "-1985-12-31")]);
}

/// "Level 2", all examples but '2004-06-11%', which is of level 1 as well.
/// Beside each what is suggested instead, where something is.
#[test]
fn level_2_is_refused_by_name_with_the_nearest_level_1_date() {
    for (text, nearest) in [
        // Exponential year; significant digits; sub-year groupings.
        ("Y-17E7", "Y-170000000"),
        ("1950S2", "1950~"),
        ("Y171010000S3", "Y171010000~"),
        ("Y3388E2S3", "Y338800"),
        // A person who writes the first of these means years.
        ("2001-34", "2001/2034 or 2001-04/2001-06"),
        // One of a set; all members.
        ("[1667,1668,1670..1672]", "1667/1672"),
        ("[..1760-12-03]", "../1760-12-03"),
        ("[1760-12..]", "1760-12/.."),
        ("[1760-01,1760-02,1760-12..]", "1760-01/.."),
        ("[1667,1760-12]", "1667/1760-12"),
        ("[..1984]", "../1984"),
        ("{1667,1668,1670..1672}", "1667/1672"),
        ("{1960,1961-12}", "1960/1961-12"),
        ("{..1984}", "../1984"),
        // Group qualification; qualification of individual component.
        ("2004-06~-11", "2004-06-11~"),
        ("2004?-06-11", "2004-06-11?"),
        ("?2004-06-~11", "2004-06-11%"),
        ("2004-%06-11", "2004-06-11%"),
        // Unspecified digit.
        ("156X-12-25", "156X"),
        ("15XX-12-25", "15XX"),
        ("XXXX-12-XX", ""),
        ("1XXX-XX", "1000/1999"),
        ("1XXX-12", "1000/1999"),
        ("1984-1X", "1984-10/1984-12"),
        // Interval.
        ("2004-06-~01/2004-06-~20", "2004-06-01~/2004-06-20~"),
        ("2004-06-XX/2004-07-03", "2004-06/2004-07-03"),
    ] {
        let error = text.parse::<Date>().expect_err(text);
        assert!(error.what().contains("level 2"), "{error}");
        let nearest: Vec<&str> = nearest.split(" or ").filter(|date| !date.is_empty()).collect();
        assert_eq!(error.nearest().iter().map(Date::to_string).collect::<Vec<_>>(), nearest, "{error}");
    }
}

/// What the specification's grammar excludes; the reasons are its own words
/// or, for days that do not exist, the calendar's.
#[test]
fn what_is_outside_the_grammar_is_refused() {
    for (text, at) in [
        ("2001-21-03", 8), // a season stands in a year-and-month string only
        ("2001-13", 6),
        ("1926-00", 6),
        ("1926-02-30", 9),
        ("1900-02-29", 9),
        ("X926", 1),
        ("19X6", 3),
        ("20050924T100000", 1), // "basic format ... is not permitted"
        ("1985-04-12T23:20", 17),
        ("1985-04-12T24:00:00", 12),
        ("1985-04-12T23:20:30-00", 20),
        ("1985-04T23:20:30", 8),
        ("2004-01-01T10:10:10Z/2005", 11), // "Time of day is excluded"
        ("Y1985", 2),                      // "only when the year exceeds four digits"
        ("12345", 1),
        ("985", 4),
        ("-0000", 1),
        ("../..", 1), // one end at least is a date
        ("/", 1),
        ("1985/./", 7),
        ("1931/1924", 6),
        ("1985/1986/1987", 10),
        ("199u", 1), // the sign of the 2012 draft
        ("1984?~", 6),
        ("y170000002", 1),
        ("1985 ", 5),
        ("", 1),
    ] {
        let error = text.parse::<Date>().expect_err(text);
        assert_eq!(error.at(), at, "{error}");
    }
}

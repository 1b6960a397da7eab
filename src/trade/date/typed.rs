//! Tests of [`read_friendly`]: what people type, and what comes of it.

use super::{Date, read_friendly};

fn kept(typed: &str) -> String {
    match read_friendly(typed) {
        Ok(date) => date.to_string(),
        Err(error) => panic!("{typed}: {error}"),
    }
}

/// Asserts that the text is refused with exactly these dates as the remedy.
fn refused(typed: &str, nearest: &[&str]) {
    match read_friendly(typed) {
        Ok(date) => panic!("{typed} was read as {date}"),
        Err(error) => {
            let hints: Vec<String> = error.nearest().iter().map(Date::to_string).collect();
            assert_eq!(hints, nearest, "{error}");
        }
    }
}

fn all_are_kept(pairs: &[(&str, &str)]) {
    for (typed, edtf) in pairs {
        assert_eq!(kept(typed), *edtf, "{typed}");
    }
}

#[test]
fn days_and_months_are_read_in_the_usual_orders() {
    all_are_kept(&[
        ("aug 1926", "1926-08"),
        ("august 1926", "1926-08"),
        ("Sept. 1926", "1926-09"),
        ("1926 aug", "1926-08"),
        ("aug-1926", "1926-08"),
        ("14 aug 1926", "1926-08-14"),
        ("14th August 1926", "1926-08-14"),
        ("14AUG1926", "1926-08-14"),
        ("the 14th of August, 1926", "1926-08-14"),
        ("Aug 14, 1926", "1926-08-14"),
        ("Aug. 14th 1926", "1926-08-14"),
        ("14-aug-1926", "1926-08-14"),
        ("1926, August 14", "1926-08-14"),
        ("1926-8-4", "1926-08-04"),
        ("1926/08/14", "1926-08-14"),
        ("1926.8.14", "1926-08-14"),
        ("Saturday, 14 August 1926", "1926-08-14"),
        ("1 may 1926", "1926-05-01"),
        ("29 feb 1924", "1924-02-29"),
    ]);
}

#[test]
fn strict_edtf_is_read_whatever_its_case_and_spaces() {
    all_are_kept(&[
        ("1926-08-14", "1926-08-14"),
        ("  1926-08 ", "1926-08"),
        ("192x", "192X"),
        ("1924 / 1926", "1924/1926"),
        (".. / 1931", "../1931"),
        ("1926 ?", "1926?"),
        ("1926-08-14t09:30:00z", "1926-08-14T09:30:00Z"),
    ]);
}

#[test]
fn doubt_becomes_a_mark() {
    all_are_kept(&[
        ("c. 1926", "1926~"),
        ("c1926", "1926~"),
        ("c.1926", "1926~"),
        ("ca 1926", "1926~"),
        ("Circa 1926", "1926~"),
        ("about 1926", "1926~"),
        ("~1926", "1926~"),
        ("≈ 1926", "1926~"),
        ("1926?", "1926?"),
        ("1926 (?)", "1926?"),
        ("1926?~", "1926%"),
        ("maybe 1926", "1926?"),
        ("probably aug 1926", "1926-08?"),
        ("maybe c. 1926", "1926%"),
        ("c. 1926?", "1926%"),
        ("c. aug 1926", "1926-08~"),
        ("c. 1926-08", "1926-08~"),
        ("c. 1920s", "192X~"),
    ]);
}

#[test]
fn seasons_decades_and_centuries_have_their_words() {
    all_are_kept(&[
        ("summer 1926", "1926-22"),
        ("the Summer of 1926", "1926-22"),
        ("in the fall of 1926", "1926-23"),
        ("winter 1926", "1926-24"),
        ("winter 1926-27", "1926-24"),
        ("the winter of 1926-7", "1926-24"),
        ("winter 1926/1927", "1926-24"),
        ("winter 1999–00", "1999-24"),
        ("1920s", "192X"),
        ("the 1920s", "192X"),
        ("1920's", "192X"),
        ("19th century", "18XX"),
        ("the nineteenth century", "18XX"),
        ("19th c.", "18XX"),
        ("1st century", "00XX"),
    ]);
}

#[test]
fn spans_are_read_with_dashes_and_words() {
    all_are_kept(&[
        ("1924-26", "1924/1926"),
        ("1924–26", "1924/1926"),
        ("1924–1926", "1924/1926"),
        ("1924-1926", "1924/1926"),
        ("1924/26", "1924/1926"),
        ("1924 to 1926", "1924/1926"),
        ("1924 through 1926", "1924/1926"),
        ("from 1924 to 1926", "1924/1926"),
        ("from 1924-26", "1924/1926"),
        ("from aug-oct 1926", "1926-08/1926-10"),
        ("between 1924-26", "1924/1926"),
        ("from 1924 until 1926", "1924/1926"),
        ("between 1924 and 1926", "1924/1926"),
        ("between aug and oct 1926", "1926-08/1926-10"),
        ("aug 1924 - mar 1926", "1924-08/1926-03"),
        ("aug–oct 1926", "1926-08/1926-10"),
        ("aug-oct 1926", "1926-08/1926-10"),
        ("14-16 aug 1926", "1926-08-14/1926-08-16"),
        ("aug 14-16, 1926", "1926-08-14/1926-08-16"),
        ("14 aug – 3 sep 1926", "1926-08-14/1926-09-03"),
        ("14 aug 1926 – 3 sep", "1926-08-14/1926-09-03"),
        ("summer 1926 to spring 1927", "1926-22/1927-21"),
        ("summer – autumn 1926", "1926-22/1926-23"),
        ("1920s to 1940s", "1920/1949"),
        ("1920s-1930s", "1920/1939"),
        ("1926-08-14 - 1926-08-16", "1926-08-14/1926-08-16"),
        ("1926-08 to 1926-10", "1926-08/1926-10"),
    ]);
}

#[test]
fn a_mark_before_a_span_is_on_both_ends() {
    all_are_kept(&[
        ("c. 1924-26", "1924~/1926~"),
        ("c. 1924 to 1926", "1924~/1926~"),
        ("maybe 1924–1926", "1924?/1926?"),
        ("1924 to c. 1926", "1924/1926~"),
        ("from c. 1924 to 1926", "1924~/1926"),
        ("between c. 1924 and 1926", "1924~/1926"),
        ("1924–26?", "1924?/1926?"),
        ("aug 1924 – mar 1926?", "1924-08/1926-03?"),
    ]);
}

#[test]
fn open_ends_have_their_words() {
    all_are_kept(&[
        ("before 1931", "../1931"),
        ("before c. 1931", "../1931~"),
        ("before 14 aug 1926", "../1926-08-14"),
        ("pre-1931", "../1931"),
        ("until 1931", "../1931"),
        ("by 1931", "../1931"),
        ("up to aug 1931", "../1931-08"),
        ("1931 or earlier", "../1931"),
        ("until the 1920s", "../1929"),
        ("after 1931", "1931/.."),
        ("post-1931", "1931/.."),
        ("from 1931", "1931/.."),
        ("since aug 1931", "1931-08/.."),
        ("1931 onwards", "1931/.."),
        ("1931 or later", "1931/.."),
        ("from the 1920s", "1920/.."),
    ]);
}

#[test]
fn where_edtf_and_habit_differ_edtf_wins() {
    // A spring and a December in EDTF, though a hurried hand meant years.
    all_are_kept(&[("1924-21", "1924-21"), ("1909-12", "1909-12"), ("1909–12", "1909/1912")]);
}

#[test]
fn what_can_be_read_two_ways_is_refused_with_both() {
    refused("14/08/1926", &["1926-08-14"]);
    refused("04/08/1926", &["1926-08-04", "1926-04-08"]);
    refused("4.8.1926", &["1926-08-04", "1926-04-08"]);
    refused("8/8/1926", &["1926-08-08"]);
    refused("08/1926", &["1926-08"]);
    refused("1924-6", &["1924-06", "1924/1926"]);
    refused("1900s", &["190X", "19XX"]);
    refused("1898–02", &["1898-02", "1898/1902"]);
}

#[test]
fn early_and_late_are_refused_with_the_months_they_may_mean() {
    refused("early 1926", &["1926-01/1926-04"]);
    refused("mid-1926", &["1926-05/1926-08"]);
    refused("late 1926", &["1926-09/1926-12"]);
    refused("early 1920s", &["1920/1923"]);
    refused("mid 1920s", &["1924/1926"]);
    refused("late 19th century", &["1867/1899"]);
    refused("late feb 1924", &["1924-02-21/1924-02-29"]);
    refused("late winter 1926", &["1927-02/1927-02"]);
    refused("c. early 1926", &["1926-01/1926-04"]);
    refused("mid 1926 to late 1927", &["1926-05/1927-12"]);
    refused("late 1920s to 1931", &["1927/1931"]);
    refused("before early 1926", &["../1926-04"]);
    refused("from late 1926", &["1926-09/.."]);
}

#[test]
fn a_refusal_says_the_remedy_where_there_is_one() {
    refused("1926-13", &["1926-12"]);
    refused("agust 1926", &["1926-08"]);
    refused("sumer 1926", &["1926-22"]);
    refused("befor 1926", &["../1926"]);
    refused("Sunday 14 aug 1926", &["1926-08-14"]);
    refused("19260814", &["1926-08-14"]);
    refused("1926 or 1927", &["1926/1927"]);
    refused("1926s", &["192X"]);
    refused("20s", &["192X"]);
    refused("before the 1920s", &["../1919"]);
    refused("after the 1920s", &["1930/.."]);
    refused("1926 to 1924", &["1924/1926"]);
    refused("14.08.1926 - 16.08.1926", &["1926-08-14/1926-08-16"]);
    refused("04/08/1926 to 05/08/1926", &[]);
}

#[test]
fn what_is_no_date_is_refused() {
    for text in [
        "",
        " ",
        "?",
        "c.",
        "the",
        "banana",
        "aug",
        "14 aug",
        "14 aug 26",
        "aug '26",
        "1926 1927",
        "14 15 aug 1926",
        "between 1924",
        "before",
        "to",
        "-",
        "–",
        "/",
        "1924 -",
        "- 1926",
        "14 1926",
        "14 summer 1926",
        "aug summer 1926",
        "n.d.",
        "unknown",
        "1926-08-",
        "1926–",
        "0th century",
        "monday 1926",
        "aug 1920s",
        "1926 aug*",
        "12345",
        "nineteenth 1926",
        "early late 1926",
        "aug aug 1926",
        "1926/1927/1928",
        "a\u{7}b",
    ] {
        refused(text, &[]);
    }
}

#[test]
fn of_a_day_that_its_month_does_not_have_no_other_is_guessed() {
    for (typed, says) in [
        ("31 feb 1923", "February 1923 has 28 days"),
        ("1924-02-30", "February 1924 has 29 days"),
        ("Apr 31, 1926", "April 1926 has 30 days"),
        ("30 feb 1926 - 3 mar 1926", "February 1926 has 28 days"),
    ] {
        refused(typed, &[]);
        let error = read_friendly(typed).unwrap_err();
        assert_eq!((error.what(), error.is_no_such_day()), (says, true), "{typed}");
    }
    let error = "1923-02-31".parse::<Date>().unwrap_err();
    assert_eq!((error.what(), error.hint()), ("February 1923 has 28 days", None));
    assert!(!read_friendly("1926-13").unwrap_err().is_no_such_day());
}

#[test]
fn a_refusal_names_its_place_and_is_short() {
    let message = |text: &str| read_friendly(text).unwrap_err().to_string();
    assert_eq!(
        message("1926-13"),
        "\"1926-13\" is not a date: month 13 does not exist, expected 01–12 or a season 21–24 (at character 6); \
         write 1926-12"
    );
    assert_eq!(
        message("04/08/1926"),
        "\"04/08/1926\" is not a date: day and month in numbers can be exchanged; write the year first \
         (at character 1); write 1926-08-04 or 1926-04-08"
    );
    assert_eq!(
        message("1926 banana"),
        "\"1926 banana\" is not a date: \"banana\" is no word of a date; expected a day, month, season or year \
         (at character 6)"
    );
    assert!(message(&"x".repeat(1_000_000)).chars().count() < 200);
}

#[test]
fn strict_reading_refuses_words_and_says_what_to_write() {
    for (typed, edtf) in
        [("aug 1926", "1926-08"), ("14/08/1926", "1926-08-14"), ("1924–26", "1924/1926"), (" 1926", "1926")]
    {
        let error = typed.parse::<Date>().unwrap_err();
        assert_eq!(error.hint().unwrap(), format!("write {edtf}"), "{typed}");
    }
    let error = "1926-28".parse::<Date>().unwrap_err();
    assert_eq!(error.hint().unwrap(), "write 1926/1928 or 1926-24");
}

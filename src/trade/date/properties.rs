//! Tests of what holds for every date and every text.

use proptest::prelude::*;

use super::{Date, Day, read_friendly};

/// Single dates without a mark, of every kind that an interval can have.
fn closed() -> impl Strategy<Value = String> {
    let year = prop_oneof![
        4 => (0..=9999_u32).prop_map(|y| format!("{y:04}")),
        1 => (1..=9999_u32).prop_map(|y| format!("-{y:04}")),
    ];
    prop_oneof![
        year.clone(),
        (year.clone(), 1..=12_u8).prop_map(|(y, m)| format!("{y}-{m:02}")),
        (year.clone(), 21..=24_u8).prop_map(|(y, s)| format!("{y}-{s}")),
        (year, 1..=12_u8, 1..=28_u8).prop_map(|(y, m, d)| format!("{y}-{m:02}-{d:02}")),
        (any::<bool>(), 10_000..=999_999_999_999_999_999_i64)
            .prop_map(|(minus, y)| format!("Y{}{y}", if minus { "-" } else { "" })),
    ]
}

fn mark() -> impl Strategy<Value = &'static str> {
    prop_oneof![Just(""), Just("?"), Just("~"), Just("%")]
}

fn end() -> impl Strategy<Value = String> {
    prop_oneof![
        6 => (closed(), mark()).prop_map(|(date, mark)| date + mark),
        1 => Just("..".to_owned()),
        1 => Just(String::new()),
    ]
}

/// Texts of the form of level 1; intervals among them may run backwards.
fn expression() -> impl Strategy<Value = String> {
    let open_digits = prop_oneof![
        (0..=999_u32).prop_map(|stem| format!("{stem:03}X")),
        (0..=99_u32).prop_map(|stem| format!("{stem:02}XX")),
        (0..=9999_u32).prop_map(|y| format!("{y:04}-XX")),
        (0..=9999_u32).prop_map(|y| format!("{y:04}-XX-XX")),
        (0..=9999_u32, 1..=12_u8).prop_map(|(y, m)| format!("{y:04}-{m:02}-XX")),
        (1..=999_u32).prop_map(|stem| format!("-{stem:03}X")),
    ];
    let moment = (
        0..=9999_u32,
        1..=12_u8,
        0..=23_u8,
        0..=59_u8,
        prop_oneof![Just(""), Just("Z"), Just("-04"), Just("+04:30"), Just("+00:00")],
    )
        .prop_map(|(y, m, h, s, shift)| format!("{y:04}-{m:02}-28T{h:02}:{s:02}:{s:02}{shift}"));
    prop_oneof![
        (closed(), mark()).prop_map(|(date, mark)| date + mark),
        (open_digits, mark()).prop_map(|(date, mark)| date + mark),
        moment,
        (end(), end()).prop_map(|(start, end)| format!("{start}/{end}")),
    ]
}

/// Texts with the words and signs of dates in them, in no order.
fn nearly() -> impl Strategy<Value = String> {
    let piece = prop_oneof![
        Just("1926"),
        Just("26"),
        Just("8"),
        Just("aug"),
        Just("summer"),
        Just("winter"),
        Just("c."),
        Just("before"),
        Just("after"),
        Just("between"),
        Just("and"),
        Just("to"),
        Just("the"),
        Just("1920s"),
        Just("19th"),
        Just("century"),
        Just("early"),
        Just("-"),
        Just("–"),
        Just("/"),
        Just(".."),
        Just("?"),
        Just("~"),
        Just("X"),
        Just("Y"),
        Just("'"),
        Just(","),
        Just("T09:30:00"),
        Just("["),
        Just("]"),
        Just("S2"),
        Just("E9"),
        Just("31"),
        Just("feb"),
        Just("sunday"),
        Just("or"),
        Just("later"),
        Just("9999"),
        Just("0000"),
        Just("99999999999999999"),
    ];
    (proptest::collection::vec((piece, any::<bool>()), 0..8)).prop_map(|pieces| {
        let part = |(piece, space): (&str, bool)| format!("{piece}{}", if space { " " } else { "" });
        pieces.into_iter().map(part).collect()
    })
}

/// What must hold of any text: an answer comes, what is accepted prints as
/// itself, and every remedy is one.
fn holds_together(text: &str) -> Result<(), TestCaseError> {
    for read in [text.parse::<Date>(), read_friendly(text)] {
        match read {
            Ok(date) => is_sound(&date)?,
            Err(error) => {
                prop_assert!(error.at() >= 1);
                prop_assert!(error.at() <= text.chars().count() + 1, "{}", error);
                for nearest in error.nearest() {
                    is_sound(nearest)?;
                }
            }
        }
    }
    Ok(())
}

fn is_sound(date: &Date) -> Result<(), TestCaseError> {
    let text = date.to_string();
    prop_assert_eq!(&text.parse::<Date>(), &Ok(date.clone()));
    prop_assert_eq!(&read_friendly(&text), &Ok(date.clone()));
    if let (Some(first), Some(last)) = (date.earliest(), date.latest()) {
        prop_assert!(first <= last, "{}", text);
    }
    let middle = date.middle();
    prop_assert!(middle.is_some(), "{}", text);
    prop_assert!(middle >= date.earliest(), "{}", text);
    prop_assert!(date.latest().is_none() || middle <= date.latest(), "{}", text);
    prop_assert!(!date.short().is_empty(), "{}", text);
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 1000, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn a_date_prints_as_it_was_read(text in expression()) {
        match text.parse::<Date>() {
            Ok(date) => prop_assert_eq!(date.to_string(), text),
            // An interval can run backwards or be empty; nothing else here
            // can be wrong.
            Err(error) => prop_assert!(text.contains('/'), "{}", error),
        }
    }

    #[test]
    fn every_date_is_sound(text in expression()) {
        holds_together(&text)?;
    }

    #[test]
    fn no_text_breaks_the_reading(text in any::<String>()) {
        holds_together(&text)?;
    }

    #[test]
    fn no_text_of_date_words_breaks_the_reading(text in nearly()) {
        holds_together(&text)?;
    }

    #[test]
    fn no_text_of_edtf_letters_breaks_the_reading(text in r"[0-9XYEST?~%/.\[\]{},:+-]{0,24}") {
        holds_together(&text)?;
    }

    /// An interval has the outer bounds of its two ends.
    #[test]
    fn an_interval_reaches_from_end_to_end(start in closed(), end in closed()) {
        let bounds = |text: &str| -> (Day, Day) {
            let date: Date = text.parse().unwrap();
            (date.earliest().unwrap(), date.latest().unwrap())
        };
        if let Ok(span) = format!("{start}/{end}").parse::<Date>() {
            prop_assert_eq!(span.earliest(), Some(bounds(&start).0));
            prop_assert_eq!(span.latest(), Some(bounds(&end).1));
        } else {
            prop_assert!(bounds(&end).1 <= bounds(&start).0, "{}/{} was refused", start, end);
        }
    }

    /// A mark says how sure the date is; it moves no bound.
    #[test]
    fn a_mark_moves_no_bound(text in closed(), mark in mark()) {
        let (plain, marked): (Date, Date) = (text.parse().unwrap(), format!("{text}{mark}").parse().unwrap());
        prop_assert_eq!((plain.earliest(), plain.latest()), (marked.earliest(), marked.latest()));
        prop_assert_eq!(marked.is_uncertain(), matches!(mark, "?" | "%"));
        prop_assert_eq!(marked.is_approximate(), matches!(mark, "~" | "%"));
    }

    /// What a card shows of a plain year, month, day or season can be typed.
    #[test]
    fn the_short_form_of_a_plain_date_can_be_typed(
        year in 1000..=9999_i64,
        rest in prop_oneof![
            Just(String::new()),
            (1..=12_u8).prop_map(|m| format!("-{m:02}")),
            (21..=24_u8).prop_map(|s| format!("-{s}")),
            (1..=12_u8, 1..=28_u8).prop_map(|(m, d)| format!("-{m:02}-{d:02}")),
        ],
        mark in mark(),
    ) {
        let date: Date = format!("{year}{rest}{mark}").parse().unwrap();
        prop_assert_eq!(read_friendly(&date.short()), Ok(date));
    }
}

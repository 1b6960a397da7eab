//! Gower's coefficient against an independent implementation, on a mixed table with missing values.

use shirr::gather::likeness::gower::{coefficient, interval, jaccard};

/// A row of the table below: two numbers, two names.
type Row = (Option<f64>, Option<f64>, Option<&'static str>, Option<&'static str>);

const TABLE: [Row; 6] = [
    (Some(1911.0), Some(150.0), Some("tubular"), Some("wool")),
    (Some(1926.0), None, Some("bell"), Some("wool")),
    (None, Some(330.0), Some("bell"), None),
    (Some(1934.0), Some(610.0), None, Some("silk")),
    (Some(1934.5), Some(90.0), Some("tubular"), Some("oilcloth")),
    (None, None, None, Some("linen")),
];

const WEIGHTS: [f64; 4] = [2.0, 1.0, 2.0, 3.0];

/// R 4.2.2, package `cluster` 2.1.4 (M. Maechler and others), whose `daisy` leaves missing values out:
///
/// ```r
/// library(cluster)
/// t <- data.frame(year = c(1911, 1926, NA, 1934, 1934.5, NA), weight = c(150, NA, 330, 610, 90, NA),
///                 line = factor(c("tubular", "bell", "bell", NA, "tubular", NA)),
///                 cloth = factor(c("wool", "wool", NA, "silk", "oilcloth", "linen")))
/// print(as.vector(daisy(t, metric = "gower", weights = c(2, 1, 2, 3))), digits = 17)
/// ```
///
/// Pairs in the order of its `dist`: 1-2, 1-3, … 1-6, 2-3, …. The one `NA` is a pair of which nothing is known of both.
const PUBLISHED: [Option<f64>; 15] = [
    Some(0.46808510638297873),
    Some(0.782051282051282),
    Some(0.9736770321876705),
    Some(0.6394230769230769),
    Some(1.0),
    Some(0.0),
    Some(0.7361702127659575),
    Some(0.8176291793313071),
    Some(1.0),
    Some(0.5384615384615384),
    Some(0.8205128205128206),
    None,
    Some(0.673758865248227),
    Some(1.0),
    Some(1.0),
];

/// The span of a column, by which its distances are measured.
fn range(values: impl Iterator<Item = Option<f64>>) -> f64 {
    let known: Vec<f64> = values.flatten().collect();
    let (least, most) = known.iter().fold((f64::MAX, f64::MIN), |(l, m), v| (l.min(*v), m.max(*v)));
    most - least
}

/// Two names as the program compares them: each a set of one word.
fn named(one: Option<&'static str>, other: Option<&'static str>) -> Option<f64> {
    let names = ["tubular", "bell", "wool", "silk", "oilcloth", "linen"];
    let set = |name| [(names.iter().position(|known| *known == name).map_or(u32::MAX, |at| at as u32), 1.0)];
    jaccard(&set(one?), &set(other?))
}

#[test]
fn distances_are_those_of_an_independent_implementation() {
    let years = range(TABLE.iter().map(|row| row.0));
    let weights = range(TABLE.iter().map(|row| row.1));
    let pairs = (0..TABLE.len()).flat_map(|one| (one + 1..TABLE.len()).map(move |other| (one, other)));
    let mut compared = 0;
    for ((one, other), published) in pairs.zip(PUBLISHED) {
        let (a, b) = (TABLE[one], TABLE[other]);
        let features =
            [interval(a.0, b.0, years), interval(a.1, b.1, weights), named(a.2, b.2), named(a.3, b.3)];
        let distance = coefficient(WEIGHTS.into_iter().zip(features));
        match published {
            Some(published) => {
                assert!((distance - published).abs() < 1e-9, "{one} {other}: {distance} {published}");
            }
            // Where nothing is known of both, ours are wholly unlike.
            None => assert!(features.iter().all(Option::is_none) && distance == 1.0, "{one} {other}"),
        }
        compared += 1;
    }
    assert_eq!(compared, PUBLISHED.len());
}

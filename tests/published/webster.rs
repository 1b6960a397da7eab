//! The Webster / Sainte-Laguë method against worked examples and an independent implementation.

use shirr::gather::apportion;

/// Electowiki, "Sainte-Laguë method", the 35-seat example; Wikipedia, "Sainte-Laguë method", the example of 230,000
/// votes and 8 seats. Both give the seats as below.
#[test]
fn worked_examples_come_out_as_published() {
    assert_eq!(apportion(35, &[503, 304, 193]), Some(vec![17, 11, 7]));
    assert_eq!(apportion(8, &[100_000, 80_000, 30_000, 20_000]), Some(vec![3, 3, 1, 1]));
}

/// PyPI `apportionment` 1.0: `methods.compute("saintelague", VOTES, SEATS, verbose=False)`.
#[test]
fn an_independent_implementation_agrees() {
    assert_eq!(apportion(7, &[53, 24, 23]), Some(vec![3, 2, 2]));
    assert_eq!(apportion(26, &[61, 0, 245, 301, 77, 9]), Some(vec![2, 0, 9, 12, 3, 0]));
    assert_eq!(apportion(4, &[8, 8, 8]), Some(vec![2, 1, 1]));
    assert_eq!(apportion(3, &[1, 1000]), Some(vec![0, 3]));
}

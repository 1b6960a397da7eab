//! A share of a whole, and the one way in which it is rounded.
//!
//! It is kept far finer than it is ever shown, so that every page rounds the number itself: what is rounded to a
//! hundredth and then to a tenth can come out a tenth too high.

use std::fmt;

/// A share of a whole. A loss can be less than nothing.
///
/// It is kept in billionths: two sums of the same parts in another order are then the same share, and are shown as the
/// same.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Share(i64);

/// Of a whole.
const WHOLE: i64 = 1_000_000_000;
/// What one hundredth and one tenth of a per cent are.
const HUNDREDTH: i64 = WHOLE / 10_000;
const TENTH: i64 = WHOLE / 1_000;

impl Share {
    /// The share nearest to a number, of which 1 is the whole.
    pub fn of(share: f64) -> Self {
        Self((share * WHOLE as f64).round() as i64)
    }

    /// As a number of which 1 is the whole, to a hundredth of a per cent.
    pub fn get(self) -> f64 {
        self.hundredths() as f64 / 10_000.0
    }

    /// In per cent, to a hundredth.
    pub fn percent(self) -> f64 {
        self.hundredths() as f64 / 100.0
    }

    fn hundredths(self) -> i64 {
        nearest(self.0, HUNDREDTH)
    }
}

/// How many of a unit come nearest, halves away from nothing.
fn nearest(of: i64, unit: i64) -> i64 {
    let (whole, rest) = (of / unit, of % unit);
    if 2 * rest.abs() >= unit { whole + of.signum() } else { whole }
}

impl fmt::Display for Share {
    /// `60.6 %`, and with two places below one per cent, so that small things can be told apart.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let hundredths = self.hundredths();
        if hundredths == 0 {
            f.write_str("0 %")
        } else if hundredths.abs() < 100 {
            write!(f, "{:.2} %", hundredths as f64 / 100.0)
        } else {
            write!(f, "{:.1} %", nearest(self.0, TENTH) as f64 / 10.0)
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn said(share: f64) -> String {
        Share::of(share).to_string()
    }

    #[test]
    fn a_share_is_rounded_once_and_small_ones_can_be_told_apart() {
        // To a hundredth it is 62.35, and that to a tenth would be 62.4.
        assert_eq!(said(0.62347), "62.3 %");
        assert_eq!((said(0.6235), said(0.62351)), ("62.4 %".to_owned(), "62.4 %".to_owned()));
        assert_eq!((said(0.0), said(0.00004), said(-0.00004)), ("0 %".into(), "0 %".into(), "0 %".into()));
        assert_eq!((said(0.00344), said(-0.00346)), ("0.34 %".into(), "-0.35 %".into()));
        assert_eq!(
            (said(0.00994), said(0.00996), said(1.0)),
            ("0.99 %".into(), "1.0 %".into(), "100.0 %".into())
        );
        assert_eq!((Share::of(0.62347).get(), Share::of(0.62347).percent()), (0.6235, 62.35));
    }

    #[test]
    fn sums_in_another_order_are_the_same_share() {
        assert_ne!(0.1 + 0.2, 0.3);
        assert_eq!(Share::of(0.1 + 0.2), Share::of(0.3));
    }
}

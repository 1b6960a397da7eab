//! Money, exactly: prices, costs and what they add up to.
//!
//! It knows no currency: a board has one. It holds at most four decimals, which is a hundredth of a cent, so that a
//! price by the metre can be finer than a coin; what a product has beyond them is rounded once, halves away from zero.
//! Sums are exact. Nothing here overflows: what would pass a million million stays there.

use std::fmt;
use std::iter::Sum;
use std::ops::{Add, Neg, Sub};
use std::str::FromStr;

use rust_decimal::prelude::ToPrimitive;
use rust_decimal::{Decimal, RoundingStrategy};
use serde::{Deserialize, Deserializer, Serialize, Serializer};

use super::by_text::text_or_number;
use super::hours::Hours;
use super::length::Length;
use super::share::Share;

/// An amount of money, in the board's currency. It can be less than nothing.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Money(Decimal);

/// Decimals that are kept.
const KEPT: u32 = 4;
/// Decimals that are shown, at least.
const CENTS: u32 = 2;
/// A million million, in units of the currency.
const MOST: i64 = 1_000_000_000_000;
/// Decimals of a metre in which a length is exact.
const LENGTH_DECIMALS: u32 = 5;
/// Between groups of three digits: a space at which no line is broken.
const GROUP: char = '\u{a0}';

/// Why a text is no amount of money.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error(
    "`{0}` is no amount of money: expected digits, with a dot before at most four decimals, such as `18.40` or `1240`; no \
     currency, comma or space"
)]
pub struct MoneyError(String);

impl Money {
    /// Nothing.
    pub const ZERO: Self = Self(Decimal::ZERO);

    /// So many hundredths of the currency's unit.
    pub fn of_cents(cents: i64) -> Self {
        Self::kept(Decimal::new(cents, CENTS))
    }

    /// The nearest amount that can be kept.
    fn kept(exact: Decimal) -> Self {
        let most = Decimal::from(MOST);
        Self(exact.clamp(-most, most).round_dp_with_strategy(KEPT, RoundingStrategy::MidpointAwayFromZero))
    }

    /// This times an exact number over another, rounded once.
    fn scaled(self, by: Decimal, over: u32) -> Self {
        let beyond = if self.is_negative() == by.is_sign_negative() { Decimal::MAX } else { Decimal::MIN };
        let product = self.0.checked_mul(by).unwrap_or(beyond);
        Self::kept(product.checked_div(Decimal::from(over)).unwrap_or(product))
    }

    /// Whether it is less than nothing.
    pub fn is_negative(self) -> bool {
        self < Self::ZERO
    }

    /// So many times as much.
    #[must_use]
    pub fn times(self, count: u32) -> Self {
        self.scaled(Decimal::from(count), 1)
    }

    /// What a length costs, this being the price of a metre.
    #[must_use]
    pub fn by_length(self, length: Length) -> Self {
        self.scaled(Decimal::new(length.hundredths(), LENGTH_DECIMALS), 1)
    }

    /// What so much work costs that is done so many times, this being the price of an hour.
    #[must_use]
    pub fn by_hours(self, hours: Hours, times: u32) -> Self {
        self.scaled(Decimal::from(u64::from(hours.minutes()) * u64::from(times)), 60)
    }

    /// So many parts of this, of which `of` make the whole; `None` where `of` is nothing.
    pub fn parts(self, parts: u32, of: u32) -> Option<Self> {
        (of > 0).then(|| self.scaled(Decimal::from(parts), of))
    }

    /// What share of a whole it is; `None` where the whole is nothing.
    pub fn share_of(self, whole: Self) -> Option<Share> {
        self.0.checked_div(whole.0)?.to_f64().map(Share::of)
    }

    /// For people: to the cent, halves away from zero, in groups of three digits: `1 240.00`.
    pub fn shown(self) -> String {
        let (whole, part) = self.grouped(CENTS);
        format!("{whole}.{part}")
    }

    /// For people, where there is little room: to the unit, halves away from zero: `1 240`.
    pub fn whole(self) -> String {
        self.grouped(0).0
    }

    /// What stands before the dot, in groups of three digits, and what stands behind it.
    fn grouped(self, decimals: u32) -> (String, String) {
        let rounded = self.0.round_dp_with_strategy(decimals, RoundingStrategy::MidpointAwayFromZero);
        let sign = if rounded < Decimal::ZERO { "-" } else { "" };
        let text = Self(rounded.abs()).to_string();
        let (whole, part) = text.split_once('.').unwrap_or((&text, ""));
        let mut grouped = String::new();
        for (at, digit) in whole.chars().enumerate() {
            if at > 0 && (whole.len() - at).is_multiple_of(3) {
                grouped.push(GROUP);
            }
            grouped.push(digit);
        }
        (format!("{sign}{grouped}"), part.to_owned())
    }
}

/// An amount that is not below nothing, as it stands in a file: a price, a rate, what there is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(try_from = "Money")]
struct Price(Money);

impl TryFrom<Money> for Price {
    type Error = String;

    fn try_from(money: Money) -> Result<Self, String> {
        if money.is_negative() {
            return Err(format!(
                "`{money}` is less than nothing: expected an amount of 0 or more, such as `18.40`"
            ));
        }
        Ok(Self(money))
    }
}

/// Reads what may not be given, and may not be below nothing.
pub(crate) fn not_below_nothing<'de, D: Deserializer<'de>>(from: D) -> Result<Option<Money>, D::Error> {
    Ok(Option::<Price>::deserialize(from)?.map(|price| price.0))
}

/// Refuses what is below nothing among several.
pub(crate) fn none_below_nothing(all: impl IntoIterator<Item = Money>) -> Result<(), String> {
    all.into_iter().try_for_each(|money| Price::try_from(money).map(|_| ()))
}

impl Add for Money {
    type Output = Self;

    fn add(self, other: Self) -> Self {
        Self::kept(self.0 + other.0)
    }
}

impl Sub for Money {
    type Output = Self;

    fn sub(self, other: Self) -> Self {
        Self::kept(self.0 - other.0)
    }
}

impl Neg for Money {
    type Output = Self;

    fn neg(self) -> Self {
        Self::ZERO - self
    }
}

impl Sum for Money {
    fn sum<I: Iterator<Item = Self>>(all: I) -> Self {
        all.fold(Self::ZERO, Add::add)
    }
}

impl FromStr for Money {
    type Err = MoneyError;

    fn from_str(text: &str) -> Result<Self, Self::Err> {
        let wrong = || MoneyError(text.to_owned());
        let trimmed = text.trim();
        let digits = trimmed.strip_prefix('-').unwrap_or(trimmed);
        let (whole, part) = digits.split_once('.').unwrap_or((digits, "0"));
        let plain = |text: &str| !text.is_empty() && text.bytes().all(|b| b.is_ascii_digit());
        if !plain(whole) || !plain(part) || part.len() > KEPT as usize {
            return Err(wrong());
        }
        let amount = Decimal::from_str_exact(trimmed).map_err(|_| wrong())?;
        if amount.abs() > Decimal::from(MOST) {
            return Err(wrong());
        }
        Ok(Self::kept(amount))
    }
}

impl fmt::Display for Money {
    /// As it parses: two decimals, or as many as it has: `1240.00`, `0.0125`.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let mut exact = self.0.normalize();
        exact.rescale(exact.scale().max(CENTS));
        f.pad(&exact.to_string())
    }
}

impl Serialize for Money {
    fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        to.collect_str(self)
    }
}

impl<'de> Deserialize<'de> for Money {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        text_or_number(from, "an amount of money such as `18.40`")
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    fn money(text: &str) -> Money {
        text.parse().unwrap()
    }

    #[test]
    fn it_prints_what_parses_and_shows_what_people_read() {
        for (text, printed, shown) in [
            ("18.4", "18.40", "18.40"),
            ("1240", "1240.00", "1\u{a0}240.00"),
            ("1234567.005", "1234567.005", "1\u{a0}234\u{a0}567.01"),
            ("-1240.5", "-1240.50", "-1\u{a0}240.50"),
            ("0.0125", "0.0125", "0.01"),
            ("-0.004", "-0.004", "0.00"),
            ("-0.005", "-0.005", "-0.01"),
            ("-0", "0.00", "0.00"),
            ("999.9950", "999.995", "1\u{a0}000.00"),
        ] {
            assert_eq!((money(text).to_string().as_str(), money(text).shown().as_str()), (printed, shown));
        }
    }

    #[test]
    fn what_could_mean_two_things_is_refused_with_what_could_be_written() {
        for text in [
            "",
            "-",
            ".",
            "18.",
            ".5",
            "1,240.00",
            "1.240,00",
            "1 240",
            "18.40 EUR",
            "$5",
            "+5",
            "1e3",
            "0.00001",
            "--1",
            "NaN",
            "1000000000000.01",
            "1_000",
        ] {
            let error = text.parse::<Money>().unwrap_err().to_string();
            assert!(error.contains(&format!("`{text}`")) && error.contains("`18.40`"), "{error}");
        }
    }

    #[test]
    fn a_number_in_a_file_is_what_was_written() {
        let read: Vec<Money> = serde_json::from_str(r#"[18.4, 0.1, 1240, -3, "18.40", 1e3]"#).unwrap();
        assert_eq!(read, ["18.4", "0.1", "1240", "-3", "18.4", "1000"].map(money));
        assert_eq!(serde_json::to_string(&read[0]).unwrap(), r#""18.40""#);
        for wrong in ["1e30", "0.00001", "true", "null"] {
            assert!(serde_json::from_str::<Money>(wrong).is_err(), "{wrong}");
        }
    }

    #[test]
    fn where_there_is_little_room_it_is_shown_to_the_unit() {
        let whole = ["1240.5", "-1240.49", "0.4", "-0.4", "999999.5"].map(|text| money(text).whole());
        assert_eq!(whole, ["1\u{a0}241", "-1\u{a0}240", "0", "0", "1\u{a0}000\u{a0}000"]);
    }

    #[test]
    fn ten_dimes_are_one() {
        assert_eq!(std::iter::repeat_n(money("0.1"), 10).sum::<Money>(), money("1"));
    }

    #[test]
    fn lengths_and_hours_have_their_price() {
        let length: Length = "2 1/2 yd".parse().unwrap();
        assert_eq!(money("18.40").by_length(length), money("42.0624"));
        assert_eq!(money("-18.40").by_length(length), money("-42.0624"));
        assert_eq!(money("21").by_hours("4:20".parse().unwrap(), 1), money("91"));
        assert_eq!(money("10").by_hours("0:20".parse().unwrap(), 1), money("3.3333"));
        assert_eq!(money("10").by_hours("0:20".parse().unwrap(), 6), money("20"), "it is rounded once");
        assert_eq!(money("0.3333").times(3), money("0.9999"));
    }

    #[test]
    fn a_share_of_nothing_is_none() {
        assert_eq!(money("1").share_of(money("4")), Some(Share::of(0.25)));
        assert_eq!(money("1").share_of(Money::ZERO), None);
    }

    #[test]
    fn nothing_passes_the_most() {
        let most = Money::of_cents(i64::MAX);
        assert_eq!(most, money("1000000000000"));
        assert_eq!(most + most, most);
        assert_eq!(most.times(u32::MAX), most);
        let far: Length = std::iter::repeat_n("1000000 mm".parse::<Length>().unwrap(), 1000).sum();
        assert_eq!((-most).by_length(far), -most);
    }

    fn amounts() -> impl Strategy<Value = Money> {
        (-1_000_000_000_i64..1_000_000_000).prop_map(|parts| Money::kept(Decimal::new(parts, KEPT)))
    }

    proptest! {
        #[test]
        fn what_is_printed_reads_back_the_same(amount in amounts()) {
            prop_assert_eq!(money(&amount.to_string()), amount);
            let text = serde_json::to_string(&amount).unwrap();
            prop_assert_eq!(serde_json::from_str::<Money>(&text).unwrap(), amount);
        }

        #[test]
        fn a_number_of_so_many_decimals_is_read_exactly(amount in amounts()) {
            prop_assert_eq!(serde_json::from_str::<Money>(&amount.to_string()).unwrap(), amount);
        }

        #[test]
        fn the_order_of_a_sum_does_not_matter(
            (one, other) in prop::collection::vec(amounts(), 0..30)
                .prop_flat_map(|all| (Just(all.clone()), Just(all).prop_shuffle())),
        ) {
            prop_assert_eq!(one.into_iter().sum::<Money>(), other.into_iter().sum::<Money>());
        }

        #[test]
        fn so_many_times_is_that_many_added(amount in amounts(), count in 0_u32..40) {
            prop_assert_eq!(amount.times(count), std::iter::repeat_n(amount, count as usize).sum());
        }

        #[test]
        fn what_is_shown_is_within_half_a_cent(amount in amounts()) {
            let back = money(&amount.shown().replace(GROUP, ""));
            prop_assert!((back - amount).0.abs() <= Decimal::new(5, 3));
        }
    }
}

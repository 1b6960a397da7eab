//! Which period a date falls in.

use super::{Period, PeriodId, Records};
use crate::trade::date::{Date, Day};

/// The periods as spans of days, in the board's order.
pub(super) struct Calendar<'a>(Vec<(i64, i64, &'a PeriodId)>);

/// First and last day of a date as day numbers, open ends at the ends of the calendar.
fn days(date: &Date) -> (i64, i64) {
    (date.earliest().unwrap_or(Day::MIN).number(), date.latest().unwrap_or(Day::MAX).number())
}

impl<'a> Calendar<'a> {
    pub(super) fn of(records: &'a Records) -> Self {
        let span = |period: &'a Period| {
            let (first, last) = days(&period.span);
            (first, last, &period.id)
        };
        Self(records.head.periods.iter().map(span).collect())
    }

    /// The period that shares most days with the date; the earlier in the board where two share as many. An open end
    /// counts as the day at its known end.
    pub(super) fn period(&self, date: &Date) -> Option<&'a PeriodId> {
        let (first, last) = match (date.earliest(), date.latest()) {
            (Some(first), Some(last)) => (first.number(), last.number()),
            (day, None) | (None, day) => (day?.number(), day?.number()),
        };
        let mut best: Option<(i64, &PeriodId)> = None;
        for (from, to, id) in &self.0 {
            let shared = last.min(*to) - first.max(*from) + 1;
            if shared > 0 && best.is_none_or(|(most, _)| shared > most) {
                best = Some((shared, id));
            }
        }
        best.map(|(_, id)| id)
    }
}

#[cfg(test)]
mod tests {
    use std::sync::Arc;

    use crate::board::sample::{id, outfit, read, records};
    use crate::board::{Board, Head, Outfit};

    /// The period of an outfit of the sample's board, worn at this time.
    fn period_of(worn: &str) -> Option<String> {
        let mut records = records();
        let worn = Some(worn.parse().unwrap());
        records.outfits.insert(id("it"), Arc::new(Outfit { worn, ..outfit("It", "odile") }));
        Board::new(records).relations().period_of_outfit(&id("it")).map(ToString::to_string)
    }

    #[test]
    fn a_date_is_in_the_period_that_shares_most_days_with_it() {
        for (worn, period) in [
            ("1911-01-01", Some("shore")),
            ("1924-12-31", Some("shore")),
            ("1910-12-31", None),
            ("1924-12/1925-03", Some("races")),
            ("1920/1930", Some("races")),
            ("1920/1928", Some("shore")),
            // Five years on either side, of which two leap years are in the first.
            ("192X", Some("shore")),
            ("1937", None),
            ("1930/1942", Some("races")),
            ("1945-12-31/1950", Some("war")),
            ("1910-24", Some("shore")),
        ] {
            assert_eq!(period_of(worn).as_deref(), period, "{worn}");
        }
    }

    #[test]
    fn of_periods_that_share_as_many_days_the_first_in_the_board_is_taken() {
        assert_eq!(period_of("1924-12/1925-01").as_deref(), Some("shore"));
    }

    #[test]
    fn an_open_date_counts_as_the_day_at_its_known_end() {
        for (worn, period) in [
            ("1926/..", Some("races")),
            ("../1926", Some("races")),
            ("1924/", Some("shore")),
            ("../1910", None),
            ("1946/..", None),
        ] {
            assert_eq!(period_of(worn).as_deref(), period, "{worn}");
        }
    }

    #[test]
    fn a_period_with_an_open_end_goes_on_for_ever() {
        let mut records = records();
        let mut head = Head::clone(&records.head);
        head.periods = read(serde_json::json!([
            {"id": "before", "title": "Before", "span": "../1925"},
            {"id": "since", "title": "Since", "span": "1926/.."},
        ]));
        records.head = Arc::new(head);
        for (name, worn, period) in [
            ("a", "-9999", "before"),
            ("b", "1925-12-31", "before"),
            ("c", "1926", "since"),
            ("d", "Y999999999999", "since"),
            ("e", "../1926", "since"),
        ] {
            let worn = Some(worn.parse().unwrap());
            records.outfits.insert(id(name), Arc::new(Outfit { worn, ..outfit(name, "odile") }));
            let board = Board::new(records.clone());
            assert_eq!(board.relations().period_of_outfit(&id(name)), Some(&id(period)), "{name}");
        }
    }
}

//! Time across the screen: one stretch of cells per period, and within it days in proportion.
//!
//! A period gets width by what it holds, not by its length, so that a crowded year has room; the ruler tells the
//! years.

use super::shelf::Column;
use crate::trade::date::Day;

/// The cells of one period.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Stretch {
    /// Which column of the shelf.
    pub column: usize,
    /// The first cell.
    pub x: u16,
    /// How many cells.
    pub width: u16,
    /// The first and last day.
    pub days: (Day, Day),
}

impl Stretch {
    /// The cell of a day; what is undated stands last.
    pub fn cell(&self, day: Option<Day>) -> u16 {
        let Some(day) = day else { return self.x + self.width - 1 };
        let whole = self.days.1.since(self.days.0).max(1);
        let part = day.since(self.days.0).clamp(0, whole);
        let cell = i128::from(part) * i128::from(self.width - 1) / i128::from(whole);
        self.x + u16::try_from(cell).unwrap_or(0)
    }
}

/// Every period at once over `width` cells from `x`, a cell between two. Needs two cells per period.
pub fn whole(columns: &[Column], x: u16, width: u16) -> Vec<Stretch> {
    let count = u16::try_from(columns.len()).unwrap_or(u16::MAX).max(1);
    let cells = width.saturating_sub(count - 1);
    let least = (cells / count).min(16);
    let weight = |column: &Column| column.slots.len().max(1);
    let total: usize = columns.iter().map(weight).sum();
    let spare = cells - least * count;
    let mut stretches = Vec::with_capacity(columns.len());
    let mut at = x;
    let (mut given, mut weighed) = (0, 0);
    for (number, column) in columns.iter().enumerate() {
        weighed += weight(column);
        // Rounding is carried along, so that the last cell is used and no more.
        let upto = usize::from(spare) * weighed / total.max(1);
        let own = u16::try_from(upto - given).unwrap_or(0);
        given = upto;
        let width = least + own;
        if width == 0 || at >= x + cells + count {
            break;
        }
        stretches.push(Stretch { column: number, x: at, width, days: column.days });
        at += width + 1;
    }
    stretches
}

/// As many periods side by side from `first` as are at least `least` cells wide.
pub fn part(columns: &[Column], first: usize, x: u16, width: u16, least: u16) -> Vec<Stretch> {
    let fit = fitting(columns.len(), width, least);
    let cells = width.saturating_sub(fit - 1);
    let mut at = x;
    let mut stretches = Vec::new();
    for place in 0..fit {
        let number = first + usize::from(place);
        let Some(column) = columns.get(number) else { break };
        let own = cells / fit + u16::from(place < cells % fit);
        stretches.push(Stretch { column: number, x: at, width: own.max(1), days: column.days });
        at += own + 1;
    }
    stretches
}

/// How many periods of at least `least` cells fit side by side; one at the least.
pub fn fitting(columns: usize, width: u16, least: u16) -> u16 {
    let columns = u16::try_from(columns).unwrap_or(u16::MAX).max(1);
    ((width + 1) / (least + 1)).clamp(1, columns)
}

/// The years that the ruler names, with their cells: every year, or every second, fifth, tenth … so that the names
/// keep apart.
pub fn years(stretches: &[Stretch]) -> Vec<(u16, i64)> {
    const NAME: u16 = 5;
    let mut named = Vec::new();
    let mut free = 0;
    for stretch in stretches {
        let (first, last) = (stretch.days.0.year(), stretch.days.1.year());
        let span = last.saturating_sub(first).saturating_add(1);
        let room = i64::from((stretch.width / NAME).max(1));
        let step = [1, 2, 5, 10, 20, 50, 100, 1000, 10_000, 1_000_000, i64::MAX / 4];
        let step = step.into_iter().find(|step| span / step <= room).unwrap_or(i64::MAX / 4);
        let mut year = first.saturating_add(step - 1).div_euclid(step).saturating_mul(step).max(first);
        // The first year of a period is always worth its name.
        if stretch.width >= NAME && year != first {
            named.push((stretch.x.max(free), first));
            free = stretch.x.max(free) + NAME;
        }
        while year <= last {
            let cell = stretch.cell(Day::from_ymd(year, 1, 1));
            if cell >= free && cell + NAME <= stretch.x + stretch.width + 1 {
                named.push((cell, year));
                free = cell + NAME;
            }
            year = year.saturating_add(step);
        }
    }
    named
}

#[cfg(test)]
mod tests {
    use super::*;

    fn stretch(x: u16, width: u16, from: i64, to: i64) -> Stretch {
        let days = (Day::from_ymd(from, 1, 1).unwrap(), Day::from_ymd(to, 12, 31).unwrap());
        Stretch { column: 0, x, width, days }
    }

    #[test]
    fn days_stand_in_proportion_and_never_outside() {
        let stretch = stretch(10, 21, 1920, 1929);
        assert_eq!(stretch.cell(Day::from_ymd(1920, 1, 1)), 10);
        assert_eq!(stretch.cell(Day::from_ymd(1929, 12, 31)), 30);
        assert_eq!(stretch.cell(Day::from_ymd(1925, 1, 1)), 20);
        assert_eq!(stretch.cell(Day::from_ymd(1800, 1, 1)), 10);
        assert_eq!(stretch.cell(None), 30);
    }

    #[test]
    fn years_on_the_ruler_keep_apart() {
        let named = years(&[stretch(0, 20, 1911, 1924), stretch(21, 30, 1925, 1930)]);
        assert_eq!(named.first(), Some(&(0, 1911)));
        assert!(named.iter().any(|(_, year)| *year == 1925));
        assert!(named.windows(2).all(|pair| pair[0].0 + 5 <= pair[1].0), "{named:?}");
    }

    #[test]
    fn as_many_periods_as_fit_but_never_none() {
        assert_eq!(fitting(6, 120, 36), 3);
        assert_eq!(fitting(6, 20, 36), 1);
        assert_eq!(fitting(2, 200, 36), 2);
    }
}

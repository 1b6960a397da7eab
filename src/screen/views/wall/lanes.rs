//! Lanes: every look a bar over the years that it stands for, packed into as few rows as can be.

use super::axis::Stretch;
use super::shelf::Lane;

/// A lane with its place.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Bar {
    /// Which lane of the shelf.
    pub lane: usize,
    /// The row within the zone.
    pub row: u16,
    /// First and last cell of the bar.
    pub cells: (u16, u16),
    /// Where each outfit stands, and whether it is the base.
    pub dots: Vec<(u16, bool)>,
    /// Where the name begins, and how many cells it has.
    pub name: (u16, u16),
}

/// All bars that fit, and how many do not.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Bars {
    /// The bars.
    pub bars: Vec<Bar>,
    /// How many rows they take.
    pub rows: u16,
    /// Lanes for which there was no row.
    pub hidden: usize,
}

/// Packs the lanes of the visible stretches into at most `rows` rows of cells up to `right`. Names are cut shorter
/// and shorter until everything fits. `name_width` gives the width of a lane's whole name.
pub fn pack(
    lanes: &[Lane],
    stretches: &[Stretch],
    right: u16,
    rows: u16,
    name_width: impl Fn(&Lane) -> u16,
) -> Bars {
    for most in [40, 32, 26, 22, 19, 16, 14, 12, 10] {
        let packed = pack_with(lanes, stretches, right, rows, |lane| name_width(lane).min(most));
        if packed.hidden == 0 {
            return packed;
        }
    }
    let mut packed = pack_with(lanes, stretches, right, rows, |_| 0);
    name_in_gaps(&mut packed.bars, right);
    packed
}

/// Names bars where there is room before the next one of the row.
fn name_in_gaps(bars: &mut [Bar], right: u16) {
    let starts: Vec<(u16, u16)> = bars.iter().map(|bar| (bar.row, bar.cells.0)).collect();
    for bar in bars {
        let name = bar.cells.1 + 2;
        let next = starts
            .iter()
            .filter(|(row, start)| *row == bar.row && *start > bar.cells.1)
            .map(|(_, start)| *start);
        let end = next.min().map_or(right, |start| start - 1);
        // Less than a word is no name.
        if end >= name + EXTRA + 4 {
            bar.name = (name, end - name);
        }
    }
}

/// Before a name: two cells of cloth, the mark, and spaces between.
const EXTRA: u16 = 6;

fn pack_with(
    lanes: &[Lane],
    stretches: &[Stretch],
    right: u16,
    rows: u16,
    name_width: impl Fn(&Lane) -> u16,
) -> Bars {
    let left = stretches.first().map_or(0, |stretch| stretch.x);
    let stretch_of = |column: usize| stretches.iter().find(|stretch| stretch.column == column);
    let mut bars: Vec<Bar> = Vec::new();
    for (number, lane) in lanes.iter().enumerate() {
        let mut dots: Vec<(u16, bool)> = lane
            .dots
            .iter()
            .filter_map(|(column, day, base)| Some((stretch_of(*column)?.cell(*day), *base)))
            .collect();
        // The base is drawn last, so that it is seen where two fall together.
        dots.sort();
        let ends = dots.first().zip(dots.last()).map(|(first, last)| (first.0, last.0));
        let Some(cells) = ends.or_else(|| stretch_of(lane.column).map(|stretch| (stretch.x, stretch.x)))
        else {
            continue;
        };
        bars.push(Bar { lane: number, row: 0, cells, dots, name: (0, 0) });
    }
    bars.sort_by_key(|bar| (bar.cells, bar.lane));
    let mut ends: Vec<u16> = Vec::new();
    let mut packed = Bars::default();
    for mut bar in bars {
        let name = name_width(&lanes[bar.lane]);
        let behind = if name == 0 { 0 } else { name + EXTRA };
        let before = bar.cells.1 + behind >= right && bar.cells.0 >= left + behind;
        let (start, end) = if before {
            (bar.cells.0 - behind, bar.cells.1 + 1)
        } else {
            (bar.cells.0, (bar.cells.1 + 1 + behind).min(right))
        };
        let row = ends.iter().position(|end| *end < start);
        let row = match row {
            Some(row) => row,
            None if ends.len() < usize::from(rows) => {
                ends.push(0);
                ends.len() - 1
            }
            None => {
                packed.hidden += 1;
                continue;
            }
        };
        ends[row] = end;
        bar.row = u16::try_from(row).unwrap_or(u16::MAX);
        bar.name =
            if before { (start, behind) } else { (bar.cells.1 + 2, (end - bar.cells.1).saturating_sub(2)) };
        packed.bars.push(bar);
    }
    packed.rows = u16::try_from(ends.len()).unwrap_or(u16::MAX);
    packed.bars.sort_by_key(|bar| bar.lane);
    packed
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::board::LookId;
    use crate::trade::date::Day;

    fn lane(name: &str, from: i64, to: i64) -> Lane {
        let day = |year| Day::from_ymd(year, 1, 1);
        let look: LookId = name.parse().unwrap();
        Lane { look, column: 0, outfits: Vec::new(), dots: vec![(0, day(from), true), (0, day(to), false)] }
    }

    fn decade() -> Vec<Stretch> {
        let days = (Day::from_ymd(1920, 1, 1).unwrap(), Day::from_ymd(1929, 12, 31).unwrap());
        vec![Stretch { column: 0, x: 0, width: 60, days }]
    }

    #[test]
    fn lanes_that_do_not_meet_share_a_row() {
        let lanes = [lane("a", 1920, 1921), lane("b", 1924, 1925), lane("c", 1920, 1925)];
        let packed = pack(&lanes, &decade(), 60, 9, |_| 4);
        let row = |at: usize| packed.bars.iter().find(|bar| bar.lane == at).unwrap().row;
        assert_eq!(row(0), row(1));
        assert_ne!(row(0), row(2));
        assert_eq!(packed.rows, 2);
    }

    #[test]
    fn names_give_way_before_lanes_do() {
        let lanes: Vec<Lane> = (0..4)
            .map(|at| lane(["a", "b", "c", "d"][at], 1920 + 2 * at as i64, 1920 + 2 * at as i64))
            .collect();
        let packed = pack(&lanes, &decade(), 60, 1, |_| 30);
        assert_eq!(packed.hidden, 0);
        let packed = pack(&[lane("a", 1920, 1925), lane("b", 1921, 1924)], &decade(), 60, 1, |_| 30);
        assert_eq!(packed.hidden, 1);
    }

    #[test]
    fn a_name_without_room_behind_stands_before() {
        let packed = pack(&[lane("a", 1928, 1929)], &decade(), 60, 3, |_| 20);
        assert!(packed.bars[0].name.0 < packed.bars[0].cells.0);
    }
}

//! Which scene of a draft is which of another.
//!
//! Scenes that agree in number, heading and words are taken as they are. The others are assigned so that the sum of
//! what pairs are alike beyond [`ENOUGH`] is the greatest there is: exactly, by the Hungarian method (H. W. Kuhn, *Naval
//! Research Logistics Quarterly* 2, 1955; with shortest augmenting paths as J. Munkres and later authors have it), in
//! each group of scenes that could be one another.

use std::collections::BTreeMap;

use super::draft::Draft;
use super::likeness::{ENOUGH, Likeness, same_heading};

/// So alike is a pair that agrees in number, heading and most words.
const SURE: f64 = 0.85;

/// Pairs of places, of the first draft and of the second, in the order of the first.
pub(super) fn pairs(before: &Draft, after: &Draft) -> Vec<(usize, usize)> {
    let likeness = Likeness::new(before, after);
    let by_number: BTreeMap<_, usize> = after
        .scenes
        .iter()
        .enumerate()
        .filter_map(|(at, scene)| Some((scene.number.as_ref()?, at)))
        .collect();
    let mut pairs = Vec::new();
    let mut taken = vec![false; after.scenes.len()];
    let mut rows = Vec::new();
    for (at, scene) in before.scenes.iter().enumerate() {
        let row = likeness.row(at);
        let twin = scene.number.as_ref().and_then(|number| by_number.get(number)).copied().filter(|to| {
            row[*to] >= SURE && same_heading(&scene.heading) == same_heading(&after.scenes[*to].heading)
        });
        match twin {
            Some(to) if !taken[to] => {
                taken[to] = true;
                pairs.push((at, to));
            }
            _ => rows.push((at, row)),
        }
    }
    let candidates: Vec<Candidate> = rows
        .iter()
        .flat_map(|(at, row)| row.iter().enumerate().map(move |(to, alike)| (*at, to, *alike)))
        .filter(|(_, to, alike)| !taken[*to] && *alike >= ENOUGH)
        .map(|(from, to, alike)| Candidate { from, to, worth: alike - ENOUGH })
        .collect();
    drop(rows);
    for group in groups(candidates, before.scenes.len()) {
        pairs.extend(assign(&group));
    }
    pairs.sort_unstable();
    pairs
}

/// Two scenes that could be one.
#[derive(Clone, Copy, Debug)]
struct Candidate {
    from: usize,
    to: usize,
    /// What it is worth to take them for one.
    worth: f64,
}

/// Candidates that compete for scenes, group by group.
fn groups(candidates: Vec<Candidate>, firsts: usize) -> Vec<Vec<Candidate>> {
    let scenes = candidates.iter().map(|one| firsts + one.to + 1).max().unwrap_or(firsts);
    let mut root: Vec<usize> = (0..scenes).collect();
    for one in &candidates {
        let (a, b) = (find(&mut root, one.from), find(&mut root, firsts + one.to));
        root[a] = b;
    }
    let mut groups: BTreeMap<usize, Vec<Candidate>> = BTreeMap::new();
    for one in candidates {
        groups.entry(find(&mut root, one.from)).or_default().push(one);
    }
    groups.into_values().collect()
}

fn find(root: &mut [usize], mut at: usize) -> usize {
    while root[at] != at {
        root[at] = root[root[at]];
        at = root[at];
    }
    at
}

/// The pairs of a group whose worth is the greatest in all.
fn assign(group: &[Candidate]) -> Vec<(usize, usize)> {
    if let [one] = group {
        return vec![(one.from, one.to)];
    }
    let places = |of: fn(&Candidate) -> usize| {
        let mut all: Vec<usize> = group.iter().map(of).collect();
        all.sort_unstable();
        all.dedup();
        all
    };
    let (rows, columns) = (places(|one| one.from), places(|one| one.to));
    // A row for each of the fewer; who is left without a partner gets a pair that is worth nothing.
    let turned = rows.len() > columns.len();
    let (few, many) = if turned { (&columns, &rows) } else { (&rows, &columns) };
    let mut worth = vec![vec![0.0; many.len()]; few.len()];
    for one in group {
        let (row, column) = if turned { (one.to, one.from) } else { (one.from, one.to) };
        if let (Ok(row), Ok(column)) = (few.binary_search(&row), many.binary_search(&column)) {
            // Even a pair at the limit is worth more than none.
            worth[row][column] = one.worth + 1e-9;
        }
    }
    let chosen = hungarian(&worth);
    let pair = |(row, column): (usize, usize)| {
        let (few, many) = (few[row], many[column]);
        if turned { (many, few) } else { (few, many) }
    };
    let real = chosen.into_iter().enumerate().filter(|(row, column)| worth[*row][*column] > 0.0);
    real.map(pair).collect()
}

/// For each row a column of its own so that the worth is the greatest in all. There are at least as many columns as
/// rows.
fn hungarian(worth: &[Vec<f64>]) -> Vec<usize> {
    let columns = worth.first().map_or(0, Vec::len);
    // Column 0 is where a search begins; `row_of` counts rows from 1, and 0 is none.
    let mut row_price = vec![0.0; worth.len() + 1];
    let mut column_price = vec![0.0; columns + 1];
    let mut row_of = vec![0_usize; columns + 1];
    for row in 1..=worth.len() {
        row_of[0] = row;
        let mut column = 0;
        let mut least = vec![f64::INFINITY; columns + 1];
        let mut from = vec![0_usize; columns + 1];
        let mut seen = vec![false; columns + 1];
        while row_of[column] != 0 {
            seen[column] = true;
            let here = row_of[column];
            let mut step = f64::INFINITY;
            let mut next = 0;
            for to in 1..=columns {
                if seen[to] {
                    continue;
                }
                let cost = -worth[here - 1][to - 1] - row_price[here] - column_price[to];
                if cost < least[to] {
                    least[to] = cost;
                    from[to] = column;
                }
                if least[to] < step {
                    step = least[to];
                    next = to;
                }
            }
            for to in 0..=columns {
                if seen[to] {
                    row_price[row_of[to]] += step;
                    column_price[to] -= step;
                } else {
                    least[to] -= step;
                }
            }
            column = next;
        }
        while column != 0 {
            row_of[column] = row_of[from[column]];
            column = from[column];
        }
    }
    let mut chosen = vec![0; worth.len()];
    for (column, row) in row_of.into_iter().enumerate().skip(1).filter(|(_, row)| *row > 0) {
        chosen[row - 1] = column - 1;
    }
    chosen
}

/// The places of the longest run that rises through `values`, which are all different: what stays where it is, so
/// that the fewest are moved (patience sorting; C. Schensted, *Canadian Journal of Mathematics* 13, 1961).
pub(super) fn longest_rise(values: &[usize]) -> Vec<bool> {
    let mut ends: Vec<usize> = Vec::new();
    let mut before = vec![None; values.len()];
    for (at, value) in values.iter().enumerate() {
        let length = ends.partition_point(|end| values[*end] < *value);
        before[at] = length.checked_sub(1).map(|shorter| ends[shorter]);
        if length == ends.len() { ends.push(at) } else { ends[length] = at }
    }
    let mut stays = vec![false; values.len()];
    let mut at = ends.last().copied();
    while let Some(here) = at {
        stays[here] = true;
        at = before[here];
    }
    stays
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    /// The greatest worth by trying every assignment.
    fn best(worth: &[Vec<f64>], taken: &mut Vec<bool>) -> f64 {
        let Some((row, rest)) = worth.split_first() else { return 0.0 };
        let mut most = f64::NEG_INFINITY;
        for column in 0..row.len() {
            if !taken[column] {
                taken[column] = true;
                most = most.max(row[column] + best(rest, taken));
                taken[column] = false;
            }
        }
        most
    }

    fn worths() -> impl Strategy<Value = Vec<Vec<f64>>> {
        (1..5_usize, 0..2_usize).prop_flat_map(|(rows, more)| {
            let one = (0..40_u32).prop_map(|part| if part < 15 { 0.0 } else { f64::from(part) / 40.0 });
            prop::collection::vec(prop::collection::vec(one, rows + more), rows)
        })
    }

    proptest! {
        #[test]
        fn the_assignment_is_the_best_that_there_is(worth in worths()) {
            let chosen = hungarian(&worth);
            let mut columns = chosen.clone();
            columns.sort_unstable();
            columns.dedup();
            prop_assert_eq!(columns.len(), worth.len());
            let sum: f64 = chosen.iter().zip(&worth).map(|(column, row)| row[*column]).sum();
            let best = best(&worth, &mut vec![false; worth[0].len()]);
            prop_assert!((sum - best).abs() < 1e-9, "{} {}", sum, best);
        }

        #[test]
        fn the_longest_rise_rises_and_none_is_longer(values in Just((0..7_usize).collect::<Vec<_>>()).prop_shuffle()) {
            let stays = longest_rise(&values);
            let kept = |mask: &dyn Fn(usize) -> bool| -> Vec<usize> {
                (0..values.len()).filter(|at| mask(*at)).map(|at| values[at]).collect()
            };
            let rise = kept(&|at| stays[at]);
            prop_assert!(rise.is_sorted());
            let longest = (0..1_u32 << values.len())
                .map(|mask| kept(&|at| mask >> at & 1 == 1))
                .filter(|rise| rise.is_sorted())
                .map(|rise| rise.len())
                .max();
            prop_assert_eq!(Some(rise.len()), longest);
        }
    }
}

//! Points in CIELAB to groups of like colour.
//!
//! k-means over the points, counted in small cells of CIELAB, from seeds that are chosen without chance: the fullest
//! cell, then each time the cell that is farthest from all seeds (Gonzalez, *Theoretical Computer Science* 38, 1985).
//! Then groups are joined, the nearest first, as long as two are nearer than one cloth in light and shade.

use std::collections::BTreeMap;

use super::{Point, apart, lab};

/// The side of a cell in CIELAB.
const CELL: f32 = 3.0;

/// Groups before they are joined.
const SEEDS: usize = 12;

/// Rounds after which k-means is as good as settled.
const ROUNDS: usize = 24;

/// Nearer than this by CIEDE2000, two groups are one cloth in light and shade. Ours, no source.
const ONE_CLOTH: f64 = 7.0;

/// Points of like colour.
pub(super) struct Group {
    points: Vec<Point>,
    middle: Point,
}

impl Group {
    /// How many points.
    pub(super) fn size(&self) -> usize {
        self.points.len()
    }

    /// The median of each part: what lies at the rim of a group, highlights and mixed pixels, does not pull it.
    pub(super) fn colour(&self) -> Point {
        let mut part = [0; 3].map(|_: i32| Vec::with_capacity(self.points.len()));
        for point in &self.points {
            part.iter_mut().zip(point).for_each(|(part, value)| part.push(*value));
        }
        part.map(|mut values| {
            values.sort_by(f32::total_cmp);
            values.get(values.len() / 2).copied().unwrap_or_default()
        })
    }

    fn join(&mut self, other: Group) {
        self.points.extend(other.points);
        self.middle = mean(&self.points);
    }
}

/// The groups, in no order but always the same.
pub(super) fn grouped(points: &[Point]) -> Vec<Group> {
    let cells = cells(points);
    let mut middles = seeds(&cells, points.len());
    for _ in 0..ROUNDS {
        let mut sums = vec![([0.0_f32; 3], 0.0_f32); middles.len()];
        for (middle, count) in &cells {
            if let Some((sum, counted)) = nearest(&middles, *middle).and_then(|at| sums.get_mut(at)) {
                sum.iter_mut().zip(middle).for_each(|(sum, part)| *sum += part * count);
                *counted += count;
            }
        }
        let next: Vec<Point> = sums
            .iter()
            .zip(&middles)
            .map(|((sum, count), old)| if *count > 0.0 { sum.map(|part| part / count) } else { *old })
            .collect();
        if next == middles {
            break;
        }
        middles = next;
    }
    let mut groups: Vec<Group> =
        middles.iter().map(|middle| Group { points: Vec::new(), middle: *middle }).collect();
    for point in points {
        if let Some(group) = nearest(&middles, *point).and_then(|at| groups.get_mut(at)) {
            group.points.push(*point);
        }
    }
    groups.retain(|group| !group.points.is_empty());
    joined(groups)
}

/// The mean of each cell that has points, and how many.
fn cells(points: &[Point]) -> Vec<(Point, f32)> {
    let mut cells: BTreeMap<[i32; 3], (Point, f32)> = BTreeMap::new();
    for point in points {
        let (sum, count) = cells.entry(point.map(|part| (part / CELL).floor() as i32)).or_default();
        sum.iter_mut().zip(point).for_each(|(sum, part)| *sum += part);
        *count += 1.0;
    }
    cells.into_values().map(|(sum, count)| (sum.map(|part| part / count), count)).collect()
}

/// Cells with next to nothing in them are grain and seed nothing, unless there are no others.
fn seeds(cells: &[(Point, f32)], total: usize) -> Vec<Point> {
    let least = (total as f32 / 500.0).min(cells.iter().map(|(_, count)| *count).fold(0.0, f32::max));
    let worth: Vec<(Point, f32)> = cells.iter().copied().filter(|(_, count)| *count >= least).collect();
    let Some((fullest, _)) =
        worth.iter().copied().reduce(|best, cell| if cell.1 > best.1 { cell } else { best })
    else {
        return Vec::new();
    };
    let mut seeds = vec![fullest];
    while seeds.len() < SEEDS {
        let far = worth
            .iter()
            .map(|(middle, _)| {
                let least = seeds.iter().map(|seed| apart(*seed, *middle)).fold(f32::INFINITY, f32::min);
                (*middle, least)
            })
            .reduce(|best, next| if next.1 > best.1 { next } else { best });
        match far {
            Some((middle, distance)) if distance > CELL * CELL => seeds.push(middle),
            _ => break,
        }
    }
    seeds
}

fn nearest(middles: &[Point], point: Point) -> Option<usize> {
    (0..middles.len())
        .min_by(|one, other| apart(middles[*one], point).total_cmp(&apart(middles[*other], point)))
}

fn joined(mut groups: Vec<Group>) -> Vec<Group> {
    loop {
        let mut best: Option<(f64, usize, usize)> = None;
        for one in 0..groups.len() {
            for other in one + 1..groups.len() {
                let difference = lab(groups[one].middle).difference(lab(groups[other].middle));
                if difference < ONE_CLOTH && best.is_none_or(|(least, ..)| difference < least) {
                    best = Some((difference, one, other));
                }
            }
        }
        let Some((_, one, other)) = best else { return groups };
        let taken = groups.remove(other);
        if let Some(group) = groups.get_mut(one) {
            group.join(taken);
        }
    }
}

fn mean(points: &[Point]) -> Point {
    let mut sum = [0.0_f64; 3];
    for point in points {
        sum.iter_mut().zip(point).for_each(|(sum, part)| *sum += f64::from(*part));
    }
    sum.map(|part| (part / points.len().max(1) as f64) as f32)
}

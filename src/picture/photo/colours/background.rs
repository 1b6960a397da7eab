//! The background of a small picture: what its edge shows for long stretches, and whatever runs on from there without
//! a step.

use super::{Point, apart};

/// The least step from pixel to pixel that the background does not make; and the most, however coarse its grain is.
const STEPS: (f32, f32) = (2.5, 6.0);

/// As many times the middle step along the picture's edge, which is its grain, no grain steps in a whole round.
const GRAIN: f32 = 4.0;

/// As far as a background strays from what the picture's edge shows of it, squared.
const REACH: f32 = 14.0 * 14.0;

/// A step over two pixels that is the edge of something, if the grain is not coarser.
const EDGE: f32 = 6.0;

/// Which pixels are background, and which lie on an edge, where colours are mixed.
pub(super) struct Ground {
    behind: Vec<bool>,
    edges: Vec<bool>,
}

impl Ground {
    pub(super) fn of(points: &[Option<Point>], width: usize) -> Self {
        let grid = Grid::smoothed(points, width);
        let edges = (0..points.len()).map(|at| grid.is_edge(at)).collect();
        Self { behind: grid.behind(), edges }
    }

    /// Whether a pixel is background.
    pub(super) fn behind(&self, at: usize) -> bool {
        self.behind.get(at).copied().unwrap_or(false)
    }

    /// Whether a pixel lies on an edge.
    pub(super) fn edge(&self, at: usize) -> bool {
        self.edges.get(at).copied().unwrap_or(false)
    }
}

struct Grid {
    points: Vec<Option<Point>>,
    width: usize,
    height: usize,
    /// The step that the background does not make, squared.
    step: f32,
    /// The step over two pixels that is an edge, squared.
    edge: f32,
}

impl Grid {
    fn smoothed(points: &[Option<Point>], width: usize) -> Self {
        let width = width.max(1);
        let mut grid =
            Self { points: points.to_vec(), width, height: points.len() / width, step: 0.0, edge: 0.0 };
        grid.points = (0..points.len()).map(|at| grid.mean_around(at)).collect();
        let step = (GRAIN * grid.middle_step()).clamp(STEPS.0, STEPS.1);
        let edge = EDGE.max(2.0 * step);
        Self { step: step * step, edge: edge * edge, ..grid }
    }

    /// The median of the steps from pixel to pixel along the picture's edge.
    fn middle_step(&self) -> f32 {
        let rim = self.rim();
        let mut steps: Vec<f32> = rim
            .windows(2)
            .filter_map(|pair| match pair {
                [one, other] => Some(apart(self.points[*one]?, self.points[*other]?)),
                _ => None,
            })
            .collect();
        steps.sort_by(f32::total_cmp);
        steps.get(steps.len() / 2).copied().unwrap_or_default().sqrt()
    }

    fn get(&self, x: usize, y: usize) -> Option<Point> {
        if x >= self.width || y >= self.height {
            None
        } else {
            self.points.get(y * self.width + x).copied()?
        }
    }

    fn mean_around(&self, at: usize) -> Option<Point> {
        self.points.get(at).copied()??;
        let (x, y) = (at % self.width, at / self.width);
        let (mut sum, mut count) = ([0.0; 3], 0.0);
        for (dx, dy) in (0..9).map(|step| (step % 3, step / 3)) {
            let Some(point) =
                (x + dx).checked_sub(1).zip((y + dy).checked_sub(1)).and_then(|(x, y)| self.get(x, y))
            else {
                continue;
            };
            sum.iter_mut().zip(point).for_each(|(sum, part)| *sum += part);
            count += 1.0;
        }
        Some(sum.map(|part| part / count))
    }

    fn is_edge(&self, at: usize) -> bool {
        let (x, y) = (at % self.width, at / self.width);
        let step = |one: Option<Point>, other: Option<Point>| match (one, other) {
            (Some(one), Some(other)) => apart(one, other) > self.edge,
            _ => false,
        };
        step(self.get(x.saturating_sub(1), y), self.get(x + 1, y))
            || step(self.get(x, y.saturating_sub(1)), self.get(x, y + 1))
    }

    /// The pixels of the picture's edge, once round.
    fn rim(&self) -> Vec<usize> {
        let (right, bottom) = (self.width.saturating_sub(1), self.height.saturating_sub(1));
        let at = |x: usize, y: usize| y * self.width + x;
        let top = (0..right).map(|x| at(x, 0));
        let down = (0..bottom).map(|y| at(right, y));
        let back = (1..=right).rev().map(|x| at(x, bottom));
        let up = (1..=bottom).rev().map(|y| at(0, y));
        top.chain(down).chain(back).chain(up).collect()
    }

    /// The stretches of the rim without a step in them that are a quarter of it or more. A figure that is cut off by
    /// the picture's edge takes less.
    fn stretches(&self) -> Vec<usize> {
        let rim = self.rim();
        let joined = |one: usize, other: usize| {
            matches!((self.points.get(one), self.points.get(other)), (Some(Some(one)), Some(Some(other)))
                if apart(*one, *other) <= self.step)
        };
        // Begun behind a step, so that no stretch is cut where the round began.
        let start =
            (0..rim.len()).find(|&at| !joined(rim[(at + rim.len() - 1) % rim.len()], rim[at])).unwrap_or(0);
        let mut stretches: Vec<Vec<usize>> = Vec::new();
        for step in 0..rim.len() {
            let at = rim[(start + step) % rim.len()];
            match stretches.last_mut() {
                Some(stretch) if stretch.last().is_some_and(|&last| joined(last, at)) => stretch.push(at),
                _ => stretches.push(vec![at]),
            }
        }
        stretches.into_iter().filter(|stretch| stretch.len() * 4 >= rim.len()).flatten().collect()
    }

    fn behind(&self) -> Vec<bool> {
        let mut behind = vec![false; self.points.len()];
        let mut open = self.stretches();
        let shown = self.shown(&open);
        open.iter().for_each(|&at| behind[at] = true);
        while let Some(at) = open.pop() {
            let (x, y) = (at % self.width, at / self.width);
            let Some(from) = self.get(x, y) else { continue };
            for (nx, ny) in [(x.wrapping_sub(1), y), (x + 1, y), (x, y.wrapping_sub(1)), (x, y + 1)] {
                let Some(to) = self.get(nx, ny) else { continue };
                let next = ny * self.width + nx;
                let near = || shown.iter().any(|colour| apart(*colour, to) <= REACH);
                if !behind[next] && apart(from, to) <= self.step && near() {
                    behind[next] = true;
                    open.push(next);
                }
            }
        }
        behind
    }

    /// The colours of the stretches, each once and roughly.
    fn shown(&self, stretches: &[usize]) -> Vec<Point> {
        let mut shown: Vec<Point> = Vec::new();
        for point in stretches.iter().filter_map(|&at| self.points.get(at).copied().flatten()) {
            if shown.iter().all(|known| apart(*known, point) > REACH / 16.0) {
                shown.push(point);
            }
        }
        shown
    }
}

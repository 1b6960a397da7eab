//! Far zoom: every outfit a block of its colours, stacked at its time.

use super::axis::Stretch;
use super::shelf::Column;

/// A block and what stands behind it: one entry, or several where there are more than cells.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Block {
    /// The column of the shelf.
    pub column: usize,
    /// The rows of the column that it stands for.
    pub rows: std::ops::Range<usize>,
    /// The first cell.
    pub x: u16,
    /// The row below the ruler.
    pub y: u16,
}

/// All blocks, and how wide each is.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Blocks {
    /// The blocks, by column and time.
    pub blocks: Vec<Block>,
    /// Cells from one block to the next: 3 with a gap, 2, or 1.
    pub pitch: u16,
    /// How high the highest stack is.
    pub height: u16,
    /// Per column of the shelf: its first block, and how many rows each block stands for.
    columns: Vec<(usize, usize)>,
}

/// Lays the entries out in stacks of at most `height` blocks: as wide as can be, and as near to their day.
pub fn lay(columns: &[Column], stretches: &[Stretch], height: u16) -> Blocks {
    let height = height.max(1);
    let slots = |stretch: &Stretch, pitch: u16| usize::from((stretch.width / pitch).max(1));
    let holds = |pitch: u16| {
        stretches.iter().all(|stretch| {
            stretch.width >= pitch
                && columns[stretch.column].slots.len() <= slots(stretch, pitch) * usize::from(height)
        })
    };
    let pitch = [3, 2].into_iter().find(|pitch| holds(*pitch)).unwrap_or(1);
    let mut laid = Blocks { blocks: Vec::new(), pitch, height: 0, columns: Vec::new() };
    for stretch in stretches {
        let column = &columns[stretch.column];
        let slots = slots(stretch, pitch);
        let room = slots * usize::from(height);
        let each = column.slots.len().div_ceil(room).max(1);
        let count = column.slots.len().div_ceil(each);
        laid.columns.push((laid.blocks.len(), each));
        // A stack may be half as high again as it need be, so that a crowded year is seen to be one.
        let most = (count * 3).div_ceil(slots * 2).max(3).min(usize::from(height));
        let mut heights = vec![0_usize; slots];
        for start in (0..column.slots.len()).step_by(each) {
            let rows = start..(start + each).min(column.slots.len());
            let cell = stretch.cell(column.slots[start].day) - stretch.x;
            let wanted = usize::from(cell / pitch).min(slots - 1);
            let Some(slot) = nearest_free(&heights, wanted, most) else { break };
            let x = stretch.x + u16::try_from(slot).unwrap_or(0) * pitch;
            let y = u16::try_from(heights[slot]).unwrap_or(0);
            heights[slot] += 1;
            laid.height = laid.height.max(y + 1);
            laid.blocks.push(Block { column: stretch.column, rows, x, y });
        }
    }
    laid
}

/// The slot nearest to `wanted` whose stack is not full; later ones first, so that order is kept.
fn nearest_free(heights: &[usize], wanted: usize, most: usize) -> Option<usize> {
    (0..heights.len()).find_map(|off| {
        let later = wanted + off;
        let earlier = wanted.checked_sub(off);
        [Some(later), earlier]
            .into_iter()
            .flatten()
            .find(|at| heights.get(*at).is_some_and(|height| *height < most))
    })
}

impl Blocks {
    /// The block that stands for a row of a column.
    pub fn of(&self, column: usize, row: usize) -> Option<&Block> {
        let (first, each) = self.columns.get(column)?;
        self.blocks
            .get(first + row / each)
            .filter(|block| block.column == column && block.rows.contains(&row))
    }

    /// The block at a cell, rows counted from below the ruler.
    pub fn at(&self, x: u16, y: u16) -> Option<&Block> {
        let cells = self.pitch.min(2);
        self.blocks.iter().find(|block| block.y == y && (block.x..block.x + cells).contains(&x))
    }

    /// The block nearest above or below another: in its stack, or else beside it.
    pub fn vertical(&self, from: &Block, down: bool) -> Option<&Block> {
        let beyond = |block: &&Block| if down { block.y > from.y } else { block.y < from.y };
        self.blocks
            .iter()
            .filter(beyond)
            .min_by_key(|block| (block.x.abs_diff(from.x), block.y.abs_diff(from.y)))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_full_stack_spills_to_the_nearest_slot() {
        assert_eq!(nearest_free(&[2, 2, 0], 0, 2), Some(2));
        assert_eq!(nearest_free(&[0, 2, 0], 1, 2), Some(2));
        assert_eq!(nearest_free(&[0, 2, 2], 1, 2), Some(0));
        assert_eq!(nearest_free(&[2, 2], 1, 2), None);
    }
}

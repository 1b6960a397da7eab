//! How large the file must be from which a cloth is printed.

use crate::board::Cloth;
use crate::trade::length::Size;

/// One repeat of a pattern as a picture.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct PrintFile {
    /// Pixels across.
    pub across: u32,
    /// Pixels along.
    pub along: u32,
}

impl PrintFile {
    /// Of a cloth that is printed; `None` where it is not, or where its repeat is not told both ways.
    pub fn of(cloth: &Cloth) -> Option<Self> {
        let dpi = cloth.print_dpi?;
        Some(Self {
            across: pixels(cloth.repeat_across?, dpi.get())?,
            along: pixels(cloth.repeat?, dpi.get())?,
        })
    }

    /// How many bytes it has without compression, at four channels of eight bits.
    pub fn bytes(self) -> u64 {
        4 * u64::from(self.across) * u64::from(self.along)
    }
}

/// The whole pixels that cover a length.
fn pixels(size: Size, dpi: u16) -> Option<u32> {
    // Hundredths of a millimetre times dots an inch of 2,540 of them.
    let dots = i128::from(size.length().hundredths()) * i128::from(dpi);
    u32::try_from((dots + 2_539) / 2_540).ok()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_repeat_has_its_pixels_at_so_many_dots_an_inch() {
        let mut cloth = Cloth::titled("Georgette");
        (cloth.repeat, cloth.repeat_across) = ("64 cm".parse().ok(), "10 in".parse().ok());
        assert_eq!(PrintFile::of(&cloth), None);
        cloth.print_dpi = std::num::NonZeroU16::new(200);
        let file = PrintFile::of(&cloth).unwrap();
        // 640 mm / 25.4 × 200 = 5,039.37.
        assert_eq!((file.across, file.along, file.bytes()), (2_000, 5_040, 40_320_000));
    }
}

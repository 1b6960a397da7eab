//! The arithmetic that carries a garment over to another body. Lengths in and out are to a hundredth of a millimetre;
//! `None` comes out where the result is longer than any length can be, or where nothing is left of it.

use crate::trade::angle::Angle;
use crate::trade::length::{Length, Size};

/// The body's measure and the ease that the original had: `wearer + (garment − original)`.
pub fn eased(garment: Length, original: Length, wearer: Length) -> Option<Length> {
    Size::new(wearer + (garment - original)).map(Size::length)
}

/// In proportion: `garment × wearer / original`.
pub fn in_ratio(garment: Length, original: Size, wearer: Length) -> Option<Length> {
    Length::of_millimetres(garment.millimetres() * wearer.millimetres() / original.length().millimetres())
}

/// Where an edge falls, and how deep the piece is to its edge.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Edge {
    /// The part of the segment at which it falls, of which 1 is the whole.
    pub fraction: f64,
    /// How far along the segment it falls.
    pub falls: Length,
    /// How deep the piece is along its own slope: `falls / sin angle`.
    pub deep: Length,
}

/// The edge that keeps its fraction of the segment and its angle.
pub fn at_landmark(fraction: f64, segment: Length, angle: Angle) -> Option<Edge> {
    let falls = fraction * segment.millimetres();
    Some(Edge {
        fraction,
        falls: Length::of_millimetres(falls)?,
        deep: Length::of_millimetres(falls / angle.radians().sin())?,
    })
}

/// The fraction at which an edge fell that was so deep along its slope: `deep × sin angle / segment`.
pub fn fraction_of(deep: Length, segment: Size, angle: Angle) -> f64 {
    deep.millimetres() * angle.radians().sin() / segment.length().millimetres()
}

/// How much longer the way over a pad is than the way without it: `φ × t`, since a circle whose radius grows by the
/// thickness `t` grows by `φ × t` over the arc `φ`.
pub fn over_pad(thick: Size, arc: Angle) -> Option<Length> {
    Length::of_millimetres(arc.radians() * thick.length().millimetres())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn length(text: &str) -> Length {
        text.parse().unwrap()
    }

    #[test]
    fn the_ease_of_the_original_is_kept_whoever_wears_it() {
        assert_eq!(eased(length("102 cm"), length("91 cm"), length("96 cm")), Some(length("107 cm")));
        // A bathing costume is smaller than the body.
        assert_eq!(eased(length("84 cm"), length("91 cm"), length("96 cm")), Some(length("89 cm")));
        assert_eq!(eased(length("50 cm"), length("90 cm"), length("40 cm")), None);
    }

    #[test]
    fn what_cannot_be_so_long_is_nothing() {
        let most = length("1000 m");
        assert_eq!(in_ratio(most, "0.01 mm".parse().unwrap(), most), None);
        assert!(at_landmark(1.0, most, "0.01".parse().unwrap()).is_none());
    }
}

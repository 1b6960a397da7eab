//! Lengths of cloth and pattern repeats against worked examples that others have published.
//!
//! They are of curtains and drapery, whose rules are those of any rectangles: a cut is rounded up to whole repeats, and
//! widths to whole widths of cloth. All are in inches.

#![allow(clippy::unwrap_used, reason = "what does not read is a failed test")]

use shirr::board::Cloth;
use shirr::trade::length::{Length, Size};
use shirr::workroom::cloth::lay::{panels, up_to};

fn inches(number: f64) -> Length {
    format!("{number} in").parse().unwrap()
}

fn size(number: f64) -> Size {
    Size::new(inches(number)).unwrap()
}

#[test]
fn cuts_in_whole_repeats() {
    for (cut, repeat, repeats, rounded, source) in [
        (
            96.0,
            27.0,
            4.0,
            108.0,
            "“Figuring Pattern Repeats”, diyideas.com/howto/sewing-fabric/fabricrepeats_3.html",
        ),
        (116.0, 25.0, 5.0, 125.0, "Workroom Threads, August 2011, spotidoc.com/doc/91348"),
        (114.0, 4.5, 26.0, 117.0, "fayefortune.blogspot.com/2012/03"),
        (108.0, 18.0, 6.0, 108.0, "freelivecalculators.com/drapery-yardage-calculator"),
    ] {
        assert_eq!(up_to(inches(cut), Some(size(repeat))), Some(inches(rounded)), "{source}");
        assert_eq!(inches(rounded), inches(repeats * repeat), "{source}");
    }
}

#[test]
fn widths_of_cloth_and_the_length_of_all() {
    // Curtains of several widths are panels as wide as the cloth.
    for (cut, wide, cloth, widths, whole, source) in [
        (114.0, 189.0, 54.0, 4, 456.0, "drpinc.net/drp/measuring_for_draperies.php"),
        (96.0, 146.25, 54.0, 3, 288.0, "homesteady.com/how-7849834"),
        (88.0, 225.0, 54.0, 5, 440.0, "ehow.co.uk/how_6326063"),
    ] {
        let mut of = Cloth::titled("curtain");
        of.width = Some(size(cloth));
        let needed = (wide / cloth).ceil();
        assert_eq!(needed, f64::from(widths), "{source}");
        let laid = panels(&of, widths, size(cut), size(cloth)).unwrap();
        assert_eq!((laid.rows, laid.bought), (Some((1, u32::from(widths))), inches(whole)), "{source}");
    }
}

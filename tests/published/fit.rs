//! The geometry of pads and edges against closed forms.
//!
//! The length of an arc is its angle times its radius (Euclid's *Elements*, book VI, proposition 33: arcs are as their
//! angles), so the way over a pad of even thickness is longer by the angle times the thickness, whatever the limb. In a
//! right triangle the side over against an angle is the longest side times the sine of the angle, by which an edge that
//! lies at an angle is as deep as it reaches, over the sine.

#![allow(clippy::unwrap_used, reason = "what does not read is a failed test")]

use shirr::trade::angle::Angle;
use shirr::trade::length::{Length, Size};
use shirr::workroom::fit::rule::{at_landmark, fraction_of, in_ratio, over_pad};

fn angle(degrees: f64) -> Angle {
    Angle::of_degrees(degrees).unwrap()
}

fn size(millimetres: f64) -> Size {
    Size::new(length(millimetres)).unwrap()
}

fn length(millimetres: f64) -> Length {
    Length::of_millimetres(millimetres).unwrap()
}

/// Within what a length can tell apart.
fn is_near(length: Length, millimetres: f64) -> bool {
    (length.millimetres() - millimetres).abs() <= 0.005 + 1e-9
}

#[test]
fn a_pad_lengthens_a_girth_by_the_difference_of_two_arcs() {
    for radius in [40.0, 60.5, 180.0] {
        for thick in [5.0, 20.0, 33.3] {
            for degrees in [30.0, 90.0, 180.0, 270.0, 360.0_f64] {
                let arc = |radius: f64| degrees.to_radians() * radius;
                let longer = over_pad(size(thick), angle(degrees)).unwrap();
                assert!(is_near(longer, arc(radius + thick) - arc(radius)), "{radius} {thick} {degrees}");
            }
        }
    }
}

#[test]
fn a_pad_all_round_and_one_half_way_round() {
    use std::f64::consts::PI;
    assert!(is_near(over_pad(size(20.0), angle(360.0)).unwrap(), 40.0 * PI));
    assert!(is_near(over_pad(size(20.0), angle(180.0)).unwrap(), 20.0 * PI));
}

#[test]
fn the_pad_is_what_a_polygon_with_many_corners_says() {
    // An independent way to the same: chords of the outer and the inner arc, summed.
    let chords = |radius: f64, degrees: f64| {
        let parts = 100_000;
        let half = degrees.to_radians() / f64::from(parts) / 2.0;
        f64::from(parts) * 2.0 * radius * half.sin()
    };
    let longer = over_pad(size(18.0), angle(215.0)).unwrap();
    assert!((longer.millimetres() - (chords(78.0, 215.0) - chords(60.0, 215.0))).abs() < 0.01);
}

#[test]
fn edges_at_the_angles_whose_sines_are_known() {
    for (degrees, sine) in [(30.0, 0.5), (45.0, 0.5_f64.sqrt()), (60.0, 0.75_f64.sqrt()), (90.0, 1.0)] {
        let edge = at_landmark(0.6, length(100.0), angle(degrees)).unwrap();
        assert_eq!(edge.falls, length(60.0));
        assert!(is_near(edge.deep, 60.0 / sine), "{degrees}");
        let back = fraction_of(edge.deep, size(100.0), angle(degrees));
        assert!((back - 0.6).abs() < 1e-3, "{degrees}: {back}");
    }
}

#[test]
fn an_edge_keeps_its_place_on_any_neck() {
    // Pythagoras: the edge that reaches 60 of a neck of 100 while it goes 80 outwards is 100 deep; its angle has the sine
    // 0.6. On a neck of 125 it reaches 75, and is 125 deep.
    let lies = angle(0.6_f64.asin().to_degrees());
    let fraction = fraction_of(length(100.0), size(100.0), lies);
    let edge = at_landmark(fraction, length(125.0), lies).unwrap();
    assert!((fraction - 0.6).abs() < 1e-3);
    // The angle is kept to a hundredth of a degree.
    assert!((edge.falls.millimetres() - 75.0).abs() < 0.02 && (edge.deep.millimetres() - 125.0).abs() < 0.02);
}

#[test]
fn the_rule_of_three() {
    assert_eq!(in_ratio(length(420.0), size(740.0), length(800.0)), Some(length(454.05)));
    assert_eq!(in_ratio(length(420.0), size(740.0), length(740.0)), Some(length(420.0)));
}

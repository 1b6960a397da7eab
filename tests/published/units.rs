//! Conversions against their defining units, and against a package that knows them independently.

#![allow(clippy::unwrap_used, reason = "a length that does not read is a failed claim")]

use shirr::trade::cloth_weight::{AreaWeight, ClothWeight};
use shirr::trade::length::Length;

fn length(text: &str) -> Length {
    text.parse().unwrap()
}

fn area(text: &str) -> AreaWeight {
    match text.parse() {
        Ok(ClothWeight::Area(weight)) => weight,
        other => panic!("{text}: {other:?}"),
    }
}

fn leather(text: &str) -> f64 {
    match text.parse() {
        Ok(ClothWeight::Leather(weight)) => weight.millimetres(),
        other => panic!("{text}: {other:?}"),
    }
}

/// What is stored is rounded to a thousandth.
fn near(found: f64, published: f64) {
    assert!((found - published).abs() <= 0.000_5, "{found} for {published}");
}

/// International yard and pound agreement, 1959: the yard is 0.9144 m, the pound 0.453 592 37 kg, exactly. All else
/// follows in whole numbers: 36 inches and 3 feet to the yard, 16 ounces to the pound.
#[test]
fn inches_and_ounces_follow_from_the_yard_and_the_pound() {
    let yard = 914.4;
    for (text, millimetres) in [("1 yd", yard), ("1 ft", yard / 3.0), ("1 in", yard / 36.0)] {
        assert!((length(text).millimetres() - millimetres).abs() < 1e-9, "{text}");
    }
    let ounce_a_square_yard = 453.592_37 / 16.0 / (0.9144 * 0.9144);
    near(area("1 oz/yd²").grams(), ounce_a_square_yard);
    near(area("100 oz/yd²").grams(), 100.0 * ounce_a_square_yard);
    let momme = 453.592_37 / (45.0 * 0.0254 * 100.0 * 0.9144);
    near(area("1 momme").grams(), momme);
    near(leather("1 oz leather"), 25.4 / 64.0);
}

/// PyPI `pint` 0.25.3, in its default units, `q = pint.UnitRegistry().Quantity`:
///
/// - `q("10 oz/yd**2").to("g/m**2")`
/// - `(q("1 lb") / (q("45 in") * q("100 yd"))).to("g/m**2")`
/// - `(q("1 in") / 64).to("mm")`
/// - `q("22.5 in").to("mm")`, `q("2.5 yd").to("mm")`
/// - `q(340, "g/m**2").to("oz/yd**2")` and `(q(340, "g/m**2") * q("45 in") * q("100 yd")).to("lb")`; so 150 and 83.5
#[test]
fn an_independent_package_agrees() {
    near(area("10 oz/yd²").grams(), 339.057_474_748_823);
    near(area("1 momme").grams(), 4.339_935_676_784_934);
    near(leather("1 oz leather"), 0.396_875);
    near(length("22 1/2 in").millimetres(), 571.5);
    near(length("2 1/2 yd").millimetres(), 2286.0);
    for (text, ounces, momme) in [
        ("340 g/m²", 10.027_798_391_758_662, 78.342_174_935_614_34),
        ("150 g/m²", 4.424_028_702_246_469, 34.562_724_236_300_53),
        ("83.5 g/m²", 2.462_709_310_917_200_7, 19.239_916_491_540_63),
    ] {
        assert!((area(text).ounces() - ounces).abs() < 1e-9, "{text}");
        assert!((area(text).momme() - momme).abs() < 1e-9, "{text}");
    }
}

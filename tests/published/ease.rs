//! Wearing ease against the tables that it is taken from.

#![allow(clippy::unwrap_used, reason = "a length that does not read is a failed claim")]

use shirr::trade::body::BodyMeasure::{self, *};
use shirr::trade::length::Length;
use shirr::workroom::fit::ease::{lack, least, published};

fn length(text: &str) -> Length {
    text.parse().unwrap()
}

/// The line is there: of this garment, from this many inches up to so many.
fn says(measure: BodyMeasure, garment: &str, source: &str, from: &str, to: Option<&str>) {
    let found = published(measure).any(|line| {
        line.garment == garment
            && line.source.contains(source)
            && (line.least, line.most) == (length(from), to.map(length))
    });
    assert!(found, "{measure} of {garment}: {from}");
}

/// Central Washington University, S. Robinson, course text on costume, chapter 16, "Ease In Clothing",
/// cwu.edu/~robinsos/ppages/resources/costxt/costxt_16.htm: women's first, then men's.
#[test]
fn ease_is_that_of_a_course_text() {
    let says = |measure, garment, from, to| says(measure, garment, "Central Washington", from, to);
    says(BustGirth, "women's bodices", "1 1/2 in", Some("2 in"));
    says(WaistGirth, "dresses", "3/4 in", Some("1 in"));
    says(WaistGirth, "women's skirts and trousers", "1/2 in", Some("3/4 in"));
    says(HipGirth, "all women's garments", "2 in", Some("2 3/4 in"));
    says(ChestGirth, "fitted shirts", "1 1/2 in", Some("2 1/2 in"));
    says(WaistGirth, "men's trousers", "3/4 in", Some("1 in"));
    says(HipGirth, "men's trousers", "1 1/2 in", Some("2 in"));
    says(ThighGirth, "men's trousers", "1 in", None);
}

/// New Mexico State University, I. Ahn, "Measurements for Fitting Pants", Guide C-209, pubs.nmsu.edu/_c/C209: at least
/// 2–4 inches at the hips. Thigh 1–2 inches, knee at least 1 inch, crotch depth 1/2 inch below 36 inches of hips and 1
/// inch above 38: from the edition of C. Kratzer of the same guide.
#[test]
fn ease_is_that_of_an_extension_service() {
    let says = |measure, from, to| says(measure, "trousers", "New Mexico", from, to);
    says(HipGirth, "2 in", Some("4 in"));
    says(ThighGirth, "1 in", Some("2 in"));
    says(KneeGirth, "1 in", None);
    says(BodyRise, "1/2 in", Some("1 in"));
}

/// "Set-in Sleeve Solutions", *Threads*, 27 September 2021: at least 2 inches at the biceps.
#[test]
fn ease_of_a_sleeve_is_that_of_a_sewing_journal() {
    says(UpperArmGirth, "set-in sleeves", "Threads", "2 in", None);
}

#[test]
fn whoever_has_the_least_ease_of_every_table_lacks_none_and_a_tape_less_lacks_it() {
    for (measure, inches) in [
        (BustGirth, "1 1/2 in"),
        (ChestGirth, "1 1/2 in"),
        (WaistGirth, "1/2 in"),
        (HipGirth, "1 1/2 in"),
        (ThighGirth, "1 in"),
        (KneeGirth, "1 in"),
        (BodyRise, "1/2 in"),
        (UpperArmGirth, "2 in"),
    ] {
        let (body, room) = (length("60 cm"), length(inches));
        assert_eq!(least(measure).map(|(least, _)| least), Some(room), "{measure}");
        assert_eq!(lack(measure, body, body + room), None, "{measure}");
        let tight = lack(measure, body, body + room - length("1 mm")).unwrap();
        assert_eq!(tight.lacking, length("1 mm"), "{measure}");
    }
}

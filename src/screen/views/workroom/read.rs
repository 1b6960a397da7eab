//! Lengths, weights and parts as people type them into a cell or a form of the workroom.

use std::str::FromStr;

use crate::screen::layers::form::Reading;
use crate::trade::body::BodyMeasure;
use crate::trade::cloth_weight::ClothWeight;
use crate::trade::length::{Length, Size, Unit};

/// What a text is read as, or what is wrong with it. Nothing for an empty text.
pub fn read<T>(text: &str) -> Result<Option<T>, String>
where
    T: FromStr,
    T::Err: std::fmt::Display,
{
    if text.is_empty() {
        return Ok(None);
    }
    text.parse().map(Some).map_err(|error: T::Err| error.to_string())
}

/// A length, where a bare number is in the board's unit. Nothing for an empty text.
pub fn length(text: &str, unit: Unit) -> Result<Option<Length>, String> {
    read(&with_unit(text, unit))
}

/// A length above nothing, as [`length`] reads it.
pub fn size(text: &str, unit: Unit) -> Result<Option<Size>, String> {
    read(&with_unit(text, unit))
}

/// The text with the board's unit where it has none of its own.
fn with_unit(text: &str, unit: Unit) -> String {
    let is_bare = text.chars().all(|c| c.is_ascii_digit() || " ./-".contains(c));
    match unit {
        _ if !is_bare || text.is_empty() => text.to_owned(),
        Unit::Centimetres => format!("{text} cm"),
        Unit::Inches => format!("{text} in"),
    }
}

/// A length in the board's unit, and in the other: `57.2 cm, 22 1/2 in`.
pub fn both(length: Length, unit: Unit) -> String {
    let other = match unit {
        Unit::Centimetres => Unit::Inches,
        Unit::Inches => Unit::Centimetres,
    };
    format!("{}, {}", length.shown(unit), length.shown(other))
}

/// How a form's field reads a length above nothing.
pub fn size_reading(unit: Unit) -> Reading {
    fn says(text: &str, unit: Unit) -> Result<String, String> {
        let empty = || "nothing, or such as 57.2 cm, 22 1/2 in".to_owned();
        Ok(size(text, unit)?.map_or_else(empty, |size| both(size.length(), unit)))
    }
    match unit {
        Unit::Centimetres => |text| says(text, Unit::Centimetres),
        Unit::Inches => |text| says(text, Unit::Inches),
    }
}

/// How a form's field reads a length that may be less than nothing.
pub fn length_reading(unit: Unit) -> Reading {
    fn says(text: &str, unit: Unit) -> Result<String, String> {
        let empty = || "nothing, or such as 1.5 cm, -1/2 in".to_owned();
        Ok(length(text, unit)?.map_or_else(empty, |length| both(length, unit)))
    }
    match unit {
        Unit::Centimetres => |text| says(text, Unit::Centimetres),
        Unit::Inches => |text| says(text, Unit::Inches),
    }
}

/// What a measure of the body is.
pub fn body_measure_says(text: &str) -> Result<String, String> {
    let empty = || "such as bust girth, arm length, inside leg length".to_owned();
    Ok(read::<BodyMeasure>(text)?.map_or_else(empty, |measure| measure.definition().to_owned()))
}

/// How a weight of cloth is read.
pub fn weight_says(text: &str) -> Result<String, String> {
    let empty = || "such as 280 g/m², 9 oz/yd², 16 momme, 3 oz leather".to_owned();
    Ok(read::<ClothWeight>(text)?.map_or_else(empty, |weight| weight.to_string()))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_bare_number_is_in_the_unit_of_the_board_and_any_other_says_its_own() {
        let said = |text: &str, unit| size(text, unit).map(|size| size.map(|size| both(size.length(), unit)));
        assert_eq!(said("57.2", Unit::Centimetres), Ok(Some("57.2 cm, 22 1/2 in".to_owned())));
        assert_eq!(said("22 1/2", Unit::Inches), Ok(Some("22 1/2 in, 57.2 cm".to_owned())));
        assert_eq!(said("22 1/2 in", Unit::Centimetres), Ok(Some("57.2 cm, 22 1/2 in".to_owned())));
        assert_eq!(said("22 1/2\"", Unit::Centimetres), Ok(Some("57.2 cm, 22 1/2 in".to_owned())));
        assert_eq!(said("", Unit::Inches), Ok(None));
        for wrong in ["ninety", "9 ells", "-3", "0"] {
            assert!(size(wrong, Unit::Centimetres).is_err(), "{wrong}");
        }
        assert_eq!(length("-1", Unit::Inches), Ok(Some("-25.4 mm".parse().unwrap())));
    }

    #[test]
    fn every_reading_says_what_is_wrong_and_what_is_expected() {
        for reading in
            [size_reading(Unit::Inches), length_reading(Unit::Centimetres), weight_says, body_measure_says]
        {
            assert!(reading("").is_ok_and(|says| says.contains("such as")));
            assert!(reading("no such thing").unwrap_err().contains("no such thing"));
        }
    }
}

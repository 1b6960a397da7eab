//! How much of a cloth one copy of a piece takes.
//!
//! Panels lie side by side as far as the width goes, and every row of them begins where the pattern does: its length is
//! rounded up to whole repeats, and so is each panel's width where the pattern comes again across. Of a cloth with
//! a nap a lay that was measured takes what is [usual](crate::board::Practice) more, since its pattern pieces cannot be
//! turned head to foot; then it is rounded up to whole repeats. Cloth that is washed before it is cut is bought
//! longer by what goes in the wash: a length of `l` that loses the part `s` is bought as `l / (1 − s)`.

use crate::board::{Cloth, Lay, Practice};
use crate::trade::fraction::Fraction;
use crate::trade::length::{Length, Size};

/// So much of a cloth.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Amount {
    /// Of its length, as bought.
    Length(Length),
    /// Whole hides, skins or sheets.
    Skins(u32),
}

/// How a length came about.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Laid {
    /// Panels side by side, and rows of them; `None` for a lay that was measured.
    pub rows: Option<(u32, u32)>,
    /// As it is cut: in whole repeats, with what the nap takes.
    pub cut: Length,
    /// As it is bought: with what goes in the wash.
    pub bought: Length,
}

/// Why a piece cannot be cut of a cloth.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub enum NotLaid {
    /// The cloth has no width.
    #[error("the cloth has no `width`: give it, such as `150 cm`, or cut by `skins`")]
    NoWidth,
    /// A panel is wider than the cloth.
    #[error("a panel is wider than the cloth: cut it in parts, or take a wider cloth")]
    TooWide,
    /// Nothing of it is left after the wash.
    #[error("`shrinkage` of 100 % leaves nothing of it")]
    Nothing,
    /// One piece takes it both by the length and by the hide.
    #[error("it is cut both by the length and by the hide: choose one of them")]
    TwoWays,
    /// It would be longer than a length can be.
    #[error("it comes to more than a kilometre: look at the numbers again")]
    TooLong,
}

/// How much one copy takes.
///
/// # Errors
/// [`NotLaid`] where the cloth and the cut do not go together.
pub fn of(cloth: &Cloth, lay: Lay, practice: &Practice) -> Result<Amount, NotLaid> {
    match lay {
        Lay::Skins(skins) => Ok(Amount::Skins(u32::from(skins.get()))),
        Lay::Laid(size) => measured(cloth, size.length(), practice).map(|laid| Amount::Length(laid.bought)),
        Lay::Panels { panels, length, width } => {
            self::panels(cloth, panels.get(), length, width).map(|laid| Amount::Length(laid.bought))
        }
    }
}

/// A lay that was measured on the whole width.
///
/// # Errors
/// As [`of`].
pub fn measured(cloth: &Cloth, lay: Length, practice: &Practice) -> Result<Laid, NotLaid> {
    cloth.width.ok_or(NotLaid::NoWidth)?;
    let extra = practice.nap_extra.filter(|_| cloth.nap).unwrap_or_default();
    let one_way = longer_by(lay, extra).ok_or(NotLaid::TooLong)?;
    let cut = up_to(one_way, cloth.repeat).ok_or(NotLaid::TooLong)?;
    Ok(Laid { rows: None, cut, bought: before_wash(cut, cloth.shrinkage.unwrap_or_default())? })
}

/// Panels side by side.
///
/// # Errors
/// As [`of`].
pub fn panels(cloth: &Cloth, panels: u8, length: Size, width: Size) -> Result<Laid, NotLaid> {
    let whole = cloth.width.ok_or(NotLaid::NoWidth)?.length();
    if width.length() > whole {
        return Err(NotLaid::TooWide);
    }
    let panel = up_to(width.length(), cloth.repeat_across).ok_or(NotLaid::TooLong)?;
    let panels = u32::from(panels);
    // One alone needs no room for the pattern to begin again beside it.
    let across = u32::try_from(whole.hundredths() / panel.hundredths()).unwrap_or(u32::MAX).clamp(1, panels);
    let rows = panels.div_ceil(across);
    let drop = up_to(length.length(), cloth.repeat).ok_or(NotLaid::TooLong)?;
    let cut = times(drop, rows).ok_or(NotLaid::TooLong)?;
    let bought = before_wash(cut, cloth.shrinkage.unwrap_or_default())?;
    Ok(Laid { rows: Some((across, rows)), cut, bought })
}

/// So much more of the whole width, for a version.
///
/// # Errors
/// As [`of`].
pub fn more(cloth: &Cloth, length: Length) -> Result<Length, NotLaid> {
    cloth.width.ok_or(NotLaid::NoWidth)?;
    before_wash(length, cloth.shrinkage.unwrap_or_default())
}

/// Up to whole repeats; `None` where no length is so long.
pub fn up_to(length: Length, repeat: Option<Size>) -> Option<Length> {
    let Some(repeat) = repeat.map(|repeat| i128::from(repeat.length().hundredths())) else {
        return Some(length);
    };
    Length::try_of_hundredths(over(i128::from(length.hundredths()), repeat) * repeat)
}

/// So many times as long; `None` where no length is.
pub fn times(length: Length, count: u32) -> Option<Length> {
    Length::try_of_hundredths(i128::from(length.hundredths()) * i128::from(count))
}

fn longer_by(length: Length, extra: Fraction) -> Option<Length> {
    let parts = i128::from(Fraction::PARTS);
    Length::try_of_hundredths(over(
        i128::from(length.hundredths()) * (parts + i128::from(extra.parts())),
        parts,
    ))
}

fn before_wash(length: Length, shrinkage: Fraction) -> Result<Length, NotLaid> {
    let parts = i128::from(Fraction::PARTS);
    let left = parts - i128::from(shrinkage.parts());
    if left == 0 {
        return Err(NotLaid::Nothing);
    }
    Length::try_of_hundredths(over(i128::from(length.hundredths()) * parts, left)).ok_or(NotLaid::TooLong)
}

/// Division that rounds up, so that nobody is sent out for a hair too little.
fn over(of: i128, by: i128) -> i128 {
    (of + by - 1).div_euclid(by)
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;
    use serde_json::{Value, json};

    use super::*;
    use crate::board::Cut;

    fn cloth(told: Value) -> Cloth {
        let mut all = json!({"title": "It"});
        all.as_object_mut().unwrap().extend(told.as_object().unwrap().clone());
        serde_json::from_value(all).unwrap()
    }

    fn lay(told: Value) -> Lay {
        let mut all = json!({"cloth": "it"});
        all.as_object_mut().unwrap().extend(told.as_object().unwrap().clone());
        serde_json::from_value::<Cut>(all).unwrap().lay
    }

    fn bought(of_cloth: Value, of_lay: Value) -> Result<String, String> {
        let practice = serde_json::from_value(json!({"nap-extra": "15 %"})).unwrap();
        match of(&cloth(of_cloth), lay(of_lay), &practice) {
            Ok(Amount::Length(length)) => Ok(length.to_string()),
            Ok(Amount::Skins(skins)) => Ok(format!("{skins} skins")),
            Err(error) => Err(error.to_string()),
        }
    }

    #[test]
    fn panels_lie_side_by_side_and_rows_begin_where_the_pattern_does() {
        let panels = || json!({"panels": 5, "length": "110 cm", "width": "60 cm"});
        // Two of 60 cm in 150: three rows of 110 cm.
        assert_eq!(bought(json!({"width": "150 cm"}), panels()), Ok("330 cm".into()));
        // Rows of four repeats of 32 cm.
        assert_eq!(bought(json!({"width": "150 cm", "repeat": "32 cm"}), panels()), Ok("384 cm".into()));
        // Panels of two repeats of 40 cm: only one of 80 cm in 150.
        assert_eq!(
            bought(json!({"width": "150 cm", "repeat-across": "40 cm"}), panels()),
            Ok("550 cm".into())
        );
        // One of three repeats of 30 cm is wider than the cloth, but nothing has to lie beside it.
        let wide = json!({"panels": 2, "length": "110 cm", "width": "70 cm"});
        assert_eq!(bought(json!({"width": "80 cm", "repeat-across": "30 cm"}), wide), Ok("220 cm".into()));
        // A nap changes nothing where all panels lie one way already.
        assert_eq!(bought(json!({"width": "150 cm", "nap": true}), panels()), Ok("330 cm".into()));
    }

    #[test]
    fn a_measured_lay_takes_more_for_repeat_nap_and_wash() {
        let laid = || json!({"lay": "2.1 m"});
        assert_eq!(bought(json!({"width": "150 cm"}), laid()), Ok("210 cm".into()));
        assert_eq!(bought(json!({"width": "150 cm", "repeat": "50 cm"}), laid()), Ok("250 cm".into()));
        assert_eq!(bought(json!({"width": "150 cm", "nap": true}), laid()), Ok("241.5 cm".into()));
        assert_eq!(
            bought(json!({"width": "150 cm", "nap": true, "repeat": "50 cm"}), laid()),
            Ok("250 cm".into()),
            "the nap's part goes before the repeats"
        );
        assert_eq!(bought(json!({"width": "150 cm", "shrinkage": "4 %"}), laid()), Ok("218.75 cm".into()));
    }

    #[test]
    fn what_does_not_go_together_is_said() {
        let said = |cloth, lay| bought(cloth, lay).unwrap_err();
        assert!(said(json!({}), json!({"lay": "2 m"})).contains("no `width`"));
        let panels = json!({"panels": 1, "length": "1 m", "width": "160 cm"});
        assert!(said(json!({"width": "150 cm"}), panels).contains("wider than the cloth"));
        let washed = json!({"width": "150 cm", "shrinkage": "100 %"});
        assert!(said(washed, json!({"lay": "2 m"})).contains("leaves nothing"));
        let shrunk = json!({"width": "150 cm", "shrinkage": "99.9999 %"});
        assert!(said(shrunk, json!({"lay": "900 m"})).contains("more than a kilometre"));
        assert_eq!(bought(json!({}), json!({"skins": 3})), Ok("3 skins".into()));
    }

    proptest! {
        #[test]
        fn rows_hold_all_panels_and_begin_on_whole_repeats(
            count in 1_u8..20, length in 1_i64..3_000, width in 1_i64..1_500,
            repeat in proptest::option::of(1_i64..900),
        ) {
            let mut it = json!({"width": "150 cm"});
            if let Some(repeat) = repeat {
                it["repeat"] = json!(format!("{repeat} mm"));
            }
            let size = |millimetres: i64| format!("{millimetres} mm").parse::<Size>().unwrap();
            let laid = panels(&cloth(it), count, size(length), size(width)).unwrap();
            let (across, rows) = laid.rows.unwrap();
            prop_assert!(across * rows >= u32::from(count) && i64::from(across) * width <= 1_500);
            // One row fewer would not hold them.
            prop_assert!(across * (rows - 1) < u32::from(count));
            let drop = laid.cut.hundredths() / i64::from(rows);
            prop_assert!(drop >= length * 100);
            if let Some(repeat) = repeat {
                prop_assert!(drop % (repeat * 100) == 0 && drop < (length + repeat) * 100);
            }
        }
    }
}

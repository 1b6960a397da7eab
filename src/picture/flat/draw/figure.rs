//! The frame on which every garment is laid: heights and half widths of one figure, of which nothing is drawn.
//!
//! Eight heads high, arms a little away from the body, as on any technical sheet (common practice, no source). All
//! garments use these constants and no others, so that they fit each other.

use crate::picture::flat::model::Point;
use crate::picture::flat::read::Length;

pub(super) const CROWN: f32 = 58.0;
pub(super) const BROW: f32 = 98.0;
pub(super) const EYES: f32 = 112.0;
pub(super) const CHIN: f32 = 150.0;
pub(super) const HEAD: f32 = 34.0;
/// Where the shoulder line meets the neck.
pub(super) const NECK: Point = (27.0, 172.0);
pub(super) const SHOULDER: Point = (74.0, 190.0);
pub(super) const BUST: f32 = 262.0;
pub(super) const UNDERARM: f32 = 258.0;
pub(super) const WAIST: f32 = 342.0;
pub(super) const HIP: f32 = 416.0;
pub(super) const CROTCH: f32 = 446.0;
pub(super) const THIGH: f32 = 496.0;
pub(super) const KNEE: f32 = 578.0;
pub(super) const CALF: f32 = 646.0;
pub(super) const ANKLE: f32 = 718.0;
pub(super) const FLOOR: f32 = 756.0;
/// The middle of the wrist.
pub(super) const WRIST: Point = (143.0, 414.0);
/// Units to a centimetre: 165 cm from crown to floor.
const CENTIMETRE: f32 = (FLOOR - CROWN) / 165.0;

/// How far down a hem of this length hangs.
pub(super) fn hem(length: Length) -> f32 {
    match length {
        Length::Waist => WAIST + 8.0,
        Length::Hip => HIP + 6.0,
        Length::Thigh => THIGH,
        Length::AboveKnee => KNEE - 26.0,
        Length::Knee => KNEE + 4.0,
        Length::BelowKnee => KNEE + 30.0,
        Length::Calf => CALF + 8.0,
        Length::Ankle => ANKLE,
        Length::Floor | Length::Train => FLOOR,
        Length::FromFloor(centimetres) => {
            (FLOOR - f32::from(centimetres) * CENTIMETRE).clamp(WAIST + 20.0, FLOOR)
        }
    }
}

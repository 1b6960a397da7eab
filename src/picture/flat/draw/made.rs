//! A garment that hangs from the shoulders, with its open questions answered: where the record is silent, what is usual
//! for its kind.

use super::collar;
use super::figure::{self, HIP, WAIST};
use super::front::Front;
use super::skirt;
use super::torso::Torso;
use crate::picture::flat::read::{Closure, Collar, Cut, Garment, Kind, Length, Mark, Neck, Reach, Set};

/// What is usual for a kind where its record is silent.
struct Usual {
    cut: Cut,
    ease: f32,
    reach: Reach,
    neck: Neck,
    collar: Collar,
    closure: Closure,
    buttons: u8,
}

fn usual(garment: &Garment) -> Usual {
    let of = |cut, ease, reach, neck, collar, closure, buttons| Usual {
        cut,
        ease,
        reach,
        neck,
        collar,
        closure,
        buttons,
    };
    let covered = if garment.heavy { Reach::Long } else { Reach::Short };
    match garment.kind {
        Kind::Gown => of(
            Cut::Bias,
            0.0,
            if garment.neck == Some(Neck::Boat) { Reach::Long } else { Reach::None },
            Neck::Scoop,
            Collar::None,
            Closure::None,
            0,
        ),
        Kind::Nightshirt => of(Cut::Straight, 6.0, Reach::Long, Neck::V, Collar::Shirt, Closure::Buttons, 4),
        Kind::Christening => of(Cut::ALine, 0.0, Reach::Short, Neck::High, Collar::None, Closure::None, 0),
        Kind::Tunic => of(Cut::Straight, 4.0, Reach::Long, Neck::Round, Collar::None, Closure::None, 0),
        Kind::Overall => of(Cut::Straight, 6.0, Reach::Long, Neck::V, Collar::Shirt, Closure::Buttons, 6),
        Kind::Pinafore => of(Cut::ALine, 4.0, Reach::None, Neck::Square, Collar::None, Closure::None, 0),
        Kind::Smock => of(Cut::Boxy, 10.0, Reach::Long, Neck::High, Collar::None, Closure::None, 0),
        Kind::Coat => of(Cut::Fitted, 9.0, Reach::Long, Neck::V, Collar::Lapels, Closure::Buttons, 4),
        Kind::WrapCoat => of(Cut::Cocoon, 8.0, Reach::Long, Neck::V, Collar::Shawl, Closure::Wrap, 1),
        Kind::Duffel => of(Cut::Boxy, 11.0, Reach::Long, Neck::High, Collar::None, Closure::Toggles, 4),
        Kind::Oilskin => of(Cut::Straight, 13.0, Reach::Long, Neck::High, Collar::Shirt, Closure::Clips, 5),
        Kind::OpenGown => of(Cut::ALine, 12.0, Reach::Long, Neck::V, Collar::None, Closure::None, 0),
        Kind::Jacket => of(Cut::Fitted, 6.0, Reach::Long, Neck::V, Collar::Lapels, Closure::Buttons, 3),
        Kind::Waistcoat => of(Cut::Fitted, 2.0, Reach::None, Neck::V, Collar::None, Closure::Buttons, 5),
        Kind::Cardigan => of(Cut::Straight, 3.0, Reach::Long, Neck::V, Collar::None, Closure::Buttons, 6),
        Kind::Jumper => of(Cut::Straight, 2.0, Reach::Long, Neck::Round, Collar::None, Closure::None, 0),
        Kind::Blouse => of(Cut::Straight, 0.0, Reach::Long, Neck::V, Collar::Shirt, Closure::Buttons, 6),
        Kind::Shirt => of(Cut::Straight, 2.0, Reach::Long, Neck::V, Collar::Shirt, Closure::Buttons, 7),
        Kind::Singlet => of(Cut::Straight, -1.0, Reach::None, Neck::Scoop, Collar::None, Closure::None, 0),
        Kind::HalterTop => of(Cut::Fitted, 0.0, Reach::None, Neck::Halter, Collar::None, Closure::None, 0),
        Kind::Robe => of(Cut::Straight, 11.0, Reach::Long, Neck::V, Collar::Shawl, Closure::Wrap, 0),
        _ => of(Cut::Flared, 0.0, covered, Neck::Round, Collar::None, Closure::None, 0),
    }
}

/// A garment with its open questions answered.
pub(super) struct Made<'a> {
    pub(super) garment: &'a Garment,
    pub(super) cut: Cut,
    pub(super) reach: Reach,
    pub(super) collar: Collar,
    pub(super) closure: Closure,
    pub(super) buttons: u8,
    pub(super) ease: f32,
    pub(super) torso: Torso,
}

impl<'a> Made<'a> {
    pub(super) fn of(garment: &'a Garment) -> Self {
        let usual = usual(garment);
        let cut = shaped(garment, garment.cut.unwrap_or(usual.cut));
        let reach = garment.reach.unwrap_or(if garment.set == Set::Plain || usual.reach != Reach::None {
            usual.reach
        } else {
            Reach::Long
        });
        let collar = garment.collar.unwrap_or(match garment.neck {
            Some(_) if usual.collar == Collar::Shirt => Collar::None,
            _ => usual.collar,
        });
        let closure = garment.closure.unwrap_or(usual.closure);
        let length = garment.length.unwrap_or_else(|| skirt::usual_length(garment.kind));
        let mut torso = Torso::cut(cut, usual.ease, figure::hem(short_enough(garment, length)));
        torso = torso.with_neck(garment.neck.unwrap_or(usual.neck));
        if let (Some((neck, depth)), true) =
            (collar::neck_under(collar), garment.neck.is_none_or(|neck| matches!(neck, Neck::V | Neck::High)))
        {
            torso = torso.with_neck(neck);
            torso.depth = depth;
        }
        if closure == Closure::DoubleBreasted && collar == Collar::Lapels {
            torso.depth = 258.0;
        }
        if garment.kind == Kind::Waistcoat {
            torso.depth = 274.0;
        }
        if matches!(garment.kind, Kind::Jumper | Kind::Singlet) && garment.neck.is_none() {
            torso.depth = if garment.kind == Kind::Jumper { 190.0 } else { 232.0 };
        }
        if reach == Reach::None {
            let strapped =
                garment.kind == Kind::Gown || garment.has(Mark::LowBack) || garment.kind == Kind::Singlet;
            torso = if strapped { torso.strapped() } else { torso.sleeveless() };
        }
        Self {
            garment,
            cut,
            reach,
            collar,
            closure,
            buttons: garment.buttons.unwrap_or(usual.buttons),
            ease: usual.ease,
            torso,
        }
    }

    /// The outline of the body.
    pub(super) fn body(&self) -> Torso {
        match self.garment.set {
            Set::Raglan | Set::Dolman if self.reach != Reach::None => self.torso.under_raglan(),
            _ => self.torso.clone(),
        }
    }

    /// How far down the front's fastenings go.
    pub(super) fn front(&self) -> Option<Front> {
        let torso = &self.torso;
        let short = torso.hem_y < HIP + 40.0;
        let through = self.garment.has(Mark::ButtonedThrough) || short || self.garment.kind == Kind::Overall;
        let top = torso.depth + 9.0;
        let last = match self.garment.kind {
            Kind::Coat | Kind::Oilskin | Kind::Duffel if !short => HIP + 30.0,
            _ if through => torso.hem_y - if short { 16.0 } else { 40.0 },
            _ => WAIST - 10.0,
        };
        let bottom = match self.garment.kind {
            Kind::Coat | Kind::Oilskin | Kind::Duffel | Kind::Overall => torso.hem_y + 8.0,
            _ if through => torso.hem_y + 8.0,
            _ => last + 10.0,
        };
        let dress = matches!(
            self.garment.kind,
            Kind::Dress | Kind::Gown | Kind::Blouse | Kind::Shirt | Kind::Cardigan
        );
        let count = match self.closure {
            Closure::DoubleBreasted => (self.buttons / 2).clamp(2, 5),
            Closure::Frogs => 5,
            _ if self.garment.has(Mark::ButtonedThrough) => self.buttons.max(9),
            _ if self.buttons == 0 => 5,
            _ => self.buttons.min(12),
        };
        let last = if count == 1 { top } else { last.max(top + 12.0 * f32::from(count - 1)) };
        (last < torso.hem_y).then_some(Front {
            top,
            bottom,
            last,
            count,
            size: if dress { 3.0 } else { 4.4 },
        })
    }
}

pub(super) fn opens_in_front(kind: Kind) -> bool {
    matches!(kind, Kind::Jacket | Kind::Cardigan | Kind::Waistcoat | Kind::Coat)
}

/// A jacket follows the words for a whole suit in its bodice only, and knitting has no waist seam.
fn shaped(garment: &Garment, cut: Cut) -> Cut {
    let loose = matches!(
        garment.kind,
        Kind::Jumper
            | Kind::Blouse
            | Kind::Shirt
            | Kind::Cardigan
            | Kind::Singlet
            | Kind::Smock
            | Kind::Duffel
            | Kind::Oilskin
    );
    match (garment.kind, cut) {
        (Kind::Smock, _) => Cut::Boxy,
        _ if loose && cut != Cut::Boxy => Cut::Straight,
        (Kind::Jacket, Cut::FullSkirt | Cut::Flared | Cut::Bias | Cut::Column | Cut::Princess) => Cut::Fitted,
        (Kind::Jacket, Cut::DropWaist) => Cut::Straight,
        (Kind::WrapCoat, _) => Cut::Cocoon,
        _ => cut,
    }
}

fn short_enough(garment: &Garment, length: Length) -> Length {
    match garment.kind {
        Kind::Jacket if garment.has(Mark::Banded) => Length::Waist,
        Kind::Jacket | Kind::Blouse | Kind::Shirt | Kind::Jumper | Kind::Cardigan | Kind::Waistcoat
            if length > Length::Thigh =>
        {
            Length::Hip
        }
        Kind::Jumper if length == Length::Waist && garment.has(Mark::Banded) => Length::Waist,
        Kind::Dress | Kind::Gown if length < Length::AboveKnee => Length::Knee,
        Kind::Coat if length == Length::Waist => Length::Thigh,
        _ => length,
    }
}

/// What is drawn here.
pub(super) fn hangs(kind: Kind) -> bool {
    use Kind::*;
    matches!(
        kind,
        Dress
            | Nightshirt
            | Gown
            | Tunic
            | Overall
            | Pinafore
            | Smock
            | Coat
            | WrapCoat
            | Duffel
            | Oilskin
            | OpenGown
            | Jacket
            | Waistcoat
            | Cardigan
            | Jumper
            | Blouse
            | Shirt
            | Singlet
            | HalterTop
            | Robe
            | Christening
    )
}

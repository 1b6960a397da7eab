//! Everything that hangs from the shoulders: dresses, coats, jackets, shirts, jumpers, robes, overalls.

use super::collar;
use super::figure::{self, BUST, HIP, WAIST};
use super::front::{self, Front};
use super::pen::Pen;
use super::skirt::{self, Hang};
use super::sleeve;
use super::torso::{Torso, across, width_at};
use crate::picture::flat::model::Path;
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
struct Made<'a> {
    garment: &'a Garment,
    cut: Cut,
    reach: Reach,
    collar: Collar,
    closure: Closure,
    buttons: u8,
    ease: f32,
    torso: Torso,
}

impl<'a> Made<'a> {
    fn of(garment: &'a Garment) -> Self {
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
    fn body(&self) -> Torso {
        match self.garment.set {
            Set::Raglan | Set::Dolman if self.reach != Reach::None => self.torso.under_raglan(),
            _ => self.torso.clone(),
        }
    }

    /// How far down the front's fastenings go.
    fn front(&self) -> Option<Front> {
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

fn opens_in_front(kind: Kind) -> bool {
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

/// How a garment is worn with others.
#[derive(Clone, Copy, Debug)]
pub(super) struct Wear {
    pub(super) open: bool,
    /// Whether its sleeves are seen.
    pub(super) sleeves: bool,
}

/// How far a garment's sleeves reach.
pub(super) fn reach(garment: &Garment) -> Reach {
    match garment.kind {
        Kind::OnePiece => garment.reach.unwrap_or(Reach::Long),
        kind if hangs(kind) => Made::of(garment).reach,
        _ => Reach::None,
    }
}

/// Where the waist of a garment that hangs from the shoulders is, and half its width there.
pub(super) fn waist(garment: &Garment) -> Option<(f32, f32)> {
    let made = hangs(garment.kind).then(|| Made::of(garment))?;
    let y = if made.cut == Cut::DropWaist { HIP - 8.0 } else { WAIST };
    Some((y, width_at(&made.torso.outline(), y) + 1.5))
}

/// What is drawn here.
fn hangs(kind: Kind) -> bool {
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

/// Draws it, closed or open.
pub(super) fn draw(pen: &mut Pen<'_>, garment: &Garment, wear: Wear) {
    let mut made = Made::of(garment);
    if !wear.sleeves {
        made.reach = Reach::None;
    }
    if wear.open && made.torso.hem_y > WAIST {
        opened(pen, &made);
    } else {
        closed(pen, &made);
    }
}

fn opened(pen: &mut Pen<'_>, made: &Made<'_>) {
    let torso = &made.torso;
    pen.inside(&torso.back());
    let gap = if torso.hem_y > HIP + 30.0 { 40.0 } else { 26.0 };
    let right = made.body().open_front(gap);
    sleeve::gap(pen, made.garment, torso, made.reach, made.ease);
    for half in [right.mirrored(), right.clone()] {
        pen.body(&half);
        let high = if torso.hem_y < HIP + 30.0 { 8.0 } else { 16.0 };
        if made.garment.has(Mark::HemBand) && pen.cloth.has_second {
            pen.band(&half, torso.hem_y - high - 8.0, torso.hem_y - 8.0);
        }
    }
    if pen.cloth.has_second && made.garment.has(Mark::Edged) {
        pen.trim(&torso.front_edge(gap, 6.0).twice(), 6.0);
    } else if pen.cloth.has_second && made.garment.kind == Kind::OpenGown {
        pen.trim(&torso.front_edge(gap, 9.0).twice(), 13.0);
        pen.seam(&torso.front_edge(gap, 16.0).twice());
    }
    pen.edge(&right.twice());
    sleeve::draw(pen, made.garment, torso, made.reach, made.ease);
    if made.collar != Collar::None {
        let (x, y) = torso.neck_side;
        let facing = Path::at(gap * 0.55, y + 110.0)
            .curve((gap * 0.6 + 30.0, y + 70.0), (56.0, y + 46.0), (46.0, y + 26.0))
            .bend((40.0, y + 2.0), (x + 2.0, y - 6.0))
            .line(x - 7.0, y - 2.0)
            .curve((x - 4.0, y + 34.0), (gap * 0.62, y + 70.0), (gap * 0.55, y + 110.0))
            .close();
        pen.part(&facing.mirrored());
        pen.part(&facing);
    }
    if made.garment.has(Mark::Pockets) || matches!(made.garment.kind, Kind::Coat | Kind::Duffel) {
        pockets(pen, made, gap * 0.5);
    }
    if made.closure == Closure::Toggles {
        for y in [BUST, BUST + 54.0, BUST + 108.0, BUST + 162.0] {
            pen.seam(&Path::lines(&[(gap * 0.8 + 4.0, y), (gap * 0.8 + 26.0, y - 3.0)]).twice());
        }
    }
}

fn closed(pen: &mut Pen<'_>, made: &Made<'_>) {
    let (torso, garment) = (&made.torso, made.garment);
    let outline = made.body().outline();
    pen.inside(&torso.back_of_neck());
    if garment.length == Some(Length::Train) {
        train(pen, torso);
    }
    if garment.has(Mark::Points) {
        points(pen, torso);
    }
    sleeve::gap(pen, garment, torso, made.reach, made.ease);
    pen.body(&outline);
    body_details(pen, made, &outline);
    bands(pen, made, &outline);
    pen.edge(&outline);
    sleeve::draw(pen, garment, torso, made.reach, made.ease);
    fastenings(pen, made);
    if garment.has(Mark::Belt) && !matches!(garment.kind, Kind::Blouse | Kind::Shirt) {
        belt(pen, made, &outline);
    }
    collar::draw(pen, made.collar, torso, garment.kind == Kind::WrapCoat || torso.hem_y > HIP + 40.0);
    neck_details(pen, made);
    if garment.kind == Kind::Duffel || (garment.has(Mark::Hood) && made.collar == Collar::None) {
        hood(pen, torso);
    }
    if garment.has(Mark::Badge) && garment.kind != Kind::Jumper {
        pen.bead(
            &Path::lines(&[(30.0, 238.0), (44.0, 238.0), (44.0, 250.0), (37.0, 256.0), (30.0, 250.0)])
                .close(),
            [0xd8, 0xd0, 0xb8],
        );
    }
    if garment.has(Mark::Pompons) {
        for y in [238.0, 276.0, 314.0] {
            let colour = pen.cloth.second;
            pen.bead(&Path::ellipse(0.0, y, 10.0, 10.0), colour);
        }
    }
}

/// The lines on the body: seams, yoke, drapery, the skirt's own, pockets.
fn body_details(pen: &mut Pen<'_>, made: &Made<'_>, outline: &Path) {
    let (torso, garment) = (&made.torso, made.garment);
    let skirted = torso.hem_y > HIP + 40.0;
    match made.cut {
        Cut::Fitted | Cut::Princess | Cut::FullSkirt if !matches!(garment.kind, Kind::Waistcoat) => {
            let bottom = if made.cut == Cut::Princess || !skirted { torso.hem_y } else { WAIST };
            let low = if bottom > HIP {
                (torso.hem_width() * 0.5, bottom + 2.0)
            } else {
                (torso.waist * 0.6, bottom)
            };
            let seam = Path::at(torso.shoulder.0 - 10.0, 234.0).curve(
                (torso.bust * 0.56, 256.0),
                (torso.waist * 0.62, BUST + 30.0),
                (torso.waist * 0.58, WAIST),
            );
            let seam = if bottom > WAIST {
                seam.bend((torso.waist * 0.6, (WAIST + bottom) / 2.0), low)
            } else {
                seam
            };
            pen.seam(&seam.twice());
        }
        Cut::Bias => {
            let x = torso.waist;
            pen.seam(&Path::at(-torso.bust + 4.0, 286.0).curve(
                (-18.0, 300.0),
                (6.0, 330.0),
                (x, WAIST + 26.0),
            ));
            pen.seam(&Path::at(torso.hip - 2.0, HIP - 10.0).curve(
                (10.0, HIP - 2.0),
                (-30.0, HIP + 30.0),
                (-torso.hip - 2.0, HIP + 60.0),
            ));
        }
        _ => {}
    }
    if let (Some(seam), true) = (torso.seam, skirted) {
        pen.seam(&across(outline, seam, 5.0));
    }
    if garment.has(Mark::Divided) && skirted {
        skirt::divided(pen, torso.hem_y + 10.0);
    }
    if skirted {
        let top = torso.seam.unwrap_or(HIP);
        skirt::details(pen, garment, outline, Hang { top, hem: torso.hem_y, cut: made.cut });
    }
    if garment.has(Mark::Yoke) || garment.has(Mark::Smocking) || garment.kind == Kind::Smock {
        yoke(pen, garment, outline, torso);
    }
    if garment.has(Mark::Drape) {
        let y = torso.seam.unwrap_or(WAIST).max(WAIST) + 6.0;
        let x = width_at(outline, y) - 3.0;
        for (from, bow) in [(-30.0, 10.0), (-54.0, 4.0), (-80.0, -6.0), (24.0, 20.0)] {
            pen.fold(&Path::at(-x * 0.8, y + from).bend((0.0, y + bow), (x, y)));
        }
        pen.button(x - 6.0, y, 4.5);
    }
    if garment.has(Mark::Pockets)
        || garment.has(Mark::BreastPockets)
        || matches!(garment.kind, Kind::Coat | Kind::Jacket | Kind::Duffel | Kind::Oilskin)
    {
        pockets(pen, made, 0.0);
    }
    if matches!(garment.kind, Kind::Jumper | Kind::Cardigan) || garment.has(Mark::Banded) {
        welt(pen, garment, torso, outline);
    }
    if garment.kind == Kind::Blouse || garment.kind == Kind::Shirt {
        pen.seam(
            &Path::at(torso.neck_side.0 + 20.0, 181.0)
                .bend((40.0, 214.0), (torso.shoulder.0 - 9.0, 212.0))
                .twice(),
        );
    }
    if garment.kind == Kind::Pinafore {
        let line =
            Path::at(torso.neck_side.0, torso.depth + 14.0).line(torso.bust - 14.0, torso.depth + 14.0);
        pen.stitch(&line.twice());
    }
}

fn yoke(pen: &mut Pen<'_>, garment: &Garment, outline: &Path, torso: &Torso) {
    let y = torso.depth.max(206.0) + 22.0;
    let x = width_at(outline, y).min(torso.shoulder.0 - 10.0);
    pen.seam(&Path::at(-x, y - 2.0).line(-x + 4.0, y + 4.0).line(x - 4.0, y + 4.0).line(x, y - 2.0));
    if garment.has(Mark::Smocking) {
        for row in 0..5_u8 {
            let top = y + 7.0 + f32::from(row) * 7.0;
            let points: Vec<(f32, f32)> = (0..=20_u8)
                .map(|at| {
                    (
                        -x + 4.0 + f32::from(at) * (x - 4.0) / 10.0,
                        top + if (at + row) % 2 == 0 { 0.0 } else { 6.0 },
                    )
                })
                .collect();
            pen.seam(&Path::lines(&points));
        }
    }
    let low = if garment.has(Mark::Smocking) { y + 44.0 } else { y + 6.0 };
    for share in [0.15, 0.4, 0.65, 0.88] {
        pen.fold(
            &Path::at(x * share, low)
                .bend((x * share + 2.0, low + 30.0), (x * share * 1.1 + 2.0, low + 62.0))
                .twice(),
        );
    }
}

/// Pockets, so far further out than on a closed front.
fn pockets(pen: &mut Pen<'_>, made: &Made<'_>, out: f32) {
    let garment = made.garment;
    let long = made.torso.hem_y > HIP + 40.0;
    let patch = |x: f32, y: f32, wide: f32, high: f32| {
        Path::at(x - wide, y)
            .line(x + wide, y)
            .line(x + wide, y + high - 6.0)
            .bend((x + wide, y + high), (x + wide - 6.0, y + high))
            .line(x - wide + 6.0, y + high)
            .bend((x - wide, y + high), (x - wide, y + high - 6.0))
            .close()
    };
    if garment.has(Mark::BreastPockets) {
        for side in [-1.0, 1.0] {
            pen.patch(&patch(side * 34.0, 236.0, 14.0, 32.0));
            pen.seam(&Path::lines(&[
                (side * 34.0 - 14.0, 244.0),
                (side * 34.0, 249.0),
                (side * 34.0 + 14.0, 244.0),
            ]));
        }
        if made.torso.hem_y < HIP + 40.0 {
            return;
        }
    }
    match garment.kind {
        Kind::Jacket | Kind::Coat if !garment.has(Mark::Pockets) || garment.kind == Kind::Jacket => {
            let (x, y) = if long { (42.0 + out, HIP - 10.0) } else { (36.0, made.torso.hem_y - 42.0) };
            if made.torso.hem_y > HIP {
                let flap = Path::lines(&[
                    (x - 17.0, y),
                    (x + 17.0, y - 3.0),
                    (x + 17.0, y + 9.0),
                    (x - 17.0, y + 12.0),
                ])
                .close();
                pen.patch(&flap.mirrored());
                pen.patch(&flap);
            }
        }
        _ => {
            let y = if long { HIP - 6.0 } else { made.torso.hem_y - 52.0 };
            let x = if long { 38.0 + out } else { 34.0 + out };
            for side in [-1.0, 1.0] {
                pen.patch(&patch(side * x, y, 19.0, if long { 48.0 } else { 34.0 }));
                pen.stitch(&Path::lines(&[(side * x - 19.0, y + 7.0), (side * x + 19.0, y + 7.0)]));
            }
        }
    }
}

fn welt(pen: &mut Pen<'_>, garment: &Garment, torso: &Torso, outline: &Path) {
    let y = torso.hem_y - 20.0;
    pen.seam(&across(outline, y, 7.0));
    if garment.pattern == crate::picture::flat::read::Pattern::Gansey {
        gansey(pen, torso);
    }
}

/// Rope and ladder above a line across the chest.
fn gansey(pen: &mut Pen<'_>, torso: &Torso) {
    let (top, low) = (222.0, 300.0);
    let x = torso.bust - 14.0;
    pen.seam(&Path::lines(&[(-x - 6.0, low), (x + 6.0, low)]));
    pen.seam(&Path::lines(&[(-x - 6.0, low + 4.0), (x + 6.0, low + 4.0)]));
    for at in 0..5_u8 {
        let middle = f32::from(at) * (x - 4.0) / 2.0 - (x - 4.0);
        let mut y = top;
        while y < low - 5.0 {
            let step = if at % 2 == 0 {
                Path::at(middle - 5.0, y + 6.0).bend((middle, y + 5.0), (middle + 5.0, y))
            } else {
                Path::lines(&[(middle - 6.0, y + 3.0), (middle + 6.0, y + 3.0)])
            };
            pen.seam(&step);
            y += 8.0;
        }
    }
}

fn bands(pen: &mut Pen<'_>, made: &Made<'_>, outline: &Path) {
    let (torso, garment) = (&made.torso, made.garment);
    let short = torso.hem_y < HIP + 40.0;
    if short && garment.has(Mark::HemBand) && pen.cloth.has_second {
        pen.band(outline, torso.hem_y - 12.0, torso.hem_y - 3.0);
    }
    if garment.has(Mark::Edged) && pen.cloth.has_second {
        let neck = torso.neckline().twice();
        pen.trim(&neck, 9.0);
        if short && opens_in_front(garment.kind) {
            pen.trim(&torso.hemline().twice(), 9.0);
            pen.trim(&Path::lines(&[(3.0, torso.depth), (3.0, torso.hem_y + 6.0)]), 7.0);
        }
        if made.reach == Reach::None {
            pen.trim(&torso.armhole().twice(), 8.0);
        }
    }
}

fn fastenings(pen: &mut Pen<'_>, made: &Made<'_>) {
    let (torso, garment) = (&made.torso, made.garment);
    let hem = (torso.hem_width(), torso.hem_y);
    match made.closure {
        Closure::Wrap => {
            let low = garment.kind == Kind::WrapCoat || made.cut == Cut::DropWaist;
            let tie = (torso.waist - 8.0, if low { HIP - 6.0 } else { WAIST - 2.0 });
            front::wrapped(pen, torso.depth, tie, (hem.0 * 0.62, hem.1 + 6.0));
            if garment.kind == Kind::WrapCoat || garment.buttons == Some(1) {
                pen.button(tie.0 - 14.0, tie.1 + 2.0, 8.0);
            } else if garment.kind == Kind::Overall {
                let bow = Path::at(tie.0, tie.1)
                    .bend((tie.0 - 20.0, tie.1 + 22.0), (tie.0 - 14.0, tie.1 + 40.0))
                    .line(tie.0 - 6.0, tie.1 + 38.0)
                    .bend((tie.0 - 8.0, tie.1 + 20.0), (tie.0, tie.1))
                    .close();
                pen.patch(&bow);
                pen.part(&Path::ellipse(tie.0, tie.1, 5.0, 6.0));
            }
        }
        closure => {
            if let Some(front) = made.front() {
                front::draw(pen, closure, front);
            }
        }
    }
}

fn belt(pen: &mut Pen<'_>, made: &Made<'_>, outline: &Path) {
    let y = made.torso.seam.unwrap_or(WAIST);
    let x = width_at(outline, y) + 1.5;
    let belt = Path::at(-x, y - 6.0)
        .bend((0.0, y - 2.0), (x, y - 6.0))
        .line(x, y + 7.0)
        .bend((0.0, y + 11.0), (-x, y + 7.0))
        .close();
    let cloth = pen.cloth.plain();
    let mut plain = pen.with(cloth);
    plain.part(&belt);
    match made.garment.kind {
        Kind::Robe => {
            for dx in [-2.0, 12.0] {
                plain.part(
                    &Path::at(dx - 4.0, y + 8.0)
                        .bend((dx - 2.0, y + 40.0), (dx - 6.0, y + 72.0))
                        .line(dx + 4.0, y + 74.0)
                        .bend((dx + 6.0, y + 36.0), (dx + 3.0, y + 8.0))
                        .close(),
                );
            }
            plain.part(&Path::ellipse(4.0, y + 3.0, 10.0, 9.0));
        }
        _ => plain.part(
            &Path::lines(&[(-10.0, y - 7.0), (10.0, y - 7.0), (10.0, y + 11.0), (-10.0, y + 11.0)]).close(),
        ),
    }
}

fn neck_details(pen: &mut Pen<'_>, made: &Made<'_>) {
    let torso = &made.torso;
    let (x, y) = torso.neck_side;
    match torso.neck {
        Neck::Cowl => {
            for (low, share) in
                [(torso.depth + 14.0, 1.0), (torso.depth + 30.0, 1.1), (torso.depth + 46.0, 1.0)]
            {
                pen.fold(&Path::at(-x * share - 4.0, y + 14.0).curve(
                    (-x * 0.7, low),
                    (x * 0.7, low),
                    (x * share + 4.0, y + 14.0),
                ));
            }
        }
        Neck::High if made.collar == Collar::None && made.garment.kind != Kind::Duffel => {
            pen.seam(
                &Path::at(0.0, torso.depth + 7.0)
                    .bend((x * 0.9, torso.depth + 7.0), (x + 7.0, y + 3.0))
                    .twice(),
            );
            if matches!(made.garment.kind, Kind::Smock | Kind::Dress) {
                pen.seam(&Path::lines(&[(0.0, torso.depth), (0.0, torso.depth + 34.0)]));
            }
        }
        Neck::Round if matches!(made.garment.kind, Kind::Jumper | Kind::Cardigan) => {
            let rim = Path::at(0.0, torso.depth)
                .curve((x * 0.62, torso.depth), (x - 1.0, y + 10.0), (x, y))
                .line(x - 3.0, y - 9.0)
                .curve((x * 0.6, torso.depth - 9.0), (8.0, torso.depth - 10.0), (0.0, torso.depth - 10.0))
                .both_halves();
            pen.part(&rim);
        }
        _ if made.collar == Collar::None => {
            let inset = 5.0;
            pen.stitch(
                &Path::at(0.0, torso.depth + inset)
                    .curve(
                        (x * 0.66, torso.depth + inset),
                        (x + 4.0, y + (torso.depth - y) * 0.5),
                        (x + inset, y + 2.0),
                    )
                    .twice(),
            );
        }
        _ => {}
    }
}

/// A hood laid back.
fn hood(pen: &mut Pen<'_>, torso: &Torso) {
    let (_, y) = torso.neck_side;
    let hood = Path::at(0.0, y + 26.0)
        .curve((26.0, y + 22.0), (46.0, y + 10.0), (40.0, y - 8.0))
        .curve((34.0, y - 26.0), (14.0, y - 26.0), (0.0, y - 24.0))
        .both_halves();
    pen.part(&hood);
    let inner = Path::at(0.0, y + 10.0)
        .curve((16.0, y + 8.0), (26.0, y), (24.0, y - 10.0))
        .bend((12.0, y - 18.0), (0.0, y - 18.0))
        .both_halves();
    let inside = pen.cloth.inside();
    pen.fill(&inner, inside);
    pen.seam(&inner);
}

/// Handkerchief points that hang below the hem.
fn points(pen: &mut Pen<'_>, torso: &Torso) {
    let (x, y) = (torso.hem_width(), torso.hem_y);
    let hanging = Path::lines(&[
        (0.0, y - 40.0),
        (x, y - 20.0),
        (x * 0.96, y + 44.0),
        (x * 0.66, y + 12.0),
        (x * 0.4, y + 52.0),
        (0.0, y + 14.0),
    ]);
    pen.body(&hanging.both_halves());
}

/// A train, lying on the floor behind.
fn train(pen: &mut Pen<'_>, torso: &Torso) {
    let (x, y) = (torso.hem_width(), torso.hem_y);
    let lying = Path::at(0.0, y - 50.0)
        .line(x * 0.9, y - 60.0)
        .curve((x + 6.0, y - 20.0), (x + 40.0, y), (x + 62.0, y + 14.0))
        .curve((x + 40.0, y + 34.0), (x * 0.5, y + 36.0), (0.0, y + 34.0))
        .both_halves();
    pen.body(&lying);
    for share in [0.3, 0.7, 1.1] {
        pen.fold(&Path::at(x * 0.8, y - 20.0).bend((x, y + 4.0), (x * share + 30.0, y + 24.0)).twice());
    }
}

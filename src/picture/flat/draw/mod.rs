//! Garments laid on the figure, one over the other, in one vocabulary of lines.

mod bodice;
mod bottom;
mod cloth;
mod collar;
mod feet;
mod figure;
mod front;
mod head;
mod made;
mod over;
mod pen;
mod skirt;
mod sleeve;
mod small;
mod swim;
mod top;
mod torso;

use super::model::Drawing;
use super::read::{Cut, Feet, Garment, Kind, Mark};
use cloth::Cloth;
use pen::Sheet;

/// All garments of a record as one drawing.
pub(super) fn drawing(garments: &[Garment]) -> Drawing {
    let worn = Worn { garments };
    let mut sheet = Sheet::default();
    for (at, garment) in garments.iter().enumerate() {
        if worn.repeats(at) {
            continue;
        }
        let mut pen = sheet.pen(worn.layer(at), Cloth::of(garment));
        let garment = worn.under_others(at);
        one(&mut pen, &garment, &worn, at);
    }
    Drawing::new(sheet.shapes())
}

fn one(pen: &mut pen::Pen<'_>, garment: &Garment, worn: &Worn<'_>, at: usize) {
    match garment.kind {
        Kind::Skirt | Kind::DividedSkirt => skirt::draw(pen, garment),
        Kind::Trousers | Kind::Breeches | Kind::Shorts | Kind::Drawers => bottom::draw(pen, garment),
        Kind::Dungarees => bottom::dungarees(pen, garment),
        Kind::OnePiece => bottom::one_piece(pen, garment),
        Kind::Bathing => swim::draw(pen, garment),
        Kind::Apron => over::apron(pen, garment),
        Kind::Cape => over::cape(pen, garment, worn.is_open(at)),
        Kind::Shawl => over::shawl(pen, garment),
        Kind::Blanket => over::blanket(pen, garment),
        Kind::Stole => over::stole(pen),
        Kind::Drapery => over::drapery(pen),
        Kind::Veil => over::veil(pen),
        Kind::Head(kind) => head::draw(pen, garment, kind),
        Kind::Feet(kind) => feet::draw(pen, garment, kind),
        Kind::Hose => feet::hose(pen),
        Kind::Gloves | Kind::Gauntlets => small::gloves(pen, garment),
        Kind::Belt | Kind::Cord | Kind::Sash => small::girdle(pen, garment, worn.waist()),
        Kind::Scarf => small::scarf(pen, garment),
        Kind::Tie => small::tie(pen),
        Kind::BowTie => small::bow_tie(pen),
        Kind::Collar => small::collar(pen, garment),
        Kind::Goggles | Kind::Glasses => small::eyes(pen, garment),
        Kind::Beads => small::beads(pen),
        Kind::Brooch => small::brooch(pen),
        Kind::Armband => small::armband(pen),
        Kind::Bag => small::bag(pen),
        Kind::Tape => small::tape(pen),
        _ => {
            top::draw(pen, garment, top::Wear { open: worn.is_open(at), sleeves: !worn.sleeves_covered(at) })
        }
    }
}

/// What is worn together: which lies over which, and what stands open to show it.
struct Worn<'a> {
    garments: &'a [Garment],
}

impl Worn<'_> {
    /// The garment that the record names first: the one to be seen.
    fn main(&self) -> Option<usize> {
        self.garments.iter().position(|garment| layer(garment) >= BODY && layer(garment) <= OUTER)
    }

    fn has(&self, kinds: &[Kind]) -> bool {
        self.garments.iter().any(|garment| kinds.contains(&garment.kind))
    }

    /// A second thing of the same kind in the same place would only hide the first.
    fn repeats(&self, at: usize) -> bool {
        let here = &self.garments[at];
        let same = |other: &Garment| match (other.kind, here.kind) {
            (Kind::Head(_), Kind::Head(_)) | (Kind::Feet(_), Kind::Feet(_)) => true,
            (one, two) => one == two,
        };
        self.garments[..at].iter().any(same)
    }

    fn layer(&self, at: usize) -> i32 {
        let here = &self.garments[at];
        let main = self.main();
        match here.kind {
            Kind::Belt | Kind::Cord | Kind::Sash => match main.map(|main| &self.garments[main]) {
                Some(main) if main.kind == Kind::Jacket && self.has(&[Kind::Jumper]) => GIRDLE,
                Some(main) => layer(main) + 1,
                None => GIRDLE,
            },
            Kind::Feet(Feet::SeaBoots) if !self.has(&[Kind::Skirt]) => GIRDLE,
            _ => layer(here),
        }
    }

    /// What is worn over the main garment stands open, and so does a robe over a bathing costume.
    fn is_open(&self, at: usize) -> bool {
        let here = &self.garments[at];
        if !opens(here.kind) {
            return false;
        }
        let over_main =
            self.main().is_some_and(|main| main < at && layer(&self.garments[main]) < layer(here));
        let over_bathing =
            matches!(here.kind, Kind::Robe | Kind::Coat | Kind::Duffel) && self.has(&[Kind::Bathing]);
        let over_cord = here.kind == Kind::Jacket && self.has(&[Kind::Jumper]);
        let shows = self.garments.len() > 1 && here.has(Mark::Open);
        over_main || over_bathing || over_cord || shows || here.kind == Kind::OpenGown
    }

    /// A dress of no known outline falls straight under a coat or an overall.
    fn under_others(&self, at: usize) -> Garment {
        let mut here = self.garments[at].clone();
        let covered = |(other, over): (usize, &Garment)| {
            layer(over) >= OVERALLS && !self.is_open(other) && layer(over) <= OUTER
        };
        if here.kind == Kind::Dress && self.garments.iter().enumerate().any(covered) {
            here.cut = here.cut.or(Some(Cut::Straight));
        }
        here
    }

    /// Sleeves under other sleeves as long are not seen.
    fn sleeves_covered(&self, at: usize) -> bool {
        let here = &self.garments[at];
        let over = |other: &&Garment| layer(other) > layer(here) && top::reach(other) >= top::reach(here);
        self.garments.iter().any(|other| over(&other))
    }

    /// Where the waist of what is worn is, and half its width there.
    fn waist(&self) -> (f32, f32) {
        let main = self.main().map(|main| self.under_others(main));
        match main {
            Some(main) if main.kind == Kind::Bathing => (figure::WAIST + 8.0, 48.0),
            Some(main) => top::waist(&main).unwrap_or((figure::WAIST, 49.0)),
            None => (figure::WAIST, 58.0),
        }
    }
}

/// What opens down its whole front.
fn opens(kind: Kind) -> bool {
    use Kind::*;
    matches!(kind, Coat | WrapCoat | Duffel | Oilskin | OpenGown | Jacket | Cardigan | Robe | Cape)
}

const BODY: i32 = 30;
const OVERALLS: i32 = 52;
const GIRDLE: i32 = 58;
const OUTER: i32 = 82;

/// How far from the body a kind of garment lies.
fn layer(garment: &Garment) -> i32 {
    match garment.kind {
        Kind::Hose => 10,
        Kind::Feet(_) => 20,
        Kind::Gloves => 25,
        Kind::Bathing => BODY,
        Kind::Drawers => 32,
        Kind::Blouse | Kind::Shirt | Kind::Singlet | Kind::HalterTop => 34,
        Kind::Tie | Kind::BowTie => 36,
        Kind::Skirt | Kind::DividedSkirt | Kind::Trousers | Kind::Breeches | Kind::Shorts => 40,
        Kind::Dress | Kind::Gown | Kind::Nightshirt | Kind::Christening | Kind::Drapery => 42,
        Kind::Tunic | Kind::Jumper | Kind::Smock | Kind::Suit | Kind::Pyjamas => 46,
        Kind::Collar => 47,
        Kind::Dungarees | Kind::OnePiece => 48,
        Kind::Overall => OVERALLS,
        Kind::Pinafore | Kind::Apron => 54,
        Kind::Waistcoat => 56,
        Kind::Belt | Kind::Cord | Kind::Sash => GIRDLE,
        Kind::Cardigan => 60,
        Kind::Jacket => 62,
        Kind::Coat | Kind::WrapCoat | Kind::Duffel | Kind::Robe => 70,
        Kind::OpenGown | Kind::Oilskin => 74,
        Kind::Cape | Kind::Shawl | Kind::Blanket => OUTER,
        Kind::Armband | Kind::Gauntlets => 83,
        Kind::Stole => 84,
        Kind::Tape => 85,
        Kind::Scarf => 86,
        Kind::Beads => 87,
        Kind::Brooch => 88,
        Kind::Bag => 90,
        Kind::Veil => 92,
        Kind::Head(_) => 95,
        Kind::Goggles | Kind::Glasses => 97,
    }
}

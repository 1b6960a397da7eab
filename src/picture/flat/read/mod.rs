//! What the words of a record say: typed garments. Words that are not known change nothing, and where nothing is said
//! a garment keeps what is usual for its kind.

mod garment;
mod tables;
mod words;

use crate::board::garment::Piece;
pub use garment::{Closure, Collar, Cut, Feet, Garment, Head, Kind, Length, Mark, Neck, Pattern, Reach, Set};
use words::Words;

/// So many pieces of a record are read.
const PIECES: usize = 16;
/// So many details of a piece are read.
const DETAILS: usize = 10;

/// The garments that pieces name, in their order; a suit or pyjamas become their parts. Pieces of no known kind are
/// left out.
pub fn garments(pieces: &[Piece], silhouette: &str) -> Vec<Garment> {
    let outline = Words::of(silhouette);
    let mut all: Vec<Garment> = Vec::new();
    let pieces = &pieces[..pieces.len().min(PIECES)];
    for piece in pieces {
        let first = !all.iter().any(|garment| carries_outline(garment.kind));
        all.extend(parts(garment(piece, &outline, first), &outline));
    }
    if all.iter().any(|garment| garment.kind == Kind::Veil) {
        let dresses = all.iter_mut().filter(|garment| garment.kind == Kind::Dress);
        dresses.for_each(|dress| dress.length = dress.length.or(Some(Length::Floor)));
    }
    all
}

/// Of a record's body garments only the first is described by its silhouette.
fn carries_outline(kind: Kind) -> bool {
    use Kind::*;
    !matches!(
        kind,
        Head(_)
            | Feet(_)
            | Hose
            | Gloves
            | Gauntlets
            | Belt
            | Cord
            | Sash
            | Scarf
            | Tie
            | BowTie
            | Collar
            | Goggles
            | Glasses
            | Beads
            | Brooch
            | Armband
            | Bag
            | Tape
            | Veil
            | Apron
    )
}

fn parts(garment: Option<Garment>, outline: &Words) -> Vec<Garment> {
    let Some(garment) = garment else { return Vec::new() };
    let part = |kind: Kind| Garment { kind, ..garment.clone() };
    match garment.kind {
        Kind::Suit => {
            let trousers = outline.say("lounge|trouser|trousers") || garment.has(Mark::ThreePiece);
            let bottom = if trousers { Kind::Trousers } else { Kind::Skirt };
            let skirt = Garment {
                collar: None,
                closure: None,
                buttons: None,
                length: garment.length.filter(|length| *length > Length::Thigh),
                cut: garment.cut.filter(|_| outline.say("full skirt|flared hem|longer skirt")),
                ..part(bottom)
            };
            let collar = garment.collar.or(Some(Collar::Lapels));
            vec![Garment { collar, length: None, ..part(Kind::Jacket) }, skirt]
        }
        Kind::Pyjamas => vec![part(Kind::Tunic), Garment { cut: None, ..part(Kind::Trousers) }],
        _ => vec![garment],
    }
}

fn garment(piece: &Piece, outline: &Words, takes_outline: bool) -> Option<Garment> {
    let name = Words::of(&piece.name);
    let kind = name.before(&["with", "over", "for", "from", "in", "and", "under"]).last(tables::KINDS)?;
    let cloth = Words::of(&piece.cloth);
    let details: Vec<Words> = piece.details.iter().take(DETAILS).map(|detail| Words::of(detail)).collect();
    let below = matches!(kind, Kind::Trousers | Kind::Skirt | Kind::Shorts);
    let outline =
        if below || (takes_outline && carries_outline(kind)) { outline.clone() } else { Words::default() };
    let all = Said { name: &name, cloth: &cloth, details: &details, outline: &outline };
    let kind = refined(kind, &all);
    let set = all.anywhere(tables::SETS).unwrap_or_default();
    Some(Garment {
        kind,
        cut: cut(&all),
        length: length(&all),
        reach: all.in_details(tables::REACHES).or_else(|| sleeve_said(&details, set)),
        set,
        neck: all.in_details(tables::NECKS).or_else(|| outline.first(tables::NECKS)),
        collar: name.first(tables::COLLARS).or_else(|| all.in_details(tables::COLLARS)),
        closure: closure(&all),
        buttons: buttons(&details),
        pattern: pattern(kind, &all),
        colours: piece.colours.iter().take(3).map(|colour| colour.rgb()).collect(),
        heavy: cloth.say(tables::HEAVY),
        marks: marks(&all),
    })
}

/// The texts of one piece, and the silhouette where it is the piece's own.
struct Said<'a> {
    name: &'a Words,
    cloth: &'a Words,
    details: &'a [Words],
    outline: &'a Words,
}

impl Said<'_> {
    fn in_details<T: Copy>(&self, table: &[(&str, T)]) -> Option<T> {
        table.iter().find(|(phrases, _)| self.detail(phrases)).map(|(_, said)| *said)
    }

    fn anywhere<T: Copy>(&self, table: &[(&str, T)]) -> Option<T> {
        table.iter().find(|(phrases, _)| self.say(phrases)).map(|(_, said)| *said)
    }

    fn detail(&self, phrases: &str) -> bool {
        self.details.iter().any(|words| words.say(phrases))
    }

    fn say(&self, phrases: &str) -> bool {
        self.detail(phrases) || self.name.say(phrases) || self.cloth.say(phrases) || self.outline.say(phrases)
    }
}

/// A cap of rubber is a bathing cap, a blouse with a waistband is a battledress: what cloth and details make of a name.
fn refined(kind: Kind, said: &Said<'_>) -> Kind {
    match kind {
        Kind::Head(Head::Cap) if said.cloth.say("rubber|latex|rubberised|felted|lawn") => {
            Kind::Head(Head::BathingCap)
        }
        Kind::Head(Head::Cap) if said.cloth.say("hand knitted|locknit") => Kind::Head(Head::Knit),
        Kind::Head(Head::Cap) if said.say("flat|8 piece") => Kind::Head(Head::FlatCap),
        Kind::Head(Head::Brim) if said.detail("cloche|cloche slit") => Kind::Head(Head::Cloche),
        Kind::Head(Head::Brim) if said.detail("pillbox") => Kind::Head(Head::Pillbox),
        Kind::Head(Head::Brim) if said.detail("soft bonnet") => Kind::Head(Head::Tam),
        Kind::Head(Head::Brim) if said.detail("pull on") => Kind::Head(Head::Knit),
        Kind::Head(Head::Brim) if said.detail("small|half hat|tilted|tilted crown") => {
            Kind::Head(Head::Small)
        }
        Kind::Head(Head::Brim)
            if said.say("wide brim|brim wired|wired brim|picture|halo|halo brim|wide|raffia") =>
        {
            Kind::Head(Head::WideBrim)
        }
        Kind::Scarf if said.detail("pin curl|pin curls|at the brow|at the nape") => Kind::Head(Head::Turban),
        Kind::Blouse if said.detail("waistband|bellows pockets|two bellows pockets") => Kind::Jacket,
        Kind::Dress if said.detail("divided") => Kind::Dress,
        Kind::Robe if said.say("christening|length three times the child") => Kind::Christening,
        Kind::Feet(Feet::Shoes) if said.cloth.say("canvas") && said.detail("tape|tapes") => {
            Kind::Feet(Feet::Plimsolls)
        }
        other => other,
    }
}

fn length(said: &Said<'_>) -> Option<Length> {
    let of_the_whole = || said.details.iter().filter(|words| !words.say(tables::PARTS));
    let measured =
        of_the_whole().find_map(|words| words.number_before("cm from the floor")).map(Length::FromFloor);
    let in_words =
        || tables::LENGTHS.iter().find(|(phrases, _)| of_the_whole().any(|words| words.say(phrases)));
    measured
        .or_else(|| in_words().map(|(_, length)| *length))
        .or_else(|| said.outline.first(tables::LENGTHS))
        .or_else(|| said.outline.first(tables::OUTLINE_LENGTHS))
}

fn cut(said: &Said<'_>) -> Option<Cut> {
    let of_the_whole = || said.details.iter().filter(|words| !words.say(tables::PARTS));
    let in_words = || tables::CUTS.iter().find(|(phrases, _)| of_the_whole().any(|words| words.say(phrases)));
    in_words()
        .map(|(_, cut)| *cut)
        .or_else(|| said.outline.first(tables::CUTS))
        .or_else(|| said.name.first(tables::CUTS))
}

/// Any other word on sleeves means that there are some; a puff alone is a short sleeve.
fn sleeve_said(details: &[Words], set: Set) -> Option<Reach> {
    let reach = if set == Set::Puffed { Reach::Short } else { Reach::Long };
    details.iter().any(|words| words.say("sleeve|cuff")).then_some(reach)
}

fn closure(said: &Said<'_>) -> Option<Closure> {
    let elsewhere = "sleeve|wrist|shoulder|back buttons|strap|at the left hip|chin|drawers|off";
    let fronts = || said.details.iter().filter(|words| !words.say(elsewhere));
    let in_details = || tables::CLOSURES.iter().find(|(phrases, _)| fronts().any(|words| words.say(phrases)));
    said.outline
        .first(tables::CLOSURES)
        .or_else(|| in_details().map(|(_, closure)| *closure))
        .or_else(|| said.name.first(tables::CLOSURES))
}

fn buttons(details: &[Words]) -> Option<u8> {
    let words = details.iter().find(|words| {
        words.say("button|toggle|clip|stud") && !words.say("gone|odd|whittled|sleeve|wrist")
            || words.say("of which")
    })?;
    words.number().and_then(|number| u8::try_from(number).ok()).filter(|number| (1..=24).contains(number))
}

fn pattern(kind: Kind, said: &Said<'_>) -> Pattern {
    let knitted = matches!(kind, Kind::Jumper | Kind::Cardigan | Kind::Bathing);
    if kind == Kind::Jumper && said.name.say("gansey") {
        return Pattern::Gansey;
    }
    let outside = || {
        said.details.iter().filter(|words| {
            !words.say("lined|lining|facing|border|at the hem|at the skirt|each seam|petticoat|cuffs|wrist")
        })
    };
    let own = said.cloth.first(tables::PATTERNS);
    let table = || {
        tables::PATTERNS.iter().filter(|(_, pattern)| {
            !matches!(pattern, Pattern::Gansey | Pattern::Rib | Pattern::Fur | Pattern::Cord)
        })
    };
    let told =
        table().find(|(phrases, _)| outside().any(|words| words.say(phrases))).map(|(_, pattern)| *pattern);
    match (own, told) {
        (Some(own), Some(told)) if own == Pattern::Rib || own == Pattern::Loop => told,
        (Some(own), _) => own,
        (None, Some(told)) => told,
        (None, None) if knitted => Pattern::Rib,
        (None, None) => Pattern::Plain,
    }
}

fn marks(said: &Said<'_>) -> Vec<Mark> {
    let stands = |row: &&tables::MarkRow| match row.place {
        tables::Place::Anywhere => said.say(row.phrases),
        tables::Place::Details => said.detail(row.phrases),
    };
    let marked =
        tables::MARKS.iter().filter(stands).filter(|row| row.unless.is_empty() || !said.detail(row.unless));
    marked.map(|row| row.mark).collect()
}

#[cfg(test)]
mod tests;

//! A garment as it is drawn: what a record's words come to. Each type is a closed list, so that whoever draws must say
//! what each of its words looks like.

use crate::picture::flat::model::Rgb;

/// What a garment or accessory is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
#[allow(missing_docs, reason = "each is the word that it means")]
pub enum Kind {
    Dress,
    Nightshirt,
    Gown,
    Tunic,
    Overall,
    Pinafore,
    Apron,
    Smock,
    Skirt,
    DividedSkirt,
    Trousers,
    Breeches,
    Shorts,
    Drawers,
    Dungarees,
    OnePiece,
    Coat,
    WrapCoat,
    Duffel,
    Oilskin,
    OpenGown,
    Jacket,
    Waistcoat,
    Cardigan,
    Jumper,
    Blouse,
    Shirt,
    Singlet,
    HalterTop,
    Suit,
    Pyjamas,
    Bathing,
    Robe,
    Christening,
    Cape,
    Shawl,
    Blanket,
    Stole,
    Drapery,
    Veil,
    Head(Head),
    Feet(Feet),
    Hose,
    Gloves,
    Gauntlets,
    Belt,
    Cord,
    Sash,
    Scarf,
    Tie,
    BowTie,
    Collar,
    Goggles,
    Glasses,
    Beads,
    Brooch,
    Armband,
    Bag,
    Tape,
}

/// What is worn on the head.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
#[allow(missing_docs, reason = "each is the word that it means")]
pub enum Head {
    Cap,
    FlatCap,
    Brim,
    WideBrim,
    Bowler,
    Cloche,
    Turban,
    Scarf,
    Helmet,
    Souwester,
    Tam,
    Pillbox,
    Balaclava,
    Knit,
    BathingCap,
    Small,
}

/// What is worn on the feet.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
#[allow(missing_docs, reason = "each is the word that it means")]
pub enum Feet {
    Shoes,
    Boots,
    SeaBoots,
    Clogs,
    Sandals,
    Slippers,
    Plimsolls,
}

/// The outline.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
#[allow(missing_docs, reason = "each is the word that it means")]
pub enum Cut {
    Straight,
    Boxy,
    Fitted,
    FullSkirt,
    ALine,
    Bias,
    DropWaist,
    Princess,
    Column,
    Flared,
    Cocoon,
}

/// How far down something reaches.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
#[allow(missing_docs, reason = "each is the word that it means")]
pub enum Length {
    Waist,
    Hip,
    Thigh,
    AboveKnee,
    Knee,
    BelowKnee,
    Calf,
    Ankle,
    Floor,
    Train,
    /// So many centimetres from the floor.
    FromFloor(u16),
}

/// How far a sleeve reaches.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
#[allow(missing_docs, reason = "each is the word that it means")]
pub enum Reach {
    None,
    Cap,
    Short,
    Elbow,
    Pushed,
    ThreeQuarter,
    Long,
}

/// How a sleeve is set and shaped.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
#[allow(missing_docs, reason = "each is the word that it means")]
pub enum Set {
    #[default]
    Plain,
    Raglan,
    Dolman,
    Puffed,
    Bell,
    Bishop,
}

/// The line of the neck.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
#[allow(missing_docs, reason = "each is the word that it means")]
pub enum Neck {
    Round,
    V,
    Square,
    Boat,
    High,
    Cowl,
    Halter,
    Sweetheart,
    Scoop,
}

/// What stands or lies about the neck.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
#[allow(missing_docs, reason = "each is the word that it means")]
pub enum Collar {
    None,
    Sailor,
    Shirt,
    Lapels,
    Shawl,
    Stand,
    Round,
    Roll,
    Jabot,
    Ruff,
    Cape,
    Bow,
}

/// How a garment closes in front.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
#[allow(missing_docs, reason = "each is the word that it means")]
pub enum Closure {
    None,
    Buttons,
    DoubleBreasted,
    Wrap,
    Lacing,
    Zip,
    Toggles,
    Clips,
    Frogs,
    Edge,
}

/// The pattern or the surface of a cloth.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
#[allow(missing_docs, reason = "each is the word that it means")]
pub enum Pattern {
    #[default]
    Plain,
    StripeAlong,
    StripeAcross,
    StripeDiagonal,
    Check,
    Herringbone,
    Dot,
    Print,
    Lace,
    Quilted,
    Fur,
    Loop,
    Fleck,
    Cord,
    Gansey,
    Rib,
}

/// What a cutter adds to the outline.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
#[allow(missing_docs, reason = "each is the word that it means")]
pub enum Mark {
    Belt,
    Pockets,
    BreastPockets,
    Pleats,
    BoxPleat,
    Tiers,
    Points,
    Uneven,
    Yoke,
    Smocking,
    Peplum,
    Gores,
    Drape,
    Tucks,
    HemBand,
    HipBand,
    BustBand,
    Edged,
    Cuffs,
    TurnUps,
    WideLeg,
    NarrowLeg,
    Rolled,
    FallFront,
    KneePatches,
    SideStripe,
    Skirted,
    Legged,
    LowBack,
    ShoulderButtons,
    Flash,
    Badge,
    Pompons,
    ThreePiece,
    Banded,
    Hood,
    Fringe,
    HighHeel,
    Strap,
    TBar,
    Wedge,
    ChinStrap,
    LongGlove,
    Divided,
    HighLeg,
    Bib,
    Swinging,
    ButtonedThrough,
    Open,
    Feather,
    HatVeil,
}

/// One garment or accessory, as far as its words say.
#[derive(Clone, Debug, PartialEq)]
pub struct Garment {
    /// What it is.
    pub kind: Kind,
    /// Its outline.
    pub cut: Option<Cut>,
    /// How far down it reaches.
    pub length: Option<Length>,
    /// How far its sleeves reach.
    pub reach: Option<Reach>,
    /// How its sleeves are set.
    pub set: Set,
    /// Its neckline.
    pub neck: Option<Neck>,
    /// Its collar.
    pub collar: Option<Collar>,
    /// How it closes.
    pub closure: Option<Closure>,
    /// How many buttons, toggles or clips.
    pub buttons: Option<u8>,
    /// Its cloth's pattern or surface.
    pub pattern: Pattern,
    /// Its colours, main first; at most three.
    pub colours: Vec<Rgb>,
    /// Whether its cloth is heavy.
    pub heavy: bool,
    /// The rest.
    pub marks: Vec<Mark>,
}

impl Garment {
    /// Whether its words say this.
    pub fn has(&self, mark: Mark) -> bool {
        self.marks.contains(&mark)
    }
}

//! The word lists: phrases, parted by `|`, and what they mean. The words are those of the trade (common practice, no
//! source). A row that stands earlier wins, except for names of garments, where the last word of the name does.

use super::{Closure, Collar, Cut, Feet, Head, Kind, Length, Mark, Neck, Pattern, Reach, Set};

/// Names of garments and accessories.
pub(super) const KINDS: &[(&str, Kind)] = &[
    ("dress|frock|shirtwaister|shift|slip|petticoat|sheath|kirtle|sundress", Kind::Dress),
    ("nightshirt|nightgown|nightdress", Kind::Nightshirt),
    ("gown|evening dress|ball gown|evening gown|dinner dress|wedding dress", Kind::Gown),
    ("tunic", Kind::Tunic),
    ("overall|housecoat|tabard|lab coat|crossover", Kind::Overall),
    ("pinafore|pinny|gymslip", Kind::Pinafore),
    ("apron", Kind::Apron),
    ("smock|fishing smock", Kind::Smock),
    ("skirt|kilt", Kind::Skirt),
    ("divided skirt|culottes", Kind::DividedSkirt),
    ("trousers|slacks|flannels|pants|jeans|bags|joggers", Kind::Trousers),
    ("breeches|jodhpurs|knickerbockers|plus fours|bloomers", Kind::Breeches),
    ("shorts", Kind::Shorts),
    ("drawers|knickers", Kind::Drawers),
    ("dungarees|bib and brace", Kind::Dungarees),
    ("siren suit|boiler suit|flying suit|jumpsuit|romper|coverall", Kind::OnePiece),
    ("coat|overcoat|greatcoat|mackintosh|mac|raincoat|trench coat|topcoat|redingote|ulster", Kind::Coat),
    ("wrap coat|cocoon coat", Kind::WrapCoat),
    ("duffel coat|duffle coat|duffel|duffle", Kind::Duffel),
    ("oilskin", Kind::Oilskin),
    ("civic gown|academic gown|judge gown|mayoral gown", Kind::OpenGown),
    ("jacket|blazer|bolero|bed jacket|anorak|blouson|spencer|tailcoat|dinner jacket", Kind::Jacket),
    ("waistcoat|gilet|vest coat", Kind::Waistcoat),
    ("cardigan", Kind::Cardigan),
    ("jumper|gansey|jersey|sweater|pullover|guernsey|twinset", Kind::Jumper),
    ("blouse|sailor blouse|middy|tee shirt|t shirt", Kind::Blouse),
    ("shirt", Kind::Shirt),
    ("singlet|vest|camisole|tank top", Kind::Singlet),
    ("halter top|sun top", Kind::HalterTop),
    ("suit|lounge suit|costume|two piece|skirt suit|trouser suit", Kind::Suit),
    ("pyjamas|beach pyjamas", Kind::Pyjamas),
    (
        "bathing costume|bathing suit|bathing dress|swimsuit|swimming costume|swimming suit|club costume|race costume",
        Kind::Bathing,
    ),
    ("robe|dressing gown|bathrobe|kimono|peignoir|negligee", Kind::Robe),
    ("christening robe|christening gown", Kind::Christening),
    ("wrap|towel", Kind::Robe),
    ("cape|cloak|boat cloak|mantle|capelet|gas cape", Kind::Cape),
    ("shawl", Kind::Shawl),
    ("blanket|deck blanket", Kind::Blanket),
    ("stole|fur stole|boa", Kind::Stole),
    ("drapery|toga|chiton", Kind::Drapery),
    ("veil", Kind::Veil),
    ("cap", Kind::Head(Head::Cap)),
    ("flat cap", Kind::Head(Head::FlatCap)),
    ("hat", Kind::Head(Head::Brim)),
    ("boater|panama|trilby|fedora|sun hat|picture hat|top hat|bonnet", Kind::Head(Head::Brim)),
    ("bowler|bowler hat", Kind::Head(Head::Bowler)),
    ("cloche", Kind::Head(Head::Cloche)),
    ("turban", Kind::Head(Head::Turban)),
    ("headscarf|kerchief|head square", Kind::Head(Head::Scarf)),
    ("helmet|tin hat", Kind::Head(Head::Helmet)),
    ("sou wester|southwester", Kind::Head(Head::Souwester)),
    ("tam|beret|tam o shanter", Kind::Head(Head::Tam)),
    ("pillbox", Kind::Head(Head::Pillbox)),
    ("balaclava", Kind::Head(Head::Balaclava)),
    ("beanie|watch cap|hood", Kind::Head(Head::Knit)),
    ("bathing cap|swimming cap", Kind::Head(Head::BathingCap)),
    ("shoes|pumps|court shoes|brogues|oxfords|bathing shoes", Kind::Feet(Feet::Shoes)),
    ("boots|ankle boots", Kind::Feet(Feet::Boots)),
    ("sea boots|wellingtons|waders|riding boots|gumboots", Kind::Feet(Feet::SeaBoots)),
    ("clogs", Kind::Feet(Feet::Clogs)),
    ("sandals", Kind::Feet(Feet::Sandals)),
    ("slippers|mules", Kind::Feet(Feet::Slippers)),
    ("plimsolls|trainers|gym shoes|sneakers", Kind::Feet(Feet::Plimsolls)),
    ("stockings|tights|hose|socks", Kind::Hose),
    ("gloves|mittens", Kind::Gloves),
    ("gauntlets", Kind::Gauntlets),
    ("belt", Kind::Belt),
    ("cord|line|rope|girdle|lanyard", Kind::Cord),
    ("sash|cummerbund", Kind::Sash),
    ("scarf|muffler|neckerchief|cravat", Kind::Scarf),
    ("tie|necktie", Kind::Tie),
    ("bow tie", Kind::BowTie),
    ("collar|ruff|stock", Kind::Collar),
    ("goggles", Kind::Goggles),
    ("glasses|spectacles|sunglasses", Kind::Glasses),
    ("beads|pearls|necklace|chain|locket", Kind::Beads),
    ("brooch|clip pair|clip|corsage|badge|medal|medal ribbon|ornament|rosette|buttonhole", Kind::Brooch),
    ("armband|brassard", Kind::Armband),
    ("bag|handbag|haversack|satchel|purse|respirator|gas mask", Kind::Bag),
    ("tape|tape measure", Kind::Tape),
];

/// Outlines.
pub(super) const CUTS: &[(&str, Cut)] = &[
    (
        "dropped waist|drop waist|low waist|low belted|low belt|hip sash|sash at the hip|bloused to the hip",
        Cut::DropWaist,
    ),
    ("full skirt|new look|crinoline|shirtwaister", Cut::FullSkirt),
    ("shirtwaist|flared hem|bias flare|flare|flared|godet|godets|longer skirt", Cut::Flared),
    ("princess|princess line", Cut::Princess),
    ("bias|true cross|on the cross|cut on the cross", Cut::Bias),
    ("column|sheath|narrow|pencil", Cut::Column),
    ("a line|swagger|trapeze|raglan full|loose back|tent", Cut::ALine),
    ("cocoon|cocoon wrap", Cut::Cocoon),
    ("nipped|nipped waist|fitted|fitted bodice|tight", Cut::Fitted),
    ("boxy|square shoulder|loose|too wide|sack|smock|hung loose", Cut::Boxy),
    ("tubular|tube|straight|long|yoked|one piece", Cut::Straight),
];

/// How far down something reaches.
pub(super) const LENGTHS: &[(&str, Length)] = &[
    ("train|with a train", Length::Train),
    ("floor length|to the floor|full length|length three times the child|long robe", Length::Floor),
    ("to the ankle|ankle length|maxi", Length::Ankle),
    ("to the calf|mid calf|calf length|midi|ballerina", Length::Calf),
    ("above the knee|just above the knee|mini", Length::AboveKnee),
    ("below the knee|seven eighths|longer skirt", Length::BelowKnee),
    ("to the knee|knee length|economy line", Length::Knee),
    ("to the thigh|mid thigh|thigh length", Length::Thigh),
    ("hip length|to the hip", Length::Hip),
    ("waist length|cropped", Length::Waist),
];

/// Lengths that only a silhouette can mean: of a detail, `short` may be said of anything.
pub(super) const OUTLINE_LENGTHS: &[(&str, Length)] =
    &[("knee", Length::Knee), ("short", Length::Waist), ("column", Length::Floor)];

/// Details of these parts say nothing of the whole garment's length or outline.
pub(super) const PARTS: &str = "sleeve|cuff|lining|back|open|button|collar|glove|bare|revers|lapel|pocket|lined|opening|strap|flap|wet|tuck|yoke";

/// How far a sleeve reaches.
pub(super) const REACHES: &[(&str, Reach)] = &[
    (
        "crossover|crosses left over right|old crossover|sleeveless|strapless|no sleeve|straps|shoulder straps",
        Reach::None,
    ),
    ("cap sleeve", Reach::Cap),
    (
        "elbow sleeve|half sleeve|to the elbow|sleeves to the elbow|sleeve to the elbow|tied above the elbow",
        Reach::Elbow,
    ),
    ("pushed|pushed up|rolled|rolled sleeves", Reach::Pushed),
    (
        "three quarter sleeve|three quarter length sleeve|bracelet sleeve|seven eighths sleeve|sleeves seven eighths",
        Reach::ThreeQuarter,
    ),
    ("short sleeve|puff head|flutter sleeve|puff sleeve", Reach::Short),
    (
        "long sleeve|long sleeves|long tight sleeves|long sheer sleeves|to the knuckle|sleeves to a point|to the wrist|sleeves buttoned down",
        Reach::Long,
    ),
];

/// How a sleeve is set.
pub(super) const SETS: &[(&str, Set)] = &[
    ("raglan", Set::Raglan),
    ("kimono|kimono sleeve|dolman|batwing|magyar|cut in one sleeves", Set::Dolman),
    ("puff|puffed|puffed sleeve|puff head|leg of mutton|gathered head", Set::Puffed),
    ("bell sleeve|bell|flared cuffs|flutter|flutter sleeve", Set::Bell),
    (
        "sleeves gathered to a band|gathered to a band|bishop|to a beaded cuff|cuffs with elastic|elastic at the cuffs",
        Set::Bishop,
    ),
];

/// Necklines.
pub(super) const NECKS: &[(&str, Neck)] = &[
    ("v neck|cross over front|crosses left over right|shallow v neck|wrap front|jabot", Neck::V),
    ("square neck|square neckline", Neck::Square),
    ("boat neck|bateau", Neck::Boat),
    (
        "high round neck|high neck|high front|drawstring neck|hook and eye at the neck|collar band only|polo neck|roll neck|self bound neck slit|neck slit",
        Neck::High,
    ),
    ("cowl|cowl neck|draped neck", Neck::Cowl),
    ("halter|halter neck|halter in one with a scarf|tied at the nape", Neck::Halter),
    ("sweetheart|sweetheart neck|sweetheart neck filled in", Neck::Sweetheart),
    (
        "scoop|scoop neck|scooped|neck scooped|plain scoop|neck dropped|low neck|back bare to the waist|bare back",
        Neck::Scoop,
    ),
    ("round neck", Neck::Round),
];

/// Collars. They say no neckline of their own.
pub(super) const COLLARS: &[(&str, Collar)] = &[
    ("sailor|sailor collar|deep square collar|sailor shape|square collar", Collar::Sailor),
    ("collarless|no collar|edge to edge|round neck", Collar::None),
    ("shawl collar|shawl neck|revers|revers to the waist|shawl lapels|long lapels", Collar::Shawl),
    ("jabot|jabot blouse", Collar::Jabot),
    ("ruff", Collar::Ruff),
    ("cape collar", Collar::Cape),
    ("scarf collar|scarf cut in one|cut in one with the collar|pussy bow|bow collar", Collar::Bow),
    ("round collar|small round collar|peter pan|eton collar|linen collar", Collar::Round),
    (
        "stand collar|standing collar|mandarin|mandarin collar|collar band|collar that stands|stand away collar|frogging",
        Collar::Stand,
    ),
    ("polo neck|roll neck|turtle neck", Collar::Roll),
    ("lapels|lapel|link button|double breasted", Collar::Lapels),
    (
        "plush collar|fur collar|corduroy collar|shirt collar|attached collar|soft collar|collar",
        Collar::Shirt,
    ),
];

/// Ways to close.
pub(super) const CLOSURES: &[(&str, Closure)] = &[
    ("double breasted", Closure::DoubleBreasted),
    ("toggles|toggle", Closure::Toggles),
    ("clips|brass clips|storm fly", Closure::Clips),
    ("frogging|frogged|frogs", Closure::Frogs),
    ("zip|zipper|slide fastener", Closure::Zip),
    (
        "crossover|crosses left over right|wrap front|wrap|wrapped|cross over front|wrap over|tied at the hip|asymmetric closing|old crossover|revers to the waist",
        Closure::Wrap,
    ),
    ("lacing|laced", Closure::Lacing),
    ("edge to edge|single hook|fly front", Closure::Edge),
    ("button|buttons|single breasted|press studs|studs|hooks", Closure::Buttons),
];

/// Patterns of cloth.
pub(super) const PATTERNS: &[(&str, Pattern)] = &[
    ("diagonal stripe", Pattern::StripeDiagonal),
    ("herringbone", Pattern::Herringbone),
    ("check|checked|tartan|plaid|gingham|gun club check|prince of wales", Pattern::Check),
    ("dotted|spotted|polka|polka dot|spots", Pattern::Dot),
    ("stripes in order|striped across|hooped|breton", Pattern::StripeAcross),
    ("striped|stripe|stripes|ticking|pinstripe|vertical bars|art silk stripe", Pattern::StripeAlong),
    ("print|printed|cretonne|floral|chintz|bleeding print|screen print", Pattern::Print),
    ("lace|allover lace|broderie", Pattern::Lace),
    ("quilted", Pattern::Quilted),
    ("fox|fur|sheepskin|coney|astrakhan", Pattern::Fur),
    ("terry|towelling|huckaback|boucl|bouclé|looped|teddy", Pattern::Loop),
    ("tweed|knopped|homespun|heather mixture", Pattern::Fleck),
    ("corduroy|bedford cord|pleated|needlecord", Pattern::Cord),
    ("gansey|5 ply|rope and ladder|ladder and rope|cable", Pattern::Gansey),
    (
        "rib|1x1|2x2|knit|knitted|hand knitted|hand knit|jersey|stockinet|ply|worsted rib|re knitted|oiled gansey wool|fully fashioned|garter stitch|interlock|locknit",
        Pattern::Rib,
    ),
];

/// Cloth that is worn with long sleeves unless the record says otherwise.
pub(super) const HEAVY: &str = "wool|serge|tweed|worsted|velvet|melton|linsey|flannel|bouclé|felt|crêpe|marocain|drill|duck|pilot cloth|duffel";

/// Where a mark's words must stand.
pub(super) enum Place {
    /// In the details.
    Details,
    /// In the name, the cloth, the details or the silhouette.
    Anywhere,
}

/// What says that a garment has a mark.
pub(super) struct MarkRow {
    pub(super) mark: Mark,
    pub(super) place: Place,
    pub(super) phrases: &'static str,
    /// Details that take it back; empty where none do.
    pub(super) unless: &'static str,
}

const fn row(mark: Mark, place: Place, phrases: &'static str) -> MarkRow {
    MarkRow { mark, place, phrases, unless: "" }
}

const fn unless(mark: Mark, place: Place, phrases: &'static str, unless: &'static str) -> MarkRow {
    MarkRow { mark, place, phrases, unless }
}

/// What a cutter adds to the outline.
pub(super) const MARKS: &[MarkRow] = &[
    row(
        Mark::Belt,
        Place::Anywhere,
        "belt|belted|half belt|self belt|sash at the hip|hip sash|sash|low belted|buckled belt|silk cord|belt buckle",
    ),
    row(
        Mark::Pockets,
        Place::Details,
        "pocket|patch pocket|patch pockets|pockets|jetted pockets|piped pockets|pocket flaps",
    ),
    row(Mark::BreastPockets, Place::Details, "breast pockets|breast pocket|bellows pockets"),
    unless(
        Mark::Pleats,
        Place::Anywhere,
        "pleats|knife pleats|pleated|unpressed pleats|box pleats",
        "kick pleat|inverted pleat|one pleat|pleat at the back",
    ),
    row(
        Mark::BoxPleat,
        Place::Details,
        "inverted pleat|box pleat|kick pleat|kick pleats|one pleat|front fold|soft front fold",
    ),
    row(Mark::Tiers, Place::Anywhere, "tiers|tiered|tucked tiers|flounce|flounces"),
    row(Mark::Points, Place::Details, "handkerchief hem|hem in six points|six points"),
    row(Mark::Uneven, Place::Details, "uneven hem|dipping back hem|dipping hem"),
    row(Mark::Yoke, Place::Anywhere, "yoke|yoked|square yoke|hip yoke"),
    row(Mark::Smocking, Place::Anywhere, "smocking|smocked|honeycomb"),
    row(Mark::Peplum, Place::Details, "peplum|rounded hip"),
    row(Mark::Gores, Place::Details, "gores|godets|panels|inset godets|skirt panels|seven panels"),
    row(Mark::Drape, Place::Anywhere, "drape|side drape|draped|draped hip|ruched|ruched front|bloused"),
    row(Mark::Tucks, Place::Details, "tucks|growth tucks|pin tucks"),
    row(
        Mark::HemBand,
        Place::Details,
        "at the hem|stripe at the skirt|hip and hem|hem band|border|end stripe|faced hem|four edges",
    ),
    row(
        Mark::HipBand,
        Place::Details,
        "band at hip|bands at hip|band at the hip|one bone band|stripe at the hip",
    ),
    row(Mark::BustBand, Place::Details, "under the bust"),
    row(
        Mark::Edged,
        Place::Details,
        "braid|piping|piped|binding|bindings|bound|self braid|edge overcast|cord piping|bound armholes",
    ),
    unless(
        Mark::Cuffs,
        Place::Details,
        "cuff|cuffs|turned cuffs|deep cuffs|turned back cuff|cuffs turned back",
        "no cuffs|from the cuff|monogram on the cuff",
    ),
    unless(Mark::TurnUps, Place::Details, "turn ups", "turn ups cut off|cut off"),
    row(Mark::WideLeg, Place::Anywhere, "wide leg|wide trouser|wide trousers|76 cm hems|bags"),
    row(
        Mark::NarrowLeg,
        Place::Anywhere,
        "tapered|underfoot strap|drainpipe|tied at the ankle|tucked into boots",
    ),
    row(Mark::Rolled, Place::Details, "rolled"),
    row(Mark::FallFront, Place::Details, "fall front|broad fall front|buttons"),
    row(Mark::KneePatches, Place::Details, "knee patches|knees doubled|canvas knees|knees"),
    row(Mark::SideStripe, Place::Details, "stripe down each seam|side stripe"),
    unless(
        Mark::Skirted,
        Place::Anywhere,
        "skirted|half skirt|modesty skirt|skirt overlay|front skirt overlay|overlay|pleated skirt|short skirt",
        "skirt removed|skirt unpicked",
    ),
    row(
        Mark::Legged,
        Place::Anywhere,
        "tubular|leg to mid thigh|above the knee|boy leg|leg straight across|leg cut straight|leg straight",
    ),
    row(
        Mark::LowBack,
        Place::Anywhere,
        "low back|back cut to the waist|back to the waist|halter|single strap|elastane|plain scoop",
    ),
    row(
        Mark::ShoulderButtons,
        Place::Details,
        "on the left shoulder|at the left point|rubber buttons|left shoulder closed|buttoned left strap|point of the shoulder|two buttons of three|single strap|left strap",
    ),
    row(Mark::Flash, Place::Details, "flash|lightning flash|bone flash|comet|paillette comet"),
    row(
        Mark::Badge,
        Place::Details,
        "badge|pennant|monogram|felt w|pocket badge|initials|in red|flock letters|numeral",
    ),
    row(Mark::Pompons, Place::Details, "pompons|pompoms"),
    row(Mark::ThreePiece, Place::Details, "three pieces|waistcoat|gansey|undertaker"),
    row(Mark::Banded, Place::Details, "waistband|short welt"),
    row(Mark::Hood, Place::Anywhere, "hood|duffel coat|duffle coat"),
    row(Mark::Fringe, Place::Details, "fringe"),
    row(Mark::HighHeel, Place::Details, "louis heel|court heel|stacked heel|heel|heels"),
    row(Mark::Strap, Place::Details, "bar|strap|two bar|one strap"),
    row(Mark::TBar, Place::Details, "t bar"),
    row(Mark::Wedge, Place::Details, "wedge|cork wedge|platform"),
    unless(
        Mark::ChinStrap,
        Place::Details,
        "chin strap|elastic under the chin|ribbon ties",
        "chin strap cut off|no chin strap",
    ),
    row(Mark::LongGlove, Place::Details, "elbow|twelve button|long gloves"),
    row(Mark::Divided, Place::Anywhere, "divided|divided skirt"),
    row(Mark::HighLeg, Place::Details, "leg high|high leg|low leg|leg high and elastic|high cut"),
    row(Mark::Bib, Place::Details, "bib"),
    row(Mark::Swinging, Place::Details, "crossed|crosses|worn across|across"),
    row(
        Mark::ButtonedThrough,
        Place::Anywhere,
        "button to the hem|buttons to the hem|black buttons to the hem|buttoned through|straight overall|press studs|shirtwaister|shirtwaist",
    ),
    row(Mark::Open, Place::Anywhere, "open gown|worn open|left undone|undone|edge to edge"),
    row(Mark::Feather, Place::Details, "quill|feather|plume"),
    row(Mark::HatVeil, Place::Details, "veil|veil to the mouth"),
];

use super::*;

fn piece(name: &str, cloth: &str, details: &[&str]) -> Piece {
    let details = details.iter().map(|&detail| detail.to_owned()).collect();
    Piece { name: name.into(), cloth: cloth.into(), details, ..Piece::default() }
}

fn read(name: &str, cloth: &str, details: &[&str], silhouette: &str) -> Garment {
    garments(&[piece(name, cloth, details)], silhouette).remove(0)
}

#[test]
fn a_name_says_what_a_garment_is() {
    use Kind::*;
    for (name, kind) in [
        ("frock", Dress),
        ("Bathing Costume", Bathing),
        ("bathing dress", Bathing),
        ("pyjama trousers", Trousers),
        ("slacks", Trousers),
        ("loft breeches", Breeches),
        ("sailor blouse", Blouse),
        ("gansey", Jumper),
        ("pilot coat", Coat),
        ("coat with hood and belt", Coat),
        ("duffel coat", Duffel),
        ("wrap coat", WrapCoat),
        ("civic gown", OpenGown),
        ("dressing gown", Robe),
        ("ball gown", Gown),
        ("siren suit", OnePiece),
        ("dungarees", Dungarees),
        ("net apron", Apron),
        ("boat cloak", Cape),
        ("cord and watch", Cord),
        ("measuring tape", Tape),
        ("bowler", Head(super::Head::Bowler)),
        ("sou'wester", Head(super::Head::Souwester)),
        ("sea boots", Feet(super::Feet::SeaBoots)),
        ("clogs", Feet(super::Feet::Clogs)),
        ("gauntlets", Gauntlets),
        ("stockings", Hose),
        ("goggles", Goggles),
    ] {
        assert_eq!(read(name, "", &[], "").kind, kind, "{name}");
    }
}

#[test]
fn a_thing_of_no_known_kind_is_left_out() {
    assert_eq!(garments(&[piece("thingummy", "wool", &["double-breasted"])], "full skirt"), []);
}

#[test]
fn cloth_and_details_refine_a_name() {
    assert_eq!(read("cap", "moulded rubber", &[], "").kind, Kind::Head(Head::BathingCap));
    assert_eq!(read("cap", "wool, flat, 8-piece", &[], "").kind, Kind::Head(Head::FlatCap));
    assert_eq!(read("cap", "wool cloth, leather peak", &[], "").kind, Kind::Head(Head::Cap));
    assert_eq!(read("hat", "white felt", &["pillbox"], "").kind, Kind::Head(Head::Pillbox));
    assert_eq!(read("scarf", "rayon", &["knot at the brow"], "").kind, Kind::Head(Head::Turban));
    assert_eq!(read("blouse", "serge", &["waistband with side tab"], "").kind, Kind::Jacket);
}

#[test]
fn a_suit_is_two_garments_and_its_outline_says_which() {
    let kinds = |name: &str, silhouette: &str| -> Vec<Kind> {
        garments(&[piece(name, "worsted", &[])], silhouette).iter().map(|garment| garment.kind).collect()
    };
    assert_eq!(kinds("suit", "lounge suit, tight"), [Kind::Jacket, Kind::Trousers]);
    assert_eq!(kinds("suit", "nipped waist, straight skirt"), [Kind::Jacket, Kind::Skirt]);
    assert_eq!(kinds("pyjamas", "trouser, tunic"), [Kind::Tunic, Kind::Trousers]);
}

#[test]
fn lengths_are_read_of_the_whole_and_not_of_its_parts() {
    for (details, length) in [
        (&["to the calf", "storm fly"][..], Some(Length::Calf)),
        (&["hem 36 cm from the floor"], Some(Length::FromFloor(36))),
        (&["to mid thigh"], Some(Length::Thigh)),
        (&["cowl back", "bias", "train"], Some(Length::Train)),
        (&["bell sleeve to the knee"], None),
        (&["sash at the hip"], None),
        (&["wet to the thigh"], None),
        (&["revers to the waist"], None),
    ] {
        assert_eq!(read("frock", "", details, "").length, length, "{details:?}");
    }
    assert_eq!(read("frock", "", &[], "straight, mid-calf").length, Some(Length::Calf));
}

#[test]
fn sleeves_necks_collars_and_closures_are_read() {
    let said = |detail: &str| read("frock", "", &[detail], "");
    assert_eq!(said("elbow sleeve").reach, Some(Reach::Elbow));
    assert_eq!(said("sleeveless").reach, Some(Reach::None));
    assert_eq!(said("three-quarter length sleeve as bought").reach, Some(Reach::ThreeQuarter));
    assert_eq!(said("sleeves set in without fullness").reach, Some(Reach::Long));
    assert_eq!(said("puffed sleeve head").reach, Some(Reach::Short));
    assert_eq!(said("raglan").set, Set::Raglan);
    assert_eq!(said("kimono sleeve with gusset").set, Set::Dolman);
    assert_eq!(said("puffed sleeve head").set, Set::Puffed);
    assert_eq!(said("boat neck").neck, Some(Neck::Boat));
    assert_eq!(said("V neck").neck, Some(Neck::V));
    assert_eq!(said("square neck").neck, Some(Neck::Square));
    assert_eq!(said("neck scooped to the collarbone").neck, Some(Neck::Scoop));
    assert_eq!(said("sailor collar with braid").collar, Some(Collar::Sailor));
    assert_eq!(said("mandarin collar").collar, Some(Collar::Stand));
    assert_eq!(said("small round collar").collar, Some(Collar::Round));
    assert_eq!(said("shawl collar to the waist").collar, Some(Collar::Shawl));
    assert_eq!(said("double-breasted").closure, Some(Closure::DoubleBreasted));
    assert_eq!(said("zip from crotch to neck").closure, Some(Closure::Zip));
    assert_eq!(said("crosses left over right").closure, Some(Closure::Wrap));
    assert_eq!(said("five covered buttons").buttons, Some(5));
    assert_eq!(said("covered buttons from wrist to elbow").closure, None, "those are the sleeve's");
}

#[test]
fn patterns_are_read_of_the_outside() {
    let of = |name: &str, cloth: &str, detail: &str| read(name, cloth, &[detail], "").pattern;
    assert_eq!(of("dress", "wool linsey, striped", ""), Pattern::StripeAlong);
    assert_eq!(of("robe", "cotton terry", "broad diagonal stripe"), Pattern::StripeDiagonal);
    assert_eq!(
        of("jumper", "re-knitted wool", "stripes in order of what was unpicked"),
        Pattern::StripeAcross
    );
    assert_eq!(of("jacket", "wool tweed, gun-club check", ""), Pattern::Check);
    assert_eq!(of("frock", "dotted cotton muslin", ""), Pattern::Dot);
    assert_eq!(of("frock", "viscose crêpe, screen print", ""), Pattern::Print);
    assert_eq!(of("gansey", "worsted 5-ply", ""), Pattern::Gansey);
    assert_eq!(of("bathing costume", "nylon", ""), Pattern::Rib);
    assert_eq!(of("overall", "cotton", "facing in the green print"), Pattern::Plain);
}

#[test]
fn only_the_first_garment_has_the_outline_of_the_whole() {
    let all = garments(&[piece("coat", "", &[]), piece("frock", "", &[]), piece("hat", "", &[])], "A-line");
    assert_eq!(all.iter().map(|garment| garment.cut).collect::<Vec<_>>(), [Some(Cut::ALine), None, None]);
}

#[test]
fn marks_can_be_taken_back() {
    assert!(read("bathing costume", "", &["half skirt"], "").has(Mark::Skirted));
    assert!(!read("bathing costume", "", &["skirt removed"], "tubular, skirted").has(Mark::Skirted));
    assert!(!read("cap", "latex", &["chin strap cut off"], "").has(Mark::ChinStrap));
    assert!(!read("skirt", "", &["two kick pleats"], "").has(Mark::Pleats));
}

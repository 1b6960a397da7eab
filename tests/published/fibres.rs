//! The years of fibres against what others have written of them.

#![allow(clippy::unwrap_used, reason = "a fibre that does not read is a failed claim")]

use shirr::trade::fibre::Fibre;

fn since(fibre: &str, year: u16) {
    let found = fibre.parse::<Fibre>().unwrap().first().map(|first| first.year);
    assert_eq!(found, Some(year), "{fibre}");
}

/// American Fiber Manufacturers Association, fibersource.com/f-tutor, pages "Acrylic Fiber", "Spandex Fiber" and "Olefin
/// Fiber", lines "First U.S. Commercial … Fiber Production": 1950, 1959; of olefins 1958 as monofilament, and 1961 as
/// textile multifilament of polypropylene.
#[test]
fn the_manufacturers_say_when_they_began() {
    since("acrylic", 1950);
    since("spandex", 1959);
    since("olefin", 1961);
}

/// *Man-Made Fiber Fact Book*, Man-Made Fiber Producers Association, 1978, as listed by H. R. Richards, "Fibers – From
/// Where to Where", *Spin-Off*, 1978, pp. 33–36, and again at luthvarian.com/2018/09/14: first American production. That
/// list also has nylon in 1939, acrylic in 1950 and spandex in 1959; rayon (1910), acetate (1924) and polyester (1953)
/// were made in Europe before, and metallic yarn (1946) by another maker. It disagrees with what is kept on olefins, of which it has the first in 1949, and on
/// aramid, which it has in 1961, when it was not yet sold.
#[test]
fn the_fact_book_agrees() {
    for (fibre, year) in
        [("modacrylic", 1949), ("triacetate", 1954), ("nylon", 1939), ("acrylic", 1950), ("spandex", 1959)]
    {
        since(fibre, year);
    }
    for (fibre, american) in
        [("rayon", 1910), ("acetate", 1924), ("metallised yarn", 1946), ("polyester", 1953)]
    {
        assert!(fibre.parse::<Fibre>().unwrap().first().unwrap().year <= american, "{fibre}");
    }
}

/// - Viscose, 1905: Warwickshire Industrial Archaeology Society, "Artificial Fibres Industry": the first factory, at
///   Coventry. Courtaulds' plant there was the first in the world: nonwoven.co.uk/2006/12.
/// - Acetate, 1921: M. M. Havich, "Flight Of Fashion", *Textile World*, January 1999: dry spinning, for apparel.
/// - Polyester, 1948: Science Museum, "Terylene polyester synthesis": first sold as lace curtains.
/// - Lyocell, 1992: Alabama Engineering Hall of Fame, "Tencel Process": the plant worked by the summer.
/// - Aramid, 1967: DuPont, "1967 Nomex".
/// - Polyurethane-coated, 1963: Museum of Fine Arts, Boston, CAMEO, "Poromeric imitation leather".
/// - Rubber, 1823: *The Guardian*, 12 October 2023, on the mackintosh, as told again at ohtldr.com.
/// - Neoprene, 1931: "Neoprene: A Brief History", seventhwave.co.nz: marketed late in the year.
/// - Metallised yarn, by 1940: National Museum of American History, object nmah_632994.
/// - Cuprammonium, 1897: Wikipedia, "J. P. Bemberg". The Getty's thesaurus has 1901, at "cupro".
#[test]
fn museums_societies_and_makers_say_when_each_was_first_sold() {
    for (fibre, year) in [
        ("viscose rayon", 1905),
        ("acetate", 1921),
        ("polyester", 1948),
        ("lyocell", 1992),
        ("aramid", 1967),
        ("polyurethane-coated", 1963),
        ("rubber", 1823),
        ("neoprene", 1931),
        ("metallised yarn", 1940),
        ("cuprammonium rayon", 1897),
    ] {
        since(fibre, year);
    }
}

/// *Burning Characteristics of Fibers*, pdfcoffee.com: what melts in a flame, and what does not.
#[test]
fn what_melts_is_what_melts_in_a_flame() {
    let melts = |fibre: &str| fibre.parse::<Fibre>().unwrap().melts();
    assert!(["acetate", "acrylic", "nylon", "polyester", "spandex", "olefin"].into_iter().all(melts));
    assert!(!["cotton", "linen", "rayon", "lyocell", "wool", "silk"].into_iter().any(melts));
}

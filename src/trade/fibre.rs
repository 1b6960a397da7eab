//! What cloth is made of, since when, and how it takes fire.
//!
//! A costume tells its year by its fibre as much as by its cut. The year given is the earliest that the source named
//! beside it gives for production or sale, so a fibre that is shown before it is shown too early; that it was common
//! from then on is not said. Fibres without a year have been worn for longer than films reach back, or no source was
//! found.
//!
//! That acetate, acrylic, nylon, polyester, elastane and olefins melt in a flame, and that cotton, linen, rayon, lyocell,
//! wool and silk do not, is from the sheet *Burning Characteristics of Fibers* (pdfcoffee.com); of the others it is
//! common practice, no source. It is a warning and no permission: what does not melt can burn.

use std::fmt;
use std::str::FromStr;

use super::by_text::by_text;
use super::nearest::{hint, spaced};

/// When a fibre came into use.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct FirstUse {
    /// The year.
    pub year: u16,
    /// What happened in it.
    pub what: &'static str,
    /// Who says so.
    pub source: &'static str,
}

const FACT_BOOK: &str = "Man-Made Fiber Producers Association, Man-Made Fiber Fact Book, 1978, as listed by H. R. \
                         Richards, Spin-Off, 1978, and again at luthvarian.com/2018/09/14";
const MANUFACTURERS: &str = "American Fiber Manufacturers Association, fibersource.com/f-tutor";

/// One table: the variant, its words, other words for it, whether it melts, what it is, since when.
macro_rules! fibres {
    ($($name:ident $words:literal $others:tt $melts:literal $what:literal $first:expr;)+) => {
        /// What a thread, a skin or a coating is made of.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub enum Fibre {
            $(#[doc = $what] $name,)+
        }

        impl Fibre {
            /// All of them: what grows, then what is made.
            pub const ALL: &[Self] = &[$(Self::$name),+];

            /// Its name, for people: `viscose rayon`.
            pub const fn words(self) -> &'static str {
                match self { $(Self::$name => $words),+ }
            }

            /// Other names that are read as it.
            pub const fn others(self) -> &'static [&'static str] {
                match self { $(Self::$name => &$others),+ }
            }

            /// Whether it softens and drips near a flame, and so sticks to skin.
            pub const fn melts(self) -> bool {
                match self { $(Self::$name => $melts),+ }
            }

            /// When it came into use, where a source says so.
            pub const fn first(self) -> Option<FirstUse> {
                match self { $(Self::$name => $first),+ }
            }
        }
    };
}

const fn since(year: u16, what: &'static str, source: &'static str) -> Option<FirstUse> {
    Some(FirstUse { year, what, source })
}

fibres! {
    Wool "wool" ["merino", "mohair", "cashmere", "alpaca"] false "Hair of sheep, goats and their like." None;
    Cotton "cotton" [] false "Hair of the cotton seed." None;
    Linen "linen" ["flax"] false "Bast of flax." None;
    Silk "silk" [] false "Thread of the silkworm." None;
    Hemp "hemp" [] false "Bast of hemp." None;
    Ramie "ramie" [] false "Bast of the white nettle." None;
    Jute "jute" ["hessian", "burlap"] false "Bast of jute." None;
    Straw "straw" ["raffia"] false "Stalks and leaves, plaited." None;
    Horsehair "horsehair" [] false "Hair of mane and tail." None;
    MetalThread "metal thread" ["gold thread", "silver thread"] false "Wire or strip of metal, drawn or wound on a core." None;
    Leather "leather" ["suede"] false "Tanned skin." None;
    Fur "fur" ["shearling"] false "Skin with its hair." None;
    Feather "feather" ["down"] false "Feathers and down." None;
    Rubber "rubber" ["latex"] false "Natural rubber, on cloth or as thread."
        since(1823, "coats of rubbered cloth sold by C. Macintosh in Glasgow",
              "“History of the Mackintosh”, The Guardian, 12 October 2023, as told again at ohtldr.com");
    Viscose "viscose rayon" ["viscose", "rayon"] false "Wood pulp, spun by the viscose process."
        since(1905, "viscose yarn made at Coventry by Courtaulds",
              "Warwickshire Industrial Archaeology Society, “Artificial Fibres Industry”, warwickshireias.org");
    Cuprammonium "cuprammonium rayon" ["cupro", "cuprammonium"] false "Cotton linters, spun from copper and ammonia."
        since(1897, "made for sale by J. P. Bemberg", "Wikipedia, “J. P. Bemberg”");
    Acetate "acetate" ["cellulose acetate"] true "Cellulose acetate, spun from acetone."
        since(1921, "dry-spun acetate yarn for knitting and weaving, by the Dreyfus brothers",
              "M. M. Havich, “Flight Of Fashion”, Textile World, January 1999");
    Triacetate "triacetate" [] true "Cellulose triacetate."
        since(1954, "made for sale in the United States", FACT_BOOK);
    Modal "modal" ["polynosic"] false "Viscose rayon stretched to be strong when wet."
        since(1951, "polynosic process of S. Tachikawa in Japan",
              "“What is polynosic modal”, backtoweb.info");
    Lyocell "lyocell" [] false "Wood pulp, spun from an organic solvent."
        since(1992, "made for sale at Axis, Alabama, by Courtaulds",
              "Alabama Engineering Hall of Fame, “Acordis Cellulosic Fibers Inc. Tencel Process”, aehof.eng.ua.edu");
    Nylon "nylon" ["polyamide"] true "Polyamide."
        since(1939, "stockings sold at Wilmington, Delaware, from October; in the whole country from May 1940",
              "V. Moeser, “A Glimpse Of Stocking”, Smithsonian News Service, Chicago Tribune, 18 October 1989");
    Neoprene "neoprene" ["polychloroprene"] false "Synthetic rubber, in suits for water as a foam."
        since(1931, "sold as DuPrene from late 1931; tried in suits for divers from 1951",
              "“Neoprene: A Brief History”, seventhwave.co.nz; C. Rainey, “Wet Suit Pursuit”, Scripps Institution of \
               Oceanography, 1998");
    Pvc "PVC" ["vinyl", "polyvinyl chloride"] true "Polyvinyl chloride, as a sheet or on cloth."
        since(1926, "patented by W. L. Semon, for waterproofing among others; in fashion from the 1960s",
              "F. Sterlacci & J. Arbuckle, Historical Dictionary of the Fashion Industry, “Semon, Waldo L.”");
    MetallisedYarn "metallised yarn" ["metallized yarn"] true
        "Foil between films of plastic, slit to yarn; no metal thread."
        since(1940, "foil between films of cellophane sold by Metlon; between films of plastic, by Dobeckmun, from 1946",
              "National Museum of American History, object nmah_632994; American Fabrics 1, 1946, advertisement, as \
               copied at vintagefabrics.blogspot.com/2009/11");
    Polyester "polyester" ["PET"] true "Polyethylene terephthalate."
        since(1948, "lace curtains of it sold in Britain; made for sale in the United States from 1953",
              "Science Museum, “Terylene polyester synthesis”, topbritishinnovations.org; for 1953, American Fiber \
               Manufacturers Association, fibersource.com/f-tutor/polyester.htm");
    Modacrylic "modacrylic" [] true "Acrylonitrile with others, slow to burn."
        since(1949, "made for sale in the United States", FACT_BOOK);
    Acrylic "acrylic" [] true "Polyacrylonitrile." since(1950, "made for sale in the United States", MANUFACTURERS);
    Elastane "elastane" ["spandex"] true "Segmented polyurethane, spun to stretch."
        since(1959, "made for sale in the United States", MANUFACTURERS);
    Polypropylene "polypropylene" ["olefin"] true "Polypropylene."
        since(1961, "multifilament for textiles made in the United States", MANUFACTURERS);
    PolyurethaneCoated "polyurethane-coated" ["polyurethane", "poromeric"] true
        "Cloth coated with polyurethane, such as one imitation leather."
        since(1963, "shown as shoe leather by DuPont at Chicago",
              "Museum of Fine Arts, Boston, CAMEO, “Poromeric imitation leather”, cameo.mfa.org");
    Aramid "aramid" [] false "Aromatic polyamide, for heat and for blades."
        since(1967, "sold as Nomex; tried in racing suits in 1966",
              "DuPont, “1967 Nomex”, www2.dupont.com/Phoenix_Heritage");
}

/// Why a text is no fibre.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("`{text}` is no fibre: {hint}")]
pub struct FibreError {
    text: String,
    hint: String,
}

impl FromStr for Fibre {
    type Err = FibreError;

    fn from_str(text: &str) -> Result<Self, Self::Err> {
        let word = spaced(text);
        let is = |fibre: &&Self| fibre.names().any(|name| spaced(name) == word);
        Self::ALL.iter().find(is).copied().ok_or_else(|| {
            let names =
                Self::ALL.iter().flat_map(|fibre| fibre.names().map(|name| (name, fibre.to_string())));
            FibreError { text: text.to_owned(), hint: hint(text, names) }
        })
    }
}

impl Fibre {
    /// All that is read as it.
    fn names(self) -> impl Iterator<Item = &'static str> {
        std::iter::once(self.words()).chain(self.others().iter().copied())
    }
}

impl fmt::Display for Fibre {
    /// As it stands in files: `viscose-rayon`.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(&spaced(self.words()).replace(' ', "-"))
    }
}

by_text!(Fibre);

#[cfg(test)]
mod tests {
    use std::collections::BTreeSet;

    use super::*;

    #[test]
    fn every_one_reads_back_from_all_its_names() {
        for fibre in Fibre::ALL {
            for text in fibre.names().map(str::to_owned).chain([fibre.to_string()]) {
                assert_eq!(text.parse::<Fibre>().as_ref(), Ok(fibre));
            }
            let text = serde_json::to_string(fibre).unwrap();
            assert_eq!(serde_json::from_str::<Fibre>(&text).unwrap(), *fibre);
        }
    }

    #[test]
    fn no_name_means_two() {
        let names: Vec<String> = Fibre::ALL.iter().flat_map(|fibre| fibre.names().map(spaced)).collect();
        assert_eq!(names.iter().collect::<BTreeSet<_>>().len(), names.len());
    }

    #[test]
    fn a_slip_is_told_its_word_and_a_stranger_each_of_them_once() {
        let said = |text: &str| text.parse::<Fibre>().unwrap_err().to_string();
        assert_eq!(said("Polyestre"), "`Polyestre` is no fibre: did you mean `polyester`?");
        assert_eq!(said("spandx"), "`spandx` is no fibre: did you mean `elastane`?");
        assert_eq!(said("pvk"), "`pvk` is no fibre: did you mean `pvc`?");
        let all = said("adamantium");
        assert!(all.contains("expected one of wool, cotton, ") && all.matches("wool").count() == 1, "{all}");
    }

    #[test]
    fn every_year_has_its_event_and_its_source() {
        let firsts: Vec<FirstUse> = Fibre::ALL.iter().filter_map(|fibre| fibre.first()).collect();
        assert!(firsts.iter().all(|first| !first.what.is_empty() && !first.source.is_empty()));
        assert!(firsts.iter().all(|first| (1800..2000).contains(&first.year)));
        assert!(Fibre::Wool.first().is_none());
    }
}

//! The four seasons of EDTF level 1 and the months that this program gives
//! them. The specification names the seasons and leaves their days open.

/// A season "independent of location", EDTF 21 to 24.
///
/// **Our reading.** Northern hemisphere, three whole months each, in the order
/// of their codes, so that the four of one year follow on without gap or
/// overlap: spring March–May, summer June–August, autumn September–November,
/// and winter December to the February of the *next* year, as in "the winter
/// of 1926–27". Whole months, because wardrobe follows the weather and not
/// the solstice; a season in a caption is never sharper than that.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub(super) enum Season {
    Spring,
    Summer,
    Autumn,
    Winter,
}

impl Season {
    pub const ALL: [Season; 4] = [Season::Spring, Season::Summer, Season::Autumn, Season::Winter];

    pub fn from_code(code: u8) -> Option<Season> {
        match code {
            21 => Some(Season::Spring),
            22 => Some(Season::Summer),
            23 => Some(Season::Autumn),
            24 => Some(Season::Winter),
            _ => None,
        }
    }

    pub fn code(self) -> u8 {
        match self {
            Season::Spring => 21,
            Season::Summer => 22,
            Season::Autumn => 23,
            Season::Winter => 24,
        }
    }

    pub fn name(self) -> &'static str {
        match self {
            Season::Spring => "spring",
            Season::Summer => "summer",
            Season::Autumn => "autumn",
            Season::Winter => "winter",
        }
    }

    /// Its first month, in its own year.
    pub fn first_month(self) -> u8 {
        match self {
            Season::Spring => 3,
            Season::Summer => 6,
            Season::Autumn => 9,
            Season::Winter => 12,
        }
    }

    /// Its last month, and how many years after its own that month falls.
    pub fn last_month(self) -> (i64, u8) {
        match self {
            Season::Spring => (0, 5),
            Season::Summer => (0, 8),
            Season::Autumn => (0, 11),
            Season::Winter => (1, 2),
        }
    }
}

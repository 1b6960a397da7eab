//! What a date admits about itself: `?` uncertain, `~` approximate, `%` both.

/// The qualification of one whole date.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub(super) struct Mark {
    pub uncertain: bool,
    pub approximate: bool,
}

impl Mark {
    pub const APPROXIMATE: Mark = Mark { uncertain: false, approximate: true };
    pub const UNCERTAIN: Mark = Mark { uncertain: true, approximate: false };

    pub fn from_sign(sign: char) -> Option<Mark> {
        match sign {
            '?' => Some(Mark::UNCERTAIN),
            '~' => Some(Mark::APPROXIMATE),
            '%' => Some(Mark::UNCERTAIN.and(Mark::APPROXIMATE)),
            _ => None,
        }
    }

    /// The EDTF character, or nothing.
    pub fn sign(self) -> &'static str {
        match (self.uncertain, self.approximate) {
            (false, false) => "",
            (true, false) => "?",
            (false, true) => "~",
            (true, true) => "%",
        }
    }

    /// Everything that either mark says.
    #[must_use]
    pub fn and(self, other: Mark) -> Mark {
        Mark {
            uncertain: self.uncertain || other.uncertain,
            approximate: self.approximate || other.approximate,
        }
    }
}

//! The elements of a script.

/// One element: mostly one line of the file.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Element {
    /// What it is.
    pub kind: Kind,
    /// Its words, without the marks that say what it is.
    pub text: String,
    /// Its first line, from 1.
    pub line: usize,
    /// Whether an empty line stands above it on the page.
    pub spaced: bool,
}

/// What an element is.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Kind {
    /// A scene heading.
    Heading {
        /// What stands between `#` and `#` behind it, and in which column.
        number: Option<(String, usize)>,
    },
    /// What is seen and done; anything that is nothing else.
    Action,
    /// Action in the middle of the line.
    Centred,
    /// The name of whoever speaks.
    Cue {
        /// What stands in brackets behind it, such as `V.O.`.
        extension: String,
        /// Whether it is spoken beside the speech before.
        dual: bool,
    },
    /// How it is spoken, with its brackets.
    Parenthetical,
    /// What is spoken. Empty where a line is empty on purpose.
    Dialogue,
    /// What is sung.
    Lyric,
    /// How it goes over to the next.
    Transition,
    /// A heading of the outline, of this depth from 1; not on the page.
    Section(usize),
    /// A remark of the outline; not on the page.
    Synopsis,
    /// A new page.
    PageBreak,
}

impl Kind {
    /// Whether it belongs to a speech.
    pub fn is_speech(&self) -> bool {
        matches!(self, Self::Cue { .. } | Self::Parenthetical | Self::Dialogue)
    }

    /// Whether it is printed on the page.
    pub fn is_printed(&self) -> bool {
        !matches!(self, Self::Section(_) | Self::Synopsis | Self::PageBreak)
    }
}

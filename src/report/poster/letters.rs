//! How wide words stand on the sheet, by the font that it is drawn with as pixels, and where they break. A browser draws
//! it with a font of its own; this one is rather wide, so that what fits here fits there.

use skrifa::instance::{LocationRef, Size};
use skrifa::metrics::GlyphMetrics;
use skrifa::{FontRef, MetadataProvider};

/// How wide a letter is for its height where the font does not say.
const LETTER: f64 = 0.6;

/// How thick letters are.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Weight {
    Regular,
    Bold,
}

impl Weight {
    /// The font file: DejaVu Serif Condensed, which is free to embed and has the signs of our sheets.
    pub fn font(self) -> &'static [u8] {
        match self {
            Self::Regular => dejavu::serif_condensed::regular(),
            Self::Bold => dejavu::serif_condensed::bold(),
        }
    }
}

/// Measures words.
pub(super) struct Letters {
    regular: Option<FontRef<'static>>,
    bold: Option<FontRef<'static>>,
}

impl Letters {
    pub fn new() -> Self {
        let font = |weight: Weight| FontRef::new(weight.font()).ok();
        Self { regular: font(Weight::Regular), bold: font(Weight::Bold) }
    }

    /// The width of words of height 1.
    pub fn wide(&self, weight: Weight, says: &str) -> f64 {
        let font = match weight {
            Weight::Regular => &self.regular,
            Weight::Bold => &self.bold,
        };
        let Some(font) = font else { return says.chars().count() as f64 * LETTER };
        let metrics = GlyphMetrics::new(font, Size::new(1.0), LocationRef::default());
        let map = font.charmap();
        let letter = |c: char| map.map(c).and_then(|glyph| metrics.advance_width(glyph)).map(f64::from);
        says.chars().map(|c| letter(c).unwrap_or(LETTER)).sum()
    }

    /// The size at which words stand in so much room, if it is no more than `size` and no less than `least`; what is
    /// too wide then is cut.
    pub fn fitted(&self, weight: Weight, says: &str, room: f64, size: f64, least: f64) -> (f64, String) {
        let fits = room / self.wide(weight, says).max(0.01);
        let size = size.min(fits).max(least.min(size));
        (size, self.cut(weight, says, room / size))
    }

    /// Words on at most so many lines of so much room at height 1; what is too long is cut.
    pub fn lines(&self, weight: Weight, says: &str, room: f64, most: usize) -> Vec<String> {
        let mut lines: Vec<String> = Vec::new();
        for word in says.split_whitespace() {
            let longer = lines.last().map(|line| format!("{line} {word}"));
            match (lines.last_mut(), longer) {
                (Some(line), Some(longer)) if self.wide(weight, &longer) <= room => *line = longer,
                _ => lines.push(word.to_owned()),
            }
        }
        let more = lines.len() > most;
        lines.truncate(most);
        let last = lines.len().saturating_sub(1);
        for (at, line) in lines.iter_mut().enumerate() {
            if more && at == last {
                line.push('…');
            }
            *line = self.cut(weight, line, room);
        }
        lines
    }

    /// As many letters as have room.
    fn cut(&self, weight: Weight, says: &str, room: f64) -> String {
        // What was made to fit exactly must not be cut by a rounding.
        if self.wide(weight, says) <= room + 1e-6 {
            return says.to_owned();
        }
        let room = room - self.wide(weight, "…");
        let mut kept = String::new();
        for c in says.trim_end_matches('…').chars() {
            kept.push(c);
            if self.wide(weight, &kept) > room {
                kept.pop();
                break;
            }
        }
        format!("{}…", kept.trim_end())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn long_titles_are_cut_by_the_word_and_long_words_by_the_letter() {
        let letters = Letters::new();
        let lines = |says, like: &str, most| {
            letters.lines(Weight::Regular, says, letters.wide(Weight::Regular, like) + 0.01, most)
        };
        assert_eq!(lines("Jumper for the coast road", "Jumper for…", 2), ["Jumper for", "the coast…"]);
        assert_eq!(lines("Unbreakableword", "Unbreak…", 2), ["Unbreak…"]);
        assert_eq!(lines("Short", "Short", 2), ["Short"]);
    }

    #[test]
    fn what_is_made_to_fit_is_not_cut_and_is_never_smaller_than_can_be_read() {
        let letters = Letters::new();
        let wide = letters.wide(Weight::Bold, "The long war");
        assert_eq!(
            letters.fitted(Weight::Bold, "The long war", wide * 3.0, 5.0, 2.0),
            (3.0, "The long war".into())
        );
        let (size, says) = letters.fitted(Weight::Bold, "The long war", wide, 5.0, 2.0);
        assert!(size == 2.0 && says.ends_with('…') && letters.wide(Weight::Bold, &says) * size <= wide);
    }

    #[test]
    fn every_sign_of_our_own_has_a_glyph_and_so_has_every_word_of_the_demo() {
        let folder = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("demo-board");
        let board = crate::store::read(&folder).unwrap().board;
        let poster = crate::report::poster::Poster::of(&board, None, crate::report::poster::Paper::A2);
        for weight in [Weight::Regular, Weight::Bold] {
            let font = FontRef::new(weight.font()).unwrap();
            let map = font.charmap();
            for c in poster.svg().chars().chain("→ ≈ × · … – — ‘’“” = * éèêüöäßøåœçñ ł ő š ž ě ā".chars())
            {
                assert!(map.map(c).is_some_and(|glyph| glyph.to_u32() > 0), "{c:?}");
            }
        }
    }
}

//! Lines into elements, by the rules of the syntax page.
//!
//! Each line is looked at once, with what stood before it and whether an empty line follows. A mark that forces an
//! element counts outside of a speech; within one everything is spoken, as the page has it.

use std::path::Path;

use super::element::{Element, Kind};
use super::emphasis;
use super::error::{ScriptError, Warning};
use super::heading;
use super::source::{self, LARGEST, Line};
use super::title;
use crate::bring::file;

/// A script as it is written.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Script {
    /// Its title, where a title page says it.
    pub title: String,
    /// Everything behind it, in order.
    pub elements: Vec<Element>,
    /// What should be looked at.
    pub warnings: Vec<Warning>,
}

impl Script {
    /// Reads a script file in Fountain.
    ///
    /// # Errors
    /// [`ScriptError::Unread`] and [`ScriptError::NoFile`], and those of [`Script::read`].
    pub fn open(path: &Path) -> Result<Self, ScriptError> {
        let bytes =
            file::bytes(path, LARGEST as u64).map_err(|error| ScriptError::Unread(error.to_string()))?;
        Self::read(&bytes.ok_or(ScriptError::NoFile)?)
    }

    /// Reads a script in Fountain.
    ///
    /// # Errors
    /// [`ScriptError::TooLarge`], [`ScriptError::NoText`] and [`ScriptError::OpenBoneyard`]; any other text is a script,
    /// if one without scenes.
    pub fn read(bytes: &[u8]) -> Result<Self, ScriptError> {
        let (lines, warnings) = source::lines(bytes)?;
        let (title, skip) = title::page(&lines);
        let lines = &lines[skip..];
        let mut scanner = Scanner { elements: Vec::new(), warnings, above: Above::Space, spaced: true };
        for (at, line) in lines.iter().enumerate() {
            scanner.line(line, lines.get(at + 1));
        }
        let Scanner { elements, mut warnings, .. } = scanner;
        warnings.sort_by_key(|warning| warning.at);
        Ok(Self { title, elements, warnings })
    }
}

/// What stands above a line.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Above {
    /// An empty line, or what is as good as one.
    Space,
    /// A speech that goes on.
    Speech,
    /// Anything else.
    Text,
}

struct Scanner {
    elements: Vec<Element>,
    warnings: Vec<Warning>,
    above: Above,
    /// Whether an empty line stood above, on the page.
    spaced: bool,
}

impl Scanner {
    fn line(&mut self, line: &Line, next: Option<&Line>) {
        if line.is_blank() {
            if self.above == Above::Speech && line.is_held() {
                self.push(Kind::Dialogue, "", line);
            } else {
                self.above = Above::Space;
                self.spaced = true;
            }
            return;
        }
        let text = line.text.trim();
        if self.above == Above::Speech {
            let heads = text.strip_prefix('.').is_some_and(|rest| rest.starts_with(char::is_alphanumeric));
            if heads || heading::begins(text) {
                self.no_heading(text, line, "spoken");
            }
            return self.speech(text, line);
        }
        if self.forced(text, line) || self.outline(text, line) {
            return;
        }
        let after = next.is_none_or(Line::is_blank);
        if self.above == Above::Space && heading::begins(text) {
            self.heading(text, line);
        } else if self.above == Above::Space && after && is_transition(&line.text) {
            self.push(Kind::Transition, text, line);
        } else if self.above == Above::Space && followed(next) && is_cue(text) {
            self.cue(text, line);
        } else {
            if heading::begins(text) {
                self.no_heading(text, line, "read as action");
            }
            self.action(line);
        }
    }

    /// Warns of what begins like a heading, if it has a number like one as well.
    fn no_heading(&mut self, text: &str, line: &Line, how: &str) {
        if heading::number(text).1.is_some() {
            let what =
                format!("this looks like a scene heading, but no empty line stands above it, so it is {how}");
            self.warnings.push(Warning::new(line.number, 1, what));
        }
    }

    /// Elements whose first character says what they are.
    fn forced(&mut self, text: &str, line: &Line) -> bool {
        let mut chars = text.chars();
        let first = chars.next();
        let rest = chars.as_str();
        match first {
            Some('.') if rest.starts_with(char::is_alphanumeric) => self.heading(rest, line),
            Some('!') => self.push(Kind::Action, &emphasis::plain(rest), line),
            Some('@') if !rest.trim().is_empty() => self.cue(rest, line),
            Some('~') => self.push(Kind::Lyric, &emphasis::plain(rest.trim()), line),
            Some('>') => match rest.strip_suffix('<') {
                Some(centred) => self.push(Kind::Centred, &emphasis::plain(centred.trim()), line),
                None => self.push(Kind::Transition, &emphasis::plain(rest.trim()), line),
            },
            _ => return false,
        }
        true
    }

    /// The outline and page breaks: on the page they are not there, so what follows stands as behind an empty line.
    fn outline(&mut self, text: &str, line: &Line) -> bool {
        if text.len() >= 3 && text.bytes().all(|b| b == b'=') {
            self.push(Kind::PageBreak, "", line);
        } else if let Some(rest) = text.strip_prefix('=') {
            self.push(Kind::Synopsis, rest.trim(), line);
        } else if text.starts_with('#') {
            let title = text.trim_start_matches('#');
            self.push(Kind::Section(text.len() - title.len()), title.trim(), line);
        } else {
            return false;
        }
        true
    }

    fn heading(&mut self, text: &str, line: &Line) {
        let (text, number) = heading::number(text);
        let number = number.map(|number| {
            // It stands at the end of the line, in front of the last hash.
            let from = line.text.trim_end().len() - '#'.len_utf8() - number.len();
            (number.to_owned(), line.text[..from].chars().count() + 1)
        });
        self.push(Kind::Heading { number }, &emphasis::plain(text), line);
    }

    fn cue(&mut self, text: &str, line: &Line) {
        let (text, dual) = match text.strip_suffix('^') {
            Some(text) => (text, true),
            None => (text, false),
        };
        let (name, extension) = extension(text);
        self.push(Kind::Cue { extension, dual }, &emphasis::plain(name.trim()), line);
    }

    fn speech(&mut self, text: &str, line: &Line) {
        if let Some(sung) = text.strip_prefix('~') {
            self.push(Kind::Lyric, &emphasis::plain(sung.trim()), line);
            self.above = Above::Speech;
        } else if text.starts_with('(') && text.ends_with(')') {
            self.push(Kind::Parenthetical, &emphasis::plain(text), line);
        } else {
            self.push(Kind::Dialogue, &emphasis::plain(text), line);
        }
    }

    /// Action keeps its indentation; a tab is four spaces.
    fn action(&mut self, line: &Line) {
        let text = line.text.trim_end().replace('\t', "    ");
        self.push(Kind::Action, &emphasis::plain(&text), line);
    }

    fn push(&mut self, kind: Kind, text: &str, line: &Line) {
        self.above = match kind {
            Kind::Heading { .. } | Kind::Section(_) | Kind::Synopsis | Kind::PageBreak => Above::Space,
            Kind::Cue { .. } | Kind::Parenthetical | Kind::Dialogue => Above::Speech,
            Kind::Action | Kind::Centred | Kind::Lyric | Kind::Transition => Above::Text,
        };
        let printed = kind.is_printed();
        let spaced = printed && (self.spaced || matches!(kind, Kind::Heading { .. }));
        if printed {
            // What follows a heading stands apart from it, whether the file says so or not.
            self.spaced = matches!(kind, Kind::Heading { .. });
        }
        self.elements.push(Element { kind, text: text.to_owned(), line: line.number, spaced });
    }
}

/// Whether something stands in the next line: a line that is held empty does.
fn followed(next: Option<&Line>) -> bool {
    next.is_some_and(|next| !next.is_blank() || next.is_held())
}

/// In capitals and ending in `TO:`, with nothing behind it.
fn is_transition(line: &str) -> bool {
    line.ends_with("TO:") && in_capitals(line)
}

/// In capitals, but for what stands in brackets behind the name.
fn is_cue(text: &str) -> bool {
    in_capitals(extension(text.strip_suffix('^').unwrap_or(text)).0)
}

fn in_capitals(text: &str) -> bool {
    text.chars().any(char::is_uppercase) && !text.chars().any(char::is_lowercase)
}

/// Parts a name from what stands in brackets behind it; of several, all without the brackets.
fn extension(text: &str) -> (&str, String) {
    match text.find('(') {
        Some(at) => {
            let inside = text[at..].split(['(', ')']).map(str::trim).filter(|part| !part.is_empty());
            (&text[..at], inside.collect::<Vec<_>>().join(", "))
        }
        None => (text, String::new()),
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    fn read(text: &str) -> Vec<(usize, String)> {
        let script = Script::read(text.as_bytes()).unwrap();
        let told = |element: Element| (element.line, format!("{:?} {}", element.kind, element.text));
        script.elements.into_iter().map(told).collect()
    }

    #[test]
    fn a_heading_tells_the_column_of_its_number() {
        for (text, column) in
            [("INT. CAFÉ - DAY #12A#", 18), ("  .DREAM #12A#", 11), ("INT. #3 LOFT #12A#", 15)]
        {
            let script = Script::read(text.as_bytes()).unwrap();
            let Kind::Heading { number } = &script.elements[0].kind else { panic!("{text}") };
            assert_eq!(*number, Some(("12A".to_owned(), column)), "{text}");
        }
    }

    #[test]
    fn a_heading_within_action_is_told_where_it_has_a_number() {
        let script = Script::read(b"INT. A #1#\n\nShe goes.\nINT. B #2#\n\nShe stays.").unwrap();
        assert_eq!(script.elements.len(), 4);
        let warnings: Vec<String> = script.warnings.iter().map(ToString::to_string).collect();
        assert_eq!(warnings.len(), 1);
        assert!(warnings[0].starts_with("4:1: this looks like a scene heading"), "{}", warnings[0]);
    }

    #[test]
    fn a_heading_within_a_speech_is_told_where_it_has_a_number() {
        for (heading, told) in
            [("INT. B #2#", true), (".THE DREAM #2#", true), ("INT. B", false), ("...and berth #2#", false)]
        {
            let script = Script::read(format!("INT. A #1#\n\nADA\nNo.\n{heading}\n\nShe stays.").as_bytes());
            let script = script.unwrap();
            assert_eq!(script.elements[3].kind, Kind::Dialogue, "{heading}");
            let warnings: Vec<String> = script.warnings.iter().map(ToString::to_string).collect();
            let expected =
                "5:1: this looks like a scene heading, but no empty line stands above it, so it is spoken";
            assert_eq!(warnings, vec![expected; usize::from(told)], "{heading}");
        }
    }

    #[test]
    fn a_first_line_that_is_a_scene_heading_begins_no_title_page() {
        let script = Script::read(b"Int Loft: the back room - day #1#\n\nShe mends.").unwrap();
        assert!(matches!(script.elements[0].kind, Kind::Heading { .. }), "{:?}", script.elements);
        let script = Script::read(b"Interval: two\n\nShe mends.").unwrap();
        assert_eq!(script.elements.len(), 1, "a key that only begins alike");
    }

    #[test]
    fn spaces_on_the_page_are_those_between_blocks() {
        let script = Script::read(b"INT. A\nShe goes.\nOn.\n\nADA\nWell.\n\n\n# Act\n\nHe stays.").unwrap();
        let spaced: Vec<bool> = script.elements.iter().map(|element| element.spaced).collect();
        assert_eq!(spaced, [true, true, false, true, false, false, true]);
    }

    #[test]
    fn lines_of_a_script_keep_their_numbers_through_notes() {
        assert_eq!(
            read("INT. A\n\nShe [[who?\nwho?]]goes.\n\nADA\nWell."),
            [
                (1, "Heading { number: None } INT. A".to_owned()),
                (3, "Action She goes.".to_owned()),
                (6, "Cue { extension: \"\", dual: false } ADA".to_owned()),
                (7, "Dialogue Well.".to_owned()),
            ]
        );
    }

    /// Texts in which marks, headings and names come up often.
    fn scripts() -> impl Strategy<Value = String> {
        let line = prop_oneof![
            any::<String>(),
            Just(String::new()),
            Just("  ".to_owned()),
            Just("INT. LOFT - DAY #1#".to_owned()),
            Just("ADA (V.O.) ^".to_owned()),
            "[ .!@~>=#*_A-Za-z()\\[\\]/^<:\u{e9}-]{0,12}",
        ];
        prop::collection::vec(line, 0..30).prop_map(|lines| lines.join("\n"))
    }

    proptest! {
        #[test]
        fn no_bytes_bring_the_reader_down(bytes in prop::collection::vec(any::<u8>(), 0..200)) {
            let _ = Script::read(&bytes);
        }

        #[test]
        fn every_line_that_is_not_empty_is_in_one_element(text in scripts()) {
            // No note and no boneyard, whatever stands beside what is taken out.
            let text = text.replace(['\0', '\u{feff}', '*'], "").replace('[', "(");
            let script = Script::read(text.as_bytes()).unwrap();
            let taken: Vec<usize> = script.elements.iter().map(|element| element.line).collect();
            prop_assert!(taken.is_sorted_by(|one, next| one < next));
            let text = text.replace("\r\n", "\n").replace('\r', "\n");
            // A title page is no element, and ends with the first empty line.
            let lines: Vec<_> = source::lines(text.as_bytes()).unwrap().0;
            let title = title::page(&lines).1;
            prop_assert!(taken.iter().all(|line| *line > title));
            let there = text.split('\n').enumerate().filter(|(_, line)| !line.trim().is_empty());
            for (at, line) in there.filter(|(at, _)| *at >= title) {
                prop_assert!(taken.contains(&(at + 1)), "{:?}", line);
            }
        }

        #[test]
        fn notes_and_boneyards_anywhere_leave_lines_in_order(text in scripts()) {
            let lines = text.split(['\n', '\r']).count();
            if let Ok(script) = Script::read(text.as_bytes()) {
                prop_assert!(script.elements.is_sorted_by(|one, next| one.line < next.line));
                prop_assert!(script.elements.iter().all(|one| one.line <= lines));
            }
        }
    }
}

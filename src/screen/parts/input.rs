//! One line of text to type in.

use crossterm::event::{Event, KeyCode, KeyEvent, KeyEventKind, KeyModifiers};
use ratatui::layout::Position;
use ratatui::style::{Modifier, Style};
use unicode_segmentation::UnicodeSegmentation;

use crate::screen::canvas::{Canvas, width};
use crate::trade::plain::is_unsafe;

/// A line of text with a cursor between its letters.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Input {
    before: String,
    after: String,
}

impl Input {
    /// Begins with a text, the cursor behind it.
    pub fn new(text: impl Into<String>) -> Self {
        Self { before: text.into(), after: String::new() }
    }

    /// The text.
    pub fn text(&self) -> String {
        format!("{}{}", self.before, self.after)
    }

    /// Whether there is no text.
    pub fn is_empty(&self) -> bool {
        self.before.is_empty() && self.after.is_empty()
    }

    /// Takes a key or a paste; says whether it was one for a line of text.
    pub fn take(&mut self, event: &Event) -> bool {
        match event {
            Event::Paste(text) => {
                self.before.push_str(&on_one_line(text));
                true
            }
            Event::Key(key) if key.kind != KeyEventKind::Release => self.key(*key),
            _ => false,
        }
    }

    fn key(&mut self, key: KeyEvent) -> bool {
        let ctrl = key.modifiers.contains(KeyModifiers::CONTROL);
        match key.code {
            KeyCode::Char('a') if ctrl => self.home(),
            KeyCode::Char('e') if ctrl => self.end(),
            KeyCode::Char('u') if ctrl => self.before.clear(),
            KeyCode::Char('k') if ctrl => self.after.clear(),
            KeyCode::Char('w') if ctrl => self.rub_out_word(),
            KeyCode::Char(letter) if !ctrl && !key.modifiers.contains(KeyModifiers::ALT) => {
                self.before.push(letter)
            }
            KeyCode::Backspace => drop(last_cluster(&mut self.before)),
            KeyCode::Delete => {
                let length = self.after.graphemes(true).next().map_or(0, str::len);
                self.after.drain(..length);
            }
            KeyCode::Left => {
                let cluster = last_cluster(&mut self.before);
                self.after.insert_str(0, &cluster);
            }
            KeyCode::Right => {
                let length = self.after.graphemes(true).next().map_or(0, str::len);
                let cluster: String = self.after.drain(..length).collect();
                self.before.push_str(&cluster);
            }
            KeyCode::Home => self.home(),
            KeyCode::End => self.end(),
            _ => return false,
        }
        true
    }

    fn home(&mut self) {
        self.after.insert_str(0, &self.before);
        self.before.clear();
    }

    fn end(&mut self) {
        self.before.push_str(&self.after);
        self.after.clear();
    }

    fn rub_out_word(&mut self) {
        let kept = self.before.trim_end().rfind(' ').map_or(0, |at| at + 1);
        self.before.truncate(kept);
    }

    /// Draws it on one row, scrolled so that the cursor is seen; with `active`, puts the terminal's cursor there.
    pub fn draw(&self, canvas: &mut Canvas<'_>, x: u16, y: u16, room: u16, active: bool) {
        if room == 0 {
            return;
        }
        let style = if active { Style::new().add_modifier(Modifier::UNDERLINED) } else { Style::new() };
        for at in x..x.saturating_add(room).min(canvas.buffer.area.right()) {
            canvas.buffer[(at, y)].set_symbol(" ").set_style(style);
        }
        // The cursor needs a cell of its own behind the text.
        let most = usize::from(room) - 1;
        let mut start = 0;
        for cluster in self.before.graphemes(true) {
            if width(&self.before[start..]) <= most {
                break;
            }
            start += cluster.len();
        }
        let shown = &self.before[start..];
        let at = x + u16::try_from(width(shown)).unwrap_or(0).min(room - 1);
        canvas.buffer.set_stringn(x, y, shown, usize::from(room), style);
        canvas.put(at, y, room - (at - x), &self.after, style);
        if active {
            canvas.cursor = Some(Position::new(at, y));
        }
    }
}

/// A pasted text as one line: where it had line ends (terminals send them as they please) or tabs, one space stands.
fn on_one_line(text: &str) -> String {
    let is_end =
        |c: char| matches!(c, '\n' | '\r' | '\t' | '\u{b}' | '\u{c}' | '\u{85}' | '\u{2028}' | '\u{2029}');
    let lines: Vec<&str> = text.split(is_end).map(str::trim).filter(|line| !line.is_empty()).collect();
    let inner = lines.join(" ");
    // A space at either end may be meant to part it from what stands there.
    let before = if text.starts_with(' ') { " " } else { "" };
    let behind = if text.ends_with(' ') && !inner.is_empty() { " " } else { "" };
    format!("{before}{inner}{behind}").chars().filter(|c| !is_unsafe(*c)).collect()
}

/// Takes the last cluster of letters off a text.
fn last_cluster(text: &mut String) -> String {
    let length = text.graphemes(true).next_back().map_or(0, str::len);
    text.split_off(text.len() - length)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn typed(input: &mut Input, code: KeyCode) {
        input.take(&Event::Key(KeyEvent::new(code, KeyModifiers::NONE)));
    }

    #[test]
    fn letters_go_in_at_the_cursor() {
        let mut input = Input::new("crpe");
        typed(&mut input, KeyCode::Left);
        typed(&mut input, KeyCode::Left);
        typed(&mut input, KeyCode::Char('ê'));
        assert_eq!(input.text(), "crêpe");
        typed(&mut input, KeyCode::Backspace);
        typed(&mut input, KeyCode::Delete);
        assert_eq!(input.text(), "cre");
    }

    #[test]
    fn a_paste_brings_neither_lines_nor_controls() {
        let mut input = Input::default();
        input.take(&Event::Paste("two\nlines\u{1b}[31m".to_owned()));
        assert_eq!(input.text(), "two lines[31m");
        for (pasted, line) in [
            ("first line\nsecond line\n", "first line second line"),
            ("first line\r\nsecond line", "first line second line"),
            ("first line\rsecond line\r\r  third", "first line second line third"),
            ("a\tb\u{2028}c", "a b c"),
            (" and more ", " and more "),
        ] {
            let mut input = Input::default();
            input.take(&Event::Paste(pasted.to_owned()));
            assert_eq!(input.text(), line);
        }
    }
}

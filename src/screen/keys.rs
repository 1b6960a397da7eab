//! Keys by name, as the table of actions writes them: `g`, `ctrl-r`, `shift-up`, `space`.

use std::fmt;
use std::str::FromStr;

use crossterm::event::{KeyCode, KeyEvent, KeyModifiers};

/// A key with its modifiers.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Key {
    code: KeyCode,
    modifiers: KeyModifiers,
}

impl Key {
    /// The key of an event. Shift is dropped from characters, which carry it themselves.
    pub fn of(event: KeyEvent) -> Self {
        let mut modifiers =
            event.modifiers & (KeyModifiers::CONTROL | KeyModifiers::ALT | KeyModifiers::SHIFT);
        let mut code = event.code;
        if let KeyCode::Char(_) = code {
            modifiers -= KeyModifiers::SHIFT;
        }
        if code == KeyCode::BackTab {
            code = KeyCode::Tab;
            modifiers |= KeyModifiers::SHIFT;
        }
        Self { code, modifiers }
    }

    /// The event that pressing it makes.
    #[cfg(test)]
    pub fn event(self) -> KeyEvent {
        KeyEvent::new(self.code, self.modifiers)
    }
}

const NAMED: &[(&str, KeyCode)] = &[
    ("space", KeyCode::Char(' ')),
    ("enter", KeyCode::Enter),
    ("esc", KeyCode::Esc),
    ("tab", KeyCode::Tab),
    ("backspace", KeyCode::Backspace),
    ("delete", KeyCode::Delete),
    ("up", KeyCode::Up),
    ("down", KeyCode::Down),
    ("left", KeyCode::Left),
    ("right", KeyCode::Right),
    ("home", KeyCode::Home),
    ("end", KeyCode::End),
    ("pgup", KeyCode::PageUp),
    ("pgdn", KeyCode::PageDown),
];

impl FromStr for Key {
    type Err = String;

    fn from_str(text: &str) -> Result<Self, String> {
        let mut modifiers = KeyModifiers::NONE;
        let mut rest = text;
        for (prefix, modifier) in
            [("ctrl-", KeyModifiers::CONTROL), ("alt-", KeyModifiers::ALT), ("shift-", KeyModifiers::SHIFT)]
        {
            if let Some(after) = rest.strip_prefix(prefix) {
                modifiers |= modifier;
                rest = after;
            }
        }
        if let Some((_, code)) = NAMED.iter().find(|(name, _)| *name == rest) {
            return Ok(Self { code: *code, modifiers });
        }
        let mut letters = rest.chars();
        match (letters.next(), letters.next()) {
            (Some(letter), None) => Ok(Self { code: KeyCode::Char(letter), modifiers }),
            _ => Err(format!("`{text}` is no key")),
        }
    }
}

impl fmt::Display for Key {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        for (modifier, prefix) in
            [(KeyModifiers::CONTROL, "ctrl-"), (KeyModifiers::ALT, "alt-"), (KeyModifiers::SHIFT, "shift-")]
        {
            if self.modifiers.contains(modifier) {
                f.write_str(prefix)?;
            }
        }
        match (NAMED.iter().find(|(_, code)| *code == self.code), self.code) {
            (Some((name, _)), _) => f.write_str(name),
            (None, KeyCode::Char(letter)) => write!(f, "{letter}"),
            (None, other) => write!(f, "{other}"),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_read_and_print_the_same() {
        for name in ["g", "G", "ctrl-r", "shift-up", "space", "esc", "?", "-", "pgdn"] {
            assert_eq!(name.parse::<Key>().unwrap().to_string(), name);
        }
        assert!("hyper".parse::<Key>().is_err());
    }

    #[test]
    fn shift_is_part_of_the_letter() {
        let event = KeyEvent::new(KeyCode::Char('G'), KeyModifiers::SHIFT);
        assert_eq!(Key::of(event), "G".parse().unwrap());
        let event = KeyEvent::new(KeyCode::BackTab, KeyModifiers::SHIFT);
        assert_eq!(Key::of(event), "shift-tab".parse().unwrap());
    }
}

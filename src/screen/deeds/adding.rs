//! Adding a documented outfit.

use crate::board::Outfit;
use crate::screen::app::App;
use crate::screen::dates::{date_of, date_says};
use crate::screen::layers::form::Filled;
use crate::screen::layers::{Field, Form};
use crate::screen::views::Target;

impl App {
    /// Adds an outfit, after asking what it is called, whose it was and when it was worn; its sheet takes the rest.
    pub fn add_outfit(&mut self) {
        let characters = &self.board().head().characters;
        if characters.is_empty() {
            return self.warn("an outfit is somebody's, and there are no characters yet: Y opens board.yaml");
        }
        let ids: Vec<_> = characters.iter().map(|one| one.id.clone()).collect();
        let names = characters.iter().map(|one| one.name.clone()).collect();
        let own = self.wall.character(self.board());
        let at = ids.iter().position(|id| Some(id) == own.as_ref()).unwrap_or(0);
        let fields = vec![
            Field::line("title", ""),
            Field::choice("character", names, at),
            Field::line("worn", "").read_as(date_says),
        ];
        let form = Form::new("A new outfit", fields, move |app, filled| {
            let [title, character, worn] = filled else { return Ok(()) };
            let title = Filled::text(title);
            if title.is_empty() {
                return Err("give the outfit a title".to_owned());
            }
            let character = ids.get(character.choice()).cloned().ok_or("choose a character")?;
            let outfit = Outfit { worn: date_of(worn.text())?, ..Outfit::titled(title, character) };
            let board = app.board();
            let id = board.free_outfit_id(title);
            let edit = board.add_outfit(&id, outfit);
            if app.change(edit) {
                app.focus(&Target::Outfit(id));
            }
            Ok(())
        });
        self.open_layer(form);
    }
}

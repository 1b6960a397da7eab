//! Gathering, folding, letting go, splitting.

use super::words::{nearest_looks, say_of, treatment_names};
use super::{SOURCED, count_words, look_item, outfit_words};
use crate::board::{Board, Edit, LookId, OutfitId, Refused, Treatment};
use crate::screen::app::App;
use crate::screen::layers::form::Filled;
use crate::screen::layers::{Field, Form, Pick};

impl App {
    /// Makes a change that is made anew where room must be made for it first. `outfits` are those that could go into
    /// another look instead.
    pub fn propose(
        &mut self,
        outfits: Vec<OutfitId>,
        make: impl Fn(&Board) -> Result<Edit, Refused> + Send + Sync + 'static,
    ) -> Result<(), String> {
        let edit = make(self.board()).map_err(|refused| refused.to_string())?;
        self.put(&edit, outfits, make);
        Ok(())
    }

    /// Gathers outfits into a new look, after asking for its title, base and treatment.
    pub fn gather(&mut self, outfits: Vec<OutfitId>) {
        if outfits.is_empty() {
            return self.warn("mark some outfits with space first, or put the focus on one");
        }
        let board = self.board();
        let known = |id: &OutfitId| board.outfit(id).map_or(0, |outfit| outfit.recognition.get());
        // The outfit that the audience knows best is the natural base.
        let best = outfits.iter().map(known).max().unwrap_or(0);
        let at = outfits.iter().position(|id| known(id) == best).unwrap_or(0);
        let title = outfits.get(at).and_then(|id| board.outfit(id)).map_or("", |outfit| &outfit.title);
        let bases = outfits.iter().map(|id| outfit_words(board, id)).collect();
        let fields = vec![
            Field::line("title", title),
            Field::choice("base", bases, at),
            Field::choice("treatment", treatment_names(&SOURCED), 1),
            Field::line("it says", ""),
        ];
        let count = outfits.len();
        let form = Form::new(format!("Gather {count} into a new look"), fields, move |app, filled| {
            let [title, base, treatment, says] = filled else { return Ok(()) };
            if title.text().is_empty() {
                return Err("give the look a title".to_owned());
            }
            let (title, says) = (title.text().to_owned(), says.text().to_owned());
            let base = outfits.get(base.choice()).cloned().ok_or("choose a base")?;
            let treatment = SOURCED.get(treatment.choice()).copied().unwrap_or(Treatment::Interpret);
            let all = outfits.clone();
            app.propose(outfits.clone(), move |board| {
                let (id, mut edit) = board.gather(&all, &title, &base, treatment)?;
                say_of(&mut edit, &id, &says);
                Ok(edit)
            })
        });
        self.open_layer(form);
    }

    /// Folds outfits into a look that is there, after asking which; the nearest in time first.
    pub fn fold(&mut self, outfits: Vec<OutfitId>) {
        let board = self.board();
        let Some(first) = outfits.first().and_then(|id| board.outfit(id)) else {
            return self.warn("mark some outfits with space first, or put the focus on one");
        };
        let day = first.worn.as_ref().and_then(|date| date.middle());
        let sourced = |id: &LookId| board.look(id).is_some_and(|look| look.treatment != Treatment::Invent);
        let looks = nearest_looks(board, &first.character, day, sourced);
        if looks.is_empty() {
            let name = board.name_of(&first.character).to_owned();
            return self.warn(format!("{name} has no look to fold into yet: gather one with g"));
        }
        let items = looks.iter().map(|(apart, id)| look_item(board, id, *apart)).collect();
        let title = format!("Fold {} into", count_words(outfits.len()));
        self.open_layer(Pick::new(title, items, move |app, at| {
            let edit = app.board().fold(&outfits, &looks[at].1);
            if app.change(edit) {
                app.wall.marks.clear();
            }
        }));
    }

    /// Lets outfits go, after asking why.
    pub fn let_go(&mut self, outfits: Vec<OutfitId>) {
        if outfits.is_empty() {
            return self.warn("put the focus on an outfit, or mark some");
        }
        let title = match (outfits.len(), self.board().outfit(&outfits[0])) {
            (1, Some(outfit)) => format!("Let go: {}", outfit.title),
            (count, _) => format!("Let go of {}", count_words(count)),
        };
        self.open_layer(Form::new(title, vec![Field::line("because", "")], move |app, filled| {
            let reason = filled.first().map_or("", Filled::text);
            let edit = app.board().let_go(&outfits, reason).map_err(|refused| refused.to_string())?;
            if app.change(Ok(edit)) {
                app.wall.marks.clear();
            }
            Ok(())
        }));
    }

    /// Splits outfits off their look, after asking for the new look's title.
    pub fn split(&mut self, outfits: Vec<OutfitId>) {
        let Some(first) = outfits.first().and_then(|id| self.board().outfit(id)) else {
            return self.warn("mark the outfits to split off with space first");
        };
        let title = first.title.clone();
        let form = Form::new(
            format!("Split {} off into a new look", count_words(outfits.len())),
            vec![Field::line("title", title)],
            move |app, filled| {
                let title = filled.first().map_or("", Filled::text).to_owned();
                if title.is_empty() {
                    return Err("give the new look a title".to_owned());
                }
                let all = outfits.clone();
                app.propose(Vec::new(), move |board| board.split(&all, &title).map(|(_, edit)| edit))
            },
        );
        self.open_layer(form);
    }
}

#[cfg(test)]
mod tests {
    use crate::screen::trial::Trial;

    #[test]
    fn marks_stay_when_letting_go_is_refused_and_go_when_it_is_done() {
        let mut trial = Trial::small();
        let coat: crate::board::OutfitId = "blackout-coat".parse().unwrap();
        let file = trial.app.folder().join("outfits/blackout-coat.yaml");
        let good = std::fs::read(&file).unwrap();
        trial.app.wall.marks.insert(coat.clone());
        std::fs::write(&file, "title: [").unwrap();
        trial.app.let_go(vec![coat.clone()]);
        trial.types("because");
        trial.keys("enter");
        assert!(trial.app.refused().is_some());
        assert!(trial.app.wall.marks.contains(&coat), "nothing was let go");
        std::fs::write(&file, good).unwrap();
        trial.keys("enter");
        assert_eq!(trial.app.refused(), None);
        assert!(trial.app.wall.marks.is_empty());
    }
}

//! The question how to make room. It is there at once: what mergers cost is measured on a thread of its own, so that no
//! key waits for it, and takes its rows when it is known.

use std::cell::RefCell;
use std::rc::Rc;
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::mpsc::{self, Receiver, RecvTimeoutError, TryRecvError};
use std::thread;
use std::time::Duration;

use crossterm::event::{Event, KeyCode, KeyEventKind};
use ratatui::layout::Rect;

use super::mergers::{Offer, Stopped, with_merger};
use super::{Make, lost_words, raise};
use crate::board::room::Merger;
use crate::board::{Board, Count, OutfitId, Scope};
use crate::screen::app::App;
use crate::screen::canvas::Canvas;
use crate::screen::deeds::{apart_words, count_words};
use crate::screen::layers::{Item, Layer, Next, Pick};

/// So long the question waits for its first rows, so that on most boards none comes late: less than a frame.
const GRACE: Duration = Duration::from_millis(12);

enum Way {
    Measuring,
    Merge(Merger),
    Fold,
    Raise,
    Leave,
}

/// The question.
pub struct Room {
    board: Board,
    pick: Pick,
    ways: Rc<RefCell<Vec<Way>>>,
    /// Where the mergers come from, until they are there.
    offers: Option<Receiver<Vec<Offer>>>,
    cancel: Arc<AtomicBool>,
}

impl Room {
    /// Asks how to make room for what was stopped, in the words of `lead`.
    pub fn ask(
        stopped: Stopped,
        lead: Vec<String>,
        passed: Vec<(Scope, Count)>,
        outfits: Vec<OutfitId>,
    ) -> Self {
        let (board, make) = (stopped.seen.clone(), Arc::clone(&stopped.make));
        let scopes: Vec<Scope> = passed.iter().map(|(scope, _)| scope.clone()).collect();
        let cancel = Arc::new(AtomicBool::new(false));
        let (found, offers) = mpsc::channel();
        let is_over = Arc::clone(&cancel);
        thread::spawn(move || {
            let mergers = stopped.seen.mergers_that_make_room(&scopes);
            if let Some(cheapest) = stopped.cheapest(mergers, &|| is_over.load(Ordering::Relaxed)) {
                // The question may have been answered already.
                let _ = found.send(cheapest);
            }
        });
        let mut room = Self::new(board, lead, passed, outfits, make, Some(offers), cancel);
        room.take_up(Some(GRACE));
        room
    }

    fn new(
        board: Board,
        lead: Vec<String>,
        passed: Vec<(Scope, Count)>,
        outfits: Vec<OutfitId>,
        make: Make,
        offers: Option<Receiver<Vec<Offer>>>,
        cancel: Arc<AtomicBool>,
    ) -> Self {
        let (mut ways, mut items) = (Vec::new(), Vec::new());
        if offers.is_some() {
            items.push(Item::new("Merge two looks: measuring which costs least …", "a moment").marked("⇥"));
            ways.push(Way::Measuring);
        }
        if !outfits.is_empty() {
            let text = format!("Fold {} into a look that is there", count_words(outfits.len()));
            items.push(Item::new(text, "no new look").marked("↳"));
            ways.push(Way::Fold);
        }
        items.push(Item::new("Raise the limit, on the record", "with a reason").marked("↑"));
        ways.push(Way::Raise);
        items.push(Item::new("Leave it", "nothing is changed"));
        ways.push(Way::Leave);
        let ways = Rc::new(RefCell::new(ways));
        let chosen = Rc::clone(&ways);
        let pick = Pick::question("Over the limit", lead, items, move |app, choice| {
            match chosen.borrow().get(choice) {
                Some(Way::Merge(merger)) => {
                    let edit = with_merger(app.board(), merger, &make);
                    app.change(edit);
                }
                Some(Way::Fold) => app.fold(outfits),
                Some(Way::Raise) => raise(app, passed, make),
                Some(Way::Leave | Way::Measuring) | None => app.say("nothing was changed"),
            }
        });
        Self { board, pick, ways, offers, cancel }
    }

    /// Takes up the mergers, if they are there or come in time. Says whether they did.
    fn take_up(&mut self, wait: Option<Duration>) -> bool {
        let Some(offers) = &self.offers else { return false };
        let found = match wait {
            Some(wait) => offers.recv_timeout(wait).map_err(|none| none == RecvTimeoutError::Timeout),
            None => offers.try_recv().map_err(|none| none == TryRecvError::Empty),
        };
        let found = match found {
            Ok(found) => found,
            Err(true) => return false,
            // What measured them has failed: there is none to offer.
            Err(false) => Vec::new(),
        };
        self.offers = None;
        let items = found.iter().map(|offer| self.item(offer)).collect();
        self.pick.replace(0, items);
        self.ways.borrow_mut().splice(0..1, found.into_iter().map(|offer| Way::Merge(offer.merger)));
        true
    }

    fn item(&self, offer: &Offer) -> Item {
        let Offer { merger, lost } = offer;
        let title = |id| self.board.look(id).map_or("", |look| look.title.as_str());
        let apart = merger.days.map_or(String::new(), |days| format!(" · {}", apart_words(days)));
        let text = format!("Merge {} into {}", title(&merger.from), title(&merger.into));
        Item::new(text, format!("{}{apart}", lost_words(*lost))).marked("⇥")
    }

    fn is_measuring(&self, row: usize) -> bool {
        matches!(self.ways.borrow().get(row), Some(Way::Measuring))
    }
}

impl Drop for Room {
    fn drop(&mut self) {
        self.cancel.store(true, Ordering::Relaxed);
    }
}

const MEASURING: &str = "it is still being measured: a moment, or choose another way";

impl Layer for Room {
    fn draw(&mut self, board: &Board, canvas: &mut Canvas<'_>, area: Rect) {
        self.take_up(None);
        self.pick.draw(board, canvas, area);
    }

    fn event(&mut self, event: &Event, app: &mut App) -> Next {
        let is_enter = matches!(event, Event::Key(key)
            if key.code == KeyCode::Enter && key.kind != KeyEventKind::Release);
        if is_enter && self.is_measuring(self.pick.at_row()) {
            app.say(MEASURING);
            return Next::Keep;
        }
        self.pick.event(event, app)
    }

    fn click(&mut self, row: usize, app: &mut App) -> Next {
        if self.is_measuring(row) {
            app.say(MEASURING);
            return Next::Keep;
        }
        self.pick.click(row, app)
    }

    fn scroll(&mut self, by: isize) {
        self.pick.scroll(by);
    }

    fn has_news(&mut self) -> bool {
        self.take_up(None)
    }

    fn keys(&self) -> &'static str {
        self.pick.keys()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::screen::trial::Trial;

    const SIZE: (u16, u16) = (100, 30);

    /// The question on the small board while its mergers are measured, and where they are to be sent.
    fn measuring() -> (Trial, mpsc::Sender<Vec<Offer>>) {
        let mut trial = Trial::small();
        let board = trial.app.open.board().clone();
        let (found, offers) = mpsc::channel();
        let passed = vec![(Scope::Overall, board.count(&Scope::Overall))];
        let make: Make =
            Arc::new(|board: &Board| Ok(board.change_head("as asked", |head| head.runtime = None)));
        let lead = vec!["Make room:".to_owned()];
        let room = Room::new(board, lead, passed, Vec::new(), make, Some(offers), Arc::default());
        trial.app.open_layer(room);
        (trial, found)
    }

    fn offer() -> Offer {
        let (from, into) = ("smock".parse().unwrap(), "club".parse().unwrap());
        Offer { merger: Merger { from, into, days: None }, lost: 0.008 }
    }

    #[test]
    fn the_question_is_there_before_the_mergers_are_measured() {
        let (mut trial, found) = measuring();
        let screen = trial.screen(SIZE);
        assert!(screen.contains("measuring which costs least") && screen.contains("Leave it"), "{screen}");
        let before = trial.app.open.board().records().clone();
        trial.keys("enter");
        assert!(trial.app.said.text.contains("still being measured"), "{}", trial.app.said.text);
        trial.clicks(SIZE, "measuring");
        assert_eq!((trial.app.layers.len(), trial.app.open.board().records()), (1, &before));
        assert!(!trial.app.has_news());
        found.send(vec![offer()]).unwrap();
        assert!(trial.app.has_news());
        let screen = trial.screen(SIZE);
        assert!(screen.contains("Merge Smock, cut down into Club black"), "{screen}");
        assert!(screen.contains("keeps 0.8 % less") && !screen.contains("measuring"), "{screen}");
        trial.keys("enter");
        assert!(trial.app.said.text.starts_with("merged Smock, cut down into Club black; as asked"));
    }

    #[test]
    fn what_is_in_focus_stays_so_when_the_mergers_come() {
        let (mut trial, found) = measuring();
        trial.keys("down down");
        found.send(vec![offer(), offer(), offer()]).unwrap();
        trial.screen(SIZE);
        trial.keys("enter");
        assert_eq!(trial.app.said.text, "nothing was changed");
    }

    #[test]
    fn where_measuring_fails_the_other_ways_are_there() {
        let (mut trial, found) = measuring();
        drop(found);
        let screen = trial.screen(SIZE);
        assert!(!screen.contains("Merge") && screen.contains("Raise the limit"), "{screen}");
    }
}

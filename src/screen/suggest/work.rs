//! The search on a thread of its own: the screen looks at how far it is, and never waits for it.

use std::num::NonZeroUsize;
use std::panic::{self, AssertUnwindSafe};
use std::sync::atomic::{AtomicBool, AtomicU64, Ordering};
use std::sync::{Arc, Mutex, MutexGuard, OnceLock, PoisonError};
use std::thread;
use std::time::Duration;

use crate::board::{Board, CharacterId, Edit, Refused};
use crate::check;
use crate::gather::{
    Choice, Keeping, Kept, Likeness, Limits, NoWardrobe, Present, Progress, Suggestion, Unsolved, Wardrobe,
    clash_lead, clash_way_out, curve, solve,
};

/// A search that goes on until it is done, or dropped.
pub struct Work {
    shared: Arc<Shared>,
    seen: u64,
}

/// How far a search is.
#[derive(Clone, Default)]
pub enum State {
    /// Outfits are being compared.
    #[default]
    Comparing,
    /// The best so far, and the bound, as shares kept.
    Searching {
        /// What the best choice so far keeps.
        kept: f64,
        /// What no choice can keep more than.
        bound: f64,
    },
    /// What came of it.
    Found(Arc<Found>),
    /// Wishes that clash, or another reason why there is no suggestion, line by line.
    None(Vec<String>),
}

/// What a search has found, and then what follows from it, which is filled in as it becomes known.
pub struct Found {
    /// The suggestion beside the present looks.
    pub suggestion: Suggestion,
    /// What the present looks keep.
    pub now: Present,
    /// Whether all characters are asked about.
    pub is_of_all: bool,
    /// The likeness by which it was found.
    pub likeness: Likeness,
    /// The wishes and limits within which it is, in words.
    pub within: Vec<String>,
    /// The edit that takes all of it.
    pub whole: Result<Edit, Refused>,
    /// What would be the matter with the board besides, if all of it were taken, in words.
    pub then: Vec<String>,
    alone: Vec<OnceLock<Alone>>,
    curve: OnceLock<Curve>,
}

impl Found {
    /// What it would be to take just this look of the suggestion; `None` until that is known.
    pub fn alone(&self, look: usize) -> Option<&Alone> {
        self.alone.get(look).and_then(OnceLock::get)
    }

    /// The curve; `None` until it is drawn.
    pub fn curve(&self) -> Option<&Curve> {
        self.curve.get()
    }
}

/// What it would be to take one look of a suggestion and no other.
pub struct Alone {
    /// The edit that does it.
    pub edit: Result<Edit, Refused>,
    /// What is kept then, 0 to 1; `None` where nothing would change or nothing can.
    pub kept: Option<f64>,
    /// What is kept before it.
    before: f64,
}

impl Alone {
    /// How much more is kept then, as a share of all that is documented.
    pub fn gain(&self) -> Option<f64> {
        self.kept.map(|kept| kept - self.before)
    }

    /// Whether it would change nothing.
    pub fn is_nothing(&self) -> bool {
        self.edit.as_ref().is_ok_and(Edit::is_empty)
    }

    /// Whether less is kept then, by what is seen of it.
    pub fn keeps_less(&self) -> bool {
        self.gain().is_some_and(|gain| gain <= -0.0005)
    }
}

/// The curve, or why there is none.
pub enum Curve {
    /// What the first, second … look keeps at best without the budget's limits, and whether that is proved; `None` where
    /// the wishes ask for more looks.
    Drawn(Vec<Option<(f64, bool)>>),
    /// There is none, and why.
    None(String),
}

#[derive(Default)]
struct Shared {
    cancel: Arc<AtomicBool>,
    news: AtomicU64,
    state: Mutex<State>,
}

impl Shared {
    fn state(&self) -> MutexGuard<'_, State> {
        // A state is put whole, so one that a thread left is sound.
        self.state.lock().unwrap_or_else(PoisonError::into_inner)
    }

    fn put(&self, state: State) {
        *self.state() = state;
        self.tell();
    }

    fn tell(&self) {
        self.news.fetch_add(1, Ordering::Release);
    }
}

/// After so long the best so far is shown, with how far from the best possible it can be; as long again for the curve.
const TIME: Duration = Duration::from_secs(20);

/// The most looks for which the curve is drawn.
const CURVE: usize = 80;

impl Work {
    /// Searches for the looks of a board, or of one character.
    pub fn begin(board: &Board, who: Option<CharacterId>) -> Self {
        let shared = Arc::new(Shared::default());
        let (board, theirs) = (board.clone(), Arc::clone(&shared));
        thread::spawn(move || {
            // Should the search itself fail, the board goes on, and the overlay says so.
            let found = panic::catch_unwind(AssertUnwindSafe(|| search(&board, who.as_ref(), &theirs)));
            let failed = || State::None(vec!["The search failed; your looks are as they were.".to_owned()]);
            if let Some(state) = found.unwrap_or_else(|_| Some(failed())) {
                theirs.put(state);
            }
        });
        Self { shared, seen: 0 }
    }

    /// Whether there is something new since it was last asked.
    pub fn has_news(&mut self) -> bool {
        let news = self.shared.news.load(Ordering::Acquire);
        std::mem::replace(&mut self.seen, news) != news
    }

    /// How far it is.
    pub fn state(&self) -> State {
        self.shared.state().clone()
    }
}

impl Drop for Work {
    fn drop(&mut self) {
        self.shared.cancel.store(true, Ordering::Relaxed);
    }
}

fn search(board: &Board, who: Option<&CharacterId>, shared: &Arc<Shared>) -> Option<State> {
    let over = || shared.cancel.load(Ordering::Relaxed);
    let likeness = Likeness::of(board);
    let wardrobe = match Wardrobe::of(board, &likeness, who, &over) {
        Ok(wardrobe) => Arc::new(wardrobe),
        Err(NoWardrobe::Ended) => return None,
        Err(error) => return Some(State::None(vec![error.to_string()])),
    };
    if wardrobe.outfits().is_empty() {
        return Some(State::None(vec!["There is no outfit to choose from.".to_owned()]));
    }
    let limits = limits(&wardrobe, shared);
    let choice = match solve(wardrobe.problem(), &limits) {
        Ok(choice) => choice,
        Err(Unsolved::Ended) if over() => return None,
        Err(none @ (Unsolved::Ended | Unsolved::Undecided | Unsolved::NoLooks)) => {
            return Some(State::None(vec![format!("No suggestion: {none}.")]));
        }
        Err(Unsolved::Clash { wishes, looks, every }) => {
            let mut lines = vec![clash_lead(wishes.len(), looks)];
            lines.extend(wishes.iter().map(|wish| format!("· {}", wardrobe.say(board, wish))));
            lines.extend(clash_way_out(wishes.len(), every).map(str::to_owned));
            return Some(State::None(lines));
        }
    };
    let suggestion = Suggestion::of(board, &likeness, &wardrobe, &choice, who);
    let whole = suggestion.edit(board, None);
    let found = Arc::new(Found {
        now: Present::of(board, &likeness, &wardrobe),
        is_of_all: who.is_none(),
        within: wardrobe.within(board),
        then: whole.as_ref().map(|edit| said_then(board, edit)).unwrap_or_default(),
        whole,
        alone: suggestion.looks.iter().map(|_| OnceLock::new()).collect(),
        curve: OnceLock::new(),
        suggestion,
        likeness,
    });
    shared.put(State::Found(Arc::clone(&found)));
    each_alone(board, who, &found, shared);
    let free = Wardrobe::clone(&wardrobe).without_limits();
    let most = free.outfits().len().min(CURVE);
    let quiet = Limits { progress: None, ..limits };
    let drawn = match curve(free.problem(), most, &quiet) {
        _ if over() => return None,
        Ok(points) => {
            let point = |choice: Choice| (free.kept(choice.cost), choice.proven);
            Curve::Drawn(points.into_iter().map(|choice| choice.map(point)).collect())
        }
        Err(none) => Curve::None(none.to_string()),
    };
    found.curve.get_or_init(|| drawn);
    shared.tell();
    None
}

fn said_then(board: &Board, edit: &Edit) -> Vec<String> {
    check::added_by(board, edit).into_iter().map(|finding| finding.text).collect()
}

/// What taking each look alone would do.
fn each_alone(board: &Board, who: Option<&CharacterId>, found: &Found, shared: &Shared) {
    let share = |kept: &Kept| match who {
        Some(who) => kept.characters.get(who).copied().unwrap_or_default().share(),
        None => kept.all.share(),
    };
    let mut keeping = Keeping::default();
    keeping.follow(board);
    let before = share(keeping.kept());
    for (at, slot) in found.alone.iter().enumerate() {
        if shared.cancel.load(Ordering::Relaxed) {
            return;
        }
        let mut after = board.clone();
        let edit = found.suggestion.edit(board, Some(at)).and_then(|edit| after.apply(&edit).map(|_| edit));
        let is_change = edit.as_ref().is_ok_and(|edit| !edit.is_empty());
        let kept = is_change.then(|| {
            keeping.follow(&after);
            share(keeping.kept())
        });
        slot.get_or_init(|| Alone { edit, kept, before });
        shared.tell();
    }
}

fn limits(wardrobe: &Arc<Wardrobe>, shared: &Arc<Shared>) -> Limits {
    let (wardrobe, told) = (Arc::clone(wardrobe), Arc::clone(shared));
    let progress = move |progress: &Progress| {
        let (kept, bound) = (wardrobe.kept(progress.cost), wardrobe.kept(progress.bound));
        told.put(State::Searching { kept, bound });
    };
    // One core is left for keys and frames.
    let threads = thread::available_parallelism().map_or(1, NonZeroUsize::get).saturating_sub(1);
    Limits {
        cancel: Some(Arc::clone(&shared.cancel)),
        threads: NonZeroUsize::new(threads),
        progress: Some(Arc::new(progress)),
        ..Limits::of_time(TIME)
    }
}

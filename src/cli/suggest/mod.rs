//! `shirr suggest`: which outfits should be the bases, beside the looks as they are.
//!
//! It asks the library, and puts the answer into words or JSON; with `--apply` the answer becomes one edit of the
//! board, which is undone like any other.

mod json;
mod limits;
mod words;

use std::num::NonZeroUsize;
use std::path::Path;
use std::thread;
use std::time::Duration;

use clap::Args;
use limits::Shared;

use super::boards::{self, BoardArg};
use super::changing::{open_whole, refused};
use super::console::Console;
use super::failure::Failure;
use super::{Outcome, faults, named};
use crate::board::{Board, CharacterId, Edit, Refused};
use crate::gather::{Choice, Likeness, Limits, Present, Suggestion, Unsolved, Wardrobe, curve, solve};

/// Suggest which outfits to make the bases of the looks, with proof of how good that is
#[derive(Debug, Args)]
#[command(
    after_help = "Exit code: 0 with a suggestion, 1 where the wishes on the board clash, 2 where a file \
                        cannot be read or nothing can be done.\nInvented looks are left as they are and come besides."
)]
pub(super) struct Suggest {
    #[command(flatten)]
    board: BoardArg,
    /// For so many looks with a base; left out, as many as the budget allows, else as many as there are
    #[arg(long, value_name = "K")]
    looks: Option<usize>,
    /// For this character alone
    #[arg(long, value_name = "ID")]
    character: Option<String>,
    /// Print what the first, second … look buys, whatever the budget says
    #[arg(long, conflicts_with_all = ["looks", "apply"])]
    curve: bool,
    /// Print how many looks each period would have by its share of the screen, as a proposal for its limit
    #[arg(long, conflicts_with_all = ["curve", "character", "apply"])]
    limits: bool,
    /// Print one JSON document with stable keys
    #[arg(long)]
    json: bool,
    /// Make the looks as suggested, as one edit that `undo` on the board takes back
    #[arg(long)]
    apply: bool,
}

/// The longest that a search goes on.
const TIME: Duration = Duration::from_secs(10);

/// The most looks for which the curve is printed.
const CURVE: usize = 60;

/// A board, asked about.
struct Asked<'a> {
    board: &'a Board,
    who: Option<CharacterId>,
    likeness: Likeness,
    wardrobe: Wardrobe,
    /// What the present looks keep.
    now: Present,
}

/// One number of looks on the curve.
struct Point {
    looks: usize,
    /// What so many keep at best; `None` where the wishes ask for more looks.
    kept: Option<f64>,
    /// What the last of them adds.
    buys: Option<f64>,
    proven: bool,
}

/// Wishes that cannot all hold.
struct Clashing {
    wishes: Vec<String>,
    looks: usize,
    /// Whether any one of them left out, the others surely hold.
    every: bool,
}

impl Suggest {
    pub fn run(&self, console: &mut Console) -> Result<Outcome, Failure> {
        if self.looks == Some(0) {
            return Err(Failure::new("no looks keep nothing: `--looks` is at least 1")
                .hint("left out, it is what the budget allows"));
        }
        let folder = self.board.folder(console)?;
        if self.apply {
            return self.apply(&folder, console);
        }
        let reading = boards::read(&folder)?;
        faults::warn(console, &reading.faults);
        let outcome = if reading.faults.is_empty() { Outcome::Fine } else { Outcome::Faults };
        if self.limits {
            let shared = Shared::of(&reading.board, self.looks)?;
            let answer = if self.json { format!("{:#}\n", shared.in_json()) } else { shared.in_words() };
            return console.print(&answer).map(|()| outcome);
        }
        let asked = self.ask(&reading.board)?;
        if self.curve {
            return match asked.curve()? {
                Ok(points) => self
                    .print(console, points.as_slice(), json::curve, words::curve, &asked)
                    .map(|()| outcome),
                Err(clash) => self.clash(console, &clash, &asked),
            };
        }
        match asked.suggest()? {
            Ok(suggestion) => self
                .print(console, &suggestion, json::suggestion, words::suggestion, &asked)
                .map(|()| outcome),
            Err(clash) => self.clash(console, &clash, &asked),
        }
    }

    fn ask<'a>(&self, board: &'a Board) -> Result<Asked<'a>, Failure> {
        let who = self.character.as_deref().map(|name| named::character(board, name)).transpose()?;
        let likeness = Likeness::of(board);
        let wardrobe = Wardrobe::of(board, &likeness, who.as_ref(), &|| false);
        let mut wardrobe = wardrobe.map_err(|error| Failure::new(error.to_string()))?;
        if wardrobe.outfits().is_empty() {
            let of = who.as_ref().map(|who| format!(" of {}", board.name_of(who))).unwrap_or_default();
            return Err(Failure::new(format!("there is no outfit{of} to choose from"))
                .hint("outfits that are let go are not chosen from"));
        }
        if let Some(looks) = self.looks {
            wardrobe.set_looks(looks);
        }
        let now = Present::of(board, &likeness, &wardrobe);
        Ok(Asked { board, who, likeness, wardrobe, now })
    }

    /// Prints an answer in the form that was asked for.
    fn print<T: ?Sized>(
        &self,
        console: &mut Console,
        answer: &T,
        json: impl Fn(&Asked<'_>, &T) -> serde_json::Value,
        words: impl Fn(&Asked<'_>, &T) -> String,
        asked: &Asked<'_>,
    ) -> Result<(), Failure> {
        if self.json {
            console.print(&format!("{:#}\n", json(asked, answer)))
        } else {
            console.print(&words(asked, answer))
        }
    }

    fn clash(&self, console: &mut Console, clash: &Clashing, asked: &Asked<'_>) -> Result<Outcome, Failure> {
        self.print(console, clash, json::clash, words::clash, asked).map(|()| Outcome::Errors)
    }

    fn apply(&self, folder: &Path, console: &mut Console) -> Result<Outcome, Failure> {
        let mut open = open_whole(folder, console)?;
        let board = open.board().clone();
        let asked = self.ask(&board)?;
        let suggestion = match asked.suggest()? {
            Ok(suggestion) => suggestion,
            Err(clash) => return self.clash(console, &clash, &asked),
        };
        if suggestion.stays() {
            return Err(Failure::new("nothing is changed: the looks are as suggested already"));
        }
        let edit = suggestion.edit(&board, None).map_err(|error| refused(&error.into()))?;
        within_limits(&board, &edit)?;
        open.edit(&edit).map_err(|error| refused(&error))?;
        let answer = (suggestion, edit.label);
        self.print(console, &answer, json::applied, words::applied, &asked)?;
        Ok(if open.faults().is_empty() { Outcome::Fine } else { Outcome::Faults })
    }
}

impl Asked<'_> {
    /// What is best, or what stands in the way.
    fn suggest(&self) -> Result<Result<Suggestion, Clashing>, Failure> {
        let who = self.who.as_ref();
        let suggestion =
            |choice: Choice| Suggestion::of(self.board, &self.likeness, &self.wardrobe, &choice, who);
        self.answered(solve(self.wardrobe.problem(), &limits()).map(suggestion))
    }

    /// What each number of looks keeps without the budget's limits.
    fn curve(&self) -> Result<Result<Vec<Point>, Clashing>, Failure> {
        let free = self.wardrobe.clone().without_limits();
        let most = free.outfits().len().min(CURVE);
        let points = |choices: Vec<Option<Choice>>| {
            let mut points: Vec<Point> = Vec::new();
            for (looks, choice) in (1..).zip(choices) {
                let kept = choice.as_ref().map(|choice| free.kept(choice.cost));
                let before = points.last().map_or(Some(0.0), |point| point.kept);
                let buys = kept.zip(before).map(|(kept, before)| kept - before);
                points.push(Point { looks, kept, buys, proven: choice.is_some_and(|choice| choice.proven) });
            }
            points
        };
        self.answered(curve(free.problem(), most, &limits()).map(points))
    }

    fn answered<T>(&self, answer: Result<T, Unsolved>) -> Result<Result<T, Clashing>, Failure> {
        match answer {
            Ok(answer) => Ok(Ok(answer)),
            Err(Unsolved::Clash { wishes, looks, every }) => {
                let wishes = wishes.iter().map(|wish| self.wardrobe.say(self.board, wish)).collect();
                Ok(Err(Clashing { wishes, looks, every }))
            }
            Err(Unsolved::NoLooks) => Err(Failure::new(Unsolved::NoLooks.to_string())
                .hint("raise the limit, or ask for a number with `--looks`")),
            Err(none @ (Unsolved::Ended | Unsolved::Undecided)) => Err(Failure::new(none.to_string()).hint(
                "the wishes on the board leave too little room to find any: take one back and try again",
            )),
        }
    }

    /// The wishes and limits within which the answer is, in words.
    fn within(&self) -> Vec<String> {
        self.wardrobe.within(self.board)
    }
}

fn limits() -> Limits {
    let threads = thread::available_parallelism().unwrap_or(NonZeroUsize::MIN);
    Limits { threads: Some(threads), ..Limits::of_time(TIME) }
}

/// The counter keeps the board inside its budget, here as on the screen.
fn within_limits(board: &Board, edit: &Edit) -> Result<(), Failure> {
    match passed(board, edit).map_err(|error| refused(&error.into()))? {
        None => Ok(()),
        Some(passed) => Err(Failure::new(format!("nothing is changed: it would pass a limit ({passed})"))
            .hint("ask for fewer looks, or raise the limit on the record first")),
    }
}

/// The limits that an edit would pass, in words.
fn passed(board: &Board, edit: &Edit) -> Result<Option<String>, Refused> {
    let passed = board.limits_passed_by(edit)?;
    let said = passed.iter().map(|(scope, count)| format!("{} {}", board.scope_name(scope), count.words()));
    let said: Vec<String> = said.collect();
    Ok((!said.is_empty()).then(|| said.join(", ")))
}

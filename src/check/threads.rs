//! Threads: what makes a person recognisable must not get lost on the way from the wardrobe to the looks.

use std::collections::{HashMap, HashSet};

use super::words::{counted, quoted};
use super::{About, Finding, Level};
use crate::board::{Board, PeriodId, Thread, ThreadId};

/// So many outfits of a period carry a thread before its looks must keep it; below that it is chance.
const CARRIED: usize = 2;

pub(super) fn findings(board: &Board) -> Vec<Finding> {
    // Before anything is gathered every thread would be lost, which is no news.
    if board.records().looks.is_empty() {
        return Vec::new();
    }
    let threads = Threads::of(board);
    board.head().threads.iter().flat_map(|thread| of_thread(board, &threads, thread)).collect()
}

fn of_thread(board: &Board, threads: &Threads<'_>, thread: &Thread) -> Vec<Finding> {
    let carried = threads.carried.get(&thread.id).copied().unwrap_or_default();
    if carried == 0 {
        return Vec::new();
    }
    if !threads.kept.contains(&thread.id) {
        return vec![lost(thread, carried)];
    }
    let breaks = |id: &PeriodId| {
        let carried = threads.carried_in.get(&(&thread.id, id)).copied().unwrap_or_default();
        let played = threads.with_looks.contains(id);
        carried >= CARRIED && played && !threads.kept_in.contains(&(&thread.id, id))
    };
    let periods = board.head().periods.iter().filter(|period| breaks(&period.id));
    periods
        .map(|period| {
            let carried = threads.carried_in.get(&(&thread.id, &period.id)).copied().unwrap_or_default();
            Finding {
                name: "thread-breaks",
                level: Level::Warning,
                about: About::Thread(thread.id.clone()),
                text: format!(
                    "In {} no look keeps the thread {}, which {} of the period carry.",
                    period.title,
                    quoted(&thread.title),
                    counted(carried, "outfit")
                ),
                todo: format!("Let a look of {} keep it, or decide that it ends.", period.title),
            }
        })
        .collect()
}

fn lost(thread: &Thread, carried: usize) -> Finding {
    let carry = if carried == 1 { "carries" } else { "carry" };
    Finding {
        name: "thread-lost",
        level: Level::Warning,
        about: About::Thread(thread.id.clone()),
        text: format!(
            "No look keeps the thread {}, which {} {carry}.",
            quoted(&thread.title),
            counted(carried, "outfit")
        ),
        todo: "Let a look keep it, or take the thread off the board.".to_owned(),
    }
}

/// Who carries and who keeps, counted once for all threads.
#[derive(Default)]
struct Threads<'a> {
    carried: HashMap<&'a ThreadId, usize>,
    carried_in: HashMap<(&'a ThreadId, &'a PeriodId), usize>,
    kept: HashSet<&'a ThreadId>,
    kept_in: HashSet<(&'a ThreadId, &'a PeriodId)>,
    with_looks: HashSet<&'a PeriodId>,
}

impl<'a> Threads<'a> {
    fn of(board: &'a Board) -> Self {
        let mut threads = Self::default();
        for (id, outfit) in &board.records().outfits {
            let period = board.relations().period_of_outfit(id);
            for thread in &outfit.threads {
                *threads.carried.entry(thread).or_default() += 1;
                if let Some(period) = period {
                    *threads.carried_in.entry((thread, period)).or_default() += 1;
                }
            }
        }
        for (id, look) in &board.records().looks {
            let period = board.relations().period_of_look(id);
            threads.with_looks.extend(period);
            for thread in &look.threads {
                threads.kept.insert(thread);
                threads.kept_in.extend(period.map(|period| (thread, period)));
            }
        }
        threads
    }
}

#[cfg(test)]
mod tests {
    use serde_json::{Value, json};

    use super::super::sample;
    use super::*;

    /// Two outfits of the early period carry the cap, one of the late; one look in each.
    fn capped(early_keeps: Value, late_keeps: Value) -> Board {
        sample::board(json!({
            "head": {"threads": [{"id": "cap", "title": "The cap"}]},
            "outfits": {
                "smock": {"worn": "1920", "threads": ["cap"]},
                "coat": {"worn": "1921", "threads": ["cap"]},
                "gown": {"worn": "1926", "threads": ["cap"]},
            },
            "looks": {
                "a": {"base": "smock", "folded": ["coat"], "threads": early_keeps},
                "b": {"base": "gown", "threads": late_keeps},
            },
        }))
    }

    #[test]
    fn a_thread_that_no_look_keeps_is_lost_and_does_not_break_as_well() {
        let found = findings(&capped(json!([]), json!([])));
        assert_eq!(found.len(), 1);
        assert_eq!(found[0].name, "thread-lost");
        assert_eq!(found[0].text, "No look keeps the thread “The cap”, which 3 outfits carry.");
    }

    #[test]
    fn a_thread_breaks_where_two_outfits_carry_it_and_no_look_keeps_it() {
        let found = findings(&capped(json!([]), json!(["cap"])));
        let texts: Vec<&str> = found.iter().map(|finding| finding.text.as_str()).collect();
        assert_eq!(
            texts,
            ["In Early no look keeps the thread “The cap”, which two outfits of the period carry."]
        );
    }

    #[test]
    fn one_outfit_alone_does_not_make_a_thread_of_a_period() {
        assert_eq!(findings(&capped(json!(["cap"]), json!([]))), []);
    }

    #[test]
    fn nothing_is_lost_before_anything_is_gathered() {
        let outfits = json!({"smock": {"threads": ["cap"]}});
        let head = json!({"threads": [{"id": "cap", "title": "The cap"}]});
        assert_eq!(findings(&sample::board(json!({"head": head, "outfits": outfits}))), []);
    }
}

//! What can be undone and done again, as places in the log.

use super::line::Kind;

/// One step that can be taken.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(in crate::store) struct Step {
    /// Where in the log its entry begins.
    pub at: u64,
    /// When it was done, in milliseconds since 1970.
    pub time: u64,
    /// What it is called.
    pub label: String,
    /// Whether the entry itself is to be done (it was set aside), and not its inverse.
    pub forward: bool,
}

/// The two lists. The newest is last.
#[derive(Debug, Default)]
pub(super) struct Stacks {
    pub undo: Vec<Step>,
    pub redo: Vec<Step>,
    /// When the last was done, and where its entry begins.
    pub newest: Option<(u64, u64)>,
}

impl Stacks {
    /// After the entry of a step was done.
    pub fn done(&mut self, kind: Kind, step: Step) {
        let newest = Some((step.time, step.at));
        self.newest = if kind == Kind::Inherited { self.newest.max(newest) } else { newest };
        match kind {
            Kind::Do => {
                self.redo.clear();
                self.undo.push(step);
            }
            Kind::Undo => {
                self.undo.pop();
                self.redo.push(step);
            }
            Kind::Redo => {
                self.redo.pop();
                self.undo.push(step);
            }
            // It comes in where it was done, and forgets nothing that was undone here.
            Kind::Inherited => {
                let before = self.undo.iter().rposition(|own| own.time <= step.time);
                self.undo.insert(before.map_or(0, |at| at + 1), step);
            }
        }
    }

    /// After the step whose entry is at `at` was let go.
    pub fn dropped(&mut self, at: u64) {
        // Mostly it is the newest: so all steps of a log are let go of without looking at each again and again.
        for steps in [&mut self.undo, &mut self.redo] {
            if let Some(place) = steps.iter().rposition(|step| step.at == at) {
                steps.remove(place);
                return;
            }
        }
    }

    /// After the entry of a step was set aside: it can be done again.
    pub fn aside(&mut self, kind: Kind, step: Step) {
        // Of an undo or a redo, the step is still where it was.
        if kind == Kind::Do {
            self.redo.push(Step { forward: true, ..step });
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn step(at: u64, label: &str) -> Step {
        Step { at, time: at, label: label.to_owned(), forward: false }
    }

    fn labels(steps: &[Step]) -> Vec<&str> {
        steps.iter().map(|step| step.label.as_str()).collect()
    }

    #[test]
    fn undo_and_redo_move_a_step_to_and_fro_and_a_new_one_forgets_what_was_undone() {
        let mut stacks = Stacks::default();
        stacks.done(Kind::Do, step(0, "one"));
        stacks.done(Kind::Do, step(10, "two"));
        stacks.done(Kind::Undo, step(20, "two"));
        assert_eq!((labels(&stacks.undo), labels(&stacks.redo)), (vec!["one"], vec!["two"]));
        assert_eq!(stacks.redo[0].at, 20, "what is done again takes back the undoing");
        stacks.done(Kind::Redo, step(30, "two"));
        assert_eq!(labels(&stacks.undo), ["one", "two"]);
        stacks.done(Kind::Undo, step(40, "two"));
        stacks.done(Kind::Do, step(50, "three"));
        assert_eq!((labels(&stacks.undo), labels(&stacks.redo)), (vec!["one", "three"], vec![]));
    }

    #[test]
    fn a_step_that_is_let_go_is_gone_from_whichever_list_it_is_in() {
        let mut stacks = Stacks::default();
        for (at, label) in [(0, "one"), (10, "two"), (20, "three"), (30, "four")] {
            stacks.done(Kind::Do, step(at, label));
        }
        stacks.done(Kind::Undo, step(40, "four"));
        for at in [10, 40, 99] {
            stacks.dropped(at);
        }
        assert_eq!((labels(&stacks.undo), labels(&stacks.redo)), (vec!["one", "three"], vec![]));
    }

    #[test]
    fn what_another_program_did_comes_in_at_its_time_and_leaves_what_was_undone() {
        let mut stacks = Stacks::default();
        stacks.done(Kind::Do, step(10, "one"));
        stacks.done(Kind::Do, step(30, "two"));
        stacks.done(Kind::Do, step(40, "three"));
        stacks.done(Kind::Undo, step(50, "three"));
        stacks.done(Kind::Inherited, Step { time: 20, ..step(60, "between") });
        assert_eq!((labels(&stacks.undo), stacks.newest), (vec!["one", "between", "two"], Some((50, 50))));
        stacks.done(Kind::Inherited, Step { time: 70, ..step(80, "last") });
        assert_eq!(labels(&stacks.undo), ["one", "between", "two", "last"]);
        assert_eq!((labels(&stacks.redo), stacks.newest), (vec!["three"], Some((70, 80))));
    }
}

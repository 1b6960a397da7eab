//! What can be undone and done again, as places in the log.

use super::line::Kind;

/// One step that can be taken.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(in crate::store) struct Step {
    /// Where in the log its entry begins.
    pub at: u64,
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
    /// Where the entry begins that was done last.
    pub newest: Option<u64>,
}

impl Stacks {
    /// After the entry at `at` was done.
    pub fn done(&mut self, kind: Kind, at: u64, label: String) {
        let step = Step { at, label, forward: false };
        self.newest = Some(at);
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
        }
    }

    /// After the step whose entry is at `at` was let go.
    pub fn dropped(&mut self, at: u64) {
        self.undo.retain(|step| step.at != at);
        self.redo.retain(|step| step.at != at);
    }

    /// After the entry at `at` was set aside: it can be done again.
    pub fn aside(&mut self, kind: Kind, at: u64, label: String) {
        // Of an undo or a redo, the step is still where it was.
        if kind == Kind::Do {
            self.redo.push(Step { at, label, forward: true });
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn undo_and_redo_move_a_step_to_and_fro_and_a_new_one_forgets_what_was_undone() {
        let labels = |steps: &[Step]| steps.iter().map(|step| step.label.clone()).collect::<Vec<_>>();
        let mut stacks = Stacks::default();
        stacks.done(Kind::Do, 0, "one".to_owned());
        stacks.done(Kind::Do, 10, "two".to_owned());
        stacks.done(Kind::Undo, 20, "two".to_owned());
        assert_eq!((labels(&stacks.undo), labels(&stacks.redo)), (vec!["one".into()], vec!["two".into()]));
        assert_eq!(stacks.redo[0].at, 20, "what is done again takes back the undoing");
        stacks.done(Kind::Redo, 30, "two".to_owned());
        assert_eq!(labels(&stacks.undo), ["one", "two"]);
        stacks.done(Kind::Undo, 40, "two".to_owned());
        stacks.done(Kind::Do, 50, "three".to_owned());
        assert_eq!(
            (labels(&stacks.undo), labels(&stacks.redo)),
            (vec!["one".into(), "three".into()], vec![])
        );
    }
}

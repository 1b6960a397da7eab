//! The one table of what a user can do.
//!
//! Key handling, the footer, help, the palette and the printed key list all read it; nothing else knows a key.

use super::keys::Key;

/// Where an action applies.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Scope {
    /// In every view.
    Everywhere,
    /// On the wall.
    Wall,
    /// In the list of looks.
    Looks,
    /// In the list of scenes.
    Scenes,
    /// On the walk.
    Walk,
    /// In the workroom.
    Workroom,
}

impl Scope {
    /// All scopes, the widest first.
    pub const ALL: [Self; 6] =
        [Self::Everywhere, Self::Wall, Self::Looks, Self::Scenes, Self::Walk, Self::Workroom];

    /// In a word.
    pub fn word(self) -> &'static str {
        match self {
            Self::Everywhere => "everywhere",
            Self::Wall => "wall",
            Self::Looks => "looks",
            Self::Scenes => "scenes",
            Self::Walk => "walk",
            Self::Workroom => "workroom",
        }
    }
}

/// One thing that a user can do.
#[derive(Clone, Copy, Debug)]
pub struct Action {
    /// What the program calls it.
    pub act: Act,
    /// Its name on the screen.
    pub name: &'static str,
    /// What it does, in one line.
    pub about: &'static str,
    /// The keys that do it.
    pub keys: &'static [&'static str],
    /// Where it applies.
    pub scope: Scope,
    /// Its place in the footer, the smaller the earlier; 0 keeps it out.
    pub footer: u8,
}

macro_rules! actions {
    ($($act:ident, $scope:ident, $footer:literal, $name:literal, [$($key:literal),*], $about:literal;)*) => {
        /// Names of actions; see [`ACTIONS`].
        #[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
        pub enum Act {
            $(#[doc = $about] $act,)*
        }

        /// The table.
        pub static ACTIONS: &[Action] = &[
            $(Action {
                act: Act::$act,
                name: $name,
                about: $about,
                keys: &[$($key),*],
                scope: Scope::$scope,
                footer: $footer,
            },)*
        ];
    };
}

actions! {
    Wall, Everywhere, 0, "wall", ["1"], "Show the wall: every outfit by story period";
    Looks, Everywhere, 0, "looks", ["2"], "Show the list of looks";
    Scenes, Everywhere, 0, "scenes", ["3"], "Show the list of scenes";
    Walk, Everywhere, 0, "walk", ["4"], "Walk the board stop by stop, as in a meeting";
    Workroom, Everywhere, 0, "workroom", ["5"], "Show the workroom: measures, copies, cloth, cost and cautions of each look";
    Find, Everywhere, 90, "find", ["/"], "Find an outfit, look, scene, thread or period by any of its words";
    Palette, Everywhere, 91, "do", [":", "ctrl-p"], "Choose from everything that can be done here";
    Help, Everywhere, 92, "help", ["?"], "Show the keys that work here";
    Undo, Everywhere, 80, "undo", ["u"], "Take back the last change";
    Redo, Everywhere, 0, "redo", ["U", "ctrl-r"], "Do again what was taken back";
    Back, Everywhere, 0, "back", ["esc"], "Close, or clear marks and light";
    Quit, Everywhere, 99, "quit", ["q", "ctrl-c"], "Leave; everything is saved already";
    Problems, Everywhere, 0, "problems", ["!"], "List the files that cannot be read and the findings";
    Text, Everywhere, 0, "as text", ["E"], "Edit the whole record in your own editor";
    BoardText, Everywhere, 0, "board as text", ["Y"], "Edit board.yaml in your own editor: periods, characters, threads, limits";
    Notes, Everywhere, 0, "notes", ["n"], "Write the notes of what is in focus";
    Bring, Everywhere, 0, "bring in", ["I"], "Bring in a script, or a table of outfits, scenes or shooting days, from a file";
    Suggest, Everywhere, 70, "suggest", ["G"], "Suggest which looks keep most of the wardrobe, beside yours";
    Pictures, Everywhere, 0, "pictures", ["P"], "See the pictures of what is in focus as large as can be, and pick colours from them";
    HidePictures, Everywhere, 0, "hide pictures", ["H"], "Show no pictures, or show them again";
    Suspend, Everywhere, 0, "suspend", ["ctrl-z"], "Give the terminal back for a while";
    Redraw, Everywhere, 0, "redraw", ["ctrl-l"], "Draw the whole screen again";
    Up, Everywhere, 0, "up", ["up", "k"], "Go up";
    Down, Everywhere, 0, "down", ["down", "j"], "Go down";
    Left, Everywhere, 0, "left", ["left", "h"], "Go left: on the wall to what was worn before";
    Right, Everywhere, 0, "right", ["right", "l"], "Go right: on the wall to what was worn after";
    PageBack, Everywhere, 0, "page back", ["pgup", "shift-left"], "Go a page back: on the wall to the period before";
    PageOn, Everywhere, 0, "page on", ["pgdn", "shift-right"], "Go a page on: on the wall to the next period";
    First, Everywhere, 0, "first", ["home"], "Go to the first";
    Last, Everywhere, 0, "last", ["end"], "Go to the last";

    Closer, Wall, 60, "closer", ["+", "="], "Zoom in: blocks, lines, cards";
    Wider, Wall, 61, "wider", ["-"], "Zoom out: cards, lines, blocks";
    Lanes, Wall, 62, "lanes", ["tab"], "Go between the outfits and the lanes of looks";
    Mark, Wall, 10, "mark", ["space", "v"], "Mark the outfit in focus, or take the mark off";
    MarkOpen, Wall, 0, "mark open", ["V"], "Mark every open outfit of this period and character";
    Gather, Wall, 11, "gather", ["g"], "Gather the marked outfits, or the one in focus, into a new look";
    Fold, Wall, 12, "fold", ["f"], "Fold the marked outfits, or the one in focus, into a look that is there";
    FoldUp, Wall, 30, "fold up", ["z"], "Show folded outfits as their looks, so that the wall shrinks";
    LetGo, Wall, 13, "let go", ["x"], "Decide that it is in no look, and say why";
    TakeBack, Wall, 14, "take back", ["X"], "Open an outfit again that was let go";
    Release, Wall, 14, "release", ["r"], "Take it out of its look; it is open again";
    Base, Wall, 25, "base", ["b"], "Make the outfit in focus the base of its look";
    Split, Wall, 0, "split", ["s"], "Split the marked outfits off their look into a new one";
    NextOpen, Wall, 17, "next open", ["o"], "Go to the next open outfit";
    LightThread, Wall, 0, "thread", ["T"], "Light up every outfit and look that carries a thread";
    Only, Wall, 0, "character", ["c"], "Show one character only, or all";
    MoreKnown, Wall, 0, "recognition up", ["]"], "The audience knows it better: recognition up";
    LessKnown, Wall, 0, "recognition down", ["["], "The audience knows it less: recognition down";
    WishBase, Wall, 0, "base wish", ["B"], "For suggestions: it must be a base, must not be one, or either";
    WishApart, Wall, 0, "keep apart", ["A"], "For suggestions: the marked outfits never share a look, or may again";
    WishTogether, Wall, 0, "keep together", ["W"], "For suggestions: the marked outfits always share a look, or need not";
    Sheet, Wall, 16, "sheet", ["enter"], "Open everything that is known of it";
    Treatment, Wall, 20, "treatment", ["t"], "Say whether the look copies or interprets its base";
    Departure, Wall, 21, "departure", ["d"], "Write down a detail in which the look departs from its base";
    AssignLook, Wall, 22, "to scene", ["a"], "Put the look into a scene";
    Rename, Wall, 26, "rename", ["R"], "Give it another title";
    Merge, Wall, 23, "merge", ["m"], "Merge the look into another";
    Dissolve, Wall, 0, "dissolve", ["D"], "Take the look away; its outfits are open again";
    NewOutfit, Wall, 40, "new outfit", ["N"], "Add an outfit: its title, whose it was, when it was worn";
    RaiseLimit, Wall, 0, "raise limit", ["L"], "Raise a limit of the budget, on the record";

    LookFields, Looks, 10, "fields", ["tab"], "Go from the list to the look's fields";
    LookList, Looks, 0, "list", ["shift-tab"], "Go from the fields back to the list";
    LookEdit, Looks, 11, "edit", ["enter", "e"], "Change the field in focus";
    LookTreatment, Looks, 12, "treatment", ["t"], "Say whether the look copies or interprets its base";
    LookDeparture, Looks, 13, "departure", ["d"], "Write down a detail in which the look departs from its base";
    LookAssign, Looks, 14, "to scene", ["a"], "Put the look into a scene";
    LookInvent, Looks, 15, "invent", ["i"], "Add a look that no outfit covers";
    LookStage, Looks, 0, "stage", ["S"], "Say how far the work on the look is";
    LookBase, Looks, 0, "base", ["b"], "Choose another base among the look's outfits";
    LookRename, Looks, 0, "rename", ["R"], "Give the look another title";
    LookMerge, Looks, 16, "merge", ["m"], "Merge the look into another";
    LookSplit, Looks, 0, "split", ["s"], "Split some of its outfits off into a new look";
    LookEarlier, Looks, 0, "move up", ["shift-up", "K"], "Move the look up among its character's looks";
    LookLater, Looks, 0, "move down", ["shift-down", "J"], "Move the look down among its character's looks";
    LookDissolve, Looks, 0, "dissolve", ["D"], "Take the look away; its outfits are open again";
    LookRemoveItem, Looks, 0, "remove item", ["x", "delete"], "Take away the item in focus: a departure, piece, thread, note, folded outfit or scene";
    LookMake, Looks, 17, "workroom", ["W"], "Show how the look is made: its page in the workroom";
    LookOnWall, Looks, 20, "on the wall", ["w"], "Show the look on the wall";

    SceneAssign, Scenes, 10, "assign", ["enter", "a"], "Choose the look that the character wears in this scene";
    SceneCarry, Scenes, 11, "carry", ["c"], "Wear what the character wore in the scene before";
    SceneClear, Scenes, 12, "clear", ["x"], "Present, but no look yet";
    SceneAway, Scenes, 13, "not here", ["X"], "Take the character out of the scene";
    SceneNextGap, Scenes, 14, "next gap", ["o"], "Go to the next scene in which somebody has no look";
    SceneRange, Scenes, 16, "range", ["v", "space"], "Begin a range of scenes here: assign, carry, clear and not here then do all of it";
    SceneOrder, Scenes, 17, "order", ["s"], "Show the scenes as they are told, or as they are shot";
    SceneEdit, Scenes, 15, "edit", ["e"], "Change the fields of the scene";
    SceneAdd, Scenes, 0, "add scene", ["N"], "Add a scene behind this one";
    SceneCut, Scenes, 0, "cut scene", ["D"], "Take the scene out of the script and the schedule";
    SceneLook, Scenes, 20, "its look", ["w"], "Show the look in the list of looks";

    WalkOn, Walk, 10, "next", ["space", "enter"], "Go to the next stop; so do right and page down";
    WalkBack, Walk, 11, "back", ["backspace"], "Go to the stop before; so do left and page up";
    WalkBy, Walk, 12, "by", ["tab"], "Walk by period, by look or by scene";
    WalkJump, Walk, 13, "jump", ["g"], "Jump to another stop";
    WalkDecide, Walk, 14, "decide", ["d"], "Write a decision into today's minutes, at this stop";
    WalkAsk, Walk, 15, "ask", ["a"], "Write a question into today's minutes, at this stop";
    WalkAnswer, Walk, 16, "answer", ["e"], "Answer an open question of this stop";
    WalkPresent, Walk, 0, "present", ["p"], "Say who is at today's meeting and what it is about";
    WalkShow, Walk, 17, "on the board", ["w"], "Leave the walk and show the stop on its own view";

    RoomTab, Workroom, 10, "page", ["tab"], "Go to the look's page, and on to its next: measures, copies, cloth, cost, cautions";
    RoomTabBack, Workroom, 0, "page before", ["shift-tab"], "Go to the page before";
    RoomEdit, Workroom, 11, "edit", ["enter", "e"], "Write the cell in focus, or open what is in focus";
    RoomWhy, Workroom, 12, "made of", ["o", "space"], "Show what the number in focus is made of, and what there is to doubt";
    RoomPiece, Workroom, 14, "piece", ["p"], "Go on to the look's next piece";
    RoomVersion, Workroom, 15, "version", ["v"], "Go on to the piece's next version";
    RoomWearer, Workroom, 16, "wearer", ["w"], "Go on to whoever else wears it: performer or double";
    RoomFit, Workroom, 13, "fitting", ["f"], "Note what today's fitting measured, pinned and decided of the measure in focus";
    RoomAdd, Workroom, 17, "add", ["a"], "Add a measure to the piece, with the rule that carries it over";
    RoomRule, Workroom, 0, "rule", ["r"], "Change the rule of the measure in focus and its numbers";
    RoomDrop, Workroom, 0, "remove measure", ["x", "delete"], "Take the measure in focus away";
    RoomMore, Workroom, 11, "more", ["+", "="], "Plan one copy more of the garment in focus";
    RoomFewer, Workroom, 12, "fewer", ["-"], "Plan one copy fewer of the garment in focus";
    RoomAsNeeded, Workroom, 13, "as needed", ["c"], "Plan as many copies as the shooting days need";
    RoomTrial, Workroom, 12, "trial", ["t"], "Note a trial of the cloth in focus: weight, verdict, notes";
    RoomUnit, Workroom, 21, "cm or in", ["i"], "Show the board's lengths in the other unit: centimetres or inches";
    RoomNext, Workroom, 0, "next look", ["]"], "Go to the next look and stay on the page";
    RoomBefore, Workroom, 0, "look before", ["["], "Go to the look before and stay on the page";
    RoomLook, Workroom, 22, "its look", ["W"], "Show the look in the list of looks";
}

impl Act {
    /// The action's row.
    pub fn row(self) -> &'static Action {
        // The table is made from the same list as the names, in the same order.
        &ACTIONS[self as usize]
    }
}

/// The action that a key does in a view.
pub fn by_key(key: Key, view: Scope) -> Option<Act> {
    let matches = |action: &&Action| {
        (action.scope == view || action.scope == Scope::Everywhere)
            && action.keys.iter().any(|name| name.parse() == Ok(key))
    };
    ACTIONS.iter().find(matches).map(|action| action.act)
}

/// Every action that can be done in a view, the view's own first.
pub fn of_view(view: Scope) -> impl Iterator<Item = &'static Action> {
    let of = |scope| ACTIONS.iter().filter(move |action| action.scope == scope);
    of(view).chain(of(Scope::Everywhere))
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::HashSet;

    #[test]
    fn every_key_of_the_table_is_a_key() {
        for action in ACTIONS {
            for key in action.keys {
                assert!(key.parse::<Key>().is_ok(), "{key} of {}", action.name);
            }
        }
    }

    #[test]
    fn no_key_does_two_things_in_one_view() {
        for view in Scope::ALL {
            let mut seen = HashSet::new();
            for action in of_view(view) {
                for key in action.keys {
                    assert!(seen.insert(*key) || view == Scope::Everywhere, "{key} in {}", view.word());
                }
            }
        }
    }

    #[test]
    fn every_action_has_its_own_row() {
        for action in ACTIONS {
            assert_eq!(action.act.row().name, action.name);
            assert!(!action.about.is_empty() && !action.keys.is_empty());
        }
    }
}

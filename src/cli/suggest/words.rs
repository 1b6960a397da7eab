//! A suggestion as a page to read: what it keeps, look by look in order of date, and within what.

use std::fmt::Write;

use super::{Asked, Clashing, Point};
use crate::board::{LookId, OutfitId, Standing};
use crate::check;
use crate::check::words::{at_stake, capital, counted, look_title, percent};
use crate::cli::summary::{Side, columns};
use crate::gather::{Becomes, Suggested, Suggestion, clash_lead, clash_way_out};
use crate::report::Plain;

/// A suggestion that is not applied.
pub(super) fn suggestion(asked: &Asked<'_>, suggestion: &Suggestion) -> String {
    let mut to = format!("{}\n", head(asked, suggestion));
    for (number, suggested) in (1..).zip(&suggestion.looks) {
        to.push_str(&look(asked, number, suggested));
    }
    going(asked, suggestion, &mut to);
    open(asked, suggestion, &mut to);
    let within = asked.within();
    if within.is_empty() {
        to.push_str("\nNo wishes and limits but the number of looks.\n");
    } else {
        let _ = writeln!(to, "\nWithin these wishes and limits:");
        within.iter().for_each(|wish| lines(&mut to, wish));
    }
    if suggestion.stays() {
        let left =
            if suggestion.left.is_empty() { "Your looks are as suggested." } else { "Nothing changes." };
        let _ = writeln!(to, "\n{left}");
    } else {
        let edit = suggestion.edit(asked.board, None);
        let found = edit.as_ref().map(|edit| check::added_by(asked.board, edit)).unwrap_or_default();
        if !found.is_empty() {
            let _ = writeln!(to, "\nMade so, `shirr check` would say besides:");
            found.iter().for_each(|finding| lines(&mut to, &finding.text));
        }
        to.push_str(&match edit.and_then(|edit| super::passed(asked.board, &edit)) {
            Ok(None) => {
                "\nThe same command with `--apply` makes the looks so, as one edit that can be undone.\n".to_owned()
            }
            Ok(Some(passed)) => format!(
                "\nIt would pass a limit ({passed}), so `--apply` does not make the looks so until that is raised.\n"
            ),
            Err(refused) => format!("\n`--apply` cannot make the looks so: {refused}.\n"),
        });
    }
    to
}

/// A suggestion that has been applied, and the label of the edit.
pub(super) fn applied(asked: &Asked<'_>, (suggestion, label): &(Suggestion, String)) -> String {
    let mut to = format!("{}\n\nDone as one edit: {}.\n", head(asked, suggestion), Plain::line(label));
    let mut of = |what: Becomes| {
        let there = suggestion.looks.iter().filter(|suggested| suggested.becomes() == what);
        let titles: Vec<String> = there.map(|suggested| outfit(asked, &suggested.base)).collect();
        if !titles.is_empty() {
            let _ = writeln!(to, "  {}: {}", status(what), titles.join("; "));
        }
    };
    [Becomes::New, Becomes::OtherBase, Becomes::OtherOutfits].into_iter().for_each(&mut of);
    going(asked, suggestion, &mut to);
    open(asked, suggestion, &mut to);
    to.push_str("\n`u` on the board takes it back whole.\n");
    to
}

/// What the first, second … look buys.
pub(super) fn curve(asked: &Asked<'_>, points: &[Point]) -> String {
    let mut rows = vec![["looks", "kept", "buys", "", ""].map(str::to_owned).to_vec()];
    let present = asked.now.looks;
    for point in points {
        let proof = match point.kept {
            None => "the wishes ask for more looks",
            Some(_) if point.proven => "proved best",
            Some(_) => "best found",
        };
        let mark = if point.looks == present {
            let keep = if present == 1 { "keeps" } else { "keep" };
            format!(
                "← your {present} {keep} {}, {} in their nearest looks",
                percent(asked.now.kept),
                percent(asked.now.reachable)
            )
        } else {
            String::new()
        };
        let share = |share: Option<f64>| share.map(percent).unwrap_or_default();
        rows.push(vec![
            point.looks.to_string(),
            share(point.kept),
            share(point.buys),
            proof.to_owned(),
            mark,
        ]);
    }
    let mut to =
        format!("What each look buys of {}, whatever the budget says; the wishes hold.\n\n", wardrobe(asked));
    to.push_str(&columns(&rows, &[Side::Right, Side::Right, Side::Right, Side::Left, Side::Left]));
    if present > points.len() || present == 0 {
        let _ = writeln!(to, "\n{}", yours(asked));
    }
    to
}

/// Wishes that cannot all hold.
pub(super) fn clash(_: &Asked<'_>, clash: &Clashing) -> String {
    let mut to = format!("{}\n", clash_lead(clash.wishes.len(), clash.looks));
    clash.wishes.iter().for_each(|wish| lines(&mut to, wish));
    if let Some(way_out) = clash_way_out(clash.wishes.len(), clash.every) {
        let _ = writeln!(to, "{way_out}");
    }
    to
}

/// What is kept, beside what the present looks keep, and how sure that is.
fn head(asked: &Asked<'_>, suggestion: &Suggestion) -> String {
    let looks = counted(suggestion.looks.len(), "look");
    let keep = if suggestion.looks.len() == 1 { "keeps" } else { "keep" };
    let proof = if suggestion.proven {
        "Proved best: no other choice within the same wishes and limits keeps more.".to_owned()
    } else {
        let gap = 100.0 * (suggestion.bound - suggestion.kept).max(0.0);
        let gap = if gap < 0.1 { "less than 0.1".to_owned() } else { format!("{gap:.1}") };
        let bound = percent(suggestion.bound);
        format!("At most {bound} can be kept: this is within {gap} points of the best possible.")
    };
    let what = wardrobe(asked);
    let kept = percent(suggestion.kept);
    let asked_for = asked.wardrobe.problem().looks().min(asked.wardrobe.outfits().len());
    let room = if suggestion.looks.len() < asked_for {
        let looks = counted(asked_for, "look");
        format!("Of {looks} that might be, the wishes and limits leave room for so many.\n")
    } else {
        String::new()
    };
    capital(&format!("{looks} {keep} {kept} of {what}; {}\n{proof}\n{room}", yours(asked)))
}

fn yours(asked: &Asked<'_>) -> String {
    let (kept, reachable) = (percent(asked.now.kept), percent(asked.now.reachable));
    let present = asked.now.looks;
    if present == 0 {
        return "you have none with a base yet.".to_owned();
    }
    let keep = if present == 1 { "keeps" } else { "keep" };
    format!("your {present} {keep} {kept} ({reachable} if every outfit were in the nearest look).")
}

fn wardrobe(asked: &Asked<'_>) -> String {
    match &asked.who {
        Some(who) => format!("the wardrobe of {}", Plain::line(asked.board.name_of(who))),
        None => "the wardrobe".to_owned(),
    }
}

/// What becomes of a look, in a word or two.
fn status(becomes: Becomes) -> &'static str {
    match becomes {
        Becomes::New => "new look",
        Becomes::OtherBase => "changes base",
        Becomes::AsItIs => "stays as it is",
        Becomes::OtherOutfits => "stays, with other outfits",
    }
}

fn look(asked: &Asked<'_>, number: usize, suggested: &Suggested) -> String {
    let base = with_name(asked, &suggested.base);
    let mut to = format!("{number:>3}. {base}: {}\n", status(suggested.becomes()));
    if let Some(id) = &suggested.look {
        let base = asked.board.look(id).and_then(|look| look.base.as_ref());
        let before = base.filter(|_| suggested.changes_base);
        let before =
            before.map(|base| format!(", until now after {}", outfit(asked, base))).unwrap_or_default();
        let _ = writeln!(to, "     your look {}{before}", quoted(asked, id));
    }
    for (id, _) in &suggested.folded {
        let alike = asked.likeness.explain(id, &suggested.base).map(|explanation| explanation.in_words());
        let from = if suggested.comes.contains(id) { from(asked, id) } else { String::new() };
        let _ = writeln!(to, "     • {}{from}\n         {}", outfit(asked, id), alike.unwrap_or_default());
    }
    if suggested.look.is_some() && !suggested.leaves.is_empty() {
        let leaves: Vec<String> = suggested.leaves.iter().map(|id| outfit(asked, id)).collect();
        let _ = writeln!(to, "     leaves it: {}", leaves.join("; "));
    }
    to
}

/// Where an outfit is now.
fn from(asked: &Asked<'_>, id: &OutfitId) -> String {
    match asked.board.standing(id) {
        Standing::Folded(look) => format!(", from {}", quoted(asked, look)),
        Standing::LetGo(_) | Standing::Open => ", open until now".to_owned(),
    }
}

/// Looks that go, and looks that there is no room to say anything of.
fn going(asked: &Asked<'_>, suggestion: &Suggestion, to: &mut String) {
    if !suggestion.goes.is_empty() {
        let _ =
            writeln!(to, "\nLooks that go, with their notes; their scenes are then worn in the other look:");
        for (go, (look, into)) in suggestion.goes.iter().enumerate() {
            let Some(into) = suggestion.looks.get(*into) else { continue };
            let only = if suggestion.is_kept(asked.board, go) {
                ""
            } else {
                ", for want of a nearer one: nothing is kept of it"
            };
            let _ = writeln!(
                to,
                "  {} into {}{only}\n    {}",
                quoted(asked, look),
                outfit(asked, &into.base),
                Plain::line(&at_stake(asked.board, look))
            );
        }
    }
    if !suggestion.left.is_empty() {
        let _ = writeln!(to, "\nLeft as they are, since their character is to have no look:");
        suggestion.left.iter().for_each(|look| lines(to, &quoted(asked, look)));
    }
}

/// Outfits that no look keeps, whether in one or in none.
fn open(asked: &Asked<'_>, suggestion: &Suggestion, to: &mut String) {
    if !suggestion.open.is_empty() {
        let _ = writeln!(
            to,
            "\nIn no look, since nothing much of them would be kept in any: fold them where you know better, or let \
             them go:"
        );
        suggestion.open.iter().for_each(|id| lines(to, &with_name(asked, id)));
    }
}

fn lines(to: &mut String, text: &str) {
    let _ = writeln!(to, "  {}", Plain::line(text));
}

/// `Club costume, black wool (14 Aug 1926)`.
fn outfit(asked: &Asked<'_>, id: &OutfitId) -> String {
    let worn = asked.board.outfit(id).and_then(|outfit| outfit.worn.as_ref());
    let worn = worn.map(|worn| format!(" ({})", worn.short())).unwrap_or_default();
    format!("{}{worn}", Plain::line(asked.board.title_of_outfit(id)))
}

/// The same, with whose it is where all characters are asked about.
fn with_name(asked: &Asked<'_>, id: &OutfitId) -> String {
    let told = outfit(asked, id);
    match asked.board.outfit(id).filter(|_| asked.who.is_none()) {
        Some(outfit) => format!("{}: {told}", Plain::line(asked.board.name_of(&outfit.character))),
        None => told,
    }
}

fn quoted(asked: &Asked<'_>, id: &LookId) -> String {
    let title = look_title(asked.board, id);
    crate::check::words::quoted(Plain::line(title).as_str())
}

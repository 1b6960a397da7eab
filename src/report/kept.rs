//! What the looks keep of the wardrobe: the page that a designer takes to a producer who asks for three looks fewer.
//!
//! What each look is worth stands first, the one that is missed least on top; then what there is to be had for less or
//! more, and what the present choice has cost. All shares are of everything documented, by recognition.

use std::collections::BTreeMap;

use super::document::{Cell, Column, Document, Kind, Share, Table};
use super::plain::Plain;
use crate::board::{Board, LookId, OutfitId, Standing};
use crate::check::words::{counted, look_title};
use crate::gather::{Kept, Likeness, Served, Tally, Wardrobe, Worth, weight};

/// How many mergers are listed.
const MERGERS: usize = 10;
/// How many of the outfits that are served worst.
const WORST: usize = 10;
/// How many candidates for one look more.
const MORE: usize = 5;

const NOTES: [&str; 5] = [
    "An outfit counts 1, 2, 4, 7, 11 or 16 by its recognition of 0 to 5. Of a folded outfit as much is kept as it is alike \
     to the base of its look; of one that is open or let go, nothing.",
    "Reachable: were every outfit that is not let go in the look with the nearest base.",
    "Lost if a look goes: each of its outfits then goes into the nearest other look of the character.",
    "What one more look would buy holds for one at a time, not for their sum; `shirr suggest` reckons them together.",
    "An invented look keeps nothing, since no source stands behind it.",
];

pub(super) fn document(board: &Board) -> Document {
    let likeness = Likeness::of(board);
    match Wardrobe::of(board, &likeness, None, &|| false) {
        Ok(wardrobe) => page(board, &likeness, &Worth::of(board, &likeness, &wardrobe)),
        Err(error) => Document {
            key: "kept",
            title: Plain::line(&format!("{}: what the looks keep", board.head().title)),
            subtitle: Plain::line(&error.to_string()),
            ..Document::default()
        },
    }
}

fn page(board: &Board, likeness: &Likeness, worth: &Worth) -> Document {
    let looks = counted(worth.looks.len(), "look");
    let keep = if worth.looks.len() == 1 { "keeps" } else { "keep" };
    let subtitle = format!(
        "{looks} with a base {keep} {} of the documented wardrobe; {} if every outfit were in the nearest look",
        Share::of(worth.kept),
        Share::of(worth.reachable),
    );
    let (let_go, open): (Vec<_>, Vec<_>) = worth.unserved.iter().partition(|served| served.reason.is_some());
    Document {
        key: "kept",
        title: Plain::line(&format!("{}: what the looks keep", board.head().title)),
        subtitle: Plain::line(&subtitle),
        notes: NOTES.into_iter().map(Plain::line).collect(),
        tables: vec![
            of_looks(board, worth),
            of_groups(board, likeness),
            of_mergers(board, worth),
            of_worst(board, worth),
            of_more(board, worth),
            of_let_go(board, &let_go),
            of_open(board, &open),
        ],
        ..Document::default()
    }
}

fn of_looks(board: &Board, worth: &Worth) -> Table {
    let columns = vec![
        text("character", "Character"),
        text("look", "Look"),
        text("base", "Base"),
        Column::new("worn", "Base worn", Kind::Date),
        Column::new("outfits", "Outfits", Kind::Number),
        share("keeps", "Keeps"),
        share("lost", "Lost if it goes"),
    ];
    let mut table =
        Table::titled("looks", "What each look is worth, the one that is missed least first", columns);
    for of in &worth.looks {
        let look = board.look(&of.look);
        let base = look.and_then(|look| look.base.as_ref());
        table.push(vec![
            Cell::maybe(look.map(|look| board.name_of(&look.character))),
            title_of(board, &of.look),
            Cell::maybe(base.map(|base| board.title_of_outfit(base))),
            base.map_or(Cell::Empty, |base| worn(board, base)),
            Cell::Number(u32::try_from(of.outfits).unwrap_or(u32::MAX)),
            Cell::Share(Share::of(of.kept)),
            Cell::Share(Share::of(of.lost)),
        ]);
    }
    table
}

/// What is kept, and what could be, of the outfits of a group.
#[derive(Default)]
struct Group {
    outfits: u32,
    kept: Tally,
    reachable: Tally,
}

fn of_groups(board: &Board, likeness: &Likeness) -> Table {
    let columns = vec![
        text("of", "Of"),
        text("kind", "Kind"),
        Column::new("outfits", "Outfits", Kind::Number),
        share("kept", "Kept"),
        share("reachable", "Reachable"),
    ];
    let mut table = Table::titled("groups", "What is kept, by period and by character", columns);
    let mut all = Group::default();
    let (mut periods, mut characters) = (BTreeMap::new(), BTreeMap::new());
    let bases: Vec<(&OutfitId, _)> = board
        .records()
        .looks
        .values()
        .filter_map(|look| look.base.as_ref().map(|base| (base, &look.character)))
        .collect();
    for (id, outfit) in &board.records().outfits {
        let of = weight(outfit);
        let nearest = bases.iter().filter(|(_, character)| **character == outfit.character);
        let nearest = nearest.map(|(base, _)| likeness.distance(id, base)).fold(1.0, f64::min);
        let let_go = matches!(board.standing(id), Standing::LetGo(_));
        let reachable = if let_go { 0.0 } else { of * (1.0 - nearest) };
        let period = board.relations().period_of_outfit(id);
        let period = period.map(|period| periods.entry(period).or_insert_with(Group::default));
        let character = characters.entry(&outfit.character).or_insert_with(Group::default);
        for group in [&mut all, character].into_iter().chain(period) {
            group.outfits += 1;
            group.reachable.kept += reachable;
            group.reachable.of += of;
        }
    }
    let kept = Kept::of(board, likeness);
    all.kept = kept.all;
    let mut push = |title: &str, kind: &str, group: &Group| {
        table.push(vec![
            Cell::text(title),
            Cell::text(kind),
            Cell::Number(group.outfits),
            Cell::Share(Share::of(group.kept.share())),
            Cell::Share(Share::of(group.reachable.share())),
        ]);
    };
    push("The whole wardrobe", "all", &all);
    for period in &board.head().periods {
        if let (Some(group), Some(kept)) = (periods.get_mut(&period.id), kept.periods.get(&period.id)) {
            group.kept = *kept;
            push(&period.title, "period", group);
        }
    }
    for character in super::cast(board) {
        if let (Some(group), Some(kept)) = (characters.get_mut(character), kept.characters.get(character)) {
            group.kept = *kept;
            push(board.name_of(character), "character", group);
        }
    }
    table
}

fn of_mergers(board: &Board, worth: &Worth) -> Table {
    let columns = vec![text("from", "Look that goes"), text("into", "Into"), share("lost", "Costs")];
    let mut table = Table::titled("mergers", "The cheapest mergers", columns);
    for merger in worth.mergers.iter().take(MERGERS) {
        let lost = Cell::Share(Share::of(merger.lost));
        table.push(vec![title_of(board, &merger.from), title_of(board, &merger.into), lost]);
    }
    table
}

fn of_worst(board: &Board, worth: &Worth) -> Table {
    let mut columns = outfit_columns();
    columns.extend([text("look", "Look"), share("alike", "Alike to its base"), share("lost", "Lost of it")]);
    let mut table = Table::titled("worst", "Folded outfits of which most is lost", columns);
    for served in worth.worst.iter().take(WORST) {
        let mut row = outfit_cells(board, &served.outfit);
        row.extend([nearest(board, served), alike(served), Cell::Share(Share::of(served.share))]);
        table.push(row);
    }
    table
}

fn of_more(board: &Board, worth: &Worth) -> Table {
    let mut columns = outfit_columns();
    columns.push(share("gain", "Buys"));
    let mut table = Table::titled("one-more", "What one look more would buy, with this base", columns);
    for more in worth.one_more.iter().filter(|more| more.gain > 0.0).take(MORE) {
        let mut row = outfit_cells(board, &more.base);
        row.push(Cell::Share(Share::of(more.gain)));
        table.push(row);
    }
    table
}

fn of_let_go(board: &Board, let_go: &[&Served]) -> Table {
    let mut columns = outfit_columns();
    columns.extend([text("reason", "Why"), text("look", "Nearest look"), share("cost", "Cost")]);
    let mut table =
        Table::titled("let-go", "What was let go, and what it would keep in the nearest look", columns);
    for served in let_go {
        let mut row = outfit_cells(board, &served.outfit);
        let reason = Cell::maybe(served.reason.as_ref());
        row.extend([reason, nearest(board, served), Cell::Share(Share::of(served.share))]);
        table.push(row);
    }
    table
}

fn of_open(board: &Board, open: &[&Served]) -> Table {
    let mut columns = outfit_columns();
    columns.extend([
        text("look", "Nearest look"),
        share("alike", "Alike to its base"),
        share("gain", "Would keep"),
    ]);
    let mut table =
        Table::titled("open", "What is open, and what it would keep in the nearest look", columns);
    for served in open {
        let mut row = outfit_cells(board, &served.outfit);
        row.extend([nearest(board, served), alike(served), Cell::Share(Share::of(served.share))]);
        table.push(row);
    }
    table
}

fn text(key: &str, heading: &str) -> Column {
    Column::new(key, heading, Kind::Text)
}

fn share(key: &str, heading: &str) -> Column {
    Column::new(key, heading, Kind::Share)
}

fn outfit_columns() -> Vec<Column> {
    vec![text("character", "Character"), text("outfit", "Outfit"), Column::new("worn", "Worn", Kind::Date)]
}

fn outfit_cells(board: &Board, id: &OutfitId) -> Vec<Cell> {
    let character = board.outfit(id).map(|outfit| board.name_of(&outfit.character));
    vec![Cell::maybe(character), Cell::text(board.title_of_outfit(id)), worn(board, id)]
}

fn worn(board: &Board, id: &OutfitId) -> Cell {
    Cell::date(board.outfit(id).and_then(|outfit| outfit.worn.as_ref()))
}

fn title_of(board: &Board, id: &LookId) -> Cell {
    Cell::text(look_title(board, id))
}

fn nearest(board: &Board, served: &Served) -> Cell {
    Cell::maybe(served.look.as_ref().map(|look| look_title(board, look)))
}

/// Nothing where there is no look to be like.
fn alike(served: &Served) -> Cell {
    served.look.as_ref().map_or(Cell::Empty, |_| Cell::Share(Share::of(1.0 - served.distance)))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::board::sample::{board, ids};
    use crate::report::formats::{Csv, Html, Json, Markdown, Text};

    fn cell<'a>(document: &'a Document, table: &str, row: usize, column: &str) -> &'a Cell {
        let table = document.tables.iter().find(|found| found.key() == table).unwrap();
        let at = table.columns().iter().position(|found| found.key == column).unwrap();
        &table.rows()[row][at]
    }

    #[test]
    fn the_page_says_what_is_kept_what_each_look_is_worth_and_what_was_let_go_at_what_cost() {
        let mut board = board();
        board.apply(&board.let_go(&ids(&["smock"]), "nobody saw it").unwrap()).unwrap();
        insta::assert_snapshot!(Markdown.write(&document(&board)));
    }

    #[test]
    fn the_whole_is_what_the_looks_are_worth_together() {
        let board = board();
        let document = document(&board);
        let likeness = Likeness::of(&board);
        let wardrobe = Wardrobe::of(&board, &likeness, None, &|| false).unwrap();
        let worth = Worth::of(&board, &likeness, &wardrobe);
        assert_eq!(*cell(&document, "groups", 0, "kept"), Cell::Share(Share::of(worth.kept)));
        assert_eq!(*cell(&document, "groups", 0, "reachable"), Cell::Share(Share::of(worth.reachable)));
        let kept: f64 = worth.looks.iter().map(|look| look.kept).sum();
        assert!((kept - worth.kept).abs() < 1e-12);
        let lost = Share::of(worth.looks[0].lost);
        assert_eq!(*cell(&document, "looks", 0, "lost"), Cell::Share(lost));
    }

    #[test]
    fn what_is_let_go_says_what_it_costs() {
        let mut board = board();
        let gain = cell(&document(&board), "open", 0, "gain").clone();
        let title = cell(&document(&board), "open", 0, "outfit").clone();
        let is_it = |id: &&OutfitId| Cell::text(board.title_of_outfit(id)) == title;
        let open: OutfitId = board.records().outfits.keys().find(is_it).unwrap().clone();
        board.apply(&board.let_go(&[open], "told twice").unwrap()).unwrap();
        assert_eq!(*cell(&document(&board), "let-go", 0, "cost"), gain);
        assert_eq!(*cell(&document(&board), "let-go", 0, "reason"), Cell::text("told twice"));
    }

    #[test]
    fn dates_are_words_on_paper_and_edtf_for_programs() {
        let document = document(&board());
        let serge = |text: &str| text.lines().find(|line| line.contains("Club serge")).unwrap().to_owned();
        assert!(serge(&Markdown.write(&document)).contains("| c. 1926 |"));
        assert!(Html.write(&document).contains("<td>c. 1926</td>"));
        assert!(serge(&Csv.write(&document)).contains(",1926~,"));
        let json: serde_json::Value = serde_json::from_str(&Json.write(&document)).unwrap();
        assert_eq!(json["tables"][0]["rows"][0]["worn"], "1933-03-02");
        assert_eq!(json["tables"][0]["columns"][3]["kind"], "date");
    }
}

//! What the looks keep of the wardrobe: the page that a designer takes to a producer who asks for three looks fewer.
//!
//! What each look is worth stands first, the one that is missed least on top; then what there is to be had for less or
//! more, and what the present choice has cost. All shares are of everything documented, by recognition, of the whole
//! board or of one character.

use std::collections::{BTreeMap, HashMap};

use super::cautions::{self, Raised, with_look};
use super::document::{Cell, Column, Document, Kind, Share, Table};
use super::plain::Plain;
use crate::board::{Board, CharacterId, LookId, OutfitId, Scope};
use crate::check::words::{counted, look_title};
use crate::gather::{Carried, Fewer, Likeness, MergerCost, Served, Tally, Wardrobe, Worth};
use crate::plot;

/// How many mergers are listed.
const MERGERS: usize = 10;
/// How many looks fewer are reckoned together.
const FEWER: usize = 5;
/// In how many of them a look may be, so that one that is missed little does not fill the list.
const MERGERS_OF_A_LOOK: usize = 2;
/// How many of the outfits that are served worst.
const WORST: usize = 10;
/// How many candidates for one look more.
const MORE: usize = 5;

const NOTES: [&str; 2] = [
    "An outfit counts 1, 2, 4, 7, 11 or 16 by its recognition of 0 to 5. Of a folded outfit as much is kept as it is alike \
     to the base of its look; of one that is open or let go, nothing.",
    "An invented look keeps nothing, since no source stands behind it.",
];

/// What the looks of one character keep of that character's wardrobe.
pub fn kept_of(board: &Board, who: &CharacterId) -> Document {
    document(board, Some(who))
}

pub(super) fn document(board: &Board, who: Option<&CharacterId>) -> Document {
    let of = who.map(|who| format!(" of {}", board.name_of(who))).unwrap_or_default();
    let page = Document {
        key: "kept",
        title: Plain::line(&format!("{}: what the looks{of} keep", board.head().title)),
        ..Document::default()
    };
    if board.records().outfits.values().all(|outfit| who.is_some_and(|who| outfit.character != *who)) {
        let whose = who.map_or("on this board".to_owned(), |who| format!("of {}", board.name_of(who)));
        let gap = format!(
            "Nothing is documented yet: there is no outfit {whose}, so there is nothing to keep or to lose."
        );
        return Document { gaps: vec![Plain::line(&gap)], ..page };
    }
    let likeness = Likeness::of(board);
    match Wardrobe::of(board, &likeness, who, &|| false) {
        Ok(wardrobe) => {
            let worth = Worth::of(board, &likeness, &wardrobe);
            let fewer = MergerCost::one_after_another(board, &likeness, &wardrobe, FEWER);
            Document {
                subtitle: Plain::line(&format!("{}; {}", counters(board, who), subtitle(&worth, &of))),
                notes: NOTES.into_iter().map(Plain::line).collect(),
                tables: tables(board, who, &likeness, &worth, &fewer),
                cautions: cautions::asks(&raised(board, &worth)),
                ..page
            }
        }
        Err(error) => Document { subtitle: Plain::line(&error.to_string()), ..page },
    }
}

/// The counter: looks of the limit in all, and every limit of what is asked about that is passed.
fn counters(board: &Board, who: Option<&CharacterId>) -> String {
    let whole = who.map_or(Scope::Overall, |who| Scope::Character(who.clone()));
    let count = board.count(&whole);
    let of = count.limit.map(|limit| format!(" of {limit}")).unwrap_or_default();
    let mut told = format!("{}{of} looks used", count.used);
    for scope in board.limited_scopes() {
        let count = board.count(&scope);
        if count.over() > 0 {
            told.push_str(&format!(", {} {}", board.scope_name(&scope), count.words()));
        }
    }
    told
}

fn subtitle(worth: &Worth, of: &str) -> String {
    let looks = counted(worth.present.looks, "look");
    let keep = if worth.present.looks == 1 { "keeps" } else { "keep" };
    format!(
        "{looks} with a base {keep} {} of the documented wardrobe{of}; {} if every outfit were in the nearest look",
        Share::of(worth.present.kept),
        Share::of(worth.present.reachable),
    )
}

fn tables(
    board: &Board,
    who: Option<&CharacterId>,
    likeness: &Likeness,
    worth: &Worth,
    fewer: &[Fewer],
) -> Vec<Table> {
    let (let_go, open): (Vec<_>, Vec<_>) = worth.unserved.iter().partition(|served| served.reason.is_some());
    vec![
        of_looks(board, worth),
        of_groups(board, who, &worth.outfits),
        of_fewer(board, fewer),
        of_mergers(board, worth),
        of_worst(board, likeness, worth),
        of_more(board, worth),
        of_let_go(board, &let_go),
        of_open(board, likeness, &open),
    ]
}

fn of_looks(board: &Board, worth: &Worth) -> Table {
    let columns = vec![
        text("character", "Character"),
        text("look", "Look"),
        text("base", "Base"),
        Column::new("worn", "Base worn", Kind::Date),
        text("stage", "Stage"),
        Column::new("minutes", "On screen", Kind::Minutes),
        Column::new("outfits", "Outfits", Kind::Number),
        share("keeps", "Keeps"),
        share("lost", "Lost if it goes"),
    ];
    let mut table = Table::titled(
        "looks",
        "What each look is worth, the one that is missed least first",
        columns,
    )
    .read_so("Lost if it goes: each of its outfits then goes into the nearest other look of the character.");
    for of in &worth.looks {
        let look = board.look(&of.look);
        let base = look.and_then(|look| look.base.as_ref());
        table.push(vec![
            Cell::maybe(look.map(|look| board.name_of(&look.character))),
            title_of(board, &of.look),
            Cell::maybe(base.map(|base| board.title_of_outfit(base))),
            base.map_or(Cell::Empty, |base| worn(board, base)),
            stage_of(board, &of.look),
            Cell::Minutes(plot::of_look(board, &of.look)),
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

impl Group {
    fn add(&mut self, carried: &Carried) {
        self.outfits += 1;
        self.kept.add(carried.kept.kept, carried.kept.of);
        self.reachable.add(carried.reachable.kept, carried.reachable.of);
    }
}

fn of_groups(board: &Board, who: Option<&CharacterId>, outfits: &[Carried]) -> Table {
    let columns = vec![
        text("of", "Of"),
        text("kind", "Kind"),
        Column::new("outfits", "Outfits", Kind::Number),
        share("kept", "Kept"),
        share("reachable", "Reachable"),
    ];
    let title =
        if who.is_some() { "What is kept, by period" } else { "What is kept, by period and by character" };
    let mut table = Table::titled("groups", title, columns).read_so(
        "Each share is of the group's own outfits; reachable is what would be kept, were each that is not let go in the \
         look with the nearest base.",
    );
    let mut all = Group::default();
    let (mut periods, mut characters) = (BTreeMap::new(), BTreeMap::new());
    for carried in outfits {
        let period = board.relations().period_of_outfit(&carried.outfit);
        let period = period.map(|period| periods.entry(period).or_insert_with(Group::default));
        let character = board.outfit(&carried.outfit).map(|outfit| &outfit.character);
        let character = character.map(|character| characters.entry(character).or_insert_with(Group::default));
        [Some(&mut all), character, period].into_iter().flatten().for_each(|group| group.add(carried));
    }
    let mut push = |title: &str, kind: &str, group: &Group| {
        table.push(vec![
            Cell::text(title),
            Cell::text(kind),
            Cell::Number(group.outfits),
            Cell::Share(Share::of(group.kept.share())),
            Cell::Share(Share::of(group.reachable.share())),
        ]);
    };
    match who {
        Some(who) => push(board.name_of(who), "character", &all),
        None => push("The whole wardrobe", "all", &all),
    }
    for period in &board.head().periods {
        if let Some(group) = periods.get(&period.id) {
            push(&period.title, "period", group);
        }
    }
    for character in super::cast(board).into_iter().filter(|_| who.is_none()) {
        if let Some(group) = characters.get(character) {
            push(board.name_of(character), "character", group);
        }
    }
    table
}

fn of_mergers(board: &Board, worth: &Worth) -> Table {
    let columns = vec![
        text("from", "Look that goes"),
        Column::new("scenes", "Its scenes", Kind::List),
        Column::new("minutes", "On screen", Kind::Minutes),
        text("into", "Into"),
        share("lost", "Costs"),
        Column::new("cautions", "Cautions", Kind::List),
    ];
    let mut table = Table::titled("mergers", "The cheapest mergers", columns).read_so(
        "The scenes of the look that goes are then worn in the other, whose base stays. Each two looks stand once, the \
         cheaper way round, and each look at most twice; what is on film does not go, and what your wishes forbid is left \
         out, as is a look of which nothing would be kept.",
    );
    for merger in cheapest(&worth.mergers) {
        let scenes = board.relations().scenes_of(&merger.from).iter();
        let scenes = scenes.filter_map(|at| board.records().scenes.get(*at));
        table.push(vec![
            title_of(board, &merger.from),
            Cell::list(scenes.map(|scene| scene.number.to_string())),
            Cell::Minutes(plot::of_look(board, &merger.from)),
            title_of(board, &merger.into),
            Cell::Share(Share::of(merger.lost)),
            cautions::cell(board, &with_look(board, &merger.from)),
        ]);
    }
    table
}

/// What can hurt where a look that goes is worn: another will be worn there.
fn raised(board: &Board, worth: &Worth) -> Vec<Raised> {
    cheapest(&worth.mergers).into_iter().flat_map(|merger| with_look(board, &merger.from)).collect()
}

/// The first of the mergers that keep something of the look that goes, with no look in more than
/// [`MERGERS_OF_A_LOOK`].
fn cheapest(mergers: &[MergerCost]) -> Vec<&MergerCost> {
    let mut rows: HashMap<&LookId, usize> = HashMap::new();
    let mut listed = Vec::new();
    for merger in mergers.iter().filter(|merger| merger.kept > 0.0) {
        let pair = [&merger.from, &merger.into];
        if pair.iter().all(|look| rows.get(look).is_none_or(|rows| *rows < MERGERS_OF_A_LOOK)) {
            pair.into_iter().for_each(|look| *rows.entry(look).or_default() += 1);
            listed.push(merger);
        }
    }
    listed.truncate(MERGERS);
    listed
}

/// What one, two, three … looks fewer cost together.
fn of_fewer(board: &Board, fewer: &[Fewer]) -> Table {
    let columns = vec![
        Column::new("fewer", "Looks fewer", Kind::Number),
        text("from", "Look that goes"),
        text("stage", "Stage"),
        text("into", "Into"),
        share("lost", "Costs"),
        share("kept", "Kept then"),
    ];
    let mut table = Table::titled("fewer", "With fewer looks, merging one after another", columns).read_so(
        "Each row comes after those above it, as the cheapest merger that is left then: the third says what three looks \
         fewer keep. What is approved can be merged too, if whoever approved it agrees; what is on film cannot.",
    );
    for (number, one) in (1..).zip(fewer) {
        table.push(vec![
            Cell::Number(number),
            title_of(board, &one.merger.from),
            stage_of(board, &one.merger.from),
            title_of(board, &one.merger.into),
            Cell::Share(Share::of(one.merger.lost)),
            Cell::Share(Share::of(one.kept)),
        ]);
    }
    table
}

fn stage_of(board: &Board, id: &LookId) -> Cell {
    Cell::maybe(board.look(id).map(|look| look.stage.word()))
}

fn of_worst(board: &Board, likeness: &Likeness, worth: &Worth) -> Table {
    let mut columns = outfit_columns();
    columns.extend([text("look", "Look"), share("alike", "Alike to its base"), share("lost", "Lost of it")]);
    let mut table = Table::titled("worst", "Folded outfits of which most is lost", columns).read_so("Lost of it: what its look does not keep, of the whole wardrobe; half alike keeps half of what the outfit counts, and a stretch nothing.");
    for served in worth.worst.iter().take(WORST) {
        let mut row = outfit_cells(board, &served.outfit);
        row.extend([
            nearest(board, served),
            alike(board, likeness, served),
            Cell::Share(Share::of(served.share)),
        ]);
        table.push(row);
    }
    table
}

fn of_more(board: &Board, worth: &Worth) -> Table {
    let mut columns = outfit_columns();
    columns.push(share("gain", "Buys"));
    let mut table = Table::titled("one-more", "What one look more would buy, with this base", columns).read_so("Each holds alone, with every outfit in its nearest look, and not for their sum; what must not be a base is left out. The command shirr suggest reckons several together.");
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
        Table::titled("let-go", "What was let go, and what it would keep in the nearest look", columns).read_so("Cost: what would be kept more, were it folded into the look with the nearest base; where no look would keep any of it, none stands here.");
    for served in let_go {
        let mut row = outfit_cells(board, &served.outfit);
        let reason = Cell::maybe(served.reason.as_ref());
        row.extend([reason, nearest(board, served), Cell::Share(Share::of(served.share))]);
        table.push(row);
    }
    table
}

fn of_open(board: &Board, likeness: &Likeness, open: &[&Served]) -> Table {
    let mut columns = outfit_columns();
    columns.extend([
        text("look", "Nearest look"),
        share("alike", "Alike to its base"),
        share("gain", "Would keep"),
    ]);
    let mut table =
        Table::titled("open", "What is open, and what it would keep in the nearest look", columns).read_so("Would keep: what is gained by folding it into the look with the nearest base, of the whole wardrobe; where no look would keep any of it, none stands here.");
    for served in open {
        let mut row = outfit_cells(board, &served.outfit);
        row.extend([
            nearest(board, served),
            alike(board, likeness, served),
            Cell::Share(Share::of(served.share)),
        ]);
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

/// How alike an outfit is to the base of its look, even where that is a stretch; nothing where there is no look to be
/// like.
fn alike(board: &Board, likeness: &Likeness, served: &Served) -> Cell {
    let base = served.look.as_ref().and_then(|look| board.look(look)?.base.as_ref());
    let told = base.and_then(|base| likeness.explain(&served.outfit, base));
    told.map_or(Cell::Empty, |told| Cell::Share(Share::of(told.alike())))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::board::sample::{self, board, id, ids};
    use crate::board::{BaseWish, Stage, Treatment};
    use crate::gather::Kept;
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
        insta::assert_snapshot!(Markdown.write(&document(&board, None)));
    }

    #[test]
    fn the_whole_is_what_the_looks_are_worth_together() {
        let board = board();
        let document = document(&board, None);
        let likeness = Likeness::of(&board);
        let wardrobe = Wardrobe::of(&board, &likeness, None, &|| false).unwrap();
        let worth = Worth::of(&board, &likeness, &wardrobe);
        assert_eq!(*cell(&document, "groups", 0, "kept"), Cell::Share(Share::of(worth.present.kept)));
        assert_eq!(
            *cell(&document, "groups", 0, "reachable"),
            Cell::Share(Share::of(worth.present.reachable))
        );
        let kept: f64 = worth.looks.iter().map(|look| look.kept).sum();
        assert!((kept - worth.present.kept).abs() < 1e-12);
        let lost = Share::of(worth.looks[0].lost);
        assert_eq!(*cell(&document, "looks", 0, "lost"), Cell::Share(lost));
    }

    #[test]
    fn what_is_let_go_says_what_it_costs() {
        let mut board = board();
        let gain = cell(&document(&board, None), "open", 0, "gain").clone();
        let title = cell(&document(&board, None), "open", 0, "outfit").clone();
        let is_it = |id: &&OutfitId| Cell::text(board.title_of_outfit(id)) == title;
        let open: OutfitId = board.records().outfits.keys().find(is_it).unwrap().clone();
        board.apply(&board.let_go(&[open], "told twice").unwrap()).unwrap();
        let told = document(&board, None);
        let row = (0..2).find(|row| *cell(&told, "let-go", *row, "outfit") == title).unwrap();
        assert_eq!(*cell(&told, "let-go", row, "cost"), gain);
        assert_eq!(*cell(&told, "let-go", row, "reason"), Cell::text("told twice"));
    }

    #[test]
    fn dates_are_words_on_paper_and_edtf_for_programs() {
        let document = document(&board(), None);
        let serge = |text: &str| text.lines().find(|line| line.contains("Club serge")).unwrap().to_owned();
        assert!(serge(&Markdown.write(&document)).contains("| c. 1926 |"));
        assert!(Html.write(&document).contains("<td class=\"short\">c. 1926</td>"));
        assert!(serge(&Csv.write(&document)).contains(",1926~,"));
        let json: serde_json::Value = serde_json::from_str(&Json.write(&document)).unwrap();
        assert_eq!(json["tables"][0]["rows"][0]["worn"], "1933-03-02");
        assert_eq!(json["tables"][0]["columns"][3]["kind"], "date");
    }

    /// The sample with so many more looks of Odile, each with a base of its own.
    fn with_looks(more: usize) -> Board {
        let mut board = board();
        for outfit in ["smock", "blackout-coat", "club-serge", "crossing-wool"].into_iter().take(more) {
            if let Ok(edit) = board.take_back(&ids(&[outfit])) {
                board.apply(&edit).unwrap();
            }
            let base = ids(&[outfit]);
            board.apply(&board.gather(&base, outfit, &base[0], Treatment::Copy).unwrap().1).unwrap();
        }
        board
    }

    fn said(document: &Document, table: &str, column: &str) -> Vec<String> {
        let rows = document.tables.iter().find(|found| found.key() == table).unwrap().rows().len();
        (0..rows)
            .map(|row| match cell(document, table, row, column) {
                Cell::Text(plain) => plain.to_string(),
                other => format!("{other:?}"),
            })
            .collect()
    }

    #[test]
    fn each_two_looks_are_one_row_and_no_look_fills_the_list() {
        let document = document(&with_looks(4), None);
        let pairs: Vec<(String, String)> =
            said(&document, "mergers", "from").into_iter().zip(said(&document, "mergers", "into")).collect();
        // Of the six looks three are near enough to each other, so every two of them.
        assert_eq!(pairs.len(), 3, "{pairs:?}");
        for (at, (from, into)) in pairs.iter().enumerate() {
            let again = |(a, b): &(String, String)| (a == from && b == into) || (a == into && b == from);
            assert!(!pairs[at + 1..].iter().any(again), "{pairs:?}");
            for look in [from, into] {
                assert!(
                    pairs.iter().filter(|(a, b)| a == look || b == look).count() <= 2,
                    "{look}: {pairs:?}"
                );
            }
        }
    }

    #[test]
    fn a_merger_says_which_scenes_and_how_many_minutes_go_with_the_look() {
        let mut board = with_looks(4);
        for look in ["club-serge", "crossing-wool"] {
            let seen = board.change_look(&id(look), "", |look| look.stage = Stage::Established).unwrap();
            board.apply(&seen).unwrap();
        }
        let document = document(&board, None);
        let gown = said(&document, "mergers", "from").iter().position(|from| from == "Gown").unwrap();
        assert_eq!(*cell(&document, "mergers", gown, "scenes"), Cell::list(["3", "3A"]));
        assert_eq!(*cell(&document, "mergers", gown, "minutes"), Cell::Minutes("4/8".parse().unwrap()));
    }

    #[test]
    fn a_look_of_which_nothing_would_be_kept_is_no_merger() {
        // Gown and Club are a stretch from each other.
        assert_eq!(said(&document(&board(), None), "mergers", "from"), [""; 0]);
    }

    #[test]
    fn what_is_on_film_is_not_offered_to_go() {
        let mut board = board();
        let seen = board.change_look(&id("gown"), "", |look| look.stage = Stage::Established).unwrap();
        board.apply(&seen).unwrap();
        assert_eq!(said(&document(&board, None), "mergers", "from"), ["Club"]);
        board.apply(&board.wish_base(&id("club-wool"), Some(BaseWish::Must)).unwrap()).unwrap();
        assert_eq!(said(&document(&board, None), "mergers", "from"), [""; 0]);
    }

    #[test]
    fn each_group_keeps_what_is_counted_elsewhere() {
        let board = with_looks(1);
        let document = document(&board, None);
        let kept = Kept::of(&board, &Likeness::of(&board));
        let row = |title: &str| said(&document, "groups", "of").iter().position(|of| of == title).unwrap();
        let share = |title: &str| cell(&document, "groups", row(title), "kept").clone();
        for period in &board.head().periods {
            assert_eq!(share(&period.title), Cell::Share(Share::of(kept.periods[&period.id].share())));
        }
        for (who, tally) in &kept.characters {
            assert_eq!(share(board.name_of(who)), Cell::Share(Share::of(tally.share())));
        }
        assert_eq!(share("The whole wardrobe"), Cell::Share(Share::of(kept.all.share())));
    }

    #[test]
    fn of_one_character_all_shares_are_of_that_wardrobe() {
        let board = board();
        let odile = kept_of(&board, &id("odile"));
        assert_eq!(odile.title.as_str(), "Sample: what the looks of Odile keep");
        let whole = document(&board, None);
        let at = said(&whole, "groups", "of").iter().position(|of| of == "Odile").unwrap();
        for column in ["outfits", "kept", "reachable"] {
            assert_eq!(cell(&odile, "groups", 0, column), cell(&whole, "groups", at, column), "{column}");
        }
        assert_eq!(said(&odile, "groups", "of"), ["Odile", "The shore", "The races", "The war"]);
        for table in odile.tables.iter().filter(|table| table.columns()[0].key == "character") {
            assert!(table.rows().iter().all(|row| row[0] == Cell::text("Odile")), "{}", table.key());
        }
        assert!(
            odile.subtitle.as_str().contains("of the documented wardrobe of Odile; "),
            "{}",
            odile.subtitle
        );
    }

    #[test]
    fn where_nothing_is_documented_it_says_so_and_gives_no_shares() {
        let mut records = sample::records();
        records.outfits.retain(|_, outfit| outfit.character == id("odile"));
        let hers = kept_of(&Board::new(records.clone()), &id("bridie"));
        (records.outfits, records.looks) = Default::default();
        let none = document(&Board::new(records), None);
        for (document, whose) in [(hers, "of Bridie"), (none, "on this board")] {
            let text = Markdown.write(&document);
            let said = format!("Nothing is documented yet: there is no outfit {whose}, ");
            assert!(text.contains(&said) && !text.contains('%'), "{text}");
            assert!(Csv.write(&document).contains(&said));
        }
    }

    #[test]
    fn every_table_that_is_not_plain_says_how_it_is_to_be_read_in_every_format_for_people() {
        let document = document(&board(), None);
        let (paper, page) = (Markdown.write(&document), Html.write(&document));
        for table in document.tables.iter().filter(|table| !table.rows().is_empty()) {
            let reading = table.reading().as_str();
            assert!(reading.ends_with('.') && !reading.contains('\n'), "{}", table.key());
            let first = reading.split('`').next().unwrap();
            assert!(paper.contains(first) && page.contains(first), "{}", table.key());
        }
    }
}

//! What the wall shows: one column per period, its entries in date order, and the lanes of looks.
//!
//! Made anew when the board, the filter or the folding changes, and kept until then.

use std::collections::HashMap;

use crate::board::{Board, CharacterId, Count, LookId, OutfitId, PeriodId, Scope, Standing};
use crate::trade::date::{Date, Day};
use crate::trade::eighths::Eighths;

/// One thing on the wall.
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub enum Entry {
    /// An outfit.
    Outfit(OutfitId),
    /// A look, where the wall is folded up or a lane is meant.
    Look(LookId),
}

/// An entry with its place in time.
#[derive(Clone, Debug)]
pub struct Slot {
    /// What stands there.
    pub entry: Entry,
    /// When, if it is dated.
    pub day: Option<Day>,
}

/// One period of the wall.
#[derive(Clone, Debug)]
pub struct Column {
    /// The period; none for what falls into no period.
    pub period: Option<PeriodId>,
    /// Its name.
    pub title: String,
    /// Its years, in words.
    pub span: String,
    /// First and last day of its axis.
    pub days: (Day, Day),
    /// The entries in date order.
    pub slots: Vec<Slot>,
    /// Outfits in all.
    pub outfits: usize,
    /// Outfits that are open.
    pub open: usize,
    /// Looks used and allowed.
    pub looks: Count,
    /// Scenes of the period.
    pub scenes: usize,
    /// Their length.
    pub length: Eighths,
}

/// A look as a bar over the years that it stands for.
#[derive(Clone, Debug)]
pub struct Lane {
    /// The look.
    pub look: LookId,
    /// The column in which it begins.
    pub column: usize,
    /// Its outfits, the base first.
    pub outfits: Vec<OutfitId>,
    /// Its outfits by column and day; the base is marked.
    pub dots: Vec<(usize, Option<Day>, bool)>,
}

/// Everything that the wall shows, before it has a size.
#[derive(Clone, Debug, Default)]
pub struct Shelf {
    /// The periods.
    pub columns: Vec<Column>,
    /// The looks, each with its bar.
    pub lanes: Vec<Lane>,
    places: HashMap<Entry, (usize, usize)>,
}

impl Shelf {
    /// Fills the shelf. With `folded_up`, folded outfits stand as their look and those let go are not shown.
    pub fn fill(board: &Board, only: Option<&CharacterId>, folded_up: bool) -> Self {
        let mut columns = empty_columns(board, only);
        let of_period: HashMap<Option<PeriodId>, usize> =
            columns.iter().enumerate().map(|(at, column)| (column.period.clone(), at)).collect();
        let last = columns.len() - 1;
        let column_of = |period: Option<&PeriodId>| of_period.get(&period.cloned()).copied().unwrap_or(last);
        let relations = board.relations();
        for id in relations.outfits_by_date() {
            let Some(outfit) = board.outfit(id) else { continue };
            if only.is_some_and(|only| *only != outfit.character) {
                continue;
            }
            let column = &mut columns[column_of(relations.period_of_outfit(id))];
            column.outfits += 1;
            let standing = board.standing(id);
            column.open += usize::from(standing == Standing::Open);
            if !folded_up || standing == Standing::Open {
                let day = outfit.worn.as_ref().and_then(Date::middle);
                column.slots.push(Slot { entry: Entry::Outfit(id.clone()), day });
            }
        }
        let mut lanes = Vec::new();
        for id in relations.looks_by_order() {
            let Some(look) = board.look(id) else { continue };
            if only.is_some_and(|only| *only != look.character) {
                continue;
            }
            let column = column_of(relations.period_of_look(id));
            let dots = look.outfits().map(|outfit| {
                let at = column_of(relations.period_of_outfit(outfit));
                let day = board.outfit(outfit).and_then(|outfit| outfit.worn.as_ref()).and_then(Date::middle);
                (at, day, look.base.as_ref() == Some(outfit))
            });
            let dots: Vec<_> = dots.collect();
            lanes.push(Lane { look: id.clone(), column, outfits: look.outfits().cloned().collect(), dots });
            if folded_up {
                let day = board.day_of_look(look);
                columns[column].slots.push(Slot { entry: Entry::Look(id.clone()), day });
            }
        }
        if columns.len() > 1 && columns[last].outfits == 0 && columns[last].slots.is_empty() {
            columns.pop();
        }
        let mut places = HashMap::new();
        for (at, column) in columns.iter_mut().enumerate() {
            if folded_up {
                column.slots.sort_by_key(|slot| (slot.day.is_none(), slot.day));
            }
            for (row, slot) in column.slots.iter().enumerate() {
                places.insert(slot.entry.clone(), (at, row));
            }
        }
        lanes.retain(|lane| lane.column < columns.len());
        Self { columns, lanes, places }
    }

    /// The column and row of an entry.
    pub fn place(&self, entry: &Entry) -> Option<(usize, usize)> {
        self.places.get(entry).copied()
    }

    /// The entry at a column and row.
    pub fn at(&self, column: usize, row: usize) -> Option<&Entry> {
        self.columns.get(column)?.slots.get(row).map(|slot| &slot.entry)
    }

    /// All entries in order.
    pub fn entries(&self) -> impl DoubleEndedIterator<Item = &Entry> {
        self.columns.iter().flat_map(|column| &column.slots).map(|slot| &slot.entry)
    }

    /// Whether there is any time to show: a period, or a dated outfit.
    pub fn has_time(&self) -> bool {
        let dated =
            |column: &Column| column.period.is_some() || column.slots.iter().any(|slot| slot.day.is_some());
        self.columns.iter().any(dated)
    }

    /// The place of a look among the lanes.
    pub fn lane_of(&self, look: &LookId) -> Option<usize> {
        self.lanes.iter().position(|lane| lane.look == *look)
    }
}

/// The periods with their counts, and a last column for what falls into none.
fn empty_columns(board: &Board, only: Option<&CharacterId>) -> Vec<Column> {
    let relations = board.relations();
    let mut scenes: HashMap<Option<PeriodId>, (usize, Eighths)> = HashMap::new();
    for (at, scene) in board.scenes().enumerate() {
        if only.is_some_and(|only| scene.wears.get(only).is_none()) {
            continue;
        }
        let entry = scenes.entry(relations.period_of_scene(at).cloned()).or_default();
        entry.0 += 1;
        entry.1 = entry.1 + scene.pages;
    }
    let mut looks: HashMap<Option<PeriodId>, u32> = HashMap::new();
    for id in relations.looks_by_order() {
        if only.is_none_or(|only| board.look(id).is_some_and(|look| look.character == *only)) {
            *looks.entry(relations.period_of_look(id).cloned()).or_default() += 1;
        }
    }
    let far_past = Day::from_number(0);
    let mut columns: Vec<Column> = Vec::new();
    for period in &board.head().periods {
        let first = period.span.earliest().or(period.span.latest()).unwrap_or(far_past);
        let last = period.span.latest().unwrap_or(first).max(first.plus(1));
        columns.push(column(
            Some(period.id.clone()),
            period.title.clone(),
            period.span.short(),
            (first, last),
        ));
    }
    let (first, last) = match (columns.first(), columns.last()) {
        (Some(first), Some(last)) => (first.days.0, last.days.1),
        _ => whole_span(board),
    };
    let title = match (columns.is_empty(), board.records().outfits.is_empty()) {
        (true, true) => "No periods yet",
        (true, false) => "All",
        (false, _) => "In no period",
    };
    columns.push(column(None, title.to_owned(), String::new(), (first, last)));
    for column in &mut columns {
        (column.scenes, column.length) = scenes.get(&column.period).copied().unwrap_or_default();
        // A period's limit counts everybody's looks; with one character shown there is no limit to compare with.
        let limit = column.period.as_ref().filter(|_| only.is_none());
        let limit = limit.and_then(|id| board.head().budget.limit(&Scope::Period(id.clone())));
        column.looks = Count { used: looks.get(&column.period).copied().unwrap_or(0), limit };
    }
    columns
}

fn column(period: Option<PeriodId>, title: String, span: String, days: (Day, Day)) -> Column {
    let looks = Count { used: 0, limit: None };
    let length = Eighths::default();
    Column { period, title, span, days, slots: Vec::new(), outfits: 0, open: 0, looks, scenes: 0, length }
}

/// From the first to the last day on which anything was worn.
fn whole_span(board: &Board) -> (Day, Day) {
    let days = board.records().outfits.values().filter_map(|outfit| outfit.worn.as_ref()?.middle());
    let mut days: Vec<Day> = days.collect();
    days.sort();
    let first = days.first().copied().unwrap_or(Day::from_number(0));
    (first, days.last().copied().unwrap_or(first).max(first.plus(1)))
}

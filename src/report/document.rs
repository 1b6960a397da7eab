//! What a report is before anybody chose a format: headings, notes and tables with typed columns.
//!
//! All text in it is [`Plain`], so that no format can forget to clean it. A length is kept as [`Eighths`] and a date as
//! [`Date`], and each format writes them as its readers need them: `1 3/8` and `c. 1926` on paper, a number and EDTF in a
//! table that other programs read.

use std::collections::BTreeMap;

use super::figure::Figure;
use super::plain::Plain;
use crate::trade::date::Date;
use crate::trade::eighths::Eighths;
use crate::trade::length::Length;
use crate::trade::money::Money;
pub use crate::trade::share::Share;

/// One report.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Document {
    /// Which report it is, such as `scenes`.
    pub key: &'static str,
    /// Its heading.
    pub title: Plain,
    /// What it is of.
    pub subtitle: Plain,
    /// How it is to be read.
    pub notes: Vec<Plain>,
    /// What is missing from it. Every format carries these, so that a report with gaps never looks whole.
    pub gaps: Vec<Plain>,
    /// What to ask before anybody wears or does what it lists. Every format carries these.
    pub cautions: Vec<Plain>,
    /// Its tables.
    pub tables: Vec<Table>,
    /// On paper, the column of this key cuts it into sheets: one for each of its values, with the rows of all tables that
    /// have it. Other programs have the tables whole.
    pub sheets_by: Option<&'static str>,
}

/// Rows under typed columns; every row has one cell for each column.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Table {
    key: &'static str,
    title: Plain,
    reading: Plain,
    columns: Vec<Column>,
    rows: Vec<Vec<Cell>>,
    /// By the number of the row that it stands beside.
    figures: BTreeMap<usize, Figure>,
    upright: bool,
}

/// A column of a table.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Column {
    /// Its stable name, one of a kind in its table.
    pub key: String,
    /// Its heading.
    pub heading: Plain,
    /// What stands in it.
    pub kind: Kind,
    /// Where it stands on paper.
    pub on_paper: OnPaper,
}

/// Where a column stands in print. Other programs have every column in every row.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum OnPaper {
    /// In every row.
    #[default]
    Row,
    /// Above the rows that have it in common, once.
    Above,
    /// Nowhere: what it says is said by others.
    Nowhere,
}

/// What stands in a column.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kind {
    /// Words.
    Text,
    /// Several items.
    List,
    /// A date.
    Date,
    /// A whole number.
    Number,
    /// Length of script.
    Pages,
    /// Length on screen.
    Minutes,
    /// A share of a whole.
    Share,
    /// Money, in the board's currency.
    Money,
    /// Length of cloth.
    Metres,
}

impl Kind {
    /// In a word, for JSON.
    pub fn word(self) -> &'static str {
        match self {
            Self::Text => "text",
            Self::List => "list",
            Self::Date => "date",
            Self::Number => "number",
            Self::Pages => "eighths",
            Self::Minutes => "minutes",
            Self::Share => "share",
            Self::Money => "money",
            Self::Metres => "metres",
        }
    }

    /// Whether it is reckoned with.
    pub fn is_number(self) -> bool {
        matches!(self, Self::Number | Self::Pages | Self::Minutes | Self::Share | Self::Money | Self::Metres)
    }
}

/// A cell of a table.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Cell {
    /// Nothing.
    Empty,
    /// Words.
    Text(Plain),
    /// Several items.
    List(Vec<Plain>),
    /// A date: in a few words on paper, EDTF for other programs.
    Date(Date),
    /// A whole number.
    Number(u32),
    /// Length of script.
    Pages(Eighths),
    /// Length on screen, at a page a minute.
    Minutes(Eighths),
    /// A share of a whole.
    Share(Share),
    /// Money, in the board's currency.
    Money(Money),
    /// Length of cloth.
    Metres(Length),
}

impl Cell {
    /// Words, cleaned; no words are an empty cell.
    pub fn text(text: &str) -> Self {
        let plain = Plain::new(text);
        if plain.is_empty() { Self::Empty } else { Self::Text(plain) }
    }

    /// Words, cleaned, if there are any.
    pub fn maybe(text: Option<impl ToString>) -> Self {
        text.map_or(Self::Empty, |text| Self::text(&text.to_string()))
    }

    /// Items, each cleaned and on one line; no items are an empty cell.
    pub fn list<S: AsRef<str>>(items: impl IntoIterator<Item = S>) -> Self {
        let items: Vec<Plain> = items.into_iter().map(|item| Plain::line(item.as_ref())).collect();
        if items.is_empty() { Self::Empty } else { Self::List(items) }
    }

    /// A date, if there is one.
    pub fn date(date: Option<&Date>) -> Self {
        date.map_or(Self::Empty, |date| Self::Date(date.clone()))
    }

    /// Money, if there is any.
    pub fn money(money: Option<Money>) -> Self {
        money.map_or(Self::Empty, Self::Money)
    }

    /// The value of a cell that is reckoned with; of a share, in per cent. Money is exact in its text alone.
    pub fn value(&self) -> Option<f64> {
        match self {
            Self::Number(number) => Some(f64::from(*number)),
            Self::Pages(length) => Some(f64::from(length.get())),
            Self::Minutes(length) => Some(length.minutes()),
            Self::Share(share) => Some(share.percent()),
            Self::Money(money) => money.to_string().parse().ok(),
            Self::Metres(length) => Some(length.millimetres() / 1_000.0),
            Self::Empty | Self::Text(_) | Self::List(_) | Self::Date(_) => None,
        }
    }
}

impl Column {
    /// A column.
    pub fn new(key: impl Into<String>, heading: &str, kind: Kind) -> Self {
        Self { key: key.into(), heading: Plain::line(heading), kind, on_paper: OnPaper::Row }
    }

    /// The same, on paper above the rows that have it in common.
    #[must_use]
    pub fn above(self) -> Self {
        Self { on_paper: OnPaper::Above, ..self }
    }

    /// The same, on paper nowhere.
    #[must_use]
    pub fn not_on_paper(self) -> Self {
        Self { on_paper: OnPaper::Nowhere, ..self }
    }
}

impl Table {
    /// A table without rows.
    pub fn new(columns: Vec<Column>) -> Self {
        Self { columns, ..Self::default() }
    }

    /// A table without rows, one of several in its document.
    pub fn titled(key: &'static str, title: &str, columns: Vec<Column>) -> Self {
        Self { key, title: Plain::line(title), columns, ..Self::default() }
    }

    /// With a line that says how it is to be read.
    #[must_use]
    pub fn read_so(mut self, reading: &str) -> Self {
        self.reading = Plain::line(reading);
        self
    }

    /// The same, on a sheet of its own kind with each column as a line: for tables that have one row on each sheet.
    #[must_use]
    pub fn upright(mut self) -> Self {
        self.upright = true;
        self
    }

    /// Whether each column is a line on paper.
    pub fn is_upright(&self) -> bool {
        self.upright
    }

    /// The rows that have this value in the column of this key, without that column; `None` where there are none.
    fn part(&self, key: &str, value: &Cell) -> Option<Self> {
        let at = self.columns.iter().position(|column| column.key == key)?;
        let without = |cells: &[Cell]| [&cells[..at], &cells[at + 1..]].concat();
        let mut columns = self.columns.clone();
        columns.remove(at);
        let mut part = Self { columns, rows: Vec::new(), figures: BTreeMap::new(), ..self.clone() };
        for (number, row) in self.rows.iter().enumerate().filter(|(_, row)| row[at] == *value) {
            part.push(without(row));
            part.show_beside(self.figure(number).cloned());
        }
        (!part.rows.is_empty()).then_some(part)
    }

    /// Puts a figure beside the last row. Only formats that can show one have it.
    pub fn show_beside(&mut self, figure: Option<Figure>) {
        if let (Some(figure), Some(last)) = (figure, self.rows.len().checked_sub(1)) {
            self.figures.insert(last, figure);
        }
    }

    /// The figure beside a row.
    pub fn figure(&self, row: usize) -> Option<&Figure> {
        self.figures.get(&row)
    }

    /// Whether any row has a figure beside it.
    pub fn has_figures(&self) -> bool {
        !self.figures.is_empty()
    }

    /// Its stable name, one of a kind in its document; empty where it is the only one.
    pub fn key(&self) -> &'static str {
        self.key
    }

    /// Its heading; empty where it is the only one.
    pub fn title(&self) -> &Plain {
        &self.title
    }

    /// How it is to be read; empty where that is plain.
    pub fn reading(&self) -> &Plain {
        &self.reading
    }

    /// Adds a row; what it has too few becomes empty, what it has too many is a mistake of the report.
    pub fn push(&mut self, mut row: Vec<Cell>) {
        debug_assert_eq!(row.len(), self.columns.len(), "a cell for each column");
        row.resize(self.columns.len(), Cell::Empty);
        self.rows.push(row);
    }

    /// Its columns.
    pub fn columns(&self) -> &[Column] {
        &self.columns
    }

    /// Its rows, a cell for each column.
    pub fn rows(&self) -> &[Vec<Cell>] {
        &self.rows
    }

    /// The places of the columns that stand so on paper.
    pub fn places(&self, on_paper: OnPaper) -> Vec<usize> {
        (0..self.columns.len()).filter(|at| self.columns[*at].on_paper == on_paper).collect()
    }

    /// The rows in runs that have in common what stands above them on paper; every row is in one. Without such a column
    /// they are one run.
    pub fn runs(&self) -> impl Iterator<Item = &[Vec<Cell>]> {
        let above = self.places(OnPaper::Above);
        self.rows.chunk_by(move |one, next| above.iter().all(|at| one[*at] == next[*at]))
    }
}

impl Document {
    /// Its sheets, where a column cuts it into some: what each is of, and its part of every table that has one. They are
    /// in the order in which the first table names them.
    pub fn sheets<'a>(&'a self) -> Vec<(&'a Plain, Vec<Table>)> {
        let Some((key, first)) = self.sheets_by.zip(self.tables.first()) else { return Vec::new() };
        let Some(at) = first.columns.iter().position(|column| column.key == key) else { return Vec::new() };
        let mut values: Vec<&Cell> = Vec::new();
        for row in &first.rows {
            if !values.contains(&&row[at]) {
                values.push(&row[at]);
            }
        }
        let parts = |value: &Cell| self.tables.iter().filter_map(|table| table.part(key, value)).collect();
        let name = |value: &'a Cell| match value {
            Cell::Text(name) => Some(name),
            _ => None,
        };
        values.into_iter().filter_map(|value| Some((name(value)?, parts(value)))).collect()
    }
}

/// A hostile document for the formats' tests: what people should not write, in every place that takes text.
#[cfg(test)]
pub(crate) fn hostile() -> Document {
    let mut table = Table::new(vec![
        Column::new("scene", "Scene", Kind::Text),
        Column::new("look", "=Look", Kind::Text),
        Column::new("dressing", "Dressing", Kind::List),
        Column::new("change", "Change", Kind::Number),
        Column::new("eighths", "Pages", Kind::Pages),
        Column::new("minutes", "Minutes", Kind::Minutes),
    ]);
    let texts = [
        "=1+1",
        "+1",
        "-1",
        "@SUM(A1)",
        "  =1",
        "\u{a0}=1",
        "＝1",
        "＋1",
        "－1",
        "＠x",
        "\t=1",
        "\r=1",
        "\u{feff}=1",
        "plain",
        "a,b",
        "say \"so\"",
        "two\nlines",
        " spaced ",
        "a|b",
        "*b* _i_ `c` <i>&amp;",
        "\u{1b}[31mred",
        "'quoted",
        "—",
        "",
        "crêpe ≈ 絹",
    ];
    for (number, text) in (0..).zip(texts) {
        table.push(vec![
            Cell::text(&format!("{number}A")),
            Cell::text(text),
            Cell::list([text, "collar up"]),
            Cell::Number(number),
            Cell::Pages(Eighths::new(number)),
            Cell::Minutes(Eighths::new(number)),
        ]);
    }
    Document {
        key: "scenes",
        title: Plain::line("# Look per scene"),
        subtitle: Plain::line("Slack | Water"),
        notes: vec![Plain::line("1. a note"), Plain::line("- another")],
        gaps: vec![Plain::line("2 files could not be read")],
        cautions: vec![Plain::line("=ask the stunt coordinator")],
        tables: vec![table],
        sheets_by: None,
    }
}

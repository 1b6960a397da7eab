//! The measures of a piece as a table: how each is carried over from the original, and what is cut in the end.

use super::lines::{BEFORE, Line, Lines, Span, Tone, cell, folded};
use super::seen::Seen;
use crate::board::{Board, Body, Cloth, Look, Make, Rule};
use crate::screen::canvas::width;
use crate::trade::length::{Length, Size, Unit};
use crate::workroom::copies::plan::Garment;
use crate::workroom::fit::plausible::{doubt, doubts_between};
use crate::workroom::fit::{self, Origin, Row, ease, version_of};
use crate::workroom::words;

/// A column of the table.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Column {
    #[default]
    Measure,
    Rule,
    Garment,
    Body,
    Wearer,
    Gives,
    Adds,
    Fitted,
    Cut,
}

impl Column {
    /// All columns, from the left.
    pub const ALL: [Self; 9] = [
        Self::Measure,
        Self::Rule,
        Self::Garment,
        Self::Body,
        Self::Wearer,
        Self::Gives,
        Self::Adds,
        Self::Fitted,
        Self::Cut,
    ];

    fn name(self) -> &'static str {
        match self {
            Self::Measure => "measure",
            Self::Rule => "rule",
            Self::Garment => "garment",
            Self::Body => "body",
            Self::Wearer => "wearer",
            Self::Gives => "gives",
            Self::Adds => "adds",
            Self::Fitted => "fitted",
            Self::Cut => "cut",
        }
    }

    /// Its place.
    pub fn place(self) -> usize {
        Self::ALL.iter().position(|one| *one == self).unwrap_or(0)
    }

    /// The one so many to the right; `None` beyond the ends.
    pub fn step(self, by: isize) -> Option<Self> {
        self.place().checked_add_signed(by).and_then(|at| Self::ALL.get(at)).copied()
    }

    fn to_right(self) -> bool {
        !matches!(self, Self::Measure | Self::Rule)
    }
}

/// What is not known.
const UNKNOWN: &str = "?";
/// What does not count here.
const NONE: &str = "–";

/// The page, with the cursor on a row and a column; where it `is_tall`, with the
/// version's rigs, and the columns of the original named as such.
pub fn page(seen: &Seen<'_>, at: usize, column: Column, wide: u16, is_tall: bool) -> Lines {
    let Some(garment) = &seen.garment else { return super::empty::no_pieces(wide) };
    let mut lines = Lines::default();
    lines.head.push(garment_line(seen, garment));
    if is_tall {
        lines.head.extend(version_lines(seen, garment, wide));
    }
    let rows = rows(seen, garment);
    if rows.is_empty() {
        lines.body = super::empty::no_measures(seen, &garment.piece, wide);
        return lines;
    }
    let at = at.min(rows.len() - 1);
    let columns = Widths::of(&rows, seen.unit, column, wide);
    if is_tall {
        lines.head.push(columns.over().unwrap_or_default());
    }
    lines.head.push(columns.heads());
    for (place, row) in rows.iter().enumerate() {
        let marks = Marks::of(seen.board, seen.look, garment, row);
        lines.body.push(columns.line(row, marks, seen.unit, (place == at).then_some(column)).at(place));
    }
    lines.foot.push(Line::default());
    for (place, text) in about(seen, garment, &rows[at]).iter().enumerate() {
        let tone = if place == 0 { Tone::Plain } else { Tone::Wrong };
        lines.foot.extend(folded(text, wide, 0, &tone));
    }
    lines
}

/// The rows of the garment in focus.
pub fn rows<'a>(seen: &Seen<'a>, garment: &Garment) -> Vec<Row<'a>> {
    fit::rows(seen.board, seen.look, &garment.piece, Some(&garment.version), &garment.wearer)
}

/// Which piece, in which version, on whom.
pub fn garment_line(seen: &Seen<'_>, garment: &Garment) -> Line {
    let who = seen.board.who_is(&garment.wearer).to_owned();
    Line::of(vec![
        Span::new(&garment.piece, Tone::Strong),
        Span::new(" · ", Tone::Quiet),
        Span::new(garment.version.as_str(), Tone::Plain),
        Span::new(" · ", Tone::Quiet),
        Span::new(who, Tone::Plain),
        Span::new(format!("   in {}", unit_words(seen.unit)), Tone::Quiet),
    ])
}

fn unit_words(unit: Unit) -> &'static str {
    match unit {
        Unit::Centimetres => "centimetres",
        Unit::Inches => "inches",
    }
}

fn unit_word(unit: Unit) -> &'static str {
    match unit {
        Unit::Centimetres => "cm",
        Unit::Inches => "in",
    }
}

/// What is hidden in the version, and what an eye could see of it.
fn version_lines(seen: &Seen<'_>, garment: &Garment, wide: u16) -> Vec<Line> {
    let make = seen.look.make.get(&garment.piece);
    let version = make.and_then(|make| version_of(make, &garment.version));
    let Some(version) = version else { return Vec::new() };
    let told = [("rigs", &version.rigs), ("differs", &version.differs)];
    let told = told.into_iter().filter(|(_, all)| !all.is_empty());
    told.flat_map(|(word, all)| folded(&format!("{word}: {}", all.join("; ")), wide, 0, &Tone::Quiet))
        .collect()
}

/// A length without its unit, which stands above the table.
fn bare(length: Length, unit: Unit) -> String {
    let shown = length.shown(unit);
    shown.strip_suffix(unit_word(unit)).map_or(shown.clone(), |bare| bare.trim_end().to_owned())
}

fn text(row: &Row<'_>, column: Column, unit: Unit) -> String {
    let size = |size: Option<Size>| size.map_or(UNKNOWN.to_owned(), |size| bare(size.length(), unit));
    let by_body = row.measure.rule.of().is_some();
    match column {
        Column::Measure => row.measure.name.clone(),
        Column::Rule => row.measure.rule.word().to_owned(),
        // An edge whose fraction was seen on a picture needs neither.
        Column::Garment if row.garment.is_none() && is_seen(row) => NONE.to_owned(),
        Column::Garment => size(row.garment),
        Column::Body if !by_body || (row.original.is_none() && is_seen(row)) => NONE.to_owned(),
        Column::Body => match row.original {
            Some(Origin::Told(told)) => bare(told.length(), unit),
            Some(Origin::Inferred(inferred)) => format!("{}~", bare(inferred.length(), unit)),
            None => UNKNOWN.to_owned(),
        },
        Column::Wearer if !by_body => NONE.to_owned(),
        Column::Wearer => size(row.wearer),
        Column::Gives => row.carried.map_or(UNKNOWN.to_owned(), |carried| bare(carried.length(), unit)),
        Column::Adds if row.added.is_empty() => String::new(),
        Column::Adds => {
            let added: Length = row.added.iter().map(|(_, length)| *length).sum();
            format!("+{}", bare(added, unit))
        }
        Column::Fitted => row.decided.map_or(String::new(), |(_, size)| bare(size.length(), unit)),
        Column::Cut => row.result().map_or(UNKNOWN.to_owned(), |length| bare(length, unit)),
    }
}

fn is_seen(row: &Row<'_>) -> bool {
    matches!(row.measure.rule, Rule::Landmark { fraction: Some(_), .. })
}

/// Which cells of a row are marked with `!`.
#[derive(Clone, Copy, Default)]
struct Marks {
    original: bool,
    wearer: bool,
    cut: bool,
}

impl Marks {
    fn of(board: &Board, look: &Look, garment: &Garment, row: &Row<'_>) -> Self {
        let doubted = |size: Option<Size>| {
            row.measure.rule.of().zip(size).is_some_and(|(of, size)| doubt(of, size.length()).is_some())
        };
        let told = match row.original {
            Some(Origin::Told(size)) => Some(size),
            _ => None,
        };
        Self {
            original: doubted(told),
            wearer: doubted(row.wearer),
            cut: too_tight(board, look, garment, row).is_some(),
        }
    }

    fn on(self, column: Column) -> bool {
        match column {
            Column::Body => self.original,
            Column::Wearer => self.wearer,
            Column::Cut => self.cut,
            _ => false,
        }
    }
}

/// The ease that a woven lacks: without what a version adds, which is for its pad or its bend.
fn too_tight(board: &Board, look: &Look, garment: &Garment, row: &Row<'_>) -> Option<ease::Lack> {
    let of = row.measure.rule.of().filter(|of| of.is_girth())?;
    let make = look.make.get(&garment.piece)?;
    if cloths(board, make).any(Cloth::gives) {
        return None;
    }
    let added: Length = row.added.iter().map(|(_, length)| *length).sum();
    ease::lack(of, row.wearer?.length(), row.result()? - added)
}

fn cloths<'a>(board: &'a Board, make: &'a Make) -> impl Iterator<Item = &'a Cloth> {
    make.cuts.iter().filter_map(|cut| board.cloth(&cut.cloth))
}

/// What the row in focus is made of, and what there is to doubt about it.
pub fn about(seen: &Seen<'_>, garment: &Garment, row: &Row<'_>) -> Vec<String> {
    let unit = seen.unit;
    let mut all = vec![format!("{}: {}", row.measure.name, words::row(row, unit))];
    if let (Err(lack), Some(_)) = (row.carried, row.decided) {
        all.push(words::lack(lack));
    }
    if let Some(lack) = too_tight(seen.board, seen.look, garment, row) {
        all.push(format!(
            "{} of ease: a woven wants {} at least, so {} lack, unless it is cut of something that gives ({})",
            lack.ease.shown(unit),
            lack.least.shown(unit),
            lack.lacking.shown(unit),
            lack.source
        ));
    }
    let Some(of) = row.measure.rule.of() else { return all };
    let wearer = seen.board.body(&garment.wearer).map(|(_, body)| body);
    for body in [wearer, fit::original_of(seen.board, seen.look)].into_iter().flatten() {
        let doubted = body.measures.get(&of).and_then(|size| doubt(of, size.length()));
        all.extend(doubted.map(|doubt| format!("{}: {}", body.who, doubt.words(unit))));
        all.extend(clashes(body, unit, of).map(|clash| format!("{}: {clash}", body.who)));
    }
    all
}

fn clashes(body: &Body, unit: Unit, of: crate::trade::body::BodyMeasure) -> impl Iterator<Item = String> {
    let measures: Vec<_> = body.measures.iter().map(|(of, size)| (*of, size.length())).collect();
    let all = doubts_between(&measures).into_iter();
    all.filter(move |clash| [clash.rule.smaller, clash.rule.larger].contains(&of))
        .map(move |clash| clash.words(unit))
}

/// The columns that are shown, and how wide each is.
struct Widths {
    shown: Vec<(Column, usize)>,
    /// Cells between two.
    gap: usize,
}

/// The widest that the name of a measure is.
const WIDEST: usize = 22;

impl Widths {
    /// As many columns as there is room for; the name and what is cut stay, and the column in focus is among the others.
    fn of(rows: &[Row<'_>], unit: Unit, focus: Column, wide: u16) -> Self {
        let need = |column: Column| {
            let texts = rows.iter().map(|row| width(&text(row, column, unit)));
            // A mark may stand behind a number.
            let mark = usize::from(matches!(column, Column::Body | Column::Wearer | Column::Cut));
            texts.max().unwrap_or(0).saturating_add(mark).max(width(column.name()))
        };
        let wide = usize::from(wide.saturating_sub(BEFORE + 1));
        let name = need(Column::Measure).min(WIDEST).min(wide / 3);
        let cut = need(Column::Cut);
        let others: Vec<(Column, usize)> =
            Column::ALL[1..Column::ALL.len() - 1].iter().map(|column| (*column, need(*column))).collect();
        // In focus on what is cut, the columns next to it are seen.
        let at = others.iter().position(|(column, _)| *column == focus).unwrap_or(others.len() - 1);
        let at = if focus == Column::Measure { 0 } else { at };
        let used = |gap: usize, from: usize, to: usize| -> usize {
            others[from..to].iter().map(|(_, wide)| wide + gap).sum()
        };
        let free = |gap: usize| wide.saturating_sub(name + cut + gap);
        let gap = if used(2, 0, others.len()) <= free(2) { 2 } else { 1 };
        let room = free(gap);
        let mut from = 0;
        while from < at && used(gap, from, at + 1) > room {
            from += 1;
        }
        let fits = |to: &usize| used(gap, from, *to) <= room;
        let to = (from + 1..=others.len()).rev().find(fits).unwrap_or(from + 1);
        let mut shown = vec![(Column::Measure, name)];
        shown.extend(&others[from..to]);
        shown.push((Column::Cut, cut));
        Self { shown, gap }
    }

    fn heads(&self) -> Line {
        let names = self.shown.iter().enumerate().map(|(at, (column, wide))| {
            let gap = " ".repeat(if at == 0 { 0 } else { self.gap });
            Span::new(format!("{gap}{}", cell(column.name(), *wide, column.to_right())), Tone::Quiet)
        });
        Line::of(names.collect())
    }

    /// Above the two columns of the original stands whose they are.
    fn over(&self) -> Option<Line> {
        let start = self.shown.iter().position(|(column, _)| *column == Column::Garment)?;
        let wide = self.shown.get(start + 1).filter(|(column, _)| *column == Column::Body)?.1
            + self.shown[start].1
            + self.gap;
        let before: usize = self.shown[..start].iter().map(|(_, wide)| wide + self.gap).sum();
        let word = "original";
        let line = "─".repeat(wide.saturating_sub(width(word) + 3));
        Some(Line::words(format!("{}╭ {word} {line}", " ".repeat(before)), Tone::Quiet))
    }

    fn line(&self, row: &Row<'_>, marks: Marks, unit: Unit, focus: Option<Column>) -> Line {
        let mut spans = Vec::new();
        for (at, (column, wide)) in self.shown.iter().enumerate() {
            if at > 0 {
                spans.push(Span::new(" ".repeat(self.gap), Tone::Plain));
            }
            let mut words = text(row, *column, unit);
            let tone = if words == UNKNOWN || marks.on(*column) {
                Tone::Wrong
            } else if *column == Column::Cut {
                Tone::Strong
            } else if words == NONE || *column == Column::Rule {
                Tone::Quiet
            } else {
                Tone::Plain
            };
            if marks.on(*column) {
                words.push('!');
            }
            spans.push(
                Span::new(cell(&words, *wide, column.to_right()), tone).focused(focus == Some(*column)),
            );
        }
        Line::of(spans)
    }
}

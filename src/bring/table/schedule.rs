//! Shooting days: one row each with a list of scenes, or one for each scene of each; found by their number.
//!
//! A row without a day belongs to the day above it. The scenes that a table gives a day are all of that day's; days
//! that the table does not name stay as they are.

use std::sync::Arc;

use super::columns::Heading;
use super::fields::{Field, Written, date_of, items_of, text_of};
use super::grid::Row;
use super::names::squeezed;
use super::notices::notices;
use super::wrong::Wrong;
use super::{Made, Table};
use crate::board::{Board, SceneNumber, ShootDay};
use crate::trade::cell::guarded;

const DAY: Heading =
    Heading { key: "day", name: "Day", synonyms: &["shooting day", "shoot day", "day no", "day number"] };
const DATE: Field<ShootDay> = Field {
    heading: Heading { key: "date", name: "Date", synonyms: &["shooting date", "shoot date"] },
    written: |_, day| Written::maybe(day.date.as_ref()),
    read: |_, cell, day| {
        day.date = Some(date_of(cell)?);
        Ok(())
    },
};
const SCENES: Field<ShootDay> = Field {
    heading: Heading {
        key: "scenes",
        name: "Scenes",
        synonyms: &["scene", "scene no", "scene numbers", "sc"],
    },
    written: |_, day| Written::items(&day.scenes),
    read: |board, cell, day| {
        day.scenes = scenes(board, cell)?;
        Ok(())
    },
};
const NOTES: Field<ShootDay> = Field {
    heading: Heading { key: "notes", name: "Notes", synonyms: &["note", "remarks", "comments"] },
    written: |_, day| Written::Text(day.notes.clone()),
    read: |_, cell, day| {
        day.notes = text_of(cell).to_owned();
        Ok(())
    },
};

pub(super) const FIELDS: [Field<ShootDay>; 3] = [DATE, SCENES, NOTES];

pub(super) fn headings() -> Vec<Heading> {
    vec![DAY, DATE.heading, SCENES.heading, NOTES.heading]
}

/// Scene numbers, parted by whatever people part them with, each once.
fn scenes(board: &Board, cell: &str) -> Result<Vec<SceneNumber>, String> {
    let mut scenes: Vec<SceneNumber> = Vec::new();
    let parts = |c: char| c.is_whitespace() || matches!(c, ',' | ';' | '+' | '&');
    for word in cell.split(parts).filter(|word| !word.is_empty()) {
        let number: SceneNumber = word.parse()?;
        if board.scene(&number).is_none() {
            return Err(format!("there is no scene {number} on this board"));
        }
        if !scenes.contains(&number) {
            scenes.push(number);
        }
    }
    Ok(scenes)
}

/// The number of a day: `3` or `Day 3`.
fn day(cell: &str) -> Result<u32, String> {
    let text = cell.to_lowercase();
    let digits = text.trim_start_matches(|c: char| !c.is_ascii_digit());
    let word = text.strip_suffix(digits).unwrap_or_default().trim();
    let number = digits.parse().ok().filter(|number| *number > 0);
    number
        .filter(|_| matches!(word, "" | "day" | "shooting day" | "d" | "#"))
        .ok_or_else(|| format!("`{cell}` is no shooting day: expected its number, such as 3"))
}

pub(super) fn read(table: &Table<'_>, made: &mut Made) {
    let number = |row: &Row| {
        let cell = text_of(table.cell(row, DAY.key));
        let number = (!cell.is_empty()).then(|| day(cell));
        number.transpose().map_err(|what| Wrong::at(row.number, DAY.name, what))
    };
    let mut days = Vec::clone(&table.board.records().schedule);
    for (number, rows) in table.grouped(number, &mut made.wrong) {
        let there: Vec<&ShootDay> =
            table.board.records().schedule.iter().filter(|day| day.day == number).collect();
        if are_said(table, &rows, &there) {
            made.counts.unchanged += there.len();
            continue;
        }
        if there.len() > 1 {
            let what = format!(
                "the board has {} days of the number {number}: mend `schedule.yaml` first",
                there.len()
            );
            made.wrong.push(Wrong::at(rows.first().map_or(0, |row| row.number), DAY.name, what));
            continue;
        }
        let before = there.first().copied();
        let empty = ShootDay { day: number, date: None, scenes: Vec::new(), notes: String::new() };
        let mut day = before.cloned().unwrap_or(empty);
        let found = made.wrong.len();
        change(table, &rows, &mut day, &mut made.wrong);
        if made.wrong.len() > found {
            continue;
        }
        made.count(before, &day);
        match days.iter_mut().find(|day| day.day == number) {
            Some(old) => *old = day,
            None => {
                let later = days.iter().position(|day| day.day > number);
                days.insert(later.unwrap_or(days.len()), day);
            }
        }
    }
    if days != *table.board.records().schedule {
        made.notices = notices(&table.board.records().schedule, &days);
        made.records.schedule = Arc::new(days);
    }
}

/// Whether the rows say, one by one, what the board says already.
fn are_said(table: &Table<'_>, rows: &[&Row], days: &[&ShootDay]) -> bool {
    let is_said = |(row, day): (&&Row, &&ShootDay)| {
        FIELDS.iter().all(|field| field.is_said(table.board, table.cell(row, field.heading.key), day))
    };
    rows.len() == days.len() && rows.iter().zip(days).all(is_said)
}

fn change(table: &Table<'_>, rows: &[&Row], day: &mut ShootDay, wrong: &mut Vec<Wrong>) {
    let date = table.agreed(rows, &DATE.heading).and_then(|(row, cell)| {
        DATE.put(table.board, cell, day).map_err(|what| Wrong::at(row, DATE.heading.name, what))
    });
    wrong.extend(date.err());
    let mut all = Vec::new();
    for row in rows {
        match scenes(table.board, &items_of(table.cell(row, SCENES.heading.key)).join(" ")) {
            Ok(numbers) => all.extend(numbers),
            Err(what) => wrong.push(Wrong::at(row.number, SCENES.heading.name, what)),
        }
    }
    let mut said: Vec<SceneNumber> = Vec::new();
    for number in all {
        if !said.contains(&number) {
            said.push(number);
        }
    }
    // One cell can say as much of it as it holds.
    let is_said = |row: &&Row| SCENES.is_said(table.board, table.cell(row, SCENES.heading.key), day);
    if !rows.iter().all(is_said) {
        day.scenes = said;
    }
    let mut notes: Vec<&str> = Vec::new();
    for note in rows.iter().map(|row| text_of(table.cell(row, NOTES.heading.key))) {
        if !note.is_empty() && !notes.iter().any(|have| squeezed(have) == squeezed(note)) {
            notes.push(note);
        }
    }
    let put = match rows {
        [row] => NOTES.put(table.board, table.cell(row, NOTES.heading.key), day),
        // Each cell has its own guard, and what they say together has one again.
        _ => NOTES.put(table.board, &guarded(&notes.join("\n")), day),
    };
    if let (Err(what), Some(row)) = (put, rows.first()) {
        wrong.push(Wrong::at(row.number, NOTES.heading.name, what));
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_day_is_a_number_with_or_without_the_word() {
        assert_eq!([day("3"), day("Day 12"), day("#4")], [Ok(3), Ok(12), Ok(4)]);
        for text in ["", "0", "day", "night 3", "3b", "99999999999"] {
            assert!(day(text).is_err(), "{text}");
        }
    }
}

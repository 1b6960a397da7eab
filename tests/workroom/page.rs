//! A page of Markdown as what its tables say: under which look and which heading, row by row, cell by cell.

/// A page, read.
pub struct Page {
    tables: Vec<Table>,
}

/// One table.
struct Table {
    look: String,
    heading: String,
    columns: Vec<String>,
    rows: Vec<Vec<String>>,
}

impl Page {
    /// Reads a page: a look is a heading of the second level, and a part of it one of the third.
    pub fn read(text: &str) -> Self {
        let (mut look, mut heading, mut is_within) = (String::new(), String::new(), false);
        let mut tables: Vec<Table> = Vec::new();
        for line in text.lines() {
            if let Some(title) = line.strip_prefix("## ") {
                title.clone_into(&mut look);
            } else if let Some(title) = line.strip_prefix("### ") {
                title.clone_into(&mut heading);
            }
            let Some(cells) = cells(line) else {
                is_within = false;
                continue;
            };
            match tables.last_mut().filter(|_| is_within) {
                Some(table) if cells.iter().all(|cell| cell.chars().all(|c| c == '-')) => {
                    assert_eq!(cells.len(), table.columns.len(), "{line}");
                }
                Some(table) => {
                    assert_eq!(cells.len(), table.columns.len(), "{line}");
                    table.rows.push(cells);
                }
                None => tables.push(Table {
                    look: look.clone(),
                    heading: heading.clone(),
                    columns: cells,
                    rows: Vec::new(),
                }),
            }
            is_within = true;
        }
        Self { tables }
    }

    /// The looks that it has tables of.
    pub fn looks(&self) -> Vec<&str> {
        let mut looks: Vec<&str> = self.tables.iter().map(|table| table.look.as_str()).collect();
        looks.dedup();
        looks
    }

    /// Some columns of every row of the tables under a heading that have all of them.
    pub fn rows<const N: usize>(&self, look: &str, heading: &str, columns: [&str; N]) -> Vec<[String; N]> {
        let mut all = Vec::new();
        for table in self.tables.iter().filter(|table| table.look == look && table.heading == heading) {
            let at = columns.map(|column| table.columns.iter().position(|one| one == column));
            if at.iter().all(Option::is_some) {
                all.extend(table.rows.iter().map(|row| at.map(|at| row[at.unwrap()].clone())));
            }
        }
        assert!(!all.is_empty(), "no table of {columns:?} under {look}, {heading}");
        all
    }
}

/// The cells of a row; `None` where the line is none.
fn cells(line: &str) -> Option<Vec<String>> {
    let inside = line.trim().strip_prefix('|')?.strip_suffix('|')?;
    Some(inside.split('|').map(|cell| cell.trim().to_owned()).collect())
}

//! What is usual in the trade: the tables that come with the program.

use std::sync::{Arc, OnceLock};

use super::yaml;
use crate::board::{Board, Practice, Records};

const TABLES: &str = include_str!("usual.yaml");

/// A board of these records, in a house where the usual is usual.
pub(super) fn board_of(records: Records) -> Board {
    Board::new(records).following(tables())
}

/// The tables. They are read once; that they can be read is held by a test.
fn tables() -> Arc<Practice> {
    static READ: OnceLock<Arc<Practice>> = OnceLock::new();
    Arc::clone(READ.get_or_init(|| Arc::new(yaml::read(TABLES).unwrap_or_default())))
}

#[cfg(test)]
mod tests {
    use std::collections::HashSet;

    use super::*;

    #[test]
    fn the_tables_read_and_name_nothing_that_is_not_in_them() {
        let tables: Practice = yaml::read(TABLES).unwrap();
        let actions: HashSet<&str> = tables.actions.iter().map(|one| one.action.as_str()).collect();
        assert_eq!((actions.len(), actions.len() > 20), (tables.actions.len(), true));
        for caution in &tables.cautions {
            for action in &caution.actions {
                assert!(actions.contains(action.as_str()), "{}: {action}", caution.caution);
            }
        }
        assert_eq!(tables.spares.principal, Some(2));
    }

    #[test]
    fn the_tables_say_that_they_have_no_source() {
        assert!(
            TABLES.lines().next().unwrap().starts_with('#') && TABLES.contains("common practice, no source")
        );
    }
}

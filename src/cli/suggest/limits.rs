//! `shirr suggest --limits`: how many looks each period would have by its share of the screen, beside its limit.

use serde_json::{Value, json};

use crate::board::{Board, Scope};
use crate::check::words::counted;
use crate::cli::failure::Failure;
use crate::cli::summary::{Side, columns};
use crate::gather::{PeriodShare, limits};
use crate::report::Plain;

/// A number of looks, shared out among the periods.
pub(super) struct Shared<'a> {
    board: &'a Board,
    looks: u32,
    shares: Vec<PeriodShare>,
}

impl<'a> Shared<'a> {
    /// Shares out `looks`; where none are asked for, as many as the budget allows, else as many as there are.
    pub fn of(board: &'a Board, looks: Option<usize>) -> Result<Self, Failure> {
        let overall = board.count(&Scope::Overall);
        let looks = match looks {
            Some(looks) => u32::try_from(looks)
                .map_err(|_| Failure::new(format!("{looks} looks are more than can be shared out")))?,
            None => overall.limit.unwrap_or(overall.used),
        };
        if looks == 0 {
            return Err(Failure::new("there are no looks to share out")
                .hint("ask for a number with `--looks`, or set `budget: {looks: …}` in board.yaml"));
        }
        let shares = limits(board, looks);
        if shares.is_empty() {
            return Err(Failure::new("no scene plays in any period, so there is no screen time to share by")
                .hint("give scenes `pages` and a `date`, or a `period`, and the board its `periods`"));
        }
        Ok(Self { board, looks, shares })
    }

    pub fn in_words(&self) -> String {
        let mut rows =
            vec![["period", "on screen", "looks", "limit", "proposed"].map(str::to_owned).to_vec()];
        for share in &self.shares {
            let count = self.board.count(&Scope::Period(share.period.clone()));
            rows.push(vec![
                Plain::line(self.board.title_of(&share.period)).to_string(),
                share.length.clock(),
                count.used.to_string(),
                count.limit.map_or("none".to_owned(), |limit| limit.to_string()),
                share.looks.to_string(),
            ]);
        }
        let looks = counted(self.looks as usize, "look");
        format!(
            "{looks} shared out among the periods by screen time (Webster's method): a proposal, and only of minutes.\n\n{}\n\
             Limits stand in board.yaml, under `budget`.\n",
            columns(&rows, &[Side::Left, Side::Right, Side::Right, Side::Right, Side::Right])
        )
    }

    pub fn in_json(&self) -> Value {
        let period = |share: &PeriodShare| {
            let count = self.board.count(&Scope::Period(share.period.clone()));
            json!({
                "period": share.period,
                "minutes": share.length.minutes(),
                "looks": count.used,
                "limit": count.limit,
                "proposed": share.looks,
            })
        };
        json!({
            "board": super::json::board(self.board),
            "looks": self.looks,
            "periods": self.shares.iter().map(period).collect::<Vec<_>>(),
        })
    }
}

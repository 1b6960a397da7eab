//! How a number of looks is shared out by screen time: the Webster / Sainte-Laguë method.

use crate::board::{Board, PeriodId};
use crate::trade::eighths::Eighths;

/// What a period might be limited to, by its share of the screen.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PeriodShare {
    /// The period.
    pub period: PeriodId,
    /// How long it plays.
    pub length: Eighths,
    /// How many looks that entitles it to.
    pub looks: u32,
}

/// Shares out `looks` among the board's periods by how long each plays, as a proposal for their limits. A period that
/// plays for no time gets none. Empty where no scene plays in any period.
pub fn limits(board: &Board, looks: u32) -> Vec<PeriodShare> {
    let length = |period: &PeriodId| {
        let scenes = board.scenes().enumerate();
        let here = scenes.filter(|(at, _)| board.relations().period_of_scene(*at) == Some(period));
        here.map(|(_, scene)| scene.pages).sum::<Eighths>()
    };
    let periods: Vec<&PeriodId> = board.head().periods.iter().map(|period| &period.id).collect();
    let lengths: Vec<Eighths> = periods.iter().map(|period| length(period)).collect();
    let votes: Vec<u64> = lengths.iter().map(|length| u64::from(length.get())).collect();
    let Some(shares) = apportion(looks, &votes) else { return Vec::new() };
    let share = |((period, length), looks): ((&PeriodId, Eighths), u32)| PeriodShare {
        period: period.clone(),
        length,
        looks,
    };
    periods.into_iter().zip(lengths).zip(shares).map(share).collect()
}

/// Shares out `seats` in proportion to `votes` by the Webster / Sainte-Laguë method: one seat after another goes to
/// whoever has the highest v / (2 s + 1), where s is what it has already; of equals, to the first. `None` where there
/// are seats and no votes.
pub fn apportion(seats: u32, votes: &[u64]) -> Option<Vec<u32>> {
    // Rounded to the nearest by one divisor d, the shares sum up to the seats; so Σ v/d is at least the seats less half
    // of n, and every share at least v (seats - n/2) / Σ v - 1/2. That much is given out at once.
    let all: u128 = votes.iter().map(|&votes| u128::from(votes)).sum();
    let sure = u128::from(seats).saturating_sub(votes.len() as u128);
    let given =
        |&votes: &u64| (u128::from(votes) * sure).checked_div(all).map_or(0, |share| share.saturating_sub(1));
    let mut shares: Vec<u32> = votes.iter().map(|votes| u32::try_from(given(votes)).unwrap_or(0)).collect();
    for _ in shares.iter().sum::<u32>()..seats {
        let mut next: Option<usize> = None;
        for at in (0..votes.len()).filter(|&at| votes[at] > 0) {
            // a / b > c / d without dividing, so that equals are equal.
            let beats = |than: usize| {
                u128::from(votes[at]) * (2 * u128::from(shares[than]) + 1)
                    > u128::from(votes[than]) * (2 * u128::from(shares[at]) + 1)
            };
            if next.is_none_or(beats) {
                next = Some(at);
            }
        }
        shares[next?] += 1;
    }
    Some(shares)
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    #[test]
    fn a_period_is_entitled_to_its_share_of_the_screen() {
        let board = crate::board::sample::board();
        let shares = limits(&board, 10);
        let said: Vec<String> =
            shares.iter().map(|share| format!("{} {} {}", share.period, share.length, share.looks)).collect();
        insta::assert_snapshot!(said.join("\n"));
        assert_eq!(shares.iter().map(|share| share.looks).sum::<u32>(), 10);
    }

    #[test]
    fn nothing_is_shared_out_by_no_time_at_all() {
        assert_eq!(apportion(3, &[0, 0]), None);
        assert_eq!(apportion(0, &[0, 0]), Some(vec![0, 0]));
        assert_eq!(apportion(3, &[0, 5]), Some(vec![0, 3]));
        assert_eq!(apportion(2, &[]), None);
        assert_eq!(apportion(u32::MAX, &[1, 1]), Some(vec![u32::MAX / 2 + 1, u32::MAX / 2]));
    }

    proptest! {
        /// The mark of the method: some divisor d makes every share the votes over d, rounded to the nearest.
        #[test]
        fn every_share_is_a_rounding_by_one_divisor(
            votes in proptest::collection::vec(0_u64..10_000, 1..8), seats in 1_u32..2_000,
        ) {
            prop_assume!(votes.iter().any(|votes| *votes > 0));
            let shares = apportion(seats, &votes).unwrap();
            prop_assert_eq!(shares.iter().sum::<u32>(), seats);
            let pairs = || votes.iter().zip(&shares).map(|(&votes, &share)| (votes as f64, f64::from(share)));
            let most = pairs().filter(|(_, share)| *share > 0.0).map(|(v, s)| v / (s - 0.5)).fold(f64::MAX, f64::min);
            let least = pairs().map(|(v, s)| v / (s + 0.5)).fold(0.0, f64::max);
            prop_assert!(least <= most * (1.0 + 1e-12), "{least} {most}");
        }
    }
}

use proptest::prelude::*;

use super::*;

fn uses(told: &[(i64, u32, Back)]) -> Vec<Use> {
    told.iter().map(|&(day, takes, back)| Use { day, takes, back }).collect()
}

#[test]
fn nothing_is_needed_for_no_use() {
    assert_eq!(need(&[]), Need { copies: 0, fullest: None, out: Vec::new() });
}

#[test]
fn what_comes_back_in_time_is_used_again() {
    // Clean at once, clean the next day, and not before the day after next.
    for (back, copies) in [(0, 1), (1, 1), (2, 2)] {
        let one = need(&uses(&[(1, 1, Back::After(back)), (2, 1, Back::After(back))]));
        assert_eq!(one.copies, copies, "{back}");
    }
    // Twice on one day, and soiled.
    assert_eq!(need(&uses(&[(1, 1, Back::After(1)), (1, 1, Back::After(1))])).copies, 2);
}

#[test]
fn a_fresh_one_for_each_take_and_the_next_scene_before_they_are_dry() {
    let wet = uses(&[(1, 4, Back::After(2)), (2, 3, Back::After(2)), (3, 5, Back::After(2))]);
    // On the third day the four of the first are dry.
    assert_eq!(need(&wet), Need { copies: 8, fullest: Some(2), out: vec![4, 7, 8] });
}

#[test]
fn what_is_burnt_is_needed_again_for_every_use_after() {
    let burnt = uses(&[(1, 2, Back::Never), (9, 2, Back::Never), (20, 1, Back::After(0))]);
    assert_eq!(need(&burnt), Need { copies: 5, fullest: Some(2), out: vec![2, 4, 5] });
}

#[test]
fn each_copy_has_its_days() {
    use Whereabouts::{Away, Gone, Used};
    let all = uses(&[(1, 1, Back::After(3)), (2, 1, Back::Never), (4, 1, Back::After(0))]);
    assert_eq!(need(&all).copies, 2);
    let out = hand_out(&all, 2);
    assert_eq!(out, [vec![0], vec![1], vec![0]]);
    let days = |copy: u32| whereabouts(&all, &out, copy, &[1, 2, 3, 4, 5]);
    assert_eq!(days(0), [Some(Used), Some(Away), Some(Away), Some(Used), None]);
    assert_eq!(days(1), [None, Some(Used), Some(Gone), Some(Gone), Some(Gone)]);
    // With one too few the second use finds none.
    assert_eq!(hand_out(&all, 1), [vec![0], vec![], vec![0]]);
}

/// Whether so many copies do, by trying every way to hand them out.
fn do_by_search(uses: &[Use], ready: &mut Vec<Option<i64>>) -> bool {
    let Some((one, rest)) = uses.split_first() else { return true };
    let copies = ready.len();
    for chosen in 0..1_u32 << copies {
        let picked: Vec<usize> = (0..copies).filter(|at| chosen >> at & 1 == 1).collect();
        let fits = picked.len() == one.takes as usize
            && picked.iter().all(|at| ready[*at].is_some_and(|from| from <= one.day));
        if !fits {
            continue;
        }
        let before = ready.clone();
        for at in picked {
            ready[at] = match one.back {
                Back::After(days) => Some(one.day + i64::from(days)),
                Back::Never => None,
            };
        }
        if do_by_search(rest, ready) {
            return true;
        }
        *ready = before;
    }
    false
}

fn schedule(least: usize) -> impl Strategy<Value = Vec<Use>> {
    let back = prop_oneof![3 => (0_u32..4).prop_map(Back::After), 1 => Just(Back::Never)];
    proptest::collection::vec((0_i64..6, 1_u32..3, back), least..6).prop_map(|mut told| {
        told.sort_by_key(|one| one.0);
        uses(&told)
    })
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(1_500))]

    #[test]
    fn as_many_as_are_needed_do_and_one_fewer_do_not(uses in schedule(0)) {
        let copies = need(&uses).copies as usize;
        // A search through ten copies and six uses takes too long to repeat.
        prop_assume!(copies <= 7);
        prop_assert!(do_by_search(&uses, &mut vec![Some(i64::MIN); copies]));
        if copies > 0 {
            prop_assert!(!do_by_search(&uses, &mut vec![Some(i64::MIN); copies - 1]));
        }
    }

    #[test]
    fn handed_out_each_use_has_what_it_takes(uses in schedule(0)) {
        for (one, takes) in uses.iter().zip(hand_out(&uses, need(&uses).copies)) {
            prop_assert_eq!(takes.len(), one.takes as usize);
        }
    }

    #[test]
    fn a_longer_turnaround_or_one_more_take_never_needs_fewer(uses in schedule(1), at in any::<prop::sample::Index>(), by in 1_u32..4) {
        let at = at.index(uses.len());
        let before = need(&uses).copies;
        let mut longer = uses.clone();
        longer[at].back = match longer[at].back {
            Back::After(days) if by < 3 => Back::After(days + by),
            Back::After(_) | Back::Never => Back::Never,
        };
        prop_assert!(need(&longer).copies >= before);
        let mut more = uses.clone();
        more[at].takes += 1;
        prop_assert!(need(&more).copies >= before);
        let mut again = uses.clone();
        again.insert(at, uses[at]);
        prop_assert!(need(&again).copies >= before);
    }
}

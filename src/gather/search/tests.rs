//! The search against every choice there is, on small problems.

use std::sync::Arc;
use std::sync::atomic::AtomicBool;

use proptest::prelude::*;

use super::{curve, solve};
use crate::gather::{Group, Limits, Problem, Unsolved, Wish};

/// The least cost of any set of bases, with the outfits served in any way that the wishes allow; `None` where they
/// allow none. With kinds, any outfit may be in no look.
fn best_of_all(problem: &Problem, wishes: &[Wish]) -> Option<f64> {
    let n = problem.outfits();
    let mut best: Option<f64> = None;
    let fewest = u32::from(problem.kinds.is_none());
    // In no look everything would hold at once; what contradicts itself is refused all the same.
    if problem.kinds.is_some() && contradict(problem, wishes) {
        return None;
    }
    for set in fewest..1 << n {
        let chosen: Vec<usize> = (0..n).filter(|at| set >> at & 1 == 1).collect();
        if chosen.len() > problem.looks() || !allows(wishes, &chosen) {
            continue;
        }
        let mut by = Vec::new();
        serve(problem, wishes, &chosen, &mut by, 0.0, &mut best);
    }
    best
}

/// Whether some are to be together that are to be apart, or of different kinds.
fn contradict(problem: &Problem, wishes: &[Wish]) -> bool {
    let mut of: Vec<usize> = (0..problem.outfits()).collect();
    for _ in 0..problem.outfits() {
        for wish in wishes {
            if let Wish::Together(one, other) = wish {
                let least = of[*one].min(of[*other]);
                (of[*one], of[*other]) = (least, least);
            }
        }
    }
    wishes.iter().any(|wish| match wish {
        Wish::Apart(one, other) => of[*one] == of[*other],
        Wish::Together(one, other) => problem.kind(*one) != problem.kind(*other),
        _ => false,
    })
}

fn allows(wishes: &[Wish], chosen: &[usize]) -> bool {
    let among = |group: &Group| group.members.iter().filter(|member| chosen.contains(member)).count();
    wishes.iter().all(|wish| match wish {
        Wish::Base(one) => chosen.contains(one),
        Wish::NotBase(one) => !chosen.contains(one),
        Wish::AtMost(group, most) => among(group) <= *most,
        Wish::AtLeast(group, least) => among(group) >= *least,
        Wish::Apart(..) | Wish::Together(..) => true,
    })
}

fn serve(
    problem: &Problem,
    wishes: &[Wish],
    chosen: &[usize],
    by: &mut Vec<Option<usize>>,
    cost: f64,
    best: &mut Option<f64>,
) {
    let of = by.len();
    if of == problem.outfits() {
        if best.is_none_or(|best| cost < best) {
            *best = Some(cost);
        }
        return;
    }
    let paired = wishes.iter().any(|wish| match wish {
        // Those of two kinds are apart in any case.
        Wish::Apart(one, other) | Wish::Together(one, other) => {
            (of == *one || of == *other) && problem.kind(*one) == problem.kind(*other)
        }
        _ => false,
    });
    let none = problem.kinds.is_some().then_some(None);
    let own = chosen.iter().filter(|base| problem.kind(**base) == problem.kind(of));
    for base in own.copied().map(Some).chain(none) {
        if paired && chosen.contains(&of) && base != Some(of) {
            continue;
        }
        by.push(base);
        let holds = wishes.iter().all(|wish| match wish {
            Wish::Apart(one, other) => {
                *one.max(other) >= by.len() || by[*one].is_none() || by[*one] != by[*other]
            }
            Wish::Together(one, other) => *one.max(other) >= by.len() || by[*one] == by[*other],
            _ => true,
        });
        if holds {
            let here = base.map_or_else(|| problem.alone(of), |base| problem.cost(of, base));
            serve(problem, wishes, chosen, by, cost + here, best);
        }
        by.pop();
    }
}

fn wish(n: usize) -> impl Strategy<Value = Wish> {
    let group =
        move || proptest::collection::vec(0..n, 1..=n).prop_map(|members| Group::new("some", members));
    let pair = move || (0..n, 0..n).prop_filter("two outfits", |(one, other)| one != other);
    prop_oneof![
        (0..n).prop_map(Wish::Base),
        (0..n).prop_map(Wish::NotBase),
        pair().prop_map(|(one, other)| Wish::Apart(one, other)),
        pair().prop_map(|(one, other)| Wish::Together(one, other)),
        (group(), 0..3_usize).prop_map(|(group, most)| Wish::AtMost(group, most)),
        (group(), 0..3_usize).prop_map(|(group, least)| Wish::AtLeast(group, least)),
    ]
}

fn question() -> impl Strategy<Value = (Problem, Vec<Wish>)> {
    (2..6_usize).prop_flat_map(|n| {
        let weights = proptest::collection::vec(0..6_u8, n);
        let cost = proptest::collection::vec(0..20_u8, n * n);
        (weights, cost, 1..=n, proptest::collection::vec(wish(n), 0..4)).prop_map(
            move |(weights, cost, looks, wishes)| {
                let weights = weights.into_iter().map(f64::from).collect();
                let cost = cost.into_iter().map(|cost| f32::from(cost) / 7.0).collect();
                let problem = Problem::from_matrix(weights, cost, looks).unwrap();
                (problem.wishing(wishes.clone()).unwrap(), wishes)
            },
        )
    })
}

/// The same with kinds, as a board has them: no cost within a kind is above that of no look.
fn question_of_kinds() -> impl Strategy<Value = (Problem, Vec<Wish>)> {
    (2..6_usize).prop_flat_map(|n| {
        let weights = proptest::collection::vec(0..6_u8, n);
        let cost = proptest::collection::vec(0..8_u8, n * n);
        let kinds = proptest::collection::vec(0..2_u32, n);
        (weights, cost, kinds, 0..=n, proptest::collection::vec(wish(n), 0..4)).prop_map(
            move |(weights, cost, kinds, looks, wishes)| {
                let weights = weights.into_iter().map(f64::from).collect();
                let cost = cost.into_iter().map(|cost| f32::from(cost) / 7.0).collect();
                let problem = Problem::from_matrix(weights, cost, looks).unwrap().of_kinds(kinds).unwrap();
                (problem.wishing(wishes.clone()).unwrap(), wishes)
            },
        )
    })
}

proptest! {
    #[test]
    fn with_kinds_too_no_choice_is_better_than_the_one_that_is_proved_best((problem, wishes) in question_of_kinds()) {
        let best = best_of_all(&problem, &wishes);
        match (solve(&problem, &Limits::default()), best) {
            (Ok(choice), Some(best)) => {
                prop_assert!(choice.proven);
                prop_assert!((choice.cost - best).abs() < 1e-6, "{} and not {best}: {choice:?}", choice.cost);
                prop_assert!(allows(&wishes, &choice.bases));
            }
            (Err(Unsolved::Clash { wishes: named, .. }), None) => {
                prop_assert!(best_of_all(&problem, &named).is_none(), "what is named clashes");
            }
            (found, best) => prop_assert!(false, "{found:?} and {best:?}"),
        }
    }

    #[test]
    fn no_choice_is_better_than_the_one_that_is_proved_best((problem, wishes) in question()) {
        let best = best_of_all(&problem, &wishes);
        match (solve(&problem, &Limits::default()), best) {
            (Ok(choice), Some(best)) => {
                prop_assert!(choice.proven);
                prop_assert!((choice.cost - best).abs() < 1e-9, "{} and not {best}", choice.cost);
                prop_assert!(allows(&wishes, &choice.bases));
            }
            (Err(Unsolved::Clash { wishes: named, every, .. }), None) => {
                prop_assert!(every);
                prop_assert!(best_of_all(&problem, &named).is_none(), "what is named clashes");
                for out in 0..named.len() {
                    let mut fewer = named.clone();
                    fewer.remove(out);
                    prop_assert!(best_of_all(&problem, &fewer).is_some(), "and nothing is named that does not");
                }
            }
            (found, best) => prop_assert!(false, "{found:?} and {best:?}"),
        }
    }

    #[test]
    fn the_curve_is_the_choice_for_every_number((problem, _) in question()) {
        let most = problem.looks();
        let Ok(curve) = curve(&problem, most, &Limits::default()) else {
            prop_assert!(solve(&problem, &Limits::default()).is_err());
            return Ok(());
        };
        prop_assert_eq!(curve.len(), most);
        for (looks, point) in (1..).zip(curve) {
            let alone = solve(&problem.clone().with_looks(looks), &Limits::default());
            prop_assert_eq!(point.as_ref().is_some(), alone.is_ok());
            if let (Some(point), Ok(alone)) = (point, alone) {
                prop_assert!(point.proven);
                prop_assert!((point.cost - alone.cost).abs() < 1e-9);
            }
        }
    }
}

/// Points on a line, at the squares of the whole numbers.
fn line(n: usize, looks: usize) -> Problem {
    let at = |place: usize| (place * place) as f32;
    let cost = (0..n * n).map(|cell| (at(cell / n) - at(cell % n)).abs()).collect();
    Problem::from_matrix(vec![1.0; n], cost, looks).unwrap()
}

#[test]
fn the_same_limits_give_the_same_choice() {
    for steps in [1, 30, 1000] {
        let limits =
            Limits { steps: Some(steps), threads: std::num::NonZeroUsize::new(2), ..Limits::default() };
        assert_eq!(solve(&line(60, 7), &limits), solve(&line(60, 7), &limits));
    }
}

#[test]
fn a_search_that_is_ended_says_what_it_has_and_what_it_knows() {
    let proved = solve(&line(60, 7), &Limits::default()).unwrap();
    assert!(proved.proven && proved.gap() == 0.0);
    let short = solve(&line(60, 7), &Limits { steps: Some(3), ..Limits::default() }).unwrap();
    assert_eq!(short.bases.len(), 7);
    assert!(short.bound <= proved.cost && proved.cost <= short.cost);
    let cancel = Some(Arc::new(AtomicBool::new(true)));
    assert_eq!(solve(&line(60, 7), &Limits { cancel, ..Limits::default() }), Err(Unsolved::Ended));
}

#[test]
fn a_search_is_over_when_it_is_sure_enough() {
    let sure = |gap| solve(&line(60, 7), &Limits { gap, ..Limits::default() }).unwrap();
    assert!(sure(0.5).gap() <= 0.5);
    assert!(sure(0.5).steps <= sure(0.0).steps);
}

#[test]
fn kinds_share_out_the_looks_and_one_may_get_none() {
    // Two of the first kind that are alike, and two of the second that are not.
    let cost = vec![0.0, 0.1, 9.0, 9.0, 0.1, 0.0, 9.0, 9.0, 9.0, 9.0, 0.0, 0.8, 9.0, 9.0, 0.8, 0.0];
    let problem = |looks| {
        let plain = Problem::from_matrix(vec![1.0, 1.0, 3.0, 2.0], cost.clone(), looks).unwrap();
        plain.of_kinds(vec![7, 7, 4, 4]).unwrap()
    };
    let of = |looks| {
        let choice = solve(&problem(looks), &Limits::default()).unwrap();
        assert!(choice.proven);
        (choice.bases, choice.base_of)
    };
    assert_eq!(of(0), (vec![], vec![None; 4]));
    assert_eq!(of(1), (vec![2], vec![None, None, Some(2), Some(2)]));
    assert_eq!(of(2), (vec![0, 2], vec![Some(0), Some(0), Some(2), Some(2)]));
    assert_eq!(of(3), (vec![0, 2, 3], vec![Some(0), Some(0), Some(2), Some(3)]));
    assert_eq!(of(9).0, [0, 1, 2, 3]);
}

#[test]
fn a_group_may_lie_across_kinds() {
    let cost =
        vec![0.5; 16].into_iter().enumerate().map(|(at, d)| if at % 5 == 0 { 0.0 } else { d }).collect();
    let plain = Problem::from_matrix(vec![1.0, 2.0, 4.0, 8.0], cost, 3).unwrap();
    let problem = plain.of_kinds(vec![0, 0, 1, 1]).unwrap();
    let group = Group::new("the war", [1, 3]);
    let choice = solve(&problem.wishing([Wish::AtMost(group, 1)]).unwrap(), &Limits::default()).unwrap();
    assert_eq!((choice.bases, choice.proven), (vec![0, 2, 3], true));
}

#[test]
fn nothing_to_choose_from_is_no_trouble() {
    let empty = Problem::from_matrix(Vec::new(), Vec::new(), 3).unwrap();
    let choice = solve(&empty, &Limits::default()).unwrap();
    assert_eq!((choice.bases.len(), choice.cost, choice.proven), (0, 0.0, true));
    assert_eq!(solve(&line(3, 0), &Limits::default()), Err(Unsolved::NoLooks));
}

#[test]
fn more_that_are_apart_than_there_are_looks_clash_at_once() {
    let apart = (0..12).flat_map(|one| (one + 1..12).map(move |other| Wish::Apart(one, other)));
    let problem = line(14, 11).wishing(apart.chain([Wish::Base(0)])).unwrap();
    let limits = Limits { steps: Some(1_000), ..Limits::default() };
    let Err(Unsolved::Clash { wishes, looks: 11, every: true }) = solve(&problem, &limits) else {
        panic!("they clash")
    };
    assert!(wishes.len() >= 66, "all that are apart have a part in it: {}", wishes.len());
    let enough = problem.with_looks(12);
    assert_eq!(solve(&enough, &Limits::default()).unwrap().bases.len(), 12);
}

#[test]
fn no_number_of_looks_is_too_large() {
    let all = vec![0, 1, 2, 3];
    assert_eq!(solve(&line(4, usize::MAX), &Limits::default()).unwrap().bases, all);
    let points = curve(&line(4, 1), usize::MAX, &Limits::default()).unwrap();
    assert_eq!((points.len(), points[3].as_ref().map(|point| &point.bases)), (4, Some(&all)));
}

#[test]
fn a_choice_is_only_given_when_it_can_be_served() {
    // So many knots that serving them all may not be found in the steps that are spent on it.
    let n = 24;
    let knots = (0..n).flat_map(|one| [1, 2, 5, 7].map(move |by| Wish::Apart(one, (one + by) % n)));
    // Each has eight that it is to be apart from, so with nine looks one is always left for it.
    for (looks, can) in [(2, false), (3, false), (4, false), (9, true)] {
        let problem = line(n, looks).wishing(knots.clone()).unwrap();
        let found = solve(&problem, &Limits { steps: Some(400), ..Limits::default() });
        assert!(found.is_ok() || !can, "{looks}: {found:?}");
        match found {
            Ok(choice) => {
                let shares = |one: usize, other: usize| choice.base_of[one] == choice.base_of[other];
                assert!(
                    !knots.clone().any(|wish| matches!(wish, Wish::Apart(one, other) if shares(one, other)))
                );
                assert!(choice.base_of.iter().all(|base| choice.bases.contains(&base.unwrap())));
            }
            Err(Unsolved::Clash { .. }) => assert!(looks == 2, "three that are all apart are seen at once"),
            Err(none) => assert_eq!((none, looks), (Unsolved::Undecided, 3)),
        }
    }
}

/// Outfits in `periods` and `threads` of which each period and each thread must have some bases.
fn counted(periods: usize, threads: usize, of_period: usize, of_thread: usize, looks: usize) -> Problem {
    let n = 130;
    let group =
        |name: String, is_in: &dyn Fn(usize) -> bool| Group::new(name, (0..n).filter(|&at| is_in(at)));
    let of_periods = (0..periods).map(|period| {
        Wish::AtLeast(group(format!("period {period}"), &|at| at % periods == period), of_period)
    });
    let of_threads = (0..threads).map(|thread| {
        let is_in = move |at: usize| (at * 7 + at / 11) % (threads + 3) == thread || (at / 3) % 17 == thread;
        Wish::AtLeast(group(format!("thread {thread}"), &is_in), of_thread)
    });
    line(n, looks).wishing(of_periods.chain(of_threads)).unwrap()
}

#[test]
fn thousands_of_bases_that_must_be_are_found_without_a_deep_stack() {
    let n = 1_200;
    let cost = vec![0.5; n * n];
    let problem = Problem::from_matrix(vec![1.0; n], cost, n).unwrap();
    let all = || Group::new("all", 0..n);
    let odd = Group::new("odd", (0..n).filter(|at| at % 2 == 1));
    let wishes = [Wish::AtLeast(all(), n - 100), Wish::AtLeast(odd, n / 2 - 10)];
    let problem = problem.wishing(wishes).unwrap();
    // A stack of a quarter of what a thread has.
    let small = std::thread::Builder::new().stack_size(512 * 1024);
    let limits = Limits { steps: Some(1), ..Limits::default() };
    let found = small.spawn(move || solve(&problem, &limits)).unwrap().join().unwrap();
    assert!(found.unwrap().bases.len() >= n - 100);
}

#[test]
fn many_counts_over_groups_that_overlap_are_kept_or_refused() {
    let limits = Limits { steps: Some(200), ..Limits::default() };
    for (looks, threads) in [(18, 5), (18, 8), (21, 9)] {
        let problem = counted(6, threads, 3, 2, looks);
        let choice = solve(&problem, &limits).unwrap();
        assert!(allows(problem.wishes(), &choice.bases) && choice.bases.len() == looks);
    }
    let Err(Unsolved::Clash { wishes, every, .. }) = solve(&counted(6, 5, 3, 2, 17), &limits) else {
        panic!("six times three are more than 17");
    };
    assert_eq!((wishes.len(), every), (6, true));
}

#[test]
fn a_proof_is_a_proof_whatever_the_unit() {
    for unit in [1e-12, 1e-150, 1e120] {
        let of = |unit: f64| {
            let at = |place: usize| ((place * 7919) % 101) as f32 / 101.0;
            let cost = (0..40 * 40).map(|cell| (at(cell / 40) - at(cell % 40)).abs()).collect();
            let problem =
                Problem::from_matrix((0..40).map(|at| unit * (1 + at % 5) as f64).collect(), cost, 6);
            solve(&problem.unwrap(), &Limits::default()).unwrap()
        };
        let (small, plain) = (of(unit), of(1.0));
        assert!(small.proven && plain.proven);
        assert!(
            (small.cost / unit - plain.cost).abs() < 1e-9 * plain.cost,
            "{unit}: {} {}",
            small.cost,
            plain.cost
        );
    }
}

#[test]
fn what_contradicts_itself_is_named_alone() {
    let cost = (0..36).map(|cell| if cell % 7 == 0 { 0.0 } else { 0.5 }).collect();
    let problem =
        Problem::from_matrix(vec![1.0; 6], cost, 4).unwrap().of_kinds(vec![0, 0, 0, 1, 1, 1]).unwrap();
    let (apart, together) = (Wish::Apart(0, 1), Wish::Together(0, 1));
    let wishes = [Wish::Base(2), apart.clone(), Wish::NotBase(4), together.clone()];
    let clash = |wishes: Vec<Wish>| match solve(&problem.clone().wishing(wishes).unwrap(), &Limits::default())
    {
        Err(Unsolved::Clash { wishes, every, .. }) => (wishes, every),
        other => panic!("{other:?}"),
    };
    assert_eq!(clash(wishes.to_vec()), (vec![apart, together], true));
    let across = Wish::Together(0, 3);
    assert_eq!(clash(vec![Wish::Base(1), across.clone()]), (vec![across], true));
}

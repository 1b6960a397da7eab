//! The choice of bases against exact optima from a general-purpose solver.
//!
//! The p-median problem with its wishes is written down as a mixed-integer linear program from what `Problem` says of
//! it, and solved by `microlp` through `good_lp` (pure Rust, from crates not made here; the versions are in the lock
//! file). The small ones are solved a second time by trying everything. A failure tells the seed and the instance.

mod exact;
mod instance;

use std::num::NonZeroUsize;
use std::sync::Arc;
use std::sync::atomic::AtomicBool;

use shirr::gather::{Choice, Limits, Unsolved, Wish, solve};

use exact::{Assignment, by_program, by_trying_all};
use instance::{Dice, Instance};

/// How far two sums of the same may differ; the general-purpose solver works to about as much.
fn about(value: f64) -> f64 {
    1e-7 * (1.0 + value.abs())
}

/// The exact answer: of the program, and where `try_all` says so, of trying everything as well.
fn optimum(instance: &Instance, try_all: bool) -> Option<f64> {
    let found = by_program(instance).map(|choice| choice.cost(instance));
    if try_all {
        let tried = by_trying_all(instance).map(|choice| choice.cost(instance));
        let same = match (found, tried) {
            (Some(found), Some(tried)) => (found - tried).abs() <= about(tried),
            (found, tried) => found.is_none() && tried.is_none(),
        };
        assert!(same, "the program finds {found:?}, trying all {tried:?}: {instance}");
    }
    found
}

/// What holds of any answer, however early the search was ended.
fn check_answer(choice: &Choice, optimum: f64, instance: &Instance) {
    let answer = Assignment { bases: choice.bases.clone(), base_of: choice.base_of.clone() };
    if let Some(broken) = answer.broken(instance) {
        panic!("the answer breaks {broken}: {choice:?}: {instance}");
    }
    let cost = answer.cost(instance);
    assert!(
        (choice.cost - cost).abs() <= 1e-9 * (1.0 + cost),
        "costs {cost}, not as in {choice:?}: {instance}"
    );
    assert!(cost >= optimum - about(optimum), "the best costs {optimum}, not as in {choice:?}: {instance}");
    assert!(
        choice.bound <= optimum + about(optimum),
        "the best costs {optimum}, below the bound of {choice:?}: {instance}"
    );
    assert!(
        choice.root_bound <= choice.bound + about(optimum),
        "branching loses ground: {choice:?}: {instance}"
    );
    if choice.proven {
        assert!(
            cost <= optimum + about(optimum),
            "the best costs {optimum}, and proved is {choice:?}: {instance}"
        );
        assert_eq!(choice.gap(), 0.0, "{instance}");
    }
    for (outfit, base) in choice.base_of.iter().enumerate() {
        let Some(base) = base.filter(|_| !instance.is_paired(outfit)) else { continue };
        let near = choice.bases.iter().filter(|other| instance.of_a_kind(outfit, **other));
        let least = near.map(|other| instance.cost(outfit, *other)).fold(f64::INFINITY, f64::min);
        assert_eq!(
            instance.cost(outfit, base),
            least,
            "outfit {outfit} has a cheaper base: {choice:?}: {instance}"
        );
    }
    // A search that was ended early may have some left over.
    let limits_none = instance.wishes.iter().all(|wish| matches!(wish, Wish::Base(_) | Wish::AtLeast(..)));
    if choice.proven && limits_none {
        let most = instance.looks.min(instance.outfits());
        assert_eq!(choice.bases.len(), most, "looks are left over: {choice:?}: {instance}");
    }
}

/// The wishes named cannot be had; any one of them left out, the others can.
fn check_clash(wishes: &[Wish], looks: usize, instance: &Instance) {
    assert_eq!(looks, instance.looks, "{instance}");
    let mut rest = instance.wishes.iter();
    assert!(
        wishes.iter().all(|wish| rest.any(|own| own == wish)),
        "not its wishes in order: {wishes:?}: {instance}"
    );
    assert!(
        by_program(&instance.with(wishes.to_vec())).is_none(),
        "these do not clash: {wishes:?}: {instance}"
    );
    for at in 0..wishes.len() {
        let mut others = wishes.to_vec();
        let left_out = others.remove(at);
        let can = by_program(&instance.with(others)).is_some();
        assert!(can, "{left_out:?} need not be named in {wishes:?}: {instance}");
    }
}

/// Solves to the end, and compares. Whether there was an answer.
fn check(instance: &Instance, try_all: bool) -> bool {
    let optimum = optimum(instance, try_all);
    let threads = NonZeroUsize::new(1 + (instance.seed % 2) as usize);
    let limits = Limits { threads, ..Limits::default() };
    match (solve(&instance.problem(), &limits), optimum) {
        (Ok(choice), Some(optimum)) => {
            assert!(choice.proven, "nothing ended the search of {choice:?}: {instance}");
            check_answer(&choice, optimum, instance);
            check_early(instance, optimum);
            true
        }
        (Err(Unsolved::Clash { wishes, looks, every }), None) => {
            assert!(every, "each wish has a part in it: {instance}");
            check_clash(&wishes, looks, instance);
            false
        }
        (answer, optimum) => panic!("the best costs {optimum:?}, the search says {answer:?}: {instance}"),
    }
}

/// A search that ends early promises less, and keeps that.
fn check_early(instance: &Instance, optimum: f64) {
    let mut dice = Dice::new(instance.seed);
    let problem = instance.problem();
    let within = Limits { gap: 0.05, ..Limits::default() };
    let choice = solve(&problem, &within).unwrap_or_else(|error| panic!("{error}: {instance}"));
    check_answer(&choice, optimum, instance);
    assert!(
        choice.cost <= 1.05 * optimum + about(optimum),
        "{optimum} is the best of {choice:?}: {instance}"
    );
    assert!(choice.gap() <= 0.05 + 1e-9, "not as near as was asked: {choice:?}: {instance}");
    let cancelled = Limits { cancel: Some(Arc::new(AtomicBool::new(true))), ..Limits::default() };
    for limits in [Limits { steps: Some(dice.below(60) as u64), ..Limits::default() }, cancelled] {
        match solve(&problem, &limits) {
            Ok(choice) => check_answer(&choice, optimum, instance),
            Err(Unsolved::Ended) => {}
            Err(error) => panic!("{error:?}, yet the best costs {optimum}: {instance}"),
        }
    }
}

#[test]
fn without_wishes_the_choice_costs_what_the_exact_solver_finds() {
    for seed in 0..120 {
        assert!(check(&Instance::plain(seed, 6, 14), false));
    }
}

#[test]
fn without_wishes_the_choice_costs_what_trying_all_finds() {
    for seed in 1000..1060 {
        assert!(check(&Instance::plain(seed, 1, 8), true));
    }
}

#[test]
fn with_wishes_that_can_be_had_the_choice_is_the_best_that_keeps_them() {
    for seed in 2000..2120 {
        assert!(check(&Instance::plain(seed, 6, 11).with_wishes_that_hold(), seed % 4 == 0));
    }
}

#[test]
fn kinds_never_mix_and_share_the_looks_as_is_best() {
    for seed in 3000..3060 {
        assert!(check(&Instance::in_kinds(seed, 6, 13), seed % 4 == 0));
    }
}

#[test]
fn kinds_with_wishes_that_can_be_had() {
    for seed in 4000..4080 {
        assert!(check(&Instance::in_kinds(seed, 6, 10).with_wishes_that_hold(), seed % 4 == 0));
    }
}

#[test]
fn of_wishes_at_random_those_that_clash_are_named_and_no_other() {
    let mut clashes = 0;
    for seed in 5000..5160 {
        let instance = match seed % 2 {
            0 => Instance::plain(seed, 5, 9),
            _ => Instance::in_kinds(seed, 5, 9),
        };
        clashes += u32::from(!check(&instance.with_wishes(), seed % 4 == 0));
    }
    assert!((40..120).contains(&clashes), "{clashes} of 160 clash: too few or too many to show anything");
}

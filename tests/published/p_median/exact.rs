//! The exact answer to a small problem, twice and each from the words of `Problem` alone: by a general-purpose solver
//! of mixed-integer linear programs, and, where that is few enough, by trying everything.

use good_lp::{
    Expression, ResolutionError, Solution, SolverModel, Variable, constraint, microlp, variable, variables,
};
use shirr::gather::{Problem, Wish};

use super::instance::Instance;

/// Bases, and the base of each outfit; `None` where its kind has no look, or where there are kinds and a wish binds it.
#[derive(Clone, Debug)]
pub struct Assignment {
    /// In ascending order.
    pub bases: Vec<usize>,
    pub base_of: Vec<Option<usize>>,
}

impl Assignment {
    /// What it costs, summed anew.
    pub fn cost(&self, instance: &Instance) -> f64 {
        let cost = |(of, base): (usize, &Option<usize>)| match base {
            Some(at) => instance.cost(of, *at),
            None => instance.weights[of] * Problem::ALONE,
        };
        self.base_of.iter().enumerate().map(cost).sum()
    }

    pub fn keeps(&self, instance: &Instance) -> bool {
        self.broken(instance).is_none()
    }

    /// The first rule or wish that it breaks, in words.
    pub fn broken(&self, instance: &Instance) -> Option<String> {
        let is_base = |outfit: usize| self.bases.binary_search(&outfit).is_ok();
        if self.bases.len() > instance.looks {
            return Some(format!("{} bases", self.bases.len()));
        }
        if self.base_of.len() != instance.outfits() || !self.bases.is_sorted_by(|one, next| one < next) {
            return Some("not a list of bases and the base of each outfit".into());
        }
        for (outfit, base) in self.base_of.iter().enumerate() {
            let sound = match base {
                Some(base) => is_base(*base) && instance.of_a_kind(outfit, *base),
                None => {
                    instance.kinds.is_some()
                        && (instance.is_paired(outfit)
                            || !self.bases.iter().any(|base| instance.of_a_kind(outfit, *base)))
                }
            };
            if !sound {
                return Some(format!("outfit {outfit} goes with {base:?}"));
            }
            if is_base(outfit) && instance.is_paired(outfit) && *base != Some(outfit) {
                return Some(format!("base {outfit} is not in its own look"));
            }
        }
        let among = |members: &[usize]| members.iter().filter(|outfit| is_base(**outfit)).count();
        let holds = |wish: &&Wish| match wish {
            Wish::Base(one) => is_base(*one),
            Wish::NotBase(one) => !is_base(*one),
            Wish::Apart(one, other) => {
                self.base_of[*one].is_none() || self.base_of[*one] != self.base_of[*other]
            }
            Wish::Together(one, other) => self.base_of[*one] == self.base_of[*other],
            Wish::AtMost(group, count) => among(&group.members) <= *count,
            Wish::AtLeast(group, count) => among(&group.members) >= *count,
        };
        instance.wishes.iter().find(|wish| !holds(wish)).map(|wish| format!("{wish:?}"))
    }
}

/// The variables of the program: binary throughout where that is not implied by the others.
struct Program {
    is_base: Vec<Variable>,
    /// `serves[i][j]`: outfit i goes with base j.
    serves: Vec<Vec<Variable>>,
    /// Outfit i goes with no base.
    alone: Vec<Variable>,
}

/// The cheapest choice by mixed-integer linear programming (crates `good_lp` and `microlp`), or none when no choice
/// keeps the rules and wishes.
pub fn by_program(instance: &Instance) -> Option<Assignment> {
    if instance.contradicts_itself() {
        return None;
    }
    let n = instance.outfits();
    let mut list = variables!();
    let program = Program {
        is_base: (0..n).map(|_| list.add(variable().binary())).collect(),
        serves: (0..n)
            .map(|i| {
                // With the bases settled an unpaired outfit goes whole with its cheapest base, even where it may be split.
                let any = if instance.is_paired(i) { variable().binary() } else { variable().min(0).max(1) };
                (0..n).map(|_| list.add(any.clone())).collect()
            })
            .collect(),
        alone: (0..n).map(|_| list.add(variable().binary())).collect(),
    };
    let objective: Expression = (0..n)
        .map(|i| {
            let served: Expression = (0..n).map(|j| instance.cost(i, j) * program.serves[i][j]).sum();
            served + instance.weights[i] * Problem::ALONE * program.alone[i]
        })
        .sum();
    let mut model = list.minimise(objective).using(microlp);
    for rule in rules(instance, &program) {
        model.add_constraint(rule);
    }
    let solution = match model.solve() {
        Ok(solution) => solution,
        Err(ResolutionError::Infeasible) => return None,
        Err(error) => panic!("the program has no answer: {error}: {instance}"),
    };
    let chosen = |variable: Variable| solution.value(variable) > 0.5;
    let bases: Vec<usize> = (0..n).filter(|j| chosen(program.is_base[*j])).collect();
    let base_of = (0..n)
        .map(|i| {
            let mut with = bases.iter().copied().filter(|j| instance.of_a_kind(i, *j));
            if instance.is_paired(i) {
                with.find(|j| chosen(program.serves[i][*j]))
            } else {
                with.min_by(|one, other| instance.cost(i, *one).total_cmp(&instance.cost(i, *other)))
            }
        })
        .collect();
    let found = Assignment { bases, base_of };
    assert_eq!(found.broken(instance), None, "the program's own answer: {instance}");
    Some(found)
}

fn rules(instance: &Instance, program: &Program) -> Vec<good_lp::Constraint> {
    let Program { is_base, serves, alone } = program;
    let n = instance.outfits();
    let mut rules = Vec::new();
    rules.push(constraint::leq(is_base.iter().sum::<Expression>(), instance.looks as f64));
    for i in 0..n {
        rules.push(constraint::eq(serves[i].iter().sum::<Expression>() + alone[i], 1));
        if instance.kinds.is_none() {
            rules.push(constraint::eq(alone[i], 0));
        }
        for j in 0..n {
            if instance.of_a_kind(i, j) {
                rules.push(constraint::leq(serves[i][j], is_base[j]));
                if !instance.is_paired(i) {
                    rules.push(constraint::leq(alone[i] + is_base[j], 1));
                }
            } else {
                rules.push(constraint::eq(serves[i][j], 0));
            }
        }
        if instance.is_paired(i) {
            rules.push(constraint::geq(serves[i][i], is_base[i]));
        }
    }
    for wish in &instance.wishes {
        let among = |members: &[usize]| members.iter().map(|j| is_base[*j]).sum::<Expression>();
        match wish {
            Wish::Base(one) => rules.push(constraint::eq(is_base[*one], 1)),
            Wish::NotBase(one) => rules.push(constraint::eq(is_base[*one], 0)),
            Wish::Apart(one, other) => {
                rules.extend((0..n).map(|j| constraint::leq(serves[*one][j] + serves[*other][j], 1)));
            }
            Wish::Together(one, other) => {
                rules.extend((0..n).map(|j| constraint::eq(serves[*one][j], serves[*other][j])));
            }
            Wish::AtMost(group, count) => rules.push(constraint::leq(among(&group.members), *count as f64)),
            Wish::AtLeast(group, count) => rules.push(constraint::geq(among(&group.members), *count as f64)),
        }
    }
    rules
}

/// The cheapest choice by trying all bases, and for the paired outfits all ways to go with them.
pub fn by_trying_all(instance: &Instance) -> Option<Assignment> {
    if instance.contradicts_itself() {
        return None;
    }
    let n = instance.outfits();
    let mut best: Option<(f64, Assignment)> = None;
    for set in 0u32..1 << n {
        if set.count_ones() as usize > instance.looks {
            continue;
        }
        let bases: Vec<usize> = (0..n).filter(|j| set >> j & 1 == 1).collect();
        let mut choice = Assignment { base_of: vec![None; n], bases };
        let mut paired = Vec::new();
        for i in 0..n {
            let with = choice.bases.iter().copied().filter(|j| instance.of_a_kind(i, *j));
            let cheapest =
                with.min_by(|one, other| instance.cost(i, *one).total_cmp(&instance.cost(i, *other)));
            choice.base_of[i] = cheapest;
            if cheapest.is_some() && instance.is_paired(i) {
                paired.push(i);
            }
        }
        try_all(instance, &mut choice, &paired, &mut best);
    }
    best.map(|(_, choice)| choice)
}

fn try_all(
    instance: &Instance,
    choice: &mut Assignment,
    paired: &[usize],
    best: &mut Option<(f64, Assignment)>,
) {
    let Some((i, rest)) = paired.split_first() else {
        let cost = choice.cost(instance);
        if best.as_ref().is_none_or(|(least, _)| cost < *least) && choice.keeps(instance) {
            *best = Some((cost, choice.clone()));
        }
        return;
    };
    for at in 0..choice.bases.len() {
        let base = choice.bases[at];
        if instance.of_a_kind(*i, base) {
            choice.base_of[*i] = Some(base);
            try_all(instance, choice, rest, best);
        }
    }
    if instance.kinds.is_some() {
        choice.base_of[*i] = None;
        try_all(instance, choice, rest, best);
    }
}

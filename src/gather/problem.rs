//! The question: outfits with weights, distances, a number of looks, and wishes. All plain numbers.

/// Choose at most `looks` of n outfits as bases so that Σ wᵢ d(i, base of i's look) is least and every wish holds.
///
/// Where no wish limits their number and the search is not ended early, as many bases are chosen as looks are allowed:
/// one more never costs anything.
/// Every outfit goes with some base. One that a wish keeps apart from or together with another is, when it is a base,
/// in its own look; any other goes with whichever base is cheapest.
///
/// Outfits of different *kinds* (see [`Problem::of_kinds`]) never share a look, so that to wish two of them apart asks
/// for nothing, and to wish them together cannot be had. A kind may get no look at all; its
/// outfits then go with no base, each at its weight times [`Problem::ALONE`].
#[derive(Clone, Debug, PartialEq)]
pub struct Problem {
    pub(super) weights: Vec<f64>,
    /// Row-major n×n: `cost[i * n + j]` is the distance of outfit i from base j.
    pub(super) cost: Vec<f32>,
    pub(super) looks: usize,
    /// The largest of the distances.
    farthest: f32,
    pub(super) wishes: Vec<Wish>,
    /// The kind of each outfit, where there are kinds.
    pub(super) kinds: Option<Vec<u32>>,
}

/// What a designer asks for whatever it costs. Outfits are named by their place in the problem, from 0.
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub enum Wish {
    /// This outfit is the base of a look.
    Base(usize),
    /// This outfit is not the base of a look.
    NotBase(usize),
    /// These two never share a look.
    Apart(usize, usize),
    /// These two always share a look; so at most one of them is a base.
    Together(usize, usize),
    /// At most so many of the bases are among these outfits.
    AtMost(Group, usize),
    /// At least so many of the bases are among these outfits.
    AtLeast(Group, usize),
}

/// Some outfits that a wish counts: those of a character, of a period, of a thread. Groups may overlap.
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub struct Group {
    /// What a reader calls it.
    pub name: String,
    /// The outfits in it, by their place in the problem; each once, in ascending order.
    pub members: Vec<usize>,
}

impl Group {
    /// A group of these outfits.
    pub fn new(name: impl Into<String>, members: impl IntoIterator<Item = usize>) -> Self {
        let mut members: Vec<usize> = members.into_iter().collect();
        members.sort_unstable();
        members.dedup();
        Self { name: name.into(), members }
    }
}

/// Why numbers are no problem.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum Unfit {
    /// The matrix is not square over the weights.
    #[error("{outfits} weights need {outfits}×{outfits} costs, row by row: there are {costs}")]
    Shape {
        /// How many weights there are.
        outfits: usize,
        /// How many costs there are.
        costs: usize,
    },
    /// A weight that is negative or no number.
    #[error("weight {at} is {value}: expected a finite number, 0 or more")]
    Weight {
        /// Which outfit.
        at: usize,
        /// Its weight.
        value: f64,
    },
    /// A cost that is negative or no number.
    #[error("the cost of outfit {of} at base {at} is {value}: expected a finite number, 0 or more")]
    Cost {
        /// Which outfit.
        of: usize,
        /// At which base.
        at: usize,
        /// Its cost.
        value: f32,
    },
    /// A wish, or a list of kinds, names an outfit that is not there.
    #[error("there is no outfit {at}: the problem has {outfits}, from 0")]
    NoSuchOutfit {
        /// The place that was named.
        at: usize,
        /// How many outfits there are.
        outfits: usize,
    },
    /// A cost within a kind that is more than that of no look.
    #[error("the cost of outfit {of} at base {at} is {value}: expected at most 1 between outfits of a kind")]
    TooFar {
        /// Which outfit.
        of: usize,
        /// At which base.
        at: usize,
        /// Its cost.
        value: f32,
    },
    /// Weights and costs so large that they have no sum.
    #[error("weights and costs add up to more than any number: give them in a larger unit")]
    TooMuch,
    /// The list of kinds is not as long as the list of outfits.
    #[error("{outfits} outfits need {outfits} kinds: there are {kinds}")]
    Kinds {
        /// How many outfits there are.
        outfits: usize,
        /// How many kinds were given.
        kinds: usize,
    },
}

impl Problem {
    /// The distance of an outfit of a kind that has no look: nothing of it is kept.
    pub const ALONE: f64 = 1.0;

    /// A problem over any distances. `cost` is row-major n×n: `cost[i * n + j]` is the distance of outfit i from base
    /// j, which need be neither symmetrical nor a metric. Without wishes this is the plain p-median problem.
    ///
    /// # Errors
    /// When the shapes differ, a number is negative, infinite or none, or the weights times the largest cost have no
    /// finite sum.
    pub fn from_matrix(weights: Vec<f64>, cost: Vec<f32>, looks: usize) -> Result<Self, Unfit> {
        let n = weights.len();
        if n.checked_mul(n) != Some(cost.len()) {
            return Err(Unfit::Shape { outfits: n, costs: cost.len() });
        }
        let sound = |value: f64| value.is_finite() && value >= 0.0;
        if let Some((at, &value)) = weights.iter().enumerate().find(|(_, weight)| !sound(**weight)) {
            return Err(Unfit::Weight { at, value });
        }
        if let Some((at, &value)) = cost.iter().enumerate().find(|(_, cost)| !sound(f64::from(**cost))) {
            return Err(Unfit::Cost { of: at / n, at: at % n, value });
        }
        let farthest = cost.iter().copied().fold(0.0, f32::max);
        let problem = Self { kinds: None, weights, cost, looks, farthest, wishes: Vec::new() };
        if problem.scale().is_finite() { Ok(problem) } else { Err(Unfit::TooMuch) }
    }

    /// The same problem in which outfits of different kinds never share a look. The costs between kinds are not read;
    /// those within a kind are at most [`Problem::ALONE`], so that a look never costs more than none.
    ///
    /// # Errors
    /// When there is not one kind for each outfit, or a cost within a kind is too large.
    pub fn of_kinds(mut self, kinds: Vec<u32>) -> Result<Self, Unfit> {
        if kinds.len() != self.outfits() {
            return Err(Unfit::Kinds { outfits: self.outfits(), kinds: kinds.len() });
        }
        let n = self.outfits();
        for of in 0..n {
            for at in 0..n {
                let value = self.cost[of * n + at];
                if kinds[of] == kinds[at] && f64::from(value) > Self::ALONE {
                    return Err(Unfit::TooFar { of, at, value });
                }
            }
        }
        self.kinds = Some(kinds);
        Ok(self)
    }

    /// The same problem with these wishes besides those that it has.
    ///
    /// # Errors
    /// When a wish names an outfit that is not there. Wishes that clash are for the search to name.
    pub fn wishing(mut self, wishes: impl IntoIterator<Item = Wish>) -> Result<Self, Unfit> {
        let outfits = self.outfits();
        for wish in wishes {
            let missing = wish.outfits().find(|at| *at >= outfits);
            if let Some(at) = missing {
                return Err(Unfit::NoSuchOutfit { at, outfits });
            }
            self.wishes.push(wish);
        }
        Ok(self)
    }

    /// The same problem for another number of looks.
    #[must_use]
    pub fn with_looks(mut self, looks: usize) -> Self {
        self.looks = looks;
        self
    }

    /// How many outfits there are.
    pub fn outfits(&self) -> usize {
        self.weights.len()
    }

    /// How many looks there may be.
    pub fn looks(&self) -> usize {
        self.looks
    }

    /// The wishes, in the order in which they were given.
    pub fn wishes(&self) -> &[Wish] {
        &self.wishes
    }

    /// The weights, one for each outfit.
    pub fn weights(&self) -> &[f64] {
        &self.weights
    }

    /// What outfit `of` costs when the base of its look is `at`: its weight times its distance. Between kinds, what it
    /// costs with no look.
    pub fn cost(&self, of: usize, at: usize) -> f64 {
        self.weights[of] * self.distance(of, at)
    }

    /// The distance of outfit `of` from base `at`; between kinds, that of no look.
    pub fn distance(&self, of: usize, at: usize) -> f64 {
        if self.kind(of) == self.kind(at) {
            f64::from(self.cost[of * self.outfits() + at])
        } else {
            Self::ALONE
        }
    }

    /// The kind of an outfit; 0 where there are none.
    pub(super) fn kind(&self, outfit: usize) -> u32 {
        self.kinds.as_ref().map_or(0, |kinds| kinds[outfit])
    }

    /// The most that any choice can cost, or more.
    pub(super) fn scale(&self) -> f64 {
        // Sums of prices may be twice as large on the way.
        2.0 * self.weights.iter().sum::<f64>() * f64::from(self.farthest).max(Self::ALONE)
    }

    /// What costs are measured in while searching: 1, or a power of two where they are so large or small that they would
    /// not keep their precision.
    pub(super) fn unit(&self) -> f64 {
        let scale = self.scale();
        if scale == 0.0 || (1e-6..1e12).contains(&scale) { 1.0 } else { scale.log2().floor().exp2() }
    }

    /// What outfit `of` costs when it is in no look.
    pub fn alone(&self, of: usize) -> f64 {
        self.weights[of] * Self::ALONE
    }
}

impl Wish {
    /// The outfits that it names.
    pub fn outfits(&self) -> impl Iterator<Item = usize> + '_ {
        let (few, many): ([Option<usize>; 2], &[usize]) = match self {
            Self::Base(one) | Self::NotBase(one) => ([Some(*one), None], &[]),
            Self::Apart(one, other) | Self::Together(one, other) => ([Some(*one), Some(*other)], &[]),
            Self::AtMost(group, _) | Self::AtLeast(group, _) => ([None, None], &group.members),
        };
        few.into_iter().flatten().chain(many.iter().copied())
    }
}

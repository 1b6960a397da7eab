//! Gower's general coefficient: one distance over features of different kinds, some of which may be missing.
//!
//! J. C. Gower, "A general coefficient of similarity and some of its properties", *Biometrics* 27, 1971. Every feature
//! gives a distance from 0 to 1 between two things, or none where either does not have it; the coefficient is the mean
//! of those that there are, each with its weight.

/// Over features given as weight and distance: 0 where two things are alike in all that is known of both, 1 where they
/// are unlike in all of it, or nothing is.
pub fn coefficient(features: impl IntoIterator<Item = (f64, Option<f64>)>) -> f64 {
    let (mut sum, mut all) = (0.0, 0.0);
    for (weight, distance) in features {
        if let Some(distance) = distance {
            sum += weight * distance;
            all += weight;
        }
    }
    if all > 0.0 { sum / all } else { 1.0 }
}

/// Of two numbers: their gap as a share of `range`, at most 1.
pub fn interval(one: Option<f64>, other: Option<f64>, range: f64) -> Option<f64> {
    let (one, other) = one.zip(other)?;
    Some(if one == other { 0.0 } else { ((one - other).abs() / range).min(1.0) })
}

/// Of two sets whose members weigh differently: one less the weight that they share over the weight that they have
/// together (Jaccard; for weights, Ruzicka). Members are sorted, each once. `None` where both are empty.
pub fn jaccard(one: &[(u32, f32)], other: &[(u32, f32)]) -> Option<f64> {
    let (mut shared, mut all) = (0.0_f32, 0.0_f32);
    let (mut a, mut b) = (0, 0);
    while a < one.len() || b < other.len() {
        let (left, right) = (one.get(a), other.get(b));
        match (left, right) {
            (Some(left), Some(right)) if left.0 == right.0 => {
                shared += left.1.min(right.1);
                all += left.1.max(right.1);
                (a, b) = (a + 1, b + 1);
            }
            (Some(left), right) if right.is_none_or(|right| left.0 < right.0) => {
                all += left.1;
                a += 1;
            }
            (_, Some(right)) => {
                all += right.1;
                b += 1;
            }
            (_, None) => break,
        }
    }
    (all > 0.0).then(|| (1.0 - f64::from(shared) / f64::from(all)).clamp(0.0, 1.0))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_missing_is_left_out() {
        assert_eq!(coefficient([(1.0, Some(0.5)), (3.0, None), (1.0, Some(1.0))]), 0.75);
        assert_eq!(coefficient([(1.0, None)]), 1.0);
        assert_eq!(coefficient([]), 1.0);
    }

    #[test]
    fn a_gap_saturates() {
        assert_eq!(interval(Some(1.0), Some(4.0), 6.0), Some(0.5));
        assert_eq!(interval(Some(1.0), Some(40.0), 6.0), Some(1.0));
        assert_eq!(interval(None, Some(4.0), 6.0), None);
    }

    #[test]
    fn sets_are_as_unlike_as_what_they_do_not_share() {
        assert_eq!(jaccard(&[(1, 1.0), (2, 1.0)], &[(2, 1.0), (3, 1.0)]), Some(1.0 - 1.0 / 3.0));
        assert_eq!(jaccard(&[(1, 1.0), (2, 0.5)], &[(1, 1.0)]), Some(1.0 - 1.0 / 1.5));
        assert_eq!(jaccard(&[(1, 1.0)], &[]), Some(1.0));
        assert_eq!(jaccard(&[], &[]), None);
    }
}

//! Three-way merge of two lists of words, item by item, in time that grows with their length.

use std::collections::{HashMap, HashSet};

use serde_json::Value;

type Items<'a> = HashSet<&'a Value>;

/// Theirs, less what we took out, plus what we put in, each after the item that it follows with us.
/// `None` where both sides put the same items into another order, or an item stands twice.
pub(super) fn merged(base: &[Value], ours: &[Value], theirs: &[Value]) -> Option<Vec<Value>> {
    let (in_base, in_ours, in_theirs) = (once(base)?, once(ours)?, once(theirs)?);
    let in_all = |item: &&Value| in_base.contains(item) && in_ours.contains(item) && in_theirs.contains(item);
    let common = |list: &'_ [Value]| -> Vec<Value> { list.iter().filter(in_all).cloned().collect() };
    let (base_order, our_order, their_order) = (common(base), common(ours), common(theirs));
    if our_order == base_order {
        return Some(leading(&in_base, ours, &in_ours, theirs));
    }
    // We moved items: ours lead, unless they moved them elsewhere.
    let agreed = their_order == base_order || their_order == our_order;
    agreed.then(|| leading(&in_base, theirs, &in_theirs, ours))
}

/// The items; `None` where one stands twice.
fn once(list: &[Value]) -> Option<Items<'_>> {
    let items: Items<'_> = list.iter().collect();
    (items.len() == list.len()).then_some(items)
}

/// `lead`, with what `other` did to the base done to it as well.
fn leading(in_base: &Items<'_>, other: &[Value], in_other: &Items<'_>, lead: &[Value]) -> Vec<Value> {
    let kept: Vec<&Value> =
        lead.iter().filter(|item| in_other.contains(item) || !in_base.contains(item)).collect();
    let in_kept: Items<'_> = kept.iter().copied().collect();
    // What the other put in, by the kept item that it follows there; `None` at the front.
    let mut put_in: HashMap<Option<&Value>, Vec<&Value>> = HashMap::new();
    let mut follows = None;
    for item in other {
        if in_kept.contains(item) {
            follows = Some(item);
        } else if !in_base.contains(item) {
            put_in.entry(follows).or_default().push(item);
        }
    }
    let places = std::iter::once(None).chain(kept.into_iter().map(Some));
    let mut merged = Vec::with_capacity(lead.len());
    for place in places {
        merged.extend(place.cloned());
        merged.extend(put_in.get(&place).into_iter().flatten().map(|item| Value::clone(item)));
    }
    merged
}

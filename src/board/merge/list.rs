//! Three-way merge of two lists of words, item by item.

use serde_json::Value;

/// Theirs, less what we took out, plus what we put in, each after the item that it follows with us.
/// `None` where both sides put the same items into another order, or an item stands twice.
pub(super) fn merged(base: &[Value], ours: &[Value], theirs: &[Value]) -> Option<Vec<Value>> {
    let twice = |list: &[Value]| list.iter().enumerate().any(|(at, item)| list[..at].contains(item));
    if twice(base) || twice(ours) || twice(theirs) {
        return None;
    }
    let common_order = |list: &[Value]| -> Vec<Value> {
        list.iter()
            .filter(|item| base.contains(item) && ours.contains(item) && theirs.contains(item))
            .cloned()
            .collect()
    };
    let (base_order, our_order, their_order) = (common_order(base), common_order(ours), common_order(theirs));
    if our_order == base_order {
        return Some(leading(base, ours, theirs));
    }
    // We moved items: ours lead, unless they moved them elsewhere.
    let agreed = their_order == base_order || their_order == our_order;
    agreed.then(|| leading(base, theirs, ours))
}

/// `lead`, with what `other` did to `base` done to it as well.
fn leading(base: &[Value], other: &[Value], lead: &[Value]) -> Vec<Value> {
    let mut merged: Vec<Value> =
        lead.iter().filter(|item| other.contains(item) || !base.contains(item)).cloned().collect();
    for (at, item) in other.iter().enumerate() {
        if base.contains(item) || merged.contains(item) {
            continue;
        }
        let after =
            other[..at].iter().rev().find_map(|earlier| merged.iter().position(|have| have == earlier));
        merged.insert(after.map_or(0, |place| place + 1), item.clone());
    }
    merged
}

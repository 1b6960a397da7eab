//! A small map that keeps the order of its file and refuses a key that is given twice.

use std::fmt;
use std::marker::PhantomData;

use serde::ser::SerializeMap;
use serde::{Deserialize, Deserializer, Serialize, Serializer, de};

/// Keys with values, in the order in which they were given. Meant for tens of entries: every key is looked for among
/// all, so a file may give [`MOST`].
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Pairs<K, V>(Vec<(K, V)>);

/// The most entries that are read.
pub const MOST: usize = 2_000;

impl<K, V> Default for Pairs<K, V> {
    fn default() -> Self {
        Self(Vec::new())
    }
}

impl<K: PartialEq, V> Pairs<K, V> {
    /// Whether there is none.
    pub fn is_empty(&self) -> bool {
        self.0.is_empty()
    }

    /// How many there are.
    pub fn len(&self) -> usize {
        self.0.len()
    }

    /// All keys with their values, in order.
    pub fn iter(&self) -> impl Iterator<Item = (&K, &V)> {
        self.0.iter().map(|(key, value)| (key, value))
    }

    /// All keys, in order.
    pub fn keys(&self) -> impl Iterator<Item = &K> {
        self.0.iter().map(|(key, _)| key)
    }

    /// The value of `key`.
    pub fn get(&self, key: &K) -> Option<&V> {
        self.0.iter().find(|(k, _)| k == key).map(|(_, value)| value)
    }

    /// Sets the value of `key`, in its place or at the end.
    pub fn set(&mut self, key: K, value: V) {
        match self.0.iter_mut().find(|(k, _)| *k == key) {
            Some((_, old)) => *old = value,
            None => self.0.push((key, value)),
        }
    }

    /// Takes `key` out.
    pub fn remove(&mut self, key: &K) -> Option<V> {
        let at = self.0.iter().position(|(k, _)| k == key)?;
        Some(self.0.remove(at).1)
    }

    /// Puts what a key has under another one, in its place; what is there already stays as it is.
    pub fn rename(&mut self, from: &K, to: K) {
        if self.get(&to).is_none()
            && let Some((key, _)) = self.0.iter_mut().find(|(key, _)| key == from)
        {
            *key = to;
        }
    }
}

impl<K: PartialEq, V> FromIterator<(K, V)> for Pairs<K, V> {
    fn from_iter<I: IntoIterator<Item = (K, V)>>(all: I) -> Self {
        let mut pairs = Self::default();
        for (key, value) in all {
            pairs.set(key, value);
        }
        pairs
    }
}

impl<K: Serialize, V: Serialize> Serialize for Pairs<K, V> {
    fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        let mut map = to.serialize_map(Some(self.0.len()))?;
        for (key, value) in &self.0 {
            map.serialize_entry(key, value)?;
        }
        map.end()
    }
}

impl<'de, K, V> Deserialize<'de> for Pairs<K, V>
where
    K: Deserialize<'de> + PartialEq + fmt::Display,
    V: Deserialize<'de>,
{
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        struct Visitor<K, V>(PhantomData<(K, V)>);

        impl<'de, K, V> de::Visitor<'de> for Visitor<K, V>
        where
            K: Deserialize<'de> + PartialEq + fmt::Display,
            V: Deserialize<'de>,
        {
            type Value = Pairs<K, V>;

            fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                f.write_str("keys with values")
            }

            fn visit_map<A: de::MapAccess<'de>>(self, mut map: A) -> Result<Self::Value, A::Error> {
                let mut pairs = Pairs::default();
                while let Some(key) = map.next_key::<K>()? {
                    if pairs.get(&key).is_some() {
                        return Err(de::Error::custom(format_args!("duplicate key `{key}`")));
                    }
                    if pairs.len() == MOST {
                        return Err(de::Error::custom(format_args!("more than {MOST} keys in one place")));
                    }
                    pairs.0.push((key, map.next_value()?));
                }
                Ok(pairs)
            }
        }

        from.deserialize_map(Visitor(PhantomData))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(text: &str) -> Result<Pairs<String, u32>, String> {
        serde_json::from_str(text).map_err(|error| error.to_string())
    }

    #[test]
    fn the_order_of_the_file_is_kept_there_and_back() {
        let pairs = read(r#"{"b": 1, "a": 2, "c": 3}"#).unwrap();
        assert_eq!(pairs.keys().collect::<Vec<_>>(), ["b", "a", "c"]);
        assert_eq!(serde_json::to_string(&pairs).unwrap(), r#"{"b":1,"a":2,"c":3}"#);
        let tree = serde_json::to_value(&pairs).unwrap();
        assert_eq!(serde_json::from_value::<Pairs<String, u32>>(tree).unwrap(), pairs);
    }

    #[test]
    fn a_key_that_is_given_twice_is_refused() {
        assert!(read(r#"{"a": 1, "b": 2, "a": 1}"#).unwrap_err().starts_with("duplicate key `a`"));
    }

    #[test]
    fn endless_keys_are_refused() {
        let text = |count: usize| {
            let all: Vec<String> = (0..count).map(|key| format!("\"{key}\": 1")).collect();
            format!("{{{}}}", all.join(", "))
        };
        assert_eq!(read(&text(MOST)).unwrap().len(), MOST);
        assert!(read(&text(MOST + 1)).unwrap_err().starts_with("more than 2000 keys in one place"));
    }

    #[test]
    fn setting_keeps_the_place_and_a_new_key_goes_last() {
        let mut pairs = read(r#"{"b": 1, "a": 2}"#).unwrap();
        pairs.set("b".to_owned(), 5);
        pairs.set("c".to_owned(), 6);
        let all: Vec<_> = pairs.iter().map(|(key, value)| (key.as_str(), *value)).collect();
        assert_eq!(all, [("b", 5), ("a", 2), ("c", 6)]);
        assert_eq!((pairs.remove(&"a".to_owned()), pairs.remove(&"a".to_owned())), (Some(2), None));
        assert_eq!((pairs.len(), pairs.get(&"c".to_owned()), pairs.is_empty()), (2, Some(&6), false));
    }

    #[test]
    fn of_equal_keys_that_are_collected_the_last_value_stands_in_the_first_place() {
        let pairs: Pairs<&str, u32> = [("a", 1), ("b", 2), ("a", 3)].into_iter().collect();
        assert_eq!(pairs.iter().collect::<Vec<_>>(), [(&"a", &3), (&"b", &2)]);
        let turned: Pairs<&str, u32> = [("b", 2), ("a", 3)].into_iter().collect();
        assert_ne!(pairs, turned, "the order is a person's, too");
    }
}

//! The lines of a history log.
//!
//! A line is a JSON object that ends in its own checksum, so that one that a crash tore, or a disk spoilt, is known
//! for what it is, and told from one that a later version wrote. Five kinds of line: the log's first says whose it is, an entry says what was done, and short ones
//! say that an entry is done or set aside, or that a step is no longer to be taken.

use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};

use crate::board::{Change, Edit};

/// What an entry does to the lists of what can be undone and done again.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub(in crate::store) enum Kind {
    /// Something new.
    Do,
    /// Takes back the newest that can be undone.
    Undo,
    /// Does again what was undone last.
    Redo,
    /// What another program on this machine did, and left when it ended: it can be taken back from here. The entry
    /// stands for files that are replaced already.
    Inherited,
}

/// Files by their names in the board's folder, as a person wrote them: what the records alone cannot bring back.
pub(in crate::store) type Texts = BTreeMap<String, String>;

/// Any line, to be written.
#[derive(Debug, PartialEq, Serialize)]
#[serde(untagged)]
pub(super) enum Line {
    /// Whose log it is. The last one counts.
    Owner { board: String, folder: String, token: String },
    /// Something that was done.
    Entry {
        n: u64,
        kind: Kind,
        /// When it was done, in milliseconds since 1970; logs that are older than this key say nothing.
        time: u64,
        label: String,
        changes: Vec<Change>,
        /// Of the files that it replaces, those that we would not have written so.
        #[serde(skip_serializing_if = "Texts::is_empty")]
        texts: Texts,
    },
    /// The files of entry `n` are replaced.
    Done { done: u64 },
    /// Entry `n` no longer fitted the files; it waits among what can be done again.
    SetAside { aside: u64 },
    /// The step whose entry begins at this place is let go.
    Dropped { dropped: u64 },
}

/// Any line that was read, of an entry without its changes, which can be many.
#[derive(Debug, PartialEq)]
pub(super) enum Outline {
    Owner {
        folder: String,
        token: String,
    },
    Entry {
        n: u64,
        kind: Kind,
        time: u64,
        label: String,
    },
    Done {
        done: u64,
    },
    SetAside {
        aside: u64,
    },
    Dropped {
        dropped: u64,
    },
    /// It is whole, and says what this version knows nothing of.
    Unknown,
}

/// Every key that a line can have, save the changes: those are skipped over and not built.
#[derive(Deserialize)]
struct Keys {
    folder: Option<String>,
    token: Option<String>,
    n: Option<u64>,
    kind: Option<Kind>,
    #[serde(default)]
    time: u64,
    label: Option<String>,
    done: Option<u64>,
    aside: Option<u64>,
    dropped: Option<u64>,
}

/// A line as bytes, its line end too.
pub(super) fn write(line: &Line) -> Result<Vec<u8>, serde_json::Error> {
    let mut text = serde_json::to_string(line)?;
    // An object ends in `}`; the checksum of all before goes into it as the last key.
    text.pop();
    let check = checksum(text.as_bytes());
    text.push_str(&format!("{CHECK}{check:016x}\"}}\n"));
    Ok(text.into_bytes())
}

const CHECK: &str = ",\"check\":\"";

/// The JSON of a line whose checksum is right.
fn checked(line: &[u8]) -> Option<&str> {
    let line = std::str::from_utf8(line).ok()?.strip_suffix('\n')?;
    let at = line.rfind(CHECK)?;
    let given = line[at + CHECK.len()..].strip_suffix("\"}")?;
    (given == format!("{:016x}", checksum(&line.as_bytes()[..at]))).then_some(line)
}

/// What a line says in outline; `None` when it is torn or spoilt.
pub(super) fn outline(line: &[u8]) -> Option<Outline> {
    let Ok(keys) = serde_json::from_str(checked(line)?) else { return Some(Outline::Unknown) };
    Some(match keys {
        Keys { n: Some(n), kind: Some(kind), time, label: Some(label), .. } => {
            Outline::Entry { n, kind, time, label }
        }
        Keys { folder: Some(folder), token: Some(token), .. } => Outline::Owner { folder, token },
        Keys { done: Some(done), .. } => Outline::Done { done },
        Keys { aside: Some(aside), .. } => Outline::SetAside { aside },
        Keys { dropped: Some(dropped), .. } => Outline::Dropped { dropped },
        _ => Outline::Unknown,
    })
}

/// The edit of an entry; `None` when the line is torn, spoilt, or none.
pub(super) fn edit(line: &[u8]) -> Option<Edit> {
    // An entry has the keys of an edit among its own.
    serde_json::from_str(checked(line)?).ok()
}

/// The texts of an entry; none when the line is torn, spoilt, or says nothing of any.
pub(super) fn texts(line: &[u8]) -> Texts {
    #[derive(Default, Deserialize)]
    struct Keys {
        #[serde(default)]
        texts: Texts,
    }
    let keys: Option<Keys> = checked(line).and_then(|line| serde_json::from_str(line).ok());
    keys.unwrap_or_default().texts
}

/// FNV-1a, 64 bits (G. Fowler, L. C. Noll, K.-P. Vo; offset basis and prime as published by them).
fn checksum(bytes: &[u8]) -> u64 {
    bytes
        .iter()
        .fold(0xcbf2_9ce4_8422_2325, |hash, byte| (hash ^ u64::from(*byte)).wrapping_mul(0x0100_0000_01b3))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_line_reads_back_and_a_torn_or_spoilt_one_does_not() {
        let written = Texts::from([("looks/a.yaml".to_owned(), "title:   a  # so\n".to_owned())]);
        let label = "fold \"x\"\n".to_owned();
        let (kind, changes, texts_before) = (Kind::Do, Vec::new(), written.clone());
        let entry = Line::Entry { n: 7, kind, time: 12, label, changes, texts: texts_before };
        let line = write(&entry).unwrap();
        assert_eq!(line.iter().filter(|byte| **byte == b'\n').count(), 1);
        assert_eq!(
            outline(&line),
            Some(Outline::Entry { n: 7, kind: Kind::Do, time: 12, label: "fold \"x\"\n".to_owned() })
        );
        assert_eq!(edit(&line), Some(Edit::new("fold \"x\"\n", Vec::new())));
        assert_eq!(texts(&line), written);
        for cut in 0..line.len() {
            assert_eq!(outline(&line[..cut]), None, "cut at {cut}");
        }
        for at in 0..line.len() - 1 {
            let mut spoilt = line.clone();
            spoilt[at] ^= 1;
            assert_eq!(outline(&spoilt), None, "spoilt at {at}");
        }
    }

    #[test]
    fn a_whole_line_of_an_unknown_kind_is_not_taken_for_a_torn_one() {
        for json in ["{\"pinned\":9", "{\"n\":9,\"kind\":\"split\",\"label\":\"x\"", "{\"done\":\"all\""] {
            let check = checksum(json.as_bytes());
            let line = format!("{json}{CHECK}{check:016x}\"}}\n");
            assert_eq!(outline(line.as_bytes()), Some(Outline::Unknown), "{json}");
            assert_eq!(outline(line.replacen('{', "[", 1).as_bytes()), None, "{json}");
        }
    }

    #[test]
    fn the_checksum_is_the_published_one() {
        // Test vectors of the authors (draft-eastlake-fnv, appendix C): the empty string, "a", "foobar".
        assert_eq!(checksum(b""), 0xcbf2_9ce4_8422_2325);
        assert_eq!(checksum(b"a"), 0xaf63_dc4c_8601_ec8c);
        assert_eq!(checksum(b"foobar"), 0x8594_4171_f739_67e8);
    }
}

//! Pieces and sources in a cell: one item each, with its parts between `|`.
//!
//! A piece is `name | cloth | colours | detail | detail …`, its colours parted by commas. A source is
//! `kind | source | credit | rights | notes`. Parts at the end that are empty are left out.

use crate::board::{Evidence, EvidenceKind, Piece};
use crate::store::nearest::nearest;
use crate::trade::cell::{escaped, split};
use crate::trade::colour::Colour;

fn joined<'a>(parts: impl IntoIterator<Item = &'a str>) -> String {
    let mut parts: Vec<_> = parts.into_iter().map(|part| escaped(part.trim(), '|')).collect();
    while parts.len() > 1 && parts.last().is_some_and(|last| last.is_empty()) {
        parts.pop();
    }
    parts.join(" | ").trim().to_owned()
}

fn parts(item: &str) -> Vec<String> {
    split(item, |c| c == '|').iter().map(|part| part.trim().to_owned()).collect()
}

pub(super) fn written_piece(piece: &Piece) -> String {
    let colours: Vec<String> = piece.colours.iter().map(ToString::to_string).collect();
    let colours = colours.join(", ");
    let first = [piece.name.as_str(), &piece.cloth, &colours];
    joined(first.into_iter().chain(piece.details.iter().map(String::as_str)))
}

pub(super) fn piece(item: &str) -> Result<Piece, String> {
    let mut parts = parts(item).into_iter();
    let mut next = || parts.next().unwrap_or_default();
    let (name, cloth, colours) = (next(), next(), next());
    let colours = colours.split(',').map(str::trim).filter(|colour| !colour.is_empty());
    let colours: Result<Vec<Colour>, _> = colours.map(str::parse::<Colour>).collect();
    let colours = colours
        .map_err(|error| format!("{error}, in a piece such as `coat | serge | navy, white | lined`"))?;
    Ok(Piece { name, cloth, colours, details: parts.filter(|part| !part.is_empty()).collect() })
}

pub(super) fn written_evidence(evidence: &Evidence) -> String {
    let Evidence { kind, source, credit, rights, notes } = evidence;
    joined([kind.word(), source, credit, rights, notes])
}

pub(super) fn evidence(item: &str) -> Result<Evidence, String> {
    let mut parts = parts(item).into_iter();
    let mut next = || parts.next().unwrap_or_default();
    let kind = kind(&next())?;
    let evidence = Evidence { kind, source: next(), credit: next(), rights: next(), notes: next() };
    match parts.next() {
        Some(more) => {
            Err(format!("`{more}` is one part too many: expected `kind | source | credit | rights | notes`"))
        }
        None => Ok(evidence),
    }
}

fn kind(word: &str) -> Result<EvidenceKind, String> {
    let plain = word.replace('-', " ").to_lowercase();
    let kinds = || EvidenceKind::ALL.iter().map(|kind| kind.word());
    EvidenceKind::ALL.iter().copied().find(|kind| kind.word() == plain).ok_or_else(|| {
        let near =
            nearest(&plain, kinds()).map(|near| format!("; did you mean `{near}`?")).unwrap_or_default();
        format!(
            "`{word}` is no kind of source: expected one of {}{near}",
            kinds().collect::<Vec<_>>().join(", ")
        )
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_piece_is_read_as_it_is_written() {
        for text in [
            "coat | serge | navy, #fff | lined | two | pockets",
            "coat",
            "coat |  |  | lined",
            r"a\|b | wool",
        ] {
            assert_eq!(written_piece(&piece(text).unwrap()), text);
        }
        assert!(piece("coat | serge | nile").unwrap_err().starts_with("`nile` is no colour"));
    }

    #[test]
    fn a_source_is_read_as_it_is_written() {
        for text in ["photograph", "surviving garment | Museum | Rose |  | frayed"] {
            assert_eq!(written_evidence(&evidence(text).unwrap()), text);
        }
        assert_eq!(evidence("surviving-garment").unwrap().kind, EvidenceKind::SurvivingGarment);
        assert!(
            evidence("foto")
                .unwrap_err()
                .starts_with("`foto` is no kind of source: expected one of surviving")
        );
        assert!(evidence("film|a|b|c|d|e").unwrap_err().starts_with("`e` is one part too many"));
    }
}

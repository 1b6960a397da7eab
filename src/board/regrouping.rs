//! Looks merged, split and dissolved: the same outfits in fewer looks or in more.

use super::draft::{Draft, unfit};
use super::gathering::once;
use super::{
    Board, Departure, Edit, Fitting, Found, Look, LookId, Make, OutfitId, Piece, Refused, Treatment,
};
use crate::trade::length::{Length, Unit};

impl Board {
    /// Merges `from` into `into`: its outfits are folded there, its scenes show it, its threads are kept, and what was
    /// decided about it (what it says, departures, dressing, pieces, how they are made, fittings, notes) is kept in words among the notes of the
    /// look that stays, which itself is made and worn as before.
    ///
    /// # Errors
    /// When they are of two characters, the one that stays is invented while the other holds outfits, or the one that
    /// goes is established.
    pub fn merge_looks(&self, from: &LookId, into: &LookId) -> Result<Edit, Refused> {
        if from == into {
            return Err(unfit("choose another look to merge with"));
        }
        let gone = self.look(from).ok_or_else(|| unfit(format!("there is no look `{from}`")))?.clone();
        let mut draft = Draft::new(self);
        let look = draft.look(into)?;
        if look.character != gone.character {
            return Err(unfit(format!("{} and {} are looks of two characters", gone.title, look.title)));
        }
        if look.treatment == Treatment::Invent && gone.outfits().next().is_some() {
            return Err(unfit(format!("{} is invented: merge it into {} instead", look.title, gone.title)));
        }
        for outfit in gone.outfits() {
            if look.outfits().all(|held| held != outfit) {
                look.folded.push(outfit.clone());
            }
        }
        for thread in &gone.threads {
            if !look.threads.contains(thread) {
                look.threads.push(thread.clone());
            }
        }
        for words in decided(&gone, look, self.head().units) {
            if !look.notes.is_empty() {
                look.notes.push_str("\n\n");
            }
            look.notes.push_str(&format!("From {}: {words}", gone.title));
        }
        let label = format!("merged {} into {}", gone.title, look.title);
        draft.recast(from, Some(into));
        draft.remove_look(from)?;
        Ok(draft.finish(label))
    }

    /// Splits outfits off a look into a new one of the same treatment, of which the first is the base; scenes stay with
    /// the old one.
    ///
    /// # Errors
    /// When the outfits are not all in one look, or are all that it holds.
    pub fn split(&self, outfits: &[OutfitId], title: &str) -> Result<(LookId, Edit), Refused> {
        let marked = once(outfits);
        let Some(base) = marked.first() else { return Err(unfit("mark the outfits to split off")) };
        let holder = self.relations().looks_of(base).first();
        let holder = holder.ok_or_else(|| unfit("gather them into a look first"))?;
        if marked.iter().any(|outfit| !self.relations().looks_of(outfit).contains(holder)) {
            return Err(unfit("mark outfits of one look to split them off"));
        }
        let look = self.look(holder).ok_or_else(|| unfit(format!("there is no look `{holder}`")))?;
        if look.outfits().count() <= marked.len() {
            return Err(unfit(format!("something must stay in {}", look.title)));
        }
        let (id, mut edit) = self.gather(outfits, title, base, look.treatment)?;
        edit.label = format!("split {} off {}", marked.len(), look.title);
        Ok((id, edit))
    }

    /// Takes a look away: its outfits are open again, its scenes have no look yet.
    ///
    /// # Errors
    /// When there is no such look, or it is established.
    pub fn dissolve(&self, id: &LookId) -> Result<Edit, Refused> {
        let look = self.look(id).ok_or_else(|| unfit(format!("there is no look `{id}`")))?;
        let mut draft = Draft::new(self);
        draft.recast(id, None);
        draft.remove_look(id)?;
        Ok(draft.finish(format!("dissolved {}", look.title)))
    }
}

/// What was decided about a look and is not so in `other` as well, in words.
fn decided(look: &Look, other: &Look, unit: Unit) -> Vec<String> {
    let mut all: Vec<String> =
        [&look.says, &look.notes].into_iter().filter(|words| !words.is_empty()).cloned().collect();
    let departures = look.departures.iter().filter(|departure| !other.departures.contains(departure));
    all.extend(departures.map(departure_in_words));
    let dressing = look.dressing.iter().filter(|note| !other.dressing.contains(note));
    all.extend(dressing.map(|note| format!("dressing: {note}")));
    let pieces = look.pieces.iter().filter(|piece| !other.pieces.contains(piece));
    all.extend(pieces.map(|piece| format!("piece: {}", piece_in_words(piece))));
    let made = look.make.iter().filter(|(piece, make)| other.make.get(piece) != Some(make));
    all.extend(made.filter_map(|(piece, make)| make_in_words(piece, make)));
    all.extend(look.fittings.iter().map(|fitting| fitting_in_words(fitting, unit)));
    all
}

fn departure_in_words(departure: &Departure) -> String {
    let Departure { detail, was, becomes, why } = departure;
    let parts = [("was", was), ("becomes", becomes), ("because", why)];
    let told = parts.into_iter().filter(|(_, words)| !words.is_empty());
    let words: String = told.map(|(lead, words)| format!(", {lead} {words}")).collect();
    format!("departure: {detail}{words}")
}

fn piece_in_words(piece: &Piece) -> String {
    let cloth = (!piece.cloth.is_empty()).then(|| piece.cloth.clone());
    let colours = piece.colours.iter().map(ToString::to_string);
    let words: Vec<String> =
        [piece.name.clone()].into_iter().chain(cloth).chain(colours).chain(piece.details.clone()).collect();
    words.join(", ")
}

/// Of how a piece was made what somebody would have to be asked again: its figures are in the history.
fn make_in_words(piece: &str, make: &Make) -> Option<String> {
    let of =
        |what: &str, names: Vec<&str>| (!names.is_empty()).then(|| format!(", {what} {}", names.join(" ")));
    let all = [
        of("measures", make.measures.iter().map(|measure| measure.name.as_str()).collect()),
        of("cloths", make.cuts.iter().map(|cut| cut.cloth.as_str()).collect()),
        of("versions", make.versions.iter().map(|version| version.version.as_str()).collect()),
    ];
    let words: String = all.into_iter().flatten().collect();
    (!words.is_empty()).then(|| format!("made: {piece}{words}"))
}

fn fitting_in_words(fitting: &Fitting, unit: Unit) -> String {
    let found = |found: &Found| {
        let Found { piece, measure, measured, pinned, decided } = found;
        let said = |what: &str, length: Option<Length>| Some(format!("{what} {}", length?.shown(unit)));
        let all = [
            said("measured", measured.map(|size| size.length())),
            said("pinned", *pinned),
            said("decided", decided.map(|size| size.length())),
        ];
        format!("{measure} of {piece} {}", all.into_iter().flatten().collect::<Vec<_>>().join(", "))
    };
    let notes = (!fitting.notes.is_empty()).then(|| fitting.notes.clone());
    let told: Vec<String> = fitting.found.iter().map(found).chain(notes).collect();
    format!("fitted {}: {}", fitting.on.short(), told.join("; "))
}

#[cfg(test)]
mod tests {
    use super::super::sample::{after, board, held, id, ids, number, records, refusal};
    use super::*;
    use crate::board::{RecordRef, Stage, Standing};

    #[test]
    fn a_merged_look_hands_over_its_outfits_scenes_threads_and_words() {
        let edit = board().merge_looks(&id("club"), &id("gown")).unwrap();
        assert_eq!(edit.label, "merged Club into Gown");
        let board = after(&edit);
        let gown = board.look(&id("gown")).unwrap();
        assert_eq!(held(&board, "gown"), ["gala-gown", "club-wool", "club-serge", "crossing-wool"]);
        assert_eq!(gown.threads, ids(&["green-cap"]));
        assert!(gown.notes.starts_with("From Club: she races\n\nFrom Club: departure: neckline, was square"));
        assert!(board.look(&id("club")).is_none());
        assert_eq!(board.relations().scenes_of(&id("gown")), [1, 2, 3]);
    }

    #[test]
    fn what_was_decided_about_a_merged_look_is_kept_in_words() {
        let mut records = records();
        let mut club = Look::clone(&records.looks[&id("club")]);
        let departure = |detail: &str, becomes: &str, why: &str| Departure {
            detail: detail.to_owned(),
            becomes: becomes.to_owned(),
            why: why.to_owned(),
            ..Departure::default()
        };
        club.departures = vec![departure("hem", "shorter", "she runs"), departure("collar", "", "")];
        club.dressing = vec!["top button undone".to_owned(), "cap straight".to_owned()];
        let cap = Piece {
            name: "cap".to_owned(),
            cloth: "baize".to_owned(),
            colours: vec!["green".parse().unwrap()],
            details: vec!["no peak".to_owned()],
        };
        club.pieces = vec![cap, Piece { name: "belt".to_owned(), ..Piece::default() }];
        let mut gown = Look::clone(&records.looks[&id("gown")]);
        gown.departures = vec![club.departures[1].clone()];
        gown.dressing = vec![club.dressing[1].clone()];
        gown.pieces = vec![club.pieces[1].clone()];
        let kept = gown.clone();
        records.looks.insert(id("club"), club.into());
        records.looks.insert(id("gown"), gown.into());
        let mut board = Board::new(records);
        board.apply(&board.merge_looks(&id("club"), &id("gown")).unwrap()).unwrap();
        let gown = board.look(&id("gown")).unwrap();
        let words = [
            "From Club: she races",
            "From Club: departure: hem, becomes shorter, because she runs",
            "From Club: dressing: top button undone",
            "From Club: piece: cap, baize, green, no peak",
        ];
        assert_eq!(gown.notes, words.join("\n\n"));
        assert_eq!(
            (&gown.departures, &gown.dressing, &gown.pieces),
            (&kept.departures, &kept.dressing, &kept.pieces),
            "the look that stays is made and worn as before"
        );
    }

    #[test]
    fn what_the_workroom_knew_of_a_merged_look_is_kept_in_words() {
        let mut records = records();
        let mut club = Look::clone(&records.looks[&id("club")]);
        club.make = serde_json::from_value(serde_json::json!({
            "cap": {"measures": [{"measure": "girth", "rule": "same", "original": "58 cm"}], "versions": [{"version": "wet"}]},
            "belt": {},
        }))
        .unwrap();
        club.fittings = serde_json::from_value(serde_json::json!([
            {"on": "2027-03-02", "notes": "she laughs", "found": [
                {"piece": "cap", "measure": "girth", "measured": "59 cm", "pinned": "-5 mm", "decided": "58 cm"},
            ]},
        ]))
        .unwrap();
        records.looks.insert(id("club"), club.into());
        let mut board = Board::new(records);
        board.apply(&board.merge_looks(&id("club"), &id("gown")).unwrap()).unwrap();
        let notes = &board.look(&id("gown")).unwrap().notes;
        assert!(notes.contains("From Club: made: cap, measures girth, versions wet"), "{notes}");
        assert!(
            notes.contains("From Club: fitted 2 Mar 2027: girth of cap measured 59 cm, pinned -0.5 cm, decided 58 cm; she laughs"),
            "{notes}"
        );
        assert!(!notes.contains("belt"), "{notes}");
    }

    #[test]
    fn a_look_that_the_camera_has_seen_does_not_go() {
        let mut board = board();
        let establish = board.change_look(&id("club"), "", |look| look.stage = Stage::Established);
        board.apply(&establish.unwrap()).unwrap();
        let told =
            "Club is established: the camera has seen it, so it stays, unless its stage is taken back first";
        assert_eq!(refusal(board.merge_looks(&id("club"), &id("gown"))), told);
        assert_eq!(refusal(board.dissolve(&id("club"))), told);
        assert!(board.merge_looks(&id("gown"), &id("club")).is_ok(), "another may go into it");
        board.apply(&board.assign(&number("2"), &id("odile"), None).unwrap()).unwrap();
        let held: Vec<_> = board.look(&id("club")).unwrap().outfits().cloned().collect();
        assert_eq!(refusal(board.release(&held)), told);
        assert_eq!(refusal(board.let_go(&held, "because")), told);
        assert_eq!(refusal(board.fold(&held, &id("gown"))), told);
    }

    #[test]
    fn merging_heals_an_outfit_that_files_put_into_both_looks() {
        let mut records = records();
        let mut gown = Look::clone(&records.looks[&id("gown")]);
        gown.folded.push(id("club-serge"));
        records.looks.insert(id("gown"), gown.into());
        let mut board = Board::new(records);
        board.apply(&board.merge_looks(&id("club"), &id("gown")).unwrap()).unwrap();
        assert_eq!(held(&board, "gown"), ["gala-gown", "club-serge", "club-wool", "crossing-wool"]);
        assert_eq!(crate::board::rules::broken(&board), []);
    }

    #[test]
    fn looks_that_cannot_be_merged_are_said() {
        let mut board = board();
        let merge = |board: &Board, from, into| refusal(board.merge_looks(&id(from), &id(into)));
        assert_eq!(merge(&board, "club", "club"), "choose another look to merge with");
        assert_eq!(merge(&board, "nothing", "club"), "there is no look `nothing`");
        assert_eq!(merge(&board, "club", "nothing"), "there is no look `nothing`");
        assert_eq!(merge(&board, "club", "rescue"), "Club and Rescue are looks of two characters");
        board.apply(&board.invent("Dream", &id("odile"), None).unwrap().1).unwrap();
        assert_eq!(merge(&board, "club", "dream"), "Dream is invented: merge it into Club instead");
        assert!(board.merge_looks(&id("dream"), &id("club")).is_ok());
    }

    #[test]
    fn what_is_split_off_is_a_look_of_the_same_treatment_and_scenes_stay() {
        let (look, edit) = board().split(&ids(&["crossing-wool", "club-wool"]), "Crossing").unwrap();
        assert_eq!(edit.label, "split 2 off Club");
        let board = after(&edit);
        assert_eq!(held(&board, "crossing"), ["crossing-wool", "club-wool"]);
        assert_eq!(held(&board, "club"), ["club-serge"]);
        assert_eq!(board.look(&look).unwrap().treatment, Treatment::Interpret);
        assert_eq!(board.relations().scenes_of(&id("club")), [1]);
        assert_eq!(board.relations().scenes_of(&look), [0; 0]);
    }

    #[test]
    fn what_cannot_be_split_off_is_said() {
        let split = |outfits: &[&str]| refusal(board().split(&ids(outfits), "New"));
        assert_eq!(split(&[]), "mark the outfits to split off");
        assert_eq!(split(&["smock"]), "gather them into a look first");
        assert_eq!(split(&["club-wool", "gala-gown"]), "mark outfits of one look to split them off");
        assert_eq!(split(&["club-wool", "club-serge", "crossing-wool"]), "something must stay in Club");
    }

    #[test]
    fn a_dissolved_look_leaves_open_outfits_and_scenes_without_a_look() {
        let edit = board().dissolve(&id("gown")).unwrap();
        assert_eq!(edit.label, "dissolved Gown");
        let board = after(&edit);
        assert_eq!(board.standing(&id("gala-gown")), Standing::Open);
        let wears =
            |scene: &str| board.scene(&scene.parse().unwrap()).unwrap().wears.get(&id("odile")).cloned();
        assert_eq!((wears("3"), wears("3A")), (Some(None), Some(None)));
        assert_eq!(refusal(board.dissolve(&id("gown"))), "there is no look `gown`");
    }

    #[test]
    fn a_look_in_a_scene_that_no_edit_reaches_stays() {
        let mut records = records();
        let mut second = crate::board::Scene::clone(&records.scenes[2]);
        second.number = "2".parse().unwrap();
        records.scenes.push(second.into());
        let mut board = Board::new(records.clone());
        let edit = board.dissolve(&id("gown")).unwrap();
        assert!(edit.touched().all(|record| record != RecordRef::Scene("2".parse().unwrap())));
        assert_eq!(refusal(board.apply(&edit)), "scene 2 names look `gown`, which is not there");
        assert_eq!(board.records(), &records);
    }
}

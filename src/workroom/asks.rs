//! Whom to ask before something is done in something: the board's tables of cautions, by action, cloth and piece.
//!
//! A caution approves nothing and clears nothing: whoever it names decides, by the local code and licensed practice.

use super::copies::plan::has_words;
use crate::board::{
    ActionId, Ask, Board, Cloth, Doing, Id, Look, LookId, Piece, Practice, Scene, SceneNumber,
};

/// A caution of the tables, and what raised it.
#[derive(Clone, Debug, PartialEq)]
pub struct Asked {
    /// The caution.
    pub ask: Ask,
    /// The scene in which it is done; `None` where the look alone raises it.
    pub scene: Option<SceneNumber>,
    /// The look that it is done in.
    pub look: LookId,
    /// What is done, where that raised it.
    pub action: Option<ActionId>,
    /// The piece that raised it, where it is not the whole look.
    pub piece: Option<String>,
}

/// What the scenes of a board raise, in story order.
pub fn of_scenes(board: &Board) -> Vec<Asked> {
    let practice = board.practice();
    board.scenes().flat_map(|scene| in_scene_by(board, &practice, scene)).collect()
}

/// What a scene raises, each caution once for each look.
pub fn in_scene(board: &Board, scene: &Scene) -> Vec<Asked> {
    in_scene_by(board, &board.practice(), scene)
}

/// What a look raises, alone and in every scene that does; the same caution stands together, in the order of scenes.
pub fn of_look(board: &Board, id: &LookId) -> Vec<Asked> {
    let practice = board.practice();
    let Some(look) = board.look(id) else { return Vec::new() };
    let mut all: Vec<Asked> = Vec::new();
    let alone = practice.cautions.iter().filter(|ask| ask.actions.is_empty());
    all.extend(alone.filter_map(|ask| raised(board, ask, id, look, None, None)));
    let scenes = board.relations().scenes_of(id).iter().filter_map(|at| board.records().scenes.get(*at));
    all.extend(
        scenes.flat_map(|scene| in_scene_by(board, &practice, scene)).filter(|asked| asked.look == *id),
    );
    let mut order: Vec<Id<Ask>> = Vec::new();
    for asked in &all {
        if !order.contains(&asked.ask.caution) {
            order.push(asked.ask.caution.clone());
        }
    }
    all.sort_by_key(|asked| order.iter().position(|caution| *caution == asked.ask.caution));
    all
}

fn in_scene_by(board: &Board, practice: &Practice, scene: &Scene) -> Vec<Asked> {
    let mut all: Vec<Asked> = Vec::new();
    for (character, doings) in scene.does.iter() {
        let worn = scene.wears.get(character).and_then(Option::as_ref);
        let Some((id, look)) = worn.and_then(|id| Some((id, board.look(id)?))) else { continue };
        for doing in doings {
            for ask in practice.cautions.iter().filter(|ask| practice.raises(ask, &doing.action)) {
                let asked = raised(board, ask, id, look, Some(doing), Some(&scene.number));
                let told = |one: &Asked| one.ask.caution == ask.caution && one.look == *id;
                if !all.iter().any(told) {
                    all.extend(asked);
                }
            }
        }
    }
    all
}

/// The caution, where a look is of the cloth and has the pieces that it names, among those that what is done concerns.
fn raised(
    board: &Board,
    ask: &Ask,
    id: &LookId,
    look: &Look,
    doing: Option<&Doing>,
    scene: Option<&SceneNumber>,
) -> Option<Asked> {
    let by_piece = !(ask.fibres.is_empty() && ask.heavier_than.is_none() && ask.pieces.is_empty());
    let is_in_it = |piece: &Piece| {
        let told = doing.map(|doing| doing.pieces.as_slice()).unwrap_or_default();
        told.is_empty() || told.iter().any(|word| has_words(&piece.name, word))
    };
    let piece = look.pieces.iter().find(|piece| is_in_it(piece) && fits(board, ask, look, piece));
    if by_piece && piece.is_none() || !by_piece && doing.is_none() {
        return None;
    }
    Some(Asked {
        ask: ask.clone(),
        scene: scene.cloned(),
        look: id.clone(),
        action: doing.map(|doing| doing.action.clone()),
        piece: piece.filter(|_| by_piece).map(|piece| piece.name.clone()),
    })
}

fn fits(board: &Board, ask: &Ask, look: &Look, piece: &Piece) -> bool {
    let says = |word: &String| {
        has_words(&piece.name, word) || piece.details.iter().any(|detail| has_words(detail, word))
    };
    let cuts = look.make.get(&piece.name).map(|make| make.cuts.as_slice()).unwrap_or_default();
    let cloths: Vec<&Cloth> = cuts.iter().filter_map(|cut| board.cloth(&cut.cloth)).collect();
    let is_of =
        |cloth: &&Cloth| ask.fibres.is_empty() || cloth.fibres.iter().any(|fibre| ask.fibres.contains(fibre));
    let is_heavy = |cloth: &&Cloth| {
        ask.heavier_than.is_none_or(|least| {
            cloth.weight.and_then(|weight| weight.compare(least)).is_some_and(std::cmp::Ordering::is_ge)
        })
    };
    let by_cloth = ask.fibres.is_empty() && ask.heavier_than.is_none();
    (ask.pieces.is_empty() || ask.pieces.iter().any(says))
        && (by_cloth || cloths.iter().any(|cloth| is_of(cloth) && is_heavy(cloth)))
}

#[cfg(test)]
mod tests {
    use serde_json::json;

    use super::*;
    use crate::board::told;

    fn board() -> Board {
        let ask = |name: &str, more: serde_json::Value| {
            let mut all = json!({"caution": name, "says": "s", "ask": "a", "of": "o"});
            all.as_object_mut().unwrap().extend(more.as_object().unwrap().clone());
            all
        };
        told::board(json!({
            "looks": {
                "coat": {"treatment": "invent", "pieces": [
                    {"name": "hat"}, {"name": "coat", "details": ["wide sleeves"]},
                ], "make": {"coat": {"cuts": [{"cloth": "hide", "skins": 3}]}}},
                "dress": {"treatment": "invent", "pieces": [{"name": "dress"}], "make": {"dress": {"cuts": [{"cloth": "wool", "lay": "3 m"}]}}},
            },
            "cloths": {
                "hide": {"title": "Hide", "fibres": ["leather"], "weight": "1.6 mm leather"},
                "wool": {"title": "Wool", "fibres": ["wool"], "weight": "400 g/m²", "width": "150 cm"},
            },
            "scenes": [
                {"scene": 1, "wears": {"ada": "coat"}, "does": {"ada": [{"action": "sweat"}, {"action": "sweat"}]}},
                {"scene": 2, "wears": {"ada": "dress"}, "does": {"ada": [{"action": "sweat"}, {"action": "mill"}], "ben": [{"action": "mill"}]}},
                {"scene": 3, "wears": {"ada": "coat"}, "does": {"ada": [{"action": "mill"}]}},
            ],
            "practice": {
                "actions": [{"action": "sweat", "does": "soil"}, {"action": "mill", "does": "soil"}],
                "cautions": [
                    ask("hide-in-heat", json!({"actions": ["sweat"], "fibres": ["leather"]})),
                    ask("heavy-in-heat", json!({"actions": ["sweat"], "heavier-than": "350 g/m²"})),
                    ask("loose", json!({"actions": ["mill"], "pieces": ["sleeves"]})),
                    ask("mill", json!({"actions": ["mill"]})),
                    ask("hides", json!({"fibres": ["leather"]})),
                ],
            },
        }))
    }

    fn said(all: &[Asked]) -> Vec<String> {
        let one = |asked: &Asked| {
            let scene = asked.scene.as_ref().map_or_else(|| "-".to_owned(), ToString::to_string);
            format!("{} {} {scene} {}", asked.ask.caution, asked.look, asked.piece.as_deref().unwrap_or("-"))
        };
        all.iter().map(one).collect()
    }

    #[test]
    fn a_caution_is_raised_by_what_is_done_in_which_cloth_and_piece() {
        assert_eq!(
            said(&of_scenes(&board())),
            [
                "hide-in-heat coat 1 coat",
                "heavy-in-heat dress 2 dress",
                "mill dress 2 -",
                "loose coat 3 coat",
                "mill coat 3 -",
            ]
        );
    }

    #[test]
    fn what_a_piece_is_not_in_raises_nothing_of_it() {
        let asks = |pieces: serde_json::Value| {
            said(&of_scenes(&told::board(json!({
                "looks": {"swim": {"treatment": "invent", "pieces": [{"name": "robe"}, {"name": "bathing costume"}], "make": {
                    "robe": {"cuts": [{"cloth": "wool", "lay": "3 m"}]},
                }}},
                "cloths": {"wool": {"title": "Wool", "fibres": ["wool"], "width": "150 cm"}},
                "scenes": [{"scene": 1, "wears": {"ada": "swim"}, "does": {"ada": [{"action": "swim", "pieces": pieces}]}}],
                "practice": {"actions": [{"action": "swim", "does": "wet"}], "cautions": [
                    {"caution": "heavy", "actions": ["swim"], "fibres": ["wool"], "says": "s", "ask": "a", "of": "o"},
                ]},
            }))))
        };
        assert_eq!(asks(json!([])), ["heavy swim 1 robe"]);
        assert_eq!(asks(json!(["robe"])), ["heavy swim 1 robe"]);
        assert_eq!(asks(json!(["costume"])), [""; 0]);
    }

    #[test]
    fn an_action_that_is_like_another_raises_what_that_raises() {
        let board = board();
        let mut records = board.records().clone();
        let practice = std::sync::Arc::make_mut(&mut records.practice);
        practice.actions.push(
            serde_json::from_value(json!({"action": "thresh", "like": "mill", "does": "soil"})).unwrap(),
        );
        let scene = std::sync::Arc::make_mut(&mut records.scenes[2]);
        scene.does = serde_json::from_value(json!({"ada": [{"action": "thresh"}]})).unwrap();
        let all = of_scenes(&Board::new(records));
        assert_eq!(said(&all)[3..], ["loose coat 3 coat", "mill coat 3 -"]);
    }

    #[test]
    fn what_an_action_is_like_may_be_like_another_and_even_like_itself() {
        let board = board();
        let mut records = board.records().clone();
        let practice = std::sync::Arc::make_mut(&mut records.practice);
        let action = |name: &str, like: &str| {
            serde_json::from_value(json!({"action": name, "like": like, "does": "soil"})).unwrap()
        };
        practice.actions.extend([action("thresh", "mill"), action("feed", "thresh")]);
        practice.actions.extend([action("round", "about"), action("about", "round")]);
        let scene = std::sync::Arc::make_mut(&mut records.scenes[2]);
        scene.does =
            serde_json::from_value(json!({"ada": [{"action": "feed"}, {"action": "round"}]})).unwrap();
        let all = of_scenes(&Board::new(records));
        assert_eq!(said(&all)[3..], ["loose coat 3 coat", "mill coat 3 -"]);
    }

    #[test]
    fn a_look_has_those_of_its_scenes_and_its_own() {
        assert_eq!(
            said(&of_look(&board(), &"coat".parse().unwrap())),
            ["hides coat - coat", "hide-in-heat coat 1 coat", "loose coat 3 coat", "mill coat 3 -"]
        );
    }
}

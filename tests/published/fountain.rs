//! Fountain, the open markup for screenplays: the cases of its published syntax page (<https://fountain.io/syntax>), each
//! rule in our own words and with examples of our own.
#![allow(clippy::unwrap_used, reason = "a case that is not read is a failed claim")]

use shirr::bring::script::{Kind, Script};

fn read(text: &str) -> Script {
    Script::read(text.as_bytes()).unwrap()
}

/// The elements of a text, in short.
fn elements(text: &str) -> Vec<String> {
    let short = |element: &shirr::bring::script::Element| {
        let text = &element.text;
        match &element.kind {
            Kind::Heading { number: Some((number, _)) } => format!("heading {text} no. {number}"),
            Kind::Heading { number: None } => format!("heading {text}"),
            Kind::Action => format!("action {text}"),
            Kind::Centred => format!("centred {text}"),
            Kind::Cue { extension, dual } => {
                let extension = if extension.is_empty() { String::new() } else { format!(" ({extension})") };
                format!("cue {text}{extension}{}", if *dual { " beside" } else { "" })
            }
            Kind::Parenthetical => format!("brackets {text}"),
            Kind::Dialogue => format!("speech {text}"),
            Kind::Lyric => format!("sung {text}"),
            Kind::Transition => format!("transition {text}"),
            Kind::Section(depth) => format!("section {depth} {text}"),
            Kind::Synopsis => format!("synopsis {text}"),
            Kind::PageBreak => "page".to_owned(),
        }
    };
    read(text).elements.iter().map(short).collect()
}

#[track_caller]
fn reads(text: &str, expected: &[&str]) {
    assert_eq!(elements(text), expected, "\n{text}");
}

#[test]
fn scene_heading_is_a_line_alone_that_begins_like_one_in_any_case() {
    for beginning in ["INT.", "EXT.", "EST.", "INT./EXT.", "INT/EXT.", "I/E.", "INT", "ext", "i/e"] {
        let heading = format!("{beginning} TAR STORE - DAY");
        reads(
            &format!("It rains.\n\n{heading}\n\nHe waits."),
            &["action It rains.", &format!("heading {heading}"), "action He waits."],
        );
    }
    reads("INTRIGUE ON THE QUAY\n\n", &["action INTRIGUE ON THE QUAY"]);
    reads("!EXT. is what the label says.", &["action EXT. is what the label says."]);
}

#[test]
fn scene_heading_is_forced_by_one_full_stop_and_a_letter_or_figure() {
    reads(".THROUGH THE GLASS", &["heading THROUGH THE GLASS"]);
    reads("...and the boat is gone.", &["action ...and the boat is gone."]);
    reads(". A dot", &["action . A dot"]);
}

#[test]
fn scene_numbers_stand_between_hashes_and_are_letters_figures_dashes_and_full_stops() {
    for number in ["7", "7A", "7a", "A7", "II-7-B", "7.", "207B"] {
        let text = format!("INT. TAR STORE - DAY - FILM (1927) #{number}#");
        reads(&text, &[&format!("heading INT. TAR STORE - DAY - FILM (1927) no. {number}")]);
    }
}

#[test]
fn action_is_anything_else_and_keeps_its_lines_and_its_indentation() {
    reads(
        "She knots it.\nTwice.\n\n\tAlder, Tuesday\n",
        &["action She knots it.", "action Twice.", "action     Alder, Tuesday"],
    );
}

#[test]
fn action_in_capitals_above_a_line_is_forced_by_an_exclamation_mark() {
    reads("ALONG THE NETS...\nWhere is she?", &["cue ALONG THE NETS...", "speech Where is she?"]);
    reads("!ALONG THE NETS...\nWhere is she?", &["action ALONG THE NETS...", "action Where is she?"]);
}

#[test]
fn a_name_stands_in_capitals_under_an_empty_line_with_a_line_below_it() {
    reads("\nNETTA\nCut it.", &["cue NETTA", "speech Cut it."]);
    reads("\nNETTA\n\nCut it.", &["action NETTA", "action Cut it."]);
    reads("Then\nNETTA\nCut it.", &["action Then", "action NETTA", "action Cut it."]);
    reads("\nNETTA (O. S.)\nCut it.", &["cue NETTA (O. S.)", "speech Cut it."]);
    reads("\nNETTA (on the telephone)\nCut it.", &["cue NETTA (on the telephone)", "speech Cut it."]);
    reads("\nNETTA (V.O.) (CONT'D)\nCut it.", &["cue NETTA (V.O., CONT'D)", "speech Cut it."]);
}

#[test]
fn a_name_has_a_letter_and_is_forced_by_an_at_sign() {
    reads("\nU47\nPing.", &["cue U47", "speech Ping."]);
    reads("\n47\nPing.", &["action 47", "action Ping."]);
    reads("\n@MacINNES\nAye.", &["cue MacINNES", "speech Aye."]);
    reads("\n@絹\n…", &["cue 絹", "speech …"]);
}

#[test]
fn a_speech_goes_on_to_the_next_empty_line_and_over_one_of_two_spaces() {
    reads(
        "\nPILOT\nTwo.\nFour.\n\nHe spits.",
        &["cue PILOT", "speech Two.", "speech Four.", "action He spits."],
    );
    reads("\nPILOT\nTwo.\n  \nFour.\n", &["cue PILOT", "speech Two.", "speech ", "speech Four."]);
}

#[test]
fn brackets_stand_in_a_speech() {
    reads(
        "\nPILOT\n(to the tiller)\nHold.\n(louder)\nHold!",
        &["cue PILOT", "brackets (to the tiller)", "speech Hold.", "brackets (louder)", "speech Hold!"],
    );
    reads("(A gull.)", &["action (A gull.)"]);
}

#[test]
fn a_caret_behind_the_second_name_sets_two_speeches_side_by_side() {
    for caret in ["^", " ^", "    ^"] {
        reads(
            &format!("\nNETTA\nNow.\n\nPILOT{caret}\nNow."),
            &["cue NETTA", "speech Now.", "cue PILOT beside", "speech Now."],
        );
    }
}

#[test]
fn what_is_sung_begins_with_a_tilde() {
    reads(
        "~Slack and springs, slack and springs\n~who will mend my mother's things",
        &["sung Slack and springs, slack and springs", "sung who will mend my mother's things"],
    );
}

#[test]
fn a_transition_is_in_capitals_between_empty_lines_and_ends_in_to_or_is_forced() {
    reads(
        "He spits.\n\nFADE TO:\n\nEXT. SEA",
        &["action He spits.", "transition FADE TO:", "heading EXT. SEA"],
    );
    reads("\nFade to:\n", &["action Fade to:"]);
    reads("\n> To black.\n", &["transition To black."]);
    reads("\nFADE TO: \n", &["action FADE TO:"]);
    reads("\n.FADE TO:\n", &["heading FADE TO:"]);
}

#[test]
fn centred_text_stands_between_angle_brackets() {
    reads(">NIGHT THREE<", &["centred NIGHT THREE"]);
    reads("  >  NIGHT THREE  <", &["centred NIGHT THREE"]);
}

#[test]
fn emphasis_is_taken_off_within_its_line() {
    reads(
        "She reads *slack*, **springs** and ***neaps*** on the _board_.",
        &["action She reads slack, springs and neaps on the board."],
    );
    reads(r"The lid says **\*A.K.\***.", &["action The lid says *A.K.*."]);
    reads("Berth *4 and then *6, he says.", &["action Berth *4 and then *6, he says."]);
    reads(
        "The pilot and Netta *look away.\n\nIt is late.*",
        &["action The pilot and Netta *look away.", "action It is late.*"],
    );
}

#[test]
fn a_title_page_comes_first_with_values_behind_keys_or_indented_below_them() {
    let text = "Title:\n    _**SALT**_\n    **IN THE DOOR**\nCredit: by\nAuthors: A. and B.\nContact:\n\tQuay 3\n\nIt rains.";
    let script = read(text);
    assert_eq!(script.title, "SALT IN THE DOOR");
    let [rain] = script.elements.as_slice() else { panic!("{:?}", script.elements) };
    assert_eq!((rain.text.as_str(), rain.line), ("It rains.", 9));
    assert_eq!(read("Draft date: 4 May 1927\n\nIt rains.").elements.len(), 1);
    assert_eq!(read("Tide table: yes\n\nIt rains.").elements.len(), 1, "any key may stand there");
    reads("FADE IN:\n\nIt rains.", &["action FADE IN:", "action It rains."]);
}

#[test]
fn three_equals_signs_begin_a_page() {
    reads(
        "He spits.\n\n===\n\n=====\n\nShe goes.",
        &["action He spits.", "page", "page", "action She goes."],
    );
}

#[test]
fn punctuation_stays_as_it_is_typed() {
    reads("She waits -- \"no\" --- and waits...", &["action She waits -- \"no\" --- and waits..."]);
}

#[test]
fn indentation_outside_of_action_means_nothing() {
    reads(
        "\t\t\tFADE TO:\n\n\tEXT. SEA\n\n\t\t\tNETTA\n\t\t(low)\n\tHold.",
        &["transition FADE TO:", "heading EXT. SEA", "cue NETTA", "brackets (low)", "speech Hold."],
    );
}

#[test]
fn notes_stand_in_lines_and_between_them_and_over_them() {
    reads(
        "NETTA and PIM[[is there a better name?]] haul.\n\n[[This is Danish, no?]]\n\nPIM\n(low)\nHold.",
        &["action NETTA and PIM haul.", "cue PIM", "brackets (low)", "speech Hold."],
    );
    reads("A bell.[[More here.\nOr tea.\n  \nTea.]] She looks up.", &["action A bell. She looks up."]);
}

#[test]
fn a_boneyard_takes_out_as_much_as_it_holds() {
    reads(
        "It is late.\n\nFADE TO:\n/*\nINT. SHED\n\nPIM\nNo.\n\nFADE TO:\n*/\nEXT. SEA\n\nA seal.",
        &["action It is late.", "transition FADE TO:", "heading EXT. SEA", "action A seal."],
    );
    reads("A /* small */seal.", &["action A seal."]);
}

#[test]
fn sections_and_synopses_are_told_apart_by_their_marks_and_are_not_on_the_page() {
    reads(
        "# Part one\n\n## The slip\n\n### Later\n\n= She waits.\n\nEXT. SEA\n\n= Still.\n\nA seal.",
        &[
            "section 1 Part one",
            "section 2 The slip",
            "section 3 Later",
            "synopsis She waits.",
            "heading EXT. SEA",
            "synopsis Still.",
            "action A seal.",
        ],
    );
}

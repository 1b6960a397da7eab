//! Changing an entry of the sheet, and taking one away.

use super::entries::{Spot, recognition_words};
use super::wishes;
use crate::board::{
    Board, Evidence, EvidenceKind, Outfit, OutfitId, PeriodId, PicturePath, Recognition, Standing,
};
use crate::screen::app::App;
use crate::screen::dates::{date_of, date_says};
use crate::screen::layers::{Editor, Field, Form, Item, Next, Pick};
use crate::screen::views::Target;
use crate::screen::wearable::{Wearable, counted, list_of};

/// Changes an entry; says whether the sheet stays.
pub fn change(app: &mut App, id: &OutfitId, spot: Spot) -> Next {
    let Some(outfit) = app.board().outfit(id) else { return Next::Close };
    let (outfit, wearable, id) = (outfit.clone(), Wearable::Outfit(id.clone()), id.clone());
    match spot {
        Spot::Title => app.rename(Target::Outfit(id)),
        Spot::Worn => write_worn(app, id, &outfit),
        Spot::Occasion => {
            write_line(app, id, "occasion", outfit.occasion, |outfit, text| outfit.occasion = text)
        }
        Spot::Silhouette => {
            write_line(app, id, "silhouette", outfit.silhouette, |outfit, text| outfit.silhouette = text);
        }
        Spot::Period => choose_period(app, id, &outfit),
        Spot::Standing => return decide(app, id),
        Spot::Recognition => choose_recognition(app, id, &outfit),
        Spot::Piece(at) => app.write_piece(wearable, Some(at)),
        Spot::AddPiece => app.write_piece(wearable, None),
        Spot::Evidence(at) => write_evidence(app, id, &outfit, Some(at)),
        Spot::AddEvidence => write_evidence(app, id, &outfit, None),
        Spot::Thread(thread) => {
            let threads = &app.board().head().threads;
            let at = threads.iter().position(|one| one.id == thread).unwrap_or(0);
            app.choose_threads(wearable, at);
        }
        Spot::AddThread => app.choose_threads(wearable, 0),
        Spot::Dressing(at) => app.write_dressing(wearable, Some(at)),
        Spot::AddDressing => app.write_dressing(wearable, None),
        Spot::WishBase | Spot::AddWish => wishes::add(app, id),
        Spot::Apart(other) | Spot::Together(other) => app.open_sheet(Target::Outfit(other)),
        Spot::Pictures => write_pictures(app, id, &outfit),
        Spot::Tags => write_tags(app, id, &outfit),
        Spot::Notes => {
            let title = outfit.title.clone();
            app.open_layer(Editor::new(format!("Notes: {title}"), &outfit.notes, move |app, text| {
                amend(app, &id, format!("notes of {title}"), |outfit| outfit.notes = text);
            }));
        }
    }
    Next::Keep
}

/// Takes an entry away.
pub fn remove(app: &mut App, id: &OutfitId, spot: Spot) {
    let Some(outfit) = app.board().outfit(id) else { return };
    let title = outfit.title.clone();
    let wearable = Wearable::Outfit(id.clone());
    match spot {
        Spot::Piece(at) => app.drop_piece(&wearable, at),
        Spot::Thread(thread) => app.toggle_thread(&wearable, &thread),
        Spot::Dressing(at) => app.drop_dressing(&wearable, at),
        Spot::Evidence(at) => {
            if let Some(source) = outfit.evidence.get(at) {
                let label = format!("{title} without a source: {}", source.kind.word());
                amend(app, id, label, |outfit| drop(outfit.evidence.remove(at)));
            }
        }
        Spot::Worn => amend(app, id, format!("{title} is undated"), |outfit| outfit.worn = None),
        Spot::Period => {
            amend(app, id, format!("period of {title}: as the date says"), |outfit| outfit.period = None)
        }
        Spot::Standing => take_out(app, id),
        Spot::WishBase => wishes::base(app, id, None),
        Spot::Apart(other) => wishes::apart(app, [id.clone(), other], false),
        Spot::Together(other) => wishes::together(app, [id.clone(), other], false),
        _ => app.say(
            "x takes away a piece, source, thread, dressing note, wish, the date, or takes it out of its look",
        ),
    }
}

fn amend(app: &mut App, id: &OutfitId, label: String, change: impl FnOnce(&mut Outfit)) {
    let edit = app.board().change_outfit(id, label, change);
    app.change(edit);
}

fn take_out(app: &mut App, id: &OutfitId) {
    let ids = [id.clone()];
    let edit = match app.board().standing(id) {
        Standing::Open => return app.say("it is open already"),
        Standing::Folded(_) => app.board().release(&ids),
        Standing::LetGo(_) => app.board().take_back(&ids),
    };
    app.change(edit);
}

fn write_line(
    app: &mut App,
    id: OutfitId,
    label: &'static str,
    now: String,
    put: impl Fn(&mut Outfit, String) + 'static,
) {
    let title = app.board().outfit(&id).map_or(String::new(), |outfit| outfit.title.clone());
    let form = Form::new(title.clone(), vec![Field::line(label, now)], move |app, filled| {
        let text = filled.first().map_or("", |filled| filled.text()).to_owned();
        amend(app, &id, format!("{label} of {title}: {text}"), |outfit| put(outfit, text));
        Ok(())
    });
    app.open_layer(form);
}

fn write_worn(app: &mut App, id: OutfitId, outfit: &Outfit) {
    let now = outfit.worn.as_ref().map_or(String::new(), ToString::to_string);
    let title = outfit.title.clone();
    let fields = vec![Field::line("worn", now).read_as(date_says)];
    let form = Form::new(format!("When was it worn? {title}"), fields, move |app, filled| {
        let worn = date_of(filled.first().map_or("", |filled| filled.text()))?;
        let words = worn.as_ref().map_or("undated".to_owned(), |date| date.short());
        let label = format!("{title} was worn: {words}");
        // Another date may bring its look into a period that is full.
        let id = id.clone();
        app.propose(Vec::new(), move |board| {
            board.change_outfit(&id, label.clone(), |outfit| outfit.worn.clone_from(&worn))
        })
    });
    app.open_layer(form);
}

fn choose_period(app: &mut App, id: OutfitId, outfit: &Outfit) {
    let periods = &app.board().head().periods;
    let ids: Vec<PeriodId> = periods.iter().map(|period| period.id.clone()).collect();
    let mut items = vec![Item::new("As the date says", "")];
    items.extend(periods.iter().map(|period| Item::new(&period.title, period.span.short())));
    let at =
        outfit.period.as_ref().and_then(|own| ids.iter().position(|id| id == own)).map_or(0, |at| at + 1);
    let title = outfit.title.clone();
    let pick = Pick::question(format!("Period of {title}"), Vec::new(), items, move |app, choice| {
        let period = choice.checked_sub(1).and_then(|at| ids.get(at)).cloned();
        let words = period.as_ref().map_or("as the date says", |period| app.board().title_of(period));
        let label = format!("period of {title}: {words}");
        let make = move |board: &Board| {
            board.change_outfit(&id, label.clone(), |outfit| outfit.period.clone_from(&period))
        };
        if let Err(wrong) = app.propose(Vec::new(), make) {
            app.warn(wrong);
        }
    });
    app.open_layer(pick.at(at));
}

fn choose_recognition(app: &mut App, id: OutfitId, outfit: &Outfit) {
    let steps: Vec<Recognition> = (0..=Recognition::MOST).filter_map(Recognition::new).collect();
    let items = steps.iter().map(|step| Item::new(recognition_words(*step), "")).collect();
    let title = outfit.title.clone();
    let at = usize::from(outfit.recognition.get());
    let pick =
        Pick::question(format!("How well is {title} known?"), Vec::new(), items, move |app, choice| {
            let Some(step) = steps.get(choice).copied() else { return };
            let label = format!("recognition of {title}: {}", step.get());
            amend(app, &id, label, |outfit| outfit.recognition = step);
        });
    app.open_layer(pick.at(at));
}

fn write_evidence(app: &mut App, id: OutfitId, outfit: &Outfit, at: Option<usize>) {
    let was = at.and_then(|at| outfit.evidence.get(at)).cloned();
    let now = was.clone().unwrap_or(Evidence {
        kind: EvidenceKind::Photograph,
        source: String::new(),
        credit: String::new(),
        rights: String::new(),
        notes: String::new(),
    });
    let kinds = EvidenceKind::ALL.iter().map(|kind| kind.word().to_owned()).collect();
    let kind_at = EvidenceKind::ALL.iter().position(|kind| *kind == now.kind).unwrap_or(0);
    let fields = vec![
        Field::choice("kind", kinds, kind_at),
        Field::line("source", now.source),
        Field::line("credit", now.credit),
        Field::line("rights", now.rights),
        Field::line("notes", now.notes),
    ];
    let title = outfit.title.clone();
    let form = Form::new(format!("How do we know of {title}?"), fields, move |app, filled| {
        let [kind, source, credit, rights, notes] = filled else { return Ok(()) };
        let evidence = Evidence {
            kind: EvidenceKind::ALL.get(kind.choice()).copied().unwrap_or(EvidenceKind::Hearsay),
            source: source.text().to_owned(),
            credit: credit.text().to_owned(),
            rights: rights.text().to_owned(),
            notes: notes.text().to_owned(),
        };
        let label = format!("source of {title}: {}", evidence.kind.word());
        let was = was.as_ref();
        amend(app, &id, label, |outfit| match outfit.evidence.iter_mut().find(|have| Some(&**have) == was) {
            Some(have) => *have = evidence,
            None => outfit.evidence.push(evidence),
        });
        Ok(())
    });
    app.open_layer(form);
}

fn write_pictures(app: &mut App, id: OutfitId, outfit: &Outfit) {
    let now: Vec<&str> = outfit.pictures.iter().map(PicturePath::as_str).collect();
    let reading = |text: &str| pictures_of(text).map(|_| counted(text, "picture"));
    let fields = vec![Field::line("pictures", now.join("; ")).read_as(reading)];
    let title = outfit.title.clone();
    let form = Form::new(format!("Pictures of {title}"), fields, move |app, filled| {
        let pictures = pictures_of(filled.first().map_or("", |filled| filled.text()))?;
        amend(app, &id, format!("pictures of {title}"), |outfit| outfit.pictures = pictures);
        Ok(())
    });
    app.open_layer(form.lead(vec!["Paths below the board's folder, such as images/plate-12.jpg".to_owned()]));
}

fn pictures_of(text: &str) -> Result<Vec<PicturePath>, String> {
    list_of(text).iter().map(|path| path.parse()).collect()
}

fn write_tags(app: &mut App, id: OutfitId, outfit: &Outfit) {
    let fields = vec![Field::line("tags", outfit.tags.join("; ")).read_as(|text| Ok(counted(text, "tag")))];
    let title = outfit.title.clone();
    let form = Form::new(format!("Words to find {title} by"), fields, move |app, filled| {
        let tags = list_of(filled.first().map_or("", |filled| filled.text()));
        amend(app, &id, format!("tags of {title}"), |outfit| outfit.tags = tags);
        Ok(())
    });
    app.open_layer(form);
}

/// What becomes of it: a look it is in opens; otherwise asks.
fn decide(app: &mut App, id: OutfitId) -> Next {
    let (title, standing) = match app.board().standing(&id) {
        Standing::Folded(look) => {
            let look = look.clone();
            app.open_sheet(Target::Look(look));
            return Next::Close;
        }
        Standing::LetGo(_) => ("It was let go", true),
        Standing::Open => ("It is open", false),
    };
    let mut items = vec![
        Item::new("Gather it into a new look", ""),
        Item::new("Fold it into a look that is there", ""),
        Item::new(if standing { "Give another reason to let it go" } else { "Let it go, and say why" }, ""),
    ];
    if standing {
        items.push(Item::new("Take it back", "it is open again"));
    }
    app.open_layer(Pick::question(title, Vec::new(), items, move |app, choice| match choice {
        0 => app.gather(vec![id]),
        1 => app.fold(vec![id]),
        2 => app.let_go(vec![id]),
        _ => take_out(app, &id),
    }));
    Next::Keep
}

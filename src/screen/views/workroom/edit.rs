//! Writing measures, rules, fittings, trials and cloths.

use super::measures::Column;
use super::seen::Seen;
use super::{act, cloth as cloths, measures, read, why};
use crate::board::making::{PieceOf, Whose};
use crate::board::{Board, BodyId, ClothId, Found, Measure, Refused, Role, Rule, Verdict};
use crate::screen::app::App;
use crate::screen::dates::today;
use crate::screen::layers::form::Filled;
use crate::screen::layers::{Cell, Field, Form};
use crate::trade::body::BodyMeasure;
use crate::trade::length::{Length, Size, Unit};
use crate::workroom::copies::plan::Garment;
use crate::workroom::fit;
use crate::workroom::fit::plausible::doubt;

/// The piece of a garment.
pub fn piece_of(garment: &Garment) -> PieceOf {
    PieceOf { look: garment.look.clone(), piece: garment.piece.clone() }
}

/// The garment and the row of its measures in focus, or why there is none.
fn in_focus<'a>(app: &App, seen: &Seen<'a>) -> Result<(Garment, fit::Row<'a>), &'static str> {
    let garment = seen
        .garment
        .clone()
        .ok_or("the look has no piece yet: W goes to the look, where pieces are added")?;
    let rows = measures::rows(seen, &garment);
    let at = app.workroom.cursors[super::Tab::Measures.place()].at.min(rows.len().saturating_sub(1));
    let row = rows.into_iter().nth(at).ok_or("the piece has no measures yet: a adds the first")?;
    Ok((garment, row))
}

/// Writes the cell in focus, or tells what its number is made of.
pub fn cell(app: &mut App) {
    let Some(seen) = act::seen(app) else { return };
    let (garment, row) = match in_focus(app, &seen) {
        Ok(found) => found,
        Err(why) => return app.say(why),
    };
    let by_none = "it is as it was on the original, whoever wears it: r gives it another rule";
    match app.workroom.column {
        Column::Measure | Column::Gives | Column::Adds | Column::Cut => why::show(app),
        Column::Rule => rule(app),
        Column::Fitted => fitting(app),
        Column::Garment => {
            let (size, name) = (row.garment, row.measure.name.clone());
            write(app, size, None, move |board, size| {
                board.measure_garment(&piece_of(&garment), &name, size)
            });
        }
        Column::Body => {
            let Some(of) = row.measure.rule.of() else { return app.say(by_none) };
            let (whose, size) = original(&seen, of);
            write(app, size, Some(of), move |board, size| board.measure_body(&whose, of, size));
        }
        Column::Wearer => {
            let Some(of) = row.measure.rule.of() else { return app.say(by_none) };
            let (size, whose) = (row.wearer, wearer(&seen, garment.wearer));
            write(app, size, Some(of), move |board, size| board.measure_body(&whose, of, size));
        }
    }
}

/// The body that wore the original, be it not there yet, and what it measures.
fn original(seen: &Seen<'_>, of: BodyMeasure) -> (Whose, Option<Size>) {
    let character = seen.look.character.clone();
    match fit::original_of(seen.board, seen.look) {
        Some(body) => {
            let whose =
                Whose { character: owner(seen, &body.id), body: body.id.clone(), role: Role::Original };
            (whose, body.measures.get(&of).copied())
        }
        None => {
            let title = format!("original {}", seen.board.name_of(&character));
            (Whose { character, body: seen.board.free_body_id(&title), role: Role::Original }, None)
        }
    }
}

fn wearer(seen: &Seen<'_>, body: BodyId) -> Whose {
    Whose { character: owner(seen, &body), body, role: Role::Performer }
}

/// The character whose body it is: the look's own where nobody has it yet.
fn owner(seen: &Seen<'_>, body: &BodyId) -> crate::board::CharacterId {
    let found = seen.board.body(body);
    found.map_or_else(|| seen.look.character.clone(), |(character, _)| character.id.clone())
}

/// Writes a size in the cell in focus. With a measure of the body, what is doubtful about it is told while it is written.
fn write(
    app: &mut App,
    size: Option<Size>,
    of: Option<BodyMeasure>,
    edit: impl Fn(&Board, Option<Size>) -> Result<crate::board::Edit, Refused> + 'static,
) {
    let unit = app.board().head().units;
    let text = size.map_or(String::new(), |size| size.length().shown(unit));
    let reading = move |text: &str| {
        let Some(size) = read::size(text, unit)? else {
            return Ok("not measured; or such as 57.2 cm, 22 1/2 in".to_owned());
        };
        let doubt = of.and_then(|of| doubt(of, size.length()));
        let doubt = doubt.map_or(String::new(), |doubt| format!("; but {}", doubt.words(unit)));
        Ok(format!("{}{doubt}", read::both(size.length(), unit)))
    };
    let was = text.clone();
    let place = app.workroom.cell.clone();
    app.open_layer(Cell::new(place, text, reading, move |app, text| {
        // What is shown is rounded: what was not touched stays as it was measured.
        if text != was {
            let edit = edit(app.board(), read::size(text, unit)?);
            app.change(edit);
        }
        Ok(())
    }));
}

/// The rules, in the order in which they are offered.
const RULES: [&str; 4] = ["ease", "ratio", "landmark", "same"];

/// Adds a measure to the piece in focus.
pub fn add_measure(app: &mut App) {
    let Some(seen) = act::seen(app) else { return };
    let Some(garment) = seen.garment.clone() else {
        return app.say("the look has no piece yet: W goes to the look, where pieces are added");
    };
    let unit = seen.unit;
    let mut fields = vec![Field::line("measure", "")];
    fields.extend(rule_fields(None, unit));
    fields.push(Field::line("original garment", "").read_as(read::size_reading(unit)));
    let of = piece_of(&garment);
    let title = format!("A measure of the {}", garment.piece);
    app.open_layer(Form::new(title, fields, move |app, filled| {
        let (Some(name), Some(original)) = (filled.first(), filled.last()) else { return Ok(()) };
        let name = name.text().to_owned();
        if name.is_empty() {
            return Err("say which measure of the piece: chest, leg, collar".to_owned());
        }
        let make = app.board().look(&of.look).and_then(|look| look.make.get(&of.piece));
        if make.is_some_and(|make| make.measures.iter().any(|measure| measure.name == name)) {
            return Err(format!("the {} has a measure `{name}` already", of.piece));
        }
        let rule = rule_of(&filled[1..], unit)?;
        let original = read::size(original.text(), unit)?;
        // The base outfit is where the original is measured, where there is one.
        let has_base = app.board().look(&of.look).is_some_and(|look| look.base.is_some());
        let own = original.filter(|_| !has_base);
        let mut edit = app.board().set_measure(&of, Measure { name: name.clone(), original: own, rule });
        if let (Ok(first), Some(size), true) = (&mut edit, original, has_base) {
            let mut board = app.board().clone();
            let then = board.apply(first).and_then(|_| board.measure_garment(&of, &name, Some(size)));
            first.changes.extend(then.map_err(|refused| refused.to_string())?.changes);
        }
        app.change(edit);
        Ok(())
    }));
}

/// Changes the rule of the measure in focus and its numbers.
pub fn rule(app: &mut App) {
    let Some(seen) = act::seen(app) else { return };
    let (garment, row) = match in_focus(app, &seen) {
        Ok(found) => found,
        Err(why) => return app.say(why),
    };
    let (unit, measure) = (seen.unit, row.measure.clone());
    let fields = rule_fields(Some(measure.rule), unit);
    let title = format!("The rule of the {}'s {}", garment.piece, measure.name);
    app.open_layer(Form::new(title, fields, move |app, filled| {
        let rule = rule_of(filled, unit)?;
        let edit = app.board().set_measure(&piece_of(&garment), Measure { rule, ..measure.clone() });
        app.change(edit);
        Ok(())
    }));
}

fn rule_fields(now: Option<Rule>, unit: Unit) -> Vec<Field> {
    let place = now.and_then(|rule| RULES.iter().position(|word| *word == rule.word())).unwrap_or(0);
    let of = now.and_then(Rule::of).map_or(String::new(), |of| of.words().to_owned());
    let (mut eased, mut fraction, mut angle) = (String::new(), String::new(), String::new());
    match now {
        Some(Rule::Ease { eased: Some(length), .. } | Rule::Ratio { eased: Some(length), .. }) => {
            eased = length.shown(unit);
        }
        Some(Rule::Landmark { fraction: part, angle: lies, .. }) => {
            fraction = part.map_or(String::new(), |part| part.to_string());
            angle = lies.to_string();
        }
        _ => {}
    }
    vec![
        Field::choice("rule", RULES.map(str::to_owned).to_vec(), place),
        Field::line("of the body's", of).read_as(read::body_measure_says),
        Field::line("ease, if its body is unknown", eased).read_as(read::length_reading(unit)),
        Field::line("landmark: part, if seen", fraction).read_as(|text| {
            let empty = || "only where it is seen on a picture: such as 60 %".to_owned();
            Ok(read::read::<crate::trade::fraction::Fraction>(text)?
                .map_or_else(empty, |part| format!("{part} of the way")))
        }),
        Field::line("landmark: angle", angle).read_as(|text| {
            let empty = || "at how many degrees the edge lies: such as 70".to_owned();
            Ok(read::read::<crate::trade::angle::Angle>(text)?.map_or_else(empty, |angle| angle.to_string()))
        }),
    ]
}

/// The rule that was filled in, or what it lacks; what another rule would need is left out.
fn rule_of(filled: &[Filled], unit: Unit) -> Result<Rule, String> {
    let [rule, of, eased, fraction, angle, ..] = filled else { return Ok(Rule::Same) };
    let of = || {
        let lacks = || "say which measure of the body it goes by: such as bust girth".to_owned();
        read::read::<BodyMeasure>(of.text())?.ok_or_else(lacks)
    };
    let eased = read::length(eased.text(), unit)?;
    match RULES.get(rule.choice()) {
        Some(&"ease") => Ok(Rule::Ease { of: of()?, eased }),
        Some(&"ratio") => Ok(Rule::Ratio { of: of()?, eased }),
        Some(&"landmark") => {
            let lacks = || "say at how many degrees the edge lies: such as 70".to_owned();
            Ok(Rule::Landmark {
                of: of()?,
                fraction: read::read(fraction.text())?,
                angle: read::read(angle.text())?.ok_or_else(lacks)?,
            })
        }
        _ => Ok(Rule::Same),
    }
}

/// Takes the measure in focus away.
pub fn drop_measure(app: &mut App) {
    if !(app.workroom.inside && app.workroom.tab == super::Tab::Measures) {
        return app.say("x takes away the measure in focus: tab goes to the measures");
    }
    let Some(seen) = act::seen(app) else { return };
    match in_focus(app, &seen) {
        Ok((garment, row)) => {
            let edit = seen.board.drop_measure(&piece_of(&garment), &row.measure.name);
            app.change(edit);
        }
        Err(why) => app.say(why),
    }
}

/// Notes what today's fitting found of the measure in focus.
pub fn fitting(app: &mut App) {
    let Some(seen) = act::seen(app) else { return };
    let (garment, row) = match in_focus(app, &seen) {
        Ok(found) => found,
        Err(why) => return app.say(why),
    };
    let (unit, on) = (seen.unit, today());
    let own = fit::wearer_of(seen.board, seen.look);
    let measure = row.measure.name.clone();
    let today = seen
        .look
        .fittings
        .iter()
        .find(|fitting| fitting.on == on && *fitting.wearer.as_ref().unwrap_or(&own) == garment.wearer);
    let is_same = |found: &&Found| found.piece == garment.piece && found.measure == measure;
    let now = today.and_then(|fitting| fitting.found.iter().find(is_same)).cloned();
    let shown = |size: Option<Size>| size.map_or(String::new(), |size| size.length().shown(unit));
    let (measured, decided) = now.as_ref().map_or((None, None), |now| (now.measured, now.decided));
    let pinned = now.as_ref().and_then(|now| now.pinned).map_or(String::new(), |pinned| pinned.shown(unit));
    let fields = vec![
        Field::line("measured", shown(measured)).read_as(read::size_reading(unit)),
        Field::line("pinned out −, let in +", pinned).read_as(read::length_reading(unit)),
        Field::line("decided", shown(decided)).read_as(read::size_reading(unit)),
    ];
    let who = seen.board.who_is(&garment.wearer);
    let mut lead = vec![format!("on {who}, {}", on.short())];
    lead.extend(row.result().map(|length| format!("so far it is cut {}", length.shown(unit))));
    let title = format!("Fitting: {measure} of the {}", garment.piece);
    let form = Form::new(title, fields, move |app, filled| {
        let [measured, pinned, decided] = filled else { return Ok(()) };
        let found = Found {
            piece: garment.piece.clone(),
            measure: measure.clone(),
            measured: read::size(measured.text(), unit)?,
            pinned: read::length(pinned.text().trim_start_matches('+'), unit)?,
            decided: read::size(decided.text(), unit)?,
        };
        if (found.measured, found.pinned, found.decided) == (None, None, None) {
            return Err("write what was measured, pinned or decided".to_owned());
        }
        let edit = app.board().note_fitting(&garment.look, &on, (&garment.wearer, &own), found);
        app.change(edit);
        Ok(())
    });
    app.open_layer(form.lead(lead));
}

/// The cloth in focus.
fn cloth_in_focus(app: &App, seen: &Seen<'_>) -> Option<ClothId> {
    let all = cloths::cloths(seen);
    let at = app.workroom.cursors[super::Tab::Cloth.place()].at.min(all.len().checked_sub(1)?);
    all.into_iter().nth(at)
}

const NO_CLOTH: &str = "the look takes no cloth yet: E writes in its file what a piece takes of which cloth";

/// Notes a trial of the cloth in focus.
pub fn trial(app: &mut App) {
    let Some(seen) = act::seen(app) else { return };
    let Some(id) = cloth_in_focus(app, &seen) else { return app.say(NO_CLOTH) };
    let Some(cloth) = seen.board.cloth(&id) else { return };
    let verdicts = Verdict::ALL.map(|verdict| verdict.word().to_owned()).to_vec();
    let fields = vec![
        Field::line("weight", "").read_as(read::weight_says),
        Field::choice("verdict", verdicts, 0),
        Field::line("notes", ""),
    ];
    let title = format!("A trial of {}", cloth.title);
    app.open_layer(Form::new(title, fields, move |app, filled| {
        let [weight, verdict, notes] = filled else { return Ok(()) };
        let weight =
            read::read(weight.text())?.ok_or_else(|| "say how heavy it is: such as 280 g/m²".to_owned())?;
        let verdict = Verdict::ALL.get(verdict.choice()).copied().unwrap_or(Verdict::TooLight);
        let edit = app.board().note_trial(&id, &today(), (weight, verdict), notes.text());
        app.change(edit);
        Ok(())
    }));
}

/// Changes what is most often asked of a cloth.
pub fn cloth(app: &mut App) {
    let Some(seen) = act::seen(app) else { return };
    let Some(id) = cloth_in_focus(app, &seen) else { return app.say(NO_CLOTH) };
    let Some(now) = seen.board.cloth(&id).cloned() else { return };
    let unit = seen.unit;
    let text = |text: Option<String>| text.unwrap_or_default();
    let fields = vec![
        Field::line("weight", text(now.weight.map(|weight| weight.to_string()))).read_as(read::weight_says),
        Field::line("width", text(now.width.map(|width| width.length().shown(unit))))
            .read_as(read::size_reading(unit)),
        Field::line("price of a metre or hide", text(now.price.map(|price| price.to_string()))),
        Field::line("in the house", text(now.stock.map(Length::in_metres)))
            .read_as(read::length_reading(unit)),
        Field::line("days to come", text(now.lead_days.map(|days| days.to_string()))),
        Field::line("supplier", &now.supplier),
    ];
    let title = now.title.clone();
    app.open_layer(Form::new(title, fields, move |app, filled| {
        let [weight, width, price, stock, days, supplier] = filled else { return Ok(()) };
        let mut cloth = now.clone();
        cloth.weight = read::read(weight.text())?;
        // What is shown is rounded: what was not touched stays as it was.
        if width.text() != text(now.width.map(|width| width.length().shown(unit))) {
            cloth.width = read::size(width.text(), unit)?;
        }
        cloth.price = read::read(price.text())?;
        if stock.text() != text(now.stock.map(Length::in_metres)) {
            cloth.stock = read::length(stock.text(), unit)?;
        }
        cloth.lead_days = match days.text() {
            "" => None,
            days => Some(days.parse().map_err(|_| format!("`{days}` is no number of days"))?),
        };
        supplier.text().clone_into(&mut cloth.supplier);
        let edit = app.board().set_cloth(&id, Some(cloth), format!("changed {}", now.title));
        app.change(Ok(edit));
        Ok(())
    }));
}

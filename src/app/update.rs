//! The one function that changes the model.

use super::carry;
use super::command::{Command, Way};
use super::key::Key;
use super::keymap::{Mode, Resolution, resolve};
use super::message::{Effect, Message};
use super::model::{Model, Over, Question, Tone, is_too_small, site_year};
use super::slip::{self, About, Purpose, now};
use super::view::View;
use super::{cursor, days, filling, fits, growing, handling, pointer, printing, saving, tour, wizard};
use crate::calendar::{Date, MonthDay, Week, plus};
use crate::plan::Edit;
use crate::store;
pub(super) use crate::units::sentence;
use chrono::{Datelike as _, Months};

/// Takes in a message; what is to be done outside comes back.
pub fn update(model: &mut Model, message: Message) -> Vec<Effect> {
    let mut effects = taken(model, message);
    model.reckon();
    model.reckon_lists();
    if model.beside {
        carry::weigh(model);
    }
    effects.extend(model.errands.drain(..).map(Effect::Errand));
    effects
}

fn taken(model: &mut Model, message: Message) -> Vec<Effect> {
    match message {
        Message::Pressed(key) => pressed(model, key),
        Message::Touched(touch, target) => pointer::touched(model, touch, target),
        Message::Pasted(text) => {
            if let Some(effects) = insert(model, &text) {
                return effects;
            }
            model.say(Tone::Mind, "Pasted text is only taken where a line is typed.");
            Vec::new()
        }
        Message::Resized(cols, rows) => {
            model.size = (cols, rows);
            Vec::new()
        }
        Message::Day(date) => {
            if model.is_this_week() {
                model.week = Week::of(date);
            }
            model.today = date;
            Vec::new()
        }
        Message::Saved(done) => saving::saved(model, done),
        Message::PutAside(done) => saving::put_aside(model, done),
        Message::Added(id, done) => {
            match done {
                Ok((book, path)) => {
                    model.book = book;
                    model.refresh();
                    slip::variety_added(model, &id, &path.display().to_string());
                }
                Err(words) => model.say(Tone::Stop, sentence(&words)),
            }
            Vec::new()
        }
        Message::JournalFailed(words) => {
            model.say(Tone::Mind, words);
            Vec::new()
        }
        Message::Progressed(id, progress, gauge) => {
            filling::progressed(model, id, progress, gauge);
            Vec::new()
        }
        Message::Filled(id, proposal) => {
            filling::filled(model, id, *proposal);
            Vec::new()
        }
        Message::Failed(id, words) => {
            filling::failed(model, id, &words);
            Vec::new()
        }
        Message::Fitted(found) => {
            fits::fitted(model, *found);
            Vec::new()
        }
        Message::Reckoned(sums) => {
            model.take(*sums);
            Vec::new()
        }
        Message::Weighed(sowing) => {
            carry::weighed(model, *sowing);
            Vec::new()
        }
        Message::ErrandFailed(words) => {
            model.say(Tone::Stop, sentence(&words));
            Vec::new()
        }
        Message::PrintGoes(id, done, all) => {
            printing::goes(model, id, done, all);
            Vec::new()
        }
        Message::Printed(id, end) => {
            printing::ended(model, id, end);
            Vec::new()
        }
        Message::Stop => vec![Effect::Quit],
    }
}

/// Puts text into the line that is typed, where there is one.
fn insert(model: &mut Model, text: &str) -> Option<Vec<Effect>> {
    let mode = model.mode();
    if mode == Mode::Typing {
        return Some(slip::edit(model, |line| line.insert(text)));
    }
    (mode == Mode::Naming).then(|| printing::edit(model, |line| line.insert(text)))
}

fn pressed(model: &mut Model, key: Key) -> Vec<Effect> {
    // What can't be seen is not changed.
    if is_too_small(model.size) && key != Key::Interrupt {
        return Vec::new();
    }
    let mode = model.mode();
    if let Key::Char(letter) = key {
        let mut room = [0; 4];
        let letter: &str = letter.encode_utf8(&mut room);
        if let Some(effects) = insert(model, letter) {
            return effects;
        }
    }
    if key == Key::Esc && !model.pending.is_empty() {
        model.pending.clear();
        return Vec::new();
    }
    model.pending.push(key);
    match resolve(mode, &model.pending) {
        Resolution::Run(command) => {
            model.pending.clear();
            if let Some(why) = command.hindrance(model) {
                model.say(Tone::Mind, why);
                return Vec::new();
            }
            model.note = None;
            perform(model, command)
        }
        Resolution::Wait(_) => Vec::new(),
        Resolution::Unknown => {
            let keys = super::key::names(&model.pending);
            if model.pending.len() > 1 {
                model.say(Tone::Plain, format!("{keys} does nothing here."));
            }
            model.pending.clear();
            Vec::new()
        }
    }
}

/// Does what a command says.
#[expect(clippy::too_many_lines, reason = "a table of one row a command reads best in one piece")]
pub(super) fn perform(model: &mut Model, command: Command) -> Vec<Effect> {
    match command {
        Command::Go(view) => {
            model.view = view;
            model.scroll = 0;
            Vec::new()
        }
        Command::Weeks(n) => later(model, |week| week.plus(n)),
        Command::Months(n) => later(model, |week| Week::of(months_on(week.monday(), n))),
        Command::Today => {
            let today = model.today;
            time(model, |_| Week::of(today))
        }
        Command::Date => typed(model, Purpose::Date, ""),
        Command::Cursor(way) => cursor::step(model, way, 1),
        Command::Page(way) => cursor::page(model, way),
        Command::First => cursor::ends(model, Way::Up),
        Command::Last => cursor::ends(model, Way::Down),
        Command::Next => cursor::next(model, 1),
        Command::Previous => cursor::next(model, -1),
        Command::Open => open(model),
        Command::Back => back(model),
        Command::Undo => {
            let edit = model.history.undoing().cloned();
            let done = model.history.undo(&mut model.plan);
            after(model, "Undid", edit, done)
        }
        Command::Redo => {
            let edit = model.history.redoing().cloned();
            let done = model.history.redo(&mut model.plan);
            after(model, "Did again", edit, done)
        }
        Command::Save => saving::save(model),
        Command::SaveAs => {
            let text = model.path.as_ref().map(|p| p.display().to_string()).unwrap_or_default();
            typed(model, Purpose::SaveAs, &text)
        }
        Command::Quit => saving::quit(model),
        Command::SaveAndQuit => {
            model.over = None;
            model.leaving = true;
            saving::save(model)
        }
        Command::QuitUnsaved => vec![Effect::Quit],
        Command::Help => {
            model.over = Some(Over::Help(0));
            Vec::new()
        }
        Command::Palette => typed(model, Purpose::Palette, ""),
        Command::New(kind) => typed(model, Purpose::NewPlace(kind), ""),
        Command::Obstacle => typed(model, Purpose::Obstacle, ""),
        Command::Carry => handling::lift(model, false),
        Command::Copy => handling::lift(model, true),
        Command::Turn => handling::turn(model),
        Command::Drop => carry::drop(model),
        Command::Remove => handling::remove(model),
        Command::Edit(what) => about(model, what),
        Command::Matter(matter) => {
            let text = slip::matter_now(model, matter);
            typed(model, Purpose::Matter(matter), &text)
        }
        Command::Packets => match model.focus_crop().map(|c| c.id.clone()) {
            Some(id) => {
                let text = slip::packets_now(model, &id);
                typed(model, Purpose::Packets(id), &text)
            }
            None => Vec::new(),
        },
        Command::Variety => match model.focus_crop().map(|c| c.id.clone()) {
            Some(id) => slip::begin_variety(model, &id),
            None => Vec::new(),
        },
        Command::Stretch => carry::stretch(model),
        Command::Swap => super::swap::swap(model),
        Command::Mouse => pointer::switch(model),
        Command::Tour => tour::begin(model),
        Command::Retire => match model.focus_place().map(|p| p.id.clone()) {
            Some(id) => handling::retire(model, &id),
            None => Vec::new(),
        },
        Command::Zoom(step) if model.view == View::Weeks => {
            model.closer = model.closer.saturating_add_signed(step).min(3);
            Vec::new()
        }
        Command::Zoom(step) => {
            model.zoom = (model.zoom + step).clamp(-3, 3);
            Vec::new()
        }
        Command::Plant => growing::plant(model),
        Command::Fix => growing::fix(model),
        Command::Shift(weeks) => growing::shift(model, weeks),
        Command::Layer => growing::layer(model),
        Command::Restart => carry::restart(model),
        Command::Wish => growing::wish(model, true),
        Command::Weigh(steps) => growing::weigh(model, steps),
        Command::Aside => growing::set_aside(model),
        Command::Group => growing::group(model),
        Command::Alone => growing::alone(model),
        Command::Find => {
            let text = model.find.clone();
            typed(model, Purpose::Find, &text)
        }
        Command::Narrow => {
            slip::narrow(model);
            Vec::new()
        }
        Command::Tick => days::tick(model),
        Command::PutOff => days::put_off(model),
        Command::Diary => typed(model, Purpose::Diary, ""),
        Command::CloseSeason => days::ask_close(model),
        Command::NewGarden => wizard::begin(model),
        Command::Fill(way) => filling::start(model, way),
        Command::StopFill => filling::stop(model),
        Command::AcceptAll => filling::accept(model),
        Command::AcceptPlace => filling::accept_place(model),
        Command::DropOffer => filling::drop_by_hand(model),
        Command::Accept if is_printing(model) => printing::accept(model),
        Command::Accept => slip::accept(model),
        Command::Complete => slip::complete(model),
        Command::Stroke(stroke) if is_printing(model) => printing::edit(model, |line| line.stroke(stroke)),
        Command::Stroke(stroke) => slip::edit(model, |line| line.stroke(stroke)),
        Command::Yes => yes(model),
        Command::No => printing::no(model),
        Command::Fits => fits::begin(model),
        Command::Print => printing::begin(model),
        Command::Choose => printing::choose(model, 1),
    }
}

pub(super) fn typed(model: &mut Model, purpose: Purpose, text: &str) -> Vec<Effect> {
    slip::open(model, purpose, text);
    Vec::new()
}

fn about(model: &mut Model, what: About) -> Vec<Effect> {
    let Some(id) = model.focus_place().map(|p| p.id.clone()) else { return Vec::new() };
    let text = now(model, &id, what);
    typed(model, Purpose::Place(id, what), &text)
}

/// Applies an edit as a step of the history and says so.
pub(super) fn commit(model: &mut Model, edit: Edit) -> Vec<Effect> {
    model.offer = None;
    match model.history.commit(&mut model.plan, edit.clone()) {
        Ok(words) => {
            changed(model, &edit);
            model.say(Tone::Good, sentence(&words));
            vec![Effect::Journal(Box::new(edit))]
        }
        Err(error) => {
            model.say(Tone::Stop, sentence(&error.to_string()));
            Vec::new()
        }
    }
}

fn changed(model: &mut Model, edit: &Edit) {
    if touches_site(edit) {
        model.year = site_year(&model.plan);
    }
    model.refresh();
}

fn touches_site(edit: &Edit) -> bool {
    match edit {
        Edit::Site(_) => true,
        Edit::Batch(_, edits) => edits.iter().any(touches_site),
        Edit::Planting(..)
        | Edit::Place(..)
        | Edit::Wish(..)
        | Edit::Entry(..)
        | Edit::Record(_)
        | Edit::Settings(_)
        | Edit::Raising(_)
        | Edit::SetAside(_)
        | Edit::Drawer(_)
        | Edit::Closed(_)
        | Edit::Name(..) => false,
    }
}

fn after(
    model: &mut Model,
    did: &str,
    edit: Option<Edit>,
    done: Result<Option<String>, crate::plan::EditError>,
) -> Vec<Effect> {
    model.offer = None;
    match (done, edit) {
        (Ok(Some(words)), Some(edit)) => {
            changed(model, &edit);
            model.say(Tone::Good, format!("{did}: {words}."));
            vec![Effect::Journal(Box::new(edit))]
        }
        (Ok(_), _) => Vec::new(),
        (Err(error), _) => {
            model.say(Tone::Stop, sentence(&error.to_string()));
            Vec::new()
        }
    }
}

fn months_on(date: Date, months: i64) -> Date {
    let size = Months::new(u32::try_from(months.unsigned_abs()).unwrap_or(u32::MAX));
    if months < 0 { date.checked_sub_months(size) } else { date.checked_add_months(size) }.unwrap_or(date)
}

/// Shows another week.
pub(super) fn time(model: &mut Model, to: impl FnOnce(Week) -> Week) -> Vec<Effect> {
    let week = to(model.week);
    let years = model.today.year() - 60..=model.today.year() + 30;
    if years.contains(&week.year()) {
        model.week = week;
        carry::settle(model);
    } else {
        model.say(Tone::Mind, "That is too far from today.");
    }
    Vec::new()
}

/// The same, and what is carried begins so much later.
fn later(model: &mut Model, to: impl FnOnce(Week) -> Week) -> Vec<Effect> {
    let before = model.week;
    let effects = time(model, to);
    let weeks = before.until(model.week);
    if weeks != 0 {
        carry::postpone(model, weeks);
    }
    effects
}

fn open(model: &mut Model) -> Vec<Effect> {
    match model.view {
        View::Ground => match model.focus().map(|(p, cell)| (p.id.clone(), cell)) {
            Some((id, cell)) => {
                model.go_to(&id, cell);
                model.view = View::Bed;
            }
            None => model.say(Tone::Plain, "There is no bed or pot here: n lays one out."),
        },
        View::Weeks => return growing::go_to_row(model),
        View::Wishes if model.offer.is_none() => return growing::wish(model, model.focus_wish().is_none()),
        View::Findings => return growing::go_to_finding(model),
        View::Record => {
            let season = model.record_season();
            if let Some((id, _)) = model.record_row() {
                let text = slip::recorded(model, &id, season);
                return typed(model, Purpose::Past(id, season), &text);
            }
        }
        View::Bed if model.offer.is_none() => {
            if model.focus_planting().is_none() {
                return growing::plant(model);
            }
            return growing::lift(model, false);
        }
        View::Bed | View::Wishes => {
            model.say(Tone::Mind, "That is only proposed: accept it (a) or drop it (D) first.");
        }
        View::Jobs | View::Book | View::Needs => {}
    }
    Vec::new()
}

fn back(model: &mut Model) -> Vec<Effect> {
    model.leaving = false;
    match model.over.take() {
        Some(Over::Ask(Question::Recover(_))) => return vec![Effect::PutAside],
        Some(Over::Tour(_)) => return tour::end(model),
        Some(Over::Print(printing)) => return printing::left(&printing),
        Some(Over::Slip(slip)) => {
            match slip.purpose {
                Purpose::Question(step) => wizard::back(model, step),
                Purpose::Variety(crop, ask) => slip::variety_back(model, &crop, ask),
                Purpose::Palette
                | Purpose::NewPlace(_)
                | Purpose::Place(..)
                | Purpose::Matter(_)
                | Purpose::Packets(_)
                | Purpose::Crop
                | Purpose::Wish(_)
                | Purpose::Aside
                | Purpose::Find
                | Purpose::Narrow
                | Purpose::Past(..)
                | Purpose::Picked
                | Purpose::Diary
                | Purpose::Obstacle
                | Purpose::Date
                | Purpose::Fit(_)
                | Purpose::SaveAs => {}
            }
            return Vec::new();
        }
        Some(_) => return Vec::new(),
        None => {}
    }
    if model.carry.is_some() {
        carry::release(model);
    } else if model.view != View::Ground {
        model.view = View::Ground;
    }
    Vec::new()
}

const fn is_printing(model: &Model) -> bool {
    matches!(model.over, Some(Over::Print(_)))
}

fn yes(model: &mut Model) -> Vec<Effect> {
    if is_printing(model) {
        return printing::yes(model);
    }
    match model.over.take() {
        Some(Over::Ask(Question::Retire(id))) => handling::retire(model, &id),
        Some(Over::Ask(Question::SaveOver)) => saving::written(model, None, store::Over::Changed),
        Some(Over::Ask(Question::Recover(recovery))) => saving::take_up(model, recovery),
        Some(Over::Ask(Question::Close(season))) => days::close(model, season),
        Some(Over::Ask(Question::Leave) | Over::Help(_) | Over::Slip(_) | Over::Tour(_) | Over::Print(_))
        | None => Vec::new(),
    }
}

impl Model {
    /// The day the seasons of this garden begin.
    pub fn season_start(&self) -> MonthDay {
        let site = || self.year.as_ref().map(|y| y.season_start_or_january()).ok();
        self.plan.settings.season_start.or_else(site).unwrap_or(MonthDay { month: 1, day: 1 })
    }
    /// The season the record's cursor is on.
    pub fn record_season(&self) -> crate::calendar::Season {
        self.season().plus(self.season_at)
    }
    /// The season that holds the shown week: by its Thursday, as the week's number is.
    pub fn season(&self) -> crate::calendar::Season {
        crate::calendar::Season::holding(plus(self.week.monday(), 3), self.season_start())
    }
}

//! What fits a freed cell: the ranking of the fill, why each crop of it fits, and planting one.

use super::errand::Errand;
use super::fuzzy;
use super::message::Effect;
use super::model::{Model, Over, Tone};
use super::slip::{self, Choice, Purpose, Reading};
use super::sowing::start_words;
use super::timeline::Row;
use super::update::commit;
use super::view::View;
use crate::calendar::{ClimateDay, Date, Season, day_text, days_between};
use crate::check::{Context, Pause, Return, pauses, rotation_outlook};
use crate::crop::{Book, Crop, Start};
use crate::fill::{Fit, Freed, Handover, handover};
use crate::garden::{Block, Layer, PlaceId};
use crate::growth::{Sprouting, years};
use crate::plan::{Edit, Event, Plan, Planting, Why};
use crate::site::SiteYear;
use crate::units::{TempUnit, Temperature, capital};
use chrono::Datelike as _;
use std::sync::Arc;

/// Everything the ranking is given.
#[derive(Debug, Clone, PartialEq)]
pub struct FitsTask {
    /// The garden.
    pub plan: Plan,
    /// The crop book.
    pub book: Arc<Book>,
    /// The site's year.
    pub year: Arc<SiteYear>,
    /// The season of the shadows.
    pub season: Season,
    /// The cell and the day.
    pub freed: Freed,
}

/// What fits a freed cell, and what that is judged by.
#[derive(Debug, Clone, PartialEq)]
pub struct Fits {
    /// The cell and the day.
    pub freed: Freed,
    /// The ranking; none where the garden has no such cell on that day.
    pub found: Option<Handover>,
    /// Hours of direct sun a day on the cell in that month.
    pub sun: f64,
    /// Soil temperature on that day, degrees Celsius.
    pub soil: f64,
    /// What its soil says to the families of this garden.
    pub returns: Vec<Return>,
    /// Diseases recorded in its soil whose break still runs.
    pub pauses: Vec<Pause>,
}

impl FitsTask {
    /// Ranks what fits.
    pub fn run(&self) -> Fits {
        let Self { plan, book, year, season, freed } = self;
        let context = Context::whole(plan, book, year);
        let here = |place: &PlaceId| *place == freed.place;
        let sun = plan.place(&freed.place).map_or(0.0, |place| {
            place.sun_hours.map_or_else(
                || {
                    let hours = plan.light_at(book, year, *season, place, (freed.row, freed.col));
                    hours[usize::try_from(freed.on.month0()).unwrap_or(0)]
                },
                f64::from,
            )
        });
        Fits {
            freed: freed.clone(),
            found: handover(plan, book, year, freed),
            sun,
            soil: year.soil[ClimateDay::of(freed.on).index()],
            returns: rotation_outlook(&context, freed.on, 1).into_iter().filter(|r| here(&r.place)).collect(),
            pauses: pauses(&context, freed.on).into_iter().filter(|p| here(&p.place)).collect(),
        }
    }
}

/// The cell the question is about, and the day: the garden day of the week shown, or today where that is later in it.
fn freed(model: &Model) -> Option<Freed> {
    let shown = model.shown_day();
    let on = if model.is_this_week() { shown.max(model.today) } else { shown };
    let of = |place: &PlaceId, (row, col): (u16, u16)| Freed { place: place.clone(), row, col, on };
    match model.view {
        View::Jobs => {
            let planting =
                model.focus_job().and_then(|j| j.planting).and_then(|id| model.plan.planting(id))?;
            Some(of(&planting.place, (planting.block.row, planting.block.col)))
        }
        View::Weeks if matches!(model.row(), Some(Row::Place(_))) => {
            // A row of a whole place is about its first cell that is free then.
            let place = model.focus_place()?;
            let (rows, cols) = place.grid(model.plan.settings.cell);
            let mut cells = (0..rows).flat_map(|row| (0..cols).map(move |col| (row, col)));
            let free = cells.find(|cell| standing(model, &place.id, *cell, on).is_none());
            Some(of(&place.id, free.unwrap_or((0, 0))))
        }
        View::Ground | View::Bed | View::Weeks => model.focus().map(|(place, cell)| of(&place.id, cell)),
        View::Wishes | View::Findings | View::Record | View::Book | View::Needs => None,
    }
}

/// The main planting that stands in a cell and has not failed.
fn standing<'a>(model: &'a Model, place: &PlaceId, cell: (u16, u16), on: Date) -> Option<&'a Planting> {
    let planting = model.plan.standing(place, cell, Layer::Main, on)?;
    planting.failed.is_none_or(|failed| failed > on).then_some(planting)
}

/// Whether there is a cell that may be asked about.
pub(super) fn is_possible(model: &Model) -> bool {
    freed(model).is_some()
}

/// Asks what fits the cell at the cursor from the shown week on.
pub(super) fn begin(model: &mut Model) -> Vec<Effect> {
    let (Some(freed), Ok(year)) = (freed(model), model.year.clone()) else { return Vec::new() };
    if freed.on < model.today {
        model.say(Tone::Mind, "That week is past: t goes to today.");
        return Vec::new();
    }
    // Beside what stands there only a mate may be planted, where those are worked on.
    if model.layer == Layer::Main
        && let Some(planting) = standing(model, &freed.place, (freed.row, freed.col), freed.on)
    {
        let until = planting.ends().map_or_else(
            || String::from("for years"),
            |end| format!("until {}: . and > go on to then", day_text(end)),
        );
        let words = format!("{} stands here {until}.", planting.name);
        model.say(Tone::Mind, words);
        return Vec::new();
    }
    let (plan, book, season) = (model.plan.clone(), Arc::clone(&model.book), model.season());
    model.fits = None;
    slip::open(model, Purpose::Fit(freed.clone()), "");
    vec![Effect::Errand(Errand::Fits(Box::new(FitsTask { plan, book, year, season, freed })))]
}

/// The ranking has come.
pub(super) fn fitted(model: &mut Model, fits: Fits) {
    let asked =
        matches!(&model.over, Some(Over::Slip(slip)) if slip.purpose == Purpose::Fit(fits.freed.clone()));
    if asked {
        model.fits = Some(fits);
        slip::reread(model);
    }
}

/// What is asked, with the cell and the day.
pub(super) fn title(model: &Model, freed: &Freed) -> String {
    let name = model.plan.place(&freed.place).map_or("", |p| p.name.as_str());
    let cell = Block::cell(freed.row, freed.col);
    format!("What fits in {name} {cell} from {} on? Enter plants it", day_text(freed.on))
}

/// The ranking so far, of what is typed; the words are those of the crop at the cursor.
pub(super) fn read(model: &Model, freed: &Freed, text: &str) -> Reading {
    let Some(fits) = model.fits.as_ref().filter(|f| f.freed == *freed) else {
        return Reading::say(Tone::Plain, "Weighing every crop of the book against this cell ...");
    };
    let Some(found) = &fits.found else {
        return Reading::say(Tone::Mind, "There is no such cell on that day.");
    };
    let measure = model.plan.settings.measure;
    let fit = |fit: &Fit| {
        let mate = if fit.layer == Layer::Mate { "a mate, " } else { "" };
        let pick = fit
            .dates
            .first_pick
            .map_or_else(|| String::from("not picked"), |day| format!("from {}", day_text(day)));
        let wish =
            fit.wish.map_or_else(String::new, |(_, adds)| format!(", {} wanted", adds.reading(measure)));
        Choice {
            label: fit.name.clone(),
            detail: format!("{mate}{} in {}, {pick}{wish}", fit.plants, fit.block),
            fills: fit.name.clone(),
            key: fit.crop.0.clone(),
        }
    };
    let unfit = found.unfit.iter().map(|other| Choice {
        label: format!("({})", other.name),
        detail: format!("not now: {}", other.why),
        fills: other.name.clone(),
        key: other.crop.0.clone(),
    });
    let all = found.fits.iter().map(fit).chain(unfit);
    let choices = fuzzy::ranked(text, all, |choice| vec![choice.fills.clone()]);
    let words = choices.first().map_or_else(
        || vec![(Tone::Mind, String::from("Nothing of that name fits."))],
        |choice| words(model, &choice.key),
    );
    Reading { words, choices }
}

/// Why a crop fits, or does not.
pub(super) fn words(model: &Model, key: &str) -> Vec<(Tone, String)> {
    let Some((fits, found)) = model.fits.as_ref().and_then(|f| Some((f, f.found.as_ref()?))) else {
        return Vec::new();
    };
    if let Some(fit) = found.fits.iter().find(|f| f.crop.0 == key) {
        let crop = model.book.get(&fit.crop);
        let mut out = vec![(Tone::Plain, days_words(fits, found, fit))];
        out.push((Tone::Plain, crop.map_or_else(String::new, |c| ground_words(model, fits, fit.start, c))));
        out.extend(crop.map(|c| soil_words(model, fits, c)));
        return out;
    }
    let unfit = found.unfit.iter().find(|u| u.crop.0 == key);
    unfit.map(|u| vec![(Tone::Mind, format!("{} does not fit: {}.", u.name, u.why))]).unwrap_or_default()
}

/// "Sown in place, it takes 44 days of the 104 the cell is free, and is ripe before frost in 9 years of 10; 12.3 points."
fn days_words(fits: &Fits, found: &Handover, fit: &Fit) -> String {
    let on = fits.freed.on;
    let way = capital(start_words(fit.start));
    let takes = fit.dates.cleared.map_or_else(
        || format!("{way}, it stands for years"),
        |cleared| format!("{way}, it takes {} days", days_between(on, cleared)),
    );
    let room = found.until.map_or_else(
        || String::from(", and nothing is planned after"),
        |until| format!(" of the {} the cell is free", days_between(on, until)),
    );
    let ripe = if fit.dates.first_pick.is_some() {
        format!("; ripe before frost in {}", years(fit.chance))
    } else {
        String::new()
    };
    format!("{takes}{room}{ripe}. It adds {:.1} points.", fit.points)
}

/// The soil's warmth against what the seed wants, and the sun against what the plant wants.
fn ground_words(model: &Model, fits: &Fits, start: Start, crop: &Crop) -> String {
    let measure = model.plan.settings.measure;
    let degrees = |celsius: f64| Temperature::new(celsius, TempUnit::C).reading(measure);
    let seed = Sprouting::new(&crop.germination).filter(|_| start == Start::InPlace);
    let seed = seed.map_or_else(String::new, |seed| {
        let (least, most) = seed.sown_between();
        format!(" (its seed wants {} to {})", degrees(least), degrees(most))
    });
    format!(
        "Soil {}{seed}; {:.1} h of sun (it wants {}, and grows fully from {}).",
        degrees(fits.soil),
        fits.sun,
        crop.light.least,
        crop.light.full
    )
}

/// What the soil's record says of the family, and of diseases.
fn soil_words(model: &Model, fits: &Fits, crop: &Crop) -> (Tone, String) {
    let family = model.book.family(&crop.family).map_or(crop.family.as_str(), |f| f.common.as_str());
    let known = fits.returns.iter().find(|r| r.family == crop.family);
    let last = match known.map(|r| (r, r.until)) {
        Some((back, Some(until))) => format!(
            "Its family ({family}) was here until {} {}: {} free years are least, {} advised",
            day_text(until),
            until.year(),
            back.least,
            back.advised
        ),
        Some(_) | None => format!("Its family ({family}) is not in the record of this soil"),
    };
    let sick: Vec<&str> = fits.pauses.iter().map(|p| p.trouble.as_str()).collect();
    if sick.is_empty() {
        (Tone::Plain, format!("{last}; no disease is recorded here."))
    } else {
        (Tone::Mind, format!("{last}; recorded here: {}.", sick.join(", ")))
    }
}

/// Plants the crop at the cursor.
///
/// # Errors
/// Why it can't be planted there.
pub(super) fn accept(model: &mut Model, choice: Option<&str>) -> Result<Vec<Effect>, String> {
    let Some(fits) = &model.fits else { return Err(String::from("It is still being weighed: a moment.")) };
    let key = choice.unwrap_or_default();
    let fit = fits.found.as_ref().and_then(|found| found.fits.iter().find(|f| f.crop.0 == key)).cloned();
    let Some(fit) = fit else {
        let why = words(model, key).into_iter().next().map(|(_, words)| words);
        return Err(why.unwrap_or_else(|| String::from("Nothing of that name fits.")));
    };
    let crop = model.book.get(&fit.crop).ok_or_else(|| format!("'{}' is not in the crop book.", fit.crop))?;
    let planting = Planting {
        id: model.plan.next_planting(),
        crop: crop.id.clone(),
        name: fit.name,
        botanical: crop.botanical.clone(),
        family: crop.family.clone(),
        place: fits.freed.place.clone(),
        block: fit.block,
        layer: fit.layer,
        start: fit.start,
        plants: fit.plants,
        planned: fit.dates,
        shift: None,
        real: crate::growth::Dates::default(),
        fixed: true,
        why: Why::Hand,
        failed: None,
        note: String::new(),
    };
    model.fits = None;
    Ok(commit(model, Edit::Planting(planting.id, Some(Box::new(planting)))))
}

/// After an entry of the diary that says that something has failed: which key tells what fits there now.
pub(super) fn hint(model: &mut Model) {
    let failed = model.plan.diary.last().is_some_and(|entry| matches!(entry.what, Event::Failed(_)));
    let key = super::keymap::keys_of(model.mode(), super::Command::Fits);
    if let (true, Some(key), Some(note)) = (failed && is_possible(model), key, &mut model.note) {
        note.words = format!("{} {key} tells what fits there now.", note.words);
    }
}

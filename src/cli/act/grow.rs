//! `schedule` and `window`: one crop at one site.

use crate::calendar::{Date, plus};
use crate::cli::answer::{Answer, Trouble};
use crate::cli::args;
use crate::cli::here::Here;
use crate::cli::say;
use crate::cli::whence::{self, Climate, climate};
use crate::crop::{Book, Crop, Start};
use crate::growth::{
    Conditions, Method, Outlook, OwnDays, outlook, ready, replay, set_out_on, succession, windows_of,
};
use crate::plan::Plan;
use crate::site::SiteYear;
use crate::work;
use std::path::Path;
use std::sync::Arc;

/// The conditions of a garden, or of a place of which only the climate is known.
pub(super) fn open<'a>(plan: Option<&Plan>, book: &Book, year: &'a SiteYear) -> Conditions<'a> {
    plan.map_or_else(|| Conditions::new(year), |plan| plan.conditions(book, year))
}

/// The conditions of a crop at the climate, or in the garden it came from.
fn conditions<'a>(
    climate: &'a Climate,
    book: &Book,
    crop: &Crop,
    method: Option<args::MethodWord>,
) -> Conditions<'a> {
    let here = match &climate.plan {
        Some(plan) => plan.raised_for(&open(Some(plan), book, &climate.year), crop),
        None => open(None, book, &climate.year).by(whence::settings(climate).method),
    };
    let method = method.map_or(here.method, Method::from);
    let here = here.at(climate.risk).by(method);
    match &climate.weather {
        Some(weather) => here.lived(Arc::clone(weather)),
        None => here,
    }
}

/// What the garden has learnt of a crop, where it has.
fn learnt(climate: &Climate, book: &Book, crop: &Crop) -> Option<OwnDays> {
    climate.plan.as_ref()?.own_days(book, &climate.year).remove(&crop.id)
}

/// The ways of starting that are meant.
fn starts(crop: &Crop, word: Option<&str>) -> Result<Vec<Start>, Trouble> {
    let Some(word) = word else { return Ok(crop.starts.clone()) };
    let found: Vec<Start> = crop.starts.iter().copied().filter(|s| say::start_id(*s) == word).collect();
    if found.is_empty() {
        let ways: Vec<&str> = crop.starts.iter().map(|s| say::start_id(*s)).collect();
        return Err(Trouble::Wrong(format!("{} is not started by '{word}': {}", crop.name, ways.join(", "))));
    }
    Ok(found)
}

/// Stages of a planting, or the start that is ready on a day.
pub(super) fn schedule(args: &args::Schedule, here: &Here) -> Result<Answer, Trouble> {
    let climate = climate(&args.grow.whence, here)?;
    let mut said = climate.said.clone();
    let plan = args.grow.whence.site.as_deref().map(Path::new).filter(|_| climate.plan.is_some());
    let book = whence::book(plan, here, &mut said);
    let crop = super::find(&book, &args.grow.crop)?;
    let conditions = conditions(&climate, &book, crop, args.grow.method);
    let own = learnt(&climate, &book, crop);
    let start = *starts(crop, args.grow.start.as_deref())?
        .first()
        .ok_or_else(|| Trouble::Wrong(format!("{} names no way of starting", crop.name)))?;
    let found = match (args.ready, args.set_out) {
        (Some(by), _) => {
            let on = ready(crop, &conditions, start, by).ok_or_else(|| {
                Trouble::Wrong(format!(
                    "no start of {} is ready by {}: ask 'catchcrop window {}' for its windows",
                    crop.name,
                    say::full_day(by),
                    crop.id
                ))
            })?;
            outlook(crop, &conditions, start, on)
        }
        (None, Some(on)) => match set_out_on(crop, &conditions, start, on) {
            Ok(schedule) => Outlook { schedule: Some(schedule), against: Vec::new() },
            Err(refusal) => Outlook { schedule: None, against: vec![refusal] },
        },
        (None, None) => outlook(crop, &conditions, start, args.on.unwrap_or(here.today)),
    };
    let answer = if let Some(gap) = args.every {
        let first = found.schedule.as_ref().and_then(|s| s.dates.sown.or(s.dates.set_out));
        let first = first.unwrap_or_else(|| args.on.unwrap_or(here.today));
        let until = args.until.unwrap_or_else(|| plus(first, 365));
        let all = succession(crop, &conditions, start, first, gap, until);
        if all.is_empty() {
            let reasons: Vec<String> = found.against.iter().map(|r| r.words(climate.measure)).collect();
            return Err(Trouble::Wrong(format!("the first start does not succeed: {}", reasons.join("; "))));
        }
        Answer::either(
            args.grow.json,
            || say::succession_text(crop, &all, own),
            || say::succession_json(crop, &all, own, climate.measure),
        )
    } else {
        // What the years of a daily file would have made of the same start.
        let begun = found.schedule.as_ref().and_then(|s| s.dates.sown.or(s.dates.set_out));
        let years = begun.map(|on| replay(crop, &conditions, start, on)).filter(|r| !r.years.is_empty());
        let both = begun.and_then(|on| work::beside(crop, &conditions, start, on));
        Answer::either(
            args.grow.json,
            || {
                let mut text = say::schedule_text(crop, &found, own, &climate.year.name, climate.measure);
                if let Some(both) = &both {
                    text.push_str(&say::beside_text(both, climate.measure));
                }
                text.extend(years.as_ref().map(say::replay_text));
                text
            },
            || {
                let mut value = say::schedule_json(crop, &found, own, climate.measure);
                value["by_warmth"] = both.as_ref().map(|b| b.heat.to_string()).into();
                value["by_packet"] = both.as_ref().map(|b| b.catalogue.to_string()).into();
                value["years"] = years.as_ref().map(say::replay_json).unwrap_or_default();
                value
            },
        )
    };
    Ok(answer.saying(said))
}

/// The stretches of the year in which starts succeed.
pub(super) fn window(args: &args::Window, here: &Here) -> Result<Answer, Trouble> {
    let climate = climate(&args.grow.whence, here)?;
    let mut said = climate.said.clone();
    let plan = args.grow.whence.site.as_deref().map(Path::new).filter(|_| climate.plan.is_some());
    let book = whence::book(plan, here, &mut said);
    let crop = super::find(&book, &args.grow.crop)?;
    let conditions = conditions(&climate, &book, crop, args.grow.method);
    let own = learnt(&climate, &book, crop);
    let starts = starts(crop, args.grow.start.as_deref())?;
    let from = season_start(&climate, args.on.unwrap_or(here.today));
    let windows: Vec<_> = starts.iter().flat_map(|s| windows_of(crop, &conditions, *s, from)).collect();
    // Where nothing succeeds, one look a month says why.
    let why: Vec<_> = if windows.is_empty() {
        (0..12)
            .filter_map(|month| {
                let on = plus(from, month * 30 + 15);
                let first = *starts.first()?;
                outlook(crop, &conditions, first, on).against.last().map(|r| (on, *r))
            })
            .collect()
    } else {
        Vec::new()
    };
    Ok(Answer::either(
        args.grow.json,
        || say::window_text(crop, &windows, &why, own, &climate.year.name, climate.measure),
        || say::window_json(&windows),
    )
    .saying(said))
}

/// The first day of the season in which a day lies.
fn season_start(climate: &Climate, day: Date) -> Date {
    let start =
        whence::settings(climate).season_start.unwrap_or_else(|| climate.year.season_start_or_january());
    crate::calendar::Season::holding(day, start).first()
}

//! `note`: the diary from the shell.

use crate::calendar::{Date, day_text, plus};
use crate::cli::answer::{Answer, Trouble};
use crate::cli::args::{CauseWord, Note, Noted, StageWord};
use crate::cli::here::Here;
use crate::cli::table::wrap;
use crate::cli::{say, whence};
use crate::crop::{Book, inside};
use crate::fill::{Freed, handover};
use crate::garden::{Block, Layer, PlaceId};
use crate::growth::Stage;
use crate::plan::{Cause, DiaryEntry, Event, Plan, Planting, PlantingId};
use crate::site::SiteYear;
use crate::store::{Over, PlanFile, nearest};
use crate::work;

/// Days about a planting in which it may be meant without its number: its raising before, its last words after.
const ABOUT: i64 = 90;

/// Crops named for cells that have come free.
const FEW: usize = 5;

/// Writes an entry and saves.
pub(super) fn write(args: &Note, here: &Here) -> Result<Answer, Trouble> {
    let mut said = Vec::new();
    let book = whence::book(Some(&args.plan), here, &mut said);
    let (loaded, mut file) = PlanFile::open(&args.plan, &book)?;
    said.extend(loaded.remarks.iter().map(ToString::to_string));
    said.extend(loaded.said);
    let mut plan = loaded.plan;
    let on = args.on.unwrap_or(here.today);
    let what = event(&args.what, &book)?;
    let place = args.place.as_deref().map(|word| place(&plan, word)).transpose()?;
    let wanted = matches!(
        what,
        Event::Done(_) | Event::Partly(_) | Event::NotDone(_) | Event::Failed(_) | Event::Picked(_)
    );
    let named = args.planting.is_some() || args.crop.is_some();
    let planting =
        if wanted || named { Some(planting(args, &plan, &book, place.as_ref(), on)?.clone()) } else { None };
    if let Some(id) = args.corrects.filter(|id| !plan.diary.iter().any(|e| e.id == *id)) {
        return Err(Trouble::Wrong(format!("there is no diary entry {id} to correct")));
    }
    let entry = DiaryEntry {
        id: plan.next_entry(),
        on,
        place: place.or_else(|| planting.as_ref().map(|p| p.place.clone())),
        planting: planting.as_ref().map(|p| p.id),
        what,
        words: args.words.clone().unwrap_or_default(),
        corrects: args.corrects,
    };
    let id = entry.id;
    let told = say::entry_text(&plan, &entry);
    let year = SiteYear::new(&plan.site)?;
    // What really happened moves what follows in the same cells.
    let follows = work::tell(&plan, &book, &year, &entry, &[]).map_err(|e| Trouble::Wrong(e.to_string()))?;
    plan.apply(&follows.edit)?;
    let mut told = format!("{id}: {told}\n");
    for line in follows.moved.iter().chain(&follows.conflicts) {
        told.push_str("  ");
        told.push_str(line);
        told.push('\n');
    }
    let saved = file.save(&plan, Over::Never)?;
    said.extend(saved.said);
    if let (Event::Failed(_), Some(gone)) = (&entry.what, &planting) {
        told.push_str(&freed(args, &plan, &book, &year, gone, on));
    }
    Ok(Answer::text(told).saying(said))
}

/// What fits the cells that a failed planting has left, the best few.
fn freed(args: &Note, plan: &Plan, book: &Book, year: &SiteYear, gone: &Planting, on: Date) -> String {
    let (row, col) = (gone.block.row, gone.block.col);
    let Some(found) = handover(plan, book, year, &Freed { place: gone.place.clone(), row, col, on }) else {
        return String::new();
    };
    let mut names: Vec<String> = Vec::new();
    for fit in found.fits.iter().filter(|f| f.layer == Layer::Main) {
        let name = inside(&fit.name);
        if !names.contains(&name) && names.len() < FEW {
            names.push(name);
        }
    }
    let ask =
        format!("catchcrop next {} {} {} --on {on}", args.plan.display(), gone.place, Block::cell(row, col));
    let what = if names.is_empty() { String::from("nothing of the book") } else { names.join(", ") };
    let from = say::full_day(on);
    wrap(
        &format!(
            "Its cells are free. What fits there from {from}, the best first: {what}. The dates and the why:"
        ),
        96,
        "  ",
    ) + &format!("    {ask}\n")
}

fn event(noted: &Noted, book: &Book) -> Result<Event, Trouble> {
    Ok(match noted {
        Noted::Done { stage } => Event::Done((*stage).into()),
        Noted::Partly { stage } => Event::Partly((*stage).into()),
        Noted::NotDone { stage } => Event::NotDone((*stage).into()),
        Noted::Failed { cause } => Event::Failed((*cause).into()),
        Noted::Picked { amount } => Event::Picked(*amount),
        Noted::Frost { temperature } => Event::Frost(*temperature),
        Noted::Soil { temperature } => Event::SoilTemperature(*temperature),
        Noted::Trouble { id } => {
            if book.trouble(id).is_none() {
                let ids: Vec<&str> = book.troubles().map(|t| t.id.as_str()).collect();
                let hint = nearest(id, ids.iter().copied()).map_or_else(
                    || format!("the book knows {}", ids.join(", ")),
                    |near| format!("did you mean '{near}'?"),
                );
                return Err(Trouble::Wrong(format!("the crop book has no trouble '{id}'; {hint}")));
            }
            Event::Trouble(id.clone())
        }
        Noted::Volunteer { crop } => Event::Volunteer(super::find(book, crop)?.id.clone()),
        Noted::Job { word } => Event::Job(word.clone()),
        Noted::Remark => Event::Remark,
    })
}

/// A place by its id or its name.
fn place(plan: &Plan, word: &str) -> Result<PlaceId, Trouble> {
    let is = |text: &str| text.eq_ignore_ascii_case(word);
    if let Some(place) = plan.places.iter().find(|p| is(&p.id.0) || is(&p.name)) {
        return Ok(place.id.clone());
    }
    let ids: Vec<&str> = plan.places.iter().map(|p| p.id.0.as_str()).collect();
    let names = ids.iter().copied().chain(plan.places.iter().map(|p| p.name.as_str()));
    let hint = nearest(word, names)
        .map_or_else(|| format!("places here: {}", ids.join(", ")), |n| format!("did you mean '{n}'?"));
    Err(Trouble::Wrong(format!("there is no place '{word}' in this garden; {hint}")))
}

/// The planting that is meant: by its number, or the only one of a crop, at a place, about that day.
fn planting<'a>(
    args: &Note,
    plan: &'a Plan,
    book: &Book,
    place: Option<&PlaceId>,
    on: Date,
) -> Result<&'a Planting, Trouble> {
    if let Some(number) = args.planting {
        return plan
            .planting(PlantingId(number))
            .ok_or_else(|| Trouble::Wrong(format!("there is no planting {number} in this garden")));
    }
    // A planting of a crop the book no longer has is found by the word itself.
    let crop = args.crop.as_deref();
    let id = crop.and_then(|word| book.named(word).ok()).map(|c| c.id.clone());
    let is_crop = |p: &Planting| match (crop, &id) {
        (None, _) => true,
        (Some(_), Some(id)) => {
            p.crop == *id || book.get(&p.crop).is_some_and(|c| c.id == *id || c.base() == id)
        }
        (Some(word), None) => p.crop.as_str() == word || p.name.eq_ignore_ascii_case(word),
    };
    let about = |p: &Planting| {
        p.dates().in_order().into_iter().min().or_else(|| p.begins()).is_some_and(|d| d <= plus(on, ABOUT))
            && p.ends().is_none_or(|e| plus(e, ABOUT) >= on)
    };
    let found: Vec<&Planting> = plan
        .plantings
        .iter()
        .filter(|p| is_crop(p) && about(p) && place.is_none_or(|id| p.place == *id))
        .collect();
    // Of several, those that stand there on the day are meant first.
    let standing: Vec<&Planting> = found.iter().copied().filter(|p| p.stands_on(on)).collect();
    match (&standing[..], &found[..]) {
        ([one], _) | (_, [one]) => Ok(one),
        ([], []) => {
            let hint = match crop.and_then(|word| book.named(word).err()) {
                Some(unknown) => format!("; {unknown}"),
                None => String::from("; name it with --planting, --crop or --place"),
            };
            Err(Trouble::Wrong(format!("no such planting about {}{hint}", day_text(on))))
        }
        (some, all) => {
            let list = if some.is_empty() { all } else { some };
            let rows: Vec<String> = list
                .iter()
                .take(12)
                .map(|p| {
                    let from = p.begins().map(say::full_day).unwrap_or_default();
                    format!("  --planting {}: {} in {} {}, {from}", p.id.0, p.name, p.place, p.block)
                })
                .collect();
            Err(Trouble::Wrong(format!("several plantings may be meant:\n{}", rows.join("\n"))))
        }
    }
}

impl From<StageWord> for Stage {
    fn from(word: StageWord) -> Self {
        match word {
            StageWord::Sown => Self::Sown,
            StageWord::Emerged => Self::Emerged,
            StageWord::Potted => Self::Potted,
            StageWord::Hardened => Self::Hardened,
            StageWord::SetOut => Self::SetOut,
            StageWord::Closed => Self::Closed,
            StageWord::FirstPick => Self::FirstPick,
            StageWord::LastPick => Self::LastPick,
            StageWord::Cleared => Self::Cleared,
        }
    }
}

impl From<CauseWord> for Cause {
    fn from(word: CauseWord) -> Self {
        match word {
            CauseWord::NoSprout => Self::NoSprout,
            CauseWord::Drought => Self::Drought,
            CauseWord::Wet => Self::Wet,
            CauseWord::Frost => Self::Frost,
            CauseWord::Heat => Self::Heat,
            CauseWord::Eaten => Self::Eaten,
            CauseWord::Disease => Self::Disease,
            CauseWord::Bolted => Self::Bolted,
            CauseWord::Broken => Self::Broken,
            CauseWord::Other => Self::Other,
        }
    }
}

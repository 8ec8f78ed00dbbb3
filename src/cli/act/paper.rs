//! `print` and `weeks`: the sheets of a garden.

use super::year::season;
use super::{Sight, sight};
use crate::cli::answer::{Answer, Trouble};
use crate::cli::args::{OfSeason, OrientationWord, PaperWord, Print};
use crate::cli::here::Here;
use crate::cli::say;
use crate::paper::{Form, Missing, Order, Sheet, Source};
use crate::site::SiteYear;
use crate::store::{self, PrintError, StoreError};
use std::collections::BTreeSet;

/// The whole timeline as text.
pub(super) fn weeks(args: &OfSeason, here: &Here) -> Result<Answer, Trouble> {
    let Sight { loaded, book, said } = sight(&args.plan, here)?;
    let plan = &loaded.plan;
    let year = SiteYear::new(&plan.site)?;
    let day = args.on.unwrap_or(here.today);
    let season = season(plan, &year, args.season, day);
    if args.json {
        return Ok(Answer::text(format!("{:#}\n", say::weeks_json(plan, season))).saying(said));
    }
    let order = Order { sheets: BTreeSet::from([Sheet::Weeks]), ..Order::new(Form::Text, season, day) };
    let proof = order.proof(&Source { plan, book: &book, year: &year, season });
    let files = proof.press(&mut |_, _| true).map_err(|e| Trouble::Wrong(e.to_string()))?;
    let out = files.into_iter().flat_map(|f| f.bytes).collect();
    Ok(Answer { out, ..Answer::text("") }.saying(said))
}

/// Prints sheets to files.
pub(super) fn print(args: &Print, here: &Here) -> Result<Answer, Trouble> {
    let ending = args.to.extension().and_then(|e| e.to_str()).unwrap_or_default();
    let form = Form::of(ending).map_err(Trouble::Wrong)?;
    let Sight { loaded, book, mut said } = sight(&args.plan, here)?;
    let plan = &loaded.plan;
    let year = SiteYear::new(&plan.site)?;
    let day = args.on.unwrap_or(here.today);
    let season = season(plan, &year, args.season, day);
    let order = Order {
        sheets: args.what.iter().copied().collect(),
        paper: args.paper.map(PaperWord::paper),
        lies: args.orientation.map(OrientationWord::orientation),
        weeks: args.weeks,
        remind: args.remind,
        ..Order::new(form, season, day)
    };
    let proof = order.proof(&Source { plan, book: &book, year: &year, season });
    let paths = store::print_out(&proof, &args.to, args.force, &mut |_, _| true).map_err(trouble)?;
    let mut out = String::new();
    for path in paths {
        out.push_str(&path.display().to_string());
        out.push('\n');
    }
    said.extend(proof.missing().iter().map(Missing::warning));
    Ok(Answer::text(out).saying(said))
}

fn trouble(error: PrintError) -> Trouble {
    match error {
        PrintError::Paper(error) => Trouble::Wrong(error.to_string()),
        PrintError::Store(StoreError::Exists { path }) => Trouble::Io(format!(
            "{} is there already: choose another name, or print over it with --force",
            path.display()
        )),
        PrintError::Store(error) => error.into(),
    }
}

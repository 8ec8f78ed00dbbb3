//! `next`: what may go into a freed cell.

use super::{Sight, sight};
use crate::cli::answer::{Answer, Trouble};
use crate::cli::args::Next;
use crate::cli::here::Here;
use crate::cli::say;
use crate::fill::{Freed, handover};
use crate::garden::{Block, Place};
use crate::plan::Plan;
use crate::site::SiteYear;
use crate::store::nearest;

/// Ranks what fits a cell.
pub(super) fn run(args: &Next, here: &Here) -> Result<Answer, Trouble> {
    let Sight { loaded, book, said } = sight(&args.plan, here)?;
    let plan = &loaded.plan;
    let on = args.on.unwrap_or(here.today);
    let place = place(plan, &args.place)?;
    let block = cell(plan, place, &args.cell)?;
    let freed = Freed { place: place.id.clone(), row: block.row, col: block.col, on };
    let year = SiteYear::new(&plan.site)?;
    let Some(found) = handover(plan, &book, &year, &freed) else {
        return Err(Trouble::Wrong(format!("{} is not there on {on}", place.name)));
    };
    let text = || say::next_text(plan, (&place.name, block, on), &found);
    Ok(Answer::either(args.json, text, || say::next_json(&freed, &found)).saying(said))
}

/// The bed or pot of a name.
pub(super) fn place<'a>(plan: &'a Plan, word: &str) -> Result<&'a Place, Trouble> {
    let is = |text: &str| text.eq_ignore_ascii_case(word.trim());
    plan.places.iter().find(|p| is(&p.id.0) || is(&p.name)).ok_or_else(|| {
        let names: Vec<&str> = plan.places.iter().map(|p| p.id.0.as_str()).collect();
        let hint = nearest(word, names.iter().copied())
            .map_or_else(|| format!("places: {}", names.join(", ")), |n| format!("did you mean '{n}'?"));
        Trouble::Wrong(format!("there is no bed or pot '{word}'; {hint}"))
    })
}

/// The cell of a place by its name.
pub(super) fn cell(plan: &Plan, place: &Place, word: &str) -> Result<Block, Trouble> {
    let grid = place.grid(plan.settings.cell);
    Block::named(word, grid).filter(|b| b.area() == 1).ok_or_else(|| {
        let last = Block::cell(grid.0 - 1, grid.1 - 1);
        Trouble::Wrong(format!("'{word}' is no cell of {}: its cells are A1 to {last}", place.name))
    })
}

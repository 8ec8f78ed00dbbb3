//! `next`: what may go into a freed cell.

use super::{Sight, sight};
use crate::cli::answer::{Answer, Trouble};
use crate::cli::args::Next;
use crate::cli::here::Here;
use crate::cli::say;
use crate::fill::{Freed, handover};
use crate::garden::Block;
use crate::site::SiteYear;
use crate::store::nearest;

/// Ranks what fits a cell.
pub(super) fn run(args: &Next, here: &Here) -> Result<Answer, Trouble> {
    let Sight { loaded, book, said } = sight(&args.plan, here)?;
    let plan = &loaded.plan;
    let on = args.on.unwrap_or(here.today);
    let is = |text: &str| text.eq_ignore_ascii_case(args.place.trim());
    let Some(place) = plan.places.iter().find(|p| is(&p.id.0) || is(&p.name)) else {
        let names: Vec<&str> = plan.places.iter().map(|p| p.id.0.as_str()).collect();
        let hint = nearest(&args.place, names.iter().copied())
            .map_or_else(|| format!("places: {}", names.join(", ")), |n| format!("did you mean '{n}'?"));
        return Err(Trouble::Wrong(format!("there is no bed or pot '{}'; {hint}", args.place)));
    };
    let grid = place.grid(plan.settings.cell);
    let Some(block) = Block::named(&args.cell, grid).filter(|b| b.area() == 1) else {
        let last = Block::cell(grid.0 - 1, grid.1 - 1);
        return Err(Trouble::Wrong(format!(
            "'{}' is no cell of {}: its cells are A1 to {last}",
            args.cell, place.name
        )));
    };
    let freed = Freed { place: place.id.clone(), row: block.row, col: block.col, on };
    let year = SiteYear::new(&plan.site)?;
    let Some(found) = handover(plan, &book, &year, &freed) else {
        return Err(Trouble::Wrong(format!("{} is not there on {on}", place.name)));
    };
    let text = || say::next_text(plan, (&place.name, block, on), &found);
    Ok(Answer::either(args.json, text, || say::next_json(&freed, &found)).saying(said))
}

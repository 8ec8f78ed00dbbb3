//! Two plantings change places.

use super::message::Effect;
use super::model::{Model, Tone};
use super::update::commit;
use crate::garden::{Block, Place, capacity};
use crate::plan::{Edit, Planting};

/// What is carried changes places with what stands under the cursor when it would stand there.
pub(super) fn swap(model: &mut Model) -> Vec<Effect> {
    match exchange(model) {
        Ok(edit) => {
            let carry = model.carry.take();
            let effects = commit(model, edit);
            if effects.is_empty() {
                model.carry = carry;
            }
            effects
        }
        Err(words) => {
            model.say(Tone::Stop, words);
            Vec::new()
        }
    }
}

/// The planting with its first cell elsewhere; cut to the room there is.
fn moved(model: &Model, planting: &Planting, place: &Place, corner: Block) -> Result<Planting, String> {
    let side = model.plan.settings.cell;
    let (rows, cols) = place.grid(side);
    let (high, wide) = (planting.block.rows.min(rows).max(1), planting.block.cols.min(cols).max(1));
    let block =
        Block { row: corner.row.min(rows - high), col: corner.col.min(cols - wide), rows: high, cols: wide };
    let mut out = planting.clone();
    if let Some(crop) = model.book.get(&planting.crop) {
        out.plants = capacity(crop, place, high, wide, side);
    }
    if out.plants == 0 {
        return Err(format!("{} does not fit in {}: not one plant has room.", planting.name, place.name));
    }
    (out.place, out.block) = (place.id.clone(), block);
    Ok(out)
}

fn exchange(model: &Model) -> Result<Edit, String> {
    let carried = model.carried_planting().ok_or("Only plantings change places.")?;
    let old = model.plan.planting(carried.id).ok_or("A new planting has no place to give in return.")?;
    let other = model
        .plan
        .plantings
        .iter()
        .find(|p| p.id != carried.id && p.layer == carried.layer && p.collides(carried))
        .ok_or("There is nothing here in its weeks to change places with: Enter puts it down.")?;
    if let Some(begun) = [old, other].into_iter().find(|p| p.has_begun()) {
        return Err(format!("{} has begun already: it stays where it is.", begun.name));
    }
    let place = |p: &Planting| {
        model.plan.place(&p.place).ok_or_else(|| format!("'{}' is not in this garden.", p.place))
    };
    let (here, there) = (place(old)?, place(other)?);
    let first = moved(model, old, there, other.block)?;
    let second = moved(model, other, here, old.block)?;
    if first.collides(&second) {
        return Err(format!("{} and {} would overlap: they stand too close.", first.name, second.name));
    }
    for new in [&first, &second] {
        let way =
            model.plan.plantings.iter().find(|p| p.id != first.id && p.id != second.id && p.collides(new));
        if let Some(way) = way {
            return Err(format!("{} would be in the way of {}.", way.name, new.name));
        }
    }
    let words = format!(
        "swapped {} ({} {}) and {} ({} {})",
        old.name, here.name, old.block, other.name, there.name, other.block
    );
    let put = |p: Planting| Edit::Planting(p.id, Some(Box::new(p)));
    Ok(Edit::Batch(words, vec![put(first), put(second)]))
}

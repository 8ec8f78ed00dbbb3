//! Edits: each is a value with an inverse, so that everything can be taken back.

use super::{
    DiaryEntry, Packet, Past, Plan, Planting, PlantingId, RaisingPlace, SetAside, Settings, Wish, WishId,
};
use crate::garden::{Place, PlaceId};
use crate::site::SiteSpec;
use crate::units::Length;
use serde::{Deserialize, Serialize};

/// A change to a plan. `None` as the new value takes the item away.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub enum Edit {
    /// A planting is put, changed or taken away.
    Planting(PlantingId, Option<Box<Planting>>),
    /// A bed or pot is put, changed or taken away.
    Place(PlaceId, Option<Box<Place>>),
    /// A wish is put, changed or taken away.
    Wish(WishId, Option<Box<Wish>>),
    /// A diary entry is added (or, as an inverse, taken back).
    Entry(u32, Option<Box<DiaryEntry>>),
    /// The record of the past is replaced.
    Record(Vec<Past>),
    /// The settings are replaced.
    Settings(Box<Settings>),
    /// The site is replaced.
    Site(Box<SiteSpec>),
    /// The raising places are replaced.
    Raising(Vec<RaisingPlace>),
    /// The findings set aside are replaced.
    SetAside(Vec<SetAside>),
    /// The seed drawer is replaced.
    Drawer(Vec<Packet>),
    /// The closed seasons are replaced.
    Closed(Vec<i32>),
    /// Name and note of the garden.
    Name(String, String),
    /// Several, in order, as one step with its words.
    Batch(String, Vec<Self>),
}

/// An edit that does not fit the plan.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum EditError {
    /// The planting names a place that is not there.
    #[error("{name} was to stand in '{place}', which is not in this garden")]
    NoPlace {
        /// The planting.
        name: String,
        /// The place.
        place: String,
    },
    /// Its block lies outside the place.
    #[error("{name} was to take {block} of {place}, which has {rows} x {cols} cells")]
    Outside {
        /// The planting.
        name: String,
        /// Its cells.
        block: String,
        /// The place.
        place: String,
        /// Rows there.
        rows: u16,
        /// Columns there.
        cols: u16,
    },
    /// Dates out of order.
    #[error("{name} in {place}: its dates are out of order")]
    Dates {
        /// The planting.
        name: String,
        /// The place.
        place: String,
    },
    /// A figure that cannot be.
    #[error("{what}: {want}")]
    Figure {
        /// Whose figure.
        what: String,
        /// Its field: "importance".
        field: &'static str,
        /// What is wanted.
        want: &'static str,
    },
    /// The place still has plantings.
    #[error("{place} has plantings: retire it with a date, or take them away first")]
    InUse {
        /// The place.
        place: String,
    },
}

impl Plan {
    /// Applies an edit and returns its inverse; on an error the plan is as it was.
    ///
    /// # Errors
    /// Where the edit does not fit the plan.
    pub fn apply(&mut self, edit: &Edit) -> Result<Edit, EditError> {
        Ok(match edit {
            Edit::Planting(id, to) => {
                if let Some(planting) = to {
                    self.admit(planting)?;
                }
                let old = put(&mut self.plantings, |p| p.id == *id, to.as_deref().cloned());
                self.plantings.sort_by_key(|p| p.id);
                Edit::Planting(*id, old.map(Box::new))
            }
            Edit::Place(id, to) => {
                if to.is_none()
                    && let Some(place) = self.place(id)
                    && self.plantings_in(id).next().is_some()
                {
                    return Err(EditError::InUse { place: place.name.clone() });
                }
                if let Some(place) = to {
                    admit_place(place)?;
                    let (rows, cols) = place.grid(self.settings.cell);
                    if let Some(p) = self.plantings_in(id).find(|p| !p.block.within(rows, cols)) {
                        return Err(EditError::Outside {
                            name: p.name.clone(),
                            block: p.block.to_string(),
                            place: place.name.clone(),
                            rows,
                            cols,
                        });
                    }
                }
                let old = put(&mut self.places, |p| p.id == *id, to.as_deref().cloned());
                self.places.sort_by(|a, b| a.id.cmp(&b.id));
                Edit::Place(id.clone(), old.map(Box::new))
            }
            Edit::Wish(id, to) => {
                if let Some(wish) = to {
                    admit_wish(wish)?;
                }
                let old = put(&mut self.wishes, |w| w.id == *id, to.as_deref().cloned());
                self.wishes.sort_by_key(|w| w.id);
                Edit::Wish(*id, old.map(Box::new))
            }
            Edit::Entry(id, to) => {
                let old = put(&mut self.diary, |e| e.id == *id, to.as_deref().cloned());
                self.diary.sort_by_key(|e| e.id);
                Edit::Entry(*id, old.map(Box::new))
            }
            Edit::Record(to) => Edit::Record(std::mem::replace(&mut self.record, to.clone())),
            Edit::Settings(to) => {
                self.admit_cell(to.cell)?;
                Edit::Settings(Box::new(std::mem::replace(&mut self.settings, (**to).clone())))
            }
            Edit::Site(to) => Edit::Site(Box::new(std::mem::replace(&mut self.site, (**to).clone()))),
            Edit::Raising(to) => Edit::Raising(std::mem::replace(&mut self.raising, to.clone())),
            Edit::SetAside(to) => Edit::SetAside(std::mem::replace(&mut self.set_aside, to.clone())),
            Edit::Drawer(to) => Edit::Drawer(std::mem::replace(&mut self.drawer, to.clone())),
            Edit::Closed(to) => Edit::Closed(std::mem::replace(&mut self.closed, to.clone())),
            Edit::Name(name, note) => Edit::Name(
                std::mem::replace(&mut self.name, name.clone()),
                std::mem::replace(&mut self.note, note.clone()),
            ),
            Edit::Batch(words, edits) => Edit::Batch(words.clone(), self.apply_all(edits)?),
        })
    }

    fn apply_all(&mut self, edits: &[Edit]) -> Result<Vec<Edit>, EditError> {
        let mut inverses = Vec::with_capacity(edits.len());
        for edit in edits {
            match self.apply(edit) {
                Ok(inverse) => inverses.push(inverse),
                Err(error) => {
                    for inverse in inverses.iter().rev() {
                        self.apply(inverse)?;
                    }
                    return Err(error);
                }
            }
        }
        inverses.reverse();
        Ok(inverses)
    }

    /// Plantings are counted in cells: another cell size may not leave one outside its place.
    fn admit_cell(&self, cell: Length) -> Result<(), EditError> {
        if !(0.05..=2.0).contains(&cell.m()) {
            let want = "a cell measures between 5 cm and 2 m";
            return Err(EditError::Figure { what: String::from("the side of a cell"), field: "cell", want });
        }
        for planting in &self.plantings {
            let Some(place) = self.place(&planting.place) else { continue };
            let (rows, cols) = place.grid(cell);
            if !planting.block.within(rows, cols) {
                return Err(EditError::Outside {
                    name: planting.name.clone(),
                    block: planting.block.to_string(),
                    place: place.name.clone(),
                    rows,
                    cols,
                });
            }
        }
        Ok(())
    }

    fn admit(&self, planting: &Planting) -> Result<(), EditError> {
        let name = || planting.name.clone();
        let Some(place) = self.place(&planting.place) else {
            return Err(EditError::NoPlace { name: name(), place: planting.place.to_string() });
        };
        let (rows, cols) = place.grid(self.settings.cell);
        if !planting.block.within(rows, cols) {
            return Err(EditError::Outside {
                name: name(),
                block: planting.block.to_string(),
                place: place.name.clone(),
                rows,
                cols,
            });
        }
        let (begins, ends) = (planting.begins(), planting.ends());
        if begins.is_none() || begins.zip(ends).is_some_and(|(b, e)| e < b) {
            return Err(EditError::Dates { name: name(), place: place.name.clone() });
        }
        Ok(())
    }
}

fn admit_place(place: &Place) -> Result<(), EditError> {
    let figure = |field, want| Err(EditError::Figure { what: place.name.clone(), field, want });
    let (across, down) = place.size();
    if !(0.02..=100.0).contains(&across.m()) || !(0.02..=100.0).contains(&down.m()) {
        return figure("shape", "its sides measure between 2 cm and 100 m");
    }
    if !(0.02..=5.0).contains(&place.depth().m()) {
        return figure("shape", "its soil is between 2 cm and 5 m deep");
    }
    if !(0.1..=1e7).contains(&place.litres()) {
        return figure("shape", "it holds between 0.1 l and 10,000,000 l");
    }
    if place.sun_hours.is_some_and(|h| !(0.0..=24.0).contains(&h)) {
        return figure("sun_hours", "its hours of sun are between 0 and 24");
    }
    Ok(())
}

fn admit_wish(wish: &Wish) -> Result<(), EditError> {
    let figure =
        |field, want| Err(EditError::Figure { what: format!("the wish for {}", wish.crop), field, want });
    if !(1..=5).contains(&wish.importance) {
        return figure("importance", "its importance is between 1 and 5");
    }
    if wish.amount.value() <= 0.0 {
        return figure("amount", "its amount is more than nothing");
    }
    Ok(())
}

/// Replaces, adds or removes the item that `is` names; returns what was there.
fn put<T>(items: &mut Vec<T>, is: impl Fn(&T) -> bool, to: Option<T>) -> Option<T> {
    match (items.iter().position(is), to) {
        (Some(at), Some(new)) => Some(std::mem::replace(&mut items[at], new)),
        (Some(at), None) => Some(items.remove(at)),
        (None, Some(new)) => {
            items.push(new);
            None
        }
        (None, None) => None,
    }
}

//! What a place has to offer a crop.

use super::{Place, Support};
use crate::crop::Wanted;
use crate::units::{Length, Volume, VolumeUnit};

impl Place {
    /// What a crop that is to grow here, in a cell or somewhere, has to be content with: the pot's volume and depth, or
    /// the bed's shorter side and, over a hard floor, its depth; and no support where none stands. Light is not the
    /// place's to say.
    pub fn offers(&self, cell: Option<(u16, u16)>) -> Wanted {
        let (across, down) = self.size();
        let shorter: Length = if across.um() <= down.um() { across } else { down };
        let hard_floor = self.on_paving || self.on_deck;
        let pot = self.is_pot();
        let held = |support: &Support| cell.is_none_or(|(row, col)| support.cells.holds(row, col));
        Wanted {
            room: (!pot).then_some(shorter),
            depth: (!pot && hard_floor).then(|| self.depth()),
            pot: pot.then(|| (Volume::new(self.litres(), VolumeUnit::L), self.depth())),
            support: Some(self.supports.iter().any(held)),
            ..Wanted::default()
        }
    }
}

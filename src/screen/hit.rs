//! What a spot of the screen shows: the way back from a column and a row to the garden.

use super::scale::Scale;
use super::{bed, book, findings, foot, ground, jobs, list, record, ruler, weeks, wishes};
use crate::app::{Model, Target, View, is_too_small};

/// What the spot of a window of `cols` x `rows` shows that one may go to; none where there is nothing.
pub fn target(model: &Model, cols: u16, rows: u16, x: u16, y: u16) -> Option<Target> {
    if is_too_small((cols, rows)) {
        return None;
    }
    let (width, height, x, y) = (i32::from(cols), i32::from(rows), i32::from(x), i32::from(y));
    if y == height - 1 {
        return foot::peg_at(width, x).map(Target::Peg);
    }
    if y < ruler::HEIGHT - 1 {
        let scale = Scale::of(model, width);
        let n = usize::try_from((x - scale.left).div_euclid(scale.per)).ok()?;
        return scale.weeks.get(n).copied().map(Target::Week);
    }
    let (y, body) = (y - ruler::HEIGHT, height - ruler::HEIGHT - foot::HEIGHT);
    if !(0..body).contains(&y) {
        return None;
    }
    let table = match model.view {
        View::Ground => return ground::spot_at(model, width, body, (x, y)).map(Target::Spot),
        View::Bed => return bed::cell_at(model, width, body, (x, y)).map(Target::Cell),
        View::Weeks => weeks::table(body),
        View::Wishes => wishes::table(width, body),
        View::Jobs => jobs::table(model, body),
        View::Findings => findings::table(width, body),
        View::Record => record::table_of(body),
        View::Book => book::table(width, body),
        View::Needs => return None,
    };
    let row = y - table.top;
    if !(0..table.rows).contains(&row) || x >= table.wide {
        return None;
    }
    let count = model.count(model.view);
    let n = list::first(model.line(model.view), count, table.rows) + usize::try_from(row).ok()?;
    (n < count).then_some(Target::Line(n))
}

/// Where the lines of a list lie on the body of a screen.
#[derive(Debug, Clone, Copy)]
pub(super) struct Table {
    /// The row of the first.
    pub(super) top: i32,
    /// Rows it has.
    pub(super) rows: i32,
    /// Columns it takes from the left.
    pub(super) wide: i32,
}

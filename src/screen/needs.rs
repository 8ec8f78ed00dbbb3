//! The needs: seed, seedlings, mix, supports and water of the season shown.

use super::pane::{Pane, wrap};
use super::theme::Role;
use crate::app::Model;

pub(super) fn draw(pane: &mut Pane<'_>, model: &Model) {
    let (width, height) = (pane.width(), pane.height());
    pane.say(2, 0, &format!("For the season {}", model.season()), Role::Quiet);
    let mut lines: Vec<(Role, String)> = Vec::new();
    for line in &model.needs {
        let head = !line.starts_with(' ');
        let indent = if head { 0 } else { 2 };
        let role = if head { Role::Title } else { Role::Plain };
        let mut first = true;
        for part in wrap(line, width - 6 - indent) {
            let more = if first { indent } else { indent + 2 };
            lines.push((role, format!("{}{part}", " ".repeat(usize::try_from(more).unwrap_or(0)))));
            first = false;
        }
        if line.is_empty() {
            lines.push((role, String::new()));
        }
    }
    let rows = usize::try_from(height - 1).unwrap_or(1);
    let first = model.scroll.min(lines.len().saturating_sub(rows));
    for (y, (role, line)) in (1..).zip(lines.iter().skip(first).take(rows)) {
        pane.fit(2, y, line, width - 3, *role);
    }
    if lines.len() > rows {
        let words = format!("{} of {} lines", (first + rows).min(lines.len()), lines.len());
        pane.right(width - 1, 0, &words, Role::Quiet);
    }
}

//! Walls, fences, hedges, houses and trees that shade: typed with their size, set at the cursor.

use super::Reading;
use crate::app::message::Effect;
use crate::app::model::{Model, Tone};
use crate::app::update::commit;
use crate::garden::{Kind, Shape};
use crate::plan::Edit;
use crate::site::{Obstacle, ObstacleKind};
use crate::units::Length;

/// Kinds with their words.
const KINDS: [(ObstacleKind, &str); 5] = [
    (ObstacleKind::Wall, "wall"),
    (ObstacleKind::Fence, "fence"),
    (ObstacleKind::Hedge, "hedge"),
    (ObstacleKind::House, "house"),
    (ObstacleKind::Tree, "tree"),
];

/// "wall 20 x 1 ft, 6 ft high".
fn obstacle(model: &Model, text: &str) -> Result<Obstacle, String> {
    let wrong = || String::from("Write what it is, its size and its height: wall 20 x 1 ft, 6 ft high.");
    let (word, rest) = text.trim().split_once(' ').ok_or_else(wrong)?;
    let kind = KINDS.iter().find(|(_, w)| w.eq_ignore_ascii_case(word)).map(|(k, _)| *k);
    let kind = kind.ok_or_else(|| format!("'{word}' is neither wall, fence, hedge, house nor tree."))?;
    let (size, height) = rest.split_once(',').ok_or_else(wrong)?;
    let height: Length =
        height.trim().trim_end_matches("high").trim().parse().map_err(|e| format!("{e}."))?;
    let shape = crate::app::size::read(size, Kind::Box, model.plan.settings.measure)?;
    let Shape::Rect { across, down, .. } = shape else { return Err(wrong()) };
    if !(0.1..=60.0).contains(&height.m()) {
        return Err(String::from("A height between 10 cm and 60 m is wanted."));
    }
    let at = model.spot.point(model.plan.settings.cell);
    let count = model.plan.site.obstacles.iter().filter(|o| o.kind == kind).count();
    let name = format!("{word} {}", count + 1);
    Ok(Obstacle { name, kind, x: at.x, y: at.y, across, down, height, clear: None, bare: None })
}

pub(super) fn read(model: &Model, text: &str) -> Reading {
    match obstacle(model, text) {
        Ok(obstacle) => {
            let words =
                format!("{}, {} high, its north-west corner at the cursor", obstacle.name, obstacle.height);
            Reading::say(Tone::Good, words)
        }
        Err(_) if text.trim().is_empty() => Reading::default(),
        Err(words) => Reading::say(Tone::Mind, words),
    }
}

pub(super) fn accept(model: &mut Model, text: &str) -> Result<Vec<Effect>, String> {
    let obstacle = obstacle(model, text)?;
    let words = format!("set up {}", obstacle.name);
    let mut site = model.plan.site.clone();
    site.obstacles.push(obstacle);
    site.verify().map_err(|e| e.to_string())?;
    Ok(commit(model, Edit::Batch(words, vec![Edit::Site(Box::new(site))])))
}

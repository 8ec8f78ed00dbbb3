//! The seed drawer, a crop at a time: "120 seeds, 2025; 2 g, 2026, 8 of 10".

use super::Reading;
use crate::app::message::Effect;
use crate::app::model::{Model, Tone};
use crate::app::update::{commit, sentence};
use crate::crop::CropId;
use crate::plan::{Edit, Packet};
use crate::units::{Mass, MassUnit};
use chrono::Datelike as _;

/// The packets of a crop as they may be typed again.
pub(in crate::app) fn now(model: &Model, crop: &CropId) -> String {
    let one = |p: &Packet| {
        let tested = p.tested.map_or_else(String::new, |n| format!(", {n} of 10"));
        format!("{}, {}{tested}", p.left, p.packed)
    };
    model.plan.drawer.iter().filter(|p| p.crop == *crop).map(one).collect::<Vec<_>>().join("; ")
}

/// The drawer as the line would leave it.
fn drawer(model: &Model, id: &CropId, text: &str) -> Result<Vec<Packet>, String> {
    let crop = model.book.get(id).ok_or_else(|| format!("'{id}' is not in the crop book."))?;
    let mut out: Vec<Packet> = model.plan.drawer.iter().filter(|p| p.crop != *id).cloned().collect();
    for part in text.split(';').map(str::trim).filter(|p| !p.is_empty()) {
        let wrong = || format!("'{part}': write how much and the year: 120 seeds, {}.", model.today.year());
        let mut pieces = part.split(',').map(str::trim);
        let much = pieces.next().unwrap_or_default().to_lowercase();
        let left = match much.strip_suffix("seeds").or_else(|| much.strip_suffix("seed")) {
            Some(count) => {
                let count: f64 = count.trim().parse().map_err(|_e| wrong())?;
                if crop.seed.per_gram <= 0.0 {
                    return Err(format!("{} is not sown from seed.", crop.name));
                }
                Mass::new(count / f64::from(crop.seed.per_gram), MassUnit::G)
            }
            None => much.parse::<Mass>().map_err(|_e| wrong())?,
        };
        if left.grams() <= 0.0 {
            return Err(wrong());
        }
        let year = pieces.next().and_then(|y| y.parse::<i32>().ok()).ok_or_else(wrong)?;
        if !(model.today.year() - 30..=model.today.year() + 1).contains(&year) {
            return Err(format!("{year}: that is no year in which it can have been packed."));
        }
        let tested = match pieces.next() {
            None => None,
            Some(trial) => {
                let number = trial.split(" of ").next().unwrap_or_default().trim();
                let number = number.parse::<u8>().ok().filter(|n| *n <= 10);
                Some(number.ok_or_else(|| format!("'{trial}': how many of 10 seeds came up in a test?"))?)
            }
        };
        out.push(Packet { crop: id.clone(), packed: year, left, tested });
    }
    out.sort_by(|a, b| (&a.crop, a.packed).cmp(&(&b.crop, b.packed)));
    Ok(out)
}

pub(super) fn read(model: &Model, crop: &CropId, text: &str) -> Reading {
    match drawer(model, crop, text) {
        Ok(all) => {
            let mine: Vec<&Packet> = all.iter().filter(|p| p.crop == *crop).collect();
            let per_gram = model.book.get(crop).map_or(0.0, |c| f64::from(c.seed.per_gram));
            let seeds: f64 = mine.iter().map(|p| p.left.grams() * per_gram).sum();
            let words = match mine.len() {
                0 => String::from("none of it in the drawer"),
                1 => format!("1 packet, about {seeds:.0} seeds"),
                n => format!("{n} packets, about {seeds:.0} seeds"),
            };
            Reading::say(Tone::Plain, words)
        }
        Err(words) => Reading::say(Tone::Mind, words),
    }
}

pub(super) fn accept(model: &mut Model, crop: &CropId, text: &str) -> Result<Vec<Effect>, String> {
    let drawer = drawer(model, crop, text)?;
    let name = model.book.get(crop).map_or_else(|| crop.to_string(), |c| c.name.to_lowercase());
    if drawer == model.plan.drawer {
        model.say(Tone::Plain, sentence(&format!("the seed of {name} stays as it is")));
        return Ok(Vec::new());
    }
    let words = format!("wrote down the seed of {name} in the drawer");
    Ok(commit(model, Edit::Batch(words, vec![Edit::Drawer(drawer)])))
}

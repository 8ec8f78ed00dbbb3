//! Tall plantings that take the sun from low ones.

use super::ground::{Patch, patch};
use super::sky::{hours, middle, obstacles, rim};
use super::words::{cap, length, name, span, stand};
use super::{Context, Finding, Rule, Weight};
use crate::calendar::{ClimateDay, Date, days_between, plus};
use crate::crop::{Crop, Use};
use crate::plan::Planting;
use crate::site::shade::Block;
use crate::site::sun;
use crate::units::num;

const SOURCE: &str = "paths of the sun by the NREL solar position algorithm; tall crops on the pole side (extension \
                      practice)";

/// Days together from which shade counts.
const LONG: i64 = 21;
/// How much taller the one must be, metres.
const TALLER: f64 = 0.3;
/// Hours of sun wanted from which a crop is judged.
const LOVES_SUN: f32 = 6.0;
/// Share of the sun that tall plantings must take away.
const TAKEN: f64 = 1.0 / 6.0;
/// Share of the sun that is minded whatever is left: it is the best of the day.
const MUCH: f64 = 1.0 / 3.0;
/// Metres beyond which a planting is not looked at.
const FAR: f64 = 6.0;

pub(super) const RULE: Rule = Rule {
    code: "shaded-by-tall",
    title: "A tall plant takes the sun from a low one",
    explain: "Tall and trellised crops belong on the pole side: north of the others in the northern hemisphere, \
              south of them in the southern; between the tropics the noon sun changes sides. The hours of direct \
              sun in the middle of each planting that wants 6 or more are worked out from the real paths of the sun, \
              with and without the plantings near it that are at least 30 cm taller and stand between it and the \
              noon sun, from the day those are half way to their first picking, for three weeks or more. A sixth of the sun or more must be taken for a note; it is minded when a third or more is, or less \
              is left than the crop grows fully with. Lettuce and spinach are not judged: in heat such shade is an asset.\n\
              A trellis of 6 ft at 45 N throws 0.7 m of shadow at noon at midsummer, 1.8 m at the equinox, 2.7 m on \
              21 October: what is harmless in June may take the sun of an autumn crop.\n\
              Source: computed by the NREL solar position algorithm; tall crops at the pole end by extension \
              practice; shade for lettuce by Oregon State University Extension 2017.",
    run,
};

/// The day from which a tall planting throws its shadow: half way to its first picking.
fn tall_from(planting: &Planting) -> Option<Date> {
    let begin = planting.begins()?;
    let first = planting.dates().first_pick.or_else(|| planting.ends()).unwrap_or_else(|| plus(begin, 60));
    Some(plus(begin, days_between(begin, first).max(0) / 2))
}

/// A tall planting near a low one.
struct Tall<'a> {
    planting: &'a Planting,
    crop: &'a Crop,
    patch: Patch,
    block: Block,
    from: Date,
    to: Date,
}

/// A planting that may shade others: where it lies, and how far up its leaves reach, metres.
struct Caster<'a> {
    planting: &'a Planting,
    crop: &'a Crop,
    patch: Patch,
    high: f64,
    from: Date,
}

/// Every planting that may shade others, in the order of the plan.
fn casters<'a>(context: &Context<'a>) -> Vec<Caster<'a>> {
    let caster = |planting: &'a Planting| {
        let (crop, place) = (context.crop(planting)?, context.place(&planting.place)?);
        let (patch, high) = (patch(context, place, planting), rim(place) + crop.height.m());
        Some(Caster { planting, crop, patch, high, from: tall_from(planting)? })
    };
    context.plan.plantings.iter().filter_map(caster).collect()
}

/// Plantings near enough and tall enough to shade one whose leaves reach up to `top` metres.
fn near<'a>(
    context: &Context<'a>,
    casters: &[Caster<'a>],
    low: &Planting,
    here: Patch,
    top: f64,
) -> Vec<Tall<'a>> {
    let mut out = Vec::new();
    for &Caster { planting, crop, patch, high, from } in casters {
        // A large garden has far more pairs of plantings than near ones: what is cheapest to tell comes first.
        if high < top + TALLER || patch.apart(here) > FAR || planting.id == low.id {
            continue;
        }
        let Some((_, until)) = context.together(planting, low) else { continue };
        let from = from.max(low.begins().unwrap_or(from));
        let to = until.unwrap_or_else(|| plus(from, 120));
        let noon = plus(from, days_between(from, to) / 2);
        if days_between(from, to) + 1 < LONG || !at_noon(context, noon, here, patch, high - top) {
            continue;
        }
        let stands = (days_between(from, to) < 360).then(|| (ClimateDay::of(from), ClimateDay::of(to)));
        let block = Block::planting((patch.west, patch.east), (patch.north, patch.south), high, stands);
        out.push(Tall { planting, crop, patch, block, from, to });
    }
    out
}

/// Whether the middle of a low patch lies in the noon shadow of a tall one that is so much higher.
fn at_noon(context: &Context<'_>, date: Date, low: Patch, tall: Patch, higher: f64) -> bool {
    let sun = sun::position(context.year.lat, ClimateDay::of(date).index(), 12.0);
    let azimuth = (sun.azimuth - context.plan.site.plan_turn).to_radians();
    let at = (low.west.midpoint(low.east), low.north.midpoint(low.south));
    let entered = tall.entered(at, (azimuth.sin(), -azimuth.cos()));
    entered.is_some_and(|run| run * sun.height.max(0.5).to_radians().tan() < higher)
}

fn run(context: &Context<'_>, out: &mut Vec<Finding>) {
    let (walls, casters) = (obstacles(context), casters(context));
    for low in context.judged() {
        let (Some(crop), Some(place)) = (context.crop(low), context.place(&low.place)) else { continue };
        if crop.light.full < LOVES_SUN || crop.is_for(Use::Cover) {
            continue;
        }
        let here = patch(context, place, low);
        let top = rim(place) + crop.height.m();
        let tall = near(context, &casters, low, here, top);
        let (Some(from), Some(to)) = (tall.iter().map(|t| t.from).min(), tall.iter().map(|t| t.to).max())
        else {
            continue;
        };
        let at = middle(here, top);
        let with = |blocks: &mut dyn Iterator<Item = Block>| {
            let all: Vec<Block> = walls.iter().copied().chain(blocks).collect();
            hours(context, at, &all, from, to)
        };
        let (free, left) = (with(&mut std::iter::empty()), with(&mut tall.iter().map(|t| t.block)));
        if free - left < TAKEN * free {
            continue;
        }
        let taken = |t: &Tall<'_>| free - with(&mut std::iter::once(t.block));
        let worst = tall.iter().map(|t| (taken(t), t)).max_by(|a, b| a.0.total_cmp(&b.0));
        if let Some((_, worst)) = worst {
            out.push(finding(context, low, crop, worst, here, (free, left)));
        }
    }
}

/// A tenth of an hour.
fn tenth(hours: f64) -> f64 {
    num::real_i(num::round_i(hours * 10.0)) / 10.0
}

fn finding(
    context: &Context<'_>,
    low: &Planting,
    crop: &Crop,
    tall: &Tall<'_>,
    here: Patch,
    (free, left): (f64, f64),
) -> Finding {
    let measure = context.plan.settings.measure;
    let words = format!(
        "{} in {}, {} tall, stands {} of {} in {} {}, between it and the noon sun: {} hours of direct sun a day are \
         left of {}, and it grows fully from {} on.",
        cap(&name(tall.planting)),
        stand(context, tall.planting),
        length(tall.crop.height, measure),
        side(tall.patch, here),
        name(low),
        stand(context, low),
        span(tall.from, tall.to),
        tenth(left),
        tenth(free),
        crop.light.full,
    );
    let remedy = if tall.planting.place == low.place && side(tall.patch, here) != "around" {
        format!("Swap the two, so that {} stands on the other side.", name(tall.planting))
    } else {
        format!(
            "Move {} to the pole side of the garden, or grow a leaf crop in place of {}.",
            name(tall.planting),
            name(low)
        )
    };
    let much = left < f64::from(crop.light.full) || free - left >= MUCH * free;
    let weight = if much { Weight::Mind } else { Weight::Note };
    Finding::new(RULE.code, weight, words, remedy, SOURCE).of(low).on(tall.from, Some(tall.to))
}

/// On which side one patch lies of another, by the larger gap between them.
fn side(tall: Patch, low: Patch) -> &'static str {
    let gaps = [
        (low.north - tall.south, "north"),
        (tall.north - low.south, "south"),
        (low.west - tall.east, "west"),
        (tall.west - low.east, "east"),
    ];
    gaps.iter()
        .filter(|(gap, _)| *gap > -0.02)
        .max_by(|a, b| a.0.total_cmp(&b.0))
        .map_or("around", |(_, word)| *word)
}

//! A tall planting between a low one and the noon sun.

use super::ground::{Patch, patch};
use super::words::{cap, length, name, span, stand};
use super::{Context, Finding, Rule, Weight};
use crate::calendar::{ClimateDay, Date, days_between, plus};
use crate::plan::Planting;
use crate::site::sun;
use crate::units::{Length, LengthUnit};

const SOURCE: &str = "shadow length = height / tan(height of the noon sun), computed for this latitude; tall crops on \
                      the pole side (extension practice)";

/// Days together from which shade counts.
const LONG: i64 = 21;
/// How much taller the one must be, metres.
const TALLER: f64 = 0.3;
/// Hours of sun wanted from which a crop is judged.
const LOVES_SUN: f32 = 6.0;
/// Share of the low planting's depth that must lie in the shadow.
const COVERED: f64 = 0.5;

pub(super) const RULE: Rule = Rule {
    code: "shaded-by-tall",
    title: "A tall plant on the sunny side of a low one",
    explain: "Tall and trellised crops belong on the pole side: north of the others in the northern hemisphere, \
              south of them in the southern; between the tropics the noon sun changes sides. The shadow at noon is \
              worked out for this latitude in the middle of the days the two stand together, from the day the tall \
              one is half way to its first picking. A planting that wants 6 hours of sun or more is minded when \
              half of it or more lies in that shadow for three weeks or more. Lettuce and spinach are not: in heat \
              such shade is an asset.\n\
              Numbers: a trellis of 6 ft at 45 N throws 0.7 m at midsummer, 1.8 m at the equinox, 2.7 m on 21 \
              October.\n\
              Source: computed; tall crops at the north end by extension practice; shade for lettuce by Oregon State \
              University Extension 2017.",
    run,
};

/// Length of the noon shadow of a height in metres, and whether the sun then stands in the south.
pub(super) fn shadow(lat: f64, day: ClimateDay, height: f64) -> (f64, bool) {
    let declination = sun::declination(day.index());
    let noon = (90.0 - (lat - declination).abs()).max(0.5);
    (height / noon.to_radians().tan(), lat > declination)
}

/// Metres of a low patch that the shadow of a tall one covers at noon.
fn covered(tall: Patch, low: Patch, length: f64, south: bool) -> f64 {
    let gap = if south { tall.north - low.south } else { low.north - tall.south };
    let depth = low.south - low.north;
    if gap < -0.05 || tall.side_by_side(low) < 0.1 { 0.0 } else { (length - gap).clamp(0.0, depth) }
}

/// The day from which a tall planting throws its shadow: half way to its first picking.
fn tall_from(planting: &Planting) -> Option<Date> {
    let begin = planting.begins()?;
    let first = planting.dates().first_pick.or_else(|| planting.ends()).unwrap_or_else(|| plus(begin, 60));
    Some(plus(begin, days_between(begin, first).max(0) / 2))
}

/// A tall planting that shades a low one.
struct Shade<'a> {
    tall: &'a Planting,
    height: Length,
    shadow: f64,
    from: Date,
    to: Date,
}

fn run(context: &Context<'_>, out: &mut Vec<Finding>) {
    let heights: Vec<(&Planting, f64, Length)> = context
        .plan
        .plantings
        .iter()
        .filter_map(|p| context.crop(p).map(|c| (p, c.height.m(), c.height)))
        .collect();
    for low in context.judged() {
        let (Some(crop), Some(place)) = (context.crop(low), context.place(&low.place)) else { continue };
        if crop.light.full < LOVES_SUN {
            continue;
        }
        let here = patch(context, place, low);
        let mut worst: Option<Shade<'_>> = None;
        for (tall, height, shown) in &heights {
            let more = height - crop.height.m();
            if more < TALLER || tall.id == low.id {
                continue;
            }
            let (Some(from), Some((_, until))) = (tall_from(tall), context.together(tall, low)) else {
                continue;
            };
            let from = from.max(low.begins().unwrap_or(from));
            let to = until.unwrap_or_else(|| plus(from, 120));
            if days_between(from, to) + 1 < LONG {
                continue;
            }
            let Some(there) = context.place(&tall.place) else { continue };
            let middle = ClimateDay::of(plus(from, days_between(from, to) / 2));
            let (length, south) = shadow(context.year.lat, middle, more);
            let in_shade = covered(patch(context, there, tall), here, length, south);
            let enough = in_shade >= COVERED * (here.south - here.north);
            if enough && worst.as_ref().is_none_or(|w| length > w.shadow) {
                worst = Some(Shade { tall, height: *shown, shadow: length, from, to });
            }
        }
        if let Some(shade) = worst {
            out.push(finding(context, low, &shade));
        }
    }
}

fn finding(context: &Context<'_>, low: &Planting, shade: &Shade<'_>) -> Finding {
    let measure = context.plan.settings.measure;
    let middle = ClimateDay::of(plus(shade.from, days_between(shade.from, shade.to) / 2));
    let (_, south) = shadow(context.year.lat, middle, 1.0);
    let (sunny, away) = if south { ("south", "north") } else { ("north", "south") };
    let words = format!(
        "{} in {}, {} tall, stands on the {sunny} side of {} in {} {}; at noon its shadow reaches {} beyond it.",
        cap(&name(shade.tall)),
        stand(context, shade.tall),
        length(shade.height, measure),
        name(low),
        stand(context, low),
        span(shade.from, shade.to),
        length(Length::new(shade.shadow, LengthUnit::M), measure),
    );
    let remedy = format!("Swap the two, so that {} stands on the {away} side.", name(shade.tall));
    Finding::new(RULE.code, Weight::Mind, words, remedy, SOURCE).of(low).on(shade.from, Some(shade.to))
}

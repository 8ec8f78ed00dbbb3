//! A mate is gone when the main planting closes over it.

use super::words::{cap, day, name, span, stand};
use super::{Context, Finding, Rule, Weight};
use crate::calendar::{Date, plus};
use crate::crop::{Crop, CropId, MateTime};
use crate::garden::Layer;
use crate::plan::Planting;

const SOURCE: &str = "common practice of relay planting: the early crop is cleared before the late one closes its \
                      canopy (University of Minnesota Extension, companion planting in home gardens)";

pub(super) const RULE: Rule = Rule {
    code: "mate-crowded",
    title: "Still there when the larger crop closes over it",
    explain: "A small quick crop may share the cells of a larger one until the larger one's leaves meet (its \
              canopy closes). The small one must be cleared by then, unless the crop book names the two as a pair \
              that shares its cells all along, as carrot and radish in one drill.\n\
              Days to canopy closure are those of the crop book; where it has none there is no room for a mate.\n\
              Source: University of Minnesota Extension, companion planting; closure of large transplants about 5 \
              to 6 weeks after setting out, from memory.",
    run,
};

/// The day the canopy of a main planting closes; its first day where the book has no figure.
pub(super) fn closes(context: &Context<'_>, main: &Planting) -> Option<Date> {
    let begin = main.begins()?;
    let by_book = context.crop(main).and_then(|c| c.closes).map(|days| plus(begin, i64::from(days)));
    main.dates().closed.or(by_book).or(Some(begin))
}

/// Whether the book lets a mate share a main crop's cells all along.
fn always(context: &Context<'_>, main: &Planting, mate: &Planting) -> bool {
    let Some(crop) = context.crop(mate) else { return false };
    let base: Option<&CropId> = context.crop(main).map(Crop::base);
    crop.mates
        .iter()
        .any(|pair| pair.when == MateTime::Always && (pair.main == main.crop || Some(&pair.main) == base))
}

fn run(context: &Context<'_>, out: &mut Vec<Finding>) {
    for &(a, b) in context.pairs() {
        let (main, mate) = match (a.layer, b.layer) {
            (Layer::Main, Layer::Mate) => (a, b),
            (Layer::Mate, Layer::Main) => (b, a),
            (Layer::Main, Layer::Main) | (Layer::Mate, Layer::Mate) => continue,
        };
        if !main.shares(mate) || always(context, main, mate) {
            continue;
        }
        let (Some(closed), Some((from, to))) = (closes(context, main), context.together(main, mate)) else {
            continue;
        };
        if mate.ends().is_some_and(|end| end <= closed) {
            continue;
        }
        let from = from.max(closed);
        let stays = mate
            .ends()
            .map_or_else(|| String::from("has no end"), |e| format!("is only cleared on {}", day(e)));
        let words = format!(
            "{} shares the cells of {} in {}. The leaves of {} meet over it on {}, but {} {stays}.",
            cap(&name(mate)),
            name(main),
            stand(context, mate),
            name(main),
            day(closed),
            name(mate),
        );
        let together =
            to.map_or_else(String::new, |t| format!(" They crowd each other {}.", span(from, t.max(from))));
        let remedy = format!(
            "Clear {} by {}, sow it earlier, or move it to cells of its own.",
            name(mate),
            day(closed)
        );
        out.push(
            Finding::new(RULE.code, Weight::Stop, words + &together, remedy, SOURCE).on(from, to).of(mate),
        );
    }
}

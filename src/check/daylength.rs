//! The length of the day: flowering, bulbs, and days too short to grow.

use super::season::{against, instead, opening};
use super::words::{day, span};
use super::{Context, Finding, Rule, Weight};
use crate::calendar::{Date, plus};
use crate::crop::{Clock, CropId, Use};
use crate::growth::Refusal;
use crate::plan::Planting;
use crate::site::SHORT_DAY;
use std::collections::BTreeMap;

const DAYS: &str =
    "day lengths of this latitude by the NREL solar position algorithm; limits of the crop book";

pub(super) const BOLTS: Rule = Rule {
    code: "runs-to-flower",
    title: "Runs to flower before it is ripe",
    explain: "Spinach, some radishes and other long-day crops flower once they have lived long enough in long days. \
              Minded when that comes before the first picking.\n\
              Source: day lengths in the crop book; day lengths of the site by the NREL solar position algorithm.",
    run: bolts,
};

fn bolts(context: &Context<'_>, out: &mut Vec<Finding>) {
    for case in against(context, true) {
        let Refusal::Bolts { on, hours } = case.refusal else { continue };
        let words = format!(
            "{}. It runs to flower about {}, before it is ripe, because days are then longer than {hours} hours.",
            opening(context, case.planting),
            day(on),
        );
        let remedy = instead(context, case.planting, case.crop);
        out.push(Finding::new(BOLTS.code, Weight::Mind, words, remedy, DAYS).of_all(context, case.planting));
    }
}

pub(super) const WRONG: Rule = Rule {
    code: "days-unfit",
    title: "Days never are as long or as short as it needs",
    explain: "Onions form bulbs only in days longer than their variety wants; some flowers and tubers wait for short \
              days. Minded where the days of this latitude never are so while it grows: choose a short-day or a \
              long-day type.\n\
              Source: day lengths in the crop book; day lengths of the site by the NREL solar position algorithm.",
    run: wrong,
};

fn wrong(context: &Context<'_>, out: &mut Vec<Finding>) {
    for case in against(context, true) {
        let Refusal::Daylength { hours, longer } = case.refusal else { continue };
        let (than, kind) = if longer {
            ("longer", "a type for shorter days")
        } else {
            ("shorter", "a type for longer days")
        };
        let words = format!(
            "{}. It needs days {than} than {hours} hours, and here they never are while it grows.",
            opening(context, case.planting),
        );
        let remedy = format!("Choose {kind} instead.");
        out.push(Finding::new(WRONG.code, Weight::Mind, words, remedy, DAYS).of_all(context, case.planting));
    }
}

pub(super) const SHORT: Rule = Rule {
    code: "short-days",
    title: "Still growing when days are under 10 hours",
    explain: "When days are shorter than 10 hours most plants hardly grow, even in mild weather. A planting that \
              grows through two weeks or more of such days before its first picking may be slower than reckoned. \
              Autumn crops should be nearly full-grown before the first such day; then they stand and can be \
              picked. At 45 N days are under 10 hours from 6 November to 6 February, at 41 S from 12 May to 2 \
              August.\n\
              Source: Oregon State University Extension column 2018; day lengths computed.",
    run: short,
};

fn short(context: &Context<'_>, out: &mut Vec<Finding>) {
    let Some(dark) = context.year.days_under(SHORT_DAY) else { return };
    let source = "Oregon State University Extension column, January 2018; day lengths computed";
    // One note for each crop and spell of short days, about the first planting; the others are counted.
    let mut said: BTreeMap<(&CropId, Date), (&Planting, usize)> = BTreeMap::new();
    for planting in context.judged_once() {
        let Some(schedule) = context.outlooks().get(&planting.id).and_then(|o| o.schedule.as_ref()) else {
            continue;
        };
        let (Some(crop), Some(first)) = (context.crop(planting), schedule.dates.first_pick) else { continue };
        // Crops that stand still in winter do so by their nature.
        if !schedule.low_light || !matches!(crop.clock, Clock::Heat { .. }) || crop.is_for(Use::Cover) {
            continue;
        }
        // The last spell that has begun when it is ripe.
        let from = dark.first.on_or_after(plus(first, -364));
        said.entry((crop.base(), from)).or_insert((planting, 0)).1 += 1;
    }
    for ((_, from), (planting, count)) in said {
        let Some(schedule) = context.outlooks().get(&planting.id).and_then(|o| o.schedule.as_ref()) else {
            continue;
        };
        let Some(first) = schedule.dates.first_pick else { continue };
        let more = match count - 1 {
            0 => String::new(),
            1 => String::from(" One more planting of it is reckoned so too."),
            n => format!(" {n} more plantings of it are reckoned so too."),
        };
        let words = format!(
            "{}. It is reckoned ripe about {}, but days are under 10 hours {}, and most plants hardly grow then.{more}",
            opening(context, planting),
            day(first),
            span(from, dark.last.on_or_after(from)),
        );
        let remedy = String::from("Start it 2 to 3 weeks earlier, or count on a later harvest.");
        out.push(Finding::new(SHORT.code, Weight::Note, words, remedy, source).of_all(context, planting));
    }
}

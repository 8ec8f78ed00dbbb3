//! Heat: fruit that does not set, crops that turn bitter or stop.

use super::season::{against, instead, opening};
use super::words::day;
use super::{Context, Finding, Rule, Weight};
use crate::growth::{Note, Refusal};
use crate::units::{TempUnit, Temperature};

const SET: &str = "tomato blossoms fail with nights above 75 F, or days above 95 F, or nights below 55 F (University of \
                   Maryland vegetable specialist 2012; state extension page on blossom drop)";
const STOPS: &str = "greatest mean temperature of a month by the crop book; normal temperatures of the site";

/// Share of fruit lost from which it is told.
const TOLD: f64 = 0.2;

pub(super) const FRUIT: Rule = Rule {
    code: "no-fruit-set",
    title: "Blossoms drop in heat or cold",
    explain: "At flowering time some crops set no fruit when nights are too warm or too cold, or days too hot: \
              tomato with nights above 75 F, or days above 95 F with nights above 80 F, or nights below 55 F. The \
              plants live on and bear again when the weather turns. The share of such days in the flowering time \
              is reckoned from the site's climate: minded when less than a quarter of the fruit sets, a note when a \
              fifth or more is lost.\n\
              Source: University of Maryland vegetable specialist 2012; state extension page on blossom drop.",
    run: fruit,
};

fn fruit(context: &Context<'_>, out: &mut Vec<Finding>) {
    let measure = context.plan.settings.measure;
    let degrees = |t: Temperature| t.reading(measure);
    let limits = |crop: &crate::crop::Crop| {
        let mut parts = Vec::new();
        parts.extend(crop.heat.set_night_most.map(|t| format!("nights above {}", degrees(t))));
        parts.extend(crop.heat.set_day_most.map(|t| format!("days above {}", degrees(t))));
        parts.extend(crop.heat.set_night_least.map(|t| format!("nights below {}", degrees(t))));
        super::words::list(&parts)
    };
    for case in against(context, true) {
        let Refusal::NoSet { share } = case.refusal else { continue };
        let words = format!(
            "{}. Of 100 flowers only about {:.0} would set fruit: {} make them drop, and its flowering falls into \
             such weather. The plants themselves live on.",
            opening(context, case.planting),
            share * 100.0,
            limits(case.crop),
        );
        let remedy = instead(context, case.planting, case.crop);
        out.push(Finding::new(FRUIT.code, Weight::Mind, words, remedy, SET).of_all(context, case.planting));
    }
    for planting in context.judged_once() {
        let (Some(crop), Some(outlook)) = (context.crop(planting), context.outlooks().get(&planting.id))
        else {
            continue;
        };
        if outlook.against.iter().any(|r| matches!(r, Refusal::NoSet { .. })) {
            continue;
        }
        let lost = outlook.schedule.as_ref().and_then(|s| {
            s.notes.iter().find_map(|n| match n {
                Note::PoorSet(lost) => Some(*lost),
                Note::LowLight | Note::Holds(_) | Note::Winters | Note::DatesAlone => None,
            })
        });
        let Some(lost) = lost.filter(|l| *l >= TOLD) else { continue };
        let words = format!(
            "{}. About {:.0} of 100 fruits fail to set here in its time: {} make blossoms drop. The plants \
             themselves live on.",
            opening(context, planting),
            lost * 100.0,
            limits(crop),
        );
        let remedy = String::from("Count on a gap in the harvest; shade and water help a little in heat.");
        out.push(Finding::new(FRUIT.code, Weight::Note, words, remedy, SET).of_all(context, planting));
    }
}

pub(super) const HOT: Rule = Rule {
    code: "too-hot",
    title: "Too hot before it is ripe",
    explain: "Cool-season crops turn bitter, run to flower or stop when the month they live in averages above their \
              limit. Minded when that comes before the first picking.\n\
              Source: limits of the crop book; normal temperatures of the site.",
    run: hot,
};

fn hot(context: &Context<'_>, out: &mut Vec<Finding>) {
    let measure = context.plan.settings.measure;
    for case in against(context, true) {
        let Refusal::Heat { on, most } = case.refusal else { continue };
        let words = format!(
            "{}. By about {} its weeks average above {}, before it is ripe: it turns bitter, runs to flower or stops.",
            opening(context, case.planting),
            day(on),
            Temperature::new(most, TempUnit::C).reading(measure),
        );
        let remedy = instead(context, case.planting, case.crop);
        out.push(Finding::new(HOT.code, Weight::Mind, words, remedy, STOPS).of_all(context, case.planting));
    }
}

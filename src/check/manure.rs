//! Raw manure and the days to harvest.

use super::words::{cap, day, name, stands};
use super::{Context, Finding, Rule, Weight};
use crate::calendar::{days_between, plus};
use crate::crop::{Crop, Part};
use crate::garden::AmendmentKind;

const SOURCE: &str = "7 CFR 205.203(c): 120 days, 90 days for parts that do not touch the soil (binding for certified \
                      organic growers, the safe habit for homes)";

/// Days where the eaten part touches soil or is splashed by it.
const TOUCHING: i64 = 120;
/// Days elsewhere.
const CLEAR: i64 = 90;

pub(super) const RULE: Rule = Rule {
    code: "raw-manure",
    title: "Raw manure too close to the harvest",
    explain: "Raw manure is dug in at least 120 days before the harvest of parts that touch the soil or are \
              splashed by it (roots, bulbs, leaves near the ground), and at least 90 days before others (staked \
              tomatoes, corn, pole beans). Compost counts as finished only when it was held at 131 to 170 F for 3 \
              days in a vessel or pile blown with air, or 15 days with 5 turnings in a windrow.\n\
              Source: 7 CFR 205.203(c), binding for certified organic growers and the safe habit for homes; follow \
              local rules and ask your extension office.",
    run,
};

/// Days that must lie between raw manure and the harvest of a crop.
pub(super) fn wait(crop: &Crop) -> i64 {
    let low = match crop.part {
        Part::Root | Part::Bulb => true,
        Part::Leaf | Part::Stem | Part::Flower | Part::Fruit | Part::Pod | Part::Seed | Part::Nothing => {
            false
        }
    };
    if low || crop.soil_contact { TOUCHING } else { CLEAR }
}

fn run(context: &Context<'_>, out: &mut Vec<Finding>) {
    for planting in context.judged_once() {
        let (Some(crop), Some(place)) = (context.crop(planting), context.place(&planting.place)) else {
            continue;
        };
        let dates = planting.dates();
        let (Some(first), Some(begin)) = (dates.first_pick.or_else(|| planting.begins()), planting.begins())
        else {
            continue;
        };
        if !crop.is_food() {
            continue;
        }
        let last = dates.last_pick.or_else(|| planting.ends());
        let days = wait(crop);
        let latest = place
            .amendments
            .iter()
            .filter(|a| a.kind == AmendmentKind::RawManure && place.soil_on(a.on) == place.soil_on(begin))
            .filter(|a| last.is_none_or(|l| a.on <= l) && plus(a.on, days) > first)
            .max_by_key(|a| a.on);
        let Some(manure) = latest else { continue };
        let safe = plus(manure.on, days);
        let picked = first.max(manure.on);
        let why = if days == TOUCHING {
            "must lie between for parts that touch the soil"
        } else {
            "must lie between even for parts that hang clear of the soil"
        };
        let words = format!(
            "Raw manure went into {} on {}, and {} in {} is picked from {}: {} days later. {days} days {why}.",
            place.name,
            day(manure.on),
            name(planting),
            stands(context, planting),
            day(picked),
            days_between(manure.on, picked).max(0),
        );
        let remedy = format!(
            "Pick no {} there before {}, or grow something there that is picked later. Follow local rules and ask \
             your extension office.",
            name(planting),
            day(safe)
        );
        out.push(
            Finding::new(RULE.code, Weight::Stop, cap(&words), remedy, SOURCE).of_all(context, planting),
        );
    }
}

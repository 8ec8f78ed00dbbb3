//! Weight on a balcony or deck.

use super::ground::{area, round};
use super::words::{day, list};
use super::{Context, Finding, Rule, Weight};
use crate::calendar::Date;
use crate::garden::{Kind, Place, SOAKED_EARTH, SOAKED_MIX};
use crate::units::{KG_M2_PER_PSF, Measure, num};
use std::collections::BTreeMap;

const SOURCE: &str = "soaked potting mix 1.0 kg/L (University of Arkansas unit 7; University of Florida), soaked soil \
                      2.0 kg/L; US residential code (IRC table R301.5) designs balconies for 40 psf at least";
const ASK: &str = "Ask the owner, a licensed structural engineer and the local building department.";

/// Pot, plant, stake and saucer, as a share of the volume in kg a litre.
const POT: f64 = 0.1;

pub(super) const RULE: Rule = Rule {
    code: "deck-load",
    title: "Weight on a balcony or deck",
    explain: "Soaked potting mix weighs about 1.0 kg a litre (62 lb a cubic foot), soaked soil 2.0; pots add a \
              tenth for pot, plant, stake and saucer; boards of boxes, snow and people come on top. Two figures are \
              compared with the load you were told the floor bears: the average over the whole floor (stop above \
              it), and the pressure under each box or pot (minded above it: spread it on boards, along the wall). \
              Without a figure the sums are only shown.\n\
              40 psf (195 kg/m2) is the least a US residential balcony or deck is designed for; other codes ask 60 \
              and more, age and rot take it away, and a design load is no permission for keeping things there. 40 \
              psf is reached by 7.7 in of soaked mix with nobody on the floor.\n\
              Source: IRC table R301.5; University of Arkansas Greenhouse Management unit 7; University of Florida \
              on container media. This is no engineering advice: ask the owner, a licensed structural engineer and \
              the local building department.",
    run,
};

/// Weight of a place when its soil is soaked, kg.
pub(super) fn soaked(place: &Place, date: Date) -> f64 {
    let (_, fresh) = place.soil_since(&place.soil_on(date));
    let soil = if place.is_pot() || fresh { SOAKED_MIX } else { SOAKED_EARTH };
    let pot = if place.is_pot() { POT } else { 0.0 };
    place.litres() * (soil + pot)
}

/// A load in both measures, the grower's first.
fn load_text(kg_m2: f64, measure: Measure) -> String {
    let psf = round(kg_m2 / KG_M2_PER_PSF);
    match measure {
        Measure::Us => format!("{psf} psf ({} kg/m2)", round(kg_m2)),
        Measure::Metric => format!("{} kg/m2 ({psf} psf)", round(kg_m2)),
    }
}

/// The day on which the floor of the judged days is looked at: the first judged day on which anything stands there.
fn day_looked_at(context: &Context<'_>) -> Option<Date> {
    let deck = context.plan.places.iter().filter(|p| p.on_deck);
    deck.filter(|p| context.touches(p.since, p.until)).map(|p| p.since).max().map(|d| d.max(context.from))
}

fn run(context: &Context<'_>, out: &mut Vec<Finding>) {
    let Some(date) = day_looked_at(context) else { return };
    let settings = &context.plan.settings;
    let measure = settings.measure;
    let places: Vec<&Place> = context.plan.places_on(date).filter(|p| p.on_deck).collect();
    if places.is_empty() {
        return;
    }
    let total: f64 = places.iter().map(|p| soaked(p, date)).sum();
    let limit = settings.load_limit.map(f64::from);
    let floor = settings.deck_area.map(f64::from).filter(|a| *a > 0.0);
    let kinds = {
        let pots = places.iter().filter(|p| p.kind == Kind::Pot).count();
        let (boxes, mut parts) = (places.len() - pots, Vec::new());
        if pots > 0 {
            parts.push(if pots == 1 { "1 pot".to_owned() } else { format!("{pots} pots") });
        }
        if boxes > 0 {
            parts.push(if boxes == 1 { "1 box".to_owned() } else { format!("{boxes} boxes") });
        }
        list(&parts)
    };
    let sum = format!(
        "From {} on, {kinds} on the balcony or deck weigh about {} kg when soaked",
        day(date),
        round(total)
    );
    let finding = |weight, words: String, remedy: String| {
        Finding::new(RULE.code, weight, words, remedy, SOURCE).on(date, None)
    };
    match (floor.map(|f| total / f), limit) {
        (Some(average), Some(limit)) if average > limit => {
            let words = format!(
                "{sum}: {} on average, and you were told the floor bears {}.",
                load_text(average, measure),
                load_text(limit, measure)
            );
            out.push(finding(Weight::Stop, words, format!("Take some of them off the floor. {ASK}")));
        }
        (Some(average), Some(limit)) => {
            let words = format!(
                "{sum}: {} on average. You were told the floor bears {}, which leaves {} for people and snow.",
                load_text(average, measure),
                load_text(limit, measure),
                load_text(limit - average, measure)
            );
            out.push(finding(
                Weight::Note,
                words,
                format!("Keep people and snow within what is left. {ASK}"),
            ));
        }
        (average, None) => {
            let average =
                average.map_or_else(String::new, |a| format!(", {} on average", load_text(a, measure)));
            let words = format!("{sum}{average}. You have not entered what the floor bears.");
            let remedy = format!("Find out what the floor bears and enter it in the settings. {ASK}");
            out.push(finding(Weight::Note, words, remedy));
        }
        (None, Some(_)) => {
            let words =
                format!("{sum}. The average can only be judged once the area of the floor is entered.");
            out.push(finding(
                Weight::Note,
                words,
                format!("Enter the area of the balcony or deck in the settings. {ASK}"),
            ));
        }
    }
    let Some(limit) = limit else { return };
    // Places that weigh and press alike are told together.
    let mut heavy: BTreeMap<(i64, i64), Vec<&Place>> = BTreeMap::new();
    for place in places {
        let here = soaked(place, date) / area(place).max(1e-6);
        if here > limit {
            heavy.entry((round(here), round(soaked(place, date)))).or_default().push(place);
        }
    }
    for ((pressure, weight), places) in heavy {
        let names: Vec<String> = places.iter().map(|p| p.name.clone()).collect();
        let (each, one) = if places.len() == 1 { ("", "it") } else { (" each", "them") };
        let words = format!(
            "{}{each} weigh{} about {weight} kg when soaked and press{} on the floor with {} from {} on; you were \
             told the floor bears {}.",
            list(&names),
            if places.len() == 1 { "s" } else { "" },
            if places.len() == 1 { "es" } else { "" },
            load_text(num::real_i(pressure), measure),
            day(date),
            load_text(limit, measure)
        );
        let remedy =
            format!("Set {one} on boards along the wall that spread the weight, or take lighter ones. {ASK}");
        let found = finding(Weight::Mind, words, remedy);
        out.push(match places.as_slice() {
            [place] => found.at(place),
            _ => found,
        });
    }
}

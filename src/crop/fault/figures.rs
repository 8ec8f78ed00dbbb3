//! Ranges and the order of figures within one crop.
//!
//! The bounds are wide: they catch slips (centimetres for inches, a lost decimal point), not rare plants.

use super::Finder;
use crate::crop::{
    Clock, CountedFrom, Crop, FrostClass, Germination, Habit, PickShape, Ripening, Start, SupportNeed,
    Tending, Use,
};

/// Every rule on the figures of one crop.
pub(super) fn rules(crop: &Crop, find: &mut Finder<'_>) {
    distances(crop, find);
    days(crop, find);
    clock(crop, find);
    starts(crop, find);
    germination(crop, find);
    climate(crop, find);
    picking(crop, find);
    harvest(crop, find);
    growth(crop, find);
    pot(crop, find);
    water(crop, find);
    rest(crop, find);
}

fn distances(crop: &Crop, find: &mut Finder<'_>) {
    let spacing = crop.spacing;
    find.within("spacing", spacing.dense.cm(), 1.0, 250.0, "cm");
    find.within("spacing", spacing.wide.cm(), 1.0, 250.0, "cm");
    find.must(spacing.dense.um() <= spacing.wide.um(), "spacing", || {
        format!("dense is {} and wide is {}: put the smaller one first", spacing.dense, spacing.wide)
    });
    if let Some(row) = crop.row {
        find.within("row", row.cm(), 5.0, 400.0, "cm");
    }
    find.within("depth", crop.depth.cm(), 0.0, 30.0, "cm");
    find.must(crop.depth.um() <= crop.root_depth.um(), "depth", || {
        format!("sown at {} it lies below its own roots at {}", crop.depth, crop.root_depth)
    });
}

fn days(crop: &Crop, find: &mut Finder<'_>) {
    let days = crop.days;
    find.ordered("days", &days.min, &days.max, ("min", "max"));
    find.within("days", f64::from(days.min), 10.0, 1500.0, "days");
    find.within("days", f64::from(days.max), 10.0, 1500.0, "days");
    find.must(u32::from(days.max) <= 3 * u32::from(days.min), "days", || {
        format!("{} to {} days says nothing: split it into varieties", days.min, days.max)
    });
    let set_out = crop.starts.iter().any(|s| !matches!(s, Start::InPlace));
    find.must(days.from == CountedFrom::Sowing || set_out, "days", || {
        String::from("the days count from setting out, but it is only sown in place: count from Sowing")
    });
}

fn clock(crop: &Crop, find: &mut Finder<'_>) {
    match &crop.clock {
        Clock::Heat { base, upper, .. } => {
            if let Some(base) = base {
                find.within("clock", base.celsius(), -2.0, 20.0, "C as base");
            }
            if let (Some(base), Some(upper)) = (base, upper) {
                find.must(base.celsius() + 5.0 <= upper.celsius(), "clock", || {
                    format!(
                        "between {base} and {upper} nothing grows: the upper temperature is too near the base"
                    )
                });
            }
        }
        Clock::Overwintered { plant, ripe } => {
            find.ordered("clock", &plant.0, &plant.1, ("the first planting week", "the last"));
            find.within("clock", f64::from(plant.0), -26.0, 20.0, "weeks after the first frost");
            find.within("clock", f64::from(plant.1), -26.0, 20.0, "weeks after the first frost");
            match ripe {
                Ripening::AfterLongestDay(early, late) => {
                    find.ordered("clock", early, late, ("the early day", "the late one"));
                    find.within("clock", f64::from(*early), -90.0, 120.0, "days after the longest day");
                }
                Ripening::HeatFromSpring(days) => {
                    find.within("clock", f64::from(*days), 5.0, 200.0, "days from spring");
                }
            }
        }
        Clock::Perennial { by_year, wakes, renew } => {
            let shares = by_year.iter().all(|share| (0.0..=1.5).contains(share));
            let full = by_year.iter().any(|share| *share >= 0.5);
            find.must(shares && full, "clock", || {
                String::from("by_year holds a share of the full yield for each year of stand, 0 to 1.5, at least one of 0.5")
            });
            find.within("clock", f64::from(*wakes), 1.0, 200.0, "days from spring");
            find.within("clock", f64::from(*renew), 1.0, 40.0, "years of stand");
            find.must(by_year.len() <= usize::from(*renew), "clock", || {
                format!("by_year names {} years, but it is renewed after {renew}", by_year.len())
            });
        }
    }
}

fn starts(crop: &Crop, find: &mut Finder<'_>) {
    find.must(!crop.starts.is_empty(), "starts", || {
        String::from("say how it is started: InPlace, Raised(..), Bought or Piece(..)")
    });
    for start in &crop.starts {
        if let Start::Raised { weeks, per_station, harden, .. } = start {
            find.ordered("starts", &weeks.0, &weeks.1, ("the youngest age", "the oldest"));
            find.within("starts", f64::from(weeks.0), 1.0, 26.0, "weeks");
            find.within("starts", f64::from(weeks.1), 1.0, 26.0, "weeks");
            find.within("starts", f64::from(*per_station), 1.0, 15.0, "plants in a station");
            find.within("starts", f64::from(*harden), 0.0, 21.0, "days of hardening off");
        }
    }
    if from_seed(crop) {
        find.must(crop.germination != Germination::None, "germination", || {
            String::from("it is raised from seed: give a germination table or limits instead of NotSown")
        });
        find.must(crop.seed.per_gram > 0.0, "seed.per_gram", || {
            String::from("it is raised from seed: say how many seeds weigh a gram")
        });
        find.must(crop.seed.life > 0, "seed.life", || {
            String::from("it is raised from seed: say how many years the seed keeps")
        });
    }
    find.within("seed.per_gram", f64::from(crop.seed.per_gram), 0.0, 60_000.0, "seeds in a gram");
    find.within("seed.life", f64::from(crop.seed.life), 0.0, 15.0, "years");
    find.within("seed.sprouts", f64::from(crop.seed.sprouts), 20.0, 100.0, "per cent");
}

fn from_seed(crop: &Crop) -> bool {
    crop.starts.iter().any(|s| matches!(s, Start::InPlace | Start::Raised { .. }))
}

fn germination(crop: &Crop, find: &mut Finder<'_>) {
    match &crop.germination {
        Germination::Table(rows) => {
            find.must(rows.len() >= 2, "germination", || {
                String::from("a table needs two temperatures at least")
            });
            find.must(rows.windows(2).all(|w| w[0].0 < w[1].0), "germination", || {
                String::from("the temperatures of the table must rise from row to row")
            });
            for (celsius, days) in rows {
                find.within("germination", *celsius, -1.0, 45.0, "C");
                find.within("germination", *days, 0.5, 200.0, "days to come up");
            }
        }
        Germination::Limits { least, best, most, days } => {
            let (l, b, m) = (least.celsius(), best.celsius(), most.celsius());
            find.must(l < b && b <= m, "germination", || {
                format!("least {least}, best {best}, most {most}: they must rise in this order")
            });
            find.within("germination", l, -1.0, 25.0, "C at the least");
            find.within("germination", m, 10.0, 45.0, "C at the most");
            find.within("germination", f64::from(*days), 1.0, 60.0, "days to come up");
        }
        Germination::None => {}
    }
}

fn climate(crop: &Crop, find: &mut Finder<'_>) {
    let frost = crop.frost;
    let (foliage, harvest) = (frost.foliage.celsius(), frost.harvest.celsius());
    let (least, most, class) = match frost.class {
        FrostClass::Tender => (-4.0, 4.0, "tender"),
        FrostClass::HalfHardy => (-20.0, -0.5, "half-hardy"),
        FrostClass::Hardy => (-45.0, -1.0, "hardy"),
    };
    find.must((least..=most).contains(&foliage), "frost", || {
        format!(
            "a {class} plant whose foliage dies at {} does not fit: one of the two is wrong",
            frost.foliage
        )
    });
    find.within("frost", harvest, -45.0, 5.0, "C for the harvest");
    let heat = crop.heat;
    if let (Some(night), Some(day)) = (heat.set_night_most, heat.set_day_most) {
        find.must(night.celsius() < day.celsius(), "heat", || {
            format!("a night of {night} is not cooler than a day of {day}")
        });
    }
    if let (Some(least), Some(most)) = (heat.set_night_least, heat.set_night_most) {
        find.must(least.celsius() < most.celsius(), "heat", || {
            format!("between nights of {least} and {most} no fruit ever sets")
        });
    }
    if let Some(mean) = heat.mean_most {
        find.within("heat", mean.celsius(), 14.0, 36.0, "C as daily mean");
    }
    if let Some(daylength) = crop.daylength {
        use crate::crop::Daylength::{BoltsAbove, BulbsAbove, NeedsBelow};
        let (BoltsAbove(hours) | BulbsAbove(hours) | NeedsBelow(hours)) = daylength;
        find.within("daylength", f64::from(hours), 9.0, 18.0, "hours");
    }
    let light = crop.light;
    find.ordered("light", &light.least, &light.full, ("least", "full"));
    find.within("light", f64::from(light.least), 1.0, 12.0, "hours of sun");
    find.within("light", f64::from(light.full), 1.0, 12.0, "hours of sun");
}

fn picking(crop: &Crop, find: &mut Finder<'_>) {
    let picking = crop.picking;
    find.within("picking", f64::from(picking.days), 0.0, 250.0, "days of picking");
    find.within("picking", f64::from(picking.holds), 0.0, 200.0, "days in the ground");
    if let PickShape::Cut { cuts, regrow } = picking.shape {
        find.within("picking", f64::from(cuts), 1.0, 12.0, "cuts");
        find.within("picking", f64::from(regrow), 5.0, 60.0, "days to grow again");
        let least = u32::from(cuts.saturating_sub(1)) * u32::from(regrow);
        let days = u32::from(picking.days);
        find.must(least <= days && days <= 2 * least.max(14), "picking", || {
            format!("{cuts} cuts {regrow} days apart take {least} days, not {days}")
        });
    }
    if let Some((low, high)) = crop.every {
        find.ordered("every", &low, &high, ("the short wait", "the long one"));
        find.within("every", f64::from(low), 3.0, 90.0, "days");
        find.within("every", f64::from(high), 3.0, 90.0, "days");
    }
    let quick = u32::from(crop.days.max) + u32::from(picking.days) <= 100;
    find.must(!crop.catch || quick, "catch", || {
        String::from("a catch crop is off the ground within 100 days: this one is not")
    });
}

/// Greatest plausible usual harvest of weighed crops, kg from a square metre at the wide distance: twice and a half what
/// raised beds gave over three years, 1.24 lb from a square foot (Ohio State University).
const MOST_KG: f64 = 15.0;

fn harvest(crop: &Crop, find: &mut Finder<'_>) {
    let yields = crop.harvest;
    let same = yields.low.same_kind(yields.usual) && yields.usual.same_kind(yields.high);
    find.must(same, "harvest", || {
        format!(
            "{}, {} and {} are not of one kind: use one unit throughout",
            yields.low, yields.usual, yields.high
        )
    });
    let (low, usual, high) = (yields.low.value(), yields.usual.value(), yields.high.value());
    find.must(low <= usual && usual <= high, "harvest", || {
        format!(
            "low {}, usual {}, high {}: they must rise in this order",
            yields.low, yields.usual, yields.high
        )
    });
    let only_cover = crop.uses.iter().all(|u| *u == Use::Cover);
    find.must(only_cover || high > 0.0, "harvest", || {
        String::from("it is grown to be picked: say how much one plant gives")
    });
    find.must(!only_cover || high <= 0.0, "harvest", || {
        String::from("a cover crop is not picked: write \"0 g\", or name another use")
    });
    if crop.is_food() && !only_cover && !crop.is_for(Use::CutFlower) {
        find.must(crop.grams().is_some(), "each", || {
            format!("it is counted, not weighed ({}): say what one of them weighs", yields.usual)
        });
    }
    if let Some([_, grams, _]) = crop.grams_a_square_metre() {
        find.within("harvest", grams / 1000.0, 0.0, MOST_KG, "kg from a square metre");
    }
    if let Some(keeps) = &crop.keeps {
        find.ordered("keeps", &keeps.days.0, &keeps.days.1, ("the short time", "the long one"));
        find.within("keeps", f64::from(keeps.days.1), 1.0, 2000.0, "days");
        find.must(!keeps.how.trim().is_empty(), "keeps", || String::from("say where it keeps so long"));
    }
}

fn growth(crop: &Crop, find: &mut Finder<'_>) {
    find.within("height", crop.height.cm(), 3.0, 400.0, "cm");
    find.within("root_depth", crop.root_depth.cm(), 5.0, 100.0, "cm");
    if let Some(closes) = crop.closes {
        find.within("closes", f64::from(closes), 5.0, 250.0, "days");
    }
    let tall = crop.habit == Habit::Climbing && crop.height.m() > 1.0;
    find.must(!tall || crop.support != SupportNeed::None, "support", || {
        format!("a climber of {} needs a support, or is helped by one", crop.height)
    });
    for work in &crop.tending {
        let days = match *work {
            Tending::Thin(d)
            | Tending::Tie(d)
            | Tending::Hill(d)
            | Tending::Feed(d)
            | Tending::Mulch(d)
            | Tending::Pinch(d) => d,
            Tending::Uncover => 1,
        };
        find.within("tending", f64::from(days), 1.0, 250.0, "days");
    }
}

fn pot(crop: &Crop, find: &mut Finder<'_>) {
    let Some(pot) = crop.pot else { return };
    find.within("pot", pot.volume.litres(), 0.5, 200.0, "litres");
    find.within("pot", pot.depth.cm(), 8.0, 60.0, "cm of depth");
    find.within("pot", f64::from(pot.plants), 1.0, 40.0, "plants");
    find.must(pot.depth.cm() >= 0.75 * crop.root_depth.cm(), "pot", || {
        format!("a pot {} deep is too shallow for roots that want {}", pot.depth, crop.root_depth)
    });
    // Surface of a straight-sided pot against that of the plants at the dense distance; pots may be five times
    // fuller than a bed, because the leaves hang over the rim.
    let surface = pot.volume.litres() * 1000.0 / pot.depth.cm().max(1.0);
    let wanted = f64::from(pot.plants) * crop.spacing.dense.cm().powi(2);
    find.must(wanted <= 5.0 * surface, "pot", || {
        format!("{} plants do not fit {} at {} apart", pot.plants, pot.volume, crop.spacing.dense)
    });
}

fn water(crop: &Crop, find: &mut Finder<'_>) {
    let water = crop.water;
    for kc in [water.kc.0, water.kc.1, water.kc.2] {
        find.within("water.kc", f64::from(kc), 0.2, 1.3, "as crop coefficient");
    }
    let stages = [water.stages.0, water.stages.1, water.stages.2, water.stages.3];
    let sum: f64 = stages.iter().map(|s| f64::from(*s)).sum();
    find.must((sum - 1.0).abs() < 0.002 && stages.iter().all(|s| *s >= 0.0), "water.stages", || {
        format!("the shares of the four stages add up to {sum:.3}: they must give 1")
    });
    find.within("water.p", f64::from(water.p), 0.1, 0.75, "as depletion fraction");
}

fn rest(crop: &Crop, find: &mut Finder<'_>) {
    if let Some(rotation) = crop.rotation {
        find.ordered("rotation", &rotation.least, &rotation.advised, ("least", "advised"));
        find.within("rotation", f64::from(rotation.advised), 0.0, 25.0, "years");
    }
}

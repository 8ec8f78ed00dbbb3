//! The needs of a season as a shopping list.

use super::Source;
use crate::calendar::{Date, day_text};
use crate::paper::needs::{NeedsList, NeedsPart, NeedsRow};
use crate::units::{Amount, Length, LengthUnit, Volume, VolumeUnit};
use crate::work;

impl Source<'_> {
    /// The shopping list of the season.
    pub fn needs(&self) -> NeedsList {
        let needs = work::needs(self.plan, self.book, self.year, self.season);
        let parts = vec![
            part(
                "Seed",
                "A fifth more than plants wanted; packets of the usual size.",
                needs.seeds.iter().map(seed),
            ),
            part(
                "Sets, tubers, cloves, young plants",
                "",
                needs
                    .plants
                    .iter()
                    .map(|p| row(&p.name, format!("{} {}", p.count, p.what), String::new(), Some(p.by))),
            ),
            part(
                "Seedlings by week",
                "Tray cells in use, and what is started.",
                needs.seedlings.iter().filter(|w| !w.start.is_empty()).map(|w| {
                    let name = week_name(&w.week);
                    row(&name, format!("{} of {} cells", w.cells, w.room), w.start.join(", "), None)
                }),
            ),
            part(
                "Potting mix and soil",
                "15 % more, because it settles.",
                needs.mix.iter().map(|m| {
                    let (low, high) = m.mix.compost_litres;
                    let soaked = format!(
                        "of it {} to {} compost; soaked {}",
                        self.litres(low),
                        self.litres(high),
                        self.weight(m.mix.soaked_kg * 1000.0)
                    );
                    row(&m.name, self.litres(m.mix.order_litres), soaked, Some(m.on))
                }),
            ),
            part(
                "Compost to top up",
                "A layer of 1 to 2 in (2.5 to 5 cm) a year.",
                needs.compost.iter().map(|c| {
                    let words = format!("{} to {}", self.litres(c.litres.0), self.litres(c.litres.1));
                    row(&c.name, words, String::new(), None)
                }),
            ),
            part(
                "Supports that are not there yet",
                "",
                needs.supports.iter().map(|s| {
                    let height = Length::new(s.height_m, LengthUnit::M);
                    let height = height.for_measure(self.plan.settings.measure).rounded(1);
                    let about = if s.needed { "" } else { "; it grows without one, but better with" };
                    row(&s.name, format!("{height} high"), format!("{}{about}", s.where_words), Some(s.by))
                }),
            ),
            part(
                "Water",
                "A floor: boxes and pots dry at the rim and drain.",
                needs.water.iter().map(|w| {
                    let most = w.weeks.iter().max_by(|a, b| a.litres.total_cmp(&b.litres));
                    let detail = most.map_or_else(String::new, |m| {
                        format!("at most {} in {}", self.litres(m.litres), week_name(&m.week))
                    });
                    row(&w.name, self.litres(w.litres), detail, None)
                }),
            ),
        ];
        NeedsList {
            title: format!("Needs of {}", self.season),
            note: format!("From {} on.", day_text(self.season.first())),
            parts: parts.into_iter().filter(|p| !p.rows.is_empty()).collect(),
        }
    }

    fn weight(&self, grams: f64) -> String {
        let measure = self.plan.settings.measure;
        Amount::grams(grams, measure).reading(measure)
    }

    fn litres(&self, litres: f64) -> String {
        Volume::new(litres, VolumeUnit::L).for_measure(self.plan.settings.measure).rounded(0)
    }
}

fn seed(need: &work::SeedNeed) -> NeedsRow {
    let buy = match (need.to_buy, need.packets) {
        (0, _) => String::from("the drawer has enough"),
        (_, 1) => String::from("1 packet"),
        (_, n) => format!("{n} packets"),
    };
    let sowings =
        if need.sowings == 1 { "one sowing".to_owned() } else { format!("{} sowings", need.sowings) };
    let about = if need.about.is_empty() { String::new() } else { format!("; {}", need.about) };
    row(&need.name, buy, format!("{} seeds in {sowings}{about}", need.seeds), Some(need.by))
}

/// "Week 13" of "2027-W13".
fn week_name(week: &str) -> String {
    week.split_once("-W")
        .map_or_else(|| week.to_owned(), |(_, n)| format!("week {}", n.trim_start_matches('0')))
}

fn row(what: &str, amount: String, detail: String, by: Option<Date>) -> NeedsRow {
    NeedsRow { what: what.to_owned(), amount, detail, by }
}

fn part(head: &str, note: &str, rows: impl Iterator<Item = NeedsRow>) -> NeedsPart {
    NeedsPart { head: head.to_owned(), note: note.to_owned(), rows: rows.collect() }
}

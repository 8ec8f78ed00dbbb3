//! A crop as a page of text, and the book as a list with a line for each crop.

mod words;

pub(super) use words::use_word;

use super::book::Book;
use super::entry::Crop;
use super::figures::{
    CautionKind, Clock, CountedFrom, CropId, Daylength, Feed, Germination, Habit, MateTime, PickShape,
    Ripening, Season, SupportNeed,
};
use crate::units::{Length, Measure, TempUnit, Temperature};
use std::collections::BTreeSet;
use std::fmt::Write;
use words::{
    area_words, beside, caution_word, class_word, figure_words, fraction, grade_words, many, native,
    number_span, part_word, span, start_words, tending_words, weeks_about,
};

/// Columns of a page.
const WIDE: usize = 80;
/// A space at which no line is broken.
const UNBROKEN: &str = "\u{a0}";
/// Columns of the names of figures.
const LABEL: usize = 16;

/// Everything the book knows of a crop: figures with units and sources, what other sources say, neighbours, cautions,
/// troubles, and the sources in full. Figures stand as published, with the grower's measure beside.
pub fn page(crop: &Crop, book: &Book, measure: Measure) -> String {
    page_in(WIDE, crop, book, measure)
}

/// The same in so many columns.
pub fn page_in(wide: usize, crop: &Crop, book: &Book, measure: Measure) -> String {
    let mut page = Page { crop, measure, wide, out: String::new(), cited: BTreeSet::new() };
    page.head(book);
    page.planting();
    page.climate();
    page.harvest();
    page.growing(book);
    page.disagreement();
    page.company(book);
    page.cautions();
    page.troubles(book);
    page.sources(book);
    page.out
}

/// Every crop of the book, a line each, varieties under their crop: id, name, days, distance, frost, uses.
pub fn list(book: &Book, measure: Measure) -> String {
    let mut out = String::new();
    for family in book.families() {
        let of = |c: &&Crop| c.family == family.name && c.of.is_none();
        let crops: Vec<&Crop> = book.crops().filter(of).collect();
        if crops.is_empty() {
            continue;
        }
        let _ = writeln!(out, "{} ({})", family.name, family.common);
        for crop in crops {
            out.push_str(&line(crop, measure, "  "));
            for variety in book.varieties(&crop.id) {
                out.push_str(&line(variety, measure, "    "));
            }
        }
    }
    out
}

/// Some crops, a line each.
pub fn lines(crops: &[&Crop], measure: Measure) -> String {
    crops.iter().map(|crop| line(crop, measure, "  ")).collect()
}

fn line(crop: &Crop, measure: Measure, indent: &str) -> String {
    let days = match crop.clock {
        Clock::Heat { .. } => format!("{}-{} d", crop.days.min, crop.days.max),
        Clock::Overwintered { .. } => String::from("overwinters"),
        Clock::Perennial { renew, .. } => format!("{renew} years"),
    };
    let uses: Vec<&str> = crop.uses.iter().map(|u| use_word(*u)).collect();
    let name = format!("{indent}{}", crop.id);
    let distance = span(crop.spacing.dense, crop.spacing.wide, measure);
    let text = format!(
        "{name:<28}{:<32}{days:<13}{distance:<11}{:<12}{}",
        crop.name,
        class_word(crop.frost.class),
        uses.join(", ")
    );
    format!("{}\n", text.trim_end())
}

struct Page<'a> {
    crop: &'a Crop,
    measure: Measure,
    wide: usize,
    out: String,
    cited: BTreeSet<String>,
}

impl<'a> Page<'a> {
    /// A figure with the sources of `figure`.
    fn figure(&mut self, label: &str, words: &str, figure: &str) {
        let crop: &'a Crop = self.crop;
        let codes = crop.sources(figure);
        self.cited.extend(codes.iter().cloned());
        let from = if codes.is_empty() { String::from("no source named") } else { codes.join(", ") };
        self.row(label, &format!("{words}  [{from}]"));
    }
    /// A label and words, broken at the width of the page.
    fn row(&mut self, label: &str, words: &str) {
        let mut line = format!("  {label:<LABEL$}");
        let mut empty = true;
        for word in words.split(' ') {
            if !empty && line.chars().count() + 1 + word.chars().count() > self.wide {
                self.out.push_str(line.trim_end());
                self.out.push('\n');
                line = " ".repeat(LABEL + 2);
                empty = true;
            }
            if !empty {
                line.push(' ');
            }
            // A number keeps its unit on its line.
            line.push_str(&word.replace(UNBROKEN, " "));
            empty = false;
        }
        self.out.push_str(line.trim_end());
        self.out.push('\n');
    }
    fn title(&mut self, title: &str) {
        let _ = writeln!(self.out, "\n{title}");
    }

    fn head(&mut self, book: &Book) {
        let crop = self.crop;
        let _ = writeln!(self.out, "{} ({}, {} on the grid)", crop.name, crop.id, crop.code);
        let common = book.family(&crop.family).map_or("", |f| f.common.as_str());
        self.row("botanical", &format!("{}, {} ({common})", crop.botanical, crop.family));
        if !crop.also.is_empty() {
            self.row("also", &crop.also.join(", "));
        }
        if let Some(of) = &crop.of {
            self.row("variety of", of.as_str());
        }
        let varieties: Vec<&str> = book.varieties(&crop.id).map(|v| v.id.as_str()).collect();
        if !varieties.is_empty() {
            self.row("varieties", &varieties.join(", "));
        }
        let uses: Vec<&str> = crop.uses.iter().map(|u| use_word(*u)).collect();
        self.row("grown for", &format!("{}; {}", uses.join(", "), part_word(crop.part)));
        if !crop.note.is_empty() {
            self.row("note", &crop.note);
        }
    }

    fn planting(&mut self) {
        let crop = self.crop;
        self.title("Planting");
        let apart = format!(
            "{} apart{}",
            span(crop.spacing.dense, crop.spacing.wide, native(crop.spacing.wide)),
            beside(self.measure, crop.spacing.wide, || span(
                crop.spacing.dense,
                crop.spacing.wide,
                self.measure
            ))
        );
        self.figure("distance", &apart, "spacing");
        match crop.row {
            Some(row) => {
                let words = format!("{} between rows in an open bed", self.length(row));
                self.figure("rows", &words, "row");
            }
            None => self.row("rows", "as far apart as the plants, in an open bed too"),
        }
        let depth = if crop.depth.um() == 0 {
            String::from("on the surface")
        } else {
            format!("{} deep", self.length(crop.depth))
        };
        self.figure("depth", &depth, "depth");
        let starts: Vec<String> = crop.starts.iter().map(|s| start_words(*s)).collect();
        self.figure("starts", &starts.join("; or "), "starts");
        let germination = self.germination();
        self.figure("comes up", &germination, "germination");
        if crop.seed.per_gram > 0.0 {
            self.figure("seed", &format!("{:.0} seeds in a gram", crop.seed.per_gram), "seed.per_gram");
            self.figure("seed life", &many(usize::from(crop.seed.life), "year"), "seed.life");
            self.figure("sprouts", &format!("{} of 100 fresh seeds", crop.seed.sprouts), "seed.sprouts");
        }
        if let Some((low, high)) = crop.every {
            self.figure("again every", &format!("{} days", number_span(low, high)), "every");
        }
    }

    fn germination(&self) -> String {
        match &self.crop.germination {
            Germination::Table(rows) => {
                let cells: Vec<String> = rows
                    .iter()
                    .map(|(celsius, days)| {
                        let t = Temperature::new(*celsius, TempUnit::C);
                        format!("{days} d at {}", t.reading(self.measure))
                    })
                    .collect();
                cells.join(", ")
            }
            Germination::Limits { least, best, most, days } => format!(
                "{days} d at {}; none below {} or above {}",
                self.warm(*best),
                self.warm(*least),
                self.warm(*most)
            ),
            Germination::None => String::from("not grown from seed here"),
        }
    }

    fn climate(&mut self) {
        let crop = self.crop;
        self.title("Time and weather");
        let from = match crop.days.from {
            CountedFrom::Sowing => "from sowing or planting",
            CountedFrom::SettingOut => "from setting out",
        };
        let days = format!("{} days {from}", number_span(crop.days.min, crop.days.max));
        self.figure("days", &days, "days");
        let clock = self.clock();
        self.figure("clock", &clock, "clock");
        self.figure("frost class", class_word(crop.frost.class), "frost.class");
        let frost = format!(
            "foliage dies at {}, the harvest is spoilt at {}",
            self.warm(crop.frost.foliage),
            self.warm(crop.frost.harvest)
        );
        self.figure("frost", &frost, "frost");
        let mut limits = Vec::new();
        let heat = crop.heat;
        for (limit, words) in [
            (heat.set_night_most, "no fruit sets in nights above"),
            (heat.set_day_most, "no fruit sets in days above"),
            (heat.set_night_least, "no fruit sets in nights below"),
            (heat.mean_most, "bolts, turns bitter or stops when a month's mean is above"),
        ] {
            limits.extend(limit.map(|t| format!("{words} {}", self.warm(t))));
        }
        if !limits.is_empty() {
            self.figure("heat", &limits.join("; "), "heat");
        }
        if let Some(daylength) = crop.daylength {
            let words = match daylength {
                Daylength::BoltsAbove(h) => format!("runs to flower in days longer than {h} hours"),
                Daylength::BulbsAbove(h) => format!("forms its bulb in days longer than {h} hours"),
                Daylength::NeedsBelow(h) => format!("flowers or tubers in days shorter than {h} hours"),
            };
            self.figure("daylength", &words, "daylength");
        }
        let light =
            format!("{} hours of sun at least, {} for its full growth", crop.light.least, crop.light.full);
        self.figure("light", &light, "light");
    }

    fn clock(&self) -> String {
        match &self.crop.clock {
            Clock::Heat { season, base, upper } => {
                let mut words = String::from(match season {
                    Season::Cool => "ripened by heat, cool-season",
                    Season::Warm => "ripened by heat, warm-season",
                });
                if let Some(base) = base {
                    let _ = write!(words, ", grows from {}", self.warm(*base));
                }
                if let Some(upper) = upper {
                    let _ = write!(words, " to {}", self.warm(*upper));
                }
                words
            }
            Clock::Overwintered { plant, ripe } => {
                let ripe = match ripe {
                    Ripening::AfterLongestDay(early, late) => {
                        format!("ripe {early} to {late} days after the longest day")
                    }
                    Ripening::HeatFromSpring(days) => format!("ripe after {days} days of spring growth"),
                };
                format!("stands the winter: planted {}, {ripe}", weeks_about(*plant))
            }
            Clock::Perennial { by_year, wakes, renew } => {
                let shares: Vec<String> =
                    by_year.iter().map(|s| format!("{:.0} %", f64::from(*s) * 100.0)).collect();
                format!(
                    "stands for years: {} of the full yield year by year, picked after {wakes} days of spring \
                     growth, renewed after {renew} years",
                    shares.join(", ")
                )
            }
        }
    }

    fn harvest(&mut self) {
        let crop = self.crop;
        self.title("Harvest");
        let picking = crop.picking;
        let days = picking.days;
        let mut words = match picking.shape {
            PickShape::Once => String::from("all at one time"),
            PickShape::Flush => format!("most of it within {days} days"),
            PickShape::Steady => format!("evenly over {days} days"),
            PickShape::Cut { cuts, regrow } => {
                format!("cut-and-come-again: {cuts} cuts, {regrow} days apart")
            }
        };
        if picking.holds > 0 {
            let _ = write!(words, "; holds in the ground for {} days", picking.holds);
        }
        self.figure("picking", &words, "picking");
        if crop.harvest.high.value() > 0.0 {
            let yields = crop.harvest;
            let words = format!("{} a plant ({} to {})", yields.usual, yields.low, yields.high);
            let area = crop.grams_a_square_metre().filter(|_| crop.is_food());
            let area =
                area.map_or_else(String::new, |grams| format!(", {}", area_words(grams, self.measure)));
            self.figure("yield", &format!("{words}{area}"), "harvest");
        }
        if let Some(each) = crop.each {
            self.figure("each weighs", &each.to_string(), "each");
        }
        if let Some(keeps) = &crop.keeps {
            let (low, high) = keeps.days;
            self.figure("keeps", &format!("{} days, {}", number_span(low, high), keeps.how), "keeps");
        } else if crop.harvest.high.value() > 0.0 {
            self.row("keeps", "not stored: used on the day");
        }
    }

    fn growing(&mut self, book: &Book) {
        let crop = self.crop;
        self.title("Growing");
        let habit = match crop.habit {
            Habit::Rosette => "low rosette",
            Habit::Upright => "upright",
            Habit::Bush => "bushy",
            Habit::Sprawling => "sprawling",
            Habit::Climbing => "climbing",
        };
        let support = match crop.support {
            SupportNeed::None => "",
            SupportNeed::Helps => ", better with a support",
            SupportNeed::Needs => ", needs a support",
        };
        let height = format!("{}, {habit}{support}", self.length(crop.height));
        self.figure("height", &height, "height");
        if let Some(days) = crop.closes {
            self.figure("canopy closes", &format!("after {days} days"), "closes");
        }
        let roots = self.length(crop.root_depth);
        self.figure("root depth", &roots, "root_depth");
        match crop.pot {
            Some(pot) => {
                let words = format!(
                    "{} and {} deep for {}",
                    pot.volume.for_measure(self.measure).rounded(1),
                    self.length(pot.depth),
                    many(usize::from(pot.plants), "plant")
                );
                self.figure("pot", &words, "pot");
            }
            None => self.row("pot", "not grown in pots"),
        }
        let w = crop.water;
        let kc = format!("crop coefficients {}, {}, {}", w.kc.0, w.kc.1, w.kc.2);
        self.figure("water", &kc, "water.kc");
        let shares: Vec<String> = [w.stages.0, w.stages.1, w.stages.2, w.stages.3]
            .iter()
            .map(|s| format!("{:.0} %", f64::from(*s) * 100.0))
            .collect();
        self.figure("", &format!("stages {} of the time", shares.join(", ")), "water.stages");
        self.figure("", &format!("may use {} of the water there is", w.p), "water.p");
        let feed = match crop.feed {
            Feed::Heavy => "heavy",
            Feed::Medium => "medium",
            Feed::Light => "light",
            Feed::Gives => "gives nitrogen if its roots stay",
        };
        self.figure("feeding", feed, "feed");
        let tending: Vec<String> = crop.tending.iter().map(|t| tending_words(*t)).collect();
        if !tending.is_empty() {
            self.figure("tending", &tending.join("; "), "tending");
        }
        if crop.net {
            self.row("cover", "net or fleece from the first day");
        }
        let rotation = book.rotation(crop);
        let break_ =
            format!("{} at least, {} advised", many(usize::from(rotation.least), "year"), rotation.advised);
        if crop.rotation.is_some() {
            self.figure("break", &format!("{break_}, its own"), "rotation");
        } else if let Some(family) = book.family(&crop.family) {
            self.cited.extend(family.src.iter().cloned());
            self.row("break", &format!("{break_}, as its family  [{}]", family.src.join(", ")));
        }
    }

    fn disagreement(&mut self) {
        let crop = self.crop;
        if crop.differs.is_empty() {
            return;
        }
        self.title("Other sources say");
        for other in &crop.differs {
            self.cited.insert(other.src.clone());
            self.row(&figure_words(&other.figure), &format!("{}  [{}]", other.says, other.src));
        }
    }

    fn company(&mut self, book: &Book) {
        let crop = self.crop;
        let others: Vec<&Crop> =
            book.crops().filter(|c| c.mates.iter().any(|m| m.main == crop.id) && c.of.is_none()).collect();
        if crop.neighbours.is_empty() && crop.mates.is_empty() && others.is_empty() {
            return;
        }
        self.title("Company");
        for claim in &crop.neighbours {
            self.cited.insert(claim.src.clone());
            let (grade, harm) = (grade_words(claim.grade), if claim.helps { "" } else { " (harm)" });
            self.row(&claim.with, &format!("{grade}{harm}: {}  [{}]", claim.why, claim.src));
        }
        let shared = |when: MateTime| match when {
            MateTime::UntilClosed => "until its canopy closes",
            MateTime::Always => "all along",
        };
        for when in [MateTime::Always, MateTime::UntilClosed] {
            let names: Vec<&str> =
                crop.mates.iter().filter(|m| m.when == when).map(|m| m.main.as_str()).collect();
            if !names.is_empty() {
                self.figure("shares cells of", &format!("{}, {}", names.join(", "), shared(when)), "mates");
            }
        }
        if !others.is_empty() {
            let names: Vec<&str> = others.iter().map(|c| c.id.as_str()).collect();
            self.row("lets in", &names.join(", "));
        }
    }

    fn cautions(&mut self) {
        let crop = self.crop;
        if crop.cautions.is_empty() {
            return;
        }
        self.title("Cautions");
        for caution in &crop.cautions {
            self.cited.insert(caution.src.clone());
            let others = match &caution.kind {
                CautionKind::LooksLike(ids) => {
                    let names: Vec<&str> = ids.iter().map(CropId::as_str).collect();
                    format!(" ({})", names.join(", "))
                }
                CautionKind::NotFood
                | CautionKind::Allergy
                | CautionKind::Skin
                | CautionKind::CookFirst
                | CautionKind::PartsPoisonous
                | CautionKind::Spreads => String::new(),
            };
            self.row(caution_word(&caution.kind), &format!("{}{others}  [{}]", caution.words, caution.src));
        }
    }

    fn troubles(&mut self, book: &Book) {
        let crop = self.crop;
        let troubles: Vec<_> = book.troubles_of(crop).collect();
        if troubles.is_empty() {
            return;
        }
        self.title("Troubles");
        for trouble in troubles {
            self.cited.extend(trouble.src.iter().cloned());
            let wait = match (trouble.least, trouble.advised) {
                (0, 0) => String::new(),
                (least, advised) if least == advised => {
                    format!(": {} free once it was seen", many(usize::from(least), "year"))
                }
                (least, advised) => format!(": {least}-{advised} years free once it was seen"),
            };
            self.row("", &format!("{}{wait}  [{}]", trouble.name, trouble.src.join(", ")));
        }
    }

    fn sources(&mut self, book: &Book) {
        self.title("Sources");
        for code in std::mem::take(&mut self.cited) {
            self.row(&code, book.reference(&code).unwrap_or("(not in the list of sources)"));
        }
    }

    fn length(&self, length: Length) -> String {
        let other = beside(self.measure, length, || length.for_measure(self.measure).rounded(0));
        format!("{}{other}", fraction(length)).replace(' ', UNBROKEN)
    }
    fn warm(&self, t: Temperature) -> String {
        let given = t.to_string();
        let reading = t.reading(self.measure);
        let same = given.ends_with(reading.chars().last().unwrap_or(' '));
        let words = if same { given } else { format!("{given} ({reading})") };
        words.replace(' ', UNBROKEN)
    }
}

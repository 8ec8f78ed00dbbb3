//! The kitchen calendar: what comes when.

use super::axis::{Axis, RULER, Scale};
use super::frame::{Flow, Frame, Imprint, Orientation};
use super::grid::{Grid, Records};
use super::ink::{Rgb, Tint};
use super::key::{self, Entry, Swatch};
use super::page::{Edge, Fill, Outline, Page, Style};
use super::words::{iso, span};
use crate::calendar::{Date, Week};
use crate::units::num::real;
use crate::units::{Amount, Measure};

/// One crop on its way to the table.
#[derive(Debug, Clone, PartialEq)]
pub struct KitchenRow {
    /// The crop.
    pub name: String,
    /// Its family's colour and hatch.
    pub tint: Tint,
    /// What is expected, by week.
    pub weeks: Vec<(Week, Amount)>,
    /// All of it in a poor and in a good year.
    pub range: Option<(Amount, Amount)>,
    /// Laid down to keep: first and last day.
    pub store: Option<(Date, Date)>,
}

/// What comes when.
#[derive(Debug, Clone, PartialEq)]
pub struct KitchenCalendar {
    /// Title of the sheet.
    pub title: String,
    /// A sentence under it.
    pub note: String,
    /// The weeks.
    pub axis: Axis,
    /// Units amounts are shown in.
    pub measure: Measure,
    /// The crops.
    pub rows: Vec<KitchenRow>,
}

const NAME: f64 = 104.0;
const TOTAL: f64 = 128.0;
const ROW: f64 = 20.0;
const HEAD: Style = Style::bold(7.4);
const SMALL: Style = Style::plain(6.4).soft();

/// Columns of the expected pickings as records.
const RECORD: [&str; 6] = ["crop", "week", "from", "to", "amount", "unit"];

impl KitchenRow {
    /// All of it; none where amounts of different kinds were mixed or nothing comes.
    fn total(&self) -> Option<Amount> {
        let (_, first) = self.weeks.first()?;
        let all = self.weeks.iter().filter(|(_, a)| a.same_kind(*first)).map(|(_, a)| a.value()).sum();
        Some(first.with_value(all))
    }

    fn most(&self) -> Option<Amount> {
        let value = |a: &Amount| a.value();
        self.weeks.iter().map(|(_, a)| *a).max_by(|a, b| value(a).total_cmp(&value(b)))
    }
}

impl KitchenCalendar {
    /// Draws the calendar.
    pub fn pages(&self, imprint: &Imprint) -> Vec<Page> {
        let frame = Frame {
            imprint,
            orientation: imprint.lies(Orientation::Landscape),
            title: &self.title,
            note: &self.note,
        };
        let mut flow = Flow::new(frame);
        let mut rest = self.rows.as_slice();
        loop {
            rest = self.fill(&mut flow, rest);
            if rest.is_empty() {
                return flow.finish();
            }
            flow.turn();
        }
    }

    /// Fills the page; the rows left over come back.
    fn fill<'r>(&self, flow: &mut Flow<'_>, rows: &'r [KitchenRow]) -> &'r [KitchenRow] {
        let (left, right) = flow.sides();
        let scale = Scale { axis: self.axis, left: left + NAME + 6.0, right: right - TOTAL - 6.0 };
        let entries = entries();
        let room = flow.room() - RULER - key::height(&entries, right - left) - 8.0;
        // A short list is spread over the page.
        let least = (room / real(rows.len().max(1))).clamp(ROW, 1.5 * ROW);
        let mut here = Vec::new();
        let mut tall = 0.0;
        for row in rows {
            let height = height(row).max(least);
            if tall + height > room && !here.is_empty() {
                break;
            }
            tall += height;
            here.push((row, height));
        }
        let top = flow.y;
        scale.draw(flow.page(), top, top + RULER + tall);
        let style = SMALL.end();
        flow.page().write(right, top + 17.4, style, "in all; poor to good year; most in a week");
        let mut y = top + RULER;
        for (row, height) in &here {
            self.row(flow.page(), &scale, (left, right), y, row, *height);
            y += height;
        }
        flow.page().line((left, y), (right, y), Edge::solid(Rgb::SOFT, 0.5));
        key::draw(flow.page(), left, y + 5.0, right - left, &entries);
        flow.y = y;
        rows.get(here.len()..).unwrap_or_default()
    }

    fn row(
        &self,
        page: &mut Page,
        scale: &Scale,
        sides: (f64, f64),
        top: f64,
        row: &KitchenRow,
        height: f64,
    ) {
        let (left, right) = sides;
        let base = top + height - 3.0;
        page.wrap(left, top + 10.0, NAME, HEAD, &row.name);
        let most = row.most().map_or(1.0, Amount::value).max(f64::MIN_POSITIVE);
        if let Some((from, to)) = row.store {
            let (a, b) = (scale.x(from), scale.x(to));
            page.line((a, base - 3.0), (b, base - 3.0), Edge::dashed(row.tint.hue.line(), 1.6));
        }
        for (week, amount) in &row.weeks {
            let (a, b) = (scale.x(week.monday()), scale.x(week.plus(1).monday()));
            if b - a < 1.0 {
                continue;
            }
            let tall = ((height - 6.0) * amount.value() / most).clamp(0.8, height - 6.0);
            let at = Outline { left: a + 0.5, top: base - tall, right: b - 0.5, bottom: base };
            page.pane(at, 0.4, Fill::Flat(row.tint.ripe()), Edge::solid(row.tint.hue.line(), 0.5));
        }
        if let (Some(total), Some(most)) = (row.total(), row.most()) {
            let style = HEAD.end();
            page.write(right, top + 9.0, style, &self.say(total));
            let most = format!("{} a week", self.say(most));
            let words = match row.range {
                Some((low, high)) if low.value() < high.value() => {
                    format!("{} to {}; {most}", self.say(low), self.say(high))
                }
                Some(_) | None => most,
            };
            let style = SMALL.end().fitted(&words, TOTAL, 4.6).unwrap_or(SMALL.end().sized(4.6));
            page.write(right, top + 16.6, style, &words);
        }
        page.line((left, top + height), (right, top + height), Edge::solid(Rgb::HAIR, 0.3));
    }

    /// An expected amount to two figures: more would claim to know the weather.
    fn say(&self, amount: Amount) -> String {
        let value = amount.value();
        let step = 10_f64.powf(value.max(1.0).log10().floor() - 1.0);
        let whole = if value < 10.0 { value } else { (value / step).round() * step };
        let words = amount.with_value(whole).reading(self.measure);
        if words.starts_with("0 ") { "hardly any".to_owned() } else { words }
    }

    /// What comes, week by week, in words.
    pub fn grids(&self) -> Vec<Grid> {
        let mut rows = Vec::new();
        for week in self.axis.each() {
            let mut comes = Vec::new();
            for row in &self.rows {
                let here = row.weeks.iter().filter(|(w, _)| *w == week);
                comes.extend(here.map(|(_, a)| format!("{} {}", row.name, self.say(*a))));
            }
            if !comes.is_empty() {
                let days = span(week.monday(), week.sunday());
                rows.push(vec![week.number().to_string(), days, comes.join("; ")]);
            }
        }
        vec![Grid {
            title: self.title.clone(),
            note: self.note.clone(),
            heads: vec!["Week", "Days", "What comes"],
            rows,
            drawing: Vec::new(),
        }]
    }

    /// The expected pickings for other programs: grams, or pieces by their word.
    pub fn records(&self) -> Records {
        let mut rows = Vec::new();
        for row in &self.rows {
            for (week, amount) in &row.weeks {
                rows.push(vec![
                    row.name.clone(),
                    week.to_string(),
                    iso(Some(week.monday())),
                    iso(Some(week.sunday())),
                    super::svg::num(amount.value()),
                    super::from_plan::unit(*amount),
                ]);
            }
        }
        Records { columns: &RECORD, rows }
    }
}

fn height(row: &KitchenRow) -> f64 {
    ROW.max(5.0 + HEAD.leading() * real(HEAD.lines(&row.name, NAME).len()))
}

fn entries() -> Vec<Entry> {
    let entry = |swatch, words: &str| Entry { swatch, head: String::new(), words: words.to_owned() };
    let grey = Edge::solid(Rgb::SOFT, 0.6);
    vec![
        entry(
            Swatch::Fill(Fill::Flat(Rgb::SOFT.thin(130)), grey),
            "picked fresh; the tallest column is the best week of its crop",
        ),
        entry(Swatch::Rule(Edge::dashed(Rgb::SOFT, 1.6)), "from store"),
    ]
}

//! A site's climate as fields for other programs: the JSON contract of the command `site`.

use super::day::{MONTH_DAYS, Monthly, month_means};
use super::degree::Response;
use super::frost::{FrostCurves, HalfDates};
use super::year::{SHORT_DAY, SiteYear, Span};
use crate::calendar::ClimateDay;
use crate::units::num;
use serde::Serialize;
use std::collections::BTreeMap;

/// Thresholds shown: freezing, and a hard freeze of 28 F.
pub const SHOWN: [f64; 2] = [0.0, -2.2];

/// Month and day ("05-12") passed in so many years of ten; null where there is none.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct DatesReport {
    /// One year of ten.
    #[serde(rename = "1in10")]
    pub one: Option<String>,
    /// Five years of ten.
    #[serde(rename = "5in10")]
    pub five: Option<String>,
    /// Nine years of ten.
    #[serde(rename = "9in10")]
    pub nine: Option<String>,
}

/// Frost dates at one threshold.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct FrostReport {
    /// The date after which a frost still comes in that share of years.
    pub last: DatesReport,
    /// The date before which one has come in that share of years.
    pub first: DatesReport,
    /// Share of years with such a night before the warmest day.
    pub share_spring: f64,
    /// Share of years with such a night after it.
    pub share_autumn: f64,
}

/// A stretch of the year.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct SpanReport {
    /// First day, "05-12".
    pub first: String,
    /// Last day.
    pub last: String,
    /// Number of days.
    pub days: usize,
}

/// Twelve values a curve, January first.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct MonthlyReport {
    /// Mean daily maximum, degrees Celsius.
    pub tmax: Monthly,
    /// Mean daily minimum, degrees Celsius.
    pub tmin: Monthly,
    /// Rain, mm a month.
    pub rain: Monthly,
    /// Reference evapotranspiration, mm a month.
    pub et0: Monthly,
    /// Soil at 5 cm, degrees Celsius.
    pub soil: Monthly,
    /// Hours from sunrise to sunset, mean of the month.
    pub daylength: Monthly,
    /// Degree days a month above 10 C, held above 30 C.
    pub degree_days_10: Monthly,
    /// Degree days a month above 2 C, falling above 22 C: cool-season crops.
    pub degree_days_cool: Monthly,
}

/// The climate of a site.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct SiteReport {
    /// Name to read.
    pub name: String,
    /// Degrees, north positive.
    pub lat: f64,
    /// Degrees, east positive.
    pub lon: f64,
    /// Metres; null where unknown.
    pub elevation: Option<f64>,
    /// Frost dates by threshold, "0.0" and "-2.2" degrees Celsius, as the climate has them.
    pub frost: BTreeMap<String, FrostReport>,
    /// The same with the method's own error allowed for: the dates decisions are made by.
    pub frost_with_error: BTreeMap<String, FrostReport>,
    /// Curves by month.
    pub monthly: MonthlyReport,
    /// Hours from sunrise to sunset for each of 365 days.
    pub daylength_hours: Vec<f64>,
    /// Days of error to expect of frost dates, given what they come from.
    pub expected_error_days: f64,
    /// What they come from.
    pub input: String,
    /// The days between the even-chance last and first frost at 0 C; null where there is none.
    pub frost_free: Option<SpanReport>,
    /// The days shorter than 10 hours; null where there are none.
    pub under_10_hours: Option<SpanReport>,
    /// Ripening goes by the catalogue's days: temperatures are not known.
    pub catalogue: bool,
    /// Where seasons begin, "01-01"; null where no start is forced.
    pub season_start: Option<String>,
    /// What the grower should know.
    pub warnings: Vec<String>,
    /// Where the figures come from.
    pub source: String,
}

fn dates(dates: &HalfDates) -> DatesReport {
    let text = |day: Option<ClimateDay>| day.map(|day| day.month_day().to_string());
    DatesReport { one: text(dates.one_in_10), five: text(dates.five_in_10), nine: text(dates.nine_in_10) }
}

fn frost(curves: &FrostCurves) -> FrostReport {
    FrostReport {
        last: dates(&curves.last),
        first: dates(&curves.first),
        share_spring: rounded(curves.share_spring(), 4),
        share_autumn: rounded(curves.share_autumn(), 4),
    }
}

fn span(span: Span) -> SpanReport {
    let text = |day: ClimateDay| day.month_day().to_string();
    SpanReport { first: text(span.first), last: text(span.last), days: span.days }
}

fn rounded(value: f64, digits: i32) -> f64 {
    let scale = 10.0_f64.powi(digits);
    (value * scale).round() / scale
}

/// Monthly sums of a daily curve.
pub(super) fn month_sums(daily: &super::Daily) -> Monthly {
    let means = month_means(daily);
    std::array::from_fn(|m| means[m] * num::real(MONTH_DAYS[m]))
}

impl SiteYear {
    /// The days between the even-chance last and first frost at a threshold, as the climate has them; none where
    /// frost comes in fewer than half of the years, or in every month.
    pub fn usual_season(&self, threshold: f64) -> Option<Span> {
        let curves = self.frost_plain(threshold);
        let (first, last) = (curves.last.five_in_10?.plus(1), curves.first.five_in_10?.plus(-1));
        let days = num::wrap(num::signed(last.index()) - num::signed(first.index()) + 1, super::day::DAYS);
        Some(Span { first, last, days })
    }

    /// Everything of it that other programs may read.
    pub fn report(&self) -> SiteReport {
        let by_threshold = |wide: bool| {
            SHOWN
                .iter()
                .map(|t| {
                    let curves = if wide { self.frost(*t) } else { self.frost_plain(*t) };
                    (format!("{t:.1}"), frost(&curves))
                })
                .collect()
        };
        let tidy = |monthly: Monthly, digits: i32| monthly.map(|value| rounded(value, digits));
        SiteReport {
            name: self.name.clone(),
            lat: self.lat,
            lon: self.lon,
            elevation: self.elevation,
            frost: by_threshold(false),
            frost_with_error: by_threshold(true),
            monthly: MonthlyReport {
                tmax: tidy(month_means(&self.tmax), 2),
                tmin: tidy(month_means(&self.tmin), 2),
                rain: tidy(*self.monthly_rain(), 1),
                et0: tidy(month_sums(&self.et0), 1),
                soil: tidy(month_means(&self.soil), 2),
                daylength: tidy(month_means(&self.daylength), 2),
                degree_days_10: tidy(month_sums(&self.rates(Response::WARM)), 1),
                degree_days_cool: tidy(month_sums(&self.rates(Response::COOL)), 1),
            },
            daylength_hours: self.daylength.iter().map(|hours| rounded(*hours, 4)).collect(),
            expected_error_days: self.trust.error(),
            input: self.trust.weaker().to_string(),
            frost_free: self.usual_season(0.0).map(span),
            under_10_hours: self.days_under(SHORT_DAY).map(span),
            catalogue: self.catalogue,
            season_start: self.season_start.map(|start| start.to_string()),
            warnings: self.warnings.iter().map(ToString::to_string).collect(),
            source: self.source.clone(),
        }
    }
}

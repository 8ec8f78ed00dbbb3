//! Frost dates counted year by year.

use super::super::day::DAYS;
use super::CountedFrost;
use crate::units::num;

/// A season with more days missing between its frost and the warmest day is not judged
/// (criterion of the Utah Climate Center).
const MOST_MISSING: usize = 10;
/// Fewer judged seasons give no percentile at all.
const LEAST_SEASONS: usize = 10;
/// Days from midwinter to the warmest day.
const REACH: usize = 182;

/// Daily minima of whole climate years: `[year][day]`, none where missing.
pub(super) type Years = Vec<Vec<Option<f64>>>;

/// What one half-year of one year shows.
#[derive(Clone, Copy, PartialEq)]
enum Season {
    /// Frost, so many days outwards from the warmest day.
    Frost(usize),
    /// No frost.
    Free,
    /// Too much is missing.
    Unknown,
}

/// One half-year of one year. A half-year that runs out of the record is not judged: it would only be
/// told of where frost came early.
fn season(years: &Years, year: usize, peak: usize, outward: i64, threshold: f64) -> Season {
    let start = num::signed(year * DAYS + peak);
    let low = |step: usize| {
        let at = usize::try_from(start + outward * num::signed(step)).ok()?;
        years.get(at / DAYS).map(|days| days[at % DAYS])
    };
    if low(REACH).is_none() {
        return Season::Unknown;
    }
    let mut missing = 0;
    let mut found = Season::Free;
    for step in 0..=REACH {
        match low(step).flatten() {
            Some(low) if low <= threshold => {
                found = Season::Frost(step);
                break;
            }
            Some(_) => {}
            None => missing += 1,
        }
    }
    if missing <= MOST_MISSING { found } else { Season::Unknown }
}

/// The value that a share `p` of all seasons passes outwards or inwards, by Hazen's plotting position; seasons
/// without frost count as rarer than any.
fn passed(sorted: &[f64], seasons: usize, p: f64) -> Option<f64> {
    if num::real(sorted.len()) <= p * num::real(seasons) || seasons < LEAST_SEASONS {
        return None;
    }
    // Rank from 0 among all seasons, the extreme one first.
    let rank = (p * num::real(seasons) - 0.5).max(0.0);
    let below = num::floor_u(rank);
    let part = rank - num::real(below);
    let here = sorted.get(below)?;
    Some(sorted.get(below + 1).map_or(*here, |next| here + (next - here) * part))
}

/// Last and first frosts at one threshold.
pub(super) fn count(years: &Years, peak: usize, threshold: f64) -> CountedFrost {
    let half = |outward: i64| {
        let judged: Vec<Season> = (0..years.len())
            .map(|year| season(years, year, peak, outward, threshold))
            .filter(|season| *season != Season::Unknown)
            .collect();
        // Frost nearest the warmest day first: the latest last frosts, the earliest first ones.
        let mut steps: Vec<f64> = judged
            .iter()
            .filter_map(|season| match season {
                Season::Frost(step) => Some(num::real(*step)),
                Season::Free | Season::Unknown => None,
            })
            .collect();
        steps.sort_by(f64::total_cmp);
        let share = if judged.is_empty() { 0.0 } else { num::real(steps.len()) / num::real(judged.len()) };
        let places = [0.1, 0.5, 0.9].map(|p| passed(&steps, judged.len(), p));
        (num::word(judged.len()), share, places)
    };
    let (springs, share_spring, last) = half(-1);
    let (autumns, share_autumn, first) = half(1);
    CountedFrost {
        threshold,
        springs,
        share_spring,
        last: last.map(|step| step.map(|step| num::real(REACH) - step)),
        autumns,
        share_autumn,
        first,
    }
}

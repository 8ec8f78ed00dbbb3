//! One threshold's chances round the year, from whichever evidence the site has.

use super::super::bell;
use super::super::day::{DAYS, Daily};
use super::anchor::Half;
use super::chain::{HALF_YEAR, crossing, share_by};
use crate::calendar::ClimateDay;
use crate::units::num;

/// Chances of the three dates that are shown.
const SHOWN: [f64; 3] = [0.1, 0.5, 0.9];
/// Standard deviation of frost dates about their mean, days, where only average dates are known
/// (spread measured over 30 stations; freeze dates are near normal, Thom & Shaw 1958, Mon. Weather Rev. 86:249).
const DATE_SD: f64 = 14.5;
/// Days the last frost comes earlier for each degree the threshold is lower (20 d for 2.2 C, measured).
const SPRING_PACE: f64 = 20.0 / 2.2;
/// Days the first frost comes later for each degree the threshold is lower (16 d for 2.2 C, measured).
const AUTUMN_PACE: f64 = 16.0 / 2.2;

/// Frost dates counted from a station's years at one threshold.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CountedHalf {
    /// Degrees Celsius.
    pub threshold: f64,
    /// Share of years with such a night in this half-year.
    pub share: f64,
    /// Places counted from midwinter towards the warmest day, for 1, 5 and 9 years in 10; none where rarer.
    pub places: [Option<f64>; 3],
}

/// What is known of one half-year.
#[derive(Debug, Clone, PartialEq)]
pub struct HalfSource {
    /// Degrees added to the normal minima so that the chain meets a known date.
    pub offset: f64,
    /// Place of the average date at 0 C, where dates are all there is.
    pub date: Option<f64>,
    /// Counted dates by rising threshold; empty without 15 years of record.
    pub counted: Vec<CountedHalf>,
    /// Days of error to expect of the dates.
    pub error: f64,
}

/// Everything the frost chances of a site come from.
#[derive(Debug, Clone, PartialEq)]
pub struct FrostModel {
    /// Normal daily minimum, degrees Celsius.
    pub mu: Daily,
    /// Standard deviation of single nights about it.
    pub sigma: Daily,
    /// The warmest day of `mu`.
    pub peak: usize,
    /// How much colder the garden's nights are than the place of record.
    pub pocket: f64,
    /// Last frosts.
    pub spring: HalfSource,
    /// First frosts.
    pub autumn: HalfSource,
}

/// The days by which a chance is reached; none where frost is rarer than that, or comes in any month.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HalfDates {
    /// Passed by frost in one year of ten.
    pub one_in_10: Option<ClimateDay>,
    /// Passed by frost in five years of ten.
    pub five_in_10: Option<ClimateDay>,
    /// Passed by frost in nine years of ten.
    pub nine_in_10: Option<ClimateDay>,
}

/// Chances of nights at or below one threshold.
#[derive(Debug, Clone, PartialEq)]
pub struct FrostCurves {
    /// Degrees Celsius, screen height.
    pub threshold: f64,
    peak: usize,
    /// Chance of a frost between place `j` and the warmest day, `j` counted from midwinter.
    spring: [f64; HALF_YEAR],
    autumn: [f64; HALF_YEAR],
    daily: Box<Daily>,
    /// Last frosts: the day *after* which one still comes in that share of years.
    pub last: HalfDates,
    /// First frosts: the day *before* which one has come in that share of years.
    pub first: HalfDates,
}

impl FrostCurves {
    /// Chance that a frost still comes after `day`, before the warmest day; 0 in the half-year after the
    /// warmest day.
    pub fn later(&self, day: ClimateDay) -> f64 {
        Half::Spring.place(self.peak, day.index()).map_or(0.0, |j| self.spring[j])
    }
    /// Chance that a frost has come before `day`, since the warmest day; 0 in the half-year before the
    /// warmest day.
    pub fn before(&self, day: ClimateDay) -> f64 {
        Half::Autumn.place(self.peak, day.index()).map_or(0.0, |j| self.autumn[j])
    }
    /// Chance of such a night on that very day.
    pub fn on(&self, day: ClimateDay) -> f64 {
        self.daily[day.index()]
    }
    /// Chance that no frost has come by `t` days after the warmest day (frosts on that day not counted).
    pub fn survival(&self, t: usize) -> f64 {
        1.0 - self.autumn[HALF_YEAR - 1 - t.min(HALF_YEAR - 1)]
    }
    /// Share of years with such a night before the warmest day.
    pub const fn share_spring(&self) -> f64 {
        self.spring[0]
    }
    /// Share of years with such a night after the warmest day.
    pub const fn share_autumn(&self) -> f64 {
        self.autumn[0]
    }
    /// The warmest day, which parts the last frosts from the first.
    pub fn peak(&self) -> ClimateDay {
        ClimateDay::new(num::signed(self.peak))
    }
    /// The first day after which a frost comes with at most the chance `risk`; none where every day is riskier.
    /// Where frost is always rarer, the day is in midwinter.
    pub fn safe_from(&self, risk: f64) -> Option<ClimateDay> {
        let place = self.spring.iter().position(|chance| *chance <= risk)?;
        Some(ClimateDay::new(num::signed(Half::Spring.day(self.peak, place))))
    }
    /// The last day before which a frost comes with at most the chance `risk`; none where every day is riskier.
    pub fn safe_until(&self, risk: f64) -> Option<ClimateDay> {
        let place = self.autumn.iter().position(|chance| *chance <= risk)?;
        Some(ClimateDay::new(num::signed(Half::Autumn.day(self.peak, place))))
    }
    /// Day of the last frost that one year in `1 / p` passes, with its fraction, counted from midwinter.
    pub fn last_place(&self, p: f64) -> Option<f64> {
        passed(&self.spring, p)
    }
    /// Day of the first frost, counted from the warmest day, before which frost comes in the share `p` of years.
    pub fn first_place(&self, p: f64) -> Option<f64> {
        passed(&self.autumn, p).map(|j| num::real(HALF_YEAR - 1) - j)
    }
    /// Whether such a night comes even about the warmest day in more than one year of ten.
    pub fn all_summer(&self) -> bool {
        self.spring[HALF_YEAR - 2] > 0.1 || self.autumn[HALF_YEAR - 2] > 0.1
    }

    /// The same chances with the method's own error allowed for.
    pub fn widened(&self, spring_error: f64, autumn_error: f64) -> Self {
        let mut out = self.clone();
        out.spring = widen(&self.spring, spring_error);
        out.autumn = widen(&self.autumn, autumn_error);
        out.last = dates(&out.spring, self.peak, Half::Spring);
        out.first = dates(&out.autumn, self.peak, Half::Autumn);
        out
    }
}

/// A place where a falling curve reaches `p`; none where it starts lower, or stays higher to the warmest day.
fn passed(falling: &[f64; HALF_YEAR], p: f64) -> Option<f64> {
    crossing(falling, p).filter(|place| *place <= num::real(HALF_YEAR - 2))
}

fn dates(falling: &[f64; HALF_YEAR], peak: usize, half: Half) -> HalfDates {
    from_places(SHOWN.map(|p| passed(falling, p)), peak, half)
}

fn from_places(places: [Option<f64>; 3], peak: usize, half: Half) -> HalfDates {
    let [one_in_10, five_in_10, nine_in_10] =
        places.map(|place| place.map(|j| ClimateDay::new(num::signed(half.day(peak, num::round_u(j))))));
    HalfDates { one_in_10, five_in_10, nine_in_10 }
}

/// A curve of chances blurred by a normal error of `days`; the ends are held.
pub fn widen(falling: &[f64; HALF_YEAR], days: f64) -> [f64; HALF_YEAR] {
    if !days.is_finite() || days < 0.1 {
        return *falling;
    }
    let reach = num::round_i(4.0 * days).min(120);
    let weights: Vec<f64> = (-reach..=reach).map(|k| bell::density(num::real_i(k) / days)).collect();
    let total: f64 = weights.iter().sum();
    std::array::from_fn(|j| {
        let sum: f64 = weights
            .iter()
            .zip(-reach..=reach)
            .map(|(weight, k)| weight * falling[num::count(num::signed(j) + k).min(HALF_YEAR - 1)])
            .sum();
        sum / total
    })
}

impl FrostModel {
    /// Chances at one threshold, as the climate has them (the method's own error not yet allowed for).
    pub fn curves(&self, threshold: f64) -> FrostCurves {
        let spring = self.falling(Half::Spring, threshold);
        let autumn = self.falling(Half::Autumn, threshold);
        FrostCurves {
            threshold,
            peak: self.peak,
            daily: Box::new(self.daily(threshold)),
            last: self.shown(Half::Spring, threshold, &spring),
            first: self.shown(Half::Autumn, threshold, &autumn),
            spring,
            autumn,
        }
    }

    const fn source(&self, half: Half) -> &HalfSource {
        match half {
            Half::Spring => &self.spring,
            Half::Autumn => &self.autumn,
        }
    }

    /// Dates counted at this very threshold are shown as counted.
    fn shown(&self, half: Half, threshold: f64, falling: &[f64; HALF_YEAR]) -> HalfDates {
        let counted = self.source(half).counted.iter().find(|c| (c.threshold - threshold).abs() < 1e-6);
        match counted {
            Some(counted) if self.pocket == 0.0 => from_places(counted.places, self.peak, half),
            _ => dates(falling, self.peak, half),
        }
    }

    /// Chance of such a night on each day.
    fn daily(&self, threshold: f64) -> Daily {
        let mut out = [0.0; DAYS];
        let mean = self.spring.offset.midpoint(self.autumn.offset);
        for half in [Half::Spring, Half::Autumn] {
            for j in 0..HALF_YEAR {
                let day = half.day(self.peak, j);
                // The halves' offsets meet in midwinter over a month.
                let own = (num::real(j) / 30.0).min(1.0);
                let mu = self.mu[day] + self.source(half).offset * own + mean * (1.0 - own) - self.pocket;
                out[day] = bell::share((threshold - mu) / self.sigma[day].max(1e-6));
            }
        }
        out
    }

    /// Chance of a frost between each place and the warmest day.
    fn falling(&self, half: Half, threshold: f64) -> [f64; HALF_YEAR] {
        let source = self.source(half);
        let threshold = threshold + self.pocket;
        if let Some(date) = source.date {
            let pace = match half {
                Half::Spring => SPRING_PACE,
                Half::Autumn => AUTUMN_PACE,
            };
            let middle = date + pace * threshold;
            let mut out: [f64; HALF_YEAR] =
                std::array::from_fn(|j| 1.0 - bell::share((num::real(j) - middle) / DATE_SD));
            out[HALF_YEAR - 1] = 0.0;
            return out;
        }
        let chain = self.chain(half, threshold);
        match self.counted(half, threshold) {
            Some(counted) => bend(&chain, &counted),
            None => chain,
        }
    }

    fn chain(&self, half: Half, threshold: f64) -> [f64; HALF_YEAR] {
        let offset = self.source(half).offset;
        let mu = half.of(self.peak, &self.mu).map(|m| m + offset);
        share_by(&mu, &half.of(self.peak, &self.sigma), threshold, 0).map(|done| (1.0 - done).clamp(0.0, 1.0))
    }

    /// Counted dates at any threshold: between counted ones by straight lines, beyond them moved as the chain moves.
    fn counted(&self, half: Half, threshold: f64) -> Option<CountedHalf> {
        let counted = &self.source(half).counted;
        let above = counted.iter().position(|c| c.threshold >= threshold - 1e-9);
        let (low, high) = match above {
            Some(0) => (counted.first()?, None),
            Some(i) => (&counted[i - 1], Some(&counted[i])),
            None => (counted.last()?, None),
        };
        if let Some(high) = high {
            let part = (threshold - low.threshold) / (high.threshold - low.threshold);
            let between = |a: f64, b: f64| a + (b - a) * part;
            let places = std::array::from_fn(|k| match (low.places[k], high.places[k]) {
                (Some(a), Some(b)) => Some(between(a, b)),
                (Some(a), None) | (None, Some(a)) if !(0.001..=0.999).contains(&part) => Some(a),
                _ => None,
            });
            return Some(CountedHalf { threshold, share: between(low.share, high.share), places });
        }
        let (there, here) = (self.chain(half, low.threshold), self.chain(half, threshold));
        let ratio = if there[0] > 1e-9 { here[0] / there[0] } else { 1.0 };
        let places = std::array::from_fn(|k| {
            let moved = crossing(&here, SHOWN[k])? - crossing(&there, SHOWN[k])?;
            Some((low.places[k]? + moved).clamp(0.0, num::real(HALF_YEAR - 1)))
        });
        Some(CountedHalf { threshold, share: (low.share * ratio).min(1.0), places })
    }
}

/// Bends the chain's curve so that it has the counted share of years and meets the counted dates.
fn bend(chain: &[f64; HALF_YEAR], counted: &CountedHalf) -> [f64; HALF_YEAR] {
    let scale = if chain[0] > 1e-9 { counted.share / chain[0] } else { 1.0 };
    let scaled = chain.map(|chance| (chance * scale).clamp(0.0, 1.0));
    let mut pins: Vec<(f64, f64)> = Vec::new();
    for (place, p) in counted.places.iter().zip(SHOWN).rev() {
        if let (Some(place), Some(own)) = (*place, crossing(&scaled, p)) {
            let rises = pins.last().is_none_or(|last| place > last.0 + 0.25 && own > last.1);
            if rises {
                pins.push((place, own));
            }
        }
    }
    let last = num::real(HALF_YEAR - 1);
    std::array::from_fn(|j| {
        if j == HALF_YEAR - 1 {
            return 0.0;
        }
        let at = own_place(&pins, num::real(j)).clamp(0.0, last);
        let before = num::floor_u(at).min(HALF_YEAR - 2);
        let part = at - num::real(before);
        scaled[before] + (scaled[before + 1] - scaled[before]) * part
    })
}

/// Where on the chain's curve a counted place belongs: straight lines between pins, one for one beyond them.
fn own_place(pins: &[(f64, f64)], place: f64) -> f64 {
    let (Some(first), Some(last)) = (pins.first(), pins.last()) else { return place };
    if place <= first.0 {
        return place - first.0 + first.1;
    }
    if place >= last.0 {
        return place - last.0 + last.1;
    }
    let pair = pins.windows(2).find(|pair| place <= pair[1].0);
    pair.map_or(place, |pair| {
        let part = (place - pair[0].0) / (pair[1].0 - pair[0].0);
        pair[0].1 + (pair[1].1 - pair[0].1) * part
    })
}

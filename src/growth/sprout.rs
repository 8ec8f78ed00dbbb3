//! Emergence: the daily rate rises and falls with soil temperature, and seedlings are up when the rates sum to one.
//!
//! Rates (one over days) are joined by straight lines through the germination table of Harrington & Minges 1954
//! (Vegetable Seed Germination, California Agricultural Extension; in Knott's Handbook for Vegetable Growers, 1997),
//! never the days themselves. Below the table the rate falls to zero at the base temperature of thermal-time
//! theory (Garcia-Huidobro et al. 1982, J. Exp. Bot. 33:288), above it within 5 C.

use crate::crop::Germination;

/// Degrees above the table in which the rate falls to zero.
const FADE: f64 = 5.0;
/// Degrees below the least sowing temperature at which nothing stirs, where only limits are known.
const MARGIN: f64 = 3.0;
/// The trial went in steps of 5 C: its coldest row stands for soil down to half a step below.
const HALF_STEP: f64 = 2.5;
/// Soil that can be worked, degrees Celsius.
const THAWED: f64 = 1.0;
/// Days after which seed that has not come up is given up.
const GIVEN_UP: i64 = 100;

/// Emergence of a crop as corners of its rate, temperature ascending.
#[derive(Debug, Clone, PartialEq)]
pub struct Sprouting {
    corners: Vec<(f64, f64)>,
    tested: (f64, f64),
    coldest: f64,
}

impl Sprouting {
    /// The answer of a crop's seed to temperature; none where it is not grown from seed.
    pub fn new(germination: &Germination) -> Option<Self> {
        match germination {
            Germination::Table(rows) => Self::from_table(rows),
            Germination::Limits { least, best, most, days } => {
                let (least, best, most) = (least.celsius(), best.celsius(), most.celsius());
                let peak = 1.0 / f64::from((*days).max(1));
                (least <= best && best <= most).then(|| Self {
                    corners: vec![(least - MARGIN, 0.0), (best, peak), (most.max(best) + FADE, 0.0)],
                    tested: (least, most),
                    coldest: least,
                })
            }
            Germination::None => None,
        }
    }

    fn from_table(rows: &[(f64, f64)]) -> Option<Self> {
        let (first, last) = (rows.first()?.0, rows.last()?.0);
        let sound = rows.iter().all(|(t, d)| t.is_finite() && d.is_finite() && *d > 0.0)
            && rows.windows(2).all(|pair| pair[0].0 < pair[1].0);
        if !sound {
            return None;
        }
        let mut corners = Vec::with_capacity(rows.len() + 2);
        corners.push((base(rows), 0.0));
        corners.extend(rows.iter().map(|(t, d)| (*t, 1.0 / d)));
        corners.push((last + FADE, 0.0));
        Some(Self { corners, tested: (first, last), coldest: (first - HALF_STEP).max(THAWED) })
    }

    /// Coldest and warmest soil in which the seed is known to come up, degrees Celsius.
    pub const fn tested(&self) -> (f64, f64) {
        self.tested
    }
    /// Coldest and warmest soil in which it is sown.
    pub const fn sown_between(&self) -> (f64, f64) {
        (self.coldest, self.tested.1)
    }
    /// Days to emergence at the best temperature.
    pub fn quickest(&self) -> f64 {
        1.0 / self.corners.iter().map(|c| c.1).fold(1e-3, f64::max)
    }
    /// Temperature below which nothing stirs.
    pub fn base(&self) -> f64 {
        self.corners.first().map_or(0.0, |c| c.0)
    }
    /// Share of emergence in a day at `celsius`.
    pub fn rate(&self, celsius: f64) -> f64 {
        let above = self.corners.partition_point(|corner| corner.0 <= celsius);
        if above == 0 {
            return 0.0;
        }
        let Some(&(hot, high)) = self.corners.get(above) else { return 0.0 };
        let (cold, low) = self.corners[above - 1];
        low + (high - low) * (celsius - cold) / (hot - cold)
    }
    /// Days to emergence at a constant temperature; none where it never comes.
    pub fn days(&self, celsius: f64) -> Option<f64> {
        let rate = self.rate(celsius);
        (rate > 0.0).then(|| 1.0 / rate)
    }
    /// The coldest temperature at which it comes up within so many days; the best one where none is quick enough.
    pub fn within(&self, days: f64) -> f64 {
        let wanted = 1.0 / days.max(1.0);
        for pair in self.corners.windows(2) {
            let ((cold, low), (warm, high)) = (pair[0], pair[1]);
            if low >= wanted {
                return cold;
            }
            if high >= wanted {
                return cold + (warm - cold) * (wanted - low) / (high - low);
            }
        }
        self.corners.iter().copied().fold((0.0, 0.0), |best, c| if c.1 > best.1 { c } else { best }).0
    }
    /// Days until the daily rates at `soil(day)`, day 0 being the day of sowing, sum to one.
    pub(super) fn up(&self, soil: impl Fn(i64) -> f64) -> Option<i64> {
        let mut sum = 0.0;
        for day in 0..GIVEN_UP {
            sum += self.rate(soil(day));
            if sum >= 1.0 - 1e-9 {
                return Some(day + 1);
            }
        }
        None
    }
}

/// Base temperature: the rate drawn as a straight line of temperature over the rising limb by relative least
/// squares, and where that line meets zero, but never above the coldest row.
fn base(rows: &[(f64, f64)]) -> f64 {
    let mut best = 0;
    for (at, row) in rows.iter().enumerate() {
        if row.1 < rows[best].1 {
            best = at;
        }
    }
    let coldest = rows[0].0;
    if best == 0 {
        return coldest - FADE;
    }
    // Weights of the squared relative error: (days)^2 for a rate of 1/days.
    let mut sums = [0.0_f64; 5];
    for (t, days) in &rows[..=best] {
        let (w, y) = (days * days, 1.0 / days);
        for (sum, add) in sums.iter_mut().zip([w, w * t, w * t * t, w * y, w * t * y]) {
            *sum += add;
        }
    }
    let [n, t, tt, y, ty] = sums;
    let below = n * tt - t * t;
    let slope = (n * ty - t * y) / below;
    if !slope.is_finite() || slope <= 0.0 {
        return coldest - FADE;
    }
    let level = (y - slope * t) / n;
    (-level / slope).min(coldest)
}

//! Climates that come with the program: normals of 21 places, each with its source or the words "from memory".

use super::day::Monthly;
use super::spec::Normals;
use crate::calendar::MonthDay;
use std::sync::LazyLock;

/// The climate of one place.
#[derive(Debug, Clone, PartialEq)]
pub struct Preset {
    /// Short name for commands and files.
    pub id: &'static str,
    /// Name to read.
    pub name: &'static str,
    /// ISO 3166 country code.
    pub country: &'static str,
    /// Degrees, north positive.
    pub lat: f64,
    /// Degrees, east positive.
    pub lon: f64,
    /// Metres.
    pub elevation: f64,
    /// Monthly means and totals.
    pub normals: Normals,
    /// Mean days a month with a minimum of 0 C or less.
    pub frost_days: Option<Monthly>,
    /// Mean of the yearly lowest minimum, degrees Celsius.
    pub zone_min: Option<f64>,
    /// Median last day at 0 C or below.
    pub last_frost: Option<MonthDay>,
    /// Median first day at 0 C or below.
    pub first_frost: Option<MonthDay>,
    /// Where the figures come from.
    pub source: &'static str,
}

impl Preset {
    /// Whether the figures were recalled, not read: approximate.
    pub fn from_memory(&self) -> bool {
        self.source.starts_with("from memory")
    }
}

static PRESETS: LazyLock<Vec<Preset>> = LazyLock::new(|| TABLE.lines().skip(1).filter_map(row).collect());
const TABLE: &str = include_str!("presets.tsv");

/// All of them, in the order of the table.
pub fn all() -> &'static [Preset] {
    &PRESETS
}

/// The one of that id.
pub fn find(id: &str) -> Option<&'static Preset> {
    PRESETS.iter().find(|preset| preset.id == id)
}

/// The id most like `id`, for "did you mean".
pub fn nearest(id: &str) -> Option<&'static str> {
    let wanted = id.to_lowercase();
    PRESETS
        .iter()
        .map(|preset| {
            let by_id = strsim::jaro_winkler(&wanted, preset.id);
            (by_id.max(strsim::jaro_winkler(&wanted, &preset.name.to_lowercase())), preset.id)
        })
        .filter(|(likeness, _)| *likeness > 0.75)
        .max_by(|a, b| a.0.total_cmp(&b.0))
        .map(|(_, id)| id)
}

fn row(line: &'static str) -> Option<Preset> {
    let mut fields = line.split('\t');
    let mut next = || fields.next();
    Some(Preset {
        id: next()?,
        name: next()?,
        country: next()?,
        lat: next()?.parse().ok()?,
        lon: next()?.parse().ok()?,
        elevation: next()?.parse().ok()?,
        normals: Normals { tmax: months(next()?)?, tmin: months(next()?)?, rain: months(next()?)? },
        frost_days: months(next()?),
        zone_min: next()?.parse().ok(),
        last_frost: next()?.parse().ok(),
        first_frost: next()?.parse().ok(),
        source: next()?,
    })
}

/// Twelve numbers; a missing one ("-") is the mean of its neighbours.
fn months(text: &str) -> Option<Monthly> {
    let read: Vec<Option<f64>> = text.split(' ').map(|word| word.parse().ok()).collect();
    if read.len() != 12 {
        return None;
    }
    let mut out = [0.0; 12];
    for (month, value) in out.iter_mut().enumerate() {
        *value = match read[month] {
            Some(value) => value,
            None => read[(month + 11) % 12]?.midpoint(read[(month + 1) % 12]?),
        };
    }
    Some(out)
}

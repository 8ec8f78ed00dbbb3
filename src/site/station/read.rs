//! Reading daily station files in the layouts of GHCN-Daily (Menne et al. 2012, J. Atmos. Oceanic Technol. 29:897).

use crate::calendar::Date;
use crate::units::num;
use std::collections::BTreeMap;
use std::fmt;
use std::io::Read;

/// More than this many bytes unpacked is no station file.
const MOST_BYTES: u64 = 400_000_000;
/// Hottest and coldest believable reading, degrees Celsius.
const BELIEVABLE: f64 = 70.0;

/// Why a station file cannot be used.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum StationError {
    /// A gzip file that does not unpack.
    #[error("the file looks like gzip but does not unpack: {0}")]
    Gzip(String),
    /// Nothing in it.
    #[error(
        "the file holds no rows: fetch the station's daily record anew, or name a file with DATE, TMAX and TMIN"
    )]
    Empty,
    /// No layout fits.
    #[error(
        "line {line}: '{text}' is no daily station file: wanted is either a heading with DATE, TMAX and TMIN, or rows \
         of station, date, element, value"
    )]
    Layout {
        /// From 1.
        line: usize,
        /// As found.
        text: String,
    },
    /// A date that is none.
    #[error("line {line}: '{text}' is not a date: write 1998-05-12 or 19980512")]
    Date {
        /// From 1.
        line: usize,
        /// As found.
        text: String,
    },
    /// A value that is none.
    #[error(
        "line {line}: '{text}' is not a value for {column}: write a number, or leave it empty where missing"
    )]
    Value {
        /// From 1.
        line: usize,
        /// Name of the column or element.
        column: &'static str,
        /// As found.
        text: String,
    },
    /// More than one station.
    #[error("line {line}: the file holds more than one station ({first}, {second}): keep the rows of one")]
    Stations {
        /// From 1.
        line: usize,
        /// First station met.
        first: String,
        /// The other one.
        second: String,
    },
    /// Too little to make normals of.
    #[error("{what}: at least 3 years with both TMAX and TMIN in every month are needed")]
    TooShort {
        /// What is short.
        what: String,
    },
}

/// How a file is laid out.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Layout {
    /// One row a day, a column an element.
    Wide,
    /// One row a day and element.
    Long,
    /// One row a month and element, in fixed columns.
    Fixed,
}

/// The units of a file, guessed from its maxima.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum FileUnits {
    /// Tenths of a degree Celsius and tenths of a millimetre.
    Tenths,
    /// Degrees Celsius and millimetres.
    Metric,
    /// Degrees Fahrenheit and inches.
    Us,
}

impl FileUnits {
    /// The units whose 95th percentile of maxima `warm` is believable: above 130 tenths, 50 to 130 Fahrenheit.
    fn guess(warm: f64) -> Self {
        if warm > 130.0 {
            Self::Tenths
        } else if warm >= 50.0 {
            Self::Us
        } else {
            Self::Metric
        }
    }
    /// A temperature that was taken as `other`, read again in these units, degrees Celsius.
    pub(in crate::site) fn again(self, other: Self, celsius: f64) -> f64 {
        let raw = match other {
            Self::Tenths => celsius * 10.0,
            Self::Metric => celsius,
            Self::Us => celsius * 1.8 + 32.0,
        };
        if self == other { celsius } else { self.celsius(raw) }
    }
    fn celsius(self, raw: f64) -> f64 {
        match self {
            Self::Tenths => raw / 10.0,
            Self::Metric => raw,
            Self::Us => (raw - 32.0) / 1.8,
        }
    }
    fn millimetres(self, raw: f64) -> f64 {
        match self {
            Self::Tenths => raw / 10.0,
            Self::Metric => raw,
            Self::Us => raw * 25.4,
        }
    }
}

impl fmt::Display for FileUnits {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Tenths => "tenths of a degree Celsius and of a millimetre",
            Self::Metric => "degrees Celsius and millimetres",
            Self::Us => "degrees Fahrenheit and inches",
        })
    }
}

/// One day: degrees Celsius and millimetres, none where missing.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct StationDay {
    /// Maximum.
    pub tmax: Option<f64>,
    /// Minimum.
    pub tmin: Option<f64>,
    /// Rain and melted snow.
    pub rain: Option<f64>,
}

/// A daily file as read.
#[derive(Debug, Clone, PartialEq)]
pub struct DailyFile {
    /// The station's number or name, where the file tells.
    pub station: Option<String>,
    /// Latitude, longitude and height in metres, where the file tells.
    pub place: Option<(f64, f64, Option<f64>)>,
    /// Days by date.
    pub days: BTreeMap<Date, StationDay>,
    /// How it is laid out.
    pub layout: Layout,
    /// The guessed units.
    pub units: FileUnits,
    /// Values left out for their quality flag.
    pub flagged: usize,
    /// Days left out because the minimum is above the maximum, or a value is beyond belief.
    pub absurd: usize,
}

impl DailyFile {
    /// Days between the first and the last without a minimum.
    pub fn missing(&self) -> usize {
        let (Some(first), Some(last)) = (self.days.keys().next(), self.days.keys().next_back()) else {
            return 0;
        };
        let span = num::count(last.signed_duration_since(*first).num_days()) + 1;
        span.saturating_sub(self.days.values().filter(|day| day.tmin.is_some()).count())
    }
    /// What was read, for showing.
    pub fn words(&self) -> String {
        let (Some(first), Some(last)) = (self.days.keys().next(), self.days.keys().next_back()) else {
            return "no days".to_owned();
        };
        let layout = match self.layout {
            Layout::Wide => "one row a day",
            Layout::Long => "one row a day and element",
            Layout::Fixed => "one row a month",
        };
        format!(
            "{first} to {last}, {layout}, taken as {}; {} days without a minimum, {} flagged values and {} absurd days \
             left out",
            self.units,
            self.missing(),
            self.flagged,
            self.absurd
        )
    }
}

/// Elements the program reads.
#[derive(Clone, Copy)]
enum Element {
    Tmax,
    Tmin,
    Rain,
}

impl Element {
    fn of(name: &str) -> Option<Self> {
        match name {
            "TMAX" => Some(Self::Tmax),
            "TMIN" => Some(Self::Tmin),
            "PRCP" => Some(Self::Rain),
            _ => None,
        }
    }
    const fn name(self) -> &'static str {
        match self {
            Self::Tmax => "TMAX",
            Self::Tmin => "TMIN",
            Self::Rain => "PRCP",
        }
    }
}

/// Values as they stand in the file.
#[derive(Default)]
struct Raw {
    station: Option<String>,
    place: Option<(f64, f64, Option<f64>)>,
    days: BTreeMap<Date, StationDay>,
    flagged: usize,
}

impl Raw {
    fn put(&mut self, date: Date, element: Element, value: f64) {
        let day = self.days.entry(date).or_default();
        match element {
            Element::Tmax => day.tmax = Some(value),
            Element::Tmin => day.tmin = Some(value),
            Element::Rain => day.rain = Some(value),
        }
    }
    fn belongs(&mut self, station: &str, line: usize) -> Result<(), StationError> {
        let station = station.trim();
        match &self.station {
            None if !station.is_empty() => self.station = Some(station.to_owned()),
            Some(first) if first != station => {
                return Err(StationError::Stations {
                    line,
                    first: first.clone(),
                    second: station.to_owned(),
                });
            }
            _ => {}
        }
        Ok(())
    }
}

/// Reads a daily file, gzipped or plain.
///
/// # Errors
/// Where it does not unpack, no layout fits, or a row does not read; the line is named.
pub fn read(bytes: &[u8]) -> Result<DailyFile, StationError> {
    let unpacked;
    let bytes = if bytes.starts_with(&[0x1f, 0x8b]) {
        unpacked = unpack(bytes)?;
        &unpacked[..]
    } else {
        bytes
    };
    let whole = String::from_utf8_lossy(bytes);
    let (text, above) = begun(&whole);
    let first = text.lines().next().map(str::trim).ok_or(StationError::Empty)?;
    let mark = [',', ';', '\t'].into_iter().max_by_key(|c| first.matches(*c).count()).unwrap_or(',');
    let cells: Vec<String> = first.split(mark).map(heading).collect();
    let has = |name: &str| cells.iter().any(|cell| cell == name);
    let third = cells.get(2).map_or("", String::as_str);
    let sheet = Sheet { text, mark, above };
    let (raw, layout) = if has("DATE") && has("TMAX") && has("TMIN") {
        (wide(&sheet)?, Layout::Wide)
    } else if has("ELEMENT") || (cells.len() >= 4 && third.len() == 4 && date_of(&cells[1]).is_some()) {
        (long(&sheet)?, Layout::Long)
    } else if fixed_row(first).is_some() {
        (fixed(&sheet)?, Layout::Fixed)
    } else {
        return Err(unlike(above + 1, first));
    };
    finish(raw, layout)
}

/// The text from its first line with anything on it, and how many lines stand above that.
fn begun(whole: &str) -> (&str, usize) {
    let blank = |c: char| c.is_whitespace() || c == '\u{feff}';
    let held = whole.trim_start_matches(blank).len();
    let (above, _) = whole.split_at(whole.len() - held);
    // Spaces before the first word stay: fixed columns count them.
    let start = above.rfind('\n').map_or(0, |at| at + 1);
    let (above, text) = whole.split_at(start);
    let text = text.trim_start_matches('\u{feff}');
    if held == 0 { ("", 0) } else { (text, above.matches('\n').count()) }
}

/// A file's text from its first line with anything on it.
struct Sheet<'a> {
    text: &'a str,
    /// What parts its cells.
    mark: char,
    /// Blank lines left out above.
    above: usize,
}

impl<'a> Sheet<'a> {
    fn rows(&self, headed: bool) -> csv::Reader<&'a [u8]> {
        csv::ReaderBuilder::new()
            .delimiter(u8::try_from(self.mark).unwrap_or(b','))
            .has_headers(headed)
            .flexible(true)
            .trim(csv::Trim::All)
            .from_reader(self.text.as_bytes())
    }
    /// The line a row begins on, from 1. The reader's own position is that of the blank lines above the row.
    fn line_of(&self, row: &csv::StringRecord) -> usize {
        let Some(at) = row.position() else { return self.above + 1 };
        let begin = usize::try_from(at.byte()).unwrap_or(usize::MAX);
        let rest = self.text.as_bytes().get(begin..).unwrap_or_default();
        let skipped =
            rest.iter().take_while(|byte| matches!(byte, b'\r' | b'\n')).filter(|byte| **byte == b'\n');
        self.above + usize::try_from(at.line()).unwrap_or(1) + skipped.count()
    }
    /// The row as text; a row that is no text at all reads as a layout error.
    fn text_row(
        &self,
        row: Result<csv::StringRecord, csv::Error>,
    ) -> Result<csv::StringRecord, StationError> {
        row.map_err(|error| self.unread(&error))
    }
    fn unread(&self, error: &csv::Error) -> StationError {
        let line = error.position().and_then(|at| usize::try_from(at.line()).ok()).unwrap_or(1);
        unlike(self.above + line, &error.to_string())
    }
}

fn unlike(line: usize, text: &str) -> StationError {
    StationError::Layout { line, text: text.chars().take(60).collect() }
}

fn unpack(bytes: &[u8]) -> Result<Vec<u8>, StationError> {
    let mut out = Vec::new();
    flate2::read::MultiGzDecoder::new(bytes)
        .take(MOST_BYTES)
        .read_to_end(&mut out)
        .map_err(|error| StationError::Gzip(error.to_string()))?;
    Ok(out)
}

/// A column heading without quotes, unit in brackets and case.
fn heading(cell: &str) -> String {
    let cell = cell.trim().trim_matches('"').trim();
    cell.split_once(" (").map_or(cell, |(name, _)| name).trim().to_uppercase()
}

fn date_of(text: &str) -> Option<Date> {
    let text = text.trim();
    ["%Y-%m-%d", "%Y%m%d", "%Y/%m/%d"].into_iter().find_map(|form| Date::parse_from_str(text, form).ok())
}

fn date_at(text: &str, line: usize) -> Result<Date, StationError> {
    date_of(text).ok_or_else(|| StationError::Date { line, text: text.trim().chars().take(40).collect() })
}

/// A value; none where it is missing.
fn value_at(text: &str, line: usize, column: &'static str) -> Result<Option<f64>, StationError> {
    let text = text.trim();
    if text.is_empty() || matches!(text, "-9999" | "9999" | "-9999.0" | "M" | "NA" | "NaN") {
        return Ok(None);
    }
    match text.parse::<f64>() {
        Ok(value) if value.is_finite() => Ok(Some(value)),
        _ => Err(StationError::Value { line, column, text: text.chars().take(40).collect() }),
    }
}

fn wide(sheet: &Sheet<'_>) -> Result<Raw, StationError> {
    let mut reader = sheet.rows(true);
    let heads: Vec<String> =
        reader.headers().map_err(|error| sheet.unread(&error))?.iter().map(heading).collect();
    let column = |name: &str| heads.iter().position(|head| head == name);
    let (date_column, station) = (column("DATE").unwrap_or(0), column("STATION").or_else(|| column("ID")));
    let elements = [Element::Tmax, Element::Tmin, Element::Rain]
        .map(|element| (element, column(element.name()), column(&format!("{}_ATTRIBUTES", element.name()))));
    let place = [column("LATITUDE"), column("LONGITUDE"), column("ELEVATION")];
    let mut raw = Raw::default();
    for row in reader.records() {
        let row = sheet.text_row(row)?;
        let line = sheet.line_of(&row);
        if row.iter().all(str::is_empty) {
            continue;
        }
        let cell = |column: Option<usize>| column.and_then(|c| row.get(c)).unwrap_or("");
        let date = date_at(cell(Some(date_column)), line)?;
        raw.belongs(cell(station), line)?;
        if raw.place.is_none() {
            let [lat, lon, height] = place.map(|c| cell(c).parse::<f64>().ok());
            raw.place = lat.zip(lon).map(|(lat, lon)| (lat, lon, height));
        }
        for (element, at, flags) in elements {
            if let Some(value) = value_at(cell(at), line, element.name())? {
                // Attributes are measurement, quality and source flag, parted by commas.
                let quality = cell(flags).split(',').nth(1).unwrap_or("");
                if quality.trim().is_empty() {
                    raw.put(date, element, value);
                } else {
                    raw.flagged += 1;
                }
            }
        }
    }
    Ok(raw)
}

fn long(sheet: &Sheet<'_>) -> Result<Raw, StationError> {
    let mut raw = Raw::default();
    for (n, row) in sheet.rows(false).records().enumerate() {
        let row = sheet.text_row(row)?;
        let line = sheet.line_of(&row);
        let cell = |column: usize| row.get(column).unwrap_or("");
        if row.iter().all(str::is_empty) || (n == 0 && heading(cell(2)) == "ELEMENT") {
            continue;
        }
        let Some(element) = Element::of(cell(2)) else {
            // Other elements are passed over, but their rows must be rows.
            date_at(cell(1), line)?;
            continue;
        };
        let date = date_at(cell(1), line)?;
        raw.belongs(cell(0), line)?;
        if let Some(value) = value_at(cell(3), line, element.name())? {
            if cell(5).is_empty() {
                raw.put(date, element, value);
            } else {
                raw.flagged += 1;
            }
        }
    }
    Ok(raw)
}

/// Station, first of the month, element and day columns of a fixed row.
fn fixed_row(line: &str) -> Option<(&str, i32, u32, &str, &str)> {
    let (station, year, month) = (line.get(0..11)?, line.get(11..15)?, line.get(15..17)?);
    let (element, days) = (line.get(17..21)?, line.get(21..)?);
    let (year, month) = (year.parse().ok()?, month.parse().ok()?);
    Date::from_ymd_opt(year, month, 1)?;
    Some((station, year, month, element, days))
}

fn fixed(sheet: &Sheet<'_>) -> Result<Raw, StationError> {
    let mut raw = Raw::default();
    for (i, row) in sheet.text.lines().enumerate().filter(|(_, row)| !row.trim().is_empty()) {
        let line = sheet.above + i + 1;
        let bad = || StationError::Date { line, text: row.chars().take(21).collect() };
        let (station, year, month, element, days) = fixed_row(row).ok_or_else(bad)?;
        raw.belongs(station, line)?;
        let Some(element) = Element::of(element) else { continue };
        for day in 0..31 {
            let at = num::index(day) * 8;
            let (Some(value), Some(date)) = (days.get(at..at + 5), Date::from_ymd_opt(year, month, day + 1))
            else {
                continue;
            };
            if let Some(value) = value_at(value, line, element.name())? {
                if days.get(at + 6..at + 7).is_none_or(|flag| flag.trim().is_empty()) {
                    raw.put(date, element, value);
                } else {
                    raw.flagged += 1;
                }
            }
        }
    }
    Ok(raw)
}

/// Guesses the units, converts, and drops what cannot be.
fn finish(raw: Raw, layout: Layout) -> Result<DailyFile, StationError> {
    let mut highs: Vec<f64> = raw.days.values().filter_map(|day| day.tmax).collect();
    if highs.is_empty() {
        return Err(StationError::TooShort { what: "the file holds no TMAX".to_owned() });
    }
    highs.sort_by(f64::total_cmp);
    let units = FileUnits::guess(highs[(highs.len() * 95 / 100).min(highs.len() - 1)]);
    let mut absurd = 0;
    let days = raw
        .days
        .into_iter()
        .map(|(date, day)| {
            let mut day = StationDay {
                tmax: day.tmax.map(|t| units.celsius(t)),
                tmin: day.tmin.map(|t| units.celsius(t)),
                rain: day.rain.map(|r| units.millimetres(r)),
            };
            let crossed = day.tmax.zip(day.tmin).is_some_and(|(high, low)| low > high);
            let beyond = [day.tmax, day.tmin].into_iter().flatten().any(|t| t.abs() > BELIEVABLE);
            if crossed || beyond {
                absurd += 1;
                (day.tmax, day.tmin) = (None, None);
            }
            day.rain = day.rain.filter(|rain| (0.0..=2000.0).contains(rain));
            (date, day)
        })
        .collect();
    Ok(DailyFile {
        station: raw.station,
        place: raw.place,
        days,
        layout,
        units,
        flagged: raw.flagged,
        absurd,
    })
}

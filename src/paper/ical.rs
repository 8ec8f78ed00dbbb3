//! Calendar files (RFC 5545): jobs as to-dos, picking times as events.
//!
//! Written here, not through a crate: every line must be the same for the same plan, and the writers at hand take
//! the time of day or a random id where a property is left out.

use std::collections::BTreeMap;

use super::jobs::JobList;
use super::timeline::{Kind, Timeline};
use crate::calendar::{Date, plus};

/// What a calendar file needs besides jobs and plantings.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Stamp {
    /// Name of the garden: the calendar's name.
    pub garden: String,
    /// A word that tells this garden's entries from another's; the same for ever.
    pub key: String,
    /// When the file is made, in UTC.
    pub made: chrono::NaiveDateTime,
    /// Hour of the day, 0 to 23, at which to remind of a job; none: no alarms.
    pub alarm: Option<u8>,
}

/// The longest line RFC 5545 allows, in octets without the line break.
const LONGEST: usize = 75;

/// A calendar of jobs (VTODO) and of the picking times of a season (VEVENT).
///
/// An entry keeps its UID from print to print, so that reading a newer file updates it.
pub fn calendar(jobs: &JobList, season: Option<&Timeline>, stamp: &Stamp) -> String {
    let mut o = Writer { out: String::new(), seen: BTreeMap::new(), stamp };
    o.line("BEGIN", "VCALENDAR");
    o.line("VERSION", "2.0");
    o.line("PRODID", "-//catchcrop//catchcrop//EN");
    o.line("CALSCALE", "GREGORIAN");
    o.words("NAME", &stamp.garden);
    o.words("X-WR-CALNAME", &stamp.garden);
    for job in jobs.weeks.iter().flat_map(|w| &w.jobs) {
        o.begin("VTODO", &format!("job-{}", job.id));
        o.line("DTSTART;VALUE=DATE", &day(job.from));
        o.line("DUE;VALUE=DATE", &day(job.to.max(job.from)));
        o.words("SUMMARY", &job.what);
        o.words("LOCATION", &super::jobs::at(job));
        let minutes = if job.minutes == 0 { String::new() } else { super::words::minutes(job.minutes) };
        let about: Vec<_> = [job.amount.as_str(), job.why.as_str(), minutes.as_str()]
            .into_iter()
            .filter(|w| !w.trim().is_empty())
            .collect();
        o.words("DESCRIPTION", &about.join("\n"));
        o.line("CATEGORIES", "GARDEN");
        o.line("STATUS", "NEEDS-ACTION");
        o.alarm(&job.what);
        o.line("END", "VTODO");
    }
    if let Some(season) = season {
        o.season(season);
    }
    o.line("END", "VCALENDAR");
    o.out
}

struct Writer<'a> {
    out: String,
    seen: BTreeMap<String, usize>,
    stamp: &'a Stamp,
}

impl Writer<'_> {
    fn season(&mut self, season: &Timeline) {
        for bed in &season.beds {
            for lane in &bed.lanes {
                for bar in lane.bars.iter().filter(|b| b.kind != Kind::Cover && !b.echo) {
                    let Some((from, to)) = bar.pick else { continue };
                    self.begin("VEVENT", &format!("pick-{}", bar.id));
                    self.line("DTSTART;VALUE=DATE", &day(from));
                    // The end of an all-day event is the day after its last.
                    self.line("DTEND;VALUE=DATE", &day(plus(to.max(from), 1)));
                    self.words("SUMMARY", &format!("Pick {}", bar.name));
                    self.words("LOCATION", format!("{} {}", bed.name, lane.cells).trim());
                    self.words("DESCRIPTION", &bar.amount);
                    self.line("CATEGORIES", "GARDEN");
                    self.line("TRANSP", "TRANSPARENT");
                    self.line("END", "VEVENT");
                }
            }
        }
    }

    fn begin(&mut self, part: &str, id: &str) {
        // Two entries must not share a UID, even where the plan gives two the same name.
        let n = self.seen.entry(id.to_owned()).and_modify(|n| *n += 1).or_insert(1);
        let id = if *n == 1 { id.to_owned() } else { format!("{id}-{n}") };
        let made = self.stamp.made.format("%Y%m%dT%H%M%SZ").to_string();
        self.line("BEGIN", part);
        let uid = format!("{}@{}.catchcrop.invalid", plain(&id), plain(&self.stamp.key));
        self.line("UID", &uid);
        self.line("DTSTAMP", &made);
        self.line("LAST-MODIFIED", &made);
    }

    fn alarm(&mut self, what: &str) {
        if let Some(hour) = self.stamp.alarm {
            self.line("BEGIN", "VALARM");
            self.line("ACTION", "DISPLAY");
            self.line("TRIGGER", &format!("PT{}H", hour.min(23)));
            self.words("DESCRIPTION", what);
            self.line("END", "VALARM");
        }
    }

    /// A property of text; empty text is left out.
    fn words(&mut self, name: &str, words: &str) {
        if !words.trim().is_empty() {
            self.line(name, &escape(words));
        }
    }

    /// One content line, folded between letters.
    fn line(&mut self, name: &str, value: &str) {
        let mut length = 0;
        for c in name.chars().chain([':']).chain(value.chars()) {
            if length + c.len_utf8() > LONGEST {
                self.out.push_str("\r\n ");
                length = 1;
            }
            self.out.push(c);
            length += c.len_utf8();
        }
        self.out.push_str("\r\n");
    }
}

fn day(date: Date) -> String {
    date.format("%Y%m%d").to_string()
}

/// Letters, digits and hyphens: safe in any UID.
fn plain(words: &str) -> String {
    words.chars().map(|c| if c.is_ascii_alphanumeric() { c.to_ascii_lowercase() } else { '-' }).collect()
}

/// TEXT of RFC 5545, section 3.3.11.
fn escape(words: &str) -> String {
    let mut o = String::new();
    for c in words.trim().chars() {
        match c {
            '\\' => o.push_str("\\\\"),
            ';' => o.push_str("\\;"),
            ',' => o.push_str("\\,"),
            '\n' => o.push_str("\\n"),
            c if c.is_control() => {}
            c => o.push(c),
        }
    }
    o
}

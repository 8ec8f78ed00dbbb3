//! The crop book.

use super::schedule::{start_id, start_words};
use crate::cli::table::{Table, wrap};
use crate::crop::{Book, Crop, CropId, Germination, PickShape, Start};
use crate::plan::Settings;
use crate::store::nearest;
use crate::units::{Length, Measure, Temperature};
use serde_json::{Value, json};
use std::fmt::Write as _;

/// A crop by its id, an older id, or any of its names; the hint to give where there is none.
///
/// # Errors
/// Where no crop is meant, or several are.
pub fn find_crop<'a>(book: &'a Book, word: &str) -> Result<&'a Crop, String> {
    let wanted = word.trim().to_lowercase();
    if let Some(crop) = book.get(&CropId::new(&wanted.replace(' ', "-"))) {
        return Ok(crop);
    }
    let named = |c: &&Crop| {
        c.name.to_lowercase() == wanted
            || c.botanical.to_lowercase() == wanted
            || c.also.iter().any(|n| n.to_lowercase() == wanted)
    };
    let found: Vec<&Crop> = book.crops().filter(named).collect();
    match found[..] {
        [one] => Ok(one),
        [] => {
            let ids = book.crops().map(|c| c.id.as_str());
            let names = book
                .crops()
                .flat_map(|c| std::iter::once(c.name.as_str()).chain(c.also.iter().map(String::as_str)));
            let hint = nearest(&wanted, ids).or_else(|| nearest(&wanted, names)).map_or_else(
                || String::from("'catchcrop book' lists them"),
                |near| format!("did you mean '{near}'?"),
            );
            Err(format!("the crop book has no '{word}'; {hint}"))
        }
        _ => {
            let ids: Vec<&str> = found.iter().map(|c| c.id.as_str()).collect();
            Err(format!("'{word}' may be any of {}: name one", ids.join(", ")))
        }
    }
}

/// Every crop in a line.
pub fn book_text(book: &Book, measure: Measure) -> String {
    let mut out = String::new();
    let mut families: Vec<&str> = book.crops().map(|c| c.family.as_str()).collect();
    families.sort_unstable();
    families.dedup();
    for name in families {
        let family = book.family(name);
        let rotation = family.map_or_else(String::new, |f| {
            if f.rotation.advised == 0 {
                String::new()
            } else {
                format!(", {} free years advised", f.rotation.advised)
            }
        });
        let _ = writeln!(out, "{} ({name}){rotation}", family.map_or(name, |f| f.common.as_str()));
        let mut table = Table::new(&["", "", "", ">days", ">apart", "started"]);
        let mut crops: Vec<&Crop> = book.crops().filter(|c| c.family == name).collect();
        crops.sort_by_key(|c| (c.base().clone(), c.of.is_some(), c.id.clone()));
        for crop in crops {
            let starts: Vec<&str> = crop.starts.iter().map(|s| start_words(*s)).collect();
            table.row([
                crop.code.clone(),
                if crop.of.is_some() { format!("  {}", crop.id) } else { crop.id.to_string() },
                crop.name.clone(),
                days_words(crop),
                length(crop.spacing.wide, measure),
                starts.join(", "),
            ]);
        }
        out.push_str(&table.text("  "));
        out.push('\n');
    }
    out
}

/// Every crop for a program.
pub fn book_json(book: &Book) -> Value {
    book.crops().map(|crop| crop_json(book, crop)).collect()
}

fn length(length: Length, measure: Measure) -> String {
    length.for_measure(measure).rounded(1)
}

fn days_words(crop: &Crop) -> String {
    if crop.days.min == crop.days.max {
        crop.days.min.to_string()
    } else {
        format!("{}-{}", crop.days.min, crop.days.max)
    }
}

/// A crop for a program.
pub fn crop_json(book: &Book, crop: &Crop) -> Value {
    let rotation = book.rotation(crop);
    json!({
        "id": crop.id,
        "of": crop.of,
        "name": crop.name,
        "also": crop.also,
        "botanical": crop.botanical,
        "family": crop.family,
        "code": crop.code,
        "uses": crop.uses,
        "part": crop.part,
        "days": [crop.days.min, crop.days.max],
        "counted_from": crop.days.from,
        "spacing": [crop.spacing.dense, crop.spacing.wide],
        "depth": crop.depth,
        "height": crop.height,
        "methods": crop.starts.iter().map(|s| start_id(*s)).collect::<Value>(),
        "light_hours": [crop.light.least, crop.light.full],
        "frost": { "class": crop.frost.class, "foliage": crop.frost.foliage, "harvest": crop.frost.harvest },
        "harvest": [crop.harvest.low, crop.harvest.usual, crop.harvest.high],
        "free_years": { "least": rotation.least, "advised": rotation.advised, "weight": rotation.weight },
        "catch": crop.catch,
        "sources": crop.src,
    })
}

/// A crop in full.
pub fn crop_text(book: &Book, crop: &Crop, settings: &Settings) -> String {
    let measure = settings.measure;
    let mut out = format!("{} ({})\n", crop.name, crop.id);
    let family = book.family(&crop.family);
    let common = family.map_or_else(String::new, |f| format!(", {}", f.common));
    let _ = writeln!(out, "{}, {}{common}", crop.botanical, crop.family);
    if !crop.also.is_empty() {
        let _ = writeln!(out, "also called {}", crop.also.join(", "));
    }
    if let Some(parent) = &crop.of {
        let _ = writeln!(out, "a variety of {parent}");
    }
    let varieties: Vec<&str> = book.varieties(&crop.id).map(|v| v.id.as_str()).collect();
    if !varieties.is_empty() {
        out.push_str(&wrap(&format!("varieties: {}", varieties.join(", ")), 96, ""));
    }
    out.push('\n');
    let mut table = Table::new(&["", "", ""]);
    let mut row = |what: &str, words: String, field: &str| {
        let sources = crop.src.get(field).map(|s| s.join(", ")).unwrap_or_default();
        table.row([what.to_owned(), words, sources]);
    };
    let warmth = |t: Temperature| t.reading(measure);
    row(
        "spacing",
        format!("{} (dense {})", length(crop.spacing.wide, measure), length(crop.spacing.dense, measure)),
        "spacing",
    );
    row("depth", length(crop.depth, measure), "depth");
    let from = match crop.days.from {
        crate::crop::CountedFrom::Sowing => "sowing",
        crate::crop::CountedFrom::SettingOut => "setting out",
    };
    row("days", format!("{} from {from}", days_words(crop)), "days");
    row("started", crop.starts.iter().map(|s| start_long(*s)).collect::<Vec<_>>().join("; "), "starts");
    row("sprouts", sprouts(&crop.germination, measure), "germination");
    let class = match crop.frost.class {
        crate::crop::FrostClass::Tender => "killed by the first frost",
        crate::crop::FrostClass::HalfHardy => "stands a light frost",
        crate::crop::FrostClass::Hardy => "stands hard frost",
    };
    row(
        "frost",
        format!(
            "{class}; leaves die at {}, the harvest at {}",
            warmth(crop.frost.foliage),
            warmth(crop.frost.harvest)
        ),
        "frost",
    );
    row("picking", picking(crop), "picking");
    row(
        "a plant gives",
        format!(
            "{} ({} to {})",
            crop.harvest.usual.reading(measure),
            crop.harvest.low.reading(measure),
            crop.harvest.high.reading(measure)
        ),
        "harvest",
    );
    row("height", length(crop.height, measure), "height");
    row("sun", format!("{} h a day, at least {}", crop.light.full, crop.light.least), "light");
    row("roots", length(crop.root_depth, measure), "root_depth");
    if let Some(pot) = crop.pot {
        let words = format!(
            "{} for {} plant{}, {} deep",
            pot.volume.for_measure(measure).rounded(1),
            pot.plants,
            if pot.plants == 1 { "" } else { "s" },
            length(pot.depth, measure)
        );
        row("pot", words, "pot");
    }
    if let Some((least, most)) = crop.every {
        row("again every", format!("{least} to {most} days"), "every");
    }
    if let Some(keeps) = &crop.keeps {
        row("keeps", format!("{} to {} days, {}", keeps.days.0, keeps.days.1, keeps.how), "keeps");
    }
    let rotation = book.rotation(crop);
    row("free years", format!("{} advised, {} at least", rotation.advised, rotation.least), "rotation");
    out.push_str(&table.text("  "));
    for n in &crop.neighbours {
        let side = if n.helps { "good beside" } else { "bad beside" };
        out.push_str(&wrap(
            &format!("{side} {}: {} (evidence {:?}, {})", n.with, n.why, n.grade, n.src),
            96,
            "  ",
        ));
    }
    for d in &crop.differs {
        out.push_str(&wrap(&format!("{} differs in {}: {}", d.figure, d.src, d.says), 96, "  "));
    }
    for c in &crop.cautions {
        out.push_str(&wrap(&format!("! {} ({})", c.words, c.src), 96, "  "));
    }
    if !crop.note.is_empty() {
        out.push_str(&wrap(&crop.note, 96, "  "));
    }
    out
}

fn start_long(start: Start) -> String {
    match start {
        Start::Raised { weeks, per_station, pot_on, harden } => {
            let mut words = format!("raised, set out {} to {} weeks old", weeks.0, weeks.1);
            if per_station > 1 {
                let _ = write!(words, ", {per_station} to a cell");
            }
            if pot_on {
                words.push_str(", potted on");
            }
            let _ = write!(words, ", hardened off {harden} days");
            words
        }
        Start::InPlace | Start::Bought | Start::Piece(_) => start_words(start).to_owned(),
    }
}

fn sprouts(germination: &Germination, measure: Measure) -> String {
    use crate::units::TempUnit;
    let read = |celsius: f64| Temperature::new(celsius, TempUnit::C).reading(measure);
    match germination {
        Germination::Table(rows) => {
            let best = rows.iter().min_by(|a, b| a.1.total_cmp(&b.1));
            match (rows.first(), best, rows.last()) {
                (Some(low), Some(best), Some(high)) => format!(
                    "in {:.0} days at {}, {:.0} at {}; tested from {} to {}",
                    best.1,
                    read(best.0),
                    low.1,
                    read(low.0),
                    read(low.0),
                    read(high.0)
                ),
                _ => String::from("not known"),
            }
        }
        Germination::Limits { least, best, most, days } => format!(
            "in {days} days at {}; from {} to {}",
            best.reading(measure),
            least.reading(measure),
            most.reading(measure)
        ),
        Germination::None => String::from("not from seed"),
    }
}

fn picking(crop: &Crop) -> String {
    let (days, holds) = (crop.picking.days, crop.picking.holds);
    let words = match crop.picking.shape {
        PickShape::Once => String::from("once"),
        PickShape::Flush => format!("most of it within {days} days"),
        PickShape::Steady => format!("evenly for {days} days"),
        PickShape::Cut { cuts, regrow } => format!("{cuts} cuts, one every {regrow} days or so"),
    };
    if holds > 0 { format!("{words}; holds {holds} days in the ground") } else { words }
}

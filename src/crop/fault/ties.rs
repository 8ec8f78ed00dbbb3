//! Ties from a crop to others: neighbours, mates, troubles, look-alikes, sources.

use super::Finder;
use super::names::{near, near_id};
use crate::crop::entry::whole_field;
use crate::crop::{Book, CautionKind, Crop, Entry, FIGURES, MateTime, PARTS, Part};

/// Codes that stand for no publication.
pub(super) const PLAIN: [&str; 4] = ["mem", "cp", "own", "near"];

/// Every rule on the ties of one crop.
pub(super) fn rules(crop: &Crop, book: &Book, find: &mut Finder<'_>) {
    for claim in &crop.neighbours {
        let known = book.family(&claim.with).is_some() || book.crops().any(|c| c.id.0 == claim.with);
        find.must(known, "neighbours", || {
            let all = book.crops().map(|c| c.id.as_str()).chain(book.families().map(|f| f.name.as_str()));
            format!("'{}' is neither a crop nor a family of the book{}", claim.with, near(&claim.with, all))
        });
        find.must(claim.with != crop.id.0, "neighbours", || {
            String::from("a crop is no neighbour of its own")
        });
        find.must(!claim.why.trim().is_empty(), "neighbours", || {
            String::from("say what happens, in a short phrase")
        });
        code(&claim.src, "neighbours", book, find);
    }
    for pair in &crop.mates {
        match book.get(&pair.main) {
            None => {
                find.say("mates", format!("'{}' is not in the book{}", pair.main, near_id(&pair.main, book)));
            }
            Some(main) => find.must(pair.when == MateTime::Always || main.closes.is_some(), "mates", || {
                format!("it is not known when the canopy of {} closes: give 'closes' there", pair.main)
            }),
        }
        find.must(pair.main != crop.id, "mates", || String::from("a crop is no mate of its own"));
    }
    for trouble in &crop.troubles {
        find.must(book.trouble(trouble).is_some(), "troubles", || {
            let all = book.troubles().map(|t| t.id.as_str());
            format!("'{trouble}' is no trouble of the book{}", near(trouble, all))
        });
    }
    cautions(crop, book, find);
    sources(crop, book, find);
}

fn cautions(crop: &Crop, book: &Book, find: &mut Finder<'_>) {
    for caution in &crop.cautions {
        find.must(!caution.words.trim().is_empty(), "cautions", || String::from("say it in words"));
        code(&caution.src, "cautions", book, find);
        match &caution.kind {
            CautionKind::LooksLike(others) => {
                for other in others {
                    find.must(book.get(other).is_some(), "cautions", || {
                        format!("'{other}' is not in the book{}", near_id(other, book))
                    });
                }
            }
            CautionKind::NotFood => find.must(crop.part == Part::Nothing, "cautions", || {
                String::from("it is called no food, but a part is named that is eaten")
            }),
            CautionKind::Allergy
            | CautionKind::Skin
            | CautionKind::CookFirst
            | CautionKind::PartsPoisonous
            | CautionKind::Spreads => {}
        }
    }
}

fn sources(crop: &Crop, book: &Book, find: &mut Finder<'_>) {
    let known = |figure: &str| FIGURES.contains(&figure) || PARTS.contains(&figure);
    for (figure, codes) in crop.src.iter() {
        find.must(known(figure), "src", || {
            format!("'{figure}' is no figure{}", near(figure, FIGURES.iter().chain(&PARTS).copied()))
        });
        for source in codes {
            code(source, figure, book, find);
        }
    }
    for other in &crop.differs {
        find.must(known(&other.figure), "differs", || {
            format!(
                "'{}' is no figure{}",
                other.figure,
                near(&other.figure, FIGURES.iter().chain(&PARTS).copied())
            )
        });
        find.must(!other.says.trim().is_empty(), "differs", || {
            String::from("say what the other source gives")
        });
        code(&other.src, "differs", book, find);
    }
    for figure in Entry::MUST.iter().filter(|f| FIGURES.contains(f)) {
        find.must(!crop.sources(figure).is_empty(), figure, || {
            String::from("it names no source: add one to 'src', or 'sources: [\"own\"]' to the file")
        });
    }
}

fn code(source: &str, figure: &str, book: &Book, find: &mut Finder<'_>) {
    let known = PLAIN.contains(&source) || book.reference(source).is_some();
    find.must(known, whole_field(figure), || {
        format!("the source '{source}' is unknown: use own, cp or mem, or say what it stands for under 'references'")
    });
}

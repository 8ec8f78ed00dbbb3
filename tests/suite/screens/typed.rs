//! What is typed about the garden as a whole and about its beds: read, shown again as it was meant, and taken back.

use crate::support::{bare, opened, press};
use catchcrop::app::{Effect, Load, Message, Model, Over, View, update};
use catchcrop::garden::{CoverKind, PlaceId};
use catchcrop::growth::Risk;
use catchcrop::store;
use catchcrop::units::Measure;
use std::sync::Arc;

/// Types a line in place of what stands there, and accepts it.
fn retype(model: &mut Model, keys: &str, text: &str) {
    press(model, keys);
    let Some(Over::Slip(slip)) = &model.over else { panic!("{keys}: a line to type") };
    let erase = "<Back>".repeat(slip.line.text().chars().count());
    press(model, &format!("{erase}{text}<Enter>"));
}

/// What the line holds when it is opened again.
fn again(model: &mut Model, keys: &str) -> String {
    press(model, keys);
    let Some(Over::Slip(slip)) = &model.over else { panic!("{keys}: a line to type") };
    let text = slip.line.text();
    press(model, "<Esc>");
    text
}

fn undo_all(model: &mut Model) {
    while model.history.undoing().is_some() {
        press(model, "u");
    }
}

#[test]
fn settings_are_typed_and_shown_again() {
    let start = bare("courtyard").in_order();
    let mut model = opened(start.clone());
    for (keys, text, shown) in [
        ("Gn", "Quince Yard", "Quince Yard"),
        ("Gh", "6.5 h", "6.5"),
        ("Gr", "cautious", "cautious"),
        ("Gu", "metric", "metric"),
        ("Gd", "sun", "Sunday"),
        ("Ga", "3 Jul to 17 Jul; 24 Dec to 2 Jan", "3 Jul 2027 to 17 Jul 2027; 24 Dec 2027 to 2 Jan 2028"),
        (
            "Gs",
            "windowsill 64 f, 40 cells, light; cellar 12 C, 100 cells",
            "windowsill 64 F, 40 cells, light; cellar 12 C, 100 cells",
        ),
    ] {
        retype(&mut model, keys, text);
        assert!(model.over.is_none(), "{keys} {text}: {:?}", model.over);
        assert_eq!(again(&mut model, keys), shown);
    }
    let settings = &model.plan.settings;
    assert_eq!((settings.risk, settings.measure), (Risk::Cautious, Measure::Metric));
    assert_eq!((settings.away.len(), model.plan.raising.len()), (2, 2));
    // What is shown is read again as the same.
    for keys in ["Gn", "Gh", "Gr", "Gu", "Gd", "Ga", "Gs"] {
        let before = model.plan.clone();
        press(&mut model, keys);
        press(&mut model, "<Enter>");
        assert_eq!(model.plan, before, "{keys}");
    }
    undo_all(&mut model);
    assert_eq!(model.plan, start);
}

#[test]
fn a_wrong_setting_is_said_and_asked_again() {
    let mut model = opened(bare("courtyard"));
    for (keys, text, wanted) in [
        ("Gn", " ", "A name is wanted"),
        ("Gh", "lots", "no number of hours"),
        ("Gr", "reckless", "Write cautious, usual or bold"),
        ("Gu", "cubits", "Write us or metric"),
        ("Gd", "someday", "a day of the week"),
        ("Ga", "in July", "no stretch of days"),
        ("Ga", "2027-07-17 to 2027-07-03", "ends before it begins"),
        ("Gs", "windowsill", "its warmth and its room"),
        ("Gs", "windowsill 18 C", "its warmth and its room"),
        ("Gs", "oven 180 C, 3 cells", "between 0 C and 40 C"),
    ] {
        retype(&mut model, keys, text);
        let Some(Over::Slip(slip)) = &model.over else { panic!("{keys} {text} was taken") };
        let words = &slip.reading.words[0].1;
        assert!(words.contains(wanted), "{keys} {text}: {words}");
        press(&mut model, "<Esc>");
    }
    assert!(!model.is_dirty());
}

#[test]
fn covers_are_typed_with_their_cells_and_days() {
    let mut model = opened(bare("courtyard"));
    model.go_to(&PlaceId::new("box-3"), (0, 0));
    retype(&mut model, "ec", "fleece A1-D2, 1 Mar to 1 May; shade cloth, July to August");
    assert!(model.over.is_none(), "{:?}", model.over);
    let place = model.plan.place(&PlaceId::new("box-3")).unwrap();
    let [fleece, shade] = &place.covers[..] else { panic!("{:?}", place.covers) };
    assert_eq!((fleece.kind, fleece.cells.to_string().as_str()), (CoverKind::Fleece, "A1-D2"));
    assert!(fleece.frost_gain.celsius() > 1.0 && fleece.light > 50);
    assert_eq!((shade.kind, shade.until.to_string().as_str()), (CoverKind::ShadeCloth, "2027-08-31"));
    assert!(again(&mut model, "ec").starts_with("fleece A1-D2, 1 Mar 2027 to 1 May 2027; shade cloth A1-"));
    for (text, wanted) in [
        ("fleece A1-D2", "write what, where and when"),
        ("blanket all, May to June", "neither fleece"),
        ("fleece Z9, May to June", "no cells of Kitchen box"),
    ] {
        retype(&mut model, "ec", text);
        let Some(Over::Slip(slip)) = &model.over else { panic!("{text} was taken") };
        assert!(slip.reading.words[0].1.contains(wanted), "{:?}", slip.reading.words);
        press(&mut model, "<Esc>");
    }
}

#[test]
fn seed_in_the_drawer_is_written_down_by_the_crop() {
    let start = bare("courtyard").in_order();
    let mut model = opened(start.clone());
    press(&mut model, "8/beet<Enter>");
    let crop = model.focus_crop().unwrap().id.clone();
    retype(&mut model, "w", "120 seeds, 2025, 8 of 10; 2 g, 2026");
    assert!(model.over.is_none(), "{:?}", model.over);
    let mine: Vec<_> = model.plan.drawer.iter().filter(|p| p.crop == crop).collect();
    assert_eq!((mine.len(), mine[0].packed, mine[0].tested), (2, 2025, Some(8)));
    assert_eq!(mine[1].left.to_string(), "2 g");
    for text in ["120 seeds", "some, 2025", "120 seeds, 1925", "2 g, 2026, 12 of 10"] {
        retype(&mut model, "w", text);
        assert!(model.over.is_some(), "{text} was taken");
        press(&mut model, "<Esc>");
    }
    retype(&mut model, "w", "");
    undo_all(&mut model);
    assert_eq!(model.plan, start);
}

#[test]
fn a_bed_is_drawn_and_stretched_with_the_arrows() {
    let start = bare("courtyard").in_order();
    let mut model = opened(start.clone());
    press(&mut model, "1");
    model.spot = catchcrop::app::Spot { x: 2, y: 22 };
    press(&mut model, "nb<Enter><Right><Right><Down>");
    let Some(Load::Place { place, new: true, .. }) = model.carry.as_ref().map(|c| &c.load) else { panic!() };
    assert_eq!(place.grid(model.plan.settings.cell), (2, 3));
    press(&mut model, "<Enter>");
    let id = model.focus_place().unwrap().id.clone();
    let grid = |model: &Model| model.plan.place(&id).unwrap().grid(model.plan.settings.cell);
    assert_eq!(grid(&model), (2, 3));
    press(&mut model, "r<Right><Up><Enter>");
    assert_eq!(grid(&model), (1, 4));
    press(&mut model, "r<Left><Left><Esc>");
    assert_eq!(grid(&model), (1, 4));
    undo_all(&mut model);
    assert_eq!(model.plan, start);
}

#[test]
fn two_plantings_change_places() {
    let mut model = super::planted();
    let at = |model: &Model, name: &str| {
        let p = model.plan.plantings.iter().find(|p| p.name == name).unwrap();
        (p.place.clone(), p.block)
    };
    let name = |model: &Model, place: &str| {
        model.plan.plantings.iter().find(|p| p.place.0 == place).unwrap().name.clone()
    };
    let (basil, radish) = (name(&model, "pot-1"), name(&model, "pot-5"));
    let before = model.plan.clone();
    let (first, second) = (at(&model, &basil).0, PlaceId::new("pot-5"));
    press(&mut model, "2");
    model.go_to(&first, (0, 0));
    press(&mut model, "m");
    // There is nothing to change places with where it stands.
    press(&mut model, "x");
    assert!(model.carry.is_some(), "still in the hand");
    model.go_to(&second, (0, 0));
    press(&mut model, "<Right>x");
    assert!(model.carry.is_none(), "{:?}", model.note);
    assert!(model.note.as_ref().unwrap().words.starts_with("Swapped"), "{:?}", model.note);
    assert_eq!((name(&model, "pot-1"), name(&model, "pot-5")), (radish, basil));
    press(&mut model, "u");
    assert_eq!(model.plan, before);
}

#[test]
fn the_timeline_is_looked_at_closer_and_by_one_bed() {
    let mut model = super::planted();
    press(&mut model, "3");
    let all = model.rows().len();
    press(&mut model, "+++");
    assert_eq!(model.closer, 3);
    press(&mut model, "+");
    assert!(model.note.as_ref().unwrap().words.contains("does not go any further"));
    insta::assert_snapshot!("weeks_close_80x24", crate::support::screen(&mut model, 80, 24));
    press(&mut model, "---b");
    assert!(model.rows().len() < all && model.alone);
    press(&mut model, "b");
    assert_eq!((model.rows().len(), model.view), (all, View::Weeks));
}

#[test]
fn a_variety_is_asked_for_as_its_packet_tells_it() {
    let mut model = opened(bare("courtyard"));
    press(&mut model, "8/tomato<Enter>");
    assert_eq!(model.focus_crop().unwrap().name, "Tomato");
    press(&mut model, "n<Enter>");
    let said = |model: &Model| match &model.over {
        Some(Over::Slip(slip)) => slip.reading.words.first().map(|w| w.1.clone()).unwrap_or_default(),
        Some(_) | None => panic!("a question"),
    };
    assert!(said(&model).contains("The name on the packet"), "{}", said(&model));
    press(&mut model, "Dusk<Enter>");
    insta::assert_snapshot!("variety_80x24", crate::support::screen(&mut model, 80, 24));
    retype_here(&mut model, "soon<Enter>");
    assert!(said(&model).contains("numbers of days"), "{}", said(&model));
    retype_here(&mut model, "58-64<Enter>");
    // Esc goes one back, and the answer is still there.
    press(&mut model, "<Esc><Enter>");
    retype_here(&mut model, "15-20 in<Enter>");
    press(&mut model, "<Enter>");
    let effects = press(&mut model, "<Enter>");
    let [Effect::AddVariety(entry)] = &effects[..] else { panic!("{effects:?}") };
    assert_eq!(
        (entry.id.as_str(), entry.of.as_str(), entry.name.as_str()),
        ("tomato-dusk", "tomato", "Tomato, Dusk")
    );
    assert_eq!(entry.days.map(|d| (d.min, d.max)), Some((58, 64)));
    assert_eq!(entry.spacing.map(|s| s.dense.to_string()), Some(String::from("15 in")));
    assert_eq!((entry.depth, entry.height), (None, None), "as in the crop");
    // It is written, the book is read anew, and the cursor goes to it.
    let dir = tempfile::tempdir().unwrap();
    let (shelf, path) = store::add_variety(&dir.path().join("garden.ron"), &[dir.path()], entry).unwrap();
    let book = Arc::new(shelf.book.into_owned());
    drop(update(&mut model, Message::Added(entry.id.clone(), Ok((book, path)))));
    assert_eq!(model.focus_crop().unwrap().name, "Tomato, Dusk");
    assert!(model.over.is_none() && !model.is_dirty());
    model.path = None;
    press(&mut model, "n");
    assert!(model.note.as_ref().unwrap().words.contains("Save the garden first"));
}

#[test]
fn the_book_is_narrowed_to_what_fits_the_cell() {
    let mut model = opened(bare("courtyard"));
    let all = {
        press(&mut model, "8");
        model.found().len()
    };
    press(&mut model, "o");
    assert!(matches!(&model.over, Some(Over::Slip(slip)) if slip.title.contains("from 22 May")));
    retype_here(&mut model, "many<Enter>");
    assert!(model.over.is_some(), "no number");
    retype_here(&mut model, "8<Enter>");
    let found: Vec<&str> = model.found().iter().map(|c| c.id.as_str()).collect();
    assert!(model.over.is_none() && found.contains(&"radish") && !found.contains(&"leek"), "{found:?}");
    assert!(found.len() < all && model.narrowed.as_ref().is_some_and(|f| f.words.contains("h of sun")));
    insta::assert_snapshot!("book_fits_80x24", crate::support::screen(&mut model, 80, 24));
    insta::assert_snapshot!("book_fits_160x50", crate::support::screen(&mut model, 160, 50));
    // The search looks among them, and another week is another answer.
    press(&mut model, "/herb<Enter>");
    let herbs = model.found().len();
    assert!(herbs > 0 && model.found().iter().all(|c| c.is_for(catchcrop::crop::Use::Herb)));
    let words = model.narrowed.as_ref().unwrap().words.clone();
    press(&mut model, "....");
    assert_ne!(model.narrowed.as_ref().unwrap().words, words);
    press(&mut model, "/");
    retype_here(&mut model, "<Enter>");
    press(&mut model, "o");
    assert!(model.narrowed.is_none() && model.found().len() == all);
    // Where something is planted later, its weeks are offered.
    let mut model = opened(crate::support::example("courtyard"));
    model.today = catchcrop::calendar::Date::from_ymd_opt(2027, 1, 10).unwrap();
    model.week = catchcrop::calendar::Week::of(model.today);
    let later =
        model.plan.plantings.iter().find(|p| p.begins().is_some_and(|b| b > model.shown_day())).cloned();
    let later = later.expect("a later planting");
    model.go_to(&later.place, (later.block.row, later.block.col));
    press(&mut model, "8o");
    let Some(Over::Slip(slip)) = &model.over else { panic!("a line to type") };
    assert!(slip.line.text().parse::<u16>().is_ok(), "{}", slip.line.text());
    assert!(slip.reading.words[0].1.starts_with("the next planting takes the cell on"));
}

fn retype_here(model: &mut Model, keys: &str) {
    let Some(Over::Slip(slip)) = &model.over else { panic!("a line to type") };
    let erase = "<Back>".repeat(slip.line.text().chars().count());
    press(model, &format!("{erase}{keys}"));
}

#[test]
fn the_record_is_kept_cell_by_cell() {
    let start = bare("courtyard").in_order();
    let mut model = opened(start.clone());
    press(&mut model, "7");
    let soil = model.record_row().unwrap();
    assert_eq!(soil.1, None);
    retype(&mut model, "<Enter>", "carrot A1-D2; tomato, cherry vine E1-H4; legumes");
    assert!(model.over.is_none(), "{:?}", model.over);
    let season = model.record_season();
    let stays = model.stays(&soil.0, season);
    let blocks: Vec<_> = stays.iter().map(|s| s.block.map(|b| b.to_string())).collect();
    assert_eq!(stays.len(), 3);
    for block in [Some("A1-D2"), Some("E1-H4"), None] {
        assert!(blocks.iter().any(|b| b.as_deref() == block), "{blocks:?}");
    }
    // What is shown is read again as the same.
    let before = model.plan.clone();
    press(&mut model, "<Enter><Enter>");
    assert_eq!(model.plan, before);
    press(&mut model, "g");
    assert_eq!(model.record_row(), Some((soil.0.clone(), Some((0, 0)))));
    assert_eq!(model.stays_in(&model.record_row().unwrap(), season).len(), 2);
    insta::assert_snapshot!("record_cells_80x24", crate::support::screen(&mut model, 80, 24));
    press(&mut model, "jjg");
    assert_eq!(model.record_row(), Some(soil));
    undo_all(&mut model);
    assert_eq!(model.plan, start);
}

//! What may follow in one freed cell.

use crate::checks::garden::{Plot, Shelf, date};
use catchcrop::calendar::MonthDay;
use catchcrop::check::{Context, Weight, check};
use catchcrop::crop::{Book, CropId};
use catchcrop::fill::{Freed, Handover, handover};
use catchcrop::garden::PlaceId;
use catchcrop::plan::{Pattern, Planting, Wish, WishId};

fn shelf() -> Book {
    let mut shelf = Shelf::new();
    shelf.change(
        "radish",
        r#"(part: Root, spacing: (dense: "2 in", wide: "3 in"), catch: true,
            days: (min: 25, max: 30, from: Sowing), picking: (shape: Once, days: 7, holds: 7))"#,
    );
    shelf.change("lettuce", "(catch: true, days: (min: 40, max: 45, from: Sowing))");
    shelf.change("corn", "(days: (min: 110, max: 120, from: Sowing))");
    shelf.change("pea", r#"(catch: true, height: "5 ft", support: Needs)"#);
    shelf.book()
}

/// A box in which kale stands until 24 April and eggplant comes on 24 July, and in which nightshades stood last year.
fn plot() -> Plot {
    let mut plot = Plot::new();
    plot.plan.places.truncate(1);
    plot.plant("kale", "box-1", (0, 0, 2, 2), "2027-03-06", "2027-04-24");
    plot.plant("eggplant", "box-1", (0, 0, 2, 2), "2027-07-24", "2027-10-02");
    plot.plan.plantings[1].crop = CropId::new("zinnia");
    plot.stood("box-1", "", "Solanaceae", "2026-05-01", "2026-09-20");
    for (n, crop) in ["radish", "tomato", "corn"].into_iter().enumerate() {
        plot.plan.wishes.push(Wish {
            id: WishId(u32::try_from(n).unwrap() + 1),
            crop: CropId::new(crop),
            amount: "4 lb".parse().unwrap(),
            pattern: Pattern::AtOnce,
            from: MonthDay { month: 5, day: 1 },
            to: MonthDay { month: 10, day: 20 },
            season: None,
            importance: 3,
            places: Vec::new(),
            note: String::new(),
        });
    }
    plot
}

fn asked(plot: &Plot, book: &Book, (row, col): (u16, u16), on: &str) -> Option<Handover> {
    let freed = Freed { place: PlaceId::new("box-1"), row, col, on: date(on) };
    handover(&plot.plan, book, plot.year, &freed)
}

#[test]
fn what_fits_a_freed_cell_is_ranked_and_the_rest_is_told_why() {
    let (plot, book) = (plot(), shelf());
    let found = asked(&plot, &book, (0, 0), "2027-04-24").unwrap();
    assert_eq!((&found.standing, found.until), (&None, Some(date("2027-07-24"))));
    let names: Vec<&str> = found.fits.iter().map(|f| f.crop.as_str()).collect();
    println!("{names:?}");
    for f in &found.fits {
        println!("{} {} {:?} {:.1} {} {:?}", f.crop, f.block, f.dates.cleared, f.points, f.weeks, f.wish);
    }
    assert_eq!(names[0], "radish", "the one that a wish wants comes first: {names:?}");
    let first = &found.fits[0];
    assert!(first.points > 1.0 && first.wish.is_some_and(|w| w.0 == WishId(1)), "{first:?}");
    assert!(first.chance > 0.5 && first.plants == 16 && first.weeks > 2, "{first:?}");
    assert!(names.contains(&"lettuce") && !names.contains(&"tomato"), "{names:?}");
    let order: Vec<f64> = found.fits.iter().map(|f| f.points.max(0.0)).collect();
    assert!(order.windows(2).all(|p| p[0] + 0.1 >= p[1]), "{order:?}");
    for fit in &found.fits {
        assert!(fit.block.holds(0, 0), "{fit:?}");
        assert!(fit.dates.cleared.is_some_and(|end| end <= date("2027-07-24")), "{fit:?}");
    }
    let why = |crop: &str| found.unfit.iter().find(|u| u.crop.as_str() == crop).unwrap();
    assert!(
        why("tomato").wished && why("tomato").why.contains("free again from 21 Sep 2029"),
        "{:?}",
        why("tomato")
    );
    assert!(
        why("corn").wished && why("corn").why.contains("longer than the cells are free"),
        "{:?}",
        why("corn")
    );
    assert!(why("pea").why.contains("no support"), "{:?}", why("pea"));
}

#[test]
fn whatever_fits_is_planted_without_a_stop() {
    let (plot, book) = (plot(), shelf());
    for (cell, on) in [((0, 0), "2027-04-24"), ((3, 3), "2027-06-12"), ((1, 1), "2027-05-05")] {
        let found = asked(&plot, &book, cell, on).unwrap();
        assert!(found.fits.len() > 2, "{cell:?} {on}");
        for fit in &found.fits {
            let mut after = plot.plan.clone();
            let id = after.next_planting();
            let like = after.plantings[0].clone();
            let crop = book.get(&fit.crop).unwrap();
            after.plantings.push(Planting {
                id,
                crop: fit.crop.clone(),
                name: fit.name.clone(),
                family: crop.family.clone(),
                block: fit.block,
                layer: fit.layer,
                start: fit.start,
                plants: fit.plants,
                planned: fit.dates,
                ..like
            });
            let context = Context::whole(&after, &book, plot.year);
            let stops: Vec<_> = check(&context)
                .into_iter()
                .filter(|f| f.weight == Weight::Stop && f.plantings.contains(&id))
                .map(|f| f.words)
                .collect();
            assert!(stops.is_empty(), "{} on {on}: {stops:?}", fit.crop);
        }
    }
}

#[test]
fn a_cell_that_is_taken_or_not_there_is_told() {
    let (plot, book) = (plot(), shelf());
    let found = asked(&plot, &book, (0, 0), "2027-04-03").unwrap();
    assert_eq!(found.standing, Some(("Kale".into(), Some(date("2027-04-24")))));
    assert!(found.fits.is_empty(), "{:?}", found.fits);
    assert!(asked(&plot, &book, (4, 0), "2027-04-24").is_none());
    assert!(asked(&plot, &book, (0, 0), "2019-04-24").is_none(), "the box came in 2020");
}

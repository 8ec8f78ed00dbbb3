//! What the site's year says: too early, too late, soil, heat, daylength. New York unless said.

use super::garden::{CHRISTCHURCH, Plot, Shelf, date, only, tells};
use catchcrop::check::{Finding, Weight};
use catchcrop::crop::{BreakWeight, Piece, Start};
use catchcrop::garden::{Block, Cover, CoverKind};
use catchcrop::plan::RaisingPlace;
use catchcrop::units::{Degrees, TempUnit};

/// A warm crop raised indoors, killed at 31 F; a cool one sown in place; garlic; an onion.
fn shelf() -> Shelf {
    let mut shelf = Shelf::new();
    shelf.change(
        "tomato",
        r#"(part: Fruit, days: (min: 70, max: 75, from: SettingOut), clock: Heat(season: Warm),
            starts: [Raised(weeks: (5, 8), per_station: 1, pot_on: true, harden: 10)],
            germination: Table([(10, 43), (15, 14), (20, 8), (25, 6), (30, 6), (35, 9)]),
            frost: (class: Tender, foliage: "31 F", harvest: "31 F"),
            picking: (shape: Steady, days: 60, holds: 0),
            heat: (set_night_most: "75 F", set_day_most: "95 F", set_night_least: "55 F"))"#,
    );
    shelf.change(
        "bean",
        r#"(part: Pod, days: (min: 50, max: 55, from: Sowing), clock: Heat(season: Warm),
            germination: Table([(15, 16), (20, 11), (25, 8), (30, 6)]),
            frost: (class: Tender, foliage: "31 F", harvest: "31 F"))"#,
    );
    shelf.change(
        "lettuce",
        r#"(germination: Table([(0, 49), (5, 15), (10, 7), (15, 4), (20, 3), (25, 2)]),
            heat: (mean_most: "23 C"))"#,
    );
    shelf.change("kale", "(daylength: Some(BoltsAbove(13.5)))");
    shelf
}

fn set_out(on: &str) -> Plot {
    let mut plot = Plot::new();
    plot.plan.raising = vec![RaisingPlace {
        name: "windowsill".into(),
        temperature: "20 C".parse().unwrap(),
        cells: 50,
        light: true,
    }];
    let planting = plot.plant("tomato", "box-1", (0, 0, 2, 2), on, "2027-10-15");
    planting.start = Start::Raised { weeks: (5, 8), per_station: 1, pot_on: true, harden: 10 };
    planting.planned.set_out = Some(date(on));
    planting.planned.sown = Some(catchcrop::calendar::plus(date(on), -45));
    plot
}

fn sown(crop: &str, on: &str) -> Plot {
    let mut plot = Plot::new();
    plot.plant(crop, "box-1", (0, 0, 1, 1), on, "");
    plot
}

fn says(plot: &Plot, code: &str) -> Vec<Finding> {
    plot.says(&shelf(), code)
}

#[test]
fn tomatoes_out_in_april_are_too_early_with_the_chance_in_words() {
    let found = says(&set_out("2027-04-05"), "too-early");
    assert_eq!(only(&found).weight, Weight::Mind);
    tells(
        only(&found),
        &[
            "Tomato is set out in Box 1 (A1-B2) on 5 Apr 2027",
            "31 F",
            "years of 10",
            "you accept 3 years of 10",
            "Set tomato out between",
        ],
    );
    assert!(says(&set_out("2027-05-20"), "too-early").is_empty());
}

#[test]
fn a_cover_over_the_cells_counts_and_one_beside_them_does_not() {
    let mut plot = set_out("2027-04-05");
    assert_eq!(says(&plot, "too-early").len(), 1);
    let mut cover = Cover {
        kind: CoverKind::Cloche,
        cells: Block { row: 0, col: 0, rows: 2, cols: 2 },
        from: date("2027-04-01"),
        until: date("2027-05-20"),
        frost_gain: Degrees::new(5.0, TempUnit::C),
        warmth: Degrees::new(3.0, TempUnit::C),
        light: 80,
    };
    plot.place("box-1").covers = vec![cover.clone()];
    assert!(says(&plot, "too-early").is_empty());
    cover.cells.rows = 1;
    plot.place("box-1").covers = vec![cover];
    assert_eq!(says(&plot, "too-early").len(), 1);
}

#[test]
fn what_already_stands_is_no_longer_too_early() {
    let mut plot = set_out("2027-04-05");
    plot.plan.plantings[0].real.set_out = Some(date("2027-04-05"));
    assert!(says(&plot, "too-early").is_empty());
}

#[test]
fn beans_in_september_are_too_late_and_in_july_they_are_not() {
    let found = says(&sown("bean", "2027-08-25"), "too-late");
    assert_eq!(only(&found).weight, Weight::Mind);
    tells(
        only(&found),
        &[
            "Bush bean is sown in Box 1 (A1) on 25 Aug 2027",
            "in time before the frost",
            "you asked for 7 years of 10",
            "Sow bush bean between",
        ],
    );
    assert!(says(&sown("bean", "2027-07-10"), "too-late").is_empty());
}

/// Snap bean 1 % at 50 F and 97 % at 59 F (Harrington and Minges).
#[test]
fn cold_soil_for_beans_in_april() {
    let found = says(&sown("bean", "2027-04-10"), "soil-cold");
    tells(only(&found), &["The soil is then about", "it wants at least 5", "Sow bush bean between"]);
    assert!(says(&sown("bean", "2027-06-01"), "soil-cold").is_empty());
}

/// Lettuce 99 % at 77 F but 12 % at 86 F (Harrington and Minges).
#[test]
fn hot_soil_for_lettuce_in_july() {
    let mut plot = sown("lettuce", "2027-07-20");
    plot.year = {
        static TUCSON: std::sync::LazyLock<catchcrop::site::SiteYear> =
            std::sync::LazyLock::new(|| catchcrop::site::SiteYear::preset("las-cruces-nm").unwrap());
        &TUCSON
    };
    tells(only(&says(&plot, "soil-hot")), &["sprouts up to 77 F", "raise it indoors in a cool place"]);
    plot.plan.plantings[0].planned.sown = Some(date("2027-10-10"));
    assert!(says(&plot, "soil-hot").is_empty());
}

#[test]
fn a_raising_place_too_cold_for_tomatoes() {
    let mut plot = set_out("2027-05-20");
    assert!(says(&plot, "raising-unfit").is_empty());
    plot.plan.raising[0].temperature = "8 C".parse().unwrap();
    tells(only(&says(&plot, "raising-unfit")), &["46 F", "between 50 F and 95 F", "5 Apr 2027"]);
}

/// Nights above 75 F, days above 95 F, nights below 55 F (Maryland specialist 2012; state page on blossom drop).
#[test]
fn blossoms_drop_in_desert_heat_but_the_plants_live() {
    static DESERT: std::sync::LazyLock<catchcrop::site::SiteYear> =
        std::sync::LazyLock::new(|| catchcrop::site::SiteYear::preset("miami-fl").unwrap());
    let mut plot = set_out("2027-06-10");
    plot.year = &DESERT;
    let found = says(&plot, "no-fruit-set");
    tells(only(&found), &["nights above 75 F", "of 100", "live on"]);
    let mut plot = set_out("2027-12-10");
    plot.year = &DESERT;
    plot.plan.plantings[0].planned.cleared = Some(date("2028-05-01"));
    assert!(says(&plot, "no-fruit-set").is_empty());
}

#[test]
fn lettuce_sown_into_summer_is_too_hot() {
    tells(
        only(&says(&sown("lettuce", "2027-06-20"), "too-hot")),
        &["73 F", "before it is ripe", "Sow lettuce between"],
    );
    assert!(says(&sown("lettuce", "2027-03-25"), "too-hot").is_empty());
}

#[test]
fn long_days_make_it_flower_before_it_is_ripe() {
    tells(
        only(&says(&sown("kale", "2027-05-10"), "runs-to-flower")),
        &["13.5 hours", "runs to flower about"],
    );
    assert!(says(&sown("kale", "2027-08-20"), "runs-to-flower").is_empty());
}

#[test]
fn an_onion_for_longer_days_than_there_are() {
    let mut shelf = shelf();
    shelf.change("radish", "(daylength: Some(BulbsAbove(15.5)))");
    let found = sown("radish", "2027-03-25").says(&shelf, "days-unfit");
    tells(only(&found), &["longer than 15.5 hours", "shorter days"]);
    shelf.change("radish", "(daylength: Some(BulbsAbove(14)))");
    assert!(sown("radish", "2027-03-25").says(&shelf, "days-unfit").is_empty());
}

/// Days under 10 hours at 41 S from 12 May to 2 August (computed).
#[test]
fn short_days_are_noted_in_both_hemispheres() {
    let mut shelf = shelf();
    shelf.change("kale", "(daylength: None)");
    let mut plot = sown("radish", "2027-10-10");
    tells(only(&plot.says(&shelf, "short-days")), &["under 10 hours", "Nov", "Jan"]);
    plot.plan.plantings[0].planned.sown = Some(date("2027-08-10"));
    assert!(plot.says(&shelf, "short-days").is_empty());
    plot.year = &CHRISTCHURCH;
    plot.plan.plantings[0].planned.sown = Some(date("2027-04-10"));
    tells(only(&plot.says(&shelf, "short-days")), &["May", "Aug"]);
}

/// Garlic within 3 weeks of the first frost (Oregon State University, planting fall vegetables).
fn garlic() -> Shelf {
    let mut shelf = shelf();
    shelf.family("Amaryllidaceae", "onion family", (2, 3, BreakWeight::Mind), false);
    shelf.add(
        "garlic",
        "Garlic",
        "Amaryllidaceae",
        r#"(part: Bulb, clock: Overwintered(plant: (-3, 3), ripe: AfterLongestDay(5, 35)), starts: [Piece(Clove)],
            germination: None, frost: (class: Hardy, foliage: "-20 C", harvest: "-20 C"))"#,
    );
    shelf
}

#[test]
fn garlic_has_its_weeks() {
    let mut plot = sown("garlic", "2027-04-20");
    plot.plan.plantings[0].start = Start::Piece(Piece::Clove);
    plot.plan.plantings[0].planned.set_out = Some(date("2027-04-20"));
    tells(
        only(&plot.says(&garlic(), "wrong-weeks")),
        &["20 Apr 2027", "planted between 26 Oct and 7 Dec", "Plant garlic between 26 Oct 2027"],
    );
    plot.plan.plantings[0].planned.set_out = Some(date("2027-11-05"));
    assert!(plot.says(&garlic(), "wrong-weeks").is_empty());
}

/// Cloves are safe under ground; what is sown and green is not.
#[test]
fn a_winter_that_kills() {
    let mut shelf = garlic();
    let frost = |kills: &str| {
        format!(
            r#"(clock: Overwintered(plant: (-3, 3), ripe: HeatFromSpring(40)), starts: [InPlace],
                frost: (class: Hardy, foliage: "{kills}", harvest: "{kills}"))"#
        )
    };
    shelf.change("kale", &frost("-30 C"));
    let plot = sown("kale", "2027-11-05");
    assert!(plot.says(&shelf, "winter-kills").is_empty());
    shelf.change("kale", &frost("-5 C"));
    tells(only(&plot.says(&shelf, "winter-kills")), &["23 F", "you accept 3 years of 10", "Cover kale"]);
    let mut plot = sown("garlic", "2027-11-05");
    plot.plan.plantings[0].start = Start::Piece(Piece::Clove);
    plot.plan.plantings[0].planned.set_out = Some(date("2027-11-05"));
    shelf.change("garlic", r#"(frost: (class: HalfHardy, foliage: "-5 C", harvest: "-5 C"))"#);
    assert!(plot.says(&shelf, "winter-kills").is_empty());
}

#[test]
fn a_way_of_starting_the_book_does_not_know() {
    let mut plot = sown("bean", "2027-06-01");
    assert!(says(&plot, "other-way").is_empty());
    plot.plan.plantings[0].start = Start::Piece(Piece::Bulb);
    tells(only(&says(&plot, "other-way")), &["1 way of starting"]);
}

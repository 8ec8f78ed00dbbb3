//! Climbers and their supports.

use super::garden::{Plot, Shelf, date, length, only, tells};
use catchcrop::check::Weight;
use catchcrop::garden::{Block, Support, SupportKind};

const CODE: &str = "no-support";

fn climber(need: &str) -> (Plot, Shelf) {
    let mut shelf = Shelf::new();
    shelf.change("pea", &format!(r#"(support: {need}, height: "6 ft", habit: Climbing)"#));
    let mut plot = Plot::new();
    plot.plant("pea", "box-1", (0, 0, 1, 1), "2027-04-01", "2027-07-01");
    (plot, shelf)
}

fn trellis(cells: Block, high: &str, from: &str, until: Option<&str>) -> Support {
    Support {
        kind: SupportKind::Trellis,
        cells,
        height: length(high),
        from: date(from),
        until: until.map(date),
    }
}

#[test]
fn a_climber_without_one_stops() {
    let (plot, shelf) = climber("Needs");
    let found = plot.says(&shelf, CODE);
    assert_eq!(only(&found).weight, Weight::Stop);
    tells(only(&found), &["Pea", "Box 1 (A1)", "1 Apr 2027", "6 ft", "Set a trellis"]);
}

#[test]
fn one_in_its_cells_in_time_is_enough() {
    let (mut plot, shelf) = climber("Needs");
    plot.place("box-1").supports = vec![trellis(Block::cell(0, 0), "5 ft", "2027-04-29", None)];
    assert!(plot.says(&shelf, CODE).is_empty());
    plot.place("box-1").supports = vec![trellis(Block::cell(0, 1), "5 ft", "2027-04-01", None)];
    assert_eq!(only(&plot.says(&shelf, CODE)).weight, Weight::Stop, "in other cells");
    for (miss, says) in [
        (trellis(Block::cell(0, 0), "5 ft", "2027-05-01", None), "from 1 May 2027"),
        (trellis(Block::cell(0, 0), "5 ft", "2027-04-01", Some("2027-06-30")), "until 30 Jun 2027"),
    ] {
        plot.place("box-1").supports = vec![miss];
        let found = plot.says(&shelf, CODE);
        assert_eq!(only(&found).weight, Weight::Mind);
        tells(only(&found), &[says]);
    }
}

#[test]
fn too_low_a_one_is_minded() {
    let (mut plot, shelf) = climber("Needs");
    plot.place("box-1").supports = vec![trellis(Block::cell(0, 0), "3 ft", "2027-04-01", None)];
    let found = plot.says(&shelf, CODE);
    assert_eq!(only(&found).weight, Weight::Mind);
    tells(only(&found), &["6 ft tall", "36 in high"]);
}

#[test]
fn where_it_only_helps_it_is_a_note() {
    let (plot, shelf) = climber("Helps");
    assert_eq!(only(&plot.says(&shelf, CODE)).weight, Weight::Note);
    let (plot, shelf) = climber("None");
    assert!(plot.says(&shelf, CODE).is_empty());
}

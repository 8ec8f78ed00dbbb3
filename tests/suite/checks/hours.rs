//! Work against the hours of a week.

use super::garden::{Plot, Shelf, only, tells};
use catchcrop::check::Weight;
use catchcrop::plan::{Minutes, Task};

const CODE: &str = "hours-short";

fn minutes() -> Minutes {
    let none = Task::new(0.0, 0.0);
    Minutes {
        sow: Task::new(5.0, 0.2),
        care: Task::new(1.0, 0.1),
        clear: Task::new(4.0, 0.3),
        raise: none,
        pot_on: none,
        set_out: none,
        pick: none,
    }
}

/// 40 plants sown and cleared in one week: 13 minutes to sow, 5 of care, 16 to clear: 34.
fn sown(hours: f32) -> Plot {
    let mut plot = Plot::new();
    plot.plan.settings.hours_a_week = Some(hours);
    plot.plan.settings.minutes = minutes();
    plot.plant("radish", "box-1", (0, 0, 1, 1), "2027-04-14", "2027-04-18").plants = 40;
    plot
}

#[test]
fn a_week_with_more_work_than_hours_is_minded() {
    let found = sown(0.49).says(&Shelf::new(), CODE);
    assert_eq!(only(&found).weight, Weight::Mind);
    tells(only(&found), &["In the week of 12 Apr 2027", "0.6 hours", "you have 0.49", "radish"]);
    assert_eq!(only(&sown(0.56).says(&Shelf::new(), CODE)).weight, Weight::Note, "within 15 per cent");
    assert!(sown(0.57).says(&Shelf::new(), CODE).is_empty());
}

#[test]
fn one_finding_for_each_stretch_of_weeks() {
    let mut plot = Plot::new();
    plot.plan.settings.hours_a_week = Some(0.01);
    plot.plan.settings.minutes = minutes();
    plot.plant("kale", "box-1", (0, 0, 1, 1), "2027-04-14", "2027-06-20");
    plot.plant("kale", "box-2", (0, 0, 1, 1), "2027-08-14", "2027-09-20");
    let found = plot.says(&Shelf::new(), CODE);
    assert_eq!(found.len(), 2, "{found:#?}");
    tells(&found[0], &["From the week of 12 Apr 2027 to that of 14 Jun 2027"]);
}

#[test]
fn uncounted_hours_and_edited_minutes() {
    let mut plot = sown(0.56);
    plot.plan.settings.minutes.sow.planting = 0.0;
    assert!(plot.says(&Shelf::new(), CODE).is_empty());
    let mut plot = sown(0.56);
    plot.plan.settings.hours_a_week = None;
    assert!(plot.says(&Shelf::new(), CODE).is_empty());
}

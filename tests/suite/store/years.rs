//! A garden that was kept for ten years.

#[path = "../../speed/years.rs"]
mod ten;

use super::book;
use catchcrop::store;

/// Its file stays below 2 MB, reads back equal, and one more entry changes a handful of lines of it.
#[test]
fn the_file_of_ten_years_stays_small_and_readable() {
    let plan = ten::ten_years();
    let text = store::plan_text(&plan).unwrap();
    println!(
        "{} plantings and {} entries: {:.2} MB, longest line {} letters",
        plan.plantings.len(),
        plan.diary.len(),
        f64::from(u32::try_from(text.len()).unwrap()) / 1e6,
        text.lines().map(|l| l.chars().count()).max().unwrap_or(0)
    );
    assert!(plan.plantings.len() > 2_000 && plan.diary.len() > 8_000);
    assert!(text.len() < 2_000_000, "{} bytes", text.len());
    let back = store::read_plan("garden.ron", &text, book()).unwrap().0;
    assert_eq!(back, plan);
    let mut more = plan.clone();
    let mut entry = plan.diary[0].clone();
    entry.id = plan.next_entry();
    more.diary.push(entry);
    let after = store::plan_text(&more).unwrap();
    let known: std::collections::BTreeSet<&str> = text.lines().collect();
    let new = after.lines().filter(|l| !known.contains(l)).count();
    assert!(new <= 8, "{new} lines are new");
}

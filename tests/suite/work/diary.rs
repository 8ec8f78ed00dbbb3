//! The diary, the forecast that follows it, and the close of a season.

use super::{block, book, courtyard, day, put};
use catchcrop::calendar::{Date, Season, days_between, plus};
use catchcrop::growth::Stage;
use catchcrop::plan::{Cause, Event, Plan, PlantingId};
use catchcrop::site::SiteYear;
use catchcrop::store;
use catchcrop::units::{Amount, Measure};
use catchcrop::work::{NoteError, close, closing, entry, forecast, note};
use proptest::prelude::*;

fn write(plan: &mut Plan, year: &SiteYear, planting: u32, on: Date, what: Event) -> Result<(), NoteError> {
    let edit = note(plan, book(), year, entry(plan, Some(PlantingId(planting)), on, what))?;
    plan.apply(&edit).expect("what the diary may say, the plan takes");
    Ok(())
}

#[test]
fn a_late_sowing_moves_what_follows_and_on_time_moves_nothing() {
    let (mut plan, year) = courtyard();
    assert!(forecast(&plan, book(), &year).is_still());
    let radish = plan.planting(PlantingId(1)).unwrap().clone();
    let sown = radish.planned.sown.unwrap();
    let mut same = plan.clone();
    write(&mut same, &year, 1, sown, Event::Done(Stage::Sown)).unwrap();
    assert_eq!(same.planting(PlantingId(1)).unwrap().planned, radish.planned);
    write(&mut plan, &year, 1, plus(sown, 9), Event::Done(Stage::Sown)).unwrap();
    let now = plan.planting(PlantingId(1)).unwrap();
    let moved = days_between(radish.planned.first_pick.unwrap(), now.planned.first_pick.unwrap());
    // Warmer weeks make up for some of the delay.
    assert!((1..9).contains(&moved), "{moved} days");
    assert!(forecast(&plan, book(), &year).is_still(), "taken up once, the dates stay");
}

#[test]
fn what_stands_too_long_pushes_the_next_to_a_garden_day() {
    let (mut plan, year) = courtyard();
    let radish = plan.planting(PlantingId(1)).unwrap().clone();
    let next = plus(radish.ends().unwrap(), 1);
    let bean = put(&mut plan, &year, ("bean", "box-1"), block(0, 1, 1, 1), &next.to_string());
    let mut there = plan.planting(bean).unwrap().clone();
    there.block = radish.block;
    plan.apply(&catchcrop::plan::Edit::Planting(bean, Some(Box::new(there)))).unwrap();
    write(&mut plan, &year, 1, plus(radish.planned.sown.unwrap(), 16), Event::Done(Stage::Sown)).unwrap();
    let seen = forecast(&plan, book(), &year);
    assert_eq!(seen.conflicts, Vec::<String>::new());
    assert!(seen.moved.iter().any(|m| m.contains("later")), "{:?}", seen.moved);
    plan.apply(&seen.edit).unwrap();
    let (a, b) = (plan.planting(PlantingId(1)).unwrap(), plan.planting(bean).unwrap());
    assert!(!a.collides(b), "{} {}", a.ends().unwrap(), b.begins().unwrap());
    assert_eq!(chrono::Datelike::weekday(&b.begins().unwrap()), plan.settings.garden_day);
    assert!(forecast(&plan, book(), &year).is_still());
    let mut fixed = plan.planting(bean).unwrap().clone();
    fixed.fixed = true;
    plan.apply(&catchcrop::plan::Edit::Planting(bean, Some(Box::new(fixed)))).unwrap();
    let cleared = plan.planting(bean).unwrap().begins().unwrap();
    write(&mut plan, &year, 1, plus(cleared, 2), Event::Done(Stage::FirstPick)).unwrap();
    let seen = forecast(&plan, book(), &year);
    assert!(seen.conflicts.iter().any(|c| c.contains("it is fixed")), "{:?}", seen.conflicts);
}

#[test]
fn the_diary_refuses_what_cannot_be_and_corrections_are_entries() {
    let (mut plan, year) = courtyard();
    let say = |plan: &mut Plan, on: &str, what| write(plan, &year, 1, day(on), what);
    say(&mut plan, "2027-04-12", Event::Done(Stage::Sown)).unwrap();
    let early = say(&mut plan, "2027-04-08", Event::Done(Stage::Emerged));
    assert!(matches!(early, Err(NoteError::Order { .. })), "{early:?}");
    assert_eq!(
        say(&mut plan, "2027-04-20", Event::Trouble("grumbles".to_owned())),
        Err(NoteError::NoTrouble("grumbles".to_owned()))
    );
    let mut right = entry(&plan, Some(PlantingId(1)), day("2027-04-10"), Event::Done(Stage::Sown));
    right.corrects = Some(plan.diary[0].id);
    let edit = note(&plan, book(), &year, right.clone()).unwrap();
    plan.apply(&edit).unwrap();
    assert_eq!(plan.planting(PlantingId(1)).unwrap().real.sown, Some(day("2027-04-10")));
    assert_eq!(plan.diary.len(), 2, "nothing is struck out");
    assert_eq!(note(&plan, book(), &year, right.clone()), Err(NoteError::Taken(right.id)));
    right.id = plan.next_entry();
    assert_eq!(note(&plan, book(), &year, right), Err(NoteError::Corrected(plan.diary[0].id)));
}

#[test]
fn a_closed_season_is_closed_once_and_what_stands_goes_on() {
    let (mut plan, year) = courtyard();
    write(&mut plan, &year, 1, day("2027-04-12"), Event::Done(Stage::Sown)).unwrap();
    let kg = |g| Event::Picked(Amount::grams(g, Measure::Us));
    write(&mut plan, &year, 1, day("2027-05-20"), kg(300.0)).unwrap();
    write(&mut plan, &year, 1, day("2027-05-24"), kg(150.0)).unwrap();
    let season = Season::holding(day("2027-06-01"), year.season_start_or_january());
    let before = plan.clone();
    let back = plan.apply(&close(&plan, season)).unwrap();
    assert_eq!(plan.closed, [2027]);
    assert_eq!(
        (&plan.wishes, &plan.plantings, &plan.diary),
        (&before.wishes, &before.plantings, &before.diary)
    );
    let once = plan.clone();
    plan.apply(&close(&plan, season)).unwrap();
    assert_eq!(plan, once, "closing twice is closing once");
    plan.apply(&back).unwrap();
    assert_eq!(plan, before, "and it can be taken back");
    let told = closing(&plan, book(), &year, season);
    assert_eq!(told.picked.len(), 1);
    assert!((told.picked[0].1.value() - 450.0).abs() < 1e-6);
    assert!(told.carried.iter().any(|c| c.starts_with("garlic")), "{told:?}");
    assert_eq!(told.days.len(), 1);
    println!("{}", told.words(Measure::Us));
}

/// A corrected entry takes everything back that it moved: its planting's dates and those of what it pushed.
#[test]
fn a_corrected_entry_moves_everything_back() {
    let (mut plan, year) = courtyard();
    let radish = plan.planting(PlantingId(1)).unwrap().clone();
    let next = plus(radish.ends().unwrap(), 1);
    let bean = put(&mut plan, &year, ("bean", "box-1"), block(0, 0, 1, 1), &next.to_string());
    plan.apply(&catchcrop::plan::Edit::Planting(PlantingId(2), None)).unwrap();
    let before = plan.clone();
    let tell = |plan: &mut Plan, on: Date, corrects: Option<u32>| {
        let mut said = entry(plan, Some(PlantingId(1)), on, Event::Done(Stage::Sown));
        said.corrects = corrects;
        let told = catchcrop::work::tell(plan, book(), &year, &said, &[]).unwrap();
        plan.apply(&told.edit).unwrap();
        said.id
    };
    let sown = radish.planned.sown.unwrap();
    let wrong = tell(&mut plan, plus(sown, 30), None);
    let moved = plan.planting(bean).unwrap();
    assert_ne!(moved.planned, before.planting(bean).unwrap().planned, "the bean is pushed");
    assert_eq!(moved.meant(), before.planting(bean).unwrap().planned);
    let mut remark = entry(&plan, Some(PlantingId(1)), plus(sown, 31), Event::Remark);
    remark.corrects = Some(wrong);
    let told = catchcrop::work::tell(&plan, book(), &year, &remark, &[]).unwrap();
    plan.apply(&told.edit).unwrap();
    assert_eq!(plan.plantings, before.plantings, "as if nothing had been said");
    // The grower's own change of plan is not taken back.
    tell(&mut plan, plus(sown, 30), None);
    let mut own = plan.planting(bean).unwrap().clone();
    own.planned.sown = own.planned.sown.map(|d| plus(d, 21));
    let chosen = own.planned.sown;
    plan.apply(&catchcrop::plan::Edit::Planting(bean, Some(Box::new(own)))).unwrap();
    plan.apply(&forecast(&plan, book(), &year).edit).unwrap();
    assert_eq!(plan.planting(bean).unwrap().planned.sown, chosen);
}

/// Of two pickings the first is corrected: the second is the first picking then.
#[test]
fn another_entry_counts_again_when_one_is_corrected() {
    let (mut plan, year) = courtyard();
    let kg = |g| Event::Picked(Amount::grams(g, Measure::Us));
    write(&mut plan, &year, 1, day("2027-04-12"), Event::Done(Stage::Sown)).unwrap();
    write(&mut plan, &year, 1, day("2027-05-20"), kg(300.0)).unwrap();
    write(&mut plan, &year, 1, day("2027-05-24"), kg(150.0)).unwrap();
    let mut right = entry(&plan, Some(PlantingId(1)), day("2027-05-25"), Event::Remark);
    right.corrects = Some(plan.diary[1].id);
    let edit = note(&plan, book(), &year, right).unwrap();
    plan.apply(&edit).unwrap();
    assert_eq!(plan.planting(PlantingId(1)).unwrap().real.first_pick, Some(day("2027-05-24")));
}

/// A closed season keeps its record: nothing is written into it and no date of it moves, until it is opened again. Wishes
/// that were for it alone go on into the next, once.
#[test]
fn a_closed_season_is_frozen_until_it_is_opened_again() {
    let (mut plan, year) = courtyard();
    write(&mut plan, &year, 1, day("2027-04-12"), Event::Done(Stage::Sown)).unwrap();
    write(&mut plan, &year, 1, day("2027-05-20"), Event::Picked(Amount::grams(300.0, Measure::Us))).unwrap();
    write(&mut plan, &year, 1, day("2027-06-01"), Event::Done(Stage::Cleared)).unwrap();
    let mut wish = plan.wishes[0].clone();
    wish.season = Some(2027);
    plan.apply(&catchcrop::plan::Edit::Wish(wish.id, Some(Box::new(wish.clone())))).unwrap();
    let season = Season::holding(day("2027-06-01"), year.season_start_or_january());
    let wishes = plan.wishes.len();
    let before = plan.clone();
    let back = plan.apply(&close(&plan, season)).unwrap();
    assert_eq!(plan.wishes.len(), wishes + 1);
    assert_eq!(plan.wishes.last().unwrap().season, Some(2028));
    let once = plan.clone();
    plan.apply(&close(&plan, season)).unwrap();
    assert_eq!(plan, once);
    let late = write(&mut plan, &year, 1, day("2027-05-24"), Event::Remark);
    assert!(matches!(late, Err(NoteError::Closed { .. })), "{late:?}");
    assert!(forecast(&plan, book(), &year).is_still());
    let mut open = plan.clone();
    open.apply(&catchcrop::work::reopen(&plan, season)).unwrap();
    write(&mut open, &year, 1, day("2027-05-24"), Event::Remark).unwrap();
    plan.apply(&back).unwrap();
    assert_eq!(plan, before, "and it can be taken back");
}

/// Seasons side by side: planned, real, picked; and this garden's yields as a crop file that the book takes.
#[test]
fn seasons_stand_side_by_side_and_yields_are_offered() {
    let (mut plan, year) = courtyard();
    let kg = |g| Event::Picked(Amount::grams(g, Measure::Us));
    let bean = plan.planting(PlantingId(2)).unwrap().clone();
    write(&mut plan, &year, 2, day("2027-06-07"), Event::Done(Stage::Sown)).unwrap();
    write(&mut plan, &year, 2, day("2027-08-05"), kg(700.0)).unwrap();
    write(&mut plan, &year, 2, day("2027-08-15"), kg(500.0)).unwrap();
    write(&mut plan, &year, 2, day("2027-08-25"), Event::Done(Stage::Cleared)).unwrap();
    let season = Season::holding(day("2027-06-01"), year.season_start_or_january());
    let all = catchcrop::work::seasons(&plan, book(), season, 3);
    let beans = all.iter().find(|c| c.crop == bean.crop).unwrap();
    assert_eq!(beans.seasons.len(), 1);
    let one = &beans.seasons[0];
    assert_eq!((one.planned_pick, one.real_pick), (bean.planned.first_pick, Some(day("2027-08-05"))));
    assert!((one.picked.unwrap().value() - 1200.0).abs() < 1e-6);
    let words = catchcrop::work::seasons_words(&all, Measure::Metric);
    assert!(words.contains("picked 1.2 kg"), "{words}");
    let (seen, plants) = catchcrop::work::own_yields(&plan, book())[&bean.crop];
    assert_eq!(plants, u32::from(bean.plants));
    assert!((seen.value() * f64::from(plants) - 1200.0).abs() < 1e-3);
    let text = catchcrop::work::yields_text(&plan, book());
    let own: catchcrop::crop::BookFile =
        store::text::read("yields.ron", &text).unwrap_or_else(|e| panic!("{e}\n{text}"));
    let mut files = store::book_files();
    files.push(("yields.ron".to_owned(), own));
    let (own, faults) = catchcrop::crop::Book::build(files);
    assert!(faults.is_empty(), "{faults:?}");
    let usual = own.get(&bean.crop).unwrap().harvest.usual;
    assert!((usual.value() - seen.value()).abs() < 1.0, "{usual} {seen}");
    let told = closing(&plan, book(), &year, season);
    assert_eq!(told.yields.len(), 1);
    let wish = told.kept.iter().find(|k| k.name.starts_with("Bean, bush")).unwrap();
    assert!(wish.picked.value() > 1000.0 && wish.share < 1.0, "{wish:?}");
}

fn any_event() -> impl Strategy<Value = Event> {
    prop_oneof![
        6 => prop::sample::select(Stage::ALL.to_vec()).prop_map(Event::Done),
        1 => prop::sample::select(Stage::ALL.to_vec()).prop_map(Event::NotDone),
        2 => Just(Event::Failed(Cause::Eaten)),
        3 => (1.0..900.0_f64).prop_map(|g| Event::Picked(Amount::grams(g, Measure::Metric))),
        1 => Just(Event::Trouble("clubroot".to_owned())),
        1 => Just(Event::Remark),
    ]
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 12, failure_persistence: None, ..ProptestConfig::default() })]

    /// Whatever is written, dates stay in order, nothing that stood free of each other collides once the forecast
    /// is taken up (or it says so), the record of the past is untouched and the file reads back equal.
    #[test]
    fn any_diary_keeps_the_plan_valid(
        notes in prop::collection::vec((1_u32..=6, 0_i64..420, any_event(), any::<bool>()), 1..24),
    ) {
        let (mut plan, year) = courtyard();
        let record = plan.record.clone();
        for (planting, after, what, corrects) in notes {
            let on = plus(day("2027-02-01"), after);
            let mut said = entry(&plan, Some(PlantingId(planting)), on, what);
            if corrects {
                said.corrects = plan.diary.last().map(|e| e.id);
            }
            let length = plan.diary.len();
            if let Ok(edit) = note(&plan, book(), &year, said) {
                plan.apply(&edit).expect("what the diary may say, the plan takes");
                prop_assert_eq!(plan.diary.len(), length + 1);
            }
            let seen = forecast(&plan, book(), &year);
            plan.apply(&seen.edit).expect("the forecast fits the plan");
            for p in &plan.plantings {
                let dates = p.dates().in_order();
                prop_assert!(dates.is_sorted(), "{} {dates:?} {:?}", p.name, p.real);
            }
            for (n, a) in plan.plantings.iter().enumerate() {
                for b in plan.plantings.iter().skip(n + 1) {
// A correction can leave dates behind that are nobody's word any more: then it is the check's business.
                    let told = !a.real.is_empty() || !b.real.is_empty();
                    prop_assert!(!told || !a.collides(b) || !seen.conflicts.is_empty(), "{} {}", a.name, b.name);
                }
            }
        }
        prop_assert_eq!(&plan.record, &record);
        let text = store::plan_text(&plan).unwrap();
        let back: Plan = store::text::read("garden.ron", &text).unwrap();
        prop_assert_eq!(back.in_order(), plan.in_order());
    }
}

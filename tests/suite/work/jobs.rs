//! Jobs and the week.

use super::{book, courtyard, day};
use catchcrop::calendar::{Week, plus};
use catchcrop::growth::Stage;
use catchcrop::plan::{Away, DiaryEntry, Edit, Event, Plan, PlantingId};
use catchcrop::site::SiteYear;
use catchcrop::work::{Job, JobKind, due, jobs, jobs_between, today, week};

fn of(plan: &Plan, year: &SiteYear, on: &str) -> Vec<Job> {
    jobs(plan, book(), year, Week::of(day(on)))
}

fn find(jobs: &[Job], kind: JobKind) -> &Job {
    jobs.iter().find(|j| j.kind == kind).unwrap_or_else(|| {
        panic!("no job to {}: {:?}", kind.word(), jobs.iter().map(|j| &j.what).collect::<Vec<_>>())
    })
}

fn note(plan: &mut Plan, planting: Option<PlantingId>, on: &str, what: Event) {
    let id = plan.next_entry();
    let place = planting.and_then(|p| plan.planting(p)).map(|p| p.place.clone());
    let entry = DiaryEntry { id, on: day(on), planting, place, what, words: String::new(), corrects: None };
    let edit = plan.noting(entry);
    plan.apply(&edit).unwrap();
}

#[test]
fn a_sowing_says_seeds_distance_and_depth() {
    let (plan, year) = courtyard();
    let jobs = of(&plan, &year, "2027-04-10");
    let sow = find(&jobs, JobKind::Sow);
    assert_eq!(sow.what, "Sow radish");
    assert_eq!(sow.where_words, "Long box, A1");
    assert!(
        sow.amount.contains(" seeds, ")
            && sow.amount.contains(" in apart, ")
            && sow.amount.ends_with("in deep"),
        "{}",
        sow.amount
    );
    assert_eq!((sow.from, sow.best), (day("2027-04-10"), day("2027-04-10")));
    assert_eq!(sow.to, day("2027-04-17"));
    assert!(sow.why.starts_with("first picking about"), "{}", sow.why);
}

#[test]
fn raised_plants_are_started_potted_on_hardened_and_set_out_in_order() {
    let (plan, year) = courtyard();
    let all = jobs_between(&plan, book(), &year, Week::of(day("2027-01-01")), Week::of(day("2027-06-30")));
    let tomato = PlantingId(4);
    let when =
        |kind| all.iter().find(|j| j.kind == kind && j.planting == Some(tomato)).map(|j| j.best).unwrap();
    let kinds = [JobKind::StartIndoors, JobKind::PotOn, JobKind::HardenOff, JobKind::SetOut];
    let days = kinds.map(when);
    assert!(days.is_sorted(), "{days:?}");
    assert!((42..=63).contains(&(days[3] - days[0]).num_days()), "six to nine weeks indoors: {days:?}");
    assert!(
        (7..=14).contains(&(days[3] - days[2]).num_days()),
        "one to two weeks of hardening off: {days:?}"
    );
    let ties = all.iter().filter(|j| j.kind == JobKind::Tie && j.planting == Some(tomato)).count();
    assert!((5..=7).contains(&ties), "tied weekly until the end of June: {ties}");
}

#[test]
fn each_job_is_in_one_week_only_and_ids_are_unique() {
    let (plan, year) = courtyard();
    let (first, last) = (Week::of(day("2026-11-01")), Week::of(day("2028-08-31")));
    let all = jobs_between(&plan, book(), &year, first, last);
    let mut ids: Vec<&str> = all.iter().map(|j| j.id.as_str()).collect();
    ids.sort_unstable();
    let count = ids.len();
    ids.dedup();
    assert_eq!(ids.len(), count, "ids are unique");
    let mut one_by_one = Vec::new();
    for n in 0..=first.until(last) {
        one_by_one.extend(jobs(&plan, book(), &year, first.plus(n)));
    }
    assert_eq!(one_by_one.len(), all.len());
    for job in &all {
        assert!(job.from <= job.best && job.best <= job.to, "{job:?}");
        assert!(job.minutes > 0 && !job.what.is_empty() && !job.why.is_empty(), "{job:?}");
    }
}

#[test]
fn clearing_hands_the_cell_over() {
    let (mut plan, year) = courtyard();
    let radish = plan.planting(PlantingId(1)).unwrap().clone();
    let cleared = radish.ends().unwrap();
    let mut bean = plan.planting(PlantingId(2)).unwrap().clone();
    bean.planned.sown = Some(plus(cleared, 3));
    plan.apply(&Edit::Planting(bean.id, Some(Box::new(bean)))).unwrap();
    let jobs = jobs(&plan, book(), &year, Week::of(cleared));
    let clear = find(&jobs, JobKind::Clear);
    assert!(
        clear.why.starts_with("then sow bush bean on") || clear.why.starts_with("then sow bean"),
        "{}",
        clear.why
    );
    assert_eq!(clear.to, plus(cleared, 3), "cleared before the next is sown");
}

#[test]
fn what_is_done_is_left_out_and_what_is_late_comes_first() {
    let (mut plan, year) = courtyard();
    let on = day("2027-04-24");
    let before = due(&plan, book(), &year, on);
    assert!(before[0].late, "the sowing of 10 April is a week over its window: {before:#?}");
    let late: Vec<&str> = before.iter().filter(|j| j.late).map(|j| j.what.as_str()).collect();
    assert!(late.contains(&"Sow radish"), "{late:?}");
    let sow = before.iter().find(|j| j.what == "Sow radish").unwrap();
    assert!(sow.why.contains("late: first picking (") && sow.why.contains("moves by as much"), "{}", sow.why);
    note(&mut plan, Some(PlantingId(1)), "2027-04-11", Event::Done(Stage::Sown));
    let after = due(&plan, book(), &year, on);
    assert!(after.iter().all(|j| j.what != "Sow radish"));
}

#[test]
fn a_job_put_off_comes_in_the_next_week() {
    let (mut plan, year) = courtyard();
    note(&mut plan, Some(PlantingId(1)), "2027-04-10", Event::NotDone(Stage::Sown));
    assert!(of(&plan, &year, "2027-04-10").iter().all(|j| j.kind != JobKind::Sow));
    let next = of(&plan, &year, "2027-04-17");
    let sow = next.iter().find(|j| j.what == "Sow radish").unwrap();
    assert_eq!(sow.best, day("2027-04-17"));
    assert!(sow.why.contains("put off"));
}

#[test]
fn a_job_without_a_stage_is_done_by_its_word() {
    let (mut plan, year) = courtyard();
    let season = (Week::of(day("2027-04-01")), Week::of(day("2027-07-31")));
    let thin = |plan: &Plan| {
        jobs_between(plan, book(), &year, season.0, season.1)
            .into_iter()
            .find(|j| j.kind == JobKind::Thin && j.planting == Some(PlantingId(3)))
    };
    let job = thin(&plan).expect("carrots are thinned");
    let best = job.best.to_string();
    note(&mut plan, Some(PlantingId(3)), &best, Event::Job(JobKind::Thin.word().to_owned()));
    assert_eq!(thin(&plan), None);
}

#[test]
fn nobody_is_asked_to_work_while_away() {
    let (mut plan, year) = courtyard();
    let mut settings = plan.settings.clone();
    settings.away = vec![Away { from: day("2027-04-08"), to: day("2027-04-12") }];
    plan.apply(&Edit::Settings(Box::new(settings.clone()))).unwrap();
    let moved = of(&plan, &year, "2027-04-13");
    let sow = moved.iter().find(|j| j.what == "Sow radish").unwrap();
    assert_eq!((sow.best, sow.away), (day("2027-04-13"), false));
    settings.away[0].to = day("2027-05-01");
    plan.apply(&Edit::Settings(Box::new(settings))).unwrap();
    let all = of(&plan, &year, "2027-04-10");
    let sow = all.iter().find(|j| j.what == "Sow radish").unwrap();
    assert!(sow.away && sow.why.contains("you are away"), "{sow:?}");
}

#[test]
fn tender_plants_are_covered_only_while_frost_is_about() {
    let (mut plan, year) = courtyard();
    super::put(&mut plan, &year, ("tomato", "box-2"), super::block(2, 0, 2, 2), "2027-03-27");
    let all = jobs_between(&plan, book(), &year, Week::of(day("2027-03-01")), Week::of(day("2027-12-31")));
    let covers: Vec<_> = all.iter().filter(|j| j.kind == JobKind::Cover).collect();
    assert!(covers.iter().all(|j| j.best < day("2027-05-20") || j.best > day("2027-09-15")), "{covers:#?}");
    assert!(
        covers.iter().any(|j| j.best < day("2027-04-10")),
        "spring frosts come over tomatoes set out in March"
    );
}

#[test]
fn the_week_reads_well_in_eighty_columns_and_as_json() {
    let (plan, year) = courtyard();
    let report = week(&plan, book(), &year, Week::of(day("2027-05-15")));
    let text = report.words();
    println!("{text}");
    assert!(text.lines().all(|l| l.chars().count() <= 80), "{text}");
    assert!(text.contains("Set out tomato"), "{text}");
    let json = serde_json::to_value(&report).unwrap();
    for field in ["week", "cells", "jobs", "light_hours", "soil_temperature", "frost_chance"] {
        assert!(json.get(field).is_some(), "{field}");
    }
    for field in ["what", "where", "amount", "from", "to", "minutes", "why"] {
        assert!(json["jobs"][0].get(field).is_some(), "{field}");
    }
    assert_eq!(json["cells"][2]["stage"], "set out");
    let late = today(&plan, book(), &year, day("2027-05-19"));
    println!("{}", late.words());
    assert!(late.jobs[0].late);
}

/// Cover crops want four weeks of growth before the hard frost of 28 F (trade articles); their job says so and its window
/// ends there.
#[test]
fn a_cover_crop_is_sown_in_time_for_the_hard_frost() {
    let (mut plan, year) = courtyard();
    let id = super::put(&mut plan, &year, ("winter-rye", "box-3"), super::block(2, 4, 1, 2), "2027-09-25");
    let mut rye = plan.planting(id).unwrap().clone();
    rye.why = catchcrop::plan::Why::Cover;
    rye.planned.cleared = Some(day("2028-04-15"));
    plan.apply(&Edit::Planting(id, Some(Box::new(rye)))).unwrap();
    let jobs = of(&plan, &year, "2027-09-25");
    let sow = find(&jobs, JobKind::CoverCrop);
    assert_eq!(sow.planting, Some(id));
    assert!(sow.why.contains("4 weeks before the hard frost (about "), "{}", sow.why);
    let frost = year.frost_plain(-2.2).first.five_in_10.unwrap().on_or_after(day("2027-09-25"));
    assert!(sow.to <= plus(frost, -28).max(sow.from) && sow.to <= plus(sow.from, 14), "{sow:?}");
}

/// Pods and ears are left to dry for seed on the last planting of a crop, before it is cleared (common practice).
#[test]
fn seed_is_saved_of_the_last_beans() {
    let (mut plan, year) = courtyard();
    let late = super::put(&mut plan, &year, ("bean", "box-1"), super::block(3, 0, 1, 1), "2027-07-10");
    let all = jobs_between(&plan, book(), &year, Week::of(day("2027-07-01")), Week::of(day("2027-12-31")));
    let saved: Vec<&Job> = all.iter().filter(|j| j.kind == JobKind::SaveSeed).collect();
    assert_eq!(saved.len(), 1, "of the last sowing only: {saved:#?}");
    assert_eq!(saved[0].planting, Some(late));
    assert!(saved[0].to <= plan.planting(late).unwrap().ends().unwrap());
    assert!(saved[0].why.contains("F1"), "{}", saved[0].why);
    note(&mut plan, Some(late), &saved[0].best.to_string(), Event::Job("save seed".to_owned()));
    let again = jobs_between(&plan, book(), &year, Week::of(day("2027-07-01")), Week::of(day("2027-12-31")));
    assert!(again.iter().all(|j| j.kind != JobKind::SaveSeed));
}

/// What is one act of the grower is one job: like sowings of one day in one bed, with the seeds of all.
#[test]
fn like_sowings_of_a_bed_are_one_job() {
    let (mut plan, year) = courtyard();
    // What comes after them is part of the act: the bean that follows goes.
    plan.apply(&Edit::Planting(PlantingId(2), None)).unwrap();
    let one = of(&plan, &year, "2027-04-10");
    let seeds = |jobs: &[Job]| -> u32 {
        let sow = jobs.iter().find(|j| j.what == "Sow radish").unwrap();
        sow.amount.split(' ').next().unwrap().parse().unwrap()
    };
    let other = super::put(&mut plan, &year, ("radish", "box-1"), super::block(0, 3, 1, 1), "2027-04-10");
    let two = of(&plan, &year, "2027-04-10");
    assert_eq!(two.len(), one.len());
    let sow = two.iter().find(|j| j.what == "Sow radish").unwrap();
    assert_eq!(sow.plantings, [PlantingId(1), other]);
    assert_eq!(sow.where_words, "Long box, A1, D1");
    assert_eq!(seeds(&two), 2 * seeds(&one));
    // One word in the diary does for both; a picking is shared out by plants.
    let said =
        catchcrop::work::entry(&plan, Some(PlantingId(1)), day("2027-04-11"), Event::Done(Stage::Sown));
    let told = catchcrop::work::tell(&plan, book(), &year, &said, &sow.plantings).unwrap();
    plan.apply(&told.edit).unwrap();
    for id in [PlantingId(1), other] {
        assert_eq!(plan.planting(id).unwrap().real.sown, Some(day("2027-04-11")));
    }
    let amount = catchcrop::units::Amount::grams(100.0, catchcrop::units::Measure::Metric);
    let said = catchcrop::work::entry(&plan, Some(other), day("2027-05-20"), Event::Picked(amount));
    let told = catchcrop::work::tell(&plan, book(), &year, &said, &[PlantingId(1), other]).unwrap();
    plan.apply(&told.edit).unwrap();
    let picked: f64 = plan
        .diary
        .iter()
        .filter_map(|e| if let Event::Picked(a) = e.what { Some(a.value()) } else { None })
        .sum();
    assert!((picked - 100.0).abs() < 0.01, "{picked}");
}

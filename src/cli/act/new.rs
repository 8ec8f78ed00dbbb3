//! `new`: a garden from flags or from answers.

use crate::calendar::Date;
use crate::cli::answer::{Answer, Trouble};
use crate::cli::args::New;
use crate::cli::ask::{self, Answers};
use crate::cli::here::Here;
use crate::cli::layout::{Sizes, lay_out};
use crate::cli::whence::{self, climate};
use crate::plan::{Edit, Plan, Settings};
use crate::store::{Over, PlanFile};
use crate::units::Measure;
use std::io::{BufRead, Write};

/// Makes a garden and saves it.
pub(super) fn make(args: &New, here: &Here) -> Result<Answer, Trouble> {
    // Refuse before asking: nobody likes to answer questions for nothing.
    let mut file = PlanFile::create(&args.path)?;
    let told = args.whence.site.is_some() || args.whence.lat.is_some();
    let (plan, said) = if !told && here.keyboard && here.screen {
        let mut said = Vec::new();
        let book = whence::book(None, here, &mut said);
        let name = stem(args);
        let on = args.on.unwrap_or(here.today);
        let (mut input, mut output) = (std::io::stdin().lock(), anstream::stdout().lock());
        (questions(&mut input, &mut output, &name, on, &book)?, said)
    } else {
        from_flags(args, here)?
    };
    file.save(&plan, Over::Never)?;
    let path = args.path.display();
    Ok(Answer::text(format!(
        "{} is in {path}: {} at {}.\nNext: 'catchcrop {path}' opens it, 'catchcrop check {path}' looks it over.\n",
        plan.name,
        places_words(&plan),
        plan.site.name
    ))
    .saying(said))
}

fn questions(
    input: &mut impl BufRead,
    output: &mut impl Write,
    name: &str,
    on: Date,
    book: &crate::crop::Book,
) -> Result<Plan, Trouble> {
    let answers: Answers = ask::ask(input, output, name, on, book)?;
    answers.plan(on)
}

fn stem(args: &New) -> String {
    args.name.clone().unwrap_or_else(|| {
        let stem =
            args.path.file_stem().map(|s| s.to_string_lossy().replace(['-', '_'], " ")).unwrap_or_default();
        let mut letters = stem.chars();
        letters.next().map_or_else(String::new, |c| format!("{}{}", c.to_uppercase(), letters.as_str()))
    })
}

fn from_flags(args: &New, here: &Here) -> Result<(Plan, Vec<String>), Trouble> {
    let climate = climate(&args.whence, here)?;
    let measure: Measure = climate.measure;
    let mut settings = Settings::for_measure(measure);
    settings.risk = climate.risk;
    settings.hours_a_week = args.hours.map(hours).transpose()?;
    let mut plan = Plan::new(&stem(args), climate.spec, settings);
    let sizes = Sizes {
        boxes: args.boxes.clone(),
        beds: args.beds.clone(),
        flower_beds: args.flower_beds.clone(),
        pots: args.pots.clone(),
    };
    for place in lay_out(&sizes, measure, args.on.unwrap_or(here.today), args.fresh) {
        plan.apply(&Edit::Place(place.id.clone(), Some(Box::new(place))))?;
    }
    Ok((plan, climate.said))
}

fn hours(hours: f32) -> Result<f32, Trouble> {
    if (0.1..=168.0).contains(&hours) {
        Ok(hours)
    } else {
        Err(Trouble::Wrong(format!("{hours} hours a week: give a number between 0.1 and 168")))
    }
}

fn places_words(plan: &Plan) -> String {
    let pots = plan.places.iter().filter(|p| p.is_pot()).count();
    let beds = plan.places.len() - pots;
    let many = |n: usize, one: &str| if n == 1 { format!("1 {one}") } else { format!("{n} {one}s") };
    match (beds, pots) {
        (0, 0) => String::from("no beds yet"),
        (_, 0) => many(beds, "bed"),
        (0, _) => many(pots, "pot"),
        _ => format!("{} and {}", many(beds, "bed"), many(pots, "pot")),
    }
}

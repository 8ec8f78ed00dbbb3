//! `new`: a garden from flags or from answers.

use crate::app::{lay_out, pot_of, usual_depth};
use crate::cli::answer::{Answer, Trouble};
use crate::cli::args::New;
use crate::cli::ask;
use crate::cli::here::Here;
use crate::cli::measures::Outline;
use crate::cli::whence::{self, climate};
use crate::garden::{Kind, Shape};
use crate::plan::{Edit, Plan, Settings};
use crate::store::{Over, PlanFile};
use crate::units::Measure;

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
        (ask::ask(&mut input, &mut output, &name, on, &book)?, said)
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
    let mut shapes: Vec<(Kind, Shape)> = Vec::new();
    for (kind, list) in
        [(Kind::Box, &args.boxes), (Kind::OpenBed, &args.beds), (Kind::FlowerBed, &args.flower_beds)]
    {
        let shape = |o: &Outline| Shape::Rect {
            across: o.across,
            down: o.down,
            depth: o.depth.unwrap_or_else(|| usual_depth(kind, measure)),
        };
        shapes.extend(list.iter().map(|o| (kind, shape(o))));
    }
    shapes.extend(args.pots.iter().map(|volume| (Kind::Pot, pot_of(*volume, None, measure))));
    for place in lay_out(&shapes, measure, args.on.unwrap_or(here.today), |_| args.fresh) {
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

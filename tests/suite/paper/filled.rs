//! The sheets of an example garden after a fill: the plans that really come out of the program.

use std::collections::BTreeSet;

use catchcrop::calendar::{Week, read_date};
use catchcrop::fill::{self, Effort, Request};
use catchcrop::paper::{Extra, Imprint, Orientation, Paper, Sheet, Source, pages};
use catchcrop::plan::Plan;
use catchcrop::site::SiteYear;
use catchcrop::store;

use super::{demo, geometry};

#[test]
fn a_filled_garden_on_paper() {
    let path = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("plans/balcony.ron");
    let text = std::fs::read_to_string(path).unwrap();
    let mut plan: Plan = store::text::read("balcony.ron", &text).unwrap();
    let year = SiteYear::new(&plan.site).unwrap();
    let from = read_date("2027-01-04").unwrap();
    let edit = {
        let built = fill::build(&plan, store::book(), &year, Request::from(from));
        let outcome = fill::search(&built.problem, &Effort::Quick, 1, &mut |_| {});
        built.proposal(&outcome).edit()
    };
    plan.apply(&edit).unwrap();
    assert!(plan.plantings.len() > 12, "{} plantings", plan.plantings.len());
    let season = plan.season(from, year.season_start_or_january());
    let source = Source { plan: &plan, book: store::book(), year: &year, season };
    let shown: BTreeSet<_> = source.timeline().each_bar().map(|b| b.name.clone()).collect();
    for p in plan.plantings.iter().filter(|p| p.begins().is_some_and(|b| b <= season.last())) {
        assert!(shown.contains(&p.name), "{} is on the timeline", p.name);
    }
    let ways = [None, Some(Orientation::Portrait), Some(Orientation::Landscape)];
    for (paper, lies) in [Paper::A4, Paper::Letter].into_iter().flat_map(|p| ways.map(|w| (p, w))) {
        let imprint = Imprint { lies, ..source.imprint(paper, from) };
        let extra = Extra::of(Week::of(read_date("2027-06-24").unwrap()));
        for sheet in Sheet::ALL {
            let pages = pages(&source.leaves(&[sheet], extra), &imprint);
            geometry::sound(&pages);
            demo::keep(&pages, &format!("filled-{sheet}"));
        }
    }
}

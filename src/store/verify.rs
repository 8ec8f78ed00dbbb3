//! What is wrong with a plan that its types allow: names that lead nowhere, cells outside, dates out of order.
//!
//! An error is only what the program itself would refuse as an edit, so that whatever it saves can be opened again.

use super::fault::{Fault, Said, Source, Weight, path_text};
use super::near::nearest;
use super::tree::{Step, Tree};
use crate::calendar::day_text;
use crate::crop::{Book, CropId};
use crate::garden::PlaceId;
use crate::growth::{Dates, Stage};
use crate::plan::{Edit, EditError, Plan, Why};
use crate::site::{SiteError, SiteYear};
use chrono::Datelike;
use std::collections::BTreeSet;

struct Judge<'a> {
    source: &'a Source<'a>,
    /// None where the text is of an older schema, whose paths are others.
    tree: Option<&'a Tree<'a>>,
    plan: &'a Plan,
    book: &'a Book,
    faults: Vec<Fault>,
}

/// Everything wrong with a plan read from a text: errors and remarks.
pub(super) fn verify(source: &Source<'_>, tree: Option<&Tree<'_>>, plan: &Plan, book: &Book) -> Vec<Fault> {
    let mut judge = Judge { source, tree, plan, book, faults: Vec::new() };
    judge.site();
    judge.ids();
    judge.edits();
    judge.plantings();
    judge.wishes();
    judge.rest();
    judge.faults
}

/// The field an edit was refused for.
fn at(item: &[Step], error: &EditError) -> Vec<Step> {
    let field = match error {
        EditError::Outside { .. } => Some("block"),
        EditError::NoPlace { .. } => Some("place"),
        EditError::Dates { .. } => Some("planned"),
        EditError::Figure { field, .. } => Some(*field),
        EditError::InUse { .. } => None,
    };
    item.iter().cloned().chain(field.map(key)).collect()
}

fn key(name: &str) -> Step {
    Step::Key(name.to_owned())
}

impl Judge<'_> {
    fn say(&mut self, weight: Weight, path: &[Step], said: Said) {
        let fault = match self.tree {
            Some(tree) => Fault::on(weight, self.source, tree, path, said),
            None => Fault::whole(
                weight,
                self.source.file,
                &format!("{}: {}", path_text(path), said.words),
                said.help,
            ),
        };
        self.faults.push(fault);
    }

    fn site(&mut self) {
        if let Err(error) = SiteYear::new(&self.plan.site) {
            let field = match error {
                SiteError::Latitude(_) => Some("lat"),
                SiteError::Longitude(_) => Some("lon"),
                SiteError::UnknownPreset { .. } => Some("preset"),
                SiteError::WrongHalf { which: "last", .. } => Some("last_frost"),
                SiteError::WrongHalf { .. } => Some("first_frost"),
                SiteError::Normal { .. } => Some("normals"),
                SiteError::Obstacle { .. } => Some("obstacles"),
                SiteError::NoClimate(_) | SiteError::Figure { .. } => None,
            };
            let path: Vec<Step> = std::iter::once("site").chain(field).map(key).collect();
            self.say(Weight::Error, &path, Said::new(error.to_string()));
        }
    }

    /// Every number and id once.
    fn ids(&mut self) {
        let plan = self.plan;
        let places = plan.places.iter().map(|p| p.id.to_string()).collect();
        let wishes = plan.wishes.iter().map(|w| w.id.0.to_string()).collect();
        let plantings = plan.plantings.iter().map(|p| p.id.0.to_string()).collect();
        let entries = plan.diary.iter().map(|e| e.id.to_string()).collect();
        for (list, ids) in
            [("places", places), ("wishes", wishes), ("plantings", plantings), ("diary", entries)]
        {
            let ids: Vec<String> = ids;
            let mut seen = BTreeSet::new();
            for (n, id) in ids.iter().enumerate() {
                if !seen.insert(id) {
                    let said = Said::new(format!("the id {id} is taken already"))
                        .help("every entry of a list has an id of its own");
                    self.say(Weight::Error, &[key(list), Step::Item(n), key("id")], said);
                }
            }
        }
    }

    /// What the plan would refuse as an edit: each part is put into an otherwise empty garden.
    fn edits(&mut self) {
        let mut trial = Plan::new(&self.plan.name, self.plan.site.clone(), self.plan.settings.clone());
        if let Err(error) = trial.apply(&Edit::Settings(Box::new(self.plan.settings.clone()))) {
            self.say(Weight::Error, &at(&[key("settings")], &error), Said::new(error.to_string()));
        }
        for (n, place) in self.plan.places.iter().enumerate() {
            let edit = Edit::Place(place.id.clone(), Some(Box::new(place.clone())));
            if let Err(error) = trial.apply(&edit) {
                let path = at(&[key("places"), Step::Item(n)], &error);
                self.say(Weight::Error, &path, Said::new(error.to_string()));
            }
        }
        for (n, wish) in self.plan.wishes.iter().enumerate() {
            if let Err(error) = trial.apply(&Edit::Wish(wish.id, Some(Box::new(wish.clone())))) {
                let path = at(&[key("wishes"), Step::Item(n)], &error);
                self.say(Weight::Error, &path, Said::new(error.to_string()));
            }
        }
        for (n, planting) in self.plan.plantings.iter().enumerate() {
            let Some(_) = self.plan.place(&planting.place) else {
                let said = self.no_place(&planting.place);
                self.say(Weight::Error, &[key("plantings"), Step::Item(n), key("place")], said);
                continue;
            };
            if let Err(error) = trial.apply(&Edit::Planting(planting.id, Some(Box::new(planting.clone())))) {
                let path = at(&[key("plantings"), Step::Item(n)], &error);
                self.say(Weight::Error, &path, Said::new(error.to_string()));
            }
        }
    }

    fn no_place(&self, id: &PlaceId) -> Said {
        let near = nearest(&id.0, self.plan.places.iter().map(|p| p.id.0.as_str()));
        let help = near.map_or_else(
            || {
                let ids: Vec<&str> = self.plan.places.iter().map(|p| p.id.0.as_str()).collect();
                if ids.is_empty() {
                    String::from("this garden has no beds and pots yet")
                } else {
                    format!("places here: {}", ids.join(", "))
                }
            },
            |near| format!("did you mean '{near}'?"),
        );
        Said::new(format!("there is no place '{id}' in this garden")).help(help)
    }

    fn crop(&mut self, id: &CropId, path: &[Step]) {
        match self.book.get(id) {
            Some(crop) if crop.id != *id => {
                let said = Said::new(format!("'{id}' is called '{}' in the crop book now", crop.id));
                self.say(Weight::Remark, path, said);
            }
            Some(_) => {}
            None => {
                let near = nearest(id.as_str(), self.book.crops().map(|c| c.id.as_str()));
                let said =
                    Said::new(format!("unknown crop '{id}': it stays where it is, without dates or advice"))
                        .help(near.map_or_else(
                            || String::from("'catchcrop book' lists the crops"),
                            |near| format!("did you mean '{near}'?"),
                        ));
                self.say(Weight::Remark, path, said);
            }
        }
    }

    fn plantings(&mut self) {
        let plan = self.plan;
        for (n, planting) in plan.plantings.iter().enumerate() {
            let at = |field: &str| [key("plantings"), Step::Item(n), key(field)];
            self.crop(&planting.crop, &at("crop"));
            for (dates, field) in [(&planting.planned, "planned"), (&planting.real, "real")] {
                if let Some(words) = disorder(dates) {
                    self.say(Weight::Remark, &at(field), Said::new(words));
                }
            }
            if let Why::Wish(wish) = planting.why
                && plan.wish(wish).is_none()
            {
                let said = Said::new(format!("there is no wish {}", wish.0)).help("it counts for no wish");
                self.say(Weight::Remark, &at("why"), said);
            }
        }
    }

    fn wishes(&mut self) {
        let plan = self.plan;
        for (n, wish) in plan.wishes.iter().enumerate() {
            let at = |field: &str| [key("wishes"), Step::Item(n), key(field)];
            self.crop(&wish.crop, &at("crop"));
            for (i, place) in wish.places.iter().enumerate() {
                if plan.place(place).is_none() {
                    let said = self.no_place(place);
                    let [list, item, field] = at("places");
                    self.say(Weight::Remark, &[list, item, field, Step::Item(i)], said);
                }
            }
        }
    }

    fn rest(&mut self) {
        let plan = self.plan;
        for (n, past) in plan.record.iter().enumerate() {
            if plan.place(&past.place).is_none() {
                let said = self.no_place(&past.place);
                self.say(Weight::Remark, &[key("record"), Step::Item(n), key("place")], said);
            }
            if past.to < past.from {
                let said = Said::new("its last day lies before its first").help("exchange 'from' and 'to'");
                self.say(Weight::Remark, &[key("record"), Step::Item(n), key("to")], said);
            }
        }
        for (n, entry) in plan.diary.iter().enumerate() {
            if let Some(place) = entry.place.as_ref().filter(|p| plan.place(p).is_none()) {
                let said = self.no_place(place);
                self.say(Weight::Remark, &[key("diary"), Step::Item(n), key("place")], said);
            }
        }
        for (n, packet) in plan.drawer.iter().enumerate() {
            self.crop(&packet.crop, &[key("drawer"), Step::Item(n), key("crop")]);
        }
    }
}

/// Two stages in the wrong order, in words.
fn disorder(dates: &Dates) -> Option<String> {
    let all = [
        (Stage::Sown, dates.sown),
        (Stage::Emerged, dates.emerged),
        (Stage::Potted, dates.potted),
        (Stage::Hardened, dates.hardened),
        (Stage::SetOut, dates.set_out),
        (Stage::FirstPick, dates.first_pick),
        (Stage::LastPick, dates.last_pick),
        (Stage::Cleared, dates.cleared),
    ];
    let known: Vec<_> = all.into_iter().filter_map(|(s, d)| d.map(|d| (s, d))).collect();
    known.windows(2).find(|pair| pair[1].1 < pair[0].1).map(|pair| {
        let ((first, a), (second, b)) = (pair[0], pair[1]);
        format!(
            "'{}' ({} {}) comes before '{}' ({} {})",
            second.word(),
            day_text(b),
            b.year(),
            first.word(),
            day_text(a),
            a.year()
        )
    })
}

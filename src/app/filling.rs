//! Filling: the run that is on, and the proposal until it is accepted or dropped.

use super::message::Effect;
use super::model::{Model, Tone};
use super::update::commit;
use crate::calendar::{Date, Week};
use crate::crop::Book;
use crate::fill::{Effort, Progress, Proposal, Request, Stage};
use crate::garden::PlaceId;
use crate::plan::{Plan, PlantingId, WishId};
use crate::site::SiteYear;
use crate::units::num::real_i;
use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

/// Numbers a run of the fill; reports of any other are ignored.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct RunId(pub u64);

/// How the garden is filled.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum FillWay {
    /// With so much effort.
    With(Effort),
    /// Again, from another seed.
    Another,
    /// From today on, keeping what can be kept.
    Replan,
}

/// Everything a run of the fill is given.
#[derive(Debug, Clone, PartialEq)]
pub struct Task {
    /// The garden.
    pub plan: Plan,
    /// The crop book.
    pub book: Arc<Book>,
    /// The site's year.
    pub year: Arc<SiteYear>,
    /// From when on, and what is kept.
    pub request: Request,
    /// How much is put into it.
    pub effort: Effort,
    /// Its seed.
    pub seed: u64,
}

/// What a run has reached, and how long it took.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Gauge {
    /// What the best plan so far is worth, in points: a wish of importance 3 that is met in full brings 300.
    pub points: i64,
    /// No plan can be worth more points than these; none before that is first proved.
    pub bound: Option<i64>,
    /// Seconds since it began.
    pub seconds: u64,
}

/// A run that is on.
#[derive(Debug, Clone, PartialEq)]
pub struct Run {
    /// Its number.
    pub id: RunId,
    /// How far it has come.
    pub progress: Option<Progress>,
    /// What it has reached.
    pub gauge: Gauge,
    /// Whether it was told to stop.
    pub stopping: bool,
    /// The garden it was given: a garden that has changed since can't take its proposal.
    plan: Plan,
}

impl Run {
    /// How far it has come, in words.
    pub fn words(&self) -> String {
        let Some(progress) = self.progress else { return String::from("Filling: putting the question") };
        let share = progress.done.saturating_mul(100).checked_div(progress.all).unwrap_or(0);
        let doing = match progress.stage {
            Stage::Bound => String::from("proving what is possible"),
            Stage::Start => String::from("a first plan"),
            Stage::Improve => format!("{} % tried", share.min(99)),
            Stage::Idle => String::from("the gaps"),
        };
        let whole: i64 = self.plan.wishes.iter().map(|w| 100 * i64::from(w.importance)).sum();
        let Gauge { points, bound, seconds } = self.gauge;
        let most = bound.map_or_else(String::new, |bound| {
            let more = real_i((bound - points).max(0)) * 100.0;
            let gap =
                if points > 0 { format!(" ({:.1} % more)", more / real_i(points)) } else { String::new() };
            format!(", at most {bound}{gap}")
        });
        format!("Filling: {doing}, {points} of {whole} points{most}, {seconds} s")
    }
}

/// A proposal that is shown as if it were accepted.
#[derive(Debug, Clone, PartialEq)]
pub struct Offer {
    /// The proposal.
    pub proposal: Proposal,
    /// The garden with it.
    pub plan: Plan,
    /// What is only proposed.
    pub ghosts: BTreeSet<PlantingId>,
}

impl Offer {
    /// In a sentence: what is met, how much lies idle.
    pub fn words(&self) -> String {
        let n = self.ghosts.len();
        let (share, idle) = (self.proposal.share * 100.0, self.proposal.idle_share() * 100.0);
        let more = if self.proposal.value > 0.0 {
            (self.proposal.bound / self.proposal.value - 1.0).max(0.0) * 100.0
        } else {
            0.0
        };
        let best =
            if more < 0.05 { String::from("none is better") } else { format!("at best {more:.1} % more") };
        let what = if n == 1 { "1 planting".to_owned() } else { format!("{n} plantings") };
        format!("Proposed: {what}, {share:.0} % of the wishes met, {idle:.0} % idle; {best}")
    }
}

/// Starts a run; the one before is stopped.
pub(super) fn start(model: &mut Model, way: FillWay) -> Vec<Effect> {
    let Ok(year) = model.year.clone() else { return Vec::new() };
    drop_offer(model);
    let (effort, request) = match way {
        FillWay::With(effort) => (effort, Request::from(begin(model))),
        FillWay::Another => {
            model.seed += 1;
            (Effort::Usual, Request::from(begin(model)))
        }
        FillWay::Replan => (Effort::Usual, Request::again(model.today)),
    };
    let task = Task {
        plan: model.plan.clone(),
        book: Arc::clone(&model.book),
        year,
        request,
        effort,
        seed: model.seed,
    };
    model.runs += 1;
    let id = RunId(model.runs);
    model.run =
        Some(Run { id, progress: None, gauge: Gauge::default(), stopping: false, plan: model.plan.clone() });
    vec![Effect::StartFill(id, Box::new(task))]
}

/// The day from which the season shown is filled: its first, or today where that is past.
fn begin(model: &Model) -> Date {
    let season = model.season();
    if season.last() < model.today { model.today } else { season.first().max(model.today) }
}

/// Ends the run early; what it has found so far is proposed.
pub(super) fn stop(model: &mut Model) -> Vec<Effect> {
    if let Some(run) = &mut model.run {
        run.stopping = true;
    }
    vec![Effect::StopFill]
}

/// A report of a run.
pub(super) fn progressed(model: &mut Model, id: RunId, progress: Progress, gauge: Gauge) {
    if let Some(run) = model.run.as_mut().filter(|r| r.id == id) {
        (run.progress, run.gauge) = (Some(progress), gauge);
    }
}

/// A run has ended well.
pub(super) fn filled(model: &mut Model, id: RunId, proposal: Proposal) {
    let Some(run) = model.run.take_if(|r| r.id == id) else { return };
    if run.plan != model.plan {
        model.say(
            Tone::Mind,
            "The garden has changed since the fill began, so its proposal was dropped: fill again.",
        );
        return;
    }
    model.reasons = proposal.wishes.iter().map(|w| (w.wish, w.reasons.clone())).collect();
    if proposal.kept > 0 && proposal.changes_nothing() {
        model.say(Tone::Good, "The plan stays as it is: nothing better was found.");
        return;
    }
    if proposal.changes_nothing() {
        model.say(Tone::Mind, "The fill found nothing to plant: 4 shows the wishes and why each is not met.");
        return;
    }
    offer(model, proposal);
}

/// A run has failed.
pub(super) fn failed(model: &mut Model, id: RunId, words: &str) {
    if model.run.take_if(|r| r.id == id).is_some() {
        model.say(Tone::Stop, format!("The fill has failed, and nothing was changed: {words}"));
    }
}

fn offer(model: &mut Model, proposal: Proposal) {
    let mut plan = model.plan.clone();
    match plan.apply(&proposal.edit()) {
        Ok(_) => {
            let ghosts = proposal.plantings.iter().map(|p| p.id).collect();
            model.offer = Some(Offer { proposal, plan, ghosts });
        }
        Err(error) => {
            model.offer = None;
            model.say(Tone::Stop, super::update::sentence(&error.to_string()));
        }
    }
    model.refresh();
}

/// Makes the whole proposal part of the garden, as one step.
pub(super) fn accept(model: &mut Model) -> Vec<Effect> {
    let Some(offer) = model.offer.take() else { return Vec::new() };
    commit(model, offer.proposal.edit())
}

/// Makes what is proposed for the bed or pot at the cursor part of the garden; the rest stays proposed.
pub(super) fn accept_place(model: &mut Model) -> Vec<Effect> {
    let Some(id) = place(model) else { return Vec::new() };
    let Some(taken) = model.offer.take() else { return Vec::new() };
    let edit = taken.proposal.edit_in(&id, &model.plan);
    let mut rest = taken.proposal;
    rest.replaced.retain(|p| model.plan.planting(*p).is_none_or(|p| p.place != id));
    rest.plantings.retain(|p| p.place != id);
    let effects = commit(model, edit);
    if !rest.changes_nothing() {
        offer(model, rest);
    }
    effects
}

/// The bed or pot that `accept_place` is about.
pub(super) fn place(model: &Model) -> Option<PlaceId> {
    model.focus_place().map(|p| p.id.clone()).or_else(|| model.bed.clone())
}

/// Drops the proposal.
pub(super) fn drop_by_hand(model: &mut Model) -> Vec<Effect> {
    drop_offer(model);
    model.say(Tone::Plain, "The proposal was dropped.");
    Vec::new()
}

fn drop_offer(model: &mut Model) {
    if model.offer.take().is_some() {
        model.refresh();
    }
}

impl Model {
    /// Whether a planting is only proposed.
    pub fn is_ghost(&self, id: PlantingId) -> bool {
        self.offer.as_ref().is_some_and(|o| o.ghosts.contains(&id))
    }
    /// Why a wish was not met in full by the last fill; empty where it was, or was not asked.
    pub fn reasons_for(&self, id: WishId) -> &[String] {
        self.reasons.get(&id).map_or(&[], Vec::as_slice)
    }
    /// The week in which the first proposed planting begins.
    pub fn first_ghost_week(&self) -> Option<Week> {
        let offer = self.offer.as_ref()?;
        offer
            .proposal
            .plantings
            .iter()
            .filter_map(|p| p.dates().in_order().into_iter().min())
            .min()
            .map(Week::of)
    }
}

/// Why wishes were not met, by wish.
pub(super) type Reasons = BTreeMap<WishId, Vec<String>>;

//! What takes longer than a key may: it is worked out beside the screen, and what came of it comes back as a message.

use super::fits::FitsTask;
use super::message::Message;
use super::reckon::Reckoning;
use super::sowing::Weighing;

/// Something to be worked out. Of each kind one is on at a time, and the newest waits.
#[derive(Debug, Clone, PartialEq)]
pub enum Errand {
    /// What fits a freed cell.
    Fits(Box<FitsTask>),
    /// Something that follows from the plan and that a view shows.
    Reckon(Box<Reckoning>),
    /// What a planting that is carried would bring.
    Weigh(Box<Weighing>),
}

impl Errand {
    /// Works it out.
    pub fn run(self) -> Message {
        match self {
            Self::Fits(task) => Message::Fitted(Box::new(task.run())),
            Self::Reckon(reckoning) => Message::Reckoned(Box::new(reckoning.run())),
            Self::Weigh(weighing) => Message::Weighed(Box::new(weighing.run())),
        }
    }
    /// Whether another makes this one useless.
    pub fn is_outdone_by(&self, newer: &Self) -> bool {
        match (self, newer) {
            (Self::Fits(_), Self::Fits(_)) | (Self::Weigh(_), Self::Weigh(_)) => true,
            (Self::Reckon(a), Self::Reckon(b)) => a.sum == b.sum,
            (Self::Fits(_) | Self::Reckon(_) | Self::Weigh(_), _) => false,
        }
    }
}

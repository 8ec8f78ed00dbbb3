//! Errands on a thread of its own: one is on, the newest waits, and none takes the program down.

use super::input::Incoming;
use super::worker::guarded;
use crate::app::{Errand, Message};
use std::sync::mpsc::{Sender, channel};

/// The thread that runs errands, once there was one.
#[derive(Debug, Default)]
pub(super) struct Errands {
    to: Option<Sender<Errand>>,
}

impl Errands {
    /// Sends one on its way.
    pub(super) fn send(&mut self, errand: Errand, inbox: &Sender<Incoming>) -> Option<Message> {
        let Some(to) = &self.to else {
            return match begin(inbox) {
                Ok(to) => {
                    // The thread has just begun to listen.
                    to.send(errand).unwrap_or_default();
                    self.to = Some(to);
                    None
                }
                Err(error) => Some(Message::ErrandFailed(error.to_string())),
            };
        };
        to.send(errand).err().map(|_| Message::ErrandFailed(String::from("it can't be worked out any more")))
    }
}

fn begin(inbox: &Sender<Incoming>) -> std::io::Result<Sender<Errand>> {
    let (to, errands) = channel::<Errand>();
    let inbox = inbox.clone();
    std::thread::Builder::new().name(String::from("errands")).spawn(move || {
        while let Ok(first) = errands.recv() {
            // Only the newest matters: what was asked before it is no longer shown.
            let mut waiting = vec![first];
            for errand in errands.try_iter() {
                waiting.retain(|other| !other.is_outdone_by(&errand));
                waiting.push(errand);
            }
            for errand in waiting {
                let message = guarded(|| errand.run()).unwrap_or_else(Message::ErrandFailed);
                if inbox.send(Incoming::Said(message)).is_err() {
                    return;
                }
            }
        }
    })?;
    Ok(to)
}

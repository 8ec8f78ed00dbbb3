//! The tree of edits: nothing done is ever lost.

use super::{Edit, EditError, Plan, words::edit_words};

/// A step that was taken.
#[derive(Debug, Clone, PartialEq)]
pub struct Revision {
    /// The step before it.
    parent: usize,
    /// The newest step after it.
    last_child: Option<usize>,
    /// What was done.
    forward: Edit,
    /// What takes it back.
    inverse: Edit,
    /// It in words: "moved leek from box 2 to box 3".
    label: String,
}

impl Revision {
    /// What was done.
    pub const fn forward(&self) -> &Edit {
        &self.forward
    }
    /// It in words.
    pub fn label(&self) -> &str {
        &self.label
    }
}

/// Steps taken, the current one and the one last saved.
#[derive(Debug, Clone, PartialEq)]
pub struct History {
    revisions: Vec<Revision>,
    current: usize,
    saved: usize,
    first: Option<usize>,
}

impl Default for History {
    fn default() -> Self {
        Self::new()
    }
}

impl History {
    /// Nothing done yet.
    pub const fn new() -> Self {
        Self { revisions: Vec::new(), current: 0, saved: 0, first: None }
    }

    /// Applies an edit as a new step; an edit that changes nothing leaves no step.
    ///
    /// # Errors
    /// Where the edit does not fit the plan.
    pub fn commit(&mut self, plan: &mut Plan, edit: Edit) -> Result<String, EditError> {
        let label = edit_words(plan, &edit);
        let inverse = plan.apply(&edit)?;
        if edit == inverse {
            return Ok(label);
        }
        self.revisions.push(Revision {
            parent: self.current,
            last_child: None,
            forward: edit,
            inverse,
            label: label.clone(),
        });
        let new = self.revisions.len();
        match self.current.checked_sub(1) {
            Some(at) => self.revisions[at].last_child = Some(new),
            None => self.first = Some(new),
        }
        self.current = new;
        Ok(label)
    }

    /// Takes back the last step; its words, or none where there is nothing to take back.
    ///
    /// # Errors
    /// Where the inverse does not fit (the plan was changed past this history).
    pub fn undo(&mut self, plan: &mut Plan) -> Result<Option<String>, EditError> {
        let Some(at) = self.current.checked_sub(1) else { return Ok(None) };
        plan.apply(&self.revisions[at].inverse)?;
        self.current = self.revisions[at].parent;
        Ok(Some(self.revisions[at].label.clone()))
    }

    /// Does the newest undone step again.
    ///
    /// # Errors
    /// Where it does not fit (the plan was changed past this history).
    pub fn redo(&mut self, plan: &mut Plan) -> Result<Option<String>, EditError> {
        let next = match self.current.checked_sub(1) {
            Some(at) => self.revisions[at].last_child,
            None => self.first,
        };
        let Some(next) = next else { return Ok(None) };
        let revision = &self.revisions[next - 1];
        plan.apply(&revision.forward)?;
        let label = revision.label.clone();
        self.current = next;
        Ok(Some(label))
    }

    /// The edit that taking the last step back will apply; none where there is none.
    pub fn undoing(&self) -> Option<&Edit> {
        self.current.checked_sub(1).map(|at| &self.revisions[at].inverse)
    }
    /// The edit that doing the newest undone step again will apply; none where there is none.
    pub fn redoing(&self) -> Option<&Edit> {
        let next = match self.current.checked_sub(1) {
            Some(at) => self.revisions[at].last_child,
            None => self.first,
        };
        next.map(|at| &self.revisions[at - 1].forward)
    }

    /// Notes that the plan as it is now is on disk.
    pub const fn mark_saved(&mut self) {
        self.saved = self.current;
    }
    /// Whether there is something to save.
    pub const fn is_dirty(&self) -> bool {
        self.current != self.saved
    }
    /// Steps from the start to here, oldest first.
    pub fn trail(&self) -> Vec<&Revision> {
        let mut out = Vec::new();
        let mut at = self.current;
        while let Some(i) = at.checked_sub(1) {
            out.push(&self.revisions[i]);
            at = self.revisions[i].parent;
        }
        out.reverse();
        out
    }
}

//! One line of text with a cursor, edited by what a reader sees as letters.

use unicode_segmentation::UnicodeSegmentation as _;

/// The longest line one may type, in letters.
const MOST: usize = 300;

/// What a key does to the line.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Stroke {
    /// One letter back.
    Left,
    /// One letter on.
    Right,
    /// To the first letter.
    Start,
    /// Behind the last letter.
    End,
    /// Take away the letter before the cursor.
    EraseBack,
    /// Take away the letter behind the cursor.
    EraseAhead,
}

/// A line being edited.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Line {
    letters: Vec<String>,
    at: usize,
}

impl Line {
    /// A line that holds `text`, the cursor behind it.
    pub fn of(text: &str) -> Self {
        let mut line = Self::default();
        line.insert(text);
        line
    }
    /// The text.
    pub fn text(&self) -> String {
        self.letters.concat()
    }
    /// The text before and behind the cursor.
    pub fn parts(&self) -> (String, String) {
        let (before, behind) = self.letters.split_at(self.at.min(self.letters.len()));
        (before.concat(), behind.concat())
    }
    /// Whether nothing is typed.
    pub fn is_blank(&self) -> bool {
        self.letters.iter().all(|l| l.trim().is_empty())
    }
    /// Types text at the cursor; control characters become spaces.
    pub fn insert(&mut self, text: &str) {
        let (before, behind) = self.parts();
        let clean: String = text.chars().map(|c| if c.is_control() { ' ' } else { c }).collect();
        let head = format!("{before}{clean}");
        // A combining mark joins the letter before it, so the whole line is cut into letters anew.
        let letters: Vec<String> = format!("{head}{behind}").graphemes(true).map(str::to_owned).collect();
        if letters.len() <= MOST {
            self.at = head.graphemes(true).count().min(letters.len());
            self.letters = letters;
        }
    }
    /// Does what a key says.
    pub fn stroke(&mut self, stroke: Stroke) {
        match stroke {
            Stroke::Left => self.at = self.at.saturating_sub(1),
            Stroke::Right => self.at = (self.at + 1).min(self.letters.len()),
            Stroke::Start => self.at = 0,
            Stroke::End => self.at = self.letters.len(),
            Stroke::EraseBack => {
                if self.at > 0 && self.at <= self.letters.len() {
                    self.at -= 1;
                    self.letters.remove(self.at);
                }
            }
            Stroke::EraseAhead => {
                if self.at < self.letters.len() {
                    self.letters.remove(self.at);
                }
            }
        }
    }
}

//! One line of text with a cursor, edited by what a reader sees as letters.

use unicode_segmentation::UnicodeSegmentation as _;

/// The longest line one may type, in letters.
const MOST: usize = 300;

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
    /// Takes away the letter before the cursor.
    pub fn erase_back(&mut self) {
        if self.at > 0 && self.at <= self.letters.len() {
            self.at -= 1;
            self.letters.remove(self.at);
        }
    }
    /// Takes away the letter behind the cursor.
    pub fn erase_ahead(&mut self) {
        if self.at < self.letters.len() {
            self.letters.remove(self.at);
        }
    }
    /// One letter to the left.
    pub const fn left(&mut self) {
        self.at = self.at.saturating_sub(1);
    }
    /// One letter to the right.
    pub fn right(&mut self) {
        self.at = (self.at + 1).min(self.letters.len());
    }
    /// To the first letter.
    pub const fn home(&mut self) {
        self.at = 0;
    }
    /// Behind the last letter.
    pub const fn end(&mut self) {
        self.at = self.letters.len();
    }
}

//! Keys as the program knows them: no terminal library, no modifiers but the capital letter.

/// A key that was pressed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Key {
    /// A letter, digit or sign; a space is one too.
    Char(char),
    /// Enter.
    Enter,
    /// Esc.
    Esc,
    /// Tab.
    Tab,
    /// Shift and Tab.
    BackTab,
    /// Backspace.
    Backspace,
    /// Delete.
    Delete,
    /// Arrow up.
    Up,
    /// Arrow down.
    Down,
    /// Arrow left.
    Left,
    /// Arrow right.
    Right,
    /// Home.
    Home,
    /// End.
    End,
    /// Page up.
    PageUp,
    /// Page down.
    PageDown,
    /// Ctrl-C: the wish to leave.
    Interrupt,
}

impl Key {
    /// How the key is written in hints and in the README.
    pub fn name(self) -> String {
        match self {
            Self::Char(' ') => String::from("Space"),
            Self::Char(c) => c.to_string(),
            Self::Enter => String::from("Enter"),
            Self::Esc => String::from("Esc"),
            Self::Tab => String::from("Tab"),
            Self::BackTab => String::from("Shift-Tab"),
            Self::Backspace => String::from("Backspace"),
            Self::Delete => String::from("Del"),
            Self::Up => String::from("Up"),
            Self::Down => String::from("Down"),
            Self::Left => String::from("Left"),
            Self::Right => String::from("Right"),
            Self::Home => String::from("Home"),
            Self::End => String::from("End"),
            Self::PageUp => String::from("PgUp"),
            Self::PageDown => String::from("PgDn"),
            Self::Interrupt => String::from("Ctrl-C"),
        }
    }
}

/// A sequence of keys as it is written: letters close together, named keys apart.
pub fn names(keys: &[Key]) -> String {
    let mut out = String::new();
    for key in keys {
        let name = key.name();
        if !out.is_empty() {
            out.push(' ');
        }
        out.push_str(&name);
    }
    out
}

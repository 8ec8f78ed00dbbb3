//! What the terminal sends, in the program's own words; a reply about its background is taken out.

use crate::app::{Key, Message, Touch, Way};
use ratatui::crossterm::event::{
    self, Event, KeyCode, KeyEvent, KeyEventKind, KeyModifiers, MouseButton, MouseEventKind,
};
use std::sync::mpsc::Sender;
use std::time::Duration;

/// What comes into the one inbox.
#[derive(Debug)]
pub(super) enum Incoming {
    /// For the model.
    Said(Message),
    /// The terminal's background is light, or not.
    Light(bool),
    /// The mouse did something at a column and row.
    Touch(Touch, u16, u16),
    /// Draw everything anew.
    Redraw,
}

/// How long a lone Esc waits for the rest of a reply that was cut in two.
const PATIENCE: Duration = Duration::from_millis(25);
/// The longest reply that is read.
const LONGEST: usize = 40;

/// The keys of a key event; none for keys the program has no use for.
#[expect(
    clippy::wildcard_enum_match_arm,
    reason = "the library's list of keys grows, and most have no use here"
)]
pub fn keys(event: KeyEvent) -> Vec<Key> {
    if event.kind == KeyEventKind::Release {
        return Vec::new();
    }
    if event.modifiers.contains(KeyModifiers::CONTROL) {
        return match event.code {
            KeyCode::Char('c' | 'C') => vec![Key::Interrupt],
            KeyCode::Char('h' | 'H') => vec![Key::Backspace],
            _ => Vec::new(),
        };
    }
    let key = match event.code {
        KeyCode::Char(c) => Key::Char(c),
        KeyCode::Enter => Key::Enter,
        KeyCode::Esc => Key::Esc,
        KeyCode::Tab => Key::Tab,
        KeyCode::BackTab => Key::BackTab,
        KeyCode::Backspace => Key::Backspace,
        KeyCode::Delete => Key::Delete,
        KeyCode::Up => Key::Up,
        KeyCode::Down => Key::Down,
        KeyCode::Left => Key::Left,
        KeyCode::Right => Key::Right,
        KeyCode::Home => Key::Home,
        KeyCode::End => Key::End,
        KeyCode::PageUp => Key::PageUp,
        KeyCode::PageDown => Key::PageDown,
        _ => return Vec::new(),
    };
    // Esc and a key pressed at once reach us as one key with Alt: they are two.
    if event.modifiers.contains(KeyModifiers::ALT) && key != Key::Esc {
        vec![Key::Esc, key]
    } else {
        vec![key]
    }
}

/// Takes the reply to a question about the background out of the keys.
#[derive(Debug, Default)]
pub struct Replies {
    /// A question was asked and not answered yet.
    waiting: bool,
    /// What came of the reply so far.
    reply: Option<String>,
    /// The reply may be ending.
    ending: bool,
}

/// What became of a key event.
#[derive(Debug, PartialEq, Eq)]
pub enum Sifted {
    /// It is a key.
    Key,
    /// It is part of a reply.
    Swallowed,
    /// It ended a reply: light, or not, or not understood.
    Answer(Option<bool>),
}

impl Replies {
    /// After a question was asked.
    pub fn asked() -> Self {
        Self { waiting: true, ..Self::default() }
    }
    /// Whether a lone Esc may be the first half of a reply.
    pub const fn may_begin(&self) -> bool {
        self.waiting && self.reply.is_none()
    }
    /// A reply begins: its `Esc ]` was seen.
    pub fn begin(&mut self) {
        self.reply = Some(String::new());
        self.ending = false;
    }
    /// Looks at a key event.
    #[expect(clippy::wildcard_enum_match_arm, reason = "every key but those of a reply counts as a key")]
    pub fn sift(&mut self, key: KeyEvent) -> Sifted {
        let Some(reply) = &mut self.reply else {
            let begins = key.code == KeyCode::Char(']') && key.modifiers.contains(KeyModifiers::ALT);
            if self.waiting && begins {
                self.begin();
                return Sifted::Swallowed;
            }
            return Sifted::Key;
        };
        let bell = key.code == KeyCode::Char('g') && key.modifiers.contains(KeyModifiers::CONTROL);
        let closed =
            key.code == KeyCode::Char('\\') && (self.ending || key.modifiers.contains(KeyModifiers::ALT));
        if bell || closed {
            let answer = lightness(reply);
            *self = Self::default();
            return Sifted::Answer(answer);
        }
        match key.code {
            KeyCode::Esc if !self.ending => self.ending = true,
            KeyCode::Char(c)
                if !self.ending
                    && reply.len() < LONGEST
                    && (c.is_ascii_hexdigit() || matches!(c, ';' | ':' | '/' | 'r' | 'g')) =>
            {
                reply.push(c);
            }
            _ => {
                // No reply after all: what was held is gone, the key counts.
                *self = Self::default();
                return Sifted::Key;
            }
        }
        Sifted::Swallowed
    }
}

/// Whether "11;rgb:ffff/ffff/ffff" is light.
pub fn lightness(reply: &str) -> Option<bool> {
    let colour = reply.strip_prefix("11;rgb:")?;
    let mut parts = colour.split('/').map(|part| {
        let most = f64::from(16_u32.pow(u32::try_from(part.len()).ok().filter(|n| (1..=4).contains(n))?) - 1);
        u32::from_str_radix(part, 16).ok().map(|n| f64::from(n) / most)
    });
    let (r, g, b) = (parts.next()??, parts.next()??, parts.next()??);
    Some(0.2126 * r + 0.7152 * g + 0.0722 * b > 0.5)
}

/// Reads the terminal for as long as there is one.
pub(super) fn listen(inbox: &Sender<Incoming>, mut replies: Replies) {
    loop {
        let Ok(event) = event::read() else {
            // The terminal is gone.
            inbox.send(Incoming::Said(Message::Stop)).unwrap_or_default();
            return;
        };
        let mut events = vec![event];
        // Esc alone may be the first half of a reply that was cut in two.
        if replies.may_begin() && is_key(&events[0], KeyCode::Esc) && event::poll(PATIENCE).unwrap_or(false) {
            let Ok(second) = event::read() else { continue };
            if is_key(&second, KeyCode::Char(']')) {
                replies.begin();
                continue;
            }
            events.push(second);
        }
        for event in events {
            if !pass(inbox, &mut replies, event) {
                return;
            }
        }
    }
}

fn is_key(event: &Event, code: KeyCode) -> bool {
    matches!(event, Event::Key(key) if key.code == code && key.modifiers.is_empty())
}

/// What the mouse did; none for what has no use here.
const fn touch(kind: MouseEventKind) -> Option<Touch> {
    match kind {
        MouseEventKind::Down(MouseButton::Left) => Some(Touch::Press),
        MouseEventKind::Drag(MouseButton::Left) => Some(Touch::Drag),
        MouseEventKind::Up(MouseButton::Left) => Some(Touch::Release),
        MouseEventKind::ScrollUp => Some(Touch::Wheel(Way::Up)),
        MouseEventKind::ScrollDown => Some(Touch::Wheel(Way::Down)),
        MouseEventKind::Down(MouseButton::Right | MouseButton::Middle)
        | MouseEventKind::Drag(MouseButton::Right | MouseButton::Middle)
        | MouseEventKind::Up(MouseButton::Right | MouseButton::Middle)
        | MouseEventKind::Moved
        | MouseEventKind::ScrollLeft
        | MouseEventKind::ScrollRight => None,
    }
}

/// Sends on what an event means; false where nobody listens any more.
fn pass(inbox: &Sender<Incoming>, replies: &mut Replies, event: Event) -> bool {
    let send = |incoming| inbox.send(incoming).is_ok();
    match event {
        Event::Key(key) => match replies.sift(key) {
            Sifted::Key => keys(key).into_iter().all(|k| send(Incoming::Said(Message::Pressed(k)))),
            Sifted::Swallowed | Sifted::Answer(None) => true,
            Sifted::Answer(Some(light)) => send(Incoming::Light(light)),
        },
        Event::Paste(text) => send(Incoming::Said(Message::Pasted(text))),
        Event::Resize(cols, rows) => send(Incoming::Said(Message::Resized(cols, rows))),
        Event::Mouse(mouse) => {
            touch(mouse.kind).is_none_or(|t| send(Incoming::Touch(t, mouse.column, mouse.row)))
        }
        Event::FocusGained | Event::FocusLost => true,
    }
}

//! The one table of keys. Lookup, hints, the next-key list, the overlay, the palette and the README come from it.

use super::command::{Command, Way};
use super::field::Stroke;
use super::filling::FillWay;
use super::key::{Key, names};
use super::slip::{About, Matter};
use super::view::View;
use crate::fill::Effort;
use crate::garden::Kind;
use std::fmt::Write as _;

/// What is going on when a key is pressed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Mode {
    /// Any view.
    Every,
    /// A view.
    In(View),
    /// Something is carried about.
    Carrying,
    /// A line is being typed.
    Typing,
    /// A yes or no is asked for.
    Asked,
    /// Leaving with changes that are not saved.
    Leaving,
    /// The list of keys is shown.
    Helping,
    /// The tour is on.
    Touring,
}

impl Mode {
    /// Every mode.
    pub const ALL: [Self; 16] = [
        Self::Every,
        Self::In(View::Ground),
        Self::In(View::Bed),
        Self::In(View::Weeks),
        Self::In(View::Wishes),
        Self::In(View::Jobs),
        Self::In(View::Findings),
        Self::In(View::Record),
        Self::In(View::Book),
        Self::In(View::Needs),
        Self::Carrying,
        Self::Typing,
        Self::Asked,
        Self::Leaving,
        Self::Helping,
        Self::Touring,
    ];
    /// Where the keys of this mode hold, in words.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Every => "in every view",
            Self::In(View::Ground) => "on the ground",
            Self::In(View::Bed) => "in a bed",
            Self::In(View::Weeks) => "in the weeks",
            Self::In(View::Wishes) => "in the wishes",
            Self::In(View::Jobs) => "in the jobs",
            Self::In(View::Findings) => "in the findings",
            Self::In(View::Record) => "in the record",
            Self::In(View::Book) => "in the book",
            Self::In(View::Needs) => "in the needs",
            Self::Carrying => "while carrying",
            Self::Typing => "while typing",
            Self::Asked => "when asked",
            Self::Leaving => "when leaving",
            Self::Helping => "in the list of keys",
            Self::Touring => "on the tour",
        }
    }
    /// Whether the keys of every view hold here too.
    pub const fn is_view(self) -> bool {
        matches!(self, Self::In(_))
    }
    /// The modes whose rows hold in this one, nearest first.
    fn rows(self) -> impl Iterator<Item = Self> {
        [Some(self), self.is_view().then_some(Self::Every)].into_iter().flatten()
    }
}

/// What a command is about.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Group {
    /// What this view is for.
    Here,
    /// Laying out.
    Layout,
    /// Filling.
    Fill,
    /// The week shown.
    Time,
    /// The cursor.
    Moving,
    /// The views.
    Views,
    /// The garden as a whole.
    Garden,
}

impl Group {
    /// Every group in the order of the overlay.
    pub const ALL: [Self; 7] =
        [Self::Here, Self::Layout, Self::Fill, Self::Time, Self::Moving, Self::Views, Self::Garden];
    /// Its heading.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Here => "here",
            Self::Layout => "laying out",
            Self::Fill => "filling",
            Self::Time => "the week shown",
            Self::Moving => "moving about",
            Self::Views => "views",
            Self::Garden => "the garden",
        }
    }
}

/// A row of the table.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Binding {
    /// When it holds.
    pub mode: Mode,
    /// The keys, one after the other; none: only through the palette.
    pub keys: &'static [Key],
    /// What it does.
    pub command: Command,
    /// What it is about.
    pub group: Group,
    /// What it does, in at most 40 columns.
    pub words: &'static str,
}

/// What a sequence of keys comes to.
#[derive(Debug, Clone, PartialEq)]
pub enum Resolution {
    /// This command.
    Run(Command),
    /// One of these, by the next key.
    Wait(Vec<&'static Binding>),
    /// Nothing.
    Unknown,
}

const fn row(
    mode: Mode,
    keys: &'static [Key],
    command: Command,
    group: Group,
    words: &'static str,
) -> Binding {
    Binding { mode, keys, command, group, words }
}

use Key::Char as C;

/// Every key of the program.
pub static BINDINGS: &[Binding] = &[
    // The site plan.
    row(Mode::In(View::Ground), &[Key::Enter], Command::Open, Group::Here, "look into the bed"),
    row(Mode::In(View::Ground), &[C('p')], Command::Plant, Group::Here, "plant here"),
    row(Mode::In(View::Ground), &[C('n'), C('b')], Command::New(Kind::Box), Group::Layout, "new raised box"),
    row(
        Mode::In(View::Ground),
        &[C('n'), C('o')],
        Command::New(Kind::OpenBed),
        Group::Layout,
        "new bed in open ground",
    ),
    row(
        Mode::In(View::Ground),
        &[C('n'), C('f')],
        Command::New(Kind::FlowerBed),
        Group::Layout,
        "new flower bed",
    ),
    row(Mode::In(View::Ground), &[C('n'), C('p')], Command::New(Kind::Pot), Group::Layout, "new pot"),
    row(
        Mode::In(View::Ground),
        &[C('n'), C('w')],
        Command::Obstacle,
        Group::Layout,
        "new wall, fence, hedge, house, tree",
    ),
    row(Mode::In(View::Ground), &[C('m')], Command::Carry, Group::Layout, "take up and move"),
    row(Mode::In(View::Ground), &[C('c')], Command::Copy, Group::Layout, "take up a copy"),
    row(Mode::In(View::Ground), &[C('o')], Command::Turn, Group::Layout, "turn a quarter"),
    row(Mode::In(View::Ground), &[C('r')], Command::Stretch, Group::Layout, "draw it larger or smaller"),
    row(Mode::In(View::Ground), &[C('e'), C('n')], Command::Edit(About::Name), Group::Layout, "name"),
    row(Mode::In(View::Ground), &[C('e'), C('s')], Command::Edit(About::Size), Group::Layout, "size"),
    row(
        Mode::In(View::Ground),
        &[C('e'), C('d')],
        Command::Edit(About::Depth),
        Group::Layout,
        "depth of soil",
    ),
    row(
        Mode::In(View::Ground),
        &[C('e'), C('t')],
        Command::Edit(About::Tags),
        Group::Layout,
        "what may grow in it",
    ),
    row(
        Mode::In(View::Ground),
        &[C('e'), C('h')],
        Command::Edit(About::Sun),
        Group::Layout,
        "hours of direct sun",
    ),
    row(Mode::In(View::Ground), &[C('e'), C('u')], Command::Edit(About::Supports), Group::Layout, "supports"),
    row(Mode::In(View::Ground), &[C('e'), C('c')], Command::Edit(About::Covers), Group::Layout, "covers"),
    row(
        Mode::In(View::Ground),
        &[C('e'), C('p')],
        Command::Edit(About::Position),
        Group::Layout,
        "exact position",
    ),
    row(
        Mode::In(View::Ground),
        &[C('e'), C('r')],
        Command::Retire,
        Group::Layout,
        "retire from this week on",
    ),
    row(Mode::In(View::Ground), &[C('d')], Command::Remove, Group::Layout, "take away"),
    row(Mode::In(View::Ground), &[C('+')], Command::Zoom(1), Group::Layout, "look closer"),
    row(Mode::In(View::Ground), &[C('-')], Command::Zoom(-1), Group::Layout, "look from farther away"),
    // One bed.
    row(Mode::In(View::Bed), &[C('p')], Command::Plant, Group::Here, "plant here"),
    row(Mode::In(View::Bed), &[Key::Enter], Command::Open, Group::Here, "take up what stands here, or plant"),
    row(Mode::In(View::Bed), &[C('m')], Command::Carry, Group::Here, "take up and move"),
    row(Mode::In(View::Bed), &[C('c')], Command::Copy, Group::Here, "take up a copy"),
    row(Mode::In(View::Bed), &[C('[')], Command::Shift(-1), Group::Here, "a week earlier for this planting"),
    row(Mode::In(View::Bed), &[C(']')], Command::Shift(1), Group::Here, "a week later for this planting"),
    row(Mode::In(View::Bed), &[C('x')], Command::Fix, Group::Here, "fix it, or free it"),
    row(Mode::In(View::Bed), &[C('d')], Command::Remove, Group::Here, "take it away"),
    row(Mode::In(View::Bed), &[C('v')], Command::Layer, Group::Here, "main plantings or mates"),
    row(Mode::In(View::Bed), &[C('w')], Command::Diary, Group::Here, "write into the diary"),
    row(Mode::In(View::Bed), &[Key::Esc], Command::Back, Group::Here, "back to the ground"),
    // The timeline.
    row(Mode::In(View::Weeks), &[Key::Enter], Command::Open, Group::Here, "look into its bed"),
    row(Mode::In(View::Weeks), &[C('g')], Command::Group, Group::Here, "by place, by crop, by cell"),
    row(Mode::In(View::Weeks), &[C('b')], Command::Alone, Group::Here, "one bed alone, or the garden"),
    row(Mode::In(View::Weeks), &[C('+')], Command::Zoom(1), Group::Here, "look closer"),
    row(Mode::In(View::Weeks), &[C('-')], Command::Zoom(-1), Group::Here, "look from farther away"),
    row(
        Mode::In(View::Weeks),
        &[C('[')],
        Command::Shift(-1),
        Group::Here,
        "a week earlier for this planting",
    ),
    row(Mode::In(View::Weeks), &[C(']')], Command::Shift(1), Group::Here, "a week later for this planting"),
    row(Mode::In(View::Weeks), &[C('m')], Command::Carry, Group::Here, "take up and move"),
    row(Mode::In(View::Weeks), &[C('x')], Command::Fix, Group::Here, "fix it, or free it"),
    row(Mode::In(View::Weeks), &[C('d')], Command::Remove, Group::Here, "take it away"),
    row(Mode::In(View::Weeks), &[Key::Esc], Command::Back, Group::Here, "back to the ground"),
    // The wishes.
    row(Mode::In(View::Wishes), &[C('n')], Command::Wish, Group::Here, "new wish"),
    row(Mode::In(View::Wishes), &[Key::Enter], Command::Open, Group::Here, "change it"),
    row(Mode::In(View::Wishes), &[C('+')], Command::Weigh(1), Group::Here, "more important"),
    row(Mode::In(View::Wishes), &[C('-')], Command::Weigh(-1), Group::Here, "less important"),
    row(Mode::In(View::Wishes), &[C('d')], Command::Remove, Group::Here, "drop it"),
    row(Mode::In(View::Wishes), &[Key::Esc], Command::Back, Group::Here, "back to the ground"),
    // The jobs.
    row(Mode::In(View::Jobs), &[C('x')], Command::Tick, Group::Here, "done"),
    row(Mode::In(View::Jobs), &[Key::Enter], Command::Tick, Group::Here, "done"),
    row(Mode::In(View::Jobs), &[C('z')], Command::PutOff, Group::Here, "put off"),
    row(Mode::In(View::Jobs), &[C('w')], Command::Diary, Group::Here, "write into the diary"),
    row(Mode::In(View::Jobs), &[Key::Esc], Command::Back, Group::Here, "back to the ground"),
    row(Mode::In(View::Needs), &[Key::Esc], Command::Back, Group::Here, "back to the ground"),
    // The findings.
    row(Mode::In(View::Findings), &[Key::Enter], Command::Open, Group::Here, "go to where it is"),
    row(
        Mode::In(View::Findings),
        &[C('x')],
        Command::Aside,
        Group::Here,
        "set it aside, or take it up again",
    ),
    row(Mode::In(View::Findings), &[Key::Esc], Command::Back, Group::Here, "back to the ground"),
    // The record.
    row(Mode::In(View::Record), &[Key::Enter], Command::Open, Group::Here, "write what stood there"),
    row(Mode::In(View::Record), &[C('g')], Command::Group, Group::Here, "cell by cell, or by place"),
    row(Mode::In(View::Record), &[C('x')], Command::CloseSeason, Group::Here, "close this season"),
    row(Mode::In(View::Record), &[Key::Esc], Command::Back, Group::Here, "back to the ground"),
    // The crop book.
    row(Mode::In(View::Book), &[C('n')], Command::Variety, Group::Here, "new variety, as its packet says"),
    row(Mode::In(View::Book), &[C('w')], Command::Packets, Group::Here, "seed of it in the drawer"),
    row(Mode::In(View::Book), &[C('/')], Command::Find, Group::Here, "look for a crop"),
    row(Mode::In(View::Book), &[Key::Esc], Command::Back, Group::Here, "back to the ground"),
    // What is carried.
    row(Mode::Carrying, &[Key::Enter], Command::Drop, Group::Here, "put down here"),
    row(Mode::Carrying, &[C('o')], Command::Turn, Group::Here, "turn, or another shape"),
    row(Mode::Carrying, &[C('x')], Command::Swap, Group::Here, "change places with what is there"),
    row(Mode::Carrying, &[C('w')], Command::Restart, Group::Here, "another way to start it"),
    row(Mode::Carrying, &[Key::Esc], Command::Back, Group::Here, "let go"),
    row(Mode::Carrying, &[Key::Up], Command::Cursor(Way::Up), Group::Moving, "north"),
    row(Mode::Carrying, &[Key::Down], Command::Cursor(Way::Down), Group::Moving, "south"),
    row(Mode::Carrying, &[Key::Left], Command::Cursor(Way::Left), Group::Moving, "west"),
    row(Mode::Carrying, &[Key::Right], Command::Cursor(Way::Right), Group::Moving, "east"),
    row(Mode::Carrying, &[C('k')], Command::Cursor(Way::Up), Group::Moving, "north"),
    row(Mode::Carrying, &[C('j')], Command::Cursor(Way::Down), Group::Moving, "south"),
    row(Mode::Carrying, &[C('h')], Command::Cursor(Way::Left), Group::Moving, "west"),
    row(Mode::Carrying, &[C('l')], Command::Cursor(Way::Right), Group::Moving, "east"),
    row(Mode::Carrying, &[Key::Tab], Command::Next, Group::Moving, "to the next bed or pot"),
    row(Mode::Carrying, &[Key::BackTab], Command::Previous, Group::Moving, "to the one before"),
    row(Mode::Carrying, &[C('.')], Command::Weeks(1), Group::Time, "a week later"),
    row(Mode::Carrying, &[C(',')], Command::Weeks(-1), Group::Time, "a week earlier"),
    row(Mode::Carrying, &[C('>')], Command::Months(1), Group::Time, "a month later"),
    row(Mode::Carrying, &[C('<')], Command::Months(-1), Group::Time, "a month earlier"),
    row(Mode::Carrying, &[Key::Interrupt], Command::Quit, Group::Garden, "leave"),
    // A line that is typed.
    row(Mode::Typing, &[Key::Enter], Command::Accept, Group::Here, "accept"),
    row(Mode::Typing, &[Key::Esc], Command::Back, Group::Here, "let it be"),
    row(Mode::Typing, &[Key::Tab], Command::Complete, Group::Here, "complete"),
    row(Mode::Typing, &[Key::Up], Command::Cursor(Way::Up), Group::Moving, "choice before"),
    row(Mode::Typing, &[Key::Down], Command::Cursor(Way::Down), Group::Moving, "next choice"),
    row(Mode::Typing, &[Key::PageUp], Command::Page(Way::Up), Group::Moving, "choices before"),
    row(Mode::Typing, &[Key::PageDown], Command::Page(Way::Down), Group::Moving, "next choices"),
    row(Mode::Typing, &[Key::Left], Command::Stroke(Stroke::Left), Group::Moving, "a letter back"),
    row(Mode::Typing, &[Key::Right], Command::Stroke(Stroke::Right), Group::Moving, "a letter on"),
    row(Mode::Typing, &[Key::Home], Command::Stroke(Stroke::Start), Group::Moving, "to the first letter"),
    row(Mode::Typing, &[Key::End], Command::Stroke(Stroke::End), Group::Moving, "behind the last letter"),
    row(
        Mode::Typing,
        &[Key::Backspace],
        Command::Stroke(Stroke::EraseBack),
        Group::Moving,
        "erase the letter before",
    ),
    row(
        Mode::Typing,
        &[Key::Delete],
        Command::Stroke(Stroke::EraseAhead),
        Group::Moving,
        "erase the letter behind",
    ),
    row(Mode::Typing, &[Key::Interrupt], Command::Quit, Group::Garden, "leave"),
    // Questions.
    row(Mode::Asked, &[C('y')], Command::Yes, Group::Here, "yes"),
    row(Mode::Asked, &[Key::Enter], Command::Yes, Group::Here, "yes"),
    row(Mode::Asked, &[C('n')], Command::Back, Group::Here, "no"),
    row(Mode::Asked, &[Key::Esc], Command::Back, Group::Here, "no"),
    row(Mode::Asked, &[Key::Interrupt], Command::Quit, Group::Garden, "leave"),
    row(Mode::Leaving, &[C('s')], Command::SaveAndQuit, Group::Here, "save and leave"),
    row(Mode::Leaving, &[C('x')], Command::QuitUnsaved, Group::Here, "leave without saving"),
    row(Mode::Leaving, &[Key::Esc], Command::Back, Group::Here, "stay"),
    row(Mode::Helping, &[Key::Esc], Command::Back, Group::Here, "close"),
    row(Mode::Helping, &[C('?')], Command::Back, Group::Here, "close"),
    row(Mode::Helping, &[Key::Down], Command::Cursor(Way::Down), Group::Here, "more"),
    row(Mode::Helping, &[Key::Up], Command::Cursor(Way::Up), Group::Here, "back"),
    row(Mode::Helping, &[C('j')], Command::Cursor(Way::Down), Group::Here, "more"),
    row(Mode::Helping, &[C('k')], Command::Cursor(Way::Up), Group::Here, "back"),
    row(Mode::Helping, &[Key::PageDown], Command::Page(Way::Down), Group::Moving, "a page on"),
    row(Mode::Helping, &[Key::PageUp], Command::Page(Way::Up), Group::Moving, "a page back"),
    row(Mode::Helping, &[Key::Interrupt], Command::Quit, Group::Garden, "leave"),
    row(Mode::Touring, &[Key::Enter], Command::Cursor(Way::Right), Group::Here, "on"),
    row(Mode::Touring, &[Key::Right], Command::Cursor(Way::Right), Group::Here, "on"),
    row(Mode::Touring, &[C(' ')], Command::Cursor(Way::Right), Group::Here, "on"),
    row(Mode::Touring, &[Key::Left], Command::Cursor(Way::Left), Group::Here, "a step back"),
    row(Mode::Touring, &[Key::Backspace], Command::Cursor(Way::Left), Group::Here, "a step back"),
    row(Mode::Touring, &[Key::Esc], Command::Back, Group::Here, "end the tour"),
    row(Mode::Touring, &[C('q')], Command::Quit, Group::Garden, "leave"),
    row(Mode::Touring, &[Key::Interrupt], Command::Quit, Group::Garden, "leave"),
    // Every view.
    row(Mode::Every, &[C('a')], Command::AcceptAll, Group::Fill, "accept all that is proposed"),
    row(Mode::Every, &[C('A')], Command::AcceptPlace, Group::Fill, "accept it for this bed or pot"),
    row(Mode::Every, &[C('D')], Command::DropOffer, Group::Fill, "drop what is proposed"),
    row(
        Mode::Every,
        &[C('f'), C('f')],
        Command::Fill(FillWay::With(Effort::Usual)),
        Group::Fill,
        "fill the garden",
    ),
    row(
        Mode::Every,
        &[C('f'), C('q')],
        Command::Fill(FillWay::With(Effort::Quick)),
        Group::Fill,
        "fill it quickly",
    ),
    row(
        Mode::Every,
        &[C('f'), C('d')],
        Command::Fill(FillWay::With(Effort::Deep)),
        Group::Fill,
        "fill it with more effort",
    ),
    row(Mode::Every, &[C('f'), C('a')], Command::Fill(FillWay::Another), Group::Fill, "fill it another way"),
    row(
        Mode::Every,
        &[C('f'), C('r')],
        Command::Fill(FillWay::Replan),
        Group::Fill,
        "re-plan from today, keep what can be",
    ),
    row(Mode::Every, &[C('f'), C('s')], Command::StopFill, Group::Fill, "stop, and keep the best so far"),
    row(Mode::Every, &[C('.')], Command::Weeks(1), Group::Time, "a week later"),
    row(Mode::Every, &[C(',')], Command::Weeks(-1), Group::Time, "a week earlier"),
    row(Mode::Every, &[C('>')], Command::Months(1), Group::Time, "a month later"),
    row(Mode::Every, &[C('<')], Command::Months(-1), Group::Time, "a month earlier"),
    row(Mode::Every, &[C('t')], Command::Today, Group::Time, "the week of today"),
    row(Mode::Every, &[C('T')], Command::Date, Group::Time, "go to a date"),
    row(Mode::Every, &[C('u')], Command::Undo, Group::Garden, "undo"),
    row(Mode::Every, &[C('U')], Command::Redo, Group::Garden, "redo"),
    row(Mode::Every, &[C('s')], Command::Save, Group::Garden, "save"),
    row(Mode::Every, &[C('S')], Command::SaveAs, Group::Garden, "save under another name"),
    row(Mode::Every, &[C('G'), C('n')], Command::Matter(Matter::Name), Group::Garden, "its name"),
    row(Mode::Every, &[C('G'), C('h')], Command::Matter(Matter::Hours), Group::Garden, "hours a week"),
    row(Mode::Every, &[C('G'), C('r')], Command::Matter(Matter::Risk), Group::Garden, "frost risk"),
    row(Mode::Every, &[C('G'), C('u')], Command::Matter(Matter::Units), Group::Garden, "units"),
    row(Mode::Every, &[C('G'), C('d')], Command::Matter(Matter::Day), Group::Garden, "the garden day"),
    row(Mode::Every, &[C('G'), C('a')], Command::Matter(Matter::Away), Group::Garden, "weeks away"),
    row(
        Mode::Every,
        &[C('G'), C('s')],
        Command::Matter(Matter::Raising),
        Group::Garden,
        "where seedlings are raised",
    ),
    row(Mode::Every, &[C('N')], Command::NewGarden, Group::Garden, "a new garden, by twelve questions"),
    row(Mode::Every, &[C(' ')], Command::Palette, Group::Garden, "find a command"),
    row(Mode::Every, &[C('G'), C('m')], Command::Mouse, Group::Garden, "the mouse on or off"),
    row(Mode::Every, &[C('i')], Command::Tour, Group::Garden, "a tour of five steps"),
    row(Mode::Every, &[C('?')], Command::Help, Group::Garden, "every key"),
    row(Mode::Every, &[C('q')], Command::Quit, Group::Garden, "leave"),
    row(Mode::Every, &[Key::Interrupt], Command::Quit, Group::Garden, "leave"),
    row(Mode::Every, &[Key::Up], Command::Cursor(Way::Up), Group::Moving, "up"),
    row(Mode::Every, &[Key::Down], Command::Cursor(Way::Down), Group::Moving, "down"),
    row(Mode::Every, &[Key::Left], Command::Cursor(Way::Left), Group::Moving, "left"),
    row(Mode::Every, &[Key::Right], Command::Cursor(Way::Right), Group::Moving, "right"),
    row(Mode::Every, &[C('k')], Command::Cursor(Way::Up), Group::Moving, "up"),
    row(Mode::Every, &[C('j')], Command::Cursor(Way::Down), Group::Moving, "down"),
    row(Mode::Every, &[C('h')], Command::Cursor(Way::Left), Group::Moving, "left"),
    row(Mode::Every, &[C('l')], Command::Cursor(Way::Right), Group::Moving, "right"),
    row(Mode::Every, &[Key::PageUp], Command::Page(Way::Up), Group::Moving, "a page up"),
    row(Mode::Every, &[Key::PageDown], Command::Page(Way::Down), Group::Moving, "a page down"),
    row(Mode::Every, &[Key::Home], Command::First, Group::Moving, "to the first"),
    row(Mode::Every, &[Key::End], Command::Last, Group::Moving, "to the last"),
    row(Mode::Every, &[Key::Tab], Command::Next, Group::Moving, "to the next bed or pot"),
    row(Mode::Every, &[Key::BackTab], Command::Previous, Group::Moving, "to the one before"),
    row(Mode::Every, &[C('1')], Command::Go(View::Ground), Group::Views, "ground: the site plan"),
    row(Mode::Every, &[C('2')], Command::Go(View::Bed), Group::Views, "bed: one bed, large"),
    row(Mode::Every, &[C('3')], Command::Go(View::Weeks), Group::Views, "weeks: the timeline"),
    row(Mode::Every, &[C('4')], Command::Go(View::Wishes), Group::Views, "wishes: what is wanted"),
    row(Mode::Every, &[C('5')], Command::Go(View::Jobs), Group::Views, "jobs: what there is to do"),
    row(Mode::Every, &[C('6')], Command::Go(View::Findings), Group::Views, "findings: what the check says"),
    row(Mode::Every, &[C('7')], Command::Go(View::Record), Group::Views, "record: what stood where"),
    row(Mode::Every, &[C('8')], Command::Go(View::Book), Group::Views, "book: the crops"),
    row(Mode::Every, &[C('9')], Command::Go(View::Needs), Group::Views, "needs: what to buy and make ready"),
];

/// The rows that hold in a mode, its own first.
pub fn rows(mode: Mode) -> impl Iterator<Item = &'static Binding> {
    mode.rows().flat_map(|m| BINDINGS.iter().filter(move |b| b.mode == m))
}

/// What a sequence of keys comes to in a mode.
pub fn resolve(mode: Mode, keys: &[Key]) -> Resolution {
    let mut waiting: Vec<&'static Binding> = Vec::new();
    for binding in rows(mode).filter(|b| !b.keys.is_empty() && b.keys.starts_with(keys)) {
        if binding.keys.len() == keys.len() {
            return Resolution::Run(binding.command);
        }
        waiting.push(binding);
    }
    if waiting.is_empty() { Resolution::Unknown } else { Resolution::Wait(waiting) }
}

/// The keys of a command in a mode, as they are written; none where it has none there.
pub fn keys_of(mode: Mode, command: Command) -> Option<String> {
    rows(mode).find(|b| b.command == command && !b.keys.is_empty()).map(|b| names(b.keys))
}

/// Writing to a string cannot fail.
fn put(out: &mut String, words: std::fmt::Arguments<'_>) {
    out.write_fmt(words).unwrap_or_default();
}

/// The key list of the README: one table a mode.
pub fn readme() -> String {
    let mut out = String::new();
    for mode in Mode::ALL {
        put(&mut out, format_args!("\n**{}**\n\n| keys | does |\n|---|---|\n", mode.words()));
        let mut done: Vec<Command> = Vec::new();
        for binding in BINDINGS.iter().filter(|b| b.mode == mode && !b.keys.is_empty()) {
            if done.contains(&binding.command) {
                continue;
            }
            done.push(binding.command);
            let keys: Vec<String> = BINDINGS
                .iter()
                .filter(|b| b.mode == mode && b.command == binding.command && !b.keys.is_empty())
                .map(|b| format!("`{}`", names(b.keys)))
                .collect();
            put(&mut out, format_args!("| {} | {} |\n", keys.join(" or "), binding.words));
        }
    }
    out
}

/// What a first key of a longer sequence leads to, in a word or two.
pub fn prefix_words(mode: Mode, key: Key) -> &'static str {
    PREFIXES
        .iter()
        .find(|(m, k, _)| *k == key && mode.rows().any(|row| row == *m))
        .map_or("more", |(_, _, words)| words)
}

/// Words for the first keys of longer sequences.
pub static PREFIXES: &[(Mode, Key, &str)] = &[
    (Mode::In(View::Ground), C('n'), "new bed or pot"),
    (Mode::In(View::Ground), C('e'), "edit it"),
    (Mode::Every, C('f'), "fill"),
    (Mode::Every, C('G'), "settings"),
];

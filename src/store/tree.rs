//! The bare structure of RON text with the place of every value, tolerant of mistakes.
//!
//! It knows nothing of types: errors are pinned to it, comments are found by it, and the layout of a plan file is
//! made from it.

use std::ops::Range;

/// Where a value stands and what it is made of.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Node {
    /// Bytes of the value, its variant name and brackets included, its key not.
    pub(super) span: Range<usize>,
    /// Bytes of the key before the colon.
    pub(super) key: Option<Range<usize>>,
    /// What it is made of.
    pub(super) body: Body,
}

/// What a value is made of.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) enum Body {
    /// A number, a text, a bare word.
    Atom,
    /// Something in brackets.
    Group {
        /// Bytes of the name before the bracket, empty where there is none.
        lead: Range<usize>,
        /// The opening bracket.
        open: char,
        /// What is inside.
        items: Vec<Node>,
    },
}

/// Brackets or quotes that do not match, with the bytes where they stand.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Trouble {
    /// Never closed.
    Unclosed(usize),
    /// Closed by a bracket of another kind.
    Crossed {
        /// The opening one.
        open: usize,
        /// The closing one.
        close: usize,
    },
    /// Closes nothing.
    Stray(usize),
    /// A text or comment without its end.
    Endless(usize),
}

/// A step on the way to a value.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) enum Step {
    /// The field or map entry of that name.
    Key(String),
    /// The item of that number, from 0.
    Item(usize),
}

/// The structure of a text.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Tree<'t> {
    text: &'t str,
    /// The one value of the text.
    pub(super) root: Option<Node>,
    /// Comments.
    pub(super) comments: Vec<Range<usize>>,
    /// The first brackets or quotes that do not match.
    pub(super) trouble: Option<Trouble>,
}

impl<'t> Tree<'t> {
    /// Reads the structure of a text.
    pub(super) fn of(text: &'t str) -> Self {
        let mut reader = Reader {
            text,
            stack: vec![Frame::new(0, ' ', 0..0, None)],
            comments: Vec::new(),
            trouble: None,
            long: None,
        };
        reader.run();
        let root = reader.finish();
        Self { text, root, comments: reader.comments, trouble: reader.trouble }
    }
    /// The bytes of a range.
    pub(super) fn slice(&self, span: &Range<usize>) -> &'t str {
        self.text.get(span.clone()).unwrap_or_default()
    }
    /// A field's or entry's name without quotes.
    pub(super) fn key(&self, node: &Node) -> Option<&'t str> {
        node.key.as_ref().map(|k| bare(self.slice(k)))
    }
    /// The field of that name.
    pub(super) fn field<'n>(&self, node: &'n Node, name: &str) -> Option<&'n Node> {
        node.items().iter().find(|i| self.key(i) == Some(name))
    }
    /// The value at the end of a path, or the deepest one on the way to it.
    pub(super) fn find(&self, path: &[Step]) -> Option<&Node> {
        let mut node = self.root.as_ref()?;
        for step in path {
            let next = match step {
                Step::Key(name) => self.field(node, name),
                Step::Item(n) => node.items().get(*n),
            };
            let Some(next) = next else { break };
            node = next;
        }
        Some(node)
    }
}

impl Node {
    /// What is inside, where it is a group.
    pub(super) fn items(&self) -> &[Self] {
        match &self.body {
            Body::Atom => &[],
            Body::Group { items, .. } => items,
        }
    }
    /// Whether it is in brackets.
    pub(super) const fn is_group(&self) -> bool {
        matches!(self.body, Body::Group { .. })
    }
}

struct Frame {
    at: usize,
    open: char,
    lead: Range<usize>,
    key: Option<Range<usize>>,
    items: Vec<Node>,
    pending: Option<Range<usize>>,
    pending_key: Option<Range<usize>>,
}

impl Frame {
    const fn new(at: usize, open: char, lead: Range<usize>, key: Option<Range<usize>>) -> Self {
        Self { at, open, lead, key, items: Vec::new(), pending: None, pending_key: None }
    }
    fn flush(&mut self) {
        let key = self.pending_key.take();
        if let Some(span) = self.pending.take() {
            self.items.push(Node { span, key, body: Body::Atom });
        }
    }
    fn close(mut self, end: usize) -> Node {
        self.flush();
        let start = if self.lead.is_empty() { self.at } else { self.lead.start };
        let body = Body::Group { lead: self.lead, open: self.open, items: self.items };
        Node { span: start..end, key: self.key, body }
    }
}

struct Reader<'t> {
    text: &'t str,
    stack: Vec<Frame>,
    comments: Vec<Range<usize>>,
    trouble: Option<Trouble>,
    /// The first text that runs over a line end.
    long: Option<usize>,
}

impl Reader<'_> {
    fn run(&mut self) {
        let mut at = attributes_end(self.text);
        while let Some(first) = rest(self.text, at).chars().next() {
            let here = at;
            at = match first {
                c if c.is_whitespace() => here + c.len_utf8(),
                '/' => self.comment(here),
                '"' => self.quoted(here, here + 1, "\"", true),
                '\'' => self.quoted(here, here + 1, "'", true),
                'r' if raw_string(rest(self.text, here)).is_some() => {
                    let hashes = raw_string(rest(self.text, here)).unwrap_or(0);
                    self.quoted(here, here + 2 + hashes, &format!("\"{}", "#".repeat(hashes)), false)
                }
                ',' | ':' | '(' | ')' | '[' | ']' | '{' | '}' => {
                    self.mark(here, first);
                    here + 1
                }
                _ => self.bare_word(here),
            };
        }
    }

    fn comment(&mut self, at: usize) -> usize {
        let rest = rest(self.text, at);
        let len = if rest.starts_with("//") {
            rest.find('\n').unwrap_or(rest.len())
        } else if rest.starts_with("/*") {
            block_comment(rest).unwrap_or_else(|| {
                self.trouble = self.trouble.or(Some(Trouble::Endless(at)));
                rest.len()
            })
        } else {
            return self.bare_word(at);
        };
        self.comments.push(at..at + len);
        at + len
    }

    fn quoted(&mut self, start: usize, inside: usize, end: &str, escapes: bool) -> usize {
        let mut at = inside;
        loop {
            let rest = rest(self.text, at);
            if rest.starts_with(end) {
                at += end.len();
                break;
            }
            let mut chars = rest.chars();
            let Some(c) = chars.next() else {
                // A quote left out turns all texts after it inside out: the first long one is where that began.
                let begun = self.long.unwrap_or(start);
                self.trouble = self.trouble.or(Some(Trouble::Endless(begun)));
                break;
            };
            at += c.len_utf8();
            if c == '\n' {
                self.long = self.long.or(Some(start));
            }
            if escapes && c == '\\' {
                at += chars.next().map_or(0, char::len_utf8);
            }
        }
        self.word(start..at);
        at
    }

    fn bare_word(&mut self, at: usize) -> usize {
        let rest = rest(self.text, at);
        let stops = |c: char| c.is_whitespace() || "/\"',:()[]{}".contains(c);
        let len = rest.char_indices().skip(1).find(|&(_, c)| stops(c)).map_or(rest.len(), |(i, _)| i);
        self.word(at..at + len);
        at + len
    }

    fn word(&mut self, span: Range<usize>) {
        if let Some(top) = self.stack.last_mut() {
            if top.pending.is_some() {
                top.flush();
            }
            top.pending = Some(span);
        }
    }

    fn mark(&mut self, at: usize, mark: char) {
        let text = self.text;
        let depth = self.stack.len();
        let Some(top) = self.stack.last_mut() else { return };
        match mark {
            ',' => top.flush(),
            ':' => top.pending_key = top.pending.take(),
            '(' | '[' | '{' => {
                let lead = top.pending.take_if(|p| is_name(text.get(p.clone()).unwrap_or_default()));
                if top.pending.is_some() {
                    top.flush();
                }
                let key = top.pending_key.take();
                self.stack.push(Frame::new(at, mark, lead.unwrap_or(at..at), key));
            }
            _ if depth == 1 => self.trouble = self.trouble.or(Some(Trouble::Stray(at))),
            _ => {
                let Some(frame) = self.stack.pop() else { return };
                if !matches!((frame.open, mark), ('(', ')') | ('[', ']') | ('{', '}')) {
                    self.trouble = self.trouble.or(Some(Trouble::Crossed { open: frame.at, close: at }));
                }
                self.put(frame.close(at + 1));
            }
        }
    }

    fn put(&mut self, node: Node) {
        if let Some(top) = self.stack.last_mut() {
            top.items.push(node);
        }
    }

    fn finish(&mut self) -> Option<Node> {
        while self.stack.len() > 1 {
            let frame = self.stack.pop()?;
            self.trouble = self.trouble.or(Some(Trouble::Unclosed(frame.at)));
            self.put(frame.close(self.text.len()));
        }
        let mut ground = self.stack.pop()?;
        ground.flush();
        ground.items.into_iter().next()
    }
}

fn rest(text: &str, at: usize) -> &str {
    text.get(at..).unwrap_or_default()
}

/// A key or text without its quotes.
pub(super) fn bare(text: &str) -> &str {
    text.strip_prefix('"').and_then(|t| t.strip_suffix('"')).unwrap_or(text)
}

fn is_name(word: &str) -> bool {
    word.starts_with(|c: char| c.is_alphabetic() || c == '_')
}

/// Hashes of `r#"`, where such a text begins here.
fn raw_string(text: &str) -> Option<usize> {
    let after = text.strip_prefix('r')?;
    let hashes = after.chars().take_while(|c| *c == '#').count();
    after.get(hashes..)?.starts_with('"').then_some(hashes)
}

/// Length of a block comment; they nest.
fn block_comment(text: &str) -> Option<usize> {
    let mut depth = 0_usize;
    let mut at = 0;
    loop {
        let here = text.get(at..)?;
        if here.starts_with("/*") {
            depth += 1;
            at += 2;
        } else if here.starts_with("*/") {
            depth -= 1;
            at += 2;
            if depth == 0 {
                return Some(at);
            }
        } else {
            at += here.chars().next()?.len_utf8();
        }
    }
}

/// Where `#![enable(...)]` lines end.
fn attributes_end(text: &str) -> usize {
    let mut at = 0;
    loop {
        let here = rest(text, at);
        let spaces = here.len() - here.trim_start().len();
        match here.trim_start().starts_with("#!").then(|| here.find(']')).flatten() {
            Some(end) => at += end + 1,
            None => return at + spaces,
        }
    }
}

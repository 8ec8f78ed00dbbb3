//! Lays compact RON out for reading and for line-by-line comparison of two versions.
//!
//! What fits stays on one line; the outermost record and every list of records take a line for each member; other
//! records are packed into as few lines as they need, so that one planting is one line or a short block.

use super::tree::{Body, Node, Tree};

/// Letters in a line.
const WIDTH: usize = 110;
const STEP: usize = 4;

/// The same value, laid out, with a newline at the end; `compact` must be well-formed.
pub(super) fn lay_out(compact: &str) -> String {
    let tree = Tree::of(compact);
    let mut out = String::new();
    if let Some(root) = &tree.root {
        Layout { tree: &tree }.put(root, 0, &mut out);
        out.push('\n');
    }
    out
}

struct Layout<'a> {
    tree: &'a Tree<'a>,
}

impl Layout<'_> {
    fn flat(&self, node: &Node, out: &mut String) {
        if let Some(key) = &node.key {
            out.push_str(self.tree.slice(key));
            out.push_str(": ");
        }
        match &node.body {
            Body::Atom => out.push_str(self.tree.slice(&node.span)),
            Body::Group { lead, open, items } => {
                out.push_str(self.tree.slice(lead));
                out.push(*open);
                for (n, item) in items.iter().enumerate() {
                    if n > 0 {
                        out.push_str(", ");
                    }
                    self.flat(item, out);
                }
                out.push(closing(*open));
            }
        }
    }

    /// Writes a value whose first line already stands at `depth`.
    fn put(&self, node: &Node, depth: usize, out: &mut String) {
        let mut line = String::new();
        self.flat(node, &mut line);
        let Body::Group { lead, open, items } = &node.body else {
            out.push_str(&line);
            return;
        };
        if items.is_empty() || (depth > 0 && fits(&line, depth)) {
            out.push_str(&line);
            return;
        }
        if let Some(key) = &node.key {
            out.push_str(self.tree.slice(key));
            out.push_str(": ");
        }
        out.push_str(self.tree.slice(lead));
        out.push(*open);
        out.push('\n');
        if depth == 0 || *open == '{' || (*open == '[' && items.iter().any(Node::is_group)) {
            for item in items {
                indent(depth + 1, out);
                self.put(item, depth + 1, out);
                out.push_str(",\n");
            }
        } else {
            self.pack(items, depth + 1, out);
        }
        indent(depth, out);
        out.push(closing(*open));
    }

    fn pack(&self, items: &[Node], depth: usize, out: &mut String) {
        let mut line = String::new();
        let end = |line: &mut String, out: &mut String| {
            if !line.is_empty() {
                indent(depth, out);
                out.push_str(line);
                out.push_str(",\n");
                line.clear();
            }
        };
        for item in items {
            let mut flat = String::new();
            self.flat(item, &mut flat);
            let together = format!("{line}, {flat}");
            if !line.is_empty() && fits(&together, depth) {
                line = together;
                continue;
            }
            end(&mut line, out);
            if fits(&flat, depth) || !item.is_group() {
                line = flat;
            } else {
                indent(depth, out);
                self.put(item, depth, out);
                out.push_str(",\n");
            }
        }
        end(&mut line, out);
    }
}

const fn closing(open: char) -> char {
    match open {
        '[' => ']',
        '{' => '}',
        _ => ')',
    }
}

fn fits(line: &str, depth: usize) -> bool {
    depth * STEP + line.chars().count() < WIDTH
}

fn indent(depth: usize, out: &mut String) {
    out.extend(std::iter::repeat_n(' ', depth * STEP));
}

//! A page as SVG text, one user unit a point: the one description every printed form is made from.

use std::collections::BTreeSet;
use std::fmt::Write as _;

use super::font::Face;
use super::ink::{Pattern, Tint};
use super::page::{Anchor, Edge, Fill, Item, Page, Text};

/// Who will read the text.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Reader {
    /// Our own drawing code, which has the faces.
    Press,
    /// A program that may lack the faces: every line of text says how long it is.
    World,
}

/// The page as SVG.
pub(super) fn page(page: &Page, reader: Reader) -> String {
    let mut o = String::with_capacity(256 * page.items.len() + 1024);
    let (w, h) = (num(page.width), num(page.height));
    put(
        &mut o,
        format_args!(
            "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{w}pt\" height=\"{h}pt\" viewBox=\"0 0 {w} {h}\">\n"
        ),
    );
    put(&mut o, format_args!("<title>{}</title>\n", escape(&page.title)));
    defs(&mut o, page);
    put(&mut o, format_args!("<rect width=\"{w}\" height=\"{h}\" fill=\"#ffffff\"/>\n"));
    for item in &page.items {
        draw(&mut o, item, reader);
    }
    o.push_str("</svg>\n");
    o
}

/// Writing to a string cannot fail.
fn put(o: &mut String, words: std::fmt::Arguments<'_>) {
    o.write_fmt(words).unwrap_or_default();
}

fn tints(page: &Page) -> BTreeSet<Tint> {
    let fill = |i: &Item| match i {
        Item::Pane(p) => Some(p.fill),
        Item::Poly(p) => Some(p.fill),
        Item::Text(_) | Item::Line(_) => None,
    };
    let hatch = |f| match f {
        Fill::Hatch(t) => Some(t),
        Fill::None | Fill::Flat(_) => None,
    };
    page.items.iter().filter_map(fill).filter_map(hatch).collect()
}

fn defs(o: &mut String, page: &Page) {
    let tints = tints(page);
    if tints.is_empty() {
        return;
    }
    o.push_str("<defs>\n");
    for t in tints {
        let (side, path) = t.pattern.tile();
        let side = num(side);
        let (ground, line) = (t.ground().hex(), t.hue.line().hex());
        let width = if t.pattern == Pattern::Dots { "1.3" } else { "0.7" };
        put(
            o,
            format_args!(
                "<pattern id=\"{}\" width=\"{side}\" height=\"{side}\" patternUnits=\"userSpaceOnUse\"><rect width=\"{side}\" height=\"{side}\" fill=\"{ground}\"/>",
                id(t)
            ),
        );
        if !path.is_empty() {
            put(
                o,
                format_args!(
                    "<path d=\"{path}\" fill=\"none\" stroke=\"{line}\" stroke-width=\"{width}\" stroke-linecap=\"{}\"/>",
                    if t.pattern == Pattern::Dots { "round" } else { "square" }
                ),
            );
        }
        o.push_str("</pattern>\n");
    }
    o.push_str("</defs>\n");
}

fn id(t: Tint) -> String {
    format!("{}-{}", t.pattern.name(), t.hue.rgb().hex().trim_start_matches('#'))
}

fn draw(o: &mut String, item: &Item, reader: Reader) {
    match item {
        Item::Text(t) => text(o, t, reader),
        Item::Pane(p) => {
            put(
                o,
                format_args!(
                    "<rect x=\"{}\" y=\"{}\" width=\"{}\" height=\"{}\"",
                    num(p.at.left),
                    num(p.at.top),
                    num(p.at.width().max(0.0)),
                    num(p.at.height().max(0.0))
                ),
            );
            if p.round > 0.0 {
                put(o, format_args!(" rx=\"{}\"", num(p.round)));
            }
            fill(o, p.fill);
            edge(o, p.edge);
            o.push_str("/>\n");
        }
        Item::Line(l) => {
            put(
                o,
                format_args!(
                    "<path d=\"M{} {}L{} {}\"",
                    num(l.from.0),
                    num(l.from.1),
                    num(l.to.0),
                    num(l.to.1)
                ),
            );
            edge(o, l.edge);
            o.push_str("/>\n");
        }
        Item::Poly(p) => {
            o.push_str("<path d=\"");
            for (n, (x, y)) in p.points.iter().enumerate() {
                put(o, format_args!("{}{} {}", if n == 0 { 'M' } else { 'L' }, num(*x), num(*y)));
            }
            o.push_str(if p.closed { "Z\"" } else { "\"" });
            fill(o, p.fill);
            edge(o, p.edge);
            o.push_str("/>\n");
        }
    }
}

fn fill(o: &mut String, fill: Fill) {
    match fill {
        Fill::None => o.push_str(" fill=\"none\""),
        Fill::Flat(c) => put(o, format_args!(" fill=\"{}\"", c.hex())),
        Fill::Hatch(t) => put(o, format_args!(" fill=\"url(#{})\"", id(t))),
    }
}

fn edge(o: &mut String, edge: Edge) {
    if edge.width <= 0.0 {
        return;
    }
    put(o, format_args!(" stroke=\"{}\" stroke-width=\"{}\"", edge.ink.hex(), num(edge.width)));
    if let Some((dash, gap)) = edge.dash {
        put(o, format_args!(" stroke-dasharray=\"{} {}\"", num(dash), num(gap)));
    }
}

fn text(o: &mut String, t: &Text, reader: Reader) {
    let s = t.style;
    put(
        o,
        format_args!(
            "<text x=\"{}\" y=\"{}\" font-size=\"{}\" fill=\"{}\"",
            num(t.x),
            num(t.y),
            num(s.size),
            s.ink.hex()
        ),
    );
    o.push_str(match s.face {
        Face::Plain | Face::Bold => {
            " font-family=\"'DejaVu Sans', Verdana, sans-serif\" font-stretch=\"condensed\""
        }
        Face::Title => " font-family=\"'DejaVu Serif', Georgia, serif\"",
        Face::Mono | Face::MonoBold => " font-family=\"'DejaVu Sans Mono', monospace\"",
    });
    if matches!(s.face, Face::Bold | Face::MonoBold) {
        o.push_str(" font-weight=\"bold\"");
    }
    o.push_str(match s.anchor {
        Anchor::Start => "",
        Anchor::Middle => " text-anchor=\"middle\"",
        Anchor::End => " text-anchor=\"end\"",
    });
    if reader == Reader::World {
        put(o, format_args!(" textLength=\"{}\" lengthAdjust=\"spacingAndGlyphs\"", num(s.width(&t.words))));
    }
    put(o, format_args!(">{}</text>\n", escape(&t.words)));
}

/// A number with at most two decimals and no needless zeros.
pub(super) fn num(x: f64) -> String {
    let mut s = format!("{x:.2}");
    while s.ends_with('0') {
        s.pop();
    }
    if s.ends_with('.') {
        s.pop();
    }
    if s == "-0" { "0".to_owned() } else { s }
}

/// Words as XML character data; letters XML forbids become spaces.
pub(super) fn escape(words: &str) -> String {
    let mut o = String::with_capacity(words.len());
    for c in words.chars() {
        match c {
            '&' => o.push_str("&amp;"),
            '<' => o.push_str("&lt;"),
            '>' => o.push_str("&gt;"),
            '"' => o.push_str("&quot;"),
            c if c.is_control() || matches!(c, '\u{fffe}' | '\u{ffff}') => o.push(' '),
            c => o.push(c),
        }
    }
    o
}

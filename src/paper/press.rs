//! Pages to PDF, PNG and SVG.

use std::sync::{Arc, OnceLock};

use krilla_svg::{SurfaceExt as _, SvgSettings};
use usvg::fontdb::{Database, Source};

use super::font::Face;
use super::page::Page;
use super::svg::{self, Reader};
use crate::units::num::narrow;

/// A printed form.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Format {
    /// One PDF of all pages, text selectable, fonts embedded.
    Pdf,
    /// One SVG a page, text as text.
    Svg,
    /// One SVG a page, letters as outlines: looks the same anywhere, ten times larger.
    SvgOutlines,
    /// One PNG a page at so many dots per inch.
    Png(u16),
}

/// Why pages could not be printed.
#[derive(Debug, thiserror::Error)]
pub enum PaperError {
    /// There was nothing to print.
    #[error("nothing to print: the sheets chosen have no pages")]
    Empty,
    /// The page description was refused.
    #[error("page {page} ({title}) could not be drawn: {why}")]
    Drawing {
        /// Number of the page, from 1.
        page: usize,
        /// What the page shows.
        title: String,
        /// What the drawing code said.
        why: String,
    },
    /// The picture is too large.
    #[error("page {page} at {dpi} dots per inch is too large a picture: ask for fewer dots")]
    TooLarge {
        /// Number of the page, from 1.
        page: usize,
        /// Dots per inch asked for.
        dpi: u16,
    },
    /// The PDF could not be closed.
    #[error("the PDF could not be finished: {0}")]
    Pdf(String),
    /// Words could not be written in this form.
    #[error("could not write {0}")]
    Words(String),
    /// It was told to stop between two pages.
    #[error("the print was stopped")]
    Stopped,
}

/// Told before each page how many are drawn and how many there are; it says whether to go on.
pub type Going<'a> = &'a mut dyn FnMut(usize, usize) -> bool;

/// Draws one page, given its number.
type Draw<'a> = dyn Fn(usize, &Page) -> Result<Vec<u8>, PaperError> + 'a;

/// Pages in a printed form: one file for PDF, one a page for the others. `title` names the document.
pub fn render(pages: &[Page], format: Format, title: &str) -> Result<Vec<Vec<u8>>, PaperError> {
    render_told(pages, format, title, &mut |_, _| true)
}

/// The same, and tells how far it is.
pub(super) fn render_told(
    pages: &[Page],
    format: Format,
    title: &str,
    going: Going<'_>,
) -> Result<Vec<Vec<u8>>, PaperError> {
    if pages.is_empty() {
        return Err(PaperError::Empty);
    }
    let all = pages.len();
    let mut each = |draw: &Draw<'_>| {
        let one = |(n, page)| if going(n - 1, all) { draw(n, page) } else { Err(PaperError::Stopped) };
        numbered(pages).map(one).collect()
    };
    match format {
        Format::Pdf => Ok(vec![pdf(pages, title, going)?]),
        Format::Svg => each(&|_, p| Ok(svg::page(p, Reader::World).into_bytes())),
        Format::SvgOutlines => {
            let plain = usvg::WriteOptions {
                preserve_text: false,
                coordinates_precision: 3,
                transforms_precision: 4,
                ..usvg::WriteOptions::default()
            };
            each(&|n, p| Ok(tree(p, n)?.to_string(&plain).into_bytes()))
        }
        Format::Png(dpi) => each(&|n, p| png(&tree(p, n)?, n, dpi)),
    }
}

fn numbered(pages: &[Page]) -> impl Iterator<Item = (usize, &Page)> {
    pages.iter().enumerate().map(|(n, p)| (n + 1, p))
}

fn fonts() -> Arc<Database> {
    static FONTS: OnceLock<Arc<Database>> = OnceLock::new();
    Arc::clone(FONTS.get_or_init(|| {
        let mut db = Database::new();
        for face in Face::ALL {
            db.load_font_source(Source::Binary(Arc::new(face.data())));
        }
        Arc::new(db)
    }))
}

/// Reads the description with our own faces only, so that the outcome does not depend on the machine's fonts.
pub(super) fn parse(words: &str) -> Result<usvg::Tree, usvg::Error> {
    let options =
        usvg::Options { fontdb: fonts(), font_family: "DejaVu Sans".to_owned(), ..usvg::Options::default() };
    usvg::Tree::from_str(words, &options)
}

fn tree(page: &Page, n: usize) -> Result<usvg::Tree, PaperError> {
    parse(&svg::page(page, Reader::Press)).map_err(|e| fault(page, n, &e.to_string()))
}

fn fault(page: &Page, n: usize, why: &str) -> PaperError {
    PaperError::Drawing { page: n, title: page.title.clone(), why: why.to_owned() }
}

fn pdf(pages: &[Page], title: &str, going: Going<'_>) -> Result<Vec<u8>, PaperError> {
    let mut doc = krilla::Document::new();
    let about = krilla::metadata::Metadata::new().title(title.to_owned()).language("en".to_owned());
    doc.set_metadata(about.creator("catchcrop".to_owned()));
    let mut outline = krilla::outline::Outline::new();
    let mut last = "";
    for (n, page) in numbered(pages) {
        if !going(n - 1, pages.len()) {
            return Err(PaperError::Stopped);
        }
        let tree = tree(page, n)?;
        let (w, h) = (narrow(page.width), narrow(page.height));
        let size = krilla::geom::Size::from_wh(w, h).ok_or_else(|| fault(page, n, "it has no size"))?;
        let mut sheet = doc.start_page_with(krilla::page::PageSettings::new(size));
        let mut surface = sheet.surface();
        surface
            .draw_svg(&tree, size, SvgSettings::default())
            .ok_or_else(|| fault(page, n, "the drawing was refused"))?;
        surface.finish();
        sheet.finish();
        if page.title != last {
            let top = krilla::geom::Point::from_xy(0.0, 0.0);
            let spot = krilla::destination::XyzDestination::new(n - 1, top);
            outline.push_child(krilla::outline::OutlineNode::new(page.title.clone(), spot));
            last = &page.title;
        }
    }
    doc.set_outline(outline);
    doc.finish().map_err(|e| PaperError::Pdf(format!("{e:?}")))
}

/// A drawing as PNG; a point is 1/72 in, and the drawing is measured in 1/96 in.
fn png(tree: &usvg::Tree, page: usize, dpi: u16) -> Result<Vec<u8>, PaperError> {
    bitmap(tree, f32::from(dpi) / 96.0).ok_or(PaperError::TooLarge { page, dpi })
}

/// A drawing as PNG, enlarged; `None` when the picture would be too large or empty.
pub(super) fn bitmap(tree: &usvg::Tree, scale: f32) -> Option<Vec<u8>> {
    let size = tree.size().to_int_size().scale_by(scale)?;
    let mut map = resvg::tiny_skia::Pixmap::new(size.width(), size.height())?;
    resvg::render(tree, usvg::Transform::from_scale(scale, scale), &mut map.as_mut());
    map.encode_png().ok()
}

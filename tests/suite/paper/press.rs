//! The printed forms: equal bytes, embedded fonts, words that come back, pages of the right size.

use std::io::Write as _;
use std::process::{Command, Stdio};

use catchcrop::paper::{ADVICE, Format, Paper, missing, render};

use super::{demo, sheets};

/// Runs a reader of the system over the bytes; `None`, and a printed line, where it is not installed.
fn reader(program: &str, options: &[&str], bytes: &[u8]) -> Option<String> {
    let mut file = tempfile::NamedTempFile::new().unwrap();
    file.write_all(bytes).unwrap();
    let path = file.path().to_str().unwrap().to_owned();
    let mut line: Vec<&str> = options.to_vec();
    let at = line.iter().position(|o| *o == "FILE").unwrap();
    line[at] = &path;
    let Ok(out) = Command::new(program).args(line).stdin(Stdio::null()).output() else {
        println!("skipped: {program} is not installed");
        return None;
    };
    assert!(out.status.success(), "{program}: {}", String::from_utf8_lossy(&out.stderr));
    Some(String::from_utf8_lossy(&out.stdout).into_owned())
}

#[test]
fn equal_pages_give_equal_bytes() {
    let pages = demo::book(demo::season(9).pages(&demo::imprint(Paper::A4)), "equal");
    for format in [Format::Pdf, Format::Svg, Format::SvgOutlines, Format::Png(60)] {
        let (a, b) = (render(&pages, format, "Season").unwrap(), render(&pages, format, "Season").unwrap());
        assert!(a == b, "{format:?} differs from one run to the next");
        assert_eq!(a.len(), if format == Format::Pdf { 1 } else { pages.len() });
    }
}

#[test]
fn pdf_carries_its_fonts_and_its_words() {
    for (paper, size) in [(Paper::A4, "841.89 x 595.28"), (Paper::Letter, "792 x 612")] {
        let imprint = demo::imprint(paper);
        let mut pages = demo::season(9).pages(&imprint);
        pages.extend(demo::jobs(4).pages(&imprint));
        let pages = demo::book(pages, "mixed");
        let pdf = render(&pages, Format::Pdf, "Season 2027").unwrap().remove(0);
        assert!(pdf.starts_with(b"%PDF-"));
        if let Some(text) = reader("pdftotext", &["-layout", "FILE", "-"], &pdf) {
            for words in
                ["The season of 2027", "Nightshades", "Sow radish", ADVICE, "Printed 24 November 2026"]
            {
                assert!(text.contains(words), "'{words}' does not come back from the PDF");
            }
            assert!(text.contains(&format!("page 1 of {}", pages.len())));
        }
        if let Some(fonts) = reader("pdffonts", &["FILE"], &pdf) {
            let rows: Vec<_> = fonts.lines().skip(2).collect();
            assert!(!rows.is_empty());
            for row in rows {
                assert!(row.contains("DejaVu"), "{row}");
                assert!(row.contains("yes yes yes"), "embedded, subset, with words: {row}");
            }
        }
        if let Some(info) = reader("pdfinfo", &["FILE"], &pdf) {
            assert!(info.contains(size), "{info}");
            assert!(info.contains("Season 2027"));
            assert!(info.contains(&format!("Pages:           {}", pages.len())), "{info}");
            assert!(!info.contains("CreationDate"), "a date of making would change the bytes");
        }
    }
}

/// Darkness, 0 to 1, of the parts of a picture: so many across and down.
fn parts(png: &[u8], across: u32, down: u32) -> (u32, u32, Vec<f64>) {
    let picture = resvg::tiny_skia::Pixmap::decode_png(png).unwrap();
    let (width, height) = (picture.width(), picture.height());
    let mut dark = vec![(0.0, 0.0); usize::try_from(across * down).unwrap()];
    for y in 0..height {
        for x in 0..width {
            let dot = picture.pixel(x, y).unwrap();
            let light = f64::from(dot.red()) + f64::from(dot.green()) + f64::from(dot.blue());
            let part = &mut dark[usize::try_from(y * down / height * across + x * across / width).unwrap()];
            *part = (part.0 + 1.0 - light / 765.0, part.1 + 1.0);
        }
    }
    (width, height, dark.into_iter().map(|(sum, dots)| sum / dots).collect())
}

#[test]
fn another_renderer_draws_every_sheet_alike() {
    let imprint = demo::imprint(Paper::Letter);
    let mut pages = demo::season(9).pages(&imprint);
    pages.extend(demo::jobs(2).pages(&imprint));
    pages.extend(sheets::ground(&[20]).pages(&imprint));
    pages.extend(sheets::ground(&[14, 24, 34, 44]).pages(&imprint));
    pages.extend(sheets::kitchen(16).pages(&imprint));
    pages.extend(sheets::needs().pages(&imprint));
    pages.extend(sheets::record(14, 6).pages(&imprint));
    pages.extend(sheets::labels(20).pages(&imprint));
    pages.extend(sheets::summary(12).pages(&imprint));
    pages.extend(sheets::pickings().pages(&imprint));
    let pages = demo::book(pages, "drawn");
    let pdf = render(&pages, Format::Pdf, "Season 2027").unwrap().remove(0);
    let folder = tempfile::tempdir().unwrap();
    let stem = folder.path().join("page").to_str().unwrap().to_owned();
    if reader("pdftoppm", &["-r", "60", "-png", "FILE", &stem], &pdf).is_none() {
        return;
    }
    let mut drawn: Vec<_> = std::fs::read_dir(folder.path()).unwrap().map(|f| f.unwrap().path()).collect();
    drawn.sort();
    let own = render(&pages, Format::Png(60), "Season 2027").unwrap();
    assert_eq!(drawn.len(), own.len());
    let mut worst = 0.0_f64;
    for (n, (own, other)) in own.iter().zip(drawn).enumerate() {
        let (ours, theirs) = (parts(own, 12, 16), parts(&std::fs::read(other).unwrap(), 12, 16));
        assert!(
            ours.0.abs_diff(theirs.0) <= 1 && ours.1.abs_diff(theirs.1) <= 1,
            "page {n} has another size"
        );
        assert!(ours.2.iter().any(|d| *d > 0.02), "page {n} is empty");
        for (a, b) in ours.2.iter().zip(&theirs.2) {
            worst = worst.max((a - b).abs());
        }
    }
    println!("{} pages, darkness of their parts within {worst:.3}", pages.len());
    assert!(worst < 0.08, "{worst}");
}

#[test]
fn png_has_the_dots_asked_for() {
    let pages = demo::jobs(1).pages(&demo::imprint(Paper::Letter));
    let png = render(&pages, Format::Png(100), "Jobs").unwrap().remove(0);
    let side = |at: usize| u32::from_be_bytes(png[at..at + 4].try_into().unwrap());
    assert_eq!((side(16), side(20)), (850, 1100), "8.5 x 11 in at 100 dots per inch");
}

#[test]
fn svg_is_xml_that_says_how_long_its_lines_are() {
    let mut season = demo::season(2);
    season.title = "Peas & <beans> \u{7} \"quoted\"".to_owned();
    let pages = season.pages(&demo::imprint(Paper::A4));
    let svg = String::from_utf8(render(&pages, Format::Svg, "x").unwrap().remove(0)).unwrap();
    assert!(svg.contains("Peas &amp; &lt;beans&gt;"));
    assert!(svg.contains("textLength"));
    usvg::Tree::from_str(&svg, &usvg::Options::default()).unwrap();
    let plain = String::from_utf8(render(&pages, Format::SvgOutlines, "x").unwrap().remove(0)).unwrap();
    assert!(!plain.contains("<text"), "outlines hold no text");
}

#[test]
fn letters_no_face_has_are_reported() {
    let mut list = demo::jobs(1);
    assert_eq!(missing(&list.pages(&demo::imprint(Paper::A4))), []);
    list.weeks[0].jobs[0].what = "Sow \u{1f345} and \u{8304}".to_owned();
    let found = missing(&list.pages(&demo::imprint(Paper::A4)));
    let letters: Vec<_> = found.iter().map(|m| m.letter).collect();
    assert_eq!(letters, ['\u{8304}', '\u{1f345}']);
    assert!(found[0].words.contains("Sow"));
}

#[test]
fn nothing_to_print_is_said() {
    let error = render(&[], Format::Pdf, "x").unwrap_err().to_string();
    assert!(error.contains("nothing to print"), "{error}");
}

//! Pictures of the terminal.

use catchcrop::paper::{Rgb, TermCell, TermPicture};

fn screen(rows: &[&str]) -> TermPicture {
    let cols = 44;
    let mut cells = Vec::new();
    for (r, row) in rows.iter().enumerate() {
        let mut line: Vec<TermCell> = row
            .chars()
            .enumerate()
            .map(|(c, symbol)| TermCell {
                symbol: symbol.to_string(),
                fg: if c % 17 > 8 { Rgb(0xe6, 0x9f, 0) } else { Rgb(0xd8, 0xd8, 0xd0) },
                bg: if r == 2 && c < 20 { Rgb(0, 0x72, 0xb2) } else { Rgb(0x1c, 0x1e, 0x1c) },
                bold: r == 1,
                underline: r == 3,
            })
            .collect();
        let blank = TermCell { symbol: " ".to_owned(), underline: false, ..line[0].clone() };
        line.resize(cols, blank);
        cells.extend(line);
    }
    TermPicture { cols, rows: rows.len(), cells, ground: Rgb(0x1c, 0x1e, 0x1c) }
}

#[test]
fn a_screen_becomes_a_picture() {
    let rows = [
        "\u{250c}\u{2500} weeks \u{2500}\u{2500}\u{2500}\u{2500}\u{2510}  \u{2600} 12 h 51  \u{2744} 3 in 10",
        "\u{2502} Tomato     \u{2502}  \u{2588}\u{2588}\u{2588}\u{2593}\u{2592}\u{2591}\u{2584}\u{2580}\u{258c}\u{2590}\u{2581}\u{2582}\u{2583}",
        "\u{2502} Pea & bean \u{2502}  \u{25cf}\u{2500}\u{2500}\u{25b2}\u{2588}\u{2588}\u{25c6}\u{2588} \u{2713} \u{26a0}",
        "\u{2514}\u{2500}\u{2500}\u{2500}\u{2500}\u{2500}\u{2500}\u{2500}\u{2500}\u{2500}\u{2500}\u{2500}\u{2500}\u{2518}  underlined <words>",
    ];
    let picture = screen(&rows);
    let svg = picture.svg();
    assert_eq!(svg, picture.svg());
    assert!(svg.contains(">Tomato</text>"), "a word is one text");
    assert!(svg.contains("&amp;") && svg.contains("&lt;words&gt;"));
    let png = picture.png(2).unwrap();
    let side = |at: usize| u32::from_be_bytes(png[at..at + 4].try_into().unwrap());
    assert_eq!((side(16), side(20)), (2 * (44 * 9 + 20), 2 * (4 * 17 + 20)));
    if let Ok(folder) = std::env::var("CATCHCROP_PAPER_OUT") {
        std::fs::write(format!("{folder}/screen.png"), png).unwrap();
    }
}

#[test]
fn wide_symbols_take_two_cells() {
    let mut picture = screen(&["ab"]);
    picture.cells[0].symbol = "\u{8304}".to_owned();
    picture.cells[1].symbol = String::new();
    let svg = picture.svg();
    assert!(svg.contains("textLength=\"18\""), "{svg}");
}

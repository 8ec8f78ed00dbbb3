//! A crop as a page of text.

use catchcrop::crop::{CropId, list, page};
use catchcrop::store::book;
use catchcrop::units::Measure;

fn shown(id: &str, measure: Measure) -> String {
    page(book().get(&CropId::new(id)).unwrap(), book(), measure)
}

#[test]
fn a_page_shows_figures_sources_and_disagreement() {
    insta::assert_snapshot!("carrot_metric", shown("carrot", Measure::Metric));
    insta::assert_snapshot!("garlic_us", shown("garlic", Measure::Us));
    insta::assert_snapshot!("daffodil", shown("daffodil", Measure::Us));
}

/// Every page keeps the width, names every code it uses, and shows each caution and each other figure.
#[test]
fn every_page_is_whole() {
    for crop in book().crops() {
        for measure in [Measure::Us, Measure::Metric] {
            let page = page(crop, book(), measure);
            for line in page.lines() {
                let one_word = line.split_whitespace().count() <= 2;
                assert!(line.chars().count() <= 80 || one_word, "{}: {line}", crop.id);
            }
            assert!(!page.contains("not in the list of sources"), "{page}");
            assert!(!page.contains("no source named"), "{page}");
            let flat = page.split_whitespace().collect::<Vec<_>>().join(" ");
            for caution in &crop.cautions {
                assert!(flat.contains(&caution.words), "{}: {}", crop.id, caution.words);
            }
            for other in &crop.differs {
                assert!(flat.contains(&other.says), "{}: {}", crop.id, other.says);
            }
        }
    }
}

#[test]
fn the_list_has_a_line_for_each_crop() {
    let text = list(book(), Measure::Metric);
    for crop in book().crops() {
        assert_eq!(
            text.lines().filter(|l| l.trim_start().starts_with(&format!("{} ", crop.id))).count(),
            1,
            "{}",
            crop.id
        );
    }
    let head: Vec<&str> = text.lines().take(24).collect();
    insta::assert_snapshot!("list_head", head.join("\n"));
}

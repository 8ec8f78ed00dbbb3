//! Finding crops by what they are called and by what they need.

use catchcrop::crop::{By, CropId, Use, Wanted};
use catchcrop::store::book;
use catchcrop::units::Measure;

fn first(text: &str) -> String {
    book().search(text).first().map_or_else(String::new, |hit| hit.crop.id.0.clone())
}
fn named(text: &str) -> String {
    book().named(text).map_or_else(|e| e.to_string(), |crop| crop.id.0.clone())
}

#[test]
fn both_sides_of_the_atlantic_find_the_same_crop() {
    let pairs = [
        ("eggplant", "aubergine"),
        ("zucchini", "courgette"),
        ("cilantro", "coriander leaf"),
        ("cilantro", "coriander"),
        ("rocket", "arugula"),
        ("rutabaga", "swede"),
        ("spring-onion", "scallion"),
        ("beet", "beetroot"),
        ("pak-choi", "bok choy"),
        ("bean", "snap bean"),
        ("bean", "French bean"),
        ("broad-bean", "fava bean"),
        ("corn", "sweetcorn"),
        ("chard", "silverbeet"),
        ("pepper", "capsicum"),
        ("lambs-lettuce", "corn salad"),
        ("lambs-lettuce", "mâche"),
        ("chicory", "Belgian endive"),
        ("southern-pea", "cowpea"),
        ("winter-purslane", "miner's lettuce"),
        ("cornflower", "Bachelor's Button"),
        ("nz-spinach", "warrigal greens"),
    ];
    for (id, word) in pairs {
        assert_eq!(first(word), id, "search {word}");
        assert_eq!(named(word), id, "named {word}");
    }
}

#[test]
fn ids_names_plurals_and_word_order_are_one() {
    for (word, id) in [
        ("bean-pole", "bean-pole"),
        ("bean pole", "bean-pole"),
        ("Bean, climbing", "bean-pole"),
        ("pole beans", "bean-pole"),
        ("tomatoes", "tomato"),
        ("radishes", "radish"),
        ("carrots", "carrot"),
        ("Leaf lettuce", "lettuce"),
        ("lettuce leaf", "lettuce"),
        ("Daucus carota", "carrot"),
        ("butternut squash", "butternut"),
        ("  Kale ", "kale"),
        ("asparagus", "asparagus"),
        ("cress", "cress"),
        ("Phaseolus coccineus", "runner-bean"),
    ] {
        assert_eq!(named(word), id, "{word}");
    }
}

#[test]
fn slips_of_the_pen_are_answered_with_the_nearest() {
    for (word, id) in [
        ("tomatoe", "tomato"),
        ("brocoli", "broccoli"),
        ("zuchini", "zucchini"),
        ("cucumbr", "cucumber"),
        ("raddish", "radish"),
        ("spinnach", "spinach"),
        ("cabage", "cabbage"),
        ("brussel sprouts", "brussels-sprouts"),
        ("parsly", "parsley"),
        ("calendular", "calendula"),
    ] {
        let error = book().named(word).map(|c| c.id.0.clone());
        let near = match &error {
            Ok(found) => found.clone(),
            Err(unknown) => {
                assert!(unknown.to_string().contains("did you mean"), "{unknown}");
                unknown.near.first().map_or_else(String::new, |(_, id)| id.0.clone())
            }
        };
        assert_eq!(near, id, "{word}: {error:?}");
    }
    insta::assert_snapshot!(book().named("brocoli").unwrap_err(), @"no crop of the book is called 'brocoli': did you mean 'broccoli' or 'broccoli-raab'?");
    insta::assert_snapshot!(book().named("zuchini").unwrap_err(), @"no crop of the book is called 'zuchini': did you mean 'zucchini'?");
    insta::assert_snapshot!(book().named("Beta vulgaris").unwrap_err(), @"no crop of the book is called 'Beta vulgaris': did you mean 'beet' (Beta vulgaris) or 'chard' (Beta vulgaris)?");
    insta::assert_snapshot!(book().named("qwxyz").unwrap_err(), @"no crop of the book is called 'qwxyz'");
    assert!(book().search("  ").is_empty() && book().search("qwxyz").is_empty());
}

#[test]
fn families_and_uses_find_their_crops() {
    let nightshades = book().search("nightshades");
    assert!(nightshades.iter().all(|hit| hit.crop.family == "Solanaceae" && hit.by == By::Family));
    assert!(nightshades.iter().any(|hit| hit.crop.id.as_str() == "petunia"));
    assert_eq!(nightshades.len(), book().crops().filter(|c| c.family == "Solanaceae").count());
    let covers = book().search("green manure");
    assert!(covers.len() >= 8 && covers.iter().all(|hit| hit.crop.is_for(Use::Cover)), "{}", covers.len());
    let herbs = book().search("herb").len();
    assert!(herbs >= 20, "{herbs}");
    // The crop itself comes before its varieties, and before what only resembles it.
    let lettuce: Vec<&str> = book().search("lettuce").iter().map(|h| h.crop.id.as_str()).collect();
    assert_eq!(lettuce.first(), Some(&"lettuce"));
    assert!(lettuce.contains(&"lettuce-head") && lettuce.contains(&"lettuce-baby"));
}

/// Every crop is found by its own id, name and other names, the first of all that answer.
#[test]
fn every_name_finds_its_crop() {
    for crop in book().crops() {
        for word in [crop.id.as_str(), &crop.name].into_iter().chain(crop.also.iter().map(String::as_str)) {
            let found = book().named(word).unwrap_or_else(|e| panic!("{}: {e}", crop.id));
            assert_eq!(found.base(), crop.base(), "{word} finds {}", found.id);
        }
    }
}

#[test]
fn wants_leave_only_what_fits() {
    let ids = |wanted: &Wanted| -> Vec<&str> {
        book().suited(wanted, |_| true).into_iter().map(|c| c.id.as_str()).collect()
    };
    let all = book().crops().count();
    assert_eq!(ids(&Wanted::default()).len(), all);
    let shade = ids(&Wanted { uses: vec![Use::Food], sun: Some(3.0), ..Wanted::default() });
    assert!(shade.contains(&"lettuce") && !shade.contains(&"tomato"), "{shade:?}");
    let pot = Some(("1 gal".parse().unwrap(), "7 in".parse().unwrap()));
    let pots = ids(&Wanted { pot, ..Wanted::default() });
    assert!(
        pots.contains(&"radish") && !pots.contains(&"tomato") && !pots.contains(&"asparagus"),
        "{pots:?}"
    );
    let gap = ids(&Wanted { days: Some(40), uses: vec![Use::Food], ..Wanted::default() });
    assert!(gap.contains(&"radish") && gap.contains(&"lettuce-baby") && !gap.contains(&"carrot"), "{gap:?}");
    let flat = ids(&Wanted { support: Some(false), ..Wanted::default() });
    assert!(!flat.contains(&"bean-pole") && flat.contains(&"bean"));
    let shallow = ids(&Wanted { depth: Some("15 cm".parse().unwrap()), ..Wanted::default() });
    assert!(shallow.contains(&"radish") && !shallow.contains(&"parsnip"));
    let small = ids(&Wanted { room: Some("1 ft".parse().unwrap()), ..Wanted::default() });
    assert!(small.contains(&"carrot") && !small.contains(&"pumpkin"));
    let only = Wanted { family: Some(String::from("Poaceae")), ..Wanted::default() };
    assert!(book().suited(&only, |_| true).iter().all(|c| c.family == "Poaceae"));
    // The growth of the site has the last word.
    assert_eq!(book().suited(&Wanted::default(), |c| c.id == CropId::new("kale")).len(), 1);
    assert_eq!(catchcrop::crop::list(book(), Measure::Us).lines().count(), all + book().families().count());
}

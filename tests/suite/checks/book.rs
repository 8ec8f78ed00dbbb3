//! The crop book holds the facts on which the rules rest, each with its published source.

use catchcrop::crop::{BreakWeight, CautionKind, Crop, CropId, Grade, Trouble};
use catchcrop::store;

fn crop(id: &str) -> &'static Crop {
    store::book().get(&CropId::new(id)).unwrap_or_else(|| panic!("no {id} in the book"))
}
fn trouble(id: &str) -> &'static Trouble {
    store::book().trouble(id).unwrap()
}
fn harms(id: &str, host: &str) -> bool {
    store::book().harms(trouble(id), crop(host))
}

/// Clemson radio notes 2019 and 2020 (petunia and the like are nightshades); Minnesota master gardener column
/// (tomatillo and ground cherry); sweet potato is none, from memory.
#[test]
fn flowers_and_fruits_of_the_nightshades_count_and_sweet_potato_does_not() {
    for id in ["tomato", "pepper", "eggplant", "potato", "tomatillo", "ground-cherry", "petunia", "nicotiana"]
    {
        assert_eq!(crop(id).family, "Solanaceae", "{id}");
    }
    if let Some(sweet) = store::book().get(&CropId::new("sweet-potato")) {
        assert_eq!(sweet.family, "Convolvulaceae");
    }
}

/// General advice of NC State; University of California IPM (Verticillium of tomato 3 years); University of
/// Connecticut IPM (eggplant 4).
#[test]
fn nightshades_stop_below_three_free_years_and_eggplant_is_advised_four() {
    let book = store::book();
    for id in ["tomato", "potato", "petunia"] {
        let rotation = book.rotation(crop(id));
        assert_eq!((rotation.least, rotation.weight), (3, BreakWeight::Stop), "{id}");
    }
    let eggplant = book.rotation(crop("eggplant"));
    assert_eq!((eggplant.least, eggplant.advised, eggplant.weight), (3, 4, BreakWeight::Stop));
}

/// Family lists of extension services: radish, rocket, turnip and stock are of the cabbage family; peas, beans, sweet
/// pea, clover and vetch are legumes, once a season.
#[test]
fn catch_crops_cover_crops_and_flowers_belong_to_their_families() {
    for id in ["radish", "rocket", "turnip", "mustard", "stock", "kale"] {
        assert_eq!(crop(id).family, "Brassicaceae", "{id}");
    }
    for id in ["pea", "bean", "sweet-pea", "crimson-clover", "hairy-vetch"] {
        assert_eq!(crop(id).family, "Fabaceae", "{id}");
    }
    assert!(store::book().family("Fabaceae").unwrap().once_a_season);
}

/// University of Connecticut IPM rotation table: clubroot 7 years, radish and turnip too; half of its spores are gone
/// in 3 to 6 years (Pacific Northwest Plant Disease Handbook), so that 20 to 45 % are left after 7.
#[test]
fn clubroot_asks_for_seven_years_of_every_brassica() {
    assert_eq!((trouble("clubroot").least, trouble("clubroot").advised), (7, 7));
    for id in ["kale", "radish", "turnip", "stock"] {
        assert!(harms("clubroot", id), "{id}");
    }
    assert!(!harms("clubroot", "lettuce"));
    assert!(trouble("clubroot").survives.contains("3-6 years"));
    let left = |half_life: f64| 0.5_f64.powf(7.0 / half_life);
    assert!((left(3.0) - 0.20).abs() < 0.005 && (left(6.0) - 0.45).abs() < 0.005);
}

/// University of Connecticut: Verticillium wilt 4 years, avoid tomato, potato, pepper and strawberry; it also lives on
/// cucumber, pumpkin, cabbage and Brussels sprouts, which is told and not enforced.
#[test]
fn verticillium_crosses_families() {
    assert_eq!(trouble("verticillium").advised, 4);
    for id in ["eggplant", "tomato", "potato", "pepper", "strawberry"] {
        assert!(harms("verticillium", id), "{id}");
    }
    for word in ["cucumber", "pumpkin", "cabbage", "Brussels sprouts"] {
        assert!(trouble("verticillium").also_on.contains(word), "{word}");
    }
    assert!(!harms("verticillium", "cabbage"));
}

/// Pacific Northwest Plant Disease Handbook and Netherlands Journal of Plant Pathology 99 (1993): peas one year in six.
#[test]
fn peas_after_recorded_root_rot_wait_six_years() {
    assert_eq!(trouble("pea-root-rot").advised, 6);
    assert!(harms("pea-root-rot", "pea") && !harms("pea-root-rot", "broad-bean"));
}

/// Entomologia Experimentalis et Applicata 1984: onions protect carrots only while they are young.
#[test]
fn onion_helps_carrot_only_while_it_is_young() {
    let claim = crop("carrot").neighbours.iter().find(|n| n.with == "onion").unwrap();
    assert_eq!((claim.grade, claim.helps), (Grade::B, true));
    assert!(claim.why.contains("young") && claim.why.contains("bulb"), "{}", claim.why);
}

/// PMC2620405: marigold lowers root-knot nematodes as a solid stand only; scattered plants get no credit.
/// West Virginia University 2004: basil does not better the taste of tomatoes.
#[test]
fn scattered_marigolds_and_basil_get_no_credit() {
    for with in ["basil", "marigold-french"] {
        let claim = crop("tomato").neighbours.iter().find(|n| n.with == with).unwrap();
        assert_eq!(claim.grade, Grade::X, "{with}");
    }
}

/// Lincoln University (Missouri): hubbard squash as a trap crop, started two weeks earlier.
#[test]
fn trap_squash_is_told_with_its_condition() {
    let claim = crop("cucumber").neighbours.iter().find(|n| n.with == "winter-squash").unwrap();
    assert_eq!(claim.grade, Grade::B);
    assert!(claim.why.contains("two weeks earlier"), "{}", claim.why);
}

/// FDA Bad Bug Book by way of Ohio State University: soak 5 hours or more, boil hard 30 minutes, no slow cooker.
#[test]
fn raw_kidney_beans_are_warned_of() {
    let words: Vec<&str> = crop("bean")
        .cautions
        .iter()
        .filter(|c| c.kind == CautionKind::CookFirst)
        .map(|c| c.words.as_str())
        .collect();
    let text = words.join(" ");
    for part in ["5 h", "30 min", "slow cooker"] {
        assert!(text.contains(part), "{part}: {text}");
    }
}

/// Poison lists: sweet pea (Lathyrus odoratus) is no pea.
#[test]
fn sweet_pea_is_marked_as_no_food() {
    let sweet = crop("sweet-pea");
    assert_eq!(sweet.botanical, "Lathyrus odoratus");
    assert!(!sweet.is_food() && sweet.cautions.iter().any(|c| c.kind == CautionKind::NotFood));
    let looks =
        |c: &CautionKind| matches!(c, CautionKind::LooksLike(ids) if ids.contains(&CropId::new("pea")));
    assert!(sweet.cautions.iter().any(|c| looks(&c.kind)));
}

/// Texas extension bulletins E-545 and EHT-062: least volumes of pots.
#[test]
fn pots_have_their_published_least_volumes() {
    for (id, gallons, plants) in [
        ("eggplant", 5.0, 1),
        ("broccoli", 2.0, 1),
        ("cucumber", 1.0, 1),
        ("lettuce", 1.0, 2),
        ("carrot", 1.0, 3),
    ] {
        let need = crop(id).pot.unwrap();
        let a_plant = need.volume.litres() / f64::from(need.plants);
        let published = gallons * 3.785_411_784 / f64::from(plants);
        println!("{id}: {a_plant:.2} L a plant in the book, {published:.2} published");
        assert!(a_plant >= published * 0.98, "{id}: {a_plant} L a plant, published {published}");
    }
}

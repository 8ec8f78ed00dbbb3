//! How many plants fit: published spacing, placed plant by plant.

use catchcrop::garden::{Block, placed, plants_in, shapes};
use catchcrop::units::{Length, LengthUnit};
use proptest::prelude::*;

fn inches(value: f64) -> Length {
    Length::new(value, LengthUnit::In)
}
fn foot() -> Length {
    Length::new(1.0, LengthUnit::Ft)
}
fn thirty() -> Length {
    Length::new(30.0, LengthUnit::Cm)
}

/// Spacing from Virginia Cooperative Extension 426-335 and the Kansas State master gardeners' list: floor(12/s)^2.
#[test]
fn a_cell_holds_its_own_square_grid() {
    for (s, n) in [(2.0, 36), (3.0, 16), (4.0, 9), (6.0, 4), (12.0, 1)] {
        assert_eq!(plants_in(inches(s), 1, 1, foot()), n, "{s} in on a 1 ft cell");
        assert_eq!(plants_in(inches(s), 1, 1, thirty()), n, "{s} in on a 30 cm cell");
    }
    // The same in centimetres, as packets print them.
    for (s, n) in [(5.0, 36), (7.5, 16), (10.0, 9), (15.0, 4), (30.0, 1)] {
        let s = Length::new(s, LengthUnit::Cm);
        assert_eq!(plants_in(s, 1, 1, thirty()), n, "{s} on a 30 cm cell");
        assert_eq!(plants_in(s, 1, 1, foot()), n, "{s} on a 1 ft cell");
    }
}

/// Computed: in a 4x4 box three columns of two, the middle one shifted, keep 18.03 in; a square grid holds 4.
#[test]
fn shifted_columns_beat_the_grid_at_eighteen_inches() {
    assert_eq!(plants_in(inches(18.0), 4, 4, foot()), 6);
    assert_eq!(plants_in(inches(18.0), 4, 4, thirty()), 6);
    assert_eq!(plants_in(inches(18.0), 2, 2, foot()), 1);
    assert_eq!(plants_in(inches(18.0), 3, 3, foot()), 4);
    assert_eq!(plants_in(inches(24.0), 4, 4, foot()), 4);
    assert_eq!(plants_in(inches(12.0), 4, 4, foot()), 16);
    assert_eq!(plants_in(inches(15.0), 4, 4, foot()), 9);
    assert_eq!(plants_in(inches(9.0), 4, 4, foot()), 27);
}

#[test]
fn middling_spacings_gain_from_a_block_of_four_cells() {
    for (s, n) in [(8.0, 9), (9.0, 6), (10.0, 4)] {
        assert_eq!(plants_in(inches(s), 2, 2, foot()), n, "{s} in on 2x2 cells");
        assert_eq!(plants_in(inches(s), 1, 1, foot()), 1, "{s} in on one cell");
    }
}

#[test]
fn large_crops_offer_several_shapes() {
    let of = shapes(inches(18.0), 4, 4, foot());
    for wanted in [(2, 2, 1), (3, 3, 4), (4, 4, 6)] {
        assert!(of.contains(&wanted), "{wanted:?} in {of:?}");
    }
    assert_eq!(shapes(inches(3.0), 4, 4, foot()), vec![(1, 1, 16)]);
    assert!(shapes(inches(36.0), 2, 2, foot()).is_empty(), "a 3 ft plant has no shape in a 2x2 bed");
}

#[test]
fn blocks_are_named_like_a_map() {
    assert_eq!(Block::cell(0, 0).to_string(), "A1");
    assert_eq!(Block { row: 1, col: 1, rows: 2, cols: 2 }.to_string(), "B2-C3");
    assert_eq!(Block::cell(0, 27).to_string(), "AB1");
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn placed_plants_keep_their_distance(across in 5.0_f64..120.0, down in 5.0_f64..120.0, s in 1.5_f64..40.0) {
        let points = placed(across, down, s);
        for (i, a) in points.iter().enumerate() {
            prop_assert!(a.0 >= s * 0.48 && a.0 <= across - s * 0.48, "{a:?} in {across}x{down}");
            prop_assert!(a.1 >= s * 0.48 && a.1 <= down - s * 0.48);
            for b in &points[i + 1..] {
                let d = (a.0 - b.0).hypot(a.1 - b.1);
                prop_assert!(d >= s * 0.979, "{d} < {s} between {a:?} and {b:?}");
            }
        }
    }

    #[test]
    fn blocks_overlap_when_they_share_a_cell(a in (0_u16..6, 0_u16..6, 1_u16..4, 1_u16..4), b in (0_u16..6, 0_u16..6, 1_u16..4, 1_u16..4)) {
        let a = Block { row: a.0, col: a.1, rows: a.2, cols: a.3 };
        let b = Block { row: b.0, col: b.1, rows: b.2, cols: b.3 };
        prop_assert_eq!(a.overlaps(b), a.cells().any(|(r, c)| b.holds(r, c)));
    }
}

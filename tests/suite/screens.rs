//! Screens: keys in, what the window shows out.

use crate::support::{example, opened, press, screen};

#[test]
fn ground_of_the_courtyard() {
    let mut model = opened(example("courtyard"));
    insta::assert_snapshot!("ground_80x24", screen(&mut model, 80, 24));
    press(&mut model, "npx");
    insta::assert_snapshot!("new_pot_80x24", screen(&mut model, 80, 24));
}

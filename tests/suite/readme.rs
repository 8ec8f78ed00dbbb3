//! The README tells the truth: its keys are the key table's, its commands exist, its pictures are there.

use std::fs;
use std::path::Path;
use std::process::Command;

const OPEN: &str = "<!-- keys -->";
const CLOSE: &str = "<!-- end of keys -->";

fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

#[test]
fn the_key_list_is_the_key_table() {
    let path = root().join("README.md");
    let text = fs::read_to_string(&path).unwrap();
    let (before, rest) = text.split_once(OPEN).unwrap();
    let (list, after) = rest.split_once(CLOSE).unwrap();
    let wanted = format!("\n{}\n", catchcrop::app::keymap::readme().trim());
    if list != wanted && std::env::var("INSTA_UPDATE").is_ok_and(|v| v == "always") {
        fs::write(&path, format!("{before}{OPEN}{wanted}{CLOSE}{after}")).unwrap();
        return;
    }
    assert_eq!(list, wanted, "run the test once with INSTA_UPDATE=always");
}

#[test]
fn commands_and_pictures_exist() {
    let text = fs::read_to_string(root().join("README.md")).unwrap();
    let help = Command::new(env!("CARGO_BIN_EXE_catchcrop")).arg("--help").output().unwrap();
    let help = String::from_utf8(help.stdout).unwrap();
    let table = text.split_once("| command | does |").unwrap().1.split_once("Exit codes").unwrap().0;
    let mut named = 0;
    for line in table.lines().filter(|l| l.starts_with("| `")) {
        let command = line.trim_start_matches("| `").split([' ', '`']).next().unwrap();
        if command != "catchcrop" {
            named += 1;
            assert!(
                help.contains(&format!("\n  {command} ")),
                "{command} is in the README but not in the help"
            );
        }
    }
    assert!(named >= 10);
    let pictures = text.matches("](screenshots/").count();
    assert!(pictures >= 5, "five pictures show what the program is like, and {pictures} are there");
    for part in text.split("](").skip(1) {
        let file = part.split(')').next().unwrap();
        assert!(root().join(file).exists(), "{file} is shown in the README but not there");
    }
}

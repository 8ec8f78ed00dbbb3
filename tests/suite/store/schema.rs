//! Older schemas: frozen files that must open for ever.

use super::{book, courtyard};
use catchcrop::calendar::read_date;
use catchcrop::garden::{Block, Kind};
use catchcrop::plan::{Pattern, SCHEMA, Stood};
use catchcrop::store::{self, Over, PlanFile};

/// Written when schema 0 was current; never to be changed.
const SCHEMA_0: &str = include_str!("old/schema-0.ron");

#[test]
fn schema_0_opens_as_todays_plan() {
    let (plan, remarks) = store::read_plan("old.ron", SCHEMA_0, book()).unwrap();
    assert_eq!(remarks, []);
    assert_eq!(plan.schema, SCHEMA);
    assert_eq!((plan.name.as_str(), plan.note.as_str()), ("Tannery Steps", "three boxes on the lower step"));
    assert_eq!(plan.site.preset.as_deref(), Some("london"));
    assert_eq!(plan.site.last_frost.unwrap().to_string(), "04-20");
    assert!(plan.site.normals.is_some(), "a plan stands alone");
    let ids: Vec<&str> = plan.places.iter().map(|p| p.id.0.as_str()).collect();
    assert_eq!(ids, ["upper-box", "lower-box", "cut-flowers"]);
    assert_eq!(plan.places[2].kind, Kind::FlowerBed);
    let carrot = &plan.plantings[0];
    assert_eq!((carrot.name.as_str(), carrot.family.as_str()), ("Carrot", "Apiaceae"));
    assert_eq!(carrot.place.0, "lower-box");
    assert_eq!(carrot.block, Block { row: 1, col: 0, rows: 2, cols: 3 });
    assert_eq!(carrot.begins(), read_date("2026-04-11").ok());
    assert_eq!(carrot.ends(), read_date("2026-08-01").ok());
    assert_eq!(plan.record[0].stood, Stood::Family("Solanaceae".into()));
    assert_eq!(plan.record[0].to, read_date("2025-12-31").unwrap(), "the year alone counts to its last day");
    assert_eq!((plan.wishes[0].pattern, plan.wishes[0].importance), (Pattern::Even, 4));
}

#[test]
fn a_migrated_file_is_kept_as_it_was() {
    let dir = tempfile::tempdir().unwrap();
    let path = dir.path().join("old.ron");
    std::fs::write(&path, SCHEMA_0).unwrap();
    let (loaded, mut file) = PlanFile::open(&path, book()).unwrap();
    assert!(loaded.said[0].contains("of schema 0"), "{:?}", loaded.said);
    assert_eq!(std::fs::read_to_string(&path).unwrap(), SCHEMA_0, "opening writes nothing");
    let saved = file.save(&loaded.plan, Over::Never).unwrap();
    assert!(saved.said[0].contains("old.ron.schema-0"), "{:?}", saved.said);
    assert_eq!(std::fs::read_to_string(dir.path().join("old.ron.schema-0")).unwrap(), SCHEMA_0);
    let again = store::look(&path, book()).unwrap();
    assert_eq!(again.plan, loaded.plan);
    assert!(again.said.is_empty() && again.remarks.is_empty(), "{:?}", again.remarks);
}

#[test]
fn mistakes_in_an_old_file_point_into_it() {
    let bad = SCHEMA_0.replace("bed: \"Lower box\", cells", "bed: \"Lowr box\", cells");
    let error = store::read_plan("old.ron", &bad, book()).unwrap_err().to_string();
    assert!(
        error.contains("there is no bed 'Lowr box'") && error.contains("did you mean 'Lower box'?"),
        "{error}"
    );
    assert!(error.contains("old.ron:18:"), "{error}");
    let never = store::read_plan("old.ron", &SCHEMA_0.replace("schema: 0", "schema: nought"), book());
    assert!(never.unwrap_err().to_string().contains("the schema number is a whole number"));
}

#[test]
fn todays_text_states_todays_schema() {
    let text = store::plan_text(&courtyard()).unwrap();
    assert!(text.contains(&format!("\n    schema: {SCHEMA},\n")), "{text}");
}

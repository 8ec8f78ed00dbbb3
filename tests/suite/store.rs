//! Files: what comes back is what was written, nothing is lost, and mistakes are said where they stand.

mod crops;
mod files;
mod mistakes;
mod own;
mod schema;
mod years;

use catchcrop::crop::Book;
use catchcrop::plan::Plan;
use catchcrop::store;

/// The courtyard of `plans/`, read.
fn courtyard() -> Plan {
    plan(include_str!("../../plans/courtyard.ron"))
}

fn plan(text: &str) -> Plan {
    store::read_plan("garden.ron", text, book()).unwrap_or_else(|e| panic!("{e}")).0
}

fn book() -> &'static Book {
    store::book()
}

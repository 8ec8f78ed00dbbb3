//! Tests of: site.
#![allow(
    clippy::unreadable_literal,
    clippy::cast_precision_loss,
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    clippy::cast_possible_wrap,
    clippy::float_cmp,
    clippy::similar_names,
    reason = "golden values are written as they were printed"
)]

mod curves;
mod frost;
mod inputs;
mod light;
mod page;
mod properties;
mod shade;
mod station;
mod sun;

use std::path::PathBuf;

/// The reference folder beside the project, where it is present.
pub(crate) fn reference(path: &str) -> Option<PathBuf> {
    let root = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("../shared/reference");
    let found = Some(root.join(path)).filter(|p| p.exists());
    if found.is_none() {
        println!("skipped: reference/{path} is not here");
    }
    found
}

/// Golden values, where they are present.
pub(crate) fn golden(name: &str) -> Option<serde_json::Value> {
    let path = reference(&format!("climate/golden/{name}"))?;
    Some(serde_json::from_str(&std::fs::read_to_string(path).unwrap()).unwrap())
}

pub(crate) fn list(value: &serde_json::Value) -> Vec<f64> {
    value.as_array().unwrap().iter().map(|v| v.as_f64().unwrap()).collect()
}

fn twelve(value: &serde_json::Value) -> [f64; 12] {
    list(value).try_into().unwrap()
}

#[track_caller]
pub(crate) fn close(a: f64, b: f64, tolerance: f64) {
    assert!((a - b).abs() <= tolerance, "{a} is not within {tolerance} of {b}");
}

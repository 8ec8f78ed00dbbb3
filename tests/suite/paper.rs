//! Tests of: paper.

mod demo;
mod geometry;
mod press;

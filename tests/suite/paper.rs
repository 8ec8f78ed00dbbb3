//! Tests of: paper.

mod demo;
mod geometry;
mod picture;
mod press;

//! Tests of: paper.

mod demo;
mod forms;
mod geometry;
mod picture;
mod press;
mod sheets;

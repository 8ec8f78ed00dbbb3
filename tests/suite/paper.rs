//! Tests of: paper.

mod adapter;
mod demo;
mod filled;
mod forms;
mod geometry;
mod picture;
mod press;
mod sheets;

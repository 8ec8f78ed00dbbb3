//! catchcrop plans and runs an intensive small-space garden through the year and across years.
//!
//! The rooms, in the order of dependency: a room uses only rooms above it.
//!
//! | room | what happens there |
//! |---|---|
//! | [`units`] | lengths, volumes, masses, temperatures with the unit they were typed in |
//! | [`calendar`] | dates, ISO weeks, season spans, garden days |
//! | [`site`] | sun, normals to daily curves, frost chances, degree days, soil temperature, ET0, shade |
//! | [`crop`] | the crop book: schema, inheritance, validation, lookup |
//! | [`growth`] | (crop, site year, start) to a crop schedule; its inverse; chances |
//! | [`garden`] | beds, pots, cells, blocks, how many plants fit |
//! | [`plan`] | wishes, plantings, record, diary, edits with inverses, history |
//! | [`check`] | findings: one file a rule |
//! | [`fill`] | the optimiser: problem, search, bound, reasons |
//! | [`work`] | jobs of a week, re-forecast, needs |
//! | [`paper`] | one page description to SVG, PDF, PNG; text, CSV, iCalendar, Markdown |
//! | [`store`] | files: crop book, plan, atomic saving, lock, spans of errors |
//! | [`app`] | model, message, update, effect, key table: the program without a terminal |
//! | [`screen`] | the terminal shell: run loop, worker, views, theme |
//! | [`cli`] | arguments, subcommands, words to the user, exit codes |

pub mod app;
pub mod calendar;
pub mod check;
pub mod cli;
pub mod crop;
pub mod fill;
pub mod garden;
pub mod growth;
pub mod paper;
pub mod plan;
pub mod screen;
pub mod site;
pub mod store;
pub mod units;
pub mod work;

//! The judge: one file a rule, each with a plan that triggers it and a near miss that does not.

mod crowded;
mod dates;
mod fits;
mod garden;
mod mate;
mod overlap;
mod past;
mod pots;
mod returns;
mod roots;
mod set_aside;
mod support;
mod tags;
mod trouble;
mod twice;
mod unknown;
mod wording;

//! Quantities with the unit they were typed in, and the only conversion factors of the program.

pub mod num;

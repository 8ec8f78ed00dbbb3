//! Findings are read aloud: plain words, no code, a place, a day, a figure, one thing to do.

//! The questions about a new garden, one a line: those of the screen, asked where there is only a line to write on.
//! Enter takes the answer in brackets, and an answer that is none is asked again with words.

use super::answer::Trouble;
use super::say;
use crate::app::{Step, Wizard};
use crate::calendar::Date;
use crate::crop::Book;
use crate::plan::Plan;
use std::io::{BufRead, Write};

/// Asks about a new garden; `today` tells which the last years are.
pub(super) fn ask(
    input: &mut impl BufRead,
    output: &mut impl Write,
    name: &str,
    today: Date,
    book: &Book,
) -> Result<Plan, Trouble> {
    let fail = |e: std::io::Error| Trouble::Io(format!("the questions were broken off: {e}"));
    let mut wizard = Wizard::named(name);
    for (n, step) in (1..).zip(Step::ALL) {
        loop {
            let usual = wizard.usual(step);
            let shown = if usual.is_empty() { "none" } else { usual.as_str() };
            let more = if step == Step::Climate { " ('?' lists them)" } else { "" };
            write!(output, "{n:>2}. {}{more} [{shown}] ", step.words())
                .and_then(|()| output.flush())
                .map_err(fail)?;
            let mut line = String::new();
            if input.read_line(&mut line).map_err(fail)? == 0 {
                return Err(Trouble::Io(String::from("the questions were broken off; nothing was written")));
            }
            let answer = if line.trim().is_empty() { &usual } else { line.trim() };
            let said = if step == Step::Climate && answer == "?" {
                Err(format!("\n{}", say::climates_text()).replace('\n', "\n    "))
            } else {
                wizard.take(step, answer, book, today)
            };
            match said {
                Ok(words) if words.is_empty() => break,
                Ok(words) => {
                    writeln!(output, "    {words}").map_err(fail)?;
                    break;
                }
                Err(words) => writeln!(output, "    {words}").map_err(fail)?,
            }
        }
    }
    wizard.plan(book, today).map_err(Trouble::Wrong)
}

//! Without a command: the garden on the screen, or its week as text where there is no terminal.

use super::{Sight, report, sight};
use crate::calendar::Date;
use crate::cli::answer::{Answer, Trouble};
use crate::cli::args::{Cli, GroundWord};
use crate::cli::here::Here;
use crate::cli::whence;
use crate::screen::{self, Options};
use crate::store::{self, Fault, Ground, Loaded, PlanFile, StoreError};
use clap::CommandFactory;
use std::path::Path;
use std::sync::Arc;

/// The garden that opens where none is named.
const EXAMPLE: &str = include_str!(concat!(env!("CARGO_MANIFEST_DIR"), "/plans/courtyard.ron"));
const EXAMPLE_NAME: &str = "the example garden";

/// Opens the garden.
pub(super) fn garden(cli: &Cli, here: &Here) -> Result<Answer, Trouble> {
    if here.screen && here.keyboard {
        return on_screen(cli, here);
    }
    let sight = match &cli.plan {
        Some(path) => sight(path, here).map_err(|trouble| command_meant(path, trouble))?,
        None => example(here)?,
    };
    let report = report(&sight, cli.on, here)?;
    Ok(Answer::text(report.words()).saying(sight.said))
}

fn on_screen(cli: &Cli, here: &Here) -> Result<Answer, Trouble> {
    let mut said = Vec::new();
    let (preferences, words) = here.config.as_deref().map(store::preferences).unwrap_or_default();
    said.extend(words);
    let light = match (cli.ground, preferences.ground) {
        (Some(GroundWord::Light), _) | (None, Ground::Light) => Some(true),
        (Some(GroundWord::Dark), _) | (None, Ground::Dark) => Some(false),
        (None, Ground::Auto) => None,
    };
    let (sight, file, mut note) = if let Some(path) = &cli.plan {
        let book = whence::book(Some(path), here, &mut said);
        let (loaded, file) =
            PlanFile::open(path, &book).map_err(|error| command_meant(path, error.into()))?;
        (Sight { loaded, book, said: Vec::new() }, Some(file), None)
    } else {
        let words = "The example garden: try anything; saving asks for a file of your own.";
        (example(here)?, None, Some(words.to_owned()))
    };
    let Loaded { plan, remarks, said: loading, recovery } = sight.loaded;
    said.extend(sight.said);
    said.extend(loading);
    // One line on the screen; the reports in full follow when the screen is left.
    let first = said.first().and_then(|s| s.lines().next()).map(str::to_owned);
    note = first.or_else(|| remarks.first().map(Fault::line_text)).or(note);
    said.extend(remarks.iter().map(ToString::to_string));
    screen::run(Options {
        plan,
        file,
        recovery,
        book: Arc::new(sight.book.into_owned()),
        today: cli.on.unwrap_or(here.today),
        clock: cli.on.is_none().then_some(clock),
        ascii: cli.ascii || preferences.ascii,
        light,
        mouse: preferences.mouse,
        tour: cli.plan.is_none() && here.config.as_deref().is_some_and(|folder| !store::is_toured(folder)),
        config: here.config.clone(),
        note,
    })
    .map_err(|error| Trouble::Io(format!("{error:#}")))?;
    Ok(Answer::text("").saying(said))
}

fn clock() -> Date {
    Here::now().today
}

/// The example garden, in memory only.
fn example(here: &Here) -> Result<Sight, Trouble> {
    let mut said = Vec::new();
    let book = whence::book(None, here, &mut said);
    let (plan, remarks) = store::read_plan(EXAMPLE_NAME, EXAMPLE, &book)?;
    said.extend(remarks.iter().map(ToString::to_string));
    Ok(Sight { loaded: Loaded { plan, remarks: Vec::new(), said: Vec::new(), recovery: None }, book, said })
}

/// A missing file whose name is like a command's was meant as one.
fn command_meant(path: &Path, trouble: Trouble) -> Trouble {
    let missing = matches!(&trouble, Trouble::Store(StoreError::NotThere { near: None, .. }));
    let word = path.to_str().filter(|_| missing && path.extension().is_none());
    let command = Cli::command();
    let names: Vec<&str> =
        command.get_subcommands().filter(|c| !c.is_hide_set()).map(clap::Command::get_name).collect();
    match word.and_then(|word| store::nearest(word, names.iter().copied()).map(|near| (word, near))) {
        Some((word, near)) => {
            Trouble::Wrong(format!("there is no command and no file '{word}'; did you mean '{near}'?"))
        }
        None => trouble,
    }
}

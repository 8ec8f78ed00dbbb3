//! What this process finds around it: the day, the folder of the grower's settings, the terminal.

use crate::calendar::Date;
use etcetera::{BaseStrategy, choose_base_strategy};
use std::io::IsTerminal;
use std::path::PathBuf;

/// What this process finds around it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Here {
    /// Today by the clock of this machine.
    pub(super) today: Date,
    /// Folder of the grower's own crops and settings.
    pub(super) config: Option<PathBuf>,
    /// Whether a person looks at what is printed.
    pub(super) screen: bool,
    /// Whether a person can be asked.
    pub(super) keyboard: bool,
}

impl Here {
    /// Looks round.
    pub(super) fn now() -> Self {
        Self {
            today: chrono::Local::now().date_naive(),
            config: choose_base_strategy().ok().map(|base| base.config_dir().join("catchcrop")),
            screen: std::io::stdout().is_terminal(),
            keyboard: std::io::stdin().is_terminal(),
        }
    }
}

//! Where one machine keeps what belongs to it alone: the history logs, and what a user would miss.

use std::path::{Path, PathBuf};

use super::StoreError;

/// The user's own directories. They need not exist yet.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Places {
    /// What should outlive a restart and need not be backed up: the history logs.
    pub state: PathBuf,
    /// What the user would miss.
    pub data: PathBuf,
    /// What can be made anew at any time: small copies of pictures.
    pub cache: PathBuf,
}

impl Places {
    /// Where this system wants them; on Linux the XDG base directories.
    ///
    /// # Errors
    /// [`StoreError::NoHome`].
    pub fn of_user() -> Result<Self, StoreError> {
        let dirs = directories::ProjectDirs::from("", "", "shirr").ok_or(StoreError::NoHome)?;
        Ok(Self {
            state: dirs.state_dir().unwrap_or_else(|| dirs.data_local_dir()).to_path_buf(),
            data: dirs.data_dir().to_path_buf(),
            cache: dirs.cache_dir().to_path_buf(),
        })
    }

    /// All of them below one directory.
    pub fn below(dir: impl AsRef<Path>) -> Self {
        let below = |name| dir.as_ref().join(name);
        Self { state: below("state"), data: below("data"), cache: below("cache") }
    }
}

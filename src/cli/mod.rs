//! To come.

/// To come.
pub fn main() -> std::process::ExitCode {
    std::process::ExitCode::SUCCESS
}

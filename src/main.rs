//! The `shirr` program: everything is in the library.

fn main() -> std::process::ExitCode {
    shirr::cli::main()
}

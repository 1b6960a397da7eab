//! The starters and the demo are embedded; a new file among them must be noticed.
#![allow(clippy::print_stdout, reason = "this is how a build script speaks")]

fn main() {
    println!("cargo::rerun-if-changed=boards");
    println!("cargo::rerun-if-changed=demo-board");
}

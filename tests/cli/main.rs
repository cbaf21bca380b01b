//! The command line as scripts and people see it.

#[path = "../support/mod.rs"]
mod support;

mod help;
mod demo;
mod merge_file;
mod readme;

//! The command line as scripts and people see it.

#[path = "../support/mod.rs"]
mod support;

mod demo;
mod help;
mod merge_file;

//! The command line as scripts and people see it.

#[path = "../support/mod.rs"]
mod support;

mod ancestor;
mod demo;
mod help;
mod merge_file;
#[cfg(unix)]
mod merge_file_unix;
mod readme;

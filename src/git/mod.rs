//! Everything that touches a repository: where it is, what its configuration and attributes say,
//! the driver protocol, and files replaced whole or not at all.
//!
//! Two ways lead in. What runs once a merged file ([`Place`], [`Config`], [`attributes`],
//! [`protocol`], [`record`]) reads a handful of small files itself, because starting a process or
//! opening a whole repository would cost more than the merge. What a person runs ([`Git`]) asks
//! the git binary, so that the answer is git's own.

pub mod attributes;
pub mod block;
mod config;
pub mod merge_tree;
pub mod operation;
mod place;
pub mod present;
pub mod protocol;
mod quote;
pub mod record;
mod replace;
mod run;
mod scratch;
pub mod section;
pub mod today;
pub mod tracked;
pub mod unmerged;

pub use config::{BadValue, Config, algorithm};
pub use place::Place;
pub use quote::shell_word;
pub use replace::{ReplaceError, replace, replace_passing, resolve_links};
pub use run::{Git, GitError};
pub use scratch::Scratch;

/// An I/O error in C's words, as git prints it: without Rust's "(os error 2)" and what others put
/// behind that.
pub fn plain(error: &std::io::Error) -> String {
    let text = error.to_string();
    match text.find(" (os error ") {
        Some(end) => text[..end].to_owned(),
        None => text,
    }
}

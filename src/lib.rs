//! *pleach* merges three versions of a source file as syntax trees, and falls back to git's line
//! merge wherever the trees disagree or anything at all is in doubt.
//!
//! The library reads bytes and answers bytes; it does no I/O. [`merge`] is the whole of it:
//!
//! ```
//! use pleach::{Settings, Versions, grammar, merge};
//!
//! let versions = Versions {
//!     base: &b"tide = fetch(station)\n"[..],
//!     ours: b"tide = fetch(station, unit='m')\n",
//!     theirs: b"tide = fetch(station, timeout=5)\n",
//! };
//! let language = grammar::for_path(b"tides.py", versions.ours);
//! let answer = merge(versions, language, &Settings::default());
//! assert_eq!(answer.conflicts, 0);
//! assert_eq!(answer.text, b"tide = fetch(station, unit='m', timeout=5)\n");
//! ```

mod answer;
mod case;
mod edits;
mod excerpt;
mod once;
mod relaid;
mod threads;
mod versions;

pub mod checking;
pub mod commands;
pub mod git;
pub mod grammar;
pub mod layout;
pub mod line;
pub mod matching;
pub mod merging;
pub mod report;
pub mod syntax;

pub use answer::{Answer, Combined, Kept, Settings, Sought, Way, merge};
pub use versions::{Side, Version, Versions};

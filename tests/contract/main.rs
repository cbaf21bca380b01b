//! The contract of pleach, K1 to K9 of the design, a module each.
//!
//! The checks are made from outside: they read answers with code that shares nothing with the merge.
//! What is merged are real sources with generated edits, the same at every run. With
//! `PLEACH_EXHAUSTIVE=1` every source on the machine is tried instead of a sample:
//!
//! ```text
//! PLEACH_EXHAUSTIVE=1 cargo test --release --test contract every_source
//! ```
//!
//! With `PLEACH_TEST_SEED`, a number, the same sources get other edits: what holds for the committed ones only
//! holds by chance.
//!
//! ```text
//! PLEACH_TEST_SEED=7 cargo test --release --test contract
//! ```

#[path = "../edited/mod.rs"]
mod edited;

mod every_source;
mod hostile;
mod k1_identity;
mod k2_mirror;
mod k3_never_worse_than_lines;
mod k4_sound;
mod k5_books;
mod k6_bytes_kept;
mod k7_always_an_answer;
mod k8_deterministic;
mod k9_nothing_else_lost;
mod merged;

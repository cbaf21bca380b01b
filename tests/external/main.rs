//! pleach against oracles that share nothing with it: git itself, published results, other parsers.
//!
//! With `PLEACH_TEST_SEED`, a number, generated inputs are others than the committed ones.

#[path = "../edited/mod.rs"]
mod edited;

mod behaviour;
mod git;
mod line_diff;
mod line_merge;
mod python;
mod python_calls;
mod python_fits;
mod python_lists;
mod python_names;
mod python_parses;
mod python_runs;
mod python_strings;
mod requirement_names;
mod rust_compiles;
mod rust_parses;
mod texts;
mod toml_values;

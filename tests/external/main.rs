//! pleach against oracles that share nothing with it: git itself, published results, other parsers.

#[path = "../edited/mod.rs"]
mod edited;

mod git;
mod line_diff;
mod line_merge;
mod python;
mod python_calls;
mod python_parses;
mod requirement_names;
mod rust_parses;
mod texts;
mod toml_values;

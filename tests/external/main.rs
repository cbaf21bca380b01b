//! pleach against oracles that share nothing with it: git itself, published results, other parsers.

mod git;
mod line_diff;
mod line_merge;
mod texts;

//! Parsing, incremental and guarded, and the compact tree the rest works on.

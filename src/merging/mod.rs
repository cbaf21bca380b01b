//! Three trees to one.
